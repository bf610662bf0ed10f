// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A calculator's inputs and results.
 *
 *   HsCalcKey ─▶ HsCalcField …  ─ changed ─▶ hs_calc_run ─▶ result, verdict, sentence, limit, next, who says so
 *
 * What is missing is said where the result will stand, over the fields; what is wrong is said at its field. */

#include "hs-calc-sheet.h"

#include <glib/gi18n.h>

#include "hs-calc-field.h"
#include "hs-core-error.h"
#include "hs-show.h"
#include "hs-verdict-label.h"
#include "hs-wide-layout.h"

struct _HsCalcSheet
{
  AdwBin parent_instance;

  GtkLabel *help;
  GtkLabel *caution;
  GtkBox *fields;
  GtkLabel *state;
  GtkLabel *title;
  GtkWidget *head;
  GtkLabel *figure;
  GtkWidget *answer;
  HsVerdictLabel *verdict;
  GtkGrid *figures;
  GtkLabel *because;
  GtkLabel *limit;
  GtkLabel *next;
  GtkLabel *says;

  const HsCalc *calc;
  HsLedger *ledger;
  HsCalcResult *result;
};

G_DEFINE_FINAL_TYPE (HsCalcSheet, hs_calc_sheet, ADW_TYPE_BIN)

static guint worked_out_signal;

static HsCalcField *
field_of (HsCalcSheet *self, const char *id)
{
  for (GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (self->fields)); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (HS_IS_CALC_FIELD (child) && g_str_equal (hs_calc_field_get_key (HS_CALC_FIELD (child))->id, id))
      return HS_CALC_FIELD (child);
  return NULL;
}

/* Which field a reason is about: it starts with the key's name and a colon. */
static HsCalcField *
field_blamed (HsCalcSheet *self, const char *reason)
{
  for (const HsCalcKey *key = self->calc->keys; key->id != NULL; key++)
    {
      g_autofree char *start = g_strdup_printf ("%s: ", key->id);

      if (g_str_has_prefix (reason, start))
        return field_of (self, key->id);
    }
  return NULL;
}

static void
clear_trouble (HsCalcSheet *self)
{
  for (const HsCalcKey *key = self->calc->keys; key->id != NULL; key++)
    hs_calc_field_set_trouble (field_of (self, key->id), NULL);
}

static void
show_line (GtkLabel *label, const char *title, const char *text)
{
  g_autofree char *line = g_strdup_printf ("%s  %s", title, text);

  gtk_label_set_label (label, *title == '\0' ? text : line);
  gtk_widget_set_visible (GTK_WIDGET (label), *text != '\0');
}

static GtkWidget *
figure_label (const char *text, float xalign, const char *css_class)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), xalign);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_selectable (GTK_LABEL (label), FALSE);
  gtk_widget_add_css_class (label, css_class);
  return label;
}

/* The first figure is the answer and stands large over the fields. */
static void
show_figures (HsCalcSheet *self)
{
  const HsCalcItem *first = hs_calc_result_get_nth (self->result, 0);
  GtkWidget *child;

  gtk_label_set_label (self->title, first != NULL ? first->label : "");
  gtk_widget_set_visible (GTK_WIDGET (self->title), first != NULL);
  gtk_label_set_label (self->figure, first != NULL ? first->shown : "");
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->figures))) != NULL)
    gtk_grid_remove (self->figures, child);
  for (guint i = 1; i < hs_calc_result_get_length (self->result); i++)
    {
      const HsCalcItem *item = hs_calc_result_get_nth (self->result, i);
      GtkWidget *value = figure_label (item->shown, 0, "hs-strong");

      gtk_widget_add_css_class (value, "numeric");
      gtk_widget_set_hexpand (value, TRUE);
      gtk_grid_attach (self->figures, figure_label (item->label, 0, "hs-caption"), 0, (int) i, 1, 1);
      gtk_grid_attach (self->figures, value, 1, (int) i, 1, 1);
    }
  gtk_widget_set_visible (GTK_WIDGET (self->figures), hs_calc_result_get_length (self->result) > 1);
}

