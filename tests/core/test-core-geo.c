// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Positions as links and as people write them: what is taken, what is refused and with which words, and round trips. */

#include "hs-geo.h"

#include "core-test.h"

#include <math.h>

static void
assert_number (const char *text, const char *what, double found, double expected)
{
  gboolean same = isnan (expected) ? isnan (found) : fabs (found - expected) <= 1e-9;

  if (!same)
    g_error ("“%s”: its %s is %.10g, not %.10g", text, what, found, expected);
}

/* The examples of RFC 5870; those after the third compare links in §6.4, where a stray > stands behind one of them. */
static void
test_rfc_examples (void)
{
  static const struct
  {
    const char *text;
    HsGeo geo;
  } rows[] = {
    { "geo:13.4125,103.8667", { 13.4125, 103.8667, NAN, NAN } },
    { "geo:48.2010,16.3695,183", { 48.201, 16.3695, 183, NAN } },
    { "geo:48.198634,16.371648;crs=wgs84;u=40", { 48.198634, 16.371648, NAN, 40 } },
    { "geo:90,-22.43;crs=WGS84", { 90, 0, NAN, NAN } },
    { "geo:90,46", { 90, 0, NAN, NAN } },
    { "geo:22.300,-118.44", { 22.3, -118.44, NAN, NAN } },
    { "geo:22.3,-118.4400", { 22.3, -118.44, NAN, NAN } },
    { "geo:66,30;u=6.500;FOo=this%2dthat", { 66, 30, NAN, 6.5 } },
    { "geo:66.0,30;u=6.5;foo=this-that", { 66, 30, NAN, 6.5 } },
    { "geo:70,20;foo=1.00;bar=white", { 70, 20, NAN, NAN } },
    { "geo:70,20;foo=1;bar=white", { 70, 20, NAN, NAN } },
    { "geo:47,11;foo=blue;bar=white", { 47, 11, NAN, NAN } },
    { "geo:47,11;bar=white;foo=blue", { 47, 11, NAN, NAN } },
    { "geo:22,0;bar=Blue", { 22, 0, NAN, NAN } },
    { "geo:22,0;BAR=blue", { 22, 0, NAN, NAN } },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsGeo geo = { 0 };
      g_autoptr (GError) error = NULL;

      g_assert_true (hs_geo_parse (rows[i].text, &geo, &error));
      g_assert_no_error (error);
      assert_number (rows[i].text, "latitude", geo.latitude, rows[i].geo.latitude);
      assert_number (rows[i].text, "longitude", geo.longitude, rows[i].geo.longitude);
      assert_number (rows[i].text, "altitude", geo.altitude_meters, rows[i].geo.altitude_meters);
      assert_number (rows[i].text, "uncertainty", geo.uncertainty_meters, rows[i].geo.uncertainty_meters);
    }
}

/* The rest of the grammar of §3.3, and one position a place (§3.4.4). */
static void
test_uri_accepts (void)
{
  static const struct
  {
    const char *text;
    HsGeo geo;
  } rows[] = {
    { "GEO:1,2", { 1, 2, NAN, NAN } },
    { "geo:-0,-0.0", { 0, 0, NAN, NAN } },
    { "geo:1,2,-0.5;CRS=wGs84;U=0", { 1, 2, -0.5, 0 } },
    { "geo:0001.50,2", { 1.5, 2, NAN, NAN } },
    { "geo:1,-180", { 1, 180, NAN, NAN } },
    { "geo:1,180", { 1, 180, NAN, NAN } },
    { "geo:-90,100", { -90, 0, NAN, NAN } },
    { "geo:1,2;a", { 1, 2, NAN, NAN } },
    { "geo:1,2;u=3;a=[:&+$-_.!~*'()%41];b-2=x", { 1, 2, NAN, 3 } },
    { " geo:1,2 ", { 1, 2, NAN, NAN } },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsGeo geo = { 0 };
      g_autoptr (GError) error = NULL;

      g_assert_true (hs_geo_parse (rows[i].text, &geo, &error));
      g_assert_no_error (error);
      assert_number (rows[i].text, "latitude", geo.latitude, rows[i].geo.latitude);
      assert_number (rows[i].text, "longitude", geo.longitude, rows[i].geo.longitude);
      assert_number (rows[i].text, "altitude", geo.altitude_meters, rows[i].geo.altitude_meters);
      assert_number (rows[i].text, "uncertainty", geo.uncertainty_meters, rows[i].geo.uncertainty_meters);
      g_assert_false (signbit (geo.latitude) && geo.latitude == 0);
      g_assert_false (signbit (geo.longitude) && geo.longitude == 0);
    }
}

