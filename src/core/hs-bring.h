// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * HsBringQuestion:
 * @guess: how likely the part is to be needed, 0 to 1, before anything was counted
 * @weight: how many cases that guess is worth, 0 or more
 * @hits: jobs like this that needed the part
 * @cases: jobs like this, not fewer than @hits; with @weight more than 0
 * @cost_cents: of the part
 * @restock_percent: what the counter keeps when it comes back unused
 * @return_minutes: for taking it back
 * @trip_minutes: a second trip
 * @trip_miles: the same
 * @minute_cents: what a minute costs
 * @mile_cents: what a mile costs
 *
 * Whether to bring a part that may not be needed. All are 0 or more.
 */
typedef struct
{
  double guess;
  double weight;
  double hits;
  double cases;
  double cost_cents;
  double restock_percent;
  double return_minutes;
  double trip_minutes;
  double trip_miles;
  double minute_cents;
  double mile_cents;
} HsBringQuestion;

/**
 * HsBringAnswer:
 * @p: how likely the part is to be needed: guess and count by their weight
 * @line: bring it if @p is above this: R ÷ (R + T)
 * @bring: @p is above @line
 * @vain_cents: R: what bringing it for nothing costs
 * @trip_cents: T: what a second trip costs
 * @gain_cents: what bringing it saves on average, p × T − (1 − p) × R, rounded once, halves away from zero
 */
typedef struct
{
  double p;
  double line;
  gboolean bring;
  double vain_cents;
  double trip_cents;
  gint64 gain_cents;
} HsBringAnswer;

/**
 * hs_bring_weigh:
 * @ret_answer: (out): untouched on failure
 * @error: return location, %HS_CORE_ERROR_BAD_VALUE
 *
 * Returns: %FALSE if there are more hits than cases, nothing to tell the likelihood from, or neither way costs anything
 */
gboolean hs_bring_weigh (const HsBringQuestion *question, HsBringAnswer *ret_answer, GError **error);

G_END_DECLS
