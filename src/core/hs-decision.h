// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-interview.h"

G_BEGIN_DECLS

/**
 * hs_decision_of_answer:
 * @decides: (nullable): what the answers to a question decide, in sentences like "One click and bright lamps: starter."
 * @answers: (nullable) (array zero-terminated=1): the answers that have a digit
 * @answer: what was answered
 *
 * Of a question with a few answers, what this one decides: the sentences whose beginning, up to the colon, is the
 * answer, with those without a colon behind them. Of other questions, and where the answer is in words of its own, all
 * of it.
 *
 * Returns: (transfer full) (nullable): %NULL if this answer decides nothing
 */
char *hs_decision_of_answer (const char *decides, const char *const *answers, const char *answer);

G_END_DECLS
