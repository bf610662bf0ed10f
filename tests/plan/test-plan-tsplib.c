// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The reader of TSPLIB's format: what every part means, and that everything else is refused with its place. */

#include "hs-tsplib.h"

#include "hs-plan-error.h"

#include <string.h>

#define HEAD(type, n, weights) "NAME: t\nTYPE: " type "\nDIMENSION: " n "\nEDGE_WEIGHT_TYPE: " weights "\n"
#define MATRIX(type, n, format) HEAD (type, n, "EXPLICIT") "EDGE_WEIGHT_FORMAT: " format "\nEDGE_WEIGHT_SECTION\n"
#define POINTS(n, weights) HEAD ("TSP", n, weights) "NODE_COORD_SECTION\n"

static HsTsplib *
parse (const char *text)
{
  g_autoptr (GError) error = NULL;
  HsTsplib *file = hs_tsplib_parse (text, strlen (text), &error);

  g_assert_no_error (error);
  g_assert_nonnull (file);
  return file;
}

static gint32
leg (const HsTsplib *file, guint from, guint to)
{
  return file->problem->costs[(from - 1) * file->problem->n + to - 1];
}

/* By hand from TSPLIB 95, section 2: a 3-4-5 triangle, halves that are rounded up, and points one step apart. */
static void
test_distances (void)
{
  static const struct
  {
    const char *measure;
    const char *a;
    const char *b;
    gint32 leg;
  } rows[] = {
    { "EUC_2D", "0 0", "3 4", 5 },
    { "EUC_2D", "0 0", "1 1", 1 },
    { "EUC_2D", "0 0", "1.5 0", 2 },
    { "EUC_2D", "0 0", "2.4999 0", 2 },
    { "EUC_2D", "-3 -4", "3 4", 10 },
    { "EUC_2D", "1.0e+01 0", "2.5E1 0", 15 },
    { "CEIL_2D", "0 0", "1 1", 2 },
    { "CEIL_2D", "0 0", "3 4", 5 },
    { "EUC_3D", "0 0 0", "2 3 6", 7 },
    { "MAN_2D", "0 0", "3 4", 7 },
    { "MAN_3D", "0 0 0", "3 4 5", 12 },
    { "MAX_2D", "0 0", "3 4", 4 },
    { "MAX_3D", "0 0 0", "3 4 5", 5 },
    /* √(10 ÷ 10) = 1 exactly; √(20 ÷ 10) = 1.41 is rounded to 1, which falls short, so 2; √(40 ÷ 10) = 2;
     * √(25 ÷ 10) = 1.58 is rounded to 2, which does not. */
    { "ATT", "0 0", "1 3", 1 },
    { "ATT", "0 0", "2 4", 2 },
    { "ATT", "0 0", "2 6", 2 },
    { "ATT", "0 0", "3 4", 2 },
    /* A degree along a meridian is 6378.388 × 3.141592 ÷ 180 = 111.32, plus 1, cut: 112; half a degree is written
     * .30: 55.66 + 1; a quarter of the globe is 10019.1 + 1; a point to itself is 0 + 1. */
    { "GEO", "0.00 0.00", "1.00 0.00", 112 },
    { "GEO", "0.00 0.00", "0.30 0.00", 56 },
    { "GEO", "0.00 0.00", "-0.30 0.00", 56 },
    { "GEO", "0.00 0.00", "0.00 90.00", 10020 },
    { "GEO", "90.00 0.00", "0.00 0.00", 10020 },
    { "GEO", "50.00 8.00", "50.00 8.00", 1 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *text = g_strdup_printf (POINTS ("2", "%s") "1 %s\n2 %s\nEOF\n", rows[i].measure, rows[i].a,
                                               rows[i].b);
      g_autoptr (HsTsplib) file = parse (text);

      g_assert_cmpint (leg (file, 1, 2), ==, rows[i].leg);
      g_assert_cmpint (leg (file, 2, 1), ==, rows[i].leg);
    }
}

/* The same four nodes, legs 12, 13, 14, 23, 24, 34 by their ends, in every way to write half a matrix. */
static void
test_halves (void)
{
  static const struct
  {
    const char *format;
    const char *numbers;
  } rows[] = {
    { "FULL_MATRIX", "0 12 13 14\n12 0 23 24\n13 23 0 34\n14 24 34 0\n" },
    { "UPPER_ROW", "12 13 14\n23 24\n34\n" },
    { "LOWER_ROW", "12\n13 23\n14 24 34\n" },
    { "UPPER_DIAG_ROW", "0 12 13 14\n0 23 24\n0 34\n0\n" },
    { "LOWER_DIAG_ROW", "0\n12 0\n13 23 0\n14 24 34 0\n" },
    { "UPPER_COL", "12\n13 23\n14 24 34\n" },
    { "LOWER_COL", "12 13 14\n23 24\n34\n" },
    { "UPPER_DIAG_COL", "0 12 0 13 23 0 14 24 34 0" },
    { "LOWER_DIAG_COL", "0 12 13 14 0 23 24 0 34 0" },
  };

  for (guint r = 0; r < G_N_ELEMENTS (rows); r++)
    {
      g_autofree char *text = g_strdup_printf (MATRIX ("TSP", "4", "%s") "%s", rows[r].format, rows[r].numbers);
      g_autoptr (HsTsplib) file = parse (text);

      g_assert_cmpint (file->type, ==, HS_TSPLIB_TSP);
      g_assert_cmpuint (file->problem->orders->len, ==, 0);
      for (guint i = 1; i <= 4; i++)
        for (guint j = 1; j < i; j++)
          {
            g_assert_cmpint (leg (file, j, i), ==, (gint32) (10 * j + i));
            g_assert_cmpint (leg (file, i, j), ==, (gint32) (10 * j + i));
          }
    }
}

static void
test_one_way (void)
{
  g_autoptr (HsTsplib) file = parse (MATRIX ("ATSP", "3", "FULL_MATRIX") "9999 1 2\n3 -7 4.0\n5 6 100000000\n");

  g_assert_cmpstr (file->name, ==, "t");
  g_assert_cmpint (file->type, ==, HS_TSPLIB_ATSP);
  for (guint i = 0; i < 6; i++)
    {
      static const guint ends[6][2] = { { 1, 2 }, { 1, 3 }, { 2, 1 }, { 2, 3 }, { 3, 1 }, { 3, 2 } };

      g_assert_cmpint (leg (file, ends[i][0], ends[i][1]), ==, (gint32) i + 1);
    }
}

static gboolean
has_order (const HsTsplib *file, guint earlier, guint later)
{
  for (guint k = 0; k < file->problem->orders->len; k++)
    {
      const HsTourOrder *order = &g_array_index (file->problem->orders, HsTourOrder, k);

      if (order->earlier + 1 == earlier && order->later + 1 == later)
        return TRUE;
    }
  return FALSE;
}

/* Node 3 before node 2; with and without the dimension once more. */
static void
test_orders (void)
{
  static const char *const texts[] = {
    MATRIX ("SOP", "4", "FULL_MATRIX") "4\n0 5 6 1000000\n-1 0 -1 7\n-1 8 0 9\n-1 -1 -1 0\nEOF\n",
    MATRIX ("SOP", "4", "FULL_MATRIX") "0 5 6 1000000\n-1 0 -1 7\n-1 8 0 9\n-1 -1 -1 0\n",
  };

  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_autoptr (HsTsplib) file = parse (texts[i]);

      g_assert_cmpint (file->type, ==, HS_TSPLIB_SOP);
      g_assert_true (has_order (file, 3, 2));
      g_assert_false (has_order (file, 2, 3));
      g_assert_true (has_order (file, 2, 4) && has_order (file, 3, 4));
      g_assert_cmpint (leg (file, 3, 2), ==, 8);
      g_assert_cmpint (leg (file, 1, 2), ==, 5);
      g_assert_cmpint (leg (file, 4, 1), ==, 0);
    }
}

