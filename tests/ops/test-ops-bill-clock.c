// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* One sum wherever it is shown: the bill, the customer's page, the options and the go-ahead count what the clock adds
 * to what is on the bill, and nothing is squared up before that is on it. */

#include "hs-board.h"
#include "hs-chain-op.h"
#include "hs-customer-shot.h"
#include "hs-job-life.h"
#include "hs-job-op.h"
#include "hs-repair-op.h"
#include "hs-undo.h"
#include "ops-choice.h"

#include <stdlib.h>

#define MINUTES(n) (OPS_CHOICE_NOW + 60 * (n))

/* A fuse of 4.00 without any work: 8.00, and 0.64 tax. */
static char *
pick_fuse (OpsChoice *job)
{
  const HsChoiceEntry entry = { .wording = "Main fuse" };
  const HsChoiceLineEntry line = { .what = "fuse", .cost_cents = 400, .price_cents = HS_INT_NONE };
  g_autoptr (GError) error = NULL;
  char *id = hs_choice_add (job->book, job->job, &entry, &line, 1, OPS_CHOICE_NOW, &error);

  g_assert_no_error (error);
  ops_choice_answer (job, id, "yes", NULL);
  return id;
}

/* All four say the same; @clock of it is what the clock adds. */
static void
assert_sum (OpsChoice *job, HsInstant now, gint64 net, gint64 tax, gint64 clock)
{
  g_autoptr (HsJobView) view = ops_choice_view_at (job, now);
  g_autoptr (HsCustomerShot) shot = hs_customer_shot_load (job->book, job->job, now, NULL);
  g_autoptr (HsJobChoices) choices = hs_job_choices_load (job->book, job->job, now, NULL);
  g_autoptr (HsGoAheadRoom) room = hs_go_ahead_check (job->book, job->job, NULL, 0, now, NULL);

  g_assert_cmpint (view->net_cents, ==, net);
  g_assert_cmpint (view->tax_cents, ==, tax);
  g_assert_cmpint (view->clock_cents, ==, clock);
  g_assert_cmpint (shot->total_cents, ==, net + tax);
  g_assert_cmpint (choices->room->total_cents, ==, net + tax);
  g_assert_cmpint (room->used_cents, ==, net + tax);
}

/* 8.64 of parts and a call-out of 60.00 are 68.64 before and after the job is priced. */
static void
test_picked (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  g_autofree char *fuse = pick_fuse (&job);
  g_autoptr (HsJobView) view = NULL;

  assert_sum (&job, MINUTES (0), 800, 64, 0);
  assert_sum (&job, MINUTES (10), 6800, 64, 6000);
  view = ops_choice_view_at (&job, MINUTES (10));
  g_assert_cmpint (view->clock_minutes, ==, 10);
  g_assert_true (hs_job_price (job.book, job.job, NULL, MINUTES (10), NULL));
  assert_sum (&job, MINUTES (10), 6800, 64, 0);
  /* The clock goes on, and the quarter hour after the first thirty minutes with it. */
  assert_sum (&job, MINUTES (31), 9200, 64, 2400);
}

/* An option with the call-out in it is the price of the visit, however long the clock runs and however often the job is
 * priced. */
static void
test_agreed (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  g_autofree char *belt = ops_choice_add_belt (&job);
  g_autoptr (HsJobView) view = NULL;

  ops_choice_answer (&job, belt, "yes", NULL);
  assert_sum (&job, MINUTES (60), 15040, 339, 0);
  assert_sum (&job, MINUTES (95), 15040, 339, 0);
  for (int again = 0; again < 2; again++)
    {
      g_assert_true (hs_job_price (job.book, job.job, NULL, MINUTES (95), NULL));
      hs_ops_test_one (job.test, "line WHERE kind = 'labor' AND price_cents = 4800 AND advice_line_id IS NOT NULL");
      hs_ops_test_one (job.test, "line WHERE kind = 'call_out' AND price_cents = 6000 AND advice_line_id IS NOT NULL");
      hs_ops_test_one (job.test, "line WHERE what = '95 min on site, at the price that was agreed'"
                                 " AND price_cents = 0");
      assert_sum (&job, MINUTES (95), 15040, 339, 0);
    }
  /* Sixty of them were agreed. */
  view = ops_choice_view_at (&job, MINUTES (95));
  g_assert_cmpint (view->past_minutes, ==, 35);
}

/* The call-out of 60.00 with its thirty minutes is the owner's, and once; what came before the yes is the clock's, what
 * was agreed is the option's, and no minute is paid twice. */
