// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What to check next on the findings page, by keyboard: followed or walked past, causes named and ruled out, more than
 * one complaint, and what waits for power. */

#include "app-book.h"
#include "hs-app-test.h"
#include "hs-ask.h"
#include "hs-cause-window.h"
#include "hs-job-page.h"
#include "hs-next-pane.h"

#include <string.h>

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

static void
assert_field (HsFindings *findings, const char *field)
{
  g_autofree char *at = hs_findings_dup_field (findings);

  g_assert_cmpstr (at, ==, field);
}

static GtkWidget *
pane_of (HsFindings *findings)
{
  return hs_app_test_find (GTK_WIDGET (findings), HS_TYPE_NEXT_PANE);
}

/* (transfer full): the job as the page is shown it. */
static HsQuestion *
ask_job (AppBook *book)
{
  HsQuestion *ask = hs_question_new (book->ledger, hs_ask_job, (GDestroyNotify) hs_job_shot_free);
  const char *id = hs_job_page_get_job_id (HS_JOB_PAGE (hs_window_get_job (book->window)));

  hs_question_ask (ask, g_variant_new ("(s)", id));
  app_book_settle (book);
  return ask;
}

static const HsJobNext *
get_next (HsQuestion *ask, guint nth)
{
  const HsJobShot *shot = hs_question_get (ask);

  return g_ptr_array_index (shot->nexts, nth);
}

/* A list row of the panel that says @text, as a label of its own if it is @whole. */
static GtkWidget *
find_row (GtkWidget *widget, const char *text, gboolean whole)
{
  if (GTK_IS_LIST_BOX_ROW (widget)
      && (whole ? hs_app_test_says (widget, text) : hs_app_test_says_part (widget, text)))
    return widget;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = find_row (child, text, whole);

      if (found != NULL)
        return found;
    }
  return NULL;
}

static void
activate (AppBook *book, GtkWidget *row)
{
  g_assert_nonnull (row);
  gtk_widget_grab_focus (row);
  app_book_press (book, GDK_KEY_Return);
  app_book_settle (book);
}

/* Enter on an empty field goes to what is best; from then on each reading leads to the next best, whose model the key
 * has chosen. */
static void
test_follows (AppBook *book, gconstpointer data)
{
  HsFindings *findings = open_findings (book, "A-0021");
  GtkWidget *widget = GTK_WIDGET (findings);
  HsQuestion *ask;

  app_book_type (book, "1");
  assert_field (findings, "battery_rest");
  assert_says (pane_of (findings), "Next best check");
  assert_says (pane_of (findings), "Average minutes until fixed. In list order: ");
  assert_says (pane_of (findings), "Key turned to start");
  assert_says (pane_of (findings), "go here");
  assert_says (pane_of (findings), "Causes still possible");
  assert_says (widget, "next best: 74 min");
  app_book_type (book, "\n");
  assert_field (findings, "key_turn");
  assert_says (widget, "One digit:");
  hs_app_test_picture (GTK_WIDGET (book->window), "next-start");
  app_book_type (book, "2\n");
  assert_says (pane_of (findings), "Will not start: clicks or turns slowly");
  for (guint i = 0; i < 3; i++)
    {
      g_autofree char *at = hs_findings_dup_field (findings);
      const HsJobNext *next;

      ask = ask_job (book);
      next = get_next (ask, 0);
      if (hs_job_next_check (next) == NULL)
        {
          g_object_unref (ask);
          break;
        }
      g_assert_cmpstr (at, ==, hs_job_next_check (next));
      g_object_unref (ask);
      app_book_type (book, g_str_equal (at, "battery_look") ? "1\n" : "990\n");
    }
  hs_app_test_picture (GTK_WIDGET (book->window), "next-followed");
}

/* The list goes on line by line while nobody follows; what is typed is never left behind by an arrow. */
static void
test_walks (AppBook *book, gconstpointer data)
{
  HsFindings *findings = open_findings (book, "A-0022");

  app_book_type (book, "1");
  app_book_type (book, "1242");
  assert_says (pane_of (findings), "twice: store, go here");
  app_book_press (book, GDK_KEY_Down);
  assert_field (findings, "battery_rest");
  app_book_type (book, "\n");
  assert_field (findings, "battery_strength");
  app_book_press (book, GDK_KEY_Down);
  assert_field (findings, "cranking");
  app_book_press (book, GDK_KEY_KP_Up);
  assert_field (findings, "battery_strength");
  app_book_type (book, "\n");
  assert_field (findings, "key_turn");
  app_book_press (book, GDK_KEY_minus);
  app_book_settle (book);
  assert_field (findings, "starter_draw");
  app_book_type (book, "186\n");
  assert_field (findings, "key_turn");
}

