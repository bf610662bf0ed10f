// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A stage's wire with its tags.
 *
 * Use one per stage inside a board (hs-tag-board.c). Rows are as high as their highest tag. It draws the wire under
 * and the strings over the tags; it refuses to scroll or to hide a tag. */

#include "hs-wire.h"

#include "hs-glyph.h"
#include "hs-ink.h"
#include "hs-tag.h"

#define LARGE_TEXT 1.5 /* times the usual size */
#define HEADING_PX 34
#define FIRST_DROP_PX 26
#define NEXT_GAP_PX 7
#define NEXT_DROP_PX 24
#define RING_PX 9

struct _HsWire
{
  GtkWidget parent_instance;
  GtkWidget *heading;
  GtkWidget *glyph;
  GtkWidget *title;
  GtkWidget *count;
  GtkWidget *note;
  GPtrArray *tags;
  GArray *rows;
};

G_DEFINE_FINAL_TYPE (HsWire, hs_wire, GTK_TYPE_WIDGET)

static guint
columns_in (HsWire *self,
            int     width)
{
  double u = hs_ink_unit (GTK_WIDGET (self));
  int gap = HS_WIRE_GAP_PX, least = (int) (HS_WIRE_COLUMN_PX * u);
  guint columns = (guint) MAX (1, (width + gap) / (least + gap));

  return MIN (columns, 3);
}

static int
heading_height (HsWire *self)
{
  int wanted;

  gtk_widget_measure (self->heading, GTK_ORIENTATION_VERTICAL, -1, NULL, &wanted, NULL, NULL);
  return MAX (wanted, (int) (HEADING_PX * hs_ink_unit (GTK_WIDGET (self))) - 3);
}

static int
column_width (int   width,
              guint columns)
{
  return (width - (int) (columns - 1) * HS_WIRE_GAP_PX) / (int) columns;
}

static int
row_height (HsWire *self,
            guint   first,
            guint   columns,
            int     width)
{
  int height = 0;

  for (guint i = first; i < first + columns && i < self->tags->len; i++)
    {
      int wanted;

      gtk_widget_measure (g_ptr_array_index (self->tags, i), GTK_ORIENTATION_VERTICAL, width, NULL, &wanted, NULL,
                          NULL);
      height = MAX (height, wanted);
    }
  return height;
}

static int
height_for (HsWire *self,
            int     width)
{
  guint columns = columns_in (self, width);
  int height = heading_height (self) + 3 + FIRST_DROP_PX;

  for (guint i = 0; i < self->tags->len; i += columns)
    height += row_height (self, i, columns, column_width (width, columns)) + (i > 0 ? NEXT_GAP_PX + NEXT_DROP_PX : 0);
  return height;
}

