// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-book.h"

G_BEGIN_DECLS

/**
 * hs_job_why_load:
 * @ret_sentence: (out) (transfer full) (nullable): %NULL if no cause is written down
 *
 * Why it failed, by the ends of a job's chain: "Why it failed: battery below half of its rating".
 */
gboolean hs_job_why_load (HsBook *book, const char *job_id, char **ret_sentence, GError **error);

/**
 * hs_job_why_links:
 * @ret_links: (out) (element-type utf8): "effect ← cause (proof)", in the order in which they were written down;
 *   what was ruled out is none of them
 */
gboolean hs_job_why_links (HsBook *book, const char *job_id, GPtrArray **ret_links, GError **error);

G_END_DECLS
