// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The calculators in a window.
 *
 *   search ─▶ GtkListBox of hs_calc_get_nth () ─ activated ─▶ HsCalcSheet ─ F4 ─▶ reading or finding of the open job
 *
 * A result whose calculator names a check of the catalog is sent as that reading, with the conditions that were typed;
 * any other one as a finding in words. It writes nothing else. */

#include "hs-work-out-window.h"

#include <glib/gi18n.h>
#include <math.h>

#include "hs-act-row.h"
#include "hs-deed.h"
#include "hs-key-button.h"
#include "hs-refusal.h"
#include "hs-spoken.h"
#include "hs-text.h"

struct _HsWorkOutWindow
{
  AdwWindow parent_instance;

  AdwWindowTitle *title;
  GtkStack *stack;
  GtkEditable *search;
  GtkListBox *list;
  AdwBin *holder;
  GtkLabel *told;
  HsKeyButton *back;
  HsKeyButton *send;

  HsWindow *behind; /* weak */
  HsLedger *ledger;
  char *job_id;
  char *job_number;
  char *phase;
  gboolean sending;
};

G_DEFINE_FINAL_TYPE (HsWorkOutWindow, hs_work_out_window, ADW_TYPE_WINDOW)

#define WORK_OUT_KEY "hs-work-out"

static HsCalcSheet *
sheet_of (HsWorkOutWindow *self)
{
  GtkWidget *child = adw_bin_get_child (self->holder);

  return child != NULL ? HS_CALC_SHEET (child) : NULL;
}

static gboolean
shows_sheet (HsWorkOutWindow *self)
{
  return g_strcmp0 (gtk_stack_get_visible_child_name (self->stack), "sheet") == 0;
}

static void
show_send (HsWorkOutWindow *self)
{
  g_autofree char *text = g_strdup_printf (_("Send to %s"), self->job_number != NULL ? self->job_number : "");
  HsCalcSheet *sheet = sheet_of (self);

  hs_key_button_set_text (self->send, text);
  gtk_widget_set_visible (gtk_widget_get_parent (GTK_WIDGET (self->send)), self->job_id != NULL && shows_sheet (self));
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "work-out.send",
                                 self->job_id != NULL && shows_sheet (self) && !self->sending && sheet != NULL
                                   && hs_calc_sheet_get_result (sheet) != NULL);
  hs_key_button_set_text (self->back, shows_sheet (self) ? _("All Calculators") : _("Back to It"));
}

static void
worked_out_cb (HsWorkOutWindow *self)
{
  hs_refusal_say (self->told, NULL);
  show_send (self);
}

static void
show_list (HsWorkOutWindow *self)
{
  gtk_stack_set_visible_child_name (self->stack, "list");
  adw_window_title_set_title (self->title, _("Work It Out"));
  hs_refusal_say (self->told, NULL);
  show_send (self);
  gtk_widget_grab_focus (GTK_WIDGET (self->search));
}

static HsCalcSheet *
open_calc (HsWorkOutWindow *self, const HsCalc *calc)
{
  GtkWidget *sheet = hs_calc_sheet_new (calc, self->ledger);

  g_signal_connect_object (sheet, "worked-out", G_CALLBACK (worked_out_cb), self, G_CONNECT_SWAPPED);
  adw_bin_set_child (self->holder, sheet);
  adw_window_title_set_title (self->title, calc->title);
  gtk_stack_set_visible_child_name (self->stack, "sheet");
  worked_out_cb (self);
  gtk_widget_grab_focus (sheet);
  return HS_CALC_SHEET (sheet);
}

/* The list. */

static const HsCalc *
calc_of_row (GtkListBoxRow *row)
{
  return g_object_get_data (G_OBJECT (row), "calc");
}

static gboolean
filter_cb (GtkListBoxRow *row, gpointer data)
{
  HsWorkOutWindow *self = data;
  const HsCalc *calc = calc_of_row (row);
  g_autofree char *hay = g_strjoin (" ", calc->title, calc->subject, calc->help, calc->name, NULL);
  g_autofree char *folded = hs_text_fold (hay);
  g_auto (GStrv) words = hs_text_words (gtk_editable_get_text (self->search));

  for (guint i = 0; words[i] != NULL; i++)
    if (strstr (folded, words[i]) == NULL)
      return FALSE;
  return TRUE;
}

