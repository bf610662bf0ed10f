-- SPDX-License-Identifier: GPL-3.0-or-later
-- SPDX-FileCopyrightText: The Halfshaft authors

-- Schema 1 of the book. A released migration is never edited; the next change is a new file.
--
-- Ids are text. Instants are whole seconds since 1970-01-01 UTC, dates are YYYY-MM-DD, clock times are minutes of a
-- day. Money is in minor units of the book's currency, distances are thousandths of a mile, quantities thousandths.
-- Nothing here reads a clock. "seq" is the order in which rows were made; order never comes from a clock.
-- The name of a constraint is the sentence that the owner reads when it refuses.

-- Settings, areas, people --------------------------------------------------------------------------------------------

CREATE TABLE setting (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  value TEXT NOT NULL
) STRICT;

CREATE TABLE session (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  program TEXT NOT NULL,
  host TEXT NOT NULL,
  pid INTEGER NOT NULL,
  since INTEGER NOT NULL
) STRICT;

CREATE TABLE change_log (
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  at INTEGER NOT NULL,
  who TEXT NOT NULL,
  tbl TEXT NOT NULL,
  row_id TEXT NOT NULL,
  act TEXT NOT NULL CHECK (act IN ('added', 'changed', 'removed')),
  field TEXT,
  was TEXT,
  became TEXT
) STRICT;
CREATE INDEX change_log_row ON change_log (tbl, row_id);

CREATE TABLE area (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  name TEXT NOT NULL,
  signal TEXT CONSTRAINT "The signal of an area is good, patchy or none" CHECK (signal IN ('good', 'patchy', 'none')),
  lat REAL CHECK (lat BETWEEN -90 AND 90),
  lon REAL CHECK (lon BETWEEN -180 AND 180),
  CONSTRAINT "An area needs a code" CHECK (length(trim(id)) > 0),
  CONSTRAINT "An area needs a name" CHECK (length(trim(name)) > 0)
) STRICT;

-- One row serves both directions: from_id is the smaller code. A hop inside an area has the same code twice.
CREATE TABLE travel (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  from_id TEXT NOT NULL REFERENCES area (id),
  to_id TEXT NOT NULL REFERENCES area (id),
  seconds INTEGER NOT NULL CONSTRAINT "A drive does not take less than nothing" CHECK (seconds >= 0),
  millimiles INTEGER NOT NULL CONSTRAINT "A drive is not shorter than nothing" CHECK (millimiles >= 0),
  samples INTEGER NOT NULL DEFAULT 0 CHECK (samples >= 0),
  UNIQUE (from_id, to_id),
  CONSTRAINT "The two areas of a drive stand in order" CHECK (from_id <= to_id)
) STRICT;
CREATE INDEX travel_to ON travel (to_id);

CREATE TABLE van (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  letter TEXT NOT NULL UNIQUE CONSTRAINT "A van is known by one letter, A to Z" CHECK (letter GLOB '[A-Z]'),
  plate TEXT,
  next_number INTEGER NOT NULL DEFAULT 1 CHECK (next_number >= 1)
) STRICT;

CREATE TABLE worker (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  name TEXT NOT NULL,
  wage_cents INTEGER NOT NULL DEFAULT 0 CHECK (wage_cents >= 0)
) STRICT;

CREATE TABLE customer (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  name TEXT NOT NULL CONSTRAINT "A customer needs a name" CHECK (length(trim(name)) > 0),
  kind TEXT NOT NULL DEFAULT 'private'
    CONSTRAINT "A customer is private or trade" CHECK (kind IN ('private', 'trade')),
  email TEXT,
  street TEXT,
  area_id TEXT REFERENCES area (id),
  lat REAL CONSTRAINT "A latitude lies between -90 and 90" CHECK (lat BETWEEN -90 AND 90),
  lon REAL CONSTRAINT "A longitude lies between -180 and 180" CHECK (lon BETWEEN -180 AND 180),
  access_note TEXT,
  reach_from_minutes INTEGER CHECK (reach_from_minutes BETWEEN 0 AND 1440),
  reach_to_minutes INTEGER CHECK (reach_to_minutes BETWEEN 0 AND 1440),
  terms_days INTEGER NOT NULL DEFAULT 0 CONSTRAINT "Payment terms are 0 days or more" CHECK (terms_days >= 0),
  stop_credit INTEGER NOT NULL DEFAULT 0 CHECK (stop_credit IN (0, 1)),
  tax_free_ref TEXT,
  note TEXT
) STRICT;
CREATE INDEX customer_area ON customer (area_id);
CREATE INDEX customer_name ON customer (name);

CREATE TABLE phone (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  customer_id TEXT NOT NULL REFERENCES customer (id),
  shown TEXT NOT NULL,
  digits TEXT NOT NULL
    CONSTRAINT "A phone number has digits" CHECK (length(digits) > 0 AND digits NOT GLOB '*[^0-9]*'),
  whose TEXT,
  UNIQUE (customer_id, digits)
) STRICT;
CREATE INDEX phone_digits ON phone (digits);

-- Vehicles -----------------------------------------------------------------------------------------------------------

