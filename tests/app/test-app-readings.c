// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Keying readings without a slip going in unseen: places that are implied and shown, figures that are asked about once,
 * what stands there already, keys that are quicker than the book, and the line that is read while the van rolls. */

#include "app-book.h"
#include "hs-app-test.h"
#include "hs-ask.h"
#include "hs-chip.h"
#include "hs-job-op.h"
#include "hs-job-page.h"
#include "hs-room.h"

static void
assert_says (GtkWidget *widget, const char *text)
{
  if (!hs_app_test_says_part (widget, text))
    g_error ("not shown: %s", text);
}

static void
assert_silent (GtkWidget *widget, const char *text)
{
  if (hs_app_test_says_part (widget, text))
    g_error ("shown: %s", text);
}

static HsFindings *
open_findings (AppBook *book, const char *number)
{
  return hs_job_page_get_findings (HS_JOB_PAGE (app_book_open_job (book, number, "findings")));
}

static void
assert_field (HsFindings *findings, const char *field, const char *text)
{
  g_autofree char *at = hs_findings_dup_field (findings);

  g_assert_cmpstr (at, ==, field);
  g_assert_cmpstr (hs_findings_get_text (findings), ==, text);
}

/* (transfer full): what the sheet of @phase shows of @check; "" if nothing was read. */
static char *
dup_stored (AppBook *book, const char *check, guint phase)
{
  HsQuestion *ask = hs_question_new (book->ledger, hs_ask_job, (GDestroyNotify) hs_job_shot_free);
  const char *id = hs_job_page_get_job_id (HS_JOB_PAGE (hs_window_get_job (book->window)));
  const HsJobShot *shot;
  char *text = NULL;

  hs_question_ask (ask, g_variant_new ("(s)", id));
  app_book_settle (book);
  shot = hs_question_get (ask);
  for (guint i = 0; i < shot->sheets[phase]->len; i++)
    {
      const HsReadingResult *row = g_ptr_array_index (shot->sheets[phase], i);

      if (text == NULL && g_strcmp0 (row->check, check) == 0)
        text = g_strdup (row->value_text != NULL ? row->value_text : "");
    }
  g_object_unref (ask);
  return text != NULL ? text : g_strdup ("no line");
}

static void
assert_stored (AppBook *book, const char *check, const char *text)
{
  g_autofree char *stored = dup_stored (book, check, 0);

  g_assert_cmpstr (stored, ==, text);
}

/* --- Places that are implied ------------------------------------------------------------------------------------- */

/* The empty field shows where digits come in, says it in a sentence, and tells it to those who do not see it. */
static void
test_shape (AppBook *book, gconstpointer data)
{
  static const struct
  {
    const char *check, *shape, *sentence;
  } rows[] = {
    { "battery_rest", "0.00", "31 is 0.31 V; 31. is 31.00 V" },
    { "starts_good", "0 of 0", "55 is 5 of 5, 9.12 is 9 of 12" },
    { "volts_through", "0.00 of 0.00", "11901262 is 11.90 of 12.62" },
  };
  HsFindings *findings = open_findings (book, "A-0024");
  GtkWidget *widget = GTK_WIDGET (findings);

  app_book_type (book, "9");
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      hs_findings_go (findings, rows[i].check, NULL);
      g_test_message ("%s", rows[i].check);
      g_assert_nonnull (hs_app_test_label (widget, rows[i].shape));
      assert_says (widget, rows[i].sentence);
    }
  hs_app_test_picture (widget, "readings-pair-empty");
}

