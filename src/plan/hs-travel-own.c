// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Own trips against everything else. A pair of places is asked twice: for all its trips, then for those that go this
 * way at this time of day. From five trips on their median is the answer; fewer pull the answer before them toward it,
 * by a fifth a trip, at an hour by a fourth from the second on. Use it through hs_travel_fill ();
 * hs_travel_score_add () tells whether it is worth it.
 */

#include "hs-travel-own.h"

#include "hs-travel-private.h"

static int
compare_values (gconstpointer a, gconstpointer b)
{
  gint64 left = *(const gint64 *) a, right = *(const gint64 *) b;

  return left < right ? -1 : left > right;
}

/* Figures are kept in 200ths until the end: a median may end in a half, and is weighed in fifths, then in fourths. */
#define PARTS 200

static gint64
in_parts (GArray *values)
{
  g_array_sort (values, compare_values);
  return (g_array_index (values, gint64, (values->len - 1) / 2) + g_array_index (values, gint64, values->len / 2))
         * (PARTS / 2);
}

static gint64
rounded (gint64 parts)
{
  return (parts + PARTS / 2) / PARTS;
}

gint64
hs_travel_median (GArray *values)
{
  return rounded (in_parts (values));
}

void
hs_travel_own_init (HsTravelOwn *own, const HsTravelKnown *known, const HsTravelRules *rules)
{
  guint n_cells = known->n_places * known->n_places;

  own->known = known;
  own->rules = rules;
  own->held_out = G_MAXUINT;
  own->head = g_new (guint, n_cells);
  own->next = g_new (guint, MAX (known->n_trips, 1));
  for (guint i = 0; i < n_cells; i++)
    own->head[i] = G_MAXUINT;
  for (guint k = 0; k < known->n_trips; k++)
    {
      guint cell = known->trips[k].from * known->n_places + known->trips[k].to;

      own->next[k] = own->head[cell];
      own->head[cell] = k;
    }
}

void
hs_travel_own_clear (HsTravelOwn *own)
{
  g_clear_pointer (&own->head, g_free);
  g_clear_pointer (&own->next, g_free);
}

/* What the trips of one step say: times, and distances where they are known. */
typedef struct
{
  GArray *seconds;
  GArray *millimiles;
  guint told;
} Step;

static void
step_init (Step *step)
{
  step->seconds = g_array_new (FALSE, FALSE, sizeof (gint64));
  step->millimiles = g_array_new (FALSE, FALSE, sizeof (gint64));
  step->told = 0;
}

static void
step_clear (Step *step)
{
  g_array_unref (step->seconds);
  g_array_unref (step->millimiles);
}

static void
step_add (Step *step, gint64 seconds, gint64 millimiles)
{
  g_array_append_val (step->seconds, seconds);
  if (millimiles >= 0)
    g_array_append_val (step->millimiles, millimiles);
}

static void
step_add_cell (Step *step, const HsTravelOwn *own, guint from, guint to, int band)
{
  for (guint k = own->head[from * own->known->n_places + to]; k != G_MAXUINT; k = own->next[k])
    {
      const HsTravelTrip *trip = &own->known->trips[k];

      if (k == own->held_out || (band != HS_TRAVEL_ANY_BAND && trip->band != band))
        continue;
      step_add (step, trip->seconds, trip->millimiles);
      step->told++;
    }
}

/* @chance: how many of the trips say nothing yet, since they may be chance. It is before + (median - before) ×
 * (n - chance) / (5 - chance), exactly; the median itself from five on, or with nothing before it. */
static gint64
lean (GArray *values, gint64 chance, gboolean has_before, gint64 before)
{
  gint64 whole = HS_TRAVEL_SURE_SAMPLES - chance;
  gint64 n = has_before ? CLAMP ((gint64) values->len - chance, 0, whole) : whole;

  if (values->len == 0)
    return before;
  return (before * (whole - n) + in_parts (values) * n) / whole;
}

/* A drive on its way through the steps: @leg with its figures apart, in 200ths. */
typedef struct
{
  HsTravelLeg leg;
  gboolean is_known;
  gint64 seconds;
  gint64 millimiles;
} Blend;

static void
take_step (Blend *blend, Step *step, gint64 chance, const HsTravelRules *rules)
{
  HsTravelLeg *leg = &blend->leg;
  gboolean sure = step->seconds->len >= HS_TRAVEL_SURE_SAMPLES;

  if (step->told == 0)
    return;
  blend->seconds = lean (step->seconds, chance, blend->is_known, blend->seconds);
  if (!blend->is_known)
    blend->millimiles = PARTS * hs_travel_miles ((gint32) rounded (blend->seconds), rules->medium_kmh);
  blend->millimiles = lean (step->millimiles, chance, blend->is_known, blend->millimiles);
  if (step->told >= HS_TRAVEL_SURE_SAMPLES)
    leg->source = HS_TRAVEL_OWN;
  else if (!blend->is_known || (leg->source != HS_TRAVEL_OWN && (leg->source != HS_TRAVEL_TABLED || leg->guess)))
    leg->source = HS_TRAVEL_FEW;
  leg->guess = !sure && (leg->guess || !blend->is_known);
  blend->is_known = TRUE;
}

