// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Told and picked in a real window, by number pad: options written down, answered, raised and signed; stories 13 and 14
 * on the page of the job. */

#include "app-choices.h"
#include "hs-act-check.h"
#include "hs-answer-window.h"
#include "hs-choices-pane.h"
#include "hs-go-ahead-window.h"
#include "hs-key-button.h"
#include "hs-option-window.h"

/* A-0013: both options with their answers, the risk, the name and the minute; squared, nothing moves. */
static void
test_story_13 (AppBook *book, gconstpointer data)
{
  GtkWidget *pane = app_choices_open (book, "A-0013");

  app_choices_assert_says (pane, "520.94");
  app_choices_assert_says (pane, "153.79");
  app_choices_assert_says (pane, "New belt will be wetted again; expect the lamp back within weeks");
  app_choices_assert_says (pane, "no · Bram Hark · signed on screen · Feb 3, 09:36");
  app_choices_assert_says (pane, "yes · Bram Hark · signed on screen · Feb 3, 09:36");
  app_choices_assert_says (pane, "room for 0.00");
  g_assert_false (hs_app_test_says_part (pane, "less now"));
  hs_app_test_picture (GTK_WIDGET (book->window), "choices-a13");
  g_assert_true (hs_choices_pane_press (HS_CHOICES_PANE (pane), GDK_KEY_1));
  g_assert_null (hs_app_test_window (HS_TYPE_ANSWER_WINDOW));

  pane = app_choices_open (book, "A-0020");
  app_choices_assert_says (pane, "Declined on A-0013, 23 days before: Water pump, belt and coolant, 520.94.");
  app_choices_assert_says (pane, "674.73 in all over both visits, 153.79 extra.");
  app_choices_assert_says (pane, "This is the return visit: declined earlier");
  hs_app_test_picture (GTK_WIDGET (book->window), "choices-a20");
}

/* Whether the answer takes a go-ahead along that reaches further. */
static gboolean
raises (GtkWidget *window)
{
  GtkWidget *check = hs_app_test_find (window, HS_TYPE_ACT_CHECK);

  g_assert_nonnull (check);
  g_assert_true (gtk_widget_get_mapped (check));
  return gtk_check_button_get_active (GTK_CHECK_BUTTON (check));
}

/* Ceiling 200.00, charges 211.01: short by 11.01; by phone up to 220.00 it goes, and both rows stay. */
static void
test_story_14 (AppBook *book, gconstpointer data)
{
  GtkWidget *pane = app_choices_open (book, "A-0024");
  GtkWidget *window;
  g_autoptr (HsQuestion) ask = NULL;
  const HsJobChoices *job;

  app_choices_write_battery (book, pane);
  app_choices_assert_says (pane, "no go-ahead yet");
  g_assert_true (hs_choices_pane_press (HS_CHOICES_PANE (pane), GDK_KEY_KP_Divide));
  window = hs_app_test_window (HS_TYPE_GO_AHEAD_WINDOW);
  hs_go_ahead_window_set_ceiling (HS_GO_AHEAD_WINDOW (window), "200.00");
  g_assert_true (hs_consent_press (hs_go_ahead_window_get_consent (HS_GO_AHEAD_WINDOW (window)), 4));
  g_assert_true (gtk_widget_activate_action (window, "go-ahead.write", NULL));
  app_choices_wait_shut (book, HS_TYPE_GO_AHEAD_WINDOW);
  app_choices_assert_says (pane, "200.00");
  app_choices_assert_says (pane, "brings the job to 211.01: short by 11.01");

  /* Yes, by phone; that the go-ahead is raised is never presumed: refused by how much. */
  app_choices_answer (book, pane, 1, "14");
  window = hs_app_test_window (HS_TYPE_ANSWER_WINDOW);
  g_assert_false (raises (window));
  g_assert_true (gtk_widget_activate_action (window, "answer.write", NULL));
  app_book_settle (book);
  app_choices_assert_says (window, "The job comes to 211.01 and the go-ahead by Wilhelmina Sorrel covers 200.00: "
                                   "short by 11.01");
  hs_app_test_picture (window, "choices-short");
  gtk_window_close (GTK_WINDOW (window));
  app_choices_wait_shut (book, HS_TYPE_ANSWER_WINDOW);

  g_assert_true (hs_choices_pane_press (HS_CHOICES_PANE (pane), GDK_KEY_slash));
  window = hs_app_test_window (HS_TYPE_GO_AHEAD_WINDOW);
  hs_app_test_picture (window, "choices-go-ahead");
  hs_go_ahead_window_set_ceiling (HS_GO_AHEAD_WINDOW (window), "220.00");
  hs_consent_press (hs_go_ahead_window_get_consent (HS_GO_AHEAD_WINDOW (window)), 4);
  g_assert_true (gtk_widget_activate_action (window, "go-ahead.write", NULL));
  app_choices_wait_shut (book, HS_TYPE_GO_AHEAD_WINDOW);
  app_choices_answer (book, pane, 1, "14");
  window = hs_app_test_window (HS_TYPE_ANSWER_WINDOW);
  g_assert_true (gtk_widget_activate_action (window, "answer.write", NULL));
  app_choices_wait_shut (book, HS_TYPE_ANSWER_WINDOW);
  app_choices_assert_says (pane, "room for 8.99");
  app_choices_assert_says (pane, "yes · Wilhelmina Sorrel · phone");
  hs_app_test_picture (GTK_WIDGET (book->window), "choices-picked");

  ask = app_choices_ask_job (book);
  job = app_choices_get (ask);
  g_assert_cmpuint (job->go_aheads->len, ==, 2);
  g_assert_cmpint (((HsGoAhead *) g_ptr_array_index (job->go_aheads, 0))->ceiling_cents, ==, 20000);
  g_assert_cmpint (((HsGoAhead *) g_ptr_array_index (job->go_aheads, 1))->ceiling_cents, ==, 22000);
  g_assert_cmpint (job->room->used_cents, ==, 21101);
}

