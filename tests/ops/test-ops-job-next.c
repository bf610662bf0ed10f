// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What to check next on a job, and what still stands, on a model of two causes that was worked out by hand (ops-next.h)
 * and on those that are shipped. */

#include "hs-chain-op.h"
#include "hs-job-op.h"
#include "hs-ops-error.h"
#include "ops-next.h"

#define NOW HS_OPS_TEST_NOW
#define HAIR 1e-9

static void
assert_cause (const HsJobNext *next, const char *id, double weight, HsNextStanding standing, const char *speaks_for,
              const char *against)
{
  const HsNextCause *cause = ops_next_cause (next, id);
  g_autofree char *said_for = NULL;
  g_autofree char *said_against = NULL;

  g_assert_nonnull (cause);
  said_for = ops_next_join (cause->speaks_for);
  said_against = ops_next_join (cause->speaks_against);
  g_assert_cmpfloat_with_epsilon (cause->weight, weight, HAIR);
  g_assert_cmpstr (hs_next_standing_id (cause->standing), ==, hs_next_standing_id (standing));
  g_assert_cmpstr (said_for, ==, speaks_for);
  g_assert_cmpstr (said_against, ==, against);
}

static void
assert_line (const HsJobNext *next, guint nth, gboolean is_check, const char *id, double expected)
{
  const HsNextLine *line = g_ptr_array_index (next->lines, nth);

  g_assert_cmpint (line->is_check, ==, is_check);
  g_assert_cmpstr (line->id, ==, id);
  g_assert_cmpfloat_with_epsilon (line->expected_minutes, expected, HAIR);
}

/* Two models of equal shares, one with a check that the other does not have. */
static const char two_models[]
  = "{\"models\": ["
    "{\"id\": \"silent\", \"group\": \"will_not_start\", \"name\": \"Silent\","
    " \"when\": {\"check\": \"key_turn\", \"answers\": [1]},"
    " \"causes\": [{\"id\": \"a\", \"prior\": 3, \"name\": \"A\", \"source\": \"s\", \"repair\": \"r\"},"
    "  {\"id\": \"b\", \"prior\": 1, \"name\": \"B\", \"source\": \"s\", \"repair\": \"r\"}],"
    " \"repairs\": {\"a\": 20, \"b\": 30},"
    " \"checks\": [{\"id\": \"belt\", \"minutes\": 2, \"results\": [\"good\", \"bad\"], \"source\": \"s\",@"
    "   \"from\": {\"answers\": [\"good\", \"bad\", \"bad\", null, \"bad\"]},"
    "   \"p\": {\"a\": [0.9, 0.1], \"b\": [0.1, 0.9]}}]},"
    "{\"id\": \"clicks\", \"group\": \"will_not_start\", \"name\": \"Clicks\","
    " \"when\": {\"check\": \"key_turn\", \"answers\": [2]},"
    " \"causes\": [{\"id\": \"c\", \"prior\": 1, \"name\": \"C\", \"source\": \"s\", \"repair\": \"r\"}],"
    " \"repairs\": {\"c\": 20}},"
    "{\"id\": \"will_not_start_silent\", \"group\": \"drains\", \"name\": \"n\","
    " \"causes\": [{\"id\": \"c\", \"prior\": 1, \"name\": \"C\", \"source\": \"s\", \"repair\": \"r\"}],"
    " \"repairs\": {\"c\": 20}},"
    "{\"id\": \"will_not_start_clicks\", \"group\": \"drains\", \"name\": \"n\","
    " \"causes\": [{\"id\": \"c\", \"prior\": 1, \"name\": \"C\", \"source\": \"s\", \"repair\": \"r\"}],"
    " \"repairs\": {\"c\": 20}},"
    "{\"id\": \"will_not_start_cranks\", \"group\": \"drains\", \"name\": \"n\","
    " \"causes\": [{\"id\": \"c\", \"prior\": 1, \"name\": \"C\", \"source\": \"s\", \"repair\": \"r\"}],"
    " \"repairs\": {\"c\": 20}}]}";

/* Nothing is known: beliefs 0.75, 0.25. Repairs alone: 20 + 0.25 × 30 = 27.5. The belt first: it is good with 0.75 ×
 * 0.9 + 0.25 × 0.1 = 0.7, then a with 0.675/0.7: 20 + 0.025/0.7 × 30; bad with 0.3, then b with 0.225/0.3:
 * 30 + 0.075/0.3 × 20; in all 2 + 14 + 0.75 + 9 + 1.5 = 27.25. The volts tell less for more
 * minutes. */
