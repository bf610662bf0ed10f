// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Takes customers out and puts them back. Random numbers are its own, so that a seed means the same everywhere. */

#include "hs-vrptw-ruin.h"

/* How many customers go out in a round on average, and the longest string. */
#define MEAN_OUT 10
#define LONGEST 10
/* One place in so many is overlooked. */
#define BLINK 50
/* One string in two is taken with a gap; the gap grows with this chance in a hundred. */
#define GAP_GROWS 50

typedef enum
{
  ORDER_RANDOM,
  ORDER_DEMAND,
  ORDER_FAR,
  ORDER_NEAR,
  ORDER_WIDTH,
  ORDER_READY,
  ORDER_DUE,
} Order;

static const Order orders[] = {
  ORDER_RANDOM, ORDER_RANDOM, ORDER_RANDOM, ORDER_RANDOM, ORDER_DEMAND, ORDER_DEMAND, ORDER_DEMAND, ORDER_DEMAND,
  ORDER_FAR,    ORDER_FAR,    ORDER_NEAR,   ORDER_WIDTH,  ORDER_WIDTH,  ORDER_READY,  ORDER_READY,  ORDER_DUE,
  ORDER_DUE,
};

typedef struct
{
  gint64 leg;
  guint32 stop;
} Neighbor;

/* The splitmix64 sequence (G. Steele, D. Lea, C. Flood, 2014). */
static guint64
draw (HsRuin *ruin)
{
  guint64 z = (ruin->random += G_GUINT64_CONSTANT (0x9e3779b97f4a7c15));

  z = (z ^ (z >> 30)) * G_GUINT64_CONSTANT (0xbf58476d1ce4e5b9);
  z = (z ^ (z >> 27)) * G_GUINT64_CONSTANT (0x94d049bb133111eb);
  return z ^ (z >> 31);
}

guint
hs_ruin_below (HsRuin *ruin, guint limit)
{
  return (guint) (((draw (ruin) >> 32) * limit) >> 32);
}

double
hs_ruin_share (HsRuin *ruin)
{
  return (double) ((draw (ruin) >> 11) + 1) / 9007199254740992.0;
}

static int
compare_neighbors (const void *a, const void *b)
{
  const Neighbor *left = a;
  const Neighbor *right = b;

  if (left->leg != right->leg)
    return left->leg < right->leg ? -1 : 1;
  return left->stop < right->stop ? -1 : left->stop > right->stop;
}

/* For each customer all of them, itself first, nearest first. */
static void
sort_neighbors (HsRuin *ruin)
{
  guint n = ruin->problem->n;
  g_autofree Neighbor *row = g_new (Neighbor, n + 1);

  for (guint from = 1; from <= n; from++)
    {
      for (guint to = 1; to <= n; to++)
        row[to - 1] = (Neighbor){ from == to ? -1 : hs_vrptw_leg (ruin->problem, from, to), to };
      qsort (row, n, sizeof *row, compare_neighbors);
      for (guint i = 0; i < n; i++)
        ruin->near[(gsize) from * n + i] = row[i].stop;
    }
}

HsRuin *
hs_ruin_new (const HsVrptw *problem, guint32 seed)
{
  HsRuin *ruin = g_new0 (HsRuin, 1);
  gsize n = problem->n;

  ruin->problem = problem;
  ruin->random = seed;
  ruin->near = g_new (guint32, (n + 1) * n);
  ruin->order = g_new (guint32, n + 1);
  ruin->key = g_new (gint64, n + 1);
  ruin->overlooks = TRUE;
  sort_neighbors (ruin);
  return ruin;
}

void
hs_ruin_free (HsRuin *ruin)
{
  if (ruin == NULL)
    return;
  g_free (ruin->near);
  g_free (ruin->order);
  g_free (ruin->key);
  g_free (ruin);
}

/* Takes out a string of @count customers in a row that holds place @place. */
static void
take_string (HsRuin *ruin, HsFleet *fleet, guint route, guint place, guint count)
{
  guint len = fleet->routes[route].len;
  guint first = place >= count ? place - count + 1 : 1;
  guint last = MIN (place, len - count + 1);

  hs_fleet_remove (fleet, route, first + hs_ruin_below (ruin, last - first + 1), count);
}

/* The same, but the string is longer by a gap of customers in it that stay. */
static void
take_split (HsRuin *ruin, HsFleet *fleet, guint route, guint place, guint count)
{
  guint len = fleet->routes[route].len;
  guint gap = 1;
  guint all;
  guint first;
  guint last;
  guint before;

  while (count + gap < len && hs_ruin_below (ruin, 100) < GAP_GROWS)
    gap++;
  all = count + gap;
  first = place >= all ? place - all + 1 : 1;
  last = MIN (place, len - all + 1);
  first += hs_ruin_below (ruin, last - first + 1);
  before = 1 + hs_ruin_below (ruin, count - 1);
  hs_fleet_remove (fleet, route, first + before + gap, count - before);
  hs_fleet_remove (fleet, route, first, before);
}