static void
test_beside_agreed (void)
{
  static const struct
  {
    const char *minutes; /* of the option; else a price of 99.00 */
    gint64 yes, now;     /* minutes on site */
    gint64 option, own, past;
    const char *what;
  } rows[] = {
    { "30", 20, 50, 4800, 6000, 0, "Call-out and 20 min on site before the work that was agreed" },
    { "30", 20, 75, 4800, 6000, 25, "Call-out and 20 min on site before the work that was agreed" },
    { "30", 50, 60, 4800, 6000, 0, "Call-out and 30 min on site before the work that was agreed" },
    { "30", 50, 90, 4800, 6000 + 2 * 2400, 10, "Call-out and 50 min on site before the work that was agreed" },
    { "30", 0, 10, 4800, 6000, 0, "Call-out" },
    { NULL, 46, 300, 9900, 6000 + 2 * 2400, 0, "Call-out and 46 min on site before the work that was agreed" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (OpsChoice) job = ops_choice_start ();
      HsChoiceLineEntry line = { .kind = "labor", .what = "strap", .cost_cents = HS_INT_NONE,
                                 .price_cents = rows[i].minutes == NULL ? 9900 : HS_INT_NONE,
                                 .minutes = rows[i].minutes == NULL ? 0 : atoi (rows[i].minutes) };
      HsChoiceAnswer answer = HS_CHOICE_ANSWER_NONE;
      g_autofree char *id = hs_choice_add (job.book, job.job, &(HsChoiceEntry) { .wording = "Strap" }, &line, 1,
                                           MINUTES (rows[i].yes), NULL);
      g_autofree char *labor = g_strdup_printf ("line WHERE advice_line_id IS NULL AND kind = 'labor'"
                                                " AND what = '%s' AND price_cents = %d", rows[i].what,
                                                (int) rows[i].own);
      g_autoptr (HsJobChoices) would = NULL;
      g_autoptr (HsJobView) view = NULL;

      answer.choice = "yes";
      answer.by = "Teo";
      answer.means = "phone";
      would = hs_job_choices_load (job.book, job.job, MINUTES (rows[i].yes), NULL);
      g_assert_true (hs_choice_decide (job.book, id, &answer, MINUTES (rows[i].yes), NULL));
      if (rows[i].yes > 0)
        assert_sum (&job, MINUTES (rows[i].yes), hs_job_choices_find (would, 1)->would_cents, 0,
                    hs_job_choices_find (would, 1)->would_cents - rows[i].option);
      assert_sum (&job, MINUTES (rows[i].now), rows[i].option + rows[i].own, 0, rows[i].own);
      view = ops_choice_view_at (&job, MINUTES (rows[i].now));
      g_assert_cmpint (view->past_minutes, ==, rows[i].past);
      g_assert_true (hs_job_price (job.book, job.job, NULL, MINUTES (rows[i].now), NULL));
      hs_ops_test_one (job.test, labor);
      assert_sum (&job, MINUTES (rows[i].now), rows[i].option + rows[i].own, 0, 0);
    }
}

static void
yes_at (OpsChoice *job, const char *id, const char *means, HsInstant now)
{
  HsChoiceAnswer answer = HS_CHOICE_ANSWER_NONE;
  g_autoptr (GError) error = NULL;

  answer.choice = "yes";
  answer.by = "Teo";
  answer.means = means;
  answer.risk = "may come loose";
  hs_choice_decide (job->book, id, &answer, now, &error);
  g_assert_no_error (error);
}

/* 30 min are 48.00, and the call-out with the ten minutes before them 60.00. That the yes is said once more, in another
 * way, is no other price. */
static void
test_yes_again (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  const HsChoiceLineEntry line = { .minutes = 30, .cost_cents = HS_INT_NONE, .price_cents = HS_INT_NONE };
  g_autofree char *strap = hs_choice_add (job.book, job.job, &(HsChoiceEntry) { .wording = "Strap" }, &line, 1,
                                          OPS_CHOICE_NOW, NULL);

  yes_at (&job, strap, "phone", MINUTES (10));
  assert_sum (&job, MINUTES (100), 4800 + 6000, 0, 6000);
  yes_at (&job, strap, "in_person", MINUTES (100));
  assert_sum (&job, MINUTES (100), 4800 + 6000, 0, 6000);
  hs_ops_test_one (job.test, "advice WHERE choice = 'yes' AND means = 'in_person' AND decided_at = 1773139500 + 600");
}

static char *
add_graded (OpsChoice *job, const char *wording, const char *rank, const HsChoiceLineEntry *lines, gsize n_lines)
{
  const HsChoiceEntry entry = { .wording = wording, .group = "strap", .rank = rank };
  g_autoptr (GError) error = NULL;
  char *id = hs_choice_add (job->book, job->job, &entry, lines, n_lines, OPS_CHOICE_NOW, &error);

  g_assert_no_error (error);
  return id;
}

/* Work that was agreed at the first minute is no work before a yes because another option of the group pays for it now:
 * best is 60.00 + 96.00, enough 96.00 beside the owner's call-out. What is weighed comes to the same. */
static void
test_lesser_instead (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  const HsChoiceLineEntry more[] = {
    { .kind = "call_out", .cost_cents = HS_INT_NONE, .price_cents = HS_INT_NONE },
    { .minutes = 90, .cost_cents = HS_INT_NONE, .price_cents = HS_INT_NONE },
  };
  const HsChoiceLineEntry less = { .minutes = 60, .cost_cents = HS_INT_NONE, .price_cents = HS_INT_NONE };
  g_autofree char *best = add_graded (&job, "Best", "best", more, 2);
  g_autofree char *enough = add_graded (&job, "Enough", "enough", &less, 1);
  g_autoptr (HsJobChoices) would = NULL;

  yes_at (&job, best, "phone", MINUTES (1));
  assert_sum (&job, MINUTES (91), 15600, 0, 0);
  would = hs_job_choices_load (job.book, job.job, MINUTES (91), NULL);
  g_assert_cmpint (hs_job_choices_find (would, 2)->would_cents, ==, 9600 + 6000);
  yes_at (&job, enough, "phone", MINUTES (91));
  assert_sum (&job, MINUTES (91), 9600 + 6000, 0, 6000);
  hs_ops_test_one (job.test, "advice WHERE wording = 'Best' AND choice = 'no' AND decided_at = 1773139500 + 5460");
  yes_at (&job, best, "phone", MINUTES (95));
  assert_sum (&job, MINUTES (95), 15600, 0, 0);
}

static void
answer_at (OpsChoice *job, const char *id, const char *choice, HsInstant now)
{
  HsChoiceAnswer answer = HS_CHOICE_ANSWER_NONE;
  g_autoptr (GError) error = NULL;

  answer.choice = choice;
  answer.by = "Teo";
  answer.means = "phone";
  answer.risk = "may come loose";
  hs_choice_decide (job->book, id, &answer, now, &error);
  g_assert_no_error (error);
}

/* A yes that is taken back was one as long as it stood: of the minutes until the next yes, to whichever of the group,
 * the clock has those before the first one and those without one. 60.00 with thirty minutes, 24.00 for each started
 * 15. */
static void
test_put_back (void)
{
  static const struct
  {
    struct { const char *option, *answer; gint64 at; } steps[6];
    gint64 now, option, own;
  } rows[] = {
    /* 10 + 30 min. */
    { { { "best", "yes", 10 }, { "best", "open", 100 }, { "enough", "yes", 130 } }, 130, 9600, 6000 + 2400 },
    /* 10 + 1 min. */
    { { { "best", "yes", 10 }, { "best", "open", 100 }, { "enough", "yes", 101 } }, 150, 9600, 6000 },
    { { { "best", "yes", 10 }, { "best", "no", 100 }, { "enough", "yes", 101 } }, 150, 9600, 6000 },
    { { { "best", "yes", 10 }, { "best", "later", 100 }, { "enough", "yes", 101 } }, 150, 9600, 6000 },
    /* The same once more: 10 + 10 min. */
    { { { "enough", "yes", 10 }, { "enough", "open", 100 }, { "enough", "yes", 110 } }, 110, 9600, 6000 },
    /* 10 + 10 + 20 min, and no minute agreed twice. */
    { { { "best", "yes", 10 }, { "best", "open", 50 }, { "enough", "yes", 60 }, { "enough", "open", 100 },
        { "enough", "yes", 120 } }, 120, 9600, 6000 + 2400 },
    { { { "best", "yes", 10 }, { "enough", "yes", 50 }, { "enough", "open", 100 }, { "enough", "yes", 130 } },
      130, 9600, 6000 + 2400 },
    /* Parts alone are no work: 120 min, of which the option counts 60. */
    { { { "parts", "yes", 10 }, { "parts", "open", 100 }, { "enough", "yes", 120 } }, 120, 9600, 6000 + 4800 },
    /* What was agreed of something else is none of it. */
    { { { "other", "yes", 10 }, { "other", "open", 100 }, { "enough", "yes", 120 } }, 120, 9600, 6000 + 4800 },
  };
  const HsChoiceLineEntry more = { .minutes = 90, .cost_cents = HS_INT_NONE, .price_cents = HS_INT_NONE };
  const HsChoiceLineEntry less = { .minutes = 60, .cost_cents = HS_INT_NONE, .price_cents = HS_INT_NONE };
  const HsChoiceLineEntry part = { .what = "strap", .cost_cents = 400, .price_cents = HS_INT_NONE };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (OpsChoice) job = ops_choice_start ();
      g_autoptr (GHashTable) ids = g_hash_table_new_full (g_str_hash, g_str_equal, NULL, g_free);
      guint last = 0;

      g_hash_table_insert (ids, (char *) "parts", add_graded (&job, "Parts", "least", &part, 1));
      g_hash_table_insert (ids, (char *) "best", add_graded (&job, "Best", "best", &more, 1));
      g_hash_table_insert (ids, (char *) "enough", add_graded (&job, "Enough", "enough", &less, 1));
      g_hash_table_insert (ids, (char *) "other", hs_choice_add (job.book, job.job,
                                                                 &(HsChoiceEntry) { .wording = "Other" }, &less, 1,
                                                                 OPS_CHOICE_NOW, NULL));
      while (last + 1 < G_N_ELEMENTS (rows[i].steps) && rows[i].steps[last + 1].option != NULL)
        last++;
      for (guint k = 0; k <= last; k++)
        {
          const char *id = g_hash_table_lookup (ids, rows[i].steps[k].option);
          HsInstant at = MINUTES (rows[i].steps[k].at);

          if (k == last)
            {
              g_autoptr (HsJobChoices) would = hs_job_choices_load (job.book, job.job, at, NULL);

              for (guint n = 1; n <= would->choices->len && rows[i].now == rows[i].steps[k].at; n++)
                if (g_str_equal (hs_job_choices_find (would, n)->id, id))
                  g_assert_cmpint (hs_job_choices_find (would, n)->would_cents, ==, rows[i].option + rows[i].own);
            }
          answer_at (&job, id, rows[i].steps[k].answer, at);
        }
      g_test_message ("row %u", i);
      assert_sum (&job, MINUTES (rows[i].now), rows[i].option + rows[i].own, 0, rows[i].own);
    }
}

