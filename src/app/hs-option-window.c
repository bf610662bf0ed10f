// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* An option while it is written. A field that is left is in the book at once; a line is added as a whole, and the price
 * above the lines is the book's. What the book refuses is told here and stays typed. */

#include "hs-option-window-private.h"

#include <glib/gi18n.h>

#include "hs-deed-choice.h"
#include "hs-key-button.h"
#include "hs-late-keys.h"
#include "hs-pad-key.h"
#include "hs-refusal.h"
#include "hs-show.h"
#include "hs-spoken.h"
#include "hs-window.h"

G_DEFINE_FINAL_TYPE (HsOptionWindow, hs_option_window, ADW_TYPE_WINDOW)

static GtkEditable *
get_field (HsOptionWindow *self, guint i)
{
  GtkEditable *const fields[HS_OPTION_N_FIELDS] = { self->wording, self->group, self->risk };

  return fields[i];
}

HsLedger *
hs_option_window_get_ledger (HsOptionWindow *self)
{
  return self->page == NULL ? NULL : hs_page_get_ledger (self->page);
}

/* The option itself ------------------------------------------------------------------------------------------------ */

/* What is on its way to the book; a text is %NULL where its field does not go along. */
typedef struct
{
  HsRefusal *asked;
  char *sent[HS_OPTION_N_FIELDS];
} Saving;

static void
saving_free (Saving *saving)
{
  for (guint i = 0; i < HS_OPTION_N_FIELDS; i++)
    g_free (saving->sent[i]);
  g_clear_pointer (&saving->asked, hs_refusal_free);
  g_free (saving);
}

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Saving, saving_free)

static Saving *
saving_new (HsOptionWindow *self, const char *typed)
{
  Saving *saving = g_new0 (Saving, 1);

  saving->asked = hs_refusal_expect (GTK_WINDOW (self), typed);
  return saving;
}

/* What the book refused is what it has not: it stays typed and is sent again. */
static void
settle_sent (HsOptionWindow *self, const Saving *saving, gboolean good)
{
  for (guint i = 0; i < HS_OPTION_N_FIELDS; i++)
    {
      if (saving->sent[i] == NULL)
        continue;
      if (g_strcmp0 (self->sent[i], saving->sent[i]) == 0)
        g_clear_pointer (&self->sent[i], g_free);
      if (!good)
        continue;
      g_free (self->saved[i]);
      self->saved[i] = g_strdup (saving->sent[i]);
    }
}

static void
saved_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (Saving) saving = data;
  HsOptionWindow *self = hs_refusal_get_window (saving->asked);
  g_autoptr (GError) error = NULL;

  hs_ledger_task_finish (HS_LEDGER (source), result, NULL, &error);
  settle_sent (self, saving, error == NULL);
  if (error == NULL)
    hs_option_typed_settle (self);
  if (!hs_refusal_late (saving->asked, error != NULL ? error->message : NULL) && error != NULL)
    hs_refusal_say (self->refusal, error->message);
}

static void
added_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (Saving) saving = data;
  HsOptionWindow *self = hs_refusal_get_window (saving->asked);
  g_autoptr (GError) error = NULL;
  gpointer id = NULL;

  self->adding = FALSE;
  hs_ledger_task_finish (HS_LEDGER (source), result, &id, &error);
  settle_sent (self, saving, error == NULL);
  if (error == NULL)
    hs_option_typed_take_id (self, id);
  if (hs_refusal_late (saving->asked, error != NULL ? error->message : NULL))
    {
      hs_option_typed_leave (self);
      return;
    }
  if (error != NULL)
    {
      hs_refusal_say (self->refusal, error->message);
      return;
    }
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "option.remove", TRUE);
  hs_option_window_save_fields (self);
}

/* (nullable): what is typed now and neither in the book nor on its way there. */
static Saving *
begin_saving (HsOptionWindow *self, HsChoiceEntry *ret_entry)
{
  const char **texts[HS_OPTION_N_FIELDS] = { &ret_entry->wording, &ret_entry->group, &ret_entry->risk };
  const char *typed[HS_OPTION_N_FIELDS] = { "", "", "" };
  g_autofree char *all = NULL;
  gboolean differs = FALSE;
  Saving *saving;

  for (guint i = 0; i < HS_OPTION_N_FIELDS; i++)
    {
      const char *text = gtk_editable_get_text (get_field (self, i));
      const char *last = self->sent[i] != NULL ? self->sent[i] : self->saved[i];

      if (g_strcmp0 (text, last != NULL ? last : "") == 0)
        continue;
      g_free (self->sent[i]);
      self->sent[i] = g_strdup (text);
      *texts[i] = typed[i] = text;
      differs = TRUE;
    }
  if (!differs)
    return NULL;
  all = hs_show_joined (typed[0], typed[1], typed[2], NULL);
  saving = saving_new (self, all);
  for (guint i = 0; i < HS_OPTION_N_FIELDS; i++)
    saving->sent[i] = g_strdup (*texts[i]);
  return saving;
}

