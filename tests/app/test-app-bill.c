// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The bill by digits: priced, squared up and paid, and what is refused on the way. */

#include "app-book.h"
#include "hs-call-off.h"
#include "hs-app-test.h"
#include "hs-demo.h"
#include "hs-job-life.h"
#include "hs-job-op.h"
#include "hs-job-page.h"

#define MINUTE ((HsInstant) 60)

static HsBook *
open_book (AppBook *book)
{
  HsBookUser user = { "test", "here", 1, hs_demo_get_now () };
  g_autoptr (GError) error = NULL;
  HsBook *other = hs_book_open (book->path, HS_BOOK_WRITE, &user, &error);

  g_assert_no_error (error);
  return other;
}

/* At A-0022 since 07:12, 40 minutes before the window's now, without a reading after; the customer agreed to at most
 * @ceiling. */
static void
prove (AppBook *book, gint64 ceiling)
{
  g_autoptr (HsBook) other = open_book (book);
  g_autofree char *id = hs_job_find (other, "A-0022", NULL);
  HsInstant at = hs_demo_get_now () + 27 * MINUTE;

  g_assert_true (hs_job_move_stage (other, id, HS_STAGE_ROLLING, NULL, at, NULL));
  g_assert_true (hs_job_move_stage (other, id, HS_STAGE_ON_SITE, NULL, at, NULL));
  g_assert_true (hs_go_ahead_add (other, id, ceiling, "Rue Abernant", "in_person", at, NULL));
  g_assert_true (hs_job_move_stage (other, id, HS_STAGE_PROVEN, "customer drove off", at + 30 * MINUTE, NULL));
}

static char *
dup_money (AppBook *book)
{
  g_autoptr (HsBook) other = open_book (book);
  g_autofree char *id = hs_job_find (other, "A-0022", NULL);
  g_autoptr (HsJobView) view = hs_job_view_load (other, id, hs_demo_get_now () + 67 * MINUTE, NULL);

  return g_strdup_printf ("%s %" G_GINT64_FORMAT " %" G_GINT64_FORMAT, hs_stage_id (view->tag->stage),
                          view->net_cents + view->tax_cents, view->paid_cents);
}

static void
assert_money (AppBook *book, const char *expected)
{
  g_autofree char *money = NULL;

  app_book_settle (book);
  money = dup_money (book);
  g_assert_cmpstr (money, ==, expected);
}

#define SAYS(text) g_assert_true (hs_app_test_says_part (page, text))

static void
press (AppBook *book, const char *keys)
{
  app_book_type (book, keys);
  app_book_settle (book);
}

/* The same in whatever window lies on top. */
static void
press_top (AppBook *book, const char *keys)
{
  g_autofree char *key = NULL;

  for (const char *at = keys; *at != '\0'; at = g_utf8_next_char (at))
    {
      g_free (g_steal_pointer (&key));
      key = g_strndup (at, (gsize) (g_utf8_next_char (at) - at));
      app_book_keys (book, key);
      app_book_settle (book);
    }
}

#define TOP_SAYS(text) g_assert_true (hs_app_test_says_part (app_book_find_top (book), text))

/* The call-out of 60.00 covers 30 minutes, the next quarter costs 24.00. */
static void
test_to_the_change (AppBook *book, gconstpointer data)
{
  GtkWidget *page;

  prove (book, 20000);
  page = app_book_open_job (book, "A-0022", "bill");
  SAYS ("Work by the clock so far, 40 min on site: not priced yet");
  SAYS ("84.00");
  press_top (book, "3");
  TOP_SAYS ("has no price yet");
  press_top (book, "\x1b");
  assert_money (book, "proven 8400 0");
  press (book, "1");
  assert_money (book, "proven 8400 0");
  g_assert_false (hs_app_test_says_part (page, "not priced yet"));
  SAYS ("84.00");
  hs_app_test_picture (GTK_WIDGET (book->window), "bill-priced");
  press_top (book, "3");
  TOP_SAYS ("for good");
  TOP_SAYS ("84.00");
  hs_app_test_picture (app_book_find_top (book), "bill-square");
  press_top (book, "\x1b");
  assert_money (book, "proven 8400 0");
  press_top (book, "3\n");
  assert_money (book, "squared 8400 0");
  SAYS ("Paid: cash");
  press (book, "1");
  hs_app_test_picture (GTK_WIDGET (book->window), "bill-amount");
  /* The sum that is owed stands there, chosen, and gives way to what is typed. */
  press (book, "100\n");
  assert_money (book, "squared 8400 8400");
  SAYS ("Change");
  SAYS ("16.00");
  hs_app_test_picture (GTK_WIDGET (book->window), "bill-change");
}

