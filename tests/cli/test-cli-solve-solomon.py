# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""Problems in the text format of Solomon's sets, through the built program: every answer is driven here again."""

import json
import math
import os
import random
import signal
import subprocess
import tempfile
import time
import unittest

import tap
from halfshaft import CLI

HEAD = """{name}

VEHICLE
NUMBER     CAPACITY
  {vans}         {capacity}

CUSTOMER
CUST NO.  XCOORD.   YCOORD.    DEMAND   READY TIME  DUE DATE   SERVICE TIME

"""


def text_of(vans, capacity, stops):
    lines = ["".join(f"{value:>10}" for value in (number, *stop)) for number, stop in enumerate(stops)]
    return HEAD.format(name="made here", vans=vans, capacity=capacity) + "\n".join(lines) + "\n"


def scattered(seed, count, width):
    """A home in the middle and customers around it, each of whom a van of its own can serve."""
    draw = random.Random(seed)
    stops = [(50, 50, 0, 0, 400, 0)]
    for _ in range(count):
        x, y = draw.randint(0, 100), draw.randint(0, 100)
        far = math.ceil(math.hypot(x - 50, y - 50))
        last = 400 - far - 10
        ready = draw.randint(far, last)
        stops.append((x, y, draw.randint(1, 30), ready, min(last, ready + draw.randint(0, width)), 10))
    return stops


def drive(stops, capacity, routes):
    """The distance, once loads, windows and everyone's turn are checked."""
    def leg(a, b):
        return math.hypot(stops[a][0] - stops[b][0], stops[a][1] - stops[b][1])

    length, seen = 0.0, []
    for route in routes:
        now, here = stops[0][3], 0
        assert route and sum(stops[c][2] for c in route) <= capacity, route
        for customer in route:
            now = max(now + leg(here, customer), stops[customer][3])
            assert now <= stops[customer][4] + 1e-9, (route, customer)
            length += leg(here, customer)
            now += stops[customer][5]
            here = customer
        length += leg(here, 0)
        assert now + leg(here, 0) <= stops[0][4] + 1e-9, route
        seen += route
    assert len(seen) == len(set(seen)), seen
    return length, set(seen)


