// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The board by arrow keys alone, and jobs that are not on it: by number, and what is squared. */

#include "app-book.h"
#include "hs-app-test.h"
#include "hs-call-form.h"
#include "hs-chip.h"
#include "hs-demo.h"
#include "hs-job-op.h"
#include "hs-job-page.h"
#include "hs-next-card.h"
#include "hs-roll-window.h"
#include "hs-tag.h"

/* As the window does with an arrow key that nobody takes. */
static gboolean
go (AppBook *book, GtkDirectionType direction)
{
  gboolean went = gtk_widget_child_focus (GTK_WIDGET (book->window), direction);

  app_book_settle (book);
  return went;
}

static void
collect_tags (GtkWidget *widget, GPtrArray *tags)
{
  for (GtkWidget *at = gtk_widget_get_first_child (widget); at != NULL; at = gtk_widget_get_next_sibling (at))
    if (HS_IS_TAG (at))
      g_ptr_array_add (tags, at);
    else
      collect_tags (at, tags);
}

static GtkWidget *
focused_tag (AppBook *book)
{
  GtkWidget *focus = gtk_root_get_focus (GTK_ROOT (book->window));

  return HS_IS_TAG (focus) ? focus : NULL;
}

static graphene_rect_t
place_of (GtkWidget *page, GtkWidget *tag)
{
  graphene_rect_t box;

  g_assert_true (gtk_widget_compute_bounds (tag, gtk_widget_get_first_child (page), &box));
  return box;
}

/* Whether a tag hangs wholly between the two. */
static gboolean
is_skipped (GtkWidget *page, GPtrArray *tags, GtkWidget *upper, GtkWidget *lower)
{
  graphene_rect_t above = place_of (page, upper), below = place_of (page, lower);

  for (guint i = 0; i < tags->len; i++)
    {
      graphene_rect_t box = place_of (page, g_ptr_array_index (tags, i));

      if (box.origin.y >= above.origin.y + above.size.height && box.origin.y + box.size.height <= below.origin.y)
        return TRUE;
    }
  return FALSE;
}

static GtkWidget *
resize (AppBook *book, int width, int height)
{
  GtkWidget *page = app_book_show (book, "jobs");

  gtk_window_set_default_size (GTK_WINDOW (book->window), width, height);
  hs_app_test_wait (gtk_widget_get_width (GTK_WIDGET (book->window)) == width);
  app_book_settle (book);
  hs_app_test_frames ();
  return page;
}

/* Two calls make a wire of two columns, and one van that rolls a wire of one beside it: below the one nothing hangs. */
static void
make_ragged (AppBook *book)
{
  HsBookUser user = { "halfshaft-cli", "here", 1, hs_demo_get_now () };
  HsCallSlip slip = { .phone = "555-0115", .words = "clicks", .day = HS_DATE_NONE, .window_from = -1, .window_to = -1 };
  g_autoptr (HsBook) other = hs_book_open (book->path, HS_BOOK_WRITE, &user, NULL);
  g_autofree char *rolling = hs_job_find (other, "A-0021", NULL);

  for (guint i = 0; i < 2; i++)
    {
      g_autofree char *id = hs_call_take (other, &slip, hs_demo_get_now (), NULL);

      g_assert_nonnull (id);
    }
  g_assert_true (hs_job_move_stage (other, rolling, HS_STAGE_ROLLING, NULL, hs_demo_get_now (), NULL));
}

/* Down from the first tag and up from the last one, with nothing left out; how many steps down. */
static guint
walk_rows (AppBook *book, GtkWidget *page, GPtrArray *tags, GtkWidget *first)
{
  GtkWidget *at = first;
  guint n_down = 0, n_up = 0;

  for (gtk_widget_grab_focus (first); go (book, GTK_DIR_DOWN) && focused_tag (book) != NULL; at = focused_tag (book))
    {
      g_assert_false (is_skipped (page, tags, at, focused_tag (book)));
      g_assert_cmpuint (++n_down, <, tags->len);
    }
  for (gtk_widget_grab_focus (at); go (book, GTK_DIR_UP) && focused_tag (book) != NULL; at = focused_tag (book))
    {
      g_assert_false (is_skipped (page, tags, focused_tag (book), at));
      g_assert_cmpuint (++n_up, <, tags->len);
    }
  return n_down;
}