/* Part in cash, the rest by card; by card nothing is given back. */
static void
test_split (AppBook *book, gconstpointer data)
{
  GtkWidget *page;

  prove (book, 20000);
  page = app_book_open_job (book, "A-0022", "bill");
  press (book, "1");
  press_top (book, "3\n");
  press (book, "1");
  press (book, "50\n");
  assert_money (book, "squared 8400 5000");
  SAYS ("34.00");
  press (book, "2");
  press (book, "40\n");
  SAYS ("owes 34.00, not more");
  assert_money (book, "squared 8400 5000");
  press (book, "\n");
  assert_money (book, "squared 8400 5000");
  app_book_press (book, GDK_KEY_Escape);
  press (book, "2");
  press (book, "\n");
  assert_money (book, "squared 8400 8400");
  /* All is paid: a digit does nothing more. */
  press (book, "1");
  assert_money (book, "squared 8400 8400");
}

static void
test_refused (AppBook *book, gconstpointer data)
{
  GtkWidget *page;

  prove (book, 8000);
  page = app_book_open_job (book, "A-0022", "bill");
  press (book, "1");
  press_top (book, "3");
  TOP_SAYS ("short by 4.00");
  press_top (book, "\x1b");
  assert_money (book, "proven 8400 0");
  /* On the house wants a reason, and takes it back with Esc. */
  press (book, "2");
  press (book, "\n");
  SAYS ("Say why nothing is charged");
  app_book_press (book, GDK_KEY_Escape);
  assert_money (book, "proven 8400 0");
  press (book, "2");
  press (book, "our work\n");
  assert_money (book, "proven 0 0");
  SAYS ("our work");
  press_top (book, "3\n");
  assert_money (book, "squared 0 0");
}

/* Of a call that was called off only the fee stands there, and what can be done is squaring it up. */
static void
test_called_off (AppBook *book, gconstpointer data)
{
  g_autoptr (HsBook) other = open_book (book);
  g_autofree char *id = hs_job_find (other, "A-0022", NULL);
  GtkWidget *page;

  g_assert_true (hs_job_call_off (other, id, "no_show", 4000, "nobody there", hs_demo_get_now (), NULL));
  page = app_book_open_job (book, "A-0022", "bill");
  SAYS ("Called off: no-show");
  g_assert_false (hs_app_test_says_part (page, "Price It"));
  press (book, "1");
  press (book, "2");
  assert_money (book, "called_off 4000 0");
  hs_app_test_picture (GTK_WIDGET (book->window), "bill-called-off");
  press_top (book, "3\n");
  assert_money (book, "squared 4000 0");
  press (book, "2\n");
  assert_money (book, "squared 4000 4000");
}

/* Arrived at 09:20 by a clock that stands at 07:52 again: the bill says what is not on it, squaring up does not pass it
 * by, and the minutes are typed. */
