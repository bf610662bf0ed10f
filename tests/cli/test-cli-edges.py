# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""Days at their edges: midnight, empty days, odd numbers and spellings, and what the printed lines then look like.
Expected figures are counted by hand from the few rows of each case."""

import json
import os
import re
import sqlite3
import time

import tap
from halfshaft import BookCase, DemoCase

DAY = "2026-06-17"

AREAS = [["code", "name"], ["T", "Town"], ["X", "Mill End"]]
TRAVEL = [["from", "to", "minutes", "miles"], ["T", "T", 4, 1], ["T", "X", 10, "4.0"], ["X", "X", 3, "0.5"]]
CUSTOMERS = [["name", "phone", "area", "reach_from", "reach_to"], ["Orla Venn", "555-0170", "X", "", ""],
             ["Sib Carrow", "555-0171", "", "18:00", "20:00"]]
JOBS = ["number", "customer_phone", "words", "stage", "day", "window_from", "window_to", "minutes"]


def job(number, start, end, minutes=30, phone="555-0170", words="no crank"):
    return [number, phone, words, "promised", DAY, start, end, minutes]


class TownCase(BookCase):
    """Two areas ten minutes and four miles apart, and one customer who lives in the far one."""

    def setUp(self):
        super().setUp()
        self.now = DAY + "T06:00"
        self.run_cli("new", "--zone", "America/New_York")
        for kind, rows in (("areas", AREAS), ("travel", TRAVEL), ("customers", CUSTOMERS)):
            self.bring(kind, rows)
        self.run_cli("set", "base_area", "T")

    def bring(self, kind, rows, status=0):
        return self.run_cli("import", kind, self.write_rows(kind + ".csv", rows), status=status)

    def plan(self):
        return self.ask("plan", "--day", DAY)

    def plan_text(self):
        return self.run_cli("plan", "--day", DAY).stdout


class Midnight(TownCase):
    def test_a_window_ends_with_its_day(self):
        self.bring("jobs", [JOBS, job("A-0001", "22:00", "24:00")])
        self.assertEqual(self.plan()["stops"][0]["window"], ["22:00", "24:00"])
        self.assertIn("[22:00–24:00]", self.plan_text())

    def test_home_after_midnight_is_no_fault_without_a_limit(self):
        self.bring("jobs", [JOBS, job("A-0001", "23:30", "24:00", 60)])
        plan = self.plan()
        stop = plan["stops"][0]
        self.assertEqual((plan["status"], plan["home"], plan["broken"]), ("optimal", "24:40", []))
        self.assertEqual((stop["start"], stop["depart"], stop["window"]), ("23:30", "24:30", ["23:30", "24:00"]))
        self.assertIn("home 00:40 the next day", self.plan_text())

    def test_a_plan_past_midnight_is_a_day_to_solve(self):
        """The clock times of a plan are those of a file: what `plan` said, `solve` is asked for, and says again."""
        self.run_cli("set", "leave_to", "24:00")
        self.bring("jobs", [JOBS, job("A-0001", "23:30", "24:00", 60)])
        plan = self.plan()
        stop = plan["stops"][0]
        day = {"minute_cents": 100, "mile_cents": 0, "travel": {"minutes": [[0, 10], [10, 0]],
                                                                "miles": [[0, 0], [0, 0]]},
               "vans": [{"id": "A", "start": 0, "end": 0, "from": plan["leave"], "to": plan["home"]}],
               "calls": [{"id": "A-0001", "place": 1, "minutes": 60, "windows": [stop["window"]]}]}
        answer = self.ask("solve", self.write("day.json", json.dumps(day)))
        route = answer["routes"][0]
        self.assertEqual(answer["status"], "optimal")
        self.assertEqual((route["leave"], route["home"]), (plan["leave"], plan["home"]))
        for key in ("arrive", "start", "depart"):
            self.assertEqual(route["stops"][0][key], stop[key])

    def test_shared_past_midnight(self):
        self.run_cli("set", "vans", "A,B")
        self.bring("jobs", [JOBS, job("A-0001", "23:30", "24:00", 60)])
        route = self.ask("plan", "--share", "--day", DAY)["vans"][0]
        stop = route["stops"][0]
        self.assertEqual((route["home"], stop["depart"], stop["window"]), ("24:40", "24:30", ["23:30", "24:00"]))

    def test_squeezed_past_midnight(self):
        """Home is past midnight, the window that is offered ends with the day, and can be asked for as it is said."""
        self.run_cli("set", "leave_to", "24:00")
        words = ("squeeze", "--day", DAY, "--area", "X", "--minutes", "30", "--window")
        offer = self.ask(*words, "23:50-24:00")["offers"][0]
        self.assertEqual((offer["start"], offer["home"], offer["free"]), ("23:50", "24:30", ["23:50", "24:00"]))
        self.assertEqual(self.ask(*words, "-".join(offer["free"]))["offers"][0], offer)

    def test_a_limit_is_one(self):
        self.bring("jobs", [JOBS, job("A-0001", "20:30", "22:00", 60)])
        self.run_cli("set", "home_by", "21:00")
        plan = self.plan()
        self.assertEqual(plan["status"], "impossible")
        self.assertEqual([(broken["id"], broken["late_minutes"]) for broken in plan["broken"]], [("home", 40)])


class Lines(TownCase):
    def test_words_of_several_lines_stay_on_one(self):
        self.bring("jobs", [JOBS, job("A-0001", "08:00", "10:00", words="no crank;\n\n  lamps   dim")])
        self.assertIn("“no crank; lamps dim”", self.plan_text())
        self.assertEqual(self.ask("job", "A-0001")["words"], "no crank;\n\n  lamps   dim")

    def test_miles_have_one_decimal(self):
        self.bring("travel", [TRAVEL[0], ["X", "T", 10, "4.123"]])
        self.bring("jobs", [JOBS, job("A-0001", "08:00", "10:00")])
        self.assertIn(" 8.2 mi,", self.plan_text())
        self.assertEqual(self.plan()["miles"], 8.2)

    def test_a_promise_that_cannot_be_placed_is_not_passed_over(self):
        self.bring("jobs", [JOBS, job("A-0001", "08:00", "10:00", phone="555-0171")])
        text = self.plan_text()
        self.assertNotIn("no promised calls", text)
        self.assertIn("none of the promised calls can be planned", text)
        self.assertIn("A-0001 has no area", text)

    def test_what_a_vehicle_lacks_leaves_no_gap(self):
        self.bring("vehicles", [["plate", "owner_phone"], ["TDM 1001", "555-0170"]])
        self.assertIn("TDM 1001   Orla Venn\n", self.run_cli("find", "1001").stdout)
        self.assertTrue(self.run_cli("history", "TDM1001").stdout.startswith("TDM 1001  Orla Venn\n"))
        self.bring("jobs", [JOBS, job("A-0001", "08:00", "10:00")])
        self.assertIn("A-0001  Time given  Orla Venn\n", self.run_cli("job", "A-0001").stdout)

    def test_accents_take_one_column(self):
        self.bring("vehicles", [["plate", "owner_phone"], ["TDÉ 1002", "555-0170"], ["TDM 1001", "555-0170"]])
        columns = {line.index("Orla") for line in self.run_cli("find", "venn").stdout.splitlines() if "Orla" in line}
        self.assertEqual(columns, {11})

    def test_a_counter_that_stays_shut(self):
        self.bring("suppliers", [["name", "area"], ["Shut Today", "T"]])
        self.bring("hours", [["supplier", "weekday", "opens", "shuts"], ["Shut Today", "thu", "08:00", "17:00"]])
        self.bring("parts", [["number", "name"], ["P1", "relay"]])
        self.bring("jobs", [JOBS, job("A-0001", "08:00", "10:00")])
        self.bring("needs", [["job", "part", "supplier"], ["A-0001", "P1", "Shut Today"]])
        self.assertIn("–  Shut Today, cannot be visited\n", self.run_cli("parts", "--day", DAY).stdout)
        self.assertEqual(self.plan()["status"], "impossible")


class Numbers(TownCase):
    def numbers(self):
        return [stop["id"] for stop in self.plan()["stops"]]

    def test_a_number_stays_as_it_is_written(self):
        rows = [JOBS] + [job(number, "08:00", "17:00") for number in ("A-7", "M-12", "J3", "310", "WO/9")]
        self.bring("jobs", rows)
        self.assertEqual(sorted(self.numbers()), ["310", "A-7", "J3", "M-12", "WO/9"])
        again = self.bring("jobs", rows)
        self.assertIn("nothing new", again.stdout)

    def test_any_spelling_finds_it(self):
        self.bring("jobs", [JOBS, job("A-7", "08:00", "17:00"), job("A-0008", "08:00", "17:00")])
        for spelling, number in (("a7", "A-7"), ("A-0007", "A-7"), ("a 7", "A-7"), ("a8", "A-0008"),
                                 ("A-8", "A-0008")):
            with self.subTest(spelling=spelling):
                self.assertEqual(self.ask("job", spelling)["number"], number)
        report = self.bring("jobs", [JOBS, job("A-0007", "09:00", "17:00")])
        self.assertIn("0 added, 1 changed", report.stdout)
        self.assertEqual(sorted(self.numbers()), ["A-0008", "A-7"])

    def test_a_short_number_of_a_van_is_spelled_out(self):
        self.bring("jobs", [JOBS, job("a9", "08:00", "17:00")])
        self.assertEqual(self.numbers(), ["A-0009"])

    def test_the_next_call_goes_on_from_there(self):
        self.bring("jobs", [JOBS, job("A-7", "08:00", "17:00")])
        taken = self.ask("job", "take", "--phone", "555-0170", "--words", "clicks")
        self.assertEqual(taken["number"], "A-0008")


class Nothing(TownCase):
    """Zero is a length of time too."""

    def test_a_hop_and_a_stop_of_no_minutes(self):
        self.bring("travel", [TRAVEL[0], ["X", "X", 0, 0]])
        self.bring("suppliers", [["name", "area", "stop_minutes"], ["Hatch", "X", 0]])
        self.bring("parts", [["number", "name"], ["P1", "relay"]])
        self.bring("hours", [["supplier", "weekday", "opens", "shuts"], ["Hatch", "wed", "08:00", "17:00"]])
        self.bring("jobs", [JOBS, job("A-0001", "08:00", "17:00")])
        self.bring("needs", [["job", "part", "supplier"], ["A-0001", "P1", "Hatch"]])
        plan = self.plan()
        self.assertEqual([(stop["id"], stop["arrive"], stop["depart"]) for stop in plan["stops"]],
                         [("Hatch", "08:00", "08:00"), ("A-0001", "08:00", "08:30")])
        self.assertEqual((plan["leave"], plan["home"], plan["drive_minutes"]), ("07:50", "08:40", 20))

    def test_half_a_minute_of_driving_is_rounded_once(self):
        self.bring("travel", [TRAVEL[0], ["T", "X", 9.75, "4.0"]])
        self.bring("jobs", [JOBS, job("A-0001", "08:00", "17:00")])
        self.assertEqual(self.plan()["drive_minutes"], 20)
        text = self.run_cli("plan", "--day", DAY).stdout
        self.assertIn(", 20 min driving,", text)

    def test_less_than_nothing_is_refused(self):
        for kind, rows in (("travel", [TRAVEL[0], ["X", "X", -1, 0]]),
                           ("suppliers", [["name", "stop_minutes"], ["Hatch", -1]])):
            self.assertIn("-1", self.bring(kind, rows, status=1).stderr)


class Notes(TownCase):
    """A promise outside the hours at which the customer can be reached is taken, and said."""

    def test_a_clash_of_hours_is_noted_and_saved(self):
        rows = [JOBS, job("A-0001", "08:00", "10:00"), job("A-0002", "17:00", "19:00", phone="555-0171")]
        first = self.bring("jobs", rows)
        self.assertIn("2 added", first.stdout)
        self.assertEqual(first.stderr, "jobs.csv:3: window_from: 17:00 to 19:00 is outside the hours at which "
                                       "Sib Carrow can be reached, 18:00 to 20:00\n")
        again = self.bring("jobs", rows)
        self.assertIn("nothing new", again.stdout)
        self.assertEqual(again.stderr, "", "what is already there is not noted again")

    def test_within_the_hours_nothing_is_said(self):
        self.assertEqual(self.bring("jobs", [JOBS, job("A-0002", "18:00", "20:00", phone="555-0171")]).stderr, "")


class Manual(BookCase):
    """The manual page and the program's own help name the same things."""

    def setUp(self):
        super().setUp()
        with open(os.environ["HS_CLI_MANUAL"], encoding="utf-8") as file:
            source = file.read()
        self.heads = re.findall(r'^\.TP\n\.B[IR] "?([a-z]+)', source, re.MULTILINE)
        # Without the marks for bold and slanted type.
        self.page = re.sub(r"\\f[A-Z]", "", source.replace("\\-", "-"))

    def options(self, text):
        return set(re.findall(r"--[a-z]+(?:-[a-z]+)*", text))

    def test_commands(self):
        told = re.findall(r"^  ([a-z]+)\b", self.run_cli("--help").stdout, re.MULTILINE)
        self.assertEqual(sorted(set(self.heads)), sorted(told))

    def test_options(self):
        self.assertEqual(self.options(self.run_cli("--help").stdout) - self.options(self.page), set())

    def test_kinds_of_file(self):
        self.run_cli("new")
        kinds = self.refuse("import", "moons", "x.csv", status=2).split("the kinds are ")[1].split("\n")[0].split(", ")
        self.assertGreater(len(kinds), 10)
        for kind in kinds:
            with self.subTest(kind=kind):
                self.assertRegex(self.page, rf"\b{kind}\b")

    def test_options_of_a_call_are_taken(self):
        named = self.options(self.page.split("Take a call.\n")[1].split(".TP")[0])
        self.assertIn("--street", named)
        for option in named:
            with self.subTest(option=option):
                self.assertNotIn("Unknown option", self.refuse("job", "take", option, "1", status=2))