static void
header_cb (GtkListBoxRow *row, GtkListBoxRow *before, gpointer data)
{
  const char *subject = calc_of_row (row)->subject;
  GtkWidget *label;

  if (before != NULL && g_str_equal (calc_of_row (before)->subject, subject))
    {
      gtk_list_box_row_set_header (row, NULL);
      return;
    }
  label = gtk_label_new (subject);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, "hs-pad");
  gtk_widget_add_css_class (label, "hs-title");
  gtk_list_box_row_set_header (row, label);
}

static GtkWidget *
row_label (const char *text, const char *css_class)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_widget_add_css_class (label, css_class);
  return label;
}

static GtkWidget *
row_new (const HsCalc *calc)
{
  GtkWidget *row = hs_act_row_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  g_autofree char *say = g_strdup_printf ("%s: %s", calc->title, calc->help);

  gtk_widget_add_css_class (box, "hs-pad");
  gtk_box_append (GTK_BOX (box), row_label (calc->title, "hs-strong"));
  gtk_box_append (GTK_BOX (box), row_label (calc->help, "hs-caption"));
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), box);
  g_object_set_data (G_OBJECT (row), "calc", (gpointer) calc);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, say, -1);
  return row;
}

static GtkListBoxRow *
first_hit (HsWorkOutWindow *self)
{
  GtkListBoxRow *row;

  for (int i = 0; (row = gtk_list_box_get_row_at_index (self->list, i)) != NULL; i++)
    if (filter_cb (row, self))
      return row;
  return NULL;
}

static void
searched_cb (HsWorkOutWindow *self)
{
  gtk_list_box_invalidate_filter (self->list);
  gtk_list_box_invalidate_headers (self->list);
}

/* Enter opens the first that is left. */
static void
search_entered_cb (HsWorkOutWindow *self)
{
  GtkListBoxRow *row = first_hit (self);

  if (row != NULL)
    open_calc (self, calc_of_row (row));
}

/* Esc in the search field. */
static void
stopped_cb (HsWorkOutWindow *self)
{
  if (*gtk_editable_get_text (self->search) != '\0')
    gtk_editable_set_text (self->search, "");
  else
    gtk_window_close (GTK_WINDOW (self));
}

static void
activated_cb (HsWorkOutWindow *self, GtkListBoxRow *row)
{
  open_calc (self, calc_of_row (row));
}

/* To the open job. */

static void
sent_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsRefusal) asked = data;
  HsWorkOutWindow *self = hs_refusal_get_window (asked);
  g_autoptr (GError) error = NULL;
  g_autofree char *done = g_strdup_printf (_("%s has it."), self->job_number != NULL ? self->job_number : "");
  gpointer answer = NULL;

  self->sending = FALSE;
  if (hs_ledger_task_finish (HS_LEDGER (source), result, &answer, &error))
    g_clear_pointer ((HsReadingResult **) &answer, hs_reading_result_free);
  if (hs_refusal_late (asked, error != NULL ? error->message : NULL) || self->behind == NULL)
    return;
  if (error != NULL)
    {
      show_send (self);
      hs_refusal_say (self->told, error->message);
      return;
    }
  show_send (self);
  hs_refusal_say (self->told, done);
}

/* A word that was typed, as a condition beside a reading; %NULL if it is none. */
static char *
condition_of (const char *word)
{
  static const struct
  {
    const char *word, *condition;
  } meanings[] = {
    { "kind=flooded", "battery_kind:flooded" },   { "kind=EFB", "battery_kind:EFB" },
    { "kind=AGM", "battery_kind:AGM" },           { "kind=lithium", "battery_kind:lithium" },
    { "kind=conventional", "smart_charging:no" }, { "kind=managed", "smart_charging:yes" },
    { "vehicle=car", "heavy:no" },                { "vehicle=heavy-front", "heavy:yes" },
    { "vehicle=heavy-other", "heavy:yes" },
  };
  const char *value = strchr (word, '=') + 1;

  for (guint i = 0; i < G_N_ELEMENTS (meanings); i++)
    if (g_str_equal (meanings[i].word, word))
      return g_strdup (meanings[i].condition);
  if (g_str_has_prefix (word, "celsius="))
    return g_strdup_printf ("temperature:%d", (int) floor (g_ascii_strtod (value, NULL)));
  if (g_str_has_prefix (word, "place="))
    return g_strdup_printf ("place:%s", value);
  if (g_str_has_prefix (word, "cylinders="))
    return g_strdup_printf ("cylinders:%s", value);
  if (g_str_has_prefix (word, "amps=") && g_ascii_strtod (value, NULL) > 0)
    return g_strdup ("loaded:yes");
  return NULL;
}

