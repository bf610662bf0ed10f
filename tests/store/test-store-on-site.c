// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The work on site in the book: bytes of photos by their content, and the lists of what hangs on a job or a model. */

#include <string.h>

#include "book.h"
#include "hs-advice-row.h"
#include "hs-disturbed-row.h"
#include "hs-model-note-row.h"
#include "hs-photo-file.h"
#include "hs-photo-row.h"
#include "hs-store-private.h"
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
  g_assert_cmpint (sqlite3_close (db), ==, SQLITE_OK);
  place->store = test_book_open (place->folder, "test.hsbook", HS_STORE_WRITE);
  g_assert_true (hs_store_begin (place->store, TEST_NOW, &place->error));
}

static void
tear_down (Place *place, gconstpointer data)
{
  g_assert_no_error (place->error);
  hs_store_close (place->store);
  test_folder_remove (place->folder);
}

#define count(place, what) test_int ((place)->store->db, "SELECT count (*) FROM " what)

/* Photos ----------------------------------------------------------------------------------------------------------- */

static GBytes *
picture (gsize size, guint seed)
{
  guint8 *data = g_malloc (size);

  for (gsize i = 0; i < size; i++)
    data[i] = (guint8) ((i + seed) * 2654435761u >> 24);
  return g_bytes_new_take (data, size);
}

static HsPhotoFile *
add_picture (Place *place, GBytes *data)
{
  HsPhotoFile *file = hs_photo_file_new ();

  hs_row_set (&file->media_type, "image/jpeg");
  file->width = 40;
  file->height = 30;
  file->thumbnail = g_bytes_new_static ("small", 5);
  g_assert_true (hs_photo_file_add (place->store, file, data, &place->error));
  g_assert_no_error (place->error);
  return file;
}

static const struct
{
  gsize size;
  guint n_chunks;
  gsize last;
} sizes[] = {
  { 1, 1, 1 },
  { 65535, 1, 65535 },
  { 65536, 1, 65536 },
  { 65537, 2, 1 },
  { 131072, 2, 65536 },
  { 200000, 4, 3392 },
};

static void
test_sizes (Place *place, gconstpointer data)
{
  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      g_autoptr (GBytes) whole = picture (sizes[i].size, i);
      g_autofree char *sum = g_compute_checksum_for_bytes (G_CHECKSUM_SHA256, whole);
      g_autoptr (HsPhotoFile) file = add_picture (place, whole);
      g_autoptr (HsPhotoFile) found = NULL;
      g_autoptr (GBytes) back = NULL;
      g_autoptr (GBytes) last = NULL;

      g_assert_cmpstr (file->id, ==, sum);
      g_assert_true (hs_photo_file_find (place->store, sum, &found, &place->error));
      g_assert_cmpint (found->bytes, ==, sizes[i].size);
      g_assert_cmpint (found->width, ==, 40);
      g_assert_cmpint (found->height, ==, 30);
      g_assert_cmpstr (found->media_type, ==, "image/jpeg");
      g_assert_true (g_bytes_equal (found->thumbnail, file->thumbnail));
      g_assert_true (hs_photo_file_load_data (place->store, sum, &back, &place->error));
      g_assert_true (g_bytes_equal (back, whole));
      g_assert_true (hs_photo_file_load_chunk (place->store, sum, sizes[i].n_chunks - 1, &last, &place->error));
      g_assert_cmpuint (g_bytes_get_size (last), ==, sizes[i].last);
      assert_refused (hs_photo_file_load_chunk (place->store, sum, sizes[i].n_chunks, &last, &place->error),
                      place->error, HS_STORE_ERROR_NOT_FOUND, "not in the book");
      g_clear_error (&place->error);
    }
}

/* The same photo twice stands in the book once; nothing of the bytes is in the log. */
static void
test_once (Place *place, gconstpointer data)
{
  g_autoptr (GBytes) whole = picture (70000, 1);
  gint64 logged = count (place, "change_log");
  g_autoptr (HsPhotoFile) one = add_picture (place, whole);
  gint64 chunks = count (place, "photo_chunk");
  g_autoptr (HsPhotoFile) other = add_picture (place, whole);

  g_assert_cmpstr (one->id, ==, other->id);
  g_assert_cmpint (count (place, "photo_chunk"), ==, chunks);
  g_assert_cmpint (count (place, "change_log"), ==, logged);
}

