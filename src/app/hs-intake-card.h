// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-job-pane.h"

G_BEGIN_DECLS

/* Stands before the id of a question where it is a field of a page. */
#define HS_INTAKE_FIELD "ask:"

/**
 * What is asked on the phone by complaint group: what was answered with what it decides, and a field for each question
 * that is open. On a call slip that is no job yet, answers wait as drafts until there is one.
 *
 * Signal `group-chosen` (id of a complaint group): what the caller's trouble is; it is for the owner of the card to
 * write.
 */
#define HS_TYPE_INTAKE_CARD (hs_intake_card_get_type ())
G_DECLARE_FINAL_TYPE (HsIntakeCard, hs_intake_card, HS, INTAKE_CARD, HsJobPane)

/** hs_intake_card_set_slip: a card without a job; @draft: (nullable): keeps what is typed. */
void hs_intake_card_set_slip (HsIntakeCard *self, HsDraft *draft);

/** hs_intake_card_set_ask: @action: what F9 does; the card then prints that key. */
void hs_intake_card_set_ask (HsIntakeCard *self, const char *action);

/** hs_intake_card_set_group: @group: (nullable): of a slip. */
void hs_intake_card_set_group (HsIntakeCard *self, const char *group);

/** hs_intake_card_set_job_id: the slip has become this job; what was answered is written now. */
void hs_intake_card_set_job_id (HsIntakeCard *self, const char *job_id);

/** hs_intake_card_keep: an answer of the slip that was interrupted; @field: with %HS_INTAKE_FIELD before it. */
void hs_intake_card_keep (HsIntakeCard *self, const char *field, const char *text);

/** hs_intake_card_ask: puts the cursor to the first question that is open, or to the groups. */
void hs_intake_card_ask (HsIntakeCard *self);

/** hs_intake_card_refuse: the book did not take the group that was chosen. */
void hs_intake_card_refuse (HsIntakeCard *self);

/** hs_intake_card_accept: the book took it; whatever it answers from now on ends the waiting. */
void hs_intake_card_accept (HsIntakeCard *self);

/** hs_intake_card_has_focus: whether the cursor is in it. */
gboolean hs_intake_card_has_focus (HsIntakeCard *self);

G_END_DECLS
