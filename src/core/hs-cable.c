// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Copper cable: how thick a size is, what resistance it has cold and warm, and what it loses at a current. For "what
 * would a sound cable lose here?". Knows no ampacity: how much a cable may carry depends on its cover and its place. */

#include "hs-cable.h"

#include "hs-core-error.h"

#include <math.h>
#include <string.h>

/* Per degree at 20 °C. */
#define COPPER_WARMS 0.00393
#define MICRO 1000000

/* IEC 60228 class 5, most milliohms per meter at 20 °C; four cable pages agree (secondary text). */
static const struct
{
  gint64 micro_mm2;
  double plain;
  double tinned;
} class5[] = {
  { MICRO / 2, 39.0, 40.1 },     { MICRO * 3 / 4, 26.0, 26.7 }, { MICRO, 19.5, 20.0 },
  { MICRO * 3 / 2, 13.3, 13.7 }, { MICRO * 5 / 2, 7.98, 8.21 }, { MICRO * 4, 4.95, 5.09 },
  { MICRO * 6, 3.30, 3.39 },     { MICRO * 10, 1.91, 1.95 },    { MICRO * 16, 1.21, 1.24 },
  { MICRO * 25, 0.780, 0.795 },  { MICRO * 35, 0.554, 0.565 },  { MICRO * 50, 0.386, 0 },
  { MICRO * 70, 0.272, 0 },      { MICRO * 95, 0.206, 0 },      { MICRO * 120, 0.161, 0 },
};

static gboolean
refuse_awg (const char *text, GError **error)
{
  g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE,
               "“%s” is no wire size that is known. Write 30 to 1, 1/0, 2/0, 3/0 or 4/0", text);
  return FALSE;
}

/* "0000" is 4/0: as many noughts as the digit before the stroke. */
static gboolean
parse_noughts (const char *text, int *ret_noughts)
{
  gsize length = strspn (text, "0");

  if (length >= 1 && length <= 4 && text[length] == '\0')
    *ret_noughts = (int) length;
  else if (text[0] >= '1' && text[0] <= '4' && g_str_equal (text + 1, "/0"))
    *ret_noughts = text[0] - '0';
  else
    return FALSE;
  return TRUE;
}

gboolean
hs_cable_awg_parse (const char *text, int *ret_awg, GError **error)
{
  guint64 awg;
  int noughts;

  if (parse_noughts (text, &noughts))
    {
      *ret_awg = 1 - noughts;
      return TRUE;
    }
  if (!g_ascii_string_to_unsigned (text, 10, 1, HS_CABLE_AWG_THINNEST, &awg, NULL))
    return refuse_awg (text, error);
  *ret_awg = (int) awg;
  return TRUE;
}

double
hs_cable_awg_diameter_mm (int awg)
{
  return 0.127 * pow (92, (36.0 - awg) / 39);
}

double
hs_cable_awg_mm2 (int awg)
{
  double diameter = hs_cable_awg_diameter_mm (awg);

  return G_PI * diameter * diameter / 4;
}

double
hs_cable_milliohms_per_meter (double mm2)
{
  return HS_CABLE_COPPER / mm2 * 1000;
}

double
hs_cable_class5_milliohms_per_meter (gint64 micro_mm2, gboolean tinned)
{
  for (guint i = 0; i < G_N_ELEMENTS (class5); i++)
    if (class5[i].micro_mm2 == micro_mm2)
      return tinned ? class5[i].tinned : class5[i].plain;
  return 0;
}

double
hs_cable_warm (double milliohms, double celsius)
{
  return milliohms * (1 + COPPER_WARMS * (celsius - 20));
}

double
hs_cable_drop_volts (double milliohms_per_meter, double meters, double amps)
{
  return milliohms_per_meter / 1000 * meters * amps;
}
