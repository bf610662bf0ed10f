// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * HsTroubleScope:
 * @HS_TROUBLE_PADDING: 0000: an answer was filled up, no code is stored
 * @HS_TROUBLE_GENERIC: ISO/SAE says what it means, for every maker
 * @HS_TROUBLE_MAKER: the vehicle's maker says what it means
 * @HS_TROUBLE_MAKER_OR_RESERVED: some are the maker's, some reserved: look it up
 * @HS_TROUBLE_RESERVED: nobody has given it a meaning
 *
 * Who says what a code means, told from its letters alone.
 */
typedef enum
{
  HS_TROUBLE_PADDING,
  HS_TROUBLE_GENERIC,
  HS_TROUBLE_MAKER,
  HS_TROUBLE_MAKER_OR_RESERVED,
  HS_TROUBLE_RESERVED,
} HsTroubleScope;

/* The length of a code as text. */
#define HS_TROUBLE_LENGTH 5

/**
 * hs_trouble_parse:
 * @text: `P0133`; letter case, blanks and dashes make no difference
 * @ret_value: (out): its two bytes; untouched on failure
 * @error: return location, %HS_CORE_ERROR_BAD_VALUE with what is wrong
 *
 * Bits 15–14 are the letter (00 P, 01 C, 10 B, 11 U), bits 13–12 the second character, the rest three hexadecimal
 * digits (SAE J2012, ISO 15031-6, as summarized in engineering texts).
 *
 * Returns: %TRUE if @text is a code
 */
gboolean hs_trouble_parse (const char *text, guint16 *ret_value, GError **error);

/* hs_trouble_format: (transfer full): the code of two bytes, `U0100`. */
char *hs_trouble_format (guint16 value);

/**
 * hs_trouble_parse_hex:
 * @text: `0133`, `01 33`, `0x0133`: two bytes as a scan tool prints them
 * @ret_value: (out): untouched on failure
 */
gboolean hs_trouble_parse_hex (const char *text, guint16 *ret_value, GError **error);

/* hs_trouble_scope: see #HsTroubleScope; two summaries of J2012 and ISO 15031-6 agree on the borders. */
HsTroubleScope hs_trouble_scope (guint16 value);

/* hs_trouble_scope_label: (transfer none): "generic", "maker" …; "no code" for padding. */
const char *hs_trouble_scope_label (HsTroubleScope scope);

/* hs_trouble_system_label: (transfer none): "powertrain", "chassis", "body" or "network". */
const char *hs_trouble_system_label (guint16 value);

/* hs_trouble_part_label: (transfer none) (nullable): what the third character of a powertrain code P0… stands for. */
const char *hs_trouble_part_label (guint16 value);

G_END_DECLS
