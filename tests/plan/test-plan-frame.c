// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The day as the search sees it: merged spans, when a stop may start, trimmed windows, rings cut, costs in units. */

#include "hs-plan-frame.h"

#include "plan-morning.h"

typedef struct
{
  HsDaySpan in[4];
  guint n_in;
  HsDaySpan out[4];
  guint n_out;
} Merge;

static const Merge merges[] = {
  { { { 0, 0 } }, 0, { { 0, 0 } }, 0 },
  { { { 10, 20 } }, 1, { { 10, 20 } }, 1 },
  { { { 30, 40 }, { 10, 20 } }, 2, { { 10, 20 }, { 30, 40 } }, 2 },
  { { { 10, 20 }, { 20, 40 } }, 2, { { 10, 40 } }, 1 },
  { { { 10, 20 }, { 21, 40 } }, 2, { { 10, 20 }, { 21, 40 } }, 2 },
  { { { 10, 50 }, { 20, 30 }, { 45, 60 } }, 3, { { 10, 60 } }, 1 },
  { { { 10, 50 }, { 20, 30 }, { 55, 60 }, { 10, 12 } }, 4, { { 10, 50 }, { 55, 60 } }, 2 },
  { { { 5, 5 }, { 5, 5 } }, 2, { { 5, 5 } }, 1 },
};

static HsDay *
one_stop_day (HsDayStopKind kind, gint32 service, const HsDaySpan *spans, guint n)
{
  HsDay *day = hs_day_new (1);

  hs_day_add_stop (day, "one", kind, 0, service);
  for (guint k = 0; k < n; k++)
    hs_day_add_span (day, 0, spans[k].from_seconds, spans[k].to_seconds);
  return day;
}

static void
test_merge (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (merges); i++)
    {
      g_autoptr (HsDay) day = one_stop_day (HS_DAY_STOP_CALL, 0, merges[i].in, merges[i].n_in);
      HsDaySpan spans[HS_DAY_MAX_SPANS];
      guint n = hs_frame_merge_spans (hs_day_get_stop (day, 0), spans);

      g_assert_cmpuint (n, ==, merges[i].n_out);
      for (guint k = 0; k < n; k++)
        {
          g_assert_cmpint (spans[k].from_seconds, ==, merges[i].out[k].from_seconds);
          g_assert_cmpint (spans[k].to_seconds, ==, merges[i].out[k].to_seconds);
        }
    }
}

static void
test_open (void)
{
  static const HsDaySpan spans[] = { { 100, 109 }, { 200, 205 } };
  static const struct
  {
    HsDayStopKind kind;
    gint32 service;
    guint n;
    gboolean shut;
    gboolean open;
  } rows[] = {
    { HS_DAY_STOP_COUNTER, 9, 2, FALSE, TRUE },     { HS_DAY_STOP_COUNTER, 10, 2, FALSE, FALSE },
    { HS_DAY_STOP_CALL, 10, 2, FALSE, TRUE },       { HS_DAY_STOP_COUNTER, 99, 0, FALSE, TRUE },
    { HS_DAY_STOP_COUNTER, 0, 0, TRUE, FALSE },     { HS_DAY_STOP_COUNTER, 0, 1, FALSE, TRUE },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsDay) day = one_stop_day (rows[i].kind, rows[i].service, spans, rows[i].n);

      ((HsDayStop *) g_ptr_array_index (day->stops, 0))->shut = rows[i].shut;
      g_assert_cmpint (hs_frame_is_open (hs_day_get_stop (day, 0)), ==, rows[i].open);
    }
}

#define NO (-1)

