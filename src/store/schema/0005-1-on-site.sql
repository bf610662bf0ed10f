-- SPDX-License-Identifier: GPL-3.0-or-later
-- SPDX-FileCopyrightText: The Halfshaft authors

-- What is done beside the vehicle: made safe, heard, photographed, linked by proofs, priced, disturbed and looked
-- after, learned about a model, and taken back.

-- Photos -------------------------------------------------------------------------------------------------------------

-- The bytes of photos by what is in them, so that one file is the whole business and the same photo stands in it once.
-- Pieces are 65536 bytes long, the last one is the rest.
CREATE TABLE photo_file (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE CONSTRAINT "A photo is known by the SHA-256 of its bytes"
    CHECK (length(id) = 64 AND id NOT GLOB '*[^0-9a-f]*'),
  media_type TEXT NOT NULL CONSTRAINT "A photo is a JPEG, PNG or WebP picture"
    CHECK (media_type IN ('image/jpeg', 'image/png', 'image/webp')),
  bytes INTEGER NOT NULL CONSTRAINT "A photo is not empty" CHECK (bytes > 0),
  width INTEGER NOT NULL CONSTRAINT "A photo is at least one pixel wide" CHECK (width > 0),
  height INTEGER NOT NULL CONSTRAINT "A photo is at least one pixel high" CHECK (height > 0),
  thumbnail BLOB
) STRICT;

CREATE TABLE photo_chunk (
  seq INTEGER PRIMARY KEY,
  file_id TEXT NOT NULL REFERENCES photo_file (id) ON DELETE CASCADE,
  n INTEGER NOT NULL CHECK (n >= 0),
  data BLOB NOT NULL,
  UNIQUE (file_id, n)
) STRICT;

-- file_id is no foreign key: a photo whose bytes are missing is shown as missing.
CREATE TABLE photo (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  job_id TEXT NOT NULL REFERENCES job (id),
  visit_id TEXT REFERENCES visit (id),
  finding_id TEXT REFERENCES finding (id),
  reading_id TEXT REFERENCES reading (id),
  file_id TEXT NOT NULL CONSTRAINT "A photo is known by the SHA-256 of its bytes"
    CHECK (length(file_id) = 64 AND file_id NOT GLOB '*[^0-9a-f]*'),
  name TEXT,
  words TEXT,
  phase TEXT NOT NULL CONSTRAINT "A photo is taken before, during or after"
    CHECK (phase IN ('before', 'during', 'after')),
  taken_at INTEGER,
  added_at INTEGER NOT NULL
) STRICT;
CREATE INDEX photo_job ON photo (job_id);
CREATE INDEX photo_file_id ON photo (file_id);
CREATE INDEX photo_visit ON photo (visit_id) WHERE visit_id IS NOT NULL;
CREATE INDEX photo_finding ON photo (finding_id) WHERE finding_id IS NOT NULL;
CREATE INDEX photo_reading ON photo (reading_id) WHERE reading_id IS NOT NULL;

-- Arriving and hearing -----------------------------------------------------------------------------------------------

CREATE TABLE safety (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  visit_id TEXT NOT NULL REFERENCES visit (id),
  item TEXT NOT NULL CONSTRAINT "An answer to the safety list names its item" CHECK (length(trim(item)) > 0),
  answer TEXT NOT NULL CONSTRAINT "An item of the safety list is done, not_here or refused"
    CHECK (answer IN ('done', 'not_here', 'refused')),
  why TEXT,
  at INTEGER NOT NULL,
  UNIQUE (visit_id, item),
  CONSTRAINT "Say why the work was refused" CHECK (answer <> 'refused' OR length(trim(ifnull(why, ''))) > 0)
) STRICT;

ALTER TABLE job ADD COLUMN saw_it TEXT CONSTRAINT "Whether the complaint was seen to happen is yes or no"
  CHECK (saw_it IN ('yes', 'no'));
ALTER TABLE job ADD COLUMN called_off_how TEXT CONSTRAINT "A call is called off as canceled, no_show or gone_on_arrival"
  CHECK (called_off_how IN ('canceled', 'no_show', 'gone_on_arrival'));

-- Why it failed ------------------------------------------------------------------------------------------------------

-- Links from before count as said, the weakest proof, until somebody says better.
ALTER TABLE because ADD COLUMN proof_kind TEXT NOT NULL DEFAULT 'said'
  CONSTRAINT "A link is proven by a reading, a photo, by what was seen, or only said"
  CHECK (proof_kind IN ('reading', 'photo', 'seen', 'said'));
