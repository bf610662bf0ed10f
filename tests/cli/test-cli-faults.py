# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""What goes wrong: wrong words, wrong files, wrong rows. Nothing is lost and nothing is half saved."""

import os
import shutil
import signal
import sqlite3
import subprocess
import tempfile
import time

import tap
from halfshaft import CLI, BookCase, DemoCase


class Usage(BookCase):
    def test_exit_status(self):
        for words in ([], ["nonsense"], ["plan", "--day", "yesterday"], ["plan", "--sideways"], ["import", "areas"],
                      ["import", "nonsense", "x.csv"], ["squeeze", "--area", "O"], ["history"],
                      ["plan", "--now"], ["reading", "A-0001"]):
            with self.subTest(words=words):
                self.refuse(*words, status=2)

    def test_help_and_version(self):
        self.assertIn("squeeze", self.run_cli("--help").stdout)
        self.assertTrue(self.run_cli("--version").stdout.startswith("halfshaft-cli "))

    def test_options_before_and_after(self):
        self.run_cli("new")
        for words in (["--json", "set"], ["set", "--json"]):
            self.assertTrue(self.run_cli(*words).stdout.startswith("{"))

    def test_bad_now(self):
        self.run_cli("new")
        self.now = "next week"
        self.refuse("plan", status=2)


