// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What was declined before and may be why the vehicle is back: story 13 on the demo, and what does not count. */

#include "hs-choice-op.h"

#include "hs-job-life.h"
#include "hs-job-op.h"
#include "hs-ops-test.h"
#include "hs-undo.h"
#include "ops-demo.h"
#include "ops-town.h"

/* A-0020 came 23 days after A-0013: 153.79 and 520.94 are 674.73 in all, 153.79 more than at once. */
static void
test_story (void)
{
  g_autofree char *job = ops_demo_job ("A-0020");
  g_autofree char *earlier = ops_demo_job ("A-0013");
  g_autoptr (GError) error = NULL;
  g_autoptr (HsJobChoices) choices
      = hs_job_choices_load (ops_demo_book (), job, hs_ops_test_at ("2026-03-10T06:45"), &error);
  const HsDeclined *declined;

  g_assert_no_error (error);
  g_assert_cmpuint (choices->declined->len, ==, 1);
  declined = g_ptr_array_index (choices->declined, 0);
  g_assert_cmpstr (declined->job_id, ==, earlier);
  g_assert_cmpstr (declined->number, ==, "A-0013");
  g_assert_cmpint (declined->days, ==, 23);
  g_assert_cmpstr (declined->wording, ==, "Water pump, belt and coolant");
  g_assert_cmpint (declined->price_cents, ==, 52094);
  g_assert_cmpstr (declined->choice, ==, "no");
  g_assert_cmpstr (declined->picked, ==, "Belt only");
  g_assert_cmpstr (declined->by, ==, "Bram Hark");
  g_assert_cmpint (declined->paid_cents, ==, 15379);
  g_assert_cmpint (declined->in_all_cents, ==, 67473);
  g_assert_cmpint (declined->extra_cents, ==, 15379);
  g_assert_true (declined->follows);
  g_assert_cmpstr (declined->return_why, ==, "declined_earlier");
}

/* A-0013 as it was written down: what was told, the sums of the lines, and the answers with name and minute. */
static void
test_told (void)
{
  g_autofree char *job = ops_demo_job ("A-0013");
  g_autoptr (HsJobChoices) choices
      = hs_job_choices_load (ops_demo_book (), job, hs_ops_test_at ("2026-03-10T06:45"), NULL);
  const HsChoice *cure = hs_job_choices_find (choices, 1);
  const HsChoice *belt = hs_job_choices_find (choices, 2);
  const HsGoAhead *yes;

  g_assert_true (choices->squared);
  g_assert_cmpint (cure->price_cents, ==, 52094);
  g_assert_cmpstr (cure->choice, ==, "no");
  g_assert_cmpint (cure->at, ==, hs_ops_test_at ("2026-02-03T09:36"));
  g_assert_true (g_str_has_prefix (cure->risk, "New belt will be wetted again; expect the lamp back within weeks"));
  g_assert_cmpuint (cure->lines->len, ==, 5);
  g_assert_cmpint (belt->price_cents, ==, 15379);
  g_assert_cmpstr (belt->choice, ==, "yes");
  g_assert_cmpstr (belt->by, ==, "Bram Hark");
  g_assert_cmpstr (belt->means, ==, "signed_on_screen");
  g_assert_cmpuint (choices->go_aheads->len, ==, 1);
  yes = g_ptr_array_index (choices->go_aheads, 0);
  g_assert_nonnull (yes->signature);
  g_assert_cmpint (yes->ceiling_cents, ==, 15379);
  g_assert_cmpint (yes->at, ==, belt->at);
  g_assert_cmpint (belt->in_all_cents, ==, 67473);
  g_assert_cmpint (choices->room->short_cents, ==, 0);
  g_assert_cmpuint (choices->declined->len, ==, 0);
}

typedef struct
{
  OpsTown *town;
  char *earlier;
  char *job;
} Back;

/* A hose was put off on @day; the vehicle, or another one of the same customer, comes on 2026-03-10. */
static Back
come_back (const char *day, const char *plate, const char *choice)
{
  Back back = { .town = ops_town_new () };
  HsAdviceEntry entry = { .wording = "Hose", .price_cents = 24586, .choice = choice, .by = "Marguerite Stane",
                          .means = "phone", .risk = "may burst", .at = 5, .chase_on = HS_DATE_NONE };
  g_autofree char *jobs = g_strdup_printf (
      "number,customer_phone,words,plate,kind,stage,area,day\nA-0099,555-0122,smells,TDM 1315,repair,promised,O,%s\n"
      "A-0101,555-0122,smells,%s,repair,promised,O,2026-03-10\n", day, plate);
  g_autofree char *id = NULL;

  ops_town_add (back.town, "jobs", jobs);
  back.earlier = hs_job_find (back.town->book, "A-0099", NULL);
  back.job = hs_job_find (back.town->book, "A-0101", NULL);
  id = hs_advice_add (back.town->book, back.earlier, &entry, ops_town_now (back.town), NULL);
  g_assert_nonnull (id);
  return back;
}

