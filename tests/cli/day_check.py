# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""Checks an answer of `halfshaft-cli --json solve` against the day it was asked for, from the words of
data/plan/DAY.md alone: every route is driven again, and every figure is counted again.

    day_check.py DAY.json ANSWER.json

prints what is wrong, one line each, and ends with 1 if anything is."""

import json
import sys
from collections import Counter
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

DAY_SECONDS = 24 * 3600


def scaled(number, scale):
    return int((Decimal(str(number)) * scale).quantize(Decimal(1), ROUND_HALF_UP))


def seconds_of(text):
    parts = [int(part) for part in text.split(":")]
    return parts[0] * 3600 + parts[1] * 60 + (parts[2] if len(parts) > 2 else 0)


def half_up(fraction):
    return (fraction + Fraction(1, 2)).__floor__()


def spans_of(pairs):
    return [tuple(seconds_of(end) for end in pair) for pair in pairs]


class Day:
    """A day in whole seconds, thousandths of a mile and cents."""

    def __init__(self, problem):
        travel = problem["travel"]
        self.drive = [[scaled(cell, 60) for cell in row] for row in travel["minutes"]]
        self.miles = [[scaled(cell, 1000) for cell in row] for row in travel["miles"]]
        self.minute_cents = int(problem["minute_cents"])
        self.mile_cents = int(problem["mile_cents"])
        self.asked = scaled(problem.get("spare_minutes", 0), 60)
        self.vans = {van["id"]: self._van(van) for van in problem["vans"]}
        end_of_day = max([DAY_SECONDS] + [van["to"] for van in self.vans.values()])
        self.calls = {call["id"]: self._call(call, end_of_day) for call in problem["calls"]}
        self.counters = {counter["id"]: self._counter(counter) for counter in problem.get("counters", [])}

    @staticmethod
    def _van(van):
        pause = van.get("break")
        if pause:
            pause = (scaled(pause["minutes"], 60), *(seconds_of(end) for end in pause["between"]))
        return {"start": van["start"], "end": van["end"], "from": seconds_of(van["from"]), "to": seconds_of(van["to"]),
                "carries": Counter(van.get("carries", [])), "skills": set(van.get("skills", [])),
                "break": pause if pause and pause[0] > 0 else None}

    @staticmethod
    def _call(call, end_of_day):
        return {"place": call["place"], "work": scaled(call["minutes"], 60), "needs": list(call.get("needs", [])),
                "windows": spans_of(call["windows"]) if "windows" in call else [(0, end_of_day)],
                "van": call.get("van"), "skills": set(call.get("skills", []))}

    @staticmethod
    def _counter(counter):
        return {"place": counter["place"], "work": scaled(counter["minutes"], 60), "sells": dict(counter["sells"]),
                "hours": spans_of(counter["hours"])}

    def may_serve(self, van, call):
        call = self.calls[call]
        return call["van"] in (None, van) and call["skills"] <= self.vans[van]["skills"]

    def units(self, away_seconds, millimiles, parts_cents):
        """Exact cost in 1/3000 of a cent."""
        return 50 * self.minute_cents * away_seconds + 3 * self.mile_cents * millimiles + 3000 * parts_cents


class Check:
    """One answer; `wrong` lists what is wrong with it, `figures` what it comes to."""

    def __init__(self, problem, answer):
        self.day = Day(problem)
        self.answer = answer
        self.wrong = []
        self.starts = {}
        self.bought_by = {}
        self.late = 0
        self.spare = None
        self.away = self.millimiles = self.homes = self.leaves = 0
        for route in answer["routes"]:
            self._route(route)
        self._parts()
        self._served()
        self._sums()

    def _must(self, held, *words):
        if not held:
            self.wrong.append(" ".join(str(word) for word in words))
        return held

    # One van ----------------------------------------------------------------------------------------------------

    def _route(self, route):
        name = route["van"]
        if not self._must(name in self.day.vans, "no such van:", name):
            return
        van = self.day.vans[name]
        self._must(name not in self.bought_by, name, "has two routes")
        self.bought_by[name] = {}
        self._must(route["stops"], name, "drives without a stop")
        leave, home = seconds_of(route["leave"]), seconds_of(route["home"])
        self._must(van["from"] <= leave <= van["to"], name, "leaves at", route["leave"])
        self._must(home <= van["to"], name, "is home too late:", route["home"])
        now, place, drive, miles, waits = leave, van["start"], 0, 0, 0
        for number, stop in enumerate(route["stops"]):
            where = f"{name} stop {number + 1} ({stop['id']}):"
            rule = self._rule(where, name, stop)
            if rule is None:
                return
            to, work, spans, ends_inside = rule
            leg = self.day.drive[place][to] if to is not None else 0
            drive += leg
            miles += self.day.miles[place][to] if to is not None else 0
            arrive, start, depart = (seconds_of(stop[key]) for key in ("arrive", "start", "depart"))
            self._must(arrive == now + leg, where, "arrives at", stop["arrive"])
            self._must(start >= arrive, where, "starts before it arrives")
            self._must(depart == start + work, where, "departs at", stop["depart"])
            self._slack(where, stop, start, [(a, b - work if ends_inside else b) for a, b in spans])
            self._visit(where, name, number, stop, start)
            waits += start - arrive
            now, place = depart, place if to is None else to
        drive += self.day.drive[place][van["end"]]
        miles += self.day.miles[place][van["end"]]
        self._must(home == now + self.day.drive[place][van["end"]], name, "is home at", route["home"])
        for key, counted in (("drive_minutes", drive), ("wait_minutes", waits)):
            self._must(abs(route[key] * 60 - counted) < 1e-3, name, key, route[key], "counted:", counted / 60)
        self._must(abs(route["miles"] * 1000 - miles) < 1e-3, name, "miles", route["miles"], "counted:", miles / 1000)
        self._break(name, van, route, leave, home)
        self.away += home - leave
        self.millimiles += miles
        self.homes += home
        self.leaves += leave

    def _rule(self, where, name, stop):
        """Where a stop is, how long it takes, in which spans it may start, and whether it has to end there too."""
        kind, day = stop["kind"], self.day
        if kind == "break":
            pause = day.vans[name]["break"]
            self._must(stop["id"] == "break", where, "what is a break called", stop["id"])
            if self._must(pause is not None, where, "this van has no break"):
                return None, pause[0], [pause[1:]], True
        elif kind == "counter" and self._must(stop["id"] in day.counters, where, "no such counter"):
            counter = day.counters[stop["id"]]
            return counter["place"], counter["work"], counter["hours"], True
        elif kind == "call" and self._must(stop["id"] in day.calls, where, "no such call"):
            call = day.calls[stop["id"]]
            return call["place"], call["work"], call["windows"], False
        self._must(kind in ("break", "counter", "call"), where, "what is a", kind)
        return None

    def _slack(self, where, stop, start, spans):
        inside = [b - start for a, b in spans if a <= start <= b]
        last = max((b for a, b in spans), default=0)
        if inside:
            slack = max(inside)
        else:
            slack = last - start
            self._must(stop["kind"] == "call" and start > last, where, "starts outside its spans at", stop["start"])
        self._must(abs(stop["slack_minutes"] * 60 - slack) < 1e-3, where, "slack", stop["slack_minutes"], "counted:",
                   slack / 60)
        if stop["kind"] == "call":
            self.spare = slack if self.spare is None else min(self.spare, slack)
            self.late += max(0, -slack)

    def _visit(self, where, name, number, stop, start):
        if stop["kind"] == "call":
            self._must(stop["id"] not in self.starts, where, "is served twice")
            self._must(self.day.may_serve(name, stop["id"]), where, "is not for this van")
            self.starts[stop["id"]] = (name, number, start)
        if stop["kind"] == "counter":
            self._must(stop["id"] not in self.bought_by[name], where, "is stopped at twice")
            self.bought_by[name][stop["id"]] = number

    def _break(self, name, van, route, leave, home):
        taken = sum(stop["kind"] == "break" for stop in route["stops"])
        self._must(taken <= 1, name, "breaks twice")
        if van["break"] and not taken:
            minutes, start, end = van["break"]
            self._must(leave >= start + minutes or home <= end - minutes, name, "has no break")

    # All vans ---------------------------------------------------------------------------------------------------

    def _parts(self):
        """What was bought fits the call and the way there; the rest was on board."""
        short = {call: Counter(self.day.calls[call]["needs"]) for call in self.starts}
        for row in self.answer["bought"]:
            where = f"bought {row['part']} for {row['call']}:"
            if not self._must(row["call"] in short, where, "is not served"):
                continue
            van, number, _ = self.starts[row["call"]]
            self._must(row["van"] == van, where, "by the wrong van")
            self._must(self.bought_by[van].get(row["counter"], number) < number, where, "not on the way there")
            sells = self.day.counters.get(row["counter"], {"sells": {}})["sells"]
            self._must(sells.get(row["part"]) == row["cents"], where, "price", row["cents"])
            short[row["call"]][row["part"]] -= 1
            self._must(short[row["call"]][row["part"]] >= 0, where, "is not needed")
        used = {van: Counter() for van in self.day.vans}
        for call, parts in short.items():
            used[self.starts[call][0]].update(parts)
        for van, parts in used.items():
            for part, count in parts.items():
                self._must(count <= self.day.vans[van]["carries"][part], van, "needs", count, part, "on board")

    def _served(self):
        answer, calls = self.answer, self.day.calls
        unserved = [row["id"] for row in answer["unserved"]]
        self._must(sorted(unserved) == sorted(set(calls) - set(self.starts)), "unserved:", unserved)
        late = {}
        for call, (_, _, start) in self.starts.items():
            last = max(b for a, b in calls[call]["windows"])
            if start > last:
                late[call] = start - last
        self._must(sorted(row["id"] for row in answer["broken"]) == sorted(late), "broken:",
                   [row["id"] for row in answer["broken"]], "late:", late)
        for row in answer["broken"]:
            self._must(abs(row["late_minutes"] * 60 - late.get(row["id"], 0)) < 1e-3, row["id"], "late",
                       row["late_minutes"])
        for row in answer["broken"] + answer["unserved"]:
            self._must(row["why"], row["id"], "without a why")
        if answer["status"] == "optimal":
            self._must(not late and not unserved, "optimal, but not all are kept")
        elif answer["status"] == "impossible":
            self._must(late or unserved, "impossible, but all are kept")
        else:
            self._must(answer["status"] == "best_found", "status", answer["status"])

    def _sums(self):
        answer = self.answer
        self.units = self.day.units(self.away, self.millimiles, sum(row["cents"] for row in answer["bought"]))
        cents = half_up(Fraction(self.units, 3000))
        self._must(answer["cost_cents"] == cents, "cost", answer["cost_cents"], "counted:", cents)
        self._must(answer["bound_cents"] <= answer["cost_cents"], "bound", answer["bound_cents"], "above the cost")
        if answer["status"] == "optimal":
            self._must(answer["bound_cents"] == answer["cost_cents"], "optimal, but bound", answer["bound_cents"])
        if self.spare is None or answer["spare_minutes"] is None:
            self._must(self.spare is None and answer["spare_minutes"] is None, "spare", answer["spare_minutes"])
        else:
            self._must(abs(answer["spare_minutes"] * 60 - self.spare) < 1e-3, "spare", answer["spare_minutes"],
                       "counted:", self.spare / 60)
        self._must(answer["seconds"] >= 0 and answer["states"] >= 0, "seconds or states")

    def figures(self):
        """What counts, in order, each the less the better: missed, dropped, late seconds, spare short of the asked,
        cost in 1/3000 of a cent, homes, leaves."""
        missed = len(self.answer["unserved"]) + len(self.answer["broken"])
        short = 0 if self.spare is None else max(0, self.day.asked - self.spare)
        return missed, len(self.answer["unserved"]), self.late, short, self.units, self.homes, -self.leaves


def main():
    with open(sys.argv[1], encoding="utf-8") as day, open(sys.argv[2], encoding="utf-8") as answer:
        check = Check(json.load(day), json.load(answer))
    print("\n".join(check.wrong) or "all is right")
    return 1 if check.wrong else 0


if __name__ == "__main__":
    sys.exit(main())
