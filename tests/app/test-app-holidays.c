// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Counters' holidays in the set-up window: one more, one refused, one less, taken back; and the day follows. */

#include "app-book.h"
#include "hs-app-test.h"
#include "hs-area-choice.h"
#include "hs-demo.h"
#include "hs-holiday-card.h"
#include "hs-holiday-op.h"
#include "hs-key-button.h"
#include "hs-set-up-window.h"

typedef struct
{
  HsSetUpWindow *window;
  HsHolidayCard *card;
} Bench;

static Bench
open_bench (AppBook *book)
{
  Bench bench;

  bench.window = hs_set_up_window_present (book->window, book->ledger);
  app_book_settle (book);
  bench.card = HS_HOLIDAY_CARD (hs_app_test_find (GTK_WIDGET (bench.window), HS_TYPE_HOLIDAY_CARD));
  return bench;
}

static void
fill (Bench *bench, const char *name, const char *text)
{
  gtk_editable_set_text (hs_holiday_card_get_entry (bench->card, name), text);
}

/* Enter in the last field. */
static void
enter (AppBook *book, Bench *bench)
{
  g_signal_emit_by_name (hs_holiday_card_get_entry (bench->card, "words"), "activate");
  app_book_settle (book);
  hs_app_test_frames ();
}

static void
add (AppBook *book, Bench *bench, const char *day, const char *opens, const char *shuts, const char *words)
{
  fill (bench, "day", day);
  fill (bench, "opens", opens);
  fill (bench, "shuts", shuts);
  fill (bench, "words", words);
  enter (book, bench);
}

static GtkListBox *
list_of (Bench *bench)
{
  return GTK_LIST_BOX (hs_app_test_find (GTK_WIDGET (bench->card), GTK_TYPE_LIST_BOX));
}

static guint
count_rows (Bench *bench)
{
  guint n = 0;

  while (gtk_list_box_get_row_at_index (list_of (bench), (int) n) != NULL)
    n++;
  return n;
}

static GtkWidget *
button_of (GtkWidget *widget, const char *text)
{
  if (HS_IS_KEY_BUTTON (widget) && hs_app_test_says (widget, text))
    return widget;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = button_of (child, text);

      if (found != NULL)
        return found;
    }
  return NULL;
}

static gboolean
can_undo (Bench *bench)
{
  GtkWidget *button = button_of (GTK_WIDGET (bench->card), "Undo");

  return button != NULL && gtk_widget_get_mapped (button);
}

static const char *
text_of (Bench *bench, const char *name)
{
  return gtk_editable_get_text (hs_holiday_card_get_entry (bench->card, name));
}

static void
test_add (AppBook *book, gconstpointer data)
{
  Bench bench = open_bench (book);

  g_assert_cmpuint (count_rows (&bench), ==, 0);
  g_assert_true (hs_app_test_says_part (GTK_WIDGET (bench.card), "No day is coming"));
  g_assert_false (can_undo (&bench));
  add (book, &bench, "2026-12-25", "", "", "Midwinter");
  hs_area_choice_choose (HS_AREA_CHOICE (hs_app_test_find (GTK_WIDGET (bench.card), HS_TYPE_AREA_CHOICE)),
                         "Larch & Weir Auto Electrical");
  add (book, &bench, "2026-07-03", "9:00", "11:00", "");
  g_assert_cmpuint (count_rows (&bench), ==, 2);
  g_assert_true (hs_app_test_says (GTK_WIDGET (bench.card), "2026-07-03, 09:00–11:00"));
  g_assert_true (hs_app_test_says (GTK_WIDGET (bench.card), "Larch & Weir Auto Electrical · Friday, July 3, 2026"));
  g_assert_true (hs_app_test_says (GTK_WIDGET (bench.card), "2026-12-25, shut"));
  g_assert_true (hs_app_test_says (GTK_WIDGET (bench.card), "All counters · Friday, December 25, 2026 · Midwinter"));
  g_assert_true (hs_app_test_says (GTK_WIDGET (bench.window), "Written down."));
  g_assert_cmpstr (text_of (&bench, "day"), ==, "");
  g_assert_true (gtk_widget_is_ancestor (gtk_window_get_focus (GTK_WINDOW (bench.window)),
                                         GTK_WIDGET (hs_holiday_card_get_entry (bench.card, "day"))));
  gtk_window_close (GTK_WINDOW (bench.window));
}

/* What is refused is told, and stays to be mended. */
static void
test_refused (AppBook *book, gconstpointer data)
{
  static const struct
  {
    const char *day, *opens, *shuts, *says;
  } rows[] = { { "July 3", "", "", "date" }, { "2026-02-30", "", "", "date" }, { "2026-07-03", "09:00", "", "shuts" },
               { "2026-07-03", "", "11:00", "opens" }, { "2026-07-03", "11:00", "09:00", "shuts" },
               { "", "", "", "date" } };
  Bench bench = open_bench (book);

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_test_message ("%s %s %s", rows[i].day, rows[i].opens, rows[i].shuts);
      add (book, &bench, rows[i].day, rows[i].opens, rows[i].shuts, "");
      g_assert_true (hs_app_test_says_part (GTK_WIDGET (bench.window), rows[i].says));
      g_assert_false (hs_app_test_says (GTK_WIDGET (bench.window), "Written down."));
      g_assert_cmpstr (text_of (&bench, "day"), ==, rows[i].day);
      g_assert_cmpstr (text_of (&bench, "shuts"), ==, rows[i].shuts);
      g_assert_cmpuint (count_rows (&bench), ==, 0);
      g_assert_false (can_undo (&bench));
    }
  gtk_window_destroy (GTK_WINDOW (bench.window));
}

