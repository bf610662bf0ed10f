// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Taking back steps of a job: after each the rows of the business are byte for byte what they were, doing it again
 * brings them back, every change is logged, and what stands against it is said and changes nothing. */

#include <glib/gstdio.h>
#include <signal.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#include "book.h"
#include "hs-advice-row.h"
#include "hs-disturbed-row.h"
#include "hs-finding-row.h"
#include "hs-installed-row.h"
#include "hs-job-row.h"
#include "hs-log-row.h"
#include "hs-model-note-row.h"
#include "hs-money-row.h"
#include "hs-photo-file.h"
#include "hs-photo-row.h"
#include "hs-reading-row.h"
#include "hs-search.h"
#include "hs-setting-row.h"
#include "hs-stock-row.h"
#include "hs-store-private.h"
#include "hs-undo.h"
#include "hs-vehicle-row.h"
#include "hs-visit-row.h"

typedef struct
{
  char *folder;
  HsStore *store;
  GError *error;
} Place;

static void
set_up (Place *place, gconstpointer data)
{
  g_autofree char *path = NULL;
  sqlite3 *db;

  place->folder = test_folder_make ();
  path = g_build_filename (place->folder, "test.hsbook", NULL);
  hs_store_close (test_book_open (place->folder, "test.hsbook", HS_STORE_CREATE));
  db = test_connect (path, FALSE);
  test_run (db, test_on_site_world_sql);
  test_run (db, "DELETE FROM undo_step;"
                "INSERT INTO stock (id, van_id, part_id, quantity_milli) VALUES ('st', 'va', 'b', 3000);"
                "INSERT INTO part (id, number, name) VALUES ('never', 'ST-15', 'starter')");
  g_assert_cmpint (sqlite3_close (db), ==, SQLITE_OK);
  place->store = test_book_open (place->folder, "test.hsbook", HS_STORE_WRITE);
}

static void
tear_down (Place *place, gconstpointer data)
{
  g_assert_no_error (place->error);
  hs_store_close (place->store);
  test_folder_remove (place->folder);
}

/* Everything but what is about the program itself; the revision of a job only ever counts on. */
static char *
business (HsStore *store)
{
  g_autofree char *dump = NULL;
  g_auto (GStrv) lines = NULL;
  GString *kept = g_string_new (NULL);

  test_run (store->db, "SAVEPOINT look; UPDATE job SET rev = 1, changed_at = 1 WHERE stage <> 'squared'");
  dump = test_dump (store->db);
  test_run (store->db, "ROLLBACK TO look; RELEASE look");
  lines = g_strsplit (dump, "\n", -1);
  for (guint i = 0; lines[i] != NULL; i++)
    if (!g_str_has_prefix (lines[i], "change_log|") && !g_str_has_prefix (lines[i], "session|")
        && !g_str_has_prefix (lines[i], "undo_step|"))
      g_string_append_printf (kept, "%s\n", lines[i]);
  return g_string_free (kept, FALSE);
}

#define count(place, what) test_int ((place)->store->db, "SELECT count (*) FROM " what)

/* Deeds -------------------------------------------------------------------------------------------------------------*/

static gboolean
add_reading (HsStore *store, GError **error)
{
  g_autoptr (HsReadingRow) row = hs_reading_row_new ();

  hs_row_set (&row->job_id, "open");
  hs_row_set (&row->finding_id, "g-open");
  hs_row_set (&row->check_id, "rest");
  hs_row_set (&row->unit, "V");
  row->decimals = 2;
  row->value = 1242;
  hs_row_set (&row->phase, "before");
  row->taken_at = 7;
  return hs_reading_row_save (store, row, error);
}

static gboolean
remove_reading (HsStore *store, GError **error)
{
  return hs_reading_row_delete (store, "r-open2", error);
}

static gboolean
move_stage (HsStore *store, GError **error)
{
  return hs_job_row_move (store, "open", HS_STAGE_WAITING_YES, NULL, error);
}

static gboolean
see_other_vehicle (HsStore *store, GError **error)
{
  g_autoptr (HsJobRow) job = NULL;

  if (!hs_job_row_load (store, "open", &job, error))
    return FALSE;
  hs_row_set (&job->vehicle_id, "v2");
  hs_row_set (&job->saw_it, "yes");
  return hs_job_row_save (store, job, error);
}

