// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The other drawn widgets: gauge, reading line, number pad, chips, slip, sparkline, sketch. */

#include <math.h>

#include "hs-app-test.h"
#include "hs-change-grid.h"
#include "hs-chip.h"
#include "hs-gauge.h"
#include "hs-glyph.h"
#include "hs-ink.h"
#include "hs-key-button.h"
#include "hs-number-pad.h"
#include "hs-reading-line.h"
#include "hs-sketch-layout.h"
#include "hs-sketch.h"
#include "hs-slip.h"
#include "hs-sparkline.h"

static void
test_gauge_scale (void)
{
  static const struct
  {
    double from, to;
    gboolean logarithmic;
    double value, fraction;
  } rows[] = {
    { 0, 60, FALSE, 15, 0.25 },     { 0, 60, FALSE, -5, 0 },     { 0, 60, FALSE, 90, 1 },
    { 0.01, 1, TRUE, 0.1, 0.5 },    { 0.01, 1, TRUE, 0.01, 0 },  { 0.01, 1, TRUE, 0, 0 },
    { 0.01, 1, TRUE, 1, 1 },        { 11.5, 13, FALSE, 12.4, 0.6 },
  };
  GtkWidget *gauge = g_object_ref_sink (hs_gauge_new ());

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      hs_gauge_set_scale (HS_GAUGE (gauge), rows[i].from, rows[i].to, rows[i].logarithmic);
      g_assert_cmpfloat_with_epsilon (hs_gauge_get_fraction (HS_GAUGE (gauge), rows[i].value), rows[i].fraction, 1e-9);
    }
  g_object_unref (gauge);
}

static void
test_reading_line (void)
{
  static const HsReadingFace stored = { .number = 6, .name = "Sleeping draw", .hint = "asleep 42 min", .value = "0.31",
                                        .unit = "A", .verdict = "outside", .shape = HS_VERDICT_SHAPE_HEAVY,
                                        .chosen = TRUE };
  static const HsReadingFace empty = { .number = 7, .name = "Draw by fuse", .unit = "A" };
  GtkWidget *line = hs_reading_line_new (), *verdict;
  GtkWindow *window;

  hs_reading_line_set_face (HS_READING_LINE (line), &stored);
  window = hs_app_test_show (line, 518, 70);
  verdict = hs_app_test_find (line, HS_TYPE_VERDICT_LABEL);
  g_assert_true (hs_app_test_says (line, "0.31"));
  g_assert_true (hs_app_test_says (line, "outside"));
  hs_reading_line_set_narrow (HS_READING_LINE (line), TRUE);
  g_assert_true (hs_app_test_says (line, "outside"));
  g_assert_nonnull (verdict);
  hs_reading_line_set_face (HS_READING_LINE (line), &empty);
  g_assert_false (hs_app_test_says (line, "outside"));
  g_assert_false (hs_app_test_says (line, "0.31"));
  gtk_window_destroy (window);
}

static void
hear_key (HsNumberPad *pad,
          const char  *key,
          GString     *heard)
{
  g_string_append_printf (heard, "%s ", key);
}

static void
click_all (GtkWidget *widget)
{
  if (GTK_IS_BUTTON (widget))
    g_signal_emit_by_name (widget, "clicked");
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    click_all (child);
}

static double
outer_height (GtkWidget *widget)
{
  graphene_rect_t bounds;

  g_assert_true (gtk_widget_compute_bounds (widget, widget, &bounds));
  return bounds.size.height;
}

static void
test_number_pad (void)
{
  g_autoptr (GString) heard = g_string_new (NULL);
  GtkWidget *pad = hs_number_pad_new ();
  GtkWindow *window = hs_app_test_show (pad, 336, 210);

  g_signal_connect (pad, "key", G_CALLBACK (hear_key), heard);
  click_all (pad);
  g_assert_cmpstr (heard->str, ==, "7 8 9 slash 4 5 6 asterisk 1 2 3 minus 0 period Return plus ");
  g_assert_cmpfloat (outer_height (hs_app_test_find (pad, GTK_TYPE_BUTTON)), >=, 44);
  gtk_window_destroy (window);
}

