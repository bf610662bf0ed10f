// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The labor clock over whole days of work: pauses, several visits, midnight, and the days on which clocks change. Each
 * story is a list of moments; the minutes were added up by hand. */

#include "hs-job-life.h"
#include "hs-job-op.h"
#include "hs-ops-error.h"
#include "hs-ops-test.h"
#include "hs-visit-row.h"

typedef enum
{
  END,
  ROLL,
  ARRIVE,
  PAUSE,
  RESUME,
  NEED_PART,
  NEED_YES,
  GO_BACK,
  PROVE,
  CALL_OFF,
} Act;

/* @minutes: what the clock shows at that moment, after the act; -1: the act is refused. */
typedef struct
{
  Act act;
  const char *at;
  int minutes;
} Moment;

typedef struct
{
  const char *name;
  Moment moments[10];
  const char *later;
  int minutes_later;
  gint64 n_visits;
  gint64 n_pauses;
} Story;

static const Story stories[] = {
  { "one visit",
    { { ROLL, "2026-03-10T08:31", 0 }, { ARRIVE, "2026-03-10T08:40", 0 }, { PROVE, "2026-03-10T09:40", 60 } },
    "2026-03-10T09:50", 70, 1, 0 },
  { "a pause for the phone",
    { { ROLL, "2026-03-10T08:31", 0 },
      { ARRIVE, "2026-03-10T08:40", 0 },
      { PAUSE, "2026-03-10T08:50", 10 },
      { RESUME, "2026-03-10T09:05", 10 },
      { PAUSE, "2026-03-10T09:10", 15 },
      { RESUME, "2026-03-10T09:11", 15 } },
    "2026-03-10T09:21", 25, 1, 2 },
  { "pausing twice and going on twice is once",
    { { ROLL, "2026-03-10T08:31", 0 },
      { ARRIVE, "2026-03-10T08:40", 0 },
      { PAUSE, "2026-03-10T08:50", 10 },
      { PAUSE, "2026-03-10T08:55", 10 },
      { RESUME, "2026-03-10T09:00", 10 },
      { RESUME, "2026-03-10T09:10", 20 } },
    "2026-03-10T09:11", 21, 1, 1 },
  { "paused over midnight",
    { { ROLL, "2026-03-10T22:00", 0 },
      { ARRIVE, "2026-03-10T22:30", 0 },
      { PAUSE, "2026-03-10T23:50", 80 },
      { RESUME, "2026-03-11T00:20", 80 } },
    "2026-03-11T01:00", 120, 1, 1 },
  { "worked over midnight",
    { { ROLL, "2026-03-10T22:00", 0 }, { ARRIVE, "2026-03-10T23:00", 0 }, { PROVE, "2026-03-11T01:30", 150 } },
    "2026-03-11T01:30", 150, 1, 0 },
  { "the skipped hour is not worked",
    { { ROLL, "2026-03-08T00:30", 0 }, { ARRIVE, "2026-03-08T01:00", 0 }, { PROVE, "2026-03-08T04:00", 120 } },
    "2026-03-08T04:00", 120, 1, 0 },
  { "paused over the skipped hour",
    { { ROLL, "2026-03-08T00:30", 0 },
      { ARRIVE, "2026-03-08T01:00", 0 },
      { PAUSE, "2026-03-08T01:50", 50 },
      { RESUME, "2026-03-08T03:10", 50 } },
    "2026-03-08T03:30", 70, 1, 1 },
  { "the repeated hour is worked twice",
    { { ROLL, "2026-11-01T00:00", 0 }, { ARRIVE, "2026-11-01T00:30", 0 }, { PROVE, "2026-11-01T02:30", 180 } },
    "2026-11-01T02:30", 180, 1, 0 },
  { "paused over the repeated hour",
    { { ROLL, "2026-11-01T00:00", 0 },
      { ARRIVE, "2026-11-01T00:30", 0 },
      { PAUSE, "2026-11-01T00:50", 20 },
      { RESUME, "2026-11-01T02:10", 20 } },
    "2026-11-01T02:30", 40, 1, 1 },
  { "gone for a part, back on the next day",
    { { ROLL, "2026-03-10T08:31", 0 },
      { ARRIVE, "2026-03-10T08:40", 0 },
      { NEED_PART, "2026-03-10T09:10", 30 },
      { ROLL, "2026-03-11T08:00", 30 },
      { ARRIVE, "2026-03-11T08:20", 30 },
      { PROVE, "2026-03-11T09:00", 70 } },
    "2026-03-11T09:00", 70, 2, 1 },
  { "waited on the spot for a yes",
    { { ROLL, "2026-03-10T08:31", 0 },
      { ARRIVE, "2026-03-10T08:40", 0 },
      { NEED_YES, "2026-03-10T09:00", 20 },
      { ARRIVE, "2026-03-10T09:25", 20 },
      { PROVE, "2026-03-10T09:45", 40 } },
    "2026-03-10T09:45", 40, 1, 1 },
  { "turned round on the way",
    { { ROLL, "2026-03-10T08:31", 0 }, { GO_BACK, "2026-03-10T08:36", 0 }, { PAUSE, "2026-03-10T08:40", -1 } },
    "2026-03-10T12:00", 0, 0, 0 },
  { "nobody was there",
    { { ROLL, "2026-03-10T08:31", 0 }, { CALL_OFF, "2026-03-10T08:45", 0 }, { RESUME, "2026-03-10T08:46", -1 } },
    "2026-03-10T12:00", 0, 1, 0 },
  { "gone on arrival",
    { { ROLL, "2026-03-10T08:31", 0 }, { ARRIVE, "2026-03-10T08:40", 0 }, { CALL_OFF, "2026-03-10T08:55", 15 } },
    "2026-03-10T12:00", 15, 1, 0 },
  { "called off while it stood still",
    { { ROLL, "2026-03-10T08:31", 0 },
      { ARRIVE, "2026-03-10T08:40", 0 },
      { PAUSE, "2026-03-10T08:50", 10 },
      { CALL_OFF, "2026-03-10T09:30", 10 } },
    "2026-03-10T12:00", 10, 1, 1 },
  { "tried again after it was tested good",
    { { ROLL, "2026-03-10T08:31", 0 },
      { ARRIVE, "2026-03-10T08:40", 0 },
      { PROVE, "2026-03-10T09:00", 20 },
      { ARRIVE, "2026-03-10T09:10", 30 } },
    "2026-03-10T09:20", 40, 1, 0 },
};

