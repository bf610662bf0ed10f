// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The asking side of the why-chain. All of it goes by number pad but the words themselves: a digit chooses while the
 * field is empty, Enter takes, minus goes a step back, plus turns to more choices, Esc leaves. */

#include "hs-chain-entry.h"

#include <glib/gi18n.h>

#include "hs-chip.h"
#include "hs-flow-layout.h"
#include "hs-key-button.h"
#include "hs-pad-key.h"
#include "hs-show.h"
#include "hs-spoken.h"

/* Choices that a digit can name. */
#define AT_ONCE 9

struct _HsChainEntry
{
  AdwBin parent_instance;

  GtkLabel *told;
  GtkLabel *title;
  GtkLabel *hint;
  GtkLabel *trouble;
  GtkEntry *words;
  GtkBox *choices;
  HsKeyButton *more;

  HsChainTask *task;
  const HsChainShot *shot;
  guint page;
  gboolean busy;
};

enum
{
  DONE,
  LEFT,
  TYPED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (HsChainEntry, hs_chain_entry, ADW_TYPE_BIN)

static void
set_trouble (HsChainEntry *self, const char *text)
{
  gtk_label_set_label (self->trouble, text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (self->trouble), text != NULL);
}

static void
set_shown (GtkLabel *label, const char *text)
{
  gtk_label_set_label (label, text);
  gtk_widget_set_visible (GTK_WIDGET (label), *text != '\0');
}

/* Choices. */

/* Words may be long: they begin at the left and go on in a second line. */
static void
add_words (GtkWidget *box, const char *text, const char *css_class)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  if (css_class != NULL)
    gtk_widget_add_css_class (label, css_class);
  gtk_box_append (GTK_BOX (box), label);
}

/* @note: (nullable): what is known of it */
static void
add_choice (HsChainEntry *self, guint digit, const char *text, const char *note)
{
  g_autofree char *key = g_strdup_printf ("%u", digit);
  GtkWidget *button = gtk_button_new (), *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *words = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);

  gtk_widget_set_hexpand (words, TRUE);
  gtk_widget_set_valign (words, GTK_ALIGN_CENTER);
  add_words (words, text, note != NULL ? "hs-strong" : NULL);
  if (note != NULL)
    add_words (words, note, "hs-caption");
  gtk_box_append (GTK_BOX (box), hs_keycap_new (key));
  gtk_box_append (GTK_BOX (box), words);
  gtk_button_set_child (GTK_BUTTON (button), box);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), "entry.choose");
  gtk_actionable_set_action_target (GTK_ACTIONABLE (button), "i", (int) digit);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, text,
                                  GTK_ACCESSIBLE_PROPERTY_KEY_SHORTCUTS, key, -1);
  if (note != NULL)
    gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, note, -1);
  gtk_box_append (self->choices, button);
}

static void
fill_choices (HsChainEntry *self)
{
  g_autoptr (GPtrArray) list = hs_chain_task_list (self->task, self->shot);
  guint from = self->page * AT_ONCE;
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->choices))) != NULL)
    gtk_box_remove (self->choices, child);
  for (guint i = from; i < list->len && i < from + AT_ONCE; i++)
    add_choice (self, i - from + 1, g_ptr_array_index (list, i), hs_chain_task_get_note (self->task, self->shot, i));
  gtk_widget_set_visible (GTK_WIDGET (self->choices), list->len > 0);
  hs_key_button_set_text (self->more, self->task->step == HS_CHAIN_STEP_ANSWER ? _("Another Question") : _("More"));
  gtk_widget_set_visible (GTK_WIDGET (self->more), list->len > AT_ONCE || self->task->step == HS_CHAIN_STEP_ANSWER);
}

static const char *
hint_of (HsChainEntry *self)
{
  gboolean chooses = gtk_widget_get_visible (GTK_WIDGET (self->choices));

  if (!hs_chain_task_takes_words (self->task))
    return _("One digit chooses. Minus goes back, Esc leaves.");
  if (chooses)
    return _("One digit chooses, or type the words; Enter takes them. Minus goes back, Esc leaves.");
  return _("Enter takes the words. Minus goes back, Esc leaves.");
}

static void
update (HsChainEntry *self)
{
  g_autofree char *title = hs_chain_task_dup_title (self->task);
  g_autofree char *told = hs_chain_task_dup_told (self->task);
  const HsAnswerLine *line = hs_chain_task_find_line (self->task, self->shot);
  g_autofree char *decides = hs_show_sentences (line != NULL ? line->decides : NULL);

  gtk_label_set_label (self->title, title);
  set_shown (self->told, *decides != '\0' ? decides : told);
  fill_choices (self);
  gtk_label_set_label (self->hint, hint_of (self));
  gtk_widget_set_visible (GTK_WIDGET (self->words), hs_chain_task_takes_words (self->task));
  if (hs_chain_task_takes_words (self->task))
    hs_spoken_name (GTK_WIDGET (self->words), title);
}

