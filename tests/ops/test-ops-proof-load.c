// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What stands on a proof sheet: of the demo's past jobs, and of one that could not be proven. */

#include "ops-repair.h"

#include "hs-proof-load.h"
#include "hs-settings-op.h"
#include "ops-demo.h"

#include <string.h>

static const HsTongue english = { gettext, ngettext };

static HsProofSheet *
load (HsBook *book, const char *job_id)
{
  GError *error = NULL;
  HsProofSheet *sheet = hs_proof_sheet_load (book, job_id, &english, NOW, &error);

  g_assert_no_error (error);
  return sheet;
}

/* "name: before [word] → after [word]" */
static char *
say_change (const HsProofChange *change)
{
  return g_strdup_printf ("%s: %s [%s] → %s [%s]", change->name, change->before.text, change->before.word,
                          change->after.text, change->after.word);
}

static void
has_change (const HsProofSheet *sheet, guint nth, const char *said)
{
  g_autofree char *change = say_change (g_ptr_array_index (sheet->changes, nth));

  g_assert_cmpstr (change, ==, said);
}

/* A job of the demo with a choice that was declined: what stands on its sheet, line by line. */
static void
test_declined (void)
{
  HsBook *book = ops_demo_book ();
  g_autofree char *job = hs_job_find (book, "A-0013", NULL);
  g_autoptr (HsProofSheet) sheet = load (book, job);
  const HsProofLine *line;

  g_assert_cmpstr (sheet->number, ==, "A-0013");
  g_assert_cmpstr (sheet->day, ==, "February 3, 2026");
  g_assert_cmpstr (sheet->plate, ==, "TDM 6613");
  g_assert_cmpstr (sheet->complaint, ==, "battery lamp, slow crank");
  g_assert_cmpstr (sheet->tried, ==, "5 of 5");
  g_assert_null (sheet->unproved_why);
  has_change (sheet, 0, "Charging: 12.30 V [not charging] → 14.08 V [within]");
  has_change (sheet, 1, "Battery at rest: 11.95 V [charge and test] → (null) [(null)]");
  g_assert_cmpuint (sheet->why->len, ==, 6);
  g_assert_cmpuint (sheet->declined->len, ==, 1);
  line = g_ptr_array_index (sheet->declined, 0);
  g_assert_cmpstr (line->what, ==, "Water pump, belt and coolant");
  g_assert_cmpstr (line->figure, ==, "520.94");
  g_assert_true (g_str_has_prefix (g_ptr_array_index (line->more, 0), "New belt will be wetted again"));
  g_assert_cmpstr (g_ptr_array_index (line->more, 1), ==, "no: Bram Hark, signed on screen, February 3, 2026");
  line = g_ptr_array_index (sheet->parts, 0);
  g_assert_cmpstr (line->what, ==, "drive belt");
  g_assert_cmpstr (g_ptr_array_index (line->more, 0), ==, "the old one failed: drive belt glazed and wet");
  g_assert_cmpstr (g_ptr_array_index (line->more, 1), ==, "Covered to February 3, 2027.");
  g_assert_cmpuint (sheet->open->len, ==, 1);
  g_assert_cmpstr (g_ptr_array_index (sheet->open, 0), ==,
                   "Not read again after the repair: Cooling pressure lost, 0.3 bar.");
  g_assert_true (hs_proof_sheet_is_good (sheet));
}

