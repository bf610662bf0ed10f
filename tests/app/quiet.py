# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""With posting off, and in a build without it, the window opens no socket into any network: its system calls are read
while it opens a book, shows what is not sent yet, and sees a job change. That they would be seen is shown by a window
that posts. Sockets of the display, the session bus and the like are AF_UNIX and do not count. Prints TAP. Needs a
screen and strace."""

import os
import re
import shutil
import signal
import socket
import subprocess
import sys
import tempfile
import threading
import time

APP, CLI = os.environ["HS_APP"], os.environ["HS_CLI"]
POSTS = os.environ["HS_POSTS"] == "yes"
MORNING = "2026-03-10T06:45"


class Trial:
    def __init__(self):
        self.home = tempfile.mkdtemp(prefix="hs-quiet-")
        self.book = os.path.join(self.home, "demo.hsbook")
        subprocess.run([CLI, "demo", self.book], check=True, capture_output=True, timeout=60)
        self.number = self.failed = 0

    def say(self, good, name):
        self.number += 1
        self.failed += not good
        print(f"{'ok' if good else 'not ok'} {self.number} - {name}", flush=True)

    def run(self, *words):
        subprocess.run([CLI, "--book", self.book, "--now", MORNING, *words], check=True, capture_output=True,
                       timeout=60)

    def wait(self, what, done, process=None, seconds=60):
        end = time.monotonic() + seconds
        while not done():
            if time.monotonic() > end or (process is not None and process.poll() is not None):
                raise RuntimeError(f"never: {what}")
            time.sleep(0.05)

    def windows(self):
        found = subprocess.run(["xdotool", "search", "--onlyvisible", "--class", "halfshaft"], capture_output=True,
                               text=True, timeout=20)
        return len(found.stdout.split())

    def trace(self, deed):
        """The lines about the internet of a window that opens, shows the queue, and in which `deed` happens."""
        log = os.path.join(self.home, "trace")
        env = dict(os.environ, XDG_DATA_HOME=self.home, HOME=self.home, GSK_RENDERER="cairo")
        window = subprocess.Popen(["strace", "-f", "-qq", "-e", "trace=network", "-o", log, APP, "--book", self.book,
                                   "--now", MORNING], env=env)
        try:
            self.wait("a window", lambda: self.windows() > 0, window)
            shown = self.windows()
            # It opens where one was, with the cursor in a field, which takes a minus for itself.
            self.wait("what is not sent yet", lambda: self.pressed("Escape", "minus") > shown, window)
            deed()
        finally:
            self.end(window)
        with open(log, encoding="utf-8", errors="replace") as file:
            lines = file.readlines()
        self.say(any("AF_UNIX" in line for line in lines), "what it opens is seen")
        return [line for line in lines if re.search(r"\bAF_INET6?\b", line)]

    def end(self, window):
        """strace itself lets no signal through; it ends with what it looks at."""
        with open(f"/proc/{window.pid}/task/{window.pid}/children", encoding="ascii") as file:
            for child in file.read().split():
                os.kill(int(child), signal.SIGTERM)
        window.wait(30)

    def pressed(self, *keys):
        before = self.windows()
        subprocess.run(["xdotool", "key", "--clearmodifiers", *keys], check=True, timeout=20)
        time.sleep(0.5)
        return max(before, self.windows())

    def change(self):
        self.run("job", "A-0021", "called_off", "--reason", "sold it")
        time.sleep(1)

    def run_all(self):
        self.run("set", "post_url", "https://127.0.0.1:9/jobs")
        lines = self.trace(self.change)
        self.say(not lines, f"posting is off: {lines[:3]}")
        if not POSTS:
            linked = subprocess.run(["ldd", APP], check=True, capture_output=True, text=True, timeout=60).stdout
            self.say("libsoup" not in linked and "libsecret" not in linked, "it links neither network nor keyring")
            print(f"1..{self.number}")
            return
        taken = threading.Event()
        with socket.create_server(("127.0.0.1", 0)) as endpoint:
            def take():
                with endpoint.accept()[0]:
                    taken.set()
            threading.Thread(target=take, daemon=True).start()
            self.run("set", "post_url", f"http://127.0.0.1:{endpoint.getsockname()[1]}/jobs")
            self.run("post", "--on")
            self.run("post", "--all")
            lines = self.trace(lambda: self.wait("a message", taken.is_set))
        self.say(bool(lines), "posting is on: that is seen")
        print(f"1..{self.number}")


def main():
    if shutil.which("strace") is None:
        print("1..0 # SKIP strace is not installed")
        return 0
    trial = Trial()
    try:
        trial.run_all()
    finally:
        shutil.rmtree(trial.home)
    return 1 if trial.failed else 0


sys.exit(main())