/* A pick of parts ousts a yes to work as taking it back does. Yes at the first minute, parts 60 min later, yes after 30
 * more: those 30 are the clock's, within the call-out. */
static void
test_ousted (void)
{
  static const char *const puts_back[] = { "parts", "open" };

  for (guint i = 0; i < G_N_ELEMENTS (puts_back); i++)
    {
      g_auto (OpsChoice) job = ops_choice_start ();
      const HsChoiceLineEntry work = { .minutes = 10, .cost_cents = HS_INT_NONE, .price_cents = HS_INT_NONE };
      const HsChoiceLineEntry part = { .what = "strap", .cost_cents = 400, .price_cents = HS_INT_NONE };
      g_autofree char *best = add_graded (&job, "Best", "best", &work, 1);
      g_autofree char *parts = add_graded (&job, "Parts", "least", &part, 1);

      answer_at (&job, best, "yes", MINUTES (0));
      if (g_str_equal (puts_back[i], "parts"))
        answer_at (&job, parts, "yes", MINUTES (60));
      else
        answer_at (&job, best, "open", MINUTES (60));
      answer_at (&job, best, "yes", MINUTES (90));
      /* Ten minutes of labor are 24.00. */
      assert_sum (&job, MINUTES (120), 2400 + 6000, 0, 6000);
    }
}

