// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-choice-op.h"
#include "hs-page.h"

G_BEGIN_DECLS

/**
 * A small editor for one option: its words, its rank, its risk, and the lines that make its price. Each field goes to
 * the book when it is left; an option begins with its words.
 */
#define HS_TYPE_OPTION_WINDOW (hs_option_window_get_type ())
G_DECLARE_FINAL_TYPE (HsOptionWindow, hs_option_window, HS, OPTION_WINDOW, AdwWindow)

/**
 * hs_option_window_present:
 * @choice_id: (nullable): which one; %NULL: a new one
 * @beside: (nullable): of a new one: the option whose question it answers, too; %NULL: a question of its own
 *
 * Returns: (transfer none): gone once it is shut
 */
HsOptionWindow *hs_option_window_present (HsPage *page, const char *job_id, const char *choice_id,
                                          const HsChoice *beside);

/** hs_option_window_show: the options of the job as the book has them now. */
void hs_option_window_show (HsOptionWindow *self, const HsJobChoices *job);

/** hs_option_window_fill: @field as it is called in drafts, with what was typed there. */
void hs_option_window_fill (HsOptionWindow *self, const char *field, const char *text);

/** hs_option_window_get_choice_id: (nullable): %NULL until the book has it. */
const char *hs_option_window_get_choice_id (HsOptionWindow *self);

G_END_DECLS
