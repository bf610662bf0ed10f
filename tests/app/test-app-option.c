// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* An option while it is written, in a real window: its fields, its lines, and what is kept of what was typed. */

#include "app-choices.h"
#include "hs-answer-window.h"
#include "hs-choice-card.h"
#include "hs-choices-pane.h"
#include "hs-go-ahead-window.h"
#include "hs-option-window.h"

/* A line that was begun and left by Esc is there again with its kind, and so after the program was gone. */
static void
test_line_is_kept (AppBook *book, gconstpointer data)
{
  GtkWidget *pane = app_choices_open (book, "A-0024");
  GtkWidget *window = app_choices_begin_option (book, pane, "New battery");

  app_choices_press_button (book, window, "Labor");
  hs_option_window_fill (HS_OPTION_WINDOW (window), "what", "ground strap");
  g_assert_true (gtk_widget_activate_action (window, "option.close", NULL));
  app_choices_wait_shut (book, HS_TYPE_OPTION_WINDOW);
  for (int again = 0; again < 2; again++)
    {
      if (again == 0)
        g_assert_true (gtk_widget_activate_action (pane, "choices.change", NULL));
      hs_app_test_wait (hs_app_test_window (HS_TYPE_OPTION_WINDOW) != NULL);
      window = hs_app_test_window (HS_TYPE_OPTION_WINDOW);
      app_book_settle (book);
      g_assert_true (app_choices_holds (window, again == 0 ? "ground strap" : "ground strap, both"));
      g_assert_true (gtk_widget_activate_action (window, "option.add-line", NULL));
      app_choices_assert_says (window, "Labor: the line has no figure yet.");
      if (again == 0)
        {
          hs_option_window_fill (HS_OPTION_WINDOW (window), "what", "ground strap, both");
          app_book_settle (book);
          pane = app_choices_come_back (book);
        }
    }
}

/* An option that is saved takes its own fields along, and nothing that is half typed of another window. */
static void
test_others_stay_kept (AppBook *book, gconstpointer data)
{
  GtkWidget *pane = app_choices_open (book, "A-0024");
  GtkWidget *window;

  app_choices_write_battery (book, pane);
  app_choices_answer (book, pane, 1, "3");
  window = hs_app_test_window (HS_TYPE_ANSWER_WINDOW);
  hs_consent_set_who (hs_answer_window_get_consent (HS_ANSWER_WINDOW (window)), "Wilhelmina");
  hs_consent_press (hs_answer_window_get_consent (HS_ANSWER_WINDOW (window)), 4);
  g_assert_true (gtk_widget_activate_action (window, "answer.close", NULL));
  app_choices_wait_shut (book, HS_TYPE_ANSWER_WINDOW);
  window = app_choices_begin_option (book, pane, "Charge it");
  app_choices_add_line (book, window, "Labor", "charging", "20");
  g_assert_true (gtk_widget_activate_action (window, "option.done", NULL));
  app_choices_wait_shut (book, HS_TYPE_OPTION_WINDOW);
  /* What has no rank yet stands behind it. */
  hs_choices_pane_press (HS_CHOICES_PANE (pane), GDK_KEY_1);
  hs_app_test_wait (hs_app_test_window (HS_TYPE_ANSWER_WINDOW) != NULL);
  window = hs_app_test_window (HS_TYPE_ANSWER_WINDOW);
  app_choices_assert_says (window, "New battery");
  g_assert_cmpstr (hs_consent_get_means (hs_answer_window_get_consent (HS_ANSWER_WINDOW (window))), ==, "phone");
  g_assert_cmpstr (hs_consent_get_who (hs_answer_window_get_consent (HS_ANSWER_WINDOW (window))), ==, "Wilhelmina");
  g_assert_true (gtk_widget_activate_action (window, "answer.close", NULL));
  app_choices_wait_shut (book, HS_TYPE_ANSWER_WINDOW);
  /* What is in the book is not typed any more. */
  window = app_choices_begin_option (book, pane, "Jump it");
  g_assert_false (app_choices_holds (window, "charging"));
  g_assert_false (app_choices_holds (window, "Charge it"));
  gtk_window_close (GTK_WINDOW (window));
  app_choices_wait_shut (book, HS_TYPE_OPTION_WINDOW);
}

