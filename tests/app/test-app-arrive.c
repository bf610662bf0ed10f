// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Arriving by the owner's hand, the keyboard alone: identified, asked, the clock stopped, a note, and a call that comes
 * to nothing. */

#include "app-arrive.h"
#include "hs-app-test.h"
#include "hs-call-form.h"
#include "hs-call-off-window.h"
#include "hs-call-slip-window.h"
#include "hs-deed.h"
#include "hs-identify-card.h"
#include "hs-intake-card.h"
#include "hs-job-page.h"
#include "hs-note-card.h"
#include "hs-safety-window.h"
#include "hs-shop.h"
#include "hs-stage-window.h"
#include "hs-visit-card.h"

#define VIN "1M8GDM9AXKP042788"

/* Plate, VIN, odometer, seen: Enter goes on from one to the next. */
static void
test_identify (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0021", "call");
  GtkWidget *card = hs_app_test_find (page, HS_TYPE_IDENTIFY_CARD);
  g_autoptr (HsQuestion) asked = NULL;

  gtk_widget_grab_focus (GTK_WIDGET (app_arrive_row (card, "plate")));
  g_assert_cmpstr (hs_field_row_get_text (app_arrive_row (card, "plate")), ==, "TDM 1315");
  /* What the call said of it is not confirmed unread. */
  app_book_type (book, "\n");
  g_assert_true (app_arrive_has_cursor (book, app_arrive_row (card, "plate")));
  g_assert_true (hs_app_test_says_part (card, "Read it off the vehicle"));
  app_book_type (book, "15\n");
  g_assert_cmpstr (hs_field_row_get_text (app_arrive_row (card, "plate")), ==, "TDM 1315");
  g_assert_true (hs_app_test_says (card, "Agrees with the record."));
  app_book_type (book, "042788\n104500\n1\n");
  asked = app_arrive_ask (book, page);
  g_assert_cmpstr (app_arrive_of (asked)->identity->vin, ==, "042788");
  g_assert_cmpint (app_arrive_of (asked)->identity->odometer, ==, 104500);
  g_assert_cmpstr (app_arrive_of (asked)->identity->saw_it, ==, "yes");
  g_assert_cmpstr (hs_field_row_get_text (app_arrive_row (card, "saw_it")), ==, "yes");
  hs_app_test_picture (GTK_WIDGET (book->window), "arrive-call");
}

/* A hand that is quicker than the book. */
static void
press_quickly (AppBook *book, const char *keys)
{
  for (const char *at = keys; *at != '\0'; at++)
    app_book_press (book, *at == '\n' ? GDK_KEY_KP_Enter : gdk_unicode_to_keyval ((guchar) *at));
  app_book_settle (book);
}

/* Keys that come before the book has answered are for the next field, not for the one that was entered. */
static void
test_identify_quickly (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0021", "call");
  GtkWidget *card = hs_app_test_find (page, HS_TYPE_IDENTIFY_CARD);
  g_autoptr (HsQuestion) asked = NULL;

  gtk_widget_grab_focus (GTK_WIDGET (app_arrive_row (card, "vin")));
  press_quickly (book, "042788\n104500\n1\n");
  hs_app_test_wait (g_strcmp0 (hs_field_row_get_text (app_arrive_row (card, "saw_it")), "yes") == 0);
  asked = app_arrive_ask (book, page);
  g_assert_cmpstr (app_arrive_of (asked)->identity->vin, ==, "042788");
  g_assert_cmpint (app_arrive_of (asked)->identity->odometer, ==, 104500);
  g_assert_cmpstr (app_arrive_of (asked)->identity->saw_it, ==, "yes");
}

/* What was refused keeps the cursor, and the next field's digits do not fall into it. */
static void
test_refused_quickly (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0022", "call");
  GtkWidget *card = hs_app_test_find (page, HS_TYPE_IDENTIFY_CARD);

  gtk_widget_grab_focus (GTK_WIDGET (app_arrive_row (card, "odometer")));
  press_quickly (book, "many\n1\n");
  g_assert_cmpstr (hs_field_row_get_text (app_arrive_row (card, "odometer")), ==, "many");
  g_assert_cmpstr (hs_field_row_get_text (app_arrive_row (card, "saw_it")), ==, "");
  g_assert_true (app_arrive_has_cursor (book, app_arrive_row (card, "odometer")));
}

