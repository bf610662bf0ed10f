// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Whether "parked how long" fits what the meter says: days parked × draw against the charge that a battery can give. */

/**
 * HsParked:
 * @days: how long, from the answer
 * @give: how far that may be off, in days: "3 days" is anything from 2.5 to 3.5
 */
typedef struct
{
  double days;
  double give;
} HsParked;

/**
 * hs_parked_parse:
 * @text: an answer in words: "16 hours", "about two weeks", "10 to 14 days", "overnight"; a number alone is days
 * @ret_parked: (out): untouched on failure
 *
 * The first time that the answer names counts; whatever else stands in it is passed over.
 *
 * Returns: %FALSE if no time can be read out of it: "since Friday", "a while"
 */
gboolean hs_parked_parse (const char *text, HsParked *ret_parked);

/* What the arithmetic says to the answer. */
typedef enum
{
  HS_PARKED_FITS,
  HS_PARKED_DOES_NOT_FIT,
  HS_PARKED_CANNOT_TELL,
} HsParkedVerdict;

/* hs_parked_verdict_label: (transfer none): "fits", "does not fit", "can't tell". */
const char *hs_parked_verdict_label (HsParkedVerdict verdict);

/**
 * HsParkedCase:
 * @parked: (nullable): what was answered; %NULL if there is no answer or no time in it
 * @amps: sleeping draw; 0 or less if it was not measured
 * @amp_hours: 20 h rating; 0 or less if it is not known
 * @share: of a full battery that may be gone before it no longer starts; %HS_DRAIN_USUAL_SHARE
 */
typedef struct
{
  const HsParked *parked;
  double amps;
  double amp_hours;
  double share;
} HsParkedCase;

/**
 * HsParkedResult:
 * @days: to no-start at this draw; 0 if that cannot be told
 * @words: one sentence with the sum
 */
typedef struct
{
  HsParkedVerdict verdict;
  double days;
  char *words;
} HsParkedResult;

/**
 * hs_parked_judge:
 *
 * days to no-start = Ah × share / (A × 24). The answer fits if the time parked, with what it may be off, reaches that.
 * It says what a full and sound battery would do; a worn one is flat sooner, and the sentence says so where it matters.
 *
 * Returns: (transfer full): free with hs_parked_result_free()
 */
HsParkedResult *hs_parked_judge (const HsParkedCase *given);
void hs_parked_result_free (HsParkedResult *result);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsParkedResult, hs_parked_result_free)

G_END_DECLS
