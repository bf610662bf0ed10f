// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A queue that goes on whatever happens to it, against an endpoint that is played: the program ends, a message is too
 * much, nothing answers for long, the clock is wrong, the job is mended or gone, a backup is put back. */

#include "ops-post.h"

#include <string.h>

static gboolean
stop_with_the_first (gpointer data)
{
  return ((Wire *) data)->seen->len >= 1;
}

/* The program ends while a message is under way, which breaks off: nobody is blamed, nothing waits, and the next
 * program sends the same at once. An answer that came all the same counts. */
static void
test_broken_off (void)
{
  g_autoptr (Wire) wire = wire_open ();
  g_autoptr (HsPostOverview) overview = NULL;
  HsPostReport report;

  wire_queue (wire, "A-0004");
  wire->works.stop = stop_with_the_first;
  wire_answers (wire, HS_POST_UNREACHABLE, 0, NULL, "canceled");
  report = wire_run (wire, 100);
  g_assert_cmpuint (report.failed, ==, 0);
  overview = wire_look (wire);
  g_assert_true (overview->hold_until == HS_INSTANT_NONE);
  g_assert_null (((HsPostUnsent *) g_ptr_array_index (overview->unsent, 0))->why);
  wire->works.stop = NULL;
  g_assert_cmpuint (wire_run (wire, 100).sent, ==, 1);
  g_assert_cmpstr (wire_saw (wire, 0)->key, ==, wire_saw (wire, 1)->key);
  wire_queue (wire, "A-0005");
  wire->works.stop = stop_with_the_first;
  g_ptr_array_set_size (wire->seen, 0);
  g_assert_cmpuint (wire_run (wire, 100).sent, ==, 1);
}

static void
queue_many (Wire *wire, guint n)
{
  for (guint i = 1; i <= n; i++)
    {
      g_autofree char *number = g_strdup_printf ("A-%04u", i);

      wire_queue (wire, number);
    }
}

static gboolean
is_about (const HsPostParcel *parcel, const char *number)
{
  g_autofree char *member = g_strdup_printf ("\"number\":\"%s\"", number);

  return strstr (parcel->body, member) != NULL;
}

/* The first message is too much for the endpoint, which never answers it: the others go on past it, and it is tried by
 * itself. */
static void
test_too_much (void)
{
  static const struct
  {
    HsPostEnd end;
    int status;
  } ways[] = { { HS_POST_ANSWERED, 502 }, { HS_POST_ANSWERED, 504 }, { HS_POST_TIMED_OUT, 0 },
               { HS_POST_UNREACHABLE, 0 }, { HS_POST_BAD_REPLY, 0 } };

  for (guint way = 0; way < G_N_ELEMENTS (ways); way++)
    {
      g_autoptr (Wire) wire = wire_open ();
      g_autoptr (HsPostOverview) overview = NULL;
      HsPostReport report;

      queue_many (wire, 5);
      for (guint i = 0; i < 4; i++)
        {
          HsInstant from = wire->now;

          wire_answers (wire, ways[way].end, ways[way].status, NULL, NULL);
          report = wire_run (wire, 100);
          g_assert_cmpuint (report.failed, ==, 1);
          g_assert_cmpuint (report.sent, ==, i < 3 ? 0 : 4);
          g_assert_true (is_about (wire_saw (wire, i), "A-0001"));
          /* By itself it waits like any other: after four tries for an hour. */
          if (i == 3)
            g_assert_cmpint (report.next_at, ==, from + 1 + 3600);
          wire->now = report.next_at;
        }
      overview = wire_look (wire);
      g_assert_cmpint (overview->sums.waiting, ==, 1);
      g_assert_true (overview->hold_until == HS_INSTANT_NONE);
      g_assert_cmpuint (wire_run (wire, 100).sent, ==, 1);
    }
}

