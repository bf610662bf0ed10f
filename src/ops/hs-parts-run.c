// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * The parts run of a day: what is picked up, dropped off and returned at each counter of the plan that stands, and what
 * is left for another day. Sums hold what is sure: needs of jobs, cores in hand at leaving, open returns. A core that
 * only comes off a vehicle on the way, and what the van is short of, stand apart. Reads only but for the ticks.
 */

#include "hs-parts-run.h"

#include "hs-core-row.h"
#include "hs-counter-hours.h"
#include "hs-day-solve.h"
#include "hs-decimal.h"
#include "hs-job-row.h"
#include "hs-load-list.h"
#include "hs-need-row.h"
#include "hs-ops-error.h"
#include "hs-part-row.h"
#include "hs-plan-row.h"
#include "hs-say.h"
#include "hs-stock-row.h"
#include "hs-supplier-row.h"

typedef struct
{
  HsStore *store;
  const HsDaySolved *solved;
  HsPartsRun *run;
  GPtrArray *ticks;
  GPtrArray *stock;
  GPtrArray *others;
} HsRunMake;

/* What another van has: its letter, and (element-type HsStockRow) its stock. */
typedef struct
{
  char *van;
  GPtrArray *stock;
} HsOtherStock;

static void
run_row_free (gpointer data)
{
  HsRunRow *row = data;

  g_free (row->id);
  g_free (row->part);
  g_free (row->number);
  g_free (row->job_number);
  g_free (row->where_now);
  g_free (row->note);
  g_free (row->list);
  g_free (row->supplier);
  g_free (row->van);
  g_free (row);
}

static GPtrArray *
rows_new (void)
{
  return g_ptr_array_new_with_free_func (run_row_free);
}

static void
run_counter_free (gpointer data)
{
  HsRunCounter *counter = data;

  g_free (counter->supplier);
  g_free (counter->supplier_id);
  g_free (counter->area);
  g_free (counter->why_not);
  g_ptr_array_unref (counter->pick_up);
  g_ptr_array_unref (counter->drop_off);
  g_ptr_array_unref (counter->maybe);
  g_ptr_array_unref (counter->give_back);
  g_ptr_array_unref (counter->restock);
  g_free (counter);
}

void
hs_parts_run_free (HsPartsRun *run)
{
  if (run == NULL)
    return;
  hs_day_plan_free (run->plan);
  g_ptr_array_unref (run->counters);
  g_ptr_array_unref (run->from_van);
  g_ptr_array_unref (run->nowhere);
  g_ptr_array_unref (run->elsewhere);
  g_clear_pointer (&run->load_list, g_ptr_array_unref);
  g_free (run);
}

/* Helpers ---------------------------------------------------------------------------------------------------------- */

static gboolean
is_ticked (const HsRunMake *make, const char *list, const char *row_id)
{
  const char *kind = g_str_equal (list, "maybe") ? "drop_off" : list;

  for (guint i = 0; i < make->ticks->len; i++)
    {
      const HsTickRow *tick = g_ptr_array_index (make->ticks, i);

      if (g_str_equal (tick->kind, kind) && g_str_equal (tick->row_id, row_id))
        return TRUE;
    }
  return FALSE;
}

static HsRunRow *
row_new (const HsRunMake *make, const char *list, const char *row_id, gint64 quantity_milli)
{
  HsRunRow *row = g_new0 (HsRunRow, 1);

  row->id = g_strdup (row_id);
  row->list = g_strdup (list);
  row->quantity = (double) quantity_milli / 1000;
  row->cents = -1;
  row->sure_percent = -1;
  row->last_day = HS_DATE_NONE;
  row->ticked = is_ticked (make, list, row_id);
  return row;
}

static gboolean
name_part (const HsRunMake *make, HsRunRow *row, const char *part_id, GError **error)
{
  g_autoptr (HsPartRow) part = NULL;

  if (part_id == NULL)
    {
      row->part = g_strdup ("old unit");
      return TRUE;
    }
  if (!hs_part_row_load (make->store, part_id, &part, error))
    return FALSE;
  row->part = g_strdup (part->name);
  row->number = g_strdup (part->number);
  return TRUE;
}

