// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The drawing of a why-chain on its plan: wires first, then what is threaded on them, then paper and words. What was
 * only said or suspected is dashed; what was ruled out hangs on a cut wire. */

#include "hs-chain-draw.h"

#include <math.h>

#include "hs-end-mark.h"
#include "hs-glyph.h"
#include "hs-ink.h"

#define WIRE 5
#define ARROW_PX 10

typedef struct
{
  GtkWidget *widget;
  cairo_t *cr;
  GPtrArray *faces;
  const HsChainPlan *plan;
  int chosen;
  HsInk ink;
} Sheet;

/* In the order of HsChainProof. */
static const char *const glyphs[] = { "reading", "photo", "seen", "said" };

static double
px (const Sheet *sheet, double designed)
{
  return designed * sheet->plan->unit;
}

static const HsChainFace *
face_of (const Sheet *sheet, guint row)
{
  return g_ptr_array_index (sheet->faces, row);
}

static double
middle_of (const graphene_rect_t *area)
{
  return area->origin.y + area->size.height / 2;
}

static double
bottom_of (const graphene_rect_t *area)
{
  return area->origin.y + area->size.height;
}

static double
right_of (const graphene_rect_t *area)
{
  return area->origin.x + area->size.width;
}

/* Texts. */

static void
add_attribute (PangoAttrList *list, PangoAttribute *attribute, gsize from, gsize to)
{
  attribute->start_index = (guint) from;
  attribute->end_index = (guint) to;
  pango_attr_list_insert (list, attribute);
}

/* Two texts in one layout, the first bold. */
static PangoLayout *
pair_layout (GtkWidget *widget, const char *first, const char *second, const char *between, double times)
{
  g_autofree char *text = g_strdup_printf ("%s%s%s", first != NULL ? first : "",
                                           first != NULL && second != NULL ? between : "",
                                           second != NULL ? second : "");
  PangoLayout *layout = hs_ink_layout (widget, text, times, 400);
  PangoAttrList *list = pango_attr_list_copy (pango_layout_get_attributes (layout));

  if (first != NULL)
    add_attribute (list, pango_attr_weight_new (PANGO_WEIGHT_BOLD), 0, strlen (first));
  pango_layout_set_attributes (layout, list);
  pango_attr_list_unref (list);
  return layout;
}

PangoLayout *
hs_chain_draw_text (GtkWidget *widget, const HsChainFace *face, HsChainText text)
{
  PangoLayout *layout;

  switch (text)
    {
    case HS_CHAIN_TEXT_PROOF:
      layout = pair_layout (widget, face->proof_word, face->proof, " ", 1.1);
      break;
    case HS_CHAIN_TEXT_END:
      layout = pair_layout (widget, face->end_title, face->end_note, "\n", 1.05);
      break;
    case HS_CHAIN_TEXT_TITLE:
    default:
      layout = hs_ink_layout (widget, face->title, face->kind == HS_CHAIN_NODE ? 1.22 : 1.1,
                              face->kind == HS_CHAIN_REFERENCE ? 400 : 800);
      break;
    }
  pango_layout_set_wrap (layout, PANGO_WRAP_WORD_CHAR);
  return layout;
}

static void
draw_text (const Sheet *sheet, guint row, HsChainText text, const graphene_rect_t *area, const GdkRGBA *color)
{
  g_autoptr (PangoLayout) layout = hs_chain_draw_text (sheet->widget, face_of (sheet, row), text);

  pango_layout_set_width (layout, (int) area->size.width * PANGO_SCALE);
  gdk_cairo_set_source_rgba (sheet->cr, color);
  cairo_move_to (sheet->cr, area->origin.x, area->origin.y);
  pango_cairo_show_layout (sheet->cr, layout);
  cairo_new_path (sheet->cr);
}

/* Wires. */

static void
draw_wire (const Sheet *sheet, gboolean dashed, double x1, double y1, double x2, double y2)
{
  const double dash[] = { px (sheet, 8), px (sheet, 5) };

  if (dashed)
    cairo_set_dash (sheet->cr, dash, 2, 0);
  hs_ink_line (sheet->cr, &sheet->ink.copper, round (px (sheet, WIRE)), x1, y1, x2, y2);
  cairo_set_dash (sheet->cr, NULL, 0, 0);
}

/* Effect ← cause: the point is at the effect. */
static void
draw_arrow (const Sheet *sheet, double x, double top)
{
  double half = px (sheet, ARROW_PX);

  cairo_move_to (sheet->cr, x, top);
  cairo_line_to (sheet->cr, x + half, top + half * 1.15);
  cairo_line_to (sheet->cr, x - half, top + half * 1.15);
  cairo_close_path (sheet->cr);
  gdk_cairo_set_source_rgba (sheet->cr, &sheet->ink.copper);
  cairo_fill (sheet->cr);
}

