-- SPDX-License-Identifier: GPL-3.0-or-later
-- SPDX-FileCopyrightText: The Halfshaft authors

-- Rules of what is done on site. As before they hold for insert, update, delete and replace, and for moving a row to
-- another job.

-- What squared up freezes --------------------------------------------------------------------------------------------

CREATE TRIGGER photo_squared_insert BEFORE INSERT ON photo
WHEN EXISTS (SELECT 1 FROM job WHERE id = NEW.job_id AND stage = 'squared')
  OR EXISTS (SELECT 1 FROM photo x JOIN job j ON j.id = x.job_id
             WHERE (x.id = NEW.id OR x.seq = NEW.seq) AND +j.stage = 'squared')
BEGIN SELECT RAISE (ABORT, 'The job is squared up; write a return visit or a credit'); END;
CREATE TRIGGER photo_squared_update BEFORE UPDATE ON photo
WHEN EXISTS (SELECT 1 FROM job WHERE id IN (OLD.job_id, NEW.job_id) AND stage = 'squared')
BEGIN SELECT RAISE (ABORT, 'The job is squared up; write a return visit or a credit'); END;
CREATE TRIGGER photo_squared_delete BEFORE DELETE ON photo
WHEN EXISTS (SELECT 1 FROM job WHERE id = OLD.job_id AND stage = 'squared')
BEGIN SELECT RAISE (ABORT, 'The job is squared up; write a return visit or a credit'); END;

CREATE TRIGGER disturbed_squared_insert BEFORE INSERT ON disturbed
WHEN EXISTS (SELECT 1 FROM job WHERE id = NEW.job_id AND stage = 'squared')
  OR EXISTS (SELECT 1 FROM disturbed x JOIN job j ON j.id = x.job_id
             WHERE (x.id = NEW.id OR x.seq = NEW.seq) AND +j.stage = 'squared')
BEGIN SELECT RAISE (ABORT, 'The job is squared up; write a return visit or a credit'); END;
CREATE TRIGGER disturbed_squared_update BEFORE UPDATE ON disturbed
WHEN EXISTS (SELECT 1 FROM job WHERE id IN (OLD.job_id, NEW.job_id) AND stage = 'squared')
BEGIN SELECT RAISE (ABORT, 'The job is squared up; write a return visit or a credit'); END;
CREATE TRIGGER disturbed_squared_delete BEFORE DELETE ON disturbed
WHEN EXISTS (SELECT 1 FROM job WHERE id = OLD.job_id AND stage = 'squared')
BEGIN SELECT RAISE (ABORT, 'The job is squared up; write a return visit or a credit'); END;

CREATE TRIGGER safety_squared_insert BEFORE INSERT ON safety
WHEN EXISTS (SELECT 1 FROM visit p JOIN job j ON j.id = p.job_id WHERE p.id = NEW.visit_id AND +j.stage = 'squared')
  OR EXISTS (SELECT 1 FROM safety x JOIN visit p ON p.id = x.visit_id JOIN job j ON j.id = p.job_id
             WHERE (x.id = NEW.id OR x.seq = NEW.seq) AND +j.stage = 'squared')
BEGIN SELECT RAISE (ABORT, 'The job is squared up; write a return visit or a credit'); END;
CREATE TRIGGER safety_squared_update BEFORE UPDATE ON safety
WHEN EXISTS (SELECT 1 FROM visit p JOIN job j ON j.id = p.job_id
             WHERE p.id IN (OLD.visit_id, NEW.visit_id) AND +j.stage = 'squared')
BEGIN SELECT RAISE (ABORT, 'The job is squared up; write a return visit or a credit'); END;
CREATE TRIGGER safety_squared_delete BEFORE DELETE ON safety
WHEN EXISTS (SELECT 1 FROM visit p JOIN job j ON j.id = p.job_id WHERE p.id = OLD.visit_id AND +j.stage = 'squared')
BEGIN SELECT RAISE (ABORT, 'The job is squared up; write a return visit or a credit'); END;

