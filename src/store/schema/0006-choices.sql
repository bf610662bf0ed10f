-- SPDX-License-Identifier: GPL-3.0-or-later
-- SPDX-FileCopyrightText: The Halfshaft authors

-- What is told and picked, and how far the customer's yes goes: which part of the catalog a line of an option means,
-- which line of the bill and which need came of a picked option, how far a job may pass its ceiling, and how long a
-- signature is.

ALTER TABLE advice_line ADD COLUMN part_id TEXT REFERENCES part (id);
CREATE INDEX advice_line_part ON advice_line (part_id) WHERE part_id IS NOT NULL;
ALTER TABLE line ADD COLUMN advice_line_id TEXT REFERENCES advice_line (id);
CREATE INDEX line_advice_line ON line (advice_line_id) WHERE advice_line_id IS NOT NULL;
ALTER TABLE need ADD COLUMN advice_line_id TEXT REFERENCES advice_line (id);
CREATE INDEX need_advice_line ON need (advice_line_id) WHERE advice_line_id IS NOT NULL;

-- The owner's over-run counts from a go-ahead; without one nothing is covered.
DROP VIEW overrun_job;
CREATE VIEW overrun_job AS
  SELECT j.id FROM job j
  WHERE +j.stage = 'squared'
    AND (SELECT ifnull(sum(l.price_cents + l.tax_cents), 0) FROM line l WHERE l.job_id = j.id)
      > ifnull((SELECT g.ceiling_cents FROM go_ahead g WHERE g.job_id = j.id ORDER BY g.seq DESC LIMIT 1)
               + ifnull((SELECT CAST(s.value AS INTEGER) FROM setting s WHERE s.id = 'overrun_cents'), 0), 0);

CREATE TRIGGER line_of_own_option BEFORE INSERT ON line
WHEN NEW.advice_line_id IS NOT NULL
 AND (SELECT p.job_id FROM advice_line x JOIN advice p ON p.id = x.advice_id WHERE x.id = NEW.advice_line_id)
     IS NOT NEW.job_id
BEGIN SELECT RAISE (ABORT, 'A line comes of an option of its own job'); END;
CREATE TRIGGER line_keeps_own_option BEFORE UPDATE ON line
WHEN NEW.advice_line_id IS NOT NULL
 AND (SELECT p.job_id FROM advice_line x JOIN advice p ON p.id = x.advice_id WHERE x.id = NEW.advice_line_id)
     IS NOT NEW.job_id
BEGIN SELECT RAISE (ABORT, 'A line comes of an option of its own job'); END;
CREATE TRIGGER need_of_own_option BEFORE INSERT ON need
WHEN NEW.advice_line_id IS NOT NULL
 AND (SELECT p.job_id FROM advice_line x JOIN advice p ON p.id = x.advice_id WHERE x.id = NEW.advice_line_id)
     IS NOT NEW.job_id
BEGIN SELECT RAISE (ABORT, 'A need comes of an option of its own job'); END;
CREATE TRIGGER need_keeps_own_option BEFORE UPDATE ON need
WHEN NEW.advice_line_id IS NOT NULL
 AND (SELECT p.job_id FROM advice_line x JOIN advice p ON p.id = x.advice_id WHERE x.id = NEW.advice_line_id)
     IS NOT NEW.job_id
BEGIN SELECT RAISE (ABORT, 'A need comes of an option of its own job'); END;
-- An option that went over to another job would take what came of its lines with it.
CREATE TRIGGER advice_keeps_its_job BEFORE UPDATE ON advice
WHEN NEW.job_id <> OLD.job_id
 AND (EXISTS (SELECT 1 FROM advice_line x JOIN line l ON l.advice_line_id = x.id WHERE x.advice_id = OLD.id)
      OR EXISTS (SELECT 1 FROM advice_line x JOIN need n ON n.advice_line_id = x.id WHERE x.advice_id = OLD.id))
BEGIN SELECT RAISE (ABORT, 'Lines of the bill came of this option; it stays with its job'); END;
CREATE TRIGGER advice_line_keeps_its_option BEFORE UPDATE ON advice_line
WHEN NEW.advice_id <> OLD.advice_id
 AND (EXISTS (SELECT 1 FROM line WHERE advice_line_id = OLD.id) OR EXISTS (SELECT 1 FROM need WHERE advice_line_id = OLD.id))
BEGIN SELECT RAISE (ABORT, 'A line of the bill came of this line; it stays with its option'); END;

CREATE TRIGGER go_ahead_signature BEFORE INSERT ON go_ahead
WHEN length(NEW.signature) = 0 OR length(NEW.signature) > 16384
BEGIN SELECT RAISE (ABORT, 'A signature has 1 to 16,384 bytes; clear it and sign again'); END;
