// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-book.h"
#include "hs-date.h"

G_BEGIN_DECLS

/**
 * HsBatteryFact:
 * @installed_on: the day, or %HS_DATE_NONE when not known
 * @age_months: whole months at the day asked, or -1
 * @known_by: id of how it is known (`we_installed_it`, `receipt`, `date_stamp`, `customer_says`, `not_known`)
 * @kind: `flooded`, `EFB`, `AGM`, `lithium`, `unknown`
 * @ah: ampere hours, 0 when not known
 * @cca: cold cranking amperes, 0 when not known
 * @maker: may be %NULL
 * @place: where it sits
 * @warranty_until: last day of cover, or %HS_DATE_NONE
 * @swapped: it stands in for another under warranty, whose first date counts
 * @job_number: the job that installed it, or %NULL
 * @say: one sentence to say to the caller
 *
 * The battery now on a vehicle.
 */
typedef struct
{
  HsDate installed_on;
  int age_months;
  char *known_by;
  char *kind;
  double ah;
  double cca;
  char *maker;
  char *place;
  HsDate warranty_until;
  gboolean swapped;
  char *job_number;
  char *say;
} HsBatteryFact;

void hs_battery_fact_free (HsBatteryFact *fact);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsBatteryFact, hs_battery_fact_free)

/** hs_battery_fact_load: the battery now on a vehicle at the day @today; %NULL without @error: none is known. */
HsBatteryFact *hs_battery_fact_load (HsBook *book, const char *vehicle_id, HsDate today, GError **error);

G_END_DECLS
