// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Visits as lines and the labor clock as a figure that goes on by itself while somebody is at the vehicle. */

#include "hs-visit-card.h"

#include <glib/gi18n.h>

#include "hs-deed-arrive.h"
#include "hs-key-button.h"
#include "hs-line-list.h"
#include "hs-show.h"

#define SECONDS_BETWEEN 15

struct _HsVisitCard
{
  HsJobPane parent_instance;

  GtkLabel *minutes;
  GtkLabel *state;
  HsKeyButton *turn;
  HsKeyButton *safety;
  GtkBox *lines;

  guint tick;
};

G_DEFINE_FINAL_TYPE (HsVisitCard, hs_visit_card, HS_TYPE_JOB_PANE)

static gint64
sum_seconds (HsVisitCard *self, const HsArrival *arrival)
{
  const HsVisitView *open = hs_arrival_open_visit (arrival);
  gint64 seconds = 0;

  for (guint i = 0; i < arrival->visits->len; i++)
    seconds += ((const HsVisitView *) g_ptr_array_index (arrival->visits, i))->seconds;
  if (open != NULL && hs_visit_view_runs (open))
    seconds += MAX (0, hs_ledger_get_now (hs_page_get_ledger (HS_PAGE (self))) - arrival->now);
  return seconds;
}

static void
show_minutes (HsVisitCard *self)
{
  const HsJobShot *shot = hs_job_pane_get_shot (HS_JOB_PANE (self));
  g_autofree char *span = NULL;

  if (shot == NULL)
    return;
  span = hs_show_span (sum_seconds (self, shot->arrival));
  gtk_label_set_label (self->minutes, span);
}

static gboolean
tick_cb (gpointer data)
{
  show_minutes (data);
  return G_SOURCE_CONTINUE;
}

static char *
dup_line (HsVisitCard *self, const HsVisitView *view)
{
  HsLedger *ledger = hs_page_get_ledger (HS_PAGE (self));
  g_autofree char *rolling = hs_show_clock (ledger, view->rolling_at);
  g_autofree char *arrived = hs_show_clock (ledger, view->arrived_at);
  g_autofree char *left = hs_show_clock (ledger, view->left_at);
  g_autofree char *out = *rolling != '\0' ? g_strdup_printf (_("rolling %s"), rolling) : g_strdup ("");
  g_autofree char *there = *arrived != '\0' ? g_strdup_printf (_("arrived %s"), arrived) : g_strdup ("");
  g_autofree char *gone = *left != '\0' ? g_strdup_printf (_("left %s"), left) : g_strdup ("");
  g_autofree char *span = hs_show_span (view->paused_seconds);
  g_autofree char *stood = view->paused_seconds >= 60 ? g_strdup_printf (_("%s off the clock"), span) : g_strdup ("");

  return hs_show_joined (out, there, gone, stood, view->safe_note != NULL ? view->safe_note : "", NULL);
}

static void
show_lines (HsVisitCard *self, const HsArrival *arrival)
{
  hs_line_list_clear (self->lines);
  for (guint i = 0; i < arrival->visits->len; i++)
    {
      const HsVisitView *view = g_ptr_array_index (arrival->visits, i);
      g_autofree char *line = dup_line (self, view);
      g_autofree char *span = view->arrived_at != HS_INSTANT_NONE ? hs_show_span (view->seconds) : NULL;

      hs_line_list_add (self->lines, line, span, NULL);
    }
  if (arrival->visits->len == 0)
    hs_line_list_add (self->lines, _("Nobody has set out yet."), NULL, "hs-soft");
}

static void
show_state (HsVisitCard *self, const HsJobShot *shot)
{
  const HsVisitView *open = hs_arrival_open_visit (shot->arrival);
  gboolean runs = open != NULL && hs_visit_view_runs (open);
  gboolean unsafe = shot->arrival->safety->n_open > 0 || shot->arrival->safety->n_not_so > 0;
  gboolean may_turn = open != NULL && shot->view->tag->stage != HS_STAGE_SQUARED;

  gtk_label_set_label (self->state, open == NULL ? _("on the labor clock")
                                    : runs       ? _("on the labor clock, running")
                                                 : _("on the labor clock, which stands still"));
  gtk_widget_set_visible (GTK_WIDGET (self->turn), may_turn);
  hs_key_button_set_text (self->turn, unsafe ? _("Make Safe")
                                      : runs ? _("Stop the Clock")
                                             : _("Start the Clock"));
  gtk_widget_set_visible (GTK_WIDGET (self->safety), may_turn && !unsafe);
}

static void
show_job (HsJobPane *pane, const HsJobShot *shot)
{
  HsVisitCard *self = HS_VISIT_CARD (pane);

  show_minutes (self);
  show_lines (self, shot->arrival);
  show_state (self, shot);
}

typedef struct
{
  HsPage *page;
  gboolean run;
} Turn;

static void
turned_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autofree Turn *turn = data;
  g_autoptr (HsPage) page = turn->page;
  g_autoptr (GError) error = NULL;
  const char *done = turn->run ? _("The labor clock runs.") : _("The labor clock stands still.");

  if (!hs_ledger_task_finish (HS_LEDGER (source), result, NULL, &error))
    hs_page_tell (page, error->message);
  else
    hs_page_tell (page, done);
}

void
hs_visit_card_turn (HsPage *page, const char *job_id, const HsJobShot *shot)
{
  const HsVisitView *open;
  Turn *turn;

  g_return_if_fail (HS_IS_PAGE (page) && job_id != NULL && shot != NULL);

  open = hs_arrival_open_visit (shot->arrival);
  turn = g_new0 (Turn, 1);
  turn->page = g_object_ref (page);
  turn->run = open != NULL && !hs_visit_view_runs (open);
  hs_deed_run_clock (hs_page_get_ledger (page), job_id, turn->run, turned_cb, turn);
}

static void
map (GtkWidget *widget)
{
  HsVisitCard *self = HS_VISIT_CARD (widget);

  GTK_WIDGET_CLASS (hs_visit_card_parent_class)->map (widget);
  show_minutes (self);
  if (self->tick == 0)
    self->tick = g_timeout_add_seconds (SECONDS_BETWEEN, tick_cb, self);
}

static void
unmap (GtkWidget *widget)
{
  g_clear_handle_id (&HS_VISIT_CARD (widget)->tick, g_source_remove);
  GTK_WIDGET_CLASS (hs_visit_card_parent_class)->unmap (widget);
}

static void
hs_visit_card_class_init (HsVisitCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  HS_JOB_PANE_CLASS (klass)->show = show_job;
  widget_class->map = map;
  widget_class->unmap = unmap;
  g_type_ensure (HS_TYPE_KEY_BUTTON);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-visit-card.ui");
  gtk_widget_class_bind_template_child (widget_class, HsVisitCard, minutes);
  gtk_widget_class_bind_template_child (widget_class, HsVisitCard, state);
  gtk_widget_class_bind_template_child (widget_class, HsVisitCard, turn);
  gtk_widget_class_bind_template_child (widget_class, HsVisitCard, safety);
  gtk_widget_class_bind_template_child (widget_class, HsVisitCard, lines);
}

static void
hs_visit_card_init (HsVisitCard *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
