// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Every operation on one job is a step with words of its own, and taking it back leaves the business as it was. */

#include "hs-call-name.h"
#include "hs-chain-op.h"
#include "hs-choice-op.h"
#include "hs-desk-op.h"
#include "hs-finding-row.h"
#include "hs-interview-op.h"
#include "hs-job-life.h"
#include "hs-job-op.h"
#include "hs-ops-test.h"
#include "hs-own-limit.h"
#include "hs-photo-op.h"
#include "hs-safety-op.h"
#include "hs-undo.h"
#include "hs-usual.h"
#include "photo-test.h"

#include <sqlite3.h>
#include <string.h>

#define NOW HS_OPS_TEST_NOW

typedef struct
{
  HsOpsTest *test;
  HsBook *book;
  char *job;
  char *vehicle;
  char *findings[3];
  char *reading;
  char *choice;
  char *link;
  char *photo;
} Site;

static Site
site_start (void)
{
  Site site = { .test = hs_ops_test_open () };

  hs_ops_test_fill (site.test);
  hs_ops_test_import_ok (site.test, "stock", "van,part,quantity\nA,BW-55,1\n", 1, 0, 0);
  hs_ops_test_import_ok (site.test, "jobs",
                         "number,customer_phone,words,plate,day\nA-0001,555-0115,hums,TDM 5508,2026-03-10\n", 1, 0, 0);
  site.book = site.test->book;
  site.job = hs_job_find (site.book, "A-0001", NULL);
  site.vehicle = hs_ops_test_id (site.test, "SELECT vehicle_id FROM job");
  return site;
}

static void
site_clear (Site *site)
{
  hs_ops_test_close (site->test);
  g_free (site->job);
  g_free (site->vehicle);
  g_free (site->findings[0]);
  g_free (site->findings[1]);
  g_free (site->findings[2]);
  g_free (site->reading);
  g_free (site->choice);
  g_free (site->link);
  g_free (site->photo);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Site, site_clear)

/* The business as text -------------------------------------------------------------------------------------------- */

static int
add_line (gpointer lines, int n_columns, char **values, char **names)
{
  for (int i = 0; i < n_columns; i++)
    if (!g_str_equal (names[i], "rev") && !g_str_equal (names[i], "changed_at"))
      g_string_append_printf (lines, "%s|", values[i] != NULL ? values[i] : "-");
  g_string_append_c (lines, '\n');
  return 0;
}

static int
add_name (gpointer names, int n_columns, char **values, char **column_names)
{
  g_ptr_array_add (names, g_strdup (values[0]));
  return 0;
}

/* Without the program's own tables and the bytes of photos, which stay as long as a step may bring them back; the
 * revision of a job only counts on. */
static char *
business (Site *site)
{
  g_autoptr (GPtrArray) tables = g_ptr_array_new_with_free_func (g_free);
  GString *lines = g_string_new (NULL);
  sqlite3 *db = NULL;

  g_assert_cmpint (sqlite3_open_v2 (site->test->path, &db, SQLITE_OPEN_READONLY, NULL), ==, SQLITE_OK);
  g_assert_cmpint (sqlite3_exec (db, "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'search%'"
                                     " AND name NOT LIKE 'sqlite_%' AND name NOT IN ('change_log', 'session',"
                                     " 'undo_step', 'photo_file', 'photo_chunk') ORDER BY name",
                                 add_name, tables, NULL), ==, SQLITE_OK);
  for (guint i = 0; i < tables->len; i++)
    {
      g_autofree char *sql = g_strdup_printf ("SELECT '%s', * FROM %s ORDER BY seq", (char *) tables->pdata[i],
                                              (char *) tables->pdata[i]);

      g_assert_cmpint (sqlite3_exec (db, sql, add_line, lines, NULL), ==, SQLITE_OK);
    }
  sqlite3_close (db);
  return g_string_free (lines, FALSE);
}

/* Operations ------------------------------------------------------------------------------------------------------ */

static gboolean
roll (Site *site, GError **error)
{
  return hs_job_move_stage (site->book, site->job, HS_STAGE_ROLLING, NULL, NOW, error);
}

