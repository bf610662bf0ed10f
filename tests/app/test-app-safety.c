// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The safety list by the owner's hand: gone through, answered item by item, refused, left open, and what comes to it
 * later. */

#include "app-arrive.h"
#include "hs-app-test.h"
#include "hs-call-form.h"
#include "hs-job-page.h"
#include "hs-safety-line.h"
#include "hs-safety-window.h"
#include "hs-stage-window.h"

/* Whoever reads down the list is asked which vehicle stands there; once it is known, what is left. A list
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
  /* A line at a time, and then that it is safe. */
  for (guint left = 6; left > 0; left--)
    {
      g_autoptr (HsQuestion) on_the_way = app_arrive_ask (book, page);

      g_assert_cmpuint (app_arrive_of (on_the_way)->safety->n_open, ==, left);
      app_arrive_press_in (book, window, GDK_KEY_Return);
      g_assert_true (hs_app_test_window (HS_TYPE_SAFETY_WINDOW) == window);
    }
  hs_app_test_picture (window, "arrive-safety-through");
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
  window = hs_app_test_window (HS_TYPE_SAFETY_WINDOW);
  app_arrive_press_in (book, window, GDK_KEY_KP_Add);
  g_assert_true (hs_app_test_says_part (window, "First the lines that nobody answered"));
  app_arrive_press_in (book, window, GDK_KEY_KP_6);
  app_arrive_press_in (book, window, GDK_KEY_KP_Add);
  g_assert_true (app_arrive_has_cursor (book, app_arrive_row (page, "vin")));
}

static char *
dup_answers (AppBook *book, GtkWidget *page)
{
  g_autoptr (HsQuestion) asked = app_arrive_ask (book, page);
  GPtrArray *lines = app_arrive_of (asked)->safety->lines;
  g_autoptr (GString) told = g_string_new (NULL);

  for (guint i = 0; i < lines->len; i++)
    {
      const HsSafetyLine *line = g_ptr_array_index (lines, i);

      g_string_append_c (told, line->answer == NULL ? '-' : line->not_so ? '!' : *line->answer);
    }
  return g_string_free (g_steal_pointer (&told), FALSE);
}

/* done, not_here by their first letters; ! not so, - open. */
static void
check_answers (AppBook *book, GtkWidget *page, const char *wanted)
{
  g_autofree char *told = dup_answers (book, page);

  g_assert_cmpstr (told, ==, wanted);
}

/* A digit answers what was read down to it, once more it is asked again; 0, * and Enter are for the line that the
 * cursor is on, which goes to the next that is open; + is moved. */
static void
test_digits (AppBook *book, gconstpointer data)
{
  static const struct
  {
    guint key;
    const char *answers;
  } rows[] = {
    { GDK_KEY_2, "dd----" },      { GDK_KEY_KP_2, "d-----" }, { GDK_KEY_KP_Multiply, "dn----" },
    { GDK_KEY_Return, "dnd---" }, { GDK_KEY_0, "dnd!--" },    { GDK_KEY_KP_6, "dnd!dd" },
    { GDK_KEY_4, "dnd-dd" },      { GDK_KEY_KP_Enter, "dndddd" },
  };
  GtkWidget *page = app_book_open_job (book, "A-0021", "call");
  GtkWidget *window = app_arrive_at (book, page);
  g_autoptr (HsQuestion) after = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      app_arrive_press_in (book, window, rows[i].key);
      check_answers (book, page, rows[i].answers);
    }
  app_arrive_press_in (book, window, GDK_KEY_KP_Add);
  after = app_arrive_ask (book, page);
  g_assert_cmpstr (app_arrive_of (after)->safety->note, ==, "moved");
}

