// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Plates, VINs and job numbers. */

#include "hs-ident.h"

#include "core-test.h"

static void
test_plate (void)
{
  static const struct
  {
    const char *plate;
    const char *normal;
  } rows[] = {
    { "TDM 8816", "TDM8816" },
    { "tdm-8816", "TDM8816" },
    { " TDM.8816 ", "TDM8816" },
    { "ＴＤＭ８８１６", "TDM8816" },
    { "ÖHR 1", "ÖHR1" },
    { "öhr-1", "ÖHR1" },
    { "O\xcc\x88HR 1", "ÖHR1" },
    { "A·1", "A1" },
    { "", "" },
    { " - ", "" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *normal = hs_plate_normalize (rows[i].plate);
      g_autofree char *again = hs_plate_normalize (normal);

      g_assert_cmpstr (normal, ==, rows[i].normal);
      g_assert_cmpstr (again, ==, normal);
    }
}

static void
test_vin (void)
{
  /* 1M8GDM9AXKP042788 is the usual example of a check digit X; ISO 3779 leaves I, O and Q out of a VIN. */
  static const struct
  {
    const char *vin;
    const char *normal;
    const char *words;
  } rows[] = {
    { "1M8GDM9AXKP042788", "1M8GDM9AXKP042788", NULL },
    { "1m8gdm9axkp042788", "1M8GDM9AXKP042788", NULL },
    { " 1M8GDM9A-XKP-042788 ", "1M8GDM9AXKP042788", NULL },
    { "042788", "042788", NULL },
    { "OIQ12", "OIQ12", NULL },
    { "IM8GDM9AXKP042788", NULL, "never has I, O or Q" },
    { "1M8GDM9AXKPO42788", NULL, "never has I, O or Q" },
    { "1M8GDM9AXKPQ42788", NULL, "never has I, O or Q" },
    { "1M8GDM9AXKP0427889", NULL, "at most 17" },
    { "", NULL, "at most 17" },
    { "---", NULL, "at most 17" },
    { "Ä42788", NULL, "at most 17" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autofree char *normal = hs_vin_normalize (rows[i].vin, &error);

      if (rows[i].words != NULL)
        assert_bad_value (normal != NULL, &error, rows[i].words);
      g_assert_no_error (error);
      g_assert_cmpstr (normal, ==, rows[i].normal);
    }
}

static void
test_vin_tail (void)
{
  static const struct
  {
    const char *vin;
    guint n;
    const char *tail;
  } rows[] = {
    { "1M8GDM9AXKP042788", 6, "042788" },
    { "1m8gdm9axkp042788", 4, "2788" },
    { "2788", 6, "2788" },
    { "", 6, "" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *tail = hs_vin_tail (rows[i].vin, rows[i].n);

      g_assert_cmpstr (tail, ==, rows[i].tail);
    }
}

static void
test_job_number (void)
{
  static const struct
  {
    const char *text;
    char letter;
    int number;
    const char *back;
  } rows[] = {
    { "A-0021", 'A', 21, "A-0021" },
    { "a-21", 'A', 21, "A-0021" },
    { "a21", 'A', 21, "A-0021" },
    { "A 21", 'A', 21, "A-0021" },
    { " B-0001 ", 'B', 1, "B-0001" },
    { "Z-9999", 'Z', 9999, "Z-9999" },
    { "A-10000", 'A', 10000, "A-10000" },
    { "A-999999", 'A', HS_JOB_NUMBER_LAST, "A-999999" },
    { "A-000021", 'A', 21, "A-0021" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      char letter;
      int number;
      g_autofree char *back = NULL;

      g_assert_true (hs_job_number_parse (rows[i].text, &letter, &number, NULL));
      g_assert_cmpint (letter, ==, rows[i].letter);
      g_assert_cmpint (number, ==, rows[i].number);
      back = hs_job_number_format (letter, number);
      g_assert_cmpstr (back, ==, rows[i].back);
      g_assert_true (hs_job_number_parse (rows[i].text, NULL, NULL, NULL));
    }
}

static void
test_job_number_refuses (void)
{
  static const char *const rows[] = {
    "", "A", "A-", "21", "-21", "0021", "AB-21", "A--21", "A-21b", "A-0", "A-0000", "A-1000000",
    "A-99999999999999999999", "A-2.1", "A - 21", "Ä-21", "A-+21",
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      char letter = '?';
      int number = 4711;
      g_autoptr (GError) error = NULL;

      assert_bad_value (hs_job_number_parse (rows[i], &letter, &number, &error), &error, "is not a job number");
      g_assert_cmpint (letter, ==, '?');
      g_assert_cmpint (number, ==, 4711);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ident/plate", test_plate);
  g_test_add_func ("/ident/vin", test_vin);
  g_test_add_func ("/ident/vin-tail", test_vin_tail);
  g_test_add_func ("/ident/job-number", test_job_number);
  g_test_add_func ("/ident/job-number-refuses", test_job_number_refuses);
  return g_test_run ();
}
