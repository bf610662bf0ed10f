// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A vehicle's own limit of one check. What the book refuses is told in the window, in the book's words; success shuts
 * it, and the page behind judges anew. */

#include "hs-limit-window.h"

#include <glib/gi18n.h>

#include "hs-act-check.h"
#include "hs-deed.h"
#include "hs-key-button.h"
#include "hs-refusal.h"
#include "hs-show.h"
#include "hs-window.h"

struct _HsLimitWindow
{
  AdwWindow parent_instance;

  GtkLabel *name;
  GtkLabel *standing;
  GtkEditable *low;
  GtkEditable *high;
  GtkEditable *source;
  GtkCheckButton *maker;
  GtkCheckButton *owner;
  GtkLabel *refusal;

  HsPage *page; /* weak: under us, in the window that destroys us */
  char *vehicle_id;
  HsChecks *checks;
  const HsCheck *check; /* of checks */
};

G_DEFINE_FINAL_TYPE (HsLimitWindow, hs_limit_window, ADW_TYPE_WINDOW)

static void
done_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsRefusal) asked = data;
  HsLimitWindow *self = hs_refusal_get_window (asked);
  g_autoptr (GError) error = NULL;

  hs_ledger_task_finish (HS_LEDGER (source), result, NULL, &error);
  if (hs_refusal_late (asked, error != NULL ? error->message : NULL))
    return;
  if (error != NULL)
    {
      hs_refusal_say (self->refusal, error->message);
      gtk_widget_grab_focus (GTK_WIDGET (self->low));
      return;
    }
  gtk_window_close (GTK_WINDOW (self));
}

/* Digits without a point fill the decimals, as on the findings page; what is no number the book refuses. */
static char *
dup_number (HsLimitWindow *self, GtkEditable *entry)
{
  const char *typed = gtk_editable_get_text (entry);
  HsReading reading;

  if (!hs_check_read_pad (self->check, typed, &reading, NULL) || reading.kind != HS_READING_VALUE)
    return g_strdup (typed);
  return hs_check_format (self->check, &reading);
}

static void
write_limit (HsLimitWindow *self)
{
  g_autofree char *typed = NULL;
  g_autofree char *low = dup_number (self, self->low);
  g_autofree char *high = dup_number (self, self->high);
  HsOwnLimitEntry entry = { .vehicle_id = self->vehicle_id, .check = self->check->id, .low = low, .high = high };

  if (self->page == NULL)
    return;
  entry.source = gtk_editable_get_text (self->source);
  entry.maker = gtk_check_button_get_active (self->maker);
  typed = g_strdup_printf ("%s – %s", gtk_editable_get_text (self->low), gtk_editable_get_text (self->high));
  hs_deed_set_limit (hs_page_get_ledger (self->page), &entry, done_cb, hs_refusal_expect (GTK_WINDOW (self), typed));
}

static void
write_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  write_limit (HS_LIMIT_WINDOW (widget));
}

static void
clear_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsLimitWindow *self = HS_LIMIT_WINDOW (widget);

  if (self->page == NULL)
    return;
  hs_deed_clear_limit (hs_page_get_ledger (self->page), self->vehicle_id, self->check->id,
                       gtk_check_button_get_active (self->maker), done_cb,
                       hs_refusal_expect (GTK_WINDOW (self), NULL));
}

static void
close_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  gtk_window_close (GTK_WINDOW (widget));
}

static void
entered_cb (HsLimitWindow *self, GtkWidget *entry)
{
  if (entry == GTK_WIDGET (self->source))
    write_limit (self);
  else
    gtk_widget_grab_focus (entry == GTK_WIDGET (self->low) ? GTK_WIDGET (self->high) : GTK_WIDGET (self->source));
}

