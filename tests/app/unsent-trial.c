// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Many jobs wait to be posted, and the window must not feel it. `unsent-trial JOBS` queues them over a network that is
 * played, lets some be sent, looks at what is not sent yet and lets more be sent meanwhile. It measures the processor
 * time of the window's thread from one turn of the main loop to the next, a frame and all that is answered in it, so
 * that a busy machine does not count; with MOST-MS as well, no turn may take longer. Prints TAP. */

#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "app-book.h"
#include "hs-app-test.h"
#include "bench-book.h"
#include "hs-deed-post.h"
#include "hs-deed-setup.h"
#include "hs-demo.h"
#include "hs-poster.h"
#include "hs-unsent-window.h"

#define N_SENT 100

/* May go out until `let` have. */
static struct
{
  int sent;
  int let;
} far;

static double longest_ms;

static void
send (const HsPostParcel *parcel, GCancellable *cancellable, HsPostReply *ret_reply)
{
  while (g_atomic_int_get (&far.sent) >= g_atomic_int_get (&far.let) && !g_cancellable_is_cancelled (cancellable))
    g_usleep (1000);
  ret_reply->status = 201;
  g_atomic_int_inc (&far.sent);
}

static double
processor_ms (void)
{
  struct timespec at;

  clock_gettime (CLOCK_THREAD_CPUTIME_ID, &at);
  return (double) at.tv_sec * 1e3 + (double) at.tv_nsec / 1e6;
}

/* Turns the main loop until @done, but never for ever; notes the longest turn in longest_ms. */
static gboolean
turn (AppBook *book, gboolean (*done) (AppBook *book))
{
  gint64 end = g_get_monotonic_time () + 300 * G_USEC_PER_SEC;

  longest_ms = 0;
  while (!done (book) && g_get_monotonic_time () < end)
    {
      double before = processor_ms ();
      gboolean moved = g_main_context_iteration (NULL, FALSE);

      longest_ms = MAX (longest_ms, processor_ms () - before);
      if (!moved)
        g_usleep (500);
    }
  return done (book);
}

static guint
n_waiting (AppBook *book)
{
  const HsPostOverview *overview = hs_poster_get_overview (hs_poster_of (book->ledger));

  return overview != NULL ? (guint) overview->sums.waiting : 0;
}

static guint n_jobs;

static gboolean
are_queued (AppBook *book)
{
  return n_waiting (book) == n_jobs;
}

static gboolean
are_sent (AppBook *book)
{
  return g_atomic_int_get (&far.sent) >= g_atomic_int_get (&far.let) && n_waiting (book) + 20 <= n_jobs;
}

static HsUnsentWindow *
unsent (void)
{
  return HS_UNSENT_WINDOW (hs_app_test_window (HS_TYPE_UNSENT_WINDOW));
}

static gboolean
is_shown (AppBook *book)
{
  return unsent () != NULL && gtk_widget_get_width (GTK_WIDGET (unsent ())) > 0
         && hs_app_test_says_part (GTK_WIDGET (unsent ()), n_waiting (book) > 0 ? "are not sent yet" : "Nothing waits");
}

static void
fill (AppBook *book)
{
  HsBookUser user = { "test", "here", 1, hs_demo_get_now () };
  g_autoptr (GError) error = NULL;
  g_autoptr (HsBook) other = hs_book_open (book->path, HS_BOOK_WRITE, &user, &error);

  if (other == NULL || !hs_bench_book_fill (hs_book_get_store (other), n_jobs / 3 + 1, n_jobs, &error))
    g_error ("%s", error->message);
}

static int n_tests;
static gboolean all_good = TRUE;

static void
say (const char *what, gboolean good)
{
  printf ("%sok %d %s, %.1f ms\n", good ? "" : "not ", ++n_tests, what, longest_ms);
  (void) fflush (stdout);
  all_good &= good;
}

static void
run (AppBook *book, double most_ms)
{
  double empty_ms;

  hs_unsent_window_present (book->window, book->ledger);
  say ("nothing waits", turn (book, is_shown));
  empty_ms = longest_ms;
  gtk_window_destroy (GTK_WINDOW (unsent ()));
  hs_deed_set (book->ledger, "post_url", "https://example.org/jobs", NULL, NULL);
  hs_deed_post_switch (book->ledger, TRUE, NULL, NULL);
  hs_deed_post_all (book->ledger, NULL, NULL);
  say ("queued", turn (book, are_queued) && longest_ms <= most_ms);
  far.let = N_SENT;
  say ("sent beside the window", turn (book, are_sent) && longest_ms <= most_ms);
  hs_unsent_window_present (book->window, book->ledger);
  /* A window takes what it takes, however little is in it. */
  say ("looked at", turn (book, is_shown) && longest_ms <= empty_ms + most_ms);
  say ("no more rows than are seen", g_list_model_get_n_items (hs_unsent_window_get_items (unsent ())) == 10);
  far.let += N_SENT;
  say ("followed while they are sent", turn (book, are_sent) && longest_ms <= most_ms);
  say ("still no more rows", g_list_model_get_n_items (hs_unsent_window_get_items (unsent ())) == 10);
  gtk_window_destroy (GTK_WINDOW (unsent ()));
}

int
main (int argc, char **argv)
{
  static const HsPostNet net = { send, NULL };
  AppBook book = { 0 };
  double most_ms;

  hs_app_test_init (&argc, &argv);
  n_jobs = argc > 1 ? (guint) g_ascii_strtoull (argv[1], NULL, 10) : 10000;
  most_ms = argc > 2 ? g_ascii_strtod (argv[2], NULL) : 1e9;
  hs_post_net_install (&net);
  app_book_open_new (&book, NULL);
  fill (&book);
  app_book_show (&book, "jobs");
  app_book_settle (&book);
  run (&book, most_ms);
  printf ("1..%d\n", n_tests);
  app_book_close (&book, NULL);
  return all_good ? 0 : 1;
}
