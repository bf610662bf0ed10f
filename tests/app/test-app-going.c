// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The day's page once the day has begun: whose call its key moves, whom to ring, the counter on the way. */

#include "app-book.h"
#include "hs-app-test.h"
#include "hs-board.h"
#include "hs-demo.h"
#include "hs-job-op.h"
#include "hs-key-button.h"
#include "hs-mover.h"
#include "hs-roll-window.h"
#include "hs-safety-window.h"
#include "hs-shop.h"
#include "hs-stage-window.h"
#include "hs-stop-row.h"

static HsBook *
open_beside (AppBook *book)
{
  HsBookUser user = { "test", "here", 1, hs_demo_get_now () };
  g_autoptr (GError) error = NULL;
  HsBook *other = hs_book_open (book->path, HS_BOOK_WRITE, &user, &error);

  g_assert_no_error (error);
  return other;
}

static GtkWidget *
row_at (GtkWidget *page, guint index)
{
  GtkWidget *row = gtk_widget_get_first_child (hs_app_test_find (page, GTK_TYPE_LIST_VIEW));

  for (; row != NULL; row = gtk_widget_get_next_sibling (row))
    if (HS_IS_STOP_ROW (gtk_widget_get_first_child (row))
        && GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (gtk_widget_get_first_child (row)), "index")) == index)
      return row;
  return NULL;
}

static HsStage
stage_of (AppBook *book, const char *number)
{
  g_autoptr (HsBook) other = open_beside (book);
  g_autoptr (HsBoard) board = hs_board_load (other, NULL, hs_demo_get_now (), NULL);

  for (guint i = 0; i < board->rows->len; i++)
    {
      const HsBoardRow *row = g_ptr_array_index (board->rows, i);

      if (g_str_equal (row->number, number))
        return row->stage;
    }
  g_assert_not_reached ();
}

/* What is under way in van A is nothing that van B's day offers a key for. */
static void
test_next_stage_is_the_vans_own (AppBook *book, gconstpointer data)
{
  g_autoptr (HsBook) other = open_beside (book);
  g_autofree char *id = hs_job_find (other, "A-0021", NULL);
  GtkWidget *page;

  g_assert_true (hs_job_move_stage (other, id, HS_STAGE_ROLLING, NULL, hs_demo_get_now (), NULL));
  page = app_book_show (book, "today");
  hs_app_test_wait (hs_app_test_button (page, "A-0021: At the vehicle") != NULL);
  g_assert_true (gtk_widget_is_sensitive (hs_app_test_button (page, "A-0021: At the vehicle")));
  app_book_press (book, GDK_KEY_asterisk);
  app_book_settle (book);
  g_assert_true (hs_app_test_says_part (page, "Nothing is promised for van B on this day"));
  g_assert_false (gtk_widget_is_sensitive (GTK_WIDGET (hs_app_test_button (page, "F4"))));
  gtk_widget_activate_action (page, "page.next-stage", NULL);
  app_book_settle (book);
  g_assert_cmpint (stage_of (book, "A-0021"), ==, HS_STAGE_ROLLING);
  app_book_press (book, GDK_KEY_asterisk);
  app_book_settle (book);
  g_assert_true (gtk_widget_is_sensitive (hs_app_test_button (page, "A-0021: At the vehicle")));
}

static void
move_at (AppBook *book, const char *number, HsStage stage, int minutes)
{
  g_autoptr (HsBook) other = open_beside (book);
  g_autofree char *id = hs_job_find (other, number, NULL);
  HsInstant at = hs_instant_from_local (hs_ledger_get_zone (book->ledger), hs_ledger_get_today (book->ledger), minutes);
  g_autoptr (GError) error = NULL;

  hs_job_move_stage (other, id, stage, stage >= HS_STAGE_WAITING_YES ? "asks her mother" : NULL, at, &error);
  g_assert_no_error (error);
}

static void
set_clock (AppBook *book, int minutes)
{
  hs_clock_freeze_at (hs_window_get_clock (book->window),
                      hs_instant_from_local (hs_ledger_get_zone (book->ledger), hs_ledger_get_today (book->ledger),
                                             minutes));
  app_book_settle (book);
}

/* A-0022 is promised until 10:30 and reached six minutes after leaving A-0021. The clock alone brings it up: who, which
 * number and why stand above the strip, at any width. */
