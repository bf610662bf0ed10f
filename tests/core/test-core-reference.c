// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The tables of data/reference: the shipped ones are whole and hold the rows of their sources; a row that is not
 * understood refuses its table and is named. */

#include "reference-test.h"

#include "hs-calc.h"
#include "hs-csv.h"
#include "hs-trouble.h"

/* Rows of the public registry, looked up there by hand. */
static const struct
{
  const char *wmi;
  const char *name;
  const char *country;
  HsMakerType type;
} makers[] = {
  { "1M8", "MOTOR COACH INDUSTRIES, INC.", "USA", HS_MAKER_BUS },
  { "JTD", "TOYOTA MOTOR CORPORATION", "Japan", HS_MAKER_CAR },
  { "WVW", "VOLKSWAGEN AG", "Germany", HS_MAKER_CAR },
  { "5GZ", "GENERAL MOTORS LLC", "USA", HS_MAKER_MPV },
  { "1A9753", "A & E TRAILERS", "USA", HS_MAKER_TRAILER },
};

static void
test_makers (void)
{
  g_autoptr (HsReference) reference = shipped_reference ();

  g_assert_cmpuint (hs_reference_get_n_makers (reference), ==, 12764);
  for (guint i = 0; i < G_N_ELEMENTS (makers); i++)
    {
      const HsMaker *maker = hs_reference_lookup_maker (reference, makers[i].wmi);

      g_test_message ("%s", makers[i].wmi);
      g_assert_nonnull (maker);
      g_assert_cmpstr (maker->name, ==, makers[i].name);
      g_assert_cmpstr (maker->country, ==, makers[i].country);
      g_assert_cmpint (maker->type, ==, makers[i].type);
    }
  g_assert_null (hs_reference_lookup_maker (reference, "1A9"));
  g_assert_null (hs_reference_lookup_maker (reference, "WV"));
  g_assert_null (hs_reference_lookup_maker (reference, ""));
  g_assert_cmpstr (hs_maker_type_label (HS_MAKER_BUS), ==, "bus");
  g_assert_cmpstr (hs_maker_type_label (HS_MAKER_OFF_ROAD), ==, "off-road");
}

/* Every row of the file is found again, as it stands there. */
static void
test_makers_all (void)
{
  g_autoptr (HsReference) reference = shipped_reference ();
  g_autoptr (GBytes) bytes = shipped_table ("makers.csv");
  g_autoptr (HsCsv) csv = hs_csv_new (bytes, ',', NULL);
  guint n_rows = 0, n_long = 0;

  while (hs_csv_next (csv, NULL) == HS_CSV_ROW)
    {
      const HsMaker *maker = hs_reference_lookup_maker (reference, hs_csv_get_field (csv, 0));

      g_assert_nonnull (maker);
      g_assert_cmpstr (maker->wmi, ==, hs_csv_get_field (csv, 0));
      g_assert_cmpstr (maker->name, ==, hs_csv_get_field (csv, 1));
      g_assert_cmpstr (maker->country, ==, hs_csv_get_field (csv, 2));
      g_assert_cmpstr (hs_maker_type_label (maker->type), ==, hs_csv_get_field (csv, 3));
      n_rows++;
      n_long += strlen (maker->wmi) == 6;
    }
  /* As data/reference/README.md tells them. */
  g_assert_cmpuint (n_rows, ==, 12764);
  g_assert_cmpuint (n_long, ==, 9642);
}

/* IRS standard mileage rates of 2015 to 2026 in hundredths of a cent. */
static void
test_rates (void)
{
  static const struct
  {
    const char *from;
    gint64 centicents;
  } rates[] = {
    { "2015-01-01", 5750 }, { "2016-01-01", 5400 }, { "2017-01-01", 5350 }, { "2018-01-01", 5450 },
    { "2019-01-01", 5800 }, { "2020-01-01", 5750 }, { "2021-01-01", 5600 }, { "2022-01-01", 5850 },
    { "2022-07-01", 6250 }, { "2023-01-01", 6550 }, { "2024-01-01", 6700 }, { "2025-01-01", 7000 },
    { "2026-01-01", 7250 },
  };
  g_autoptr (HsReference) reference = shipped_reference ();

  for (guint i = 0; i < G_N_ELEMENTS (rates); i++)
    {
      const HsMileageRate *rate = hs_reference_get_nth_rate (reference, i);

      g_assert_cmpint (rate->from, ==, day (rates[i].from));
      g_assert_cmpint (rate->centicents, ==, rates[i].centicents);
      g_assert_cmpstr (rate->sure, ==, i < 3 ? HS_SURE_OFFICIAL : HS_SURE_SECONDARY);
    }
  g_assert_null (hs_reference_get_nth_rate (reference, G_N_ELEMENTS (rates)));
}

static HsTroubleScope
scope_of (const char *code)
{
  guint16 value = 0;

  g_assert_true (hs_trouble_parse (code, &value, NULL));
  return hs_trouble_scope (value);
}

