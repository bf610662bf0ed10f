// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-page.h"
#include "hs-roll-op.h"
#include "hs-stage.h"

G_BEGIN_DECLS

/**
 * hs_mover_next:
 * @page: a page in its window
 * @job_id: the job
 * @number: its number, which what is said names it by
 * @from: the stage it stands in
 *
 * Moves a job to the stage that one key leads to; squaring up, which freezes, is asked for first, and so is rolling
 * where it breaks a promise or a counter is shut. What stands against it is said in a window with the other ways there
 * are; at the end of the road that is said too.
 */
void hs_mover_next (HsPage *page, const char *job_id, const char *number, HsStage from);

/* hs_mover_roll: to rolling, after asking where there is something to say, one at a time from @page; @reason:
 * (nullable). */
void hs_mover_roll (HsPage *page, const char *job_id, const char *number, HsStage from, const char *reason);

/* hs_mover_move: to @to, and says so; refused it opens the window of stages. @reason: (nullable). */
void hs_mover_move (HsPage *page, const char *job_id, const char *number, HsStage from, HsStage to,
                    const char *reason);

/* hs_mover_ask_anew: @to: rolling or on site; it was refused since a vehicle is left with its labor clock running,
 * %HS_OPS_ERROR_LEAVES_OPEN: asks what becomes of that. */
void hs_mover_ask_anew (HsPage *page, const char *job_id, const char *number, HsStage from, HsStage to,
                        const char *reason);

/* hs_mover_go_off: @to: rolling or on site, without asking; @leave: as in hs_roll(). What is left since it was asked is
 * asked for anew. */
void hs_mover_go_off (HsPage *page, const char *job_id, const char *number, HsStage from, HsStage to,
                      const char *reason, gboolean leave);

/* hs_mover_finish_and_go: what is left at the vehicle is tested good, then the other goes @to rolling or on site as
 * asked; refused it opens the safety list or the window of stages of what is left, and nothing goes. */
void hs_mover_finish_and_go (HsPage *page, const HsRollLeft *left, const char *job_id, const char *number,
                             HsStage from, HsStage to, const char *reason);

/* hs_mover_bar: nobody began the safety list of the visit, and the job was to be tested good: the list comes first.
 * @reason: (nullable). */
void hs_mover_bar (HsPage *page, const char *job_id, const char *number, HsStage from, const char *reason);

/* hs_mover_tell: says that a call has reached @to. */
void hs_mover_tell (HsPage *page, const char *number, HsStage to);
void hs_mover_tell_in (HsWindow *window, const char *number, HsStage to);

/* hs_mover_moved: says so too; rolling brings the large line, arriving the safety list; @fee: (nullable): as
 * hs_deed_move_stage() answers. */
void hs_mover_moved (HsPage *page, const char *job_id, const char *number, HsStage to, const char *fee);

/* hs_mover_dup_act: (transfer full): a call and a stage, e.g. "A-0022: Rolling". */
char *hs_mover_dup_act (const char *number, HsStage to);

/* hs_mover_dup_next: (transfer full) (nullable): the same for F4 at @from; %NULL at the end of the road. */
char *hs_mover_dup_next (const char *number, HsStage from);

G_END_DECLS
