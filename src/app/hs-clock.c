// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A clock that can be handed another time: the demo morning runs on its own clock, and a picture needs one that stands.
 *
 * Use it as the only source of `now` above the library layers. It refuses to be silent about it: while it does not show
 * the wall's time, its date text says so. */

#include "hs-clock.h"

#include <glib/gi18n.h>

struct _HsClock
{
  GObject parent_instance;
  GTimeZone *zone;
  gint64 offset_seconds;
  gint64 frozen_at;
  gboolean frozen;
  gboolean demo;
  guint source;
};

enum
{
  PROP_0,
  PROP_NOW,
  PROP_DEMO,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

G_DEFINE_FINAL_TYPE (HsClock, hs_clock, G_TYPE_OBJECT)

static gint64
wall_seconds (void)
{
  return g_get_real_time () / G_USEC_PER_SEC;
}

static gboolean
tick (gpointer data)
{
  HsClock *self = data;
  guint rest = 60 - (guint) (hs_clock_get_now (self) % 60);

  self->source = g_timeout_add_seconds (MAX (rest, 1), tick, self);
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_NOW]);
  return G_SOURCE_REMOVE;
}

static void
changed (HsClock *self)
{
  g_clear_handle_id (&self->source, g_source_remove);
  if (!self->frozen)
    tick (self);
  else
    g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_NOW]);
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_DEMO]);
}

static void
hs_clock_get_property (GObject    *object,
                       guint       id,
                       GValue     *value,
                       GParamSpec *pspec)
{
  switch (id)
    {
    case PROP_NOW:
      g_value_set_int64 (value, hs_clock_get_now (HS_CLOCK (object)));
      break;
    case PROP_DEMO:
      g_value_set_boolean (value, HS_CLOCK (object)->demo);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
hs_clock_finalize (GObject *object)
{
  HsClock *self = HS_CLOCK (object);

  g_clear_handle_id (&self->source, g_source_remove);
  g_clear_pointer (&self->zone, g_time_zone_unref);
  G_OBJECT_CLASS (hs_clock_parent_class)->finalize (object);
}

static void
hs_clock_class_init (HsClockClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GParamFlags flags = G_PARAM_READABLE | G_PARAM_STATIC_STRINGS;

  object_class->get_property = hs_clock_get_property;
  object_class->finalize = hs_clock_finalize;
  properties[PROP_NOW] = g_param_spec_int64 ("now", NULL, NULL, G_MININT64, G_MAXINT64, 0, flags);
  properties[PROP_DEMO] = g_param_spec_boolean ("demo", NULL, NULL, FALSE, flags);
  g_object_class_install_properties (object_class, N_PROPS, properties);
}

static void
hs_clock_init (HsClock *self)
{
}

HsClock *
hs_clock_new (GTimeZone *zone)
{
  HsClock *self = g_object_new (HS_TYPE_CLOCK, NULL);

  self->zone = g_time_zone_ref (zone);
  changed (self);
  return self;
}

void
hs_clock_start_at (HsClock *self,
                   gint64   instant)
{
  g_return_if_fail (HS_IS_CLOCK (self));

  self->frozen = FALSE;
  self->demo = TRUE;
  self->offset_seconds = instant - wall_seconds ();
  changed (self);
}

void
hs_clock_freeze_at (HsClock *self,
                    gint64   instant)
{
  g_return_if_fail (HS_IS_CLOCK (self));

  self->frozen = TRUE;
  self->demo = TRUE;
  self->frozen_at = instant;
  changed (self);
}

gint64
hs_clock_get_now (HsClock *self)
{
  g_return_val_if_fail (HS_IS_CLOCK (self), 0);

  return self->frozen ? self->frozen_at : wall_seconds () + self->offset_seconds;
}

gboolean
hs_clock_get_demo (HsClock *self)
{
  g_return_val_if_fail (HS_IS_CLOCK (self), FALSE);

  return self->demo;
}

GTimeZone *
hs_clock_get_zone (HsClock *self)
{
  g_return_val_if_fail (HS_IS_CLOCK (self), NULL);

  return self->zone;
}

void
hs_clock_set_zone (HsClock   *self,
                   GTimeZone *zone)
{
  GTimeZone *old;

  g_return_if_fail (HS_IS_CLOCK (self));
  g_return_if_fail (zone != NULL);

  old = self->zone;
  self->zone = g_time_zone_ref (zone);
  g_time_zone_unref (old);
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_NOW]);
}

static char *
format_now (HsClock    *self,
            const char *format)
{
  g_autoptr (GDateTime) utc = g_date_time_new_from_unix_utc (hs_clock_get_now (self));
  g_autoptr (GDateTime) local = utc != NULL ? g_date_time_to_timezone (utc, self->zone) : NULL;

  return local != NULL ? g_date_time_format (local, format) : g_strdup ("");
}

char *
hs_clock_dup_time_text (HsClock *self)
{
  g_return_val_if_fail (HS_IS_CLOCK (self), NULL);

  return format_now (self, "%H:%M");
}

char *
hs_clock_dup_date_text (HsClock *self)
{
  g_return_val_if_fail (HS_IS_CLOCK (self), NULL);

  if (self->demo)
    /* Translators: weekday, month and day under the clock, by the letters of g_date_time_format().
     * xgettext:no-c-format */
    return format_now (self, _("Demo, %a, %b %-d"));
  /* xgettext:no-c-format */
  return format_now (self, _("%a, %b %-d"));
}