static void
hs_limit_window_dispose (GObject *object)
{
  HsLimitWindow *self = HS_LIMIT_WINDOW (object);

  g_clear_weak_pointer (&self->page);
  g_clear_pointer (&self->vehicle_id, g_free);
  self->check = NULL;
  g_clear_pointer (&self->checks, hs_checks_unref);
  G_OBJECT_CLASS (hs_limit_window_parent_class)->dispose (object);
}

static void
hs_limit_window_class_init (HsLimitWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hs_limit_window_dispose;
  g_type_ensure (HS_TYPE_KEY_BUTTON);
  g_type_ensure (HS_TYPE_ACT_CHECK);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-limit-window.ui");
  gtk_widget_class_bind_template_child (widget_class, HsLimitWindow, name);
  gtk_widget_class_bind_template_child (widget_class, HsLimitWindow, standing);
  gtk_widget_class_bind_template_child (widget_class, HsLimitWindow, low);
  gtk_widget_class_bind_template_child (widget_class, HsLimitWindow, high);
  gtk_widget_class_bind_template_child (widget_class, HsLimitWindow, source);
  gtk_widget_class_bind_template_child (widget_class, HsLimitWindow, maker);
  gtk_widget_class_bind_template_child (widget_class, HsLimitWindow, owner);
  gtk_widget_class_bind_template_child (widget_class, HsLimitWindow, refusal);
  gtk_widget_class_bind_template_callback (widget_class, entered_cb);
  gtk_widget_class_install_action (widget_class, "limit.write", NULL, write_action);
  gtk_widget_class_install_action (widget_class, "limit.clear", NULL, clear_action);
  gtk_widget_class_install_action (widget_class, "limit.close", NULL, close_action);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_F6, 0, "limit.clear", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "limit.close", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_F4, 0, "limit.write", NULL);
}

static void
hs_limit_window_init (HsLimitWindow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

/* What the vehicle has for this check, each with whose it is and who says so. */
static void
show_standing (HsLimitWindow *self, GPtrArray *limits)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; limits != NULL && i < limits->len; i++)
    {
      const HsOwnLimit *limit = g_ptr_array_index (limits, i);

      if (g_str_equal (limit->check, self->check->id))
        g_string_append_printf (text, "%s%s: %s, %s", text->len > 0 ? "\n" : "",
                                hs_limit_whose_word (limit->limits.whose), limit->text, limit->limits.source);
    }
  gtk_label_set_label (self->standing, text->len > 0 ? text->str
                                                     : _("This vehicle has no limit of its own for it yet."));
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "limit.clear", text->len > 0);
}

HsLimitWindow *
hs_limit_window_present (HsPage *page, const char *vehicle_id, const HsCheck *check, GPtrArray *limits)
{
  HsLimitWindow *self;
  g_autofree char *name = g_strdup_printf ("%s, %s", hs_show_data (check->name), check->unit);

  g_return_val_if_fail (HS_IS_PAGE (page), NULL);

  self = g_object_new (HS_TYPE_LIMIT_WINDOW, "transient-for", gtk_widget_get_root (GTK_WIDGET (page)),
                       "destroy-with-parent", TRUE, NULL);
  g_set_weak_pointer (&self->page, page);
  self->vehicle_id = g_strdup (vehicle_id);
  self->checks = hs_checks_ref (hs_ledger_get_checks (hs_page_get_ledger (page)));
  self->check = check;
  gtk_label_set_label (self->name, name);
  show_standing (self, limits);
  hs_window_fit_over (GTK_WINDOW (self));
  gtk_window_present (GTK_WINDOW (self));
  gtk_widget_grab_focus (GTK_WIDGET (self->low));
  return self;
}

void
hs_limit_window_fill (HsLimitWindow *self, const char *low, const char *high, const char *source, gboolean maker)
{
  g_return_if_fail (HS_IS_LIMIT_WINDOW (self));

  gtk_editable_set_text (self->low, low);
  gtk_editable_set_text (self->high, high);
  gtk_editable_set_text (self->source, source);
  gtk_check_button_set_active (maker ? self->maker : self->owner, TRUE);
}
