# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""Hands days to `halfshaft-cli solve` and checks every answer from outside before a test sees it."""

import json
import os
import subprocess
import tempfile
import unittest

from day_check import Check
from halfshaft import CLI


class SolveCase(unittest.TestCase):
    """`self.solve (problem)` is the answer of the built program; `self.check` its Check."""

    def setUp(self):
        folder = tempfile.TemporaryDirectory(prefix="hs-solve-")
        self.addCleanup(folder.cleanup)
        self.path = os.path.join(folder.name, "day.json")

    def write(self, problem):
        if isinstance(problem, bytes):
            content = problem
        else:
            content = (problem if isinstance(problem, str) else json.dumps(problem)).encode()
        with open(self.path, "wb") as file:
            file.write(content)
        return self.path

    def run_solve(self, problem, *words, timeout=60):
        return subprocess.run([CLI, "--json", "solve", *words, self.write(problem)], capture_output=True, text=True,
                              timeout=timeout)

    def solve(self, problem, *words):
        done = self.run_solve(problem, *words)
        self.assertEqual((done.returncode, done.stderr), (0, ""), json.dumps(problem))
        answer = json.loads(done.stdout)
        self.check = Check(problem, answer)
        self.assertEqual(self.check.wrong, [], json.dumps(problem))
        return answer

    def refuse(self, problem, timeout=20):
        """The one line of the refusal, without the name of the file."""
        done = self.run_solve(problem, timeout=timeout)
        self.assertEqual((done.returncode, done.stdout), (1, ""), done.stderr)
        self.assertEqual(done.stderr.count("\n"), 1, done.stderr)
        self.assertIn(self.path + ": ", done.stderr)
        return done.stderr.strip().split(self.path + ": ", 1)[1]


def stops(answer, route=0):
    return [stop["id"] for stop in answer["routes"][route]["stops"]]


def demo_day(**changes):
    """The demo morning: six calls, two counters, parts at no price unless given."""
    prices = changes.pop("prices", {"starter": 0, "pads": 0, "filter": 0, "agm 45": 0})
    minutes, miles = ([[int(cell) for cell in row.split()] for row in table.strip().splitlines()] for table in (
        "4 9 7 12 8 21\n9 4 6 15 11 24\n7 6 3 10 9 20\n12 15 10 5 14 17\n8 11 9 14 4 16\n21 24 20 17 16 6",
        "10 31 24 50 29 112\n31 10 19 61 40 126\n24 19 8 42 32 104\n50 61 42 13 56 87\n29 40 32 56 11 81\n"
        "112 126 104 87 81 20"))
    base, quay, market, high, foundry, sedge = range(6)
    day = {
        "minute_cents": 160, "mile_cents": 42, "spare_minutes": 30,
        "travel": {"minutes": minutes, "miles": [[cell / 10 for cell in row] for row in miles]},
        "vans": [{"id": "A", "start": base, "end": base, "from": "07:30", "to": "18:00", "carries": ["battery 55"]}],
        "calls": [
            {"id": "A-0021", "place": market, "minutes": 60, "windows": [["08:00", "10:00"]], "needs": ["starter"]},
            {"id": "A-0022", "place": quay, "minutes": 40, "windows": [["08:30", "10:30"]], "needs": ["battery 55"]},
            {"id": "A-0023", "place": foundry, "minutes": 75, "windows": [["11:00", "13:00"]], "needs": ["pads"]},
            {"id": "A-0024", "place": high, "minutes": 90, "windows": [["13:00", "15:30"]]},
            {"id": "A-0025", "place": sedge, "minutes": 60, "windows": [["09:00", "16:00"]], "needs": ["filter"]},
            {"id": "A-0026", "place": high, "minutes": 45, "windows": [["14:30", "17:30"]], "needs": ["agm 45"]}],
        "counters": [
            {"id": "Larch", "place": market, "minutes": 8, "hours": [["08:00", "12:30"], ["13:15", "17:00"]],
             "sells": {"starter": prices["starter"]}},
            {"id": "Kingpost", "place": foundry, "minutes": 10, "hours": [["07:30", "18:00"]],
             "sells": {part: prices[part] for part in ("pads", "filter", "agm 45")}}]}
    day.update(changes)
    return day
