// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What a verdict rests on, on the findings page: the conditions it asks for, whose limit it used and how sure that is,
 * and a limit of the vehicle's own, all by number pad. */

#include "app-book.h"
#include "hs-app-test.h"
#include "hs-ask.h"
#include "hs-deed-undo.h"
#include "hs-gauge.h"
#include "hs-job-page.h"
#include "hs-limit-window.h"
#include "hs-room.h"

static void
assert_says (GtkWidget *widget, const char *text)
{
  if (!hs_app_test_says_part (widget, text))
    g_error ("not shown: %s", text);
}

static HsFindings *
open_findings (AppBook *book, const char *number)
{
  return hs_job_page_get_findings (HS_JOB_PAGE (app_book_open_job (book, number, "findings")));
}

/* What the book has of @check before the repair, as it judges it. */
static void
assert_stored (AppBook *book, const char *check, const char *text, const char *verdict)
{
  HsQuestion *ask = hs_question_new (book->ledger, hs_ask_job, (GDestroyNotify) hs_job_shot_free);
  const char *id = hs_job_page_get_job_id (HS_JOB_PAGE (hs_window_get_job (book->window)));
  const HsJobShot *shot;
  gboolean found = FALSE;

  hs_question_ask (ask, g_variant_new ("(s)", id));
  app_book_settle (book);
  shot = hs_question_get (ask);
  for (guint i = 0; i < shot->sheets[0]->len; i++)
    {
      const HsReadingResult *row = g_ptr_array_index (shot->sheets[0], i);

      if (g_strcmp0 (row->check, check) != 0)
        continue;
      found = TRUE;
      g_assert_cmpstr (row->value_text, ==, text);
      g_assert_cmpstr (row->verdict, ==, verdict);
    }
  g_assert_true (found);
  g_object_unref (ask);
}

/* 8.90 V of cranking says nothing without the temperature; at 21 °C sources differ, and the book keeps both. */
static void
test_asks_what_counts (AppBook *book, gconstpointer data)
{
  HsFindings *findings = open_findings (book, "A-0022");
  GtkWidget *widget = GTK_WIDGET (findings);

  app_book_type (book, "1");
  hs_findings_go (findings, "cranking", NULL);
  app_book_type (book, "890");
  assert_says (widget, "The verdict depends on it:");
  assert_says (widget, "Temperature");
  app_book_type (book, "+");
  assert_says (widget, "°C");
  g_assert_true (hs_app_test_says (widget, "not known"));
  hs_app_test_picture (widget, "findings-asks");
  app_book_type (book, "21");
  assert_says (widget, "21");
  app_book_type (book, "\n");
  assert_says (widget, "8.90");
  assert_says (widget, "makers differ");
  app_book_type (book, "\n");
  assert_stored (book, "cranking", "8.90 V", "depends");
}

/* Enter alone is not known; back leaves the question; a minus is a temperature's own. */
static void
test_answers_and_leaves (AppBook *book, gconstpointer data)
{
  HsFindings *findings = open_findings (book, "A-0022");
  GtkWidget *widget = GTK_WIDGET (findings);

  app_book_type (book, "1");
  hs_findings_go (findings, "cranking", NULL);
  app_book_type (book, "890+");
  app_book_press (book, GDK_KEY_BackSpace);
  app_book_settle (book);
  g_assert_false (hs_app_test_says (widget, "not known"));
  app_book_type (book, "+-9\n");
  assert_says (widget, "within");
  app_book_type (book, "\n");
  assert_stored (book, "cranking", "8.90 V", "within");

  /* The cold holds for the whole visit and is not asked again; nobody is asked twice either. */
  hs_findings_go (findings, "cranking", NULL);
  app_book_type (book, "890");
  assert_says (widget, "within");
  g_assert_false (hs_app_test_says_part (widget, "The verdict depends on it:"));
  app_book_type (book, "+");
  g_assert_cmpstr (hs_findings_get_text (findings), ==, "890");
}

