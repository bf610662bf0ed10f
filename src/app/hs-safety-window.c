// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Arrive and make safe. Whoever has looked round presses Enter; every item can be answered by itself, and those of a
 * high-voltage vehicle have to be. Each answer is in the book at once; shutting the window answers nothing. */

#include "hs-safety-window.h"

#include <glib/gi18n.h>

#include "hs-ask-arrive.h"
#include "hs-deed-arrive.h"
#include "hs-job-page.h"
#include "hs-key-button.h"
#include "hs-line-list.h"
#include "hs-note-card.h"
#include "hs-pad-key.h"
#include "hs-refusal.h"
#include "hs-safety-line.h"
#include "hs-show.h"
#include "hs-spoken.h"
#include "hs-window.h"

struct _HsSafetyWindow
{
  AdwWindow parent_instance;

  GtkLabel *head;
  GtkBox *items;
  GtkBox *notes;
  GtkWidget *notes_box;
  GtkLabel *refusal;
  GtkWidget *why_box;
  GtkEditable *why;
  HsKeyButton *safe;

  HsPage *page; /* weak: under us, in the window that destroys us */
  HsQuestion *ask;
  char *job_id;
  char *number;
  gboolean sources; /* who says so is shown */
  gboolean again;   /* it was answered before */
};

G_DEFINE_FINAL_TYPE (HsSafetyWindow, hs_safety_window, ADW_TYPE_WINDOW)

#define WINDOW_KEY "hs-safety-window"

static const HsArrival *
get_arrival (HsSafetyWindow *self)
{
  return self->ask != NULL ? hs_question_get (self->ask) : NULL;
}

/* Answering one. */

static void
answered_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsRefusal) asked = data;
  HsSafetyWindow *self = hs_refusal_get_window (asked);
  g_autoptr (GError) error = NULL;

  hs_ledger_task_finish (HS_LEDGER (source), result, NULL, &error);
  if (hs_refusal_late (asked, error != NULL ? error->message : NULL))
    return;
  hs_refusal_say (self->refusal, error != NULL ? error->message : NULL);
}

/* Open, done, does not apply here, and open again; what is of high voltage always applies. */
static const char *
next_answer (const HsSafetyLine *line)
{
  if (line->answer == NULL || g_str_equal (line->answer, "refused"))
    return "done";
  if (line->high_voltage)
    return g_str_equal (line->answer, "done") ? NULL : "done";
  return g_str_equal (line->answer, "done") ? "not_here" : NULL;
}

static void
answer_nth (HsSafetyWindow *self, guint nth)
{
  const HsArrival *arrival = get_arrival (self);
  const HsSafetyLine *line;

  if (arrival == NULL || nth >= arrival->safety->lines->len || self->page == NULL)
    return;
  line = g_ptr_array_index (arrival->safety->lines, nth);
  hs_deed_answer_safety (hs_page_get_ledger (self->page), self->job_id, line->id, next_answer (line), NULL,
                         answered_cb, hs_refusal_expect (GTK_WINDOW (self), NULL));
}

static void
line_clicked_cb (HsSafetyWindow *self, HsSafetyLineButton *button)
{
  answer_nth (self, hs_safety_line_button_get_nth (button));
}

/* How it came out. */

typedef struct
{
  HsRefusal *asked;
  HsSafetyEnd end;
} Finish;

static void
finished_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autofree Finish *finish = data;
  g_autoptr (HsRefusal) asked = finish->asked;
  HsSafetyWindow *self = hs_refusal_get_window (asked);
  g_autoptr (GError) error = NULL;
  g_autofree char *done = NULL;

  hs_ledger_task_finish (HS_LEDGER (source), result, NULL, &error);
  if (hs_refusal_late (asked, error != NULL ? error->message : NULL))
    return;
  if (error != NULL)
    {
      hs_refusal_say (self->refusal, error->message);
      return;
    }
  done = g_strdup_printf (_("%s: %s"), self->number, finish->end == HS_SAFETY_REFUSED ? _("Work refused")
                                                     : finish->end == HS_SAFETY_MOVED ? _("Moved, then safe")
                                                                                      : _("Safe here"));
  if (self->page != NULL)
    hs_page_tell (self->page, done);
  if (HS_IS_JOB_PAGE (self->page) && finish->end != HS_SAFETY_REFUSED && !self->again)
    hs_job_page_made_safe (HS_JOB_PAGE (self->page));
  gtk_window_close (GTK_WINDOW (self));
}