/* What was read in a place, by whom the limit is, and what could not be read. */
static char *
say_other (const char *text)
{
  static const char *const words[][2] = {
    { "Charging", "Carga" },
    { "not charging", "no carga" },
    { "verdict\004within", "dentro" },
    { "The reason for “{effect}”: {cause}{proof}", "El motivo de «{effect}»: {cause}{proof}" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (words); i++)
    if (g_str_equal (words[i][0], text))
      return (char *) words[i][1];
  return (char *) text;
}

static char *
say_other_number (const char *one, const char *many, gulong n)
{
  return (char *) (n == 1 ? one : many);
}

/* The sheet is in the language that asks for it: checks, verdicts and why it failed; the customer's words stay. */
static void
test_other_tongue (void)
{
  static const HsTongue other = { say_other, say_other_number };
  HsBook *book = ops_demo_book ();
  g_autofree char *job = hs_job_find (book, "A-0013", NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (HsProofSheet) sheet = hs_proof_sheet_load (book, job, &other, NOW, &error);

  g_assert_no_error (error);
  has_change (sheet, 0, "Carga: 12.30 V [no carga] → 14.08 V [dentro]");
  g_assert_true (g_str_has_prefix (g_ptr_array_index (sheet->why, 0), "El motivo de «"));
  g_assert_cmpstr (sheet->complaint, ==, "battery lamp, slow crank");
}

static void
test_unproved (void)
{
  g_auto (Bay) bay = bay_start ();
  const HsReadingEntry none = { .check = "drop_feed", .keyed = "*", .phase = "after", .place = "relay feed",
                                .why_not = "drove off", .at = NOW };
  const HsInstallEntry entry = { .what = "relay", .place = "fuse box", .maker = "Coldpost", .serial = "9-1",
                                 .why = "not_known", .warranty_months = 12, .looks = TRUE };
  g_autoptr (HsReadingResult) result = NULL;
  g_autofree char *part = bay_fit (&bay, &entry);
  g_autofree char *look = NULL;
  g_autoptr (HsProofSheet) sheet = NULL;
  const HsProofChange *change;
  const HsProofLine *line;

  g_assert_true (hs_settings_set (bay.book, "business_name", "Tannery Row Repairs", NOW, NULL));
  g_assert_true (hs_job_leave (bay.book, bay.job, 63000, NOW, NULL));
  g_assert_true (hs_job_set_safe (bay.book, bay.job, "no", NOW, NULL));
  bay_read (&bay, "drop_feed", "2.60", "before", "relay feed");
  result = hs_reading_add (bay.book, bay.job, &none, NOW, NULL);
  look = hs_ops_test_id (bay.test, "SELECT id FROM disturbed ORDER BY seq LIMIT 1");
  g_assert_true (hs_disturbed_tick (bay.book, look, TRUE, "clicks", NOW, NULL));
  g_assert_true (hs_job_move_stage (bay.book, bay.job, HS_STAGE_PROVEN, "The customer had to drive off.", NOW, NULL));
  sheet = load (bay.book, bay.job);
  g_assert_cmpstr (sheet->business, ==, "Tannery Row Repairs");
  g_assert_cmpstr (sheet->owner, ==, "Teo Calloway");
  g_assert_cmpstr (sheet->paper_size, ==, "letter");
  g_assert_cmpstr (sheet->odometer, ==, "63000 miles");
  g_assert_cmpstr (sheet->safe, ==, "no");
  g_assert_cmpstr (sheet->unproved_why, ==, "The customer had to drive off.");
  has_change (sheet, 0, "Feed side drop: 2.60 V [outside] → not measured: drove off [(null)]");
  change = g_ptr_array_index (sheet->changes, 0);
  g_assert_cmpstr (change->place, ==, "relay feed");
  g_assert_cmpstr (change->limit, ==, "0.50 V or less");
  g_assert_nonnull (strstr (change->source, "TM 5-3820-256-24-4"));
  g_assert_cmpint (change->after.verdict, ==, HS_VERDICT_CANNOT_TELL);
  line = g_ptr_array_index (sheet->parts, 0);
  g_assert_cmpstr (line->what, ==, "relay, Coldpost, fuse box");
  g_assert_cmpstr (g_ptr_array_index (line->more, 0), ==, "Serial number 9-1");
  g_assert_cmpuint (sheet->looked_after->len, ==, 1);
  g_assert_nonnull (strstr (g_ptr_array_index (sheet->looked_after, 0), "pressed fully home"));
  g_assert_true (g_str_has_suffix (g_ptr_array_index (sheet->looked_after, 0), ": clicks"));
  g_assert_cmpstr (g_ptr_array_index (sheet->open, 0), ==, "The complaint was not tried again.");
  g_assert_false (hs_proof_sheet_is_good (sheet));
  g_assert_nonnull (part);
}

/* Each check stands once: the last before beside the last after, what was read in two places twice, what was read only
 * after alone. */
static void
test_changes (void)
{
  static const struct
  {
    const char *check;
    const char *text;
    const char *phase;
    const char *place;
  } taken[] = {
    { "charging", "12.10", "before", NULL },
    { "charging", "12.30", "before", NULL },
    { "drop_feed", "2.60", "before", "relay feed" },
    { "drop_feed", "0.10", "before", "lamp feed" },
    { "belt", "glazed or cracked", "before", NULL },
    { "battery_rest", "12.65", "before", NULL },
    { "charging", "12.00", "during", NULL },
    { "drop_feed", "0.02", "after", "relay feed" },
    { "charging", "13.00", "after", NULL },
    { "charging", "14.10", "after", NULL },
    { "belt", "sound", "after", NULL },
    { "starts_good", "5 of 5", "after", NULL },
  };
  static const struct
  {
    const char *name;
    const char *place;
    const char *before;
    HsVerdict before_verdict;
    const char *after;
    HsVerdict after_verdict;
  } rows[] = {
    { "Charging", NULL, "12.30 V", HS_VERDICT_OUTSIDE, "14.10 V", HS_VERDICT_WITHIN },
    { "Feed side drop", "relay feed", "2.60 V", HS_VERDICT_OUTSIDE, "0.02 V", HS_VERDICT_WITHIN },
    { "Feed side drop", "lamp feed", "0.10 V", HS_VERDICT_WITHIN, NULL, HS_VERDICT_WITHIN },
    { "Belt", NULL, "glazed or cracked", HS_VERDICT_WATCH, "sound", HS_VERDICT_WITHIN },
    { "Battery at rest", NULL, "12.65 V", HS_VERDICT_CANNOT_TELL, NULL, HS_VERDICT_WITHIN },
    { "Good starts", NULL, NULL, HS_VERDICT_WITHIN, "5 of 5", HS_VERDICT_WITHIN },
  };
  g_auto (Bay) bay = bay_start ();
  g_autoptr (HsProofSheet) sheet = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (taken); i++)
    bay_read (&bay, taken[i].check, taken[i].text, taken[i].phase, taken[i].place);
  sheet = load (bay.book, bay.job);
  g_assert_cmpuint (sheet->changes->len, ==, G_N_ELEMENTS (rows));
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const HsProofChange *change = g_ptr_array_index (sheet->changes, i);

      g_assert_cmpstr (change->name, ==, rows[i].name);
      g_assert_cmpstr (change->place, ==, rows[i].place);
      g_assert_cmpstr (change->before.text, ==, rows[i].before);
      g_assert_cmpint (change->before.verdict, ==, rows[i].before_verdict);
      g_assert_cmpstr (change->after.text, ==, rows[i].after);
      g_assert_cmpint (change->after.verdict, ==, rows[i].after_verdict);
    }
}

