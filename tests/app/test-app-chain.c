// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Why it failed, in a window, by keyboard alone: the chain of a past job as it is drawn and told, a new one from the
 * first cause to its ends, what the rules refuse and in which words, and the questions that are asked again. */

#include <adwaita.h>
#include <libintl.h>
#include <string.h>

#include "app-book.h"
#include "hs-after-pane.h"
#include "hs-app-test.h"
#include "hs-ask.h"
#include "hs-chain-entry.h"
#include "hs-chain-pane.h"
#include "hs-chain-view.h"
#include "hs-deed.h"
#include "hs-deed-arrive.h"
#include "hs-job-page.h"
#include "hs-photo-pane.h"

static HsChainPane *
open_why (AppBook *book, const char *number)
{
  GtkWidget *page = app_book_open_job (book, number, "why");

  return HS_CHAIN_PANE (hs_app_test_find (page, HS_TYPE_CHAIN_PANE));
}

static HsChainView *
view_of (HsChainPane *pane)
{
  return HS_CHAIN_VIEW (hs_app_test_find (GTK_WIDGET (pane), HS_TYPE_CHAIN_VIEW));
}

static void
assert_says (gpointer widget, const char *text)
{
  if (!hs_app_test_says_part (GTK_WIDGET (widget), text))
    g_error ("not shown: %s", text);
}

static const HsChainShot *
why_of (HsChainPane *pane)
{
  return hs_job_pane_get_shot (HS_JOB_PANE (pane))->why;
}

/* What a screen reader says of the chosen row. */
static const char *
spoken (HsChainPane *pane)
{
  return hs_chain_view_get_chosen (view_of (pane))->spoken;
}

static void
assert_chosen (HsChainPane *pane, const char *title)
{
  g_assert_cmpstr (hs_chain_view_get_chosen (view_of (pane))->title, ==, title);
}

static gboolean
is_asking (HsChainPane *pane)
{
  return hs_chain_entry_get_task (HS_CHAIN_ENTRY (hs_app_test_find (GTK_WIDGET (pane), HS_TYPE_CHAIN_ENTRY))) != NULL;
}

/* The arrow keys are bound by the rows themselves. */
static void
arrow (HsChainPane *pane, const char *action, int step)
{
  GtkWidget *focus = gtk_root_get_focus (gtk_widget_get_root (GTK_WIDGET (pane)));

  g_assert_true (step == 0 ? gtk_widget_activate_action (focus, action, NULL)
                           : gtk_widget_activate_action (focus, action, "i", step));
}

static void
moved_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  hs_ledger_task_finish (HS_LEDGER (source), result, NULL, (GError **) data);
}

static void
read_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsReadingResult) reading = NULL;

  hs_ledger_task_finish (HS_LEDGER (source), result, (gpointer *) &reading, (GError **) data);
}

/* (transfer full) (nullable): what the book says against it. */
static char *
move_to (AppBook *book, HsChainPane *pane, HsStage stage)
{
  g_autoptr (GError) error = NULL;

  hs_deed_move_stage (book->ledger, hs_job_pane_get_job_id (HS_JOB_PANE (pane)), stage, NULL, moved_cb, &error);
  app_book_settle (book);
  return error != NULL ? g_strdup (error->message) : NULL;
}

static void
read_check (AppBook *book, HsChainPane *pane, const char *check, const char *text, const char *phase)
{
  HsReadingEntry entry = { .check = check, .text = text, .phase = phase, .at = HS_INSTANT_NONE };
  g_autoptr (GError) error = NULL;

  hs_deed_add_reading (book->ledger, hs_job_pane_get_job_id (HS_JOB_PANE (pane)), &entry, read_cb, &error);
  app_book_settle (book);
  g_assert_no_error (error);
}

