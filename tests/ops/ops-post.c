// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* An endpoint that is played: it answers by a script. */

#include "ops-post.h"

#include "hs-demo.h"
#include "hs-job-op.h"
#include "hs-settings-op.h"

static HsPostParcel *
copy_parcel (const HsPostParcel *parcel)
{
  HsPostParcel *copy = g_new0 (HsPostParcel, 1);

  *copy = *parcel;
  copy->key = g_strdup (parcel->key);
  copy->job_id = g_strdup (parcel->job_id);
  copy->url = g_strdup (parcel->url);
  copy->origin = g_strdup (parcel->origin);
  copy->body = g_strdup (parcel->body);
  copy->user = g_strdup (parcel->user);
  copy->secret_file = g_strdup (parcel->secret_file);
  copy->ca_file = g_strdup (parcel->ca_file);
  return copy;
}

static void
send (gpointer data, const HsPostParcel *parcel, HsPostReply *ret_reply)
{
  Wire *wire = data;
  g_autofree HsPostReply *next = g_queue_pop_head (wire->script);

  wire->now++;
  g_ptr_array_add (wire->seen, copy_parcel (parcel));
  if (wire->during != NULL)
    wire->during (wire);
  if (next != NULL)
    *ret_reply = *next;
  else
    ret_reply->status = 201;
}

static HsInstant
tell_time (gpointer data)
{
  return ((Wire *) data)->now;
}

static double
draw_middle (gpointer data)
{
  return 0.5;
}

void
wire_set (Wire *wire, const char *key, const char *value)
{
  g_autoptr (GError) error = NULL;

  hs_settings_set (wire->book, key, value, wire->now, &error);
  g_assert_no_error (error);
}

Wire *
wire_open (void)
{
  Wire *wire = g_new0 (Wire, 1);
  g_autoptr (GError) error = NULL;

  wire->test = hs_ops_test_folder ();
  wire->book = wire->test->book = hs_demo_make (wire->test->path, &wire->test->user, &error);
  g_assert_no_error (error);
  wire->script = g_queue_new ();
  wire->seen = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_post_parcel_free);
  wire->now = START;
  wire->works = (HsPostWorks) { send, tell_time, draw_middle, NULL, wire };
  wire_set (wire, "post_url", "https://example.org/jobs");
  hs_post_switch (wire->book, TRUE, START, &error);
  g_assert_no_error (error);
  return wire;
}

static void
free_reply (gpointer data)
{
  hs_post_reply_clear (data);
  g_free (data);
}

void
wire_close (Wire *wire)
{
  hs_ops_test_close (wire->test);
  g_queue_free_full (wire->script, free_reply);
  g_ptr_array_unref (wire->seen);
  g_free (wire);
}

void
wire_answers (Wire *wire, HsPostEnd end, int status, const char *retry_after, const char *said)
{
  HsPostReply *reply = g_new0 (HsPostReply, 1);

  *reply = (HsPostReply) { end, status, g_strdup (retry_after), g_strdup (said) };
  g_queue_push_tail (wire->script, reply);
}

HsPostReport
wire_run (Wire *wire, guint most)
{
  HsPostReport report = { 0 };
  g_autoptr (GError) error = NULL;

  hs_post_run (wire->book, &wire->works, most, &report, &error);
  g_assert_no_error (error);
  return report;
}

void
wire_queue (Wire *wire, const char *number)
{
  HsStore *store = hs_book_get_store (wire->book);
  g_autoptr (GError) error = NULL;
  g_autofree char *id = hs_job_find (wire->book, number, &error);

  g_assert_no_error (error);
  g_assert_true (hs_store_begin (store, wire->now, &error));
  hs_outbox_row_queue (store, id, &error);
  g_assert_no_error (error);
  g_assert_true (hs_store_commit (store, &error));
}

const HsPostParcel *
wire_saw (Wire *wire, guint n)
{
  g_assert_cmpuint (n, <, wire->seen->len);
  return g_ptr_array_index (wire->seen, n);
}

HsPostOverview *
wire_look (Wire *wire)
{
  g_autoptr (GError) error = NULL;
  HsPostOverview *overview = hs_post_overview_load (wire->book, 100, NULL, &error);

  g_assert_no_error (error);
  return overview;
}
