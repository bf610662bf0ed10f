// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * hs_text_fold:
 * @text: (nullable): valid UTF-8
 *
 * What a search compares: lower case, without accents (compatibility decomposition, marks dropped) and punctuation.
 * Letters and digits of any script stay, digits as 0…9; an apostrophe joins a word (O'Hara → ohara), anything else
 * that is not a letter or digit parts words. Bytes that are not UTF-8 part words too.
 *
 * Returns: (transfer full): words with one space between them, empty if there are none
 */
char *hs_text_fold (const char *text);

/**
 * hs_text_words:
 *
 * Returns: (transfer full) (array zero-terminated=1): the words of hs_text_fold(), in order
 */
char **hs_text_words (const char *text);

/**
 * hs_text_digits:
 *
 * Returns: (transfer full): the decimal digits of @text in order as 0…9, whatever script they were in
 */
char *hs_text_digits (const char *text);

/**
 * hs_text_tails:
 * @word: one folded word, or digits
 * @least: shortest tail, in characters, 1 or more
 *
 * What finds a phone by its last four digits: every ending of @word, longest first, the whole word included.
 *
 * Returns: (transfer full) (array zero-terminated=1): empty if @word has fewer characters than @least
 */
char **hs_text_tails (const char *word, guint least);

/**
 * hs_text_last:
 * @text: valid UTF-8
 * @most: how many characters
 *
 * Returns: (transfer none): where the last @most characters of @text start
 */
const char *hs_text_last (const char *text, guint most);

/* hs_text_is_blank: %TRUE for %NULL, an empty text or one with nothing but space. */
gboolean hs_text_is_blank (const char *text);

G_END_DECLS
