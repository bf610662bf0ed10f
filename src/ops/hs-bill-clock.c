// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * What the clock adds to the bill of a job that is not priced yet. The bill, the customer's page, the go-ahead and the
 * command line ask here, so that all of them come to one sum. A job that was given for nothing or called off runs up no
 * more; one that was priced and tests good keeps its price.
 *
 * What the customer agreed to stands. Work that a picked option names is paid by the option: its price never follows
 * the clock, neither up nor down. The clock pays for what came before that yes and under none that was taken back,
 * never for the same minutes twice, and the call-out of the owner's rates is on the bill once, unless an option has
 * it; such an option is the price of the visit. Minutes past what was agreed are told and not charged; to charge them
 * the customer is told a new option, and says yes to it as to any other.
 *
 * Where the machine's clock was put back the minutes of a visit are not known. That is told, and such a job is neither
 * priced by the clock nor squared up before somebody types them.
 */

#include "hs-bill-private.h"

#include "hs-advice-row.h"
#include "hs-choice-private.h"
#include "hs-job-life.h"
#include "hs-job-op.h"
#include "hs-money.h"
#include "hs-ops-private.h"
#include "hs-price.h"
#include "hs-settings-op.h"
#include "hs-visit-private.h"

#define ONE 1000

static gboolean
is_kind (const HsLineRow *line, const char *kind)
{
  return g_str_equal (line->kind, kind);
}

gboolean
hs_bill_is_work_kind (const char *kind)
{
  return g_str_equal (kind, "labor") || g_str_equal (kind, "call_out");
}

