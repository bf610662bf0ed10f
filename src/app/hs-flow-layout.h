// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/** Children in lines, one after the other, each as wide as it would like to be; see the head of hs-flow-layout.c.
 * Property: start (construct only). */
#define HS_TYPE_FLOW_LAYOUT (hs_flow_layout_get_type ())
G_DECLARE_FINAL_TYPE (HsFlowLayout, hs_flow_layout, HS, FLOW_LAYOUT, GtkLayoutManager)

G_END_DECLS