static void
test_start (void)
{
  g_auto (OpsNext) site = ops_next_start (NULL, "drains");
  g_autoptr (HsJobNext) next = ops_next_ask (&site);
  const HsNextCause *cause = ops_next_cause (next, "a");
  const HsNextLine *belt = ops_next_line (next, "belt");
  g_autofree char *tells = NULL;

  g_assert_null (next->nothing);
  g_assert_null (next->trouble);
  g_assert_cmpstr (next->group, ==, "drains");
  g_assert_cmpstr (next->name, ==, "Drains");
  g_assert_cmpstr (next->note, ==, "by hand");
  g_assert_cmpstr (next->models[0], ==, "drains");
  g_assert_null (next->models[1]);
  g_assert_true (next->exact);
  assert_cause (next, "a", 0.75, HS_NEXT_MOST_LIKELY, "", "");
  assert_cause (next, "b", 0.25, HS_NEXT_POSSIBLE, "", "");
  g_assert_cmpstr (cause->name, ==, "Battery");
  g_assert_cmpstr (cause->source, ==, "counted");
  g_assert_null (cause->own);
  g_assert_cmpstr (cause->repair, ==, "Replace it");
  g_assert_cmpint (cause->repair_cents, ==, 12000);
  g_assert_cmpfloat (cause->repair_minutes, ==, 20);
  g_assert_cmpuint (next->lines->len, ==, 4);
  assert_line (next, 0, TRUE, "belt", 27.25);
  assert_line (next, 1, FALSE, "a", 27.5);
  g_assert_cmpstr (hs_job_next_check (next), ==, "belt");
  g_assert_cmpfloat_with_epsilon (next->repairs_minutes, 27.5, HAIR);
  tells = ops_next_join (belt->tells);
  g_assert_cmpstr (tells, ==, "good: Battery | bad: Belt");
  g_assert_cmpstr (belt->name, ==, "Belt");
  g_assert_cmpfloat (belt->minutes, ==, 2);
  g_assert_nonnull (belt->how);
  g_assert_nonnull (belt->caution);
  g_assert_cmpstr (ops_next_line (next, "battery_rest")->source, ==, "a book; another book");
  g_assert_cmpuint (next->offers->len, ==, 0);
}

/* The list is the volts, then the belt: 4 + 2 and repairs by what came out. Low and good: 15 × 0.81 and 5 × 0.02; low
 * and bad: 1.35 and 0.9, a first (1.35/20 above 0.9/30); fine and good: 1.35 and 0.4, a first; fine and bad: 0.15 and
 * 3.6, b first. Of 20: 6 + (12.15 + 0.1 + 1.35 + 0.9 + 1.35 + 0.4) × 20/20 + (0.1 + 0.9 + 0.4) × 30/20 + (3.75 × 30 +
 * 0.15 × 20)/20 = 6 + 16.25 + 2.1 + 5.775. */
static void
test_list (void)
{
  g_auto (OpsNext) site = ops_next_start (NULL, "drains");
  g_autoptr (HsJobNext) next = ops_next_ask (&site);

  g_assert_cmpfloat_with_epsilon (next->list_minutes, 30.125, HAIR);
}

/* Low volts: 13.5 to 1. What is four and a half times likelier under the one speaks for it, and against the other. */
static void
test_read (void)
{
  g_auto (OpsNext) site = ops_next_start (NULL, "drains");
  g_autoptr (HsJobNext) next = NULL;

  ops_next_read (&site, "battery_rest", "11.95", "before");
  next = ops_next_ask (&site);
  assert_cause (next, "a", 13.5 / 14.5, HS_NEXT_MOST_LIKELY, "Battery at rest 11.95 V: low", "");
  assert_cause (next, "b", 1 / 14.5, HS_NEXT_UNLIKELY, "", "Battery at rest 11.95 V: low");
  assert_line (next, 0, FALSE, "a", 20 + 1 / 14.5 * 30);
  g_assert_null (hs_job_next_check (next));
  g_assert_null (ops_next_line (next, "battery_rest"));
  g_assert_cmpstr (((const HsNextCause *) g_ptr_array_index (next->causes, 0))->id, ==, "a");
  g_assert_nonnull (ops_next_cause (next, "a")->reading_id);
  g_assert_null (ops_next_cause (next, "a")->against_id);
  g_assert_cmpstr (ops_next_cause (next, "b")->against_id, ==, ops_next_cause (next, "a")->reading_id);

  /* An answer stands in its own words. */
  ops_next_read (&site, "belt", "2", "before");
  g_clear_pointer (&next, hs_job_next_free);
  next = ops_next_ask (&site);
  g_assert_cmpfloat_with_epsilon (ops_next_cause (next, "a")->weight, 1.35 / 2.25, HAIR);
  g_assert_true (g_str_has_prefix (ops_next_cause (next, "b")->speaks_for[0], "Belt: "));
}

