// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Strips of text, rows and a tag, one under the other, and how they are broken into pages. Every paper of the house is
 * put together here, so that all have the same margins, type and running head. Words longer than a line are broken;
 * nothing is left out. */

#include "hs-paper-flow.h"

#include "hs-paper-error.h"

#include <cairo-pdf.h>
#include <math.h>
#include <string.h>

#define SIDE 54.0
#define TOP 48.0
#define BOTTOM 60.0
#define HEADER 26.0
#define PAD 4.0
#define CUT 10.0
#define STRING_X 26.0
/* Of a row, so that it fits on a page whatever is written in it. */
#define MOST_ROW_LINES 40
#define INK 0.11, 0.10, 0.09

/* One thing on a strip; coordinates from its upper left corner. */
typedef struct
{
  PangoLayout *layout;
  int line; /* −1: the whole layout */
  double x;
  double y;
  double width;
  double height;
  gboolean boxed;
  HsBox box;
} Piece;

typedef enum
{
  STRIP_PIECES,
  STRIP_RULE,
  STRIP_TAG,
} StripKind;

typedef struct
{
  StripKind kind;
  double height;
  gboolean with_next;
  const char *tag; /* of the structure of a PDF */
  double arrow;    /* or below 0 */
  GArray *pieces;
} Strip;

struct _HsPaper
{
  double width;
  double height;
  HsTongue tongue;
  char *title;
  char *author;
  char *subject;
  PangoContext *context;
  GPtrArray *strips;
  GArray *breaks; /* first strip of each page */
};

static void
piece_clear (Piece *piece)
{
  g_clear_object (&piece->layout);
}

static void
strip_free (Strip *strip)
{
  g_array_unref (strip->pieces);
  g_free (strip);
}

static Strip *
add_strip (HsPaper *paper, StripKind kind, double height, const char *tag)
{
  Strip *strip = g_new0 (Strip, 1);

  strip->kind = kind;
  strip->height = height;
  strip->tag = tag;
  strip->arrow = -1;
  strip->pieces = g_array_new (FALSE, TRUE, sizeof (Piece));
  g_array_set_clear_func (strip->pieces, (GDestroyNotify) piece_clear);
  g_ptr_array_add (paper->strips, strip);
  return strip;
}

