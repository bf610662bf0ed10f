// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Roads by libroutino. Its map is made by its own splitter beside the old one's files, under a new name; the stamp
 * file, written last, says which name counts. The library's times are minutes, although its header says seconds; lists
 * of text without all points crash on ways without a name, so all points are asked for.
 */

#include "hs-roads.h"

#include <math.h>
#include <routino.h>
#include <string.h>

#define KM_PER_MILE 1.609344
#define STAMP_FILE "stamp"
#define PREFIX "map-"
#define STAMP_LETTERS 16

G_DEFINE_QUARK (hs-roads-error-quark, hs_roads_error)

struct _HsRoads
{
  char *stamp;
  Routino_Database *database;
  Routino_Profile *profile;
  Routino_Translation *words;
};

static gboolean G_GNUC_PRINTF (3, 4)
fail (GError **error, HsRoadsError code, const char *format, ...)
{
  va_list args;

  va_start (args, format);
  g_propagate_error (error, g_error_new_valist (HS_ROADS_ERROR, (int) code, format, args));
  va_end (args);
  return FALSE;
}

gboolean
hs_roads_are_built_in (void)
{
  return TRUE;
}

/* The map ---------------------------------------------------------------------------------------------------------- */

/* Of the extract's bytes, so that the same extract makes the same map. */
static gboolean
stamp_of (const char *extract, char **ret_stamp, GError **error)
{
  g_autoptr (GMappedFile) file = g_mapped_file_new (extract, FALSE, error);
  g_autoptr (GBytes) bytes = file == NULL ? NULL : g_mapped_file_get_bytes (file);
  g_autofree char *sum = NULL;

  if (bytes == NULL)
    return FALSE;
  sum = g_compute_checksum_for_bytes (G_CHECKSUM_SHA256, bytes);
  *ret_stamp = g_strndup (sum, STAMP_LETTERS);
  return TRUE;
}

char **
hs_roads_dup_splitter (const char *extract, const char *folder, char **ret_stamp, GError **error)
{
  g_autofree char *path = g_canonicalize_filename (extract, NULL);
  g_autofree char *stamp = NULL;
  char **words;

  if (!stamp_of (path, &stamp, error))
    return NULL;
  words = g_new0 (char *, 7);
  words[0] = g_strdup ("planetsplitter");
  words[1] = g_strconcat ("--dir=", folder, NULL);
  words[2] = g_strconcat ("--prefix=" PREFIX, stamp, NULL);
  words[3] = g_strdup ("--tagging=" HS_ROADS_DATA "/tagging.xml");
  words[4] = g_strdup ("--loggable");
  words[5] = g_steal_pointer (&path);
  *ret_stamp = g_steal_pointer (&stamp);
  return words;
}

static gboolean
run_splitter (char **words, const char *folder, GError **error)
{
  g_autofree char *said = NULL;
  int status = 0;

  if (!g_spawn_sync (folder, words, NULL, G_SPAWN_SEARCH_PATH | G_SPAWN_STDOUT_TO_DEV_NULL, NULL, NULL, NULL, &said,
                     &status, error))
    return FALSE;
  if (g_spawn_check_wait_status (status, NULL))
    return TRUE;
  g_strstrip (said);
  return fail (error, HS_ROADS_ERROR_FAILED, "The map could not be made: %s",
               *said == '\0' ? "planetsplitter gave up; is the file an OpenStreetMap extract?" : said);
}

static Routino_Database *
load_database (const char *folder, const char *stamp)
{
  g_autofree char *prefix = g_strconcat (PREFIX, stamp, NULL);

  return Routino_LoadDatabase (folder, prefix);
}

gboolean
hs_roads_take_map (const char *folder, const char *stamp, GError **error)
{
  g_autofree char *stamp_path = g_build_filename (folder, STAMP_FILE, NULL);
  Routino_Database *database = load_database (folder, stamp);

  if (database == NULL)
    return fail (error, HS_ROADS_ERROR_FAILED, "The extract has no road in it.");
  Routino_UnloadDatabase (database);
  return g_file_set_contents (stamp_path, stamp, -1, error);
}

gboolean
hs_roads_make_map (const char *extract, const char *folder, GError **error)
{
  g_autofree char *stamp = NULL;
  g_auto (GStrv) words = hs_roads_dup_splitter (extract, folder, &stamp, error);

  return words != NULL && run_splitter (words, folder, error) && hs_roads_take_map (folder, stamp, error);
}

gboolean
hs_roads_is_left_over (const char *folder, const char *name)
{
  g_autofree char *stamp_path = g_build_filename (folder, STAMP_FILE, NULL);
  g_autofree char *stamp = NULL;
  g_autofree char *present = NULL;

  if (g_str_has_suffix (name, ".tmp"))
    return TRUE;
  if (!g_str_has_prefix (name, PREFIX))
    return FALSE;
  /* Without a stamp no map counts. */
  if (!g_file_get_contents (stamp_path, &stamp, NULL, NULL))
    return TRUE;
  present = g_strconcat (PREFIX, g_strstrip (stamp), "-", NULL);
  return !g_str_has_prefix (name, present);
}