static gboolean
name_supplier (const HsRunMake *make, HsRunRow *row, const char *supplier_id, GError **error)
{
  g_autoptr (HsSupplierRow) supplier = NULL;

  if (!hs_supplier_row_load (make->store, supplier_id, &supplier, error))
    return FALSE;
  row->supplier = g_strdup (supplier->name);
  return TRUE;
}

static gboolean
name_job (const HsRunMake *make, HsRunRow *row, const char *job_id, GError **error)
{
  g_autoptr (HsJobRow) job = NULL;

  if (job_id == NULL)
    return TRUE;
  if (!hs_job_row_load (make->store, job_id, &job, error))
    return FALSE;
  row->job_number = g_strdup (job->number);
  return TRUE;
}

static HsRunCounter *
find_counter (const HsRunMake *make, const char *supplier_id)
{
  for (guint i = 0; i < make->run->counters->len; i++)
    {
      HsRunCounter *counter = g_ptr_array_index (make->run->counters, i);

      if (g_str_equal (counter->supplier_id, supplier_id))
        return counter;
    }
  return NULL;
}

static gint64
times_quantity (gint64 unit_cents, gint64 quantity_milli)
{
  gint64 cents;

  if (unit_cents < 0 || !hs_ratio_half_up (unit_cents, quantity_milli, 1000, &cents))
    return -1;
  return cents;
}

static void
add_words (char **note, const char *words)
{
  char *joined;

  if (words == NULL || *words == '\0')
    return;
  joined = *note != NULL ? g_strdup_printf ("%s, %s", *note, words) : g_strdup (words);
  g_free (*note);
  *note = joined;
}

/* Counters --------------------------------------------------------------------------------------------------------- */

static void
add_counter (HsRunMake *make, const HsDayCounter *source, guint stop_number, HsInstant arrive)
{
  HsRunCounter *counter = g_new0 (HsRunCounter, 1);

  counter->supplier = g_strdup (source->name);
  counter->supplier_id = g_strdup (source->supplier_id);
  counter->area = g_strdup (source->area);
  counter->stop_number = stop_number;
  counter->arrive = arrive;
  counter->stop_seconds = source->stop_seconds;
  counter->pick_up = rows_new ();
  counter->drop_off = rows_new ();
  counter->maybe = rows_new ();
  counter->give_back = rows_new ();
  counter->restock = rows_new ();
  g_ptr_array_add (make->run->counters, counter);
}

static void
add_counters (HsRunMake *make)
{
  const HsDayPlan *plan = make->run->plan;
  const HsDayFacts *facts = make->solved->facts;

  for (guint i = 0; i < plan->stops->len; i++)
    {
      const HsPlannedStop *stop = g_ptr_array_index (plan->stops, i);

      if (stop->is_counter && hs_day_solved_reaches (make->solved, stop->row_id))
        add_counter (make, hs_day_facts_find_counter (facts, stop->row_id), i + 1, stop->arrive);
    }
  for (guint i = 0; i < facts->counters->len; i++)
    {
      const HsDayCounter *source = g_ptr_array_index (facts->counters, i);

      if (find_counter (make, source->supplier_id) == NULL)
        add_counter (make, source, 0, HS_INSTANT_NONE);
    }
}

static const char *
why_broken (const HsDayPlan *plan, const char *id)
{
  for (guint i = 0; i < plan->broken->len; i++)
    {
      const HsBrokenPromise *broken = g_ptr_array_index (plan->broken, i);

      if (g_str_equal (broken->id, id))
        return broken->why;
    }
  return NULL;
}

static gboolean
explain_counter (HsRunMake *make, HsRunCounter *counter, GError **error)
{
  HsDate today = make->run->plan->day;
  const char *why = why_broken (make->run->plan, counter->supplier);
  g_autofree char *day = NULL;
  g_autofree char *clock = NULL;
  HsDate next;
  int minutes;

  if (why == NULL)
    return TRUE;
  if (!hs_counter_hours_find_next (make->store, counter->supplier_id, today, &next, &minutes, error))
    return FALSE;
  if (next == HS_DATE_NONE)
    {
      counter->why_not = g_strdup (why);
      return TRUE;
    }
  day = hs_say_day_short (next, today);
  clock = hs_clock_format (minutes);
  counter->why_not = g_strdup_printf ("%s; it opens again on %s, %s", why, day, clock);
  return TRUE;
}