class BelowZero(DemoCase):
    def test_a_reading(self):
        self.assertIn("-0.07 V is hardly ever so low", self.refuse("reading", "A-0024", "battery_rest", "-7"))
        stored = self.ask("reading", "A-0024", "battery_rest", "-7", "--sure")
        self.assertEqual((stored["value"], stored["unit"]), (-0.07, "V"))

    def test_what_a_verdict_still_wants(self):
        """8.90 V of cranking says nothing without the temperature; at 21 °C sources differ (TM 5-3895-382-24)."""
        alone = self.ask("check", "cranking", "8.90")
        self.assertEqual(alone["verdict"], "cannot_tell")
        self.assertIn("temperature", alone["wanted"])
        told = self.ask("check", "cranking", "8.90", "--conditions", "temperature:21; fuel:gas")
        self.assertEqual((told["verdict"], told["wanted"]), ("depends", []))
        self.assertIn("temperature", self.refuse("check", "cranking", "8.90", "--conditions", "temperature:cold"))

    def test_two_dashes_end_the_options(self):
        self.now = None
        for words in (("--", "reading", "A-0024", "coolant_freeze", "-8"),
                      ("reading", "--", "A-0024", "coolant_freeze", "-8")):
            with self.subTest(words=words):
                self.assertEqual(self.ask("--now", "2026-03-10T06:45", *words)["value"], -8)

    def test_a_setting_says_what_is_wrong(self):
        self.assertIn("spare_minutes", self.refuse("set", "spare_minutes", "-1"))

    def test_an_option_is_still_one(self):
        self.assertIn("-x", self.refuse("find", "-x", status=2))
        self.assertIn("--minutes", self.refuse("squeeze", "--area", "O", "--minutes", "-5", "--window",
                                               "09:00-17:00", status=2))

    def test_readings_in_words(self):
        for check, words in (("glow_plug", "over range"), ("battery_rest", "not measured"),
                             ("starts_good", "5 of 5")):
            with self.subTest(check=check):
                stored = self.ask("reading", "A-0024", check, words, "--why-not", "no light")
                self.assertEqual(stored["text"], words)

    def test_what_is_not_likely_is_kept_with_sure_only(self):
        message = self.refuse("reading", "A-0024", "battery_rest", "124.2")
        self.assertIn("124.20 V cannot be, it lies between -20.00 and 16.00", message)
        self.assertIn("--sure keeps it", message)
        stored = self.ask("reading", "A-0024", "battery_rest", "124.2", "--sure")
        self.assertEqual((stored["text"], stored["value"]), ("124.20 V", 124.2))
        message = self.refuse("reading", "A-0024", "battery_rest", "12,42", "--sure")
        self.assertNotIn("--sure", message)
        # Here it would not help: the same figure is refused for its unit.
        message = self.refuse("reading", "A-0024", "battery_rest", "124.2", "--unit", "A")
        self.assertIn("is read in V, not in A", message)
        self.assertNotIn("--sure", message)

    def test_a_check_that_is_not_there_lists_those_that_are(self):
        message = self.refuse("reading", "A-0024", "battery_temperature", "20")
        self.assertIn("battery_rest, ", message)


class Patience(DemoCase):
    def test_one_wait_not_two(self):
        holder = sqlite3.connect(self.book, isolation_level=None)
        holder.execute("BEGIN IMMEDIATE")
        try:
            started = time.monotonic()
            self.refuse("set", "spare_minutes", "20")
            waited = time.monotonic() - started
        finally:
            holder.rollback()
            holder.close()
        self.assertLess(waited, 8, "briefly is not twice five seconds")


if __name__ == "__main__":
    tap.main()
