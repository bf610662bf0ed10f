// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A job through its stages by the owner's hand: each refusal says why at once and takes the reason where it is told. */

#include "app-book.h"
#include "hs-app-test.h"
#include "hs-ask.h"
#include "hs-findings.h"
#include "hs-job-page.h"
#include "hs-key-button.h"
#include "hs-mover.h"
#include "hs-question.h"
#include "hs-roll-window.h"
#include "hs-stage-window.h"

static HsStage
stage_of (AppBook *book, GtkWidget *page)
{
  g_autoptr (HsQuestion) asked = hs_question_new (book->ledger, hs_ask_job, (GDestroyNotify) hs_job_shot_free);

  hs_question_ask (asked, g_variant_new ("(s)", hs_job_page_get_job_id (HS_JOB_PAGE (page))));
  app_book_settle (book);
  return ((const HsJobShot *) hs_question_get (asked))->view->tag->stage;
}

static HsStageWindow *
find_stage_window (void)
{
  g_autoptr (GList) tops = gtk_window_list_toplevels ();

  for (GList *at = tops; at != NULL; at = at->next)
    if (HS_IS_STAGE_WINDOW (at->data) && gtk_widget_get_visible (at->data))
      return at->data;
  return NULL;
}

static void
press_next (AppBook *book, GtkWidget *page)
{
  g_assert_true (gtk_widget_activate_action (page, "page.next-stage", NULL));
  app_book_settle (book);
}

/* F4, F4, F4: the third is refused for want of an after-reading. A reason lets it through. */
static void
test_refused_then_reason (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0021", "call");
  HsStageWindow *window;

  press_next (book, page);
  g_assert_cmpint (stage_of (book, page), ==, HS_STAGE_ROLLING);
  press_next (book, page);
  g_assert_cmpint (stage_of (book, page), ==, HS_STAGE_ON_SITE);
  g_assert_null (find_stage_window ());
  app_book_make_safe (book, "A-0021");
  press_next (book, page);
  window = find_stage_window ();
  g_assert_nonnull (window);
  g_assert_true (hs_app_test_says (GTK_WIDGET (window), "There is no reading after the repair. Take one, or write down "
                                                        "why it could not be tested."));
  hs_stage_window_move (window, HS_STAGE_PROVEN);
  app_book_settle (book);
  g_assert_true (find_stage_window () == window);
  g_assert_cmpint (stage_of (book, page), ==, HS_STAGE_ON_SITE);
  hs_stage_window_set_reason (window, "customer drove off");
  hs_stage_window_move (window, HS_STAGE_PROVEN);
  app_book_settle (book);
  g_assert_null (find_stage_window ());
  g_assert_cmpint (stage_of (book, page), ==, HS_STAGE_PROVEN);
}

static void
press_in (HsStageWindow *window, AppBook *book, guint keyval)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (window));

  if (!hs_app_test_key (focus, keyval, 0) && GTK_IS_TEXT (focus) && keyval == GDK_KEY_Return)
    g_signal_emit_by_name (focus, "activate");
  app_book_settle (book);
}

static void
write_in (HsStageWindow *window, AppBook *book, const char *letters)
{
  for (const char *at = letters; *at != '\0'; at++)
    {
      GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (window));
      char text[2] = { *at, '\0' };
      int end = -1;

      if (!hs_app_test_key (focus, gdk_unicode_to_keyval ((guchar) *at), 0))
        gtk_editable_insert_text (GTK_EDITABLE (focus), text, -1, &end);
    }
  app_book_settle (book);
}

static const char *
focused_text (HsStageWindow *window)
{
  static char *text;
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (window));

  g_clear_pointer (&text, g_free);
  if (HS_IS_KEY_BUTTON (focus))
    g_object_get (focus, "text", &text, NULL);
  return text;
}

