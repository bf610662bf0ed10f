// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The repair and its proof by keyboard alone: a part field by field, what it disturbed, the complaint tried again, a
 * job that is refused without a proof and goes on with a reason, and the proof sheet as a file. */

#include <adwaita.h>
#include <glib/gstdio.h>
#include <libintl.h>
#include <string.h>

#include "app-book.h"
#include "hs-app-test.h"
#include "hs-demo.h"
#include "hs-job-life.h"
#include "hs-job-op.h"
#include "hs-job-page.h"
#include "hs-print-operation.h"
#include "hs-print-window.h"
#include "hs-proof-sheet.h"
#include "hs-repair-op.h"
#include "hs-safety-op.h"
#include "hs-stage-window.h"

static HsBook *
open_book (AppBook *book)
{
  HsBookUser user = { "test", "here", 1, hs_demo_get_now () };
  g_autoptr (GError) error = NULL;
  HsBook *other = hs_book_open (book->path, HS_BOOK_WRITE, &user, &error);

  g_assert_no_error (error);
  return other;
}

/* At A-0024 with what was found: a draw, and the relay behind it. */
static void
arrive (AppBook *book)
{
  g_autoptr (HsBook) other = open_book (book);
  g_autofree char *id = hs_job_find (other, "A-0024", NULL);
  HsInstant at = hs_demo_get_now ();
  const HsReadingEntry draw = { .check = "sleeping_draw", .text = "0.31", .phase = "before", .at = at };
  const HsFindingEntry relay = { .what = "relay stuck", .role = "cause", .sure = "suspected", .ended = "cured" };
  g_autoptr (HsReadingResult) result = NULL;
  g_autofree char *cause = NULL;

  g_assert_true (hs_job_move_stage (other, id, HS_STAGE_ROLLING, NULL, at, NULL));
  g_assert_true (hs_job_move_stage (other, id, HS_STAGE_ON_SITE, NULL, at, NULL));
  g_assert_true (hs_safety_finish (other, id, HS_SAFETY_SAFE, NULL, at, NULL));
  result = hs_reading_add (other, id, &draw, at, NULL);
  cause = hs_finding_add (other, id, &relay, at, NULL);
  g_assert_true (result != NULL && cause != NULL);
}

static HsRepair *
load (AppBook *book, const char *number)
{
  g_autoptr (HsBook) other = open_book (book);
  g_autofree char *id = hs_job_find (other, number, NULL);
  GError *error = NULL;
  HsRepair *repair = hs_repair_load (other, id, NULL, hs_demo_get_now (), &error);

  g_assert_no_error (error);
  return repair;
}

static HsStage
stage_of (AppBook *book, const char *number)
{
  g_autoptr (HsBook) other = open_book (book);
  g_autofree char *id = hs_job_find (other, number, NULL);
  g_autoptr (HsJobView) view = hs_job_view_load (other, id, hs_demo_get_now (), NULL);

  return view->tag->stage;
}

#define SAYS(text) g_assert_true (hs_app_test_says_part (page, text))

static void
press (AppBook *book, const char *keys)
{
  app_book_type (book, keys);
  app_book_settle (book);
}

static void
escape (AppBook *book)
{
  app_book_press (book, GDK_KEY_Escape);
  app_book_settle (book);
}

/* What is typed goes, the question stays. */
static void
escape_entry (GtkWidget *page)
{
  gtk_editable_set_text (GTK_EDITABLE (gtk_root_get_focus (gtk_widget_get_root (page))), "");
}

/* A cost that would pass the go-ahead is told with by how much and not written down. Enter out of habit
 * says nothing more; + says yes to what was told, and to nothing else. */
