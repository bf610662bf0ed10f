// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Times and minutes as they are keyed. */

#include <glib.h>

#include "hs-typed.h"

static void
test_clock (void)
{
  static const struct
  {
    const char *text;
    int minutes;
  } rows[] = {
    { "9", 540 },      { "09", 540 },    { "930", 570 },   { "0930", 570 },  { "9:30", 570 }, { "09:30", 570 },
    { " 1215 ", 735 }, { "0", 0 },       { "24", 1440 },   { "2400", 1440 }, { "24:00", 1440 },
    { NULL, -1 },      { "", -1 },       { "25", -1 },     { "1260", -1 },   { "2401", -1 },  { "9:3", -1 },
    { "-9", -1 },      { "+9", -1 },     { "9am", -1 },    { "9.30", 570 },   { "9:30:00", -1 }, { ":", -1 },
    { "9.3", -1 },     { ".30", -1 },    { "9.60", -1 },   { "9.30.00", -1 }, { "9:3.00", -1 },
    { "12345", -1 },   { "99999999999999999999", -1 },     { "٩", -1 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    g_assert_cmpint (hs_typed_clock (rows[i].text), ==, rows[i].minutes);
}

static void
test_minutes (void)
{
  static const struct
  {
    const char *text;
    int minutes;
  } rows[] = {
    { "40", 40 },    { "1", 1 },      { " 90 ", 90 }, { "10080", 10080 }, { "007", 7 },
    { NULL, 0 },     { "", 0 },       { "  ", 0 },
    { "0", -1 },     { "10081", -1 }, { "-5", -1 },   { "40x", -1 },      { "4 0", -1 },     { "1.5", -1 },
    { "1e3", -1 },   { "99999999999999999999", -1 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    g_assert_cmpint (hs_typed_minutes (rows[i].text), ==, rows[i].minutes);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/app/typed/clock", test_clock);
  g_test_add_func ("/app/typed/minutes", test_minutes);
  return g_test_run ();
}