static PangoContext *
make_context (void)
{
  PangoFontMap *map = pango_cairo_font_map_new ();
  PangoContext *context;
  cairo_font_options_t *options = cairo_font_options_create ();

  /* A unit of Pango is a point then, on whatever the page is drawn. */
  pango_cairo_font_map_set_resolution (PANGO_CAIRO_FONT_MAP (map), 72);
  context = pango_font_map_create_context (map);
  cairo_font_options_set_hint_metrics (options, CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_hint_style (options, CAIRO_HINT_STYLE_NONE);
  pango_cairo_context_set_font_options (context, options);
  cairo_font_options_destroy (options);
  g_object_unref (map);
  return context;
}

static double
line_width (const HsPaper *paper)
{
  return paper->width - 2 * SIDE;
}

static PangoLayout *
make_layout (const HsPaper *paper, const char *text, HsTypeStyle style, double width)
{
  static const struct
  {
    double size;
    PangoWeight weight;
  } types[] = {
    [HS_TYPE_HEAD] = { 20, PANGO_WEIGHT_HEAVY },   [HS_TYPE_TITLE] = { 12.5, PANGO_WEIGHT_BOLD },
    [HS_TYPE_FIGURE] = { 15, PANGO_WEIGHT_BOLD },  [HS_TYPE_BODY] = { 10.5, PANGO_WEIGHT_NORMAL },
    [HS_TYPE_STRONG] = { 10.5, PANGO_WEIGHT_BOLD }, [HS_TYPE_SMALL] = { 9, PANGO_WEIGHT_NORMAL },
  };
  PangoLayout *layout = pango_layout_new (paper->context);
  PangoFontDescription *font = pango_font_description_from_string ("Cantarell, DejaVu Sans, sans-serif");
  PangoAttrList *attributes = pango_attr_list_new ();
  g_autofree char *valid = g_utf8_make_valid (text == NULL ? "" : text, -1);

  pango_font_description_set_absolute_size (font, types[style].size * PANGO_SCALE);
  pango_font_description_set_weight (font, types[style].weight);
  pango_layout_set_font_description (layout, font);
  pango_attr_list_insert (attributes, pango_attr_font_features_new ("tnum=1"));
  pango_layout_set_attributes (layout, attributes);
  pango_layout_set_width (layout, (int) floor (width * PANGO_SCALE));
  pango_layout_set_wrap (layout, PANGO_WRAP_WORD_CHAR);
  pango_layout_set_text (layout, valid, -1);
  pango_attr_list_unref (attributes);
  pango_font_description_free (font);
  return layout;
}

static double
layout_height (PangoLayout *layout)
{
  int height;

  pango_layout_get_size (layout, NULL, &height);
  return (double) height / PANGO_SCALE;
}

static double
layout_width (PangoLayout *layout)
{
  int width;

  pango_layout_get_size (layout, &width, NULL);
  return (double) width / PANGO_SCALE;
}

static void
add_piece (Strip *strip, PangoLayout *layout, int line, double x, double y)
{
  Piece piece = { .layout = g_object_ref (layout), .line = line, .x = x, .y = y };

  g_array_append_val (strip->pieces, piece);
}

HsPaperSize
hs_paper_size_parse (const char *text)
{
  return text != NULL && g_ascii_strcasecmp (text, "A4") == 0 ? HS_PAPER_A4 : HS_PAPER_LETTER;
}

HsPaper *
hs_paper_flow_begin (HsPaperSize size, const HsTongue *in, const char *title, const char *author, const char *subject)
{
  HsPaper *paper = g_new0 (HsPaper, 1);

  paper->width = size == HS_PAPER_A4 ? 595.28 : 612;
  paper->height = size == HS_PAPER_A4 ? 841.89 : 792;
  paper->tongue = *in;
  paper->title = g_utf8_make_valid (title, -1);
  paper->author = g_utf8_make_valid (author == NULL ? "" : author, -1);
  paper->subject = g_utf8_make_valid (subject == NULL ? "" : subject, -1);
  paper->context = make_context ();
  paper->strips = g_ptr_array_new_with_free_func ((GDestroyNotify) strip_free);
  paper->breaks = g_array_new (FALSE, FALSE, sizeof (guint));
  return paper;
}

void
hs_paper_free (HsPaper *paper)
{
  if (paper == NULL)
    return;
  g_free (paper->title);
  g_free (paper->author);
  g_free (paper->subject);
  g_object_unref (paper->context);
  g_ptr_array_unref (paper->strips);
  g_array_unref (paper->breaks);
  g_free (paper);
}

void
hs_paper_flow_gap (HsPaper *paper, double height)
{
  add_strip (paper, STRIP_PIECES, height, NULL)->with_next = TRUE;
}

void
hs_paper_flow_rule (HsPaper *paper)
{
  add_strip (paper, STRIP_RULE, 7, NULL)->with_next = TRUE;
}

void
hs_paper_flow_text (HsPaper *paper, const char *text, HsTypeStyle style, double indent)
{
  double x = indent * line_width (paper);
  g_autoptr (PangoLayout) layout = make_layout (paper, text, style, line_width (paper) - x);
  int n_lines = pango_layout_get_line_count (layout);
  gboolean head = style == HS_TYPE_HEAD || style == HS_TYPE_TITLE;
  const char *tag = style == HS_TYPE_HEAD ? "H1" : style == HS_TYPE_TITLE ? "H2" : "P";

  for (int i = 0; i < n_lines; i++)
    {
      PangoRectangle extents;
      Strip *strip;

      pango_layout_line_get_extents (pango_layout_get_line_readonly (layout, i), NULL, &extents);
      strip = add_strip (paper, STRIP_PIECES, (double) extents.height / PANGO_SCALE * 1.1, tag);
      /* No title and no first line stands alone at the foot of a page, and no last line at the head of one. */
      strip->with_next = head || (n_lines > 1 && (i == 0 || i == n_lines - 2));
      add_piece (strip, layout, i, x, -(double) extents.y / PANGO_SCALE);
    }
}

/* One under the other; a box has a little air around its word. */
static double
fill_column (HsPaper *paper, Strip *strip, const HsColumn *column)
{
  double x = column->x * line_width (paper);
  double width = column->width * line_width (paper);
  double y = 0;

  for (guint i = 0; i < column->n_cells; i++)
    {
      const HsCell *cell = &column->cells[i];
      double air = cell->boxed ? PAD : 0;
      g_autoptr (PangoLayout) layout = NULL;
      Piece *piece;

      if (cell->text == NULL || *cell->text == '\0')
        continue;
      layout = make_layout (paper, cell->text, cell->style, width - 2 * air);
      pango_layout_set_height (layout, -MOST_ROW_LINES);
      pango_layout_set_ellipsize (layout, pango_layout_get_line_count (layout) > MOST_ROW_LINES ? PANGO_ELLIPSIZE_END
                                                                                             : PANGO_ELLIPSIZE_NONE);
      y += cell->boxed ? PAD : 0;
      add_piece (strip, layout, -1, column->right ? x + width - layout_width (layout) - air : x + air, y + air / 2);
      piece = &g_array_index (strip->pieces, Piece, strip->pieces->len - 1);
      piece->boxed = cell->boxed;
      piece->box = cell->box;
      piece->width = layout_width (layout);
      piece->height = layout_height (layout);
      y += piece->height + air;
    }
  return y;
}

void
hs_paper_flow_row (HsPaper *paper, const HsColumn *columns, guint n_columns, double arrow)
{
  Strip *strip = add_strip (paper, STRIP_PIECES, 0, "P");

  strip->arrow = arrow;
  for (guint i = 0; i < n_columns; i++)
    strip->height = MAX (strip->height, fill_column (paper, strip, &columns[i]));
  strip->height += PAD;
}

void
hs_paper_flow_tag (HsPaper *paper, const char *plate, const char *beside, const char *under, const char *number)
{
  double left = STRING_X + 22;
  double width = line_width (paper) - left - 14;
  g_autoptr (PangoLayout) big = make_layout (paper, plate, HS_TYPE_HEAD, width);
  g_autoptr (PangoLayout) right = make_layout (paper, number, HS_TYPE_TITLE, width);
  g_autoptr (PangoLayout) middle = make_layout (paper, beside, HS_TYPE_STRONG, width);
  g_autoptr (PangoLayout) low = make_layout (paper, under, HS_TYPE_BODY, width);
  Strip *strip = add_strip (paper, STRIP_TAG, 0, "P");
  double y = 22;

  add_piece (strip, big, -1, left, y);
  add_piece (strip, right, -1, line_width (paper) - 14 - layout_width (right), y + 5);
  y += layout_height (big) + 2;
  add_piece (strip, middle, -1, left, y);
  y += layout_height (middle) + 2;
  add_piece (strip, low, -1, left, y);
  strip->height = y + layout_height (low) + 12;
}

static double
body_height (const HsPaper *paper, gboolean first)
{
  return paper->height - TOP - BOTTOM - (first ? 0 : HEADER);
}

/* The strip behind the last one that must stand on the same page as this one, and their height. */
static guint
find_group_end (const HsPaper *paper, guint at, double *ret_height)
{
  double height = 0;

  for (; at < paper->strips->len; at++)
    {
      const Strip *strip = g_ptr_array_index (paper->strips, at);

      height += strip->height;
      if (!strip->with_next)
        {
          at++;
          break;
        }
    }
  *ret_height = height;
  return at;
}

void
hs_paper_flow_end (HsPaper *paper)
{
  double left = body_height (paper, TRUE);
  guint first = 0;

  g_array_append_val (paper->breaks, first);
  for (guint i = 0; i < paper->strips->len;)
    {
      double height;
      guint end = find_group_end (paper, i, &height);

      /* What fits on no page is broken where it can be. */
      if (height > body_height (paper, FALSE))
        {
          end = i + 1;
          height = ((const Strip *) g_ptr_array_index (paper->strips, i))->height;
        }
      if (height > left && i > g_array_index (paper->breaks, guint, paper->breaks->len - 1))
        {
          g_array_append_val (paper->breaks, i);
          left = body_height (paper, FALSE);
        }
      left -= height;
      i = end;
    }
}

guint
hs_paper_get_n_pages (const HsPaper *paper)
{
  return paper->breaks->len;
}

void
hs_paper_get_size (const HsPaper *paper, double *ret_width, double *ret_height)
{
  *ret_width = paper->width;
  *ret_height = paper->height;
}

const char *
hs_paper_get_title (const HsPaper *paper)
{
  return paper->title;
}

/* Drawing -----------------------------------------------------------------------------------------------------------*/

static void
paint_tag (cairo_t *cr, double width, double height)
{
  double top = 10;

  cairo_save (cr);
  cairo_set_line_width (cr, 1.5);
  cairo_move_to (cr, CUT, top);
  cairo_line_to (cr, width, top);
  cairo_line_to (cr, width, height);
  cairo_line_to (cr, CUT, height);
  cairo_line_to (cr, 0, height - CUT);
  cairo_line_to (cr, 0, top + CUT);
  cairo_close_path (cr);
  cairo_stroke (cr);
  /* The string through the eyelet. */
  cairo_arc (cr, STRING_X, top + (height - top) / 2, 5.5, 0, 2 * G_PI);
  cairo_stroke (cr);
  cairo_set_line_width (cr, 2);
  cairo_move_to (cr, STRING_X, top + (height - top) / 2);
  cairo_curve_to (cr, STRING_X + 10, top + 10, STRING_X - 12, top - 8, STRING_X + 2, -TOP);
  cairo_stroke (cr);
  cairo_restore (cr);
}

static void
paint_arrow (cairo_t *cr, double x, double y)
{
  cairo_save (cr);
  cairo_set_line_width (cr, 2);
  cairo_move_to (cr, x, y);
  cairo_line_to (cr, x + 22, y);
  cairo_stroke (cr);
  cairo_move_to (cr, x + 28, y);
  cairo_line_to (cr, x + 19, y - 5);
  cairo_line_to (cr, x + 19, y + 5);
  cairo_close_path (cr);
  cairo_fill (cr);
  cairo_restore (cr);
}

static void
paint_piece (cairo_t *cr, const Piece *piece)
{
  cairo_move_to (cr, piece->x, piece->y);
  if (piece->line >= 0)
    pango_cairo_show_layout_line (cr, pango_layout_get_line_readonly (piece->layout, piece->line));
  else
    pango_cairo_show_layout (cr, piece->layout);
  if (piece->boxed)
    hs_box_paint (cr, piece->box, piece->x - PAD, piece->y - PAD / 2, piece->width + 2 * PAD, piece->height + PAD);
}

static void
paint_strip (cairo_t *cr, const HsPaper *paper, const Strip *strip)
{
  if (strip->kind == STRIP_RULE)
    {
      cairo_set_line_width (cr, 0.5);
      cairo_move_to (cr, 0, strip->height / 2);
      cairo_line_to (cr, line_width (paper), strip->height / 2);
      cairo_stroke (cr);
    }
  if (strip->kind == STRIP_TAG)
    paint_tag (cr, line_width (paper), strip->height);
  if (strip->arrow >= 0)
    paint_arrow (cr, strip->arrow * line_width (paper), 10);
  if (strip->pieces->len == 0)
    return;
  cairo_tag_begin (cr, strip->tag, NULL);
  for (guint i = 0; i < strip->pieces->len; i++)
    paint_piece (cr, &g_array_index (strip->pieces, Piece, i));
  cairo_tag_end (cr, strip->tag);
}

static void
paint_small (cairo_t *cr, const HsPaper *paper, const char *text, double y, gboolean right)
{
  g_autoptr (PangoLayout) layout = make_layout (paper, text, HS_TYPE_SMALL, line_width (paper));

  pango_layout_set_height (layout, -1);
  pango_layout_set_ellipsize (layout, PANGO_ELLIPSIZE_END);
  cairo_move_to (cr, right ? paper->width - SIDE - layout_width (layout) : SIDE, y);
  pango_cairo_show_layout (cr, layout);
}

static void
paint_margins (cairo_t *cr, const HsPaper *paper, guint nth)
{
  g_autofree char *page = g_strdup_printf (paper->tongue.gettext ("Page %u of %u"), nth + 1, paper->breaks->len);
  double foot = paper->height - BOTTOM + 22;

  paint_small (cr, paper, page, foot, TRUE);
  paint_small (cr, paper, paper->author, foot, FALSE);
  if (nth == 0)
    return;
  paint_small (cr, paper, paper->title, TOP - 6, FALSE);
  cairo_set_line_width (cr, 0.5);
  cairo_move_to (cr, SIDE, TOP + 10);
  cairo_line_to (cr, paper->width - SIDE, TOP + 10);
  cairo_stroke (cr);
}

void
hs_paper_draw_page (const HsPaper *paper, cairo_t *cr, guint nth)
{
  guint from = g_array_index (paper->breaks, guint, nth);
  guint to = nth + 1 < paper->breaks->len ? g_array_index (paper->breaks, guint, nth + 1) : paper->strips->len;
  double y = TOP + (nth > 0 ? HEADER : 0);

  cairo_save (cr);
  cairo_set_source_rgb (cr, INK);
  paint_margins (cr, paper, nth);
  for (guint i = from; i < to; i++)
    {
      const Strip *strip = g_ptr_array_index (paper->strips, i);

      cairo_save (cr);
      cairo_translate (cr, SIDE, y);
      paint_strip (cr, paper, strip);
      cairo_restore (cr);
      y += strip->height;
    }
  cairo_restore (cr);
}

static cairo_status_t
take_bytes (gpointer closure, const unsigned char *data, unsigned int length)
{
  g_byte_array_append (closure, data, length);
  return CAIRO_STATUS_SUCCESS;
}

static void
put_metadata (cairo_surface_t *surface, const HsPaper *paper, const char *made_at)
{
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_TITLE, paper->title);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_AUTHOR, paper->author);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_SUBJECT, paper->subject);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_CREATOR, "Halfshaft " HS_VERSION);
  if (made_at != NULL)
    cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_CREATE_DATE, made_at);
}

GBytes *
hs_paper_dup_pdf (const HsPaper *paper, const char *made_at, GError **error)
{
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  cairo_surface_t *surface
      = cairo_pdf_surface_create_for_stream (take_bytes, bytes, paper->width, paper->height);
  cairo_t *cr = cairo_create (surface);
  cairo_status_t status;

  put_metadata (surface, paper, made_at);
  for (guint i = 0; i < paper->breaks->len; i++)
    {
      hs_paper_draw_page (paper, cr, i);
      cairo_show_page (cr);
    }
  status = cairo_status (cr);
  cairo_destroy (cr);
  cairo_surface_finish (surface);
  if (status == CAIRO_STATUS_SUCCESS)
    status = cairo_surface_status (surface);
  cairo_surface_destroy (surface);
  if (status == CAIRO_STATUS_SUCCESS)
    return g_byte_array_free_to_bytes (g_steal_pointer (&bytes));
  g_set_error (error, HS_PAPER_ERROR, HS_PAPER_ERROR_FAILED, "The page could not be drawn: %s.",
               cairo_status_to_string (status));
  return NULL;
}