/* A field is in the book as soon as it is left, and a step takes it back; a line goes by its button. */
static void
test_option_fields (AppBook *book, gconstpointer data)
{
  GtkWidget *pane = app_choices_open (book, "A-0024");
  GtkWidget *window;
  g_autoptr (HsQuestion) ask = NULL;
  const HsChoice *choice;

  app_choices_write_battery (book, pane);
  g_assert_true (hs_choices_pane_press (HS_CHOICES_PANE (pane), GDK_KEY_period));
  window = hs_app_test_window (HS_TYPE_OPTION_WINDOW);
  app_choices_type_at (window, "A new battery");
  gtk_widget_child_focus (window, GTK_DIR_TAB_FORWARD);
  app_book_settle (book);
  ask = app_choices_ask_job (book);
  choice = hs_job_choices_find (app_choices_get (ask), 1);
  g_assert_cmpstr (choice->wording, ==, "A new battery");
  g_assert_cmpstr (choice->rank, ==, "best");
  g_assert_cmpuint (choice->lines->len, ==, 3);
  app_choices_add_line (book, window, "Part", "clip", "cheap");
  app_choices_assert_says (window, "cheap");
  gtk_window_close (GTK_WINDOW (window));
  app_choices_wait_shut (book, HS_TYPE_OPTION_WINDOW);
}

/* F4 with a line that was begun: it is refused with what it lacks, and once that is there it is in the book. */
static void
test_line_begun (AppBook *book, gconstpointer data)
{
  GtkWidget *pane = app_choices_open (book, "A-0024");
  GtkWidget *window = app_choices_begin_option (book, pane, "New battery");
  g_autoptr (HsQuestion) ask = NULL;
  const HsChoice *choice;

  app_choices_press_button (book, window, "Labor");
  hs_option_window_fill (HS_OPTION_WINDOW (window), "number", "30");
  g_assert_true (gtk_widget_activate_action (window, "option.done", NULL));
  app_book_settle (book);
  g_assert_true (hs_app_test_window (HS_TYPE_OPTION_WINDOW) == window);
  app_choices_assert_says (window, "Labor: the line has no words yet.");
  hs_option_window_fill (HS_OPTION_WINDOW (window), "number", "");
  hs_option_window_fill (HS_OPTION_WINDOW (window), "what", "battery");
  g_assert_true (gtk_widget_activate_action (window, "option.done", NULL));
  app_book_settle (book);
  g_assert_true (hs_app_test_window (HS_TYPE_OPTION_WINDOW) == window);
  app_choices_assert_says (window, "Labor: the line has no figure yet.");
  app_choices_type_at (window, "30");
  g_assert_true (gtk_widget_activate_action (window, "option.done", NULL));
  app_choices_wait_shut (book, HS_TYPE_OPTION_WINDOW);
  ask = app_choices_ask_job (book);
  choice = hs_job_choices_find (app_choices_get (ask), 1);
  g_assert_cmpuint (choice->lines->len, ==, 1);
  g_assert_cmpstr (((HsChoiceLine *) g_ptr_array_index (choice->lines, 0))->what, ==, "battery");
}

/* A line is in the book once, though its key is pressed again before the book answers; F4 then still shuts. */
static void
test_line_once (AppBook *book, gconstpointer data)
{
  GtkWidget *pane = app_choices_open (book, "A-0024");
  GtkWidget *window = app_choices_begin_option (book, pane, "New battery");
  g_autoptr (HsQuestion) ask = NULL, later = NULL;

  app_choices_press_button (book, window, "Call-out");
  hs_option_window_fill (HS_OPTION_WINDOW (window), "what", "call-out");
  g_assert_true (gtk_widget_activate_action (window, "option.add-line", NULL));
  g_assert_true (gtk_widget_activate_action (window, "option.add-line", NULL));
  app_book_settle (book);
  ask = app_choices_ask_job (book);
  g_assert_cmpuint (hs_job_choices_find (app_choices_get (ask), 1)->lines->len, ==, 1);
  hs_option_window_fill (HS_OPTION_WINDOW (window), "what", "second call-out");
  g_assert_true (gtk_widget_activate_action (window, "option.add-line", NULL));
  g_assert_true (gtk_widget_activate_action (window, "option.done", NULL));
  app_choices_wait_shut (book, HS_TYPE_OPTION_WINDOW);
  later = app_choices_ask_job (book);
  g_assert_cmpuint (hs_job_choices_find (app_choices_get (later), 1)->lines->len, ==, 2);
}

