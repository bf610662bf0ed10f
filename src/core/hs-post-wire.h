// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-post-next.h"

G_BEGIN_DECLS

/* Between the queue, which knows the book, and the wire, which knows the network: neither knows the other. */

typedef enum
{
  HS_POST_AUTH_NONE,
  HS_POST_AUTH_BEARER,
  HS_POST_AUTH_BASIC,
} HsPostAuth;

/* hs_post_auth_id: `none`, `bearer`, `basic`. */
const char *hs_post_auth_id (HsPostAuth auth);
gboolean hs_post_auth_parse (const char *id, HsPostAuth *ret_auth);

/**
 * HsPostParcel:
 * @key: idempotency key, a UUID without quotes
 * @url: where it goes; hs_post_address_parse() took it
 * @origin: whom the secret belongs to
 * @put: PUT, to a place of the job's own; else POST
 * @body: JSON
 * @user: of HS_POST_AUTH_BASIC
 * @secret_file: (nullable): where the secret lies instead of in the keyring, because the owner said so
 * @ca_file: (nullable): the only authorities that count, in PEM; %NULL: those of the machine
 *
 * One message, ready to be sent. It does not hold the secret.
 */
typedef struct
{
  char *key;
  char *job_id;
  gint64 revision;
  char *url;
  char *origin;
  gboolean put;
  char *body;
  HsPostAuth auth;
  char *user;
  char *secret_file;
  char *ca_file;
} HsPostParcel;

void hs_post_parcel_free (HsPostParcel *parcel);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsPostParcel, hs_post_parcel_free)

/**
 * HsPostReply:
 * @status: of HS_POST_ANSWERED
 * @retry_after: (nullable): the header as it came
 * @said: (nullable): one line: what the endpoint, or the machine, says is wrong
 */
typedef struct
{
  HsPostEnd end;
  int status;
  char *retry_after;
  char *said;
} HsPostReply;

void hs_post_reply_clear (HsPostReply *reply);

/* Slower than this no network is waited for. */
#define HS_POST_LEAST_BYTES_A_SECOND 16384

/* hs_post_seconds_for: how long a message of @bytes may take as a whole, where a small one may take @seconds: photos
 * over a weak telephone take minutes, and are not to hold the others for ever. */
guint hs_post_seconds_for (guint seconds, gsize bytes);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (HsPostReply, hs_post_reply_clear)

/**
 * HsPostWorks:
 * @send: sends one message and waits for how it ends; @ret_reply is all zero before
 * @clock: the true time
 * @draw: a random number, 0 to 1
 * @stop: (nullable): asked between two messages: %TRUE ends it
 * @data: for all of them
 *
 * What the queue needs of the world.
 */
typedef struct
{
  void (*send) (gpointer data, const HsPostParcel *parcel, HsPostReply *ret_reply);
  HsInstant (*clock) (gpointer data);
  double (*draw) (gpointer data);
  gboolean (*stop) (gpointer data);
  gpointer data;
} HsPostWorks;

G_END_DECLS
