-- SPDX-License-Identifier: GPL-3.0-or-later
-- SPDX-FileCopyrightText: The Halfshaft authors

-- What is kept stays kept on any connection. With the settings of this program a row that would be replaced is deleted
-- first, which the rules refuse; those that SQLite starts with let it vanish without a word. So no update takes the id
-- or the place of another row, no part goes over one in its place, and a replaced link leaves no proven cause on words.


CREATE TRIGGER job_not_overwritten BEFORE UPDATE ON job
WHEN (NEW.id, NEW.number, NEW.seq) <> (OLD.id, OLD.number, OLD.seq)
 AND EXISTS (SELECT 1 FROM job x WHERE (x.id = NEW.id OR x.number = NEW.number OR x.seq = NEW.seq) AND x.seq <> OLD.seq)
BEGIN
  SELECT RAISE (ABORT, 'A job that is squared up is kept')
    FROM job x WHERE (x.id = NEW.id OR x.number = NEW.number OR x.seq = NEW.seq) AND x.seq <> OLD.seq
                 AND +x.stage = 'squared';
  SELECT RAISE (ABORT, 'The number of the job is in the book already')
    FROM job x WHERE x.number = NEW.number AND x.seq <> OLD.seq;
  SELECT RAISE (ABORT, 'Another job has this id or place; it is kept');
END;

CREATE TRIGGER visit_not_overwritten BEFORE UPDATE ON visit
WHEN (NEW.id, NEW.seq) <> (OLD.id, OLD.seq)
 AND EXISTS (SELECT 1 FROM visit x WHERE (x.id = NEW.id OR x.seq = NEW.seq) AND x.seq <> OLD.seq)
BEGIN
  SELECT RAISE (ABORT, 'The job is squared up; write a return visit or a credit')
    FROM visit x JOIN job j ON j.id = x.job_id
    WHERE (x.id = NEW.id OR x.seq = NEW.seq) AND x.seq <> OLD.seq AND +j.stage = 'squared';
  SELECT RAISE (ABORT, 'Another row has this id or place; it is kept');
END;

CREATE TRIGGER line_not_overwritten BEFORE UPDATE ON line
WHEN (NEW.id, NEW.seq) <> (OLD.id, OLD.seq)
 AND EXISTS (SELECT 1 FROM line x WHERE (x.id = NEW.id OR x.seq = NEW.seq) AND x.seq <> OLD.seq)
BEGIN
  SELECT RAISE (ABORT, 'The job is squared up; write a return visit or a credit')
    FROM line x JOIN job j ON j.id = x.job_id
    WHERE (x.id = NEW.id OR x.seq = NEW.seq) AND x.seq <> OLD.seq AND +j.stage = 'squared';
  SELECT RAISE (ABORT, 'Another row has this id or place; it is kept');
END;

CREATE TRIGGER reading_not_overwritten BEFORE UPDATE ON reading
WHEN (NEW.id, NEW.seq) <> (OLD.id, OLD.seq)
 AND EXISTS (SELECT 1 FROM reading x WHERE (x.id = NEW.id OR x.seq = NEW.seq) AND x.seq <> OLD.seq)
BEGIN
  SELECT RAISE (ABORT, 'The job is squared up; write a return visit or a credit')
    FROM reading x JOIN job j ON j.id = x.job_id
    WHERE (x.id = NEW.id OR x.seq = NEW.seq) AND x.seq <> OLD.seq AND +j.stage = 'squared';
  SELECT RAISE (ABORT, 'Another row has this id or place; it is kept');
END;

CREATE TRIGGER finding_not_overwritten BEFORE UPDATE ON finding
WHEN (NEW.id, NEW.seq) <> (OLD.id, OLD.seq)
 AND EXISTS (SELECT 1 FROM finding x WHERE (x.id = NEW.id OR x.seq = NEW.seq) AND x.seq <> OLD.seq)