static void
show_result (HsCalcSheet *self)
{
  g_autofree char *says = hs_verdict_source_text (hs_calc_result_get_source (self->result),
                                                  hs_calc_result_get_sure (self->result));
  const char *word = hs_calc_result_get_word (self->result);
  HsVerdict verdict = HS_VERDICT_WITHIN;
  gboolean judged = hs_calc_result_get_verdict (self->result, &verdict);

  show_figures (self);
  hs_verdict_label_set (self->verdict, judged ? word : NULL, hs_show_verdict_shape (hs_verdict_id (verdict), word));
  show_line (self->because, "", hs_calc_result_get_because (self->result));
  show_line (self->limit, _("Limit"), hs_calc_result_get_limit (self->result));
  show_line (self->next, _("Next"), hs_calc_result_get_next (self->result));
  show_line (self->says, _("Who says so"), says);
}

static gboolean
is_filled (HsCalcSheet *self, const HsCalcKey *key)
{
  g_autofree char *word = hs_calc_field_dup_word (field_of (self, key->id));

  return word != NULL;
}

/* Of a group one will do: their names with "or" between; none if one is filled. */
static char *
dup_missing_of_group (HsCalcSheet *self, guint either)
{
  g_autoptr (GString) names = g_string_new (NULL);

  for (const HsCalcKey *key = self->calc->keys; key->id != NULL; key++)
    {
      if (key->either != either)
        continue;
      if (is_filled (self, key))
        return NULL;
      g_string_append_printf (names, "%s%s%s", names->len > 0 ? " " : "", names->len > 0 ? _("or ") : "", key->label);
    }
  return g_string_free (g_steal_pointer (&names), FALSE);
}

/* The name of the first input that is still missing. */
static char *
dup_missing (HsCalcSheet *self)
{
  for (const HsCalcKey *key = self->calc->keys; key->id != NULL; key++)
    {
      g_autofree char *group = key->either > 0 ? dup_missing_of_group (self, key->either) : NULL;

      if (group != NULL)
        return g_steal_pointer (&group);
      if (key->either == 0 && !key->optional && key->usual == NULL && !is_filled (self, key))
        return g_strdup (key->label);
    }
  return NULL;
}

static void
show_refusal (HsCalcSheet *self, const GError *error)
{
  HsCalcField *blamed = field_blamed (self, error->message);
  g_autofree char *missing = dup_missing (self);
  g_autofree char *needed = g_strdup_printf (_("Still needed: %s"), missing != NULL ? missing : "");

  if (blamed != NULL && error->code == HS_CORE_ERROR_BAD_VALUE)
    hs_calc_field_set_trouble (blamed, strchr (error->message, ':') + 2);
  gtk_label_set_label (self->state, blamed != NULL    ? _("One entry cannot be used.")
                                    : missing != NULL ? needed
                                                      : error->message);
}

static void
work_out (HsCalcSheet *self)
{
  g_auto (GStrv) words = hs_calc_sheet_dup_words (self);
  g_autoptr (GError) error = NULL;
  HsCalcScene scene;

  g_clear_pointer (&self->result, hs_calc_result_free);
  clear_trouble (self);
  /* Asked for anew each time: what it points to is the ledger's and changes with it. */
  if (hs_ledger_get_scene (self->ledger, &scene, &error))
    self->result = hs_calc_run (self->calc, &scene, (const char *const *) words, &error);
  if (self->result != NULL)
    show_result (self);
  else
    show_refusal (self, error);
  gtk_widget_set_visible (self->answer, self->result != NULL);
  gtk_widget_set_visible (self->head, self->result != NULL);
  if (self->result == NULL)
    gtk_widget_set_visible (GTK_WIDGET (self->title), FALSE);
  gtk_widget_set_visible (GTK_WIDGET (self->state), self->result == NULL);
  g_signal_emit (self, worked_out_signal, 0);
}