static void
test_ring_them (AppBook *book, gconstpointer data)
{
  static const struct
  {
    int width, height;
  } rows[] = { { 1280, 800 }, { 1024, 600 }, { 360, 640 } };
  GtkWidget *page;

  move_at (book, "A-0021", HS_STAGE_ON_SITE, 8 * 60 + 49);
  move_at (book, "A-0021", HS_STAGE_WAITING_YES, 10 * 60 + 10);
  page = app_book_show (book, "today");
  set_clock (book, 10 * 60 + 12);
  g_assert_false (hs_app_test_says_part (page, "Ring"));
  set_clock (book, 10 * 60 + 22);
  hs_app_test_wait (hs_app_test_says_part (page, "Ring them"));
  g_assert_true (hs_app_test_says (page, "Ring Rue Abernant, 555-0121: A-0022 arrives 2 min before the promise ends"));
  move_at (book, "A-0022", HS_STAGE_ROLLING, 10 * 60 + 23);
  set_clock (book, 10 * 60 + 24);
  hs_app_test_wait (
    hs_app_test_says (page, "Ring Rue Abernant, 555-0121: A-0022 arrives 1 min before the promise ends"));
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      gtk_window_set_default_size (GTK_WINDOW (book->window), rows[i].width, rows[i].height);
      hs_app_test_wait (gtk_widget_get_width (GTK_WIDGET (book->window)) == rows[i].width);
      app_book_settle (book);
      hs_app_test_frames ();
      app_book_assert_fits (book, page, rows[i].width, rows[i].height);
      hs_app_test_picture (GTK_WIDGET (book->window), rows[i].width == 1280 ? "ring-1280"
                                                      : rows[i].width == 1024 ? "ring-1024" : "ring-360");
    }
  set_clock (book, 10 * 60 + 31);
  hs_app_test_wait (hs_app_test_says (page, "Not every promise can be kept"));
  g_assert_false (hs_app_test_says_part (page, "before the promise ends"));
}

/* Larch lies on the way to A-0021: 7 min to it, and it opens at eight. When its stop is over A-0022 comes next. */
static void
test_counter_on_the_way (AppBook *book, gconstpointer data)
{
  static const struct { int minutes; const char *title, *detail; } rows[] = {
    { 6 * 60 + 51, "At Larch & Weir Auto Electrical", "in 6 min · drive 7 min" },
    { 7 * 60 + 20, "At Larch & Weir Auto Electrical", "in 40 min · drive 7 min" },
    { 8 * 60 + 9, "At A-0022, Rue Abernant", "leave 09:11, in 1 h 2 min · drive 6 min" },
  };

  move_at (book, "A-0021", HS_STAGE_ROLLING, 6 * 60 + 50);
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      app_book_show (book, "today");
      set_clock (book, rows[i].minutes);
      app_book_show (book, "jobs");
      hs_app_test_wait (hs_app_test_says (GTK_WIDGET (book->window), rows[i].title));
      hs_app_test_wait (hs_app_test_says (GTK_WIDGET (book->window), rows[i].detail));
    }
}

/* The button, the toast and the window of refusal name the call; a row that has the focus is what F4 moves. */
static void
test_next_stage_names_its_call (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_show (book, "today");
  GtkWidget *button = hs_app_test_button (page, "F4");
  GtkWidget *window;

  gtk_widget_grab_focus (hs_app_test_button (page, "Why This Order"));
  hs_app_test_wait (hs_app_test_says (button, "A-0021: Rolling"));
  g_assert_true (gtk_widget_grab_focus (row_at (page, 4)));
  hs_app_test_wait (hs_app_test_says (button, "A-0023: Rolling"));
  g_assert_true (gtk_widget_activate_action (page, "page.next-stage", NULL));
  app_book_settle (book);
  /* Out of its turn: others would wait too long, which is said first. */
  g_assert_nonnull (hs_app_test_window (HS_TYPE_ROLL_WINDOW));
  g_assert_cmpint (stage_of (book, "A-0023"), ==, HS_STAGE_PROMISED);
  /* 07:52 now: Larch 07:59, which opens at 08:00, to 08:08, Kingpost 08:17 to 08:27, there 08:31. */
  g_assert_true (hs_app_test_says (hs_app_test_window (HS_TYPE_ROLL_WINDOW),
                                   "A wait of 2 h 29 min there: the promised time begins at 11:00."));
  hs_app_test_picture (hs_app_test_window (HS_TYPE_ROLL_WINDOW), "roll-wait");
  app_book_press_in (hs_app_test_window (HS_TYPE_ROLL_WINDOW), GDK_KEY_1);
  app_book_settle (book);
  g_assert_cmpint (stage_of (book, "A-0023"), ==, HS_STAGE_ROLLING);
  g_assert_cmpint (stage_of (book, "A-0021"), ==, HS_STAGE_PROMISED);
  g_assert_true (hs_app_test_says (GTK_WIDGET (book->window), "A-0023: Rolling"));
  /* Elsewhere it is the one under way, and a counter is nothing to move. */
  gtk_widget_grab_focus (hs_app_test_button (page, "Why This Order"));
  hs_app_test_wait (hs_app_test_says (button, "A-0023: At the vehicle"));

  /* Without a reading it is not tested good: why, and of which call. */
  g_assert_true (gtk_widget_activate_action (page, "page.next-stage", NULL));
  app_book_settle (book);
  gtk_window_close (GTK_WINDOW (hs_app_test_window (HS_TYPE_SAFETY_WINDOW)));
  app_book_make_safe (book, "A-0023");
  g_assert_true (gtk_widget_activate_action (page, "page.next-stage", NULL));
  app_book_settle (book);
  hs_app_test_wait (gtk_window_get_focus (GTK_WINDOW (book->window)) != NULL);
  window = hs_app_test_window (HS_TYPE_STAGE_WINDOW);
  g_assert_nonnull (window);
  g_assert_cmpstr (gtk_window_get_title (GTK_WINDOW (window)), ==, "A-0023: where it goes");
  gtk_window_close (GTK_WINDOW (window));
}