-- plate_key is the plate without spaces, marks and case; the store fills it.
CREATE TABLE vehicle (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  plate TEXT,
  plate_state TEXT,
  plate_key TEXT,
  vin TEXT,
  make TEXT,
  model TEXT,
  year INTEGER CONSTRAINT "The year of a vehicle has four digits" CHECK (year BETWEEN 1885 AND 2200),
  engine TEXT,
  fuel TEXT CONSTRAINT "The fuel is gas, diesel, hybrid, electric or other"
    CHECK (fuel IN ('gas', 'diesel', 'hybrid', 'electric', 'other')),
  battery_place TEXT,
  battery_size TEXT,
  battery_kind TEXT CONSTRAINT "A battery is flooded, EFB, AGM, lithium or unknown"
    CHECK (battery_kind IN ('flooded', 'EFB', 'AGM', 'lithium', 'unknown')),
  battery_ah REAL CHECK (battery_ah > 0 AND battery_ah < 100000),
  battery_cca INTEGER CHECK (battery_cca > 0),
  stop_start INTEGER NOT NULL DEFAULT 0 CHECK (stop_start IN (0, 1)),
  needs_coding INTEGER NOT NULL DEFAULT 0 CHECK (needs_coding IN (0, 1)),
  high_voltage INTEGER NOT NULL DEFAULT 0 CHECK (high_voltage IN (0, 1)),
  wheel_torque_nm REAL CHECK (wheel_torque_nm > 0),
  odometer_unit TEXT NOT NULL DEFAULT 'mi'
    CONSTRAINT "An odometer counts mi or km" CHECK (odometer_unit IN ('mi', 'km')),
  note TEXT
) STRICT;
CREATE INDEX vehicle_plate ON vehicle (plate_key);
CREATE INDEX vehicle_vin ON vehicle (vin);

CREATE TABLE old_plate (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  vehicle_id TEXT NOT NULL REFERENCES vehicle (id),
  plate TEXT NOT NULL,
  plate_state TEXT,
  until TEXT CONSTRAINT "A date is YYYY-MM-DD" CHECK (date(until, '+0 days') IS until)
) STRICT;
CREATE INDEX old_plate_vehicle ON old_plate (vehicle_id);

CREATE TABLE ownership (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  vehicle_id TEXT NOT NULL REFERENCES vehicle (id),
  customer_id TEXT NOT NULL REFERENCES customer (id),
  from_date TEXT CONSTRAINT "A date is YYYY-MM-DD" CHECK (date(from_date, '+0 days') IS from_date),
  to_date TEXT CONSTRAINT "A date is YYYY-MM-DD" CHECK (date(to_date, '+0 days') IS to_date),
  CONSTRAINT "An owner does not leave before taking over"
    CHECK (to_date IS NULL OR from_date IS NULL OR to_date >= from_date)
) STRICT;
CREATE UNIQUE INDEX "A vehicle has one present owner; end the old one first" ON ownership (ifnull(vehicle_id, ''))
  WHERE to_date IS NULL;
CREATE INDEX ownership_vehicle ON ownership (vehicle_id);
CREATE INDEX ownership_customer ON ownership (customer_id);

-- Jobs ---------------------------------------------------------------------------------------------------------------

CREATE TABLE job (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  number TEXT NOT NULL UNIQUE CONSTRAINT "A job needs a number" CHECK (length(trim(number)) > 0),
  van_id TEXT REFERENCES van (id),
  worker_id TEXT REFERENCES worker (id),
  customer_id TEXT NOT NULL REFERENCES customer (id),
  vehicle_id TEXT REFERENCES vehicle (id),
  kind TEXT NOT NULL DEFAULT 'repair'
    CONSTRAINT "A job is repair, upkeep, look_over or return_visit"
    CHECK (kind IN ('repair', 'upkeep', 'look_over', 'return_visit')),
  stage TEXT NOT NULL DEFAULT 'called_in'
    CONSTRAINT "No such stage of a job"
    CHECK (stage IN ('called_in', 'penciled', 'promised', 'rolling', 'on_site', 'waiting_part', 'waiting_yes',
                     'proven', 'squared', 'called_off', 'turned_away')),
  complaint_group TEXT,
  words TEXT NOT NULL,
  called_at INTEGER,
  area_id TEXT REFERENCES area (id),
  street TEXT,
  access_note TEXT,
  day TEXT CONSTRAINT "A date is YYYY-MM-DD" CHECK (date(day, '+0 days') IS day),
  window_from INTEGER,
  window_to INTEGER,
  zone TEXT,
  guess_seconds INTEGER CONSTRAINT "The time a job takes is not less than nothing" CHECK (guess_seconds >= 0),
  follows_job_id TEXT REFERENCES job (id),
  return_why TEXT CONSTRAINT "No such reason for a return visit"
    CHECK (return_why IN ('our_work', 'part_failed', 'cause_missed', 'declined_earlier', 'cheaper_choice', 'unrelated',
                          'not_decided')),
  unproved_why TEXT,
  turned_away_why TEXT,
  called_off_why TEXT,
  safe_to_drive TEXT CONSTRAINT "Safe to drive is yes, no or told_not_to"
    CHECK (safe_to_drive IN ('yes', 'no', 'told_not_to')),
  note TEXT,
  owed_cents INTEGER NOT NULL DEFAULT 0,
  rev INTEGER NOT NULL DEFAULT 1 CHECK (rev >= 1),
  changed_at INTEGER NOT NULL,
  CONSTRAINT "A return visit names the earlier job and why; the why may be not_decided"
    CHECK (kind <> 'return_visit' OR (follows_job_id IS NOT NULL AND return_why IS NOT NULL)),
  CONSTRAINT "A job does not follow itself" CHECK (follows_job_id IS NULL OR follows_job_id <> id),
  CONSTRAINT "A job that is passed on needs a reason"
    CHECK (stage <> 'turned_away' OR length(trim(ifnull(turned_away_why, ''))) > 0),
  CONSTRAINT "A job that is called off needs a reason"
    CHECK (stage <> 'called_off' OR length(trim(ifnull(called_off_why, ''))) > 0),
  CONSTRAINT "A window does not end before it starts"
    CHECK (window_from IS NULL OR window_to IS NULL OR window_to >= window_from)
) STRICT;
CREATE INDEX job_stage ON job (stage, window_from);
CREATE INDEX job_day ON job (day, window_from);
CREATE INDEX job_owed ON job (owed_cents) WHERE owed_cents <> 0;
CREATE INDEX job_vehicle ON job (vehicle_id);
CREATE INDEX job_customer ON job (customer_id);
CREATE INDEX job_follows ON job (follows_job_id) WHERE follows_job_id IS NOT NULL;
CREATE INDEX job_area ON job (area_id) WHERE area_id IS NOT NULL;

