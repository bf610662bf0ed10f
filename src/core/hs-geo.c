// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Positions: `geo:` URIs (RFC 5870) and what both share, range and printing. Other notations are in hs-geo-degrees.c.
 * Use it wherever a place may be given as a position. Refuses coordinate systems other than WGS-84. */

#include "hs-geo.h"

#include "hs-core-error.h"
#include "hs-decimal.h"
#include "hs-geo-private.h"

#include <math.h>
#include <string.h>

#define MOST_BYTES 512
#define FORMAT_DECIMALS 5

/* The same place has one position: no minus zero, no longitude at the poles, 180 for -180 (RFC 5870 §3.4.4). */
static double
tidy (double degrees)
{
  return degrees == 0.0 ? 0.0 : degrees;
}

gboolean
hs_geo_finish (const char *text, HsGeo *geo, HsGeo *ret_geo, GError **error)
{
  if (!(fabs (geo->latitude) <= 90.0))
    return hs_core_bad_value (error, "“%s”: a latitude lies between -90 and 90", text);
  if (!(fabs (geo->longitude) <= 180.0))
    return hs_core_bad_value (error, "“%s”: a longitude lies between -180 and 180", text);
  if (fabs (geo->latitude) == 90.0)
    geo->longitude = 0.0;
  if (geo->longitude == -180.0)
    geo->longitude = 180.0;
  geo->latitude = tidy (geo->latitude);
  geo->longitude = tidy (geo->longitude);
  *ret_geo = *geo;
  return TRUE;
}

gboolean
hs_geo_check_size (const char *text, GError **error)
{
  return strlen (text) <= MOST_BYTES || hs_core_bad_value (error, "The position is too long to be one");
}

/* RFC 5870 §3.3 ---------------------------------------------------------------------------------------------------- */

/* pnum = 1*DIGIT [ "." 1*DIGIT ]; moves *@at behind it. */
static gboolean
take_pnum (const char **at, double *ret_value)
{
  const char *start = *at;
  gsize whole = strspn (start, "0123456789");
  gsize length = whole;

  if (whole == 0)
    return FALSE;
  if (start[whole] == '.')
    {
      gsize fraction = strspn (start + whole + 1, "0123456789");

      if (fraction == 0)
        return FALSE;
      length += 1 + fraction;
    }
  {
    g_autofree char *digits = g_strndup (start, length);

    *ret_value = g_ascii_strtod (digits, NULL);
  }
  *at = start + length;
  return TRUE;
}

/* num = [ "-" ] pnum */
static gboolean
take_num (const char **at, double *ret_value)
{
  gboolean below = **at == '-';

  *at += below ? 1 : 0;
  if (!take_pnum (at, ret_value))
    return FALSE;
  if (below)
    *ret_value = -*ret_value;
  return TRUE;
}

static gboolean
take_coordinates (const char **at, HsGeo *geo)
{
  if (!take_num (at, &geo->latitude) || *(*at)++ != ',' || !take_num (at, &geo->longitude))
    return FALSE;
  if (**at != ',')
    return TRUE;
  (*at)++;
  return take_num (at, &geo->altitude_meters);
}

static gboolean
is_label (const char *text)
{
  for (const char *sign = text; *sign != '\0'; sign++)
    if (!g_ascii_isalnum (*sign) && *sign != '-')
      return FALSE;
  return *text != '\0';
}

/* paramchar = p-unreserved / unreserved / pct-encoded */
static gboolean
is_value (const char *text)
{
  for (const char *sign = text; *sign != '\0'; sign++)
    {
      if (*sign == '%' && g_ascii_isxdigit (sign[1]) && g_ascii_isxdigit (sign[2]))
        sign += 2;
      else if (!g_ascii_isalnum (*sign) && strchr ("[]:&+$-_.!~*'()", *sign) == NULL)
        return FALSE;
    }
  return *text != '\0';
}

static gboolean
read_crs (const char *text, const char *value, GError **error)
{
  if (value == NULL || !is_label (value))
    return hs_core_bad_value (error, "“%s”: crs= needs a name behind it, like wgs84", text);
  if (g_ascii_strcasecmp (value, "wgs84") != 0)
    return hs_core_bad_value (error, "“%s” is in the coordinate system %s; only WGS-84 can be used", text, value);
  return TRUE;
}

