# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""Arriving by the command line: made safe, identified, visited, noted, called off."""

import tap
from halfshaft import DemoCase

PLAIN = "A-0021"
HYBRID = "A-0026"
VIN = "1M8GDM9AXKP042788"


class Arrive(DemoCase):
    def arrive(self, number):
        self.now = "2026-03-10T08:31"
        self.run_cli("job", number, "rolling")
        self.now = "2026-03-10T08:40"
        self.run_cli("job", number, "on_site")
        self.now = "2026-03-10T08:42"


class Safety(Arrive):
    def answers(self, number):
        return {item["item"]: item["answer"] for item in self.ask("safety", number)["items"]}

    def test_one_word(self):
        before = self.ask("safety", PLAIN)
        self.assertFalse(before["arrived"])
        self.assertFalse(before["high_voltage"])
        self.assertEqual(before["open"], 6)
        self.assertIn("nobody has arrived yet", self.run_cli("safety", PLAIN).stdout)
        self.arrive(PLAIN)
        self.run_cli("safety", PLAIN, "alone", "not_here")
        after = self.ask("safety", PLAIN, "safe")
        self.assertEqual((after["note"], after["open"]), ("safe here", 0))
        self.assertEqual(self.answers(PLAIN), {"traffic": "done", "slope": "done", "alone": "not_here",
                                               "jacking": "done", "battery_acid": "done", "closed_garage": "done"})
        shown = self.run_cli("safety", PLAIN).stdout
        self.assertIn("safe here\n", shown)
        self.assertIn("maker, local codes and licensed practice come first", shown)

    def test_high_voltage(self):
        reading = ("reading", HYBRID, "battery_rest", "1242")
        self.assertIn("nobody has arrived yet", self.refuse(*reading))
        self.arrive(HYBRID)
        self.assertIn("Answer its safety list first", self.refuse(*reading))
        self.assertIn("Answer its safety list first",
                      self.refuse("because", HYBRID, "complaint", "a worn battery", "--seen", "swollen"))
        self.assertIn("by itself", self.refuse("safety", HYBRID, "safe"))
        for item in ("ready_lamp", "orange", "twelve_volts"):
            self.assertIn("it always applies", self.refuse("safety", HYBRID, item, "not_here"))
            self.assertIn("Answer its safety list first", self.refuse(*reading))
            self.run_cli("safety", HYBRID, item, "done")
        self.run_cli(*reading)
        self.assertEqual(self.ask("safety", HYBRID, "moved", "--why", "into the yard")["note"], "moved: into the yard")

    def test_not_so(self):
        self.arrive(HYBRID)
        for item in ("ready_lamp", "orange", "twelve_volts", "traffic"):
            self.run_cli("safety", HYBRID, item, "done")
        shown = self.run_cli("safety", HYBRID, "traffic", "not_so").stdout
        self.assertIn("traffic        not_so    Traffic passes", shown)
        self.assertIn("have it moved or towed", shown)
        self.assertIn("Do not go on here", shown)
        self.assertIn("Do not go on here", self.refuse("safety", HYBRID, "safe"))
        self.run_cli("safety", HYBRID, "orange", "not_so", "--why", "a cable hangs torn")
        self.assertIn("Orange cables", self.refuse("reading", HYBRID, "battery_rest", "1242"))
        for sheet in (self.ask("safety", HYBRID), self.ask("job", HYBRID)["safety"]):
            self.assertEqual(sheet["not_so"], 2)
            self.assertEqual({item["item"]: item["why"] for item in sheet["items"] if item["not_so"]},
                             {"traffic": "not so", "orange": "a cable hangs torn"})
        self.assertIn("“Orange cables”, “Traffic” (not so)", self.refuse("stage", HYBRID, "proven"))
        for item in ("orange", "traffic"):
            self.run_cli("safety", HYBRID, item, "done")
        self.assertEqual(self.ask("safety", HYBRID, "safe")["note"], "safe here")

    def test_refused_because_is_an_answer(self):
        self.arrive(HYBRID)
        self.assertIn("Refused because of what?", self.refuse("safety", HYBRID, "refused"))
        self.run_cli("safety", HYBRID, "refused", "--why", "no one to hold the traffic")
        self.assertEqual(set(self.answers(HYBRID).values()), {"refused"})
        self.run_cli("reading", HYBRID, "battery_rest", "1242")

    def test_asked_wrongly(self):
        self.assertIn("neither safe, moved nor refused", self.refuse("safety", PLAIN, "fine", status=2))
        self.assertIn("Nobody has arrived", self.refuse("safety", PLAIN, "safe"))
        self.arrive(PLAIN)
        self.assertIn("has no “weather”", self.refuse("safety", PLAIN, "weather", "done"))
        self.run_cli("safety", PLAIN, "traffic", "done")
        self.run_cli("safety", PLAIN, "traffic", "open")
        self.assertIsNone(self.answers(PLAIN)["traffic"])


