// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-book.h"
#include "hs-outbox-row.h"
#include "hs-post-wire.h"
#include "hs-tongue.h"

G_BEGIN_DECLS

/*
 * Posting jobs to the owner's own endpoint: the switch of this machine, the queue and what the owner does about it, and
 * sending what waits. Where to and how stands in the settings `post_…`; the secret in none of them.
 */

/**
 * hs_post_switch:
 * @on: whether this machine posts; refused without an address
 *
 * Off is how every machine begins, also one that gets a book from another.
 */
gboolean hs_post_switch (HsBook *book, gboolean on, HsInstant now, GError **error);
gboolean hs_post_is_on (HsBook *book, gboolean *ret_on, GError **error);

/**
 * hs_post_keyring_origin:
 * @keep: whether a secret is about to be kept there; else one is taken out
 *
 * Returns: (transfer full): whom the secret in the keyring is for; refused without an address, and while the secret
 *   lies in a file
 */
char *hs_post_keyring_origin (HsBook *book, gboolean keep, GError **error);

/* hs_post_queue_all: queues every job that was never posted, or that went on while posting was off; refused while it is
 * off. */
gboolean hs_post_queue_all (HsBook *book, HsInstant now, guint *ret_n_jobs, GError **error);

/* hs_post_retry: the queue goes on at once, and with it what is parked: of @job_id, or %NULL for all. */
gboolean hs_post_retry (HsBook *book, const char *job_id, HsInstant now, GError **error);

/* hs_post_drop: what is unsent of a job is never sent, until it changes stage again. Logged. */
gboolean hs_post_drop (HsBook *book, const char *job_id, HsInstant now, GError **error);

/**
 * HsPostUnsent:
 * @number: of the job
 * @customer: (nullable): whose job it is; %NULL if that cannot be read, which may be why it is here
 * @parked: waits for the owner
 * @since: when
 * @next_at: not before, or %HS_INSTANT_NONE
 * @why: (nullable): how the last try ended, in one sentence; %NULL if there was none
 * @said: (nullable): what the endpoint said is wrong
 */
typedef struct
{
  char *job_id;
  char *number;
  char *customer;
  gint64 revision;
  gboolean parked;
  HsInstant since;
  guint tries;
  HsInstant next_at;
  char *why;
  char *said;
} HsPostUnsent;

void hs_post_unsent_free (HsPostUnsent *unsent);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsPostUnsent, hs_post_unsent_free)

/**
 * HsPostOverview:
 * @on: this machine posts
 * @paused_at: since when the whole queue waits for the owner, or %HS_INSTANT_NONE
 * @hold_until: until when it waits for the endpoint, or %HS_INSTANT_NONE
 * @tries: how often in a row it was in vain
 * @why: (nullable): what paused or holds it
 * @said: (nullable): what the endpoint said then
 * @unsent: (element-type HsPostUnsent): the first @limit; parked ones, then those that wait, in their order
 */
typedef struct
{
  gboolean on;
  HsInstant paused_at;
  HsInstant hold_until;
  gint64 tries;
  char *why;
  char *said;
  HsOutboxSums sums;
  GPtrArray *unsent;
} HsPostOverview;

/* hs_post_overview_load: @tongue %NULL: in English. */
HsPostOverview *hs_post_overview_load (HsBook *book, guint limit, const HsTongue *tongue, GError **error);
void hs_post_overview_free (HsPostOverview *overview);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsPostOverview, hs_post_overview_free)

/**
 * HsPostReport:
 * @sent: how many the endpoint took
 * @failed: how many it did not
 * @busy: another program is sending; this one did not
 * @next_at: when there may be something to send again; %HS_INSTANT_NONE: nothing by itself
 */
typedef struct
{
  guint sent;
  guint failed;
  gboolean busy;
  HsInstant next_at;
} HsPostReport;

/**
 * hs_post_run:
 * @most: how many messages at most
 * @error: only if the book cannot be read or written; what the endpoint does is no error
 *
 * Sends what is due, one after another, until nothing is, the queue is held, or three in a row failed each for itself.
 * Each is written down before it goes out and after it came back, so that it may be stopped at any time.
 */
gboolean hs_post_run (HsBook *book, const HsPostWorks *works, guint most, HsPostReport *ret_report, GError **error);

/* hs_post_preview: (transfer full): the message of a job as it would be sent now. */
char *hs_post_preview (HsBook *book, const char *job_id, HsInstant now, GError **error);

G_END_DECLS
