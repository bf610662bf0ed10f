// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Every setting with what it takes at both ends and what it refuses beyond them. The table is checked against the list
 * of settings, so that a new key wants its row here. */

#include "hs-ops-error.h"
#include "hs-ops-test.h"
#include "hs-settings-op.h"

#include <string.h>

typedef struct
{
  const char *key;
  const char *good[4][2]; /* as typed, as kept */
  const char *bad[5];
} Values;

#define USUAL(key) \
  { key, { { "Bulb ;30; 10", "Bulb; 30; 10" }, { "", "" } }, { "Bulb", "; 30; 10", "Bulb; 3o; 10", "Bulb; 30; 481" } }

static const Values values[] = {
  { "base_area", { { "T", "T" }, { "Q ", "Q" }, { "", "" } }, { NULL } },
  { "zone", { { "UTC", "UTC" }, { "America/Chicago", "America/Chicago" } }, { "Nowhere/Town", "here", "" } },
  { "leave_from", { { "7:30", "07:30" }, { "00:00", "00:00" }, { "24:00", "24:00" } }, { "24:01", "-1:00", "730" } },
  { "leave_to", { { "9:05", "09:05" }, { "24:00", "24:00" } }, { "24:30", "nine", "9" } },
  { "home_by", { { "17:00", "17:00" }, { "24:00", "24:00" } }, { "25:00", "17:60", "" } },
  { "break_minutes", { { "0", "0" }, { "240", "240" } }, { "-1", "241", "0.5", "" } },
  { "break_from", { { "9:00", "09:00" }, { "00:00", "00:00" } }, { "24:01", "noon", "" } },
  { "break_to", { { "14:30", "14:30" }, { "24:00", "24:00" } }, { "24:01", "14", "" } },
  { "spare_minutes", { { "0", "0" }, { "720", "720" }, { "030", "30" } }, { "-1", "721", "1.5", "", "half" } },
  { "minute_cents", { { "0", "0" }, { "160", "160" }, { "100000", "100000" } }, { "-1", "100001", "1.60", "1,60" } },
  { "mile_cents", { { "0", "0" }, { "42", "42" }, { "100000", "100000" } }, { "-42", "100001", "0.42" } },
  { "currency", { { "usd", "USD" }, { "EUR", "EUR" }, { "jpy", "JPY" } }, { "dollar", "US", "", "$" } },
  { "vans", { { "A", "A" }, { "b,a", "A,B" }, { "A B;C", "A,B,C" } }, { "", "1", "A,2", "," } },
  { "tax_percent", { { "0", "0" }, { "8.875", "8.875" }, { "100", "100" } }, { "-1", "100.0001", "8 %", "8.12345" } },
  { "call_out_cents", { { "0", "0" }, { "6000", "6000" } }, { "-1", "60.00", "100000001" } },
  { "call_out_minutes", { { "0", "0" }, { "1440", "1440" } }, { "-1", "1441", "0.5" } },
  { "quarter_hour_cents", { { "0", "0" }, { "2400", "2400" } }, { "-1", "24.00", "100000001" } },
  { "canceled_fee_cents", { { "0", "0" }, { "1500", "1500" } }, { "-1", "15.00", "100000001" } },
  { "no_show_fee_cents", { { "0", "0" }, { "100000000", "100000000" } }, { "-1", "all", "100000001" } },
  { "gone_on_arrival_fee_cents", { { "0", "0" }, { "6000", "6000" } }, { "-1", "", "100000001" } },
  { "markup_bands",
    { { "rest x1.25", NULL }, { "10.00 x2.0, rest x1.5", NULL } },
    { "", "10.00 x2.0", "x2", "rest x0", "10 x2, 5 x1, rest" } },
  { "overrun_cents", { { "0", "0" }, { "5000", "5000" } }, { "-1", "50.00", "100000001", "" } },
  { "card_fee_percent", { { "0", "0" }, { "2.70", "2.7" }, { "100", "100" } }, { "-0.1", "100.1", "" } },
  { "card_fee_cents", { { "0", "0" }, { "10", "10" } }, { "-1", "0.10", "100001" } },
  { "paper_minutes", { { "0", "0" }, { "1440", "1440" } }, { "-1", "1441" } },
  { "battery_life_months", { { "1", "1" }, { "600", "600" } }, { "0", "601", "4 years" } },
  { "battery_usable_percent", { { "1", "1" }, { "100", "100" }, { "37.5", "37.5" } }, { "0.9999", "100.1", "0" } },
  { "return_visit_days", { { "0", "0" }, { "3650", "3650" } }, { "-1", "3651" } },
  { "short_meters", { { "0", "0" }, { "1000000", "1000000" } }, { "-1", "1000001" } },
  { "long_meters", { { "0", "0" }, { "10000000", "10000000" } }, { "-1", "10000001" } },
  { "short_detour_percent", { { "100", "100" }, { "1000", "1000" } }, { "99", "1001" } },
  { "detour_percent", { { "100", "100" }, { "1000", "1000" } }, { "99", "1001" } },
  { "short_kmh", { { "1", "1" }, { "300", "300" } }, { "0", "301" } },
  { "medium_kmh", { { "1", "1" }, { "300", "300" } }, { "0", "301" } },
  { "long_kmh", { { "1", "1" }, { "300", "300" } }, { "0", "301" } },
  { "hop_minutes", { { "0", "0" }, { "720", "720" } }, { "-1", "721" } },
  { "hop_miles", { { "0", "0" }, { "1.250", "1.25" }, { "1000", "1000" } }, { "-0.001", "1000.001", "1.2345" } },
  { "return_minutes", { { "0", "0" }, { "720", "720" } }, { "-1", "721" } },
  { "second_trip_minutes", { { "0", "0" }, { "1440", "1440" } }, { "-1", "1441", "0.5" } },
  { "second_trip_miles", { { "0", "0" }, { "9.0", "9" }, { "1000", "1000" } }, { "-1", "1000.001" } },
  USUAL ("usual_1"),
  USUAL ("usual_2"),
  USUAL ("usual_3"),
  USUAL ("usual_4"),
  USUAL ("usual_5"),
  USUAL ("usual_6"),
  { "business_name", { { "", "" }, { "Dara Voss", "Dara Voss" } }, { "a\nb" } },
  { "paper_size", { { "letter", "letter" }, { "A4", "A4" } }, { "", "a5", "legal" } },
  { "post_url",
    { { "", "" }, { " https://example.org/jobs ", "https://example.org/jobs" },
      { "http://127.0.0.1:81/{id}", "http://127.0.0.1:81/{id}" } },
    { "example.org", "http://example.org/", "https://ann:pw@example.org/", "http://192.168.1.2/" } },
  { "post_auth", { { "Bearer", "bearer" }, { "basic", "basic" }, { "none", "none" } }, { "", "digest", "token" } },
  { "post_user",
    { { "dara", "dara" }, { "", "" }, { "Dara Ünal", "Dara Ünal" } },
    { "da:ra", "a\nb", "a\x01" "b", "a\x7f", "a\xc2\x85" } },
  { "post_secret_file",
    { { "/srv/dara/secret", "/srv/dara/secret" }, { "", "" } }, { "secret", "~/secret", "/a\nb" } },
  { "post_ca_file", { { "/etc/own.pem", "/etc/own.pem" }, { "", "" } }, { "own.pem" } },
  { "post_private_network", { { "Yes", "yes" }, { "no", "no" } }, { "", "1", "true" } },
  { "post_phone", { { "yes", "yes" }, { "NO", "no" } }, { "", "on" } },
  { "post_street", { { "yes", "yes" }, { "no", "no" } }, { "", "on" } },
  { "post_signature", { { "yes", "yes" }, { "no", "no" } }, { "", "on" } },
  { "post_photos", { { "yes", "yes" }, { "no", "no" } }, { "", "on" } },
  { "post_costs", { { "yes", "yes" }, { "no", "no" } }, { "", "on" } },
  { "clock_starts",
    { { "", "" }, { "2026-03-10T06:45", "2026-03-10T06:45" } },
    { "06:45", "2026-02-30T06:45", "yesterday" } },
};

