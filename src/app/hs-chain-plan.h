// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

#include "hs-chain-face.h"

G_BEGIN_DECLS

/* Where everything of a drawn why-chain stands. Pure arithmetic: how high words are in a width is asked. */

/* Below this width in designed pixels ends go under their node. */
#define HS_CHAIN_STACKED_PX 620

/* The least height of a node, so that a finger meets it. */
#define HS_CHAIN_NODE_PX 47

typedef enum
{
  HS_CHAIN_TEXT_TITLE,
  HS_CHAIN_TEXT_PROOF,
  HS_CHAIN_TEXT_END,
} HsChainText;

/**
 * HsChainMeasureFunc:
 * @row: which face
 * @text: which of its texts; of what was ruled out, the proof stands under the title
 * @width: in pixels
 *
 * Returns: the height of the text wrapped to @width
 */
typedef int (*HsChainMeasureFunc) (gpointer data, guint row, HsChainText text, int width);

/**
 * HsChainPlace:
 * @row: from its proof down to where the next begins, over the whole width; empty for what hangs beside a node
 * @box: the node, or the words of what was ruled out: what takes the focus
 * @title: the words in the box
 * @sleeve: of the proof; empty without a link
 * @proof: the words beside the sleeve
 * @mark: of the end; empty if there is none
 * @end: the words beside the mark
 * @wire: where its column's wire runs
 * @from: where the wire that it hangs on runs
 * @tail: whether causes follow under it, so that its own wire goes on down
 * @beside: it hangs at the right of its effect
 */
typedef struct
{
  graphene_rect_t row;
  graphene_rect_t box;
  graphene_rect_t title;
  graphene_rect_t sleeve;
  graphene_rect_t proof;
  graphene_rect_t mark;
  graphene_rect_t end;
  double wire;
  double from;
  gboolean tail;
  gboolean beside;
} HsChainPlace;

/**
 * HsChainPlan:
 * @stacked: ends stand under their node
 * @height: of the whole
 * @places: (element-type HsChainPlace): one a face
 */
typedef struct
{
  gboolean stacked;
  double unit;
  double indent;
  double node_right;
  int width;
  int height;
  GArray *places;
} HsChainPlan;

/**
 * hs_chain_plan_new:
 * @faces: (element-type HsChainFace)
 * @width: of the whole, in pixels
 * @unit: pixels of a designed pixel
 *
 * Returns: (transfer full): free with hs_chain_plan_free()
 */
HsChainPlan *hs_chain_plan_new (GPtrArray *faces, int width, double unit, HsChainMeasureFunc measure, gpointer data);
void hs_chain_plan_free (HsChainPlan *plan);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsChainPlan, hs_chain_plan_free)

/* hs_chain_plan_get: (transfer none) */
const HsChainPlace *hs_chain_plan_get (const HsChainPlan *plan, guint row);

/* hs_chain_plan_column: where the wire of a column runs. */
double hs_chain_plan_column (const HsChainPlan *plan, guint column);

/* hs_chain_plan_least: the least width that a chain can be drawn in. */
int hs_chain_plan_least (GPtrArray *faces, double unit);

/* hs_chain_face_is_cut: it hangs on its effect and was ruled out. */
gboolean hs_chain_face_is_cut (const HsChainFace *face);

G_END_DECLS
