-- SPDX-License-Identifier: GPL-3.0-or-later
-- SPDX-FileCopyrightText: The Halfshaft authors

-- Rules that the book itself keeps ------------------------------------------------------------------------------------
-- They hold for insert, update, delete and replace, and for moving a row to another job. The checks of "the same id is
-- there already" catch a replace on a connection whose delete triggers sleep (recursive_triggers off). The plus in
-- `+j.stage` keeps the planner from walking all squared jobs, of which there may be a million, instead of the few ids.

CREATE VIEW unproven_job AS
  SELECT j.id FROM job j
  WHERE j.stage IN ('proven', 'squared') AND length(trim(ifnull(j.unproved_why, ''))) = 0
    AND NOT EXISTS (SELECT 1 FROM reading r
                    WHERE r.job_id = j.id AND r.phase = 'after' AND r.not_measured_why IS NULL);

CREATE VIEW unexplained_job AS
  SELECT j.id FROM job j
  WHERE j.stage IN ('proven', 'squared')
    AND EXISTS (SELECT 1 FROM installed_part i WHERE i.job_id = j.id AND i.replaced_why IS NULL);

CREATE VIEW undecided_job AS
  SELECT j.id FROM job j
  WHERE +j.stage = 'squared' AND EXISTS (SELECT 1 FROM advice a WHERE a.job_id = j.id AND a.choice = 'open');

CREATE VIEW overrun_job AS
  SELECT j.id FROM job j
  WHERE +j.stage = 'squared'
    AND (SELECT ifnull(sum(l.price_cents + l.tax_cents), 0) FROM line l WHERE l.job_id = j.id)
      > ifnull((SELECT g.ceiling_cents FROM go_ahead g WHERE g.job_id = j.id ORDER BY g.seq DESC LIMIT 1), 0);

CREATE TRIGGER job_opens BEFORE INSERT ON job WHEN NEW.stage IN ('proven', 'squared')
BEGIN SELECT RAISE (ABORT, 'A job is opened first and closed later; it cannot start as tested good or squared up'); END;

CREATE TRIGGER job_closes AFTER UPDATE ON job WHEN NEW.stage IN ('proven', 'squared') AND OLD.stage <> 'squared'
BEGIN
  SELECT RAISE (ABORT, 'There is no reading taken after the repair; take one, or say why not')
    FROM unproven_job WHERE id = NEW.id;
  SELECT RAISE (ABORT, 'An installed part does not say why the old one was replaced')
    FROM unexplained_job WHERE id = NEW.id;
  SELECT RAISE (ABORT, 'A recommendation has no answer yet')
    FROM undecided_job WHERE id = NEW.id;
  SELECT RAISE (ABORT, 'The lines with tax come to more than the agreed ceiling; ask for a new go-ahead')
    FROM overrun_job WHERE id = NEW.id;
END;

CREATE TRIGGER job_squared_stays BEFORE UPDATE ON job WHEN OLD.stage = 'squared' AND NEW.stage <> 'squared'
BEGIN SELECT RAISE (ABORT, 'Squared up does not go back; open a return visit'); END;

CREATE TRIGGER job_squared_update BEFORE UPDATE ON job
WHEN OLD.stage = 'squared'
 AND (NEW.seq, NEW.id, NEW.number, NEW.customer_id, NEW.kind, NEW.words)
   <> (OLD.seq, OLD.id, OLD.number, OLD.customer_id, OLD.kind, OLD.words)
  OR OLD.stage = 'squared'
 AND (NEW.vehicle_id IS NOT OLD.vehicle_id OR NEW.follows_job_id IS NOT OLD.follows_job_id
   OR NEW.unproved_why IS NOT OLD.unproved_why OR NEW.called_at IS NOT OLD.called_at)
BEGIN SELECT RAISE (ABORT, 'The job is squared up; write a return visit or a credit'); END;

CREATE TRIGGER job_squared_delete BEFORE DELETE ON job WHEN OLD.stage = 'squared'
BEGIN SELECT RAISE (ABORT, 'A job that is squared up is kept'); END;

