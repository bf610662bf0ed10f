// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Plain lines under a heading: words that wrap, a sum at the end. For what is only read; what is worked on gets rows of
 * its own. */

#include "hs-line-list.h"

void
hs_line_list_clear (GtkBox *box)
{
  GtkWidget *child;

  g_return_if_fail (GTK_IS_BOX (box));

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (box))) != NULL)
    gtk_box_remove (box, child);
}

void
hs_line_list_add (GtkBox *box, const char *text, const char *figure, const char *css)
{
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 16), *label = gtk_label_new (text);

  g_return_if_fail (GTK_IS_BOX (box));

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_widget_set_hexpand (label, TRUE);
  gtk_box_append (GTK_BOX (line), label);
  if (css != NULL)
    gtk_widget_add_css_class (label, css);
  if (figure != NULL)
    {
      GtkWidget *sum = gtk_label_new (figure);

      gtk_widget_add_css_class (sum, "hs-sum");
      /* Not by the baseline: words in several lines would be drawn below their row. */
      gtk_widget_set_valign (sum, GTK_ALIGN_CENTER);
      gtk_box_append (GTK_BOX (line), sum);
    }
  gtk_box_append (box, line);
}

void
hs_line_list_add_all (GtkBox *box, const char *heading, GPtrArray *texts, const char *none)
{
  hs_line_list_add (box, heading, NULL, "hs-title");
  for (guint i = 0; texts != NULL && i < texts->len; i++)
    hs_line_list_add (box, g_ptr_array_index (texts, i), NULL, NULL);
  if (texts == NULL || texts->len == 0)
    hs_line_list_add (box, none, NULL, "hs-soft");
}