CREATE TABLE visit (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  job_id TEXT NOT NULL REFERENCES job (id),
  rolling_at INTEGER,
  arrived_at INTEGER,
  left_at INTEGER,
  drive_seconds INTEGER CHECK (drive_seconds >= 0),
  drive_millimiles INTEGER CHECK (drive_millimiles >= 0),
  paper_seconds INTEGER CHECK (paper_seconds >= 0),
  safe_note TEXT,
  CONSTRAINT "A visit does not arrive before it rolls"
    CHECK (arrived_at IS NULL OR rolling_at IS NULL OR arrived_at >= rolling_at),
  CONSTRAINT "A visit does not leave before it arrives"
    CHECK (left_at IS NULL OR arrived_at IS NULL OR left_at >= arrived_at)
) STRICT;
CREATE INDEX visit_job ON visit (job_id);

CREATE TABLE pause (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  visit_id TEXT NOT NULL REFERENCES visit (id),
  from_at INTEGER NOT NULL,
  to_at INTEGER,
  why TEXT,
  CONSTRAINT "A pause does not end before it starts" CHECK (to_at IS NULL OR to_at >= from_at)
) STRICT;
CREATE INDEX pause_visit ON pause (visit_id);

CREATE TABLE asked (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  job_id TEXT NOT NULL REFERENCES job (id),
  question TEXT NOT NULL,
  answer TEXT NOT NULL,
  said_by TEXT,
  at INTEGER,
  UNIQUE (job_id, question)
) STRICT;

CREATE TABLE odometer (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  vehicle_id TEXT NOT NULL REFERENCES vehicle (id),
  on_date TEXT NOT NULL CONSTRAINT "A date is YYYY-MM-DD" CHECK (date(on_date, '+0 days') IS on_date),
  value INTEGER NOT NULL CONSTRAINT "An odometer shows 0 or more" CHECK (value >= 0),
  job_id TEXT REFERENCES job (id),
  doubted TEXT CONSTRAINT "Say why the odometer is doubted" CHECK (doubted IS NULL OR length(trim(doubted)) > 0),
  UNIQUE (vehicle_id, on_date, value)
) STRICT;
CREATE INDEX odometer_job ON odometer (job_id) WHERE job_id IS NOT NULL;

-- Checks, findings, readings -----------------------------------------------------------------------------------------

CREATE TABLE check_kind (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  name TEXT NOT NULL,
  unit TEXT NOT NULL,
  decimals INTEGER NOT NULL DEFAULT 0 CHECK (decimals BETWEEN 0 AND 9),
  UNIQUE (id, unit, decimals)
) STRICT;

CREATE TABLE check_own (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  vehicle_id TEXT NOT NULL REFERENCES vehicle (id),
  check_id TEXT NOT NULL REFERENCES check_kind (id),
  low INTEGER,
  high INTEGER,
  source TEXT NOT NULL CONSTRAINT "A limit of a vehicle's own needs its source" CHECK (length(trim(source)) > 0),
  UNIQUE (vehicle_id, check_id),
  CONSTRAINT "The low limit is not above the high limit" CHECK (low IS NULL OR high IS NULL OR low <= high)
) STRICT;
CREATE INDEX check_own_check ON check_own (check_id);

CREATE TABLE finding (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  job_id TEXT NOT NULL REFERENCES job (id),
  place TEXT,
  what TEXT NOT NULL CONSTRAINT "A finding needs words" CHECK (length(trim(what)) > 0),
  role TEXT NOT NULL CONSTRAINT "No such role of a finding"
    CHECK (role IN ('complaint', 'seen', 'cause', 'customer_said', 'ruled_out')),
  sure TEXT NOT NULL DEFAULT 'suspected' CONSTRAINT "A finding is suspected, proven or not_known"
    CHECK (sure IN ('suspected', 'proven', 'not_known')),
  weight TEXT CONSTRAINT "No such weight of a finding"
    CHECK (weight IN ('do_not_drive', 'fix_this_visit', 'plan_it', 'watch_it', 'sound')),
  ended TEXT CONSTRAINT "No such end of a why-chain"
    CHECK (ended IN ('cured', 'chosen', 'outside_told', 'not_known_told')),
  entered_at INTEGER,
  UNIQUE (id, job_id)
) STRICT;
CREATE INDEX finding_job ON finding (job_id);