static void
test_digits_come_in (AppBook *book, gconstpointer data)
{
  HsFindings *findings = open_findings (book, "A-0024");
  GtkWidget *widget = GTK_WIDGET (findings);
  GtkWidget *field;

  app_book_type (book, "2");
  hs_findings_go (findings, "sleeping_draw", NULL);
  hs_findings_focus (findings);
  field = gtk_window_get_focus (GTK_WINDOW (book->window));
  g_assert_nonnull (hs_app_test_label (widget, "0.000"));
  assert_says (widget, "31 is 0.031 A; 31. is 31.000 A");
  hs_app_test_picture (GTK_WIDGET (book->window), "readings-empty");
  g_assert_true (gtk_test_accessible_has_property (GTK_ACCESSIBLE (field), GTK_ACCESSIBLE_PROPERTY_LABEL));
  g_assert_null (gtk_test_accessible_check_property (GTK_ACCESSIBLE (field), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                                     "Sleeping draw, empty. Digits come in from the right: 31 is "
                                                     "0.031 A; 31. is 31.000 A"));
  app_book_type (book, "3");
  g_assert_nonnull (hs_app_test_label (widget, "0.003"));
  assert_silent (widget, "Digits come in");
  app_book_type (book, "1");
  g_assert_nonnull (hs_app_test_label (widget, "0.031"));
  app_book_type (book, ".");
  g_assert_nonnull (hs_app_test_label (widget, "31.000"));
  app_book_type (book, "\n");
  /* Milliamps keyed as amps: no meter shows it, so it is asked. */
  assert_says (widget, "31.000 A?");
  assert_stored (book, "sleeping_draw", "");
  app_book_type (book, "+");
  assert_stored (book, "sleeping_draw", "31.000 A");
}

/* --- What is asked about once ------------------------------------------------------------------------------------ */

static void
test_asks_once (AppBook *book, gconstpointer data)
{
  HsFindings *findings = open_findings (book, "A-0022");
  GtkWidget *widget = GTK_WIDGET (findings);

  app_book_type (book, "1");
  hs_findings_go (findings, "battery_rest", NULL);
  app_book_type (book, "124.2\n");
  assert_says (widget, "124.20 V?");
  assert_says (widget, "Likely is 6.00 to 16.00 V (common practice).");
  assert_says (widget, "yes, I read that");
  hs_app_test_picture (GTK_WIDGET (book->window), "readings-asked");
  assert_stored (book, "battery_rest", "");
  assert_field (findings, "battery_rest", "124.2");
  /* Keyed anew. */
  app_book_press (book, GDK_KEY_minus);
  app_book_settle (book);
  assert_field (findings, "battery_rest", "");
  assert_silent (widget, "yes, I read that");
  app_book_type (book, "1242\n");
  assert_stored (book, "battery_rest", "12.42 V");

  /* A digit was left out; a battery that is really drained so flat is kept by +. */
  hs_findings_go (findings, "battery_rest", NULL);
  app_book_type (book, "126\n");
  assert_says (widget, "1.26 V?");
  assert_stored (book, "battery_rest", "12.42 V");
  app_book_type (book, "+");
  assert_stored (book, "battery_rest", "1.26 V");

  /* A battery of 58 V, and meant: no Enter says so, however often, and the cursor stays; + does. */
  hs_findings_go (findings, "cranking", NULL);
  app_book_type (book, "58.\n\n\n");
  assert_says (widget, "58.00 V?");
  assert_stored (book, "cranking", "");
  assert_field (findings, "cranking", "58.");
  assert_silent (widget, "not taken");
  app_book_type (book, "+");
  assert_stored (book, "cranking", "58.00 V");
  g_assert_cmpstr (hs_findings_get_phase (findings), ==, "before");

  /* A change by a key back is asked about again. */
  hs_findings_go (findings, "drop_feed", NULL);
  app_book_type (book, "99999\n");
  assert_says (widget, "999.99 V?");
  app_book_press (book, GDK_KEY_BackSpace);
  app_book_settle (book);
  assert_silent (widget, "yes, I read that");
  app_book_type (book, "\n");
  assert_says (widget, "99.99 V?");
  app_book_press (book, GDK_KEY_minus);
  app_book_settle (book);
  assert_field (findings, "drop_feed", "");
  assert_stored (book, "drop_feed", "");
}

/* What the check takes goes in with the first Enter, as ever; ten digits do not. */
static void
test_asks_nothing_else (AppBook *book, gconstpointer data)
{
  HsFindings *findings = open_findings (book, "A-0022");

  app_book_type (book, "1");
  hs_findings_go (findings, "battery_rest", NULL);
  app_book_type (book, "1205\n248\n890\n31\n210\n164\n");
  assert_stored (book, "battery_rest", "12.05 V");
  assert_stored (book, "battery_strength", "248 A");
  assert_stored (book, "cranking", "8.90 V");
  assert_stored (book, "drop_feed", "0.31 V");
  assert_stored (book, "drop_ground", "2.10 V");
  assert_stored (book, "starter_draw", "164 A");
}

