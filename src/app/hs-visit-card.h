// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-job-pane.h"

G_BEGIN_DECLS

/** The visits of a job and its labor clock: when the van rolled, came and left. F12 stops and starts the clock here,
 * Pause on every face of the job. */
#define HS_TYPE_VISIT_CARD (hs_visit_card_get_type ())
G_DECLARE_FINAL_TYPE (HsVisitCard, hs_visit_card, HS, VISIT_CARD, HsJobPane)

/** hs_visit_card_turn: stops the labor clock of @shot, or starts it; says so, or why not, on @page. */
void hs_visit_card_turn (HsPage *page, const char *job_id, const HsJobShot *shot);

G_END_DECLS
