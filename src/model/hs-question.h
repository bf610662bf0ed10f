// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-ledger.h"

G_BEGIN_DECLS

/**
 * HsQuestion:
 *
 * One question that a page keeps asking the book. It asks again when its arguments change and when the book does, and
 * drops answers that come after a newer question. The last good answer stays when a later one fails.
 */
#define HS_TYPE_QUESTION (hs_question_get_type ())
G_DECLARE_FINAL_TYPE (HsQuestion, hs_question, HS, QUESTION, GObject)

/**
 * hs_question_new:
 * @func: what to ask; see hs-ask.h
 * @free_answer: frees its answer
 *
 * Returns: (transfer full): a question that has not asked yet and is awake
 */
HsQuestion *hs_question_new (HsLedger *ledger, HsLedgerFunc func, GDestroyNotify free_answer);

/**
 * hs_question_ask:
 * @args: (nullable): arguments of the question from now on; a floating one is taken over
 *
 * Asks at once, also while asleep.
 */
void hs_question_ask (HsQuestion *question, GVariant *args);

/**
 * hs_question_forget:
 *
 * Drops the answer and any that is on its way, and does not ask again before hs_question_ask().
 */
void hs_question_forget (HsQuestion *question);

/**
 * hs_question_set_awake:
 * @awake: the page is on the screen
 *
 * Asleep, it does not follow the book; waking up it asks again if the book has changed meanwhile.
 */
void hs_question_set_awake (HsQuestion *question, gboolean awake);

/* hs_question_get: (transfer none) (nullable): the last good answer; valid until the next #HsQuestion::answered. */
gpointer hs_question_get (HsQuestion *question);

/* hs_question_get_snapshot: (transfer none) (nullable): the same, with an owner count. */
HsSnapshot *hs_question_get_snapshot (HsQuestion *question);

/* hs_question_get_trouble: (transfer none) (nullable): why the last question failed. */
const char *hs_question_get_trouble (HsQuestion *question);

/* hs_question_is_asking: #HsQuestion::answered is still to come; not for what was forgotten. */
gboolean hs_question_is_asking (HsQuestion *question);

G_END_DECLS
