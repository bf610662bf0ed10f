// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A layout for one child that holds a grid, or a box whose children stand on one line of writing.
 *
 * GtkGrid answers "how high at least?" for its narrowest width, where words wrap; a parent that asks without a width
 * means any width, and GTK 4.18 says so where the answer is above the one for a real width. A GtkBox that lines up
 * baselines is lower without a width than with one, and GTK 4.8 says so. */

#include "hs-wide-layout.h"

struct _HsWideLayout
{
  GtkLayoutManager parent_instance;
};

G_DEFINE_FINAL_TYPE (HsWideLayout, hs_wide_layout, GTK_TYPE_LAYOUT_MANAGER)

static void
hs_wide_layout_measure (GtkLayoutManager *manager,
                        GtkWidget        *widget,
                        GtkOrientation    orientation,
                        int               for_size,
                        int              *minimum,
                        int              *natural,
                        int              *minimum_baseline,
                        int              *natural_baseline)
{
  GtkWidget *child = gtk_widget_get_first_child (widget);

  if (child == NULL)
    return;
  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    for_size = -1; /* a grid is never made wider by being lower */
  else if (for_size < 0)
    gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, NULL, &for_size, NULL, NULL);
  gtk_widget_measure (child, orientation, for_size, minimum, natural, NULL, NULL);
}

static void
hs_wide_layout_allocate (GtkLayoutManager *manager,
                         GtkWidget        *widget,
                         int               width,
                         int               height,
                         int               baseline)
{
  GtkWidget *child = gtk_widget_get_first_child (widget);

  if (child != NULL && gtk_widget_should_layout (child))
    gtk_widget_allocate (child, width, height, baseline, NULL);
}

static GtkSizeRequestMode
hs_wide_layout_get_request_mode (GtkLayoutManager *manager,
                                 GtkWidget        *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
hs_wide_layout_class_init (HsWideLayoutClass *klass)
{
  GtkLayoutManagerClass *layout_class = GTK_LAYOUT_MANAGER_CLASS (klass);

  layout_class->measure = hs_wide_layout_measure;
  layout_class->allocate = hs_wide_layout_allocate;
  layout_class->get_request_mode = hs_wide_layout_get_request_mode;
}

static void
hs_wide_layout_init (HsWideLayout *self)
{
}
