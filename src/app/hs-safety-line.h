// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <adwaita.h>

#include "hs-safety-op.h"

G_BEGIN_DECLS

/** One item of the safety list as a button: its digit, what is so once it is safe, the caution, and the answer. */
#define HS_TYPE_SAFETY_LINE_BUTTON (hs_safety_line_button_get_type ())
G_DECLARE_FINAL_TYPE (HsSafetyLineButton, hs_safety_line_button, HS, SAFETY_LINE_BUTTON, GtkButton)

/** hs_safety_line_button_new: @nth: counted from 0; its digit is one more. */
GtkWidget *hs_safety_line_button_new (guint nth);
guint hs_safety_line_button_get_nth (HsSafetyLineButton *self);
void hs_safety_line_button_show (HsSafetyLineButton *self, const HsSafetyLine *line);

/* hs_safety_line_button_set_caution_shown: what happens otherwise is shown, and not only spoken. */
void hs_safety_line_button_set_caution_shown (HsSafetyLineButton *self, gboolean shown);

/** hs_safety_line_button_set_source_shown: who says so, which is not shown at first. */
void hs_safety_line_button_set_source_shown (HsSafetyLineButton *self, gboolean shown);

G_END_DECLS