static gboolean
rests_on (const HsCheck *check, const char *condition)
{
  g_auto (GStrv) sides = g_strsplit (condition, ":", 2);

  for (guint i = 0; check != NULL && i < check->n_asks; i++)
    if (g_str_equal (hs_condition_get (check->asks[i])->id, sides[0]))
      return TRUE;
  return FALSE;
}

/* What was typed beside the reading, as far as its check rests on it: "temperature:-4; place:ground; loaded:yes". */
static char *
conditions_of (const HsCheck *check, char **words)
{
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();
  g_auto (GStrv) parts = NULL;

  for (guint i = 0; words[i] != NULL; i++)
    {
      g_autofree char *part = condition_of (words[i]);

      if (part != NULL && rests_on (check, part))
        g_strv_builder_add (builder, part);
    }
  parts = g_strv_builder_end (builder);
  return parts[0] == NULL ? NULL : g_strjoinv ("; ", parts);
}

/* The typed reading of the calculator's check; %NULL if it names none or another unit was typed. */
static const char *
reading_of (const HsCalc *calc, char **words)
{
  g_autofree char *start = calc->check != NULL ? g_strdup_printf ("%s=", calc->check_key) : NULL;

  for (guint i = 0; start != NULL && words[i] != NULL; i++)
    if (g_str_has_prefix (words[i], start))
      return words[i] + strlen (start);
  return NULL;
}

static void
send_result (HsWorkOutWindow *self)
{
  HsCalcSheet *sheet = sheet_of (self);
  const HsCalc *calc = hs_calc_sheet_get_calc (sheet);
  g_auto (GStrv) words = hs_calc_sheet_dup_words (sheet);
  HsChecks *checks = hs_ledger_get_checks (self->ledger);
  const HsCheck *check = checks != NULL && calc->check != NULL ? hs_checks_lookup (checks, calc->check) : NULL;
  g_autofree char *conditions = conditions_of (check, words);
  g_autofree char *sentence = hs_calc_sheet_dup_sentence (sheet);
  HsReadingEntry entry = { .check = calc->check, .phase = self->phase, .conditions = conditions,
                           .at = HS_INSTANT_NONE };
  HsRefusal *asked;

  entry.text = reading_of (calc, words);
  self->sending = TRUE;
  show_send (self);
  asked = hs_refusal_expect (GTK_WINDOW (self), entry.text != NULL ? entry.text : sentence);
  if (entry.text != NULL)
    hs_deed_add_reading (self->ledger, self->job_id, &entry, sent_cb, asked);
  else
    hs_deed_note_finding (self->ledger, self->job_id, sentence, sent_cb, asked);
}

/* Actions. */

static void
back_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsWorkOutWindow *self = HS_WORK_OUT_WINDOW (widget);

  if (shows_sheet (self))
    show_list (self);
  else
    gtk_window_close (GTK_WINDOW (self));
}

static void
send_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  send_result (HS_WORK_OUT_WINDOW (widget));
}

static void
step_aside (HsWorkOutWindow *self)
{
  if (self->behind != NULL && g_object_get_data (G_OBJECT (self->behind), WORK_OUT_KEY) == self)
    g_object_set_data (G_OBJECT (self->behind), WORK_OUT_KEY, NULL);
}

static gboolean
close_request_cb (HsWorkOutWindow *self)
{
  step_aside (self);
  return FALSE;
}

