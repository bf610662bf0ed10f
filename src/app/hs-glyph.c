// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The stage silhouettes and icons, drawn from short path texts, and a widget that shows one.
 *
 * Use the widget beside a word and hs_glyph_draw() inside a drawing. It refuses to speak: a silhouette is never the
 * only carrier of a meaning.
 *
 * Path texts: M x y, L x y, Z; B x1 y1 x2 y2 x y (cubic), Q x1 y1 x y (quadratic), O cx cy r (circle),
 * A cx cy r from to (arc, degrees clockwise), N the same counterclockwise; S width strokes, F fills (even-odd). */

#include "hs-glyph.h"

#include "hs-ink.h"

typedef struct
{
  const char *name;
  const char *path;
} Drawing;

static const Drawing drawings[] = {
  { "called_in", "O 12 12 8 S 3.2" },
  { "penciled", "M 8.5 4.5 L 20.5 4.5 L 15.5 19.5 L 3.5 19.5 Z S 2.8" },
  { "promised", "M 9 3.5 L 4 3.5 L 4 20.5 L 9 20.5 M 15 3.5 L 20 3.5 L 20 20.5 L 15 20.5 S 3 O 12 12 2.8 F" },
  { "rolling", "M 3 3 L 22 12 L 3 21 L 7.6 12 Z F" },
  { "on_site", "O 12 9.8 8.3 O 12 9.8 3.1 F M 2 21.3 L 22 21.3 S 3" },
  { "waiting_part", "M 12 1.5 L 21.2 6.75 L 21.2 17.25 L 12 22.5 L 2.8 17.25 L 2.8 6.75 Z O 12 12 4.6 F" },
  { "waiting_yes", "M 3.5 3.5 L 20.5 3.5 L 20.5 15.7 L 12.3 15.7 L 7 21 L 7 15.7 L 3.5 15.7 Z S 2.9" },
  { "proven", "M 3.5 12.5 L 9.1 18.5 L 20.5 5 S 4.6" },
  { "squared", "M 3.5 3.5 L 20.5 3.5 L 20.5 20.5 L 3.5 20.5 Z F" },
  { "called_off", "M 4.5 4.5 L 19.5 19.5 M 19.5 4.5 L 4.5 19.5 S 4.4" },
  { "turned_away", "M 4.5 21 L 4.5 10.5 L 17.5 10.5 S 3.4 M 13 3.6 L 21.5 10.5 L 13 17.4 Z F" },
  { "jobs", "M 8 3.5 L 20 3.5 L 20 20.5 L 8 20.5 L 4 16 L 4 8 Z S 2 O 9.2 12 2 F "
            "M 13.5 9 L 17.5 9 M 13.5 12.5 L 17.5 12.5 M 13.5 16 L 16.5 16 S 1.8" },
  { "today", "M 6 4 L 3 4 L 3 20 L 6 20 M 18 4 L 21 4 L 21 20 L 18 20 S 2 M 3 12 L 21 12 S 1.8 "
             "M 6.5 8.5 L 10.5 8.5 L 10.5 15.5 L 6.5 15.5 Z M 13.5 8.5 L 17.5 8.5 L 17.5 15.5 L 13.5 15.5 Z F" },
  { "parts", "M 4.5 3.5 L 19.5 3.5 L 19.5 21 L 17 19 L 14.5 21 L 12 19 L 9.5 21 L 7 19 L 4.5 21 Z S 2 "
             "M 8 9.5 L 10.2 11.8 L 15.5 6.5 M 8 15 L 16 15 S 1.9" },
  { "vehicles", "M 2.5 16.5 L 2.5 11.5 L 6 10 L 9 5.5 L 16 5.5 L 19.5 10.5 L 21.5 11.5 L 21.5 16.5 Z S 2 "
                "O 7 17 2.8 F O 17 17 2.8 F" },
  { "money", "M 2.5 5.5 L 21.5 5.5 L 21.5 18.5 L 2.5 18.5 Z S 2 M 9 10 L 15 10 M 9 14 L 15 14 S 2.2 "
             "M 2.5 9.5 L 5 9.5 M 19 9.5 L 21.5 9.5 M 2.5 14.5 L 5 14.5 M 19 14.5 L 21.5 14.5 S 1.4" },
  { "splice", "M 1 12 L 6 12 M 18 12 L 23 12 S 2.6 M 6 7.5 L 18 7.5 L 18 16.5 L 6 16.5 Z S 2.2 "
              "M 10 7.5 L 10 16.5 M 14 7.5 L 14 16.5 S 1.6" },
  { "plus", "M 12 4 L 12 20 M 4 12 L 20 12 S 2.6" },
  { "minus", "M 4 12 L 20 12 S 3" },
  { "search", "O 10.5 10.5 6 S 2.2 M 15 15 L 20.5 20.5 S 2.4" },
  { "menu", "M 4 6.5 L 20 6.5 M 4 12 L 20 12 M 4 17.5 L 20 17.5 S 2.2" },
  { "close", "M 6.5 6.5 L 17.5 17.5 M 17.5 6.5 L 6.5 17.5 S 2" },
  { "unsent", "M 12 21.5 L 12 10 M 6.5 14.5 L 12 9 L 17.5 14.5 S 2.6 M 3.5 4 L 20.5 4 S 2.6" },
  { "back", "M 15 4 L 7 12 L 15 20 S 2.6" },
  { "turn", "A 11.75 12.49 8.5 204.2 335.8 S 2.2 A 12.25 11.51 8.5 24.2 155.8 S 2.2 "
            "M 20.5 3.5 L 20.5 10 L 14 10 Z F M 3.5 20.5 L 3.5 14 L 10 14 Z F" },
  { "lock", "M 5 10.5 L 19 10.5 L 19 20.5 L 5 20.5 Z F M 8 10.5 L 8 8 A 12 8 4 180 360 L 16 10.5 S 2.4" },
  { "map", "M 12 22 B 12 22 19 14 19 9 N 12 9 7 0 180 B 5 14 12 22 12 22 Z S 2.2 O 12 9 2.5 F" },
  { "photo", "M 3 8 L 3 4 L 7 4 M 17 4 L 21 4 L 21 8 M 21 16 L 21 20 L 17 20 M 7 20 L 3 20 L 3 16 S 2.2 O 12 12 4 F" },
  { "reading", "A 12 17 9 180 360 S 2.2 M 12 17 L 16.5 9.5 S 2.4 O 12 17 2.2 F" },
  { "seen", "M 2 12 Q 12 1 22 12 Q 12 23 2 12 Z S 2.2 O 12 12 3 F" },
  { "said", "M 4 6 L 10 6 L 10 12 L 6.5 18 L 4 18 L 6 12 L 4 12 Z "
            "M 14 6 L 20 6 L 20 12 L 16.5 18 L 14 18 L 16 12 L 14 12 Z F" },
  { "choice", "M 12 22 L 12 13 L 5 3.5 M 12 13 L 19 3.5 S 3" },
  { "arrow", "M 2 12 L 16 12 S 4 M 14 5.5 L 22 12 L 14 18.5 Z F" },
};

