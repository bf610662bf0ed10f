// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* From the laptop to the telephone: what a camera reads off the screen is exactly what was meant. The codes are read by
 * a program of its own, zbarimg, off what is drawn. */

#include "app-book.h"
#include "hs-app-test.h"
#include "hs-call-form.h"
#include "hs-call-slip-window.h"
#include "hs-hand-off-window.h"
#include "hs-job-page.h"
#include "hs-qr.h"

#include <glib/gstdio.h>

/* What @widget looks like, as a file. */
static char *
draw (GtkWidget *widget)
{
  g_autoptr (GdkPaintable) paintable = gtk_widget_paintable_new (widget);
  g_autoptr (GtkSnapshot) snapshot = gtk_snapshot_new ();
  g_autoptr (GskRenderNode) node = NULL;
  g_autoptr (GdkTexture) texture = NULL;
  char *path = NULL;
  int fd = g_file_open_tmp ("code-XXXXXX.png", &path, NULL);

  g_assert_cmpint (fd, >=, 0);
  g_close (fd, NULL);
  gdk_paintable_snapshot (paintable, snapshot, gtk_widget_get_width (widget), gtk_widget_get_height (widget));
  node = gtk_snapshot_to_node (snapshot);
  texture = gsk_renderer_render_texture (gtk_native_get_renderer (gtk_widget_get_native (widget)), node, NULL);
  g_assert_true (gdk_texture_save_to_png (texture, path));
  return path;
}

/* What a camera makes of it; without the line break behind. */
static char *
read_code (GtkWidget *widget)
{
  g_autofree char *path = draw (widget);
  const char *const words[] = { "zbarimg", "--quiet", "--raw", "--nodbus", path, NULL };
  g_autoptr (GError) error = NULL;
  char *text = NULL;
  int status;

  g_spawn_sync (NULL, (char **) words, NULL, G_SPAWN_SEARCH_PATH | G_SPAWN_STDERR_TO_DEV_NULL, NULL, NULL, &text, NULL,
                &status, &error);
  g_assert_no_error (error);
  g_assert_true (g_spawn_check_wait_status (status, NULL));
  g_unlink (path);
  if (g_str_has_suffix (text, "\n"))
    text[strlen (text) - 1] = '\0';
  return text;
}

static void
assert_code (GtkWidget *window, const char *wanted)
{
  GtkWidget *code = hs_app_test_find (window, HS_TYPE_QR);
  g_autofree char *text = NULL;

  hs_app_test_frames ();
  text = read_code (code);
  g_assert_cmpstr (text, ==, wanted);
}

/* Of itself: texts short and long, with signs beyond ASCII, on the light and on the dark sheet. */
static void
test_codes (void)
{
  static const char *const texts[] = {
    "tel:+15550121", "geo:40.7128,-74.006", "4 Quay Street, Tannery Row",
    "sms:5550121?body=Se%C3%B1ora%20%E2%80%9Clate%E2%80%9D", "Señora Núñez, 3.º piso — €", "x",
  };
  g_autofree char *longest = g_strnfill (800, 'a');
  g_autofree char *too_long = g_strnfill (3000, 'a');
  GtkWidget *code = hs_qr_new ();
  GtkWindow *window = hs_app_test_show (code, 700, 600);

  for (guint dark = 0; dark < 2; dark++)
    {
      adw_style_manager_set_color_scheme (adw_style_manager_get_default (),
                                          dark == 1 ? ADW_COLOR_SCHEME_FORCE_DARK : ADW_COLOR_SCHEME_FORCE_LIGHT);
      for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
        {
          g_assert_true (hs_qr_set_text (HS_QR (code), texts[i]));
          assert_code (GTK_WIDGET (window), texts[i]);
        }
    }
  adw_style_manager_set_color_scheme (adw_style_manager_get_default (), ADW_COLOR_SCHEME_DEFAULT);
  g_assert_true (hs_qr_set_text (HS_QR (code), longest));
  assert_code (GTK_WIDGET (window), longest);
  g_assert_false (hs_qr_set_text (HS_QR (code), too_long));
  g_assert_true (hs_qr_set_text (HS_QR (code), NULL));
  gtk_window_destroy (window);
}

/* Four white modules all around and one pixel row of them at least three pixels thick: a code of the smallest kind has
 * 21 modules, so 29 with the quiet zone; drawn 290 wide a module is 10 pixels, and the first black one begins at 40. */
static void
test_quiet_zone (void)
{
  GtkWidget *code = hs_qr_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWindow *window;
  g_autoptr (GdkTexture) texture = NULL;
  g_autofree char *path = NULL;
  g_autofree guint32 *pixels = NULL;
  int width, height, first = -1;

  g_assert_true (hs_qr_set_text (HS_QR (code), "x"));
  gtk_widget_set_size_request (code, 290, 290);
  gtk_widget_set_halign (code, GTK_ALIGN_START);
  gtk_widget_set_valign (code, GTK_ALIGN_START);
  gtk_box_append (GTK_BOX (box), code);
  window = hs_app_test_show (box, 400, 400);
  path = draw (code);
  texture = gdk_texture_new_from_filename (path, NULL);
  g_unlink (path);
  width = gdk_texture_get_width (texture);
  height = gdk_texture_get_height (texture);
  g_assert_cmpint (width, ==, 290);
  g_assert_cmpint (height, ==, 290);
  pixels = g_new (guint32, width * height);
  gdk_texture_download (texture, (guchar *) pixels, (gsize) width * 4);
  for (int i = 0; i < width * height; i++)
    {
      gboolean black = (pixels[i] & 0xffffff) == 0;

      g_assert_true (black || (pixels[i] & 0xffffff) == 0xffffff);
      if (black && first < 0)
        first = i;
      if (black)
        g_assert_true (i % width >= 40 && i % width < 250 && i / width >= 40 && i / width < 250);
    }
  g_assert_cmpint (first, ==, 40 * 290 + 40);
  gtk_window_destroy (window);
}

