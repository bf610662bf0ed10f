// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The time strip: packing and spare by table, stops as children, keys, forms; the rows of the list below it. */

#include "hs-app-test.h"
#include "hs-stop-row.h"
#include "hs-time-strip-draw.h"
#include "hs-time-strip.h"

static const HsStripStop stops[] = {
  { "Larch", 1, TRUE, "Larch", 518, 518, 526, -1, -1, 0, FALSE, "Stop 1, Larch at 08:38" },
  { "A-0021", 2, FALSE, "21", 529, 529, 589, 480, 600, -1, FALSE, "Stop 2, TDM 1315" },
  { "A-0022", 3, FALSE, "22", 595, 595, 635, 510, 630, -1, FALSE, "Stop 3, TDM 8816" },
  { "A-0023", 4, FALSE, "23", 660, 660, 735, 660, 780, -1, FALSE, "Stop 4, TDM 3316" },
  { "A-0024", 5, FALSE, "24", 828, 828, 918, 780, 930, -1, FALSE, "Stop 5, TDM 4409" },
};

static HsStripDay *
create_day (void)
{
  static const int larch[] = { 480, 750, 795, 1020 };
  HsStripDay *day = hs_strip_day_new ();

  day->leave = 511;
  day->home = 980;
  day->now = 472;
  hs_strip_day_add_rail (day, "Larch", larch, 2);
  for (guint i = 0; i < G_N_ELEMENTS (stops); i++)
    hs_strip_day_add_stop (day, &stops[i]);
  return day;
}

static void
test_spare (void)
{
  g_autoptr (HsStripDay) day = create_day ();
  static const int spares[] = { -1, 71, 35, 120, 102 };

  for (guint i = 0; i < G_N_ELEMENTS (spares); i++)
    g_assert_cmpint (hs_strip_day_get_spare (g_ptr_array_index (day->stops, i)), ==, spares[i]);
  g_assert_cmpint (hs_strip_day_find_tightest (day), ==, 2);
}

static void
test_late_is_tightest (void)
{
  g_autoptr (HsStripDay) day = create_day ();
  HsStripStop late = { "late", 6, FALSE, "26", 1000, 1000, 1030, 900, 960, -1, FALSE, NULL };

  hs_strip_day_add_stop (day, &late);
  g_assert_cmpint (hs_strip_day_get_spare (g_ptr_array_index (day->stops, 5)), ==, -40);
  g_assert_cmpint (hs_strip_day_find_tightest (day), ==, 5);
}

static void
test_pack (void)
{
  g_autoptr (HsStripDay) day = create_day ();
  g_autoptr (HsStripDay) empty = hs_strip_day_new ();
  /* 23 ends at 13:00 where 24 starts: they share a lane; 22 overlaps 21 and gets its own. */
  static const int expected[] = { -1, 0, 1, 0, 0 };
  int lanes[G_N_ELEMENTS (stops)];

  g_assert_cmpuint (hs_strip_day_pack (day, NULL, lanes), ==, 2);
  for (guint i = 0; i < G_N_ELEMENTS (stops); i++)
    g_assert_cmpint (lanes[i], ==, expected[i]);
  g_assert_cmpuint (hs_strip_day_pack (empty, NULL, lanes), ==, 0);
  g_assert_cmpint (hs_strip_day_find_tightest (empty), ==, -1);
}

/* What is written beside a short window keeps its lane free, too. */
static void
test_pack_with_words (void)
{
  g_autoptr (HsStripDay) day = create_day ();
  /* The words of 21 reach to 13:05, so that 23 and 24 cannot both follow it; those of 24 begin before 13:00. */
  static const int drawn[] = { 0, 0, 480, 785, 510, 630, 660, 780, 778, 930 };
  static const int expected[] = { -1, 0, 1, 1, 2 };
  int lanes[G_N_ELEMENTS (stops)];

  g_assert_cmpuint (hs_strip_day_pack (day, drawn, lanes), ==, 3);
  for (guint i = 0; i < G_N_ELEMENTS (stops); i++)
    g_assert_cmpint (lanes[i], ==, expected[i]);
}