CREATE TRIGGER job_squared_replace BEFORE INSERT ON job
WHEN EXISTS (SELECT 1 FROM job j
             WHERE (j.id = NEW.id OR j.number = NEW.number OR j.seq = NEW.seq) AND +j.stage = 'squared')
BEGIN SELECT RAISE (ABORT, 'A job that is squared up is kept'); END;

CREATE TRIGGER line_squared_insert BEFORE INSERT ON line
WHEN EXISTS (SELECT 1 FROM job WHERE id = NEW.job_id AND stage = 'squared')
  OR EXISTS (SELECT 1 FROM line x JOIN job j ON j.id = x.job_id
             WHERE (x.id = NEW.id OR x.seq = NEW.seq) AND +j.stage = 'squared')
BEGIN SELECT RAISE (ABORT, 'The job is squared up; write a return visit or a credit'); END;
CREATE TRIGGER line_squared_update BEFORE UPDATE ON line
WHEN EXISTS (SELECT 1 FROM job WHERE id IN (OLD.job_id, NEW.job_id) AND stage = 'squared')
BEGIN SELECT RAISE (ABORT, 'The job is squared up; write a return visit or a credit'); END;
CREATE TRIGGER line_squared_delete BEFORE DELETE ON line
WHEN EXISTS (SELECT 1 FROM job WHERE id = OLD.job_id AND stage = 'squared')
BEGIN SELECT RAISE (ABORT, 'The job is squared up; write a return visit or a credit'); END;

CREATE TRIGGER reading_squared_insert BEFORE INSERT ON reading
WHEN EXISTS (SELECT 1 FROM job WHERE id = NEW.job_id AND stage = 'squared')
  OR EXISTS (SELECT 1 FROM reading x JOIN job j ON j.id = x.job_id
             WHERE (x.id = NEW.id OR x.seq = NEW.seq) AND +j.stage = 'squared')
BEGIN SELECT RAISE (ABORT, 'The job is squared up; write a return visit or a credit'); END;
CREATE TRIGGER reading_squared_update BEFORE UPDATE ON reading
WHEN EXISTS (SELECT 1 FROM job WHERE id IN (OLD.job_id, NEW.job_id) AND stage = 'squared')
BEGIN SELECT RAISE (ABORT, 'The job is squared up; write a return visit or a credit'); END;
CREATE TRIGGER reading_squared_delete BEFORE DELETE ON reading
WHEN EXISTS (SELECT 1 FROM job WHERE id = OLD.job_id AND stage = 'squared')
BEGIN SELECT RAISE (ABORT, 'The job is squared up; write a return visit or a credit'); END;

CREATE TRIGGER finding_squared_insert BEFORE INSERT ON finding
WHEN EXISTS (SELECT 1 FROM job WHERE id = NEW.job_id AND stage = 'squared')
  OR EXISTS (SELECT 1 FROM finding x JOIN job j ON j.id = x.job_id
             WHERE (x.id = NEW.id OR x.seq = NEW.seq) AND +j.stage = 'squared')
BEGIN SELECT RAISE (ABORT, 'The job is squared up; write a return visit or a credit'); END;
CREATE TRIGGER finding_squared_update BEFORE UPDATE ON finding
WHEN EXISTS (SELECT 1 FROM job WHERE id IN (OLD.job_id, NEW.job_id) AND stage = 'squared')
BEGIN SELECT RAISE (ABORT, 'The job is squared up; write a return visit or a credit'); END;
CREATE TRIGGER finding_squared_delete BEFORE DELETE ON finding
WHEN EXISTS (SELECT 1 FROM job WHERE id = OLD.job_id AND stage = 'squared')
BEGIN SELECT RAISE (ABORT, 'The job is squared up; write a return visit or a credit'); END;

CREATE TRIGGER because_squared_insert BEFORE INSERT ON because
WHEN EXISTS (SELECT 1 FROM job WHERE id = NEW.job_id AND stage = 'squared')
  OR EXISTS (SELECT 1 FROM because x JOIN job j ON j.id = x.job_id
             WHERE (x.id = NEW.id OR x.seq = NEW.seq) AND +j.stage = 'squared')
