// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-book.h"

G_BEGIN_DECLS

/**
 * HsSetting:
 * @key: `base_area`, `zone`, `leave_from`, `leave_to`, `home_by`, `spare_minutes`, `minute_cents`, `mile_cents`,
 *   `break_minutes`, `break_from`, `break_to`, `currency`, `vans`, `tax_percent`, `call_out_cents`,
 *   `call_out_minutes`, `quarter_hour_cents`, `markup_bands`, …; `post_…`: how jobs are posted, a change of which lets
 *   the queue go on; `clock_starts`: the local time at which this book's
 *   own clock starts whenever it is opened (a demo's); empty: the machine's clock. `B.home_by` is home_by of van B
 *   alone, and so for all hours of the day and the break. `home_by` is a wish: a plan comes home later where a promise
 *   can't be kept otherwise, and then says by how much
 * @help: one line that says what it is and how it is written
 * @value: what the book holds, or the default
 * @is_default: the owner has not set it
 * @warning: (nullable): what is still missing before the value is of use
 */
typedef struct
{
  char *key;
  char *help;
  char *value;
  gboolean is_default;
  char *warning;
} HsSetting;

void hs_setting_free (HsSetting *setting);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsSetting, hs_setting_free)

/**
 * hs_settings_list:
 *
 * Returns: (transfer full) (element-type HsSetting): every key in the order of the help, then for each van after the
 * first the keys that it may have of its own, empty where it is like the others
 */
GPtrArray *hs_settings_list (HsBook *book, GError **error);

/** hs_settings_dup: the value of @key, or its default. An unknown key is refused with the known ones named. */
char *hs_settings_dup (HsBook *book, const char *key, GError **error);

/** hs_settings_dup_of_van: what holds for the van with that letter: its own value, else that for all. @letter may be
 * %NULL for that for all. */
char *hs_settings_dup_of_van (HsBook *book, const char *letter, const char *key, GError **error);
gboolean hs_settings_get_int (HsBook *book, const char *key, gint64 *ret_value, GError **error);

/** hs_settings_get_scaled: a decimal as value × 10^@decimals. Percents have up to 4 decimals: 2.7 is 27000 of 4. */
gboolean hs_settings_get_scaled (HsBook *book, const char *key, guint decimals, gint64 *ret_value, GError **error);

/** hs_settings_get_clock: HH:MM as minutes of a day. */
gboolean hs_settings_get_clock (HsBook *book, const char *key, int *ret_minutes, GError **error);

/** hs_settings_set: checks @value by the key's own rule, then saves it. An empty value for one van takes its own away.
 */
gboolean hs_settings_set (HsBook *book, const char *key, const char *value, HsInstant now, GError **error);

G_END_DECLS
