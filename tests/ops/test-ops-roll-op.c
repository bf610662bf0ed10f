// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Before the van rolls, on the demo morning. Its plan: leave 08:31, Larch 08:38 to 08:46, A-0021 at Old Market 08:49
 * for 60 min, A-0022 at Quayside 09:55 for 40 min, Kingpost 10:46 for 10 min, A-0023 11:00 for 75 min, A-0025 12:31,
 * A-0024 13:48, A-0026 15:23. Larch opens at 08:00, Kingpost at 07:30. */

#include "hs-roll-op.h"

#include "hs-job-op.h"
#include "hs-job-row.h"
#include "ops-town.h"

#define DAY "2026-03-10"
#define LARCH "Larch & Weir Auto Electrical"

static HsRollOutlook *
look (OpsTown *town, const char *number, const char *clock)
{
  g_autofree char *job = ops_town_job (town, number);
  g_autofree char *when = g_strconcat (DAY "T", clock, NULL);
  g_autoptr (GError) error = NULL;
  HsRollOutlook *outlook = hs_roll_outlook_load (town->book, job, ops_town_at (town, when), &error);

  g_assert_no_error (error);
  return outlook;
}

/* "A-0021 144, A-0022 180": calls and minutes late. */
static char *
breaks_of (const HsRollOutlook *outlook)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < outlook->breaks->len; i++)
    {
      const HsRollBreak *broken = g_ptr_array_index (outlook->breaks, i);

      g_string_append_printf (text, "%s%s %d", i > 0 ? ", " : "", broken->number, (int) (broken->late_seconds / 60));
    }
  return g_string_free (text, FALSE);
}

/* What is next in the order breaks nothing that stood; whoever is behind it waits while another is served first.
 *
 * A-0023 first: the counters of the order before it, Larch 08:38 to 08:46 and Kingpost 08:55 to 09:05, then there 09:09
 * and started at 11:00, done 12:15. A-0021 12:24 where 10:00 was promised, done 13:24; A-0022 13:30 where 10:30 was,
 * done 14:10; A-0025 14:34 to 15:34 in time; A-0024 15:51 where 15:30 was, done 17:21; A-0026 17:26 in time. */
static void
test_breaks (void)
{
  static const struct
  {
    const char *number, *clock, *breaks;
  } rows[] = {
    { "A-0021", "08:31", "" },
    { "A-0023", "08:31", "A-0021 144, A-0022 180, A-0024 21" },
    /* Out too late for A-0021 in any case: rolling there adds nothing to it. */
    { "A-0021", "10:05", "" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (OpsTown) town = ops_town_new_accepted ();
      g_autoptr (HsRollOutlook) outlook = look (town, rows[i].number, rows[i].clock);
      g_autofree char *breaks = breaks_of (outlook);

      g_assert_cmpstr (breaks, ==, rows[i].breaks);
      g_assert_cmpuint (outlook->shut->len, ==, 0);
      g_assert_true (hs_roll_outlook_is_clear (outlook) == (*rows[i].breaks == '\0'));
    }
}

static void
test_who (void)
{
  g_autoptr (OpsTown) town = ops_town_new_accepted ();
  g_autoptr (HsRollOutlook) outlook = look (town, "A-0023", "08:31");
  const HsRollBreak *first = g_ptr_array_index (outlook->breaks, 0);

  g_assert_cmpstr (first->who, ==, "Marguerite Stane");
  g_assert_cmpstr (first->phone, ==, "555-0122");
  ops_town_assert_clock (town, first->by, "10:00");
}

/* The counter before the call is not open yet when the van gets there, seven minutes after it left. One minute before
 * the door is no matter. */
static void
test_shut (void)
{
  static const struct
  {
    const char *clock;
    gboolean shut;
  } rows[] = { { "07:30", TRUE }, { "07:51", TRUE }, { "07:52", FALSE }, { "08:31", FALSE } };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (OpsTown) town = ops_town_new_accepted ();
      g_autoptr (HsRollOutlook) outlook = look (town, "A-0021", rows[i].clock);
      const HsShutPart *part;

      g_assert_cmpuint (outlook->breaks->len, ==, 0);
      g_assert_cmpuint (outlook->shut->len, ==, rows[i].shut);
      if (!rows[i].shut)
        continue;
      part = g_ptr_array_index (outlook->shut, 0);
      g_assert_cmpstr (part->supplier, ==, LARCH);
      g_assert_cmpstr (part->part, ==, "starter");
      g_assert_cmpstr (part->number, ==, "A-0021");
      ops_town_assert_clock (town, part->opens, "08:00");
    }
}

/* It does not open on the day at all, whether the plan goes there or leaves it out: the next opening is told. */
static void
test_shut_all_day (void)
{
  for (guint standing = 0; standing < 2; standing++)
    {
      g_autoptr (OpsTown) town = standing ? ops_town_new_accepted () : ops_town_new ();
      g_autoptr (HsRollOutlook) outlook = NULL;
      const HsShutPart *part;

      if (!standing)
        ops_town_add_morning (town);
      ops_town_add (town, "holidays", "supplier,date,opens,shuts,words\n" LARCH "," DAY ",,,Founders' Day\n");
      outlook = look (town, "A-0021", "08:31");
      g_assert_cmpuint (outlook->shut->len, ==, 1);
      part = g_ptr_array_index (outlook->shut, 0);
      g_assert_cmpstr (part->number, ==, "A-0021");
      g_assert_cmpint (part->opens, ==, ops_town_at (town, "2026-03-11T08:00"));
    }
}

