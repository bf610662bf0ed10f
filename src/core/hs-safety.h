// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* What one call asks at most: a digit each. */
#define HS_SAFETY_MOST_ITEMS 9

/**
 * HsSafety:
 *
 * What is made safe on arriving, by vehicle and complaint. Made from the text of data/safety/lists.ini. Never changes
 * once made, so it can be read from any thread.
 */
typedef struct _HsSafety HsSafety;

/**
 * HsSafetyItem:
 * @id: its name: `traffic`
 * @words: what is so once it is safe
 * @brief: a word or two for a narrow row
 * @caution: (nullable): what happens otherwise
 * @source: who says so
 * @sure: how sure that is: `official text`, `secondary text`, `derived`, `common practice`
 * @high_voltage: asked of high-voltage vehicles alone, each by itself
 *
 * Fields are (transfer none) and belong to the list.
 */
typedef struct
{
  const char *id;
  const char *words;
  const char *brief;
  const char *caution;
  const char *source;
  const char *sure;
  gboolean high_voltage;
} HsSafetyItem;

/**
 * hs_safety_new_from_data:
 * @data: UTF-8 text of data/safety/lists.ini
 * @length: bytes, or −1 if zero-terminated
 * @error: return location, %HS_CORE_ERROR_BAD_VALUE naming the section, the key and what is wrong
 *
 * Returns: (transfer full): free with hs_safety_unref()
 */
HsSafety *hs_safety_new_from_data (const char *data, gssize length, GError **error);
HsSafety *hs_safety_ref (HsSafety *safety);
void hs_safety_unref (HsSafety *safety);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsSafety, hs_safety_unref)

/* hs_safety_find: (transfer none) (nullable): the item of that id. */
const HsSafetyItem *hs_safety_find (const HsSafety *safety, const char *id);

/* hs_safety_get_nth: (transfer none) (nullable): in the order of asking; %NULL behind the last. */
const HsSafetyItem *hs_safety_get_nth (const HsSafety *safety, guint nth);

/**
 * hs_safety_list:
 * @group: (nullable): complaint group; %NULL: it is not told yet
 * @high_voltage: of the vehicle
 *
 * Returns: (transfer container) (element-type HsSafetyItem): the list of one call, in the order of asking
 */
GPtrArray *hs_safety_list (const HsSafety *safety, const char *group, gboolean high_voltage);

G_END_DECLS
