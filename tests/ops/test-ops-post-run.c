// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Sending what waits to an endpoint that is played: order, keys, waits, parking, pausing, and a job that changes while
 * its message is under way. */

#include "hs-job-op.h"
#include "hs-log-row.h"
#include "hs-money-row.h"
#include "hs-ops-error.h"
#include "hs-post-lock.h"
#include "hs-settings-op.h"
#include "ops-post.h"

#include <string.h>

static void
test_switch (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  g_autoptr (GError) error = NULL;
  gboolean on = TRUE;
  guint n = 0;

  g_assert_true (hs_post_is_on (test->book, &on, &error));
  g_assert_false (on);
  g_assert_false (hs_post_switch (test->book, TRUE, START, &error));
  hs_ops_test_refused (&error, "set post_url first");
  g_assert_false (hs_post_queue_all (test->book, START, &n, &error));
  hs_ops_test_refused (&error, "Posting is off on this machine");
  g_assert_true (hs_settings_set (test->book, "post_url", "https://example.org/", START, &error));
  g_assert_true (hs_post_switch (test->book, TRUE, START, &error));
  g_assert_true (hs_post_switch (test->book, TRUE, START, &error));
  g_assert_true (hs_post_is_on (test->book, &on, &error) && on);
  hs_ops_test_one (test, "post_device WHERE name = 'bench'");
  /* The book goes to another machine. */
  hs_store_set_device (hs_book_get_store (test->book), "elsewhere");
  g_assert_true (hs_post_is_on (test->book, &on, &error) && !on);
  hs_store_set_device (hs_book_get_store (test->book), hs_book_get_device (test->book));
  g_assert_true (hs_post_switch (test->book, FALSE, START, &error));
  g_assert_true (hs_post_is_on (test->book, &on, &error) && !on);
  g_assert_cmpint (hs_ops_test_count (test, "post_device"), ==, 0);
}

/* Story 24: the endpoint is down while 17 jobs change; it comes back; after 9 the reply is lost. */
static void
test_story (void)
{
  g_autoptr (Wire) wire = wire_open ();
  g_autoptr (HsPostOverview) down = NULL;
  g_autoptr (HsPostOverview) back = NULL;
  g_autoptr (GHashTable) counted = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  HsPostReport report;

  for (int i = 1; i <= 17; i++)
    {
      g_autofree char *number = g_strdup_printf ("A-%04d", i);

      wire_queue (wire, number);
      if (i == 1)
        {
          wire_answers (wire, HS_POST_UNREACHABLE, 0, NULL, NULL);
          wire_run (wire, 100);
        }
    }
  wire_run (wire, 100);
  down = wire_look (wire);
  g_assert_cmpuint (wire->seen->len, ==, 1);
  g_assert_cmpint (down->sums.waiting, ==, 17);
  g_assert_cmpint (down->hold_until, ==, START + 1 + 60);
  for (int i = 0; i < 9; i++)
    wire_answers (wire, HS_POST_ANSWERED, 200, NULL, NULL);
  wire_answers (wire, HS_POST_TIMED_OUT, 0, NULL, NULL);
  wire->now = START + 61;
  report = wire_run (wire, 100);
  g_assert_cmpuint (report.sent, ==, 9);
  g_assert_cmpuint (report.failed, ==, 1);
  wire->now = report.next_at;
  report = wire_run (wire, 100);
  g_assert_cmpuint (report.sent, ==, 8);
  g_assert_true (report.next_at == HS_INSTANT_NONE);
  back = wire_look (wire);
  g_assert_cmpint (back->sums.waiting, ==, 0);
  g_assert_cmpuint (back->unsent->len, ==, 0);
  for (guint i = 1; i < wire->seen->len; i++)
    g_hash_table_add (counted, g_strdup_printf ("%s %" G_GINT64_FORMAT, wire_saw (wire, i)->job_id,
                                                wire_saw (wire, i)->revision));
  g_assert_cmpuint (wire->seen->len - 1, ==, 18);
  g_assert_cmpuint (g_hash_table_size (counted), ==, 17);
  g_assert_cmpstr (wire_saw (wire, 10)->key, ==, wire_saw (wire, 11)->key);
  g_assert_cmpstr (wire_saw (wire, 10)->body, ==, wire_saw (wire, 11)->body);
  for (guint i = 0; i < 17; i++)
    {
      g_autofree char *number = g_strdup_printf ("\"number\":\"A-%04u\"", i + 1);

      g_assert_nonnull (strstr (wire_saw (wire, i < 10 ? i + 1 : i + 2)->body, number));
      g_assert_null (strstr (wire_saw (wire, i + 1)->body, "phones"));
      g_assert_null (strstr (wire_saw (wire, i + 1)->body, "access_note"));
    }
}