gboolean
hs_bill_is_work (const HsLineRow *line)
{
  return hs_bill_is_work_kind (line->kind);
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

/* What the options on the bill say of the work. */
typedef struct
{
  gboolean work;     /* some of it is priced by them */
  gboolean fixed;    /* a price without minutes */
  gboolean called_out;
  gint64 minutes;
  HsInstant since;   /* the first yes to work */
  GArray *before;    /* HsChoiceSpan: those of a yes to it that was taken back */
} Agreed;

static void
agreed_clear (Agreed *agreed)
{
  g_clear_pointer (&agreed->before, g_array_unref);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Agreed, agreed_clear)

/* When the option was picked; one that is only weighed is picked now, or instead of what was picked. */
static gboolean
read_since (HsStore *store, const HsLineRow *line, HsInstant now, Agreed *agreed, GError **error)
{
  g_autoptr (HsAdviceLineRow) row = NULL;
  g_autoptr (HsAdviceRow) option = NULL;
  HsInstant at = now;

  if (!hs_advice_line_row_load (store, line->advice_line_id, &row, error)
      || !hs_advice_row_load (store, row->advice_id, &option, error)
      || !hs_choice_agreed_at (store, option, &at, error)
      || !hs_choice_list_taken_back (store, option, agreed->before, error))
    return FALSE;
  agreed->since = agreed->work ? MIN (agreed->since, at) : at;
  agreed->work = TRUE;
  return TRUE;
}

static gboolean
read_agreed (HsStore *store, GPtrArray *lines, HsInstant now, Agreed *agreed, GError **error)
{
  for (guint i = 0; i < lines->len; i++)
    {
      const HsLineRow *line = g_ptr_array_index (lines, i);

      if (line->advice_line_id == NULL)
        continue;
      agreed->called_out |= is_kind (line, "call_out");
      if (!is_kind (line, "labor"))
        continue;
      if (!read_since (store, line, now, agreed, error))
        return FALSE;
      if (line->quantity_milli == ONE)
        agreed->fixed = TRUE;
      else
        agreed->minutes += line->quantity_milli / ONE;
    }
  return TRUE;
}

static int
compare_spans (gconstpointer a, gconstpointer b)
{
  const HsChoiceSpan *one = a, *other = b;

  return one->from < other->from ? -1 : one->from > other->from;
}

/* Seconds on the clock before the yes that stands, without those under one that was taken back. */
static gboolean
seconds_before (HsBook *book, const char *job_id, const Agreed *agreed, gint64 *ret_seconds, GError **error)
{
  HsInstant counted = G_MININT64;
  gint64 seconds;

  if (!hs_visit_seconds_until (book, job_id, agreed->since, &seconds, error))
    return FALSE;
  g_array_sort (agreed->before, compare_spans);
  for (guint i = 0; i < agreed->before->len; i++)
    {
      const HsChoiceSpan *span = &g_array_index (agreed->before, HsChoiceSpan, i);
      HsInstant from = MAX (span->from, counted);
      HsInstant to = MIN (span->to, agreed->since);
      gint64 before, after;

      if (to <= from)
        continue;
      if (!hs_visit_seconds_until (book, job_id, from, &before, error)
          || !hs_visit_seconds_until (book, job_id, to, &after, error))
        return FALSE;
      seconds -= after - before;
      counted = to;
    }
  *ret_seconds = seconds;
  return TRUE;
}

static gboolean
price_own (HsBook *book, const Agreed *agreed, gint64 minutes, gint64 *ret_cents, GError **error)
{
  gint64 call_out_cents;

  if (!hs_bill_labor (book, minutes, ret_cents, error))
    return FALSE;
  if (!agreed->called_out)
    return TRUE;
  if (!hs_settings_get_int (book, "call_out_cents", &call_out_cents, error))
    return FALSE;
  *ret_cents -= call_out_cents;
  return TRUE;
}

/* The minutes that no option pays for: those before the first yes, and none of those that an option counts as its
 * own. @ret_until: a visit that arrived later would not make them more. */
static gboolean
own_minutes (HsBook *book, const char *job_id, const Agreed *agreed, gint64 minutes, gint64 *ret_minutes,
             HsInstant *ret_until, GError **error)
{
  gint64 seconds, before;

  *ret_minutes = minutes;
  *ret_until = G_MAXINT64;
  if (!agreed->work)
    return TRUE;
  *ret_minutes = 0;
  *ret_until = G_MININT64;
  if (agreed->called_out)
    return TRUE;
  if (!seconds_before (book, job_id, agreed, &seconds, error))
    return FALSE;
  before = (seconds + 59) / 60;
  *ret_minutes = MIN (before, MAX (0, minutes - agreed->minutes));
  *ret_until = *ret_minutes == before ? agreed->since : G_MAXINT64;
  return TRUE;
}

/* Of minutes that are not charged nobody has to know how many there were; that somebody came is known. */
static gboolean
find_unclocked (HsStore *store, const char *job_id, HsInstant now, HsInstant until, HsBillOwn *own, GError **error)
{
  g_autoptr (HsVisitRow) visit = NULL;
  g_autoptr (HsVisitRow) any = NULL;

  own->unclocked_at = own->unclocked_left_at = HS_INSTANT_NONE;
  if (!hs_visit_load_unclocked (store, job_id, now, until, &visit, error)
      || !hs_visit_load_unclocked (store, job_id, now, G_MAXINT64, &any, error))
    return FALSE;
  own->came = own->minutes > 0 || (visit == NULL && any != NULL);
  if (visit != NULL)
    {
      own->unclocked_at = visit->arrived_at;
      own->unclocked_left_at = visit->left_at;
    }
  return TRUE;
}

gboolean
hs_bill_refuse_unclocked (HsBook *book, const char *number, HsInstant arrived_at, HsInstant left_at, GError **error)
{
  g_autofree char *clock = NULL;
  g_autofree char *day = NULL;
  HsDate date;
  int seconds;

  hs_instant_to_local (hs_book_get_zone (book), arrived_at, &date, &seconds);
  day = hs_date_format (date);
  clock = hs_clock_format (seconds / 60);
  if (left_at != arrived_at)
    return hs_ops_refuse (error, "%s: the visit began at %s on %s, and this machine's clock was put back since then, "
                                 "so the minutes at the vehicle are not known. Type them on the bill.",
                          number, clock, day);
  return hs_ops_refuse (error, "%s: the visit began and ended at %s on %s. This machine's clock was put back, so the "
                               "minutes at the vehicle are not known. Type them on the bill.", number, clock, day);
}

gboolean
hs_bill_own_work (HsBook *book, const char *job_id, GPtrArray *lines, HsInstant now, HsBillOwn *ret_own,
                  GError **error)
{
  HsBillOwn own = { 0 };
  g_auto (Agreed) agreed = { .before = g_array_new (FALSE, FALSE, sizeof (HsChoiceSpan)) };
  HsInstant until;
  gint64 seconds;

  if (!read_agreed (hs_book_get_store (book), lines, now, &agreed, error)
      || !hs_visit_seconds (book, job_id, now, &seconds, error))
    return FALSE;
  own.minutes = (seconds + 59) / 60;
  if (!own_minutes (book, job_id, &agreed, own.minutes, &own.own_minutes, &until, error)
      || !find_unclocked (hs_book_get_store (book), job_id, now, until, &own, error)
      || !price_own (book, &agreed, own.own_minutes, &own.cents, error))
    return FALSE;
  own.agreed = agreed.work;
  own.called_out = agreed.called_out;
  if (agreed.work && !agreed.fixed)
    own.past_minutes = MAX (0, own.minutes - own.own_minutes - agreed.minutes);
  *ret_own = own;
  return TRUE;
}

/* What pricing wrote before, which it would write anew. */
static gboolean
sum_own (GPtrArray *lines, gint64 *ret_cents, GError **error)
{
  gint64 cents = 0;

  for (guint i = 0; i < lines->len; i++)
    {
      const HsLineRow *line = g_ptr_array_index (lines, i);

      if (is_priced (line) && !hs_money_sum ((const gint64[]) { cents, line->price_cents }, 2, &cents, error))
        return FALSE;
    }
  *ret_cents = cents;
  return TRUE;
}

/* By how much the clock is past the work on the bill; a visit that never arrived costs nothing. */
static gboolean
weigh_clock (HsBook *book, const char *job_id, GPtrArray *lines, HsInstant now, HsBillClock *clock, GError **error)
{
  gint64 own_cents;
  HsBillOwn own;

  if (!hs_bill_own_work (book, job_id, lines, now, &own, error) || !sum_own (lines, &own_cents, error))
    return FALSE;
  clock->unclocked_at = own.unclocked_at;
  clock->unclocked_left_at = own.unclocked_left_at;
  if (!own.came)
    return TRUE;
  clock->minutes = own.minutes;
  clock->past_minutes = own.past_minutes;
  clock->more_cents = MAX (0, own.cents - own_cents);
  return TRUE;
}

gboolean
hs_bill_clock (HsBook *book, const HsJobRow *job, GPtrArray *lines, HsInstant now, HsBillClock *ret_clock,
               GError **error)
{
  HsBillClock clock = { .unclocked_at = HS_INSTANT_NONE, .unclocked_left_at = HS_INSTANT_NONE };

  if (runs (job, lines) && !weigh_clock (book, job->id, lines, now, &clock, error))
    return FALSE;
  *ret_clock = clock;
  return TRUE;
}

/* What was priced while the work went on is priced anew after it, if the clock went past it or nobody knows whether it
 * did. */
gboolean
hs_bill_drop_outrun (HsBook *book, const HsJobRow *job, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (GPtrArray) lines = NULL;
  HsBillClock clock;
  gboolean outrun;

  if (!hs_line_row_list_of (store, job->id, &lines, error) || !hs_bill_clock (book, job, lines, now, &clock, error))
    return FALSE;
  outrun = clock.more_cents > 0 || clock.unclocked_at != HS_INSTANT_NONE;
  for (guint i = 0; outrun && i < lines->len; i++)
    {
      const HsLineRow *line = g_ptr_array_index (lines, i);

      if (is_priced (line) && is_kind (line, "labor") && !hs_line_row_delete (store, line->id, error))
        return FALSE;
    }
  return TRUE;
}