static char *
say_other (const char *text)
{
  if (g_str_equal (text, "Battery at rest"))
    return (char *) "Reposo";
  if (g_str_equal (text, "low"))
    return (char *) "baja";
  if (g_str_equal (text, "Battery"))
    return (char *) "Pila";
  return (char *) text;
}

static char *
say_other_number (const char *one, const char *many, gulong n)
{
  return (char *) (n == 1 ? one : many);
}

/* In another tongue the sentences are put together of its words; names stay those of the model, for they are what goes
 * back into the book. */
static void
test_other_tongue (void)
{
  static const HsTongue other = { say_other, say_other_number };
  g_auto (OpsNext) site = ops_next_start (NULL, "drains");
  g_autoptr (HsJobNext) before = NULL;
  g_autoptr (HsJobNext) next = NULL;
  g_autofree char *tells = NULL;

  hs_book_set_tongue (site.book, &other);
  before = ops_next_ask (&site);
  tells = ops_next_join (ops_next_line (before, "battery_rest")->tells);
  g_assert_cmpstr (tells, ==, "baja: Pila | fine: Belt");
  ops_next_read (&site, "battery_rest", "11.95", "before");
  next = ops_next_ask (&site);
  g_assert_cmpstr (ops_next_cause (next, "a")->speaks_for[0], ==, "Reposo 11.95 V: baja");
  g_assert_cmpstr (ops_next_cause (next, "a")->name, ==, "Battery");
  hs_book_set_tongue (site.book, NULL);
}

/* A later reading takes the place of an earlier one; one after the repair is of another car, one during it stands in
 * only where there is none before. */
static void
test_phases (void)
{
  g_auto (OpsNext) site = ops_next_start (NULL, "drains");
  g_autoptr (HsJobNext) after = NULL;
  g_autoptr (HsJobNext) during = NULL;
  g_autoptr (HsJobNext) before = NULL;
  g_autoptr (HsJobNext) again = NULL;

  ops_next_read (&site, "battery_rest", "12.60", "after");
  after = ops_next_ask (&site);
  assert_cause (after, "a", 0.75, HS_NEXT_MOST_LIKELY, "", "");
  ops_next_read (&site, "battery_rest", "12.60", "during");
  during = ops_next_ask (&site);
  assert_cause (during, "a", 1.5 / 5.5, HS_NEXT_POSSIBLE, "", "Battery at rest 12.60 V: fine");
  ops_next_read (&site, "battery_rest", "11.95", "before");
  before = ops_next_ask (&site);
  assert_cause (before, "a", 13.5 / 14.5, HS_NEXT_MOST_LIKELY, "Battery at rest 11.95 V: low", "");
  ops_next_read (&site, "battery_rest", "12.55", "before");
  again = ops_next_ask (&site);
  assert_cause (again, "a", 1.5 / 5.5, HS_NEXT_POSSIBLE, "", "Battery at rest 12.55 V: fine");
}

/* --- After the repair ------------------------------------------------------------------------------------------ */

static void
name_cause (OpsNext *site, const char *cause, gboolean cured)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *finding = hs_job_name_cause (site->book, site->job_id, NULL, cause, TRUE, "seen", NOW, &error);

  g_assert_no_error (error);
  if (cured)
    g_assert_true (hs_finding_settle (site->book, finding, "cured", NOW, &error));
  g_assert_no_error (error);
}

/* What spoke for the cause reads good after its repair: it is gone, and by the model that says that it was this one.
 * The others are called unlikely, for a second fault is no fault of the model; nothing is left to do. */
static void
test_gone (void)
{
  for (guint cured = 0; cured < 2; cured++)
    {
      g_auto (OpsNext) site = ops_next_start (NULL, "drains");
      g_autoptr (HsJobNext) next = NULL;

      ops_next_read (&site, "battery_rest", "11.95", "before");
      name_cause (&site, "a", cured);
      ops_next_read (&site, "battery_rest", "12.60", "after");
      next = ops_next_ask (&site);
      assert_cause (next, "a", 1, cured ? HS_NEXT_REPAIRED : HS_NEXT_PROVEN,
                    "Battery at rest 11.95 V: low | After the repair, good: Battery at rest 12.60 V", "");
      assert_cause (next, "b", 0, HS_NEXT_UNLIKELY, "", "Battery at rest 11.95 V: low");
      g_assert_cmpstr (((const HsNextCause *) g_ptr_array_index (next->causes, 0))->id, ==, "a");
      g_assert_cmpstr (next->nothing, ==,
                       "After the repair it reads good. If the complaint is still there, write it down as “Complaint "
                       "tried again”: what is left is weighed then.");
      g_assert_cmpuint (next->lines->len, ==, 0);
    }
}