/* Windows 100–150 and 200–210; a counter's service is 20, so that its second span is too short. */
static void
test_start (void)
{
  static const HsDaySpan spans[] = { { 100, 150 }, { 200, 210 } };
  static const struct
  {
    HsDayStopKind kind;
    gint64 spare;
    gint64 arrival;
    gint64 start;
    gint64 late;
  } rows[] = {
    { HS_DAY_STOP_CALL, -HS_FRAME_FAR, 90, 100, 0 },   { HS_DAY_STOP_CALL, -HS_FRAME_FAR, 150, 150, 0 },
    { HS_DAY_STOP_CALL, -HS_FRAME_FAR, 151, 200, 0 },  { HS_DAY_STOP_CALL, -HS_FRAME_FAR, 210, 210, 0 },
    { HS_DAY_STOP_CALL, -HS_FRAME_FAR, 211, 211, 1 },  { HS_DAY_STOP_CALL, 0, 210, 210, 0 },
    { HS_DAY_STOP_CALL, 0, 211, NO, 0 },               { HS_DAY_STOP_CALL, -5, 215, 215, 5 },
    { HS_DAY_STOP_CALL, -5, 216, NO, 0 },              { HS_DAY_STOP_CALL, 10, 140, 140, 0 },
    { HS_DAY_STOP_CALL, 10, 141, 200, 0 },             { HS_DAY_STOP_CALL, 10, 201, NO, 0 },
    { HS_DAY_STOP_CALL, 11, 139, 139, 0 },             { HS_DAY_STOP_CALL, 11, 140, NO, 0 },
    { HS_DAY_STOP_CALL, 50, 100, 100, 0 },             { HS_DAY_STOP_CALL, 51, 90, NO, 0 },
    { HS_DAY_STOP_COUNTER, 0, 130, 130, 0 },           { HS_DAY_STOP_COUNTER, 0, 131, 131, 1 },
    { HS_DAY_STOP_COUNTER, 40, 130, 130, 0 },          { HS_DAY_STOP_COUNTER, 40, 205, 205, 75 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsDay) day = one_stop_day (rows[i].kind, 20, spans, 2);
      g_autoptr (HsFrame) frame = hs_frame_new (day, 1);
      gint64 start = NO;
      gint64 late = 0;

      hs_frame_trim (frame, rows[i].spare);
      g_assert_cmpint (hs_frame_start (frame, 0, rows[i].arrival, &start, &late), ==, rows[i].start != NO);
      g_assert_cmpint (start, ==, rows[i].start);
      g_assert_cmpint (late, ==, rows[i].late);
    }
}

static void
test_any_time (void)
{
  g_autoptr (HsDay) day = one_stop_day (HS_DAY_STOP_CALL, 20, NULL, 0);
  g_autoptr (HsFrame) frame = hs_frame_new (day, 1);
  gint64 start;
  gint64 late;

  hs_frame_trim (frame, 3600);
  g_assert_true (hs_frame_start (frame, 0, 123, &start, &late));
  g_assert_cmpint (start, ==, 123);
  g_assert_cmpint (late, ==, 0);
}

/* The morning: legs and miles where they belong, ranks by id, precedences by index inside the frame. */
static void
test_morning (void)
{
  g_autoptr (HsDay) day = morning_day (30);
  guint64 in_play = HS_FRAME_BIT (KINGPOST) | HS_FRAME_BIT (A23) | HS_FRAME_BIT (A22);
  g_autoptr (HsFrame) frame = hs_frame_new (day, in_play);

  g_assert_cmpuint (frame->n, ==, 3);
  g_assert_cmpuint (frame->all, ==, 7);
  g_assert_cmpuint (frame->stops[2].day_stop, ==, A23);
  g_assert_cmpuint (frame->stops[2].after, ==, 1);
  g_assert_cmpuint (frame->stops[1].after, ==, 0);
  g_assert_cmpint (hs_frame_seconds (frame, 3, 0), ==, 8 * 60);
  g_assert_cmpint (hs_frame_seconds (frame, 1, 0), ==, 11 * 60);
  g_assert_cmpint (hs_frame_seconds (frame, 2, 4), ==, 8 * 60);
  g_assert_cmpint (hs_frame_units (frame, 0, 2), ==, 1100 * 42 * 3);
  g_assert_cmpint (frame->second_units, ==, 160 * 50);
  g_assert_cmpuint (frame->by_id[0], ==, 1);
  g_assert_cmpuint (frame->by_id[1], ==, 2);
  g_assert_cmpuint (frame->by_id[2], ==, 0);
  g_assert_cmpint (frame->stops[0].last, ==, CLOCK (17, 50));
}