BEGIN
  SELECT RAISE (ABORT, 'The job is squared up; write a return visit or a credit')
    FROM finding x JOIN job j ON j.id = x.job_id
    WHERE (x.id = NEW.id OR x.seq = NEW.seq) AND x.seq <> OLD.seq AND +j.stage = 'squared';
  SELECT RAISE (ABORT, 'Another row has this id or place; it is kept');
END;

CREATE TRIGGER photo_not_overwritten BEFORE UPDATE ON photo
WHEN (NEW.id, NEW.seq) <> (OLD.id, OLD.seq)
 AND EXISTS (SELECT 1 FROM photo x WHERE (x.id = NEW.id OR x.seq = NEW.seq) AND x.seq <> OLD.seq)
BEGIN
  SELECT RAISE (ABORT, 'The job is squared up; write a return visit or a credit')
    FROM photo x JOIN job j ON j.id = x.job_id
    WHERE (x.id = NEW.id OR x.seq = NEW.seq) AND x.seq <> OLD.seq AND +j.stage = 'squared';
  SELECT RAISE (ABORT, 'Another row has this id or place; it is kept');
END;

CREATE TRIGGER disturbed_not_overwritten BEFORE UPDATE ON disturbed
WHEN (NEW.id, NEW.seq) <> (OLD.id, OLD.seq)
 AND EXISTS (SELECT 1 FROM disturbed x WHERE (x.id = NEW.id OR x.seq = NEW.seq) AND x.seq <> OLD.seq)
BEGIN
  SELECT RAISE (ABORT, 'The job is squared up; write a return visit or a credit')
    FROM disturbed x JOIN job j ON j.id = x.job_id
    WHERE (x.id = NEW.id OR x.seq = NEW.seq) AND x.seq <> OLD.seq AND +j.stage = 'squared';
  SELECT RAISE (ABORT, 'Another row has this id or place; it is kept');
END;

CREATE TRIGGER advice_not_overwritten BEFORE UPDATE ON advice
WHEN (NEW.id, NEW.seq) <> (OLD.id, OLD.seq)
 AND EXISTS (SELECT 1 FROM advice x WHERE (x.id = NEW.id OR x.seq = NEW.seq) AND x.seq <> OLD.seq)
BEGIN
  SELECT RAISE (ABORT, 'The job is squared up; write a return visit or a credit')
    FROM advice x JOIN job j ON j.id = x.job_id
    WHERE (x.id = NEW.id OR x.seq = NEW.seq) AND x.seq <> OLD.seq AND +j.stage = 'squared';
  SELECT RAISE (ABORT, 'Another row has this id or place; it is kept');
END;

CREATE TRIGGER installed_part_not_overwritten BEFORE UPDATE ON installed_part
WHEN (NEW.id, NEW.seq) <> (OLD.id, OLD.seq)
 AND EXISTS (SELECT 1 FROM installed_part x WHERE (x.id = NEW.id OR x.seq = NEW.seq) AND x.seq <> OLD.seq)
BEGIN
  SELECT RAISE (ABORT, 'The job is squared up; write a return visit or a credit')
    FROM installed_part x JOIN job j ON j.id = x.job_id
    WHERE (x.id = NEW.id OR x.seq = NEW.seq) AND x.seq <> OLD.seq AND +j.stage = 'squared';
  SELECT RAISE (ABORT, 'Another row has this id or place; it is kept');
END;

CREATE TRIGGER safety_not_overwritten BEFORE UPDATE ON safety
WHEN (NEW.id, NEW.seq) <> (OLD.id, OLD.seq)
 AND EXISTS (SELECT 1 FROM safety x WHERE (x.id = NEW.id OR x.seq = NEW.seq) AND x.seq <> OLD.seq)
