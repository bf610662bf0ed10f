// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The photos of a job: added once, bound, taken away, taken back, frozen; matched to visits by time; and what becomes
 * of a photo whose picture is not in the book. */

#include "hs-chain-op.h"
#include "hs-job-life.h"
#include "hs-job-op.h"
#include "hs-log-row.h"
#include "hs-ops-error.h"
#include "hs-ops-test.h"
#include "hs-photo-op.h"
#include "hs-store-error.h"
#include "hs-undo.h"
#include "photo-test.h"

#include <glib/gstdio.h>

#define NOW HS_OPS_TEST_NOW

typedef struct
{
  HsOpsTest *test;
  HsBook *book;
  char *job_id;
  char *other_id;
  GError *error;
} Site;

static void
site_start (Site *site, gconstpointer data)
{
  site->test = hs_ops_test_open ();
  hs_ops_test_fill (site->test);
  hs_ops_test_import_ok (site->test, "jobs",
                         "number,customer_phone,words,plate,day\n"
                         "A-0001,555-0115,dead after a weekend,TDM 5508,2026-03-10\n"
                         "A-0002,555-0117,hums,,2026-03-10\n",
                         2, 0, 0);
  site->book = site->test->book;
  site->job_id = hs_job_find (site->book, "A-0001", NULL);
  site->other_id = hs_job_find (site->book, "A-0002", NULL);
}

static void
site_end (Site *site, gconstpointer data)
{
  g_assert_no_error (site->error);
  hs_ops_test_close (site->test);
  g_free (site->job_id);
  g_free (site->other_id);
}

static HsPhotoIntake *
shot (const char *name, const char *taken, guint shade)
{
  const PictureTold told = { TRUE, 1, taken, NULL, TRUE };
  g_autoptr (GBytes) data = photo_jpeg (&told, 80, 40, shade);

  return hs_photo_intake_take (name, data, FALSE, NULL);
}

static char *
add (Site *site, const HsPhotoIntake *intake, const HsPhotoEntry *entry)
{
  char *id = hs_photo_add (site->book, site->job_id, intake, entry, NOW, NULL, &site->error);

  g_assert_no_error (site->error);
  return id;
}

static HsPhotoCard *
card_of (GPtrArray *cards, guint n)
{
  g_assert_cmpuint (n, <, cards->len);
  return g_ptr_array_index (cards, n);
}

static GPtrArray *
list (Site *site)
{
  GPtrArray *cards = hs_photo_list (site->book, site->job_id, &site->error);

  g_assert_no_error (site->error);
  return cards;
}

static char *
find_something (Site *site, const char *job_id, const char *what)
{
  return hs_finding_add (site->book, job_id, &(HsFindingEntry){ .what = what }, NOW, &site->error);
}

static void
test_add (Site *site, gconstpointer data)
{
  g_autoptr (HsPhotoIntake) intake = shot ("IMG_1.jpg", "2026:03:10 08:41:07", 0);
  g_autofree char *finding = find_something (site, site->job_id, "clamp loose");
  const HsPhotoEntry entry = { "after", finding, NULL, "the clamp" };
  g_autofree char *id = add (site, intake, &entry);
  g_autoptr (GPtrArray) cards = list (site);
  g_autoptr (GBytes) back = hs_photo_load (site->book, id, &site->error);
  g_autoptr (GBytes) small = hs_photo_load_thumbnail (site->book, id, &site->error);
  const HsPhotoCard *card = card_of (cards, 0);

  g_assert_true (g_bytes_equal (back, intake->data));
  g_assert_true (g_bytes_equal (small, intake->thumbnail));
  g_assert_cmpstr (card->id, ==, id);
  g_assert_cmpstr (card->name, ==, "IMG_1.jpg");
  g_assert_cmpstr (card->words, ==, "the clamp");
  g_assert_cmpstr (card->phase, ==, "after");
  g_assert_cmpstr (card->finding_id, ==, finding);
  g_assert_cmpstr (card->finding, ==, "clamp loose");
  g_assert_cmpstr (card->media_type, ==, "image/jpeg");
  g_assert_cmpuint (card->number, ==, 1);
  g_assert_cmpuint (card->visit, ==, 0);
  g_assert_cmpint (card->width, ==, 80);
  g_assert_cmpint (card->height, ==, 40);
  g_assert_cmpint (card->bytes, ==, g_bytes_get_size (intake->data));
  g_assert_cmpint (card->taken_at, ==, hs_ops_test_at ("2026-03-10T08:41") + 7);
  g_assert_cmpint (card->added_at, ==, NOW);
  g_assert_false (card->missing);
}

