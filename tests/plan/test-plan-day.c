// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The day as data: what is refused, with the path of the field, and that a copy shares nothing. */

#include "hs-day.h"

#include "hs-plan-error.h"
#include "hs-plan.h"
#include "plan-morning.h"

static HsDayStop *
stop_of (HsDay *day, guint index)
{
  return g_ptr_array_index (day->stops, index);
}

static void
shorten_seconds (HsDay *day)
{
  g_array_set_size (day->drive_seconds, 35);
}

static void
lengthen_miles (HsDay *day)
{
  g_array_set_size (day->drive_millimiles, 37);
}

static void
no_places (HsDay *day)
{
  day->n_places = 0;
}

static void
too_many_places (HsDay *day)
{
  day->n_places = 257;
}

static void
negative_seconds (HsDay *day)
{
  hs_day_set_leg (day, 2, 3, -1, 0);
}

static void
negative_miles (HsDay *day)
{
  hs_day_set_leg (day, 5, 0, 0, -1);
}

static void
endless_drive (HsDay *day)
{
  hs_day_set_leg (day, 0, 1, G_MAXINT32, 0);
}

static void
endless_miles (HsDay *day)
{
  hs_day_set_leg (day, 0, 1, 0, G_MAXINT64);
}

static void
start_nowhere (HsDay *day)
{
  day->start_place = 6;
}

static void
end_nowhere (HsDay *day)
{
  day->end_place = 6;
}

static void
leave_backwards (HsDay *day)
{
  day->leave_to_seconds = day->leave_from_seconds - 1;
}

static void
leave_before_midnight (HsDay *day)
{
  day->leave_from_seconds = -1;
}

static void
home_before_midnight (HsDay *day)
{
  day->home_by_seconds = -60;
}

static void
negative_minute_rate (HsDay *day)
{
  day->minute_cents = -1;
}

static void
huge_mile_rate (HsDay *day)
{
  day->mile_cents = G_MAXINT64;
}

static void
negative_spare (HsDay *day)
{
  day->spare_seconds = -1;
}

static void
stop_nowhere (HsDay *day)
{
  stop_of (day, 4)->place = 6;
}

static void
negative_service (HsDay *day)
{
  stop_of (day, 1)->service_seconds = -1;
}

static void
span_backwards (HsDay *day)
{
  hs_day_add_span (day, A22, 100, 99);
}

static void
span_far_away (HsDay *day)
{
  hs_day_add_span (day, A22, 0, G_MAXINT32);
}

static void
too_many_spans (HsDay *day)
{
  for (gint32 i = 0; i < HS_DAY_MAX_SPANS; i++)
    hs_day_add_span (day, A21, i * 10, i * 10 + 1);
}

static void
after_nobody (HsDay *day)
{
  hs_day_add_after (day, A23, 8);
}

static void
shut_call (HsDay *day)
{
  g_array_set_size (stop_of (day, A21)->spans, 0);
  stop_of (day, A21)->shut = TRUE;
}

static void
shut_with_hours (HsDay *day)
{
  stop_of (day, LARCH)->shut = TRUE;
}

static void
same_id (HsDay *day)
{
  g_free (stop_of (day, A26)->id);
  stop_of (day, A26)->id = g_strdup ("A-0021");
}

static void
no_id (HsDay *day)
{
  g_clear_pointer (&stop_of (day, A24)->id, g_free);
}

static void
too_many_stops (HsDay *day)
{
  for (guint i = 0; i < HS_DAY_MAX_STOPS; i++)
    {
      g_autofree char *id = g_strdup_printf ("more %u", i);

      hs_day_add_stop (day, id, HS_DAY_STOP_CALL, 0, 60);
    }
}

