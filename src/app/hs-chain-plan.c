// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The geometry of a why-chain. Rows run down the page; a node stands under the proof that joins it to its effect. Wide,
 * its end and what was ruled out hang at its right, one under the other; stacked, they hang under it:
 *
 *     ▐ effect ▌───▣ end                ▐ effect ▌
 *        │     └─//─▣ ruled out            ├─▣ end
 *        ▣ proof                           ├─//─▣ ruled out
 *     ▐ cause  ▌                           ▣ proof
 *                                       ▐ cause  ▌
 *
 * It knows no font and no color, and it cuts no words: what is longer grows downward. */

#include "hs-chain-plan.h"

#include <math.h>

#define BAND_PX 51
#define SLEEVE_WIDTH_PX 38
#define SLEEVE_HEIGHT_PX 28
#define MARK_WIDTH_PX 46
#define MARK_HEIGHT_PX 26
#define LEAD_PX 40
#define CUT_LEAD_PX 44
#define INDENT_PX 52
#define LEAST_INDENT_PX 10
#define WIRE_PX 38
#define STACKED_WIRE_PX 20
#define LEAST_WORDS_PX 50
#define LEAST_NODE_PX 150
#define PAD_PX 20
#define STACKED_PAD_PX 12
#define NUMBER_PX 34
#define GAP_PX 14
#define ITEM_GAP_PX 8
#define TOP_GAP_PX 20
#define NODE_SHARE 0.605
#define MOST_NODE_PX 620

typedef struct
{
  HsChainPlan *plan;
  GPtrArray *faces;
  HsChainMeasureFunc measure;
  gpointer data;
  double y;
  double side; /* down to where the right side is taken */
} Drawing;

static double
px (const Drawing *drawing, double designed)
{
  return round (designed * drawing->plan->unit);
}

static const HsChainFace *
face_of (const Drawing *drawing, guint row)
{
  return g_ptr_array_index (drawing->faces, row);
}

static HsChainPlace *
place_of (const Drawing *drawing, guint row)
{
  return &g_array_index (drawing->plan->places, HsChainPlace, row);
}

static double
height_of (const Drawing *drawing, guint row, HsChainText text, double width)
{
  return drawing->measure (drawing->data, row, text, (int) MAX (1, width));
}

gboolean
hs_chain_face_is_cut (const HsChainFace *face)
{
  return face->kind == HS_CHAIN_CUT && face->parent >= 0;
}

static gboolean
has_end (const HsChainFace *face)
{
  return face->end_title != NULL;
}

static guint
most_columns (GPtrArray *faces)
{
  guint most = 0;

  for (guint i = 0; i < faces->len; i++)
    {
      const HsChainFace *face = g_ptr_array_index (faces, i);

      if (!hs_chain_face_is_cut (face))
        most = MAX (most, face->column);
    }
  return most;
}

static gboolean
has_side (GPtrArray *faces)
{
  for (guint i = 0; i < faces->len; i++)
    {
      const HsChainFace *face = g_ptr_array_index (faces, i);

      if (has_end (face) || hs_chain_face_is_cut (face))
        return TRUE;
    }
  return FALSE;
}

/* Where nothing hangs at the right, nodes need not leave room there; they do not grow over the whole of a wide window
 * either. */
static void
set_columns (HsChainPlan *plan, GPtrArray *faces)
{
  guint most = most_columns (faces);
  double right = plan->width, room;

  if (!plan->stacked)
    right = MIN (right * (has_side (faces) ? NODE_SHARE : 1), (MOST_NODE_PX + most * INDENT_PX) * plan->unit);
  plan->node_right = floor (right);
  room = plan->node_right - 2 * LEAST_NODE_PX * plan->unit;
  plan->indent = most > 0 ? CLAMP (room / most, LEAST_INDENT_PX * plan->unit, INDENT_PX * plan->unit) : 0;
  plan->indent = floor (plan->indent);
}

/* The wire of a column runs left of the boxes of the next one. */
double
hs_chain_plan_column (const HsChainPlan *plan, guint column)
{
  double wire = (plan->stacked ? STACKED_WIRE_PX : WIRE_PX) * plan->unit;

  if (plan->indent > 0)
    wire = MIN (wire, plan->indent * 0.55);
  return round (column * plan->indent + wire);
}

/* Proof. */

/* The sleeve is threaded on the wire, so far as there is room left of it. */
static double
put_proof (Drawing *drawing, guint row)
{
  const HsChainFace *face = face_of (drawing, row);
  HsChainPlace *place = place_of (drawing, row);
  double left = face->column * drawing->plan->indent, width = px (drawing, SLEEVE_WIDTH_PX);
  double high = px (drawing, SLEEVE_HEIGHT_PX), x = MAX (left, place->wire - width / 2), words, band;
  double words_x = x + width + px (drawing, GAP_PX);

  words = height_of (drawing, row, HS_CHAIN_TEXT_PROOF, drawing->plan->node_right - words_x);
  band = MAX (px (drawing, BAND_PX), MAX (words, high) + px (drawing, 16));
  place->sleeve = GRAPHENE_RECT_INIT ((float) x, (float) round (drawing->y + (band - high) / 2), (float) width,
                                      (float) high);
  place->proof = GRAPHENE_RECT_INIT ((float) words_x, (float) round (drawing->y + (band - words) / 2),
                                     (float) (drawing->plan->node_right - words_x), (float) words);
  return band;
}

