// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A digit that is printed for something else never becomes a sum or a word: the go-ahead and the answer by number pad,
 * looked at before each press. */

#include "app-choices.h"
#include "hs-answer-window.h"
#include "hs-choices-pane.h"
#include "hs-go-ahead-window.h"
#include "hs-key-button.h"

static GtkWidget *
open_go_ahead (AppBook *book)
{
  GtkWidget *window;

  app_book_keys (book, "/");
  window = hs_app_test_window (HS_TYPE_GO_AHEAD_WINDOW);
  g_assert_nonnull (window);
  return window;
}

/* A-0024 with a battery that was agreed to: 211.01. */
static void
agree (AppBook *book, GtkWidget *pane)
{
  app_choices_write_battery (book, pane);
  app_choices_answer (book, pane, 1, "14");
  g_assert_true (gtk_widget_activate_action (hs_app_test_window (HS_TYPE_ANSWER_WINDOW), "answer.write", NULL));
  app_choices_wait_shut (book, HS_TYPE_ANSWER_WINDOW);
  app_choices_assert_says (pane, "211.01");
}

static gboolean
types (GtkWidget *window)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (window));

  return focus != NULL && GTK_IS_EDITABLE (focus);
}

/* How many digits are printed on buttons that one sees. */
static guint
n_printed (GtkWidget *widget)
{
  g_autofree char *key = NULL;
  gboolean shown;
  guint n = 0;

  if (HS_IS_KEY_BUTTON (widget) && gtk_widget_get_mapped (widget))
    {
      g_object_get (widget, "key", &key, "show-key", &shown, NULL);
      n += shown && key != NULL && g_ascii_isdigit (*key) && key[1] == '\0' ? 1 : 0;
    }
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    n += n_printed (child);
  return n;
}

static const char *
get_means (GtkWidget *window)
{
  return hs_consent_get_means (hs_go_ahead_window_get_consent (HS_GO_AHEAD_WINDOW (window)));
}

/* Returns: how many there are; the ceiling of the latest. */
static guint
count_go_aheads (AppBook *book, gint64 *ret_ceiling_cents)
{
  g_autoptr (HsQuestion) ask = app_choices_ask_job (book);
  GPtrArray *given = app_choices_get (ask)->go_aheads;

  *ret_ceiling_cents = given->len > 0 ? ((HsGoAhead *) g_ptr_array_index (given, given->len - 1))->ceiling_cents : -1;
  return given->len;
}

static void
assert_given (AppBook *book, guint n, gint64 ceiling_cents)
{
  gint64 latest;

  g_assert_cmpuint (count_go_aheads (book, &latest), ==, n);
  g_assert_cmpint (latest, ==, ceiling_cents);
}

/* Each way by the digit that is printed on it, first thing after the window opened: the sum stays what the job comes
 * to, three presses in all. */
static void
test_digit_is_the_way (AppBook *book, gconstpointer data)
{
  GtkWidget *pane = app_choices_open (book, "A-0024");
  static const char *const ways[] = { "in_person", "text", "phone", "email" };
  static const char *const keys[] = { "2", "3", "4", "5" };

  agree (book, pane);
  for (guint i = 0; i < G_N_ELEMENTS (ways); i++)
    {
      GtkWidget *window = open_go_ahead (book);

      g_assert_cmpuint (n_printed (window), ==, 5);
      g_assert_null (get_means (window));
      app_book_keys (book, keys[i]);
      g_assert_nonnull (get_means (window));
      g_assert_true (app_choices_holds (window, "211.01"));
      app_book_keys (book, "F4");
      app_choices_wait_shut (book, HS_TYPE_GO_AHEAD_WINDOW);
      assert_given (book, i + 1, 21101);
    }
}

/* Any number of digits, in any order, is the way still. */
static void
test_no_digit_is_a_sum (AppBook *book, gconstpointer data)
{
  GtkWidget *pane = app_choices_open (book, "A-0024");
  GtkWidget *window;

  g_assert_nonnull (pane);
  /* Nothing is agreed yet: there is no sum. */
  window = open_go_ahead (book);
  app_book_keys (book, "2354");
  g_assert_cmpstr (get_means (window), ==, "phone");
  g_assert_false (types (window));
  app_book_keys (book, "F4");
  app_choices_assert_says (window, "Up to how much? Press . and type the sum.");
  g_assert_false (types (window));
  app_book_keys (book, "2F4");
  g_assert_nonnull (hs_app_test_window (HS_TYPE_GO_AHEAD_WINDOW));
  assert_given (book, 0, -1);
}