/* It reads as bad as before, so that it was not that, or not that alone: the others are what is left. What is read from
 * there on counts, whatever it is called. */
static void
test_not_gone (void)
{
  for (guint cured = 0; cured < 2; cured++)
    {
      g_auto (OpsNext) site = ops_next_start (NULL, "drains");
      g_autoptr (HsJobNext) next = NULL;
      g_autoptr (HsJobNext) further = NULL;

      ops_next_read (&site, "battery_rest", "11.95", "before");
      name_cause (&site, "a", cured);
      ops_next_read (&site, "battery_rest", "11.80", "after");
      next = ops_next_ask (&site);
      assert_cause (next, "a", 0, HS_NEXT_REPAIRED, "Battery at rest 11.95 V: low",
                    "After the repair, not good: Battery at rest 11.80 V");
      assert_cause (next, "b", 1, HS_NEXT_MOST_LIKELY, "", "Battery at rest 11.95 V: low");
      assert_line (next, 0, FALSE, "b", 30);
      g_assert_nonnull (ops_next_line (next, "belt"));
      g_assert_null (next->nothing);
      ops_next_read (&site, "belt", "2", "after");
      further = ops_next_ask (&site);
      g_assert_null (ops_next_line (further, "belt"));
      g_assert_cmpuint (g_strv_length (ops_next_cause (further, "b")->speaks_for), ==, 1);
    }
}

/* Trying the complaint again says it whatever was read before; what says nothing of the cause says nothing of its
 * repair, and where nobody knows what was repaired an after-reading is of another car. */
static void
test_tried_again (void)
{
  static const struct
  {
    gboolean is_named;
    const char *check;
    const char *read;
    double weight_a;
    gboolean is_over;
  } rows[] = {
    { TRUE, "tried_again", "5 of 5", 1, TRUE },   { TRUE, "starts_good", "6 of 6", 1, TRUE },
    { TRUE, "tried_again", "4 of 5", 0, FALSE },  { TRUE, "belt", "1", 0.75, FALSE },
    { TRUE, "battery_rest", "12.60", 0.75, FALSE }, { FALSE, "tried_again", "5 of 5", 0.75, FALSE },
    { FALSE, "battery_rest", "11.95", 0.75, FALSE },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (OpsNext) site = ops_next_start (NULL, "drains");
      g_autoptr (HsJobNext) next = NULL;

      g_test_message ("%s %s", rows[i].check, rows[i].read);
      if (rows[i].is_named)
        name_cause (&site, "a", FALSE);
      ops_next_read (&site, rows[i].check, rows[i].read, "after");
      next = ops_next_ask (&site);
      g_assert_cmpfloat_with_epsilon (ops_next_cause (next, "a")->weight, rows[i].weight_a, HAIR);
      g_assert_cmpint (next->nothing != NULL, ==, rows[i].is_over);
    }
}

/* Of several models the one with the cause that was repaired is the one. */
static void
test_gone_of_two (void)
{
  g_auto (GStrv) parts = g_strsplit (two_models, "@", 2);
  g_autofree char *models = g_strjoinv ("", parts);
  g_auto (OpsNext) site = ops_next_start (models, "will_not_start");
  g_autoptr (HsJobNext) next = NULL;

  name_cause (&site, "c", TRUE);
  ops_next_read (&site, "starts_good", "5 of 5", "after");
  next = ops_next_ask (&site);
  assert_cause (next, "c", 1, HS_NEXT_REPAIRED, "After the repair, good: Good starts 5 of 5", "");
  g_assert_cmpfloat (ops_next_cause (next, "a")->weight, ==, 0);
  g_assert_nonnull (next->nothing);
}

/* --------------------------------------------------------------------------------------------------------------- */

/* Of several places the worst one counts, in whatever order they were read. */
static void
test_places (void)
{
  g_auto (OpsNext) site = ops_next_start (NULL, "drains");
  g_autoptr (HsJobNext) next = NULL;
  g_autoptr (HsJobNext) later = NULL;

  ops_next_read_at (&site, "battery_rest", "11.95", "first battery");
  ops_next_read_at (&site, "battery_rest", "12.60", "second battery");
  next = ops_next_ask (&site);
  assert_cause (next, "a", 13.5 / 14.5, HS_NEXT_MOST_LIKELY, "Battery at rest, first battery 11.95 V: low", "");
  ops_next_read_at (&site, "battery_rest", "12.50", "first battery");
  later = ops_next_ask (&site);
  g_assert_cmpfloat_with_epsilon (ops_next_cause (later, "a")->weight, 1.5 / 5.5, HAIR);
}

