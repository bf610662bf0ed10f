// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Limits of one vehicle's own: what is refused, whose wins, and what a verdict then says. */

#include "hs-history.h"
#include "hs-job-op.h"
#include "hs-ops-test.h"
#include "hs-own-limit.h"

#include <string.h>

static HsOpsTest *
start (char **ret_vehicle)
{
  HsOpsTest *test = hs_ops_test_open ();

  hs_ops_test_fill (test);
  hs_ops_test_import_ok (test, "vehicles",
                         "plate,owner_phone,fuel,battery_kind,battery_ah,battery_cca\n"
                         "TDM 4409,555-0115,gas,flooded,60,540\n", 1, 0, 0);
  *ret_vehicle = hs_ops_test_id (test, "SELECT id FROM vehicle WHERE plate = 'TDM 4409'");
  return test;
}

static void
set (HsOpsTest *test, const char *vehicle, const char *check, const char *low, const char *high, gboolean maker)
{
  HsOwnLimitEntry entry = { vehicle, check, low, high, NULL, maker ? "manual p. 12" : "measured when new", maker };
  GError *error = NULL;

  g_assert_true (hs_own_limit_set (test->book, &entry, HS_OPS_TEST_NOW, &error));
  g_assert_no_error (error);
}

static HsReadingResult *
judge (HsOpsTest *test, const char *vehicle, const char *check, const char *text)
{
  HsReadingEntry entry = { .check = check, .text = text, .at = HS_INSTANT_NONE };
  GError *error = NULL;
  HsReadingResult *result = hs_reading_judge (test->book, vehicle, &entry, HS_OPS_TEST_NOW, &error);

  g_assert_no_error (error);
  return result;
}

static void
test_refusals (void)
{
  static const struct
  {
    HsOwnLimitEntry entry;
    const char *said;
  } rows[] = {
    { { .check = "chargin", .low = "12", .source = "m" }, "There is no check “chargin”. There are: battery_rest, " },
    { { .check = NULL, .low = "12", .source = "m" }, "There is no check “”" },
    { { .check = "charging", .low = "12.20" }, "Charging: say who says so" },
    { { .check = "charging", .low = "12.20", .source = "  " }, "Charging: say who says so" },
    { { .check = "charging", .source = "m" }, "give the low limit, the high limit or both" },
    { { .check = "charging", .low = " ", .high = "", .source = "m" }, "give the low limit" },
    { { .check = "charging", .low = "15", .high = "12.2", .source = "m" },
      "Charging: the low limit 15 is above the high limit 12.2." },
    { { .check = "charging", .high = "14700", .source = "m" },
      "Charging, high limit: 14700 cannot be, it lies between 0.00 and 18.00 V. Is it another unit?" },
    { { .check = "charging", .low = "-1", .source = "m" }, "low limit: -1 cannot be" },
    { { .check = "charging", .low = "12,2", .source = "m" }, "Charging, low limit: " },
    { { .check = "charging", .low = "12.205", .source = "m" }, "only 2 decimals" },
    { { .check = "charging", .low = "twelve", .source = "m" }, "only digits" },
    { { .check = "charging", .low = "12.2", .unit = "mV", .source = "m" }, "Charging is read in V, not in mV." },
  };
  g_autofree char *vehicle = NULL;
  g_autoptr (HsOpsTest) test = start (&vehicle);

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsOwnLimitEntry entry = rows[i].entry;
      GError *error = NULL;

      entry.vehicle_id = vehicle;
      g_assert_false (hs_own_limit_set (test->book, &entry, HS_OPS_TEST_NOW, &error));
      hs_ops_test_refused (&error, rows[i].said);
    }
  g_assert_cmpint (hs_ops_test_count (test, "check_own"), ==, 0);
}

static void
test_no_such_vehicle (void)
{
  g_autofree char *vehicle = NULL;
  g_autoptr (HsOpsTest) test = start (&vehicle);
  HsOwnLimitEntry entry = { .vehicle_id = "nobody", .check = "charging", .low = "12", .source = "m" };
  GError *error = NULL;

  g_assert_false (hs_own_limit_set (test->book, &entry, HS_OPS_TEST_NOW, &error));
  g_assert_nonnull (error);
  g_clear_error (&error);
  g_assert_false (hs_own_limit_clear (test->book, "nobody", "charging", FALSE, HS_OPS_TEST_NOW, &error));
  g_assert_nonnull (error);
  g_clear_error (&error);
  g_assert_false (hs_own_limit_clear (test->book, vehicle, "chargin", FALSE, HS_OPS_TEST_NOW, &error));
  hs_ops_test_refused (&error, "There is no check “chargin”");
  g_assert_false (hs_own_limit_clear (test->book, vehicle, "charging", TRUE, HS_OPS_TEST_NOW, &error));
  hs_ops_test_refused (&error, "Charging: there is no maker's value for this vehicle.");
  g_assert_cmpint (hs_ops_test_count (test, "check_own"), ==, 0);
}

static void
assert_judged (HsOpsTest *test, const char *vehicle, const char *text, const char *verdict, const char *whose,
               const char *sure)
{
  g_autoptr (HsReadingResult) result = judge (test, vehicle, "charging", text);

  g_assert_cmpstr (result->verdict, ==, verdict);
  g_assert_cmpstr (result->whose, ==, whose);
  g_assert_cmpstr (result->sure, ==, sure);
}