static void
turn_steps (OpsChoice *job, guint n, gboolean back, HsInstant now)
{
  HsStore *store = hs_book_get_store (job->book);
  g_autoptr (GError) error = NULL;

  for (guint i = 0; i < n; i++)
    {
      g_assert_true (back ? hs_undo_last (store, job->job, now, NULL, &error)
                          : hs_undo_again (store, job->job, now, NULL, &error));
      g_assert_no_error (error);
    }
}

/* A yes that was undone never was, and what took one back neither; done again both are. 60 min of labor are 96.00. */
static void
test_undone (void)
{
  static const struct
  {
    gboolean ousted;
    guint back, again; /* steps */
    gint64 own;
  } rows[] = {
    { FALSE, 0, 0, 6000 + 2400 },
    { FALSE, 1, 0, 6000 },
    { FALSE, 1, 1, 6000 + 2400 },
    { FALSE, 2, 0, 6000 + 6 * 2400 },
    { FALSE, 2, 2, 6000 + 2400 },
    { TRUE, 0, 0, 6000 + 2400 },
    { TRUE, 1, 0, 6000 },
    { TRUE, 2, 0, 6000 + 6 * 2400 },
    { TRUE, 2, 2, 6000 + 2400 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (OpsChoice) job = ops_choice_start ();
      const HsChoiceLineEntry work = { .minutes = 60, .cost_cents = HS_INT_NONE, .price_cents = HS_INT_NONE };
      const HsChoiceLineEntry part = { .what = "strap", .cost_cents = 400, .price_cents = HS_INT_NONE };
      g_autofree char *best = add_graded (&job, "Best", "best", &work, 1);
      g_autofree char *parts = add_graded (&job, "Parts", "least", &part, 1);

      g_test_message ("row %u", i);
      answer_at (&job, best, "yes", MINUTES (0));
      answer_at (&job, rows[i].ousted ? parts : best, rows[i].ousted ? "yes" : "open", MINUTES (75));
      turn_steps (&job, rows[i].back, TRUE, MINUTES (80));
      turn_steps (&job, rows[i].again, FALSE, MINUTES (90));
      answer_at (&job, best, "yes", MINUTES (120));
      assert_sum (&job, MINUTES (180), 9600 + rows[i].own, 0, rows[i].own);
    }
}

/* Of two steps at the same second only one was undone. */
static void
test_undone_one_of_two (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  const HsChoiceLineEntry work = { .minutes = 60, .cost_cents = HS_INT_NONE, .price_cents = HS_INT_NONE };
  g_autofree char *best = add_graded (&job, "Best", "best", &work, 1);

  answer_at (&job, best, "yes", MINUTES (0));
  answer_at (&job, best, "open", MINUTES (75));
  turn_steps (&job, 2, TRUE, MINUTES (75));
  g_assert_true (hs_visit_pause (job.book, job.job, MINUTES (75), NULL));
  g_assert_true (hs_visit_resume (job.book, job.job, MINUTES (75), NULL));
  answer_at (&job, best, "yes", MINUTES (120));
  assert_sum (&job, MINUTES (180), 9600 + 6000 + 6 * 2400, 0, 6000 + 6 * 2400);
}

/* The visit before the yes to 30 min (48.00) took 20 min, the one after it none that the clock knows. Those are not
 * charged, and nobody is asked for them; of the visit before the yes, and where it hangs on them how much of that is
 * past the 30 min, somebody is. */
static void
test_unclocked_after (void)
{
  static const struct
  {
    gint64 yes, left; /* of the visit that is over */
    gboolean asked;
  } rows[] = { { 0, 20, FALSE }, { 20, 60, FALSE }, { 20, 40, TRUE } };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (OpsChoice) job = ops_choice_start ();
      const HsChoiceLineEntry work = { .minutes = 30, .cost_cents = HS_INT_NONE, .price_cents = HS_INT_NONE };
      g_autofree char *strap = add_graded (&job, "Strap", "best", &work, 1);
      HsInstant next = MINUTES (24 * 60);
      g_autoptr (HsJobView) view = NULL;
      g_autoptr (GError) error = NULL;

      g_test_message ("row %u", i);
      g_assert_true (hs_go_ahead_add (job.book, job.job, 50000, "Teo", "phone", MINUTES (0), NULL));
      answer_at (&job, strap, "yes", MINUTES (rows[i].yes));
      g_assert_true (hs_job_move_stage (job.book, job.job, HS_STAGE_PROMISED, NULL, MINUTES (rows[i].left), &error));
      g_assert_true (hs_job_move_stage (job.book, job.job, HS_STAGE_ON_SITE, NULL, next, &error));
      view = ops_choice_view_at (&job, next - 60);
      g_assert_cmpint (view->unclocked_at, ==, rows[i].asked ? next : HS_INSTANT_NONE);
      g_assert_true (hs_job_move_stage (job.book, job.job, HS_STAGE_PROVEN, "customer gone", next - 60, &error));
      g_assert_true (hs_job_price (job.book, job.job, NULL, next - 60, &error) == !rows[i].asked);
      g_clear_error (&error);
      g_assert_true (hs_job_square (job.book, job.job, next - 60, &error) == !rows[i].asked);
      g_assert_cmpint (hs_ops_test_count (job.test, "invoice WHERE net_cents = 10800"), ==, !rows[i].asked);
    }
}