static void
test_past_ceiling (AppBook *book, gconstpointer data)
{
  GtkWidget *page;

  arrive (book);
  {
    g_autoptr (HsBook) other = open_book (book);
    g_autofree char *id = hs_job_find (other, "A-0024", NULL);

    /* 67 min by the window's clock are 132.00. */
    g_assert_true (hs_go_ahead_add (other, id, 15000, "Wilhelmina Sorrel", "phone", hs_demo_get_now (), NULL));
  }
  page = app_book_open_job (book, "A-0024", "after");
  press (book, "1");
  press (book, "heater relay\n");
  SAYS ("What did it cost?");
  press (book, "50\n");
  SAYS ("The job comes to 222.72 and the go-ahead by Wilhelmina Sorrel covers 150.00: short by 72.72.");
  SAYS ("Yes, Past the Go-Ahead");
  SAYS ("No price yet; the job is not squared up without one.");
  hs_app_test_picture (GTK_WIDGET (book->window), "after-past-ceiling");
  /* Another one is told anew. */
  escape_entry (page);
  g_assert_false (hs_app_test_says_part (page, "short by"));
  g_assert_false (hs_app_test_says_part (page, "Yes, Past the Go-Ahead"));
  press (book, "40\n");
  SAYS ("short by 55.44.");
  press (book, "\n\n");
  SAYS ("short by 55.44.");
  SAYS ("No price yet; the job is not squared up without one.");
  press (book, "+");
  SAYS ("On the bill: 68.00");
  SAYS ("Why did the old one go?");
}

/* A part from the first digit to its place on the list, each answer stored as it is given. */
static void
test_part (AppBook *book, gconstpointer data)
{
  GtkWidget *page;
  g_autoptr (HsRepair) repair = NULL;
  const HsFittedPart *part;

  arrive (book);
  page = app_book_open_job (book, "A-0024", "after");
  SAYS ("Still to do before it is tested good");
  SAYS ("Read again: Sleeping draw, 0.310 A was outside before.");
  hs_app_test_picture (GTK_WIDGET (book->window), "after-start");
  press (book, "1");
  SAYS ("What was installed?");
  hs_app_test_picture (GTK_WIDGET (book->window), "after-offers");
  /* What the van carries stands there, too. */
  SAYS ("out of the van");
  press (book, "heater relay\n");
  SAYS ("What did it cost?");
  SAYS ("No price yet; the job is not squared up without one.");
  hs_app_test_picture (GTK_WIDGET (book->window), "after-cost");
  press (book, "much\n");
  SAYS ("is not a number that can be used");
  escape_entry (page);
  press (book, "50\n");
  SAYS ("On the bill: 84.00");
  SAYS ("Why did the old one go?");
  SAYS ("It failed: relay stuck");
  SAYS ("Say why the old one went: heater relay.");
  hs_app_test_picture (GTK_WIDGET (book->window), "after-why");
  press (book, "9\n");
  SAYS ("“9” is not on the list: press 1 to 4.");
  escape_entry (page);
  press (book, "gremlins\n");
  SAYS ("Write failed, due, none before or not known");
  escape_entry (page);
  press (book, "1");
  SAYS ("How many months is it covered?");
  press (book, "two\n");
  SAYS ("“two” is not a whole number");
  escape (book);
  repair = load (book, "A-0024");
  g_assert_cmpuint (repair->parts->len, ==, 1);
  part = g_ptr_array_index (repair->parts, 0);
  g_assert_cmpstr (part->what, ==, "heater relay");
  g_assert_cmpint (part->price_cents, ==, 8400);
  g_assert_cmpstr (part->why_said, ==, "the old one failed: relay stuck");
  SAYS ("Relay or fuse pressed fully home");
  SAYS ("No cover was agreed.");
}

/* A name may begin with a digit: an offer is picked by its digit alone, with Enter. */
static void
test_digit_in_a_name (AppBook *book, gconstpointer data)
{
  GtkWidget *page;
  g_autoptr (HsRepair) repair = NULL;

  arrive (book);
  page = app_book_open_job (book, "A-0024", "after");
  press (book, "1");
  SAYS ("A number and Enter chooses, or type the words.");
  SAYS ("out of the van");
  press (book, "12 V bulb\n");
  SAYS ("What did it cost?");
  escape (book);
  press (book, "1");
  press (book, "1\n");
  repair = load (book, "A-0024");
  g_assert_cmpuint (repair->parts->len, ==, 2);
  g_assert_cmpstr (((const HsFittedPart *) g_ptr_array_index (repair->parts, 0))->what, ==, "12 V bulb");
  g_assert_cmpstr (((const HsFittedPart *) g_ptr_array_index (repair->parts, 1))->what, !=, "1");
}

