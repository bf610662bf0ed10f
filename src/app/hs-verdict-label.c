// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The word of a verdict in its border shape.
 *
 * Use it wherever a verdict is shown. It refuses color: the border's weight and stroke carry the meaning beside the
 * word. */

#include "hs-verdict-label.h"

#include "hs-show.h"

struct _HsVerdictLabel
{
  HsChip parent_instance;
  HsVerdictShape shape;
};

enum
{
  PROP_0,
  PROP_SHAPE,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

static const char *const classes[] = { "plain", "thin", "heavy", "dashed", "dotted", "double" };

G_DEFINE_FINAL_TYPE (HsVerdictLabel, hs_verdict_label, HS_TYPE_CHIP)

GType
hs_verdict_shape_get_type (void)
{
  static gsize type = 0;

  if (g_once_init_enter (&type))
    {
      static const GEnumValue values[] = {
        { HS_VERDICT_SHAPE_PLAIN, "HS_VERDICT_SHAPE_PLAIN", "plain" },
        { HS_VERDICT_SHAPE_THIN, "HS_VERDICT_SHAPE_THIN", "thin" },
        { HS_VERDICT_SHAPE_HEAVY, "HS_VERDICT_SHAPE_HEAVY", "heavy" },
        { HS_VERDICT_SHAPE_DASHED, "HS_VERDICT_SHAPE_DASHED", "dashed" },
        { HS_VERDICT_SHAPE_DOTTED, "HS_VERDICT_SHAPE_DOTTED", "dotted" },
        { HS_VERDICT_SHAPE_DOUBLE, "HS_VERDICT_SHAPE_DOUBLE", "double" },
        { 0, NULL, NULL },
      };

      g_once_init_leave (&type, g_enum_register_static ("HsVerdictShape", values));
    }
  return type;
}

static void
set_shape (HsVerdictLabel *self,
           HsVerdictShape  shape)
{
  if (self->shape == shape)
    return;
  gtk_widget_remove_css_class (GTK_WIDGET (self), classes[self->shape]);
  self->shape = shape;
  gtk_widget_add_css_class (GTK_WIDGET (self), classes[shape]);
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_SHAPE]);
}

static void
hs_verdict_label_get_property (GObject    *object,
                               guint       id,
                               GValue     *value,
                               GParamSpec *pspec)
{
  if (id == PROP_SHAPE)
    g_value_set_enum (value, HS_VERDICT_LABEL (object)->shape);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
hs_verdict_label_set_property (GObject      *object,
                               guint         id,
                               const GValue *value,
                               GParamSpec   *pspec)
{
  if (id == PROP_SHAPE)
    set_shape (HS_VERDICT_LABEL (object), g_value_get_enum (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
hs_verdict_label_class_init (HsVerdictLabelClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);

  object_class->get_property = hs_verdict_label_get_property;
  object_class->set_property = hs_verdict_label_set_property;
  properties[PROP_SHAPE] = g_param_spec_enum ("shape", NULL, NULL, HS_TYPE_VERDICT_SHAPE, HS_VERDICT_SHAPE_PLAIN,
                                              G_PARAM_READWRITE | G_PARAM_EXPLICIT_NOTIFY | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);
  gtk_widget_class_set_css_name (GTK_WIDGET_CLASS (klass), "verdict");
}

static void
hs_verdict_label_init (HsVerdictLabel *self)
{
  gtk_widget_add_css_class (GTK_WIDGET (self), classes[HS_VERDICT_SHAPE_PLAIN]);
}

GtkWidget *
hs_verdict_label_new (const char     *word,
                      HsVerdictShape  shape)
{
  HsVerdictLabel *self = g_object_new (HS_TYPE_VERDICT_LABEL, NULL);

  hs_verdict_label_set (self, word, shape);
  return GTK_WIDGET (self);
}

void
hs_verdict_label_set (HsVerdictLabel *self,
                      const char     *word,
                      HsVerdictShape  shape)
{
  const char *shown = hs_show_verdict (word);
  g_autofree char *capitals = NULL;

  g_return_if_fail (HS_IS_VERDICT_LABEL (self));
  g_return_if_fail (shape <= HS_VERDICT_SHAPE_DOUBLE);

  if (shape == HS_VERDICT_SHAPE_DOUBLE && word != NULL)
    capitals = g_utf8_strup (shown, -1);
  set_shape (self, shape);
  hs_chip_set_spoken (HS_CHIP (self), shown);
  hs_chip_set_text (HS_CHIP (self), capitals != NULL ? capitals : shown);
}

HsVerdictShape
hs_verdict_label_get_shape (HsVerdictLabel *self)
{
  g_return_val_if_fail (HS_IS_VERDICT_LABEL (self), HS_VERDICT_SHAPE_PLAIN);

  return self->shape;
}
