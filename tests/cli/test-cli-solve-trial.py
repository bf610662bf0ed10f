# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""Small random days against a trial of everything: the planner's plan is the best to the last figure, and says so."""

import itertools
import json
from collections import Counter

import day_trial
import tap
from day_check import seconds_of
from day_random import days
from solving import SolveCase

# Calls, counters, vans.
ONE_VAN = ((3, 1, 1), (4, 1, 1), (2, 2, 1), (4, 2, 1), (5, 1, 1), (3, 2, 1), (5, 0, 1), (1, 1, 1))
TWO_VANS = ((2, 1, 2), (3, 1, 2), (4, 0, 2), (3, 2, 2))


class Trial(SolveCase):
    def compare(self, seed, count, sizes):
        seen = Counter()
        for number, day in enumerate(itertools.islice(days(seed, sizes), count)):
            answer = self.solve(day)
            *figures, _, ids = day_trial.best(self.check.day)
            where = f"day {seed} + {number}: {json.dumps(day)}"
            self.assertEqual(self.check.figures(), tuple(figures), where)
            self.assertEqual(self.ids(answer), ids, where)
            self.assertEqual(answer["bound_cents"], answer["cost_cents"])
            seen[answer["status"]] += 1
            for word in self.traits(answer):
                seen[word] += 1
        return seen

    def ids(self, answer):
        """The stops as the trial has them."""
        routes = {route["van"]: route["stops"] for route in answer["routes"]}
        return tuple(word for van in sorted(self.check.day.vans)
                     for word in [stop["id"] for stop in routes.get(van, [])] + [day_trial.HOME])

    def traits(self, answer):
        """What makes a day worth trying."""
        day, vans, routes = self.check.day, self.check.day.vans, answer["routes"]
        kinds = [stop["kind"] for route in routes for stop in route["stops"]]
        calls = [(vans[route["van"]], day.calls[stop["id"]], seconds_of(stop["start"]))
                 for route in routes for stop in route["stops"] if stop["kind"] == "call"]
        used = Counter((route["van"], part) for route in routes for stop in route["stops"] if stop["kind"] == "call"
                       for part in day.calls[stop["id"]]["needs"])
        units = [(count, vans[van]["carries"][part]) for (van, part), count in used.items()]
        asked = day.asked
        return {word for word, held in (
            ("break", "break" in kinds), ("counter", "counter" in kinds), ("bought", answer["bought"]),
            ("two routes", len(answer["routes"]) > 1), ("late", answer["broken"]), ("unserved", answer["unserved"]),
            ("spare kept", self.check.spare is not None and self.check.spare >= asked > 0),
            ("spare short", self.check.spare is not None and 0 <= self.check.spare < asked),
            ("waits", any(route["wait_minutes"] for route in routes)),
            ("night", any(start >= 24 * 3600 for _, _, start in calls)),
            ("ends elsewhere", any(van["start"] != van["end"] for van, _, _ in calls)),
            ("skilled", any(call["skills"] for _, call, _ in calls)),
            ("for one van", len(vans) > 1 and any(call["van"] for _, call, _ in calls)),
            ("no first window", any(start > call["windows"][0][1] and len(call["windows"]) > 1
                                    for _, call, start in calls)),
            ("on board", any(board > 0 for _, board in units)),
            ("two on board", any(min(count, board) > 1 for count, board in units)),
            ("more than on board", any(count > board > 0 for count, board in units)),
            ("counter for the way", "counter" in kinds and not answer["bought"]),
            ("one way", any(a != b for row, column in zip(day.drive, zip(*day.drive)) for a, b in zip(row, column))),
            ("two prices", len({(row["part"], row["cents"]) for row in answer["bought"]})
             > len({row["part"] for row in answer["bought"]}))) if held}

    def enough(self, seen, *words):
        """The days are no trial of a thing that hardly happens on them."""
        for word in words:
            self.assertGreaterEqual(seen[word], 6, f"{word}: {seen}")

    def test_one_van(self):
        self.enough(self.compare(40_000, 800, ONE_VAN), "optimal", "impossible", "break", "counter", "bought", "late",
                    "unserved", "spare kept", "spare short", "waits", "night", "ends elsewhere", "skilled",
                    "no first window", "on board", "two on board", "more than on board", "one way")

    def test_two_vans(self):
        self.enough(self.compare(50_000, 400, TWO_VANS), "optimal", "impossible", "break", "counter", "bought", "late",
                    "two routes", "spare kept", "spare short", "waits", "night", "ends elsewhere", "skilled",
                    "for one van", "no first window", "on board", "more than on board", "one way")

    def test_seven_stops(self):
        self.compare(60_000, 20, ((5, 2, 1),))


