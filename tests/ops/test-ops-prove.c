// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What was disturbed and is looked after, what is still to do before a job is tested good, and handing it back. */

#include "hs-chain-op.h"
#include "ops-repair.h"

#include "hs-undo.h"

#include <string.h>

static const HsTongue english = { gettext, ngettext };

/* What was disturbed decides what is looked after: the line comes with the place, by any of its names. */
static void
test_disturbed (void)
{
  static const struct
  {
    const char *what;
    guint n_added;
    const char *stands;
  } rows[] = {
    { "relay", 2, "what LIKE 'Relay or fuse pressed fully home%' AND check_id = 'relay_drop'" },
    { "1", 5, "what LIKE 'Battery coded%'" },
    { "Belt or its cover off", 3, "what LIKE 'Belt in every groove%' AND check_id = 'belt'" },
    { " shim under the bracket ", 1, "what = 'shim under the bracket' AND check_id IS NULL" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (Bay) bay = bay_start ();
      g_autofree char *where = g_strdup_printf ("disturbed WHERE done_at IS NULL AND %s", rows[i].stands);
      g_autoptr (GError) error = NULL;
      guint n_added = 0;

      g_assert_true (hs_disturbed_add (bay.book, bay.job, rows[i].what, NOW, &n_added, &error));
      g_assert_no_error (error);
      g_assert_cmpuint (n_added, ==, rows[i].n_added);
      g_assert_cmpint (hs_ops_test_count (bay.test, "disturbed"), ==, rows[i].n_added);
      hs_ops_test_one (bay.test, where);
      g_assert_false (hs_disturbed_add (bay.book, bay.job, rows[i].what, NOW, NULL, &error));
      hs_ops_test_refused (&error, "is on the list already");
      g_assert_false (hs_disturbed_add (bay.book, bay.job, " ", NOW, NULL, &error));
      hs_ops_test_refused (&error, "What was disturbed");
      g_assert_true (hs_undo_last (hs_book_get_store (bay.book), bay.job, NOW, NULL, NULL));
      g_assert_cmpint (hs_ops_test_count (bay.test, "disturbed"), ==, 0);
    }
}

/* A battery that needs no coding is not asked for it. */
static void
test_coding (void)
{
  g_auto (Bay) bay = bay_start ();

  hs_ops_test_run (bay.test, "UPDATE vehicle SET needs_coding = 0");
  g_assert_true (hs_disturbed_add (bay.book, bay.job, "battery", NOW, NULL, NULL));
  g_assert_cmpint (hs_ops_test_count (bay.test, "disturbed"), ==, 4);
  g_assert_cmpint (hs_ops_test_count (bay.test, "disturbed WHERE what LIKE '%coded%'"), ==, 0);
}

/* An installed part brings its list along, in the step that puts it in. */
static void
test_by_part (void)
{
  g_auto (Bay) bay = bay_start ();
  HsInstallEntry entry = { .what = "rear-window heater relay", .why = "due", .looks = TRUE };
  g_autofree char *id = bay_fit (&bay, &entry);
  g_autofree char *again = NULL;

  hs_ops_test_one (bay.test, "disturbed WHERE what LIKE 'Relay or fuse pressed fully home%'");
  entry.place = "spare socket";
  again = bay_fit (&bay, &entry);
  g_assert_cmpint (hs_ops_test_count (bay.test, "disturbed"), ==, 2);
  g_assert_true (hs_undo_last (hs_book_get_store (bay.book), bay.job, NOW, NULL, NULL));
  g_assert_true (hs_undo_last (hs_book_get_store (bay.book), bay.job, NOW, NULL, NULL));
  g_assert_cmpint (hs_ops_test_count (bay.test, "disturbed"), ==, 0);
}

/* 50 miles at 40 a day are a day away; nobody knows the pace: three days. Not disturbed after all: nobody is called. */
static void
test_wheel (void)
{
  g_auto (Bay) bay = bay_start ();
  g_auto (Bay) other = bay_start ();
  g_autofree char *id = NULL;

  g_assert_true (hs_job_leave (bay.book, bay.job, 63000, NOW, NULL));
  g_assert_true (hs_disturbed_add (bay.book, bay.job, "wheel", NOW, NULL, NULL));
  hs_ops_test_one (bay.test, "chase WHERE kind = 'retorque' AND due_on = '2026-03-11'");
  g_assert_true (hs_disturbed_add (other.book, other.job, "wheel", NOW, NULL, NULL));
  hs_ops_test_one (other.test, "chase WHERE kind = 'retorque' AND due_on = '2026-03-13'");
  id = hs_ops_test_id (bay.test, "SELECT id FROM disturbed WHERE what LIKE 'Adapter%'");
  g_assert_true (hs_disturbed_remove (bay.book, id, NOW, NULL));
  hs_ops_test_one (bay.test, "chase");
  g_free (id);
  id = hs_ops_test_id (bay.test, "SELECT id FROM disturbed");
  g_assert_true (hs_disturbed_remove (bay.book, id, NOW, NULL));
  g_assert_cmpint (hs_ops_test_count (bay.test, "chase"), ==, 0);
  g_assert_true (hs_undo_last (hs_book_get_store (bay.book), bay.job, NOW, NULL, NULL));
  hs_ops_test_one (bay.test, "chase");
}

static void
test_tick (void)
{
  g_auto (Bay) bay = bay_start ();
  g_autoptr (GError) error = NULL;
  g_autofree char *id = NULL;
  g_autofree char *where = g_strdup_printf ("disturbed WHERE done_at = %" G_GINT64_FORMAT " AND done_words = 'clicks'",
                                            (gint64) NOW + 60);

  g_assert_true (hs_disturbed_add (bay.book, bay.job, "shim", NOW, NULL, NULL));
  id = hs_ops_test_id (bay.test, "SELECT id FROM disturbed");
  g_assert_true (hs_disturbed_tick (bay.book, id, TRUE, "clicks", NOW + 60, NULL));
  hs_ops_test_one (bay.test, where);
  g_assert_true (hs_disturbed_tick (bay.book, id, FALSE, "clicks", NOW + 90, NULL));
  hs_ops_test_one (bay.test, "disturbed WHERE done_at IS NULL AND done_words IS NULL");
  g_assert_false (hs_disturbed_tick (bay.book, "nothing", TRUE, NULL, NOW, &error));
  g_assert_nonnull (error);
}

/* Each line knows what shows it and what to beware of; the owner's own words know nothing. */
static void
test_lines (void)
{
  static const struct
  {
    const char *begins;
    const char *check_name;
    const char *place;
    const char *caution;
  } rows[] = {
    { "Wheel nuts", "Wheel nuts", "wheel", "Stands under it" },
    { "Adapter of the locking nuts", NULL, "wheel", "Stands under it" },
    { "Relay or fuse pressed", "Relay contact drop", "relay", NULL },
    { "What it feeds", NULL, "relay", NULL },
    { "shim", NULL, NULL, NULL },
  };
  g_auto (Bay) bay = bay_start ();
  g_autoptr (HsRepair) repair = NULL;

  g_assert_true (hs_disturbed_add (bay.book, bay.job, "wheel", NOW, NULL, NULL));
  g_assert_true (hs_disturbed_add (bay.book, bay.job, "relay", NOW, NULL, NULL));
  g_assert_true (hs_disturbed_add (bay.book, bay.job, "shim", NOW, NULL, NULL));
  repair = bay_load (&bay);
  g_assert_cmpuint (repair->looks->len, ==, G_N_ELEMENTS (rows));
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const HsAfterLine *line = g_ptr_array_index (repair->looks, i);

      g_assert_true (g_str_has_prefix (line->what, rows[i].begins));
      g_assert_cmpstr (line->check_name, ==, rows[i].check_name);
      g_assert_cmpstr (line->place, ==, rows[i].place);
      g_assert_cmpint (line->caution != NULL, ==, rows[i].caution != NULL);
      g_assert_true (rows[i].caution == NULL || g_str_has_prefix (line->caution, rows[i].caution));
      g_assert_cmpint (line->source != NULL, ==, rows[i].place != NULL);
      g_assert_cmpint (line->done_at, ==, HS_INSTANT_NONE);
    }
}