/* Spaces, tabs, carriage returns, comments, what shows a map, keys in another order, and what stands behind EOF. */
static void
test_loose (void)
{
  g_autoptr (HsTsplib) file = parse ("NAME : a b\r\nCOMMENT : one: 1 2\r\nCOMMENT: \xff\r\n"
                                     "TYPE\t:\tTSP (M. Somebody)\r\n"
                                     "EDGE_WEIGHT_TYPE:EXPLICIT\r\nDISPLAY_DATA_TYPE: TWOD_DISPLAY\r\n"
                                     "NODE_COORD_TYPE: NO_COORDS\nEDGE_WEIGHT_FORMAT : LOWER_ROW \r\nDIMENSION : 3\r\n"
                                     "DISPLAY_DATA_SECTION\r\n1 0.5 0.5\r\n2 1 1\r\n3 2 2\r\n"
                                     "EDGE_WEIGHT_SECTION :\r\n  7\r\n\t8 9\r\n  EOF\r\nanything ? 1 2 3");

  g_assert_cmpstr (file->name, ==, "a b");
  g_assert_cmpint (leg (file, 1, 2), ==, 7);
  g_assert_cmpint (leg (file, 1, 3), ==, 8);
  g_assert_cmpint (leg (file, 2, 3), ==, 9);
}

