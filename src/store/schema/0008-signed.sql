-- SPDX-License-Identifier: GPL-3.0-or-later
-- SPDX-FileCopyrightText: The Halfshaft authors

-- What was declined may be signed, too; the signature of a yes stands with its go-ahead.

ALTER TABLE advice ADD COLUMN signature BLOB;

CREATE TRIGGER advice_signature_insert BEFORE INSERT ON advice
WHEN length(NEW.signature) = 0 OR length(NEW.signature) > 16384
BEGIN SELECT RAISE (ABORT, 'A signature has 1 to 16,384 bytes; clear it and sign again'); END;
CREATE TRIGGER advice_signature_update BEFORE UPDATE ON advice
WHEN length(NEW.signature) = 0 OR length(NEW.signature) > 16384
BEGIN SELECT RAISE (ABORT, 'A signature has 1 to 16,384 bytes; clear it and sign again'); END;
