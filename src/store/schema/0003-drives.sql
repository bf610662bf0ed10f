-- SPDX-License-Identifier: GPL-3.0-or-later
-- SPDX-FileCopyrightText: The Halfshaft authors

-- A trip says when it was left for, so that drives are known by the time of day; trips from before do not say.

ALTER TABLE trip ADD COLUMN left_at INTEGER;

-- Drives over the roads of a map, kept because routing takes time. Places are positions, "40.71280,-74.00600". stamp
-- tells the map from any other: a drive of another one is driven anew. seconds and millimiles are not there where no
-- road leads.
CREATE TABLE road_drive (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  from_place TEXT NOT NULL,
  to_place TEXT NOT NULL,
  profile TEXT NOT NULL,
  stamp TEXT NOT NULL,
  seconds INTEGER CHECK (seconds >= 0),
  millimiles INTEGER CHECK (millimiles >= 0),
  UNIQUE (from_place, to_place, profile),
  CONSTRAINT "A drive over roads has both its time and its length, or neither"
    CHECK ((seconds IS NULL) = (millimiles IS NULL))
) STRICT;
