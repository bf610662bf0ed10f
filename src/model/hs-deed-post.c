// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The deeds of posting. All but one are the book's; the secret goes past it, straight to the network's own keeper. */

#include "hs-deed-post.h"

#include "hs-poster.h"

#include <string.h>

gpointer
hs_ask_unsent (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  guint limit;
  guint64 tongue;

  g_variant_get (args, "(ut)", &limit, &tongue);
  return hs_post_overview_load (book, limit, (const HsTongue *) (guintptr) tongue, error);
}

static gpointer
switch_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  gboolean on;

  g_variant_get (args, "(b)", &on);
  hs_post_switch (book, on, now, error);
  return NULL;
}

void
hs_deed_post_switch (HsLedger *ledger, gboolean on, GAsyncReadyCallback callback, gpointer user_data)
{
  hs_ledger_write_async (ledger, switch_func, g_variant_new ("(b)", on), NULL, FALSE, callback, user_data);
}

static gpointer
all_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  guint n_jobs = 0;

  return hs_post_queue_all (book, now, &n_jobs, error) ? GUINT_TO_POINTER (n_jobs) : NULL;
}

void
hs_deed_post_all (HsLedger *ledger, GAsyncReadyCallback callback, gpointer user_data)
{
  hs_ledger_write_async (ledger, all_func, NULL, NULL, FALSE, callback, user_data);
}

static gpointer
retry_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *job_id;

  g_variant_get (args, "(m&s)", &job_id);
  hs_post_retry (book, job_id, now, error);
  return NULL;
}

void
hs_deed_post_retry (HsLedger *ledger, const char *job_id, GAsyncReadyCallback callback, gpointer user_data)
{
  hs_ledger_write_async (ledger, retry_func, g_variant_new ("(ms)", job_id), NULL, FALSE, callback, user_data);
}

static gpointer
drop_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *job_id;

  g_variant_get (args, "(&s)", &job_id);
  hs_post_drop (book, job_id, now, error);
  return NULL;
}

void
hs_deed_post_drop (HsLedger *ledger, const char *job_id, GAsyncReadyCallback callback, gpointer user_data)
{
  hs_ledger_write_async (ledger, drop_func, g_variant_new ("(s)", job_id), NULL, FALSE, callback, user_data);
}

/* The secret. */

static void
wipe (gpointer data)
{
  char *secret = data;

  if (secret != NULL)
    explicit_bzero (secret, strlen (secret));
  g_free (secret);
}

static void
keep_func (GTask *task, gpointer source, gpointer data, GCancellable *cancel)
{
  const char *origin = g_object_get_data (G_OBJECT (task), "origin");
  g_autoptr (GError) error = NULL;

  if (hs_post_net_get ()->store_secret (origin, data, &error))
    g_task_return_boolean (task, TRUE);
  else
    g_task_return_error (task, g_steal_pointer (&error));
}

static gpointer
origin_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  gboolean keep;

  g_variant_get (args, "(b)", &keep);
  return hs_post_keyring_origin (book, keep, error);
}

static void
origin_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (GTask) task = data;
  char *origin = NULL;
  GError *error = NULL;

  if (!hs_ledger_task_finish (HS_LEDGER (source), result, (gpointer *) &origin, &error))
    {
      g_task_return_error (task, error);
      return;
    }
  g_object_set_data_full (G_OBJECT (task), "origin", origin, g_free);
  g_task_run_in_thread (task, keep_func);
}

void
hs_deed_keep_secret (HsLedger *ledger, const char *secret, GAsyncReadyCallback callback, gpointer user_data)
{
  GTask *task = g_task_new (ledger, NULL, callback, user_data);

  g_task_set_task_data (task, g_strdup (secret), wipe);
  if (hs_post_net_get () != NULL)
    {
      hs_ledger_ask_async (ledger, origin_func, g_variant_new ("(b)", secret != NULL), g_free, origin_cb, task);
      return;
    }
  g_task_return_new_error (task, G_IO_ERROR, G_IO_ERROR_NOT_SUPPORTED, "This build does not post.");
  g_object_unref (task);
}

gboolean
hs_deed_keep_secret_finish (HsLedger *ledger, GAsyncResult *result, GError **error)
{
  gboolean kept = g_task_propagate_boolean (G_TASK (result), error);

  if (kept && g_task_get_task_data (G_TASK (result)) != NULL)
    hs_deed_post_retry (ledger, NULL, NULL, NULL);
  return kept;
}