/* On an open job with the vehicle at hand. */
static HsChainPane *
open_on_site (AppBook *book)
{
  HsChainPane *pane = open_why (book, "A-0024");
  g_autofree char *refused = move_to (book, pane, HS_STAGE_ON_SITE);
  g_autoptr (GError) error = NULL;

  g_assert_null (refused);
  hs_deed_finish_safety (book->ledger, hs_job_pane_get_job_id (HS_JOB_PANE (pane)), HS_SAFETY_SAFE, NULL, read_cb,
                         &error);
  app_book_settle (book);
  g_assert_no_error (error);
  return pane;
}

/* Story 11, first part: five links in at most six sentences, three ends; one focusable row a node. */
static void
test_past_job (AppBook *book, gconstpointer data)
{
  HsChainPane *pane = open_why (book, "A-0013");
  const HsChain *chain = why_of (pane)->chain->chain;
  guint n_links = 0;

  for (guint i = 0; i < hs_chain_get_n_links (chain); i++)
    n_links += hs_chain_find (chain, hs_chain_get_link (chain, i)->cause_id)->role != HS_CHAIN_RULED_OUT;
  g_assert_cmpuint (n_links, ==, 5);
  g_assert_cmpuint (why_of (pane)->chain->sentences->len, <=, 6);
  g_assert_cmpuint (hs_chain_view_get_n_rows (view_of (pane)), ==, 7);
  assert_says (pane, "3 ends, all settled");
  assert_says (pane, "6 sentences, made from the chain");
  assert_says (pane, "this is not proven");
  hs_app_test_picture (GTK_WIDGET (book->window), "chain-a13");

  /* A squared job takes nothing. */
  app_book_type (book, "7");
  assert_says (book->window, "squared");
  g_assert_true (gtk_widget_activate_action (gtk_root_get_focus (GTK_ROOT (book->window)), "row.end", "b", TRUE));
  app_book_type (book, "7");
  hs_app_test_picture (GTK_WIDGET (book->window), "chain-squared");
  assert_says (book->window, "squared");
  assert_says (pane, "3 ends, all settled");
}

/* Down, up, into the first cause, back to the effect, to both ends; each row says all of itself. */
static void
test_arrows (AppBook *book, gconstpointer data)
{
  HsChainPane *pane = open_why (book, "A-0013");

  assert_chosen (pane, "“battery lamp, slow crank”");
  g_assert_cmpstr (spoken (pane), ==, "“battery lamp, slow crank”; level 1; caused by “battery at 9 % of charge”");
  arrow (pane, "row.step", 1);
  g_assert_cmpstr (spoken (pane), ==,
                   "battery at 9 % of charge; number 1; level 2; led to “battery lamp, slow crank”; proof: Read, "
                   "11.95 V at rest; caused by “charging far below what the alternator can do”");
  arrow (pane, "row.cause", 0);
  assert_chosen (pane, "charging far below what the alternator can do");
  arrow (pane, "row.step", 1);
  g_assert_cmpstr (spoken (pane), ==,
                   "Ruled out: alternator; level 4; is not the cause of “charging far below what the alternator can "
                   "do”; proof: Read, full output with a dry belt, 88 of 90 A");
  arrow (pane, "row.effect", 0);
  assert_chosen (pane, "charging far below what the alternator can do");
  arrow (pane, "row.cause", 0);
  assert_chosen (pane, "drive belt glazed and wet");
  g_assert_nonnull (strstr (spoken (pane), "; Cured today: drive belt installed"));
  g_assert_true (gtk_widget_activate_action (gtk_root_get_focus (GTK_ROOT (book->window)), "row.end", "b", TRUE));
  g_assert_cmpstr (spoken (pane), ==,
                   "topped up with plain water for months; number 5; level 6; led to “water pump seal weeping onto "
                   "drive belt”; proof: Said, Bram Hark, not proven; not proven; Outside, told: 09:10");
  arrow (pane, "row.step", -1);
  assert_chosen (pane, "water pump seal weeping onto drive belt");
  arrow (pane, "row.effect", 0);
  assert_chosen (pane, "drive belt glazed and wet");
}

