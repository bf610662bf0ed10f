// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-tsptw-set.h"

G_BEGIN_DECLS

/* What follows from a problem before anything is searched (private to this layer): windows no wider than they can be
 * used, which stop must come before which, and the legs that a tour can hold. Nothing that some tour needs is taken
 * away, so a problem that becomes empty here is impossible. */

/* Two far times can be added. */
#define HS_TSPTW_FAR (G_MAXINT64 / 4)

/**
 * HsTsptwFrame:
 * @words: of each set
 * @drive: legs; %HS_TSPTW_FAR where no tour holds it
 * @near: shortest way from node to node over such legs
 * @from, @to: windows; the depot's is when it is left
 * @home_by: when the vehicle must be back
 * @before, @after: a set for each node: what comes before it and what after it
 * @possible: FALSE once it is proven that there is no tour
 */
typedef struct
{
  guint n;
  guint words;
  gint64 *drive;
  gint64 *near;
  gint64 *from;
  gint64 *to;
  gint64 home_by;
  guint64 *before;
  guint64 *after;
  gboolean possible;
} HsTsptwFrame;

/**
 * hs_tsptw_frame_new:
 * @home_by: when to be back, no later than the problem says
 * @leave_freely: whether the depot may be left at any time in its window, or when it begins
 */
HsTsptwFrame *hs_tsptw_frame_new (const HsTsptw *problem, gint64 home_by, gboolean leave_freely);

/** hs_tsptw_frame_tighten: draws all conclusions again, after a leg or a time was taken away. */
void hs_tsptw_frame_tighten (HsTsptwFrame *frame);

void hs_tsptw_frame_free (HsTsptwFrame *frame);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsTsptwFrame, hs_tsptw_frame_free)

static inline const guint64 *
hs_tsptw_frame_before (const HsTsptwFrame *frame, guint node)
{
  return frame->before + node * frame->words;
}

static inline const guint64 *
hs_tsptw_frame_after (const HsTsptwFrame *frame, guint node)
{
  return frame->after + node * frame->words;
}

G_END_DECLS
