// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Told and picked in a real window, by number pad: options written down, answered, raised and signed; stories 13 and 14
 * on the page of the job. */

#include "app-book.h"
#include "hs-act-check.h"
#include "hs-answer-window.h"
#include "hs-app-test.h"
#include "hs-ask.h"
#include "hs-choice-card.h"
#include "hs-choices-pane.h"
#include "hs-go-ahead-window.h"
#include "hs-job-page.h"
#include "hs-key-button.h"
#include "hs-option-window.h"

static void
assert_says (GtkWidget *widget, const char *text)
{
  if (!hs_app_test_says_part (widget, text))
    g_error ("not shown: %s", text);
}

/* Something that can be typed into says @text. */
static gboolean
holds (GtkWidget *widget, const char *text)
{
  if (GTK_IS_EDITABLE (widget) && g_str_equal (gtk_editable_get_text (GTK_EDITABLE (widget)), text))
    return TRUE;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (holds (child, text))
      return TRUE;
  return FALSE;
}

static GtkWidget *
open_choices (AppBook *book, const char *number)
{
  GtkWidget *page = app_book_open_job (book, number, "choices");
  GtkWidget *pane = hs_app_test_find (page, HS_TYPE_CHOICES_PANE);

  g_assert_nonnull (pane);
  app_book_settle (book);
  hs_app_test_frames ();
  return pane;
}

/* Runs until the window of @type is gone and the book has answered. */
static void
wait_shut (AppBook *book, GType type)
{
  hs_app_test_wait (hs_app_test_window (type) == NULL);
  app_book_settle (book);
}

/* The choices as the book has them. */
static HsQuestion *
ask_job (AppBook *book)
{
  HsQuestion *ask = hs_question_new (book->ledger, hs_ask_job, (GDestroyNotify) hs_job_shot_free);

  hs_question_ask (ask, g_variant_new ("(s)", hs_job_page_get_job_id (HS_JOB_PAGE (hs_window_get_job (book->window)))));
  app_book_settle (book);
  return ask;
}

static const HsJobChoices *
choices_of (HsQuestion *ask)
{
  return ((const HsJobShot *) hs_question_get (ask))->choices;
}

/* Types into whatever has the focus of @window. */
static void
type_at (GtkWidget *window, const char *text)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (window));

  g_assert_true (GTK_IS_EDITABLE (focus));
  gtk_editable_set_text (GTK_EDITABLE (focus), text);
}

static void
enter (AppBook *book, GtkWidget *window)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (window));

  g_signal_emit_by_name (GTK_IS_TEXT (focus) ? gtk_widget_get_parent (focus) : focus, "activate");
  app_book_settle (book);
}

/* A-0013: both options with their answers, the risk, the name and the minute; squared, nothing moves. */
static void
test_story_13 (AppBook *book, gconstpointer data)
{
  GtkWidget *pane = open_choices (book, "A-0013");

  assert_says (pane, "520.94");
  assert_says (pane, "153.79");
  assert_says (pane, "New belt will be wetted again; expect the lamp back within weeks");
  assert_says (pane, "no · Bram Hark · signed on screen · Feb 3, 09:36");
  assert_says (pane, "yes · Bram Hark · signed on screen · Feb 3, 09:36");
  assert_says (pane, "room for 0.00");
  g_assert_false (hs_app_test_says_part (pane, "less now"));
  hs_app_test_picture (GTK_WIDGET (book->window), "choices-a13");
  g_assert_true (hs_choices_pane_press (HS_CHOICES_PANE (pane), GDK_KEY_1));
  g_assert_null (hs_app_test_window (HS_TYPE_ANSWER_WINDOW));

  pane = open_choices (book, "A-0020");
  assert_says (pane, "Declined on A-0013, 23 days before: Water pump, belt and coolant, 520.94.");
  assert_says (pane, "674.73 in all over both visits, 153.79 extra.");
  assert_says (pane, "This is the return visit: declined earlier");
  hs_app_test_picture (GTK_WIDGET (book->window), "choices-a20");
}

static GtkWidget *
begin_option (AppBook *book, GtkWidget *pane, const char *wording)
{
  GtkWidget *window;

  g_assert_true (hs_choices_pane_press (HS_CHOICES_PANE (pane), GDK_KEY_KP_Add));
  window = hs_app_test_window (HS_TYPE_OPTION_WINDOW);
  g_assert_nonnull (window);
  type_at (window, wording);
  enter (book, window);
  g_assert_nonnull (hs_option_window_get_choice_id (HS_OPTION_WINDOW (window)));
  return window;
}

