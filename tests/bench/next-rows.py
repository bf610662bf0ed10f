#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors

"""Makes the rows of the README on which check next out of what was measured.

next-rows.py prints them, next-rows.py --write README.md puts them in their place, next-rows.py --check README.md tells
whether they stand there.
"""

import json
import pathlib
import sys

RESULTS = pathlib.Path(__file__).parent / "results"
STARTS = ("| which check next, ", "| the same on a job in a book, ")


def read(name):
    result = json.loads((RESULTS / name).read_text(encoding="utf-8"))
    return result.pop("measured"), result


def when(measured):
    """A machine is quiet while no more programs want a processor than it has."""
    quiet = measured["load"] <= measured["processors"]
    return f"measured on {measured['on']} on a {'quiet' if quiet else 'busy'} machine"


def span(numbers, digits):
    low, high = (f"{number:.{digits}f}" for number in (min(numbers), max(numbers)))
    return low if low == high else f"{low} to {high}"


def model_row():
    measured, models = read("next.json")
    times = [model["answer_ms"] for model in models.values()]
    saved = [model["list_minutes"] - model["minutes"] for model in models.values()]
    return (f"| which check next, {len(models)} shipped cause models, {when(measured)} "
            f"| median {span([time['median'] for time in times], 1)} ms, "
            f"worst {max(time['worst'] for time in times):.1f} ms; "
            f"{span(saved, 0)} expected minutes less than the same checks as listed "
            "([next.json](tests/bench/results/next.json)) |")


def job_row():
    measured, groups = read("job-next.json")
    first = groups.pop("first_answer_ms")
    times = [group["answer_ms"] for group in groups.values()]
    return (f"| the same on a job in a book, with its words, {when(measured)} "
            f"| median {span([time['median'] for time in times], 1)} ms, "
            f"worst {max(time['worst'] for time in times):.1f} ms; the first after the book was opened {first:.1f} ms "
            "([job-next.json](tests/bench/results/job-next.json)) |")


def main(arguments):
    rows = [model_row(), job_row()]
    if not arguments:
        print("\n".join(rows))
        return 0
    page = pathlib.Path(arguments[1])
    lines = page.read_text(encoding="utf-8").split("\n")
    made = [next((row for start, row in zip(STARTS, rows) if line.startswith(start)), line) for line in lines]
    if arguments[0] == "--write":
        page.write_text("\n".join(made), encoding="utf-8")
        return 0
    for row in rows:
        if row not in lines:
            print(f"{page}: this row is not there; next-rows.py --write puts it there:\n{row}", file=sys.stderr)
            return 1
    return 0


sys.exit(main(sys.argv[1:]))
