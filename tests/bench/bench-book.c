// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Makes large books for the benchmarks, through the store's own rows. */

#include "bench-book.h"

#include "hs-customer-row.h"
#include "hs-installed-row.h"
#include "hs-job-row.h"
#include "hs-search.h"
#include "hs-van-row.h"
#include "hs-vehicle-row.h"

static const char *const first_names[] = { "Ada", "Bruno", "Célie", "Dorrit", "Emrys", "Freya", "Gil", "Hester",
                                           "Ines", "Jonas", "Kit", "Lowri", "Mungo", "Nell", "Orin", "Piet" };
static const char *const last_names[] = { "Ashdown", "Brindle", "Carrow", "Dunnock", "Elverson", "Farrant",
                                          "Gorse", "Hollin", "Ivory", "Jessop", "Kestle", "Larkin", "Merrow",
                                          "Nettle", "Ockley", "Pennow", "Quarles", "Rushen", "Sorley", "Tarrow" };
static const char *const streets[] = { "Ropewalk", "Capstan Street", "Beacon Rise", "Kiln Road", "Butter Cross",
                                       "Netmakers Row", "Larkfield", "Poultry Yard" };
static const char *const models[][2] = { { "Halvik", "Pim" }, { "Orsane", "Merle" }, { "Tumbrel", "Carter" },
                                         { "Quenby", "Wick" }, { "Vostle", "Crag" } };

#define PICK(array, n) (array)[(n) % G_N_ELEMENTS (array)]

/* 2016-01-01 and ten years of seconds. */
#define FIRST_DAY 16801
#define N_DAYS 3650

char *
hs_bench_phone (guint index)
{
  return g_strdup_printf ("555%07u", (index * 7919u) % 10000000u);
}

char *
hs_bench_plate (guint index)
{
  return g_strdup_printf ("%c%c%c %04u", 'A' + index / 10000 % 26, 'A' + index / 260000 % 26, 'A' + index % 26,
                          index % 10000);
}

static gboolean
add_customer (HsStore *store, guint index, char **ret_id, GError **error)
{
  g_autoptr (HsCustomerRow) customer = hs_customer_row_new ();
  customer->name = g_strdup_printf ("%s %s", PICK (first_names, index), PICK (last_names, index / 16));
  customer->street = g_strdup_printf ("%u %s", index % 90 + 1, PICK (streets, index));
  hs_row_set (&customer->kind, "private");
  if (!hs_customer_row_save (store, customer, error))
    return FALSE;
  g_autoptr (HsPhoneRow) phone = hs_phone_row_new ();
  hs_row_set (&phone->customer_id, customer->id);
  phone->shown = hs_bench_phone (index);
  if (!hs_phone_row_save (store, phone, error))
    return FALSE;
  *ret_id = g_strdup (customer->id);
  return TRUE;
}

static gboolean
add_battery (HsStore *store, const char *vehicle_id, guint index, GError **error)
{
  g_autoptr (HsInstalledRow) battery = hs_installed_row_new ();
  hs_row_set (&battery->vehicle_id, vehicle_id);
  hs_row_set (&battery->kind, "battery");
  hs_row_set (&battery->what, "battery 60 Ah");
  hs_row_set (&battery->place, "under the hood");
  hs_row_set (&battery->known_by, "receipt");
  hs_row_set (&battery->battery_kind, "flooded");
  battery->battery_ah = 60;
  battery->installed_on = battery->warranty_from = FIRST_DAY + (HsDate) (index % N_DAYS);
  battery->warranty_months = 24;
  return hs_installed_row_save (store, battery, error);
}

static gboolean
add_vehicle (HsStore *store, guint index, const char *customer_id, char **ret_id, GError **error)
{
  g_autoptr (HsVehicleRow) vehicle = hs_vehicle_row_new ();
  vehicle->plate = hs_bench_plate (index);
  hs_row_set (&vehicle->make, PICK (models, index)[0]);
  hs_row_set (&vehicle->model, PICK (models, index)[1]);
  vehicle->year = 2000 + index % 24;
  vehicle->vin = g_strdup_printf ("HSBENCH0000%06u", index);
  if (!hs_vehicle_row_save (store, vehicle, error))
    return FALSE;
  g_autoptr (HsOwnershipRow) ownership = hs_ownership_row_new ();
  hs_row_set (&ownership->vehicle_id, vehicle->id);
  hs_row_set (&ownership->customer_id, customer_id);
  ownership->from_date = FIRST_DAY;
  if (!hs_ownership_row_save (store, ownership, error) || !add_battery (store, vehicle->id, index, error))
    return FALSE;
  *ret_id = g_strdup (vehicle->id);
  return TRUE;
}

static gboolean
add_job (HsStore *store, guint index, const char *van_id, const char *customer_id, const char *vehicle_id,
         HsInstant called_at, GError **error)
{
  g_autoptr (HsJobRow) job = hs_job_row_new ();
  job->number = g_strdup_printf ("A-%07u", index + 1);
  hs_row_set (&job->van_id, van_id);
  hs_row_set (&job->customer_id, customer_id);
  hs_row_set (&job->vehicle_id, vehicle_id);
  hs_row_set (&job->kind, "repair");
  hs_row_set (&job->stage, "called_in");
  hs_row_set (&job->words, "turns slowly, then nothing");
  job->called_at = called_at;
  job->day = (HsDate) (called_at / 86400);
  return hs_job_row_save (store, job, error)
         && hs_job_row_move (store, job->id, HS_STAGE_PROVEN, "generated", error)
         && hs_job_row_move (store, job->id, HS_STAGE_SQUARED, NULL, error);
}

static gboolean
fill (HsStore *store, guint n_vehicles, guint n_jobs, GError **error)
{
  g_autoptr (HsVanRow) van = NULL;
  if (!hs_van_row_find (store, "A", &van, error))
    return FALSE;
  g_autoptr (GPtrArray) customers = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GPtrArray) vehicles = g_ptr_array_new_with_free_func (g_free);
  for (guint i = 0; i < n_vehicles; i++)
    {
      char *id = NULL;
      if (!add_customer (store, i, &id, error))
        return FALSE;
      g_ptr_array_add (customers, id);
      if (!add_vehicle (store, i, id, &id, error))
        return FALSE;
      g_ptr_array_add (vehicles, id);
    }
  for (guint i = 0; i < n_jobs; i++)
    {
      guint pick = (guint) ((guint64) i * 48271u % n_vehicles);
      HsInstant at = (HsInstant) FIRST_DAY * 86400 + (HsInstant) ((double) i / n_jobs * N_DAYS * 86400);
      if (!add_job (store, i, van->id, g_ptr_array_index (customers, pick), g_ptr_array_index (vehicles, pick), at,
                    error))
        return FALSE;
    }
  return hs_search_rebuild (store, error);
}

gboolean
hs_bench_book_fill (HsStore *store, guint n_vehicles, guint n_jobs, GError **error)
{
  if (!hs_store_begin (store, (HsInstant) (FIRST_DAY + N_DAYS) * 86400, error))
    return FALSE;
  hs_store_set_bulk (store, TRUE);
  gboolean done = hs_store_end (store, fill (store, n_vehicles, n_jobs, error), error);
  hs_store_set_bulk (store, FALSE);
  return done;
}