/* Every field of it in turn, and one of them again by its number. */
static void
test_fields (AppBook *book, gconstpointer data)
{
  GtkWidget *page;
  g_autoptr (HsRepair) repair = NULL;
  const HsFittedPart *part;

  arrive (book);
  page = app_book_open_job (book, "A-0024", "after");
  press (book, "1");
  press (book, "battery 60 Ah\n");
  press (book, "\n");
  SAYS ("No price yet; the job is not squared up without one.");
  press (book, "2");
  press (book, "24\n");
  SAYS ("Date code of the battery");
  press (book, "C5\n");
  SAYS ("What does the odometer show?");
  press (book, "\n");
  SAYS ("What became of the old one?");
  press (book, "3");
  SAYS ("March 2025");
  SAYS ("handed over");
  SAYS ("Both clamps tight");
  hs_app_test_picture (GTK_WIDGET (book->window), "after-battery");
  repair = load (book, "A-0024");
  part = g_ptr_array_index (repair->parts, 0);
  g_assert_cmpstr (part->why, ==, "due");
  g_assert_cmpint (part->months, ==, 24);
  g_assert_cmpstr (part->made, ==, "March 2025");
  g_assert_cmpstr (part->old_part, ==, "handed_over");
  hs_repair_free (g_steal_pointer (&repair));
  g_signal_emit_by_name (gtk_widget_get_ancestor (hs_app_test_label (page, "the old one was due"), GTK_TYPE_BUTTON),
                         "clicked");
  app_book_settle (book);
  SAYS ("What about it is to be written down?");
  press (book, "3");
  SAYS ("Serial number?");
  press (book, "77-12\n");
  escape (book);
  repair = load (book, "A-0024");
  g_assert_cmpstr (((const HsFittedPart *) g_ptr_array_index (repair->parts, 0))->serial, ==, "77-12");
}

/* What was disturbed comes by its number or in words, is ticked by +, and taken away by −. */
static void
test_looks (AppBook *book, gconstpointer data)
{
  GtkWidget *page;
  g_autoptr (HsRepair) repair = NULL;

  arrive (book);
  page = app_book_open_job (book, "A-0024", "after");
  press (book, "2");
  SAYS ("Relay or fuse pulled");
  hs_app_test_picture (GTK_WIDGET (book->window), "after-disturbed");
  press (book, "2\n");
  SAYS ("Relay or fuse pressed fully home, lid of its box shut");
  SAYS ("2 lines below are not looked after yet.");
  press (book, "2");
  press (book, "relay\n");
  SAYS ("is on the list already");
  escape (book);
  press (book, "2");
  press (book, "shim under the bracket\n");
  press (book, "+");
  repair = load (book, "A-0024");
  g_assert_cmpuint (repair->looks->len, ==, 3);
  g_assert_cmpint (((const HsAfterLine *) g_ptr_array_index (repair->looks, 0))->done_at, !=, HS_INSTANT_NONE);
  hs_repair_free (g_steal_pointer (&repair));
  press (book, "-");
  repair = load (book, "A-0024");
  g_assert_cmpuint (repair->looks->len, ==, 2);
}

/* The list is longer than nine: its numbers go on, and Enter takes them, whichever of them are shown; words may begin
 * with a digit. */
