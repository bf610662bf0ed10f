// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A map of the book's places. Use it to set where something is, or to look at where a day goes; it knows no roads, and
 * two places look as far apart as the crow flies. Everything that a pointer does has a key. */

#include "hs-map-view.h"

#include <glib/gi18n.h>
#include <math.h>

#include "hs-chart.h"
#include "hs-geo.h"
#include "hs-ink.h"
#include "hs-map-draw.h"

#define REACH_PX 12
#define STEP_PX 24
#define LITTLE_PX 2
#define FAR_PX 120
#define MARGIN_PX 64
#define EDGE_PX 24
#define ZOOM_STEP 1.25
#define CLICK_PX 6

/* The middle of the lower 48 states, for a book without any position. */
#define START_LATITUDE 39.8
#define START_LONGITUDE (-98.6)
#define START_METERS 8000

struct _HsMapView
{
  GtkWidget parent_instance;

  HsSnapshot *places;
  double *latitudes; /* of the places, in their order, with room for the pin */
  double *longitudes;
  guint n_places;
  char **legs;

  HsChart chart;
  gboolean fit_waits;
  gboolean has_pin;
  double pin[2];
  double aim[2]; /* the crosshair */
  double pointer[2];
  double dragged[2];
  double pinched;
  gboolean is_pinch;
};

G_DEFINE_FINAL_TYPE (HsMapView, hs_map_view, GTK_TYPE_WIDGET)