/* Ends and what was ruled out. */

static double
item_words (const Drawing *drawing, guint row, gboolean cut, double width)
{
  double words = height_of (drawing, row, cut ? HS_CHAIN_TEXT_TITLE : HS_CHAIN_TEXT_END, width);

  return cut ? words + height_of (drawing, row, HS_CHAIN_TEXT_PROOF, width) : words;
}

static double
item_words_x (const Drawing *drawing, gboolean cut, double lead)
{
  return lead + px (drawing, cut ? SLEEVE_WIDTH_PX : MARK_WIDTH_PX) + px (drawing, 10);
}

static double
item_height (const Drawing *drawing, guint row, gboolean cut, double lead)
{
  double width = MAX (px (drawing, LEAST_WORDS_PX), drawing->plan->width - item_words_x (drawing, cut, lead));

  return MAX (item_words (drawing, row, cut, width), px (drawing, cut ? 44 : MARK_HEIGHT_PX + 6));
}

static void
put_cut (Drawing *drawing, guint row, double lead, double middle, double words_x, double width)
{
  HsChainPlace *place = place_of (drawing, row);
  double title = height_of (drawing, row, HS_CHAIN_TEXT_TITLE, width);
  double proof = height_of (drawing, row, HS_CHAIN_TEXT_PROOF, width), top = round (middle - (title + proof) / 2);
  double high = px (drawing, SLEEVE_HEIGHT_PX), least = MAX (title + proof, px (drawing, 44));
  double x = words_x - px (drawing, 8);

  place->sleeve = GRAPHENE_RECT_INIT ((float) lead, (float) round (middle - high / 2),
                                      (float) px (drawing, SLEEVE_WIDTH_PX), (float) high);
  place->title = GRAPHENE_RECT_INIT ((float) words_x, (float) top, (float) width, (float) title);
  place->proof = GRAPHENE_RECT_INIT ((float) words_x, (float) (top + title), (float) width, (float) proof);
  place->box = GRAPHENE_RECT_INIT ((float) x, (float) round (middle - least / 2), (float) (width + px (drawing, 8)),
                                   (float) least);
  place->beside = !drawing->plan->stacked;
}

static void
put_end (Drawing *drawing, guint row, double lead, double middle, double words_x, double width)
{
  HsChainPlace *place = place_of (drawing, row);
  double words = height_of (drawing, row, HS_CHAIN_TEXT_END, width), high = px (drawing, MARK_HEIGHT_PX);

  place->mark = GRAPHENE_RECT_INIT ((float) lead, (float) round (middle - high / 2),
                                    (float) px (drawing, MARK_WIDTH_PX), (float) high);
  place->end = GRAPHENE_RECT_INIT ((float) words_x, (float) round (middle - words / 2), (float) width, (float) words);
}

/* One end or cut from @top down. Returns: its bottom */
static double
put_item (Drawing *drawing, guint row, gboolean cut, double lead, double top)
{
  double words_x = item_words_x (drawing, cut, lead), high = item_height (drawing, row, cut, lead);
  double width = MAX (px (drawing, LEAST_WORDS_PX), drawing->plan->width - words_x);

  if (cut)
    put_cut (drawing, row, lead, top + high / 2, words_x, width);
  else
    put_end (drawing, row, lead, top + high / 2, words_x, width);
  return top + high;
}

static double
lead_beside (const Drawing *drawing, gboolean cut)
{
  return drawing->plan->node_right + px (drawing, cut ? CUT_LEAD_PX : LEAD_PX);
}

/* What hangs on the node in @row, in order: its end, then what was ruled out under it. */
static GArray *
list_items (const Drawing *drawing, guint row)
{
  GArray *items = g_array_new (FALSE, FALSE, sizeof (guint));

  if (has_end (face_of (drawing, row)))
    g_array_append_val (items, row);
  for (guint i = row + 1; i < drawing->faces->len; i++)
    if (face_of (drawing, i)->parent == (int) row && hs_chain_face_is_cut (face_of (drawing, i)))
      g_array_append_val (items, i);
  return items;
}

static double
put_items_beside (Drawing *drawing, guint row, GArray *items)
{
  const HsChainPlace *node = place_of (drawing, row);
  double middle = node->box.origin.y + node->box.size.height / 2, bottom = 0;

  for (guint i = 0; i < items->len; i++)
    {
      guint item = g_array_index (items, guint, i);
      gboolean cut = item != row;
      double lead = lead_beside (drawing, cut), top = bottom + px (drawing, ITEM_GAP_PX);

      if (i == 0)
        top = MAX (round (middle - item_height (drawing, item, cut, lead) / 2), drawing->side);
      bottom = put_item (drawing, item, cut, lead, top);
    }
  drawing->side = bottom + px (drawing, ITEM_GAP_PX);
  return bottom;
}