/* The usual reasons are one digit each, and their digits are printed on nothing else. */
static void
test_usual_reason (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0021", "call");
  HsStageWindow *window;

  press_next (book, page);
  press_next (book, page);
  app_book_make_safe (book, "A-0021");
  press_next (book, page);
  window = find_stage_window ();
  g_assert_true (hs_app_test_says (GTK_WIDGET (window), "the customer had to go"));
  press_in (window, book, GDK_KEY_KP_3);
  g_assert_null (find_stage_window ());
  g_assert_cmpint (stage_of (book, page), ==, HS_STAGE_PROVEN);
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (book->window), "win.undo", NULL));
  app_book_settle (book);
  /* The cursor is in a field that the book filled: that is no typing to be taken back. */
  g_assert_cmpint (stage_of (book, page), ==, HS_STAGE_ON_SITE);
  /* Once something is typed, a digit is part of it. */
  press_next (book, page);
  window = find_stage_window ();
  write_in (window, book, "at 4");
  g_assert_nonnull (find_stage_window ());
  press_in (window, book, GDK_KEY_Return);
  g_assert_cmpint (stage_of (book, page), ==, HS_STAGE_PROVEN);
}

/* The refused move: letters written on its button are the reason, and Enter or F4 in the reason moves the job. */
static void
test_reason_by_keys (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0021", "call");
  guint done = GPOINTER_TO_UINT (data);
  HsStageWindow *window;

  press_next (book, page);
  press_next (book, page);
  app_book_make_safe (book, "A-0021");
  press_next (book, page);
  window = find_stage_window ();
  g_assert_nonnull (window);
  g_assert_cmpstr (focused_text (window), ==, "Tested good");
  write_in (window, book, "drove off at 5");
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (hs_app_test_find (GTK_WIDGET (window), GTK_TYPE_ENTRY))), ==,
                   "drove off at 5");
  hs_app_test_picture (GTK_WIDGET (window), "stage-reason");
  press_in (window, book, done);
  g_assert_null (find_stage_window ());
  g_assert_cmpint (stage_of (book, page), ==, HS_STAGE_PROVEN);
}

/* A move that was picked and refused for want of a reason is the one that Enter does then. */
static void
test_reason_of_the_picked (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0023", "call");
  HsStageWindow *window;

  g_assert_true (gtk_widget_activate_action (page, "page.stages", NULL));
  window = find_stage_window ();
  press_in (window, book, GDK_KEY_6);
  g_assert_true (find_stage_window () == window);
  write_in (window, book, "vans sold");
  press_in (window, book, GDK_KEY_Return);
  g_assert_null (find_stage_window ());
  g_assert_cmpint (stage_of (book, page), ==, HS_STAGE_TURNED_AWAY);
}

/* A reason for no stage in particular moves nothing. */
static void
test_reason_of_none (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0023", "call");
  HsStageWindow *window;

  g_assert_true (gtk_widget_activate_action (page, "page.stages", NULL));
  window = find_stage_window ();
  write_in (window, book, "vans sold");
  press_in (window, book, GDK_KEY_Return);
  g_assert_true (find_stage_window () == window);
  g_assert_cmpint (stage_of (book, page), ==, HS_STAGE_PROMISED);
  g_assert_cmpstr (focused_text (window), ==, "Rolling");
  press_in (window, book, GDK_KEY_6);
  g_assert_cmpint (stage_of (book, page), ==, HS_STAGE_TURNED_AWAY);
}

/* Wherever a job stands, the focus begins on the way on; where there is none, in the reason. */
static void
test_focus_is_never_back (AppBook *book, gconstpointer data)
{
  static const struct
  {
    HsStage to;
    const char *onward;
  } rows[] = {
    { HS_STAGE_ROLLING, "At the vehicle" }, { HS_STAGE_ON_SITE, "Tested good" }, { HS_STAGE_WAITING_PART, "Rolling" },
    { HS_STAGE_TURNED_AWAY, NULL },
  };
  GtkWidget *page = app_book_open_job (book, "A-0021", "call");
  HsStageWindow *window;

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_assert_true (gtk_widget_activate_action (page, "page.stages", NULL));
      window = find_stage_window ();
      hs_stage_window_set_reason (window, "asked for");
      hs_stage_window_move (window, rows[i].to);
      app_book_settle (book);
      g_assert_cmpint (stage_of (book, page), ==, rows[i].to);
      g_assert_true (gtk_widget_activate_action (page, "page.stages", NULL));
      window = find_stage_window ();
      g_test_message ("%s: %s", hs_stage_label (rows[i].to), focused_text (window));
      g_assert_cmpstr (focused_text (window), ==, rows[i].onward);
      if (rows[i].onward == NULL)
        g_assert_true (GTK_IS_TEXT (gtk_window_get_focus (GTK_WINDOW (window))));
      gtk_window_close (GTK_WINDOW (window));
    }
}