static gboolean
change_customer (HsStore *store, GError **error)
{
  return hs_ownership_row_hand_over (store, "v1", "c2", 20522, error);
}

/* A proven cause with its reading and its link: taking it back has to go the opposite way. */
static gboolean
prove_cause (HsStore *store, GError **error)
{
  g_autoptr (HsFindingRow) finding = hs_finding_row_new ();
  g_autoptr (HsBecauseRow) link = hs_because_row_new ();

  hs_row_set (&finding->job_id, "open2");
  hs_row_set (&finding->what, "clamp loose");
  hs_row_set (&finding->role, "cause");
  if (!hs_finding_row_save (store, finding, error))
    return FALSE;
  hs_row_set (&link->job_id, "open2");
  hs_row_set (&link->effect_id, "f-open2");
  hs_row_set (&link->cause_id, finding->id);
  hs_row_set (&link->proof, "12.68 V");
  hs_row_set (&link->proof_kind, "reading");
  hs_row_set (&link->reading_id, "r-open2");
  if (!hs_because_row_save (store, link, error))
    return FALSE;
  hs_row_set (&finding->sure, "proven");
  return hs_finding_row_save (store, finding, error);
}

static gboolean
install_from_van (HsStore *store, GError **error)
{
  g_autoptr (HsInstalledRow) part = hs_installed_row_new ();
  g_autoptr (HsStockMoveRow) move = hs_stock_move_row_new ();

  hs_row_set (&part->vehicle_id, "v1");
  hs_row_set (&part->job_id, "open");
  hs_row_set (&part->kind, "battery");
  hs_row_set (&part->what, "battery");
  part->installed_on = 20522;
  hs_row_set (&part->known_by, "we_installed_it");
  hs_row_set (&part->replaced_why, "due");
  part->battery_ah = 55.5;
  hs_row_set (&move->van_id, "va");
  hs_row_set (&move->part_id, "b");
  move->quantity_milli = -1000;
  hs_row_set (&move->why, "installed");
  hs_row_set (&move->job_id, "open");
  move->at = 8;
  return hs_installed_row_save (store, part, error) && hs_stock_move_row_save (store, move, error);
}

/* Of a part that the van never carried: the stock that this makes goes with the step. */
static gboolean
carry_first (HsStore *store, GError **error)
{
  g_autoptr (HsStockMoveRow) move = hs_stock_move_row_new ();

  hs_row_set (&move->van_id, "va");
  hs_row_set (&move->part_id, "never");
  move->quantity_milli = 2000;
  hs_row_set (&move->why, "bought");
  hs_row_set (&move->job_id, "open");
  move->at = 8;
  return hs_stock_move_row_save (store, move, error);
}

static gboolean
add_photo (HsStore *store, GError **error)
{
  g_autoptr (HsPhotoFile) file = hs_photo_file_new ();
  g_autoptr (HsPhotoRow) photo = hs_photo_row_new ();
  g_autoptr (GBytes) data = g_bytes_new_static ("picture", 7);

  hs_row_set (&file->media_type, "image/png");
  file->width = file->height = 1;
  hs_row_set (&photo->job_id, "open");
  hs_row_set (&photo->phase, "before");
  photo->added_at = 3;
  if (!hs_photo_file_add (store, file, data, error))
    return FALSE;
  hs_row_set (&photo->file_id, file->id);
  return hs_photo_row_save (store, photo, error);
}

/* The same row several times in one step. */
static gboolean
answer_twice (HsStore *store, GError **error)
{
  g_autoptr (HsSafetyRow) row = NULL;

  if (!hs_safety_row_find (store, "vi-open", "chocks", &row, error))
    return FALSE;
  hs_row_set (&row->answer, "refused");
  hs_row_set (&row->why, "on a slope");
  if (!hs_safety_row_save (store, row, error))
    return FALSE;
  hs_row_set (&row->answer, "not_here");
  return hs_safety_row_save (store, row, error) && hs_safety_row_delete (store, row->id, error);
}