ALTER TABLE because ADD COLUMN reading_id TEXT REFERENCES reading (id)
  CONSTRAINT "A link that is proven by a reading names it" CHECK (proof_kind <> 'reading' OR reading_id IS NOT NULL);
ALTER TABLE because ADD COLUMN photo_id TEXT REFERENCES photo (id)
  CONSTRAINT "A link that is proven by a photo names it" CHECK (proof_kind <> 'photo' OR photo_id IS NOT NULL);
CREATE INDEX because_reading ON because (reading_id) WHERE reading_id IS NOT NULL;
CREATE INDEX because_photo ON because (photo_id) WHERE photo_id IS NOT NULL;

ALTER TABLE finding ADD COLUMN cause TEXT;
ALTER TABLE finding ADD COLUMN said_by TEXT;
ALTER TABLE finding ADD COLUMN told_at INTEGER;

-- Choices, repair, notes ---------------------------------------------------------------------------------------------

-- cost, price and tax are the sums of the whole line.
CREATE TABLE advice_line (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  advice_id TEXT NOT NULL REFERENCES advice (id),
  kind TEXT NOT NULL CONSTRAINT "No such kind of line"
    CHECK (kind IN ('labor', 'part', 'call_out', 'core_deposit', 'discount', 'sundry', 'goodwill')),
  what TEXT NOT NULL CONSTRAINT "A line needs words" CHECK (length(trim(what)) > 0),
  quantity_milli INTEGER NOT NULL DEFAULT 1000,
  cost_cents INTEGER NOT NULL DEFAULT 0,
  price_cents INTEGER NOT NULL,
  tax_cents INTEGER NOT NULL DEFAULT 0
) STRICT;
CREATE INDEX advice_line_advice ON advice_line (advice_id);

-- What the repair disturbed, to be looked after before leaving.
CREATE TABLE disturbed (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  job_id TEXT NOT NULL REFERENCES job (id),
  what TEXT NOT NULL CONSTRAINT "Say what was disturbed" CHECK (length(trim(what)) > 0),
  check_id TEXT REFERENCES check_kind (id),
  done_at INTEGER,
  done_words TEXT,
  UNIQUE (job_id, what)
) STRICT;
CREATE INDEX disturbed_check ON disturbed (check_id) WHERE check_id IS NOT NULL;

ALTER TABLE installed_part ADD COLUMN old_part TEXT
  CONSTRAINT "The old part was shown, kept, handed_over, or goes back as a core"
  CHECK (old_part IN ('shown', 'kept', 'handed_over', 'core'));

CREATE TABLE model_note (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  make TEXT NOT NULL CONSTRAINT "A note on a model names its make" CHECK (length(trim(make)) > 0),
  model TEXT NOT NULL CONSTRAINT "A note on a model names it" CHECK (length(trim(model)) > 0),
  year_from INTEGER CONSTRAINT "The year of a vehicle has four digits" CHECK (year_from BETWEEN 1885 AND 2200),
  year_to INTEGER CONSTRAINT "The year of a vehicle has four digits" CHECK (year_to BETWEEN 1885 AND 2200),
  topic TEXT NOT NULL CONSTRAINT "A note on a model is on a place, a knack, a part_name or a caution"
    CHECK (topic IN ('place', 'knack', 'part_name', 'caution')),
  words TEXT NOT NULL CONSTRAINT "A note needs words" CHECK (length(trim(words)) > 0),
  job_id TEXT REFERENCES job (id),
  at INTEGER NOT NULL,
  CONSTRAINT "The years of a note stand in order" CHECK (year_from IS NULL OR year_to IS NULL OR year_from <= year_to)
) STRICT;
CREATE INDEX model_note_model ON model_note (make COLLATE NOCASE, model COLLATE NOCASE);
CREATE INDEX model_note_job ON model_note (job_id) WHERE job_id IS NOT NULL;

-- What can be taken back ---------------------------------------------------------------------------------------------

-- One step of work on a job: what it was, in the owner's words, and the rows that it changed.
CREATE TABLE undo_step (
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  id TEXT NOT NULL UNIQUE,
  job_id TEXT NOT NULL REFERENCES job (id) ON DELETE CASCADE,
  what TEXT NOT NULL CHECK (length(trim(what)) > 0),
  at INTEGER NOT NULL,
  changes BLOB NOT NULL,
  undone_at INTEGER
) STRICT;
CREATE INDEX undo_step_job ON undo_step (job_id);