static void
hs_work_out_window_dispose (GObject *object)
{
  HsWorkOutWindow *self = HS_WORK_OUT_WINDOW (object);

  step_aside (self);
  g_clear_weak_pointer (&self->behind);
  g_clear_object (&self->ledger);
  G_OBJECT_CLASS (hs_work_out_window_parent_class)->dispose (object);
}

static void
hs_work_out_window_finalize (GObject *object)
{
  HsWorkOutWindow *self = HS_WORK_OUT_WINDOW (object);

  g_free (self->job_id);
  g_free (self->job_number);
  g_free (self->phase);
  G_OBJECT_CLASS (hs_work_out_window_parent_class)->finalize (object);
}

static void
hs_work_out_window_class_init (HsWorkOutWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hs_work_out_window_dispose;
  G_OBJECT_CLASS (klass)->finalize = hs_work_out_window_finalize;
  g_type_ensure (HS_TYPE_KEY_BUTTON);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-work-out-window.ui");
  gtk_widget_class_bind_template_child (widget_class, HsWorkOutWindow, title);
  gtk_widget_class_bind_template_child (widget_class, HsWorkOutWindow, stack);
  gtk_widget_class_bind_template_child (widget_class, HsWorkOutWindow, search);
  gtk_widget_class_bind_template_child (widget_class, HsWorkOutWindow, list);
  gtk_widget_class_bind_template_child (widget_class, HsWorkOutWindow, holder);
  gtk_widget_class_bind_template_child (widget_class, HsWorkOutWindow, told);
  gtk_widget_class_bind_template_child (widget_class, HsWorkOutWindow, back);
  gtk_widget_class_bind_template_child (widget_class, HsWorkOutWindow, send);
  gtk_widget_class_bind_template_callback (widget_class, searched_cb);
  gtk_widget_class_bind_template_callback (widget_class, search_entered_cb);
  gtk_widget_class_bind_template_callback (widget_class, stopped_cb);
  gtk_widget_class_bind_template_callback (widget_class, activated_cb);
  gtk_widget_class_bind_template_callback (widget_class, close_request_cb);
  gtk_widget_class_install_action (widget_class, "work-out.back", NULL, back_action);
  gtk_widget_class_install_action (widget_class, "work-out.send", NULL, send_action);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "work-out.back", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_F4, 0, "work-out.send", NULL);
}

static void
hs_work_out_window_init (HsWorkOutWindow *self)
{
  const HsCalc *calc;

  gtk_widget_init_template (GTK_WIDGET (self));
  hs_spoken_stack (self->stack);
  gtk_list_box_set_filter_func (self->list, filter_cb, self, NULL);
  gtk_list_box_set_header_func (self->list, header_cb, NULL, NULL);
  for (guint i = 0; (calc = hs_calc_get_nth (i)) != NULL; i++)
    gtk_list_box_append (self->list, row_new (calc));
}

HsWorkOutWindow *
hs_work_out_window_present (HsWindow *parent, HsLedger *ledger, const char *job_id, const char *job_number,
                            const char *phase)
{
  HsWorkOutWindow *self;

  g_return_val_if_fail (HS_IS_WINDOW (parent), NULL);

  self = g_object_get_data (G_OBJECT (parent), WORK_OUT_KEY);
  if (self == NULL)
    {
      self = g_object_new (HS_TYPE_WORK_OUT_WINDOW, "transient-for", parent, "destroy-with-parent", TRUE, NULL);
      g_set_weak_pointer (&self->behind, parent);
      self->ledger = g_object_ref (ledger);
      self->job_id = g_strdup (job_id);
      self->job_number = g_strdup (job_number);
      self->phase = g_strdup (phase);
      hs_window_fit_over (GTK_WINDOW (self));
      g_object_set_data (G_OBJECT (parent), WORK_OUT_KEY, self);
      show_list (self);
    }
  gtk_window_present (GTK_WINDOW (self));
  return self;
}

HsCalcSheet *
hs_work_out_window_choose (HsWorkOutWindow *self, const char *name)
{
  const HsCalc *calc = hs_calc_lookup (name);

  g_return_val_if_fail (HS_IS_WORK_OUT_WINDOW (self), NULL);

  return calc != NULL ? open_calc (self, calc) : NULL;
}
