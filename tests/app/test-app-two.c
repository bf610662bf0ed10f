// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Two windows on one job, as on two devices or by mistake: what is done in one shows in the other, and nothing that is
 * typed in either is lost. */

#include "app-book.h"
#include "hs-app-test.h"
#include "hs-ask.h"
#include "hs-call-form.h"
#include "hs-demo.h"
#include "hs-job-op.h"
#include "hs-job-page.h"

/* The same book in another window, with a ledger and a connection of its own. */
static void
open_second (AppBook *second, const AppBook *first)
{
  *second = (AppBook){ .folder = first->folder, .path = first->path };
  app_book_open_window (second);
}

static HsFindings *
findings_of (AppBook *book)
{
  return hs_job_page_get_findings (HS_JOB_PAGE (hs_window_get_job (book->window)));
}

/* Milliseconds until @text is shown in @book's window. */
static gint64
wait_for_text (AppBook *book, const char *text)
{
  gint64 start = g_get_monotonic_time ();

  hs_app_test_wait (hs_app_test_says_part (GTK_WIDGET (book->window), text));
  return (g_get_monotonic_time () - start) / 1000;
}

/* A reading stored in one is in the sheet of the other, which is in the middle of another figure. */
static void
test_reading (AppBook *first, gconstpointer data)
{
  AppBook second;
  gint64 milliseconds;

  app_book_open_job (first, "A-0024", "findings");
  app_book_type (first, "1");
  open_second (&second, first);
  app_book_open_job (&second, "A-0024", "findings");
  hs_findings_go (findings_of (&second), "cranking", NULL);
  app_book_type (&second, "87");
  for (const char *key = "1242\n"; *key != '\0'; key++)
    app_book_press (first, *key == '\n' ? GDK_KEY_Return : gdk_unicode_to_keyval ((guint32) *key));
  hs_ledger_wait (first->ledger);
  milliseconds = wait_for_text (&second, "12.42");
  g_test_message ("shown in the other window after %" G_GINT64_FORMAT " ms", milliseconds);
  g_assert_cmpstr (hs_findings_get_text (findings_of (&second)), ==, "87");
  app_book_type (&second, "0\n");
  g_assert_cmpint (wait_for_text (first, "8.70"), >=, 0);
  app_book_close_window (&second);
}

/* Changes close upon each other are all seen soon: nothing waits for a later one. */
static void
test_soon (AppBook *first, gconstpointer data)
{
  AppBook second;
  gint64 longest = 0;

  app_book_open_job (first, "A-0024", "findings");
  app_book_type (first, "1");
  open_second (&second, first);
  app_book_open_job (&second, "A-0024", "findings");
  for (guint i = 10; i < 30; i++)
    {
      g_autofree char *keys = g_strdup_printf ("12%u", i), *text = g_strdup_printf ("12.%u", i);
      gint64 milliseconds;

      app_book_type (first, keys);
      g_assert_false (hs_app_test_says_part (GTK_WIDGET (second.window), text));
      app_book_press (first, GDK_KEY_Return);
      milliseconds = wait_for_text (&second, text);
      longest = MAX (longest, milliseconds);
      app_book_type (first, "-");
      g_usleep ((gulong) g_test_rand_int_range (0, 100000));
    }
  g_test_message ("shown in the other window after %" G_GINT64_FORMAT " ms at the most", longest);
  app_book_close_window (&second);
}

#define ADD(name, func) g_test_add (name, AppBook, NULL, app_book_open, func, app_book_close)

int
main (int argc, char *argv[])
{
  hs_app_test_init (&argc, &argv);
  ADD ("/two/reading", test_reading);
  ADD ("/two/soon", test_soon);
  return g_test_run ();
}
