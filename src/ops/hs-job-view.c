// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Everything of one job in words and values, for its page and for the command line. Reads only. */

#include "hs-board.h"

#include "hs-advice-row.h"
#include "hs-bill-private.h"
#include "hs-board-row.h"
#include "hs-choice-private.h"
#include "hs-customer-row.h"
#include "hs-finding-row.h"
#include "hs-installed-row.h"
#include "hs-job-op.h"
#include "hs-job-row.h"
#include "hs-job-why.h"
#include "hs-money-row.h"
#include "hs-money.h"
#include "hs-reading-private.h"
#include "hs-reading-row.h"
#include "hs-say.h"
#include "hs-visit-row.h"
#include "hs-words.h"

typedef struct
{
  HsBook *book;
  HsStore *store;
  HsJobView *view;
  const HsJobRow *job;
  HsInstant now;
  HsDate today;
} HsViewMake;

void
hs_job_view_free (HsJobView *view)
{
  if (view == NULL)
    return;
  hs_board_row_free (view->tag);
  g_free (view->kind);
  g_free (view->group);
  g_free (view->phone);
  g_free (view->street);
  g_free (view->access_note);
  g_free (view->follows_number);
  g_free (view->return_why);
  g_ptr_array_unref (view->asked);
  g_ptr_array_unref (view->findings);
  g_clear_pointer (&view->because, g_ptr_array_unref);
  g_ptr_array_unref (view->readings);
  g_ptr_array_unref (view->advice);
  g_ptr_array_unref (view->go_aheads);
  g_ptr_array_unref (view->lines);
  g_array_unref (view->costs);
  g_ptr_array_unref (view->installed);
  g_free (view->unpriced);
  g_free (view->unpriced_id);
  g_free (view);
}

static HsJobView *
view_new (const HsJobRow *job)
{
  HsJobView *view = g_new0 (HsJobView, 1);

  view->kind = g_strdup (job->kind);
  view->group = g_strdup (job->complaint_group);
  view->street = g_strdup (job->street);
  view->access_note = g_strdup (job->access_note);
  view->return_why = g_strdup (job->return_why);
  view->asked = g_ptr_array_new_with_free_func (g_free);
  view->findings = g_ptr_array_new_with_free_func (g_free);
  view->readings = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_reading_result_free);
  view->advice = g_ptr_array_new_with_free_func (g_free);
  view->go_aheads = g_ptr_array_new_with_free_func (g_free);
  view->lines = g_ptr_array_new_with_free_func (g_free);
  view->costs = g_array_new (FALSE, FALSE, sizeof (HsLineCost));
  view->installed = g_ptr_array_new_with_free_func (g_free);
  view->rolling_at = HS_INSTANT_NONE;
  view->arrived_at = HS_INSTANT_NONE;
  view->left_at = HS_INSTANT_NONE;
  return view;
}

static char *
say_money (const HsViewMake *make, gint64 cents)
{
  return hs_money_format (cents, hs_book_get_currency (make->book));
}

/* "Mar 10, 09:20" */
static char *
say_instant (const HsViewMake *make, HsInstant at)
{
  g_autofree char *day = NULL;
  g_autofree char *clock = NULL;
  HsDate date;
  int seconds;

  if (at == HS_INSTANT_NONE)
    return g_strdup ("");
  hs_instant_to_local (hs_book_get_zone (make->book), at, &date, &seconds);
  day = hs_say_day_short (date, make->today);
  clock = hs_clock_format (seconds / 60);
  return g_strdup_printf ("%s, %s", day, clock);
}

static gboolean
fill_tag (HsViewMake *make, GError **error)
{
  g_autoptr (HsJobGlance) glance = NULL;

  if (!hs_job_glance_load (make->store, make->job->id, &glance, error))
    return FALSE;
  make->view->follows_number = g_strdup (glance->follows_number);
  make->view->tag = hs_board_row_make (make->book, glance, NULL, NULL, make->now, error);
  return make->view->tag != NULL;
}

static gboolean
fill_customer (HsViewMake *make, GError **error)
{
  g_autoptr (HsCustomerRow) customer = NULL;
  g_autoptr (GPtrArray) phones = NULL;

  if (!hs_customer_row_load (make->store, make->job->customer_id, &customer, error)
      || !hs_phone_row_list_of (make->store, make->job->customer_id, &phones, error))
    return FALSE;
  if (phones->len > 0)
    make->view->phone = g_strdup (((HsPhoneRow *) g_ptr_array_index (phones, 0))->shown);
  if (make->view->street == NULL)
    make->view->street = g_strdup (customer->street);
  if (make->view->access_note == NULL)
    make->view->access_note = g_strdup (customer->access_note);
  return TRUE;
}

