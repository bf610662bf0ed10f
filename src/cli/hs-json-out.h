// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * HsJsonOut:
 *
 * Writes one JSON text (RFC 8259), in order, as it is told: numbers stand as exact decimals ("33.3"), never as the
 * nearest binary fraction printed in full. A member's name is %NULL inside an array and at the top.
 */
typedef struct _HsJsonOut HsJsonOut;

HsJsonOut *hs_json_out_new (void);
void hs_json_out_free (HsJsonOut *out);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsJsonOut, hs_json_out_free)

void hs_json_out_begin_object (HsJsonOut *out, const char *name);
void hs_json_out_end_object (HsJsonOut *out);
void hs_json_out_begin_array (HsJsonOut *out, const char *name);
void hs_json_out_end_array (HsJsonOut *out);

/** hs_json_out_string: @value %NULL writes null. */
void hs_json_out_string (HsJsonOut *out, const char *name, const char *value);
void hs_json_out_boolean (HsJsonOut *out, const char *name, gboolean value);
void hs_json_out_integer (HsJsonOut *out, const char *name, gint64 value);
void hs_json_out_null (HsJsonOut *out, const char *name);

/** hs_json_out_decimal: @scaled × 10^−@decimals without zeros at the end: 33300, 3 → 33.3. */
void hs_json_out_decimal (HsJsonOut *out, const char *name, gint64 scaled, guint decimals);

/** hs_json_out_real: the shortest text that reads back as @value; null if it is not finite. */
void hs_json_out_real (HsJsonOut *out, const char *name, double value);

/** hs_json_out_to_string: (transfer full): the whole text, with a newline at its end. */
char *hs_json_out_to_string (HsJsonOut *out);

/** hs_json_out_harmless: (transfer full): @json, in UTF-8, with what would do harm on a terminal escaped: such signs
 * stand in texts alone. */
char *hs_json_out_harmless (const char *json);

G_END_DECLS
