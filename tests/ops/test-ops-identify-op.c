// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Whether the vehicle that stands there is the one on record. The VINs are those of tests/core/test-core-vin.c; what is
 * driven a day was worked out by hand. */

#include "hs-identify-op.h"
#include "hs-job-life.h"
#include "hs-ops-error.h"
#include "hs-undo.h"
#include "ops-site.h"

#define NOW HS_OPS_TEST_NOW
#define VIN "1M8GDM9AXKP042788"

static HsIdentity *
load (OpsSite *site)
{
  g_autoptr (GError) error = NULL;
  HsIdentity *identity = hs_identity_load (site->book, site->job_id, &error);

  g_assert_no_error (error);
  return identity;
}

static void
sql (OpsSite *site, const char *text)
{
  hs_ops_test_run (site->test, text);
}

/* Odometer --------------------------------------------------------------------------------------------------------- */

static gboolean
odometer (OpsSite *site, const char *text, const char *why, GError **error)
{
  return hs_identify_odometer (site->book, site->job_id, text, why, NOW, error);
}

static void
test_odometer_texts (void)
{
  static const struct
  {
    const char *text;
    gint64 value; /* -1: refused */
    const char *said;
  } rows[] = {
    { "104500", 104500, NULL },        { "104,500", 104500, NULL },        { " 104 500 mi ", 104500, NULL },
    { "104'500", 104500, NULL },       { "0", 0, NULL },                   { "9999999", 9999999, NULL },
    { "10000000", -1, "seven digits" }, { "99999999999999999999999", -1, "seven digits" },
    { "104500 km", -1, "whole number of mi" }, { "104.5", -1, "whole number" }, { "-5", -1, "whole number" },
    { "", -1, "whole number" },        { "mi", -1, "whole number" },       { "a lot", -1, "“a lot” is none" },
    { NULL, -1, "whole number" },      { "12٣", -1, "whole number" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (OpsSite) site = ops_site_start (FALSE);
      g_autoptr (GError) error = NULL;
      g_autoptr (HsIdentity) identity = NULL;
      gboolean done;

      /* A new one shows anything. */
      sql (&site, "UPDATE vehicle SET year = 2026");
      done = odometer (&site, rows[i].text, NULL, &error);
      identity = load (&site);

      g_test_message ("%s", rows[i].text);
      g_assert_cmpint (done, ==, rows[i].value >= 0);
      if (!done)
        hs_ops_test_refused (&error, rows[i].said);
      g_assert_cmpint (identity->odometer, ==, done ? rows[i].value : HS_INT_NONE);
    }
}

/* Ten thousand letters are refused in one line. */
static void
test_odometer_long (void)
{
  g_auto (OpsSite) site = ops_site_start (FALSE);
  g_autofree char *letters = g_strnfill (10000, 'k');
  g_autofree char *nines = g_strnfill (10000, '9');
  g_autoptr (GError) error = NULL;

  g_assert_false (odometer (&site, letters, NULL, &error));
  g_assert_cmpuint (strlen (error->message), <, 300);
  g_clear_error (&error);
  g_assert_false (odometer (&site, nines, NULL, &error));
  g_assert_cmpuint (strlen (error->message), <, 300);
}

/* Forty letters of it are said back, and no letter is cut in two. */
static void
test_said_back (void)
{
  g_auto (OpsSite) site = ops_site_start (FALSE);
  g_autoptr (GString) text = g_string_new ("k");
  g_autofree char *forty = NULL;
  g_autofree char *quoted = NULL;
  g_autoptr (GError) wrong = NULL;
  g_autoptr (GError) other = NULL;

  for (guint i = 0; i < 60; i++)
    g_string_append (text, "é");
  forty = g_utf8_substring (text->str, 0, 40);
  quoted = g_strdup_printf ("“%s”", forty);
  g_assert_false (odometer (&site, text->str, NULL, &wrong));
  g_assert_true (g_utf8_validate (wrong->message, -1, NULL));
  g_assert_nonnull (strstr (wrong->message, quoted));
  g_assert_false (hs_identify_plate (site.book, site.job_id, text->str, NULL, NOW, NULL, &other));
  g_assert_true (g_utf8_validate (other->message, -1, NULL));
}

/* 2025-12-10 is 90 days before the call: 104,500 − 92,800 is 130.0 a day. */
static void
test_odometer_pace (void)
{
  g_auto (OpsSite) site = ops_site_start (FALSE);
  g_autoptr (HsIdentity) before = NULL;
  g_autoptr (HsIdentity) after = NULL;

  hs_ops_test_import_ok (site.test, "odometer", "plate,date,value\nTDM 5508,2025-12-10,92800\n", 1, 0, 0);
  before = load (&site);
  g_assert_cmpint (before->odometer, ==, HS_INT_NONE);
  g_assert_cmpint (before->last_value, ==, 92800);
  g_assert_cmpint (before->a_day_tenths, ==, HS_INT_NONE);
  g_assert_true (odometer (&site, "104500", NULL, NULL));
  after = load (&site);
  g_assert_cmpint (after->odometer, ==, 104500);
  g_assert_cmpint (after->last_value, ==, 92800);
  g_assert_cmpint (after->last_on, ==, before->last_on);
  g_assert_cmpint (after->a_day_tenths, ==, 1300);
  g_assert_cmpstr (after->unit, ==, "mi");
}

/* It fell, or somebody would have driven more than a thousand a day: a question, and with a reason an answer that does
 * not count. */
static void
test_odometer_odd (void)
{
  static const struct
  {
    const char *before; /* date,value */
    const char *text;
    const char *said;
  } rows[] = {
    { "2025-12-10,92800", "92799", "It showed 92800 mi on 2025-12-10" },
    { "2026-03-10,92800", "92799", "It showed 92800 mi on 2026-03-10" },
    { "2026-04-01,92800", "92801", "It showed 92800 mi on 2026-04-01" },
    { "2026-03-08,92800", "94801", "That is 1000 mi a day since 2026-03-08, when it showed 92800" },
    { "2026-03-10,92800", "104500", "That is 11700 mi a day" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (OpsSite) site = ops_site_start (FALSE);
      g_autofree char *csv = g_strdup_printf ("plate,date,value\nTDM 5508,%s\n", rows[i].before);
      g_autoptr (GError) error = NULL;
      g_autoptr (HsIdentity) identity = NULL;

      hs_ops_test_import_ok (site.test, "odometer", csv, 1, 0, 0);
      g_assert_false (odometer (&site, rows[i].text, NULL, &error));
      hs_ops_test_refused (&error, rows[i].said);
      g_assert_cmpint (hs_ops_test_count (site.test, "odometer"), ==, 1);
      g_assert_true (odometer (&site, rows[i].text, "another cluster", NULL));
      identity = load (&site);
      g_assert_cmpstr (identity->doubted, ==, "another cluster");
      g_assert_cmpint (identity->a_day_tenths, ==, HS_INT_NONE);
    }
}

/* Just within; and a reason that was not needed leaves no doubt. */
static void
test_odometer_fine (void)
{
  g_auto (OpsSite) site = ops_site_start (FALSE);
  g_autoptr (HsIdentity) identity = NULL;

  hs_ops_test_import_ok (site.test, "odometer", "plate,date,value\nTDM 5508,2026-03-08,92800\n", 1, 0, 0);
  g_assert_true (odometer (&site, "94800", "not needed", NULL));
  identity = load (&site);
  g_assert_null (identity->doubted);
  g_assert_cmpint (identity->a_day_tenths, ==, 10000);
}

/* The second reading of a job takes the place of the first, also when it is the lower one. */
static void
test_odometer_again (void)
{
  g_auto (OpsSite) site = ops_site_start (FALSE);
  g_autoptr (GError) error = NULL;

  g_assert_true (odometer (&site, "104500", NULL, NULL));
  g_assert_true (odometer (&site, "104050", NULL, NULL));
  hs_ops_test_one (site.test, "odometer WHERE value = 104050 AND doubted IS NULL AND on_date = '2026-03-10'");
  g_assert_cmpint (hs_ops_test_count (site.test, "odometer"), ==, 1);
  g_assert_true (hs_undo_last (hs_book_get_store (site.book), site.job_id, NOW, NULL, NULL));
  hs_ops_test_one (site.test, "odometer WHERE value = 104500");
  ops_site_arrive (&site, "2026-03-10T08:40");
  ops_site_square (&site, NOW + 9000);
  g_assert_false (odometer (&site, "104600", NULL, &error));
  hs_ops_test_refused (&error, "A-0001 is squared up");
}

/* VIN -------------------------------------------------------------------------------------------------------------- */

typedef struct
{
  const char *record;
  const char *typed;
  const char *why;
  const char *said; /* refused */
  HsIdentified how;
  const char *vin; /* on record afterwards */
} VinRow;

static const VinRow vin_rows[] = {
  { NULL, VIN, NULL, NULL, HS_IDENTIFIED_WRITTEN, VIN },
  { NULL, "1m8g-dm9a xkp0 42788", NULL, NULL, HS_IDENTIFIED_WRITTEN, VIN },
  { NULL, "042788", NULL, NULL, HS_IDENTIFIED_WRITTEN, "042788" },
  { "042788", VIN, NULL, NULL, HS_IDENTIFIED_WRITTEN, VIN },
  { VIN, VIN, NULL, NULL, HS_IDENTIFIED_AGREES, VIN },
  { VIN, "042788", NULL, NULL, HS_IDENTIFIED_AGREES, VIN },
  { VIN, "p 042788", NULL, NULL, HS_IDENTIFIED_AGREES, VIN },
  { VIN, "042789", NULL, "ends in 042788, this one in 042789: another vehicle, or a slip", 0, VIN },
  { VIN, "1G4AH59H45G118341", NULL, "TDM 5508 ends in 042788, this one in 118341", 0, VIN },
  { VIN, "1G4AH59H45G118341", "record was a slip", NULL, HS_IDENTIFIED_CORRECTED, "1G4AH59H45G118341" },
  { NULL, "1M8GDM9AXKP042778", NULL, "the check digit should be 7", 0, NULL },
  { NULL, "1M8GDM9AXKP042778", "plate on the dash says so", NULL, HS_IDENTIFIED_WRITTEN, "1M8GDM9AXKP042778" },
  { NULL, "IM8GDM9AXKP042788", NULL, "1", 0, NULL },
  { NULL, "1M8GDM9AXKPO42788", NULL, "0", 0, NULL },
  { NULL, "1M8GDM9AXKPQ42788", NULL, "Q", 0, NULL },
  { NULL, "1M8GDM9AXK", NULL, "A VIN has 17 signs since model year 1981 (49 CFR 565); this has 10", 0, NULL },
  { NULL, "DM9AXKP042788", NULL, "this has 13. Read all of it, or the last 6 to 8", 0, NULL },
  { NULL, "DM9AXKP042788", "the rest is rusted away", NULL, HS_IDENTIFIED_WRITTEN, "DM9AXKP042788" },
  { NULL, "KP042788", NULL, NULL, HS_IDENTIFIED_WRITTEN, "KP042788" },
  { VIN, "DM9AXKP042788", NULL, NULL, HS_IDENTIFIED_AGREES, VIN },
  { NULL, "O42788", NULL, "A VIN has no I, O or Q", 0, NULL },
  { NULL, "Q42788", "an old chassis", NULL, HS_IDENTIFIED_WRITTEN, "Q42788" },
  { NULL, "42788", NULL, "The last 6 signs of the VIN at least; “42788” are 5", 0, NULL },
  { NULL, "1M8GDM9AXKP0427889", NULL, "one too many", 0, NULL },
  { NULL, "", NULL, "is not a VIN", 0, NULL },
  { NULL, NULL, NULL, "is not a VIN", 0, NULL },
  { NULL, "042 7é8", NULL, "is not a VIN", 0, NULL },
};

static void
test_vin (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (vin_rows); i++)
    {
      const VinRow *row = &vin_rows[i];
      g_auto (OpsSite) site = ops_site_start (FALSE);
      g_autoptr (GError) error = NULL;
      g_autoptr (HsIdentity) identity = NULL;
      HsIdentified how = 77;

      g_test_message ("%s, %s", row->record, row->typed);
      if (row->record != NULL)
        g_assert_true (hs_identify_vin (site.book, site.job_id, row->record, NULL, NOW, NULL, NULL));
      g_assert_cmpint (hs_identify_vin (site.book, site.job_id, row->typed, row->why, NOW, &how, &error), ==,
                       row->said == NULL);
      if (row->said != NULL)
        hs_ops_test_refused (&error, row->said);
      g_assert_cmpint (how, ==, row->said == NULL ? (int) row->how : 77);
      identity = load (&site);
      g_assert_cmpstr (identity->vin, ==, row->vin);
    }
}

static void
set_year (OpsSite *site, gint64 year)
{
  g_autofree char *text = year == HS_INT_NONE ? g_strdup ("UPDATE vehicle SET year = NULL")
                                              : g_strdup_printf ("UPDATE vehicle SET year = %d", (int) year);

  sql (site, text);
}

/* Before 1981 a chassis number may be shorter; of an unknown year it is asked. */
static void
test_vin_by_year (void)
{
  static const struct
  {
    gint64 year;
    gboolean asked;
  } rows[] = { { 1980, FALSE }, { 1981, TRUE }, { 2024, TRUE }, { HS_INT_NONE, TRUE } };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (OpsSite) site = ops_site_start (FALSE);
      g_autoptr (GError) error = NULL;

      set_year (&site, rows[i].year);
      g_assert_cmpint (hs_identify_vin (site.book, site.job_id, "1M8GDM9AXK", NULL, NOW, NULL, &error), ==,
                       !rows[i].asked);
      if (rows[i].asked)
        g_assert_error (error, HS_OPS_ERROR, HS_OPS_ERROR_WANTS_WHY);
    }
}

