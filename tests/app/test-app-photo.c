// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The photos of a job by keyboard alone: added, looked at, bound, taken away and taken back; a camera's folder; a photo
 * whose picture is missing. */

#include "app-book.h"
#include "hs-app-test.h"
#include "hs-camera-window.h"
#include "hs-deed.h"
#include "hs-job-page.h"
#include "hs-photo-frame.h"
#include "hs-photo-pane.h"
#include "hs-photo-row.h"
#include "hs-photo-strip.h"
#include "hs-photo-window.h"
#include "hs-visit-row.h"

#include <gdk-pixbuf/gdk-pixbuf.h>
#include <glib/gstdio.h>

/* A gradient, so that a picture shows which way up it is. */
static GFile *
put (AppBook *book, const char *name, int width, int height, guint blue)
{
  g_autoptr (GdkPixbuf) pixbuf = gdk_pixbuf_new (GDK_COLORSPACE_RGB, FALSE, 8, width, height);
  g_autofree char *path = g_build_filename (book->folder, "camera", name, NULL);
  g_autofree char *folder = g_path_get_dirname (path);
  guint8 *pixels = gdk_pixbuf_get_pixels (pixbuf);

  for (int y = 0; y < height; y++)
    for (int x = 0; x < width; x++)
      {
        guint8 *at = pixels + y * gdk_pixbuf_get_rowstride (pixbuf) + x * 3;

        at[0] = (guint8) (255 * x / width);
        at[1] = (guint8) (255 * y / height);
        at[2] = (guint8) blue;
      }
  g_mkdir_with_parents (folder, 0700);
  g_assert_true (gdk_pixbuf_save (pixbuf, path, "jpeg", NULL, NULL));
  return g_file_new_for_path (path);
}

static void
close_book (AppBook *book, gconstpointer data)
{
  static const char *const names[] = { "one.jpg", "two.jpg", "three.jpg", "bad.jpg" };
  g_autofree char *folder = g_build_filename (book->folder, "camera", NULL);

  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autofree char *path = g_build_filename (folder, names[i], NULL);

      g_unlink (path);
    }
  g_rmdir (folder);
  app_book_close (book, data);
}

static HsPhotoPane *
pane_of (GtkWidget *page)
{
  return HS_PHOTO_PANE (hs_app_test_find (page, HS_TYPE_PHOTO_PANE));
}

static GtkFlowBox *
flow_of (GtkWidget *page)
{
  return GTK_FLOW_BOX (hs_app_test_find (hs_app_test_find (page, HS_TYPE_PHOTO_STRIP), GTK_TYPE_FLOW_BOX));
}

static guint
count_photos (GtkWidget *page)
{
  guint n = 0;

  while (gtk_flow_box_get_child_at_index (flow_of (page), (int) n) != NULL)
    n++;
  return n;
}

/* From the readings by F9 twice. */
static void
show_photos (AppBook *book, GtkWidget *page)
{
  for (guint i = 0; i < 2; i++)
    g_assert_true (gtk_widget_activate_action (page, "page.side", NULL));
  app_book_settle (book);
}

static void
press (AppBook *book, guint keyval)
{
  app_book_press (book, keyval);
  app_book_settle (book);
}

static void
add_two (AppBook *book, GtkWidget *page)
{
  g_autoptr (GListStore) files = g_list_store_new (G_TYPE_FILE);
  g_autoptr (GFile) one = put (book, "one.jpg", 640, 480, 40);
  g_autoptr (GFile) two = put (book, "two.jpg", 300, 500, 200);

  g_list_store_append (files, one);
  g_list_store_append (files, two);
  hs_photo_pane_add (pane_of (page), G_LIST_MODEL (files));
  hs_app_test_wait (count_photos (page) == 2);
  app_book_settle (book);
  hs_photo_pane_focus (pane_of (page));
}

static GtkWidget *
frame_at (GtkWidget *page, int i)
{
  return hs_app_test_find (GTK_WIDGET (gtk_flow_box_get_child_at_index (flow_of (page), i)), HS_TYPE_PHOTO_FRAME);
}

