// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Before the van rolls: whose promise it would break and by how much, which counter is shut, and what is left at
 * the vehicle with its labor clock running; the last also before the owner begins at another. Only shown where
 * there is something to say; it decides nothing. F4 that asked, held or pressed twice, and Enter say nothing to it. */

#include "hs-roll-window.h"

#include <glib/gi18n.h>

#include "hs-face.h"
#include "hs-flow-layout.h"
#include "hs-key-button.h"
#include "hs-line-list.h"
#include "hs-mover.h"
#include "hs-pad-key.h"
#include "hs-show.h"
#include "hs-stage-window.h"
#include "hs-window.h"

#define LEAST_WAIT_SECONDS (10 * 60)
#define WRAPPED_CHARS 24 /* of what may become of a job, in a line */

struct _HsRollWindow
{
  AdwWindow parent_instance;

  GtkLabel *heading;
  GtkBox *left;
  GtkBox *breaks;
  GtkBox *wait;
  GtkBox *shut;
  HsKeyButton *finish;
  HsKeyButton *roll;

  HsPage *page; /* weak: under us, in the window that destroys us */
  char *job_id;
  char *number;
  char *reason;
  HsStage from;
  HsStage to;
  HsRollOutlook *outlook;
  gboolean rolls;
};

G_DEFINE_FINAL_TYPE (HsRollWindow, hs_roll_window, ADW_TYPE_WINDOW)

/* What is left is answered for first: 1 finishes it, 2 leaves it open. */
static void
show_left (HsRollWindow *self, const HsRollOutlook *outlook)
{
  g_autofree char *finish = NULL;

  for (guint i = 0; i < outlook->left->len; i++)
    {
      const HsRollLeft *left = g_ptr_array_index (outlook->left, i);
      g_autofree char *span = hs_show_span (left->seconds);
      /* Translators: a job's number, whose it is, and hours and minutes. */
      g_autofree char *text = g_strdup_printf (
        _("%s, %s, is still “At the vehicle”. Its labor clock shows %s and runs on until you say what becomes of it."),
        left->number, left->who, span);

      hs_line_list_add (self->left, text, NULL, i == 0 ? "hs-title" : NULL);
    }
  gtk_widget_set_visible (GTK_WIDGET (self->left), outlook->left->len > 0);
  gtk_widget_set_visible (GTK_WIDGET (self->finish), outlook->left->len > 0);
  if (outlook->left->len == 0)
    return;
  /* Translators: the number of a job. */
  finish = g_strdup_printf (_("Done There: Finish %s"),
                            ((const HsRollLeft *) g_ptr_array_index (outlook->left, 0))->number);
  hs_key_button_set_text (self->finish, finish);
  hs_key_button_set_key (self->roll, "2");
  hs_key_button_set_text (self->roll, self->to == HS_STAGE_ROLLING ? _("Leave It Open, Stop Its Clock, Roll")
                                                                : _("Leave It Open, Stop Its Clock, Begin Here"));
  hs_key_button_set_wraps_at (self->finish, WRAPPED_CHARS);
  hs_key_button_set_wraps_at (self->roll, WRAPPED_CHARS);
  gtk_widget_remove_css_class (GTK_WIDGET (self->roll), "hs-fill");
}

static void
show_breaks (HsRollWindow *self, HsLedger *ledger, const HsRollOutlook *outlook)
{
  if (outlook->breaks->len > 0)
    hs_line_list_add (self->breaks,
                      ngettext ("This promise can’t be kept then:", "These promises can’t be kept then:",
                                outlook->breaks->len),
                      NULL, "hs-title");
  for (guint i = 0; i < outlook->breaks->len; i++)
    {
      const HsRollBreak *broken = g_ptr_array_index (outlook->breaks, i);
      g_autofree char *clock = hs_show_clock (ledger, broken->by);
      /* Translators: when a promise ends. */
      g_autofree char *by = *clock != '\0' ? g_strdup_printf (_("promised by %s"), clock) : g_strdup ("");
      g_autofree char *text = hs_show_joined (broken->number, broken->who != NULL ? broken->who : "",
                                              broken->phone != NULL ? broken->phone : "", by, NULL);
      g_autofree char *span = hs_show_span (broken->late_seconds);
      g_autofree char *late = g_strdup_printf (_("%s late"), span);

      hs_line_list_add (self->breaks, text, late, NULL);
    }
  gtk_widget_set_visible (GTK_WIDGET (self->breaks), outlook->breaks->len > 0);
}

