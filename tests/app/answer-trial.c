// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A message is under way over the real network, to an endpoint that never answers or never comes to an end, and the
 * window answers every key. `answer-trial KEYS` presses digits and takes them back, and looks for each in the figure;
 * it says how long after each key the frame with its answer was painted. With MOST-MS as well, none may take longer:
 * that is the benchmark, for it depends on what else the machine does. Prints TAP. */

#include <stdio.h>
#include <string.h>

#include "app-book.h"
#include "hs-app-test.h"
#include "hs-deed-post.h"
#include "hs-deed-setup.h"
#include "hs-findings.h"
#include "hs-job-page.h"
#include "hs-post-wiring.h"
#include "hs-poster.h"

/* The far end: heard: how many messages have come; drips: their answer comes letter by letter, without end. */
static struct
{
  GSocketListener *listener;
  GCancellable *over;
  GThread *thread;
  guint16 port;
  GSocket *current;
  int heard;
  int drips;
} far;

/* In a thread: until the trial is over or somebody hangs up. */
static void
keep_busy (GSocketConnection *connection)
{
  static const char head[] = "HTTP/1.1 200 OK\r\nX: ";
  GOutputStream *out = g_io_stream_get_output_stream (G_IO_STREAM (connection));
  char buffer[4096];

  g_atomic_pointer_set (&far.current, g_socket_connection_get_socket (connection));
  (void) g_input_stream_read (g_io_stream_get_input_stream (G_IO_STREAM (connection)), buffer, sizeof buffer, far.over,
                              NULL);
  g_atomic_int_inc (&far.heard);
  if (g_atomic_int_get (&far.drips) && g_output_stream_write_all (out, head, strlen (head), NULL, far.over, NULL))
    while (g_output_stream_write_all (out, "a", 1, NULL, far.over, NULL))
      g_usleep (5000);
  else
    while (g_input_stream_read (g_io_stream_get_input_stream (G_IO_STREAM (connection)), buffer, sizeof buffer,
                                far.over, NULL) > 0)
      ;
  g_atomic_pointer_set (&far.current, NULL);
}

static gpointer
serve (gpointer data)
{
  for (;;)
    {
      g_autoptr (GSocketConnection) connection = g_socket_listener_accept (far.listener, NULL, far.over, NULL);

      if (connection == NULL)
        return NULL;
      keep_busy (connection);
    }
}

static void
open_far_end (void)
{
  g_autoptr (GInetAddress) here = g_inet_address_new_loopback (G_SOCKET_FAMILY_IPV4);
  g_autoptr (GSocketAddress) wanted = g_inet_socket_address_new (here, 0);
  g_autoptr (GSocketAddress) bound = NULL;
  g_autoptr (GError) error = NULL;

  far.listener = g_socket_listener_new ();
  far.over = g_cancellable_new ();
  if (!g_socket_listener_add_address (far.listener, wanted, G_SOCKET_TYPE_STREAM, G_SOCKET_PROTOCOL_TCP, NULL, &bound,
                                      &error))
    g_error ("%s", error->message);
  far.port = g_inet_socket_address_get_port (G_INET_SOCKET_ADDRESS (bound));
  far.thread = g_thread_new ("far-end", serve, NULL);
}

static void
after_paint (GdkFrameClock *clock, gpointer data)
{
  *(gboolean *) data = TRUE;
}

/* Presses a key, and says how long it took until the frame with its answer was painted. */
static double
press (AppBook *book, guint keyval)
{
  GdkFrameClock *clock = gtk_widget_get_frame_clock (GTK_WIDGET (book->window));
  gboolean painted = FALSE;
  gulong handler = g_signal_connect (clock, "after-paint", G_CALLBACK (after_paint), &painted);
  gint64 from = g_get_monotonic_time ();

  app_book_press (book, keyval);
  gdk_frame_clock_request_phase (clock, GDK_FRAME_CLOCK_PHASE_PAINT);
  while (!painted)
    g_main_context_iteration (NULL, TRUE);
  g_signal_handler_disconnect (clock, handler);
  return (double) (g_get_monotonic_time () - from) / 1e3;
}

static int n_tests;
static gboolean all_good = TRUE;