gboolean
hs_travel_own_blend (const HsTravelOwn *own, guint from, guint to, int band, const HsTravelLeg *before,
                     const HsTravelPair *tabled, HsTravelLeg *ret_leg)
{
  Blend blend = { { 0, 0, TRUE, HS_TRAVEL_FEW, HS_TRAVEL_OWN, 0, 0 }, before != NULL, 0, 0 };
  Step pair, way;

  if (before != NULL)
    blend = (Blend) { *before, TRUE, PARTS * (gint64) before->seconds, PARTS * before->millimiles };
  step_init (&pair);
  step_init (&way);
  step_add_cell (&pair, own, from, to, HS_TRAVEL_ANY_BAND);
  if (from != to)
    step_add_cell (&pair, own, to, from, HS_TRAVEL_ANY_BAND);
  for (guint i = 0; tabled != NULL && i < MIN (tabled->samples, 1000); i++)
    step_add (&pair, tabled->seconds, tabled->millimiles);
  take_step (&blend, &pair, 0, own->rules);
  if (band != HS_TRAVEL_ANY_BAND)
    step_add_cell (&way, own, from, to, band);
  take_step (&blend, &way, 1, own->rules);
  blend.leg.seconds = (gint32) rounded (blend.seconds);
  blend.leg.millimiles = rounded (blend.millimiles);
  blend.leg.trips = pair.told;
  blend.leg.hour_trips = way.told;
  step_clear (&pair);
  step_clear (&way);
  if (blend.is_known)
    *ret_leg = blend.leg;
  return blend.is_known;
}

/* Trips held out --------------------------------------------------------------------------------------------------- */

void
hs_travel_score_init (HsTravelScore *score)
{
  for (guint i = 0; i < G_N_ELEMENTS (score->errors); i++)
    score->errors[i] = g_array_new (FALSE, FALSE, sizeof (gint64));
}

void
hs_travel_score_clear (HsTravelScore *score)
{
  for (guint i = 0; i < G_N_ELEMENTS (score->errors); i++)
    g_clear_pointer (&score->errors[i], g_array_unref);
}

static void
note (HsTravelScore *score, HsTravelSource source, const HsTravelLeg *leg, const HsTravelTrip *trip)
{
  gint64 off = ABS ((gint64) leg->seconds - trip->seconds);

  g_array_append_val (score->errors[source], off);
}

/* The last pair of a source that joins the places; one this way goes before one the other way. */
static const HsTravelPair *
find_pair (const HsTravelKnown *known, HsTravelSource source, guint from, guint to)
{
  const HsTravelPair *found = NULL;

  for (guint k = 0; k < known->n_pairs; k++)
    {
      const HsTravelPair *pair = &known->pairs[k];
      gboolean straight = pair->from == from && pair->to == to;
      gboolean other = pair->from == to && pair->to == from;

      if (pair->source == source && (straight || (other && (found == NULL || found->from != from))))
        found = pair;
    }
  return found;
}

static void
score_trip (HsTravelScore *score, const HsTravelOwn *own, const HsTravelTrip *trip, const HsTravelRules *rules)
{
  const HsTravelKnown *known = own->known;
  const HsTravelSource sources[] = { HS_TRAVEL_GUESS, HS_TRAVEL_ROADS, HS_TRAVEL_TABLED };
  const HsTravelPair *tabled = find_pair (known, HS_TRAVEL_TABLED, trip->from, trip->to);
  gboolean has_before = FALSE;
  HsTravelLeg before, leg;

  for (guint i = 0; i < G_N_ELEMENTS (sources); i++)
    {
      const HsTravelPair *pair = find_pair (known, sources[i], trip->from, trip->to);

      if (pair != NULL)
        before = hs_travel_pair_leg (pair);
      else if (i > 0 || !hs_travel_guess_leg (known->places, trip->from, trip->to, rules, &before))
        continue;
      note (score, sources[i], &before, trip);
      has_before = TRUE;
    }
  if (hs_travel_own_blend (own, trip->from, trip->to, trip->band, has_before ? &before : NULL, tabled, &leg)
      && leg.trips > 0)
    note (score, leg.trips >= HS_TRAVEL_SURE_SAMPLES ? HS_TRAVEL_OWN : HS_TRAVEL_FEW, &leg, trip);
}

gboolean
hs_travel_score_add (HsTravelScore *score, const HsTravelKnown *known, const HsTravelRules *rules, GError **error)
{
  HsTravelOwn own;

  if (!hs_travel_check (known, rules, error))
    return FALSE;
  hs_travel_own_init (&own, known, rules);
  for (guint k = 0; k < known->n_trips; k++)
    {
      own.held_out = k;
      score_trip (score, &own, &known->trips[k], rules);
    }
  hs_travel_own_clear (&own);
  return TRUE;
}
