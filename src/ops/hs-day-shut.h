// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-day-solve.h"

G_BEGIN_DECLS

/* A shorter wait at a counter is not worth a word. */
#define HS_DAY_SHUT_SECONDS 120

void hs_shut_part_free (HsShutPart *part);

/* hs_day_shut_fill: adds to @plan, which was made of @solved, the parts that wait for a counter which is shut. */
gboolean hs_day_shut_fill (HsDayPlan *plan, const HsDaySolved *solved, HsStore *store, GError **error);

G_END_DECLS
