// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Bring a doubtful part along, or drive twice if it is needed: expected cost against expected cost, with the owner's
 * own count of how often it was needed. Refuses to weigh where there is nothing to weigh. */

#include "hs-bring.h"

#include "hs-core-error.h"

#include <math.h>

/* An exact half of a cent that floating point left a hair below is still a half. */
#define HAIR 1e-7
/* More cents than this are no longer told exactly. */
#define MOST_CENTS 1e15

static gboolean
refuse (GError **error, const char *reason)
{
  g_set_error_literal (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE, reason);
  return FALSE;
}

static gint64
half_up (double cents)
{
  double whole = floor (fabs (cents) + 0.5 + HAIR);

  return (gint64) (cents < 0 ? -whole : whole);
}

gboolean
hs_bring_weigh (const HsBringQuestion *question, HsBringAnswer *ret_answer, GError **error)
{
  HsBringAnswer answer = { 0 };
  double gain;

  if (question->hits > question->cases)
    return refuse (error, "hits: a part cannot have been needed more often than there were cases");
  if (question->weight + question->cases <= 0)
    return refuse (error, "weight: without any case the guess must count for something");
  answer.p = (question->guess * question->weight + question->hits) / (question->weight + question->cases);
  answer.vain_cents = question->restock_percent / 100 * question->cost_cents
                      + question->return_minutes * question->minute_cents;
  answer.trip_cents = question->trip_minutes * question->minute_cents + question->trip_miles * question->mile_cents;
  if (answer.vain_cents + answer.trip_cents <= 0)
    return refuse (error, "trip_minutes: if neither way costs anything there is nothing to weigh");
  answer.line = answer.vain_cents / (answer.vain_cents + answer.trip_cents);
  answer.bring = answer.p > answer.line;
  gain = answer.p * answer.trip_cents - (1 - answer.p) * answer.vain_cents;
  if (fabs (gain) > MOST_CENTS)
    return refuse (error, "cost: the amounts are too large to be money: check them for a slipped digit");
  answer.gain_cents = half_up (gain);
  *ret_answer = answer;
  return TRUE;
}
