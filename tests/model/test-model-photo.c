// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Photos as the pages ask for and write them: each argument arrives where it belongs, what takes long keeps nobody
 * waiting, and what is refused keeps nothing else out. */

#include "hs-ask-photo.h"
#include "hs-deed-photo.h"
#include "hs-deed.h"
#include "hs-job-op.h"
#include "model-book.h"

#include <gdk-pixbuf/gdk-pixbuf.h>
#include <glib/gstdio.h>

typedef struct
{
  gboolean done;
  HsPhotoReport *report;
  HsPixels *pixels;
  GPtrArray *found;
  GError *error;
} Outcome;

static gboolean
is_done (gpointer data)
{
  return ((Outcome *) data)->done;
}

static void
added_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  ((Outcome *) data)->report = hs_photos_add_finish (HS_LEDGER (source), result);
  ((Outcome *) data)->done = TRUE;
}

static void
shown_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  Outcome *outcome = data;

  outcome->pixels = hs_photo_show_finish (HS_LEDGER (source), result, &outcome->error);
  outcome->done = TRUE;
}

static void
looked_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  Outcome *outcome = data;

  outcome->found = hs_photo_look_finish (HS_LEDGER (source), result, &outcome->error);
  outcome->done = TRUE;
}

static void
deed_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  Outcome *outcome = data;

  hs_ledger_task_finish (HS_LEDGER (source), result, NULL, &outcome->error);
  outcome->done = TRUE;
}

static char *
put (ModelBook *book, const char *name, int width, guint32 color)
{
  g_autoptr (GdkPixbuf) pixbuf = gdk_pixbuf_new (GDK_COLORSPACE_RGB, FALSE, 8, width, 40);
  g_autofree char *path = g_build_filename (book->folder, name, NULL);

  gdk_pixbuf_fill (pixbuf, color);
  g_assert_true (gdk_pixbuf_save (pixbuf, path, "jpeg", NULL, NULL));
  return g_filename_to_uri (path, NULL, NULL);
}

static void
clear_folder (ModelBook *book)
{
  g_autoptr (GDir) dir = g_dir_open (book->folder, 0, NULL);
  const char *name;

  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (book->folder, name, NULL);

      if (g_str_has_suffix (name, ".jpg"))
        g_unlink (path);
    }
}

static HsPhotoReport *
add (ModelBook *book, GPtrArray *orders)
{
  Outcome outcome = { FALSE };

  hs_photos_add_async (book->ledger, orders, FALSE, added_cb, &outcome);
  model_wait (is_done, &outcome);
  g_assert_nonnull (outcome.report);
  return outcome.report;
}

static HsJobShot *
shot_of (ModelBook *book, const char *job_id)
{
  return model_ask (book->ledger, hs_ask_job, g_variant_new ("(s)", job_id));
}

static const HsPhotoCard *
only_photo (const HsJobShot *shot)
{
  g_assert_cmpuint (shot->photos->len, ==, 1);
  return g_ptr_array_index (shot->photos, 0);
}

static char *
add_one (ModelBook *book, char **ret_job)
{
  GPtrArray *orders = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_photo_order_free);
  g_autofree char *uri = put (book, "one.jpg", 640, 0xff0000ff);
  g_autoptr (HsPhotoReport) report = NULL;
  HsJobShot *shot;
  char *id;

  *ret_job = model_ask (book->ledger, hs_ask_job_number, g_variant_new ("(s)", "A-0021"));
  g_ptr_array_add (orders, hs_photo_order_new (uri, *ret_job));
  report = add (book, orders);
  g_assert_cmpuint (report->n_added, ==, 1);
  shot = shot_of (book, *ret_job);
  id = g_strdup (only_photo (shot)->id);
  hs_job_shot_free (shot);
  return id;
}

/* Three files for two jobs, one of them no photo: two are in, and the third is named. */
static void
test_add (ModelBook *book, gconstpointer data)
{
  GPtrArray *orders = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_photo_order_free);
  g_autofree char *one_job = model_ask (book->ledger, hs_ask_job_number, g_variant_new ("(s)", "A-0021"));
  g_autofree char *other_job = model_ask (book->ledger, hs_ask_job_number, g_variant_new ("(s)", "A-0022"));
  g_autofree char *red = put (book, "red.jpg", 80, 0xff0000ff);
  g_autofree char *blue = put (book, "blue.jpg", 80, 0x0000ffff);
  g_autoptr (HsPhotoReport) report = NULL;
  HsJobShot *shot;

  g_ptr_array_add (orders, hs_photo_order_new (red, one_job));
  g_ptr_array_add (orders, hs_photo_order_new ("file:///nowhere/at/all.jpg", one_job));
  g_ptr_array_add (orders, hs_photo_order_new (blue, other_job));
  report = add (book, orders);
  g_assert_cmpuint (report->n_added, ==, 2);
  g_assert_cmpuint (report->n_mended, ==, 0);
  g_assert_cmpuint (report->n_bared, ==, 0);
  g_assert_cmpuint (report->refused->len, ==, 1);
  g_assert_true (g_str_has_prefix (g_ptr_array_index (report->refused, 0), "“all.jpg”: "));
  shot = shot_of (book, one_job);
  g_assert_cmpstr (only_photo (shot)->name, ==, "red.jpg");
  hs_job_shot_free (shot);
  shot = shot_of (book, other_job);
  g_assert_cmpstr (only_photo (shot)->name, ==, "blue.jpg");
  hs_job_shot_free (shot);
  clear_folder (book);
}