gboolean
hs_roads_has_map (const char *folder)
{
  g_autofree char *stamp_path = g_build_filename (folder, STAMP_FILE, NULL);

  return g_file_test (stamp_path, G_FILE_TEST_EXISTS);
}

/* Driving ---------------------------------------------------------------------------------------------------------- */

/* Profiles and words stay with the library once they are read. */
static gboolean
load_rules (HsRoads *roads, GError **error)
{
  if (Routino_CheckAPIVersion () != ROUTINO_ERROR_NONE)
    return fail (error, HS_ROADS_ERROR_FAILED, "The router is of another version than this program.");
  if (Routino_GetProfile (HS_ROADS_PROFILE) == NULL && Routino_ParseXMLProfiles (HS_ROADS_DATA "/profiles.xml") != 0)
    return fail (error, HS_ROADS_ERROR_FAILED, "%s cannot be read.", HS_ROADS_DATA "/profiles.xml");
  if (Routino_GetTranslation ("en") == NULL
      && Routino_ParseXMLTranslations (HS_ROADS_DATA "/translations.xml") != 0)
    return fail (error, HS_ROADS_ERROR_FAILED, "%s cannot be read.", HS_ROADS_DATA "/translations.xml");
  roads->profile = Routino_GetProfile (HS_ROADS_PROFILE);
  roads->words = Routino_GetTranslation ("en");
  if (roads->profile == NULL || roads->words == NULL || Routino_ValidateProfile (roads->database, roads->profile) != 0)
    return fail (error, HS_ROADS_ERROR_FAILED, "The map does not go with the profile %s.", HS_ROADS_PROFILE);
  return TRUE;
}

HsRoads *
hs_roads_open (const char *folder, GError **error)
{
  g_autoptr (HsRoads) roads = g_new0 (HsRoads, 1);
  g_autofree char *stamp_path = g_build_filename (folder, STAMP_FILE, NULL);

  if (g_file_get_contents (stamp_path, &roads->stamp, NULL, NULL))
    roads->database = load_database (folder, g_strstrip (roads->stamp));
  if (roads->database == NULL)
    {
      fail (error, HS_ROADS_ERROR_NO_MAP, "There is no map in %s: make one from an OpenStreetMap extract.", folder);
      return NULL;
    }
  return load_rules (roads, error) ? g_steal_pointer (&roads) : NULL;
}

void
hs_roads_close (HsRoads *roads)
{
  if (roads == NULL)
    return;
  if (roads->database != NULL)
    Routino_UnloadDatabase (roads->database);
  g_free (roads->stamp);
  g_free (roads);
}

const char *
hs_roads_get_stamp (const HsRoads *roads)
{
  return roads->stamp;
}

static gboolean
route (HsRoads *roads, Routino_Waypoint **ends, gboolean *ret_found, gint64 *ret_seconds, gint64 *ret_millimiles,
       GError **error)
{
  Routino_Output *points = Routino_CalculateRoute (roads->database, roads->profile, roads->words, ends, 2,
                                                   ROUTINO_ROUTE_QUICKEST | ROUTINO_ROUTE_LIST_TEXT_ALL, NULL);
  const Routino_Output *last = points;

  if (points == NULL && Routino_errno < ROUTINO_ERROR_NO_ROUTE_1)
    return fail (error, HS_ROADS_ERROR_FAILED, "The router gave up (%d).", Routino_errno);
  while (last != NULL && last->next != NULL)
    last = last->next;
  *ret_found = last != NULL;
  *ret_seconds = last == NULL ? 0 : (gint64) floor (last->time * 60.0 + 0.5);
  *ret_millimiles = last == NULL ? 0 : (gint64) floor (last->dist * 1000.0 / KM_PER_MILE + 0.5);
  if (points != NULL)
    Routino_DeleteRoute (points);
  return TRUE;
}

gboolean
hs_roads_drive (gpointer map, double from_latitude, double from_longitude, double to_latitude, double to_longitude,
                gboolean *ret_found, gint64 *ret_seconds, gint64 *ret_millimiles, GError **error)
{
  HsRoads *roads = map;
  Routino_Waypoint *ends[2];
  gboolean driven = TRUE;

  ends[0] = Routino_FindWaypoint (roads->database, roads->profile, from_latitude, from_longitude);
  ends[1] = Routino_FindWaypoint (roads->database, roads->profile, to_latitude, to_longitude);
  if (ends[0] != NULL && ends[1] != NULL)
    driven = route (roads, ends, ret_found, ret_seconds, ret_millimiles, error);
  else
    {
      *ret_found = FALSE;
      *ret_seconds = 0;
      *ret_millimiles = 0;
    }
  g_free (ends[0]);
  g_free (ends[1]);
  return driven;
}
