// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Which numbers make a day of several vans, and which are refused, by the path of the field. */

#include "hs-problem.h"

#include "hs-plan-error.h"
#include "plan-text-day.h"

#define TEN_DAYS (10 * 24 * 3600)
#define SQUARE "minutes 0 10 / 10 0; "
#define VAN "van a 0 1 08:00-17:00 carries x break 30 11:30-13:30; "
#define CALL "call A 1 30 08:00-09:00 10:00-11:00 needs x; "
#define COUNTER "counter C 1 10 08:00-12:00 sells x=500; "
#define WHOLE SQUARE VAN CALL COUNTER

static HsVan *
first_van (HsProblem *problem)
{
  return g_ptr_array_index (problem->vans, 0);
}

static HsCall *
first_call (HsProblem *problem)
{
  return g_ptr_array_index (problem->calls, 0);
}

static HsCounter *
first_counter (HsProblem *problem)
{
  return g_ptr_array_index (problem->counters, 0);
}

/* Numbers that a day may not have, or only just may, put into the field that they are for. */
typedef enum
{
  LEG_SECONDS,
  LEG_MILLIMILES,
  MINUTE_CENTS,
  MILE_CENTS,
  SPARE,
  VAN_START,
  VAN_END,
  VAN_FROM,
  VAN_LEAVE_BY,
  VAN_TO,
  VAN_CARRIES,
  BREAK_SECONDS,
  BREAK_FROM,
  BREAK_TO,
  CALL_PLACE,
  CALL_SECONDS,
  CALL_VAN,
  CALL_NEEDS,
  WINDOW_FROM,
  WINDOW_TO,
  COUNTER_PLACE,
  COUNTER_SECONDS,
  COUNTER_CENTS,
  HOURS_FROM,
  HOURS_TO,
} Field;

static void
set_times (HsProblem *problem, Field field, gint32 value)
{
  HsVan *van = first_van (problem);
  HsDaySpan *window = &g_array_index (first_call (problem)->windows, HsDaySpan, 1);
  HsDaySpan *hours = &g_array_index (first_counter (problem)->hours, HsDaySpan, 0);
  gint32 *const times[] = {
    [LEG_SECONDS] = &g_array_index (problem->drive_seconds, gint32, 2),
    [SPARE] = &problem->spare_seconds,
    [VAN_FROM] = &van->leave_from_seconds,
    [VAN_LEAVE_BY] = &van->leave_to_seconds,
    [VAN_TO] = &van->home_by_seconds,
    [BREAK_SECONDS] = &van->break_seconds,
    [BREAK_FROM] = &van->break_span.from_seconds,
    [BREAK_TO] = &van->break_span.to_seconds,
    [CALL_SECONDS] = &first_call (problem)->service_seconds,
    [CALL_VAN] = &first_call (problem)->van,
    [WINDOW_FROM] = &window->from_seconds,
    [WINDOW_TO] = &window->to_seconds,
    [COUNTER_SECONDS] = &first_counter (problem)->service_seconds,
    [HOURS_FROM] = &hours->from_seconds,
    [HOURS_TO] = &hours->to_seconds,
  };

  *times[field] = value;
}

static void
set_field (HsProblem *problem, Field field, gint64 value)
{
  if (field == LEG_MILLIMILES)
    g_array_index (problem->drive_millimiles, gint64, 1) = value;
  else if (field == MINUTE_CENTS)
    problem->minute_cents = value;
  else if (field == MILE_CENTS)
    problem->mile_cents = value;
  else if (field == COUNTER_CENTS)
    g_array_index (first_counter (problem)->cents, gint64, 0) = value;
  else if (field == VAN_START)
    first_van (problem)->start = (guint) value;
  else if (field == VAN_END)
    first_van (problem)->end = (guint) value;
  else if (field == CALL_PLACE)
    first_call (problem)->place = (guint) value;
  else if (field == COUNTER_PLACE)
    first_counter (problem)->place = (guint) value;
  else if (field == VAN_CARRIES)
    g_array_index (first_van (problem)->carries, guint, 0) = (guint) value;
  else if (field == CALL_NEEDS)
    g_array_index (first_call (problem)->needs, guint, 0) = (guint) value;
  else
    set_times (problem, field, (gint32) value);
}

