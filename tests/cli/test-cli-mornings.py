# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""Invented mornings go in as CSV files and come out as plans; a plain trial of every order at every minute of leaving,
which shares nothing with the planner, says what the best plan is."""

import itertools
import random

import tap
from halfshaft import BookCase

DAY, WEEKDAY = "2026-05-14", "thu"


def minutes(text):
    return int(text[:2]) * 60 + int(text[3:])


def clock(value):
    return f"{value // 60:02}:{value % 60:02}"


class Morning:
    """Areas with travel both ways, calls with windows and needs, counters with hours."""

    def __init__(self, seed, n_calls, n_counters):
        rng = random.Random(seed)
        self.areas = [chr(ord("A") + i) for i in range(rng.randint(3, 5))]
        points = {area: (rng.uniform(0, 12), rng.uniform(0, 12)) for area in self.areas}
        self.travel = {}
        for a, b in itertools.combinations_with_replacement(self.areas, 2):
            away = 1 + abs(points[a][0] - points[b][0]) + abs(points[a][1] - points[b][1])
            self.travel[a, b] = self.travel[b, a] = (max(2, round(away * 1.4)), round(away * 6) / 10)
        self.leave = (rng.choice([420, 450]), rng.choice([510, 540]))
        self.spare = rng.choice([0, 15, 30, 45])
        self.rates = (rng.choice([160, 95, 120]), rng.choice([42, 65]))
        self.counters = [self._counter(rng, i) for i in range(n_counters)]
        self.calls = [self._call(rng, i) for i in range(n_calls)]
        # A counter that nobody needs is no stop.
        self.calls[0]["needs"] = [counter["name"] for counter in self.counters]

    def _counter(self, rng, number):
        opens = rng.choice([450, 480, 510])
        lunch = rng.choice([None, (720, 765), (690, 750)])
        spans = [(opens, 1020)] if lunch is None else [(opens, lunch[0]), (lunch[1], 1020)]
        return {"name": f"Counter {number + 1}", "area": rng.choice(self.areas), "spans": spans,
                "minutes": rng.choice([6, 8, 10]), "part": f"P{number + 1}"}

    def _call(self, rng, number):
        start = rng.choice([480, 510, 540, 600, 660, 720, 780])
        return {"number": f"A-{number + 1:04}", "area": rng.choice(self.areas), "from": start,
                "to": start + rng.choice([90, 120, 150, 240]), "minutes": rng.choice([25, 40, 60, 75]),
                "needs": [counter["name"] for counter in self.counters if rng.random() < 0.4]}

    # The trial --------------------------------------------------------------------------------------------------

    def stops(self):
        calls = [dict(call, call=True, id=call["number"], spans=[(call["from"], call["to"])]) for call in self.calls]
        counters = [dict(counter, call=False, id=counter["name"], needs=[]) for counter in self.counters]
        return calls + counters

    def drive(self, order, leave):
        """Home, miles in tenths, least spare; None when something is late, shut or fetched after its call."""
        at, now, tenths, spare, done = self.areas[0], leave, 0, None, set()
        for stop in order:
            if not set(stop["needs"]) <= done:
                return None
            leg = self.travel[at, stop["area"]]
            now, tenths, at = now + leg[0], tenths + round(leg[1] * 10), stop["area"]
            for opens, shuts in stop["spans"]:
                start = max(now, opens)
                if start <= shuts if stop["call"] else start + stop["minutes"] <= shuts:
                    break
            else:
                return None
            if stop["call"]:
                left = stop["to"] - start
                spare = left if spare is None else min(spare, left)
            now = start + stop["minutes"]
            done.add(stop["id"])
        leg = self.travel[at, self.areas[0]]
        return now + leg[0], tenths + round(leg[1] * 10), spare

    def best(self):
        best = None
        for order in itertools.permutations(self.stops()):
            for leave in range(self.leave[0], self.leave[1] + 1):
                driven = self.drive(order, leave)
                if driven is None:
                    break  # leaving later never mends it
                home, tenths, spare = driven
                cost = (home - leave) * self.rates[0] * 10 + tenths * self.rates[1]
                enough = min(spare, self.spare)
                key = (-enough if enough < self.spare else -self.spare, cost, home, -leave,
                       [stop["id"] for stop in order])
                if best is None or key < best[0]:
                    best = (key, order, leave, home, tenths, spare, cost)
        return best

    # The files --------------------------------------------------------------------------------------------------

    def load(self, case):
        run = case.run_cli
        run("new", "--zone", "America/New_York")
        tables = {
            "areas": [["code", "name"]] + [[area, f"Area {area}"] for area in self.areas],
            "travel": [["miles", "to", "from", "minutes"]] + [
                [leg[1], b, a, leg[0]] for (a, b), leg in self.travel.items() if a <= b],
            "customers": [["name", "phone"], ["Nell Harrow", "555-0160"]],
            "suppliers": [["name", "area", "stop_minutes"]] + [
                [counter["name"], counter["area"], counter["minutes"]] for counter in self.counters],
            "hours": [["supplier", "weekday", "opens", "shuts"]] + [
                [counter["name"], WEEKDAY, clock(a), clock(b)] for counter in self.counters
                for a, b in counter["spans"]],
            "parts": [["number", "name"]] + [[counter["part"], f"part {counter['part']}"]
                                             for counter in self.counters],
            "prices": [["supplier", "part", "cost"]] + [[counter["name"], counter["part"], "10.00"]
                                                        for counter in self.counters],
            "jobs": [["number", "customer_phone", "words", "stage", "area", "day", "window_from", "window_to",
                      "minutes"]] + [
                [call["number"], "555-0160", "will not start", "promised", call["area"], DAY, clock(call["from"]),
                 clock(call["to"]), call["minutes"]] for call in self.calls],
            "needs": [["job", "part", "supplier"]] + [
                [call["number"], counter["part"], counter["name"] if index % 2 else ""]
                for call in self.calls for index, counter in enumerate(self.counters)
                if counter["name"] in call["needs"]],
        }
        for kind, rows in tables.items():
            if len(rows) > 1:
                run("import", kind, case.write_rows(f"{kind}.csv", rows))
        for key, value in (("base_area", self.areas[0]), ("leave_from", clock(self.leave[0])),
                           ("leave_to", clock(self.leave[1])), ("home_by", "24:00"),
                           ("spare_minutes", str(self.spare)), ("minute_cents", str(self.rates[0])),
                           ("mile_cents", str(self.rates[1]))):
            run("set", key, value)


class Mornings(BookCase):
    def compare(self, seed, n_calls, n_counters):
        morning = Morning(seed, n_calls, n_counters)
        morning.load(self)
        plan = self.ask("plan", "--day", DAY)
        best = morning.best()
        if best is None:
            self.assertEqual(plan["status"], "impossible")
            self.assertTrue(plan["broken"])
            return False
        _, order, leave, home, tenths, spare, cost = best
        self.assertEqual(plan["status"], "optimal")
        self.assertEqual([stop["id"] for stop in plan["stops"]], [stop["id"] for stop in order])
        self.assertEqual((plan["leave"], plan["home"]), (clock(leave), clock(home)))
        self.assertEqual(round(plan["miles"] * 10), tenths)
        self.assertEqual(plan["spare_minutes"], spare)
        self.assertEqual(plan["cost_cents"], (cost + 5) // 10)
        self.assertEqual(plan["broken"], [])
        return True

    def test_true_optimum(self):
        possible = 0
        for seed in range(24):
            with self.subTest(seed=seed):
                self.setUp()
                possible += self.compare(seed, 3 + seed % 3, seed % 3)
        self.assertGreater(possible, 8, "the days must not all be impossible")


class Lunch(BookCase):
    """A counter that shuts from 12:30 to 13:15: an 8-minute stop is served at 12:22 and waits from 12:23 on."""

    def plan_with_drive(self, drive):
        self.run_cli("new", "--zone", "America/New_York")
        for kind, rows in (
                ("areas", [["code", "name"], ["T", "base"], ["L", "counter"]]),
                ("travel", [["from", "to", "minutes", "miles"], ["T", "T", 1, 0.1], ["L", "L", 1, 0.1],
                            ["T", "L", drive, 1]]),
                ("customers", [["name", "phone"], ["Nell Harrow", "555-0160"]]),
                ("suppliers", [["name", "area", "stop_minutes"], ["Lunching", "L", 8]]),
                ("hours", [["supplier", "weekday", "opens", "shuts"], ["Lunching", "tue", "08:00", "12:30"],
                           ["Lunching", "tue", "13:15", "17:00"]]),
                ("parts", [["number", "name"], ["P1", "relay"]]),
                ("prices", [["supplier", "part", "cost"], ["Lunching", "P1", "9.50"]]),
                ("jobs", [["number", "customer_phone", "words", "stage", "area", "day", "window_from", "window_to",
                           "minutes"],
                          ["A-0001", "555-0160", "no crank", "promised", "L", "2026-03-10", "08:00", "16:00", 30]]),
                ("needs", [["job", "part"], ["A-0001", "P1"]])):
            self.run_cli("import", kind, self.write_rows(kind + ".csv", rows))
        for key, value in (("base_area", "T"), ("leave_from", "12:00"), ("leave_to", "12:00"),
                           ("spare_minutes", "0")):
            self.run_cli("set", key, value)
        return self.ask("plan", "--day", "2026-03-10")["stops"][0]

    def test_served_just_before(self):
        stop = self.plan_with_drive(22)
        self.assertEqual((stop["arrive"], stop["start"]), ("12:22", "12:22"))

    def test_waits_just_after(self):
        stop = self.plan_with_drive(23)
        self.assertEqual((stop["arrive"], stop["start"]), ("12:23", "13:15"))


if __name__ == "__main__":
    tap.main()
