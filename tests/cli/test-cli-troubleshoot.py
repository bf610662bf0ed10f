#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""`troubleshoot`: worked models with exact answers (each names its source), the tree it prints, and what it refuses."""

import json
import math
import os
import unittest
from fractions import Fraction

import tap
from halfshaft import BookCase

try:
    import jsonschema
except ImportError:
    jsonschema = None

here = os.path.dirname(os.path.abspath(__file__))
with open(os.path.join(here, "troubleshoot-models.json"), encoding="utf-8") as file:
    WORKED = json.load(file)

GOOD = WORKED[4]["model"]

FOLDER = os.path.dirname(os.environ["HS_CAUSES_SCHEMA"])
SHIPPED = []
for name in sorted(os.listdir(FOLDER)):
    if name.endswith(".json") and "schema" not in name:
        with open(os.path.join(FOLDER, name), encoding="utf-8") as file:
            SHIPPED.append(json.load(file))


def close(a, b):
    return math.isclose(float(a), float(b), rel_tol=1e-9, abs_tol=1e-9)


def follow(model, policy, left, results):
    """The exact minutes of doing what the tree says, from the model alone."""
    def weight(cause, results):
        w = Fraction(str(cause["prior"]))
        for check, result in results.items():
            w *= Fraction(str(check_of[check]["p"][cause["id"]][check_of[check]["results"].index(result)]))
        return w

    check_of = {check["id"]: check for check in model["checks"]}
    total = sum(weight(c, results) for c in model["causes"] if c["id"] in left)
    kind, name = policy["do"].split(" ", 1)
    if kind == "repair":
        minutes = Fraction(str(model["repairs"][name]))
        rest = left - {name}
        chance = sum(weight(c, results) for c in model["causes"] if c["id"] in rest) / total
        assert name in left and (chance > 0) == ("if_not_fixed" in policy), policy
        if chance > 0:
            minutes += chance * follow(model, policy["if_not_fixed"], rest, results)
    else:
        assert name not in results, policy
        minutes = Fraction(str(check_of[name]["minutes"]))
        for result in check_of[name]["results"]:
            after = dict(results, **{name: result})
            chance = sum(weight(c, after) for c in model["causes"] if c["id"] in left) / total
            assert (chance > 0) == (result in policy["then"]), policy
            if chance > 0:
                assert close(policy["then"][result]["p"], chance), policy
                minutes += chance * follow(model, policy["then"][result], left, after)
    assert close(policy["expected"], minutes), (policy["expected"], minutes)
    return minutes


def changed(change):
    model = json.loads(json.dumps(GOOD))
    change(model)
    return model