/* Two such at once hold the others up for some tries, not for ever. */
static void
test_two_too_much (void)
{
  g_autoptr (Wire) wire = wire_open ();
  HsPostReport report = { 0 };

  queue_many (wire, 5);
  for (guint i = 0; i < 7; i++)
    {
      for (guint fault = 0; fault < (i < 3 ? 1 : 2); fault++)
        wire_answers (wire, HS_POST_TIMED_OUT, 0, NULL, NULL);
      report = wire_run (wire, 100);
      g_assert_cmpuint (report.sent, ==, i < 6 ? 0 : 3);
      wire->now = report.next_at;
    }
  g_assert_cmpuint (wire_run (wire, 100).sent, ==, 2);
}

/* The first of two waits longest, the second shortest. */
static double
draw_apart (gpointer data)
{
  return ((Wire *) data)->seen->len % 2;
}

/* A long time without a network: a second message is tried, and at last a third, no more; then all go out in their
 * order, however long each would have waited by itself. */
static void
test_long_silence (void)
{
  g_autoptr (Wire) wire = wire_open ();
  HsPostReport report;

  queue_many (wire, 6);
  wire->works.draw = draw_apart;
  for (guint i = 0; i < 12; i++)
    {
      guint before = wire->seen->len;

      /* Three were sent to one by one; from then on the first of each two waits longest. */
      if (i == 3)
        g_ptr_array_set_size (wire->seen, before = 0);
      for (guint fault = 0; fault < 3; fault++)
        wire_answers (wire, HS_POST_UNREACHABLE, 0, NULL, NULL);
      report = wire_run (wire, 100);
      g_assert_cmpuint (report.sent, ==, 0);
      g_assert_cmpuint (wire->seen->len - before, ==, i < 3 ? 1 : i < 6 ? 2 : 3);
      g_assert_true (is_about (wire_saw (wire, before), "A-0001"));
      g_queue_clear_full (wire->script, g_free);
      wire->now = report.next_at;
    }
  report = wire_run (wire, 100);
  g_assert_cmpuint (report.sent, ==, 6);
  for (guint i = 0; i < 6; i++)
    {
      g_autofree char *number = g_strdup_printf ("A-%04u", i + 1);

      g_assert_true (is_about (wire_saw (wire, wire->seen->len - 6 + i), number));
    }
}

/* The clock was years ahead when all were held; once it is right, nothing waits for years. Then waits hold again. */
static void
test_clock_back (void)
{
  g_autoptr (Wire) wire = wire_open ();
  g_autoptr (HsPostOverview) overview = NULL;
  HsPostReport report;

  queue_many (wire, 3);
  wire->now = START + 4 * 366 * 86400;
  wire_answers (wire, HS_POST_ANSWERED, 500, NULL, NULL);
  wire_answers (wire, HS_POST_ANSWERED, 503, "7200", NULL);
  report = wire_run (wire, 100);
  g_assert_cmpuint (report.failed, ==, 2);
  /* By a little it goes back all the time. */
  wire->now -= 200;
  g_assert_cmpuint (wire_run (wire, 100).failed + wire_run (wire, 100).sent, ==, 0);
  wire->now = START + 600;
  wire_answers (wire, HS_POST_ANSWERED, 503, NULL, NULL);
  report = wire_run (wire, 100);
  g_assert_cmpuint (report.failed, ==, 1);
  g_assert_cmpint (report.next_at, >, wire->now);
  g_assert_cmpint (report.next_at, <=, wire->now + 3600);
  for (guint i = 0; i < 5; i++)
    g_assert_cmpuint (wire_run (wire, 100).failed, ==, 0);
  wire->now = report.next_at;
  g_assert_cmpuint (wire_run (wire, 100).sent, ==, 3);
  overview = wire_look (wire);
  g_assert_cmpint (overview->sums.waiting, ==, 0);
}

/* Ahead by years, nothing happens before its time, and what was queued then is sent all the same. */
static void
test_clock_ahead (void)
{
  g_autoptr (Wire) wire = wire_open ();

  wire->now = START + 4 * 366 * 86400;
  wire_queue (wire, "A-0004");
  wire->now = START;
  g_assert_cmpuint (wire_run (wire, 100).sent, ==, 1);
  wire_queue (wire, "A-0004");
  g_assert_cmpuint (wire_run (wire, 100).sent, ==, 1);
  g_assert_cmpint (wire_saw (wire, 1)->revision, >, wire_saw (wire, 0)->revision);
}

