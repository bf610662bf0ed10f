// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What the keys of a job's page do: stages, safety, the visit's clock, tabs and faces, print, customer, telephone.
 *
 * Install them on the page's class. They read what the page shows and open what lies over it; they refuse to draw. */

#include "hs-job-page-private.h"

#include <glib/gi18n.h>

#include "hs-call-pane.h"
#include "hs-customer-window.h"
#include "hs-hand-off-window.h"
#include "hs-job-left.h"
#include "hs-mover.h"
#include "hs-pad-key.h"
#include "hs-photo-pane.h"
#include "hs-print-window.h"
#include "hs-safety-window.h"
#include "hs-stage-window.h"
#include "hs-usual-window.h"
#include "hs-visit-card.h"
#include "hs-window.h"

static void
stages_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsJobPage *self = HS_JOB_PAGE (widget);
  const HsJobShot *shot = hs_job_page_get_shot (self);
  HsStage next;

  if (shot == NULL)
    return;
  next = shot->view->tag->stage;
  hs_stage_next (shot->view->tag->stage, &next);
  hs_stage_window_present (HS_PAGE (self), self->job_id, shot->view->tag->number, shot->view->tag->stage, next, NULL);
}

/* To what comes next: the stage, from which Enter goes on. */
static void
point_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  gtk_widget_grab_focus (GTK_WIDGET (HS_JOB_PAGE (widget)->stage));
}

static void
next_stage_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsJobPage *self = HS_JOB_PAGE (widget);
  const HsJobShot *shot = hs_job_page_get_shot (self);
  g_autofree char *open = NULL;

  if (shot == NULL)
    return;
  self->worked = TRUE;
  open = hs_job_left_dup_open (shot);
  if (open != NULL && g_strcmp0 (open, self->told_open) != 0)
    {
      g_free (self->told_open);
      self->told_open = g_steal_pointer (&open);
      hs_page_tell (HS_PAGE (self), self->told_open);
    }
  else
    {
      g_clear_pointer (&self->told_open, g_free);
      hs_mover_next (HS_PAGE (self), self->job_id, shot->view->tag->number, shot->view->tag->stage);
    }
}

void
hs_job_page_open_usual (HsJobPage *self, const char *text)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));
  HsUsualWindow *usual;

  if (!HS_IS_WINDOW (root) || !hs_job_page_takes_findings (self))
    return;
  usual = hs_usual_window_present (GTK_WINDOW (root), HS_WINDOW (root), hs_page_get_ledger (HS_PAGE (self)),
                                   self->draft, self->job_id, NULL, NULL);
  if (text != NULL)
    hs_usual_window_go (usual, text);
}

static void
usual_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  hs_job_page_open_usual (HS_JOB_PAGE (widget), NULL);
}

static void
make_safe_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsJobPage *self = HS_JOB_PAGE (widget);
  const HsJobShot *shot = hs_job_page_get_shot (self);

  if (shot == NULL)
    return;
  if (hs_arrival_open_visit (shot->arrival) == NULL)
    hs_page_tell (HS_PAGE (self), _("The safety list comes with arriving: F4, “At the vehicle”."));
  else
    hs_safety_window_present (HS_PAGE (self), self->job_id, shot->view->tag->number);
}

void
hs_job_page_made_safe (HsJobPage *self)
{
  g_return_if_fail (HS_IS_JOB_PAGE (self));

  if (g_strcmp0 (gtk_stack_get_visible_child_name (self->stack), hs_job_page_panes[PANE_CALL]) == 0)
    hs_call_pane_go_on (HS_CALL_PANE (self->panes[PANE_CALL]));
}

/* For the visit: what is not safe yet comes before the clock. */
static void
visit_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsJobPage *self = HS_JOB_PAGE (widget);
  const HsJobShot *shot = hs_job_page_get_shot (self);

  if (shot == NULL)
    return;
  if (hs_arrival_open_visit (shot->arrival) != NULL
      && (shot->arrival->safety->n_open > 0 || shot->arrival->safety->n_not_so > 0))
    hs_safety_window_present (HS_PAGE (self), self->job_id, shot->view->tag->number);
  else
    hs_visit_card_turn (HS_PAGE (self), self->job_id, shot);
}

/* Readings, why it failed, photos, and round again. */
static void
turn_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsJobPage *self = HS_JOB_PAGE (widget);
  gboolean why = g_strcmp0 (gtk_stack_get_visible_child_name (self->stack), "findings") == 0
                 && g_strcmp0 (gtk_stack_get_visible_child_name (self->faces), hs_job_page_panes[PANE_CHAIN]) == 0;

  if (g_strcmp0 (gtk_stack_get_visible_child_name (self->stack), "call") == 0)
    {
      gtk_widget_activate_action (GTK_WIDGET (self->panes[PANE_CALL]), "page.side", NULL);
      return;
    }
  hs_job_page_show_pane (self, hs_job_page_shows_readings (self) ? hs_job_page_panes[PANE_CHAIN]
                               : why                             ? hs_job_page_panes[PANE_PHOTOS]
                                                                 : "findings");
  if (hs_job_page_shows_readings (self))
    hs_findings_focus (self->findings);
  else if (why)
    hs_photo_pane_focus (HS_PHOTO_PANE (self->panes[PANE_PHOTOS]));
  else
    hs_job_pane_go (self->panes[PANE_CHAIN], NULL, NULL);
}