/* What was stored without it, or with "not known", can still be told: on its line + asks, as often as nobody knows; the
 * answer is in the book, and F10 takes it back. Behind the last line + is the phase's, for nobody went there to ask. */
static void
test_tells_later (AppBook *book, gconstpointer data)
{
  HsFindings *findings = open_findings (book, "A-0022");
  GtkWidget *widget = GTK_WIDGET (findings);

  app_book_type (book, "1");
  hs_findings_go (findings, "cranking", NULL);
  app_book_type (book, "890+\n");
  assert_says (widget, "The verdict depends on it:");
  app_book_type (book, "\n");
  assert_stored (book, "cranking", "8.90 V", "cannot_tell");
  app_book_press (book, GDK_KEY_Up);
  app_book_settle (book);
  assert_says (widget, "The verdict depends on it:");
  hs_app_test_picture (GTK_WIDGET (book->window), "findings-tells-later");
  app_book_type (book, "+\n");
  assert_stored (book, "cranking", "8.90 V", "cannot_tell");
  app_book_type (book, "+-9\n");
  assert_stored (book, "cranking", "8.90 V", "within");
  g_assert_cmpstr (hs_findings_get_phase (findings), ==, "before");
  g_assert_false (hs_app_test_says_part (widget, "The verdict depends on it:"));
  app_book_press (book, GDK_KEY_F10);
  app_book_settle (book);
  assert_stored (book, "cranking", "8.90 V", "cannot_tell");
  assert_says (widget, "The verdict depends on it:");
  app_book_type (book, "+-9\n+");
  g_assert_cmpstr (hs_findings_get_phase (findings), ==, "during");
}

/* After the repair the cursor begins at what was outside before and is still to be read again, and goes on to the next
 * such; what is read good is passed over. */
static void
test_after_begins (AppBook *book, gconstpointer data)
{
  HsFindings *findings = open_findings (book, "A-0024");
  g_autofree char *first = NULL, *second = NULL, *third = NULL;

  app_book_type (book, "2");
  hs_findings_go (findings, "battery_rest", NULL);
  app_book_type (book, "1260\n");
  hs_findings_go (findings, "charging", NULL);
  app_book_type (book, "1230\n");
  hs_findings_go (findings, "sleeping_draw", NULL);
  app_book_type (book, "310\n");
  app_book_type (book, "++");
  g_assert_cmpstr (hs_findings_get_phase (findings), ==, "after");
  first = hs_findings_dup_field (findings);
  g_assert_cmpstr (first, ==, "charging/after");
  hs_app_test_picture (GTK_WIDGET (book->window), "findings-after-begins");
  app_book_type (book, "1420\n");
  second = hs_findings_dup_field (findings);
  g_assert_cmpstr (second, ==, "sleeping_draw/after");
  app_book_type (book, "24\n+++");
  third = hs_findings_dup_field (findings);
  g_assert_cmpstr (third, ==, "battery_rest/after");
}

/* Digits that follow Enter are the next reading's, whatever the verdict still wants. */
static void
test_never_in_the_way (AppBook *book, gconstpointer data)
{
  HsFindings *findings = open_findings (book, "A-0022");

  app_book_type (book, "1");
  hs_findings_go (findings, "cranking", NULL);
  app_book_type (book, "890\n");
  assert_stored (book, "cranking", "8.90 V", "cannot_tell");
  app_book_type (book, "31");
  g_assert_cmpstr (hs_findings_get_text (findings), ==, "31");
}

/* How sure a limit is stands behind who says so. */
static void
test_says_how_sure (AppBook *book, gconstpointer data)
{
  HsFindings *findings = open_findings (book, "A-0022");

  app_book_type (book, "1");
  hs_findings_go (findings, "battery_rest", NULL);
  app_book_type (book, "1242");
  assert_says (GTK_WIDGET (findings), "Who says so");
  assert_says (GTK_WIDGET (findings), "(common practice)");
}