/* The only visit arrived with the yes, and then the clock was put back. Nobody is asked for its minutes, but somebody
 * came: the call-out is due. */
static void
test_unclocked_alone (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  const HsChoiceLineEntry work = { .minutes = 30, .cost_cents = HS_INT_NONE, .price_cents = HS_INT_NONE };
  g_autofree char *strap = add_graded (&job, "Strap", "best", &work, 1);
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_go_ahead_add (job.book, job.job, 50000, "Teo", "phone", MINUTES (0), NULL));
  answer_at (&job, strap, "yes", MINUTES (0));
  assert_sum (&job, MINUTES (-60), 4800 + 6000, 0, 6000);
  g_assert_true (hs_job_move_stage (job.book, job.job, HS_STAGE_PROVEN, "customer gone", MINUTES (-60), NULL));
  g_assert_false (hs_job_square (job.book, job.job, MINUTES (-60), &error));
  hs_ops_test_refused (&error, "by the clock 60.00 more is not on the bill");
  g_assert_true (hs_job_price (job.book, job.job, NULL, MINUTES (-60), &error));
  hs_ops_test_one (job.test, "line WHERE what = 'Call-out' AND price_cents = 6000");
  g_assert_true (hs_job_square (job.book, job.job, MINUTES (-60), &error));
  hs_ops_test_one (job.test, "invoice WHERE net_cents = 10800");
}