/* Wires of other rows that pass this one. */
static void
draw_passing (const Sheet *sheet, guint row)
{
  const HsChainFace *face = face_of (sheet, row);
  const HsChainPlace *place = hs_chain_plan_get (sheet->plan, row);

  for (guint column = 0; column < HS_CHAIN_MOST_COLUMNS; column++)
    if ((face->wires & G_GUINT64_CONSTANT (1) << column) != 0)
      {
        double x = hs_chain_plan_column (sheet->plan, column);

        draw_wire (sheet, FALSE, x, place->row.origin.y, x, bottom_of (&place->row));
      }
}

/* From the effect's wire to the node's top, through the sleeve. */
static void
draw_link_wire (const Sheet *sheet, guint row)
{
  const HsChainFace *face = face_of (sheet, row);
  const HsChainPlace *place = hs_chain_plan_get (sheet->plan, row);
  double top = place->row.origin.y, turn = middle_of (&place->sleeve), down = place->box.origin.y + 2;
  gboolean dashed = face->by == HS_CHAIN_BY_WORD;

  if (place->sleeve.size.width <= 0)
    return;
  if (place->from == place->wire)
    {
      draw_wire (sheet, dashed, place->wire, top, place->wire, down);
      return;
    }
  draw_wire (sheet, FALSE, place->from, top, place->from, turn + px (sheet, WIRE) / 2);
  draw_wire (sheet, dashed, place->from, turn, place->wire, turn);
  draw_wire (sheet, dashed, place->wire, turn, place->wire, down);
}

static void
draw_tail (const Sheet *sheet, guint row)
{
  const HsChainPlace *place = hs_chain_plan_get (sheet->plan, row);
  double bottom = bottom_of (&place->box);

  if (!place->tail)
    return;
  draw_wire (sheet, FALSE, place->wire, bottom, place->wire, bottom_of (&place->row) + 1);
  draw_arrow (sheet, place->wire, bottom + 1);
}

/* Two strokes through the wire, with air between them. */
static void
draw_cut (const Sheet *sheet, double x, double y)
{
  double slant = px (sheet, 5), high = px (sheet, 12), apart = px (sheet, 4);

  hs_ink_line (sheet->cr, &sheet->ink.bench, px (sheet, 7), x - slant * 0.5, y + high * 0.5, x + slant * 0.5,
               y - high * 0.5);
  for (int side = -1; side <= 1; side += 2)
    hs_ink_line (sheet->cr, &sheet->ink.ink, px (sheet, 2.5), x + side * apart - slant, y + high,
                 x + side * apart + slant, y - high);
}

/* The stub from a node to something that hangs on it: level if it can be, else down and across. */
static void
draw_stub (const Sheet *sheet, guint node, const graphene_rect_t *target, gboolean dashed, gboolean cut)
{
  const HsChainPlace *place = hs_chain_plan_get (sheet->plan, node);
  double y = middle_of (target), from = place->wire, start = bottom_of (&place->box), mark;

  if (!sheet->plan->stacked)
    {
      from = right_of (&place->box);
      start = middle_of (&place->box);
      if (fabs (start - y) > 1)
        {
          double x = from + px (sheet, 10);

          draw_wire (sheet, dashed, from, start, x, start);
          from = x;
        }
    }
  if (sheet->plan->stacked || fabs (start - y) > 1)
    draw_wire (sheet, dashed && !place->tail, from, start, from, y + px (sheet, WIRE) / 2);
  draw_wire (sheet, dashed, from, y, target->origin.x + 1, y);
  mark = sheet->plan->stacked ? target->origin.x - px (sheet, 16) : (from + target->origin.x) / 2;
  if (cut)
    draw_cut (sheet, mark, y);
}

static void
draw_stubs (const Sheet *sheet, guint row)
{
  const HsChainFace *face = face_of (sheet, row);
  const HsChainPlace *place = hs_chain_plan_get (sheet->plan, row);

  if (hs_chain_face_is_cut (face))
    draw_stub (sheet, (guint) face->parent, &place->sleeve, FALSE, TRUE);
  else if (face->end_title != NULL)
    draw_stub (sheet, row, &place->mark, !face->firm, FALSE);
}

/* What is threaded on them. */

