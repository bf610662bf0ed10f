// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * One tag of the board. It wants attention when there is something to do now, and then says one thing: safety before
 * comebacks, comebacks before answers, answers before parts, work before money. Reads only.
 */

#include "hs-board-row.h"

#include "hs-advice-row.h"
#include "hs-find.h"
#include "hs-job-day.h"
#include "hs-money.h"
#include "hs-need-row.h"
#include "hs-part-row.h"
#include "hs-say.h"
#include "hs-settings-op.h"
#include "hs-stock-row.h"
#include "hs-supplier-row.h"
#include "hs-words.h"

typedef struct
{
  HsBook *book;
  HsStore *store;
  const HsJobGlance *glance;
  HsBoardRow *row;
  HsDate today;
  char *unsure_part;
  int unsure_percent;
} HsRowMake;

void
hs_board_row_free (HsBoardRow *row)
{
  if (row == NULL)
    return;
  g_free (row->job_id);
  g_free (row->number);
  g_free (row->plate);
  g_free (row->vehicle);
  g_free (row->words);
  g_free (row->customer);
  g_free (row->area);
  g_free (row->signal);
  g_free (row->act);
  g_free (row->waits_for);
  g_free (row->note);
  g_free (row->van_id);
  g_free (row);
}

static HsBoardRow *
row_new (const HsJobGlance *glance)
{
  HsBoardRow *row = g_new0 (HsBoardRow, 1);

  row->job_id = g_strdup (glance->id);
  row->number = g_strdup (glance->number);
  row->plate = g_strdup (glance->plate);
  row->vehicle = g_strdup (glance->vehicle);
  row->words = g_strdup (glance->words);
  row->customer = g_strdup (glance->customer);
  row->area = g_strdup (glance->area);
  row->signal = g_strdup (glance->signal);
  row->day = glance->day;
  row->window_from = glance->window_from;
  row->window_to = glance->window_to;
  row->arrive = HS_INSTANT_NONE;
  row->minutes = glance->guess_seconds != HS_INT_NONE ? (int) (glance->guess_seconds / 60) : 0;
  row->unpaid_cents = glance->owed_cents != HS_INT_NONE ? glance->owed_cents : 0;
  row->unpaid_since = row->unpaid_cents > 0 ? glance->invoiced_on : HS_DATE_NONE;
  row->high_voltage = glance->high_voltage;
  row->van_id = g_strdup (glance->van_id);
  return row;
}

static void
place_in_plan (HsBoardRow *row, const HsDayPlan *plan)
{
  for (guint i = 0; plan != NULL && i < plan->stops->len; i++)
    {
      const HsPlannedStop *stop = g_ptr_array_index (plan->stops, i);

      if (stop->is_counter || !g_str_equal (stop->row_id, row->job_id))
        continue;
      row->arrive = stop->arrive;
      row->stop_number = i + 1;
    }
}

/* Parts ------------------------------------------------------------------------------------------------------------ */

static void G_GNUC_PRINTF (2, 3)
add_words (char **text, const char *format, ...)
{
  g_autofree char *words = NULL;
  va_list args;
  char *joined;

  va_start (args, format);
  words = g_strdup_vprintf (format, args);
  va_end (args);
  joined = *text != NULL ? g_strdup_printf ("%s; %s", *text, words) : g_strdup (words);
  g_free (*text);
  *text = joined;
}

static gboolean
is_in_some_van (HsRowMake *make, const HsNeedRow *need, gboolean *ret_in_van, GError **error)
{
  g_autoptr (GPtrArray) stock = NULL;

  *ret_in_van = g_str_equal (need->state, "in_the_van");
  if (*ret_in_van || need->supplier_id != NULL)
    return TRUE;
  if (!hs_stock_row_list (make->store, NULL, &stock, error))
    return FALSE;
  for (guint i = 0; i < stock->len; i++)
    {
      const HsStockRow *row = g_ptr_array_index (stock, i);

      *ret_in_van = *ret_in_van
                    || (g_str_equal (row->part_id, need->part_id) && row->quantity_milli >= need->quantity_milli);
    }
  return TRUE;
}

static void
wait_for (HsRowMake *make, const HsNeedRow *need, const char *part, const char *supplier)
{
  g_autoptr (GString) text = g_string_new (part);

  if (supplier != NULL)
    g_string_append_printf (text, ", %s", supplier);
  if (need->sure_percent < 100)
    g_string_append_printf (text, ", %d %% sure", (int) need->sure_percent);
  else if (g_str_equal (need->state, "laid_aside") || g_str_equal (need->state, "asked_for"))
    g_string_append_printf (text, ", %s", hs_words_label (HS_WORDS_NEED_STATE, need->state));
  add_words (&make->row->waits_for, "%s", text->str);
  if (need->sure_percent >= 100 || make->unsure_part != NULL)
    return;
  make->unsure_part = g_strdup (part);
  make->unsure_percent = (int) need->sure_percent;
}

