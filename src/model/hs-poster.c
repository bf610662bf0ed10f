// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Posting in the background.
 *
 *   ledger changed, or time is up ─▶ ledger's worker: what waits? ─▶ thread of its own: send what is due ─▶ look again
 *
 * Without a network wired in, or while posting is off, it does nothing but look.
 */

#include "hs-poster.h"

#include <string.h>

/* When the book was held by another program, or its disk full. */
#define TROUBLE_SECONDS 60
/* Longer it does not sleep: a machine that was shut, and a clock that was put right, are noticed. */
#define MOST_SLEEP_SECONDS 60
/* A run ends after so many messages, so that what the window shows keeps up. */
#define MOST_A_RUN 20

struct _HsPoster
{
  GObject parent_instance;

  HsLedger *ledger; /* weak: it owns us */
  gulong handler;
  GCancellable *cancel;
  HsPostOverview *overview;
  char *trouble;
  guint timer;
  gboolean busy;
  gboolean looking;
  gboolean look_again;
};

G_DEFINE_FINAL_TYPE (HsPoster, hs_poster, G_TYPE_OBJECT)

static guint changed_signal;
static const HsPostNet *net;

static void look (HsPoster *self);

void
hs_post_net_install (const HsPostNet *installed)
{
  net = installed;
}

const HsPostNet *
hs_post_net_get (void)
{
  return net;
}

static HsInstant
tell_time (gpointer data)
{
  return g_get_real_time () / G_USEC_PER_SEC;
}

/* Sending, in a thread of its own. */

typedef struct
{
  char *path;
  HsPostReport report;
} Run;

static void
free_run (gpointer data)
{
  Run *run = data;

  g_free (run->path);
  g_free (run);
}

static void
send_parcel (gpointer data, const HsPostParcel *parcel, HsPostReply *ret_reply)
{
  net->send (parcel, data, ret_reply);
}

static double
draw (gpointer data)
{
  return g_random_double ();
}

static gboolean
is_stopped (gpointer data)
{
  return g_cancellable_is_cancelled (data);
}

static void
run_func (GTask *task, gpointer source, gpointer data, GCancellable *cancel)
{
  Run *run = data;
  HsBookUser user = { "halfshaft", g_get_host_name (), 0, tell_time (NULL) };
  HsPostWorks works = { send_parcel, tell_time, draw, is_stopped, cancel };
  g_autoptr (GError) error = NULL;
  g_autoptr (HsBook) book = hs_book_open (run->path, HS_BOOK_WRITE, &user, &error);

  if (book == NULL || !hs_post_run (book, &works, MOST_A_RUN, &run->report, &error))
    g_task_return_error (task, g_steal_pointer (&error));
  else
    g_task_return_boolean (task, TRUE);
}

static gboolean
timer_cb (gpointer data)
{
  HsPoster *self = data;

  self->timer = 0;
  look (self);
  return G_SOURCE_REMOVE;
}

static void
wait_seconds (HsPoster *self, gint64 seconds)
{
  g_clear_handle_id (&self->timer, g_source_remove);
  self->timer = g_timeout_add_seconds ((guint) CLAMP (seconds, 1, MOST_SLEEP_SECONDS), timer_cb, self);
}

static void
ran_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  HsPoster *self = HS_POSTER (source);
  Run *run = g_task_get_task_data (G_TASK (result));
  g_autoptr (GError) error = NULL;

  self->busy = FALSE;
  g_clear_pointer (&self->trouble, g_free);
  if (!g_task_propagate_boolean (G_TASK (result), &error))
    {
      self->trouble = g_strdup (error->message);
      wait_seconds (self, TROUBLE_SECONDS);
      g_signal_emit (self, changed_signal, 0);
    }
  else if (run->report.busy)
    wait_seconds (self, TROUBLE_SECONDS);
  else
    look (self);
}

static void
start (HsPoster *self)
{
  g_autoptr (GTask) task = g_task_new (self, self->cancel, ran_cb, NULL);
  Run *run = g_new0 (Run, 1);

  /* A run that is stopped still says how far it came. */
  g_task_set_check_cancellable (task, FALSE);
  run->path = g_strdup (hs_ledger_get_path (self->ledger));
  g_task_set_task_data (task, run, free_run);
  self->busy = TRUE;
  g_task_run_in_thread (task, run_func);
}

/* Looking, in the ledger's worker. */

static gpointer
look_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  return hs_post_overview_load (book, 0, NULL, error);
}

/* When the next message is due; %HS_INSTANT_NONE: none is by itself. */
static HsInstant
next_due (const HsPostOverview *overview)
{
  if (!overview->on || overview->paused_at != HS_INSTANT_NONE || overview->sums.waiting == 0)
    return HS_INSTANT_NONE;
  return MAX (overview->sums.soonest, overview->hold_until);
}

