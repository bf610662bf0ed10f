// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * What the clock adds to the bill of a job that is not priced yet. The bill, the customer's page, the go-ahead and the
 * command line ask here, so that all of them come to one sum. A job that was given for nothing or called off runs up no
 * more; one that was priced and tests good keeps its price.
 */

#include "hs-bill-private.h"

#include "hs-job-life.h"
#include "hs-job-op.h"
#include "hs-money.h"
#include "hs-ops-private.h"

static gboolean
is_kind (const HsLineRow *line, const char *kind)
{
  return g_str_equal (line->kind, kind);
}

gboolean
hs_bill_is_work (const HsLineRow *line)
{
  return is_kind (line, "labor") || is_kind (line, "call_out");
}

/* What pricing or a fixed price wrote, not what an option expects of the work. */
static gboolean
is_priced (const HsLineRow *line)
{
  return hs_bill_is_work (line) && line->advice_line_id == NULL;
}

static gboolean
runs (const HsJobRow *job, GPtrArray *lines)
{
  gboolean proven = g_str_equal (job->stage, hs_stage_id (HS_STAGE_PROVEN));
  HsStage stage;

  if (!hs_stage_parse (job->stage, &stage, NULL) || !hs_stage_is_open (stage))
    return FALSE;
  for (guint i = 0; i < lines->len; i++)
    if (is_kind (g_ptr_array_index (lines, i), "goodwill")
        || (proven && is_priced (g_ptr_array_index (lines, i))))
      return FALSE;
  return TRUE;
}

static gboolean
sum_work (GPtrArray *lines, gint64 *ret_cents, GError **error)
{
  gint64 cents = 0;

  for (guint i = 0; i < lines->len; i++)
    {
      const HsLineRow *line = g_ptr_array_index (lines, i);

      if (hs_bill_is_work (line)
          && !hs_money_sum ((const gint64[]) { cents, line->price_cents }, 2, &cents, error))
        return FALSE;
    }
  *ret_cents = cents;
  return TRUE;
}

/* By how much the clock is past the work on the bill; a visit that never arrived costs nothing. */
static gboolean
weigh_clock (HsBook *book, const char *job_id, GPtrArray *lines, HsInstant now, HsBillClock *clock, GError **error)
{
  gint64 seconds, work_cents, clock_cents;

  if (!hs_visit_seconds (book, job_id, now, &seconds, error) || !sum_work (lines, &work_cents, error))
    return FALSE;
  if (seconds == 0)
    return TRUE;
  clock->minutes = (seconds + 59) / 60;
  if (!hs_bill_labor (book, clock->minutes, &clock_cents, error))
    return FALSE;
  clock->more_cents = MAX (0, clock_cents - work_cents);
  return TRUE;
}

gboolean
hs_bill_clock (HsBook *book, const HsJobRow *job, GPtrArray *lines, HsInstant now, HsBillClock *ret_clock,
               GError **error)
{
  HsBillClock clock = { 0 };

  if (runs (job, lines) && !weigh_clock (book, job->id, lines, now, &clock, error))
    return FALSE;
  *ret_clock = clock;
  return TRUE;
}

/* What was priced while the work went on is priced anew after it, if the clock went past it. */
gboolean
hs_bill_drop_outrun (HsBook *book, const HsJobRow *job, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (GPtrArray) lines = NULL;
  HsBillClock clock;

  if (!hs_line_row_list_of (store, job->id, &lines, error) || !hs_bill_clock (book, job, lines, now, &clock, error))
    return FALSE;
  for (guint i = 0; clock.more_cents > 0 && i < lines->len; i++)
    {
      const HsLineRow *line = g_ptr_array_index (lines, i);

      if (is_priced (line) && is_kind (line, "labor") && !hs_line_row_delete (store, line->id, error))
        return FALSE;
    }
  return TRUE;
}