/* The endpoint's waits grow with its own faults, whichever message met with them, and start anew once it took one. */
static void
test_waits (void)
{
  static const int minutes[] = { 1, 5, 15, 60, 60, 60 };
  g_autoptr (Wire) wire = wire_open ();

  wire_queue (wire, "A-0001");
  wire_queue (wire, "A-0002");
  for (guint i = 0; i < G_N_ELEMENTS (minutes); i++)
    {
      HsPostReport report;

      wire_answers (wire, HS_POST_ANSWERED, 503, NULL, NULL);
      report = wire_run (wire, 100);
      g_assert_cmpuint (report.failed, ==, 1);
      g_assert_cmpint (report.next_at, ==, wire->now + 60 * minutes[i]);
      wire->now = report.next_at - 1;
      report = wire_run (wire, 100);
      g_assert_cmpuint (report.failed + report.sent, ==, 0);
      wire->now = report.next_at;
    }
  wire_run (wire, 1);
  wire_answers (wire, HS_POST_ANSWERED, 503, "7200", NULL);
  g_assert_cmpint (wire_run (wire, 100).next_at, ==, wire->now + 7200);
  for (guint i = 0; i + 2 < wire->seen->len; i++)
    g_assert_cmpstr (wire_saw (wire, i)->key, ==, wire_saw (wire, 0)->key);
}

/* A fault of one message lets the others go on; three in a row are the endpoint's. */
static void
test_faults (void)
{
  g_autoptr (Wire) wire = wire_open ();
  HsPostReport report;

  for (int i = 1; i <= 6; i++)
    {
      g_autofree char *number = g_strdup_printf ("A-%04d", i);

      wire_queue (wire, number);
    }
  wire_answers (wire, HS_POST_ANSWERED, 500, NULL, NULL);
  report = wire_run (wire, 2);
  g_assert_cmpuint (report.sent, ==, 1);
  g_assert_cmpuint (report.failed, ==, 1);
  for (int i = 0; i < 4; i++)
    wire_answers (wire, HS_POST_ANSWERED, 500, NULL, NULL);
  report = wire_run (wire, 100);
  g_assert_cmpuint (report.failed, ==, 3);
  g_assert_cmpuint (report.sent, ==, 0);
  g_assert_cmpint (report.next_at, ==, wire->now + 60);
  g_assert_cmpuint (wire->seen->len, ==, 5);
}

static void
test_parked (void)
{
  g_autoptr (Wire) wire = wire_open ();
  g_autoptr (HsPostOverview) overview = NULL;
  g_autoptr (GError) error = NULL;
  const HsPostUnsent *unsent;
  HsPostReport report;
  g_autofree char *key = NULL;

  wire_queue (wire, "A-0004");
  wire_queue (wire, "A-0005");
  wire_answers (wire, HS_POST_ANSWERED, 422, NULL, "van Q is not known");
  report = wire_run (wire, 100);
  g_assert_cmpuint (report.sent, ==, 1);
  g_assert_true (report.next_at == HS_INSTANT_NONE);
  overview = wire_look (wire);
  g_assert_cmpint (overview->sums.parked, ==, 1);
  g_assert_true (overview->paused_at == HS_INSTANT_NONE);
  unsent = g_ptr_array_index (overview->unsent, 0);
  g_assert_cmpstr (unsent->number, ==, "A-0004");
  g_assert_true (unsent->parked);
  g_assert_cmpint (unsent->since, ==, START);
  g_assert_cmpuint (unsent->tries, ==, 1);
  g_assert_cmpstr (unsent->said, ==, "van Q is not known");
  g_assert_nonnull (strstr (unsent->why, "refuses this job (422)"));
  /* Tried again by the owner, with the same key: the endpoint may have meant what is there already. */
  key = g_strdup (wire_saw (wire, 0)->key);
  g_assert_true (hs_post_retry (wire->book, unsent->job_id, wire->now, &error));
  report = wire_run (wire, 100);
  g_assert_cmpuint (report.sent, ==, 1);
  g_assert_cmpstr (wire_saw (wire, 2)->key, ==, key);
  g_assert_false (hs_post_retry (wire->book, unsent->job_id, wire->now, &error));
  hs_ops_test_refused (&error, "Nothing of A-0004 waits to be posted.");
}