class Identify(Arrive):
    def test_all_at_once(self):
        told = self.ask("identify", "A-0025", "--vin", "042788", "--odometer", "118,250", "--saw", "yes")
        self.assertEqual((told["vin"], told["odometer"], told["saw_it"]), ("042788", 118250, "yes"))
        self.assertEqual(told["words"], "cuts out again")
        shown = self.run_cli("identify", "A-0025", "--vin", VIN).stdout
        self.assertIn(VIN, shown)
        self.assertIn("118250 mi", shown)

    def test_nothing_half_written(self):
        before = self.ask("identify", PLAIN)
        self.assertIn("whole number of mi", self.refuse("identify", PLAIN, "--vin", "042788", "--odometer", "lots"))
        self.assertEqual(self.ask("identify", PLAIN), before)

    def test_questions(self):
        self.run_cli("identify", PLAIN, "--vin", VIN)
        for words, said in ((("--vin", "042789"), "another vehicle, or a slip"),
                            (("--vin", "1M8GDM9AXKPO42788"), "0"),
                            (("--plate", "TDM 8816"), "another vehicle of this book"),
                            (("--plate", "TDM 1351"), "On record it carries TDM 1315"),
                            (("--saw", "perhaps"), "perhaps")):
            self.assertIn(said, self.refuse("identify", PLAIN, *words), words)
        self.assertEqual(self.ask("identify", PLAIN, "--plate", "TDM 1351", "--why", "new plates")["plate"], "TDM 1351")
        self.assertIn("reason for", self.refuse("identify", PLAIN, "--why", "nothing", status=2))

    def test_odometer_falls(self):
        self.run_cli("identify", PLAIN, "--odometer", "50000")
        number = self.ask("job", "take", "--phone", "555-0122", "--words", "again", "--plate", "TDM 1315")["number"]
        self.now = "2026-03-12T09:00"
        self.assertIn("It showed 50000 mi on 2026-03-10", self.refuse("identify", number, "--odometer", "49000"))
        told = self.ask("identify", number, "--odometer", "49000", "--why", "another cluster")
        self.assertEqual((told["odometer"], told["doubted"]), (49000, "another cluster"))


class Visit(Arrive):
    def test_clock(self):
        self.assertIn("no visit yet", self.run_cli("visit", PLAIN).stdout)
        self.assertIn("nobody is at the vehicle", self.refuse("visit", PLAIN, "pause"))
        self.arrive(PLAIN)
        self.now = "2026-03-10T08:50"
        self.run_cli("visit", PLAIN, "pause")
        self.now = "2026-03-10T09:05"
        [stopped] = self.ask("visit", PLAIN)
        self.assertEqual((stopped["minutes"], stopped["stopped_minutes"], stopped["left_at"]), (10, 15, None))
        self.run_cli("visit", PLAIN, "resume")
        self.now = "2026-03-10T09:11"
        [runs] = self.ask("visit", PLAIN)
        self.assertEqual((runs["minutes"], runs["stopped_at"], runs["stops"]), (16, None, 1))
        self.assertIn("16 min on the clock", self.run_cli("visit", PLAIN).stdout)
        self.assertIn("neither pause nor resume", self.refuse("visit", PLAIN, "stop", status=2))

    def test_clock_put_back(self):
        self.arrive(PLAIN)
        self.now = "2026-03-10T08:00"
        self.assertEqual(self.ask("job", PLAIN)["unclocked_at"], "2026-03-10T12:40:00Z")
        self.assertIn("The minutes of the visit that began at 08:40 are not known", self.run_cli("job", PLAIN).stdout)
        for words, said in (((), "say the number"), (("soon",), "are no minutes"), (("-3",), "")):
            self.assertIn(said, self.refuse("visit", PLAIN, "minutes", *words, status=2))
        self.assertIn("one word too many", self.refuse("visit", PLAIN, "pause", "3", status=2))
        self.assertIn("from 0 to 10080", self.refuse("visit", PLAIN, "minutes", "10081"))
        [visit] = self.ask("visit", PLAIN, "minutes", "25")
        self.assertEqual((visit["minutes"], visit["left_at"]), (25, None))
        self.assertIsNone(self.ask("job", PLAIN)["unclocked_at"])
        self.assertIn("none are to be typed", self.refuse("visit", PLAIN, "minutes", "25"))


