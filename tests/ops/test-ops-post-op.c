// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What the owner sees of what is not sent yet and does about it; and how single answers are written down. */

#include "hs-device.h"
#include "hs-job-op.h"
#include "hs-ops-error.h"
#include "hs-post-lock.h"
#include "ops-post.h"

#include <glib/gstdio.h>
#include <string.h>
#include <unistd.h>

static char *
job_of (Wire *wire, const char *number)
{
  g_autoptr (GError) error = NULL;
  char *id = hs_job_find (wire->book, number, &error);

  g_assert_no_error (error);
  return id;
}

/* The same answers come once an item; the last says whether it is sent, waits or is parked, and until when. */
typedef struct
{
  const char *name;
  struct
  {
    HsPostEnd end;
    int status;
    const char *retry_after;
  } answers[8];
  const char *state;
  gint64 wait;
  gboolean held;
  gint64 tries;
} Course;

#define A(status) { HS_POST_ANSWERED, status, NULL }

static const Course courses[] = {
  { "taken", { A (200) }, "sent", -1, FALSE, 1 },
  { "taken at the second time", { A (500), A (201) }, "sent", -1, FALSE, 2 },
  { "a fault", { A (500) }, "waiting", 60, FALSE, 1 },
  { "two faults", { A (500), A (501) }, "waiting", 300, FALSE, 2 },
  { "three faults", { A (500), A (500), A (500) }, "waiting", 900, FALSE, 3 },
  { "a slow message", { A (408) }, "waiting", 60, FALSE, 1 },
  { "a fault that says when", { { HS_POST_ANSWERED, 500, "600" } }, "waiting", 600, FALSE, 1 },
  { "something else is there", { A (409) }, "parked", -1, FALSE, 1 },
  { "still at work", { A (500), A (409) }, "waiting", 300, FALSE, 2 },
  { "still at work, and taken", { A (500), A (409), A (200) }, "sent", -1, FALSE, 3 },
  { "still at work, it says", { { HS_POST_ANSWERED, 409, "30" } }, "waiting", 60, FALSE, 1 },
  { "at work for too long", { A (500), A (409), A (409), A (409), A (409), A (409), A (409) }, "parked", -1, FALSE, 7 },
  { "refused", { A (422) }, "parked", -1, FALSE, 1 },
  { "refused after a fault", { A (500), A (400) }, "parked", -1, FALSE, 2 },
  { "too often", { { HS_POST_ANSWERED, 429, "90" } }, "waiting", 90, TRUE, 1 },
  { "no answer", { { HS_POST_TIMED_OUT, 0, NULL } }, "waiting", 60, TRUE, 1 },
  { "no answer, twice", { { HS_POST_TIMED_OUT, 0, NULL }, { HS_POST_UNREACHABLE, 0, NULL } }, "waiting", 300, TRUE,
    2 },
  { "a bad certificate", { { HS_POST_BAD_CERTIFICATE, 0, NULL } }, "waiting", 60, TRUE, 1 },
  { "no web server", { { HS_POST_BAD_REPLY, 0, NULL } }, "waiting", 60, TRUE, 1 },
};

static void
follow (Wire *wire, const Course *course)
{
  for (guint i = 0; i < G_N_ELEMENTS (course->answers) && (i == 0 || course->answers[i].status != 0
                                                           || course->answers[i].end != HS_POST_ANSWERED); i++)
    {
      wire_answers (wire, course->answers[i].end, course->answers[i].status, course->answers[i].retry_after, NULL);
      if (i > 0)
        wire->now += 2 * 86400;
      wire_run (wire, 1);
    }
}

static void
test_courses (void)
{
  g_autoptr (Wire) wire = wire_open ();
  g_autofree char *job = job_of (wire, "A-0004");

  for (guint i = 0; i < G_N_ELEMENTS (courses); i++)
    {
      const Course *course = &courses[i];
      g_autoptr (HsOutboxRow) row = NULL;
      g_autoptr (HsOutboxQueueRow) queue = NULL;
      HsInstant due;

      g_test_message ("%s", course->name);
      hs_ops_test_run (wire->test, "DELETE FROM outbox; DELETE FROM outbox_queue");
      wire_queue (wire, "A-0004");
      follow (wire, course);
      g_assert_true (hs_outbox_row_find (hs_book_get_store (wire->book), job, &row, NULL));
      g_assert_true (hs_outbox_queue_row_get (hs_book_get_store (wire->book), &queue, NULL));
      g_assert_cmpstr (row->state, ==, course->state);
      g_assert_cmpint (row->tries, ==, course->tries);
      due = course->held ? queue->hold_until : row->next_at;
      g_assert_cmpint (due, ==, course->wait < 0 ? HS_INSTANT_NONE : wire->now + course->wait);
      g_assert_true ((queue->hold_until != HS_INSTANT_NONE) == course->held);
      g_assert_true ((row->body == NULL) == g_str_equal (row->state, "sent"));
      g_assert_true (queue->paused_at == HS_INSTANT_NONE);
      wire->now += 86400;
    }
}