static void
test_two_digits (AppBook *book, gconstpointer data)
{
  GtkWidget *page;
  g_autoptr (HsRepair) repair = NULL;
  guint n;

  arrive (book);
  page = app_book_open_job (book, "A-0024", "after");
  press (book, "2");
  press (book, "1");
  SAYS ("What was disturbed? A number and Enter chooses, or type the words.");
  SAYS ("Battery off or swapped");
  press (book, "2\n");
  SAYS ("Plugs at the maker's torque");
  g_assert_false (hs_app_test_says_part (page, "Both clamps tight"));
  press (book, "2+");
  g_assert_nonnull (hs_app_test_label (page, "17"));
  hs_app_test_picture (GTK_WIDGET (book->window), "after-two-digits");
  press (book, "18\n");
  SAYS ("“18” is not on the list: press 1 to 17.");
  escape_entry (page);
  press (book, "17\n");
  SAYS ("Tools and lamps counted");
  repair = load (book, "A-0024");
  n = repair->looks->len;
  hs_repair_free (g_steal_pointer (&repair));
  press (book, "2");
  press (book, "12 V socket\n");
  repair = load (book, "A-0024");
  g_assert_cmpuint (repair->looks->len, ==, n + 1);
  g_assert_cmpstr (((const HsAfterLine *) g_ptr_array_index (repair->looks, n))->what, ==, "12 V socket");
}

/* Story 16 in the window: without a reading after the repair it is refused, with a reason it goes on, and both stand
 * where they are looked for. */
static void
test_unproved (AppBook *book, gconstpointer data)
{
  GtkWidget *page;
  GtkWidget *window;

  arrive (book);
  page = app_book_open_job (book, "A-0024", "after");
  app_book_press (book, GDK_KEY_F4);
  app_book_settle (book);
  hs_app_test_wait ((window = hs_app_test_window (HS_TYPE_STAGE_WINDOW)) != NULL);
  g_assert_true (hs_app_test_says_part (window, "no reading after the repair"));
  app_book_press_in (window, GDK_KEY_Escape);
  app_book_settle (book);
  g_assert_cmpint (stage_of (book, "A-0024"), ==, HS_STAGE_ON_SITE);
  press (book, "4");
  SAYS ("Dark and raining, so no road test.");
  press (book, "2");
  SAYS ("Not proven because: Dark and raining, so no road test.");
  app_book_press (book, GDK_KEY_F4);
  app_book_settle (book);
  g_assert_cmpint (stage_of (book, "A-0024"), ==, HS_STAGE_PROVEN);
  press (book, "5");
  press (book, "3");
  SAYS ("Safe to drive: told not to");
  hs_app_test_picture (GTK_WIDGET (book->window), "after-unproved");
}

/* The complaint tried again: 4 of 5 is still there, 5 of 5 is good. */
static void
test_tries (AppBook *book, gconstpointer data)
{
  GtkWidget *page;

  arrive (book);
  page = app_book_open_job (book, "A-0024", "after");
  press (book, "3");
  press (book, "x\n");
  SAYS ("type both numbers, 55 for 5 of 5");
  escape (book);
  press (book, "3");
  press (book, "45\n");
  SAYS ("The complaint is still there: 4 of 5 good.");
  press (book, "3");
  press (book, "55\n");
  g_assert_false (hs_app_test_says_part (page, "still there"));
  press (book, "6");
  press (book, "99x\n");
  SAYS ("99x");
  escape (book);
}

/* F12 asks: on paper or as a file. */
static HsPrintWindow *
ask_to_print (GtkWidget *page)
{
  HsPrintWindow *window;

  g_assert_true (gtk_widget_activate_action (page, "win.print", NULL));
  hs_app_test_wait (hs_app_test_window (HS_TYPE_PRINT_WINDOW) != NULL);
  window = HS_PRINT_WINDOW (hs_app_test_window (HS_TYPE_PRINT_WINDOW));
  hs_app_test_wait (hs_print_window_is_ready (window));
  return window;
}

/* The sheet as a file, from the window as from the command line: it has a name, what goes wrong is said where one looks
 * and can be tried again, and a file that is there stays whole. */
