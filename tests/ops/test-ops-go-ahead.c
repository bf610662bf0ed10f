// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The go-ahead: a yes with a name, a way and perhaps a signature, each a row that stays; and how much room is left
 * before a line is added. */

#include "hs-go-ahead.h"

#include "hs-job-life.h"
#include "hs-job-op.h"
#include "hs-ops-error.h"
#include "hs-repair-op.h"
#include "hs-settings-op.h"
#include "hs-signature.h"
#include "ops-choice.h"

#include <string.h>

#define MINUTES(n) (OPS_CHOICE_NOW + (n) * 60)

static GBytes *
sign (gboolean with_stroke)
{
  g_autoptr (HsSignature) signature = hs_signature_new (400, 100);

  hs_signature_begin (signature, 10, 50);
  if (with_stroke)
    hs_signature_move (signature, 200, 20);
  return hs_signature_to_bytes (signature);
}

static void
test_signed (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  g_autoptr (GBytes) signature = sign (TRUE);
  g_autoptr (HsJobChoices) choices = NULL;
  const HsGoAhead *yes;
  g_autoptr (GError) error = NULL;

  hs_go_ahead_give (job.book, job.job, &(HsGoAheadEntry) { 20000, " Teo Calloway ", NULL, signature, 0 }, MINUTES (2),
                    &error);
  g_assert_no_error (error);
  hs_go_ahead_give (job.book, job.job, &(HsGoAheadEntry) { 22000, "Nadira Quell", "in person", NULL, MINUTES (1) },
                    MINUTES (3), &error);
  g_assert_no_error (error);
  choices = ops_choice_load (&job);
  g_assert_cmpuint (choices->go_aheads->len, ==, 2);
  yes = g_ptr_array_index (choices->go_aheads, 0);
  g_assert_cmpint (yes->ceiling_cents, ==, 20000);
  g_assert_cmpstr (yes->by, ==, "Teo Calloway");
  g_assert_cmpstr (yes->means, ==, "signed_on_screen");
  g_assert_cmpint (yes->at, ==, MINUTES (2));
  g_assert_true (g_bytes_equal (yes->signature, signature));
  yes = g_ptr_array_index (choices->go_aheads, 1);
  g_assert_cmpstr (yes->means, ==, "in_person");
  g_assert_cmpint (yes->at, ==, MINUTES (1));
  g_assert_null (yes->signature);
  g_assert_cmpint (choices->room->ceiling_cents, ==, 22000);
  g_assert_cmpstr (choices->room->by, ==, "Nadira Quell");
}

static void
test_refused (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  g_autoptr (GBytes) signature = sign (TRUE);
  g_autoptr (GBytes) dot = sign (FALSE);
  g_autoptr (GBytes) noise = g_bytes_new_static ("noise", 5);
  const struct
  {
    HsGoAheadEntry entry;
    const char *said;
  } rows[] = {
    { { 100, " ", NULL, NULL, 0 }, "needs a name" },
    { { 100, NULL, NULL, NULL, 0 }, "needs a name" },
    { { -1, "Teo", NULL, NULL, 0 }, "less than nothing" },
    { { 100, "Teo", "wink", NULL, 0 }, "wink" },
    { { 100, "Teo", NULL, NULL, 0 }, "How did the answer come? Say in person" },
    { { 100, "Teo", " ", NULL, 0 }, "How did the answer come?" },
    { { 100, "Teo", "signed_on_screen", NULL, 0 }, "no signature yet. Have it signed on the screen" },
    { { 100, "Teo", "phone", signature, 0 }, "not with one by phone" },
    { { 100, "Teo", NULL, dot, 0 }, "The signature is blank" },
    { { 100, "Teo", NULL, noise, 0 }, "no signature; have it signed again" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_false (hs_go_ahead_give (job.book, job.job, &rows[i].entry, OPS_CHOICE_NOW, &error));
      hs_ops_test_refused (&error, rows[i].said);
    }
  g_assert_cmpint (hs_ops_test_count (job.test, "go_ahead"), ==, 0);
}

static void
assert_room (OpsChoice *job, const char *kind, gint64 net_cents, HsInstant now, gint64 used, gint64 total,
             gint64 too_much)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HsGoAheadRoom) room = hs_go_ahead_check (job->book, job->job, kind, net_cents, now, &error);

  g_assert_no_error (error);
  g_assert_cmpint (room->used_cents, ==, used);
  g_assert_cmpint (room->added_cents, ==, total - used);
  g_assert_cmpint (room->total_cents, ==, total);
  g_assert_cmpint (room->short_cents, ==, too_much);
}