static HsOpsTest *
start (char **ret_id)
{
  HsOpsTest *test = hs_ops_test_open ();

  hs_ops_test_fill (test);
  hs_ops_test_import_ok (test, "jobs",
                         "number,customer_phone,words,plate,stage,day\n"
                         "A-0001,555-0115,hums,TDM 5508,promised,2026-03-10\n",
                         1, 0, 0);
  *ret_id = hs_job_find (test->book, "A-0001", NULL);
  return test;
}

static gboolean
act_on (HsOpsTest *test, const char *id, const Moment *moment, GError **error)
{
  static const HsStage stages[] = {
    [ROLL] = HS_STAGE_ROLLING,          [ARRIVE] = HS_STAGE_ON_SITE, [NEED_PART] = HS_STAGE_WAITING_PART,
    [NEED_YES] = HS_STAGE_WAITING_YES,  [GO_BACK] = HS_STAGE_PROMISED, [PROVE] = HS_STAGE_PROVEN,
    [CALL_OFF] = HS_STAGE_CALLED_OFF,
  };
  HsInstant at = hs_ops_test_at (moment->at);
  gboolean wants_reason = moment->act == PROVE || moment->act == CALL_OFF;

  if (moment->act == PAUSE)
    return hs_visit_pause (test->book, id, at, error);
  if (moment->act == RESUME)
    return hs_visit_resume (test->book, id, at, error);
  return hs_job_move_stage (test->book, id, stages[moment->act], wants_reason ? "customer drove off" : NULL, at, error);
}

static void
check_clock (HsOpsTest *test, const char *id, const char *at, int minutes)
{
  gint64 seconds = -1;

  g_assert_true (hs_visit_seconds (test->book, id, hs_ops_test_at (at), &seconds, NULL));
  g_assert_cmpint (seconds, ==, minutes * 60);
}

static void
test_stories (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (stories); i++)
    {
      const Story *story = &stories[i];
      g_autofree char *id = NULL;
      g_autoptr (HsOpsTest) test = start (&id);

      g_test_message ("%s", story->name);
      for (const Moment *moment = story->moments; moment->act != END; moment++)
        {
          g_autoptr (GError) error = NULL;
          gboolean done = act_on (test, id, moment, &error);

          if (moment->minutes < 0)
            {
              g_assert_false (done);
              g_assert_error (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED);
              hs_ops_test_refused (&error, "nobody is at the vehicle");
              continue;
            }
          g_assert_no_error (error);
          check_clock (test, id, moment->at, moment->minutes);
        }
      check_clock (test, id, story->later, story->minutes_later);
      g_assert_cmpint (hs_ops_test_count (test, "visit"), ==, story->n_visits);
      g_assert_cmpint (hs_ops_test_count (test, "pause"), ==, story->n_pauses);
    }
}

