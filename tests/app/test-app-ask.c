// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What asks before an act of consequence opens on the key that leaves it: Space, which acts on whatever button has the
 * cursor, does nothing out of habit. */

#include "app-book.h"
#include "hs-app-test.h"
#include "hs-ask-window.h"
#include "hs-key-button.h"
#include "hs-roll-window.h"

static void
agreed_cb (HsAskWindow *window, gpointer data)
{
  *(gboolean *) data = TRUE;
}

/* What Space does to the button that has the cursor. */
static void
act_on_focus (GtkWidget *window)
{
  GtkWidget *focus;

  hs_app_test_frames ();
  focus = gtk_window_get_focus (GTK_WINDOW (window));
  g_assert_true (HS_IS_KEY_BUTTON (focus));
  g_signal_emit_by_name (focus, "clicked");
}

static void
test_ask (AppBook *book, gconstpointer data)
{
  gboolean agreed = FALSE;
  HsAskWindow *window = hs_ask_window_present (GTK_WINDOW (book->window), "Drop it?", "It is gone then.", "Drop It");

  g_signal_connect (window, "agreed", G_CALLBACK (agreed_cb), &agreed);
  hs_app_test_picture (GTK_WIDGET (window), "ask");
  act_on_focus (GTK_WIDGET (window));
  hs_app_test_wait (hs_app_test_window (HS_TYPE_ASK_WINDOW) == NULL);
  g_assert_false (agreed);
  window = hs_ask_window_present (GTK_WINDOW (book->window), "Drop it?", "It is gone then.", "Drop It");
  g_signal_connect (window, "agreed", G_CALLBACK (agreed_cb), &agreed);
  hs_app_test_frames ();
  app_book_press_in (GTK_WIDGET (window), GDK_KEY_1);
  hs_app_test_wait (hs_app_test_window (HS_TYPE_ASK_WINDOW) == NULL);
  g_assert_true (agreed);
}

/* A-0024 while others are promised: the question is asked. */
static void
test_roll (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0024", "call");

  app_book_keys (book, "F4");
  g_assert_nonnull (hs_app_test_window (HS_TYPE_ROLL_WINDOW));
  hs_app_test_picture (hs_app_test_window (HS_TYPE_ROLL_WINDOW), "ask-roll");
  act_on_focus (hs_app_test_window (HS_TYPE_ROLL_WINDOW));
  hs_app_test_wait (hs_app_test_window (HS_TYPE_ROLL_WINDOW) == NULL);
  app_book_settle (book);
  g_assert_null (hs_app_test_button (page, "Rolling"));
  app_book_keys (book, "F41");
  g_assert_nonnull (hs_app_test_button (page, "Rolling"));
}

#define ADD(name, func) g_test_add (name, AppBook, NULL, app_book_open, func, app_book_close)

int
main (int argc, char *argv[])
{
  hs_app_test_init (&argc, &argv);
  ADD ("/ask/ask", test_ask);
  ADD ("/ask/roll", test_roll);
  return g_test_run ();
}