static void
press_button (AppBook *book, GtkWidget *window, const char *text)
{
  GtkWidget *button = hs_app_test_button (window, text);

  g_assert_nonnull (button);
  g_signal_emit_by_name (button, "clicked");
  app_book_settle (book);
}

static void
add_line (AppBook *book, GtkWidget *window, const char *kind, const char *what, const char *number)
{
  press_button (book, window, kind);
  type_at (window, what);
  if (number != NULL)
    {
      enter (book, window);
      type_at (window, number);
    }
  enter (book, window);
  app_book_settle (book);
}

/* One option of A-0024 keyed line by line: call-out, 35 min, a battery of 74.00: 211.01. */
static void
write_battery (AppBook *book, GtkWidget *pane)
{
  GtkWidget *window = begin_option (book, pane, "New battery");

  press_button (book, window, "Best");
  add_line (book, window, "Call-out", "call-out", NULL);
  add_line (book, window, "Labor", "battery", "35");
  add_line (book, window, "Part", "battery", "74.00");
  assert_says (window, "211.01");
  hs_app_test_picture (window, "choices-option");
  g_assert_true (gtk_widget_activate_action (window, "option.done", NULL));
  wait_shut (book, HS_TYPE_OPTION_WINDOW);
}

static void
answer (AppBook *book, GtkWidget *pane, guint number, const char *keys)
{
  GtkWidget *window;

  g_assert_true (hs_choices_pane_press (HS_CHOICES_PANE (pane), GDK_KEY_0 + number));
  window = hs_app_test_window (HS_TYPE_ANSWER_WINDOW);
  g_assert_nonnull (window);
  for (const char *key = keys; *key != '\0'; key++)
    g_assert_true (hs_app_test_key (gtk_window_get_focus (GTK_WINDOW (window)), (guint) *key, 0));
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
  GtkWidget *pane = open_choices (book, "A-0024");
  GtkWidget *window;
  g_autoptr (HsQuestion) ask = NULL;
  const HsJobChoices *job;

  write_battery (book, pane);
  assert_says (pane, "no go-ahead yet");
  g_assert_true (hs_choices_pane_press (HS_CHOICES_PANE (pane), GDK_KEY_KP_Divide));
  window = hs_app_test_window (HS_TYPE_GO_AHEAD_WINDOW);
  hs_go_ahead_window_set_ceiling (HS_GO_AHEAD_WINDOW (window), "200.00");
  g_assert_true (hs_consent_press (hs_go_ahead_window_get_consent (HS_GO_AHEAD_WINDOW (window)), 4));
  g_assert_true (gtk_widget_activate_action (window, "go-ahead.write", NULL));
  wait_shut (book, HS_TYPE_GO_AHEAD_WINDOW);
  assert_says (pane, "200.00");
  assert_says (pane, "brings the job to 211.01: short by 11.01");

  /* Yes, by phone; that the go-ahead is raised is never presumed: refused by how much. */
  answer (book, pane, 1, "14");
  window = hs_app_test_window (HS_TYPE_ANSWER_WINDOW);
  g_assert_false (raises (window));
  g_assert_true (gtk_widget_activate_action (window, "answer.write", NULL));
  app_book_settle (book);
  assert_says (window, "The job comes to 211.01 and the go-ahead by Wilhelmina Sorrel covers 200.00: short by 11.01");
  hs_app_test_picture (window, "choices-short");
  gtk_window_close (GTK_WINDOW (window));
  wait_shut (book, HS_TYPE_ANSWER_WINDOW);

  g_assert_true (hs_choices_pane_press (HS_CHOICES_PANE (pane), GDK_KEY_slash));
  window = hs_app_test_window (HS_TYPE_GO_AHEAD_WINDOW);
  hs_app_test_picture (window, "choices-go-ahead");
  hs_go_ahead_window_set_ceiling (HS_GO_AHEAD_WINDOW (window), "220.00");
  hs_consent_press (hs_go_ahead_window_get_consent (HS_GO_AHEAD_WINDOW (window)), 4);
  g_assert_true (gtk_widget_activate_action (window, "go-ahead.write", NULL));
  wait_shut (book, HS_TYPE_GO_AHEAD_WINDOW);
  answer (book, pane, 1, "14");
  window = hs_app_test_window (HS_TYPE_ANSWER_WINDOW);
  g_assert_true (gtk_widget_activate_action (window, "answer.write", NULL));
  wait_shut (book, HS_TYPE_ANSWER_WINDOW);
  assert_says (pane, "room for 8.99");
  assert_says (pane, "yes · Wilhelmina Sorrel · phone");
  hs_app_test_picture (GTK_WIDGET (book->window), "choices-picked");

  ask = ask_job (book);
  job = choices_of (ask);
  g_assert_cmpuint (job->go_aheads->len, ==, 2);
  g_assert_cmpint (((HsGoAhead *) g_ptr_array_index (job->go_aheads, 0))->ceiling_cents, ==, 20000);
  g_assert_cmpint (((HsGoAhead *) g_ptr_array_index (job->go_aheads, 1))->ceiling_cents, ==, 22000);
  g_assert_cmpint (job->room->used_cents, ==, 21101);
}