static void
test_refused (Place *place, gconstpointer data)
{
  g_autoptr (HsPhotoFile) file = hs_photo_file_new ();
  g_autoptr (GBytes) whole = picture (10, 1);
  g_autoptr (GBytes) nothing = g_bytes_new_static ("", 0);
  guint n;

  hs_row_set (&file->media_type, "image/svg+xml");
  file->width = file->height = 1;
  assert_refused (hs_photo_file_add (place->store, file, whole, &place->error), place->error, HS_STORE_ERROR_REFUSED,
                  "JPEG, PNG or WebP");
  g_clear_error (&place->error);
  hs_row_set (&file->media_type, "image/png");
  assert_refused (hs_photo_file_add (place->store, file, nothing, &place->error), place->error,
                  HS_STORE_ERROR_REFUSED, "not empty");
  g_clear_error (&place->error);
  hs_store_rollback (place->store);
  assert_refused (hs_photo_file_add (place->store, file, whole, &place->error), place->error, HS_STORE_ERROR_FAILED,
                  "transaction");
  g_clear_error (&place->error);
  assert_refused (hs_photo_file_sweep (place->store, &n, &place->error), place->error, HS_STORE_ERROR_FAILED,
                  "transaction");
  g_clear_error (&place->error);
}

/* Missing, without a piece, or with another piece: an answer with its own code, and no bytes. */
static void
test_missing (Place *place, gconstpointer data)
{
  static const char *const harms[] = {
    "DELETE FROM photo_file WHERE bytes = 70000",
    "DROP TRIGGER photo_chunk_kept; DELETE FROM photo_chunk WHERE n = 1",
    "DROP TRIGGER photo_chunk_fixed; UPDATE photo_chunk SET data = zeroblob (length (data)) WHERE n = 1",
  };
  g_autoptr (GBytes) whole = picture (70000, 3);
  g_autofree char *sum = g_compute_checksum_for_bytes (G_CHECKSUM_SHA256, whole);

  for (guint i = 0; i < G_N_ELEMENTS (harms); i++)
    {
      g_autoptr (HsPhotoFile) file = NULL;
      g_autoptr (GBytes) back = NULL;

      g_assert_true (hs_store_begin (place->store, TEST_NOW, &place->error));
      file = add_picture (place, whole);
      g_assert_cmpint (sqlite3_db_config (place->store->db, SQLITE_DBCONFIG_DEFENSIVE, 0, NULL), ==, SQLITE_OK);
      test_run (place->store->db, harms[i]);
      assert_refused (hs_photo_file_load_data (place->store, sum, &back, &place->error), place->error,
                      HS_STORE_ERROR_NOT_FOUND, "not in the book");
      g_assert_null (back);
      g_clear_error (&place->error);
      hs_store_rollback (place->store);
    }
  {
    g_autoptr (HsPhotoFile) found = NULL;

    g_assert_true (hs_photo_file_find (place->store, sum, &found, &place->error));
    g_assert_null (found);
  }
}

static void
test_sweep (Place *place, gconstpointer data)
{
  g_autoptr (GBytes) whole = picture (70000, 3);
  g_autoptr (HsPhotoFile) file = add_picture (place, whole);
  g_autoptr (HsPhotoRow) photo = hs_photo_row_new ();
  guint n = 99;

  hs_row_set (&photo->job_id, "open");
  hs_row_set (&photo->file_id, file->id);
  hs_row_set (&photo->phase, "before");
  photo->added_at = 1;
  g_assert_true (hs_photo_row_save (place->store, photo, &place->error));
  g_assert_true (hs_photo_file_sweep (place->store, &n, &place->error));
  g_assert_cmpuint (n, ==, 0);
  g_assert_true (hs_photo_row_delete (place->store, photo->id, &place->error));
  g_assert_true (hs_photo_file_sweep (place->store, &n, &place->error));
  g_assert_cmpuint (n, ==, 1);
  g_assert_cmpint (count (place, "photo_file"), ==, 1);
  g_assert_cmpint (count (place, "photo_chunk"), ==, 1);
}

/* Lists ------------------------------------------------------------------------------------------------------------ */

