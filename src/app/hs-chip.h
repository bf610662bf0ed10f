// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define HS_TYPE_CHIP (hs_chip_get_type ())
G_DECLARE_DERIVABLE_TYPE (HsChip, hs_chip, HS, CHIP, GtkWidget)

struct _HsChipClass
{
  GtkWidgetClass parent_class;
};

/**
 * hs_chip_set_text:
 * @text: (nullable): the word or number on the chip; %NULL or empty hides the chip
 */
void hs_chip_set_text (HsChip *self, const char *text);
const char *hs_chip_get_text (HsChip *self);

/**
 * hs_chip_set_spoken:
 * @spoken: (nullable): what a screen reader says instead of the text, for example “battery plate TDM 5508”
 */
void hs_chip_set_spoken (HsChip *self, const char *spoken);

/** A key, printed where it acts: F4, Enter, 0–9. */
#define HS_TYPE_KEYCAP (hs_keycap_get_type ())
G_DECLARE_FINAL_TYPE (HsKeycap, hs_keycap, HS, KEYCAP, HsChip)
GtkWidget *hs_keycap_new (const char *key);

/** A number plate. CSS classes hs-small and hs-large change its size. */
#define HS_TYPE_PLATE_CHIP (hs_plate_chip_get_type ())
G_DECLARE_FINAL_TYPE (HsPlateChip, hs_plate_chip, HS, PLATE_CHIP, HsChip)
GtkWidget *hs_plate_chip_new (const char *plate);

/** A window of time between brackets: the limits of a promise. CSS class hs-small for lists. */
#define HS_TYPE_BRACKET (hs_bracket_get_type ())
G_DECLARE_FINAL_TYPE (HsBracket, hs_bracket, HS, BRACKET, HsChip)
GtkWidget *hs_bracket_new (const char *window);

G_END_DECLS
