// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What is open with the counters, from files: equal cores, returns by their key, needs by part and counter. */

#include "hs-core-row.h"
#include "hs-import.h"
#include "hs-job-op.h"
#include "hs-ops-test.h"

#include <string.h>

#define CORES "supplier,part,deposit,paid_on,job,where_now\n"
#define CORE "Kingpost Parts Counter,BW-55,18.00,2026-01-26,,\n"
#define RETURNS "supplier,part,quantity,amount,bought_on,last_day\n"

static HsOpsTest *
start (void)
{
  HsOpsTest *test = hs_ops_test_open ();

  hs_ops_test_fill (test);
  hs_ops_test_import_ok (test, "jobs",
                         "number,customer_phone,words,plate\nA-0001,555-0115,hums,TDM 5508\n"
                         "A-0002,555-0117,roars,TDM 7717\n",
                         2, 0, 0);
  return test;
}

/* A file is a count of equal cores: as many as it has are in the book afterwards, never fewer than before. */
static void
test_equal_cores (void)
{
  static const struct
  {
    const char *rows;
    gsize added;
    gsize unchanged;
    gint64 in_book;
  } files[] = {
    { CORE, 1, 0, 1 },
    { CORE, 0, 1, 1 },
    { CORE CORE, 1, 1, 2 },
    { CORE CORE CORE CORE, 2, 2, 4 },
    { CORE, 0, 1, 4 },
    { CORE "Kingpost Parts Counter,BW-55,18.01,2026-01-26,,\n", 1, 1, 5 },
    { CORE "Kingpost Parts Counter,BW-55,18.00,2026-01-27,,\n", 1, 1, 6 },
    { CORE "Kingpost Parts Counter,BW-55,18.00,2026-01-26,A-0001,\n", 1, 1, 7 },
    { CORE "Kingpost Parts Counter,GP-20D,18.00,2026-01-26,,\n", 1, 1, 8 },
    { CORE "Larch & Weir,BW-55,18.00,2026-01-26,,\n", 1, 1, 9 },
  };
  g_autoptr (HsOpsTest) test = start ();

  for (gsize i = 0; i < G_N_ELEMENTS (files); i++)
    {
      g_autofree char *text = g_strconcat (CORES, files[i].rows, NULL);

      hs_ops_test_import_ok (test, "cores", text, files[i].added, 0, files[i].unchanged);
      g_assert_cmpint (hs_ops_test_count (test, "core"), ==, files[i].in_book);
    }
}

/* The day by which it goes back is the supplier's: 45 days at one counter, none at the other. */
static void
test_core_fields (void)
{
  g_autoptr (HsOpsTest) test = start ();

  hs_ops_test_import_ok (test, "cores",
                         CORES "Kingpost Parts Counter,BW-55,18.00,2026-01-26,A-0001,in the van\n"
                               "Larch & Weir,BW-55,45.00,2026-02-24,,at_base\n"
                               "Kingpost Parts Counter,BW-55,18.00,2026-01-05,,credited\n"
                               "Kingpost Parts Counter,BW-55,30.00,2025-04-08,,lost\n",
                         4, 0, 0);
  hs_ops_test_one (test, "core WHERE due_on = '2026-03-12' AND where_now = 'in_the_van' AND deposit_cents = 1800 "
                         "AND paid_on = '2026-01-26' AND job_id = (SELECT id FROM job WHERE number = 'A-0001')");
  hs_ops_test_one (test, "core WHERE due_on IS NULL AND where_now = 'at_base' AND deposit_cents = 4500 "
                         "AND job_id IS NULL");
  hs_ops_test_one (test, "core WHERE where_now = 'credited' AND credit_ref = 'cores.csv, row 4'");
  hs_ops_test_one (test, "core WHERE where_now = 'lost' AND deposit_cents = 3000");
}