/* --- What stands there already ----------------------------------------------------------------------------------- */

static guint
count_readings (AppBook *book, const char *check)
{
  g_autoptr (GError) error = NULL;
  const HsBookUser user = { "test", "here", 1, hs_ledger_get_now (book->ledger) };
  g_autoptr (HsBook) other = hs_book_open (book->path, HS_BOOK_READ, &user, &error);
  const char *id = hs_job_page_get_job_id (HS_JOB_PAGE (hs_window_get_job (book->window)));
  g_autoptr (HsJobView) view = NULL;
  guint n = 0;

  g_assert_no_error (error);
  view = hs_job_view_load (other, id, hs_ledger_get_now (book->ledger), &error);
  g_assert_no_error (error);
  for (guint i = 0; i < view->readings->len; i++)
    n += g_str_equal (((const HsReadingResult *) g_ptr_array_index (view->readings, i))->check, check);
  return n;
}

static void
test_stands_already (AppBook *book, gconstpointer data)
{
  HsFindings *findings = open_findings (book, "A-0022");
  GtkWidget *widget = GTK_WIDGET (findings);

  app_book_type (book, "1");
  hs_findings_go (findings, "starter_draw", NULL);
  app_book_type (book, "164\n");
  hs_findings_go (findings, "starter_draw", NULL);
  app_book_type (book, "170\n");
  assert_says (widget, "164 A stands here.");
  assert_says (widget, "170 A becomes a further reading; both stay in the book.");
  hs_app_test_picture (GTK_WIDGET (book->window), "readings-stands");
  assert_stored (book, "starter_draw", "164 A");
  app_book_type (book, "\n");
  assert_stored (book, "starter_draw", "164 A");
  app_book_type (book, "+");
  assert_stored (book, "starter_draw", "170 A");
  g_assert_cmpuint (count_readings (book, "starter_draw"), ==, 2);

  /* The same once more says nothing new; over range does. */
  hs_findings_go (findings, "starter_draw", NULL);
  app_book_type (book, "170\n");
  g_assert_cmpuint (count_readings (book, "starter_draw"), ==, 3);
  hs_findings_go (findings, "starter_draw", NULL);
  app_book_type (book, "/");
  assert_says (widget, "170 A stands here.");
  assert_says (widget, "over range becomes a further reading");
  assert_stored (book, "starter_draw", "170 A");
  app_book_type (book, "/\n");
  assert_stored (book, "starter_draw", "170 A");
  assert_field (findings, "starter_draw", "");
  app_book_type (book, "+");
  assert_stored (book, "starter_draw", "over range");

  /* What could not be measured is simply measured now; in another place nothing stands yet. */
  hs_findings_go (findings, "drop_ground", NULL);
  app_book_type (book, "*1");
  assert_stored (book, "drop_ground", "not measured");
  hs_findings_go (findings, "drop_ground", NULL);
  app_book_type (book, "31\n");
  assert_stored (book, "drop_ground", "0.31 V");
  hs_findings_go (findings, "drop_ground", NULL);
  app_book_type (book, "5body\n");
  g_assert_cmpuint (count_readings (book, "drop_ground"), ==, 3);

  /* Why it could not be measured is asked anyway; it says then what stands there. */
  hs_findings_go (findings, "starter_draw", NULL);
  app_book_type (book, "*");
  assert_says (widget, "over range stands here.");
}