enum
{
  MOVED,
  PINNED,
  TAKEN,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

static const HsMapPlace *
place_at (HsMapView *self, guint index)
{
  return g_ptr_array_index ((GPtrArray *) hs_snapshot_get (self->places), index);
}

static int
place_near (HsMapView *self, double x, double y)
{
  return hs_chart_hit (&self->chart, self->n_places, self->latitudes, self->longitudes, x, y,
                       REACH_PX * hs_ink_unit (GTK_WIDGET (self)));
}

/* What is spoken: the crosshair, what it is on, and the pin. */
static void
tell (HsMapView *self)
{
  g_autofree char *aim = hs_geo_format (self->aim[0], self->aim[1]);
  g_autofree char *pin = self->has_pin ? hs_geo_format (self->pin[0], self->pin[1]) : NULL;
  g_autoptr (GString) text = g_string_new (NULL);
  double x, y;
  int near;

  hs_chart_to_pixels (&self->chart, self->aim[0], self->aim[1], &x, &y);
  near = place_near (self, x, y);
  /* Translators: latitude and longitude. */
  g_string_printf (text, _("Map, crosshair at %s"), aim);
  if (near >= 0)
    g_string_append_printf (text, ", %s", place_at (self, (guint) near)->name);
  if (pin != NULL)
    g_string_append_printf (text, _(", pin at %s"), pin);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, text->str, -1);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
moved (HsMapView *self)
{
  tell (self);
  g_signal_emit (self, signals[MOVED], 0);
}

static void
set_aim (HsMapView *self, double latitude, double longitude)
{
  self->aim[0] = latitude;
  self->aim[1] = longitude;
}

/* The pin goes to @x, @y, or to the place that is there; the crosshair goes with it. */
static void
pin_at (HsMapView *self, double x, double y)
{
  int near = place_near (self, x, y);

  if (near >= 0)
    {
      self->pin[0] = self->latitudes[near];
      self->pin[1] = self->longitudes[near];
    }
  else
    hs_chart_to_position (&self->chart, x, y, &self->pin[0], &self->pin[1]);
  self->has_pin = TRUE;
  set_aim (self, self->pin[0], self->pin[1]);
  moved (self);
  g_signal_emit (self, signals[PINNED], 0);
}

/* Moves the ground so that the crosshair is in sight. */
static void
show_aim (HsMapView *self)
{
  double x, y, edge = MIN (EDGE_PX, MIN (self->chart.width, self->chart.height) / 4);

  hs_chart_to_pixels (&self->chart, self->aim[0], self->aim[1], &x, &y);
  hs_chart_pan (&self->chart, CLAMP (x, edge, self->chart.width - edge) - x,
                CLAMP (y, edge, self->chart.height - edge) - y);
}

/* Pointer. */

static void
drag_begin_cb (HsMapView *self, double x, double y)
{
  self->dragged[0] = self->dragged[1] = 0;
  self->is_pinch = FALSE;
  gtk_widget_grab_focus (GTK_WIDGET (self));
}

static void
drag_update_cb (HsMapView *self, double right, double down)
{
  if (hypot (right, down) < CLICK_PX && self->dragged[0] == 0 && self->dragged[1] == 0)
    return;
  hs_chart_pan (&self->chart, right - self->dragged[0], down - self->dragged[1]);
  self->dragged[0] = right;
  self->dragged[1] = down;
  tell (self);
}

static void
drag_end_cb (HsMapView *self, double right, double down, GtkGestureDrag *drag)
{
  double x, y;

  if (self->is_pinch || self->dragged[0] != 0 || self->dragged[1] != 0 || hypot (right, down) >= CLICK_PX)
    return;
  if (gtk_gesture_drag_get_start_point (drag, &x, &y))
    pin_at (self, x, y);
}

/* GTK 4.8 does not tell where a wheel was turned. */
static void
pointer_cb (HsMapView *self, double x, double y)
{
  self->pointer[0] = x;
  self->pointer[1] = y;
}

static gboolean
scroll_cb (HsMapView *self, double right, double down)
{
  hs_chart_zoom (&self->chart, pow (ZOOM_STEP, -down), self->pointer[0], self->pointer[1]);
  tell (self);
  return GDK_EVENT_STOP;
}

static void
pinch_begin_cb (HsMapView *self)
{
  self->pinched = 1;
  self->is_pinch = TRUE;
}

static void
pinch_cb (HsMapView *self, double times, GtkGesture *pinch)
{
  double x = self->chart.width / 2, y = self->chart.height / 2;

  gtk_gesture_get_bounding_box_center (pinch, &x, &y);
  hs_chart_zoom (&self->chart, times / self->pinched, x, y);
  self->pinched = times;
  tell (self);
}

/* Keys. */

static void
step (HsMapView *self, int right, int down, GdkModifierType state)
{
  double pixels = (state & GDK_CONTROL_MASK) != 0 ? FAR_PX : (state & GDK_SHIFT_MASK) != 0 ? LITTLE_PX : STEP_PX;
  double x, y;

  hs_chart_to_pixels (&self->chart, self->aim[0], self->aim[1], &x, &y);
  hs_chart_to_position (&self->chart, x + right * pixels, y + down * pixels, &self->aim[0], &self->aim[1]);
  show_aim (self);
  moved (self);
}

static void
pin_aim (HsMapView *self)
{
  double x, y;

  if (self->has_pin && self->pin[0] == self->aim[0] && self->pin[1] == self->aim[1])
    {
      g_signal_emit (self, signals[TAKEN], 0);
      return;
    }
  show_aim (self);
  hs_chart_to_pixels (&self->chart, self->aim[0], self->aim[1], &x, &y);
  pin_at (self, x, y);
}

static gboolean
is_arrow (guint keyval, int *ret_right, int *ret_down)
{
  static const struct
  {
    guint keyval, pad;
    int right, down;
  } arrows[] = { { GDK_KEY_Left, GDK_KEY_KP_Left, -1, 0 }, { GDK_KEY_Right, GDK_KEY_KP_Right, 1, 0 },
                 { GDK_KEY_Up, GDK_KEY_KP_Up, 0, -1 }, { GDK_KEY_Down, GDK_KEY_KP_Down, 0, 1 } };

  for (guint i = 0; i < G_N_ELEMENTS (arrows); i++)
    if (keyval == arrows[i].keyval || keyval == arrows[i].pad)
      {
        *ret_right = arrows[i].right;
        *ret_down = arrows[i].down;
        return TRUE;
      }
  return FALSE;
}

static gboolean
key_cb (HsMapView *self, guint keyval, guint keycode, GdkModifierType state)
{
  int right, down;

  if ((state & GDK_ALT_MASK) != 0)
    return GDK_EVENT_PROPAGATE;
  if (is_arrow (keyval, &right, &down))
    {
      step (self, right, down, state);
      return GDK_EVENT_STOP;
    }
  if ((state & GDK_CONTROL_MASK) != 0)
    return GDK_EVENT_PROPAGATE;
  switch (keyval)
    {
    case GDK_KEY_Return:
    case GDK_KEY_KP_Enter:
    case GDK_KEY_space:
      pin_aim (self);
      return GDK_EVENT_STOP;
    case GDK_KEY_plus:
    case GDK_KEY_equal:
    case GDK_KEY_KP_Add:
      hs_map_view_zoom (self, ZOOM_STEP);
      return GDK_EVENT_STOP;
    case GDK_KEY_minus:
    case GDK_KEY_KP_Subtract:
      hs_map_view_zoom (self, 1 / ZOOM_STEP);
      return GDK_EVENT_STOP;
    case GDK_KEY_Home:
    case GDK_KEY_KP_Home:
      hs_map_view_show_all (self);
      return GDK_EVENT_STOP;
    default:
      return GDK_EVENT_PROPAGATE;
    }
}

/* Drawing. */

static const HsMapPlace *
find_place (HsMapView *self, const char *code)
{
  for (guint i = 0; i < self->n_places; i++)
    if (g_strcmp0 (place_at (self, i)->code, code) == 0)
      return place_at (self, i);
  return NULL;
}

static void
draw_legs (HsMapView *self, HsMapSheet *sheet)
{
  const HsMapPlace *from = NULL;

  for (guint i = 0; self->legs != NULL && self->legs[i] != NULL; i++)
    {
      const HsMapPlace *to = find_place (self, self->legs[i]);
      double ends[2][2];

      if (to == NULL)
        continue;
      if (from != NULL)
        {
          ends[0][0] = from->latitude;
          ends[0][1] = from->longitude;
          ends[1][0] = to->latitude;
          ends[1][1] = to->longitude;
          hs_map_draw_leg (sheet, ends[0], ends[1]);
        }
      from = to;
    }
}

static void
hs_map_view_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  HsMapView *self = HS_MAP_VIEW (widget);
  g_autoptr (HsCairo) cr = hs_ink_cairo (snapshot, widget, 0);
  g_autoptr (GArray) taken = g_array_new (FALSE, FALSE, sizeof (graphene_rect_t));
  HsMapSheet sheet = { .widget = widget, .cr = cr, .chart = self->chart, .u = hs_ink_unit (widget), .taken = taken };

