// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What the tests of this layer share: a demo book and a way to wait. */

#include "model-book.h"

#include <glib/gstdio.h>

#include "hs-demo.h"

static HsInstant
model_now (gpointer data)
{
  return hs_demo_get_now ();
}

static void
opened_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (GError) error = NULL;

  hs_ledger_open_finish (HS_LEDGER (source), result, &error);
  g_assert_no_error (error);
}

void
model_book_open (ModelBook *book, gconstpointer data)
{
  g_autoptr (GError) error = NULL;

  book->folder = g_dir_make_tmp (NULL, &error);
  g_assert_no_error (error);
  book->path = g_build_filename (book->folder, "demo.hsbook", NULL);
  book->ledger = hs_ledger_new (model_now, NULL, NULL, "test", 1);
  hs_ledger_open_async (book->ledger, book->path, HS_LEDGER_DEMO, NULL, opened_cb, NULL);
  hs_ledger_wait (book->ledger);
  g_assert_true (hs_ledger_is_open (book->ledger));
}

void
model_book_close (ModelBook *book, gconstpointer data)
{
  g_autoptr (GDir) dir = NULL;
  const char *name;

  hs_ledger_wait (book->ledger);
  g_assert_finalize_object (book->ledger);
  dir = g_dir_open (book->folder, 0, NULL);
  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (book->folder, name, NULL);

      g_assert_cmpint (g_unlink (path), ==, 0);
    }
  g_assert_cmpint (g_rmdir (book->folder), ==, 0);
  g_free (book->path);
  g_free (book->folder);
}

static gboolean
late_cb (gpointer data)
{
  *(gboolean *) data = TRUE;
  return G_SOURCE_CONTINUE;
}

void
model_wait (gboolean (*done) (gpointer data), gpointer data)
{
  gboolean late = FALSE;
  guint source = g_timeout_add_seconds (60, late_cb, &late);

  while (!done (data) && !late)
    g_main_context_iteration (NULL, TRUE);
  g_source_remove (source);
}

static void
asked_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (GError) error = NULL;

  hs_ledger_task_finish (HS_LEDGER (source), result, data, &error);
  g_assert_no_error (error);
}

gpointer
model_ask (HsLedger *ledger, HsLedgerFunc func, GVariant *args)
{
  gpointer answer = NULL;

  hs_ledger_ask_async (ledger, func, args, NULL, asked_cb, &answer);
  hs_ledger_wait (ledger);
  return answer;
}

HsBook *
model_other_book (ModelBook *book)
{
  HsBookUser user = { "another", "elsewhere", 1, hs_demo_get_now () };
  g_autoptr (GError) error = NULL;
  HsBook *other = hs_book_open (book->path, HS_BOOK_WRITE, &user, &error);

  g_assert_no_error (error);
  return other;
}
