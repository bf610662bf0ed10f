// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* One short text in a shape: the base of keycaps, number plates, bracketed windows and verdict words.
 *
 * Use a subclass. A chip without text hides itself, so that a recycled row needs no second setter. It refuses markup:
 * the text of a chip is data. */

#include "hs-chip.h"

#include "hs-ink.h"

typedef struct
{
  GtkWidget *label;
  char *text;
  char *spoken;
} HsChipPrivate;

enum
{
  PROP_0,
  PROP_TEXT,
  PROP_SPOKEN,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

G_DEFINE_ABSTRACT_TYPE_WITH_PRIVATE (HsChip, hs_chip, GTK_TYPE_WIDGET)

static void
update_name (HsChip *self)
{
  HsChipPrivate *priv = hs_chip_get_instance_private (self);
  const char *name = priv->spoken != NULL ? priv->spoken : priv->text != NULL ? priv->text : "";

  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
}

static void
hs_chip_get_property (GObject    *object,
                      guint       id,
                      GValue     *value,
                      GParamSpec *pspec)
{
  HsChipPrivate *priv = hs_chip_get_instance_private (HS_CHIP (object));

  switch (id)
    {
    case PROP_TEXT:
      g_value_set_string (value, priv->text);
      break;
    case PROP_SPOKEN:
      g_value_set_string (value, priv->spoken);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
hs_chip_set_property (GObject      *object,
                      guint         id,
                      const GValue *value,
                      GParamSpec   *pspec)
{
  switch (id)
    {
    case PROP_TEXT:
      hs_chip_set_text (HS_CHIP (object), g_value_get_string (value));
      break;
    case PROP_SPOKEN:
      hs_chip_set_spoken (HS_CHIP (object), g_value_get_string (value));
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
hs_chip_dispose (GObject *object)
{
  HsChipPrivate *priv = hs_chip_get_instance_private (HS_CHIP (object));

  g_clear_pointer (&priv->label, gtk_widget_unparent);
  G_OBJECT_CLASS (hs_chip_parent_class)->dispose (object);
}

static void
hs_chip_finalize (GObject *object)
{
  HsChipPrivate *priv = hs_chip_get_instance_private (HS_CHIP (object));

  g_free (priv->text);
  g_free (priv->spoken);
  G_OBJECT_CLASS (hs_chip_parent_class)->finalize (object);
}

static void
hs_chip_class_init (HsChipClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  GParamFlags flags = G_PARAM_READWRITE | G_PARAM_EXPLICIT_NOTIFY | G_PARAM_STATIC_STRINGS;

  object_class->get_property = hs_chip_get_property;
  object_class->set_property = hs_chip_set_property;
  object_class->dispose = hs_chip_dispose;
  object_class->finalize = hs_chip_finalize;
  properties[PROP_TEXT] = g_param_spec_string ("text", NULL, NULL, NULL, flags);
  properties[PROP_SPOKEN] = g_param_spec_string ("spoken", NULL, NULL, NULL, flags);
  g_object_class_install_properties (object_class, N_PROPS, properties);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_LABEL);
}

static void
hs_chip_init (HsChip *self)
{
  HsChipPrivate *priv = hs_chip_get_instance_private (self);

  priv->label = g_object_new (GTK_TYPE_LABEL, "accessible-role", GTK_ACCESSIBLE_ROLE_PRESENTATION,
                              "single-line-mode", TRUE, NULL);
  gtk_widget_set_parent (priv->label, GTK_WIDGET (self));
  gtk_widget_set_valign (GTK_WIDGET (self), GTK_ALIGN_CENTER);
  gtk_widget_set_halign (GTK_WIDGET (self), GTK_ALIGN_START);
  gtk_widget_set_visible (GTK_WIDGET (self), FALSE);
}

void
hs_chip_set_text (HsChip     *self,
                  const char *text)
{
  HsChipPrivate *priv = hs_chip_get_instance_private (self);

  g_return_if_fail (HS_IS_CHIP (self));

  if (g_strcmp0 (priv->text, text) == 0)
    return;
  g_free (priv->text);
  priv->text = g_strdup (text);
  gtk_label_set_text (GTK_LABEL (priv->label), text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (self), text != NULL && *text != '\0');
  update_name (self);
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_TEXT]);
}

const char *
hs_chip_get_text (HsChip *self)
{
  HsChipPrivate *priv = hs_chip_get_instance_private (self);

  g_return_val_if_fail (HS_IS_CHIP (self), NULL);

  return priv->text;
}

void
hs_chip_set_spoken (HsChip     *self,
                    const char *spoken)
{
  HsChipPrivate *priv = hs_chip_get_instance_private (self);

  g_return_if_fail (HS_IS_CHIP (self));

  if (g_strcmp0 (priv->spoken, spoken) == 0)
    return;
  g_free (priv->spoken);
  priv->spoken = g_strdup (spoken);
  update_name (self);
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_SPOKEN]);
}

