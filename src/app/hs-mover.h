// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-page.h"
#include "hs-stage.h"

G_BEGIN_DECLS

/**
 * hs_mover_next:
 * @page: a page in its window
 * @job_id: the job
 * @from: the stage it stands in
 *
 * Moves a job to the stage that one key leads to. What stands against it is said in a toast; at the end of the road
 * that is said too.
 */
void hs_mover_next (HsPage *page, const char *job_id, HsStage from);

/* hs_mover_next_label: (transfer none): the word for F4 at @from, e.g. "Rolling"; %NULL at the end of the road. */
const char *hs_mover_next_label (HsStage from);

G_END_DECLS
