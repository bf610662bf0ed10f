// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Figures, days and clocks at the edge of what a file may say: the last one that is taken with what the book then has,
 * and the first one that is not, with row, field and reason. */

#include "hs-ops-test.h"
#include "hs-settings-op.h"

#include <string.h>

/* A row of a kind of which one field is tried; %s is that field. */
typedef struct
{
  const char *kind;
  const char *head;
  const char *row;
} Field;

typedef struct
{
  const char *text;
  const char *found; /* rows that are one afterwards */
} Good;

typedef struct
{
  const char *text;
  const char *said; /* all that is told, behind file, row and field */
} Bad;

static HsOpsTest *
start (void)
{
  HsOpsTest *test = hs_ops_test_open ();

  hs_ops_test_fill (test);
  hs_ops_test_import_ok (test, "jobs", "number,customer_phone,words,plate\nA-0001,555-0115,hums,TDM 5508\n", 1, 0, 0);
  return test;
}

/* The formats stand in the tables of this file. */
static char *
fill_in (const Field *field, const char *text)
{
  const char *hole = strstr (field->row, "%s");
  g_autofree char *before = g_strndup (field->row, (gsize) (hole - field->row));

  return g_strconcat (field->head, "\n", before, "\"", text, "\"", hole + 2, "\n", NULL);
}

static void
check_good (HsOpsTest *test, const Field *field, const Good *rows, gsize n_rows)
{
  for (gsize i = 0; i < n_rows; i++)
    {
      g_autofree char *csv = fill_in (field, rows[i].text);
      g_autofree char *faults = NULL;

      hs_ops_test_import (test, field->kind, csv, NULL, &faults);
      g_assert_cmpstr (faults, ==, "");
      hs_ops_test_one (test, rows[i].found);
    }
}

static void
check_bad (HsOpsTest *test, const Field *field, const char *column, const Bad *rows, gsize n_rows)
{
  for (gsize i = 0; i < n_rows; i++)
    {
      g_autofree char *csv = fill_in (field, rows[i].text);
      g_autofree char *faults = g_strdup_printf ("%s.csv:2: %s: %s\n", field->kind, column, rows[i].said);

      hs_ops_test_import_bad (test, field->kind, csv, faults);
    }
}

#define DEPOSIT { "parts", "number,name,core_deposit", "BW-55,battery,%s" }
#define NOT_A_NUMBER(text) "amount in USD: “" text "” is not a number that can be used: "
#define A_POINT "write a point for decimals and nothing between thousands, like 1234.5"

static void
test_dollars (void)
{
  static const Field field = DEPOSIT;
  static const Good good[] = {
    { "0", "part WHERE core_deposit_cents = 0 AND number = 'BW-55'" },
    { "0.01", "part WHERE core_deposit_cents = 1" },
    { "18", "part WHERE core_deposit_cents = 1800" },
    { "18.5", "part WHERE core_deposit_cents = 1850" },
    { " 19.00 ", "part WHERE core_deposit_cents = 1900" },
    { "0019.95", "part WHERE core_deposit_cents = 1995" },
    { "20.5000", "part WHERE core_deposit_cents = 2050" },
    { "1234567.89", "part WHERE core_deposit_cents = 123456789" },
    { "92233720368547758.07", "part WHERE core_deposit_cents = 9223372036854775807" },
  };
  static const Bad bad[] = {
    { "-0.01", "“-0.01” is below zero; an amount here is 0 or more" },
    { "1.005", NOT_A_NUMBER ("1.005") "only 2 decimals are kept" },
    { "18,50", NOT_A_NUMBER ("18,50") A_POINT },
    { "1,234.50", NOT_A_NUMBER ("1,234.50") A_POINT },
    { "92233720368547758.08", NOT_A_NUMBER ("92233720368547758.08") "it is too large" },
    { "1e3", NOT_A_NUMBER ("1e3") "write all digits, without an exponent" },
    { "+5", NOT_A_NUMBER ("+5") "leave the plus sign away" },
    { "nan", NOT_A_NUMBER ("nan") "only plain numbers are kept" },
    { "$5", NOT_A_NUMBER ("$5") "only digits and one point may stand here" },
    { "1.2.3", NOT_A_NUMBER ("1.2.3") "only digits and one point may stand here" },
    { "1 000", NOT_A_NUMBER ("1 000") "only digits and one point may stand here" },
    { ".", NOT_A_NUMBER (".") "only digits and one point may stand here" },
  };
  g_autoptr (HsOpsTest) test = start ();

  check_good (test, &field, good, G_N_ELEMENTS (good));
  check_bad (test, &field, "core_deposit", bad, G_N_ELEMENTS (bad));
}