void
hs_option_window_save_fields (HsOptionWindow *self)
{
  HsChoiceEntry entry = { 0 };
  HsLedger *ledger = hs_option_window_get_ledger (self);
  Saving *saving;

  if (ledger == NULL || self->adding
      || (self->choice_id == NULL && *gtk_editable_get_text (self->wording) == '\0'))
    return;
  saving = begin_saving (self, &entry);
  if (saving == NULL)
    return;
  hs_refusal_say (self->refusal, NULL);
  if (self->choice_id != NULL)
    {
      hs_deed_change_choice (ledger, self->choice_id, &entry, saved_cb, saving);
      return;
    }
  entry.rank = self->rank;
  entry.beside = self->beside;
  self->adding = TRUE;
  hs_deed_add_choice (ledger, self->job_id, &entry, added_cb, saving);
}

static void
entered_cb (HsOptionWindow *self, GtkWidget *entry)
{
  hs_option_window_save_fields (self);
  gtk_widget_child_focus (GTK_WIDGET (self), GTK_DIR_TAB_FORWARD);
}

void
hs_option_window_mark (GtkFlowBox *flow, guint chosen)
{
  GtkFlowBoxChild *child;

  for (int i = 0; (child = gtk_flow_box_get_child_at_index (flow, i)) != NULL; i++)
    {
      GtkWidget *button = gtk_flow_box_child_get_child (child);

      if ((guint) i == chosen)
        gtk_widget_add_css_class (button, "hs-chosen");
      else
        gtk_widget_remove_css_class (button, "hs-chosen");
      gtk_accessible_update_state (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_STATE_PRESSED, (guint) i == chosen, -1);
    }
}

static guint
nth_of (GtkWidget *button)
{
  return GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "nth"));
}

static void
rank_clicked_cb (HsOptionWindow *self, GtkWidget *button)
{
  HsChoiceEntry entry = { 0 };

  g_free (self->rank);
  self->rank = g_strdup (hs_words_get (HS_WORDS_RANK, NULL)[nth_of (button)].id);
  hs_option_window_mark (self->ranks, nth_of (button));
  entry.rank = self->rank;
  if (self->choice_id != NULL && hs_option_window_get_ledger (self) != NULL)
    hs_deed_change_choice (hs_option_window_get_ledger (self), self->choice_id, &entry, saved_cb,
                           saving_new (self, NULL));
}

GtkWidget *
hs_option_window_nth_button (GtkFlowBox *buttons, guint nth)
{
  return gtk_flow_box_child_get_child (gtk_flow_box_get_child_at_index (buttons, (int) nth));
}

static void
kind_clicked_cb (HsOptionWindow *self, GtkWidget *button)
{
  hs_option_window_set_kind (self, nth_of (button));
  hs_option_typed_note_kind (self);
  gtk_widget_grab_focus (GTK_WIDGET (self->what));
}

static void
add_line_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  hs_option_window_add_line (HS_OPTION_WINDOW (widget), FALSE);
}

/* The window ------------------------------------------------------------------------------------------------------- */

static void
removed_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsRefusal) asked = data;
  HsOptionWindow *self = hs_refusal_get_window (asked);
  g_autoptr (GError) error = NULL;

  hs_ledger_task_finish (HS_LEDGER (source), result, NULL, &error);
  if (hs_refusal_late (asked, error != NULL ? error->message : NULL))
    return;
  if (error != NULL)
    hs_refusal_say (self->refusal, error->message);
  else
    gtk_window_close (GTK_WINDOW (self));
}

static void
remove_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsOptionWindow *self = HS_OPTION_WINDOW (widget);

  if (self->choice_id != NULL && hs_option_window_get_ledger (self) != NULL)
    hs_deed_remove_choice (hs_option_window_get_ledger (self), self->choice_id, removed_cb,
                           hs_refusal_expect (GTK_WINDOW (self), NULL));
}

static void
close_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  hs_option_window_save_fields (HS_OPTION_WINDOW (widget));
  gtk_window_close (GTK_WINDOW (widget));
}

