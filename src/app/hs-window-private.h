// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-window.h"

G_BEGIN_DECLS

/* hs_window_open_menu: drops the main menu down. */
void hs_window_open_menu (HsWindow *self);

/* Shared by hs-window.c and hs-window-actions.c only. */

void hs_window_install_actions (GtkWidgetClass *widget_class);

/* The arrows from the bars of the window onto the lines of the page. */
void hs_window_watch_arrows (HsWindow *self);

G_END_DECLS
