// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Gathers what the book knows of drives between the places of a day and makes tables of it. Use it while a day is built
 * and where it turns out at what time of day each drive falls.
 */

#include "hs-day-drives.h"

#include <string.h>

/* The area that a place lies in: itself, if it is one. */
static const char *
area_of (const HsDayFacts *facts, const char *place)
{
  const HsDayArea *area = hs_day_facts_find_area (facts, place);

  return area != NULL && area->within != NULL ? area->within : place;
}

static gboolean
is_placed (const HsDayFacts *facts, const char *place)
{
  const HsDayArea *area = hs_day_facts_find_area (facts, place);

  return area != NULL && area->has_position;
}

gboolean
hs_day_drives_known (const HsDayFacts *facts, const char *a, const char *b)
{
  const char *area_a = area_of (facts, a);
  const char *area_b = area_of (facts, b);

  return g_str_equal (area_a, area_b) || (is_placed (facts, a) && is_placed (facts, b))
         || hs_day_facts_know_road (facts, area_a, area_b);
}

/* What is known ---------------------------------------------------------------------------------------------------- */

static const char *
place_at (const HsDayBuild *build, guint i)
{
  return g_ptr_array_index (build->places, i);
}

static void
add_pair (GArray *pairs, guint from, guint to, const HsDayRoad *road)
{
  HsTravelPair pair = { from, to, (gint32) road->seconds, road->millimiles, road->samples, road->source };

  g_array_append_val (pairs, pair);
}

/* (transfer container): the area of each place, looked up once for years of trips. */
static const char **
areas_of_places (const HsDayBuild *build)
{
  const char **areas = g_new (const char *, build->places->len + 1);

  for (guint i = 0; i < build->places->len; i++)
    areas[i] = area_of (build->facts, place_at (build, i));
  return areas;
}

/* A road between two areas, for the places in them. Over the map it does not lead from an area into the same one. */
static void
add_area_road (const HsDayBuild *build, const char *const *areas, GArray *pairs, const HsDayRoad *road)
{
  if (road->source == HS_TRAVEL_ROADS && g_str_equal (road->from, road->to))
    return;
  for (guint i = 0; i < build->places->len; i++)
    for (guint j = 0; j < build->places->len && g_str_equal (areas[i], road->from); j++)
      if (g_str_equal (areas[j], road->to))
        add_pair (pairs, i, j, road);
}

/* Two places in one area, of which at least one has no position: a hop, unless something better is known. */
static void
add_hops (const HsDayBuild *build, GArray *pairs)
{
  const HsTravelRules *rules = &build->facts->travel;
  const HsDayRoad hop = { .seconds = rules->hop_seconds, .millimiles = rules->hop_millimiles,
                          .source = HS_TRAVEL_GUESS };

  for (guint i = 0; i < build->places->len; i++)
    for (guint j = 0; j < build->places->len; j++)
      if (i != j
          && g_str_equal (area_of (build->facts, place_at (build, i)), area_of (build->facts, place_at (build, j)))
          && !(is_placed (build->facts, place_at (build, i)) && is_placed (build->facts, place_at (build, j))))
        add_pair (pairs, i, j, &hop);
}

/* The last of a kind counts, so that what is known of the very places comes after what is known of their areas. */
static GArray *
known_pairs (const HsDayBuild *build)
{
  const GPtrArray *roads = build->facts->roads;
  g_autofree const char **areas = areas_of_places (build);
  GArray *pairs = g_array_new (FALSE, TRUE, sizeof (HsTravelPair));

  add_hops (build, pairs);
  for (guint k = 0; k < roads->len; k++)
    add_area_road (build, areas, pairs, g_ptr_array_index (roads, k));
  for (guint k = 0; k < roads->len; k++)
    {
      const HsDayRoad *road = g_ptr_array_index (roads, k);
      int from = hs_day_build_place (build, road->from);
      int to = hs_day_build_place (build, road->to);

      if (from >= 0 && to >= 0)
        add_pair (pairs, (guint) from, (guint) to, road);
    }
  return pairs;
}

