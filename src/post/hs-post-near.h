// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gio/gio.h>

G_BEGIN_DECLS

/**
 * HsPostNear:
 *
 * Where a host leads to, as far as it is near: this machine or a private network. Numbers outside are left out, so that
 * no connection to them is ever begun; if nothing is left, that is the error.
 */
#define HS_TYPE_POST_NEAR (hs_post_near_get_type ())
G_DECLARE_FINAL_TYPE (HsPostNear, hs_post_near, HS, POST_NEAR, GObject)

GSocketConnectable *hs_post_near_new (const char *host, guint16 port);

G_END_DECLS
