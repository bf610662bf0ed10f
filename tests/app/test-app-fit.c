// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Every page of a job and every window that opens over it, where there is little room: in the hand with text of twice
 * the size, and on a low screen. Nothing is wider or higher than the screen, no word is cut, and what one touches is
 * large enough for it.
 *
 * What a window offers at its foot has a key.
 *
 * Each scene goes on from the one before it by keys alone. With HS_TEST_PICTURES they are saved, for people to look at;
 * HS_TEST_SIZE=360x800 and HS_TEST_TEXT=2 say how large, libadwaita's own ADW_DEBUG_COLOR_SCHEME=prefer-dark and
 * ADW_DEBUG_HIGH_CONTRAST=1 by which sheet. */

#include "app-book.h"
#include "hs-app-test.h"
#include "hs-room.h"

#include <glib/gstdio.h>
#include <stdio.h>

#include "hs-demo.h"
#include "hs-job-life.h"
#include "hs-job-op.h"
#include "hs-job-page.h"
#include "hs-key-button.h"
#include "hs-photo-pane.h"

#define TARGET_PX 44
#define AIR_PX 8 /* that a row leaves around its words */

typedef struct
{
  int width, height;
  int text; /* times the usual size */
} Look;

typedef struct
{
  const char *name;
  const char *job;  /* (nullable): the one to open; %NULL: goes on */
  const char *page; /* of it */
  const char *keys;
  const char *action; /* (nullable): of the page, after the keys */
  void (*prepare) (AppBook *book);
} Scene;

static void
put_photo (AppBook *book, const char *name, guint blue)
{
  g_autoptr (GdkPixbuf) pixbuf = gdk_pixbuf_new (GDK_COLORSPACE_RGB, FALSE, 8, 640, 480);
  g_autoptr (GListStore) files = g_list_store_new (G_TYPE_FILE);
  g_autofree char *path = g_build_filename (book->folder, name, NULL);
  g_autoptr (GFile) file = g_file_new_for_path (path);
  GtkWidget *pane = hs_app_test_find (hs_window_get_job (book->window), HS_TYPE_PHOTO_PANE);

  gdk_pixbuf_fill (pixbuf, 0x80604000u + (blue << 8));
  g_assert_true (gdk_pixbuf_save (pixbuf, path, "jpeg", NULL, NULL));
  g_list_store_append (files, file);
  hs_photo_pane_add (HS_PHOTO_PANE (pane), G_LIST_MODEL (files));
  app_book_settle (book);
  hs_app_test_frames ();
}

static void
add_photos (AppBook *book)
{
  put_photo (book, "one.jpg", 40);
  put_photo (book, "two.jpg", 200);
  hs_photo_pane_focus (HS_PHOTO_PANE (hs_app_test_find (hs_window_get_job (book->window), HS_TYPE_PHOTO_PANE)));
}

/* At A-0025 for forty minutes, with a yes that does not reach as far; told where its bill is not the one on screen. */
static void
work_a_while (AppBook *book)
{
  HsBookUser user = { "test", "here", 1, hs_demo_get_now () };
  g_autoptr (HsBook) other = hs_book_open (book->path, HS_BOOK_WRITE, &user, NULL);
  g_autofree char *id = hs_job_find (other, "A-0025", NULL);
  HsInstant at = hs_demo_get_now () + 27 * 60;

  g_assert_true (hs_job_move_stage (other, id, HS_STAGE_ROLLING, NULL, at, NULL));
  g_assert_true (hs_job_move_stage (other, id, HS_STAGE_ON_SITE, NULL, at, NULL));
  g_assert_true (hs_go_ahead_add (other, id, 5000, "Lorna", "in_person", at, NULL));
}

static void
show_jobs (AppBook *book)
{
  app_book_show (book, "jobs");
}

