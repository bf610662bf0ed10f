// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Finding a vehicle or a customer while the phone rings: a few digits or letters, newest first, each with its battery.
 * The store's index finds; this fills in what one line shows. Reads only, and only rows of the hits.
 */

#include "hs-find.h"

#include "hs-area-row.h"
#include "hs-customer-row.h"
#include "hs-ident.h"
#include "hs-job-op.h"
#include "hs-job-row.h"
#include "hs-ops-error.h"
#include "hs-search.h"
#include "hs-van-row.h"
#include "hs-vehicle-name.h"
#include "hs-visit-row.h"

#include <string.h>

/* As many as a number of a job has at most. */
#define MOST_DIGITS 6

void
hs_hit_free (HsHit *hit)
{
  if (hit == NULL)
    return;
  g_free (hit->job_id);
  g_free (hit->job_number);
  g_free (hit->vehicle_id);
  g_free (hit->customer_id);
  g_free (hit->plate);
  g_free (hit->vehicle);
  g_free (hit->customer);
  g_free (hit->area);
  hs_battery_fact_free (hit->battery);
  g_free (hit);
}

static gboolean
fill_customer (HsStore *store, HsHit *hit, GError **error)
{
  g_autoptr (HsCustomerRow) customer = NULL;
  g_autoptr (HsAreaRow) area = NULL;

  if (hit->customer_id == NULL)
    return TRUE;
  if (!hs_customer_row_load (store, hit->customer_id, &customer, error))
    return FALSE;
  hit->customer = g_strdup (customer->name);
  if (customer->area_id == NULL)
    return TRUE;
  if (!hs_area_row_load (store, customer->area_id, &area, error))
    return FALSE;
  hit->area = g_strdup (area->name);
  return TRUE;
}

/* The latest arrival of the vehicle's newest job, else when that job was called in. */
static gboolean
fill_last_seen (HsStore *store, HsHit *hit, GError **error)
{
  g_autoptr (GPtrArray) jobs = NULL;
  g_autoptr (GPtrArray) visits = NULL;
  const HsJobRow *job;

  if (!hs_job_row_list_of_vehicle (store, hit->vehicle_id, &jobs, error))
    return FALSE;
  if (jobs->len == 0)
    return TRUE;
  job = g_ptr_array_index (jobs, 0);
  if (!hs_visit_row_list_of (store, job->id, &visits, error))
    return FALSE;
  hit->last_seen = job->called_at;
  for (guint i = 0; i < visits->len; i++)
    hit->last_seen = MAX (hit->last_seen, ((HsVisitRow *) g_ptr_array_index (visits, i))->arrived_at);
  return TRUE;
}

static gboolean
fill_vehicle (HsBook *book, HsHit *hit, HsDate today, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsVehicleRow) vehicle = NULL;
  GError *failure = NULL;

  if (hit->vehicle_id == NULL)
    return TRUE;
  if (!hs_vehicle_row_load (store, hit->vehicle_id, &vehicle, error))
    return FALSE;
  hit->plate = g_strdup (vehicle->plate);
  hit->vehicle = hs_vehicle_name (vehicle);
  hit->battery = hs_battery_fact_load (book, hit->vehicle_id, today, &failure);
  if (failure == NULL)
    return fill_last_seen (store, hit, error);
  g_propagate_error (error, failure);
  return FALSE;
}

static HsHit *
hit_new (const HsSearchHit *source)
{
  HsHit *hit = g_new0 (HsHit, 1);

  hit->vehicle_id = g_strdup (source->vehicle_id);
  hit->customer_id = g_strdup (source->customer_id);
  hit->until = source->until;
  hit->present = source->customer_id != NULL && source->until == HS_DATE_NONE;
  hit->last_seen = HS_INSTANT_NONE;
  return hit;
}

GPtrArray *
hs_find (HsBook *book, const char *words, guint limit, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (GPtrArray) found = NULL;
  g_autoptr (GPtrArray) hits = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_hit_free);
  HsDate today;

  hs_instant_to_local (hs_book_get_zone (book), now, &today, NULL);
  if (!hs_search (store, words != NULL ? words : "", MAX (limit, 1), &found, error))
    return NULL;
  for (guint i = 0; i < found->len; i++)
    {
      HsHit *hit = hit_new (g_ptr_array_index (found, i));

      g_ptr_array_add (hits, hit);
      if (!fill_customer (store, hit, error) || !fill_vehicle (book, hit, today, error))
        return NULL;
    }
  return g_steal_pointer (&hits);
}

static gboolean
add_job (HsBook *book, GPtrArray *hits, const char *number, HsDate today, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (GError) missing = NULL;
  g_autoptr (HsJobRow) job = NULL;
  g_autofree char *job_id = hs_job_find (book, number, &missing);
  HsHit *hit;

  if (g_error_matches (missing, HS_OPS_ERROR, HS_OPS_ERROR_NOT_FOUND))
    return TRUE;
  if (job_id == NULL)
    {
      g_propagate_error (error, g_steal_pointer (&missing));
      return FALSE;
    }
  if (!hs_job_row_load (store, job_id, &job, error))
    return FALSE;
  hit = g_new0 (HsHit, 1);
  g_ptr_array_add (hits, hit);
  hit->job_id = g_steal_pointer (&job_id);
  hit->job_number = g_strdup (job->number);
  hs_stage_parse (job->stage, &hit->stage, NULL);
  hit->vehicle_id = g_strdup (job->vehicle_id);
  hit->customer_id = g_strdup (job->customer_id);
  hit->until = HS_DATE_NONE;
  hit->last_seen = HS_INSTANT_NONE;
  return fill_customer (store, hit, error) && fill_vehicle (book, hit, today, error);
}

static gboolean
is_number (const char *words)
{
  gsize n = strspn (words, "0123456789");

  return n > 0 && n <= MOST_DIGITS && words[n] == '\0';
}

GPtrArray *
hs_find_jobs (HsBook *book, const char *words, HsInstant now, GError **error)
{
  g_autofree char *bare = g_strstrip (g_strdup (words != NULL ? words : ""));
  g_autoptr (GPtrArray) hits = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_hit_free);
  g_autoptr (GPtrArray) vans = NULL;
  HsDate today;

  hs_instant_to_local (hs_book_get_zone (book), now, &today, NULL);
  if (hs_job_number_parse (bare, NULL, NULL, NULL))
    return add_job (book, hits, bare, today, error) ? g_steal_pointer (&hits) : NULL;
  if (!is_number (bare))
    return g_steal_pointer (&hits);
  if (!hs_van_row_list (hs_book_get_store (book), &vans, error))
    return NULL;
  for (guint i = 0; i < vans->len; i++)
    {
      g_autofree char *number = g_strconcat (((HsVanRow *) g_ptr_array_index (vans, i))->letter, bare, NULL);

      if (!add_job (book, hits, number, today, error))
        return NULL;
    }
  return g_steal_pointer (&hits);
}