/* A plain line: it keeps nobody from rolling, and shorter waits are nobody's matter. */
static void
show_wait (HsRollWindow *self, HsLedger *ledger, const HsRollOutlook *outlook)
{
  g_autofree char *span = hs_show_span (outlook->wait_seconds);
  g_autofree char *begins = NULL, *text = NULL;
  gboolean waits = outlook->wait_seconds >= LEAST_WAIT_SECONDS;

  gtk_widget_set_visible (GTK_WIDGET (self->wait), waits);
  if (!waits)
    return;
  begins = hs_show_clock (ledger, outlook->begins);
  /* Translators: hours and minutes, and a time of the day. */
  text = g_strdup_printf (outlook->before_promise ? _("A wait of %s there: the promised time begins at %s.")
                                                  : _("A wait of %s there: nobody is there before %s."),
                          span, begins);
  hs_line_list_add (self->wait, text, NULL, NULL);
}

static void
show_shut (HsRollWindow *self, HsLedger *ledger, const HsRollOutlook *outlook)
{
  if (outlook->shut->len > 0)
    hs_line_list_add (self->shut, _("A parts counter is shut:"), NULL, "hs-title");
  for (guint i = 0; i < outlook->shut->len; i++)
    {
      g_autofree char *text = hs_face_dup_shut (ledger, g_ptr_array_index (outlook->shut, i));

      hs_line_list_add (self->shut, text, NULL, NULL);
    }
  gtk_widget_set_visible (GTK_WIDGET (self->shut), outlook->shut->len > 0);
}

static void
roll_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsRollWindow *self = HS_ROLL_WINDOW (widget);

  self->rolls = TRUE;
  if (self->page != NULL)
    hs_mover_go_off (self->page, self->job_id, self->number, self->from, self->to, self->reason,
                     self->outlook->left->len > 0);
  gtk_window_close (GTK_WINDOW (self));
}

static void
finish_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsRollWindow *self = HS_ROLL_WINDOW (widget);

  if (self->outlook->left->len == 0)
    return;
  self->rolls = TRUE;
  if (self->page != NULL)
    hs_mover_finish_and_go (self->page, g_ptr_array_index (self->outlook->left, 0), self->job_id, self->number,
                            self->from, self->to, self->reason);
  gtk_window_close (GTK_WINDOW (self));
}

/* Who stays has the reason again that was written in the window of stages. */
static gboolean
hs_roll_window_close_request (GtkWindow *window)
{
  HsRollWindow *self = HS_ROLL_WINDOW (window);

  if (!self->rolls && self->reason != NULL && self->page != NULL
      && gtk_widget_get_root (GTK_WIDGET (self->page)) != NULL)
    hs_stage_window_set_reason (hs_stage_window_present (self->page, self->job_id, self->number, self->from,
                                                         self->to, NULL),
                                self->reason);
  return GTK_WINDOW_CLASS (hs_roll_window_parent_class)->close_request (window);
}

static void
close_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  gtk_window_close (GTK_WINDOW (widget));
}