static void
test_clock_put_back (AppBook *book, gconstpointer data)
{
  GtkWidget *page, *top;

  {
    g_autoptr (HsBook) other = open_book (book);
    g_autofree char *id = hs_job_find (other, "A-0022", NULL);
    HsInstant at = hs_demo_get_now () + 155 * MINUTE;

    g_assert_true (hs_job_move_stage (other, id, HS_STAGE_ROLLING, NULL, at, NULL));
    g_assert_true (hs_job_move_stage (other, id, HS_STAGE_ON_SITE, NULL, at, NULL));
    g_assert_true (hs_go_ahead_add (other, id, 50000, "Rue Abernant", "in_person", at, NULL));
    g_assert_true (hs_job_move_stage (other, id, HS_STAGE_PROVEN, "customer drove off", at + MINUTE, NULL));
  }
  page = app_book_open_job (book, "A-0022", "bill");
  SAYS ("Work of today, begun at 09:20: this machine's clock was put back since then, so the minutes are not "
        "known and not on the bill. Type them: press 5.");
  hs_app_test_picture (GTK_WIDGET (book->window), "bill-clock-put-back");
  press (book, "1");
  SAYS ("Type them on the bill.");
  app_book_keys (book, "3");
  top = app_book_find_top (book);
  g_assert_true (hs_app_test_says_part (top, "the visit began at 09:20"));
  hs_app_test_picture (top, "square-clock-put-back");
  gtk_widget_activate_action (top, "square.up", NULL);
  app_book_keys (book, "\x1b");
  assert_money (book, "proven 0 0");
  press (book, "5");
  SAYS ("Work of today: how many minutes at the vehicle, without pauses?");
  press (book, "\n");
  SAYS ("Type whole minutes");
  press (book, "45\n");
  g_assert_false (hs_app_test_says_part (page, "was put back"));
  g_assert_false (hs_app_test_says_part (page, "Type the Minutes"));
  press (book, "1");
  assert_money (book, "proven 8400 0");
  app_book_keys (book, "3\n");
  assert_money (book, "squared 8400 0");
}

static void
with_job (AppBook *book, void (*act) (HsBook *other, const char *id))
{
  g_autoptr (HsBook) other = open_book (book);
  g_autofree char *id = hs_job_find (other, "A-0022", NULL);

  act (other, id);
}

static void
put_in_relay (HsBook *other, const char *id)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *part = hs_part_install (other, id, &(HsInstallEntry) { .what = "heater relay", .why = "due" },
                                           hs_demo_get_now () + 60 * MINUTE, &error);

  g_assert_no_error (error);
}

static void
recommend (HsBook *other, const char *id)
{
  const HsAdviceEntry entry
      = { .wording = "Front pads", .choice = "open", .at = HS_INSTANT_NONE, .chase_on = HS_DATE_NONE };
  g_autofree char *choice = hs_advice_add (other, id, &entry, hs_demo_get_now () + 60 * MINUTE, NULL);

  g_assert_nonnull (choice);
}

/* F4 asks once, in plain words; Esc leaves all as it is, Enter squares. */
static void
test_asked (AppBook *book, gconstpointer data)
{
  prove (book, 20000);
  app_book_open_job (book, "A-0022", "call");
  app_book_keys (book, "F4");
  app_book_settle (book);
  TOP_SAYS ("No call-out on this bill.");
  TOP_SAYS ("A-0022 has no price yet");
  TOP_SAYS ("Not proven because: customer drove off");
  hs_app_test_picture (app_book_find_top (book), "square-no-call-out");
  assert_money (book, "proven 8400 0");
  press_top (book, "1");
  g_assert_false (hs_app_test_says_part (app_book_find_top (book), "No call-out"));
  TOP_SAYS ("Total, as it will be frozen");
  TOP_SAYS ("84.00");
  TOP_SAYS ("Owed");
  hs_app_test_picture (app_book_find_top (book), "square");
  press_top (book, "\x1b");
  g_assert_null (app_book_find_top (book));
  assert_money (book, "proven 8400 0");
  app_book_keys (book, "F4");
  app_book_settle (book);
  /* A habit of pressing it twice squares nothing. */
  app_book_keys (book, "F4");
  assert_money (book, "proven 8400 0");
  press_top (book, "\n");
  g_assert_null (app_book_find_top (book));
  assert_money (book, "squared 8400 0");
}

