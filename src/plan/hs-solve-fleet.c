// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Column generation over the trips of all vans. Vans that are alike in everything share their trips. */

#include "hs-solve-fleet.h"

#include "hs-solve-combine.h"
#include "hs-solve-master.h"
#include "hs-solve-trip.h"

#include <math.h>
#include <string.h>

#define NEAR_AT_FIRST 7

/* Between the prices of the linear program and those that gave the best floor so far. */
#define CALM 0.5

/* Trips that cost less than this over their prizes are no news. */
#define NO_NEWS (-HS_COST_UNITS / 100)

/* At the least. */
#define CLOSE_EVERY 100

#define MAX_TURNS 2000

/* 46 MB, and as much again where they are put together. */
#define MAX_TRIPS 200000
#define LEAST_SHARE 0.01

/* @kinds: of vans; @first: a van of each kind; @members: how many there are of it
 * @prices: of the linear program, per call and kind, in units
 * @calm: what was last asked for; @held: those that gave the floor
 * @sound: the linear program could still be solved */
typedef struct
{
  HsExact *exact;
  const HsSolveFrame *frame;
  const HsSolveTerms *terms;
  HsTrips *trips;
  HsMaster *master;
  GArray *pool;
  guint n_kinds;
  guint kind[HS_PROBLEM_MAX_VANS];
  guint first[HS_PROBLEM_MAX_VANS];
  guint members[HS_PROBLEM_MAX_VANS];
  gint64 prices[HS_PROBLEM_MAX_CALLS + HS_PROBLEM_MAX_VANS];
  gint64 calm[HS_PROBLEM_MAX_CALLS];
  gint64 held[HS_PROBLEM_MAX_CALLS];
  gint64 floor;
  guint asked;
  gboolean sound;
  HsScore *best;
} Fleet;

/* Kinds ------------------------------------------------------------------------------------------------------------ */

static void
fill_kinds (Fleet *fleet)
{
  for (guint v = 0; v < fleet->frame->n_vans; v++)
    {
      guint k = 0;

      while (k < fleet->n_kinds && !hs_solve_frame_alike (fleet->frame, fleet->first[k], v))
        k++;
      if (k == fleet->n_kinds)
        fleet->first[fleet->n_kinds++] = v;
      fleet->kind[v] = k;
      fleet->members[k]++;
    }
}

/* Trips ------------------------------------------------------------------------------------------------------------ */

static void
add_trip (Fleet *fleet, const HsTrip *trip)
{
  guint16 rows[HS_PROBLEM_MAX_CALLS + 1];

  for (guint k = 0; k < trip->n_calls; k++)
    rows[k] = trip->calls[k];
  rows[trip->n_calls] = (guint16) (fleet->frame->n_calls + fleet->kind[trip->van]);
  hs_master_add (fleet->master, (double) trip->units / HS_COST_UNITS, rows, trip->n_calls + 1);
  g_array_append_val (fleet->pool, *trip);
}

static void
add_known (Fleet *fleet, const HsPath *path)
{
  HsOrders orders;

  hs_solve_orders_read (fleet->frame, path, &orders);
  for (guint v = 0; v < fleet->frame->n_vans; v++)
    {
      HsTrip trip = { .van = fleet->first[fleet->kind[v]], .n_calls = orders.n[v] };
      HsClose close;

      memcpy (trip.calls, orders.calls[v], orders.n[v]);
      if (orders.n[v] == 0
          || !hs_solve_drive (fleet->frame, fleet->terms, v, orders.calls[v], orders.n[v], &close, NULL))
        continue;
      trip.units = close.units;
      add_trip (fleet, &trip);
    }
}

static gint64
over_prices (const Fleet *fleet, const HsTrip *trip)
{
  gint64 over = trip->units - fleet->prices[fleet->frame->n_calls + fleet->kind[trip->van]];

  for (guint k = 0; k < trip->n_calls; k++)
    over -= fleet->prices[trip->calls[k]];
  return over;
}

