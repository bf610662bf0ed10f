// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-draft.h"
#include "hs-job-op.h"
#include "hs-page.h"

G_BEGIN_DECLS

/* The complaint group among the drafts of a slip; it is chosen below the fields. */
#define HS_CALL_FORM_GROUP "group"

/**
 * A call's facts to be written while the phone is at the ear: caller, words, vehicle, place, day, window, minutes. Each
 * field is on disk within a second of leaving it; a caller who is known is found while typing; where the call fits is
 * said as soon as it can be told. Signal `saved` (id of the job).
 */
#define HS_TYPE_CALL_FORM (hs_call_form_get_type ())
G_DECLARE_FINAL_TYPE (HsCallForm, hs_call_form, HS, CALL_FORM, HsPage)

void hs_call_form_set_draft (HsCallForm *self, HsDraft *draft);

/** hs_call_form_set_job: @snapshot: of an #HsJobShot; fields that are being typed in stay as they are. */
void hs_call_form_set_job (HsCallForm *self, HsSnapshot *snapshot);

/** hs_call_form_go: puts the cursor into @field (nullable), with @text (nullable) that was not saved. */
void hs_call_form_go (HsCallForm *self, const char *field, const char *text);

/** hs_call_form_go_on: to the first field that is empty; to the end of the words where none is. */
void hs_call_form_go_on (HsCallForm *self);

/** hs_call_form_take_first_caller: as Enter in the phone field does. */
void hs_call_form_take_first_caller (HsCallForm *self);

/**
 * hs_call_form_settle_caller:
 *
 * Before a call becomes a job: where a number stands alone, the one known caller who has it is taken. Where several may
 * be meant, it says so and puts the cursor on them. Runs the main context.
 *
 * Returns: %FALSE if it has to be picked first.
 */
gboolean hs_call_form_settle_caller (HsCallForm *self);

/** hs_call_form_choose_day: %HS_DATE_NONE: not given. */
void hs_call_form_choose_day (HsCallForm *self, HsDate day);

/** hs_call_form_propose: see hs_call_slip_window_propose (). */
void hs_call_form_propose (HsCallForm *self, const HsCallSlip *slip);

/** hs_call_form_set_group: the complaint group, chosen elsewhere. */
void hs_call_form_set_group (HsCallForm *self, const char *group);

/** hs_call_form_get_group: (transfer none) (nullable): the complaint group. */
const char *hs_call_form_get_group (HsCallForm *self);

/** hs_call_form_stand: the fields do not scroll by themselves: what they stand in does. */
void hs_call_form_stand (HsCallForm *self);

/** hs_call_form_set_below: @below: stands under the fields and scrolls with them. */
void hs_call_form_set_below (HsCallForm *self, GtkWidget *below);

/** hs_call_form_flush: saves what is not saved yet. */
void hs_call_form_flush (HsCallForm *self);

/** hs_call_form_tell: says @text under the fields, where a refusal is looked for. */
void hs_call_form_tell (HsCallForm *self, const char *text);

/** hs_call_form_point_at_missing: says what is still missing before it can be a job and puts the cursor there. */
void hs_call_form_point_at_missing (HsCallForm *self);

/** hs_call_form_point_at_untimed: says what is missing before its time can be given and puts the cursor there. Returns:
 * whether anything is. */
gboolean hs_call_form_point_at_untimed (HsCallForm *self);

/** hs_call_form_is_touched: whether anything was typed or saved here. */
gboolean hs_call_form_is_touched (HsCallForm *self);

/**
 * hs_call_form_finish:
 *
 * Saves as much as can be saved, also a number without words, and waits for it.
 *
 * Returns: %FALSE when something is only on the screen: the book could not be written
 */
gboolean hs_call_form_finish (HsCallForm *self);

/** hs_call_form_get_job_id: (transfer none) (nullable): the job, once there is one. */
const char *hs_call_form_get_job_id (HsCallForm *self);

/** hs_call_form_get_words: (transfer none): what the caller says, as it stands there. */
const char *hs_call_form_get_words (HsCallForm *self);

/** hs_call_form_get_phone: (transfer none): the caller's number, as it stands there. */
const char *hs_call_form_get_phone (HsCallForm *self);

/** hs_call_form_dup_field: (transfer full) (nullable): the id of the field that has @focus. */
char *hs_call_form_dup_field (HsCallForm *self, GtkWidget *focus);

/** hs_call_form_field_title: (transfer none): the label of a field's id, for "Where was I". */
const char *hs_call_form_field_title (const char *field);

G_END_DECLS