static gboolean
change_many (HsStore *store, GError **error)
{
  g_autoptr (HsDisturbedRow) place = NULL;
  g_autoptr (HsAdviceLineRow) line = NULL;
  g_autoptr (HsAdviceRow) advice = NULL;

  if (!hs_disturbed_row_load (store, "d-open", &place, error) || !hs_advice_row_load (store, "a-open", &advice, error)
      || !hs_advice_line_row_load (store, "al-open", &line, error))
    return FALSE;
  place->done_at = 900;
  line->price_cents = 100;
  advice->chase_on = 20530;
  return hs_disturbed_row_save (store, place, error) && hs_advice_line_row_save (store, line, error)
         && hs_advice_row_save (store, advice, error) && hs_line_row_delete (store, "l-open", error);
}

typedef struct
{
  const char *name;
  const char *job;
  gboolean (*act) (HsStore *store, GError **error);
} Deed;

static const Deed deeds[] = {
  { "add-reading", "open", add_reading },
  { "remove-reading", "open2", remove_reading },
  { "stage", "open", move_stage },
  { "other-vehicle", "open", see_other_vehicle },
  { "owner", "open", change_customer },
  { "proven-cause", "open2", prove_cause },
  { "part-from-the-van", "open", install_from_van },
  { "first-of-its-part", "open", carry_first },
  { "photo", "open", add_photo },
  { "safety", "open", answer_twice },
  { "many", "open", change_many },
};

static void
act (Place *place, const Deed *deed)
{
  g_assert_true (hs_store_begin (place->store, TEST_NOW, &place->error));
  hs_undo_note (place->store, deed->job, deed->name);
  g_assert_true (hs_store_end (place->store, deed->act (place->store, &place->error), &place->error));
  g_assert_no_error (place->error);
}

static void
assert_business (Place *place, const char *expected)
{
  g_autofree char *now = business (place->store);

  g_assert_cmpstr (now, ==, expected);
  g_assert_true (hs_store_check (place->store, TRUE, &place->error));
}

/* The bytes of a photo stay until they are swept. */
static void
sweep (Place *place)
{
  guint n;

  g_assert_true (hs_store_begin (place->store, TEST_NOW, &place->error));
  g_assert_true (hs_store_end (place->store, hs_photo_file_sweep (place->store, &n, &place->error), &place->error));
}

static void
test_deed (Place *place, gconstpointer data)
{
  const Deed *deed = data;
  g_autofree char *before = business (place->store);
  g_autofree char *after = NULL;
  g_autoptr (HsUndoStep) step = NULL;
  gint64 logged;

  act (place, deed);
  after = business (place->store);
  g_assert_cmpstr (after, !=, before);
  for (guint round = 0; round < 3; round++)
    {
      g_clear_pointer (&step, hs_undo_step_free);
      logged = count (place, "change_log");
      g_assert_true (hs_undo_last (place->store, deed->job, TEST_NOW + 60, &step, &place->error));
      g_assert_cmpstr (step->what, ==, deed->name);
      g_assert_cmpint (step->at, ==, TEST_NOW);
      g_assert_cmpint (step->undone_at, ==, TEST_NOW + 60);
      g_assert_cmpint (count (place, "change_log"), >, logged);
      if (deed->act != add_photo)
        assert_business (place, before);
      g_assert_cmpint (count (place, "photo"), ==, 4);
      g_clear_pointer (&step, hs_undo_step_free);
      g_assert_true (hs_undo_again (place->store, deed->job, TEST_NOW + 70, &step, &place->error));
      g_assert_cmpint (step->undone_at, ==, HS_INSTANT_NONE);
      assert_business (place, after);
    }
  /* A file that a step can bring back is not swept; without the step it is. */
  g_assert_true (hs_undo_last (place->store, deed->job, TEST_NOW, NULL, &place->error));
  sweep (place);
  g_assert_true (hs_undo_again (place->store, deed->job, TEST_NOW, NULL, &place->error));
  assert_business (place, after);
  g_assert_true (hs_undo_last (place->store, deed->job, TEST_NOW, NULL, &place->error));
  test_run (place->store->db, "DELETE FROM undo_step");
  sweep (place);
  assert_business (place, before);
}

