// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The steps of telling a cause, ruling one out, or answering a question:
 *
 *     cause ─▶ kind of proof ─▶ reading | photo | seen | said ─▶ who
 *     answer ─▶ who
 *
 * It refuses only what cannot be asked for at all; what makes a good chain is for the rules of the chain to say. */

#include "hs-chain-task.h"

#include <glib/gi18n.h>

#include "hs-core-error.h"
#include "hs-face-chain.h"
#include "hs-show.h"
#include "hs-text.h"

#define WRITTEN "(uumssmsmsmsimsmsmsmsmsmss)"

HsChainTask *
hs_chain_task_new (HsChainTaskKind kind, const char *effect_id, const char *effect, int by)
{
  HsChainTask *task = g_new0 (HsChainTask, 1);

  task->kind = kind;
  task->effect_id = g_strdup (effect_id);
  task->effect = g_strdup (effect);
  task->by = by;
  return task;
}

HsChainTask *
hs_chain_task_new_ask (const HsAnswerLine *line)
{
  HsChainTask *task = hs_chain_task_new (HS_CHAIN_TASK_ASK, NULL, line->words, -1);

  task->step = HS_CHAIN_STEP_ANSWER;
  task->question_id = g_strdup (line->id != NULL ? line->id : line->words);
  return task;
}

void
hs_chain_task_free (HsChainTask *task)
{
  if (task == NULL)
    return;
  g_free (task->effect_id);
  g_free (task->effect);
  g_free (task->finding_id);
  g_free (task->cause_id);
  g_free (task->what);
  g_free (task->reading_id);
  g_free (task->photo_id);
  g_free (task->proof);
  g_free (task->who);
  g_free (task->question_id);
  g_free (task->answer);
  g_free (task);
}

static void
put (char **field, const char *text)
{
  char *copy = g_strdup (text);

  g_free (*field);
  *field = copy;
}

/* Where the question stands among the answers; their number if it is not there. */
static guint
find_question (const HsChainTask *task, const HsChainShot *shot)
{
  guint i;

  for (i = 0; i < shot->answers->len; i++)
    {
      const HsAnswerLine *line = g_ptr_array_index (shot->answers, i);

      if (g_strcmp0 (line->id, task->question_id) == 0 || g_strcmp0 (line->words, task->question_id) == 0)
        break;
    }
  return i;
}

const HsAnswerLine *
hs_chain_task_find_line (const HsChainTask *task, const HsChainShot *shot)
{
  guint found = find_question (task, shot);

  return task->step == HS_CHAIN_STEP_ANSWER && found < shot->answers->len ? g_ptr_array_index (shot->answers, found)
                                                                          : NULL;
}

/* Words. */

char *
hs_chain_task_dup_title (const HsChainTask *task)
{
  switch (task->step)
    {
    case HS_CHAIN_STEP_CAUSE:
      return task->kind == HS_CHAIN_TASK_RULE_OUT
               ? g_strdup_printf (_("What is ruled out as the cause of “%s”?"), task->effect)
               : g_strdup_printf (_("What is behind “%s”?"), task->effect);
    case HS_CHAIN_STEP_KIND:
      return g_strdup (_("What shows it?"));
    case HS_CHAIN_STEP_READING:
      return g_strdup (_("Which reading? Those outside their limits stand first, each time the latest before the "
                         "rest."));
    case HS_CHAIN_STEP_PHOTO:
      return g_strdup (_("Which photo?"));
    case HS_CHAIN_STEP_SEEN:
      return g_strdup (_("What was seen?"));
    case HS_CHAIN_STEP_SAID:
      return g_strdup (_("What was said?"));
    case HS_CHAIN_STEP_WHO:
      return g_strdup (_("Who said it?"));
    case HS_CHAIN_STEP_ANSWER:
      return hs_show_quoted (hs_show_data (task->effect));
    case HS_CHAIN_STEP_DONE:
    default:
      return g_strdup ("");
    }
}

