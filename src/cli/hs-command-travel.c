// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* `travel`: how long and how far a drive is and how that is known; a drive that was, written down; how far off what was
 * foretold has been; and the map whose roads are driven on. */

#include "hs-cli.h"

#include "hs-cli-roads.h"
#include "hs-decimal.h"
#include "hs-desk-op.h"
#include "hs-geo.h"
#include "hs-travel-op.h"

#include <glib/gi18n.h>

/* The best first. */
static const HsTravelSource sources[]
    = { HS_TRAVEL_OWN, HS_TRAVEL_FEW, HS_TRAVEL_TABLED, HS_TRAVEL_ROADS, HS_TRAVEL_GUESS };

static const char *
source_label (HsTravelSource source)
{
  switch (source)
    {
    case HS_TRAVEL_OWN:
      return _("own trips");
    case HS_TRAVEL_FEW:
      return _("a few own trips");
    case HS_TRAVEL_TABLED:
      return _("your table");
    case HS_TRAVEL_ROADS:
      return _("roads");
    case HS_TRAVEL_GUESS:
      return _("guess");
    }
  g_assert_not_reached ();
}

/* Minutes with one decimal. */
static char *
minutes_text (gint64 seconds)
{
  gint64 tenths = 0;

  return hs_ratio_half_up (seconds, 1, 6, &tenths) ? hs_decimal_format_short (tenths, 1) : g_strdup ("–");
}

static void
write_drive (const HsKnownDrive *drive)
{
  g_autoptr (HsJsonOut) out = hs_json_out_new ();

  hs_json_out_begin_object (out, NULL);
  hs_json_out_string (out, "from", drive->from->name);
  hs_json_out_string (out, "to", drive->to->name);
  hs_cli_json_minutes (out, "minutes", drive->leg.seconds);
  hs_json_out_decimal (out, "miles", drive->leg.millimiles, 3);
  hs_json_out_string (out, "source", hs_travel_source_id (drive->leg.source));
  hs_json_out_integer (out, "trips", drive->leg.trips);
  hs_json_out_integer (out, "hour_trips", drive->leg.hour_trips);
  hs_json_out_string (out, "leans_on", drive->leg.trips < HS_TRAVEL_SURE_SAMPLES && drive->leg.base != HS_TRAVEL_OWN
                                         ? hs_travel_source_id (drive->leg.base) : NULL);
  hs_json_out_boolean (out, "guess", drive->leg.guess);
  hs_json_out_end_object (out);
  hs_cli_print_json (out);
}

static void
print_drive (const HsKnownDrive *drive)
{
  g_autofree char *minutes = minutes_text (drive->leg.seconds);
  g_autofree char *miles = hs_cli_miles_text (drive->leg.millimiles);
  g_autofree char *source = hs_cli_drive_text (&drive->leg);

  hs_cli_print (_("%s to %s: %s min, %s mi (%s)\n"), drive->from->name, drive->to->name, minutes, miles, source);
}

static gboolean
ask_drive (HsCli *cli, const char *from, const char *to, const char *at, GError **error)
{
  g_autoptr (HsRoads) roads = NULL;
  g_autoptr (HsKnownDrive) drive = NULL;
  g_autoptr (GError) unread = NULL;
  HsRoadSource source;
  int minutes = -1;

  if (at != NULL && !hs_clock_parse (at, &minutes, &unread))
    return hs_cli_usage (error, "--at: %s", unread->message);
  roads = hs_cli_roads_open (NULL);
  if (roads != NULL)
    source = hs_cli_roads_source (roads);
  /* What the map says is kept in the book. */
  if (!hs_cli_open_book (cli, roads != NULL ? HS_BOOK_WRITE : HS_BOOK_READ, error))
    return FALSE;
  drive = hs_known_drive_ask (cli->book, from, to, minutes, roads != NULL ? &source : NULL, cli->now, error);
  if (drive == NULL)
    return FALSE;
  if (cli->json)
    write_drive (drive);
  else
    print_drive (drive);
  return TRUE;
}