/* Six presses from the card to a yes that takes its go-ahead along; a no wants the risk, a later makes a call. */
static void
test_answers (AppBook *book, gconstpointer data)
{
  GtkWidget *pane = open_choices (book, "A-0024");
  GtkWidget *window;
  g_autoptr (HsQuestion) ask = NULL;
  g_autoptr (HsQuestion) later = NULL;
  const HsChoice *choice;

  write_battery (book, pane);
  answer (book, pane, 1, "14+");
  window = hs_app_test_window (HS_TYPE_ANSWER_WINDOW);
  g_assert_true (raises (window));
  assert_says (window, "New battery");
  hs_app_test_picture (window, "choices-answer");
  g_assert_true (HS_IS_KEY_BUTTON (gtk_window_get_focus (GTK_WINDOW (window))));
  g_signal_emit_by_name (gtk_window_get_focus (GTK_WINDOW (window)), "clicked");
  wait_shut (book, HS_TYPE_ANSWER_WINDOW);
  ask = ask_job (book);
  g_assert_cmpint (choices_of (ask)->room->ceiling_cents, ==, 21101);
  g_assert_cmpint (choices_of (ask)->room->short_cents, ==, 0);

  answer (book, pane, 1, "3");
  window = hs_app_test_window (HS_TYPE_ANSWER_WINDOW);
  g_assert_true (gtk_widget_activate_action (window, "answer.write", NULL));
  app_book_settle (book);
  assert_says (window, "Which risk was told?");
  hs_answer_window_set_risk (HS_ANSWER_WINDOW (window), "flat again in about 3 days");
  g_assert_true (hs_app_test_key (gtk_window_get_focus (GTK_WINDOW (window)), GDK_KEY_KP_4, 0));
  hs_app_test_picture (window, "choices-later");
  g_assert_true (gtk_widget_activate_action (window, "answer.write", NULL));
  wait_shut (book, HS_TYPE_ANSWER_WINDOW);
  assert_says (pane, "call on Mar 24");
  later = ask_job (book);
  choice = hs_job_choices_find (choices_of (later), 1);
  g_assert_cmpstr (choice->choice, ==, "later");
  g_assert_cmpstr (choice->risk, ==, "flat again in about 3 days");
  g_assert_cmpstr (choice->means, ==, "phone");
  g_assert_cmpint (choices_of (later)->room->used_cents, ==, 0);
}

/* How it came is not guessed: F4 without it says so, and a digit says how. */
static void
test_way_missing (AppBook *book, gconstpointer data)
{
  GtkWidget *pane = open_choices (book, "A-0024");
  GtkWidget *window;
  g_autoptr (HsQuestion) none = NULL, ask = NULL;

  write_battery (book, pane);
  g_assert_true (hs_choices_pane_press (HS_CHOICES_PANE (pane), GDK_KEY_KP_Divide));
  window = hs_app_test_window (HS_TYPE_GO_AHEAD_WINDOW);
  hs_go_ahead_window_set_ceiling (HS_GO_AHEAD_WINDOW (window), "220.00");
  g_assert_null (hs_consent_get_means (hs_go_ahead_window_get_consent (HS_GO_AHEAD_WINDOW (window))));
  g_assert_true (gtk_widget_activate_action (window, "go-ahead.write", NULL));
  app_book_settle (book);
  assert_says (window, "How did the answer come?");
  none = ask_job (book);
  g_assert_cmpuint (choices_of (none)->go_aheads->len, ==, 0);
  g_assert_true (hs_app_test_key (gtk_window_get_focus (GTK_WINDOW (window)), GDK_KEY_KP_4, 0));
  g_assert_true (gtk_widget_activate_action (window, "go-ahead.write", NULL));
  wait_shut (book, HS_TYPE_GO_AHEAD_WINDOW);
  answer (book, pane, 1, "1");
  window = hs_app_test_window (HS_TYPE_ANSWER_WINDOW);
  g_assert_true (gtk_widget_activate_action (window, "answer.write", NULL));
  app_book_settle (book);
  assert_says (window, "How did the answer come?");
  g_assert_true (hs_app_test_key (gtk_window_get_focus (GTK_WINDOW (window)), GDK_KEY_KP_2, 0));
  g_assert_true (gtk_widget_activate_action (window, "answer.write", NULL));
  wait_shut (book, HS_TYPE_ANSWER_WINDOW);
  ask = ask_job (book);
  g_assert_cmpstr (hs_job_choices_find (choices_of (ask), 1)->means, ==, "in_person");
  g_assert_cmpstr (((HsGoAhead *) g_ptr_array_index (choices_of (ask)->go_aheads, 0))->means, ==, "phone");
}