char *
hs_chain_task_dup_told (const HsChainTask *task)
{
  if (task->kind == HS_CHAIN_TASK_ASK)
    /* Translators: a question and what was answered. */
    return task->step == HS_CHAIN_STEP_WHO ? g_strdup_printf (_("“%s”: %s"), hs_show_data (task->effect),
                                                              task->answer)
                                           : g_strdup ("");
  if (task->step == HS_CHAIN_STEP_CAUSE || task->what == NULL)
    return g_strdup ("");
  if (task->kind == HS_CHAIN_TASK_RULE_OUT)
    /* Translators: what is not the cause of what. */
    return g_strdup_printf (_("“%s” is not behind “%s”"), task->what, task->effect);
  /* Translators: a cause and its effect. */
  return g_strdup_printf (_("“%s” is behind “%s”"), task->what, task->effect);
}

gboolean
hs_chain_task_takes_words (const HsChainTask *task)
{
  return task->step == HS_CHAIN_STEP_CAUSE || task->step >= HS_CHAIN_STEP_SEEN;
}

/* Somebody's words are usually the cause itself, and it is usually the customer who says them. */
char *
hs_chain_task_dup_preset (const HsChainTask *task, const HsChainShot *shot)
{
  const char *text = NULL;

  if (task->step == HS_CHAIN_STEP_CAUSE)
    text = task->finding_id == NULL && task->cause_id == NULL ? task->what : NULL;
  else if (task->step == HS_CHAIN_STEP_SEEN)
    text = task->proof;
  else if (task->step == HS_CHAIN_STEP_SAID)
    text = task->proof != NULL ? task->proof : task->what;
  else if (task->step == HS_CHAIN_STEP_WHO)
    text = task->who != NULL ? task->who : shot->offers->customer;
  else if (task->step == HS_CHAIN_STEP_ANSWER)
    text = task->answer;
  return g_strdup (text != NULL ? text : "");
}

/* Choices. */

static void
add_offers (GPtrArray *list, GPtrArray *offers, const char *but)
{
  for (guint i = 0; i < offers->len; i++)
    if (g_strcmp0 (((HsChainOffer *) g_ptr_array_index (offers, i))->id, but) != 0)
      g_ptr_array_add (list, g_ptr_array_index (offers, i));
}

/* (element-type HsChainOffer): nothing explains itself, and a finding that is there is not what it was not. */
static GPtrArray *
list_offers (const HsChainTask *task, const HsChainShot *shot)
{
  GPtrArray *list = g_ptr_array_new ();

  if (task->step == HS_CHAIN_STEP_READING)
    add_offers (list, shot->offers->readings, NULL);
  if (task->step == HS_CHAIN_STEP_PHOTO)
    add_offers (list, shot->offers->photos, NULL);
  if (task->step == HS_CHAIN_STEP_CAUSE && task->kind == HS_CHAIN_TASK_BECAUSE)
    add_offers (list, shot->offers->findings, task->effect_id);
  if (task->step == HS_CHAIN_STEP_CAUSE)
    add_offers (list, shot->offers->reasons, NULL);
  return list;
}

/* The book keeps the words of a usual reason as they stand in the model; they are shown in the language of the
 * screen. */
static char *
dup_words (const HsChainShot *shot, const HsChainOffer *offer)
{
  gboolean reason = g_ptr_array_find (shot->offers->reasons, offer, NULL);

  return g_strdup (reason ? hs_show_data (offer->words) : offer->words);
}

const char *
hs_chain_task_get_note (const HsChainTask *task, const HsChainShot *shot, guint nth)
{
  g_autoptr (GPtrArray) offers = list_offers (task, shot);

  return nth < offers->len ? ((const HsChainOffer *) g_ptr_array_index (offers, nth))->note : NULL;
}

GPtrArray *
hs_chain_task_list (const HsChainTask *task, const HsChainShot *shot)
{
  g_autoptr (GPtrArray) offers = list_offers (task, shot);
  GPtrArray *list = g_ptr_array_new_with_free_func (g_free);
  const HsAnswerLine *line = hs_chain_task_find_line (task, shot);

  for (guint i = 0; i < offers->len; i++)
    g_ptr_array_add (list, dup_words (shot, g_ptr_array_index (offers, i)));
  for (int by = HS_CHAIN_BY_READING; task->step == HS_CHAIN_STEP_KIND && by <= HS_CHAIN_BY_WORD; by++)
    g_ptr_array_add (list, g_strdup (hs_face_proof_word ((HsChainProof) by)));
  for (guint i = 0; line != NULL && line->answers != NULL && line->answers[i] != NULL; i++)
    g_ptr_array_add (list, g_strdup (hs_show_data (line->answers[i])));
  return list;
}