/* A cause in words with what was seen; a usual reason by digit with a reading by digit; somebody's words. */
static void
test_tells (AppBook *book, gconstpointer data)
{
  HsChainPane *pane = open_on_site (book);

  read_check (book, pane, "sleeping_draw", "0.31", "before");
  assert_chosen (pane, "“flat every week”");
  assert_says (pane, "No ends yet");
  app_book_type (book, "\n");
  assert_says (pane, "What is behind “flat every week”?");
  hs_app_test_picture (GTK_WIDGET (book->window), "chain-entry");
  app_book_type (book, "battery empty\n");
  assert_says (pane, "What shows it?");
  app_book_type (book, "3");
  assert_says (pane, "What was seen?");
  app_book_type (book, "no lamp glows\n");
  g_assert_false (is_asking (pane));
  assert_chosen (pane, "battery empty");
  assert_says (pane, "1 end, 1 open");
  assert_says (pane, "“battery empty”");

  app_book_type (book, "\ndraw while parked\n1");
  assert_says (pane, "Which reading?");
  assert_says (pane, "Sleeping draw 0.310 A");
  app_book_type (book, "1");
  assert_chosen (pane, "draw while parked");
  g_assert_nonnull (strstr (spoken (pane), "proof: Read, Sleeping draw 0.310 A"));

  app_book_type (book, "\nplug-in tracker, since the fall\n4");
  assert_says (pane, "What was said?");
  app_book_type (book, "\n");
  assert_says (pane, "Who said it?");
  app_book_type (book, "\n");
  g_assert_cmpstr (spoken (pane), ==,
                   "plug-in tracker, since the fall; number 3; level 4; led to “draw while parked”; proof: Said, "
                   "Wilhelmina Sorrel, not proven; not proven; Open end: not settled yet");
  assert_says (pane, "Wilhelmina Sorrel says: “plug-in tracker, since the fall”; this is not proven.");
  hs_app_test_picture (GTK_WIDGET (book->window), "chain-told");

  /* Said does not become proven. */
  app_book_type (book, "+");
  assert_says (book->window, "It is proven once a reading or a photo shows it");
  g_assert_nonnull (strstr (spoken (pane), "; not proven"));
}

/* Story 11, second part: an empty proof is refused where it is asked, in the rule's own words, and typing goes on. */
static void
test_empty_proof (AppBook *book, gconstpointer data)
{
  HsChainPane *pane = open_on_site (book);

  app_book_type (book, "\nbattery worn\n3\n");
  assert_says (pane, "flat every week ← battery worn needs a proof: a reading, a photo, what you saw, or what was "
                     "said.");
  g_assert_true (is_asking (pane));
  hs_app_test_picture (GTK_WIDGET (book->window), "chain-refused");
  g_assert_cmpuint (hs_chain_get_n_findings (why_of (pane)->chain->chain), ==, 0);
  app_book_type (book, "44 % of rating\n");
  assert_chosen (pane, "battery worn");
  /* No reading, no photo: said at once. */
  app_book_type (book, "\nnever charged full\n1");
  assert_says (pane, "There is no reading on this job yet.");
  app_book_type (book, "2");
  assert_says (pane, "There is no photo on this job yet.");
  app_book_type (book, "-");
  assert_says (pane, "What is behind “battery worn”?");
  app_book_press (book, GDK_KEY_Escape);
  g_assert_false (is_asking (pane));
  assert_chosen (pane, "battery worn");
  /* Nothing is a cause. */
  app_book_type (book, "\n\n");
  assert_says (pane, "A finding needs words");
}