/* @message: NULL where it is accepted */
static const struct
{
  Field field;
  gint64 value;
  const char *message;
} numbers[] = {
  { LEG_SECONDS, -1, "travel.minutes[1][0]: is below zero" },
  { LEG_SECONDS, TEN_DAYS, NULL },
  { LEG_SECONDS, TEN_DAYS + 1, "travel.minutes[1][0]: is too large" },
  { LEG_MILLIMILES, -1, "travel.miles[0][1]: is below zero" },
  { LEG_MILLIMILES, 100000000, NULL },
  { LEG_MILLIMILES, 100000001, "travel.miles[0][1]: is too large" },
  { MINUTE_CENTS, -1, "minute_cents: is below zero" },
  { MINUTE_CENTS, 10000000, NULL },
  { MINUTE_CENTS, 10000001, "minute_cents: is too large" },
  { MILE_CENTS, -1, "mile_cents: is below zero" },
  { MILE_CENTS, 10000000, NULL },
  { MILE_CENTS, 10000001, "mile_cents: is too large" },
  { SPARE, -1, "spare_minutes: is below zero" },
  { SPARE, TEN_DAYS, NULL },
  { SPARE, TEN_DAYS + 1, "spare_minutes: is too large" },
  { VAN_START, 2, "vans[0].start: no such place" },
  { VAN_END, 2, "vans[0].end: no such place" },
  { VAN_FROM, -1, "vans[0].from: is below zero" },
  { VAN_FROM, 17 * 3600, NULL },
  { VAN_FROM, 17 * 3600 + 1, "vans[0].to: is before it may leave" },
  { VAN_FROM, TEN_DAYS + 1, "vans[0].from: is too large" },
  { VAN_LEAVE_BY, 8 * 3600, NULL },
  { VAN_LEAVE_BY, 8 * 3600 - 1, "vans[0].to: is before it may leave" },
  { VAN_LEAVE_BY, 20 * 3600, NULL },
  { VAN_TO, 8 * 3600 - 1, "vans[0].to: is before it may leave" },
  { VAN_TO, 8 * 3600, NULL },
  { VAN_TO, -1, "vans[0].to: is below zero" },
  { VAN_TO, TEN_DAYS, NULL },
  { VAN_TO, TEN_DAYS + 1, "vans[0].to: is too large" },
  { VAN_CARRIES, 1, "vans[0].carries[0]: no such part" },
  { BREAK_SECONDS, -1, "vans[0].break.minutes: is below zero" },
  { BREAK_SECONDS, 2 * 3600, NULL },
  { BREAK_SECONDS, 2 * 3600 + 1, "vans[0].break.between: is shorter than the break" },
  { BREAK_SECONDS, TEN_DAYS + 1, "vans[0].break.minutes: is too large" },
  { BREAK_FROM, 13 * 3600, NULL },
  { BREAK_FROM, 13 * 3600 + 1, "vans[0].break.between: is shorter than the break" },
  { BREAK_FROM, 13 * 3600 + 1801, "vans[0].break.between: ends before it starts" },
  { BREAK_FROM, -TEN_DAYS, NULL },
  { BREAK_FROM, -TEN_DAYS - 1, "vans[0].break.between: lies outside the day" },
  { BREAK_FROM, G_MININT32, "vans[0].break.between: lies outside the day" },
  { BREAK_TO, TEN_DAYS, NULL },
  { BREAK_TO, TEN_DAYS + 1, "vans[0].break.between: lies outside the day" },
  { BREAK_TO, G_MAXINT32, "vans[0].break.between: lies outside the day" },
  { CALL_PLACE, 2, "calls[0].place: no such place" },
  { CALL_SECONDS, -1, "calls[0].minutes: is below zero" },
  { CALL_SECONDS, TEN_DAYS, NULL },
  { CALL_SECONDS, TEN_DAYS + 1, "calls[0].minutes: is too large" },
  { CALL_VAN, HS_PROBLEM_ANY_VAN, NULL },
  { CALL_VAN, 0, NULL },
  { CALL_VAN, 1, "calls[0].van: no such van" },
  { CALL_VAN, -2, "calls[0].van: no such van" },
  { CALL_NEEDS, 1, "calls[0].needs[0]: no such part" },
  { WINDOW_FROM, 11 * 3600, NULL },
  { WINDOW_FROM, 11 * 3600 + 1, "calls[0].windows[1]: ends before it starts" },
  { WINDOW_FROM, -TEN_DAYS, NULL },
  { WINDOW_FROM, -TEN_DAYS - 1, "calls[0].windows[1]: lies outside the day" },
  { WINDOW_TO, TEN_DAYS, NULL },
  { WINDOW_TO, TEN_DAYS + 1, "calls[0].windows[1]: lies outside the day" },
  { COUNTER_PLACE, 2, "counters[0].place: no such place" },
  { COUNTER_SECONDS, -1, "counters[0].minutes: is below zero" },
  { COUNTER_SECONDS, TEN_DAYS + 1, "counters[0].minutes: is too large" },
  { COUNTER_CENTS, 0, NULL },
  { COUNTER_CENTS, HS_PROBLEM_NOT_SOLD, NULL },
  { COUNTER_CENTS, -2, "counters[0].sells.x: is below zero" },
  { COUNTER_CENTS, 10000000, NULL },
  { COUNTER_CENTS, 10000001, "counters[0].sells.x: is too large" },
  { HOURS_FROM, 12 * 3600, NULL },
  { HOURS_FROM, 12 * 3600 + 1, "counters[0].hours[0]: ends before it starts" },
  { HOURS_TO, TEN_DAYS + 1, "counters[0].hours[0]: lies outside the day" },
};

