// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <adwaita.h>

G_BEGIN_DECLS

#define HS_TYPE_ASK_WINDOW hs_ask_window_get_type ()
G_DECLARE_FINAL_TYPE (HsAskWindow, hs_ask_window, HS, ASK_WINDOW, AdwWindow)

/**
 * hs_ask_window_present:
 * @question: the title
 * @body: what happens then
 * @act: what it says on the key that does it, with a verb
 *
 * Asks before an act that cannot be undone; everything else is done at once and can be undone. Signal `agreed`: 1 was
 * pressed. Enter never does it.
 *
 * Returns: (transfer none)
 */
HsAskWindow *hs_ask_window_present (GtkWindow *parent, const char *question, const char *body, const char *act);

G_END_DECLS
