// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What every kind of file shares: separators, marks, lines, columns, contradictions, and one transaction a file. */

#include "hs-ops-error.h"
#include "hs-ops-test.h"
#include "hs-settings-op.h"

#include <string.h>

#define AREA_COLUMNS "code, name, signal, position"

static void
test_spellings (void)
{
  static const char *const texts[] = {
    "code,name,signal\nA,Anvil,good\nB,Brook,none\n",
    "\xef\xbb\xbf" "code,name,signal\r\nA,Anvil,good\r\nB,Brook,none\r\n",
    "code;name;signal\nA;Anvil;good\nB;Brook;none",
    "code\tname\tsignal\rA\tAnvil\tgood\rB\tBrook\tnone\r",
    "signal,code,name\nGood signal,A,Anvil\nNO_SIGNAL,B,\"Brook\"\n",
    "NAME,Code,SIGNAL\nAnvil, A ,good\nBrook,B,none\n\n",
  };

  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_autoptr (HsOpsTest) test = hs_ops_test_open ();

      hs_ops_test_import_ok (test, "areas", texts[i], 2, 0, 0);
      hs_ops_test_import_ok (test, "areas", texts[0], 0, 0, 2);
      g_assert_cmpint (hs_ops_test_count (test, "area WHERE signal = 'good'"), ==, 1);
      g_assert_cmpint (hs_ops_test_count (test, "area WHERE signal = 'none'"), ==, 1);
    }
}

static void
test_bad_header (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();

  hs_ops_test_import_bad (test, "areas", "code,name,color,shape\nA,Anvil,red,round\n",
                          "areas.csv:1: color: there is no such column for areas; there are: " AREA_COLUMNS "\n"
                          "areas.csv:1: shape: there is no such column for areas; there are: " AREA_COLUMNS "\n");
  hs_ops_test_import_bad (test, "travel", "from,to,minutes\nA,A,4\n",
                          "travel.csv:1: miles: the column is missing, but it is needed\n");
}

static void
test_ignore_unknown (void)
{
  static const char text[] = "code,name,color\nA,Anvil,red\n";
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  g_autoptr (GBytes) bytes = g_bytes_new_static (text, strlen (text));
  g_autoptr (HsImportReport) report = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_import (test->book, "areas", "a.csv", bytes, HS_IMPORT_IGNORE_UNKNOWN, HS_OPS_TEST_NOW, &report,
                            &error));
  g_assert_no_error (error);
  g_assert_cmpuint (report->added, ==, 1);
}

static void
test_unknown_kind (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  g_autoptr (GBytes) bytes = g_bytes_new_static ("a\n", 2);
  g_autoptr (GError) error = NULL;

  g_assert_false (hs_import (test->book, "boats", "a.csv", bytes, HS_IMPORT_NONE, HS_OPS_TEST_NOW, NULL, &error));
  g_assert_error (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED);
  g_assert_nonnull (strstr (error->message, "odometer"));
}

static void
test_kinds (void)
{
  const char *const *kinds = hs_import_get_kinds ();

  g_assert_cmpuint (g_strv_length ((char **) kinds), ==, 18);
  g_assert_cmpstr (kinds[0], ==, "areas");
  g_assert_true (g_strv_contains (kinds, "returns"));
}

static void
test_empty (void)
{
  static const char *const texts[] = { "", "\xff\xfe" "c\0o\0", "code,code\nA,A\n", "\"code,name\nA,Anvil\n" };
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();

  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_autofree char *faults = NULL;

      g_assert_false (hs_ops_test_import (test, "areas", texts[i], NULL, &faults));
      g_assert_true (g_str_has_prefix (faults, "areas.csv:1: header: "));
    }
  hs_ops_test_import_ok (test, "areas", "code,name\n", 0, 0, 0);
}

/* Every bad row is listed, the good ones between them are not kept. */
static void
test_every_fault (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  g_autofree char *faults = NULL;
  g_auto (GStrv) lines = NULL;

  g_assert_false (hs_ops_test_import (test, "areas",
                                      "code,name,signal\nA,Anvil,good\n,Brook,good\nC,Crag,loud\nD,Dell\nE,,patchy\n",
                                      NULL, &faults));
  lines = g_strsplit (faults, "\n", -1);
  g_assert_cmpuint (g_strv_length (lines), ==, 5);
  g_assert_cmpstr (lines[0], ==, "areas.csv:3: code: is empty, but it is needed");
  g_assert_true (g_str_has_prefix (lines[1], "areas.csv:4: signal: "));
  g_assert_true (g_str_has_prefix (lines[2], "areas.csv:5: row: "));
  g_assert_cmpstr (lines[3], ==, "areas.csv:6: name: is empty, but it is needed");
  g_assert_cmpint (hs_ops_test_count (test, "area"), ==, 0);
}

