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

/** HsRefusal: one question of a window to the book, with what was typed for it. */
typedef struct _HsRefusal HsRefusal;

/**
 * hs_refusal_expect:
 * @window: lies over the window of the program, and asks the book for something
 * @typed: (nullable): what was typed for it, as the owner knows it: "220.00"
 *
 * To be called for each question to the book, while the window is open; it goes along with the question.
 *
 * Returns: (transfer full): holds @window until the book has answered
 */
HsRefusal *hs_refusal_expect (GtkWindow *window, const char *typed);

/** hs_refusal_get_window: (transfer none): who asked. */
gpointer hs_refusal_get_window (HsRefusal *self);

void hs_refusal_free (HsRefusal *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsRefusal, hs_refusal_free)

/**
 * hs_refusal_late:
 * @self: its window may have been shut since
 * @text: (nullable): why the book refused; %NULL: it did not
 *
 * An answer for a window that is gone. A refusal is told in the window beneath, with what was typed, and stays there
 * until it was read.
 *
 * Returns: whether the window is gone: it has nothing left to show, and its widgets must not be asked
 */
gboolean hs_refusal_late (HsRefusal *self, const char *text);

G_END_DECLS