static void
test_refused (void)
{
  static const struct
  {
    const char *text;
    const char *message;
  } rows[] = {
    { "", "line 1, the end: DIMENSION is missing" },
    { "EOF\n", "line 1, the end: DIMENSION is missing" },
    { "hello world\n", "line 1, the text: “hello world” is not known" },
    { "NAME: a\n\nCAPACITY: 3\n", "line 3, the text: “CAPACITY: 3” is not known" },
    { "NAME: \xff\n", "line 1, NAME: is not text in UTF-8" },
    { "TYPE: CVRP\n", "line 1, TYPE: “CVRP” is not planned here: it is one of TSP, ATSP, SOP" },
    { "TYPE:\n", "line 1, TYPE: “” is not planned here: it is one of TSP, ATSP, SOP" },
    { "TYPE: TSP\nTYPE: TSP\n", "line 2, TYPE: is there twice" },
    { "DIMENSION: x\n", "line 1, DIMENSION: “x” is not a number of nodes" },
    { "DIMENSION: 0\n", "line 1, DIMENSION: “0” is not a number of nodes" },
    { "DIMENSION: -5\n", "line 1, DIMENSION: “-5” is not a number of nodes" },
    { "DIMENSION: 5000\n", "line 1, DIMENSION: 5000 nodes are too many: up to 2000 can be planned" },
    { "DIMENSION: 99999999999999999999\n", "line 1, DIMENSION: “99999999999999999999” is not a number of nodes" },
    { "EDGE_WEIGHT_TYPE: XRAY1\n", "line 1, EDGE_WEIGHT_TYPE: “XRAY1” is not known" },
    { "EDGE_WEIGHT_FORMAT: HALF\n", "line 1, EDGE_WEIGHT_FORMAT: “HALF” is not known" },
    { "NODE_COORD_SECTION\n1 0 0\n", "line 1, NODE_COORD_SECTION: DIMENSION must come before it" },
    { "EDGE_WEIGHT_SECTION\n0\n", "line 1, EDGE_WEIGHT_SECTION: DIMENSION must come before it" },
    { "DIMENSION: 2\nNODE_COORD_SECTION\n1 0 0\n",
      "line 2, NODE_COORD_SECTION: EDGE_WEIGHT_TYPE before it must say how far apart points are" },
    { "DIMENSION: 2\nEDGE_WEIGHT_SECTION\n1\n",
      "line 2, EDGE_WEIGHT_SECTION: EDGE_WEIGHT_TYPE before it must be EXPLICIT" },
    { HEAD ("TSP", "2", "GEO") "EDGE_WEIGHT_SECTION\n1\n",
      "line 5, EDGE_WEIGHT_SECTION: EDGE_WEIGHT_TYPE before it must be EXPLICIT" },
    { HEAD ("TSP", "2", "EXPLICIT") "EDGE_WEIGHT_SECTION\n1\n",
      "line 5, EDGE_WEIGHT_SECTION: EDGE_WEIGHT_FORMAT before it must say how it is written" },
    { "DIMENSION: 2\nEDGE_WEIGHT_TYPE: EXPLICIT\nEDGE_WEIGHT_FORMAT: UPPER_ROW\nEDGE_WEIGHT_SECTION\n1\n",
      "line 4, EDGE_WEIGHT_SECTION: TYPE must come before it" },
    { HEAD ("TSP", "2", "EXPLICIT"), "line 5, the end: EDGE_WEIGHT_SECTION is missing" },
    { HEAD ("TSP", "2", "EUC_2D"), "line 5, the end: NODE_COORD_SECTION is missing" },
    { "DIMENSION: 2\nTYPE: TSP\n", "line 3, the end: EDGE_WEIGHT_TYPE is missing" },
    { "DIMENSION: 2\nEDGE_WEIGHT_TYPE: GEO\n", "line 3, the end: TYPE is missing" },
    { POINTS ("2", "EUC_2D") "1 0 0\nEOF\n", "line 7, NODE_COORD_SECTION: there are 1 nodes instead of 2" },
    { POINTS ("2", "EUC_2D") "1 0 0\n2 1 1\n3 2 2\n", "line 8, NODE_COORD_SECTION: there are more than 2 nodes" },
    { POINTS ("2", "EUC_2D") "1 0 0\n1 1 1\n", "line 7, NODE_COORD_SECTION: node 1 is there twice" },
    { POINTS ("2", "EUC_2D") "0 0 0\n", "line 6, NODE_COORD_SECTION: node 0 is not one of 1 to 2" },
    { POINTS ("2", "EUC_2D") "3 0 0\n", "line 6, NODE_COORD_SECTION: node 3 is not one of 1 to 2" },
    { POINTS ("2", "EUC_2D") "1.5 0 0\n", "line 6, NODE_COORD_SECTION: “1.5” is not a whole number" },
    { POINTS ("2", "EUC_2D") "1 0 0\n2 1", "line 7, NODE_COORD_SECTION: node 2 has too few coordinates" },
    { POINTS ("2", "EUC_2D") "1 0 0\n2 1 0,5\n", "line 7, NODE_COORD_SECTION: “0,5” is not a number" },
    { POINTS ("2", "EUC_2D") "1 0 0\n2 1 1e999\n", "line 7, NODE_COORD_SECTION: “1e999” is not a number" },
    { POINTS ("2", "EUC_2D") "1 0 0\n2 1 0x10\n", "line 7, NODE_COORD_SECTION: “0x10” is not a number" },
    { POINTS ("2", "EUC_2D") "1 0 0\n2 1 nan\n", "line 7, NODE_COORD_SECTION: node 2 has too few coordinates" },
    { POINTS ("2", "EUC_2D") "1 0 0\n2 2e9 0\nEOF\n",
      "line 8, NODE_COORD_SECTION: nodes 1 and 2 are more than 1000000000 apart" },
    { POINTS ("2", "EUC_2D") "1 0 0\n2 1e300 1e300\n",
      "line 8, NODE_COORD_SECTION: nodes 1 and 2 are more than 1000000000 apart" },
    { POINTS ("2", "GEO") "1 0 0\n2 90.01 0\n", "line 7, NODE_COORD_SECTION: node 2 is off the globe" },
    { POINTS ("2", "GEO") "1 0 181\n", "line 6, NODE_COORD_SECTION: node 1 is off the globe" },
    { MATRIX ("TSP", "3", "UPPER_ROW") "1 2\nEOF\n",
      "line 8, EDGE_WEIGHT_SECTION: it ends before the leg from node 2 to node 3" },
    { MATRIX ("TSP", "3", "UPPER_ROW") "1 2 3\n4\n",
      "line 8, EDGE_WEIGHT_SECTION: there are more numbers than a matrix of 3 nodes has" },
    { MATRIX ("TSP", "3", "UPPER_ROW") "1 2.5 3\n", "line 7, EDGE_WEIGHT_SECTION: “2.5” is not a whole number" },
    { MATRIX ("TSP", "3", "UPPER_ROW") "1 -2 3\n",
      "line 7, EDGE_WEIGHT_SECTION: the leg from node 1 to node 3 is below zero" },
    { MATRIX ("ATSP", "2", "FULL_MATRIX") "0 -1 1 0\n",
      "line 7, EDGE_WEIGHT_SECTION: the leg from node 1 to node 2 is below zero" },
    { MATRIX ("SOP", "2", "FULL_MATRIX") "0 -2 1 0\n",
      "line 7, EDGE_WEIGHT_SECTION: the leg from node 1 to node 2 is below zero" },
    { MATRIX ("TSP", "3", "UPPER_ROW") "1 1000000001 3\n",
      "line 7, EDGE_WEIGHT_SECTION: the leg from node 1 to node 3 is above 1000000000" },
    { MATRIX ("TSP", "2", "FULL_MATRIX") "0 1 2 0\n",
      "line 8, EDGE_WEIGHT_SECTION: the legs between nodes 1 and 2 differ, which needs TYPE ATSP" },
    { MATRIX ("SOP", "4", "FULL_MATRIX") "5\n0 5 6 9\n-1 0 -1 7\n-1 8 0 9\n-1 -1 -1 0\n",
      "line 7, EDGE_WEIGHT_SECTION: there are more numbers than 4 × 4" },
    { MATRIX ("SOP", "4", "FULL_MATRIX") "0 5 6 9\n-1 0 -1 7\n-1 -1 0 9\n-1 -1 -1 0\n",
      "line 11, EDGE_WEIGHT_SECTION: node 2 is in, or behind, a ring of nodes that must each come before the next" },
    { MATRIX ("SOP", "3", "FULL_MATRIX") "0 5 6\n-1 0 -1\n-1 -1 0\n",
      "line 10, EDGE_WEIGHT_SECTION: node 2 is in, or behind, a ring of nodes that must each come before the next" },
    { MATRIX ("SOP", "3", "FULL_MATRIX") "0 -1 6\n-1 0 5\n-1 -1 0\n",
      "line 10, EDGE_WEIGHT_SECTION: node 2 can't come before node 1, where the round starts" },
    { "FIXED_EDGES_SECTION\n1 2\n-1\n", "line 1, the text: “FIXED_EDGES_SECTION” is not known" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_null (hs_tsplib_parse (rows[i].text, strlen (rows[i].text), &error));
      g_assert_error (error, HS_PLAN_ERROR, HS_PLAN_ERROR_BAD_DAY);
      g_assert_cmpstr (error->message, ==, rows[i].message);
    }
}

/* Zero bytes, words that never end, and a good file cut anywhere: refused or read, never worse. */
static void
test_hostile (void)
{
  static const char good[] = MATRIX ("SOP", "4", "FULL_MATRIX") "0 5 6 9\n-1 0 -1 7\n-1 8 0 9\n-1 -1 -1 0\nEOF\n";
  static const char zeros[] = POINTS ("2", "EUC_2D") "1 0 0\n2 1\0 1\n";
  g_autofree char *long_word = g_strnfill (100000, '1');
  g_autofree char *long_number = g_strconcat (POINTS ("2", "EUC_2D"), long_word, NULL);
  g_autofree char *long_key = g_strconcat ("A", long_word, NULL);
  g_autoptr (GError) error = NULL;
  guint read = 0;

  g_assert_null (hs_tsplib_parse (zeros, sizeof zeros - 1, &error));
  g_assert_cmpstr (error->message, ==, "line 7, NODE_COORD_SECTION: is not a number");
  g_assert_null (hs_tsplib_parse (long_number, strlen (long_number), NULL));
  g_clear_error (&error);
  g_assert_null (hs_tsplib_parse (long_key, strlen (long_key), &error));
  g_assert_cmpuint (strlen (error->message), <, 120);
  for (gsize length = 0; length < sizeof good; length++)
    {
      g_autofree char *part = g_memdup2 (good, length + 1);
      g_autoptr (HsTsplib) file = hs_tsplib_parse (part, length, NULL);

      read += file != NULL;
    }
  /* After the last number, its line, EOF and its line; not after "E" and "EO". */
  g_assert_cmpuint (read, ==, 4);
  for (gsize i = 0; i < sizeof good - 1; i++)
    for (guint byte = 0; byte < 256; byte += 5)
      {
        g_autofree char *bent = g_memdup2 (good, sizeof good);
        g_autoptr (HsTsplib) file = NULL;

        bent[i] = (char) byte;
        file = hs_tsplib_parse (bent, sizeof good - 1, NULL);
        if (file != NULL)
          g_assert_true (hs_tour_problem_check (file->problem, NULL));
      }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/tsplib/distances", test_distances);
  g_test_add_func ("/tsplib/halves", test_halves);
  g_test_add_func ("/tsplib/one-way", test_one_way);
  g_test_add_func ("/tsplib/orders", test_orders);
  g_test_add_func ("/tsplib/loose", test_loose);
  g_test_add_func ("/tsplib/refused", test_refused);
  g_test_add_func ("/tsplib/hostile", test_hostile);
  return g_test_run ();
}