/* Once a job, and its bytes once in the book. */
static void
test_once (Site *site, gconstpointer data)
{
  g_autoptr (HsPhotoIntake) intake = shot ("IMG_1.jpg", NULL, 0);
  g_autofree char *id = add (site, intake, NULL);
  g_autofree char *elsewhere = NULL;

  g_assert_null (hs_photo_add (site->book, site->job_id, intake, NULL, NOW, NULL, &site->error));
  hs_ops_test_refused (&site->error, "“IMG_1.jpg” is on this job already, as photo 1. It was not added again.");
  elsewhere = hs_photo_add (site->book, site->other_id, intake, NULL, NOW, NULL, &site->error);
  g_assert_no_error (site->error);
  g_assert_cmpint (hs_ops_test_count (site->test, "photo"), ==, 2);
  g_assert_cmpint (hs_ops_test_count (site->test, "photo_file"), ==, 1);
}

static void
test_kept_place_is_logged (Site *site, gconstpointer data)
{
  const PictureTold told = { TRUE, 1, NULL, NULL, TRUE };

  for (guint keep = 0; keep < 2; keep++)
    {
      g_autoptr (GBytes) bytes = photo_jpeg (&told, 80, 40, keep);
      g_autoptr (HsPhotoIntake) intake = hs_photo_intake_take ("IMG_1.jpg", bytes, keep == 1, NULL);
      g_autofree char *id = add (site, intake, NULL);
      g_autoptr (GPtrArray) log = NULL;
      g_autoptr (GPtrArray) steps = NULL;

      g_assert_true (hs_log_row_list_of (hs_book_get_store (site->book), "photo", id, &log, NULL));
      g_assert_cmpuint (log->len, ==, 1 + keep);
      if (keep == 1)
        g_assert_cmpstr (((HsLogRow *) g_ptr_array_index (log, 1))->field, ==, "place");
      g_assert_true (hs_undo_list (hs_book_get_store (site->book), site->job_id, &steps, NULL));
      g_assert_cmpstr (((HsUndoStep *) g_ptr_array_index (steps, 0))->what, ==,
                       keep == 1 ? "photo, with its place: IMG_1.jpg" : "photo: IMG_1.jpg");
    }
}

static void
test_changes_and_undo (Site *site, gconstpointer data)
{
  HsStore *store = hs_book_get_store (site->book);
  g_autoptr (HsPhotoIntake) intake = shot ("IMG_1.jpg", NULL, 0);
  g_autofree char *id = add (site, intake, NULL);
  g_autofree char *finding = find_something (site, site->job_id, "clamp loose");
  g_autoptr (GPtrArray) changed = NULL;
  g_autoptr (GPtrArray) gone = NULL;
  g_autoptr (GPtrArray) back = NULL;
  g_autoptr (GBytes) bytes = NULL;

  g_assert_true (hs_photo_bind (site->book, id, finding, NOW, &site->error));
  g_assert_true (hs_photo_set_phase (site->book, id, "after", NOW, &site->error));
  g_assert_true (hs_photo_reword (site->book, id, "the clamp", NOW, &site->error));
  changed = list (site);
  g_assert_cmpstr (card_of (changed, 0)->finding, ==, "clamp loose");
  g_assert_cmpstr (card_of (changed, 0)->phase, ==, "after");
  g_assert_cmpstr (card_of (changed, 0)->words, ==, "the clamp");
  g_assert_true (hs_photo_remove (site->book, id, NOW, &site->error));
  gone = list (site);
  g_assert_cmpuint (gone->len, ==, 0);
  /* Removed, re-worded, phase and bond: four steps back, and the picture is still there. */
  for (guint i = 0; i < 4; i++)
    g_assert_true (hs_undo_last (store, site->job_id, NOW, NULL, &site->error));
  back = list (site);
  g_assert_cmpstr (card_of (back, 0)->phase, ==, "before");
  g_assert_null (card_of (back, 0)->finding);
  g_assert_null (card_of (back, 0)->words);
  bytes = hs_photo_load (site->book, id, &site->error);
  g_assert_true (g_bytes_equal (bytes, intake->data));
}

