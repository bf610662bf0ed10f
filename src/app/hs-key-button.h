// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/**
 * A button that prints its key: a keycap and a word. Properties: key, text, show-key, and the action-name of every
 * GtkButton. CSS class hs-fill for the one inviting button of a view, hs-hint for the bottom bar.
 */
#define HS_TYPE_KEY_BUTTON (hs_key_button_get_type ())
G_DECLARE_FINAL_TYPE (HsKeyButton, hs_key_button, HS, KEY_BUTTON, GtkButton)

/**
 * hs_key_button_new:
 * @key: (nullable): what the keycap says, for example F4
 * @text: the word, for example “Rolling”; it is the accessible name
 * @action: (nullable): a detailed action name, for example `page.next-stage`
 */
GtkWidget *hs_key_button_new (const char *key, const char *text, const char *action);

void hs_key_button_set_key (HsKeyButton *self, const char *key);
void hs_key_button_set_text (HsKeyButton *self, const char *text);

/**
 * hs_key_button_set_show_key:
 *
 * Hides the keycap where there is no keyboard to speak of (a narrow window); the key itself still acts.
 */
void hs_key_button_set_show_key (HsKeyButton *self, gboolean show);

/* hs_key_button_set_bare: only the key stands on it; its name for those who do not see it stays. */
void hs_key_button_set_bare (HsKeyButton *self, gboolean bare);

/** hs_key_button_set_wraps: where a long text has to do with a narrow place, it goes on in a second line. */
void hs_key_button_set_wraps (HsKeyButton *self, gboolean wraps);

/* hs_key_button_keep_words: it is at least as wide as its longest word. For words of the program's own, which are
 * short; newer libraries take a word that may break for no wider than a letter. Once, before it is shown. */
void hs_key_button_keep_words (HsKeyButton *self);

/** hs_key_button_set_row: one of a column of answers: it has the whole width, and long words go on in a second line. */
void hs_key_button_set_row (HsKeyButton *self);

/** hs_key_button_set_wraps_at: the same, but lines of up to @chars letters where there is room. */
void hs_key_button_set_wraps_at (HsKeyButton *self, int chars);

G_END_DECLS