/* All deeds of a job in a row, and back to the start. */
static void
test_all (Place *place, gconstpointer data)
{
  g_autoptr (GPtrArray) dumps = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GPtrArray) steps = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (deeds); i++)
    if (g_str_equal (deeds[i].job, "open") && deeds[i].act != add_photo)
      {
        g_ptr_array_add (dumps, business (place->store));
        act (place, &deeds[i]);
      }
  g_assert_true (hs_undo_list (place->store, "open", &steps, &place->error));
  g_assert_cmpuint (steps->len, ==, dumps->len);
  g_assert_cmpstr (((HsUndoStep *) steps->pdata[0])->what, ==, "many");
  for (guint i = dumps->len; i > 0; i--)
    {
      g_assert_true (hs_undo_last (place->store, "open", TEST_NOW, NULL, &place->error));
      assert_business (place, dumps->pdata[i - 1]);
    }
  assert_refused (hs_undo_last (place->store, "open", TEST_NOW, NULL, &place->error), place->error,
                  HS_STORE_ERROR_NOT_FOUND, "nothing on this job");
  g_clear_error (&place->error);
  /* A new step ends what could be done again. */
  act (place, &deeds[0]);
  assert_refused (hs_undo_again (place->store, "open", TEST_NOW, NULL, &place->error), place->error,
                  HS_STORE_ERROR_NOT_FOUND, "Nothing was undone");
  g_clear_error (&place->error);
  g_assert_cmpint (count (place, "undo_step"), ==, 1);
}

/* What stands against it: told with the step, and nothing changes. */
static const struct
{
  const char *name;
  guint deed;
  const char *since;
  const char *says;
} against[] = {
  { "changed", 0, "UPDATE reading SET value = 1250 WHERE job_id = 'open'", "the reading was changed since" },
  { "written-since", 0, "UPDATE reading SET place = 'at the starter' WHERE job_id = 'open'",
    "the reading was changed since" },
  { "shelved-since", 7, "UPDATE stock SET bin = 'left rack' WHERE part_id = 'never'", "the stock was changed since" },
  { "removed", 0, "DELETE FROM reading WHERE job_id = 'open'", "the reading was removed since" },
  { "changed-stage", 2, "UPDATE job SET stage = 'waiting_part' WHERE id = 'open'", "the job was changed since" },
  { "linked", 0, "INSERT INTO because (id, job_id, effect_id, cause_id, proof, proof_kind, reading_id)"
                 " SELECT 'z', 'open', 'g-open', 'h-open', 'x', 'reading', id FROM reading WHERE job_id = 'open'",
    "It proves a link of the why-chain" },
  { "rule", 1, "UPDATE job SET stage = 'proven' WHERE id = 'open2'", NULL },
  { "put-back", 1, "INSERT INTO reading (id, job_id, check_id, unit, decimals, value, phase, taken_at)"
                   " VALUES ('r-open2', 'open2', 'rest', 'V', 2, 1, 'after', 5)", "the reading is there already" },
  { "other-field", 2, "UPDATE job SET note = 'x' WHERE id = 'open'", NULL },
};

static void
test_against (Place *place, gconstpointer data)
{
  guint i = GPOINTER_TO_UINT (data);
  const char *job = deeds[against[i].deed].job;
  g_autofree char *before = NULL;

  act (place, &deeds[against[i].deed]);
  if (g_str_equal (against[i].name, "rule"))
    test_run (place->store->db, "UPDATE job SET unproved_why = 'rain' WHERE id = 'open2'");
  test_run (place->store->db, against[i].since);
  before = test_dump (place->store->db);
  if (against[i].says == NULL)
    {
      g_assert_true (hs_undo_last (place->store, job, TEST_NOW, NULL, &place->error));
      return;
    }
  assert_refused (hs_undo_last (place->store, job, TEST_NOW, NULL, &place->error), place->error,
                  HS_STORE_ERROR_REFUSED, against[i].says);
  g_assert_nonnull (strstr (place->error->message, deeds[against[i].deed].name));
  g_clear_error (&place->error);
  {
    g_autofree char *after = test_dump (place->store->db);

    g_assert_cmpstr (after, ==, before);
  }
}