static void
test_verdict (void)
{
  static const struct
  {
    HsVerdictShape shape;
    const char *css_class, *word, *shown;
  } rows[] = {
    { HS_VERDICT_SHAPE_PLAIN, "plain", "within", "within" },
    { HS_VERDICT_SHAPE_THIN, "thin", "charge", "charge" },
    { HS_VERDICT_SHAPE_HEAVY, "heavy", "outside", "outside" },
    { HS_VERDICT_SHAPE_DASHED, "dashed", "cannot tell", "cannot tell" },
    { HS_VERDICT_SHAPE_DOTTED, "dotted", "makers differ", "makers differ" },
    { HS_VERDICT_SHAPE_DOUBLE, "double", "do not drive", "DO NOT DRIVE" },
  };
  GtkWidget *label = g_object_ref_sink (hs_verdict_label_new (NULL, HS_VERDICT_SHAPE_PLAIN));

  g_assert_false (gtk_widget_get_visible (label));
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      hs_verdict_label_set (HS_VERDICT_LABEL (label), rows[i].word, rows[i].shape);
      g_assert_true (gtk_widget_has_css_class (label, rows[i].css_class));
      g_assert_cmpstr (hs_chip_get_text (HS_CHIP (label)), ==, rows[i].shown);
      g_assert_cmpint (hs_verdict_label_get_shape (HS_VERDICT_LABEL (label)), ==, rows[i].shape);
      for (guint j = 0; j < G_N_ELEMENTS (rows); j++)
        g_assert_true (i == j || !gtk_widget_has_css_class (label, rows[j].css_class));
    }
  g_object_unref (label);
}

/* A parent with the height to spare asks for the least height at any width, and then for the height at its width. Of
 * those the first may never be the greater (GTK 4.18 says so when it is). */
static void
test_change_grid (void)
{
  static const HsChange rows[] = {
    { "Voltage after a start", "8.94 V", "outside", HS_VERDICT_SHAPE_HEAVY, "10.60 V", "within",
      HS_VERDICT_SHAPE_THIN },
    { "Sleeping draw", NULL, NULL, HS_VERDICT_SHAPE_DASHED, "0.02 A", "within", HS_VERDICT_SHAPE_THIN },
  };
  GtkWidget *grid = g_object_ref_sink (hs_change_grid_new ());
  int least, least_at_width, wanted_width;

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    hs_change_grid_append (HS_CHANGE_GRID (grid), &rows[i]);
  gtk_widget_measure (grid, GTK_ORIENTATION_HORIZONTAL, -1, NULL, &wanted_width, NULL, NULL);
  gtk_widget_measure (grid, GTK_ORIENTATION_VERTICAL, -1, &least, NULL, NULL, NULL);
  for (int width = wanted_width; width < wanted_width + 500; width += 100)
    {
      gtk_widget_measure (grid, GTK_ORIENTATION_VERTICAL, width, &least_at_width, NULL, NULL, NULL);
      g_assert_cmpint (least, <=, least_at_width);
    }
  g_object_unref (grid);
}

static void
test_key_button (void)
{
  GtkWidget *button = hs_key_button_new ("F4", "Rolling", NULL);
  GtkWindow *window = hs_app_test_show (button, 200, 44);

  g_assert_true (hs_app_test_says (button, "F4"));
  g_assert_true (hs_app_test_says (button, "Rolling"));
  hs_key_button_set_show_key (HS_KEY_BUTTON (button), FALSE);
  g_assert_false (hs_app_test_says (button, "F4"));
  hs_key_button_set_key (HS_KEY_BUTTON (button), "F5");
  g_assert_false (hs_app_test_says (button, "F5"));
  hs_key_button_set_show_key (HS_KEY_BUTTON (button), TRUE);
  g_assert_true (hs_app_test_says (button, "F5"));
  g_assert_cmpfloat (outer_height (button), >=, 44);
  gtk_window_destroy (window);
}