static void
test_dropped (void)
{
  g_autoptr (Wire) wire = wire_open ();
  g_autoptr (HsPostOverview) overview = NULL;
  g_autoptr (GPtrArray) entries = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *job = NULL;

  wire_queue (wire, "A-0004");
  wire_answers (wire, HS_POST_ANSWERED, 400, NULL, NULL);
  wire_run (wire, 100);
  job = hs_job_find (wire->book, "A-0004", &error);
  g_assert_true (hs_post_drop (wire->book, job, wire->now, &error));
  overview = wire_look (wire);
  g_assert_cmpint (overview->sums.parked + overview->sums.waiting, ==, 0);
  g_assert_true (hs_log_row_list_of (hs_book_get_store (wire->book), "post", job, &entries, &error));
  g_assert_cmpuint (entries->len, ==, 1);
  g_assert_cmpstr (((HsLogRow *) g_ptr_array_index (entries, 0))->act, ==, "removed");
  g_assert_false (hs_post_drop (wire->book, job, wire->now, &error));
  hs_ops_test_refused (&error, "Nothing of A-0004 waits");
  g_assert_cmpuint (wire_run (wire, 100).sent, ==, 0);
  /* Its next stage is posted again. */
  wire_queue (wire, "A-0004");
  g_assert_cmpuint (wire_run (wire, 100).sent, ==, 1);
}

static void
assert_paused (Wire *wire, const char *why)
{
  g_autoptr (HsPostOverview) overview = wire_look (wire);

  g_assert_true (overview->paused_at != HS_INSTANT_NONE);
  g_test_message ("%s", overview->why);
  g_assert_nonnull (strstr (overview->why, why));
}

/* Nothing goes out any more, whatever the time, until the owner does something. */
static void
test_paused (void)
{
  static const struct
  {
    HsPostEnd end;
    int status;
    const char *why;
  } rows[] = {
    { HS_POST_ANSWERED, 401, "refuses the secret (401)" },
    { HS_POST_ANSWERED, 403, "(403)" },
    { HS_POST_ANSWERED, 308, "another address (308)" },
    { HS_POST_NO_SECRET, 0, "cannot be had" },
  };
  g_autoptr (Wire) wire = wire_open ();
  g_autoptr (GError) error = NULL;

  wire_queue (wire, "A-0001");
  wire_queue (wire, "A-0002");
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsPostReport report;
      guint seen = wire->seen->len;

      wire_answers (wire, rows[i].end, rows[i].status, NULL, NULL);
      report = wire_run (wire, 100);
      g_assert_cmpuint (report.failed, ==, 1);
      g_assert_true (report.next_at == HS_INSTANT_NONE);
      assert_paused (wire, rows[i].why);
      wire->now += 10 * 86400;
      wire_run (wire, 100);
      g_assert_cmpuint (wire->seen->len, ==, seen + 1);
      if (i % 2 == 0)
        g_assert_true (hs_post_retry (wire->book, NULL, wire->now, &error));
      else
        wire_set (wire, "post_url", i == 1 ? "https://example.org/a" : "https://example.org/b");
    }
  g_assert_cmpuint (wire_run (wire, 100).sent, ==, 2);
}

static void
move_on (gpointer data)
{
  Wire *wire = data;

  wire->during = NULL;
  wire_queue (wire, "A-0004");
}

/* What took its place waits under a key of its own; that the older one was taken is known all the same. */
static void
test_changed_under_way (void)
{
  g_autoptr (Wire) wire = wire_open ();
  g_autoptr (HsOutboxRow) row = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *job = hs_job_find (wire->book, "A-0004", NULL);

  wire_queue (wire, "A-0004");
  wire->during = move_on;
  wire_run (wire, 1);
  g_assert_true (hs_outbox_row_find (hs_book_get_store (wire->book), job, &row, &error));
  g_assert_cmpstr (row->state, ==, "waiting");
  g_assert_cmpint (row->tries, ==, 0);
  g_assert_cmpstr (row->id, !=, wire_saw (wire, 0)->key);
  g_assert_cmpint (row->sent_revision, ==, wire_saw (wire, 0)->revision);
  g_assert_cmpint (row->revision, >, row->sent_revision);
  g_assert_cmpuint (wire_run (wire, 100).sent, ==, 1);
  /* A refusal of the older one says nothing about the newer. */
  wire_queue (wire, "A-0004");
  wire->during = move_on;
  wire_answers (wire, HS_POST_ANSWERED, 422, NULL, "old");
  g_assert_cmpuint (wire_run (wire, 1).failed, ==, 1);
  g_assert_cmpuint (wire_run (wire, 100).sent, ==, 1);
}