/* The maker's value wins over the catalog and over the owner's own limit; the verdict says whose it used. */
static void
test_own_limit (AppBook *book, gconstpointer data)
{
  HsFindings *findings = open_findings (book, "A-0022");
  GtkWidget *widget = GTK_WIDGET (findings);
  HsLimitWindow *window;
  HsGauge *gauge;
  GList *windows;

  app_book_type (book, "1");
  hs_findings_go (findings, "battery_rest", NULL);
  gauge = HS_GAUGE (hs_app_test_find (widget, HS_TYPE_GAUGE));
  g_assert_cmpfloat (hs_gauge_get_fraction (gauge, 15.5), >=, 1);
  app_book_type (book, ".");
  windows = gtk_window_list_toplevels ();
  window = NULL;
  for (GList *at = windows; at != NULL; at = at->next)
    if (HS_IS_LIMIT_WINDOW (at->data))
      window = at->data;
  g_list_free (windows);
  g_assert_nonnull (window);
  g_object_add_weak_pointer (G_OBJECT (window), (gpointer *) &window);
  assert_says (GTK_WIDGET (window), "no limit of its own");
  hs_limit_window_fill (window, "1220", "1550", "", TRUE);
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (window), "limit.write", NULL));
  app_book_settle (book);
  g_assert_nonnull (window);
  assert_says (GTK_WIDGET (window), "who says so");
  hs_limit_window_fill (window, "1220", "1550", "maker's manual p. 12", TRUE);
  hs_app_test_picture (GTK_WIDGET (window), "findings-limit");
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (window), "limit.write", NULL));
  hs_app_test_wait (window == NULL);
  app_book_settle (book);

  app_book_type (book, "1240");
  gauge = HS_GAUGE (hs_app_test_find (widget, HS_TYPE_GAUGE));
  g_assert_cmpfloat (hs_gauge_get_fraction (gauge, 15.5), <, 1);
  assert_says (widget, "within");
  assert_says (widget, "12.20 to 15.50 V");
  assert_says (widget, "maker's manual p. 12");
  assert_says (widget, "(maker's value)");
  hs_app_test_picture (widget, "findings-maker");
}

/* A word is one digit; codes take letters, and a sign is a command only before the first of them. */
static void
test_words (AppBook *book, gconstpointer data)
{
  HsFindings *findings = open_findings (book, "A-0022");
  GtkWidget *widget = GTK_WIDGET (findings);

  app_book_type (book, "1");
  hs_findings_go (findings, "key_turn", NULL);
  assert_says (widget, "One digit:");
  app_book_type (book, "23");
  assert_says (widget, "fast clicks");
  hs_app_test_picture (widget, "findings-words");
  app_book_type (book, "\n");
  assert_stored (book, "key_turn", "fast clicks", "outside");

  hs_findings_go (findings, "trouble_codes", NULL);
  app_book_type (book, "P0133 u0100");
  assert_says (widget, "P0133 u0100");
  app_book_type (book, "\n");
  assert_stored (book, "trouble_codes", "P0133 U0100", "watch");
  hs_findings_go (findings, "trouble_codes", NULL);
  app_book_type (book, "P4133\n");
  assert_says (widget, "P4133");
  g_assert_cmpstr (hs_findings_get_text (findings), ==, "P4133");
  hs_app_test_picture (widget, "findings-codes");
}