static void
test_save (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0014", "bill");
  g_autofree char *path = g_build_filename (book->folder, "proof.pdf", NULL);
  g_autofree char *nowhere = g_build_filename (book->folder, "no", "proof.pdf", NULL);
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_autoptr (GFile) lost = g_file_new_for_path (nowhere);
  g_autofree char *bytes = NULL;
  HsPrintWindow *window;

  window = ask_to_print (page);
  g_assert_cmpstr (hs_print_window_get_name (window), ==, "A-0014-TDM-1204-Halvik-Pim-2014.pdf");
  hs_app_test_picture (GTK_WIDGET (window), "print-window");
  hs_print_window_save (window, lost);
  hs_app_test_wait (hs_app_test_says_part (GTK_WIDGET (window), "proof.pdf was not written: "));
  g_assert_true (hs_app_test_says_part (GTK_WIDGET (window), "No such file or directory. Choose another"));
  hs_print_window_save (window, file);
  hs_app_test_wait (hs_app_test_window (HS_TYPE_PRINT_WINDOW) == NULL);
  g_assert_true (g_file_get_contents (path, &bytes, NULL, NULL));
  g_assert_true (g_str_has_prefix (bytes, "%PDF-"));
}

/* Esc while the sheet is made stops it, and nothing is there; the window stays until it is pressed again. Where the
 * file was quicker it says so and is there. */
static void
test_stop (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0014", "after");
  g_autofree char *path = g_build_filename (book->folder, "proof.pdf", NULL);
  g_autoptr (GFile) file = g_file_new_for_path (path);
  gboolean stopped = FALSE;

  for (int i = 0; i < 50 && !stopped; i++)
    {
      HsPrintWindow *window = ask_to_print (page);

      hs_print_window_save (window, file);
      g_assert_true (gtk_widget_activate_action (GTK_WIDGET (window), "print.close", NULL));
      hs_app_test_wait (hs_app_test_window (HS_TYPE_PRINT_WINDOW) == NULL
                        || hs_app_test_says_part (GTK_WIDGET (window), "Stopped. Nothing was written."));
      stopped = hs_app_test_window (HS_TYPE_PRINT_WINDOW) != NULL;
      g_assert_true (stopped != g_file_test (path, G_FILE_TEST_EXISTS));
      if (stopped)
        g_assert_true (gtk_widget_activate_action (GTK_WIDGET (window), "print.close", NULL));
      hs_app_test_wait (hs_app_test_window (HS_TYPE_PRINT_WINDOW) == NULL);
      g_remove (path);
    }
  g_assert_true (stopped);
}

static gboolean
is_whole (const char *path)
{
  g_autofree char *bytes = NULL;
  gsize length;

  return g_file_get_contents (path, &bytes, &length, NULL) && length > 6
         && g_str_has_prefix (bytes + length - 6, "%%EOF");
}

/* Esc that comes when the file is there does not deny it. */
static void
test_stop_late (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0014", "after");
  g_autofree char *path = g_build_filename (book->folder, "proof.pdf", NULL);
  g_autoptr (GFile) file = g_file_new_for_path (path);
  HsPrintWindow *window = ask_to_print (page);

  hs_print_window_save (window, file);
  while (!is_whole (path))
    g_usleep (1000);
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (window), "print.close", NULL));
  hs_app_test_wait (hs_app_test_window (HS_TYPE_PRINT_WINDOW) == NULL
                    || hs_app_test_says_part (GTK_WIDGET (window), "Stopped."));
  g_assert_null (hs_app_test_window (HS_TYPE_PRINT_WINDOW));
  g_assert_true (is_whole (path));
}