/* The stages beside the road are a digit away; passing on asks why. */
static void
test_other_stages (AppBook *book, gconstpointer data)
{
  static const char *const there[] = { "Just called", "Penciled in", "Rolling", "At the vehicle", "Called off",
                                       "Passed on" };
  static const char *const not_there[] = { "Time given", "Tested good", "Squared up", "Needs a part", "Needs a yes" };
  GtkWidget *page = app_book_open_job (book, "A-0023", "call");
  HsStageWindow *window;

  g_assert_true (gtk_widget_activate_action (page, "page.stages", NULL));
  window = find_stage_window ();
  g_assert_nonnull (window);
  for (guint i = 0; i < G_N_ELEMENTS (there); i++)
    g_assert_true (hs_app_test_says (GTK_WIDGET (window), there[i]));
  for (guint i = 0; i < G_N_ELEMENTS (not_there); i++)
    g_assert_false (hs_app_test_says (GTK_WIDGET (window), not_there[i]));
  hs_stage_window_move (window, HS_STAGE_TURNED_AWAY);
  app_book_settle (book);
  g_assert_true (find_stage_window () == window);
  g_assert_cmpint (stage_of (book, page), ==, HS_STAGE_PROMISED);
  hs_stage_window_set_reason (window, "vans sold");
  /* In the reason a digit is a digit. */
  gtk_widget_grab_focus (hs_app_test_find (GTK_WIDGET (window), GTK_TYPE_ENTRY));
  g_assert_false (hs_app_test_key (gtk_window_get_focus (GTK_WINDOW (window)), GDK_KEY_6, 0));
  gtk_widget_grab_focus (hs_app_test_find (hs_app_test_find (GTK_WIDGET (window), GTK_TYPE_FLOW_BOX), GTK_TYPE_BUTTON));
  g_assert_true (hs_app_test_key (gtk_window_get_focus (GTK_WINDOW (window)), GDK_KEY_6, 0));
  app_book_settle (book);
  g_assert_cmpint (stage_of (book, page), ==, HS_STAGE_TURNED_AWAY);
  g_assert_null (find_stage_window ());
}

/* Esc before the answer: the refusal is told where the owner now looks. */
static void
test_refused_after_closing (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0023", "call");
  HsStageWindow *window;

  g_assert_true (gtk_widget_activate_action (page, "page.stages", NULL));
  window = find_stage_window ();
  hs_stage_window_move (window, HS_STAGE_TURNED_AWAY);
  gtk_window_close (GTK_WINDOW (window));
  app_book_settle (book);
  g_assert_null (find_stage_window ());
  g_assert_true (hs_app_test_says (GTK_WIDGET (book->window),
                                  "Not stored: “Passed on” needs a reason. Write it down first."));
}

/* Rolling is asked about: who stays finds the reason again, who is refused too, and who rolls has it in the book. */
static void
test_reason_of_rolling (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0023", "call");
  HsStageWindow *window;

  g_assert_true (gtk_widget_activate_action (page, "page.stages", NULL));
  window = find_stage_window ();
  hs_stage_window_set_reason (window, "they wait outside");
  hs_stage_window_move (window, HS_STAGE_ROLLING);
  hs_app_test_wait (hs_app_test_window (HS_TYPE_ROLL_WINDOW) != NULL);
  app_book_settle (book);
  app_book_press_in (hs_app_test_window (HS_TYPE_ROLL_WINDOW), GDK_KEY_Escape);
  hs_app_test_wait (hs_app_test_window (HS_TYPE_ROLL_WINDOW) == NULL);
  app_book_settle (book);
  window = find_stage_window ();
  g_assert_nonnull (window);
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (hs_app_test_find (GTK_WIDGET (window), GTK_TYPE_ENTRY))), ==,
                   "they wait outside");
  g_assert_cmpint (stage_of (book, page), ==, HS_STAGE_PROMISED);
  hs_stage_window_move (window, HS_STAGE_ROLLING);
  hs_app_test_wait (hs_app_test_window (HS_TYPE_ROLL_WINDOW) != NULL);
  app_book_settle (book);
  app_book_press_in (hs_app_test_window (HS_TYPE_ROLL_WINDOW), GDK_KEY_1);
  hs_app_test_wait (hs_app_test_window (HS_TYPE_ROLL_WINDOW) == NULL);
  g_assert_cmpint (stage_of (book, page), ==, HS_STAGE_ROLLING);
  g_assert_null (find_stage_window ());
}

