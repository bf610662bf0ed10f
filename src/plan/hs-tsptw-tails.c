// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Looks for the cheapest end of a path. */

#include "hs-tsptw-tails.h"

/* The first step of @node's stairs from which on a path at @time is not too late. */
static guint32
find_stair (const HsTsptwTails *tails, guint node, gint64 time)
{
  guint32 low = tails->first_stair[node];
  guint32 high = tails->first_stair[node + 1];

  while (low < high)
    {
      guint32 middle = (low + high) / 2;

      if (tails->tails[tails->stairs[middle]].latest < time)
        low = middle + 1;
      else
        high = middle;
    }
  return low;
}

gboolean
hs_tsptw_tails_reach (const HsTsptwTails *tails, guint node, gint64 time, gint64 budget, guint32 *ret_tail)
{
  gint64 most = budget - tails->prize[node];
  guint32 first = tails->first[node];
  guint32 stair;

  if (first == tails->first[node + 1] || tails->tails[first].cost > most)
    return FALSE;
  stair = find_stair (tails, node, time);
  if (stair == tails->first_stair[node + 1])
    return FALSE;
  *ret_tail = tails->stairs[stair];
  return tails->tails[*ret_tail].cost <= most;
}

gboolean
hs_tsptw_tails_find (const HsTsptwTails *tails, guint node, gint64 time, const guint64 *set, gint64 budget,
                     guint32 *tail)
{
  gint64 most = budget - tails->prize[node];
  guint words = tails->words;

  for (guint32 i = *tail; i < tails->first[node + 1] && tails->tails[i].cost <= most; i++)
    if (tails->tails[i].latest >= time && !hs_set_meets (set, &tails->sets[(gsize) i * words], words))
      {
        *tail = i;
        return TRUE;
      }
  return FALSE;
}

void
hs_tsptw_tails_free (HsTsptwTails *tails)
{
  if (tails == NULL)
    return;
  g_free (tails->tails);
  g_free (tails->sets);
  g_free (tails->stairs);
  g_free (tails);
}
