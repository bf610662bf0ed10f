// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Posting beside the window, over a network that is played: it is sent without being asked, waits for nobody, keeps
 * nobody waiting, and says something only when the owner has to. */

#include "hs-job-op.h"
#include "hs-poster.h"
#include "hs-settings-op.h"
#include "model-book.h"

#include <string.h>

/* slow: a message stays under way until it is canceled or let go; status: what is answered. */
static struct
{
  GMutex lock;
  GCond moved;
  gboolean slow;
  int status;
  guint sent;
  guint at_once;
  guint most_at_once;
  GThread *thread;
} far;

static void
wake (GCancellable *cancellable, gpointer data)
{
  g_mutex_lock (&far.lock);
  g_cond_broadcast (&far.moved);
  g_mutex_unlock (&far.lock);
}

static void
send (const HsPostParcel *parcel, GCancellable *cancellable, HsPostReply *ret_reply)
{
  gulong handler = g_cancellable_connect (cancellable, G_CALLBACK (wake), NULL, NULL);

  g_mutex_lock (&far.lock);
  far.at_once++;
  far.most_at_once = MAX (far.most_at_once, far.at_once);
  far.thread = g_thread_self ();
  while (far.slow && !g_cancellable_is_cancelled (cancellable))
    g_cond_wait (&far.moved, &far.lock);
  if (g_cancellable_is_cancelled (cancellable))
    ret_reply->end = HS_POST_UNREACHABLE;
  else
    ret_reply->status = far.status;
  far.sent++;
  far.at_once--;
  g_mutex_unlock (&far.lock);
  g_cancellable_disconnect (cancellable, handler);
}

static gboolean
store_secret (const char *origin, const char *secret, GError **error)
{
  return TRUE;
}

static const HsPostNet net = { send, store_secret };

static void
let_go (void)
{
  g_mutex_lock (&far.lock);
  far.slow = FALSE;
  g_cond_broadcast (&far.moved);
  g_mutex_unlock (&far.lock);
}

static void
set_up (ModelBook *book, gconstpointer data)
{
  hs_post_net_install (&net);
  far.slow = FALSE;
  far.status = 201;
  far.sent = far.most_at_once = 0;
  model_book_open (book, data);
}

static void
tear_down (ModelBook *book, gconstpointer data)
{
  let_go ();
  model_book_close (book, data);
  hs_post_net_install (NULL);
}

static gpointer
switch_on_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  guint n;

  return hs_settings_set (book, "post_url", "https://example.org/jobs", now, error)
         && hs_post_switch (book, TRUE, now, error) && hs_post_queue_all (book, now, &n, error) ? NULL : NULL;
}

static gpointer
call_off_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  g_autofree char *job = hs_job_find (book, g_variant_get_string (args, NULL), error);

  if (job != NULL)
    hs_job_move_stage (book, job, HS_STAGE_CALLED_OFF, "sold it", now, error);
  return NULL;
}

static void
done_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (GError) error = NULL;

  hs_ledger_task_finish (HS_LEDGER (source), result, NULL, &error);
  g_assert_no_error (error);
}

static void
write_book (ModelBook *book, HsLedgerFunc func, GVariant *args)
{
  hs_ledger_write_async (book->ledger, func, args, NULL, FALSE, done_cb, NULL);
  hs_ledger_wait (book->ledger);
}

static gint64
waiting (HsPoster *poster)
{
  const HsPostOverview *overview = hs_poster_get_overview (poster);

  return overview == NULL ? -1 : overview->sums.waiting;
}

static gboolean
is_all_sent (gpointer data)
{
  return waiting (data) == 0 && !hs_poster_is_busy (data) && far.sent > 0;
}

static gboolean
is_under_way (gpointer data)
{
  return far.at_once == 1;
}

static gboolean
wants_owner (gpointer data)
{
  return hs_poster_wants_owner (data) && !hs_poster_is_busy (data);
}

static gboolean
is_idle (gpointer data)
{
  return !hs_poster_is_busy (data);
}

static gboolean
is_read (gpointer data)
{
  return hs_poster_get_overview (data) != NULL;
}

static void
test_sent (ModelBook *book, gconstpointer data)
{
  HsPoster *poster = hs_poster_of (book->ledger);

  g_assert_true (poster == hs_poster_of (book->ledger));
  write_book (book, switch_on_func, NULL);
  model_wait (is_all_sent, poster);
  g_assert_cmpuint (far.sent, ==, 26);
  g_assert_cmpuint (far.most_at_once, ==, 1);
  g_assert_true (far.thread != g_thread_self ());
  g_assert_false (hs_poster_wants_owner (poster));
  g_assert_null (hs_poster_get_trouble (poster));
  write_book (book, call_off_func, g_variant_new_string ("A-0021"));
  model_wait (is_all_sent, poster);
  g_assert_cmpuint (far.sent, ==, 27);
}