static void
test_refused (Site *site, gconstpointer data)
{
  g_autoptr (HsPhotoIntake) intake = shot ("IMG_1.jpg", NULL, 0);
  g_autofree char *id = add (site, intake, NULL);
  g_autofree char *strange = find_something (site, site->other_id, "hum");
  const HsPhotoEntry bad_phase = { .phase = "later" }, bad_finding = { .finding_id = strange };
  g_autoptr (HsPhotoIntake) other = shot ("IMG_2.jpg", NULL, 9);
  gint64 logged = hs_ops_test_count (site->test, "change_log");

  g_assert_null (hs_photo_add (site->book, site->job_id, other, &bad_phase, NOW, NULL, &site->error));
  hs_ops_test_refused (&site->error, "later");
  g_assert_null (hs_photo_add (site->book, site->job_id, other, &bad_finding, NOW, NULL, &site->error));
  hs_ops_test_refused (&site->error, "A photo and what it shows belong to one job");
  g_assert_false (hs_photo_bind (site->book, id, strange, NOW, &site->error));
  hs_ops_test_refused (&site->error, "A photo and what it shows belong to one job");
  g_assert_false (hs_photo_bind (site->book, id, "nothing", NOW, &site->error));
  hs_ops_test_refused (&site->error, "There is no such finding in this book.");
  g_assert_false (hs_photo_bind (site->book, "nothing", NULL, NOW, &site->error));
  hs_ops_test_refused (&site->error, "There is no such photo in this book.");
  g_assert_false (hs_photo_set_phase (site->book, id, "", NOW, &site->error));
  hs_ops_test_refused (&site->error, "before, during or after the repair");
  g_assert_false (hs_photo_set_phase (site->book, id, "later", NOW, &site->error));
  hs_ops_test_refused (&site->error, "later");
  g_assert_false (hs_photo_remove (site->book, "nothing", NOW, &site->error));
  hs_ops_test_refused (&site->error, "There is no such photo in this book.");
  g_assert_cmpint (hs_ops_test_count (site->test, "change_log"), ==, logged);
  g_assert_cmpint (hs_ops_test_count (site->test, "photo_file"), ==, 1);
}

/* A photo that proves a link of the chain stays until the link goes. */
static void
test_proof (Site *site, gconstpointer data)
{
  g_autoptr (HsPhotoIntake) intake = shot ("IMG_1.jpg", NULL, 0);
  g_autofree char *id = add (site, intake, NULL);
  g_autofree char *cause = hs_chain_extend (site->book, site->job_id, NULL, &(HsFindingEntry){ .what = "clamp loose" },
                                            &(HsBecauseEntry){ .proof = "photo 1", .photo_id = id }, NOW, &site->error);

  g_assert_no_error (site->error);
  g_assert_nonnull (cause);
  g_assert_false (hs_photo_remove (site->book, id, NOW, &site->error));
  hs_ops_test_refused (&site->error, "It proves a link of the why-chain; remove the link first");
}

static void
test_frozen (Site *site, gconstpointer data)
{
  g_autoptr (HsPhotoIntake) intake = shot ("IMG_1.jpg", NULL, 0);
  g_autoptr (HsPhotoIntake) other = shot ("IMG_2.jpg", NULL, 9);
  g_autofree char *id = add (site, intake, NULL);

  photo_square_up (site->book, site->job_id);
  g_assert_null (hs_photo_add (site->book, site->job_id, other, NULL, NOW, NULL, &site->error));
  hs_ops_test_refused (&site->error, "The job is squared up; write a return visit or a credit");
  g_assert_false (hs_photo_set_phase (site->book, id, "after", NOW, &site->error));
  hs_ops_test_refused (&site->error, "The job is squared up");
  g_assert_false (hs_photo_remove (site->book, id, NOW, &site->error));
  hs_ops_test_refused (&site->error, "The job is squared up");
}