CREATE TRIGGER advice_line_squared_insert BEFORE INSERT ON advice_line
WHEN EXISTS (SELECT 1 FROM advice p JOIN job j ON j.id = p.job_id WHERE p.id = NEW.advice_id AND +j.stage = 'squared')
  OR EXISTS (SELECT 1 FROM advice_line x JOIN advice p ON p.id = x.advice_id JOIN job j ON j.id = p.job_id
             WHERE (x.id = NEW.id OR x.seq = NEW.seq) AND +j.stage = 'squared')
BEGIN SELECT RAISE (ABORT, 'The job is squared up; write a return visit or a credit'); END;
CREATE TRIGGER advice_line_squared_update BEFORE UPDATE ON advice_line
WHEN EXISTS (SELECT 1 FROM advice p JOIN job j ON j.id = p.job_id
             WHERE p.id IN (OLD.advice_id, NEW.advice_id) AND +j.stage = 'squared')
BEGIN SELECT RAISE (ABORT, 'The job is squared up; write a return visit or a credit'); END;
CREATE TRIGGER advice_line_squared_delete BEFORE DELETE ON advice_line
WHEN EXISTS (SELECT 1 FROM advice p JOIN job j ON j.id = p.job_id WHERE p.id = OLD.advice_id AND +j.stage = 'squared')
BEGIN SELECT RAISE (ABORT, 'The job is squared up; write a return visit or a credit'); END;

CREATE TRIGGER job_squared_saw_it BEFORE UPDATE ON job
WHEN OLD.stage = 'squared' AND NEW.saw_it IS NOT OLD.saw_it
BEGIN SELECT RAISE (ABORT, 'The job is squared up; write a return visit or a credit'); END;
CREATE TRIGGER installed_part_squared_old_part BEFORE UPDATE ON installed_part
WHEN NEW.old_part IS NOT OLD.old_part
 AND EXISTS (SELECT 1 FROM job WHERE id IN (OLD.job_id, NEW.job_id) AND stage = 'squared')
BEGIN SELECT RAISE (ABORT, 'The job is squared up; write a return visit or a credit'); END;

-- Bytes of photos ----------------------------------------------------------------------------------------------------

-- What is named by its content is never another content; the files of photos that are shown stay.
CREATE TRIGGER photo_file_fixed BEFORE UPDATE ON photo_file
BEGIN SELECT RAISE (ABORT, 'The file of a photo is never altered; add the other photo'); END;
CREATE TRIGGER photo_file_not_replaced BEFORE INSERT ON photo_file
WHEN EXISTS (SELECT 1 FROM photo_file WHERE id = NEW.id OR seq = NEW.seq)
BEGIN SELECT RAISE (ABORT, 'The file of this photo is in the book already; it is never altered'); END;
CREATE TRIGGER photo_file_kept BEFORE DELETE ON photo_file WHEN EXISTS (SELECT 1 FROM photo WHERE file_id = OLD.id)
BEGIN SELECT RAISE (ABORT, 'A photo of a job shows this file; remove the photo first'); END;
CREATE TRIGGER photo_chunk_fits BEFORE INSERT ON photo_chunk
WHEN length(NEW.data) IS NOT (SELECT min(65536, bytes - NEW.n * 65536) FROM photo_file WHERE id = NEW.file_id)
BEGIN SELECT RAISE (ABORT, 'This piece does not fit into the file of the photo; add the photo again'); END;
CREATE TRIGGER photo_chunk_fixed BEFORE UPDATE ON photo_chunk
BEGIN SELECT RAISE (ABORT, 'The file of a photo is never altered; add the other photo'); END;
CREATE TRIGGER photo_chunk_not_replaced BEFORE INSERT ON photo_chunk
WHEN EXISTS (SELECT 1 FROM photo_chunk WHERE (file_id = NEW.file_id AND n = NEW.n) OR seq = NEW.seq)
BEGIN SELECT RAISE (ABORT, 'The file of this photo is in the book already; it is never altered'); END;
CREATE TRIGGER photo_chunk_kept BEFORE DELETE ON photo_chunk
WHEN EXISTS (SELECT 1 FROM photo_file WHERE id = OLD.file_id)
BEGIN SELECT RAISE (ABORT, 'A piece of a photo goes only with its whole file'); END;

