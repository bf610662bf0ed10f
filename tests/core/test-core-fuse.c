// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Fuses: colors by family, what millivolts across one tell, how long one holds. Resistances are typical ones from
 * memory; two of them are held against readings that were published (training site; trade magazine of June 2017). */

#include "core-test.h"
#include "hs-fuse.h"

#include <math.h>

/* Published readings: printed current, and how far a typical resistance may be off it. */
static void
test_published (void)
{
  static const struct
  {
    const char *id;
    HsFuseBody body;
    int milliamps;
    double millivolts;
    double printed;
  } rows[] = {
    { "FUSE-1", HS_FUSE_REGULAR, 10000, 1.0, 130 },
    { "FUSE-2", HS_FUSE_MINI, 15000, 1.0, 218 },
    { "FUSE-3", HS_FUSE_MINI, 15000, 0.1, 22 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const HsFuse *fuse = hs_fuse_lookup (rows[i].body, rows[i].milliamps);

      g_test_message ("%s", rows[i].id);
      g_assert_nonnull (fuse);
      g_assert_true (fuse->seen);
      g_assert_cmpfloat_with_epsilon (hs_fuse_draw_milliamps (fuse, rows[i].millivolts), rows[i].printed, 0.5);
    }
}

/* I = U / R: 17.9 mV over 17.9 mohm are 1 A, whatever the fuse is called. */
static void
test_draw (void)
{
  static const struct
  {
    HsFuseBody body;
    int milliamps;
    double millivolts;
    double draw;
  } rows[] = {
    { HS_FUSE_REGULAR, 1000, 12.3, 100 },  { HS_FUSE_REGULAR, 2000, 53.5, 1000 }, { HS_FUSE_REGULAR, 3000, 3.11, 100 },
    { HS_FUSE_REGULAR, 4000, 2.28, 100 },  { HS_FUSE_REGULAR, 5000, 17.9, 1000 }, { HS_FUSE_REGULAR, 7500, 1.09, 100 },
    { HS_FUSE_REGULAR, 10000, 7.7, 1000 }, { HS_FUSE_REGULAR, 15000, 0.48, 100 },
    { HS_FUSE_REGULAR, 20000, 3.38, 1000 },
    { HS_FUSE_REGULAR, 25000, 2.52, 1000 }, { HS_FUSE_REGULAR, 30000, 0.197, 100 },
    { HS_FUSE_REGULAR, 40000, 1.44, 1000 },
    { HS_FUSE_MINI, 5000, 1.75, 100 },     { HS_FUSE_MINI, 7500, 10.5, 1000 },    { HS_FUSE_MINI, 10000, 0.74, 100 },
    { HS_FUSE_MINI, 15000, 4.58, 1000 },   { HS_FUSE_MINI, 20000, 0.32, 100 },    { HS_FUSE_MINI, 25000, 2.4, 1000 },
    { HS_FUSE_MINI, 30000, 1.85, 1000 },   { HS_FUSE_REGULAR, 10000, 0, 0 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const HsFuse *fuse = hs_fuse_lookup (rows[i].body, rows[i].milliamps);

      g_test_message ("%d of %d mA", (int) rows[i].body, rows[i].milliamps);
      g_assert_nonnull (fuse);
      g_assert_cmpfloat_with_epsilon (hs_fuse_draw_milliamps (fuse, rows[i].millivolts), rows[i].draw, 1e-9);
    }
}

/* No resistance of a large blade or a ceramic fuse is known, nor of a few small ones: no current is made up. */
static void
test_not_known (void)
{
  const HsFuse *fuse;

  for (guint i = 0; (fuse = hs_fuse_get_nth (i)) != NULL; i++)
    {
      gboolean known = !isnan (hs_fuse_draw_milliamps (fuse, 1));

      if (fuse->body == HS_FUSE_MAXI || fuse->body == HS_FUSE_TORPEDO)
        g_assert_false (known);
      g_assert_true (known == (fuse->milliohms > 0));
    }
  g_assert_true (isnan (hs_fuse_draw_milliamps (hs_fuse_lookup (HS_FUSE_REGULAR, 500), 1)));
  g_assert_true (isnan (hs_fuse_draw_milliamps (hs_fuse_lookup (HS_FUSE_MINI, 2000), 1)));
}

/* Trade charts (secondary text). */
static void
test_colors (void)
{
  static const struct
  {
    HsFuseBody body;
    int milliamps;
    const char *colors;
  } rows[] = {
    { HS_FUSE_REGULAR, 500, "dark blue" }, { HS_FUSE_REGULAR, 1000, "black" },  { HS_FUSE_REGULAR, 2000, "gray" },
    { HS_FUSE_REGULAR, 3000, "violet" },   { HS_FUSE_REGULAR, 4000, "pink" },   { HS_FUSE_REGULAR, 5000, "tan" },
    { HS_FUSE_REGULAR, 7500, "brown" },    { HS_FUSE_REGULAR, 10000, "red" },   { HS_FUSE_REGULAR, 15000, "blue" },
    { HS_FUSE_REGULAR, 20000, "yellow" },  { HS_FUSE_REGULAR, 25000, "clear|natural|white" },
    { HS_FUSE_REGULAR, 30000, "green" },   { HS_FUSE_MINI, 35000, "blue-green|brown|purple" },
    { HS_FUSE_MINI, 40000, "orange|amber" }, { HS_FUSE_MAXI, 20000, "yellow" }, { HS_FUSE_MAXI, 25000, "gray" },
    { HS_FUSE_MAXI, 30000, "green" },      { HS_FUSE_MAXI, 35000, "brown" },    { HS_FUSE_MAXI, 40000, "orange|amber" },
    { HS_FUSE_MAXI, 50000, "red" },        { HS_FUSE_MAXI, 60000, "blue" },
    { HS_FUSE_MAXI, 70000, "tan|amber|brown" },
    { HS_FUSE_MAXI, 80000, "clear" },      { HS_FUSE_MAXI, 100000, "violet" },  { HS_FUSE_MAXI, 120000, "purple" },
    { HS_FUSE_TORPEDO, 5000, "yellow" },   { HS_FUSE_TORPEDO, 8000, "white" },  { HS_FUSE_TORPEDO, 16000, "red" },
    { HS_FUSE_TORPEDO, 25000, "blue" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    g_assert_cmpstr (hs_fuse_lookup (rows[i].body, rows[i].milliamps)->colors, ==, rows[i].colors);
  g_assert_null (hs_fuse_lookup (HS_FUSE_MAXI, 10000));
  g_assert_null (hs_fuse_lookup (HS_FUSE_REGULAR, 12000));
  g_assert_null (hs_fuse_get_nth (1000));
}

/* ISO 8820-3:2015 calls medium blades C, large ones E, small ones F. */
static void
test_bodies (void)
{
  static const char *const words[HS_N_FUSE_BODIES] = {
    [HS_FUSE_MINI] = "type F, 10.9", [HS_FUSE_REGULAR] = "type C, 19.1", [HS_FUSE_MAXI] = "type E, 29.2",
    [HS_FUSE_TORPEDO] = "DIN 72581-1",
  };
  g_auto (GStrv) choices = g_strsplit (HS_FUSE_BODIES, "|", -1);

  g_assert_cmpuint (g_strv_length (choices), ==, HS_N_FUSE_BODIES);
  for (guint i = 0; i < HS_N_FUSE_BODIES; i++)
    {
      g_autofree char *text = g_ascii_strdown (hs_fuse_body_text ((HsFuseBody) i), -1);

      g_assert_nonnull (strstr (hs_fuse_body_text ((HsFuseBody) i), words[i]));
      g_assert_nonnull (strstr (text, choices[i]));
    }
}

/* The same color is another rating in another family: 5 A and 20 A are both yellow. */
static void
test_ratings_of_color (void)
{
  static const struct
  {
    HsFuseBody body;
    const char *color;
    const char *ratings;
  } rows[] = {
    { HS_FUSE_REGULAR, "yellow", "20" },
    { HS_FUSE_MAXI, "yellow", "20" },
    { HS_FUSE_TORPEDO, "yellow", "5" },
    { HS_FUSE_REGULAR, "brown", "7.5, 35" },
    { HS_FUSE_MINI, "Grey", "2" },
    { HS_FUSE_MINI, "GRAY", "2" },
    { HS_FUSE_MAXI, "amber", "40, 70" },
    { HS_FUSE_MAXI, "pink", "" },
    { HS_FUSE_MAXI, "orange|amber", "" },
    { HS_FUSE_TORPEDO, NULL, "5, 8, 16, 25" },
    { HS_FUSE_REGULAR, NULL, "0.5, 1, 2, 3, 4, 5, 7.5, 10, 15, 20, 25, 30, 35, 40" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *ratings = hs_fuse_dup_ratings (rows[i].body, rows[i].color);

      g_assert_cmpstr (ratings, ==, rows[i].ratings);
    }
}

/* Families stand together and each rises, so that a list of ratings is in order. */
static void
test_order (void)
{
  const HsFuse *before = hs_fuse_get_nth (0);
  const HsFuse *fuse;
  guint bodies = 1;

  for (guint i = 1; (fuse = hs_fuse_get_nth (i)) != NULL; before = fuse, i++)
    if (fuse->body == before->body)
      g_assert_cmpint (fuse->milliamps, >, before->milliamps);
    else
      bodies++;
  g_assert_cmpuint (bodies, ==, HS_N_FUSE_BODIES);
}

/* Gates as remembered of ISO 8820-3: 110 % 100 h, 135 % 0.75 to 600 s, 200 % 0.15 to 5, 350 % 0.04 to 0.5, 600 % 0.02
 * to 0.1 s. */
static void
test_opening (void)
{
  static const struct
  {
    double share;
    double least;
    double most;
  } rows[] = {
    { 0, 360000, -1 },   { 1.0, 360000, -1 },  { 1.1, 360000, -1 }, { 1.2, 0.75, -1 },  { 1.35, 0.75, 600 },
    { 1.5, 0.15, 600 },  { 2.0, 0.15, 5 },     { 3.0, 0.04, 5 },    { 3.5, 0.04, 0.5 }, { 5.0, 0.02, 0.5 },
    { 6.0, 0.02, 0.1 },  { 6.83, 0, 0.1 },     { 12.8, 0, 0.1 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsFuseOpening opening = hs_fuse_opening (rows[i].share);

      g_assert_cmpfloat (opening.least_seconds, ==, rows[i].least);
      g_assert_cmpfloat (opening.most_seconds, ==, rows[i].most);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/fuse/published", test_published);
  g_test_add_func ("/fuse/draw", test_draw);
  g_test_add_func ("/fuse/not-known", test_not_known);
  g_test_add_func ("/fuse/colors", test_colors);
  g_test_add_func ("/fuse/bodies", test_bodies);
  g_test_add_func ("/fuse/ratings-of-color", test_ratings_of_color);
  g_test_add_func ("/fuse/order", test_order);
  g_test_add_func ("/fuse/opening", test_opening);
  return g_test_run ();
}