/* A camera's own offset counts; without one its clock hangs on the wall of the business, New York. */
static void
test_taken (Site *site, gconstpointer data)
{
  static const struct
  {
    PictureTold told;
    const char *at;
  } rows[] = {
    { { FALSE, 1, "2026:03:10 08:41:00", NULL, FALSE }, "2026-03-10T08:41" },
    { { FALSE, 1, "2026:03:10 13:41:00", "+01:00", FALSE }, "2026-03-10T08:41" },
    { { FALSE, 1, "2026:03:10 05:41:00", "-07:00", FALSE }, "2026-03-10T08:41" },
    { { FALSE, 1, NULL, "+01:00", FALSE }, NULL },
    { { FALSE, 1, "0000:00:00 00:00:00", NULL, FALSE }, NULL },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GBytes) bytes = photo_jpeg (&rows[i].told, 80, 40, i);
      g_autoptr (HsPhotoIntake) intake = hs_photo_intake_take ("IMG.jpg", bytes, FALSE, NULL);
      g_autofree char *id = add (site, intake, NULL);
      g_autoptr (GPtrArray) cards = list (site);

      g_assert_cmpint (card_of (cards, cards->len - 1)->taken_at, ==,
                       rows[i].at != NULL ? hs_ops_test_at (rows[i].at) : HS_INSTANT_NONE);
    }
}

/* Two visits: 08:00 to 09:00 (driving since 07:40) and from 14:00 on. Half an hour of a clock that is off. */
static void
test_visits (Site *site, gconstpointer data)
{
  static const struct
  {
    const char *taken;
    guint visit;
  } rows[] = {
    { "2026:03:10 07:09:00", 0 }, { "2026:03:10 07:10:00", 1 }, { "2026:03:10 08:30:00", 1 },
    { "2026:03:10 09:30:00", 1 }, { "2026:03:10 09:31:00", 0 }, { "2026:03:10 13:29:00", 0 },
    { "2026:03:10 13:30:00", 2 }, { "2026:03:10 15:00:00", 2 }, { "2026:03:10 17:29:00", 2 },
    { "2026:03:10 17:31:00", 0 }, { NULL, 0 },
  };
  HsInstant now = hs_ops_test_at ("2026-03-10T17:00");
  g_autofree char *sql = g_strdup_printf (
      "INSERT INTO visit (id, job_id, rolling_at, arrived_at, left_at) VALUES"
      " ('v1', '%s', %" G_GINT64_FORMAT ", %" G_GINT64_FORMAT ", %" G_GINT64_FORMAT "),"
      " ('v2', '%s', NULL, %" G_GINT64_FORMAT ", NULL)",
      site->job_id, hs_ops_test_at ("2026-03-10T07:40"), hs_ops_test_at ("2026-03-10T08:00"),
      hs_ops_test_at ("2026-03-10T09:00"), site->job_id, hs_ops_test_at ("2026-03-10T14:00"));

  hs_ops_test_run (site->test, sql);
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsPhotoIntake) intake = shot ("IMG.jpg", rows[i].taken, i * 5);
      g_autofree char *id = hs_photo_add (site->book, site->job_id, intake, NULL, now, NULL, &site->error);
      g_autoptr (GPtrArray) cards = list (site);

      g_assert_no_error (site->error);
      g_test_message ("%s", rows[i].taken);
      g_assert_cmpuint (card_of (cards, i)->visit, ==, rows[i].visit);
    }
}

static void
read_at (Site *site, const char *value, const char *phase, const char *at)
{
  HsReadingEntry entry = { .check = "battery_rest", .text = value, .phase = phase, .at = hs_ops_test_at (at) };
  g_autoptr (HsReadingResult) result = hs_reading_add (site->book, site->job_id, &entry, NOW, &site->error);

  g_assert_no_error (site->error);
}

