// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-job-pane.h"

G_BEGIN_DECLS

/* The field of this card where it is a field of a page. */
#define HS_NOTE_FIELD "note:model"

/** What is known of the model of a job's vehicle, and a line for what was learned of it now. */
#define HS_TYPE_NOTE_CARD (hs_note_card_get_type ())
G_DECLARE_FINAL_TYPE (HsNoteCard, hs_note_card, HS, NOTE_CARD, HsJobPane)

/** hs_note_card_dup_line: (transfer full): a note as it is shown: "beware: fan starts with the key off (2005 to
 * 2010)". */
char *hs_note_card_dup_line (const HsModelNote *note);

G_END_DECLS
