// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Whether a proof sheet is good all in all, and that it holds what is put on it. */

#include "hs-proof-sheet.h"

#include <string.h>

#include "core-test.h"

static void
test_good (void)
{
  static const struct
  {
    const char *before;
    const char *after;
    HsVerdict verdict;
    gboolean do_not_drive;
    const char *tried;
    const char *unproved_why;
    gboolean good;
  } rows[] = {
    { "11.95 V", "12.63 V", HS_VERDICT_WITHIN, FALSE, NULL, NULL, TRUE },
    { "11.95 V", "12.63 V", HS_VERDICT_WITHIN, FALSE, "5 of 5", NULL, TRUE },
    { NULL, "12.63 V", HS_VERDICT_WITHIN, FALSE, NULL, NULL, TRUE },
    { "11.95 V", "12.30 V", HS_VERDICT_WATCH, FALSE, NULL, NULL, TRUE },
    { "11.95 V", "12.30 V", HS_VERDICT_DEPENDS, FALSE, NULL, NULL, TRUE },
    { "11.95 V", "11.90 V", HS_VERDICT_OUTSIDE, FALSE, NULL, NULL, FALSE },
    { "11.95 V", "11.90 V", HS_VERDICT_OUTSIDE, FALSE, "5 of 5", NULL, FALSE },
    { "1 mm", "2 mm", HS_VERDICT_WATCH, TRUE, NULL, NULL, FALSE },
    { "11.95 V", NULL, HS_VERDICT_OUTSIDE, FALSE, NULL, NULL, FALSE },
    { "11.95 V", NULL, HS_VERDICT_OUTSIDE, FALSE, "5 of 5", NULL, TRUE },
    { "11.95 V", "12.63 V", HS_VERDICT_WITHIN, FALSE, "5 of 5", "dark", FALSE },
    { NULL, NULL, HS_VERDICT_WITHIN, FALSE, NULL, NULL, FALSE },
    { NULL, NULL, HS_VERDICT_WITHIN, FALSE, "5 of 5", NULL, TRUE },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsProofSheet) sheet = hs_proof_sheet_new ();
      HsProofChange *change = hs_proof_sheet_add_change (sheet);

      change->name = g_strdup ("Battery at rest");
      change->before.text = g_strdup (rows[i].before);
      change->after.text = g_strdup (rows[i].after);
      change->after.verdict = rows[i].verdict;
      change->after.do_not_drive = rows[i].do_not_drive;
      sheet->tried = g_strdup (rows[i].tried);
      sheet->unproved_why = g_strdup (rows[i].unproved_why);
      g_assert_cmpint (hs_proof_sheet_is_good (sheet), ==, rows[i].good);
    }
}

static void
test_empty (void)
{
  g_autoptr (HsProofSheet) sheet = hs_proof_sheet_new ();

  g_assert_false (hs_proof_sheet_is_good (sheet));
  g_assert_cmpuint (sheet->changes->len, ==, 0);
  g_assert_cmpuint (sheet->why->len, ==, 0);
  g_assert_cmpuint (sheet->parts->len, ==, 0);
  g_assert_cmpuint (sheet->declined->len, ==, 0);
  g_assert_cmpuint (sheet->looked_after->len, ==, 0);
  g_assert_cmpuint (sheet->open->len, ==, 0);
  hs_proof_sheet_free (NULL);
}

static void
test_lines (void)
{
  g_autoptr (HsProofSheet) sheet = hs_proof_sheet_new ();
  HsProofLine *first = hs_proof_line_add (sheet->parts, "drive belt", NULL);
  HsProofLine *second = hs_proof_line_add (sheet->declined, "Water pump", "520.94");

  g_ptr_array_add (first->more, g_strdup ("Covered to February 3, 2027."));
  g_assert_true (g_ptr_array_index (sheet->parts, 0) == first);
  g_assert_cmpstr (first->what, ==, "drive belt");
  g_assert_null (first->figure);
  g_assert_cmpuint (first->more->len, ==, 1);
  g_assert_cmpstr (second->figure, ==, "520.94");
  g_assert_cmpuint (second->more->len, ==, 0);
  g_assert_cmpuint (sheet->parts->len + sheet->declined->len, ==, 2);
}

/* Safe for any system: letters and digits, one dash between, no end without a stop. */
static void
test_file_name (void)
{
  static const struct
  {
    const char *number;
    const char *plate;
    const char *vehicle;
    const char *name;
  } rows[] = {
    { "A-0024", "TDM 4409", "Halvik Lodden 2009", "A-0024-TDM-4409-Halvik-Lodden-2009.pdf" },
    { "A-0024", NULL, NULL, "A-0024.pdf" },
    { "A-0024", "..", "../../etc: \"x\"", "A-0024-etc-x.pdf" },
    { NULL, NULL, "Pe\303\261a  \303\211cole", "Pena-Ecole.pdf" },
    { NULL, NULL, "\346\227\245", "before-and-after.pdf" },
    { NULL, NULL, NULL, "before-and-after.pdf" },
  };
  g_autoptr (HsProofSheet) long_one = hs_proof_sheet_new ();
  g_autofree char *cut = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsProofSheet) sheet = hs_proof_sheet_new ();
      g_autofree char *name = NULL;

      sheet->number = g_strdup (rows[i].number);
      sheet->plate = g_strdup (rows[i].plate);
      sheet->vehicle = g_strdup (rows[i].vehicle);
      name = hs_proof_sheet_dup_file_name (sheet);
      g_assert_cmpstr (name, ==, rows[i].name);
    }
  long_one->vehicle = g_strnfill (10000, 'x');
  cut = hs_proof_sheet_dup_file_name (long_one);
  g_assert_cmpuint (strlen (cut), ==, 84);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/proof-sheet/good", test_good);
  g_test_add_func ("/proof-sheet/file-name", test_file_name);
  g_test_add_func ("/proof-sheet/empty", test_empty);
  g_test_add_func ("/proof-sheet/lines", test_lines);
  return g_test_run ();
}