/* Letters behind a figure say where it was taken: several points of one check stand side by side. */
static void
test_places (AppBook *book, gconstpointer data)
{
  HsFindings *findings = open_findings (book, "A-0022");
  GtkWidget *widget = GTK_WIDGET (findings);
  HsQuestion *ask = hs_question_new (book->ledger, hs_ask_job, (GDestroyNotify) hs_job_shot_free);
  const char *id = hs_job_page_get_job_id (HS_JOB_PAGE (hs_window_get_job (book->window)));
  const HsJobShot *shot;
  GString *places = g_string_new (NULL);

  app_book_type (book, "1");
  hs_findings_go (findings, "drop_ground", NULL);
  app_book_type (book, "31 strap 2");
  g_assert_cmpstr (hs_findings_get_text (findings), ==, "31 strap 2");
  assert_says (widget, "0.31");
  assert_says (widget, "outside");
  app_book_type (book, "\n");
  assert_says (widget, "strap 2");
  hs_findings_go (findings, "drop_ground", NULL);
  app_book_type (book, "5body\n");
  hs_question_ask (ask, g_variant_new ("(s)", id));
  app_book_settle (book);
  shot = hs_question_get (ask);
  for (guint i = 0; i < shot->sheets[0]->len; i++)
    {
      const HsReadingResult *row = g_ptr_array_index (shot->sheets[0], i);

      if (g_str_equal (row->check, "drop_ground"))
        g_string_append_printf (places, "%s %s; ", row->place, row->value_text);
    }
  g_assert_cmpstr (places->str, ==, "strap 2 0.31 V; body 0.05 V; ");
  g_string_free (places, TRUE);
  g_object_unref (ask);
}

/* A pair of volts, behind a fuse and in front of it: eight digits, and what is lost between them. */
static void
test_volts_in_and_out (AppBook *book, gconstpointer data)
{
  HsFindings *findings = open_findings (book, "A-0022");
  GtkWidget *widget = GTK_WIDGET (findings);

  app_book_type (book, "9");
  hs_findings_go (findings, "volts_through", NULL);
  app_book_type (book, "11901262");
  assert_says (widget, "11.90 of 12.62");
  assert_says (widget, "0.72 V lost");
  assert_says (widget, "outside");
  app_book_type (book, "\n");
  assert_stored (book, "volts_through", "11.90 of 12.62 V", "outside");
}