/* A visit left in a pause was over when the clock stopped; one that ran was over when it was left. */
static void
test_left_at (void)
{
  static const Moment paused[] = {
    { ROLL, "2026-03-10T08:31", 0 },
    { ARRIVE, "2026-03-10T08:40", 0 },
    { NEED_PART, "2026-03-10T09:10", 0 },
    { ROLL, "2026-03-10T11:00", 0 },
  };
  g_autofree char *id = NULL;
  g_autoptr (HsOpsTest) test = start (&id);
  g_autoptr (GPtrArray) visits = NULL;
  const HsVisitRow *first;
  const HsVisitRow *second;

  for (gsize i = 0; i < G_N_ELEMENTS (paused); i++)
    g_assert_true (act_on (test, id, &paused[i], NULL));
  g_assert_true (hs_visit_row_list_of (hs_book_get_store (test->book), id, &visits, NULL));
  g_assert_cmpuint (visits->len, ==, 2);
  first = g_ptr_array_index (visits, 0);
  second = g_ptr_array_index (visits, 1);
  g_assert_cmpint (first->rolling_at, ==, hs_ops_test_at ("2026-03-10T08:31"));
  g_assert_cmpint (first->arrived_at, ==, hs_ops_test_at ("2026-03-10T08:40"));
  g_assert_cmpint (first->left_at, ==, hs_ops_test_at ("2026-03-10T09:10"));
  g_assert_cmpint (second->rolling_at, ==, hs_ops_test_at ("2026-03-10T11:00"));
  g_assert_cmpint (second->arrived_at, ==, HS_INSTANT_NONE);
  hs_ops_test_one (test, "pause WHERE why = 'Needs a part' AND to_at IS NOT NULL");
}

/* The drive belongs to the latest visit. */
static void
test_drive (void)
{
  static const Moment moments[] = {
    { ROLL, "2026-03-10T08:31", 0 },
    { ARRIVE, "2026-03-10T08:40", 0 },
    { NEED_PART, "2026-03-10T09:10", 0 },
    { ROLL, "2026-03-10T11:00", 0 },
  };
  g_autofree char *id = NULL;
  g_autoptr (HsOpsTest) test = start (&id);
  HsInstant now = hs_ops_test_at ("2026-03-10T12:00");
  g_autoptr (GError) error = NULL;

  g_assert_false (hs_visit_drive (test->book, id, 60, 0, now, &error));
  hs_ops_test_refused (&error, "no visit yet");
  for (gsize i = 0; i < G_N_ELEMENTS (moments); i++)
    {
      g_assert_true (act_on (test, id, &moments[i], NULL));
      if (i == 1)
        g_assert_true (hs_visit_drive (test->book, id, 540, 3100, now, &error));
    }
  g_assert_true (hs_visit_drive (test->book, id, 0, 0, now, &error));
  g_assert_true (hs_visit_drive (test->book, id, 720, 5000, now, &error));
  g_assert_no_error (error);
  hs_ops_test_one (test, "visit WHERE drive_seconds = 540 AND drive_millimiles = 3100 AND left_at IS NOT NULL");
  hs_ops_test_one (test, "visit WHERE drive_seconds = 720 AND drive_millimiles = 5000 AND left_at IS NULL");
  g_assert_false (hs_visit_drive (test->book, "nothing", 60, 0, now, &error));
  g_assert_nonnull (error);
}

/* Started minutes are charged: 30 min and one second cost what 31 do. */
static void
test_started_minutes (void)
{
  static const struct
  {
    int seconds;
    gint64 cents;
  } rows[] = {
    { 1, 6000 },      { 1799, 6000 },   { 1800, 6000 },   { 1801, 8400 },
    { 2700, 8400 },   { 2701, 10800 },  { 3600, 10800 },  { 6600, 20400 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *id = NULL;
      g_autoptr (HsOpsTest) test = start (&id);
      HsInstant arrived = hs_ops_test_at ("2026-03-10T08:40");
      g_autofree char *found
          = g_strdup_printf ("line WHERE kind = 'labor' AND price_cents = %d", (int) rows[i].cents);

      g_assert_true (hs_job_move_stage (test->book, id, HS_STAGE_ROLLING, NULL, arrived - 600, NULL));
      g_assert_true (hs_job_move_stage (test->book, id, HS_STAGE_ON_SITE, NULL, arrived, NULL));
      g_assert_true (hs_job_price (test->book, id, NULL, arrived + rows[i].seconds, NULL));
      hs_ops_test_one (test, found);
      g_assert_cmpint (hs_ops_test_count (test, "line"), ==, 1);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/visit/stories", test_stories);
  g_test_add_func ("/visit/left-at", test_left_at);
  g_test_add_func ("/visit/drive", test_drive);
  g_test_add_func ("/visit/started-minutes", test_started_minutes);
  return g_test_run ();
}