/* Of keys of which only one may stand, the one that was filled shuts the others. */
static void
shut_others (HsCalcSheet *self, HsCalcField *filled)
{
  const HsCalcKey *key = hs_calc_field_get_key (filled);
  g_autofree char *word = hs_calc_field_dup_word (filled);

  for (const HsCalcKey *other = self->calc->keys; key->either > 0 && other->id != NULL; other++)
    if (other->either == key->either && other != key)
      gtk_widget_set_sensitive (GTK_WIDGET (field_of (self, other->id)), word == NULL);
}

static void
field_changed_cb (HsCalcSheet *self, HsCalcField *field)
{
  shut_others (self, field);
  work_out (self);
}

/* Enter goes on to the next field that can be filled; behind the last one it stays. */
static void
field_entered_cb (HsCalcSheet *self, HsCalcField *field)
{
  GtkWidget *next = gtk_widget_get_next_sibling (GTK_WIDGET (field));

  while (next != NULL && (!HS_IS_CALC_FIELD (next) || !gtk_widget_get_sensitive (next)))
    next = gtk_widget_get_next_sibling (next);
  if (next != NULL)
    gtk_widget_grab_focus (next);
}

static void
hs_calc_sheet_finalize (GObject *object)
{
  hs_calc_result_free (HS_CALC_SHEET (object)->result);
  g_clear_object (&HS_CALC_SHEET (object)->ledger);
  G_OBJECT_CLASS (hs_calc_sheet_parent_class)->finalize (object);
}

static gboolean
hs_calc_sheet_grab_focus (GtkWidget *widget)
{
  GtkWidget *first = gtk_widget_get_first_child (GTK_WIDGET (HS_CALC_SHEET (widget)->fields));

  return first != NULL && gtk_widget_grab_focus (first);
}

static void
hs_calc_sheet_class_init (HsCalcSheetClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = hs_calc_sheet_finalize;
  widget_class->grab_focus = hs_calc_sheet_grab_focus;
  worked_out_signal = g_signal_new ("worked-out", HS_TYPE_CALC_SHEET, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                    G_TYPE_NONE, 0);
  g_type_ensure (HS_TYPE_VERDICT_LABEL);
  g_type_ensure (HS_TYPE_WIDE_LAYOUT);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-calc-sheet.ui");
  gtk_widget_class_bind_template_child (widget_class, HsCalcSheet, help);
  gtk_widget_class_bind_template_child (widget_class, HsCalcSheet, caution);
  gtk_widget_class_bind_template_child (widget_class, HsCalcSheet, fields);
  gtk_widget_class_bind_template_child (widget_class, HsCalcSheet, state);
  gtk_widget_class_bind_template_child (widget_class, HsCalcSheet, title);
  gtk_widget_class_bind_template_child (widget_class, HsCalcSheet, head);
  gtk_widget_class_bind_template_child (widget_class, HsCalcSheet, figure);
  gtk_widget_class_bind_template_child (widget_class, HsCalcSheet, answer);
  gtk_widget_class_bind_template_child (widget_class, HsCalcSheet, verdict);
  gtk_widget_class_bind_template_child (widget_class, HsCalcSheet, figures);
  gtk_widget_class_bind_template_child (widget_class, HsCalcSheet, because);
  gtk_widget_class_bind_template_child (widget_class, HsCalcSheet, limit);
  gtk_widget_class_bind_template_child (widget_class, HsCalcSheet, next);
  gtk_widget_class_bind_template_child (widget_class, HsCalcSheet, says);
}