/* A new step: its own words in the field, the keyboard where it is wanted. */
static void
begin_step (HsChainEntry *self, const char *typed)
{
  g_autofree char *preset = typed != NULL ? g_strdup (typed) : hs_chain_task_dup_preset (self->task, self->shot);

  self->page = 0;
  self->busy = TRUE;
  gtk_editable_set_text (GTK_EDITABLE (self->words), preset);
  self->busy = FALSE;
  update (self);
  hs_chain_entry_focus (self);
  g_signal_emit (self, signals[TYPED], 0);
}

static void
went_on (HsChainEntry *self, const GError *error)
{
  set_trouble (self, error != NULL ? error->message : NULL);
  if (error != NULL)
    return;
  if (self->task->step == HS_CHAIN_STEP_DONE)
    g_signal_emit (self, signals[DONE], 0);
  else
    begin_step (self, NULL);
}

static gboolean
pick (HsChainEntry *self, guint digit)
{
  g_autoptr (GPtrArray) list = hs_chain_task_list (self->task, self->shot);
  guint nth = self->page * AT_ONCE + digit - 1;
  g_autoptr (GError) error = NULL;

  if (digit == 0 || digit > AT_ONCE || nth >= list->len)
    return !hs_chain_task_takes_words (self->task);
  hs_chain_task_pick (self->task, self->shot, nth, &error);
  went_on (self, error);
  return TRUE;
}

static void
take (HsChainEntry *self)
{
  g_autofree char *text = g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->words)));
  g_autoptr (GError) error = NULL;

  hs_chain_task_say (self->task, text, &error);
  went_on (self, error);
}

static void
go_back (HsChainEntry *self)
{
  set_trouble (self, NULL);
  if (hs_chain_task_back (self->task))
    begin_step (self, NULL);
  else
    g_signal_emit (self, signals[LEFT], 0);
}

/* More of the choices, or another question. */
static void
turn_page (HsChainEntry *self)
{
  g_autoptr (GPtrArray) list = hs_chain_task_list (self->task, self->shot);

  if (self->task->step == HS_CHAIN_STEP_ANSWER)
    {
      set_trouble (self, NULL);
      if (hs_chain_task_turn (self->task, self->shot))
        begin_step (self, NULL);
      return;
    }
  self->page = (self->page + 1) * AT_ONCE < list->len ? self->page + 1 : 0;
  fill_choices (self);
}

static gboolean
press_sign (HsChainEntry *self, char sign)
{
  if (g_ascii_isdigit (sign))
    return pick (self, (guint) (sign - '0'));
  if (sign == '-' || sign == '\b')
    go_back (self);
  else if (sign == '+' && gtk_widget_get_visible (GTK_WIDGET (self->more)))
    turn_page (self);
  else
    return FALSE;
  return TRUE;
}

gboolean
hs_chain_entry_press (HsChainEntry *self, guint keyval)
{
  GtkWidget *focus;
  char sign = hs_pad_key_sign (keyval);

  g_return_val_if_fail (HS_IS_CHAIN_ENTRY (self), FALSE);

  if (self->task == NULL || self->task->step == HS_CHAIN_STEP_DONE)
    return FALSE;
  if (keyval == GDK_KEY_Escape)
    {
      g_signal_emit (self, signals[LEFT], 0);
      return TRUE;
    }
  focus = gtk_root_get_focus (gtk_widget_get_root (GTK_WIDGET (self)));
  if (sign == '\n' && GTK_IS_BUTTON (focus) && hs_chain_task_takes_words (self->task))
    return FALSE;
  if (sign == '\n')
    {
      take (self);
      return TRUE;
    }
  /* What stands in the field is words; a sign in it is one of them. */
  if (hs_chain_task_takes_words (self->task) && *hs_chain_entry_get_text (self) != '\0')
    return FALSE;
  return press_sign (self, sign);
}

static void
words_changed_cb (HsChainEntry *self)
{
  if (self->busy || self->task == NULL)
    return;
  set_trouble (self, NULL);
  g_signal_emit (self, signals[TYPED], 0);
}

static void
choose_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsChainEntry *self = HS_CHAIN_ENTRY (widget);

  if (self->task != NULL)
    pick (self, (guint) g_variant_get_int32 (parameter));
}

static void
take_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsChainEntry *self = HS_CHAIN_ENTRY (widget);

  if (self->task != NULL)
    take (self);
}

static void
back_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsChainEntry *self = HS_CHAIN_ENTRY (widget);

  if (self->task != NULL)
    go_back (self);
}

static void
leave_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  g_signal_emit (widget, signals[LEFT], 0);
}

