// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <adwaita.h>

G_BEGIN_DECLS

/**
 * One field: its name, how it is typed, the entry, and under it what came of it. Where what was typed is refused, the
 * refusal stands there, and a line for the reason appears if a reason helps.
 *
 * Signals: `typed` (text): a letter more or less, and an empty text once it is stored; `store` (text, why): left or
 * entered with something new in it, why is %NULL or the reason; `onward`: entered with nothing new, or what was
 * entered is stored. Keys that come between Enter and the book's answer are pressed in the field that `onward` leads
 * to.
 */
#define HS_TYPE_FIELD_ROW (hs_field_row_get_type ())
G_DECLARE_FINAL_TYPE (HsFieldRow, hs_field_row, HS, FIELD_ROW, AdwBin)

/** hs_field_row_new: @id: for the owner of the row; @title: its name, also spoken. */
GtkWidget *hs_field_row_new (const char *id, const char *title);
const char *hs_field_row_get_id (HsFieldRow *self);

/** hs_field_row_set_choices: @answers: (nullable): the words that the digits from 1 on stand for; each is printed with
 * its key. */
void hs_field_row_set_choices (HsFieldRow *self, const char *const *answers);

/** hs_field_row_set_pad: digits are what is typed here. */
void hs_field_row_set_pad (HsFieldRow *self);

/** hs_field_row_set_stored: @text: (nullable): what the book has; it shows unless something new is typed. */
void hs_field_row_set_stored (HsFieldRow *self, const char *text);
gboolean hs_field_row_is_stored (HsFieldRow *self);

/** hs_field_row_set_read_back: @text: (nullable): says what is to be keyed where Enter would confirm unread what the
 * book has; %NULL: Enter goes on. */
void hs_field_row_set_read_back (HsFieldRow *self, const char *text);

/** hs_field_row_say: @text: (nullable): what came of it; @strong: it wants to be read. */
void hs_field_row_say (HsFieldRow *self, const char *text, gboolean strong);

/** hs_field_row_accept: what was handed out by `store` is in the book. */
void hs_field_row_accept (HsFieldRow *self);

/** hs_field_row_refuse: it is not, and why; @asks_why: a reason could make it pass. */
void hs_field_row_refuse (HsFieldRow *self, const char *message, gboolean asks_why);

/** hs_field_row_get_text: (transfer none): what stands in the entry. */
const char *hs_field_row_get_text (HsFieldRow *self);

/** hs_field_row_set_text: as if it were typed, without the signal. */
void hs_field_row_set_text (HsFieldRow *self, const char *text);

/** hs_field_row_enter: as Enter in the field does. */
void hs_field_row_enter (HsFieldRow *self);

/** hs_field_row_drop_keys: what was keyed while the book was asked is none of a hand's. */
void hs_field_row_drop_keys (HsFieldRow *self);

/** hs_field_row_is_bare: nothing is stored and nothing typed. */
gboolean hs_field_row_is_bare (HsFieldRow *self);

G_END_DECLS