CREATE TABLE because (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  job_id TEXT NOT NULL REFERENCES job (id),
  effect_id TEXT NOT NULL,
  cause_id TEXT NOT NULL,
  how TEXT,
  proof TEXT NOT NULL CONSTRAINT "Each link of a why-chain needs a proof" CHECK (length(trim(proof)) > 0),
  UNIQUE (effect_id, cause_id),
  FOREIGN KEY (effect_id, job_id) REFERENCES finding (id, job_id),
  FOREIGN KEY (cause_id, job_id) REFERENCES finding (id, job_id),
  CONSTRAINT "A cause cannot lead back to itself" CHECK (effect_id <> cause_id)
) STRICT;
CREATE INDEX because_cause ON because (cause_id);
CREATE INDEX because_job ON because (job_id);

-- A reading says one thing: a number (or a pair of numbers), over range, an answer in words, or why it was not taken.
-- Values are scaled by decimals: 12.42 V is 1242 with 2 decimals.
CREATE TABLE reading (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  job_id TEXT NOT NULL REFERENCES job (id),
  finding_id TEXT REFERENCES finding (id),
  check_id TEXT NOT NULL,
  unit TEXT NOT NULL,
  decimals INTEGER NOT NULL,
  place TEXT,
  value INTEGER,
  of_value INTEGER,
  over_range INTEGER NOT NULL DEFAULT 0 CHECK (over_range IN (0, 1)),
  answer TEXT CHECK (answer IS NULL OR length(trim(answer)) > 0),
  not_measured_why TEXT CONSTRAINT "Say why it was not measured"
    CHECK (not_measured_why IS NULL OR length(trim(not_measured_why)) > 0),
  phase TEXT NOT NULL CONSTRAINT "A reading is taken before, during or after"
    CHECK (phase IN ('before', 'during', 'after')),
  conditions TEXT,
  taken_at INTEGER NOT NULL,
  FOREIGN KEY (check_id, unit, decimals) REFERENCES check_kind (id, unit, decimals),
  CONSTRAINT "An over-range reading carries no value" CHECK (over_range = 0 OR value IS NULL),
  CONSTRAINT "A reading that was not taken carries no value" CHECK (not_measured_why IS NULL OR value IS NULL),
  CONSTRAINT "A second value needs a first" CHECK (of_value IS NULL OR value IS NOT NULL),
  CONSTRAINT "A reading is one thing: a value, over range, an answer, or why it was not measured"
    CHECK ((value IS NOT NULL) + over_range + (answer IS NOT NULL) + (not_measured_why IS NOT NULL) = 1)
) STRICT;
CREATE INDEX reading_job ON reading (job_id, phase);
CREATE INDEX reading_check ON reading (check_id, unit, decimals);
CREATE INDEX reading_finding ON reading (finding_id) WHERE finding_id IS NOT NULL;

-- Choices ------------------------------------------------------------------------------------------------------------

CREATE TABLE advice (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  job_id TEXT NOT NULL REFERENCES job (id),
  finding_id TEXT REFERENCES finding (id),
  option_group TEXT,
  rank INTEGER,
  wording TEXT NOT NULL CONSTRAINT "A recommendation needs words" CHECK (length(trim(wording)) > 0),
  price_cents INTEGER NOT NULL,
  choice TEXT NOT NULL DEFAULT 'open' CONSTRAINT "A choice is open, yes, no or later"
    CHECK (choice IN ('open', 'yes', 'no', 'later')),
  risk_told TEXT,
  decided_by TEXT,
  decided_at INTEGER,
  means TEXT CONSTRAINT "No such way to decide"
    CHECK (means IN ('signed_on_screen', 'in_person', 'text', 'phone', 'email')),
  chase_on TEXT CONSTRAINT "A date is YYYY-MM-DD" CHECK (date(chase_on, '+0 days') IS chase_on),
  CONSTRAINT "A choice needs who decided, when and how"
    CHECK (choice = 'open'
           OR (length(trim(ifnull(decided_by, ''))) > 0 AND decided_at IS NOT NULL AND means IS NOT NULL)),
  CONSTRAINT "A no or a later needs the risk that was told"
    CHECK (choice NOT IN ('no', 'later') OR length(trim(ifnull(risk_told, ''))) > 0)
) STRICT;
CREATE INDEX advice_job ON advice (job_id);
CREATE INDEX advice_finding ON advice (finding_id) WHERE finding_id IS NOT NULL;

CREATE TABLE go_ahead (
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  id TEXT NOT NULL UNIQUE,
  job_id TEXT NOT NULL REFERENCES job (id),
  ceiling_cents INTEGER NOT NULL CONSTRAINT "A ceiling is not less than nothing" CHECK (ceiling_cents >= 0),
  by_whom TEXT NOT NULL CONSTRAINT "A go-ahead needs who gave it" CHECK (length(trim(by_whom)) > 0),
  at INTEGER NOT NULL,
  means TEXT NOT NULL CONSTRAINT "No such way to decide"
    CHECK (means IN ('signed_on_screen', 'in_person', 'text', 'phone', 'email')),
  signature BLOB
) STRICT;
CREATE INDEX go_ahead_job ON go_ahead (job_id);

-- Parts and counters -------------------------------------------------------------------------------------------------

