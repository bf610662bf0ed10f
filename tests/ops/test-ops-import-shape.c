// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The shape of a file of any kind: blank lines, separators too many, fields of several lines, rows out of order, rows
 * that say a thing twice, ten thousand rows; and that one fault in the last row leaves the book as it was. */

#include "hs-ops-test.h"

#include <sqlite3.h>
#include <string.h>

/* A good row for each kind; @other says something else about the same one, @column is where that is told. */
typedef struct
{
  const char *kind;
  const char *head;
  const char *row;
  const char *other;
  const char *column;
} Kind;

static const Kind kinds[] = {
  { "areas", "code,name,signal", "Z,Far End,good", "Z,Far End,none", "code" },
  { "travel", "from,to,minutes,miles", "T,H,12,5.0", "H,T,13,5.0", "to" },
  { "customers", "name,phone", "Iris Fenn,555-0190", "Ivo Fenn,(555) 0190", "phone" },
  { "vehicles", "plate,owner_phone", "TDM 9000,555-0115", "tdm-9000,555-0117", "plate" },
  { "suppliers", "name,core_days", "Mill Spares,30", "Mill Spares,31", "name" },
  { "parts", "number,name", "ST-1,starter", "ST-1,starter motor", "number" },
  { "prices", "supplier,part,cost,seen_on", "Larch & Weir,BW-55,62.00,2026-03-02",
    "larch & weir,BW-55,63.00,2026-03-02", "cost" },
  { "stock", "van,part,quantity", "A,BW-55,1", "a,battery 55 Ah flooded,2", "quantity" },
  { "jobs", "number,customer_phone,words", "A-0009,555-0115,squeaks", "A-0009,555-0117,squeaks", "number" },
  { "needs", "job,part,quantity", "A-0001,BW-55,1", "A-0001,BW-55,2", "part" },
  { "installed", "plate,what,date,cca", "TDM 5508,battery,2024-01-01,480", "tdm5508,battery,2024-01-01,500", "what" },
  { "returns", "supplier,part,quantity,amount,bought_on", "Larch & Weir,BW-55,1,62.00,2026-03-02",
    "Larch & Weir,BW-55,1.0,61.00,2026-03-02", "part" },
  { "trips", "from,to,left,minutes,miles", "T,H,2026-03-09T08:20,14,5.0", "Tannery Row,H,2026-03-09 08:20,15,5.0",
    "left" },
  { "holidays", "supplier,date,words", "Larch & Weir,2026-07-03,Founders' Day", "larch & weir,2026-07-03,taking stock",
    "date" },
  { "hours", "supplier,weekday,opens,shuts", "Larch & Weir,mon,08:00,12:30", NULL, NULL },
  { "odometer", "plate,date,value", "TDM 5508,2026-03-01,81400", NULL, NULL },
  { "readings", "job,check,value", "A-0001,battery_rest,12.42", NULL, NULL },
  { "cores", "supplier,part,deposit,paid_on", "Larch & Weir,BW-55,18.00,2026-03-01", NULL, NULL },
};

static HsOpsTest *
start (void)
{
  HsOpsTest *test = hs_ops_test_open ();

  hs_ops_test_fill (test);
  hs_ops_test_import_ok (test, "jobs", "number,customer_phone,words,plate\nA-0001,555-0115,hums,TDM 5508\n", 1, 0, 0);
  return test;
}

static void
append_rows (sqlite3 *db, const char *table, GString *all)
{
  g_autofree char *sql = g_strdup_printf ("SELECT * FROM \"%s\" ORDER BY 1, 2", table);
  sqlite3_stmt *rows = NULL;

  g_string_append_printf (all, "%s\n", table);
  g_assert_cmpint (sqlite3_prepare_v2 (db, sql, -1, &rows, NULL), ==, SQLITE_OK);
  while (sqlite3_step (rows) == SQLITE_ROW)
    {
      for (int i = 0; i < sqlite3_column_count (rows); i++)
        {
          const char *text = (const char *) sqlite3_column_text (rows, i);

          g_string_append_printf (all, "%d:%s|", sqlite3_column_type (rows, i), text == NULL ? "" : text);
        }
      g_string_append_c (all, '\n');
    }
  sqlite3_finalize (rows);
}

