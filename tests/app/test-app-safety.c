// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The safety list by the owner's hand: gone through, answered item by item, refused, left open, and what comes to it
 * later. */

#include "app-arrive.h"
#include "hs-app-test.h"
#include "hs-call-form.h"
#include "hs-job-page.h"
#include "hs-safety-window.h"
#include "hs-stage-window.h"

/* Whoever looked round presses one key, and is asked which vehicle stands there; once it is known, what is left. A list
 * that is looked at again takes no cursor away. */
static void
test_safe_here (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0021", "call");
  g_autoptr (HsQuestion) asked = NULL;
  GtkWidget *window = app_arrive_at (book, page);

  g_assert_nonnull (window);
  g_assert_true (hs_app_test_says (window, "Traffic passes well clear; vest on, triangles or cones out."));
  g_assert_true (hs_app_test_says (window, "The vehicle's maker, local codes and licensed practice come first."));
  hs_app_test_picture (window, "arrive-safety");
  app_arrive_press_in (book, window, GDK_KEY_Return);
  g_assert_null (hs_app_test_window (HS_TYPE_SAFETY_WINDOW));
  asked = app_arrive_ask (book, page);
  g_assert_cmpstr (app_arrive_of (asked)->safety->note, ==, "safe here");
  g_assert_cmpuint (app_arrive_of (asked)->safety->n_open, ==, 0);
  g_assert_true (app_arrive_has_cursor (book, app_arrive_row (page, "plate")));
  gtk_widget_grab_focus (GTK_WIDGET (app_arrive_row (page, "saw_it")));
  g_assert_true (gtk_widget_activate_action (page, "page.make-safe", NULL));
  app_book_settle (book);
  app_arrive_press_in (book, hs_app_test_window (HS_TYPE_SAFETY_WINDOW), GDK_KEY_Return);
  g_assert_true (app_arrive_has_cursor (book, app_arrive_row (page, "saw_it")));
}

/* What was identified on the way is not asked again. */
static void
test_safe_after (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0021", "call");
  GtkWidget *window = app_arrive_at (book, page);

  app_arrive_press_in (book, window, GDK_KEY_Escape);
  gtk_widget_grab_focus (GTK_WIDGET (app_arrive_row (page, "odometer")));
  app_book_type (book, "104500\n1\n");
  gtk_widget_grab_focus (hs_app_test_find (page, HS_TYPE_CALL_FORM));
  g_assert_true (gtk_widget_activate_action (page, "page.make-safe", NULL));
  app_book_settle (book);
  app_arrive_press_in (book, hs_app_test_window (HS_TYPE_SAFETY_WINDOW), GDK_KEY_KP_Add);
  g_assert_true (app_arrive_has_cursor (book, app_arrive_row (page, "vin")));
}

/* A digit is done, twice does not apply, three times is open again; + is moved. */
static void
test_digits (AppBook *book, gconstpointer data)
{
  static const char *const answers[] = { "done", "not_here", NULL };
  GtkWidget *page = app_book_open_job (book, "A-0021", "call");
  GtkWidget *window = app_arrive_at (book, page);
  g_autoptr (HsQuestion) after = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (answers); i++)
    {
      g_autoptr (HsQuestion) asked = NULL;

      app_arrive_press_in (book, window, i == 1 ? GDK_KEY_KP_2 : GDK_KEY_2);
      asked = app_arrive_ask (book, page);
      g_assert_cmpstr (((HsSafetyLine *) g_ptr_array_index (app_arrive_of (asked)->safety->lines, 1))->answer, ==,
                       answers[i]);
    }
  app_arrive_press_in (book, window, GDK_KEY_KP_Add);
  after = app_arrive_ask (book, page);
  g_assert_cmpstr (app_arrive_of (after)->safety->note, ==, "moved");
}

/* / asks for the reason, Enter in it refuses; an empty one does not. */
static void
test_refused_because (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0021", "call");
  GtkWidget *window = app_arrive_at (book, page);
  g_autoptr (HsQuestion) asked = NULL;

  app_arrive_press_in (book, window, GDK_KEY_KP_Divide);
  app_arrive_press_in (book, window, GDK_KEY_Return);
  g_assert_true (hs_app_test_says_part (window, "Refused because of what?"));
  app_arrive_type_in (book, window, "a blind bend 2 lanes\n");
  g_assert_null (hs_app_test_window (HS_TYPE_SAFETY_WINDOW));
  asked = app_arrive_ask (book, page);
  g_assert_cmpstr (app_arrive_of (asked)->safety->note, ==, "refused because a blind bend 2 lanes");
}