/* Pieces that went missing come back when the same photo is added again; what is whole is told without reading it. */
static void
test_put_back (Place *place, gconstpointer data)
{
  static const struct
  {
    const char *lost;
    gboolean whole;
  } rows[] = {
    { "SELECT 1", TRUE },
    { "DROP TRIGGER photo_chunk_kept; DELETE FROM photo_chunk WHERE n = 1", FALSE },
    { "DELETE FROM photo_chunk WHERE n = 0", FALSE },
    { "DELETE FROM photo_chunk", FALSE },
  };
  g_autoptr (GBytes) whole = picture (140000, 5);
  g_autoptr (HsPhotoFile) file = add_picture (place, whole);
  gboolean there;

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GBytes) back = NULL;
      g_autoptr (HsPhotoFile) again = NULL;

      test_run (place->store->db, rows[i].lost);
      g_assert_true (hs_photo_file_is_whole (place->store, file->id, &there, &place->error));
      g_assert_cmpint (there, ==, rows[i].whole);
      again = add_picture (place, whole);
      g_assert_true (hs_photo_file_load_data (place->store, file->id, &back, &place->error));
      g_assert_true (g_bytes_equal (back, whole));
    }
  g_assert_true (hs_photo_file_is_whole (place->store, "nothing", &there, &place->error));
  g_assert_false (there);
}

/* The ids of rows, whose first field is theirs. */
static char *
ids (GPtrArray *rows)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < rows->len; i++)
    g_string_append_printf (text, "%s%s", i > 0 ? " " : "", *(char **) rows->pdata[i]);
  return g_string_free (text, FALSE);
}

#define assert_list(list, expected) G_STMT_START { \
    g_autoptr (GPtrArray) rows_ = NULL; \
    g_autofree char *ids_ = NULL; \
    g_assert_true (list); \
    ids_ = ids (rows_); \
    g_assert_cmpstr (ids_, ==, expected); \
  } G_STMT_END

static void
test_of_job (Place *place, gconstpointer data)
{
  g_autoptr (HsSafetyRow) answer = NULL;
  g_autoptr (HsSafetyRow) none = NULL;
  HsStore *store = place->store;
  GError **error = &place->error;

  test_run (store->db, "INSERT INTO photo (id, job_id, file_id, phase, added_at) SELECT 'p2', 'open', file_id, phase, 1"
                       " FROM photo WHERE id = 'p-open'; INSERT INTO disturbed (id, job_id, what) VALUES"
                       " ('d2', 'open', 'belt'); INSERT INTO safety (id, visit_id, item, answer, at) VALUES"
                       " ('s2', 'vi-open', 'traffic', 'done', 1)");
  assert_list (hs_photo_row_list_of (store, "open", &rows_, error), "p-open p2");
  assert_list (hs_photo_row_list_of (store, "nothing", &rows_, error), "");
  assert_list (hs_disturbed_row_list_of (store, "open", &rows_, error), "d-open d2");
  assert_list (hs_safety_row_list_of (store, "vi-open", &rows_, error), "s-vi-open s2");
  g_assert_true (hs_safety_row_find (store, "vi-open", "traffic", &answer, error));
  g_assert_cmpstr (answer->id, ==, "s2");
  g_assert_true (hs_safety_row_find (store, "vi-open2", "traffic", &none, error));
  g_assert_null (none);
}

/* Photos of the whole book, and one by what a camera says of it. */
static void
test_of_camera (Place *place, gconstpointer data)
{
  static const struct
  {
    const char *name;
    HsInstant at;
    const char *found;
  } rows[] = {
    { "IMG_1.jpg", 100, "timed" }, { "IMG_1.jpg", 101, NULL }, { "IMG_2.jpg", 100, NULL },
    { "IMG_1.jpg", HS_INSTANT_NONE, "untimed" },
  };
  g_autoptr (GPtrArray) all = NULL;

  test_run (place->store->db,
            "INSERT INTO photo (id, job_id, file_id, phase, added_at, name, taken_at) SELECT 'timed', 'open', file_id,"
            " phase, 1, 'IMG_1.jpg', 100 FROM photo WHERE id = 'p-open' UNION ALL SELECT 'untimed', 'open', file_id,"
            " phase, 1, 'IMG_1.jpg', NULL FROM photo WHERE id = 'p-open'");
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsPhotoRow) found = NULL;

      g_assert_true (hs_photo_row_find (place->store, rows[i].name, rows[i].at, &found, &place->error));
      g_assert_cmpstr (found != NULL ? found->id : NULL, ==, rows[i].found);
    }
  g_assert_true (hs_photo_row_list (place->store, &all, &place->error));
  g_assert_cmpint (all->len, ==, count (place, "photo"));
}