/* Own trips, for all places in the areas that they joined. */
static GArray *
known_trips (const HsDayBuild *build)
{
  g_autofree const char **areas = areas_of_places (build);
  GArray *trips = g_array_new (FALSE, TRUE, sizeof (HsTravelTrip));

  for (guint k = 0; k < build->facts->trips->len; k++)
    {
      const HsOwnTrip *own = g_ptr_array_index (build->facts->trips, k);

      for (guint i = 0; i < build->places->len; i++)
        for (guint j = 0; j < build->places->len && g_str_equal (areas[i], own->from); j++)
          {
            HsTravelTrip trip = { i, j, own->band, (gint32) own->seconds, own->millimiles };

            if (g_str_equal (areas[j], own->to))
              g_array_append_val (trips, trip);
          }
    }
  return trips;
}

static HsTravelPlace *
known_places (const HsDayBuild *build)
{
  HsTravelPlace *places = g_new0 (HsTravelPlace, build->places->len);

  for (guint i = 0; i < build->places->len; i++)
    {
      const HsDayArea *area = hs_day_facts_find_area (build->facts, place_at (build, i));

      places[i].code = place_at (build, i);
      places[i].has_position = area != NULL && area->has_position;
      places[i].latitude = area != NULL ? area->latitude : 0;
      places[i].longitude = area != NULL ? area->longitude : 0;
    }
  return places;
}

/* The times of day to begin with ------------------------------------------------------------------------------ */

/* No band is longer, and none comes again so soon. */
#define LONGEST_BAND_SECONDS (11 * 3600)

static int
band_at (const HsDayFacts *facts, HsInstant at)
{
  int seconds;

  hs_instant_to_local (facts->zone, at, NULL, &seconds);
  return hs_travel_band (seconds);
}

/* The time of day that a window promises, if all of it but its last instant is of one. */
static int
window_band (const HsDayFacts *facts, const HsDayCall *call)
{
  int band;

  if (call->window_from == HS_INSTANT_NONE || call->window_to == HS_INSTANT_NONE
      || call->window_to - call->window_from > LONGEST_BAND_SECONDS)
    return HS_TRAVEL_ANY_BAND;
  band = band_at (facts, call->window_from);
  return band == band_at (facts, MAX (call->window_from, call->window_to - 1)) ? band : HS_TRAVEL_ANY_BAND;
}

/* When each place is driven to, by the clock on the wall: as its calls agree. Counters and the base may be any time. */
static int *
place_bands (const HsDayBuild *build)
{
  int *bands = g_new (int, build->places->len);
  g_autofree gboolean *seen = g_new0 (gboolean, build->places->len);

  for (guint i = 0; i < build->places->len; i++)
    bands[i] = HS_TRAVEL_ANY_BAND;
  for (guint i = 0; i < build->refs->len; i++)
    {
      const HsDayStopRef *ref = &g_array_index (build->refs, HsDayStopRef, i);
      int place = hs_day_build_place (build, hs_day_ref_place (ref));
      int band = ref->call != NULL ? window_band (build->facts, ref->call) : HS_TRAVEL_ANY_BAND;

      bands[place] = seen[place] && bands[place] != band ? HS_TRAVEL_ANY_BAND : band;
      seen[place] = TRUE;
    }
  bands[0] = HS_TRAVEL_ANY_BAND;
  return bands;
}

/* Tables ----------------------------------------------------------------------------------------------------------- */

static gboolean
same_drives (const HsTravel *a, const HsTravel *b)
{
  for (guint cell = 0; cell < a->n_places * a->n_places; cell++)
    if (a->legs[cell].seconds != b->legs[cell].seconds || a->legs[cell].millimiles != b->legs[cell].millimiles)
      return FALSE;
  return TRUE;
}

