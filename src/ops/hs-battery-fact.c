// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * The battery now on a vehicle, and the one sentence to say about it. A warranty swap keeps the first clock. How the
 * date is known colors the sentence: what a stamp or a customer says is never told as what we did. Reads only.
 */

#include "hs-battery-fact.h"

#include "hs-installed-row.h"
#include "hs-job-row.h"
#include "hs-say.h"
#include "hs-warranty.h"
#include "hs-words.h"

/* How many swaps in a row are followed back. */
#define FACT_MOST_SWAPS 16

void
hs_battery_fact_free (HsBatteryFact *fact)
{
  if (fact == NULL)
    return;
  g_free (fact->known_by);
  g_free (fact->kind);
  g_free (fact->maker);
  g_free (fact->place);
  g_free (fact->job_number);
  g_free (fact->say);
  g_free (fact);
}

/* First day of cover: what the row says, else that of the first battery in a row of swaps. */
static gboolean
find_cover_start (HsStore *store, const HsInstalledRow *row, HsDate *ret_from, GError **error)
{
  g_autoptr (HsInstalledRow) at = hs_installed_row_copy (row);

  for (guint i = 0; i < FACT_MOST_SWAPS && at->warranty_from == HS_DATE_NONE && at->stands_in_for_id != NULL; i++)
    {
      g_autoptr (HsInstalledRow) first = NULL;

      if (!hs_installed_row_load (store, at->stands_in_for_id, &first, error))
        return FALSE;
      hs_installed_row_free (at);
      at = g_steal_pointer (&first);
    }
  *ret_from = at->warranty_from != HS_DATE_NONE ? at->warranty_from : at->installed_on;
  return TRUE;
}

static gboolean
find_cover_end (HsStore *store, const HsInstalledRow *row, HsDate *ret_until, GError **error)
{
  HsWarranty warranty = { HS_DATE_NONE, 0, -1, 0 };

  *ret_until = HS_DATE_NONE;
  if (row->warranty_months == HS_INT_NONE || row->warranty_months == 0)
    return TRUE;
  if (!find_cover_start (store, row, &warranty.from, error))
    return FALSE;
  warranty.months = (int) row->warranty_months;
  *ret_until = hs_warranty_last_day (&warranty);
  return TRUE;
}

static gboolean
find_job_number (HsStore *store, const char *job_id, char **ret_number, GError **error)
{
  g_autoptr (HsJobRow) job = NULL;

  if (job_id == NULL)
    return TRUE;
  if (!hs_job_row_load (store, job_id, &job, error))
    return FALSE;
  *ret_number = g_strdup (job->number);
  return TRUE;
}

/* The sentence ---------------------------------------------------------------------------------------------------- */

static char *
say_age (const HsBatteryFact *fact)
{
  g_autofree char *day = hs_say_day_full (fact->installed_on);
  g_autofree char *month = hs_say_month (fact->installed_on);
  g_autofree char *age = hs_say_months (fact->age_months);

  if (fact->installed_on == HS_DATE_NONE)
    return g_strdup ("When it was installed is not known.");
  if (g_str_equal (fact->known_by, "receipt"))
    return g_strdup_printf ("By its receipt installed %s: %s.", day, age);
  if (g_str_equal (fact->known_by, "date_stamp"))
    return g_strdup_printf ("Its date stamp says %s: about %s.", month, age);
  if (g_str_equal (fact->known_by, "customer_says"))
    return g_strdup_printf ("By what we were told installed in %s: about %s, not checked.", month, age);
  return fact->swapped ? g_strdup_printf ("Swapped under warranty %s: %s.", day, age)
                       : g_strdup_printf ("Installed %s: %s.", day, age);
}

static char *
say_cover (const HsBatteryFact *fact, HsDate today)
{
  g_autofree char *day = hs_say_day_full (fact->warranty_until);
  g_autofree char *ended = NULL;

  if (fact->warranty_until == HS_DATE_NONE)
    return g_str_equal (fact->known_by, "we_installed_it") ? g_strdup (" It has no cover.") : g_strdup ("");
  if (fact->warranty_until >= today)
    return g_strdup_printf (" Covered until %s%s.", day, fact->swapped ? ", counted from the first one" : "");
  ended = hs_say_ended (fact->warranty_until, today);
  return g_strdup_printf (" Cover ended %s.", ended);
}

static char *
say_fact (const HsBatteryFact *fact, HsDate today)
{
  g_autofree char *age = say_age (fact);
  g_autofree char *cover = say_cover (fact, today);

  return g_strconcat (age, cover, NULL);
}

/* ------------------------------------------------------------------------------------------------------------------ */

static HsBatteryFact *
fact_from_row (HsStore *store, const HsInstalledRow *row, HsDate today, GError **error)
{
  g_autoptr (HsBatteryFact) fact = g_new0 (HsBatteryFact, 1);
  gboolean known = !g_str_equal (row->known_by, "not_known");

  fact->installed_on = known ? row->installed_on : HS_DATE_NONE;
  fact->age_months = known && today >= row->installed_on ? hs_date_months_between (row->installed_on, today) : -1;
  fact->known_by = g_strdup (row->known_by);
  fact->kind = g_strdup (row->battery_kind != NULL ? row->battery_kind : hs_battery_kind_id (HS_BATTERY_UNKNOWN));
  fact->ah = isnan (row->battery_ah) ? 0 : row->battery_ah;
  fact->cca = row->battery_cca == HS_INT_NONE ? 0 : (double) row->battery_cca;
  fact->maker = g_strdup (row->maker);
  fact->place = g_strdup (row->place);
  fact->swapped = row->stands_in_for_id != NULL;
  if (!find_cover_end (store, row, &fact->warranty_until, error)
      || !find_job_number (store, row->job_id, &fact->job_number, error))
    return NULL;
  fact->say = say_fact (fact, today);
  return g_steal_pointer (&fact);
}

HsBatteryFact *
hs_battery_fact_load (HsBook *book, const char *vehicle_id, HsDate today, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (GPtrArray) batteries = NULL;

  if (!hs_installed_row_list_batteries (store, vehicle_id, &batteries, error) || batteries->len == 0)
    return NULL;
  return fact_from_row (store, g_ptr_array_index (batteries, 0), today, error);
}