/* The program gone and started again, which opens the job where it was left. */
static GtkWidget *
come_back (AppBook *book)
{
  app_book_close_window (book);
  app_book_open_window (book);
  app_book_settle (book);
  return hs_app_test_find (GTK_WIDGET (book->window), HS_TYPE_CHOICES_PANE);
}

/* A risk that was typed is in the book once its field is left, whether or not an answer follows. */
static void
test_risk_is_kept (AppBook *book, gconstpointer data)
{
  GtkWidget *pane = open_choices (book, "A-0024");
  GtkWidget *window;
  g_autoptr (HsQuestion) ask = NULL;

  write_battery (book, pane);
  answer (book, pane, 1, "2");
  window = hs_app_test_window (HS_TYPE_ANSWER_WINDOW);
  hs_answer_window_set_risk (HS_ANSWER_WINDOW (window), "flat again");
  app_book_settle (book);
  gtk_window_close (GTK_WINDOW (window));
  wait_shut (book, HS_TYPE_ANSWER_WINDOW);
  ask = ask_job (book);
  g_assert_cmpstr (hs_job_choices_find (choices_of (ask), 1)->choice, ==, "open");
  g_assert_cmpstr (hs_job_choices_find (choices_of (ask), 1)->risk, ==, "flat again");
}

/* What is half typed of a go-ahead is there again after Esc and after the program was gone; once it is written down it
 * is not. */
static void
test_go_ahead_is_kept (AppBook *book, gconstpointer data)
{
  GtkWidget *pane = open_choices (book, "A-0024");
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
      g_assert_true (holds (window, "212.50"));
      g_assert_cmpstr (hs_consent_get_means (hs_go_ahead_window_get_consent (HS_GO_AHEAD_WINDOW (window))), ==,
                       "phone");
      if (again == 0)
        {
          g_assert_true (gtk_widget_activate_action (window, "go-ahead.close", NULL));
          wait_shut (book, HS_TYPE_GO_AHEAD_WINDOW);
        }
      else if (again == 1)
        {
          hs_go_ahead_window_set_ceiling (HS_GO_AHEAD_WINDOW (window), "212.5");
          hs_go_ahead_window_set_ceiling (HS_GO_AHEAD_WINDOW (window), "212.50");
          pane = come_back (book);
        }
    }
  g_assert_true (gtk_widget_activate_action (window, "go-ahead.write", NULL));
  wait_shut (book, HS_TYPE_GO_AHEAD_WINDOW);
  g_assert_true (gtk_widget_activate_action (pane, "choices.go-ahead", NULL));
  window = hs_app_test_window (HS_TYPE_GO_AHEAD_WINDOW);
  g_assert_null (hs_consent_get_means (hs_go_ahead_window_get_consent (HS_GO_AHEAD_WINDOW (window))));
}