/* The page says of what is still to do what "Before and after" says of it: as many things, in the same sentences. */
static void
assert_left (AppBook *book, HsChainPane *pane)
{
  const HsRepair *repair = hs_job_pane_get_shot (HS_JOB_PANE (pane))->repair->repair;
  HsJobPage *page = HS_JOB_PAGE (hs_window_get_job (book->window));
  static const HsTongue tongue = { gettext, ngettext };
  GtkWidget *after;

  g_assert_cmpuint (repair->missing->len, ==, 3);
  assert_says (pane, "3 things still to do before Tested good");
  assert_says (pane, "Try the complaint again, five times or more. Say what was done: “battery worn”");
  assert_says (pane, "Say whether it is safe to drive");
  hs_app_test_picture (GTK_WIDGET (book->window), "chain-still-to-do");
  hs_job_page_go (page, "after", NULL, NULL);
  app_book_settle (book);
  after = hs_app_test_find (GTK_WIDGET (page), HS_TYPE_AFTER_PANE);
  assert_says (after, "Still to do before it is tested good");
  g_assert_true (hs_app_test_says (after, "3"));
  for (guint i = 0; i < repair->missing->len; i++)
    {
      g_autofree char *said = hs_prove_say (g_ptr_array_index (repair->missing, i), &tongue);

      assert_says (after, said);
    }
  hs_job_page_go (page, "why", NULL, NULL);
  app_book_settle (book);
}

/* What is usual stands as the next check ranks it, with what speaks for it. */
static void
test_ranked (AppBook *book, gconstpointer data)
{
  HsChainPane *pane = open_on_site (book);
  const HsChainOffer *first;
  GtkWidget *entry;

  hs_deed_set_group (book->ledger, hs_job_pane_get_job_id (HS_JOB_PANE (pane)), "drains", NULL, NULL);
  read_check (book, pane, "sleeping_draw", "0.310", "before");
  first = g_ptr_array_index (why_of (pane)->offers->reasons, 0);
  g_assert_nonnull (strstr (first->note, "for: Sleeping draw 0.310 A"));
  app_book_type (book, "\n");
  entry = hs_app_test_find (GTK_WIDGET (pane), HS_TYPE_CHAIN_ENTRY);
  assert_says (entry, first->words);
  g_assert_true (hs_app_test_says (entry, first->note));
  hs_app_test_picture (GTK_WIDGET (book->window), "chain-ranked");
  gtk_window_set_default_size (GTK_WINDOW (book->window), 360, 700);
  hs_app_test_wait (hs_window_get_narrow (book->window));
  app_book_settle (book);
  hs_app_test_frames ();
  hs_app_test_picture (GTK_WIDGET (book->window), "chain-ranked-360");
}

/* Story 11, third part: two broken parts, one end cured: tested good is refused until the other is settled. */
static void
test_two_ends (AppBook *book, gconstpointer data)
{
  HsChainPane *pane = open_on_site (book);
  g_autofree char *refused = NULL, *accepted = NULL;

  read_check (book, pane, "battery_rest", "12.66", "after");
  app_book_type (book, "\nbattery worn\n3it is swollen\n");
  arrow (pane, "row.effect", 0);
  app_book_type (book, "3relay sticks\nit stays warm\n");
  assert_says (pane, "2 ends, 2 open");
  assert_says (pane, "not yet Tested good");
  arrow (pane, "row.step", -1);
  assert_chosen (pane, "battery worn");
  app_book_type (book, "7");
  assert_says (pane, "2 ends, 1 open");
  /* A reading shows it; no part, no line and no look says what was done. */
  g_assert_nonnull (strstr (spoken (pane), "not written down what"));
  refused = move_to (book, pane, HS_STAGE_PROVEN);
  g_assert_nonnull (refused);
  g_assert_nonnull (strstr (refused, "Why it failed is still open at “relay sticks”."));
  assert_says (pane, "“relay sticks”");
  hs_app_test_picture (GTK_WIDGET (book->window), "chain-two-ends");
  arrow (pane, "row.step", 1);
  app_book_type (book, "8");
  assert_says (pane, "2 ends, all settled");
  assert_left (book, pane);
  accepted = move_to (book, pane, HS_STAGE_PROVEN);
  g_assert_null (accepted);
  assert_says (pane, "Tested good");
}

