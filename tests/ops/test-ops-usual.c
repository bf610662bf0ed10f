// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Usual jobs: how they are worded, and that from the yes to the receipt no rule of proof is passed by. */

#include "hs-chain-op.h"
#include "hs-job-life.h"
#include "hs-ops-test.h"
#include "hs-safety-op.h"
#include "hs-settings-op.h"
#include "hs-undo.h"
#include "hs-usual.h"

#include <string.h>

#define NOW HS_OPS_TEST_NOW

typedef struct
{
  HsOpsTest *test;
  HsBook *book;
  char *job;
} Ring;

static Ring
ring_start (void)
{
  Ring ring = { .test = hs_ops_test_open () };

  hs_ops_test_fill (ring.test);
  hs_ops_test_import_ok (ring.test, "jobs",
                         "number,customer_phone,words,plate\nA-0001,555-0115,will not start,TDM 5508\n", 1, 0, 0);
  ring.book = ring.test->book;
  ring.job = hs_job_find (ring.book, "A-0001", NULL);
  return ring;
}

static void
ring_clear (Ring *ring)
{
  hs_ops_test_close (ring->test);
  g_free (ring->job);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Ring, ring_clear)

/* The shipped ones, as a book has them that nobody set up. */
static void
test_shipped (void)
{
  g_auto (Ring) ring = ring_start ();
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) list = hs_usual_list (ring.book, &error);
  const HsUsual *jump, *wheel;

  g_assert_no_error (error);
  g_assert_cmpuint (list->len, ==, 4);
  jump = g_ptr_array_index (list, 0);
  wheel = g_ptr_array_index (list, 1);
  g_assert_cmpuint (jump->nth, ==, 1);
  g_assert_cmpstr (jump->name, ==, "Jump start");
  g_assert_cmpint (jump->price_cents, ==, 6500);
  g_assert_cmpint (jump->minutes, ==, 20);
  g_assert_cmpstr (jump->group, ==, "will_not_start");
  g_assert_cmpstr (jump->check, ==, "key_turn");
  g_assert_cmpstr (jump->keyed, ==, "7");
  g_assert_cmpuint (g_strv_length (jump->whys), ==, 3);
  g_assert_cmpstr (jump->whys[2], ==, "battery at its end");
  g_assert_cmpstr (jump->ends[0], ==, "outside_told");
  g_assert_cmpstr (jump->ends[2], ==, "chosen");
  g_assert_nonnull (strstr (jump->caution, "Eye protection"));
  g_assert_cmpstr (wheel->check, ==, "wheel_nuts");
  g_assert_null (wheel->keyed);
}

/* The owner words his own; what is left empty is not offered, and what is wrong is said. */
static void
test_worded (void)
{
  static const struct
  {
    const char *text;
    const char *stored; /* or */
    const char *said;
  } rows[] = {
    { "Bulb; 30; 10", "Bulb; 30; 10", NULL },
    { " Bulb ;30.50; 10 ;;; glass touched = cured ; Let it cool; it is hot",
      "Bulb; 30.50; 10; ; ; glass touched = cured; Let it cool; it is hot", NULL },
    { "", "", NULL },
    { ";30;10", NULL, "starts with its name" },
    { "Bulb", NULL, "The price of “Bulb”" },
    { "Bulb; x; 10", NULL, "The price of “Bulb” is written like 65.00, not “x”" },
    { "Bulb; -1; 10", NULL, "The price of “Bulb”" },
    { "Bulb; 1000000.01; 10", NULL, "The price of “Bulb”" },
    { "Bulb; 30; 0", NULL, "from 1 to 480, not “0”" },
    { "Bulb; 30; 481", NULL, "from 1 to 480, not “481”" },
    { "Bulb; 30; 1.5", NULL, "from 1 to 480" },
    { "Bulb; 30; 10; lamps", NULL, "There is no complaint group “lamps”" },
    { "Bulb; 30; 10; other; lamp_glow", NULL, "there is none called “lamp_glow”" },
    { "Bulb; 30; 10; other; key_turn 9", NULL, "“9” cannot be keyed for" },
    { "Bulb; 30; 10; other; key_turn 7; a / / b", NULL, "One of the reasons of “Bulb” has no words" },
    { "Bulb; 30; 10; other; key_turn 7; worn=gone", NULL, "gone" },
    { "Bulb; 30; 10; ; ; a/b/c/d/e/f/g/h/i", NULL, "more than 8 reasons" },
  };
  g_auto (Ring) ring = ring_start ();

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;
      gboolean taken = hs_settings_set (ring.book, "usual_5", rows[i].text, NOW, &error);
      g_autofree char *stored = taken ? hs_settings_dup (ring.book, "usual_5", NULL) : NULL;

      if (rows[i].said != NULL)
        {
          g_assert_false (taken);
          hs_ops_test_refused (&error, rows[i].said);
          continue;
        }
      g_assert_no_error (error);
      g_assert_cmpstr (stored, ==, rows[i].stored);
    }
}