/* Left with one text and come back to another before the first is in the book: the last one counts. */
static void
test_left_twice (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0021", "call");
  GtkWidget *card = hs_app_test_find (page, HS_TYPE_IDENTIFY_CARD);
  HsFieldRow *row = app_arrive_row (card, "odometer");
  g_autoptr (HsQuestion) asked = NULL;

  gtk_widget_grab_focus (GTK_WIDGET (row));
  hs_field_row_set_text (row, "104500");
  gtk_widget_grab_focus (GTK_WIDGET (app_arrive_row (card, "plate")));
  gtk_widget_grab_focus (GTK_WIDGET (row));
  hs_field_row_set_text (row, "104600");
  gtk_widget_grab_focus (GTK_WIDGET (app_arrive_row (card, "plate")));
  app_book_settle (book);
  asked = app_arrive_ask (book, page);
  g_assert_cmpint (app_arrive_of (asked)->identity->odometer, ==, 104600);
}

/* An odd figure is a question: the field keeps it, a line for the reason appears, and with it the figure stands. */
static void
test_odd_odometer (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0022", "call");
  GtkWidget *card = hs_app_test_find (page, HS_TYPE_IDENTIFY_CARD);
  HsFieldRow *row = app_arrive_row (card, "odometer");
  g_autoptr (HsQuestion) asked = NULL, after = NULL;

  gtk_widget_grab_focus (GTK_WIDGET (row));
  app_book_type (book, "60000\n");
  app_book_close_window (book);
  app_book_open_window (book);
  page = app_book_open_job (book, "A-0022", "call");
  card = hs_app_test_find (page, HS_TYPE_IDENTIFY_CARD);
  row = app_arrive_row (card, "vin");
  gtk_widget_grab_focus (GTK_WIDGET (row));
  app_book_type (book, VIN "\n");
  gtk_widget_grab_focus (GTK_WIDGET (row));
  gtk_editable_select_region (GTK_EDITABLE (hs_app_test_find (GTK_WIDGET (row), GTK_TYPE_ENTRY)), 0, -1);
  hs_field_row_set_text (row, "");
  app_book_type (book, "042799\n");
  g_assert_true (hs_app_test_says_part (card, "another vehicle, or a slip"));
  g_assert_true (hs_app_test_says (card, "The reason, if it is so all the same"));
  asked = app_arrive_ask (book, page);
  g_assert_cmpstr (app_arrive_of (asked)->identity->vin, ==, VIN);
  hs_app_test_picture (GTK_WIDGET (book->window), "arrive-odd");
  /* Tab finds a line that a frame has laid out. */
  hs_app_test_frames ();
  gtk_widget_child_focus (GTK_WIDGET (row), GTK_DIR_TAB_FORWARD);
  app_book_type (book, "the record was a slip\n");
  after = app_arrive_ask (book, page);
  g_assert_cmpstr (app_arrive_of (after)->identity->vin, ==, "042799");
  g_assert_cmpint (app_arrive_of (after)->identity->odometer, ==, 60000);
}

/* A scanner types like a keyboard, wherever the cursor is: what stood there stands there again. */
static void
test_scan (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0021", "call");
  GtkWidget *card = hs_app_test_find (page, HS_TYPE_IDENTIFY_CARD);
  g_autoptr (HsQuestion) asked = NULL;

  gtk_widget_grab_focus (GTK_WIDGET (app_arrive_row (card, "odometer")));
  app_book_type (book, "104");
  g_usleep (100000);
  for (const char *at = VIN; *at != '\0'; at++)
    app_book_press (book, gdk_unicode_to_keyval ((guchar) *at));
  app_book_press (book, GDK_KEY_Return);
  app_book_settle (book);
  g_assert_cmpstr (hs_field_row_get_text (app_arrive_row (card, "odometer")), ==, "104");
  g_assert_cmpstr (hs_field_row_get_text (app_arrive_row (card, "vin")), ==, VIN);
  asked = app_arrive_ask (book, page);
  g_assert_cmpstr (app_arrive_of (asked)->identity->vin, ==, VIN);
}