/* All four ends, the same key again opens; the complaint with causes has none; what is ruled out is none. */
static void
test_ends (AppBook *book, gconstpointer data)
{
  static const struct
  {
    const char *key;
    const char *says;
  } rows[] = {
    { "7", "Cured today" }, { "8", "Customer’s choice" }, { "9", "Outside, told" }, { "0", "Not known, told" },
  };
  HsChainPane *pane = open_on_site (book);

  app_book_type (book, "7");
  assert_says (book->window, "Say first what is behind it");
  app_book_type (book, "\nbattery worn\n3it is swollen\n");
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      app_book_type (book, rows[i].key);
      assert_says (pane, "1 end, all settled");
      assert_says (pane, rows[i].says);
      g_assert_nonnull (strstr (spoken (pane), rows[i].says));
    }
  app_book_type (book, "0");
  assert_says (pane, "1 end, 1 open");
  arrow (pane, "row.effect", 0);
  app_book_type (book, "8");
  assert_says (book->window, "has causes: settle the chain at those");
}

/* What was ruled out hangs on its effect with its proof, and is told; words alone rule nothing out. */
static void
test_rules_out (AppBook *book, gconstpointer data)
{
  HsChainPane *pane = open_on_site (book);

  app_book_type (book, "/");
  assert_says (pane, "What is ruled out as the cause of “flat every week”?");
  app_book_type (book, "alternator\n4he says it is new\n");
  assert_says (pane, "Words alone rule nothing out: “alternator” needs a reading, a photo or your own eyes.");
  app_book_press (book, GDK_KEY_Escape);
  app_book_type (book, "/alternator\n3charges 14.2 V\n");
  assert_chosen (pane, "Ruled out: alternator");
  assert_says (pane, "Ruled out: alternator (seen: charges 14.2 V).");
  app_book_type (book, "7");
  assert_says (book->window, "is ruled out, so the chain does not end there");
}

/* Delete and minus take a link back with its cause; F10 brings both again. */
static void
test_takes_back (AppBook *book, gconstpointer data)
{
  HsChainPane *pane = open_on_site (book);

  app_book_type (book, "\nbattery worn\n3it is swollen\n\nnever charged full\n3it says 12.9 V\n");
  g_assert_cmpuint (hs_chain_view_get_n_rows (view_of (pane)), ==, 3);
  app_book_press (book, GDK_KEY_Delete);
  app_book_settle (book);
  g_assert_cmpuint (hs_chain_view_get_n_rows (view_of (pane)), ==, 2);
  assert_chosen (pane, "battery worn");
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (book->window), "win.undo", NULL));
  app_book_settle (book);
  assert_says (book->window, "Taken back on A-0024: taken back: never charged full");
  g_assert_cmpuint (hs_chain_view_get_n_rows (view_of (pane)), ==, 3);
  app_book_type (book, "-");
  /* Not the focus, but what is chosen: it is the effect whose row has the keyboard. */
  g_assert_cmpuint (hs_chain_view_get_n_rows (view_of (pane)), ==, 3);
  g_assert_nonnull (strstr (spoken (pane), "battery worn"));
}

/* A ring is refused, by name. */
static void
test_ring (AppBook *book, gconstpointer data)
{
  HsChainPane *pane = open_on_site (book);

  app_book_type (book, "\nbattery worn\n3it is swollen\n\nnever charged full\n3it says 12.9 V\n\n");
  /* Offered: the cause above, which this one explains. */
  assert_says (pane, "battery worn");
  app_book_type (book, "13it is\n");
  assert_says (pane, "leads back to itself");
}

/* One cause of two effects stands once; where it is named again, the row leads to it. */
static void
test_two_effects (AppBook *book, gconstpointer data)
{
  HsChainPane *pane = open_on_site (book);

  app_book_type (book, "\nbattery worn\n3it is swollen\n");
  arrow (pane, "row.effect", 0);
  app_book_type (book, "\nclock loses time\n3it is an hour off\n\n");
  app_book_type (book, "13both at once\n");
  g_assert_cmpuint (hs_chain_view_get_n_rows (view_of (pane)), ==, 4);
  hs_app_test_picture (GTK_WIDGET (book->window), "chain-branches");
  assert_says (pane, "1 end, 1 open");
}