  hs_ink_read (widget, &sheet.ink);
  hs_ink_box (cr, &GRAPHENE_RECT_INIT (0, 0, (float) self->chart.width, (float) self->chart.height), &sheet.ink.well,
              &sheet.ink.edge, 1);
  cairo_rectangle (cr, 0, 0, self->chart.width, self->chart.height);
  cairo_clip (cr);
  hs_map_draw_grid (&sheet);
  draw_legs (self, &sheet);
  hs_map_draw_scale (&sheet);
  /* Posts stand on the rings of their areas. */
  for (int kind = HS_MAP_CUSTOMER; kind >= 0; kind--)
    for (guint i = 0; i < self->n_places; i++)
      if ((int) place_at (self, i)->kind == (kind == HS_MAP_AREA ? HS_MAP_COUNTER
                                             : kind == HS_MAP_COUNTER ? HS_MAP_AREA : kind))
        hs_map_draw_mark (&sheet, place_at (self, i));
  for (guint i = 0; i < self->n_places; i++)
    hs_map_draw_name (&sheet, place_at (self, i));
  if (self->has_pin)
    hs_map_draw_pin (&sheet, self->pin[0], self->pin[1]);
  if (gtk_widget_has_focus (widget))
    hs_map_draw_crosshair (&sheet, self->aim[0], self->aim[1]);
}

static void
fit (HsMapView *self)
{
  double margin = MIN (MARGIN_PX * hs_ink_unit (GTK_WIDGET (self)), MIN (self->chart.width, self->chart.height) / 4);

  self->latitudes[self->n_places] = self->pin[0];
  self->longitudes[self->n_places] = self->pin[1];
  hs_chart_fit (&self->chart, self->n_places + (self->has_pin ? 1 : 0), self->latitudes, self->longitudes, margin);
  self->fit_waits = FALSE;
  if (!self->has_pin)
    set_aim (self, self->chart.latitude, self->chart.longitude);
}