class TheTrialItself(SolveCase):
    """Hand-counted days, so that the trial is not only as right as the planner."""

    def figures(self, day):
        self.solve(day)
        found = day_trial.best(self.check.day)[:-2]
        self.assertEqual(self.check.figures(), found)
        return found

    def line(self, **more):
        """Places on a line, ten minutes and four miles apart."""
        size = range(4)
        day = {"minute_cents": 100, "mile_cents": 50,
               "travel": {"minutes": [[abs(i - j) * 10 for j in size] for i in size],
                          "miles": [[abs(i - j) * 4 for j in size] for i in size]},
               "vans": [{"id": "A", "start": 0, "end": 0, "from": "08:00", "to": "18:00"}]}
        day.update(more)
        return day

    def test_there_and_back(self):
        day = self.line(calls=[{"id": "x", "place": 2, "minutes": 30, "windows": [["09:00", "10:00"]]}])
        # 20 + 30 + 20 minutes at 1.00, 16 miles at 0.50; home earliest: starts at 09:00.
        self.assertEqual(self.figures(day), (0, 0, 0, 0, 3000 * 7800, 9 * 3600 + 3000, -(8 * 3600 + 2400)))

    def test_late_by_ten(self):
        windows = [["08:00", "08:10"]]
        day = self.line(calls=[{"id": "x", "place": 1, "minutes": 20, "windows": windows},
                               {"id": "y", "place": 2, "minutes": 20, "windows": [["08:00", "08:30"]]}])
        # x at 08:10 leaves for y at 08:30, which is reached at 08:40.
        missed, dropped, late, short, *_ = self.figures(day)
        self.assertEqual((missed, dropped, late, short), (1, 0, 600, 600))

    def test_dearer_counter_on_the_way(self):
        counters = [{"id": "near", "place": 1, "minutes": 5, "hours": [["08:00", "18:00"]], "sells": {"p": 900}},
                    {"id": "far", "place": 3, "minutes": 5, "hours": [["08:00", "18:00"]], "sells": {"p": 100}}]
        call = {"id": "x", "place": 1, "minutes": 0, "needs": ["p"]}
        # Near: 25 minutes, 8 miles, 9.00. Far: 65 minutes, 24 miles, 1.00.
        self.assertEqual(self.figures(self.line(calls=[call], counters=counters))[4], 3000 * (2500 + 400 + 900))
        counters[0]["sells"]["p"] = 5700
        self.assertEqual(self.figures(self.line(calls=[call], counters=counters))[4], 3000 * (6500 + 1200 + 100))

    def test_break(self):
        van = {"id": "A", "start": 0, "end": 0, "from": "08:00", "to": "18:00",
               "break": {"minutes": 30, "between": ["09:00", "10:00"]}}
        # Work from 08:30 for 50 minutes: home at 09:30, in time to have it there.
        day = self.line(vans=[van], calls=[{"id": "x", "place": 1, "minutes": 50, "windows": [["08:30", "08:30"]]}])
        self.assertEqual(self.figures(day)[4], 3000 * (7000 + 400))
        # One minute more, and the van stands at the call for it: 10 + 51 + 30 + 10 minutes.
        day["calls"][0]["minutes"] = 51
        self.assertEqual(self.figures(day)[4], 3000 * (10100 + 400))
        # Work until 09:51 leaves no room for it, so it is had before leaving at 09:30, and the call is 70 minutes late.
        day["calls"][0]["minutes"] = 81
        self.assertEqual(self.figures(day), (1, 0, 4200, 4200, 3000 * (10100 + 400), 11 * 3600 + 660, -34200))


if __name__ == "__main__":
    tap.main()