/* Six presses from the card to a yes that takes its go-ahead along; a no wants the risk, a later makes a call. */
static void
test_answers (AppBook *book, gconstpointer data)
{
  GtkWidget *pane = app_choices_open (book, "A-0024");
  GtkWidget *window;
  g_autoptr (HsQuestion) ask = NULL;
  g_autoptr (HsQuestion) later = NULL;
  const HsChoice *choice;

  app_choices_write_battery (book, pane);
  app_choices_answer (book, pane, 1, "14+");
  window = hs_app_test_window (HS_TYPE_ANSWER_WINDOW);
  g_assert_true (raises (window));
  app_choices_assert_says (window, "New battery");
  hs_app_test_picture (window, "choices-answer");
  g_assert_true (HS_IS_KEY_BUTTON (gtk_window_get_focus (GTK_WINDOW (window))));
  g_signal_emit_by_name (gtk_window_get_focus (GTK_WINDOW (window)), "clicked");
  app_choices_wait_shut (book, HS_TYPE_ANSWER_WINDOW);
  ask = app_choices_ask_job (book);
  g_assert_cmpint (app_choices_get (ask)->room->ceiling_cents, ==, 21101);
  g_assert_cmpint (app_choices_get (ask)->room->short_cents, ==, 0);

  app_choices_answer (book, pane, 1, "3");
  window = hs_app_test_window (HS_TYPE_ANSWER_WINDOW);
  g_assert_true (gtk_widget_activate_action (window, "answer.write", NULL));
  app_book_settle (book);
  app_choices_assert_says (window, "Which risk was told?");
  hs_answer_window_set_risk (HS_ANSWER_WINDOW (window), "flat again in about 3 days");
  g_assert_true (hs_app_test_key (gtk_window_get_focus (GTK_WINDOW (window)), GDK_KEY_KP_4, 0));
  hs_app_test_picture (window, "choices-later");
  g_assert_true (gtk_widget_activate_action (window, "answer.write", NULL));
  app_choices_wait_shut (book, HS_TYPE_ANSWER_WINDOW);
  app_choices_assert_says (pane, "call on Mar 24");
  later = app_choices_ask_job (book);
  choice = hs_job_choices_find (app_choices_get (later), 1);
  g_assert_cmpstr (choice->choice, ==, "later");
  g_assert_cmpstr (choice->risk, ==, "flat again in about 3 days");
  g_assert_cmpstr (choice->means, ==, "phone");
  g_assert_cmpint (app_choices_get (later)->room->used_cents, ==, 0);
}

