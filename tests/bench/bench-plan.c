// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* How long planning takes inside the process, as one JSON object: the demo morning (the aim is at most 50 ms), twelve
 * stops open all day, twelve with wide windows, twelve that are nearly all late, days above the exact size, and one
 * more call on a day of twelve, without and with a break (the aim is at most 16 ms each). Times are of the processor,
 * so that a busy machine does not count. */

#include "hs-squeeze.h"

#include "../plan/plan-morning.h"

#include <time.h>

#define ROUNDS 15

typedef struct
{
  const char *name;
  guint stops;
  gint32 window_minutes;
} Shape;

static const Shape shapes[] = {
  { "twelve_open", 12, 0 },      { "twelve_wide", 12, 480 }, { "twelve_late", 12, 30 },
  { "sixteen_wide", 16, 900 }, { "twenty_open", 20, 0 },   { "sixty_four", 64, 300 },
};

static gint64
processor_us (void)
{
  struct timespec now;

  clock_gettime (CLOCK_PROCESS_CPUTIME_ID, &now);
  return now.tv_sec * G_GINT64_CONSTANT (1000000) + now.tv_nsec / 1000;
}

static HsDay *
scattered_day (const Shape *shape)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (2026);
  guint n = shape->stops;
  HsDay *day = hs_day_new (n + 1);

  for (guint from = 0; from <= n; from++)
    for (guint to = 0; to <= n; to++)
      hs_day_set_leg (day, from, to, g_rand_int_range (rand, 120, 2400), g_rand_int_range (rand, 500, 20000));
  day->start_place = n;
  day->end_place = n;
  day->leave_from_seconds = CLOCK (7, 0);
  day->leave_to_seconds = CLOCK (9, 0);
  day->home_by_seconds = CLOCK (200, 0);
  day->minute_cents = 160;
  day->mile_cents = 42;
  for (guint i = 0; i < n; i++)
    {
      g_autofree char *id = g_strdup_printf ("S%02u", i);
      gint32 from = CLOCK (8, 0) + g_rand_int_range (rand, 0, 18000);

      hs_day_add_stop (day, id, HS_DAY_STOP_CALL, i, g_rand_int_range (rand, 300, 2400));
      if (shape->window_minutes > 0)
        hs_day_add_span (day, i, from, from + shape->window_minutes * 60);
    }
  return day;
}

static int
compare_times (const void *a, const void *b)
{
  gint64 left = *(const gint64 *) a;
  gint64 right = *(const gint64 *) b;

  return left < right ? -1 : left > right;
}

static void
measure (const char *name, const HsDay *day, const char *separator)
{
  gint64 times[ROUNDS];
  guint rounds = day->stops->len > 12 ? 3 : ROUNDS;
  g_autoptr (HsPlan) plan = NULL;

  for (guint i = 0; i < rounds; i++)
    {
      gint64 begin = processor_us ();

      g_clear_pointer (&plan, hs_plan_free);
      if (!hs_plan_solve (day, NULL, NULL, &plan, NULL))
        return;
      times[i] = processor_us () - begin;
    }
  qsort (times, rounds, sizeof *times, compare_times);
  g_print ("%s\"%s\":{\"median_us\":%u,\"worst_us\":%u,\"states\":%u,\"proven\":%s,\"broken\":%u}", separator, name,
           (guint) times[rounds / 2], (guint) times[rounds - 1], (guint) plan->states,
           plan->proven ? "true" : "false", plan->broken->len);
}

/* One more call on a day of twelve stops, with what may be promised in each gap. */
static void
measure_squeeze (const char *name, gint32 break_minutes)
{
  const Shape twelve = { "", 12, 480 };
  g_autoptr (HsDay) day = scattered_day (&twelve);
  g_autoptr (HsPlan) plan = NULL;
  g_autoptr (GArray) spans = g_array_new (FALSE, FALSE, sizeof (HsDaySpan));
  HsDayStop call = { (char *) "new", HS_DAY_STOP_CALL, 3, 2400, FALSE, spans, 0, 0 };
  gint64 times[ROUNDS];

  day->break_seconds = break_minutes * 60;
  day->break_span = (HsDaySpan){ CLOCK (11, 30), CLOCK (14, 0) };
  if (!hs_plan_solve (day, NULL, NULL, &plan, NULL))
    return;
  for (guint i = 0; i < ROUNDS; i++)
    {
      g_autoptr (GPtrArray) offers = NULL;
      gint64 begin = processor_us ();

      if (!hs_squeeze_offers (day, plan, &call, NULL, &offers, NULL))
        return;
      times[i] = processor_us () - begin;
    }
  qsort (times, ROUNDS, sizeof *times, compare_times);
  g_print (",\"%s\":{\"median_us\":%u,\"worst_us\":%u}", name, (guint) times[ROUNDS / 2], (guint) times[ROUNDS - 1]);
}

int
main (void)
{
  g_autoptr (HsDay) morning = morning_day (30);

  measure ("demo_morning", morning, "{");
  for (guint i = 0; i < G_N_ELEMENTS (shapes); i++)
    {
      g_autoptr (HsDay) day = scattered_day (&shapes[i]);

      measure (shapes[i].name, day, ",");
    }
  measure_squeeze ("squeeze_twelve", 0);
  measure_squeeze ("squeeze_twelve_with_break", 30);
  g_print ("}\n");
  return 0;
}
