# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""Days from files: the owner's mornings to the last figure, every rule of data/plan/DAY.md by hand, and how the
program ends. The checker from outside sees every answer, and is itself seen to notice what is wrong."""

import copy
import itertools
import json
import os
import random
import re
import resource
import signal
import subprocess
import time

import tap
from day_check import Check, seconds_of
from day_random import clock
from day_random import days as random_days
from halfshaft import CLI
from solving import SolveCase, demo_day, stops

PRICES = {"starter": 11800, "pads": 2700, "filter": 2100, "agm 45": 11200}


def large_day(seed, n_calls, n_vans, wide=240):
    """A town of many calls, more than can be proven while one waits."""
    rng = random.Random(seed)
    points = [(rng.uniform(0, 15), rng.uniform(0, 15)) for _ in range(n_calls // 2)]
    away = [[round(2 + abs(a[0] - b[0]) + abs(a[1] - b[1])) for b in points] for a in points]
    calls = []
    for number in range(n_calls):
        opens = rng.randrange(480, 960, 15)
        calls.append({"id": f"A-{number:04}", "place": rng.randrange(len(points)), "minutes": rng.choice([10, 15, 20]),
                      "windows": [[clock(opens * 60), clock((opens + wide) * 60)]]})
    return {"minute_cents": 160, "mile_cents": 42, "spare_minutes": 15,
            "travel": {"minutes": away, "miles": [[cell * 4 / 10 for cell in row] for row in away]},
            "vans": [{"id": f"V{i}", "start": 0, "end": 0, "from": "07:00", "to": "22:00"} for i in range(n_vans)],
            "calls": calls}


class Stories(SolveCase):
    def test_cheapest_day_with_thirty_spare(self):
        order = ["Larch", "A-0021", "A-0022", "Kingpost", "A-0023", "A-0025", "A-0024", "A-0026"]
        for prices, parts in ((None, 0), (PRICES, sum(PRICES.values()))):
            day = demo_day(prices=prices) if prices else demo_day()
            answer = self.solve(day)
            route = answer["routes"][0]
            self.assertEqual((answer["status"], answer["cost_cents"], answer["bound_cents"]),
                             ("optimal", 76439 + parts, 76439 + parts))
            self.assertEqual((route["leave"], route["home"], route["miles"], route["drive_minutes"]),
                             ("08:31", "16:20", 33.3, 81))
            self.assertEqual((stops(answer), answer["spare_minutes"]), (order, 35))

    def test_cheaper_with_less_spare(self):
        answer = self.solve(demo_day(spare_minutes=0))
        self.assertEqual((answer["cost_cents"], answer["spare_minutes"]), (76434, 23))
        # More than any order has: the most that there is.
        self.assertEqual(self.solve(demo_day(spare_minutes=600))["spare_minutes"],
                         self.solve(demo_day(spare_minutes=6000))["spare_minutes"])

    def larch(self, at):
        """One call at the base that starts at just that time, then the starter for another."""
        calls = [{"id": "first", "place": 0, "minutes": 0, "windows": [[at, at]]},
                 {"id": "second", "place": 2, "minutes": 10, "windows": [["12:00", "17:00"]], "needs": ["starter"]}]
        day = demo_day(calls=calls, spare_minutes=0)
        day["vans"][0]["from"] = "12:05"
        found = [stop for stop in self.solve(day)["routes"][0]["stops"] if stop["id"] == "Larch"]
        return found[0]["arrive"], found[0]["start"], found[0]["depart"]

    def test_never_at_a_shut_door(self):
        self.assertEqual(self.larch("12:15"), ("12:22", "12:22", "12:30"))
        self.assertEqual(self.larch("12:15:01"), ("12:22:01", "13:15", "13:23"))
        self.assertEqual(self.larch("12:16"), ("12:23", "13:15", "13:23"))

    def test_seventh_call(self):
        seventh = {"id": "A-0027", "place": 2, "minutes": 40, "windows": [["09:00", "17:00"]]}
        # Nothing moves but what comes after it: no call starts before its accepted time, nobody leaves before 08:31.
        day = demo_day()
        day["vans"][0]["from"] = "08:31"
        accepted = {stop["id"]: stop["start"] for stop in self.solve(day)["routes"][0]["stops"]}
        for call in day["calls"]:
            call["windows"][0][0] = accepted[call["id"]]
        day["calls"].append(seventh)
        answer = self.solve(day)
        found = {stop["id"]: stop for stop in answer["routes"][0]["stops"]}
        self.assertEqual(found["A-0027"]["start"], "10:41")
        self.assertEqual((answer["routes"][0]["home"], answer["routes"][0]["miles"]), ("17:04", 34.4))
        self.assertEqual(answer["cost_cents"], 76439 + 7086)
        # Planned anew, the day comes cheaper; counted by the trial.
        again = self.solve(demo_day(calls=demo_day()["calls"] + [seventh]))
        self.assertEqual((again["status"], again["cost_cents"]), ("optimal", 83348))
        self.assertEqual((again["routes"][0]["leave"], again["routes"][0]["home"]), ("08:21", "16:53"))

    def test_second_trip(self):
        """What bring-or-leave weighs: 38 minutes and 9 miles for a part left behind, 64.58."""
        trip = {"minute_cents": 160, "mile_cents": 42, "travel": {"minutes": [[0, 19], [19, 0]],
                                                                  "miles": [[0, 4.5], [4.5, 0]]},
                "vans": [{"id": "A", "start": 0, "end": 0, "from": "08:00", "to": "17:00"}],
                "calls": [{"id": "again", "place": 1, "minutes": 0}]}
        self.assertEqual(self.solve(trip)["cost_cents"], 6458)

    def test_kept_on_board(self):
        """Two kept on board, and two calls buy nothing; with one, the second call buys."""
        day = demo_day(calls=[{"id": f"{i}", "place": 4, "minutes": 10, "needs": ["pads"],
                               "windows": [[f"{9 + i:02}:00", f"{9 + i:02}:10"]]} for i in range(2)], prices=PRICES)
        for kept, bought in ((2, []), (1, ["1"]), (0, ["0", "1"])):
            day["vans"][0]["carries"] = ["pads"] * kept
            self.assertEqual([row["call"] for row in self.solve(day)["bought"]], bought)


class Rules(SolveCase):
    """Places on a line, ten minutes and four miles apart, at 1.00 a minute and 0.50 a mile."""

    def day(self, calls, counters=(), **van):
        size = range(5)
        return {"minute_cents": 100, "mile_cents": 50,
                "travel": {"minutes": [[abs(i - j) * 10 for j in size] for i in size],
                           "miles": [[abs(i - j) * 4 for j in size] for i in size]},
                "vans": [{"id": "A", "start": 0, "end": 0, "from": "08:00", "to": "18:00", **van}],
                "calls": [{"id": f"x{number}", **call} for number, call in enumerate(calls)],
                "counters": list(counters)}

    def starts(self, *args, **more):
        return {stop["id"]: stop["start"] for route in self.solve(self.day(*args, **more))["routes"]
                for stop in route["stops"]}

    def test_spans_are_taken_literally(self):
        # With 45 asked the work waits for the window that leaves as much, though another is open.
        day = self.day([{"place": 1, "minutes": 10, "windows": [["08:30", "09:00"], ["08:45", "10:00"]]}])
        for asked, start, slack in ((0, "08:30", 30), (30, "08:30", 30), (45, "08:45", 75), (75, "08:45", 75),
                                    (90, "08:45", 75)):
            day["spare_minutes"] = asked
            stop = self.solve(day)["routes"][0]["stops"][0]
            self.assertEqual((stop["start"], stop["slack_minutes"]), (start, slack))

    def test_after_midnight(self):
        day = self.day([{"place": 1, "minutes": 30, "windows": [["23:50", "24:30"]]}], to="26:00")
        route = self.solve(day)["routes"][0]
        self.assertEqual((route["stops"][0]["start"], route["stops"][0]["depart"], route["home"]),
                         ("23:50", "24:20", "24:30"))

    def test_whole_day_goes_on_to_the_latest_home(self):
        day = self.day([{"place": 1, "minutes": 30}], to="30:00")
        self.assertEqual(self.solve(day)["spare_minutes"], 30 * 60 - 8 * 60 - 10)

    def test_cheapest_counter_before_the_call(self):
        counters = [{"id": name, "place": place, "minutes": 0, "hours": [["08:00", "18:00"]], "sells": {"p": cents}}
                    for name, place, cents in (("dear", 1, 300), ("cheap", 3, 200), ("far", 4, 100))]
        calls = [{"place": 2, "minutes": 0, "windows": [["08:00", "08:20"]], "needs": ["p"]},
                 {"place": 3, "minutes": 0, "windows": [["08:30", "09:00"]], "needs": ["p", "p"]}]
        answer = self.solve(self.day(calls, counters))
        self.assertEqual([(row["call"], row["counter"], row["cents"]) for row in answer["bought"]],
                         [("x0", "dear", 300), ("x1", "cheap", 200), ("x1", "cheap", 200)])

    def test_legs_as_tabled(self):
        """The straight leg is longer than the way over a third place, which is driven only with a reason to stop."""
        day = self.day([{"place": 2, "minutes": 0}])
        day["travel"]["minutes"][0][2] = 50
        route = self.solve(day)["routes"][0]
        self.assertEqual((route["drive_minutes"], [stop["id"] for stop in route["stops"]]), (70, ["x0"]))

    def test_skills_and_vans(self):
        day = self.day([{"place": 1, "minutes": 0, "skills": ["coding"]}, {"place": 2, "minutes": 0, "van": "A"}])
        day["vans"].append({"id": "B", "start": 4, "end": 4, "from": "08:00", "to": "18:00", "skills": ["coding"]})
        answer = self.solve(day)
        self.assertEqual({route["van"]: [stop["id"] for stop in route["stops"]] for route in answer["routes"]},
                         {"A": ["x1"], "B": ["x0"]})

    def test_home_is_kept_and_the_rest_is_served_late(self):
        calls = [{"place": 1, "minutes": 60, "windows": [["08:00", "08:10"]]},
                 {"place": 1, "minutes": 60, "windows": [["08:00", "08:30"]]}]
        answer = self.solve(self.day(calls))
        self.assertEqual([(row["id"], row["late_minutes"]) for row in answer["broken"]], [("x1", 40)])
        answer = self.solve(self.day(calls, to="10:19:59"))
        self.assertEqual(([row["id"] for row in answer["unserved"]], answer["broken"]), (["x1"], []))

    def test_seconds_and_thousandths(self):
        day = self.day([{"place": 1, "minutes": 10.1, "windows": [["09:00:07", "09:30"]]}])
        day["travel"]["minutes"][0][1] = 0.0083
        day["travel"]["minutes"][1][0] = 0.0084
        day["travel"]["miles"][0][1] = 1.2344
        day["travel"]["miles"][1][0] = 1.2345
        route = self.solve(day)["routes"][0]
        self.assertEqual((route["leave"], route["home"], route["miles"]), ("09:00:07", "09:10:14", 2.469))

    def test_rounded_once(self):
        # 1.5 minutes at 1 cent, twice half a mile at 1 cent, two cents of parts: 2.5 + 2, half up.
        day = self.day([{"place": 0, "minutes": 1.5, "needs": ["p", "p"]}],
                       [{"id": "c", "place": 0, "minutes": 0, "hours": [["00:00", "24:00"]], "sells": {"p": 1}}])
        day.update(minute_cents=1, mile_cents=1)
        day["travel"]["miles"][0][0] = 0.333
        # Three hops: start to counter, counter to call, call to end.
        answer = self.solve(day)
        self.assertEqual(answer["cost_cents"], 4)
        day["travel"]["miles"][0][0] = 0.334
        self.assertEqual(self.solve(day)["cost_cents"], 5)

    def test_ties_by_id(self):
        day = self.day([{"place": 1, "minutes": 10}, {"place": 1, "minutes": 10}])
        self.assertEqual(stops(self.solve(day)), ["x0", "x1"])
        day["calls"].reverse()
        self.assertEqual(stops(self.solve(day)), ["x0", "x1"])

    def test_the_example_of_the_page(self):
        with open(os.path.join(os.environ["HS_PLAN_FOLDER"], "DAY.md"), encoding="utf-8") as file:
            block = re.search(r"\n\n((?:    .*\n)+)", file.read())[1]
        answer = self.solve(json.loads(block))
        self.assertEqual((answer["status"], stops(answer)), ("optimal", ["Larch", "A-0021", "A-0022"]))


class Ends(SolveCase):
    def test_usage(self):
        path = self.write(demo_day())
        for words in ([], [path, path], ["--limit", "0", path], ["--limit", "-1", path], ["--limit", "soon", path],
                      ["--limit", "86401", path], ["--seed", "-1", path], ["--seed", "4294967296", path],
                      ["--seed", "x", path], ["--objective", "travel", path], ["--sideways", path]):
            with self.subTest(words=words):
                done = subprocess.run([CLI, "solve", *words], capture_output=True, text=True, timeout=20)
                self.assertEqual((done.returncode, done.stdout), (2, ""))
                self.assertTrue(done.stderr.strip())

    def test_text(self):
        done = subprocess.run([CLI, "solve", self.write(demo_day())], capture_output=True, text=True, timeout=20)
        self.assertEqual(done.returncode, 0)
        for words in ("optimal", "764.39", "08:31", "16:20", "33.3", "Larch", "A-0026"):
            self.assertIn(words, done.stdout)

    def test_text_of_what_is_late(self):
        """Ten minutes from base at 08:00: five late for X, twenty for Z; whichever is first, Y has time enough."""
        calls = [{"id": name, "place": 1, "minutes": 0, "windows": [window]}
                 for name, window in (("X", ["06:00", "08:05"]), ("Y", ["08:00", "12:00"]), ("Z", ["06:00", "07:50"]))]
        path = self.write({"minute_cents": 100, "mile_cents": 0, "calls": calls,
                           "travel": {"minutes": [[0, 10], [10, 0]], "miles": [[0, 0], [0, 0]]},
                           "vans": [{"id": "A", "start": 0, "end": 0, "from": "08:00", "to": "17:00"}]})
        done = subprocess.run([CLI, "solve", path], capture_output=True, text=True, timeout=20)
        self.assertEqual(done.stdout.splitlines()[1], "Latest: 20 min late at Z", done.stderr)

    def test_text_of_large_sums(self):
        """Four vans away for 5800 min at 100,000.00 each: more whole dollars than fit into 31 bits."""
        far = {"minutes": [[0, 2900], [2900, 0]], "miles": [[0, 0], [0, 0]]}
        vans = [{"id": van, "start": 0, "end": 0, "from": "00:00", "to": "99:00"} for van in "ABCD"]
        calls = [{"id": f"{van}-1", "place": 1, "minutes": 0, "van": van} for van in "ABCD"]
        path = self.write({"minute_cents": 10000000, "mile_cents": 0, "travel": far, "vans": vans, "calls": calls})
        done = subprocess.run([CLI, "solve", path], capture_output=True, text=True, timeout=20)
        self.assertEqual(done.stdout.split(";")[0], "optimal: 2320000000.00, at least 2320000000.00", done.stderr)

    def test_limit(self):
        for calls, vans in ((30, 1), (60, 3), (120, 6)):
            with self.subTest(calls=calls):
                began = time.monotonic()
                answer = self.solve(large_day(1, calls, vans), "--limit", "1")
                self.assertLess(time.monotonic() - began, 3)
                self.assertLess(answer["bound_cents"], answer["cost_cents"])
        self.assertLess(resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss, 1 << 20)

    def test_not_found_is_not_impossible(self):
        """All of it can be kept, as a longer search shows; a short one says what it found, and no more."""
        for limit in ("0.001", "0.3"):
            self.assertNotEqual(self.solve(large_day(1, 30, 1), "--limit", limit)["status"], "impossible")

    def test_too_much_to_explain(self):
        """Where there was no time to find out who is in the way, nobody is named."""
        day = large_day(5, 60, 1)
        day["vans"][0]["to"] = "12:00"
        answer = self.solve(day, "--limit", "0.5")
        troubles = answer["broken"] + answer["unserved"]
        self.assertGreater(len(troubles), 10)
        for row in troubles:
            self.assertLessEqual(len(row["conflicts"]), 8, row)

    def test_interrupt(self):
        day = large_day(2, 60, 3)
        process = subprocess.Popen([CLI, "--json", "solve", "--limit", "100", self.write(day)], stdout=subprocess.PIPE,
                                   stderr=subprocess.PIPE, text=True)
        time.sleep(1.5)
        self.assertIsNone(process.poll(), "it has to be at work still")
        process.send_signal(signal.SIGINT)
        began = time.monotonic()
        out, err = process.communicate(timeout=30)
        self.assertLess(time.monotonic() - began, 2)
        self.assertEqual((process.returncode, err), (0, ""))
        answer = json.loads(out)
        self.assertEqual(Check(day, answer).wrong, [])
        self.assertEqual(answer["status"], "best_found")

    def test_same_again(self):
        for day in (demo_day(), large_day(3, 16, 1, 60), large_day(4, 14, 2, 30)):
            answers = [self.solve(day, "--seed", seed, "--limit", "60") for seed in ("1", "1", "7")]
            for answer in answers:
                self.assertNotEqual(answer["status"], "best_found")
                answer.pop("seconds")
            self.assertEqual(answers[0], answers[1])
            # Another seed may search in another way, but a proven best is one of a kind.
            self.assertEqual(answers[0]["routes"], answers[2]["routes"])

    def test_order_of_the_file(self):
        """The same day written in another order has the same answer, to the last word."""
        days = [demo_day(prices=PRICES)]
        days += itertools.islice(random_days(90_000, ((4, 1, 2), (5, 2, 1), (4, 0, 3), (6, 1, 2))), 40)
        rng = random.Random(7)
        for day in days:
            turned = copy.deepcopy(day)
            for rows in ("vans", "calls", "counters"):
                rng.shuffle(turned.get(rows, []))
            answers = [self.solve(day), self.solve(turned)]
            for answer in answers:
                answer.pop("seconds")
            self.assertEqual(answers[0], answers[1], json.dumps(day))


def spoiled(answer):
    """The answer with each of its figures, names and rows changed, one at a time."""
    def leaves(at, path):
        for key, value in (at.items() if isinstance(at, dict) else enumerate(at)):
            if isinstance(value, (dict, list)):
                yield from leaves(value, path + [key])
            if not isinstance(value, dict) or isinstance(key, int):
                yield path + [key], value

    for path, value in leaves(answer, []):
        if path[0] in ("seconds", "states") or "why" in path or "conflicts" in path or "mends" in path:
            continue
        changes = [value + 1] if isinstance(value, (int, float)) else []
        if isinstance(value, str):
            changes = [clock(seconds_of(value) + by) for by in (-60, 60)] if re.match(r"\d\d:", value) else ["other"]
        for change in changes + (["gone"] if isinstance(path[-1], int) else []):
            copied = copy.deepcopy(answer)
            at = copied
            for step in path[:-1]:
                at = at[step]
            if change == "gone":
                del at[path[-1]]
            else:
                at[path[-1]] = change
            yield path, change, copied


class TheCheckItself(SolveCase):
    def days(self):
        yield demo_day(prices=PRICES)
        late = demo_day(prices=PRICES)
        late["calls"][0]["windows"] = late["calls"][1]["windows"] = [["08:00", "08:45"]]
        late["calls"][3]["needs"] = ["unobtainium"]
        late["vans"][0]["break"] = {"minutes": 30, "between": ["12:00", "13:30"]}
        yield late

    def test_notices_every_change(self):
        count = 0
        for day in self.days():
            for path, change, answer in spoiled(self.solve(day)):
                count += 1
                self.assertNotEqual(Check(day, answer).wrong, [], f"{path}: {change}")
        self.assertGreater(count, 200)

    def test_notices_another_day(self):
        """A right answer is a wrong one where the day is another."""
        day = demo_day(prices=PRICES)
        answer = self.solve(day)
        for path, value in ((["minute_cents"], 161), (["mile_cents"], 45), (["travel", "minutes", 0, 2], 8),
                            (["travel", "miles", 0, 2], 2.5), (["vans", 0, "from"], "08:32"),
                            (["vans", 0, "to"], "16:19"), (["vans", 0, "carries"], []),
                            (["vans", 0, "break"], {"minutes": 30, "between": ["12:00", "13:00"]}),
                            (["calls", 0, "minutes"], 61), (["calls", 0, "van"], "B"),
                            (["calls", 0, "skills"], ["coding"]), (["calls", 0, "windows"], [["08:50", "10:00"]]),
                            (["calls", 0, "windows"], [["08:00", "08:48"]]), (["calls", 0, "needs"], ["starter"] * 2),
                            (["calls", 0, "needs"], []), (["counters", 0, "hours"], [["08:00", "08:45"]]),
                            (["counters", 0, "sells", "starter"], 11900), (["counters", 0, "minutes"], 9)):
            other = copy.deepcopy(day)
            at = other
            for step in path[:-1]:
                at = at[step]
            at[path[-1]] = value
            self.assertNotEqual(Check(other, answer).wrong, [], path)


if __name__ == "__main__":
    tap.main()