/* A call that is done and not priced yet does not keep the van from the next one, and says no spare time any more. */
static void
test_unpriced_does_not_block (AppBook *book, gconstpointer data)
{
  GtkWidget *page, *button;

  move_at (book, "A-0021", HS_STAGE_ROLLING, 8 * 60 + 40);
  move_at (book, "A-0021", HS_STAGE_ON_SITE, 8 * 60 + 49);
  set_clock (book, 9 * 60 + 50);
  page = app_book_show (book, "today");
  button = hs_app_test_button (page, "F4");
  gtk_widget_grab_focus (hs_app_test_button (page, "Why This Order"));
  hs_app_test_wait (hs_app_test_says (button, "A-0021: Tested good"));
  g_assert_false (hs_app_test_says (row_at (page, 1), "71"));
  move_at (book, "A-0021", HS_STAGE_PROVEN, 9 * 60 + 49);
  hs_app_test_wait (hs_app_test_says (button, "A-0022: Rolling"));
  app_book_settle (book);
  g_assert_false (hs_app_test_says (row_at (page, 1), "71"));
  g_assert_true (gtk_widget_grab_focus (row_at (page, 1)));
  hs_app_test_wait (hs_app_test_says (button, "A-0021: Squared up"));
}

static void
assert_fits (AppBook *book, GtkWidget *window, const char *name, int width, int height)
{
  int least = 0, natural;

  gtk_widget_measure (window, GTK_ORIENTATION_HORIZONTAL, -1, &least, &natural, NULL, NULL);
  g_assert_cmpint (least, <=, width);
  gtk_widget_measure (window, GTK_ORIENTATION_VERTICAL, width, &least, &natural, NULL, NULL);
  g_assert_cmpint (least, <=, height);
  hs_app_test_picture (window, name);
}

/* Minutes of its labor clock at @minutes of the day. */
static int
clock_of (AppBook *book, const char *number, int minutes)
{
  g_autoptr (HsBook) other = open_beside (book);
  g_autofree char *id = hs_job_find (other, number, NULL);
  HsInstant at = hs_instant_from_local (hs_ledger_get_zone (book->ledger), hs_ledger_get_today (book->ledger), minutes);
  gint64 seconds;

  g_assert_true (hs_visit_seconds (other, id, at, &seconds, NULL));
  return (int) (seconds / 60);
}

static void
prove (AppBook *book, const char *number)
{
  g_autoptr (HsBook) other = open_beside (book);
  g_autofree char *id = hs_job_find (other, number, NULL);
  HsReadingEntry entry = { .check = "battery_rest", .keyed = "1265", .phase = "after", .at = HS_INSTANT_NONE };
  g_autoptr (GError) error = NULL;
  g_autoptr (HsReadingResult) result = hs_reading_add (other, id, &entry, hs_demo_get_now (), &error);

  g_assert_no_error (error);
}

