// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Sharing the calls in the window, on the demo morning with two calls given to van B: best is van A alone, 08:31 to
 * 16:20, as the morning is planned in story 5. Apart, van A is away 08:36 to 15:27, van B 09:30 to 14:42: 411 and 312
 * min against 469. */

#include "app-book.h"
#include "hs-app-test.h"
#include "hs-demo.h"
#include "hs-job-row.h"
#include "hs-share-window.h"
#include "hs-van-row.h"

/* As another program would. */
static void
give (AppBook *book, const char *number, const char *letter)
{
  HsBookUser user = { "test", "here", 1, hs_demo_get_now () };
  g_autoptr (GError) error = NULL;
  g_autoptr (HsBook) other = hs_book_open (book->path, HS_BOOK_WRITE, &user, &error);
  HsStore *store = hs_book_get_store (other);
  g_autoptr (HsJobRow) job = NULL;
  g_autoptr (HsVanRow) van = NULL;

  hs_store_begin (store, hs_demo_get_now (), &error);
  hs_job_row_find (store, number, &job, &error);
  hs_van_row_find (store, letter, &van, &error);
  g_assert_no_error (error);
  hs_row_set (&job->van_id, van->id);
  hs_job_row_save (store, job, &error);
  hs_store_commit (store, &error);
  g_assert_no_error (error);
}

static void
assert_has (AppBook *book, const char *number, const char *letter)
{
  HsBookUser user = { "test", "here", 1, hs_demo_get_now () };
  g_autoptr (HsBook) other = hs_book_open (book->path, HS_BOOK_READ, &user, NULL);
  g_autoptr (HsJobRow) job = NULL;
  g_autoptr (HsVanRow) van = NULL;

  hs_job_row_find (hs_book_get_store (other), number, &job, NULL);
  hs_van_row_load (hs_book_get_store (other), job->van_id, &van, NULL);
  g_assert_cmpstr (van->letter, ==, letter);
}

#define wait_for(window, wanted) \
  hs_app_test_wait (hs_sharing_get_state (hs_share_window_get_sharing (window)) == (wanted))

static HsShareWindow *
open_shared (AppBook *book)
{
  HsShareWindow *window;

  app_book_show (book, "today");
  give (book, "A-0024", "B");
  give (book, "A-0025", "B");
  window = hs_share_window_present (GTK_WINDOW (book->window), book->ledger, hs_ledger_get_today (book->ledger));
  wait_for (window, HS_SHARING_FOUND);
  return window;
}

static void
act (HsShareWindow *window, const char *action)
{
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (window), action, NULL));
}

#define ASSERT_SAYS(widget, part) g_assert_true (hs_app_test_says_part (GTK_WIDGET (widget), part))
#define ASSERT_SAYS_NOT(widget, part) g_assert_false (hs_app_test_says_part (GTK_WIDGET (widget), part))

static void
test_found (AppBook *book, gconstpointer data)
{
  HsShareWindow *window = open_shared (book);

  ASSERT_SAYS (window, "Proven: nothing better keeps every promise.");
  ASSERT_SAYS (window, "All vans: 7 h 49 min away, 33.3 mi, 764.39.");
  ASSERT_SAYS (window, "Against the orders that stand: 4 h 14 min shorter, ");
  ASSERT_SAYS (window, "A-0025 to van A, A-0024 to van A");
  ASSERT_SAYS (window, "Van A: leave 08:31, home 16:20, 33.3 mi");
  ASSERT_SAYS (window, "so far van B’s");
  ASSERT_SAYS (window, "Van B stays");
  ASSERT_SAYS (window, "Accept");
  ASSERT_SAYS_NOT (window, "Undo");
  ASSERT_SAYS_NOT (window, "That Is Enough");
  hs_app_test_picture (GTK_WIDGET (window), "share");
  gtk_window_destroy (GTK_WINDOW (window));
}

