// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* How long a part that was installed is covered, and the sentence that is said when the vehicle is handed over: by
 * months, by miles, or whichever comes first. Promises nothing where nothing was agreed. */

#include "hs-repair-private.h"

#include "hs-say.h"
#include "hs-warranty.h"

/* "118,400" */
static char *
group_digits (gint64 value)
{
  g_autofree char *digits = g_strdup_printf ("%" G_GINT64_FORMAT, value);
  GString *text = g_string_new (digits);

  for (gssize at = (gssize) text->len - 3; at > 0; at -= 3)
    g_string_insert_c (text, at, ',');
  return g_string_free (text, FALSE);
}

static HsWarranty
warranty_of (const HsCoverScene *scene, const HsInstalledRow *row)
{
  HsWarranty warranty = { .from = row->warranty_from != HS_DATE_NONE ? row->warranty_from : row->installed_on,
                          .start_odometer = -1 };

  if (row->warranty_months != HS_INT_NONE)
    warranty.months = (int) row->warranty_months;
  if (row->installed_odometer != HS_INT_NONE)
    warranty.start_odometer = row->installed_odometer;
  if (row->warranty_millimiles != HS_INT_NONE)
    warranty.miles = hs_repair_miles_in (row->warranty_millimiles, scene->unit);
  return warranty;
}

/* The earlier of the last day and the day on which the vehicle gets to the last mile. */
static HsDate
expect_end (const HsCoverScene *scene, HsDate last_day, gint64 last_odometer)
{
  HsDate by_miles = HS_DATE_NONE;

  if (last_odometer >= 0 && scene->pace != NULL)
    by_miles = hs_odometer_due_on (scene->pace, last_odometer);
  if (by_miles == HS_DATE_NONE || (last_day != HS_DATE_NONE && last_day < by_miles))
    return last_day;
  return by_miles;
}

static char *
say_distance (const HsWarranty *warranty, gint64 last_odometer, const char *unit)
{
  g_autofree char *number = group_digits (last_odometer >= 0 ? last_odometer : warranty->miles);
  const char *label = hs_words_label (HS_WORDS_ODOMETER_UNIT, unit);

  return g_strdup_printf (last_odometer >= 0 ? "%s %s on the odometer" : "%s %s from that day on", number, label);
}

static char *
say_cover (const HsWarranty *warranty, HsDate last_day, gint64 last_odometer, const char *unit)
{
  g_autofree char *day = last_day != HS_DATE_NONE ? hs_say_day_full (last_day) : NULL;
  g_autofree char *distance = warranty->miles > 0 ? say_distance (warranty, last_odometer, unit) : NULL;

  if (day != NULL && distance != NULL)
    return g_strdup_printf ("Covered to %s or %s, whichever comes first", day, distance);
  if (day != NULL || distance != NULL)
    return g_strdup_printf ("Covered to %s", day != NULL ? day : distance);
  return g_strdup ("No cover was agreed");
}

void
hs_cover_fill (const HsCoverScene *scene, const HsInstalledRow *row, HsFittedPart *part)
{
  HsWarranty warranty = warranty_of (scene, row);
  gboolean any = warranty.months > 0 || warranty.miles > 0;
  g_autofree char *said = NULL;
  g_autofree char *from = NULL;

  part->cover_from = any ? warranty.from : HS_DATE_NONE;
  part->cover_until = hs_warranty_last_day (&warranty);
  part->cover_odometer = hs_warranty_last_odometer (&warranty);
  part->cover_expected = expect_end (scene, part->cover_until, part->cover_odometer);
  said = say_cover (&warranty, part->cover_until, part->cover_odometer, scene->unit);
  if (!any || warranty.from == row->installed_on)
    {
      part->cover = g_strconcat (said, ".", NULL);
      return;
    }
  from = hs_say_day_full (warranty.from);
  part->cover = g_strdup_printf ("%s; it runs from %s, when the first one went in.", said, from);
}
