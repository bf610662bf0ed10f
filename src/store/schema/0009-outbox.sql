-- SPDX-License-Identifier: GPL-3.0-or-later
-- SPDX-FileCopyrightText: The Halfshaft authors

-- What is posted to the owner's own endpoint. Nothing here holds the secret.

-- The machines that post; a book that is carried to another one does not post from there by itself.
CREATE TABLE post_device (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE CONSTRAINT "A machine that posts is known by its id" CHECK (length(trim(id)) > 0),
  name TEXT NOT NULL,
  since INTEGER NOT NULL
) STRICT;

-- One message a job, the newest. The id is its idempotency key: it stays for as long as the revision is the same. seq is
-- the order in which they are sent. The body is made when it is first tried and then stays, for the same key must never
-- come with another body; once sent it goes.
CREATE TABLE outbox (
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  id TEXT NOT NULL UNIQUE,
  job_id TEXT NOT NULL UNIQUE REFERENCES job (id) ON DELETE CASCADE,
  revision INTEGER NOT NULL CONSTRAINT "A revision counts from 1" CHECK (revision >= 1),
  state TEXT NOT NULL CONSTRAINT "A message is waiting, parked, sent or dropped"
    CHECK (state IN ('waiting', 'parked', 'sent', 'dropped')),
  queued_at INTEGER NOT NULL,
  body TEXT,
  tries INTEGER NOT NULL DEFAULT 0 CONSTRAINT "A message is tried 0 times or more" CHECK (tries >= 0),
  tried_at INTEGER,
  next_at INTEGER,
  ended TEXT,
  status INTEGER,
  said TEXT,
  sent_at INTEGER,
  sent_revision INTEGER,
  CONSTRAINT "A message that is sent says when, and which"
    CHECK (state <> 'sent' OR (sent_at IS NOT NULL AND sent_revision IS revision)),
  CONSTRAINT "A message that is parked says why" CHECK (state <> 'parked' OR ended IS NOT NULL),
  CONSTRAINT "A message that is done with keeps no body" CHECK (body IS NULL OR state IN ('waiting', 'parked'))
) STRICT;
CREATE INDEX outbox_unsent ON outbox (state, seq) WHERE state IN ('waiting', 'parked');

-- The order of what was sent never goes back, and neither does what a receiver was told.
CREATE TRIGGER outbox_revision BEFORE UPDATE ON outbox
WHEN NEW.revision < OLD.revision OR (OLD.sent_revision IS NOT NULL AND ifnull(NEW.sent_revision, 0) < OLD.sent_revision)
BEGIN SELECT RAISE (ABORT, 'A revision never goes back'); END;
CREATE TRIGGER outbox_key BEFORE UPDATE ON outbox
WHEN NEW.id = OLD.id AND (NEW.job_id <> OLD.job_id OR NEW.revision <> OLD.revision
                          OR (OLD.body IS NOT NULL AND NEW.body IS NOT NULL AND NEW.body <> OLD.body))
BEGIN SELECT RAISE (ABORT, 'A key stands for one message; make another key'); END;

-- What holds for all of them: the one row says why nothing is sent, and until when.
CREATE TABLE outbox_queue (
  seq INTEGER PRIMARY KEY CHECK (seq = 1),
  id TEXT NOT NULL UNIQUE CONSTRAINT "There is one queue" CHECK (id = 'queue'),
  paused_at INTEGER,
  hold_until INTEGER,
  tries INTEGER NOT NULL DEFAULT 0 CHECK (tries >= 0),
  ended TEXT,
  status INTEGER,
  said TEXT,
  CONSTRAINT "A queue that is paused says why" CHECK (paused_at IS NULL OR ended IS NOT NULL)
) STRICT;