static guint
count_ink (const char *name)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_A8, 24, 24);
  cairo_t *cr = cairo_create (surface);
  const unsigned char *data;
  guint inked = 0;

  hs_glyph_draw (cr, name, &(GdkRGBA) { 0, 0, 0, 1 }, 0, 0, 24);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  data = cairo_image_surface_get_data (surface);
  for (int i = 0; i < 24 * cairo_image_surface_get_stride (surface); i++)
    inked += data[i] > 127;
  cairo_surface_destroy (surface);
  return inked;
}

static void
test_glyphs (void)
{
  static const char *const names[] = {
    "called_in", "penciled", "promised", "rolling", "on_site", "waiting_part", "waiting_yes", "proven", "squared",
    "called_off", "turned_away", "jobs", "today", "parts", "vehicles", "money", "splice", "plus", "minus", "search",
    "menu",
    "close", "back", "turn", "lock", "map", "photo", "reading", "seen", "said", "arrow",
  };

  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      guint inked = count_ink (names[i]);

      g_assert_true (hs_glyph_known (names[i]));
      g_assert_cmpuint (inked, >, 24);
      g_assert_cmpuint (inked, <, 24 * 24);
    }
  g_assert_false (hs_glyph_known ("nothing"));
  g_assert_false (hs_glyph_known (NULL));
  g_assert_cmpuint (count_ink ("nothing"), ==, 0);
  /* A square of 17 units. */
  g_assert_cmpuint (count_ink ("squared"), >=, 16 * 16);
  g_assert_cmpuint (count_ink ("squared"), <=, 18 * 18);
}

static void
test_ink (void)
{
  GtkWidget *label = gtk_label_new ("x");
  GtkWindow *window = hs_app_test_show (label, 100, 40);
  GtkSettings *settings = gtk_settings_get_default ();
  HsInk ink;
  int small, large;

  hs_ink_read (label, &ink);
  g_assert_false (gdk_rgba_equal (&ink.paper, &ink.ink));
  g_assert_false (gdk_rgba_equal (&ink.paper, &ink.bench));
  g_assert_false (gdk_rgba_equal (&ink.copper, &ink.ink));
  g_assert_cmpfloat_with_epsilon (hs_ink_unit (label), 1, 0.001);
  small = hs_ink_width (label, "08:31", 1, 700);
  g_object_set (settings, "gtk-xft-dpi", 2 * 96 * 1024, NULL);
  g_assert_cmpfloat_with_epsilon (hs_ink_unit (label), 2, 0.001);
  large = hs_ink_width (label, "08:31", 1, 700);
  g_assert_cmpint (large, >, small * 3 / 2);
  g_object_set (settings, "gtk-xft-dpi", 96 * 1024, NULL);
  gtk_window_destroy (window);
}

static void
test_slip (void)
{
  GtkWidget *inside = gtk_label_new ("inside"), *slip = hs_slip_new (inside), *rail = hs_open_rail_new ();
  GtkWindow *window;
  graphene_rect_t bounds;
  static const int hours[] = { 480, 750, 795, 1020 };
  int narrow, wide;

  gtk_widget_set_valign (slip, GTK_ALIGN_START);
  window = hs_app_test_show (slip, 500, 200);
  g_assert_true (gtk_widget_compute_bounds (inside, slip, &bounds));
  g_assert_cmpfloat (bounds.origin.y, ==, 7);
  g_assert_cmpint (gtk_widget_get_height (slip), ==, (int) bounds.size.height + 7);
  hs_slip_set_child (HS_SLIP (slip), rail);
  gtk_widget_measure (rail, GTK_ORIENTATION_HORIZONTAL, -1, &narrow, NULL, NULL, NULL);
  hs_open_rail_set (HS_OPEN_RAIL (rail), hours, 2, 518);
  gtk_widget_measure (rail, GTK_ORIENTATION_HORIZONTAL, -1, NULL, &wide, NULL, NULL);
  g_assert_cmpint (wide, >=, narrow);
  g_assert_cmpstr (gtk_widget_get_tooltip_text (rail), ==, "Open 08:00–12:30, 13:15–17:00, arrival 08:38");
  hs_open_rail_set (HS_OPEN_RAIL (rail), NULL, 0, -1);
  g_assert_cmpstr (gtk_widget_get_tooltip_text (rail), ==, "Shut today");
  gtk_test_widget_wait_for_draw (GTK_WIDGET (window));
  gtk_window_destroy (window);
}

