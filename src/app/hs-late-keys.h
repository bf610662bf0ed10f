// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/** HsLateKeys: keys that came while a widget waited for the book, and were meant for what comes next. */
typedef struct _HsLateKeys HsLateKeys;

/** hs_late_keys_new: (transfer none): @widget, whose keys are held back at times, owns it. */
HsLateKeys *hs_late_keys_new (GtkWidget *widget);

/** hs_late_keys_set_press: @press gets a key that waited and finds no text, such as a digit that picks. */
void hs_late_keys_set_press (HsLateKeys *self, void (*press) (GtkWidget *widget, guint keyval));

/** hs_late_keys_hold: from now on letters, digits, Enter and backspace that come to the widget wait. */
void hs_late_keys_hold (HsLateKeys *self);

/** hs_late_keys_release: the book has answered: what waits is pressed in what has the focus by now, key by key; where
 * one of them makes the next widget wait, the rest waits with it. */
void hs_late_keys_release (HsLateKeys *self);

/** hs_late_keys_drop: it is not held any more, and what waits was meant for something else. */
void hs_late_keys_drop (HsLateKeys *self);

G_END_DECLS
