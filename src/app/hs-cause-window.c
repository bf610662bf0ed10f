// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* One cause that still stands, to be named or ruled out. What the book refuses is told here in its words; success shuts
 * the window, and the page behind asks anew. */

#include "hs-cause-window.h"

#include <glib/gi18n.h>

#include "hs-deed-next.h"
#include "hs-key-button.h"
#include "hs-refusal.h"
#include "hs-show.h"
#include "hs-window.h"

struct _HsCauseWindow
{
  AdwWindow parent_instance;

  GtkLabel *name;
  GtkLabel *source;
  GtkLabel *speaks_for;
  GtkLabel *against;
  GtkLabel *repair;
  GtkEditable *seen;
  GtkLabel *refusal;

  HsPage *page; /* weak: under us, in the window that destroys us */
  char *job_id;
  char *group;
  char *cause;
};

G_DEFINE_FINAL_TYPE (HsCauseWindow, hs_cause_window, ADW_TYPE_WINDOW)

static void
set_shown (GtkLabel *label, const char *text)
{
  gtk_label_set_label (label, text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (label), text != NULL && *text != '\0');
}

static void
done_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsRefusal) asked = data;
  HsCauseWindow *self = hs_refusal_get_window (asked);
  g_autoptr (GError) error = NULL;

  hs_ledger_task_finish (HS_LEDGER (source), result, NULL, &error);
  if (hs_refusal_late (asked, error != NULL ? error->message : NULL))
    return;
  if (error != NULL)
    {
      set_shown (self->refusal, error->message);
      gtk_widget_grab_focus (GTK_WIDGET (self->seen));
      return;
    }
  gtk_window_close (GTK_WINDOW (self));
}

static void
write_down (HsCauseWindow *self, gboolean is_it)
{
  const char *seen = gtk_editable_get_text (self->seen);

  if (self->page == NULL)
    return;
  hs_deed_name_cause (hs_page_get_ledger (self->page), self->job_id, self->group, self->cause, is_it,
                      *seen != '\0' ? seen : NULL, done_cb, hs_refusal_expect (GTK_WINDOW (self), seen));
}

static void
is_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  write_down (HS_CAUSE_WINDOW (widget), TRUE);
}

static void
not_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  write_down (HS_CAUSE_WINDOW (widget), FALSE);
}

static void
close_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  gtk_window_close (GTK_WINDOW (widget));
}

static void
hs_cause_window_dispose (GObject *object)
{
  HsCauseWindow *self = HS_CAUSE_WINDOW (object);

  g_clear_weak_pointer (&self->page);
  g_clear_pointer (&self->job_id, g_free);
  g_clear_pointer (&self->group, g_free);
  g_clear_pointer (&self->cause, g_free);
  G_OBJECT_CLASS (hs_cause_window_parent_class)->dispose (object);
}

static void
hs_cause_window_class_init (HsCauseWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hs_cause_window_dispose;
  g_type_ensure (HS_TYPE_KEY_BUTTON);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-cause-window.ui");
  gtk_widget_class_bind_template_child (widget_class, HsCauseWindow, name);
  gtk_widget_class_bind_template_child (widget_class, HsCauseWindow, source);
  gtk_widget_class_bind_template_child (widget_class, HsCauseWindow, speaks_for);
  gtk_widget_class_bind_template_child (widget_class, HsCauseWindow, against);
  gtk_widget_class_bind_template_child (widget_class, HsCauseWindow, repair);
  gtk_widget_class_bind_template_child (widget_class, HsCauseWindow, seen);
  gtk_widget_class_bind_template_child (widget_class, HsCauseWindow, refusal);
  gtk_widget_class_install_action (widget_class, "cause.is", NULL, is_action);
  gtk_widget_class_install_action (widget_class, "cause.not", NULL, not_action);
  gtk_widget_class_install_action (widget_class, "cause.close", NULL, close_action);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "cause.close", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_F4, 0, "cause.is", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_F8, 0, "cause.not", NULL);
}

static void
hs_cause_window_init (HsCauseWindow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

static void
show_texts (GtkLabel *label, const char *heading, char **texts)
{
  g_autofree char *joined = g_strjoinv ("; ", texts);
  g_autofree char *text = *joined != '\0' ? g_strdup_printf ("%s %s", heading, joined) : NULL;

  set_shown (label, text);
}

static void
show_repair (HsCauseWindow *self, const HsNextCause *cause)
{
  g_autofree char *price = hs_show_money (hs_page_get_ledger (self->page), cause->repair_cents);
  /* Translators: what is done about a cause, how many minutes that takes, and what the parts cost. */
  g_autofree char *text = cause->repair_cents > 0
                            ? g_strdup_printf (_("%s: %.0f minutes, parts about %s"), hs_show_data (cause->repair),
                                               cause->repair_minutes, price)
                            : g_strdup_printf (_("%s: %.0f minutes"), hs_show_data (cause->repair),
                                               cause->repair_minutes);

  set_shown (self->repair, text);
}

static void
show_cause (HsCauseWindow *self, const HsNextCause *cause)
{
  g_autofree char *source = g_strdup_printf (_("How often it is that: %s%s%s"), hs_show_data (cause->source),
                                             cause->own != NULL ? "; " : "", cause->own != NULL ? cause->own : "");

  set_shown (self->name, hs_show_data (cause->name));
  set_shown (self->source, source);
  show_texts (self->speaks_for, _("For:"), cause->speaks_for);
  show_texts (self->against, _("Against:"), cause->speaks_against);
  show_repair (self, cause);
}

HsCauseWindow *
hs_cause_window_present (HsPage *page, const char *job_id, const HsJobNext *next, const HsNextCause *cause)
{
  HsCauseWindow *self;

  g_return_val_if_fail (HS_IS_PAGE (page), NULL);

  self = g_object_new (HS_TYPE_CAUSE_WINDOW, "transient-for", gtk_widget_get_root (GTK_WIDGET (page)),
                       "destroy-with-parent", TRUE, NULL);
  g_set_weak_pointer (&self->page, page);
  self->job_id = g_strdup (job_id);
  self->group = g_strdup (next->group);
  self->cause = g_strdup (cause->id);
  show_cause (self, cause);
  hs_window_fit_over (GTK_WINDOW (self));
  gtk_window_present (GTK_WINDOW (self));
  gtk_widget_grab_focus (GTK_WIDGET (self->seen));
  return self;
}

void
hs_cause_window_fill (HsCauseWindow *self, const char *seen)
{
  g_return_if_fail (HS_IS_CAUSE_WINDOW (self));

  gtk_editable_set_text (self->seen, seen);
}