static void
draw_sleeve (const Sheet *sheet, guint row)
{
  const HsChainFace *face = face_of (sheet, row);
  const HsChainPlace *place = hs_chain_plan_get (sheet->plan, row);
  const double dash[] = { px (sheet, 4), px (sheet, 3) };
  double size = place->sleeve.size.height * 0.78;

  if (place->sleeve.size.width <= 0)
    return;
  hs_ink_box (sheet->cr, &place->sleeve, &sheet->ink.well, NULL, 0);
  if (face->by == HS_CHAIN_BY_WORD)
    cairo_set_dash (sheet->cr, dash, 2, 0);
  hs_ink_box (sheet->cr, &place->sleeve, NULL, &sheet->ink.ink, MAX (1.5, px (sheet, 2)));
  cairo_set_dash (sheet->cr, NULL, 0, 0);
  hs_glyph_draw (sheet->cr, glyphs[face->by], &sheet->ink.ink,
                 place->sleeve.origin.x + (place->sleeve.size.width - size) / 2, middle_of (&place->sleeve) - size / 2,
                 size);
  draw_text (sheet, row, HS_CHAIN_TEXT_PROOF, &place->proof,
             hs_chain_face_is_cut (face) ? &sheet->ink.ink2 : &sheet->ink.ink);
}

/* Nodes. */

static double
border_of (const Sheet *sheet, guint row)
{
  const HsChainFace *face = face_of (sheet, row);

  if (sheet->chosen == (int) row)
    return px (sheet, 4);
  if (face->complaint)
    return px (sheet, 3);
  return face->kind == HS_CHAIN_REFERENCE ? 1 : MAX (1.5, px (sheet, 1.75));
}

static void
draw_box (const Sheet *sheet, guint row)
{
  const HsChainFace *face = face_of (sheet, row);
  const HsChainPlace *place = hs_chain_plan_get (sheet->plan, row);
  const double dash[] = { px (sheet, 8), px (sheet, 5) };
  gboolean chosen = sheet->chosen == (int) row;

  hs_ink_box (sheet->cr, &place->box, chosen ? &sheet->ink.wash : &sheet->ink.paper, NULL, 0);
  if (!face->firm)
    cairo_set_dash (sheet->cr, dash, 2, 0);
  hs_ink_box (sheet->cr, &place->box, NULL, chosen ? &sheet->ink.copper : &sheet->ink.ink, border_of (sheet, row));
  cairo_set_dash (sheet->cr, NULL, 0, 0);
}

static void
draw_number (const Sheet *sheet, guint row)
{
  const HsChainFace *face = face_of (sheet, row);
  const HsChainPlace *place = hs_chain_plan_get (sheet->plan, row);
  g_autofree char *number = g_strdup_printf ("%u", face->number);

  if (face->number > 0)
    hs_ink_label (sheet->widget, sheet->cr, number, 1.1, 700, &sheet->ink.ink2,
                  right_of (&place->box) - px (sheet, sheet->plan->stacked ? 12 : 16), middle_of (&place->box), 1);
}

static void
draw_node (const Sheet *sheet, guint row)
{
  const HsChainFace *face = face_of (sheet, row);
  const HsChainPlace *place = hs_chain_plan_get (sheet->plan, row);
  double high = place->mark.size.height;

  if (hs_chain_face_is_cut (face))
    {
      if (sheet->chosen == (int) row)
        draw_box (sheet, row);
    }
  else
    {
      draw_box (sheet, row);
      draw_number (sheet, row);
    }
  draw_text (sheet, row, HS_CHAIN_TEXT_TITLE, &place->title,
             face->kind == HS_CHAIN_REFERENCE ? &sheet->ink.ink2 : &sheet->ink.ink);
  if (face->end_title == NULL)
    return;
  hs_end_mark_draw (sheet->cr, face->end, &sheet->ink.ink,
                    place->mark.origin.x, middle_of (&place->mark) - MIN (high, place->mark.size.width / 2) / 2,
                    MIN (high, place->mark.size.width / 2));
  draw_text (sheet, row, HS_CHAIN_TEXT_END, &place->end, &sheet->ink.ink);
}

void
hs_chain_draw (GtkWidget *widget, cairo_t *cr, GPtrArray *faces, const HsChainPlan *plan, int chosen)
{
  Sheet sheet = { widget, cr, faces, plan, chosen, { { 0 } } };

  hs_ink_read (widget, &sheet.ink);
  for (guint i = 0; i < faces->len; i++)
    if (!hs_chain_face_is_cut (face_of (&sheet, i)))
      {
        draw_passing (&sheet, i);
        draw_link_wire (&sheet, i);
        draw_tail (&sheet, i);
      }
  for (guint i = 0; i < faces->len; i++)
    draw_stubs (&sheet, i);
  for (guint i = 0; i < faces->len; i++)
    draw_node (&sheet, i);
  for (guint i = 0; i < faces->len; i++)
    draw_sleeve (&sheet, i);
}
