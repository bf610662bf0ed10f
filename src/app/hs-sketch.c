// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The area sketch beside the list of the day.
 *
 * Use it when positions are not worth a map: minutes from the owner's own trips make the layout. The list says all of
 * it as text; the sketch's name lists the legs. It refuses to be to scale and says so. */

#include "hs-sketch.h"

#include <glib/gi18n.h>
#include <math.h>

#include "hs-ink.h"
#include "hs-sketch-layout.h"

#define RING_PX 36
#define APART_PX 104
/* It lies beside a list that scrolls and must not push it off the screen. */
#define LEAST_HEIGHT_PX 120

typedef struct
{
  char *name;
  HsSketchSignal signal;
  gboolean base;
  gboolean placed;
  double x;
  double y;
  GString *stops;
} Place;

typedef struct
{
  guint from;
  guint to;
  int minutes;
} Leg;

typedef struct
{
  guint from;
  guint to;
  double minutes;
} Known;

struct _HsSketch
{
  GtkWidget parent_instance;
  GPtrArray *places;
  GArray *legs;
  GArray *minutes;
  double *x;
  double *y;
  HsSketchBox *boxes; /* of the minutes, one a leg; made when it is drawn */
  int laid_width;
  int laid_height;
};

G_DEFINE_FINAL_TYPE (HsSketch, hs_sketch, GTK_TYPE_WIDGET)

static void
free_place (gpointer data)
{
  Place *place = data;

  g_free (place->name);
  g_string_free (place->stops, TRUE);
  g_free (place);
}

static Place *
place_at (HsSketch *self,
          guint     index)
{
  return g_ptr_array_index (self->places, index);
}

static int
find_base (HsSketch *self)
{
  for (guint i = 0; i < self->places->len; i++)
    if (place_at (self, i)->base)
      return (int) i;
  return -1;
}

static gboolean
all_placed (HsSketch *self)
{
  for (guint i = 0; i < self->places->len; i++)
    if (!place_at (self, i)->placed)
      return FALSE;
  return TRUE;
}

static double *
make_matrix (HsSketch *self)
{
  guint n = self->places->len;
  double *matrix = g_new (double, MAX (1, n * n));

  for (guint i = 0; i < n * n; i++)
    matrix[i] = i % (n + 1) == 0 ? 0 : -1;
  for (guint i = 0; i < self->minutes->len; i++)
    {
      const Known *known = &g_array_index (self->minutes, Known, i);

      if (known->from < n && known->to < n)
        matrix[known->from * n + known->to] = known->minutes;
    }
  return matrix;
}