/* F9, the trouble by its digit, then one answer after the other. */
static void
test_questions (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0021", "call");
  GtkWidget *card = hs_app_test_find (page, HS_TYPE_INTAKE_CARD);
  g_autoptr (HsQuestion) asked = NULL;
  const HsAnswerLine *line;

  gtk_widget_grab_focus (GTK_WIDGET (app_arrive_row (hs_app_test_find (page, HS_TYPE_IDENTIFY_CARD), "plate")));
  g_assert_true (gtk_widget_activate_action (card, "page.side", NULL));
  app_book_type (book, "1");
  /* The questions of the trouble come with the book's answer. */
  hs_app_test_wait (hs_intake_card_has_focus (HS_INTAKE_CARD (card))
                    && GTK_IS_TEXT (gtk_root_get_focus (GTK_ROOT (book->window))));
  app_book_type (book, "2\n");
  app_book_type (book, "1\n");
  asked = app_arrive_ask (book, page);
  g_assert_cmpstr (((const HsJobShot *) hs_question_get (asked))->view->group, ==, "will_not_start");
  line = g_ptr_array_index (app_arrive_of (asked)->questions, 0);
  g_assert_cmpstr (line->answer, ==, "one click");
  line = g_ptr_array_index (app_arrive_of (asked)->questions, 1);
  g_assert_cmpstr (line->answer, ==, "bright");
  g_assert_true (hs_app_test_says_part (card, "One click and bright lamps: starter, its relay and leads."));
  hs_app_test_picture (GTK_WIDGET (book->window), "arrive-questions");
  g_assert_true (gtk_widget_activate_action (card, "page.side", NULL));
  g_assert_false (hs_intake_card_has_focus (HS_INTAKE_CARD (card)));
}

/* The digit of the trouble and the answers to its questions in one go. */
static void
test_questions_quickly (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0021", "call");
  GtkWidget *card = hs_app_test_find (page, HS_TYPE_INTAKE_CARD);
  g_autoptr (HsQuestion) asked = NULL;

  gtk_widget_grab_focus (GTK_WIDGET (app_arrive_row (hs_app_test_find (page, HS_TYPE_IDENTIFY_CARD), "plate")));
  g_assert_true (gtk_widget_activate_action (card, "page.side", NULL));
  press_quickly (book, "12\n1\n");
  hs_app_test_wait (app_arrive_row (card, "dash_lamps") != NULL
                    && g_strcmp0 (hs_field_row_get_text (app_arrive_row (card, "dash_lamps")), "bright") == 0);
  asked = app_arrive_ask (book, page);
  g_assert_cmpstr (((const HsJobShot *) hs_question_get (asked))->view->group, ==, "will_not_start");
  g_assert_cmpstr (((HsAnswerLine *) g_ptr_array_index (app_arrive_of (asked)->questions, 0))->answer, ==, "one click");
  g_assert_cmpstr (((HsAnswerLine *) g_ptr_array_index (app_arrive_of (asked)->questions, 1))->answer, ==, "bright");
}

/* Another device changes the trouble before its questions are shown: the answers keyed meanwhile were to others and are
 * dropped, and the next ones are taken as ever. */
static void
test_questions_changed (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0021", "call");
  GtkWidget *card = hs_app_test_find (page, HS_TYPE_INTAKE_CARD);
  g_autoptr (HsQuestion) asked = NULL;

  gtk_widget_grab_focus (GTK_WIDGET (app_arrive_row (hs_app_test_find (page, HS_TYPE_IDENTIFY_CARD), "plate")));
  g_assert_true (gtk_widget_activate_action (card, "page.side", NULL));
  app_book_press (book, GDK_KEY_1);
  hs_deed_set_group (book->ledger, hs_job_page_get_job_id (HS_JOB_PAGE (page)), "drains", NULL, NULL);
  press_quickly (book, "2\n");
  asked = app_arrive_ask (book, page);
  g_assert_cmpstr (((const HsJobShot *) hs_question_get (asked))->view->group, ==, "drains");
  g_assert_null (((HsAnswerLine *) g_ptr_array_index (app_arrive_of (asked)->questions, 0))->answer);
  hs_intake_card_ask (HS_INTAKE_CARD (card));
  press_quickly (book, "1\n");
  hs_question_ask (asked, g_variant_new ("(s)", hs_job_page_get_job_id (HS_JOB_PAGE (page))));
  app_book_settle (book);
  g_assert_nonnull (((HsAnswerLine *) g_ptr_array_index (app_arrive_of (asked)->questions, 0))->answer);
}