/* After a no the next digit is the way, as after a yes, and no letter of the risk; after that the risk is asked for. */
static void
test_no_by_digits (AppBook *book, gconstpointer data)
{
  GtkWidget *pane = app_choices_open (book, "A-0024");
  GtkWidget *window;
  g_autoptr (HsQuestion) ask = NULL;
  const HsChoice *choice;

  app_choices_write_battery (book, pane);
  app_choices_answer (book, pane, 1, "22");
  window = hs_app_test_window (HS_TYPE_ANSWER_WINDOW);
  g_assert_cmpstr (hs_consent_get_means (hs_answer_window_get_consent (HS_ANSWER_WINDOW (window))), ==, "in_person");
  app_choices_type_at (window, "flat again");
  app_choices_enter (book, window);
  app_choices_wait_shut (book, HS_TYPE_ANSWER_WINDOW);
  ask = app_choices_ask_job (book);
  choice = hs_job_choices_find (app_choices_get (ask), 1);
  g_assert_cmpstr (choice->choice, ==, "no");
  g_assert_cmpstr (choice->means, ==, "in_person");
  g_assert_cmpstr (choice->risk, ==, "flat again");
}

/* How it came is not guessed: F4 without it says so, and a digit says how. */
static void
test_way_missing (AppBook *book, gconstpointer data)
{
  GtkWidget *pane = app_choices_open (book, "A-0024");
  GtkWidget *window;
  g_autoptr (HsQuestion) none = NULL, ask = NULL;

  app_choices_write_battery (book, pane);
  g_assert_true (hs_choices_pane_press (HS_CHOICES_PANE (pane), GDK_KEY_KP_Divide));
  window = hs_app_test_window (HS_TYPE_GO_AHEAD_WINDOW);
  hs_go_ahead_window_set_ceiling (HS_GO_AHEAD_WINDOW (window), "220.00");
  g_assert_null (hs_consent_get_means (hs_go_ahead_window_get_consent (HS_GO_AHEAD_WINDOW (window))));
  g_assert_true (gtk_widget_activate_action (window, "go-ahead.write", NULL));
  app_book_settle (book);
  app_choices_assert_says (window, "How did the answer come?");
  none = app_choices_ask_job (book);
  g_assert_cmpuint (app_choices_get (none)->go_aheads->len, ==, 0);
  g_assert_true (hs_app_test_key (gtk_window_get_focus (GTK_WINDOW (window)), GDK_KEY_KP_4, 0));
  g_assert_true (gtk_widget_activate_action (window, "go-ahead.write", NULL));
  app_choices_wait_shut (book, HS_TYPE_GO_AHEAD_WINDOW);
  app_choices_answer (book, pane, 1, "1");
  window = hs_app_test_window (HS_TYPE_ANSWER_WINDOW);
  g_assert_true (gtk_widget_activate_action (window, "answer.write", NULL));
  app_book_settle (book);
  app_choices_assert_says (window, "How did the answer come?");
  g_assert_true (hs_app_test_key (gtk_window_get_focus (GTK_WINDOW (window)), GDK_KEY_KP_2, 0));
  g_assert_true (gtk_widget_activate_action (window, "answer.write", NULL));
  app_choices_wait_shut (book, HS_TYPE_ANSWER_WINDOW);
  ask = app_choices_ask_job (book);
  g_assert_cmpstr (hs_job_choices_find (app_choices_get (ask), 1)->means, ==, "in_person");
  g_assert_cmpstr (((HsGoAhead *) g_ptr_array_index (app_choices_get (ask)->go_aheads, 0))->means, ==, "phone");
}

/* A risk that was typed is in the book once its field is left, whether or not an answer follows. */
static void
test_risk_is_kept (AppBook *book, gconstpointer data)
{
  GtkWidget *pane = app_choices_open (book, "A-0024");
  GtkWidget *window;
  g_autoptr (HsQuestion) ask = NULL;

  app_choices_write_battery (book, pane);
  app_choices_answer (book, pane, 1, "22");
  window = hs_app_test_window (HS_TYPE_ANSWER_WINDOW);
  app_choices_type_at (window, "flat again");
  gtk_widget_child_focus (window, GTK_DIR_TAB_FORWARD);
  app_book_settle (book);
  gtk_window_close (GTK_WINDOW (window));
  app_choices_wait_shut (book, HS_TYPE_ANSWER_WINDOW);
  ask = app_choices_ask_job (book);
  g_assert_cmpstr (hs_job_choices_find (app_choices_get (ask), 1)->choice, ==, "open");
  g_assert_cmpstr (hs_job_choices_find (app_choices_get (ask), 1)->risk, ==, "flat again");
}

