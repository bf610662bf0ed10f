// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Writing down how a message ended. Core decides what follows; here it is put into the book, and into no message that
 * took the place of the one that was sent. */

#include "hs-post-private.h"

#include "hs-ops-private.h"
#include "hs-retry-after.h"

/* So many faults in a row, each of one message, are the endpoint's: the others are spared it. */
#define MOST_FAULTS 3

/* So often a message is tried before it is looked at by itself. */
#define MOST_SILENCE 3

static void
write_end (char **ended, gint64 *status, char **said, const HsPostReply *reply)
{
  hs_row_set (ended, hs_post_end_id (reply->end));
  *status = reply->end == HS_POST_ANSWERED ? reply->status : HS_INT_NONE;
  hs_row_set (said, reply->said);
}

/* A message that gets no answer again and again may be the reason itself: something in it is too much for the endpoint.
 * Then another is tried before all are held; if one is taken, they go on past it. Two such may stand before it. */
static gboolean
is_suspect (const HsPostOutcome *outcome, const HsOutboxRow *row, gboolean others)
{
  gboolean silent = outcome->end == HS_POST_UNREACHABLE || outcome->end == HS_POST_TIMED_OUT
                    || outcome->end == HS_POST_BAD_REPLY
                    || (outcome->end == HS_POST_ANSWERED && (outcome->status == 502 || outcome->status == 504));

  return silent && others && outcome->not_before == HS_INSTANT_NONE && row != NULL && row->tries > MOST_SILENCE;
}

static HsPostNext
decide (const HsPostReply *reply, const HsOutboxRow *row, const HsOutboxQueueRow *queue, guint faults, gboolean others,
        HsInstant now, double draw)
{
  HsPostOutcome outcome = { reply->end, reply->status, hs_retry_after_parse (reply->retry_after, now) };
  guint tries = row == NULL || row->tries == 0 ? 0 : (guint) row->tries - 1;
  HsPostNext next = hs_post_next (&outcome, tries, now, draw);

  if (faults + 1 < MOST_FAULTS && next.what == HS_POST_DO_RETRY && is_suspect (&outcome, row, others))
    {
      next.whole_queue = FALSE;
      return next;
    }
  /* What is the endpoint's fault is counted for the endpoint, whichever message met with it. */
  if (next.what == HS_POST_DO_RETRY && (next.whole_queue || faults + 1 >= MOST_FAULTS))
    {
      next.whole_queue = TRUE;
      outcome.end = HS_POST_UNREACHABLE;
      next.at = hs_post_next (&outcome, (guint) queue->tries, now, draw).at;
    }
  return next;
}

static gboolean
settle_queue (HsStore *store, HsOutboxQueueRow *queue, const HsPostReply *reply, const HsPostNext *next, HsInstant now,
              GError **error)
{
  if (next->what == HS_POST_DO_SENT)
    {
      g_autoptr (HsOutboxQueueRow) fresh = hs_outbox_queue_row_new ();

      hs_row_set (&fresh->id, queue->id);
      return hs_outbox_queue_row_save (store, fresh, error);
    }
  if (!next->whole_queue)
    return TRUE;
  if (!hs_outbox_row_clear_silence (store, error))
    return FALSE;
  write_end (&queue->ended, &queue->status, &queue->said, reply);
  queue->paused_at = next->what == HS_POST_DO_PAUSE ? now : HS_INSTANT_NONE;
  queue->hold_until = next->at;
  queue->tries++;
  return hs_outbox_queue_row_save (store, queue, error);
}

/* A message that took the place of what was sent keeps that it was. */
static gboolean
settle_sent (HsStore *store, const HsPostParcel *parcel, HsInstant now, GError **error)
{
  g_autoptr (HsOutboxRow) row = NULL;

  if (!hs_outbox_row_find (store, parcel->job_id, &row, error))
    return FALSE;
  if (row == NULL)
    return TRUE;
  row->sent_at = now;
  row->sent_revision = parcel->revision;
  if (g_str_equal (row->id, parcel->key))
    {
      hs_row_set (&row->state, "sent");
      hs_row_set (&row->body, NULL);
      hs_row_set (&row->ended, NULL);
      hs_row_set (&row->said, NULL);
      row->status = HS_INT_NONE;
      row->next_at = HS_INSTANT_NONE;
    }
  return hs_outbox_row_save (store, row, error);
}