static HsStripPlan
plan_of (const HsStripDay *day)
{
  return (HsStripPlan) { .day = day, .form = HS_STRIP_FORM_FULL, .chosen = -1, .unit = 1, .left = 112, .right = 1226,
                         .tightest = hs_strip_day_find_tightest (day) };
}

/* Neither the name nor the minutes of a stop touch the feet of its bracket, each late stop says how late it is, and no
 * word leaves the strip. */
static void
test_words (void)
{
  g_autoptr (HsStripDay) day = create_day ();
  static const HsStripStop more[] = {
    { "A-0027", 6, FALSE, "27", 612, 612, 672, 540, 555, -1, FALSE, NULL },
    { "A-0028", 7, FALSE, "28", 777, 777, 837, 540, 555, -1, FALSE, NULL },
    { "A-0029", 8, FALSE, "29", 990, 990, 1020, 900, 960, -1, FALSE, NULL },
    { "A-0030", 9, FALSE, "30", 1075, 1075, 1080, 1060, 1070, -1, FALSE, NULL },
    { "A-0031", 10, FALSE, "31", 600, 600, 660, 600, 615, -1, FALSE, NULL },
  };
  static const char *const expected[] = { "57 late", "222 late", "30 late", "5 late", NULL };
  GtkWidget *strip = hs_time_strip_new ();
  GtkWindow *window;
  HsStripPlan plan;

  for (guint i = 0; i < G_N_ELEMENTS (more); i++)
    hs_strip_day_add_stop (day, &more[i]);
  hs_time_strip_set_day (HS_TIME_STRIP (strip), day);
  window = hs_app_test_show (strip, 1240, 400);
  plan = plan_of (day);
  for (guint i = 1; i < day->stops->len; i++)
    {
      const HsStripStop *stop = g_ptr_array_index (day->stops, i);
      double x1 = hs_strip_plan_x (&plan, stop->window_from), x2 = hs_strip_plan_x (&plan, stop->window_to);
      double width = hs_ink_width (strip, stop->label, 1.05, 800);
      HsStripWords words;

      hs_strip_plan_words (strip, &plan, i, &words);
      g_test_message ("%s: name at %g, “%s” at %g, window %g to %g", stop->label, words.label_x,
                      words.text != NULL ? words.text : "", words.text_x, x1, x2);
      if (i >= G_N_ELEMENTS (stops))
        g_assert_cmpstr (words.text, ==, expected[i - G_N_ELEMENTS (stops)]);
      else
        g_assert_nonnull (words.text);
      g_assert_true ((words.label_x >= x1 + 6 && words.label_x + width <= x2 - 6) || words.label_x >= x2
                     || words.label_x + width <= x1);
      g_assert_cmpfloat (words.label_x + width, <=, plan.right);
      if (words.text != NULL)
        {
          g_assert_true ((words.text_x >= x1 + 6 && words.text_x + words.text_width <= x2 - 6) || words.text_x >= x2
                         || words.text_x + words.text_width <= x1);
          g_assert_cmpfloat (words.text_x + words.text_width, <=, plan.right);
          g_assert_true (words.text_x >= words.label_x + width || words.text_x + words.text_width <= words.label_x);
        }
      g_free (words.text);
    }
  gtk_window_destroy (window);
}

/* Where the van is or was, nothing is left to spare: the next tightest is told, and no figure of what is over. */
static void
test_done (void)
{
  g_autoptr (HsStripDay) day = hs_strip_day_new ();
  static const char *const expected[] = { NULL, NULL, NULL, "120 spare", "102 spare" };
  GtkWidget *strip = hs_time_strip_new ();
  HsStripPlan plan;

  for (guint i = 0; i < G_N_ELEMENTS (stops); i++)
    {
      HsStripStop stop = stops[i];

      stop.rail = -1;
      stop.done = i < 3;
      hs_strip_day_add_stop (day, &stop);
    }
  g_assert_cmpint (hs_strip_day_find_tightest (day), ==, 4);
  g_object_ref_sink (strip);
  plan = plan_of (day);
  for (guint i = 1; i < G_N_ELEMENTS (stops); i++)
    {
      HsStripWords words;

      hs_strip_plan_words (strip, &plan, i, &words);
      g_assert_cmpstr (words.text, ==, expected[i]);
      g_free (words.text);
    }
  g_object_unref (strip);
}