static void
mend_address (gpointer data)
{
  Wire *wire = data;

  wire->during = NULL;
  wire_set (wire, "post_url", "https://example.org/mended");
}

static void
ask_again (gpointer data)
{
  Wire *wire = data;
  g_autoptr (GError) error = NULL;

  wire->during = NULL;
  g_assert_true (hs_post_retry (wire->book, NULL, wire->now, &error));
}

static void
change_and_mend (gpointer data)
{
  move_on (data);
  mend_address (data);
}

/* An answer that was asked for before the owner mended the address, or put in another secret, says nothing about what
 * there is now: not that it waits a year, nor that it waits for her. */
static void
test_mended_under_way (void)
{
  static const struct
  {
    HsPostEnd end;
    int status;
    const char *retry_after;
  } rows[] = {
    { HS_POST_ANSWERED, 401, NULL },        { HS_POST_ANSWERED, 308, NULL },     { HS_POST_ANSWERED, 503, "31536000" },
    { HS_POST_ANSWERED, 404, NULL },        { HS_POST_ANSWERED, 500, NULL },     { HS_POST_NO_SECRET, 0, NULL },
    { HS_POST_BAD_CERTIFICATE, 0, NULL },   { HS_POST_TIMED_OUT, 0, NULL },
  };
  void (*const meanwhile[]) (gpointer) = { mend_address, ask_again, change_and_mend };
  g_autoptr (Wire) wire = wire_open ();

  for (guint i = 0; i < G_N_ELEMENTS (rows) * G_N_ELEMENTS (meanwhile); i++)
    {
      g_autoptr (HsPostOverview) overview = NULL;
      HsPostReport report;

      wire_set (wire, "post_url", "https://example.org/jobs");
      wire_queue (wire, "A-0004");
      wire->during = meanwhile[i % G_N_ELEMENTS (meanwhile)];
      wire_answers (wire, rows[i / G_N_ELEMENTS (meanwhile)].end, rows[i / G_N_ELEMENTS (meanwhile)].status,
                    rows[i / G_N_ELEMENTS (meanwhile)].retry_after, "of the old one");
      report = wire_run (wire, 1);
      g_assert_cmpuint (report.failed, ==, 1);
      g_assert_cmpint (report.next_at, ==, wire->now);
      overview = wire_look (wire);
      g_assert_true (overview->paused_at == HS_INSTANT_NONE && overview->hold_until == HS_INSTANT_NONE);
      g_assert_cmpint (overview->sums.parked, ==, 0);
      g_assert_null (overview->said);
      g_assert_cmpuint (wire_run (wire, 100).sent, ==, 1);
      if (meanwhile[i % G_N_ELEMENTS (meanwhile)] != ask_again)
        g_assert_cmpstr (wire_saw (wire, wire->seen->len - 1)->url, ==, "https://example.org/mended");
    }
}

/* What an address refused, or was at fault with, is tried at the one that takes its place: a path with a slip in it
 * refuses every job. */
static void
test_another_address (void)
{
  g_autoptr (Wire) wire = wire_open ();
  g_autoptr (HsPostOverview) overview = NULL;

  wire_queue (wire, "A-0001");
  wire_queue (wire, "A-0002");
  wire_queue (wire, "A-0003");
  wire_answers (wire, HS_POST_ANSWERED, 404, NULL, NULL);
  wire_answers (wire, HS_POST_ANSWERED, 500, NULL, NULL);
  wire_answers (wire, HS_POST_ANSWERED, 405, NULL, NULL);
  wire_run (wire, 100);
  overview = wire_look (wire);
  g_assert_cmpint (overview->sums.parked, ==, 2);
  g_assert_cmpint (overview->sums.soonest, >, wire->now);
  /* What is told is no matter of the address. */
  wire_set (wire, "post_phone", "yes");
  g_assert_cmpuint (wire_run (wire, 100).sent, ==, 0);
  wire_set (wire, "post_url", "https://example.org/jobs/{id}");
  g_assert_cmpuint (wire_run (wire, 100).sent, ==, 3);
}