static gboolean
says_shut (GtkWidget *page)
{
  return hs_app_test_says_part (page, "Nothing is measured or found before its safety list");
}

/* The hybrid: Enter answers nothing before its three items are answered, and the list comes with the findings. A digit
 * of theirs is done and open again, for they always apply. */
static void
test_high_voltage (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0026", "call");
  GtkWidget *window = app_arrive_at (book, page);
  g_autoptr (HsQuestion) asked = NULL;

  app_arrive_press_in (book, window, GDK_KEY_Return);
  g_assert_true (hs_app_test_says_part (window, "by itself"));
  hs_app_test_picture (window, "arrive-high-voltage");
  app_arrive_press_in (book, window, GDK_KEY_Escape);
  g_assert_null (hs_app_test_window (HS_TYPE_SAFETY_WINDOW));
  hs_job_page_go (HS_JOB_PAGE (page), "findings", NULL, NULL);
  app_book_settle (book);
  app_arrive_press_in (book, hs_app_test_window (HS_TYPE_SAFETY_WINDOW), GDK_KEY_Escape);
  g_assert_true (says_shut (page));
  hs_app_test_picture (GTK_WIDGET (book->window), "arrive-shut");
  g_assert_true (gtk_widget_activate_action (page, "page.print", NULL));
  app_book_settle (book);
  window = hs_app_test_window (HS_TYPE_SAFETY_WINDOW);
  g_assert_nonnull (window);
  app_arrive_type_in (book, window, "1");
  g_assert_true (hs_app_test_says (window, "done"));
  app_arrive_type_in (book, window, "1");
  g_assert_false (hs_app_test_says (window, "done"));
  g_assert_false (hs_app_test_says (window, "does not apply here"));
  app_arrive_type_in (book, window, "123\n");
  g_assert_null (hs_app_test_window (HS_TYPE_SAFETY_WINDOW));
  asked = app_arrive_ask (book, page);
  g_assert_cmpuint (app_arrive_of (asked)->safety->n_open, ==, 0);
  g_assert_false (says_shut (page));
  g_assert_true (gtk_widget_get_mapped (hs_app_test_find (page, HS_TYPE_FINDINGS)));
}

/* Refused, with the reason, the findings are open as well: what is seen may be written down. */
static void
test_high_voltage_refused (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0026", "call");
  GtkWidget *window = app_arrive_at (book, page);

  app_arrive_press_in (book, window, GDK_KEY_KP_Divide);
  app_arrive_type_in (book, window, "orange cable torn\n");
  hs_job_page_go (HS_JOB_PAGE (page), "findings", NULL, NULL);
  app_book_settle (book);
  g_assert_null (hs_app_test_window (HS_TYPE_SAFETY_WINDOW));
  g_assert_false (says_shut (page));
}

/* Esc is no answer: the job says so on every face, with the key to the list; gone through, nothing is said. What the
 * complaint brings later is said too. */
static void
test_left_open (AppBook *book, gconstpointer data)
{
  static const char *const faces[] = { "call", "findings", "choices", "bill", "after" };
  GtkWidget *page = app_book_open_job (book, "A-0021", "call");
  GtkWidget *window = app_arrive_at (book, page);

  app_arrive_press_in (book, window, GDK_KEY_Escape);
  g_assert_true (hs_app_test_says (hs_app_test_button (page, "Safety list open"), "F12"));
  for (guint i = 0; i < G_N_ELEMENTS (faces); i++)
    {
      hs_job_page_go (HS_JOB_PAGE (page), faces[i], NULL, NULL);
      app_book_settle (book);
      g_assert_nonnull (hs_app_test_button (page, "Safety list open"));
    }
  hs_app_test_picture (GTK_WIDGET (book->window), "arrive-left-open");
  g_assert_true (hs_app_test_says (hs_app_test_button (page, "Safety list open"), "Pause"));
  hs_job_page_go (HS_JOB_PAGE (page), "bill", NULL, NULL);
  app_book_settle (book);
  g_assert_true (hs_app_test_says (hs_app_test_button (page, "Safety list open"), "F12"));
  g_assert_true (gtk_widget_activate_action (page, "page.print", NULL));
  app_book_settle (book);
  app_arrive_press_in (book, hs_app_test_window (HS_TYPE_SAFETY_WINDOW), GDK_KEY_Return);
  g_assert_null (hs_app_test_button (page, "Safety list open"));
  hs_job_page_go (HS_JOB_PAGE (page), "findings", NULL, NULL);
  app_book_settle (book);
  app_book_type (book, "5");
  g_assert_nonnull (hs_app_test_button (page, "Safety: 1 more"));
}