/* The flag of now hides no hour, save one that is all but now. */
static void
test_flag_hides_no_hour (void)
{
  g_autoptr (HsStripDay) day = create_day ();
  GtkWidget *strip = hs_time_strip_new ();
  GtkWindow *window = hs_app_test_show (strip, 1240, 400);
  HsStripPlan plan = plan_of (day);
  double half = hs_ink_width (strip, "00", 1.05, 700) / 2.0;

  for (plan.right = 700; plan.right <= 1226; plan.right += 263)
    for (day->now = 6 * 60; day->now < 18 * 60; day->now++)
      {
        double x, width, now;

        day->from = 6 * 60;
        now = hs_strip_plan_x (&plan, day->now);
        hs_strip_plan_flag (strip, &plan, &x, &width);
        g_test_message ("%d, %g: flag %g to %g, now %g", day->now, plan.right, x, x + width, now);
        g_assert_cmpfloat (x, <=, now);
        g_assert_cmpfloat (x + width, >=, now - 1);
        for (int hour = 6; hour <= 18; hour++)
          {
            double at = hs_strip_plan_x (&plan, hour * 60);

            /* Half a number, and the pixels that the line and rounding take. */
            if (fabs (at - now) > half + 4 && at + half > x && at - half < x + width)
              g_assert_cmpfloat (hs_strip_plan_x (&plan, 60) - hs_strip_plan_x (&plan, 0), <, width + 2 * half + 8);
          }
      }
  gtk_window_destroy (window);
}

/* However late the van is home, when it is finds room behind the end of the wire. */
static void
test_home_has_room (void)
{
  static const int widths[] = { 1240, 984, 700 };
  static const int homes[] = { 980, 1050, 1075, 1080 };

  for (guint i = 0; i < G_N_ELEMENTS (widths); i++)
    for (guint j = 0; j < G_N_ELEMENTS (homes); j++)
      {
        g_autoptr (HsStripDay) day = create_day ();
        GtkWidget *strip = hs_time_strip_new ();
        HsStripStop last = { "last", 6, FALSE, "26", homes[j] - 30, homes[j] - 30, homes[j], 900, 1080, -1, FALSE, "" };
        GtkWindow *window;
        graphene_rect_t area;

        day->home = homes[j];
        hs_strip_day_add_stop (day, &last);
        hs_time_strip_set_day (HS_TIME_STRIP (strip), day);
        window = hs_app_test_show (strip, widths[i], 400);
        g_assert_true (gtk_widget_compute_bounds (gtk_widget_get_last_child (strip), strip, &area));
        g_test_message ("%d: ends at %g", widths[i], area.origin.x + area.size.width);
        g_assert_cmpfloat (area.origin.x + area.size.width + hs_ink_width (strip, "18:00 home", 1.15, 800) + 12, <=,
                           widths[i]);
        gtk_window_destroy (window);
      }
}

static void
test_copy (void)
{
  g_autoptr (HsStripDay) day = create_day ();
  g_autoptr (HsStripDay) copy = NULL;
  const HsStripRail *rail;

  day->van = g_strdup ("Van A");
  copy = hs_strip_day_copy (day);
  g_assert_cmpstr (copy->van, ==, "Van A");
  g_assert_cmpuint (copy->stops->len, ==, 5);
  rail = g_ptr_array_index (copy->rails, 0);
  g_assert_cmpuint (rail->spans->len, ==, 4);
  g_assert_cmpint (g_array_index (rail->spans, int, 3), ==, 1020);
  hs_strip_day_free (NULL);
}

typedef struct
{
  char *chosen;
  char *locked;
  char *opened;
  int step;
} Heard;