static gboolean
arrive (Site *site, GError **error)
{
  return hs_job_move_stage (site->book, site->job, HS_STAGE_ON_SITE, NULL, NOW + 600, error);
}

/* What a usual job does at the kerb; the list answers only what was asked. */
static gboolean
make_safe (Site *site, GError **error)
{
  return hs_usual_finish_safe (site->book, site->job, HS_SAFETY_SAFE, NULL, NOW + 300, error);
}

static gboolean
pass_safety (Site *site, GError **error)
{
  return hs_safety_pass (site->book, site->job, NOW + 910, error);
}

static gboolean
say_not_so (Site *site, GError **error)
{
  return hs_safety_answer (site->book, site->job, "slope", "not_so", NULL, NOW + 911, error);
}

static gboolean
say_down_to (Site *site, GError **error)
{
  return hs_safety_answer_down_to (site->book, site->job, "alone", NOW + 912, error);
}

static gboolean
roll_on (Site *site, GError **error)
{
  return hs_job_move_stage (site->book, site->job, HS_STAGE_ROLLING, NULL, NOW + 400, error);
}

static gboolean
take_name (Site *site, GError **error)
{
  return hs_call_name_take (site->book, site->job, NOW + 20, error);
}

static gboolean
wait_for_part (Site *site, GError **error)
{
  return hs_job_move_stage (site->book, site->job, HS_STAGE_WAITING_PART, NULL, NOW + 1900, error);
}

static gboolean
drive (Site *site, GError **error)
{
  return hs_visit_drive (site->book, site->job, 540, 3100, NOW + 600, error);
}

static gboolean
pause_clock (Site *site, GError **error)
{
  return hs_visit_pause (site->book, site->job, NOW + 700, error);
}

static gboolean
resume_clock (Site *site, GError **error)
{
  return hs_visit_resume (site->book, site->job, NOW + 800, error);
}

/* The machine's clock stands before the arrival. */
static gboolean
set_minutes (Site *site, GError **error)
{
  return hs_visit_set_minutes (site->book, site->job, 50, NOW - 7200, error);
}

static gboolean
rewrite_slip (Site *site, GError **error)
{
  const HsCallSlip slip = { .job_id = site->job, .phone = "555-0115", .name = "Mara Calloway",
                            .words = "hums and clicks", .plate = "TDM 5508", .day = HS_DATE_NONE, .window_from = -1,
                            .window_to = -1, .street = "2 Hill Road" };
  g_autofree char *id = hs_call_take (site->book, &slip, NOW, error);

  return id != NULL;
}

static gboolean
choose_group (Site *site, GError **error)
{
  return hs_job_set_group (site->book, site->job, "will_not_start", NOW, error);
}

static gboolean
ask (Site *site, GError **error)
{
  return hs_asked_add (site->book, site->job, "Turn the key?", "nothing", NOW, error);
}

static gboolean
ask_again (Site *site, GError **error)
{
  return hs_asked_add (site->book, site->job, "Turn the key?", "one click", NOW, error);
}

static gboolean
answer_question (Site *site, GError **error)
{
  return hs_answer_add (site->book, site->job, "key_turn", "3", "Bram", NOW, error);
}

static gboolean
ensure_complaint (Site *site, GError **error)
{
  g_autofree char *id = hs_complaint_ensure (site->book, site->job, NOW, error);

  return id != NULL;
}

static gboolean
read_odometer (Site *site, GError **error)
{
  return hs_odometer_add (site->book, site->vehicle, site->job, 20522, 81400, NULL, NOW, error);
}

static gboolean
measure (Site *site, GError **error)
{
  const HsReadingEntry entry = { .check = "battery_rest", .keyed = "1242", .phase = "before", .at = NOW };
  g_autoptr (HsReadingResult) result = hs_reading_add (site->book, site->job, &entry, NOW, error);

  if (result == NULL)
    return FALSE;
  g_free (site->reading);
  site->reading = g_strdup (result->id);
  return TRUE;
}

static gboolean
tell_kind (Site *site, GError **error)
{
  return hs_reading_tell (site->book, site->reading, "battery_kind", "flooded", NOW, error);
}