static void
test_contradictions (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();

  hs_ops_test_import_bad (test, "areas", "code,name\nA,Anvil\nA,Brook\n",
                          "areas.csv:3: code: row 2 says something else about the same one; keep one of the two\n");
  hs_ops_test_import_ok (test, "areas", "code,name\nA,Anvil\nA,Anvil\n", 1, 0, 1);
  hs_ops_test_import_ok (test, "areas", "code,name\nA,Brook\n", 0, 1, 0);
}

static void
test_currency (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_settings_set (test->book, "currency", "jpy", HS_OPS_TEST_NOW, &error));
  g_assert_no_error (error);
  hs_ops_test_import_ok (test, "parts", "number,name,core_deposit\nP1,strut,1800\n", 1, 0, 0);
  g_assert_cmpint (hs_ops_test_count (test, "part WHERE core_deposit_cents = 1800"), ==, 1);
  g_autofree char *faults = NULL;
  g_assert_false (hs_ops_test_import (test, "parts", "number,name,core_deposit\nP2,spring,18.50\n", NULL, &faults));
  g_assert_true (g_str_has_prefix (faults, "parts.csv:2: core_deposit: "));
}

/* The examples that the documentation shows, in its order, twice. */
static void
test_examples (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  const char *const *kinds = hs_import_get_kinds ();

  for (int round = 0; round < 2; round++)
    for (gsize i = 0; kinds[i] != NULL; i++)
      {
        g_autofree char *name = g_strconcat (kinds[i], ".csv", NULL);
        g_autofree char *path = g_build_filename (g_getenv ("HS_IMPORT_EXAMPLES"), name, NULL);
        g_autoptr (HsImportReport) report = NULL;
        g_autofree char *faults = NULL;
        g_autofree char *text = NULL;

        g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
        hs_ops_test_import (test, kinds[i], text, &report, &faults);
        g_assert_cmpstr (faults, ==, "");
        g_assert_cmpuint (report->rows, >, 0);
        g_assert_cmpuint (round == 0 ? report->added : report->unchanged, ==, report->rows);
      }
}

/* The page names every kind and each of its columns. */
static void
test_page (void)
{
  g_autofree char *path = g_build_filename (g_getenv ("HS_IMPORT_EXAMPLES"), "README.md", NULL);
  const char *const *kinds = hs_import_get_kinds ();
  g_autofree char *page = NULL;

  g_assert_true (g_file_get_contents (path, &page, NULL, NULL));
  for (gsize i = 0; kinds[i] != NULL; i++)
    {
      g_autofree char *heading = g_strdup_printf ("\n### %s\n", kinds[i]);
      g_autofree char *name = g_strconcat (kinds[i], ".csv", NULL);
      g_autofree char *example = g_build_filename (g_getenv ("HS_IMPORT_EXAMPLES"), name, NULL);
      g_autofree char *text = NULL;
      const char *section = strstr (page, heading);
      const char *end = section == NULL ? NULL : strstr (section + 1, "\n### ");
      g_autofree char *part = NULL;
      g_auto (GStrv) columns = NULL;

      g_assert_nonnull (section);
      part = end == NULL ? g_strdup (section) : g_strndup (section, (gsize) (end - section));
      g_assert_true (g_file_get_contents (example, &text, NULL, NULL));
      *strchr (text, '\n') = '\0';
      columns = g_strsplit (text, ",", -1);
      for (gsize j = 0; columns[j] != NULL; j++)
        g_assert_nonnull (strstr (part, columns[j]));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/import/spellings", test_spellings);
  g_test_add_func ("/import/bad-header", test_bad_header);
  g_test_add_func ("/import/ignore-unknown", test_ignore_unknown);
  g_test_add_func ("/import/unknown-kind", test_unknown_kind);
  g_test_add_func ("/import/kinds", test_kinds);
  g_test_add_func ("/import/empty", test_empty);
  g_test_add_func ("/import/every-fault", test_every_fault);
  g_test_add_func ("/import/contradictions", test_contradictions);
  g_test_add_func ("/import/currency", test_currency);
  g_test_add_func ("/import/examples", test_examples);
  g_test_add_func ("/import/page", test_page);
  return g_test_run ();
}