/* A line that the book has is not typed any more, though Esc was quicker than the book. */
static void
test_late_line (AppBook *book, gconstpointer data)
{
  GtkWidget *pane = app_choices_open (book, "A-0024");
  GtkWidget *window = app_choices_begin_option (book, pane, "New battery");
  g_autoptr (HsQuestion) ask = NULL;

  app_choices_press_button (book, window, "Call-out");
  hs_option_window_fill (HS_OPTION_WINDOW (window), "what", "call-out");
  g_assert_true (gtk_widget_activate_action (window, "option.add-line", NULL));
  g_assert_true (gtk_widget_activate_action (window, "option.close", NULL));
  app_choices_wait_shut (book, HS_TYPE_OPTION_WINDOW);
  g_assert_true (gtk_widget_activate_action (pane, "choices.change", NULL));
  hs_app_test_wait (hs_app_test_window (HS_TYPE_OPTION_WINDOW) != NULL);
  window = hs_app_test_window (HS_TYPE_OPTION_WINDOW);
  app_book_settle (book);
  g_assert_true (gtk_widget_activate_action (window, "option.done", NULL));
  app_choices_wait_shut (book, HS_TYPE_OPTION_WINDOW);
  ask = app_choices_ask_job (book);
  g_assert_cmpuint (hs_job_choices_find (app_choices_get (ask), 1)->lines->len, ==, 1);

  /* One that was refused is read out, and not what was sent after it. */
  window = app_choices_begin_option (book, pane, "New clip");
  app_choices_press_button (book, window, "Part");
  hs_option_window_fill (HS_OPTION_WINDOW (window), "what", "clip");
  g_assert_true (gtk_widget_activate_action (window, "option.add-line", NULL));
  g_signal_emit_by_name (hs_app_test_button (window, "Best"), "clicked");
  g_assert_true (gtk_widget_activate_action (window, "option.close", NULL));
  app_choices_wait_shut (book, HS_TYPE_OPTION_WINDOW);
  app_choices_assert_says (GTK_WIDGET (book->window), "Not stored");
  app_choices_assert_says (GTK_WIDGET (book->window), "Typed was “clip”");
}

/* What the book refused stands there still, with the next answer of the book, too; shut, all of it is read out. */
static void
test_refused_stays (AppBook *book, gconstpointer data)
{
  GtkWidget *pane = app_choices_open (book, "A-0024");
  GtkWidget *window;

  app_choices_write_battery (book, pane);
  window = app_choices_say_later (book, pane);
  hs_answer_window_set_risk (HS_ANSWER_WINDOW (window), "flat again");
  g_assert_true (gtk_widget_activate_action (window, "answer.write", NULL));
  app_choices_wait_shut (book, HS_TYPE_ANSWER_WINDOW);
  g_assert_true (gtk_widget_activate_action (pane, "choices.change", NULL));
  window = hs_app_test_window (HS_TYPE_OPTION_WINDOW);
  app_book_settle (book);
  hs_option_window_fill (HS_OPTION_WINDOW (window), "wording", "New battery, AGM");
  app_choices_enter (book, window);
  app_choices_assert_says (window, "Take the answer back first");
  g_signal_emit_by_name (book->ledger, "changed");
  app_book_settle (book);
  g_assert_true (app_choices_holds (window, "New battery, AGM"));
  hs_option_window_fill (HS_OPTION_WINDOW (window), "risk", "it may burn");
  g_assert_true (gtk_widget_activate_action (window, "option.close", NULL));
  app_choices_wait_shut (book, HS_TYPE_OPTION_WINDOW);
  app_choices_assert_says (GTK_WIDGET (book->window), "Typed was “New battery, AGM · it may burn”");
}

/* + is a question of its own, * another answer to the one at hand; without a group it lends its words to one. */
static void
test_questions (AppBook *book, gconstpointer data)
{
  GtkWidget *pane = app_choices_open (book, "A-0024");
  GtkWidget *window;
  g_autoptr (HsQuestion) ask = NULL;

  app_choices_write_battery (book, pane);
  window = app_choices_begin_option (book, pane, "Hide the tracker");
  g_assert_false (app_choices_holds (window, "New battery"));
  g_assert_true (gtk_widget_activate_action (window, "option.done", NULL));
  app_choices_wait_shut (book, HS_TYPE_OPTION_WINDOW);
  /* The card that has the cursor is the one at hand. */
  gtk_widget_grab_focus (hs_app_test_find (pane, HS_TYPE_CHOICE_CARD));
  g_assert_true (hs_choices_pane_press (HS_CHOICES_PANE (pane), GDK_KEY_KP_Multiply));
  window = hs_app_test_window (HS_TYPE_OPTION_WINDOW);
  g_assert_true (app_choices_holds (window, "New battery"));
  app_choices_type_at (window, "Charge it");
  app_choices_enter (book, window);
  g_assert_true (gtk_widget_activate_action (window, "option.done", NULL));
  app_choices_wait_shut (book, HS_TYPE_OPTION_WINDOW);
  ask = app_choices_ask_job (book);
  g_assert_cmpuint (app_choices_get (ask)->choices->len, ==, 3);
  g_assert_null (hs_job_choices_find (app_choices_get (ask), 1)->group);
  g_assert_cmpstr (hs_job_choices_find (app_choices_get (ask), 1)->wording, ==, "Hide the tracker");
  g_assert_cmpstr (hs_job_choices_find (app_choices_get (ask), 2)->wording, ==, "New battery");
  g_assert_cmpstr (hs_job_choices_find (app_choices_get (ask), 2)->group, ==, "New battery");
  g_assert_cmpstr (hs_job_choices_find (app_choices_get (ask), 3)->wording, ==, "Charge it");
  g_assert_cmpstr (hs_job_choices_find (app_choices_get (ask), 3)->group, ==, "New battery");
  g_assert_null (hs_job_choices_find (app_choices_get (ask), 3)->rank);
}