static gboolean
settle_row (HsStore *store, HsOutboxRow *row, const HsPostReply *reply, const HsPostNext *next, GError **error)
{
  if (row == NULL || !g_str_equal (row->state, "waiting"))
    return TRUE;
  write_end (&row->ended, &row->status, &row->said, reply);
  row->next_at = next->what == HS_POST_DO_RETRY && !next->whole_queue ? next->at : HS_INSTANT_NONE;
  if (next->what == HS_POST_DO_PARK)
    hs_row_set (&row->state, "parked");
  return hs_outbox_row_save (store, row, error);
}

/* The owner put in another address or secret, or said to try again, while it was under way. Then no failure says
 * anything about what there is now. */
static gboolean
is_overtaken (HsStore *store, const HsPostParcel *parcel, gboolean *ret_overtaken, GError **error)
{
  g_autoptr (HsOutboxRow) row = NULL;

  if (!hs_outbox_row_find (store, parcel->job_id, &row, error))
    return FALSE;
  *ret_overtaken = row != NULL && g_str_equal (row->state, "waiting") && row->tried_at == HS_INSTANT_NONE;
  return TRUE;
}

static gboolean
settle (HsBook *book, const HsPostParcel *parcel, const HsPostReply *reply, guint faults, HsInstant now, double draw,
        HsPostNext *ret_next, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsOutboxQueueRow) queue = NULL;
  g_autoptr (HsOutboxRow) row = NULL;
  HsOutboxSums sums;
  gboolean overtaken;

  if (!hs_outbox_queue_row_get (store, &queue, error) || !hs_outbox_sums_load (store, &sums, error)
      || !hs_outbox_row_find_key (store, parcel->key, &row, error)
      || !is_overtaken (store, parcel, &overtaken, error))
    return FALSE;
  *ret_next = decide (reply, row, queue, faults, sums.waiting > 1, now, draw);
  if (overtaken && ret_next->what != HS_POST_DO_SENT)
    {
      *ret_next = (HsPostNext) { HS_POST_DO_RETRY, FALSE, now };
      return TRUE;
    }
  if (!settle_queue (store, queue, reply, ret_next, now, error))
    return FALSE;
  return ret_next->what == HS_POST_DO_SENT ? settle_sent (store, parcel, now, error)
                                           : settle_row (store, row, reply, ret_next, error);
}

gboolean
hs_post_settle (HsBook *book, const HsPostParcel *parcel, const HsPostReply *reply, guint faults, HsInstant now,
                double draw, HsPostNext *ret_next, GError **error)
{
  HsStore *store = hs_book_get_store (book);

  return hs_store_begin (store, now, error)
         && hs_store_end (store, settle (book, parcel, reply, faults, now, draw, ret_next, error), error);
}

static gboolean
follow_clock (HsStore *store, HsInstant now, GError **error)
{
  g_autoptr (HsOutboxQueueRow) queue = NULL;

  if (!hs_outbox_queue_row_get (store, &queue, error) || !hs_outbox_row_follow_clock (store, now, error))
    return FALSE;
  queue->hold_until = HS_INSTANT_NONE;
  return hs_outbox_queue_row_save (store, queue, error);
}

gboolean
hs_post_follow_clock (HsBook *book, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  HsOutboxSums sums;

  if (!hs_outbox_sums_load (store, &sums, error))
    return FALSE;
  if (!hs_post_clock_went_back (sums.tried_at, now))
    return TRUE;
  return hs_store_begin (store, now, error) && hs_store_end (store, follow_clock (store, now, error), error);
}

gboolean
hs_post_resume (HsBook *book, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsOutboxQueueRow) queue = NULL;

  if (!hs_outbox_row_let_go (store, error) || !hs_outbox_queue_row_get (store, &queue, error))
    return FALSE;
  if (queue->paused_at == HS_INSTANT_NONE && queue->hold_until == HS_INSTANT_NONE)
    return TRUE;
  queue->paused_at = HS_INSTANT_NONE;
  queue->hold_until = HS_INSTANT_NONE;
  queue->tries = 0;
  return hs_outbox_queue_row_save (store, queue, error);
}