/* A squared job takes no step of a repair, and nothing of it is written. */
static void
test_squared (void)
{
  g_auto (Bay) bay = bay_start ();
  const HsInstallEntry entry = { .what = "shim", .why = "due", .looks = TRUE, .cost_cents = 100 };
  g_autofree char *part = bay_fit (&bay, &entry);
  g_autofree char *line = NULL;
  gint64 seen;

  g_assert_true (hs_disturbed_add (bay.book, bay.job, "relay", NOW, NULL, NULL));
  line = hs_ops_test_id (bay.test, "SELECT id FROM disturbed ORDER BY seq LIMIT 1");
  bay_read (&bay, "starts_good", "5 of 5", "after", NULL);
  g_assert_true (hs_go_ahead_add (bay.book, bay.job, 100000, "Teo", "phone", NOW, NULL));
  g_assert_true (hs_job_move_stage (bay.book, bay.job, HS_STAGE_PROVEN, NULL, NOW, NULL));
  g_assert_true (hs_job_move_stage (bay.book, bay.job, HS_STAGE_SQUARED, NULL, NOW, NULL));
  seen = hs_ops_test_count (bay.test, "change_log");
  g_assert_null (hs_part_install (bay.book, bay.job, &entry, NOW, NULL));
  g_assert_false (hs_part_set (bay.book, part, "months", "12", NOW, NULL));
  g_assert_false (hs_part_set (bay.book, part, "old", "kept", NOW, NULL));
  g_assert_false (hs_part_set (bay.book, part, "cost", "2", NOW, NULL));
  g_assert_false (hs_part_remove (bay.book, part, NOW, NULL));
  g_assert_false (hs_disturbed_add (bay.book, bay.job, "wheel", NOW, NULL, NULL));
  g_assert_false (hs_disturbed_tick (bay.book, line, TRUE, NULL, NOW, NULL));
  g_assert_false (hs_disturbed_remove (bay.book, line, NOW, NULL));
  g_assert_false (hs_job_set_unproved (bay.book, bay.job, "why not", NOW, NULL));
  g_assert_cmpint (hs_ops_test_count (bay.test, "change_log"), ==, seen);
}