/* Codes and words are asked about as figures are: no sign of the answer goes into the text. */
static void
test_words_stand_already (AppBook *book, gconstpointer data)
{
  static const struct
  {
    const char *number, *group, *check, *first, *second;
  } rows[] = {
    { "A-0022", "1", "trouble_codes", "P0562", "P0300" },
    { "A-0024", "7", "battery_code", "C5", "D6" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *stands = g_strconcat (rows[i].first, " stands here.", NULL);
      HsFindings *findings = open_findings (book, rows[i].number);
      GtkWidget *widget = GTK_WIDGET (findings);

      app_book_type (book, rows[i].group);
      hs_findings_go (findings, rows[i].check, NULL);
      app_book_type (book, rows[i].first);
      app_book_type (book, "\n");
      hs_findings_go (findings, rows[i].check, NULL);
      app_book_type (book, rows[i].second);
      app_book_type (book, "\n");
      assert_says (widget, stands);
      app_book_type (book, "-");
      assert_field (findings, rows[i].check, "");
      assert_silent (widget, stands);
      app_book_type (book, rows[i].second);
      app_book_type (book, "\n");
      assert_stored (book, rows[i].check, rows[i].first);
      app_book_type (book, "+");
      assert_stored (book, rows[i].check, rows[i].second);
    }
}

/* --- Keys that are quicker than the book ------------------------------------------------------------------------- */

static void
press_all (HsFindings *findings, const char *keys)
{
  for (const char *at = keys; *at != '\0'; at++)
    hs_findings_press (findings, *at == '\n' ? GDK_KEY_Return : gdk_unicode_to_keyval (*at));
}

/* The digit that lays the sheet out, and right behind it the first reading. */
static void
test_quick_after_group (AppBook *book, gconstpointer data)
{
  HsFindings *findings = open_findings (book, "A-0022");

  press_all (findings, "11242\n430\n");
  app_book_settle (book);
  hs_app_test_wait (g_strcmp0 (hs_findings_get_text (findings), "") == 0);
  assert_stored (book, "battery_rest", "12.42 V");
  assert_stored (book, "battery_strength", "430 A");
}

/* An arrow that comes while a reading is on its way goes from the line that comes next. */
static void
test_quick_arrow (AppBook *book, gconstpointer data)
{
  HsFindings *findings = open_findings (book, "A-0022");

  app_book_type (book, "1");
  hs_findings_go (findings, "battery_rest", NULL);
  hs_findings_focus (findings);
  press_all (findings, "1242\n");
  app_book_press (book, GDK_KEY_Down);
  press_all (findings, "962\n");
  app_book_settle (book);
  assert_stored (book, "battery_rest", "12.42 V");
  assert_stored (book, "battery_strength", "");
  assert_stored (book, "cranking", "9.62 V");
}

/* A reading that is asked about, or that the book refuses, keeps its line. What a hand keys on that has not looked is
 * no answer and goes into no line; it is told, whether it came while the book wrote or not. */
static void
test_quick_after_doubt (AppBook *book, gconstpointer data)
{
  HsFindings *findings = open_findings (book, "A-0022");
  GtkWidget *widget = GTK_WIDGET (findings);

  app_book_type (book, "1");
  hs_findings_go (findings, "battery_rest", NULL);
  press_all (findings, "1242\n56000\n962\n");
  app_book_settle (book);
  assert_field (findings, "battery_strength", "56000");
  assert_says (widget, "56000 A?");
  assert_says (widget, "Keyed after it and not taken: 962 Enter");
  assert_stored (book, "battery_rest", "12.42 V");
  assert_stored (book, "cranking", "");
  app_book_press (book, GDK_KEY_minus);
  app_book_settle (book);
  assert_silent (widget, "not taken");

  /* The same as slowly as one likes; a + among such keys is no answer, only one that comes by itself. */
  app_book_type (book, "56000\n962");
  assert_silent (widget, "yes, I read that");
  app_book_type (book, "+\n");
  assert_says (widget, "yes, I read that");
  assert_says (widget, "Keyed after it and not taken: 962+ Enter");
  assert_field (findings, "battery_strength", "56000");
  assert_stored (book, "battery_strength", "");
  app_book_type (book, "\n");
  assert_stored (book, "battery_strength", "");
  app_book_type (book, "+");
  assert_stored (book, "battery_strength", "56000 A");
  assert_field (findings, "cranking", "");

  /* What is no figure at all the book refuses. */
  press_all (findings, "12.425\n31\n");
  app_book_settle (book);
  assert_field (findings, "cranking", "12.425");
  assert_says (widget, "only 2 decimals");
  app_book_press (book, GDK_KEY_minus);
  press_all (findings, "962\n31.555\n164\n");
  app_book_settle (book);
  assert_stored (book, "cranking", "9.62 V");
  assert_field (findings, "drop_feed", "31.555");
  assert_says (widget, "only 2 decimals");
  assert_says (widget, "Keyed after it and not taken: 164 Enter");
}

/* --- Where Enter leads, and how digits look ---------------------------------------------------------------------- */

static gboolean
lies_in (GtkWidget *widget, GtkWidget *frame, graphene_rect_t *ret_area)
{
  return gtk_widget_get_mapped (widget) && gtk_widget_compute_bounds (widget, frame, ret_area)
         && ret_area->origin.x >= 0 && ret_area->origin.y >= 0
         && ret_area->origin.x + ret_area->size.width <= gtk_widget_get_width (frame)
         && ret_area->origin.y + ret_area->size.height <= gtk_widget_get_height (frame);
}

static GtkWidget *
find_named (GtkWidget *widget, const char *css_name)
{
  if (g_strcmp0 (gtk_widget_get_css_name (widget), css_name) == 0)
    return widget;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = find_named (child, css_name);

      if (found != NULL)
        return found;
    }
  return NULL;
}

