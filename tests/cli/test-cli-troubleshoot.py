#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""`troubleshoot`: worked models with exact answers (each names its source), the tree it prints, and what it refuses."""

import json
import math
import os
from fractions import Fraction

import tap
from halfshaft import BookCase

here = os.path.dirname(os.path.abspath(__file__))
with open(os.path.join(here, "troubleshoot-models.json"), encoding="utf-8") as file:
    WORKED = json.load(file)

GOOD = WORKED[4]["model"]


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

    def test_text(self):
        lines = self.run_cli("troubleshoot", self.model(GOOD)).stdout.splitlines()
        assert lines[1].split() == ["70.0", "check", "k1"], lines
        assert lines[-1].split()[0] == "84.0", lines

    def test_refused(self):
        rows = [
            ("", "the model"),
            ("[]", "the model: must be an object"),
            ('{"causes":[]', "the model"),
            (changed(lambda m: m.update(color="red")), "color: is not a key that the model has"),
            (changed(lambda m: m.pop("causes")), "causes: is missing"),
            (changed(lambda m: m.update(causes=[])), "causes: is empty"),
            (changed(lambda m: m["causes"][1].update(id="c1")), "causes[1].id: “c1” is there twice"),
            (changed(lambda m: m["causes"][1].update(id="")), "causes[1].id: is empty"),
            (changed(lambda m: m["causes"][0].update(prior=-1)), "causes[0].prior: is below zero"),
            (changed(lambda m: m["causes"][0].update(prior="1")), "causes[0].prior: must be a number"),
            (changed(lambda m: [c.update(prior=0) for c in m["causes"]]), "causes: there must be 1 to 32"),
            (changed(lambda m: m["repairs"].pop("c2")), "repairs: says nothing of “c2”"),
            (changed(lambda m: m["repairs"].update(c9=3)), "repairs: “c9” is none of the causes"),
            (changed(lambda m: m["repairs"].update(c1=1e9)), "repairs.c1"),
            (changed(lambda m: m["checks"][0].update(minutes=None)), "checks[0].minutes: must be a number"),
            (changed(lambda m: m["checks"][0].update(results=["ok"])), "checks[0].p.c1: has 2 chances for 1 results"),
            (changed(lambda m: m["checks"][0].update(results=["ok", "ok"])), "results[1]: “ok” is there twice"),
            (changed(lambda m: m["checks"][0]["p"].update(c1=[0.5, 0.4])), "p.c1: the chances of one cause must sum to 1"),
            (changed(lambda m: m["checks"][0]["p"].update(c1=[1.5, -0.5])), "checks[0].p.c1[1]: is below zero"),
            (changed(lambda m: m["checks"][0]["p"].pop("c2")), "checks[0].p: says nothing of “c2”"),
            (changed(lambda m: m["checks"].append(m["checks"][0])), "checks[1].id: “k1” is there twice"),
            ('{"causes":' + "[" * 4000, "is nested too deeply"),
            (json.dumps(GOOD).replace("0.6", "1e999"), "causes[0].prior"),
        ]
        for model, words in rows:
            error = self.refuse("troubleshoot", self.model(model))
            assert words in error and "\n" not in error.strip(), (words, error)

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


if __name__ == "__main__":
    tap.main()