static gboolean
fill_visits (HsViewMake *make, GError **error)
{
  g_autoptr (GPtrArray) visits = NULL;

  if (!hs_visit_row_list_of (make->store, make->job->id, &visits, error))
    return FALSE;
  if (visits->len > 0)
    {
      const HsVisitRow *last = g_ptr_array_index (visits, visits->len - 1);

      make->view->rolling_at = last->rolling_at;
      make->view->arrived_at = last->arrived_at;
      make->view->left_at = last->left_at;
    }
  return TRUE;
}

static gboolean
fill_asked (HsViewMake *make, GError **error)
{
  g_autoptr (GPtrArray) rows = NULL;

  if (!hs_asked_row_list_of (make->store, make->job->id, &rows, error))
    return FALSE;
  for (guint i = 0; i < rows->len; i++)
    {
      const HsAskedRow *row = g_ptr_array_index (rows, i);

      g_ptr_array_add (make->view->asked, g_strdup (row->question));
      g_ptr_array_add (make->view->asked, g_strdup (row->answer));
    }
  return TRUE;
}

static char *
say_finding (const HsFindingRow *row)
{
  g_autoptr (GString) text = g_string_new (hs_words_label (HS_WORDS_FINDING_ROLE, row->role));

  g_string_append_printf (text, ": %s", row->what);
  if (row->place != NULL)
    g_string_append_printf (text, ", %s", row->place);
  g_string_append_printf (text, " (%s", hs_words_label (HS_WORDS_SURE, row->sure));
  if (row->weight != NULL)
    g_string_append_printf (text, ", %s", hs_words_label (HS_WORDS_WEIGHT, row->weight));
  g_string_append_c (text, ')');
  return g_strdup (text->str);
}

static gboolean
fill_findings (HsViewMake *make, GError **error)
{
  g_autoptr (GPtrArray) rows = NULL;

  if (!hs_finding_row_list_of (make->store, make->job->id, &rows, error))
    return FALSE;
  for (guint i = 0; i < rows->len; i++)
    g_ptr_array_add (make->view->findings, say_finding (g_ptr_array_index (rows, i)));
  return hs_job_why_links (make->book, make->job->id, &make->view->because, error);
}

static gboolean
fill_phase (HsViewMake *make, const HsReadingScene *scene, const char *phase, GError **error)
{
  for (guint i = 0; i < scene->job_readings->len; i++)
    {
      const HsReadingRow *row = g_ptr_array_index (scene->job_readings, i);
      g_autoptr (HsReadingResult) result = NULL;

      if (!g_str_equal (row->phase, phase))
        continue;
      result = hs_reading_judge_row (scene, row, error);
      if (result == NULL)
        return FALSE;
      g_ptr_array_add (make->view->readings, g_steal_pointer (&result));
    }
  return TRUE;
}

/* Every reading, also one that was taken again later: before, during, after, each in the order of taking. */
static gboolean
fill_readings (HsViewMake *make, GError **error)
{
  g_auto (HsReadingGround) ground = { 0 };
  g_autoptr (GPtrArray) rows = NULL;

  if (!hs_reading_row_list_of (make->store, make->job->id, &rows, error))
    return FALSE;
  HsReadingScene scene = { make->book, make->job->vehicle_id, rows, &ground };
  return fill_phase (make, &scene, "before", error) && fill_phase (make, &scene, "during", error)
         && fill_phase (make, &scene, "after", error);
}

static char *
say_advice (const HsViewMake *make, const HsAdviceRow *row)
{
  g_autofree char *price = say_money (make, row->price_cents);
  g_autofree char *at = say_instant (make, row->decided_at);
  g_autofree char *chase = hs_say_day_short (row->chase_on, make->today);
  g_autoptr (GString) text = g_string_new (NULL);

  g_string_append_printf (text, "%s, %s: %s", row->wording, price, hs_words_label (HS_WORDS_CHOICE, row->choice));
  if (row->decided_by != NULL)
    g_string_append_printf (text, " by %s, %s, %s", row->decided_by,
                            row->means != NULL ? hs_words_label (HS_WORDS_MEANS, row->means) : "", at);
  if (row->risk_told != NULL)
    g_string_append_printf (text, "; told: %s", row->risk_told);
  if (row->chase_on != HS_DATE_NONE)
    g_string_append_printf (text, "; call on %s", chase);
  return g_strdup (text->str);
}

