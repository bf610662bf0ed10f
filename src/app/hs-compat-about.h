// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/** hs_compat_about_present: shows who made the app and under which license. */
void hs_compat_about_present (GtkWindow *parent);

G_END_DECLS
