-- SPDX-License-Identifier: GPL-3.0-or-later
-- SPDX-FileCopyrightText: The Halfshaft authors

-- A limit of a vehicle's own says whose it is: the maker's value and the owner's limit stand side by side. Limits from
-- before count as the owner's, the weaker of both, until somebody says that they are the maker's.

CREATE TABLE check_own_whose (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  vehicle_id TEXT NOT NULL REFERENCES vehicle (id),
  check_id TEXT NOT NULL REFERENCES check_kind (id),
  whose TEXT NOT NULL DEFAULT 'owner' CONSTRAINT "A limit is the maker's or the owner's"
    CHECK (whose IN ('maker', 'owner')),
  low INTEGER,
  high INTEGER,
  source TEXT NOT NULL CONSTRAINT "A limit of a vehicle's own needs its source" CHECK (length(trim(source)) > 0),
  UNIQUE (vehicle_id, check_id, whose),
  CONSTRAINT "The low limit is not above the high limit" CHECK (low IS NULL OR high IS NULL OR low <= high)
) STRICT;
INSERT INTO check_own_whose (seq, id, vehicle_id, check_id, low, high, source)
  SELECT seq, id, vehicle_id, check_id, low, high, source FROM check_own;
DROP TABLE check_own;
ALTER TABLE check_own_whose RENAME TO check_own;
CREATE INDEX check_own_check ON check_own (check_id);
