// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What the page of why it failed writes. Each act is one deed; what the rules refuse is told in their own sentence, at
 * the field that it is about where there is one. */

#include "hs-chain-pane-private.h"

#include <glib/gi18n.h>

#include "hs-deed-chain.h"

/* Only one act at a time: the next one is about a chain that the page has not seen yet. */
static gboolean
begin (HsChainPane *self)
{
  if (self->writing)
    return FALSE;
  self->writing = TRUE;
  return TRUE;
}

static void
done_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsChainPane) self = HS_CHAIN_PANE (data);
  g_autoptr (GError) error = NULL;

  self->writing = FALSE;
  if (hs_ledger_task_finish (HS_LEDGER (source), result, NULL, &error))
    {
      self->stale = TRUE;
      return;
    }
  g_array_set_size (self->held, 0);
  hs_page_tell (HS_PAGE (self), error->message);
}

static void
told_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsChainPane) self = HS_CHAIN_PANE (data);
  g_autoptr (GError) error = NULL;
  char *finding = NULL;

  self->writing = FALSE;
  if (!hs_ledger_task_finish (HS_LEDGER (source), result, (gpointer *) &finding, &error))
    {
      /* What was keyed on was about a chain that did not come about. */
      g_array_set_size (self->held, 0);
      hs_chain_entry_refuse (self->entry, error->message);
      return;
    }
  if (finding != NULL)
    {
      g_free (self->then_finding);
      self->then_finding = finding;
    }
  self->stale = TRUE;
  hs_chain_pane_close (self);
}

static void
write_link (HsChainPane *self, const HsChainTask *task)
{
  static const char *const kinds[] = { "reading", "photo", "seen", "said" };
  HsLedger *ledger = hs_page_get_ledger (HS_PAGE (self));
  const char *job_id = hs_job_pane_get_job_id (HS_JOB_PANE (self));
  HsFindingEntry cause = { .what = task->what, .cause = task->cause_id };
  HsBecauseEntry link = { .kind = kinds[task->by],
                          .reading_id = task->by == HS_CHAIN_BY_READING ? task->reading_id : NULL,
                          .photo_id = task->by == HS_CHAIN_BY_PHOTO ? task->photo_id : NULL,
                          .proof = task->proof };

  if (task->kind == HS_CHAIN_TASK_RULE_OUT)
    cause.role = "ruled_out";
  else if (task->by == HS_CHAIN_BY_WORD)
    {
      cause.role = "customer_said";
      cause.said_by = task->who;
    }
  if (task->finding_id != NULL)
    hs_deed_add_because (ledger, job_id, task->effect_id, task->finding_id, &link, told_cb, g_object_ref (self));
  else
    hs_deed_extend_chain (ledger, job_id, task->effect_id, &cause, &link, told_cb, g_object_ref (self));
}

void
hs_chain_pane_write_task (HsChainPane *self)
{
  const HsChainTask *task = hs_chain_entry_get_task (self->entry);

  if (task == NULL || !begin (self))
    return;
  if (task->kind == HS_CHAIN_TASK_ASK)
    hs_deed_add_answer (hs_page_get_ledger (HS_PAGE (self)), hs_job_pane_get_job_id (HS_JOB_PANE (self)),
                        task->question_id, task->answer, task->who, told_cb, g_object_ref (self));
  else
    write_link (self, task);
}

/* (nullable): the chosen row, if there is a finding behind it in the book. */
static const HsChainFace *
get_written (HsChainPane *self)
{
  const HsChainFace *face = hs_chain_view_get_chosen (self->view);

  return face != NULL && *face->finding_id != '\0' ? face : NULL;
}

void
hs_chain_pane_settle (HsChainPane *self, HsChainEnd end)
{
  static const char *const ends[] = { NULL, "cured", "chosen", "outside_told", "not_known_told" };
  const HsChainFace *face = get_written (self);

  if (face == NULL)
    {
      hs_page_tell (HS_PAGE (self), _("Say first what is behind it: Enter adds a because."));
      return;
    }
  if (begin (self))
    hs_deed_settle_end (hs_page_get_ledger (HS_PAGE (self)), face->finding_id, face->end == end ? NULL : ends[end],
                        done_cb, g_object_ref (self));
}

void
hs_chain_pane_call (HsChainPane *self)
{
  static const char *const next[] = { "proven", "not_known", "suspected" };
  const HsChainShot *why = hs_chain_pane_get_why (self);
  const HsChainFace *face = get_written (self);
  const HsChainFinding *finding = face != NULL ? hs_chain_find (why->chain->chain, face->finding_id) : NULL;

  if (finding != NULL && begin (self))
    hs_deed_call_finding (hs_page_get_ledger (HS_PAGE (self)), face->finding_id, next[finding->sure], done_cb,
                          g_object_ref (self));
}

void
hs_chain_pane_take_back (HsChainPane *self)
{
  const HsChainFace *face = get_written (self);

  if (face == NULL || !begin (self))
    return;
  if (face->link_id != NULL)
    hs_deed_take_back_link (hs_page_get_ledger (HS_PAGE (self)), face->link_id, done_cb, g_object_ref (self));
  else
    hs_deed_remove_finding (hs_page_get_ledger (HS_PAGE (self)), face->finding_id, done_cb, g_object_ref (self));
}