static void
say (gboolean good, const char *what)
{
  printf ("%sok %d %s\n", good ? "" : "not ", ++n_tests, what);
  (void) fflush (stdout);
  all_good &= good;
}

/* Digits come and go; each is in the figure at once, and drawn with the next frame. */
static void
press_keys (AppBook *book, HsFindings *findings, guint n_keys, const char *while_what, double most_ms)
{
  g_autofree char *what = NULL;
  g_autofree char *start = g_strdup (hs_findings_get_text (findings));
  guint answered = 0;
  double longest = 0;

  for (guint i = 0; i < n_keys; i++)
    {
      g_autofree char *wanted = g_strconcat (start, i % 2 == 0 ? "1" : NULL, NULL);
      double took = press (book, i % 2 == 0 ? GDK_KEY_1 : GDK_KEY_BackSpace);

      longest = MAX (longest, took);
      answered += g_strcmp0 (hs_findings_get_text (findings), wanted) == 0;
    }
  what = g_strdup_printf ("%s: %u of %u keys answered, the last within %.1f ms", while_what, answered, n_keys, longest);
  say (answered == n_keys && longest <= most_ms, what);
}

static void
settle_on_figure (AppBook *book, HsFindings *findings)
{
  app_book_settle (book);
  hs_findings_go (findings, "battery_rest", NULL);
  hs_findings_focus (findings);
  /* Until it is on the screen a page takes no keys. */
  for (guint i = 0; i < 100 && *hs_findings_get_text (findings) == '\0'; i++)
    {
      press (book, GDK_KEY_1);
      app_book_settle (book);
    }
  for (guint i = 0; i < 100 && *hs_findings_get_text (findings) != '\0'; i++)
    {
      press (book, GDK_KEY_BackSpace);
      app_book_settle (book);
    }
}

static void
post_while_keys_are_pressed (AppBook *book, guint n_keys, double most_ms)
{
  static const char *const ways[] = { "no answer comes", "an answer drips" };
  HsPoster *poster = hs_poster_of (book->ledger);
  HsFindings *findings = hs_job_page_get_findings (HS_JOB_PAGE (app_book_open_job (book, "A-0024", "findings")));
  g_autofree char *url = g_strdup_printf ("http://127.0.0.1:%u/jobs", far.port);

  settle_on_figure (book, findings);
  press_keys (book, findings, n_keys, "nothing is sent", most_ms);
  hs_deed_set (book->ledger, "post_url", url, NULL, NULL);
  hs_deed_post_switch (book->ledger, TRUE, NULL, NULL);
  hs_deed_post_all (book->ledger, NULL, NULL);
  for (guint way = 0; way < G_N_ELEMENTS (ways); way++)
    {
      hs_app_test_wait (g_atomic_int_get (&far.heard) > (int) way);
      press_keys (book, findings, n_keys, ways[way], most_ms);
      say (hs_poster_is_busy (poster), "it is still under way");
      g_atomic_int_set (&far.drips, TRUE);
      g_socket_shutdown (g_atomic_pointer_get (&far.current), TRUE, TRUE, NULL);
      hs_app_test_wait (!hs_poster_is_busy (poster));
      if (way == 0)
        hs_deed_post_retry (book->ledger, NULL, NULL, NULL);
    }
}

int
main (int argc, char **argv)
{
  AppBook book = { 0 };
  guint n_keys = argc > 1 ? (guint) g_ascii_strtoull (argv[1], NULL, 10) : 50;
  double most_ms = argc > 2 ? g_ascii_strtod (argv[2], NULL) : 1e9;

  hs_app_test_init (&argc, &argv);
  hs_post_wiring_install ();
  open_far_end ();
  app_book_open (&book, NULL);
  post_while_keys_are_pressed (&book, n_keys, most_ms);
  printf ("1..%d\n", n_tests);
  hs_poster_stop (hs_poster_of (book.ledger));
  hs_app_test_wait (!hs_poster_is_busy (hs_poster_of (book.ledger)));
  app_book_close (&book, NULL);
  g_cancellable_cancel (far.over);
  g_thread_join (far.thread);
  return all_good ? 0 : 1;
}
