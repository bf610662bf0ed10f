// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What the queue of the endpoint refuses. */

#include "refusals.h"

#define ONE \
  "INSERT INTO outbox (id, job_id, revision, state, queued_at, body) VALUES ('k', 'open', 5, 'waiting', 1, 'b'); "

const Refusal outbox_refusals[] = {
  { "a second message of a job", ONE,
    "INSERT INTO outbox (id, job_id, revision, state, queued_at) VALUES ('k2', 'open', 6, 'waiting', 1)", "job_id",
    TRUE },
  { "a key that is taken", ONE,
    "INSERT INTO outbox (id, job_id, revision, state, queued_at) VALUES ('k', 'open2', 6, 'waiting', 1)", "id", TRUE },
  { "a message of no job", NULL,
    "INSERT INTO outbox (id, job_id, revision, state, queued_at) VALUES ('k', 'none', 6, 'waiting', 1)",
    "FOREIGN KEY", FALSE },
  { "no such state of a message", NULL,
    "INSERT INTO outbox (id, job_id, revision, state, queued_at) VALUES ('k', 'open', 6, 'lost', 1)",
    "A message is waiting, parked, sent or dropped", TRUE },
  { "revision 0", NULL,
    "INSERT INTO outbox (id, job_id, revision, state, queued_at) VALUES ('k', 'open', 0, 'waiting', 1)",
    "A revision counts from 1", TRUE },
  { "tries below 0", ONE, "UPDATE outbox SET tries = -1", "tried 0 times or more", TRUE },
  { "sent without when", ONE, "UPDATE outbox SET state = 'sent', body = NULL, sent_revision = 5",
    "says when, and which", TRUE },
  { "sent without which", ONE, "UPDATE outbox SET state = 'sent', body = NULL, sent_at = 9",
    "says when, and which", TRUE },
  { "sent another one", ONE, "UPDATE outbox SET state = 'sent', body = NULL, sent_at = 9, sent_revision = 4",
    "says when, and which", TRUE },
  { "sent with its body", ONE, "UPDATE outbox SET state = 'sent', sent_at = 9, sent_revision = 5",
    "done with keeps no body", TRUE },
  { "dropped with its body", ONE, "UPDATE outbox SET state = 'dropped'", "done with keeps no body", TRUE },
  { "parked without why", ONE, "UPDATE outbox SET state = 'parked'", "parked says why", TRUE },
  { "a revision goes back", ONE, "UPDATE outbox SET id = 'k3', revision = 4", "A revision never goes back", TRUE },
  { "what was sent goes back", ONE "UPDATE outbox SET sent_at = 3, sent_revision = 4; ",
    "UPDATE outbox SET sent_revision = 3", "A revision never goes back", TRUE },
  { "what was sent is forgotten", ONE "UPDATE outbox SET sent_at = 3, sent_revision = 4; ",
    "UPDATE outbox SET sent_revision = NULL", "A revision never goes back", TRUE },
  { "another body under the same key", ONE, "UPDATE outbox SET body = 'c'", "A key stands for one message", TRUE },
  { "another revision under the same key", ONE, "UPDATE outbox SET revision = 6", "A key stands for one message",
    TRUE },
  { "another job under the same key", ONE, "UPDATE outbox SET job_id = 'open2'", "A key stands for one message", TRUE },
  { "a second queue", NULL, "INSERT INTO outbox_queue (seq, id) VALUES (1, 'other')", "There is one queue", TRUE },
  { "a queue in another place", NULL, "INSERT INTO outbox_queue (seq, id) VALUES (2, 'queue')", "seq", TRUE },
  { "paused without why", NULL, "INSERT INTO outbox_queue (seq, id, paused_at) VALUES (1, 'queue', 4)",
    "A queue that is paused says why", TRUE },
  { "a machine without id", NULL, "INSERT INTO post_device (id, name, since) VALUES (' ', 'bench', 1)",
    "A machine that posts is known by its id", TRUE },
};
const guint n_outbox_refusals = G_N_ELEMENTS (outbox_refusals);
