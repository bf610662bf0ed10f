// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-job-next.h"
#include "hs-ledger.h"

G_BEGIN_DECLS

/* What is written from "what to check next"; all end with hs_ledger_task_finish (). */

/* hs_deed_name_cause: as hs_job_name_cause(); @group, @seen: (nullable): answers nothing. */
void hs_deed_name_cause (HsLedger *ledger, const char *job_id, const char *group, const char *cause, gboolean is_it,
                         const char *seen, GAsyncReadyCallback callback, gpointer user_data);

/* hs_deed_add_symptom: as hs_job_add_symptom(): answers nothing. */
void hs_deed_add_symptom (HsLedger *ledger, const char *job_id, const char *group, GAsyncReadyCallback callback,
                          gpointer user_data);

G_END_DECLS
