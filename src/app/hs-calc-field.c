// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* One input of a calculator, made from its key. It only reads what is typed; the calculator has the last word, and its
 * words are shown under the field. */

#include "hs-calc-field.h"

#include <glib/gi18n.h>

struct _HsCalcField
{
  AdwBin parent_instance;

  GtkLabel *title;
  GtkWidget *line;
  GtkEditable *entry;
  GtkLabel *read;
  GtkFlowBox *words;
  GtkLabel *trouble;

  const HsCalcKey *key;
};

G_DEFINE_FINAL_TYPE (HsCalcField, hs_calc_field, ADW_TYPE_BIN)

enum
{
  CHANGED,
  ENTERED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

static GtkToggleButton *
nth_word (HsCalcField *self, guint nth)
{
  GtkFlowBoxChild *child = gtk_flow_box_get_child_at_index (self->words, (int) nth);

  return child != NULL ? GTK_TOGGLE_BUTTON (gtk_flow_box_child_get_child (child)) : NULL;
}

static int
chosen_word (HsCalcField *self)
{
  GtkToggleButton *button;

  for (guint i = 0; (button = nth_word (self, i)) != NULL; i++)
    if (gtk_toggle_button_get_active (button))
      return (int) i;
  return -1;
}

static gboolean
is_choice (HsCalcField *self)
{
  return self->key->kind == HS_CALC_CHOICE;
}

/* What the digits were read as, where that is not plain to see. */
static void
show_read (HsCalcField *self)
{
  const char *typed = gtk_editable_get_text (self->entry);
  g_autofree char *text = hs_calc_key_dup_typed (self->key, typed);
  const char *unit = self->key->unit != NULL ? self->key->unit : "";
  gboolean same = g_str_equal (text, typed);
  g_autofree char *read = same ? g_strdup (unit) : g_strdup_printf ("= %s %s", text, unit);

  gtk_label_set_label (self->read, g_strchomp (read));
}

static void
changed_cb (HsCalcField *self)
{
  show_read (self);
  g_signal_emit (self, signals[CHANGED], 0);
}

static void
entered_cb (HsCalcField *self)
{
  g_signal_emit (self, signals[ENTERED], 0);
}

static void
toggled_cb (HsCalcField *self, GtkToggleButton *button)
{
  if (gtk_toggle_button_get_active (button))
    g_signal_emit (self, signals[CHANGED], 0);
}

/* A digit chooses its word and goes on. */
static gboolean
key_cb (HsCalcField *self, guint keyval, guint keycode, GdkModifierType state)
{
  guint digit = keyval >= GDK_KEY_KP_1 && keyval <= GDK_KEY_KP_9 ? keyval - GDK_KEY_KP_0
                : keyval >= GDK_KEY_1 && keyval <= GDK_KEY_9     ? keyval - GDK_KEY_0
                                                                 : 0;
  GtkToggleButton *button = digit > 0 ? nth_word (self, digit - 1) : NULL;

  if (keyval == GDK_KEY_Return || keyval == GDK_KEY_KP_Enter || keyval == GDK_KEY_ISO_Enter)
    {
      g_signal_emit (self, signals[ENTERED], 0);
      return TRUE;
    }
  if (button == NULL)
    return FALSE;
  gtk_toggle_button_set_active (button, TRUE);
  g_signal_emit (self, signals[ENTERED], 0);
  return TRUE;
}

static gboolean
hs_calc_field_grab_focus (GtkWidget *widget)
{
  HsCalcField *self = HS_CALC_FIELD (widget);
  int chosen = chosen_word (self);

  if (!is_choice (self))
    return gtk_widget_grab_focus (GTK_WIDGET (self->entry));
  return gtk_widget_grab_focus (GTK_WIDGET (nth_word (self, chosen < 0 ? 0 : (guint) chosen)));
}

static void
hs_calc_field_class_init (HsCalcFieldClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  widget_class->grab_focus = hs_calc_field_grab_focus;
  signals[CHANGED] = g_signal_new ("changed", HS_TYPE_CALC_FIELD, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                   G_TYPE_NONE, 0);
  signals[ENTERED] = g_signal_new ("entered", HS_TYPE_CALC_FIELD, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                   G_TYPE_NONE, 0);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-calc-field.ui");
  gtk_widget_class_bind_template_child (widget_class, HsCalcField, title);
  gtk_widget_class_bind_template_child (widget_class, HsCalcField, line);
  gtk_widget_class_bind_template_child (widget_class, HsCalcField, entry);
  gtk_widget_class_bind_template_child (widget_class, HsCalcField, read);
  gtk_widget_class_bind_template_child (widget_class, HsCalcField, words);
  gtk_widget_class_bind_template_child (widget_class, HsCalcField, trouble);
  gtk_widget_class_bind_template_callback (widget_class, changed_cb);
  gtk_widget_class_bind_template_callback (widget_class, entered_cb);
  gtk_widget_class_bind_template_callback (widget_class, key_cb);
}

static void
hs_calc_field_init (HsCalcField *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

static void
add_words (HsCalcField *self)
{
  g_auto (GStrv) words = g_strsplit (self->key->choices, "|", -1);
  GtkToggleButton *first = NULL;

  for (guint i = 0; words[i] != NULL; i++)
    {
      g_autofree char *plain = g_strdelimit (g_strdup (words[i]), "-", ' ');
      g_autofree char *text = i < 9 ? g_strdup_printf ("%u  %s", i + 1, plain) : g_strdup (plain);
      GtkWidget *button = gtk_toggle_button_new ();
      GtkWidget *label = gtk_label_new (text);

      gtk_label_set_wrap (GTK_LABEL (label), TRUE);
      gtk_label_set_justify (GTK_LABEL (label), GTK_JUSTIFY_CENTER);
      gtk_button_set_child (GTK_BUTTON (button), label);

      gtk_toggle_button_set_group (GTK_TOGGLE_BUTTON (button), first);
      if (first == NULL)
        first = GTK_TOGGLE_BUTTON (button);
      if (self->key->usual != NULL && g_str_equal (self->key->usual, words[i]))
        gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (button), TRUE);
      g_signal_connect_object (button, "toggled", G_CALLBACK (toggled_cb), self, G_CONNECT_SWAPPED);
      gtk_flow_box_append (self->words, button);
      gtk_widget_set_focusable (gtk_widget_get_parent (button), FALSE);
    }
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->words), GTK_ACCESSIBLE_PROPERTY_LABEL, self->key->label, -1);
}

