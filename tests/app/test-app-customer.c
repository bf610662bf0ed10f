// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The page that is turned round: what stands on it, what never does, and picking there. Every label of it is searched,
 * shown or not. */

#include "app-book.h"
#include "hs-answer-window.h"
#include "hs-app-test.h"
#include "hs-ask.h"
#include "hs-chain-op.h"
#include "hs-choice-card.h"
#include "hs-customer-window.h"
#include "hs-deed-choice.h"
#include "hs-demo.h"
#include "hs-gauge.h"
#include "hs-job-life.h"
#include "hs-job-op.h"
#include "hs-job-page.h"

#include <string.h>

static GtkWidget *
turn_round (AppBook *book, const char *number)
{
  GtkWidget *page = app_book_open_job (book, number, "choices");
  GtkWidget *window;

  g_assert_true (gtk_widget_activate_action (page, "win.customer", NULL));
  window = hs_app_test_window (HS_TYPE_CUSTOMER_WINDOW);
  g_assert_nonnull (window);
  hs_app_test_wait (hs_customer_window_is_shown (HS_CUSTOMER_WINDOW (window)));
  app_book_settle (book);
  hs_app_test_frames ();
  return window;
}

/* All labels below @widget, one a line. */
static void
collect (GtkWidget *widget, GString *text)
{
  if (GTK_IS_LABEL (widget))
    g_string_append_printf (text, "%s\n", gtk_label_get_text (GTK_LABEL (widget)));
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    collect (child, text);
}

static char *
read_all (GtkWidget *window)
{
  GString *text = g_string_new (NULL);

  collect (window, text);
  return g_string_free (text, FALSE);
}

static void
assert_has (const char *text, const char *part)
{
  if (strstr (text, part) == NULL)
    g_error ("“%s” is not on the page:\n%s", part, text);
}

static void
assert_lacks (const char *text, const char *part)
{
  if (strstr (text, part) != NULL)
    g_error ("“%s” is on the page:\n%s", part, text);
}

/* A-0013 as its customer sees it: no cost of the belt or the pump, no profit, nobody to call, nobody else. */
static void
test_leaks_nothing (AppBook *book, gconstpointer data)
{
  static const char *const shown[] = { "TDM 6613", "battery lamp, slow crank", "12.30", "not charging", "14.08",
                                       "520.94",   "153.79", "Water pump, belt and coolant", "Belt only",
                                       "New belt will be wetted again", "The reason for" };
  static const char *const hidden[] = { "24.00", "88.00", "27.00", "18.40", "555", "0116", "Mabry", "Drennan",
                                        "Fennimore", "Wilhelmina", "Teo", "Nadira", "Jory", "Lorna", "Ansel", "Rue",
                                        "Marguerite", "Milo", "Dara", "Kingpost", "Larch", "A-0020", "less now",
                                        "674.73" };
  GtkWidget *window = turn_round (book, "A-0013");
  g_autofree char *text = read_all (window);

  for (gsize i = 0; i < G_N_ELEMENTS (shown); i++)
    assert_has (text, shown[i]);
  for (gsize i = 0; i < G_N_ELEMENTS (hidden); i++)
    assert_lacks (text, hidden[i]);
  hs_app_test_picture (window, "customer-a13");
  /* It is squared: nothing is picked any more. */
  hs_customer_window_pick (HS_CUSTOMER_WINDOW (window), 1);
  g_assert_false (gtk_widget_has_css_class (gtk_widget_get_ancestor (hs_app_test_label (window, "520.94"),
                                                                     HS_TYPE_CHOICE_CARD), "chosen"));
}

/* Planted at A-0025: what a part and another one cost, the counter's number of the bill, another customer who said
 * something, the caller's number and the note about the gate. None of it is on the page, in words or figures, and what
 * is asked for is. */