static void
test_squared (Place *place, gconstpointer data)
{
  assert_refused (hs_undo_last (place->store, "squared", TEST_NOW, NULL, &place->error), place->error,
                  HS_STORE_ERROR_REFUSED, "squared up");
  g_clear_error (&place->error);
  assert_refused (hs_undo_last (place->store, "nothing", TEST_NOW, NULL, &place->error), place->error,
                  HS_STORE_ERROR_NOT_FOUND, "no job");
  g_clear_error (&place->error);
}

/* Steps go with the job's squaring, which itself is none. */
static void
test_squaring (Place *place, gconstpointer data)
{
  act (place, &deeds[5]);
  test_run (place->store->db, "UPDATE job SET stage = 'proven' WHERE id = 'open2'");
  g_assert_cmpint (count (place, "undo_step WHERE job_id = 'open2'"), ==, 1);
  g_assert_true (hs_store_begin (place->store, TEST_NOW, &place->error));
  hs_undo_note (place->store, "open2", "squared up");
  g_assert_true (hs_store_end (place->store, hs_job_row_move (place->store, "open2", HS_STAGE_SQUARED, NULL,
                                                              &place->error), &place->error));
  g_assert_cmpint (count (place, "undo_step WHERE job_id = 'open2'"), ==, 0);
  assert_refused (hs_undo_last (place->store, "open2", TEST_NOW, NULL, &place->error), place->error,
                  HS_STORE_ERROR_REFUSED, "squared up");
  g_clear_error (&place->error);
}

/* What is a step ----------------------------------------------------------------------------------------------------*/

typedef enum
{
  BEGIN,
  NOTE,
  CHANGE,
  COMMIT,
  ROLLBACK,
  BULK,
} Move;

static const struct
{
  const char *name;
  Move moves[12];
  const char *steps;
} shapes[] = {
  { "no-note", { BEGIN, CHANGE, COMMIT }, "" },
  { "no-change", { BEGIN, NOTE, COMMIT }, "" },
  { "one", { BEGIN, NOTE, CHANGE, COMMIT }, "1: 1" },
  { "rolled-back", { BEGIN, NOTE, CHANGE, ROLLBACK }, "" },
  { "better-words", { BEGIN, NOTE, CHANGE, NOTE, CHANGE, COMMIT }, "2: 2" },
  { "inside-a-step", { BEGIN, NOTE, CHANGE, BEGIN, NOTE, CHANGE, COMMIT, COMMIT }, "1: 2" },
  { "inside-without-one", { BEGIN, CHANGE, BEGIN, NOTE, CHANGE, COMMIT, CHANGE, COMMIT }, "1: 1" },
  { "two-inside", { BEGIN, BEGIN, NOTE, CHANGE, COMMIT, BEGIN, NOTE, CHANGE, COMMIT, COMMIT }, "1: 1 2: 1" },
  { "part-rolled-back", { BEGIN, NOTE, CHANGE, BEGIN, CHANGE, ROLLBACK, CHANGE, COMMIT }, "1: 2" },
  { "inside-rolled-back", { BEGIN, BEGIN, NOTE, CHANGE, ROLLBACK, CHANGE, COMMIT }, "" },
  { "deep-part-rolled-back", { BEGIN, NOTE, BEGIN, CHANGE, BEGIN, CHANGE, ROLLBACK, COMMIT, COMMIT }, "1: 1" },
  { "in-bulk", { BEGIN, BULK, NOTE, CHANGE, COMMIT }, "" },
};

static void
make_move (Place *place, Move move, guint *n_notes)
{
  g_autofree char *what = NULL;

  switch (move)
    {
    case BEGIN:
      g_assert_true (hs_store_begin (place->store, TEST_NOW, &place->error));
      break;
    case NOTE:
      what = g_strdup_printf ("%u", ++*n_notes);
      hs_undo_note (place->store, "open", what);
      break;
    case CHANGE:
      g_assert_true (add_reading (place->store, &place->error));
      break;
    case COMMIT:
      g_assert_true (hs_store_commit (place->store, &place->error));
      break;
    case ROLLBACK:
      hs_store_rollback (place->store);
      break;
    default:
      hs_store_set_bulk (place->store, TRUE);
      break;
    }
}