static double
put_items_under (Drawing *drawing, guint row, GArray *items, double y)
{
  double lead = place_of (drawing, row)->wire + px (drawing, 18);

  for (guint i = 0; i < items->len; i++)
    {
      guint item = g_array_index (items, guint, i);
      gboolean cut = item != row;

      y = put_item (drawing, item, cut, lead + (cut ? px (drawing, 18) : 0), y + px (drawing, ITEM_GAP_PX));
    }
  return y;
}

/* Nodes. */

/* A first item that is higher than the node makes it as high, so that its wire leaves from the middle. */
static double
node_height (const Drawing *drawing, guint row, GArray *items, double words)
{
  double high = MAX (px (drawing, HS_CHAIN_NODE_PX), words + px (drawing, 20));
  gboolean cut;

  if (drawing->plan->stacked || items->len == 0)
    return high;
  cut = g_array_index (items, guint, 0) != row;
  return MAX (high, item_height (drawing, g_array_index (items, guint, 0), cut, lead_beside (drawing, cut)));
}

static double
put_node (Drawing *drawing, guint row, GArray *items, double y)
{
  const HsChainFace *face = face_of (drawing, row);
  HsChainPlace *place = place_of (drawing, row);
  double left = face->column * drawing->plan->indent;
  double pad = px (drawing, drawing->plan->stacked ? STACKED_PAD_PX : PAD_PX);
  double width = drawing->plan->node_right - left - 2 * pad, words, high;

  if (face->number > 0)
    width -= px (drawing, NUMBER_PX);
  words = height_of (drawing, row, HS_CHAIN_TEXT_TITLE, width);
  high = node_height (drawing, row, items, words);
  place->box = GRAPHENE_RECT_INIT ((float) left, (float) y, (float) (drawing->plan->node_right - left), (float) high);
  place->title = GRAPHENE_RECT_INIT ((float) (left + pad), (float) round (y + (high - words) / 2), (float) width,
                                     (float) words);
  return high;
}

static gboolean
has_tail (const Drawing *drawing, guint row)
{
  for (guint i = row + 1; i < drawing->faces->len; i++)
    if (face_of (drawing, i)->parent == (int) row && !hs_chain_face_is_cut (face_of (drawing, i)))
      return TRUE;
  return FALSE;
}

static void
put_row (Drawing *drawing, guint row)
{
  const HsChainFace *face = face_of (drawing, row);
  HsChainPlace *place = place_of (drawing, row);
  g_autoptr (GArray) items = list_items (drawing, row);
  double top = drawing->y, bottom;

  if (face->link_id != NULL && face->parent >= 0)
    drawing->y += put_proof (drawing, row);
  else if (row > 0)
    drawing->y += px (drawing, TOP_GAP_PX);
  drawing->y += put_node (drawing, row, items, drawing->y);
  bottom = drawing->y;
  if (items->len > 0 && drawing->plan->stacked)
    bottom = put_items_under (drawing, row, items, bottom);
  else if (items->len > 0)
    bottom = put_items_beside (drawing, row, items);
  bottom = MAX (bottom, drawing->y);
  drawing->y = bottom;
  place->tail = has_tail (drawing, row);
  place->row = GRAPHENE_RECT_INIT (0, (float) top, (float) drawing->plan->width, (float) (bottom - top));
}

HsChainPlan *
hs_chain_plan_new (GPtrArray *faces, int width, double unit, HsChainMeasureFunc measure, gpointer data)
{
  HsChainPlan *plan = g_new0 (HsChainPlan, 1);
  Drawing drawing = { plan, faces, measure, data, 0, 0 };

  plan->unit = unit;
  plan->width = width;
  plan->stacked = width < HS_CHAIN_STACKED_PX * unit;
  plan->places = g_array_new (FALSE, TRUE, sizeof (HsChainPlace));
  g_array_set_size (plan->places, faces->len);
  set_columns (plan, faces);
  for (guint i = 0; i < faces->len; i++)
    {
      HsChainPlace *place = place_of (&drawing, i);

      place->wire = hs_chain_plan_column (plan, face_of (&drawing, i)->column);
      place->from = hs_chain_plan_column (plan, face_of (&drawing, i)->from_column);
      if (!hs_chain_face_is_cut (face_of (&drawing, i)))
        put_row (&drawing, i);
    }
  plan->height = (int) ceil (drawing.y);
  return plan;
}

void
hs_chain_plan_free (HsChainPlan *plan)
{
  if (plan == NULL)
    return;
  g_array_unref (plan->places);
  g_free (plan);
}

const HsChainPlace *
hs_chain_plan_get (const HsChainPlan *plan, guint row)
{
  return &g_array_index (plan->places, HsChainPlace, row);
}

int
hs_chain_plan_least (GPtrArray *faces, double unit)
{
  return (int) ((LEAST_NODE_PX + most_columns (faces) * LEAST_INDENT_PX) * unit);
}