/* A line that was begun goes into the book first, or says what it lacks and stays. */
static void
done_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  g_autoptr (HsOptionWindow) self = g_object_ref (HS_OPTION_WINDOW (widget));

  if (!hs_option_window_is_line_begun (self) || hs_option_window_get_ledger (self) == NULL)
    {
      close_action (widget, name, parameter);
      return;
    }
  hs_option_window_save_fields (self);
  /* The line needs its option's place in the book. */
  if (self->adding)
    hs_ledger_wait (hs_option_window_get_ledger (self));
  hs_option_window_add_line (self, TRUE);
}

static gboolean
close_request_cb (HsOptionWindow *self)
{
  hs_option_window_save_fields (self);
  if (self->page != NULL && hs_option_window_is_line_begun (self))
    hs_option_typed_leave (self);
  else if (self->page != NULL)
    hs_option_typed_forget (self);
  return FALSE;
}

/* Outside the fields digits pick: 1 to 6 the kind of line, 7 to 9 the rank. A letter on a kind begins its words. */
static gboolean
pick (HsOptionWindow *self, guint keyval)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (self));
  gunichar letter = gdk_keyval_to_unicode (keyval);
  char sign = hs_pad_key_sign (keyval);
  guint nth = (guint) (sign - '1');
  gboolean rank = nth >= HS_OPTION_N_KINDS;

  if (focus != NULL && g_unichar_isalpha (letter) && gtk_widget_is_ancestor (focus, GTK_WIDGET (self->kinds)))
    {
      char words[7] = { 0 };

      g_unichar_to_utf8 (letter, words);
      gtk_editable_set_text (self->what, words);
      gtk_widget_grab_focus (GTK_WIDGET (self->what));
      gtk_editable_set_position (self->what, -1);
      return TRUE;
    }
  if (sign < '1' || sign > '9')
    return FALSE;
  if (rank)
    nth -= HS_OPTION_N_KINDS;
  /* At once: a button that is activated waits, and the first letters would be lost. */
  g_signal_emit_by_name (hs_option_window_nth_button (rank ? self->ranks : self->kinds, nth), "clicked");
  return TRUE;
}

/* A digit acts where it is printed: in a field it is text, and the buttons show none. */
static void
focus_moved_cb (HsOptionWindow *self)
{
  gboolean acts = !hs_pad_key_is_text (GTK_WINDOW (self));
  GtkFlowBox *const rows[] = { self->kinds, self->ranks };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    for (guint nth = 0; gtk_flow_box_get_child_at_index (rows[i], (int) nth) != NULL; nth++)
      hs_key_button_set_show_key (HS_KEY_BUTTON (hs_option_window_nth_button (rows[i], nth)), acts);
}

