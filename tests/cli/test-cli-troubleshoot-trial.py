#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""`troubleshoot` against a trial of everything, written from the formula in MODEL.md: small random models of all shapes
have their least minutes found, by every first step, and the tree that is printed costs just that.

HS_TRIALS=2000 tries that many instead of the usual few; HS_SEED=N begins elsewhere."""

import collections
import itertools
import json
import math
import os
import random

import tap
from halfshaft import BookCase

TRIALS = int(os.environ.get("HS_TRIALS", "150"))
SEED = int(os.environ.get("HS_SEED", "20260"))
# States that the trial may need: all results and none of each check, times the causes that may be left.
MOST_STATES = 12000


def close(a, b):
    return math.isclose(a, b, rel_tol=1e-9, abs_tol=1e-9)


def row_of(rand, shape, n):
    """The chances of one cause."""
    if shape == "certain":
        return [float(i == at) for at in [rand.randrange(n)] for i in range(n)]
    if shape == "even":
        return [1 / n] * n
    numbers = [rand.choice([0, 0, 1, 1, 2, 5]) if shape == "holes" else rand.random() ** 3 for _ in range(n)]
    if sum(numbers) == 0:
        numbers[rand.randrange(n)] = 1
    return [number / sum(numbers) for number in numbers]


def split(rand, rows):
    """Each result cut into several that tell the same."""
    cuts = [[part / sum(parts) for part in parts]
            for parts in ([rand.randint(1, 3) for _ in range(rand.randint(1, 3))] for _ in rows[0])]
    return [[chance * part for chance, parts in zip(row, cuts) for part in parts] for row in rows]


def check_of(rand, number, causes, shape):
    n = rand.choice([2, 2, 2, 3, 3, 4, 5, 8])
    rows = [row_of(rand, shape if shape != "mixed" else rand.choice(["certain", "noisy", "holes"]), n) for _ in causes]
    if rand.random() < 0.2:
        rows = split(rand, rows)
    if len(rows[0]) > 15:
        return check_of(rand, number, causes, shape)
    return {"id": f"k{number}", "minutes": rand.choice([0, 1, 1, 2, 5, 5, 10, 20, round(rand.uniform(0, 25), 3)]),
            "results": [f"r{i}" for i in range(len(rows[0]))], "p": dict(zip((c["id"] for c in causes), rows))}


def model_of(rand):
    n_causes, n_checks = rand.randint(1, 6), rand.randint(0, 6)
    shape = rand.choice(["certain", "noisy", "noisy", "holes", "even", "mixed", "mixed"])
    tied = rand.random() < 0.3
    causes = [{"id": f"c{i}", "prior": rand.choice([0, 1, 1, 2, 3]) if tied else rand.uniform(0.01, 1)}
              for i in range(n_causes)]
    causes[rand.randrange(n_causes)]["prior"] = 1
    repairs = {c["id"]: 10 * c["prior"] if tied and c["prior"] and rand.random() < 0.5  # equal ratios
               else rand.choice([0, 5, 10, 10, 60, round(rand.uniform(1, 120), 2)]) for c in causes}
    checks = [check_of(rand, k, causes, shape) for k in range(n_checks)]
    for k, check in enumerate(checks):
        if k > 0 and rand.random() < 0.15:
            checks[k] = dict(checks[k - 1], id=check["id"])
    while math.prod(len(check["results"]) + 1 for check in checks) << n_causes > MOST_STATES:
        checks.pop()
    return {"causes": causes, "repairs": repairs, "checks": checks}


class Everything:
    """The formula of MODEL.md, tried in full on beliefs that sum to 1."""

    def __init__(self, model):
        self.causes = [c for c in model["causes"] if c["prior"] > 0]
        self.repairs = [model["repairs"][c["id"]] for c in self.causes]
        self.minutes = [check["minutes"] for check in model["checks"]]
        self.columns = [[[check["p"][c["id"]][r] for c in self.causes] for r in range(len(check["results"]))]
                        for check in model["checks"]]
        total = math.fsum(c["prior"] for c in self.causes)
        self.start = tuple(c["prior"] / total for c in self.causes), (None,) * len(self.minutes)
        self.known = {}

    def without(self, beliefs, cause):
        rest = [0 if i == cause else b for i, b in enumerate(beliefs)]
        chance = math.fsum(rest)
        return chance, tuple(b / chance for b in rest) if chance > 0 else None

    def after(self, beliefs, check, result):
        joint = [b * p for b, p in zip(beliefs, self.columns[check][result])]
        chance = math.fsum(joint)
        return chance, tuple(b / chance for b in joint) if chance > 0 else None

    def steps(self, beliefs, results):
        """The minutes of each first step, and the best afterwards."""
        for cause, belief in enumerate(beliefs):
            if belief > 0:
                chance, rest = self.without(beliefs, cause)
                yield ("repair", cause), self.repairs[cause] + (chance * self.least(rest, results) if rest else 0)
        for check, done in enumerate(results):
            if done is None:
                minutes = [self.minutes[check]]
                for result in range(len(self.columns[check])):
                    chance, rest = self.after(beliefs, check, result)
                    if rest:
                        then = results[:check] + (result,) + results[check + 1:]
                        minutes.append(chance * self.least(rest, then))
                yield ("check", check), math.fsum(minutes)

    def least(self, beliefs, results):
        key = tuple(b > 0 for b in beliefs), results
        if key not in self.known:
            self.known[key] = min(minutes for _, minutes in self.steps(beliefs, results))
        return self.known[key]

    def alone(self):
        """Repairs without any check, in every order."""
        def cost(order):
            return math.fsum(self.repairs[c] * math.fsum(self.start[0][later] for later in order[at:])
                             for at, c in enumerate(order))
        return min(cost(order) for order in itertools.permutations(range(len(self.causes))))


class Trial(BookCase):
    def follow(self, model, everything, policy, beliefs, results):
        """What the tree costs, by the beliefs of the trial."""
        kind, name = policy["do"].split(" ")
        if kind == "repair":
            cause = [c["id"] for c in everything.causes].index(name)
            assert beliefs[cause] > 0, policy
            chance, rest = everything.without(beliefs, cause)
            assert ("if_not_fixed" in policy) == bool(rest), policy
            return everything.repairs[cause] + (
                chance * self.follow(model, everything, policy["if_not_fixed"], rest, results) if rest else 0)
        check = [c["id"] for c in model["checks"]].index(name)
        assert results[check] is None, policy
        minutes = everything.minutes[check]
        for result, word in enumerate(model["checks"][check]["results"]):
            chance, rest = everything.after(beliefs, check, result)
            assert (word in policy["then"]) == bool(rest), policy
            if rest:
                then = results[:check] + (result,) + results[check + 1:]
                assert close(policy["then"][word]["p"], chance), policy
                minutes += chance * self.follow(model, everything, policy["then"][word], rest, then)
        return minutes

    def compare(self, model):
        answer = self.ask("troubleshoot", self.write("model.json", json.dumps(model)))
        everything = Everything(model)
        names = {"repair": [c["id"] for c in everything.causes], "check": [c["id"] for c in model["checks"]]}
        tried = {f"{kind} {names[kind][at]}": minutes for (kind, at), minutes in everything.steps(*everything.start)}
        least = min(tried.values())

        assert answer["exact"] is True
        assert {one["do"] for one in answer["actions"]} == set(tried)
        for one in answer["actions"]:
            assert close(one["minutes"], tried[one["do"]]), (one, tried)
        assert close(answer["optimal_minutes"], least), (answer["optimal_minutes"], least)
        assert tried[answer["first"]] <= least + 2e-9 * (1 + least), (answer["first"], tried)
        assert close(answer["repairs_only_minutes"], everything.alone())
        if answer["policy"] is not None:
            assert close(self.follow(model, everything, answer["policy"], *everything.start), least)
        return answer

    def test_trial(self):
        rand = random.Random(SEED)
        shapes = collections.Counter()
        for number in range(TRIALS):
            model = model_of(rand)
            try:
                answer = self.compare(model)
            except AssertionError as error:
                raise AssertionError(f"seed {SEED}, model {number}: {error}\n{json.dumps(model)}") from error
            shapes["a check first"] += answer["first"].startswith("check")
            shapes["no checks"] += not model["checks"]
            shapes["one cause"] += len([c for c in model["causes"] if c["prior"] > 0]) == 1
            shapes["free check"] += any(c["minutes"] == 0 for c in model["checks"])
            shapes["free repair"] += 0 in model["repairs"].values()
            shapes["five results or more"] += any(len(c["results"]) > 4 for c in model["checks"])
            shapes["same check twice"] += any(a["p"] == b["p"] and a["minutes"] == b["minutes"]
                                              for a, b in itertools.combinations(model["checks"], 2))
            shapes["tree"] += answer["policy"] is not None
            shapes["two first steps alike"] += len(answer["actions"]) > 1 and close(answer["actions"][0]["minutes"],
                                                                                   answer["actions"][1]["minutes"])
        print("#", TRIALS, "models:", dict(shapes))
        assert all(shapes[word] >= TRIALS // 75 for word in shapes), shapes
        assert len(shapes) == 9

    def test_many_results(self):
        """Six causes and six checks of eight noisy results: more states than any table holds is no reason to guess. The
        trial would need hours; the same model with checks of which each result is a third of one of another has to cost
        the same, and what the checks tell must not be worth less than nothing."""
        rand = random.Random(SEED)
        causes = [{"id": f"c{i}", "prior": rand.uniform(0.5, 1)} for i in range(6)]
        model = {"causes": causes, "repairs": {c["id"]: rand.uniform(20, 120) for c in causes}, "checks": [
            {"id": f"k{k}", "minutes": rand.uniform(6, 12), "results": [f"r{r}" for r in range(5)],
             "p": {c["id"]: row_of(rand, "noisy", 5) for c in causes}} for k in range(6)]}
        thirds = json.loads(json.dumps(model))
        for check in thirds["checks"]:
            check["results"] = [f"{word}.{part}" for word in check["results"] for part in "abc"]
            check["p"] = {cause: [chance / 3 for chance in row for _ in "abc"] for cause, row in check["p"].items()}
        one, other = (self.ask("troubleshoot", self.write("model.json", json.dumps(each))) for each in (model, thirds))
        assert one["exact"] is True and other["exact"] is True
        assert one["first"] == other["first"]
        for a, b in zip(one["actions"], other["actions"]):
            assert a["do"] == b["do"] and close(a["minutes"], b["minutes"]), (a, b)
        assert one["optimal_minutes"] < one["repairs_only_minutes"]


if __name__ == "__main__":
    tap.main()