/* What was wrong with the job is mended, without a new stage: tried again, the endpoint gets the job as it is now,
 * under a key and a revision of its own. */
static void
test_mended (void)
{
  static const int refusals[] = { 400, 409, 412, 422 };
  g_autoptr (Wire) wire = wire_open ();

  for (guint i = 0; i < G_N_ELEMENTS (refusals); i++)
    {
      g_autofree char *sql = g_strdup_printf ("UPDATE job SET words = 'hums at %d' WHERE number = 'A-0021'",
                                              refusals[i]);
      g_autofree char *member = g_strdup_printf ("\"words\":\"hums at %d\"", refusals[i]);
      g_autoptr (GError) error = NULL;
      const HsPostParcel *before;
      const HsPostParcel *after;

      g_ptr_array_set_size (wire->seen, 0);
      wire_queue (wire, "A-0021");
      wire_answers (wire, HS_POST_ANSWERED, refusals[i], NULL, NULL);
      g_assert_cmpuint (wire_run (wire, 100).failed, ==, 1);
      hs_ops_test_run (wire->test, sql);
      g_assert_true (hs_post_retry (wire->book, NULL, wire->now, &error));
      g_assert_cmpuint (wire_run (wire, 100).sent, ==, 1);
      before = wire_saw (wire, 0);
      after = wire_saw (wire, 1);
      g_assert_null (strstr (before->body, member));
      g_assert_nonnull (strstr (after->body, member));
      g_assert_cmpstr (before->key, !=, after->key);
      g_assert_cmpint (after->revision, >, before->revision);
      hs_ops_test_one (wire->test, "outbox WHERE state = 'sent' AND sent_revision = revision");
    }
}

static void
be_gone (gpointer data)
{
  Wire *wire = data;

  hs_ops_test_run (wire->test, "DELETE FROM outbox");
}

/* The job is gone while its message is under way, as when a call is taken back: nothing is left, nothing goes wrong. */
static void
test_gone_under_way (void)
{
  static const int statuses[] = { 201, 422, 500, 503 };

  for (guint i = 0; i < G_N_ELEMENTS (statuses); i++)
    {
      g_autoptr (Wire) wire = wire_open ();

      wire_queue (wire, "A-0021");
      wire->during = be_gone;
      wire_answers (wire, HS_POST_ANSWERED, statuses[i], NULL, NULL);
      wire_run (wire, 100);
      wire->during = NULL;
      g_assert_cmpint (hs_ops_test_count (wire->test, "outbox"), ==, 0);
      wire->now += 7200;
      wire_queue (wire, "A-0022");
      g_assert_cmpuint (wire_run (wire, 100).sent, ==, 1);
    }
}

/* A backup from before is put back: what is sent then is newer than all that the endpoint has. */
static void
test_backup (void)
{
  g_autoptr (Wire) wire = wire_open ();

  for (guint i = 0; i < 3; i++)
    {
      wire_queue (wire, "A-0021");
      g_assert_cmpuint (wire_run (wire, 100).sent, ==, 1);
    }
  wire->now += 60;
  hs_ops_test_run (wire->test, "DELETE FROM outbox");
  wire_queue (wire, "A-0021");
  g_assert_cmpuint (wire_run (wire, 100).sent, ==, 1);
  for (guint i = 1; i < 4; i++)
    g_assert_cmpint (wire_saw (wire, i)->revision, >, wire_saw (wire, i - 1)->revision);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ops/post-on/broken-off", test_broken_off);
  g_test_add_func ("/ops/post-on/too-much", test_too_much);
  g_test_add_func ("/ops/post-on/two-too-much", test_two_too_much);
  g_test_add_func ("/ops/post-on/long-silence", test_long_silence);
  g_test_add_func ("/ops/post-on/clock-back", test_clock_back);
  g_test_add_func ("/ops/post-on/clock-ahead", test_clock_ahead);
  g_test_add_func ("/ops/post-on/mended", test_mended);
  g_test_add_func ("/ops/post-on/gone-under-way", test_gone_under_way);
  g_test_add_func ("/ops/post-on/backup", test_backup);
  return g_test_run ();
}