/* A phase that nobody named follows from the readings. */
static void
test_phases (Site *site, gconstpointer data)
{
  static const struct
  {
    const char *taken;
    const char *phase;
  } rows[] = {
    { "2026:03:10 07:00:00", "before" }, { "2026:03:10 08:00:00", "before" }, { "2026:03:10 08:30:00", "during" },
    { "2026:03:10 08:59:00", "during" }, { "2026:03:10 09:00:00", "after" },  { NULL, "before" },
  };

  read_at (site, "11.80", "before", "2026-03-10T08:00");
  read_at (site, "12.10", "during", "2026-03-10T08:30");
  read_at (site, "12.70", "after", "2026-03-10T09:00");
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsPhotoIntake) intake = shot ("IMG.jpg", rows[i].taken, i * 5);
      g_autofree char *id = add (site, intake, NULL);
      g_autoptr (GPtrArray) cards = list (site);

      g_assert_cmpstr (card_of (cards, i)->phase, ==, rows[i].phase);
    }
}

/* Missing and damaged pictures are told; the rest works, and adding the photo again mends a missing one. */
static void
test_missing (Site *site, gconstpointer data)
{
  static const struct
  {
    const char *sql;
    gboolean missing, mended;
  } rows[] = {
    { "DROP TRIGGER photo_chunk_kept; DELETE FROM photo_chunk", TRUE, TRUE },
    { "DROP TRIGGER photo_file_kept; DELETE FROM photo_file", TRUE, TRUE },
    { "DROP TRIGGER photo_chunk_fixed; UPDATE photo_chunk SET data = zeroblob (length (data))", FALSE, FALSE },
  };
  g_autoptr (HsPhotoIntake) intake = shot ("IMG_1.jpg", NULL, 0);
  g_autofree char *id = add (site, intake, NULL);

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GPtrArray) cards = NULL;
      g_autoptr (GPtrArray) faults = NULL;
      g_autoptr (GPtrArray) none = NULL;
      g_autofree char *same = NULL;
      gboolean mended = FALSE;
      guint n;

      g_assert_true (hs_photo_check (site->book, &n, &none, &site->error));
      g_assert_cmpuint (n, ==, 1);
      g_assert_cmpuint (none->len, ==, 0);
      hs_ops_test_run (site->test, rows[i].sql);
      cards = list (site);
      g_assert_cmpint (card_of (cards, 0)->missing, ==, rows[i].missing);
      g_assert_null (hs_photo_load (site->book, id, &site->error));
      g_assert_error (site->error, HS_STORE_ERROR, HS_STORE_ERROR_NOT_FOUND);
      hs_ops_test_refused (&site->error, "The picture of this photo is not in the book");
      g_assert_true (hs_photo_check (site->book, &n, &faults, &site->error));
      g_assert_cmpuint (faults->len, ==, 1);
      g_assert_cmpstr (((HsPhotoFault *) g_ptr_array_index (faults, 0))->job, ==, "A-0001");
      g_assert_cmpstr (((HsPhotoFault *) g_ptr_array_index (faults, 0))->name, ==, "IMG_1.jpg");
      g_assert_cmpuint (((HsPhotoFault *) g_ptr_array_index (faults, 0))->number, ==, 1);
      same = hs_photo_add (site->book, site->job_id, intake, NULL, NOW, &mended, &site->error);
      g_assert_cmpint (mended, ==, rows[i].mended);
      if (!rows[i].mended)
        hs_ops_test_refused (&site->error, "on this job already");
      else
        g_assert_cmpstr (same, ==, id);
    }
}

static void
test_export (Site *site, gconstpointer data)
{
  g_autoptr (HsPhotoIntake) intake = shot ("IMG_1.jpg", NULL, 0);
  g_autofree char *id = add (site, intake, NULL);
  g_autofree char *path = g_build_filename (site->test->folder, "out.jpg", NULL);
  g_autofree char *nowhere = g_build_filename (site->test->folder, "no", "out.jpg", NULL);
  g_autoptr (GFile) to = g_file_new_for_path (path);
  g_autoptr (GFile) no = g_file_new_for_path (nowhere);
  g_autofree char *text = NULL;
  gsize length;

  g_assert_true (hs_photo_export (site->book, id, to, &site->error));
  g_assert_true (g_file_get_contents (path, &text, &length, NULL));
  g_assert_cmpmem (text, length, g_bytes_get_data (intake->data, NULL), g_bytes_get_size (intake->data));
  g_assert_false (hs_photo_export (site->book, id, to, &site->error));
  hs_ops_test_refused (&site->error, "There is a file of that name already.");
  g_assert_false (hs_photo_export (site->book, id, no, &site->error));
  hs_ops_test_refused (&site->error, "The photo could not be written");
  g_assert_false (hs_photo_export (site->book, "nothing", no, &site->error));
  g_assert_nonnull (site->error);
  g_clear_error (&site->error);
}