/* Every check of every group fits a phone while it is typed, with its verdict and what it asks. */
static void
test_fits_a_phone (AppBook *book, gconstpointer data)
{
  static const char *const typed[] = { "890", "8888", "1205", "5", "0", "2" };
  HsFindings *findings = open_findings (book, "A-0022");
  HsChecks *checks = hs_ledger_get_checks (book->ledger);
  const HsCheckGroup *group = hs_checks_lookup_group (checks, "will_not_start");

  app_book_type (book, "1");
  gtk_window_set_default_size (GTK_WINDOW (book->window), 360, 700);
  hs_app_test_wait (hs_window_get_narrow (book->window));
  for (guint i = 0; group->check_ids[i] != NULL; i++)
    for (guint j = 0; j < G_N_ELEMENTS (typed); j++)
      {
        int least;

        hs_findings_go (findings, group->check_ids[i], NULL);
        app_book_type (book, typed[j]);
        gtk_widget_measure (GTK_WIDGET (findings), GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
        g_test_message ("%s %s: %d px", group->check_ids[i], typed[j], least);
        if (least > 360)
          g_test_fail ();
        app_book_press (book, GDK_KEY_minus);
        app_book_settle (book);
      }
  hs_findings_go (findings, "cranking", NULL);
  app_book_type (book, "890");
  hs_app_test_picture (GTK_WIDGET (book->window), "findings-360");
  gtk_window_set_default_size (GTK_WINDOW (book->window), 1280, 800);
  hs_app_test_wait (!hs_window_get_narrow (book->window));
  hs_app_test_picture (GTK_WIDGET (findings), "findings-1280");
  gtk_window_set_default_size (GTK_WINDOW (book->window), 360, 800);
  hs_app_test_wait (hs_window_get_narrow (book->window));
  hs_app_test_picture (GTK_WIDGET (book->window), "findings-360-800");
}

/* Nothing of the page lies beside the window or below it, and the field can be read. */
static gboolean
is_whole (AppBook *book, HsFindings *findings, int width, int height)
{
  GtkWidget *room = hs_app_test_find (GTK_WIDGET (book->window), HS_TYPE_ROOM);
  GtkWidget *content = gtk_widget_get_first_child (room);
  GtkWidget *field = gtk_window_get_focus (GTK_WINDOW (book->window));
  graphene_rect_t box;

  hs_app_test_frames ();
  g_test_message ("needs %d x %d of %d x %d", gtk_widget_get_width (content), gtk_widget_get_height (content), width,
                  height);
  g_assert_true (gtk_widget_compute_bounds (content, GTK_WIDGET (book->window), &box));
  if (box.origin.x < 0 || box.origin.y < 0 || box.size.width > width || box.size.height > height)
    return FALSE;
  if (!gtk_widget_is_ancestor (field, GTK_WIDGET (findings)))
    return FALSE;
  g_assert_true (gtk_widget_compute_bounds (field, GTK_WIDGET (book->window), &box));
  g_test_message ("field %g, %g: %g x %g", box.origin.x, box.origin.y, box.size.width, box.size.height);
  return box.origin.x >= 0 && box.origin.x + box.size.width <= width && box.origin.y >= 0
         && box.origin.y + box.size.height <= height;
}

/* One state of the page in each of its sizes: what is typed on @check, and the picture of it. */
typedef struct
{
  const char *job, *group, *check, *typed;
} FaceState;

static const FaceState face_states[] = {
  { "A-0024", "2", "sleeping_draw", "" },        { "A-0024", NULL, "sleeping_draw", "310" },
  { "A-0024", NULL, "battery_strength", "52" },  { "A-0024", NULL, "battery_strength", "520" },
  { "A-0024", NULL, "charging_ripple", "005" },  { "A-0024", NULL, "battery_rest", "1268" },
  { "A-0024", NULL, "battery_rest", "*" },       { "A-0024", NULL, "sleeping_draw", "*" },
  { "A-0024", NULL, "sleeping_draw", "310\n*" }, { "A-0024", NULL, "battery_case_drain", "490" },
  { "A-0022", "1", "cranking", "890" },          { "A-0022", NULL, "cranking", "890+" },
  { "A-0022", NULL, "key_turn", "" },            { "A-0022", NULL, "key_turn", "2" },
  { "A-0022", NULL, "trouble_codes", "P4133\n" }, { "A-0022", NULL, "drop_ground", "31 strap at the gearbox" },
  { "A-0022", NULL, "battery_rest", "/" },
};

/* Under what is squared up only the keys are printed that still do something. */
static void
test_frozen_hints (AppBook *book, gconstpointer data)
{
  static const struct
  {
    const char *job;
    gboolean open;
  } rows[] = { { "A-0022", TRUE }, { "A-0014", FALSE }, { "A-0024", TRUE } };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      GtkWidget *page = app_book_open_job (book, rows[i].job, "findings");

      app_book_settle (book);
      g_assert_cmpint (hs_app_test_says (page, "store, next"), ==, rows[i].open);
      g_assert_cmpint (hs_app_test_says (page, "own limit"), ==, rows[i].open);
      g_assert_cmpint (hs_app_test_says (page, "next line"), ==, !rows[i].open);
      g_assert_true (hs_app_test_says (page, "before / during / after"));
    }
}

