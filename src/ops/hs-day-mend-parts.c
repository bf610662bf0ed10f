// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Ways out where a counter keeps a holiday. Use it with the other mends of a day. A counter that lists the part is only
 * said when the van was sent there and the day came out no worse for it. Reads only.
 */

#include "hs-day-mend-parts.h"

#include "hs-counter-hours.h"
#include "hs-money.h"
#include "hs-part-row.h"
#include "hs-say.h"
#include "hs-supplier-row.h"

typedef struct
{
  const HsDayAsk *ask;
  HsBook *book;
  const HsDaySolved *solved;
  GPtrArray *mends;
  HsCounterHours *hours;
} Lack;

/* How late a stop, the break or coming home is in @plan; -1: it is not broken there. */
static gint32
broken_late (const HsDaySolved *solved, const char *row_id, int stop)
{
  for (guint i = 0; i < solved->plan->broken->len; i++)
    {
      const HsPlanBroken *broken = hs_plan_get_broken (solved->plan, i);

      if (broken->stop == stop || (row_id != NULL && broken->stop >= 0
                                   && g_str_equal (hs_day_solved_row_id (solved, (guint) broken->stop), row_id)))
        return broken->late_seconds;
    }
  return -1;
}

/* Whether all that is broken in @trial is broken, and as late, in @solved, too. */
static gboolean
is_no_worse (const HsDaySolved *trial, const HsDaySolved *solved)
{
  for (guint i = 0; i < trial->plan->broken->len; i++)
    {
      const HsPlanBroken *broken = hs_plan_get_broken (trial->plan, i);
      const char *row_id = broken->stop >= 0 ? hs_day_solved_row_id (trial, (guint) broken->stop) : NULL;

      if (broken->late_seconds > broken_late (solved, row_id, row_id == NULL ? broken->stop : HS_DAY_MAX_STOPS))
        return FALSE;
    }
  return TRUE;
}

/* Whether the van is at a counter, while that is open, before it is at a job. */
static gboolean
fetches (const HsDaySolved *solved, const char *supplier_id, const char *job_id)
{
  gboolean there = FALSE;

  if (!hs_day_solved_reaches (solved, supplier_id))
    return FALSE;
  for (guint i = 0; i < solved->plan->stops->len; i++)
    {
      const char *row_id = hs_day_solved_row_id (solved, hs_plan_get_stop (solved->plan, i)->stop);

      there = there || g_str_equal (row_id, supplier_id);
      if (g_str_equal (row_id, job_id))
        return there;
    }
  return FALSE;
}

/* Sends the van there, as the day is planned. */
static gboolean
try_counter (const Lack *lack, const HsDayNeed *need, const HsPriceRow *price, gboolean *ret_does, GError **error)
{
  const HsDayInstead instead = { need->id, price->supplier_id, price->cost_cents };
  const HsDayCall *call = g_ptr_array_index (lack->solved->facts->calls, need->call);
  g_autoptr (HsDaySolved) trial = hs_day_solve_instead (lack->ask, &instead, error);

  if (trial == NULL)
    return FALSE;
  *ret_does = fetches (trial, price->supplier_id, call->job_id) && is_no_worse (trial, lack->solved);
  return TRUE;
}

/* The cheapest counter apart from the need's own that does; untouched if there is none. */
static gboolean
find_other (const Lack *lack, const HsDayNeed *need, HsPriceRow **ret_price, GError **error)
{
  g_autoptr (GPtrArray) prices = NULL;

  if (!hs_price_row_list_latest (hs_book_get_store (lack->book), need->part_id, &prices, error))
    return FALSE;
  for (guint i = 0; *ret_price == NULL && i < prices->len; i++)
    {
      const HsPriceRow *price = g_ptr_array_index (prices, i);
      gboolean does = FALSE;

      if (g_str_equal (price->supplier_id, need->supplier_id)
          || !hs_counter_hours_is_open (lack->hours, price->supplier_id))
        continue;
      if (!try_counter (lack, need, price, &does, error))
        return FALSE;
      if (does)
        *ret_price = hs_price_row_copy (price);
    }
  return TRUE;
}

