// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A field whose keys belong to the page, yet whose text is read and set like any entry's through AT-SPI: by a voice, a
 * switch or a screen reader.
 *
 * Use it where a figure is drawn large while it is keyed. It refuses keys of its own. `typed` brings what was set from
 * outside; what it then is, is for the page to say by hs_figure_field_set_text(). */

#include "hs-figure-field.h"

struct _HsFigureField
{
  GtkWidget parent_instance;
  GtkWidget *text; /* never shown */
  gboolean follows;
};

enum
{
  TYPED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

static GtkEditable *
get_delegate (GtkEditable *editable)
{
  return GTK_EDITABLE (HS_FIGURE_FIELD (editable)->text);
}

static void
editable_init (GtkEditableInterface *iface)
{
  iface->get_delegate = get_delegate;
}

G_DEFINE_FINAL_TYPE_WITH_CODE (HsFigureField, hs_figure_field, GTK_TYPE_WIDGET,
                               G_IMPLEMENT_INTERFACE (GTK_TYPE_EDITABLE, editable_init))

static void
changed_cb (HsFigureField *self)
{
  g_autofree char *text = g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->text)));

  if (!self->follows)
    g_signal_emit (self, signals[TYPED], 0, text);
}

static void
hs_figure_field_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  if (!gtk_editable_delegate_get_property (object, id, value, pspec))
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
hs_figure_field_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  if (!gtk_editable_delegate_set_property (object, id, value, pspec))
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
hs_figure_field_dispose (GObject *object)
{
  HsFigureField *self = HS_FIGURE_FIELD (object);
  GtkWidget *child;

  if (self->text != NULL)
    gtk_editable_finish_delegate (GTK_EDITABLE (self));
  self->text = NULL;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (child);
  G_OBJECT_CLASS (hs_figure_field_parent_class)->dispose (object);
}

static void
hs_figure_field_class_init (HsFigureFieldClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = hs_figure_field_get_property;
  object_class->set_property = hs_figure_field_set_property;
  object_class->dispose = hs_figure_field_dispose;
  gtk_editable_install_properties (object_class, 1);
  signals[TYPED] = g_signal_new ("typed", HS_TYPE_FIGURE_FIELD, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1,
                                 G_TYPE_STRING);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BOX_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "box");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_TEXT_BOX);
}

static void
hs_figure_field_init (HsFigureField *self)
{
  gtk_box_layout_set_spacing (GTK_BOX_LAYOUT (gtk_widget_get_layout_manager (GTK_WIDGET (self))), 8);
  gtk_widget_set_focusable (GTK_WIDGET (self), TRUE);
  self->text = gtk_text_new ();
  gtk_widget_set_visible (self->text, FALSE);
  gtk_widget_set_parent (self->text, GTK_WIDGET (self));
  gtk_editable_init_delegate (GTK_EDITABLE (self));
  g_signal_connect_object (self->text, "changed", G_CALLBACK (changed_cb), self, G_CONNECT_SWAPPED);
}

void
hs_figure_field_set_text (HsFigureField *self, const char *text)
{
  g_return_if_fail (HS_IS_FIGURE_FIELD (self));

  if (g_str_equal (gtk_editable_get_text (GTK_EDITABLE (self->text)), text))
    return;
  self->follows = TRUE;
  gtk_editable_set_text (GTK_EDITABLE (self->text), text);
  self->follows = FALSE;
}