static const Scene scenes[] = {
  { "jobs", NULL, NULL, "", NULL, show_jobs },
  { "call", "A-0021", "call", "", NULL, NULL },
  { "call-squared", "A-0013", "call", "", NULL, NULL },
  { "phone", "A-0021", "call", "F8", NULL, NULL },
  { "phone-text", NULL, NULL, "2", NULL, NULL },
  { "stages", "A-0021", "call", "", "page.stages", NULL },
  { "called-off", NULL, NULL, "6", NULL, NULL },
  { "safety", "A-0021", "call", "F4F4", NULL, NULL },
  { "safety-sources", NULL, NULL, "F9", NULL, NULL },
  { "safety-refused", NULL, NULL, "/\n", NULL, NULL },
  { "arrived", NULL, NULL, "\x1b", NULL, NULL },
  { "readings", "A-0014", "findings", "1", NULL, NULL },
  { "limit", NULL, NULL, ".", NULL, NULL },
  { "readings-began", "A-0021", "findings", "", NULL, NULL },
  { "readings-stored", NULL, NULL, "12\n", NULL, NULL },
  { "readings-sheet", "A-0024", "findings", "2", NULL, NULL },
  { "readings-typed", NULL, NULL, "310", NULL, NULL },
  { "work-out", NULL, NULL, "=", NULL, NULL },
  { "why", "A-0013", "why", "", NULL, NULL },
  { "why-asked", "A-0024", "why", "\n", NULL, NULL },
  { "why-proof", NULL, NULL, "tracker draws\n", NULL, NULL },
  { "why-one", NULL, NULL, "3at its fuse\n7", NULL, NULL },
  { "photos-none", "A-0021", "photos", "", NULL, NULL },
  { "photos", NULL, NULL, "", NULL, add_photos },
  { "photo", NULL, NULL, "\n", NULL, NULL },
  { "camera", "A-0021", "photos", "*", NULL, NULL },
  { "choices", "A-0013", "choices", "", NULL, NULL },
  { "choices-again", "A-0020", "choices", "", NULL, NULL },
  { "choices-none", "A-0024", "choices", "", NULL, NULL },
  { "option", NULL, NULL, "+Tracker on a switched feed\n", NULL, NULL },
  { "go-ahead", "A-0023", "choices", "/", NULL, NULL },
  { "go-ahead-signed", NULL, NULL, "1.200\n", NULL, NULL },
  { "answer", "A-0024", "choices", "1", NULL, NULL },
  { "bill", "A-0014", "bill", "", NULL, NULL },
  { "bill-open", "A-0022", "bill", "", NULL, work_a_while },
  { "bill-clock", "A-0025", "bill", "", NULL, NULL },
  { "after", "A-0014", "after", "", NULL, NULL },
  { "after-open", "A-0024", "after", "", NULL, NULL },
  { "after-asked", NULL, NULL, "1heater relay\n", NULL, NULL },
  { "customer", "A-0013", "choices", "F7", NULL, NULL },
  { "customer-after", "A-0014", "choices", "F7", NULL, NULL },
  { "usual", "A-0026", "bill", "F6", NULL, NULL },
  { "usual-yes", NULL, NULL, "1", NULL, NULL },
  { "usual-safe", NULL, NULL, "1", NULL, NULL },
  { "usual-why", NULL, NULL, "123\n", NULL, NULL },
  { "usual-works", NULL, NULL, "1", NULL, NULL },
  { "usual-paid", NULL, NULL, "1", NULL, NULL },
  { "slip", "A-0024", "call", "F3", NULL, NULL },
};

/* --- One scene --------------------------------------------------------------------------------------------------- */

static void
shut_all (AppBook *book)
{
  GtkWidget *top;

  while ((top = app_book_find_top (book)) != NULL)
    {
      gtk_window_destroy (GTK_WINDOW (top));
      app_book_settle (book);
    }
}