static void
agree (Ring *ring, guint nth)
{
  GError *error = NULL;

  g_assert_true (hs_usual_agree (ring->book, ring->job, nth, "phone", NOW, &error));
  g_assert_no_error (error);
}

/* Arrived and safe are one step, both or nothing, and one step back. */
static void
test_safe (void)
{
  g_auto (Ring) ring = ring_start ();
  g_autoptr (GError) error = NULL;
  g_autoptr (HsSafetySheet) sheet = NULL;

  agree (&ring, 1);
  g_assert_false (hs_usual_finish_safe (ring.book, ring.job, HS_SAFETY_REFUSED, NULL, NOW, &error));
  hs_ops_test_refused (&error, "Refused because of what?");
  g_assert_false (hs_usual_answer_safe (ring.book, ring.job, "no_such", "done", HS_SAFETY_SAFE, NOW, &error));
  hs_ops_test_refused (&error, "The safety list has no “no_such”");
  hs_ops_test_one (ring.test, "job WHERE stage = 'called_in'");
  g_assert_true (hs_usual_answer_safe (ring.book, ring.job, "traffic", "done", HS_SAFETY_SAFE, NOW, NULL));
  g_assert_true (hs_usual_finish_safe (ring.book, ring.job, HS_SAFETY_MOVED, NULL, NOW, NULL));
  sheet = hs_safety_sheet_load (ring.book, ring.job, NULL);
  g_assert_cmpstr (sheet->note, ==, "moved");
  g_assert_cmpuint (sheet->n_open, ==, 0);
  g_assert_true (hs_undo_last (hs_book_get_store (ring.book), ring.job, NOW, NULL, NULL));
  g_assert_true (hs_undo_last (hs_book_get_store (ring.book), ring.job, NOW, NULL, NULL));
  hs_ops_test_one (ring.test, "job WHERE stage = 'called_in'");
  g_assert_cmpint (hs_ops_test_count (ring.test, "safety"), ==, 0);
}

/* The last answer ends the list, as it was said; what is not so does not. */
static void
test_safe_down_to (void)
{
  g_auto (Ring) ring = ring_start ();
  g_autoptr (HsSafetySheet) barred = NULL;
  g_autoptr (HsSafetySheet) sheet = NULL;

  agree (&ring, 1);
  g_assert_true (hs_usual_answer_safe (ring.book, ring.job, "alone", "down_to", HS_SAFETY_MOVED, NOW, NULL));
  g_assert_true (hs_usual_answer_safe (ring.book, ring.job, "battery_acid", "not_so", HS_SAFETY_MOVED, NOW, NULL));
  g_assert_true (hs_usual_answer_safe (ring.book, ring.job, "fuel", "down_to", HS_SAFETY_MOVED, NOW, NULL));
  barred = hs_safety_sheet_load (ring.book, ring.job, NULL);
  g_assert_cmpuint (barred->n_open, ==, 0);
  g_assert_cmpuint (barred->n_not_so, ==, 1);
  g_assert_null (barred->note);
  g_assert_true (hs_usual_answer_safe (ring.book, ring.job, "battery_acid", "done", HS_SAFETY_MOVED, NOW, NULL));
  sheet = hs_safety_sheet_load (ring.book, ring.job, NULL);
  g_assert_cmpstr (sheet->note, ==, "moved");
}

/* Refused and begun anew: one answer is one answer, what is not so bars it as ever, and the list ends with the last. */
static void
test_safe_after_all (void)
{
  g_auto (Ring) ring = ring_start ();
  g_autoptr (HsSafetySheet) sheet = NULL;
  g_autoptr (HsSafetySheet) barred = NULL;
  g_autoptr (HsSafetySheet) safe = NULL;

  agree (&ring, 1);
  g_assert_true (hs_usual_answer_safe (ring.book, ring.job, "slope", "not_so", HS_SAFETY_SAFE, NOW, NULL));
  g_assert_true (hs_usual_finish_safe (ring.book, ring.job, HS_SAFETY_REFUSED, "lorries", NOW, NULL));
  g_assert_true (hs_usual_answer_safe (ring.book, ring.job, "traffic", "done", HS_SAFETY_SAFE, NOW, NULL));
  hs_ops_test_one (ring.test, "safety WHERE answer = 'done'");
  sheet = hs_safety_sheet_load (ring.book, ring.job, NULL);
  g_assert_cmpstr (sheet->note, ==, "refused because lorries");
  for (guint i = 0; i < sheet->lines->len; i++)
    {
      const HsSafetyLine *line = g_ptr_array_index (sheet->lines, i);

      g_assert_true (line->asked != (g_str_equal (line->id, "traffic") || g_str_equal (line->id, "slope")));
      if (line->asked)
        g_assert_true (hs_usual_answer_safe (ring.book, ring.job, line->id, "done", HS_SAFETY_SAFE, NOW, NULL));
    }
  barred = hs_safety_sheet_load (ring.book, ring.job, NULL);
  g_assert_cmpstr (barred->note, ==, "refused because lorries");
  g_assert_true (hs_usual_answer_safe (ring.book, ring.job, "slope", "done", HS_SAFETY_SAFE, NOW, NULL));
  safe = hs_safety_sheet_load (ring.book, ring.job, NULL);
  g_assert_cmpstr (safe->note, ==, "safe here");
}

