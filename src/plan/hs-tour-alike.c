// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Local improvement of a round whose legs cost the same both ways: 2-opt, and moving up to three neighbors elsewhere,
 * either way round. Only moves that begin with a gain toward a near node are tried. */

#include "hs-tour-search.h"

#define LONGEST_MOVED 3

static inline guint
node_next (const HsTourSearch *search, guint node)
{
  guint at = search->at[node] + 1u;

  return search->tour[at == search->frame->n ? 0 : at];
}

static inline guint
node_prev (const HsTourSearch *search, guint node)
{
  guint at = search->at[node];

  return search->tour[at == 0 ? search->frame->n - 1 : at - 1];
}

static inline guint
node_step (const HsTourSearch *search, guint node, gboolean forward)
{
  return forward ? node_next (search, node) : node_prev (search, node);
}

/* Turns the places @i to @j round, or all the others, which gives the same round. */
static void
reverse (HsTourSearch *search, guint i, guint j)
{
  guint n = search->frame->n;
  guint inside = (j + n - i) % n + 1;

  if (2 * inside > n)
    {
      guint swap = i;

      i = (j + 1) % n;
      j = (swap + n - 1) % n;
      inside = n - inside;
    }
  for (inside /= 2; inside > 0; inside--)
    {
      guint16 swap = search->tour[i];

      search->tour[i] = search->tour[j];
      search->tour[j] = swap;
      search->at[search->tour[i]] = (guint16) i;
      search->at[search->tour[j]] = (guint16) j;
      i = i + 1 == n ? 0 : i + 1;
      j = j == 0 ? n - 1 : j - 1;
    }
}

/* Legs a–b and c–d, b behind a and d behind c in the same direction, become a–c and b–d. */
static void
cross (HsTourSearch *search, guint a, guint b, guint c, guint d)
{
  if (node_next (search, a) == b)
    reverse (search, search->at[b], search->at[c]);
  else
    reverse (search, search->at[a], search->at[d]);
}

static void
note (HsTourSearch *search, gint64 gain, const guint *nodes, guint n_nodes)
{
  search->cost -= gain;
  for (guint i = 0; i < n_nodes; i++)
    hs_tour_queue_add (search, nodes[i]);
}

static gboolean
try_cross (HsTourSearch *search, guint a, gboolean forward)
{
  guint b = node_step (search, a, forward);
  gint64 cost_ab = hs_tour_search_cost (search, a, b);

  for (guint i = 0; i < search->n_near; i++)
    {
      guint c = search->near[a * search->n_near + i];
      guint d = node_step (search, c, forward);
      gint64 gain = cost_ab - hs_tour_search_cost (search, a, c);

      if (gain <= 0)
        break;
      if (c == b || d == a)
        continue;
      gain += (gint64) hs_tour_search_cost (search, c, d) - hs_tour_search_cost (search, b, d);
      if (gain > 0)
        {
          cross (search, a, b, c, d);
          note (search, gain, (guint[]){ a, b, c, d }, 4);
          return TRUE;
        }
    }
  return FALSE;
}

/* @p, @first … @last, @q in this direction; the stretch goes between @c and the node @d behind it. */
static void
move_stretch (HsTourSearch *search, const guint *stretch, guint c, guint d, gboolean turned)
{
  guint p = stretch[0];
  guint first = stretch[1];
  guint last = stretch[2];
  guint q = stretch[3];

  cross (search, p, first, c, d);
  if (c != q)
    cross (search, p, c, q, last);
  if (!turned && first != last)
    cross (search, c, last, first, d);
}

/* Moves @a and what follows it up to @last next to @c. */
static gboolean
try_place (HsTourSearch *search, const guint *stretch, gint64 freed, guint c, gboolean forward)
{
  guint a = stretch[1];
  guint last = stretch[2];

  for (guint turned = 0; turned < 2; turned++)
    {
      guint other = node_step (search, c, turned == 0 ? forward : !forward);
      gint64 gain = freed + hs_tour_search_cost (search, c, other) - hs_tour_search_cost (search, c, a)
                    - hs_tour_search_cost (search, last, other);

      if (gain <= 0 || other == a || other == last)
        continue;
      if (turned)
        move_stretch (search, stretch, other, c, TRUE);
      else
        move_stretch (search, stretch, c, other, FALSE);
      note (search, gain, (guint[]){ stretch[0], a, last, stretch[3], c, other }, 6);
      return TRUE;
    }
  return FALSE;
}

static gboolean
try_move (HsTourSearch *search, guint a, gboolean forward)
{
  guint stretch[4] = { node_step (search, a, !forward), a, a, 0 };
  guint members[LONGEST_MOVED];

  for (guint length = 1; length <= LONGEST_MOVED; length++)
    {
      gint64 freed;

      members[length - 1] = stretch[2];
      stretch[3] = node_step (search, stretch[2], forward);
      if (stretch[3] == stretch[0])
        return FALSE;
      freed = (gint64) hs_tour_search_cost (search, stretch[0], a)
              + hs_tour_search_cost (search, stretch[2], stretch[3])
              - hs_tour_search_cost (search, stretch[0], stretch[3]);
      for (guint i = 0; i < search->n_near; i++)
        {
          guint c = search->near[a * search->n_near + i];
          gboolean inside = FALSE;

          if (hs_tour_search_cost (search, a, c) >= freed)
            break;
          for (guint k = 0; k < length; k++)
            inside |= members[k] == c;
          if (!inside && try_place (search, stretch, freed, c, forward))
            return TRUE;
        }
      stretch[2] = stretch[3];
    }
  return FALSE;
}

void
hs_tour_improve_alike (HsTourSearch *search)
{
  guint rounds = 0;

  for (int a = hs_tour_queue_take (search); a >= 0; a = hs_tour_queue_take (search))
    {
      guint node = (guint) a;

      if (++rounds % 1024 == 0 && hs_tour_search_gives_up (search))
        continue;
      if (search->cut)
        continue;
      while (try_cross (search, node, TRUE) || try_cross (search, node, FALSE) || try_move (search, node, TRUE)
             || try_move (search, node, FALSE))
        ;
    }
}