static void
square (Back *back)
{
  HsBook *book = back->town->book;
  HsInstant now = ops_town_now (back->town);
  g_autoptr (GError) error = NULL;

  if (hs_job_move_stage (book, back->earlier, HS_STAGE_ON_SITE, NULL, now, &error)
      && hs_job_move_stage (book, back->earlier, HS_STAGE_PROVEN, "drove off", now + 60, &error)
      && hs_job_price (book, back->earlier, "our treat", now + 60, &error))
    hs_job_square (book, back->earlier, now + 60, &error);
  g_assert_no_error (error);
}

static void
back_clear (Back *back)
{
  ops_town_free (back->town);
  g_free (back->earlier);
  g_free (back->job);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Back, back_clear)

static HsJobChoices *
load (Back *back)
{
  g_autoptr (GError) error = NULL;
  HsJobChoices *choices = hs_job_choices_load (back->town->book, back->job, ops_town_now (back->town), &error);

  g_assert_no_error (error);
  return choices;
}

/* 90 days back and no further, this vehicle and no other, what was declined and nothing else, once it is squared. */
static void
test_what_counts (void)
{
  static const struct
  {
    const char *day;
    const char *plate;
    const char *choice;
    gboolean squared;
    int days; /* -1: not offered */
  } rows[] = {
    { "2026-02-15", "TDM 1315", "no", TRUE, 23 },    { "2026-02-15", "TDM 1315", "later", TRUE, 23 },
    { "2025-12-10", "TDM 1315", "no", TRUE, 90 },    { "2025-12-09", "TDM 1315", "no", TRUE, -1 },
    { "2026-03-10", "TDM 1315", "no", TRUE, 0 },     { "2026-03-11", "TDM 1315", "no", TRUE, -1 },
    { "2026-02-15", "TDM 1315", "yes", TRUE, -1 },   { "2026-02-15", "TDM 1315", "no", FALSE, -1 },
    { "2026-02-15", "TDM 4409", "no", TRUE, -1 },    { "2026-02-15", "", "no", TRUE, -1 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (Back) back = come_back (rows[i].day, rows[i].plate, rows[i].choice);
      g_autoptr (HsJobChoices) choices = NULL;
      const HsDeclined *declined;

      if (rows[i].squared)
        square (&back);
      choices = load (&back);
      g_assert_cmpuint (choices->declined->len, ==, rows[i].days >= 0 ? 1 : 0);
      if (rows[i].days < 0)
        continue;
      declined = g_ptr_array_index (choices->declined, 0);
      g_assert_cmpint (declined->days, ==, rows[i].days);
      g_assert_cmpint (declined->paid_cents, ==, 0);
      g_assert_cmpint (declined->in_all_cents, ==, 24586);
      g_assert_cmpint (declined->extra_cents, ==, 0);
      g_assert_null (declined->picked);
      g_assert_false (declined->follows);
    }
}

/* Taken up, it is a return visit that says why; a step takes that back. */
static void
test_follow (void)
{
  g_auto (Back) back = come_back ("2026-02-15", "TDM 1315", "no");
  HsBook *book = back.town->book;
  HsInstant now = ops_town_now (back.town);
  g_autoptr (HsJobChoices) choices = NULL;
  g_autoptr (HsJobChoices) again = NULL;
  const HsDeclined *declined;
  g_autoptr (GError) error = NULL;

  square (&back);
  g_assert_true (hs_job_follow (book, back.job, back.earlier, "declined earlier", now, &error));
  choices = load (&back);
  declined = g_ptr_array_index (choices->declined, 0);
  g_assert_true (declined->follows);
  g_assert_cmpstr (declined->return_why, ==, "declined_earlier");
  g_assert_true (hs_undo_last (hs_book_get_store (book), back.job, now, NULL, &error));
  again = load (&back);
  g_assert_false (((HsDeclined *) g_ptr_array_index (again->declined, 0))->follows);
}

static void
test_follow_refused (void)
{
  g_auto (Back) back = come_back ("2026-02-15", "TDM 4409", "no");
  g_auto (Back) later = come_back ("2026-03-11", "TDM 1315", "no");
  HsInstant now = ops_town_now (back.town);
  g_autoptr (GError) error = NULL;

  g_assert_false (hs_job_follow (back.town->book, back.job, back.earlier, NULL, now, &error));
  hs_ops_test_refused (&error, "A-0099 was on another vehicle than A-0101");
  g_assert_false (hs_job_follow (back.town->book, back.job, back.job, NULL, now, &error));
  hs_ops_test_refused (&error, "no return visit to itself");
  g_assert_false (hs_job_follow (back.town->book, back.job, back.earlier, "fate", now, &error));
  hs_ops_test_refused (&error, "fate");
  g_assert_false (hs_job_follow (later.town->book, later.job, later.earlier, NULL, now, &error));
  hs_ops_test_refused (&error, "A-0099 is later than A-0101");
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/declined/story", test_story);
  g_test_add_func ("/declined/told", test_told);
  g_test_add_func ("/declined/what-counts", test_what_counts);
  g_test_add_func ("/declined/follow", test_follow);
  g_test_add_func ("/declined/follow-refused", test_follow_refused);
  return ops_demo_run ();
}
