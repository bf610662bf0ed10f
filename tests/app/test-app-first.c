// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The first day: an empty book becomes one that plans, without a command line. */

#include "app-book.h"
#include "hs-app-test.h"
#include "hs-set-up-window.h"

static void
write_in (AppBook *book, HsSetUpWindow *window, const char *name, const char *text)
{
  GtkEditable *entry = hs_set_up_window_get_entry (window, name);

  g_assert_nonnull (entry);
  gtk_widget_grab_focus (GTK_WIDGET (entry));
  gtk_editable_set_text (entry, text);
  app_book_settle (book);
}

/* Today says what is missing and offers to set it; afterwards it is an ordinary day with nothing on it. */
static void
test_set_up (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_show (book, "today");
  HsSetUpWindow *window;

  g_assert_true (hs_app_test_says (page, "The day cannot be planned yet"));
  g_assert_true (hs_app_test_says (page, "Set Up This Book"));
  g_assert_false (hs_app_test_says (page, "the day away costs"));
  window = hs_set_up_window_present (book->window, book->ledger);
  app_book_settle (book);
  write_in (book, window, "place_code", "Y");
  write_in (book, window, "place_name", "Yard Street");
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (window), "setup.add-place", NULL));
  app_book_settle (book);
  g_assert_true (hs_app_test_says (GTK_WIDGET (window), "Y Yard Street"));
  g_assert_true (hs_app_test_says_part (GTK_WIDGET (window), "Trips of your own are learned"));
  g_assert_cmpstr (gtk_editable_get_text (hs_set_up_window_get_entry (window, "place_code")), ==, "");
  write_in (book, window, "drive_from", "Y");
  write_in (book, window, "drive_to", "Y");
  write_in (book, window, "drive_minutes", "4");
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (window), "setup.add-drive", NULL));
  app_book_settle (book);
  g_assert_true (hs_app_test_says (GTK_WIDGET (window), "miles: is empty, but it is needed"));
  g_assert_cmpstr (gtk_editable_get_text (hs_set_up_window_get_entry (window, "drive_minutes")), ==, "4");
  write_in (book, window, "drive_miles", "1.5");
  write_in (book, window, "base_area", "Y");
  /* Shut with the cursor still in the field. */
  gtk_window_close (GTK_WINDOW (window));
  app_book_settle (book);
  g_assert_true (hs_app_test_says (page, "Nothing is promised on this day"));
  g_assert_false (hs_app_test_says (page, "Set Up This Book"));
}

/* Enter goes on to the next field of the row, and in the last one it adds the row. */
static void
test_enter_moves_on (AppBook *book, gconstpointer data)
{
  HsSetUpWindow *window = hs_set_up_window_present (book->window, book->ledger);

  app_book_settle (book);
  app_book_keys (book, "y\n");
  app_book_keys (book, "yard\n");
  app_book_settle (book);
  g_assert_cmpstr (gtk_editable_get_text (hs_set_up_window_get_entry (window, "place_name")), ==, "yard");
  app_book_keys (book, "\n");
  app_book_settle (book);
  g_assert_true (hs_app_test_says (GTK_WIDGET (window), "y yard"));
}

/* The time in the header is that of the book's zone, from when it is set. */
static void
test_zone (AppBook *book, gconstpointer data)
{
  HsSetUpWindow *window = hs_set_up_window_present (book->window, book->ledger);

  app_book_settle (book);
  g_assert_true (hs_app_test_says (GTK_WIDGET (book->window), "07:52"));
  write_in (book, window, "zone", "America/New_York");
  gtk_window_close (GTK_WINDOW (window));
  app_book_settle (book);
  g_assert_true (hs_app_test_says (GTK_WIDGET (book->window), "03:52"));
}

/* What was typed but not added is added on the way out. */
static void
test_added_on_closing (AppBook *book, gconstpointer data)
{
  HsSetUpWindow *window = hs_set_up_window_present (book->window, book->ledger);

  app_book_settle (book);
  write_in (book, window, "place_code", "Y");
  write_in (book, window, "place_name", "Yard Street");
  gtk_window_close (GTK_WINDOW (window));
  app_book_settle (book);
  window = hs_set_up_window_present (book->window, book->ledger);
  app_book_settle (book);
  g_assert_true (hs_app_test_says (GTK_WIDGET (window), "Y Yard Street"));
  g_object_ref (window);
  /* A drive without its miles cannot be added. */
  write_in (book, window, "drive_from", "Y");
  write_in (book, window, "drive_to", "Y");
  gtk_window_close (GTK_WINDOW (window));
  app_book_settle (book);
  g_assert_true (gtk_widget_get_visible (GTK_WIDGET (window)));
  g_assert_cmpstr (gtk_editable_get_text (hs_set_up_window_get_entry (window, "drive_to")), ==, "Y");
  gtk_window_close (GTK_WINDOW (window));
  app_book_settle (book);
  g_assert_false (gtk_widget_get_visible (GTK_WIDGET (window)));
  g_object_unref (window);
}

/* Esc with a refused value in the field: the window stays, once, and says why. */
static void
test_refused_on_closing (AppBook *book, gconstpointer data)
{
  HsSetUpWindow *window = hs_set_up_window_present (book->window, book->ledger);
  GObject *status;

  app_book_settle (book);
  g_object_ref (window);
  write_in (book, window, "leave_from", "25:00");
  gtk_window_close (GTK_WINDOW (window));
  app_book_settle (book);
  g_assert_true (gtk_widget_get_visible (GTK_WIDGET (window)));
  status = gtk_widget_get_template_child (GTK_WIDGET (window), HS_TYPE_SET_UP_WINDOW, "status");
  g_assert_nonnull (strstr (gtk_label_get_label (GTK_LABEL (status)), "25:00"));
  g_assert_nonnull (strstr (gtk_label_get_label (GTK_LABEL (status)), "Esc again throws it away."));
  gtk_window_close (GTK_WINDOW (window));
  app_book_settle (book);
  g_assert_false (gtk_widget_get_visible (GTK_WIDGET (window)));
  g_object_unref (window);
}

/* A book with trips says how far off its drives were foretold. */
static void
test_accuracy (AppBook *book, gconstpointer data)
{
  HsSetUpWindow *window = hs_set_up_window_present (book->window, book->ledger);

  app_book_settle (book);
  g_assert_true (hs_app_test_says_part (GTK_WIDGET (window), "40 own trips, each foretold without itself: own trips"));
  g_assert_true (hs_app_test_says_part (GTK_WIDGET (window), "your table"));
  g_assert_false (hs_app_test_says_part (GTK_WIDGET (window), "are learned"));
}

#define ADD(name, func) g_test_add (name, AppBook, NULL, app_book_open_new, func, app_book_close)

int
main (int argc, char *argv[])
{
  hs_app_test_init (&argc, &argv);
  ADD ("/first/set-up", test_set_up);
  ADD ("/first/enter-moves-on", test_enter_moves_on);
  ADD ("/first/zone", test_zone);
  ADD ("/first/added-on-closing", test_added_on_closing);
  ADD ("/first/refused-on-closing", test_refused_on_closing);
  g_test_add ("/first/accuracy", AppBook, NULL, app_book_open, test_accuracy, app_book_close);
  return g_test_run ();
}
