// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-job-op.h"
#include "hs-ledger.h"

G_BEGIN_DECLS

/* Longest time that typed text lives only in memory. */
#define HS_DRAFT_MILLISECONDS 400

/**
 * HsDraft:
 *
 * Keeps the place where the owner is, with what is typed there but not stored, on the disk. Signal `saved` when the
 * book has the latest of it; property-free: ask the book with hs_ask_where() to read it back.
 */
#define HS_TYPE_DRAFT (hs_draft_get_type ())
G_DECLARE_FINAL_TYPE (HsDraft, hs_draft, HS, DRAFT, GObject)

HsDraft *hs_draft_new (HsLedger *ledger);

/**
 * hs_draft_note:
 * @job_id: (nullable): the job
 * @page: (nullable): `call`, `findings`, … `slip` for a call slip
 * @field: (nullable): what is being typed, e.g. a check's id
 * @text: (nullable): what stands there
 *
 * On disk at most %HS_DRAFT_MILLISECONDS later, however fast the typing goes on; at once when the next field begins.
 * The same as before is not written.
 */
void hs_draft_note (HsDraft *draft, const char *job_id, const char *page, const char *field, const char *text);

/* hs_draft_visit: the owner is there now, whatever stands in @field; on its way to the disk at once. @field
 * %HS_WHERE_HERE: nowhere in particular; what is half typed on that page stays the place. */
void hs_draft_visit (HsDraft *draft, const char *job_id, const char *page, const char *field);

/* hs_draft_leave: as hs_where_leave(). */
void hs_draft_leave (HsDraft *draft, const char *job_id, gboolean worked);

/* hs_draft_flush: writes now what has not been written. */
void hs_draft_flush (HsDraft *draft);

/* hs_draft_is_kept: whether the book has everything that was noted; after a flush and hs_ledger_wait() %FALSE means
 * that it could not be written. */
gboolean hs_draft_is_kept (HsDraft *draft);

/* hs_draft_forget: what was typed on that page stands in the book as such: its drafts go, also one still on its way. */
void hs_draft_forget (HsDraft *draft, const char *job_id, const char *page);

G_END_DECLS
