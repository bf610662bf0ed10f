# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""A day on which every promise is to be kept, as a mixed integer program for glpsol (Debian: glpk-utils). It knows the
day from the words of data/plan/DAY.md; who drives where is a binary for each van and leg, when is a real number, and
which window, which counter, which unit on board and after which stop the break is are binaries and integers. Times are
in minutes."""

import os
import re
import subprocess


def number(value):
    return f"{value:.9f}".rstrip("0").rstrip(".") if value else "0"


class Program:
    """Rows and columns under way; `solve ()` hands them over in the LP format."""

    def __init__(self):
        self.rows, self.bounds, self.integers = [], [], []
        self.spare_terms = []

    def row(self, terms, sense, right):
        """terms: (factor, column)."""
        text = " ".join(f"{'-' if factor < 0 else '+'} {number(abs(factor))} {column}" for factor, column in terms)
        self.rows.append(f" r{len(self.rows)}: {text} {sense} {number(right)}")

    def column(self, name, low, high, whole=False):
        self.bounds.append(f" {number(low)} <= {name} <= {number(high)}")
        if whole:
            self.integers.append(f" {name}")
        return name

    def binary(self, name):
        return self.column(name, 0, 1, True)

    def solve(self, sense, terms, folder):
        """The best value, or None if nothing is feasible."""
        goal = " ".join(f"{'-' if factor < 0 else '+'} {number(abs(factor))} {column}" for factor, column in terms)
        path, out = os.path.join(folder, "day.lp"), os.path.join(folder, "day.out")
        with open(path, "w", encoding="ascii") as file:
            file.write("\n".join((sense, f" goal: {goal}", "Subject To", *self.rows, "Bounds", *self.bounds, "Generals",
                                  *self.integers, "End", "")))
        done = subprocess.run(["glpsol", "--lp", path, "--tmlim", "60", "-w", out], capture_output=True, text=True,
                              timeout=120, check=True)
        if re.search("NO (PRIMAL|INTEGER) FEASIBLE", done.stdout):
            return None
        with open(out, encoding="ascii") as file:
            found = re.search(r"^s mip \d+ \d+ (\w) (\S+)$", file.read(), re.M)
        if found[1] == "n":
            return None
        assert found[1] == "o", done.stdout
        return float(found[2])


class DayProgram(Program):
    def __init__(self, day):
        super().__init__()
        self.day = day
        self.costs = []
        self.calls, self.counters = list(day.calls), list(day.counters)
        self.column("spare", -10_000, 10_000)
        for number_of, call in enumerate(self.calls):
            self._windows(number_of, day.calls[call])
        for van_number, van in enumerate(day.vans):
            self._van(van_number, van)
        for i in range(len(self.calls)):
            self.row([(1, f"y_{v}_{i}") for v in range(len(day.vans))], "=", 1)

    def _windows(self, i, call):
        """The work starts inside the window picked; the spare is counted to its end."""
        spans = [(a / 60, b / 60) for a, b in call["windows"]]
        self.column(f"t_{i}", 0, 10_000)
        picks = [self.binary(f"w_{i}_{m}") for m in range(len(spans))]
        self.row([(1, pick) for pick in picks], "=", 1)
        self.row([(1, f"t_{i}"), *((-a, pick) for (a, _), pick in zip(spans, picks))], ">=", 0)
        self.row([(1, f"t_{i}"), *((-b, pick) for (_, b), pick in zip(spans, picks))], "<=", 0)
        self.row([(1, f"t_{i}"), (1, "spare"), *((-b, pick) for (_, b), pick in zip(spans, picks))], "<=", 0)

    def _van(self, v, name):
        day, van = self.day, self.day.vans[name]
        low, high = van["from"] / 60, van["to"] / 60
        self.column(f"leave_{v}", low, high)
        self.column(f"home_{v}", low, high)
        for i, call in enumerate(self.calls):
            self.column(f"y_{v}_{i}", 0, 1 if day.may_serve(name, call) else 0, True)
        for k, counter in enumerate(self.counters):
            self._counter(v, k, day.counters[counter], low, high)
        nodes = [("s", van["start"], 0), *((f"c{i}", day.calls[call]["place"], day.calls[call]["work"] / 60)
                                           for i, call in enumerate(self.calls)),
                 *((f"k{k}", day.counters[counter]["place"], day.counters[counter]["work"] / 60)
                   for k, counter in enumerate(self.counters)), ("e", van["end"], 0)]
        into, out = {node[0]: [] for node in nodes}, {node[0]: [] for node in nodes}
        for one, one_place, work in nodes:
            for two, two_place, _ in nodes:
                if one == two or one == "e" or two == "s" or (one == "s" and two == "e"):
                    continue
                leg = self.binary(f"x_{v}_{one}_{two}")
                into[two].append(leg)
                out[one].append(leg)
                self.costs.append((day.mile_cents * day.miles[one_place][two_place] / 1000, leg))
                # Driven, it is there no earlier than leg and work allow.
                length = work + day.drive[one_place][two_place] / 60
                most = 2000 + length
                self.row([(1, self._time(v, two)), (-1, self._time(v, one)), (-most, leg)], ">=", length - most)
                if van["break"] and one != "s":
                    self._break_between(v, van, one, two, leg, day.drive[one_place][two_place] / 60)
        for i in range(len(self.calls)):
            for legs in (into, out):
                self.row([*((1, leg) for leg in legs[f"c{i}"]), (-1, f"y_{v}_{i}")], "=", 0)
        for k in range(len(self.counters)):
            for legs in (into, out):
                self.row([*((1, leg) for leg in legs[f"k{k}"]), (-1, f"z_{v}_{k}")], "=", 0)
        self.row([*((1, leg) for leg in out["s"]), *((-1, leg) for leg in into["e"])], "=", 0)
        self.row([(1, leg) for leg in out["s"]], "<=", 1)
        self.costs += [(day.minute_cents, f"home_{v}"), (-day.minute_cents, f"leave_{v}")]
        self.row([(1, f"home_{v}"), (-1, f"leave_{v}")], ">=", 0)
        if van["break"]:
            self._break(v, van, nodes[1:-1])
        self._parts(v, van)

    def _break(self, v, van, nodes):
        """Before leaving, after coming home, or after one of the stops, where the van then stands."""
        minutes, opens, ends = (seconds / 60 for seconds in van["break"])
        self.column(f"rest_{v}", opens, ends - minutes)
        before, after = self.binary(f"before_{v}"), self.binary(f"after_{v}")
        self.row([(1, f"leave_{v}"), (-opens - minutes, before)], ">=", 0)
        self.row([(1, f"home_{v}"), (3000, after)], "<=", ends - minutes + 3000)
        for node, _, work in nodes:
            rest = self.binary(f"r_{v}_{node}")
            self.row([(1, rest), (-1, f"{'y' if node[0] == 'c' else 'z'}_{v}_{node[1:]}")], "<=", 0)
            self.row([(1, f"rest_{v}"), (-1, self._time(v, node)), (-3000, rest)], ">=", work - 3000)
        self.row([(1, before), (1, after), *((1, f"r_{v}_{node}") for node, _, _ in nodes)], "=", 1)

    def _break_between(self, v, van, one, two, leg, drive):
        """Driven after a break at `one`, it is there no earlier than break and drive allow."""
        length = van["break"][0] / 60 + drive
        self.row([(1, self._time(v, two)), (-1, f"rest_{v}"), (-3000, leg), (-3000, f"r_{v}_{one}")], ">=",
                 length - 6000)

    @staticmethod
    def _time(v, node):
        if node == "s":
            return f"leave_{v}"
        if node == "e":
            return f"home_{v}"
        return f"t_{node[1:]}" if node[0] == "c" else f"u_{v}_{node[1:]}"

    def _counter(self, v, k, counter, low, high):
        self.binary(f"z_{v}_{k}")
        self.column(f"u_{v}_{k}", 0, 10_000)
        spans = [(a / 60, (b - counter["work"]) / 60) for a, b in counter["hours"] if b - counter["work"] >= a]
        opens = [self.binary(f"o_{v}_{k}_{m}") for m in range(len(spans))]
        # Open where it is stopped at; elsewhere the time means nothing.
        self.row([*((1, pick) for pick in opens), (-1, f"z_{v}_{k}")], "=", 0)
        for (a, b), pick in zip(spans, opens):
            self.row([(1, f"u_{v}_{k}"), (-a, pick)], ">=", 0)
            self.row([(1, f"u_{v}_{k}"), (3000, pick)], "<=", b + 3000)

    def _parts(self, v, van):
        day = self.day
        on_board = {part: [] for part in van["carries"]}
        for i, call in enumerate(self.calls):
            needs = day.calls[call]["needs"]
            for part in sorted(set(needs)):
                wanted, n = needs.count(part), f"{v}_{i}_{self._part(part)}"
                terms = []
                if part in on_board:
                    terms.append((1, self.column(f"b_{n}", 0, wanted, True)))
                    on_board[part].append(f"b_{n}")
                for k, counter in enumerate(self.counters):
                    cents = day.counters[counter]["sells"].get(part)
                    if cents is None:
                        continue
                    bought, before = self.column(f"q_{n}_{k}", 0, wanted, True), f"p_{v}_{i}_{k}"
                    if f" {before}" not in self.integers:
                        self.binary(before)
                        self.row([(1, before), (-1, f"z_{v}_{k}")], "<=", 0)
                        self.row([(1, f"t_{i}"), (-1, f"u_{v}_{k}"), (-3000, before)], ">=",
                                 day.counters[counter]["work"] / 60 + 0.1 - 3000)
                    self.row([(1, bought), (-wanted, before)], "<=", 0)
                    terms.append((1, bought))
                    self.costs.append((cents, bought))
                self.row([*terms, (-wanted, f"y_{v}_{i}")], "=", 0)
        for part, taken in on_board.items():
            if taken:
                self.row([(1, column) for column in taken], "<=", van["carries"][part])

    @staticmethod
    def _part(part):
        return part.replace(" ", "")

    def most_spare(self, folder):
        """In minutes; None if not all promises can be kept."""
        return self.solve("Maximize", [(1, "spare")], folder)

    def least_cost(self, spare_minutes, folder):
        """In cents."""
        self.row([(1, "spare")], ">=", spare_minutes)
        return self.solve("Minimize", self.costs, folder)