static gboolean
key_cb (HsOptionWindow *self, guint keyval, guint keycode, GdkModifierType state)
{
  if ((state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0 || hs_pad_key_is_text (GTK_WINDOW (self)))
    return GDK_EVENT_PROPAGATE;
  return pick (self, keyval) ? GDK_EVENT_STOP : GDK_EVENT_PROPAGATE;
}

static void
late_key (GtkWidget *widget, guint keyval)
{
  pick (HS_OPTION_WINDOW (widget), keyval);
}

static void
fill_buttons (HsOptionWindow *self)
{
  gsize n_ranks;
  const char *const words[] = { N_("Best"), N_("Enough"), N_("Least") };

  hs_words_get (HS_WORDS_RANK, &n_ranks);
  for (guint i = 0; i < n_ranks + HS_OPTION_N_KINDS; i++)
    {
      gboolean rank = i < n_ranks;
      guint nth = rank ? i : i - (guint) n_ranks;
      g_autofree char *key = g_strdup_printf ("%u", rank ? HS_OPTION_N_KINDS + nth + 1 : nth + 1);
      GtkWidget *button = hs_key_button_new (key, rank ? _(words[nth]) : hs_option_window_get_kind_word (nth), NULL);

      g_object_set_data (G_OBJECT (button), "nth", GUINT_TO_POINTER (nth));
      g_signal_connect_object (button, "clicked", rank ? G_CALLBACK (rank_clicked_cb) : G_CALLBACK (kind_clicked_cb),
                               self, G_CONNECT_SWAPPED);
      gtk_flow_box_append (rank ? self->ranks : self->kinds, button);
      gtk_widget_set_focusable (gtk_widget_get_parent (button), FALSE);
      hs_spoken_name (gtk_widget_get_parent (button), rank ? _(words[nth]) : hs_option_window_get_kind_word (nth));
    }
  hs_option_window_set_kind (self, 0);
}

static void
watch_fields (HsOptionWindow *self)
{
  for (guint i = 0; i < HS_OPTION_N_FIELDS; i++)
    {
      GtkEventController *focus = gtk_event_controller_focus_new ();

      g_signal_connect_object (focus, "leave", G_CALLBACK (hs_option_window_save_fields), self, G_CONNECT_SWAPPED);
      gtk_widget_add_controller (GTK_WIDGET (get_field (self, i)), focus);
    }
  for (guint i = 0; i < HS_OPTION_N_TYPED; i++)
    {
      const char *name;

      g_signal_connect_object (hs_option_typed_get (self, i, &name), "changed", G_CALLBACK (hs_option_typed_note), self,
                               G_CONNECT_SWAPPED);
    }
}

static void
hs_option_window_dispose (GObject *object)
{
  HsOptionWindow *self = HS_OPTION_WINDOW (object);

  g_clear_weak_pointer (&self->page);
  G_OBJECT_CLASS (hs_option_window_parent_class)->dispose (object);
}

/* What is typed stands on the page until the book has answered, which may be after the window was shut. */
static void
hs_option_window_finalize (GObject *object)
{
  HsOptionWindow *self = HS_OPTION_WINDOW (object);

  g_clear_weak_pointer (&self->pane);
  g_free (self->job_id);
  g_free (self->choice_id);
  g_free (self->rank);
  g_free (self->beside);
  g_free (self->line_id);
  g_free (self->taken);
  for (guint i = 0; i < HS_OPTION_N_FIELDS; i++)
    {
      g_free (self->saved[i]);
      g_free (self->sent[i]);
    }
  G_OBJECT_CLASS (hs_option_window_parent_class)->finalize (object);
}

static void
hs_option_window_class_init (HsOptionWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hs_option_window_dispose;
  G_OBJECT_CLASS (klass)->finalize = hs_option_window_finalize;
  g_type_ensure (HS_TYPE_KEY_BUTTON);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-option-window.ui");
  gtk_widget_class_bind_template_child (widget_class, HsOptionWindow, refusal);
  gtk_widget_class_bind_template_child (widget_class, HsOptionWindow, wording);
  gtk_widget_class_bind_template_child (widget_class, HsOptionWindow, ranks);
  gtk_widget_class_bind_template_child (widget_class, HsOptionWindow, group);
  gtk_widget_class_bind_template_child (widget_class, HsOptionWindow, risk);
  gtk_widget_class_bind_template_child (widget_class, HsOptionWindow, price);
  gtk_widget_class_bind_template_child (widget_class, HsOptionWindow, passes);
  gtk_widget_class_bind_template_child (widget_class, HsOptionWindow, lines);
  gtk_widget_class_bind_template_child (widget_class, HsOptionWindow, kinds);
  gtk_widget_class_bind_template_child (widget_class, HsOptionWindow, what);
  gtk_widget_class_bind_template_child (widget_class, HsOptionWindow, number_box);
  gtk_widget_class_bind_template_child (widget_class, HsOptionWindow, number_label);
  gtk_widget_class_bind_template_child (widget_class, HsOptionWindow, number);
  gtk_widget_class_bind_template_child (widget_class, HsOptionWindow, times_box);
  gtk_widget_class_bind_template_child (widget_class, HsOptionWindow, times);
  gtk_widget_class_bind_template_callback (widget_class, key_cb);
  gtk_widget_class_bind_template_callback (widget_class, entered_cb);
  gtk_widget_class_bind_template_callback_full (widget_class, "line_entered_cb",
                                                G_CALLBACK (hs_option_window_line_entered));
  gtk_widget_class_install_action (widget_class, "option.add-line", NULL, add_line_action);
  gtk_widget_class_install_action (widget_class, "option.remove", NULL, remove_action);
  gtk_widget_class_install_action (widget_class, "option.done", NULL, done_action);
  gtk_widget_class_install_action (widget_class, "option.close", NULL, close_action);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_F6, 0, "option.remove", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "option.close", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_F4, 0, "option.done", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_F8, 0, "option.add-line", NULL);
}

static void
hs_option_window_init (HsOptionWindow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  self->late = hs_late_keys_new (GTK_WIDGET (self));
  hs_late_keys_set_press (self->late, late_key);
  fill_buttons (self);
  watch_fields (self);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "option.remove", FALSE);
  g_signal_connect (self, "close-request", G_CALLBACK (close_request_cb), NULL);
  g_signal_connect (self, "notify::focus-widget", G_CALLBACK (focus_moved_cb), NULL);
}