/* Parts that were agreed are no work: what was done before the first yes to any is the clock's, 60.00 + 2 * 24.00. */
static void
test_work_instead_of_parts (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  const HsChoiceLineEntry part = { .what = "strap", .cost_cents = 400, .price_cents = HS_INT_NONE };
  const HsChoiceLineEntry work = { .minutes = 30, .cost_cents = HS_INT_NONE, .price_cents = HS_INT_NONE };
  g_autofree char *best = add_graded (&job, "Best", "best", &part, 1);
  g_autofree char *enough = add_graded (&job, "Enough", "enough", &work, 1);

  yes_at (&job, best, "phone", MINUTES (1));
  yes_at (&job, enough, "phone", MINUTES (60));
  assert_sum (&job, MINUTES (90), 4800 + 6000 + 4800, 0, 10800);
}

/* Two options that have the call-out each: it is charged once, and by the other one if its own is taken back. */
static void
test_one_call_out (void)
{
  const HsChoiceLineEntry lines[] = {
    { .kind = "call_out", .cost_cents = HS_INT_NONE, .price_cents = HS_INT_NONE },
    { .kind = "labor", .what = "lamp", .cost_cents = HS_INT_NONE, .price_cents = 1500 },
  };
  g_auto (OpsChoice) job = ops_choice_start ();
  g_autofree char *belt = ops_choice_add_belt (&job);
  g_autofree char *lamp = hs_choice_add (job.book, job.job, &(HsChoiceEntry) { .wording = "Lamp" }, lines, 2,
                                         OPS_CHOICE_NOW, NULL);

  ops_choice_answer (&job, belt, "yes", NULL);
  ops_choice_answer (&job, lamp, "yes", NULL);
  hs_ops_test_one (job.test, "line WHERE kind = 'call_out' AND price_cents = 6000");
  assert_sum (&job, MINUTES (60), 15040 + 1500, 339, 0);
  ops_choice_answer (&job, belt, "open", NULL);
  hs_ops_test_one (job.test, "line WHERE kind = 'call_out' AND price_cents = 6000 AND advice_line_id IS NOT NULL");
  assert_sum (&job, MINUTES (60), 1500 + 6000, 0, 0);
  ops_choice_answer (&job, lamp, "open", NULL);
  g_assert_cmpint (hs_ops_test_count (job.test, "line"), ==, 0);
  assert_sum (&job, MINUTES (30), 6000, 0, 6000);
}

/* The belt is 60.00 + 48.00, the lamp 60.00 + 24.00, and its price holds however late the belt is taken back; the same
 * where a lesser option without a call-out is picked instead of the belt, which is weighed so, too. */
static void
test_call_out_comes_back (void)
{
  for (guint instead = 0; instead < 2; instead++)
    {
      g_auto (OpsChoice) job = ops_choice_start ();
      HsChoiceLineEntry lines[] = {
        { .kind = "call_out", .cost_cents = HS_INT_NONE, .price_cents = HS_INT_NONE },
        { .minutes = 60, .cost_cents = HS_INT_NONE, .price_cents = HS_INT_NONE },
      };
      const HsChoiceLineEntry tape_line = { .minutes = 15, .cost_cents = HS_INT_NONE, .price_cents = HS_INT_NONE };
      g_autofree char *belt = add_graded (&job, "Belt", "best", lines, 2);
      g_autofree char *tape = add_graded (&job, "Tape", "enough", &tape_line, 1);
      g_autofree char *lamp = NULL;
      g_autoptr (HsJobChoices) would = NULL;
      gint64 cents = 8400 + (instead ? 2400 : 0);

      lines[1].minutes = 45;
      lamp = hs_choice_add (job.book, job.job, &(HsChoiceEntry) { .wording = "Lamp" }, lines, 2, OPS_CHOICE_NOW, NULL);
      yes_at (&job, belt, "phone", MINUTES (46));
      yes_at (&job, lamp, "phone", MINUTES (47));
      assert_sum (&job, MINUTES (91), 13200, 0, 0);
      would = hs_job_choices_load (job.book, job.job, MINUTES (91), NULL);
      g_assert_cmpint (hs_job_choices_find (would, 1)->would_cents, ==, 13200);
      g_assert_cmpint (hs_job_choices_find (would, 2)->would_cents, ==, 13200);
      g_assert_cmpint (hs_job_choices_find (would, 3)->would_cents, ==, 8400 + 2400);
      if (instead)
        yes_at (&job, tape, "phone", MINUTES (91));
      else
        ops_choice_answer (&job, belt, "open", NULL);
      assert_sum (&job, MINUTES (211), cents, 0, 0);
    }
}