static gboolean
fill_choices (HsViewMake *make, GError **error)
{
  g_autoptr (GPtrArray) advice = NULL;
  g_autoptr (GPtrArray) go_aheads = NULL;

  if (!hs_advice_row_list_of (make->store, make->job->id, &advice, error)
      || !hs_go_ahead_row_list_of (make->store, make->job->id, &go_aheads, error))
    return FALSE;
  for (guint i = 0; i < advice->len; i++)
    g_ptr_array_add (make->view->advice, say_advice (make, g_ptr_array_index (advice, i)));
  for (guint i = 0; i < go_aheads->len; i++)
    {
      const HsGoAheadRow *row = g_ptr_array_index (go_aheads, i);
      g_autofree char *ceiling = say_money (make, row->ceiling_cents);
      g_autofree char *at = say_instant (make, row->at);

      g_ptr_array_add (make->view->go_aheads,
                       g_strdup_printf ("up to %s by %s, %s, %s", ceiling, row->by_whom,
                                        hs_words_label (HS_WORDS_MEANS, row->means), at));
    }
  return TRUE;
}

/* An open bill comes to what the go-ahead is held against; one that is squared up to what was frozen. */
static gboolean
fill_sums (HsViewMake *make, GPtrArray *lines, GError **error)
{
  HsJobView *view = make->view;
  HsBillClock clock;
  HsGoAheadRoom room = { 0 };
  HsJobSums sums;

  if (!hs_job_sums_load (make->store, make->job->id, &sums, error)
      || !hs_bill_clock (make->book, make->job, lines, make->now, &clock, error)
      || !hs_go_ahead_weigh (make->book, make->job, lines, NULL, 0, make->now, &room, error))
    return FALSE;
  view->clock_minutes = clock.more_cents > 0 ? clock.minutes : 0;
  view->clock_cents = clock.more_cents;
  view->past_minutes = clock.past_minutes;
  view->unclocked_at = clock.unclocked_at;
  view->unclocked_left_at = clock.unclocked_left_at;
  view->net_cents = sums.price_cents + clock.more_cents;
  view->tax_cents = hs_stage_is_open (view->tag->stage) ? room.total_cents - view->net_cents : sums.tax_cents;
  view->paid_cents = sums.paid_cents;
  return TRUE;
}

static gboolean
fill_money (HsViewMake *make, GError **error)
{
  g_autoptr (GPtrArray) lines = NULL;
  gboolean lacks;

  if (!hs_line_row_list_of (make->store, make->job->id, &lines, error))
    return FALSE;
  for (guint i = 0; i < lines->len; i++)
    {
      const HsLineRow *line = g_ptr_array_index (lines, i);
      const HsLineCost cost = { line->cost_cents, line->price_cents };
      g_autofree char *price = NULL;

      if (!hs_bill_lacks_price (make->store, lines, line, &lacks, error))
        return FALSE;
      make->view->n_unpriced += lacks;
      price = lacks ? g_strdup (HS_NO_PRICE_YET) : say_money (make, line->price_cents);
      if (lacks && make->view->unpriced == NULL)
        {
          make->view->unpriced = g_strdup (line->what);
          make->view->unpriced_id = g_strdup (line->installed_part_id);
        }
      g_ptr_array_add (make->view->lines, g_strdup_printf ("%s\t%s", line->what, price));
      g_array_append_val (make->view->costs, cost);
    }
  return fill_sums (make, lines, error);
}

static gboolean
fill_installed (HsViewMake *make, GError **error)
{
  g_autoptr (GPtrArray) rows = NULL;

  if (!hs_installed_row_list_of_job (make->store, make->job->id, &rows, error))
    return FALSE;
  for (guint i = 0; i < rows->len; i++)
    {
      const HsInstalledRow *row = g_ptr_array_index (rows, i);
      g_autoptr (GString) text = g_string_new (row->what);

      if (row->maker != NULL)
        g_string_append_printf (text, ", %s", row->maker);
      if (row->place != NULL)
        g_string_append_printf (text, ", %s", row->place);
      if (row->warranty_months != HS_INT_NONE && row->warranty_months > 0)
        g_string_append_printf (text, ", %d months' cover", (int) row->warranty_months);
      if (row->stands_in_for_id != NULL)
        g_string_append (text, ", warranty swap");
      g_ptr_array_add (make->view->installed, g_strdup (text->str));
    }
  return TRUE;
}

static gboolean
fill_all (HsViewMake *make, GError **error)
{
  return fill_tag (make, error) && fill_customer (make, error) && fill_visits (make, error) && fill_asked (make, error)
         && fill_findings (make, error) && fill_readings (make, error)
         && fill_choices (make, error) && fill_money (make, error) && fill_installed (make, error);
}

HsJobView *
hs_job_view_load (HsBook *book, const char *job_id, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsJobRow) job = NULL;
  g_autoptr (HsJobView) view = NULL;
  HsViewMake make;

  if (!hs_job_row_load (store, job_id, &job, error))
    return NULL;
  view = view_new (job);
  make = (HsViewMake) { book, store, view, job, now, HS_DATE_NONE };
  hs_instant_to_local (hs_book_get_zone (book), now, &make.today, NULL);
  return fill_all (&make, error) ? g_steal_pointer (&view) : NULL;
}
