# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""Whose limit it is: a vehicle's own limits by the command line, and the verdicts that rest on them. The catalog's
charging limits are 13.5 to 14.7 within and to 15.5 watch."""

import tap
from halfshaft import DemoCase

PLATE = "TDM 4409"


class Limits(DemoCase):
    def judge(self, volts):
        found = self.ask("check", "charging", volts, "--plate", PLATE)
        return found["verdict"], found["whose"]

    def set(self, *words):
        return self.ask("limit", PLATE, "charging", *words)

    def test_the_maker_always_wins(self):
        self.assertEqual(self.judge("15.00"), ("watch", "catalog"))
        self.set("low=12.6", "high=15.2", "--source", "measured when new")
        self.assertEqual(self.judge("15.00"), ("within", "owner"))
        both = self.set("high=14.9", "--source", "manual p. 12", "--maker")
        self.assertEqual([(row["whose"], row["low"], row["high"], row["in_use"]) for row in both],
                         [("maker", None, 14.9, True), ("owner", 12.6, 15.2, False)])
        self.assertEqual(self.judge("15.00"), ("outside", "maker"))
        self.assertEqual(self.judge("14.90"), ("within", "maker"))
        left = self.ask("limit", PLATE, "charging", "--clear", "--maker")
        self.assertEqual([row["whose"] for row in left], ["owner"])
        self.assertEqual(self.judge("15.00"), ("within", "owner"))
        self.assertEqual(self.ask("limit", PLATE, "charging", "--clear"), [])
        self.assertEqual(self.judge("15.00"), ("watch", "catalog"))

    def test_in_words(self):
        self.run_cli("limit", PLATE, "charging", "high=15.2", "--source", "measured")
        listed = self.run_cli("limit", PLATE).stdout
        self.assertEqual(listed, "charging: 15.20 V or less (owner's limit: measured)\n")
        said = self.run_cli("check", "charging", "15.3", "--plate", PLATE).stdout
        self.assertIn("above the owner's limit", said)
        self.assertIn("measured (owner's limit)", said)

    def test_refusals(self):
        before = self.read_bytes()
        for words, said, status in (
                (["charging", "high=15"], "say who says so", 1),
                (["charging", "low=15", "high=12", "--source", "m"], "above the high limit", 1),
                (["charging", "high=14700", "--source", "m"], "another unit?", 1),
                (["charging", "high=14,7", "--source", "m"], "high limit", 1),
                (["charging", "high=15", "--source", "m", "--unit", "mV"], "read in V, not in mV", 1),
                (["chargin", "high=15", "--source", "m"], "There is no check", 1),
                (["charging", "--clear"], "there is no owner's limit", 1),
                (["charging", "top=15", "--source", "m"], "neither low= nor high=", 2),
                (["charging", "high=15", "high=16", "--source", "m"], "stands twice", 2),
                (["--clear"], "which check", 2)):
            self.assertIn(said, self.refuse("limit", PLATE, *words, status=status), words)
        self.assertIn("No vehicle", self.refuse("limit", "ZZZ 0000", "charging", "high=15", "--source", "m"))
        self.assertEqual(self.ask("limit", PLATE), [])
        self.assertEqual(self.read_bytes(), before)


if __name__ == "__main__":
    tap.main()