BEGIN SELECT RAISE (ABORT, 'The job is squared up; write a return visit or a credit'); END;
CREATE TRIGGER because_squared_update BEFORE UPDATE ON because
WHEN EXISTS (SELECT 1 FROM job WHERE id IN (OLD.job_id, NEW.job_id) AND stage = 'squared')
BEGIN SELECT RAISE (ABORT, 'The job is squared up; write a return visit or a credit'); END;
CREATE TRIGGER because_squared_delete BEFORE DELETE ON because
WHEN EXISTS (SELECT 1 FROM job WHERE id = OLD.job_id AND stage = 'squared')
BEGIN SELECT RAISE (ABORT, 'The job is squared up; write a return visit or a credit'); END;

CREATE TRIGGER advice_squared_insert BEFORE INSERT ON advice
WHEN EXISTS (SELECT 1 FROM job WHERE id = NEW.job_id AND stage = 'squared')
  OR EXISTS (SELECT 1 FROM advice x JOIN job j ON j.id = x.job_id
             WHERE (x.id = NEW.id OR x.seq = NEW.seq) AND +j.stage = 'squared')
BEGIN SELECT RAISE (ABORT, 'The job is squared up; write a return visit or a credit'); END;
CREATE TRIGGER advice_squared_update BEFORE UPDATE ON advice
WHEN EXISTS (SELECT 1 FROM job WHERE id IN (OLD.job_id, NEW.job_id) AND stage = 'squared')
BEGIN SELECT RAISE (ABORT, 'The job is squared up; write a return visit or a credit'); END;
CREATE TRIGGER advice_squared_delete BEFORE DELETE ON advice
WHEN EXISTS (SELECT 1 FROM job WHERE id = OLD.job_id AND stage = 'squared')
BEGIN SELECT RAISE (ABORT, 'The job is squared up; write a return visit or a credit'); END;

CREATE TRIGGER go_ahead_squared_insert BEFORE INSERT ON go_ahead
WHEN EXISTS (SELECT 1 FROM job WHERE id = NEW.job_id AND stage = 'squared')
  OR EXISTS (SELECT 1 FROM go_ahead x JOIN job j ON j.id = x.job_id
             WHERE (x.id = NEW.id OR x.seq = NEW.seq) AND +j.stage = 'squared')
BEGIN SELECT RAISE (ABORT, 'The job is squared up; write a return visit or a credit'); END;
CREATE TRIGGER go_ahead_squared_update BEFORE UPDATE ON go_ahead
WHEN EXISTS (SELECT 1 FROM job WHERE id IN (OLD.job_id, NEW.job_id) AND stage = 'squared')
BEGIN SELECT RAISE (ABORT, 'The job is squared up; write a return visit or a credit'); END;
CREATE TRIGGER go_ahead_squared_delete BEFORE DELETE ON go_ahead
WHEN EXISTS (SELECT 1 FROM job WHERE id = OLD.job_id AND stage = 'squared')
BEGIN SELECT RAISE (ABORT, 'The job is squared up; write a return visit or a credit'); END;

-- A part of a squared job may still be taken off the vehicle later; nothing else about it changes.
CREATE TRIGGER installed_part_squared_insert BEFORE INSERT ON installed_part
WHEN EXISTS (SELECT 1 FROM job WHERE id = NEW.job_id AND stage = 'squared')
  OR EXISTS (SELECT 1 FROM installed_part x JOIN job j ON j.id = x.job_id
             WHERE (x.id = NEW.id OR x.seq = NEW.seq) AND +j.stage = 'squared')
BEGIN SELECT RAISE (ABORT, 'The job is squared up; write a return visit or a credit'); END;
CREATE TRIGGER installed_part_not_replaced BEFORE INSERT ON installed_part
WHEN NEW.removed_on IS NULL AND (NEW.place IS NOT NULL OR NEW.kind = 'battery')
 AND EXISTS (SELECT 1 FROM installed_part x
             WHERE x.vehicle_id = NEW.vehicle_id AND ifnull(x.kind, '') = ifnull(NEW.kind, '')
               AND lower(ifnull(x.place, '')) = lower(ifnull(NEW.place, '')) AND x.removed_on IS NULL
               AND (x.place IS NOT NULL OR x.kind = 'battery') AND x.id <> NEW.id)
