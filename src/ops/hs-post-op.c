// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What the owner does about posting: switching it on for this machine, looking at what is not sent yet, trying it again
 * or dropping it. */

#include "hs-post-private.h"

#include "hs-customer-row.h"
#include "hs-job-row.h"
#include "hs-log-row.h"
#include "hs-ops-private.h"
#include "hs-post-address.h"
#include "hs-settings-op.h"

gboolean
hs_post_is_on (HsBook *book, gboolean *ret_on, GError **error)
{
  return hs_post_device_row_is_on (hs_book_get_store (book), ret_on, error);
}

static gboolean
switch_on (HsBook *book, HsInstant now, GError **error)
{
  g_autoptr (HsPostDeviceRow) row = hs_post_device_row_new ();
  g_autofree char *url = hs_settings_dup (book, "post_url", error);

  if (url == NULL)
    return FALSE;
  if (*url == '\0')
    return hs_ops_refuse (error, "There is no address to post to; set post_url first.");
  hs_row_set (&row->id, hs_book_get_device (book));
  hs_row_set (&row->name, hs_book_get_host (book));
  row->since = now;
  /* What changed while it was off queued nothing; a message that was made before would tell what is over. */
  return hs_post_resume (book, error) && hs_outbox_row_remake (hs_book_get_store (book), error)
         && hs_post_device_row_save (hs_book_get_store (book), row, error);
}

gboolean
hs_post_switch (HsBook *book, gboolean on, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  gboolean was = FALSE;

  if (!hs_post_is_on (book, &was, error))
    return FALSE;
  if (was == on)
    return TRUE;
  if (!hs_store_begin (store, now, error))
    return FALSE;
  return hs_store_end (store, on ? switch_on (book, now, error)
                                 : hs_post_device_row_delete (store, hs_book_get_device (book), error), error);
}

gboolean
hs_post_queue_all (HsBook *book, HsInstant now, guint *ret_n_jobs, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  gboolean on = FALSE;

  if (!hs_post_is_on (book, &on, error))
    return FALSE;
  if (!on)
    return hs_ops_refuse (error, "Posting is off on this machine; switch it on first.");
  return hs_store_begin (store, now, error)
         && hs_store_end (store, hs_outbox_row_queue_all (store, ret_n_jobs, error), error);
}

char *
hs_post_keyring_origin (HsBook *book, gboolean keep, GError **error)
{
  g_autofree char *url = hs_settings_dup (book, "post_url", error);
  g_autofree char *file = url == NULL ? NULL : hs_settings_dup (book, "post_secret_file", error);
  g_autoptr (HsPostAddress) address = NULL;

  if (file == NULL)
    return NULL;
  if (*url == '\0')
    hs_ops_refuse (error, "There is no address to post to; set post_url first.");
  else if (keep && *file != '\0')
    hs_ops_refuse (error, "The secret lies in %s, as post_secret_file says: write it there, or set post_secret_file to"
                          " nothing first.", file);
  else
    address = hs_post_address_parse (url, TRUE, error);
  return address == NULL ? NULL : g_strdup (address->origin);
}

static gboolean
need_unsent (HsBook *book, const char *job_id, HsOutboxRow **ret_row, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsOutboxRow) row = NULL;
  g_autoptr (HsJobRow) job = NULL;

  if (!hs_job_row_load (store, job_id, &job, error) || !hs_outbox_row_find (store, job_id, &row, error))
    return FALSE;
  if (row == NULL || !(g_str_equal (row->state, "waiting") || g_str_equal (row->state, "parked")))
    return hs_ops_refuse (error, "Nothing of %s waits to be posted.", job->number);
  *ret_row = g_steal_pointer (&row);
  return TRUE;
}

gboolean
hs_post_retry (HsBook *book, const char *job_id, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsOutboxRow) row = NULL;

  if (job_id != NULL && !need_unsent (book, job_id, &row, error))
    return FALSE;
  return hs_store_begin (store, now, error)
         && hs_store_end (store, hs_post_resume (book, error) && hs_outbox_row_release (store, job_id, error), error);
}

