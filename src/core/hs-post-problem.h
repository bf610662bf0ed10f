// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* More of an answer is not read. */
#define HS_POST_PROBLEM_BYTES 65536

/* More of what it says is not kept. */
#define HS_POST_PROBLEM_LETTERS 300

/**
 * hs_post_problem_read:
 * @text: (array length=length): body of an answer whose type is `application/problem+json`
 *
 * What an endpoint says is wrong, by RFC 9457: its `title` and `detail`, in one line, without signs that a screen would
 * act on, cut to %HS_POST_PROBLEM_LETTERS. A member that is no text counts as not there (RFC 9457, 3.1).
 *
 * Returns: (transfer full) (nullable): "Title: detail"; %NULL if neither is there, if @text is no JSON object
 *   (RFC 8259), is longer than %HS_POST_PROBLEM_BYTES or deeper than 32
 */
char *hs_post_problem_read (const char *text, gsize length);

/* hs_post_problem_read_but: also %NULL if one of the words of @never (nullable, ends with %NULL) is in it: an endpoint
 * that gives the secret back does not bring it onto the screen or into the book. */
char *hs_post_problem_read_but (const char *text, gsize length, const char *const *never);

G_END_DECLS