/* What is shipped is generic: a maker's code would be wrong on another make. */
static void
test_troubles (void)
{
  static const char *const codes[] = {
    "P0133", "P0300", "P0335", "P0340", "P0420", "P0560", "P0562", "P0563", "P0571", "P0620", "P0622", "P0625",
    "P0626", "P065B", "P0685", "P2503", "P2504", "U0100",
  };
  g_autoptr (HsReference) reference = shipped_reference ();

  g_assert_cmpuint (hs_reference_get_n_troubles (reference), ==, G_N_ELEMENTS (codes));
  for (guint i = 0; i < G_N_ELEMENTS (codes); i++)
    {
      const HsTroubleEntry *entry = hs_reference_lookup_trouble (reference, codes[i]);

      g_assert_nonnull (entry);
      g_assert_cmpstr (entry->code, ==, codes[i]);
      g_assert_true (*entry->meaning != '\0' && *entry->next != '\0' && *entry->source != '\0');
      /* Whoever shows it ends the sentence, and has the code beside it. */
      g_assert_false (g_str_has_suffix (entry->meaning, "."));
      g_assert_false (g_str_has_suffix (entry->next, "."));
      g_assert_null (strstr (entry->meaning, codes[i]));
      g_assert_cmpint (scope_of (codes[i]), ==, HS_TROUBLE_GENERIC);
    }
  g_assert_null (hs_reference_lookup_trouble (reference, "P0134"));
  g_assert_true (strstr (hs_reference_lookup_trouble (reference, "P0562")->meaning, "too low") != NULL);
  g_assert_cmpstr (hs_reference_lookup_trouble (reference, "U0100")->sure, ==, HS_SURE_MEMORY);
}

static void
test_deposits (void)
{
  static const struct
  {
    const char *place;
    gint64 cents;
    int days;
  } rows[] = {
    { "New York", 500, 30 }, { "arizona", 1500, 45 }, { "Arkansas", 1000, 30 }, { "IDAHO", 1000, 30 },
    { "Connecticut", 500, 30 }, { "Maine", 1000, 7 }, { "Minnesota", 1000, 0 },
  };
  g_autoptr (HsReference) reference = shipped_reference ();

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const HsDepositRule *rule = hs_reference_lookup_deposit (reference, rows[i].place);

      g_assert_nonnull (rule);
      g_assert_cmpint (rule->deposit_cents, ==, rows[i].cents);
      g_assert_cmpint (rule->days, ==, rows[i].days);
    }
  g_assert_null (hs_reference_lookup_deposit (reference, "Ruritania"));
  g_assert_nonnull (hs_reference_get_nth_deposit (reference, G_N_ELEMENTS (rows) - 1));
  g_assert_null (hs_reference_get_nth_deposit (reference, G_N_ELEMENTS (rows)));
}

#define WHO "\nsource=a law\ntag=memory\n"
#define HEAD "wmi,maker,country,type\n"

/* A table of one kind each: 'm' makers, 't' trouble codes, 'r' rates, 'd' deposits; and what the reason must say. */
static const struct
{
  char table;
  const char *text;
  const char *words;
} refused[] = {
  { 'm', "", "makers.csv" },
  { 'm', "wmi,name,country,type\n", "makers.csv row 1, maker" },
  { 'm', "wmi,maker,type,country\n", "country: the columns are" },
  { 'm', HEAD "1M8,Coach,USA\n", "makers.csv row 2" },
  { 'm', HEAD "1M8,Coach,USA,boat\n", "row 2, type" },
  { 'm', HEAD "1M8,,USA,bus\n", "row 2, maker" },
  { 'm', HEAD "1O8,Coach,USA,bus\n", "row 2, wmi: three characters" },
  { 'm', HEAD "1m8,Coach,USA,bus\n", "row 2, wmi" },
  { 'm', HEAD "1M,Coach,USA,bus\n", "row 2, wmi" },
  { 'm', HEAD "1M9,Coach,USA,bus\n", "row 2, wmi" },
  { 'm', HEAD "1M8123,Coach,USA,bus\n", "row 2, wmi" },
  { 'm', HEAD "1M8,Coach,USA,bus\n1M8,Coach,USA,bus\n", "row 3, wmi: rows stand in order" },
  { 'm', HEAD "1M8,Coach,USA,bus\n1A8,Coach,USA,bus\n", "row 3, wmi: rows stand in order" },
  { 't', "[P0562]\nmeaning=low\nsource=a book\ntag=sure\n", "trouble-codes.ini: [P0562] “tag” must be one of" },
  { 't', "[P0562]\nmeaning=low\ntag=memory\n", "“source=”" },
  { 't', "[P0562]" WHO, "“meaning=”" },
  { 't', "[P0562]\nmeaning=low\nmaening=x" WHO, "“maening” means nothing here" },
  { 't', "[P4562]\nmeaning=low" WHO, "second character is 0, 1, 2 or 3" },
  { 't', "[p0562]\nmeaning=low" WHO, "write the code as P0562" },
  { 't', "[P0562]\nmeaning=low" WHO "[P0562]\nmeaning=high" WHO, "stands twice" },
  { 't', "P0562=low\n", "trouble-codes.ini" },
  { 'r', "[2026-02-30]\ncents=70" WHO, "mileage.ini: [2026-02-30]" },
  { 'r', "[2026]\ncents=70" WHO, "[2026]" },
  { 'r', "[2026-01-01]\ncents=72,5" WHO, "“cents”" },
  { 'r', "[2026-01-01]\ncents=72.555" WHO, "“cents”" },
  { 'r', "[2026-01-01]\ncents=0" WHO, "more than 0 and at most 500" },
  { 'r', "[2026-01-01]\ncents=725.01" WHO, "more than 0 and at most 500" },
  { 'r', "[2026-01-01]" WHO, "“cents=”" },
  { 'd', "[Maine]\ndeposit=ten\nchecked=2026-01-01" WHO, "deposits.ini: [Maine] “deposit”" },
  { 'd', "[Maine]\ndeposit=0\nchecked=2026-01-01" WHO, "“deposit” must be more than 0" },
  { 'd', "[Maine]\ndeposit=10\nchecked=soon" WHO, "[Maine]" },
  { 'd', "[Maine]\ndeposit=10\ndays=-7\nchecked=2026-01-01" WHO, "“days” must be 1 to 3650" },
  { 'd', "[Maine]\ndeposit=10\ndays=7" WHO, "“checked=”" },
};