/* Nobody may be told anything while sizes are given out. */
static void
fitted_cb (gpointer data)
{
  g_autoptr (HsMapView) self = HS_MAP_VIEW (data);

  moved (self);
}

static void
hs_map_view_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  HsMapView *self = HS_MAP_VIEW (widget);

  self->chart.width = width;
  self->chart.height = height;
  if (self->fit_waits)
    {
      fit (self);
      g_idle_add_once (fitted_cb, g_object_ref (self));
    }
}

static void
hs_map_view_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum, int *natural,
                     int *minimum_baseline, int *natural_baseline)
{
  *minimum = orientation == GTK_ORIENTATION_HORIZONTAL ? 240 : 200;
  *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? 640 : 420;
}

static void
focus_cb (HsMapView *self)
{
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
hs_map_view_finalize (GObject *object)
{
  HsMapView *self = HS_MAP_VIEW (object);

  g_clear_pointer (&self->places, hs_snapshot_unref);
  g_free (self->latitudes);
  g_free (self->longitudes);
  g_strfreev (self->legs);
  G_OBJECT_CLASS (hs_map_view_parent_class)->finalize (object);
}

static void
hs_map_view_class_init (HsMapViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = hs_map_view_finalize;
  widget_class->snapshot = hs_map_view_snapshot;
  widget_class->size_allocate = hs_map_view_size_allocate;
  widget_class->measure = hs_map_view_measure;
  signals[MOVED] = g_signal_new ("moved", HS_TYPE_MAP_VIEW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[PINNED] = g_signal_new ("pinned", HS_TYPE_MAP_VIEW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[TAKEN] = g_signal_new ("taken", HS_TYPE_MAP_VIEW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_css_name (widget_class, "map");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
add_pointer (HsMapView *self)
{
  GtkGesture *drag = gtk_gesture_drag_new (), *pinch = gtk_gesture_zoom_new ();
  GtkEventController *scroll = gtk_event_controller_scroll_new (GTK_EVENT_CONTROLLER_SCROLL_VERTICAL);
  GtkEventController *motion = gtk_event_controller_motion_new ();

  g_signal_connect_object (drag, "drag-begin", G_CALLBACK (drag_begin_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (drag, "drag-update", G_CALLBACK (drag_update_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (drag, "drag-end", G_CALLBACK (drag_end_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (pinch, "begin", G_CALLBACK (pinch_begin_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (pinch, "scale-changed", G_CALLBACK (pinch_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (scroll, "scroll", G_CALLBACK (scroll_cb), self, G_CONNECT_SWAPPED);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (drag));
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (pinch));
  g_signal_connect_object (motion, "enter", G_CALLBACK (pointer_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (motion, "motion", G_CALLBACK (pointer_cb), self, G_CONNECT_SWAPPED);
  gtk_widget_add_controller (GTK_WIDGET (self), motion);
  gtk_widget_add_controller (GTK_WIDGET (self), scroll);
}

static void
hs_map_view_init (HsMapView *self)
{
  GtkEventController *keys = gtk_event_controller_key_new ();

  self->chart = (HsChart) { START_LATITUDE, START_LONGITUDE, START_METERS, 1, 1 };
  self->latitudes = g_new (double, 1);
  self->longitudes = g_new (double, 1);
  set_aim (self, START_LATITUDE, START_LONGITUDE);
  gtk_widget_set_focusable (GTK_WIDGET (self), TRUE);
  gtk_widget_set_overflow (GTK_WIDGET (self), GTK_OVERFLOW_HIDDEN);
  gtk_widget_set_hexpand (GTK_WIDGET (self), TRUE);
  gtk_widget_set_vexpand (GTK_WIDGET (self), TRUE);
  g_signal_connect_object (keys, "key-pressed", G_CALLBACK (key_cb), self, G_CONNECT_SWAPPED);
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
  g_signal_connect (self, "notify::has-focus", G_CALLBACK (focus_cb), NULL);
  add_pointer (self);
  tell (self);
}

GtkWidget *
hs_map_view_new (void)
{
  return g_object_new (HS_TYPE_MAP_VIEW, NULL);
}

void
hs_map_view_set_places (HsMapView *self, HsSnapshot *places)
{
  GPtrArray *rows = hs_snapshot_get (places);
  guint before = self->n_places;

  g_return_if_fail (HS_IS_MAP_VIEW (self));

  if (places != NULL)
    hs_snapshot_ref (places);
  g_clear_pointer (&self->places, hs_snapshot_unref);
  self->places = places;
  self->n_places = rows != NULL ? rows->len : 0;
  self->latitudes = g_renew (double, self->latitudes, self->n_places + 1);
  self->longitudes = g_renew (double, self->longitudes, self->n_places + 1);
  for (guint i = 0; i < self->n_places; i++)
    {
      self->latitudes[i] = place_at (self, i)->latitude;
      self->longitudes[i] = place_at (self, i)->longitude;
    }
  if (before == 0 && self->n_places > 0)
    hs_map_view_show_all (self);
  tell (self);
}

void
hs_map_view_set_legs (HsMapView *self, const char *const *codes)
{
  g_return_if_fail (HS_IS_MAP_VIEW (self));

  g_strfreev (self->legs);
  self->legs = g_strdupv ((char **) codes);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
hs_map_view_set_pin (HsMapView *self, double latitude, double longitude)
{
  g_return_if_fail (HS_IS_MAP_VIEW (self));

  self->has_pin = TRUE;
  self->pin[0] = latitude;
  self->pin[1] = longitude;
  set_aim (self, latitude, longitude);
  if (self->n_places == 0)
    hs_map_view_show_all (self);
  show_aim (self);
  moved (self);
}

gboolean
hs_map_view_get_pin (HsMapView *self, double *ret_latitude, double *ret_longitude)
{
  g_return_val_if_fail (HS_IS_MAP_VIEW (self), FALSE);

  if (!self->has_pin)
    return FALSE;
  *ret_latitude = self->pin[0];
  *ret_longitude = self->pin[1];
  return TRUE;
}

const HsMapPlace *
hs_map_view_get_place (HsMapView *self)
{
  g_return_val_if_fail (HS_IS_MAP_VIEW (self), NULL);

  for (guint i = 0; self->has_pin && i < self->n_places; i++)
    if (self->latitudes[i] == self->pin[0] && self->longitudes[i] == self->pin[1])
      return place_at (self, i);
  return NULL;
}

void
hs_map_view_get_crosshair (HsMapView *self, double *ret_latitude, double *ret_longitude)
{
  g_return_if_fail (HS_IS_MAP_VIEW (self));

  *ret_latitude = self->aim[0];
  *ret_longitude = self->aim[1];
}

void
hs_map_view_get_spot (HsMapView *self, double latitude, double longitude, double *ret_x, double *ret_y)
{
  g_return_if_fail (HS_IS_MAP_VIEW (self));

  hs_chart_to_pixels (&self->chart, latitude, longitude, ret_x, ret_y);
}

void
hs_map_view_show_all (HsMapView *self)
{
  g_return_if_fail (HS_IS_MAP_VIEW (self));

  if (self->chart.width > 1)
    fit (self);
  else
    self->fit_waits = TRUE;
  moved (self);
}

void
hs_map_view_zoom (HsMapView *self, double times)
{
  double x, y;

  g_return_if_fail (HS_IS_MAP_VIEW (self));

  hs_chart_to_pixels (&self->chart, self->aim[0], self->aim[1], &x, &y);
  if (x < 0 || y < 0 || x > self->chart.width || y > self->chart.height)
    {
      x = self->chart.width / 2;
      y = self->chart.height / 2;
    }
  hs_chart_zoom (&self->chart, times, x, y);
  tell (self);
}

void
hs_map_view_click (HsMapView *self, double x, double y)
{
  g_return_if_fail (HS_IS_MAP_VIEW (self));

  pin_at (self, x, y);
}