CREATE TABLE supplier (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  name TEXT NOT NULL UNIQUE CONSTRAINT "A supplier needs a name" CHECK (length(trim(name)) > 0),
  area_id TEXT REFERENCES area (id),
  phone TEXT,
  account TEXT,
  terms TEXT,
  return_days INTEGER CHECK (return_days >= 0),
  restock_basis_points INTEGER NOT NULL DEFAULT 0
    CONSTRAINT "A restock charge is 0 to 100 percent" CHECK (restock_basis_points BETWEEN 0 AND 10000),
  core_days INTEGER CHECK (core_days >= 0),
  stop_seconds INTEGER NOT NULL DEFAULT 600 CHECK (stop_seconds >= 0),
  note TEXT
) STRICT;
CREATE INDEX supplier_area ON supplier (area_id);

CREATE TABLE supplier_hours (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  supplier_id TEXT NOT NULL REFERENCES supplier (id),
  weekday INTEGER NOT NULL CONSTRAINT "A weekday is 1 (Monday) to 7 (Sunday)" CHECK (weekday BETWEEN 1 AND 7),
  opens_minutes INTEGER NOT NULL CHECK (opens_minutes BETWEEN 0 AND 1440),
  shuts_minutes INTEGER NOT NULL CHECK (shuts_minutes BETWEEN 0 AND 1440),
  UNIQUE (supplier_id, weekday, opens_minutes),
  CONSTRAINT "A counter shuts after it opens" CHECK (shuts_minutes > opens_minutes)
) STRICT;

CREATE TABLE part (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  number TEXT NOT NULL UNIQUE CONSTRAINT "A part needs a number" CHECK (length(trim(number)) > 0),
  name TEXT NOT NULL CONSTRAINT "A part needs a name" CHECK (length(trim(name)) > 0),
  kind TEXT,
  warranty_months INTEGER CHECK (warranty_months >= 0),
  warranty_millimiles INTEGER CHECK (warranty_millimiles >= 0),
  core_deposit_cents INTEGER NOT NULL DEFAULT 0 CHECK (core_deposit_cents >= 0)
) STRICT;

CREATE TABLE price (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  supplier_id TEXT NOT NULL REFERENCES supplier (id),
  part_id TEXT NOT NULL REFERENCES part (id),
  cost_cents INTEGER NOT NULL CONSTRAINT "A cost is not less than nothing" CHECK (cost_cents >= 0),
  seen_on TEXT CONSTRAINT "A date is YYYY-MM-DD" CHECK (date(seen_on, '+0 days') IS seen_on)
) STRICT;
CREATE UNIQUE INDEX "This supplier's price of that day is already in the book"
  ON price (part_id, supplier_id, ifnull(seen_on, ''));
CREATE INDEX price_supplier ON price (supplier_id);

CREATE TABLE stock (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  van_id TEXT NOT NULL REFERENCES van (id),
  part_id TEXT NOT NULL REFERENCES part (id),
  quantity_milli INTEGER NOT NULL DEFAULT 0,
  keep_milli INTEGER NOT NULL DEFAULT 0 CHECK (keep_milli >= 0),
  bin TEXT,
  UNIQUE (van_id, part_id)
) STRICT;
CREATE INDEX stock_part ON stock (part_id);

CREATE TABLE stock_move (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  van_id TEXT NOT NULL REFERENCES van (id),
  part_id TEXT NOT NULL REFERENCES part (id),
  quantity_milli INTEGER NOT NULL CONSTRAINT "A stock move moves something" CHECK (quantity_milli <> 0),
  why TEXT NOT NULL CONSTRAINT "No such reason for a stock move"
    CHECK (why IN ('bought', 'installed', 'returned', 'moved_van', 'count_fix', 'scrapped')),
  job_id TEXT REFERENCES job (id),
  cost_cents INTEGER,
  at INTEGER NOT NULL
) STRICT;
CREATE INDEX stock_move_part ON stock_move (part_id, van_id);
CREATE INDEX stock_move_job ON stock_move (job_id) WHERE job_id IS NOT NULL;

CREATE TABLE need (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  job_id TEXT NOT NULL REFERENCES job (id),
  part_id TEXT NOT NULL REFERENCES part (id),
  quantity_milli INTEGER NOT NULL DEFAULT 1000
    CONSTRAINT "A need is for more than nothing" CHECK (quantity_milli > 0),
  sure_percent INTEGER NOT NULL DEFAULT 100
    CONSTRAINT "How sure lies between 0 and 100 percent" CHECK (sure_percent BETWEEN 0 AND 100),
  supplier_id TEXT REFERENCES supplier (id),
  quoted_cents INTEGER CHECK (quoted_cents >= 0),
  state TEXT NOT NULL DEFAULT 'wanted' CONSTRAINT "No such state of a need"
    CHECK (state IN ('wanted', 'asked_for', 'laid_aside', 'in_the_van', 'installed', 'going_back', 'dropped')),
  need_by TEXT CONSTRAINT "A date is YYYY-MM-DD" CHECK (date(need_by, '+0 days') IS need_by),
  counter_note TEXT
) STRICT;
CREATE INDEX need_job ON need (job_id);
CREATE INDEX need_part ON need (part_id);
CREATE INDEX need_supplier ON need (supplier_id) WHERE supplier_id IS NOT NULL;

