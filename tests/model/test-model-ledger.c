// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* HsLedger: opening, refusals, who hears of what, and trouble that lasts. */

#include <glib/gstdio.h>

#include "hs-demo.h"
#include "hs-model-error.h"
#include "hs-settings-op.h"
#include "hs-store-error.h"
#include "model-book.h"

static void
count_cb (HsLedger *ledger, gpointer data)
{
  (*(int *) data)++;
}

static gboolean
is_counted (gpointer data)
{
  return *(int *) data > 0;
}

static void
take_error_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  hs_ledger_task_finish (HS_LEDGER (source), result, NULL, data);
}

static void
take_open_error_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  hs_ledger_open_finish (HS_LEDGER (source), result, data);
}

/* Tasks of these tests. */

static gpointer
set_spare_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  hs_settings_set (book, "spare_minutes", g_variant_get_string (args, NULL), now, error);
  return NULL;
}

static gpointer
get_spare_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  return hs_settings_dup (book, "spare_minutes", error);
}

static gpointer
full_disk_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  g_set_error_literal (error, HS_STORE_ERROR, HS_STORE_ERROR_FULL, "The disk is full.");
  return NULL;
}

static gpointer
refused_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  g_set_error_literal (error, HS_STORE_ERROR, HS_STORE_ERROR_REFUSED, "Not so.");
  return NULL;
}

static gpointer
same_thread_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  return g_thread_self ();
}

static void
test_demo_opens (ModelBook *book, gconstpointer data)
{
  int year, month, day;

  g_assert_cmpint (hs_ledger_get_clock_starts (book->ledger), ==, hs_demo_get_now ());
  g_assert_false (hs_ledger_is_read_only (book->ledger));
  g_assert_null (hs_ledger_get_message (book->ledger));
  g_assert_cmpstr (hs_ledger_get_path (book->ledger), ==, book->path);
  g_assert_cmpstr (g_time_zone_get_identifier (hs_ledger_get_zone (book->ledger)), ==, "America/New_York");
  g_assert_cmpstr (hs_ledger_get_currency (book->ledger), ==, "USD");
  g_assert_nonnull (hs_checks_lookup (hs_ledger_get_checks (book->ledger), "battery_rest"));
  hs_date_to_ymd (hs_ledger_get_today (book->ledger), &year, &month, &day);
  g_assert_cmpint (year * 10000 + month * 100 + day, ==, 20260310);
}

static void
test_work_is_off_the_window (ModelBook *book, gconstpointer data)
{
  gpointer first = model_ask (book->ledger, same_thread_func, NULL);
  gpointer second = model_ask (book->ledger, same_thread_func, NULL);

  g_assert_true (first == second);
  g_assert_true (first != g_thread_self ());
}

static void
test_own_write_is_told_once (ModelBook *book, gconstpointer data)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *spare = NULL;
  int n_changed = 0;

  g_signal_connect (book->ledger, "changed", G_CALLBACK (count_cb), &n_changed);
  hs_ledger_write_async (book->ledger, set_spare_func, g_variant_new_string ("25"), NULL, FALSE, take_error_cb, &error);
  hs_ledger_wait (book->ledger);
  g_assert_no_error (error);
  g_assert_cmpint (n_changed, ==, 1);
  spare = model_ask (book->ledger, get_spare_func, NULL);
  g_assert_cmpstr (spare, ==, "25");
  g_assert_cmpint (n_changed, ==, 1);
}

static void
test_quiet_write_is_not_told (ModelBook *book, gconstpointer data)
{
  g_autoptr (GError) error = NULL;
  int n_changed = 0;

  g_signal_connect (book->ledger, "changed", G_CALLBACK (count_cb), &n_changed);
  hs_ledger_write_async (book->ledger, set_spare_func, g_variant_new_string ("25"), NULL, TRUE, take_error_cb, &error);
  hs_ledger_wait (book->ledger);
  g_assert_no_error (error);
  g_assert_cmpint (n_changed, ==, 0);
}

/* Another program writes: told within a second, without asking. */
static void
test_other_write_is_told (ModelBook *book, gconstpointer data)
{
  g_autoptr (HsBook) other = model_other_book (book);
  g_autoptr (GError) error = NULL;
  g_autofree char *spare = NULL;
  int n_changed = 0;
  gint64 start;

  while (g_main_context_iteration (NULL, FALSE))
    ;
  hs_ledger_wait (book->ledger);
  g_signal_connect (book->ledger, "changed", G_CALLBACK (count_cb), &n_changed);
  start = g_get_monotonic_time ();
  hs_settings_set (other, "spare_minutes", "17", hs_demo_get_now (), &error);
  g_assert_no_error (error);
  model_wait (is_counted, &n_changed);
  g_assert_cmpint (n_changed, >, 0);
  g_assert_cmpint (g_get_monotonic_time () - start, <, G_USEC_PER_SEC);
  spare = model_ask (book->ledger, get_spare_func, NULL);
  g_assert_cmpstr (spare, ==, "17");
}

