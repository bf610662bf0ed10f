# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""Days with thousands of plans that are worth the same: which of them it is, by a trial that shares nothing with the
planner. All calls stand at one place, so that a van that never waits costs its work and the way there and back, and of
all ways to part the calls those are best whose vans leave earliest in sum."""

import functools
import random

import tap
from day_check import seconds_of
from solving import SolveCase

WAY = 20
TO = (12 * 60, 12 * 60 + 30)
WINDOWS = (("07:00", "12:00"), ("08:00", "10:00"), ("09:00", "11:30"))
# Stands behind every id: the end of a van's day.
HOME = "~"


def crowd(seed, n_calls):
    draw = random.Random(seed)
    calls = [{"id": f"c{i:02}", "place": 1, "minutes": draw.choice([30, 40]), "windows": [list(draw.choice(WINDOWS))]}
             for i in range(n_calls)]
    draw.shuffle(calls)
    table = [[0, WAY], [WAY, 0]]
    return {"minute_cents": 160, "mile_cents": 0, "travel": {"minutes": table, "miles": table}, "calls": calls,
            "vans": [{"id": van, "start": 0, "end": 0, "from": "07:00", "to": f"{to // 60:02}:{to % 60:02}"}
                     for van, to in zip("AB", TO)]}


class Crowd:
    """One day in minutes; a set of calls is a number of bits, in the order of the ids."""

    def __init__(self, day):
        calls = sorted(day["calls"], key=lambda call: call["id"])
        self.ids = [call["id"] for call in calls]
        self.minutes = [call["minutes"] for call in calls]
        self.windows = [tuple(seconds_of(end) // 60 for end in call["windows"][0]) for call in calls]
        self.every = (1 << len(calls)) - 1

    def work(self, calls):
        return sum(minutes for i, minutes in enumerate(self.minutes) if calls >> i & 1)

    def next(self, at, calls):
        """Calls of the set that may start at that minute, by their ids."""
        return [i for i, (opens, shuts) in enumerate(self.windows) if calls >> i & 1 and opens <= at <= shuts]

    @functools.lru_cache(maxsize=None)
    def fits(self, at, calls):
        """Whether the set can be done from that minute on without a minute of waiting."""
        return calls == 0 or any(self.fits(at + self.minutes[i], calls & ~(1 << i)) for i in self.next(at, calls))

    def first(self, at, calls):
        """The order that comes first by the ids."""
        order = []
        while calls:
            call = next(i for i in self.next(at, calls) if self.fits(at + self.minutes[i], calls & ~(1 << i)))
            order.append(self.ids[call])
            calls, at = calls & ~(1 << call), at + self.minutes[call]
        return order + [HOME]

    def leaves(self, calls, to):
        """When a van may leave with that set; windows and work are whole tens, and so is all that matters."""
        return [leave for leave in range(7 * 60, to, 10)
                if leave + 2 * WAY + self.work(calls) <= to and self.fits(leave + WAY, calls)]

    def best(self):
        plans = []
        for calls in range(1, self.every):
            others = self.every & ~calls
            for leave in self.leaves(calls, TO[0]):
                plans += [(leave + later, leave, later, calls) for later in self.leaves(others, TO[1])]
        earliest = min(plans)[0]
        return min((self.first(leave + WAY, calls), self.first(later + WAY, self.every & ~calls))
                   for total, leave, later, calls in plans if total == earliest)


class Ids(SolveCase):
    def test_crowds(self):
        for seed, n_calls in ((4, 11), (9, 11), (10, 11), (11, 11), (13, 11), (21, 11), (6, 10), (7, 10)):
            day = crowd(seed, n_calls)
            answer = self.solve(day)
            where = f"crowd {seed}, {n_calls} calls"
            trial = Crowd(day)
            self.assertEqual(answer["status"], "optimal", where)
            # Nobody waits, and both go: what the trial rests on.
            self.assertEqual(answer["cost_cents"], 160 * (trial.work(trial.every) + 4 * WAY), where)
            routes = {route["van"]: [stop["id"] for stop in route["stops"]] + [HOME] for route in answer["routes"]}
            self.assertEqual((routes["A"], routes["B"]), trial.best(), where)


if __name__ == "__main__":
    tap.main()
