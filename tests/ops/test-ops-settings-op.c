// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Settings: each key's default, what it takes, and what it refuses. */

#include "hs-ops-error.h"
#include "hs-ops-test.h"
#include "hs-settings-op.h"

#include <string.h>

static void
test_defaults (void)
{
  static const struct
  {
    const char *key;
    const char *value;
  } rows[] = {
    { "base_area", "" },          { "leave_from", "07:30" },       { "leave_to", "09:30" },
    { "home_by", "24:00" },       { "spare_minutes", "30" },       { "minute_cents", "160" },
    { "mile_cents", "42" },       { "currency", "USD" },           { "vans", "A" },
    { "tax_percent", "0" },       { "call_out_cents", "6000" },    { "call_out_minutes", "30" },
    { "quarter_hour_cents", "2400" }, { "card_fee_percent", "2.7" }, { "card_fee_cents", "10" },
    { "battery_life_months", "48" },  { "detour_percent", "130" },   { "short_detour_percent", "140" },
    { "short_kmh", "30" },        { "medium_kmh", "40" },          { "long_kmh", "70" },
    { "zone", "America/New_York" },
    { "business_name", "" },
    { "paper_size", "letter" },
  };
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autofree char *value = hs_settings_dup (test->book, rows[i].key, &error);

      g_assert_no_error (error);
      g_assert_cmpstr (value, ==, rows[i].value);
    }
}

/* What is taken stands in one spelling, and comes back after reopening. */
static void
test_taken (void)
{
  static const struct
  {
    const char *key;
    const char *value;
    const char *kept;
  } rows[] = {
    { "base_area", " T ", "T" },
    { "leave_from", "6:45", "06:45" },
    { "home_by", "24:00", "24:00" },
    { "spare_minutes", "0", "0" },
    { "spare_minutes", "045", "45" },
    { "minute_cents", "200", "200" },
    { "currency", "eur", "EUR" },
    { "vans", "b a", "A,B" },
    { "vans", "A,B,A,C", "A,B,C" },
    { "tax_percent", "8.00", "8" },
    { "tax_percent", "8.875", "8.875" },
    { "card_fee_percent", "0", "0" },
    { "hop_miles", "1.25", "1.25" },
    { "zone", "UTC", "UTC" },
    { "business_name", " Tannery Row Repairs ", "Tannery Row Repairs" },
    { "business_name", "", "" },
    { "paper_size", "a4", "A4" },
    { "paper_size", "Letter", "letter" },
    { "markup_bands", "5.00 x3, rest x1.5", NULL },
  };
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autofree char *value = NULL;

      g_assert_true (hs_settings_set (test->book, rows[i].key, rows[i].value, HS_OPS_TEST_NOW, &error));
      g_assert_no_error (error);
      value = hs_settings_dup (test->book, rows[i].key, &error);
      if (rows[i].kept != NULL)
        g_assert_cmpstr (value, ==, rows[i].kept);
      g_assert_true (hs_settings_set (test->book, rows[i].key, value, HS_OPS_TEST_NOW, &error));
    }
}

static void
test_refused (void)
{
  static const struct
  {
    const char *key;
    const char *value;
  } rows[] = {
    { "leave_from", "25:00" },      { "leave_from", "seven" },      { "spare_minutes", "-1" },
    { "spare_minutes", "721" },     { "spare_minutes", "1.5" },     { "spare_minutes", "" },
    { "minute_cents", "1,60" },     { "mile_cents", "-42" },        { "currency", "XXZ" },
    { "currency", "dollars" },      { "vans", "" },                 { "vans", "1" },
    { "vans", "B" },                { "tax_percent", "101" },       { "tax_percent", "-8" },
    { "tax_percent", "8.12345" },   { "tax_percent", "8%" },        { "zone", "Here" },
    { "zone", "" },                 { "markup_bands", "x2" },       { "markup_bands", "rest x0" },
    { "markup_bands", "" },         { "detour_percent", "99" },     { "short_kmh", "0" },
    { "battery_life_months", "0" }, { "hop_miles", "-1" },
    { "business_name", "two\nlines" },
    { "business_name", "eighty-one letters are one more than a page has room for in its head, and no more!" },
    { "paper_size", "A5" },
    { "paper_size", "" },
  };
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  gint64 seen = hs_ops_test_count (test, "change_log");

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_false (hs_settings_set (test->book, rows[i].key, rows[i].value, HS_OPS_TEST_NOW, &error));
      g_assert_error (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED);
      g_assert_true (g_str_has_prefix (error->message, rows[i].key));
    }
  g_assert_cmpint (hs_ops_test_count (test, "change_log"), ==, seen);
}