static void
test_full_disk_lasts (ModelBook *book, gconstpointer data)
{
  g_autoptr (GError) full = NULL, refused = NULL, none = NULL;
  int n_changed = 0;

  g_signal_connect (book->ledger, "changed", G_CALLBACK (count_cb), &n_changed);
  hs_ledger_write_async (book->ledger, full_disk_func, NULL, NULL, FALSE, take_error_cb, &full);
  hs_ledger_wait (book->ledger);
  g_assert_error (full, HS_STORE_ERROR, HS_STORE_ERROR_FULL);
  g_assert_cmpstr (hs_ledger_get_message (book->ledger), ==, "The disk is full.");

  hs_ledger_write_async (book->ledger, refused_func, NULL, NULL, FALSE, take_error_cb, &refused);
  hs_ledger_wait (book->ledger);
  g_assert_error (refused, HS_STORE_ERROR, HS_STORE_ERROR_REFUSED);
  g_assert_cmpstr (hs_ledger_get_message (book->ledger), ==, "The disk is full.");
  g_assert_cmpint (n_changed, ==, 0);

  hs_ledger_write_async (book->ledger, set_spare_func, g_variant_new_string ("25"), NULL, FALSE, take_error_cb, &none);
  hs_ledger_wait (book->ledger);
  g_assert_no_error (none);
  g_assert_null (hs_ledger_get_message (book->ledger));
}

/* The file is replaced under us: the next write says so and changes nothing of the new file. */
static void
test_replaced_file_is_left_alone (ModelBook *book, gconstpointer data)
{
  g_autofree char *away = g_strconcat (book->path, ".away", NULL);
  g_autofree char *content = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_cmpint (g_rename (book->path, away), ==, 0);
  g_assert_true (g_file_set_contents (book->path, "something else", -1, NULL));
  hs_ledger_write_async (book->ledger, set_spare_func, g_variant_new_string ("25"), NULL, FALSE, take_error_cb, &error);
  hs_ledger_wait (book->ledger);
  g_assert_error (error, HS_MODEL_ERROR, HS_MODEL_ERROR_LOST);
  g_assert_nonnull (strstr (hs_ledger_get_message (book->ledger), book->path));
  g_assert_true (g_file_get_contents (book->path, &content, NULL, NULL));
  g_assert_cmpstr (content, ==, "something else");
}

static void
test_refused_files (ModelBook *book, gconstpointer data)
{
  static const struct
  {
    const char *content;
    HsLedgerOpen how;
    int code;
  } table[] = {
    { "", HS_LEDGER_OPEN, HS_STORE_ERROR_NOT_A_BOOK },
    { "", HS_LEDGER_DEMO, HS_STORE_ERROR_NOT_A_BOOK },
    { "", HS_LEDGER_NEW, HS_STORE_ERROR_REFUSED },
    { "not a book at all, but long enough to be looked at", HS_LEDGER_OPEN, HS_STORE_ERROR_NOT_A_BOOK },
    { NULL, HS_LEDGER_OPEN, HS_STORE_ERROR_NOT_FOUND },
  };
  g_autofree char *path = g_build_filename (book->folder, "bad.hsbook", NULL);

  for (guint i = 0; i < G_N_ELEMENTS (table); i++)
    {
      g_autoptr (GError) error = NULL, closed = NULL;
      g_autofree char *content = NULL;

      g_unlink (path);
      if (table[i].content != NULL)
        g_assert_true (g_file_set_contents (path, table[i].content, -1, NULL));
      hs_ledger_open_async (book->ledger, path, table[i].how, NULL, take_open_error_cb, &error);
      hs_ledger_wait (book->ledger);
      g_assert_error (error, HS_STORE_ERROR, table[i].code);
      g_assert_false (hs_ledger_is_open (book->ledger));
      g_assert_cmpint (g_file_get_contents (path, &content, NULL, NULL), ==, table[i].content != NULL);
      g_assert_cmpstr (content, ==, table[i].content);

      hs_ledger_ask_async (book->ledger, get_spare_func, NULL, g_free, take_error_cb, &closed);
      hs_ledger_wait (book->ledger);
      g_assert_error (closed, HS_MODEL_ERROR, HS_MODEL_ERROR_CLOSED);
    }
}

static void
test_new_book (ModelBook *book, gconstpointer data)
{
  g_autofree char *path = g_build_filename (book->folder, "new.hsbook", NULL);
  g_autoptr (GError) error = NULL;
  int n_changed = 0;

  g_signal_connect (book->ledger, "changed", G_CALLBACK (count_cb), &n_changed);
  hs_ledger_open_async (book->ledger, path, HS_LEDGER_NEW, "Europe/Madrid", take_open_error_cb, &error);
  hs_ledger_wait (book->ledger);
  g_assert_no_error (error);
  g_assert_cmpint (n_changed, ==, 1);
  g_assert_true (hs_ledger_get_clock_starts (book->ledger) == HS_INSTANT_NONE);
  g_assert_cmpstr (g_time_zone_get_identifier (hs_ledger_get_zone (book->ledger)), ==, "Europe/Madrid");
}

#define ADD(name, func) g_test_add (name, ModelBook, NULL, model_book_open, func, model_book_close)

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  ADD ("/ledger/demo-opens", test_demo_opens);
  ADD ("/ledger/work-is-off-the-window", test_work_is_off_the_window);
  ADD ("/ledger/own-write-is-told-once", test_own_write_is_told_once);
  ADD ("/ledger/quiet-write-is-not-told", test_quiet_write_is_not_told);
  ADD ("/ledger/other-write-is-told", test_other_write_is_told);
  ADD ("/ledger/full-disk-lasts", test_full_disk_lasts);
  ADD ("/ledger/replaced-file-is-left-alone", test_replaced_file_is_left_alone);
  ADD ("/ledger/refused-files", test_refused_files);
  ADD ("/ledger/new-book", test_new_book);
  return g_test_run ();
}