/* As words wrap, a page that is too narrow grows tall, and one that is too tall grows wide. */
static void
test_fits_every_screen (AppBook *book, gconstpointer data)
{
  static const struct
  {
    int width, height, dpi;
  } sizes[] = { { 1024, 600, 96 }, { 360, 700, 96 }, { 1280, 800, 96 }, { 1280, 800, 192 } };
  static const char *const signs[] = { "over range", "not measured", "before / during / after", "own limit" };
  GtkSettings *settings = gtk_settings_get_default ();

  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      HsFindings *findings = NULL;

      g_object_set (settings, "gtk-xft-dpi", sizes[i].dpi * 1024, NULL);
      gtk_window_set_default_size (GTK_WINDOW (book->window), sizes[i].width, sizes[i].height);
      for (guint j = 0; j < G_N_ELEMENTS (face_states); j++)
        {
          const FaceState *state = &face_states[j];
          g_autofree char *name = g_strdup_printf ("fits-%d-%d-%02u", sizes[i].width, sizes[i].dpi, j);

          if (state->group != NULL)
            {
              findings = open_findings (book, state->job);
              if (i == 0)
                app_book_type (book, state->group);
            }
          hs_findings_go (findings, state->check, NULL);
          hs_findings_focus (findings);
          app_book_type (book, state->typed);
          g_test_message ("%s: %s %s", name, state->check, state->typed);
          if (!is_whole (book, findings, sizes[i].width, sizes[i].height))
            g_test_fail ();
          hs_app_test_picture (GTK_WIDGET (book->window), name);
          /* What the pad's signs do is printed, unless they are buttons there. */
          if (sizes[i].width == 1024 || (sizes[i].width == 1280 && sizes[i].dpi == 96))
            for (guint k = 0; k < G_N_ELEMENTS (signs); k++)
              g_assert_nonnull (hs_app_test_label (GTK_WIDGET (book->window), signs[k]));
          for (guint k = 0; k < 12; k++)
            app_book_press (book, GDK_KEY_BackSpace);
          app_book_settle (book);
        }
    }
  g_object_set (settings, "gtk-xft-dpi", 96 * 1024, NULL);
}

/* F10 before the sheet of the chosen complaint is shown: the keys behind it are no longer for anything, and the next
 * ones are taken as ever. */
static void
test_group_taken_back (AppBook *book, gconstpointer data)
{
  HsFindings *findings = open_findings (book, "A-0024");

  app_book_press (book, GDK_KEY_2);
  hs_deed_take_back (book->ledger, 0, 0, NULL, NULL);
  app_book_press (book, GDK_KEY_1);
  app_book_settle (book);
  g_assert_null (hs_app_test_label (GTK_WIDGET (findings), "not measured"));
  app_book_type (book, "2");
  hs_findings_go (findings, "sleeping_draw", NULL);
  hs_findings_focus (findings);
  app_book_type (book, "310\n\n");
  app_book_settle (book);
  assert_stored (book, "sleeping_draw", "0.310 A", "outside");
}

/* An edited list of checks that is not understood is told as long as the book is open, and the built-in one stands. */
static void
test_edited_catalog (AppBook *book, gconstpointer data)
{
  g_autofree char *path = g_build_filename (book->folder, "checks.ini", NULL);

  app_book_close_window (book);
  g_assert_true (g_file_set_contents (path, "[limit ripple at the battery]\nbands=wihtin 0.10 outside\n", -1, NULL));
  app_book_open_window (book);
  hs_app_test_wait (hs_app_test_says_part (GTK_WIDGET (book->window), "checks.ini is not used"));
  hs_app_test_wait (hs_app_test_says_part (GTK_WIDGET (book->window), "limit ripple at the battery"));
  g_assert_nonnull (hs_checks_lookup (hs_ledger_get_checks (book->ledger), "ripple"));
}

#define ADD(name, func) g_test_add (name, AppBook, NULL, app_book_open, func, app_book_close)

int
main (int argc, char *argv[])
{
  hs_app_test_init (&argc, &argv);
  ADD ("/findings/asks-what-counts", test_asks_what_counts);
  ADD ("/findings/answers-and-leaves", test_answers_and_leaves);
  ADD ("/findings/tells-later", test_tells_later);
  ADD ("/findings/after-begins", test_after_begins);
  ADD ("/findings/never-in-the-way", test_never_in_the_way);
  ADD ("/findings/says-how-sure", test_says_how_sure);
  ADD ("/findings/own-limit", test_own_limit);
  ADD ("/findings/words", test_words);
  ADD ("/findings/places", test_places);
  ADD ("/findings/volts-in-and-out", test_volts_in_and_out);
  ADD ("/findings/fits-a-phone", test_fits_a_phone);
  ADD ("/findings/frozen-hints", test_frozen_hints);
  ADD ("/findings/fits-every-screen", test_fits_every_screen);
  ADD ("/findings/group-taken-back", test_group_taken_back);
  ADD ("/findings/edited-catalog", test_edited_catalog);
  return g_test_run ();
}
