# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""Small random days against a mixed integer program: the most spare that can be had, and the least cost with it."""

import itertools
import json
import shutil
import tempfile
import unittest
from collections import Counter

import tap
from day_milp import DayProgram
from day_random import days
from solving import SolveCase

# Calls, counters, vans.
SIZES = ((3, 1, 1), (2, 1, 2), (3, 1, 1), (4, 0, 1), (3, 2, 1), (3, 0, 2), (2, 2, 1), (4, 1, 1))


@unittest.skipUnless(shutil.which("glpsol"), "glpsol (glpk-utils) is not installed")
class Milp(SolveCase):
    def compare(self, day, folder):
        answer = self.solve(day)
        text = json.dumps(day)
        program = DayProgram(self.check.day)
        spare = program.most_spare(folder)
        if spare is None:
            self.assertEqual(answer["status"], "impossible", text)
            return {"impossible"}
        self.assertEqual(answer["status"], "optimal", text)
        asked = self.check.day.asked / 60
        self.assertAlmostEqual(min(asked, answer["spare_minutes"]), min(asked, spare), delta=0.02, msg=text)
        # A breath less than it says, so that its own rounding does not shut the door.
        cost = program.least_cost(min(asked, spare) - 1e-4, folder)
        self.assertAlmostEqual(answer["cost_cents"], cost, delta=0.6, msg=text)
        return {"kept", "spare short" if spare < asked - 0.02 else "spare kept",
                "bought" if answer["bought"] else "nothing bought", f"{len(answer['routes'])} routes",
                "break" if any(stop["kind"] == "break" for route in answer["routes"] for stop in route["stops"])
                else "no break"}

    def test_both_objectives(self):
        seen = Counter()
        with tempfile.TemporaryDirectory(prefix="hs-milp-") as folder:
            for number, day in enumerate(itertools.islice(days(90_000, SIZES), 300)):
                with self.subTest(number=number):
                    for word in self.compare(day, folder):
                        seen[word] += 1
        self.assertGreaterEqual(seen["kept"], 200, seen)
        for word in ("impossible", "spare short", "spare kept", "bought", "2 routes", "break"):
            self.assertGreaterEqual(seen[word], 15, seen)


if __name__ == "__main__":
    tap.main()