/* With the list gone through 0 and * are printed nowhere and answer nothing, unless the cursor is on a line. */
static void
test_over (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0021", "call");
  GtkWidget *window = app_arrive_at (book, page);

  app_arrive_type_in (book, window, "3*6");
  check_answers (book, page, "dddndd");
  g_assert_true (gtk_window_get_focus (GTK_WINDOW (window)) == hs_app_test_button (window, "Safe Here"));
  g_assert_null (hs_app_test_button (window, "Not So"));
  app_arrive_type_in (book, window, "0");
  check_answers (book, page, "dddndd");
  app_arrive_press_in (book, window, GDK_KEY_KP_Multiply);
  check_answers (book, page, "dddndd");
  gtk_widget_grab_focus (hs_app_test_find (window, HS_TYPE_SAFETY_LINE_BUTTON));
  app_arrive_type_in (book, window, "0");
  check_answers (book, page, "!ddndd");
}

/* A key that is held down answers one line. */
static void
test_held (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0021", "call");
  GtkWidget *window = app_arrive_at (book, page);

  for (guint i = 0; i < 3; i++)
    {
      hs_app_test_hold_key (gtk_window_get_focus (GTK_WINDOW (window)), GDK_KEY_Return);
      app_book_settle (book);
    }
  check_answers (book, page, "d-----");
  app_arrive_press_in (book, window, GDK_KEY_2);
  app_arrive_press_in (book, window, GDK_KEY_Return);
  check_answers (book, page, "ddd---");
}

/* What is not so is told with what to do; nothing is safe there, the job says so on its page and is not tested good,
 * until it is put right. */
static void
test_not_so (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0021", "call");
  GtkWidget *window = app_arrive_at (book, page);

  app_arrive_type_in (book, window, "06");
  check_answers (book, page, "!ddddd");
  g_assert_true (hs_app_test_says (window, "not so"));
  g_assert_true (hs_app_test_says_part (window, "Do not go on here."));
  g_assert_null (hs_app_test_button (window, "Safe Here"));
  g_assert_true (gtk_window_get_focus (GTK_WINDOW (window))
                 == hs_app_test_find (window, HS_TYPE_SAFETY_LINE_BUTTON));
  hs_app_test_picture (window, "arrive-not-so");
  app_arrive_press_in (book, window, GDK_KEY_KP_Add);
  g_assert_true (hs_app_test_says_part (window, "Not so on the safety list: “Traffic”. Do not go on here."));
  app_arrive_press_in (book, window, GDK_KEY_Escape);
  g_assert_nonnull (hs_app_test_button (page, "Not safe here"));
  hs_app_test_picture (GTK_WIDGET (book->window), "arrive-not-safe");
  app_book_next_stage (book, page);
  g_assert_true (hs_app_test_says_part (hs_app_test_window (HS_TYPE_STAGE_WINDOW), "“Traffic” (not so)."));
  app_arrive_press_in (book, hs_app_test_window (HS_TYPE_STAGE_WINDOW), GDK_KEY_Escape);
  g_assert_true (gtk_widget_activate_action (page, "page.visit", NULL));
  app_book_settle (book);
  window = hs_app_test_window (HS_TYPE_SAFETY_WINDOW);
  app_arrive_type_in (book, window, "1\n");
  check_answers (book, page, "dddddd");
  g_assert_nonnull (hs_app_test_button (window, "Safe Here"));
  app_arrive_press_in (book, window, GDK_KEY_Return);
  g_assert_null (hs_app_test_button (page, "Not safe here"));
}

/* F4 from a list that nobody began leads to it, and says so; F4 once more is nothing there. A key of its own goes on
 * without it, which is written down and taken back like anything else. */
