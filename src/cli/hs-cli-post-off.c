// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A build that does not post. The commands ask first; nothing below is reached by them. */

#include "hs-cli-post.h"

gboolean
hs_cli_post_is_built_in (void)
{
  return FALSE;
}

void
hs_cli_post_send (guint seconds, const HsPostParcel *parcel, GCancellable *over, HsPostReply *ret_reply)
{
  ret_reply->end = HS_POST_UNREACHABLE;
}

gboolean
hs_cli_post_store_secret (const char *origin, const char *secret, GError **error)
{
  g_set_error_literal (error, G_FILE_ERROR, G_FILE_ERROR_NOSYS, "-");
  return FALSE;
}
