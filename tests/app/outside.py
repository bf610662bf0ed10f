# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""The program from outside, on a demo book of its own, for stories that are told in turn: what the window says through
AT-SPI is held against what the command line says of the same book. Prints TAP. Needs a screen and a session bus of its
own, and the system's own Python with gi."""

import json
import os
import shutil
import sqlite3
import subprocess
import tempfile
import time
import traceback

from keyboard import Keyboard
from reader import Reader

APP, CLI = os.environ["HS_APP"], os.environ["HS_CLI"]
MORNING = "2026-03-10T06:45"


class Shop:
    """A copy of the demo book, the window on it, a keyboard and a reader."""

    def __init__(self):
        self.home = tempfile.mkdtemp(prefix="hs-outside-")
        self.book = os.path.join(self.home, "demo.hsbook")
        subprocess.run([CLI, "demo", self.book], check=True, capture_output=True, timeout=60)
        self.keys = Keyboard()
        self.process = self.reader = None

    def open(self):
        env = dict(os.environ, XDG_DATA_HOME=self.home, GSK_RENDERER="cairo")
        env.pop("GTK_A11Y", None)
        self.process = subprocess.Popen([APP, "--book", self.book, "--now", MORNING], env=env)
        self.reader = Reader(self.process)
        self.reader.wait("a window", lambda window: window.says())

    def shut(self):
        if self.process is not None:
            self.process.terminate()
            self.process.wait(20)
        self.process = None

    def kill(self):
        """The inverter drops."""
        self.process.kill()
        self.process.wait(20)
        self.process = None

    def leave(self):
        self.shut()
        shutil.rmtree(self.home)

    def go_to(self, key, what, most=40):
        """Presses a key until what has the keyboard has such a name; looks after each press, as a person does."""
        def place(window):
            node = self.reader.focused(window)
            return (node.where, node.name) if node is not None else ("nowhere", "")
        for _ in range(most):
            before = place(self.reader.window())
            if what in before[1]:
                return
            self.keys.press(key)
            self.reader.wait(f"{key} goes on from {before}", lambda window, before=before: place(window) != before)
        raise AssertionError(f"{key} never comes to {what}")

    def run(self, *words):
        """The command line on the same book."""
        return subprocess.run([CLI, "--book", self.book, "--now", MORNING, "--json", *words], capture_output=True,
                              text=True, timeout=60)

    def ask(self, *words):
        done = self.run(*words)
        if done.returncode != 0:
            raise AssertionError(f"{words}: {done.stdout}{done.stderr}")
        return json.loads(done.stdout)

    def next_number(self):
        """What the next call will be called."""
        with sqlite3.connect(f"file:{self.book}?mode=ro", uri=True) as book:
            last = book.execute("SELECT max(number) FROM job").fetchone()[0]
        book.close()
        return f"A-{int(last[2:]) + 1:04}"

    def job(self, number):
        return self.ask("job", number)

    def wait_job(self, number, what, test, seconds=20):
        """Asks until test(job) is true, for a window writes behind what it shows; returns what it gave."""
        until, told = time.monotonic() + seconds, "not there"
        while True:
            done = self.run("job", number)
            if done.returncode == 0:
                job = json.loads(done.stdout)
                found = test(job)
                if found:
                    return found
                told = {key: job[key] for key in ("stage", "customer", "because", "advice", "lines", "missing")}
            if time.monotonic() > until:
                raise AssertionError(f"{number} never: {what}; it is {told}; on the screen: "
                                     f"{self.reader.window().shown()}")
            time.sleep(0.1)

    def wait_draft(self, text, seconds=20):
        """Until what is being typed is on the disk."""
        until = time.monotonic() + seconds
        while True:
            with sqlite3.connect(f"file:{self.book}?mode=ro", uri=True) as book:
                found = book.execute("SELECT text FROM draft ORDER BY at DESC, seq DESC LIMIT 1").fetchone()
            book.close()
            if found == (text,):
                return
            if time.monotonic() > until:
                raise AssertionError(f"on the disk is {found}, not {text}")
            time.sleep(0.05)

    def readings(self, number, phase="before"):
        """Check → (value, word) as the book has them."""
        return {reading["check"]: (reading["value"], reading["word"]) for reading in self.job(number)["readings"]
                if reading["phase"] == phase}


def same(found, expected, what):
    if found != expected:
        raise AssertionError(f"{what}: {found!r} instead of {expected!r}")


def at_most(found, most, what):
    if found > most:
        raise AssertionError(f"{what}: {found}, at most {most}")


def tell(stories):
    """Each story on the book as the one before left it; after one that failed, in a new window. What a story returns is
    said beside its name."""
    shop, failed = Shop(), 0
    print(f"1..{len(stories)}", flush=True)
    try:
        for number, story in enumerate(stories, 1):
            began, note = time.monotonic(), None
            try:
                if shop.process is None:
                    shop.open()
                note = story(shop)
                word = "ok"
            except Exception:
                word = "not ok"
                failed += 1
                print("".join(f"# {line}\n" for line in traceback.format_exc().splitlines()), flush=True)
                shop.shut()
            told = f"{story.__doc__}{': ' + note if note else ''}"
            print(f"{word} {number} - {told} # {time.monotonic() - began:.1f} s", flush=True)
    finally:
        shop.leave()
    return 1 if failed else 0