BEGIN
  SELECT RAISE (ABORT, 'The job is squared up; write a return visit or a credit')
    FROM safety x JOIN visit p ON p.id = x.visit_id JOIN job j ON j.id = p.job_id
    WHERE (x.id = NEW.id OR x.seq = NEW.seq) AND x.seq <> OLD.seq AND +j.stage = 'squared';
  SELECT RAISE (ABORT, 'Another row has this id or place; it is kept');
END;

CREATE TRIGGER advice_line_not_overwritten BEFORE UPDATE ON advice_line
WHEN (NEW.id, NEW.seq) <> (OLD.id, OLD.seq)
 AND EXISTS (SELECT 1 FROM advice_line x WHERE (x.id = NEW.id OR x.seq = NEW.seq) AND x.seq <> OLD.seq)
BEGIN
  SELECT RAISE (ABORT, 'The job is squared up; write a return visit or a credit')
    FROM advice_line x JOIN advice p ON p.id = x.advice_id JOIN job j ON j.id = p.job_id
    WHERE (x.id = NEW.id OR x.seq = NEW.seq) AND x.seq <> OLD.seq AND +j.stage = 'squared';
  SELECT RAISE (ABORT, 'Another row has this id or place; it is kept');
END;

CREATE TRIGGER installed_part_not_displaced BEFORE UPDATE ON installed_part
WHEN NEW.removed_on IS NULL AND (NEW.place IS NOT NULL OR NEW.kind = 'battery')
 AND EXISTS (SELECT 1 FROM installed_part x
             WHERE x.vehicle_id = NEW.vehicle_id AND ifnull(x.kind, '') = ifnull(NEW.kind, '')
               AND lower(ifnull(x.place, '')) = lower(ifnull(NEW.place, '')) AND x.removed_on IS NULL
               AND (x.place IS NOT NULL OR x.kind = 'battery') AND x.seq <> OLD.seq)
BEGIN SELECT RAISE (ABORT, 'There is one already in that place on this vehicle; remove it first'); END;

CREATE TRIGGER because_leg_insert BEFORE INSERT ON because
WHEN EXISTS (SELECT 1 FROM because x JOIN finding f ON f.id = x.cause_id
             WHERE (x.id = NEW.id OR x.seq = NEW.seq) AND f.sure = 'proven' AND x.proof_kind <> 'said'
               AND x.cause_id <> NEW.cause_id)
BEGIN
  SELECT RAISE (ABORT, 'A finding that counts as proven would stand only on what was said; call it suspected first');
END;

-- What was made safe on a visit is frozen with its job, so the visit neither goes over to another nor goes.
CREATE TRIGGER visit_safety_update BEFORE UPDATE ON visit
WHEN (NEW.id, NEW.job_id) <> (OLD.id, OLD.job_id) AND EXISTS (SELECT 1 FROM safety WHERE visit_id = OLD.id)
 AND EXISTS (SELECT 1 FROM job WHERE id IN (OLD.job_id, NEW.job_id) AND stage = 'squared')
BEGIN SELECT RAISE (ABORT, 'The job is squared up; write a return visit or a credit'); END;
CREATE TRIGGER visit_safety_delete BEFORE DELETE ON visit
WHEN EXISTS (SELECT 1 FROM safety WHERE visit_id = OLD.id)
 AND EXISTS (SELECT 1 FROM job WHERE id = OLD.job_id AND stage = 'squared')
BEGIN SELECT RAISE (ABORT, 'The job is squared up; write a return visit or a credit'); END;
CREATE TRIGGER visit_safety_insert BEFORE INSERT ON visit
WHEN EXISTS (SELECT 1 FROM visit x JOIN safety s ON s.visit_id = x.id JOIN job j ON j.id = x.job_id
             WHERE (x.id = NEW.id OR x.seq = NEW.seq) AND (x.id, x.job_id) <> (NEW.id, NEW.job_id)
               AND +j.stage = 'squared')
BEGIN SELECT RAISE (ABORT, 'The job is squared up; write a return visit or a credit'); END;