/* Visits that were on at some time; one that is not over goes on, one that has not begun is none. */
static void
test_visits_during (Place *place, gconstpointer data)
{
  HsStore *store = place->store;
  GError **error = &place->error;

  test_run (store->db, "UPDATE visit SET rolling_at = NULL, arrived_at = NULL, left_at = NULL;"
                       "UPDATE visit SET rolling_at = 10, arrived_at = 20, left_at = 30 WHERE id = 'vi-open';"
                       "UPDATE visit SET arrived_at = 25 WHERE id = 'vi-open2'");
  assert_list (hs_visit_row_list_during (store, 5, 10, &rows_, error), "");
  assert_list (hs_visit_row_list_during (store, 5, 11, &rows_, error), "vi-open");
  assert_list (hs_visit_row_list_during (store, 29, 40, &rows_, error), "vi-open vi-open2");
  assert_list (hs_visit_row_list_during (store, 30, 40, &rows_, error), "vi-open2");
}

static void
test_option (Place *place, gconstpointer data)
{
  HsStore *store = place->store;
  guint n = 9;
  gint64 cents = 9;

  test_run (store->db, "INSERT INTO advice_line (id, advice_id, kind, what, price_cents, tax_cents) VALUES"
                       " ('al2', 'a-open', 'discount', 'x', -100, -8)");
  assert_list (hs_advice_line_row_list_of (store, "a-open", &rows_, &place->error), "al-open al2");
  g_assert_true (hs_advice_line_row_sum (store, "a-open", &n, &cents, &place->error));
  g_assert_cmpuint (n, ==, 2);
  g_assert_cmpint (cents, ==, 19538 + 1563 - 108);
  g_assert_true (hs_advice_line_row_sum (store, "nothing", &n, &cents, &place->error));
  g_assert_cmpuint (n, ==, 0);
  g_assert_cmpint (cents, ==, 0);
}

static const struct
{
  const char *make;
  const char *model;
  gint64 year;
  const char *found;
} models[] = {
  { "Vostle", "Crag", HS_INT_NONE, "caution until since all" },
  { "VOSTLE", "crag", HS_INT_NONE, "caution until since all" },
  { "Vostle", "Crag", 2013, "until all" },
  { "Vostle", "Crag", 2014, "until all" },
  { "Vostle", "Crag", 2015, "caution since all" },
  { "Vostle", "Crag", 2016, "since all" },
  { "Vostle", "Nib", 2016, "nib" },
  { "Halvik", "Crag", 2016, "" },
};

static void
test_notes (Place *place, gconstpointer data)
{
  test_run (place->store->db,
            "INSERT INTO model_note (id, make, model, year_from, year_to, topic, words, at) VALUES"
            " ('all', 'Vostle', 'Crag', NULL, NULL, 'place', 'x', 1),"
            " ('nib', 'Vostle', 'Nib', NULL, NULL, 'place', 'x', 1),"
            " ('caution', 'Vostle', 'Crag', 2015, 2015, 'caution', 'x', 1),"
            " ('since', 'Vostle', 'Crag', 2015, NULL, 'knack', 'x', 1),"
            " ('until', 'Vostle', 'Crag', NULL, 2014, 'part_name', 'x', 1)");
  for (guint i = 0; i < G_N_ELEMENTS (models); i++)
    assert_list (hs_model_note_row_list_of (place->store, models[i].make, models[i].model, models[i].year, &rows_,
                                            &place->error), models[i].found);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add ("/store/photo/sizes", Place, NULL, set_up, test_sizes, tear_down);
  g_test_add ("/store/photo/once", Place, NULL, set_up, test_once, tear_down);
  g_test_add ("/store/photo/refused", Place, NULL, set_up, test_refused, tear_down);
  g_test_add ("/store/photo/put-back", Place, NULL, set_up, test_put_back, tear_down);
  g_test_add ("/store/photo/of-camera", Place, NULL, set_up, test_of_camera, tear_down);
  g_test_add ("/store/photo/visits-during", Place, NULL, set_up, test_visits_during, tear_down);
  g_test_add ("/store/photo/missing", Place, NULL, set_up, test_missing, tear_down);
  g_test_add ("/store/photo/sweep", Place, NULL, set_up, test_sweep, tear_down);
  g_test_add ("/store/on-site/of-a-job", Place, NULL, set_up, test_of_job, tear_down);
  g_test_add ("/store/on-site/option", Place, NULL, set_up, test_option, tear_down);
  g_test_add ("/store/on-site/notes", Place, NULL, set_up, test_notes, tear_down);
  return g_test_run ();
}