struct _HsGlyph
{
  GtkWidget parent_instance;
  const Drawing *drawing;
  char *name;
};

enum
{
  PROP_0,
  PROP_GLYPH,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

G_DEFINE_FINAL_TYPE (HsGlyph, hs_glyph, GTK_TYPE_WIDGET)

static const Drawing *
find_drawing (const char *name)
{
  for (guint i = 0; name != NULL && i < G_N_ELEMENTS (drawings); i++)
    if (g_str_equal (drawings[i].name, name))
      return &drawings[i];
  return NULL;
}

static guint
read_numbers (const char **text,
              guint        wanted,
              double      *numbers)
{
  guint n = 0;

  while (n < wanted)
    {
      char *end;

      numbers[n] = g_ascii_strtod (*text, &end);
      if (end == *text)
        break;
      *text = end;
      n++;
    }
  return n;
}

static void
quadratic_to (cairo_t      *cr,
              const double *n)
{
  double x, y;

  cairo_get_current_point (cr, &x, &y);
  cairo_curve_to (cr, x + 2 * (n[0] - x) / 3, y + 2 * (n[1] - y) / 3, n[2] + 2 * (n[0] - n[2]) / 3,
                  n[3] + 2 * (n[1] - n[3]) / 3, n[2], n[3]);
}

static void
step (cairo_t      *cr,
      char          op,
      const double *n)
{
  switch (op)
    {
    case 'M': cairo_move_to (cr, n[0], n[1]); break;
    case 'L': cairo_line_to (cr, n[0], n[1]); break;
    case 'B': cairo_curve_to (cr, n[0], n[1], n[2], n[3], n[4], n[5]); break;
    case 'Q': quadratic_to (cr, n); break;
    case 'O': cairo_new_sub_path (cr); cairo_arc (cr, n[0], n[1], n[2], 0, 2 * G_PI); cairo_close_path (cr); break;
    case 'A': cairo_arc (cr, n[0], n[1], n[2], n[3] * G_PI / 180, n[4] * G_PI / 180); break;
    case 'N': cairo_arc_negative (cr, n[0], n[1], n[2], n[3] * G_PI / 180, n[4] * G_PI / 180); break;
    case 'Z': cairo_close_path (cr); break;
    case 'S': cairo_set_line_width (cr, n[0]); cairo_stroke (cr); break;
    case 'F': cairo_fill (cr); break;
    default: break;
    }
}

static guint
numbers_of (char op)
{
  switch (op)
    {
    case 'M': case 'L': return 2;
    case 'O': return 3;
    case 'Q': return 4;
    case 'A': case 'N': return 5;
    case 'B': return 6;
    case 'S': return 1;
    default: return 0;
    }
}

static void
draw_path (cairo_t    *cr,
           const char *path)
{
  while (*path != '\0')
    {
      double n[6] = { 0 };
      char op = *path++;

      if (op == ' ')
        continue;
      read_numbers (&path, numbers_of (op), n);
      step (cr, op, n);
    }
}

static void
hs_glyph_snapshot (GtkWidget   *widget,
                   GtkSnapshot *snapshot)
{
  HsGlyph *self = HS_GLYPH (widget);
  int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  double size = MIN (width, height);
  g_autoptr (HsCairo) cr = NULL;
  GdkRGBA color;

  if (self->drawing == NULL || size <= 0)
    return;
  gtk_style_context_get_color (gtk_widget_get_style_context (widget), &color);
  cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, width, height));
  hs_glyph_draw (cr, self->name, &color, (width - size) / 2, (height - size) / 2, size);
}

