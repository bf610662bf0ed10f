// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The text format of Solomon's sets: what is read, what is refused and in which words, and bytes without sense. */

#include "hs-vrptw-read.h"

#include "hs-plan-error.h"

#define HEAD "Three calls\n\nVEHICLE\nNUMBER     CAPACITY\n  2         30\n\n"
#define NAMES "CUSTOMER\nCUST NO.  XCOORD.   YCOORD.    DEMAND   READY TIME  DUE DATE   SERVICE TIME\n \n"
#define HOME "    0      40      50       0       0     240       0\n"
#define ONE "    1      43      54      10      20      90       5\n"
#define TWO "    2      40    50.5       7       0     200    2.25\n"

static HsVrptw *
read_text (const char *text)
{
  HsVrptw *problem = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_vrptw_read (text, strlen (text), &problem, &error));
  g_assert_no_error (error);
  g_assert_true (hs_vrptw_check (problem, NULL));
  return problem;
}

static void
test_read (void)
{
  g_autoptr (HsVrptw) problem = read_text (HEAD NAMES HOME ONE TWO);

  g_assert_cmpstr (problem->name, ==, "Three calls");
  g_assert_cmpuint (problem->n, ==, 2);
  g_assert_cmpuint (problem->vans, ==, 2);
  g_assert_cmpint (problem->capacity, ==, 30000000);
  g_assert_cmpint (problem->stops[0].x, ==, 40000000);
  g_assert_cmpint (problem->stops[0].y, ==, 50000000);
  g_assert_cmpint (problem->stops[0].due, ==, 240000000);
  g_assert_cmpint (problem->stops[1].x, ==, 43000000);
  g_assert_cmpint (problem->stops[1].y, ==, 54000000);
  g_assert_cmpint (problem->stops[1].demand, ==, 10000000);
  g_assert_cmpint (problem->stops[1].ready, ==, 20000000);
  g_assert_cmpint (problem->stops[1].due, ==, 90000000);
  g_assert_cmpint (problem->stops[1].service, ==, 5000000);
  g_assert_cmpint (problem->stops[2].y, ==, 50500000);
  g_assert_cmpint (problem->stops[2].service, ==, 2250000);
  g_assert_cmpint (hs_vrptw_leg (problem, 0, 1), ==, 5000000);
  g_assert_cmpint (hs_vrptw_leg (problem, 2, 0), ==, 500000);
}

/* The same problem in other dress. */
static void
test_white_space (void)
{
  static const char *const rows[] = {
    HEAD NAMES HOME ONE TWO "\n\n  \n",
    "\n \n" HEAD NAMES HOME ONE "\n" TWO,
    "Three   calls  \r\n\r\nVEHICLE\r\nNUMBER CAPACITY\r\n2 30\r\nCUSTOMER\r\nCUST NO.\r\n0 40 50 0 0 240 0\r\n"
    "1 43 54 10 20 90 5\r\n2 40 50.5 7 0 200 2.25\r\n",
    "Three calls\rVEHICLE\rNUMBER CAPACITY\r2 30\rCUSTOMER\rCUST NO.\r0 40 50 0 0 240 0\r1 43 54 10 20 90 5\r"
    "2 40 50.5 7 0 200 2.25\r",
    "\tThree\tcalls\nvehicle\nnumber\tcapacity\n\t2\t30\ncustomer\ncust\tno.\n0\t40\t50\t0\t0\t240\t0\n"
    "1\t43\t54\t10\t20\t90\t5\n2\t40\t50.5\t7\t0\t200\t2.25",
    "Three calls\nVEHICLE\nNUMBER CAPACITY\n2.0 30.000\nCUSTOMER\nCUST NO.\n0 40.0 50.00 0 0 240 0\n"
    "001 043 54 10 20 90 5.000000\n2 40 50.50 7 0 200 2.250000\n",
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsVrptw) problem = read_text (rows[i]);

      g_assert_cmpstr (problem->name, ==, "Three calls");
      g_assert_cmpuint (problem->n, ==, 2);
      g_assert_cmpuint (problem->vans, ==, 2);
      g_assert_cmpint (problem->capacity, ==, 30000000);
      g_assert_cmpint (problem->stops[1].due, ==, 90000000);
      g_assert_cmpint (problem->stops[2].service, ==, 2250000);
      g_assert_cmpint (hs_vrptw_leg (problem, 0, 1), ==, 5000000);
    }
}

static void
test_below_zero_and_home_alone (void)
{
  g_autoptr (HsVrptw) west = read_text (HEAD NAMES "0 -3 -4.5 0 0 240 0\n1 0 -0.5 1 0 9 0\n");
  g_autoptr (HsVrptw) alone = read_text (HEAD NAMES HOME);

  g_assert_cmpint (west->stops[0].x, ==, -3000000);
  g_assert_cmpint (west->stops[0].y, ==, -4500000);
  g_assert_cmpint (hs_vrptw_leg (west, 0, 1), ==, 5000000);
  g_assert_cmpuint (alone->n, ==, 0);
}