/* A currency without decimals and one with three: the book's amounts are its smallest coins. */
static void
test_currencies (void)
{
  static const struct
  {
    const char *currency;
    Good good[4];
    Bad bad[2];
  } rows[] = {
    { "JPY",
      { { "1800", "part WHERE core_deposit_cents = 1800" },
        { "1801.00", "part WHERE core_deposit_cents = 1801" },
        { "0", "part WHERE core_deposit_cents = 0 AND number = 'BW-55'" },
        { "1", "part WHERE core_deposit_cents = 1" } },
      { { "18.5", "amount in JPY: “18.5” is not a number that can be used: only whole numbers are kept (0 decimals)" },
        { "-1", "“-1” is below zero; an amount here is 0 or more" } } },
    { "KWD",
      { { "18", "part WHERE core_deposit_cents = 18000" },
        { "18.5", "part WHERE core_deposit_cents = 18500" },
        { "0.001", "part WHERE core_deposit_cents = 1" },
        { "18.125", "part WHERE core_deposit_cents = 18125" } },
      { { "18.1255", "amount in KWD: “18.1255” is not a number that can be used: only 3 decimals are kept" },
        { "18,125", "amount in KWD: “18,125” is not a number that can be used: " A_POINT } } },
    { "CLF",
      { { "1.2345", "part WHERE core_deposit_cents = 12345" },
        { "1", "part WHERE core_deposit_cents = 10000" },
        { "0.0001", "part WHERE core_deposit_cents = 1" },
        { "2.50", "part WHERE core_deposit_cents = 25000" } },
      { { "1.23456", "amount in CLF: “1.23456” is not a number that can be used: only 4 decimals are kept" },
        { "-0.0001", "“-0.0001” is below zero; an amount here is 0 or more" } } },
  };
  static const Field field = DEPOSIT;

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsOpsTest) test = start ();

      g_assert_true (hs_settings_set (test->book, "currency", rows[i].currency, HS_OPS_TEST_NOW, NULL));
      check_good (test, &field, rows[i].good, G_N_ELEMENTS (rows[i].good));
      check_bad (test, &field, "core_deposit", rows[i].bad, G_N_ELEMENTS (rows[i].bad));
    }
}

static void
test_days (void)
{
  static const Field field
      = { "prices", "supplier,part,cost,seen_on", "Kingpost Parts Counter,BW-55,62.00,%s" };
  static const Good good[] = {
    { "2024-02-29", "price WHERE seen_on = '2024-02-29'" },
    { "2000-02-29", "price WHERE seen_on = '2000-02-29'" },
    { "2026-12-31", "price WHERE seen_on = '2026-12-31'" },
    { "1970-01-01", "price WHERE seen_on = '1970-01-01'" },
    { "1969-12-31", "price WHERE seen_on = '1969-12-31'" },
  };
  static const char *const no_day[] = { "2026-02-29", "2026-02-30", "1900-02-29", "2026-04-31", "2026-13-01",
                                        "2026-00-10", "2026-03-00", "2026-03-32" };
  static const char *const no_date[] = { "03/10/2026", "10.03.2026", "2026-3-10", "20260310", "2026-03-10T06:45",
                                         "26-03-10",   "2026/03/10", "today",     "March 10", "2026-03-1O" };
  g_autoptr (HsOpsTest) test = start ();

  check_good (test, &field, good, G_N_ELEMENTS (good));
  for (gsize i = 0; i < G_N_ELEMENTS (no_day); i++)
    {
      g_autofree char *said = g_strdup_printf ("there is no day %s: check month and day", no_day[i]);
      const Bad bad = { no_day[i], said };

      check_bad (test, &field, "seen_on", &bad, 1);
    }
  for (gsize i = 0; i < G_N_ELEMENTS (no_date); i++)
    {
      g_autofree char *said
          = g_strdup_printf ("“%s” is not a date: write year, month and day like 2026-03-10", no_date[i]);
      const Bad bad = { no_date[i], said };

      check_bad (test, &field, "seen_on", &bad, 1);
    }
}

