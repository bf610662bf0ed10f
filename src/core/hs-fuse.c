// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Plug-in fuses as facts: which color a rating has, and what current the millivolts across one tell. For reading, never
 * for choosing: colors repeat between families, so the number on the fuse counts; and a current is refused where no
 * resistance is known, which is so for all large blades. */

#include "hs-fuse.h"

#include <math.h>

/* Blade colors: two trade charts, secondary text. Resistances: typical, from memory; those that are "seen" agree with
 * a published reading. Large blades: a chart of 2015, another page beside it. Ceramic: DIN 72581-1, secondary text. */
static const HsFuse fuses[] = {
  { HS_FUSE_MINI, 2000, "gray", 0, FALSE },
  { HS_FUSE_MINI, 3000, "violet", 0, FALSE },
  { HS_FUSE_MINI, 4000, "pink", 0, FALSE },
  { HS_FUSE_MINI, 5000, "tan", 17.5, FALSE },
  { HS_FUSE_MINI, 7500, "brown", 10.5, FALSE },
  { HS_FUSE_MINI, 10000, "red", 7.4, FALSE },
  { HS_FUSE_MINI, 15000, "blue", 4.58, TRUE },
  { HS_FUSE_MINI, 20000, "yellow", 3.2, FALSE },
  { HS_FUSE_MINI, 25000, "clear|natural|white", 2.4, FALSE },
  { HS_FUSE_MINI, 30000, "green", 1.85, FALSE },
  { HS_FUSE_MINI, 35000, "blue-green|brown|purple", 0, FALSE },
  { HS_FUSE_MINI, 40000, "orange|amber", 0, FALSE },
  { HS_FUSE_REGULAR, 500, "dark blue", 0, FALSE },
  { HS_FUSE_REGULAR, 1000, "black", 123, FALSE },
  { HS_FUSE_REGULAR, 2000, "gray", 53.5, FALSE },
  { HS_FUSE_REGULAR, 3000, "violet", 31.1, FALSE },
  { HS_FUSE_REGULAR, 4000, "pink", 22.8, FALSE },
  { HS_FUSE_REGULAR, 5000, "tan", 17.9, FALSE },
  { HS_FUSE_REGULAR, 7500, "brown", 10.9, FALSE },
  { HS_FUSE_REGULAR, 10000, "red", 7.70, TRUE },
  { HS_FUSE_REGULAR, 15000, "blue", 4.80, FALSE },
  { HS_FUSE_REGULAR, 20000, "yellow", 3.38, FALSE },
  { HS_FUSE_REGULAR, 25000, "clear|natural|white", 2.52, FALSE },
  { HS_FUSE_REGULAR, 30000, "green", 1.97, FALSE },
  { HS_FUSE_REGULAR, 35000, "blue-green|brown|purple", 0, FALSE },
  { HS_FUSE_REGULAR, 40000, "orange|amber", 1.44, FALSE },
  { HS_FUSE_MAXI, 20000, "yellow", 0, FALSE },
  { HS_FUSE_MAXI, 25000, "gray", 0, FALSE },
  { HS_FUSE_MAXI, 30000, "green", 0, FALSE },
  { HS_FUSE_MAXI, 35000, "brown", 0, FALSE },
  { HS_FUSE_MAXI, 40000, "orange|amber", 0, FALSE },
  { HS_FUSE_MAXI, 50000, "red", 0, FALSE },
  { HS_FUSE_MAXI, 60000, "blue", 0, FALSE },
  { HS_FUSE_MAXI, 70000, "tan|amber|brown", 0, FALSE },
  { HS_FUSE_MAXI, 80000, "clear", 0, FALSE },
  { HS_FUSE_MAXI, 100000, "violet", 0, FALSE },
  { HS_FUSE_MAXI, 120000, "purple", 0, FALSE },
  { HS_FUSE_TORPEDO, 5000, "yellow", 0, FALSE },
  { HS_FUSE_TORPEDO, 8000, "white", 0, FALSE },
  { HS_FUSE_TORPEDO, 16000, "red", 0, FALSE },
  { HS_FUSE_TORPEDO, 25000, "blue", 0, FALSE },
};

/* At @share of the rating a fuse opens between these times. */
static const struct
{
  double share;
  double least_seconds;
  double most_seconds;
} gates[] = {
  { 1.10, 360000, -1 }, { 1.35, 0.75, 600 }, { 2.00, 0.15, 5 }, { 3.50, 0.04, 0.5 }, { 6.00, 0.02, 0.1 },
};

const char *
hs_fuse_body_text (HsFuseBody body)
{
  static const char *const texts[HS_N_FUSE_BODIES] = {
    [HS_FUSE_MINI] = "Mini blade, type F, 10.9 × 3.6 × 16.3 mm",
    [HS_FUSE_REGULAR] = "Regular blade, type C, 19.1 × 5.1 × 18.5 mm",
    [HS_FUSE_MAXI] = "Maxi blade, type E, 29.2 × 8.5 × 34.3 mm",
    [HS_FUSE_TORPEDO] = "Ceramic torpedo, DIN 72581-1",
  };

  return texts[body];
}

const HsFuse *
hs_fuse_get_nth (guint nth)
{
  return nth < G_N_ELEMENTS (fuses) ? &fuses[nth] : NULL;
}

const HsFuse *
hs_fuse_lookup (HsFuseBody body, int milliamps)
{
  for (guint i = 0; i < G_N_ELEMENTS (fuses); i++)
    if (fuses[i].body == body && fuses[i].milliamps == milliamps)
      return &fuses[i];
  return NULL;
}

/* Gray is written with an e too. */
static gboolean
may_be_color (const HsFuse *fuse, const char *asked)
{
  g_auto (GStrv) colors = g_strsplit (fuse->colors, "|", -1);
  const char *color = g_ascii_strcasecmp (asked, "grey") == 0 ? "gray" : asked;

  for (guint i = 0; colors[i] != NULL; i++)
    if (g_ascii_strcasecmp (colors[i], color) == 0)
      return TRUE;
  return FALSE;
}

char *
hs_fuse_dup_ratings (HsFuseBody body, const char *color)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < G_N_ELEMENTS (fuses); i++)
    {
      char buffer[G_ASCII_DTOSTR_BUF_SIZE];

      if (fuses[i].body != body || (color != NULL && !may_be_color (&fuses[i], color)))
        continue;
      g_string_append (text, text->len > 0 ? ", " : "");
      g_string_append (text, g_ascii_formatd (buffer, sizeof buffer, "%g", fuses[i].milliamps / 1000.0));
    }
  return g_string_free (text, FALSE);
}

double
hs_fuse_draw_milliamps (const HsFuse *fuse, double millivolts)
{
  return fuse->milliohms > 0 ? millivolts / fuse->milliohms * 1000 : (double) NAN;
}

HsFuseOpening
hs_fuse_opening (double share)
{
  HsFuseOpening opening = { 0, -1 };

  for (guint i = 0; i < G_N_ELEMENTS (gates); i++)
    if (gates[i].share <= share)
      opening.most_seconds = gates[i].most_seconds;
  for (guint i = G_N_ELEMENTS (gates); i > 0; i--)
    if (gates[i - 1].share >= share)
      opening.least_seconds = gates[i - 1].least_seconds;
  return opening;
}