/* One key stops the clock and starts it; nobody there, it says so. */
static void
test_clock (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0021", "call");
  g_autoptr (HsQuestion) stands = NULL, runs = NULL;
  GtkWidget *window;

  g_assert_true (gtk_widget_activate_action (page, "page.visit", NULL));
  app_book_settle (book);
  g_assert_true (hs_app_test_says_part (GTK_WIDGET (book->window), "nobody is at the vehicle"));
  window = app_arrive_at (book, page);
  app_arrive_type_in (book, window, "6\n");
  g_assert_true (gtk_widget_activate_action (page, "page.visit", NULL));
  app_book_settle (book);
  stands = app_arrive_ask (book, page);
  g_assert_false (hs_visit_view_runs (hs_arrival_open_visit (app_arrive_of (stands))));
  g_assert_nonnull (hs_app_test_button (page, "Start the Clock"));
  g_assert_true (gtk_widget_activate_action (page, "page.visit", NULL));
  app_book_settle (book);
  runs = app_arrive_ask (book, page);
  g_assert_true (hs_visit_view_runs (hs_arrival_open_visit (app_arrive_of (runs))));
}

/* A note is offered to the next one of the model on arriving. */
static void
test_notes (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0021", "call");
  HsFieldRow *row = app_arrive_row (hs_app_test_find (page, HS_TYPE_NOTE_CARD), "model");
  GtkWidget *window;

  gtk_widget_grab_focus (GTK_WIDGET (row));
  app_book_type (book, "lift the boot\n");
  g_assert_cmpstr (hs_field_row_get_text (row), ==, "");
  g_assert_true (hs_app_test_says (page, "where it is: lift the boot"));
  window = app_arrive_at (book, page);
  g_assert_true (hs_app_test_says (window, "where it is: lift the boot"));
  app_arrive_press_in (book, window, GDK_KEY_Return);
}

/* Called off from the stages: a digit says how, the fee of the settings stands there, Enter in the reason does it. */
/* Off the road nothing is measured; it is said how the job is taken up again. */
static void
assert_takes_none (AppBook *book, GtkWidget *page)
{
  g_autoptr (HsQuestion) asked = NULL;

  hs_job_page_go (HS_JOB_PAGE (page), "findings", NULL, NULL);
  app_book_settle (book);
  g_assert_true (hs_app_test_says_part (page,
                                        "A-0021 was called off: nothing is measured on it. F4 takes it up again."));
  hs_app_test_picture (GTK_WIDGET (book->window), "arrive-called-off");
  app_book_type (book, "1124\n");
  hs_job_page_go (HS_JOB_PAGE (page), "after", NULL, NULL);
  app_book_settle (book);
  g_assert_false (hs_app_test_says_part (page, "Take a reading"));
  asked = app_arrive_ask (book, page);
  g_assert_cmpuint (((const HsJobShot *) hs_question_get (asked))->view->readings->len, ==, 0);
}

static void
test_call_off (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0021", "call");
  g_autoptr (HsQuestion) asked = NULL;
  const HsJobShot *shot;
  GtkWidget *window;
  gboolean shows;

  g_assert_true (gtk_widget_activate_action (page, "page.stages", NULL));
  hs_stage_window_move (HS_STAGE_WINDOW (hs_app_test_window (HS_TYPE_STAGE_WINDOW)), HS_STAGE_CALLED_OFF);
  app_book_settle (book);
  g_assert_null (hs_app_test_window (HS_TYPE_STAGE_WINDOW));
  window = hs_app_test_window (HS_TYPE_CALL_OFF_WINDOW);
  g_assert_nonnull (window);
  app_arrive_press_in (book, window, GDK_KEY_F4);
  g_assert_true (hs_app_test_says (window, "How was it called off? 1, 2 or 3."));
  g_object_get (hs_app_test_button (window, "no-show"), "show-key", &shows, NULL);
  g_assert_true (shows);
  app_arrive_press_in (book, window, GDK_KEY_3);
  g_assert_true (hs_app_test_says_part (window, "Set for “gone on arrival”: "));
  /* A digit is the fee's now, and nothing else shows one. */
  g_object_get (hs_app_test_button (window, "no-show"), "show-key", &shows, NULL);
  g_assert_false (shows);
  hs_app_test_picture (window, "arrive-call-off-fee");
  g_assert_true (gtk_editable_get_selection_bounds (GTK_EDITABLE (gtk_window_get_focus (GTK_WINDOW (window))), NULL,
                                                    NULL));
  gtk_editable_set_text (GTK_EDITABLE (gtk_window_get_focus (GTK_WINDOW (window))), "45");
  app_arrive_press_in (book, window, GDK_KEY_Return);
  app_arrive_press_in (book, window, GDK_KEY_Return);
  g_assert_true (hs_app_test_says_part (window, "Why was it called off?"));
  hs_app_test_picture (window, "arrive-call-off");
  app_arrive_type_in (book, window, "nobody at 12 came\n");
  g_assert_null (hs_app_test_window (HS_TYPE_CALL_OFF_WINDOW));
  asked = app_arrive_ask (book, page);
  shot = hs_question_get (asked);
  g_assert_cmpint (shot->view->tag->stage, ==, HS_STAGE_CALLED_OFF);
  g_assert_cmpint (shot->view->net_cents, ==, 4500);
  assert_takes_none (book, page);
}

