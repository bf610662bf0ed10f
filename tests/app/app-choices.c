// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What the window tests of choices share: the page, an option keyed line by line, an answer by its digits. */

#include "app-choices.h"

#include "hs-answer-window.h"
#include "hs-choices-pane.h"
#include "hs-job-page.h"
#include "hs-option-window.h"

void
app_choices_assert_says (GtkWidget *widget, const char *text)
{
  if (!hs_app_test_says_part (widget, text))
    g_error ("not shown: %s", text);
}

/* Something that can be typed into says @text. */
gboolean
app_choices_holds (GtkWidget *widget, const char *text)
{
  if (GTK_IS_EDITABLE (widget) && g_str_equal (gtk_editable_get_text (GTK_EDITABLE (widget)), text))
    return TRUE;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (app_choices_holds (child, text))
      return TRUE;
  return FALSE;
}

GtkWidget *
app_choices_open (AppBook *book, const char *number)
{
  GtkWidget *page = app_book_open_job (book, number, "choices");
  GtkWidget *pane = hs_app_test_find (page, HS_TYPE_CHOICES_PANE);

  g_assert_nonnull (pane);
  app_book_settle (book);
  hs_app_test_frames ();
  return pane;
}

/* Runs until the window of @type is gone and the book has answered. */
void
app_choices_wait_shut (AppBook *book, GType type)
{
  hs_app_test_wait (hs_app_test_window (type) == NULL);
  app_book_settle (book);
}

/* The choices as the book has them. */
HsQuestion *
app_choices_ask_job (AppBook *book)
{
  HsQuestion *ask = hs_question_new (book->ledger, hs_ask_job, (GDestroyNotify) hs_job_shot_free);

  hs_question_ask (ask, g_variant_new ("(s)", hs_job_page_get_job_id (HS_JOB_PAGE (hs_window_get_job (book->window)))));
  app_book_settle (book);
  return ask;
}

const HsJobChoices *
app_choices_get (HsQuestion *ask)
{
  return ((const HsJobShot *) hs_question_get (ask))->choices;
}

/* Types into whatever has the focus of @window. */
void
app_choices_type_at (GtkWidget *window, const char *text)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (window));

  g_assert_true (GTK_IS_EDITABLE (focus));
  gtk_editable_set_text (GTK_EDITABLE (focus), text);
}

void
app_choices_enter (AppBook *book, GtkWidget *window)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (window));

  g_signal_emit_by_name (GTK_IS_TEXT (focus) ? gtk_widget_get_parent (focus) : focus, "activate");
  app_book_settle (book);
}

GtkWidget *
app_choices_begin_option (AppBook *book, GtkWidget *pane, const char *wording)
{
  GtkWidget *window;

  g_assert_true (hs_choices_pane_press (HS_CHOICES_PANE (pane), GDK_KEY_KP_Add));
  window = hs_app_test_window (HS_TYPE_OPTION_WINDOW);
  g_assert_nonnull (window);
  app_choices_type_at (window, wording);
  app_choices_enter (book, window);
  g_assert_nonnull (hs_option_window_get_choice_id (HS_OPTION_WINDOW (window)));
  return window;
}

void
app_choices_press_button (AppBook *book, GtkWidget *window, const char *text)
{
  GtkWidget *button = hs_app_test_button (window, text);

  g_assert_nonnull (button);
  g_signal_emit_by_name (button, "clicked");
  app_book_settle (book);
}

void
app_choices_add_line (AppBook *book, GtkWidget *window, const char *kind, const char *what, const char *number)
{
  app_choices_press_button (book, window, kind);
  app_choices_type_at (window, what);
  if (number != NULL)
    {
      app_choices_enter (book, window);
      app_choices_type_at (window, number);
    }
  app_choices_enter (book, window);
  app_book_settle (book);
}

/* One option of A-0024 keyed line by line: call-out, 35 min, a battery of 74.00: 211.01. */
void
app_choices_write_battery (AppBook *book, GtkWidget *pane)
{
  GtkWidget *window = app_choices_begin_option (book, pane, "New battery");

  app_choices_press_button (book, window, "Best");
  app_choices_add_line (book, window, "Call-out", "call-out", NULL);
  app_choices_add_line (book, window, "Labor", "battery", "35");
  app_choices_add_line (book, window, "Part", "battery", "74.00");
  app_choices_assert_says (window, "211.01");
  hs_app_test_picture (window, "choices-option");
  g_assert_true (gtk_widget_activate_action (window, "option.done", NULL));
  app_choices_wait_shut (book, HS_TYPE_OPTION_WINDOW);
}

void
app_choices_answer (AppBook *book, GtkWidget *pane, guint number, const char *keys)
{
  GtkWidget *window;

  g_assert_true (hs_choices_pane_press (HS_CHOICES_PANE (pane), GDK_KEY_0 + number));
  window = hs_app_test_window (HS_TYPE_ANSWER_WINDOW);
  g_assert_nonnull (window);
  for (const char *key = keys; *key != '\0'; key++)
    g_assert_true (hs_app_test_key (gtk_window_get_focus (GTK_WINDOW (window)), (guint) *key, 0));
}

/* The program gone and started again, which opens the job where it was left. */
GtkWidget *
app_choices_come_back (AppBook *book)
{
  app_book_close_window (book);
  app_book_open_window (book);
  app_book_settle (book);
  return hs_app_test_find (GTK_WIDGET (book->window), HS_TYPE_CHOICES_PANE);
}

/* Later, by phone; why is not typed yet. */
GtkWidget *
app_choices_say_later (AppBook *book, GtkWidget *pane)
{
  GtkWidget *window;

  app_choices_answer (book, pane, 1, "34");
  window = hs_app_test_window (HS_TYPE_ANSWER_WINDOW);
  hs_consent_set_who (hs_answer_window_get_consent (HS_ANSWER_WINDOW (window)), "Wilhelmina");
  return window;
}
