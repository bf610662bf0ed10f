// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-window.h"

G_BEGIN_DECLS

/* Shared by hs-window.c and hs-window-actions.c only. */

void hs_window_install_actions (GtkWidgetClass *widget_class);

G_END_DECLS