/* What is half typed of a go-ahead is there again after Esc and after the program was gone; once it is written down it
 * is not. */
static void
test_go_ahead_is_kept (AppBook *book, gconstpointer data)
{
  GtkWidget *pane = app_choices_open (book, "A-0024");
  GtkWidget *window;

  for (int again = 0; again < 3; again++)
    {
      if (again < 2)
        g_assert_true (gtk_widget_activate_action (pane, "choices.go-ahead", NULL));
      hs_app_test_wait (hs_app_test_window (HS_TYPE_GO_AHEAD_WINDOW) != NULL);
      window = hs_app_test_window (HS_TYPE_GO_AHEAD_WINDOW);
      if (again == 0)
        {
          hs_go_ahead_window_set_ceiling (HS_GO_AHEAD_WINDOW (window), "212.50");
          hs_consent_press (hs_go_ahead_window_get_consent (HS_GO_AHEAD_WINDOW (window)), 4);
        }
      g_assert_true (app_choices_holds (window, "212.50"));
      g_assert_cmpstr (hs_consent_get_means (hs_go_ahead_window_get_consent (HS_GO_AHEAD_WINDOW (window))), ==,
                       "phone");
      if (again == 0)
        {
          g_assert_true (gtk_widget_activate_action (window, "go-ahead.close", NULL));
          app_choices_wait_shut (book, HS_TYPE_GO_AHEAD_WINDOW);
        }
      else if (again == 1)
        {
          hs_go_ahead_window_set_ceiling (HS_GO_AHEAD_WINDOW (window), "212.5");
          hs_go_ahead_window_set_ceiling (HS_GO_AHEAD_WINDOW (window), "212.50");
          pane = app_choices_come_back (book);
        }
    }
  g_assert_true (gtk_widget_activate_action (window, "go-ahead.write", NULL));
  app_choices_wait_shut (book, HS_TYPE_GO_AHEAD_WINDOW);
  g_assert_true (gtk_widget_activate_action (pane, "choices.go-ahead", NULL));
  window = hs_app_test_window (HS_TYPE_GO_AHEAD_WINDOW);
  g_assert_null (hs_consent_get_means (hs_go_ahead_window_get_consent (HS_GO_AHEAD_WINDOW (window))));
}

/* The same of an answer: what was said, how, by whom, and the risk. */
static void
test_answer_is_kept (AppBook *book, gconstpointer data)
{
  GtkWidget *pane = app_choices_open (book, "A-0024");
  g_autoptr (HsQuestion) ask = NULL;
  GtkWidget *window;

  app_choices_write_battery (book, pane);
  app_choices_answer (book, pane, 1, "3");
  window = hs_app_test_window (HS_TYPE_ANSWER_WINDOW);
  hs_consent_press (hs_answer_window_get_consent (HS_ANSWER_WINDOW (window)), 4);
  hs_consent_set_who (hs_answer_window_get_consent (HS_ANSWER_WINDOW (window)), "Wilhelmina");
  g_assert_true (gtk_widget_activate_action (window, "answer.close", NULL));
  app_choices_wait_shut (book, HS_TYPE_ANSWER_WINDOW);
  for (int again = 0; again < 2; again++)
    {
      if (again == 0)
        hs_choices_pane_press (HS_CHOICES_PANE (pane), GDK_KEY_1);
      hs_app_test_wait (hs_app_test_window (HS_TYPE_ANSWER_WINDOW) != NULL);
      window = hs_app_test_window (HS_TYPE_ANSWER_WINDOW);
      g_assert_cmpstr (hs_consent_get_means (hs_answer_window_get_consent (HS_ANSWER_WINDOW (window))), ==, "phone");
      g_assert_cmpstr (hs_consent_get_who (hs_answer_window_get_consent (HS_ANSWER_WINDOW (window))), ==,
                       "Wilhelmina");
      if (again == 0)
        {
          app_choices_type_at (window, "flat again");
          app_book_settle (book);
          pane = app_choices_come_back (book);
        }
    }
  g_assert_true (app_choices_holds (window, "flat again"));
  g_assert_true (gtk_widget_activate_action (window, "answer.write", NULL));
  app_choices_wait_shut (book, HS_TYPE_ANSWER_WINDOW);
  ask = app_choices_ask_job (book);
  g_assert_cmpstr (hs_job_choices_find (app_choices_get (ask), 1)->choice, ==, "later");
  g_assert_cmpstr (hs_job_choices_find (app_choices_get (ask), 1)->risk, ==, "flat again");
}

