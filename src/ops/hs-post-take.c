// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Making a message ready to be sent. That it is tried is in the book before it goes out: a program that is killed in
 * between sends the same once more, with the same key. */

#include "hs-post-private.h"

#include "hs-ops-private.h"
#include "hs-post-address.h"
#include "hs-post-body.h"
#include "hs-settings-op.h"

static const struct
{
  const char *key;
  HsPostShow show;
} switches[] = {
  { "post_phone", HS_POST_SHOW_PHONE },   { "post_street", HS_POST_SHOW_STREET },
  { "post_signature", HS_POST_SHOW_SIGNATURE }, { "post_photos", HS_POST_SHOW_PHOTOS },
  { "post_costs", HS_POST_SHOW_COSTS },
};

static gboolean
is_yes (HsBook *book, const char *key, gboolean *ret_yes, GError **error)
{
  g_autofree char *value = hs_settings_dup (book, key, error);

  if (value == NULL)
    return FALSE;
  *ret_yes = g_str_equal (value, "yes");
  return TRUE;
}

static gboolean
load_show (HsBook *book, HsPostShow *ret_show, GError **error)
{
  guint show = HS_POST_SHOW_NOTHING;

  for (guint i = 0; i < G_N_ELEMENTS (switches); i++)
    {
      gboolean yes;

      if (!is_yes (book, switches[i].key, &yes, error))
        return FALSE;
      show |= yes ? switches[i].show : 0;
    }
  *ret_show = (HsPostShow) show;
  return TRUE;
}

/* An empty setting is none. */
static gboolean
dup_filled (HsBook *book, const char *key, char **ret_value, GError **error)
{
  g_autofree char *value = hs_settings_dup (book, key, error);

  if (value == NULL)
    return FALSE;
  *ret_value = *value == '\0' ? NULL : g_steal_pointer (&value);
  return TRUE;
}

static gboolean
load_secret_settings (HsBook *book, HsPostParcel *parcel, GError **error)
{
  g_autofree char *auth = hs_settings_dup (book, "post_auth", error);

  if (auth == NULL)
    return FALSE;
  hs_post_auth_parse (auth, &parcel->auth);
  return dup_filled (book, "post_user", &parcel->user, error)
         && dup_filled (book, "post_secret_file", &parcel->secret_file, error)
         && dup_filled (book, "post_ca_file", &parcel->ca_file, error);
}

/* The address is looked at each time: the switch for the private network may have been turned since. */
static gboolean
load_address (HsBook *book, HsPostParcel *parcel, HsPostReply *refused, GError **error)
{
  g_autofree char *url = hs_settings_dup (book, "post_url", error);
  g_autoptr (HsPostAddress) address = NULL;
  g_autoptr (GError) wrong = NULL;
  gboolean private_network;

  if (url == NULL || !is_yes (book, "post_private_network", &private_network, error))
    return FALSE;
  address = hs_post_address_parse (url, private_network, &wrong);
  if (address == NULL)
    {
      refused->end = HS_POST_BAD_ADDRESS;
      refused->said = *url == '\0' ? NULL : g_strdup (wrong->message);
      return TRUE;
    }
  parcel->url = hs_post_address_expand (address, parcel->job_id);
  parcel->origin = g_strdup (address->origin);
  parcel->put = address->has_id;
  return TRUE;
}

static gboolean
make_body (HsBook *book, HsOutboxRow *row, HsPostReply *refused, GError **error)
{
  g_autoptr (GError) wrong = NULL;
  HsPostShow show;

  if (row->body != NULL)
    return TRUE;
  if (!load_show (book, &show, error))
    return FALSE;
  row->body = hs_post_body_make (book, row->job_id, row->revision, show, &wrong);
  if (row->body == NULL)
    {
      refused->end = HS_POST_BAD_BODY;
      refused->said = g_strdup (wrong->message);
    }
  return TRUE;
}