static void
prepare_entry (HsCalcField *self)
{
  GtkEntry *entry = GTK_ENTRY (self->entry);
  gboolean number = self->key->kind == HS_CALC_NUMBER || self->key->kind == HS_CALC_MONEY;

  gtk_entry_set_input_purpose (entry, number ? GTK_INPUT_PURPOSE_NUMBER : GTK_INPUT_PURPOSE_FREE_FORM);
  gtk_entry_set_placeholder_text (entry, self->key->usual);
  gtk_editable_set_width_chars (self->entry, number ? 8 : 18);
  gtk_widget_set_hexpand (GTK_WIDGET (self->entry), !number);
  gtk_widget_set_hexpand (GTK_WIDGET (self->read), number);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->entry), GTK_ACCESSIBLE_PROPERTY_LABEL, self->key->label, -1);
  show_read (self);
}

GtkWidget *
hs_calc_field_new (const HsCalcKey *key)
{
  HsCalcField *self = g_object_new (HS_TYPE_CALC_FIELD, NULL);
  gboolean may = key->optional || key->usual != NULL;
  g_autofree char *title = may ? g_strdup_printf (_("%s, if known"), key->label) : g_strdup (key->label);

  self->key = key;
  gtk_label_set_label (self->title, key->usual != NULL ? key->label : title);
  gtk_widget_set_visible (self->line, !is_choice (self));
  gtk_widget_set_visible (GTK_WIDGET (self->words), is_choice (self));
  if (is_choice (self))
    add_words (self);
  else
    prepare_entry (self);
  return GTK_WIDGET (self);
}

const HsCalcKey *
hs_calc_field_get_key (HsCalcField *self)
{
  g_return_val_if_fail (HS_IS_CALC_FIELD (self), NULL);

  return self->key;
}

char *
hs_calc_field_dup_word (HsCalcField *self)
{
  g_autofree char *text = NULL;

  g_return_val_if_fail (HS_IS_CALC_FIELD (self), NULL);

  if (is_choice (self))
    {
      g_auto (GStrv) words = g_strsplit (self->key->choices, "|", -1);
      int chosen = chosen_word (self);

      return chosen < 0 ? NULL : g_strdup_printf ("%s=%s", self->key->id, words[chosen]);
    }
  text = hs_calc_key_dup_typed (self->key, gtk_editable_get_text (self->entry));
  return *text == '\0' ? NULL : g_strdup_printf ("%s=%s", self->key->id, text);
}

void
hs_calc_field_set_text (HsCalcField *self, const char *text)
{
  g_return_if_fail (HS_IS_CALC_FIELD (self));

  if (is_choice (self))
    {
      g_auto (GStrv) words = g_strsplit (self->key->choices, "|", -1);

      for (guint i = 0; words[i] != NULL; i++)
        if (g_str_equal (words[i], text))
          gtk_toggle_button_set_active (nth_word (self, i), TRUE);
      return;
    }
  gtk_editable_set_text (self->entry, text);
}

void
hs_calc_field_set_trouble (HsCalcField *self, const char *text)
{
  g_return_if_fail (HS_IS_CALC_FIELD (self));

  gtk_label_set_label (self->trouble, text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (self->trouble), text != NULL);
  gtk_accessible_update_state (GTK_ACCESSIBLE (self->entry), GTK_ACCESSIBLE_STATE_INVALID,
                               text != NULL ? GTK_ACCESSIBLE_INVALID_TRUE : GTK_ACCESSIBLE_INVALID_FALSE, -1);
}