static void
assert_checked (const HsProblem *problem, const char *message)
{
  g_autoptr (GError) error = NULL;

  g_assert_cmpint (hs_problem_check (problem, &error), ==, message == NULL);
  g_assert_cmpint (hs_problem_check (problem, NULL), ==, message == NULL);
  if (message == NULL)
    g_assert_no_error (error);
  else
    g_assert_error (error, HS_PLAN_ERROR, HS_PLAN_ERROR_BAD_DAY);
  g_assert_cmpstr (error == NULL ? NULL : error->message, ==, message);
}

static void
test_numbers (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (numbers); i++)
    {
      g_autoptr (HsProblem) problem = text_day (WHOLE);

      set_field (problem, numbers[i].field, numbers[i].value);
      assert_checked (problem, numbers[i].message);
    }
}

static const struct
{
  const char *day;
  const char *message;
} days[] = {
  { WHOLE, NULL },
  { SQUARE VAN, NULL },
  { SQUARE "van a 0 0 00:00-24:00", NULL },
  { SQUARE, "vans: must be 1 to 8 vans" },
  { SQUARE "van a 0 0 08:00-08:00; van b 0 0 08:00-08:00; van c 0 0 08:00-08:00; van d 0 0 08:00-08:00; "
           "van e 0 0 08:00-08:00; van f 0 0 08:00-08:00; van g 0 0 08:00-08:00; van h 0 0 08:00-08:00", NULL },
  { SQUARE "van a 0 0 08:00-08:00; van b 0 0 08:00-08:00; van c 0 0 08:00-08:00; van d 0 0 08:00-08:00; "
           "van e 0 0 08:00-08:00; van f 0 0 08:00-08:00; van g 0 0 08:00-08:00; van h 0 0 08:00-08:00; "
           "van i 0 0 08:00-08:00", "vans: must be 1 to 8 vans" },
  { SQUARE "van a 0 0 08:00-17:00; van a 0 0 08:00-17:00", "vans[1].id: stands twice in the day" },
  { SQUARE VAN "call A 1 30; call A 1 30", "calls[1].id: stands twice in the day" },
  { SQUARE VAN "counter A 1 30; counter A 1 30", "counters[1].id: stands twice in the day" },
  { SQUARE VAN "call A 1 30; counter A 1 30", "counters[0].id: stands twice in the day" },
  /* A van may be called like a call. */
  { SQUARE VAN "call a 1 30; counter A 1 30", NULL },
  { SQUARE VAN "van b 3 0 08:00-17:00; call A 9 1", "vans[1].start: no such place" },
  { SQUARE VAN "call A 1 1; call B 9 1; counter C 9 1", "calls[1].place: no such place" },
  { SQUARE VAN "counter C 0 1; counter D 9 1", "counters[1].place: no such place" },
};