/* The same of an answer: what was said, how, by whom, and the risk. */
static void
test_answer_is_kept (AppBook *book, gconstpointer data)
{
  GtkWidget *pane = open_choices (book, "A-0024");
  g_autoptr (HsQuestion) ask = NULL;
  GtkWidget *window;

  write_battery (book, pane);
  answer (book, pane, 1, "3");
  window = hs_app_test_window (HS_TYPE_ANSWER_WINDOW);
  hs_consent_press (hs_answer_window_get_consent (HS_ANSWER_WINDOW (window)), 4);
  hs_consent_set_who (hs_answer_window_get_consent (HS_ANSWER_WINDOW (window)), "Wilhelmina");
  g_assert_true (gtk_widget_activate_action (window, "answer.close", NULL));
  wait_shut (book, HS_TYPE_ANSWER_WINDOW);
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
          type_at (window, "flat again");
          app_book_settle (book);
          pane = come_back (book);
        }
    }
  g_assert_true (holds (window, "flat again"));
  g_assert_true (gtk_widget_activate_action (window, "answer.write", NULL));
  wait_shut (book, HS_TYPE_ANSWER_WINDOW);
  ask = ask_job (book);
  g_assert_cmpstr (hs_job_choices_find (choices_of (ask), 1)->choice, ==, "later");
  g_assert_cmpstr (hs_job_choices_find (choices_of (ask), 1)->risk, ==, "flat again");
}

/* A line that was begun and left by Esc is there again with its kind, and so after the program was gone. */
static void
test_line_is_kept (AppBook *book, gconstpointer data)
{
  GtkWidget *pane = open_choices (book, "A-0024");
  GtkWidget *window = begin_option (book, pane, "New battery");

  press_button (book, window, "Labor");
  hs_option_window_fill (HS_OPTION_WINDOW (window), "what", "ground strap");
  g_assert_true (gtk_widget_activate_action (window, "option.close", NULL));
  wait_shut (book, HS_TYPE_OPTION_WINDOW);
  for (int again = 0; again < 2; again++)
    {
      if (again == 0)
        g_assert_true (gtk_widget_activate_action (pane, "choices.change", NULL));
      hs_app_test_wait (hs_app_test_window (HS_TYPE_OPTION_WINDOW) != NULL);
      window = hs_app_test_window (HS_TYPE_OPTION_WINDOW);
      app_book_settle (book);
      g_assert_true (holds (window, again == 0 ? "ground strap" : "ground strap, both"));
      g_assert_true (gtk_widget_activate_action (window, "option.add-line", NULL));
      assert_says (window, "Labor: the line has no figure yet.");
      if (again == 0)
        {
          hs_option_window_fill (HS_OPTION_WINDOW (window), "what", "ground strap, both");
          app_book_settle (book);
          pane = come_back (book);
        }
    }
}

/* An option that is saved takes its own fields along, and nothing that is half typed of another window. */
static void
test_others_stay_kept (AppBook *book, gconstpointer data)
{
  GtkWidget *pane = open_choices (book, "A-0024");
  GtkWidget *window;

  write_battery (book, pane);
  answer (book, pane, 1, "3");
  window = hs_app_test_window (HS_TYPE_ANSWER_WINDOW);
  hs_consent_set_who (hs_answer_window_get_consent (HS_ANSWER_WINDOW (window)), "Wilhelmina");
  hs_consent_press (hs_answer_window_get_consent (HS_ANSWER_WINDOW (window)), 4);
  g_assert_true (gtk_widget_activate_action (window, "answer.close", NULL));
  wait_shut (book, HS_TYPE_ANSWER_WINDOW);
  window = begin_option (book, pane, "Charge it");
  add_line (book, window, "Labor", "charging", "20");
  g_assert_true (gtk_widget_activate_action (window, "option.done", NULL));
  wait_shut (book, HS_TYPE_OPTION_WINDOW);
  /* What has no rank yet stands before it. */
  hs_choices_pane_press (HS_CHOICES_PANE (pane), GDK_KEY_2);
  hs_app_test_wait (hs_app_test_window (HS_TYPE_ANSWER_WINDOW) != NULL);
  window = hs_app_test_window (HS_TYPE_ANSWER_WINDOW);
  assert_says (window, "New battery");
  g_assert_cmpstr (hs_consent_get_means (hs_answer_window_get_consent (HS_ANSWER_WINDOW (window))), ==, "phone");
  g_assert_cmpstr (hs_consent_get_who (hs_answer_window_get_consent (HS_ANSWER_WINDOW (window))), ==, "Wilhelmina");
  g_assert_true (gtk_widget_activate_action (window, "answer.close", NULL));
  wait_shut (book, HS_TYPE_ANSWER_WINDOW);
  /* What is in the book is not typed any more. */
  window = begin_option (book, pane, "Jump it");
  g_assert_false (holds (window, "charging"));
  g_assert_false (holds (window, "Charge it"));
  gtk_window_close (GTK_WINDOW (window));
  wait_shut (book, HS_TYPE_OPTION_WINDOW);
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
  GtkWidget *pane = open_choices (book, "A-0024");
  GtkWidget *window;
  HsConsent *consent;
  g_autoptr (HsQuestion) ask = NULL;
  const HsGoAhead *yes;

  write_battery (book, pane);
  answer (book, pane, 1, "11");
  window = hs_app_test_window (HS_TYPE_ANSWER_WINDOW);
  consent = hs_answer_window_get_consent (HS_ANSWER_WINDOW (window));
  g_assert_true (gtk_widget_activate_action (window, "answer.write", NULL));
  app_book_settle (book);
  assert_says (window, "Nothing is signed yet");
  sign (hs_consent_get_pad (consent));
  g_assert_false (hs_signature_pad_is_blank (hs_consent_get_pad (consent)));
  hs_signature_pad_clear (hs_consent_get_pad (consent));
  g_assert_true (hs_signature_pad_is_blank (hs_consent_get_pad (consent)));
  sign (hs_consent_get_pad (consent));
  hs_app_test_picture (window, "choices-signing");
  g_assert_false (raises (window));
  g_assert_true (gtk_widget_activate_action (window, "answer.write", NULL));
  app_book_settle (book);
  assert_says (window, "A signed yes goes with a go-ahead. Press + for one up to 211.01");
  g_assert_true (hs_app_test_key (gtk_window_get_focus (GTK_WINDOW (window)), GDK_KEY_KP_Add, 0));
  g_assert_true (gtk_widget_activate_action (window, "answer.write", NULL));
  wait_shut (book, HS_TYPE_ANSWER_WINDOW);
  ask = ask_job (book);
  yes = g_ptr_array_index (choices_of (ask)->go_aheads, 0);
  g_assert_cmpstr (yes->means, ==, "signed_on_screen");
  g_assert_cmpint (yes->ceiling_cents, ==, 21101);
  g_assert_nonnull (yes->signature);
  g_assert_nonnull (hs_app_test_find (pane, HS_TYPE_SIGNATURE_PAD));
  hs_app_test_picture (GTK_WIDGET (book->window), "choices-signed");
}