/* Each step is undone and done again, and leaves the same behind. */
static void
test_again (void)
{
  g_auto (Bay) bay = bay_start ();
  HsStore *store = hs_book_get_store (bay.book);
  g_autofree char *line = NULL;
  static const char *const after[] = { "disturbed WHERE done_at IS NULL", "disturbed WHERE done_words = 'tight'",
                                       "job WHERE unproved_why = 'late'", "job WHERE safe_to_drive = 'yes'" };

  g_assert_true (hs_disturbed_add (bay.book, bay.job, "shim", NOW, NULL, NULL));
  line = hs_ops_test_id (bay.test, "SELECT id FROM disturbed");
  g_assert_true (hs_disturbed_tick (bay.book, line, TRUE, "tight", NOW, NULL));
  g_assert_true (hs_job_set_unproved (bay.book, bay.job, "late", NOW, NULL));
  g_assert_true (hs_job_set_safe (bay.book, bay.job, "yes", NOW, NULL));
  for (gsize i = 0; i < G_N_ELEMENTS (after); i++)
    g_assert_true (hs_undo_last (store, bay.job, NOW, NULL, NULL));
  g_assert_cmpint (hs_ops_test_count (bay.test, "disturbed"), ==, 0);
  for (gsize i = 0; i < G_N_ELEMENTS (after); i++)
    {
      g_assert_true (hs_undo_again (store, bay.job, NOW, NULL, NULL));
      hs_ops_test_one (bay.test, after[i]);
    }
}