/* Accepted and undone; the page behind follows. */
static void
test_accept_and_undo (AppBook *book, gconstpointer data)
{
  HsShareWindow *window = open_shared (book);
  GtkWidget *page = hs_window_get_visible_page (book->window);

  act (window, "share.accept");
  wait_for (window, HS_SHARING_ACCEPTED);
  app_book_settle (book);
  assert_has (book, "A-0025", "A");
  ASSERT_SAYS (window, "These orders stand.");
  ASSERT_SAYS (window, "Against the orders before: 4 h 14 min shorter, ");
  ASSERT_SAYS (window, "Undo");
  ASSERT_SAYS_NOT (window, "Accept");
  ASSERT_SAYS (page, "764.39");
  act (window, "share.back");
  wait_for (window, HS_SHARING_FOUND);
  app_book_settle (book);
  assert_has (book, "A-0025", "B");
  ASSERT_SAYS_NOT (page, "764.39");
  gtk_window_destroy (GTK_WINDOW (window));
}

/* After the window is shut: by Ctrl+Z's action on whatever page, and by a window that is opened anew. */
static void
test_undo_later (AppBook *book, gconstpointer data)
{
  HsShareWindow *window = open_shared (book);

  act (window, "share.accept");
  wait_for (window, HS_SHARING_ACCEPTED);
  act (window, "share.close");
  app_book_settle (book);
  ASSERT_SAYS (book->window, "These orders stand.");
  ASSERT_SAYS (book->window, "Ctrl+Z  Undo");
  assert_has (book, "A-0025", "A");
  app_book_show (book, "money");
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (book->window), "win.undo", NULL));
  app_book_settle (book);
  hs_app_test_wait (
    hs_app_test_says_part (GTK_WIDGET (book->window), "Taken back: how the calls of Tue, Mar 10 were shared."));
  assert_has (book, "A-0025", "B");
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (book->window), "win.undo", NULL));
  app_book_settle (book);
  hs_app_test_wait (hs_app_test_says_part (GTK_WIDGET (book->window), "Nothing was done"));
  assert_has (book, "A-0025", "B");

  window = hs_share_window_present (GTK_WINDOW (book->window), book->ledger, hs_ledger_get_today (book->ledger));
  wait_for (window, HS_SHARING_FOUND);
  act (window, "share.accept");
  wait_for (window, HS_SHARING_ACCEPTED);
  gtk_window_destroy (GTK_WINDOW (window));
  app_book_settle (book);
  window = hs_share_window_present (GTK_WINDOW (book->window), book->ledger, hs_ledger_get_today (book->ledger));
  wait_for (window, HS_SHARING_FOUND);
  ASSERT_SAYS (window, "Undo");
  act (window, "share.back");
  wait_for (window, HS_SHARING_LOADING);
  wait_for (window, HS_SHARING_FOUND);
  assert_has (book, "A-0025", "B");
  ASSERT_SAYS_NOT (window, "Undo");
  gtk_window_destroy (GTK_WINDOW (window));
}

/* Refused when the day has changed: said there, and searched again. */
static void
test_refused (AppBook *book, gconstpointer data)
{
  HsShareWindow *window = open_shared (book);

  give (book, "A-0023", "B");
  act (window, "share.accept");
  hs_app_test_wait (hs_app_test_says_part (GTK_WIDGET (window), "The day has changed"));
  assert_has (book, "A-0025", "B");
  act (window, "share.again");
  ASSERT_SAYS (window, "Reading the day");
  ASSERT_SAYS_NOT (window, "All vans");
  wait_for (window, HS_SHARING_FOUND);
  ASSERT_SAYS_NOT (window, "The day has changed");
  ASSERT_SAYS (window, "A-0023 to van A");
  gtk_window_destroy (GTK_WINDOW (window));
}