/* Everything that a job of any size has is there: go-ahead, arrival, why, reading, invoice, payment. */
static void
test_jump (void)
{
  g_auto (Ring) ring = ring_start ();
  const HsUsualEnd end = { .nth = 1, .why = 0, .keyed = "7", .paid = "card" };
  g_autoptr (GError) error = NULL;

  agree (&ring, 1);
  hs_ops_test_one (ring.test, "go_ahead WHERE ceiling_cents = 6500 AND means = 'phone' AND by_whom = 'Teo Calloway'");
  hs_ops_test_one (ring.test, "job WHERE complaint_group = 'will_not_start' AND guess_seconds = 1200");
  g_assert_true (hs_usual_finish (ring.book, ring.job, &end, NOW + 900, &error));
  g_assert_no_error (error);
  hs_ops_test_one (ring.test, "job WHERE stage = 'squared' AND owed_cents = 0");
  hs_ops_test_one (ring.test, "visit WHERE arrived_at IS NOT NULL");
  hs_ops_test_one (ring.test, "reading WHERE check_id = 'key_turn' AND phase = 'after'");
  hs_ops_test_one (ring.test, "line WHERE kind = 'call_out' AND what = 'Jump start' AND price_cents = 6500");
  g_assert_cmpint (hs_ops_test_count (ring.test, "line"), ==, 1);
  hs_ops_test_one (ring.test, "invoice WHERE total_cents = 6500");
  hs_ops_test_one (ring.test, "payment WHERE how = 'card' AND cents = 6500 AND fee_cents = 186");
  hs_ops_test_one (ring.test, "finding WHERE role = 'complaint' AND what = 'will not start'");
  hs_ops_test_one (ring.test, "finding WHERE what = 'lamp left on' AND ended = 'outside_told' AND told_at IS NOT NULL");
  /* A digit proves nothing. */
  hs_ops_test_one (ring.test, "because WHERE proof_kind = 'said'");
  g_assert_cmpint (hs_ops_test_count (ring.test, "finding WHERE sure = 'proven' AND role = 'cause'"), ==, 0);
}

/* Not proven, with the reason; cause not known, and told; on account. */
static void
test_unproven (void)
{
  g_auto (Ring) ring = ring_start ();
  const HsUsualEnd end = { .nth = 1, .why = -1, .unproven = hs_usual_reasons[0] };
  g_autoptr (GError) error = NULL;

  agree (&ring, 1);
  g_assert_true (hs_usual_finish (ring.book, ring.job, &end, NOW, &error));
  g_assert_no_error (error);
  hs_ops_test_one (ring.test, "job WHERE stage = 'squared' AND owed_cents = 6500"
                              " AND unproved_why = 'the customer had to go'");
  hs_ops_test_one (ring.test, "finding WHERE ended = 'not_known_told' AND sure = 'not_known'");
  g_assert_cmpint (hs_ops_test_count (ring.test, "payment"), ==, 0);
}

/* The whole business apart from the change of no row at all. */
static char *
count_all (Ring *ring)
{
  static const char *const tables[] = { "visit", "reading", "finding", "because", "line", "invoice", "payment",
                                        "go_ahead", "undo_step", "change_log" };
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < G_N_ELEMENTS (tables); i++)
    g_string_append_printf (text, "%s %" G_GINT64_FORMAT "\n", tables[i], hs_ops_test_count (ring->test, tables[i]));
  return g_string_free (text, FALSE);
}

typedef struct
{
  const char *name;
  gboolean agreed;
  HsUsualEnd end;
  const char *said;
} Refusal;