static void
test_days (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (days); i++)
    {
      g_autoptr (HsProblem) problem = text_day (days[i].day);

      assert_checked (problem, days[i].message);
    }
}

static void
test_ids (void)
{
  static const char *const missing[] = { NULL, "" };

  for (guint i = 0; i < G_N_ELEMENTS (missing); i++)
    {
      g_autoptr (HsProblem) van = text_day (WHOLE);
      g_autoptr (HsProblem) call = text_day (WHOLE);
      g_autoptr (HsProblem) counter = text_day (WHOLE);

      g_free (first_van (van)->id);
      first_van (van)->id = g_strdup (missing[i]);
      g_free (first_call (call)->id);
      first_call (call)->id = g_strdup (missing[i]);
      g_free (first_counter (counter)->id);
      first_counter (counter)->id = g_strdup (missing[i]);
      assert_checked (van, "vans[0].id: is missing");
      assert_checked (call, "calls[0].id: is missing");
      assert_checked (counter, "counters[0].id: is missing");
    }
}

static void
test_tables (void)
{
  static const struct
  {
    guint n;
    const char *message;
  } sizes[] = {
    { 0, "travel.minutes: must be a square table of 1 to 256 places" },
    { 1, NULL },
    { 256, NULL },
    { 257, "travel.minutes: must be a square table of 1 to 256 places" },
  };
  g_autoptr (HsProblem) minutes = text_day (WHOLE);
  g_autoptr (HsProblem) miles = text_day (WHOLE);

  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      g_autoptr (HsProblem) problem = hs_problem_new (sizes[i].n);

      hs_problem_add_van (problem, "a");
      assert_checked (problem, sizes[i].message);
    }
  g_array_set_size (minutes->drive_seconds, 3);
  assert_checked (minutes, "travel.minutes: is not a square table of all places");
  g_array_set_size (miles->drive_millimiles, 5);
  assert_checked (miles, "travel.miles: is not a square table of all places");
}

/* How long the lists may be. */
static const struct
{
  const char *list;
  guint most;
  const char *message;
} lengths[] = {
  { "calls", 200, "calls: more than 200 calls in one day" },
  { "counters", 16, "counters: more than 16 counters in one day" },
  { "windows", 24, "calls[0].windows: has more than 24 spans" },
  { "hours", 24, "counters[0].hours: has more than 24 spans" },
  { "carries", 64, "vans[0].carries: has more than 64 units" },
  { "needs", 64, "calls[0].needs: has more than 64 units" },
};

static void
fill_list (HsProblem *problem, const char *list, guint n)
{
  const HsDaySpan span = { 0, 1 };
  const guint part = 0;
  GArray *const spans = list[0] == 'w' ? first_call (problem)->windows : first_counter (problem)->hours;
  GArray *const units = list[1] == 'a' ? first_van (problem)->carries : first_call (problem)->needs;

  for (guint i = 0; i < n; i++)
    {
      g_autofree char *id = g_strdup_printf ("more %u", i);

      if (g_str_equal (list, "calls") && problem->calls->len < n)
        hs_problem_add_call (problem, id, 0, 0);
      else if (g_str_equal (list, "counters") && problem->counters->len < n)
        hs_problem_add_counter (problem, id, 0, 0);
      else if ((list[0] == 'w' || list[0] == 'h') && spans->len < n)
        g_array_append_val (spans, span);
      else if ((g_str_equal (list, "carries") || list[0] == 'n') && units->len < n)
        g_array_append_val (units, part);
    }
}

static void
test_lengths (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (lengths); i++)
    {
      g_autoptr (HsProblem) full = text_day (WHOLE);
      g_autoptr (HsProblem) over = text_day (WHOLE);

      fill_list (full, lengths[i].list, lengths[i].most);
      fill_list (over, lengths[i].list, lengths[i].most + 1);
      assert_checked (full, NULL);
      assert_checked (over, lengths[i].message);
    }
}