/* What somebody said counts four fifths: 0.8 × 0.9 + 0.1 = 0.82 and 0.8 × 0.2 + 0.1 = 0.26, until it is read. */
static void
test_said (void)
{
  g_auto (OpsNext) site = ops_next_start (NULL, "drains");
  g_autoptr (HsJobNext) said = NULL;
  g_autoptr (HsJobNext) read = NULL;

  ops_next_say (&site, "dash_lamps", "3");
  said = ops_next_ask (&site);
  assert_cause (said, "a", 12.3 / 13.6, HS_NEXT_MOST_LIKELY, "Dash lamps: “none”", "");
  assert_cause (said, "b", 1.3 / 13.6, HS_NEXT_UNLIKELY, "", "Dash lamps: “none”");
  g_assert_nonnull (ops_next_line (said, "battery_rest"));
  g_assert_null (ops_next_cause (said, "a")->reading_id);
  ops_next_read (&site, "battery_rest", "12.60", "before");
  read = ops_next_ask (&site);
  assert_cause (read, "a", 1.5 / 5.5, HS_NEXT_POSSIBLE, "", "Battery at rest 12.60 V: fine");
}

/* What speaks for nothing: another answer than those that the model has. */
static void
test_said_else (void)
{
  g_auto (OpsNext) site = ops_next_start (NULL, "drains");
  g_autoptr (HsJobNext) next = NULL;

  ops_next_say (&site, "dash_lamps", "2");
  ops_next_say (&site, "last_ran", "yesterday");
  next = ops_next_ask (&site);
  assert_cause (next, "a", 0.75, HS_NEXT_MOST_LIKELY, "", "");
}

/* What could not be measured, or was read and says nothing, is not offered again. */
static void
test_not_to_be_had (void)
{
  g_auto (OpsNext) site = ops_next_start (NULL, "drains");
  g_autoptr (HsJobNext) next = NULL;
  g_autoptr (HsJobNext) later = NULL;

  ops_next_read (&site, "belt", "*cannot be reached", "before");
  next = ops_next_ask (&site);
  g_assert_null (ops_next_line (next, "belt"));
  g_assert_cmpfloat_with_epsilon (ops_next_cause (next, "a")->weight, 0.75, HAIR);
  assert_line (next, 0, FALSE, "a", 27.5);
  g_assert_cmpuint (next->offers->len, ==, 0);
  ops_next_read (&site, "belt", "4", "before");
  later = ops_next_ask (&site);
  g_assert_null (ops_next_line (later, "belt"));
  g_assert_cmpfloat_with_epsilon (ops_next_cause (later, "a")->weight, 0.75, HAIR);
}

/* What could not be measured is not offered again, for each complaint until nothing is left to check; how the key turns
 * is a check like any other there. */
static void
test_never_again (void)
{
  static const char *const groups[] = { "will_not_start", "everything_dead", "drains", "charging_lamp", "overheats",
                                        "brakes", "cuts_out" };

  for (gsize i = 0; i < G_N_ELEMENTS (groups); i++)
    {
      g_auto (OpsNext) site = ops_next_start ("{\"models\": []}", groups[i]);
      g_autoptr (GHashTable) done = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

      while (TRUE)
        {
          g_autoptr (HsJobNext) next = ops_next_ask (&site);
          const char *check = NULL;

          g_assert_null (next->nothing);
          g_assert_cmpuint (next->lines->len, >, 0);
          for (guint k = 0; k < next->lines->len; k++)
            {
              const HsNextLine *line = g_ptr_array_index (next->lines, k);

              g_assert_false (line->is_check && g_hash_table_contains (done, line->id));
              if (check == NULL && line->is_check)
                check = line->id;
            }
          if (check == NULL)
            break;
          g_hash_table_add (done, g_strdup (check));
          ops_next_read (&site, check, "*cannot be reached", "before");
        }
      g_test_message ("%s: %u", groups[i], g_hash_table_size (done));
      g_assert_cmpuint (g_hash_table_size (done), >=, 5);
    }
}

