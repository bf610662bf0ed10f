// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* F4: one key, one stage further. The book decides whether the job may go there; its words are shown as they are. */

#include "hs-mover.h"

#include <glib/gi18n.h>

#include "hs-ask-arrive.h"
#include "hs-ask-way.h"
#include "hs-deed.h"
#include "hs-job-page.h"
#include "hs-ops-error.h"
#include "hs-roll-window.h"
#include "hs-safety-window.h"
#include "hs-square-window.h"
#include "hs-stage-window.h"
#include "hs-way-window.h"

typedef struct _Move Move;

struct _Move
{
  HsPage *page;
  char *job_id;
  char *number;
  HsStage from;
  HsStage to;
  char *reason;
  gboolean counted; /* as a roll under way */
  gboolean anew;    /* what is left was asked for a second time */
  Move *then;       /* (nullable): another job that goes on once this one got there */
};

static Move *
move_new (HsPage *page, const char *job_id, const char *number, HsStage from, HsStage to, const char *reason)
{
  Move *move = g_new0 (Move, 1);

  move->page = g_object_ref (page);
  move->job_id = g_strdup (job_id);
  move->number = g_strdup (number);
  move->from = from;
  move->to = to;
  move->reason = g_strdup (reason);
  return move;
}

static void
move_free (Move *move)
{
  g_clear_pointer (&move->then, move_free);
  g_object_unref (move->page);
  g_free (move->job_id);
  g_free (move->number);
  g_free (move->reason);
  g_free (move);
}

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Move, move_free)

static void
tell_squared (HsWindow *window, gpointer data)
{
  g_autofree char *text = NULL;

  /* Translators: a job's number and that it is squared up. */
  text = g_strdup_printf (_("“%s” can’t be taken back. Write a return visit or a credit."), (const char *) data);
  hs_window_toast (window, text, NULL, NULL);
}

typedef struct
{
  HsPage *page;
  char *job_id;
  char *number;
} Arrived;

/* A list that was answered on this visit already does not come again. */
static void
arrival_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autofree Arrived *arrived = data;
  g_autoptr (HsPage) page = arrived->page;
  g_autofree char *job_id = arrived->job_id;
  g_autofree char *number = arrived->number;
  g_autoptr (HsArrival) arrival = NULL;

  if (hs_ledger_task_finish (HS_LEDGER (source), result, (gpointer *) &arrival, NULL) && arrival != NULL
      && arrival->safety->n_open > 0 && hs_arrival_open_visit (arrival) != NULL
      && gtk_widget_get_root (GTK_WIDGET (page)) != NULL)
    hs_safety_window_present (page, job_id, number);
}

static void
ask_safety (HsPage *page, const char *job_id, const char *number)
{
  Arrived *arrived = g_new0 (Arrived, 1);

  arrived->page = g_object_ref (page);
  arrived->job_id = g_strdup (job_id);
  arrived->number = g_strdup (number);
  hs_ledger_ask_async (hs_page_get_ledger (page), hs_ask_arrival, g_variant_new ("(s)", job_id),
                       (GDestroyNotify) hs_arrival_free, arrival_cb, arrived);
}

/* On the job's own page what comes next is to be paid. */
static void
go_to_bill (HsWindow *window, const char *number)
{
  GtkWidget *job = hs_window_get_job (window);

  if (HS_IS_JOB_PAGE (job) && g_strcmp0 (hs_job_page_get_number (HS_JOB_PAGE (job)), number) == 0)
    hs_job_page_go (HS_JOB_PAGE (job), "bill", NULL, NULL);
}

void
hs_mover_tell_in (HsWindow *window, const char *number, HsStage to)
{
  g_autofree char *done = hs_mover_dup_act (number, to);

  hs_window_toast (window, done, NULL, NULL);
  /* What squaring froze comes back no more, and with it every step of the job before it. */
  if (to != HS_STAGE_SQUARED)
    return;
  hs_window_did (window, done, tell_squared, g_strdup (done), g_free);
  go_to_bill (window, number);
}

void
hs_mover_tell (HsPage *page, const char *number, HsStage to)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (page));

  if (HS_IS_WINDOW (root))
    hs_mover_tell_in (HS_WINDOW (root), number, to);
}