static void
test_unknown (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  g_autoptr (GError) error = NULL;

  g_assert_false (hs_settings_set (test->book, "hourly_rate", "1", HS_OPS_TEST_NOW, &error));
  g_assert_error (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED);
  g_assert_nonnull (strstr (error->message, "hourly_rate"));
  g_assert_nonnull (strstr (error->message, "quarter_hour_cents"));
  g_clear_error (&error);
  g_assert_null (hs_settings_dup (test->book, "hourly_rate", &error));
  g_assert_error (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED);
}

static const HsSetting *
find_setting (GPtrArray *settings, const char *key)
{
  for (guint i = 0; i < settings->len; i++)
    if (g_str_equal (((const HsSetting *) g_ptr_array_index (settings, i))->key, key))
      return g_ptr_array_index (settings, i);
  return NULL;
}

static void
test_list (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) settings = NULL;

  g_assert_true (hs_settings_set (test->book, "spare_minutes", "30", HS_OPS_TEST_NOW, &error));
  settings = hs_settings_list (test->book, &error);
  g_assert_no_error (error);
  g_assert_false (find_setting (settings, "spare_minutes")->is_default);
  g_assert_true (find_setting (settings, "mile_cents")->is_default);
  g_assert_false (find_setting (settings, "zone")->is_default);
  for (guint i = 0; i < settings->len; i++)
    {
      const HsSetting *setting = g_ptr_array_index (settings, i);

      g_assert_cmpstr (setting->help, !=, "");
      g_assert_true (setting->warning == NULL || g_str_equal (setting->key, "base_area"));
    }
}

static void
test_base_warning (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  g_autoptr (GPtrArray) unset = hs_settings_list (test->book, NULL);
  g_autoptr (GPtrArray) unknown = NULL;
  g_autoptr (GPtrArray) known = NULL;

  g_assert_nonnull (find_setting (unset, "base_area")->warning);
  g_assert_true (hs_settings_set (test->book, "base_area", "T", HS_OPS_TEST_NOW, NULL));
  unknown = hs_settings_list (test->book, NULL);
  g_assert_nonnull (strstr (find_setting (unknown, "base_area")->warning, "“T”"));
  hs_ops_test_import_ok (test, "areas", "code,name\nT,Tannery Row\n", 1, 0, 0);
  known = hs_settings_list (test->book, NULL);
  g_assert_null (find_setting (known, "base_area")->warning);
}

static void
test_vans_stay (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_settings_set (test->book, "vans", "A,B", HS_OPS_TEST_NOW, &error));
  g_assert_cmpint (hs_ops_test_count (test, "van"), ==, 2);
  g_assert_false (hs_settings_set (test->book, "vans", "A", HS_OPS_TEST_NOW, &error));
  g_assert_error (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED);
  g_assert_cmpint (hs_ops_test_count (test, "van"), ==, 2);
}

static void
test_numbers (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  g_autoptr (GError) error = NULL;
  gint64 number = 0;
  int minutes = 0;

  g_assert_true (hs_settings_get_int (test->book, "minute_cents", &number, &error));
  g_assert_cmpint (number, ==, 160);
  g_assert_true (hs_settings_get_scaled (test->book, "card_fee_percent", 4, &number, &error));
  g_assert_cmpint (number, ==, 27000);
  g_assert_true (hs_settings_get_clock (test->book, "leave_to", &minutes, &error));
  g_assert_cmpint (minutes, ==, 570);
  g_assert_false (hs_settings_get_int (test->book, "leave_to", &number, &error));
  g_assert_nonnull (error);
  g_assert_cmpint (number, ==, 27000);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/settings/defaults", test_defaults);
  g_test_add_func ("/settings/taken", test_taken);
  g_test_add_func ("/settings/refused", test_refused);
  g_test_add_func ("/settings/unknown", test_unknown);
  g_test_add_func ("/settings/list", test_list);
  g_test_add_func ("/settings/base-warning", test_base_warning);
  g_test_add_func ("/settings/vans-stay", test_vans_stay);
  g_test_add_func ("/settings/numbers", test_numbers);
  return g_test_run ();
}