/* Steps. */

static HsChainStep
step_of_proof (HsChainProof by)
{
  static const HsChainStep steps[] = { HS_CHAIN_STEP_READING, HS_CHAIN_STEP_PHOTO, HS_CHAIN_STEP_SEEN,
                                       HS_CHAIN_STEP_SAID };

  return steps[by];
}

static gboolean
take_kind (HsChainTask *task, const HsChainShot *shot, HsChainProof by, GError **error)
{
  if (by == HS_CHAIN_BY_READING && shot->offers->readings->len == 0)
    return hs_core_refuse (error, "%s", _("There is no reading on this job yet. Take it first, or say what was seen."));
  if (by == HS_CHAIN_BY_PHOTO && shot->offers->photos->len == 0)
    return hs_core_refuse (error, "%s", _("There is no photo on this job yet. Add it first, or say what was seen."));
  task->by = (int) by;
  task->step = step_of_proof (by);
  return TRUE;
}

static void
take_cause (HsChainTask *task)
{
  task->step = task->by >= 0 ? step_of_proof ((HsChainProof) task->by) : HS_CHAIN_STEP_KIND;
}

static gboolean
pick_cause (HsChainTask *task, const HsChainShot *shot, const HsChainOffer *offer)
{
  gboolean reason = g_ptr_array_find (shot->offers->reasons, offer, NULL);

  put (&task->finding_id, reason ? NULL : offer->id);
  put (&task->cause_id, reason ? offer->id : NULL);
  put (&task->what, offer->words);
  take_cause (task);
  return TRUE;
}

gboolean
hs_chain_task_pick (HsChainTask *task, const HsChainShot *shot, guint nth, GError **error)
{
  g_autoptr (GPtrArray) offers = list_offers (task, shot);
  g_autoptr (GPtrArray) list = hs_chain_task_list (task, shot);
  const HsChainOffer *offer = nth < offers->len ? g_ptr_array_index (offers, nth) : NULL;
  g_autofree char *digit = g_strdup_printf ("%u", nth + 1);

  if (nth >= list->len)
    return hs_core_refuse (error, "%s", _("Nothing stands under that digit."));
  switch (task->step)
    {
    case HS_CHAIN_STEP_CAUSE:
      return pick_cause (task, shot, offer);
    case HS_CHAIN_STEP_KIND:
      return take_kind (task, shot, (HsChainProof) nth, error);
    case HS_CHAIN_STEP_READING:
      /* The book says a reading in its own words. */
      put (&task->reading_id, offer->id);
      put (&task->proof, NULL);
      break;
    case HS_CHAIN_STEP_PHOTO:
      put (&task->photo_id, offer->id);
      put (&task->proof, offer->words);
      break;
    case HS_CHAIN_STEP_ANSWER:
      return hs_chain_task_say (task, digit, error);
    case HS_CHAIN_STEP_SEEN:
    case HS_CHAIN_STEP_SAID:
    case HS_CHAIN_STEP_WHO:
    case HS_CHAIN_STEP_DONE:
    default:
      return FALSE;
    }
  task->step = HS_CHAIN_STEP_DONE;
  return TRUE;
}

/* Whose words they are is asked of what is new; a finding that is there says it itself. */
static HsChainStep
step_after_said (const HsChainTask *task)
{
  return task->kind == HS_CHAIN_TASK_BECAUSE && task->finding_id == NULL ? HS_CHAIN_STEP_WHO : HS_CHAIN_STEP_DONE;
}

gboolean
hs_chain_task_say (HsChainTask *task, const char *text, GError **error)
{
  const HsChainFinding finding = { .what = text, .role = HS_CHAIN_CAUSE };

  switch (task->step)
    {
    case HS_CHAIN_STEP_CAUSE:
      if (!hs_chain_check_finding (&finding, error))
        return FALSE;
      put (&task->finding_id, NULL);
      put (&task->cause_id, NULL);
      put (&task->what, text);
      take_cause (task);
      return TRUE;
    case HS_CHAIN_STEP_SEEN:
    case HS_CHAIN_STEP_SAID:
      put (&task->proof, text);
      task->step = task->step == HS_CHAIN_STEP_SAID ? step_after_said (task) : HS_CHAIN_STEP_DONE;
      return TRUE;
    case HS_CHAIN_STEP_ANSWER:
      if (hs_text_is_blank (text))
        return hs_core_refuse (error, "%s", _("An answer needs words, or the digit of one."));
      put (&task->answer, text);
      task->step = HS_CHAIN_STEP_WHO;
      return TRUE;
    case HS_CHAIN_STEP_WHO:
      put (&task->who, hs_text_is_blank (text) ? NULL : text);
      task->step = HS_CHAIN_STEP_DONE;
      return TRUE;
    case HS_CHAIN_STEP_KIND:
    case HS_CHAIN_STEP_READING:
    case HS_CHAIN_STEP_PHOTO:
    case HS_CHAIN_STEP_DONE:
    default:
      return hs_core_refuse (error, "%s", _("One digit chooses here."));
    }
}

