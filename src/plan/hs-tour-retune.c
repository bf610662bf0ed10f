// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Prices that are right for the whole round are not the best ones for its second half. */

#include "hs-tour-label.h"

#define STEPS 100
#define PERCENT 100
#define LEAST_LEFT 4

/* What is left of a round after some nodes, as a round of its own: its node 0 is the last node done on the way out,
 * and node 0 on the way home; legs that need not be looked at any more are not there. */
static HsTourFrame *
make_rest (const HsTourFrame *frame, const gint64 *weights, const guint16 *order, guint done)
{
  HsTourFrame *rest = g_new0 (HsTourFrame, 1);
  guint n = frame->n - done + 1;

  rest->n = n;
  rest->ordered = TRUE;
  rest->costs = g_new (gint32, (gsize) n * n);
  for (guint i = 0; i < n; i++)
    for (guint j = 0; j < n; j++)
      {
        guint from = order[done - 1 + i];
        guint to = j == 0 ? 0 : order[done - 1 + j];
        gboolean is_leg = i != j && weights[(gsize) from * frame->n + to] < HS_TOUR_FAR;

        rest->costs[(gsize) i * n + j] = is_leg ? hs_tour_frame_cost (frame, from, to) : HS_TOUR_NO_LEG;
      }
  return rest;
}

void
hs_tour_labels_retune (HsTourSearch *search, const gint64 *weights, guint done, gint64 *going, gint64 *coming)
{
  const HsTourFrame *frame = search->frame;
  const guint16 *order = search->best;
  guint n_left = frame->n - done;
  g_autoptr (HsTourFrame) rest = NULL;
  g_autoptr (HsTourTree) tree = NULL;
  gint64 cost = hs_tour_frame_cost (frame, order[frame->n - 1], 0);

  if (n_left < LEAST_LEFT)
    return;
  rest = make_rest (frame, weights, order, done);
  tree = hs_tour_tree_new (rest);
  tree->give_up = search->give_up;
  tree->user_data = search->user_data;
  for (guint i = done; i < frame->n; i++)
    cost += hs_tour_frame_cost (frame, order[i - 1], order[i]);
  for (guint i = 0; i <= n_left; i++)
    {
      tree->prices[i] = going[order[done - 1 + i]];
      tree->prices[n_left + 1 + i] = coming[i == 0 ? 0 : order[done - 1 + i]];
    }
  if (!hs_tour_tree_climb (tree, cost, STEPS, PERCENT))
    return;
  for (guint i = 1; i <= n_left; i++)
    {
      going[order[done - 1 + i]] = tree->prices[i];
      coming[order[done - 1 + i]] = tree->prices[n_left + 1 + i];
    }
  coming[0] = tree->prices[n_left + 1];
}
