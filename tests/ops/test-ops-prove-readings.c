// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Which readings are asked for again after a repair, and when a complaint counts as still there. */

#include "ops-repair.h"

#include <string.h>

static const HsTongue english = { gettext, ngettext };

typedef struct
{
  const char *check;
  const char *text;
  const char *phase;
  const char *place;
} Taken;

/* Up to five readings in the order of taking, and what is then still to do. */
static const struct
{
  Taken taken[5];
  const char *missing;
} rows[] = {
  /* What was within, or can not be told, is not asked for again. */
  { { { "charging", "14.10", "before" } }, "take_one! try safe" },
  { { { "battery_rest", "12.65", "before" } }, "take_one! try safe" },
  /* What was outside is; the last reading before the repair counts. */
  { { { "charging", "12.30", "before" } }, "take_one! read_again try safe" },
  { { { "charging", "12.30", "before" }, { "charging", "14.00", "before" } }, "take_one! try safe" },
  { { { "charging", "14.00", "before" }, { "charging", "12.30", "before" } }, "take_one! read_again try safe" },
  /* What was taken during the work stands by itself. */
  { { { "charging", "12.30", "during" } }, "take_one! try safe" },
  { { { "charging", "12.30", "before" }, { "charging", "14.00", "during" } }, "take_one! read_again try safe" },
  /* Asked for once, whatever came out. */
  { { { "charging", "12.30", "before" }, { "charging", "14.00", "after" } }, "try safe" },
  { { { "charging", "12.30", "before" }, { "charging", "12.60", "after" } }, "still_outside try safe" },
  { { { "charging", "12.30", "before" }, { "charging", "12.60", "after" }, { "charging", "14.00", "after" } },
    "try safe" },
  { { { "charging", "14.00", "after" }, { "charging", "12.60", "after" } }, "still_outside try safe" },
  /* Another check proves the job, but does not stand for this one. */
  { { { "charging", "12.30", "before" }, { "battery_rest", "12.65", "after" } }, "read_again try safe" },
  /* Each place for itself. */
  { { { "drop_feed", "2.60", "before", "relay feed" }, { "drop_feed", "2.10", "before", "lamp feed" } },
    "take_one! read_again read_again try safe" },
  { { { "drop_feed", "2.60", "before", "relay feed" }, { "drop_feed", "2.10", "before", "lamp feed" },
      { "drop_feed", "0.02", "after", "lamp feed" } }, "read_again try safe" },
  { { { "drop_feed", "2.60", "before", "relay feed" }, { "drop_feed", "0.02", "after", NULL } },
    "read_again try safe" },
  /* Over range and answers are readings, too. */
  { { { "glow_plug", "over range", "before" } }, "take_one! read_again try safe" },
  { { { "belt", "wet", "before" } }, "take_one! read_again try safe" },
  { { { "belt", "wet", "before" }, { "belt", "sound", "after" } }, "try safe" },
  /* Trying the complaint proves it good, or that it is still there. */
  { { { "starts_good", "5 of 5", "after" } }, "safe" },
  { { { "starts_good", "4 of 5", "after" } }, "complaint_stays! safe" },
  { { { "starts_good", "0 of 5", "before" } }, "take_one! try safe" },
  { { { "starts_good", "4 of 5", "after" }, { "starts_good", "5 of 5", "after" } }, "safe" },
  { { { "starts_good", "5 of 5", "after" }, { "starts_good", "4 of 5", "after" } }, "complaint_stays! safe" },
  { { { "starts_good", "5 of 5", "after" }, { "tried_again", "2 of 3", "after" } }, "complaint_stays! safe" },
  { { { "tried_again", "2 of 3", "after" }, { "starts_good", "5 of 5", "after" } }, "safe" },
};

static void
test_asked (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (Bay) bay = bay_start ();
      g_autofree char *missing = NULL;

      for (gsize j = 0; j < G_N_ELEMENTS (rows[i].taken) && rows[i].taken[j].check != NULL; j++)
        bay_read (&bay, rows[i].taken[j].check, rows[i].taken[j].text, rows[i].taken[j].phase,
                  rows[i].taken[j].place);
      missing = bay_missing (&bay);
      if (g_strcmp0 (missing, rows[i].missing) != 0)
        g_error ("row %u: “%s”, not “%s”", (guint) i, missing, rows[i].missing);
    }
}

