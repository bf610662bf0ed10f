// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/**
 * HsKeyHint:
 * @key: what the keycap says, for example F3 or Enter
 * @label: the translated word beside it
 * @action: (nullable): what a click does, for example `win.call-slip` or `page.lock`
 */
typedef struct
{
  const char *key;
  const char *label;
  const char *action;
} HsKeyHint;

/** A row of keys and what they do here; as many as fit, the last ones drop first. */
#define HS_TYPE_KEY_ROW (hs_key_row_get_type ())
G_DECLARE_FINAL_TYPE (HsKeyRow, hs_key_row, HS, KEY_ROW, GtkWidget)

GtkWidget *hs_key_row_new (void);
void hs_key_row_set (HsKeyRow *self, const HsKeyHint *hints, guint n_hints);

/** hs_key_row_set_label: says @label on the button of @action; what has the focus keeps it. */
void hs_key_row_set_label (HsKeyRow *self, const char *action, const char *label);

/**
 * hs_key_row_get_n_shown:
 *
 * Returns: how many hints found room in the last layout
 */
guint hs_key_row_get_n_shown (HsKeyRow *self);

G_END_DECLS
