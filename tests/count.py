# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""Counts what a test run really gave: `count.py --tests TESTS.json LOG.json...`.

LOG.json are the logs of `meson test` (one JSON object a line), TESTS.json is the output of `meson introspect --tests`.
Every TAP line counts by itself; a program without TAP counts once. A program that died, ran out of time or never ran
counts as a failure even when each line it still wrote was fine. Skips are never passes. Prints the failures and how
many were skipped, if any, then `N passed, N failed` alone on the last line; exit code 1 unless all is well.
"""

import argparse
import json
import re
import sys
from pathlib import Path

LINE = re.compile(r"^(?P<indent> *)(?P<no>not )?ok\b(?P<rest>.*)$")
GOOD = ("OK", "SKIP", "EXPECTEDFAIL")


def tap_counts(text):
    """(passed, names of failed, skipped) of TAP text; a parent of subtests is not counted beside its children."""
    passed, failed, skipped = 0, [], 0
    deeper = {}
    for line in text.splitlines():
        match = LINE.match(line)
        if not match:
            continue
        depth = len(match["indent"])
        children = [bad for level, bad in deeper.items() if level > depth]
        deeper = {level: bad for level, bad in deeper.items() if level <= depth}
        deeper[depth] = deeper.get(depth, False) or bool(match["no"])
        if children and (not match["no"] or any(children)):
            continue
        if re.search(r"#\s*skip\b", match["rest"], re.I):
            skipped += 1
        elif match["no"]:
            failed.append(match["rest"].strip())
        else:
            passed += 1
    return passed, failed, skipped


def reasons(text):
    """What a program said about its failures: the comments after a bad line, and why it bailed out."""
    said, after_bad = [], False
    for line in text.splitlines():
        match = LINE.match(line)
        after_bad = bool(match["no"]) if match else after_bad
        if (after_bad and line.lstrip().startswith("#")) or line.startswith(("Bail out!", "# ERROR", "# Bail out!")):
            said.append(line.strip())
    return said[:40]


def test_counts(entry):
    """The same three of one test program."""
    result = entry["result"]
    passed, failed, skipped = tap_counts(entry.get("stdout") or "")
    if passed + len(failed) + skipped == 0:
        passed, skipped = int(result in ("OK", "EXPECTEDFAIL")), int(result == "SKIP")
    if result not in GOOD and not failed:
        failed = [f"ended as {result}"]
    return passed, [f"{entry['name']}: {name}" for name in failed], skipped


def read_logs(paths):
    return [json.loads(line) for path in paths if Path(path).is_file()
            for line in Path(path).read_text(encoding="utf-8").splitlines() if line.strip()]


def bare_name(name):
    """Meson writes `suite - project:name` or `project:name` in logs and `name` when introspected."""
    return re.split(r" / |:", name)[-1].strip()


def total(entries, expected):
    passed, failed, skipped = 0, [], 0
    for entry in entries:
        one = test_counts(entry)
        passed, failed, skipped = passed + one[0], failed + one[1], skipped + one[2]
    seen = {bare_name(entry["name"]) for entry in entries}
    failed += [f"{name}: never ran" for name in expected if name not in seen]
    return passed, failed, skipped


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--tests", help="the tests that must have run")
    parser.add_argument("logs", nargs="*")
    options = parser.parse_args()

    expected = []
    if options.tests:
        listed = json.loads(Path(options.tests).read_text(encoding="utf-8"))
        expected = [test["name"] for test in listed if not any(suite.endswith("long") for suite in test["suite"])]
    entries = read_logs(options.logs)
    passed, failed, skipped = total(entries, expected)
    for entry in entries:
        if entry["result"] not in GOOD:
            print("\n".join([f"-- {entry['name']}"] + reasons(entry.get("stdout") or "")))
    for name in failed:
        print(f"failed: {name}")
    if skipped:
        print(f"skipped: {skipped}")
    print(f"{passed} passed, {len(failed)} failed")
    return 0 if passed and not failed else 1


if __name__ == "__main__":
    sys.exit(main())