/* Adds those of @found that the linear program does not know to be too dear, while there is room. */
static guint
add_news (Fleet *fleet, const GArray *found)
{
  guint n = 0;

  for (guint i = 0; i < found->len && fleet->pool->len < MAX_TRIPS; i++)
    {
      const HsTrip *trip = &g_array_index (found, HsTrip, i);

      if (over_prices (fleet, trip) >= NO_NEWS)
        continue;
      add_trip (fleet, trip);
      n++;
    }
  return n;
}

/* Prices ----------------------------------------------------------------------------------------------------------- */

/* FALSE if the linear program has come to its end: with the prices of before it would find the trips of before. */
static gboolean
fill_prices (Fleet *fleet)
{
  double prices[HS_PROBLEM_MAX_CALLS + HS_PROBLEM_MAX_VANS];

  fleet->sound = hs_master_solve (fleet->master, prices);
  for (guint i = 0; i < fleet->frame->n_calls + fleet->n_kinds; i++)
    fleet->prices[i] = (gint64) floor (prices[i] * HS_COST_UNITS);
  return fleet->sound;
}

/* Trips worth their while at the prices of the linear program, searched for in a hurry. */
static guint
look_roughly (Fleet *fleet, HsTripsCare care)
{
  g_autoptr (GArray) found = g_array_new (FALSE, FALSE, sizeof (HsTrip));
  guint n = 0;

  for (guint k = 0; k < fleet->n_kinds; k++)
    {
      gint64 least;

      g_array_set_size (found, 0);
      if (!hs_solve_trips_run (fleet->trips, fleet->exact, fleet->first[k], fleet->prices,
                               fleet->prices[fleet->frame->n_calls + k] + NO_NEWS, care, &least, found))
        return 0;
      n += add_news (fleet, found);
    }
  return n;
}

/* The same, whole: at whatever prices, all calls together less what the vans' best trips make on them is a floor. */
static gboolean
look_closely (Fleet *fleet, const gint64 *prices, guint *ret_n)
{
  g_autoptr (GArray) found = g_array_new (FALSE, FALSE, sizeof (HsTrip));
  gint64 floor = 0;

  *ret_n = 0;
  for (guint i = 0; i < fleet->frame->n_calls; i++)
    floor += prices[i];
  for (guint k = 0; k < fleet->n_kinds; k++)
    {
      gint64 least;

      g_array_set_size (found, 0);
      if (!hs_solve_trips_run (fleet->trips, fleet->exact, fleet->first[k], prices, 0, HS_TRIPS_WHOLE, &least, found))
        return FALSE;
      floor += least * fleet->members[k];
      *ret_n += add_news (fleet, found);
    }
  if (floor > fleet->floor)
    {
      fleet->floor = floor;
      memcpy (fleet->held, prices, fleet->frame->n_calls * sizeof (gint64));
    }
  return TRUE;
}

/* One search that settles something. FALSE if nothing is left to be had with what is remembered so far, or no time. */
static gboolean
take_turn (Fleet *fleet)
{
  guint n;

  if (!fill_prices (fleet))
    return FALSE;
  if (++fleet->asked % CLOSE_EVERY != 0
      && (look_roughly (fleet, HS_TRIPS_HASTY) > 0 || look_roughly (fleet, HS_TRIPS_ROUGH) > 0))
    return TRUE;
  for (guint i = 0; i < fleet->frame->n_calls; i++)
    fleet->calm[i] = (gint64) (CALM * (double) fleet->held[i] + (1 - CALM) * (double) fleet->prices[i]);
  if (fleet->floor > 0 && !look_closely (fleet, fleet->calm, &n))
    return FALSE;
  if (fleet->floor > 0 && n > 0)
    return TRUE;
  return look_closely (fleet, fleet->prices, &n) && n > 0;
}

/* Plans ------------------------------------------------------------------------------------------------------------ */

/* The trips of the pool that can be part of a plan which is better than the best known, as far as prices tell. */
static GArray *
list_hopeful (const Fleet *fleet)
{
  GArray *list = g_array_new (FALSE, FALSE, sizeof (HsTrip));
  gint64 room = fleet->best->units;

  for (guint i = 0; i < fleet->frame->n_calls; i++)
    room -= fleet->prices[i];
  for (guint k = 0; k < fleet->n_kinds; k++)
    room -= fleet->members[k] * fleet->prices[fleet->frame->n_calls + k];
  for (guint i = 0; i < fleet->pool->len; i++)
    {
      HsTrip trip = g_array_index (fleet->pool, HsTrip, i);

      if (over_prices (fleet, &trip) >= MAX (room, 0))
        continue;
      trip.van = fleet->kind[trip.van];
      trip.over = trip.units;
      for (guint k = 0; k < trip.n_calls; k++)
        trip.over -= fleet->prices[trip.calls[k]];
      g_array_append_val (list, trip);
    }
  return list;
}