static gboolean
unmeasure (Site *site, GError **error)
{
  return hs_reading_remove (site->book, site->reading, NOW, error);
}

static gboolean
find (Site *site, guint i, const char *what, const char *role, GError **error)
{
  const HsFindingEntry entry = { .what = what, .role = role };

  g_free (site->findings[i]);
  site->findings[i] = hs_finding_add (site->book, site->job, &entry, NOW, error);
  return site->findings[i] != NULL;
}

static gboolean
find_effect (Site *site, GError **error)
{
  return find (site, 0, "hums", "complaint", error);
}

static gboolean
find_cause (Site *site, GError **error)
{
  return find (site, 1, "battery worn", "cause", error);
}

static gboolean
link_both (Site *site, GError **error)
{
  const HsBecauseEntry entry = { .proof = "12.42 V", .kind = "seen" };

  g_free (site->link);
  site->link = hs_because_add (site->book, site->findings[0], site->findings[1], &entry, NOW, error);
  return site->link != NULL;
}

static gboolean
call_proven (Site *site, GError **error)
{
  return hs_finding_call (site->book, site->findings[1], "proven", NOW, error);
}

static gboolean
call_suspected (Site *site, GError **error)
{
  return hs_finding_call (site->book, site->findings[1], "suspected", NOW, error);
}

static gboolean
settle_cause (Site *site, GError **error)
{
  return hs_finding_settle (site->book, site->findings[1], "cured", NOW, error);
}

static gboolean
open_cause (Site *site, GError **error)
{
  return hs_finding_settle (site->book, site->findings[1], NULL, NOW, error);
}

static gboolean
unlink_both (Site *site, GError **error)
{
  return hs_because_remove (site->book, site->link, NOW, error);
}

static gboolean
reword_cause (Site *site, GError **error)
{
  return hs_finding_reword (site->book, site->findings[1], "battery worn out", "under hood", NOW, error);
}

static gboolean
extend_chain (Site *site, GError **error)
{
  const HsFindingEntry cause = { .what = "lamp left on" };
  const HsBecauseEntry link = { .proof = "switch was on", .kind = "seen" };
  g_autofree char *id = hs_chain_extend (site->book, site->job, site->findings[1], &cause, &link, NOW, error);

  return id != NULL;
}

static gboolean
take_back (Site *site, GError **error)
{
  g_autoptr (HsJobChain) chain = hs_job_chain_load (site->book, site->job, error);
  guint last = hs_chain_get_n_links (chain->chain) - 1;

  return hs_chain_take_back (site->book, hs_chain_get_link (chain->chain, last)->id, NOW, error);
}

static gboolean
join_both (Site *site, GError **error)
{
  const HsBecauseEntry link = { .proof = "it hums", .kind = "seen" };
  g_autofree char *id = hs_chain_join (site->book, site->job, NULL, site->findings[2], &link, NOW, error);

  return id != NULL;
}

static gboolean
find_another (Site *site, GError **error)
{
  return find (site, 2, "tire bald", "seen", error);
}

static gboolean
unfind_another (Site *site, GError **error)
{
  return hs_finding_remove (site->book, site->findings[2], NOW, error);
}

static gboolean
advise (Site *site, GError **error)
{
  const HsAdviceLineEntry line = { .kind = "part", .what = "Battery 55 Ah", .price_cents = 19538, .tax_cents = 1563 };
  const HsAdviceEntry entry = { .wording = "New battery", .choice = "open", .at = HS_INSTANT_NONE,
                                .chase_on = HS_DATE_NONE, .lines = &line, .n_lines = 1 };
  g_autofree char *id = hs_advice_add (site->book, site->job, &entry, NOW, error);

  return id != NULL;
}

static gboolean
offer (Site *site, GError **error)
{
  const HsChoiceLineEntry line = { .minutes = 30, .cost_cents = HS_INT_NONE, .price_cents = HS_INT_NONE };

  g_free (site->choice);
  site->choice = hs_choice_add (site->book, site->job, &(HsChoiceEntry) { .wording = "Belt", .risk = "squeals" }, &line,
                                1, NOW, error);
  return site->choice != NULL;
}