/* A window that opens over the book's is as large as the screen lets it, no larger. */
static GtkWidget *
resize_top (AppBook *book, const Look *look)
{
  GtkWidget *top = app_book_find_top (book);
  int width, height;

  if (top == NULL)
    return GTK_WIDGET (book->window);
  gtk_window_get_default_size (GTK_WINDOW (top), &width, &height);
  if (width > look->width || height > look->height)
    gtk_window_set_default_size (GTK_WINDOW (top), MIN (width, look->width), MIN (height, look->height));
  return top;
}

/* Returns: (transfer none): the window that is to be looked at. */
static GtkWidget *
enter (AppBook *book, const Scene *scene, const Look *look)
{
  g_test_message ("%s", scene->name);
  if (scene->job != NULL)
    {
      shut_all (book);
      app_book_open_job (book, scene->job, scene->page);
      /* What is half typed opens by itself, and would be measured in place of the page. */
      g_assert_null (app_book_find_top (book));
    }
  app_book_keys (book, scene->keys);
  if (scene->action != NULL)
    g_assert_true (gtk_widget_activate_action (hs_window_get_job (book->window), scene->action, NULL));
  if (scene->prepare != NULL)
    scene->prepare (book);
  app_book_settle (book);
  resize_top (book, look);
  hs_app_test_frames ();
  app_book_settle (book);
  return resize_top (book, look);
}

static void
walk (AppBook *book, const Look *look, void (*see) (GtkWidget *top, const Scene *scene, const Look *look))
{
  /* As the system's own setting for large text does it. */
  g_object_set (gtk_settings_get_default (), "gtk-xft-dpi", 96 * 1024 * look->text, NULL);
  gtk_window_set_default_size (GTK_WINDOW (book->window), look->width, look->height);
  app_book_settle (book);
  hs_app_test_frames ();
  for (guint i = 0; i < G_N_ELEMENTS (scenes); i++)
    see (enter (book, &scenes[i], look), &scenes[i], look);
  shut_all (book);
  g_object_set (gtk_settings_get_default (), "gtk-xft-dpi", 96 * 1024, NULL);
}

/* --- What is asked of each ---------------------------------------------------------------------------------------- */

/* What is in the room of @window says more than the window: a room takes less than what it holds. */
static GtkWidget *
content_of (GtkWidget *window)
{
  GtkWidget *room = hs_app_test_find (window, HS_TYPE_ROOM);

  return room != NULL ? gtk_widget_get_first_child (room) : window;
}

static int
least (GtkWidget *widget, GtkOrientation orientation, int for_size)
{
  int size;

  gtk_widget_measure (widget, orientation, for_size, &size, NULL, NULL, NULL);
  return size;
}

static gboolean
is_shown (GtkWidget *widget)
{
  return gtk_widget_should_layout (widget) && gtk_widget_get_child_visible (widget);
}

/* The chain of those that need most, for whoever has to mend it. */
static void
name_largest (GtkWidget *widget, GtkOrientation orientation, int depth)
{
  GtkWidget *largest = NULL;
  gboolean wide = orientation == GTK_ORIENTATION_HORIZONTAL;

  g_test_message ("%*s%s %s needs %d", 2 * depth, "", G_OBJECT_TYPE_NAME (widget),
                  GTK_IS_LABEL (widget) ? gtk_label_get_text (GTK_LABEL (widget)) : "",
                  least (widget, orientation, wide ? -1 : gtk_widget_get_width (widget)));
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (is_shown (child)
        && (largest == NULL
            || least (child, orientation, wide ? -1 : gtk_widget_get_width (child))
                   > least (largest, orientation, wide ? -1 : gtk_widget_get_width (largest))))
      largest = child;
  if (largest != NULL)
    name_largest (largest, orientation, depth + 1);
}

