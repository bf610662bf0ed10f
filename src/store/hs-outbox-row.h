// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-row.h"

G_BEGIN_DECLS

/* What waits to be posted to the owner's endpoint. Not written into the log of changes, not undone. */

/**
 * HsOutboxRow:
 * @id: the idempotency key, a UUID: of this revision alone
 * @revision: grows from message to message of a job; never less than the seconds of 1970 on when it was queued, so that
 *   it also grows when the book is put back from a backup
 * @state: `waiting`, `parked`, `sent`, `dropped`
 * @queued_at: since when something of the job is not sent
 * @body: (nullable): what is sent, from the first try on until it is sent
 * @tries: how often it was begun to be sent
 * @tried_at: when last, this one or what it replaced, or %HS_INSTANT_NONE, also if the owner let it go since
 * @next_at: not before, or %HS_INSTANT_NONE
 * @ended: (nullable): how the last time ended, as hs_post_end_id() has it
 * @status: of the last answer, or %HS_INT_NONE
 * @said: (nullable): what the endpoint said is wrong
 * @sent_at: when a message of this job was last taken, or %HS_INSTANT_NONE
 * @sent_revision: which one, or %HS_INT_NONE
 */
typedef struct
{
  char *id;
  char *job_id;
  gint64 revision;
  char *state;
  HsInstant queued_at;
  char *body;
  gint64 tries;
  HsInstant tried_at;
  HsInstant next_at;
  char *ended;
  gint64 status;
  char *said;
  HsInstant sent_at;
  gint64 sent_revision;
} HsOutboxRow;

HS_DECLARE_ROW (HsOutboxRow, hs_outbox_row)

/**
 * hs_outbox_row_queue:
 *
 * Queues the job as it stands, if this machine posts: see hs_store_set_device(). What was queued of it before and is
 * not sent yet is replaced; the new one goes to the end. The store does it by itself when a job changes stage and when
 * money of a squared one does. Needs a transaction.
 */
gboolean hs_outbox_row_queue (HsStore *store, const char *job_id, GError **error);

/* hs_outbox_row_queue_all: every job that is not in the queue and was never sent, or whose stage or money changed since
 * without being queued, oldest first. */
gboolean hs_outbox_row_queue_all (HsStore *store, guint *ret_n_jobs, GError **error);

/* hs_outbox_row_remake: what is unsent and has a body already gets a new one when it is tried next, under a new key and
 * revision: what may be told has changed. */
gboolean hs_outbox_row_remake (HsStore *store, GError **error);

/* hs_outbox_row_renew: @row has no body any more, and a key and a revision of its own, in the book and here: it was
 * refused, and the job is another since. */
gboolean hs_outbox_row_renew (HsStore *store, HsOutboxRow *row, GError **error);

/* hs_outbox_row_find: of a job; @ret_row is %NULL if nothing of it was ever queued. */
gboolean hs_outbox_row_find (HsStore *store, const char *job_id, HsOutboxRow **ret_row, GError **error);

/* hs_outbox_row_find_key: by its id; @ret_row is %NULL if there is none any more. */
gboolean hs_outbox_row_find_key (HsStore *store, const char *id, HsOutboxRow **ret_row, GError **error);

/* hs_outbox_row_next: the first that waits and may be tried at @now; @ret_row is %NULL if there is none. */
gboolean hs_outbox_row_next (HsStore *store, HsInstant now, HsOutboxRow **ret_row, GError **error);

/* hs_outbox_row_list_unsent: parked, then waiting, each in their order; at most @limit. Their bodies are not
 * read, so they are not for saving. */
gboolean hs_outbox_row_list_unsent (HsStore *store, guint limit, GPtrArray **ret_rows, GError **error);

/**
 * HsOutboxSums:
 * @soonest: when the first of those that wait may be tried, 0: at once; %HS_INSTANT_NONE if none waits
 * @tried_at: when one of those that wait was last tried, or %HS_INSTANT_NONE
 * @most_tries: how often the one was tried that was tried most
 */
typedef struct
{
  gint64 waiting;
  gint64 parked;
  HsInstant soonest;
  HsInstant tried_at;
  gint64 most_tries;
} HsOutboxSums;

gboolean hs_outbox_sums_load (HsStore *store, HsOutboxSums *ret_sums, GError **error);

/* hs_outbox_row_follow_clock: what was tried after @now may be tried at once; the clock has been put back. */
gboolean hs_outbox_row_follow_clock (HsStore *store, HsInstant now, GError **error);

/* hs_outbox_row_clear_silence: those that wait because no answer came to them wait no longer by themselves: it was not
 * because of them. */
gboolean hs_outbox_row_clear_silence (HsStore *store, GError **error);

/* hs_outbox_row_let_go: what is under way counts as not tried: the owner has done something about posting since. What
 * waits for a time of its own keeps when it was tried, for the clock's sake. */
gboolean hs_outbox_row_let_go (HsStore *store, GError **error);

/* hs_outbox_row_release: @job_id %NULL: all. Parked ones wait again, and those that wait may be tried at once, with the
 * key and the body that they had. */
gboolean hs_outbox_row_release (HsStore *store, const char *job_id, GError **error);

/**
 * HsOutboxQueueRow:
 * @paused_at: since when the owner has to do something, or %HS_INSTANT_NONE
 * @hold_until: nothing is tried before, or %HS_INSTANT_NONE
 * @tries: how often in a row the endpoint was to blame
 * @ended: (nullable): as of HsOutboxRow, of what paused or holds it; so @status and @said
 */
typedef struct
{
  char *id;
  HsInstant paused_at;
  HsInstant hold_until;
  gint64 tries;
  char *ended;
  gint64 status;
  char *said;
} HsOutboxQueueRow;

HS_DECLARE_ROW (HsOutboxQueueRow, hs_outbox_queue_row)

/* hs_outbox_queue_row_get: the one there is, or a new one. */
gboolean hs_outbox_queue_row_get (HsStore *store, HsOutboxQueueRow **ret_row, GError **error);

/**
 * HsPostDeviceRow:
 * @id: of the machine
 * @name: what it is called
 * @since: when posting was switched on there
 *
 * A machine that posts; without its row it does not.
 */
typedef struct
{
  char *id;
  char *name;
  HsInstant since;
} HsPostDeviceRow;

HS_DECLARE_ROW (HsPostDeviceRow, hs_post_device_row)
gboolean hs_post_device_row_list (HsStore *store, GPtrArray **ret_rows, GError **error);

/* hs_post_device_row_is_on: the machine of this store posts. */
gboolean hs_post_device_row_is_on (HsStore *store, gboolean *ret_on, GError **error);

G_END_DECLS
