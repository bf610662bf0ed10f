// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Sending what waits, one after another. What the endpoint does never is an error here: it is written down. */

#include "hs-post-private.h"

#include "hs-post-lock.h"

/* Whoever is told to stop breaks off what is under way. The endpoint is not to blame, and nothing has to wait. */
static gboolean
is_broken_off (const HsPostWorks *works, const HsPostReply *reply)
{
  return works->stop != NULL && works->stop (works->data) && reply->end == HS_POST_UNREACHABLE;
}

static gboolean
send_one (HsBook *book, const HsPostWorks *works, guint faults, gboolean *ret_any, HsPostNext *ret_next, GError **error)
{
  g_autoptr (HsPostParcel) parcel = NULL;
  g_auto (HsPostReply) reply = { 0 };

  if (!hs_post_take (book, works->clock (works->data), &parcel, &reply, error))
    return FALSE;
  *ret_any = parcel != NULL;
  if (parcel == NULL)
    return TRUE;
  if (parcel->url != NULL && parcel->body != NULL)
    works->send (works->data, parcel, &reply);
  if (is_broken_off (works, &reply))
    {
      *ret_any = FALSE;
      return TRUE;
    }
  return hs_post_settle (book, parcel, &reply, faults, works->clock (works->data), works->draw (works->data), ret_next,
                         error);
}

/* When there may be something to send by itself. */
static gboolean
find_next_at (HsBook *book, HsInstant now, HsInstant *ret_next_at, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsOutboxQueueRow) queue = NULL;
  HsOutboxSums sums;
  gboolean on = FALSE;

  if (!hs_post_device_row_is_on (store, &on, error) || !hs_outbox_queue_row_get (store, &queue, error)
      || !hs_outbox_sums_load (store, &sums, error))
    return FALSE;
  *ret_next_at = !on || queue->paused_at != HS_INSTANT_NONE || sums.waiting == 0
                   ? HS_INSTANT_NONE
                   : MAX (now, MAX (sums.soonest, queue->hold_until));
  return TRUE;
}

static gboolean
send_all (HsBook *book, const HsPostWorks *works, guint most, HsPostReport *report, GError **error)
{
  guint faults = 0;
  gboolean any = TRUE;

  while (any && report->sent + report->failed < most && (works->stop == NULL || !works->stop (works->data)))
    {
      HsPostNext next = { 0 };

      if (!send_one (book, works, faults, &any, &next, error))
        return FALSE;
      if (!any)
        break;
      report->sent += next.what == HS_POST_DO_SENT;
      report->failed += next.what != HS_POST_DO_SENT;
      faults = next.what == HS_POST_DO_RETRY ? faults + 1 : 0;
    }
  return TRUE;
}

gboolean
hs_post_run (HsBook *book, const HsPostWorks *works, guint most, HsPostReport *ret_report, GError **error)
{
  const char *path = hs_store_get_path (hs_book_get_store (book));
  HsPostReport report = { 0, 0, FALSE, HS_INSTANT_NONE };
  HsPostLock *lock = NULL;
  gboolean done = TRUE;

  report.busy = !hs_post_lock_take (path, &lock);
  if (!report.busy)
    {
      done = hs_post_follow_clock (book, works->clock (works->data), error)
             && send_all (book, works, most, &report, error);
      hs_post_lock_release (lock);
    }
  if (!done || !find_next_at (book, works->clock (works->data), &report.next_at, error))
    return FALSE;
  *ret_report = report;
  return TRUE;
}
