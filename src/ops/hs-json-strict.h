// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Looks whether a text is JSON as RFC 8259 has it, before a parser that takes more than that sees it: comments, numbers
 * in base 8, two texts after one another, a key that stands twice would otherwise be read as something. */

/* Deeper than any file of ours goes, and far below what a parser's stack holds. */
#define HS_JSON_STRICT_DEPTH 32

/**
 * hs_json_strict_check:
 * @what: what the text is, in words: "the day"
 * @text: (array length=length): may start with a byte order mark
 * @error: names the field by its path, the line, and what is wrong there: "calls[2]: line 7: a comma or ] is missing"
 *
 * Besides the grammar it refuses what is not UTF-8, zero characters and halves of surrogate pairs in texts, whole
 * numbers of more than 18 digits, keys that stand twice in one object, and more than %HS_JSON_STRICT_DEPTH levels.
 * Fails with %HS_OPS_ERROR_REFUSED.
 */
gboolean hs_json_strict_check (const char *what, const char *text, gsize length, GError **error);

G_END_DECLS
