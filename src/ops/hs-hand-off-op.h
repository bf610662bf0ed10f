// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-book.h"

G_BEGIN_DECLS

/**
 * HsHandOff:
 * @customer: (nullable): the name
 * @phone: (nullable): the first number, as it was typed
 * @plate: (nullable): of the vehicle
 * @address: (nullable): street and area
 * @position: (nullable): `geo:…` of where the vehicle stands
 * @arrive: when the standing plan has her there; %HS_INSTANT_NONE
 * @cents: the priced lines with tax; 0: nothing is priced yet
 *
 * What of a job is worth having on the telephone.
 */
typedef struct
{
  char *number;
  char *customer;
  char *phone;
  char *plate;
  char *address;
  char *position;
  HsInstant arrive;
  gint64 cents;
} HsHandOff;

void hs_hand_off_free (HsHandOff *hand_off);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsHandOff, hs_hand_off_free)

/* hs_hand_off_load: (transfer full): of a job; %HS_STORE_ERROR_NOT_FOUND. */
HsHandOff *hs_hand_off_load (HsBook *book, const char *job_id, HsInstant now, GError **error);

G_END_DECLS
