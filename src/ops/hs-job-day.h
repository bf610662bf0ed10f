// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-book.h"
#include "hs-job-row.h"

G_BEGIN_DECLS

/**
 * hs_job_day:
 * @ret_day: (out): the day of the latest arrival, else the day it is planned for, else the day of the call
 *
 * The day by which people speak of a job.
 */
gboolean hs_job_day (HsBook *book, const HsJobRow *job, HsDate *ret_day, GError **error);

G_END_DECLS