/* Up to 24:00, with or without the zero in front; minutes always have two digits. */
static void
test_clocks (void)
{
  static const Field field = { "customers", "name,phone,reach_to", "Teo Calloway,555-0115,%s" };
  static const Good good[] = {
    { "00:00", "customer WHERE reach_to_minutes = 0" },
    { "0:01", "customer WHERE reach_to_minutes = 1" },
    { "9:05", "customer WHERE reach_to_minutes = 545" },
    { "09:06", "customer WHERE reach_to_minutes = 546" },
    { "23:59", "customer WHERE reach_to_minutes = 1439" },
    { "24:00", "customer WHERE reach_to_minutes = 1440" },
  };
  static const char *const bad[] = { "9:5", "9", "24:01", "25:00", "12:60", "-1:00", "9.30", "0930", "9:30 pm", "noon",
                                     "009:30" };
  g_autoptr (HsOpsTest) test = start ();

  check_good (test, &field, good, G_N_ELEMENTS (good));
  for (gsize i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      g_autofree char *said
          = g_strdup_printf ("“%s” is not a time of day: write hours and minutes like 08:30, up to 24:00", bad[i]);
      const Bad row = { bad[i], said };

      check_bad (test, &field, "reach_to", &row, 1);
    }
}

/* Whole numbers and decimals, each at both of its ends. */
typedef struct
{
  Field field;
  const char *column;
  Good good[3];
  Bad bad[3];
} Range;

#define UNUSABLE(text) "“" text "” is not a number that can be used: "