BEGIN SELECT RAISE (ABORT, 'There is one already in that place on this vehicle; remove it first'); END;
CREATE TRIGGER installed_part_squared_update BEFORE UPDATE ON installed_part
WHEN EXISTS (SELECT 1 FROM job WHERE id IN (OLD.job_id, NEW.job_id) AND stage = 'squared')
 AND (NEW.seq <> OLD.seq OR NEW.id <> OLD.id OR NEW.vehicle_id <> OLD.vehicle_id OR NEW.job_id IS NOT OLD.job_id
   OR NEW.part_id IS NOT OLD.part_id OR NEW.kind IS NOT OLD.kind OR NEW.what <> OLD.what
   OR NEW.place IS NOT OLD.place OR NEW.serial IS NOT OLD.serial OR NEW.date_stamp IS NOT OLD.date_stamp
   OR NEW.installed_on <> OLD.installed_on OR NEW.installed_odometer IS NOT OLD.installed_odometer
   OR NEW.known_by <> OLD.known_by OR NEW.supplier_id IS NOT OLD.supplier_id
   OR NEW.supplier_bill IS NOT OLD.supplier_bill OR NEW.maker IS NOT OLD.maker
   OR NEW.warranty_from IS NOT OLD.warranty_from OR NEW.warranty_months IS NOT OLD.warranty_months
   OR NEW.warranty_millimiles IS NOT OLD.warranty_millimiles OR NEW.stands_in_for_id IS NOT OLD.stands_in_for_id
   OR NEW.replaced_why IS NOT OLD.replaced_why OR NEW.replaced_finding_id IS NOT OLD.replaced_finding_id
   OR NEW.told_at IS NOT OLD.told_at OR NEW.battery_kind IS NOT OLD.battery_kind
   OR NEW.battery_ah IS NOT OLD.battery_ah OR NEW.battery_cca IS NOT OLD.battery_cca)
BEGIN SELECT RAISE (ABORT, 'The job is squared up; write a return visit or a credit'); END;
CREATE TRIGGER installed_part_squared_delete BEFORE DELETE ON installed_part
WHEN EXISTS (SELECT 1 FROM job WHERE id = OLD.job_id AND stage = 'squared')
BEGIN SELECT RAISE (ABORT, 'The job is squared up; write a return visit or a credit'); END;

-- What made a job closable stays there while it is closed.
CREATE TRIGGER reading_proves_update AFTER UPDATE ON reading
BEGIN
  SELECT RAISE (ABORT, 'This reading proves a job that is tested good; open the job again first')
    FROM unproven_job WHERE id = OLD.job_id;
END;
CREATE TRIGGER reading_proves_delete AFTER DELETE ON reading
BEGIN
  SELECT RAISE (ABORT, 'This reading proves a job that is tested good; open the job again first')
    FROM unproven_job WHERE id = OLD.job_id;
END;
CREATE TRIGGER reading_proves_insert BEFORE INSERT ON reading
WHEN EXISTS (SELECT 1 FROM reading x JOIN job j ON j.id = x.job_id
             WHERE (x.id = NEW.id OR x.seq = NEW.seq) AND j.stage = 'proven' AND x.phase = 'after'
               AND (x.job_id <> NEW.job_id OR NEW.phase <> 'after' OR NEW.not_measured_why IS NOT NULL))
BEGIN SELECT RAISE (ABORT, 'This reading proves a job that is tested good; open the job again first'); END;
CREATE TRIGGER installed_part_explained_insert AFTER INSERT ON installed_part
BEGIN
  SELECT RAISE (ABORT, 'An installed part does not say why the old one was replaced')
    FROM unexplained_job WHERE id = NEW.job_id;
END;
CREATE TRIGGER installed_part_explained_update AFTER UPDATE ON installed_part
BEGIN
  SELECT RAISE (ABORT, 'An installed part does not say why the old one was replaced')
    FROM unexplained_job WHERE id = NEW.job_id;
