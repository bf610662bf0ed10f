// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What of a job goes to the telephone. Reads only; what is not known is left out, and a day that cannot be planned only
 * has no time. */

#include "hs-hand-off-op.h"

#include "hs-area-row.h"
#include "hs-customer-row.h"
#include "hs-day-plan.h"
#include "hs-geo.h"
#include "hs-board.h"
#include "hs-job-row.h"
#include "hs-ops-private.h"
#include "hs-spot.h"
#include "hs-vehicle-row.h"

void
hs_hand_off_free (HsHandOff *hand_off)
{
  if (hand_off == NULL)
    return;
  g_free (hand_off->number);
  g_free (hand_off->customer);
  g_free (hand_off->phone);
  g_free (hand_off->plate);
  g_free (hand_off->address);
  g_free (hand_off->position);
  g_free (hand_off);
}

static gboolean
fill_customer (HsStore *store, const HsJobRow *job, HsHandOff *hand_off, GError **error)
{
  g_autoptr (HsCustomerRow) customer = NULL;
  g_autoptr (GPtrArray) phones = NULL;

  if (job->customer_id == NULL)
    return TRUE;
  if (!hs_customer_row_load (store, job->customer_id, &customer, error)
      || !hs_phone_row_list_of (store, job->customer_id, &phones, error))
    return FALSE;
  hs_row_set (&hand_off->customer, customer->name);
  if (phones->len > 0)
    hs_row_set (&hand_off->phone, ((HsPhoneRow *) g_ptr_array_index (phones, 0))->shown);
  hs_row_set (&hand_off->address, hs_ops_blank_to_null (job->street) != NULL ? job->street : customer->street);
  return TRUE;
}

/* "4 Quay Street, Quayside"; an area that is a position of its own says nothing in an address. */
static gboolean
fill_place (HsBook *book, const HsJobRow *job, HsHandOff *hand_off, GError **error)
{
  g_autoptr (HsSpot) spot = hs_spot_find (book, job->number, NULL);
  g_autoptr (HsAreaRow) area = NULL;
  char *address;

  if (spot != NULL && spot->has_position)
    hand_off->position = hs_geo_format_uri (spot->latitude, spot->longitude);
  if (job->area_id == NULL)
    return TRUE;
  if (!hs_area_row_load (hs_book_get_store (book), job->area_id, &area, error))
    return FALSE;
  if (hs_geo_is_meant (area->name))
    return TRUE;
  address = hand_off->address != NULL ? g_strdup_printf ("%s, %s", hand_off->address, area->name)
                                      : g_strdup (area->name);
  g_free (hand_off->address);
  hand_off->address = address;
  return TRUE;
}

static gboolean
fill_vehicle (HsStore *store, const HsJobRow *job, HsHandOff *hand_off, GError **error)
{
  g_autoptr (HsVehicleRow) vehicle = NULL;

  if (job->vehicle_id == NULL)
    return TRUE;
  if (!hs_vehicle_row_load (store, job->vehicle_id, &vehicle, error))
    return FALSE;
  hs_row_set (&hand_off->plate, vehicle->plate);
  return TRUE;
}

static void
fill_arrival (HsBook *book, const char *job_id, HsInstant now, HsHandOff *hand_off)
{
  g_autoptr (HsDayPlan) plan = hs_day_plan_of_job (book, job_id, now, NULL);
  guint at = plan != NULL ? hs_day_plan_find_stop (plan, job_id) : 0;

  if (plan != NULL && at < plan->stops->len)
    hand_off->arrive = ((const HsPlannedStop *) g_ptr_array_index (plan->stops, at))->arrive;
}

HsHandOff *
hs_hand_off_load (HsBook *book, const char *job_id, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsHandOff) hand_off = g_new0 (HsHandOff, 1);
  g_autoptr (HsJobRow) job = NULL;
  g_autoptr (HsJobView) view = NULL;

  hand_off->arrive = HS_INSTANT_NONE;
  if (!hs_job_row_load (store, job_id, &job, error) || !fill_customer (store, job, hand_off, error)
      || !fill_place (book, job, hand_off, error) || !fill_vehicle (store, job, hand_off, error))
    return NULL;
  view = hs_job_view_load (book, job_id, now, error);
  if (view == NULL)
    return NULL;
  hand_off->number = g_strdup (job->number);
  hand_off->cents = view->net_cents + view->tax_cents;
  fill_arrival (book, job_id, now, hand_off);
  return g_steal_pointer (&hand_off);
}