static gboolean
add_need (HsRowMake *make, const HsNeedRow *need, GError **error)
{
  static const char *const open_states[] = { "wanted", "asked_for", "laid_aside", "in_the_van", NULL };
  g_autoptr (HsPartRow) part = NULL;
  g_autoptr (HsSupplierRow) supplier = NULL;
  g_autofree char *name = NULL;
  gboolean in_van;

  if (!g_strv_contains (open_states, need->state))
    return TRUE;
  if (!hs_part_row_load (make->store, need->part_id, &part, error) || !is_in_some_van (make, need, &in_van, error)
      || (need->supplier_id != NULL && !hs_supplier_row_load (make->store, need->supplier_id, &supplier, error)))
    return FALSE;
  name = hs_say_part (part->name);
  if (in_van)
    add_words (&make->row->note, make->row->note == NULL ? "In the van: %s" : "%s", name);
  else
    wait_for (make, need, name, supplier != NULL ? supplier->name : NULL);
  return TRUE;
}

static gboolean
add_needs (HsRowMake *make, GError **error)
{
  g_autoptr (GPtrArray) needs = NULL;

  if (!hs_need_row_list_of (make->store, make->glance->id, &needs, error))
    return FALSE;
  for (guint i = 0; i < needs->len; i++)
    if (!add_need (make, g_ptr_array_index (needs, i), error))
      return FALSE;
  return TRUE;
}

static gboolean
add_battery (HsRowMake *make, GError **error)
{
  g_autoptr (HsBatteryFact) battery = NULL;
  g_autofree char *age = NULL;
  g_autofree char *cover = NULL;
  GError *failure = NULL;

  if (make->row->note != NULL || make->row->waits_for != NULL || make->glance->vehicle_id == NULL)
    return TRUE;
  battery = hs_battery_fact_load (make->book, make->glance->vehicle_id, make->today, &failure);
  if (failure != NULL)
    {
      g_propagate_error (error, failure);
      return FALSE;
    }
  if (battery == NULL || battery->age_months < 0)
    return TRUE;
  age = hs_say_months (battery->age_months);
  cover = hs_say_day_short (battery->warranty_until, make->today);
  if (battery->warranty_until == HS_DATE_NONE)
    make->row->note = g_strdup_printf ("Battery in it: %s", age);
  else
    make->row->note = g_strdup_printf ("Battery in it: %s, %s %s", age,
                                       battery->warranty_until < make->today ? "cover ended" : "covered until", cover);
  return TRUE;
}

/* Comebacks -------------------------------------------------------------------------------------------------------- */

static gboolean
is_undecided (const HsJobGlance *glance)
{
  if (g_str_equal (glance->kind, "return_visit"))
    return g_strcmp0 (glance->return_why, "not_decided") == 0;
  return g_str_equal (glance->kind, "repair") && glance->return_why == NULL;
}

/* The newest finished job of the same vehicle, if this one follows it within the days in which a fault is the same. */
static gboolean
find_comeback (HsRowMake *make, char **ret_act, GError **error)
{
  const HsJobGlance *glance = make->glance;
  g_autoptr (GPtrArray) jobs = NULL;
  HsDate day = glance->day != HS_DATE_NONE ? glance->day : make->today;
  gint64 most_days;

  if (!hs_settings_get_int (make->book, "return_visit_days", &most_days, error))
    return FALSE;
  if (glance->vehicle_id == NULL || !is_undecided (glance))
    return TRUE;
  if (!hs_job_row_list_of_vehicle (make->store, glance->vehicle_id, &jobs, error))
    return FALSE;
  for (guint i = 0; i < jobs->len; i++)
    {
      const HsJobRow *job = g_ptr_array_index (jobs, i);
      HsDate before;

      if (g_str_equal (job->id, glance->id)
          || (!g_str_equal (job->stage, "squared") && !g_str_equal (job->stage, "proven"))
          || hs_job_row_is_called_off (job))
        continue;
      if (!hs_job_day (make->book, job, &before, error))
        return FALSE;
      if (before > day || day - before > most_days)
        continue;
      *ret_act = before == day ? g_strdup_printf ("Same day as %s: decide why", job->number)
                               : g_strdup_printf ("%d day%s after %s: decide why", day - before,
                                                  day - before == 1 ? "" : "s", job->number);
      return TRUE;
    }
  return TRUE;
}

/* What to do now --------------------------------------------------------------------------------------------------- */