-- One job ------------------------------------------------------------------------------------------------------------

CREATE VIEW stray_photo AS
  SELECT p.id FROM photo p
  WHERE EXISTS (SELECT 1 FROM visit WHERE id = p.visit_id AND job_id <> p.job_id)
     OR EXISTS (SELECT 1 FROM finding WHERE id = p.finding_id AND job_id <> p.job_id)
     OR EXISTS (SELECT 1 FROM reading WHERE id = p.reading_id AND job_id <> p.job_id);

CREATE TRIGGER photo_same_job_insert AFTER INSERT ON photo
BEGIN SELECT RAISE (ABORT, 'A photo and what it shows belong to one job') FROM stray_photo WHERE id = NEW.id; END;
CREATE TRIGGER photo_same_job_update AFTER UPDATE ON photo
BEGIN SELECT RAISE (ABORT, 'A photo and what it shows belong to one job') FROM stray_photo WHERE id = NEW.id; END;
CREATE TRIGGER visit_photo_update BEFORE UPDATE ON visit
WHEN (NEW.id, NEW.job_id) <> (OLD.id, OLD.job_id) AND EXISTS (SELECT 1 FROM photo WHERE visit_id = OLD.id)
BEGIN SELECT RAISE (ABORT, 'A photo of this job is bound to it; unbind the photo first'); END;
CREATE TRIGGER visit_photo_delete BEFORE DELETE ON visit WHEN EXISTS (SELECT 1 FROM photo WHERE visit_id = OLD.id)
BEGIN SELECT RAISE (ABORT, 'A photo of this job is bound to it; unbind the photo first'); END;
CREATE TRIGGER visit_photo_insert BEFORE INSERT ON visit
WHEN EXISTS (SELECT 1 FROM visit x JOIN photo p ON p.visit_id = x.id
             WHERE (x.id = NEW.id OR x.seq = NEW.seq) AND (x.id, x.job_id) <> (NEW.id, NEW.job_id))
BEGIN SELECT RAISE (ABORT, 'A photo of this job is bound to it; unbind the photo first'); END;
CREATE TRIGGER finding_photo_update BEFORE UPDATE ON finding
WHEN (NEW.id, NEW.job_id) <> (OLD.id, OLD.job_id)
 AND EXISTS (SELECT 1 FROM photo p JOIN job j ON j.id = p.job_id
             WHERE p.finding_id = OLD.id AND +j.stage <> 'squared')
BEGIN SELECT RAISE (ABORT, 'A photo of this job is bound to it; unbind the photo first'); END;
CREATE TRIGGER finding_photo_delete BEFORE DELETE ON finding
WHEN EXISTS (SELECT 1 FROM photo p JOIN job j ON j.id = p.job_id
             WHERE p.finding_id = OLD.id AND +j.stage <> 'squared')
BEGIN SELECT RAISE (ABORT, 'A photo of this job is bound to it; unbind the photo first'); END;
CREATE TRIGGER finding_photo_insert BEFORE INSERT ON finding
WHEN EXISTS (SELECT 1 FROM finding x JOIN photo p ON p.finding_id = x.id JOIN job j ON j.id = p.job_id
             WHERE +j.stage <> 'squared'
               AND (x.id = NEW.id OR x.seq = NEW.seq) AND (x.id, x.job_id) <> (NEW.id, NEW.job_id))
BEGIN SELECT RAISE (ABORT, 'A photo of this job is bound to it; unbind the photo first'); END;
CREATE TRIGGER reading_photo_update BEFORE UPDATE ON reading
WHEN (NEW.id, NEW.job_id) <> (OLD.id, OLD.job_id)
 AND EXISTS (SELECT 1 FROM photo p JOIN job j ON j.id = p.job_id
             WHERE p.reading_id = OLD.id AND +j.stage <> 'squared')
