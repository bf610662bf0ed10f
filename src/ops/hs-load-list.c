// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * The load list of one van: what has to be on board before it leaves, what may stay behind, and what that would cost.
 * Use it with the parts run that it belongs to. Reads only.
 */

#include "hs-load-list.h"

#include "hs-bring.h"
#include "hs-day.h"
#include "hs-decimal.h"
#include "hs-job-row.h"
#include "hs-money.h"
#include "hs-settings-op.h"
#include "hs-supplier-row.h"

/* What every list needs: the owner's figures, and what a second trip costs. */
typedef struct
{
  HsBook *book;
  const HsPartsRun *run;
  GPtrArray *rows;
  gint64 minute_cents;
  gint64 mile_cents;
  gint64 return_minutes;
  gint64 trip_minutes;
  gint64 trip_millimiles;
  gint64 trip_cents;
} HsLoadMake;

/* Tools and fluids that the answers to the first questions may ask for, by complaint. */
static const struct
{
  const char *group;
  const char *what;
} tools[] = {
  { "will_not_start", "scan tool, fuel gauge, spare fuel, main fuses" },
  { "everything_dead", "booster, clamps, main fuses" },
  { "drains", "booster, meter with clamp" },
  { "charging_lamp", "meter with clamp, belt" },
  { "brakes", "stands, chocks, wheel nut key" },
  { "overheats", "pressure tester, hoses, clips, coolant" },
  { "cuts_out", "scan tool, fuel gauge, drain can" },
};

const char *
hs_load_kind_id (HsLoadKind kind)
{
  static const char *const ids[] = { "tool", "on_board", "from_base", "give_back", "bring", "leave" };

  return ids[kind];
}

void
hs_load_row_free (HsLoadRow *row)
{
  if (row == NULL)
    return;
  g_free (row->what);
  g_free (row->number);
  g_free (row->job_number);
  g_free (row->supplier);
  g_free (row->why);
  g_free (row);
}

static HsLoadRow *
add_row (HsLoadMake *make, HsLoadKind kind, const char *what)
{
  HsLoadRow *row = g_new0 (HsLoadRow, 1);

  row->kind = kind;
  row->what = g_strdup (what);
  row->quantity = 1;
  row->sure_percent = row->line_permille = -1;
  row->vain_cents = row->trip_cents = -1;
  g_ptr_array_add (make->rows, row);
  return row;
}

static HsLoadRow *
add_part (HsLoadMake *make, HsLoadKind kind, const HsRunRow *part)
{
  HsLoadRow *row = add_row (make, kind, part->part);

  row->number = g_strdup (part->number);
  row->quantity = part->quantity;
  row->job_number = g_strdup (part->job_number);
  row->supplier = g_strdup (part->supplier);
  row->sure_percent = part->sure_percent;
  return row;
}

static char *
money (const HsLoadMake *make, gint64 cents)
{
  return hs_money_format (cents, hs_book_get_currency (make->book));
}

/* Tools ------------------------------------------------------------------------------------------------------------ */

static gboolean
add_tools (HsLoadMake *make, const HsPlannedStop *stop, GError **error)
{
  g_autoptr (HsJobRow) job = NULL;

  if (!hs_job_row_load (hs_book_get_store (make->book), stop->row_id, &job, error))
    return FALSE;
  for (guint i = 0; i < G_N_ELEMENTS (tools); i++)
    if (g_strcmp0 (tools[i].group, job->complaint_group) == 0)
      {
        HsLoadRow *row = add_row (make, HS_LOAD_TOOL, tools[i].what);

        row->job_number = g_strdup (stop->id);
        row->trip_cents = make->trip_cents;
        row->why = g_strdup_printf ("“%s”", stop->words);
      }
  return TRUE;
}

static gboolean
add_all_tools (HsLoadMake *make, GError **error)
{
  for (guint i = 0; i < make->run->plan->stops->len; i++)
    {
      const HsPlannedStop *stop = g_ptr_array_index (make->run->plan->stops, i);

      if (!stop->is_counter && !add_tools (make, stop, error))
        return FALSE;
    }
  return TRUE;
}

/* On board, and to be put there ------------------------------------------------------------------------------- */

static void
add_on_board (HsLoadMake *make, const HsRunRow *part)
{
  HsLoadRow *row = add_part (make, HS_LOAD_ON_BOARD, part);
  g_autofree char *trip = money (make, make->trip_cents);

  row->vain_cents = 0;
  row->trip_cents = make->trip_cents;
  row->why = g_strdup_printf ("costs nothing to bring; a second trip for it costs %s", trip);
}

static void
add_take_along (HsLoadMake *make, HsLoadKind kind, const HsRunRow *part)
{
  HsLoadRow *row = add_part (make, kind, part);
  g_autofree char *back = money (make, part->cents);

  row->why = g_strdup_printf ("brings back %s%s%s", back, part->note != NULL ? ", " : "",
                              part->note != NULL ? part->note : "");
}

/* Bring or leave --------------------------------------------------------------------------------------------------- */

static HsBringQuestion
question_of (const HsLoadMake *make, const HsRunRow *part, gint64 restock_basis_points)
{
  return (HsBringQuestion) { .guess = part->sure_percent / 100.0,
                             .weight = 1,
                             .cost_cents = (double) part->cents,
                             .restock_percent = (double) restock_basis_points / 100,
                             .return_minutes = (double) make->return_minutes,
                             .trip_minutes = (double) make->trip_minutes,
                             .trip_miles = (double) make->trip_millimiles / 1000,
                             .minute_cents = (double) make->minute_cents,
                             .mile_cents = (double) make->mile_cents };
}

