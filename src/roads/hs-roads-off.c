// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What a program says that was built without roads. */

#include "hs-roads.h"

G_DEFINE_QUARK (hs-roads-error-quark, hs_roads_error)

static gboolean
refuse (GError **error)
{
  g_set_error_literal (error, HS_ROADS_ERROR, HS_ROADS_ERROR_NOT_BUILT_IN,
                       "This program was built without roads; drives are told from own trips, your table and guesses.");
  return FALSE;
}

gboolean
hs_roads_are_built_in (void)
{
  return FALSE;
}

gboolean
hs_roads_make_map (const char *extract, const char *folder, GError **error)
{
  return refuse (error);
}

char **
hs_roads_dup_splitter (const char *extract, const char *folder, char **ret_stamp, GError **error)
{
  refuse (error);
  return NULL;
}

gboolean
hs_roads_take_map (const char *folder, const char *stamp, GError **error)
{
  return refuse (error);
}

gboolean
hs_roads_is_left_over (const char *folder, const char *name)
{
  return FALSE;
}

gboolean
hs_roads_has_map (const char *folder)
{
  return FALSE;
}

HsRoads *
hs_roads_open (const char *folder, GError **error)
{
  refuse (error);
  return NULL;
}

void
hs_roads_close (HsRoads *roads)
{
}

const char *
hs_roads_get_stamp (const HsRoads *roads)
{
  return "";
}

gboolean
hs_roads_drive (gpointer map, double from_latitude, double from_longitude, double to_latitude, double to_longitude,
                gboolean *ret_found, gint64 *ret_seconds, gint64 *ret_millimiles, GError **error)
{
  return refuse (error);
}