static void
test_unread (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0021", "call");
  GtkWidget *window = app_arrive_at (book, page);
  g_autoptr (HsQuestion) before = NULL;
  g_autoptr (HsQuestion) after = NULL;

  app_arrive_press_in (book, window, GDK_KEY_Escape);
  app_book_next_stage (book, page);
  g_assert_null (hs_app_test_window (HS_TYPE_STAGE_WINDOW));
  window = hs_app_test_window (HS_TYPE_SAFETY_WINDOW);
  g_assert_nonnull (window);
  g_assert_true (hs_app_test_says_part (window, "Nobody went through this list yet"));
  hs_app_test_picture (window, "arrive-unread");
  app_arrive_press_in (book, window, GDK_KEY_F4);
  g_assert_true (hs_app_test_window (HS_TYPE_SAFETY_WINDOW) == window);
  before = app_arrive_ask (book, page);
  g_assert_null (app_arrive_of (before)->safety->note);
  app_arrive_press_in (book, window, GDK_KEY_F8);
  g_assert_null (hs_app_test_window (HS_TYPE_SAFETY_WINDOW));
  after = app_arrive_ask (book, page);
  g_assert_cmpstr (app_arrive_of (after)->safety->note, ==, "not gone through");
  /* The book's own rules are next. */
  hs_app_test_wait (hs_app_test_window (HS_TYPE_STAGE_WINDOW) != NULL);
  g_assert_true (hs_app_test_says_part (hs_app_test_window (HS_TYPE_STAGE_WINDOW), "no reading after the repair"));
  app_arrive_press_in (book, hs_app_test_window (HS_TYPE_STAGE_WINDOW), GDK_KEY_Escape);
  g_assert_nonnull (hs_app_test_button (page, "Safety list open"));
}

/* Begun, it is no longer passed by; chosen among the stages, the list comes first too. */
static void
test_unread_begun (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0021", "call");
  GtkWidget *window = app_arrive_at (book, page);
  g_autoptr (HsQuestion) after = NULL;

  app_arrive_press_in (book, window, GDK_KEY_Escape);
  g_assert_true (gtk_widget_activate_action (page, "page.stages", NULL));
  app_book_settle (book);
  window = hs_app_test_window (HS_TYPE_STAGE_WINDOW);
  hs_stage_window_set_reason (HS_STAGE_WINDOW (window), "drove off");
  hs_stage_window_move (HS_STAGE_WINDOW (window), HS_STAGE_PROVEN);
  app_book_settle (book);
  g_assert_null (hs_app_test_window (HS_TYPE_STAGE_WINDOW));
  window = hs_app_test_window (HS_TYPE_SAFETY_WINDOW);
  g_assert_nonnull (window);
  g_assert_nonnull (hs_app_test_button (window, "Go On Without It"));
  app_arrive_press_in (book, window, GDK_KEY_Return);
  g_assert_null (hs_app_test_button (window, "Go On Without It"));
  app_arrive_press_in (book, window, GDK_KEY_F8);
  after = app_arrive_ask (book, page);
  g_assert_null (app_arrive_of (after)->safety->note);
  check_answers (book, page, "d-----");
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

/* The hybrid: no digit below answers for its three items, which always apply, and the list comes with the findings. */
static void
test_high_voltage (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0026", "call");
  GtkWidget *window = app_arrive_at (book, page);
  g_autoptr (HsQuestion) asked = NULL;

  app_arrive_press_in (book, window, GDK_KEY_KP_6);
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
  app_arrive_press_in (book, window, GDK_KEY_KP_Multiply);
  g_assert_true (hs_app_test_says_part (window, "it always applies"));
  app_arrive_type_in (book, window, "\n\n\n9\n");
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
  app_arrive_type_in (book, hs_app_test_window (HS_TYPE_SAFETY_WINDOW), "6\n");
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
  app_arrive_type_in (book, window, "6\n");
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
 * answers it, and once more that it is safe. */
static void
test_added (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0021", "findings");
  GtkWidget *window = app_arrive_at (book, page);

  app_arrive_type_in (book, window, "6\n");
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
  hs_app_test_picture (window, "safety-added");
  app_arrive_press_in (book, window, GDK_KEY_Return);
  g_assert_true (hs_app_test_window (HS_TYPE_SAFETY_WINDOW) == window);
  check_answers (book, page, "ddddddd");
  app_arrive_press_in (book, window, GDK_KEY_Return);
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
  ADD ("over", test_over);
  ADD ("held", test_held);
  ADD ("not-so", test_not_so);
  ADD ("unread", test_unread);
  ADD ("unread-begun", test_unread_begun);
  ADD ("refused-because", test_refused_because);
  ADD ("high-voltage", test_high_voltage);
  ADD ("high-voltage-refused", test_high_voltage_refused);
  ADD ("left-open", test_left_open);
  ADD ("list-again", test_list_again);
  ADD ("added", test_added);
  return g_test_run ();
}