/* By the clock before anything is agreed; after that by what was, however long it takes. */
static void
test_used (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  g_autofree char *belt = ops_choice_add_belt (&job);

  assert_room (&job, NULL, 0, MINUTES (0), 0, 0, 0);
  assert_room (&job, NULL, 0, MINUTES (30), 6000, 6000, 6000);
  assert_room (&job, NULL, 0, MINUTES (31), 8400, 8400, 8400);
  ops_choice_answer (&job, belt, "yes", NULL);
  assert_room (&job, NULL, 0, MINUTES (60), 15379, 15379, 15379);
  assert_room (&job, NULL, 0, MINUTES (61), 15379, 15379, 15379);
  g_assert_true (hs_go_ahead_add (job.book, job.job, 16000, "Teo", "phone", MINUTES (2), NULL));
  assert_room (&job, NULL, 0, MINUTES (60), 15379, 15379, 0);
  assert_room (&job, NULL, 0, MINUTES (61), 15379, 15379, 0);
}

/* Where no work was agreed the clock stops at the ceiling: 60.00, and 24.00 with the thirty-first minute. */
static void
test_clock (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();

  g_assert_true (hs_go_ahead_add (job.book, job.job, 7000, "Teo", "phone", MINUTES (2), NULL));
  assert_room (&job, NULL, 0, MINUTES (30), 6000, 6000, 0);
  assert_room (&job, NULL, 0, MINUTES (31), 8400, 8400, 1400);
}

/* A part brings the tax of the whole bill with it, rounded once: 42.40 and 0.07 at 8 % are 3.40, not 3.39 + 0.01. */
static void
test_before_a_line (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  g_autofree char *belt = ops_choice_add_belt (&job);
  g_autoptr (GError) error = NULL;

  ops_choice_answer (&job, belt, "yes", NULL);
  g_assert_true (hs_go_ahead_add (job.book, job.job, 16000, "Teo", "phone", OPS_CHOICE_NOW, NULL));
  assert_room (&job, "part", 7, MINUTES (9), 15379, 15379 + 8, 0);
  assert_room (&job, "labor", 621, MINUTES (9), 15379, 16000, 0);
  assert_room (&job, "labor", 622, MINUTES (9), 15379, 16001, 1);
  assert_room (&job, "part", 1000, MINUTES (9), 15379, 15379 + 1080, 459);
  assert_room (&job, "discount", -500, MINUTES (9), 15379, 14879, 0);
  hs_settings_set (job.book, "overrun_cents", "459", OPS_CHOICE_NOW, &error);
  g_assert_no_error (error);
  assert_room (&job, "part", 1000, MINUTES (9), 15379, 15379 + 1080, 0);
  assert_room (&job, "part", 1001, MINUTES (9), 15379, 15379 + 1081, 1);
  g_assert_null (hs_go_ahead_check (job.book, job.job, "bribe", 1, OPS_CHOICE_NOW, &error));
  hs_ops_test_refused (&error, "bribe");
  g_assert_null (hs_go_ahead_check (job.book, "nothing", NULL, 0, OPS_CHOICE_NOW, &error));
  g_assert_nonnull (error);
}

static void
assert_passes (GError **error, const char *said)
{
  g_assert_error (*error, HS_OPS_ERROR, HS_OPS_ERROR_PAST_CEILING);
  if (strstr ((*error)->message, said) == NULL)
    g_error ("“%s” is not in “%s”", said, (*error)->message);
  g_clear_error (error);
}

/* A part of 12.00 sells for 23.20, with tax 25.06: it passes 20.00 by 5.06, which is told before anything is written,
 * and one that was agreed is no new line. A cost that is typed later is the same line coming in. */
static void
test_part_past (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  HsInstallEntry relay = { .what = "relay", .cost_cents = 1200, .why = "due" };
  HsInstallEntry typed = { .what = "clip", .why = "due" };
  g_autofree char *part = NULL, *clip = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_go_ahead_add (job.book, job.job, 2000, "Teo", "phone", OPS_CHOICE_NOW, NULL));
  g_assert_null (hs_part_install (job.book, job.job, &relay, OPS_CHOICE_NOW, &error));
  assert_passes (&error, "With “relay”: The job comes to 25.06 and the go-ahead by Teo covers 20.00: short by 5.06.");
  g_assert_cmpint (hs_ops_test_count (job.test, "installed_part WHERE job_id IS NOT NULL"), ==, 0);
  g_assert_cmpint (hs_ops_test_count (job.test, "line"), ==, 0);

  clip = hs_part_install (job.book, job.job, &typed, OPS_CHOICE_NOW, &error);
  g_assert_no_error (error);
  g_assert_false (hs_part_set (job.book, clip, "cost", "12.00", OPS_CHOICE_NOW, &error));
  assert_passes (&error, "With “clip”: The job comes to 25.06 and the go-ahead by Teo covers 20.00: short by 5.06.");
  hs_ops_test_one (job.test, "line WHERE what = 'clip' AND price_cents = 0 AND cost_cents = 0");
  g_assert_true (hs_part_set (job.book, clip, "cost", "1.00", OPS_CHOICE_NOW, &error));
  g_assert_true (hs_part_set_past_ceiling (job.book, clip, "cost", "12.00", OPS_CHOICE_NOW, &error));
  hs_ops_test_one (job.test, "line WHERE what = 'clip' AND price_cents = 2320");
  /* What passes it already is no less told of; what makes it no worse is. */
  g_assert_null (hs_part_install (job.book, job.job, &relay, OPS_CHOICE_NOW, &error));
  assert_passes (&error, "short by 30.11");
  g_assert_true (hs_part_set (job.book, clip, "cost", "11.00", OPS_CHOICE_NOW, &error));
  relay.past_ceiling = TRUE;
  part = hs_part_install (job.book, job.job, &relay, OPS_CHOICE_NOW, &error);
  g_assert_no_error (error);
  g_assert_nonnull (part);
}

