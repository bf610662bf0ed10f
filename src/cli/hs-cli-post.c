// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The network and the keyring, as the commands use them. */

#include "hs-cli-post.h"

#include "hs-post-secret.h"
#include "hs-post-sender.h"

gboolean
hs_cli_post_is_built_in (void)
{
  return TRUE;
}

void
hs_cli_post_send (guint seconds, const HsPostParcel *parcel, GCancellable *over, HsPostReply *ret_reply)
{
  g_autoptr (HsPostSender) sender = hs_post_sender_new (seconds);

  hs_post_sender_send (sender, parcel, over, ret_reply);
}

gboolean
hs_cli_post_store_secret (const char *origin, const char *secret, GError **error)
{
  return secret == NULL ? hs_post_secret_forget (origin, error) : hs_post_secret_store (origin, secret, error);
}
