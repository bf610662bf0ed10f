// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Arrive and make safe. Enter answers the line that the cursor is on and goes on to the next; whoever has read on says
 * so by the digit of the last line that is so. What is not so bars the way in words. Each answer is in the book at
 * once; shutting the window answers nothing, and a key that is held down answers once. */

#include "hs-safety-window.h"

#include <glib/gi18n.h>

#include "hs-ask-arrive.h"
#include "hs-deed-arrive.h"
#include "hs-job-page.h"
#include "hs-key-button.h"
#include "hs-line-list.h"
#include "hs-mover.h"
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
  HsKeyButton *so;
  HsKeyButton *not_so;
  HsKeyButton *not_here;
  HsKeyButton *safe;
  HsKeyButton *moved;
  HsKeyButton *past;

  HsPage *page; /* weak: under us, in the window that destroys us */
  HsQuestion *ask;
  char *job_id;
  char *number;
  gboolean sources; /* who says so is shown */
  gboolean again;   /* it was answered before */
  gboolean shown;   /* the cursor was put */
  guint at;         /* the line that is asked */
  guint on;         /* where the cursor goes once the book has the answer, counted from 1; 0: nowhere */
  gboolean held;    /* Enter is */
  HsStage from;     /* it bars the way to tested good from there */
  char *reason;     /* (nullable): with which it goes there */
  gboolean bars;
};

G_DEFINE_FINAL_TYPE (HsSafetyWindow, hs_safety_window, ADW_TYPE_WINDOW)

#define WINDOW_KEY "hs-safety-window"

static const HsArrival *
get_arrival (HsSafetyWindow *self)
{
  return self->ask != NULL ? hs_question_get (self->ask) : NULL;
}

/* Answering. */

/* Returns: (nullable): the @nth line of the list. */
static const HsSafetyLine *
get_line (HsSafetyWindow *self, guint nth)
{
  const HsArrival *arrival = get_arrival (self);

  return arrival != NULL && nth < arrival->safety->lines->len ? g_ptr_array_index (arrival->safety->lines, nth) : NULL;
}

/* The next that is asked, round about. Returns: FALSE: none is. */
static gboolean
find_asked (HsSafetyWindow *self, guint from, guint *ret_nth)
{
  const HsArrival *arrival = get_arrival (self);
  guint n = arrival != NULL ? arrival->safety->lines->len : 0;

  for (guint i = 0; i < n; i++)
    if (get_line (self, (from + i) % n)->asked)
      {
        *ret_nth = (from + i) % n;
        return TRUE;
      }
  return FALSE;
}

static GtkWidget *
get_row (HsSafetyWindow *self, guint nth)
{
  GtkWidget *row = gtk_widget_get_first_child (GTK_WIDGET (self->items));

  while (row != NULL && nth-- > 0)
    row = gtk_widget_get_next_sibling (row);
  return row;
}

/* Returns: FALSE: nothing is not so. */
static gboolean
find_not_so (HsSafetyWindow *self, guint *ret_nth)
{
  const HsSafetyLine *line;

  for (guint i = 0; (line = get_line (self, i)) != NULL; i++)
    if (line->not_so)
      {
        *ret_nth = i;
        return TRUE;
      }
  return FALSE;
}

/* With the list gone through the cursor is on what bars the way, or on what ends it. */
static void
put_cursor (HsSafetyWindow *self, guint from)
{
  gboolean found = find_asked (self, from, &self->at) || find_not_so (self, &self->at);
  GtkWidget *row = found ? get_row (self, self->at) : NULL;

  gtk_widget_grab_focus (row != NULL ? row : GTK_WIDGET (self->safe));
  gtk_window_set_focus_visible (GTK_WINDOW (self), TRUE);
}

static void
answered_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsRefusal) asked = data;
  HsSafetyWindow *self = hs_refusal_get_window (asked);
  g_autoptr (GError) error = NULL;

  hs_ledger_task_finish (HS_LEDGER (source), result, NULL, &error);
  if (hs_refusal_late (asked, error != NULL ? error->message : NULL))
    return;
  if (error == NULL)
    return;
  self->on = 0;
  hs_refusal_say (self->refusal, error->message);
}

/* @answer: (nullable): %NULL takes it back, and the cursor stays. */
static void
answer_nth (HsSafetyWindow *self, guint nth, const char *answer)
{
  const HsSafetyLine *line = get_line (self, nth);

  if (line == NULL || self->page == NULL || self->on != 0)
    return;
  self->on = answer != NULL ? nth + 2 : nth + 1;
  hs_refusal_say (self->refusal, NULL);
  hs_deed_answer_safety (hs_page_get_ledger (self->page), self->job_id, line->id, answer, NULL, answered_cb,
                         hs_refusal_expect (GTK_WINDOW (self), NULL));
}