/* Where it is the same at each time of day, that is what to begin with. */
static void
forget_hours (HsDayBuild *build)
{
  gsize size = build->travel->n_places * build->travel->n_places * sizeof (HsTravelLeg);

  memcpy (build->travel->legs, build->hours[0]->legs, size);
  memcpy (build->begun->legs, build->hours[0]->legs, size);
  for (guint band = 0; band < HS_TRAVEL_N_BANDS; band++)
    g_clear_pointer (&build->hours[band], hs_travel_free);
}

static gboolean
fill_hours (HsDayBuild *build, HsTravelKnown *known, GError **error)
{
  gboolean same = TRUE;

  if (known->n_trips == 0)
    return TRUE;
  known->place_bands = NULL;
  for (int band = 0; band < HS_TRAVEL_N_BANDS; band++)
    {
      known->band = band;
      if (!hs_travel_fill (known, &build->facts->travel, &build->hours[band], error))
        return FALSE;
      same = same && same_drives (build->hours[0], build->hours[band]);
    }
  if (same)
    forget_hours (build);
  return TRUE;
}

gboolean
hs_day_drives_fill (HsDayBuild *build, GError **error)
{
  g_autofree int *bands = place_bands (build);
  g_autofree HsTravelPlace *places = known_places (build);
  g_autoptr (GArray) trips = known_trips (build);
  g_autoptr (GArray) pairs = known_pairs (build);
  HsTravelKnown known = { .places = places, .n_places = build->places->len, .band = HS_TRAVEL_ANY_BAND };

  known.place_bands = bands;
  known.n_trips = trips->len;
  known.trips = (const HsTravelTrip *) (gpointer) trips->data;
  known.n_pairs = pairs->len;
  known.pairs = (const HsTravelPair *) (gpointer) pairs->data;
  return hs_travel_fill (&known, &build->facts->travel, &build->travel, error)
         && hs_travel_fill (&known, &build->facts->travel, &build->begun, error) && fill_hours (build, &known, error);
}

gboolean
hs_day_drives_tell_hours (const HsDayBuild *build)
{
  return build->hours[0] != NULL;
}

static const HsTravel *
slowest (const HsDayBuild *build, guint8 left, guint cell)
{
  const HsTravel *slowest = NULL;

  for (guint band = 0; band < HS_TRAVEL_N_BANDS; band++)
    if ((left & (1u << band)) != 0
        && (slowest == NULL || build->hours[band]->legs[cell].seconds > slowest->legs[cell].seconds))
      slowest = build->hours[band];
  return slowest != NULL ? slowest : build->begun;
}

static void
apply (HsDayBuild *build)
{
  if (build->day != NULL)
    hs_travel_apply (build->travel, build->day);
}

void
hs_day_drives_set (HsDayBuild *build, const guint8 *left)
{
  guint n = build->travel->n_places;

  g_return_if_fail (hs_day_drives_tell_hours (build));
  for (guint cell = 0; cell < n * n; cell++)
    build->travel->legs[cell] = slowest (build, left[cell / n], cell)->legs[cell];
  apply (build);
}

static HsTravelLeg
fastest (const HsDayBuild *build, guint8 left, guint cell)
{
  HsTravelLeg least = { 0 };
  gboolean found = FALSE;

  for (guint band = 0; band < HS_TRAVEL_N_BANDS; band++)
    {
      const HsTravelLeg *leg = &build->hours[band]->legs[cell];

      if (left != 0 && (left & (1u << band)) == 0)
        continue;
      if (!found)
        least = *leg;
      least.seconds = MIN (least.seconds, leg->seconds);
      least.millimiles = MIN (least.millimiles, leg->millimiles);
      found = TRUE;
    }
  return least;
}

void
hs_day_drives_set_fastest (HsDayBuild *build, const guint8 *left)
{
  guint n = build->travel->n_places;

  g_return_if_fail (hs_day_drives_tell_hours (build));
  for (guint cell = 0; cell < n * n; cell++)
    build->travel->legs[cell] = fastest (build, left[cell / n], cell);
  apply (build);
}