/* A fee that was charged never goes without a word. */
static void
tell_without_fee (HsPage *page, const char *number, HsStage to, const char *fee)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (page));
  g_autofree char *done = hs_mover_dup_act (number, to);
  /* Translators: a call and its stage, then a sum of money that was asked because the call had been called off. */
  g_autofree char *text = g_strdup_printf (_("%s. The fee of %s is off the bill."), done, fee);

  if (HS_IS_WINDOW (root))
    hs_window_toast (HS_WINDOW (root), text, NULL, NULL);
}

void
hs_mover_moved (HsPage *page, const char *job_id, const char *number, HsStage to, const char *fee)
{
  if (fee != NULL)
    tell_without_fee (page, number, to, fee);
  else
    hs_mover_tell (page, number, to);
  if (to == HS_STAGE_ON_SITE)
    ask_safety (page, job_id, number);
  else if (to == HS_STAGE_ROLLING && gtk_widget_get_root (GTK_WIDGET (page)) != NULL)
    hs_way_window_present (page, job_id, number);
}

/* One roll at a time from a page: F4 pressed again meanwhile is the same F4. */
#define ROLLS "hs-mover-rolls"

static gboolean
is_rolling_off (HsPage *page)
{
  return g_object_get_data (G_OBJECT (page), ROLLS) != NULL;
}

static void
count_roll (HsPage *page, int change)
{
  g_object_set_data (G_OBJECT (page), ROLLS,
                     GINT_TO_POINTER (GPOINTER_TO_INT (g_object_get_data (G_OBJECT (page), ROLLS)) + change));
}

void
hs_mover_bar (HsPage *page, const char *job_id, const char *number, HsStage from, const char *reason)
{
  hs_safety_window_bar (hs_safety_window_present (page, job_id, number), from, reason);
}

static void ask (Move *move, gboolean anew);

/* Refused: why, and the other ways there are. */
static void
refuse (const Move *move, const char *why)
{
  HsStageWindow *window = hs_stage_window_present (move->page, move->job_id, move->number, move->from, move->to, why);

  if (move->reason != NULL)
    hs_stage_window_set_reason (window, move->reason);
}

static void
moved_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (Move) move = data;
  g_autofree char *fee = NULL;
  g_autoptr (GError) error = NULL;

  if (move->counted)
    count_roll (move->page, -1);
  if (!hs_ledger_task_finish (HS_LEDGER (source), result, (gpointer *) &fee, &error))
    {
      if (gtk_widget_get_root (GTK_WIDGET (move->page)) == NULL)
        return;
      if (g_error_matches (error, HS_OPS_ERROR, HS_OPS_ERROR_UNREAD))
        hs_mover_bar (move->page, move->job_id, move->number, move->from, move->reason);
      else if (g_error_matches (error, HS_OPS_ERROR, HS_OPS_ERROR_LEAVES_OPEN) && !move->anew)
        ask (g_steal_pointer (&move), TRUE);
      else
        refuse (move, error->message);
      return;
    }
  hs_mover_moved (move->page, move->job_id, move->number, move->to, fee);
  if (move->then != NULL && gtk_widget_get_root (GTK_WIDGET (move->page)) != NULL)
    ask (g_steal_pointer (&move->then), FALSE);
}

/* @move: (transfer full) */
static void
go_off (Move *move, gboolean leave)
{
  move->counted = TRUE;
  count_roll (move->page, 1);
  hs_deed_go (hs_page_get_ledger (move->page), move->job_id, move->to, move->reason, leave, moved_cb, move);
}

void
hs_mover_go_off (HsPage *page, const char *job_id, const char *number, HsStage from, HsStage to, const char *reason,
                 gboolean leave)
{
  g_return_if_fail (HS_IS_PAGE (page));
  g_return_if_fail (job_id != NULL && number != NULL);

  go_off (move_new (page, job_id, number, from, to, reason), leave);
}

void
hs_mover_move (HsPage *page, const char *job_id, const char *number, HsStage from, HsStage to, const char *reason)
{
  g_return_if_fail (HS_IS_PAGE (page));
  g_return_if_fail (job_id != NULL && number != NULL);

  if (to == HS_STAGE_ROLLING)
    {
      hs_mover_go_off (page, job_id, number, from, to, reason, FALSE);
      return;
    }
  hs_deed_move_stage (hs_page_get_ledger (page), job_id, to, reason, moved_cb,
                      move_new (page, job_id, number, from, to, reason));
}