static void
test_add (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0021", "findings");

  show_photos (book, page);
  g_assert_true (hs_app_test_says (page, "No photos of this job yet"));
  hs_app_test_picture (GTK_WIDGET (book->window), "photos-none");
  add_two (book, page);
  hs_app_test_wait (hs_photo_frame_has_picture (HS_PHOTO_FRAME (frame_at (page, 0)))
                    && hs_photo_frame_has_picture (HS_PHOTO_FRAME (frame_at (page, 1))));
  g_assert_true (hs_app_test_says (page, "1 · before"));
  g_assert_true (hs_app_test_says (page, "2 · before"));
  g_assert_true (hs_app_test_says (GTK_WIDGET (book->window), "2 photos added."));
  hs_app_test_picture (GTK_WIDGET (book->window), "photos");
}

/* The same again, and one that is none: said in one sentence, and nothing else happens. */
static void
test_refused (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0021", "findings");
  g_autoptr (GListStore) files = g_list_store_new (G_TYPE_FILE);
  g_autofree char *path = g_build_filename (book->folder, "camera", "bad.jpg", NULL);
  g_autoptr (GFile) bad = g_file_new_for_path (path);

  show_photos (book, page);
  add_two (book, page);
  g_assert_true (g_file_set_contents (path, "<svg/>", -1, NULL));
  g_list_store_append (files, bad);
  hs_photo_pane_add (pane_of (page), G_LIST_MODEL (files));
  hs_app_test_wait (hs_app_test_says_part (GTK_WIDGET (book->window), "“bad.jpg”: The file is a drawing"));
  g_assert_cmpuint (count_photos (page), ==, 2);
}

static const char *
chosen (GtkWidget *page)
{
  return hs_photo_strip_get_chosen (HS_PHOTO_STRIP (hs_app_test_find (page, HS_TYPE_PHOTO_STRIP)));
}

/* Right, + + and −, all on the second photo; F10 twice. */
static void
test_keys (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0021", "findings");
  g_autofree char *first = NULL;

  show_photos (book, page);
  add_two (book, page);
  first = g_strdup (chosen (page));
  press (book, GDK_KEY_Right);
  g_assert_cmpstr (chosen (page), !=, first);
  press (book, GDK_KEY_KP_Add);
  g_assert_true (hs_app_test_says (page, "2 · during"));
  press (book, GDK_KEY_plus);
  g_assert_true (hs_app_test_says (page, "2 · after"));
  g_assert_true (hs_app_test_says (page, "1 · before"));
  press (book, GDK_KEY_KP_Subtract);
  g_assert_cmpuint (count_photos (page), ==, 1);
  g_assert_cmpstr (chosen (page), ==, first);
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (book->window), "win.undo", NULL));
  app_book_settle (book);
  g_assert_cmpuint (count_photos (page), ==, 2);
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (book->window), "win.undo", NULL));
  app_book_settle (book);
  g_assert_true (hs_app_test_says (page, "2 · during"));
}

static void
noted_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_assert_true (hs_ledger_task_finish (HS_LEDGER (source), result, NULL, NULL));
}

/* A digit says what it shows, 0 that it shows nothing in particular. */
static void
test_bind (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0021", "findings");
  const char *job_id = hs_job_page_get_job_id (HS_JOB_PAGE (page));

  hs_deed_note_finding (book->ledger, job_id, "ground strap rotten", noted_cb, NULL);
  hs_deed_note_finding (book->ledger, job_id, "clamp green", noted_cb, NULL);
  app_book_settle (book);
  show_photos (book, page);
  add_two (book, page);
  press (book, GDK_KEY_KP_2);
  g_assert_true (hs_app_test_says (page, "photo 1 · before · shows: clamp green · one.jpg"));
  g_assert_true (hs_app_test_says_part (page, "clamp green (now)"));
  hs_app_test_picture (GTK_WIDGET (book->window), "photos-bound");
  press (book, GDK_KEY_9);
  g_assert_true (hs_app_test_says_part (page, "clamp green (now)"));
  press (book, GDK_KEY_0);
  g_assert_false (hs_app_test_says_part (page, "clamp green (now)"));
  g_assert_true (hs_app_test_says (page, "photo 1 · before · one.jpg"));
}

/* Chosen while others are still being read: none is passed over. */
static void
test_add_twice (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0021", "findings");
  static const char *const names[] = { "one.jpg", "two.jpg" };

  show_photos (book, page);
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autoptr (GListStore) files = g_list_store_new (G_TYPE_FILE);
      g_autoptr (GFile) file = put (book, names[i], 640, 480, 40 + 100 * i);

      g_list_store_append (files, file);
      hs_photo_pane_add (pane_of (page), G_LIST_MODEL (files));
    }
  hs_app_test_wait (count_photos (page) == 2);
}

