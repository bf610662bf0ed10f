// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-find.h"

G_BEGIN_DECLS

/**
 * hs_call_find:
 * @job_id: (nullable): the job of the slip that asks, as soon as there is one
 *
 * hs_find() for a call slip: what is known by that slip alone is nobody whom the book knows.
 *
 * Returns: (transfer full) (element-type HsHit): newest first
 */
GPtrArray *hs_call_find (HsBook *book, const char *job_id, const char *words, guint limit, HsInstant now,
                         GError **error);

G_END_DECLS