# The model, what is said of it, and whether the schema refuses it as well.
REFUSED = [
    ("", "the model", True),
    ("[]", "the model: must be an object", True),
    ('{"causes":[]', "the model", True),
    (json.dumps(GOOD)[:-1] + ',"causes":[]}', "causes", True),
    (json.dumps(GOOD).replace("0.6", "NaN"), "causes[0].prior", True),
    (json.dumps(GOOD).replace("0.6", "1e999"), "causes[0].prior", True),
    ('{"causes":' + "[" * 4000, "is nested too deeply", True),
    (json.dumps(GOOD) + " " * 8_000_000, "more than the 8000000 that a model may have", True),
    (changed(lambda m: m.update(color="red")), "color: is not a key that a model has", True),
    (changed(lambda m: m.pop("causes")), "causes: is missing", True),
    (changed(lambda m: m.update(causes=[])), "causes: is empty", True),
    (changed(lambda m: m.update(causes={})), "causes: must be a list", True),
    (changed(lambda m: m["causes"].append("c3")), "causes[2]: must be an object", True),
    (changed(lambda m: m["causes"][1].update(id="c1")), "causes[1].id: “c1” is there twice", False),
    (changed(lambda m: m["causes"][1].update(id="")), "causes[1].id: is empty", True),
    (changed(lambda m: m["causes"][1].update(id=2)), "causes[1].id: must be a text", True),
    (changed(lambda m: m["causes"][0].update(prior=-1)), "causes[0].prior: is below zero", True),
    (changed(lambda m: m["causes"][0].update(prior="1")), "causes[0].prior: must be a number", True),
    (changed(lambda m: m["causes"][0].update(prior=1e16)), "causes[0].prior: is too large", True),
    (changed(lambda m: m["causes"][0].pop("prior")), "causes[0].prior: is missing", True),
    (changed(lambda m: [c.update(prior=0) for c in m["causes"]]), "causes: there must be 1 to 32", False),
    (changed(lambda m: m.pop("repairs")), "repairs: is missing", True),
    (changed(lambda m: m["repairs"].pop("c2")), "repairs: says nothing of “c2”", False),
    (changed(lambda m: m["repairs"].update(c9=3)), "repairs: “c9” is none of the causes", False),
    (changed(lambda m: m["repairs"].update(c1=1e9)), "repairs.c1: the minutes must be", True),
    (changed(lambda m: m["repairs"].update(c1=True)), "repairs.c1: must be a number", True),
    (changed(lambda m: m["checks"][0].update(minutes=None)), "checks[0].minutes: must be a number", True),
    (changed(lambda m: m["checks"][0].update(minutes=527041)), "checks[0].minutes: must be a number from 0", True),
    (changed(lambda m: m["checks"][0].pop("results")), "checks[0].results: is missing", True),
    (changed(lambda m: m["checks"][0].update(results=["ok"])), "checks[0].p.c1: has 2 chances for 1 results", True),
    (changed(lambda m: m["checks"][0].update(results=["ok", 2])), "checks[0].results[1]: must be a text", True),
    (changed(lambda m: m["checks"][0].update(results=["ok", "ok"])), "checks[0].results[1]: “ok” is there twice", True),
    (changed(lambda m: m["checks"][0]["p"].update(c1=[0.5, 0.4])),
     "checks[0].p.c1: the chances of one cause must sum to 1", False),
    (changed(lambda m: m["checks"][0]["p"].update(c1=[0.5, 0.50001])),
     "checks[0].p.c1: the chances of one cause must sum to 1, not 1.00001", False),
    (changed(lambda m: m["checks"][0].update(results=list("abcdefghijklmnopq"))),
     "checks[0].results: has 17; a check has 2 to 15", True),
    (changed(lambda m: m.update(checks=[{"id": "k", "minutes": 1, "results": ["x"] * 500_000, "p": {}}])),
     "checks[0].results: has 500000; a check has 2 to 15", True),
    (changed(lambda m: m.update(causes=[{"id": f"c{i}", "prior": 1} for i in range(50_000)])),
     "causes: has more than 256 entries", True),
    (json.dumps(GOOD).replace('"k1"', "9" * 400), "checks[0].id: line 1: is too large", True),
    (changed(lambda m: m["checks"][0]["p"].update(c1=[1, 1])),
     "checks[0].p.c1: the chances of one cause must sum to 1, not 2", False),
    (changed(lambda m: m["checks"][0].pop("p")), "checks[0].p: is missing", True),
    (changed(lambda m: m["checks"][0].pop("id")), "checks[0].id: is missing", True),
    (changed(lambda m: m["checks"][0].pop("minutes")), "checks[0].minutes: is missing", True),
    (changed(lambda m: m["causes"][0].pop("id")), "causes[0].id: is missing", True),
    (changed(lambda m: m["checks"][0]["p"].update(c1=[1.5, -0.5])), "checks[0].p.c1[0]: is above 1", True),
    (changed(lambda m: m["checks"][0]["p"].update(c1=[-0.5, 1.5])), "checks[0].p.c1[0]: is below zero", True),
    (changed(lambda m: m["checks"][0]["p"].update(c1=[1])), "checks[0].p.c1: has 1 chances for 2 results", True),
    (changed(lambda m: m["checks"][0]["p"].update(c9=[1, 0])), "checks[0].p: “c9” is none of the causes", False),
    (changed(lambda m: m["checks"][0]["p"].pop("c2")), "checks[0].p: says nothing of “c2”", False),
    (changed(lambda m: m.update(id=5)), "id: must be a text", True),
    (changed(lambda m: m["causes"][0].update(cents=1.5)), "causes[0].cents: must be whole cents", True),
    (changed(lambda m: m["checks"][0].update({"from": {}})), "checks[0].from: needs verdicts", True),
    (changed(lambda m: m["checks"][0].update({"from": {"cuts": [1, 2]}})),
     "checks[0].from.cuts: has 2 numbers between 2 results", False),
    (changed(lambda m: m["checks"][0].update({"from": {"verdicts": {"cannot_tell": None}}})),
     "checks[0].from.verdicts.cannot_tell: is not within", True),
    (changed(lambda m: m["checks"].append(m["checks"][0])), "checks[1].id: “k1” is there twice", False),
    (changed(lambda m: m.update(causes=m["causes"] + [{"id": "c3", "prior": 0}], repairs={**m["repairs"], "c3": 1})),
     "checks[0].p: says nothing of “c3”", False),
]


