// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * How long a drive takes, asked outside of a day's plan, and how good the answers are. Reads only. The plan of a day
 * puts the same question through hs-day-build.c.
 */

#include "hs-travel-op.h"

#include "hs-area-row.h"
#include "hs-own-trip.h"
#include "hs-settings-op.h"
#include "hs-travel-own.h"

void
hs_known_drive_free (HsKnownDrive *drive)
{
  if (drive == NULL)
    return;
  hs_spot_free (drive->from);
  hs_spot_free (drive->to);
  g_free (drive);
}

gboolean
hs_travel_rules_load (HsBook *book, HsTravelRules *ret_rules, GError **error)
{
  HsTravelRules rules = HS_TRAVEL_RULES_INIT;
  const struct
  {
    const char *key;
    gint32 *value;
    gint32 unit;
  } keys[] = {
    { "short_meters", &rules.short_meters, 1 },
    { "long_meters", &rules.long_meters, 1 },
    { "short_detour_percent", &rules.short_detour_percent, 1 },
    { "detour_percent", &rules.detour_percent, 1 },
    { "short_kmh", &rules.short_kmh, 1 },
    { "medium_kmh", &rules.medium_kmh, 1 },
    { "long_kmh", &rules.long_kmh, 1 },
    { "hop_minutes", &rules.hop_seconds, 60 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    {
      gint64 value;

      if (!hs_settings_get_int (book, keys[i].key, &value, error))
        return FALSE;
      *keys[i].value = (gint32) value * keys[i].unit;
    }
  if (!hs_settings_get_scaled (book, "hop_miles", 3, &rules.hop_millimiles, error))
    return FALSE;
  *ret_rules = rules;
  return TRUE;
}

/* Two places ------------------------------------------------------------------------------------------------------- */

/* What the book knows of drives, loaded once however many are asked for.
 * @trips: (element-type HsOwnTrip); @tabled: (element-type HsTravelRow) */
typedef struct
{
  HsTravelRules rules;
  HsRoadBook *roads;
  GPtrArray *trips;
  GPtrArray *tabled;
} Drives;

static gboolean
drives_load (Drives *drives, HsBook *book, GError **error)
{
  drives->roads = hs_road_book_load (book, error);
  return drives->roads != NULL && hs_travel_rules_load (book, &drives->rules, error)
         && hs_own_trip_list (book, &drives->trips, error)
         && hs_travel_row_list (hs_book_get_store (book), &drives->tabled, error);
}

static void
drives_clear (Drives *drives)
{
  hs_road_book_free (drives->roads);
  g_clear_pointer (&drives->trips, g_ptr_array_unref);
  g_clear_pointer (&drives->tabled, g_ptr_array_unref);
}

/* What is known between two places: 0 stands for the first and 1 for the second. */
typedef struct
{
  HsTravelPlace places[2];
  GArray *pairs;
  GArray *trips;
} Between;

static void
between_init (Between *between, const HsSpot *from, const HsSpot *to)
{
  const HsSpot *ends[] = { from, to };

  for (guint i = 0; i < G_N_ELEMENTS (ends); i++)
    between->places[i] = (HsTravelPlace) { ends[i]->name, ends[i]->has_position, ends[i]->latitude,
                                           ends[i]->longitude };
  between->pairs = g_array_new (FALSE, FALSE, sizeof (HsTravelPair));
  between->trips = g_array_new (FALSE, FALSE, sizeof (HsTravelTrip));
}

static void
between_clear (Between *between)
{
  g_array_unref (between->pairs);
  g_array_unref (between->trips);
}

/* TRUE if a drive from @a to @b is one from @from to @to, or with @turned one back. */
static gboolean
joins (const char *a, const char *b, const HsSpot *from, const HsSpot *to, gboolean turned)
{
  const HsSpot *first = turned ? to : from;
  const HsSpot *second = turned ? from : to;

  return g_strcmp0 (a, first->area) == 0 && g_strcmp0 (b, second->area) == 0;
}

static void
add_trip (Between *between, const HsOwnTrip *trip, const HsSpot *from, const HsSpot *to)
{
  HsTravelTrip told = { 0, 1, trip->band, (gint32) trip->seconds, trip->millimiles };

  if (!joins (trip->from, trip->to, from, to, FALSE))
    {
      if (!joins (trip->from, trip->to, from, to, TRUE))
        return;
      told.from = 1;
      told.to = 0;
    }
  g_array_append_val (between->trips, told);
}

static void
add_tabled (Between *between, const HsTravelRow *row, const HsSpot *from, const HsSpot *to)
{
  HsTravelPair pair = { 0, 1, (gint32) row->seconds, row->millimiles, (guint) row->samples, HS_TRAVEL_TABLED };

  if (joins (row->from_id, row->to_id, from, to, FALSE) || joins (row->from_id, row->to_id, from, to, TRUE))
    g_array_append_val (between->pairs, pair);
}

static HsTravelKnown
known_between (const Between *between, int band)
{
  return (HsTravelKnown) { .places = between->places,
                           .n_places = 2,
                           .pairs = (const HsTravelPair *) (gconstpointer) between->pairs->data,
                           .n_pairs = between->pairs->len,
                           .trips = (const HsTravelTrip *) (gconstpointer) between->trips->data,
                           .n_trips = between->trips->len,
                           .band = band };
}

/* The same spot is a hop; two spots in one area have the way between them, if both are known. */
static gboolean
is_one_spot (const HsSpot *from, const HsSpot *to)
{
  if (from->has_position && to->has_position)
    return from->latitude == to->latitude && from->longitude == to->longitude;
  return from->area != NULL && g_strcmp0 (from->area, to->area) == 0;
}

static void
add_driven (Between *between, const HsRoadBook *roads, const HsSpot *from, const HsSpot *to)
{
  HsTravelPair pair;

  if (!from->has_position || !to->has_position)
    return;
  if (hs_road_book_find (roads, to->latitude, to->longitude, from->latitude, from->longitude, &pair))
    {
      pair.from = 1;
      pair.to = 0;
      g_array_append_val (between->pairs, pair);
    }
  if (hs_road_book_find (roads, from->latitude, from->longitude, to->latitude, to->longitude, &pair))
    g_array_append_val (between->pairs, pair);
}

/* The way between @from and @to and all that is known about it. */
static void
gather (Between *between, const Drives *drives, const HsSpot *from, const HsSpot *to)
{
  HsTravelPair hop = { 0, 1, drives->rules.hop_seconds, drives->rules.hop_millimiles, 0, HS_TRAVEL_GUESS };

  if (is_one_spot (from, to))
    g_array_append_val (between->pairs, hop);
  else
    add_driven (between, drives->roads, from, to);
  if (from->area == NULL || to->area == NULL)
    return;
  for (guint i = 0; i < drives->trips->len; i++)
    add_trip (between, g_ptr_array_index (drives->trips, i), from, to);
  for (guint i = 0; i < drives->tabled->len; i++)
    add_tabled (between, g_ptr_array_index (drives->tabled, i), from, to);
}

static gboolean
ask_between (HsBook *book, HsKnownDrive *drive, int band, GError **error)
{
  g_autoptr (HsTravel) travel = NULL;
  Drives drives = { 0 };
  gboolean told = drives_load (&drives, book, error);

  if (told)
    {
      HsTravelKnown known;
      Between between;

      between_init (&between, drive->from, drive->to);
      gather (&between, &drives, drive->from, drive->to);
      known = known_between (&between, band);
      told = hs_travel_fill (&known, &drives.rules, &travel, error);
      between_clear (&between);
    }
  drives_clear (&drives);
  if (told)
    drive->leg = hs_travel_get_leg (travel, 0, 1);
  return told;
}

HsKnownDrive *
hs_known_drive_ask (HsBook *book, const char *from, const char *to, int at_minutes, const HsRoadSource *source,
                    HsInstant now, GError **error)
{
  g_autoptr (HsKnownDrive) drive = g_new0 (HsKnownDrive, 1);
  int band = at_minutes < 0 ? HS_TRAVEL_ANY_BAND : hs_travel_band (60 * (at_minutes % HS_MINUTES_PER_DAY));

  drive->from = hs_spot_find (book, from, error);
  drive->to = drive->from == NULL ? NULL : hs_spot_find (book, to, error);
  if (drive->to == NULL
      || (source != NULL && !hs_road_drive (book, source, drive->from, drive->to, now, error))
      || !ask_between (book, drive, band, error))
    return NULL;
  return g_steal_pointer (&drive);
}

/* Accuracy --------------------------------------------------------------------------------------------------------- */

/* @spots: the areas of own trips, by code */
typedef struct
{
  Drives drives;
  GHashTable *spots;
  HsTravelScore score;
} Trial;

static gboolean
is_pair (const HsOwnTrip *a, const HsOwnTrip *b)
{
  return (g_str_equal (a->from, b->from) && g_str_equal (a->to, b->to))
         || (g_str_equal (a->from, b->to) && g_str_equal (a->to, b->from));
}

/* The first trip of a pair of areas stands for all of them. */
static gboolean
is_first_of_pair (const GPtrArray *trips, guint index)
{
  for (guint i = 0; i < index; i++)
    if (is_pair (g_ptr_array_index (trips, i), g_ptr_array_index (trips, index)))
      return FALSE;
  return TRUE;
}

/* Each area once. */
static gboolean
find_spot (Trial *trial, HsBook *book, const char *code, GError **error)
{
  HsSpot *spot;

  if (g_hash_table_contains (trial->spots, code))
    return TRUE;
  spot = hs_spot_find (book, code, error);
  if (spot != NULL)
    g_hash_table_insert (trial->spots, g_strdup (code), spot);
  return spot != NULL;
}

static gboolean
try_pair (Trial *trial, HsBook *book, const HsOwnTrip *trip, GError **error)
{
  const HsSpot *from, *to;
  HsTravelKnown known;
  Between between;
  gboolean done;

  if (!find_spot (trial, book, trip->from, error) || !find_spot (trial, book, trip->to, error))
    return FALSE;
  from = g_hash_table_lookup (trial->spots, trip->from);
  to = g_hash_table_lookup (trial->spots, trip->to);
  between_init (&between, from, to);
  gather (&between, &trial->drives, from, to);
  known = known_between (&between, HS_TRAVEL_ANY_BAND);
  done = hs_travel_score_add (&trial->score, &known, &trial->drives.rules, error);
  between_clear (&between);
  return done;
}

static void
sum_up (const Trial *trial, HsTravelAccuracy *accuracy)
{
  accuracy->trips = trial->drives.trips->len;
  for (guint i = 0; i <= HS_TRAVEL_OWN; i++)
    {
      accuracy->count[i] = trial->score.errors[i]->len;
      accuracy->off_seconds[i] = accuracy->count[i] == 0 ? -1 : hs_travel_median (trial->score.errors[i]);
    }
}

gboolean
hs_travel_accuracy (HsBook *book, HsTravelAccuracy *ret_accuracy, GError **error)
{
  g_autoptr (GHashTable) spots
      = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, (GDestroyNotify) hs_spot_free);
  Trial trial = { .spots = spots };
  gboolean done = drives_load (&trial.drives, book, error);

  hs_travel_score_init (&trial.score);
  for (guint i = 0; done && i < trial.drives.trips->len; i++)
    if (is_first_of_pair (trial.drives.trips, i))
      done = try_pair (&trial, book, g_ptr_array_index (trial.drives.trips, i), error);
  if (done)
    sum_up (&trial, ret_accuracy);
  hs_travel_score_clear (&trial.score);
  drives_clear (&trial.drives);
  return done;
}