static void
set_size (AppBook *book, int width, int height)
{
  gtk_window_set_default_size (GTK_WINDOW (book->window), width, height);
  hs_app_test_wait (gtk_widget_get_width (GTK_WIDGET (book->window)) == width
                    && gtk_widget_get_height (GTK_WIDGET (book->window)) == height);
  app_book_settle (book);
  hs_app_test_frames ();
}

/* The best check and its minutes are on the screen however long the page is, and no toast lies over them. */
static void
test_best_in_sight (AppBook *book, gconstpointer data)
{
  static const int sizes[][2] = { { 1024, 600 }, { 360, 700 }, { 1280, 800 } };
  HsFindings *findings = open_findings (book, "A-0021");

  app_book_type (book, "1");
  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      g_autofree char *name = g_strdup_printf ("readings-best-%d", sizes[i][0]);
      GtkWidget *best, *toast;
      graphene_rect_t area, over;

      set_size (book, sizes[i][0], sizes[i][1]);
      hs_findings_go (findings, "sleeping_draw", NULL);
      app_book_type (book, "310");
      hs_window_toast (book->window, "A sentence that passes, as long as they come, over the bottom of the page.", NULL,
                       NULL);
      hs_app_test_frames ();
      hs_app_test_wait (find_named (GTK_WIDGET (book->window), "toast") != NULL);
      hs_app_test_picture (GTK_WIDGET (book->window), name);
      best = hs_app_test_label (GTK_WIDGET (findings), "Next best: Key turned to start, 74 min");
      g_assert_nonnull (best);
      g_assert_true (lies_in (best, GTK_WIDGET (book->window), &area));
      toast = find_named (GTK_WIDGET (book->window), "toast");
      hs_app_test_wait (gtk_widget_get_mapped (toast));
      g_assert_true (gtk_widget_compute_bounds (toast, GTK_WIDGET (book->window), &over));
      g_assert_false (graphene_rect_intersection (&area, &over, NULL));
      for (guint k = 0; k < 3; k++)
        app_book_press (book, GDK_KEY_BackSpace);
      app_book_settle (book);
    }
  /* It is a button too, for those who have no keys; on its line it says so. */
  g_signal_emit_by_name (hs_app_test_button (GTK_WIDGET (findings), "Next best: Key turned to start, 74 min"),
                         "clicked");
  app_book_settle (book);
  assert_field (findings, "key_turn", "");
  g_assert_nonnull (hs_app_test_label (GTK_WIDGET (findings), "This is the next best check, 74 min"));
}

static void
list_caps (GtkWidget *widget, GString *caps)
{
  if (HS_IS_KEYCAP (widget) && gtk_widget_get_mapped (widget))
    g_string_append_printf (caps, "%s ", hs_chip_get_text (HS_CHIP (widget)));
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    list_caps (child, caps);
}

