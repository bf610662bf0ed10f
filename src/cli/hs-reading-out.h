// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-job-op.h"
#include "hs-json-out.h"

G_BEGIN_DECLS

/* A reading with its verdict, printed the same way by `job`, `reading` and `check`. */

void hs_reading_out_write (HsJsonOut *out, const char *name, const HsReadingResult *result);
void hs_reading_out_print (const HsReadingResult *result);

G_END_DECLS
