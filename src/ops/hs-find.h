// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-battery-fact.h"
#include "hs-stage.h"

G_BEGIN_DECLS

/**
 * HsHit:
 * @job_id: of a job that was found by its number, else %NULL; so are @job_number and @stage
 * @vehicle_id: %NULL for a customer without a vehicle
 * @customer_id: the owner through whom it was found; %NULL for a vehicle without an owner
 * @plate: as written
 * @vehicle: "Vostle Crag 2016"
 * @customer: name
 * @area: area's name, may be %NULL
 * @present: @customer owns it now
 * @until: last day of a past ownership, or %HS_DATE_NONE
 * @last_seen: when a job last touched it, or %HS_INSTANT_NONE
 * @battery: may be %NULL
 */
typedef struct
{
  char *job_id;
  char *job_number;
  HsStage stage;
  char *vehicle_id;
  char *customer_id;
  char *plate;
  char *vehicle;
  char *customer;
  char *area;
  gboolean present;
  HsDate until;
  HsInstant last_seen;
  HsBatteryFact *battery;
} HsHit;

void hs_hit_free (HsHit *hit);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsHit, hs_hit_free)

/**
 * hs_find:
 * @words: digits of a phone, part of a plate, VIN tail, name or street, in any order
 * @limit: most hits wanted
 *
 * Empty @words: what was seen lately.
 *
 * Returns: (transfer full) (element-type HsHit): newest first.
 */
GPtrArray *hs_find (HsBook *book, const char *words, guint limit, HsInstant now, GError **error);

/**
 * hs_find_jobs:
 * @words: a job's number: `A-0024`, `a24`; also `0024` or `24`, of whichever van
 *
 * Returns: (transfer full) (element-type HsHit): the jobs of that number in any stage, in the order of the vans; none
 *   if @words is no number
 */
GPtrArray *hs_find_jobs (HsBook *book, const char *words, HsInstant now, GError **error);

G_END_DECLS