/* Every row of every table, the log of changes and the counters of rows included. */
static char *
dump (HsOpsTest *test)
{
  GString *all = g_string_new (NULL);
  sqlite3 *db = NULL;
  sqlite3_stmt *tables = NULL;

  g_assert_cmpint (sqlite3_open_v2 (test->path, &db, SQLITE_OPEN_READONLY, NULL), ==, SQLITE_OK);
  g_assert_cmpint (sqlite3_prepare_v2 (db,
                                       "SELECT name FROM sqlite_schema WHERE type = 'table' AND sql NOT LIKE "
                                       "'CREATE VIRTUAL%' ORDER BY name",
                                       -1, &tables, NULL),
                   ==, SQLITE_OK);
  while (sqlite3_step (tables) == SQLITE_ROW)
    append_rows (db, (const char *) sqlite3_column_text (tables, 0), all);
  sqlite3_finalize (tables);
  sqlite3_close (db);
  return g_string_free (all, FALSE);
}

/* A dump has to see what changes, or its being equal proves nothing. */
static void
test_dump (void)
{
  g_autoptr (HsOpsTest) test = start ();
  g_autofree char *before = dump (test);
  g_autofree char *after = NULL;

  hs_ops_test_import_ok (test, "areas", "code,name\nZ,Far End\n", 1, 0, 0);
  after = dump (test);
  g_assert_cmpstr (before, !=, after);
  g_assert_null (strstr (before, "Far End"));
  g_assert_nonnull (strstr (after, "Far End"));
}

/* Good rows, then one with too few fields: nothing of the good ones stays, in no table. */
static void
test_last_row (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      const Kind *kind = &kinds[i];
      g_autoptr (HsOpsTest) test = start ();
      g_autofree char *good = g_strdup_printf ("%s\n%s\n", kind->head, kind->row);
      g_autofree char *csv = g_strdup_printf ("%s\n%s\n%s\nx\n", kind->head, kind->row, kind->row);
      g_autofree char *before = dump (test);
      g_autofree char *start_of_fault = g_strdup_printf ("%s.csv:4: row: row 4 has 1 fields", kind->kind);
      g_autofree char *after = NULL;
      g_autofree char *faults = NULL;

      g_assert_false (hs_ops_test_import (test, kind->kind, csv, NULL, &faults));
      g_assert_true (g_str_has_prefix (faults, start_of_fault));
      after = dump (test);
      g_assert_cmpstr (before, ==, after);
      hs_ops_test_import_ok (test, kind->kind, good, 1, 0, 0);
    }
}

/* What a first file brought stays when a second one that would change it has a fault. */
static void
test_second_file (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      const Kind *kind = &kinds[i];
      g_autoptr (HsOpsTest) test = start ();
      g_autofree char *first = g_strdup_printf ("%s\n%s\n", kind->head, kind->row);
      g_autofree char *second = NULL;
      g_autofree char *before = NULL;
      g_autofree char *after = NULL;

      if (kind->other == NULL)
        continue;
      second = g_strdup_printf ("%s\n%s\nx\n", kind->head, kind->other);
      hs_ops_test_import_ok (test, kind->kind, first, 1, 0, 0);
      before = dump (test);
      g_assert_false (hs_ops_test_import (test, kind->kind, second, NULL, NULL));
      after = dump (test);
      g_assert_cmpstr (before, ==, after);
    }
}

/* The same row again adds nothing, but two equal cores are two. */
static void
test_twice (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      const Kind *kind = &kinds[i];
      g_autoptr (HsOpsTest) test = start ();
      g_autofree char *csv = g_strdup_printf ("%s\n%s\n%s\n", kind->head, kind->row, kind->row);
      gsize added = g_str_equal (kind->kind, "cores") ? 2 : 1;

      g_test_message ("%s", kind->kind);
      hs_ops_test_import_ok (test, kind->kind, csv, added, 0, 2 - added);
      hs_ops_test_import_ok (test, kind->kind, csv, 0, 0, 2);
    }
}

/* Two rows of one file that say different things about one and the same; the later one names the earlier one. */
static void
test_contradicted (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      const Kind *kind = &kinds[i];
      g_autoptr (HsOpsTest) test = start ();
      g_autofree char *csv = g_strdup_printf ("%s\n\n%s\n%s\n", kind->head, kind->row, kind->other);
      g_autofree char *fault = NULL;

      if (kind->other == NULL)
        continue;
      fault = g_strdup_printf ("%s.csv:4: %s: row 3 says something else about the same one; keep one of the two\n",
                               kind->kind, kind->column);
      hs_ops_test_import_bad (test, kind->kind, csv, fault);
    }
}

