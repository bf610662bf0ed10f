# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""What is said about promises that can't be kept is tried out: the named calls do conflict, no fewer would, and each
mend mends."""

import copy
import itertools
import json
import re
from collections import Counter

import day_trial
import tap
from day_check import Day, seconds_of
from day_random import clock, days
from solving import SolveCase

MOVE = re.compile(r"move (\S+) (\d+) minutes? later")
START = re.compile(r"start (\d+) minutes? earlier")
DROP = re.compile(r"drop (\S+)")


def only(problem, calls):
    """The same day with just these calls."""
    part = copy.deepcopy(problem)
    part["calls"] = [call for call in part["calls"] if call["id"] in calls]
    return part


def can_keep(problem):
    return not problem["calls"] or day_trial.best(Day(problem))[0] == 0


def moved(problem, name, minutes):
    part = copy.deepcopy(problem)
    for call in part["calls"]:
        if call["id"] == name:
            call["windows"] = [[clock(seconds_of(end) + minutes * 60) for end in span] for span in call["windows"]]
    return part


def earlier(problem, minutes):
    part = copy.deepcopy(problem)
    for van in part["vans"]:
        van["from"] = clock(seconds_of(van["from"]) - minutes * 60)
    return part


class Why(SolveCase):
    def say(self, text):
        return f"{text}\n{json.dumps(self.problem)}"

    def conflict(self, row):
        """The others are kept, but can't be with this call; and of those kept, no fewer are such."""
        name, others = row["id"], row["conflicts"]
        self.assertNotIn(name, others)
        self.assertEqual(len(set(others)), len(others))
        self.assertFalse(can_keep(only(self.problem, {name, *others})), self.say(row))
        self.assertLessEqual(set(others), self.kept, self.say(row))
        for size in range(len(others)):
            for fewer in itertools.combinations(sorted(self.kept), size):
                self.assertTrue(can_keep(only(self.problem, {name, *fewer})), self.say(f"{row}: {fewer} are enough"))
        if others:
            for call in (name, *others):
                self.assertIn(call, row["why"])

    def mend(self, row, words):
        """It keeps this promise with all that are kept, but for one that is dropped; a minute less would not."""
        wanted = self.kept | {row["id"]}
        if found := DROP.fullmatch(words):
            self.assertIn(found[1], row["conflicts"])
            self.assertTrue(can_keep(only(self.problem, wanted - {found[1]})), self.say(f"{words}: {row}"))
            return "drop"
        if found := MOVE.fullmatch(words):
            self.assertIn(found[1], (row["id"], *row["conflicts"]))
            name, minutes, mended = found[1], int(found[2]), lambda by: moved(whole, name, by)
        else:
            found = START.fullmatch(words)
            self.assertIsNotNone(found, words)
            minutes, mended = int(found[1]), lambda by: earlier(whole, by)
        whole = only(self.problem, wanted)
        self.assertGreater(minutes, 0)
        self.assertTrue(can_keep(mended(minutes)), self.say(f"{words}: {row}"))
        self.assertFalse(can_keep(mended(minutes - 1)), self.say(f"{words}: {row}: a minute less would do"))
        return words.split()[0]

    def test_reasons_and_mends(self):
        seen = Counter()
        sizes = ((3, 0, 1), (4, 1, 1), (6, 0, 1), (4, 0, 1), (3, 1, 2), (5, 0, 1), (4, 0, 2))
        for number, problem in enumerate(itertools.islice(days(70_000, sizes), 700)):
            self.problem = problem
            answer = self.solve(problem)
            troubles = answer["broken"] + answer["unserved"]
            self.kept = {call["id"] for call in problem["calls"]} - {row["id"] for row in troubles}
            for row in troubles:
                self.conflict(row)
                for words in row["mends"]:
                    seen[self.mend(row, words)] += 1
                for name in row["conflicts"]:
                    mends = can_keep(only(problem, (self.kept | {row["id"]}) - {name}))
                    self.assertEqual(f"drop {name}" in row["mends"], mends, self.say(row))
                seen[f"of {len(row['conflicts']) + 1}"] += 1
        for word in ("drop", "move", "start", "of 1", "of 2", "of 3"):
            self.assertGreaterEqual(seen[word], 8, seen)


if __name__ == "__main__":
    tap.main()
