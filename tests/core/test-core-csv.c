// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Comma separated values: the examples of RFC 4180 §2, what spreadsheets write, and what is broken. */

#include "hs-csv.h"

#include "core-test.h"

#define MOST_CELLS 12

/* Reads @text whole and writes down what it found: fields in |…|, rows by /, a bad row as !. */
static char *
read_all (const char *text, gssize length, char separator)
{
  g_autoptr (GBytes) bytes = g_bytes_new (text, length < 0 ? strlen (text) : (gsize) length);
  g_autoptr (GError) error = NULL;
  g_autoptr (HsCsv) csv = hs_csv_new (bytes, separator, &error);
  GString *found = g_string_new (NULL);
  HsCsvStep step;

  g_assert_no_error (error);
  for (guint i = 0; i < hs_csv_get_n_columns (csv); i++)
    g_string_append_printf (found, "%s|", hs_csv_get_header (csv)[i]);
  while ((step = hs_csv_next (csv, &error)) != HS_CSV_END)
    {
      g_string_append (found, step == HS_CSV_BAD_ROW ? "/!" : "/");
      g_assert_true ((step == HS_CSV_BAD_ROW) == (error != NULL));
      g_clear_error (&error);
      for (guint i = 0; step == HS_CSV_ROW && i < hs_csv_get_n_columns (csv); i++)
        g_string_append_printf (found, "%s|", hs_csv_get_field (csv, i));
    }
  g_assert_cmpstr (hs_csv_get_field (csv, 0), ==, "");
  return g_string_free (found, FALSE);
}