static void
test_look (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0021", "findings");
  GtkWidget *window;

  show_photos (book, page);
  add_two (book, page);
  press (book, GDK_KEY_Return);
  window = hs_app_test_window (HS_TYPE_PHOTO_WINDOW);
  g_assert_nonnull (window);
  hs_app_test_wait (hs_photo_window_has_picture (HS_PHOTO_WINDOW (window)));
  g_assert_true (hs_app_test_says_part (window, "photo 1 · before"));
  hs_app_test_picture (window, "photo-large");
  g_assert_true (hs_app_test_key (window, GDK_KEY_Right, 0));
  g_assert_true (hs_app_test_says_part (window, "photo 2 · before"));
  g_assert_true (hs_app_test_key (window, GDK_KEY_Right, 0));
  g_assert_true (hs_app_test_says_part (window, "photo 2 · before"));
  g_assert_true (hs_app_test_key (window, GDK_KEY_Left, 0));
  hs_app_test_wait (hs_photo_window_has_picture (HS_PHOTO_WINDOW (window)));
  g_assert_true (hs_app_test_key (window, GDK_KEY_Escape, 0));
  app_book_settle (book);
  g_assert_null (hs_app_test_window (HS_TYPE_PHOTO_WINDOW));
}

/* Closed while the picture, and a copy of it, are still on their way. */
static void
test_closed_early (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0021", "findings");
  g_autofree char *path = g_build_filename (book->folder, "camera", "four.jpg", NULL);
  g_autoptr (GFile) to = g_file_new_for_path (path);
  GtkWidget *window;

  show_photos (book, page);
  add_two (book, page);
  press (book, GDK_KEY_Return);
  window = hs_app_test_window (HS_TYPE_PHOTO_WINDOW);
  hs_app_test_key (window, GDK_KEY_Right, 0);
  hs_photo_window_save (HS_PHOTO_WINDOW (window), to);
  hs_app_test_key (window, GDK_KEY_Escape, 0);
  hs_app_test_wait (g_file_query_exists (to, NULL));
  app_book_settle (book);
  g_assert_null (hs_app_test_window (HS_TYPE_PHOTO_WINDOW));
}

/* A copy is bit by bit what was kept; a file that is there stays. */
static void
test_copy (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0021", "findings");
  g_autofree char *path = g_build_filename (book->folder, "camera", "three.jpg", NULL);
  g_autoptr (GFile) to = g_file_new_for_path (path);
  g_autofree char *bytes = NULL;
  GtkWidget *window;
  gsize length;

  show_photos (book, page);
  add_two (book, page);
  press (book, GDK_KEY_Return);
  window = hs_app_test_window (HS_TYPE_PHOTO_WINDOW);
  hs_photo_window_save (HS_PHOTO_WINDOW (window), to);
  hs_app_test_wait (hs_app_test_says (window, "The copy is written."));
  g_assert_true (g_file_get_contents (path, &bytes, &length, NULL));
  g_assert_cmpuint (length, >, 1000);
  hs_photo_window_save (HS_PHOTO_WINDOW (window), to);
  hs_app_test_wait (hs_app_test_says_part (window, "There is a file of that name already."));
  g_assert_true (hs_app_test_key (window, GDK_KEY_Escape, 0));
}

/* A photo that came without its picture, as out of a copy without photos. */
static gpointer
lose_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsPhotoRow) row = hs_photo_row_new ();
  const char *job_id;

  g_variant_get (args, "(&s)", &job_id);
  hs_row_set (&row->job_id, job_id);
  hs_row_set (&row->file_id, "0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef");
  hs_row_set (&row->name, "lost.jpg");
  hs_row_set (&row->phase, "before");
  row->added_at = now;
  if (hs_store_begin (store, now, error))
    hs_store_end (store, hs_photo_row_save (store, row, error), error);
  return NULL;
}