/* While a message is under way everything else goes on: the window's loop, a question, a change. */
static void
test_nobody_waits (ModelBook *book, gconstpointer data)
{
  HsPoster *poster = hs_poster_of (book->ledger);
  gint64 from;

  far.slow = TRUE;
  write_book (book, switch_on_func, NULL);
  model_wait (is_under_way, poster);
  g_assert_cmpuint (far.at_once, ==, 1);
  from = g_get_monotonic_time ();
  write_book (book, call_off_func, g_variant_new_string ("A-0021"));
  write_book (book, call_off_func, g_variant_new_string ("A-0022"));
  g_assert_cmpint (g_get_monotonic_time () - from, <, 4 * G_USEC_PER_SEC);
  g_assert_cmpuint (far.at_once, ==, 1);
  g_assert_cmpuint (far.sent, ==, 0);
  let_go ();
  model_wait (is_all_sent, poster);
  g_assert_cmpuint (far.most_at_once, ==, 1);
  g_assert_cmpuint (far.sent, ==, 26);
}

/* The program ends: what is under way is let go of at once, and stays in the queue. */
static void
test_stop (ModelBook *book, gconstpointer data)
{
  HsPoster *poster = hs_poster_of (book->ledger);
  gint64 from;

  far.slow = TRUE;
  write_book (book, switch_on_func, NULL);
  model_wait (is_under_way, poster);
  from = g_get_monotonic_time ();
  hs_poster_stop (poster);
  model_wait (is_idle, poster);
  g_assert_false (hs_poster_is_busy (poster));
  g_assert_cmpint (g_get_monotonic_time () - from, <, 4 * G_USEC_PER_SEC);
  g_assert_cmpuint (far.sent, ==, 1);
}

static gpointer
retry_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  hs_post_retry (book, NULL, now, error);
  return NULL;
}

static void
test_owner (ModelBook *book, gconstpointer data)
{
  HsPoster *poster = hs_poster_of (book->ledger);

  far.status = 401;
  write_book (book, switch_on_func, NULL);
  model_wait (wants_owner, poster);
  g_assert_cmpuint (far.sent, ==, 1);
  g_assert_nonnull (strstr (hs_poster_get_overview (poster)->why, "(401)"));
  far.status = 201;
  write_book (book, retry_func, NULL);
  model_wait (is_all_sent, poster);
  g_assert_cmpuint (far.sent, ==, 27);
  g_assert_false (hs_poster_wants_owner (poster));
}

static gpointer
in_vain_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsOutboxQueueRow) row = NULL;

  hs_outbox_queue_row_get (store, &row, NULL);
  row->tries = g_variant_get_uint32 (args);
  row->hold_until = g_get_real_time () / G_USEC_PER_SEC + 3600;
  if (hs_store_begin (store, now, error))
    hs_store_end (store, hs_outbox_queue_row_save (store, row, error), error);
  return NULL;
}

static gboolean
was_tried (gpointer poster)
{
  return hs_poster_get_overview (poster) != NULL && hs_poster_get_overview (poster)->tries >= 26
         && !hs_poster_is_busy (poster);
}

static gboolean
was_tried_once (gpointer poster)
{
  return hs_poster_get_overview (poster) != NULL && hs_poster_get_overview (poster)->tries == 1
         && !hs_poster_is_busy (poster);
}

/* An hour without a network is nobody's business; a day of it is. */
static void
test_in_vain (ModelBook *book, gconstpointer data)
{
  HsPoster *poster = hs_poster_of (book->ledger);

  far.status = 503;
  write_book (book, switch_on_func, NULL);
  model_wait (was_tried_once, poster);
  g_assert_false (hs_poster_wants_owner (poster));
  write_book (book, in_vain_func, g_variant_new_uint32 (26));
  model_wait (was_tried, poster);
  g_assert_false (hs_poster_wants_owner (poster));
  write_book (book, in_vain_func, g_variant_new_uint32 (27));
  model_wait (wants_owner, poster);
  g_assert_true (hs_poster_get_overview (poster)->paused_at == HS_INSTANT_NONE);
  far.status = 201;
  write_book (book, retry_func, NULL);
  model_wait (is_all_sent, poster);
  g_assert_false (hs_poster_wants_owner (poster));
}

/* Built without, or off: it looks, and sends nothing. */
static void
test_without (ModelBook *book, gconstpointer data)
{
  HsPoster *poster = hs_poster_of (book->ledger);

  model_wait (is_read, poster);
  g_assert_false (hs_poster_get_overview (poster)->on);
  g_assert_false (hs_poster_is_busy (poster));
  hs_post_net_install (NULL);
  g_assert_null (hs_post_net_get ());
  write_book (book, switch_on_func, NULL);
  while (waiting (poster) != 26)
    g_main_context_iteration (NULL, TRUE);
  g_assert_false (hs_poster_is_busy (poster));
  g_assert_false (hs_poster_wants_owner (poster));
  g_assert_cmpuint (far.sent, ==, 0);
}

int
main (int argc, char **argv)
{
  static const struct
  {
    const char *name;
    void (*test) (ModelBook *book, gconstpointer data);
  } tests[] = {
    { "sent", test_sent },   { "nobody-waits", test_nobody_waits }, { "stop", test_stop },
    { "owner", test_owner }, { "without", test_without },           { "in-vain", test_in_vain },
  };

  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (tests); i++)
    {
      g_autofree char *name = g_strconcat ("/model/poster/", tests[i].name, NULL);

      g_test_add (name, ModelBook, NULL, set_up, tests[i].test, tear_down);
    }
  return g_test_run ();
}