class Files(BookCase):
    def test_missing_book_is_not_made(self):
        self.assertIn("new", self.refuse("set"))
        self.assertFalse(os.path.exists(self.book))

    def test_never_overwrites(self):
        self.run_cli("new")
        before = self.read_bytes()
        self.refuse("new", self.book)
        self.refuse("demo", self.book)
        self.assertEqual(self.read_bytes(), before)

    def test_files_that_are_no_book(self):
        foreign = os.path.join(self.folder, "other.db")
        with sqlite3.connect(foreign) as other:
            other.execute("CREATE TABLE recipe (name TEXT)")
        other.close()
        with open(foreign, "rb") as file:
            foreign_bytes = file.read()
        self.run_cli("new")
        whole = self.read_bytes()
        for name, content in (("empty", b""), ("picture", b"\xff\xd8\xff\xe0" + bytes(4000)),
                              ("cut", whole[:len(whole) // 2 + 100]), ("foreign", foreign_bytes)):
            with self.subTest(name=name):
                self.book = os.path.join(self.folder, name + ".hsbook")
                with open(self.book, "wb") as file:
                    file.write(content)
                self.refuse("set")
                self.assertEqual(self.read_bytes(), content)

    def test_newer_book(self):
        self.run_cli("new")
        with sqlite3.connect(self.book) as book:
            version = book.execute("PRAGMA user_version").fetchone()[0]
            book.execute(f"PRAGMA user_version = {version + 1}")
        book.close()
        before = self.read_bytes()
        self.assertIn("newer", self.refuse("set"))
        self.assertEqual(self.read_bytes(), before)

    def test_read_only_folder(self):
        self.run_cli("demo")
        cli, before = CLI, []
        if os.geteuid() == 0:
            # Root writes everywhere, so somebody else has to try, with a program that everybody may start.
            shelf = tempfile.mkdtemp(prefix="hs-bin-")
            self.addCleanup(shutil.rmtree, shelf)
            cli = shutil.copy(CLI, shelf)
            os.chmod(shelf, 0o755)
            try:
                os.chown(self.folder, 65534, 65534)
            except OSError:
                self.skipTest("there is nobody else to be here")
            os.chown(self.book, 65534, 65534)
            before = ["setpriv", "--reuid=65534", "--regid=65534", "--clear-groups"]
        os.chmod(self.folder, 0o500)
        self.addCleanup(os.chmod, self.folder, 0o700)
        command = [*before, cli, "--book", self.book, "--now", "2026-03-10T06:45"]
        done = subprocess.run([*command, "find", "0121"], capture_output=True, text=True, timeout=60)
        refused = subprocess.run([*command, "reading", "A-0021", "battery_rest", "1242"], capture_output=True,
                                 text=True, timeout=60)
        self.assertEqual(done.returncode, 0, done.stdout + done.stderr)
        self.assertIn("TDM 8816", done.stdout)
        self.assertEqual(refused.returncode, 1)
        self.assertIn("read", refused.stderr)

    def test_full_disk(self):
        self.run_cli("demo")
        before = self.read_bytes()
        self.now = "2026-03-10T06:45"
        rows = self.write_rows("c.csv", [["name", "phone"]] + [[f"Caller {i}", f"556-{i:04}"] for i in range(5000)])
        limit = len(before) // 512 + 40
        done = subprocess.run(["sh", "-c", f'ulimit -f {limit}; exec "$0" "$@"', CLI, "--book", self.book, "import",
                               "customers", rows], capture_output=True, text=True, timeout=60)
        self.assertEqual(done.returncode, 1, done.stderr)
        self.assertTrue(done.stderr.strip())
        self.assertEqual(self.ask("find", "caller")["hits"], [])
        self.assertTrue(self.ask("check")["whole"])


class Imports(DemoCase):
    def test_every_bad_row_is_listed_and_nothing_saved(self):
        path = self.write_rows("jobs.csv", [
            ["number", "customer_phone", "words", "day", "window_from", "window_to", "area", "minutes"],
            ["A-0101", "555-0111", "fine", "2026-03-12", "09:00", "11:00", "Q", "40"],
            ["A-0102", "555-9999", "nobody", "2026-03-12", "09:00", "11:00", "Q", "40"],
            ["A-0103", "555-0111", "backwards", "2026-03-12", "11:00", "09:00", "Q", "40"],
            ["A-0104", "555-0111", "nowhere", "2026-03-12", "09:00", "11:00", "Z", "40"],
            ["A-0105", "555-0111", "no such day", "2026-02-30", "09:00", "11:00", "Q", "40"],
            ["A-0106", "555-0111", "minus", "2026-03-12", "09:00", "11:00", "Q", "-5"]])
        message = self.refuse("import", "jobs", path)
        for row, field in ((3, "customer_phone"), (4, "window_to"), (5, "area"), (6, "day"), (7, "minutes")):
            self.assertIn(f"jobs.csv:{row}: {field}: ", message)
        self.refuse("job", "A-0101")

    def test_unknown_columns(self):
        path = self.write_rows("areas.csv", [["code", "name", "color"], ["X", "Extra", "red"]])
        self.assertIn("color", self.refuse("import", "areas", path))
        self.assertEqual(self.ask("import", "areas", path, "--ignore-unknown")["added"], 1)

    def test_twice_adds_nothing(self):
        path = self.write_rows("customers.csv", [["phone", "name"], ["(555) 0170", "Iris Fenn"]])
        self.assertEqual(self.ask("import", "customers", path)["added"], 1)
        again = self.ask("import", "customers", path)
        self.assertEqual((again["added"], again["changed"], again["unchanged"]), (0, 0, 1))
        self.assertIn("nothing new", self.run_cli("import", "customers", path).stdout)

    def test_forms_of_the_file(self):
        for number, (encoding, separator, newline) in enumerate(
                (("utf-8", ",", "\n"), ("utf-8-sig", ",", "\r\n"), ("utf-8", ";", "\r\n"), ("utf-8-sig", "\t", "\n"))):
            with self.subTest(number=number):
                text = newline.join((f"phone{separator}name", f'555-018{number}{separator}"Zoë ""Z"" Åström, {number}"',
                                     ""))
                path = self.write("c.csv", text, encoding)
                self.assertEqual(self.ask("import", "customers", path)["added"], 1)
                hits = self.ask("find", f"018{number}", "astrom", "zoe")["hits"]
                self.assertEqual([hit["customer"] for hit in hits], [f'Zoë "Z" Åström, {number}'])

    def test_not_utf8(self):
        path = self.write("c.csv", "name,phone\nJosé,555-0190\n", "latin-1")
        self.assertIn("c.csv:2:", self.refuse("import", "customers", path))

    def test_missing_required_column(self):
        path = self.write("c.csv", "name\nNobody\n")
        self.assertIn("phone", self.refuse("import", "customers", path))


class Days(DemoCase):
    def take(self, *words):
        return self.ask("job", "take", "--phone", "555-0111", "--words", "no crank", *words)["number"]

    def test_call_without_area(self):
        path = self.write_rows("jobs.csv", [
            ["number", "customer_phone", "words", "stage", "day", "window_from", "window_to", "minutes"],
            ["A-0031", "555-0177", "no area", "promised", "2026-03-12", "09:00", "11:00", "40"]])
        customers = self.write_rows("c.csv", [["name", "phone"], ["Wren Ashby", "555-0177"]])
        self.run_cli("import", "customers", customers)
        self.run_cli("import", "jobs", path)
        plan = self.ask("plan", "--day", "2026-03-12")
        self.assertEqual(plan["status"], "impossible")
        self.assertEqual([broken["id"] for broken in plan["broken"]], ["A-0031"])
        self.assertIn("area", plan["broken"][0]["why"])

    def test_call_without_window(self):
        path = self.write_rows("jobs.csv", [
            ["number", "customer_phone", "words", "stage", "area", "day", "minutes"],
            ["A-0031", "555-0111", "any time", "promised", "Q", "2026-03-12", "40"]])
        self.run_cli("import", "jobs", path)
        told = self.run_cli("plan", "--day", "2026-03-12").stdout
        self.assertRegex(told, r"A-0031 .*, any time\n")
        self.assertNotIn("spare", told)

    def test_part_that_no_counter_sells(self):
        parts = self.write_rows("p.csv", [["number", "name"], ["RARE-1", "unobtainable relay"]])
        needs = self.write_rows("n.csv", [["job", "part"], ["A-0024", "RARE-1"]])
        self.run_cli("import", "parts", parts)
        self.run_cli("import", "needs", needs)
        plan = self.ask("plan", "--day", "2026-03-10")
        self.assertEqual(plan["status"], "impossible")
        self.assertIn("unobtainable relay", plan["broken"][0]["why"])
        self.assertEqual(len(plan["stops"]), 8)
        self.assertEqual([row["number"] for row in self.ask("parts", "--day", "2026-03-10")["nowhere"]], ["RARE-1"])

    def test_two_promises_that_cannot_both_be_kept(self):
        path = self.write_rows("jobs.csv", [
            ["number", "customer_phone", "words", "stage", "area", "day", "window_from", "window_to", "minutes"],
            ["A-0041", "555-0116", "one", "promised", "S", "2026-03-12", "09:00", "09:30", "60"],
            ["A-0042", "555-0111", "two", "promised", "Q", "2026-03-12", "09:00", "09:30", "60"]])
        self.run_cli("import", "jobs", path)
        plan = self.ask("plan", "--day", "2026-03-12")
        self.assertEqual(plan["status"], "impossible")
        self.assertEqual(len(plan["stops"]), 2)
        self.assertEqual(len(plan["broken"]), 1)
        self.assertGreater(plan["broken"][0]["late_minutes"], 0)
        for number in ("A-0041", "A-0042"):
            self.assertIn(number, plan["broken"][0]["why"] + plan["broken"][0]["id"])

    def test_clock_change(self):
        """2026-03-08: 02:00 becomes 03:00 in America/New_York; a 08:00 promise is still at 08:00 by the wall."""
        path = self.write_rows("jobs.csv", [
            ["number", "customer_phone", "words", "stage", "area", "day", "window_from", "window_to", "minutes"],
            ["A-0051", "555-0111", "spring", "promised", "Q", "2026-03-08", "08:00", "10:00", "60"],
            ["A-0052", "555-0111", "fall", "promised", "Q", "2026-11-01", "08:00", "10:00", "60"]])
        self.run_cli("import", "jobs", path)
        for day in ("2026-03-08", "2026-11-01"):
            plan = self.ask("plan", "--day", day)
            self.assertEqual((plan["status"], plan["leave"], plan["home"]), ("optimal", "07:51", "09:09"))
            self.assertEqual(plan["stops"][0]["window"], ["08:00", "10:00"])

    def test_a_window_inside_the_gap(self):
        path = self.write_rows("jobs.csv", [
            ["number", "customer_phone", "words", "stage", "area", "day", "window_from", "window_to", "minutes"],
            ["A-0053", "555-0111", "gap", "promised", "Q", "2026-03-08", "02:15", "02:45", "60"]])
        self.assertIn("jobs.csv:2: window_from: ", self.refuse("import", "jobs", path))


class Killed(DemoCase):
    def test_kill_during_entry(self):
        """Twenty times the program is killed while it stores readings; what it acknowledged is there afterwards."""
        acknowledged = 0
        for number in range(20):
            keyed = f"{1200 + number}"
            process = subprocess.Popen([CLI, "--book", self.book, "--now", f"2026-03-10T09:{number:02}", "reading",
                                        "A-0024", "battery_rest", keyed, "--at", f"2026-03-10T09:{number:02}"],
                                       stdout=subprocess.PIPE, stderr=subprocess.DEVNULL)
            time.sleep(0.001 * (number * 3 % 40))
            process.send_signal(signal.SIGKILL)
            if b"battery" in process.communicate()[0].lower():
                acknowledged += 1
                self.assertIn(1200 + number, [round(r["value"] * 100) for r in self.ask("job", "A-0024")["readings"]])
        self.assertTrue(self.ask("check")["whole"])
        self.assertGreaterEqual(len(self.ask("job", "A-0024")["readings"]), acknowledged)


class Held(DemoCase):
    def test_second_writer_waits_then_says_who(self):
        holder = sqlite3.connect(self.book, isolation_level=None)
        holder.execute("BEGIN IMMEDIATE")
        try:
            started = time.monotonic()
            message = self.refuse("reading", "A-0024", "battery_rest", "1242")
            waited = time.monotonic() - started
        finally:
            holder.rollback()
            holder.close()
        self.assertIn("nother program", message)
        self.assertGreater(waited, 0.5, "it waits briefly first")
        self.run_cli("reading", "A-0024", "battery_rest", "1242")


if __name__ == "__main__":
    tap.main()