static void
missing_is (Bay *bay, const char *expected)
{
  g_autofree char *missing = bay_missing (bay);

  g_assert_cmpstr (missing, ==, expected);
}

/* The story of a relay that was not pressed home: each step takes one thing off the list. */
static void
test_missing (void)
{
  g_auto (Bay) bay = bay_start ();
  const HsInstallEntry entry = { .what = "relay", .looks = TRUE };
  g_autofree char *part = NULL;
  g_autofree char *complaint = NULL;
  g_autofree char *cause = NULL;
  g_autofree char *line = NULL;

  missing_is (&bay, "take_one! try safe");
  bay_read (&bay, "drop_feed", "2.60", "before", "relay feed");
  missing_is (&bay, "take_one! read_again try safe");
  part = bay_fit (&bay, &entry);
  missing_is (&bay, "take_one! part_why! read_again try look look safe");
  cause = bay_find (&bay, "relay not pressed home", "cause", NULL);
  missing_is (&bay, "take_one! part_why! open_end! read_again try look look safe");
  g_assert_true (hs_part_set (bay.book, part, "why", "failed", NOW, NULL));
  g_assert_true (hs_finding_settle (bay.book, cause, "cured", NOW, NULL));
  missing_is (&bay, "take_one! read_again try look look safe");
  bay_read (&bay, "drop_feed", "1.10", "after", "relay feed");
  missing_is (&bay, "still_outside try look look safe");
  bay_read (&bay, "drop_feed", "0.02", "after", "relay feed");
  missing_is (&bay, "try look look safe");
  bay_read (&bay, "starts_good", "4 of 5", "after", NULL);
  missing_is (&bay, "complaint_stays! look look safe");
  bay_read (&bay, "starts_good", "5 of 5", "after", NULL);
  missing_is (&bay, "look look safe");
  line = hs_ops_test_id (bay.test, "SELECT id FROM disturbed ORDER BY seq LIMIT 1");
  g_assert_true (hs_disturbed_tick (bay.book, line, TRUE, NULL, NOW, NULL));
  missing_is (&bay, "look safe");
  line = (g_free (line), hs_ops_test_id (bay.test, "SELECT id FROM disturbed ORDER BY seq DESC LIMIT 1"));
  g_assert_true (hs_disturbed_tick (bay.book, line, TRUE, NULL, NOW, NULL));
  missing_is (&bay, "safe");
}

/* Before it is handed back it is asked whether it is safe to drive; any answer does, none takes the question back, and
 * what is squared is asked nothing. */
static void
test_safe (void)
{
  static const char *const answers[] = { "yes", "no", "told_not_to" };
  g_auto (Bay) bay = bay_start ();

  bay_read (&bay, "starts_good", "5 of 5", "after", NULL);
  missing_is (&bay, "safe");
  for (gsize i = 0; i < G_N_ELEMENTS (answers); i++)
    {
      g_assert_true (hs_job_set_safe (bay.book, bay.job, answers[i], NOW, NULL));
      missing_is (&bay, "");
      g_assert_true (hs_undo_last (hs_book_get_store (bay.book), bay.job, NOW, NULL, NULL));
      missing_is (&bay, "safe");
    }
  g_assert_true (hs_job_move_stage (bay.book, bay.job, HS_STAGE_PROVEN, NULL, NOW, NULL));
  missing_is (&bay, "safe");
  g_assert_true (hs_job_price (bay.book, bay.job, NULL, NOW, NULL));
  g_assert_true (hs_go_ahead_add (bay.book, bay.job, 100000, "Rue", "phone", NOW, NULL));
  g_assert_true (hs_job_square (bay.book, bay.job, NOW, NULL));
  missing_is (&bay, "");
}