/* Any row of the panel is as good a way on; a repair leads to no reading. */
static void
test_rows (AppBook *book, gconstpointer data)
{
  HsFindings *findings = open_findings (book, "A-0024");
  GtkWidget *row;

  app_book_type (book, "2");
  row = find_row (pane_of (findings), "Case drain", TRUE);
  activate (book, row);
  assert_field (findings, "battery_case_drain");
  app_book_type (book, "0\n");
  assert_says (pane_of (findings), "takes");
  row = find_row (pane_of (findings), "Repair: ", FALSE);
  if (row != NULL)
    g_assert_false (gtk_list_box_row_get_activatable (GTK_LIST_BOX_ROW (row)));
}

/* Story 20 in the window: what the draw comes to in days, and that no new battery cures it; both readings. */
static void
test_story_20 (AppBook *book, gconstpointer data)
{
  HsFindings *findings = open_findings (book, "A-0024");
  GtkWidget *widget = GTK_WIDGET (findings);

  app_book_type (book, "2");
  hs_findings_go (findings, "sleeping_draw", NULL);
  app_book_type (book, "310");
  assert_says (widget, "3.2 days to no-start");
  assert_says (widget, "Something stays awake.");
  app_book_type (book, "\n");
  assert_says (pane_of (findings), "cover ended 17 days ago");
  assert_says (pane_of (findings), "Replacing it (211.01) would not cure a draw of 0.310 A");
  hs_app_test_picture (GTK_WIDGET (book->window), "next-story-20");
  hs_findings_go (findings, "sleeping_draw", NULL);
  app_book_type (book, "24");
  assert_says (widget, "41.7 days to no-start");
}

/* --- Causes ------------------------------------------------------------------------------------------------------ */

static HsCauseWindow *
open_cause (AppBook *book, HsFindings *findings, const char *name)
{
  activate (book, find_row (pane_of (findings), name, TRUE));
  return HS_CAUSE_WINDOW (hs_app_test_window (HS_TYPE_CAUSE_WINDOW));
}

/* F4 says that it is this one: refused without a proof, with what was seen it is in the chain. */
static void
test_names_a_cause (AppBook *book, gconstpointer data)
{
  HsFindings *findings = open_findings (book, "A-0021");
  HsCauseWindow *window;
  HsQuestion *ask;
  const HsNextCause *first;

  app_book_type (book, "1");
  hs_findings_go (findings, "key_turn", NULL);
  app_book_type (book, "2\n");
  window = open_cause (book, findings, "Battery is flat");
  g_assert_nonnull (window);
  g_object_add_weak_pointer (G_OBJECT (window), (gpointer *) &window);
  assert_says (GTK_WIDGET (window), "How often it is that: authors' guess");
  hs_app_test_picture (GTK_WIDGET (window), "next-cause");
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (window), "cause.is", NULL));
  app_book_settle (book);
  g_assert_nonnull (window);
  assert_says (GTK_WIDGET (window), "No reading speaks for “Battery is flat” yet");
  hs_cause_window_fill (window, "lamps go out at once");
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (window), "cause.is", NULL));
  hs_app_test_wait (window == NULL);
  app_book_settle (book);
  assert_says (pane_of (findings), "proven");
  ask = ask_job (book);
  first = g_ptr_array_index (get_next (ask, 0)->causes, 0);
  g_assert_cmpstr (first->id, ==, "battery_flat");
  g_assert_cmpint (first->standing, ==, HS_NEXT_PROVEN);
  g_object_unref (ask);
}

/* F8 rules out, here by the reading that speaks most against it. */
static void
test_rules_out (AppBook *book, gconstpointer data)
{
  HsFindings *findings = open_findings (book, "A-0021");
  HsCauseWindow *window;
  HsQuestion *ask;

  app_book_type (book, "1");
  app_book_type (book, "1260\n");
  hs_findings_go (findings, "key_turn", NULL);
  app_book_type (book, "2\n");
  ask = ask_job (book);
  for (guint i = 0; i < get_next (ask, 0)->causes->len; i++)
    g_test_message ("%s", ((const HsNextCause *) g_ptr_array_index (get_next (ask, 0)->causes, i))->name);
  g_object_unref (ask);
  window = open_cause (book, findings, "A clamp is loose or corroded");
  g_assert_nonnull (window);
  g_object_add_weak_pointer (G_OBJECT (window), (gpointer *) &window);
  hs_cause_window_fill (window, "tight and clean");
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (window), "cause.not", NULL));
  hs_app_test_wait (window == NULL);
  app_book_settle (book);
  ask = ask_job (book);
  for (guint i = 0; i < get_next (ask, 0)->causes->len; i++)
    {
      const HsNextCause *cause = g_ptr_array_index (get_next (ask, 0)->causes, i);

      if (g_str_equal (cause->id, "clamp"))
        g_assert_cmpint (cause->standing, ==, HS_NEXT_RULED_OUT);
    }
  g_object_unref (ask);
}

/* --- More than one complaint ------------------------------------------------------------------------------------- */

