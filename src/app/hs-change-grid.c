// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Before and after, as the history and the job's last tab show them. What was not taken stands as a dash in a dashed
 * box: an empty place is a fact too. */

#include "hs-change-grid.h"

#include <glib/gi18n.h>

#include "hs-glyph.h"
#include "hs-wide-layout.h"

struct _HsChangeGrid
{
  GtkWidget parent_instance;

  GtkGrid *grid;
  int row;
  gboolean narrow;
};

G_DEFINE_FINAL_TYPE (HsChangeGrid, hs_change_grid, GTK_TYPE_WIDGET)

static void
hs_change_grid_dispose (GObject *object)
{
  HsChangeGrid *self = HS_CHANGE_GRID (object);

  if (self->grid != NULL)
    gtk_widget_unparent (GTK_WIDGET (self->grid));
  self->grid = NULL;
  G_OBJECT_CLASS (hs_change_grid_parent_class)->dispose (object);
}

static void
hs_change_grid_class_init (HsChangeGridClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hs_change_grid_dispose;
  gtk_widget_class_set_layout_manager_type (widget_class, HS_TYPE_WIDE_LAYOUT);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
hs_change_grid_init (HsChangeGrid *self)
{
  self->grid = GTK_GRID (gtk_grid_new ());
  gtk_grid_set_column_spacing (self->grid, 16);
  gtk_grid_set_row_spacing (self->grid, 4);
  gtk_widget_set_parent (GTK_WIDGET (self->grid), GTK_WIDGET (self));
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, _("Before and after"), -1);
}

GtkWidget *
hs_change_grid_new (void)
{
  return g_object_new (HS_TYPE_CHANGE_GRID, NULL);
}

static GtkWidget *
label_new (const char *text, const char *css)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_widget_set_valign (label, GTK_ALIGN_CENTER);
  if (css != NULL)
    gtk_widget_add_css_class (label, css);
  return label;
}

static GtkWidget *
verdict_new (const char *value, const char *word, HsVerdictShape shape)
{
  GtkWidget *verdict;

  if (value == NULL)
    verdict = hs_verdict_label_new (_("not taken"), HS_VERDICT_SHAPE_DASHED);
  else
    verdict = hs_verdict_label_new (word != NULL ? word : "", shape);
  gtk_widget_set_halign (verdict, GTK_ALIGN_START);
  gtk_widget_set_valign (verdict, GTK_ALIGN_CENTER);
  return verdict;
}

static void
attach_line (HsChangeGrid *self)
{
  GtkWidget *rule = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);

  gtk_widget_add_css_class (rule, "hs-rule");
  gtk_widget_set_hexpand (rule, TRUE);
  gtk_grid_attach (self->grid, rule, 0, self->row++, self->narrow ? 3 : 6, 1);
}

void
hs_change_grid_append (HsChangeGrid *self, const HsChange *change)
{
  GtkWidget *arrow;
  int column = self->narrow ? 0 : 1;

  g_return_if_fail (HS_IS_CHANGE_GRID (self));

  arrow = hs_glyph_new ("arrow");
  gtk_widget_set_size_request (arrow, 24, 24);
  gtk_widget_add_css_class (arrow, "hs-copper");
  attach_line (self);
  gtk_grid_attach (self->grid, label_new (change->name, self->narrow ? "hs-strong" : NULL), 0, self->row,
                   self->narrow ? 3 : 1, 1);
  if (self->narrow)
    self->row++;
  gtk_grid_attach (self->grid, label_new (change->before != NULL ? change->before : "—", "hs-strong"), column,
                   self->row, 1, 1);
  gtk_grid_attach (self->grid, verdict_new (change->before, change->before_word, change->before_shape), column + 1,
                   self->row, 1, 1);
  if (self->narrow)
    self->row++;
  gtk_grid_attach (self->grid, arrow, self->narrow ? 2 : 3, self->narrow ? self->row - 1 : self->row, 1, 1);
  column = self->narrow ? 0 : 4;
  gtk_grid_attach (self->grid, label_new (change->after != NULL ? change->after : "—", "hs-strong"), column, self->row,
                   1, 1);
  gtk_grid_attach (self->grid, verdict_new (change->after, change->after_word, change->after_shape), column + 1,
                   self->row, 1, 1);
  self->row++;
}

void
hs_change_grid_clear (HsChangeGrid *self)
{
  GtkWidget *child;

  g_return_if_fail (HS_IS_CHANGE_GRID (self));

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->grid))) != NULL)
    gtk_grid_remove (self->grid, child);
  self->row = 0;
}

void
hs_change_grid_set_narrow (HsChangeGrid *self, gboolean narrow)
{
  g_return_if_fail (HS_IS_CHANGE_GRID (self));

  self->narrow = narrow;
}
