// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What the queue hands to the wire and gets back. */

#include "hs-post-wire.h"

static const char *const auth_ids[] = { "none", "bearer", "basic" };

const char *
hs_post_auth_id (HsPostAuth auth)
{
  return auth_ids[auth];
}

gboolean
hs_post_auth_parse (const char *id, HsPostAuth *ret_auth)
{
  for (guint i = 0; i < G_N_ELEMENTS (auth_ids); i++)
    if (g_ascii_strcasecmp (id, auth_ids[i]) == 0)
      {
        *ret_auth = (HsPostAuth) i;
        return TRUE;
      }
  return FALSE;
}

guint
hs_post_seconds_for (guint seconds, gsize bytes)
{
  return seconds + (guint) MIN (bytes / HS_POST_LEAST_BYTES_A_SECOND, 3600);
}

void
hs_post_parcel_free (HsPostParcel *parcel)
{
  if (parcel == NULL)
    return;
  g_free (parcel->key);
  g_free (parcel->job_id);
  g_free (parcel->url);
  g_free (parcel->origin);
  g_free (parcel->body);
  g_free (parcel->user);
  g_free (parcel->secret_file);
  g_free (parcel->ca_file);
  g_free (parcel);
}

void
hs_post_reply_clear (HsPostReply *reply)
{
  g_free (reply->retry_after);
  g_free (reply->said);
  *reply = (HsPostReply) { 0 };
}
