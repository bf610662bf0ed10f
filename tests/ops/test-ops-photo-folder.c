// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The folder of a camera: what is found in it, what of it is known, and which visit it belongs to. */

#include "hs-job-op.h"
#include "hs-ops-error.h"
#include "hs-ops-test.h"
#include "hs-photo-folder.h"
#include "hs-photo-op.h"
#include "photo-test.h"

#include <glib/gstdio.h>
#include <utime.h>

#define NOW HS_OPS_TEST_NOW

typedef struct
{
  HsOpsTest *test;
  char *folder;
  char *job_id;
  GError *error;
} Camera;

static void
camera_start (Camera *camera, gconstpointer data)
{
  camera->test = hs_ops_test_open ();
  camera->folder = g_dir_make_tmp (NULL, NULL);
  hs_ops_test_fill (camera->test);
  hs_ops_test_import_ok (camera->test, "jobs",
                         "number,customer_phone,words,plate,day\n"
                         "A-0001,555-0115,dead after a weekend,TDM 5508,2026-03-10\n"
                         "A-0002,555-0117,hums,,2026-03-10\n",
                         2, 0, 0);
  camera->job_id = hs_job_find (camera->test->book, "A-0001", NULL);
}

static void
remove_all (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);

      if (g_file_test (path, G_FILE_TEST_IS_DIR) && !g_file_test (path, G_FILE_TEST_IS_SYMLINK))
        remove_all (path);
      else
        g_unlink (path);
    }
  g_rmdir (folder);
}

static void
camera_end (Camera *camera, gconstpointer data)
{
  g_assert_no_error (camera->error);
  remove_all (camera->folder);
  g_free (camera->folder);
  g_free (camera->job_id);
  hs_ops_test_close (camera->test);
}

/* A file whose disk says 12:00 of that day. */
static void
put (Camera *camera, const char *name, GBytes *data)
{
  g_autofree char *path = g_build_filename (camera->folder, name, NULL);
  g_autofree char *folder = g_path_get_dirname (path);
  struct utimbuf times = { hs_ops_test_at ("2026-03-10T12:00"), hs_ops_test_at ("2026-03-10T12:00") };

  g_assert_cmpint (g_mkdir_with_parents (folder, 0700), ==, 0);
  g_assert_true (g_file_set_contents (path, g_bytes_get_data (data, NULL), (gssize) g_bytes_get_size (data), NULL));
  g_assert_cmpint (utime (path, &times), ==, 0);
  g_bytes_unref (data);
}

static void
put_shot (Camera *camera, const char *name, const char *taken, guint shade)
{
  const PictureTold told = { TRUE, 1, taken, NULL, TRUE };

  put (camera, name, photo_jpeg (&told, 80, 40, shade));
}

static GPtrArray *
look (Camera *camera)
{
  g_autoptr (GFile) folder = g_file_new_for_path (camera->folder);
  GPtrArray *found = hs_photo_folder_scan (folder, &camera->error);

  g_assert_no_error (camera->error);
  g_assert_true (hs_photo_folder_match (camera->test->book, found, hs_ops_test_at ("2026-03-10T17:00"),
                                        &camera->error));
  return found;
}

static char *
names (GPtrArray *found)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < found->len; i++)
    g_string_append_printf (text, "%s%s", i > 0 ? " " : "", ((HsPhotoFound *) g_ptr_array_index (found, i))->name);
  return g_string_free (text, FALSE);
}

/* By content and not hidden, four folders down, newest first; a link out of the folder is not followed. */
static void
test_found (Camera *camera, gconstpointer data)
{
  g_autofree char *link = g_build_filename (camera->folder, "away", NULL);
  g_autoptr (GPtrArray) found = NULL;
  g_autofree char *said = NULL;

  put_shot (camera, "old.JPG", "2026:03:09 08:00:00", 0);
  put_shot (camera, "DCIM/100/new.jpeg", "2026:03:10 16:00:00", 1);
  put_shot (camera, "1/2/3/4/deep.jpg", "2026:03:10 15:00:00", 2);
  put_shot (camera, "1/2/3/4/5/deeper.jpg", "2026:03:10 15:00:00", 3);
  put_shot (camera, ".thumbs/hidden.jpg", "2026:03:10 15:00:00", 4);
  put (camera, "screen.png", photo_png (40, 30));
  put (camera, "text.jpg", g_bytes_new_static ("text", 4));
  put (camera, "film.mp4", g_bytes_new_static ("....ftypmp42", 12));
  g_assert_cmpint (symlink ("/usr/share", link), ==, 0);
  found = look (camera);
  said = names (found);
  g_assert_cmpstr (said, ==, "new.jpeg deep.jpg screen.png old.JPG");
}

static void
test_nothing (Camera *camera, gconstpointer data)
{
  g_autoptr (GPtrArray) found = look (camera);
  g_autoptr (GFile) nowhere = g_file_new_for_path ("/nowhere/at/all");

  g_assert_cmpuint (found->len, ==, 0);
  g_assert_null (hs_photo_folder_scan (nowhere, &camera->error));
  hs_ops_test_refused (&camera->error, "“/nowhere/at/all” is no folder that can be read");
}