/* A figure that hardly anybody drives so little to, when none was read before: a digit slipped, or another vehicle. */
static void
test_odometer_low (void)
{
  static const struct
  {
    gint64 year;
    const char *text;
    const char *said; /* %NULL: not asked */
  } rows[] = {
    { 2008, "1", "1 mi on a vehicle of 2008? A slip of the finger, or another vehicle?" },
    { 2008, "1799", "1799 mi on a vehicle of 2008?" },
    { 2008, "1800", NULL },
    { 2025, "1", NULL },
    { 2026, "0", NULL },
    { HS_INT_NONE, "9", "9 mi? A slip of the finger" },
    { HS_INT_NONE, "10", NULL },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (OpsSite) site = ops_site_start (FALSE);
      g_autoptr (GError) error = NULL;
      gboolean done;

      set_year (&site, rows[i].year);
      done = odometer (&site, rows[i].text, NULL, &error);
      g_assert_cmpint (done, ==, rows[i].said == NULL);
      if (done)
        continue;
      hs_ops_test_refused (&error, rows[i].said);
      g_assert_true (odometer (&site, rows[i].text, "stood in a barn", NULL));
      hs_ops_test_one (site.test, "odometer WHERE doubted = 'stood in a barn'");
    }
}

/* Why a record changed stays with the vehicle, and undo brings the old one back. */
static void
test_vin_corrected (void)
{
  g_auto (OpsSite) site = ops_site_start (FALSE);
  g_autofree char *letters = g_strnfill (10000, 'A');
  g_autoptr (GError) error = NULL;
  g_autoptr (HsIdentity) identity = NULL;

  g_assert_true (hs_identify_vin (site.book, site.job_id, VIN, NULL, NOW, NULL, NULL));
  g_assert_true (hs_identify_vin (site.book, site.job_id, "118341", "a slip", NOW, NULL, NULL));
  hs_ops_test_one (site.test, "vehicle WHERE note = '2026-03-10: VIN corrected: a slip' AND vin = '118341'");
  g_assert_true (hs_identify_vin (site.book, site.job_id, "042788", "after all", NOW, NULL, NULL));
  hs_ops_test_one (site.test, "vehicle WHERE note LIKE '%a slip' || char (10) || '2026-03-10: VIN corrected: after%'");
  g_assert_true (hs_undo_last (hs_book_get_store (site.book), site.job_id, NOW, NULL, NULL));
  g_assert_true (hs_undo_last (hs_book_get_store (site.book), site.job_id, NOW, NULL, NULL));
  identity = load (&site);
  g_assert_cmpstr (identity->vin, ==, VIN);
  g_assert_false (hs_identify_vin (site.book, site.job_id, letters, NULL, NOW, NULL, &error));
  g_assert_cmpuint (strlen (error->message), <, 200);
}