/* F4 on another call while the owner is still at a vehicle: who stays, who finishes there first, who leaves it open. */
static void
test_leaves_a_vehicle (AppBook *book, gconstpointer data)
{
  GtkWidget *page, *window;

  move_at (book, "A-0021", HS_STAGE_ROLLING, 8 * 60 + 40);
  move_at (book, "A-0021", HS_STAGE_ON_SITE, 8 * 60 + 49);
  set_clock (book, 9 * 60 + 51);
  page = app_book_open_job (book, "A-0022", "call");
  gtk_widget_activate_action (page, "page.next-stage", NULL);
  hs_app_test_wait ((window = hs_app_test_window (HS_TYPE_ROLL_WINDOW)) != NULL);
  g_assert_true (hs_app_test_says_part (window, "A-0021, Marguerite Stane, is still “At the vehicle”."));
  g_assert_true (hs_app_test_says_part (window, "1 h 2 min"));
  g_assert_nonnull (hs_app_test_button (window, "Done There: Finish A-0021"));
  g_assert_nonnull (hs_app_test_button (window, "Leave It Open, Stop Its Clock, Roll"));
  g_assert_false (hs_app_test_says (window, "Roll All the Same"));
  assert_fits (book, window, "roll-left", 360, 600);
  app_book_press_in (window, GDK_KEY_Escape);
  app_book_settle (book);
  g_assert_cmpint (stage_of (book, "A-0022"), ==, HS_STAGE_PROMISED);

  /* Done there, but its safety list was never begun, and then nothing proves it: why not, and nobody rolls. */
  gtk_widget_activate_action (page, "page.next-stage", NULL);
  hs_app_test_wait ((window = hs_app_test_window (HS_TYPE_ROLL_WINDOW)) != NULL);
  app_book_press_in (window, GDK_KEY_KP_1);
  app_book_settle (book);
  hs_app_test_wait ((window = hs_app_test_window (HS_TYPE_SAFETY_WINDOW)) != NULL);
  g_assert_true (g_str_has_prefix (gtk_window_get_title (GTK_WINDOW (window)), "A-0021"));
  g_assert_cmpint (stage_of (book, "A-0022"), ==, HS_STAGE_PROMISED);
  app_book_press_in (window, GDK_KEY_F8);
  hs_app_test_wait ((window = hs_app_test_window (HS_TYPE_STAGE_WINDOW)) != NULL);
  g_assert_cmpstr (gtk_window_get_title (GTK_WINDOW (window)), ==, "A-0021: where it goes");
  gtk_window_close (GTK_WINDOW (window));
  g_assert_cmpint (stage_of (book, "A-0022"), ==, HS_STAGE_PROMISED);

  gtk_widget_activate_action (page, "page.next-stage", NULL);
  hs_app_test_wait ((window = hs_app_test_window (HS_TYPE_ROLL_WINDOW)) != NULL);
  app_book_press_in (window, GDK_KEY_KP_2);
  app_book_settle (book);
  g_assert_cmpint (stage_of (book, "A-0022"), ==, HS_STAGE_ROLLING);
  g_assert_cmpint (stage_of (book, "A-0021"), ==, HS_STAGE_ON_SITE);
  g_assert_cmpint (clock_of (book, "A-0021", 11 * 60), ==, 62);
}

static char *
job_id_of (AppBook *book, const char *number)
{
  g_autoptr (HsBook) other = open_beside (book);

  return hs_job_find (other, number, NULL);
}

/* Begun at another vehicle without rolling, in the window of stages and past it: the same question. */
static void
test_begins_at_another (AppBook *book, gconstpointer data)
{
  g_autofree char *id = job_id_of (book, "A-0022");
  HsStageWindow *stages;
  GtkWidget *page, *window;

  move_at (book, "A-0021", HS_STAGE_ROLLING, 8 * 60 + 40);
  move_at (book, "A-0021", HS_STAGE_ON_SITE, 8 * 60 + 49);
  set_clock (book, 9 * 60 + 51);
  page = app_book_open_job (book, "A-0022", "call");
  hs_mover_move (HS_PAGE (page), id, "A-0022", HS_STAGE_PROMISED, HS_STAGE_ON_SITE, NULL);
  hs_app_test_wait ((window = hs_app_test_window (HS_TYPE_ROLL_WINDOW)) != NULL);
  app_book_press_in (window, GDK_KEY_Escape);
  app_book_settle (book);
  g_assert_cmpint (stage_of (book, "A-0022"), ==, HS_STAGE_PROMISED);
  stages = hs_stage_window_present (HS_PAGE (page), id, "A-0022", HS_STAGE_PROMISED, HS_STAGE_ON_SITE, NULL);
  hs_stage_window_move (stages, HS_STAGE_ON_SITE);
  hs_app_test_wait ((window = hs_app_test_window (HS_TYPE_ROLL_WINDOW)) != NULL);
  g_assert_null (hs_app_test_window (HS_TYPE_STAGE_WINDOW));
  g_assert_cmpstr (gtk_window_get_title (GTK_WINDOW (window)), ==, "Begin at A-0022 now?");
  g_assert_nonnull (hs_app_test_button (window, "Done There: Finish A-0021"));
  g_assert_nonnull (hs_app_test_button (window, "Leave It Open, Stop Its Clock, Begin Here"));
  assert_fits (book, window, "begin-left", 360, 600);
  app_book_press_in (window, GDK_KEY_KP_2);
  app_book_settle (book);
  g_assert_cmpint (stage_of (book, "A-0022"), ==, HS_STAGE_ON_SITE);
  g_assert_cmpint (stage_of (book, "A-0021"), ==, HS_STAGE_ON_SITE);
  g_assert_cmpint (clock_of (book, "A-0021", 11 * 60), ==, 62);
}

