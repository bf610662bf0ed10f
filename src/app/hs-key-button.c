// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A button with its key printed on it.
 *
 * Use it for every act of a page; the key is bound elsewhere (hs-application.c or the page). It refuses icons alone.
 * The key stands at the left edge, however wide the button is made, so that keys below each other make a column. */

#include "hs-key-button.h"

#include "hs-chip.h"
#include "hs-line-layout.h"

#define WRAPPED_CHARS 8

struct _HsKeyButton
{
  GtkButton parent_instance;
  GtkWidget *keycap;
  GtkWidget *label;
  gboolean show_key;
};

enum
{
  PROP_0,
  PROP_KEY,
  PROP_TEXT,
  PROP_SHOW_KEY,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

G_DEFINE_FINAL_TYPE (HsKeyButton, hs_key_button, GTK_TYPE_BUTTON)

static void
update_keycap (HsKeyButton *self)
{
  const char *key = hs_chip_get_text (HS_CHIP (self->keycap));

  gtk_widget_set_visible (self->keycap, self->show_key && key != NULL && *key != '\0');
}

static void
hs_key_button_get_property (GObject    *object,
                            guint       id,
                            GValue     *value,
                            GParamSpec *pspec)
{
  HsKeyButton *self = HS_KEY_BUTTON (object);

  switch (id)
    {
    case PROP_KEY:
      g_value_set_string (value, hs_chip_get_text (HS_CHIP (self->keycap)));
      break;
    case PROP_TEXT:
      g_value_set_string (value, gtk_label_get_text (GTK_LABEL (self->label)));
      break;
    case PROP_SHOW_KEY:
      g_value_set_boolean (value, self->show_key);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
hs_key_button_set_property (GObject      *object,
                            guint         id,
                            const GValue *value,
                            GParamSpec   *pspec)
{
  HsKeyButton *self = HS_KEY_BUTTON (object);

  switch (id)
    {
    case PROP_KEY:
      hs_key_button_set_key (self, g_value_get_string (value));
      break;
    case PROP_TEXT:
      hs_key_button_set_text (self, g_value_get_string (value));
      break;
    case PROP_SHOW_KEY:
      hs_key_button_set_show_key (self, g_value_get_boolean (value));
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
hs_key_button_class_init (HsKeyButtonClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GParamFlags flags = G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS;

  object_class->get_property = hs_key_button_get_property;
  object_class->set_property = hs_key_button_set_property;
  properties[PROP_KEY] = g_param_spec_string ("key", NULL, NULL, NULL, flags);
  properties[PROP_TEXT] = g_param_spec_string ("text", NULL, NULL, NULL, flags);
  properties[PROP_SHOW_KEY] = g_param_spec_boolean ("show-key", NULL, NULL, TRUE, flags);
  g_object_class_install_properties (object_class, N_PROPS, properties);
}

static void
hs_key_button_init (HsKeyButton *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);

  self->show_key = TRUE;
  self->keycap = hs_keycap_new (NULL);
  self->label = gtk_label_new (NULL);
  gtk_label_set_wrap (GTK_LABEL (self->label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (self->label), PANGO_WRAP_WORD_CHAR);
  /* A label that wraps wants to be about as high as wide. */
  gtk_label_set_natural_wrap_mode (GTK_LABEL (self->label), GTK_NATURAL_WRAP_NONE);
  gtk_label_set_xalign (GTK_LABEL (self->label), 0);
  gtk_widget_add_css_class (box, "keyed");
  gtk_box_append (GTK_BOX (box), self->keycap);
  gtk_box_append (GTK_BOX (box), self->label);
  gtk_button_set_child (GTK_BUTTON (self), box);
  gtk_widget_set_layout_manager (GTK_WIDGET (self), hs_line_layout_new ());
}

static void
set_wraps (HsKeyButton *self, gboolean wraps, int chars)
{
  gtk_label_set_max_width_chars (GTK_LABEL (self->label), chars);
  hs_line_layout_set_wraps (HS_LINE_LAYOUT (gtk_widget_get_layout_manager (GTK_WIDGET (self))), wraps);
}

GtkWidget *
hs_key_button_new (const char *key,
                   const char *text,
                   const char *action)
{
  GtkWidget *self = g_object_new (HS_TYPE_KEY_BUTTON, "key", key, "text", text, NULL);

  if (action != NULL)
    gtk_actionable_set_detailed_action_name (GTK_ACTIONABLE (self), action);
  return self;
}

void
hs_key_button_set_key (HsKeyButton *self,
                       const char  *key)
{
  g_return_if_fail (HS_IS_KEY_BUTTON (self));

  hs_chip_set_text (HS_CHIP (self->keycap), key);
  update_keycap (self);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_KEY_SHORTCUTS, key != NULL ? key : "",
                                  -1);
}

void
hs_key_button_set_text (HsKeyButton *self,
                        const char  *text)
{
  g_return_if_fail (HS_IS_KEY_BUTTON (self));

  gtk_label_set_text (GTK_LABEL (self->label), text != NULL ? text : "");
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, text != NULL ? text : "", -1);
}

void
hs_key_button_set_show_key (HsKeyButton *self,
                            gboolean     show)
{
  g_return_if_fail (HS_IS_KEY_BUTTON (self));

  self->show_key = show;
  update_keycap (self);
}

void
hs_key_button_set_bare (HsKeyButton *self,
                        gboolean     bare)
{
  g_return_if_fail (HS_IS_KEY_BUTTON (self));

  gtk_widget_set_visible (self->label, !bare);
}

void
hs_key_button_set_wraps (HsKeyButton *self,
                         gboolean     wraps)
{
  g_return_if_fail (HS_IS_KEY_BUTTON (self));

  set_wraps (self, wraps, wraps ? WRAPPED_CHARS : -1);
}

void
hs_key_button_keep_words (HsKeyButton *self)
{
  g_return_if_fail (HS_IS_KEY_BUTTON (self));

  gtk_label_set_wrap_mode (GTK_LABEL (self->label), PANGO_WRAP_WORD);
}

void
hs_key_button_set_row (HsKeyButton *self)
{
  g_return_if_fail (HS_IS_KEY_BUTTON (self));

  set_wraps (self, TRUE, -1);
}

void
hs_key_button_set_wraps_at (HsKeyButton *self,
                            int          chars)
{
  g_return_if_fail (HS_IS_KEY_BUTTON (self));

  set_wraps (self, TRUE, chars);
}
