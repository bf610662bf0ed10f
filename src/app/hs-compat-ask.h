// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/**
 * HsCompatAnswer:
 * @yes: whether the owner chose the act
 */
typedef void (*HsCompatAnswer) (gboolean yes, gpointer user_data);

/**
 * hs_compat_ask:
 * @heading: the question
 * @body: (nullable): what happens then
 * @act: the verb on the button that does it
 * @destructive: whether it cannot be undone; Return then does not do it
 * @answer: (scope async): called once
 *
 * For acts that cannot be undone; everything else is done at once and offers undo.
 */
void hs_compat_ask (GtkWindow *parent, const char *heading, const char *body, const char *act, gboolean destructive,
                    HsCompatAnswer answer, gpointer user_data);

G_END_DECLS
