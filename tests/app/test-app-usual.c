// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A usual job from the call slip to the receipt by keyboard alone, with the presses counted, in one go and left in
 * between. */

#include "app-book.h"
#include "hs-app-test.h"
#include "hs-ask.h"
#include "hs-call-form.h"
#include "hs-call-slip-window.h"
#include "hs-demo.h"
#include "hs-job-op.h"
#include "hs-job-page.h"
#include "hs-safety-op.h"
#include "hs-usual-window.h"

/* A key at whatever window has come to lie on top. */
static void
press (AppBook *book, guint keyval)
{
  GtkWidget *usual = hs_app_test_window (HS_TYPE_USUAL_WINDOW);
  GtkWidget *slip = hs_app_test_window (HS_TYPE_CALL_SLIP_WINDOW);
  GtkWidget *top = usual != NULL ? usual : slip;

  if (top == NULL)
    app_book_press (book, keyval);
  else
    app_book_press_in (top, keyval);
  app_book_settle (book);
}

/* "F" is followed by a digit: F3; "\n" is Enter, "\x1b" Esc, all else itself. Returns: how many. */
static guint
keys (AppBook *book, const char *text)
{
  guint n = 0;

  for (const char *at = text; *at != '\0'; at++, n++)
    if (*at == 'F')
      press (book, GDK_KEY_F1 + (guint) (*++at - '1'));
    else if (*at == '\n')
      press (book, GDK_KEY_Return);
    else if (*at == '\x1b')
      press (book, GDK_KEY_Escape);
    else
      press (book, gdk_unicode_to_keyval ((guint32) *at));
  return n;
}

/* The job that was taken last: its stage, what it owes, and its receipt. */
static char *
dup_latest (AppBook *book)
{
  HsBookUser user = { "test", "here", 1, hs_demo_get_now () };
  g_autoptr (HsBook) other = hs_book_open (book->path, HS_BOOK_READ, &user, NULL);
  g_autofree char *id = hs_job_find (other, "A-0027", NULL);
  g_autoptr (HsJobView) view = id != NULL ? hs_job_view_load (other, id, hs_demo_get_now (), NULL) : NULL;

  if (view == NULL)
    return g_strdup ("none");
  return g_strdup_printf ("%s %" G_GINT64_FORMAT " %" G_GINT64_FORMAT " %s", hs_stage_id (view->tag->stage),
                          view->net_cents + view->tax_cents, view->paid_cents, view->tag->words);
}

static void
assert_latest (AppBook *book, const char *expected)
{
  g_autofree char *latest = dup_latest (book);

  g_assert_cmpstr (latest, ==, expected);
}

#define SAYS(text) g_assert_true (hs_app_test_says_part (hs_app_test_window (HS_TYPE_USUAL_WINDOW), text))

/* Job.md's count of fifteen is the owner's: from the ring to the receipt. */
static void
test_jump_start (AppBook *book, gconstpointer data)
{
  guint n;

  app_book_show (book, "jobs");
  n = keys (book, "F30111\n");
  n += keys (book, "F6");
  hs_app_test_picture (hs_app_test_window (HS_TYPE_USUAL_WINDOW), "usual-what");
  SAYS ("Jump start · 65.00");
  n += keys (book, "1");
  SAYS ("Does the customer say yes");
  SAYS ("Eye protection");
  hs_app_test_picture (hs_app_test_window (HS_TYPE_USUAL_WINDOW), "usual-yes");
  n += keys (book, "1");
  SAYS ("Traffic passes well clear");
  hs_app_test_picture (hs_app_test_window (HS_TYPE_USUAL_WINDOW), "usual-safe");
  n += keys (book, "6");
  SAYS ("lamp left on");
  n += keys (book, "1");
  SAYS ("Key turned to start: starts");
  n += keys (book, "1");
  SAYS ("on account");
  n += keys (book, "1");
  hs_app_test_picture (hs_app_test_window (HS_TYPE_USUAL_WINDOW), "usual-square");
  SAYS ("Jump start · lamp left on · Key turned to start: starts · cash");
  assert_latest (book, "on_site 0 0 Jump start");
  n += keys (book, "\n");
  hs_app_test_picture (hs_app_test_window (HS_TYPE_USUAL_WINDOW), "usual-receipt");
  SAYS ("To pay 0.00");
  g_test_message ("jump start: %u presses to the receipt", n);
  g_assert_cmpuint (n, <=, 15);
  assert_latest (book, "squared 6500 6500 Jump start");
  keys (book, "\n");
  g_assert_null (hs_app_test_window (HS_TYPE_USUAL_WINDOW));
  g_assert_null (hs_app_test_window (HS_TYPE_CALL_SLIP_WINDOW));
}

