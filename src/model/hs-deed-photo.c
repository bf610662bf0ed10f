// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What is done with photos. Adding goes through files one by one:
 *
 *   order ─▶ thread: hs_photo_intake_read () ─▶ worker: hs_photo_add () ─▶ next order */

#include "hs-deed-photo.h"

#include "hs-photo-op.h"

static gpointer
bind_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *photo_id, *finding_id;

  g_variant_get (args, "(&sm&s)", &photo_id, &finding_id);
  hs_photo_bind (book, photo_id, finding_id, now, error);
  return NULL;
}

void
hs_deed_bind_photo (HsLedger *ledger, const char *photo_id, const char *finding_id, GAsyncReadyCallback callback,
                    gpointer user_data)
{
  hs_ledger_write_async (ledger, bind_func, g_variant_new ("(sms)", photo_id, finding_id), NULL, FALSE, callback,
                         user_data);
}

static gpointer
phase_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *photo_id, *phase;

  g_variant_get (args, "(&s&s)", &photo_id, &phase);
  hs_photo_set_phase (book, photo_id, phase, now, error);
  return NULL;
}

void
hs_deed_set_photo_phase (HsLedger *ledger, const char *photo_id, const char *phase, GAsyncReadyCallback callback,
                         gpointer user_data)
{
  hs_ledger_write_async (ledger, phase_func, g_variant_new ("(ss)", photo_id, phase), NULL, FALSE, callback,
                         user_data);
}

static gpointer
remove_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *photo_id;

  g_variant_get (args, "(&s)", &photo_id);
  hs_photo_remove (book, photo_id, now, error);
  return NULL;
}

void
hs_deed_remove_photo (HsLedger *ledger, const char *photo_id, GAsyncReadyCallback callback, gpointer user_data)
{
  hs_ledger_write_async (ledger, remove_func, g_variant_new ("(s)", photo_id), NULL, FALSE, callback, user_data);
}

static gpointer
write_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *photo_id, *uri;
  g_autoptr (GFile) to = NULL;

  g_variant_get (args, "(&s&s)", &photo_id, &uri);
  to = g_file_new_for_uri (uri);
  hs_photo_export (book, photo_id, to, error);
  return NULL;
}

void
hs_deed_write_photo (HsLedger *ledger, const char *photo_id, const char *uri, GAsyncReadyCallback callback,
                     gpointer user_data)
{
  hs_ledger_ask_async (ledger, write_func, g_variant_new ("(ss)", photo_id, uri), NULL, callback, user_data);
}

/* Adding. */

HsPhotoOrder *
hs_photo_order_new (const char *uri, const char *job_id)
{
  HsPhotoOrder *order = g_new0 (HsPhotoOrder, 1);

  order->uri = g_strdup (uri);
  order->job_id = g_strdup (job_id);
  return order;
}

void
hs_photo_order_free (HsPhotoOrder *order)
{
  if (order == NULL)
    return;
  g_free (order->uri);
  g_free (order->job_id);
  g_free (order);
}

void
hs_photo_report_free (HsPhotoReport *report)
{
  if (report == NULL)
    return;
  g_ptr_array_unref (report->refused);
  g_free (report);
}

/* The whole errand; its task owns it, and each step owns the task. */
typedef struct
{
  GPtrArray *orders;
  gboolean keep_place;
  guint at;
  HsPhotoIntake *intake;
  HsPhotoReport *report;
} Errand;

static void
errand_free (Errand *errand)
{
  g_ptr_array_unref (errand->orders);
  hs_photo_intake_free (errand->intake);
  hs_photo_report_free (errand->report);
  g_free (errand);
}

static void go_on (GTask *task);

static void
refuse (Errand *errand, GError *why)
{
  g_ptr_array_add (errand->report->refused, g_strdup (why->message));
  g_error_free (why);
}

/* What the worker answers about one photo: that it was mended, as an integer in a pointer. */
static gpointer
add_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const HsPhotoIntake *intake;
  g_autofree char *id = NULL;
  gboolean mended = FALSE;
  const char *job_id;
  guint64 address;

  g_variant_get (args, "(&st)", &job_id, &address);
  intake = (const HsPhotoIntake *) (guintptr) address;
  id = hs_photo_add (book, job_id, intake, NULL, now, &mended, error);
  return GINT_TO_POINTER (mended);
}

static void
added_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  g_autoptr (GTask) task = user_data;
  Errand *errand = g_task_get_task_data (task);
  gpointer mended = NULL;
  GError *error = NULL;

  if (!hs_ledger_task_finish (HS_LEDGER (source), result, &mended, &error))
    refuse (errand, error);
  else
    {
      errand->report->n_added += mended == NULL;
      errand->report->n_mended += mended != NULL;
      errand->report->n_bared += errand->intake->told_place && !errand->intake->kept_place;
    }
  g_clear_pointer (&errand->intake, hs_photo_intake_free);
  errand->at++;
  go_on (task);
}

static void
read_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  const Errand *errand = data;
  const HsPhotoOrder *order = g_ptr_array_index (errand->orders, errand->at);
  g_autoptr (GFile) file = g_file_new_for_uri (order->uri);
  GError *error = NULL;
  HsPhotoIntake *intake = hs_photo_intake_read (file, errand->keep_place, &error);

  if (intake != NULL)
    g_task_return_pointer (task, intake, (GDestroyNotify) hs_photo_intake_free);
  else
    g_task_return_error (task, error);
}

static void
read_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  g_autoptr (GTask) task = user_data;
  Errand *errand = g_task_get_task_data (task);
  const HsPhotoOrder *order = g_ptr_array_index (errand->orders, errand->at);
  GError *error = NULL;

  errand->intake = g_task_propagate_pointer (G_TASK (result), &error);
  if (errand->intake == NULL)
    {
      refuse (errand, error);
      errand->at++;
      go_on (task);
      return;
    }
  hs_ledger_write_async (g_task_get_source_object (task), add_func,
                         g_variant_new ("(st)", order->job_id, (guint64) (guintptr) errand->intake), NULL, FALSE,
                         added_cb, g_object_ref (task));
}

static void
go_on (GTask *task)
{
  Errand *errand = g_task_get_task_data (task);
  g_autoptr (GTask) reading = NULL;

  if (errand->at >= errand->orders->len)
    {
      g_task_return_pointer (task, g_steal_pointer (&errand->report), (GDestroyNotify) hs_photo_report_free);
      return;
    }
  /* The thread owns no ledger: it lets go of its task some time after the answer is here. */
  reading = g_task_new (NULL, NULL, read_cb, g_object_ref (task));
  g_task_set_task_data (reading, errand, NULL);
  g_task_run_in_thread (reading, read_thread);
}

void
hs_photos_add_async (HsLedger *ledger, GPtrArray *orders, gboolean keep_place, GAsyncReadyCallback callback,
                     gpointer user_data)
{
  g_autoptr (GTask) task = g_task_new (ledger, NULL, callback, user_data);
  Errand *errand = g_new0 (Errand, 1);

  errand->orders = orders;
  errand->keep_place = keep_place;
  errand->report = g_new0 (HsPhotoReport, 1);
  errand->report->refused = g_ptr_array_new_with_free_func (g_free);
  g_task_set_source_tag (task, hs_photos_add_async);
  g_task_set_task_data (task, errand, (GDestroyNotify) errand_free);
  go_on (task);
}

HsPhotoReport *
hs_photos_add_finish (HsLedger *ledger, GAsyncResult *result)
{
  g_return_val_if_fail (g_task_is_valid (result, ledger), NULL);

  return g_task_propagate_pointer (G_TASK (result), NULL);
}
