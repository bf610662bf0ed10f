// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-row.h"

G_BEGIN_DECLS

/**
 * HsSearchHit:
 * @vehicle_id: (nullable): %NULL: a customer without a vehicle
 * @customer_id: (nullable): the owner through whom it was found; %NULL: a vehicle without an owner
 * @until: last day of a past ownership; %HS_DATE_NONE: @customer_id owns it now
 */
typedef struct
{
  char *vehicle_id;
  char *customer_id;
  HsDate until;
} HsSearchHit;

void hs_search_hit_free (HsSearchHit *hit);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsSearchHit, hs_search_hit_free)

/**
 * hs_search:
 * @words: what was typed: any part of a plate, the beginning of a name, street, make, model, VIN or its last 4 to 8
 *   signs, the beginning or at least the last four digits of a phone; in any order, all must match
 * @limit: most hits wanted, 1 or more
 * @ret_hits: (out) (element-type HsSearchHit): newest first: by when the vehicle was last seen, not by how well it
 *   matches. A vehicle comes once; with its present owner, unless only a past one matches.
 *
 * Accents, letter case and punctuation make no difference: `555-0121` finds 5550121. Without words: what was seen
 * lately.
 */
gboolean hs_search (HsStore *store, const char *words, guint limit, GPtrArray **ret_hits, GError **error);

/* hs_search_seen: a vehicle was seen: it comes first from now on. Taking a job does this by itself. */
gboolean hs_search_seen (HsStore *store, const char *vehicle_id, GError **error);

/* hs_search_rebuild: writes the whole index anew, by last job. Needs a transaction. */
gboolean hs_search_rebuild (HsStore *store, GError **error);

G_END_DECLS
