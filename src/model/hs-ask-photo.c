// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Photos and cameras for the pages. What takes long and needs no book (decoding a large picture, reading a camera over
 * its cable) is done in threads of its own; the worker only fetches the bytes or compares. */

#include "hs-ask-photo.h"

#include "hs-photo-op.h"

gboolean
hs_job_shot_load_photos (HsBook *book, HsJobShot *shot, const char *job_id, GError **error)
{
  shot->photos = hs_photo_list (book, job_id, error);
  if (shot->photos != NULL)
    shot->photo_subjects = hs_photo_subjects (book, job_id, error);
  return shot->photo_subjects != NULL;
}

gpointer
hs_ask_photo_small (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  g_autoptr (GBytes) data = NULL;
  const char *photo_id;

  g_variant_get (args, "(&s)", &photo_id);
  data = hs_photo_load_thumbnail (book, photo_id, error);
  return data != NULL ? hs_pixels_decode (data, HS_PHOTO_THUMBNAIL, error) : NULL;
}

/* A large picture: book, then thread. */

static gpointer
load_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *photo_id;

  g_variant_get (args, "(&s)", &photo_id);
  return hs_photo_load (book, photo_id, error);
}

/* Tasks of other threads own no ledger: a thread lets go of its task some time after the answer is here, and the book
 * may be shut by then. */
static void
decode_thread (GTask *work, gpointer source, gpointer data, GCancellable *cancellable)
{
  int most = GPOINTER_TO_INT (g_object_get_data (G_OBJECT (work), "most"));
  GError *error = NULL;
  HsPixels *pixels = hs_pixels_decode (data, most, &error);

  if (pixels != NULL)
    g_task_return_pointer (work, pixels, (GDestroyNotify) hs_pixels_free);
  else
    g_task_return_error (work, error);
}

static void
decoded_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  g_autoptr (GTask) task = user_data;
  GError *error = NULL;
  HsPixels *pixels = g_task_propagate_pointer (G_TASK (result), &error);

  if (pixels != NULL)
    g_task_return_pointer (task, pixels, (GDestroyNotify) hs_pixels_free);
  else
    g_task_return_error (task, error);
}

static void
loaded_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  g_autoptr (GTask) task = user_data;
  g_autoptr (GTask) work = NULL;
  GBytes *data = NULL;
  GError *error = NULL;

  if (!hs_ledger_task_finish (HS_LEDGER (source), result, (gpointer *) &data, &error))
    {
      g_task_return_error (task, error);
      return;
    }
  work = g_task_new (NULL, NULL, decoded_cb, g_object_ref (task));
  g_object_set_data (G_OBJECT (work), "most", g_task_get_task_data (task));
  g_task_set_task_data (work, data, (GDestroyNotify) g_bytes_unref);
  g_task_run_in_thread (work, decode_thread);
}

void
hs_photo_show_async (HsLedger *ledger, const char *photo_id, int most, GAsyncReadyCallback callback,
                     gpointer user_data)
{
  GTask *task = g_task_new (ledger, NULL, callback, user_data);

  g_task_set_source_tag (task, hs_photo_show_async);
  g_task_set_task_data (task, GINT_TO_POINTER (most), NULL);
  hs_ledger_ask_async (ledger, load_func, g_variant_new ("(s)", photo_id), (GDestroyNotify) g_bytes_unref, loaded_cb,
                       task);
}

HsPixels *
hs_photo_show_finish (HsLedger *ledger, GAsyncResult *result, GError **error)
{
  g_return_val_if_fail (g_task_is_valid (result, ledger), NULL);

  return g_task_propagate_pointer (G_TASK (result), error);
}

/* A camera: thread, then book. */

static void
scan_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  GError *error = NULL;
  GPtrArray *found = hs_photo_folder_scan (data, &error);

  if (found != NULL)
    g_task_return_pointer (task, found, (GDestroyNotify) g_ptr_array_unref);
  else
    g_task_return_error (task, error);
}

/* The array is the caller's until the answer is there; nobody else looks at it. */
static gpointer
match_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  guint64 address;

  g_variant_get (args, "(t)", &address);
  hs_photo_folder_match (book, (GPtrArray *) (guintptr) address, now, error);
  return NULL;
}

static void
matched_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  g_autoptr (GTask) task = user_data;
  GError *error = NULL;

  if (hs_ledger_task_finish (HS_LEDGER (source), result, NULL, &error))
    g_task_return_pointer (task, g_ptr_array_ref (g_task_get_task_data (task)), (GDestroyNotify) g_ptr_array_unref);
  else
    g_task_return_error (task, error);
}

static void
scanned_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  g_autoptr (GTask) task = user_data;
  GError *error = NULL;
  GPtrArray *found = g_task_propagate_pointer (G_TASK (result), &error);

  if (found == NULL)
    {
      g_task_return_error (task, error);
      return;
    }
  g_task_set_task_data (task, found, (GDestroyNotify) g_ptr_array_unref);
  hs_ledger_ask_async (g_task_get_source_object (task), match_func,
                       g_variant_new ("(t)", (guint64) (guintptr) found), NULL, matched_cb, g_object_ref (task));
}

void
hs_photo_look_async (HsLedger *ledger, GFile *folder, GAsyncReadyCallback callback, gpointer user_data)
{
  GTask *task = g_task_new (ledger, NULL, callback, user_data);
  g_autoptr (GTask) scan = g_task_new (NULL, NULL, scanned_cb, task);

  g_task_set_source_tag (task, hs_photo_look_async);
  g_task_set_task_data (scan, g_object_ref (folder), g_object_unref);
  g_task_run_in_thread (scan, scan_thread);
}

GPtrArray *
hs_photo_look_finish (HsLedger *ledger, GAsyncResult *result, GError **error)
{
  g_return_val_if_fail (g_task_is_valid (result, ledger), NULL);

  return g_task_propagate_pointer (G_TASK (result), error);
}
