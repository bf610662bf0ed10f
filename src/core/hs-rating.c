// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Battery ratings between standards, the load of a load test, charging volts by temperature, and group sizes. Gives a
 * span where sources give different factors, and no fit for a size on which lists disagree. */

#include "hs-rating.h"

#include <math.h>
#include <string.h>

#define REFERENCE_CELSIUS 25
#define VOLTS_PER_CELSIUS 0.018

/* Largest length, width and height (web chart of BCI sizes). For 48, 49 and 94R lists give different lengths. */
static const HsRatingGroup groups[] = {
  { "24", 260, 173, 225, FALSE }, { "27", 306, 173, 225, FALSE }, { "31", 330, 173, 240, FALSE },
  { "34", 260, 173, 200, FALSE }, { "35", 230, 175, 225, FALSE }, { "47", 242, 175, 190, FALSE },
  { "48", 306, 175, 192, TRUE },  { "49", 378, 175, 190, TRUE },  { "51", 238, 129, 223, FALSE },
  { "65", 306, 190, 192, FALSE }, { "78", 260, 179, 196, FALSE }, { "94", 315, 175, 190, TRUE },
};

double
hs_rating_load_amps (double cca)
{
  return cca / 2;
}

double
hs_rating_load_amps_by_tens (double cca)
{
  return floor (cca / 2 / 10) * 10;
}

double
hs_rating_load_amps_by_hours (double amp_hours)
{
  return MIN (3 * amp_hours, 500);
}

static HsRatingSpan
span (double a, double b, double c)
{
  return (HsRatingSpan) { .low = MIN (a, MIN (b, c)), .high = MAX (a, MAX (b, c)) };
}

HsRatingSpan
hs_rating_sae_of_din (double din)
{
  return span (1.5 * din + 40, 1.67 * din, 1.7 * din);
}

HsRatingSpan
hs_rating_en_of_sae (double sae)
{
  return (HsRatingSpan) { .low = 0.92 * sae, .high = sae };
}

HsRatingSpan
hs_rating_sae_of_en (double en)
{
  return (HsRatingSpan) { .low = en, .high = en / 0.92 };
}

HsRatingSpan
hs_rating_sae_of_ca (double ca)
{
  return (HsRatingSpan) { .low = 0.77 * ca, .high = 0.80 * ca };
}

HsRatingSpan
hs_rating_ca_of_sae (double sae)
{
  return (HsRatingSpan) { .low = 1.25 * sae, .high = 1.30 * sae };
}

double
hs_rating_charging_volts (double volts, double celsius)
{
  return volts - VOLTS_PER_CELSIUS * (celsius - REFERENCE_CELSIUS);
}

const HsRatingGroup *
hs_rating_group (const char *id)
{
  gsize digits = strspn (id, "0123456789");

  if (id[digits] != '\0' && g_ascii_strcasecmp (id + digits, "R") != 0)
    return NULL;
  for (gsize i = 0; i < G_N_ELEMENTS (groups); i++)
    if (strlen (groups[i].id) == digits && strncmp (groups[i].id, id, digits) == 0)
      return &groups[i];
  return NULL;
}

char *
hs_rating_group_ids (void)
{
  GString *text = g_string_new (groups[0].id);

  for (gsize i = 1; i < G_N_ELEMENTS (groups); i++)
    g_string_append_printf (text, ", %s", groups[i].id);
  return g_string_free (text, FALSE);
}

HsTrayFit
hs_rating_tray_fit (const HsRatingGroup *group, double length, double width, double height)
{
  if (group->measure)
    return HS_TRAY_MEASURE;
  return group->length <= length && group->width <= width && group->height <= height ? HS_TRAY_FITS
                                                                                      : HS_TRAY_TOO_LARGE;
}
