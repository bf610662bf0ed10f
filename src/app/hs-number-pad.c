// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Sixteen buttons as on a keypad, each with a name that says what the key does in findings.
 *
 * Use it under the readings of a narrow window and feed its keys to the same place that takes typed ones. */

#include "hs-number-pad.h"

#include <glib/gi18n.h>

struct _HsNumberPad
{
  GtkWidget parent_instance;
  GtkWidget *grid;
};

enum
{
  KEY,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

static const struct
{
  const char *face;
  const char *key;
  const char *spoken;
} pad[] = {
  { "7", "7", NULL }, { "8", "8", NULL }, { "9", "9", NULL }, { "/", "slash", N_("Over range") },
  { "4", "4", NULL }, { "5", "5", NULL }, { "6", "6", NULL }, { "*", "asterisk", N_("Not measured") },
  { "1", "1", NULL }, { "2", "2", NULL }, { "3", "3", NULL }, { "−", "minus", N_("Back") },
  { "0", "0", NULL }, { ".", "period", N_("Decimal point") }, { N_("Enter"), "Return", N_("Store") },
  { "+", "plus", N_("Before or after") },
};

G_DEFINE_FINAL_TYPE (HsNumberPad, hs_number_pad, GTK_TYPE_WIDGET)

static void
clicked (GtkButton   *button,
         HsNumberPad *self)
{
  g_signal_emit (self, signals[KEY], 0, gtk_widget_get_name (GTK_WIDGET (button)));
}

static void
hs_number_pad_dispose (GObject *object)
{
  g_clear_pointer (&HS_NUMBER_PAD (object)->grid, gtk_widget_unparent);
  G_OBJECT_CLASS (hs_number_pad_parent_class)->dispose (object);
}

static void
hs_number_pad_class_init (HsNumberPadClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hs_number_pad_dispose;
  signals[KEY] = g_signal_new ("key", HS_TYPE_NUMBER_PAD, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1,
                               G_TYPE_STRING);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "numberpad");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
hs_number_pad_init (HsNumberPad *self)
{
  self->grid = g_object_new (GTK_TYPE_GRID, "row-spacing", 6, "column-spacing", 6, "hexpand", TRUE, NULL);
  gtk_widget_set_parent (self->grid, GTK_WIDGET (self));
  for (guint i = 0; i < G_N_ELEMENTS (pad); i++)
    {
      GtkWidget *button = gtk_button_new_with_label (_(pad[i].face));

      gtk_widget_set_name (button, pad[i].key);
      gtk_widget_set_hexpand (button, TRUE);
      gtk_widget_set_focus_on_click (button, FALSE);
      if (pad[i].spoken != NULL)
        gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, _(pad[i].spoken), -1);
      g_signal_connect (button, "clicked", G_CALLBACK (clicked), self);
      gtk_grid_attach (GTK_GRID (self->grid), button, (int) i % 4, (int) i / 4, 1, 1);
    }
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, _("Number pad"), -1);
}

GtkWidget *
hs_number_pad_new (void)
{
  return g_object_new (HS_TYPE_NUMBER_PAD, NULL);
}
