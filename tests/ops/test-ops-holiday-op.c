// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Counters' holidays one by one: what is coming, one more, one less, and that taken back. */

#include "hs-holiday-op.h"

#include "hs-counter-hours.h"
#include "hs-ops-error.h"
#include "hs-supplier-row.h"
#include "ops-town.h"

#include <string.h>

#define L "Larch & Weir Auto Electrical"
#define K "Kingpost Parts Counter"

/* "2026-07-03 L 09:00-11:00 stocktaking|2026-12-25 all shut", from @from on. */
static char *
said (OpsTown *town, const char *from)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) holidays = hs_holidays_list (town->book, ops_town_day (from), &error);
  GString *text = g_string_new (NULL);

  g_assert_no_error (error);
  for (guint i = 0; i < holidays->len; i++)
    {
      const HsHoliday *holiday = g_ptr_array_index (holidays, i);
      g_autofree char *day = hs_date_format (holiday->day);

      g_string_append_printf (text, "%s%s %s", i > 0 ? "|" : "", day,
                              holiday->counter == NULL ? "all" : g_str_equal (holiday->counter, L) ? "L" : "K");
      if (holiday->opens_minutes == HS_INT_NONE)
        g_string_append (text, " shut");
      else
        g_string_append_printf (text, " %02d:%02d-%02d:%02d", (int) holiday->opens_minutes / 60,
                                (int) holiday->opens_minutes % 60, (int) holiday->shuts_minutes / 60,
                                (int) holiday->shuts_minutes % 60);
      if (holiday->words != NULL)
        g_string_append_printf (text, " %s", holiday->words);
    }
  return g_string_free (text, FALSE);
}

typedef struct
{
  const char *counter, *day, *opens, *shuts, *words;
  const char *after; /* what the book says then; NULL: refused */
  const char *says;  /* in the refusal */
} Add;

/* Each stands on the ones before it. */
static const Add adds[] = {
  { "", "2026-12-25", "", "", "Midwinter", "2026-12-25 all shut Midwinter", NULL },
  { L, "2026-07-03", "09:00", "11:00", "stocktaking",
    "2026-07-03 L 09:00-11:00 stocktaking|2026-12-25 all shut Midwinter", NULL },
  { L, " 2026-07-03 ", "13:00", "15:00", "",
    "2026-07-03 L 09:00-11:00 stocktaking|2026-07-03 L 13:00-15:00|2026-12-25 all shut Midwinter", NULL },
  { L, "2026-07-03", "", "", "fire drill", "2026-07-03 L shut fire drill|2026-12-25 all shut Midwinter", NULL },
  { L, "2026-07-03", "09:00", "", "", NULL, "shuts" },
  { L, "2026-07-03", "", "11:00", "", NULL, "opens" },
  { L, "2026-07-03", "11:00", "09:00", "", NULL, "shuts" },
  { L, "2026-07-03", "25:00", "26:00", "", NULL, "opens" },
  { L, "July 3", "", "", "", NULL, "date" },
  { L, "2026-02-30", "", "", "", NULL, "date" },
  { L, "", "", "", "", NULL, "date" },
  { "Nobody's Parts", "2026-07-03", "", "", "", NULL, "supplier" },
};

static void
test_add (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autofree char *before = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (adds); i++)
    {
      const Add *row = &adds[i];
      g_autoptr (GError) error = NULL;
      g_autoptr (HsHolidayUndo) undo = hs_holiday_add (town->book, row->counter, row->day, row->opens, row->shuts,
                                                       row->words, ops_town_now (town), &error);
      char *after = said (town, "2026-01-01");

      g_test_message ("%s %s", row->counter, row->day);
      if (row->after != NULL)
        {
          g_assert_no_error (error);
          g_assert_nonnull (undo);
          g_assert_cmpstr (after, ==, row->after);
        }
      else
        {
          g_assert_error (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED);
          g_assert_null (undo);
          g_assert_nonnull (strstr (error->message, row->says));
          g_assert_null (strstr (error->message, ":2:"));
          g_assert_cmpstr (after, ==, before);
        }
      g_free (before);
      before = after;
    }
}