static void
test_part_agreed (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  g_autofree char *belt = ops_choice_add_belt (&job);
  const HsInstallEntry entry = { .what = "drive belt", .cost_cents = 2400, .why = "due" };
  g_autofree char *part = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_go_ahead_add (job.book, job.job, 15379, "Teo", "phone", OPS_CHOICE_NOW, NULL));
  ops_choice_answer (&job, belt, "yes", NULL);
  part = hs_part_install (job.book, job.job, &entry, OPS_CHOICE_NOW, &error);
  g_assert_no_error (error);
  g_assert_nonnull (part);
}

/* Goodwill takes the whole bill off again. */
static void
test_goodwill (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  g_autofree char *belt = ops_choice_add_belt (&job);

  ops_choice_answer (&job, belt, "yes", NULL);
  g_assert_true (hs_job_price (job.book, job.job, "our fault", MINUTES (20), NULL));
  assert_room (&job, NULL, 0, MINUTES (20), 0, 0, 0);
}

/* The owner's over-run goes as far at squaring up as the file lets it. */
static void
test_overrun_squares (void)
{
  static const struct
  {
    const char *overrun;
    const char *said;
  } rows[] = {
    { "0", "covers 150.00: short by 3.79" },
    { "378", "covers 150.00 with 3.78 to spare: short by 0.01" },
    { "379", NULL },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (OpsChoice) job = ops_choice_start ();
      g_autofree char *belt = ops_choice_add_belt (&job);
      g_autoptr (GError) error = NULL;

      ops_choice_answer (&job, belt, "yes", NULL);
      g_assert_true (hs_go_ahead_add (job.book, job.job, 15000, "Teo", "phone", OPS_CHOICE_NOW, NULL));
      g_assert_true (hs_settings_set (job.book, "overrun_cents", rows[i].overrun, OPS_CHOICE_NOW, NULL));
      g_assert_true (hs_job_move_stage (job.book, job.job, HS_STAGE_PROVEN, "drove off", MINUTES (60), NULL));
      g_assert_true (hs_job_price (job.book, job.job, NULL, MINUTES (60), NULL));
      g_assert_cmpint (hs_job_square (job.book, job.job, MINUTES (60), &error), ==, rows[i].said == NULL);
      if (rows[i].said != NULL)
        hs_ops_test_refused (&error, rows[i].said);
    }
}

static void
test_words (void)
{
  static const struct
  {
    HsGoAheadRoom room;
    const char *said;
  } rows[] = {
    { { .total_cents = 15379 }, "The job comes to 153.79 and nobody gave a go-ahead yet." },
    { { .given = TRUE, .by = (char *) "Teo", .ceiling_cents = 20000, .total_cents = 21101, .short_cents = 1101 },
      "The job comes to 211.01 and the go-ahead by Teo covers 200.00: short by 11.01. Ask for a new go-ahead or take "
      "something off." },
    { { .given = TRUE, .by = (char *) "Teo", .ceiling_cents = 122000, .overrun_cents = 500, .total_cents = 121101 },
      "The job comes to 1,211.01 and the go-ahead by Teo covers 1,220.00: room for 13.99." },
    { { .given = TRUE, .by = (char *) "Teo", .ceiling_cents = 22000, .total_cents = 21101 },
      "The job comes to 211.01 and the go-ahead by Teo covers 220.00: room for 8.99." },
  };
  g_auto (OpsChoice) job = ops_choice_start ();

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *said = hs_go_ahead_room_say (job.book, &rows[i].room);

      g_assert_cmpstr (said, ==, rows[i].said);
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/go-ahead/signed", test_signed);
  g_test_add_func ("/go-ahead/refused", test_refused);
  g_test_add_func ("/go-ahead/used", test_used);
  g_test_add_func ("/go-ahead/clock", test_clock);
  g_test_add_func ("/go-ahead/before-a-line", test_before_a_line);
  g_test_add_func ("/go-ahead/part-past", test_part_past);
  g_test_add_func ("/go-ahead/part-agreed", test_part_agreed);
  g_test_add_func ("/go-ahead/goodwill", test_goodwill);
  g_test_add_func ("/go-ahead/overrun-squares", test_overrun_squares);
  g_test_add_func ("/go-ahead/words", test_words);
  return g_test_run ();
}