static void
stop_for_good (gpointer data)
{
  Wire *wire = data;
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_post_drop (wire->book, wire_saw (wire, 0)->job_id, wire->now, &error));
}

/* Dropped while it was under way: it is known to be there, and is not tried again. */
static void
test_dropped_under_way (void)
{
  g_autoptr (Wire) wire = wire_open ();

  wire_queue (wire, "A-0004");
  wire->during = stop_for_good;
  wire_answers (wire, HS_POST_ANSWERED, 500, NULL, NULL);
  wire_run (wire, 1);
  wire->during = NULL;
  wire->now += 86400;
  g_assert_cmpuint (wire_run (wire, 100).sent, ==, 0);
  hs_ops_test_one (wire->test, "outbox WHERE state = 'dropped' AND body IS NULL");
}

/* A book that was copied while a message was under way sends it once more, with the same key and body. */
static void
test_killed (void)
{
  g_autoptr (Wire) wire = wire_open ();
  g_autoptr (GError) error = NULL;
  gint64 tries;

  wire_queue (wire, "A-0004");
  wire_answers (wire, HS_POST_TIMED_OUT, 0, NULL, NULL);
  wire_run (wire, 1);
  hs_ops_test_run (wire->test, "UPDATE outbox_queue SET hold_until = NULL");
  wire_run (wire, 1);
  tries = hs_ops_test_count (wire->test, "outbox WHERE tries = 2 AND state = 'sent'");
  g_assert_cmpint (tries, ==, 1);
  g_assert_cmpstr (wire_saw (wire, 0)->key, ==, wire_saw (wire, 1)->key);
  g_assert_cmpstr (wire_saw (wire, 0)->body, ==, wire_saw (wire, 1)->body);
}

/* What may be told is turned off: no body that was made before goes out. */
static void
test_held_back_later (void)
{
  g_autoptr (Wire) wire = wire_open ();

  wire_set (wire, "post_phone", "yes");
  wire_queue (wire, "A-0004");
  wire_answers (wire, HS_POST_TIMED_OUT, 0, NULL, NULL);
  wire_run (wire, 1);
  g_assert_nonnull (strstr (wire_saw (wire, 0)->body, "\"phones\":[{"));
  wire_set (wire, "post_phone", "no");
  wire->now += 60;
  wire_run (wire, 1);
  g_assert_null (strstr (wire_saw (wire, 1)->body, "phones"));
  g_assert_cmpstr (wire_saw (wire, 1)->key, !=, wire_saw (wire, 0)->key);
  g_assert_cmpint (wire_saw (wire, 1)->revision, >, wire_saw (wire, 0)->revision);
}

static void
test_parcel (void)
{
  g_autoptr (Wire) wire = wire_open ();
  g_autofree char *url = NULL;
  const HsPostParcel *parcel;

  wire_set (wire, "post_url", "https://Example.org:8443/j/{id}.json");
  wire_set (wire, "post_auth", "basic");
  wire_set (wire, "post_user", "dara");
  wire_set (wire, "post_secret_file", "/srv/dara/secret");
  wire_set (wire, "post_ca_file", "/srv/dara/own.pem");
  wire_queue (wire, "A-0004");
  wire_run (wire, 1);
  parcel = wire_saw (wire, 0);
  url = g_strdup_printf ("https://Example.org:8443/j/%s.json", parcel->job_id);
  g_assert_cmpstr (parcel->url, ==, url);
  g_assert_true (parcel->put);
  g_assert_cmpint (parcel->auth, ==, HS_POST_AUTH_BASIC);
  g_assert_cmpstr (parcel->user, ==, "dara");
  g_assert_cmpstr (parcel->secret_file, ==, "/srv/dara/secret");
  g_assert_cmpstr (parcel->ca_file, ==, "/srv/dara/own.pem");
  g_assert_cmpstr (parcel->origin, ==, "https://example.org:8443");
  g_assert_true (g_uuid_string_is_valid (parcel->key));
}