CREATE TABLE installed_part (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  vehicle_id TEXT NOT NULL REFERENCES vehicle (id),
  job_id TEXT REFERENCES job (id),
  part_id TEXT REFERENCES part (id),
  kind TEXT,
  what TEXT NOT NULL CONSTRAINT "An installed part needs a name" CHECK (length(trim(what)) > 0),
  place TEXT,
  serial TEXT,
  date_stamp TEXT,
  installed_on TEXT NOT NULL CONSTRAINT "A date is YYYY-MM-DD" CHECK (date(installed_on, '+0 days') IS installed_on),
  installed_odometer INTEGER CHECK (installed_odometer >= 0),
  known_by TEXT NOT NULL CONSTRAINT "Known by is we_installed_it, receipt, date_stamp, customer_says or not_known"
    CHECK (known_by IN ('we_installed_it', 'receipt', 'date_stamp', 'customer_says', 'not_known')),
  supplier_id TEXT REFERENCES supplier (id),
  supplier_bill TEXT,
  maker TEXT,
  warranty_from TEXT CONSTRAINT "A date is YYYY-MM-DD" CHECK (date(warranty_from, '+0 days') IS warranty_from),
  warranty_months INTEGER CHECK (warranty_months >= 0),
  warranty_millimiles INTEGER CHECK (warranty_millimiles >= 0),
  stands_in_for_id TEXT REFERENCES installed_part (id),
  replaced_why TEXT CONSTRAINT "A part is replaced because the old one failed, was due, was not there, or not_known"
    CHECK (replaced_why IN ('failed', 'due', 'none_before', 'not_known')),
  replaced_finding_id TEXT REFERENCES finding (id),
  told_at INTEGER,
  removed_on TEXT CONSTRAINT "A date is YYYY-MM-DD" CHECK (date(removed_on, '+0 days') IS removed_on),
  removed_job_id TEXT REFERENCES job (id),
  battery_kind TEXT CONSTRAINT "A battery is flooded, EFB, AGM, lithium or unknown"
    CHECK (battery_kind IN ('flooded', 'EFB', 'AGM', 'lithium', 'unknown')),
  battery_ah REAL CHECK (battery_ah > 0 AND battery_ah < 100000),
  battery_cca INTEGER CHECK (battery_cca > 0),
  CONSTRAINT "A part is not removed before it was installed" CHECK (removed_on IS NULL OR removed_on >= installed_on),
  CONSTRAINT "A warranty does not start after the part was installed"
    CHECK (warranty_from IS NULL OR warranty_from <= installed_on),
  CONSTRAINT "A part that replaces a failed one names the finding that says why it failed"
    CHECK (replaced_why IS NOT 'failed' OR replaced_finding_id IS NOT NULL),
  CONSTRAINT "If it is not known why the old part failed, say when the customer was told"
    CHECK (replaced_why IS NOT 'not_known' OR told_at IS NOT NULL),
  CONSTRAINT "Only a battery has a battery kind, Ah or CCA"
    CHECK (kind IS 'battery' OR (battery_kind IS NULL AND battery_ah IS NULL AND battery_cca IS NULL)),
  CONSTRAINT "A part does not stand in for itself" CHECK (stands_in_for_id IS NULL OR stands_in_for_id <> id)
) STRICT;
CREATE UNIQUE INDEX "There is one already in that place on this vehicle; remove it first"
  ON installed_part (vehicle_id, ifnull(kind, ''), lower(ifnull(place, '')))
  WHERE removed_on IS NULL AND (place IS NOT NULL OR kind = 'battery');
CREATE INDEX installed_part_vehicle ON installed_part (vehicle_id, kind, installed_on);
CREATE INDEX installed_part_job ON installed_part (job_id) WHERE job_id IS NOT NULL;
CREATE INDEX installed_part_removed ON installed_part (removed_job_id) WHERE removed_job_id IS NOT NULL;
CREATE INDEX installed_part_stands ON installed_part (stands_in_for_id) WHERE stands_in_for_id IS NOT NULL;
CREATE INDEX installed_part_why ON installed_part (replaced_finding_id) WHERE replaced_finding_id IS NOT NULL;

CREATE TABLE core (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  supplier_id TEXT NOT NULL REFERENCES supplier (id),
  part_id TEXT REFERENCES part (id),
  job_id TEXT REFERENCES job (id),
  deposit_cents INTEGER NOT NULL CONSTRAINT "A core deposit is more than nothing" CHECK (deposit_cents > 0),
  paid_on TEXT NOT NULL CONSTRAINT "A date is YYYY-MM-DD" CHECK (date(paid_on, '+0 days') IS paid_on),
  due_on TEXT CONSTRAINT "A date is YYYY-MM-DD" CHECK (date(due_on, '+0 days') IS due_on),
  where_now TEXT NOT NULL DEFAULT 'on_the_vehicle' CONSTRAINT "No such place of a core"
    CHECK (where_now IN ('on_the_vehicle', 'in_the_van', 'at_base', 'handed_in', 'credited', 'customer_kept_it',
                         'lost')),
  handed_in_on TEXT CONSTRAINT "A date is YYYY-MM-DD" CHECK (date(handed_in_on, '+0 days') IS handed_in_on),
  credited_on TEXT CONSTRAINT "A date is YYYY-MM-DD" CHECK (date(credited_on, '+0 days') IS credited_on),
  credit_ref TEXT,
  charged_cents INTEGER NOT NULL DEFAULT 0 CHECK (charged_cents >= 0),
  CONSTRAINT "A credited core needs the reference of its credit slip"
    CHECK (where_now <> 'credited' OR length(trim(ifnull(credit_ref, ''))) > 0)
) STRICT;
CREATE INDEX core_supplier ON core (supplier_id);
CREATE INDEX core_job ON core (job_id) WHERE job_id IS NOT NULL;