/* Somebody came to the other vehicle after it was looked ahead: asked anew, with the keys that answer it. */
static void
test_left_since_it_was_asked (AppBook *book, gconstpointer data)
{
  g_autofree char *id = job_id_of (book, "A-0022");
  GtkWidget *page, *window;

  move_at (book, "A-0021", HS_STAGE_ROLLING, 8 * 60 + 40);
  move_at (book, "A-0021", HS_STAGE_ON_SITE, 8 * 60 + 49);
  set_clock (book, 9 * 60 + 51);
  page = app_book_open_job (book, "A-0022", "call");
  hs_mover_move (HS_PAGE (page), id, "A-0022", HS_STAGE_PROMISED, HS_STAGE_ROLLING, NULL);
  hs_app_test_wait ((window = hs_app_test_window (HS_TYPE_ROLL_WINDOW)) != NULL
                    || hs_app_test_window (HS_TYPE_STAGE_WINDOW) != NULL);
  g_assert_null (hs_app_test_window (HS_TYPE_STAGE_WINDOW));
  g_assert_nonnull (hs_app_test_button (window, "Leave It Open, Stop Its Clock, Roll"));
  app_book_press_in (window, GDK_KEY_KP_2);
  hs_app_test_wait (stage_of (book, "A-0022") == HS_STAGE_ROLLING);
  app_book_settle (book);
  g_assert_cmpint (clock_of (book, "A-0021", 11 * 60), ==, 62);
}

/* What is left was proven meanwhile: one key finishes it and rolls. */
static void
test_finishes_and_rolls (AppBook *book, gconstpointer data)
{
  GtkWidget *page, *window;

  move_at (book, "A-0021", HS_STAGE_ROLLING, 8 * 60 + 40);
  move_at (book, "A-0021", HS_STAGE_ON_SITE, 8 * 60 + 49);
  app_book_make_safe (book, "A-0021");
  prove (book, "A-0021");
  set_clock (book, 9 * 60 + 51);
  page = app_book_open_job (book, "A-0022", "call");
  gtk_widget_activate_action (page, "page.next-stage", NULL);
  hs_app_test_wait ((window = hs_app_test_window (HS_TYPE_ROLL_WINDOW)) != NULL);
  app_book_press_in (window, GDK_KEY_1);
  hs_app_test_wait (stage_of (book, "A-0022") == HS_STAGE_ROLLING);
  app_book_settle (book);
  g_assert_cmpint (stage_of (book, "A-0021"), ==, HS_STAGE_PROVEN);
  g_assert_cmpint (clock_of (book, "A-0021", 11 * 60), ==, 62);
}

#define ADD(name, func) g_test_add (name, AppBook, NULL, app_book_open, func, app_book_close)

int
main (int argc, char *argv[])
{
  hs_app_test_init (&argc, &argv);
  ADD ("/going/next-stage-is-the-vans-own", test_next_stage_is_the_vans_own);
  ADD ("/going/next-stage-names-its-call", test_next_stage_names_its_call);
  ADD ("/going/unpriced-does-not-block", test_unpriced_does_not_block);
  ADD ("/going/leaves-a-vehicle", test_leaves_a_vehicle);
  ADD ("/going/begins-at-another", test_begins_at_another);
  ADD ("/going/left-since-it-was-asked", test_left_since_it_was_asked);
  ADD ("/going/finishes-and-rolls", test_finishes_and_rolls);
  ADD ("/going/ring-them", test_ring_them);
  ADD ("/going/counter-on-the-way", test_counter_on_the_way);
  return g_test_run ();
}