static void
test_planted (AppBook *book, gconstpointer data)
{
  static const char *const hidden[] = { "173.19", "61.07", "INV-99321", "Quist", "Zebulon", "0119", "gate code",
                                        "past the barn", "markup", "cost" };
  HsBookUser user = { "test", "here", 1, hs_demo_get_now () };
  HsInstant now = hs_demo_get_now () + 60;
  const HsInstallEntry pump = { .what = "tank breather", .cost_cents = 17319, .supplier_bill = "INV-99321",
                                .why = "due" };
  const HsInstallEntry clip = { .what = "spring clip", .why = "due" };
  const HsFindingEntry said = { .what = "Zebulon Quist filled the tank", .role = "customer_said",
                                .said_by = "Zebulon Quist" };
  const HsChoiceLineEntry line = { .kind = "part", .what = "cap seal", .cost_cents = 6107,
                                   .price_cents = HS_INT_NONE };
  g_autoptr (GError) error = NULL;
  g_autofree char *id = NULL, *text = NULL;
  GtkWidget *window;

  {
    g_autoptr (HsBook) other = hs_book_open (book->path, HS_BOOK_WRITE, &user, &error);

    g_assert_no_error (error);
    id = hs_job_find (other, "A-0025", NULL);
    g_assert_true (hs_job_move_stage (other, id, HS_STAGE_ROLLING, NULL, now, &error)
                   && hs_job_move_stage (other, id, HS_STAGE_ON_SITE, NULL, now, &error));
    g_free (hs_finding_add (other, id, &said, now, &error));
    g_assert_no_error (error);
    g_free (hs_part_install (other, id, &pump, now, &error));
    g_assert_no_error (error);
    g_free (hs_part_install (other, id, &clip, now, &error));
    g_assert_no_error (error);
    g_free (hs_choice_add (other, id, &(HsChoiceEntry) { .wording = "New cap" }, &line, 1, now, &error));
    g_assert_no_error (error);
  }
  window = turn_round (book, "A-0025");
  text = read_all (window);
  /* 10.00 at 2.0, 40.00 at 1.6, 100.00 at 1.4 and 23.19 at 1.25 are 252.99, with tax 273.23; 66 min are 132.00 more;
   * the clip is not in it. */
  assert_has (text, "405.23");
  assert_has (text, "1 part has no price yet and is not in it.");
  assert_has (text, "New cap");
  for (gsize i = 0; i < G_N_ELEMENTS (hidden); i++)
    assert_lacks (text, hidden[i]);
  hs_app_test_picture (window, "customer-planted");
}

static void
done_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (GError) error = NULL;

  hs_ledger_task_finish (HS_LEDGER (source), result, data, &error);
  g_assert_no_error (error);
}

static char *
offer (AppBook *book, const char *rank, const char *wording, const char *risk, gint64 cost_cents)
{
  const char *job_id = hs_job_page_get_job_id (HS_JOB_PAGE (hs_window_get_job (book->window)));
  const HsChoiceEntry entry = { .group = "tracker", .rank = rank, .wording = wording, .risk = risk };
  HsChoiceLineEntry line = HS_CHOICE_LINE_NONE;
  gpointer id = NULL;

  hs_deed_add_choice (book->ledger, job_id, &entry, done_cb, &id);
  hs_app_test_wait (id != NULL);
  line.kind = "part";
  line.what = wording;
  line.cost_cents = cost_cents;
  hs_deed_add_choice_line (book->ledger, id, &line, done_cb, NULL);
  app_book_settle (book);
  return id;
}

static HsQuestion *
ask_job (AppBook *book)
{
  HsQuestion *ask = hs_question_new (book->ledger, hs_ask_job, (GDestroyNotify) hs_job_shot_free);

  hs_question_ask (ask, g_variant_new ("(s)", hs_job_page_get_job_id (HS_JOB_PAGE (hs_window_get_job (book->window)))));
  app_book_settle (book);
  return ask;
}

static void
sign (HsSignaturePad *pad)
{
  hs_signature_pad_draw (pad, TRUE, 20, 60);
  for (int i = 1; i < 40; i++)
    hs_signature_pad_draw (pad, FALSE, 20 + 6 * i, 60 + (i % 8 < 4 ? -5 * (i % 4) : 5 * (i % 4)));
}