static const struct
{
  void (*spoil) (HsDay *day);
  const char *message;
} refused[] = {
  { shorten_seconds, "drive_seconds: is not a square table of all places" },
  { lengthen_miles, "drive_millimiles: is not a square table of all places" },
  { no_places, "n_places: must be from 1 to 256" },
  { too_many_places, "n_places: must be from 1 to 256" },
  { negative_seconds, "drive_seconds[2][3]: is below zero" },
  { negative_miles, "drive_millimiles[5][0]: is below zero" },
  { endless_drive, "drive_seconds[0][1]: is too large" },
  { endless_miles, "drive_millimiles[0][1]: is too large" },
  { start_nowhere, "start_place: no such place" },
  { end_nowhere, "end_place: no such place" },
  { leave_backwards, "leave_to_seconds: is before leave_from_seconds" },
  { leave_before_midnight, "leave_from_seconds: is below zero" },
  { home_before_midnight, "home_by_seconds: is below zero" },
  { negative_minute_rate, "minute_cents: is below zero" },
  { huge_mile_rate, "mile_cents: is too large" },
  { negative_spare, "spare_seconds: is below zero" },
  { stop_nowhere, "stops[4].place: no such place" },
  { negative_service, "stops[1].service_seconds: is below zero" },
  { span_backwards, "stops[3].spans[1]: ends before it starts" },
  { span_far_away, "stops[3].spans[1]: lies outside the day" },
  { too_many_spans, "stops[2].spans: has more than 24 spans" },
  { after_nobody, "stops[4].after[8]: no such stop" },
  { shut_call, "stops[2].shut: only a counter without opening hours can be shut" },
  { shut_with_hours, "stops[0].shut: only a counter without opening hours can be shut" },
  { same_id, "stops[7].id: stands twice in the day" },
  { no_id, "stops[5].id: is missing" },
  { too_many_stops, "stops: more than 64 stops in one day" },
};

static void
test_refused (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (refused); i++)
    {
      g_autoptr (HsDay) day = morning_day (30);
      g_autoptr (GError) error = NULL;
      g_autoptr (GError) again = NULL;
      HsPlan *plan = NULL;

      g_assert_true (hs_day_check (day, NULL));
      refused[i].spoil (day);
      g_assert_false (hs_day_check (day, &error));
      g_assert_error (error, HS_PLAN_ERROR, HS_PLAN_ERROR_BAD_DAY);
      g_assert_cmpstr (error->message, ==, refused[i].message);
      g_assert_false (hs_plan_solve (day, NULL, NULL, &plan, &again));
      g_assert_cmpstr (again->message, ==, refused[i].message);
      g_assert_null (plan);
    }
}

static void
test_copy (void)
{
  g_autoptr (HsDay) day = morning_day (30);
  g_autoptr (HsDay) copy = hs_day_copy (day);

  hs_day_set_leg (copy, 0, 1, 1, 2);
  hs_day_add_span (copy, A22, 0, 1);
  hs_day_add_after (copy, A22, KINGPOST);
  hs_day_add_stop (copy, "A-0027", HS_DAY_STOP_CALL, 0, 60);
  g_assert_cmpint (g_array_index (day->drive_seconds, gint32, 1), ==, 9 * 60);
  g_assert_cmpint (g_array_index (day->drive_millimiles, gint64, 1), ==, 3100);
  g_assert_cmpuint (hs_day_get_stop (day, A22)->spans->len, ==, 1);
  g_assert_cmpuint (hs_day_get_stop (day, A22)->after, ==, 0);
  g_assert_cmpuint (day->stops->len, ==, MORNING_STOPS);
  g_assert_cmpint (g_array_index (copy->drive_seconds, gint32, 1), ==, 1);
  g_assert_cmpint (g_array_index (copy->drive_millimiles, gint64, 1), ==, 2);
  g_assert_cmpint (copy->spare_seconds, ==, 30 * 60);
  g_assert_cmpstr (hs_day_get_stop (copy, A22)->id, ==, "A-0022");
}

static void
test_find (void)
{
  g_autoptr (HsDay) day = morning_day (30);

  for (int i = 0; i < MORNING_STOPS; i++)
    g_assert_cmpint (hs_day_find_stop (day, morning_stops[i].id), ==, i);
  g_assert_cmpint (hs_day_find_stop (day, "A-0027"), ==, HS_DAY_NO_STOP);
  g_assert_cmpint (hs_day_find_stop (day, NULL), ==, HS_DAY_NO_STOP);
  hs_day_free (NULL);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/day/refused", test_refused);
  g_test_add_func ("/plan/day/copy", test_copy);
  g_test_add_func ("/plan/day/find", test_find);
  return g_test_run ();
}
