// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* One stop of the day in a list.
 *
 * Use it in a list item factory; it holds nothing but what is shown. The wire runs through the gutters of all rows; the
 * minutes beside it are the drive to the row below them. */

#include "hs-stop-row.h"

#include <glib/gi18n.h>
#include <math.h>

#include "hs-chip.h"
#include "hs-flow-layout.h"
#include "hs-glyph.h"
#include "hs-ink.h"
#include "hs-wide-layout.h"

#define GUTTER_PX 90
#define NARROW_GUTTER_PX 74
#define BOX_PX 30

struct _HsStopRow
{
  GtkWidget parent_instance;
  GtkWidget *wide;
  GtkWidget *slim;
  GtkLabel *time;
  HsGlyph *kind;
  HsPlateChip *plate;
  GtkLabel *name;
  GtkLabel *note;
  GtkLabel *spare;
  GtkLabel *slim_time;
  HsPlateChip *slim_plate;
  GtkLabel *slim_counter;
  HsBracket *window;
  GtkWidget *slim_words;
  GtkLabel *slim_name;
  GtkLabel *slim_spare;
  GtkLabel *slim_note;

  guint number;
  int drive;
  gboolean counter;
  gboolean first;
  gboolean last;
  gboolean chosen;
  gboolean tightest;
  gboolean narrow;
};

G_DEFINE_FINAL_TYPE (HsStopRow, hs_stop_row, GTK_TYPE_WIDGET)

static GtkWidget *
content_of (HsStopRow *self)
{
  return self->narrow ? self->slim : self->wide;
}

static int
gutter_of (HsStopRow *self)
{
  return (int) ((self->narrow ? NARROW_GUTTER_PX : GUTTER_PX) * hs_ink_unit (GTK_WIDGET (self)));
}

static double
box_middle (HsStopRow *self)
{
  return (self->narrow ? 48 : 62) * hs_ink_unit (GTK_WIDGET (self));
}

static void
draw_gutter (HsStopRow   *self,
             cairo_t     *cr,
             const HsInk *ink)
{
  GtkWidget *widget = GTK_WIDGET (self);
  double u = hs_ink_unit (widget), x = box_middle (self), h = gtk_widget_get_height (widget);
  double middle = round (h / 2), half = round (BOX_PX * u / 2);
  g_autofree char *number = g_strdup_printf ("%u", self->number);
  g_autofree char *drive = g_strdup_printf ("%d", self->drive);

  hs_ink_line (cr, &ink->copper, 4, x, self->first ? -6 : 0, x, self->last ? middle : h);
  hs_ink_box (cr, &GRAPHENE_RECT_INIT (x - half, middle - half, 2 * half, 2 * half),
              self->counter ? &ink->ink : &ink->well, &ink->ink, 2);
  hs_ink_label (widget, cr, number, 1.2, 800, self->counter ? &ink->paper : &ink->ink, x, middle, 0.5);
  if (self->drive > 0)
    hs_ink_label (widget, cr, drive, 1.02, 800, &ink->ink, x - (self->narrow ? 13 : 21) * u,
                  self->first ? 11 * u : 0, 1);
}

static void
hs_stop_row_snapshot (GtkWidget   *widget,
                      GtkSnapshot *snapshot)
{
  HsStopRow *self = HS_STOP_ROW (widget);
  g_autoptr (HsCairo) cr = hs_ink_cairo (snapshot, widget, 12);
  int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  HsInk ink;

  hs_ink_read (widget, &ink);
  if (self->chosen)
    {
      hs_ink_box (cr, &GRAPHENE_RECT_INIT (0, 0, width, height), &ink.wash, NULL, 0);
      hs_ink_box (cr, &GRAPHENE_RECT_INIT (0, 0, 5, height), &ink.copper, NULL, 0);
    }
  if (!self->last)
    hs_ink_line (cr, &ink.rule, 1, gutter_of (self), height - 0.5, width, height - 0.5);
  draw_gutter (self, cr, &ink);
  if (self->tightest && !self->narrow)
    {
      PangoLayout *layout = gtk_label_get_layout (self->spare);
      graphene_rect_t area;
      int text_width;

      pango_layout_get_pixel_size (layout, &text_width, NULL);
      if (gtk_widget_compute_bounds (GTK_WIDGET (self->spare), widget, &area))
        {
          area.origin.x += area.size.width - text_width;
          area.size.width = text_width;
          graphene_rect_inset (&area, -5, -2);
          hs_ink_box (cr, &area, NULL, &ink.ink, 1.75);
        }
    }
  gtk_widget_snapshot_child (widget, content_of (self), snapshot);
}