static void
sign (HsSignaturePad *pad)
{
  hs_signature_pad_draw (pad, TRUE, 20, 60);
  for (int i = 1; i < 40; i++)
    hs_signature_pad_draw (pad, FALSE, 20 + 6 * i, 60 + (i % 8 < 4 ? -5 * (i % 4) : 5 * (i % 4)));
}

/* A blank box is no signature; a name drawn into it is kept with the go-ahead and shown beside it. */
static void
test_signed (AppBook *book, gconstpointer data)
{
  GtkWidget *pane = app_choices_open (book, "A-0024");
  GtkWidget *window;
  HsConsent *consent;
  g_autoptr (HsQuestion) ask = NULL;
  const HsGoAhead *yes;

  app_choices_write_battery (book, pane);
  app_choices_answer (book, pane, 1, "11");
  window = hs_app_test_window (HS_TYPE_ANSWER_WINDOW);
  consent = hs_answer_window_get_consent (HS_ANSWER_WINDOW (window));
  g_assert_true (gtk_widget_activate_action (window, "answer.write", NULL));
  app_book_settle (book);
  app_choices_assert_says (window, "Nothing is signed yet");
  sign (hs_consent_get_pad (consent));
  g_assert_false (hs_signature_pad_is_blank (hs_consent_get_pad (consent)));
  hs_signature_pad_clear (hs_consent_get_pad (consent));
  g_assert_true (hs_signature_pad_is_blank (hs_consent_get_pad (consent)));
  sign (hs_consent_get_pad (consent));
  hs_app_test_picture (window, "choices-signing");
  g_assert_false (raises (window));
  g_assert_true (gtk_widget_activate_action (window, "answer.write", NULL));
  app_book_settle (book);
  app_choices_assert_says (window, "A signed yes goes with a go-ahead. Press + for one up to 211.01");
  g_assert_true (hs_app_test_key (gtk_window_get_focus (GTK_WINDOW (window)), GDK_KEY_KP_Add, 0));
  g_assert_true (gtk_widget_activate_action (window, "answer.write", NULL));
  app_choices_wait_shut (book, HS_TYPE_ANSWER_WINDOW);
  ask = app_choices_ask_job (book);
  yes = g_ptr_array_index (app_choices_get (ask)->go_aheads, 0);
  g_assert_cmpstr (yes->means, ==, "signed_on_screen");
  g_assert_cmpint (yes->ceiling_cents, ==, 21101);
  g_assert_nonnull (yes->signature);
  g_assert_nonnull (hs_app_test_find (pane, HS_TYPE_SIGNATURE_PAD));
  hs_app_test_picture (GTK_WIDGET (book->window), "choices-signed");
}

