# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""Taking back the last step of a job by the command line."""

import tap
from halfshaft import DemoCase

NUMBER = "A-0021"


class Undo(DemoCase):
    def stage(self):
        return self.ask("job", NUMBER)["stage"]

    def steps(self):
        return [(step["what"], step["undone_at"] is not None) for step in self.ask("undo", NUMBER, "--list")]

    def test_back_and_again(self):
        before = self.ask("job", NUMBER)
        self.run_cli("job", NUMBER, "rolling")
        self.run_cli("job", NUMBER, "on_site")
        self.run_cli("reading", NUMBER, "battery_rest", "1242")
        self.assertEqual(self.steps(), [("reading: Battery at rest, 12.42 V", False), ("stage: At the vehicle", False),
                                        ("stage: Rolling", False)])
        undone = self.ask("undo", NUMBER)
        self.assertEqual(undone["what"], "reading: Battery at rest, 12.42 V")
        self.assertTrue(undone["undone_at"].startswith("2026-03-10T"))
        self.assertEqual(self.ask("job", NUMBER)["readings"], [])
        self.assertEqual(self.run_cli("undo", NUMBER).stdout, "undone: stage: At the vehicle\n")
        self.assertEqual(self.stage(), "rolling")
        self.assertEqual(self.run_cli("undo", NUMBER, "--again").stdout, "done again: stage: At the vehicle\n")
        self.assertEqual(self.stage(), "on_site")
        self.assertEqual([gone for _, gone in self.steps()], [True, False, False])
        listed = self.run_cli("undo", NUMBER, "--list").stdout.splitlines()
        self.assertTrue(listed[0].endswith("reading: Battery at rest, 12.42 V (undone)"), listed)
        self.run_cli("undo", NUMBER)
        self.run_cli("undo", NUMBER)
        self.assertEqual(self.ask("job", NUMBER), before)

    def test_roll_from_a_job_that_is_squared_since(self):
        """The roll is taken back; the clock that it had stopped was billed and stays as it is."""
        self.run_cli("job", NUMBER, "on_site")
        self.now = "2026-03-10T07:15"
        self.run_cli("job", "A-0022", "rolling", "--leave-open")
        self.run_cli("call-off", NUMBER, "canceled", "--reason", "had to go", "--fee", "20")
        self.run_cli("job", NUMBER, "squared")
        squared = self.ask("job", NUMBER)
        self.assertEqual(squared["stage"], "squared")
        said = self.run_cli("undo", "A-0022").stdout
        self.assertEqual(said, f"undone: rolling, labor clock stopped: {NUMBER}\n"
                         f"The labor clock of what is squared up stays as it is: {NUMBER}\n")
        self.assertEqual(self.ask("job", "A-0022")["stage"], "promised")
        self.assertEqual(self.ask("undo", "A-0022", "--again")["clock_kept"], NUMBER)
        self.assertEqual(self.ask("job", "A-0022")["stage"], "rolling")
        self.assertEqual(self.ask("job", NUMBER), squared)

    def test_refusals(self):
        before = self.read_bytes()
        for words, said, status in (([NUMBER], "nothing on this job", 1),
                                    ([NUMBER, "--again"], "Nothing was undone", 1),
                                    (["A-0001"], "squared up", 1), (["A-9999"], "A-9999", 1),
                                    ([NUMBER, "--list", "--again"], "do not go together", 2), ([], "", 2)):
            self.assertIn(said, self.refuse("undo", *words, status=status), words)
        self.assertEqual(self.run_cli("undo", NUMBER, "--list").stdout, "nothing to undo\n")
        self.assertEqual(self.ask("undo", NUMBER, "--list"), [])
        self.assertEqual(self.read_bytes(), before)


if __name__ == "__main__":
    tap.main()