static void
forget_layout (HsSketch *self)
{
  g_clear_pointer (&self->x, g_free);
  g_clear_pointer (&self->y, g_free);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
lay_out (HsSketch *self,
         int       width,
         int       height,
         double    u)
{
  guint n = self->places->len;
  double side = (RING_PX + 26) * u, top = (RING_PX + 24) * u, bottom = (RING_PX + 62) * u;
  g_autofree double *matrix = NULL;

  if (self->x != NULL && self->laid_width == width && self->laid_height == height)
    return;
  forget_layout (self);
  self->x = g_new (double, MAX (1, n));
  self->y = g_new (double, MAX (1, n));
  self->laid_width = width;
  self->laid_height = height;
  matrix = make_matrix (self);
  if (all_placed (self))
    for (guint i = 0; i < n; i++)
      {
        self->x[i] = place_at (self, i)->x;
        self->y[i] = place_at (self, i)->y;
      }
  else
    hs_sketch_lay_out (n, matrix, find_base (self), self->x, self->y);
  hs_sketch_fit (n, self->x, self->y, MAX (1, width - 2 * side), MAX (1, height - top - bottom), APART_PX * u);
  for (guint i = 0; i < n; i++)
    {
      self->x[i] += side;
      self->y[i] += top;
    }
}

static void
draw_ring (HsSketch    *self,
           cairo_t     *cr,
           const HsInk *ink,
           guint        index,
           double       u)
{
  static const double dashes[] = { 5, 4 };
  const Place *place = place_at (self, index);
  double x = self->x[index], y = self->y[index], r = RING_PX * u;

  if (place->base)
    return;
  cairo_save (cr);
  cairo_arc (cr, x, y, r, 0, 2 * G_PI);
  if (place->signal == HS_SKETCH_SIGNAL_NONE)
    {
      cairo_save (cr);
      cairo_clip_preserve (cr);
      cairo_new_path (cr);
      hs_ink_dots (cr, &ink->ink, &GRAPHENE_RECT_INIT (x - r, y - r, 2 * r, 2 * r), 8 * u);
      cairo_restore (cr);
      cairo_arc (cr, x, y, r, 0, 2 * G_PI);
    }
  if (place->signal == HS_SKETCH_SIGNAL_PATCHY)
    cairo_set_dash (cr, dashes, 2, 0);
  gdk_cairo_set_source_rgba (cr, &ink->edge);
  cairo_set_line_width (cr, 1.5);
  cairo_stroke (cr);
  cairo_restore (cr);
}

static void
draw_base (HsSketch    *self,
           cairo_t     *cr,
           const HsInk *ink,
           guint        index,
           double       u)
{
  double x = self->x[index], y = self->y[index];

  cairo_move_to (cr, x - 17 * u, y - 3 * u);
  cairo_line_to (cr, x, y - 16 * u);
  cairo_line_to (cr, x + 17 * u, y - 3 * u);
  cairo_line_to (cr, x + 17 * u, y + 16 * u);
  cairo_line_to (cr, x - 17 * u, y + 16 * u);
  cairo_close_path (cr);
  gdk_cairo_set_source_rgba (cr, &ink->ink);
  cairo_fill (cr);
}

static double
half_box (HsSketch *self,
          guint     index,
          double    u)
{
  const Place *place = place_at (self, index);

  if (place->base)
    return 17 * u;
  return MAX (16 * u, hs_ink_width (GTK_WIDGET (self), place->stops->str, 1.3, 800) / 2.0 + 9 * u);
}

/* How many points of the day's legs run through a rectangle: a name stands where fewest do. */
static guint
count_crossings (HsSketch              *self,
                 const graphene_rect_t *area)
{
  guint crossings = 0;

  for (guint i = 0; i < self->legs->len; i++)
    for (double t = 0; t <= 1; t += 0.05)
      {
        const Leg *leg = &g_array_index (self->legs, Leg, i);
        graphene_point_t point = GRAPHENE_POINT_INIT (self->x[leg->from] * (1 - t) + self->x[leg->to] * t,
                                                      self->y[leg->from] * (1 - t) + self->y[leg->to] * t);

        crossings += graphene_rect_contains_point (area, &point);
      }
  for (guint i = 0; i < self->legs->len; i++)
    {
      const HsSketchBox *box = &self->boxes[i];
      graphene_rect_t minutes = GRAPHENE_RECT_INIT (box->x - box->half_width, box->y - box->half_height,
                                                    2 * box->half_width, 2 * box->half_height);

      if (graphene_rect_intersection (area, &minutes, NULL))
        crossings += 6;
    }
  for (guint i = 0; i < self->places->len; i++)
    {
      graphene_rect_t ring = GRAPHENE_RECT_INIT (self->x[i] - RING_PX + 4, self->y[i] - RING_PX + 4, 2 * RING_PX - 8,
                                                 2 * RING_PX - 8);

      if (graphene_rect_intersection (area, &ring, NULL))
        crossings += 3;
    }
  return crossings;
}

/* Ten places for a name: below or above its ring, in the middle, to one side, or well to one side. */
static void
choose_name_place (HsSketch         *self,
                   guint             index,
                   int               name_width,
                   double            u,
                   graphene_point_t *ret_middle)
{
  const Place *place = place_at (self, index);
  gboolean two_lines = place->signal != HS_SKETCH_SIGNAL_GOOD && !place->base;
  double width = gtk_widget_get_width (GTK_WIDGET (self)), half = name_width / 2.0 + 4;
  double below = self->y[index] + (place->base ? 30 : RING_PX + 13) * u;
  double above = self->y[index] - (place->base ? 28 : RING_PX + 12) * u - (two_lines ? 16 * u : 0);
  guint least = G_MAXUINT;

  for (guint i = 0; i < 10; i++)
    {
      const double asides[] = { 0, 14 * u - half, half - 14 * u, -half - 18 * u, half + 18 * u };
      double y = i % 2 == 0 ? below : above, aside = asides[i / 2];
      double x = CLAMP (self->x[index] + aside, half, MAX (half, width - half));
      graphene_rect_t area = GRAPHENE_RECT_INIT (x - half, y - 10 * u, 2 * half, (two_lines ? 36 : 20) * u);
      guint crossings = y - 10 * u < 0 ? G_MAXUINT - 1 : 4 * count_crossings (self, &area) + i;

      if (crossings >= least)
        continue;
      least = crossings;
      *ret_middle = GRAPHENE_POINT_INIT (x, y);
    }
}

static void
draw_place (HsSketch    *self,
            cairo_t     *cr,
            const HsInk *ink,
            guint        index,
            double       u)
{
  static const char *const words[] = { NULL, N_("patchy"), N_("no signal") };
  GtkWidget *widget = GTK_WIDGET (self);
  const Place *place = place_at (self, index);
  double x = self->x[index], y = self->y[index], half = half_box (self, index, u);
  int name_width = hs_ink_width (widget, place->name, 1.02, 700);
  graphene_point_t name = GRAPHENE_POINT_INIT (x, y);

  choose_name_place (self, index, name_width, u, &name);
  if (place->base)
    draw_base (self, cr, ink, index, u);
  if (place->stops->len > 0 && !place->base)
    {
      hs_ink_box (cr, &GRAPHENE_RECT_INIT (x - half, y - 15 * u, 2 * half, 30 * u), &ink->paper, &ink->ink, 2.5);
      hs_ink_label (widget, cr, place->stops->str, 1.3, 800, &ink->ink, x, y, 0.5);
    }
  else if (place->stops->len > 0)
    hs_ink_label (widget, cr, place->stops->str, 1.1, 800, &ink->paper, x, y + 4 * u, 0.5);
  hs_ink_box (cr, &GRAPHENE_RECT_INIT (name.x - name_width / 2.0 - 2, name.y - 9 * u, name_width + 4, 18 * u),
              &ink->well, NULL, 0);
  hs_ink_label (widget, cr, place->name, 1.02, 700, &ink->ink, name.x, name.y, 0.5);
  if (words[place->signal] != NULL && !place->base)
    hs_ink_label (widget, cr, _(words[place->signal]), 0.95, 400, &ink->ink2, name.x, name.y + 16 * u, 0.5);
}

/* How far it is from the middle of a box to its border in the direction @dx, @dy. */
static double
edge_of_box (double half_width,
             double dx,
             double dy,
             double u)
{
  return MIN (half_width / MAX (fabs (dx), 1e-3), 15 * u / MAX (fabs (dy), 1e-3));
}

static void
leg_line (HsSketch  *self,
          const Leg *leg,
          double     u,
          double    *ret_line)
{
  double x1 = self->x[leg->from], y1 = self->y[leg->from], x2 = self->x[leg->to], y2 = self->y[leg->to];
  double length = MAX (1, hypot (x2 - x1, y2 - y1)), dx = (x2 - x1) / length, dy = (y2 - y1) / length;
  double start = edge_of_box (half_box (self, leg->from, u), dx, dy, u);
  double end = edge_of_box (half_box (self, leg->to, u), dx, dy, u);
  double aside = 0;

  for (guint i = 0; i < self->legs->len; i++)
    {
      const Leg *other = &g_array_index (self->legs, Leg, i);

      if (other->from == leg->to && other->to == leg->from)
        aside = 7 * u;
    }
  start = MIN (start + 3 * u, length * 0.35);
  end = MIN (end + 4 * u, length * 0.35);
  ret_line[0] = x1 + dx * start - dy * aside;
  ret_line[1] = y1 + dy * start + dx * aside;
  ret_line[2] = x2 - dx * end - dy * aside;
  ret_line[3] = y2 - dy * end + dx * aside;
}

static void
draw_arrow (HsSketch    *self,
            cairo_t     *cr,
            const HsInk *ink,
            const Leg   *leg,
            double       u)
{
  double line[4], angle, size = 14 * u;

  leg_line (self, leg, u, line);
  angle = atan2 (line[3] - line[1], line[2] - line[0]);
  hs_ink_line (cr, &ink->copper, 3.5 * u, line[0], line[1], line[2] - cos (angle) * size * 0.7,
               line[3] - sin (angle) * size * 0.7);
  cairo_move_to (cr, line[2], line[3]);
  cairo_line_to (cr, line[2] - size * cos (angle - 0.45), line[3] - size * sin (angle - 0.45));
  cairo_line_to (cr, line[2] - size * cos (angle + 0.45), line[3] - size * sin (angle + 0.45));
  cairo_close_path (cr);
  gdk_cairo_set_source_rgba (cr, &ink->copper);
  cairo_fill (cr);
}

/* Before anything is drawn: where the minutes stand. */
static void
place_minutes (HsSketch *self,
               double    u)
{
  guint n = self->legs->len, n_places = self->places->len;
  g_autofree double *lines = g_new (double, 4 * MAX (1, n));
  g_autofree HsSketchBox *places = g_new (HsSketchBox, MAX (1, n_places));

  g_free (self->boxes);
  self->boxes = g_new0 (HsSketchBox, MAX (1, n));
  for (guint i = 0; i < n_places; i++)
    places[i] = (HsSketchBox) { self->x[i], self->y[i], half_box (self, i, u) + 3 * u, 18 * u };
  for (guint i = 0; i < n; i++)
    {
      const Leg *leg = &g_array_index (self->legs, Leg, i);
      g_autofree char *text = g_strdup_printf ("%d", leg->minutes);

      leg_line (self, leg, u, &lines[4 * i]);
      self->boxes[i].half_width = hs_ink_width (GTK_WIDGET (self), text, 1.02, 700) / 2.0 + 8 * u;
      self->boxes[i].half_height = 11 * u;
    }
  hs_sketch_place_minutes (n, lines, n_places, places, self->boxes);
}

static void
draw_minutes (HsSketch    *self,
              cairo_t     *cr,
              const HsInk *ink,
              guint        index)
{
  const HsSketchBox *box = &self->boxes[index];
  g_autofree char *text = g_strdup_printf ("%d", g_array_index (self->legs, Leg, index).minutes);

  hs_ink_box (cr, &GRAPHENE_RECT_INIT (round (box->x - box->half_width), round (box->y - box->half_height),
                                       round (2 * box->half_width), round (2 * box->half_height)),
              &ink->well, &ink->edge, 1.25);
  hs_ink_label (GTK_WIDGET (self), cr, text, 1.02, 700, &ink->ink, box->x, box->y, 0.5);
}

static void
hs_sketch_snapshot (GtkWidget   *widget,
                    GtkSnapshot *snapshot)
{
  HsSketch *self = HS_SKETCH (widget);
  g_autoptr (HsCairo) cr = hs_ink_cairo (snapshot, widget, 0);
  int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  double u = hs_ink_unit (widget);
  HsInk ink;

  hs_ink_read (widget, &ink);
  hs_ink_box (cr, &GRAPHENE_RECT_INIT (0, 0, width, height), &ink.well, NULL, 0);
  if (self->places->len == 0)
    return;
  lay_out (self, width, height, u);
  place_minutes (self, u);
  for (guint i = 0; i < self->places->len; i++)
    draw_ring (self, cr, &ink, i, u);
  for (guint i = 0; i < self->legs->len; i++)
    draw_arrow (self, cr, &ink, &g_array_index (self->legs, Leg, i), u);
  for (guint i = 0; i < self->legs->len; i++)
    draw_minutes (self, cr, &ink, i);
  for (guint i = 0; i < self->places->len; i++)
    draw_place (self, cr, &ink, i, u);
  hs_ink_label (widget, cr, _("Sketch from own trips: minutes, not to scale"), 0.95, 400, &ink.ink2, width - 12 * u,
                height - 14 * u, 1);
}

static void
hs_sketch_measure (GtkWidget      *widget,
                   GtkOrientation  orientation,
                   int             for_size,
                   int            *minimum,
                   int            *natural,
                   int            *minimum_baseline,
                   int            *natural_baseline)
{
  double u = hs_ink_unit (widget);

  *minimum = (int) (orientation == GTK_ORIENTATION_HORIZONTAL ? 300 * u : LEAST_HEIGHT_PX * u);
  *natural = (int) (orientation == GTK_ORIENTATION_HORIZONTAL ? 430 * u : 376 * u);
}

static void
hs_sketch_finalize (GObject *object)
{
  HsSketch *self = HS_SKETCH (object);

  g_ptr_array_unref (self->places);
  g_array_unref (self->legs);
  g_array_unref (self->minutes);
  g_free (self->x);
  g_free (self->y);
  g_free (self->boxes);
  G_OBJECT_CLASS (hs_sketch_parent_class)->finalize (object);
}

static void
hs_sketch_class_init (HsSketchClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = hs_sketch_finalize;
  widget_class->snapshot = hs_sketch_snapshot;
  widget_class->measure = hs_sketch_measure;
  gtk_widget_class_set_css_name (widget_class, "sketch");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
update_name (HsSketch *self)
{
  g_autoptr (GString) name = g_string_new (_("Sketch of the areas"));

  for (guint i = 0; i < self->legs->len; i++)
    {
      const Leg *leg = &g_array_index (self->legs, Leg, i);

      /* Translators: one drive: from, to, minutes. */
      g_string_append_printf (name, _(", %s to %s %d min"), place_at (self, leg->from)->name,
                              place_at (self, leg->to)->name, leg->minutes);
    }
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, name->str, -1);
}

static void
hs_sketch_init (HsSketch *self)
{
  self->places = g_ptr_array_new_with_free_func (free_place);
  self->legs = g_array_new (FALSE, FALSE, sizeof (Leg));
  self->minutes = g_array_new (FALSE, FALSE, sizeof (Known));
  update_name (self);
}

GtkWidget *
hs_sketch_new (void)
{
  return g_object_new (HS_TYPE_SKETCH, NULL);
}

void
hs_sketch_clear (HsSketch *self)
{
  g_return_if_fail (HS_IS_SKETCH (self));

  g_ptr_array_set_size (self->places, 0);
  g_array_set_size (self->legs, 0);
  g_array_set_size (self->minutes, 0);
  forget_layout (self);
  update_name (self);
}

guint
hs_sketch_add_place (HsSketch       *self,
                     const char     *name,
                     HsSketchSignal  signal,
                     gboolean        base)
{
  Place *place;

  g_return_val_if_fail (HS_IS_SKETCH (self), 0);

  place = g_new0 (Place, 1);
  place->name = g_strdup (name);
  place->signal = signal;
  place->base = base;
  place->stops = g_string_new (NULL);
  g_ptr_array_add (self->places, place);
  forget_layout (self);
  return self->places->len - 1;
}

void
hs_sketch_add_stop (HsSketch *self,
                    guint     place,
                    guint     number)
{
  GString *stops;

  g_return_if_fail (HS_IS_SKETCH (self));
  g_return_if_fail (place < self->places->len);

  stops = place_at (self, place)->stops;
  g_string_append_printf (stops, "%s%u", stops->len > 0 ? " " : "", number);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
hs_sketch_set_minutes (HsSketch *self,
                       guint     from,
                       guint     to,
                       double    minutes)
{
  Known known = { from, to, minutes };

  g_return_if_fail (HS_IS_SKETCH (self));

  g_array_append_val (self->minutes, known);
  forget_layout (self);
}

void
hs_sketch_add_leg (HsSketch *self,
                   guint     from,
                   guint     to,
                   int       minutes)
{
  Leg leg = { from, to, minutes };

  g_return_if_fail (HS_IS_SKETCH (self));
  g_return_if_fail (from < self->places->len && to < self->places->len);

  if (from == to)
    return;
  g_array_append_val (self->legs, leg);
  hs_sketch_set_minutes (self, from, to, minutes);
  update_name (self);
}

void
hs_sketch_set_position (HsSketch *self,
                        guint     place,
                        double    x,
                        double    y)
{
  g_return_if_fail (HS_IS_SKETCH (self));
  g_return_if_fail (place < self->places->len);

  place_at (self, place)->placed = TRUE;
  place_at (self, place)->x = x;
  place_at (self, place)->y = y;
  forget_layout (self);
}