static void
test_uri_refuses (void)
{
  static const struct
  {
    const char *text;
    const char *words;
  } rows[] = {
    { "geo:1,2;crs=nad27", "coordinate system nad27; only WGS-84" },
    { "geo:1,2;crs=WGS-84", "coordinate system WGS-84" },
    { "geo:1,2;crs=", "no parameter" },
    { "geo:1,2;crs", "crs= needs a name" },
    { "geo:1,2;crs=w.84", "crs= needs a name" },
    { "geo:1,2;u=40;crs=wgs84", "crs= stands once" },
    { "geo:1,2;crs=wgs84;crs=wgs84", "crs= stands once" },
    { "geo:1,2;a=b;u=40", "u= stands once" },
    { "geo:1,2;u=4;u=4", "u= stands once" },
    { "geo:1,2;crs=wgs84;a=b;u=40", "u= stands once" },
    { "geo:1,2;u=-4", "u= needs meters" },
    { "geo:1,2;u=4m", "u= needs meters" },
    { "geo:1,2;u", "u= needs meters" },
    { "geo:1,2;", "a parameter is missing" },
    { "geo:1,2;;a=b", "no parameter" },
    { "geo:1,2;=b", "no parameter" },
    { "geo:1,2;a=", "no parameter" },
    { "geo:1,2;a_b=c", "no parameter" },
    { "geo:1,2;a=b%2", "no parameter" },
    { "geo:1,2;a=b%zz", "no parameter" },
    { "geo:1,2;a=this-that>", "no parameter" },
    { "geo:1,2;a=b=c", "no parameter" },
    { "geo:1,2?z=9", "does not belong behind" },
    { "geo:1,2,3,4", "does not belong behind" },
    { "geo:1,2 ;u=4", "does not belong behind" },
    { "geo:1", "latitude and longitude behind geo:" },
    { "geo:", "latitude and longitude behind geo:" },
    { "geo:1,", "latitude and longitude behind geo:" },
    { "geo:1,2,", "latitude and longitude behind geo:" },
    { "geo:+1,2", "latitude and longitude behind geo:" },
    { "geo:.5,2", "latitude and longitude behind geo:" },
    { "geo:1.,2", "latitude and longitude behind geo:" },
    { "geo:1e1,2", "latitude and longitude behind geo:" },
    { "geo: 1,2", "latitude and longitude behind geo:" },
    { "geo:nan,2", "latitude and longitude behind geo:" },
    { "geo:--1,2", "latitude and longitude behind geo:" },
    { "geo:90.01,2", "a latitude lies between" },
    { "geo:1,180.5", "a longitude lies between" },
    { "geo:99999999999999999999999,2", "a latitude lies between" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsGeo geo = { 7, 7, 7, 7 };
      g_autoptr (GError) error = NULL;

      assert_bad_value (hs_geo_parse (rows[i].text, &geo, &error), &error, rows[i].words);
      g_assert_cmpfloat (geo.latitude, ==, 7);
    }
}

static void
test_only_a_uri (void)
{
  HsGeo geo;
  g_autoptr (GError) error = NULL;

  assert_bad_value (hs_geo_parse_uri ("40.7, -74", &geo, &error), &error, "is no geo: link");
  assert_bad_value (hs_geo_parse_uri ("", &geo, &error), &error, "is no geo: link");
}

/* 40°42′46″ is 40 + 42 ÷ 60 + 46 ÷ 3600 = 40.712777…; 74°0′22″ is 74.006111…; 42.768′ is 42′46.08″, 40.7128. */
static void
test_notations (void)
{
  static const double seconds_north = 40 + 42 / 60.0 + 46 / 3600.0;
  static const double seconds_west = -(74 + 22 / 3600.0);
  const struct
  {
    const char *text;
    double latitude;
    double longitude;
  } rows[] = {
    { "40.7128, -74.0060", 40.7128, -74.006 },
    { "40.7128,-74.0060", 40.7128, -74.006 },
    { "  40.7128 -74.0060\t", 40.7128, -74.006 },
    { "40.7128; -74.006", 40.7128, -74.006 },
    { "+40.7128-74.006", 40.7128, -74.006 },
    { "40.7128, −74.006", 40.7128, -74.006 },
    { "40.7128°, -74.006°", 40.7128, -74.006 },
    { "40.7128° -74.006°", 40.7128, -74.006 },
    { "40.7128 N, 74.006 W", 40.7128, -74.006 },
    { "40.7128N 74.006W", 40.7128, -74.006 },
    { "40.7128n 74.006w", 40.7128, -74.006 },
    { "N40.7128 W74.006", 40.7128, -74.006 },
    { "N 40.7128° W 74.006°", 40.7128, -74.006 },
    { "74.006 W, 40.7128 N", 40.7128, -74.006 },
    { "W 74.006 N 40.7128", 40.7128, -74.006 },
    { "33.8568 S 151.2153 E", -33.8568, 151.2153 },
    { "40°42'46\"N 74°0'22\"W", seconds_north, seconds_west },
    { "40° 42′ 46″ N, 74° 0′ 22″ W", seconds_north, seconds_west },
    { "40º42’46”N 74º0’22”W", seconds_north, seconds_west },
    { "40°42'46''N 74°0'22''W", seconds_north, seconds_west },
    { "40°42′46′′N 74°0′22′′W", seconds_north, seconds_west },
    { "40:42:46N 74:00:22W", seconds_north, seconds_west },
    { "40:42:46, -74:0:22", seconds_north, seconds_west },
    { "40 42 46 N 74 0 22 W", seconds_north, seconds_west },
    { "N 40 42 46 W 74 0 22", seconds_north, seconds_west },
    { "40 42 46 -74 0 22", seconds_north, seconds_west },
    { "40°42'46\" -74°0'22\"", seconds_north, seconds_west },
    { "40°\302\24042'46\"N\302\24074°0'22\"W", seconds_north, seconds_west },
    { "40° 42.768′ N 74° 0.36′ W", 40.7128, -74.006 },
    { "40 42.768, -74 0.36", 40.7128, -74.006 },
    { "40:42:46.08N 74:0:21.6W", 40.7128, -74.006 },
    { "40.7128 N 74°0'21.6\"W", 40.7128, -74.006 },
    { "-0 30, 0 30", -0.5, 0.5 },
    { "0°30'S 0°30'W", -0.5, -0.5 },
    { "90 N 0 E", 90, 0 },
    { "-90, 77", -90, 0 },
    { "12, -180", 12, 180 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsGeo geo = { 0 };
      g_autoptr (GError) error = NULL;

      hs_geo_parse (rows[i].text, &geo, &error);
      g_assert_no_error (error);
      assert_number (rows[i].text, "latitude", geo.latitude, rows[i].latitude);
      assert_number (rows[i].text, "longitude", geo.longitude, rows[i].longitude);
      assert_number (rows[i].text, "altitude", geo.altitude_meters, NAN);
      assert_number (rows[i].text, "uncertainty", geo.uncertainty_meters, NAN);
      g_assert_true (hs_geo_is_meant (rows[i].text));
    }
}

static void
test_notations_refused (void)
{
  static const struct
  {
    const char *text;
    const char *words;
  } rows[] = {
    { "", "is not a position" },
    { "40.7128", "is not a position" },
    { ",", "is not a position" },
    { "N W", "is not a position" },
    { "40,7128 -74,0060", "with a point for decimals" },
    { "40,7128, -74,0060", "with a point for decimals" },
    { "40.7 N, -74", "is not a position" },
    { "-40.7 N, 74 W", "is not a position" },
    { "40.7 N, 74 N", "is not a position" },
    { "40.7 E, 74 W", "is not a position" },
    { "N 40.7 N, 74 W", "is not a position" },
    { "40 60 0 N 74 0 0 W", "is not a position" },
    { "40 0 60 N 74 0 0 W", "is not a position" },
    { "40 42 46 1 N 74 0 22 1 W", "is not a position" },
    { "40.5 42 N 74.5 0 W", "is not a position" },
    { "40 -42 N 74 0 W", "is not a position" },
    { "40 42 74", "is not a position" },
    { "40°42\"N 74°0\"W", "is not a position" },
    { "40'42°N 74'0°W", "is not a position" },
    { "40:42:N 74:0:W", "is not a position" },
    { "40:42:46: 74:0:22:", "is not a position" },
    { ":40, 74", "is not a position" },
    { "40., 74.", "is not a position" },
    { "40.7 North, 74 West", "is not a position" },
    { "40.7O 74.0O", "is not a position" },
    { "12 Quay Street", "is not a position" },
    { "90.5, 0", "a latitude lies between" },
    { "95 N 10 E", "a latitude lies between" },
    { "40, 7128", "a longitude lies between" },
    { "-90 0 1, 0 0 0", "a latitude lies between" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsGeo geo = { 7, 7, 7, 7 };
      g_autoptr (GError) error = NULL;

      assert_bad_value (hs_geo_parse (rows[i].text, &geo, &error), &error, rows[i].words);
      g_assert_cmpfloat (geo.longitude, ==, 7);
    }
}

static void
test_too_long (void)
{
  g_autofree char *blanks = g_strnfill (600, ' ');
  g_autofree char *digits = g_strnfill (600, '9');
  g_autofree char *uri = g_strconcat ("geo:1,2;a=", digits, NULL);
  const char *rows[] = { blanks, digits, uri };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsGeo geo;
      g_autoptr (GError) error = NULL;

      assert_bad_value (hs_geo_parse (rows[i], &geo, &error), &error, "too long");
      assert_bad_value (hs_geo_parse_uri (rows[i], &geo, &error), &error, "too long");
    }
}

/* A name, an address and a postal code are none; a wrong position is still meant as one. */
static void
test_is_meant (void)
{
  static const struct
  {
    const char *text;
    gboolean meant;
  } rows[] = {
    { "geo:", TRUE },        { "Geo:1,2;crs=x", TRUE }, { " 95, 200", TRUE },       { "40,7128", TRUE },
    { "1 2 3 4 5 6 7", TRUE }, { "40 N 74 W", TRUE },     { "Q", FALSE },             { "", FALSE },
    { "N", FALSE },          { "E", FALSE },            { "10001", FALSE },         { "4 N", FALSE },
    { "12 Quay Street", FALSE }, { "12 E 4th St", FALSE },  { "1 Main; rear 2", FALSE }, { "geology", FALSE },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    if (hs_geo_is_meant (rows[i].text) != rows[i].meant)
      g_error ("“%s” is %sread as a position", rows[i].text, rows[i].meant ? "not " : "");
}

static void
test_format (void)
{
  static const struct
  {
    double latitude;
    double longitude;
    const char *text;
    const char *uri;
  } rows[] = {
    { 40.7128, -74.006, "40.71280,-74.00600", "geo:40.7128,-74.006" },
    { 0, 0, "0.00000,0.00000", "geo:0,0" },
    { -0.000004, 180, "0.00000,180.00000", "geo:0,180" },
    { -33.123456, 151.999996, "-33.12346,152.00000", "geo:-33.12346,152" },
    { 90, 0, "90.00000,0.00000", "geo:90,0" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *text = hs_geo_format (rows[i].latitude, rows[i].longitude);
      g_autofree char *uri = hs_geo_format_uri (rows[i].latitude, rows[i].longitude);
      HsGeo from_text, from_uri;

      g_assert_cmpstr (text, ==, rows[i].text);
      g_assert_cmpstr (uri, ==, rows[i].uri);
      g_assert_true (hs_geo_parse (text, &from_text, NULL));
      g_assert_true (hs_geo_parse_uri (uri, &from_uri, NULL));
      assert_number (text, "latitude", from_text.latitude, from_uri.latitude);
      assert_number (text, "longitude", from_text.longitude, from_uri.longitude);
      g_assert_cmpfloat (fabs (from_text.latitude - rows[i].latitude), <, 0.000006);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/geo/rfc-examples", test_rfc_examples);
  g_test_add_func ("/core/geo/uri-accepts", test_uri_accepts);
  g_test_add_func ("/core/geo/uri-refuses", test_uri_refuses);
  g_test_add_func ("/core/geo/only-a-uri", test_only_a_uri);
  g_test_add_func ("/core/geo/notations", test_notations);
  g_test_add_func ("/core/geo/notations-refused", test_notations_refused);
  g_test_add_func ("/core/geo/too-long", test_too_long);
  g_test_add_func ("/core/geo/is-meant", test_is_meant);
  g_test_add_func ("/core/geo/format", test_format);
  return g_test_run ();
}
