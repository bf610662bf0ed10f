-- SPDX-License-Identifier: GPL-3.0-or-later
-- SPDX-FileCopyrightText: The Halfshaft authors

-- What was declined may be signed, too; the signature of a yes stands with its go-ahead. And the fee for a job that was
-- called off is squared up.

ALTER TABLE advice ADD COLUMN signature BLOB;

CREATE TRIGGER advice_signature_insert BEFORE INSERT ON advice
WHEN length(NEW.signature) = 0 OR length(NEW.signature) > 16384
BEGIN SELECT RAISE (ABORT, 'A signature has 1 to 16,384 bytes; clear it and sign again'); END;
CREATE TRIGGER advice_signature_update BEFORE UPDATE ON advice
WHEN length(NEW.signature) = 0 OR length(NEW.signature) > 16384
BEGIN SELECT RAISE (ABORT, 'A signature has 1 to 16,384 bytes; clear it and sign again'); END;

-- A fee for what was called off is charged without a go-ahead: nobody is there to give one. Other lines need theirs.
DROP VIEW overrun_job;
CREATE VIEW overrun_job AS
  SELECT j.id FROM job j
  WHERE +j.stage = 'squared'
    AND (SELECT ifnull(sum(l.price_cents + l.tax_cents), 0) FROM line l
         WHERE l.job_id = j.id AND NOT (j.called_off_how IS NOT NULL AND l.kind = 'call_out'))
      > ifnull((SELECT g.ceiling_cents FROM go_ahead g WHERE g.job_id = j.id ORDER BY g.seq DESC LIMIT 1)
               + ifnull((SELECT CAST(s.value AS INTEGER) FROM setting s WHERE s.id = 'overrun_cents'), 0), 0);