static const HsPhotoFound *
find (GPtrArray *found, const char *name)
{
  for (guint i = 0; i < found->len; i++)
    if (g_str_equal (((HsPhotoFound *) g_ptr_array_index (found, i))->name, name))
      return g_ptr_array_index (found, i);
  g_error ("%s was not found", name);
}

/* Known by name and moment once it was added, under whichever job; another of that name is new. */
static void
test_known (Camera *camera, gconstpointer data)
{
  static const char *const known[] = { "IMG_1.jpg", "screen.png" };
  g_autoptr (GPtrArray) before = NULL;
  g_autoptr (GPtrArray) after = NULL;

  put_shot (camera, "IMG_1.jpg", "2026:03:10 08:00:00", 0);
  put_shot (camera, "IMG_2.jpg", "2026:03:10 08:00:00", 1);
  put (camera, "screen.png", photo_png (40, 30));
  before = look (camera);
  for (guint i = 0; i < before->len; i++)
    g_assert_false (((HsPhotoFound *) g_ptr_array_index (before, i))->known);
  for (guint i = 0; i < G_N_ELEMENTS (known); i++)
    {
      g_autoptr (GFile) file = g_file_new_for_uri (find (before, known[i])->uri);
      g_autoptr (HsPhotoIntake) intake = hs_photo_intake_read (file, FALSE, &camera->error);
      g_autofree char *id = hs_photo_add (camera->test->book, camera->job_id, intake, NULL, NOW, NULL, &camera->error);

      g_assert_no_error (camera->error);
    }
  put_shot (camera, "101/IMG_1.jpg", "2026:03:10 09:00:00", 2);
  after = look (camera);
  g_assert_cmpuint (after->len, ==, 4);
  for (guint i = 0; i < after->len; i++)
    {
      const HsPhotoFound *one = g_ptr_array_index (after, i);
      gboolean other = g_str_has_suffix (one->uri, "101/IMG_1.jpg");

      g_assert_cmpint (one->known, ==, !g_str_equal (one->name, "IMG_2.jpg") && !other);
    }
}

/* A-0001 from 08:00 to 09:00, A-0002 from 09:10 on. Without a camera's time the disk's counts: 12:00. */
static void
test_matched (Camera *camera, gconstpointer data)
{
  static const struct
  {
    const char *name, *taken, *job, *plate;
  } rows[] = {
    { "1.jpg", "2026:03:10 07:29:00", NULL, NULL },       { "2.jpg", "2026:03:10 07:31:00", "A-0001", "TDM 5508" },
    { "3.jpg", "2026:03:10 08:30:00", "A-0001", "TDM 5508" }, { "4.jpg", "2026:03:10 09:04:00", "A-0001", "TDM 5508" },
    { "5.jpg", "2026:03:10 09:06:00", "A-0002", NULL },   { "6.jpg", NULL, "A-0002", NULL },
    { "7.jpg", "2026:03:11 09:06:00", NULL, NULL },
  };
  g_autofree char *other_id = hs_job_find (camera->test->book, "A-0002", NULL);
  g_autofree char *sql = g_strdup_printf (
      "INSERT INTO visit (id, job_id, arrived_at, left_at) VALUES"
      " ('v1', '%s', %" G_GINT64_FORMAT ", %" G_GINT64_FORMAT "), ('v2', '%s', %" G_GINT64_FORMAT ", NULL)",
      camera->job_id, hs_ops_test_at ("2026-03-10T08:00"), hs_ops_test_at ("2026-03-10T09:00"), other_id,
      hs_ops_test_at ("2026-03-10T09:10"));

  hs_ops_test_run (camera->test, sql);
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    put_shot (camera, rows[i].name, rows[i].taken, i * 5);
  for (guint squared = 0; squared < 2; squared++)
    {
      g_autoptr (GPtrArray) found = look (camera);

      for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
        {
          const HsPhotoFound *one = find (found, rows[i].name);
          gboolean shut = squared == 1 && g_strcmp0 (rows[i].job, "A-0001") == 0;

          g_test_message ("%s", rows[i].name);
          /* 09:04 is near enough to the other visit too. */
          g_assert_cmpstr (one->job, ==, !shut ? rows[i].job : i == 3 ? "A-0002" : NULL);
          g_assert_cmpstr (one->plate, ==, shut ? NULL : rows[i].plate);
        }
      if (squared == 0)
        photo_square_up (camera->test->book, camera->job_id);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add ("/ops/photo-folder/found", Camera, NULL, camera_start, test_found, camera_end);
  g_test_add ("/ops/photo-folder/nothing", Camera, NULL, camera_start, test_nothing, camera_end);
  g_test_add ("/ops/photo-folder/known", Camera, NULL, camera_start, test_known, camera_end);
  g_test_add ("/ops/photo-folder/matched", Camera, NULL, camera_start, test_matched, camera_end);
  return g_test_run ();
}
