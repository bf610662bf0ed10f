// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-ask.h"
#include "hs-draft.h"
#include "hs-page.h"

G_BEGIN_DECLS

/**
 * HsJobPane:
 *
 * One face of a job's page, such as its choices or its bill. The page asks the book for the whole job once and shows
 * the answer to every pane, so that they always agree. A pane writes by the deeds of model and is shown the job anew
 * when the book has changed; it never keeps figures of its own.
 */
#define HS_TYPE_JOB_PANE (hs_job_pane_get_type ())
G_DECLARE_DERIVABLE_TYPE (HsJobPane, hs_job_pane, HS, JOB_PANE, HsPage)

/**
 * HsJobPaneClass:
 * @show: shows the job; called with every answer of the book, also with one that says the same as the last
 * @dup_field: (nullable): the name of the field that @focus, which is on the pane, is in; %NULL: in none
 * @go: (nullable): puts the cursor into @field (nullable), with @text (nullable) that was typed there and not stored
 */
struct _HsJobPaneClass
{
  HsPageClass parent_class;

  void (*show) (HsJobPane *pane, const HsJobShot *shot);
  void (*go) (HsJobPane *pane, const char *field, const char *text);
  char *(*dup_field) (HsJobPane *pane, GtkWidget *focus);
};

/** hs_job_pane_set_job: whose face this is; @draft: keeps what is typed here but not stored. */
void hs_job_pane_set_job (HsJobPane *self, const char *job_id, HsDraft *draft);
const char *hs_job_pane_get_job_id (HsJobPane *self);

/** hs_job_pane_show: @snapshot: of an #HsJobShot. */
void hs_job_pane_show (HsJobPane *self, HsSnapshot *snapshot);

/** hs_job_pane_get_shot: (transfer none) (nullable): the job as it was shown last. */
const HsJobShot *hs_job_pane_get_shot (HsJobPane *self);

/** hs_job_pane_is_frozen: the job is squared up: what is shown can only be read. */
gboolean hs_job_pane_is_frozen (HsJobPane *self);

/** hs_job_pane_tell_frozen: says so where it is. Returns: whether it is. */
gboolean hs_job_pane_tell_frozen (HsJobPane *self);

/** hs_job_pane_get_snapshot: (transfer none) (nullable): the same, with an owner count. */
HsSnapshot *hs_job_pane_get_snapshot (HsJobPane *self);

/** hs_job_pane_get_draft: (transfer none) (nullable): what keeps typed text. */
HsDraft *hs_job_pane_get_draft (HsJobPane *self);

/** hs_job_pane_go: as #HsJobPaneClass.go; does nothing where a pane has no fields. */
void hs_job_pane_go (HsJobPane *self, const char *field, const char *text);

/** hs_job_pane_dup_field: (transfer full): where @focus is, as hs_job_pane_go() takes it; %HS_WHERE_HERE if in no field
 * that has a name. */
char *hs_job_pane_dup_field (HsJobPane *self, GtkWidget *focus);

/** hs_job_pane_note: @field with @text (nullable) is where the owner is now; as hs_draft_note() under @page. */
void hs_job_pane_note (HsJobPane *self, const char *page, const char *field, const char *text);

/**
 * hs_job_pane_leave:
 *
 * The owner turned back from @field without storing it. It is not put before anybody by itself any more, but stands
 * there again, by hs_job_pane_get_typed(), when the same is asked once more.
 */
void hs_job_pane_leave (HsJobPane *self, const char *page, const char *field);

/** hs_job_pane_get_typed: (transfer none) (nullable): what was noted last of @field and is neither stored nor empty. */
const char *hs_job_pane_get_typed (HsJobPane *self, const char *field);

/**
 * hs_job_pane_forget:
 *
 * What was typed under @page stands in the book as such, or was given up: it is not offered as typed any more. Text
 * that was noted and not forgotten comes back through #HsJobPaneClass.go when the job is opened again.
 */
void hs_job_pane_forget (HsJobPane *self, const char *page);

G_END_DECLS