static char *
in_other_words (const char *text)
{
  return (char *) (strstr (text, "cannot be reached") != NULL ? "No se llega." : text);
}

/* In their order, at most as many as are asked for, in the owner's language. */
static void
test_overview (void)
{
  static const HsTongue tongue = { in_other_words, NULL };
  g_autoptr (Wire) wire = wire_open ();
  g_autoptr (HsPostOverview) nothing = wire_look (wire);
  g_autoptr (HsPostOverview) two = NULL;
  g_autoptr (HsPostOverview) all = NULL;
  const HsPostUnsent *first;

  g_assert_true (nothing->on);
  g_assert_cmpuint (nothing->unsent->len, ==, 0);
  g_assert_null (nothing->why);
  wire_queue (wire, "A-0007");
  wire_queue (wire, "A-0005");
  wire_queue (wire, "A-0006");
  wire_answers (wire, HS_POST_UNREACHABLE, 0, NULL, "no route to host");
  wire_run (wire, 10);
  two = hs_post_overview_load (wire->book, 2, &tongue, NULL);
  g_assert_cmpuint (two->unsent->len, ==, 2);
  g_assert_cmpint (two->sums.waiting, ==, 3);
  g_assert_cmpstr (two->why, ==, "No se llega.");
  g_assert_cmpstr (two->said, ==, "no route to host");
  first = g_ptr_array_index (two->unsent, 0);
  g_assert_cmpstr (first->number, ==, "A-0007");
  g_assert_cmpstr (first->customer, ==, "Ansel Vickery");
  g_assert_false (first->parked);
  g_assert_cmpstr (first->why, ==, "No se llega.");
  g_assert_true (first->next_at == HS_INSTANT_NONE);
  g_assert_cmpstr (((HsPostUnsent *) g_ptr_array_index (two->unsent, 1))->number, ==, "A-0005");
  g_assert_null (((HsPostUnsent *) g_ptr_array_index (two->unsent, 1))->why);
  all = wire_look (wire);
  g_assert_cmpuint (all->unsent->len, ==, 3);
  g_assert_nonnull (strstr (all->why, "cannot be reached"));
}

/* One job lets the queue go on as well; what is not asked for stays parked. */
static void
test_retry_one (void)
{
  g_autoptr (Wire) wire = wire_open ();
  g_autofree char *one = job_of (wire, "A-0004");
  g_autoptr (GError) error = NULL;

  wire_queue (wire, "A-0004");
  wire_queue (wire, "A-0005");
  wire_queue (wire, "A-0006");
  wire_answers (wire, HS_POST_ANSWERED, 422, NULL, NULL);
  wire_answers (wire, HS_POST_ANSWERED, 422, NULL, NULL);
  wire_answers (wire, HS_POST_ANSWERED, 401, NULL, NULL);
  wire_run (wire, 10);
  hs_ops_test_one (wire->test, "outbox_queue WHERE paused_at IS NOT NULL");
  g_assert_true (hs_post_retry (wire->book, one, wire->now, &error));
  g_assert_cmpuint (wire_run (wire, 10).sent, ==, 2);
  hs_ops_test_one (wire->test, "outbox WHERE state = 'parked'");
  g_assert_true (hs_post_retry (wire->book, NULL, wire->now, &error));
  g_assert_cmpuint (wire_run (wire, 10).sent, ==, 1);
  g_assert_false (hs_post_retry (wire->book, "none", wire->now, &error));
  g_assert_error (error, HS_STORE_ERROR, HS_STORE_ERROR_NOT_FOUND);
}

/* A message that cannot be made is parked with its reason, and the others go on. */
static void
test_bad_body (void)
{
  g_autoptr (Wire) wire = wire_open ();
  g_autoptr (HsPostOverview) overview = NULL;
  const HsPostUnsent *unsent;

  wire_queue (wire, "A-0004");
  wire_queue (wire, "A-0005");
  hs_ops_test_run (wire->test, "PRAGMA foreign_keys = OFF; DELETE FROM customer WHERE id ="
                               " (SELECT customer_id FROM job WHERE number = 'A-0004') AND id <>"
                               " (SELECT customer_id FROM job WHERE number = 'A-0005')");
  g_assert_cmpuint (wire_run (wire, 10).sent, ==, 1);
  overview = wire_look (wire);
  g_assert_cmpint (overview->sums.parked, ==, 1);
  unsent = g_ptr_array_index (overview->unsent, 0);
  g_assert_cmpstr (unsent->number, ==, "A-0004");
  g_assert_nonnull (strstr (unsent->why, "cannot be made"));
  g_assert_nonnull (strstr (unsent->said, "customer"));
  g_assert_cmpuint (wire->seen->len, ==, 1);
}