static void
test_shape (Place *place, gconstpointer data)
{
  guint i = GPOINTER_TO_UINT (data);
  g_autoptr (GPtrArray) steps = NULL;
  g_autoptr (GString) found = g_string_new (NULL);
  gint64 readings = count (place, "reading");
  guint n_notes = 0, depth = 0, n_moves = 0;

  do
    {
      depth += shapes[i].moves[n_moves] == BEGIN;
      depth -= shapes[i].moves[n_moves] == COMMIT || shapes[i].moves[n_moves] == ROLLBACK;
      make_move (place, shapes[i].moves[n_moves++], &n_notes);
    }
  while (depth > 0);
  g_assert_true (hs_undo_list (place->store, "open", &steps, &place->error));
  for (guint j = steps->len; j > 0; j--)
    {
      gint64 there = count (place, "reading");
      g_autofree char *found_step = NULL;

      /* The last one first: so many readings does it take back. */
      g_assert_true (hs_undo_last (place->store, "open", TEST_NOW, NULL, &place->error));
      there -= count (place, "reading");
      found_step = g_strdup_printf ("%s: %" G_GINT64_FORMAT "%s",
                                    ((HsUndoStep *) steps->pdata[steps->len - j])->what, there,
                                    found->len > 0 ? " " : "");
      g_string_prepend (found, found_step);
    }
  g_assert_cmpstr (found->str, ==, shapes[i].steps);
  g_assert_cmpint (count (place, "reading"), >=, readings);
}

static void
test_words (Place *place, gconstpointer data)
{
  g_autoptr (GPtrArray) steps = NULL;
  g_autoptr (GString) words = g_string_new (NULL);

  for (guint i = 0; i < 10000; i++)
    g_string_append (words, "é");
  g_assert_true (hs_store_begin (place->store, TEST_NOW, &place->error));
  hs_undo_note (place->store, NULL, "nobody's");
  g_assert_true (add_reading (place->store, &place->error));
  hs_undo_note (place->store, "open", words->str);
  g_assert_true (hs_store_end (place->store, add_reading (place->store, &place->error), &place->error));
  g_assert_true (hs_undo_list (place->store, "open", &steps, &place->error));
  g_assert_cmpuint (steps->len, ==, 1);
  g_assert_cmpint (g_utf8_strlen (((HsUndoStep *) steps->pdata[0])->what, -1), ==, 200);
}

/* A removed row comes back into its place; if that was taken since, behind the others. */
static void
test_place (Place *place, gconstpointer data)
{
  gint64 seq = test_int (place->store->db, "SELECT seq FROM reading WHERE id = 'r-open2'");

  test_run (place->store->db, "DELETE FROM reading WHERE seq > (SELECT seq FROM reading WHERE id = 'r-open2')"
                              " AND job_id NOT IN ('proven', 'squared')");
  act (place, &deeds[1]);
  test_run (place->store->db, "INSERT INTO reading (seq, id, job_id, check_id, unit, decimals, value, phase, taken_at)"
                              " SELECT min (a.seq), 'new', 'open', 'rest', 'V', 2, 1, 'after', 5 FROM"
                              " (WITH RECURSIVE n (seq) AS (SELECT 1 UNION ALL SELECT seq + 1 FROM n LIMIT 100)"
                              "  SELECT seq FROM n) a WHERE a.seq NOT IN (SELECT seq FROM reading)");
  g_assert_cmpint (test_int (place->store->db, "SELECT seq FROM reading WHERE id = 'new'"), ==, seq);
  g_assert_true (hs_undo_last (place->store, "open2", TEST_NOW, NULL, &place->error));
  g_assert_cmpint (test_int (place->store->db, "SELECT seq FROM reading WHERE id = 'r-open2'"), >, seq);
  g_assert_true (hs_undo_again (place->store, "open2", TEST_NOW, NULL, &place->error));
  g_assert_cmpint (count (place, "reading WHERE id = 'r-open2'"), ==, 0);
}

