// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/**
 * A dashed box in which a finger, a pen or the pointer writes a name. Backspace or Delete clears it while it has the
 * focus. Signal: `changed`, when a stroke was drawn or all were cleared. Somebody who cannot draw is written down as
 * having said yes in another way, beside the box.
 */
#define HS_TYPE_SIGNATURE_PAD (hs_signature_pad_get_type ())
G_DECLARE_FINAL_TYPE (HsSignaturePad, hs_signature_pad, HS, SIGNATURE_PAD, GtkWidget)

GtkWidget *hs_signature_pad_new (void);

/** hs_signature_pad_set_hint: what stands in it, such as “Sign here: Teo Calloway”; also its name. */
void hs_signature_pad_set_hint (HsSignaturePad *self, const char *hint);

/** hs_signature_pad_draw: as a hand does: @begins puts the pen down at @x, @y, else it draws on to there. */
void hs_signature_pad_draw (HsSignaturePad *self, gboolean begins, double x, double y);
void hs_signature_pad_clear (HsSignaturePad *self);
gboolean hs_signature_pad_is_blank (HsSignaturePad *self);

/** hs_signature_pad_dup_bytes: (transfer full) (nullable): as hs_signature_to_bytes() writes it; %NULL while blank. */
GBytes *hs_signature_pad_dup_bytes (HsSignaturePad *self);

/** hs_signature_pad_show: shows one that was given before, which is not drawn on; %NULL: for a new one. */
void hs_signature_pad_show (HsSignaturePad *self, GBytes *bytes);

G_END_DECLS