/* What the print dialog gets is on the file's paper; how many pages there are is asked of a longer sheet. */
static void
test_print (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0014", "after");
  g_autofree char *path = g_build_filename (book->folder, "printed.pdf", NULL);
  g_autoptr (GtkPrintOperation) operation = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *bytes = NULL;
  GtkPageSetup *setup;

  SAYS ("Nothing left to do");
  hs_app_test_picture (GTK_WIDGET (book->window), "after-done");
  operation = hs_print_window_dup_operation (ask_to_print (page));
  setup = gtk_print_operation_get_default_page_setup (operation);
  g_assert_cmpstr (gtk_paper_size_get_name (gtk_page_setup_get_paper_size (setup)), ==, GTK_PAPER_NAME_LETTER);
  gtk_print_operation_set_export_filename (operation, path);
  gtk_print_operation_set_allow_async (operation, FALSE);
  g_assert_cmpint (gtk_print_operation_run (operation, GTK_PRINT_OPERATION_ACTION_EXPORT, NULL, &error), ==,
                   GTK_PRINT_OPERATION_RESULT_APPLY);
  g_assert_no_error (error);
  g_assert_cmpint (gtk_print_operation_get_n_pages_to_print (operation), ==, 1);
  g_assert_true (g_file_get_contents (path, &bytes, NULL, NULL));
  g_assert_true (g_str_has_prefix (bytes, "%PDF-"));
}

static void
count_page_cb (GtkPrintOperation *operation, GtkPrintContext *context, int nth, guint *n_drawn)
{
  ++*n_drawn;
}

/* Each page of a sheet that is longer than one, and none twice. */
static void
test_print_long (AppBook *book, gconstpointer data)
{
  static const HsTongue tongue = { gettext, ngettext };
  g_autofree char *path = g_build_filename (book->folder, "long.pdf", NULL);
  g_autoptr (HsProofSheet) sheet = hs_proof_sheet_new ();
  g_autoptr (GtkPrintOperation) operation = NULL;
  g_autoptr (GError) error = NULL;
  guint n_drawn = 0, n_pages;
  HsPaper *paper;

  for (guint i = 0; i < 200; i++)
    hs_proof_line_add (sheet->why, "The ground strap was loose.", NULL);
  paper = hs_paper_proof_new (sheet, HS_PAPER_LETTER, &tongue);
  n_pages = hs_paper_get_n_pages (paper);
  g_assert_cmpuint (n_pages, >=, 3);
  operation = hs_print_operation_new (paper);
  g_signal_connect (operation, "draw-page", G_CALLBACK (count_page_cb), &n_drawn);
  gtk_print_operation_set_export_filename (operation, path);
  gtk_print_operation_set_allow_async (operation, FALSE);
  g_assert_cmpint (gtk_print_operation_run (operation, GTK_PRINT_OPERATION_ACTION_EXPORT, NULL, &error), ==,
                   GTK_PRINT_OPERATION_RESULT_APPLY);
  g_assert_no_error (error);
  g_assert_cmpint (gtk_print_operation_get_n_pages_to_print (operation), ==, (int) n_pages);
  g_assert_cmpuint (n_drawn, ==, n_pages);
}

/* What was typed and not stored is there again after a kill. */
static void
test_kept (AppBook *book, gconstpointer data)
{
  GtkWidget *page;

  arrive (book);
  page = app_book_open_job (book, "A-0024", "after");
  press (book, "4");
  press (book, "the owner drove");
  app_book_close_window (book);
  app_book_open_window (book);
  app_book_press (book, GDK_KEY_F2);
  app_book_settle (book);
  page = hs_app_test_find (GTK_WIDGET (book->window), HS_TYPE_JOB_PAGE);
  SAYS ("It is not proven because:");
  press (book, " off\n");
  SAYS ("Not proven because: the owner drove off");
}

