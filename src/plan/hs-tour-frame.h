// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-tour.h"

G_BEGIN_DECLS

/* A round's problem as the search sees it (private to this layer): orders closed over all that follows from them, and
 * the legs that no round can use marked. */

#define HS_TOUR_NO_LEG G_MAXINT32
#define HS_TOUR_NEAR 10

/**
 * HsTourFrame:
 * @words: how many words a row of bits has
 * @symmetric: legs cost the same both ways and there are no orders
 * @ordered: there are orders
 * @costs: n × n; %HS_TOUR_NO_LEG where no round can go that way
 * @before: n × @words: what must come before each node; node 0 is not counted
 * @after: n × @words: what must come after each node; empty for node 0
 * @n_near: how many near nodes each node has
 * @near_out: n × @n_near: the cheapest to go to, cheapest first
 */
typedef struct
{
  guint n;
  guint words;
  gboolean symmetric;
  gboolean ordered;
  gint32 *costs;
  guint64 *before;
  guint64 *after;
  guint n_near;
  guint16 *near_out;
} HsTourFrame;

HsTourFrame *hs_tour_frame_new (const HsTourProblem *problem);
void hs_tour_frame_free (HsTourFrame *frame);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsTourFrame, hs_tour_frame_free)

static inline gint32
hs_tour_frame_cost (const HsTourFrame *frame, guint from, guint to)
{
  return frame->costs[(gsize) from * frame->n + to];
}

static inline gboolean
hs_tour_frame_is_before (const HsTourFrame *frame, guint earlier, guint later)
{
  return (frame->before[(gsize) later * frame->words + earlier / 64] >> earlier % 64 & 1) != 0;
}

/* The near nodes of each node under @costs, n × @n_near. Rows that have too few legs are filled up with their first, or
 * with the node itself. */
void hs_tour_frame_fill_near (const gint32 *costs, guint n, guint n_near, guint16 *ret_near);

/* Of the closed round. */
gint64 hs_tour_frame_round (const HsTourFrame *frame, const guint16 *order);

G_END_DECLS
