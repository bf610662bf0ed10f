// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-ask.h"

G_BEGIN_DECLS

/**
 * hs_job_left_dup_open:
 *
 * What would be left open if the job were tested good by one key: it is said once, and a second key goes on all the
 * same.
 *
 * Returns: (transfer full) (nullable): a sentence
 */
char *hs_job_left_dup_open (const HsJobShot *shot);

/* hs_job_left_dup_unsafe: (transfer full) (nullable): what of the safety list is not gone through on this visit. */
char *hs_job_left_dup_unsafe (const HsJobShot *shot);

/* hs_job_left_is_shut: nothing is measured or found before the items of high voltage are answered.
 * hs_job_left_dup_shut: (transfer full) (nullable): why nothing is measured, and what to do. */
gboolean hs_job_left_is_shut (const HsJobShot *shot);
char *hs_job_left_dup_shut (const HsJobShot *shot);

/* hs_job_left_dup_off: (transfer full) (nullable): that the job is off the road, and how it is taken up again. */
char *hs_job_left_dup_off (const HsJobShot *shot);

G_END_DECLS