/* Its digit: that line is so, and so is what stands open above it; what is answered is asked again. */
static void
press_digit (HsSafetyWindow *self, guint nth)
{
  const HsSafetyLine *line = get_line (self, nth);

  if (line == NULL || self->page == NULL || self->on != 0)
    return;
  if (!line->asked)
    {
      answer_nth (self, nth, NULL);
      return;
    }
  self->on = nth + 2;
  hs_refusal_say (self->refusal, NULL);
  hs_deed_answer_safety_down_to (hs_page_get_ledger (self->page), self->job_id, line->id, answered_cb,
                                 hs_refusal_expect (GTK_WINDOW (self), NULL));
}

/* One that is answered is asked again first. */
static void
press_line (HsSafetyWindow *self, guint nth)
{
  const HsSafetyLine *line = get_line (self, nth);

  if (line != NULL)
    answer_nth (self, nth, line->asked ? "done" : NULL);
}

static void
line_clicked_cb (HsSafetyWindow *self, HsSafetyLineButton *button)
{
  press_line (self, hs_safety_line_button_get_nth (button));
}

/* The line that the cursor is on, or was. */
static guint
get_at (HsSafetyWindow *self)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (self));

  if (focus != NULL && HS_IS_SAFETY_LINE_BUTTON (focus))
    self->at = hs_safety_line_button_get_nth (HS_SAFETY_LINE_BUTTON (focus));
  return self->at;
}

static void
answer_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsSafetyWindow *self = HS_SAFETY_WINDOW (widget);

  answer_nth (self, get_at (self), g_variant_get_string (parameter, NULL));
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

/* Nothing is done along with the rest. */
static gboolean
is_over (HsSafetyWindow *self)
{
  guint nth;

  if (!find_asked (self, 0, &nth))
    return TRUE;
  hs_refusal_say (self->refusal, _("First the lines that nobody answered: Enter where the cursor is."));
  put_cursor (self, 0);
  return FALSE;
}

static void
finish (HsSafetyWindow *self, HsSafetyEnd end, const char *why)
{
  const HsArrival *arrival = get_arrival (self);
  Finish *data;

  if (self->page == NULL || arrival == NULL || self->on != 0 || (end != HS_SAFETY_REFUSED && !is_over (self)))
    return;
  self->again = arrival->safety->note != NULL && !arrival->safety->passed;
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
passed_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsRefusal) asked = data;
  HsSafetyWindow *self = hs_refusal_get_window (asked);
  g_autoptr (GError) error = NULL;

  hs_ledger_task_finish (HS_LEDGER (source), result, NULL, &error);
  if (hs_refusal_late (asked, error != NULL ? error->message : NULL))
    return;
  if (error != NULL)
    {
      hs_refusal_say (self->refusal, error->message);
      return;
    }
  if (self->page != NULL)
    hs_mover_move (self->page, self->job_id, self->number, self->from, HS_STAGE_PROVEN, self->reason);
  gtk_window_close (GTK_WINDOW (self));
}

/* It is written down that nobody went through the list, and the job goes on. */
static void
past_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsSafetyWindow *self = HS_SAFETY_WINDOW (widget);

  if (self->page != NULL && gtk_widget_is_visible (GTK_WIDGET (self->past)))
    hs_deed_pass_safety (hs_page_get_ledger (self->page), self->job_id, passed_cb,
                         hs_refusal_expect (GTK_WINDOW (self), NULL));
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

/* Enter on a button is the button's. */
static gboolean
press_enter (HsSafetyWindow *self)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (self));
  gboolean held = self->held;

  if (focus == NULL || !HS_IS_SAFETY_LINE_BUTTON (focus))
    return held;
  self->held = TRUE;
  if (!held)
    press_line (self, get_at (self));
  return TRUE;
}

/* With the list gone through that is nothing, unless the cursor is on a line. */
static gboolean
press_of_line (HsSafetyWindow *self, const char *answer)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (self));
  guint nth;

  if ((focus == NULL || !HS_IS_SAFETY_LINE_BUTTON (focus)) && !find_asked (self, 0, &nth))
    return FALSE;
  answer_nth (self, get_at (self), answer);
  return TRUE;
}