/* The answer, by whom, and what the arithmetic makes of it: 60 Ah × 0.4 at 0.31 A are 3.2 days. */
static void
test_asks_again (AppBook *book, gconstpointer data)
{
  HsChainPane *pane = open_on_site (book);

  assert_says (pane, "“Parked how long?”");
  app_book_type (book, "*");
  app_book_type (book, "\n");
  assert_says (pane, "An answer needs words");
  app_book_type (book, "7\n");
  assert_says (pane, "Who said it?");
  app_book_type (book, "\n");
  g_assert_false (is_asking (pane));
  assert_says (pane, "Said “7 days” Wilhelmina Sorrel");
  assert_says (pane, "can't tell");
  read_check (book, pane, "sleeping_draw", "0.31", "before");
  assert_says (pane, "fits");
  assert_says (pane, "3.2 days");
  hs_app_test_picture (GTK_WIDGET (book->window), "chain-asked");
  assert_says (pane, "“Has anyone tried to start it or charge it, with what?”");
  /* An answer is no finding. */
  g_assert_cmpuint (hs_chain_get_n_findings (why_of (pane)->chain->chain), ==, 0);
}

/* A time that does not fit is said so, and stays what was said. */
static void
test_does_not_fit (AppBook *book, gconstpointer data)
{
  HsChainPane *pane = open_on_site (book);

  read_check (book, pane, "sleeping_draw", "0.024", "before");
  app_book_type (book, "*overnight\n\n");
  assert_says (pane, "does not fit");
  assert_says (pane, "“overnight”");
}

/* Quicker than the book: keys wait for the chain that they are about, and none is lost. */
static void
test_quick (AppBook *book, gconstpointer data)
{
  HsChainPane *pane = open_on_site (book);

  for (const char *at = "\nbattery worn\n3swollen\n\nheat\n3by the exhaust\n7"; *at != '\0'; at++)
    app_book_press (book, *at == '\n' ? GDK_KEY_Return : gdk_unicode_to_keyval ((guint32) *at));
  app_book_settle (book);
  g_assert_cmpuint (hs_chain_view_get_n_rows (view_of (pane)), ==, 3);
  g_assert_cmpstr (spoken (pane), ==, "heat; number 2; level 3; led to “battery worn”; proof: Seen, by the exhaust; "
                                      "Cured today: nothing done yet");
  g_assert_false (is_asking (pane));
}

/* Something else is written while a digit is asked for: the digit still arrives. */
static void
test_meanwhile (AppBook *book, gconstpointer data)
{
  HsChainPane *pane = open_on_site (book);

  app_book_type (book, "\nbattery worn\n");
  read_check (book, pane, "sleeping_draw", "0.31", "before");
  app_book_type (book, "1");
  assert_says (pane, "Sleeping draw 0.310 A");
}

/* A proof by eye that makes nothing sure says so. */
static void
test_sure (AppBook *book, gconstpointer data)
{
  HsChainPane *pane = open_on_site (book);

  app_book_type (book, "\nbattery worn\n3swollen\n");
  g_assert_null (strstr (spoken (pane), "not proven"));
  app_book_type (book, "+");
  g_assert_nonnull (strstr (spoken (pane), "proof: Seen, swollen · not known; not proven"));
  app_book_type (book, "+");
  g_assert_nonnull (strstr (spoken (pane), "proof: Seen, swollen · suspected; not proven"));
  app_book_type (book, "+");
  g_assert_null (strstr (spoken (pane), "not proven"));
}