static const struct
{
  const char *text;
  const char *message;
} refused[] = {
  { "", "line 1, name: the file is empty" },
  { "\n \n\t\n", "line 4, name: the file is empty" },
  { "Name\n", "line 2, VEHICLE: the file ends before it" },
  { "Name\nFLEET\n", "line 2, VEHICLE: this line should say VEHICLE and nothing else" },
  { "Name\nVEHICLE 3\n", "line 2, VEHICLE: this line should say VEHICLE and nothing else" },
  { "Name\nVEHICLE\n", "line 3, NUMBER: the file ends before the column names" },
  { "Name\nVEHICLE\n2 30\n", "line 3, NUMBER: column names that start with NUMBER belong here" },
  { "Name\nVEHICLE\nNUMBER CAPACITY\n", "line 4, NUMBER: the file ends before it" },
  { "Name\nVEHICLE\nNUMBER CAPACITY\n2\n",
    "line 4, NUMBER: the number of vans and their capacity belong here, two numbers" },
  { "Name\nVEHICLE\nNUMBER CAPACITY\n2 30 4\n",
    "line 4, NUMBER: the number of vans and their capacity belong here, two numbers" },
  { "Name\nVEHICLE\nNUMBER CAPACITY\n0 30\n", "line 4, NUMBER: there is no van" },
  { "Name\nVEHICLE\nNUMBER CAPACITY\n2.5 30\n", "line 4, NUMBER: not a whole number" },
  { "Name\nVEHICLE\nNUMBER CAPACITY\n-2 30\n", "line 4, NUMBER: below zero" },
  { "Name\nVEHICLE\nNUMBER CAPACITY\n2 -30\n", "line 4, CAPACITY: below zero" },
  { "Name\nVEHICLE\nNUMBER CAPACITY\n2 1000001\n", "line 4, CAPACITY: above a million" },
  { HEAD, "line 7, CUSTOMER: the file ends before it" },
  { HEAD "CLIENT\n", "line 7, CUSTOMER: this line should say CUSTOMER and nothing else" },
  { HEAD "CUSTOMER\n", "line 8, CUST: the file ends before the column names" },
  { HEAD "CUSTOMER\n" HOME, "line 8, CUST: column names that start with CUST belong here" },
  { HEAD NAMES, "line 10, CUST NO.: the file ends before customer 0, which is home" },
  { HEAD NAMES "0 1 2 0 0 9\n", "line 10, CUST NO.: a customer has 7 numbers, this line has 6" },
  { HEAD NAMES "0 1 2 0 0 9 0 0\n", "line 10, CUST NO.: a customer has 7 numbers, this line has 8" },
  { HEAD NAMES "0 1 2 0 0 9 0 1 1 1 1 1 1 1 1 1 1 1 1 1\n",
    "line 10, CUST NO.: a customer has 7 numbers, this line has 20" },
  { HEAD NAMES ONE, "line 10, CUST NO.: customer 0 belongs here" },
  { HEAD NAMES HOME ONE ONE, "line 12, CUST NO.: customer 2 belongs here" },
  { HEAD NAMES HOME "1.5 1 1 1 1 1 1\n", "line 11, CUST NO.: not a whole number" },
  { HEAD NAMES HOME "1 1 1 -1 1 1 1\n", "line 11, DEMAND: below zero" },
  { HEAD NAMES HOME "1 1 1 1 -1 1 1\n", "line 11, READY TIME: below zero" },
  { HEAD NAMES HOME "1 1 1 1 1 -1 1\n", "line 11, DUE DATE: below zero" },
  { HEAD NAMES HOME "1 1 1 1 1 1 -1\n", "line 11, SERVICE TIME: below zero" },
  { HEAD NAMES HOME "1 1 1 1 20 19 1\n", "line 11, DUE DATE: before the ready time" },
  { HEAD NAMES HOME "1 -1000000.5 1 1 1 1 1\n", "line 11, XCOORD.: below minus a million" },
  { HEAD NAMES HOME "1 1 1000000.000001 1 1 1 1\n", "line 11, YCOORD.: above a million" },
  { HEAD NAMES "0 1 1 1 0 9 0\n", "line 10, DEMAND: customer 0 is home and takes no load" },
  { HEAD NAMES "0 1 1 0 0 9 1\n", "line 10, SERVICE TIME: customer 0 is home and takes no service" },
};

static void
test_refused (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (refused); i++)
    {
      HsVrptw *problem = NULL;
      g_autoptr (GError) error = NULL;

      g_assert_false (hs_vrptw_read (refused[i].text, strlen (refused[i].text), &problem, &error));
      g_assert_error (error, HS_PLAN_ERROR, HS_PLAN_ERROR_BAD_DAY);
      g_assert_cmpstr (error->message, ==, refused[i].message);
      g_assert_null (problem);
    }
}

