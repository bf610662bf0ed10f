# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""Keys without sense, as gloves press them: whatever they hit, one after the other or with a breath between, the window
stays and GTK finds no fault. `any_keys.py KEYS [SEED]`; the same seed presses the same keys. Prints TAP."""

import os
import random
import shutil
import subprocess
import sys
import tempfile
import time

from keyboard import Keyboard

APP, CLI = os.environ["HS_APP"], os.environ["HS_CLI"]
MORNINGS = ["2026-03-10T07:52", "2026-03-10T08:31", "2026-03-10T09:10"]
KEYS = (
    ["F4"] * 5 + [f"F{n}" for n in range(1, 13)] + list("00112233445566778899") + ["Enter"] * 3 + ["Esc"] * 3
    + ["+", "-", "*", "/", ".", "Space", "PageUp", "PageDown", "Tab", "Up", "Down", "Left", "Right", "BackSpace",
       "Insert", "Delete", "Home", "End", "KP_Enter", "a"]
)
# Where a fall was found once: on the bill, the stages of a visit one after the other.
STAGES = ["F4", "4", "F4", "1"]
ROUND = 100


class Round:
    """A new demo book with a window on it, and keys until they are used up."""

    def __init__(self, dice, keyboard):
        self.dice, self.keyboard = dice, keyboard
        self.home = tempfile.mkdtemp(prefix="hs-any-keys-")
        self.pressed = []

    def open(self):
        book = os.path.join(self.home, "demo.hsbook")
        subprocess.run([CLI, "demo", book], check=True, capture_output=True, timeout=60)
        env = dict(os.environ, XDG_DATA_HOME=self.home, GSK_RENDERER="cairo", G_DEBUG="fatal-criticals")
        self.said = open(os.path.join(self.home, "said"), "w+", encoding="utf-8", errors="replace")
        self.process = subprocess.Popen([APP, "--book", book, "--now", self.dice.choice(MORNINGS)], env=env,
                                        stderr=self.said)
        until = time.monotonic() + 60
        while not self.keyboard.windows():
            self.look()
            if time.monotonic() > until:
                raise AssertionError("no window comes")
            time.sleep(0.05)

    def look(self):
        if self.process.poll() is not None:
            self.said.seek(0)
            raise AssertionError(f"it ended with {self.process.returncode} after {' '.join(self.pressed)}\n"
                                 f"{self.said.read()[-3000:]}")

    def press(self, count):
        while len(self.pressed) < count:
            burst = STAGES if self.dice.random() < 0.15 else [self.dice.choice(KEYS)]
            for key in burst:
                self.look()
                self.pressed.append(key)
                try:
                    self.keyboard.press(key)
                except RuntimeError:
                    self.look()
                    raise
            time.sleep(self.dice.choice([0, 0, 0, 0.02, 0.1]))
        # What they began is ended, and a window is still there.
        time.sleep(0.5)
        self.look()
        if not self.keyboard.windows():
            raise AssertionError(f"no window is left after {' '.join(self.pressed)}")

    def shut(self):
        if self.process.poll() is None:
            self.process.terminate()
            self.process.wait(30)
        self.said.close()
        shutil.rmtree(self.home, ignore_errors=True)


def main(count, seed):
    dice, keyboard, failed = random.Random(seed), Keyboard(), 0
    rounds = [min(ROUND, count - at) for at in range(0, count, ROUND)]
    print(f"1..{len(rounds)}", flush=True)
    for number, keys in enumerate(rounds, 1):
        this = Round(dice, keyboard)
        try:
            this.open()
            this.press(keys)
            word = "ok"
        except AssertionError as error:
            word, failed = "not ok", failed + 1
            print("".join(f"# {line}\n" for line in str(error).splitlines()), flush=True)
        finally:
            this.shut()
        print(f"{word} {number} - {keys} keys of seed {seed}", flush=True)
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]), int(sys.argv[2]) if len(sys.argv) > 2 else 1))