static void
say_weighed (const HsLoadMake *make, HsLoadRow *row)
{
  g_autofree char *line = hs_decimal_format_short (row->line_permille, 1);
  g_autofree char *vain = money (make, row->vain_cents);
  g_autofree char *trip = money (make, row->trip_cents);
  g_autofree char *gain = money (make, ABS (row->gain_cents));

  row->why = g_strdup_printf ("%d %% sure, worth it above %s %%: for nothing it costs %s, left behind a second trip, "
                              "%s; bringing it %s %s on average", row->sure_percent, line, vain, trip,
                              row->gain_cents >= 0 ? "saves" : "costs", gain);
}

static void
add_doubtful (HsLoadMake *make, const HsRunRow *part, gint64 restock_basis_points)
{
  const HsBringQuestion question = question_of (make, part, restock_basis_points);
  HsLoadRow *row = add_part (make, HS_LOAD_BRING, part);
  HsBringAnswer answer;

  row->trip_cents = make->trip_cents;
  if (part->cents < 0)
    row->why = g_strdup_printf ("%d %% sure; its price is not known, so it can't be weighed", part->sure_percent);
  else if (!hs_bring_weigh (&question, &answer, NULL))
    row->why = g_strdup_printf ("%d %% sure; neither way costs anything", part->sure_percent);
  else
    {
      row->kind = answer.bring ? HS_LOAD_BRING : HS_LOAD_LEAVE;
      row->line_permille = (int) (1000 * answer.line + 0.5);
      row->vain_cents = (gint64) (answer.vain_cents + 0.5);
      row->gain_cents = answer.gain_cents;
      say_weighed (make, row);
    }
}

/* There is nothing to weigh about what can't be bought. */
static void
add_shut (HsLoadMake *make, const HsRunCounter *counter, const HsRunRow *part)
{
  HsLoadRow *row = add_part (make, HS_LOAD_LEAVE, part);

  row->trip_cents = make->trip_cents;
  row->why = g_strdup_printf ("it can't be had today%s%s", counter->why_not != NULL ? ": " : "",
                              counter->why_not != NULL ? counter->why_not : "");
}

static gboolean
add_counter (HsLoadMake *make, const HsRunCounter *counter, GError **error)
{
  g_autoptr (HsSupplierRow) supplier = NULL;

  if (!hs_supplier_row_load (hs_book_get_store (make->book), counter->supplier_id, &supplier, error))
    return FALSE;
  for (guint i = 0; i < counter->pick_up->len; i++)
    {
      const HsRunRow *part = g_ptr_array_index (counter->pick_up, i);

      if (counter->stop_number == 0)
        add_shut (make, counter, part);
      else if (part->sure_percent < 100)
        add_doubtful (make, part, supplier->restock_basis_points);
    }
  for (guint i = 0; counter->stop_number > 0 && i < counter->drop_off->len; i++)
    {
      const HsRunRow *core = g_ptr_array_index (counter->drop_off, i);

      if (g_strcmp0 (core->where_now, "at_base") == 0)
        add_take_along (make, HS_LOAD_FROM_BASE, core);
    }
  for (guint i = 0; counter->stop_number > 0 && i < counter->give_back->len; i++)
    add_take_along (make, HS_LOAD_GIVE_BACK, g_ptr_array_index (counter->give_back, i));
  return TRUE;
}

/* The list --------------------------------------------------------------------------------------------------------- */

static gboolean
load_figures (HsLoadMake *make, GError **error)
{
  HsBook *book = make->book;

  if (!hs_settings_get_int (book, "minute_cents", &make->minute_cents, error)
      || !hs_settings_get_int (book, "mile_cents", &make->mile_cents, error)
      || !hs_settings_get_int (book, "return_minutes", &make->return_minutes, error)
      || !hs_settings_get_int (book, "second_trip_minutes", &make->trip_minutes, error)
      || !hs_settings_get_scaled (book, "second_trip_miles", 3, &make->trip_millimiles, error))
    return FALSE;
  make->trip_cents = hs_cost_cents (hs_cost_units (60 * make->trip_minutes, make->minute_cents, make->trip_millimiles,
                                                   make->mile_cents));
  return TRUE;
}

/* What is of one kind stays in the order in which it was added. */
static int
compare_rows (gconstpointer a, gconstpointer b)
{
  return (int) (*(HsLoadRow *const *) a)->kind - (int) (*(HsLoadRow *const *) b)->kind;
}

gboolean
hs_load_list_make (HsBook *book, const HsPartsRun *run, GPtrArray **ret_rows, GError **error)
{
  g_autoptr (GPtrArray) rows = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_load_row_free);
  HsLoadMake make = { book, run, rows };

  if (!load_figures (&make, error) || !add_all_tools (&make, error))
    return FALSE;
  for (guint i = 0; i < run->from_van->len; i++)
    add_on_board (&make, g_ptr_array_index (run->from_van, i));
  for (guint i = 0; i < run->counters->len; i++)
    if (!add_counter (&make, g_ptr_array_index (run->counters, i), error))
      return FALSE;
  g_ptr_array_sort (rows, compare_rows);
  *ret_rows = g_steal_pointer (&rows);
  return TRUE;
}
