// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The keys that act on this page, printed in one row.
 *
 * Use it at the end of a bar. Hints that find no room are left out whole, from the end; none is cut. */

#include "hs-key-row.h"

#include "hs-key-button.h"

#define GAP_PX 10

struct _HsKeyRow
{
  GtkWidget parent_instance;
  guint n_shown;
};

G_DEFINE_FINAL_TYPE (HsKeyRow, hs_key_row, GTK_TYPE_WIDGET)

static void
hs_key_row_measure (GtkWidget      *widget,
                    GtkOrientation  orientation,
                    int             for_size,
                    int            *minimum,
                    int            *natural,
                    int            *minimum_baseline,
                    int            *natural_baseline)
{
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      int wanted;

      gtk_widget_measure (child, orientation, -1, NULL, &wanted, NULL, NULL);
      if (orientation == GTK_ORIENTATION_HORIZONTAL)
        *natural += wanted + (*natural > 0 ? GAP_PX : 0);
      else
        *minimum = *natural = MAX (*natural, wanted);
    }
}

static int
width_of (GtkWidget *child)
{
  int wanted;

  gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, NULL, &wanted, NULL, NULL);
  return wanted;
}

static guint
count_that_fit (GtkWidget *widget,
                int        width,
                int       *ret_used)
{
  guint n = 0;

  *ret_used = 0;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      int next = *ret_used + width_of (child) + (n > 0 ? GAP_PX : 0);

      if (next > width)
        break;
      *ret_used = next;
      n++;
    }
  return n;
}

static void
hs_key_row_size_allocate (GtkWidget *widget,
                          int        width,
                          int        height,
                          int        baseline)
{
  HsKeyRow *self = HS_KEY_ROW (widget);
  int used, x;
  guint i = 0;

  self->n_shown = count_that_fit (widget, width, &used);
  x = width - used;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      int wanted = width_of (child);

      gtk_widget_set_child_visible (child, i < self->n_shown);
      if (i++ >= self->n_shown)
        continue;
      gtk_widget_allocate (child, wanted, height, -1, gsk_transform_translate (NULL, &GRAPHENE_POINT_INIT (x, 0)));
      x += wanted + GAP_PX;
    }
}

static void
hs_key_row_dispose (GObject *object)
{
  hs_key_row_set (HS_KEY_ROW (object), NULL, 0);
  G_OBJECT_CLASS (hs_key_row_parent_class)->dispose (object);
}

static void
hs_key_row_class_init (HsKeyRowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hs_key_row_dispose;
  widget_class->measure = hs_key_row_measure;
  widget_class->size_allocate = hs_key_row_size_allocate;
  gtk_widget_class_set_css_name (widget_class, "keyrow");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
hs_key_row_init (HsKeyRow *self)
{
}

GtkWidget *
hs_key_row_new (void)
{
  return g_object_new (HS_TYPE_KEY_ROW, NULL);
}

void
hs_key_row_set (HsKeyRow        *self,
                const HsKeyHint *hints,
                guint            n_hints)
{
  GtkWidget *child;

  g_return_if_fail (HS_IS_KEY_ROW (self));

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (child);
  for (guint i = 0; i < n_hints; i++)
    {
      GtkWidget *button = hs_key_button_new (hints[i].key, hints[i].label, hints[i].action);

      gtk_widget_add_css_class (button, "hs-hint");
      gtk_widget_set_focus_on_click (button, FALSE);
      gtk_widget_set_parent (button, GTK_WIDGET (self));
    }
}

void
hs_key_row_set_label (HsKeyRow *self, const char *action, const char *label)
{
  g_return_if_fail (HS_IS_KEY_ROW (self));

  for (GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (self)); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (g_strcmp0 (gtk_actionable_get_action_name (GTK_ACTIONABLE (child)), action) == 0)
      hs_key_button_set_text (HS_KEY_BUTTON (child), label);
}

guint
hs_key_row_get_n_shown (HsKeyRow *self)
{
  g_return_val_if_fail (HS_IS_KEY_ROW (self), 0);

  return self->n_shown;
}
