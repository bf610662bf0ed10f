// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

#include "hs-chain-plan.h"

G_BEGIN_DECLS

/* hs_chain_draw_text: (transfer full): one of the texts of a row, not wrapped yet. */
PangoLayout *hs_chain_draw_text (GtkWidget *widget, const HsChainFace *face, HsChainText text);

/* hs_chain_draw: @chosen: the row that is chosen, or −1. */
void hs_chain_draw (GtkWidget *widget, cairo_t *cr, GPtrArray *faces, const HsChainPlan *plan, int chosen);

G_END_DECLS