static char *
act_of_stage (const HsRowMake *make)
{
  switch (make->row->stage)
    {
    case HS_STAGE_WAITING_YES:
      return g_strdup_printf ("Ring %s for a yes", make->row->customer);
    case HS_STAGE_CALLED_IN:
      return g_strdup ("Ring back: give a time");
    case HS_STAGE_PENCILED:
      return g_strdup_printf ("Confirm the window with %s", make->row->customer);
    case HS_STAGE_PROVEN:
      return g_strdup ("Square it up");
    default:
      break;
    }
  if (make->glance->open_choices > 0)
    return g_strdup_printf ("Ask %s to pick: no answer yet", make->row->customer);
  if (make->unsure_part != NULL)
    return g_strdup_printf ("Bring the %s: %d %% sure", make->unsure_part, make->unsure_percent);
  return NULL;
}

static char *
act_of_money (const HsRowMake *make, const HsChaseRow *chase)
{
  g_autofree char *since = hs_say_day_short (make->row->unpaid_since, make->today);
  gboolean chased = chase != NULL && g_str_equal (chase->kind, "unpaid");

  if (make->row->stage == HS_STAGE_CALLED_OFF && make->glance->charges_cents > 0)
    return g_strdup ("Square up the fee");
  if (make->row->unpaid_cents <= 0)
    return NULL;
  if (chased || make->glance->due_on == HS_DATE_NONE || make->glance->due_on <= make->today)
    return g_strdup_printf ("Ring today: on account since %s", since);
  return NULL;
}

/* The first piece of work that was declined or put off on a job, in quotes. */
static gboolean
find_declined (HsRowMake *make, char **ret_wording, GError **error)
{
  g_autoptr (GPtrArray) rows = NULL;

  if (!hs_advice_row_list_of (make->store, make->glance->id, &rows, error))
    return FALSE;
  for (guint i = 0; i < rows->len && *ret_wording == NULL; i++)
    {
      const HsAdviceRow *row = g_ptr_array_index (rows, i);

      if (g_str_equal (row->choice, "no") || g_str_equal (row->choice, "later"))
        *ret_wording = g_strdup_printf ("“%s”", row->wording);
    }
  return TRUE;
}

static gboolean
act_of_chase (HsRowMake *make, const HsChaseRow *chase, char **ret_act, GError **error)
{
  g_autofree char *about = NULL;
  g_autofree char *due = NULL;

  if (chase == NULL)
    return TRUE;
  if (g_str_equal (chase->kind, "declined_work") && !find_declined (make, &about, error))
    return FALSE;
  if (about == NULL)
    about = g_strdup (hs_words_label (HS_WORDS_FOLLOW_UP, chase->kind));
  due = hs_say_day_short (chase->due_on, make->today);
  *ret_act = chase->due_on < make->today
                 ? g_strdup_printf ("Call %s: %s, due since %s", make->row->customer, about, due)
                 : g_strdup_printf ("Call %s today: %s", make->row->customer, about);
  return TRUE;
}

static gboolean
wants_safety_list (const HsBoardRow *row)
{
  return row->high_voltage && row->stage >= HS_STAGE_PROMISED && row->stage <= HS_STAGE_ON_SITE;
}

static gboolean
choose_act (HsRowMake *make, const HsChaseRow *chase, GError **error)
{
  HsBoardRow *row = make->row;
  gboolean open = hs_stage_is_open (row->stage);

  if (wants_safety_list (row))
    row->act = g_strdup ("High voltage: safety list first");
  if (row->act == NULL && open && !find_comeback (make, &row->act, error))
    return FALSE;
  if (row->act == NULL && open)
    row->act = act_of_stage (make);
  if (row->act == NULL)
    row->act = act_of_money (make, chase);
  if (row->act == NULL && !act_of_chase (make, chase, &row->act, error))
    return FALSE;
  row->attention = row->act != NULL;
  return TRUE;
}

static gboolean
fill_row (HsRowMake *make, const HsChaseRow *chase, GError **error)
{
  if (!hs_stage_parse (make->glance->stage, &make->row->stage, error))
    return FALSE;
  if (hs_stage_is_open (make->row->stage) && (!add_needs (make, error) || !add_battery (make, error)))
    return FALSE;
  return choose_act (make, chase, error);
}

HsBoardRow *
hs_board_row_make (HsBook *book, const HsJobGlance *glance, const HsDayPlan *plan, const HsChaseRow *chase,
                   HsInstant now, GError **error)
{
  g_autoptr (HsBoardRow) row = row_new (glance);
  HsRowMake make = { book, hs_book_get_store (book), glance, row, HS_DATE_NONE, NULL, 0 };
  gboolean filled;

  hs_instant_to_local (hs_book_get_zone (book), now, &make.today, NULL);
  place_in_plan (row, plan);
  filled = fill_row (&make, chase, error);
  g_free (make.unsure_part);
  return filled ? g_steal_pointer (&row) : NULL;
}