/* Keycap. */

struct _HsKeycap
{
  HsChip parent_instance;
};

G_DEFINE_FINAL_TYPE (HsKeycap, hs_keycap, HS_TYPE_CHIP)

static void
hs_keycap_class_init (HsKeycapClass *klass)
{
  gtk_widget_class_set_css_name (GTK_WIDGET_CLASS (klass), "keycap");
}

static void
hs_keycap_init (HsKeycap *self)
{
}

GtkWidget *
hs_keycap_new (const char *key)
{
  return g_object_new (HS_TYPE_KEYCAP, "text", key, NULL);
}

/* Number plate. */

struct _HsPlateChip
{
  HsChip parent_instance;
};

G_DEFINE_FINAL_TYPE (HsPlateChip, hs_plate_chip, HS_TYPE_CHIP)

static void
hs_plate_chip_class_init (HsPlateChipClass *klass)
{
  gtk_widget_class_set_css_name (GTK_WIDGET_CLASS (klass), "plate");
}

static void
hs_plate_chip_init (HsPlateChip *self)
{
}

GtkWidget *
hs_plate_chip_new (const char *plate)
{
  return g_object_new (HS_TYPE_PLATE_CHIP, "text", plate, NULL);
}

/* Bracketed window. */

struct _HsBracket
{
  HsChip parent_instance;
};

G_DEFINE_FINAL_TYPE (HsBracket, hs_bracket, HS_TYPE_CHIP)

static void
draw_bracket (cairo_t *cr,
              double   x,
              double   foot,
              double   top,
              double   bottom,
              double   line)
{
  cairo_set_line_width (cr, line);
  cairo_move_to (cr, x + foot, top);
  cairo_line_to (cr, x, top);
  cairo_line_to (cr, x, bottom);
  cairo_line_to (cr, x + foot, bottom);
  cairo_stroke (cr);
}

static void
hs_bracket_snapshot (GtkWidget   *widget,
                     GtkSnapshot *snapshot)
{
  gboolean small = gtk_widget_has_css_class (widget, "hs-small");
  double line = small ? 2 : 2.5, foot = small ? 4 : 6, h = MIN (gtk_widget_get_height (widget), small ? 15 : 19);
  g_autoptr (HsCairo) cr = hs_ink_cairo (snapshot, widget, 16);
  GtkBorder padding;
  double left, right, top, unit = hs_ink_unit (widget);
  GdkRGBA color;

  h *= small ? 1 : unit;
  gtk_style_context_get_padding (gtk_widget_get_style_context (widget), &padding);
  gtk_style_context_get_color (gtk_widget_get_style_context (widget), &color);
  left = -padding.left + line / 2;
  right = gtk_widget_get_width (widget) + padding.right - line / 2;
  top = (gtk_widget_get_height (widget) - h) / 2 + line / 2;
  gdk_cairo_set_source_rgba (cr, &color);
  draw_bracket (cr, left, foot, top, top + h - line, line);
  draw_bracket (cr, right, -foot, top, top + h - line, line);
  GTK_WIDGET_CLASS (hs_bracket_parent_class)->snapshot (widget, snapshot);
}

static void
hs_bracket_class_init (HsBracketClass *klass)
{
  GTK_WIDGET_CLASS (klass)->snapshot = hs_bracket_snapshot;
  gtk_widget_class_set_css_name (GTK_WIDGET_CLASS (klass), "bracket");
}

static void
hs_bracket_init (HsBracket *self)
{
}

GtkWidget *
hs_bracket_new (const char *window)
{
  return g_object_new (HS_TYPE_BRACKET, "text", window, NULL);
}