static void
test_show (ModelBook *book, gconstpointer data)
{
  g_autofree char *job = NULL;
  g_autofree char *id = add_one (book, &job);
  HsPixels *small = model_ask (book->ledger, hs_ask_photo_small, g_variant_new ("(s)", id));
  Outcome large = { FALSE }, none = { FALSE };

  g_assert_cmpint (small->width, ==, HS_PHOTO_THUMBNAIL);
  hs_pixels_free (small);
  hs_photo_show_async (book->ledger, id, 500, shown_cb, &large);
  model_wait (is_done, &large);
  g_assert_no_error (large.error);
  g_assert_cmpint (large.pixels->width, ==, 500);
  hs_pixels_free (large.pixels);
  hs_photo_show_async (book->ledger, "nothing", 500, shown_cb, &none);
  model_wait (is_done, &none);
  g_assert_null (none.pixels);
  g_assert_nonnull (none.error);
  g_clear_error (&none.error);
  clear_folder (book);
}

static void
finish_deed (Outcome *outcome)
{
  model_wait (is_done, outcome);
  g_assert_no_error (outcome->error);
  outcome->done = FALSE;
}

static void
test_deeds (ModelBook *book, gconstpointer data)
{
  g_autofree char *job = NULL;
  g_autofree char *id = add_one (book, &job);
  g_autofree char *to = g_build_filename (book->folder, "out.jpg", NULL);
  g_autofree char *uri = g_filename_to_uri (to, NULL, NULL);
  Outcome outcome = { FALSE };
  const HsPhotoSubject *subject;
  HsJobShot *shot;

  hs_deed_note_finding (book->ledger, job, "clamp loose", deed_cb, &outcome);
  finish_deed (&outcome);
  shot = shot_of (book, job);
  subject = g_ptr_array_index (shot->photo_subjects, shot->photo_subjects->len - 1);
  g_assert_cmpstr (subject->what, ==, "clamp loose");
  hs_deed_bind_photo (book->ledger, id, subject->id, deed_cb, &outcome);
  finish_deed (&outcome);
  hs_job_shot_free (shot);
  hs_deed_set_photo_phase (book->ledger, id, "during", deed_cb, &outcome);
  finish_deed (&outcome);
  hs_deed_write_photo (book->ledger, id, uri, deed_cb, &outcome);
  finish_deed (&outcome);
  g_assert_true (g_file_test (to, G_FILE_TEST_IS_REGULAR));
  shot = shot_of (book, job);
  g_assert_cmpstr (only_photo (shot)->finding, ==, "clamp loose");
  g_assert_cmpstr (only_photo (shot)->phase, ==, "during");
  hs_job_shot_free (shot);
  hs_deed_bind_photo (book->ledger, id, NULL, deed_cb, &outcome);
  finish_deed (&outcome);
  hs_deed_remove_photo (book->ledger, id, deed_cb, &outcome);
  finish_deed (&outcome);
  shot = shot_of (book, job);
  g_assert_cmpuint (shot->photos->len, ==, 0);
  hs_job_shot_free (shot);
  hs_deed_remove_photo (book->ledger, id, deed_cb, &outcome);
  model_wait (is_done, &outcome);
  g_assert_nonnull (outcome.error);
  g_clear_error (&outcome.error);
  clear_folder (book);
}

static void
test_look (ModelBook *book, gconstpointer data)
{
  g_autofree char *job = NULL;
  g_autofree char *id = add_one (book, &job);
  g_autofree char *other = put (book, "two.jpg", 80, 0x00ff00ff);
  g_autoptr (GFile) folder = g_file_new_for_path (book->folder);
  g_autoptr (GFile) nowhere = g_file_new_for_path ("/nowhere/at/all");
  Outcome outcome = { FALSE }, none = { FALSE };

  hs_photo_look_async (book->ledger, folder, looked_cb, &outcome);
  model_wait (is_done, &outcome);
  g_assert_no_error (outcome.error);
  g_assert_cmpuint (outcome.found->len, ==, 2);
  for (guint i = 0; i < 2; i++)
    {
      const HsPhotoFound *one = g_ptr_array_index (outcome.found, i);

      g_assert_cmpint (one->known, ==, g_str_equal (one->name, "one.jpg"));
    }
  g_ptr_array_unref (outcome.found);
  hs_photo_look_async (book->ledger, nowhere, looked_cb, &none);
  model_wait (is_done, &none);
  g_assert_null (none.found);
  g_assert_nonnull (none.error);
  g_clear_error (&none.error);
  clear_folder (book);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add ("/model/photo/add", ModelBook, NULL, model_book_open, test_add, model_book_close);
  g_test_add ("/model/photo/show", ModelBook, NULL, model_book_open, test_show, model_book_close);
  g_test_add ("/model/photo/deeds", ModelBook, NULL, model_book_open, test_deeds, model_book_close);
  g_test_add ("/model/photo/look", ModelBook, NULL, model_book_open, test_look, model_book_close);
  return g_test_run ();
}
