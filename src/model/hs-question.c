// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A question that is asked again whenever it must be. Every asking gets a number; an answer whose number is not the
 * newest is dropped, so that fast typing never shows an older search. */

#include "hs-question.h"

struct _HsQuestion
{
  GObject parent_instance;

  HsLedger *ledger;
  HsLedgerFunc func;
  GDestroyNotify free_answer;
  GVariant *args;
  gboolean has_asked;
  gboolean awake;
  gboolean stale;
  guint stamp;
  gboolean asking; /* by the present stamp; what comes of an older one is nobody's answer */
  HsSnapshot *snapshot;
  char *trouble;
};

G_DEFINE_FINAL_TYPE (HsQuestion, hs_question, G_TYPE_OBJECT)

enum
{
  ANSWERED,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

typedef struct
{
  HsQuestion *question;
  guint stamp;
} HsQuestionAsking;

static void
hs_question_answered_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autofree HsQuestionAsking *asking = data;
  g_autoptr (HsQuestion) self = asking->question;
  g_autoptr (GError) error = NULL;
  gpointer answer = NULL;

  if (!hs_ledger_task_finish (HS_LEDGER (source), result, &answer, &error))
    answer = NULL;
  if (asking->stamp != self->stamp)
    {
      if (answer != NULL)
        self->free_answer (answer);
      return;
    }

  self->asking = FALSE;
  g_clear_pointer (&self->trouble, g_free);
  if (error != NULL)
    self->trouble = g_strdup (error->message);
  else
    {
      g_clear_pointer (&self->snapshot, hs_snapshot_unref);
      if (answer != NULL)
        self->snapshot = hs_snapshot_new (answer, self->free_answer);
    }
  g_signal_emit (self, signals[ANSWERED], 0);
}

static void
hs_question_send (HsQuestion *self)
{
  HsQuestionAsking *asking = g_new0 (HsQuestionAsking, 1);

  self->stale = FALSE;
  self->has_asked = TRUE;
  self->asking = TRUE;
  asking->question = g_object_ref (self);
  asking->stamp = ++self->stamp;
  hs_ledger_ask_async (self->ledger, self->func, self->args, self->free_answer, hs_question_answered_cb, asking);
}

static void
hs_question_changed_cb (HsLedger *ledger, gpointer data)
{
  HsQuestion *self = HS_QUESTION (data);

  if (!self->has_asked)
    return;
  if (self->awake)
    hs_question_send (self);
  else
    self->stale = TRUE;
}

static void
hs_question_finalize (GObject *object)
{
  HsQuestion *self = HS_QUESTION (object);

  g_clear_object (&self->ledger);
  g_clear_pointer (&self->args, g_variant_unref);
  g_clear_pointer (&self->snapshot, hs_snapshot_unref);
  g_clear_pointer (&self->trouble, g_free);
  G_OBJECT_CLASS (hs_question_parent_class)->finalize (object);
}

static void
hs_question_class_init (HsQuestionClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = hs_question_finalize;

  /**
   * HsQuestion::answered:
   *
   * hs_question_get() or hs_question_get_trouble() has something new.
   */
  signals[ANSWERED] = g_signal_new ("answered", HS_TYPE_QUESTION, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE,
                                    0);
}

static void
hs_question_init (HsQuestion *self)
{
  self->awake = TRUE;
}

HsQuestion *
hs_question_new (HsLedger *ledger, HsLedgerFunc func, GDestroyNotify free_answer)
{
  HsQuestion *self;

  g_return_val_if_fail (HS_IS_LEDGER (ledger), NULL);
  g_return_val_if_fail (func != NULL && free_answer != NULL, NULL);

  self = g_object_new (HS_TYPE_QUESTION, NULL);
  self->ledger = g_object_ref (ledger);
  self->func = func;
  self->free_answer = free_answer;
  g_signal_connect_object (ledger, "changed", G_CALLBACK (hs_question_changed_cb), self, 0);
  return self;
}

void
hs_question_ask (HsQuestion *self, GVariant *args)
{
  g_return_if_fail (HS_IS_QUESTION (self));

  if (args != NULL)
    g_variant_ref_sink (args);
  g_clear_pointer (&self->args, g_variant_unref);
  self->args = args;
  hs_question_send (self);
}

void
hs_question_forget (HsQuestion *self)
{
  g_return_if_fail (HS_IS_QUESTION (self));

  self->stamp++;
  self->asking = FALSE;
  self->has_asked = FALSE;
  self->stale = FALSE;
  g_clear_pointer (&self->args, g_variant_unref);
  g_clear_pointer (&self->snapshot, hs_snapshot_unref);
  g_clear_pointer (&self->trouble, g_free);
}

void
hs_question_set_awake (HsQuestion *self, gboolean awake)
{
  g_return_if_fail (HS_IS_QUESTION (self));

  self->awake = awake;
  if (awake && self->stale && self->has_asked)
    hs_question_send (self);
}

gpointer
hs_question_get (HsQuestion *self)
{
  g_return_val_if_fail (HS_IS_QUESTION (self), NULL);

  return hs_snapshot_get (self->snapshot);
}

HsSnapshot *
hs_question_get_snapshot (HsQuestion *self)
{
  g_return_val_if_fail (HS_IS_QUESTION (self), NULL);

  return self->snapshot;
}

const char *
hs_question_get_trouble (HsQuestion *self)
{
  g_return_val_if_fail (HS_IS_QUESTION (self), NULL);

  return self->trouble;
}

gboolean
hs_question_is_asking (HsQuestion *self)
{
  g_return_val_if_fail (HS_IS_QUESTION (self), FALSE);

  return self->asking;
}