void
hs_mover_finish_and_go (HsPage *page, const HsRollLeft *left, const char *job_id, const char *number, HsStage from,
                        HsStage to, const char *reason)
{
  Move *move;

  g_return_if_fail (HS_IS_PAGE (page));
  g_return_if_fail (left != NULL && job_id != NULL && number != NULL);

  move = move_new (page, left->job_id, left->number, HS_STAGE_ON_SITE, HS_STAGE_PROVEN, NULL);
  move->then = move_new (page, job_id, number, from, to, reason);
  hs_deed_move_stage (hs_page_get_ledger (page), left->job_id, HS_STAGE_PROVEN, NULL, moved_cb, move);
}

static void
roll_window_gone_cb (HsPage *page)
{
  count_roll (page, -1);
}

/* What can't be looked ahead at does not keep the van. */
static void
asked_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (Move) move = data;
  g_autoptr (HsRollOutlook) outlook = NULL;
  HsPage *page = move->page;

  if (hs_ledger_task_finish (HS_LEDGER (source), result, (gpointer *) &outlook, NULL) && outlook != NULL
      && !hs_roll_outlook_is_clear (outlook) && gtk_widget_get_root (GTK_WIDGET (page)) != NULL)
    {
      HsRollWindow *window = hs_roll_window_present (page, move->job_id, move->number, move->from, move->to,
                                                     move->reason, g_steal_pointer (&outlook));

      g_signal_connect_object (window, "destroy", G_CALLBACK (roll_window_gone_cb), page, G_CONNECT_SWAPPED);
      return;
    }
  go_off (g_steal_pointer (&move), FALSE);
  count_roll (page, -1);
}

/* @move: (transfer full); @anew: it was refused for what is left; once, so that nobody is asked without end. */
static void
ask (Move *move, gboolean anew)
{
  if (is_rolling_off (move->page))
    {
      move_free (move);
      return;
    }
  move->anew = anew;
  count_roll (move->page, 1);
  hs_ledger_ask_async (hs_page_get_ledger (move->page), hs_ask_roll,
                       g_variant_new ("(si)", move->job_id, (gint32) move->to),
                       (GDestroyNotify) hs_roll_outlook_free, asked_cb, move);
}

void
hs_mover_ask_anew (HsPage *page, const char *job_id, const char *number, HsStage from, HsStage to, const char *reason)
{
  g_return_if_fail (HS_IS_PAGE (page));
  g_return_if_fail (job_id != NULL && number != NULL);

  ask (move_new (page, job_id, number, from, to, reason), TRUE);
}

void
hs_mover_roll (HsPage *page, const char *job_id, const char *number, HsStage from, const char *reason)
{
  g_return_if_fail (HS_IS_PAGE (page));
  g_return_if_fail (job_id != NULL && number != NULL);

  ask (move_new (page, job_id, number, from, HS_STAGE_ROLLING, reason), FALSE);
}

void
hs_mover_next (HsPage *page, const char *job_id, const char *number, HsStage from)
{
  HsStage to;

  g_return_if_fail (HS_IS_PAGE (page));
  g_return_if_fail (job_id != NULL && number != NULL);

  if (!hs_stage_next (from, &to))
    {
      hs_stage_window_present (page, job_id, number, from, from, _("This job is at the end of its road."));
      return;
    }
  /* What freezes is asked for. */
  if (to == HS_STAGE_SQUARED)
    {
      hs_square_window_present (page, job_id, number);
      return;
    }
  if (to == HS_STAGE_ROLLING)
    hs_mover_roll (page, job_id, number, from, NULL);
  else
    hs_mover_move (page, job_id, number, from, to, NULL);
}

char *
hs_mover_dup_act (const char *number, HsStage to)
{
  /* Translators: a job's number and a stage that it reaches. */
  return g_strdup_printf (_("%s: %s"), number, _(hs_stage_label (to)));
}

char *
hs_mover_dup_next (const char *number, HsStage from)
{
  HsStage to;

  return hs_stage_next (from, &to) ? hs_mover_dup_act (number, to) : NULL;
}
