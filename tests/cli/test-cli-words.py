# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""What is printed for people: harmless whatever a file holds, in plain words, and with nothing told as a saving that
is none."""

import json
import os
import subprocess
import tempfile
import unicodedata
import unittest

import tap
from halfshaft import CLI, DemoCase
from solving import demo_day

HOSTILE = "A\x1b[2J\nfake\x7f\u0085\u202eB\u2066C\u2028D\U000e0041"
LATE = [["number", "customer_phone", "words", "kind", "stage", "area", "day", "window_from", "window_to", "minutes"],
        ["A-0031", "555-0122", "late one", "repair", "promised", "S", "2026-03-10", "08:00", "08:05", "60"],
        ["A-0032", "555-0121", "late two", "repair", "promised", "Q", "2026-03-10", "08:00", "08:05", "200"]]


def harmful(text):
    """Signs that move the cursor or turn letters around; a line break is for the program alone to make."""
    return [sign for sign in text if sign != "\n" and unicodedata.category(sign) in ("Cc", "Cf", "Zl", "Zp")]


class Harmless(unittest.TestCase):
    def run_solve(self, problem, *words, status=0):
        with tempfile.TemporaryDirectory(prefix="hs-words-") as folder:
            path = os.path.join(folder, "day.json")
            with open(path, "w", encoding="utf-8") as file:
                file.write(problem if isinstance(problem, str) else json.dumps(problem))
            done = subprocess.run([CLI, *words, "solve", path], capture_output=True, text=True, timeout=60)
        self.assertEqual(done.returncode, status, done.stderr)
        return done

    def hostile_day(self, nobody_sells=False):
        text = json.dumps(demo_day())
        for name in ("A-0023", "Larch", "starter"):
            text = text.replace(json.dumps(name), json.dumps(name + HOSTILE))
        day = json.loads(text)
        for i, van in enumerate(day["vans"]):
            van["id"] = f"{i}{HOSTILE}"
        if nobody_sells:
            day["calls"][0]["needs"] = ["nothing" + HOSTILE]
        return day

    def test_text(self):
        plain = self.run_solve(demo_day()).stdout
        hostile = self.run_solve(self.hostile_day()).stdout
        self.assertEqual(harmful(hostile), [])
        self.assertIn("A-0023", hostile)
        self.assertEqual(hostile.count("\n"), plain.count("\n"))

    def test_troubles(self):
        told = self.run_solve(self.hostile_day(nobody_sells=True)).stdout
        self.assertIn("nothing", told)
        self.assertEqual(harmful(told), [])
        self.assertFalse([line for line in told.split("\n") if line.startswith("fake")])

    def test_a_refusal(self):
        day = self.hostile_day()
        day["calls"].append(dict(day["calls"][0]))
        day[HOSTILE] = 1
        told = self.run_solve(day, status=1).stderr
        self.assertEqual(harmful(told), [])
        self.assertEqual(told.count("\n"), 1)

    def test_json_keeps_the_name_and_escapes_it(self):
        done = self.run_solve(self.hostile_day(), "--json")
        answer = json.loads(done.stdout)
        self.assertEqual(harmful(done.stdout), [])
        self.assertIn("A-0023" + HOSTILE, [stop["id"] for route in answer["routes"] for stop in route["stops"]])

    def test_other_letters_stay(self):
        name = "Zoë Østergård \u05d0\u05d1 \U0001f697"
        day = json.loads(json.dumps(demo_day()).replace('"A-0023"', json.dumps(name)))
        self.assertIn(name, self.run_solve(day).stdout)
        self.assertIn(f'"{name}"', self.run_solve(day, "--json").stdout)

    def test_bought_and_spare(self):
        prices = {"starter": 11800, "pads": 2700, "filter": 2100, "agm 45": 11200}
        day = demo_day(prices=prices)
        answer = json.loads(self.run_solve(day, "--json").stdout)
        told = self.run_solve(day).stdout
        self.assertTrue(answer["bought"])
        for bought in answer["bought"]:
            cents = f"{bought['cents'] // 100}.{bought['cents'] % 100:02}"
            self.assertIn(f"  Buy {bought['part']} for {bought['call']} at {bought['counter']}: {cents}\n", told)
        self.assertIn(f"Least spare time: {answer['spare_minutes']} min\n", told)


class Book(DemoCase):
    def test_text_from_the_book(self):
        rows = [LATE[0], [*LATE[1][:2], "hums\x1b[31m\u202eup", *LATE[1][3:]]]
        self.run_cli("import", "jobs", self.write_rows("j.csv", rows))
        for words in (["plan"], ["job", "A-0031"], ["parts"]):
            self.assertEqual(harmful(self.run_cli(*words).stdout), [], words)
        self.assertIn("hums", self.run_cli("plan").stdout)

    def test_faults_of_a_file(self):
        told = self.refuse("import", "areas", self.write("a.csv", "code,name,x\x1b[2J\u202e\nA,B,C\n"))
        self.assertEqual(harmful(told), [])

    def test_a_lost_call_is_no_saving(self):
        lines = self.run_cli("plan", "--others").stdout.split("\n")
        without = [i for i, line in enumerate(lines) if line.startswith("Without ")]
        self.assertEqual(len(without), 2)
        for i in without:
            self.assertRegex(lines[i], r"^Without [^:]+: not every call is served$")
            self.assertIn("no other counter has its parts in time", lines[i + 1])
        self.assertIn("A-0022 first: adds 7 min, -0.1 mi, 11.16", lines)

    def test_home_the_next_day(self):
        told = self.run_cli("squeeze", "--area", "Q", "--minutes", "900", "--window", "09:00-17:00").stdout
        offers = self.ask("squeeze", "--area", "Q", "--minutes", "900", "--window", "09:00-17:00")["offers"]
        self.assertGreater(len(offers), 0)
        for offer in offers:
            hour, minute = offer["home"].split(":")
            late = int(hour) >= 24
            self.assertIn(f"home {int(hour) % 24:02}:{minute}{' the next day' if late else ''}\n", told)
        self.assertIn(" the next day\n", told)

    def test_late_is_not_less_than_no_spare(self):
        self.run_cli("import", "jobs", self.write_rows("j.csv", LATE))
        plan = self.ask("plan")
        told = self.run_cli("plan").stdout
        self.assertEqual(plan["status"], "impossible")
        late = [stop for stop in plan["stops"] if (stop["spare_minutes"] or 0) < 0]
        self.assertGreater(len(late), 0)
        for stop in late:
            line = next(line for line in told.split("\n") if stop["id"] in line and line[:2].strip().isdigit())
            self.assertIn(f", {-stop['spare_minutes']} min late", line)
        self.assertNotRegex(told, r"-\d+ min")
        self.assertIn("(not every promise can be kept)\n", told)
        self.assertIn(f"Latest: {-plan['spare_minutes']} min late at {plan['spare_at']}\n", told)

    def test_a_wrong_word_shows_the_commands_own_line(self):
        for words, reason, line in ((["find", "-x"], "find: ", "halfshaft-cli find WORDS…"),
                                    (["history"], "history: something is missing", "halfshaft-cli history PLATE"),
                                    (["solve"], "solve: name one file to solve", "halfshaft-cli solve FILE")):
            told = self.refuse(*words, status=2).split("\n")
            self.assertTrue(told[0].startswith("halfshaft-cli: " + reason), told)
            self.assertTrue(told[1].startswith(line), told)
            self.assertEqual(told[2:], [""])


if __name__ == "__main__":
    tap.main()