static void
undo (AppBook *book, Bench *bench)
{
  g_assert_true (can_undo (bench));
  g_signal_emit_by_name (button_of (GTK_WIDGET (bench->card), "Undo"), "clicked");
  app_book_settle (book);
  hs_app_test_frames ();
}

static void
test_remove_and_undo (AppBook *book, gconstpointer data)
{
  Bench bench = open_bench (book);
  GtkWidget *row;

  add (book, &bench, "2026-07-03", "", "", "one");
  add (book, &bench, "2026-07-04", "", "", "two");
  row = GTK_WIDGET (gtk_list_box_get_row_at_index (list_of (&bench), 0));
  g_assert_true (gtk_widget_grab_focus (row));
  g_assert_false (hs_app_test_key (row, GDK_KEY_a, 0));
  g_assert_true (hs_app_test_key (row, GDK_KEY_Delete, 0));
  app_book_settle (book);
  hs_app_test_frames ();
  g_assert_cmpuint (count_rows (&bench), ==, 1);
  g_assert_false (hs_app_test_says_part (GTK_WIDGET (bench.card), "2026-07-03"));
  /* On to the next one. */
  g_assert_true (gtk_window_get_focus (GTK_WINDOW (bench.window))
                 == GTK_WIDGET (gtk_list_box_get_row_at_index (list_of (&bench), 0)));
  undo (book, &bench);
  g_assert_cmpuint (count_rows (&bench), ==, 2);
  g_assert_false (can_undo (&bench));

  g_signal_emit_by_name (button_of (GTK_WIDGET (gtk_list_box_get_row_at_index (list_of (&bench), 1)), "Remove"),
                         "clicked");
  app_book_settle (book);
  g_assert_cmpuint (count_rows (&bench), ==, 1);
  g_assert_false (hs_app_test_says_part (GTK_WIDGET (bench.card), "2026-07-04"));
  gtk_window_close (GTK_WINDOW (bench.window));
}

/* Somebody else wrote of that day in between: nothing is lost, and the reason is told. */
static void
test_undo_refused (AppBook *book, gconstpointer data)
{
  Bench bench = open_bench (book);
  HsBookUser user = { "test", "here", 1, hs_demo_get_now () };
  g_autoptr (HsBook) other = hs_book_open (book->path, HS_BOOK_WRITE, &user, NULL);
  g_autoptr (HsHolidayUndo) theirs = NULL;

  add (book, &bench, "2026-07-03", "", "", "");
  theirs = hs_holiday_add (other, "Kingpost Parts Counter", "2026-07-03", "", "", "", hs_demo_get_now (), NULL);
  g_assert_nonnull (theirs);
  undo (book, &bench);
  g_assert_true (hs_app_test_says_part (GTK_WIDGET (bench.window), "cannot be taken back"));
  hs_app_test_wait (count_rows (&bench) == 2);
  gtk_window_destroy (GTK_WINDOW (bench.window));
}

/* A day that was typed and not added is added when the window is shut; a bad one keeps it, once. */
static void
test_close (AppBook *book, gconstpointer data)
{
  Bench bench = open_bench (book);

  fill (&bench, "day", "tomorrow");
  gtk_window_close (GTK_WINDOW (bench.window));
  app_book_settle (book);
  g_assert_true (gtk_widget_get_mapped (GTK_WIDGET (bench.window)));
  g_assert_true (hs_app_test_says_part (GTK_WIDGET (bench.window), "Not saved, so it stays here."));
  fill (&bench, "day", "2026-07-03");
  gtk_window_close (GTK_WINDOW (bench.window));
  app_book_settle (book);
  bench = open_bench (book);
  g_assert_cmpuint (count_rows (&bench), ==, 1);
  gtk_window_close (GTK_WINDOW (bench.window));
}

/* Nobody else sells what Kingpost has: with its counter shut the day is another one. */
static void
test_day_follows (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_show (book, "today");
  Bench bench;

  g_assert_true (hs_app_test_says_part (page, "Kingpost Parts Counter"));
  g_assert_false (hs_app_test_says_part (page, "Not every promise can be kept"));
  bench = open_bench (book);
  hs_area_choice_choose (HS_AREA_CHOICE (hs_app_test_find (GTK_WIDGET (bench.card), HS_TYPE_AREA_CHOICE)),
                         "Kingpost Parts Counter");
  add (book, &bench, "2026-03-10", "", "", "Founders’ Day");
  hs_app_test_wait (hs_app_test_says_part (page, "Not every promise can be kept"));
  undo (book, &bench);
  hs_app_test_wait (!hs_app_test_says_part (page, "Not every promise can be kept"));
  gtk_window_close (GTK_WINDOW (bench.window));
}

#define ADD(name, func) g_test_add ("/holidays/" name, AppBook, NULL, app_book_open, func, app_book_close)

int
main (int argc, char *argv[])
{
  hs_app_test_init (&argc, &argv);
  ADD ("add", test_add);
  ADD ("refused", test_refused);
  ADD ("remove-and-undo", test_remove_and_undo);
  ADD ("undo-refused", test_undo_refused);
  ADD ("close", test_close);
  ADD ("day-follows", test_day_follows);
  return g_test_run ();
}