static void
hs_glyph_measure (GtkWidget      *widget,
                  GtkOrientation  orientation,
                  int             for_size,
                  int            *minimum,
                  int            *natural,
                  int            *minimum_baseline,
                  int            *natural_baseline)
{
  int wanted_width, wanted_height;

  gtk_widget_get_size_request (widget, &wanted_width, &wanted_height);
  *minimum = *natural = MAX (wanted_width, wanted_height) > 0 ? 0 : (int) (22 * hs_ink_unit (widget) + 0.5);
}

static void
hs_glyph_get_property (GObject    *object,
                       guint       id,
                       GValue     *value,
                       GParamSpec *pspec)
{
  if (id == PROP_GLYPH)
    g_value_set_string (value, HS_GLYPH (object)->name);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
hs_glyph_set_property (GObject      *object,
                       guint         id,
                       const GValue *value,
                       GParamSpec   *pspec)
{
  if (id == PROP_GLYPH)
    hs_glyph_set_name (HS_GLYPH (object), g_value_get_string (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
hs_glyph_finalize (GObject *object)
{
  g_free (HS_GLYPH (object)->name);
  G_OBJECT_CLASS (hs_glyph_parent_class)->finalize (object);
}

static void
hs_glyph_class_init (HsGlyphClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = hs_glyph_get_property;
  object_class->set_property = hs_glyph_set_property;
  object_class->finalize = hs_glyph_finalize;
  widget_class->snapshot = hs_glyph_snapshot;
  widget_class->measure = hs_glyph_measure;
  properties[PROP_GLYPH] = g_param_spec_string ("glyph", NULL, NULL, NULL,
                                                G_PARAM_READWRITE | G_PARAM_EXPLICIT_NOTIFY | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);
  gtk_widget_class_set_css_name (widget_class, "glyph");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_PRESENTATION);
}

static void
hs_glyph_init (HsGlyph *self)
{
  gtk_widget_set_valign (GTK_WIDGET (self), GTK_ALIGN_CENTER);
}

GtkWidget *
hs_glyph_new (const char *name)
{
  return g_object_new (HS_TYPE_GLYPH, "glyph", name, NULL);
}

void
hs_glyph_set_name (HsGlyph    *self,
                   const char *name)
{
  g_return_if_fail (HS_IS_GLYPH (self));

  if (g_strcmp0 (self->name, name) == 0)
    return;
  g_free (self->name);
  self->name = g_strdup (name);
  self->drawing = find_drawing (name);
  gtk_widget_queue_draw (GTK_WIDGET (self));
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_GLYPH]);
}

const char *
hs_glyph_get_name (HsGlyph *self)
{
  g_return_val_if_fail (HS_IS_GLYPH (self), NULL);

  return self->name;
}

gboolean
hs_glyph_known (const char *name)
{
  return find_drawing (name) != NULL;
}

void
hs_glyph_draw (cairo_t       *cr,
               const char    *name,
               const GdkRGBA *color,
               double         x,
               double         y,
               double         size)
{
  const Drawing *drawing = find_drawing (name);

  if (drawing == NULL)
    return;
  cairo_save (cr);
  cairo_translate (cr, x, y);
  cairo_scale (cr, size / 24, size / 24);
  cairo_set_fill_rule (cr, CAIRO_FILL_RULE_EVEN_ODD);
  gdk_cairo_set_source_rgba (cr, color);
  cairo_new_path (cr);
  draw_path (cr, drawing->path);
  cairo_restore (cr);
}