/* An open recommendation stands against it, and 0 leads to it. */
static void
test_leads (AppBook *book, gconstpointer data)
{
  prove (book, 20000);
  with_job (book, recommend);
  app_book_open_job (book, "A-0022", "bill");
  press (book, "1");
  press_top (book, "3");
  TOP_SAYS ("1 recommendation has no answer yet");
  TOP_SAYS ("Go to the Choices");
  hs_app_test_picture (app_book_find_top (book), "square-refused");
  press_top (book, "\n");
  assert_money (book, "proven 8400 0");
  g_assert_null (app_book_find_top (book));
  g_assert_true (hs_app_test_says (hs_window_get_job (book->window), "Told and picked"));
}

/* A part of which nobody said what it cost is no 0.00: it stops squaring by its name, and 4 asks for it. */
static void
test_no_price (AppBook *book, gconstpointer data)
{
  GtkWidget *page;

  prove (book, 20000);
  with_job (book, put_in_relay);
  page = app_book_open_job (book, "A-0022", "bill");
  press (book, "1");
  SAYS ("no price yet");
  SAYS ("What “heater relay” Cost");
  hs_app_test_picture (GTK_WIDGET (book->window), "bill-no-price");
  press_top (book, "3");
  TOP_SAYS ("“heater relay” on the bill of A-0022 has no price yet");
  press_top (book, "0");
  g_assert_null (app_book_find_top (book));
  page = hs_window_get_job (book->window);
  press (book, "4");
  SAYS ("What did “heater relay” cost?");
  press (book, "\n");
  SAYS ("Write down what it cost");
  press (book, "much\n");
  SAYS ("is not a number that can be used");
  app_book_press (book, GDK_KEY_Escape);
  press (book, "4");
  press (book, "50\n");
  /* 84.00 for it at 8 % tax: 84.00 + 84.00 + 6.72. */
  assert_money (book, "proven 17472 0");
  g_assert_false (hs_app_test_says_part (page, "no price yet"));
  press_top (book, "3\n");
  assert_money (book, "squared 17472 0");
}

/* What the part comes to passes the go-ahead: told, and Enter again writes nothing; + does. */
static void
test_past_ceiling (AppBook *book, gconstpointer data)
{
  GtkWidget *page;

  prove (book, 10000);
  with_job (book, put_in_relay);
  page = app_book_open_job (book, "A-0022", "bill");
  press (book, "1");
  press (book, "4");
  press (book, "50\n");
  /* 84.00 for it beside 84.00 for the clock, with 6.72 of tax, are 174.72. */
  SAYS ("short by 74.72");
  SAYS ("Yes, Past the Go-Ahead");
  hs_app_test_picture (GTK_WIDGET (book->window), "bill-past-ceiling");
  press (book, "\n\n");
  SAYS ("short by 74.72");
  SAYS ("no price yet");
  press (book, "+");
  assert_money (book, "proven 17472 0");
  g_assert_false (hs_app_test_says_part (page, "Yes, Past the Go-Ahead"));
}

int
main (int argc, char **argv)
{
  hs_app_test_init (&argc, &argv);
  g_test_add ("/app/bill/to-the-change", AppBook, NULL, app_book_open, test_to_the_change, app_book_close);
  g_test_add ("/app/bill/split", AppBook, NULL, app_book_open, test_split, app_book_close);
  g_test_add ("/app/bill/refused", AppBook, NULL, app_book_open, test_refused, app_book_close);
  g_test_add ("/app/bill/asked", AppBook, NULL, app_book_open, test_asked, app_book_close);
  g_test_add ("/app/bill/leads", AppBook, NULL, app_book_open, test_leads, app_book_close);
  g_test_add ("/app/bill/no-price", AppBook, NULL, app_book_open, test_no_price, app_book_close);
  g_test_add ("/app/bill/past-ceiling", AppBook, NULL, app_book_open, test_past_ceiling, app_book_close);
  g_test_add ("/app/bill/clock-put-back", AppBook, NULL, app_book_open, test_clock_put_back, app_book_close);
  g_test_add ("/app/bill/called-off", AppBook, NULL, app_book_open, test_called_off, app_book_close);
  return g_test_run ();
}