static void
act (HsPoster *self)
{
  HsInstant due = next_due (self->overview);
  HsInstant now = tell_time (NULL);

  if (net == NULL || due == HS_INSTANT_NONE || self->busy || hs_ledger_is_read_only (self->ledger)
      || g_cancellable_is_cancelled (self->cancel))
    return;
  if (due > now && !hs_post_clock_went_back (self->overview->sums.tried_at, now))
    wait_seconds (self, due - now);
  else
    start (self);
}

static gboolean
shows_the_same (const HsPostOverview *one, const HsPostOverview *other)
{
  return one != NULL && one->on == other->on && one->paused_at == other->paused_at
         && one->sums.waiting == other->sums.waiting && one->sums.parked == other->sums.parked
         && one->tries == other->tries && one->sums.most_tries == other->sums.most_tries
         && one->hold_until == other->hold_until && g_strcmp0 (one->said, other->said) == 0;
}

static void
looked_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsPoster) self = HS_POSTER (data);
  g_autoptr (HsPostOverview) overview = NULL;
  gboolean same;

  self->looking = FALSE;
  if (!hs_ledger_task_finish (HS_LEDGER (source), result, (gpointer *) &overview, NULL) || overview == NULL
      || self->ledger == NULL)
    return;
  same = shows_the_same (self->overview, overview);
  g_clear_pointer (&self->overview, hs_post_overview_free);
  self->overview = g_steal_pointer (&overview);
  if (!same)
    g_signal_emit (self, changed_signal, 0);
  if (self->look_again)
    look (self);
  else
    act (self);
}

/* One question at a time; what changed meanwhile asks once more. */
static void
look (HsPoster *self)
{
  if (self->ledger == NULL || !hs_ledger_is_open (self->ledger))
    return;
  self->look_again = self->looking;
  if (self->looking)
    return;
  self->looking = TRUE;
  hs_ledger_ask_async (self->ledger, look_func, NULL, (GDestroyNotify) hs_post_overview_free, looked_cb,
                       g_object_ref (self));
}

static void
hs_poster_dispose (GObject *object)
{
  HsPoster *self = HS_POSTER (object);

  g_clear_handle_id (&self->timer, g_source_remove);
  if (self->ledger != NULL)
    g_clear_signal_handler (&self->handler, self->ledger);
  g_clear_weak_pointer (&self->ledger);
  g_clear_object (&self->cancel);
  g_clear_pointer (&self->overview, hs_post_overview_free);
  g_clear_pointer (&self->trouble, g_free);
  G_OBJECT_CLASS (hs_poster_parent_class)->dispose (object);
}

static void
hs_poster_class_init (HsPosterClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = hs_poster_dispose;
  changed_signal = g_signal_new ("changed", HS_TYPE_POSTER, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
hs_poster_init (HsPoster *self)
{
  self->cancel = g_cancellable_new ();
}

static void
release (gpointer data)
{
  hs_poster_stop (HS_POSTER (data));
  g_object_unref (data);
}

HsPoster *
hs_poster_of (HsLedger *ledger)
{
  HsPoster *self = g_object_get_data (G_OBJECT (ledger), "poster");

  if (self != NULL)
    return self;
  self = g_object_new (HS_TYPE_POSTER, NULL);
  g_set_weak_pointer (&self->ledger, ledger);
  self->handler = g_signal_connect_swapped (ledger, "changed", G_CALLBACK (look), self);
  g_object_set_data_full (G_OBJECT (ledger), "poster", self, release);
  look (self);
  return self;
}

void
hs_poster_stop (HsPoster *self)
{
  g_return_if_fail (HS_IS_POSTER (self));

  g_cancellable_cancel (self->cancel);
  g_clear_handle_id (&self->timer, g_source_remove);
}

gboolean
hs_poster_is_busy (HsPoster *self)
{
  return self->busy;
}

/* Nobody is told of an hour without a network; of a day she is. */
static gboolean
is_long_in_vain (const HsPostOverview *overview)
{
  return overview->sums.waiting > 0
         && (MAX (overview->tries, overview->sums.most_tries) >= HS_POST_TRIES_A_DAY
             || (overview->hold_until != HS_INSTANT_NONE
                 && overview->hold_until - HS_SECONDS_PER_DAY > tell_time (NULL)));
}

gboolean
hs_poster_wants_owner (HsPoster *self)
{
  const HsPostOverview *overview = self->overview;

  return overview != NULL && overview->on
         && (overview->paused_at != HS_INSTANT_NONE || overview->sums.parked > 0 || is_long_in_vain (overview));
}

const HsPostOverview *
hs_poster_get_overview (HsPoster *self)
{
  return self->overview;
}

const char *
hs_poster_get_trouble (HsPoster *self)
{
  return self->trouble;
}