END;

CREATE TRIGGER go_ahead_fixed BEFORE UPDATE ON go_ahead
BEGIN SELECT RAISE (ABORT, 'A go-ahead is never altered; add a new one'); END;
CREATE TRIGGER go_ahead_kept BEFORE DELETE ON go_ahead
BEGIN SELECT RAISE (ABORT, 'A go-ahead is kept; add a new one'); END;
CREATE TRIGGER go_ahead_not_replaced BEFORE INSERT ON go_ahead
WHEN EXISTS (SELECT 1 FROM go_ahead WHERE id = NEW.id OR seq = NEW.seq)
BEGIN SELECT RAISE (ABORT, 'A go-ahead is never altered; add a new one'); END;

CREATE TRIGGER invoice_fixed BEFORE UPDATE ON invoice
BEGIN SELECT RAISE (ABORT, 'An invoice is never altered; write a credit'); END;
CREATE TRIGGER invoice_kept BEFORE DELETE ON invoice
BEGIN SELECT RAISE (ABORT, 'An invoice is kept; write a credit'); END;
CREATE TRIGGER invoice_not_replaced BEFORE INSERT ON invoice
WHEN EXISTS (SELECT 1 FROM invoice WHERE id = NEW.id OR number = NEW.number OR seq = NEW.seq
                OR (job_id = NEW.job_id AND credits_id IS NULL AND NEW.credits_id IS NULL))
BEGIN SELECT RAISE (ABORT, 'There is an invoice already; it is never altered, a later fix is a credit'); END;

CREATE TRIGGER change_log_fixed BEFORE UPDATE ON change_log
BEGIN SELECT RAISE (ABORT, 'The log of changes is never altered'); END;
CREATE TRIGGER change_log_kept BEFORE DELETE ON change_log
BEGIN SELECT RAISE (ABORT, 'The log of changes is kept'); END;
CREATE TRIGGER change_log_not_replaced BEFORE INSERT ON change_log
WHEN EXISTS (SELECT 1 FROM change_log WHERE seq = NEW.seq)
BEGIN SELECT RAISE (ABORT, 'The log of changes is never altered'); END;

-- A warranty swap keeps the first clock, whichever of the two rows is touched.
CREATE TRIGGER installed_part_swap_insert AFTER INSERT ON installed_part
BEGIN
  SELECT RAISE (ABORT, 'A warranty swap keeps the first warranty date and stays on its vehicle')
    FROM installed_part f
    WHERE f.id = NEW.stands_in_for_id
      AND (f.warranty_from IS NOT NEW.warranty_from OR f.vehicle_id <> NEW.vehicle_id);
  SELECT RAISE (ABORT, 'A warranty swap keeps the first warranty date and stays on its vehicle')
    FROM installed_part s
    WHERE s.stands_in_for_id = NEW.id
      AND (s.warranty_from IS NOT NEW.warranty_from OR s.vehicle_id <> NEW.vehicle_id);
END;
CREATE TRIGGER installed_part_swap_update AFTER UPDATE ON installed_part
BEGIN
  SELECT RAISE (ABORT, 'A warranty swap keeps the first warranty date and stays on its vehicle')
    FROM installed_part f
    WHERE f.id = NEW.stands_in_for_id
      AND (f.warranty_from IS NOT NEW.warranty_from OR f.vehicle_id <> NEW.vehicle_id);
  SELECT RAISE (ABORT, 'A warranty swap keeps the first warranty date and stays on its vehicle')
    FROM installed_part s
    WHERE s.stands_in_for_id = NEW.id
      AND (s.warranty_from IS NOT NEW.warranty_from OR s.vehicle_id <> NEW.vehicle_id);
END;

CREATE TRIGGER because_same_job BEFORE INSERT ON because
WHEN EXISTS (SELECT 1 FROM finding WHERE id IN (NEW.effect_id, NEW.cause_id) AND job_id <> NEW.job_id)
BEGIN SELECT RAISE (ABORT, 'A cause and its effect belong to one job'); END;
CREATE TRIGGER because_no_ring BEFORE INSERT ON because
WHEN EXISTS (WITH RECURSIVE up (id) AS (SELECT NEW.cause_id
                                        UNION SELECT b.cause_id FROM because b JOIN up ON b.effect_id = up.id)
             SELECT 1 FROM up WHERE id = NEW.effect_id)