static gboolean
press_sign (HsSafetyWindow *self, char sign)
{
  if (sign == '\n')
    return press_enter (self);
  if (sign == '0')
    return press_of_line (self, "not_so");
  if (sign == '*')
    return press_of_line (self, "not_here");
  if (sign >= '1' && sign <= '9')
    press_digit (self, (guint) (sign - '1'));
  else if (sign == '+')
    finish (self, HS_SAFETY_MOVED, NULL);
  else if (sign == '/')
    gtk_widget_activate_action (GTK_WIDGET (self), "safety.refuse", NULL);
  else
    return FALSE;
  return TRUE;
}

static gboolean
key_cb (HsSafetyWindow *self, guint keyval, guint keycode, GdkModifierType state)
{
  if (keyval == GDK_KEY_Escape || keyval == GDK_KEY_F12)
    gtk_window_close (GTK_WINDOW (self));
  else if (keyval == GDK_KEY_F8)
    past_action (GTK_WIDGET (self), NULL, NULL);
  else if (is_in_why (self) || (state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0
           || !press_sign (self, hs_pad_key_sign (keyval)))
    return GDK_EVENT_PROPAGATE;
  return GDK_EVENT_STOP;
}

static void
key_released_cb (HsSafetyWindow *self)
{
  self->held = FALSE;
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

static const char *
get_head (HsSafetyWindow *self, const HsSafetySheet *sheet)
{
  if (self->bars && sheet->high_voltage)
    return _("Nobody went through this list yet, and the job is to be tested good. Read it, and answer line by line.");
  if (self->bars)
    return _("Nobody went through this list yet, and the job is to be tested good. Read it, and answer line by line. "
             "F8 goes on without it, and that is written down.");
  if (sheet->high_voltage)
    return _("High voltage: its items are answered one by one, before anything is measured.");
  if (sheet->note != NULL && !sheet->passed && sheet->n_open > 0)
    return _("What came to the list after it was gone through is open.");
  return _("Enter: the line is so, on to the next. A digit: all down to that line is so; once more, it is asked "
           "again.");
}

/* Each key is printed while it acts. */
static void
show_keys (HsSafetyWindow *self, const HsSafetySheet *sheet)
{
  guint nth;
  gboolean asks = find_asked (self, 0, &nth);

  gtk_widget_set_visible (GTK_WIDGET (self->so), asks);
  gtk_widget_set_visible (GTK_WIDGET (self->not_so), asks);
  gtk_widget_set_visible (GTK_WIDGET (self->not_here), asks);
  gtk_widget_set_visible (GTK_WIDGET (self->safe), !asks && sheet->n_not_so == 0);
  gtk_widget_set_visible (GTK_WIDGET (self->moved), !asks && sheet->n_not_so == 0);
  gtk_widget_set_visible (GTK_WIDGET (self->past),
                          self->bars && sheet->note == NULL && !sheet->high_voltage && sheet->n_not_so == 0
                              && sheet->n_open == sheet->lines->len);
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
  gtk_label_set_label (self->head, get_head (self, arrival->safety));
  show_items (self, arrival->safety);
  show_notes (self, arrival->notes);
  show_keys (self, arrival->safety);
  if (self->on != 0 || !self->shown)
    put_cursor (self, self->on != 0 ? self->on - 1 : 0);
  self->shown = TRUE;
  self->on = 0;
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
  g_clear_pointer (&self->reason, g_free);
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
  gtk_widget_class_bind_template_child (widget_class, HsSafetyWindow, so);
  gtk_widget_class_bind_template_child (widget_class, HsSafetyWindow, not_so);
  gtk_widget_class_bind_template_child (widget_class, HsSafetyWindow, not_here);
  gtk_widget_class_bind_template_child (widget_class, HsSafetyWindow, safe);
  gtk_widget_class_bind_template_child (widget_class, HsSafetyWindow, moved);
  gtk_widget_class_bind_template_child (widget_class, HsSafetyWindow, past);
  gtk_widget_class_bind_template_callback (widget_class, key_cb);
  gtk_widget_class_bind_template_callback (widget_class, key_released_cb);
  gtk_widget_class_bind_template_callback (widget_class, why_entered_cb);
  gtk_widget_class_install_action (widget_class, "safety.answer", "s", answer_action);
  gtk_widget_class_install_action (widget_class, "safety.past", NULL, past_action);
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
    self = open_window (page, job_id, number);
  gtk_window_present (GTK_WINDOW (self));
  return self;
}

void
hs_safety_window_bar (HsSafetyWindow *self, HsStage from, const char *reason)
{
  g_return_if_fail (HS_IS_SAFETY_WINDOW (self));

  self->bars = TRUE;
  self->from = from;
  g_free (self->reason);
  self->reason = g_strdup (reason);
  if (get_arrival (self) != NULL)
    arrival_cb (self);
}