static HsReference *
read_one (char table, const char *text, GError **error)
{
  g_autoptr (GBytes) bytes = g_bytes_new (text, strlen (text));
  HsReferenceTables tables = { 0 };

  if (table == 'm')
    tables.makers = bytes;
  if (table == 't')
    tables.trouble_codes = bytes;
  if (table == 'r')
    tables.mileage = bytes;
  if (table == 'd')
    tables.deposits = bytes;
  return hs_reference_new (&tables, error);
}

static void
test_refused (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (refused); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (HsReference) reference = read_one (refused[i].table, refused[i].text, &error);

      assert_bad_value (reference != NULL, &error, refused[i].words);
    }
}

/* A person's own rows may stand in any order, and text may have any letters. */
static void
test_own_rows (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HsReference) troubles =
    read_one ('t', "# mine\n[U0100]\nmeaning=b" WHO "\n[B1234]\nmeaning=Türschloß\nnext=" WHO, &error);
  g_autoptr (HsReference) rates = read_one ('r', "[2027-01-01]\ncents=75.25" WHO "[2026-01-01]\ncents=70" WHO, &error);
  g_autoptr (HsReference) shared = hs_reference_ref (rates);

  g_assert_no_error (error);
  g_assert_cmpstr (hs_reference_lookup_trouble (troubles, "B1234")->meaning, ==, "Türschloß");
  g_assert_cmpstr (hs_reference_lookup_trouble (troubles, "B1234")->next, ==, "");
  g_assert_cmpstr (hs_reference_lookup_trouble (troubles, "U0100")->meaning, ==, "b");
  g_assert_cmpint (hs_reference_get_nth_rate (shared, 0)->centicents, ==, 7000);
  g_assert_cmpint (hs_reference_get_nth_rate (shared, 1)->centicents, ==, 7525);
}

static void
test_empty (void)
{
  g_autoptr (HsReference) reference = hs_reference_new (&(HsReferenceTables) { 0 }, NULL);

  g_assert_nonnull (reference);
  g_assert_cmpuint (hs_reference_get_n_makers (reference), ==, 0);
  g_assert_null (hs_reference_lookup_maker (reference, "1M8"));
  g_assert_null (hs_reference_lookup_trouble (reference, "P0562"));
  g_assert_null (hs_reference_get_nth_rate (reference, 0));
  g_assert_null (hs_reference_lookup_deposit (reference, "Maine"));
}

/* A file of an owner's own that has no row yet, not even a comment. */
static void
test_no_rows (void)
{
  static const char tables[] = "trd";

  for (const char *table = tables; *table != '\0'; table++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (HsReference) reference = read_one (*table, "", &error);

      g_assert_no_error (error);
      g_assert_cmpuint (hs_reference_get_n_troubles (reference), ==, 0);
      g_assert_null (hs_reference_get_nth_rate (reference, 0));
      g_assert_null (hs_reference_get_nth_deposit (reference, 0));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/reference/makers", test_makers);
  g_test_add_func ("/reference/makers-all", test_makers_all);
  g_test_add_func ("/reference/rates", test_rates);
  g_test_add_func ("/reference/troubles", test_troubles);
  g_test_add_func ("/reference/deposits", test_deposits);
  g_test_add_func ("/reference/refused", test_refused);
  g_test_add_func ("/reference/own-rows", test_own_rows);
  g_test_add_func ("/reference/empty", test_empty);
  g_test_add_func ("/reference/no-rows", test_no_rows);
  return g_test_run ();
}