static gboolean
add_other_counter (const Lack *lack, const HsDayNeed *need, const HsPriceRow *price, const char *number, GError **error)
{
  g_autofree char *part = hs_say_part (need->part);
  g_autofree char *cents = hs_money_format (price->cost_cents, hs_book_get_currency (lack->book));
  g_autoptr (HsSupplierRow) supplier = NULL;

  if (!hs_supplier_row_load (hs_book_get_store (lack->book), price->supplier_id, &supplier, error))
    return FALSE;
  g_ptr_array_add (lack->mends, hs_day_mend_new (number, g_strdup_printf ("buy %s at %s, which lists it at %s", part,
                                                                          supplier->name, cents)));
  return TRUE;
}

static gboolean
add_other_day (const Lack *lack, const HsDayNeed *need, const char *number, GError **error)
{
  const HsDayFacts *facts = lack->solved->facts;
  g_autofree char *day = NULL;
  HsDate next;
  int minutes;

  if (!hs_counter_hours_find_next (hs_book_get_store (lack->book), need->supplier_id, facts->day, &next, &minutes,
                                   error))
    return FALSE;
  if (next == HS_DATE_NONE)
    return TRUE;
  day = hs_say_day_short (next, facts->day);
  g_ptr_array_add (lack->mends,
                   hs_day_mend_new (number, g_strdup_printf ("give it another day: %s opens again on %s",
                                                             hs_day_facts_find_counter (facts, need->supplier_id)->name,
                                                             day)));
  return TRUE;
}

static void
add_without (const Lack *lack, const HsDayNeed *need, const char *number)
{
  g_autofree char *part = hs_say_part (need->part);

  if (need->sure_percent < 100)
    g_ptr_array_add (lack->mends, hs_day_mend_new (number, g_strdup_printf ("go without %s: that it is needed is only "
                                                                            "%d %% sure", part, need->sure_percent)));
}

static gboolean
add_need (const Lack *lack, const HsDayNeed *need, GError **error)
{
  const HsDayCall *call = g_ptr_array_index (lack->solved->facts->calls, need->call);
  g_autoptr (HsPriceRow) price = NULL;

  if (!find_other (lack, need, &price, error))
    return FALSE;
  if (price != NULL)
    return add_other_counter (lack, need, price, call->number, error);
  if (!add_other_day (lack, need, call->number, error))
    return FALSE;
  add_without (lack, need, call->number);
  return TRUE;
}

static gboolean
is_ahead (const HsDaySolved *solved, const HsDayCall *call)
{
  for (guint i = 0; i < solved->plan->stops->len; i++)
    if (g_array_index (solved->build->refs, HsDayStopRef, hs_plan_get_stop (solved->plan, i)->stop).call == call)
      return TRUE;
  return FALSE;
}

HsDayMend *
hs_day_mend_new (const char *id, char *what)
{
  HsDayMend *mend = g_new0 (HsDayMend, 1);

  mend->id = g_strdup (id);
  mend->what = what;
  return mend;
}

gboolean
hs_day_mend_add_parts (GPtrArray *mends, const HsDayAsk *ask, const HsDaySolved *solved, GError **error)
{
  const HsDayFacts *facts = solved->facts;
  g_autoptr (HsCounterHours) hours = hs_counter_hours_load (hs_book_get_store (ask->book), facts->day, error);
  const Lack lack = { ask, ask->book, solved, mends, hours };

  if (hours == NULL)
    return FALSE;
  for (guint i = 0; i < facts->needs->len; i++)
    {
      const HsDayNeed *need = g_ptr_array_index (facts->needs, i);

      if (need->source == HS_DAY_SOURCE_COUNTER && !hs_day_solved_reaches (solved, need->supplier_id)
          && is_ahead (solved, g_ptr_array_index (facts->calls, need->call)) && !add_need (&lack, need, error))
        return FALSE;
    }
  return TRUE;
}
