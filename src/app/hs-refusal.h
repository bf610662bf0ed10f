// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/**
 * hs_refusal_say:
 * @label: where @text stands, and nothing while there is none
 * @text: (nullable): a whole sentence; %NULL: nothing is refused any more
 */
void hs_refusal_say (GtkLabel *label, const char *text);

/**
 * hs_refusal_expect:
 * @window: lies over the window of the program, and asks the book for something
 * @typed: (nullable): what was typed for it, as the owner knows it: "220.00"
 *
 * To be called before each question to the book, while the window is open.
 */
void hs_refusal_expect (GtkWindow *window, const char *typed);

/**
 * hs_refusal_late:
 * @window: may have been shut since hs_refusal_expect ()
 * @text: (nullable): why the book refused; %NULL: it did not
 *
 * An answer for a window that is gone. A refusal is told in the window beneath, with what was typed, and stays there
 * until it was read.
 *
 * Returns: whether @window is gone: it has nothing left to show, and its widgets must not be asked
 */
gboolean hs_refusal_late (GtkWindow *window, const char *text);

G_END_DECLS