/* What is never taken back stands against the whole step: a setting, a go-ahead. */
static void
test_never (Place *place, gconstpointer data)
{
  g_autoptr (HsSettingRow) setting = hs_setting_row_new ();
  g_autoptr (HsGoAheadRow) yes = hs_go_ahead_row_new ();

  hs_row_set (&setting->id, "zone");
  hs_row_set (&setting->value, "UTC");
  g_assert_true (hs_store_begin (place->store, TEST_NOW, &place->error));
  hs_undo_note (place->store, "open", "zone");
  g_assert_true (hs_store_end (place->store, hs_setting_row_save (place->store, setting, &place->error),
                               &place->error));
  assert_refused (hs_undo_last (place->store, "open", TEST_NOW, NULL, &place->error), place->error,
                  HS_STORE_ERROR_REFUSED, "never taken back");
  g_clear_error (&place->error);
  test_run (place->store->db, "DELETE FROM undo_step");
  hs_row_set (&yes->job_id, "open");
  yes->ceiling_cents = 22000;
  hs_row_set (&yes->by_whom, "Bram");
  yes->at = 9;
  hs_row_set (&yes->means, "phone");
  g_assert_true (hs_store_begin (place->store, TEST_NOW, &place->error));
  hs_undo_note (place->store, "open", "go-ahead");
  g_assert_true (hs_store_end (place->store, hs_go_ahead_row_save (place->store, yes, &place->error), &place->error));
  assert_refused (hs_undo_last (place->store, "open", TEST_NOW, NULL, &place->error), place->error,
                  HS_STORE_ERROR_REFUSED, "A go-ahead is kept");
  g_clear_error (&place->error);
}

/* A damaged step is refused, not followed. */
static void
test_damaged (Place *place, gconstpointer data)
{
  static const char *const changes[] = { "X''", "X'00'", "X'FFFFFFFFFFFFFFFF'", "randomblob (400)", "zeroblob (64)" };
  g_autofree char *before = business (place->store);

  for (guint i = 0; i < G_N_ELEMENTS (changes); i++)
    {
      g_autofree char *sql = g_strdup_printf ("INSERT INTO undo_step (id, job_id, what, at, changes)"
                                              " VALUES ('z%u', 'open', 'x', 1, %s)", i, changes[i]);

      test_run (place->store->db, sql);
      (void) hs_undo_last (place->store, "open", TEST_NOW, NULL, NULL);
      test_run (place->store->db, "DELETE FROM undo_step");
      assert_business (place, before);
    }
}

/* The search finds the vehicle's owner as before. */
static void
test_search (Place *place, gconstpointer data)
{
  g_autoptr (GPtrArray) hits = NULL;

  g_assert_true (hs_store_begin (place->store, TEST_NOW, &place->error));
  g_assert_true (hs_store_end (place->store, hs_search_rebuild (place->store, &place->error), &place->error));
  act (place, &deeds[4]);
  g_assert_true (hs_search (place->store, "8816 pellam", 10, &hits, &place->error));
  g_assert_cmpuint (hits->len, ==, 1);
  g_clear_pointer (&hits, g_ptr_array_unref);
  g_assert_true (hs_undo_last (place->store, "open", TEST_NOW, NULL, &place->error));
  g_assert_true (hs_search (place->store, "8816 pellam", 10, &hits, &place->error));
  g_assert_cmpuint (hits->len, ==, 0);
  g_clear_pointer (&hits, g_ptr_array_unref);
  g_assert_true (hs_search (place->store, "8816 abernant", 10, &hits, &place->error));
  g_assert_cmpuint (hits->len, ==, 1);
}

/* The revision counts on, so that what was posted is posted anew. */
static void
test_revision (Place *place, gconstpointer data)
{
  gint64 rev = test_int (place->store->db, "SELECT rev FROM job WHERE id = 'open'");

  act (place, &deeds[2]);
  g_assert_true (hs_undo_last (place->store, "open", TEST_NOW + 5, NULL, &place->error));
  g_assert_cmpint (test_int (place->store->db, "SELECT rev FROM job WHERE id = 'open'"), ==, rev + 2);
  g_assert_cmpint (test_int (place->store->db, "SELECT changed_at FROM job WHERE id = 'open'"), ==, TEST_NOW + 5);
}