static gboolean
reword_offer (Site *site, GError **error)
{
  return hs_choice_change (site->book, site->choice, &(HsChoiceEntry) { .wording = "New belt" }, NOW, error);
}

static gboolean
offer_part (Site *site, GError **error)
{
  const HsChoiceLineEntry line = { .part_number = "GP-20D", .cost_cents = 2400, .price_cents = HS_INT_NONE };
  g_autofree char *id = hs_choice_line_add (site->book, site->choice, &line, NOW, error);

  return id != NULL;
}

static gboolean
decide (Site *site, const char *choice, GError **error)
{
  HsChoiceAnswer answer = HS_CHOICE_ANSWER_NONE;

  answer.choice = choice;
  answer.by = "Teo";
  answer.means = "phone";
  return hs_choice_decide (site->book, site->choice, &answer, NOW, error);
}

static gboolean
put_off (Site *site, GError **error)
{
  return decide (site, "later", error);
}

static gboolean
pick (Site *site, GError **error)
{
  return decide (site, "yes", error);
}

static gboolean
pick_nothing (Site *site, GError **error)
{
  return decide (site, "open", error);
}

static gboolean
withdraw (Site *site, GError **error)
{
  return hs_choice_remove (site->book, site->choice, NOW, error);
}

static gboolean
install (Site *site, GError **error)
{
  const HsInstallEntry entry = { .what = "Battery 55 Ah", .part_number = "BW-55", .place = "under hood",
                                 .battery_kind = "flooded", .ah = 55, .cost_cents = 6200, .from_van = TRUE,
                                 .why_finding_id = site->findings[1] };
  g_autofree char *id = hs_part_install (site->book, site->job, &entry, NOW, error);

  return id != NULL;
}

static gboolean
price (Site *site, GError **error)
{
  return hs_job_price (site->book, site->job, NULL, NOW + 1800, error);
}

static gboolean
hand_over (Site *site, GError **error)
{
  g_autofree char *other = hs_ops_test_id (site->test, "SELECT id FROM customer WHERE id <>"
                                                       " (SELECT customer_id FROM job) LIMIT 1");

  return hs_owner_change (site->book, site->vehicle, other, 20522, NOW, error);
}

static gboolean
limit (Site *site, GError **error)
{
  const HsOwnLimitEntry entry = { .vehicle_id = site->vehicle, .check = "charging", .high = "15.2",
                                  .source = "measured when new" };

  return hs_own_limit_set (site->book, &entry, NOW, error);
}

static gboolean
clear_limit (Site *site, GError **error)
{
  return hs_own_limit_clear (site->book, site->vehicle, "charging", FALSE, NOW, error);
}

static gboolean
add_photo (Site *site, GError **error)
{
  g_autoptr (GBytes) data = photo_jpeg (NULL, 40, 30, 0);
  g_autoptr (HsPhotoIntake) intake = hs_photo_intake_take ("IMG_1.jpg", data, FALSE, NULL);

  g_free (site->photo);
  site->photo = hs_photo_add (site->book, site->job, intake, NULL, NOW, NULL, error);
  return site->photo != NULL;
}

static gboolean
bind_photo (Site *site, GError **error)
{
  return hs_photo_bind (site->book, site->photo, site->findings[1], NOW, error);
}

static gboolean
move_photo (Site *site, GError **error)
{
  return hs_photo_set_phase (site->book, site->photo, "after", NOW, error);
}

static gboolean
reword_photo (Site *site, GError **error)
{
  return hs_photo_reword (site->book, site->photo, "the clamp", NOW, error);
}

static gboolean
remove_photo (Site *site, GError **error)
{
  return hs_photo_remove (site->book, site->photo, NOW, error);
}