/* In "Where it goes" of a job at the end of its road the cursor is in the reason, and a digit is a stage's all the
 * same. */
static void
test_digits_of_stages (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0021", "call");
  HsStageWindow *window
    = hs_stage_window_present (HS_PAGE (page), hs_job_page_get_job_id (HS_JOB_PAGE (page)), "A-0021",
                               HS_STAGE_CALLED_OFF, HS_STAGE_CALLED_OFF, NULL);

  app_book_settle (book);
  g_assert_true (GTK_IS_TEXT (gtk_window_get_focus (GTK_WINDOW (window))));
  app_arrive_type_in (book, GTK_WIDGET (window), "1");
  g_assert_null (hs_app_test_window (HS_TYPE_STAGE_WINDOW));
}

static HsCallForm *
open_slip (AppBook *book, GtkWidget **ret_slip)
{
  HsDraft *draft = hs_shop_get_draft (hs_shop_of (book->window));

  *ret_slip = GTK_WIDGET (hs_call_slip_window_present (book->window, book->ledger, draft));
  app_book_settle (book);
  return HS_CALL_FORM (hs_app_test_find (*ret_slip, HS_TYPE_CALL_FORM));
}

/* On the phone: F9, the trouble and two answers by digits, before there is a job; the job then has them. */
static void
test_slip_questions (AppBook *book, gconstpointer data)
{
  g_autoptr (HsQuestion) asked = NULL;
  GtkWidget *slip;
  HsCallForm *form = open_slip (book, &slip);
  g_autofree char *id = NULL;
  const HsJobShot *shot;

  gtk_widget_activate_action (slip, "slip.ask", NULL);
  app_book_settle (book);
  app_arrive_type_in (book, slip, "16\n");
  g_assert_true (hs_app_test_says_part (slip, "has the answers 1 to 5"));
  hs_field_row_set_text (app_arrive_row (slip, "key_turn"), "");
  app_arrive_type_in (book, slip, "3\n2\n");
  g_assert_cmpstr (hs_field_row_get_text (app_arrive_row (slip, "key_turn")), ==, "fast clicking");
  g_assert_true (hs_app_test_says (slip, "Fast clicking: flat battery."));
  hs_app_test_picture (slip, "arrive-slip");
  gtk_widget_activate_action (slip, "slip.ask", NULL);
  hs_call_form_go (form, "phone", "555-0197");
  hs_call_form_go (form, "words", "clicks fast");
  hs_call_form_flush (form);
  app_book_settle (book);
  id = g_strdup (hs_call_form_get_job_id (form));
  g_assert_nonnull (id);
  gtk_window_close (GTK_WINDOW (slip));
  app_book_settle (book);
  asked = app_arrive_ask_job (book, id);
  shot = hs_question_get (asked);
  g_assert_cmpstr (shot->view->group, ==, "will_not_start");
  g_assert_cmpstr (((HsAnswerLine *) g_ptr_array_index (shot->arrival->questions, 0))->answer, ==, "fast clicking");
  g_assert_cmpstr (((HsAnswerLine *) g_ptr_array_index (shot->arrival->questions, 1))->answer, ==, "dim");
}

/* Killed before there was a job: trouble and answers are there again in the next slip. */
static void
test_slip_killed (AppBook *book, gconstpointer data)
{
  GtkWidget *slip;

  open_slip (book, &slip);
  gtk_widget_activate_action (slip, "slip.ask", NULL);
  app_book_settle (book);
  app_arrive_type_in (book, slip, "61\n");
  hs_draft_flush (hs_shop_get_draft (hs_shop_of (book->window)));
  app_book_settle (book);
  app_book_close_window (book);
  app_book_open_window (book);
  open_slip (book, &slip);
  g_assert_true (hs_app_test_says (slip, "Booked upkeep") || hs_app_test_says (slip, "Cuts out"));
  g_assert_false (hs_field_row_is_bare (app_arrive_row (slip, "last_ran")));
}