/* A digit, a signature, Enter, and the name that stands there: the answer is in the book with all of it. */
static void
test_pick_and_sign (AppBook *book, gconstpointer data)
{
  g_autoptr (HsQuestion) ask = NULL;
  g_autofree char *best = NULL;
  g_autofree char *enough = NULL;
  g_autofree char *text = NULL;
  GtkWidget *window;
  GtkWidget *answer;
  const HsJobChoices *job;

  app_book_open_job (book, "A-0024", "choices");
  best = offer (book, "best", "Tracker on a switched feed", "Tracks while driving; off when parked.", 7777);
  enough = offer (book, "enough", "Tracker left unplugged", "No tracking while it is out.", 1234);
  window = turn_round (book, "A-0024");
  g_assert_true (hs_app_test_key (gtk_window_get_focus (GTK_WINDOW (window)) != NULL
                                      ? gtk_window_get_focus (GTK_WINDOW (window)) : window, GDK_KEY_2, 0));
  sign (hs_customer_window_get_pad (HS_CUSTOMER_WINDOW (window)));
  text = read_all (window);
  assert_lacks (text, "77.77");
  assert_lacks (text, "12.34");
  hs_app_test_picture (window, "customer-picked");
  g_assert_true (gtk_widget_activate_action (window, "customer.write", NULL));
  answer = hs_app_test_window (HS_TYPE_ANSWER_WINDOW);
  g_assert_nonnull (answer);
  hs_app_test_frames ();
  hs_app_test_picture (answer, "customer-who");
  g_assert_true (hs_app_test_key (gtk_window_get_focus (GTK_WINDOW (answer)), GDK_KEY_KP_Add, 0));
  g_assert_true (gtk_widget_activate_action (answer, "answer.write", NULL));
  hs_app_test_wait (hs_app_test_window (HS_TYPE_ANSWER_WINDOW) == NULL);
  app_book_settle (book);
  g_assert_true (hs_app_test_says (window, "Picked"));
  g_assert_true (hs_app_test_says (window, "No"));
  g_assert_true (hs_app_test_says (window, "Risk: No tracking while it is out."));
  g_assert_true (hs_signature_pad_is_blank (hs_customer_window_get_pad (HS_CUSTOMER_WINDOW (window))));

  ask = ask_job (book);
  job = ((const HsJobShot *) hs_question_get (ask))->choices;
  g_assert_cmpstr (hs_job_choices_find (job, 1)->choice, ==, "no");
  g_assert_cmpstr (hs_job_choices_find (job, 2)->choice, ==, "yes");
  g_assert_cmpstr (hs_job_choices_find (job, 2)->by, ==, "Wilhelmina Sorrel");
  g_assert_cmpstr (hs_job_choices_find (job, 2)->means, ==, "signed_on_screen");
  g_assert_nonnull (((HsGoAhead *) g_ptr_array_index (job->go_aheads, 0))->signature);
}

/* The reading that answers the page's question stands on its limits, with both needles. */
static void
test_gauge (AppBook *book, gconstpointer data)
{
  GtkWidget *window;
  GtkWidget *gauge;
  double now, before;

  app_book_open_job (book, "A-0013", "choices");
  window = turn_round (book, "A-0013");
  gauge = hs_app_test_find (window, HS_TYPE_GAUGE);
  g_assert_nonnull (gauge);
  g_assert_true (gtk_widget_get_mapped (gauge));
  /* 14.08 V after and 12.30 V before lie on either side of the middle. */
  g_assert_true (hs_gauge_get_needle (HS_GAUGE (gauge), &now));
  g_assert_cmpfloat_with_epsilon (now, 14.08, 1e-9);
  g_assert_true (hs_gauge_get_before (HS_GAUGE (gauge), &before));
  g_assert_cmpfloat_with_epsilon (before, 12.30, 1e-9);
  g_assert_cmpfloat (hs_gauge_get_fraction (HS_GAUGE (gauge), now), >, 0.4);
  g_assert_cmpfloat (hs_gauge_get_fraction (HS_GAUGE (gauge), before), <, 0.4);
  hs_app_test_frames ();
  hs_app_test_picture (window, "customer-gauge");
}