/* Whatever is answered by a key has that key as a cap before its word. */
static void
test_keycaps (AppBook *book, gconstpointer data)
{
  static const struct
  {
    const char *check, *typed, *caps, *word;
  } rows[] = {
    { "key_turn", "", "1 2 3 4 5 6 7 ", "fast clicks" },
    { "cranking", "*", "1 2 3 4 5 6 ", "tool not on hand" },
    { "cranking", "890", "+ ", "Temperature of the battery or the air" },
    { "cranking", "890+", "+ Enter ", "not known" },
    { "cranking", "9620\n", "+ − ", "yes, I read that" },
    { "cranking", "9620\n5", "Enter − ", "not taken; then + or −" },
    { "cranking", "9620\n5\n", "+ − ", "yes, I read that" },
  };
  HsFindings *findings = open_findings (book, "A-0022");

  app_book_type (book, "1");
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *name = g_strdup_printf ("readings-caps-%u", i);
      g_autoptr (GString) caps = g_string_new (NULL);
      GtkWidget *word;

      hs_findings_go (findings, rows[i].check, NULL);
      app_book_type (book, rows[i].typed);
      hs_app_test_frames ();
      hs_app_test_picture (GTK_WIDGET (book->window), name);
      word = hs_app_test_label (GTK_WIDGET (findings), rows[i].word);
      g_assert_nonnull (word);
      list_caps (gtk_widget_get_parent (gtk_widget_get_parent (word)), caps);
      g_assert_cmpstr (caps->str, ==, rows[i].caps);
      for (guint k = 0; k < 12; k++)
        app_book_press (book, GDK_KEY_BackSpace);
      app_book_settle (book);
    }
}

/* --- In the hand, with large text -------------------------------------------------------------------------------- */