/* Right goes to each tag, past the end of a row and of a wire. */
static void
walk_along (AppBook *book, GPtrArray *tags)
{
  gtk_widget_grab_focus (g_ptr_array_index (tags, 0));
  for (guint i = 0; i < tags->len; i++)
    {
      g_assert_true (focused_tag (book) == g_ptr_array_index (tags, i));
      go (book, GTK_DIR_RIGHT);
    }
}

/* Down goes from row to row and leaves none out, also where the next row does not reach below; up does the same. */
static void
test_arrows (AppBook *book, gconstpointer data)
{
  static const struct
  {
    int width, height;
    guint n_rows;
  } rows[] = { { 1280, 800, 4 }, { 1024, 600, 6 }, { 360, 700, 9 } };

  make_ragged (book);
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      GtkWidget *page = resize (book, rows[i].width, rows[i].height);
      g_autoptr (GPtrArray) tags = g_ptr_array_new ();

      collect_tags (page, tags);
      g_assert_cmpuint (tags->len, ==, 9);
      for (guint k = 0; k < tags->len; k++)
        {
          guint n = walk_rows (book, page, tags, g_ptr_array_index (tags, k));

          if (k == 0)
            g_assert_cmpuint (n + 1, ==, rows[i].n_rows);
        }
      walk_along (book, tags);
    }
}

static const char *
open_number (AppBook *book)
{
  GtkWidget *job = hs_window_get_job (book->window);

  return job != NULL ? hs_job_page_get_number (HS_JOB_PAGE (job)) : NULL;
}

/* A job by its number, as one remembers it: straight from the board, where a digit begins the search. */
static void
test_number (AppBook *book, gconstpointer data)
{
  static const struct
  {
    const char *keys;
    const char *number;
  } rows[] = { { "24\n", "A-0024" }, { "0024\n", "A-0024" }, { "7\n", "A-0007" } };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      app_book_show (book, "jobs");
      app_book_type (book, rows[i].keys);
      hs_app_test_wait (g_strcmp0 (open_number (book), rows[i].number) == 0);
    }
  app_book_show (book, "vehicles");
  app_book_type (book, "A-0024");
  g_assert_true (hs_app_test_says (hs_window_get_visible_page (book->window), "A-0024"));
  hs_app_test_picture (GTK_WIDGET (book->window), "jobs-number");
  app_book_type (book, "\n");
  hs_app_test_wait (g_strcmp0 (open_number (book), "A-0024") == 0);
}

/* Four digits of a telephone still answer with the battery at once, though a job has that number. */
static void
test_caller_first (AppBook *book, gconstpointer data)
{
  HsBookUser user = { "halfshaft-cli", "here", 1, hs_demo_get_now () };
  HsCallSlip slip = { .phone = "555-0024", .name = "Ida", .plate = "TDM 2400", .words = "clicks", .day = HS_DATE_NONE,
                      .window_from = -1, .window_to = -1 };
  g_autoptr (HsBook) other = hs_book_open (book->path, HS_BOOK_WRITE, &user, NULL);
  g_autofree char *id = hs_call_take (other, &slip, hs_demo_get_now (), NULL);
  GtkWidget *page;

  g_assert_nonnull (id);
  page = app_book_show (book, "vehicles");
  app_book_type (book, "0024");
  g_assert_true (hs_app_test_says (page, "A-0024"));
  app_book_type (book, "\n");
  g_assert_null (hs_window_get_job (book->window));
  /* Out of the vehicle's history again, and to the hit above. */
  app_book_press (book, GDK_KEY_Escape);
  app_book_press (book, GDK_KEY_Up);
  app_book_type (book, "\n");
  hs_app_test_wait (g_strcmp0 (open_number (book), "A-0024") == 0);
}

