// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-post-error.h"

#include <gio/gio.h>

G_BEGIN_DECLS

/*
 * The secret of the endpoint: in the keyring of the session, by the origin that it is for, so that no change of the
 * address hands it to anybody else; or in a file, if the owner says so. It is in no book, log, argument or environment.
 */

#define HS_POST_SECRET_BYTES 4096

/**
 * hs_post_secret_load:
 * @origin: `https://example.org:443`
 * @file: (nullable): where it lies instead of in the keyring
 * @seconds: how long a keyring may ask to be unlocked
 * @error: %HS_POST_ERROR_NO_SECRET
 *
 * Returns: (transfer full): the secret; free with hs_post_secret_free()
 */
char *hs_post_secret_load (const char *origin, const char *file, guint seconds, GCancellable *cancellable,
                           GError **error);

/* hs_post_secret_store: puts it into the keyring, over the one that is there. */
gboolean hs_post_secret_store (const char *origin, const char *secret, GError **error);

/* hs_post_secret_forget: takes it out of the keyring; it is no error if there is none. */
gboolean hs_post_secret_forget (const char *origin, GError **error);

/**
 * hs_post_secret_read_file:
 * @path: a plain file, no link, that belongs to the user and that nobody else may look at (mode 0600 or less), with one
 *   line of 1 to %HS_POST_SECRET_BYTES bytes
 */
char *hs_post_secret_read_file (const char *path, GError **error);

/* hs_post_secret_check: one line of UTF-8 without control characters, not empty. */
gboolean hs_post_secret_check (const char *secret, GError **error);

/* hs_post_secret_free: wipes it. */
void hs_post_secret_free (char *secret);

G_END_DECLS