static int
least_width (GtkWidget *widget)
{
  int least;

  gtk_widget_measure (widget, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  return least;
}

static void
name_widest (GtkWidget *widget, int depth)
{
  GtkWidget *widest = NULL;

  g_test_message ("%*s%s needs %d", 2 * depth, "", G_OBJECT_TYPE_NAME (widget), least_width (widget));
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (gtk_widget_should_layout (child) && gtk_widget_get_child_visible (child)
        && (widest == NULL || least_width (child) > least_width (widest)))
      widest = child;
  if (widest != NULL)
    name_widest (widest, depth + 1);
}

/* A page that is too tall for its window is given more width than the window has: what counts is where it lies. */
static void
assert_narrow (GtkWidget *content, HsFindings *findings, const char *what)
{
  GtkWidget *window = GTK_WIDGET (gtk_widget_get_root (content));
  graphene_rect_t area = { 0 };

  hs_app_test_frames ();
  if (least_width (content) <= 360 && lies_in (content, window, &area)
      && lies_in (GTK_WIDGET (findings), window, &area)
      && lies_in (gtk_window_get_focus (GTK_WINDOW (window)), window, &area))
    return;
  g_test_message ("%s: %g, %g: %g x %g of %d x %d", what, area.origin.x, area.origin.y, area.size.width,
                  area.size.height, gtk_widget_get_width (window), gtk_widget_get_height (window));
  name_widest (content, 0);
  g_test_fail ();
}

/* What is typed that takes the most room; "" is the empty field, then a figure, a doubt, a reason and a condition. */
static void
fit_check (AppBook *book, HsFindings *findings, GtkWidget *content, const HsCheck *check)
{
  static const char *const number[] = { "", "1242", "88888\n", "*", "890+" };
  static const char *const pair[] = { "", "55", "11901262", "*" };
  static const char *const words[] = { "", "2", "*" };
  const char *const *typed = check->entry == HS_CHECK_NUMBER ? number : check->entry == HS_CHECK_PAIR ? pair : words;
  guint n = check->entry == HS_CHECK_NUMBER ? 5 : check->entry == HS_CHECK_PAIR ? 4 : 3;

  for (guint i = 0; i < n; i++)
    {
      g_autofree char *what = g_strdup_printf ("%s %s", check->id, typed[i]);
      g_autofree char *name = g_strdup_printf ("readings-slim-%s-%u", check->id, i);

      hs_findings_go (findings, check->id, NULL);
      hs_findings_focus (findings);
      app_book_type (book, typed[i]);
      assert_narrow (content, findings, what);
      if (g_str_equal (check->id, "sleeping_draw") || g_str_equal (check->id, "volts_through")
          || g_str_equal (check->id, "key_turn") || g_str_equal (check->id, "cranking"))
        hs_app_test_picture (GTK_WIDGET (book->window), name);
      for (guint k = 0; k < 12; k++)
        app_book_press (book, GDK_KEY_BackSpace);
      app_book_settle (book);
    }
}

/* What is asked, and the keys that answer it, have the room of the list. */
static void
assert_question_in_sight (AppBook *book, HsFindings *findings)
{
  graphene_rect_t area;

  hs_findings_go (findings, "cranking", NULL);
  app_book_type (book, "88888\n");
  hs_app_test_frames ();
  g_assert_true (lies_in (hs_app_test_label (GTK_WIDGET (findings), "888.88 V?"),
                          hs_app_test_find (GTK_WIDGET (findings), GTK_TYPE_STACK), &area));
  hs_app_test_picture (GTK_WIDGET (book->window), "readings-slim-asked");
  g_assert_true (lies_in (hs_app_test_label (GTK_WIDGET (findings), "yes, I read that"),
                          hs_app_test_find (GTK_WIDGET (findings), GTK_TYPE_STACK), &area));
  app_book_press (book, GDK_KEY_minus);
  app_book_settle (book);
}

/* Text of twice the size on 360 pixels: whatever is typed, on whichever line, no page is wider than its window. */
static void
test_large_text (AppBook *book, gconstpointer data)
{
  static const struct
  {
    const char *job, *digit, *group;
  } rows[] = { { "A-0022", "1", "will_not_start" }, { "A-0024", "2", "drains" }, { "A-0021", "9", "other" } };
  GtkWidget *content = gtk_widget_get_first_child (hs_app_test_find (GTK_WIDGET (book->window), HS_TYPE_ROOM));
  HsChecks *checks = hs_ledger_get_checks (book->ledger);

  g_object_set (gtk_settings_get_default (), "gtk-font-name", "Cantarell 22", NULL);
  gtk_window_set_default_size (GTK_WINDOW (book->window), 360, 720);
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const HsCheckGroup *group = hs_checks_lookup_group (checks, rows[i].group);
      HsFindings *findings = open_findings (book, rows[i].job);

      hs_app_test_wait (hs_window_get_narrow (book->window));
      hs_app_test_frames ();
      hs_app_test_picture (GTK_WIDGET (book->window), "readings-slim-groups");
      assert_narrow (content, findings, "groups");
      app_book_type (book, rows[i].digit);
      if (i == 0)
        assert_question_in_sight (book, findings);
      for (guint j = 0; group->check_ids[j] != NULL; j++)
        fit_check (book, findings, content, hs_checks_lookup (checks, group->check_ids[j]));
    }
  g_object_set (gtk_settings_get_default (), "gtk-font-name", "Cantarell 11", NULL);
}

/* --- While the van rolls ----------------------------------------------------------------------------------------- */

static guint
count_labels (GtkWidget *widget)
{
  guint n = GTK_IS_LABEL (widget) && gtk_widget_get_mapped (widget)
            && *gtk_label_get_label (GTK_LABEL (widget)) != '\0';

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    n += count_labels (child);
  return n;
}

/* Eyes on the road: in the phase “during” one line, the reading that is being keyed, and nothing is asked; in the
 * others, and at the vehicle, the form is there. */