/* The machine's id says nothing about the machine, and is the same each time. */
static void
test_device (void)
{
  g_autofree char *one = hs_device_dup_id ("bench");
  g_autofree char *again = hs_device_dup_id ("bench");
  g_autofree char *system = NULL;

  g_assert_cmpstr (one, ==, again);
  g_assert_cmpuint (strlen (one), ==, 32);
  g_assert_cmpuint (strspn (one, "0123456789abcdef"), ==, 32);
  if (g_file_get_contents ("/etc/machine-id", &system, NULL, NULL) && *g_strstrip (system) != '\0')
    g_assert_null (strstr (one, system));
}

/* A lock is of one book by whatever path, and is let go of. */
static void
test_lock (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  g_autofree char *folder = g_path_get_dirname (test->path);
  g_autofree char *name = g_path_get_basename (folder);
  g_autofree char *around = g_build_filename (folder, "..", name, "test.hsbook", NULL);
  g_autofree char *straight = hs_post_lock_dup_path (test->path);
  g_autofree char *bent = hs_post_lock_dup_path (around);
  g_autofree char *other = hs_post_lock_dup_path ("/another/book");
  HsPostLock *first = NULL, *second = NULL, *third = NULL;

  g_assert_cmpstr (straight, ==, bent);
  g_assert_cmpstr (straight, !=, other);
  g_assert_true (hs_post_lock_take (test->path, &first));
  g_assert_false (hs_post_lock_take (around, &second));
  g_assert_true (hs_post_lock_take ("/another/book", &third));
  hs_post_lock_release (third);
  hs_post_lock_release (first);
  g_assert_true (hs_post_lock_take (around, &second));
  g_assert_true (g_file_test (straight, G_FILE_TEST_EXISTS));
  hs_post_lock_release (second);
  hs_post_lock_release (NULL);
  /* Nothing is left of it. */
  g_assert_false (g_file_test (straight, G_FILE_TEST_EXISTS));
}

/* A backup is put in the place of the book while it is sent from: what is let go of then is not the lock of whoever
 * sends from the new one. */
static void
test_lock_of_another (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  g_autofree char *put_back = g_strconcat (test->path, ".back", NULL);
  HsPostLock *first = NULL, *second = NULL, *third = NULL;

  g_assert_true (hs_post_lock_take (test->path, &first));
  g_assert_true (g_file_set_contents (put_back, "another", -1, NULL));
  g_assert_cmpint (g_rename (put_back, test->path), ==, 0);
  g_assert_true (hs_post_lock_take (test->path, &second));
  hs_post_lock_release (first);
  g_assert_false (hs_post_lock_take (test->path, &third));
  hs_post_lock_release (second);
}

/* cron has no session: the window and cron find the same file; and so by whatever link. */
static void
test_lock_everywhere (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  g_autofree char *folder = g_path_get_dirname (test->path);
  g_autofree char *link_path = g_build_filename (folder, "link.hsbook", NULL);
  g_autofree char *straight = hs_post_lock_dup_path (test->path);
  g_autofree char *linked = NULL;

  g_assert_cmpint (symlink (test->path, link_path), ==, 0);
  linked = hs_post_lock_dup_path (link_path);
  g_assert_cmpstr (straight, ==, linked);
  g_assert_true (g_str_has_prefix (straight, g_get_home_dir ()));
  g_unlink (link_path);
}

/* A secret that is put into the keyring while another place is set for it would never be used. */
static void
test_keyring (void)
{
  g_autoptr (Wire) wire = wire_open ();
  g_autoptr (GError) error = NULL;
  g_autofree char *kept = NULL;
  g_autofree char *forgotten = NULL;

  wire_set (wire, "post_url", "http://127.0.0.1:8080/jobs");
  kept = hs_post_keyring_origin (wire->book, TRUE, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (kept, ==, "http://127.0.0.1:8080");
  wire_set (wire, "post_secret_file", "/srv/dara/secret");
  g_assert_null (hs_post_keyring_origin (wire->book, TRUE, &error));
  hs_ops_test_refused (&error, "The secret lies in /srv/dara/secret, as post_secret_file says");
  forgotten = hs_post_keyring_origin (wire->book, FALSE, &error);
  g_assert_cmpstr (forgotten, ==, "http://127.0.0.1:8080");
  wire_set (wire, "post_url", "");
  g_assert_null (hs_post_keyring_origin (wire->book, FALSE, &error));
  hs_ops_test_refused (&error, "There is no address");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ops/post-op/courses", test_courses);
  g_test_add_func ("/ops/post-op/overview", test_overview);
  g_test_add_func ("/ops/post-op/retry-one", test_retry_one);
  g_test_add_func ("/ops/post-op/bad-body", test_bad_body);
  g_test_add_func ("/ops/post-op/device", test_device);
  g_test_add_func ("/ops/post-op/keyring", test_keyring);
  g_test_add_func ("/ops/post-op/lock", test_lock);
  g_test_add_func ("/ops/post-op/lock-of-another", test_lock_of_another);
  g_test_add_func ("/ops/post-op/lock-everywhere", test_lock_everywhere);
  return g_test_run ();
}