/* What was left out of a visit that was given for nothing is not charged after it. */
static void
test_call_out_given (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  const HsChoiceLineEntry line = { .kind = "call_out", .cost_cents = HS_INT_NONE, .price_cents = HS_INT_NONE };
  g_autofree char *belt = ops_choice_add_belt (&job);
  g_autofree char *lamp = hs_choice_add (job.book, job.job, &(HsChoiceEntry) { .wording = "Lamp" }, &line, 1,
                                         OPS_CHOICE_NOW, NULL);

  ops_choice_answer (&job, belt, "yes", NULL);
  ops_choice_answer (&job, lamp, "yes", NULL);
  g_assert_true (hs_job_price (job.book, job.job, "an old friend", MINUTES (10), NULL));
  ops_choice_answer (&job, belt, "open", NULL);
  assert_sum (&job, MINUTES (60), 0, 0, 0);
}

/* What was priced before the yes is priced anew beside it, so that the call-out is not there twice. */
static void
test_priced_before (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  g_autofree char *belt = ops_choice_add_belt (&job);

  g_assert_true (hs_job_price (job.book, job.job, NULL, MINUTES (10), NULL));
  hs_ops_test_one (job.test, "line WHERE kind = 'labor' AND price_cents = 6000");
  ops_choice_answer (&job, belt, "yes", NULL);
  assert_sum (&job, MINUTES (20), 15040, 339, 0);
  g_assert_true (hs_undo_last (hs_book_get_store (job.book), job.job, MINUTES (21), NULL, NULL));
  hs_ops_test_one (job.test, "line WHERE kind = 'labor' AND price_cents = 6000");
}

static void
prove (OpsChoice *job, HsInstant now)
{
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_go_ahead_add (job->book, job->job, 50000, "Teo", "phone", now, NULL));
  hs_job_move_stage (job->book, job->job, HS_STAGE_PROVEN, "the customer drove off", now, &error);
  g_assert_no_error (error);
}

static void
test_square (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  g_autofree char *fuse = pick_fuse (&job);
  g_autoptr (GError) error = NULL;

  prove (&job, MINUTES (20));
  g_assert_false (hs_job_square (job.book, job.job, MINUTES (20), &error));
  hs_ops_test_refused (&error, "by the clock 60.00 more is not on the bill. Price it first");
  hs_ops_test_one (job.test, "job WHERE stage = 'proven'");
  g_assert_cmpint (hs_ops_test_count (job.test, "invoice"), ==, 0);
  g_assert_true (hs_job_price (job.book, job.job, NULL, MINUTES (20), NULL));
  /* Tested good and priced: what the customer was told stays, however long the talk is. */
  assert_sum (&job, MINUTES (90), 6800, 64, 0);
  g_assert_true (hs_job_square (job.book, job.job, MINUTES (90), &error));
  g_assert_no_error (error);
  hs_ops_test_one (job.test, "invoice WHERE net_cents = 6800 AND tax_cents = 64");
  assert_sum (&job, MINUTES (200), 6800, 64, 0);
}

/* Tested good and priced at 60.00 + 48.00: what is picked then comes beside it, 24.00 for the minutes past those that
 * the call-out covers, and goes again without it. */
static void
test_picked_after (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  const HsChoiceLineEntry lines[] = {
    { .kind = "call_out", .cost_cents = HS_INT_NONE, .price_cents = HS_INT_NONE },
    { .minutes = 45, .cost_cents = HS_INT_NONE, .price_cents = HS_INT_NONE },
  };
  g_autofree char *strap = hs_choice_add (job.book, job.job, &(HsChoiceEntry) { .wording = "Strap" }, lines, 2,
                                          OPS_CHOICE_NOW, NULL);
  g_autoptr (HsJobChoices) would = NULL;

  g_assert_true (hs_job_price (job.book, job.job, NULL, MINUTES (50), NULL));
  prove (&job, MINUTES (50));
  assert_sum (&job, MINUTES (90), 10800, 0, 0);
  would = hs_job_choices_load (job.book, job.job, MINUTES (90), NULL);
  g_assert_cmpint (hs_job_choices_find (would, 1)->would_cents, ==, 10800 + 2400);
  yes_at (&job, strap, "phone", MINUTES (90));
  hs_ops_test_one (job.test, "line WHERE what = 'Call-out and 50 min on site' AND price_cents = 10800");
  assert_sum (&job, MINUTES (95), 10800 + 2400, 0, 0);
  ops_choice_answer (&job, strap, "open", NULL);
  assert_sum (&job, MINUTES (200), 10800, 0, 0);
}

