// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-ask.h"
#include "hs-draft.h"
#include "hs-page.h"

G_BEGIN_DECLS

/**
 * The findings of a job, keyed on a number pad. Digits fill the field from the right with the check's decimals; Enter
 * stores and goes on once the book has it; `/` over range, `*` not measured and why, `−` back; `+` the next phase or,
 * behind a value, what its verdict depends on; `.` a decimal point or, before a value, a limit of the vehicle's own.
 * What is typed but not stored is on disk within a second.
 */
#define HS_TYPE_FINDINGS (hs_findings_get_type ())
G_DECLARE_FINAL_TYPE (HsFindings, hs_findings, HS, FINDINGS, HsPage)

void hs_findings_set_draft (HsFindings *self, HsDraft *draft);

/** hs_findings_set_job: @snapshot: of an #HsJobShot; a newer one of the same job keeps line and text. */
void hs_findings_set_job (HsFindings *self, const char *job_id, HsSnapshot *snapshot);

/** hs_findings_go: @field: (nullable): as hs_findings_dup_field() gives it; @text: (nullable): what was typed. */
void hs_findings_go (HsFindings *self, const char *field, const char *text);

/* What the readings after the repair are called as a place of a job, as hs_job_block_place() says it. */
#define HS_READ_AFTER_PAGE "read-after"

/** hs_findings_go_after: to the first line that is to be read after the repair, else the first that is not read. */
void hs_findings_go_after (HsFindings *self);

/** hs_findings_dup_field: (transfer full) (nullable): the line that is being typed: a check's id, with its phase. */
char *hs_findings_dup_field (HsFindings *self);
const char *hs_findings_get_text (HsFindings *self);

/** hs_findings_get_phase: (transfer none): which column is filled: `before`, `during`, `after`. */
const char *hs_findings_get_phase (HsFindings *self);

/** hs_findings_focus: puts the keyboard into the field. */
void hs_findings_focus (HsFindings *self);

/** hs_findings_press: what a key of the pad does; the on-screen pad and the tests use it. Returns: it was taken. */
gboolean hs_findings_press (HsFindings *self, guint keyval);

G_END_DECLS