static void
test_core_faults (void)
{
  static const char *const rows[][2] = {
    { "Kingpost,BW-55,18.00,2026-01-26,,\n",
      "cores.csv:2: supplier: there is no supplier “Kingpost” in the book; import suppliers first\n" },
    { "Larch & Weir,XX-1,18.00,2026-01-26,,\n",
      "cores.csv:2: part: there is no part “XX-1” in the book; import parts first\n" },
    { "Larch & Weir,BW-55,18.00,2026-01-26,A-0009,\n",
      "cores.csv:2: job: there is no job A-0009 in the book; import jobs first\n" },
    { "Larch & Weir,BW-55,0.00,2026-01-26,A-0009,\n",
      "cores.csv:2: deposit: a deposit is more than nothing\n"
      "cores.csv:2: job: there is no job A-0009 in the book; import jobs first\n" },
    { "Larch & Weir,BW-55,,2026-01-26,,\n", "cores.csv:2: deposit: is empty, but it is needed\n" },
    { "Larch & Weir,BW-55,18.00,,,\n", "cores.csv:2: paid_on: is empty, but it is needed\n" },
  };
  g_autoptr (HsOpsTest) test = start ();

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *text = g_strconcat (CORES, rows[i][0], NULL);

      hs_ops_test_import_bad (test, "cores", text, rows[i][1]);
    }
}

/* A return is one of its kind by counter, part, day and quantity; amount and last day are changed. */
static void
test_returns (void)
{
  static const struct
  {
    const char *rows;
    gsize added;
    gsize changed;
    gsize unchanged;
    const char *found;
  } files[] = {
    { "Kingpost Parts Counter,GP-20D,3,46.50,2026-02-09,\n", 1, 0, 0,
      "return_part WHERE last_day = '2026-03-11' AND amount_cents = 4650 AND quantity_milli = 3000" },
    { "Kingpost Parts Counter,GP-20D,3,46.50,2026-02-09,\n", 0, 0, 1, "return_part" },
    { "Kingpost Parts Counter,GP-20D,3,45.00,2026-02-09,\n", 0, 1, 0, "return_part WHERE amount_cents = 4500" },
    { "Kingpost Parts Counter,GP-20D,3,45.00,2026-02-09,2026-03-20\n", 0, 1, 0,
      "return_part WHERE last_day = '2026-03-20'" },
    { "Kingpost Parts Counter,GP-20D,3,45.00,2026-02-09,\n", 0, 0, 1, "return_part WHERE last_day = '2026-03-20'" },
    { "Kingpost Parts Counter,GP-20D,2,31.00,2026-02-09,\n", 1, 0, 0, "return_part WHERE quantity_milli = 2000" },
    { "Kingpost Parts Counter,GP-20D,2,31.00,2026-02-10,\n", 1, 0, 0,
      "return_part WHERE bought_on = '2026-02-10' AND last_day = '2026-03-12'" },
    { "Kingpost Parts Counter,BW-55,2,31.00,2026-02-10,\n", 1, 0, 0, "return_part WHERE amount_cents = 3100 "
      "AND part_id = (SELECT id FROM part WHERE number = 'BW-55')" },
    { "Larch & Weir,BW-55,2,31.00,2026-02-10,\n", 1, 0, 0, "return_part WHERE last_day = '2026-02-24'" },
  };
  g_autoptr (HsOpsTest) test = start ();

  for (gsize i = 0; i < G_N_ELEMENTS (files); i++)
    {
      g_autofree char *text = g_strconcat (RETURNS, files[i].rows, NULL);

      hs_ops_test_import_ok (test, "returns", text, files[i].added, files[i].changed, files[i].unchanged);
      hs_ops_test_one (test, files[i].found);
    }
}

/* The same return twice in one file is one; with another amount it is a contradiction. */
static void
test_return_twice (void)
{
  static const char row[] = "Kingpost Parts Counter,GP-20D,3,46.50,2026-02-09,\n";
  g_autoptr (HsOpsTest) test = start ();
  g_autofree char *twice = g_strconcat (RETURNS, row, row, NULL);
  g_autofree char *clash
      = g_strconcat (RETURNS, row, "Kingpost Parts Counter,GP-20D,3.0,40.00,2026-02-09,\n", NULL);

  hs_ops_test_import_ok (test, "returns", twice, 1, 0, 1);
  hs_ops_test_one (test, "return_part");
  hs_ops_test_import_bad (test, "returns", clash,
                          "returns.csv:3: part: row 2 says something else about the same one; keep one of the two\n");
}

