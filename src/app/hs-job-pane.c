// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The base of the faces of a job's page: it holds the job as it was shown last, and where typed text is kept. */

#include "hs-job-pane.h"

typedef struct
{
  char *job_id;
  HsDraft *draft;
  HsSnapshot *snapshot;
  GHashTable *typed; /* field to text */
} HsJobPanePrivate;

G_DEFINE_ABSTRACT_TYPE_WITH_PRIVATE (HsJobPane, hs_job_pane, HS_TYPE_PAGE)

static HsJobPanePrivate *
private_of (gpointer pane)
{
  return hs_job_pane_get_instance_private (HS_JOB_PANE (pane));
}

static void
hs_job_pane_finalize (GObject *object)
{
  HsJobPanePrivate *priv = private_of (object);

  g_free (priv->job_id);
  g_hash_table_unref (priv->typed);
  g_clear_object (&priv->draft);
  g_clear_pointer (&priv->snapshot, hs_snapshot_unref);
  G_OBJECT_CLASS (hs_job_pane_parent_class)->finalize (object);
}

static void
hs_job_pane_class_init (HsJobPaneClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = hs_job_pane_finalize;
}

static void
hs_job_pane_init (HsJobPane *self)
{
  private_of (self)->typed = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  gtk_widget_add_css_class (GTK_WIDGET (self), "hs-pane");
}

void
hs_job_pane_set_job (HsJobPane *self, const char *job_id, HsDraft *draft)
{
  HsJobPanePrivate *priv;

  g_return_if_fail (HS_IS_JOB_PANE (self) && job_id != NULL);

  priv = private_of (self);
  if (g_strcmp0 (priv->job_id, job_id) != 0)
    g_hash_table_remove_all (priv->typed);
  g_free (priv->job_id);
  priv->job_id = g_strdup (job_id);
  g_set_object (&priv->draft, draft);
}

const char *
hs_job_pane_get_job_id (HsJobPane *self)
{
  g_return_val_if_fail (HS_IS_JOB_PANE (self), NULL);

  return private_of (self)->job_id;
}

void
hs_job_pane_show (HsJobPane *self, HsSnapshot *snapshot)
{
  HsJobPanePrivate *priv;
  HsSnapshot *held;

  g_return_if_fail (HS_IS_JOB_PANE (self) && hs_snapshot_get (snapshot) != NULL);

  priv = private_of (self);
  held = hs_snapshot_ref (snapshot);
  g_clear_pointer (&priv->snapshot, hs_snapshot_unref);
  priv->snapshot = held;
  HS_JOB_PANE_GET_CLASS (self)->show (self, hs_snapshot_get (held));
}

const HsJobShot *
hs_job_pane_get_shot (HsJobPane *self)
{
  g_return_val_if_fail (HS_IS_JOB_PANE (self), NULL);

  return hs_snapshot_get (private_of (self)->snapshot);
}

gboolean
hs_job_pane_is_frozen (HsJobPane *self)
{
  const HsJobShot *shot = hs_job_pane_get_shot (self);

  return shot != NULL && shot->view->tag->stage == HS_STAGE_SQUARED;
}

gboolean
hs_job_pane_tell_frozen (HsJobPane *self)
{
  if (!hs_job_pane_is_frozen (self))
    return FALSE;
  hs_page_tell (HS_PAGE (self), hs_page_say_frozen ());
  return TRUE;
}

HsSnapshot *
hs_job_pane_get_snapshot (HsJobPane *self)
{
  g_return_val_if_fail (HS_IS_JOB_PANE (self), NULL);

  return private_of (self)->snapshot;
}

HsDraft *
hs_job_pane_get_draft (HsJobPane *self)
{
  g_return_val_if_fail (HS_IS_JOB_PANE (self), NULL);

  return private_of (self)->draft;
}

/* Back at what was typed one goes on behind it: a selection would be written over by the next key. */
static void
go_to_end (HsJobPane *self)
{
  GtkWidget *focus = hs_page_get_focus (HS_PAGE (self));

  if (GTK_IS_EDITABLE (focus) && gtk_editable_get_selection_bounds (GTK_EDITABLE (focus), NULL, NULL))
    gtk_editable_set_position (GTK_EDITABLE (focus), -1);
}

void
hs_job_pane_go (HsJobPane *self, const char *field, const char *text)
{
  g_return_if_fail (HS_IS_JOB_PANE (self));

  if (field != NULL && text != NULL)
    g_hash_table_insert (private_of (self)->typed, g_strdup (field), g_strdup (text));
  if (HS_JOB_PANE_GET_CLASS (self)->go != NULL)
    HS_JOB_PANE_GET_CLASS (self)->go (self, field, text);
  go_to_end (self);
}

char *
hs_job_pane_dup_field (HsJobPane *self, GtkWidget *focus)
{
  HsJobPaneClass *klass;
  char *field = NULL;

  g_return_val_if_fail (HS_IS_JOB_PANE (self), NULL);

  klass = HS_JOB_PANE_GET_CLASS (self);
  if (klass->dup_field != NULL && focus != NULL && gtk_widget_is_ancestor (focus, GTK_WIDGET (self)))
    field = klass->dup_field (self, focus);
  return field != NULL ? field : g_strdup (HS_WHERE_HERE);
}

void
hs_job_pane_note (HsJobPane *self, const char *page, const char *field, const char *text)
{
  HsJobPanePrivate *priv;

  g_return_if_fail (HS_IS_JOB_PANE (self) && page != NULL && field != NULL);

  priv = private_of (self);
  g_hash_table_insert (priv->typed, g_strdup (field), g_strdup (text != NULL ? text : ""));
  if (priv->draft != NULL)
    hs_draft_note (priv->draft, priv->job_id, page, field, text);
}

void
hs_job_pane_leave (HsJobPane *self, const char *page, const char *field)
{
  HsJobPanePrivate *priv;

  g_return_if_fail (HS_IS_JOB_PANE (self) && page != NULL && field != NULL);

  priv = private_of (self);
  if (priv->draft != NULL)
    hs_draft_note (priv->draft, priv->job_id, page, field, "");
}

const char *
hs_job_pane_get_typed (HsJobPane *self, const char *field)
{
  const char *text;

  g_return_val_if_fail (HS_IS_JOB_PANE (self) && field != NULL, NULL);

  text = g_hash_table_lookup (private_of (self)->typed, field);
  return text != NULL && *text != '\0' ? text : NULL;
}

void
hs_job_pane_forget (HsJobPane *self, const char *page)
{
  HsJobPanePrivate *priv;

  g_return_if_fail (HS_IS_JOB_PANE (self) && page != NULL);

  priv = private_of (self);
  g_hash_table_remove_all (priv->typed);
  if (priv->draft != NULL)
    hs_draft_forget (priv->draft, priv->job_id, page);
}