/* Without it the width is not handed to the measuring. */
static GtkSizeRequestMode
hs_stop_row_get_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
hs_stop_row_measure (GtkWidget      *widget,
                     GtkOrientation  orientation,
                     int             for_size,
                     int            *minimum,
                     int            *natural,
                     int            *minimum_baseline,
                     int            *natural_baseline)
{
  HsStopRow *self = HS_STOP_ROW (widget);
  double u = hs_ink_unit (widget);
  int gutter = gutter_of (self), least, wanted;

  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    {
      gtk_widget_measure (content_of (self), orientation, -1, &least, &wanted, NULL, NULL);
      *minimum = least + gutter;
      *natural = wanted + gutter;
      return;
    }
  gtk_widget_measure (content_of (self), orientation, for_size > gutter ? for_size - gutter : -1, &least, &wanted, NULL,
                      NULL);
  *minimum = *natural = MAX (wanted, (int) ((self->narrow ? 62 : 44) * u));
}

static void
hs_stop_row_size_allocate (GtkWidget *widget,
                           int        width,
                           int        height,
                           int        baseline)
{
  HsStopRow *self = HS_STOP_ROW (widget);
  int gutter = gutter_of (self), least;

  gtk_widget_set_child_visible (self->wide, !self->narrow);
  gtk_widget_set_child_visible (self->slim, self->narrow);
  gtk_widget_measure (content_of (self), GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  gtk_widget_allocate (content_of (self), MAX (least, width - gutter), height, -1,
                       gsk_transform_translate (NULL, &GRAPHENE_POINT_INIT (gutter, 0)));
}

static void
hs_stop_row_dispose (GObject *object)
{
  gtk_widget_dispose_template (GTK_WIDGET (object), HS_TYPE_STOP_ROW);
  G_OBJECT_CLASS (hs_stop_row_parent_class)->dispose (object);
}

static void
hs_stop_row_class_init (HsStopRowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hs_stop_row_dispose;
  widget_class->snapshot = hs_stop_row_snapshot;
  widget_class->get_request_mode = hs_stop_row_get_request_mode;
  widget_class->measure = hs_stop_row_measure;
  widget_class->size_allocate = hs_stop_row_size_allocate;
  g_type_ensure (HS_TYPE_FLOW_LAYOUT);
  g_type_ensure (HS_TYPE_GLYPH);
  g_type_ensure (HS_TYPE_WIDE_LAYOUT);
  g_type_ensure (HS_TYPE_PLATE_CHIP);
  g_type_ensure (HS_TYPE_BRACKET);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-stop-row.ui");
  gtk_widget_class_bind_template_child (widget_class, HsStopRow, wide);
  gtk_widget_class_bind_template_child (widget_class, HsStopRow, slim);
  gtk_widget_class_bind_template_child (widget_class, HsStopRow, time);
  gtk_widget_class_bind_template_child (widget_class, HsStopRow, kind);
  gtk_widget_class_bind_template_child (widget_class, HsStopRow, plate);
  gtk_widget_class_bind_template_child (widget_class, HsStopRow, name);
  gtk_widget_class_bind_template_child (widget_class, HsStopRow, note);
  gtk_widget_class_bind_template_child (widget_class, HsStopRow, spare);
  gtk_widget_class_bind_template_child (widget_class, HsStopRow, slim_time);
  gtk_widget_class_bind_template_child (widget_class, HsStopRow, slim_plate);
  gtk_widget_class_bind_template_child (widget_class, HsStopRow, slim_counter);
  gtk_widget_class_bind_template_child (widget_class, HsStopRow, window);
  gtk_widget_class_bind_template_child (widget_class, HsStopRow, slim_name);
  gtk_widget_class_bind_template_child (widget_class, HsStopRow, slim_spare);
  gtk_widget_class_bind_template_child (widget_class, HsStopRow, slim_words);
  gtk_widget_class_bind_template_child (widget_class, HsStopRow, slim_note);
  gtk_widget_class_set_css_name (widget_class, "stoprow");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
hs_stop_row_init (HsStopRow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
hs_stop_row_new (void)
{
  return g_object_new (HS_TYPE_STOP_ROW, NULL);
}

static void
set_text (GtkLabel   *label,
          const char *text)
{
  gtk_label_set_label (label, text != NULL ? text : "");
}

static void
update_name (HsStopRow        *self,
             const HsStopFace *face)
{
  g_autofree char *drive = NULL;
  g_autofree char *spare = NULL;
  g_autofree char *name = NULL;

  if (face->drive > 0)
    drive = g_strdup_printf (g_dngettext (NULL, ", %d minute’s drive", ", %d minutes’ drive", (gulong) face->drive),
                             face->drive);
  if (face->spare != NULL)
    spare = g_strdup_printf (_(", %s minutes spare"), face->spare);
  /* Translators: a stop as a sentence: number, arrival, plate, words or name, note, drive, spare, whether locked. */
  name = g_strdup_printf (_("Stop %u, %s, %s %s, %s%s%s%s"), face->number, face->time != NULL ? face->time : "",
                          face->plate != NULL ? face->plate : "", face->name != NULL ? face->name : "",
                          face->note != NULL ? face->note : "", drive != NULL ? drive : "", spare != NULL ? spare : "",
                          face->locked ? _(", locked") : "");
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
}

static void
fill_slim (HsStopRow        *self,
           const HsStopFace *face)
{
  g_autofree char *spare = face->spare != NULL ? g_strdup_printf (_("%s spare"), face->spare) : NULL;

  set_text (self->slim_time, face->time);
  hs_chip_set_text (HS_CHIP (self->slim_plate), face->plate);
  set_text (self->slim_counter, face->counter ? face->name : NULL);
  hs_chip_set_text (HS_CHIP (self->window), face->window);
  gtk_widget_set_visible (GTK_WIDGET (self->slim_counter), face->counter);
  gtk_widget_set_visible (self->slim_words, !face->counter);
  set_text (self->slim_name, face->name);
  set_text (self->slim_spare, spare);
  gtk_widget_set_visible (GTK_WIDGET (self->slim_note), face->note != NULL && *face->note != '\0');
  set_text (self->slim_note, face->note);
}

void
hs_stop_row_set_face (HsStopRow        *self,
                      const HsStopFace *face)
{
  g_return_if_fail (HS_IS_STOP_ROW (self));
  g_return_if_fail (face != NULL);

  self->number = face->number;
  self->drive = face->drive;
  self->counter = face->counter;
  self->first = face->first;
  self->last = face->last;
  self->chosen = face->chosen;
  self->tightest = face->tightest;
  set_text (self->time, face->time);
  hs_glyph_set_name (self->kind, face->stage != NULL ? face->stage
                                 : face->locked      ? "lock"
                                 : face->counter     ? "parts"
                                                     : "promised");
  hs_chip_set_text (HS_CHIP (self->plate), face->plate);
  set_text (self->name, face->name);
  set_text (self->note, face->note);
  set_text (self->spare, face->spare);
  fill_slim (self, face);
  update_name (self, face);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
hs_stop_row_set_narrow (HsStopRow *self,
                        gboolean   narrow)
{
  g_return_if_fail (HS_IS_STOP_ROW (self));

  if (self->narrow == narrow)
    return;
  self->narrow = narrow;
  gtk_widget_queue_resize (GTK_WIDGET (self));
}