/* A part says what there is to say of it, and no more. */
static void
test_parts (void)
{
  static const struct
  {
    HsInstallEntry entry;
    const char *what;
    const char *more;
  } rows[] = {
    { { .what = "relay", .why = "due" }, "relay", "the old one was due|No cover was agreed." },
    { { .what = "relay", .why = "due", .place = "fuse box" }, "relay, fuse box",
      "the old one was due|No cover was agreed." },
    { { .what = "relay", .why = "none_before", .warranty_months = 12 }, "relay",
      "there was none before|Covered to March 10, 2027." },
    { { .what = "relay", .why = "not_known", .serial = "9-1" }, "relay",
      "Serial number 9-1|not known, told|No cover was agreed." },
    { { .what = "battery 55 Ah", .why = "due", .date_stamp = "C5", .maker = "Brackwater" },
      "battery 55 Ah, Brackwater, under the hood",
      "date code C5 (March 2025)|the old one was due|No cover was agreed." },
    { { .what = "battery 55 Ah", .why = "due", .date_stamp = "??", .serial = "1" }, "battery 55 Ah, under the hood",
      "Serial number 1 · date code ??|the old one was due|No cover was agreed." },
    { { .what = "relay" }, "relay", "No cover was agreed." },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (Bay) bay = bay_start ();
      g_autofree char *id = bay_fit (&bay, &rows[i].entry);
      g_autoptr (HsProofSheet) sheet = load (bay.book, bay.job);
      const HsProofLine *line = g_ptr_array_index (sheet->parts, 0);
      g_autofree char *more = NULL;

      g_assert_nonnull (id);
      g_assert_cmpstr (line->what, ==, rows[i].what);
      g_ptr_array_add (line->more, NULL);
      more = g_strjoinv ("|", (char **) line->more->pdata);
      g_ptr_array_set_size (line->more, (int) line->more->len - 1);
      g_assert_cmpstr (more, ==, rows[i].more);
      g_assert_null (line->figure);
    }
}