/* Insert and a digit: one more complaint with its own models; the same again shows the first. */
static void
test_another_complaint (AppBook *book, gconstpointer data)
{
  HsFindings *findings = open_findings (book, "A-0024");
  GtkWidget *widget = GTK_WIDGET (findings);
  HsQuestion *ask;

  app_book_type (book, "2");
  assert_says (pane_of (findings), "Drains overnight");
  app_book_press (book, GDK_KEY_Insert);
  assert_says (widget, "What else does it do, or not do?");
  hs_app_test_picture (GTK_WIDGET (book->window), "next-another");
  app_book_press (book, GDK_KEY_Escape);
  app_book_settle (book);
  assert_field (findings, "battery_rest");
  g_assert_false (hs_app_test_says_part (widget, "What else does it do"));
  app_book_press (book, GDK_KEY_Insert);
  app_book_type (book, "3");
  assert_says (pane_of (findings), "Battery lamp on");
  ask = ask_job (book);
  g_assert_cmpstr (get_next (ask, 0)->group, ==, "drains");
  g_assert_cmpstr (get_next (ask, 1)->group, ==, "charging_lamp");
  g_object_unref (ask);
  app_book_type (book, "1242\n");
  assert_field (findings, "battery_strength");
  app_book_press (book, GDK_KEY_Insert);
  app_book_type (book, "2");
  assert_says (pane_of (findings), "Drains overnight");
}

/* --- Power ------------------------------------------------------------------------------------------------------- */

/* What could not be measured says why on its line; for want of power it is offered again once there is some. */
static void
test_power (AppBook *book, gconstpointer data)
{
  HsFindings *findings = open_findings (book, "A-0022");
  GtkWidget *widget = GTK_WIDGET (findings);

  app_book_type (book, "1");
  hs_findings_go (findings, "cranking", NULL);
  app_book_type (book, "*");
  assert_says (widget, "Not measured. Why? One digit:");
  assert_says (widget, "does not apply");
  assert_says (widget, "no power yet");
  app_book_type (book, "6");
  assert_says (widget, "no power yet");
  activate (book, find_row (pane_of (findings), "say when there is some", FALSE));
  assert_field (findings, "power_back");
  app_book_type (book, "1\n");
  assert_says (pane_of (findings), "there is power now");
  activate (book, find_row (pane_of (findings), "see what stays on with the key off", FALSE));
  assert_field (findings, "walk_round");
  assert_says (widget, "Fans may start with the key off");
  hs_app_test_picture (GTK_WIDGET (book->window), "next-power");
}

/* --- How it looks ------------------------------------------------------------------------------------------------ */

/* The owner's own models that are not understood are told, and those that are built in stand. */
static void
test_own_models (AppBook *book, gconstpointer data)
{
  g_autofree char *path = g_build_filename (book->folder, "causes.json", NULL);
  HsFindings *findings;

  app_book_close_window (book);
  g_assert_true (g_file_set_contents (path, "{\"models\": [{\"causes\": 3}]}", -1, NULL));
  app_book_open_window (book);
  findings = open_findings (book, "A-0024");
  app_book_type (book, "2");
  assert_says (pane_of (findings), "models[0].causes: must be a list");
  assert_says (pane_of (findings), "Causes still possible");
}

/* On a phone the panel stands below the list, and no row is wider than it. */
static void
test_fits_a_phone (AppBook *book, gconstpointer data)
{
  static const char *const keys[] = { "1", "2", "3", "4", "5", "6", "8" };
  static const char *const jobs[] = { "A-0021", "A-0022", "A-0023", "A-0024", "A-0025", "A-0026" };

  gtk_window_set_default_size (GTK_WINDOW (book->window), 360, 800);
  hs_app_test_wait (hs_window_get_narrow (book->window));
  for (gsize i = 0; i < G_N_ELEMENTS (jobs); i++)
    {
      HsFindings *findings = open_findings (book, jobs[i]);
      int least;

      app_book_type (book, keys[i]);
      app_book_press (book, GDK_KEY_Insert);
      app_book_type (book, keys[i + 1]);
      gtk_widget_measure (GTK_WIDGET (findings), GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
      g_assert_cmpint (least, <=, 360);
      g_assert_true (gtk_widget_get_visible (pane_of (findings)));
    }
  hs_app_test_picture (GTK_WIDGET (book->window), "next-360");
}

#define ADD(name, func) g_test_add (name, AppBook, NULL, app_book_open, func, app_book_close)

int
main (int argc, char *argv[])
{
  hs_app_test_init (&argc, &argv);
  ADD ("/next/follows", test_follows);
  ADD ("/next/walks", test_walks);
  ADD ("/next/rows", test_rows);
  ADD ("/next/story-20", test_story_20);
  ADD ("/next/names-a-cause", test_names_a_cause);
  ADD ("/next/rules-out", test_rules_out);
  ADD ("/next/another-complaint", test_another_complaint);
  ADD ("/next/power", test_power);
  ADD ("/next/own-models", test_own_models);
  ADD ("/next/fits-a-phone", test_fits_a_phone);
  return g_test_run ();
}