/* Nothing goes to an address that may not be posted to any more, and the owner is told. */
static void
test_bad_address (void)
{
  g_autoptr (Wire) wire = wire_open ();

  wire_set (wire, "post_private_network", "yes");
  wire_set (wire, "post_url", "http://192.168.1.5/");
  wire_set (wire, "post_private_network", "no");
  wire_queue (wire, "A-0004");
  g_assert_cmpuint (wire_run (wire, 100).failed, ==, 1);
  g_assert_cmpuint (wire->seen->len, ==, 0);
  assert_paused (wire, "no address that can be posted to");
  wire_set (wire, "post_private_network", "yes");
  g_assert_cmpuint (wire_run (wire, 100).sent, ==, 1);
  g_assert_false (wire_saw (wire, 0)->put);
}

static void
test_off (void)
{
  g_autoptr (Wire) wire = wire_open ();
  g_autoptr (GError) error = NULL;
  HsPostReport report;

  wire_queue (wire, "A-0004");
  g_assert_true (hs_post_switch (wire->book, FALSE, wire->now, &error));
  report = wire_run (wire, 100);
  g_assert_cmpuint (wire->seen->len, ==, 0);
  g_assert_true (report.next_at == HS_INSTANT_NONE);
  wire_queue (wire, "A-0005");
  g_assert_cmpint (hs_ops_test_count (wire->test, "outbox"), ==, 1);
  g_assert_true (hs_post_switch (wire->book, TRUE, wire->now, &error));
  g_assert_cmpuint (wire_run (wire, 100).sent, ==, 1);
}

static void
move_job (Wire *wire, const char *number, HsStage stage)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *job = hs_job_find (wire->book, number, &error);

  g_assert_no_error (error);
  hs_job_move_stage (wire->book, job, stage, "sold it", wire->now, &error);
  g_assert_no_error (error);
}

static void
pay_job (Wire *wire, const char *number)
{
  HsStore *store = hs_book_get_store (wire->book);
  g_autoptr (GError) error = NULL;
  g_autoptr (HsPaymentRow) payment = hs_payment_row_new ();

  payment->job_id = hs_job_find (wire->book, number, &error);
  payment->how = g_strdup ("cash");
  payment->at = START - 86400;
  payment->cents = 500;
  g_assert_true (hs_store_begin (store, wire->now, &error));
  hs_payment_row_save (store, payment, &error);
  g_assert_no_error (error);
  g_assert_true (hs_store_commit (store, &error));
}

/* What happened while posting was off is not told by itself. But what waited from before tells no stage that is over,
 * and all that is not at the endpoint as it is now can be queued at once. */
static void
test_off_meanwhile (void)
{
  g_autoptr (Wire) wire = wire_open ();
  g_autoptr (GError) error = NULL;
  guint n = 0;

  g_assert_true (hs_post_queue_all (wire->book, wire->now, &n, &error));
  wire_run (wire, 100);
  g_assert_cmpuint (wire->seen->len, ==, 26);
  move_job (wire, "A-0021", HS_STAGE_ROLLING);
  wire_answers (wire, HS_POST_TIMED_OUT, 0, NULL, NULL);
  wire_run (wire, 100);
  g_assert_nonnull (strstr (wire_saw (wire, 26)->body, "\"stage\":\"rolling\""));
  wire->now += 60;
  g_assert_true (hs_post_switch (wire->book, FALSE, wire->now, &error));
  move_job (wire, "A-0021", HS_STAGE_ON_SITE);
  move_job (wire, "A-0022", HS_STAGE_CALLED_OFF);
  pay_job (wire, "A-0019");
  wire->now += 60;
  g_assert_true (hs_post_switch (wire->book, TRUE, wire->now, &error));
  g_assert_cmpuint (wire_run (wire, 100).sent, ==, 1);
  g_assert_nonnull (strstr (wire_saw (wire, 27)->body, "\"stage\":\"on_site\""));
  g_assert_cmpstr (wire_saw (wire, 27)->key, !=, wire_saw (wire, 26)->key);
  g_assert_cmpint (wire_saw (wire, 27)->revision, >, wire_saw (wire, 26)->revision);
  g_assert_true (hs_post_queue_all (wire->book, wire->now, &n, &error));
  g_assert_cmpuint (n, ==, 2);
  g_assert_cmpuint (wire_run (wire, 100).sent, ==, 2);
  g_assert_nonnull (strstr (wire_saw (wire, 28)->body, "\"number\":\"A-0019\""));
  g_assert_nonnull (strstr (wire_saw (wire, 29)->body, "\"stage\":\"called_off\""));
  g_assert_true (hs_post_queue_all (wire->book, wire->now, &n, &error));
  g_assert_cmpuint (n, ==, 0);
}