/* The page fits a phone and a small laptop, and its cards say everything to who does not see them. */
static void
test_room (AppBook *book, gconstpointer data)
{
  GtkWidget *pane = app_choices_open (book, "A-0013");
  int least;

  gtk_window_set_default_size (GTK_WINDOW (book->window), 360, 700);
  hs_app_test_wait (hs_window_get_narrow (book->window));
  hs_app_test_frames ();
  gtk_widget_measure (pane, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  g_assert_cmpint (least, <=, 360);
  hs_app_test_picture (GTK_WIDGET (book->window), "choices-360");
  gtk_window_set_default_size (GTK_WINDOW (book->window), 1024, 600);
  hs_app_test_wait (!hs_window_get_narrow (book->window));
  hs_app_test_frames ();
  hs_app_test_picture (GTK_WIDGET (book->window), "choices-1024");
}

/* Twice the text, and the dark sheet: words wrap, and nothing wants more than the window has. */
static void
test_large_text (AppBook *book, gconstpointer data)
{
  GtkWidget *pane = app_choices_open (book, "A-0013");
  int dpi, least;

  g_object_get (gtk_settings_get_default (), "gtk-xft-dpi", &dpi, NULL);
  g_object_set (gtk_settings_get_default (), "gtk-xft-dpi", 2 * 96 * 1024, NULL);
  adw_style_manager_set_color_scheme (adw_style_manager_get_default (), ADW_COLOR_SCHEME_FORCE_DARK);
  gtk_window_set_default_size (GTK_WINDOW (book->window), 1024, 768);
  hs_app_test_wait (hs_window_get_narrow (book->window));
  hs_app_test_frames ();
  gtk_widget_measure (pane, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  g_assert_cmpint (least, <=, 720);
  hs_app_test_picture (GTK_WIDGET (book->window), "choices-200");
  adw_style_manager_set_color_scheme (adw_style_manager_get_default (), ADW_COLOR_SCHEME_DEFAULT);
  g_object_set (gtk_settings_get_default (), "gtk-xft-dpi", dpi, NULL);
}

/* A go-ahead that the book has, and an answer, is not typed any more, though Esc was quicker than the book. */
static void
test_late_consent (AppBook *book, gconstpointer data)
{
  GtkWidget *pane = app_choices_open (book, "A-0024");
  GtkWidget *window;

  app_choices_write_battery (book, pane);
  g_assert_true (gtk_widget_activate_action (pane, "choices.go-ahead", NULL));
  window = hs_app_test_window (HS_TYPE_GO_AHEAD_WINDOW);
  hs_go_ahead_window_set_ceiling (HS_GO_AHEAD_WINDOW (window), "12.34");
  hs_consent_set_who (hs_go_ahead_window_get_consent (HS_GO_AHEAD_WINDOW (window)), "Wilhelmina");
  hs_consent_press (hs_go_ahead_window_get_consent (HS_GO_AHEAD_WINDOW (window)), 4);
  g_assert_true (gtk_widget_activate_action (window, "go-ahead.write", NULL));
  g_assert_true (gtk_widget_activate_action (window, "go-ahead.close", NULL));
  app_choices_wait_shut (book, HS_TYPE_GO_AHEAD_WINDOW);
  g_assert_true (gtk_widget_activate_action (pane, "choices.go-ahead", NULL));
  window = hs_app_test_window (HS_TYPE_GO_AHEAD_WINDOW);
  g_assert_false (app_choices_holds (window, "12.34"));
  g_assert_true (gtk_widget_activate_action (window, "go-ahead.close", NULL));
  app_choices_wait_shut (book, HS_TYPE_GO_AHEAD_WINDOW);

  window = app_choices_say_later (book, pane);
  app_choices_type_at (window, "flat again");
  g_assert_true (gtk_widget_activate_action (window, "answer.write", NULL));
  g_assert_true (gtk_widget_activate_action (window, "answer.close", NULL));
  app_choices_wait_shut (book, HS_TYPE_ANSWER_WINDOW);
  app_choices_assert_says (pane, "flat again");
  g_assert_true (hs_choices_pane_press (HS_CHOICES_PANE (pane), GDK_KEY_1));
  window = hs_app_test_window (HS_TYPE_ANSWER_WINDOW);
  /* Nothing is chosen, so that no way is asked for yet. */
  g_assert_null (hs_consent_get_means (hs_answer_window_get_consent (HS_ANSWER_WINDOW (window))));
}

#define ADD(name, func) g_test_add (name, AppBook, NULL, app_book_open, func, app_book_close)

int
main (int argc, char *argv[])
{
  hs_app_test_init (&argc, &argv);
  ADD ("/choices/story-13", test_story_13);
  ADD ("/choices/story-14", test_story_14);
  ADD ("/choices/answers", test_answers);
  ADD ("/choices/risk-is-kept", test_risk_is_kept);
  ADD ("/choices/go-ahead-is-kept", test_go_ahead_is_kept);
  ADD ("/choices/answer-is-kept", test_answer_is_kept);
  ADD ("/choices/signed", test_signed);
  ADD ("/choices/no-by-digits", test_no_by_digits);
  ADD ("/choices/way-missing", test_way_missing);
  ADD ("/choices/room", test_room);
  ADD ("/choices/large-text", test_large_text);
  ADD ("/choices/late-consent", test_late_consent);
  return g_test_run ();
}