/* It fits a narrow and a low window, also while it asks, and at twice the text; its keys stay to be seen. */
static void
test_room (AppBook *book, gconstpointer data)
{
  static const struct
  {
    int width;
    int height;
    int dpi;
    const char *picture;
  } rows[] = {
    { 1024, 600, 96, "after-1024" },
    { 360, 700, 96, "after-360" },
    { 1280, 800, 192, "after-200-percent" },
  };
  GtkSettings *settings = gtk_settings_get_default ();
  GtkWidget *page;

  arrive (book);
  page = app_book_open_job (book, "A-0024", "after");
  press (book, "1");
  press (book, "battery 60 Ah\n");
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      int width;

      g_object_set (settings, "gtk-xft-dpi", rows[i].dpi * PANGO_SCALE, NULL);
      gtk_window_set_default_size (GTK_WINDOW (book->window), rows[i].width, rows[i].height);
      app_book_settle (book);
      hs_app_test_frames ();
      gtk_widget_measure (page, GTK_ORIENTATION_HORIZONTAL, -1, &width, NULL, NULL, NULL);
      g_assert_cmpint (width, <=, rows[i].width);
      SAYS ("What did it cost?");
      hs_app_test_picture (GTK_WIDGET (book->window), rows[i].picture);
    }
  g_object_set (settings, "gtk-xft-dpi", 96 * PANGO_SCALE, NULL);
  escape (book);
  adw_style_manager_set_color_scheme (adw_style_manager_get_default (), ADW_COLOR_SCHEME_FORCE_DARK);
  hs_app_test_frames ();
  hs_app_test_picture (GTK_WIDGET (book->window), "after-dark");
  adw_style_manager_set_color_scheme (adw_style_manager_get_default (), ADW_COLOR_SCHEME_DEFAULT);
}

/* Tried and good, while a draw that was outside was not read again. */
static GtkWidget *
open_with_left (AppBook *book, const char *pane)
{
  const HsReadingEntry tried = { .check = "tried_again", .text = "5 of 5", .phase = "after", .at = hs_demo_get_now () };
  g_autoptr (HsReadingResult) result = NULL;
  g_autoptr (HsBook) other = NULL;
  g_autofree char *id = NULL;

  arrive (book);
  other = open_book (book);
  id = hs_job_find (other, "A-0024", NULL);
  result = hs_reading_add (other, id, &tried, hs_demo_get_now (), NULL);
  g_assert_nonnull (result);
  return app_book_open_job (book, "A-0024", pane);
}

/* The key of the refusal leads to what was outside before, in the column of what is read after. */
static void
test_lead (AppBook *book, gconstpointer data)
{
  g_autofree char *field = NULL;
  GtkWidget *page, *window;

  arrive (book);
  page = app_book_open_job (book, "A-0024", "after");
  app_book_press (book, GDK_KEY_F4);
  hs_app_test_wait ((window = app_book_find_top (book)) != NULL && hs_app_test_says (window, "Go to the Readings"));
  app_book_press_in (window, GDK_KEY_KP_0);
  hs_app_test_wait (hs_window_get_job (book->window) != page
                    && hs_job_page_is_ready (HS_JOB_PAGE (hs_window_get_job (book->window))));
  page = hs_window_get_job (book->window);
  field = hs_findings_dup_field (hs_job_page_get_findings (HS_JOB_PAGE (page)));
  g_assert_cmpstr (field, ==, "sleeping_draw/after");
  app_book_settle (book);
  hs_app_test_frames ();
  hs_app_test_picture (GTK_WIDGET (book->window), "after-lead");
}

/* It is said before the job is tested good, and a second word goes on. */
static void
test_left_open (AppBook *book, gconstpointer data)
{
  GtkWidget *page = open_with_left (book, "after");

  g_assert_true (gtk_widget_activate_action (page, "page.next-stage", NULL));
  app_book_settle (book);
  hs_app_test_wait (hs_app_test_says_part (GTK_WIDGET (book->window), "Left open: Read again: Sleeping draw"));
  g_assert_cmpint (stage_of (book, "A-0024"), ==, HS_STAGE_ON_SITE);
  g_assert_true (gtk_widget_activate_action (page, "page.next-stage", NULL));
  app_book_settle (book);
  g_assert_cmpint (stage_of (book, "A-0024"), ==, HS_STAGE_PROVEN);
}