static void
finish (HsSafetyWindow *self, HsSafetyEnd end, const char *why)
{
  const HsArrival *arrival = get_arrival (self);
  Finish *data;

  if (self->page == NULL)
    return;
  self->again = arrival != NULL && arrival->safety->note != NULL;
  data = g_new0 (Finish, 1);
  data->asked = hs_refusal_expect (GTK_WINDOW (self), why);
  data->end = end;
  hs_deed_finish_safety (hs_page_get_ledger (self->page), self->job_id, end, why, finished_cb, data);
}

static void
safe_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  finish (HS_SAFETY_WINDOW (widget), HS_SAFETY_SAFE, NULL);
}

static void
moved_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  finish (HS_SAFETY_WINDOW (widget), HS_SAFETY_MOVED, NULL);
}

/* The key asks for the reason; Enter in it refuses. */
static void
refuse_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsSafetyWindow *self = HS_SAFETY_WINDOW (widget);

  gtk_widget_set_visible (self->why_box, TRUE);
  gtk_widget_grab_focus (GTK_WIDGET (self->why));
}

static void
why_entered_cb (HsSafetyWindow *self)
{
  finish (self, HS_SAFETY_REFUSED, gtk_editable_get_text (self->why));
}

static void
sources_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsSafetyWindow *self = HS_SAFETY_WINDOW (widget);

  self->sources = !self->sources;
  for (GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (self->items)); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    hs_safety_line_button_set_source_shown (HS_SAFETY_LINE_BUTTON (child), self->sources);
}

static void
close_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  gtk_window_close (GTK_WINDOW (widget));
}

static gboolean
is_in_why (HsSafetyWindow *self)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (self));

  return focus != NULL && gtk_widget_is_ancestor (focus, GTK_WIDGET (self->why));
}

static gboolean
key_cb (HsSafetyWindow *self, guint keyval, guint keycode, GdkModifierType state)
{
  char sign = hs_pad_key_sign (keyval);

  if (keyval == GDK_KEY_Escape || keyval == GDK_KEY_F12)
    gtk_window_close (GTK_WINDOW (self));
  else if (is_in_why (self) || (state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0)
    return GDK_EVENT_PROPAGATE;
  else if (sign >= '1' && sign <= '9')
    answer_nth (self, (guint) (sign - '1'));
  else if (sign == '+')
    finish (self, HS_SAFETY_MOVED, NULL);
  else if (sign == '/')
    gtk_widget_activate_action (GTK_WIDGET (self), "safety.refuse", NULL);
  else
    return GDK_EVENT_PROPAGATE;
  return GDK_EVENT_STOP;
}

/* Showing. */

static void
show_items (HsSafetyWindow *self, const HsSafetySheet *sheet)
{
  GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (self->items));

  for (guint i = 0; i < sheet->lines->len; i++)
    {
      if (child == NULL)
        {
          child = hs_safety_line_button_new (i);
          hs_safety_line_button_set_source_shown (HS_SAFETY_LINE_BUTTON (child), self->sources);
          g_signal_connect_object (child, "clicked", G_CALLBACK (line_clicked_cb), self, G_CONNECT_SWAPPED);
          gtk_box_append (self->items, child);
        }
      hs_safety_line_button_show (HS_SAFETY_LINE_BUTTON (child), g_ptr_array_index (sheet->lines, i));
      child = gtk_widget_get_next_sibling (child);
    }
  while (child != NULL)
    {
      GtkWidget *next = gtk_widget_get_next_sibling (child);

      gtk_box_remove (self->items, child);
      child = next;
    }
}

static void
show_notes (HsSafetyWindow *self, GPtrArray *notes)
{
  hs_line_list_clear (self->notes);
  for (guint i = 0; i < notes->len; i++)
    {
      const HsModelNote *note = g_ptr_array_index (notes, i);
      g_autofree char *line = hs_note_card_dup_line (note);

      hs_line_list_add (self->notes, line, NULL, g_str_equal (note->topic, "caution") ? "hs-strong" : NULL);
    }
  gtk_widget_set_visible (self->notes_box, notes->len > 0);
}

static gboolean
is_added (const HsSafetySheet *sheet)
{
  return sheet->note != NULL && sheet->n_open > 0;
}

