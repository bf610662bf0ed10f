// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * HsAfterList:
 *
 * What a repair disturbs, and what is looked after again because of it. Made from the text of
 * data/reference/disturbed.ini. Never changes once made, so it can be read from any thread.
 */
typedef struct _HsAfterList HsAfterList;

/**
 * HsAfterLook:
 * @words: as it stands in the book: "Relay or fuse pressed fully home, lid of its box shut"
 * @check: (nullable): id of the check that shows it
 * @coding: only on a vehicle that wants its battery coded
 * @again_miles: after so many miles it is looked after once more; 0: never
 *
 * One line that is gone through before leaving.
 */
typedef struct
{
  const char *words;
  const char *check;
  gboolean coding;
  gint64 again_miles;
} HsAfterLook;

/**
 * HsAfterPlace:
 * @id: its name: `relay`
 * @name: what was disturbed, as it is picked
 * @caution: (nullable): said while it is gone through
 * @source: who says so
 * @sure: how sure that is
 * @looks: (array length=n_looks): what is looked after again
 *
 * Fields are (transfer none) and belong to the list.
 */
typedef struct
{
  const char *id;
  const char *name;
  const char *caution;
  const char *source;
  const char *sure;
  const HsAfterLook *looks;
  guint n_looks;
} HsAfterPlace;

/**
 * hs_after_list_new_from_data:
 * @data: UTF-8 text of data/reference/disturbed.ini
 * @length: bytes, or −1 if zero-terminated
 * @error: return location, %HS_CORE_ERROR_BAD_VALUE naming the section, the key and what is wrong
 *
 * Returns: (transfer full): free with hs_after_list_unref()
 */
HsAfterList *hs_after_list_new_from_data (const char *data, gssize length, GError **error);
HsAfterList *hs_after_list_ref (HsAfterList *list);
void hs_after_list_unref (HsAfterList *list);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsAfterList, hs_after_list_unref)

/* hs_after_list_get_nth: (transfer none) (nullable): in their order; %NULL behind the last. */
const HsAfterPlace *hs_after_list_get_nth (const HsAfterList *list, guint nth);

/**
 * hs_after_list_find:
 * @text: an id, a name, or its number as it is shown, from 1; case and punctuation make no difference
 *
 * Returns: (transfer none) (nullable)
 */
const HsAfterPlace *hs_after_list_find (const HsAfterList *list, const char *text);

/**
 * hs_after_list_suggest:
 * @part: name of an installed part
 *
 * Returns: (transfer container) (element-type HsAfterPlace): what putting it in disturbed, by the words of its name
 */
GPtrArray *hs_after_list_suggest (const HsAfterList *list, const char *part);

/* hs_after_list_find_look: (transfer none) (nullable): the line that stands in a book as @words, and in @ret_place
 * (optional) (out) the place that it belongs to; %NULL for words of the owner's own. */
const HsAfterLook *hs_after_list_find_look (const HsAfterList *list, const char *words,
                                            const HsAfterPlace **ret_place);

G_END_DECLS
