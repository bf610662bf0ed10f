// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* An item of the safety list. Its answer is a word in a box, as a verdict is: none, thin, or heavy for refused. */

#include "hs-safety-line.h"

#include <glib/gi18n.h>

#include "hs-show.h"
#include "hs-verdict-label.h"

struct _HsSafetyLineButton
{
  GtkButton parent_instance;

  HsKeycap *key;
  GtkLabel *words;
  GtkLabel *caution;
  GtkLabel *source;
  GtkLabel *stop;
  HsVerdictLabel *answer;

  guint nth;
};

G_DEFINE_FINAL_TYPE (HsSafetyLineButton, hs_safety_line_button, GTK_TYPE_BUTTON)

static void
hs_safety_line_button_class_init (HsSafetyLineButtonClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  g_type_ensure (HS_TYPE_KEYCAP);
  g_type_ensure (HS_TYPE_VERDICT_LABEL);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-safety-line.ui");
  gtk_widget_class_bind_template_child (widget_class, HsSafetyLineButton, key);
  gtk_widget_class_bind_template_child (widget_class, HsSafetyLineButton, words);
  gtk_widget_class_bind_template_child (widget_class, HsSafetyLineButton, caution);
  gtk_widget_class_bind_template_child (widget_class, HsSafetyLineButton, source);
  gtk_widget_class_bind_template_child (widget_class, HsSafetyLineButton, stop);
  gtk_widget_class_bind_template_child (widget_class, HsSafetyLineButton, answer);
}

static void
hs_safety_line_button_init (HsSafetyLineButton *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
hs_safety_line_button_new (guint nth)
{
  HsSafetyLineButton *self = g_object_new (HS_TYPE_SAFETY_LINE_BUTTON, NULL);
  g_autofree char *digit = g_strdup_printf ("%u", nth + 1);

  self->nth = nth;
  hs_chip_set_text (HS_CHIP (self->key), digit);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_KEY_SHORTCUTS, digit, -1);
  return GTK_WIDGET (self);
}

guint
hs_safety_line_button_get_nth (HsSafetyLineButton *self)
{
  g_return_val_if_fail (HS_IS_SAFETY_LINE_BUTTON (self), 0);

  return self->nth;
}

void
hs_safety_line_button_show (HsSafetyLineButton *self, const HsSafetyLine *line)
{
  const char *answer;
  g_autofree char *spoken = NULL;
  g_autofree char *source = NULL;
  HsVerdictShape shape;

  g_return_if_fail (HS_IS_SAFETY_LINE_BUTTON (self) && line != NULL);

  answer = line->not_so ? _("not so") : line->answer != NULL ? hs_show_word (HS_WORDS_SAFETY_ANSWER, line->answer) : "";
  shape = g_strcmp0 (line->answer, "refused") == 0 ? HS_VERDICT_SHAPE_HEAVY
          : g_strcmp0 (line->answer, "done") == 0  ? HS_VERDICT_SHAPE_PLAIN
                                                   : HS_VERDICT_SHAPE_THIN;
  source = g_strdup_printf ("%s · %s", line->source, line->sure);
  gtk_label_set_label (self->words, hs_show_data (line->words));
  gtk_label_set_label (self->caution, hs_show_data (line->caution));
  gtk_label_set_label (self->source, source);
  gtk_widget_set_visible (GTK_WIDGET (self->answer), line->answer != NULL);
  hs_verdict_label_set (self->answer, answer, shape);
  gtk_widget_set_visible (GTK_WIDGET (self->stop), line->not_so);
  spoken = hs_show_joined (hs_show_data (line->words), answer,
                           line->not_so ? gtk_label_get_label (self->stop) : "", hs_show_data (line->caution), NULL);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
}

void
hs_safety_line_button_set_caution_shown (HsSafetyLineButton *self, gboolean shown)
{
  g_return_if_fail (HS_IS_SAFETY_LINE_BUTTON (self));

  gtk_widget_set_visible (GTK_WIDGET (self->caution), shown);
}

void
hs_safety_line_button_set_source_shown (HsSafetyLineButton *self, gboolean shown)
{
  g_return_if_fail (HS_IS_SAFETY_LINE_BUTTON (self));

  gtk_widget_set_visible (GTK_WIDGET (self->source), shown);
}