/* Plate ------------------------------------------------------------------------------------------------------------ */

static void
test_plate (void)
{
  static const struct
  {
    const char *plate;
    const char *why;
    const char *said;
    HsIdentified how;
    const char *is;
  } rows[] = {
    { "TDM 5508", NULL, NULL, HS_IDENTIFIED_AGREES, "TDM 5508" },
    { "tdm-5508", NULL, NULL, HS_IDENTIFIED_AGREES, "TDM 5508" },
    { "TDM 5580", NULL, "On record it carries TDM 5508, not “TDM 5580”", 0, "TDM 5508" },
    { "TDM 5580", "new plates", NULL, HS_IDENTIFIED_CORRECTED, "TDM 5580" },
    { "TDM 7717", NULL, "“TDM 7717” is another vehicle of this book", 0, "TDM 5508" },
    { "TDM 7717", "new plates", "“TDM 7717” is another vehicle of this book", 0, "TDM 5508" },
    { "--", NULL, "“--” is no plate", 0, "TDM 5508" },
    { NULL, NULL, "is no plate", 0, "TDM 5508" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (OpsSite) site = ops_site_start (FALSE);
      g_autoptr (GError) error = NULL;
      g_autoptr (HsIdentity) identity = NULL;
      HsIdentified how = 77;

      g_test_message ("%s", rows[i].plate);
      g_assert_cmpint (hs_identify_plate (site.book, site.job_id, rows[i].plate, rows[i].why, NOW, &how, &error), ==,
                       rows[i].said == NULL);
      if (rows[i].said != NULL)
        hs_ops_test_refused (&error, rows[i].said);
      g_assert_cmpint (how, ==, rows[i].said == NULL ? (int) rows[i].how : 77);
      identity = load (&site);
      g_assert_cmpstr (identity->plate, ==, rows[i].is);
      g_assert_cmpint (hs_ops_test_count (site.test, "old_plate"), ==, how == HS_IDENTIFIED_CORRECTED);
    }
}

/* A call to a vehicle that nobody named yet: its plate names it, known or new; until then there is nothing to hold a
 * VIN or an odometer against. */
static void
test_no_vehicle (void)
{
  static const struct
  {
    const char *plate;
    HsIdentified how;
    const char *vehicle;
    gint64 vehicles;
  } rows[] = {
    { "tdm 7717", HS_IDENTIFIED_AGREES, "Quenby Larkin", 2 },
    { "NEW 1", HS_IDENTIFIED_WRITTEN, "", 3 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (OpsSite) site = ops_site_start (FALSE);
      g_autoptr (GError) error = NULL;
      g_autoptr (HsIdentity) identity = NULL;
      HsIdentified how = 77;

      sql (&site, "UPDATE job SET vehicle_id = NULL");
      g_assert_false (odometer (&site, "104500", NULL, &error));
      hs_ops_test_refused (&error, "Write down the plate of A-0001 first");
      g_assert_false (hs_identify_vin (site.book, site.job_id, VIN, NULL, NOW, NULL, &error));
      hs_ops_test_refused (&error, "Write down the plate of A-0001 first");
      g_assert_true (hs_identify_plate (site.book, site.job_id, rows[i].plate, NULL, NOW, &how, NULL));
      g_assert_cmpint (how, ==, rows[i].how);
      identity = load (&site);
      g_assert_cmpstr (identity->vehicle, ==, rows[i].vehicle);
      g_assert_cmpint (hs_ops_test_count (site.test, "vehicle"), ==, rows[i].vehicles);
    }
}

/* Heard ------------------------------------------------------------------------------------------------------------ */

static void
test_saw_it (void)
{
  g_auto (OpsSite) site = ops_site_start (FALSE);
  g_autoptr (HsIdentity) identity = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_identify_saw_it (site.book, site.job_id, "yes", NOW, NULL));
  hs_ops_test_one (site.test, "job WHERE saw_it = 'yes'");
  g_assert_true (hs_identify_saw_it (site.book, site.job_id, "no", NOW, NULL));
  identity = load (&site);
  g_assert_cmpstr (identity->saw_it, ==, "no");
  g_assert_cmpstr (identity->words, ==, "lamp on");
  g_assert_false (hs_identify_saw_it (site.book, site.job_id, "perhaps", NOW, &error));
  hs_ops_test_refused (&error, "perhaps");
  g_assert_true (hs_identify_saw_it (site.book, site.job_id, NULL, NOW, NULL));
  hs_ops_test_one (site.test, "job WHERE saw_it IS NULL");
}

/* A caller who talks for ten thousand letters is written down to the last one. */
static void
test_long_words (void)
{
  g_auto (OpsSite) site = ops_site_start (FALSE);
  g_autofree char *words = g_strnfill (10000, 'w');
  HsCallSlip slip = { .job_id = site.job_id, .phone = "555-0115", .words = words, .plate = "TDM 5508",
                      .day = HS_DATE_NONE, .window_from = -1, .window_to = -1 };
  g_autoptr (GError) error = NULL;
  g_autofree char *id = hs_call_take (site.book, &slip, NOW, &error);
  g_autoptr (HsIdentity) identity = NULL;

  g_assert_no_error (error);
  identity = load (&site);
  g_assert_cmpstr (identity->words, ==, words);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/identify-op/odometer-texts", test_odometer_texts);
  g_test_add_func ("/identify-op/odometer-long", test_odometer_long);
  g_test_add_func ("/identify-op/said-back", test_said_back);
  g_test_add_func ("/identify-op/odometer-pace", test_odometer_pace);
  g_test_add_func ("/identify-op/odometer-odd", test_odometer_odd);
  g_test_add_func ("/identify-op/odometer-fine", test_odometer_fine);
  g_test_add_func ("/identify-op/odometer-again", test_odometer_again);
  g_test_add_func ("/identify-op/vin", test_vin);
  g_test_add_func ("/identify-op/vin-by-year", test_vin_by_year);
  g_test_add_func ("/identify-op/odometer-low", test_odometer_low);
  g_test_add_func ("/identify-op/vin-corrected", test_vin_corrected);
  g_test_add_func ("/identify-op/plate", test_plate);
  g_test_add_func ("/identify-op/no-vehicle", test_no_vehicle);
  g_test_add_func ("/identify-op/saw-it", test_saw_it);
  g_test_add_func ("/identify-op/long-words", test_long_words);
  return g_test_run ();
}
