// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* hs_device_dup_id: (transfer full): which machine this is, as the book may keep it: the same for as long as the system
 * is installed. The id of the system itself cannot be had from it (machine-id (5) asks for that). @host stands in where
 * the system has no id. */
char *hs_device_dup_id (const char *host);

G_END_DECLS