/* Returns: whether it fits. */
static gboolean
check_least (GtkWidget *top, const char *name, const Look *look)
{
  GtkWidget *content = content_of (top);
  int width = least (content, GTK_ORIENTATION_HORIZONTAL, -1);
  int height = least (content, GTK_ORIENTATION_VERTICAL, MAX (width, MIN (gtk_widget_get_width (top), look->width)));

  if (width > look->width)
    {
      g_test_message ("%s: %d px wide at least", name, width);
      name_largest (content, GTK_ORIENTATION_HORIZONTAL, 0);
      g_test_fail ();
    }
  if (height > look->height)
    {
      g_test_message ("%s: %d px high at least", name, height);
      name_largest (content, GTK_ORIENTATION_VERTICAL, 0);
      g_test_fail ();
    }
  return width <= look->width;
}

static gboolean
is_touched (GtkWidget *widget)
{
  return GTK_IS_BUTTON (widget) || GTK_IS_ENTRY (widget) || GTK_IS_CHECK_BUTTON (widget)
         || (GTK_IS_LIST_BOX_ROW (widget) && gtk_list_box_row_get_activatable (GTK_LIST_BOX_ROW (widget)));
}

/* Some containers of the platform do not pass on how high words are that wrap, and give them less. */
static gboolean
is_squeezed (GtkWidget *label)
{
  int width, height;

  pango_layout_get_pixel_size (gtk_label_get_layout (GTK_LABEL (label)), &width, &height);
  return height > gtk_widget_get_height (label) + 1 || width > gtk_widget_get_width (label) + 1;
}

/* Words that are drawn above or below their own place lie over what stands there, though the place is large enough. */
static gboolean
sticks_out (GtkWidget *label)
{
  int x, y, height;

  gtk_label_get_layout_offsets (GTK_LABEL (label), &x, &y);
  pango_layout_get_pixel_size (gtk_label_get_layout (GTK_LABEL (label)), NULL, &height);
  return y < -AIR_PX || y + height > gtk_widget_get_height (label) + AIR_PX;
}

/* Whether a line ends within a word. */
static gboolean
is_broken (GtkWidget *label)
{
  PangoLayout *layout = gtk_label_get_layout (GTK_LABEL (label));
  const char *text = pango_layout_get_text (layout);

  for (int i = 1; i < pango_layout_get_line_count (layout); i++)
    {
      const char *at = text + pango_layout_get_line_readonly (layout, i)->start_index;

      if (g_unichar_isalnum (g_utf8_get_char (at)) && g_unichar_isalnum (g_utf8_get_char (g_utf8_prev_char (at))))
        return TRUE;
    }
  return FALSE;
}

/* At the foot of a window a key and its words stand in one line, where there is room for it. */
static gboolean
wraps_early (GtkWidget *label)
{
  GtkWidget *button = gtk_widget_get_ancestor (label, HS_TYPE_KEY_BUTTON);

  return button != NULL && gtk_widget_has_css_class (gtk_widget_get_parent (button), "hs-foot")
         && pango_layout_get_line_count (gtk_label_get_layout (GTK_LABEL (label))) > 1;
}