/* One need a job, part and counter. */
static void
test_needs (void)
{
  static const struct
  {
    const char *rows;
    gsize added;
    gsize changed;
    gsize unchanged;
    const char *found;
  } files[] = {
    { "A-0001,BW-55,,,,\n", 1, 0, 0,
      "need WHERE quantity_milli = 1000 AND sure_percent = 100 AND supplier_id IS NULL AND quoted_cents IS NULL "
      "AND state = 'wanted'" },
    { "A-0001,BW-55,,,,\n", 0, 0, 1, "need" },
    { "A-0001,BW-55,2,,,\n", 0, 1, 0, "need WHERE quantity_milli = 2000" },
    { "A-0001,BW-55,,38,,\n", 0, 1, 0, "need WHERE quantity_milli = 2000 AND sure_percent = 38" },
    { "A-0001,BW-55,,,,62.00\n", 0, 1, 0, "need WHERE sure_percent = 38 AND quoted_cents = 6200" },
    { "A-0001,BW-55,,,,62.00\n", 0, 0, 1, "need" },
    { "A-0001,BW-55,1,,Kingpost Parts Counter,\n", 1, 0, 0, "need WHERE supplier_id IS NOT NULL" },
    { "A-0001,BW-55,1,,kingpost parts counter,\n", 0, 0, 1, "need WHERE supplier_id IS NOT NULL" },
    { "A-0002,BW-55,0.5,,,\n", 1, 0, 0, "need WHERE quantity_milli = 500" },
    { "a2,GP-20D,4,,,\n", 1, 0, 0, "need WHERE quantity_milli = 4000" },
  };
  g_autoptr (HsOpsTest) test = start ();

  for (gsize i = 0; i < G_N_ELEMENTS (files); i++)
    {
      g_autofree char *text
          = g_strconcat ("job,part,quantity,sure_percent,supplier,quoted\n", files[i].rows, NULL);

      hs_ops_test_import_ok (test, "needs", text, files[i].added, files[i].changed, files[i].unchanged);
      hs_ops_test_one (test, files[i].found);
    }
}

static char *
many_rows (const char *head, const char *start_of_row, guint n)
{
  GString *text = g_string_new (head);
  HsDate first = hs_date_from_ymd (2016, 1, 1);

  for (guint i = 0; i < n; i++)
    {
      g_autofree char *day = hs_date_format (first + (HsDate) i);

      g_string_append_printf (text, "%s%s\n", start_of_row, day);
    }
  return g_string_free (text, FALSE);
}

static double
seconds_for (HsOpsTest *test, const char *kind, const char *head, const char *row, guint n)
{
  g_autofree char *text = many_rows (head, row, n);
  gint64 began = g_get_monotonic_time ();

  hs_ops_test_import_ok (test, kind, text, n, 0, 0);
  return (double) (g_get_monotonic_time () - began) / G_USEC_PER_SEC;
}

/* Eight times the rows take about eight times as long, not sixty-four times: the table is read once a file. */
static void
test_large_files (void)
{
  static const char *const kinds[][3] = {
    { "cores", "supplier,part,deposit,paid_on\n", "Larch & Weir,BW-55,18.00," },
    { "returns", "supplier,part,quantity,amount,bought_on\n", "Larch & Weir,BW-55,1,18.00," },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      g_autoptr (HsOpsTest) small = start ();
      g_autoptr (HsOpsTest) large = start ();
      double few = seconds_for (small, kinds[i][0], kinds[i][1], kinds[i][2], 400);
      double many = seconds_for (large, kinds[i][0], kinds[i][1], kinds[i][2], 3200);

      g_test_message ("%s: 400 in %.3f s, 3200 in %.3f s", kinds[i][0], few, many);
      g_assert_cmpfloat (many, <, 24 * few);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/import/counter/equal-cores", test_equal_cores);
  g_test_add_func ("/import/counter/core-fields", test_core_fields);
  g_test_add_func ("/import/counter/core-faults", test_core_faults);
  g_test_add_func ("/import/counter/returns", test_returns);
  g_test_add_func ("/import/counter/return-twice", test_return_twice);
  g_test_add_func ("/import/counter/needs", test_needs);
  g_test_add_func ("/import/counter/large-files", test_large_files);
  return g_test_run ();
}
