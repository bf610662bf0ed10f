// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/**
 * The number pad on the screen, for a window without a keyboard. Signal `key` with the key's name as GDK spells the one
 * on a keypad without `KP_`: 0–9, period, Return, slash, asterisk, minus, plus.
 */
#define HS_TYPE_NUMBER_PAD (hs_number_pad_get_type ())
G_DECLARE_FINAL_TYPE (HsNumberPad, hs_number_pad, HS, NUMBER_PAD, GtkWidget)

GtkWidget *hs_number_pad_new (void);

G_END_DECLS