static void
test_sparkline (void)
{
  static const HsSparkPoint points[] = { { 0, 44, TRUE, "44 %" }, { 29, 46, FALSE, "46 %" } };
  GtkWidget *line = hs_sparkline_new ();
  GtkWindow *window = hs_app_test_show (line, 200, 60);

  /* One point, points without a limit and none at all are drawn without a division by zero. */
  hs_sparkline_set (HS_SPARKLINE (line), "Strength", points, 2, "70 %", 70);
  gtk_test_widget_wait_for_draw (GTK_WIDGET (window));
  hs_sparkline_set (HS_SPARKLINE (line), "Strength", points, 1, NULL, 0);
  gtk_test_widget_wait_for_draw (GTK_WIDGET (window));
  hs_sparkline_set (HS_SPARKLINE (line), "Strength", NULL, 0, "70 %", 70);
  gtk_test_widget_wait_for_draw (GTK_WIDGET (window));
  g_assert_cmpint (gtk_accessible_get_accessible_role (GTK_ACCESSIBLE (line)), ==, GTK_ACCESSIBLE_ROLE_IMG);
  gtk_window_destroy (window);
}

static void
test_lay_out (void)
{
  /* A 3-4-5 triangle can be drawn without any stress; its base lies lowest. */
  static const double triangle[] = { 0, 3, 4, 3, 0, 5, 4, 5, 0 };
  /* Unknown both ways, known one way only, different there and back. */
  static const double gaps[] = { 0, 10, -1, 14, 0, 8, -1, 8, 0 };
  double x[3], y[3];

  hs_sketch_lay_out (3, triangle, 0, x, y);
  g_assert_cmpfloat (hs_sketch_stress (3, triangle, x, y), <, 1e-6);
  g_assert_cmpfloat_with_epsilon (hypot (x[0] - x[1], y[0] - y[1]), 3, 0.01);
  g_assert_cmpfloat_with_epsilon (hypot (x[1] - x[2], y[1] - y[2]), 5, 0.01);
  g_assert_cmpfloat (y[0], >, y[1]);
  g_assert_cmpfloat (y[0], >, y[2]);
  hs_sketch_lay_out (3, gaps, -1, x, y);
  g_assert_cmpfloat_with_epsilon (hypot (x[0] - x[1], y[0] - y[1]), 12, 0.01);
  g_assert_cmpfloat_with_epsilon (hypot (x[1] - x[2], y[1] - y[2]), 8, 0.01);
}

static void
test_fit (void)
{
  double x[] = { 0, 10, 10, 0, 5 }, y[] = { 0, 0, 1, 1, 0.5 };
  double one_x[] = { 7 }, one_y[] = { -3 };

  hs_sketch_fit (5, x, y, 400, 300, 80);
  for (guint i = 0; i < 5; i++)
    {
      g_assert_cmpfloat (x[i], >=, 0);
      g_assert_cmpfloat (x[i], <=, 400);
      g_assert_cmpfloat (y[i], >=, 0);
      g_assert_cmpfloat (y[i], <=, 300);
      for (guint j = i + 1; j < 5; j++)
        g_assert_cmpfloat (hypot (x[i] - x[j], y[i] - y[j]), >=, 75);
    }
  hs_sketch_fit (1, one_x, one_y, 400, 300, 80);
  g_assert_cmpfloat_with_epsilon (one_x[0], 200, 1e-6);
  g_assert_cmpfloat_with_epsilon (one_y[0], 150, 1e-6);
  hs_sketch_fit (0, NULL, NULL, 400, 300, 80);
}

/* Two legs there and back between near places, one that runs over a third place: no box of minutes on a place, none on
 * another; and where all is full, at least there is an answer. */
