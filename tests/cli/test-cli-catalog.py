# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""The list of checks, edited by a person who knows no C: a file beside the book adds a working check, changes a limit
in the open, and is refused by section and key where it is wrong."""

import os

import tap
from halfshaft import DemoCase

SHIPPED = os.environ["HS_CHECKS_INI"]

SMOKE = """
[check smoke]
name=Exhaust smoke
hint=warm, at idle
how=Warm engine at idle. Hold the card behind the tailpipe and type the number of the gray.
unit=gray
decimals=0
least=0
most=9

[limit smoke any]
bands=within 2 watch 4 outside
why1=It burns clean.
word2=sooty
why2=It begins to soot.
next2=Look at the air filter.
then2=trouble_codes
why3=It soots.
next3=Air filter, then injectors.
source=Card of the county garage, 2024
tag=common practice

[group smokes]
name=Smokes
checks=smoke; trouble_codes
"""

COLD = """
[limit charging county]
when=temperature:..0
bands=outside 13.80 within 15.20 outside
why1=Too low for the cold.
next1=Belt first.
why2=It charges.
why3=Too high.
next3=Regulator.
source=County garage
tag=common practice
"""


class Catalog(DemoCase):
    def lay(self, text):
        return self.write("checks.ini", text)

    def catalog(self):
        return self.ask("check")["catalog"]

    def shipped(self):
        with open(SHIPPED, encoding="utf-8") as file:
            return file.read()

    def test_as_it_is_built_in(self):
        self.assertEqual(self.catalog(), {"file": None, "in_use": False, "trouble": None, "changes": []})
        self.assertIn("as it is built in", self.run_cli("check").stdout)
        self.assertIn("no check “smoke”", self.refuse("check", "smoke", "3"))

    def test_a_person_who_knows_no_c_adds_a_working_check(self):
        path = self.lay(self.shipped() + SMOKE)
        self.assertEqual(self.catalog(), {
            "file": path, "in_use": True, "trouble": None,
            "changes": ["added [check smoke]", "added [limit smoke any]", "added [group smokes]"]})
        for value, verdict, word in (("2", "within", "within"), ("3", "watch", "sooty"), ("5", "outside", "outside")):
            found = self.ask("check", "smoke", value)
            self.assertEqual((found["verdict"], found["word"]), (verdict, word))
        found = self.ask("reading", "A-0022", "smoke", "3")
        self.assertEqual((found["text"], found["then"], found["sure"]),
                         ("3 gray", ["trouble_codes"], "common practice"))
        self.assertEqual(found["source"], "Card of the county garage, 2024 (from checks.ini)")
        self.assertIn("Exhaust smoke", self.run_cli("job", "A-0022").stdout)
        self.assertEqual(self.ask("limit", "TDM 4409", "smoke", "high=1", "--source", "new car")[0]["high"], 1)

    def test_only_what_is_new_will_do(self):
        self.lay(SMOKE)
        self.assertEqual(self.ask("check", "smoke", "5")["verdict"], "outside")
        self.assertEqual(self.ask("check", "charging", "14.20")["verdict"], "within")

    def test_a_changed_limit_is_said(self):
        before = self.ask("check", "charging_output", "84 of 100")
        self.lay("[limit charging_output rated]\nbands=outside 80.0 within\nwhy1=Low.\nnext1=Belt.\nwhy2=Good.\n"
                 "source=County garage\ntag=common practice\n")
        after = self.ask("check", "charging_output", "84 of 100")
        self.assertEqual((before["verdict"], after["verdict"]), ("outside", "within"))
        self.assertEqual(after["source"], "County garage (from checks.ini)")
        self.assertEqual(self.catalog()["changes"], ["changed [limit charging_output rated]"])
        self.assertIn("changed [limit charging_output rated]", self.run_cli("check").stdout)

    def test_a_new_limit_does_not_unseat_what_makes_a_test_valid(self):
        self.lay(COLD)
        job = ("reading", "A-0022", "charging", "13.60", "--conditions")
        self.assertEqual(self.ask(*job, "temperature:-5")["verdict"], "outside")
        self.assertEqual(self.ask(*job, "temperature:5")["verdict"], "within")
        self.assertEqual(self.ask(*job, "temperature:-5; engine:off")["word"], "not running")

    def test_what_is_left_out_stays(self):
        self.lay("[check charging]\n" + self.shipped().split("[check charging]\n")[1].split("\n\n")[0] + "\n")
        self.assertEqual(self.catalog()["changes"], [])
        self.assertEqual(self.ask("check", "charging", "12.4")["verdict"], "outside")

    def test_a_bad_file_is_refused_by_section_and_key(self):
        for text, said in (
                (SMOKE.replace("source=Card of the county garage, 2024\n", ""), "[limit smoke any] there must be a line"
                 " “source=”"),
                (SMOKE.replace("tag=common practice", "tag=gospel"), "[limit smoke any] “tag” must be"),
                (SMOKE.replace("how=Warm", "hwo=Warm"), "[check smoke] “hwo” means nothing here"),
                (SMOKE.replace("then2=trouble_codes", "then2=codes"), "“then2”: there is no [check codes]"),
                (SMOKE + SMOKE, "stands twice"),
                ("[check charging]\nname=C\nhow=Do it.\nunit=mV\ndecimals=0\nleast=0\nmost=20000\n",
                 "[check charging] “unit” stays as it is built in"),
                ("hello\n", "the file cannot be read")):
            path = self.lay(text)
            done = self.run_cli("--json", "check", "charging", "14.20")
            self.assertIn('"verdict":"within"', done.stdout.replace(" ", ""))
            self.assertIn(said, done.stderr)
            self.assertIn("checks.ini is not used", done.stderr)
            catalog = self.catalog()
            self.assertEqual((catalog["file"], catalog["in_use"], catalog["changes"]), (path, False, []))
            self.assertIn(said, catalog["trouble"])

    def test_a_folder_of_that_name(self):
        os.mkdir(os.path.join(self.folder, "checks.ini"))
        done = self.run_cli("check", "charging", "14.20")
        self.assertIn("checks.ini is not used: it is not a list of checks", done.stderr)

    def test_readings_keep_their_unit(self):
        self.lay(SMOKE)
        self.ask("reading", "A-0022", "smoke", "3")
        self.lay(SMOKE.replace("unit=gray", "unit=%"))
        done = self.run_cli("check", "charging", "14.20")
        self.assertIn("[check smoke] the book knows it in gray with 0 decimals", done.stderr)

    def test_without_the_file_the_readings_stay(self):
        self.lay(SMOKE)
        self.ask("reading", "A-0022", "smoke", "3")
        os.remove(os.path.join(self.folder, "checks.ini"))
        self.assertIn("no check “smoke”", self.run_cli("job", "A-0022").stdout)


if __name__ == "__main__":
    tap.main()