static void
test_find (Site *site, gconstpointer data)
{
  static const char *const wrong[] = { "0", "3", "-1", "x", "" };
  g_autoptr (HsPhotoIntake) one = shot ("IMG_1.jpg", NULL, 0);
  g_autoptr (HsPhotoIntake) two = shot ("IMG_2.jpg", NULL, 9);
  g_autofree char *first = NULL;
  g_autofree char *second = NULL;

  g_assert_null (hs_photo_find (site->book, site->job_id, "1", &site->error));
  hs_ops_test_refused (&site->error, "There is no photo of this job yet.");
  first = add (site, one, NULL);
  second = add (site, two, NULL);
  for (guint i = 0; i < 2; i++)
    {
      g_autofree char *by_number = hs_photo_find (site->book, site->job_id, i == 0 ? "1" : "2", NULL);
      g_autofree char *by_id = hs_photo_find (site->book, site->job_id, i == 0 ? first : second, NULL);

      g_assert_cmpstr (by_number, ==, i == 0 ? first : second);
      g_assert_cmpstr (by_id, ==, by_number);
    }
  for (guint i = 0; i < G_N_ELEMENTS (wrong); i++)
    {
      g_assert_null (hs_photo_find (site->book, site->job_id, wrong[i], &site->error));
      hs_ops_test_refused (&site->error, "there are 1 to 2.");
    }
}

static void
test_subjects (Site *site, gconstpointer data)
{
  g_autofree char *one = find_something (site, site->job_id, "clamp loose");
  g_autofree char *two = find_something (site, site->job_id, "belt wet");
  g_autofree char *strange = find_something (site, site->other_id, "hum");
  g_autoptr (GPtrArray) subjects = hs_photo_subjects (site->book, site->job_id, &site->error);

  g_assert_cmpuint (subjects->len, ==, 2);
  g_assert_cmpstr (((HsPhotoSubject *) g_ptr_array_index (subjects, 0))->id, ==, one);
  g_assert_cmpstr (((HsPhotoSubject *) g_ptr_array_index (subjects, 0))->what, ==, "clamp loose");
  g_assert_cmpstr (((HsPhotoSubject *) g_ptr_array_index (subjects, 1))->id, ==, two);
}

/* What nobody shows and nothing can bring back goes when the next photo comes. */
static void
test_sweep (Site *site, gconstpointer data)
{
  g_autoptr (HsPhotoIntake) one = shot ("IMG_1.jpg", NULL, 0);
  g_autoptr (HsPhotoIntake) two = shot ("IMG_2.jpg", NULL, 9);
  g_autofree char *first = add (site, one, NULL);
  g_autofree char *second = NULL;

  g_assert_true (hs_photo_remove (site->book, first, NOW, &site->error));
  hs_ops_test_run (site->test, "DELETE FROM undo_step");
  second = add (site, two, NULL);
  g_assert_cmpint (hs_ops_test_count (site->test, "photo_file"), ==, 1);
}

#define ADD(name, func) g_test_add ("/ops/photo/" name, Site, NULL, site_start, func, site_end)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("add", test_add);
  ADD ("once", test_once);
  ADD ("kept-place-is-logged", test_kept_place_is_logged);
  ADD ("changes-and-undo", test_changes_and_undo);
  ADD ("refused", test_refused);
  ADD ("proof", test_proof);
  ADD ("frozen", test_frozen);
  ADD ("taken", test_taken);
  ADD ("visits", test_visits);
  ADD ("phases", test_phases);
  ADD ("missing", test_missing);
  ADD ("export", test_export);
  ADD ("find", test_find);
  ADD ("subjects", test_subjects);
  ADD ("sweep", test_sweep);
  return g_test_run ();
}