static void
hear_chosen (HsTimeStrip *strip,
             const char  *id,
             Heard       *heard)
{
  g_free (heard->chosen);
  heard->chosen = g_strdup (id);
}

static void
hear_lock (HsTimeStrip *strip,
           const char  *id,
           Heard       *heard)
{
  g_free (heard->locked);
  heard->locked = g_strdup (id);
}

static void
hear_opened (HsTimeStrip *strip,
             const char  *id,
             Heard       *heard)
{
  g_free (heard->opened);
  heard->opened = g_strdup (id);
}

static void
hear_move (HsTimeStrip *strip,
           const char  *id,
           int          step,
           Heard       *heard)
{
  heard->step += step;
}

static void
test_keys (void)
{
  g_autoptr (HsStripDay) day = create_day ();
  GtkWidget *strip = hs_time_strip_new (), *second;
  GtkWindow *window;
  Heard heard = { NULL };

  g_signal_connect (strip, "chosen", G_CALLBACK (hear_chosen), &heard);
  g_signal_connect (strip, "lock", G_CALLBACK (hear_lock), &heard);
  g_signal_connect (strip, "opened", G_CALLBACK (hear_opened), &heard);
  g_signal_connect (strip, "move", G_CALLBACK (hear_move), &heard);
  hs_time_strip_set_day (HS_TIME_STRIP (strip), day);
  hs_time_strip_choose (HS_TIME_STRIP (strip), "A-0021");
  window = hs_app_test_show (strip, 1240, 240);

  second = gtk_widget_get_next_sibling (gtk_widget_get_first_child (strip));
  g_assert_true (gtk_root_get_focus (GTK_ROOT (window)) == second);
  g_assert_null (heard.chosen);
  gtk_widget_activate_action (second, "stop.step", "i", 1);
  g_assert_cmpstr (heard.chosen, ==, "A-0022");
  g_assert_cmpstr (hs_time_strip_get_chosen (HS_TIME_STRIP (strip)), ==, "A-0022");
  gtk_widget_activate_action (gtk_root_get_focus (GTK_ROOT (window)), "stop.step", "i", -1);
  g_assert_cmpstr (heard.chosen, ==, "A-0021");
  gtk_widget_activate_action (gtk_widget_get_first_child (strip), "stop.step", "i", -1);
  g_assert_cmpstr (heard.chosen, ==, "A-0021");
  gtk_widget_activate_action (second, "stop.lock", NULL);
  g_assert_cmpstr (heard.locked, ==, "A-0021");
  gtk_widget_activate_action (second, "stop.open", NULL);
  g_assert_cmpstr (heard.opened, ==, "A-0021");
  gtk_widget_activate_action (second, "stop.move", "i", -1);
  g_assert_cmpint (heard.step, ==, -1);

  hs_time_strip_set_day (HS_TIME_STRIP (strip), NULL);
  g_assert_null (gtk_widget_get_first_child (strip));
  gtk_window_destroy (window);
  g_free (heard.chosen);
  g_free (heard.locked);
  g_free (heard.opened);
}

static int
height_of (GtkWidget *strip)
{
  int wanted;

  gtk_widget_measure (strip, GTK_ORIENTATION_VERTICAL, 1240, NULL, &wanted, NULL, NULL);
  return wanted;
}

static void
test_forms (void)
{
  g_autoptr (HsStripDay) day = create_day ();
  GtkWidget *strip = hs_time_strip_new ();
  GtkWindow *window;
  int full;

  hs_time_strip_set_day (HS_TIME_STRIP (strip), day);
  window = hs_app_test_show (strip, 1240, 400);
  full = height_of (strip);
  hs_time_strip_set_form (HS_TIME_STRIP (strip), HS_STRIP_FORM_TIGHT);
  /* The van's row is 8 lower and the rail 5; without a chosen stop one lane of 27 is left of two. */
  g_assert_cmpint (full - height_of (strip), ==, 8 + 5 + 27);
  hs_time_strip_choose (HS_TIME_STRIP (strip), "A-0021");
  /* 21 and 22 overlap: both lanes again. */
  g_assert_cmpint (full - height_of (strip), ==, 8 + 5);
  hs_time_strip_set_form (HS_TIME_STRIP (strip), HS_STRIP_FORM_COMPACT);
  g_assert_cmpint (height_of (strip), ==, 66);
  gtk_window_destroy (window);
}