/* A figure is measured: the wheel nuts, by the torque wrench. */
static void
test_spare_wheel (AppBook *book, gconstpointer data)
{
  guint n;

  app_book_show (book, "jobs");
  n = keys (book, "F30111F62151");
  SAYS ("Wheel nuts");
  n += keys (book, "85\n");
  n += keys (book, "2\n");
  g_test_message ("spare wheel: %u presses to the receipt", n);
  g_assert_cmpuint (n, <=, 15);
  assert_latest (book, "squared 7000 7000 Spare wheel put on");
}

/* Left for the drive after the yes, and taken up again by one key; also after a kill. */
static void
left (AppBook *book, gboolean killed)
{
  guint n;

  app_book_show (book, "jobs");
  n = keys (book, "F30111F611\x1b");
  g_assert_null (hs_app_test_window (HS_TYPE_CALL_SLIP_WINDOW));
  assert_latest (book, "called_in 0 0 Jump start");
  if (killed)
    {
      app_book_close_window (book);
      app_book_open_window (book);
    }
  else
    n += keys (book, "F2");
  hs_app_test_wait (hs_app_test_window (HS_TYPE_USUAL_WINDOW) != NULL);
  app_book_settle (book);
  SAYS ("is it safe?");
  n += keys (book, "6");
  SAYS ("Why did it happen?");
  n += keys (book, "311\n");
  g_test_message ("jump start, left once: %u presses", n);
  g_assert_cmpuint (n, <=, 15);
  assert_latest (book, "squared 6500 6500 Jump start");
}

static void
test_left (AppBook *book, gconstpointer data)
{
  left (book, FALSE);
}

static void
test_killed (AppBook *book, gconstpointer data)
{
  left (book, TRUE);
}

/* One back mends a wrong digit; not tested needs a reason, which is a digit too. */
static void
test_back (AppBook *book, gconstpointer data)
{
  app_book_show (book, "jobs");
  keys (book, "F30111\nF61162");
  SAYS ("Jump start · parked too long");
  keys (book, "-0");
  SAYS ("Jump start · not known, told");
  keys (book, "*");
  SAYS ("Why was it not tested?");
  keys (book, "2");
  keys (book, "1-5");
  SAYS ("not safe here");
  SAYS ("on account");
  keys (book, "\n");
  assert_latest (book, "squared 6500 0 Jump start");
}

/* What the rules stand against is said, and nothing is half done; with a no there is no go-ahead. */
static void
test_refused (AppBook *book, gconstpointer data)
{
  app_book_show (book, "jobs");
  keys (book, "F30111\nF610");
  g_assert_null (hs_app_test_window (HS_TYPE_USUAL_WINDOW));
  g_assert_nonnull (hs_app_test_window (HS_TYPE_CALL_SLIP_WINDOW));
  keys (book, "\x1b");
  assert_latest (book, "called_in 0 0 Jump start");
  /* A-0026 is of a hybrid: its list is answered first. */
  app_book_open_job (book, "A-0026", "bill");
  keys (book, "F6116");
  SAYS ("High voltage: answer “Ready lamp, key” by itself");
  keys (book, "\n\n39");
  SAYS ("lamp left on");
}

/* Enter answers one line of the list, 0 says that it is not so: nothing is safe then, also moved, until that is put
 * right; with the last answer it is, as it was said. */
static void
test_not_so (AppBook *book, gconstpointer data)
{
  HsBookUser user = { "test", "here", 1, hs_demo_get_now () };
  g_autoptr (HsSafetySheet) sheet = NULL;
  g_autoptr (HsBook) other = NULL;
  g_autofree char *id = NULL;

  app_book_show (book, "jobs");
  keys (book, "F30111F611\n");
  SAYS ("Level, chocked: it is so");
  keys (book, "0");
  SAYS ("Do not go on here.");
  hs_app_test_picture (hs_app_test_window (HS_TYPE_USUAL_WINDOW), "usual-not-so");
  keys (book, "6+\n");
  SAYS ("which was moved: is it safe?");
  SAYS ("Do not go on here.");
  keys (book, "2\n");
  SAYS ("Why did it happen?");
  other = hs_book_open (book->path, HS_BOOK_READ, &user, NULL);
  id = hs_job_find (other, "A-0027", NULL);
  sheet = hs_safety_sheet_load (other, id, NULL);
  g_assert_cmpstr (sheet->note, ==, "moved");
}

/* Left at the safety list, nothing is safe: the list is asked again. Refused, the work ends there. */
static void
test_not_safe (AppBook *book, gconstpointer data)
{
  app_book_show (book, "jobs");
  keys (book, "F30111F611\x1b");
  keys (book, "F2");
  hs_app_test_wait (hs_app_test_window (HS_TYPE_USUAL_WINDOW) != NULL);
  app_book_settle (book);
  SAYS ("is it safe?");
  assert_latest (book, "called_in 0 0 Jump start");
  keys (book, "/");
  g_assert_null (hs_app_test_window (HS_TYPE_USUAL_WINDOW));
  assert_latest (book, "on_site 0 0 Jump start");
  g_assert_true (hs_app_test_says_part (GTK_WIDGET (book->window), "refused because not safe here"));
}