CREATE TABLE return_part (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  supplier_id TEXT NOT NULL REFERENCES supplier (id),
  part_id TEXT NOT NULL REFERENCES part (id),
  job_id TEXT REFERENCES job (id),
  quantity_milli INTEGER NOT NULL DEFAULT 1000
    CONSTRAINT "A return is of more than nothing" CHECK (quantity_milli > 0),
  amount_cents INTEGER NOT NULL CHECK (amount_cents >= 0),
  bought_on TEXT NOT NULL CONSTRAINT "A date is YYYY-MM-DD" CHECK (date(bought_on, '+0 days') IS bought_on),
  last_day TEXT CONSTRAINT "A date is YYYY-MM-DD" CHECK (date(last_day, '+0 days') IS last_day),
  handed_in_on TEXT CONSTRAINT "A date is YYYY-MM-DD" CHECK (date(handed_in_on, '+0 days') IS handed_in_on),
  credited_on TEXT CONSTRAINT "A date is YYYY-MM-DD" CHECK (date(credited_on, '+0 days') IS credited_on),
  credit_ref TEXT,
  CONSTRAINT "A credited return needs the reference of its credit slip"
    CHECK (credited_on IS NULL OR length(trim(ifnull(credit_ref, ''))) > 0)
) STRICT;
CREATE INDEX return_part_supplier ON return_part (supplier_id);

-- Money --------------------------------------------------------------------------------------------------------------

-- cost, price and tax are the sums of the whole line.
CREATE TABLE line (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  job_id TEXT NOT NULL REFERENCES job (id),
  kind TEXT NOT NULL CONSTRAINT "No such kind of line"
    CHECK (kind IN ('labor', 'part', 'call_out', 'core_deposit', 'discount', 'sundry', 'goodwill')),
  what TEXT NOT NULL CONSTRAINT "A line needs words" CHECK (length(trim(what)) > 0),
  quantity_milli INTEGER NOT NULL DEFAULT 1000,
  cost_cents INTEGER NOT NULL DEFAULT 0,
  price_cents INTEGER NOT NULL,
  tax_cents INTEGER NOT NULL DEFAULT 0,
  installed_part_id TEXT REFERENCES installed_part (id)
) STRICT;
CREATE INDEX line_job ON line (job_id);
CREATE INDEX line_installed ON line (installed_part_id) WHERE installed_part_id IS NOT NULL;

CREATE TABLE invoice (
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  id TEXT NOT NULL UNIQUE,
  number TEXT NOT NULL UNIQUE CONSTRAINT "An invoice needs a number" CHECK (length(trim(number)) > 0),
  job_id TEXT NOT NULL REFERENCES job (id),
  credits_id TEXT REFERENCES invoice (id),
  issued_on TEXT NOT NULL CONSTRAINT "A date is YYYY-MM-DD" CHECK (date(issued_on, '+0 days') IS issued_on),
  due_on TEXT NOT NULL CONSTRAINT "A date is YYYY-MM-DD" CHECK (date(due_on, '+0 days') IS due_on),
  net_cents INTEGER NOT NULL,
  tax_cents INTEGER NOT NULL,
  total_cents INTEGER NOT NULL,
  frozen TEXT NOT NULL,
  sha256 TEXT NOT NULL,
  CONSTRAINT "The total of an invoice is its net plus its tax" CHECK (total_cents = net_cents + tax_cents),
  CONSTRAINT "An invoice is not due before it is issued" CHECK (due_on >= issued_on)
) STRICT;
CREATE UNIQUE INDEX "This job has its invoice already; a later fix is a credit"
  ON invoice (ifnull(job_id, '')) WHERE credits_id IS NULL;
CREATE INDEX invoice_job ON invoice (job_id);
CREATE INDEX invoice_due ON invoice (due_on);

CREATE TABLE payment (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  job_id TEXT NOT NULL REFERENCES job (id),
  at INTEGER NOT NULL,
  cents INTEGER NOT NULL,
  how TEXT NOT NULL CONSTRAINT "A payment is cash, card, transfer, check or account"
    CHECK (how IN ('cash', 'card', 'transfer', 'check', 'account')),
  taken INTEGER NOT NULL DEFAULT 1 CHECK (taken IN (0, 1)),
  fee_cents INTEGER NOT NULL DEFAULT 0,
  ref TEXT
) STRICT;
CREATE INDEX payment_job ON payment (job_id);

CREATE TABLE chase (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  kind TEXT NOT NULL CONSTRAINT "No such reason to call"
    CHECK (kind IN ('declined_work', 'aging_battery', 'upkeep_due', 'unpaid', 'retorque', 'how_is_it_running',
                    'core_deposit', 'part_return')),
  vehicle_id TEXT REFERENCES vehicle (id),
  customer_id TEXT REFERENCES customer (id),
  job_id TEXT REFERENCES job (id),
  due_on TEXT NOT NULL CONSTRAINT "A date is YYYY-MM-DD" CHECK (date(due_on, '+0 days') IS due_on),
  done_on TEXT CONSTRAINT "A date is YYYY-MM-DD" CHECK (date(done_on, '+0 days') IS done_on),
  outcome TEXT
) STRICT;
CREATE INDEX chase_due ON chase (due_on) WHERE done_on IS NULL;
CREATE INDEX chase_job ON chase (job_id) WHERE job_id IS NOT NULL;
CREATE INDEX chase_customer ON chase (customer_id);
CREATE INDEX chase_vehicle ON chase (vehicle_id);

