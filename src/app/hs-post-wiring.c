// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The network as the window uses it. Only this file of the app knows it; it belongs to the program, not to the library
 * of its pages, and to none that is built without posting. */

#include "hs-post-wiring.h"

#include "hs-post-secret.h"
#include "hs-post-sender.h"

static void
send_parcel (const HsPostParcel *parcel, GCancellable *cancellable, HsPostReply *ret_reply)
{
  g_autoptr (HsPostSender) sender = hs_post_sender_new (0);

  hs_post_sender_send (sender, parcel, cancellable, ret_reply);
}

static gboolean
store_secret (const char *origin, const char *secret, GError **error)
{
  return secret == NULL ? hs_post_secret_forget (origin, error) : hs_post_secret_store (origin, secret, error);
}

void
hs_post_wiring_install (void)
{
  static const HsPostNet net = { send_parcel, store_secret };

  hs_post_net_install (&net);
}