static const Range ranges[] = {
  { { "customers", "name,phone,terms_days", "Teo Calloway,555-0115,%s" },
    "terms_days",
    { { "1", "customer WHERE terms_days = 1" },
      { "3650", "customer WHERE terms_days = 3650" },
      { "0", "customer WHERE terms_days = 0" } },
    { { "-1", "“-1” must lie between 0 and 3650" },
      { "3651", "“3651” must lie between 0 and 3650" },
      { "1.5", UNUSABLE ("1.5") "only whole numbers are kept (0 decimals)" } } },
  { { "vehicles", "plate,owner_phone,year", "TDM 5508,555-0115,%s" },
    "year",
    { { "1885", "vehicle WHERE year = 1885" },
      { "2200", "vehicle WHERE year = 2200" },
      { "2008", "vehicle WHERE year = 2008" } },
    { { "1884", "“1884” must lie between 1885 and 2200" },
      { "2201", "“2201” must lie between 1885 and 2200" },
      { "08", "“08” must lie between 1885 and 2200" } } },
  { { "vehicles", "plate,owner_phone,battery_ah", "TDM 5508,555-0115,%s" },
    "battery_ah",
    { { "0.001", "vehicle WHERE battery_ah = 0.001" },
      { "10000", "vehicle WHERE battery_ah = 10000" },
      { "44.5", "vehicle WHERE battery_ah = 44.5" } },
    { { "0", "“0” must lie between 0.001 and 10000" },
      { "10000.001", "“10000.001” must lie between 0.001 and 10000" },
      { "44,5", UNUSABLE ("44,5") A_POINT } } },
  { { "vehicles", "plate,owner_phone,battery_cca", "TDM 5508,555-0115,%s" },
    "battery_cca",
    { { "1", "vehicle WHERE battery_cca = 1" },
      { "100000", "vehicle WHERE battery_cca = 100000" },
      { "420.0", "vehicle WHERE battery_cca = 420" } },
    { { "0", "“0” must lie between 1 and 100000" },
      { "100001", "“100001” must lie between 1 and 100000" },
      { "420 A", UNUSABLE ("420 A") "only digits and one point may stand here" } } },
  { { "suppliers", "name,restock_percent", "Larch & Weir,%s" },
    "restock_percent",
    { { "0.01", "supplier WHERE restock_basis_points = 1" },
      { "100", "supplier WHERE restock_basis_points = 10000" },
      { "15", "supplier WHERE restock_basis_points = 1500" } },
    { { "-0.01", "“-0.01” must lie between 0 and 100" },
      { "100.01", "“100.01” must lie between 0 and 100" },
      { "12.345", "“12.345” has more than two decimals" } } },
  { { "suppliers", "name,stop_minutes", "Larch & Weir,%s" },
    "stop_minutes",
    { { "0", "supplier WHERE stop_seconds = 0" },
      { "1440", "supplier WHERE stop_seconds = 86400" },
      { "8", "supplier WHERE stop_seconds = 480" } },
    { { "-0.001", "“-0.001” must lie between 0 and 1440" },
      { "1441", "“1441” must lie between 0 and 1440" },
      { "-8", "“-8” must lie between 0 and 1440" } } },
  { { "parts", "number,name,warranty_months", "GP-20D,glow plug,%s" },
    "warranty_months",
    { { "0", "part WHERE warranty_months = 0" },
      { "1200", "part WHERE warranty_months = 1200" },
      { "36", "part WHERE warranty_months = 36" } },
    { { "-1", "“-1” must lie between 0 and 1200" },
      { "1201", "“1201” must lie between 0 and 1200" },
      { "two years", UNUSABLE ("two years") "only digits and one point may stand here" } } },
  { { "parts", "number,name,warranty_miles", "GP-20D,glow plug,%s" },
    "warranty_miles",
    { { "0.001", "part WHERE warranty_millimiles = 1" },
      { "10000000", "part WHERE warranty_millimiles = 10000000000" },
      { "12000", "part WHERE warranty_millimiles = 12000000" } },
    { { "-1", "“-1” must lie between 0 and 10000000" },
      { "10000000.001", "“10000000.001” must lie between 0 and 10000000" },
      { "0.0001", UNUSABLE ("0.0001") "only 3 decimals are kept" } } },
  { { "stock", "van,part,quantity", "A,BW-55,%s" },
    "quantity",
    { { "0.001", "stock WHERE quantity_milli = 1" },
      { "1000000", "stock WHERE quantity_milli = 1000000000" },
      { "0", "stock WHERE quantity_milli = 0" } },
    { { "-0.001", "“-0.001” must lie between 0 and 1000000" },
      { "1000000.001", "“1000000.001” must lie between 0 and 1000000" },
      { "99999999999999999999", UNUSABLE ("99999999999999999999") "it is too large" } } },
  { { "jobs", "number,customer_phone,words,minutes", "A-0001,555-0115,hums,%s" },
    "minutes",
    { { "1", "job WHERE guess_seconds = 60" },
      { "10080", "job WHERE guess_seconds = 604800" },
      { "45", "job WHERE guess_seconds = 2700" } },
    { { "0", "“0” must lie between 1 and 10080" },
      { "10081", "“10081” must lie between 1 and 10080" },
      { "1:30", UNUSABLE ("1:30") "only digits and one point may stand here" } } },
  { { "needs", "job,part,sure_percent", "A-0001,BW-55,%s" },
    "sure_percent",
    { { "0", "need WHERE sure_percent = 0" },
      { "100", "need WHERE sure_percent = 100" },
      { "38", "need WHERE sure_percent = 38" } },
    { { "-1", "“-1” must lie between 0 and 100" },
      { "101", "“101” must lie between 0 and 100" },
      { "38%", UNUSABLE ("38%") "only digits and one point may stand here" } } },
  { { "travel", "from,to,minutes,miles", "T,H,%s,5.0" },
    "minutes",
    { { "0", "travel WHERE seconds = 0" },
      { "1440", "travel WHERE seconds = 86400" },
      { "12", "travel WHERE seconds = 720" } },
    { { "-1", "“-1” must lie between 0 and 1440" },
      { "1440.001", "“1440.001” must lie between 0 and 1440" },
      { "12,5", UNUSABLE ("12,5") A_POINT } } },
  { { "travel", "from,to,minutes,miles", "T,H,12,%s" },
    "miles",
    { { "0", "travel WHERE millimiles = 0" },
      { "10000", "travel WHERE millimiles = 10000000" },
      { "5.125", "travel WHERE millimiles = 5125" } },
    { { "-5", "“-5” must lie between 0 and 10000" },
      { "10000.001", "“10000.001” must lie between 0 and 10000" },
      { "5.1255", UNUSABLE ("5.1255") "only 3 decimals are kept" } } },
  { { "odometer", "plate,date,value", "TDM 5508,2026-03-01,%s" },
    "value",
    { { "0", "odometer WHERE value = 0" },
      { "500", "odometer WHERE value = 500" },
      { "1000", "odometer WHERE value = 1000" } },
    { { "-1", "“-1” must lie between 0 and 9999999" },
      { "10000000", "“10000000” must lie between 0 and 9999999" },
      { "81,400", UNUSABLE ("81,400") A_POINT } } },
};

