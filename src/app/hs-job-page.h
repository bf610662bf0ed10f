// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-draft.h"
#include "hs-findings.h"
#include "hs-page.h"

G_BEGIN_DECLS

/** One job: Call · Findings (Readings · Why it failed) · Choices · Bill · Before and after. */
#define HS_TYPE_JOB_PAGE (hs_job_page_get_type ())
G_DECLARE_FINAL_TYPE (HsJobPage, hs_job_page, HS, JOB_PAGE, HsPage)

GtkWidget *hs_job_page_new (HsLedger *ledger, HsDraft *draft, const char *job_id);

/** hs_job_page_get_stack: (transfer none): the tabs, for the window's header. */
GtkStack *hs_job_page_get_stack (HsJobPage *self);

/**
 * hs_job_page_go:
 * @page_name: (nullable): `call`, `findings`, %HS_READ_AFTER_PAGE, `why`, `choices`, `bill`, `after`
 * @field: (nullable): where the cursor was
 * @text: (nullable): what was typed there
 *
 * Takes effect as soon as the job is read.
 */
void hs_job_page_go (HsJobPage *self, const char *page_name, const char *field, const char *text);

/** hs_job_page_get_face: (nullable): of the findings: `readings`, `why`, `photos`; %NULL on another tab. */
const char *hs_job_page_get_face (HsJobPage *self);

const char *hs_job_page_get_job_id (HsJobPage *self);

/** hs_job_page_get_number: (transfer none) (nullable): as it is shown, once the job is read. */
const char *hs_job_page_get_number (HsJobPage *self);

/** hs_job_page_takes_findings: the job is read and not squared yet. */
gboolean hs_job_page_takes_findings (HsJobPage *self);

/** hs_job_page_open_usual: finishes the job as a usual one; @text: (nullable): where that was left. */
void hs_job_page_open_usual (HsJobPage *self, const char *text);

/** hs_job_page_made_safe: it is safe at the vehicle; on the tab of the call the visit goes on. */
void hs_job_page_made_safe (HsJobPage *self);

/** hs_job_page_is_ready: the job has been read from the book. */
gboolean hs_job_page_is_ready (HsJobPage *self);
HsFindings *hs_job_page_get_findings (HsJobPage *self);

G_END_DECLS