/* A field is in the book as soon as it is left, and a step takes it back; a line goes by its button. */
static void
test_option_fields (AppBook *book, gconstpointer data)
{
  GtkWidget *pane = open_choices (book, "A-0024");
  GtkWidget *window;
  g_autoptr (HsQuestion) ask = NULL;
  const HsChoice *choice;

  write_battery (book, pane);
  g_assert_true (hs_choices_pane_press (HS_CHOICES_PANE (pane), GDK_KEY_period));
  window = hs_app_test_window (HS_TYPE_OPTION_WINDOW);
  type_at (window, "A new battery");
  gtk_widget_child_focus (window, GTK_DIR_TAB_FORWARD);
  app_book_settle (book);
  ask = ask_job (book);
  choice = hs_job_choices_find (choices_of (ask), 1);
  g_assert_cmpstr (choice->wording, ==, "A new battery");
  g_assert_cmpstr (choice->rank, ==, "best");
  g_assert_cmpuint (choice->lines->len, ==, 3);
  add_line (book, window, "Part", "clip", "cheap");
  assert_says (window, "cheap");
  gtk_window_close (GTK_WINDOW (window));
  wait_shut (book, HS_TYPE_OPTION_WINDOW);
}

/* F4 with a line that was begun: it is refused with what it lacks, and once that is there it is in the book. */
static void
test_line_begun (AppBook *book, gconstpointer data)
{
  GtkWidget *pane = open_choices (book, "A-0024");
  GtkWidget *window = begin_option (book, pane, "New battery");
  g_autoptr (HsQuestion) ask = NULL;
  const HsChoice *choice;

  press_button (book, window, "Labor");
  hs_option_window_fill (HS_OPTION_WINDOW (window), "number", "30");
  g_assert_true (gtk_widget_activate_action (window, "option.done", NULL));
  app_book_settle (book);
  g_assert_true (hs_app_test_window (HS_TYPE_OPTION_WINDOW) == window);
  assert_says (window, "Labor: the line has no words yet.");
  hs_option_window_fill (HS_OPTION_WINDOW (window), "number", "");
  hs_option_window_fill (HS_OPTION_WINDOW (window), "what", "battery");
  g_assert_true (gtk_widget_activate_action (window, "option.done", NULL));
  app_book_settle (book);
  g_assert_true (hs_app_test_window (HS_TYPE_OPTION_WINDOW) == window);
  assert_says (window, "Labor: the line has no figure yet.");
  type_at (window, "30");
  g_assert_true (gtk_widget_activate_action (window, "option.done", NULL));
  wait_shut (book, HS_TYPE_OPTION_WINDOW);
  ask = ask_job (book);
  choice = hs_job_choices_find (choices_of (ask), 1);
  g_assert_cmpuint (choice->lines->len, ==, 1);
  g_assert_cmpstr (((HsChoiceLine *) g_ptr_array_index (choice->lines, 0))->what, ==, "battery");
}