static GtkWidget *
open_phone (AppBook *book, GtkWidget *page)
{
  GtkWidget *window;

  g_assert_true (gtk_widget_activate_action (page, "page.lock", NULL));
  app_book_settle (book);
  window = hs_app_test_window (HS_TYPE_HAND_OFF_WINDOW);
  g_assert_nonnull (window);
  return window;
}

static void
close_phone (AppBook *book, GtkWidget *window)
{
  g_assert_true (hs_app_test_key (window, GDK_KEY_Escape, 0));
  app_book_settle (book);
  g_assert_null (hs_app_test_window (HS_TYPE_HAND_OFF_WINDOW));
}

static void
press (AppBook *book, GtkWidget *window, guint keyval)
{
  g_assert_true (hs_app_test_key (window, keyval, 0));
  app_book_settle (book);
}

/* A digit each; what the camera reads is what the window holds, and + moves the time by five minutes. */
static void
test_job (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0021", "call");
  GtkWidget *window = open_phone (book, page);
  g_autofree char *first = NULL;

  g_assert_true (g_str_has_prefix (hs_hand_off_window_get_text (HS_HAND_OFF_WINDOW (window)), "tel:"));
  g_assert_true (hs_app_test_says (window, "Call Marguerite Stane"));
  assert_code (window, hs_hand_off_window_get_text (HS_HAND_OFF_WINDOW (window)));
  hs_app_test_picture (window, "phone-call");
  press (book, window, GDK_KEY_KP_2);
  first = g_strdup (hs_hand_off_window_get_text (HS_HAND_OFF_WINDOW (window)));
  g_assert_true (g_str_has_prefix (first, "sms:"));
  g_assert_true (hs_app_test_says_part (window, "About your car TDM 1315: I am running late and expect to be with"));
  assert_code (window, first);
  press (book, window, GDK_KEY_KP_Add);
  g_assert_cmpstr (hs_hand_off_window_get_text (HS_HAND_OFF_WINDOW (window)), !=, first);
  assert_code (window, hs_hand_off_window_get_text (HS_HAND_OFF_WINDOW (window)));
  press (book, window, GDK_KEY_KP_Subtract);
  g_assert_cmpstr (hs_hand_off_window_get_text (HS_HAND_OFF_WINDOW (window)), ==, first);
  hs_app_test_picture (window, "phone-late");
  press (book, window, GDK_KEY_3);
  assert_code (window, hs_hand_off_window_get_text (HS_HAND_OFF_WINDOW (window)));
  g_assert_false (hs_hand_off_window_choose (HS_HAND_OFF_WINDOW (window), 9));
  close_phone (book, window);
}

/* A billed job has an estimate to send: 153.79 with tax. */
static void
test_estimate (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0013", "call");
  GtkWidget *window = open_phone (book, page);

  press (book, window, GDK_KEY_3);
  g_assert_true (hs_app_test_says_part (window, "the estimate is 153.79 with tax. Do I go ahead?"));
  g_assert_nonnull (strstr (hs_hand_off_window_get_text (HS_HAND_OFF_WINDOW (window)), "153.79%20with%20tax"));
  assert_code (window, hs_hand_off_window_get_text (HS_HAND_OFF_WINDOW (window)));
  close_phone (book, window);
}

/* From a slip with a number alone, before there is a job; and from an empty one. */
static void
test_slip (AppBook *book, gconstpointer data)
{
  GtkWidget *slip, *window;

  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (book->window), "win.call-slip", NULL));
  app_book_settle (book);
  slip = hs_app_test_window (HS_TYPE_CALL_SLIP_WINDOW);
  g_assert_true (gtk_widget_activate_action (slip, "slip.phone", NULL));
  window = hs_app_test_window (HS_TYPE_HAND_OFF_WINDOW);
  g_assert_true (hs_app_test_says (window, "There is no number and no address on this call yet."));
  close_phone (book, window);
  hs_call_form_go (HS_CALL_FORM (hs_app_test_find (slip, HS_TYPE_CALL_FORM)), "phone", "+1 555 0177");
  app_book_settle (book);
  g_assert_true (gtk_widget_activate_action (slip, "slip.phone", NULL));
  app_book_settle (book);
  window = hs_app_test_window (HS_TYPE_HAND_OFF_WINDOW);
  assert_code (window, "tel:+15550177");
  close_phone (book, window);
  gtk_window_close (GTK_WINDOW (slip));
  app_book_settle (book);
}

#define ADD(name, func) g_test_add (name, AppBook, NULL, app_book_open, func, app_book_close)

int
main (int argc, char *argv[])
{
  hs_app_test_init (&argc, &argv);
  g_test_add_func ("/phone/codes", test_codes);
  g_test_add_func ("/phone/quiet-zone", test_quiet_zone);
  ADD ("/phone/job", test_job);
  ADD ("/phone/estimate", test_estimate);
  ADD ("/phone/slip", test_slip);
  return g_test_run ();
}
