# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""Who should take which call. Base, Quayside and Highcroft lie in a triangle: 9 min and 3.1 mi, 12 min and 5.0 mi, 15
min and 6.1 mi; two customers at Quayside 4 min and 1.0 mi, at Highcroft 5 min and 1.3 mi. A minute costs 1.60, a mile
0.42. All sums are done here."""

import json
import signal
import subprocess
import time

import tap
from halfshaft import CLI, BookCase, DemoCase

DAY = "2026-03-10"
MINUTES = {"BQ": 9, "BH": 12, "QH": 15, "QQ": 4, "HH": 5}
TENTHS = {"BQ": 31, "BH": 50, "QH": 61, "QQ": 10, "HH": 13}


def leg(table, a, b):
    return table.get(a + b, table.get(b + a))


def round_trip(areas, work, waits=0):
    """Minutes and tenths of a mile from base through `areas` and back, with `work` minutes at each."""
    stops = ["B", *areas, "B"]
    pairs = list(zip(stops, stops[1:]))
    return (sum(leg(MINUTES, a, b) for a, b in pairs) + work * len(areas) + waits,
            sum(leg(TENTHS, a, b) for a, b in pairs))


def cents(*trips):
    """Rounded once, half up."""
    tenths_of_cents = sum(minutes * 1600 + tenths * 42 for minutes, tenths in trips)
    return (tenths_of_cents + 5) // 10


class TwoVans(BookCase):
    """Two calls of van A at nine, at both ends of the town; van B goes to one end anyway."""

    def setUp(self):
        super().setUp()
        self.now = f"{DAY}T06:45"
        self.run_cli("new", "--zone", "America/New_York")
        for kind, rows in (
                ("areas", [["code", "name"], ["B", "Base"], ["Q", "Quayside"], ["H", "Highcroft"]]),
                ("travel", [["from", "to", "minutes", "miles"]] + [
                    [pair[0], pair[1], MINUTES[pair], TENTHS[pair] / 10] for pair in MINUTES]),
                ("customers", [["name", "phone"], ["Nell Harrow", "555-0160"]])):
            self.run_cli("import", kind, self.write_rows(f"{kind}.csv", rows))
        for key, value in (("base_area", "B"), ("leave_from", "07:00"), ("leave_to", "11:00"), ("spare_minutes", "0"),
                           ("minute_cents", "160"), ("mile_cents", "42"), ("vans", "A,B")):
            self.run_cli("set", key, value)

    def add_jobs(self, *jobs):
        rows = [["number", "customer_phone", "words", "stage", "area", "day", "window_from", "window_to", "minutes"]]
        for number, area, start, end in jobs:
            rows.append([number, "555-0160", "no crank", "promised", area, DAY, start, end, 30])
        self.run_cli("import", "jobs", self.write_rows("jobs.csv", rows))

    def add_nine(self):
        self.add_jobs(("A-0001", "Q", "09:00", "09:00"), ("A-0002", "H", "09:00", "09:00"),
                      ("B-0001", "H", "09:35", "09:35"))

    def of_van(self, letter):
        return [stop["id"] for stop in self.ask("plan", "--day", DAY, "--van", letter, "--going")["stops"]]


class Share(TwoVans):
    def test_evening(self):
        """After the hour to be home by, calls are still shared: late home rather than served by nobody."""
        for key, value in (("home_by", "18:00"), ("leave_to", "21:00")):
            self.run_cli("set", key, value)
        self.add_jobs(("A-0001", "Q", "20:00", "20:00"), ("A-0002", "H", "20:00", "20:00"))
        self.now = f"{DAY}T19:00"
        found = self.ask("plan", "--share", "--day", DAY)
        self.assertEqual(found["cost_cents"], cents(round_trip("Q", 30), round_trip("H", 30)))
        self.assertEqual(found["broken"], [])
        self.assertEqual([[stop["start"] for stop in van["stops"]] for van in found["vans"]], [["20:00"], ["20:00"]])

    def test_json(self):
        self.add_nine()
        found = self.ask("plan", "--share", "--day", DAY)
        apart = round_trip("HQ", 30), round_trip("H", 30)
        shared = round_trip("Q", 30), round_trip("HH", 30)
        self.assertEqual(found["day"], DAY)
        self.assertEqual((found["status"], found["proven"], found["gap_cents"]), ("optimal", True, 0))
        self.assertEqual(found["cost_cents"], cents(*shared))
        self.assertEqual(found["bound_cents"], cents(*shared))
        self.assertEqual(found["minutes"], sum(trip[0] for trip in shared))
        self.assertAlmostEqual(found["miles"], sum(trip[1] for trip in shared) / 10)
        self.assertEqual(found["spare_minutes"], 0)
        self.assertEqual(found["saves"]["minutes"], sum(t[0] for t in apart) - sum(t[0] for t in shared))
        self.assertAlmostEqual(found["saves"]["miles"], (sum(t[1] for t in apart) - sum(t[1] for t in shared)) / 10)
        self.assertEqual(found["saves"]["cents"], cents(*apart) - cents(*shared))
        self.assertEqual(found["moves"], [{"id": "A-0002", "from": "A", "to": "B"}])
        # Highcroft first is sooner home, so it is Quayside that van A was to reach 45 min late.
        self.assertEqual([row["id"] for row in found["mended"]], ["A-0001"])
        self.assertEqual(found["mended"][0]["late_minutes"], 0)
        self.assertEqual((found["broken"], found["worse"], found["left_out"], found["parts"], found["stays"]),
                         ([], [], [], [], []))
        self.assertFalse(found["accepted"])

    def test_routes(self):
        self.add_nine()
        van_a, van_b = self.ask("plan", "--share", "--day", DAY)["vans"]
        self.assertEqual((van_a["van"], van_a["leave"], van_a["home"]), ("A", "08:51", "09:39"))
        self.assertEqual((van_b["van"], van_b["leave"], van_b["home"]), ("B", "08:48", "10:17"))
        self.assertEqual((van_b["drive_minutes"], van_b["miles"]), (29, 11.3))
        self.assertEqual([(stop["kind"], stop["id"], stop["from_van"], stop["start"]) for stop in van_b["stops"]],
                         [("call", "A-0002", "A", "09:00"), ("call", "B-0001", None, "09:35")])
        self.assertEqual(van_a["stops"][0]["window"], ["09:00", "09:00"])
        self.assertFalse(van_a["begun"] or van_a["stops"][0]["locked"])

    def test_text(self):
        self.add_nine()
        text = self.run_cli("plan", "--share", "--day", DAY).stdout
        for line in ("Van A: leave 08:51, home 09:39, 18 min driving, 6.2 mi",
                     " 1  09:00  A-0002  “no crank”, H [09:00–09:00], 0 min spare, from van A",
                     "A-0002 goes from van A to van B", "Mended: A-0001: kept instead of 45 min late"):
            self.assertIn(line + "\n", text)
        self.assertIn("(proven best)", text.splitlines()[0])
        self.assertNotIn("stand.", text)

    def test_dearer(self):
        """Two vans are away longer than one that is late: 18 + 24 and 36 min of driving, 6 min more in all."""
        self.add_jobs(("A-0001", "Q", "09:00", "09:00"), ("A-0002", "H", "09:00", "09:00"))
        one, two = round_trip("HQ", 30), (round_trip("Q", 30), round_trip("H", 30))
        longer = sum(trip[0] for trip in two) - one[0]
        further = sum(trip[1] for trip in two) - one[1]
        dearer = cents(*two) - cents(one)
        self.assertTrue(longer > 0 and further > 0 and dearer > 0)
        text = self.run_cli("plan", "--share", "--day", DAY).stdout
        self.assertIn(f"Against the orders that stand: {longer} min longer, {further / 10} mi more, "
                      f"{dearer / 100:.2f} dearer.\n", text)
        self.assertNotIn("Saves", text)

    def test_saves(self):
        self.add_nine()
        self.assertIn("\nSaves ", self.run_cli("plan", "--share", "--day", DAY).stdout)

    def test_accept(self):
        self.add_nine()
        self.assertEqual(self.of_van("A"), ["A-0002", "A-0001"])
        self.assertTrue(self.ask("plan", "--share", "--day", DAY, "--accept")["accepted"])
        self.assertEqual(self.of_van("A"), ["A-0001"])
        self.assertEqual(self.of_van("B"), ["A-0002", "B-0001"])
        again = self.run_cli("plan", "--share", "--day", DAY).stdout
        self.assertIn("Every call stays with its van.\n", again)
        self.assertIn("Saves 0 min, 0.0 mi, 0.00", again)

    def test_unshare(self):
        """Taken back by another run of the program, with the book shut in between; a second time there is nothing."""
        self.add_nine()
        self.run_cli("plan", "--share", "--day", DAY, "--accept")
        self.assertEqual(self.ask("plan", "--unshare", "--day", DAY),
                         {"day": DAY, "moves": [{"id": "A-0002", "from": "B", "to": "A"}], "taken_back": True})
        self.assertEqual(self.of_van("A"), ["A-0002", "A-0001"])
        self.assertEqual(self.of_van("B"), ["B-0001"])
        self.assertIn("nothing to take back", self.refuse("plan", "--unshare", "--day", DAY))
        self.run_cli("plan", "--share", "--day", DAY, "--accept")
        self.assertIn("nothing to take back", self.refuse("plan", "--unshare", "--day", "2026-03-11"))
        self.assertEqual(self.run_cli("plan", "--unshare", "--day", DAY).stdout,
                         "A-0002 goes from van B to van A\nTaken back: the orders before stand again.\n")

    def test_unshare_after_another_order(self):
        self.add_nine()
        self.run_cli("plan", "--share", "--day", DAY, "--accept")
        self.add_jobs(("A-0003", "Q", "13:00", "15:00"))
        self.run_cli("plan", "--day", DAY, "--van", "A", "--accept")
        self.assertIn("Another order was accepted", self.refuse("plan", "--unshare", "--day", DAY))
        self.assertEqual(self.of_van("B"), ["A-0002", "B-0001"])

    def test_looking_writes_nothing(self):
        self.add_nine()
        before = self.read_bytes()
        self.run_cli("plan", "--share", "--day", DAY)
        self.assertEqual(self.read_bytes(), before)

    def test_late_whoever_goes(self):
        """Three at nine, two vans: one of them is late, and the reason names the other two."""
        self.add_jobs(("A-0001", "Q", "09:00", "09:00"), ("A-0002", "H", "09:00", "09:00"),
                      ("A-0003", "Q", "09:00", "09:00"))
        found = self.ask("plan", "--share", "--day", DAY)
        self.assertEqual((found["status"], found["proven"]), ("impossible", True))
        self.assertEqual(len(found["broken"]), 1)
        self.assertEqual(found["broken"][0]["late_minutes"], 34)
        self.assertIn(found["broken"][0]["id"], ("A-0001", "A-0003"))
        self.assertIn("Cannot be kept: ", self.run_cli("plan", "--share", "--day", DAY).stdout)


class Refusals(TwoVans):
    def test_wrong_words(self):
        for words in (["--share", "--van", "A"], ["--share", "--going"], ["--share", "--others"], ["--limit", "3"],
                      ["--share", "--limit", "0"], ["--share", "--limit", "-1"], ["--share", "--limit", "nan"],
                      ["--share", "--limit", "86401"], ["--share", "--limit", "soon"], ["--unshare", "--share"],
                      ["--unshare", "--accept"], ["--unshare", "--van", "A"], ["--unshare", "--going"],
                      ["--unshare", "--others"], ["--unshare", "--limit", "3"]):
            with self.subTest(words=words):
                self.refuse("plan", *words, status=2)

    def test_nothing_to_share(self):
        self.assertEqual(self.ask("plan", "--share", "--day", DAY)["moves"], [])
        self.assertIn("nothing to share", self.refuse("plan", "--share", "--day", DAY, "--accept"))

    def test_day_that_is_over(self):
        self.assertIn("over", self.refuse("plan", "--share", "--day", "2026-03-09"))


class OneVan(BookCase):
    def test_refused(self):
        self.now = f"{DAY}T06:45"
        self.run_cli("new", "--zone", "America/New_York")
        self.assertIn("only one van", self.refuse("plan", "--share"))


class Demo(DemoCase):
    """Van B has nothing to do on the demo morning, and a second van only costs: all stays as it is planned."""

    def test_morning(self):
        alone = self.ask("plan")
        found = self.ask("plan", "--share")
        self.assertEqual((found["moves"], found["saves"]), ([], {"minutes": 0, "miles": 0, "cents": 0}))
        self.assertEqual([stop["id"] for stop in found["vans"][0]["stops"]], [stop["id"] for stop in alone["stops"]])
        self.assertEqual(found["cost_cents"], alone["cost_cents"])
        self.assertEqual((found["vans"][1]["leave"], found["vans"][1]["stops"]), (None, []))


class Long(TwoVans):
    """More calls than can be proven in the time given."""

    def setUp(self):
        super().setUp()
        self.add_jobs(*((f"{'AB'[i % 2]}-{i + 1:04}", "QH"[i // 2 % 2], f"{8 + i % 4:02}:{7 * i % 60:02}",
                         f"{13 + i % 5:02}:00") for i in range(40)))

    def test_limit(self):
        began = time.monotonic()
        found = self.ask("plan", "--share", "--day", DAY, "--limit", "1")
        self.assertLess(time.monotonic() - began, 30)
        self.assertEqual(sum(len(van["stops"]) for van in found["vans"])
                         + sum(row["late_minutes"] is None for row in found["broken"]), 40)
        self.assertFalse(found["proven"])

    def interrupt(self, *words):
        command = [CLI, "--book", self.book, "--now", self.now, "--json", "plan", "--share", "--day", DAY,
                   "--limit", "600", *words]
        running = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
        time.sleep(1.5)
        running.send_signal(signal.SIGINT)
        out, err = running.communicate(timeout=60)
        return running.returncode, json.loads(out), err

    def test_interrupt(self):
        status, found, _ = self.interrupt()
        self.assertEqual(status, 0)
        self.assertFalse(found["proven"])

    def test_interrupt_accepts_nothing(self):
        before = self.read_bytes()
        status, found, err = self.interrupt("--accept")
        self.assertEqual((status, found["accepted"]), (1, False))
        self.assertIn("interrupted", err)
        self.assertEqual(self.read_bytes(), before)


if __name__ == "__main__":
    tap.main()
