// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-time.h"
#include "hs-tongue.h"

G_BEGIN_DECLS

/* What follows when a job was posted to the owner's endpoint, or could not be. */

/**
 * HsPostEnd:
 * @HS_POST_ANSWERED: with a status
 * @HS_POST_UNREACHABLE: no such name, refused, cut off before an answer began
 * @HS_POST_TIMED_OUT: the answer took too long
 * @HS_POST_BAD_REPLY: what came back is not HTTP
 * @HS_POST_BAD_CERTIFICATE: who answered could not prove to be who the address says; nothing was sent
 * @HS_POST_NO_SECRET: the secret could not be had; nothing was sent
 * @HS_POST_NO_AUTHORITIES: the owner's own authorities could not be read; nothing was sent
 * @HS_POST_BAD_ADDRESS: there is no address, or none that may be posted to; nothing was sent
 * @HS_POST_BAD_BODY: the message of this job could not be made; nothing was sent
 */
typedef enum
{
  HS_POST_ANSWERED,
  HS_POST_UNREACHABLE,
  HS_POST_TIMED_OUT,
  HS_POST_BAD_REPLY,
  HS_POST_BAD_CERTIFICATE,
  HS_POST_NO_SECRET,
  HS_POST_NO_AUTHORITIES,
  HS_POST_BAD_ADDRESS,
  HS_POST_BAD_BODY,
} HsPostEnd;

/* hs_post_end_id: the word that the book keeps: `answered`, `unreachable`, … */
const char *hs_post_end_id (HsPostEnd end);

/* hs_post_end_parse: %FALSE for any other word. */
gboolean hs_post_end_parse (const char *id, HsPostEnd *ret_end);

/**
 * HsPostOutcome:
 * @status: of an answer, else 0
 * @not_before: what Retry-After asked for, or %HS_INSTANT_NONE
 */
typedef struct
{
  HsPostEnd end;
  int status;
  HsInstant not_before;
} HsPostOutcome;

/**
 * HsPostDo:
 * @HS_POST_DO_SENT: it is there
 * @HS_POST_DO_RETRY: the same once more, at HsPostNext.at
 * @HS_POST_DO_PARK: this one waits for the owner, the queue goes on
 * @HS_POST_DO_PAUSE: the whole queue waits for the owner
 */
typedef enum
{
  HS_POST_DO_SENT,
  HS_POST_DO_RETRY,
  HS_POST_DO_PARK,
  HS_POST_DO_PAUSE,
} HsPostDo;

/**
 * HsPostNext:
 * @whole_queue: the endpoint is to blame, so that no other is tried before @at either
 * @at: of a retry; %HS_INSTANT_NONE otherwise
 */
typedef struct
{
  HsPostDo what;
  gboolean whole_queue;
  HsInstant at;
} HsPostNext;

/**
 * hs_post_next:
 * @tries: how often it failed in a row before this time
 * @now: when it ended
 * @draw: a random number, 0 to 1, that spreads the wait over ±20 %
 *
 * 2xx is sent. 3xx, 401, 403 and 407, a missing secret, authorities that cannot be read and a bad address pause the
 * queue: all others would end the same way. 5xx, 408, 429, and whatever is no answer, are tried again after 1, 5, 15
 * and 60 minutes, then hourly, never before what Retry-After asked for (RFC 9110, 10.2.3). So is 409 if it may mean
 * that the first request with this key still runs (draft-ietf-httpapi-idempotency-key-header, 2.6): Retry-After came
 * with it, or the key was sent before, up to %HS_POST_MOST_RUNNING times. Any other 4xx parks.
 */
HsPostNext hs_post_next (const HsPostOutcome *outcome, guint tries, HsInstant now, double draw);

#define HS_POST_MOST_RUNNING 5

/* So many tries in a row, 1, 5 and 15 minutes and then an hour apart, are a day: from then on she is told. */
#define HS_POST_TRIES_A_DAY 27

/* Clocks are put right by less than this every now and then. */
#define HS_POST_CLOCK_SECONDS 300

/**
 * hs_post_clock_went_back:
 * @tried_at: when something was last tried, or %HS_INSTANT_NONE
 *
 * Whether the clock was ahead when that was written down. What is waited for since then may lie years away, and is not
 * to be waited for.
 */
gboolean hs_post_clock_went_back (HsInstant tried_at, HsInstant now);

/**
 * hs_post_outcome_say:
 * @tongue: (nullable): what puts it into the owner's language
 *
 * Returns: (transfer full): what happened and what to do: "The endpoint refuses the secret (401). Put in the right
 *   one."
 */
char *hs_post_outcome_say (const HsPostOutcome *outcome, const HsTongue *tongue);

G_END_DECLS
