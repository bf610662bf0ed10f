# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""Proves tests/count.py: what each log must count as. `count-holds.py FOLDER_OF_COUNT`"""

import json
import subprocess
import sys
import tempfile

sys.path.insert(0, sys.argv[1])

from count import tap_counts, total  # noqa: E402
from tree import Tap  # noqa: E402

# (what it is, TAP text, passed, failed, skipped)
TEXTS = (
    ("nothing", "", 0, 0, 0),
    ("only a plan", "1..0\n", 0, 0, 0),
    ("two good", "ok 1 /a\nok 2 /b\n1..2\n", 2, 0, 0),
    ("one bad", "ok 1 /a\nnot ok 2 /b\n", 1, 1, 0),
    ("a skip is no pass", "ok 1 /a # SKIP no display\nok 2 - b\n", 1, 0, 1),
    ("small letters", "ok 1 /a # skip\n", 0, 0, 1),
    ("words that begin alike", "okay\n# ok 1\nnot okay\n", 0, 0, 0),
    ("children, not their parent", "# Subtest: s\n    ok 1 /a\n    ok 2 /b\n    1..2\nok 1 s\n", 2, 0, 0),
    ("a bad child", "    ok 1 /a\n    not ok 2 /b\nnot ok 1 s\n", 1, 1, 0),
    ("a bad parent of good children", "    ok 1 /a\nnot ok 1 s\n", 1, 1, 0),
    ("two families", "    ok 1 /a\nok 1 s\n    ok 1 /b\nok 2 t\nok 3 u\n", 3, 0, 0),
)

GOOD = {"name": "halfshaft:core / money", "result": "OK", "stdout": "ok 1 /a\n"}

# (what it is, log entries, tests that must have run, passed, failed, skipped)
RUNS = (
    ("a good program", [GOOD], ["money"], 1, 0, 0),
    ("one that never ran", [GOOD], ["money", "date"], 1, 1, 0),
    ("died after a good line", [dict(GOOD, result="ERROR")], ["money"], 1, 1, 0),
    ("ran out of time", [dict(GOOD, result="TIMEOUT")], ["money"], 1, 1, 0),
    ("interrupted without a word", [dict(GOOD, result="INTERRUPT", stdout="")], [], 0, 1, 0),
    ("a bad line counts once", [dict(GOOD, result="FAIL", stdout="not ok 1 /a\n")], [], 0, 1, 0),
    ("no TAP, good", [{"name": "x", "result": "OK"}], ["x"], 1, 0, 0),
    ("no TAP, bad", [{"name": "x", "result": "FAIL"}], ["x"], 0, 1, 0),
    ("no TAP, skipped", [{"name": "x", "result": "SKIP"}], ["x"], 0, 0, 1),
    ("passed though it must fail", [{"name": "x", "result": "UNEXPECTEDPASS"}], [], 0, 1, 0),
)


def differs(heard, wanted):
    counts = (heard[0], len(heard[1]), heard[2])
    return [] if counts == wanted else [f"counted {counts}, expected {wanted}"]


def last_line(log):
    """What the program itself ends with."""
    with tempfile.NamedTemporaryFile("w", suffix=".json") as file:
        file.write(json.dumps({"name": "x", "result": "OK", "stdout": log}) + "\n")
        file.flush()
        done = subprocess.run([sys.executable, f"{sys.argv[1]}/count.py", file.name], text=True, capture_output=True,
                              check=False)
    return done.stdout.splitlines()[-1]


def main():
    tap = Tap()
    for name, text, *wanted in TEXTS:
        tap.check(f"text: {name}", differs(tap_counts(text), tuple(wanted)))
    for name, entries, expected, *wanted in RUNS:
        tap.check(f"run: {name}", differs(total(entries, expected), tuple(wanted)))
    heard = last_line("ok 1 /a # SKIP no display\nok 2 - b\n")
    tap.check("the last line is alone, also with skips", [] if heard == "1 passed, 0 failed" else [heard])
    return tap.done()


if __name__ == "__main__":
    sys.exit(main())