/* No word is cut, nothing lies beside the window, and what is touched is large enough. */
static void
check_inside (GtkWidget *widget, GtkWidget *top, const char *name, const Look *look)
{
  graphene_rect_t area;
  gboolean label = GTK_IS_LABEL (widget), touched = is_touched (widget);

  /* The platform's own toast has one line. */
  if (g_str_equal (G_OBJECT_TYPE_NAME (widget), "AdwToastWidget"))
    return;
  if (!gtk_widget_get_mapped (widget) || !gtk_widget_compute_bounds (widget, top, &area))
    return;
  /* What has its lines counted is meant to end there; a hint in a field goes as soon as one types. */
  if (label && gtk_label_get_lines (GTK_LABEL (widget)) < 0 && !GTK_IS_TEXT (gtk_widget_get_parent (widget))
      && pango_layout_is_ellipsized (gtk_label_get_layout (GTK_LABEL (widget))))
    {
      g_test_message ("%s: cut: %s", name, gtk_label_get_text (GTK_LABEL (widget)));
      g_test_fail ();
    }
  if (label && look->text == 1 && (is_broken (widget) || wraps_early (widget)))
    {
      g_test_message ("%s: in two lines: %s", name, gtk_label_get_text (GTK_LABEL (widget)));
      g_test_fail ();
    }
  if (label && is_squeezed (widget))
    {
      g_test_message ("%s: squeezed: %s", name, gtk_label_get_text (GTK_LABEL (widget)));
      g_test_fail ();
    }
  if (label && sticks_out (widget))
    {
      g_test_message ("%s: over what stands beside it: %s", name, gtk_label_get_text (GTK_LABEL (widget)));
      g_test_fail ();
    }
  if ((label || touched) && (area.origin.x < -1 || area.origin.x + area.size.width > gtk_widget_get_width (top) + 1))
    {
      g_test_message ("%s: beside the window, %.0f to %.0f: %s %s", name, area.origin.x,
                      area.origin.x + area.size.width, G_OBJECT_TYPE_NAME (widget),
                      label ? gtk_label_get_text (GTK_LABEL (widget)) : "");
      g_test_fail ();
    }
  if (touched && (area.size.width < TARGET_PX || area.size.height < TARGET_PX))
    {
      GtkWidget *words = hs_app_test_find (widget, GTK_TYPE_LABEL);

      g_test_message ("%s: a target of %.0f × %.0f: %s %s", name, area.size.width, area.size.height,
                      G_OBJECT_TYPE_NAME (widget), words != NULL ? gtk_label_get_text (GTK_LABEL (words)) : "");
      g_test_fail ();
    }
  if (HS_IS_KEY_BUTTON (widget) && gtk_widget_has_css_class (gtk_widget_get_parent (widget), "hs-foot"))
    {
      g_autofree char *key = NULL, *text = NULL;

      g_object_get (widget, "key", &key, "text", &text, NULL);
      if (key == NULL || *key == '\0')
        {
          g_test_message ("%s: no key for %s", name, text);
          g_test_fail ();
        }
    }
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    check_inside (child, top, name, look);
}

static void
check (GtkWidget *top, const Scene *scene, const Look *look)
{
  if (check_least (top, scene->name, look))
    check_inside (top, top, scene->name, look);
}

static void
test_fits (AppBook *book, gconstpointer data)
{
  walk (book, data, check);
}

static void
take (GtkWidget *top, const Scene *scene, const Look *look)
{
  hs_app_test_picture (top, scene->name);
}

static void
test_pictures (AppBook *book, gconstpointer data)
{
  Look look = { 1280, 800, 1 };
  const char *size = g_getenv ("HS_TEST_SIZE"), *text = g_getenv ("HS_TEST_TEXT");

  if (size != NULL)
    g_assert_cmpint (sscanf (size, "%dx%d", &look.width, &look.height), ==, 2);
  if (text != NULL)
    look.text = (int) g_ascii_strtoll (text, NULL, 10);
  walk (book, &look, take);
}

static void
close_book (AppBook *book, gconstpointer data)
{
  static const char *const names[] = { "one.jpg", "two.jpg" };

  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autofree char *path = g_build_filename (book->folder, names[i], NULL);

      g_unlink (path);
    }
  app_book_close (book, data);
}

int
main (int argc, char *argv[])
{
  static const Look hand = { 360, 700, 2 }, narrow = { 360, 700, 1 }, low = { 1024, 600, 1 }, large = { 1280, 800, 2 };

  hs_app_test_init (&argc, &argv);
  g_test_add ("/fit/in-the-hand-large-text", AppBook, &hand, app_book_open, test_fits, close_book);
  g_test_add ("/fit/in-the-hand", AppBook, &narrow, app_book_open, test_fits, close_book);
  g_test_add ("/fit/low-screen", AppBook, &low, app_book_open, test_fits, close_book);
  g_test_add ("/fit/large-text", AppBook, &large, app_book_open, test_fits, close_book);
  if (g_getenv ("HS_TEST_PICTURES") != NULL)
    g_test_add ("/fit/pictures", AppBook, NULL, app_book_open, test_pictures, close_book);
  return g_test_run ();
}