BEGIN SELECT RAISE (ABORT, 'A photo of this job is bound to it; unbind the photo first'); END;
CREATE TRIGGER reading_photo_delete BEFORE DELETE ON reading
WHEN EXISTS (SELECT 1 FROM photo p JOIN job j ON j.id = p.job_id
             WHERE p.reading_id = OLD.id AND +j.stage <> 'squared')
BEGIN SELECT RAISE (ABORT, 'A photo of this job is bound to it; unbind the photo first'); END;
CREATE TRIGGER reading_photo_insert BEFORE INSERT ON reading
WHEN EXISTS (SELECT 1 FROM reading x JOIN photo p ON p.reading_id = x.id JOIN job j ON j.id = p.job_id
             WHERE +j.stage <> 'squared'
               AND (x.id = NEW.id OR x.seq = NEW.seq) AND (x.id, x.job_id) <> (NEW.id, NEW.job_id))
BEGIN SELECT RAISE (ABORT, 'A photo of this job is bound to it; unbind the photo first'); END;

CREATE TRIGGER because_proof_same_job BEFORE INSERT ON because
WHEN EXISTS (SELECT 1 FROM reading WHERE id = NEW.reading_id AND job_id <> NEW.job_id)
  OR EXISTS (SELECT 1 FROM photo WHERE id = NEW.photo_id AND job_id <> NEW.job_id)
BEGIN SELECT RAISE (ABORT, 'A link and what proves it belong to one job'); END;
CREATE TRIGGER because_proof_taken BEFORE INSERT ON because
WHEN EXISTS (SELECT 1 FROM reading WHERE id = NEW.reading_id AND not_measured_why IS NOT NULL)
BEGIN SELECT RAISE (ABORT, 'A reading that was not taken proves nothing'); END;
CREATE TRIGGER reading_link_update BEFORE UPDATE ON reading
WHEN ((NEW.id, NEW.job_id) <> (OLD.id, OLD.job_id) OR NEW.not_measured_why IS NOT NULL)
 AND EXISTS (SELECT 1 FROM because b JOIN job j ON j.id = b.job_id
             WHERE b.reading_id = OLD.id AND +j.stage <> 'squared')
BEGIN SELECT RAISE (ABORT, 'It proves a link of the why-chain; remove the link first'); END;
CREATE TRIGGER reading_link_delete BEFORE DELETE ON reading
WHEN EXISTS (SELECT 1 FROM because b JOIN job j ON j.id = b.job_id
             WHERE b.reading_id = OLD.id AND +j.stage <> 'squared')
BEGIN SELECT RAISE (ABORT, 'It proves a link of the why-chain; remove the link first'); END;
CREATE TRIGGER reading_link_insert BEFORE INSERT ON reading
WHEN EXISTS (SELECT 1 FROM reading x JOIN because b ON b.reading_id = x.id JOIN job j ON j.id = b.job_id
             WHERE +j.stage <> 'squared' AND (x.id = NEW.id OR x.seq = NEW.seq)
               AND ((x.id, x.job_id) <> (NEW.id, NEW.job_id) OR NEW.not_measured_why IS NOT NULL))
BEGIN SELECT RAISE (ABORT, 'It proves a link of the why-chain; remove the link first'); END;
CREATE TRIGGER photo_link_update BEFORE UPDATE ON photo
WHEN (NEW.id, NEW.job_id) <> (OLD.id, OLD.job_id)
 AND EXISTS (SELECT 1 FROM because b JOIN job j ON j.id = b.job_id
             WHERE b.photo_id = OLD.id AND +j.stage <> 'squared')
BEGIN SELECT RAISE (ABORT, 'It proves a link of the why-chain; remove the link first'); END;
CREATE TRIGGER photo_link_delete BEFORE DELETE ON photo
WHEN EXISTS (SELECT 1 FROM because b JOIN job j ON j.id = b.job_id
             WHERE b.photo_id = OLD.id AND +j.stage <> 'squared')