/* What the customer said no or later to stands on it with its risk; what was picked or is open does not. */
static void
test_choices (void)
{
  static const struct
  {
    HsAdviceEntry entry;
    const char *more;
  } rows[] = {
    { { .wording = "Pump", .choice = "no", .by = "Teo", .means = "phone", .risk = "May leak", .price_cents = 52094,
        .at = NOW, .chase_on = HS_DATE_NONE }, "May leak|no: Teo, phone, March 10, 2026" },
    { { .wording = "Hose", .choice = "later", .by = "Teo", .means = "in_person", .risk = "Soft", .price_cents = 4650,
        .at = NOW, .chase_on = HS_DATE_NONE }, "Soft|later: Teo, in person, March 10, 2026" },
    { { .wording = "Belt", .choice = "open", .price_cents = 100, .at = HS_INSTANT_NONE, .chase_on = HS_DATE_NONE },
      NULL },
  };
  g_auto (Bay) bay = bay_start ();
  g_autoptr (HsProofSheet) sheet = NULL;
  guint n = 0;

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *id = hs_advice_add (bay.book, bay.job, &rows[i].entry, NOW, NULL);

      g_assert_nonnull (id);
    }
  sheet = load (bay.book, bay.job);
  g_assert_cmpuint (sheet->declined->len, ==, 2);
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    if (rows[i].more != NULL)
      {
        const HsProofLine *line = g_ptr_array_index (sheet->declined, n++);
        g_auto (GStrv) more = g_strsplit (rows[i].more, "|", -1);

        g_assert_cmpstr (line->what, ==, rows[i].entry.wording);
        g_assert_cmpuint (line->more->len, ==, g_strv_length (more));
        for (guint j = 0; more[j] != NULL; j++)
          g_assert_cmpstr (g_ptr_array_index (line->more, j), ==, more[j]);
      }
  g_assert_cmpstr (((HsProofLine *) g_ptr_array_index (sheet->declined, 0))->figure, ==, "520.94");
  g_assert_cmpstr (((HsProofLine *) g_ptr_array_index (sheet->declined, 1))->figure, ==, "46.50");
}

/* Every past job of the demo has its sheet, tested good and with nothing that it would not say aloud. */
static void
test_all (void)
{
  HsBook *book = ops_demo_book ();

  for (guint i = 1; i <= 20; i++)
    {
      g_autofree char *number = g_strdup_printf ("A-%04u", i);
      g_autofree char *job = hs_job_find (book, number, NULL);
      g_autoptr (HsProofSheet) sheet = load (book, job);

      g_assert_cmpstr (sheet->number, ==, number);
      g_assert_cmpuint (sheet->changes->len, >, 0);
      g_assert_cmpstr (sheet->business, ==, "");
      g_assert_true (hs_proof_sheet_is_good (sheet));
    }
}

static void
test_refused (void)
{
  g_auto (Bay) bay = bay_start ();
  g_autoptr (GError) error = NULL;

  g_assert_null (hs_proof_sheet_load (bay.book, "nothing", &english, NOW, &error));
  g_assert_nonnull (error);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/proof-load/declined", test_declined);
  g_test_add_func ("/proof-load/other-tongue", test_other_tongue);
  g_test_add_func ("/proof-load/unproved", test_unproved);
  g_test_add_func ("/proof-load/changes", test_changes);
  g_test_add_func ("/proof-load/parts", test_parts);
  g_test_add_func ("/proof-load/choices", test_choices);
  g_test_add_func ("/proof-load/all", test_all);
  g_test_add_func ("/proof-load/refused", test_refused);
  return ops_demo_run ();
}