/* F8 unfolds what is squared and settled, the newest under the cursor; Enter opens it, F8 folds it again. */
static void
test_squared (AppBook *book, gconstpointer data)
{
  GtkWidget *page = resize (book, 1280, 800);

  g_assert_true (hs_app_test_says_part (page, "19 settled, folded"));
  app_book_press (book, GDK_KEY_F8);
  hs_app_test_wait (focused_tag (book) != NULL && hs_app_test_says (focused_tag (book), "A-0020"));
  g_assert_false (hs_app_test_says_part (page, "settled, folded"));
  g_assert_true (hs_app_test_says_part (page, "1 not paid"));
  hs_app_test_frames ();
  hs_app_test_picture (GTK_WIDGET (book->window), "jobs-squared");
  g_assert_true (gtk_widget_activate_action (focused_tag (book), "tag.activate", NULL));
  hs_app_test_wait (g_strcmp0 (open_number (book), "A-0020") == 0);
  page = app_book_show (book, "jobs");
  g_assert_true (hs_app_test_says (page, "A-0001"));
  app_book_press (book, GDK_KEY_F8);
  app_book_settle (book);
  g_assert_false (hs_app_test_says (page, "A-0001"));
  hs_app_test_picture (GTK_WIDGET (book->window), "jobs-folded");
}

/* Where nothing is settled F8 has nowhere to go, and what is settled later does not take the cursor. */
static void
test_nothing_settled (AppBook *book, gconstpointer data)
{
  HsBookUser user = { "halfshaft-cli", "here", 1, hs_demo_get_now () };
  HsCallSlip slip = { .phone = "555-0024", .name = "Ida", .plate = "TDM 2400", .words = "clicks", .day = HS_DATE_NONE,
                      .window_from = -1, .window_to = -1 };
  g_autoptr (HsBook) other = hs_book_open (book->path, HS_BOOK_WRITE, &user, NULL);
  g_autofree char *id = NULL;
  GtkWidget *page;

  app_book_show (book, "jobs");
  app_book_press (book, GDK_KEY_F8);
  app_book_settle (book);
  id = hs_call_take (other, &slip, hs_demo_get_now (), NULL);
  g_assert_true (hs_job_move_stage (other, id, HS_STAGE_CALLED_OFF, "found the key", hs_demo_get_now (), NULL));
  app_book_show (book, "today");
  page = app_book_show (book, "jobs");
  app_book_settle (book);
  hs_app_test_wait (hs_app_test_find (page, HS_TYPE_TAG) != NULL);
  hs_app_test_frames ();
  hs_app_test_frames ();
  g_assert_null (focused_tag (book));
}

/* Enter opens the job whose number stands there, not that of the digits before the last. */
static void
test_quick_number (AppBook *book, gconstpointer data)
{
  app_book_show (book, "vehicles");
  app_book_type (book, "2");
  app_book_press (book, GDK_KEY_4);
  app_book_press (book, GDK_KEY_Return);
  app_book_settle (book);
  hs_app_test_frames ();
  app_book_settle (book);
  g_assert_cmpstr (open_number (book), ==, "A-0024");
}

/* Another sign behind Enter takes it back: nothing opens that was not asked for. */
static void
test_quick_on (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_show (book, "vehicles");

  app_book_type (book, "2");
  app_book_press (book, GDK_KEY_4);
  app_book_press (book, GDK_KEY_Return);
  app_book_press (book, GDK_KEY_1);
  app_book_settle (book);
  hs_app_test_frames ();
  app_book_settle (book);
  g_assert_null (hs_window_get_job (book->window));
  g_assert_true (gtk_widget_get_mapped (page));
}

/* Enter in a phone field that was emptied a moment ago does not lock the form. */
static void
test_emptied_phone (AppBook *book, gconstpointer data)
{
  GtkWidget *slip, *form;

  app_book_press (book, GDK_KEY_F3);
  app_book_settle (book);
  slip = app_book_find_top (book);
  g_assert_nonnull (slip);
  form = hs_app_test_find (slip, HS_TYPE_CALL_FORM);
  app_book_press_in (slip, GDK_KEY_5);
  g_assert_cmpstr (hs_call_form_get_phone (HS_CALL_FORM (form)), ==, "5");
  gtk_editable_set_text (GTK_EDITABLE (gtk_root_get_focus (GTK_ROOT (slip))), "");
  app_book_press_in (slip, GDK_KEY_Return);
  app_book_settle (book);
  hs_app_test_frames ();
  app_book_settle (book);
  app_book_press_in (slip, GDK_KEY_7);
  app_book_settle (book);
  g_assert_true (GTK_IS_EDITABLE (gtk_root_get_focus (GTK_ROOT (slip))));
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (gtk_root_get_focus (GTK_ROOT (slip)))), ==, "7");
}