/* A line is in the book once, though its key is pressed again before the book answers; F4 then still shuts. */
static void
test_line_once (AppBook *book, gconstpointer data)
{
  GtkWidget *pane = open_choices (book, "A-0024");
  GtkWidget *window = begin_option (book, pane, "New battery");
  g_autoptr (HsQuestion) ask = NULL, later = NULL;

  press_button (book, window, "Call-out");
  hs_option_window_fill (HS_OPTION_WINDOW (window), "what", "call-out");
  g_assert_true (gtk_widget_activate_action (window, "option.add-line", NULL));
  g_assert_true (gtk_widget_activate_action (window, "option.add-line", NULL));
  app_book_settle (book);
  ask = ask_job (book);
  g_assert_cmpuint (hs_job_choices_find (choices_of (ask), 1)->lines->len, ==, 1);
  hs_option_window_fill (HS_OPTION_WINDOW (window), "what", "second call-out");
  g_assert_true (gtk_widget_activate_action (window, "option.add-line", NULL));
  g_assert_true (gtk_widget_activate_action (window, "option.done", NULL));
  wait_shut (book, HS_TYPE_OPTION_WINDOW);
  later = ask_job (book);
  g_assert_cmpuint (hs_job_choices_find (choices_of (later), 1)->lines->len, ==, 2);
}