/* Where nobody could say how the key turns, all its models stand, and what can be done is weighed over them. */
static void
test_key_not_turned (void)
{
  g_auto (GStrv) parts = g_strsplit (two_models, "@", 2);
  g_autofree char *models = g_strjoinv ("", parts);
  g_auto (OpsNext) site = ops_next_start (models, "will_not_start");
  g_autoptr (HsJobNext) next = NULL;
  g_autoptr (HsJobNext) with_power = NULL;

  ops_next_read (&site, "key_turn", "*no key", "before");
  next = ops_next_ask (&site);
  g_assert_null (ops_next_line (next, "key_turn"));
  g_assert_cmpuint (g_strv_length (next->models), ==, 2);
  /* A first: 20 + 0.25 × 30 = 27.5, and 20 + 20 for nothing in the second. C first: 20 + 27.25, and 20. The belt:
   * 27.25, and 22. All halved. B first: 30 + 0.75 × 20 = 45, and 50. */
  g_assert_cmpuint (next->lines->len, ==, 4);
  assert_line (next, 0, TRUE, "belt", 0.5 * 27.25 + 0.5 * 22);
  assert_line (next, 1, FALSE, "c", 0.5 * 47.25 + 0.5 * 20);
  assert_line (next, 2, FALSE, "a", 0.5 * 27.5 + 0.5 * 40);
  assert_line (next, 3, FALSE, "b", 0.5 * 45 + 0.5 * 50);
  g_assert_false (next->exact);

  ops_next_read (&site, "key_turn", "*" HS_WHY_NOT_POWER, "before");
  ops_next_read (&site, "power_back", "3", "during");
  with_power = ops_next_ask (&site);
  g_assert_cmpstr (hs_job_next_check (with_power), ==, "key_turn");
}

/* What was measured at last counts, though it could not be before. */
static void
test_measured_later (void)
{
  g_auto (OpsNext) site = ops_next_start (NULL, "drains");
  g_autoptr (HsJobNext) next = NULL;

  ops_next_read (&site, "battery_rest", "*cannot be reached", "before");
  ops_next_read (&site, "battery_rest", "12.60", "during");
  next = ops_next_ask (&site);
  assert_cause (next, "a", 1.5 / 5.5, HS_NEXT_POSSIBLE, "", "Battery at rest 12.60 V: fine");
}

/* Without power: said so, asked for when there is some, and offered again then, with a walk round. */
static void
test_power (void)
{
  g_auto (OpsNext) site = ops_next_start (NULL, "drains");
  g_autoptr (HsJobNext) without = NULL;
  g_autoptr (HsJobNext) still = NULL;
  g_autoptr (HsJobNext) back = NULL;
  g_autoptr (HsJobNext) done = NULL;

  ops_next_read (&site, "belt", "*" HS_WHY_NOT_POWER, "before");
  ops_next_read (&site, "cranking", "*" HS_WHY_NOT_POWER, "before");
  without = ops_next_ask (&site);
  g_assert_null (ops_next_line (without, "belt"));
  g_assert_cmpuint (without->offers->len, ==, 1);
  g_assert_nonnull (ops_next_offer (without, "power_back"));
  ops_next_read (&site, "power_back", "4", "during");
  still = ops_next_ask (&site);
  g_assert_nonnull (ops_next_offer (still, "power_back"));
  g_assert_null (ops_next_offer (still, "walk_round"));

  ops_next_read (&site, "power_back", "3", "during");
  back = ops_next_ask (&site);
  g_assert_null (ops_next_offer (back, "power_back"));
  g_assert_nonnull (ops_next_offer (back, "walk_round"));
  g_assert_cmpstr (ops_next_offer (back, "cranking")->why, ==,
                   "It could not be measured without power; there is power now.");
  g_assert_nonnull (ops_next_offer (back, "belt"));
  g_assert_true (ops_next_line (back, "belt")->again);

  ops_next_read (&site, "belt", "1", "before");
  ops_next_read (&site, "cranking", "10.20", "before");
  ops_next_read (&site, "walk_round", "1", "during");
  done = ops_next_ask (&site);
  g_assert_cmpuint (done->offers->len, ==, 0);
}

/* Volts at rest that are good enough show that there is power, too; those of a flat battery do not. */
static void
test_power_by_volts (void)
{
  g_auto (OpsNext) site = ops_next_start (NULL, "drains");
  g_autoptr (HsJobNext) flat = NULL;
  g_autoptr (HsJobNext) good = NULL;

  ops_next_read (&site, "belt", "*" HS_WHY_NOT_POWER, "before");
  ops_next_read (&site, "battery_rest", "10.90", "before");
  flat = ops_next_ask (&site);
  g_assert_nonnull (ops_next_offer (flat, "power_back"));
  ops_next_read (&site, "battery_rest", "12.50", "during");
  good = ops_next_ask (&site);
  g_assert_null (ops_next_offer (good, "power_back"));
  g_assert_nonnull (ops_next_offer (good, "belt"));
  g_assert_nonnull (ops_next_offer (good, "walk_round"));
}