static void
test_sketch_minutes (void)
{
  static const HsSketchBox places[] = { { 60, 100, 30, 18 }, { 160, 100, 30, 18 }, { 330, 100, 90, 18 },
                                        { 480, 100, 30, 18 } };
  static const double lines[] = { 90, 93, 130, 93, 130, 107, 90, 107, 190, 100, 450, 100, 450, 96, 90, 96 };
  HsSketchBox minutes[4], one[] = { { 0, 0, 16, 11 } };
  static const HsSketchBox wall[] = { { 100, 100, 400, 400 } };

  for (guint i = 0; i < G_N_ELEMENTS (minutes); i++)
    minutes[i] = (HsSketchBox) { 0, 0, 16, 11 };
  hs_sketch_place_minutes (4, lines, G_N_ELEMENTS (places), places, minutes);
  for (guint i = 0; i < G_N_ELEMENTS (minutes); i++)
    {
      g_test_message ("%u: %g, %g", i, minutes[i].x, minutes[i].y);
      for (guint j = 0; j < G_N_ELEMENTS (places); j++)
        g_assert_cmpfloat (hs_sketch_box_overlap (&minutes[i], &places[j]), ==, 0);
      for (guint j = 0; j < i; j++)
        g_assert_cmpfloat (hs_sketch_box_overlap (&minutes[i], &minutes[j]), ==, 0);
    }
  hs_sketch_place_minutes (1, lines, 1, wall, one);
  g_assert_cmpfloat (one[0].x, ==, 90 + 40 * 0.45);
  g_assert_cmpfloat (hs_sketch_box_overlap (&one[0], &wall[0]), ==, 32 * 22);
  hs_sketch_place_minutes (0, NULL, 0, NULL, NULL);
}

static void
test_sketch (void)
{
  GtkWidget *sketch = hs_sketch_new ();
  GtkWindow *window = hs_app_test_show (sketch, 430, 376);
  guint base, market;

  base = hs_sketch_add_place (HS_SKETCH (sketch), "Tannery Row", HS_SKETCH_SIGNAL_GOOD, TRUE);
  market = hs_sketch_add_place (HS_SKETCH (sketch), "Old Market", HS_SKETCH_SIGNAL_NONE, FALSE);
  g_assert_cmpuint (base, ==, 0);
  g_assert_cmpuint (market, ==, 1);
  hs_sketch_add_stop (HS_SKETCH (sketch), market, 1);
  hs_sketch_add_leg (HS_SKETCH (sketch), base, market, 7);
  hs_sketch_add_leg (HS_SKETCH (sketch), market, base, 9);
  hs_sketch_add_leg (HS_SKETCH (sketch), market, market, 3);
  gtk_test_widget_wait_for_draw (GTK_WIDGET (window));
  hs_sketch_set_position (HS_SKETCH (sketch), base, 0, 0);
  hs_sketch_set_position (HS_SKETCH (sketch), market, 1, 1);
  gtk_test_widget_wait_for_draw (GTK_WIDGET (window));
  hs_sketch_clear (HS_SKETCH (sketch));
  g_assert_cmpuint (hs_sketch_add_place (HS_SKETCH (sketch), "Quayside", HS_SKETCH_SIGNAL_PATCHY, FALSE), ==, 0);
  gtk_test_widget_wait_for_draw (GTK_WIDGET (window));
  gtk_window_destroy (window);
}

int
main (int   argc,
      char *argv[])
{
  hs_app_test_init (&argc, &argv);
  g_test_add_func ("/app/drawn/gauge-scale", test_gauge_scale);
  g_test_add_func ("/app/drawn/reading-line", test_reading_line);
  g_test_add_func ("/app/drawn/number-pad", test_number_pad);
  g_test_add_func ("/app/drawn/verdict", test_verdict);
  g_test_add_func ("/app/drawn/change-grid", test_change_grid);
  g_test_add_func ("/app/drawn/key-button", test_key_button);
  g_test_add_func ("/app/drawn/glyphs", test_glyphs);
  g_test_add_func ("/app/drawn/ink", test_ink);
  g_test_add_func ("/app/drawn/slip", test_slip);
  g_test_add_func ("/app/drawn/sparkline", test_sparkline);
  g_test_add_func ("/app/drawn/lay-out", test_lay_out);
  g_test_add_func ("/app/drawn/fit", test_fit);
  g_test_add_func ("/app/drawn/sketch", test_sketch);
  g_test_add_func ("/app/drawn/sketch-minutes", test_sketch_minutes);
  return g_test_run ();
}