/* What the invoice would say of the cause. */
static void
assert_told (Bay *bay, const char *end)
{
  g_autoptr (HsJobChain) chain = hs_job_chain_load (bay->book, bay->job, NULL);
  const char *told = g_ptr_array_index (chain->sentences, 0);

  if (!g_str_has_suffix (told, end))
    g_error ("“%s” does not end in “%s”", told, end);
}

/* Called cured with nothing done is asked for, and nobody says that it was put right, until something was done and a
 * reading shows it; one that shows that it still fails takes that back. */
static void
test_cured (void)
{
  static const struct
  {
    const char *done;
  } rows[] = { { "part" }, { "look" }, { "price" } };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (Bay) bay = bay_start ();
      const HsInstallEntry entry = { .what = "strap", .why = "due" };
      g_autofree char *cause = bay_find (&bay, "ground strap rotten", "cause", "cured");
      g_autofree char *part = NULL;
      g_autofree char *line = NULL;

      missing_is (&bay, "take_one! try not_done safe");
      assert_told (&bay, "; it is to be put right; nobody wrote down yet that it was.");
      if (g_str_equal (rows[i].done, "part"))
        part = bay_fit (&bay, &entry);
      else if (g_str_equal (rows[i].done, "price"))
        g_assert_true (hs_job_price (bay.book, bay.job, NULL, NOW + 600, NULL));
      else
        {
          g_assert_true (hs_disturbed_add (bay.book, bay.job, "strap bolt", NOW, NULL, NULL));
          line = hs_ops_test_id (bay.test, "SELECT id FROM disturbed");
          g_assert_true (hs_disturbed_tick (bay.book, line, TRUE, NULL, NOW, NULL));
        }
      missing_is (&bay, "take_one! try safe");
      assert_told (&bay, "; this was repaired on this visit, and nothing has shown yet that it holds.");
      bay_read (&bay, "starts_good", "4 of 5", "after", NULL);
      assert_told (&bay, ", and nothing has shown yet that it holds.");
      bay_read (&bay, "starts_good", "5 of 5", "after", NULL);
      assert_told (&bay, "; this was put right on this visit.");
    }
}

/* The second number of a pair is what was to be expected, and only of tries every one has to be good: within is from
 * 85 % of a rated output, from 75 % of the best cylinder. What is still outside shows nothing and takes nothing back,
 * except of its own check. */
static void
test_shown (void)
{
  static const struct
  {
    const char *reads[3][2];
    gboolean shown;
  } rows[] = {
    { { { "charging_output", "82 of 90" } }, TRUE },
    { { { "charging_output", "76 of 90" } }, FALSE },
    { { { "compression", "150 of 165" } }, TRUE },
    { { { "volts_through", "12.50 of 12.62" } }, TRUE },
    { { { "tried_again", "2 of 3" } }, FALSE },
    { { { "charging", "11.20" } }, FALSE },
    { { { "charging", "14.10" } }, TRUE },
    { { { "charging", "11.20" }, { "charging", "14.10" } }, TRUE },
    { { { "charging", "14.10" }, { "charging", "11.20" } }, FALSE },
    { { { "starts_good", "5 of 5" }, { "charging", "11.20" } }, TRUE },
    { { { "starts_good", "5 of 5" }, { "charging_output", "76 of 90" } }, TRUE },
    { { { "starts_good", "5 of 5" }, { "starts_good", "4 of 5" } }, FALSE },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (Bay) bay = bay_start ();
      const HsInstallEntry entry = { .what = "strap", .why = "due" };
      g_autofree char *cause = bay_find (&bay, "ground strap rotten", "cause", "cured");
      g_autofree char *part = bay_fit (&bay, &entry);

      g_test_message ("row %u", (guint) i);
      for (guint j = 0; j < G_N_ELEMENTS (rows[i].reads) && rows[i].reads[j][0] != NULL; j++)
        bay_read (&bay, rows[i].reads[j][0], rows[i].reads[j][1], "after", NULL);
      assert_told (&bay, rows[i].shown ? "; this was put right on this visit."
                                       : ", and nothing has shown yet that it holds.");
    }
}

