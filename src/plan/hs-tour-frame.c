// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Closes the orders of a round and finds out which legs nobody can use. Takes problems that have been checked. */

#include "hs-tour-frame.h"

static void
set_bit (guint64 *row, guint at)
{
  row[at / 64] |= G_GUINT64_CONSTANT (1) << at % 64;
}

static gboolean
has_bit (const guint64 *row, guint at)
{
  return (row[at / 64] >> at % 64 & 1) != 0;
}

static gboolean
is_empty (const HsTourFrame *frame, const guint64 *row)
{
  for (guint w = 0; w < frame->words; w++)
    if (row[w] != 0)
      return FALSE;
  return TRUE;
}

static gboolean
share_bit (const HsTourFrame *frame, const guint64 *a, const guint64 *b)
{
  for (guint w = 0; w < frame->words; w++)
    if ((a[w] & b[w]) != 0)
      return TRUE;
  return FALSE;
}

/* What comes before something that comes before me comes before me (Warshall). */
static void
close_orders (HsTourFrame *frame)
{
  guint n = frame->n;
  guint words = frame->words;

  for (guint k = 1; k < n; k++)
    for (guint j = 1; j < n; j++)
      if (has_bit (&frame->before[j * words], k))
        for (guint w = 0; w < words; w++)
          frame->before[j * words + w] |= frame->before[k * words + w];
  for (guint j = 1; j < n; j++)
    for (guint i = 1; i < n; i++)
      if (has_bit (&frame->before[j * words], i))
        set_bit (&frame->after[i * words], j);
}

static gboolean
can_follow (const HsTourFrame *frame, guint from, guint to)
{
  const guint64 *after_from = &frame->after[from * frame->words];
  const guint64 *before_to = &frame->before[to * frame->words];

  if (from == to)
    return FALSE;
  if (from == 0)
    return is_empty (frame, before_to);
  if (to == 0)
    return is_empty (frame, after_from);
  return !hs_tour_frame_is_before (frame, to, from) && !share_bit (frame, after_from, before_to);
}

static void
mark_legs (HsTourFrame *frame)
{
  guint n = frame->n;

  for (guint i = 0; i < n; i++)
    for (guint j = 0; j < n; j++)
      if (i == j || (frame->ordered && !can_follow (frame, i, j)))
        frame->costs[i * n + j] = HS_TOUR_NO_LEG;
}

static gboolean
is_symmetric (const HsTourFrame *frame)
{
  for (guint i = 0; i < frame->n; i++)
    for (guint j = 0; j < i; j++)
      if (hs_tour_frame_cost (frame, i, j) != hs_tour_frame_cost (frame, j, i))
        return FALSE;
  return TRUE;
}

/* Puts @node into a row of near nodes that is sorted by cost. */
static guint
insert_near (guint16 *row, gint32 *costs, guint length, guint most, guint node, gint32 cost)
{
  guint at = length;

  if (cost == HS_TOUR_NO_LEG || (length == most && costs[most - 1] <= cost))
    return length;
  if (length == most)
    at--;
  for (; at > 0 && costs[at - 1] > cost; at--)
    {
      row[at] = row[at - 1];
      costs[at] = costs[at - 1];
    }
  row[at] = (guint16) node;
  costs[at] = cost;
  return MIN (length + 1, most);
}

void
hs_tour_frame_fill_near (const gint32 *costs, guint n, guint n_near, guint16 *ret_near)
{
  gint32 sorted[HS_TOUR_NEAR];

  for (guint i = 0; i < n; i++)
    {
      guint16 *row = &ret_near[i * n_near];
      guint length = 0;

      for (guint j = 0; j < n; j++)
        length = insert_near (row, sorted, length, n_near, j, costs[(gsize) i * n + j]);
      for (; length < n_near; length++)
        row[length] = length > 0 ? row[0] : (guint16) i;
    }
}

HsTourFrame *
hs_tour_frame_new (const HsTourProblem *problem)
{
  HsTourFrame *frame = g_new0 (HsTourFrame, 1);
  gsize n = problem->n;

  frame->n = problem->n;
  frame->words = (problem->n + 63) / 64;
  frame->costs = g_memdup2 (problem->costs, n * n * sizeof *problem->costs);
  frame->before = g_new0 (guint64, n * frame->words);
  frame->after = g_new0 (guint64, n * frame->words);
  for (guint i = 0; i < problem->orders->len; i++)
    {
      const HsTourOrder *order = &g_array_index (problem->orders, HsTourOrder, i);

      if (order->earlier == 0)
        continue;
      frame->ordered = TRUE;
      set_bit (&frame->before[order->later * frame->words], order->earlier);
    }
  if (frame->ordered)
    close_orders (frame);
  frame->symmetric = !frame->ordered && is_symmetric (frame);
  mark_legs (frame);
  frame->n_near = MIN (HS_TOUR_NEAR, frame->n - 1);
  frame->near_out = g_new (guint16, n * HS_TOUR_NEAR);
  hs_tour_frame_fill_near (frame->costs, frame->n, frame->n_near, frame->near_out);
  return frame;
}

gint64
hs_tour_frame_round (const HsTourFrame *frame, const guint16 *order)
{
  gint64 cost = 0;

  if (frame->n == 1)
    return 0;
  for (guint i = 0; i < frame->n; i++)
    cost += hs_tour_frame_cost (frame, order[i], order[i + 1 == frame->n ? 0 : i + 1]);
  return cost;
}

void
hs_tour_frame_free (HsTourFrame *frame)
{
  if (frame == NULL)
    return;
  g_free (frame->costs);
  g_free (frame->before);
  g_free (frame->after);
  g_free (frame->near_out);
  g_free (frame);
}
