// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What asks before an act of consequence opens on the key that leaves it: Space, which acts on whatever button has the
 * cursor, does nothing out of habit. */

#include "app-book.h"
#include "hs-app-test.h"
#include "hs-ask-window.h"
#include "hs-key-button.h"

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

#define ADD(name, func) g_test_add (name, AppBook, NULL, app_book_open, func, app_book_close)

int
main (int argc, char *argv[])
{
  hs_app_test_init (&argc, &argv);
  ADD ("/ask/ask", test_ask);
  return g_test_run ();
}