/* Each of the accepted changes is taken back, whatever it took the place of. */
static void
test_take_back (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();

  for (gsize i = 0; i < G_N_ELEMENTS (adds) && adds[i].after != NULL; i++)
    {
      const Add *row = &adds[i];
      g_autofree char *before = said (town, "2026-01-01"), *after = NULL;
      g_autoptr (HsHolidayUndo) undo = NULL, again = NULL;
      g_autoptr (GError) error = NULL;

      undo = hs_holiday_add (town->book, row->counter, row->day, row->opens, row->shuts, row->words,
                             ops_town_now (town), NULL);
      g_assert_true (hs_holiday_take_back (town->book, undo, ops_town_now (town), &error));
      g_assert_no_error (error);
      after = said (town, "2026-01-01");
      g_assert_cmpstr (after, ==, before);
      again = hs_holiday_add (town->book, row->counter, row->day, row->opens, row->shuts, row->words,
                              ops_town_now (town), NULL);
      g_assert_nonnull (again);
    }
}

static char *
first_id (OpsTown *town)
{
  g_autoptr (GPtrArray) holidays = hs_holidays_list (town->book, ops_town_day ("2026-01-01"), NULL);

  return g_strdup (((const HsHoliday *) g_ptr_array_index (holidays, 0))->id);
}

static HsHolidayUndo *
add (OpsTown *town, const char *counter, const char *day)
{
  g_autoptr (GError) error = NULL;
  HsHolidayUndo *undo = hs_holiday_add (town->book, counter, day, "", "", "", ops_town_now (town), &error);

  g_assert_no_error (error);
  return undo;
}

static void
test_remove (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsHolidayUndo) one = add (town, L, "2026-07-03"), two = add (town, K, "2026-07-04"), undo = NULL;
  g_autofree char *id = first_id (town), *after = NULL, *back = NULL;
  g_autoptr (GError) error = NULL;

  undo = hs_holiday_remove (town->book, id, ops_town_now (town), NULL);
  g_assert_nonnull (undo);
  after = said (town, "2026-01-01");
  g_assert_cmpstr (after, ==, "2026-07-04 K shut");
  g_assert_null (hs_holiday_remove (town->book, id, ops_town_now (town), &error));
  g_assert_nonnull (error);
  g_assert_true (hs_holiday_take_back (town->book, undo, ops_town_now (town), NULL));
  back = said (town, "2026-01-01");
  g_assert_cmpstr (back, ==, "2026-07-03 L shut|2026-07-04 K shut");
}

/* Twice, or after somebody else wrote of that day. */
static void
test_take_back_refused (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsHolidayUndo) undo = add (town, L, "2026-07-03"), later = NULL;
  g_autofree char *after = NULL;
  g_autoptr (GError) error = NULL, again = NULL;

  later = add (town, K, "2026-07-03");
  g_assert_false (hs_holiday_take_back (town->book, undo, ops_town_now (town), &error));
  g_assert_error (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED);
  after = said (town, "2026-01-01");
  g_assert_nonnull (strstr (after, "L shut"));
  g_assert_nonnull (strstr (after, "K shut"));
  g_assert_true (hs_holiday_take_back (town->book, later, ops_town_now (town), NULL));
  g_assert_true (hs_holiday_take_back (town->book, undo, ops_town_now (town), NULL));
  g_assert_false (hs_holiday_take_back (town->book, undo, ops_town_now (town), &again));
  g_assert_error (again, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED);
}

/* Days that are over are left out. */
static void
test_list_from (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsHolidayUndo) one = add (town, L, "2026-03-09"), two = add (town, L, "2026-03-10"), three = NULL;
  g_autofree char *from = NULL, *late = NULL;

  three = add (town, "", "2026-03-10");
  from = said (town, "2026-03-10");
  g_assert_cmpstr (from, ==, "2026-03-10 all shut|2026-03-10 L shut");
  late = said (town, "2026-03-11");
  g_assert_cmpstr (late, ==, "");
}

static void
test_counters (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (GPtrArray) names = hs_holiday_counters (town->book, NULL);
  gboolean larch = FALSE, kingpost = FALSE;

  for (guint i = 0; i < names->len; i++)
    {
      larch |= g_str_equal (g_ptr_array_index (names, i), L);
      kingpost |= g_str_equal (g_ptr_array_index (names, i), K);
    }
  g_assert_true (larch);
  g_assert_true (kingpost);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ops/holiday/add", test_add);
  g_test_add_func ("/ops/holiday/take-back", test_take_back);
  g_test_add_func ("/ops/holiday/remove", test_remove);
  g_test_add_func ("/ops/holiday/take-back-refused", test_take_back_refused);
  g_test_add_func ("/ops/holiday/list-from", test_list_from);
  g_test_add_func ("/ops/holiday/counters", test_counters);
  return g_test_run ();
}
