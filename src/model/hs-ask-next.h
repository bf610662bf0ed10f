// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-ask.h"

G_BEGIN_DECLS

/* hs_ask_job_next: fills `nexts` of @shot, whose view and sheets are there, the job's own complaint first; empty for a
 * job that is over. Checks that are offered get a line on the sheet of what is read before the repair. */
gboolean hs_ask_job_next (HsBook *book, HsJobShot *shot, const char *job_id, HsInstant now, GError **error);

G_END_DECLS
