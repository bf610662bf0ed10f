// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What a verdict rests on, on the findings page: the conditions it asks for, whose limit it used and how sure that is,
 * and a limit of the vehicle's own, all by number pad. */

#include "app-book.h"
#include "hs-app-test.h"
#include "hs-ask.h"
#include "hs-gauge.h"
#include "hs-job-page.h"
#include "hs-limit-window.h"

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
  assert_says (widget, "+ Temperature");
  app_book_type (book, "+");
  assert_says (widget, "°C");
  assert_says (widget, "Enter: not known");
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
  g_assert_false (hs_app_test_says_part (widget, "Enter: not known"));
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
  ADD ("/findings/never-in-the-way", test_never_in_the_way);
  ADD ("/findings/says-how-sure", test_says_how_sure);
  ADD ("/findings/own-limit", test_own_limit);
  ADD ("/findings/words", test_words);
  ADD ("/findings/places", test_places);
  ADD ("/findings/volts-in-and-out", test_volts_in_and_out);
  ADD ("/findings/fits-a-phone", test_fits_a_phone);
  ADD ("/findings/edited-catalog", test_edited_catalog);
  return g_test_run ();
}
