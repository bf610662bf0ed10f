// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-book.h"
#include "hs-date.h"
#include "hs-repair-op.h"
#include "hs-stage.h"

G_BEGIN_DECLS

/**
 * HsSquareOutlook: what hs_job_square() would freeze now, told before it is done.
 * @net_cents, @tax_cents, @paid_cents: of the bill as it stands; @due_on: when the rest is due
 * @no_work: neither a call-out nor labor is on the bill, and not because it is on the house or called off
 * @may_price: the price list adds something to it: work that is missing or that the clock is past
 * @work_cents: what call-out and labor come to by the price list, for @minutes on site
 * @n_yes, @n_no, @n_later: options that were told and picked
 * @unproved_why: (nullable): why it was not tested
 * @repair: (nullable): what is left open of its proof; %NULL for a job that was called off
 * @refusal: (nullable): the sentence that stands against it; @place: (nullable): where that is mended, as in
 *   hs_job_block_place()
 */
typedef struct
{
  char *number;
  HsStage stage;
  gint64 net_cents;
  gint64 tax_cents;
  gint64 paid_cents;
  HsDate due_on;
  gboolean no_work;
  gboolean may_price;
  gint64 minutes;
  gint64 work_cents;
  guint n_yes;
  guint n_no;
  guint n_later;
  char *unproved_why;
  HsRepair *repair;
  char *refusal;
  const char *place;
} HsSquareOutlook;

void hs_square_outlook_free (HsSquareOutlook *outlook);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsSquareOutlook, hs_square_outlook_free)

/** hs_square_outlook_load: (transfer full) (nullable): reads only. */
HsSquareOutlook *hs_square_outlook_load (HsBook *book, const char *job_id, HsInstant now, GError **error);

/**
 * hs_job_block_place:
 *
 * Returns: (nullable): the face of the job's page where what stands against a move is mended: `safety`,
 *   `read-after` (the readings after the repair), `why`, `choices` or `after`; %NULL: on none
 */
const char *hs_job_block_place (HsStageWhyNot why_not);

G_END_DECLS
