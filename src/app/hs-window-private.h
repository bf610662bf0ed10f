// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-window.h"

G_BEGIN_DECLS

/* hs_window_open_menu: drops the main menu down. */
void hs_window_open_menu (HsWindow *self);

/* Shared by hs-window.c and hs-window-actions.c only. */

void hs_window_install_actions (GtkWidgetClass *widget_class);

/* hs_window_give_back: @had_focus: (nullable): takes the focus of @beneath back, if it is lost. */
void hs_window_give_back (GtkWindow *beneath, GtkWidget *had_focus);

/* The arrows from the bars of the window onto the lines of the page, and digits to what they look for there. */
void hs_window_watch_keys (HsWindow *self);

G_END_DECLS
