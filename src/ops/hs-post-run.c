// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Sending what waits, one after another. What the endpoint does never is an error here: it is written down. */

#include "hs-post-private.h"

#include "hs-post-lock.h"

/* So many faults in a row, each of one message, are the endpoint's: the others are spared it. */
#define MOST_FAULTS 3

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
  return hs_post_settle (book, parcel, &reply, faults + 1 >= MOST_FAULTS, works->clock (works->data),
                         works->draw (works->data), ret_next, error);
}

/* When there may be something to send by itself. */
static gboolean
find_next_at (HsBook *book, HsInstant *ret_next_at, GError **error)
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
                   : MAX (sums.soonest, queue->hold_until);
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
  HsPostReport report = { 0, 0, FALSE, HS_INSTANT_NONE };
  int lock = -1;
  gboolean done = TRUE;

  report.busy = !hs_post_lock_take (hs_store_get_path (hs_book_get_store (book)), &lock);
  if (!report.busy)
    {
      done = send_all (book, works, most, &report, error);
      hs_post_lock_release (lock);
    }
  if (!done || !find_next_at (book, &report.next_at, error))
    return FALSE;
  *ret_report = report;
  return TRUE;
}
