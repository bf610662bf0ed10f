// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Retry-After and dates of HTTP. The three spellings of one date are the example of RFC 9110, 5.6.7; the seconds since
 * 1970 were worked out with Python's calendar.timegm (). */

#include "hs-retry-after.h"

#include <string.h>

/* 2026-03-10T12:00:00Z */
#define NOW ((HsInstant) 1773144000)
#define YEAR ((HsInstant) 366 * 86400)

static const struct
{
  const char *text;
  HsInstant instant;
} dates[] = {
  { "Sun, 06 Nov 1994 08:49:37 GMT", 784111777 },
  { "Sunday, 06-Nov-94 08:49:37 GMT", 784111777 },
  { "Sun Nov  6 08:49:37 1994", 784111777 },
  { "Wed Nov 16 08:49:37 1994", 784975777 },
  { "Tue, 10 Mar 2026 12:00:00 GMT", NOW },
  { "Thu, 29 Feb 2024 00:00:00 GMT", 1709164800 },
  /* 2076 is 50 years ahead, 2077 is more. */
  { "Tuesday, 10-Mar-76 12:00:00 GMT", 3351067200 },
  { "Thursday, 10-Mar-77 12:00:00 GMT", 226843200 },
  /* RFC 9110 lets a leap second stand. */
  { "Sat, 31 Dec 2016 23:59:60 GMT", 1483228799 },
};

static const char *const no_dates[] = {
  "",
  "1994-11-06T08:49:37Z",
  "Sun, 06 Nov 1994 08:49:37",
  "Sun, 06 Nov 1994 08:49:37 UTC",
  "Sun, 06 Nov 1994 08:49:37 GMT ",
  "Sun, 06 Nov 1994 08:49:37 GMTx",
  "Sun, 6 Nov 1994 08:49:37 GMT",
  "sun, 06 nov 1994 08:49:37 GMT",
  "Son, 06 Nov 1994 08:49:37 GMT",
  "Sun, 31 Feb 1994 08:49:37 GMT",
  "Thu, 29 Feb 2023 00:00:00 GMT",
  "Sun, 06 Nov 1994 24:00:00 GMT",
  "Sun, 06 Nov 1994 08:60:37 GMT",
  "Sun, 06 Nov 1994 08:49:61 GMT",
  "Sun, 06 Nov 0000 08:49:37 GMT",
  "Sun, 06 Nov 199 08:49:37 GMT",
  "Sun, 06-Nov-94 08:49:37 GMT",
  "Sunday, 06-Nov-1994 08:49:37 GMT",
  "Sun Nov 6 08:49:37 1994",
  "Sun Nov  6 08:49:37 1994 GMT",
};

static void
test_dates (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (dates); i++)
    {
      HsInstant instant = 0;

      g_test_message ("%s", dates[i].text);
      g_assert_true (hs_http_date_parse (dates[i].text, NOW, &instant));
      g_assert_cmpint (instant, ==, dates[i].instant);
    }
  for (guint i = 0; i < G_N_ELEMENTS (no_dates); i++)
    {
      HsInstant instant = 7;

      g_test_message ("%s", no_dates[i]);
      g_assert_false (hs_http_date_parse (no_dates[i], NOW, &instant));
      g_assert_cmpint (instant, ==, 7);
    }
}

/* Every day of the years 2024 to 2027, as another library writes it, in all three spellings, each at another time of
 * day. */
static void
test_other_library (void)
{
  static const char *const spellings[]
    = { "%a, %d %b %Y %H:%M:%S GMT", "%A, %d-%b-%y %H:%M:%S GMT", "%a %b %e %H:%M:%S %Y" };
  const HsInstant first = 1704067200;

  for (int day = 0; day < 4 * 365 + 1; day++)
    {
      HsInstant instant = first + (HsInstant) day * 86400 + day * 59 % 86400;
      g_autoptr (GDateTime) moment = g_date_time_new_from_unix_utc (instant);

      for (guint i = 0; i < G_N_ELEMENTS (spellings); i++)
        {
          g_autofree char *text = g_date_time_format (moment, spellings[i]);
          HsInstant read = 0;

          /* %e fills up with a figure space. */
          g_auto (GStrv) parts = g_strsplit (text, "\u2007", -1);
          g_autofree char *plain = g_strjoinv (" ", parts);

          g_assert_true (hs_http_date_parse (plain, NOW, &read));
          g_assert_cmpint (read, ==, instant);
        }
    }
}

/* A date that is cut anywhere is none. */
static void
test_cut (void)
{
  for (guint i = 0; i < 3; i++)
    for (gsize length = 0; length < strlen (dates[i].text); length++)
      {
        g_autofree char *cut = g_strndup (dates[i].text, length);
        HsInstant instant = 7;

        g_assert_false (hs_http_date_parse (cut, NOW, &instant));
        g_assert_cmpint (instant, ==, 7);
        g_assert_true (hs_retry_after_parse (cut, NOW) == HS_INSTANT_NONE);
      }
}

static const struct
{
  const char *text;
  HsInstant at;
} headers[] = {
  { "120", NOW + 120 },
  { "0", NOW },
  { "  3600 ", NOW + 3600 },
  { "007", NOW + 7 },
  { "31622400", NOW + YEAR },
  { "31622401", NOW + YEAR },
  { "99999999999999999999999999", NOW + YEAR },
  { "Tue, 10 Mar 2026 12:10:00 GMT", NOW + 600 },
  { "Tuesday, 10-Mar-26 12:10:00 GMT", NOW + 600 },
  { "Tue Mar 10 12:10:00 2026", NOW + 600 },
  { "Tue, 10 Mar 2026 11:00:00 GMT", NOW - 3600 },
  { "Fri, 10 Mar 2056 12:10:00 GMT", NOW + YEAR },
  { NULL, HS_INSTANT_NONE },
  { "", HS_INSTANT_NONE },
  { "-5", HS_INSTANT_NONE },
  { "+5", HS_INSTANT_NONE },
  { "1.5", HS_INSTANT_NONE },
  { "5 s", HS_INSTANT_NONE },
  { "5, 6", HS_INSTANT_NONE },
  { "0x10", HS_INSTANT_NONE },
  { "soon", HS_INSTANT_NONE },
};

static void
test_header (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (headers); i++)
    {
      g_test_message ("%s", headers[i].text);
      g_assert_cmpint (hs_retry_after_parse (headers[i].text, NOW), ==, headers[i].at);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/retry-after/dates", test_dates);
  g_test_add_func ("/core/retry-after/other-library", test_other_library);
  g_test_add_func ("/core/retry-after/cut", test_cut);
  g_test_add_func ("/core/retry-after/header", test_header);
  return g_test_run ();
}