/* In the order of a visit; each is taken back from where the later ones are taken back already. */
static const struct
{
  gboolean (*act) (Site *site, GError **error);
  const char *what;
} deeds[] = {
  { rewrite_slip, "call slip" },
  { take_name, "customer renamed" },
  { roll, "stage: Rolling" },
  { make_safe, "safety: at the vehicle" },
  { roll_on, "stage: Rolling" },
  { arrive, "stage: At the vehicle" },
  { pass_safety, "safety: not gone through" },
  { say_not_so, "safety: Level, chocked" },
  { say_down_to, "safety: Alone, dark, dogs" },
  { drive, "drive" },
  { choose_group, "complaint group: Will not start" },
  { ask, "answer: Turn the key?" },
  { ask_again, "answer: Turn the key?" },
  { answer_question, "answer: Turn the key: what happens?" },
  { ensure_complaint, "complaint" },
  { read_odometer, "odometer: 81400" },
  { pause_clock, "labor clock stopped" },
  { resume_clock, "labor clock started" },
  { set_minutes, "minutes at the vehicle: 50" },
  { measure, "reading: Battery at rest, 12.42 V" },
  { tell_kind, "reading: Battery at rest, Kind of battery: flooded" },
  { unmeasure, "reading removed: Battery at rest" },
  { measure, "reading: Battery at rest, 12.42 V" },
  { find_effect, "finding: hums" },
  { find_cause, "finding: battery worn" },
  { link_both, "why: 12.42 V" },
  { unlink_both, "link removed: 12.42 V" },
  { link_both, "why: 12.42 V" },
  { call_proven, "sure: battery worn" },
  { call_suspected, "sure: battery worn" },
  { reword_cause, "finding reworded: battery worn" },
  { settle_cause, "settled: battery worn out" },
  { open_cause, "settled: battery worn out" },
  { extend_chain, "why: lamp left on" },
  { take_back, "taken back: lamp left on" },
  { extend_chain, "why: lamp left on" },
  { add_photo, "photo: IMG_1.jpg" },
  { bind_photo, "what a photo shows: IMG_1.jpg" },
  { move_photo, "phase of a photo: IMG_1.jpg" },
  { reword_photo, "words of a photo: IMG_1.jpg" },
  { remove_photo, "photo removed: the clamp" },
  { find_another, "finding: tire bald" },
  { join_both, "why: tire bald" },
  { take_back, "taken back: tire bald" },
  { unfind_another, "finding removed: tire bald" },
  { advise, "choice: New battery" },
  { offer, "choice: Belt" },
  { reword_offer, "choice changed: New belt" },
  { offer_part, "choice “New belt”: glow plug" },
  { put_off, "New belt: later" },
  { pick, "New belt: yes" },
  { pick_nothing, "New belt: no answer yet" },
  { withdraw, "choice removed: New belt" },
  { offer, "choice: Belt" },
  { pick, "Belt: yes" },
  { install, "installed: Battery 55 Ah" },
  { price, "priced" },
  { limit, "own limit: Charging" },
  { clear_limit, "own limit removed: Charging" },
  { hand_over, "owner" },
  { wait_for_part, "stage: Needs a part" },
};

static void
act_all (Site *site, GPtrArray *dumps)
{
  for (guint i = 0; i < G_N_ELEMENTS (deeds); i++)
    {
      GError *error = NULL;

      g_ptr_array_add (dumps, business (site));
      if (!deeds[i].act (site, &error))
        g_error ("%s: %s", deeds[i].what, error->message);
      g_assert_no_error (error);
    }
  g_ptr_array_add (dumps, business (site));
}

static void
assert_business (Site *site, GPtrArray *dumps, guint i)
{
  g_autofree char *now = business (site);

  g_assert_cmpstr (now, ==, dumps->pdata[i]);
}

static void
test_all (void)
{
  g_auto (Site) site = site_start ();
  HsStore *store = hs_book_get_store (site.book);
  g_autoptr (GPtrArray) dumps = g_ptr_array_new_with_free_func (g_free);
  GError *error = NULL;

  act_all (&site, dumps);
  for (guint i = G_N_ELEMENTS (deeds); i > 0; i--)
    {
      g_autoptr (HsUndoStep) step = NULL;

      g_assert_true (hs_undo_last (store, site.job, NOW + 2000, &step, &error));
      g_assert_no_error (error);
      g_assert_cmpstr (step->what, ==, deeds[i - 1].what);
      assert_business (&site, dumps, i - 1);
    }
  for (guint i = 0; i < G_N_ELEMENTS (deeds); i++)
    {
      g_autoptr (HsUndoStep) step = NULL;

      g_assert_true (hs_undo_again (store, site.job, NOW + 2100, &step, &error));
      g_assert_no_error (error);
      g_assert_cmpstr (step->what, ==, deeds[i].what);
      assert_business (&site, dumps, i + 1);
    }
}