BEGIN SELECT RAISE (ABORT, 'It proves a link of the why-chain; remove the link first'); END;
CREATE TRIGGER photo_link_insert BEFORE INSERT ON photo
WHEN EXISTS (SELECT 1 FROM photo x JOIN because b ON b.photo_id = x.id JOIN job j ON j.id = b.job_id
             WHERE +j.stage <> 'squared'
               AND (x.id = NEW.id OR x.seq = NEW.seq) AND (x.id, x.job_id) <> (NEW.id, NEW.job_id))
BEGIN SELECT RAISE (ABORT, 'It proves a link of the why-chain; remove the link first'); END;

-- Told and proven ----------------------------------------------------------------------------------------------------

-- Ends from before may lack the instant; nothing new may.
CREATE TRIGGER finding_told_insert BEFORE INSERT ON finding
WHEN NEW.ended IN ('outside_told', 'not_known_told') AND NEW.told_at IS NULL
BEGIN SELECT RAISE (ABORT, 'Say when the customer was told'); END;
CREATE TRIGGER finding_told_update BEFORE UPDATE ON finding
WHEN NEW.ended IN ('outside_told', 'not_known_told') AND NEW.told_at IS NULL
 AND (NEW.ended IS NOT OLD.ended OR OLD.told_at IS NOT NULL)
BEGIN SELECT RAISE (ABORT, 'Say when the customer was told'); END;

-- A finding stands by its own readings and photos and by the links in which it is the cause. What the mechanic saw is
-- proof of what was seen, so a finding of role seen needs no more, and neither does a link that was seen. What a
-- customer said is proven by a reading or a photo alone. A cause that no link names yet may be entered as proven; then
-- its first link has to prove it. Findings that were proven before by links that count as said stay as they are.
CREATE VIEW only_said_finding AS
  SELECT f.id FROM finding f
  WHERE f.sure = 'proven' AND f.role <> 'seen'
    AND NOT EXISTS (SELECT 1 FROM reading r WHERE r.finding_id = f.id AND r.not_measured_why IS NULL)
    AND NOT EXISTS (SELECT 1 FROM photo p WHERE p.finding_id = f.id)
    AND NOT EXISTS (SELECT 1 FROM because b WHERE b.cause_id = f.id AND b.proof_kind IN ('reading', 'photo'))
    AND (f.role = 'customer_said'
         OR (EXISTS (SELECT 1 FROM because b WHERE b.cause_id = f.id)
             AND NOT EXISTS (SELECT 1 FROM because b WHERE b.cause_id = f.id AND b.proof_kind = 'seen')));

CREATE TRIGGER finding_proven_insert AFTER INSERT ON finding WHEN NEW.sure = 'proven'
BEGIN
  SELECT RAISE (ABORT, 'What was only said is not proven; take a reading or a photo, or call it suspected')
    FROM only_said_finding WHERE id = NEW.id;
END;
CREATE TRIGGER finding_proven_update AFTER UPDATE ON finding
WHEN NEW.sure = 'proven' AND (NEW.sure, NEW.role, NEW.id) <> (OLD.sure, OLD.role, OLD.id)
BEGIN
  SELECT RAISE (ABORT, 'What was only said is not proven; take a reading or a photo, or call it suspected')
    FROM only_said_finding WHERE id = NEW.id;
END;
CREATE TRIGGER because_proven_insert AFTER INSERT ON because WHEN NEW.proof_kind IN ('said', 'seen')
BEGIN
  SELECT RAISE (ABORT, 'What was only said is not proven; take a reading or a photo, or call it suspected')
    FROM only_said_finding WHERE id = NEW.cause_id;
END;
CREATE TRIGGER because_proven_delete AFTER DELETE ON because WHEN OLD.proof_kind <> 'said'
BEGIN
  SELECT RAISE (ABORT, 'A finding that counts as proven would stand only on what was said; call it suspected first')
    FROM only_said_finding WHERE id = OLD.cause_id;