/* Round and round through those that are asked again, answered or not. */
gboolean
hs_chain_task_turn (HsChainTask *task, const HsChainShot *shot)
{
  guint from = find_question (task, shot);

  for (guint i = 1; task->step == HS_CHAIN_STEP_ANSWER && i < shot->answers->len; i++)
    {
      const HsAnswerLine *line = g_ptr_array_index (shot->answers, (from + i) % shot->answers->len);

      if (!line->again)
        continue;
      put (&task->question_id, line->id != NULL ? line->id : line->words);
      put (&task->effect, line->words);
      put (&task->answer, NULL);
      return TRUE;
    }
  return FALSE;
}

gboolean
hs_chain_task_back (HsChainTask *task)
{
  switch (task->step)
    {
    case HS_CHAIN_STEP_KIND:
      task->step = HS_CHAIN_STEP_CAUSE;
      return TRUE;
    case HS_CHAIN_STEP_READING:
    case HS_CHAIN_STEP_PHOTO:
    case HS_CHAIN_STEP_SEEN:
    case HS_CHAIN_STEP_SAID:
      task->by = -1;
      put (&task->proof, NULL);
      task->step = HS_CHAIN_STEP_KIND;
      return TRUE;
    case HS_CHAIN_STEP_WHO:
      task->step = task->kind == HS_CHAIN_TASK_ASK ? HS_CHAIN_STEP_ANSWER : HS_CHAIN_STEP_SAID;
      return TRUE;
    case HS_CHAIN_STEP_CAUSE:
    case HS_CHAIN_STEP_ANSWER:
    case HS_CHAIN_STEP_DONE:
    default:
      return FALSE;
    }
}

void
hs_chain_task_reopen (HsChainTask *task)
{
  if (task->kind == HS_CHAIN_TASK_ASK)
    task->step = HS_CHAIN_STEP_ANSWER;
  else if (task->by < 0)
    task->step = HS_CHAIN_STEP_CAUSE;
  else
    task->step = step_of_proof ((HsChainProof) task->by);
}

/* As text. */

char *
hs_chain_task_write (const HsChainTask *task, const char *typed)
{
  g_autoptr (GVariant) variant
      = g_variant_ref_sink (g_variant_new (WRITTEN, (guint) task->kind, (guint) task->step, task->effect_id,
                                           task->effect, task->finding_id, task->cause_id, task->what, task->by,
                                           task->reading_id, task->photo_id, task->proof, task->who,
                                           task->question_id, task->answer, typed));

  return g_variant_print (variant, FALSE);
}

HsChainTask *
hs_chain_task_read (const char *text, char **ret_typed)
{
  g_autoptr (GVariant) variant = g_variant_parse (G_VARIANT_TYPE (WRITTEN), text, NULL, NULL, NULL);
  g_autoptr (HsChainTask) task = g_new0 (HsChainTask, 1);
  guint kind, step;

  if (variant == NULL)
    return NULL;
  g_variant_get (variant, WRITTEN, &kind, &step, &task->effect_id, &task->effect, &task->finding_id, &task->cause_id,
                 &task->what, &task->by, &task->reading_id, &task->photo_id, &task->proof, &task->who,
                 &task->question_id, &task->answer, ret_typed);
  task->kind = (HsChainTaskKind) kind;
  task->step = (HsChainStep) step;
  if (kind <= HS_CHAIN_TASK_ASK && step < HS_CHAIN_STEP_DONE && task->by >= -1 && task->by <= HS_CHAIN_BY_WORD)
    return g_steal_pointer (&task);
  g_clear_pointer (ret_typed, g_free);
  return NULL;
}