static void
more_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsChainEntry *self = HS_CHAIN_ENTRY (widget);

  if (self->task != NULL)
    turn_page (self);
}

static void
hs_chain_entry_finalize (GObject *object)
{
  hs_chain_task_free (HS_CHAIN_ENTRY (object)->task);
  G_OBJECT_CLASS (hs_chain_entry_parent_class)->finalize (object);
}

static void
hs_chain_entry_class_init (HsChainEntryClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  static const char *const names[N_SIGNALS] = { "done", "left", "typed" };

  G_OBJECT_CLASS (klass)->finalize = hs_chain_entry_finalize;
  for (guint i = 0; i < N_SIGNALS; i++)
    signals[i] = g_signal_new (names[i], HS_TYPE_CHAIN_ENTRY, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  g_type_ensure (HS_TYPE_FLOW_LAYOUT);
  g_type_ensure (HS_TYPE_KEY_BUTTON);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-chain-entry.ui");
  gtk_widget_class_bind_template_child (widget_class, HsChainEntry, told);
  gtk_widget_class_bind_template_child (widget_class, HsChainEntry, title);
  gtk_widget_class_bind_template_child (widget_class, HsChainEntry, hint);
  gtk_widget_class_bind_template_child (widget_class, HsChainEntry, trouble);
  gtk_widget_class_bind_template_child (widget_class, HsChainEntry, words);
  gtk_widget_class_bind_template_child (widget_class, HsChainEntry, choices);
  gtk_widget_class_bind_template_child (widget_class, HsChainEntry, more);
  gtk_widget_class_bind_template_callback (widget_class, words_changed_cb);
  gtk_widget_class_install_action (widget_class, "entry.choose", "i", choose_action);
  gtk_widget_class_install_action (widget_class, "entry.take", NULL, take_action);
  gtk_widget_class_install_action (widget_class, "entry.back", NULL, back_action);
  gtk_widget_class_install_action (widget_class, "entry.leave", NULL, leave_action);
  gtk_widget_class_install_action (widget_class, "entry.more", NULL, more_action);
}

static void
hs_chain_entry_init (HsChainEntry *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
hs_chain_entry_new (void)
{
  return g_object_new (HS_TYPE_CHAIN_ENTRY, NULL);
}

void
hs_chain_entry_open (HsChainEntry *self, HsChainTask *task, const char *typed, const HsChainShot *shot)
{
  g_return_if_fail (HS_IS_CHAIN_ENTRY (self));
  g_return_if_fail (task != NULL && shot != NULL);

  hs_chain_task_free (self->task);
  self->task = task;
  self->shot = shot;
  set_trouble (self, NULL);
  begin_step (self, typed);
}

void
hs_chain_entry_set_shot (HsChainEntry *self, const HsChainShot *shot)
{
  gboolean had_focus;

  g_return_if_fail (HS_IS_CHAIN_ENTRY (self));

  self->shot = shot;
  if (self->task == NULL || self->task->step == HS_CHAIN_STEP_DONE)
    return;
  had_focus = gtk_widget_get_focus_child (GTK_WIDGET (self->choices)) != NULL;
  update (self);
  if (had_focus)
    hs_chain_entry_focus (self);
}

const HsChainTask *
hs_chain_entry_get_task (HsChainEntry *self)
{
  g_return_val_if_fail (HS_IS_CHAIN_ENTRY (self), NULL);

  return self->task;
}

const char *
hs_chain_entry_get_text (HsChainEntry *self)
{
  g_return_val_if_fail (HS_IS_CHAIN_ENTRY (self), NULL);

  return gtk_editable_get_text (GTK_EDITABLE (self->words));
}

void
hs_chain_entry_refuse (HsChainEntry *self, const char *trouble)
{
  g_return_if_fail (HS_IS_CHAIN_ENTRY (self));

  if (self->task == NULL)
    return;
  hs_chain_task_reopen (self->task);
  begin_step (self, NULL);
  set_trouble (self, trouble);
}

void
hs_chain_entry_close (HsChainEntry *self)
{
  g_return_if_fail (HS_IS_CHAIN_ENTRY (self));

  g_clear_pointer (&self->task, hs_chain_task_free);
  self->shot = NULL;
}

void
hs_chain_entry_focus (HsChainEntry *self)
{
  GtkWidget *first = gtk_widget_get_first_child (GTK_WIDGET (self->choices));

  g_return_if_fail (HS_IS_CHAIN_ENTRY (self));

  if (gtk_widget_get_visible (GTK_WIDGET (self->words)))
    {
      gtk_widget_grab_focus (GTK_WIDGET (self->words));
      gtk_editable_select_region (GTK_EDITABLE (self->words), 0, -1);
    }
  else if (first != NULL)
    gtk_widget_grab_focus (first);
}