class SolomonCase(unittest.TestCase):
    def setUp(self):
        folder = tempfile.TemporaryDirectory(prefix="hs-solomon-")
        self.addCleanup(folder.cleanup)
        self.path = os.path.join(folder.name, "p.txt")

    def write(self, text):
        with open(self.path, "w", encoding="utf-8") as file:
            file.write(text)
        return self.path

    def run_solve(self, text, *words, json_out=True):
        command = [CLI, *(["--json"] if json_out else []), "solve", "--solomon", self.write(text), *words]
        return subprocess.run(command, capture_output=True, text=True, timeout=60)

    def solve(self, vans, capacity, stops, *words):
        done = self.run_solve(text_of(vans, capacity, stops), *words)
        self.assertEqual((done.returncode, done.stderr), (0, ""))
        answer = json.loads(done.stdout)
        length, seen = drive(stops, capacity, answer["routes"])
        self.assertAlmostEqual(answer["cost"], length, delta=1e-6 * 2 * len(stops))
        self.assertLessEqual(answer["bound"], answer["cost"])
        self.assertEqual(answer["vehicles"], len(answer["routes"]))
        self.assertLessEqual(answer["vehicles"], vans)
        self.assertEqual(seen | set(answer["unserved"]), set(range(1, len(stops))))
        self.assertFalse(seen & set(answer["unserved"]))
        return answer

    def test_keys(self):
        answer = self.solve(3, 100, scattered(1, 6, 60))
        self.assertEqual(set(answer), {"status", "cost", "bound", "vehicles", "routes", "unserved", "seconds",
                                       "states"})
        self.assertEqual(answer["status"], "optimal")
        self.assertEqual(answer["bound"], answer["cost"])

    def test_by_hand(self):
        """Two right triangles of 3, 4, 5 on both sides of home: 24 with one van or two."""
        stops = [(0, 0, 0, 0, 100, 0), (3, 0, 1, 0, 90, 0), (3, 4, 1, 0, 90, 0), (-3, 0, 1, 0, 90, 0),
                 (-3, 4, 1, 0, 90, 0)]
        fewest = self.solve(4, 10, stops, "--objective", "vehicles")
        self.assertEqual((fewest["status"], fewest["vehicles"]), ("optimal", 1))
        self.assertEqual(fewest["cost"], 20)
        halves = self.solve(4, 2, stops)
        self.assertEqual((halves["status"], halves["cost"], halves["vehicles"]), ("optimal", 24, 2))

    def test_sizes(self):
        for count, width in ((20, 40), (50, 200), (200, 100)):
            for objective in ("distance", "vehicles"):
                answer = self.solve(count, 200, scattered(count, count, width), "--objective", objective, "--limit",
                                    "0.5")
                self.assertEqual(answer["unserved"], [], (count, objective))
                self.assertGreater(answer["bound"], 0)

    def test_objectives(self):
        stops = scattered(4, 40, 150)
        shortest = self.solve(40, 200, stops, "--objective", "distance", "--limit", "1")
        fewest = self.solve(40, 200, stops, "--objective", "vehicles", "--limit", "1")
        self.assertLessEqual(fewest["vehicles"], shortest["vehicles"])
        self.assertLessEqual(shortest["cost"], fewest["cost"] + 1e-6)

    def test_same_again(self):
        """A limit that the rounds do not reach: the same seed says the same."""
        stops = scattered(5, 14, 100)
        first, second = (self.solve(14, 100, stops, "--seed", "7", "--limit", "2") for _ in range(2))
        self.assertLess(first["seconds"], 2)
        for answer in (first, second):
            answer.pop("seconds")
        self.assertEqual(first, second)

    def test_limit(self):
        began = time.monotonic()
        answer = self.solve(80, 100, scattered(6, 80, 100), "--limit", "0.3")
        self.assertLess(time.monotonic() - began, 5)
        self.assertLess(answer["seconds"], 1)
        self.assertEqual(answer["status"], "best_found")

    def test_interrupted(self):
        """An interrupt ends the search, not the answer."""
        stops = scattered(7, 100, 100)
        path = self.write(text_of(60, 100, stops))
        with subprocess.Popen([CLI, "--json", "solve", "--solomon", path, "--limit", "100"], stdout=subprocess.PIPE,
                              text=True) as running:
            time.sleep(1)
            running.send_signal(signal.SIGINT)
            out, _ = running.communicate(timeout=30)
        answer = json.loads(out)
        self.assertEqual((running.returncode, answer["status"]), (0, "best_found"))
        self.assertEqual(drive(stops, 100, answer["routes"])[1], set(range(1, 101)))
        self.assertLess(answer["seconds"], 30)

    def test_impossible(self):
        stops = scattered(8, 30, 100)
        stops[4] = (*stops[4][:2], 500, *stops[4][3:])
        stops[9] = (*stops[9][:3], 0, 0, 10)
        answer = self.solve(30, 200, stops, "--limit", "0.3")
        self.assertEqual((answer["status"], answer["unserved"]), ("impossible", [4, 9]))
        few = self.solve(1, 30, [(0, 0, 0, 0, 99, 0), (1, 0, 20, 0, 90, 0), (2, 0, 20, 0, 90, 0)])
        self.assertEqual((few["status"], few["unserved"], few["cost"]), ("impossible", [2], 2))

    def test_nobody(self):
        answer = self.solve(1, 10, [(0, 0, 0, 0, 99, 0)])
        self.assertEqual((answer["status"], answer["cost"], answer["routes"]), ("optimal", 0, []))

    def test_text(self):
        stops = [(0, 0, 0, 0, 99, 0), (3, 4, 5, 0, 90, 0), (-3, -4, 5, 0, 90, 0), (50, 0, 5, 0, 9, 0)]
        done = self.run_solve(text_of(2, 5, stops), json_out=False)
        lines = done.stdout.splitlines()
        self.assertEqual((done.returncode, done.stderr, len(lines)), (0, "", 4))
        self.assertRegex(lines[0], r"^not every stop can be served: 20 with 2 vans, at least 20; \d+\.\d{3} s$")
        self.assertEqual(lines[1:], ["Van 1: 1", "Van 2: 2", "Not served: 3"])

    def test_one_van(self):
        done = self.run_solve(text_of(2, 50, [(0, 0, 0, 0, 99, 0), (3, 4, 5, 0, 90, 0)]), json_out=False)
        self.assertRegex(done.stdout, r"^optimal: 10 with 1 van, at least 10; ")

    def test_refused(self):
        good = text_of(2, 50, scattered(9, 3, 50))
        rows = (
            ("", "line 1, name: the file is empty"),
            (good.replace("VEHICLE\n", "VANS\n"), "line 3, VEHICLE: this line should say VEHICLE and nothing else"),
            (good.replace("  2         50", "  2"),
             "line 5, NUMBER: the number of vans and their capacity belong here, two numbers"),
            (good.replace("  2         50", "  two       50"), "line 5, NUMBER: "),
            (good + "  9 1 1 1 0 9 1\n", "line 14, CUST NO.: customer 4 belongs here"),
            (good + "  4 1 1 1 9 8 1\n", "line 14, DUE DATE: before the ready time"),
            (good + "  4 1 1 x 9 10 1\n", "line 14, DEMAND: "),
            (good + "  4 1 1 1 9 10\n", "line 14, CUST NO.: a customer has 7 numbers, this line has 6"),
        )
        for text, message in rows:
            done = self.run_solve(text)
            self.assertEqual((done.returncode, done.stdout), (1, ""), text)
            self.assertIn(f"{self.path}: {message}", done.stderr)
            self.assertEqual(done.stderr.count("\n"), 1)

    def test_usage(self):
        text = text_of(1, 1, [(0, 0, 0, 0, 9, 0)])
        for words in (("--objective", "makespan"), ("--limit", "0"), ("--seed", "-1")):
            done = self.run_solve(text, *words)
            self.assertEqual((done.returncode, done.stdout), (2, ""), words)
            self.assertTrue(done.stderr)


if __name__ == "__main__":
    tap.main()
