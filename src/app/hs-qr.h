// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/**
 * A text as a QR code (ISO/IEC 18004): black on white, whatever the sheet, with the quiet zone of four modules that
 * cameras need. Modules are whole pixels, so that their edges stay sharp.
 */
#define HS_TYPE_QR (hs_qr_get_type ())
G_DECLARE_FINAL_TYPE (HsQr, hs_qr, HS, QR, GtkWidget)

GtkWidget *hs_qr_new (void);

/**
 * hs_qr_set_text:
 * @text: (nullable): UTF-8; %NULL or empty shows nothing
 *
 * Returns: whether it can be shown: a code holds less than 3,000 letters
 */
gboolean hs_qr_set_text (HsQr *self, const char *text);

G_END_DECLS
