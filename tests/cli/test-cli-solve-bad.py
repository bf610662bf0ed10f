# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""Days that can't be read: each is refused by the path of its field, on one line, at once. The schema beside the
format refuses what a schema can, and takes every day that the planner takes."""

import copy
import itertools
import json
import os
import random
import unittest

import tap
from day_random import days
from solving import SolveCase, demo_day

FOLDER = os.environ["HS_PLAN_FOLDER"]

try:
    import jsonschema
except ImportError:
    jsonschema = None

GONE = object()


def schema(name):
    with open(os.path.join(FOLDER, name), encoding="utf-8") as file:
        found = json.load(file)
    jsonschema.Draft202012Validator.check_schema(found)
    return jsonschema.Draft202012Validator(found)


def changed(path, value):
    """The demo day with one thing changed: path is a list of keys and indexes."""
    day = demo_day()
    day["vans"][0]["break"] = {"minutes": 30, "between": ["11:00", "14:00"]}
    at = day
    for step in path[:-1]:
        at = at[step]
    if value is GONE:
        del at[path[-1]]
    else:
        at[path[-1]] = value
    return day


def path_text(path):
    return "".join(f"[{step}]" if isinstance(step, int) else f".{step}" for step in path).lstrip(".")


def no_place(number):
    return f"there is no place {number}; the tables have 6, counted from 0"


def call(number, **more):
    return {"id": f"A-{number:04}", "place": 1, "minutes": 5, **more}


# Path, what stands there, and what is said after the path. With True the schema refuses it as well.
NUMBERS = ((-1, "is below zero"), (-0.5, "is below zero"), (1e15, "is too large"), ("5", "must be a number"),
           (None, "must be a number"), (True, "must be a number"), ([], "must be a number"), (GONE, "is missing"))
TEXTS = ((5, "must be a text"), (None, "must be a text"), ({}, "must be a text"), (GONE, "is missing"))
LISTS = ((5, "must be a list"), ("x", "must be a list"), (None, "must be a list"), ({}, "must be a list"))
CLOCKS = tuple((bad, f"“{bad}” is not a time like 08:30") for bad in (
    "", "8:30", "08:60", "08.30", "0830", "08:30:60", "08:30:", "-1:30", " 8:30", "08:3o", "noon", "108:30",
    "08:30Z", "٠٨:٣٠"))
CASES = [
    *((["minute_cents"], *row, True) for row in NUMBERS),
    *((["mile_cents"], *row, True) for row in NUMBERS),
    (["minute_cents"], 1.5, "must be a whole number", True),
    *((["spare_minutes"], *row, True) for row in NUMBERS[:-1]),
    (["travel"], GONE, "is missing", True),
    (["travel"], [], "must be an object", True),
    (["travel", "minutes"], GONE, "is missing", True),
    (["travel", "miles"], GONE, "is missing", True),
    (["travel", "minutes"], [], "must have 1 to 256 rows", True),
    (["travel", "minutes"], [[0] * 257] * 257, "must have 1 to 256 rows", True),
    (["travel", "minutes", 5], GONE, None, False),
    (["travel", "miles", 5], GONE, None, False),
    (["travel", "minutes", 2, 5], GONE, None, False),
    (["travel", "minutes", 2], [1] * 7, "has 7 entries where the table has 6 rows", False),
    (["travel", "miles", 2], [1] * 5, "has 5 entries where the table has 6 rows", False),
    (["travel", "minutes", 2], 7, "must be a list", True),
    *((["travel", "minutes", 2, 3], *row, True) for row in NUMBERS[:-1]),
    *((["travel", "miles", 4, 0], *row, True) for row in NUMBERS[:-1]),
    # A place that can't be reached: a drive that no day has room for is written as a number, nothing else.
    (["travel", "minutes", 0, 5], 14401, "is too large", True),
    (["travel", "minutes", 0, 5], "unreachable", "must be a number", True),
    (["travel", "miles", 0, 5], 100001, "is too large", True),
    *((["vans"], *row, True) for row in LISTS),
    (["vans"], GONE, "is missing", True),
    (["vans"], [], "is empty; a day to be planned has at least one", True),
    (["vans"], [{"id": f"{i}", "start": 0, "end": 0, "from": "08:00", "to": "17:00"} for i in range(9)],
     "has 9 entries, more than the 8 that a day may have", True),
    (["vans", 0], "A", "must be an object", True),
    *((["vans", 0, "id"], *row, True) for row in TEXTS),
    (["vans", 0, "id"], "", "is missing", True),
    *((["vans", 0, "start"], *row, True) for row in NUMBERS if row[0] != 1e15),
    (["vans", 0, "start"], 6, no_place(6), False),
    (["vans", 0, "end"], 6, no_place(6), False),
    (["vans", 0, "end"], 0.5, "must be a whole number", True),
    *((["vans", 0, "from"], *row, True) for row in TEXTS + CLOCKS),
    *((["vans", 0, "to"], *row, True) for row in TEXTS),
    (["vans", 0, "to"], "07:29", "is before it may leave", False),
    *((["vans", 0, "carries"], *row, True) for row in LISTS),
    (["vans", 0, "carries", 0], 7, "must be a text", True),
    (["vans", 0, "carries"], ["x"] * 65, "has more than 64 units", True),
    *((["vans", 0, "skills"], *row, True) for row in LISTS),
    (["vans", 0, "break"], [], "must be an object", True),
    (["vans", 0, "break"], {"minutes": 30}, None, True),
    *((["vans", 0, "break", "minutes"], *row, True) for row in NUMBERS),
    (["vans", 0, "break", "between"], ["14:00", "11:00"], "ends before it starts", False),
    (["vans", 0, "break", "between"], ["11:00", "11:29"], "is shorter than the break", False),
    (["vans", 0, "break", "where"], 3, "is not a key that a day has", True),
    (["vans", 0, "color"], "red", "is not a key that a day has", True),
    *((["calls"], *row, True) for row in LISTS),
    (["calls"], GONE, "is missing", True),
    (["calls"], [], "is empty; a day to be planned has at least one", True),
    (["calls"], [call(i) for i in range(500)], "has 500 entries, more than the 200 that a day may have", True),
    (["calls", 2], None, "must be an object", True),
    *((["calls", 2, "id"], *row, True) for row in TEXTS),
    (["calls", 2, "id"], "", "is missing", True),
    (["calls", 2, "id"], "A-0022", "stands twice in the day", False),
    (["calls", 2, "place"], 6, no_place(6), False),
    (["calls", 2, "place"], GONE, "is missing", True),
    *((["calls", 2, "minutes"], *row, True) for row in NUMBERS),
    (["calls", 2, "minutes"], 14401, "is too large", True),
    *((["calls", 2, "windows"], *row, True) for row in LISTS),
    (["calls", 2, "windows"], [], "is empty; leave it out for the whole day", True),
    (["calls", 2, "windows"], [["08:00", "09:00"]] * 25, "has more than 24 spans", True),
    (["calls", 2, "windows", 0], ["13:00", "11:00"], "ends before it starts", False),
    (["calls", 2, "windows", 0], ["11:00"], "must be two times", True),
    (["calls", 2, "windows", 0], ["11:00", "12:00", "13:00"], "must be two times", True),
    (["calls", 2, "windows", 0], "11:00-13:00", "must be a list", True),
    *((["calls", 2, "windows", 0, 1], *row, True) for row in TEXTS[:-1] + CLOCKS),
    *((["calls", 2, "needs"], *row, True) for row in LISTS),
    (["calls", 2, "needs", 0], 7, "must be a text", True),
    (["calls", 2, "needs"], ["pads"] * 65, "has more than 64 units", True),
    (["calls", 2, "van"], "B", "there is no van “B”", False),
    (["calls", 2, "van"], 0, "must be a text", True),
    *((["calls", 2, "skills"], *row, True) for row in LISTS),
    (["calls", 2, "after"], ["A-0021"], "is not a key that a day has", True),
    *((["counters"], *row, True) for row in LISTS),
    (["counters"], [{"id": f"{i}", "place": 0, "minutes": 1, "hours": [], "sells": {}} for i in range(17)],
     "has 17 entries, more than the 16 that a day may have", True),
    *((["counters", 1, "id"], *row, True) for row in TEXTS),
    (["counters", 1, "id"], "Larch", "stands twice in the day", False),
    (["counters", 1, "id"], "A-0022", "stands twice in the day", False),
    (["counters", 1, "place"], 99, no_place(99), False),
    *((["counters", 1, "minutes"], *row, True) for row in NUMBERS),
    *((["counters", 1, "hours"], *row, True) for row in LISTS + ((GONE, "is missing"),)),
    (["counters", 1, "hours", 0], ["18:00", "07:30"], "ends before it starts", False),
    (["counters", 1, "sells"], GONE, "is missing", True),
    (["counters", 1, "sells"], ["pads"], "must be an object of prices", True),
    *((["counters", 1, "sells", "pads"], *row, True) for row in NUMBERS[:-1]),
    (["counters", 1, "sells", "pads"], 9.99, "must be a whole number", True),
    (["counters", 1, "phone"], "x", "is not a key that a day has", True),
    (["notes"], "", "is not a key that a day has", True),
]

# The same in bytes that are no JSON, or no day. "%s" is the demo day.
TEXT_CASES = [
    (b"", "the day: line 1: a value is missing"),
    (b"\n\n", "the day: line 3: a value is missing"),
    (b"[]", "the day: must be an object"),
    (b"null", "the day: must be an object"),
    (b"{}", "travel: is missing"),
    (b"12", "the day: must be an object"),
    (b"\x00\x01\x02", "the day: is not UTF-8 text"),
    (b"\xff\xfe{\x00}\x00", "the day: is not UTF-8 text"),
    (b"%s %s", "the day: line 1: something follows the end"),
    (b"// a day\n%s", "the day: line 1: a value is missing"),
    (b'{"minute_cents": NaN}', "minute_cents: line 1: a value is missing"),
    (b'{"minute_cents": Infinity}', "minute_cents: line 1: a value is missing"),
    (b'{"minute_cents": 0160}', "minute_cents: line 1: a number starts with 0"),
    (b'{"minute_cents": 99999999999999999999}', "minute_cents: line 1: is too large"),
    (b'{"minute_cents": 1, "minute_cents": 2}', "minute_cents: line 1: stands twice"),
    (b"{'minute_cents': 1}", 'the day: line 1: a text in " is missing'),
    (b'{"travel": {"minutes": [[1e999]], "miles": [[0]]}}', "travel.minutes[0][0]: is too large"),
    (b'{"travel": {"minutes": [[-1e999]], "miles": [[0]]}}', "travel.minutes[0][0]: is too large"),
    (b'{"calls": [\n{"id": "a\\u0000b"}]}', "calls[0].id: line 2: a text holds a zero character"),
    (b"[" * 1_000_000, "[0]" * 32 + ": line 1: is nested too deeply"),
    (b'{"a":' * 1_000_000, "a" + ".a" * 31 + ": line 1: is nested too deeply"),
    (b'/* " */' + b"[" * 1_000_000, "the day: line 1: a value is missing"),
]


class Refused(SolveCase):
    def test_fields(self):
        for path, value, said, _ in CASES:
            with self.subTest(path=path_text(path), value=str(value)[:60]):
                message = self.refuse(changed(path, value))
                if said is not None:
                    self.assertEqual(message, f"{path_text(path)}: {said}")

    def test_rows_that_are_gone(self):
        self.assertEqual(self.refuse(changed(["travel", "minutes", 5], GONE)),
                         "travel.minutes[0]: has 6 entries where the table has 5 rows")
        self.assertEqual(self.refuse(changed(["travel", "miles", 5], GONE)),
                         "travel.miles: has 5 rows where the other table has 6")
        self.assertEqual(self.refuse(changed(["travel", "minutes", 2, 5], GONE)),
                         "travel.minutes[2]: has 5 entries where the table has 6 rows")
        self.assertEqual(self.refuse(changed(["vans", 0, "break"], {"minutes": 30})),
                         "vans[0].break.between: is missing")

    def test_texts(self):
        day = json.dumps(demo_day()).encode()
        for text, said in TEXT_CASES:
            with self.subTest(text=text[:60]):
                self.assertEqual(self.refuse(text.replace(b"%s", day)), said)

    def test_large_files(self):
        """One byte too many, and what would fill the memory: looked at no further."""
        day = json.dumps(demo_day()).encode()
        self.assertEqual(self.run_solve(day + b" " * (8_000_000 - len(day))).returncode, 0)
        for text in (day + b" " * (8_000_001 - len(day)), b'{"travel":{"minutes":[[' + b"0," * 25_000_000,
                     b'{"calls":[' + b'{"id":"x"},' * 4_000_000, b"\0" * 50_000_000):
            with self.subTest(length=len(text)):
                self.assertEqual(self.refuse(text), f"the day: has {len(text)} bytes, more than the 8000000 that a "
                                                    "day may have")

    def test_cut_anywhere(self):
        day = json.dumps(demo_day()).encode()
        for length in [*range(1, len(day), 41), len(day) - 1]:
            with self.subTest(length=length):
                self.assertRegex(self.refuse(day[:length]), r"^\S.*: line 1: ")

    def test_flipped_bytes(self):
        """Whatever a byte turns into, the end is an answer or a refusal of one line."""
        rng = random.Random(9)
        day = json.dumps(demo_day()).encode()
        for number in range(300):
            spoiled = bytearray(day)
            for _ in range(rng.choice([1, 1, 2, 5])):
                spoiled[rng.randrange(len(spoiled))] = rng.choice([rng.randrange(256), *b'{}[]",:-0.9e'])
            done = self.run_solve(bytes(spoiled), "--limit", "5", timeout=20)
            with self.subTest(number=number, day=bytes(spoiled)):
                self.assertIn(done.returncode, (0, 1))
                if done.returncode == 0:
                    json.loads(done.stdout)
                else:
                    self.assertEqual((done.stdout, done.stderr.count("\n")), ("", 1))

    def test_files(self):
        for path in ("/nonexistent/day.json", os.path.dirname(self.path)):
            self.write({})
            self.path = path
            self.write = lambda problem: self.path
            done = self.run_solve(None)
            self.assertEqual((done.returncode, done.stdout), (1, ""))
            self.assertIn(path, done.stderr)


class Answered(SolveCase):
    """What can't be served is no bad day: it is answered, with a reason."""

    def trouble(self, day, name):
        answer = self.solve(day)
        self.assertEqual(answer["status"], "impossible")
        rows = [row for row in answer["unserved"] if row["id"] == name]
        self.assertEqual(len(rows), 1, answer)
        self.assertEqual(len(answer["unserved"]) + len(answer["broken"]), 1)
        return rows[0]["why"]

    def test_part_that_nobody_sells(self):
        self.assertIn("unobtainium", self.trouble(changed(["calls", 3, "needs"], ["unobtainium"]), "A-0024"))

    def test_counter_that_is_shut(self):
        self.assertIn("which sells “starter”, is shut all day",
                      self.trouble(changed(["counters", 0, "hours"], []), "A-0021"))

    def test_skill_that_nobody_has(self):
        self.assertIn("skills", self.trouble(changed(["calls", 3, "skills"], ["welding"]), "A-0024"))

    def test_place_that_no_day_reaches(self):
        day = changed(["vans", 0, "break"], None)
        for place in range(6):
            day["travel"]["minutes"][place][5] = 14400
        self.assertIn("home", self.trouble(day, "A-0025"))

    def test_all_at_once(self):
        day = changed(["vans", 0, "to"], "07:30")
        answer = self.solve(day)
        self.assertEqual((answer["status"], answer["cost_cents"], answer["routes"], answer["spare_minutes"]),
                         ("impossible", 0, [], None))
        self.assertEqual(len(answer["unserved"]), 6)

    def test_absent_keys(self):
        """Absent means spare 0, no break, any van, no skills, nothing on board, the whole day."""
        short = {"minute_cents": 1, "mile_cents": 1, "travel": {"minutes": [[1]], "miles": [[1]]},
                 "vans": [{"id": "A", "start": 0, "end": 0, "from": "08:00", "to": "17:00"}],
                 "calls": [{"id": "x", "place": 0, "minutes": 1}]}
        long = copy.deepcopy(short)
        long.update(spare_minutes=0, counters=[])
        long["vans"][0].update({"break": None, "carries": [], "skills": []})
        long["calls"][0].update(van=None, skills=[], needs=[], windows=[["00:00", "24:00"]])
        answers = [self.solve(day) for day in (short, long)]
        for answer in answers:
            answer.pop("seconds")
        self.assertEqual(*answers)
        self.assertEqual(answers[0]["spare_minutes"], 24 * 60 - 8 * 60 - 1)

    def test_largest_numbers(self):
        """All that is allowed at once: sums stay exact."""
        day = {"minute_cents": 10_000_000, "mile_cents": 10_000_000, "spare_minutes": 14400,
               "travel": {"minutes": [[0, 60], [60, 0]], "miles": [[100000, 100000], [100000, 100000]]},
               "vans": [{"id": "A", "start": 0, "end": 1, "from": "00:00", "to": "99:59:59", "carries": ["p"] * 64}],
               "calls": [{"id": "x", "place": 1, "minutes": 14, "needs": ["p"] * 64},
                         {"id": "y", "place": 0, "minutes": 14, "needs": ["p"] * 64}],
               "counters": [{"id": "c", "place": 0, "minutes": 0, "hours": [["00:00", "99:59"]],
                             "sells": {"p": 10_000_000}}]}
        answer = self.solve(day)
        # y, x: 0 + 14 + 60 + 14 minutes; three legs with the counter, 64 units bought.
        self.assertEqual(answer["cost_cents"], 10_000_000 * (88 + 400_000 + 64))


