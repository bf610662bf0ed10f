// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-book.h"
#include "hs-date.h"

G_BEGIN_DECLS

/* Whether the vehicle that stands there is the one on record: plate, VIN, odometer; and whether the complaint was seen
 * to happen. Each is one transaction. */

/* How many of the last signs of a VIN are read off it at least. */
#define HS_IDENTITY_VIN_TAIL 6

/* How many are still an end; more are a VIN that was not read whole. */
#define HS_IDENTITY_VIN_LONGEST_TAIL 8

/**
 * HsIdentity:
 * @vehicle_id: (nullable): not known yet
 * @plate, @plate_state, @vehicle: (nullable): of the vehicle on record
 * @vin: (nullable): on record, whole or its end
 * @unit: of the odometer, `mi` or `km`
 * @odometer: read on this job, or %HS_INT_NONE
 * @doubted: (nullable): why that reading does not count
 * @last_value: the newest reading that counts from before this job, or %HS_INT_NONE
 * @last_on: its day, or %HS_DATE_NONE
 * @a_day_tenths: tenths of a unit driven a day since then, or %HS_INT_NONE
 * @saw_it: (nullable): `yes`, `no`
 * @words: the complaint as the caller said it
 */
typedef struct
{
  char *vehicle_id;
  char *plate;
  char *plate_state;
  char *vehicle;
  char *vin;
  char *unit;
  gint64 odometer;
  char *doubted;
  gint64 last_value;
  HsDate last_on;
  gint64 a_day_tenths;
  char *saw_it;
  char *words;
} HsIdentity;

void hs_identity_free (HsIdentity *identity);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsIdentity, hs_identity_free)

/** hs_identity_load: (transfer full) (nullable): reads only. */
HsIdentity *hs_identity_load (HsBook *book, const char *job_id, GError **error);

/**
 * HsIdentified:
 * @HS_IDENTIFIED_AGREES: it is what stands on record
 * @HS_IDENTIFIED_WRITTEN: nothing or less was on record; now this is
 * @HS_IDENTIFIED_CORRECTED: the record said something else; now it says this, and why
 */
typedef enum
{
  HS_IDENTIFIED_AGREES,
  HS_IDENTIFIED_WRITTEN,
  HS_IDENTIFIED_CORRECTED,
} HsIdentified;

/**
 * hs_identify_plate:
 * @why: (nullable): why the vehicle on record carries another plate now; then the old one is kept as an old plate
 * @ret_how: (out) (optional)
 *
 * A job without a vehicle gets the one of that plate, a new one if the book does not know it. Refuses a plate that the
 * vehicle of the job does not carry, unless @why; and always the plate of another vehicle.
 */
gboolean hs_identify_plate (HsBook *book, const char *job_id, const char *plate, const char *why, HsInstant now,
                            HsIdentified *ret_how, GError **error);

/**
 * hs_identify_vin:
 * @vin: all of it, or its last six signs, up to eight; more are asked about unless they end a VIN on record, or the
 *   vehicle is older than VINs of 17 signs
 * @why: (nullable): why the record is wrong, or why a VIN is right in spite of its check digit
 * @ret_how: (out) (optional)
 */
gboolean hs_identify_vin (HsBook *book, const char *job_id, const char *vin, const char *why, HsInstant now,
                          HsIdentified *ret_how, GError **error);

/**
 * hs_identify_odometer:
 * @text: "104500", "104,500", "104500 mi"
 * @why: (nullable): why it may stand although it fell or jumped; it does not count then
 *
 * Another reading on the same job takes the place of the first.
 */
gboolean hs_identify_odometer (HsBook *book, const char *job_id, const char *text, const char *why, HsInstant now,
                               GError **error);

/** hs_identify_saw_it: @saw_it: `yes`, `no`; %NULL: not said. */
gboolean hs_identify_saw_it (HsBook *book, const char *job_id, const char *saw_it, HsInstant now, GError **error);

G_END_DECLS
