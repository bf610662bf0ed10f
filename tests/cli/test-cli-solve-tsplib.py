# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""Rounds in TSPLIB's text format, through the built program: every answer is added up here again from the file."""

import itertools
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

# Where Debian's glpk-utils keeps its examples, some of them from TSPLIB.
EXAMPLES = "/usr/share/doc/glpk-utils/examples/tsp"

# G. Reinelt, TSPLIB 95: burma14, 14 towns in Burma, coordinates as DDD.MM; the shortest round is 3323.
BURMA14 = [(16.47, 96.10), (16.47, 94.44), (20.09, 92.54), (22.39, 93.37), (25.23, 97.24), (22.00, 96.05),
           (20.47, 97.02), (17.20, 96.29), (16.30, 97.38), (14.05, 98.12), (16.53, 97.38), (21.52, 95.59),
           (19.41, 97.13), (20.09, 94.55)]


def matrix_text(kind, rows, again=False):
    lines = [f"TYPE: {kind}", f"DIMENSION: {len(rows)}", "EDGE_WEIGHT_TYPE: EXPLICIT",
             "EDGE_WEIGHT_FORMAT: FULL_MATRIX", "EDGE_WEIGHT_SECTION"]
    lines += [str(len(rows))] if again else []
    return "\n".join(lines + [" ".join(map(str, row)) for row in rows] + ["EOF", ""])


def points_text(measure, points):
    lines = ["TYPE: TSP", f"DIMENSION: {len(points)}", f"EDGE_WEIGHT_TYPE: {measure}", "NODE_COORD_SECTION"]
    return "\n".join(lines + [f"{i} {x} {y}" for i, (x, y) in enumerate(points, 1)] + ["EOF", ""])


def globe(a, b):
    """TSPLIB's GEO, written down once more."""
    def radians(value):
        degrees = int(value)
        return 3.141592 * (degrees + 5.0 * (value - degrees) / 3.0) / 180.0

    q1 = math.cos(radians(a[1]) - radians(b[1]))
    q2 = math.cos(radians(a[0]) - radians(b[0]))
    q3 = math.cos(radians(a[0]) + radians(b[0]))
    return int(6378.388 * math.acos(0.5 * ((1.0 + q1) * q2 - (1.0 - q1) * q3)) + 1.0)


def lower_rows(path):
    """The legs of a file that writes LOWER_DIAG_ROW."""
    with open(path, encoding="ascii") as file:
        words = file.read().split("EDGE_WEIGHT_SECTION")[1].split("EOF")[0].split("DISPLAY_DATA_SECTION")[0].split()
    rows, at = [], 0
    while at < len(words):
        rows.append([int(word) for word in words[at:at + len(rows) + 1]])
        at += len(rows[-1])
    return [[rows[max(i, j)][min(i, j)] for j in range(len(rows))] for i in range(len(rows))]