/* A price from before the end of the work does not stand once the clock went past it; undo brings it back. */
static void
test_priced_too_early (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  g_autofree char *fuse = pick_fuse (&job);

  g_assert_true (hs_job_price (job.book, job.job, NULL, MINUTES (10), NULL));
  prove (&job, MINUTES (50));
  g_assert_cmpint (hs_ops_test_count (job.test, "line WHERE kind = 'labor'"), ==, 0);
  assert_sum (&job, MINUTES (50), 800 + 6000 + 4800, 64, 10800);
  g_assert_true (hs_undo_last (hs_book_get_store (job.book), job.job, MINUTES (51), NULL, NULL));
  hs_ops_test_one (job.test, "line WHERE kind = 'labor' AND price_cents = 6000");
}

/* What is given for nothing stays so, and what is called off runs up nothing. */
static void
test_stands_still (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  g_auto (OpsChoice) off = ops_choice_start ();

  g_assert_true (hs_job_price (job.book, job.job, "an old friend", MINUTES (10), NULL));
  assert_sum (&job, MINUTES (200), 0, 0, 0);
  assert_sum (&off, MINUTES (40), 8400, 0, 8400);
  g_assert_true (hs_job_move_stage (off.book, off.job, HS_STAGE_CALLED_OFF, "gone", MINUTES (40), NULL));
  assert_sum (&off, MINUTES (50), 0, 0, 0);
}

static void
assert_cure (OpsChoice *job, HsChainCure cure)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HsJobChain) chain = hs_job_chain_load (job->book, job->job, &error);

  g_assert_no_error (error);
  g_assert_cmpint (hs_chain_get_cure (chain->chain, hs_chain_get_finding (chain->chain, 0)), ==, cure);
}

/* A yes is no work: nothing is repaired before the part is put in, or the work of it priced. */
static void
test_yes_is_no_work (void)
{
  const HsFindingEntry slips = { .what = "belt slips", .role = "cause", .sure = "proven", .ended = "cured" };
  const HsInstallEntry belt = { .what = "drive belt", .cost_cents = 2400, .why = "due" };

  for (guint priced = 0; priced < 2; priced++)
    {
      g_auto (OpsChoice) job = ops_choice_start ();
      g_autofree char *choice = ops_choice_add_belt (&job);
      g_autofree char *part = NULL;
      g_autoptr (GError) error = NULL;

      g_free (hs_finding_add (job.book, job.job, &slips, MINUTES (1), &error));
      g_assert_no_error (error);
      assert_cure (&job, HS_CHAIN_CURE_MEANT);
      ops_choice_answer (&job, choice, "yes", NULL);
      assert_cure (&job, HS_CHAIN_CURE_MEANT);
      if (priced)
        g_assert_true (hs_job_price (job.book, job.job, NULL, MINUTES (20), NULL));
      else
        part = hs_part_install (job.book, job.job, &belt, MINUTES (20), &error);
      g_assert_no_error (error);
      assert_cure (&job, HS_CHAIN_CURE_UNTESTED);
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/bill-clock/picked", test_picked);
  g_test_add_func ("/bill-clock/agreed", test_agreed);
  g_test_add_func ("/bill-clock/beside-agreed", test_beside_agreed);
  g_test_add_func ("/bill-clock/yes-again", test_yes_again);
  g_test_add_func ("/bill-clock/lesser-instead", test_lesser_instead);
  g_test_add_func ("/bill-clock/put-back", test_put_back);
  g_test_add_func ("/bill-clock/work-instead-of-parts", test_work_instead_of_parts);
  g_test_add_func ("/bill-clock/one-call-out", test_one_call_out);
  g_test_add_func ("/bill-clock/call-out-comes-back", test_call_out_comes_back);
  g_test_add_func ("/bill-clock/call-out-given", test_call_out_given);
  g_test_add_func ("/bill-clock/priced-before", test_priced_before);
  g_test_add_func ("/bill-clock/square", test_square);
  g_test_add_func ("/bill-clock/picked-after", test_picked_after);
  g_test_add_func ("/bill-clock/priced-too-early", test_priced_too_early);
  g_test_add_func ("/bill-clock/stands-still", test_stands_still);
  g_test_add_func ("/bill-clock/yes-is-no-work", test_yes_is_no_work);
  g_test_add_func ("/bill-clock/ousted", test_ousted);
  g_test_add_func ("/bill-clock/undone", test_undone);
  g_test_add_func ("/bill-clock/undone-one-of-two", test_undone_one_of_two);
  g_test_add_func ("/bill-clock/unclocked-after", test_unclocked_after);
  g_test_add_func ("/bill-clock/unclocked-alone", test_unclocked_alone);
  return g_test_run ();
}