/* Once something else is done it is forgotten, and said anew: F4 goes on only right behind the words. */
static const struct
{
  const char *path;
  const char *pane;
  guint keyval; /* void: the focus moves; 0: a window comes over it and goes */
} deeds[] = {
  { "/app/after/left-open/another-tab", "bill", GDK_KEY_Page_Down },
  { "/app/after/left-open/another-face", "findings", GDK_KEY_F9 },
  { "/app/after/left-open/focus", "after", GDK_KEY_VoidSymbol },
  { "/app/after/left-open/window-over", "after", 0 },
};

static void
do_between (AppBook *book, GtkWidget *page, guint keyval)
{
  if (keyval == GDK_KEY_VoidSymbol)
    {
      g_assert_true (gtk_widget_activate_action (page, "page.point", NULL));
      return;
    }
  if (keyval != 0)
    {
      app_book_press (book, keyval);
      return;
    }
  g_assert_true (gtk_widget_activate_action (page, "page.stages", NULL));
  g_assert_nonnull (app_book_find_top (book));
  gtk_window_destroy (GTK_WINDOW (app_book_find_top (book)));
}

static void
test_left_open_anew (AppBook *book, gconstpointer data)
{
  guint n = GPOINTER_TO_UINT (data);
  GtkWidget *page = open_with_left (book, deeds[n].pane);

  /* A quick hand: the book is not read again in between, which would forget it too. */
  app_book_press (book, GDK_KEY_F4);
  do_between (book, page, deeds[n].keyval);
  app_book_press (book, GDK_KEY_F4);
  app_book_settle (book);
  g_assert_null (app_book_find_top (book));
  g_assert_cmpint (stage_of (book, "A-0024"), ==, HS_STAGE_ON_SITE);
}

int
main (int argc, char **argv)
{
  hs_app_test_init (&argc, &argv);
  g_test_add ("/app/after/part", AppBook, NULL, app_book_open, test_part, app_book_close);
  g_test_add ("/app/after/past-ceiling", AppBook, NULL, app_book_open, test_past_ceiling, app_book_close);
  g_test_add ("/app/after/digit-in-a-name", AppBook, NULL, app_book_open, test_digit_in_a_name, app_book_close);
  g_test_add ("/app/after/fields", AppBook, NULL, app_book_open, test_fields, app_book_close);
  g_test_add ("/app/after/looks", AppBook, NULL, app_book_open, test_looks, app_book_close);
  g_test_add ("/app/after/two-digits", AppBook, NULL, app_book_open, test_two_digits, app_book_close);
  g_test_add ("/app/after/unproved", AppBook, NULL, app_book_open, test_unproved, app_book_close);
  g_test_add ("/app/after/tries", AppBook, NULL, app_book_open, test_tries, app_book_close);
  g_test_add ("/app/after/save", AppBook, NULL, app_book_open, test_save, app_book_close);
  g_test_add ("/app/after/stop", AppBook, NULL, app_book_open, test_stop, app_book_close);
  g_test_add ("/app/after/stop-late", AppBook, NULL, app_book_open, test_stop_late, app_book_close);
  g_test_add ("/app/after/print", AppBook, NULL, app_book_open, test_print, app_book_close);
  g_test_add ("/app/after/print-long", AppBook, NULL, app_book_open, test_print_long, app_book_close);
  g_test_add ("/app/after/room", AppBook, NULL, app_book_open, test_room, app_book_close);
  g_test_add ("/app/after/left-open", AppBook, NULL, app_book_open, test_left_open, app_book_close);
  g_test_add ("/app/after/lead", AppBook, NULL, app_book_open, test_lead, app_book_close);
  for (guint i = 0; i < G_N_ELEMENTS (deeds); i++)
    g_test_add (deeds[i].path, AppBook, GUINT_TO_POINTER (i), app_book_open, test_left_open_anew, app_book_close);
  g_test_add ("/app/after/kept", AppBook, NULL, app_book_open, test_kept, app_book_close);
  return g_test_run ();
}
