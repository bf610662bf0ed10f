# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""Problems with one vehicle and time windows, through the built program: every tour is driven here again."""

import itertools
import json
import os
import random
import signal
import subprocess
import tempfile
import time
import unittest
from fractions import Fraction

import tap
from halfshaft import CLI

OBJECTIVES = ["travel", "makespan", "duration"]


def text_of(legs, windows):
    rows = [" ".join(map(str, row)) for row in legs] + [f"{begin} {end}" for begin, end in windows]
    return f"{len(legs)}  # nodes\n" + "\n".join(rows) + "\n"


def drive_at(legs, windows, tour, leave):
    """When it is home and what was driven, or None."""
    now, driven = leave, Fraction(0)
    for here, there in itertools.pairwise([*tour, 0]):
        now += Fraction(legs[here][there])
        driven += Fraction(legs[here][there])
        if now > Fraction(windows[there][1]):
            return None
        if there != 0:
            now = max(now, Fraction(windows[there][0]))
    return now, driven


def cost_of(legs, windows, tour, objective):
    begin, end = (Fraction(time) for time in windows[0])
    done = drive_at(legs, windows, tour, begin)
    if done is None:
        return None
    if objective != "duration":
        return done[1] if objective == "travel" else done[0]
    # Leaving later helps until something is late; the moments that matter are those at which a wait ends.
    leaves, driven = {begin, end}, Fraction(0)
    for here, there in itertools.pairwise([*tour, 0]):
        driven += Fraction(legs[here][there])
        leaves |= {Fraction(time) - driven for time in windows[there]}
    drives = [(leave, drive_at(legs, windows, tour, leave)) for leave in leaves if begin <= leave <= end]
    return min(done[0] - leave for leave, done in drives if done is not None)


def scattered(seed, stops, width, wide=1):
    draw = random.Random(seed)
    places = [(draw.randint(0, 40), draw.randint(0, 40)) for _ in range(stops + 1)]
    legs = [[abs(a[0] - b[0]) + abs(a[1] - b[1]) for b in places] for a in places]
    windows, now = [], 0
    for stop in range(1, stops + 1):
        now += legs[stop - 1][stop]
        windows.append((max(0, now - draw.randint(0, width)), now + draw.randint(0, width)))
    return legs, [(0, now + 100 * wide), *windows]


class TsptwCase(unittest.TestCase):
    def setUp(self):
        folder = tempfile.TemporaryDirectory(prefix="hs-tsptw-")
        self.addCleanup(folder.cleanup)
        self.path = os.path.join(folder.name, "p.txt")

    def write(self, text):
        with open(self.path, "w", encoding="utf-8") as file:
            file.write(text)
        return self.path

    def run_solve(self, text, *words, json_out=True):
        command = [CLI, *(["--json"] if json_out else []), "solve", "--tsptw", self.write(text), *words]
        return subprocess.run(command, capture_output=True, text=True, timeout=60)

    def solve(self, legs, windows, objective="travel", *words):
        done = self.run_solve(text_of(legs, windows), "--objective", objective, *words)
        self.assertEqual((done.returncode, done.stderr), (0, ""))
        answer = json.loads(done.stdout, parse_float=Fraction)
        if answer["cost"] is None:
            self.assertEqual(answer["tour"], [])
            return answer
        self.assertEqual(answer["tour"][0], 0)
        self.assertEqual(sorted(answer["tour"]), list(range(len(legs))))
        self.assertEqual(answer["cost"], cost_of(legs, windows, answer["tour"], objective))
        self.assertLessEqual(answer["bound"], answer["cost"])
        return answer