/* A header alone is a file without rows; no byte at all is no file. */
static void
test_nothing_in_it (void)
{
  g_autoptr (HsOpsTest) test = start ();

  for (gsize i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      const Kind *kind = &kinds[i];
      g_autofree char *header = g_strdup_printf ("%s\n", kind->head);
      g_autofree char *blank = g_strdup_printf ("\n\n%s\r\n\r\n\n", kind->head);
      g_autofree char *fault
          = g_strdup_printf ("%s.csv:1: header: the file is empty: its first row must name the columns\n", kind->kind);

      hs_ops_test_import_ok (test, kind->kind, kind->head, 0, 0, 0);
      hs_ops_test_import_ok (test, kind->kind, header, 0, 0, 0);
      hs_ops_test_import_ok (test, kind->kind, blank, 0, 0, 0);
      hs_ops_test_import_bad (test, kind->kind, "", fault);
      hs_ops_test_import_bad (test, kind->kind, "\n\r\n", fault);
    }
}

/* Columns in any order: the same file turned round is the same file. */
static void
test_turned_round (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      const Kind *kind = &kinds[i];
      g_autoptr (HsOpsTest) test = start ();
      g_auto (GStrv) head = g_strsplit (kind->head, ",", -1);
      g_auto (GStrv) row = g_strsplit (kind->row, ",", -1);
      g_autofree char *straight = g_strdup_printf ("%s\n%s\n", kind->head, kind->row);
      g_autoptr (GString) turned = g_string_new (NULL);

      for (guint j = g_strv_length (head); j > 0; j--)
        g_string_append_printf (turned, "%s%s", head[j - 1], j > 1 ? ";" : "\n");
      for (guint j = g_strv_length (row); j > 0; j--)
        g_string_append_printf (turned, "%s%s", row[j - 1], j > 1 ? ";" : "\n");
      hs_ops_test_import_ok (test, kind->kind, turned->str, 1, 0, 0);
      hs_ops_test_import_ok (test, kind->kind, straight, 0, 0, 1);
    }
}

/* Which rows are counted, and what is told of lines that are no rows. */
static void
test_lines (void)
{
  static const char *const files[][2] = {
    { "code,name\n\nX,Anvil\n\n\n,Brook\n", "areas.csv:6: code: is empty, but it is needed\n" },
    { "code,name\r\nX,Anvil\r\n,\r\n",
      "areas.csv:3: code: is empty, but it is needed\nareas.csv:3: name: is empty, but it is needed\n" },
    { "code,name\nX,Anvil,\n",
      "areas.csv:2: row: row 2 has 3 fields and the header 2: check for a missing or extra comma\n" },
    { "code;name\nX;Anvil;\n",
      "areas.csv:2: row: row 2 has 3 fields and the header 2: check for a missing or extra semicolon\n" },
    { "code\tname\nX\n",
      "areas.csv:2: row: row 2 has 1 fields and the header 2: check for a missing or extra tab\n" },
    { "code,name,\nX,Anvil,\n", "areas.csv:1: header: column 3 of the header has no name: name it or remove it\n" },
    { "code,name,Code\nX,Anvil,Y\n",
      "areas.csv:1: header: the header names “Code” twice: remove one of the columns\n" },
    { "code,name\n  , \n",
      "areas.csv:2: code: is empty, but it is needed\nareas.csv:2: name: is empty, but it is needed\n" },
    { "name\nAnvil\n", "areas.csv:1: code: the column is missing, but it is needed\n" },
    { "Place\nAnvil\n",
      "areas.csv:1: Place: there is no such column for areas; there are: code, name, signal, position\n"
      "areas.csv:1: code: the column is missing, but it is needed\n"
      "areas.csv:1: name: the column is missing, but it is needed\n" },
    { "code,name\nX,Anv\xff" "il\n",
      "areas.csv:2: row: row 2 holds letters that are not UTF-8: save the file as UTF-8\n" },
    { "code,name\nX,\"Anvil\"s\nY,Brook\n,Crag\n",
      "areas.csv:2: row: row 2 has text behind a closing quote: write \"\" for a quote inside a field\n"
      "areas.csv:4: code: is empty, but it is needed\n" },
    { "code,name\nX,\"Anvil\nY,Brook\n",
      "areas.csv:2: row: row 2 opens a quote that is never closed: put a \" where the field ends\n" },
  };
  g_autoptr (HsOpsTest) test = start ();

  for (gsize i = 0; i < G_N_ELEMENTS (files); i++)
    hs_ops_test_import_bad (test, "areas", files[i][0], files[i][1]);
}