static void
test_taken (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (values); i++)
    {
      g_autoptr (HsOpsTest) test = hs_ops_test_open ();

      for (gsize j = 0; j < G_N_ELEMENTS (values[i].good) && values[i].good[j][0] != NULL; j++)
        {
          const char *const *pair = values[i].good[j];
          g_autoptr (GError) error = NULL;
          g_autofree char *kept = NULL;

          hs_settings_set (test->book, values[i].key, pair[0], HS_OPS_TEST_NOW, &error);
          g_assert_no_error (error);
          kept = hs_settings_dup (test->book, values[i].key, &error);
          g_assert_no_error (error);
          if (pair[1] != NULL)
            g_assert_cmpstr (kept, ==, pair[1]);
        }
    }
}

static void
test_refused (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  gint64 seen = hs_ops_test_count (test, "change_log");

  for (gsize i = 0; i < G_N_ELEMENTS (values); i++)
    for (gsize j = 0; j < G_N_ELEMENTS (values[i].bad) && values[i].bad[j] != NULL; j++)
      {
        g_autoptr (GError) error = NULL;
        g_autofree char *start = g_strconcat (values[i].key, ": ", NULL);

        if (hs_settings_set (test->book, values[i].key, values[i].bad[j], HS_OPS_TEST_NOW, &error))
          g_test_message ("%s took “%s”", values[i].key, values[i].bad[j]);
        g_assert_error (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED);
        g_assert_true (g_str_has_prefix (error->message, start));
        g_assert_cmpuint (strlen (error->message), >, strlen (start) + 8);
      }
  g_assert_cmpint (hs_ops_test_count (test, "change_log"), ==, seen);
}

