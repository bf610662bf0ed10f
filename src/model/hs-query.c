// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A question that is asked again whenever it must be. Every asking gets a number; an answer whose number is not the
 * newest is dropped, so that fast typing never shows an older search. */

#include "hs-query.h"

struct _HsQuery
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
  guint asking;
  HsSnapshot *snapshot;
  char *trouble;
};

G_DEFINE_FINAL_TYPE (HsQuery, hs_query, G_TYPE_OBJECT)

enum
{
  ANSWERED,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

typedef struct
{
  HsQuery *query;
  guint stamp;
} HsQueryAsking;

static void
hs_query_answered_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autofree HsQueryAsking *asking = data;
  g_autoptr (HsQuery) self = asking->query;
  g_autoptr (GError) error = NULL;
  gpointer answer = NULL;

  self->asking--;
  if (!hs_ledger_task_finish (HS_LEDGER (source), result, &answer, &error))
    answer = NULL;
  if (asking->stamp != self->stamp)
    {
      if (answer != NULL)
        self->free_answer (answer);
      return;
    }

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
hs_query_send (HsQuery *self)
{
  HsQueryAsking *asking = g_new0 (HsQueryAsking, 1);

  self->stale = FALSE;
  self->has_asked = TRUE;
  self->asking++;
  asking->query = g_object_ref (self);
  asking->stamp = ++self->stamp;
  hs_ledger_ask_async (self->ledger, self->func, self->args, self->free_answer, hs_query_answered_cb, asking);
}

static void
hs_query_changed_cb (HsLedger *ledger, gpointer data)
{
  HsQuery *self = HS_QUERY (data);

  if (!self->has_asked)
    return;
  if (self->awake)
    hs_query_send (self);
  else
    self->stale = TRUE;
}

static void
hs_query_finalize (GObject *object)
{
  HsQuery *self = HS_QUERY (object);

  g_clear_object (&self->ledger);
  g_clear_pointer (&self->args, g_variant_unref);
  g_clear_pointer (&self->snapshot, hs_snapshot_unref);
  g_clear_pointer (&self->trouble, g_free);
  G_OBJECT_CLASS (hs_query_parent_class)->finalize (object);
}

static void
hs_query_class_init (HsQueryClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = hs_query_finalize;

  /**
   * HsQuery::answered:
   *
   * hs_query_get() or hs_query_get_trouble() has something new.
   */
  signals[ANSWERED] = g_signal_new ("answered", HS_TYPE_QUERY, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
hs_query_init (HsQuery *self)
{
  self->awake = TRUE;
}

HsQuery *
hs_query_new (HsLedger *ledger, HsLedgerFunc func, GDestroyNotify free_answer)
{
  HsQuery *self;

  g_return_val_if_fail (HS_IS_LEDGER (ledger), NULL);
  g_return_val_if_fail (func != NULL && free_answer != NULL, NULL);

  self = g_object_new (HS_TYPE_QUERY, NULL);
  self->ledger = g_object_ref (ledger);
  self->func = func;
  self->free_answer = free_answer;
  g_signal_connect_object (ledger, "changed", G_CALLBACK (hs_query_changed_cb), self, 0);
  return self;
}

void
hs_query_ask (HsQuery *self, GVariant *args)
{
  g_return_if_fail (HS_IS_QUERY (self));

  if (args != NULL)
    g_variant_ref_sink (args);
  g_clear_pointer (&self->args, g_variant_unref);
  self->args = args;
  hs_query_send (self);
}

void
hs_query_forget (HsQuery *self)
{
  g_return_if_fail (HS_IS_QUERY (self));

  self->stamp++;
  self->has_asked = FALSE;
  self->stale = FALSE;
  g_clear_pointer (&self->args, g_variant_unref);
  g_clear_pointer (&self->snapshot, hs_snapshot_unref);
  g_clear_pointer (&self->trouble, g_free);
}

void
hs_query_set_awake (HsQuery *self, gboolean awake)
{
  g_return_if_fail (HS_IS_QUERY (self));

  self->awake = awake;
  if (awake && self->stale && self->has_asked)
    hs_query_send (self);
}

gpointer
hs_query_get (HsQuery *self)
{
  g_return_val_if_fail (HS_IS_QUERY (self), NULL);

  return hs_snapshot_get (self->snapshot);
}

HsSnapshot *
hs_query_get_snapshot (HsQuery *self)
{
  g_return_val_if_fail (HS_IS_QUERY (self), NULL);

  return self->snapshot;
}

const char *
hs_query_get_trouble (HsQuery *self)
{
  g_return_val_if_fail (HS_IS_QUERY (self), NULL);

  return self->trouble;
}

gboolean
hs_query_is_asking (HsQuery *self)
{
  g_return_val_if_fail (HS_IS_QUERY (self), FALSE);

  return self->asking > 0;
}