/* A field of several lines is one row; faults come row by row, in each row as the columns are told on the page. */
static void
test_several_lines (void)
{
  g_autoptr (HsOpsTest) test = start ();

  hs_ops_test_import_bad (test, "customers",
                          "note,terms_days,phone,name\n"
                          "\"first\nsecond\n\nfourth\",14,555-0190,Iris Fenn\n"
                          "\"one\r\ntwo\",-1,555-0191,\n"
                          ",0,555-0192,Odo Marsh\n"
                          "\"\"\"\n\"\"\",9999,555-0193,\n",
                          "customers.csv:3: name: is empty, but it is needed\n"
                          "customers.csv:3: terms_days: “-1” must lie between 0 and 3650\n"
                          "customers.csv:5: name: is empty, but it is needed\n"
                          "customers.csv:5: terms_days: “9999” must lie between 0 and 3650\n");
}

/* Quotes, separators, line breaks and letters of any script stand in the book as they stood in the field. */
static void
test_letters (void)
{
  static const char csv[] = "name,phone,note\n"
                            "Zo\u00eb \u00d8sterg\u00e5rd,555-0190,\"said \"\"stop\"\", twice; then \u20ac5\"\n"
                            "\u041c\u0438\u043b\u043e,555-0191,\"one\n two\"\n"
                            "\u6771 \u4eac,555-0192,\" , \"\n"
                            "  Odo Marsh\t,555-0193,\"\U0001F697\"\n";
  static const char *const found[] = {
    "customer WHERE name = 'Zo\u00eb \u00d8sterg\u00e5rd' AND note = 'said \"stop\", twice; then \u20ac5'",
    "customer WHERE name = '\u041c\u0438\u043b\u043e' AND note = 'one' || char (10) || ' two'",
    "customer WHERE name = '\u6771 \u4eac' AND note = ','",
    "customer WHERE name = 'Odo Marsh' AND note = char (0x1F697)",
  };
  g_autoptr (HsOpsTest) test = start ();

  hs_ops_test_import_ok (test, "customers", csv, 4, 0, 0);
  for (gsize i = 0; i < G_N_ELEMENTS (found); i++)
    hs_ops_test_one (test, found[i]);
  hs_ops_test_import_ok (test, "customers", csv, 0, 0, 4);
}

/* Rows in an order that no book would be written in. */
static void
test_out_of_order (void)
{
  g_autoptr (HsOpsTest) test = start ();

  hs_ops_test_import_ok (test, "odometer",
                         "plate,date,value\nTDM 5508,2025-12-11,94400\nTDM 5508,2024-01-01,70000\n"
                         "TDM 5508,2025-09-02,81400\n",
                         3, 0, 0);
  hs_ops_test_import_bad (test, "odometer", "plate,date,value\nTDM 5508,2025-06-01,81401\n",
                          "odometer.csv:2: value: It showed 81400 mi on 2025-09-02. A slip of the finger, a changed "
                          "cluster, another vehicle? Read it again, or give the reason. A file gives no reason: that "
                          "goes beside the odometer of a call.\n");
  /* A digit too many: the question that is asked beside the vehicle is asked here too. */
  hs_ops_test_import_bad (test, "odometer", "plate,date,value\nTDM 5508,2025-12-12,95401\n",
                          "odometer.csv:2: value: That is 1001 mi a day since 2025-12-11, when it showed 94400. A "
                          "digit too many, miles taken for kilometers, another vehicle? Read it again, or give the "
                          "reason. A file gives no reason: that goes beside the odometer of a call.\n");
  hs_ops_test_import_ok (test, "odometer", "plate,date,value\nTDM 5508,2025-12-12,95400\n", 1, 0, 0);
  hs_ops_test_import_ok (test, "hours",
                         "supplier,weekday,opens,shuts\nLarch & Weir,tue,13:15,17:00\nLarch & Weir,mon,13:15,17:00\n"
                         "Larch & Weir,tue,08:00,13:15\n",
                         3, 0, 0);
  hs_ops_test_import_ok (test, "prices",
                         "supplier,part,cost,seen_on\nLarch & Weir,BW-55,63.00,2026-03-02\n"
                         "Larch & Weir,BW-55,58.00,2026-01-05\n",
                         2, 0, 0);
  hs_ops_test_import_ok (test, "jobs",
                         "number,customer_phone,words,plate,kind\nA-0030,555-0115,roars,TDM 5508,repair\n"
                         "A-0010,555-0115,roars again,TDM 5508,return visit\n",
                         2, 0, 0);
  hs_ops_test_one (test, "job WHERE number = 'A-0010' AND return_why = 'not_decided' "
                         "AND follows_job_id = (SELECT id FROM job WHERE number = 'A-0030')");
  hs_ops_test_one (test, "van WHERE letter = 'A' AND next_number = 31");
}

