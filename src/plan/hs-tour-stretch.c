// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Local improvement of a round whose legs may differ both ways or that has orders to keep: two neighboring stretches
 * change places, which replaces three legs and turns nothing round. Each such move has one new leg with which it
 * begins with a gain; from that leg's start it is looked for. */

#include "hs-tour-search.h"

#include <string.h>

#define LEAST_SCAN 100
#define SCAN_WORK 50000
#define MAX_WORDS ((HS_TOUR_MAX_NODES + 63) / 64)

/* The move looked for: stretches (i, j] and (j, k] change places. */
typedef struct
{
  gint64 gain;
  guint i;
  guint j;
  guint k;
} Move;

typedef struct
{
  guint64 words[MAX_WORDS];
} Mask;

/* How long a stretch is looked at: in large rounds only short ones, or a kick takes too long. */
static inline guint
longest_scan (const HsTourSearch *search)
{
  return MAX (LEAST_SCAN, SCAN_WORK / search->frame->n);
}

static inline guint
node_at (const HsTourSearch *search, guint place)
{
  return search->tour[place == search->frame->n ? 0 : place];
}

static inline gint64
leg (const HsTourSearch *search, guint from, guint to)
{
  return hs_tour_search_cost (search, node_at (search, from), node_at (search, to));
}

static inline void
mask_flip (Mask *mask, guint node)
{
  mask->words[node / 64] ^= G_GUINT64_CONSTANT (1) << node % 64;
}

static guint
mask_shared (const HsTourSearch *search, const Mask *mask, const guint64 *rows, guint node)
{
  guint words = search->frame->words;
  guint shared = 0;

  for (guint w = 0; w < words; w++)
    shared += (guint) __builtin_popcountll (mask->words[w] & rows[(gsize) node * words + w]);
  return shared;
}

static void
mask_fill (const HsTourSearch *search, Mask *mask, guint from, guint to)
{
  memset (mask->words, 0, search->frame->words * sizeof *mask->words);
  for (guint place = from; place < to; place++)
    mask_flip (mask, search->tour[place]);
}

static inline void
consider (const HsTourSearch *search, Move *move, guint i, guint j, guint k)
{
  gint64 gain = leg (search, i, i + 1) + leg (search, j, j + 1) + leg (search, k, k + 1) - leg (search, i, j + 1)
                - leg (search, k, i + 1) - leg (search, j, k + 1);

  if (gain > move->gain)
    *move = (Move){ gain, i, j, k };
}

/* The new leg is i → j + 1: the second stretch grows until something in it must come after something in the first. */
static void
scan_up (const HsTourSearch *search, Move *move, guint i, guint j)
{
  const HsTourFrame *frame = search->frame;
  guint end = MIN (frame->n, j + longest_scan (search));
  Mask mask;

  if (frame->ordered)
    mask_fill (search, &mask, i + 1, j + 1);
  for (guint k = j + 1; k < end; k++)
    {
      if (frame->ordered && mask_shared (search, &mask, frame->before, search->tour[k]) > 0)
        return;
      consider (search, move, i, j, k);
    }
}

/* The new leg is j → k + 1: the first stretch grows downward. */
static void
scan_down (const HsTourSearch *search, Move *move, guint j, guint k)
{
  const HsTourFrame *frame = search->frame;
  guint longest = longest_scan (search);
  guint end = j > longest ? j - longest : 0;
  Mask mask;

  if (frame->ordered)
    mask_fill (search, &mask, j + 1, k + 1);
  for (guint i = j; i > end; i--)
    {
      if (frame->ordered && mask_shared (search, &mask, frame->after, search->tour[i]) > 0)
        return;
      consider (search, move, i - 1, j, k);
    }
}

/* The new leg is k → i + 1: the border between the stretches wanders; orders across it are counted. */
static void
scan_between (const HsTourSearch *search, Move *move, guint i, guint k)
{
  const HsTourFrame *frame = search->frame;
  Mask first;
  Mask second;
  guint crossing = 0;

  if (k - i > longest_scan (search))
    return;
  if (frame->ordered)
    {
      mask_fill (search, &first, i + 1, k + 1);
      mask_fill (search, &second, 0, 0);
    }
  for (guint j = k - 1; j > i; j--)
    {
      guint node = search->tour[j + 1];

      if (frame->ordered)
        {
          mask_flip (&first, node);
          crossing -= mask_shared (search, &second, frame->after, node);
          crossing += mask_shared (search, &first, frame->before, node);
          mask_flip (&second, node);
        }
      if (crossing == 0)
        consider (search, move, i, j, k);
    }
}

static gboolean
try_node (HsTourSearch *search, guint node)
{
  const HsTourFrame *frame = search->frame;
  guint at = search->at[node];
  gint64 cost = leg (search, at, at + 1);
  Move move = { 0, 0, 0, 0 };

  for (guint near = 0; near < search->n_near; near++)
    {
      guint to = search->near[node * search->n_near + near];
      guint to_at = to == 0 ? frame->n : search->at[to];

      if (hs_tour_search_cost (search, node, to) >= cost)
        break;
      if (to_at > at + 1)
        {
          if (to != 0)
            scan_up (search, &move, at, to_at - 1);
          scan_down (search, &move, at, to_at - 1);
        }
      else if (to_at < at)
        scan_between (search, &move, to_at - 1, at);
    }
  if (move.gain == 0)
    return FALSE;
  hs_tour_exchange (search, move.i + 1, move.j + 1, move.k + 1);
  search->cost -= move.gain;
  for (guint end = 0; end < 3; end++)
    {
      guint place = end == 0 ? move.i : end == 1 ? move.i + move.k - move.j : move.k;

      hs_tour_queue_add (search, search->tour[place]);
      hs_tour_queue_add (search, node_at (search, place + 1));
    }
  return TRUE;
}

void
hs_tour_improve_stretches (HsTourSearch *search)
{
  guint rounds = 0;

  for (int node = hs_tour_queue_take (search); node >= 0; node = hs_tour_queue_take (search))
    {
      if (++rounds % 256 == 0)
        hs_tour_search_gives_up (search);
      while (!search->cut && try_node (search, (guint) node))
        ;
    }
}