HsOptionWindow *
hs_option_window_present (HsPage *page, const char *job_id, const char *choice_id, const HsChoice *beside)
{
  HsOptionWindow *self;

  g_return_val_if_fail (HS_IS_PAGE (page) && job_id != NULL, NULL);

  self = g_object_new (HS_TYPE_OPTION_WINDOW, "transient-for", gtk_widget_get_root (GTK_WIDGET (page)),
                       "destroy-with-parent", TRUE, NULL);
  g_set_weak_pointer (&self->page, page);
  g_set_weak_pointer (&self->pane, HS_JOB_PANE (page));
  self->job_id = g_strdup (job_id);
  self->choice_id = g_strdup (choice_id);
  self->filling = TRUE;
  if (beside != NULL)
    {
      self->beside = g_strdup (beside->id);
      gtk_editable_set_text (self->group, beside->group != NULL ? beside->group : beside->wording);
    }
  hs_option_typed_take_up (self);
  self->filling = FALSE;
  hs_window_fit_over (GTK_WINDOW (self));
  gtk_window_present (GTK_WINDOW (self));
  gtk_widget_grab_focus (GTK_WIDGET (self->wording));
  return self;
}

static const HsChoice *
find_choice (HsOptionWindow *self, const HsJobChoices *job)
{
  for (guint i = 0; self->choice_id != NULL && i < job->choices->len; i++)
    if (g_str_equal (((const HsChoice *) g_ptr_array_index (job->choices, i))->id, self->choice_id))
      return g_ptr_array_index (job->choices, i);
  return NULL;
}

/* What is being typed stays; a field that was not touched follows the book. */
static void
show_field (HsOptionWindow *self, guint i, const char *text)
{
  const char *typed = gtk_editable_get_text (get_field (self, i));

  if (text == NULL)
    text = "";
  if (g_strcmp0 (typed, self->saved[i] != NULL ? self->saved[i] : "") != 0)
    return;
  g_free (self->saved[i]);
  self->saved[i] = g_strdup (text);
  self->filling = TRUE;
  if (g_strcmp0 (typed, text) != 0)
    gtk_editable_set_text (get_field (self, i), text);
  self->filling = FALSE;
}

void
hs_option_window_fill (HsOptionWindow *self, const char *field, const char *text)
{
  const char *name;

  g_return_if_fail (HS_IS_OPTION_WINDOW (self));

  for (guint i = 0; i < HS_OPTION_N_TYPED; i++)
    {
      GtkEditable *entry = hs_option_typed_get (self, i, &name);

      if (!g_str_equal (name, field))
        continue;
      gtk_editable_set_text (entry, text);
      gtk_widget_grab_focus (GTK_WIDGET (entry));
      gtk_editable_set_position (entry, -1);
    }
  if (g_str_equal (field, HS_OPTION_KIND))
    hs_option_typed_take_up_kind (self);
}

/* What a yes would bring is told while its lines are written, not first when it is given. */
static void
say_passes (HsOptionWindow *self, const HsJobChoices *job, const HsChoice *choice)
{
  HsLedger *ledger = hs_option_window_get_ledger (self);
  g_autofree char *would = hs_show_money (ledger, choice->would_cents);
  g_autofree char *over = hs_show_money (ledger, choice->would_short_cents);
  /* Translators: two sums of money: what the job comes to, and by how much that is more than was agreed to. */
  g_autofree char *text = g_strdup_printf (_("brings the job to %s: short by %s"), would, over);
  gboolean passes = job->room->given && choice->would_short_cents > 0 && g_str_equal (choice->choice, "open");

  hs_refusal_say (self->passes, passes ? text : NULL);
}

void
hs_option_window_show (HsOptionWindow *self, const HsJobChoices *job)
{
  const HsChoice *choice;
  g_autofree char *price = NULL;

  g_return_if_fail (HS_IS_OPTION_WINDOW (self));

  choice = find_choice (self, job);
  if (choice == NULL || hs_option_window_get_ledger (self) == NULL)
    return;
  show_field (self, HS_OPTION_WORDING, choice->wording);
  show_field (self, HS_OPTION_GROUP, choice->group);
  show_field (self, HS_OPTION_RISK, choice->risk);
  if (choice->rank != NULL)
    hs_option_window_mark (self->ranks, (guint) hs_words_index (HS_WORDS_RANK, choice->rank));
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "option.remove", TRUE);
  price = hs_show_money (hs_option_window_get_ledger (self), choice->price_cents);
  gtk_label_set_label (self->price, price);
  say_passes (self, job, choice);
  hs_option_line_settle (self, choice);
  hs_option_window_list_lines (self, choice);
}

const char *
hs_option_window_get_choice_id (HsOptionWindow *self)
{
  g_return_val_if_fail (HS_IS_OPTION_WINDOW (self), NULL);

  return self->choice_id;
}