/* Two programs with the book open: the other one's step is taken back as one's own. */
static void
test_two_programs (Place *place, gconstpointer data)
{
  HsStore *other = test_book_open (place->folder, "test.hsbook", HS_STORE_WRITE);
  g_autofree char *before = business (place->store);

  act (place, &deeds[0]);
  g_assert_true (hs_undo_last (other, "open", TEST_NOW, NULL, &place->error));
  assert_refused (hs_undo_last (place->store, "open", TEST_NOW, NULL, &place->error), place->error,
                  HS_STORE_ERROR_NOT_FOUND, "nothing on this job");
  g_clear_error (&place->error);
  assert_business (place, before);
  hs_store_close (other);
}

/* Killed while it takes back and does again: the step is wholly the one or wholly the other. */
static void
test_killed (Place *place, gconstpointer data)
{
  g_autofree char *before = business (place->store);
  g_autofree char *after = NULL;

  act (place, &deeds[G_N_ELEMENTS (deeds) - 1]);
  after = business (place->store);
  for (guint round = 0; round < 20; round++)
    {
      pid_t pid;
      gboolean undone;

      g_clear_pointer (&place->store, hs_store_close);
      pid = fork ();
      if (pid == 0)
        {
          HsStore *store;

          /* The parent draws the same ids otherwise. */
          g_random_set_seed ((guint32) getpid ());
          store = test_book_open (place->folder, "test.hsbook", HS_STORE_WRITE);
          for (;;)
            {
              (void) hs_undo_last (store, "open", TEST_NOW, NULL, NULL);
              (void) hs_undo_again (store, "open", TEST_NOW, NULL, NULL);
            }
        }
      g_usleep (20000 + (round * 7919) % 30000);
      g_assert_cmpint (kill (pid, SIGKILL), ==, 0);
      g_assert_cmpint (waitpid (pid, NULL, 0), ==, pid);
      place->store = test_book_open (place->folder, "test.hsbook", HS_STORE_WRITE);
      undone = count (place, "undo_step WHERE undone_at IS NOT NULL") == 1;
      assert_business (place, undone ? before : after);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (deeds); i++)
    {
      g_autofree char *path = g_strconcat ("/store/undo/deed/", deeds[i].name, NULL);

      g_test_add (path, Place, &deeds[i], set_up, test_deed, tear_down);
    }
  for (guint i = 0; i < G_N_ELEMENTS (against); i++)
    {
      g_autofree char *path = g_strconcat ("/store/undo/against/", against[i].name, NULL);

      g_test_add (path, Place, GUINT_TO_POINTER (i), set_up, test_against, tear_down);
    }
  for (guint i = 0; i < G_N_ELEMENTS (shapes); i++)
    {
      g_autofree char *path = g_strconcat ("/store/undo/shape/", shapes[i].name, NULL);

      g_test_add (path, Place, GUINT_TO_POINTER (i), set_up, test_shape, tear_down);
    }
  g_test_add ("/store/undo/all", Place, NULL, set_up, test_all, tear_down);
  g_test_add ("/store/undo/squared", Place, NULL, set_up, test_squared, tear_down);
  g_test_add ("/store/undo/squaring", Place, NULL, set_up, test_squaring, tear_down);
  g_test_add ("/store/undo/words", Place, NULL, set_up, test_words, tear_down);
  g_test_add ("/store/undo/place", Place, NULL, set_up, test_place, tear_down);
  g_test_add ("/store/undo/never", Place, NULL, set_up, test_never, tear_down);
  g_test_add ("/store/undo/damaged", Place, NULL, set_up, test_damaged, tear_down);
  g_test_add ("/store/undo/search", Place, NULL, set_up, test_search, tear_down);
  g_test_add ("/store/undo/revision", Place, NULL, set_up, test_revision, tear_down);
  g_test_add ("/store/undo/two-programs", Place, NULL, set_up, test_two_programs, tear_down);
  g_test_add ("/store/undo/killed", Place, NULL, set_up, test_killed, tear_down);
  return g_test_run ();
}