/* A job says by itself why there is nothing to say. */
static void
test_nothing (void)
{
  static const struct
  {
    const char *group;
    const char *said;
  } rows[] = {
    { NULL, "Choose what it does or does not do; that says what may be behind it." },
    { "upkeep", "There is no cause model for this complaint; the list is as good as any order." },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (OpsNext) site = ops_next_start (NULL, rows[i].group);
      g_autoptr (HsJobNext) next = ops_next_ask (&site);

      g_assert_cmpstr (next->nothing, ==, rows[i].said);
      g_assert_cmpuint (next->causes->len, ==, 0);
      g_assert_cmpuint (next->lines->len, ==, 0);
      g_assert_cmpfloat (next->list_minutes, <, 0);
      g_assert_null (hs_job_next_check (next));
    }
}

/* Readings that no cause can have given are told, not hidden. */
static void
test_nothing_fits (void)
{
  g_autofree char *sure = NULL;
  g_auto (GStrv) parts = g_strsplit (ops_next_models, "[0.9, 0.1], \"b\": [0.2, 0.8]", 2);
  g_auto (GStrv) whole = NULL;

  sure = g_strjoin ("[1, 0], \"b\": [1, 0]", parts[0], parts[1], NULL);
  whole = g_strsplit (sure, "@", 2);
  g_free (sure);
  sure = g_strjoinv ("", whole);
  g_auto (OpsNext) site = ops_next_start (sure, "drains");
  g_autoptr (HsJobNext) next = NULL;

  ops_next_read (&site, "battery_rest", "12.60", "before");
  next = ops_next_ask (&site);
  g_assert_cmpstr (next->nothing, ==,
                   "No cause of the model explains all that was found: a reading may be off, or it is something else.");
  g_assert_cmpuint (next->causes->len, ==, 2);
  g_assert_cmpuint (next->lines->len, ==, 0);
}

/* --- The shipped models ---------------------------------------------------------------------------------------- */

/* Three models for one complaint: the key chooses, what was said of it as long as nobody turned it. */
static void
test_choosing (void)
{
  g_auto (OpsNext) site = ops_next_start (NULL, "will_not_start");
  g_autoptr (HsJobNext) start = ops_next_ask (&site);
  g_autoptr (HsJobNext) said = NULL;
  g_autoptr (HsJobNext) turned = NULL;
  g_autoptr (HsJobNext) alone = NULL;
  double sum = 0;

  g_assert_cmpuint (g_strv_length (start->models), ==, 3);
  g_assert_cmpstr (hs_job_next_check (start), ==, "key_turn");
  g_assert_cmpstr (start->name, ==, "Will not start");
  for (guint i = 0; i < start->causes->len; i++)
    sum += ((const HsNextCause *) g_ptr_array_index (start->causes, i))->weight;
  g_assert_cmpfloat_with_epsilon (sum, 1, HAIR);
  g_assert_cmpuint (g_strv_length (((const HsNextLine *) g_ptr_array_index (start->lines, 0))->tells), ==, 3);
  /* A check that comes before the key is turned is dearer, for the key has to be turned all the same. */
  g_assert_nonnull (ops_next_line (start, "battery_rest"));
  for (guint i = 1; i < start->lines->len; i++)
    g_assert_cmpfloat (((const HsNextLine *) g_ptr_array_index (start->lines, i))->expected_minutes, >=,
                       ((const HsNextLine *) g_ptr_array_index (start->lines, 0))->expected_minutes - 1e-6);
  g_assert_cmpfloat (start->list_minutes, >,
                     ((const HsNextLine *) g_ptr_array_index (start->lines, 0))->expected_minutes);

  ops_next_say (&site, "key_turn", "2");
  said = ops_next_ask (&site);
  g_assert_cmpstr (said->models[0], ==, "will_not_start_clicks");
  g_assert_null (said->models[1]);
  ops_next_read (&site, "key_turn", "1", "before");
  turned = ops_next_ask (&site);
  g_assert_cmpstr (turned->models[0], ==, "will_not_start_silent");
  g_assert_null (turned->models[1]);
  ops_next_read (&site, "key_turn", "5", "before");
  alone = ops_next_ask (&site);
  g_assert_null (alone->models[0]);
  g_assert_cmpstr (alone->nothing, ==, "No cause model is for what the key does here; check freely.");
}

static HsJobNext *
ask_two (const char *elsewhere)
{
  g_auto (GStrv) parts = g_strsplit (two_models, "@", 2);
  g_autofree char *models = g_strjoinv (elsewhere, parts);
  g_auto (OpsNext) site = ops_next_start (models, "will_not_start");

  ops_next_read (&site, "belt", "2", "before");
  return ops_next_ask (&site);
}

/* A bad belt: 0.075 and 0.225 of the first model, 0.3 in all. The second knows of no belt and gains nothing by that: it
 * is as likely as before. Where the first says that one car in ten of others has a bad belt, it is a quarter. */