/* The sum is gone into by its own key, and as long as it is typed no button shows a digit. As many presses as there
 * were. */
static void
test_sum_by_its_key (AppBook *book, gconstpointer data)
{
  GtkWidget *pane = app_choices_open (book, "A-0024");
  GtkWidget *window;
  guint presses;

  g_assert_nonnull (pane);
  presses = app_book_keys (book, "/4.");
  window = hs_app_test_window (HS_TYPE_GO_AHEAD_WINDOW);
  g_assert_true (types (window));
  g_assert_cmpuint (n_printed (window), ==, 0);
  hs_app_test_picture (window, "go-ahead-sum");
  presses += app_book_keys (book, "200\n");
  g_assert_cmpuint (presses, ==, 7);
  app_choices_wait_shut (book, HS_TYPE_GO_AHEAD_WINDOW);
  assert_given (book, 1, 20000);

  /* The sum first: Enter goes on to the way, where a digit is the way again. */
  window = open_go_ahead (book);
  app_book_keys (book, ".220\n");
  g_assert_false (types (window));
  g_assert_cmpuint (n_printed (window), ==, 5);
  app_book_keys (book, "4\n");
  app_choices_wait_shut (book, HS_TYPE_GO_AHEAD_WINDOW);
  assert_given (book, 2, 22000);
}

/* Less than the job comes to is told in words and agreed to by a key of its own; neither F4 nor Enter once more
 * writes it down, and another sum is told anew. */
static void
test_low_is_asked_for (AppBook *book, gconstpointer data)
{
  GtkWidget *pane = app_choices_open (book, "A-0024");
  GtkWidget *window;

  agree (book, pane);
  window = open_go_ahead (book);
  app_book_keys (book, ".2\n4F4");
  app_choices_assert_says (window, "The job comes to 211.01 with tax. Up to 2.00 is 209.01 less");
  g_assert_nonnull (hs_app_test_button (window, "Yes, Less Than the Job"));
  hs_app_test_picture (window, "go-ahead-low");
  app_book_keys (book, "F4\nF4");
  g_assert_nonnull (hs_app_test_window (HS_TYPE_GO_AHEAD_WINDOW));
  assert_given (book, 0, -1);
  app_book_keys (book, ".150\n");
  app_choices_assert_says (window, "Up to 150.00 is 61.01 less");
  assert_given (book, 0, -1);
  app_book_keys (book, "+");
  app_choices_wait_shut (book, HS_TYPE_GO_AHEAD_WINDOW);
  assert_given (book, 1, 15000);

  /* Nothing to agree to: the key does nothing. */
  window = open_go_ahead (book);
  app_book_keys (book, "4+");
  g_assert_null (hs_app_test_button (window, "Yes, Less Than the Job"));
  assert_given (book, 1, 15000);
}

/* The answer's fields as well: what is typed into the risk, the days and the name is text, and no button shows a digit
 * meanwhile. */
static void
test_answer_shows_none (AppBook *book, gconstpointer data)
{
  GtkWidget *pane = app_choices_open (book, "A-0024");
  GtkWidget *window;

  app_choices_write_battery (book, pane);
  app_choices_answer (book, pane, 1, "3");
  window = hs_app_test_window (HS_TYPE_ANSWER_WINDOW);
  hs_app_test_frames ();
  g_assert_false (types (window));
  g_assert_cmpuint (n_printed (window), ==, 5);
  app_book_keys (book, "4");
  g_assert_true (types (window));
  g_assert_cmpuint (n_printed (window), ==, 0);
  hs_app_test_picture (window, "answer-risk");
  for (guint i = 0; i < 2; i++)
    {
      gtk_widget_child_focus (window, GTK_DIR_TAB_FORWARD);
      g_assert_cmpuint (n_printed (window), ==, types (window) ? 0 : 5);
    }
}

#define ADD(name, func) g_test_add (name, AppBook, NULL, app_book_open, func, app_book_close)

int
main (int argc, char *argv[])
{
  hs_app_test_init (&argc, &argv);
  ADD ("/go-ahead/digit-is-the-way", test_digit_is_the_way);
  ADD ("/go-ahead/no-digit-is-a-sum", test_no_digit_is_a_sum);
  ADD ("/go-ahead/sum-by-its-key", test_sum_by_its_key);
  ADD ("/go-ahead/low-is-asked-for", test_low_is_asked_for);
  ADD ("/go-ahead/answer-shows-none", test_answer_shows_none);
  return g_test_run ();
}
