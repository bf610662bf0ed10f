// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Two vans, and a shared day in a few words. */

#include "ops-share.h"

OpsTown *
share_town (void)
{
  OpsTown *town = ops_town_new ();

  ops_town_set (town, "vans", "A,B");
  ops_town_set (town, "leave_from", "07:00");
  ops_town_set (town, "leave_to", "11:00");
  ops_town_set (town, "spare_minutes", "0");
  ops_town_set (town, "minute_cents", "160");
  ops_town_set (town, "mile_cents", "42");
  return town;
}

HsShareCase *
share_case (OpsTown *town, const char *clock)
{
  g_autofree char *when = g_strconcat (SHARE_DAY "T", clock, NULL);
  g_autoptr (GError) error = NULL;
  HsShareCase *of = hs_share_case_load (town->book, ops_town_day (SHARE_DAY), ops_town_at (town, when), &error);

  g_assert_no_error (error);
  return of;
}

HsSharePlan *
share_at (OpsTown *town, const char *clock)
{
  g_autoptr (HsShareCase) of = share_case (town, clock);
  g_autoptr (GError) error = NULL;
  const HsShareHow how = { .seed = 1 };
  HsSharePlan *plan = hs_share_solve (of, &how, &error);

  g_assert_no_error (error);
  return plan;
}

static void
add_clock (GString *text, OpsTown *town, HsInstant at)
{
  int seconds;

  hs_instant_to_local (hs_book_get_zone (town->book), at, NULL, &seconds);
  g_string_append_printf (text, "%02d:%02d", seconds / 3600, seconds / 60 % 60);
}

char *
share_routes (OpsTown *town, const HsSharePlan *plan)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < plan->routes->len; i++)
    {
      const HsShareRoute *route = g_ptr_array_index (plan->routes, i);

      g_string_append_printf (text, "%s%s ", i > 0 ? " | " : "", route->van);
      if (route->leave == HS_INSTANT_NONE)
        {
          g_string_append (text, "stays");
          continue;
        }
      add_clock (text, town, route->leave);
      for (guint k = 0; k < route->stops->len; k++)
        {
          const HsShareStop *stop = g_ptr_array_index (route->stops, k);

          g_string_append_printf (text, " %s%.*s@", stop->from_van != NULL ? "+" : "",
                                  stop->kind == HS_SHARE_COUNTER ? 1 : 99,
                                  stop->kind == HS_SHARE_BREAK ? "break" : stop->id);
          add_clock (text, town, stop->start);
        }
      g_string_append (text, " =");
      add_clock (text, town, route->home);
    }
  return g_string_free (text, FALSE);
}

char *
share_notes (GPtrArray *notes)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < notes->len; i++)
    {
      const HsShareNote *note = g_ptr_array_index (notes, i);

      g_string_append_printf (text, "%s%s: %s", i > 0 ? "; " : "", note->number, note->what);
    }
  return g_string_free (text, FALSE);
}

char *
share_promises (GPtrArray *broken)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < broken->len; i++)
    {
      const HsBrokenPromise *promise = g_ptr_array_index (broken, i);

      g_string_append_printf (text, "%s%s: %s", i > 0 ? "; " : "", promise->id, promise->why);
    }
  return g_string_free (text, FALSE);
}

void
share_accept_order (OpsTown *town, const char *van)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HsDayPlan) plan = hs_day_plan_make (town->book, ops_town_day (SHARE_DAY), van, HS_INSTANT_NONE, &error);

  g_assert_no_error (error);
  hs_day_plan_accept (town->book, plan, ops_town_now (town), &error);
  g_assert_no_error (error);
}