class Troubleshoot(BookCase):
    def model(self, model):
        return self.write("model.json", model if isinstance(model, str) else json.dumps(model))

    def test_worked(self):
        for one in WORKED:
            answer = self.ask("troubleshoot", self.model(one["model"]))
            expect = one["expect"]
            assert answer["exact"] is True, one["name"]
            assert close(answer["optimal_minutes"], Fraction(expect["optimal_minutes"])), one["name"]
            assert answer["first"] in expect["optimal_first"], (one["name"], answer["first"])
            assert len(answer["actions"]) == len(expect["actions"]), one["name"]
            for action in answer["actions"]:
                assert close(action["minutes"], expect["actions"][action["do"]]), (one["name"], action)
            assert close(answer["repairs_only_minutes"], Fraction(expect["repairs_only_minutes"])), one["name"]
            assert answer["repairs_only_order"] == expect["repairs_only_order"], one["name"]
            causes = {cause["id"] for cause in one["model"]["causes"] if cause["prior"] > 0}
            assert close(follow(one["model"], answer["policy"], causes, {}), answer["optimal_minutes"]), one["name"]

    def test_nearly_equal(self):
        """A repair stands before a check that is better by less than what counts; the least is the least all the same.
        Repairs 100 + 0.5 × 100, the check 50 less 0.8e-9, and 100."""
        answer = self.ask("troubleshoot", self.model({
            "causes": [{"id": "c1", "prior": 0.5}, {"id": "c2", "prior": 0.5}], "repairs": {"c1": 100, "c2": 100},
            "checks": [{"id": "k1", "minutes": 49.9999999992, "results": ["yes", "no"],
                        "p": {"c1": [1, 0], "c2": [0, 1]}}]}))
        assert answer["first"] == "repair c1", answer["first"]
        assert abs(answer["optimal_minutes"] - 149.9999999992) < 1e-12, answer["optimal_minutes"]

    def test_text(self):
        """A check of 10 minutes that tells for sure, repairs of 60: 10 + 60, 60 + 0.4 × 60; the list is the check."""
        lines = self.run_cli("troubleshoot", self.model(GOOD)).stdout.splitlines()
        assert lines[1].split() == ["70.0", "check", "k1"], lines
        assert lines[-2].split()[0] == "84.0", lines
        assert lines[-1].split()[0] == "70.0", lines
        assert close(self.ask("troubleshoot", self.model(GOOD))["list_minutes"], 70)

    def test_refused(self):
        for model, words, _ in REFUSED:
            error = self.refuse("troubleshoot", self.model(model))
            assert words in error and "\n" not in error.strip(), (words, error)

    @unittest.skipUnless(jsonschema, "python3-jsonschema is not installed")
    def test_schema(self):
        """The schema refuses what a schema can, and takes all that is taken."""
        with open(os.environ["HS_CAUSES_SCHEMA"], encoding="utf-8") as file:
            schema = json.load(file)
        jsonschema.Draft202012Validator.check_schema(schema)
        validator = jsonschema.Draft202012Validator(schema)
        for model, words, structural in REFUSED:
            if not isinstance(model, str):
                assert validator.is_valid(model) != structural, words
        for model in SHIPPED:
            assert [error.message for error in validator.iter_errors(model)] == [], model["id"]
        for one in WORKED:
            assert [error.message for error in validator.iter_errors(one["model"])] == [], one["name"]

    def test_shipped(self):
        """The models of the window are models for the command, words and all; following the tree beats the list."""
        assert len(SHIPPED) == 9
        for model in SHIPPED:
            answer = self.ask("troubleshoot", self.model(model))
            assert answer["actions"][0]["do"] == answer["first"], model["id"]
            assert answer["list_minutes"] > 0, model["id"]
            if answer["policy"] is not None:
                causes = {cause["id"] for cause in model["causes"]}
                assert float(follow(model, answer["policy"], causes, {})) <= answer["list_minutes"] + 1e-9, model["id"]

    def test_large(self):
        """Twenty causes and twenty checks are answered by the rule, in bounded time, and it says so."""
        causes = [{"id": f"c{i}", "prior": 1 + i} for i in range(20)]
        checks = [{"id": f"k{k}", "minutes": 3, "results": ["yes", "no"],
                   "p": {f"c{i}": [0.9, 0.1] if (i * 7 + k * 3) % 5 < 2 else [0.2, 0.8] for i in range(20)}}
                  for k in range(20)]
        model = {"causes": causes, "repairs": {f"c{i}": 20 + i for i in range(20)}, "checks": checks}
        answer = self.ask("troubleshoot", self.model(model))
        assert answer["exact"] is False and answer["optimal_minutes"] is None
        assert answer["first"] == answer["actions"][0]["do"] and len(answer["actions"]) == 40
        assert answer["actions"][0]["minutes"] < answer["repairs_only_minutes"]
        assert answer["list_minutes"] is None


if __name__ == "__main__":
    tap.main()
