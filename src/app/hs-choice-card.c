// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* An option that is told: its digit, what it is, the risk, and the price, with what was answered. The same card stands
 * before the owner and before the customer; it shows what it is given and knows no job. */

#include "hs-choice-card.h"

#include "hs-flow-layout.h"
#include "hs-ink.h"
#include "hs-spoken.h"

#define LEAST_WORDS_PX 110

struct _HsChoiceCard
{
  GtkButton parent_instance;
};

G_DEFINE_FINAL_TYPE (HsChoiceCard, hs_choice_card, GTK_TYPE_BUTTON)

static GtkWidget *
add_label (GtkWidget *box, const char *text, const char *css)
{
  GtkWidget *label;

  if (text == NULL || *text == '\0')
    return NULL;
  label = gtk_label_new (text);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_widget_add_css_class (label, css);
  gtk_box_append (GTK_BOX (box), label);
  return label;
}

static void
hs_choice_card_class_init (HsChoiceCardClass *klass)
{
}

static void
hs_choice_card_init (HsChoiceCard *self)
{
  gtk_widget_add_css_class (GTK_WIDGET (self), "hs-choice");
}

static void
add_number (GtkWidget *row, guint number)
{
  g_autofree char *digit = g_strdup_printf ("%u", number);
  GtkWidget *label;

  if (number < 1 || number > 9)
    return;
  label = gtk_label_new (digit);
  gtk_widget_add_css_class (label, "hs-digit");
  gtk_widget_set_valign (label, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (row), label);
}

/* Everything in one sentence, for who does not see it. */
static void
speak (HsChoiceCard *self, const HsChoiceFace *face)
{
  const char *parts[] = { face->rank, face->wording, face->price, face->risk, face->weigh, face->answer };
  g_autoptr (GString) say = g_string_new (NULL);

  if (face->number <= 9)
    g_string_append_printf (say, "%u", face->number);
  for (guint i = 0; i < G_N_ELEMENTS (parts); i++)
    if (parts[i] != NULL && *parts[i] != '\0')
      g_string_append_printf (say, "%s%s", say->len > 0 ? ", " : "", parts[i]);
  hs_spoken_name (GTK_WIDGET (self), say->str);
}

GtkWidget *
hs_choice_card_new (const HsChoiceFace *face)
{
  HsChoiceCard *self = g_object_new (HS_TYPE_CHOICE_CARD, NULL);
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);
  GtkWidget *words = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  GtkWidget *price;

  gtk_widget_set_layout_manager (row, g_object_new (HS_TYPE_FLOW_LAYOUT, NULL));
  add_number (row, face->number);
  add_label (words, face->rank, "hs-caption");
  add_label (words, face->wording, "hs-title");
  add_label (words, face->risk, "hs-body");
  add_label (words, face->weigh, "hs-caption");
  add_label (words, face->answer, "hs-strong");
  /* Before they are squeezed to a word a line, the price goes below them. */
  gtk_widget_set_size_request (words, (int) (LEAST_WORDS_PX * hs_ink_unit (GTK_WIDGET (self))), -1);
  gtk_widget_set_hexpand (words, TRUE);
  gtk_widget_set_valign (words, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (row), words);
  price = add_label (row, face->price, "hs-sum");
  if (price != NULL)
    {
      gtk_label_set_wrap (GTK_LABEL (price), FALSE);
      gtk_widget_add_css_class (price, "hs-price");
      gtk_widget_set_valign (price, GTK_ALIGN_CENTER);
    }
  gtk_button_set_child (GTK_BUTTON (self), row);
  hs_choice_card_set_chosen (self, face->chosen);
  speak (self, face);
  return GTK_WIDGET (self);
}

void
hs_choice_card_set_chosen (HsChoiceCard *self, gboolean chosen)
{
  g_return_if_fail (HS_IS_CHOICE_CARD (self));

  if (chosen)
    gtk_widget_add_css_class (GTK_WIDGET (self), "chosen");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self), "chosen");
  gtk_accessible_update_state (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_STATE_PRESSED, chosen, -1);
}
