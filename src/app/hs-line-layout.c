// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A layout for a button whose words can wrap and would rather not.
 *
 * A label that wraps lets itself be squeezed to its longest word; one that does not is wider than a telephone once the
 * text is large. In between: the child asks for one line, but never for more than a telephone has room for. */

#include "hs-line-layout.h"

#define MOST_PX 240 /* of 360, less what papers, bars and the edges of a button take */

struct _HsLineLayout
{
  GtkLayoutManager parent_instance;
  gboolean wraps;
};

G_DEFINE_FINAL_TYPE (HsLineLayout, hs_line_layout, GTK_TYPE_LAYOUT_MANAGER)

static void
hs_line_layout_measure (GtkLayoutManager *manager, GtkWidget *widget, GtkOrientation orientation, int for_size,
                        int *minimum, int *natural, int *minimum_baseline, int *natural_baseline)
{
  GtkWidget *child = gtk_widget_get_first_child (widget);

  if (child == NULL)
    return;
  gtk_widget_measure (child, orientation, for_size, minimum, natural, NULL, NULL);
  if (orientation == GTK_ORIENTATION_HORIZONTAL && !HS_LINE_LAYOUT (manager)->wraps)
    *minimum = CLAMP (MOST_PX, *minimum, *natural);
}

static void
hs_line_layout_allocate (GtkLayoutManager *manager, GtkWidget *widget, int width, int height, int baseline)
{
  GtkWidget *child = gtk_widget_get_first_child (widget);

  if (child != NULL)
    gtk_widget_allocate (child, width, height, -1, NULL);
}

static GtkSizeRequestMode
hs_line_layout_get_request_mode (GtkLayoutManager *manager, GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
hs_line_layout_class_init (HsLineLayoutClass *klass)
{
  GtkLayoutManagerClass *layout_class = GTK_LAYOUT_MANAGER_CLASS (klass);

  layout_class->measure = hs_line_layout_measure;
  layout_class->allocate = hs_line_layout_allocate;
  layout_class->get_request_mode = hs_line_layout_get_request_mode;
}

static void
hs_line_layout_init (HsLineLayout *self)
{
}

GtkLayoutManager *
hs_line_layout_new (void)
{
  return g_object_new (HS_TYPE_LINE_LAYOUT, NULL);
}

void
hs_line_layout_set_wraps (HsLineLayout *self, gboolean wraps)
{
  g_return_if_fail (HS_IS_LINE_LAYOUT (self));

  self->wraps = wraps;
  gtk_layout_manager_layout_changed (GTK_LAYOUT_MANAGER (self));
}