/* What is no number is refused by its line and column, whatever the reason says. */
static void
test_not_numbers (void)
{
  static const char *const words[] = {
    "x", "1e3", "1,5", "0x10", "nan", "inf", "+1", "1.1234567", "--1", "1.2.3", ".", "99999999999999999999", "½",
  };
  static const char *const columns[] = {
    "CUST NO.", "XCOORD.", "YCOORD.", "DEMAND", "READY TIME", "DUE DATE", "SERVICE TIME",
  };

  for (guint w = 0; w < G_N_ELEMENTS (words); w++)
    for (guint c = 0; c < G_N_ELEMENTS (columns); c++)
      {
        g_autoptr (GString) text = g_string_new (HEAD NAMES HOME);
        g_autofree char *start = g_strdup_printf ("line 11, %s: ", columns[c]);
        g_autoptr (GError) error = NULL;
        HsVrptw *problem = NULL;

        for (guint i = 0; i < G_N_ELEMENTS (columns); i++)
          g_string_append_printf (text, " %s", i == c ? words[w] : "1");
        g_assert_false (hs_vrptw_read (text->str, text->len, &problem, &error));
        g_assert_true (g_str_has_prefix (error->message, start));
        g_assert_cmpuint (strlen (error->message), >, strlen (start) + 5);
      }
}

static void
test_not_text (void)
{
  static const char zero[] = "Name\0VEHICLE\n";
  static const char latin[] = "N\xe4me\nVEHICLE\n";
  static const char later[] = "Name\nVEHICLE\nNUM\xff" "BER\n";
  HsVrptw *problem = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_false (hs_vrptw_read (zero, sizeof zero - 1, &problem, &error));
  g_assert_cmpstr (error->message, ==, "line 1, text: byte 5 of the line is zero: this is not a text file");
  g_clear_error (&error);
  g_assert_false (hs_vrptw_read (latin, sizeof latin - 1, &problem, &error));
  g_assert_cmpstr (error->message, ==, "line 1, text: byte 2 of the line is not UTF-8: save the file as text");
  g_clear_error (&error);
  g_assert_false (hs_vrptw_read (later, sizeof later - 1, &problem, &error));
  g_assert_cmpstr (error->message, ==, "line 3, text: byte 4 of the line is not UTF-8: save the file as text");
  g_clear_error (&error);
  g_assert_false (hs_vrptw_read ("", 0, &problem, &error));
  g_assert_cmpstr (error->message, ==, "line 1, name: the file is empty");
}

static void
add_customers (GString *text, guint count)
{
  for (guint i = 1; i <= count; i++)
    g_string_append_printf (text, "%u %u %u 1 0 200 1\n", i, i % 40, i / 40);
}

static void
test_size (void)
{
  g_autoptr (GString) text = g_string_new (HEAD NAMES HOME);
  g_autoptr (HsVrptw) problem = NULL;
  g_autoptr (GError) error = NULL;
  HsVrptw *none = NULL;

  add_customers (text, HS_VRPTW_MAX_CUSTOMERS);
  problem = read_text (text->str);
  g_assert_cmpuint (problem->n, ==, HS_VRPTW_MAX_CUSTOMERS);
  g_string_append (text, "1001 1 1 1 0 200 1\n");
  g_assert_false (hs_vrptw_read (text->str, text->len, &none, &error));
  g_assert_cmpstr (error->message, ==, "line 1011, CUST NO.: more than 1000 customers");
}

/* Bytes changed at random: never a crash, and what is read is a problem. */
static void
test_hostile (void)
{
  static const char text[] = HEAD NAMES HOME ONE TWO;
  static const char spoilers[] = "\0\n\r\t 09-.,eEx\xff\x80V";
  g_autoptr (GRand) rand = g_rand_new_with_seed (47);
  guint n_read = 0;

  for (guint i = 0; i < 20000; i++)
    {
      char spoiled[sizeof text];
      gsize length = sizeof text - 1;
      guint changes = (guint) g_rand_int_range (rand, 1, 5);
      g_autoptr (HsVrptw) problem = NULL;
      g_autoptr (GError) error = NULL;

      memcpy (spoiled, text, sizeof text);
      for (guint c = 0; c < changes; c++)
        spoiled[g_rand_int_range (rand, 0, (gint32) length)]
          = spoilers[g_rand_int_range (rand, 0, sizeof spoilers - 1)];
      if (i % 3 == 0)
        length = (gsize) g_rand_int_range (rand, 0, (gint32) length);
      if (hs_vrptw_read (spoiled, length, &problem, &error))
        {
          n_read++;
          g_assert_true (hs_vrptw_check (problem, NULL));
        }
      else
        g_assert_true (g_str_has_prefix (error->message, "line "));
    }
  g_assert_cmpuint (n_read, >, 100);
  g_assert_cmpuint (n_read, <, 15000);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/vrptw-read/read", test_read);
  g_test_add_func ("/vrptw-read/white-space", test_white_space);
  g_test_add_func ("/vrptw-read/below-zero-and-home-alone", test_below_zero_and_home_alone);
  g_test_add_func ("/vrptw-read/refused", test_refused);
  g_test_add_func ("/vrptw-read/not-numbers", test_not_numbers);
  g_test_add_func ("/vrptw-read/not-text", test_not_text);
  g_test_add_func ("/vrptw-read/size", test_size);
  g_test_add_func ("/vrptw-read/hostile", test_hostile);
  return g_test_run ();
}
