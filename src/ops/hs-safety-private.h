// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-store.h"

G_BEGIN_DECLS

/**
 * hs_safety_gate:
 *
 * For whatever is measured or found on the spot: refuses it on a high-voltage vehicle until the items of its safety
 * list are answered for the visit on which somebody is there.
 */
gboolean hs_safety_gate (HsStore *store, const char *job_id, GError **error);

G_END_DECLS