/* A no is signed like a yes: its signature is in the book and stands under the go-aheads. */
static void
test_sign_a_no (AppBook *book, gconstpointer data)
{
  g_autoptr (HsQuestion) ask = NULL;
  g_autofree char *id = NULL;
  GtkWidget *window, *answer;
  const HsJobChoices *job;

  app_book_open_job (book, "A-0024", "choices");
  id = offer (book, "best", "Front brake hose", "The hose may burst.", 1234);
  window = turn_round (book, "A-0024");
  g_assert_true (hs_app_test_key (gtk_window_get_focus (GTK_WINDOW (window)) != NULL
                                      ? gtk_window_get_focus (GTK_WINDOW (window)) : window, GDK_KEY_1, 0));
  sign (hs_customer_window_get_pad (HS_CUSTOMER_WINDOW (window)));
  g_assert_true (gtk_widget_activate_action (window, "customer.write", NULL));
  answer = hs_app_test_window (HS_TYPE_ANSWER_WINDOW);
  hs_answer_window_answer (HS_ANSWER_WINDOW (answer), 2);
  g_assert_true (gtk_widget_activate_action (answer, "answer.write", NULL));
  hs_app_test_wait (hs_app_test_window (HS_TYPE_ANSWER_WINDOW) == NULL);
  app_book_settle (book);
  ask = ask_job (book);
  job = ((const HsJobShot *) hs_question_get (ask))->choices;
  g_assert_cmpstr (hs_job_choices_find (job, 1)->choice, ==, "no");
  g_assert_cmpstr (hs_job_choices_find (job, 1)->means, ==, "signed_on_screen");
  g_assert_nonnull (hs_job_choices_find (job, 1)->signature);
  g_assert_cmpuint (job->go_aheads->len, ==, 0);
  gtk_window_destroy (GTK_WINDOW (window));
  hs_app_test_frames ();
  hs_app_test_picture (GTK_WIDGET (book->window), "choices-signed-no");
}

/* What was told of the risk stays in the book as it was told, though the page shows it without the name; what is typed
 * over it takes its place. */
static void
test_risk_stays (AppBook *book, gconstpointer data)
{
  static const char *const typed[] = { NULL, "It may burst." };
  HsChoiceAnswer before = HS_CHOICE_ANSWER_NONE;
  g_autofree char *id = NULL;

  app_book_open_job (book, "A-0024", "choices");
  id = offer (book, "best", "Front brake hose", "Bram Pellam saw it burst.", 1234);
  before.choice = "no";
  before.by = "Bram Pellam";
  before.means = "phone";
  hs_deed_decide (book->ledger, id, &before, done_cb, NULL);
  app_book_settle (book);
  for (gsize i = 0; i < G_N_ELEMENTS (typed); i++)
    {
      GtkWidget *window = turn_round (book, "A-0024");
      GtkWidget *answer;
      g_autoptr (HsQuestion) ask = NULL;

      g_assert_true (hs_app_test_says_part (window, "somebody saw it burst."));
      hs_customer_window_pick (HS_CUSTOMER_WINDOW (window), 1);
      sign (hs_customer_window_get_pad (HS_CUSTOMER_WINDOW (window)));
      g_assert_true (gtk_widget_activate_action (window, "customer.write", NULL));
      answer = hs_app_test_window (HS_TYPE_ANSWER_WINDOW);
      hs_consent_set_who (hs_answer_window_get_consent (HS_ANSWER_WINDOW (answer)), "Bram Pellam");
      /* A go-ahead that reaches far enough is there the second time. */
      if (i == 0)
        g_assert_true (hs_app_test_key (gtk_window_get_focus (GTK_WINDOW (answer)), GDK_KEY_KP_Add, 0));
      /* Enter at its end writes it down. */
      if (typed[i] != NULL)
        hs_answer_window_set_risk (HS_ANSWER_WINDOW (answer), typed[i]);
      else
        g_assert_true (gtk_widget_activate_action (answer, "answer.write", NULL));
      hs_app_test_wait (hs_app_test_window (HS_TYPE_ANSWER_WINDOW) == NULL);
      app_book_settle (book);
      ask = ask_job (book);
      g_assert_cmpstr (hs_job_choices_find (((const HsJobShot *) hs_question_get (ask))->choices, 1)->risk, ==,
                       typed[i] != NULL ? typed[i] : "Bram Pellam saw it burst.");
      gtk_window_destroy (GTK_WINDOW (window));
    }
}

