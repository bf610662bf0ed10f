// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Date codes of batteries: letters by a technician training module (A Jan … H Aug, J Sep … M Dec) and by the scheme
 * that skips no letter, digits by several pages. */

#include "core-test.h"

#include "hs-battery-code.h"

#define TODAY "2026-11-25"

static char *
months_text (const GArray *dates)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < dates->len; i++)
    {
      g_autofree char *date = hs_date_format (g_array_index (dates, HsDate, i));

      g_assert_true (g_str_has_suffix (date, "-01"));
      g_string_append_printf (text, "%s%.7s", i > 0 ? " " : "", date);
    }
  return g_string_free (text, FALSE);
}

static const struct
{
  const char *code;
  const char *today;
  const char *months;
  const char *older;
} taken[] = {
  /* DC-1 … DC-4. */
  { "C5", TODAY, "2025-03", "2015-03 2005-03" },
  { "H7", TODAY, "2017-08", "2007-08 1997-08" },
  { "J4", TODAY, "2024-09 2024-10", "2014-10 2014-09 2004-10 2004-09" },
  { "I4", TODAY, "2024-09", "2014-09 2004-09" },
  /* The module's own example: B9 is February 1999 when it was written. */
  { "B9", "1999-06-01", "1999-02", "1989-02 1979-02" },
  { "M5", TODAY, "2025-12", "2015-12 2005-12" },
  { "L5", TODAY, "2025-11 2025-12", "2015-12 2015-11 2005-12 2005-11" },
  { "k6", TODAY, "2026-10 2026-11", "2016-11 2016-10 2006-11 2006-10" },
  /* Only one of both months has begun this year. */
  { "K6", "2026-10-02", "2026-10", "2016-11 2016-10 2006-11 2006-10" },
  /* On the first day of the month it can have been made. */
  { "C5", "2025-03-01", "2025-03", "2015-03 2005-03" },
  { "C5", "2025-02-28", "2015-03", "2005-03 1995-03" },
  { "5C", TODAY, "2025-03", "2015-03 2005-03" },
  { " c 5 ", TODAY, "2025-03", "2015-03 2005-03" },
  { "24C", TODAY, "2024-03", "" },
  { "24J", TODAY, "2024-09 2024-10", "" },
  { "03/25", TODAY, "2025-03", "" },
  { "3/25", TODAY, "2025-03", "" },
  { "2/07", TODAY, "2007-02", "" },
  { "11/2026", TODAY, "2026-11", "" },
  { "0325", TODAY, "2025-03", "" },
};

static void
test_taken (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (taken); i++)
    {
      g_auto (HsBatteryCode) code = { 0 };
      g_autoptr (GError) error = NULL;
      g_autofree char *months = NULL;
      g_autofree char *older = NULL;

      g_assert_true (hs_battery_code_parse (taken[i].code, day (taken[i].today), &code, &error));
      g_assert_no_error (error);
      months = months_text (code.months);
      older = months_text (code.older);
      g_assert_cmpstr (months, ==, taken[i].months);
      g_assert_cmpstr (older, ==, taken[i].older);
      g_assert_nonnull (code.scheme);
    }
}

static const struct
{
  const char *code;
  const char *words;
} refused[] = {
  { "", "nothing" },
  { "  ", "nothing" },
  { "N5", "end with M" },
  { "ZZ", "end with M" },
  { "CC", "letter and a digit" },
  { "C", "letter and a digit" },
  { "C55", "letter and a digit" },
  { "5", "letter and a digit" },
  { "12345", "letter and a digit" },
  { "1325", "01 to 12" },
  { "0025", "01 to 12" },
  { "12/26", "still to come" },
  { "0327", "still to come" },
  { "27A", "still to come" },
  { "3/1925", "month and year" },
  { "1/2/3", "month and year" },
  { "é5", "letter and a digit" },
};

static void
test_refused (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (refused); i++)
    {
      HsBatteryCode code = { 0 };
      g_autoptr (GError) error = NULL;

      assert_bad_value (hs_battery_code_parse (refused[i].code, day (TODAY), &code, &error), &error,
                        refused[i].words);
      g_assert_null (code.months);
    }
}

/* Years before any such code, down to the first of the calendar, end in a refusal. */
static void
test_refused_days (void)
{
  static const char *const days[] = { "0001-01-01", "0010-06-30", "1949-12-31" };

  for (gsize i = 0; i < G_N_ELEMENTS (days); i++)
    for (char digit = '0'; digit <= '9'; digit++)
      {
        HsBatteryCode code = { 0 };
        char text[] = { 'C', digit, '\0' };
        g_autoptr (GError) error = NULL;

        assert_bad_value (hs_battery_code_parse (text, day (days[i]), &code, &error), &error, "1950");
      }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/battery-code/taken", test_taken);
  g_test_add_func ("/battery-code/refused", test_refused);
  g_test_add_func ("/battery-code/refused-days", test_refused_days);
  return g_test_run ();
}