/* Plus turns to another question, also to one that is answered. */
static void
test_turns_questions (AppBook *book, gconstpointer data)
{
  HsChainPane *pane = open_on_site (book);

  app_book_type (book, "*");
  assert_says (pane, "“Parked how long?”");
  assert_says (pane, "Over 10 days: self-discharge");
  app_book_type (book, "+");
  assert_says (pane, "“Has anyone tried to start it or charge it, with what?”");
  app_book_type (book, "a neighbor\n\n*");
  assert_says (pane, "“Parked how long?”");
  app_book_type (book, "+");
  assert_says (pane, "“Has anyone tried to start it or charge it, with what?”");
  app_book_type (book, "nobody\n\n");
  assert_says (pane, "Said “nobody” Wilhelmina Sorrel");
}

/* A photo of the job proves, by two digits, and says what it is called. */
static void
test_photo (AppBook *book, gconstpointer data)
{
  HsChainPane *pane = open_on_site (book);
  GtkWidget *photos = hs_app_test_find (hs_window_get_job (book->window), HS_TYPE_PHOTO_PANE);
  g_autoptr (GdkPixbuf) pixbuf = gdk_pixbuf_new (GDK_COLORSPACE_RGB, FALSE, 8, 64, 48);
  g_autofree char *path = g_build_filename (book->folder, "clamp.jpg", NULL);
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_autoptr (GListStore) files = g_list_store_new (G_TYPE_FILE);

  gdk_pixbuf_fill (pixbuf, 0x20a040ff);
  g_assert_true (gdk_pixbuf_save (pixbuf, path, "jpeg", NULL, NULL));
  g_list_store_append (files, file);
  hs_photo_pane_add (HS_PHOTO_PANE (photos), G_LIST_MODEL (files));
  hs_app_test_wait (why_of (pane)->offers->photos->len == 1);
  app_book_settle (book);
  app_book_type (book, "2clamp loose\n");
  assert_says (pane, "Which photo?");
  app_book_type (book, "1");
  g_assert_cmpstr (spoken (pane), ==, "clamp loose; number 1; level 2; led to “flat every week”; proof: Photo, "
                                      "clamp.jpg; Open end: not settled yet");
}

/* F9 turns from the readings to the chain and has the keyboard on it: Enter adds a because at once. */
static void
test_turns (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0024", "findings");
  HsChainPane *pane = HS_CHAIN_PANE (hs_app_test_find (page, HS_TYPE_CHAIN_PANE));

  for (guint i = 0; i < 2; i++)
    {
      g_assert_true (gtk_widget_activate_action (page, "page.side", NULL));
      app_book_settle (book);
      app_book_type (book, "\n");
      assert_says (pane, "What is behind “flat every week”?");
      app_book_press (book, GDK_KEY_Escape);
      /* The photos, and the readings again. */
      g_assert_true (gtk_widget_activate_action (page, "page.side", NULL));
      app_book_settle (book);
      g_assert_false (gtk_widget_get_mapped (GTK_WIDGET (pane)));
      g_assert_true (gtk_widget_activate_action (page, "page.side", NULL));
      app_book_settle (book);
    }
}

/* What was being told when the program was killed goes on where it was. */
static void
test_goes_on (AppBook *book, gconstpointer data)
{
  HsChainPane *pane = open_on_site (book);
  gint64 until = g_get_monotonic_time () + G_USEC_PER_SEC;

  app_book_type (book, "\nbattery worn\n3swollen at the si");
  while (g_get_monotonic_time () < until)
    g_main_context_iteration (NULL, FALSE);
  app_book_settle (book);
  app_book_close_window (book);
  app_book_open_window (book);
  hs_app_test_wait (hs_window_get_job (book->window) != NULL
                    && hs_job_page_is_ready (HS_JOB_PAGE (hs_window_get_job (book->window))));
  app_book_settle (book);
  pane = HS_CHAIN_PANE (hs_app_test_find (hs_window_get_job (book->window), HS_TYPE_CHAIN_PANE));
  g_assert_true (is_asking (pane));
  assert_says (pane, "“battery worn” is behind “flat every week”");
  gtk_editable_set_position (GTK_EDITABLE (gtk_root_get_focus (GTK_ROOT (book->window))), -1);
  app_book_type (book, "de\n");
  assert_says (pane, "(seen: swollen at the side)");
  /* And it is not offered again. */
  app_book_close_window (book);
  app_book_open_window (book);
  g_assert_true (hs_window_get_job (book->window) == NULL
                 || g_strcmp0 (hs_job_page_get_number (HS_JOB_PAGE (hs_window_get_job (book->window))), "A-0024") != 0);
}