/* Esc turns back, and the cursor is where it was. */
static void
test_turns_back (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0024", "findings");
  GtkWidget *focus;
  GtkWidget *window;

  app_book_type (book, "3");
  focus = gtk_window_get_focus (GTK_WINDOW (book->window));
  g_assert_true (gtk_widget_activate_action (page, "win.customer", NULL));
  window = hs_app_test_window (HS_TYPE_CUSTOMER_WINDOW);
  hs_app_test_wait (hs_customer_window_is_shown (HS_CUSTOMER_WINDOW (window)));
  g_assert_true (gtk_widget_activate_action (window, "customer.close", NULL));
  hs_app_test_wait (hs_app_test_window (HS_TYPE_CUSTOMER_WINDOW) == NULL);
  g_assert_true (gtk_window_get_focus (GTK_WINDOW (book->window)) == focus);
}

/* As large as the window that it covers: a phone and a small laptop are enough for every job. */
static void
show_at (AppBook *book, const char *number, int width)
{
  g_autofree char *name = g_strdup_printf ("customer-%d-%s", width, number);
  GtkWidget *window = turn_round (book, number);
  graphene_rect_t bounds;
  int least;

  hs_app_test_frames ();
  g_assert_cmpint (gtk_widget_get_width (window), ==, width);
  gtk_widget_measure (window, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  g_test_message ("%s: %d", number, least);
  g_assert_cmpint (least, <=, width);
  /* Nothing sticks out on the right. */
  g_assert_true (gtk_widget_compute_bounds (hs_app_test_label (window, number), window, &bounds));
  g_assert_cmpfloat (bounds.origin.x + bounds.size.width, <=, width);
  hs_app_test_picture (window, name);
  gtk_window_destroy (GTK_WINDOW (window));
  hs_app_test_frames ();
}

static void
test_room (AppBook *book, gconstpointer data)
{
  static const char *const numbers[] = { "A-0004", "A-0012", "A-0013", "A-0014", "A-0024" };

  gtk_window_set_default_size (GTK_WINDOW (book->window), 1024, 600);
  hs_app_test_wait (gtk_widget_get_width (GTK_WIDGET (book->window)) == 1024);
  show_at (book, "A-0013", 1024);
  gtk_window_set_default_size (GTK_WINDOW (book->window), 360, 700);
  hs_app_test_wait (hs_window_get_narrow (book->window));
  for (gsize i = 0; i < G_N_ELEMENTS (numbers); i++)
    show_at (book, numbers[i], 360);
}

/* The dark sheet with twice the text: one column, and every figure whole. */
static void
test_large_text (AppBook *book, gconstpointer data)
{
  int dpi;

  g_object_get (gtk_settings_get_default (), "gtk-xft-dpi", &dpi, NULL);
  g_object_set (gtk_settings_get_default (), "gtk-xft-dpi", 2 * 96 * 1024, NULL);
  adw_style_manager_set_color_scheme (adw_style_manager_get_default (), ADW_COLOR_SCHEME_FORCE_DARK);
  gtk_window_set_default_size (GTK_WINDOW (book->window), 900, 768);
  hs_app_test_wait (gtk_widget_get_width (GTK_WIDGET (book->window)) == 900);
  show_at (book, "A-0013", 900);
  adw_style_manager_set_color_scheme (adw_style_manager_get_default (), ADW_COLOR_SCHEME_DEFAULT);
  g_object_set (gtk_settings_get_default (), "gtk-xft-dpi", dpi, NULL);
}

#define ADD(name, func) g_test_add (name, AppBook, NULL, app_book_open, func, app_book_close)

int
main (int argc, char *argv[])
{
  hs_app_test_init (&argc, &argv);
  ADD ("/customer/leaks-nothing", test_leaks_nothing);
  ADD ("/customer/planted", test_planted);
  ADD ("/customer/pick-and-sign", test_pick_and_sign);
  ADD ("/customer/sign-a-no", test_sign_a_no);
  ADD ("/customer/risk-stays", test_risk_stays);
  ADD ("/customer/gauge", test_gauge);
  ADD ("/customer/turns-back", test_turns_back);
  ADD ("/customer/room", test_room);
  ADD ("/customer/large-text", test_large_text);
  return g_test_run ();
}