/* The page fits a phone and a small laptop, and its cards say everything to who does not see them. */
static void
test_room (AppBook *book, gconstpointer data)
{
  GtkWidget *pane = open_choices (book, "A-0013");
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
  GtkWidget *pane = open_choices (book, "A-0013");
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

/* Later, by phone; why is not typed yet. */
static GtkWidget *
say_later (AppBook *book, GtkWidget *pane)
{
  GtkWidget *window;

  answer (book, pane, 1, "3");
  window = hs_app_test_window (HS_TYPE_ANSWER_WINDOW);
  hs_consent_set_who (hs_answer_window_get_consent (HS_ANSWER_WINDOW (window)), "Wilhelmina");
  hs_consent_press (hs_answer_window_get_consent (HS_ANSWER_WINDOW (window)), 4);
  return window;
}

/* A line that the book has is not typed any more, though Esc was quicker than the book. */
static void
test_late_line (AppBook *book, gconstpointer data)
{
  GtkWidget *pane = open_choices (book, "A-0024");
  GtkWidget *window = begin_option (book, pane, "New battery");
  g_autoptr (HsQuestion) ask = NULL;

  press_button (book, window, "Call-out");
  hs_option_window_fill (HS_OPTION_WINDOW (window), "what", "call-out");
  g_assert_true (gtk_widget_activate_action (window, "option.add-line", NULL));
  g_assert_true (gtk_widget_activate_action (window, "option.close", NULL));
  wait_shut (book, HS_TYPE_OPTION_WINDOW);
  g_assert_true (gtk_widget_activate_action (pane, "choices.change", NULL));
  hs_app_test_wait (hs_app_test_window (HS_TYPE_OPTION_WINDOW) != NULL);
  window = hs_app_test_window (HS_TYPE_OPTION_WINDOW);
  app_book_settle (book);
  g_assert_true (gtk_widget_activate_action (window, "option.done", NULL));
  wait_shut (book, HS_TYPE_OPTION_WINDOW);
  ask = ask_job (book);
  g_assert_cmpuint (hs_job_choices_find (choices_of (ask), 1)->lines->len, ==, 1);

  /* One that was refused is read out, and not what was sent after it. */
  window = begin_option (book, pane, "New clip");
  press_button (book, window, "Part");
  hs_option_window_fill (HS_OPTION_WINDOW (window), "what", "clip");
  g_assert_true (gtk_widget_activate_action (window, "option.add-line", NULL));
  g_signal_emit_by_name (hs_app_test_button (window, "Best"), "clicked");
  g_assert_true (gtk_widget_activate_action (window, "option.close", NULL));
  wait_shut (book, HS_TYPE_OPTION_WINDOW);
  assert_says (GTK_WIDGET (book->window), "Not stored");
  assert_says (GTK_WIDGET (book->window), "Typed was “clip”");
}

/* A go-ahead that the book has, and an answer, is not typed any more, though Esc was quicker than the book. */
static void
test_late_consent (AppBook *book, gconstpointer data)
{
  GtkWidget *pane = open_choices (book, "A-0024");
  GtkWidget *window;

  write_battery (book, pane);
  g_assert_true (gtk_widget_activate_action (pane, "choices.go-ahead", NULL));
  window = hs_app_test_window (HS_TYPE_GO_AHEAD_WINDOW);
  hs_go_ahead_window_set_ceiling (HS_GO_AHEAD_WINDOW (window), "12.34");
  hs_consent_set_who (hs_go_ahead_window_get_consent (HS_GO_AHEAD_WINDOW (window)), "Wilhelmina");
  hs_consent_press (hs_go_ahead_window_get_consent (HS_GO_AHEAD_WINDOW (window)), 4);
  g_assert_true (gtk_widget_activate_action (window, "go-ahead.write", NULL));
  g_assert_true (gtk_widget_activate_action (window, "go-ahead.close", NULL));
  wait_shut (book, HS_TYPE_GO_AHEAD_WINDOW);
  g_assert_true (gtk_widget_activate_action (pane, "choices.go-ahead", NULL));
  window = hs_app_test_window (HS_TYPE_GO_AHEAD_WINDOW);
  g_assert_false (holds (window, "12.34"));
  g_assert_true (gtk_widget_activate_action (window, "go-ahead.close", NULL));
  wait_shut (book, HS_TYPE_GO_AHEAD_WINDOW);

  window = say_later (book, pane);
  type_at (window, "flat again");
  g_assert_true (gtk_widget_activate_action (window, "answer.write", NULL));
  g_assert_true (gtk_widget_activate_action (window, "answer.close", NULL));
  wait_shut (book, HS_TYPE_ANSWER_WINDOW);
  assert_says (pane, "flat again");
  g_assert_true (hs_choices_pane_press (HS_CHOICES_PANE (pane), GDK_KEY_1));
  window = hs_app_test_window (HS_TYPE_ANSWER_WINDOW);
  /* Nothing is chosen, so that no way is asked for yet. */
  g_assert_null (hs_consent_get_means (hs_answer_window_get_consent (HS_ANSWER_WINDOW (window))));
}

/* What the book refused stands there still, with the next answer of the book, too; shut, all of it is read out. */
static void
test_refused_stays (AppBook *book, gconstpointer data)
{
  GtkWidget *pane = open_choices (book, "A-0024");
  GtkWidget *window;

  write_battery (book, pane);
  window = say_later (book, pane);
  hs_answer_window_set_risk (HS_ANSWER_WINDOW (window), "flat again");
  g_assert_true (gtk_widget_activate_action (window, "answer.write", NULL));
  wait_shut (book, HS_TYPE_ANSWER_WINDOW);
  g_assert_true (gtk_widget_activate_action (pane, "choices.change", NULL));
  window = hs_app_test_window (HS_TYPE_OPTION_WINDOW);
  app_book_settle (book);
  hs_option_window_fill (HS_OPTION_WINDOW (window), "wording", "New battery, AGM");
  enter (book, window);
  assert_says (window, "Take the answer back first");
  g_signal_emit_by_name (book->ledger, "changed");
  app_book_settle (book);
  g_assert_true (holds (window, "New battery, AGM"));
  hs_option_window_fill (HS_OPTION_WINDOW (window), "risk", "it may burn");
  g_assert_true (gtk_widget_activate_action (window, "option.close", NULL));
  wait_shut (book, HS_TYPE_OPTION_WINDOW);
  assert_says (GTK_WIDGET (book->window), "Typed was “New battery, AGM · it may burn”");
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
  ADD ("/choices/line-is-kept", test_line_is_kept);
  ADD ("/choices/signed", test_signed);
  ADD ("/choices/way-missing", test_way_missing);
  ADD ("/choices/line-begun", test_line_begun);
  ADD ("/choices/others-stay-kept", test_others_stay_kept);
  ADD ("/choices/line-once", test_line_once);
  ADD ("/choices/option-fields", test_option_fields);
  ADD ("/choices/room", test_room);
  ADD ("/choices/large-text", test_large_text);
  ADD ("/choices/late-line", test_late_line);
  ADD ("/choices/late-consent", test_late_consent);
  ADD ("/choices/refused-stays", test_refused_stays);
  return g_test_run ();
}