static void
take_from_route (HsRuin *ruin, HsFleet *fleet, guint stop, guint longest)
{
  guint route = fleet->route_of[stop];
  guint place = fleet->place_of[stop];
  guint len = fleet->routes[route].len;
  guint count = 1 + hs_ruin_below (ruin, MIN (len, longest));

  if (count > 1 && count < len && hs_ruin_below (ruin, 2) == 0)
    take_split (ruin, fleet, route, place, count);
  else
    take_string (ruin, fleet, route, place, count);
}

void
hs_ruin_take_out (HsRuin *ruin, HsFleet *fleet)
{
  guint n = ruin->problem->n;
  guint served = n - fleet->n_out;
  guint mean = served / MAX (hs_fleet_count (fleet), 1);
  guint longest = CLAMP (mean, 1, LONGEST);
  guint most = MAX (400 * MEAN_OUT / (1 + longest), 200) - 100;
  guint strings = (100 + hs_ruin_below (ruin, most)) / 100;
  const guint32 *near = ruin->near + (gsize) n * (1 + hs_ruin_below (ruin, n));
  guint32 taken[64];
  guint n_taken = 0;

  strings = MIN (strings, G_N_ELEMENTS (taken));
  for (guint i = 0; i < n && n_taken < strings; i++)
    {
      guint32 route = fleet->route_of[near[i]];
      gboolean again = route == HS_FLEET_OUT;

      for (guint t = 0; t < n_taken && !again; t++)
        again = taken[t] == route;
      if (again)
        continue;
      take_from_route (ruin, fleet, near[i], longest);
      taken[n_taken++] = route;
    }
}

static gint64
order_key (HsRuin *ruin, Order order, guint stop)
{
  const HsVrptwStop *there = &ruin->problem->stops[stop];

  switch (order)
    {
    case ORDER_DEMAND:
      return -there->demand;
    case ORDER_FAR:
      return -hs_vrptw_leg (ruin->problem, 0, stop);
    case ORDER_NEAR:
      return hs_vrptw_leg (ruin->problem, 0, stop);
    case ORDER_WIDTH:
      return there->due - there->ready;
    case ORDER_READY:
      return there->ready;
    case ORDER_DUE:
      return -there->due;
    case ORDER_RANDOM:
    default:
      return (gint64) (draw (ruin) >> 1);
    }
}

/* Those that are out, in one of several orders; equal ones as they come. */
static guint
sort_out (HsRuin *ruin, const HsFleet *fleet)
{
  Order order = orders[hs_ruin_below (ruin, G_N_ELEMENTS (orders))];

  for (guint i = 0; i < fleet->n_out; i++)
    {
      guint32 stop = fleet->out[i];
      gint64 key = order_key (ruin, order, stop);
      guint at = i;

      for (; at > 0 && ruin->key[at - 1] > key; at--)
        {
          ruin->key[at] = ruin->key[at - 1];
          ruin->order[at] = ruin->order[at - 1];
        }
      ruin->key[at] = key;
      ruin->order[at] = stop;
    }
  return fleet->n_out;
}

static gboolean
overlook (HsRuin *ruin)
{
  return ruin->overlooks && hs_ruin_below (ruin, BLINK) == 0;
}

/* Looks for a place in @route that adds less than @slot does. */
static void
look_in_route (HsRuin *ruin, const HsFleet *fleet, guint stop, guint route, HsFleetSlot *slot)
{
  const HsVrptwStop *there = &ruin->problem->stops[stop];
  const gint64 *legs = ruin->problem->legs + (gsize) stop * (ruin->problem->n + 1);
  const HsFleetStep *steps = fleet->routes[route].steps;
  guint len = fleet->routes[route].len;
  gint64 here = legs[0];

  for (guint k = 0; k <= len; k++)
    {
      gint64 arrive = steps[k].free_at + here;
      gint64 on = legs[steps[k + 1].stop];
      gint64 cost = here + on - steps[k].leg;

      if (arrive > there->due)
        break;
      here = on;
      if (cost < slot->cost && MAX (arrive, there->ready) + there->service + on <= steps[k + 1].latest
          && !overlook (ruin))
        *slot = (HsFleetSlot){ route, k + 1, cost };
    }
}

static HsFleetSlot
best_slot (HsRuin *ruin, const HsFleet *fleet, guint stop, guint n_routes)
{
  HsFleetSlot slot = { HS_FLEET_OUT, 0, HS_FLEET_NOWHERE };
  gint64 room = ruin->problem->capacity - ruin->problem->stops[stop].demand;
  gboolean tried_empty = FALSE;

  for (guint route = 0; route < n_routes; route++)
    {
      gboolean empty = fleet->routes[route].len == 0;

      if (fleet->routes[route].load > room || (empty && tried_empty))
        continue;
      tried_empty |= empty;
      look_in_route (ruin, fleet, stop, route, &slot);
    }
  return slot;
}

void
hs_ruin_put_back (HsRuin *ruin, HsFleet *fleet, guint n_routes)
{
  guint n_out = sort_out (ruin, fleet);

  for (guint i = 0; i < n_out; i++)
    {
      HsFleetSlot slot = best_slot (ruin, fleet, ruin->order[i], n_routes);

      if (slot.route != HS_FLEET_OUT)
        hs_fleet_insert (fleet, ruin->order[i], slot.route, slot.place);
    }
}
