# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""The owner's morning by the command line. The figures are the demo business's own, worked out by hand and by a plain
trial of every order; none is copied from the program."""

import tap
from halfshaft import DemoCase


class Find(DemoCase):
    def battery(self, *words):
        hits = self.ask("find", *words)["hits"]
        self.assertEqual(len(hits), 1, hits)
        return hits[0], hits[0]["battery"]

    def test_battery_from_four_digits(self):
        hit, battery = self.battery("0121")
        self.assertEqual(hit["plate"], "TDM 8816")
        self.assertEqual(hit["customer"], "Rue Abernant")
        self.assertTrue(hit["present"])
        self.assertEqual(battery["fitted_on"], "2023-10-05")
        self.assertEqual(battery["age_months"], 29)
        self.assertEqual(battery["known_by"], "we_installed_it")
        self.assertEqual((battery["kind"], battery["ah"]), ("flooded", 55))
        self.assertEqual(battery["warranty_until"], "2025-10-05")

    def test_any_words_in_any_order(self):
        for words in (["8816"], ["tdm-8816"], ["TDM 88"], ["rue"], ["netmakers"], ["0121", "RUE"], ["aber", "crag"],
                      ["555-0121"]):
            with self.subTest(words=words):
                self.assertEqual(self.battery(*words)[0]["plate"], "TDM 8816")

    def test_history_follows_the_vehicle(self):
        hits = {hit["plate"]: hit for hit in self.ask("find", "0118")["hits"]}
        self.assertEqual(set(hits), {"TDM 1216", "TDM 8816"})
        self.assertTrue(hits["TDM 1216"]["present"])
        self.assertFalse(hits["TDM 8816"]["present"])
        self.assertEqual(hits["TDM 8816"]["until"], "2025-08-17")

    def test_old_owner_is_absent(self):
        text = self.run_cli("history", "TDM 8816").stdout + self.run_cli("--json", "history", "TDM 8816").stdout
        for secret in ("Jory", "Pellam", "0118", "192.86", "19286"):
            self.assertNotIn(secret, text)
        self.assertIn("Rue Abernant", text)
        self.assertIn("battery below half of its rating", text)

    def test_swap_keeps_the_first_cover_date(self):
        _, battery = self.battery("0112")
        self.assertEqual((battery["fitted_on"], battery["warranty_until"]), ("2025-09-02", "2027-05-14"))

    def test_swap_with_another_date_is_refused(self):
        path = self.write_rows("installed.csv", [
            ["plate", "what", "date", "warranty_from", "warranty_months", "stands_in_for_date", "battery_kind"],
            ["TDM 2218", "battery 70 Ah AGM", "2026-03-09", "2026-03-09", "36", "2025-09-02", "AGM"]])
        message = self.refuse("import", "installed", path)
        self.assertIn("installed.csv:2:", message)
        self.assertIn("warranty_from", message)

    def test_nothing_found(self):
        self.assertEqual(self.ask("find", "0999")["hits"], [])

    def test_job_by_number(self):
        for words in ("24", "0024", "a-24"):
            jobs = self.ask("find", words)["jobs"]
            self.assertEqual([(job["number"], job["stage"], job["plate"]) for job in jobs],
                             [("A-0024", "promised", "TDM 4409")])
        self.assertEqual(self.ask("find", "0121")["jobs"], [])
        self.assertIn("A-0024", self.run_cli("find", "24").stdout)


class Plan(DemoCase):
    def test_the_morning(self):
        plan = self.ask("plan", "--day", "2026-03-10")
        self.assertEqual(plan["status"], "optimal")
        self.assertEqual([stop["id"] for stop in plan["stops"]],
                         ["Larch & Weir Auto Electrical", "A-0021", "A-0022", "Kingpost Parts Counter", "A-0023",
                          "A-0025", "A-0024", "A-0026"])
        self.assertEqual((plan["leave"], plan["home"]), ("08:31", "16:20"))
        self.assertEqual((plan["drive_minutes"], plan["miles"]), (81, 33.3))
        self.assertEqual((plan["spare_minutes"], plan["spare_at"]), (35, "A-0022"))
        self.assertEqual(plan["cost_cents"], 76439)
        self.assertEqual(plan["broken"], [])
        starts = {stop["id"]: stop["start"] for stop in plan["stops"] if stop["kind"] == "call"}
        self.assertEqual(starts, {"A-0021": "08:49", "A-0022": "09:55", "A-0023": "11:00", "A-0025": "12:31",
                                  "A-0024": "13:48", "A-0026": "15:23"})

    def test_a_plan_a_nickel_cheaper_has_too_little_spare(self):
        self.run_cli("set", "spare_minutes", "0")
        plan = self.ask("plan", "--day", "2026-03-10")
        self.assertEqual(plan["cost_cents"], 76434)
        self.assertEqual(plan["spare_minutes"], 23)

    def test_spare_that_can_not_be_had(self):
        text = self.run_cli("plan").stdout
        self.assertNotIn("asked", text)
        self.run_cli("set", "spare_minutes", "200")
        self.assertIn("No order has the 200 min that are asked (spare_minutes).", self.run_cli("plan").stdout)

    def test_another_plan_is_accepted(self):
        self.run_cli("plan", "--accept")
        self.assertNotIn("accepted", self.run_cli("plan").stdout)
        self.run_cli("set", "spare_minutes", "0")
        text = self.run_cli("plan").stdout
        self.assertEqual(text.splitlines()[-1],
                         "Another plan is accepted: leave 08:31, home 16:20; plan --going shows it.")
        self.assertNotIn("Another plan", self.run_cli("plan", "--going").stdout)
        self.run_cli("plan", "--accept")
        self.assertNotIn("accepted", self.run_cli("plan").stdout)

    def test_what_the_van_is_short_of_is_named_where_it_stops(self):
        stops = self.ask("plan", "--day", "2026-03-10")["stops"]
        kingpost = stops[3]["also_short"]
        self.assertEqual([(row["qty"], row["cents"], row["left"], row["keep"]) for row in kingpost], [(1, 6200, 1, 2)])
        self.assertIn("battery 55 Ah", kingpost[0]["part"])
        self.assertNotIn("also_short", stops[1])
        self.assertRegex(self.run_cli("plan", "--day", "2026-03-10").stdout, r"also short: 1 × battery 55 Ah")

    def test_today_is_the_day_when_none_is_named(self):
        self.assertEqual(self.ask("plan"), self.ask("plan", "--day", "2026-03-10"))

    def test_a_day_with_no_calls(self):
        plan = self.ask("plan", "--day", "2026-03-11")
        self.assertEqual((plan["status"], plan["stops"], plan["leave"], plan["home"], plan["cost_cents"]),
                         ("optimal", [], None, None, 0))
        self.assertIn("no promised calls", self.run_cli("plan", "--day", "2026-03-11").stdout)

    def test_a_seventh_call(self):
        offers = self.ask("squeeze", "--day", "2026-03-10", "--area", "O", "--minutes", "40", "--window",
                          "09:00-17:00")["offers"]
        best = offers[0]
        self.assertEqual((best["after"], best["start"], best["home"]), ("A-0022", "10:41", "17:04"))
        self.assertEqual((best["adds_minutes"], best["adds_miles"], best["adds_cents"]), (44, 1.1, 7086))
        self.assertEqual(best["breaks"], [])
        after_first = [offer for offer in offers if offer["after"] == "A-0021"][0]
        self.assertEqual(after_first["adds_cents"], 6914)
        self.assertEqual([(b["id"], b["late_minutes"]) for b in after_first["breaks"]], [("A-0022", 8)])
        broken = [bool(offer["breaks"]) for offer in offers]
        self.assertEqual(broken, sorted(broken), "unbroken offers come first")
        unbroken = [offer["adds_cents"] for offer in offers if not offer["breaks"]]
        self.assertEqual(unbroken, sorted(unbroken))

    def test_replan_offers_a_retimed_day(self):
        offers = self.ask("squeeze", "--day", "2026-03-10", "--area", "O", "--minutes", "40", "--window",
                          "09:00-17:00", "--replan")["offers"]
        self.assertTrue(any(offer["replanned"] for offer in offers))
        for offer in offers:
            self.assertEqual(offer["leave"] is not None, offer["replanned"])
            if offer["replanned"]:
                self.assertTrue("09:00" <= offer["free"][0] <= offer["start"] <= offer["free"][1] <= "17:00", offer)
        text = self.run_cli("squeeze", "--day", "2026-03-10", "--area", "O", "--minutes", "40", "--window",
                            "09:00-17:00", "--replan").stdout.splitlines()
        at = [i for i, line in enumerate(text) if line.endswith("(day planned anew)")][0]
        self.assertRegex(text[at + 2], r"^       leave \d\d:\d\d$")
        self.assertRegex(text[at + 3], r"^       may be promised from \d\d:\d\d to \d\d:\d\d$")

    def test_what_may_be_promised_was_asked_for(self):
        for window, latest in (("09:00-17:00", "17:00"), ("09:00-24:00", "24:00")):
            offers = self.ask("squeeze", "--day", "2026-03-10", "--area", "O", "--minutes", "40", "--window",
                              window)["offers"]
            free = [offer["free"] for offer in offers if offer["free"]]
            for start, end in free:
                self.assertTrue("09:00" <= start <= end <= latest, (start, end))
            self.assertEqual(max(end for _, end in free), latest)


class Parts(DemoCase):
    def setUp(self):
        super().setUp()
        self.counters = {counter["supplier"]: counter
                         for counter in self.ask("parts", "--day", "2026-03-10")["counters"]}

    def test_bring_or_leave(self):
        run = self.ask("parts", "--day", "2026-03-10")
        self.assertEqual(run["van"], "A")
        starter = [row for row in run["load"] if row["do"] == "bring"]
        self.assertEqual([(row["for"], row["sure_percent"], row["line_percent"], row["vain_cents"],
                           row["second_trip_cents"], row["gain_cents"]) for row in starter],
                         [("A-0021", 38, 29.7, 2730, 6458, 761)])
        self.assertEqual([row["what"] for row in run["load"] if row["do"] == "from_base"],
                         ["alternator, rebuilt (Orsane Tuck)"])
        self.assertEqual([row["van"] for row in run["from_van"]], ["A"])
        text = self.run_cli("parts", "--day", "2026-03-10").stdout
        self.assertTrue(text.startswith("Before van A leaves\n"))
        self.assertRegex(text, "bring     starter.*38 % sure, worth it above 29.7 %")

    def test_kingpost(self):
        counter = self.counters["Kingpost Parts Counter"]
        self.assertEqual([row["cents"] for row in counter["pick_up"]], [2700, 2100, 11200])
        self.assertEqual([row["for"] for row in counter["pick_up"]], ["A-0023", "A-0025", "A-0026"])
        self.assertEqual(sum(row["deposit_cents"] for row in counter["pick_up"]), 1800)
        self.assertEqual([row["cents"] for row in counter["drop_off"]], [1800, 1800])
        self.assertEqual([(row["qty"], row["cents"], row["last_day"]) for row in counter["return"]],
                         [(3, 4650, "2026-03-11")])
        self.assertEqual([row["cents"] for row in counter["maybe"]], [1800])
        self.assertEqual([row["number"] for row in counter["restock"]], ["BW-55"])

    def test_larch(self):
        counter = self.counters["Larch & Weir Auto Electrical"]
        self.assertEqual([(row["cents"], row["deposit_cents"]) for row in counter["pick_up"]], [(11800, 4500)])
        self.assertEqual([row["cents"] for row in counter["drop_off"]], [4500])
        self.assertEqual(counter["return"], [])

    def test_coming_back(self):
        back = sum(row["cents"] for counter in self.counters.values()
                   for row in counter["drop_off"] + counter["return"])
        self.assertEqual(back, 12750)
        self.assertEqual(len(self.counters), 2)


class Readings(DemoCase):
    def test_number_pad(self):
        reading = self.ask("reading", "A-0021", "battery_rest", "1242")
        self.assertEqual((reading["value"], reading["unit"], reading["verdict"]), (12.42, "V", "within"))
        self.assertIn("71", reading["note"])
        self.assertTrue(reading["source"])
        again = self.ask("job", "A-0021")["readings"]
        self.assertEqual([(r["check"], r["value"]) for r in again], [("battery_rest", 12.42)])

    def test_a_reading_taken_again_hides_none(self):
        for keyed in ("1190", "1242"):
            self.run_cli("reading", "A-0021", "battery_rest", keyed)
        self.assertEqual([r["value"] for r in self.ask("job", "A-0021")["readings"]], [11.9, 12.42])

    def test_over_range_carries_no_value(self):
        reading = self.ask("reading", "A-0021", "glow_plug", "/")
        self.assertIsNone(reading["value"])

    def test_refused(self):
        for words, field in ((["battery_rest", "9999"], "99.99"), (["battery_rest", "12,4"], "12,4"),
                             (["nothing", "1"], "nothing"), (["battery_rest", "1242", "--unit", "mV"], "V"),
                             (["battery_rest", "nan"], "nan")):
            with self.subTest(words=words):
                self.assertIn(field, self.refuse("reading", "A-0021", *words))
        self.assertEqual(self.ask("job", "A-0021")["readings"], [])

    def test_a_squared_job_takes_no_reading(self):
        self.refuse("reading", "A-0001", "battery_rest", "1242")

    def test_verdict_without_a_job(self):
        verdict = self.ask("check", "battery_rest", "1242", "--plate", "TDM 8816")
        self.assertEqual((verdict["value"], verdict["verdict"]), (12.42, "within"))


class Jobs(DemoCase):
    def test_a_job_refuses_closing_unproven(self):
        self.run_cli("job", "A-0021", "rolling")
        self.run_cli("job", "A-0021", "on_site")
        self.assertIn("after", self.refuse("job", "A-0021", "proven"))
        self.run_cli("job", "A-0021", "proven", "--reason", "customer drove off")
        self.assertEqual(self.ask("job", "A-0021")["stage"], "proven")

    def test_ring_them_in_the_last_ten_minutes(self):
        """A-0022 is promised until 10:30, six minutes from A-0021."""
        self.run_cli("plan", "--accept")
        self.now = "2026-03-10T08:49"
        self.run_cli("job", "A-0021", "on_site")
        self.now = "2026-03-10T10:23"
        self.run_cli("job", "A-0022", "rolling", "--leave-open")
        self.now = "2026-03-10T10:24"
        self.assertEqual(self.ask("plan", "--going")["ring"],
                         [{"id": "A-0022", "who": "Rue Abernant", "phone": "555-0121", "spare_minutes": 1,
                           "why": "arrives 1 min before the promise ends"}])
        first = self.run_cli("plan", "--going").stdout.splitlines()[0]
        self.assertEqual(first, "Ring them: Rue Abernant, 555-0121: A-0022 arrives 1 min before the promise ends")
        self.now = "2026-03-10T10:31"
        self.assertEqual(self.ask("plan", "--going")["ring"], [])
        self.assertIn("Rue Abernant, 555-0121", self.run_cli("plan", "--going").stdout)

    def test_squared_stays(self):
        self.refuse("job", "A-0001", "on_site")
        self.assertEqual(self.ask("job", "A-0001")["stage"], "squared")

    def test_called_off_needs_a_reason(self):
        self.refuse("job", "A-0026", "called_off")
        self.run_cli("job", "A-0026", "called_off", "--reason", "canceled by phone")

    def test_take_a_call(self):
        job = self.ask("job", "take", "--phone", "555-0115", "--words", "clicks, won’t turn over", "--area", "O")
        self.assertEqual((job["number"], job["stage"], job["customer"]), ("A-0027", "called_in", "Teo Calloway"))

    def test_no_such_job(self):
        self.assertIn("A-0999", self.refuse("job", "A-0999"))


class Demo(DemoCase):
    def test_totals(self):
        jobs = [self.ask("job", f"A-{number:04}") for number in range(1, 27)]
        self.assertEqual(sum(job["net_cents"] + job["tax_cents"] for job in jobs), 482748)
        self.assertEqual(sum(job["net_cents"] for job in jobs), 465480)
        self.assertEqual(jobs[3]["net_cents"] + jobs[3]["tax_cents"], 42691)
        february = jobs[12:20]
        self.assertEqual(sum(job["net_cents"] for job in february), 183120)
        self.assertEqual(sum(job["tax_cents"] for job in february), 6297)

    def test_whole(self):
        self.assertTrue(self.ask("check")["whole"])

    def test_clock_is_the_books_own(self):
        self.now = None
        self.assertEqual(self.ask("find", "0121")["hits"][0]["battery"]["age_months"], 29)


if __name__ == "__main__":
    tap.main()