/* What can not be read again counts as asked; another place of the same check does not. */
static void
test_asked_again (void)
{
  g_auto (Bay) bay = bay_start ();
  const HsReadingEntry none = { .check = "drop_feed", .keyed = "*", .phase = "after", .place = "relay feed",
                                .why_not = "drove off", .at = NOW };
  g_autoptr (HsReadingResult) result = NULL;

  bay_read (&bay, "drop_feed", "2.60", "before", "relay feed");
  bay_read (&bay, "drop_feed", "0.02", "after", "lamp feed");
  missing_is (&bay, "read_again try safe");
  result = hs_reading_add (bay.book, bay.job, &none, NOW, NULL);
  g_assert_nonnull (result);
  missing_is (&bay, "try safe");
}

/* Work that answers no complaint has none to try; another kind of complaint is tried by another check. */
static void
test_try (void)
{
  static const struct
  {
    const char *change;
    const char *check;
    const char *missing;
  } rows[] = {
    { "complaint_group = 'will_not_start'", "starts_good", "take_one! try safe" },
    { "complaint_group = 'everything_dead'", "starts_good", "take_one! try safe" },
    { "complaint_group = 'brakes'", "tried_again", "take_one! try safe" },
    { "complaint_group = NULL", "tried_again", "take_one! try safe" },
    { "kind = 'upkeep'", NULL, "take_one! safe" },
    { "kind = 'look_over'", NULL, "take_one! safe" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (Bay) bay = bay_start ();
      g_autofree char *sql = g_strdup_printf ("UPDATE job SET %s", rows[i].change);
      g_autoptr (HsRepair) repair = NULL;

      hs_ops_test_run (bay.test, sql);
      repair = bay_load (&bay);
      g_assert_cmpstr (repair->try_check, ==, rows[i].check);
      missing_is (&bay, rows[i].missing);
      bay_read (&bay, "tried_again", "12 of 12", "after", NULL);
      missing_is (&bay, "safe");
    }
}

static char *
say (const char *kind, HsProveItem item)
{
  for (int i = HS_PROVE_TAKE_ONE; i <= HS_PROVE_SAFE; i++)
    if (g_str_equal (hs_prove_id ((HsProveKind) i), kind))
      {
        item.kind = (HsProveKind) i;
        return hs_prove_say (&item, &english);
      }
  g_assert_not_reached ();
}

static void
test_say (void)
{
  static const struct
  {
    const char *kind;
    const char *what;
    const char *said;
  } rows[] = {
    { "take_one", NULL, "Take a reading after the repair, or say why it could not be tested." },
    { "complaint_stays", "4 of 5", "The complaint is still there: 4 of 5 good. Go on, or say why it is left so." },
    { "part_why", "relay", "Say why the old one went: relay." },
    { "open_end", "“Relay” is open.", "“Relay” is open." },
    { "read_again", "Charging, 12.30 V", "Read again: Charging, 12.30 V was outside before." },
    { "still_outside", "Charging, 12.60 V", "Still outside: Charging, 12.60 V." },
    { "try", NULL, "Try the complaint again, five times or more." },
    { "not_done", "strap rotten", "Say what was done: “strap rotten” is called cured, but no part is installed, "
                                  "nothing is looked after and no work is on the bill." },
    { "look", "Relay home", "Look after: Relay home." },
    { "safe", NULL, "Say whether it is safe to drive: yes, no, or told not to." },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *said = say (rows[i].kind, (HsProveItem) { .what = (char *) rows[i].what });

      g_assert_cmpstr (said, ==, rows[i].said);
    }
}

/* No reading after the repair: refused. A reason: accepted, kept, and no longer asked for. */
static void
test_story (void)
{
  g_auto (Bay) bay = bay_start ();
  g_autoptr (GError) error = NULL;
  g_autoptr (HsRepair) repair = NULL;

  g_assert_false (hs_job_move_stage (bay.book, bay.job, HS_STAGE_PROVEN, NULL, NOW, &error));
  g_assert_nonnull (strstr (error->message, "no reading after the repair"));
  g_clear_error (&error);
  g_assert_false (hs_job_move_stage (bay.book, bay.job, HS_STAGE_PROVEN, "  ", NOW, NULL));
  g_assert_true (hs_job_move_stage (bay.book, bay.job, HS_STAGE_PROVEN, hs_unproved_reason (1, &english), NOW, &error));
  g_assert_no_error (error);
  repair = bay_load (&bay);
  g_assert_cmpstr (repair->unproved_why, ==, "Dark and raining, so no road test.");
  missing_is (&bay, "take_one try safe");
  g_assert_false (hs_job_set_unproved (bay.book, bay.job, "", NOW, &error));
  g_assert_nonnull (error);
}

/* The reason stands on the invoice in the owner's words; a job that was proven has none on it. */
static void
test_invoice (void)
{
  static const struct
  {
    const char *reason;
    const char *frozen;
  } rows[] = {
    { "Dark and raining, so no road test.", "\"not_proven_because\":\"Dark and raining, so no road test.\"" },
    { "“He” drove off\\", "\"not_proven_because\":\"“He” drove off\\\\\"" },
    { NULL, "\"starts_good\"" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (Bay) bay = bay_start ();
      g_autofree char *frozen = NULL;
      g_autoptr (GError) error = NULL;

      if (rows[i].reason == NULL)
        bay_read (&bay, "starts_good", "5 of 5", "after", NULL);
      g_assert_true (hs_job_move_stage (bay.book, bay.job, HS_STAGE_PROVEN, rows[i].reason, NOW, &error));
      g_assert_true (hs_go_ahead_add (bay.book, bay.job, 100000, "Teo", "phone", NOW, &error));
      g_assert_true (hs_job_price (bay.book, bay.job, NULL, NOW, &error));
      g_assert_true (hs_job_square (bay.book, bay.job, NOW, &error));
      g_assert_no_error (error);
      frozen = hs_ops_test_id (bay.test, "SELECT frozen FROM invoice");
      g_assert_nonnull (strstr (frozen, rows[i].frozen));
      if (rows[i].reason == NULL)
        g_assert_null (strstr (frozen, "Dark"));
    }
}

/* What an odometer can show; the same again is no second reading, what can hardly be is asked. */
static void
test_odometer (void)
{
  static const struct
  {
    gint64 value;
    const char *said;
    gint64 n_rows;
  } rows[] = {
    { -1, "Odometer: write what it shows", 1 },
    { 10000000, "Odometer: write what it shows", 1 },
    { 60999, "61000", 1 },
    { 61000, NULL, 2 },
    { 61040, NULL, 3 },
    { 61040, NULL, 3 },
    { 9999999, "The reason goes beside the odometer of the call.", 3 },
  };
  g_auto (Bay) bay = bay_start ();

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_cmpint (hs_job_leave (bay.book, bay.job, rows[i].value, NOW, &error), ==, rows[i].said == NULL);
      if (rows[i].said != NULL)
        g_assert_nonnull (strstr (error->message, rows[i].said));
      g_assert_cmpint (hs_ops_test_count (bay.test, "odometer"), ==, rows[i].n_rows);
    }
}

/* Without a vehicle there is nothing to put a part on or to read an odometer of; what was disturbed can be said. */
static void
test_no_vehicle (void)
{
  g_auto (Bay) bay = bay_start ();
  const HsInstallEntry entry = { .what = "relay", .why = "due", .looks = TRUE };
  g_autoptr (HsRepair) repair = NULL;
  g_autoptr (GError) error = NULL;

  hs_ops_test_run (bay.test, "UPDATE job SET vehicle_id = NULL");
  g_assert_null (hs_part_install (bay.book, bay.job, &entry, NOW, &error));
  hs_ops_test_refused (&error, "A-0001 has no vehicle yet");
  g_assert_false (hs_job_leave (bay.book, bay.job, 63000, NOW, &error));
  hs_ops_test_refused (&error, "A-0001 has no vehicle yet");
  g_assert_true (hs_disturbed_add (bay.book, bay.job, "wheel", NOW, NULL, &error));
  g_assert_cmpint (hs_ops_test_count (bay.test, "chase"), ==, 0);
  repair = bay_load (&bay);
  g_assert_cmpuint (repair->looks->len, ==, 2);
  g_assert_cmpstr (repair->odometer_unit, ==, "mi");
}

/* A complaint that is still there is not tested good without a word. */
static void
test_stays (void)
{
  g_auto (Bay) bay = bay_start ();
  g_autoptr (GError) error = NULL;

  bay_read (&bay, "starts_good", "4 of 5", "after", NULL);
  g_assert_false (hs_job_move_stage (bay.book, bay.job, HS_STAGE_PROVEN, NULL, NOW, &error));
  g_assert_nonnull (strstr (error->message, "4 of 5 good"));
  g_clear_error (&error);
  g_assert_true (hs_job_set_unproved (bay.book, bay.job, "Starter comes on Monday.", NOW, NULL));
  g_assert_true (hs_job_move_stage (bay.book, bay.job, HS_STAGE_PROVEN, NULL, NOW, &error));
  g_assert_no_error (error);
}

static void
test_hand_over (void)
{
  g_auto (Bay) bay = bay_start ();
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_job_set_safe (bay.book, bay.job, "told not to", NOW, NULL));
  hs_ops_test_one (bay.test, "job WHERE safe_to_drive = 'told_not_to'");
  g_assert_false (hs_job_set_safe (bay.book, bay.job, "perhaps", NOW, &error));
  g_assert_nonnull (strstr (error->message, "perhaps"));
  g_clear_error (&error);
  g_assert_true (hs_job_set_safe (bay.book, bay.job, NULL, NOW, NULL));
  hs_ops_test_one (bay.test, "job WHERE safe_to_drive IS NULL");
  g_assert_true (hs_undo_last (hs_book_get_store (bay.book), bay.job, NOW, NULL, NULL));
  hs_ops_test_one (bay.test, "job WHERE safe_to_drive = 'told_not_to'");
  g_assert_true (hs_job_leave (bay.book, bay.job, 63000, NOW, NULL));
  g_assert_true (hs_job_leave (bay.book, bay.job, 63000, NOW, NULL));
  hs_ops_test_one (bay.test, "odometer WHERE value = 63000");
  g_assert_false (hs_job_leave (bay.book, bay.job, 100, NOW, &error));
  g_assert_nonnull (strstr (error->message, "61000"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/prove/disturbed", test_disturbed);
  g_test_add_func ("/prove/coding", test_coding);
  g_test_add_func ("/prove/by-part", test_by_part);
  g_test_add_func ("/prove/wheel", test_wheel);
  g_test_add_func ("/prove/tick", test_tick);
  g_test_add_func ("/prove/lines", test_lines);
  g_test_add_func ("/prove/squared", test_squared);
  g_test_add_func ("/prove/again", test_again);
  g_test_add_func ("/prove/missing", test_missing);
  g_test_add_func ("/prove/safe", test_safe);
  g_test_add_func ("/prove/cured", test_cured);
  g_test_add_func ("/prove/shown", test_shown);
  g_test_add_func ("/prove/asked-again", test_asked_again);
  g_test_add_func ("/prove/try", test_try);
  g_test_add_func ("/prove/say", test_say);
  g_test_add_func ("/prove/story", test_story);
  g_test_add_func ("/prove/invoice", test_invoice);
  g_test_add_func ("/prove/odometer", test_odometer);
  g_test_add_func ("/prove/no-vehicle", test_no_vehicle);
  g_test_add_func ("/prove/stays", test_stays);
  g_test_add_func ("/prove/hand-over", test_hand_over);
  return g_test_run ();
}
