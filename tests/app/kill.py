# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""The inverter drops while a reading is keyed: the window is killed twenty times in the middle of a field and opened
again. No stored reading is lost, and it reopens at the same job and field with what was typed. Prints TAP. Needs a
screen."""

import os
import shutil
import signal
import sqlite3
import subprocess
import sys
import tempfile
import time

APP, CLI = os.environ["HS_APP"], os.environ["HS_CLI"]
ROUNDS = 20


class Trial:
    def __init__(self):
        self.home = tempfile.mkdtemp(prefix="hs-kill-")
        self.book = os.path.join(self.home, "demo.hsbook")
        subprocess.run([CLI, "demo", self.book], check=True, capture_output=True, timeout=60)
        self.number = self.failed = 0

    def say(self, good, name):
        self.number += 1
        self.failed += not good
        print(f"{'ok' if good else 'not ok'} {self.number} - {name}", flush=True)

    def query(self, sql):
        with sqlite3.connect(f"file:{self.book}?mode=ro", uri=True) as book:
            return book.execute(sql).fetchone()

    def prepare(self):
        """A-0024 was left in the middle of its first field."""
        with sqlite3.connect(self.book) as book:
            book.execute("UPDATE job SET complaint_group = 'will_not_start' WHERE number = 'A-0024'")
            book.execute("INSERT INTO draft (id, job_id, page, field, text, at) SELECT 'kill', id, 'findings', "
                         "'battery_rest', '12', 1773139500 FROM job WHERE number = 'A-0024'")
        book.close()

    def start(self, settle=1.2):
        """Starts the window and waits until it is on the screen; says what it said if it never is. The book is named
        by an option and, as a file manager does it, without one by turns."""
        env = dict(os.environ, XDG_DATA_HOME=self.home, GSK_RENDERER="cairo")
        with open(os.path.join(self.home, "said"), "w") as said:
            named = [self.book] if self.number % 2 else ["--book", self.book]
            process = subprocess.Popen([APP, *named], env=env, stderr=said)
        end = time.monotonic() + 30
        while not self.is_shown():
            if process.poll() is not None or time.monotonic() > end:
                with open(os.path.join(self.home, "said")) as said:
                    print("".join(f"# {line}" for line in said), flush=True)
                process.kill()
                raise RuntimeError(f"no window; the program's exit code: {process.wait()}")
            time.sleep(0.1)
        time.sleep(settle)
        return process

    def is_shown(self):
        found = subprocess.run(["xdotool", "search", "--onlyvisible", "--name", "Halfshaft"], stdout=subprocess.DEVNULL,
                               stderr=subprocess.DEVNULL, timeout=10)
        return found.returncode == 0

    def press(self, *keys):
        for key in keys:
            subprocess.run(["xdotool", "key", "--clearmodifiers", key], check=True)
            time.sleep(0.06)

    def readings(self):
        return self.query("SELECT count(*) FROM reading r JOIN job j ON j.id = r.job_id WHERE j.number = 'A-0024' AND "
                          "r.check_id = 'battery_rest' AND r.value = 1242 AND r.phase = 'before'")[0]

    def place(self):
        return self.query("SELECT j.number, d.page, d.field, d.text FROM draft d JOIN job j ON j.id = d.job_id "
                          "ORDER BY d.at DESC, d.seq DESC LIMIT 1")

    def round(self, first):
        process = self.start(3 if first else 1.2)
        # "12" was on the disk when the power went; two more digits make it 12.42 V.
        self.press("4", "2", "Return")
        time.sleep(0.5)
        self.press("minus", "1", "2")
        time.sleep(1.0)
        process.send_signal(signal.SIGKILL)
        process.wait(10)

    def run(self):
        self.prepare()
        for number in range(1, ROUNDS + 1):
            self.round(number == 1)
            self.say((self.readings(), self.place()) == (number, ("A-0024", "findings", "battery_rest", "12")),
                     f"after kill {number}: {self.readings()} stored, at {self.place()}")
        check = subprocess.run([CLI, "--book", self.book, "check"], capture_output=True, text=True, timeout=60)
        self.say(check.returncode == 0, "the book is whole")
        print(f"1..{self.number}")


def main():
    trial = Trial()
    try:
        trial.run()
    finally:
        shutil.rmtree(trial.home)
    return 1 if trial.failed else 0


sys.exit(main())