static void
write_accuracy (const HsTravelAccuracy *accuracy)
{
  g_autoptr (HsJsonOut) out = hs_json_out_new ();

  hs_json_out_begin_object (out, NULL);
  hs_json_out_integer (out, "trips", accuracy->trips);
  hs_json_out_begin_array (out, "sources");
  for (guint i = 0; i < G_N_ELEMENTS (sources); i++)
    {
      hs_json_out_begin_object (out, NULL);
      hs_json_out_string (out, "source", hs_travel_source_id (sources[i]));
      hs_json_out_integer (out, "count", accuracy->count[sources[i]]);
      if (accuracy->off_seconds[sources[i]] >= 0)
        hs_cli_json_minutes (out, "off_minutes", accuracy->off_seconds[sources[i]]);
      else
        hs_json_out_null (out, "off_minutes");
      hs_json_out_end_object (out);
    }
  hs_json_out_end_array (out);
  hs_json_out_end_object (out);
  hs_cli_print_json (out);
}

static void
print_accuracy (const HsTravelAccuracy *accuracy)
{
  hs_cli_print (ngettext ("%u own trip, foretold without itself:\n", "%u own trips, each foretold without itself:\n",
                          accuracy->trips), accuracy->trips);
  for (guint i = 0; i < G_N_ELEMENTS (sources); i++)
    {
      HsTravelSource source = sources[i];
      g_autofree char *label = hs_cli_pad (source_label (source), 16);
      g_autofree char *off = minutes_text (accuracy->off_seconds[source]);

      if (accuracy->count[source] > 0)
        hs_cli_print (_("  %s off by %s min in the middle of %u\n"), label, off, accuracy->count[source]);
    }
}

static gboolean
tell_accuracy (HsCli *cli, GError **error)
{
  HsTravelAccuracy accuracy;

  if (!hs_cli_open_book (cli, HS_BOOK_READ, error) || !hs_travel_accuracy (cli->book, &accuracy, error))
    return FALSE;
  if (cli->json)
    write_accuracy (&accuracy);
  else
    print_accuracy (&accuracy);
  return TRUE;
}

typedef struct
{
  char *at;
  char *left;
  char *minutes;
  char *miles;
  char *van;
} TravelWords;

static gboolean
parse_figures (const TravelWords *asked, HsTripEntry *entry, GError **error)
{
  gint64 thousandths;

  if (asked->left == NULL || asked->minutes == NULL || asked->miles == NULL)
    return hs_cli_usage (error, _("a drive that was needs --left, --minutes and --miles"));
  if (!hs_decimal_parse (asked->minutes, 3, &thousandths, NULL) || thousandths < 1000 || thousandths > 1440000
      || !hs_ratio_half_up (thousandths, 60, 1000, &entry->seconds))
    return hs_cli_usage (error, _("--minutes wants a number from 1 to 1440"));
  if (!hs_decimal_parse (asked->miles, 3, &entry->millimiles, NULL) || entry->millimiles < 0)
    return hs_cli_usage (error, _("--miles wants a number, 0 or more"));
  return TRUE;
}

/* What the book calls a place by. */
static char *
spot_code (const HsSpot *spot, GError **error)
{
  if (spot->area != NULL)
    return g_strdup (spot->area);
  if (spot->has_position)
    return hs_geo_format (spot->latitude, spot->longitude);
  hs_cli_usage (error, _("%s has neither an area nor a position"), spot->name);
  return NULL;
}