static int
least_width (HsWire *self)
{
  int least, tag;

  gtk_widget_measure (self->heading, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  for (guint i = 0; i < self->tags->len; i++)
    {
      gtk_widget_measure (g_ptr_array_index (self->tags, i), GTK_ORIENTATION_HORIZONTAL, -1, &tag, NULL, NULL, NULL);
      least = MAX (least, tag);
    }
  return least;
}

static void
hs_wire_measure (GtkWidget      *widget,
                 GtkOrientation  orientation,
                 int             for_size,
                 int            *minimum,
                 int            *natural,
                 int            *minimum_baseline,
                 int            *natural_baseline)
{
  HsWire *self = HS_WIRE (widget);

  if (orientation == GTK_ORIENTATION_VERTICAL)
    *minimum = *natural = height_for (self, for_size > 0 ? for_size : (int) (400 * hs_ink_unit (widget)));
  else
    {
      *minimum = least_width (self);
      *natural = MAX (*minimum, (int) (400 * hs_ink_unit (widget)));
    }
}

static void
hs_wire_size_allocate (GtkWidget *widget,
                       int        width,
                       int        height,
                       int        baseline)
{
  HsWire *self = HS_WIRE (widget);
  guint columns = columns_in (self, width);
  int cell = column_width (width, columns), y = heading_height (self);

  gtk_widget_allocate (self->heading, width, y, -1, NULL);
  g_array_set_size (self->rows, 0);
  for (guint i = 0; i < self->tags->len; i += columns)
    {
      int row = row_height (self, i, columns, cell), wire = i == 0 ? y + 3 : y + NEXT_GAP_PX;

      g_array_append_val (self->rows, wire);
      y = wire + (i == 0 ? FIRST_DROP_PX : NEXT_DROP_PX);
      if (i + columns >= self->tags->len)
        row = MAX (row, height - y);
      for (guint column = 0; column < columns && i + column < self->tags->len; column++)
        {
          graphene_point_t place = GRAPHENE_POINT_INIT ((float) column * (cell + HS_WIRE_GAP_PX), y);

          gtk_widget_allocate (g_ptr_array_index (self->tags, i + column), cell, row, -1,
                               gsk_transform_translate (NULL, &place));
        }
      y += row;
    }
}

static void
draw_string (HsWire      *self,
             cairo_t     *cr,
             const HsInk *ink,
             GtkWidget   *tag,
             double       wire)
{
  graphene_point_t eyelet, end;

  if (!HS_IS_TAG (tag))
    return;
  hs_tag_get_eyelet (HS_TAG (tag), &eyelet);
  if (!gtk_widget_compute_point (tag, GTK_WIDGET (self), &eyelet, &end))
    return;
  cairo_move_to (cr, end.x - 1, wire);
  cairo_curve_to (cr, end.x - 4, wire + 14, end.x + 5, wire + 22, end.x, end.y - 3);
  gdk_cairo_set_source_rgba (cr, &ink->copper);
  cairo_set_line_width (cr, 2.5);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  cairo_stroke (cr);
}

static void
draw_wires (HsWire      *self,
            cairo_t     *cr,
            const HsInk *ink)
{
  int width = gtk_widget_get_width (GTK_WIDGET (self));

  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  for (guint i = 0; i < self->rows->len; i++)
    {
      double y = g_array_index (self->rows, int, i);

      hs_ink_line (cr, &ink->copper, 4, i == 0 ? 2 * RING_PX + 2 : 2, y, width - 2, y);
      if (i > 0)
        continue;
      cairo_arc (cr, RING_PX + 1, y + 3, RING_PX, 0, 2 * G_PI);
      gdk_cairo_set_source_rgba (cr, &ink->copper);
      cairo_set_line_width (cr, 3);
      cairo_stroke (cr);
    }
}

static void
hs_wire_snapshot (GtkWidget   *widget,
                  GtkSnapshot *snapshot)
{
  HsWire *self = HS_WIRE (widget);
  guint columns = columns_in (self, gtk_widget_get_width (widget));
  g_autoptr (HsCairo) under = hs_ink_cairo (snapshot, widget, 4);
  HsInk ink;

  hs_ink_read (widget, &ink);
  draw_wires (self, under, &ink);
  GTK_WIDGET_CLASS (hs_wire_parent_class)->snapshot (widget, snapshot);
  {
    g_autoptr (HsCairo) over = hs_ink_cairo (snapshot, widget, 4);

    for (guint i = 0; i < self->tags->len && i / columns < self->rows->len; i++)
      draw_string (self, over, &ink, g_ptr_array_index (self->tags, i), g_array_index (self->rows, int, i / columns));
  }
}

static GtkSizeRequestMode
hs_wire_get_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
hs_wire_dispose (GObject *object)
{
  HsWire *self = HS_WIRE (object);

  hs_wire_remove_all (self);
  g_clear_pointer (&self->heading, gtk_widget_unparent);
  G_OBJECT_CLASS (hs_wire_parent_class)->dispose (object);
}

static void
hs_wire_finalize (GObject *object)
{
  HsWire *self = HS_WIRE (object);

  g_ptr_array_unref (self->tags);
  g_array_unref (self->rows);
  G_OBJECT_CLASS (hs_wire_parent_class)->finalize (object);
}

/* Large words stand below each other, without the air that keeps small ones apart. */
static void
stack_heading (HsWire   *self,
               gboolean  stacked)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self->heading),
                                  stacked ? GTK_ORIENTATION_VERTICAL : GTK_ORIENTATION_HORIZONTAL);
  gtk_box_set_spacing (GTK_BOX (self->heading), stacked ? 0 : 9);
  gtk_label_set_xalign (GTK_LABEL (self->count), stacked ? 0 : 0.5f);
  gtk_label_set_xalign (GTK_LABEL (self->note), stacked ? 0 : 1);
}