static void
test_reason_of_refused (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0021", "call");

  press_next (book, page);
  press_next (book, page);
  g_assert_cmpint (stage_of (book, page), ==, HS_STAGE_ON_SITE);
  /* As a page that was not shown anew yet. */
  hs_mover_move (HS_PAGE (page), hs_job_page_get_job_id (HS_JOB_PAGE (page)), "A-0021", HS_STAGE_ROLLING,
                 HS_STAGE_ON_SITE, "they wait outside");
  app_book_settle (book);
  g_assert_nonnull (find_stage_window ());
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (hs_app_test_find (GTK_WIDGET (find_stage_window ()),
                                                                         GTK_TYPE_ENTRY))), ==, "they wait outside");
}

/* A phase picked with the pointer, then digits: Enter is theirs, not the tab's. */
static void
test_enter_after_a_tab (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0022", "findings");
  HsFindings *findings = hs_job_page_get_findings (HS_JOB_PAGE (page));
  GtkWidget *tab;

  app_book_type (book, "1");
  tab = hs_app_test_find (GTK_WIDGET (findings), GTK_TYPE_TOGGLE_BUTTON);
  gtk_widget_grab_focus (tab);
  g_assert_true (gtk_root_get_focus (GTK_ROOT (book->window)) == tab);
  app_book_type (book, "1268");
  g_assert_cmpstr (hs_findings_get_text (findings), ==, "1268");
  app_book_type (book, "\n");
  g_assert_cmpstr (hs_findings_get_text (findings), ==, "");
  g_assert_true (hs_app_test_says (page, "12.68"));
}

/* Where a reading after the repair is missing, the key leads to that column: a figure keyed there is never one of
 * before. */
static void
test_lead_to_after (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0021", "call");
  HsFindings *findings;
  HsStageWindow *window;

  press_next (book, page);
  press_next (book, page);
  app_book_make_safe (book, "A-0021");
  press_next (book, page);
  window = find_stage_window ();
  g_assert_nonnull (window);
  hs_app_test_wait (hs_app_test_says (GTK_WIDGET (window), "Go to the Readings"));
  app_book_settle (book);
  press_in (window, book, GDK_KEY_KP_0);
  hs_app_test_wait (find_stage_window () == NULL && hs_window_get_job (book->window) != NULL
                    && hs_job_page_is_ready (HS_JOB_PAGE (hs_window_get_job (book->window))));
  app_book_settle (book);
  page = hs_window_get_job (book->window);
  findings = hs_job_page_get_findings (HS_JOB_PAGE (page));
  g_assert_cmpstr (hs_job_page_get_face (HS_JOB_PAGE (page)), ==, "readings");
  g_assert_cmpstr (hs_findings_get_phase (findings), ==, "after");
  hs_app_test_picture (GTK_WIDGET (book->window), "stage-lead-after");
}

#define ADD(name, func) g_test_add (name, AppBook, NULL, app_book_open, func, app_book_close)

int
main (int argc, char *argv[])
{
  hs_app_test_init (&argc, &argv);
  ADD ("/stage/usual-reason", test_usual_reason);
  ADD ("/stage/refused-then-reason", test_refused_then_reason);
  g_test_add ("/stage/reason-and-enter", AppBook, GUINT_TO_POINTER (GDK_KEY_Return), app_book_open,
              test_reason_by_keys, app_book_close);
  g_test_add ("/stage/reason-and-f4", AppBook, GUINT_TO_POINTER (GDK_KEY_F4), app_book_open, test_reason_by_keys,
              app_book_close);
  ADD ("/stage/reason-of-the-picked", test_reason_of_the_picked);
  ADD ("/stage/reason-of-none", test_reason_of_none);
  ADD ("/stage/focus-is-never-back", test_focus_is_never_back);
  ADD ("/stage/other-stages", test_other_stages);
  ADD ("/stage/refused-after-closing", test_refused_after_closing);
  ADD ("/stage/reason-of-rolling", test_reason_of_rolling);
  ADD ("/stage/reason-of-refused", test_reason_of_refused);
  ADD ("/stage/lead-to-after", test_lead_to_after);
  ADD ("/stage/enter-after-a-tab", test_enter_after_a_tab);
  return g_test_run ();
}
