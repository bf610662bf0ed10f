# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""What may be behind a complaint and what to check next, from the command line."""

import json
import os

import tap
from halfshaft import DemoCase

WORDS = ["proven", "most likely", "possible", "unlikely", "repaired", "ruled out"]

# Two causes of 3 to 1, and one check: low with 0.9 and 0.2.
OWN = {
    "models": [{
        "id": "drains", "group": "drains", "name": "Drains, by hand",
        "causes": [{"id": "a", "prior": 3, "name": "Battery", "source": "counted", "repair": "Replace it"},
                   {"id": "b", "prior": 1, "name": "Belt", "source": "guessed", "repair": "Tighten it"}],
        "repairs": {"a": 20, "b": 30},
        "checks": [{"id": "battery_rest", "minutes": 4, "results": ["low", "fine"], "source": "a book",
                    "from": {"verdicts": {"outside": "low", "watch": "low", "within": "fine"}},
                    "p": {"a": [0.9, 0.1], "b": [0.2, 0.8]}}]}]}


class Next(DemoCase):
    def causes(self, answer):
        return {cause["cause"]: cause for cause in answer["causes"]}

    def test_form(self):
        """{"causes": [{"cause", "weight", "for", "against"}], "checks": [{"check", "expected_minutes"}]}."""
        answer = self.ask("next", "A-0024", "--also", "drains")
        self.assertAlmostEqual(sum(cause["weight"] for cause in answer["causes"]), 1, places=12)
        for cause in answer["causes"]:
            self.assertIn(cause["words"], WORDS)
            self.assertTrue(cause["source"])
            self.assertIsInstance(cause["for"], list)
            self.assertIsInstance(cause["against"], list)
        minutes = [check["expected_minutes"] for check in answer["checks"]]
        self.assertEqual(minutes, sorted(minutes))
        self.assertTrue(all(check["check"] and check["source"] for check in answer["checks"]))
        self.assertLess(minutes[0], answer["list_minutes"])
        self.assertLess(minutes[0], answer["repairs_only_minutes"])

    def test_no_group(self):
        answer = self.ask("next", "A-0024")
        self.assertEqual((answer["causes"], answer["checks"], answer["first"]), ([], [], None))
        self.assertIn("Choose what it does", answer["nothing"])
        self.assertIn("Choose what it does", self.run_cli("next", "A-0024").stdout)

    def test_starter_not_at_fault(self):
        """A-0021: one click; a sound battery and 2.1 V lost on the ground side leave joints, not the starter."""
        self.run_cli("reading", "A-0021", "key_turn", "2")
        start = self.causes(self.ask("next", "A-0021"))
        self.run_cli("reading", "A-0021", "battery_rest", "12.55")
        self.run_cli("reading", "A-0021", "drop_ground", "2.10")
        answer = self.ask("next", "A-0021")
        causes = self.causes(answer)
        self.assertEqual(answer["models"], ["will_not_start_clicks"])
        self.assertLess(causes["starter"]["weight"], start["starter"]["weight"])
        self.assertEqual(causes["starter"]["words"], "unlikely")
        self.assertIn("Ground side drop 2.10 V: large", causes["starter"]["against"])
        self.assertIn("Ground side drop 2.10 V: large", causes["ground"]["for"])
        self.assertNotIn("drop_ground", [check["check"] for check in answer["checks"]])
        text = self.run_cli("next", "A-0021").stdout
        self.assertIn("against: Ground side drop 2.10 V: large", text)
        self.assertNotIn("%", text)

    def test_named_and_ruled_out(self):
        self.run_cli("reading", "A-0021", "key_turn", "2")
        self.run_cli("reading", "A-0021", "drop_ground", "2.10")
        self.assertIn("No reading speaks for “Battery is flat” yet",
                      self.refuse("next", "A-0021", "--is", "battery_flat"))
        answer = self.ask("next", "A-0021", "--is", "ground")
        self.assertEqual(self.causes(answer)["ground"]["standing"], "proven")
        self.assertEqual(answer["first"], "repair ground")
        answer = self.ask("next", "A-0021", "--not", "starter", "--seen", "spins on the bench")
        self.assertEqual(self.causes(answer)["starter"]["standing"], "ruled_out")
        chain = self.ask("because", "A-0021")
        self.assertEqual([(link["by"], link["ruled_out"]) for link in chain["links"]],
                         [("reading", False), ("seen", True)])

    def test_several_symptoms(self):
        self.run_cli("next", "A-0024", "--also", "drains")
        answer = self.ask("next", "A-0024", "--also", "charging_lamp")
        self.assertEqual((answer["group"], answer["groups"]), ("charging_lamp", ["drains", "charging_lamp"]))
        self.assertEqual(self.ask("next", "A-0024")["group"], "drains")
        self.assertEqual(self.ask("next", "A-0024", "--group", "charging_lamp")["models"], ["charging_lamp"])
        self.assertIn("--group charging_lamp", self.run_cli("next", "A-0024").stdout)
        self.assertIn("is a complaint of this job already", self.refuse("next", "A-0024", "--also", "drains"))

    def test_power(self):
        self.run_cli("next", "A-0022", "--also", "everything_dead")
        self.run_cli("reading", "A-0022", "drop_joint", "*", "--why-not", "no power yet")
        answer = self.ask("next", "A-0022")
        self.assertNotIn("drop_joint", [check["check"] for check in answer["checks"]])
        self.assertEqual([offer["check"] for offer in answer["offers"]], ["power_back"])
        self.run_cli("reading", "A-0022", "power_back", "1", "--phase", "during")
        answer = self.ask("next", "A-0022")
        self.assertEqual([offer["check"] for offer in answer["offers"]], ["drop_joint", "walk_round"])
        again = {check["check"]: check["again"] for check in answer["checks"]}
        self.assertTrue(again["drop_joint"])
        self.assertIn("there is power again", self.run_cli("next", "A-0022").stdout)

    def test_story_20(self):
        """0.31 A are 3.2 days; the cover ended 17 days ago, and replacing it for 211.01 would not cure it."""
        self.run_cli("next", "A-0024", "--also", "drains")
        self.assertIn("3.2 days to no-start", self.run_cli("reading", "A-0024", "sleeping_draw", "0.31").stdout)
        battery = self.ask("next", "A-0024")["battery"]
        self.assertIn("cover ended 17 days ago", battery)
        self.assertIn("Replacing it (211.01) would not cure a draw of 0.310 A (3.2 days to no-start)", battery)
        self.assertIn(battery, self.run_cli("next", "A-0024").stdout)
        self.assertIn("41.7 days", self.run_cli("reading", "A-0024", "sleeping_draw", "0.024").stdout)
        self.assertIsNone(self.ask("next", "A-0024")["battery"])

    def test_own_models(self):
        self.write("causes.json", json.dumps(OWN))
        answer = self.ask("next", "A-0024", "--also", "drains")
        self.assertEqual(answer["name"], "Drains, by hand")
        self.assertEqual([(cause["cause"], cause["weight"]) for cause in answer["causes"]], [("a", 0.75), ("b", 0.25)])
        # 4 and: low with 0.725, a first; fine with 0.275, b first: 4 + 14.5 + 1.5 + 8.25 + 1.5
        self.assertAlmostEqual(answer["checks"][0]["expected_minutes"], 29.75, places=9)
        self.assertEqual(answer["first"], "repair a")
        self.assertAlmostEqual(answer["repairs"][0]["expected_minutes"], 27.5, places=9)

    def test_own_models_with_a_slip(self):
        OWN_BAD = json.loads(json.dumps(OWN))
        OWN_BAD["models"][0]["checks"][0]["p"]["b"] = [0.2, 0.7]
        path = self.write("causes.json", json.dumps(OWN_BAD))
        answer = self.ask("next", "A-0024", "--also", "drains")
        self.assertEqual(answer["name"], "Drains overnight")
        self.assertIn("models[0].checks[0].p.b", answer["trouble"])
        self.assertIn(os.path.basename(path), self.run_cli("next", "A-0024").stdout)

    def test_asked_wrongly(self):
        self.refuse("next", status=2)
        self.refuse("next", "A-0021", "A-0022", status=2)
        self.assertIn("--is or --not", self.refuse("next", "A-0021", "--is", "a", "--not", "b", status=2))
        self.assertIn("--seen", self.refuse("next", "A-0021", "--seen", "x", status=2))
        self.assertIn("There is no complaint group “wobbles”", self.refuse("next", "A-0021", "--group", "wobbles"))
        self.assertIn("There is no complaint group “wobbles”", self.refuse("next", "A-0021", "--also", "wobbles"))
        self.refuse("next", "A-9999")

    def test_reading_the_book_is_enough(self):
        before = self.read_bytes()
        self.ask("next", "A-0013")
        self.assertEqual(self.read_bytes(), before)


if __name__ == "__main__":
    tap.main()
