// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Tells its descendants how much room the window has, from its own allocation.
 *
 * Use one at the root of a window. libadwaita 1.2 has no breakpoints; this widget is the one place that compares
 * widths. It refuses to change anything while a size is being given: the properties change right after the frame. */

#include "hs-room.h"

#include "hs-ink.h"

struct _HsRoom
{
  GtkWidget parent_instance;
  GtkWidget *child;
  gboolean narrow;
  gboolean cramped;
  gboolean slim;
  gboolean want_narrow;
  gboolean want_cramped;
  gboolean want_slim;
  guint source;
};

enum
{
  PROP_0,
  PROP_CHILD,
  PROP_NARROW,
  PROP_CRAMPED,
  PROP_SLIM,
  N_PROPS
};

#define LEAST_WIDTH_PX 360
#define LEAST_HEIGHT_PX 294

static GParamSpec *properties[N_PROPS];

static void hs_room_buildable_init (GtkBuildableIface *iface);

G_DEFINE_FINAL_TYPE_WITH_CODE (HsRoom, hs_room, GTK_TYPE_WIDGET,
                               G_IMPLEMENT_INTERFACE (GTK_TYPE_BUILDABLE, hs_room_buildable_init))

static void
set_class (HsRoom     *self,
           const char *name,
           gboolean    on)
{
  if (on)
    gtk_widget_add_css_class (GTK_WIDGET (self), name);
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self), name);
}

static void
apply_one (HsRoom     *self,
           gboolean   *is,
           gboolean    wanted,
           const char *name,
           guint       property)
{
  if (*is == wanted)
    return;
  *is = wanted;
  set_class (self, name, wanted);
  g_object_notify_by_pspec (G_OBJECT (self), properties[property]);
}

static gboolean
apply (gpointer data)
{
  HsRoom *self = data;

  self->source = 0;
  apply_one (self, &self->slim, self->want_slim, "slim", PROP_SLIM);
  apply_one (self, &self->narrow, self->want_narrow, "narrow", PROP_NARROW);
  apply_one (self, &self->cramped, self->want_cramped, "cramped", PROP_CRAMPED);
  return G_SOURCE_REMOVE;
}

static void
judge (HsRoom *self,
       int     width,
       int     height)
{
  double unit = hs_ink_unit (GTK_WIDGET (self));

  self->want_narrow = width < HS_ROOM_NARROW_PX * unit;
  self->want_cramped = width < HS_ROOM_CRAMPED_PX * unit || height < HS_ROOM_CRAMPED_HEIGHT_PX * unit;
  self->want_slim = width < HS_ROOM_SLIM_PX * unit;
  if (self->source == 0 && (self->want_narrow != self->narrow || self->want_cramped != self->cramped
                            || self->want_slim != self->slim))
    self->source = g_idle_add_full (GDK_PRIORITY_REDRAW - 20, apply, self, NULL);
}

static GtkOrientation
opposite (GtkOrientation orientation)
{
  return orientation == GTK_ORIENTATION_HORIZONTAL ? GTK_ORIENTATION_VERTICAL : GTK_ORIENTATION_HORIZONTAL;
}

static void
hs_room_measure (GtkWidget      *widget,
                 GtkOrientation  orientation,
                 int             for_size,
                 int            *minimum,
                 int            *natural,
                 int            *minimum_baseline,
                 int            *natural_baseline)
{
  HsRoom *self = HS_ROOM (widget);
  int least = 0, wanted = 0;

  if (self->child != NULL)
    {
      int other = -1;

      if (for_size >= 0)
        {
          gtk_widget_measure (self->child, opposite (orientation), -1, &other, NULL, NULL, NULL);
          other = MAX (other, for_size);
        }
      gtk_widget_measure (self->child, orientation, other, &least, &wanted, NULL, NULL);
    }
  *minimum = MIN (least, orientation == GTK_ORIENTATION_HORIZONTAL ? LEAST_WIDTH_PX : LEAST_HEIGHT_PX);
  *natural = MAX (*minimum, wanted);
}