static void
test_reads (void)
{
  static const struct
  {
    const char *text;
    const char *found;
  } rows[] = {
    /* RFC 4180 §2.1 to §2.7; the header is ours. */
    { "a,b,c\r\naaa,bbb,ccc\r\nzzz,yyy,xxx\r\n", "a|b|c|/aaa|bbb|ccc|/zzz|yyy|xxx|" },
    { "a,b,c\r\naaa,bbb,ccc\r\nzzz,yyy,xxx", "a|b|c|/aaa|bbb|ccc|/zzz|yyy|xxx|" },
    { "a,b,c\r\n\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx", "a|b|c|/aaa|bbb|ccc|/zzz|yyy|xxx|" },
    { "a,b,c\r\n\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx", "a|b|c|/aaa|b\r\nbb|ccc|/zzz|yyy|xxx|" },
    { "a,b,c\r\n\"aaa\",\"b\"\"bb\",\"ccc\"", "a|b|c|/aaa|b\"bb|ccc|" },
    { "a,b\n x , y \n", "a|b|/ x | y |" },
    /* What spreadsheets add. */
    { "\xef\xbb\xbf" "a,b\n1,2\n", "a|b|/1|2|" },
    { "\xef\xbb\xbf\"a\",b\n1,2\n", "a|b|/1|2|" },
    { "a;b\n1,5;2\n", "a|b|/1,5|2|" },
    { "a\tb\n1,5\t2;3\n", "a|b|/1,5|2;3|" },
    { "a\r1\r2\r", "a|/1|/2|" },
    { "a\n1\n", "a|/1|" },
    { " a , b \n1,2\n", "a|b|/1|2|" },
    { "\n\r\na,b\n\n1,2\n\n\n3,4\n\n", "a|b|/1|2|/3|4|" },
    { "a,b\n,\n", "a|b|/||" },
    { "a,b\n\"\",\"\"\n", "a|b|/||" },
    { "a\n\"\"\n", "a|/|" },
    { "a,b\n5\" pipe,x\"y\n", "a|b|/5\" pipe|x\"y|" },
    { "a,b\n\"\"\"\",\"\"\"x\"\"\"\n", "a|b|/\"|\"x\"|" },
    { "a,b\n\"one\ntwo\n\nthree\",4\n", "a|b|/one\ntwo\n\nthree|4|" },
    { "a,b\nÉté,東京\n", "a|b|/Été|東京|" },
    { "a,b", "a|b|" },
    /* Broken rows are told, and the next one is read. */
    { "a,b\n1\n3,4\n", "a|b|/!/3|4|" },
    { "a,b\n1,2,3\n3,4\n", "a|b|/!/3|4|" },
    { "a,b\n1,2,\n3,4\n", "a|b|/!/3|4|" },
    { "a,b\n\"1\"x,2\n3,4\n", "a|b|/!/3|4|" },
    { "a,b\n\"1\" ,2\n3,4\n", "a|b|/!/3|4|" },
    { "a,b\nx\xff,2\n3,4\n", "a|b|/!/3|4|" },
    { "a,b\n\xed\xa0\x80,2\n3,4\n", "a|b|/!/3|4|" },
    { "a,b\n\xc3,2\n3,4\n", "a|b|/!/3|4|" },
    { "a,b\n1,\"2\n3,4\n", "a|b|/!" },
    { "a,b\n1,2\n\"", "a|b|/1|2|/!" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *found = read_all (rows[i].text, -1, '\0');

      g_assert_cmpstr (found, ==, rows[i].found);
    }
}

static void
test_separator (void)
{
  static const struct
  {
    const char *text;
    char given;
    char found;
    guint n_columns;
  } rows[] = {
    { "a,b,c\n", '\0', ',', 3 },
    { "a;b;c\n", '\0', ';', 3 },
    { "a\tb\tc\n", '\0', '\t', 3 },
    { "a\n", '\0', ',', 1 },
    { "a,b;c\n", '\0', ',', 2 },
    { "a;b;c,d\n", '\0', ';', 3 },
    { "\"a,b,c\";d\n", '\0', ';', 2 },
    { "a;b\nc,d,e,f\n", '\0', ';', 2 },
    { "\n\na;b\n", '\0', ';', 2 },
    { "a,b;c\n", ';', ';', 2 },
    { "a,b\tc\n", '\t', '\t', 2 },
    { "a;b\n", ',', ',', 1 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GBytes) bytes = g_bytes_new_static (rows[i].text, strlen (rows[i].text));
      g_autoptr (HsCsv) csv = hs_csv_new (bytes, rows[i].given, NULL);

      g_assert_nonnull (csv);
      g_assert_cmpint (hs_csv_get_separator (csv), ==, rows[i].found);
      g_assert_cmpuint (hs_csv_get_n_columns (csv), ==, rows[i].n_columns);
    }
}

static void
test_header_refuses (void)
{
  static const struct
  {
    const char *text;
    gssize length;
    const char *words;
  } rows[] = {
    { "", 0, "the file is empty" },
    { "\n\r\n", 3, "the file is empty" },
    { "\xef\xbb\xbf", 3, "the file is empty" },
    { "a,,b\n", -1, "column 2 of the header has no name" },
    { "a,b,\n", -1, "column 3 of the header has no name" },
    { "a, ,b\n", -1, "column 2" },
    { "a,b,a\n", -1, "names “a” twice" },
    { "a,b,A\n", -1, "names “A” twice" },
    { "a,b, a \n", -1, "names “a” twice" },
    { "a,\"b\n1,2\n", -1, "row 1 opens a quote that is never closed" },
    { "a,\"b\"x\n1,2\n", -1, "row 1 has text behind a closing quote" },
    { "a,b\xff\n", -1, "row 1 holds letters that are not UTF-8" },
    { "a\0,b\n", 5, "row 1 holds a NUL byte" },
    { "\xff\xfe" "a\0", 4, "in UTF-16" },
    { "\xff\xfe", 2, "in UTF-16" },
    { "\xfe\xff\0a", 4, "in UTF-16" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      gsize length = rows[i].length < 0 ? strlen (rows[i].text) : (gsize) rows[i].length;
      g_autoptr (GBytes) bytes = g_bytes_new (rows[i].text, length);
      g_autoptr (GError) error = NULL;
      g_autoptr (HsCsv) csv = hs_csv_new (bytes, '\0', &error);

      assert_bad_value (csv != NULL, &error, rows[i].words);
    }
}

/* Rows count as a spreadsheet counts them, lines as an editor does; both go on behind a bad row. */
static void
test_row_and_line (void)
{
  static const char text[] = "a,b\n1,2\n\"x\ny\",3\n\n4\n5,\"6\"z\n7,8\xff\n9,0,1\n2,\"3";
  static const struct
  {
    HsCsvStep step;
    guint row;
    guint line;
    const char *words;
  } rows[] = {
    { HS_CSV_ROW, 2, 2, NULL },
    { HS_CSV_ROW, 3, 3, NULL },
    { HS_CSV_BAD_ROW, 5, 6, "row 5 (line 6) has 1 fields and the header 2: check for a missing or extra comma" },
    { HS_CSV_BAD_ROW, 6, 7, "row 6 (line 7) has text behind a closing quote" },
    { HS_CSV_BAD_ROW, 7, 8, "row 7 (line 8) holds letters that are not UTF-8" },
    { HS_CSV_BAD_ROW, 8, 9, "row 8 (line 9) has 3 fields" },
    { HS_CSV_BAD_ROW, 9, 10, "row 9 (line 10) opens a quote that is never closed" },
    { HS_CSV_END, 9, 10, NULL },
    { HS_CSV_END, 9, 10, NULL },
  };
  g_autoptr (GBytes) bytes = g_bytes_new_static (text, sizeof text - 1);
  g_autoptr (HsCsv) csv = hs_csv_new (bytes, '\0', NULL);

  g_assert_nonnull (csv);
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_cmpint (hs_csv_next (csv, &error), ==, rows[i].step);
      g_assert_cmpuint (hs_csv_get_row (csv), ==, rows[i].row);
      g_assert_cmpuint (hs_csv_get_line (csv), ==, rows[i].line);
      if (rows[i].words != NULL)
        assert_bad_value (FALSE, &error, rows[i].words);
      g_assert_no_error (error);
    }
}

static void
test_names_the_separator (void)
{
  static const struct
  {
    const char *text;
    const char *words;
  } rows[] = {
    { "a,b\n1\n", "extra comma" },
    { "a;b\n1\n", "extra semicolon" },
    { "a\tb\n1\n", "extra tab" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GBytes) bytes = g_bytes_new_static (rows[i].text, strlen (rows[i].text));
      g_autoptr (HsCsv) csv = hs_csv_new (bytes, '\0', NULL);
      g_autoptr (GError) error = NULL;

      assert_bad_value (hs_csv_next (csv, &error) != HS_CSV_BAD_ROW, &error, rows[i].words);
    }
}

static void
test_nul_in_a_row (void)
{
  static const char text[] = "a,b\n1\0,2\n3,4\n";
  g_autofree char *found = read_all (text, sizeof text - 1, '\0');

  g_assert_cmpstr (found, ==, "a|b|/!/3|4|");
}

static void
test_find_column (void)
{
  static const char text[] = "Plate,owner_phone, YEAR \n";
  g_autoptr (GBytes) bytes = g_bytes_new_static (text, sizeof text - 1);
  g_autoptr (HsCsv) csv = hs_csv_new (bytes, '\0', NULL);

  g_assert_cmpint (hs_csv_find_column (csv, "plate"), ==, 0);
  g_assert_cmpint (hs_csv_find_column (csv, "OWNER_PHONE"), ==, 1);
  g_assert_cmpint (hs_csv_find_column (csv, "year"), ==, 2);
  g_assert_cmpint (hs_csv_find_column (csv, "vin"), ==, -1);
  g_assert_cmpint (hs_csv_find_column (csv, ""), ==, -1);
  g_assert_cmpstr (hs_csv_get_field (csv, 0), ==, "");
  g_assert_cmpstr (hs_csv_get_field (csv, 99), ==, "");
  hs_csv_free (NULL);
}

static void
test_writes (void)
{
  static const struct
  {
    const char *fields[4];
    const char *row;
  } rows[] = {
    { { "aaa", "bbb", "ccc", NULL }, "aaa,bbb,ccc\r\n" },
    { { "a,b", "c", NULL }, "\"a,b\",c\r\n" },
    { { "b\"bb", NULL }, "\"b\"\"bb\"\r\n" },
    { { "b\r\nbb", "x", NULL }, "\"b\r\nbb\",x\r\n" },
    { { " x", "y ", NULL }, "\" x\",\"y \"\r\n" },
    { { "a;b", "c\td", NULL }, "\"a;b\",\"c\td\"\r\n" },
    { { "", NULL }, "\"\"\r\n" },
    { { "", "", NULL }, ",\r\n" },
    { { "Été", NULL }, "Été\r\n" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GString) out = g_string_new (NULL);

      hs_csv_append_row (out, rows[i].fields);
      g_assert_cmpstr (out->str, ==, rows[i].row);
    }
}

/* Whatever stands in the fields, what was written is read back. */
static void
test_round_trip (void)
{
  static const char *const bits[] = { "", "a", ",", ";", "\t", "\"", "\"\"", "\n", "\r\n", " ", "é", "=1+1" };
  g_autoptr (GRand) rand = g_rand_new_with_seed (4180);

  for (int round = 0; round < 500; round++)
    {
      char *cells[MOST_CELLS + 1] = { NULL };
      const char *header[] = { "h1", "h2", "h3", "h4", NULL };
      g_autoptr (GString) out = g_string_new (NULL);
      g_autoptr (GBytes) bytes = NULL;
      g_autoptr (HsCsv) csv = NULL;

      hs_csv_append_row (out, header);
      for (int i = 0; i < MOST_CELLS; i++)
        cells[i] = g_strconcat (bits[g_rand_int_range (rand, 0, G_N_ELEMENTS (bits))],
                                bits[g_rand_int_range (rand, 0, G_N_ELEMENTS (bits))], NULL);
      for (int row = 0; row < 3; row++)
        {
          const char *const *start = (const char *const *) cells + row * 4;
          const char *fields[] = { start[0], start[1], start[2], start[3], NULL };

          hs_csv_append_row (out, fields);
        }
      bytes = g_bytes_new (out->str, out->len);
      csv = hs_csv_new (bytes, '\0', NULL);
      for (int i = 0; i < MOST_CELLS; i++)
        {
          if (i % 4 == 0)
            g_assert_cmpint (hs_csv_next (csv, NULL), ==, HS_CSV_ROW);
          g_assert_cmpstr (hs_csv_get_field (csv, i % 4), ==, cells[i]);
        }
      g_assert_cmpint (hs_csv_next (csv, NULL), ==, HS_CSV_END);
      for (int i = 0; i < MOST_CELLS; i++)
        g_free (cells[i]);
    }
}

/* Every beginning of a file and every single broken byte is read to its end without harm. */
static void
test_torn (void)
{
  static const char text[] = "a,b\r\n\"x\"\"\r\ny\",3\r\n\xc3\xa9,\"4\"\r\n";

  for (gsize length = 0; length < sizeof text; length++)
    for (int byte = -1; byte < 256; byte += 51)
      {
        g_autofree char *torn = g_memdup2 (text, sizeof text);
        g_autoptr (GBytes) bytes = NULL;
        g_autoptr (HsCsv) csv = NULL;
        guint steps = 0;

        if (byte >= 0)
          torn[length / 2] = (char) byte;
        bytes = g_bytes_new (torn, length);
        csv = hs_csv_new (bytes, '\0', NULL);
        while (csv != NULL && hs_csv_next (csv, NULL) != HS_CSV_END)
          g_assert_cmpuint (++steps, <=, sizeof text);
      }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/csv/reads", test_reads);
  g_test_add_func ("/csv/separator", test_separator);
  g_test_add_func ("/csv/header-refuses", test_header_refuses);
  g_test_add_func ("/csv/row-and-line", test_row_and_line);
  g_test_add_func ("/csv/names-the-separator", test_names_the_separator);
  g_test_add_func ("/csv/nul-in-a-row", test_nul_in_a_row);
  g_test_add_func ("/csv/find-column", test_find_column);
  g_test_add_func ("/csv/writes", test_writes);
  g_test_add_func ("/csv/round-trip", test_round_trip);
  g_test_add_func ("/csv/torn", test_torn);
  return g_test_run ();
}