/* Skills and different parts, too, are only so many. */
static void
test_words (void)
{
  g_autoptr (HsProblem) parts = text_day (WHOLE);
  g_autoptr (HsProblem) van = text_day (WHOLE);
  g_autoptr (HsProblem) call = text_day (WHOLE);

  for (guint i = 0; i < 64; i++)
    {
      g_ptr_array_add (first_van (van)->skills, g_strdup ("gas"));
      g_ptr_array_add (first_call (call)->skills, g_strdup ("gas"));
    }
  assert_checked (van, NULL);
  assert_checked (call, NULL);
  g_ptr_array_add (first_van (van)->skills, g_strdup ("gas"));
  g_ptr_array_add (first_call (call)->skills, g_strdup ("gas"));
  assert_checked (van, "vans[0].skills: has more than 64 skills");
  assert_checked (call, "calls[0].skills: has more than 64 skills");
  for (guint i = 1; i < 1000; i++)
    {
      g_autofree char *name = g_strdup_printf ("part %u", i);

      hs_problem_part (parts, name);
    }
  assert_checked (parts, NULL);
  hs_problem_part (parts, "one more");
  assert_checked (parts, "parts: more than 1000 parts in one day");
}

static void
test_prices (void)
{
  g_autoptr (HsProblem) problem = text_day (WHOLE);
  HsCounter *counter = first_counter (problem);

  g_assert_cmpuint (hs_problem_part (problem, "x"), ==, 0);
  g_assert_cmpuint (hs_problem_part (problem, "y"), ==, 1);
  g_assert_cmpuint (hs_problem_part (problem, "z"), ==, 2);
  g_assert_cmpuint (hs_problem_part (problem, "y"), ==, 1);
  hs_counter_sell (counter, 2, 70);
  g_assert_cmpint (hs_counter_cents (counter, 0), ==, 500);
  g_assert_cmpint (hs_counter_cents (counter, 1), ==, HS_PROBLEM_NOT_SOLD);
  g_assert_cmpint (hs_counter_cents (counter, 2), ==, 70);
  g_assert_cmpint (hs_counter_cents (counter, 3), ==, HS_PROBLEM_NOT_SOLD);
  assert_checked (problem, NULL);
  hs_counter_sell (counter, 3, 1);
  assert_checked (problem, "counters[0].sells: no such part");
}

static void
test_may_serve (void)
{
  g_autoptr (HsProblem) problem = text_day (SQUARE "van a 0 0 08:00-17:00; van b 0 0 08:00-17:00 skills gas,diesel; "
                                            "call A 1 1; call B 1 1 van a; call C 1 1 skills gas; "
                                            "call D 1 1 skills gas,diesel; call E 1 1 skills gas,hybrid; "
                                            "call F 1 1 van a skills gas; call G 1 1 van b skills diesel");
  static const gboolean may[][2] = {
    { TRUE, TRUE }, { TRUE, FALSE }, { FALSE, TRUE }, { FALSE, TRUE }, { FALSE, FALSE }, { FALSE, FALSE }, { FALSE,
      TRUE },
  };

  for (guint i = 0; i < G_N_ELEMENTS (may); i++)
    for (guint v = 0; v < 2; v++)
      g_assert_cmpint (hs_problem_may_serve (problem, v, i), ==, may[i][v]);
}

static void
test_legs (void)
{
  g_autoptr (HsProblem) problem = hs_problem_new (3);

  hs_problem_set_leg (problem, 2, 1, 60, 900);
  for (guint cell = 0; cell < 9; cell++)
    {
      g_assert_cmpint (g_array_index (problem->drive_seconds, gint32, cell), ==, cell == 7 ? 60 : 0);
      g_assert_cmpint (g_array_index (problem->drive_millimiles, gint64, cell), ==, cell == 7 ? 900 : 0);
    }
  hs_problem_free (NULL);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/problem/numbers", test_numbers);
  g_test_add_func ("/plan/problem/days", test_days);
  g_test_add_func ("/plan/problem/ids", test_ids);
  g_test_add_func ("/plan/problem/tables", test_tables);
  g_test_add_func ("/plan/problem/lengths", test_lengths);
  g_test_add_func ("/plan/problem/words", test_words);
  g_test_add_func ("/plan/problem/prices", test_prices);
  g_test_add_func ("/plan/problem/may-serve", test_may_serve);
  g_test_add_func ("/plan/problem/legs", test_legs);
  return g_test_run ();
}