static gboolean
fill (HsBook *book, HsOutboxRow *row, HsPostParcel *parcel, HsPostReply *refused, GError **error)
{
  parcel->key = g_strdup (row->id);
  parcel->job_id = g_strdup (row->job_id);
  parcel->revision = row->revision;
  if (!load_address (book, parcel, refused, error) || !load_secret_settings (book, parcel, error))
    return FALSE;
  if (parcel->url != NULL && !make_body (book, row, refused, error))
    return FALSE;
  parcel->body = g_strdup (row->body);
  return TRUE;
}

/* Nothing while posting is off, the queue is paused or held, or nobody is due. */
static gboolean
find_next (HsBook *book, HsInstant now, HsOutboxRow **ret_row, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsOutboxQueueRow) queue = NULL;
  gboolean on = FALSE;

  *ret_row = NULL;
  if (!hs_post_device_row_is_on (store, &on, error) || !hs_outbox_queue_row_get (store, &queue, error))
    return FALSE;
  if (!on || queue->paused_at != HS_INSTANT_NONE || (queue->hold_until != HS_INSTANT_NONE && queue->hold_until > now))
    return TRUE;
  return hs_outbox_row_next (store, now, ret_row, error);
}

/* What the endpoint refused for good, she may have mended since: then it is another message. What may be there already
 * goes out again as it was. */
static gboolean
renew_if_mended (HsBook *book, HsOutboxRow *row, GError **error)
{
  g_autofree char *body = NULL;
  HsPostShow show;

  if (row->body == NULL || g_strcmp0 (row->ended, "answered") != 0 || row->status < 400 || row->status > 499
      || row->status == 408 || row->status == 429)
    return TRUE;
  if (!load_show (book, &show, error))
    return FALSE;
  body = hs_post_body_make (book, row->job_id, row->revision, show, NULL);
  return g_strcmp0 (body, row->body) == 0 || hs_outbox_row_renew (hs_book_get_store (book), row, error);
}

static gboolean
take (HsBook *book, HsOutboxRow *row, HsInstant now, HsPostParcel *parcel, HsPostReply *refused, GError **error)
{
  if (!renew_if_mended (book, row, error) || !fill (book, row, parcel, refused, error))
    return FALSE;
  row->tries++;
  row->tried_at = now;
  row->next_at = HS_INSTANT_NONE;
  return hs_outbox_row_save (hs_book_get_store (book), row, error);
}

static gboolean
find_and_take (HsBook *book, HsInstant now, HsPostParcel **ret_parcel, HsPostReply *ret_refused, GError **error)
{
  g_autoptr (HsOutboxRow) row = NULL;
  g_autoptr (HsPostParcel) parcel = g_new0 (HsPostParcel, 1);

  *ret_parcel = NULL;
  if (!find_next (book, now, &row, error))
    return FALSE;
  if (row == NULL)
    return TRUE;
  if (!take (book, row, now, parcel, ret_refused, error))
    return FALSE;
  *ret_parcel = g_steal_pointer (&parcel);
  return TRUE;
}

gboolean
hs_post_take (HsBook *book, HsInstant now, HsPostParcel **ret_parcel, HsPostReply *ret_refused, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsPostParcel) parcel = NULL;
  g_autoptr (HsOutboxRow) row = NULL;

  /* Looking first keeps a book without anything to send from being written. */
  if (!find_next (book, now, &row, error))
    return FALSE;
  if (row == NULL)
    {
      *ret_parcel = NULL;
      return TRUE;
    }
  if (!hs_store_begin (store, now, error))
    return FALSE;
  if (!hs_store_end (store, find_and_take (book, now, &parcel, ret_refused, error), error))
    return FALSE;
  *ret_parcel = g_steal_pointer (&parcel);
  return TRUE;
}

char *
hs_post_preview (HsBook *book, const char *job_id, HsInstant now, GError **error)
{
  g_autoptr (HsOutboxRow) row = NULL;
  HsPostShow show;

  if (!load_show (book, &show, error) || !hs_outbox_row_find (hs_book_get_store (book), job_id, &row, error))
    return NULL;
  if (row != NULL && row->body != NULL)
    return g_strdup (row->body);
  return hs_post_body_make (book, job_id, row != NULL ? row->revision : MAX (now, 1), show, error);
}