/* Opened again before the book has answered, the line stands there still; it is in the book once, however often it is
 * sent, and then stands there no more. */
static void
test_line_twice (AppBook *book, gconstpointer data)
{
  GtkWidget *pane = app_choices_open (book, "A-0024");
  GtkWidget *window = app_choices_begin_option (book, pane, "New battery");
  GtkWidget *again;
  g_autoptr (HsQuestion) ask = NULL;

  app_choices_press_button (book, window, "Sundry");
  hs_option_window_fill (HS_OPTION_WINDOW (window), "what", "grease");
  hs_option_window_fill (HS_OPTION_WINDOW (window), "number", "3.00");
  app_book_settle (book);
  g_assert_true (gtk_widget_activate_action (window, "option.add-line", NULL));
  gtk_window_close (GTK_WINDOW (window));
  g_assert_true (gtk_widget_activate_action (pane, "choices.change", NULL));
  again = hs_app_test_window (HS_TYPE_OPTION_WINDOW);
  g_assert_nonnull (again);
  g_assert_true (again != window);
  g_assert_true (app_choices_holds (again, "grease"));
  g_assert_true (gtk_widget_activate_action (again, "option.add-line", NULL));
  app_book_settle (book);
  g_assert_false (app_choices_holds (again, "grease"));
  ask = app_choices_ask_job (book);
  g_assert_cmpuint (hs_job_choices_find (app_choices_get (ask), 1)->lines->len, ==, 1);
  gtk_window_close (GTK_WINDOW (again));
  app_choices_wait_shut (book, HS_TYPE_OPTION_WINDOW);
}

/* A digit is printed where it acts: in a field it is text. What a part's price is made of is told, and what a yes would
 * pass the go-ahead by. */
static void
test_told (AppBook *book, gconstpointer data)
{
  GtkWidget *pane = app_choices_open (book, "A-0024");
  GtkWidget *window;
  gboolean shows;

  g_assert_true (gtk_widget_activate_action (pane, "choices.go-ahead", NULL));
  window = hs_app_test_window (HS_TYPE_GO_AHEAD_WINDOW);
  hs_go_ahead_window_set_ceiling (HS_GO_AHEAD_WINDOW (window), "30.00");
  hs_consent_press (hs_go_ahead_window_get_consent (HS_GO_AHEAD_WINDOW (window)), 4);
  g_assert_true (gtk_widget_activate_action (window, "go-ahead.write", NULL));
  app_choices_wait_shut (book, HS_TYPE_GO_AHEAD_WINDOW);

  window = app_choices_begin_option (book, pane, "Relay");
  app_choices_press_button (book, window, "Part");
  g_object_get (hs_app_test_button (window, "Part"), "show-key", &shows, NULL);
  g_assert_false (shows);
  app_choices_add_line (book, window, "Part", "relay", "18.50");
  g_object_get (hs_app_test_button (window, "Part"), "show-key", &shows, NULL);
  g_assert_true (shows);
  /* 10.00 at 2.0 and 8.50 at 1.6 are 33.60, with 8 % tax 36.29. */
  app_choices_assert_says (window, "36.29");
  app_choices_assert_says (window, "cost 18.50, markup 15.10, tax 2.69");
  app_choices_assert_says (window, "brings the job to 36.29: short by 6.29");
  hs_app_test_picture (window, "option-told");
  g_assert_true (gtk_widget_activate_action (window, "option.done", NULL));
  app_choices_wait_shut (book, HS_TYPE_OPTION_WINDOW);
}

#define ADD(name, func) g_test_add (name, AppBook, NULL, app_book_open, func, app_book_close)

int
main (int argc, char *argv[])
{
  hs_app_test_init (&argc, &argv);
  ADD ("/option/line-is-kept", test_line_is_kept);
  ADD ("/option/others-stay-kept", test_others_stay_kept);
  ADD ("/option/option-fields", test_option_fields);
  ADD ("/option/line-begun", test_line_begun);
  ADD ("/option/line-once", test_line_once);
  ADD ("/option/late-line", test_late_line);
  ADD ("/option/refused-stays", test_refused_stays);
  ADD ("/option/questions", test_questions);
  ADD ("/option/line-twice", test_line_twice);
  ADD ("/option/told", test_told);
  return g_test_run ();
}
