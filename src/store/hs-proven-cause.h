// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-store.h"

G_BEGIN_DECLS

/**
 * HsProvenCause:
 * @job_id: a squared job
 * @group: its complaint group
 * @cause: id of a cause in a model of that group, which a finding of the job proved
 *
 * What own jobs say about how often it is which cause.
 */
typedef struct
{
  char *job_id;
  char *group;
  char *cause;
} HsProvenCause;

void hs_proven_cause_free (HsProvenCause *cause);

/* hs_proven_cause_list: (element-type HsProvenCause): of all squared jobs, each cause of a job once, by job. */
gboolean hs_proven_cause_list (HsStore *store, GPtrArray **ret_causes, GError **error);

G_END_DECLS