static void
test_rolling (AppBook *book, gconstpointer data)
{
  static const int sizes[][2] = { { 1280, 800 }, { 1024, 600 }, { 360, 700 } };
  HsFindings *findings = open_findings (book, "A-0022");
  GtkWidget *widget = GTK_WIDGET (findings);
  g_autofree char *stored = NULL;

  app_book_type (book, "1");
  app_book_press (book, GDK_KEY_F4);
  app_book_settle (book);
  hs_findings_focus (findings);
  assert_says (widget, "How to measure");
  app_book_type (book, "+");
  g_assert_cmpstr (hs_findings_get_phase (findings), ==, "during");
  g_assert_true (hs_app_test_says (widget, "Battery at rest: 0.00 V"));
  app_book_type (book, "1242");
  hs_app_test_wait (hs_app_test_says (widget, "Battery at rest: 12.42 V, within"));
  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      g_autofree char *name = g_strdup_printf ("readings-rolling-%d", sizes[i][0]);

      set_size (book, sizes[i][0], sizes[i][1]);
      hs_app_test_picture (GTK_WIDGET (book->window), name);
      g_assert_true (hs_app_test_says (widget, "Battery at rest: 12.42 V, within"));
      g_assert_true (lies_in (hs_app_test_label (widget, "Battery at rest: 12.42 V, within"), widget,
                              &(graphene_rect_t) { 0 }));
    }
  set_size (book, 1280, 800);
  g_assert_cmpuint (count_labels (widget), ==, 1);
  app_book_type (book, "\n");
  hs_app_test_wait (hs_app_test_says (widget, "Battery strength: 0 A"));
  stored = dup_stored (book, "battery_rest", 1);
  g_assert_cmpstr (stored, ==, "12.42 V");
  app_book_type (book, "560000\n");
  g_assert_true (hs_app_test_says (widget, "Battery strength: 560000 A? + if I read that"));
  app_book_press (book, GDK_KEY_minus);
  app_book_press (book, GDK_KEY_F4);
  app_book_settle (book);
  hs_app_test_wait (hs_app_test_says_part (widget, "How to measure"));
}

/* Rolling, a star asks for no reason, so that the digit behind it is a figure and no reason that nobody read; one that
 * was asked for before is not asked for any more. */
static void
test_rolling_star (AppBook *book, gconstpointer data)
{
  HsFindings *findings = open_findings (book, "A-0022");
  GtkWidget *widget = GTK_WIDGET (findings);
  g_autofree char *stored = NULL;

  app_book_type (book, "1");
  app_book_press (book, GDK_KEY_F4);
  app_book_settle (book);
  hs_findings_focus (findings);
  app_book_type (book, "*");
  g_assert_true (hs_app_test_says (widget, "Not measured. Why? One digit:"));
  app_book_type (book, "+");
  g_assert_true (hs_app_test_says (widget, "Battery at rest: 0.00 V"));
  app_book_type (book, "*");
  app_book_type (book, "1");
  app_book_settle (book);
  g_assert_true (hs_app_test_says (widget, "Battery at rest: 0.01 V"));
  app_book_type (book, "242*\n");
  hs_app_test_wait (hs_app_test_says (widget, "Battery strength: 0 A"));
  stored = dup_stored (book, "battery_rest", 1);
  g_assert_cmpstr (stored, ==, "12.42 V");
}

#define ADD(name, func) g_test_add (name, AppBook, NULL, app_book_open, func, app_book_close)

int
main (int argc, char *argv[])
{
  /* What a screen reader is told can be asked for. */
  g_setenv ("GTK_A11Y", "test", TRUE);
  hs_app_test_init (&argc, &argv);
  ADD ("/readings/shape", test_shape);
  ADD ("/readings/digits-come-in", test_digits_come_in);
  ADD ("/readings/asks-once", test_asks_once);
  ADD ("/readings/asks-nothing-else", test_asks_nothing_else);
  ADD ("/readings/stands-already", test_stands_already);
  ADD ("/readings/words-stand-already", test_words_stand_already);
  ADD ("/readings/quick-after-group", test_quick_after_group);
  ADD ("/readings/quick-arrow", test_quick_arrow);
  ADD ("/readings/quick-after-doubt", test_quick_after_doubt);
  ADD ("/readings/best-in-sight", test_best_in_sight);
  ADD ("/readings/keycaps", test_keycaps);
  ADD ("/readings/large-text", test_large_text);
  ADD ("/readings/rolling", test_rolling);
  ADD ("/readings/rolling-star", test_rolling_star);
  return g_test_run ();
}