/* What was refused is no step. */
static void
test_refused (void)
{
  g_auto (Site) site = site_start ();
  g_autoptr (GPtrArray) steps = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_false (hs_job_move_stage (site.book, site.job, HS_STAGE_PROVEN, NULL, NOW, &error));
  g_clear_error (&error);
  g_assert_false (hs_visit_pause (site.book, site.job, NOW, &error));
  g_clear_error (&error);
  g_assert_true (hs_undo_list (hs_book_get_store (site.book), site.job, &steps, &error));
  g_assert_cmpuint (steps->len, ==, 0);
}

/* A go-ahead is added, never altered; so it is no step. */
static void
test_go_ahead (void)
{
  g_auto (Site) site = site_start ();
  g_autoptr (GPtrArray) steps = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_true (choose_group (&site, &error));
  g_assert_true (hs_go_ahead_add (site.book, site.job, 22000, "Bram", "phone", NOW, &error));
  g_assert_true (hs_undo_list (hs_book_get_store (site.book), site.job, &steps, &error));
  g_assert_cmpuint (steps->len, ==, 1);
  g_assert_true (hs_undo_last (hs_book_get_store (site.book), site.job, NOW, NULL, &error));
  g_assert_no_error (error);
  hs_ops_test_one (site.test, "go_ahead WHERE ceiling_cents = 22000");
  hs_ops_test_one (site.test, "job WHERE complaint_group IS NULL");
}

/* What is done on a vehicle is a step of its latest job while that is open, and none afterwards. */
static void
test_vehicle (void)
{
  g_auto (Site) site = site_start ();
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_job_move_stage (site.book, site.job, HS_STAGE_CALLED_OFF, "rang off", NOW, &error));
  g_assert_cmpint (hs_ops_test_count (site.test, "undo_step"), ==, 1);
  g_assert_true (limit (&site, &error));
  g_assert_no_error (error);
  g_assert_cmpint (hs_ops_test_count (site.test, "undo_step"), ==, 1);
}

/* Squared up: no steps are left, and nothing is taken back. */
static void
test_squared (void)
{
  g_auto (Site) site = site_start ();
  g_autoptr (GPtrArray) dumps = g_ptr_array_new_with_free_func (g_free);
  const HsReadingEntry after = { .check = "battery_rest", .keyed = "1260", .phase = "after", .at = NOW + 1700 };
  g_autoptr (HsReadingResult) result = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_true (roll (&site, &error) && arrive (&site, &error) && price (&site, &error));
  result = hs_reading_add (site.book, site.job, &after, NOW + 1700, &error);
  g_assert_nonnull (result);
  g_assert_true (hs_go_ahead_add (site.book, site.job, 100000, "Bram", "phone", NOW, &error));
  g_assert_true (hs_job_move_stage (site.book, site.job, HS_STAGE_PROVEN, NULL, NOW + 1750, &error));
  g_assert_cmpint (hs_ops_test_count (site.test, "undo_step"), >, 3);
  g_assert_true (hs_job_square (site.book, site.job, NOW + 1800, &error));
  g_assert_no_error (error);
  g_assert_cmpint (hs_ops_test_count (site.test, "undo_step"), ==, 0);
  g_assert_false (hs_undo_last (hs_book_get_store (site.book), site.job, NOW, NULL, &error));
  hs_ops_test_refused (&error, "squared up");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ops/undo/all", test_all);
  g_test_add_func ("/ops/undo/refused", test_refused);
  g_test_add_func ("/ops/undo/go-ahead", test_go_ahead);
  g_test_add_func ("/ops/undo/vehicle", test_vehicle);
  g_test_add_func ("/ops/undo/squared", test_squared);
  return g_test_run ();
}