/* 15.00 V is high by the catalog, kept to by the owner's 15.20 and over the maker's 14.90. */
static void
test_the_maker_wins (void)
{
  g_autofree char *vehicle = NULL;
  g_autoptr (HsOpsTest) test = start (&vehicle);
  GError *error = NULL;

  assert_judged (test, vehicle, "15.00", "watch", "catalog", "secondary text");
  set (test, vehicle, "charging", "12.60", "15.20", FALSE);
  assert_judged (test, vehicle, "15.00", "within", "owner", "owner's limit");
  set (test, vehicle, "charging", "12.60", "14.90", TRUE);
  assert_judged (test, vehicle, "15.00", "outside", "maker", "maker's value");
  assert_judged (test, NULL, "15.00", "watch", "catalog", "secondary text");
  set (test, vehicle, "charging", NULL, "15.10", TRUE);
  assert_judged (test, vehicle, "15.00", "within", "maker", "maker's value");
  assert_judged (test, vehicle, "0.50", "within", "maker", "maker's value");
  hs_ops_test_one (test, "check_own WHERE whose = 'maker' AND low IS NULL AND high = 1510");
  g_assert_true (hs_own_limit_clear (test->book, vehicle, "charging", TRUE, HS_OPS_TEST_NOW, &error));
  assert_judged (test, vehicle, "15.00", "within", "owner", "owner's limit");
  g_assert_true (hs_own_limit_clear (test->book, vehicle, "charging", FALSE, HS_OPS_TEST_NOW, &error));
  assert_judged (test, vehicle, "15.00", "watch", "catalog", "secondary text");
  g_assert_cmpint (hs_ops_test_count (test, "check_own"), ==, 0);
}

static void
test_list (void)
{
  static const struct
  {
    const char *check;
    const char *text;
    HsLimitWhose whose;
    gboolean in_use;
  } rows[] = {
    { "charging", "12.20 to 15.50 V", HS_LIMIT_MAKER, TRUE },
    { "charging", "15.00 V or less", HS_LIMIT_OWNER, FALSE },
    { "sleeping_draw", "0.080 A or less", HS_LIMIT_OWNER, TRUE },
    { "rotor_thickness", "22.00 mm or more", HS_LIMIT_MAKER, TRUE },
  };
  g_autofree char *vehicle = NULL;
  g_autofree char *other = NULL;
  g_autoptr (HsOpsTest) test = start (&vehicle);
  g_autoptr (GPtrArray) limits = NULL;
  g_autoptr (GPtrArray) none = NULL;

  set (test, vehicle, "rotor_thickness", "22", NULL, TRUE);
  set (test, vehicle, "charging", NULL, "15", FALSE);
  set (test, vehicle, "sleeping_draw", NULL, "0.08", FALSE);
  set (test, vehicle, "charging", "12.2", "15.5", TRUE);
  limits = hs_own_limit_list (test->book, vehicle, NULL);
  g_assert_cmpuint (limits->len, ==, G_N_ELEMENTS (rows));
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const HsOwnLimit *limit = g_ptr_array_index (limits, i);

      g_assert_cmpstr (limit->check, ==, rows[i].check);
      g_assert_cmpstr (limit->text, ==, rows[i].text);
      g_assert_cmpint (limit->limits.whose, ==, rows[i].whose);
      g_assert_cmpint (limit->in_use, ==, rows[i].in_use);
      g_assert_cmpstr (limit->name, !=, limit->check);
      if (limit->in_use)
        g_assert_true (hs_own_limit_find (limits, limit->check) == limit);
    }
  g_assert_null (hs_own_limit_find (limits, "tread"));
  g_assert_null (hs_own_limit_find (NULL, "tread"));
  other = hs_ops_test_id (test, "SELECT id FROM vehicle WHERE plate <> 'TDM 4409'");
  none = hs_own_limit_list (test->book, other, NULL);
  g_assert_cmpuint (none->len, ==, 0);
}

/* Who set what and when stands in the log of changes, as of every row. */
static void
test_log (void)
{
  g_autofree char *vehicle = NULL;
  g_autoptr (HsOpsTest) test = start (&vehicle);
  GError *error = NULL;

  set (test, vehicle, "charging", NULL, "15", FALSE);
  set (test, vehicle, "charging", NULL, "15.2", FALSE);
  g_assert_true (hs_own_limit_clear (test->book, vehicle, "charging", FALSE, HS_OPS_TEST_NOW, &error));
  hs_ops_test_one (test, "change_log WHERE tbl = 'check_own' AND act = 'added'");
  hs_ops_test_one (test, "change_log WHERE tbl = 'check_own' AND act = 'changed' AND field = 'high'");
  g_assert_cmpint (hs_ops_test_count (test, "change_log WHERE tbl = 'check_own' AND act = 'removed'"), >=, 1);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/own-limit/refusals", test_refusals);
  g_test_add_func ("/own-limit/no-such-vehicle", test_no_such_vehicle);
  g_test_add_func ("/own-limit/the-maker-wins", test_the_maker_wins);
  g_test_add_func ("/own-limit/list", test_list);
  g_test_add_func ("/own-limit/log", test_log);
  return g_test_run ();
}
