// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Before the van rolls: whose promise it would break and by how much, and which counter is shut. Only shown where there
 * is something to say; it decides nothing. F4 that asked, held or pressed twice, and Enter say nothing to it. */

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

struct _HsRollWindow
{
  AdwWindow parent_instance;

  GtkLabel *heading;
  GtkBox *breaks;
  GtkBox *shut;
  GtkWidget *roll;

  HsPage *page; /* weak: under us, in the window that destroys us */
  char *job_id;
  char *number;
  char *reason;
  HsStage from;
  gboolean rolls;
};

G_DEFINE_FINAL_TYPE (HsRollWindow, hs_roll_window, ADW_TYPE_WINDOW)

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
    hs_mover_move (self->page, self->job_id, self->number, self->from, HS_STAGE_ROLLING, self->reason);
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
                                                         HS_STAGE_ROLLING, NULL),
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

  if ((state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0)
    return GDK_EVENT_PROPAGATE;
  if (sign == '1')
    roll_action (GTK_WIDGET (self), NULL, NULL);
  return sign == '1' || sign == '\n' ? GDK_EVENT_STOP : GDK_EVENT_PROPAGATE;
}

static void
hs_roll_window_dispose (GObject *object)
{
  HsRollWindow *self = HS_ROLL_WINDOW (object);

  g_clear_weak_pointer (&self->page);
  g_clear_pointer (&self->job_id, g_free);
  g_clear_pointer (&self->number, g_free);
  g_clear_pointer (&self->reason, g_free);
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
  gtk_widget_class_bind_template_child (widget_class, HsRollWindow, breaks);
  gtk_widget_class_bind_template_child (widget_class, HsRollWindow, shut);
  gtk_widget_class_bind_template_child (widget_class, HsRollWindow, roll);
  gtk_widget_class_bind_template_callback (widget_class, key_cb);
  gtk_widget_class_install_action (widget_class, "roll.do", NULL, roll_action);
  gtk_widget_class_install_action (widget_class, "roll.close", NULL, close_action);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "roll.close", NULL);
}

static void
hs_roll_window_init (HsRollWindow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

HsRollWindow *
hs_roll_window_present (HsPage *page, const char *job_id, const char *number, HsStage from, const char *reason,
                        HsRollOutlook *outlook)
{
  g_autoptr (HsRollOutlook) owned = outlook;
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
  /* Translators: the number of a job. */
  heading = g_strdup_printf (_("Roll to %s now?"), number);
  gtk_window_set_title (GTK_WINDOW (self), heading);
  gtk_label_set_label (self->heading, heading);
  show_breaks (self, hs_page_get_ledger (page), outlook);
  show_shut (self, hs_page_get_ledger (page), outlook);
  gtk_window_set_default_size (GTK_WINDOW (self), 560, 440);
  hs_window_fit_over (GTK_WINDOW (self));
  gtk_widget_grab_focus (self->roll);
  gtk_window_present (GTK_WINDOW (self));
  return self;
}