/* Ten thousand letters of complaint are one line in the field, and whole in the book. */
static void
test_long_words (AppBook *book, gconstpointer data)
{
  g_autofree char *words = g_strnfill (10000, 'w');
  GtkWidget *page = app_book_open_job (book, "A-0021", "call");
  HsCallForm *form = HS_CALL_FORM (hs_app_test_find (page, HS_TYPE_CALL_FORM));
  g_autoptr (HsQuestion) asked = NULL;

  hs_call_form_go (form, "words", words);
  hs_call_form_flush (form);
  app_book_settle (book);
  asked = app_arrive_ask (book, page);
  g_assert_cmpstr (app_arrive_of (asked)->identity->words, ==, words);
  hs_app_test_frames ();
  g_assert_cmpint (gtk_widget_get_width (GTK_WIDGET (book->window)), <=, 1280);
}

/* In the hand, on a small screen, with large text: nothing is wider than the window. */
static void
test_room (AppBook *book, gconstpointer data)
{
  static const struct
  {
    const char *name;
    int width, height, dpi;
    gboolean dark;
  } rows[] = {
    { "arrive-360", 360, 700, 96, FALSE },      { "arrive-360-200", 360, 700, 192, FALSE },
    { "arrive-1024", 1024, 600, 96, FALSE },    { "arrive-1280-200", 1280, 800, 192, FALSE },
    { "arrive-dark", 1280, 800, 96, TRUE },
  };
  GtkWidget *page = app_book_open_job (book, "A-0026", "call");
  GtkSettings *settings = gtk_settings_get_default ();
  GtkWidget *window = app_arrive_at (book, page);

  app_arrive_press_in (book, window, GDK_KEY_Escape);
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *safety = g_strconcat (rows[i].name, "-safety", NULL);
      int least;

      g_object_set (settings, "gtk-xft-dpi", rows[i].dpi * 1024, NULL);
      adw_style_manager_set_color_scheme (adw_style_manager_get_default (),
                                          rows[i].dark ? ADW_COLOR_SCHEME_FORCE_DARK : ADW_COLOR_SCHEME_FORCE_LIGHT);
      gtk_window_set_default_size (GTK_WINDOW (book->window), rows[i].width, rows[i].height);
      hs_app_test_wait (gtk_widget_get_width (GTK_WIDGET (book->window)) == rows[i].width);
      app_book_settle (book);
      hs_app_test_frames ();
      gtk_widget_measure (page, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
      g_test_message ("%s: %d px", rows[i].name, least);
      g_assert_cmpint (least, <=, rows[i].width);
      hs_app_test_picture (GTK_WIDGET (book->window), rows[i].name);
      window = GTK_WIDGET (hs_safety_window_present (HS_PAGE (page), hs_job_page_get_job_id (HS_JOB_PAGE (page)),
                                                     "A-0026"));
      app_book_settle (book);
      hs_app_test_frames ();
      gtk_widget_measure (window, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
      g_assert_cmpint (least, <=, rows[i].width);
      gtk_widget_measure (window, GTK_ORIENTATION_VERTICAL, rows[i].width, &least, NULL, NULL, NULL);
      g_assert_cmpint (least, <=, rows[i].height);
      hs_app_test_picture (window, safety);
      app_arrive_press_in (book, window, GDK_KEY_Escape);
    }
  g_object_set (settings, "gtk-xft-dpi", 96 * 1024, NULL);
}

#define ADD(name, func) g_test_add ("/arrive/" name, AppBook, NULL, app_book_open, func, app_book_close)

int
main (int argc, char **argv)
{
  hs_app_test_init (&argc, &argv);
  ADD ("identify", test_identify);
  ADD ("identify-quickly", test_identify_quickly);
  ADD ("refused-quickly", test_refused_quickly);
  ADD ("left-twice", test_left_twice);
  ADD ("odd", test_odd_odometer);
  ADD ("scan", test_scan);
  ADD ("questions", test_questions);
  ADD ("questions-quickly", test_questions_quickly);
  ADD ("questions-changed", test_questions_changed);
  ADD ("clock", test_clock);
  ADD ("notes", test_notes);
  ADD ("call-off", test_call_off);
  ADD ("digits-of-stages", test_digits_of_stages);
  ADD ("slip-questions", test_slip_questions);
  ADD ("slip-killed", test_slip_killed);
  ADD ("long-words", test_long_words);
  ADD ("room", test_room);
  return g_test_run ();
}
