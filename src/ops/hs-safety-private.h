// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-job-row.h"
#include "hs-store.h"

G_BEGIN_DECLS

/**
 * hs_safety_gate:
 *
 * For whatever is measured or found on the spot: refuses it on a high-voltage vehicle until the items of its safety
 * list are answered for the visit on which somebody is there.
 */
gboolean hs_safety_gate (HsStore *store, const char *job_id, GError **error);

/**
 * hs_safety_dup_open:
 * @ret_names: (nullable): “Traffic”, “Hot coolant, fan”: what is not answered of a list that was begun on the visit
 *   that is under way; %NULL if nothing is, or nobody looked at the list
 */
gboolean hs_safety_dup_open (HsStore *store, const HsJobRow *job, char **ret_names, GError **error);

G_END_DECLS
