// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-ledger.h"

G_BEGIN_DECLS

/**
 * HsQuery:
 *
 * One question that a page keeps asking the book. It asks again when its arguments change and when the book does, and
 * drops answers that come after a newer question. The last good answer stays when a later one fails.
 */
#define HS_TYPE_QUERY (hs_query_get_type ())
G_DECLARE_FINAL_TYPE (HsQuery, hs_query, HS, QUERY, GObject)

/**
 * hs_query_new:
 * @func: what to ask; see hs-ask.h
 * @free_answer: frees its answer
 *
 * Returns: (transfer full): a query that has not asked yet and is awake
 */
HsQuery *hs_query_new (HsLedger *ledger, HsLedgerFunc func, GDestroyNotify free_answer);

/**
 * hs_query_ask:
 * @args: (nullable): arguments of the question from now on; a floating one is taken over
 *
 * Asks at once, also while asleep.
 */
void hs_query_ask (HsQuery *query, GVariant *args);

/**
 * hs_query_forget:
 *
 * Drops the answer and any that is on its way, and does not ask again before hs_query_ask().
 */
void hs_query_forget (HsQuery *query);

/**
 * hs_query_set_awake:
 * @awake: the page is on the screen
 *
 * Asleep, it does not follow the book; waking up it asks again if the book has changed meanwhile.
 */
void hs_query_set_awake (HsQuery *query, gboolean awake);

/* hs_query_get: (transfer none) (nullable): the last good answer; valid until the next #HsQuery::answered. */
gpointer hs_query_get (HsQuery *query);

/* hs_query_get_snapshot: (transfer none) (nullable): the same, with an owner count. */
HsSnapshot *hs_query_get_snapshot (HsQuery *query);

/* hs_query_get_trouble: (transfer none) (nullable): why the last question failed. */
const char *hs_query_get_trouble (HsQuery *query);
gboolean hs_query_is_asking (HsQuery *query);

G_END_DECLS
