// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib-object.h>

G_BEGIN_DECLS

/**
 * HsSnapshot:
 *
 * What the book said at one moment: a struct of the ops layer with an owner count. Nobody changes it once it is made,
 * so the worker thread may hand it to the window, and rows may keep it alive for as long as they are shown.
 */
typedef struct _HsSnapshot HsSnapshot;

#define HS_TYPE_SNAPSHOT (hs_snapshot_get_type ())
GType hs_snapshot_get_type (void) G_GNUC_CONST;

/**
 * hs_snapshot_new:
 * @data: (transfer full): what to hold
 * @free_data: frees @data with the last owner
 *
 * Returns: (transfer full): the snapshot
 */
HsSnapshot *hs_snapshot_new (gpointer data, GDestroyNotify free_data);
HsSnapshot *hs_snapshot_ref (HsSnapshot *snapshot);
void hs_snapshot_unref (HsSnapshot *snapshot);

/* hs_snapshot_get: (transfer none) (nullable): what it holds; %NULL for a %NULL snapshot. */
gpointer hs_snapshot_get (HsSnapshot *snapshot);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsSnapshot, hs_snapshot_unref)

G_END_DECLS