END;
CREATE TRIGGER reading_leg_update AFTER UPDATE ON reading
WHEN OLD.finding_id IS NOT NULL AND OLD.not_measured_why IS NULL
BEGIN
  SELECT RAISE (ABORT, 'A finding that counts as proven would stand only on what was said; call it suspected first')
    FROM only_said_finding WHERE id = OLD.finding_id;
END;
CREATE TRIGGER reading_leg_delete AFTER DELETE ON reading
WHEN OLD.finding_id IS NOT NULL AND OLD.not_measured_why IS NULL
BEGIN
  SELECT RAISE (ABORT, 'A finding that counts as proven would stand only on what was said; call it suspected first')
    FROM only_said_finding WHERE id = OLD.finding_id;
END;
CREATE TRIGGER reading_leg_insert BEFORE INSERT ON reading
WHEN EXISTS (SELECT 1 FROM reading x JOIN finding f ON f.id = x.finding_id
             WHERE (x.id = NEW.id OR x.seq = NEW.seq) AND f.sure = 'proven'
               AND (NEW.finding_id IS NOT x.finding_id OR NEW.not_measured_why IS NOT NULL))
BEGIN
  SELECT RAISE (ABORT, 'A finding that counts as proven would stand only on what was said; call it suspected first');
END;
CREATE TRIGGER photo_leg_update AFTER UPDATE ON photo
WHEN OLD.finding_id IS NOT NULL
BEGIN
  SELECT RAISE (ABORT, 'A finding that counts as proven would stand only on what was said; call it suspected first')
    FROM only_said_finding WHERE id = OLD.finding_id;
END;
CREATE TRIGGER photo_leg_delete AFTER DELETE ON photo WHEN OLD.finding_id IS NOT NULL
BEGIN
  SELECT RAISE (ABORT, 'A finding that counts as proven would stand only on what was said; call it suspected first')
    FROM only_said_finding WHERE id = OLD.finding_id;
END;
CREATE TRIGGER photo_leg_insert BEFORE INSERT ON photo
WHEN EXISTS (SELECT 1 FROM photo x JOIN finding f ON f.id = x.finding_id
             WHERE (x.id = NEW.id OR x.seq = NEW.seq) AND f.sure = 'proven'
               AND NEW.finding_id IS NOT x.finding_id)
BEGIN
  SELECT RAISE (ABORT, 'A finding that counts as proven would stand only on what was said; call it suspected first');
END;

-- Taking back --------------------------------------------------------------------------------------------------------

-- A step is written once; only whether it is undone changes. Steps go when their job is squared up.
CREATE TRIGGER undo_step_fixed BEFORE UPDATE ON undo_step
WHEN (NEW.seq, NEW.id, NEW.job_id, NEW.what, NEW.at, NEW.changes)
   <> (OLD.seq, OLD.id, OLD.job_id, OLD.what, OLD.at, OLD.changes)
BEGIN SELECT RAISE (ABORT, 'A step that can be undone is never altered'); END;
CREATE TRIGGER undo_step_not_replaced BEFORE INSERT ON undo_step
WHEN EXISTS (SELECT 1 FROM undo_step WHERE id = NEW.id OR seq = NEW.seq)
BEGIN SELECT RAISE (ABORT, 'A step that can be undone is never altered'); END;
CREATE TRIGGER undo_step_squared BEFORE INSERT ON undo_step
WHEN EXISTS (SELECT 1 FROM job WHERE id = NEW.job_id AND stage = 'squared')
BEGIN SELECT RAISE (ABORT, 'The job is squared up; write a return visit or a credit'); END;
CREATE TRIGGER job_squared_steps AFTER UPDATE ON job WHEN NEW.stage = 'squared' AND OLD.stage <> 'squared'
BEGIN DELETE FROM undo_step WHERE job_id = NEW.id; END;