@unittest.skipUnless(jsonschema, "python3-jsonschema is not installed")
class Schema(SolveCase):
    def test_refuses_what_a_schema_can(self):
        validator = schema("day.schema.json")
        for path, value, said, structural in CASES:
            with self.subTest(path=path_text(path), value=str(value)[:60]):
                self.assertEqual(not validator.is_valid(changed(path, value)), structural)

    def test_takes_what_is_taken(self):
        day, answer = schema("day.schema.json"), schema("answer.schema.json")
        sizes = ((3, 0, 1), (4, 1, 1), (3, 1, 2), (2, 2, 2))
        for problem in [demo_day(), changed(["$schema"], "urn:halfshaft:day"),
                        *itertools.islice(days(80_000, sizes), 200)]:
            self.assertEqual([error.message for error in day.iter_errors(problem)], [])
            self.assertEqual([error.message for error in answer.iter_errors(self.solve(problem))], [])

    def test_refuses_other_answers(self):
        answer = schema("answer.schema.json")
        right = self.solve(demo_day())
        for key in list(right):
            self.assertFalse(answer.is_valid({name: value for name, value in right.items() if name != key}))
        self.assertFalse(answer.is_valid({**right, "status": "fine"}))
        self.assertFalse(answer.is_valid({**right, "cost_cents": 764.39}))


if __name__ == "__main__":
    tap.main()
