// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Typed text on its way to the disk. The wait starts with the first key that is not on disk and is not put off by the
 * next ones, so that a power cut costs at most the keys of that wait. A save that fails is tried again with the next
 * key; the ledger's message tells meanwhile. */

#include "hs-draft.h"

#include "hs-deed.h"

struct _HsDraft
{
  GObject parent_instance;

  HsLedger *ledger;
  char *job_id;
  char *page;
  char *field;
  char *text;
  gboolean dirty;
  guint source;
};

G_DEFINE_FINAL_TYPE (HsDraft, hs_draft, G_TYPE_OBJECT)

enum
{
  SAVED,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

static void
hs_draft_saved_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsDraft) self = HS_DRAFT (data);

  if (!hs_ledger_task_finish (HS_LEDGER (source), result, NULL, NULL))
    self->dirty = TRUE;
  else if (!self->dirty)
    g_signal_emit (self, signals[SAVED], 0);
}

static void
hs_draft_forgotten_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsDraft) self = HS_DRAFT (data);

  /* What was typed is in the book as such; a draft that stays behind is only offered once more. */
  if (hs_ledger_task_finish (HS_LEDGER (source), result, NULL, NULL) && !self->dirty)
    g_signal_emit (self, signals[SAVED], 0);
}

static void
hs_draft_save (HsDraft *self)
{
  self->dirty = FALSE;
  hs_deed_save_where (self->ledger, self->job_id, self->page, self->field, self->text, hs_draft_saved_cb,
                      g_object_ref (self));
}

static gboolean
hs_draft_due_cb (gpointer data)
{
  HsDraft *self = HS_DRAFT (data);

  self->source = 0;
  if (self->dirty)
    hs_draft_save (self);
  return G_SOURCE_REMOVE;
}

static void
hs_draft_finalize (GObject *object)
{
  HsDraft *self = HS_DRAFT (object);

  g_clear_handle_id (&self->source, g_source_remove);
  g_clear_object (&self->ledger);
  g_clear_pointer (&self->job_id, g_free);
  g_clear_pointer (&self->page, g_free);
  g_clear_pointer (&self->field, g_free);
  g_clear_pointer (&self->text, g_free);
  G_OBJECT_CLASS (hs_draft_parent_class)->finalize (object);
}

static void
hs_draft_class_init (HsDraftClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = hs_draft_finalize;

  /**
   * HsDraft::saved:
   *
   * The book has everything that was noted.
   */
  signals[SAVED] = g_signal_new ("saved", HS_TYPE_DRAFT, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
hs_draft_init (HsDraft *self)
{
}

HsDraft *
hs_draft_new (HsLedger *ledger)
{
  HsDraft *self;

  g_return_val_if_fail (HS_IS_LEDGER (ledger), NULL);

  self = g_object_new (HS_TYPE_DRAFT, NULL);
  self->ledger = g_object_ref (ledger);
  return self;
}

static gboolean
hs_draft_take (char **place, const char *text)
{
  if (g_strcmp0 (*place, text) == 0)
    return FALSE;
  g_free (*place);
  *place = g_strdup (text);
  return TRUE;
}

static gboolean
hs_draft_is_at (HsDraft *self, const char *job_id, const char *page)
{
  return g_strcmp0 (self->job_id, job_id) == 0 && g_strcmp0 (self->page, page) == 0;
}

void
hs_draft_note (HsDraft *self, const char *job_id, const char *page, const char *field, const char *text)
{
  gboolean changed;

  g_return_if_fail (HS_IS_DRAFT (self));

  /* The field that was left must not go with its wait: the next one would be written over it. */
  if (self->dirty && (!hs_draft_is_at (self, job_id, page) || g_strcmp0 (self->field, field) != 0))
    hs_draft_flush (self);
  changed = hs_draft_take (&self->job_id, job_id);
  changed |= hs_draft_take (&self->page, page);
  changed |= hs_draft_take (&self->field, field);
  changed |= hs_draft_take (&self->text, text);
  if (!changed && !self->dirty)
    return;
  self->dirty = TRUE;
  if (self->source == 0)
    self->source = g_timeout_add (HS_DRAFT_MILLISECONDS, hs_draft_due_cb, self);
}

void
hs_draft_flush (HsDraft *self)
{
  g_return_if_fail (HS_IS_DRAFT (self));

  g_clear_handle_id (&self->source, g_source_remove);
  if (self->dirty)
    hs_draft_save (self);
}

gboolean
hs_draft_is_kept (HsDraft *self)
{
  g_return_val_if_fail (HS_IS_DRAFT (self), FALSE);

  return !self->dirty;
}

void
hs_draft_forget (HsDraft *self, const char *job_id, const char *page)
{
  g_return_if_fail (HS_IS_DRAFT (self));

  if (hs_draft_is_at (self, job_id, page))
    {
      g_clear_handle_id (&self->source, g_source_remove);
      self->dirty = FALSE;
      g_clear_pointer (&self->field, g_free);
      g_clear_pointer (&self->text, g_free);
    }
  hs_deed_save_where (self->ledger, job_id, page, NULL, NULL, hs_draft_forgotten_cb, g_object_ref (self));
}

void
hs_draft_visit (HsDraft *self, const char *job_id, const char *page, const char *field)
{
  gboolean here;

  g_return_if_fail (HS_IS_DRAFT (self) && job_id != NULL && page != NULL && field != NULL);

  here = hs_draft_is_at (self, job_id, page);
  if (here && (g_strcmp0 (self->field, field) == 0
               || (g_str_equal (field, HS_WHERE_HERE) && self->text != NULL && *self->text != '\0')))
    return;
  hs_draft_flush (self);
  hs_draft_take (&self->job_id, job_id);
  hs_draft_take (&self->page, page);
  hs_draft_take (&self->field, field);
  g_clear_pointer (&self->text, g_free);
  hs_deed_visit_where (self->ledger, job_id, page, field, hs_draft_forgotten_cb, g_object_ref (self));
}

void
hs_draft_leave (HsDraft *self, const char *job_id, gboolean worked)
{
  g_return_if_fail (HS_IS_DRAFT (self) && job_id != NULL);

  hs_draft_flush (self);
  if (g_strcmp0 (self->job_id, job_id) == 0)
    {
      g_clear_pointer (&self->page, g_free);
      g_clear_pointer (&self->field, g_free);
      g_clear_pointer (&self->text, g_free);
    }
  hs_deed_leave_where (self->ledger, job_id, worked, hs_draft_forgotten_cb, g_object_ref (self));
}