static void
test_missing (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0021", "findings");
  const char *job_id = hs_job_page_get_job_id (HS_JOB_PAGE (page));
  GtkWidget *window;

  hs_ledger_write_async (book->ledger, lose_func, g_variant_new ("(s)", job_id), NULL, FALSE, noted_cb, NULL);
  app_book_settle (book);
  show_photos (book, page);
  g_assert_cmpuint (count_photos (page), ==, 1);
  g_assert_true (hs_photo_frame_is_missing (HS_PHOTO_FRAME (frame_at (page, 0))));
  g_assert_true (hs_app_test_says_part (page, "its picture is missing; add it again or take it from a backup"));
  hs_app_test_picture (GTK_WIDGET (book->window), "photos-missing");
  press (book, GDK_KEY_Return);
  window = hs_app_test_window (HS_TYPE_PHOTO_WINDOW);
  hs_app_test_wait (hs_app_test_says_part (window, "The picture of this photo is not in the book"));
  g_assert_true (hs_app_test_key (window, GDK_KEY_Escape, 0));
}

static gpointer
visit_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsVisitRow) row = hs_visit_row_new ();
  const char *job_id;

  g_variant_get (args, "(&s)", &job_id);
  hs_row_set (&row->job_id, job_id);
  row->arrived_at = 1577836800;
  if (hs_store_begin (store, now, error))
    hs_store_end (store, hs_visit_row_save (store, row, error), error);
  return NULL;
}

/* Three photos: one is known; the two others lie in a visit of this job that began in 2020 and is not over. The demo's
 * clock stands before the files were written, so that their own time is after it. */
static void
test_camera (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0021", "findings");
  g_autofree char *path = g_build_filename (book->folder, "camera", NULL);
  g_autoptr (GFile) folder = g_file_new_for_path (path);
  g_autoptr (GFile) three = put (book, "three.jpg", 100, 100, 99);
  GtkWidget *window, *list;

  hs_ledger_write_async (book->ledger, visit_func,
                         g_variant_new ("(s)", hs_job_page_get_job_id (HS_JOB_PAGE (page))), NULL, FALSE, noted_cb,
                         NULL);
  show_photos (book, page);
  add_two (book, page);
  press (book, GDK_KEY_KP_Multiply);
  window = hs_app_test_window (HS_TYPE_CAMERA_WINDOW);
  g_assert_nonnull (window);
  g_assert_true (hs_app_test_says_part (window, "No camera is plugged in."));
  hs_camera_window_look (HS_CAMERA_WINDOW (window), folder);
  hs_app_test_wait (!hs_camera_window_is_busy (HS_CAMERA_WINDOW (window)));
  list = hs_app_test_find (window, GTK_TYPE_LIST_BOX);
  g_assert_nonnull (gtk_list_box_get_row_at_index (GTK_LIST_BOX (list), 0));
  g_assert_null (gtk_list_box_get_row_at_index (GTK_LIST_BOX (list), 1));
  g_assert_true (hs_app_test_says_part (window, "goes to A-0021"));
  hs_app_test_picture (window, "photos-camera");
  g_assert_true (gtk_widget_activate_action (window, "camera.add", NULL));
  g_assert_true (hs_app_test_says_part (window, "Nothing is ticked."));
  g_assert_true (hs_app_test_key (gtk_window_get_focus (GTK_WINDOW (window)), GDK_KEY_plus, 0));
  g_assert_true (gtk_widget_activate_action (window, "camera.add", NULL));
  hs_app_test_wait (count_photos (page) == 3);
  app_book_settle (book);
  hs_app_test_wait (hs_app_test_window (HS_TYPE_CAMERA_WINDOW) == NULL);
}

/* Narrow, with twice the text. */
static void
test_small (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0021", "findings");

  show_photos (book, page);
  add_two (book, page);
  gtk_window_set_default_size (GTK_WINDOW (book->window), 360, 700);
  hs_app_test_frames ();
  app_book_settle (book);
  hs_app_test_frames ();
  g_assert_cmpint (gtk_widget_get_width (GTK_WIDGET (book->window)), <=, 360);
  hs_app_test_picture (GTK_WIDGET (book->window), "photos-360");
}

#define ADD(name, func) g_test_add (name, AppBook, NULL, app_book_open, func, close_book)

int
main (int argc, char *argv[])
{
  hs_app_test_init (&argc, &argv);
  ADD ("/photo/add", test_add);
  ADD ("/photo/add-twice", test_add_twice);
  ADD ("/photo/refused", test_refused);
  ADD ("/photo/keys", test_keys);
  ADD ("/photo/bind", test_bind);
  ADD ("/photo/closed-early", test_closed_early);
  ADD ("/photo/look", test_look);
  ADD ("/photo/copy", test_copy);
  ADD ("/photo/missing", test_missing);
  ADD ("/photo/camera", test_camera);
  ADD ("/photo/small", test_small);
  return g_test_run ();
}