static gboolean
read_uncertainty (const char *text, const char *value, HsGeo *geo, GError **error)
{
  const char *at = value;

  if (value == NULL || !take_pnum (&at, &geo->uncertainty_meters) || *at != '\0')
    return hs_core_bad_value (error, "“%s”: u= needs meters behind it, like u=40", text);
  return TRUE;
}

/* crs stands first and u next, each at most once; the rest follows in any order. */
static gboolean
read_parameter (const char *text, const char *parameter, guint index, gboolean after_crs, HsGeo *geo, GError **error)
{
  g_auto (GStrv) pair = g_strsplit (parameter, "=", 2);
  const char *name = pair[0] != NULL ? pair[0] : "";
  const char *value = name[0] != '\0' ? pair[1] : NULL;

  if (!is_label (name) || (value != NULL && !is_value (value)))
    return hs_core_bad_value (error, "“%s”: “%s” is no parameter of a geo: link", text, parameter);
  if (g_ascii_strcasecmp (name, "crs") == 0)
    return index == 0 ? read_crs (text, value, error)
                      : hs_core_bad_value (error, "“%s”: crs= stands once, right behind the position", text);
  if (g_ascii_strcasecmp (name, "u") != 0)
    return TRUE;
  if (index > (after_crs ? 1U : 0U))
    return hs_core_bad_value (error, "“%s”: u= stands once, before all but crs=", text);
  return read_uncertainty (text, value, geo, error);
}

static gboolean
read_parameters (const char *text, const char *at, HsGeo *geo, GError **error)
{
  g_auto (GStrv) parameters = NULL;
  gboolean after_crs = g_ascii_strncasecmp (at, ";crs=", 5) == 0;

  if (*at == '\0')
    return TRUE;
  if (*at != ';')
    return hs_core_bad_value (error, "“%s”: “%s” does not belong behind the position", text, at);
  parameters = g_strsplit (at + 1, ";", -1);
  if (parameters[0] == NULL)
    return hs_core_bad_value (error, "“%s”: a parameter is missing behind the semicolon", text);
  for (guint i = 0; parameters[i] != NULL; i++)
    if (!read_parameter (text, parameters[i], i, after_crs, geo, error))
      return FALSE;
  return TRUE;
}

gboolean
hs_geo_parse_uri (const char *text, HsGeo *ret_geo, GError **error)
{
  HsGeo geo = { 0, 0, NAN, NAN };
  const char *at = text + 4;

  if (!hs_geo_check_size (text, error))
    return FALSE;
  if (g_ascii_strncasecmp (text, "geo:", 4) != 0)
    return hs_core_bad_value (error, "“%s” is no geo: link", text);
  if (!take_coordinates (&at, &geo))
    return hs_core_bad_value (error, "“%s”: write latitude and longitude behind geo:, like geo:40.7128,-74.006", text);
  return read_parameters (text, at, &geo, error) && hs_geo_finish (text, &geo, ret_geo, error);
}

/* Printing --------------------------------------------------------------------------------------------------------- */

static gint64
scaled_degrees (double degrees)
{
  return (gint64) floor (degrees * (double) hs_decimal_power (FORMAT_DECIMALS) + 0.5);
}

char *
hs_geo_format (double latitude, double longitude)
{
  g_autofree char *north = hs_decimal_format (scaled_degrees (latitude), FORMAT_DECIMALS);
  g_autofree char *east = hs_decimal_format (scaled_degrees (longitude), FORMAT_DECIMALS);

  return g_strdup_printf ("%s,%s", north, east);
}

char *
hs_geo_format_uri (double latitude, double longitude)
{
  g_autofree char *north = hs_decimal_format_short (scaled_degrees (latitude), FORMAT_DECIMALS);
  g_autofree char *east = hs_decimal_format_short (scaled_degrees (longitude), FORMAT_DECIMALS);

  return g_strdup_printf ("geo:%s,%s", north, east);
}