class Job(Arrive):
    def test_job_prints_it(self):
        self.arrive(PLAIN)
        self.run_cli("safety", PLAIN, "moved", "--why", "off the road")
        self.run_cli("identify", PLAIN, "--vin", "042788", "--odometer", "104500", "--saw", "no")
        job = self.ask("job", PLAIN)
        self.assertEqual(job["identity"], self.ask("identify", PLAIN))
        self.assertEqual(job["safety"], self.ask("safety", PLAIN))
        self.assertEqual(job["visits"], self.ask("visit", PLAIN))
        self.assertEqual((job["identity"]["saw_it"], job["visits"][0]["safety"]), ("no", "moved: off the road"))


class Note(Arrive):
    def test_learned(self):
        self.assertEqual(self.run_cli("note", PLAIN).stdout, "no note on this model\n")
        self.run_cli("note", PLAIN, "main fuse under the seat", "--topic", "place", "--years", "2014-2016")
        self.run_cli("note", PLAIN, "do not touch the bare bar", "--topic", "caution")
        self.assertEqual([(note["topic"], note["years"], note["job"]) for note in self.ask("note", PLAIN)],
                         [("caution", None, PLAIN), ("place", "2014 to 2016", PLAIN)])
        self.assertEqual(self.run_cli("note", PLAIN, "--remove", "1").stdout,
                         "1  where it is: main fuse under the seat (2014 to 2016)\n")
        self.assertIn("no note 4", self.refuse("note", PLAIN, "--remove", "4", status=2))
        self.assertIn("words are missing", self.refuse("note", PLAIN, "--topic", "place", status=2))
        self.assertIn("not both", self.refuse("note", PLAIN, "x", "--remove", "1", status=2))
        self.assertIn("is no year", self.refuse("note", PLAIN, "x", "--years", "soon"))


class CallOff(Arrive):
    def test_ways(self):
        self.run_cli("set", "no_show_fee_cents", "4000")
        self.assertIn("Why was it called off?", self.refuse("call-off", PLAIN, "no_show"))
        self.assertIn("forgotten", self.refuse("call-off", PLAIN, "forgotten", "--reason", "x"))
        self.assertEqual(self.run_cli("call-off", PLAIN, "no_show", "--reason", "nobody came to the door").stdout,
                         "called off; the fee is 40.00\n")
        job = self.ask("job", PLAIN)
        self.assertEqual((job["stage"], job["net_cents"]), ("called_off", 4000))
        self.run_cli("undo", PLAIN)
        self.run_cli("call-off", PLAIN, "no_show", "--fee", "25", "--reason", "nobody came to the door")
        self.run_cli("job", PLAIN, "squared")
        job = self.ask("job", PLAIN)
        self.assertEqual((job["stage"], job["net_cents"], job["paid_cents"]), ("squared", 2500, 0))
        self.assertIn("squared", self.refuse("undo", PLAIN))

    def test_other_ways(self):
        self.assertEqual(self.ask("call-off", PLAIN, "canceled", "--fee", "12.50", "--reason", "sold it"),
                         {"stage": "called_off", "fee_cents": 1250})
        self.run_cli("undo", PLAIN)
        self.assertEqual(self.run_cli("call-off", PLAIN, "canceled", "--reason", "sold it").stdout,
                         "called off; no fee\n")


if __name__ == "__main__":
    tap.main()