static gboolean
key_cb (HsRollWindow *self, guint keyval, guint keycode, GdkModifierType state)
{
  char sign = hs_pad_key_sign (keyval);
  char rolls = self->outlook->left->len > 0 ? '2' : '1';

  if ((state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0)
    return GDK_EVENT_PROPAGATE;
  if (sign == rolls)
    roll_action (GTK_WIDGET (self), NULL, NULL);
  else if (sign == '1')
    finish_action (GTK_WIDGET (self), NULL, NULL);
  return sign == '1' || sign == '2' || sign == '\n' ? GDK_EVENT_STOP : GDK_EVENT_PROPAGATE;
}

static void
hs_roll_window_dispose (GObject *object)
{
  HsRollWindow *self = HS_ROLL_WINDOW (object);

  g_clear_weak_pointer (&self->page);
  g_clear_pointer (&self->job_id, g_free);
  g_clear_pointer (&self->number, g_free);
  g_clear_pointer (&self->reason, g_free);
  g_clear_pointer (&self->outlook, hs_roll_outlook_free);
  G_OBJECT_CLASS (hs_roll_window_parent_class)->dispose (object);
}

static void
hs_roll_window_class_init (HsRollWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hs_roll_window_dispose;
  GTK_WINDOW_CLASS (klass)->close_request = hs_roll_window_close_request;
  g_type_ensure (HS_TYPE_FLOW_LAYOUT);
  g_type_ensure (HS_TYPE_KEY_BUTTON);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-roll-window.ui");
  gtk_widget_class_bind_template_child (widget_class, HsRollWindow, heading);
  gtk_widget_class_bind_template_child (widget_class, HsRollWindow, left);
  gtk_widget_class_bind_template_child (widget_class, HsRollWindow, breaks);
  gtk_widget_class_bind_template_child (widget_class, HsRollWindow, wait);
  gtk_widget_class_bind_template_child (widget_class, HsRollWindow, shut);
  gtk_widget_class_bind_template_child (widget_class, HsRollWindow, finish);
  gtk_widget_class_bind_template_child (widget_class, HsRollWindow, roll);
  gtk_widget_class_bind_template_callback (widget_class, key_cb);
  gtk_widget_class_install_action (widget_class, "roll.do", NULL, roll_action);
  gtk_widget_class_install_action (widget_class, "roll.finish", NULL, finish_action);
  gtk_widget_class_install_action (widget_class, "roll.close", NULL, close_action);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "roll.close", NULL);
}

static void
hs_roll_window_init (HsRollWindow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

HsRollWindow *
hs_roll_window_present (HsPage *page, const char *job_id, const char *number, HsStage from, HsStage to,
                        const char *reason, HsRollOutlook *outlook)
{
  g_autofree char *heading = NULL;
  HsRollWindow *self;

  g_return_val_if_fail (HS_IS_PAGE (page), NULL);
  g_return_val_if_fail (job_id != NULL && number != NULL && outlook != NULL, NULL);

  self = g_object_new (HS_TYPE_ROLL_WINDOW, "transient-for", gtk_widget_get_root (GTK_WIDGET (page)),
                       "destroy-with-parent", TRUE, NULL);
  g_set_weak_pointer (&self->page, page);
  self->job_id = g_strdup (job_id);
  self->number = g_strdup (number);
  self->reason = g_strdup (reason);
  self->from = from;
  self->to = to;
  self->outlook = outlook;
  /* Translators: the number of a job. */
  heading = g_strdup_printf (to == HS_STAGE_ROLLING ? _("Roll to %s now?") : _("Begin at %s now?"), number);
  gtk_window_set_title (GTK_WINDOW (self), heading);
  gtk_label_set_label (self->heading, heading);
  show_left (self, outlook);
  show_breaks (self, hs_page_get_ledger (page), outlook);
  show_wait (self, hs_page_get_ledger (page), outlook);
  show_shut (self, hs_page_get_ledger (page), outlook);
  gtk_window_set_default_size (GTK_WINDOW (self), 560, 440);
  hs_window_fit_over (GTK_WINDOW (self));
  gtk_window_present (GTK_WINDOW (self));
  return self;
}