static void
put_in (OpsTown *town, const char *id, HsStage stage, const char *day)
{
  HsStore *store = hs_book_get_store (town->book);
  g_autoptr (HsJobRow) job = NULL;
  HsInstant at = ops_town_at (town, DAY "T07:00");
  g_autoptr (GError) error = NULL;

  if (stage == HS_STAGE_WAITING_PART)
    hs_job_move_stage (town->book, id, HS_STAGE_ON_SITE, NULL, at, &error);
  g_assert_no_error (error);
  if (stage != HS_STAGE_PROMISED)
    hs_job_move_stage (town->book, id, stage, NULL, at, &error);
  g_assert_no_error (error);
  g_assert_true (hs_job_row_load (store, id, &job, NULL));
  job->day = day != NULL ? ops_town_day (day) : HS_DATE_NONE;
  if (day == NULL || !g_str_equal (day, DAY))
    job->window_from = job->window_to = HS_INSTANT_NONE;
  g_assert_true (hs_store_begin (store, at, NULL));
  g_assert_true (hs_store_end (store, hs_job_row_save (store, job, &error), &error));
}

/* Whatever the job stands in before it rolls, and whatever day it was meant for. */
static void
test_shut_from_any_stage (void)
{
  static const struct
  {
    HsStage stage;
    const char *day;
  } rows[] = {
    { HS_STAGE_CALLED_IN, DAY },
    { HS_STAGE_PENCILED, DAY },
    { HS_STAGE_WAITING_PART, DAY },
    { HS_STAGE_PROMISED, "2026-03-11" },
    { HS_STAGE_CALLED_IN, NULL },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (OpsTown) town = ops_town_new_accepted ();
      g_autofree char *id = ops_town_job (town, "A-0021");
      g_autoptr (HsRollOutlook) outlook = NULL;

      put_in (town, id, rows[i].stage, rows[i].day);
      outlook = look (town, "A-0021", "07:30");
      g_test_message ("row %u", i);
      g_assert_cmpuint (outlook->shut->len, ==, 1);
    }
}

/* A-0023 is promised from 11:00 on; by Larch and Kingpost the van is there at 09:09. Nothing is asked for it. */
static void
test_wait (void)
{
  static const struct
  {
    const char *number, *clock;
    int minutes;
  } rows[] = { { "A-0023", "08:31", 111 }, { "A-0021", "08:31", 0 } };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (OpsTown) town = ops_town_new_accepted ();
      g_autoptr (HsRollOutlook) outlook = look (town, rows[i].number, rows[i].clock);

      g_assert_cmpint (outlook->wait_seconds / 60, ==, rows[i].minutes);
      if (rows[i].minutes > 0)
        {
          ops_town_assert_clock (town, outlook->begins, "11:00");
          g_assert_true (outlook->before_promise);
        }
      else
        g_assert_true (hs_roll_outlook_is_clear (outlook));
    }
}

/* Another call's counter is no matter of this one. */
static void
test_shut_for_others (void)
{
  g_autoptr (OpsTown) town = ops_town_new_accepted ();
  g_autoptr (HsRollOutlook) outlook = NULL;

  ops_town_add (town, "holidays", "supplier,date,opens,shuts,words\nKingpost Parts Counter," DAY ",,,\n");
  outlook = look (town, "A-0021", "08:31");
  g_assert_cmpuint (outlook->plan->shut->len, >, 0);
  g_assert_cmpuint (outlook->shut->len, ==, 0);
}

/* Looking is not rolling: the job stays, nobody's order is fixed, and no step is there to be taken back. */
static void
test_leaves_no_trace (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsRollOutlook) outlook = NULL;
  g_autoptr (HsDayPlan) after = NULL;
  g_autoptr (HsJobRow) job = NULL;
  g_autofree char *id = NULL;

  ops_town_add_morning (town);
  outlook = look (town, "A-0023", "08:31");
  g_assert_false (hs_roll_outlook_is_clear (outlook));
  id = ops_town_job (town, "A-0023");
  g_assert_true (hs_job_row_load (hs_book_get_store (town->book), id, &job, NULL));
  g_assert_cmpstr (job->stage, ==, "promised");
  after = hs_day_plan_standing (town->book, ops_town_day (DAY), NULL, ops_town_at (town, DAY "T08:31"), NULL);
  g_assert_false (after->accepted);
}

/* A move that is refused, or a job that is no call of today, has nothing to say. */
static void
test_nothing_to_say (void)
{
  g_autoptr (OpsTown) town = ops_town_new_accepted ();
  g_autofree char *job = ops_town_job (town, "A-0021");
  g_autoptr (HsRollOutlook) outlook = NULL;

  g_assert_true (hs_job_move_stage (town->book, job, HS_STAGE_ROLLING, NULL, ops_town_at (town, DAY "T08:31"), NULL));
  outlook = look (town, "A-0021", "08:32");
  g_assert_true (hs_roll_outlook_is_clear (outlook));
  g_clear_pointer (&outlook, hs_roll_outlook_free);
  outlook = hs_roll_outlook_load (town->book, "nobody", ops_town_now (town), NULL);
  g_assert_true (hs_roll_outlook_is_clear (outlook));
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ops/roll/breaks", test_breaks);
  g_test_add_func ("/ops/roll/who", test_who);
  g_test_add_func ("/ops/roll/shut", test_shut);
  g_test_add_func ("/ops/roll/shut-all-day", test_shut_all_day);
  g_test_add_func ("/ops/roll/shut-from-any-stage", test_shut_from_any_stage);
  g_test_add_func ("/ops/roll/wait", test_wait);
  g_test_add_func ("/ops/roll/shut-for-others", test_shut_for_others);
  g_test_add_func ("/ops/roll/leaves-no-trace", test_leaves_no_trace);
  g_test_add_func ("/ops/roll/nothing-to-say", test_nothing_to_say);
  return g_test_run ();
}
