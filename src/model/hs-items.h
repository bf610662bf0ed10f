// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gio/gio.h>

#include "hs-snapshot.h"

G_BEGIN_DECLS

/**
 * HsItem:
 *
 * One row of a snapshot as an object, so that list views can hold it. Its data stays as it was even after the list
 * has moved on.
 */
#define HS_TYPE_ITEM (hs_item_get_type ())
G_DECLARE_FINAL_TYPE (HsItem, hs_item, HS, ITEM, GObject)

/* hs_item_get: (transfer none): the struct of the ops layer; lives as long as the row. */
gconstpointer hs_item_get (HsItem *row);

/* hs_item_get_key: (transfer none): what names this row among its list: an id. */
const char *hs_item_get_key (HsItem *row);

/**
 * HsItemsKeyFunc:
 * @data: an element of the array
 *
 * Returns: (transfer none) (nullable): what names it: two rows with the same key are the same row, older and newer
 */
typedef const char *(*HsItemsKeyFunc) (gconstpointer data);

/**
 * HsItemsSameFunc:
 *
 * Returns: %TRUE if both would look the same, so that nothing needs to be drawn again
 */
typedef gboolean (*HsItemsSameFunc) (gconstpointer a, gconstpointer b);

/**
 * HsItems:
 *
 * A #GListModel over an array inside a snapshot. Row objects are made only for the places that a view asks for.
 */
#define HS_TYPE_ITEMS (hs_items_get_type ())
G_DECLARE_FINAL_TYPE (HsItems, hs_items, HS, ITEMS, GObject)

/**
 * hs_items_new:
 * @key: names a row
 * @same: (nullable): compares two rows of one key; %NULL: a newer row always counts as changed
 *
 * Returns: (transfer full): an empty list
 */
HsItems *hs_items_new (HsItemsKeyFunc key, HsItemsSameFunc same);

/**
 * hs_items_set:
 * @snapshot: (nullable): what owns the elements of @elements
 * @elements: (nullable): plain structs; the array itself is not kept
 *
 * Shows other rows. Rows at the start and at the end that are the same as before stay, the ones between them are
 * replaced in one step, so that a view keeps its place.
 */
void hs_items_set (HsItems *rows, HsSnapshot *snapshot, GPtrArray *elements);

/* hs_items_find: place of the row called @key, or %GTK_INVALID_LIST_POSITION's value, %G_MAXUINT. */
guint hs_items_find (HsItems *rows, const char *key);

/* hs_items_get_data: (transfer none) (nullable): the struct at @position, without making a row object. */
gconstpointer hs_items_get_data (HsItems *rows, guint position);

G_END_DECLS