static void
test_cannot (AppBook *book, gconstpointer data)
{
  HsShareWindow *window;

  app_book_show (book, "today");
  window = hs_share_window_present (GTK_WINDOW (book->window), book->ledger, hs_ledger_get_today (book->ledger) - 1);
  wait_for (window, HS_SHARING_FAILED);
  ASSERT_SAYS (window, "The calls cannot be shared.");
  ASSERT_SAYS (window, "This day is over");
  ASSERT_SAYS_NOT (window, "Accept");
  gtk_window_destroy (GTK_WINDOW (window));
}

static HsShareWindow *
find_window (void)
{
  GListModel *windows = gtk_window_get_toplevels ();
  HsShareWindow *window = NULL;

  for (guint i = 0; i < g_list_model_get_n_items (windows); i++)
    {
      g_autoptr (GtkWidget) each = g_list_model_get_item (windows, i);

      if (HS_IS_SHARE_WINDOW (each))
        window = HS_SHARE_WINDOW (each);
    }
  return window;
}

/* From the page: the key opens it where there are several vans. */
static void
test_key (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_show (book, "today");
  HsShareWindow *window;

  ASSERT_SAYS (page, "Share the Calls");
  app_book_press (book, GDK_KEY_slash);
  window = find_window ();
  g_assert_nonnull (window);
  wait_for (window, HS_SHARING_FOUND);
  ASSERT_SAYS (window, "Every call stays with its van.");
  ASSERT_SAYS (window, "The orders that stand come to just as much.");
  g_object_add_weak_pointer (G_OBJECT (window), (gpointer *) &window);
  act (window, "share.close");
  app_book_settle (book);
  g_assert_null (window);
}

/* The keys of the page act while the focus is in the bar above it, too; on a page without such a key nothing comes. */
static void
test_focus_elsewhere (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_show (book, "today");

  gtk_window_set_focus (GTK_WINDOW (book->window), NULL);
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (book->window), "win.next-van", NULL));
  app_book_settle (book);
  ASSERT_SAYS (page, "Van B");
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (book->window), "win.replan", NULL));
  app_book_settle (book);
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (book->window), "win.share", NULL));
  g_assert_nonnull (find_window ());
  gtk_window_destroy (GTK_WINDOW (find_window ()));
  app_book_show (book, "parts");
  gtk_widget_activate_action (GTK_WIDGET (book->window), "win.share", NULL);
  g_assert_null (find_window ());
}

/* Shut in the middle of it, nothing comes of it; and it is no wider than a phone. */
static void
test_shut_early (AppBook *book, gconstpointer data)
{
  HsShareWindow *window;

  app_book_show (book, "today");
  gtk_window_set_default_size (GTK_WINDOW (book->window), 360, 700);
  hs_app_test_wait (hs_window_get_narrow (book->window));
  window = hs_share_window_present (GTK_WINDOW (book->window), book->ledger, hs_ledger_get_today (book->ledger));
  hs_app_test_wait (gtk_widget_get_width (GTK_WIDGET (window)) > 0);
  g_assert_cmpint (gtk_widget_get_width (GTK_WIDGET (window)), <=, 360);
  gtk_window_destroy (GTK_WINDOW (window));
  app_book_settle (book);
  ASSERT_SAYS (hs_window_get_visible_page (book->window), "Share");
}

#define ADD(name, func) g_test_add (name, AppBook, NULL, app_book_open, func, app_book_close)

int
main (int argc, char *argv[])
{
  hs_app_test_init (&argc, &argv);
  ADD ("/share/found", test_found);
  ADD ("/share/accept-and-undo", test_accept_and_undo);
  ADD ("/share/undo-later", test_undo_later);
  ADD ("/share/refused", test_refused);
  ADD ("/share/cannot", test_cannot);
  ADD ("/share/key", test_key);
  ADD ("/share/focus-elsewhere", test_focus_elsewhere);
  ADD ("/share/shut-early", test_shut_early);
  return g_test_run ();
}