static void
hs_room_size_allocate (GtkWidget *widget,
                       int        width,
                       int        height,
                       int        baseline)
{
  HsRoom *self = HS_ROOM (widget);
  int least_width, least_height;

  judge (self, width, height);
  if (self->child == NULL || !gtk_widget_should_layout (self->child))
    return;
  gtk_widget_measure (self->child, GTK_ORIENTATION_HORIZONTAL, -1, &least_width, NULL, NULL, NULL);
  width = MAX (width, least_width);
  gtk_widget_measure (self->child, GTK_ORIENTATION_VERTICAL, width, &least_height, NULL, NULL, NULL);
  gtk_widget_allocate (self->child, width, MAX (height, least_height), -1, NULL);
}

static GtkSizeRequestMode
hs_room_get_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
hs_room_get_property (GObject    *object,
                      guint       id,
                      GValue     *value,
                      GParamSpec *pspec)
{
  HsRoom *self = HS_ROOM (object);

  switch (id)
    {
    case PROP_CHILD:
      g_value_set_object (value, self->child);
      break;
    case PROP_NARROW:
      g_value_set_boolean (value, self->narrow);
      break;
    case PROP_CRAMPED:
      g_value_set_boolean (value, self->cramped);
      break;
    case PROP_SLIM:
      g_value_set_boolean (value, self->slim);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
hs_room_set_property (GObject      *object,
                      guint         id,
                      const GValue *value,
                      GParamSpec   *pspec)
{
  if (id == PROP_CHILD)
    hs_room_set_child (HS_ROOM (object), g_value_get_object (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
hs_room_dispose (GObject *object)
{
  HsRoom *self = HS_ROOM (object);

  g_clear_handle_id (&self->source, g_source_remove);
  g_clear_pointer (&self->child, gtk_widget_unparent);
  G_OBJECT_CLASS (hs_room_parent_class)->dispose (object);
}

static void
hs_room_add_child (GtkBuildable *buildable,
                   GtkBuilder   *builder,
                   GObject      *child,
                   const char   *type)
{
  hs_room_set_child (HS_ROOM (buildable), GTK_WIDGET (child));
}

static void
hs_room_buildable_init (GtkBuildableIface *iface)
{
  iface->add_child = hs_room_add_child;
}

static void
hs_room_class_init (HsRoomClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = hs_room_get_property;
  object_class->set_property = hs_room_set_property;
  object_class->dispose = hs_room_dispose;
  widget_class->measure = hs_room_measure;
  widget_class->size_allocate = hs_room_size_allocate;
  widget_class->get_request_mode = hs_room_get_request_mode;
  properties[PROP_CHILD] = g_param_spec_object ("child", NULL, NULL, GTK_TYPE_WIDGET,
                                                G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  properties[PROP_NARROW] = g_param_spec_boolean ("narrow", NULL, NULL, FALSE,
                                                  G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  properties[PROP_CRAMPED] = g_param_spec_boolean ("cramped", NULL, NULL, FALSE,
                                                   G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  properties[PROP_SLIM] = g_param_spec_boolean ("slim", NULL, NULL, FALSE, G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);
  gtk_widget_class_set_css_name (widget_class, "room");
}

static void
hs_room_init (HsRoom *self)
{
  gtk_widget_set_overflow (GTK_WIDGET (self), GTK_OVERFLOW_HIDDEN);
}

GtkWidget *
hs_room_new (GtkWidget *child)
{
  return g_object_new (HS_TYPE_ROOM, "child", child, NULL);
}

void
hs_room_set_child (HsRoom    *self,
                   GtkWidget *child)
{
  g_return_if_fail (HS_IS_ROOM (self));

  g_clear_pointer (&self->child, gtk_widget_unparent);
  self->child = child;
  if (child != NULL)
    gtk_widget_set_parent (child, GTK_WIDGET (self));
}

gboolean
hs_room_get_narrow (HsRoom *self)
{
  g_return_val_if_fail (HS_IS_ROOM (self), FALSE);

  return self->narrow;
}

gboolean
hs_room_get_cramped (HsRoom *self)
{
  g_return_val_if_fail (HS_IS_ROOM (self), FALSE);

  return self->cramped;
}

gboolean
hs_room_get_slim (HsRoom *self)
{
  g_return_val_if_fail (HS_IS_ROOM (self), FALSE);

  return self->slim;
}