/* The table above has every setting, in the order in which they are listed, each with words of help. */
static void
test_complete (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  g_autoptr (GPtrArray) settings = hs_settings_list (test->book, NULL);

  g_assert_cmpuint (settings->len, ==, G_N_ELEMENTS (values));
  for (guint i = 0; i < settings->len; i++)
    {
      const HsSetting *setting = g_ptr_array_index (settings, i);

      g_assert_cmpstr (setting->key, ==, values[i].key);
      g_assert_cmpuint (strlen (setting->help), >, 10);
    }
}

/* A list of vans only grows, and each letter is one van. */
static void
test_vans (void)
{
  static const struct
  {
    const char *value;
    gint64 vans;
    const char *said; /* NULL: taken */
  } rows[] = {
    { "A,B", 2, NULL },   { "A", 2, "van B is in the book" }, { "B", 2, "van A is in the book" },
    { "C,B,A", 3, NULL }, { "A,B,C", 3, NULL },               { "D", 3, "van A is in the book" },
  };
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_true (hs_settings_set (test->book, "vans", rows[i].value, HS_OPS_TEST_NOW, &error)
                     == (rows[i].said == NULL));
      if (rows[i].said != NULL)
        hs_ops_test_refused (&error, rows[i].said);
      g_assert_cmpint (hs_ops_test_count (test, "van"), ==, rows[i].vans);
    }
}

/* A zone that is set counts at once for what is read and shown. */
static void
test_zone_counts (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  HsDate day = hs_date_from_ymd (2026, 3, 10);
  int seconds;

  hs_instant_to_local (hs_book_get_zone (test->book), HS_OPS_TEST_NOW, NULL, &seconds);
  g_assert_cmpint (seconds, ==, (6 * 60 + 45) * 60);
  g_assert_true (hs_settings_set (test->book, "zone", "America/Los_Angeles", HS_OPS_TEST_NOW, NULL));
  hs_instant_to_local (hs_book_get_zone (test->book), HS_OPS_TEST_NOW, &day, &seconds);
  g_assert_cmpint (seconds, ==, (3 * 60 + 45) * 60);
  g_assert_true (hs_settings_set (test->book, "currency", "JPY", HS_OPS_TEST_NOW, NULL));
  g_assert_cmpstr (hs_book_get_currency (test->book), ==, "JPY");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/settings/values/taken", test_taken);
  g_test_add_func ("/settings/values/refused", test_refused);
  g_test_add_func ("/settings/values/complete", test_complete);
  g_test_add_func ("/settings/values/vans", test_vans);
  g_test_add_func ("/settings/values/zone-counts", test_zone_counts);
  return g_test_run ();
}
