// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

#include "hs-chain-face.h"

G_BEGIN_DECLS

/**
 * Why it failed, drawn: the effect on top, its causes under it on a wire, each proof threaded on it. Role tree; each
 * row is a focusable tree item whose name says everything about it.
 *
 * ↓ and ↑ go through the rows, → to the first cause, ← to the effect, Home and End to the ends of it. Signal `chosen`:
 * another row has been chosen.
 */
#define HS_TYPE_CHAIN_VIEW (hs_chain_view_get_type ())
G_DECLARE_FINAL_TYPE (HsChainView, hs_chain_view, HS, CHAIN_VIEW, GtkWidget)

GtkWidget *hs_chain_view_new (void);

/** hs_chain_view_set_faces: @faces: (element-type HsChainFace): shared, and never changed. What is chosen stays chosen,
 * and keeps the focus, as long as it is there; else its effect is. */
void hs_chain_view_set_faces (HsChainView *self, GPtrArray *faces);

/** hs_chain_view_get_chosen: (transfer none) (nullable): what the keys act on; %NULL for an empty chain. */
const HsChainFace *hs_chain_view_get_chosen (HsChainView *self);

/** hs_chain_view_choose: the first row of a finding. Returns: there is one */
gboolean hs_chain_view_choose (HsChainView *self, const char *finding_id);

/** hs_chain_view_focus: puts the keyboard on the chosen row. Returns: there is one */
gboolean hs_chain_view_focus (HsChainView *self);

guint hs_chain_view_get_n_rows (HsChainView *self);

/** hs_chain_view_get_row: (transfer none): the tree item of a row. */
GtkWidget *hs_chain_view_get_row (HsChainView *self, guint row);

G_END_DECLS