/* Taken up again after that it is asked anew, line by line; what is not so still bars it behind the last of them. */
static void
test_safe_after_all (AppBook *book, gconstpointer data)
{
  app_book_show (book, "jobs");
  keys (book, "F30111F611\n0/");
  g_assert_null (hs_app_test_window (HS_TYPE_USUAL_WINDOW));
  app_book_open_job (book, "A-0027", "bill");
  keys (book, "F611");
  hs_app_test_picture (hs_app_test_window (HS_TYPE_USUAL_WINDOW), "usual-after-all");
  SAYS ("is it safe?");
  SAYS ("Alone, dark, dogs: it is so");
  keys (book, "\n");
  SAYS ("Acid, hydrogen: it is so");
  keys (book, "6");
  SAYS ("Do not go on here.");
  keys (book, "2\n");
  SAYS ("Why did it happen?");
}

static void
assert_whose (AppBook *book, const char *customer)
{
  HsCallForm *form = HS_CALL_FORM (hs_app_test_find (hs_app_test_window (HS_TYPE_CALL_SLIP_WINDOW), HS_TYPE_CALL_FORM));
  g_autoptr (HsQuestion) asked = hs_question_new (book->ledger, hs_ask_job, (GDestroyNotify) hs_job_shot_free);

  g_assert_nonnull (hs_call_form_get_job_id (form));
  hs_question_ask (asked, g_variant_new ("(s)", hs_call_form_get_job_id (form)));
  app_book_settle (book);
  g_assert_cmpstr (((const HsJobShot *) hs_question_get (asked))->view->tag->customer, ==, customer);
}

/* The end of a number that one known caller has is that caller, also without Enter; a name beside it is another. */
static void
test_known_number (AppBook *book, gconstpointer data)
{
  app_book_show (book, "jobs");
  keys (book, "F30115F61");
  keys (book, "1");
  assert_whose (book, "Teo Calloway");
}

static void
test_several_known (AppBook *book, gconstpointer data)
{
  HsCallForm *form;
  GtkWidget *slip;

  app_book_show (book, "jobs");
  keys (book, "F30113F6");
  slip = hs_app_test_window (HS_TYPE_CALL_SLIP_WINDOW);
  form = HS_CALL_FORM (hs_app_test_find (slip, HS_TYPE_CALL_FORM));
  g_assert_null (hs_app_test_window (HS_TYPE_USUAL_WINDOW));
  g_assert_true (hs_app_test_says_part (slip, "More than one known caller or vehicle has that number."));
  g_assert_true (GTK_IS_LIST_BOX_ROW (gtk_root_get_focus (GTK_ROOT (slip))));
  g_assert_null (hs_call_form_get_job_id (form));
}

/* Without a number there is nobody to bring a receipt to: the slip says so. */
static void
test_nobody (AppBook *book, gconstpointer data)
{
  app_book_show (book, "jobs");
  keys (book, "F3F61");
  g_assert_null (hs_app_test_window (HS_TYPE_USUAL_WINDOW));
  g_assert_true (hs_app_test_says_part (hs_app_test_window (HS_TYPE_CALL_SLIP_WINDOW),
                                        "A number or a name makes it a job."));
  assert_latest (book, "none");
}

/* On a phone, and with the longest words of a language: nothing is cut. */
static void
test_fits_a_phone (AppBook *book, gconstpointer data)
{
  GtkWidget *usual;

  gtk_window_set_default_size (GTK_WINDOW (book->window), 360, 700);
  app_book_show (book, "jobs");
  hs_app_test_wait (gtk_widget_get_width (GTK_WIDGET (book->window)) == 360);
  keys (book, "F30111\nF61");
  usual = hs_app_test_window (HS_TYPE_USUAL_WINDOW);
  hs_app_test_frames ();
  g_assert_cmpint (gtk_widget_get_width (usual), <=, 360);
  hs_app_test_picture (usual, "usual-360-yes");
  keys (book, "1");
  hs_app_test_picture (usual, "usual-360-why");
}

#define ADD(name, func) g_test_add (name, AppBook, NULL, app_book_open, func, app_book_close)

int
main (int argc, char *argv[])
{
  hs_app_test_init (&argc, &argv);
  ADD ("/usual/jump-start", test_jump_start);
  ADD ("/usual/spare-wheel", test_spare_wheel);
  ADD ("/usual/left", test_left);
  ADD ("/usual/killed", test_killed);
  ADD ("/usual/back", test_back);
  ADD ("/usual/refused", test_refused);
  ADD ("/usual/not-so", test_not_so);
  ADD ("/usual/not-safe", test_not_safe);
  ADD ("/usual/safe-after-all", test_safe_after_all);
  ADD ("/usual/known-number", test_known_number);
  ADD ("/usual/several-known", test_several_known);
  ADD ("/usual/nobody", test_nobody);
  ADD ("/usual/fits-a-phone", test_fits_a_phone);
  return g_test_run ();
}
