// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-store-private.h"

G_BEGIN_DECLS

/* What changed in the open transaction; the documents are written before the commit. %NULL ids are ignored. */
void hs_search_index_vehicle (HsStore *store, const char *vehicle_id);
void hs_search_index_seen (HsStore *store, const char *vehicle_id);
void hs_search_index_customer (HsStore *store, const char *customer_id);

/* hs_search_index_flush: writes the documents of everything noted since. */
gboolean hs_search_index_flush (HsStore *store, GError **error);

G_END_DECLS