class TsplibCase(unittest.TestCase):
    def setUp(self):
        folder = tempfile.TemporaryDirectory(prefix="hs-tsplib-")
        self.addCleanup(folder.cleanup)
        self.path = os.path.join(folder.name, "p.tsp")

    def write(self, text):
        with open(self.path, "w", encoding="utf-8") as file:
            file.write(text)
        return self.path

    def run_solve(self, path, *words, json_out=True):
        command = [CLI, *(["--json"] if json_out else []), "solve", "--tsplib", path, *words]
        return subprocess.run(command, capture_output=True, text=True, timeout=120)

    def solve(self, path, *words):
        done = self.run_solve(path, *words)
        self.assertEqual((done.returncode, done.stderr), (0, ""))
        answer = json.loads(done.stdout)
        self.assertEqual(set(answer), {"status", "cost", "bound", "tour", "seconds", "states"})
        self.assertEqual(sorted(answer["tour"]), list(range(1, len(answer["tour"]) + 1)))
        self.assertEqual(answer["tour"][0], 1)
        self.assertLessEqual(answer["bound"], answer["cost"])
        self.assertEqual(answer["status"], "optimal" if answer["bound"] == answer["cost"] else "best_found")
        return answer

    def add_up(self, tour, leg, closed=True):
        pairs = list(zip(tour, tour[1:] + tour[:1]))
        return sum(leg(a - 1, b - 1) for a, b in (pairs if closed else pairs[:-1]))

    def example(self, name):
        path = os.path.join(EXAMPLES, name)
        if not os.path.exists(path):
            self.skipTest(f"{path} is not there")
        return path

    def test_burma(self):
        answer = self.solve(self.write(points_text("GEO", BURMA14)))
        self.assertEqual((answer["status"], answer["cost"]), ("optimal", 3323))
        self.assertEqual(self.add_up(answer["tour"], lambda a, b: globe(BURMA14[a], BURMA14[b])), 3323)

    def test_known(self):
        """Optimal lengths as TSPLIB 95 (Reinelt) lists them."""
        for name, best in (("ulysses16.tsp", 6859), ("ulysses22.tsp", 7013), ("dantzig42.tsp", 699),
                           ("gr120.tsp", 6942)):
            answer = self.solve(self.example(name), "--limit", "60")
            self.assertEqual((answer["status"], answer["cost"]), ("optimal", best), name)
            if name in ("dantzig42.tsp", "gr120.tsp"):
                rows = lower_rows(self.example(name))
                self.assertEqual(self.add_up(answer["tour"], lambda a, b: rows[a][b]), best)

    def test_way_with_orders(self):
        """Against every order of up to seven nodes; −1 from i to j says that j comes first."""
        draw = random.Random(4)
        for trial in range(60):
            n = draw.randint(3, 7)
            rows = [[0 if i == j else draw.randint(0, 30) for j in range(n)] for i in range(n)]
            for i in range(n):
                for j in range(1, i):
                    if draw.random() < 0.25:
                        rows[i][j] = -1
                rows[i][0] = -1 if i else 0
                rows[n - 1][i] = -1 if i < n - 1 else 0
            firsts = {(j, i) for i in range(n) for j in range(n) if rows[i][j] < 0}
            best = min(sum(rows[a][b] for a, b in zip(way, way[1:]))
                       for way in ((0, *middle, n - 1) for middle in itertools.permutations(range(1, n - 1)))
                       if all(way.index(a) < way.index(b) for a, b in firsts))
            answer = self.solve(self.write(matrix_text("SOP", rows, trial % 2 == 0)))
            way = [node - 1 for node in answer["tour"]]
            self.assertEqual((answer["status"], answer["cost"]), ("optimal", best), rows)
            self.assertEqual((way[0], way[-1]), (0, n - 1))
            self.assertTrue(all(way.index(a) < way.index(b) for a, b in firsts))
            self.assertEqual(self.add_up(answer["tour"], lambda a, b: rows[a][b], closed=False), best)

    def test_one_way(self):
        draw = random.Random(5)
        for _ in range(30):
            n = draw.randint(2, 7)
            rows = [[draw.randint(0, 40) for _ in range(n)] for _ in range(n)]
            best = min(sum(rows[a][b] for a, b in zip(way, way[1:] + way[:1]))
                       for way in ((0, *rest) for rest in itertools.permutations(range(1, n))))
            answer = self.solve(self.write(matrix_text("ATSP", rows)))
            self.assertEqual((answer["status"], answer["cost"]), ("optimal", best), rows)

    def test_text(self):
        done = self.run_solve(self.write(matrix_text("ATSP", [[0, 3, 9], [9, 0, 4], [5, 9, 0]])), json_out=False)
        self.assertEqual((done.returncode, done.stderr), (0, ""))
        first, second = done.stdout.splitlines()
        self.assertTrue(first.startswith("optimal: 12, at least 12; "), first)
        self.assertEqual(second, "1 2 3")

    def test_same_again(self):
        draw = random.Random(6)
        path = self.write(points_text("EUC_2D", [(draw.randint(0, 999), draw.randint(0, 999)) for _ in range(60)]))
        first, again = (self.solve(path, "--seed", "3", "--limit", "60") for _ in range(2))
        self.assertEqual(first["status"], "optimal")
        self.assertEqual((first["tour"], first["states"]), (again["tour"], again["states"]))

    def big(self):
        draw = random.Random(7)
        return self.write(points_text("EUC_2D", [(draw.randint(0, 9999), draw.randint(0, 9999)) for _ in range(700)]))

    def test_limit(self):
        for limit in ("0.05", "1"):
            began = time.monotonic()
            answer = self.solve(self.big(), "--limit", limit)
            self.assertEqual(len(answer["tour"]), 700)
            self.assertLess(time.monotonic() - began, float(limit) + 10)

    def test_interrupt(self):
        with subprocess.Popen([CLI, "--json", "solve", "--tsplib", self.big(), "--limit", "100"],
                              stdout=subprocess.PIPE, text=True) as run:
            time.sleep(1.5)
            run.send_signal(signal.SIGINT)
            out, _ = run.communicate(timeout=30)
        answer = json.loads(out)
        self.assertEqual(run.returncode, 0)
        self.assertEqual(sorted(answer["tour"]), list(range(1, 701)))

    def test_refused(self):
        good = matrix_text("ATSP", [[0, 1], [2, 0]])
        for text, why in (
            ("", "line 1, the end: DIMENSION is missing"),
            (good.replace("ATSP", "VRP"), "line 1, TYPE: “VRP” is not planned here"),
            (good.replace(": 2", ": 5000"), "line 2, DIMENSION: 5000 nodes are too many"),
            (good.replace(": 2", ": 3"), "EDGE_WEIGHT_SECTION: it ends before the leg"),
            (good.replace(": 2", ": 1"), "EDGE_WEIGHT_SECTION: there are more numbers"),
            (good.replace("2 0", "-2 0"), "line 7, EDGE_WEIGHT_SECTION: the leg from node 2 to node 1 is below zero"),
        ):
            done = self.run_solve(self.write(text))
            self.assertEqual((done.returncode, done.stdout), (1, ""), text)
            self.assertIn(why, done.stderr)
        done = self.run_solve(self.write(good), "--objective", "travel")
        self.assertEqual(done.returncode, 2)
        self.assertIn("--objective", done.stderr)


if __name__ == "__main__":
    tap.main()
