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

#include <string.h>

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
      /* Over a reading that is stored, Enter asks first, and + says yes. */
      if (i > 10)
        app_book_type (first, "\n");
      app_book_press (first, i > 10 ? GDK_KEY_plus : GDK_KEY_Return);
      milliseconds = wait_for_text (&second, text);
      longest = MAX (longest, milliseconds);
      app_book_type (first, "-");
      g_usleep ((gulong) g_test_rand_int_range (0, 100000));
    }
  g_test_message ("shown in the other window after %" G_GINT64_FORMAT " ms at the most", longest);
  app_book_close_window (&second);
}

static HsCallForm *
call_of (AppBook *book)
{
  return HS_CALL_FORM (hs_app_test_find (hs_window_get_job (book->window), HS_TYPE_CALL_FORM));
}

/* Puts the cursor there. */
static gboolean
field_is (AppBook *book, const char *field, const char *expected)
{
  GtkWidget *focus;

  hs_call_form_go (call_of (book), field, NULL);
  focus = gtk_root_get_focus (GTK_ROOT (book->window));
  return g_str_equal (gtk_editable_get_text (GTK_EDITABLE (focus)), expected);
}

static void
write_field (AppBook *book, const char *field, const char *text)
{
  GtkWidget *focus;

  hs_call_form_go (call_of (book), field, NULL);
  focus = gtk_root_get_focus (GTK_ROOT (book->window));
  gtk_editable_set_text (GTK_EDITABLE (focus), "");
  for (const char *key = text; *key != '\0'; key++)
    app_book_press (book, gdk_unicode_to_keyval ((guint32) *key));
}

static void
leave_field (AppBook *book)
{
  gtk_widget_child_focus (GTK_WIDGET (book->window), GTK_DIR_TAB_FORWARD);
  app_book_settle (book);
}

/* Both in the call: one types a street, the other writes the caller's words. Neither takes the other's away. */
static void
test_two_fields (AppBook *first, gconstpointer data)
{
  AppBook second;

  app_book_open_job (first, "A-0024", "call");
  open_second (&second, first);
  app_book_open_job (&second, "A-0024", "call");
  write_field (first, "street", "9 Coble Walk");
  write_field (&second, "words", "flat every Monday");
  leave_field (&second);
  hs_app_test_wait (g_str_equal (hs_call_form_get_words (call_of (first)), "flat every Monday"));
  g_assert_true (field_is (first, "street", "9 Coble Walk"));
  leave_field (first);
  hs_app_test_wait (field_is (&second, "street", "9 Coble Walk"));
  g_assert_true (field_is (&second, "words", "flat every Monday"));
  g_assert_true (field_is (first, "words", "flat every Monday"));
  app_book_close_window (&second);
}

/* Both in one field: the later one stands, the other's words are kept as an answer, and that is said. */
static void
test_one_field (AppBook *first, gconstpointer data)
{
  AppBook second;
  HsBookUser user = { "test", "here", 1, hs_demo_get_now () };
  g_autoptr (HsBook) other = NULL;
  g_autofree char *id = NULL;
  g_autoptr (HsJobView) view = NULL;
  gboolean kept = FALSE;

  app_book_open_job (first, "A-0024", "call");
  open_second (&second, first);
  app_book_open_job (&second, "A-0024", "call");
  write_field (first, "street", "7 Mill Lane");
  write_field (&second, "street", "9 Coble Walk");
  leave_field (&second);
  hs_app_test_wait (hs_app_test_says_part (GTK_WIDGET (first->window),
                                           "Street: another device wrote “9 Coble Walk” meanwhile. Both are kept"));
  g_assert_true (field_is (first, "street", "7 Mill Lane"));
  leave_field (first);
  g_assert_true (hs_app_test_says_part (GTK_WIDGET (first->window), "another device wrote “9 Coble Walk”"));
  other = hs_book_open (first->path, HS_BOOK_READ, &user, NULL);
  id = hs_job_find (other, "A-0024", NULL);
  view = hs_job_view_load (other, id, hs_demo_get_now (), NULL);
  g_assert_cmpstr (view->street, ==, "7 Mill Lane");
  /* Questions and answers by turns. */
  for (guint i = 0; i + 1 < view->asked->len; i += 2)
    kept |= g_str_equal (g_ptr_array_index (view->asked, i), "Street, as another device had it")
            && g_str_equal (g_ptr_array_index (view->asked, i + 1), "9 Coble Walk");
  g_assert_true (kept);
  app_book_close_window (&second);
}

#define ADD(name, func) g_test_add (name, AppBook, NULL, app_book_open, func, app_book_close)

int
main (int argc, char *argv[])
{
  hs_app_test_init (&argc, &argv);
  ADD ("/two/reading", test_reading);
  ADD ("/two/soon", test_soon);
  ADD ("/two/two-fields", test_two_fields);
  ADD ("/two/one-field", test_one_field);
  return g_test_run ();
}
