# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""The repair and its proof from the command line: parts, what was disturbed, what is missing, handing over."""

import os
import shutil
import subprocess

import tap
from halfshaft import DemoCase


class Repair(DemoCase):
    def at_the_vehicle(self, job):
        self.run_cli("stage", job, "rolling")
        return self.run_cli("stage", job, "on_site")

    def test_rolling_away_from_a_running_clock(self):
        """A job of the same van that is still at the vehicle: refused with the way on, undone in one step."""
        self.at_the_vehicle("A-0021")
        for command in ("stage", "job"):
            refused = self.refuse(command, "A-0022", "rolling")
            self.assertIn("A-0021, Marguerite Stane, is still at the vehicle and its labor clock runs.", refused)
            self.assertIn("--leave-open does that and rolls.", refused)
            self.assertEqual(self.ask("job", "A-0022")["stage"], "promised")
        self.run_cli("stage", "A-0022", "rolling", "--leave-open")
        self.assertEqual(self.ask("job", "A-0022")["stage"], "rolling")
        self.assertEqual(self.ask("job", "A-0021")["stage"], "on_site")
        self.assertIn("rolling, labor clock stopped: A-0021", self.run_cli("undo", "A-0022").stdout)
        self.refuse("stage", "A-0022", "rolling")
        self.run_cli("job", "A-0022", "rolling", "--leave-open")
        self.run_cli("stage", "A-0022", "promised")
        self.run_cli("stage", "A-0022", "rolling")

    def test_beginning_beside_a_running_clock(self):
        """Without having rolled: the same refusal, the same way on."""
        self.at_the_vehicle("A-0021")
        for command in ("stage", "job"):
            refused = self.refuse(command, "A-0022", "on_site")
            self.assertIn("A-0021, Marguerite Stane, is still at the vehicle and its labor clock runs.", refused)
            self.assertIn("--leave-open does that and begins here.", refused)
            self.assertEqual(self.ask("job", "A-0022")["stage"], "promised")
        self.run_cli("job", "A-0022", "on_site", "--leave-open")
        self.assertEqual([self.ask("job", job)["stage"] for job in ("A-0021", "A-0022")], ["on_site", "on_site"])
        self.assertIn("at the vehicle, labor clock stopped: A-0021", self.run_cli("undo", "A-0022").stdout)

    def test_leaving_open_where_nothing_is_left(self):
        """--leave-open with a stage that leaves no vehicle is never passed over in silence."""
        for words in (("job", "A-0022", "called_off", "--reason", "x"), ("stage", "A-0022", "called_in"),
                      ("stage", "A-0022"), ("stage", "A-0022", "--because", "x")):
            self.assertIn("--leave-open goes with the stages rolling and on_site alone",
                          self.refuse(*words, "--leave-open", status=2), words)
        self.assertEqual(self.ask("job", "A-0022")["stage"], "promised")

    def kinds(self, job):
        return [item["kind"] + "!" * item["must"] for item in self.ask("stage", job)["missing"]]

    def test_story_of_closing_unproved(self):
        """Story 16: no after-reading is refused, a reason is accepted and printed."""
        self.at_the_vehicle("A-0024")
        self.assertIn("take_one!", self.kinds("A-0024"))
        self.assertIn("no reading after the repair", self.refuse("stage", "A-0024", "proven"))
        self.assertEqual(self.ask("job", "A-0024")["stage"], "on_site")
        self.assertIn("no reading after the repair", self.refuse("stage", "A-0024", "proven", "--because", "  "))
        told = self.run_cli("stage", "A-0024", "proven", "--because", "Dark and raining, so no road test.").stdout
        self.assertIn("not proven Dark and raining, so no road test.", told)
        job = self.ask("job", "A-0024")
        self.assertEqual((job["stage"], job["not_proven_because"]), ("proven", "Dark and raining, so no road test."))
        self.assertIn("take one", self.refuse("stage", "A-0024", "--because", ""))

    def test_a_relay_that_was_not_pressed_home(self):
        """What A-0015 taught: the relay that is put in asks to be pressed home before leaving."""
        self.at_the_vehicle("A-0024")
        self.run_cli("fit", "A-0024", "heater relay", "--why", "not_known", "--place", "fuse box", "--months", "12")
        looks = self.ask("job", "A-0024")["disturbed"]
        self.assertEqual([(look["place"], look["check"], look["done_at"]) for look in looks],
                         [("relay", "relay_drop", None), ("relay", None, None)])
        self.assertIn("pressed fully home", looks[0]["what"])
        self.now = "2026-03-10T13:40"
        told = self.ask("disturbed", "A-0024", "1", "--done", "--found", "it clicked")
        self.assertEqual(told["disturbed"][0]["done_at"], "2026-03-10T17:40:00Z")
        self.assertEqual(told["disturbed"][0]["done_words"], "it clicked")
        self.assertEqual(self.kinds("A-0024").count("look"), 1)
        self.assertIsNone(self.ask("disturbed", "A-0024", "1", "--open")["disturbed"][0]["done_at"])

    def test_every_field_of_a_part(self):
        told = self.ask("fit", "A-0022", "--number", "BW-55", "--from-van", "--date-code", "C5", "--why", "due",
                        "--serial", "7-7", "--bill", "K-1", "--miles", "12000", "--odometer", "99999", "--old", "core",
                        "--maker", "Brackwater")
        part = told["parts"][0]
        self.assertEqual([part[name] for name in ("number", "serial", "date_code", "made", "maker", "bill", "odometer",
                                                  "months", "miles", "why", "old_part", "cover_until",
                                                  "cover_odometer", "warranty_swap")],
                         ["BW-55", "7-7", "C5", "March 2025", "Brackwater", "K-1", 99999, 24, 12000, "due", "core",
                          "2028-03-10", 111999, False])
        self.assertEqual(part["cover"], "Covered to March 10, 2028 or 111,999 miles on the odometer, whichever comes "
                                        "first.")
        self.assertEqual(self.ask("undo", "A-0022", "--list")[0]["what"], "installed: BW-55")
        self.run_cli("undo", "A-0022")
        self.assertEqual(self.ask("fit", "A-0022")["parts"], [])

    def test_corrected_and_taken_out(self):
        self.run_cli("fit", "A-0022", "wiper motor", "--cost", "31.00")
        self.assertIsNone(self.ask("fit", "A-0022")["parts"][0]["why"])
        part = self.ask("fit", "A-0022", "Wiper Motor", "--change", "--why", "none_before", "--months", "6")["parts"][0]
        self.assertEqual((part["why"], part["cover"]), ("none_before", "Covered to September 10, 2026."))
        self.assertEqual(self.ask("fit", "A-0022", "wiper motor", "--remove")["parts"], [])
        self.assertEqual(self.ask("job", "A-0022")["lines"], [])

    def test_nothing_half_written(self):
        """A part with one field that is refused is not there at all."""
        before = self.ask("job", "A-0022")
        self.assertIn("“two” is not a whole number",
                      self.refuse("fit", "A-0022", "relay", "--place", "fuse box", "--months", "two"))
        self.assertEqual(self.ask("job", "A-0022"), before)

    def test_refused(self):
        for words, status, said in [
            (("fit", "A-0022", "relay", "--why", "gremlins"), 1, "“gremlins” is no finding of A-0022."),
            (("fit", "A-0022", "relay", "--cost", "much"), 2, "--cost"),
            (("fit", "A-0022", "relay", "--change", "--months", "3"), 2, "this job installed no “relay”"),
            (("fit", "A-0022", "--remove"), 2, "say which part"),
            (("fit", "A-0022", "relay", "--odometer", "10000000"), 1, "Odometer: write what it shows"),
            (("fit", "A-0013", "relay"), 1, "squared up"),
            (("disturbed", "A-0022", "9", "--done"), 2, "there is no line “9”"),
            (("disturbed", "A-0022", "--done"), 2, "say which line"),
            (("disturbed", "A-0022", "1", "--done", "--open"), 2, "one at a time"),
            (("disturbed", "A-0022", " "), 1, "What was disturbed?"),
            (("stage", "A-0022", "flying"), 2, "flying"),
            (("stage", "A-0022", "proven"), 1, "Arrive at the vehicle first"),
            (("handover", "A-0022", "--safe", "perhaps"), 1, "perhaps"),
            (("handover", "A-0022", "--odometer", "far"), 2, "--odometer"),
        ]:
            self.assertIn(said, self.refuse(*words, status=status), words)

    def test_what_was_outside_is_asked_again(self):
        self.at_the_vehicle("A-0021")
        self.run_cli("reading", "A-0021", "drop_ground", "210", "--conditions", "loaded:yes")
        self.assertEqual(self.kinds("A-0021"), ["take_one!", "read_again", "try", "safe"])
        told = self.run_cli("stage", "A-0021").stdout
        self.assertIn("Read again: Ground side drop, 2.10 V was outside before.", told)
        self.run_cli("reading", "A-0021", "drop_ground", "4", "--phase", "after", "--conditions", "loaded:yes")
        self.run_cli("reading", "A-0021", "starts_good", "45", "--phase", "after")
        self.assertEqual(self.kinds("A-0021"), ["complaint_stays!", "safe"])
        self.assertIn("4 of 5 good", self.refuse("stage", "A-0021", "proven"))
        self.run_cli("reading", "A-0021", "starts_good", "55", "--phase", "after")
        self.assertEqual(self.kinds("A-0021"), ["safe"])
        self.run_cli("handover", "A-0021", "--safe", "yes")
        self.assertEqual(self.ask("stage", "A-0021", "proven")["missing"], [])

    def test_handed_over(self):
        told = self.ask("handover", "A-0022", "--safe", "told not to", "--odometer", "100000")
        self.assertEqual(told["safe_to_drive"], "told_not_to")
        self.assertIn("safe       told not to", self.run_cli("job", "A-0022").stdout)
        self.assertIn("100000", self.run_cli("identify", "A-0022").stdout)

    def test_the_list_is_shown(self):
        text = self.run_cli("disturbed", "A-0022").stdout
        self.assertIn(" 2  Relay or fuse pulled", text)
        self.assertIn("Every joint that was opened", self.run_cli("disturbed", "A-0022", "3").stdout)
        self.assertIn("shim", self.run_cli("disturbed", "A-0022", "shim under the bracket").stdout)
        self.assertEqual(len(self.ask("disturbed", "A-0022", "shim under the bracket", "--remove")["disturbed"]), 2)

    def words_of(self, path):
        return " ".join(subprocess.run(["pdftotext", "-enc", "UTF-8", path, "-"], capture_output=True, text=True,
                                       check=True).stdout.split())

    def test_the_proof_sheet(self):
        """Story 16: the reason is printed; a file that is there is left alone; both sizes of paper."""
        path = os.path.join(self.folder, "proof.pdf")
        self.at_the_vehicle("A-0024")
        self.run_cli("reading", "A-0024", "sleeping_draw", "31", "--phase", "before")
        self.run_cli("stage", "A-0024", "proven", "--because", "Dark and raining, so no road test.")
        told = self.ask("paper", "A-0024", "before-after", "-o", path, "--size", "A4")
        self.assertEqual((told["title"], told["pages"]), ("Before and after · A-0024", 1))
        self.assertIn("exists", self.refuse("paper", "A-0024", "before-after", "-o", path))
        told = self.run_cli("paper", "A-0024", "before-after", "-o", path, "--force").stdout
        self.assertIn("Wrote 1 page to", told)
        if shutil.which("pdftotext"):
            words = self.words_of(path)
            self.assertIn("Not proven because: Dark and raining, so no road test.", words)
            self.assertIn("“flat every week”", words)
            self.assertNotIn("Hark", words)

    def test_nothing_planted_is_on_paper(self):
        """What parts cost, the counter's number, other customers, a number to call and the gate: on no paper."""
        hidden = ["173.19", "61.07", "INV-99321", "Mabry", "Drennan", "Fennimore", "Sorrel", "Vickery", "Hark", "555",
                  "0119", "gate code", "past the barn", "markup"]
        self.at_the_vehicle("A-0025")
        self.run_cli("fit", "A-0025", "tank breather", "--cost", "173.19", "--bill", "INV-99321", "--why", "due")
        self.run_cli("because", "A-0025", "complaint", "wrong fuel", "--said", "filled by another", "--end", "outside")
        self.run_cli("advice", "A-0025", "New cap", "--part", "cap seal=61.07", "--risk", "water again")
        self.run_cli("advice", "A-0025", "1", "--answer", "no", "--by", "Lorna", "--means", "phone")
        self.run_cli("reading", "A-0025", "battery_rest", "1262", "--phase", "after")
        for size in ("A4", "letter"):
            path = os.path.join(self.folder, size + ".pdf")
            self.run_cli("paper", "A-0025", "before-after", "-o", path, "--size", size)
            if shutil.which("pdftotext"):
                words = self.words_of(path)
                self.assertIn("tank breather", words)
                for planted in hidden:
                    self.assertNotIn(planted, words)

    def test_a_past_sheet(self):
        path = os.path.join(self.folder, "proof.pdf")
        self.run_cli("paper", "A-0014", "before-after", "-o", path)
        if shutil.which("pdftotext"):
            words = self.words_of(path)
            for said in ["Before and after", "6.90 V", "12.63 V", "0.44 A", "0.022 A", "5 of 5 good", "tested good",
                         "rear-window heater relay welded shut", "battery 45 Ah flooded",
                         "Covered to February 5, 2028"]:
                self.assertIn(said, words)
            self.assertNotIn("58.00", words, "no cost price")

    def test_no_such_page(self):
        for words, status, said in [
            (("paper", "A-0014", "invoice", "-o", "x.pdf"), 2, "there is no page “invoice”"),
            (("paper", "A-0014", "before-after"), 2, "say where to"),
            (("paper", "A-0014", "before-after", "-o", "x.pdf", "--size", "A5"), 2, "there is no paper “A5”"),
            (("paper", "A-9999", "before-after", "-o", "x.pdf"), 1, "A-9999"),
            (("paper", "A-0014", "before-after", "-o", os.path.join(self.folder, "no", "x.pdf")), 1, "No such file"),
        ]:
            self.assertIn(said, self.refuse(*words, status=status), words)


if __name__ == "__main__":
    tap.main()