/* The keys that are printed under the readings, also for a finger, a voice or a switch. */
static void
pad_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsJobPage *self = HS_JOB_PAGE (widget);

  if (parameter != NULL)
    hs_findings_press (self->findings, gdk_keyval_from_name (g_variant_get_string (parameter, NULL)));
  hs_findings_focus (self->findings);
}

/* F8, which locks a stop in a day, has no stop here: what the telephone is to have. */
static void
eight_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsJobPage *self = HS_JOB_PAGE (widget);

  hs_hand_off_window_present (GTK_WINDOW (gtk_widget_get_root (widget)), hs_page_get_ledger (HS_PAGE (self)),
                              self->job_id, NULL);
}

/* The keys of a day go from tab to tab here, round about; the cursor goes with them. */
static void
turn_tab (HsJobPage *self, gboolean on)
{
  GtkWidget *shown = gtk_stack_get_visible_child (self->stack);
  GtkWidget *next = on ? gtk_widget_get_next_sibling (shown) : gtk_widget_get_prev_sibling (shown);
  GtkWidget *focus;

  if (next == NULL)
    next = on ? gtk_widget_get_first_child (GTK_WIDGET (self->stack))
              : gtk_widget_get_last_child (GTK_WIDGET (self->stack));
  gtk_stack_set_visible_child (self->stack, next);
  focus = hs_page_get_focus (HS_PAGE (self));
  if (focus == NULL || !gtk_widget_is_ancestor (focus, next))
    gtk_widget_child_focus (next, GTK_DIR_TAB_FORWARD);
}

static void
tab_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  turn_tab (HS_JOB_PAGE (widget), g_str_equal (name, "page.next-day"));
}

/* Caught on its way down: a list would scroll by it. */
gboolean
hs_job_page_tab_key_cb (HsJobPage *self, guint keyval, guint keycode, GdkModifierType state)
{
  gboolean down = keyval == GDK_KEY_Page_Down || keyval == GDK_KEY_KP_Page_Down;

  self->worked |= hs_pad_key_sign (keyval) != '\0' || gdk_keyval_to_unicode (keyval) >= 32;
  if ((!down && keyval != GDK_KEY_Page_Up && keyval != GDK_KEY_KP_Page_Up)
      || (state & (GDK_CONTROL_MASK | GDK_ALT_MASK | GDK_SHIFT_MASK)) != 0)
    return GDK_EVENT_PROPAGATE;
  turn_tab (self, down);
  return GDK_EVENT_STOP;
}

/* As long as it is printed so, the key goes to the safety list; where there is something to print it stays the
 * print's. */
static void
print_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsJobPage *self = HS_JOB_PAGE (widget);

  if (gtk_widget_get_visible (GTK_WIDGET (self->unsafe)) && !hs_job_page_prints (self))
    gtk_widget_activate_action (widget, "page.make-safe", NULL);
  else
    hs_print_window_present (HS_PAGE (widget), self->job_id);
}

static void
customer_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsJobPage *self = HS_JOB_PAGE (widget);

  if (hs_job_page_get_shot (self) != NULL)
    hs_customer_window_present (GTK_WINDOW (gtk_widget_get_root (widget)), hs_page_get_ledger (HS_PAGE (self)),
                                self->job_id);
}

void
hs_job_page_install_actions (GtkWidgetClass *widget_class)
{
  gtk_widget_class_install_action (widget_class, "page.next-stage", NULL, next_stage_action);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "win.back", NULL);
  gtk_widget_class_install_action (widget_class, "page.stages", NULL, stages_action);
  gtk_widget_class_install_action (widget_class, "page.point", NULL, point_action);
  gtk_widget_class_install_action (widget_class, "page.visit", NULL, visit_action);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Pause, 0, "page.visit", NULL);
  gtk_widget_class_install_action (widget_class, "page.make-safe", NULL, make_safe_action);
  gtk_widget_class_install_action (widget_class, "page.print", NULL, print_action);
  gtk_widget_class_install_action (widget_class, "page.side", NULL, turn_action);
  gtk_widget_class_install_action (widget_class, "page.lock", NULL, eight_action);
  gtk_widget_class_install_action (widget_class, "pad.press", "s", pad_action);
  gtk_widget_class_install_action (widget_class, "pad.value", NULL, pad_action);
  gtk_widget_class_install_action (widget_class, "page.next-day", NULL, tab_action);
  gtk_widget_class_install_action (widget_class, "page.previous-day", NULL, tab_action);
  gtk_widget_class_install_action (widget_class, "page.why", NULL, usual_action);
  gtk_widget_class_install_action (widget_class, "page.customer", NULL, customer_action);
}