CREATE TABLE trip (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  van_id TEXT NOT NULL REFERENCES van (id),
  on_date TEXT NOT NULL CONSTRAINT "A date is YYYY-MM-DD" CHECK (date(on_date, '+0 days') IS on_date),
  from_area_id TEXT REFERENCES area (id),
  to_area_id TEXT REFERENCES area (id),
  odometer_start INTEGER CHECK (odometer_start >= 0),
  odometer_end INTEGER CHECK (odometer_end >= 0),
  millimiles INTEGER NOT NULL CHECK (millimiles >= 0),
  seconds INTEGER CHECK (seconds >= 0),
  purpose TEXT NOT NULL CONSTRAINT "A trip is for a job, parts, supplies, private or other business"
    CHECK (purpose IN ('job', 'parts', 'supplies', 'private', 'other_business')),
  job_id TEXT REFERENCES job (id),
  CONSTRAINT "A trip does not turn the odometer back"
    CHECK (odometer_end IS NULL OR odometer_start IS NULL OR odometer_end >= odometer_start)
) STRICT;
CREATE INDEX trip_date ON trip (on_date);
CREATE INDEX trip_job ON trip (job_id) WHERE job_id IS NOT NULL;

CREATE TABLE supplier_bill (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  supplier_id TEXT NOT NULL REFERENCES supplier (id),
  ref TEXT,
  on_date TEXT NOT NULL CONSTRAINT "A date is YYYY-MM-DD" CHECK (date(on_date, '+0 days') IS on_date),
  cents INTEGER NOT NULL,
  due_on TEXT CONSTRAINT "A date is YYYY-MM-DD" CHECK (date(due_on, '+0 days') IS due_on),
  paid_on TEXT CONSTRAINT "A date is YYYY-MM-DD" CHECK (date(paid_on, '+0 days') IS paid_on)
) STRICT;
CREATE INDEX supplier_bill_supplier ON supplier_bill (supplier_id);

-- The day and the desk -----------------------------------------------------------------------------------------------

CREATE TABLE day_plan (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  van_id TEXT NOT NULL REFERENCES van (id),
  day TEXT NOT NULL CONSTRAINT "A date is YYYY-MM-DD" CHECK (date(day, '+0 days') IS day),
  leave_at INTEGER NOT NULL,
  home_at INTEGER,
  accepted_at INTEGER NOT NULL,
  UNIQUE (van_id, day)
) STRICT;

CREATE TABLE day_stop (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  plan_id TEXT NOT NULL REFERENCES day_plan (id),
  position INTEGER NOT NULL CHECK (position >= 0),
  job_id TEXT REFERENCES job (id),
  supplier_id TEXT REFERENCES supplier (id),
  locked INTEGER NOT NULL DEFAULT 0 CHECK (locked IN (0, 1)),
  arrive_at INTEGER,
  start_at INTEGER,
  depart_at INTEGER,
  UNIQUE (plan_id, position),
  CONSTRAINT "A stop of a day is a call or a counter" CHECK ((job_id IS NULL) <> (supplier_id IS NULL))
) STRICT;
CREATE INDEX day_stop_job ON day_stop (job_id) WHERE job_id IS NOT NULL;

-- What was ticked off at a counter: row_id is the id of the need, core, return or stock row.
CREATE TABLE tick (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  day TEXT NOT NULL CONSTRAINT "A date is YYYY-MM-DD" CHECK (date(day, '+0 days') IS day),
  kind TEXT NOT NULL CHECK (kind IN ('pick_up', 'drop_off', 'return', 'restock')),
  row_id TEXT NOT NULL,
  at INTEGER NOT NULL,
  UNIQUE (day, kind, row_id)
) STRICT;

-- What was being typed, and where; it outlives the program.
CREATE TABLE draft (
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  id TEXT NOT NULL UNIQUE,
  job_id TEXT REFERENCES job (id),
  page TEXT NOT NULL,
  field TEXT NOT NULL,
  text TEXT NOT NULL,
  at INTEGER NOT NULL
) STRICT;
CREATE INDEX draft_job ON draft (job_id);

-- Search -------------------------------------------------------------------------------------------------------------

-- One document per vehicle and owner, per vehicle without one, per customer without one. doc grows whenever the vehicle
-- is seen, so that the newest comes first. The store writes both tables together with the rows they speak of.
CREATE TABLE search_doc (
  doc INTEGER PRIMARY KEY AUTOINCREMENT,
  vehicle_id TEXT,
  customer_id TEXT,
  until TEXT,
  words TEXT NOT NULL
) STRICT;
CREATE INDEX search_doc_vehicle ON search_doc (vehicle_id) WHERE vehicle_id IS NOT NULL;
CREATE INDEX search_doc_customer ON search_doc (customer_id) WHERE customer_id IS NOT NULL;

CREATE VIRTUAL TABLE search USING fts5 (
  words, content = 'search_doc', content_rowid = 'doc', tokenize = 'ascii', detail = none, prefix = '1 2 3 4'
);