/* One and the same, spelled as people spell it: no second one comes of that. */
static void
test_spelled_otherwise (void)
{
  static const struct
  {
    const char *kind;
    const char *text;
    const char *found;
  } rows[] = {
    { "jobs", "number,customer_phone,words\na-0001,555-0115,roars\n",
      "job WHERE number = 'A-0001' AND words = 'roars'" },
    { "jobs", "number,customer_phone,words\nA 1,555-0115,rattles\n", "job WHERE words = 'rattles'" },
    { "suppliers", "name,core_days\nlarch & weir,60\n", "supplier WHERE core_days = 60" },
    { "suppliers", "name,core_days\nLarch & Weir,61\n", "supplier WHERE name = 'Larch & Weir' AND core_days = 61" },
  };
  g_autoptr (HsOpsTest) test = start ();

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      hs_ops_test_import_ok (test, rows[i].kind, rows[i].text, 0, 1, 0);
      hs_ops_test_one (test, rows[i].found);
    }
  g_assert_cmpint (hs_ops_test_count (test, "job"), ==, 1);
  g_assert_cmpint (hs_ops_test_count (test, "supplier"), ==, 2);
  hs_ops_test_import_bad (test, "jobs", "number,customer_phone,words\nA-0009,555-0115,hums\na9,555-0115,roars\n",
                          "jobs.csv:3: number: row 2 says something else about the same one; keep one of the two\n");
  hs_ops_test_import_bad (test, "suppliers", "name,core_days\nMill Spares,30\nMILL SPARES,31\n",
                          "suppliers.csv:3: name: row 2 says something else about the same one; keep one of the two\n");
  hs_ops_test_import_ok (test, "jobs", "number,customer_phone,words\nJOB 7,555-0115,hums\nb12,555-0115,hums\n", 2, 0,
                         0);
  hs_ops_test_one (test, "job WHERE number = 'JOB 7'");
  hs_ops_test_one (test, "job WHERE number = 'B-0012'");
  hs_ops_test_import_ok (test, "jobs", "number,customer_phone,words\nA-7,555-0115,hums\nM7,555-0115,hums\n", 2, 0, 0);
  hs_ops_test_one (test, "job WHERE number = 'A-7'");
  hs_ops_test_one (test, "job WHERE number = 'M7'");
  hs_ops_test_import_ok (test, "jobs", "number,customer_phone,words\nA-0007,555-0115,hums\nm-7,555-0115,hums\n", 0, 0,
                         2);
}

static void
import_many (HsOpsTest *test, const char *kind, const char *head, const char *start_of_row, const char *end_of_row)
{
  g_autoptr (GString) text = g_string_new (head);

  for (int i = 0; i < 10000; i++)
    g_string_append_printf (text, "%s%05d%s\n", start_of_row, i, end_of_row);
  hs_ops_test_import_ok (test, kind, text->str, 10000, 0, 0);
  hs_ops_test_import_ok (test, kind, text->str, 0, 0, 10000);
}

static void
test_ten_thousand (void)
{
  g_autoptr (HsOpsTest) test = start ();

  import_many (test, "parts", "number,name\n", "N-", ",washer");
  g_assert_cmpint (hs_ops_test_count (test, "part WHERE name = 'washer'"), ==, 10000);
  import_many (test, "customers", "phone,name\n", "556-", ",Odo Marsh");
  g_assert_cmpint (hs_ops_test_count (test, "customer WHERE name = 'Odo Marsh'"), ==, 10000);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/import/shape/dump", test_dump);
  g_test_add_func ("/import/shape/last-row", test_last_row);
  g_test_add_func ("/import/shape/second-file", test_second_file);
  g_test_add_func ("/import/shape/twice", test_twice);
  g_test_add_func ("/import/shape/contradicted", test_contradicted);
  g_test_add_func ("/import/shape/nothing-in-it", test_nothing_in_it);
  g_test_add_func ("/import/shape/turned-round", test_turned_round);
  g_test_add_func ("/import/shape/lines", test_lines);
  g_test_add_func ("/import/shape/several-lines", test_several_lines);
  g_test_add_func ("/import/shape/letters", test_letters);
  g_test_add_func ("/import/shape/out-of-order", test_out_of_order);
  g_test_add_func ("/import/shape/spelled-otherwise", test_spelled_otherwise);
  g_test_add_func ("/import/shape/ten-thousand", test_ten_thousand);
  return g_test_run ();
}
