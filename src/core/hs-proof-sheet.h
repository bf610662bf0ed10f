// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-verdict.h"

G_BEGIN_DECLS

/**
 * HsProofValue: one reading as it stands on a sheet.
 * @text: (nullable): "11.95 V"; %NULL: not taken
 * @word: (nullable): the verdict in its box
 * @verdict: the box; @do_not_drive: the double one instead
 */
typedef struct
{
  char *text;
  char *word;
  HsVerdict verdict;
  gboolean do_not_drive;
} HsProofValue;

/**
 * HsProofChange: one check before and after.
 * @name: of the check; @place: (nullable): where
 * @limit: (nullable): what it was held against; @source: (nullable): who says so
 */
typedef struct
{
  char *name;
  char *place;
  char *limit;
  char *source;
  HsProofValue before;
  HsProofValue after;
} HsProofChange;

/**
 * HsProofLine: something with more said about it: a part with its cover, what was declined with its risk.
 * @figure: (nullable): a sum, at the end of the line
 * @more: (element-type utf8): said under it
 */
typedef struct
{
  char *what;
  char *figure;
  GPtrArray *more;
} HsProofLine;

/**
 * HsProofSheet: the proof sheet of a job, "Before and after", as values and words; it names no cost price and nobody
 * but the owner of the vehicle.
 * @business: (nullable): who did the work
 * @number: of the job; @day: when, in words
 * @plate, @vehicle, @owner: (nullable)
 * @odometer: (nullable): with its unit
 * @complaint: in the caller's own words
 * @changes: (element-type HsProofChange)
 * @why: (element-type utf8): why it failed, in sentences
 * @parts: (element-type HsProofLine): what was installed
 * @declined: (element-type HsProofLine): what the customer said no or later to
 * @looked_after: (element-type utf8): what was disturbed and is right again
 * @open: (element-type utf8): what was asked for and not done, in sentences
 * @tried: (nullable): "5 of 5"
 * @unproved_why: (nullable): why it could not be proven
 * @safe: (nullable): id of whether it is safe to drive
 * @paper_size: (nullable): `letter` or `A4`
 */
typedef struct
{
  char *business;
  char *number;
  char *day;
  char *plate;
  char *vehicle;
  char *owner;
  char *odometer;
  char *complaint;
  GPtrArray *changes;
  GPtrArray *why;
  GPtrArray *parts;
  GPtrArray *declined;
  GPtrArray *looked_after;
  GPtrArray *open;
  char *tried;
  char *unproved_why;
  char *safe;
  char *paper_size;
} HsProofSheet;

/* hs_proof_sheet_new: (transfer full): with nothing on it. */
HsProofSheet *hs_proof_sheet_new (void);
void hs_proof_sheet_free (HsProofSheet *sheet);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsProofSheet, hs_proof_sheet_free)

/* hs_proof_sheet_add_change: (transfer none): an empty one, to be filled in. */
HsProofChange *hs_proof_sheet_add_change (HsProofSheet *sheet);

/* hs_proof_line_add: (transfer none): a line at the end of @lines. */
HsProofLine *hs_proof_line_add (GPtrArray *lines, const char *what, const char *figure);

/**
 * hs_proof_sheet_dup_file_name:
 *
 * Returns: (transfer full): a name for its file that any system takes, from the job and the vehicle:
 *   "A-0024-TDM-4409-Halvik-Lodden-2009.pdf"
 */
char *hs_proof_sheet_dup_file_name (const HsProofSheet *sheet);

/* hs_proof_sheet_is_good: it was tested and nothing stands against it: no reason why not, no failed try, nothing that
 * is outside after the repair. */
gboolean hs_proof_sheet_is_good (const HsProofSheet *sheet);

G_END_DECLS
