# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""Every calculator from outside: worked examples with where they come from, refusals, the list, and the JSON's shape.

The ids are those of the tables that the examples stand in; TM is a US Army technical manual, CFR the Code of Federal
Regulations. "Arithmetic" is worked out by hand from the formula of the row."""

import math
import os

import tap
from halfshaft import BookCase

TODAY = "today=2026-11-25"

# id, calculator and words, results, verdict (None: none, "…": any), where it comes from
WORKED = [
    ("OCV-1", "charge kind=flooded volts=12.35", {"percent": 63.095238095}, "watch", "battery-maker table at 80 °F"),
    ("OCV-2", "charge kind=flooded volts=12.10", {"percent": 30.555555556}, "watch", "battery-maker table at 80 °F"),
    ("OCV-3", "charge kind=flooded volts=12.80", {"percent": 100}, "watch", "battery-maker table; surface charge"),
    ("OCV-4", "charge kind=AGM volts=12.45", {"percent": 62.5}, "watch", "vehicle maker's AGM table"),
    ("OCV-5", "charge kind=AGM volts=12.70", {"percent": 87.5}, "within", "vehicle maker's AGM table"),
    ("job 2.13", "charge kind=flooded volts=12.05", {"percent": 23.529411765}, "watch", "arithmetic"),
    ("job 2.13", "charge kind=flooded volts=12.42", {"percent": 71.428571429}, "within", "story 9: within, 71 %"),
    ("AGM low", "charge kind=AGM volts=11.90", {"percent": None}, "…", "below 12.0 V no number is given"),
    ("SG-1", "gravity sg=1.250 fahrenheit=20", {"sg80": 1.226}, "…", "TM 5-3820-256-24-4 prints this example"),
    ("SG-2", "gravity sg=1.250 fahrenheit=100", {"sg80": 1.258}, "…", "arithmetic"),
    ("SG-1 in °C", "gravity sg=1.250 celsius=26.666666667", {"sg80": 1.25}, "…", "80 °F is 26.67 °C"),
    ("CELL-4", "cells sg=1.265,1.260,1.262,1.235,1.264,1.263", {"spread": 0.030}, "watch", "TM 9-6140-200-14"),
    ("CELL on 0.025", "cells sg=1.265,1.240,1.262,1.250,1.264,1.263", {"spread": 0.025}, "within", "same"),
    ("CELL over 0.050", "cells sg=1.265,1.200,1.262,1.250,1.264,1.263", {"spread": 0.065}, "outside",
     "TM 5-3740-214-14: 0.050"),
    ("LOAD-1", "load cca=650 celsius=21", {"amps": 325, "limit_volts": 9.6}, "…", "half the CCA"),
    ("LOAD-3", "load cca=650 celsius=21 volts=9.8", {"limit_volts": 9.6}, "within", "TM 5-4210-230-14&P-1 Table 5"),
    ("LOAD-4", "load cca=650 celsius=18", {"limit_volts": 9.5}, "…", "the same, as steps"),
    ("LOAD-5", "load cca=650 celsius=-4 volts=8.95", {"limit_volts": 8.9}, "watch", "between step and line"),
    ("LOAD-6", "load cca=650 celsius=-25 volts=9.0", {"limit_volts": None}, "cannot_tell", "no value below -18 °C"),
    ("LOAD-7", "load cca=650 celsius=21 volts=9.2 percent=55", {"amps": 325}, "cannot_tell", "75 % first"),
    ("FRZ-1", "freezing percent=40", {"celsius": -21.66}, "…", "TM 5-3820-256-24-4 Table 2"),
    ("FRZ-2", "freezing sg=1.170", {"celsius": -19.757142857}, "…", "TM 5-3820-256-24-4 Table 2"),
    ("CHG-1", "charging volts=14.2 kind=conventional", {}, "within", "trade-school page: 13.5 to 14.7 V"),
    ("CHG-2", "charging volts=12.4 kind=conventional", {}, "outside", "the same: below 13.0 V not charging"),
    ("CHG-3", "charging volts=12.7 kind=managed", {}, "cannot_tell", "may be commanded: add load"),
    ("CHG-4", "charging volts=15.6 kind=conventional celsius=20", {}, "outside", "over 15.5 V"),
    ("RIP-1", "ripple volts=0.07", {}, "within", "three bands from conflicting sources"),
    ("RIP-1", "ripple volts=0.25", {}, "watch", "the same"),
    ("RIP-1", "ripple volts=0.60", {}, "outside", "the same"),
    ("PAR-1", "parasitic amps=0.050 rc=120", {"days": 24}, "within", "GM bulletin: Ah = RC x 0.6, 40 % usable"),
    ("PAR-2", "parasitic amps=0.250 rc=120", {"days": 4.8}, "outside", "the same"),
    ("story 20", "parasitic amps=0.31 ah=60", {"days": 3.225806452}, "outside", "60 Ah x 0.4 / (0.31 A x 24)"),
    ("story 20", "parasitic amps=0.024 ah=60 share=0.4", {"days": 41.666666667}, "within", "the same"),
    ("PEU-1", "runtime ah=60 k=1.2 amps=10", {"hours": 4.716}, "…", "Peukert, 20 h rating"),
    ("PEU-2", "runtime ah=60 k=1.2 amps=3", {"hours": 20}, "…", "identity at the 20 h rate"),
    ("PEU-3", "runtime ah=60 k=1.2 amps=25", {"hours": 1.570534536}, "…", "94.2 min"),
    ("PEU-4", "runtime ah=100 k=1.2 amps=5", {"hours": 20}, "…", "identity at the 20 h rate"),
    ("DC-1", f"batterycode code=C5 {TODAY}", {"months": ["2025-03"]}, "…", "technician training module p. 27"),
    ("DC-2", f"batterycode code=H7 {TODAY}", {"months": ["2017-08"]}, "…", "2027 is in the future"),
    ("DC-3", f"batterycode code=J4 {TODAY}", {"months": ["2024-09", "2024-10"]}, "…", "two schemes"),
    ("DC-4", f"batterycode code=I4 {TODAY}", {"months": ["2024-09"]}, "…", "only A to L without a gap has an I"),
    ("FUSE-1", "fusedraw body=regular rating=10 millivolts=1.0", {"milliamps": 129.87012987}, "…", "training site"),
    ("FUSE-2", "fusedraw body=mini rating=15 millivolts=1.0", {"milliamps": 218.34061135}, "…", "MACS June 2017"),
    ("FUSE-3", "fusedraw body=mini rating=15 millivolts=0.1", {"milliamps": 21.834061135}, "…", "MACS June 2017"),
    ("FUSE-4", "fusedraw body=regular rating=10 millivolts=0", {"milliamps": 0}, "…", "below the meter"),
    ("VD-1", "drop volts=0.45 amps=180 place=starter-positive", {"milliohms": 2.5}, "watch",
     "TM 10-3930-671-24: 0.20 V per 100 A; TM 5-3820-256-24-4: 0.5 V"),
    ("VD-2", "drop volts=0.40 place=mechanical-switch", {"milliohms": None}, "outside", "over every limit"),
    ("VD-2", "drop volts=0.40 place=solenoid-switch", {}, "outside", "over every limit"),
    ("VD-2", "drop volts=0.40 place=magnetic-switch", {}, "outside", "over every limit"),
    ("VD-3", "drop volts=0.22 amps=60 place=ground", {"milliohms": 3.666666667}, "outside", "TM 5-3820-256-24-4"),
    ("VD-4", "drop volts=0.05 amps=0 place=cable", {"milliohms": None}, "cannot_tell", "it must carry current"),
    ("B5", "drop volts=0.3 place=charging-positive", {}, "watch", "0.2 V check, 0.5 V fault"),
    ("WIRE-2", "cable awg=16 meters=6 amps=5", {"volts": 0.395234254}, "…", "AWG and 100 % IACS copper"),
    ("WIRE-2", "cable awg=16 meters=6 amps=5 celsius=60", {"volts": 0.457365078}, "…", "0.393 % a degree"),
    ("WIRE-3", "cable awg=2 meters=2 amps=180", {"volts": 0.184559697}, "…", "AWG and 100 % IACS copper"),
    ("WIRE-4", "cable mm2=2.5 meters=6 amps=10", {"volts": 0.4788}, "…", "IEC 60228 class 5: 7.98 ohm/km"),
    ("JMP-1", "surge source_volts=12.6 battery_volts=-12.0 milliohms=24", {"amps": 1025}, "…", "arithmetic"),
    ("JMP-2", "surge source_volts=28 battery_volts=12 milliohms=30", {"amps": 533.333333333}, "…", "arithmetic"),
    ("CMP-1", "compression values=150,148,152,110", {"lowest_percent": 72.368421053}, "depends", "75 % and 70 % rules"),
    ("CMP over", "compression values=150,148,152,140", {"lowest_percent": 92.105263158}, "within", "over both rules"),
    ("CMP under", "compression values=150,148,152,60", {"lowest_percent": 39.473684211}, "outside", "under both"),
    ("COOL-1", "coolant kind=pg percent=43", {"celsius": -24.26}, "…", "handbook of chemistry, 15th ed., Table 5.13"),
    ("COOL-2", "coolant kind=eg percent=45", {"celsius": -30.5}, "…", "tractor maker 2013"),
    ("TYR-1", "tread mm=1.59", {"mm": 1.59, "thirtyseconds": 2.003149606}, "depends", "2/32 in and 1.6 mm"),
    ("TYR-2", "tread thirtyseconds=2.00", {"mm": 1.5875}, "depends", "on the US limit, below 1.6 mm"),
    ("tread", "tread mm=5", {"mm": 5}, "within", "advise at 3.0 mm"),
    ("tread", "tread mm=1.2", {"mm": 1.2}, "outside", "below both limits"),
    ("TYR-3", f"tirecode code=3523 {TODAY}", {"from": "2023-08-27", "to": "2023-09-02", "age_days": 1186}, "…",
     "49 CFR 574.5, weeks from Sunday"),
    ("TYR-4", f"tirecode code=0126 {TODAY}", {"from": "2026-01-04", "to": "2026-01-10"}, "…", "not the ISO week"),
    ("TYR-5", f"tirecode code=5225 {TODAY}", {"from": "2025-12-28", "to": "2026-01-03"}, "…", "not the ISO week"),
    ("TYR-6", f"tirecode code=0301 {TODAY}", {"from": "2001-01-21", "to": "2001-01-27"}, "outside", "too old"),
    ("TYR-7", f"tirecode code=031 {TODAY}", {}, "outside", "3rd week of 1981 or 1991"),
    ("TRQ-1", "torque lbfft=80", {"nm": 108.46543586635, "lbfft": 80}, None, "NIST factors"),
    ("TRQ-1", "torque nm=100", {"nm": 100, "lbfft": 73.756214928}, None, "NIST factors"),
    ("VIN-1", f"vin vin=1M8GDM9AXKP042788", {"check": "valid", "expected": "X", "years": [1989, 2019]}, "…",
     "49 CFR 565.15; a bus: both eras"),
    ("VIN-2", "vin vin=11111111111111111", {"check": "valid", "expected": "1"}, "…", "49 CFR 565.15"),
    ("VIN-3", "vin vin=1G4AH59H45G118341", {"check": "valid", "expected": "4"}, "…", "49 CFR 565 Table V"),
    ("VIN-4", "vin vin=LJCPCBLCX11000237", {"check": "valid", "expected": "X"}, "…", "49 CFR 565.15"),
    ("VIN-5", "vin vin=5GZCZ43D13S812715", {"check": "valid", "expected": "1"}, "…", "49 CFR 565.15"),
    ("VIN-7", "vin vin=1M8GDM9AXKP042778", {"check": "wrong", "expected": "7"}, "…", "49 CFR 565.15"),
    ("VIN-8", "vin vin=WVWZZZ1JZ3W386752", {"check": "not_used"}, "…", "ISO 3779 leaves position 9 to the maker"),
    ("DTC-1", "trouble hex=0133", {"code": "P0133", "hex": "0133", "scope": "generic"}, "…", "SAE J2012 layout"),
    ("DTC-3", "trouble hex=4133", {"code": "C0133"}, "…", "the same"),
    ("DTC-4", "trouble hex=8133", {"code": "B0133"}, "…", "the same"),
    ("DTC-7", "trouble hex=D158", {"code": "U1158"}, "…", "the same"),
    ("DTC-8", "trouble hex=E03E", {"code": "U203E"}, "…", "the same"),
    ("DTC-9", "trouble hex=3FFF", {"code": "P3FFF"}, "…", "the same"),
    ("DTC-10", "trouble hex=0000", {"code": None}, "…", "padding"),
    ("DTC-11", "trouble code=P0133", {"hex": "0133"}, "…", "the other way"),
    ("B12", "trouble hex=C073", {"code": "U0073"}, "…", "ISO 14229-1 example"),
    ("B12", "trouble hex=9000", {"code": "B1000"}, "…", "ISO 14229-1 example"),
    ("WAR-1", f"warranty from=2024-02-29 months=12", {"until": "2025-02-28"}, "…", "clamped to the month's end"),
    ("WAR-2", f"warranty from=2024-08-31 months=6", {"until": "2025-02-28"}, "…", "clamped to the month's end"),
    ("WAR-3", "warranty from=2026-03-15 months=24 on=2028-03-15", {"until": "2028-03-15", "covered": True}, "…",
     "the last day counts"),
    ("WAR-4", "warranty from=2026-03-15 months=24 odometer=81250 miles=24000 on=2027-01-01 at=105250",
     {"until_odometer": 105250, "covered": True}, "…", "the last mile counts"),
    ("WAR-4", "warranty from=2026-03-15 months=24 odometer=81250 miles=24000 on=2027-01-01 at=105251",
     {"until_odometer": 105250, "covered": False}, "…", "date good, odometer over"),
    ("TAX-1", "tax rate=8.25 basis=line amounts=10.10,10.10,10.10", {"tax_cents": 249}, None, "SSUTA 324"),
    ("TAX-1", "tax rate=8.25 basis=invoice amounts=10.10,10.10,10.10", {"tax_cents": 250}, None, "SSUTA 324"),
    ("TAX-2", "tax rate=6.5 basis=line amounts=0.07", {"tax_cents": 0}, None, "never rounded twice"),
    ("TAX-3", "tax rate=6.5 basis=line amounts=1.00", {"tax_cents": 7}, None, "half up"),
    ("TAX-4", "tax rate=7.25 basis=invoice amounts=19.99", {"tax_cents": 145}, None, "arithmetic"),
    ("TAX-5", "tax rate=8.875 basis=invoice amounts=129.95", {"tax_cents": 1153}, None, "arithmetic"),
    ("story 15", "sell cost=50", {"price_cents": 8400}, None, "banded markup"),
    ("story 15", "sell cost=51.00", {"price_cents": 8540}, None, "banded markup"),
    ("story 15", "sell cost=118.00 bands=10:2.0,40:1.6,100:1.4,rest:1.25", {"price_cents": 17920}, None, "the same"),
    ("MIL-1", "mileage date=2022-06-30 miles=100", {"cents": 5850}, None, "IRS business rate, first half of 2022"),
    ("MIL-1", "mileage date=2022-07-01 miles=100", {"cents": 6250}, None, "IRS business rate, second half of 2022"),
    ("MIL-2", "mileage date=2026-02-10 miles=37.4", {"cents": 2712}, None, "27.115 exactly: half up"),
    ("MIL-3", "mileage date=2024-12-31 miles=10", {"cents": 670}, None, "IRS business rate"),
    ("MIL-3", "mileage date=2025-01-01 miles=10", {"cents": 700}, None, "IRS business rate"),
    ("story 12", "keep used=11 days=90 restock=3 service=0.95", {"keep": 2}, None, "Poisson: 94.7 % with 1"),
    ("story 4", "bring guess=0.35 weight=10 hits=3 cases=7 cost=118.00 restock=15 minutes=6 trip_minutes=38 "
     "trip_miles=9", {"p": 0.382352941, "line": 0.297126687, "bring": True, "gain_cents": 783}, "…", "arithmetic"),
]

# What is refused: words, exit status, what the reason holds.
REFUSED = [
    ("charge kind=flooded volts=-12.4", 1, "leads swapped"),
    ("charge kind=flooded volts=12,4", 1, "volts"),
    ("charge kind=flooded volts=12.4V", 1, "volts"),
    ("charge kind=flooded volts=12400", 1, "volts"),
    ("charge kind=flooded volts=1e3", 1, "exponent"),
    ("charge kind=flooded volts=nan", 1, "volts"),
    ("charge kind=flooded volts=", 2, "volts"),
    ("charge volts=12.4", 2, "kind"),
    ("charge kind=gel volts=12.4", 1, "flooded"),
    ("gravity sg=1.25", 2, "fahrenheit"),
    ("gravity sg=1250 celsius=20", 1, "sg"),
    ("freezing percent=40 sg=1.2", 2, "only one"),
    ("load cca=0 celsius=20", 1, "cca"),
    ("parasitic amps=-0.05 ah=60", 1, "amps"),
    ("fusedraw body=mini rating=11 millivolts=1", 1, "rating"),
    ("cable awg=99 meters=1 amps=1", 1, "awg"),
    ("surge source_volts=12 battery_volts=12 milliohms=0", 1, "milliohms"),
    ("tirecode code=0026", 1, "week"),
    ("tirecode code=5427", 1, "week"),
    ("tirecode code=xx", 1, "code"),
    ("batterycode code=ZZ", 1, "code"),
    ("vin vin=1M8GDM9AXKP04278", 1, "16"),
    ("vin vin=1M8GDM9AXKPO42788", 1, "0"),
    ("trouble code=P4133", 1, "code"),
    ("trouble hex=XYZ", 1, "hex"),
    ("warranty from=2024-02-30 months=12", 1, "from"),
    ("tax rate=8.25 basis=line amounts=1.005", 1, "amounts"),
    ("sell cost=50 bands=10:2.0", 1, "bands"),
    ("mileage date=1980-01-01 miles=10", 1, "date"),
    ("torque lbfft=1 nm=1", 2, "only one"),
    ("nosuch a=1", 2, "nosuch"),
]


class Calc(BookCase):
    def calc(self, words):
        return self.ask("calc", *words.split())

    def assert_result(self, found, expected):
        if isinstance(expected, (int, float)) and not isinstance(expected, bool):
            self.assertTrue(math.isclose(found, expected, rel_tol=2e-5, abs_tol=1e-9), f"{found}, not {expected}")
        else:
            self.assertEqual(found, expected)

    def test_worked_examples(self):
        for name, words, results, verdict, source in WORKED:
            with self.subTest(id=name, words=words, source=source):
                answer = self.calc(words)
                for key, expected in results.items():
                    self.assertIn(key, answer["result"])
                    self.assert_result(answer["result"][key], expected)
                if verdict != "…":
                    self.assertEqual(answer["verdict"], verdict)

    def test_refusals(self):
        for words, status, reason in REFUSED:
            with self.subTest(words=words):
                self.assertIn(reason, self.refuse("calc", *words.split(), status=status))

    def test_the_list_names_all_and_its_examples_run(self):
        listed = self.ask("calc")
        self.assertGreaterEqual(len(listed), 26)
        for calc in listed:
            with self.subTest(calc=calc["name"]):
                answer = self.calc(calc["name"] + " " + calc["example"])
                self.assertEqual(answer["name"], calc["name"])
                self.assertTrue(answer["source"])
                self.assertIn(answer["sure"], ["official text", "derived", "secondary text", "common practice",
                                               "memory"])
                self.assertTrue(answer["result"] or answer["verdict"])
        text = self.run_cli("calc").stdout
        for calc in listed:
            self.assertIn(f"halfshaft-cli calc {calc['name']} {calc['example']}", text)

    def test_text_says_who_says_so(self):
        text = self.run_cli("calc", "ripple", "volts=0.25").stdout
        self.assertIn("who says so", text)
        self.assertIn("[suspect]", text)

    def test_no_book_is_made(self):
        self.run_cli("calc", "torque", "nm=100")
        self.assertEqual(os.listdir(self.folder), [])

    def test_money_is_exact(self):
        """Tenths of a mile at a rate of half a cent: every product against whole-number arithmetic."""
        for tenths in range(1, 400, 7):
            cents = self.calc(f"mileage date=2026-02-10 miles={tenths // 10}.{tenths % 10}")["result"]["cents"]
            self.assertEqual(cents, (tenths * 725 + 50) // 100)

    def test_a_dearer_part_never_sells_for_less(self):
        prices = [self.calc(f"sell cost={cost // 100}.{cost % 100:02}")["result"]["price_cents"]
                  for cost in range(1, 20000, 411)]
        self.assertEqual(prices, sorted(prices))


if __name__ == "__main__":
    tap.main()