/* On a phone and with twice the text: as wide as the window, whatever is asked. */
static void
test_fits (AppBook *book, gconstpointer data)
{
  static const struct
  {
    const char *name;
    int width, height, dpi;
    gboolean dark;
  } rows[] = {
    { "chain-360", 360, 700, 96, FALSE },     { "chain-360-200", 360, 700, 192, FALSE },
    { "chain-1024", 1024, 600, 96, FALSE },   { "chain-1280-200", 1280, 800, 192, FALSE },
    { "chain-dark", 1280, 800, 96, TRUE },
  };
  static const char *const steps[] = { "", "\n", "battery worn\n", "3" };
  GtkSettings *settings = gtk_settings_get_default ();

  open_why (book, "A-0013");
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_object_set (settings, "gtk-xft-dpi", rows[i].dpi * 1024, NULL);
      adw_style_manager_set_color_scheme (adw_style_manager_get_default (), rows[i].dark
                                            ? ADW_COLOR_SCHEME_FORCE_DARK : ADW_COLOR_SCHEME_FORCE_LIGHT);
      gtk_window_set_default_size (GTK_WINDOW (book->window), rows[i].width, rows[i].height);
      hs_app_test_frames ();
      for (gsize k = 0; k < G_N_ELEMENTS (steps); k++)
        {
          g_autofree char *name = g_strdup_printf ("%s-%d", rows[i].name, (int) k);
          int least;

          app_book_type (book, steps[k]);
          gtk_widget_measure (hs_window_get_job (book->window), GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL,
                              NULL);
          g_test_message ("%s: %d px", name, least);
          if (least > rows[i].width)
            g_test_fail ();
          hs_app_test_picture (GTK_WIDGET (book->window), name);
        }
      app_book_press (book, GDK_KEY_Escape);
    }
  g_object_set (settings, "gtk-xft-dpi", 96 * 1024, NULL);
  adw_style_manager_set_color_scheme (adw_style_manager_get_default (), ADW_COLOR_SCHEME_DEFAULT);
}

#define ADD(name, func) g_test_add (name, AppBook, NULL, app_book_open, func, app_book_close)

int
main (int argc, char *argv[])
{
  hs_app_test_init (&argc, &argv);
  ADD ("/chain/past-job", test_past_job);
  ADD ("/chain/arrows", test_arrows);
  ADD ("/chain/tells", test_tells);
  ADD ("/chain/empty-proof", test_empty_proof);
  ADD ("/chain/ranked", test_ranked);
  ADD ("/chain/two-ends", test_two_ends);
  ADD ("/chain/ends", test_ends);
  ADD ("/chain/rules-out", test_rules_out);
  ADD ("/chain/takes-back", test_takes_back);
  ADD ("/chain/ring", test_ring);
  ADD ("/chain/two-effects", test_two_effects);
  ADD ("/chain/asks-again", test_asks_again);
  ADD ("/chain/does-not-fit", test_does_not_fit);
  ADD ("/chain/quick", test_quick);
  ADD ("/chain/meanwhile", test_meanwhile);
  ADD ("/chain/sure", test_sure);
  ADD ("/chain/turns-questions", test_turns_questions);
  ADD ("/chain/photo", test_photo);
  ADD ("/chain/turns", test_turns);
  ADD ("/chain/goes-on", test_goes_on);
  ADD ("/chain/fits", test_fits);
  return g_test_run ();
}
