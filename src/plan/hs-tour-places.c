// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Walks over (place, node), from the last place backward. */

#include "hs-tour-places.h"

#include <string.h>

#define NO_WALK HS_TOUR_NO_WALK
#define ASK_EVERY 8
#define MANY_NODES 100

static void
set_places (HsTourPlaces *places)
{
  const HsTourFrame *frame = places->frame;

  for (guint j = 1; j < places->n; j++)
    {
      guint before = 0;
      guint after = 0;

      for (guint w = 0; w < frame->words; w++)
        {
          before += (guint) __builtin_popcountll (frame->before[(gsize) j * frame->words + w]);
          after += (guint) __builtin_popcountll (frame->after[(gsize) j * frame->words + w]);
        }
      places->first[j] = (guint16) (before + 1);
      places->last[j] = (guint16) (places->n - 1 - after);
    }
}

HsTourPlaces *
hs_tour_places_new (const HsTourFrame *frame)
{
  HsTourPlaces *places = g_new0 (HsTourPlaces, 1);
  gsize n = frame->n;

  places->frame = frame;
  places->n = frame->n;
  places->prices = g_new0 (gint64, n);
  places->best_prices = g_new0 (gint64, n);
  places->rest = g_new (gint64, n * n);
  places->next = g_new0 (guint16, n * n);
  places->first = g_new0 (guint16, n);
  places->last = g_new0 (guint16, n);
  places->visits = g_new0 (gint32, n);
  set_places (places);
  return places;
}

void
hs_tour_places_free (HsTourPlaces *places)
{
  if (places == NULL)
    return;
  g_free (places->prices);
  g_free (places->best_prices);
  g_free (places->rest);
  g_free (places->next);
  g_free (places->first);
  g_free (places->last);
  g_free (places->visits);
  g_free (places);
}

static inline gboolean
may_stand (const HsTourPlaces *places, guint place, guint node)
{
  return place >= places->first[node] && place <= places->last[node];
}

/* The best way on from @node at @place, the places behind it being known. */
static void
go_on (HsTourPlaces *places, guint place, guint node, const guint16 *allowed, guint n_allowed)
{
  guint n = places->n;
  const gint32 *costs = &places->frame->costs[(gsize) node * n];
  const gint64 *behind = &places->rest[(gsize) (place + 1) * n];
  gint64 least = NO_WALK;
  guint pick = 0;

  for (guint k = 0; k < n_allowed; k++)
    {
      guint j = allowed[k];
      gint64 way = behind[j] + places->prices[j] + (gint64) costs[j] * HS_TOUR_SCALE;

      if (way < least && costs[j] != HS_TOUR_NO_LEG)
        {
          least = way;
          pick = j;
        }
    }
  places->rest[(gsize) place * n + node] = least;
  places->next[(gsize) place * n + node] = (guint16) pick;
}

/* All walks; then the visits of the cheapest one. */
static void
walk (HsTourPlaces *places)
{
  guint n = places->n;
  g_autofree guint16 *allowed = g_new (guint16, n);
  guint node = 0;

  for (guint j = 0; j < n; j++)
    {
      gint32 cost = hs_tour_frame_cost (places->frame, j, 0);

      places->rest[(gsize) (n - 1) * n + j]
        = may_stand (places, n - 1, j) && cost != HS_TOUR_NO_LEG ? (gint64) cost * HS_TOUR_SCALE : NO_WALK;
    }
  for (guint place = n - 1; place > 0; place--)
    {
      guint n_allowed = 0;

      for (guint j = 1; j < n; j++)
        if (may_stand (places, place, j) && places->rest[(gsize) place * n + j] < NO_WALK)
          allowed[n_allowed++] = (guint16) j;
      for (guint i = 0; i < n; i++)
        if (may_stand (places, place - 1, i))
          go_on (places, place - 1, i, allowed, n_allowed);
        else
          places->rest[(gsize) (place - 1) * n + i] = NO_WALK;
    }
  places->bound = places->rest[0];
  memset (places->visits, 0, n * sizeof *places->visits);
  for (guint place = 0; place + 1 < n; place++)
    {
      node = places->next[(gsize) place * n + node];
      places->visits[node]++;
    }
  for (guint j = 1; j < n; j++)
    places->bound -= places->prices[j];
}

static gint64
first_step (const HsTourPlaces *places, gint64 gap)
{
  gint64 norm = 0;

  for (guint j = 1; j < places->n; j++)
    norm += (gint64) (places->visits[j] - 1) * (places->visits[j] - 1);
  return MAX (gap / MAX (norm, 1), 1);
}

void
hs_tour_places_climb (HsTourPlaces *places, HsTourSearch *search, guint steps)
{
  guint n = places->n;
  guint patience = MAX (steps / 20, 5);
  gint64 wanted = (search->best_cost - 1) * HS_TOUR_SCALE + 1;
  gint64 best = G_MININT64;
  gint64 length = 0;
  guint idle = 0;

  for (guint step = 0;; step++)
    {
      walk (places);
      if (step == 0)
        length = first_step (places, wanted - places->bound);
      idle++;
      if (places->bound > best)
        {
          best = places->bound;
          idle = 0;
          memcpy (places->best_prices, places->prices, n * sizeof *places->prices);
        }
      if (step == steps || best >= wanted
          || ((n > MANY_NODES || step % ASK_EVERY == 0) && hs_tour_search_gives_up (search)))
        break;
      if (idle == patience)
        {
          length = MAX (length * 7 / 10, 1);
          idle = 0;
        }
      for (guint j = 1; j < n; j++)
        places->prices[j] += length * (places->visits[j] - 1);
    }
  memcpy (places->prices, places->best_prices, n * sizeof *places->prices);
  walk (places);
}