static gboolean
drop (HsStore *store, HsOutboxRow *row, GError **error)
{
  g_autofree char *revision = g_strdup_printf ("%" G_GINT64_FORMAT, row->revision);

  hs_row_set (&row->state, "dropped");
  hs_row_set (&row->body, NULL);
  row->next_at = HS_INSTANT_NONE;
  return hs_outbox_row_save (store, row, error)
         && hs_log_row_add_deed (store, "post", row->job_id, "removed", revision, error);
}

gboolean
hs_post_drop (HsBook *book, const char *job_id, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsOutboxRow) row = NULL;

  return need_unsent (book, job_id, &row, error) && hs_store_begin (store, now, error)
         && hs_store_end (store, drop (store, row, error), error);
}

void
hs_post_unsent_free (HsPostUnsent *unsent)
{
  if (unsent == NULL)
    return;
  g_free (unsent->job_id);
  g_free (unsent->number);
  g_free (unsent->customer);
  g_free (unsent->why);
  g_free (unsent->said);
  g_free (unsent);
}

void
hs_post_overview_free (HsPostOverview *overview)
{
  if (overview == NULL)
    return;
  g_clear_pointer (&overview->unsent, g_ptr_array_unref);
  g_free (overview->why);
  g_free (overview->said);
  g_free (overview);
}

static char *
say (const char *ended, gint64 status, const HsTongue *tongue)
{
  HsPostOutcome outcome = { HS_POST_ANSWERED, status == HS_INT_NONE ? 0 : (int) status, HS_INSTANT_NONE };

  return hs_post_end_parse (ended, &outcome.end) ? hs_post_outcome_say (&outcome, tongue) : NULL;
}

static HsPostUnsent *
view_row (HsBook *book, const HsOutboxRow *row, const HsTongue *tongue, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsJobRow) job = NULL;
  g_autoptr (HsCustomerRow) customer = NULL;
  g_autoptr (GError) missing = NULL;
  HsPostUnsent *unsent;

  if (!hs_job_row_load (store, row->job_id, &job, error)
      || (!hs_customer_row_load (store, job->customer_id, &customer, &missing)
          && !hs_ops_only_missing (&missing, error)))
    return NULL;
  unsent = g_new0 (HsPostUnsent, 1);
  unsent->job_id = g_strdup (row->job_id);
  unsent->number = g_strdup (job->number);
  unsent->customer = customer == NULL ? NULL : g_strdup (customer->name);
  unsent->revision = row->revision;
  unsent->parked = g_str_equal (row->state, "parked");
  unsent->since = row->queued_at;
  unsent->tries = (guint) row->tries;
  unsent->next_at = row->next_at;
  unsent->why = say (row->ended, row->status, tongue);
  unsent->said = g_strdup (row->said);
  return unsent;
}

static gboolean
load_unsent (HsBook *book, HsPostOverview *overview, guint limit, const HsTongue *tongue, GError **error)
{
  g_autoptr (GPtrArray) rows = NULL;

  if (!hs_outbox_row_list_unsent (hs_book_get_store (book), limit, &rows, error))
    return FALSE;
  overview->unsent = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_post_unsent_free);
  for (guint i = 0; i < rows->len; i++)
    {
      HsPostUnsent *unsent = view_row (book, g_ptr_array_index (rows, i), tongue, error);

      if (unsent == NULL)
        return FALSE;
      g_ptr_array_add (overview->unsent, unsent);
    }
  return TRUE;
}

HsPostOverview *
hs_post_overview_load (HsBook *book, guint limit, const HsTongue *tongue, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsPostOverview) overview = g_new0 (HsPostOverview, 1);
  g_autoptr (HsOutboxQueueRow) queue = NULL;

  if (!hs_post_is_on (book, &overview->on, error) || !hs_outbox_queue_row_get (store, &queue, error)
      || !hs_outbox_sums_load (store, &overview->sums, error) || !load_unsent (book, overview, limit, tongue, error))
    return NULL;
  overview->paused_at = queue->paused_at;
  overview->hold_until = queue->hold_until;
  overview->tries = queue->tries;
  overview->why = say (queue->ended, queue->status, tongue);
  overview->said = g_strdup (queue->said);
  return g_steal_pointer (&overview);
}