/* The sheet of after has a line for each that is to be read again, with its place, whatever its group asks for. */
static void
test_lines (void)
{
  g_auto (Bay) bay = bay_start ();
  g_autoptr (HsRepair) repair = NULL;
  g_autoptr (GPtrArray) sheet = NULL;
  guint n_pad = 0, n_feeds = 0;
  guint n;

  bay_read (&bay, "drop_feed", "2.60", "before", "relay feed");
  bay_read (&bay, "drop_feed", "2.10", "before", "lamp feed");
  bay_read (&bay, "pad_left", "1.0", "before", NULL);
  repair = bay_load (&bay);
  sheet = hs_job_sheet (bay.book, bay.job, "after", NOW, NULL);
  n = sheet->len;
  hs_prove_add_lines (bay.book, repair, sheet);
  hs_prove_add_lines (bay.book, repair, sheet);
  g_assert_cmpuint (sheet->len, >, n);
  for (guint i = 0; i < sheet->len; i++)
    {
      const HsReadingResult *row = g_ptr_array_index (sheet, i);

      n_pad += g_str_equal (row->check, "pad_left") && row->place == NULL;
      n_feeds += g_str_equal (row->check, "drop_feed")
                 && (g_strcmp0 (row->place, "relay feed") == 0 || g_strcmp0 (row->place, "lamp feed") == 0);
      g_assert_null (row->value_text);
    }
  g_assert_cmpuint (n_pad, ==, 1);
  g_assert_cmpuint (n_feeds, ==, 2);
}

/* What is asked for says where and how it is read again. */
static void
test_where (void)
{
  g_auto (Bay) bay = bay_start ();
  g_autoptr (HsRepair) repair = NULL;
  const HsProveItem *item;

  bay_read (&bay, "drop_feed", "2.60", "before", "relay feed");
  repair = bay_load (&bay);
  item = g_ptr_array_index (repair->missing, 1);
  g_assert_cmpstr (item->check, ==, "drop_feed");
  g_assert_cmpstr (item->place, ==, "relay feed");
  g_assert_cmpstr (item->what, ==, "Feed side drop, relay feed, 2.60 V");
  g_assert_false (item->must);
  item = g_ptr_array_index (repair->missing, 2);
  g_assert_cmpstr (item->check, ==, "starts_good");
  g_assert_null (repair->tried);
}

/* A usual reason does for each move that wants one; it takes the place of the one before. */
static void
test_reasons (void)
{
  g_auto (Bay) bay = bay_start ();

  for (guint i = 0; hs_unproved_reason (i, &english) != NULL; i++)
    {
      g_autoptr (HsRepair) repair = NULL;
      g_autofree char *missing = NULL;

      g_assert_true (hs_job_set_unproved (bay.book, bay.job, hs_unproved_reason (i, &english), NOW, NULL));
      repair = bay_load (&bay);
      g_assert_cmpstr (repair->unproved_why, ==, hs_unproved_reason (i, &english));
      g_assert_cmpuint (repair->n_must, ==, 0);
      g_assert_true (hs_job_move_stage (bay.book, bay.job, HS_STAGE_PROVEN, NULL, NOW, NULL));
      g_assert_true (hs_job_move_stage (bay.book, bay.job, HS_STAGE_ON_SITE, NULL, NOW, NULL));
    }
  g_assert_true (hs_job_set_unproved (bay.book, bay.job, " ", NOW, NULL));
  g_assert_false (hs_job_move_stage (bay.book, bay.job, HS_STAGE_PROVEN, NULL, NOW, NULL));
}

static void
test_stays (void)
{
  g_auto (Bay) bay = bay_start ();
  g_autofree char *tries = NULL;

  g_assert_true (hs_complaint_stays (bay.book, bay.job, &tries, NULL));
  g_assert_null (tries);
  bay_read (&bay, "starts_good", "3 of 12", "after", NULL);
  g_assert_true (hs_complaint_stays (bay.book, bay.job, &tries, NULL));
  g_assert_cmpstr (tries, ==, "3 of 12");
  g_clear_pointer (&tries, g_free);
  bay_read (&bay, "starts_good", "12 of 12", "after", NULL);
  g_assert_true (hs_complaint_stays (bay.book, bay.job, &tries, NULL));
  g_assert_null (tries);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/prove-readings/asked", test_asked);
  g_test_add_func ("/prove-readings/where", test_where);
  g_test_add_func ("/prove-readings/lines", test_lines);
  g_test_add_func ("/prove-readings/reasons", test_reasons);
  g_test_add_func ("/prove-readings/stays", test_stays);
  return g_test_run ();
}