class Small(TsptwCase):
    def test_against_all_orders(self):
        for seed in range(6):
            legs, windows = scattered(seed, 6, 40)
            for objective in OBJECTIVES:
                costs = [cost_of(legs, windows, [0, *order], objective)
                         for order in itertools.permutations(range(1, 7))]
                least = min(cost for cost in costs if cost is not None)
                answer = self.solve(legs, windows, objective)
                self.assertEqual((answer["status"], answer["cost"], answer["bound"]), ("optimal", least, least))

    def test_decimals_are_exact(self):
        legs = [["0", "10.1", "20.25"], ["10.1", "0", "10.05"], ["20.25", "10.05", "0"]]
        answer = self.solve(legs, [("0", "99.5"), ("10.1", "30"), ("0", "99")])
        self.assertEqual(answer["cost"], Fraction("40.4"))
        self.assertEqual(self.solve(legs, [("0", "40.4"), ("10.1", "10.1"), ("0", "99")])["status"], "optimal")
        self.assertEqual(self.solve(legs, [("0", "40.39"), ("0", "30"), ("0", "99")])["status"], "impossible")

    def test_impossible_is_an_answer(self):
        answer = self.solve([[0, 5], [5, 0]], [(0, 100), (0, 4)])
        self.assertEqual((answer["status"], answer["cost"], answer["bound"]), ("impossible", None, None))
        done = self.run_solve(text_of([[0, 5], [5, 0]], [(0, 100), (0, 4)]), json_out=False)
        self.assertEqual(done.returncode, 0)
        self.assertRegex(done.stdout, r"^no order keeps every window; \d+\.\d{3} s\n$")

    def test_text(self):
        done = self.run_solve(text_of([[0, 5], [6, 0]], [(0, 100), (0, 9)]), json_out=False)
        self.assertEqual(done.returncode, 0)
        self.assertTrue(done.stdout.startswith("optimal: 11, at least 11"), done.stdout)
        self.assertTrue(done.stdout.endswith("\n0 1\n"), done.stdout)

    def test_notes_in_the_file(self):
        done = self.run_solve("# made here\n2\n0 5 # there\n6 0\n0 100 0\n0 9 0 more\n\n999\n")
        self.assertEqual(json.loads(done.stdout)["cost"], 11)


class Large(TsptwCase):
    def test_same_again(self):
        legs, windows = scattered(7, 30, 40)
        first, again = (self.solve(legs, windows, "travel", "--seed", "5") for _ in range(2))
        self.assertEqual(first["status"], "optimal")
        for key in ("cost", "tour", "states"):
            self.assertEqual(first[key], again[key])

    def test_limit_is_kept(self):
        legs, windows = scattered(8, 120, 600, 10)
        for objective in OBJECTIVES:
            began = time.monotonic()
            answer = self.solve(legs, windows, objective, "--limit", "0.5")
            self.assertIsNotNone(answer["cost"])
            self.assertLess(time.monotonic() - began, 5)

    def test_interrupted_prints_the_best(self):
        legs, windows = scattered(9, 150, 900, 10)
        with subprocess.Popen([CLI, "--json", "solve", "--tsptw", self.write(text_of(legs, windows)), "--limit", "40"],
                              stdout=subprocess.PIPE, text=True) as running:
            time.sleep(2)
            running.send_signal(signal.SIGINT)
            answer = json.loads(running.communicate(timeout=20)[0])
        self.assertEqual(running.returncode, 0)
        self.assertEqual(answer["cost"], cost_of(legs, windows, answer["tour"], "travel"))


class Refused(TsptwCase):
    def test_refused(self):
        for text, why in [
            ("", "line 1: number of nodes"),
            ("2\n0 x\n", "line 2: leg from 0 to 1"),
            ("2\n0 1\n1 0\n0 9\n5 3\n", "line 5: window of 1: ends before it begins"),
            ("2\n0 -1\n1 0\n0 9\n3 5\n", "line 2: leg from 0 to 1: is below zero"),
        ]:
            done = self.run_solve(text)
            self.assertNotEqual(done.returncode, 0)
            self.assertEqual(done.stdout, "")
            self.assertIn(why, done.stderr)

    def test_unknown_objective(self):
        done = self.run_solve("1\n0\n0 9\n", "--objective", "miles")
        self.assertEqual(done.returncode, 2)
        self.assertIn("travel, makespan, duration", done.stderr)


if __name__ == "__main__":
    tap.main()