/* Drives the chosen trips, each with the next van of its kind. */
static gboolean
take_chosen (Fleet *fleet, const GArray *trips, const guint *chosen, guint n_chosen, HsPath *path)
{
  guint32 used = 0;
  HsOrders orders = { { 0 }, { { 0 } } };
  HsScore score;
  HsPath found;

  for (guint c = 0; c < n_chosen; c++)
    {
      const HsTrip *trip = &g_array_index (trips, HsTrip, chosen[c]);
      guint v = 0;

      while (fleet->kind[v] != trip->van || (used >> v & 1) != 0)
        v++;
      used |= 1u << v;
      orders.n[v] = trip->n_calls;
      memcpy (orders.calls[v], trip->calls, trip->n_calls);
    }
  if (!hs_solve_orders_write (fleet->frame, fleet->terms, &orders, &found, &score)
      || hs_score_compare (&score, fleet->best) >= 0)
    return FALSE;
  *fleet->best = score;
  *path = found;
  if (fleet->exact->found != NULL)
    fleet->exact->found (path, fleet->exact->found_data);
  return TRUE;
}

/* Puts trips of the pool together to a better plan. */
static gboolean
combine (Fleet *fleet, HsPath *path)
{
  g_autoptr (GArray) trips = list_hopeful (fleet);
  const HsCombine ask = { fleet->exact, fleet->frame->n_calls, fleet->n_kinds, trips, fleet->members, fleet->prices,
                          fleet->best->units };
  guint chosen[HS_PROBLEM_MAX_VANS];
  guint n = hs_solve_combine (&ask, chosen);

  return n > 0 && take_chosen (fleet, trips, chosen, n, path);
}

/* Trips in use that serve a call twice are made to remember it. */
static gboolean
remind (Fleet *fleet)
{
  gboolean any = FALSE;

  for (guint i = 0; i < fleet->pool->len; i++)
    if (hs_master_get_share (fleet->master, i) > LEAST_SHARE
        && hs_solve_trips_remind (fleet->trips, &g_array_index (fleet->pool, HsTrip, i)))
      {
        hs_master_forbid (fleet->master, i);
        any = TRUE;
      }
  return any;
}

gboolean
hs_solve_fleet (HsExact *exact, const HsSolveFrame *frame, const HsSolveTerms *terms, guint64 max_work, HsScore *best,
                HsPath *path, gint64 *floor, gint64 *ret_prizes)
{
  g_autoptr (HsTrips) trips = hs_solve_trips_new (frame, NEAR_AT_FIRST, max_work);
  g_autoptr (HsMaster) master = NULL;
  g_autoptr (GArray) pool = g_array_new (FALSE, FALSE, sizeof (HsTrip));
  Fleet fleet = { exact, frame, terms, trips, .pool = pool, .best = best };
  gboolean going = TRUE;
  gboolean better = FALSE;

  fill_kinds (&fleet);
  fleet.master = master = hs_master_new (frame->n_calls, frame->n_calls + fleet.n_kinds, fleet.members,
                                         (double) best->units / HS_COST_UNITS);
  add_known (&fleet, path);
  for (guint turn = 0; turn < MAX_TURNS && going && !exact->cut && fleet.floor < best->units; turn++)
    {
      going = take_turn (&fleet);
      if (!going && fleet.floor > 0)
        better |= combine (&fleet, path);
      going = going || (!exact->cut && fleet.sound && remind (&fleet));
    }
  *floor = MAX (*floor, MIN (fleet.floor, best->units));
  if (ret_prizes != NULL)
    memcpy (ret_prizes, fleet.floor > 0 ? fleet.held : fleet.prices, frame->n_calls * sizeof (gint64));
  return better;
}