/* How large the words are is known from here on. */
static void
hs_wire_css_changed (GtkWidget         *widget,
                     GtkCssStyleChange *change)
{
  GTK_WIDGET_CLASS (hs_wire_parent_class)->css_changed (widget, change);
  stack_heading (HS_WIRE (widget), hs_ink_unit (widget) > LARGE_TEXT);
}

static void
hs_wire_class_init (HsWireClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hs_wire_dispose;
  G_OBJECT_CLASS (klass)->finalize = hs_wire_finalize;
  widget_class->css_changed = hs_wire_css_changed;
  widget_class->measure = hs_wire_measure;
  widget_class->size_allocate = hs_wire_size_allocate;
  widget_class->snapshot = hs_wire_snapshot;
  widget_class->get_request_mode = hs_wire_get_request_mode;
  gtk_widget_class_set_css_name (widget_class, "wire");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_LIST);
}

static GtkWidget *
append_label (GtkWidget  *box,
              const char *first_class,
              const char *second_class)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_widget_add_css_class (label, first_class);
  gtk_widget_add_css_class (label, second_class);
  gtk_box_append (GTK_BOX (box), label);
  return label;
}

static void
hs_wire_init (HsWire *self)
{
  GtkWidget *named;

  self->tags = g_ptr_array_new ();
  self->rows = g_array_new (FALSE, FALSE, sizeof (int));
  self->heading = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 9);
  gtk_widget_set_parent (self->heading, GTK_WIDGET (self));
  named = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 9);
  gtk_box_append (GTK_BOX (self->heading), named);
  self->glyph = hs_glyph_new (NULL);
  gtk_box_append (GTK_BOX (named), self->glyph);
  self->title = append_label (named, "hs-title", "hs-heavy");
  self->count = append_label (self->heading, "hs-soft", "numeric");
  self->note = append_label (self->heading, "hs-caption", "hs-strong");
  gtk_widget_set_hexpand (self->note, TRUE);
  gtk_label_set_xalign (GTK_LABEL (self->note), 1);
  gtk_label_set_ellipsize (GTK_LABEL (self->note), PANGO_ELLIPSIZE_START);
}

GtkWidget *
hs_wire_new (void)
{
  return g_object_new (HS_TYPE_WIRE, NULL);
}

void
hs_wire_set_heading (HsWire     *self,
                     const char *stage,
                     const char *title,
                     const char *count,
                     const char *note)
{
  g_autofree char *name = NULL;

  g_return_if_fail (HS_IS_WIRE (self));

  hs_glyph_set_name (HS_GLYPH (self->glyph), stage);
  gtk_label_set_label (GTK_LABEL (self->title), title);
  gtk_label_set_label (GTK_LABEL (self->count), count != NULL ? count : "");
  gtk_label_set_label (GTK_LABEL (self->note), note != NULL ? note : "");
  gtk_widget_set_visible (self->count, count != NULL);
  gtk_widget_set_visible (self->note, note != NULL);
  name = g_strdup_printf ("%s %s", title, count != NULL ? count : "");
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, g_strstrip (name), -1);
}

void
hs_wire_append (HsWire    *self,
                GtkWidget *tag)
{
  g_return_if_fail (HS_IS_WIRE (self));
  g_return_if_fail (GTK_IS_WIDGET (tag));

  g_ptr_array_add (self->tags, tag);
  gtk_widget_set_parent (tag, GTK_WIDGET (self));
}

void
hs_wire_remove_all (HsWire *self)
{
  g_return_if_fail (HS_IS_WIRE (self));

  for (guint i = 0; i < self->tags->len; i++)
    gtk_widget_unparent (g_ptr_array_index (self->tags, i));
  g_ptr_array_set_size (self->tags, 0);
  g_array_set_size (self->rows, 0);
}

guint
hs_wire_get_n_tags (HsWire *self)
{
  g_return_val_if_fail (HS_IS_WIRE (self), 0);

  return self->tags->len;
}

GtkWidget *
hs_wire_get_tag (HsWire *self,
                 guint   index)
{
  g_return_val_if_fail (HS_IS_WIRE (self), NULL);

  return index < self->tags->len ? g_ptr_array_index (self->tags, index) : NULL;
}