static gboolean
explain_counters (HsRunMake *make, GError **error)
{
  for (guint i = 0; i < make->run->counters->len; i++)
    {
      HsRunCounter *counter = g_ptr_array_index (make->run->counters, i);

      if (counter->stop_number == 0 && !explain_counter (make, counter, error))
        return FALSE;
    }
  return TRUE;
}

/* Needs ------------------------------------------------------------------------------------------------------------ */

static const HsStockRow *
find_stock (const HsRunMake *make, const char *part_id)
{
  for (guint i = 0; i < make->stock->len; i++)
    {
      const HsStockRow *stock = g_ptr_array_index (make->stock, i);

      if (g_str_equal (stock->part_id, part_id))
        return stock;
    }
  return NULL;
}

static void
other_stock_free (gpointer data)
{
  HsOtherStock *other = data;

  g_free (other->van);
  g_clear_pointer (&other->stock, g_ptr_array_unref);
  g_free (other);
}

static gboolean
load_others (HsRunMake *make, GError **error)
{
  g_autoptr (GPtrArray) vans = NULL;

  if (!hs_van_row_list (make->store, &vans, error))
    return FALSE;
  for (guint i = 0; i < vans->len; i++)
    {
      const HsVanRow *van = g_ptr_array_index (vans, i);
      HsOtherStock *other;

      if (g_str_equal (van->id, make->solved->facts->van_id))
        continue;
      other = g_new0 (HsOtherStock, 1);
      other->van = g_strdup (van->letter);
      g_ptr_array_add (make->others, other);
      if (!hs_stock_row_list (make->store, van->id, &other->stock, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
has_enough (const GPtrArray *stock, const HsDayNeed *need)
{
  for (guint i = 0; i < stock->len; i++)
    {
      const HsStockRow *row = g_ptr_array_index (stock, i);

      if (g_str_equal (row->part_id, need->part_id) && row->quantity_milli >= need->quantity_milli)
        return TRUE;
    }
  return FALSE;
}

/* With several vans: which one it is for or in, and which other has it. */
static void
name_van (const HsRunMake *make, HsRunRow *row, const HsDayNeed *need)
{
  if (make->others->len > 0)
    row->van = g_strdup (make->solved->facts->van);
  for (guint i = 0; need->source != HS_DAY_SOURCE_VAN && i < make->others->len; i++)
    {
      const HsOtherStock *other = g_ptr_array_index (make->others, i);
      g_autofree char *has = g_strdup_printf ("van %s has it", other->van);

      if (has_enough (other->stock, need))
        add_words (&row->note, has);
    }
}

static HsRunRow *
row_of_need (const HsRunMake *make, const HsDayNeed *need)
{
  const HsDayCall *call = g_ptr_array_index (make->solved->facts->calls, need->call);
  HsRunRow *row = row_new (make, "pick_up", need->id, need->quantity_milli);

  row->part = g_strdup (need->part);
  row->number = g_strdup (need->number);
  row->job_number = g_strdup (call->number);
  row->sure_percent = need->sure_percent;
  row->cents = times_quantity (need->unit_cents, need->quantity_milli);
  if (g_str_equal (need->state, "laid_aside"))
    add_words (&row->note, "laid aside");
  if (g_str_equal (need->state, "asked_for"))
    add_words (&row->note, "asked for");
  if (need->sure_percent < 100)
    {
      g_autofree char *sure = g_strdup_printf ("%d %% sure", need->sure_percent);

      add_words (&row->note, sure);
    }
  name_van (make, row, need);
  return row;
}

static void
pick_up (HsRunMake *make, const HsDayNeed *need)
{
  HsRunCounter *counter = find_counter (make, need->supplier_id);
  HsRunRow *row = row_of_need (make, need);

  row->supplier = g_strdup (counter->supplier);
  row->deposit_cents = MAX (0, times_quantity (need->core_deposit_cents, need->quantity_milli));
  counter->pick_up_cents += MAX (0, row->cents);
  counter->deposit_cents += row->deposit_cents;
  g_ptr_array_add (counter->pick_up, row);
}

static void
take_from_van (HsRunMake *make, const HsDayNeed *need)
{
  const HsStockRow *stock = find_stock (make, need->part_id);
  HsRunRow *row = row_of_need (make, need);

  if (stock != NULL)
    add_words (&row->note, stock->bin);
  g_ptr_array_add (make->run->from_van, row);
}

/* Place in the plan of the call with this number; one that is not in it comes last. */
static guint
place_of_call (const HsDayPlan *plan, const char *number)
{
  for (guint i = 0; i < plan->stops->len; i++)
    {
      const HsPlannedStop *stop = g_ptr_array_index (plan->stops, i);

      if (!stop->is_counter && g_strcmp0 (stop->id, number) == 0)
        return i;
    }
  return plan->stops->len;
}

/* In the order in which the calls come. */
static int
compare_by_call (gconstpointer a, gconstpointer b, gpointer plan)
{
  const HsRunRow *first = *(HsRunRow *const *) a;
  const HsRunRow *second = *(HsRunRow *const *) b;
  int order = (int) place_of_call (plan, first->job_number) - (int) place_of_call (plan, second->job_number);

  return order != 0 ? order : g_strcmp0 (first->part, second->part);
}

static void
add_needs (HsRunMake *make)
{
  const HsDayFacts *facts = make->solved->facts;

  for (guint i = 0; i < facts->needs->len; i++)
    {
      const HsDayNeed *need = g_ptr_array_index (facts->needs, i);

      if (need->source == HS_DAY_SOURCE_COUNTER)
        pick_up (make, need);
      else if (need->source == HS_DAY_SOURCE_VAN)
        take_from_van (make, need);
      else
        g_ptr_array_add (make->run->nowhere, row_of_need (make, need));
    }
  for (guint i = 0; i < make->run->counters->len; i++)
    g_ptr_array_sort_with_data (((HsRunCounter *) g_ptr_array_index (make->run->counters, i))->pick_up,
                                compare_by_call, make->run->plan);
}

/* Cores ------------------------------------------------------------------------------------------------------------ */

/* Place of a call in the plan from 1; 0 if it is not in it. */
static guint
stop_of_job (const HsRunMake *make, const char *job_id)
{
  for (guint i = 0; job_id != NULL && i < make->run->plan->stops->len; i++)
    {
      const HsPlannedStop *stop = g_ptr_array_index (make->run->plan->stops, i);

      if (!stop->is_counter && g_str_equal (stop->row_id, job_id))
        return i + 1;
    }
  return 0;
}

/* The first call of the plan that takes this part out of the van: the old unit comes off there. */
static const HsDayCall *
call_that_takes (const HsRunMake *make, const char *part_id, guint *ret_stop)
{
  const HsDayFacts *facts = make->solved->facts;
  const HsDayCall *first = NULL;

  *ret_stop = 0;
  for (guint i = 0; part_id != NULL && i < facts->needs->len; i++)
    {
      const HsDayNeed *need = g_ptr_array_index (facts->needs, i);
      const HsDayCall *call = g_ptr_array_index (facts->calls, need->call);
      guint stop = stop_of_job (make, call->job_id);

      if (need->source != HS_DAY_SOURCE_VAN || !g_str_equal (need->part_id, part_id) || stop == 0)
        continue;
      if (*ret_stop != 0 && stop > *ret_stop)
        continue;
      *ret_stop = stop;
      first = call;
    }
  return first;
}

static gboolean
comes_off_before (const HsRunMake *make, const HsCoreRow *core, const HsRunCounter *counter, const char **ret_job_id)
{
  guint stop = stop_of_job (make, core->job_id);
  const HsDayCall *call;

  if (core->job_id != NULL)
    {
      *ret_job_id = core->job_id;
      return stop != 0 && stop < counter->stop_number;
    }
  call = call_that_takes (make, core->part_id, &stop);
  if (call != NULL)
    *ret_job_id = call->job_id;
  return call != NULL && stop < counter->stop_number;
}

static void
note_core (const HsRunMake *make, HsRunRow *row, const HsCoreRow *core)
{
  g_autofree char *left = hs_say_days_left (core->due_on, make->run->plan->day);

  if (g_str_equal (core->where_now, "at_base"))
    add_words (&row->note, "take from base");
  add_words (&row->note, left);
}

static gboolean
add_core_row (HsRunMake *make, GPtrArray *rows, const char *list, const HsCoreRow *core, const char *job_id,
              GError **error)
{
  HsRunRow *row = row_new (make, list, core->id, 1000);

  g_ptr_array_add (rows, row);
  row->cents = core->deposit_cents;
  row->where_now = g_strdup (core->where_now);
  row->last_day = core->due_on;
  if (g_str_equal (list, "maybe"))
    add_words (&row->note, "if it comes off on the way");
  note_core (make, row, core);
  return name_part (make, row, core->part_id, error) && name_supplier (make, row, core->supplier_id, error)
         && name_job (make, row, job_id, error);
}

static gboolean
add_core (HsRunMake *make, const HsCoreRow *core, GError **error)
{
  HsRunCounter *counter = find_counter (make, core->supplier_id);
  gboolean on_the_way = counter != NULL && counter->stop_number > 0;
  const char *job_id = core->job_id;

  if (g_str_equal (core->where_now, "on_the_vehicle"))
    return !on_the_way || !comes_off_before (make, core, counter, &job_id)
           || add_core_row (make, counter->maybe, "maybe", core, job_id, error);
  if (!g_str_equal (core->where_now, "in_the_van") && !g_str_equal (core->where_now, "at_base"))
    return TRUE;
  if (!on_the_way)
    return add_core_row (make, make->run->elsewhere, "drop_off", core, core->job_id, error);
  counter->drop_off_cents += core->deposit_cents;
  return add_core_row (make, counter->drop_off, "drop_off", core, core->job_id, error);
}

static gboolean
add_cores (HsRunMake *make, GError **error)
{
  g_autoptr (GPtrArray) cores = NULL;

  if (!hs_core_row_list (make->store, TRUE, &cores, error))
    return FALSE;
  for (guint i = 0; i < cores->len; i++)
    if (!add_core (make, g_ptr_array_index (cores, i), error))
      return FALSE;
  return TRUE;
}

/* Returns ---------------------------------------------------------------------------------------------------------- */

static gboolean
add_return (HsRunMake *make, const HsReturnRow *source, GError **error)
{
  HsRunCounter *counter = find_counter (make, source->supplier_id);
  gboolean on_the_way = counter != NULL && counter->stop_number > 0;
  HsRunRow *row = row_new (make, "return", source->id, source->quantity_milli);
  g_autofree char *left = hs_say_days_left (source->last_day, make->run->plan->day);
  g_autofree char *bought = hs_say_day_short (source->bought_on, make->run->plan->day);
  g_autofree char *since = g_strdup_printf ("bought %s", bought);

  g_ptr_array_add (on_the_way ? counter->give_back : make->run->elsewhere, row);
  row->cents = source->amount_cents;
  row->last_day = source->last_day;
  add_words (&row->note, since);
  add_words (&row->note, left);
  if (on_the_way)
    counter->give_back_cents += source->amount_cents;
  return name_part (make, row, source->part_id, error) && name_supplier (make, row, source->supplier_id, error)
         && name_job (make, row, source->job_id, error);
}

static gboolean
add_returns (HsRunMake *make, GError **error)
{
  g_autoptr (GPtrArray) returns = NULL;

  if (!hs_return_row_list (make->store, TRUE, &returns, error))
    return FALSE;
  for (guint i = 0; i < returns->len; i++)
    if (!add_return (make, g_ptr_array_index (returns, i), error))
      return FALSE;
  return TRUE;
}

/* Restocking ------------------------------------------------------------------------------------------------------- */

static gboolean
is_on_the_way (const HsRunMake *make, const char *supplier_id)
{
  const HsRunCounter *counter = find_counter (make, supplier_id);

  return counter != NULL && counter->stop_number > 0;
}

static gboolean
stops_there (const char *supplier_id, gpointer make)
{
  return is_on_the_way (make, supplier_id);
}

static void
add_shortage (HsRunMake *make, const HsDayShort *lack)
{
  const HsDayLister *today = hs_day_short_choose (lack, stops_there, make);
  const HsDayLister *lister = today != NULL || lack->listers->len == 0 ? today : g_ptr_array_index (lack->listers, 0);
  HsRunRow *row = row_new (make, "restock", lack->stock_id, lack->quantity_milli);
  g_autofree char *left = hs_decimal_format_short (lack->left_milli, 3);
  g_autofree char *keep = hs_decimal_format_short (lack->keep_milli, 3);

  row->part = g_strdup (lack->part);
  row->number = g_strdup (lack->number);
  row->note = g_strdup_printf ("%s left, keep %s", left, keep);
  if (lister != NULL)
    {
      row->supplier = g_strdup (lister->supplier);
      row->cents = hs_day_short_cents (lack, lister->cost_cents);
      row->deposit_cents = MAX (0, hs_day_short_cents (lack, lack->core_deposit_cents));
    }
  g_ptr_array_add (today != NULL ? find_counter (make, today->supplier_id)->restock : make->run->elsewhere, row);
}

static void
add_shortages (HsRunMake *make)
{
  const GPtrArray *shorts = make->solved->facts->shorts;

  for (guint i = 0; i < shorts->len; i++)
    add_shortage (make, g_ptr_array_index (shorts, i));
}

/* The run ---------------------------------------------------------------------------------------------------------- */

static void
add_sums (HsPartsRun *run)
{
  for (guint i = 0; i < run->counters->len; i++)
    {
      const HsRunCounter *counter = g_ptr_array_index (run->counters, i);

      if (counter->stop_number == 0)
        continue;
      run->parts_cents += counter->pick_up_cents;
      run->deposits_cents += counter->deposit_cents;
      run->coming_back_cents += counter->drop_off_cents + counter->give_back_cents;
    }
}

static HsPartsRun *
run_new (const HsDaySolved *solved)
{
  HsPartsRun *run = g_new0 (HsPartsRun, 1);

  run->plan = hs_day_solved_describe (solved);
  run->counters = g_ptr_array_new_with_free_func (run_counter_free);
  run->from_van = rows_new ();
  run->nowhere = rows_new ();
  run->elsewhere = rows_new ();
  return run;
}

HsPartsRun *
hs_parts_run_make (HsBook *book, HsDate day, const char *van, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsDaySolved) solved = hs_day_solve (book, day, van, HS_DAY_STANDING, NULL, now, error);
  g_autoptr (HsPartsRun) run = NULL;
  g_autoptr (GPtrArray) ticks = NULL;
  g_autoptr (GPtrArray) stock = NULL;
  g_autoptr (GPtrArray) others = NULL;
  HsRunMake make;

  if (solved == NULL || !hs_tick_row_list (store, day, &ticks, error)
      || !hs_stock_row_list (store, solved->facts->van_id, &stock, error))
    return NULL;
  run = run_new (solved);
  others = g_ptr_array_new_with_free_func (other_stock_free);
  make = (HsRunMake) { store, solved, run, ticks, stock, others };
  if (!load_others (&make, error))
    return NULL;
  add_counters (&make);
  add_needs (&make);
  if (!explain_counters (&make, error) || !add_cores (&make, error) || !add_returns (&make, error))
    return NULL;
  add_shortages (&make);
  add_sums (run);
  if (!hs_load_list_make (book, run, &run->load_list, error))
    return NULL;
  return g_steal_pointer (&run);
}

/* Ticks ------------------------------------------------------------------------------------------------------------ */

static gboolean
check_row (HsStore *store, const char *list, const char *row_id, GError **error)
{
  g_autoptr (HsNeedRow) need = NULL;
  g_autoptr (HsCoreRow) core = NULL;
  g_autoptr (HsReturnRow) back = NULL;
  g_autoptr (HsStockRow) stock = NULL;

  if (g_str_equal (list, "pick_up"))
    return hs_need_row_load (store, row_id, &need, error);
  if (g_str_equal (list, "drop_off") || g_str_equal (list, "maybe"))
    return hs_core_row_load (store, row_id, &core, error);
  if (g_str_equal (list, "return"))
    return hs_return_row_load (store, row_id, &back, error);
  if (g_str_equal (list, "restock"))
    return hs_stock_row_load (store, row_id, &stock, error);
  g_set_error (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED,
               "The parts run has no list “%s”: pick_up, drop_off, maybe, return or restock", list);
  return FALSE;
}

gboolean
hs_parts_run_tick (HsBook *book, HsDate day, const char *list, const char *row_id, gboolean done, HsInstant now,
                   GError **error)
{
  HsStore *store = hs_book_get_store (book);
  const char *kind = g_str_equal (list, "maybe") ? "drop_off" : list;

  if (!hs_store_begin (store, now, error))
    return FALSE;
  return hs_store_end (store, check_row (store, list, row_id, error)
                                && hs_tick_row_put (store, day, kind, row_id, done, error), error);
}
