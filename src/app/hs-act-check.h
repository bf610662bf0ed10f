// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/** A check button that can be ticked without a key or a pointer, too: through AT-SPI. */
#define HS_TYPE_ACT_CHECK (hs_act_check_get_type ())
G_DECLARE_FINAL_TYPE (HsActCheck, hs_act_check, HS, ACT_CHECK, GtkCheckButton)

GtkWidget *hs_act_check_new (void);

G_END_DECLS
