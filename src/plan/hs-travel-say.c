// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Where a drive is known from, in words that the window and the command line share. */

#include "hs-travel-say.h"

static char *
source_text (const HsTravelLeg *leg, const HsTongue *in)
{
  guint n = leg->trips;

  if (leg->source == HS_TRAVEL_OWN && leg->hour_trips >= HS_TRAVEL_SURE_SAMPLES)
    return g_strdup_printf (in->ngettext ("%u own trip at that hour", "%u own trips at that hour", leg->hour_trips),
                            leg->hour_trips);
  if (leg->source == HS_TRAVEL_OWN && leg->hour_trips > 1)
    return g_strdup_printf (in->gettext ("%u own trips, of them at that hour %u"), n, leg->hour_trips);
  if (leg->source == HS_TRAVEL_OWN || (leg->source == HS_TRAVEL_FEW && leg->base == HS_TRAVEL_OWN))
    return g_strdup_printf (in->ngettext ("%u own trip", "%u own trips", n), n);
  if (n > 0 && leg->base == HS_TRAVEL_TABLED)
    return g_strdup_printf (in->ngettext ("%u own trip and your table", "%u own trips and your table", n), n);
  if (n > 0 && leg->base == HS_TRAVEL_ROADS)
    return g_strdup_printf (in->ngettext ("%u own trip and roads", "%u own trips and roads", n), n);
  if (n > 0)
    return g_strdup_printf (in->ngettext ("%u own trip and the estimate", "%u own trips and the estimate", n), n);
  if (leg->source == HS_TRAVEL_TABLED)
    return g_strdup (in->gettext ("your table"));
  return g_strdup (leg->source == HS_TRAVEL_ROADS ? in->gettext ("roads") : in->gettext ("guess"));
}

char *
hs_travel_leg_say (const HsTravelLeg *leg, const HsTongue *in)
{
  g_autofree char *source = source_text (leg, in);

  return leg->guess && leg->source != HS_TRAVEL_GUESS ? g_strdup_printf (in->gettext ("guess: %s"), source)
                                                      : g_steal_pointer (&source);
}