static void
test_places (void)
{
  g_autoptr (HsStripDay) day = create_day ();
  GtkWidget *strip = hs_time_strip_new (), *last_child;
  GtkWindow *window;
  graphene_rect_t early, late;

  hs_time_strip_set_day (HS_TIME_STRIP (strip), day);
  window = hs_app_test_show (strip, 1240, 240);
  last_child = gtk_widget_get_last_child (strip);
  g_assert_true (gtk_widget_compute_bounds (gtk_widget_get_prev_sibling (last_child), strip, &early));
  g_assert_true (gtk_widget_compute_bounds (last_child, strip, &late));
  /* 75 and 90 minutes of work, starts 168 minutes apart. */
  g_assert_cmpfloat_with_epsilon (late.size.width / early.size.width, 90.0 / 75.0, 0.03);
  g_assert_cmpfloat_with_epsilon ((late.origin.x - early.origin.x) / early.size.width, 168.0 / 75.0, 0.05);
  gtk_window_destroy (window);
}

static void
test_row (void)
{
  static const HsStopFace call = {
    .number = 3, .drive = 6, .time = "09:55", .plate = "TDM 8816", .name = "“slow crank”", .window = "08:30–10:30",
    .note = "55 Ah in van", .spare = "35", .tightest = TRUE,
  };
  GtkWidget *row = hs_stop_row_new ();
  GtkWidget *note;
  GtkWindow *window;
  int wide, narrow;

  hs_stop_row_set_face (HS_STOP_ROW (row), &call);
  window = hs_app_test_show (row, 800, 60);
  g_assert_true (hs_app_test_says (row, "09:55"));
  g_assert_true (hs_app_test_says (row, "TDM 8816"));
  g_assert_true (hs_app_test_says (row, "55 Ah in van"));
  gtk_widget_measure (row, GTK_ORIENTATION_VERTICAL, 800, NULL, &wide, NULL, NULL);
  hs_stop_row_set_narrow (HS_STOP_ROW (row), TRUE);
  gtk_widget_measure (row, GTK_ORIENTATION_VERTICAL, 360, NULL, &narrow, NULL, NULL);
  g_assert_cmpint (wide, ==, 44);
  g_assert_cmpint (narrow, >=, 62);
  g_assert_true (hs_app_test_says (row, "08:30–10:30"));
  g_assert_true (hs_app_test_says (row, "35 spare"));
  /* The same note, where it can be seen. */
  note = hs_app_test_label (gtk_widget_get_last_child (row), "55 Ah in van");
  g_assert_nonnull (note);
  hs_app_test_wait (gtk_widget_get_mapped (note));
  gtk_window_destroy (window);
}

int
main (int   argc,
      char *argv[])
{
  hs_app_test_init (&argc, &argv);
  g_test_add_func ("/app/strip/spare", test_spare);
  g_test_add_func ("/app/strip/late-is-tightest", test_late_is_tightest);
  g_test_add_func ("/app/strip/pack", test_pack);
  g_test_add_func ("/app/strip/pack-with-words", test_pack_with_words);
  g_test_add_func ("/app/strip/words", test_words);
  g_test_add_func ("/app/strip/done", test_done);
  g_test_add_func ("/app/strip/flag-hides-no-hour", test_flag_hides_no_hour);
  g_test_add_func ("/app/strip/home-has-room", test_home_has_room);
  g_test_add_func ("/app/strip/copy", test_copy);
  g_test_add_func ("/app/strip/keys", test_keys);
  g_test_add_func ("/app/strip/forms", test_forms);
  g_test_add_func ("/app/strip/places", test_places);
  g_test_add_func ("/app/strip/row", test_row);
  return g_test_run ();
}
