// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The first page, and the page that says why a file is not opened. It refuses to guess: every way on is a button. */

#include "hs-cover.h"

#include "hs-glyph.h"
#include "hs-key-button.h"

struct _HsCover
{
  AdwBin parent_instance;

  HsGlyph *glyph;
  GtkLabel *heading;
  GtkLabel *body;
  GtkWidget *make_button;
  GtkWidget *open_button;
};

G_DEFINE_FINAL_TYPE (HsCover, hs_cover, ADW_TYPE_BIN)

static void
hs_cover_class_init (HsCoverClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  g_type_ensure (HS_TYPE_GLYPH);
  g_type_ensure (HS_TYPE_KEY_BUTTON);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-cover.ui");
  gtk_widget_class_bind_template_child (widget_class, HsCover, glyph);
  gtk_widget_class_bind_template_child (widget_class, HsCover, heading);
  gtk_widget_class_bind_template_child (widget_class, HsCover, body);
  gtk_widget_class_bind_template_child (widget_class, HsCover, make_button);
  gtk_widget_class_bind_template_child (widget_class, HsCover, open_button);
}

static void
hs_cover_init (HsCover *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
hs_cover_new (const char *drawing, const char *heading, const char *body, gboolean may_make)
{
  HsCover *self = g_object_new (HS_TYPE_COVER, NULL);

  hs_glyph_set_name (self->glyph, drawing);
  gtk_label_set_label (self->heading, heading);
  gtk_label_set_label (self->body, body);
  gtk_widget_set_visible (self->make_button, may_make);
  if (!may_make)
    gtk_widget_add_css_class (self->open_button, "hs-fill");
  return GTK_WIDGET (self);
}