/* From Quayside at 12:51 on, Foundry is reached at 13:02, which is 2 min late, by whichever way. */
static void
test_doom (void)
{
  g_autoptr (HsDay) day = morning_day (30);
  g_autoptr (HsFrame) frame = hs_frame_new (day, HS_FRAME_BIT (A23) | HS_FRAME_BIT (A22));
  guint broken = 1;
  gint64 late = 10;

  g_assert_true (hs_frame_doom (frame, 1, 0, CLOCK (12, 49), &broken, &late));
  g_assert_cmpuint (broken, ==, 1);
  g_assert_true (hs_frame_doom (frame, 1, 0, CLOCK (12, 51), &broken, &late));
  g_assert_cmpuint (broken, ==, 2);
  g_assert_cmpint (late, ==, 10 + 2 * 60);
  hs_frame_trim (frame, 0);
  g_assert_false (hs_frame_doom (frame, 1, 0, CLOCK (12, 51), &broken, &late));
  hs_frame_trim (frame, -2 * 60);
  g_assert_true (hs_frame_doom (frame, 1, 0, CLOCK (12, 51), &broken, &late));
  hs_frame_trim (frame, 600);
  g_assert_false (hs_frame_doom (frame, 1, 0, CLOCK (12, 40), &broken, &late));
  g_assert_true (hs_frame_doom (frame, 1, 0, CLOCK (12, 39), &broken, &late));
}

/* A shortcut through another stop counts, or a bound would cut off good days. */
static void
test_reach (void)
{
  g_autoptr (HsDay) day = hs_day_new (3);
  g_autoptr (HsFrame) frame = NULL;

  for (guint i = 0; i < 3; i++)
    hs_day_add_stop (day, i == 0 ? "a" : i == 1 ? "b" : "c", HS_DAY_STOP_CALL, i, 5);
  hs_day_set_leg (day, 0, 2, 100, 0);
  hs_day_set_leg (day, 0, 1, 10, 0);
  hs_day_set_leg (day, 1, 2, 20, 0);
  frame = hs_frame_new (day, 7);
  g_assert_cmpint (frame->reach[0 * 5 + 2], ==, 35);
  g_assert_cmpint (frame->reach[0 * 5 + 1], ==, 10);
}

static void
test_before (void)
{
  g_autoptr (HsDay) day = hs_day_new (1);
  g_autoptr (HsFrame) frame = NULL;
  guint64 before[HS_DAY_MAX_STOPS];

  for (guint i = 0; i < 4; i++)
    {
      g_autofree char *id = g_strdup_printf ("%u", i);

      hs_day_add_stop (day, id, HS_DAY_STOP_CALL, 0, 0);
    }
  hs_day_add_after (day, 1, 0);
  hs_day_add_after (day, 2, 1);
  hs_day_add_after (day, 0, 1);
  hs_day_add_after (day, 3, 2);
  hs_frame_before (day, before);
  g_assert_cmpuint (before[0], ==, 3);
  g_assert_cmpuint (before[1], ==, 3);
  g_assert_cmpuint (before[2], ==, 3);
  g_assert_cmpuint (before[3], ==, 7);
  frame = hs_frame_new (day, 15);
  g_assert_cmpuint (frame->stops[0].after, ==, 0);
  g_assert_cmpuint (frame->stops[1].after, ==, 0);
  g_assert_cmpuint (frame->stops[2].after, ==, 2);
  g_assert_cmpuint (frame->stops[3].after, ==, 4);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/frame/merge", test_merge);
  g_test_add_func ("/plan/frame/open", test_open);
  g_test_add_func ("/plan/frame/start", test_start);
  g_test_add_func ("/plan/frame/any-time", test_any_time);
  g_test_add_func ("/plan/frame/morning", test_morning);
  g_test_add_func ("/plan/frame/doom", test_doom);
  g_test_add_func ("/plan/frame/reach", test_reach);
  g_test_add_func ("/plan/frame/before", test_before);
  return g_test_run ();
}