static void
test_not_asked (void)
{
  g_autoptr (HsJobNext) untold = ask_two ("");
  g_autoptr (HsJobNext) told = ask_two (" \"elsewhere\": [0.9, 0.1],");

  g_assert_cmpstr (untold->models[0], ==, "silent");
  g_assert_cmpfloat_with_epsilon (ops_next_cause (untold, "a")->weight, 0.125, HAIR);
  g_assert_cmpfloat_with_epsilon (ops_next_cause (untold, "b")->weight, 0.375, HAIR);
  g_assert_cmpfloat_with_epsilon (ops_next_cause (untold, "c")->weight, 0.5, HAIR);
  g_assert_cmpfloat_with_epsilon (ops_next_cause (told, "a")->weight, 0.1875, HAIR);
  g_assert_cmpfloat_with_epsilon (ops_next_cause (told, "b")->weight, 0.5625, HAIR);
  g_assert_cmpfloat_with_epsilon (ops_next_cause (told, "c")->weight, 0.25, HAIR);
}

/* A complaint that nobody wrote down shows by how the key turns. */
static void
test_shows (void)
{
  g_auto (OpsNext) none = ops_next_start (NULL, NULL);
  g_auto (OpsNext) dead = ops_next_start (NULL, "everything_dead");
  g_autoptr (HsJobNext) found = NULL;
  g_autoptr (HsJobNext) two = NULL;

  ops_next_read (&none, "key_turn", "3", "before");
  found = ops_next_ask (&none);
  g_assert_cmpstr (found->group, ==, "will_not_start");
  g_assert_cmpstr (found->models[0], ==, "will_not_start_clicks");
  ops_next_read (&dead, "key_turn", "3", "before");
  two = ops_next_ask (&dead);
  g_assert_cmpstr (two->group, ==, "everything_dead");
  g_assert_cmpstr (two->groups[1], ==, "will_not_start");
  g_assert_null (two->groups[2]);
}

/* For each complaint what comes first is expected to be sooner done than the list, and than repairs alone. */
static void
test_groups (void)
{
  static const char *const groups[] = { "will_not_start", "everything_dead", "drains", "charging_lamp", "overheats",
                                        "brakes", "cuts_out" };

  for (gsize i = 0; i < G_N_ELEMENTS (groups); i++)
    {
      g_auto (OpsNext) site = ops_next_start ("{\"models\": []}", groups[i]);
      g_autoptr (HsJobNext) next = ops_next_ask (&site);
      const HsNextLine *first = g_ptr_array_index (next->lines, 0);

      g_test_message ("%s: %.1f, list %.1f", groups[i], first->expected_minutes, next->list_minutes);
      g_assert_cmpfloat (first->expected_minutes, <, next->list_minutes);
      g_assert_cmpfloat (first->expected_minutes, <, next->repairs_minutes);
      for (guint k = 0; k < next->lines->len; k++)
        g_assert_nonnull (((const HsNextLine *) g_ptr_array_index (next->lines, k))->source);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/job-next/start", test_start);
  g_test_add_func ("/job-next/list", test_list);
  g_test_add_func ("/job-next/read", test_read);
  g_test_add_func ("/job-next/other-tongue", test_other_tongue);
  g_test_add_func ("/job-next/phases", test_phases);
  g_test_add_func ("/job-next/gone", test_gone);
  g_test_add_func ("/job-next/not-gone", test_not_gone);
  g_test_add_func ("/job-next/tried-again", test_tried_again);
  g_test_add_func ("/job-next/gone-of-two", test_gone_of_two);
  g_test_add_func ("/job-next/places", test_places);
  g_test_add_func ("/job-next/said", test_said);
  g_test_add_func ("/job-next/said-else", test_said_else);
  g_test_add_func ("/job-next/not-to-be-had", test_not_to_be_had);
  g_test_add_func ("/job-next/never-again", test_never_again);
  g_test_add_func ("/job-next/key-not-turned", test_key_not_turned);
  g_test_add_func ("/job-next/measured-later", test_measured_later);
  g_test_add_func ("/job-next/power", test_power);
  g_test_add_func ("/job-next/power-by-volts", test_power_by_volts);
  g_test_add_func ("/job-next/nothing", test_nothing);
  g_test_add_func ("/job-next/nothing-fits", test_nothing_fits);
  g_test_add_func ("/job-next/choosing", test_choosing);
  g_test_add_func ("/job-next/not-asked", test_not_asked);
  g_test_add_func ("/job-next/shows", test_shows);
  g_test_add_func ("/job-next/groups", test_groups);
  return g_test_run ();
}