/* The list can be looked at again while one is at the vehicle, and not before; the clock key leads to an open one. */
static void
test_list_again (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0021", "call");
  GtkWidget *window;

  g_assert_true (gtk_widget_activate_action (page, "page.make-safe", NULL));
  g_assert_null (hs_app_test_window (HS_TYPE_SAFETY_WINDOW));
  window = app_arrive_at (book, page);
  app_arrive_press_in (book, window, GDK_KEY_Escape);
  g_assert_true (gtk_widget_activate_action (page, "page.visit", NULL));
  app_book_settle (book);
  window = hs_app_test_window (HS_TYPE_SAFETY_WINDOW);
  app_arrive_press_in (book, window, GDK_KEY_Return);
  g_assert_true (gtk_widget_activate_action (page, "page.make-safe", NULL));
  app_book_settle (book);
  window = hs_app_test_window (HS_TYPE_SAFETY_WINDOW);
  g_assert_nonnull (window);
  g_assert_true (gtk_widget_activate_action (window, "safety.sources", NULL));
  g_assert_true (hs_app_test_says_part (window, "ANSI/ISEA 107"));
  app_arrive_press_in (book, window, GDK_KEY_F12);
  g_assert_null (hs_app_test_window (HS_TYPE_SAFETY_WINDOW));
}

/* What the complaint brings later is seen on every face, also tested good, and bars the way there by its name; Enter
 * does not pass it by, its own digit answers it. */
static void
test_added (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0021", "findings");
  GtkWidget *window = app_arrive_at (book, page);

  app_arrive_press_in (book, window, GDK_KEY_Return);
  hs_job_page_go (HS_JOB_PAGE (page), "findings", NULL, NULL);
  app_book_settle (book);
  app_book_type (book, "5");
  g_assert_nonnull (hs_app_test_button (page, "Safety: 1 more"));
  g_assert_true (gtk_widget_activate_action (page, "page.next-stage", NULL));
  app_book_settle (book);
  window = hs_app_test_window (HS_TYPE_STAGE_WINDOW);
  g_assert_nonnull (window);
  g_assert_true (hs_app_test_says_part (window, "is not done: “Hot coolant, fan”."));
  hs_app_test_wait (hs_app_test_says (window, "Go to the Safety List"));
  g_assert_true (gtk_widget_activate_action (window, "stage.lead", NULL));
  hs_app_test_wait (hs_app_test_window (HS_TYPE_SAFETY_WINDOW) != NULL);
  app_book_settle (book);
  window = hs_app_test_window (HS_TYPE_SAFETY_WINDOW);
  /* Over what one was at. */
  g_assert_true (hs_window_get_job (book->window) == page);
  g_assert_true (hs_app_test_says_part (window, "What came to the list after it was gone through is open"));
  app_arrive_press_in (book, window, GDK_KEY_Return);
  g_assert_true (hs_app_test_says_part (window, "Answer by itself: “Hot coolant, fan”."));
  hs_app_test_picture (window, "safety-added");
  app_arrive_type_in (book, window, "4\n");
  g_assert_null (hs_app_test_window (HS_TYPE_SAFETY_WINDOW));
  g_assert_null (hs_app_test_button (page, "Safety: 1 more"));
}

#define ADD(name, func) g_test_add ("/safety/" name, AppBook, NULL, app_book_open, func, app_book_close)

int
main (int argc, char **argv)
{
  hs_app_test_init (&argc, &argv);
  ADD ("safe-here", test_safe_here);
  ADD ("safe-after", test_safe_after);
  ADD ("digits", test_digits);
  ADD ("refused-because", test_refused_because);
  ADD ("high-voltage", test_high_voltage);
  ADD ("high-voltage-refused", test_high_voltage_refused);
  ADD ("left-open", test_left_open);
  ADD ("list-again", test_list_again);
  ADD ("added", test_added);
  return g_test_run ();
}