static void
hs_calc_sheet_init (HsCalcSheet *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

static void
add_field (HsCalcSheet *self, const HsCalcKey *key)
{
  GtkWidget *field = hs_calc_field_new (key);

  g_signal_connect_object (field, "changed", G_CALLBACK (field_changed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (field, "entered", G_CALLBACK (field_entered_cb), self, G_CONNECT_SWAPPED);
  if (key->either > 0 && key > self->calc->keys && key[-1].either == key->either)
    gtk_box_append (self->fields, figure_label (_("or"), 0, "hs-caption"));
  gtk_box_append (self->fields, field);
}

GtkWidget *
hs_calc_sheet_new (const HsCalc *calc, HsLedger *ledger)
{
  HsCalcSheet *self = g_object_new (HS_TYPE_CALC_SHEET, NULL);

  self->calc = calc;
  self->ledger = g_object_ref (ledger);
  gtk_label_set_label (self->help, calc->help);
  show_line (self->caution, "", calc->caution != NULL ? calc->caution : "");
  for (const HsCalcKey *key = calc->keys; key->id != NULL; key++)
    add_field (self, key);
  work_out (self);
  return GTK_WIDGET (self);
}

const HsCalc *
hs_calc_sheet_get_calc (HsCalcSheet *self)
{
  g_return_val_if_fail (HS_IS_CALC_SHEET (self), NULL);

  return self->calc;
}

const HsCalcResult *
hs_calc_sheet_get_result (HsCalcSheet *self)
{
  g_return_val_if_fail (HS_IS_CALC_SHEET (self), NULL);

  return self->result;
}

char **
hs_calc_sheet_dup_words (HsCalcSheet *self)
{
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();

  g_return_val_if_fail (HS_IS_CALC_SHEET (self), NULL);

  for (const HsCalcKey *key = self->calc->keys; key->id != NULL; key++)
    {
      g_autofree char *word = hs_calc_field_dup_word (field_of (self, key->id));

      if (word != NULL)
        g_strv_builder_add (builder, word);
    }
  return g_strv_builder_end (builder);
}

void
hs_calc_sheet_fill (HsCalcSheet *self, const char *key, const char *text)
{
  HsCalcField *field;

  g_return_if_fail (HS_IS_CALC_SHEET (self));

  field = field_of (self, key);
  g_return_if_fail (field != NULL);
  hs_calc_field_set_text (field, text);
}

/* "Cable: Voltage drop 0.395 V (16, 6 m, 5 A). Who says so: … (secondary text)" */
char *
hs_calc_sheet_dup_sentence (HsCalcSheet *self)
{
  g_autoptr (GString) text = NULL;
  g_autofree char *says = NULL;

  g_return_val_if_fail (HS_IS_CALC_SHEET (self), NULL);

  if (self->result == NULL)
    return NULL;
  text = g_string_new (self->calc->title);
  for (guint i = 0; i < hs_calc_result_get_length (self->result); i++)
    {
      const HsCalcItem *item = hs_calc_result_get_nth (self->result, i);

      g_string_append_printf (text, "%s%s %s", i == 0 ? ": " : ", ", item->label, item->shown);
    }
  if (hs_calc_result_get_verdict (self->result, NULL))
    g_string_append_printf (text, " [%s]", hs_calc_result_get_word (self->result));
  g_string_append (text, " (");
  for (const HsCalcKey *key = self->calc->keys; key->id != NULL; key++)
    {
      g_autofree char *word = hs_calc_field_dup_word (field_of (self, key->id));
      gboolean first = text->str[text->len - 1] == '(';

      if (word != NULL)
        g_string_append_printf (text, "%s%s %s%s%s", first ? "" : ", ", key->label, strchr (word, '=') + 1,
                                key->unit != NULL ? " " : "", key->unit != NULL ? key->unit : "");
    }
  says = hs_verdict_source_text (hs_calc_result_get_source (self->result), hs_calc_result_get_sure (self->result));
  g_string_append_printf (text, "). %s: %s", _("Who says so"), says);
  return g_string_free (g_steal_pointer (&text), FALSE);
}