static GtkWidget *
tag_of (GPtrArray *tags, const char *number)
{
  for (guint i = 0; i < tags->len; i++)
    if (hs_app_test_says (g_ptr_array_index (tags, i), number))
      return g_ptr_array_index (tags, i);
  g_assert_not_reached ();
}

/* Tags, and the card of what is next, on which F4 stands. */
static guint
count_keys (GtkWidget *widget)
{
  guint n = 0;

  for (GtkWidget *at = gtk_widget_get_first_child (widget); at != NULL; at = gtk_widget_get_next_sibling (at))
    if (HS_IS_KEYCAP (at))
      n += gtk_widget_get_mapped (at) && g_str_equal (hs_chip_get_text (HS_CHIP (at)), "F4");
    else
      n += count_keys (at);
  return n;
}

/* Where a list scrolls to, it scrolls over some frames. */
static gboolean
is_wholly_seen (GtkWidget *tag)
{
  GtkWidget *scroller = gtk_widget_get_ancestor (tag, GTK_TYPE_SCROLLED_WINDOW);
  graphene_rect_t box;

  g_main_context_iteration (NULL, FALSE);
  return gtk_widget_compute_bounds (tag, scroller, &box) && box.origin.y >= 0
         && box.origin.y + box.size.height <= gtk_widget_get_height (scroller);
}

/* F4 moves the tag that has the focus, and stands there alone; elsewhere it is the card's. */
static void
test_key_stands_where_it_acts (AppBook *book, gconstpointer data)
{
  GtkWidget *page = resize (book, 1280, 800);
  GtkWidget *board = gtk_widget_get_parent (hs_app_test_find (page, HS_TYPE_NEXT_CARD));
  GtkWidget *card = hs_app_test_find (page, HS_TYPE_NEXT_CARD);
  g_autoptr (GPtrArray) tags = g_ptr_array_new ();
  GtkWidget *last;

  collect_tags (page, tags);
  last = g_ptr_array_index (tags, tags->len - 1);
  g_assert_true (gtk_widget_grab_focus (last));
  hs_app_test_wait (is_wholly_seen (last));
  hs_app_test_frames ();
  hs_app_test_picture (GTK_WIDGET (book->window), "jobs-key");
  g_assert_cmpuint (count_keys (last), ==, 1);
  g_assert_cmpuint (count_keys (board), ==, 1);
  g_assert_true (gtk_widget_activate_action (page, "page.next-stage", NULL));
  hs_app_test_wait (hs_app_test_window (HS_TYPE_ROLL_WINDOW) != NULL);
  g_assert_cmpstr (gtk_window_get_title (GTK_WINDOW (hs_app_test_window (HS_TYPE_ROLL_WINDOW))), ==,
                   "Roll to A-0026 now?");
  gtk_window_close (GTK_WINDOW (hs_app_test_window (HS_TYPE_ROLL_WINDOW)));
  app_book_settle (book);

  g_assert_true (gtk_widget_child_focus (card, GTK_DIR_TAB_FORWARD));
  hs_app_test_frames ();
  g_assert_cmpuint (count_keys (last), ==, 0);
  g_assert_cmpuint (count_keys (card), ==, 1);
  /* The tag of what is next and the card say the same. */
  g_assert_true (gtk_widget_grab_focus (tag_of (tags, "A-0021")));
  hs_app_test_frames ();
  g_assert_cmpuint (count_keys (card), ==, 1);
  g_assert_cmpuint (count_keys (board), ==, 2);
}

#define ADD(name, func) g_test_add ("/jobs/" name, AppBook, NULL, app_book_open, func, app_book_close)

int
main (int argc, char **argv)
{
  hs_app_test_init (&argc, &argv);
  ADD ("arrows", test_arrows);
  ADD ("key-stands-where-it-acts", test_key_stands_where_it_acts);
  ADD ("number", test_number);
  ADD ("caller-first", test_caller_first);
  ADD ("squared", test_squared);
  g_test_add ("/jobs/nothing-settled", AppBook, NULL, app_book_open_new, test_nothing_settled, app_book_close);
  ADD ("quick-number", test_quick_number);
  ADD ("quick-on", test_quick_on);
  ADD ("emptied-phone", test_emptied_phone);
  return g_test_run ();
}
