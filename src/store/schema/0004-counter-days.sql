-- SPDX-License-Identifier: GPL-3.0-or-later
-- SPDX-FileCopyrightText: The Halfshaft authors

-- Days on which a counter, or without one every counter, does not keep the hours of its week. Without hours it is shut;
-- a day may have several spans. What is said of one counter goes before what is said of all.
CREATE TABLE counter_day (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  supplier_id TEXT REFERENCES supplier (id),
  on_date TEXT NOT NULL CONSTRAINT "A date is YYYY-MM-DD" CHECK (date(on_date, '+0 days') IS on_date),
  opens_minutes INTEGER CHECK (opens_minutes BETWEEN 0 AND 1440),
  shuts_minutes INTEGER CHECK (shuts_minutes BETWEEN 0 AND 1440),
  words TEXT,
  CONSTRAINT "A day has both when it opens and when it shuts, or neither"
    CHECK ((opens_minutes IS NULL) = (shuts_minutes IS NULL)),
  CONSTRAINT "A counter shuts after it opens" CHECK (shuts_minutes > opens_minutes)
) STRICT;
CREATE UNIQUE INDEX counter_day_one ON counter_day (on_date, ifnull(supplier_id, ''), ifnull(opens_minutes, -1));
CREATE INDEX counter_day_supplier ON counter_day (supplier_id);
