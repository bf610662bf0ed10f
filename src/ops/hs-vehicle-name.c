// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What a vehicle is called in a row or a sentence. Refuses nothing: what is not known is left away. */

#include "hs-vehicle-name.h"

static void
add_word (GString *name, const char *word)
{
  if (word == NULL || *word == '\0')
    return;
  if (name->len > 0)
    g_string_append_c (name, ' ');
  g_string_append (name, word);
}

char *
hs_vehicle_name (const HsVehicleRow *vehicle)
{
  GString *name = g_string_new (NULL);
  char year[24] = "";

  if (vehicle->year != HS_INT_NONE)
    g_snprintf (year, sizeof year, "%" G_GINT64_FORMAT, vehicle->year);
  add_word (name, vehicle->make);
  add_word (name, vehicle->model);
  add_word (name, year);
  return g_string_free (name, FALSE);
}