BEGIN SELECT RAISE (ABORT, 'A cause cannot lead back to itself'); END;
CREATE TRIGGER because_fixed BEFORE UPDATE ON because
BEGIN SELECT RAISE (ABORT, 'Remove the link and add another'); END;
CREATE TRIGGER finding_linked BEFORE UPDATE ON finding
WHEN (NEW.job_id <> OLD.job_id OR NEW.id <> OLD.id)
 AND EXISTS (SELECT 1 FROM because WHERE effect_id = OLD.id OR cause_id = OLD.id)
BEGIN SELECT RAISE (ABORT, 'The finding is linked to others of its job; remove the links first'); END;
CREATE TRIGGER finding_replaced BEFORE INSERT ON finding
WHEN EXISTS (SELECT 1 FROM finding f JOIN because b ON b.effect_id = f.id OR b.cause_id = f.id
             WHERE (f.id = NEW.id OR f.seq = NEW.seq) AND (f.job_id <> NEW.job_id OR f.id <> NEW.id))
BEGIN SELECT RAISE (ABORT, 'The finding is linked to others of its job; remove the links first'); END;

CREATE TRIGGER reading_unit_insert BEFORE INSERT ON reading
WHEN EXISTS (SELECT 1 FROM check_kind WHERE id = NEW.check_id AND (unit, decimals) IS NOT (NEW.unit, NEW.decimals))
BEGIN SELECT RAISE (ABORT, 'The unit of the reading is not the unit of its check'); END;
CREATE TRIGGER reading_unit_update BEFORE UPDATE ON reading
WHEN EXISTS (SELECT 1 FROM check_kind WHERE id = NEW.check_id AND (unit, decimals) IS NOT (NEW.unit, NEW.decimals))
BEGIN SELECT RAISE (ABORT, 'The unit of the reading is not the unit of its check'); END;
CREATE TRIGGER check_kind_unit_update BEFORE UPDATE ON check_kind
WHEN (NEW.id, NEW.unit, NEW.decimals) <> (OLD.id, OLD.unit, OLD.decimals)
 AND EXISTS (SELECT 1 FROM reading WHERE check_id = OLD.id)
BEGIN SELECT RAISE (ABORT, 'There are readings in this unit; make a new check instead'); END;
CREATE TRIGGER check_kind_unit_replace BEFORE INSERT ON check_kind
WHEN EXISTS (SELECT 1 FROM check_kind c JOIN reading r ON r.check_id = c.id
             WHERE (c.id = NEW.id OR c.seq = NEW.seq)
               AND (c.id, c.unit, c.decimals) <> (NEW.id, NEW.unit, NEW.decimals))
BEGIN SELECT RAISE (ABORT, 'There are readings in this unit; make a new check instead'); END;

CREATE TRIGGER odometer_falls_insert AFTER INSERT ON odometer
WHEN NEW.doubted IS NULL
 AND EXISTS (SELECT 1 FROM odometer o
             WHERE o.vehicle_id = NEW.vehicle_id AND o.doubted IS NULL
               AND ((o.on_date < NEW.on_date AND o.value > NEW.value)
                 OR (o.on_date > NEW.on_date AND o.value < NEW.value)))
BEGIN SELECT RAISE (ABORT, 'The odometer would run backwards; check the figure, or say why it is doubted'); END;
CREATE TRIGGER odometer_falls_update AFTER UPDATE ON odometer
WHEN NEW.doubted IS NULL
 AND EXISTS (SELECT 1 FROM odometer o
             WHERE o.vehicle_id = NEW.vehicle_id AND o.doubted IS NULL
               AND ((o.on_date < NEW.on_date AND o.value > NEW.value)
                 OR (o.on_date > NEW.on_date AND o.value < NEW.value)))
BEGIN SELECT RAISE (ABORT, 'The odometer would run backwards; check the figure, or say why it is doubted'); END;