/* Through the operation that a person uses. */
static void
test_stage (void)
{
  g_autoptr (Wire) wire = wire_open ();
  g_autoptr (GError) error = NULL;
  g_autofree char *job = hs_job_find (wire->book, "A-0021", &error);

  g_assert_no_error (error);
  hs_job_move_stage (wire->book, job, HS_STAGE_CALLED_OFF, "sold it", wire->now, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (wire_run (wire, 100).sent, ==, 1);
  g_assert_nonnull (strstr (wire_saw (wire, 0)->body, "\"stage\":\"called_off\""));
  g_assert_nonnull (strstr (wire_saw (wire, 0)->body, "\"called_off_why\":\"sold it\""));
}

static gboolean
stop_now (gpointer data)
{
  return ((Wire *) data)->seen->len >= 2;
}

static void
test_all_and_stop (void)
{
  g_autoptr (Wire) wire = wire_open ();
  g_autoptr (GError) error = NULL;
  guint n = 0;

  g_assert_true (hs_post_queue_all (wire->book, wire->now, &n, &error));
  g_assert_cmpuint (n, ==, 26);
  wire->works.stop = stop_now;
  g_assert_cmpuint (wire_run (wire, 100).sent, ==, 2);
  wire->works.stop = NULL;
  g_assert_cmpuint (wire_run (wire, 100).sent, ==, 24);
}

/* Two programs at one book: the second sends nothing while the first does. */
static void
test_two_programs (void)
{
  g_autoptr (Wire) wire = wire_open ();
  HsPostReport report;
  HsPostLock *other = NULL;

  wire_queue (wire, "A-0004");
  g_assert_true (hs_post_lock_take (wire->test->path, &other));
  report = wire_run (wire, 100);
  g_assert_true (report.busy);
  g_assert_cmpint (report.next_at, ==, START);
  g_assert_cmpuint (wire->seen->len, ==, 0);
  hs_post_lock_release (other);
  report = wire_run (wire, 100);
  g_assert_false (report.busy);
  g_assert_cmpuint (report.sent, ==, 1);
}

static void
test_preview (void)
{
  g_autoptr (Wire) wire = wire_open ();
  g_autoptr (GError) error = NULL;
  g_autofree char *job = hs_job_find (wire->book, "A-0004", NULL);
  g_autofree char *before = hs_post_preview (wire->book, job, 77, &error);
  g_autofree char *made = NULL;

  g_assert_nonnull (strstr (before, "\"revision\":77,"));
  wire_queue (wire, "A-0004");
  wire_answers (wire, HS_POST_TIMED_OUT, 0, NULL, NULL);
  wire_run (wire, 1);
  made = hs_post_preview (wire->book, job, 77, &error);
  g_assert_cmpstr (made, ==, wire_saw (wire, 0)->body);
  g_assert_cmpint (hs_ops_test_count (wire->test, "outbox"), ==, 1);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ops/post-run/switch", test_switch);
  g_test_add_func ("/ops/post-run/story-24", test_story);
  g_test_add_func ("/ops/post-run/waits", test_waits);
  g_test_add_func ("/ops/post-run/faults", test_faults);
  g_test_add_func ("/ops/post-run/parked", test_parked);
  g_test_add_func ("/ops/post-run/dropped", test_dropped);
  g_test_add_func ("/ops/post-run/paused", test_paused);
  g_test_add_func ("/ops/post-run/changed-under-way", test_changed_under_way);
  g_test_add_func ("/ops/post-run/mended-under-way", test_mended_under_way);
  g_test_add_func ("/ops/post-run/another-address", test_another_address);
  g_test_add_func ("/ops/post-run/dropped-under-way", test_dropped_under_way);
  g_test_add_func ("/ops/post-run/killed", test_killed);
  g_test_add_func ("/ops/post-run/held-back-later", test_held_back_later);
  g_test_add_func ("/ops/post-run/parcel", test_parcel);
  g_test_add_func ("/ops/post-run/bad-address", test_bad_address);
  g_test_add_func ("/ops/post-run/off", test_off);
  g_test_add_func ("/ops/post-run/off-meanwhile", test_off_meanwhile);
  g_test_add_func ("/ops/post-run/stage", test_stage);
  g_test_add_func ("/ops/post-run/all-and-stop", test_all_and_stop);
  g_test_add_func ("/ops/post-run/two-programs", test_two_programs);
  g_test_add_func ("/ops/post-run/preview", test_preview);
  return g_test_run ();
}
