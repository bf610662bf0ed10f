# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""Runs unittest cases and prints TAP, one line a case."""

import sys
import traceback
import unittest


class TapResult(unittest.TestResult):
    def __init__(self):
        super().__init__()
        self.number = 0
        self.bad = 0

    def _line(self, word, test, note=""):
        self.number += 1
        name = test.id().split(".", 1)[-1]
        print(f"{word} {self.number} - {name}{note}", flush=True)

    def addSuccess(self, test):
        self._line("ok", test)

    def addSkip(self, test, reason):
        self._line("ok", test, f" # SKIP {reason}")

    def _fail(self, test, error):
        self.bad += 1
        self._line("not ok", test)
        for line in "".join(traceback.format_exception(*error)).splitlines():
            print("#", line)

    addError = addFailure = _fail

    def addSubTest(self, test, subtest, error):
        if error is not None:
            self._fail(subtest, error)


def main(module="__main__"):
    suite = unittest.defaultTestLoader.loadTestsFromModule(sys.modules[module])
    result = TapResult()
    suite.run(result)
    print(f"1..{result.number}")
    sys.exit(1 if result.bad else 0)