static void
arrival_cb (HsSafetyWindow *self)
{
  const HsArrival *arrival = get_arrival (self);

  if (arrival == NULL)
    {
      hs_refusal_say (self->refusal, hs_question_get_trouble (self->ask));
      return;
    }
  gtk_label_set_label (self->head, arrival->safety->high_voltage
                                       ? _("High voltage: its items are answered one by one, before anything is "
                                           "measured.")
                                     : is_added (arrival->safety)
                                       ? _("What came to the list after it was gone through is open: each is answered "
                                           "by its own digit.")
                                       : _("What is so already needs no digit; Enter answers the rest."));
  show_items (self, arrival->safety);
  show_notes (self, arrival->notes);
}

static void
hs_safety_window_dispose (GObject *object)
{
  HsSafetyWindow *self = HS_SAFETY_WINDOW (object);

  if (self->page != NULL && g_object_get_data (G_OBJECT (self->page), WINDOW_KEY) == self)
    g_object_set_data (G_OBJECT (self->page), WINDOW_KEY, NULL);
  g_clear_weak_pointer (&self->page);
  g_clear_object (&self->ask);
  g_clear_pointer (&self->job_id, g_free);
  g_clear_pointer (&self->number, g_free);
  G_OBJECT_CLASS (hs_safety_window_parent_class)->dispose (object);
}

static void
hs_safety_window_class_init (HsSafetyWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hs_safety_window_dispose;
  g_type_ensure (HS_TYPE_KEY_BUTTON);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-safety-window.ui");
  gtk_widget_class_bind_template_child (widget_class, HsSafetyWindow, head);
  gtk_widget_class_bind_template_child (widget_class, HsSafetyWindow, items);
  gtk_widget_class_bind_template_child (widget_class, HsSafetyWindow, notes);
  gtk_widget_class_bind_template_child (widget_class, HsSafetyWindow, notes_box);
  gtk_widget_class_bind_template_child (widget_class, HsSafetyWindow, refusal);
  gtk_widget_class_bind_template_child (widget_class, HsSafetyWindow, why_box);
  gtk_widget_class_bind_template_child (widget_class, HsSafetyWindow, why);
  gtk_widget_class_bind_template_child (widget_class, HsSafetyWindow, safe);
  gtk_widget_class_bind_template_callback (widget_class, key_cb);
  gtk_widget_class_bind_template_callback (widget_class, why_entered_cb);
  gtk_widget_class_install_action (widget_class, "safety.safe", NULL, safe_action);
  gtk_widget_class_install_action (widget_class, "safety.moved", NULL, moved_action);
  gtk_widget_class_install_action (widget_class, "safety.refuse", NULL, refuse_action);
  gtk_widget_class_install_action (widget_class, "safety.sources", NULL, sources_action);
  gtk_widget_class_install_action (widget_class, "safety.close", NULL, close_action);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_F9, 0, "safety.sources", NULL);
}

static void
hs_safety_window_init (HsSafetyWindow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

static HsSafetyWindow *
open_window (HsPage *page, const char *job_id, const char *number)
{
  HsSafetyWindow *self = g_object_new (HS_TYPE_SAFETY_WINDOW, "transient-for",
                                       gtk_widget_get_root (GTK_WIDGET (page)), "destroy-with-parent", TRUE, NULL);
  /* Translators: the number of a job. */
  g_autofree char *title = g_strdup_printf (_("%s: make safe"), number);

  g_set_weak_pointer (&self->page, page);
  g_object_set_data (G_OBJECT (page), WINDOW_KEY, self);
  self->job_id = g_strdup (job_id);
  self->number = g_strdup (number);
  gtk_window_set_title (GTK_WINDOW (self), title);
  self->ask = hs_question_new (hs_page_get_ledger (page), hs_ask_arrival, (GDestroyNotify) hs_arrival_free);
  g_signal_connect_object (self->ask, "answered", G_CALLBACK (arrival_cb), self, G_CONNECT_SWAPPED);
  hs_question_ask (self->ask, g_variant_new ("(s)", job_id));
  gtk_window_set_default_size (GTK_WINDOW (self), 680, 600);
  hs_window_fit_over (GTK_WINDOW (self));
  return self;
}

HsSafetyWindow *
hs_safety_window_present (HsPage *page, const char *job_id, const char *number)
{
  HsSafetyWindow *self;

  g_return_val_if_fail (HS_IS_PAGE (page), NULL);
  g_return_val_if_fail (job_id != NULL && number != NULL, NULL);

  self = g_object_get_data (G_OBJECT (page), WINDOW_KEY);
  if (self == NULL)
    {
      self = open_window (page, job_id, number);
      gtk_widget_grab_focus (GTK_WIDGET (self->safe));
    }
  gtk_window_present (GTK_WINDOW (self));
  return self;
}
