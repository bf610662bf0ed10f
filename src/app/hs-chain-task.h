// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-chain-shot.h"

G_BEGIN_DECLS

/* What is being told to the why-chain, step by step: each step is one digit or a few words. It knows no window and
 * writes nothing; once it is done, its fields are what a deed needs. */

typedef enum
{
  HS_CHAIN_TASK_BECAUSE,
  HS_CHAIN_TASK_RULE_OUT,
  HS_CHAIN_TASK_ASK,
} HsChainTaskKind;

/**
 * HsChainStep:
 * @HS_CHAIN_STEP_CAUSE: what it is: one of the findings or usual reasons, or words
 * @HS_CHAIN_STEP_KIND: which kind of proof
 * @HS_CHAIN_STEP_READING, @HS_CHAIN_STEP_PHOTO: which one
 * @HS_CHAIN_STEP_SEEN, @HS_CHAIN_STEP_SAID: in words
 * @HS_CHAIN_STEP_ANSWER: what was answered to a question
 * @HS_CHAIN_STEP_WHO: who said it
 * @HS_CHAIN_STEP_DONE: nothing is missing that can be asked for
 */
typedef enum
{
  HS_CHAIN_STEP_CAUSE,
  HS_CHAIN_STEP_KIND,
  HS_CHAIN_STEP_READING,
  HS_CHAIN_STEP_PHOTO,
  HS_CHAIN_STEP_SEEN,
  HS_CHAIN_STEP_SAID,
  HS_CHAIN_STEP_ANSWER,
  HS_CHAIN_STEP_WHO,
  HS_CHAIN_STEP_DONE,
} HsChainStep;

/**
 * HsChainTask:
 * @effect_id: (nullable): what is explained; %NULL: the complaint that is not written down yet
 * @effect: its words; of a question, the question
 * @finding_id: (nullable): the cause, if it is a finding already
 * @cause_id: (nullable): of a usual reason
 * @what: (nullable): the cause in words
 * @by: an #HsChainProof, or −1 as long as it is not said
 * @question_id: (nullable): what was asked
 * @answer: (nullable): what was answered, as it was typed
 */
typedef struct
{
  HsChainTaskKind kind;
  HsChainStep step;
  char *effect_id;
  char *effect;
  char *finding_id;
  char *cause_id;
  char *what;
  int by;
  char *reading_id;
  char *photo_id;
  char *proof;
  char *who;
  char *question_id;
  char *answer;
} HsChainTask;

/** hs_chain_task_new: @by: the kind of proof, if a key has said it already, or −1. */
HsChainTask *hs_chain_task_new (HsChainTaskKind kind, const char *effect_id, const char *effect, int by);

/** hs_chain_task_new_ask: @line: a question; an answer that it has is asked for again. */
HsChainTask *hs_chain_task_new_ask (const HsAnswerLine *line);
void hs_chain_task_free (HsChainTask *task);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsChainTask, hs_chain_task_free)

/** hs_chain_task_dup_title: (transfer full): what is asked at this step. */
char *hs_chain_task_dup_title (const HsChainTask *task);

/** hs_chain_task_dup_told: (transfer full): what was told at the steps before; may be empty. */
char *hs_chain_task_dup_told (const HsChainTask *task);

/** hs_chain_task_takes_words: words are typed at this step. */
gboolean hs_chain_task_takes_words (const HsChainTask *task);

/** hs_chain_task_dup_preset: (transfer full): what the field has in it as the step begins. */
char *hs_chain_task_dup_preset (const HsChainTask *task, const HsChainShot *shot);

/** hs_chain_task_list: (transfer full) (element-type utf8): what can be chosen at this step, a digit each. */
GPtrArray *hs_chain_task_list (const HsChainTask *task, const HsChainShot *shot);

/** hs_chain_task_get_note: (transfer none) (nullable): what is known of a choice, below its words. */
const char *hs_chain_task_get_note (const HsChainTask *task, const HsChainShot *shot, guint nth);

/**
 * hs_chain_task_pick:
 * @nth: as hs_chain_task_list() counts
 * @error: why that cannot be chosen, in a sentence
 *
 * Chooses and goes on to the next step.
 */
gboolean hs_chain_task_pick (HsChainTask *task, const HsChainShot *shot, guint nth, GError **error);

/** hs_chain_task_say: @text: what stands in the field; goes on to the next step. Blank words go on too where the rules
 * of the chain are to say what they think of them. */
gboolean hs_chain_task_say (HsChainTask *task, const char *text, GError **error);

/** hs_chain_task_turn: another question instead of this one. Returns: there is another */
gboolean hs_chain_task_turn (HsChainTask *task, const HsChainShot *shot);

/** hs_chain_task_find_line: (transfer none) (nullable): the question that is asked. */
const HsAnswerLine *hs_chain_task_find_line (const HsChainTask *task, const HsChainShot *shot);

/** hs_chain_task_back: one step back. Returns: %FALSE at the first */
gboolean hs_chain_task_back (HsChainTask *task);

/** hs_chain_task_reopen: what was done was refused: the last step is asked once more. */
void hs_chain_task_reopen (HsChainTask *task);

/** hs_chain_task_write: (transfer full): the whole task with what stands in the field, as text. */
char *hs_chain_task_write (const HsChainTask *task, const char *typed);

/** hs_chain_task_read: (transfer full) (nullable): of such a text. */
HsChainTask *hs_chain_task_read (const char *text, char **ret_typed);

G_END_DECLS