static const Refusal refusals[] = {
  { "no-yes", FALSE, { 1, 0, "7", NULL, "cash" }, "short by 65.00" },
  { "no-proof", TRUE, { 1, 0, NULL, NULL, "cash" }, "There is no reading after the repair" },
  { "bad-reading", TRUE, { 1, 0, "x", NULL, "cash" }, "x" },
  { "no-such-why", TRUE, { 1, 3, "7", NULL, "cash" }, "has no reason 4" },
  { "bad-way-to-pay", TRUE, { 1, 0, "7", NULL, "shells" }, "shells" },
  { "not-worded", TRUE, { 5, 0, "7", NULL, "cash" }, "There is no usual job 5; word it" },
  { "no-such-digit", TRUE, { 10, 0, "7", NULL, "cash" }, "There is no usual job 10" },
};

/* Refused as a whole: nothing half done. */
static void
test_refused (gconstpointer data)
{
  const Refusal *refusal = data;
  g_auto (Ring) ring = ring_start ();
  g_autofree char *before = NULL, *after = NULL;
  g_autoptr (GError) error = NULL;

  if (refusal->agreed)
    agree (&ring, 1);
  before = count_all (&ring);
  g_assert_false (hs_usual_finish (ring.book, ring.job, &refusal->end, NOW, &error));
  hs_ops_test_refused (&error, refusal->said);
  after = count_all (&ring);
  g_assert_cmpstr (before, ==, after);
  hs_ops_test_one (ring.test, "job WHERE stage = 'called_in'");
}

/* A high-voltage vehicle shows its list first, also for a jump start. */
static void
test_high_voltage (void)
{
  g_auto (Ring) ring = ring_start ();
  const HsUsualEnd end = { .nth = 1, .why = 0, .keyed = "7", .paid = "cash" };
  g_autoptr (GError) error = NULL;

  agree (&ring, 1);
  hs_ops_test_run (ring.test, "UPDATE vehicle SET high_voltage = 1");
  g_assert_false (hs_usual_finish (ring.book, ring.job, &end, NOW, &error));
  g_assert_nonnull (error);
  hs_ops_test_one (ring.test, "job WHERE stage = 'called_in'");
}

/* Another open matter of the job stands against it as ever. */
static void
test_open_choice (void)
{
  g_auto (Ring) ring = ring_start ();
  const HsAdviceEntry advice = { .wording = "New battery", .choice = "open", .price_cents = 21101,
                                 .at = HS_INSTANT_NONE, .chase_on = HS_DATE_NONE };
  const HsUsualEnd end = { .nth = 1, .why = 0, .keyed = "7", .paid = "cash" };
  g_autoptr (GError) error = NULL;
  g_autofree char *id = NULL;

  agree (&ring, 1);
  id = hs_advice_add (ring.book, ring.job, &advice, NOW, &error);
  g_assert_no_error (error);
  g_assert_false (hs_usual_finish (ring.book, ring.job, &end, NOW, &error));
  hs_ops_test_refused (&error, "1 recommendation has no answer yet");
  g_assert_cmpint (hs_ops_test_count (ring.test, "invoice"), ==, 0);
}

/* What a job has already is not written over. */
static void
test_keeps (void)
{
  g_auto (Ring) ring = ring_start ();
  g_autoptr (GError) error = NULL;

  hs_ops_test_run (ring.test, "UPDATE job SET guess_seconds = 3600, complaint_group = 'drains'");
  agree (&ring, 1);
  hs_ops_test_one (ring.test, "job WHERE guess_seconds = 3600 AND complaint_group = 'drains'");
  g_assert_false (hs_usual_agree (ring.book, ring.job, 1, "smoke", NOW, &error));
  g_assert_nonnull (error);
  g_assert_cmpint (hs_ops_test_count (ring.test, "go_ahead"), ==, 1);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ops/usual/shipped", test_shipped);
  g_test_add_func ("/ops/usual/worded", test_worded);
  g_test_add_func ("/ops/usual/safe", test_safe);
  g_test_add_func ("/ops/usual/safe-down-to", test_safe_down_to);
  g_test_add_func ("/ops/usual/safe-after-all", test_safe_after_all);
  g_test_add_func ("/ops/usual/jump", test_jump);
  g_test_add_func ("/ops/usual/unproven", test_unproven);
  for (guint i = 0; i < G_N_ELEMENTS (refusals); i++)
    {
      g_autofree char *path = g_strconcat ("/ops/usual/refused/", refusals[i].name, NULL);

      g_test_add_data_func (path, &refusals[i], test_refused);
    }
  g_test_add_func ("/ops/usual/high-voltage", test_high_voltage);
  g_test_add_func ("/ops/usual/open-choice", test_open_choice);
  g_test_add_func ("/ops/usual/keeps", test_keeps);
  return g_test_run ();
}