static void
test_ranges (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (ranges); i++)
    {
      const Range *range = &ranges[i];
      g_autoptr (HsOpsTest) test = start ();

      g_test_message ("%s: %s", range->field.kind, range->column);
      check_good (test, &range->field, range->good, G_N_ELEMENTS (range->good));
      check_bad (test, &range->field, range->column, range->bad, G_N_ELEMENTS (range->bad));
    }
}

/* No other reading of that vehicle stands beside it. */
static void
test_odometer_most (void)
{
  g_autoptr (HsOpsTest) test = start ();

  hs_ops_test_import_ok (test, "odometer", "plate,date,value\nTDM 5508,2026-03-01,9999999\n", 1, 0, 0);
  hs_ops_test_one (test, "odometer WHERE value = 9999999");
}

/* Phones keep how they were typed and are known by their digits. */
static void
test_phones (void)
{
  static const char *const same[] = { "555-0115", "(555) 0115", "555.0115", "5550115", "555 01 15", "555/0115" };
  static const char *const bad[] = { "call me", "555-O115", "555-0115 or 0116", "12", "++5550115" };
  g_autoptr (HsOpsTest) test = start ();

  for (gsize i = 0; i < G_N_ELEMENTS (same); i++)
    {
      g_autofree char *csv = g_strdup_printf ("name,phone\nTeo Calloway,%s\n", same[i]);

      hs_ops_test_import_ok (test, "customers", csv, 0, 0, 1);
    }
  for (gsize i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      g_autofree char *csv = g_strdup_printf ("name,phone\nIris Fenn,%s\n", bad[i]);
      g_autofree char *faults = NULL;

      g_assert_false (hs_ops_test_import (test, "customers", csv, NULL, &faults));
      g_assert_true (g_str_has_prefix (faults, "customers.csv:2: phone: “"));
      g_assert_nonnull (strstr (faults, bad[i]));
    }
  hs_ops_test_import_ok (test, "customers", "name,phone\nIris Fenn,+44 555 0115\n", 1, 0, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/import/edges/dollars", test_dollars);
  g_test_add_func ("/import/edges/currencies", test_currencies);
  g_test_add_func ("/import/edges/days", test_days);
  g_test_add_func ("/import/edges/clocks", test_clocks);
  g_test_add_func ("/import/edges/ranges", test_ranges);
  g_test_add_func ("/import/edges/odometer-most", test_odometer_most);
  g_test_add_func ("/import/edges/phones", test_phones);
  return g_test_run ();
}