static gboolean
record_drive (HsCli *cli, const char *from, const char *to, const TravelWords *asked, GError **error)
{
  HsTripEntry entry = { .purpose = "job", .van = asked->van };
  g_autoptr (HsSpot) start = NULL;
  g_autoptr (HsSpot) end = NULL;
  g_autofree char *first = NULL;
  g_autofree char *last = NULL;
  g_autoptr (GError) unread = NULL;

  if (!parse_figures (asked, &entry, error) || !hs_cli_open_book (cli, HS_BOOK_WRITE, error))
    return FALSE;
  if (!hs_instant_parse (asked->left, hs_book_get_zone (cli->book), &entry.left_at, &unread))
    return hs_cli_usage (error, "--left: %s", unread->message);
  hs_instant_to_local (hs_book_get_zone (cli->book), entry.left_at, &entry.on, NULL);
  start = hs_spot_find (cli->book, from, error);
  end = start == NULL ? NULL : hs_spot_find (cli->book, to, error);
  if (end == NULL)
    return FALSE;
  first = spot_code (start, error);
  last = first == NULL ? NULL : spot_code (end, error);
  entry.from = first;
  entry.to = last;
  return last != NULL && hs_trip_add (cli->book, &entry, cli->now, error);
}

/* Makes the map if there is a file for it, then drives between all places of the book. */
static gboolean
drive_map (HsCli *cli, const char *extract, GError **error)
{
  g_autoptr (HsRoads) roads = NULL;
  HsRoadSource source;
  guint driven = 0;

  if (!hs_cli_open_book (cli, HS_BOOK_WRITE, error) || (extract != NULL && !hs_cli_roads_make (extract, error)))
    return FALSE;
  roads = hs_cli_roads_open (error);
  if (roads == NULL)
    return FALSE;
  source = hs_cli_roads_source (roads);
  if (!hs_road_fill (cli->book, &source, cli->now, &driven, error))
    return FALSE;
  if (cli->json)
    {
      g_autoptr (HsJsonOut) out = hs_json_out_new ();

      hs_json_out_begin_object (out, NULL);
      hs_json_out_integer (out, "driven", driven);
      hs_json_out_string (out, "stamp", source.stamp);
      hs_json_out_end_object (out);
      hs_cli_print_json (out);
    }
  else
    hs_cli_print (ngettext ("%u drive over roads is new in the book\n", "%u drives over roads are new in the book\n",
                            driven), driven);
  return TRUE;
}

static gboolean
run_travel (HsCli *cli, char **left, const TravelWords *asked, GError **error)
{
  if (g_str_equal (left[0], "accuracy") && left[1] == NULL)
    return tell_accuracy (cli, error);
  if (g_str_equal (left[0], "map") && (left[1] == NULL || left[2] == NULL))
    return drive_map (cli, left[1], error);
  if (g_str_equal (left[0], "record") && left[1] != NULL && left[2] != NULL)
    return record_drive (cli, left[1], left[2], asked, error);
  if (g_str_equal (left[0], "record") || left[1] == NULL || left[2] != NULL)
    return hs_cli_usage (error, _("name where from and where to"));
  return ask_drive (cli, left[0], left[1], asked->at, error);
}

gboolean
hs_command_travel (HsCli *cli, char **words, GError **error)
{
  TravelWords asked = { 0 };
  const GOptionEntry entries[] = {
    { "at", 0, 0, G_OPTION_ARG_STRING, &asked.at, NULL, NULL },
    { "left", 0, 0, G_OPTION_ARG_STRING, &asked.left, NULL, NULL },
    { "minutes", 0, 0, G_OPTION_ARG_STRING, &asked.minutes, NULL, NULL },
    { "miles", 0, 0, G_OPTION_ARG_STRING, &asked.miles, NULL, NULL },
    { "van", 0, 0, G_OPTION_ARG_STRING, &asked.van, NULL, NULL },
    { NULL },
  };
  g_auto (GStrv) left = NULL;
  gboolean done = hs_cli_parse (words, entries, 1, 3, &left, error) && run_travel (cli, left, &asked, error);

  g_free (asked.at);
  g_free (asked.left);
  g_free (asked.minutes);
  g_free (asked.miles);
  g_free (asked.van);
  return done;
}
