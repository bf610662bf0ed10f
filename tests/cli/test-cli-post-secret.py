# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""The secret of the endpoint in a real keyring, on a bus of its own that is listened to: it reaches the endpoint and
nobody else, and stands in nothing that we leave behind."""

import base64
import os
import pty
import resource
import shutil
import signal
import subprocess
import termios
import time
import unittest

import tap
from halfshaft import CLI
from posting import SECRET, PostCase, hold_after_storing, slow, status

TOOLS = [shutil.which(name) for name in ("dbus-daemon", "dbus-monitor", "gnome-keyring-daemon", "dbus-send")]
# As it stands in a header, and as it would stand beside a name.
FORMS = [SECRET.encode(), base64.b64encode(SECRET.encode()).rstrip(b"="),
         base64.b64encode(f"dara:{SECRET}".encode()).rstrip(b"=")]
# A bus that starts nothing by itself, and lets itself be listened to.
BUS = """<!DOCTYPE busconfig PUBLIC "-//freedesktop//DTD D-Bus Bus Configuration 1.0//EN"
 "http://www.freedesktop.org/standards/dbus/1.0/busconfig.dtd">
<busconfig>
  <type>session</type>
  <listen>unix:dir={folder}</listen>
  <auth>EXTERNAL</auth>
  <policy context="default">
    <allow send_destination="*" eavesdrop="true"/>
    <allow eavesdrop="true"/>
    <allow own="*"/>
  </policy>
</busconfig>
"""


@unittest.skipUnless(all(TOOLS), "dbus-daemon, dbus-monitor or gnome-keyring-daemon is not installed")
class Keyring(PostCase):
    def setUp(self):
        super().setUp()
        self.home = os.path.join(self.folder, "home")
        os.mkdir(self.home, 0o700)
        changes = {"HOME": self.home, "XDG_DATA_HOME": self.home + "/data", "XDG_CONFIG_HOME": self.home + "/config",
                   "XDG_CACHE_HOME": self.home + "/cache"}
        before = {name: os.environ.get(name) for name in (*changes, "DBUS_SESSION_BUS_ADDRESS")}
        self.addCleanup(self.restore, before)
        os.environ.update(changes)
        self.start_bus()
        self.monitor = open(os.path.join(self.folder, "bus.log"), "wb")
        self.addCleanup(self.monitor.close)
        self.run_beside([TOOLS[1], "--session", "--monitor"], stdout=self.monitor)

    def run_beside(self, command, **how):
        # The keyring of Debian 12 warns of a secret that is put in anew, and does not live through memory that meson
        # fills on purpose: neither is to end it here.
        calm = {name: value for name, value in os.environ.items() if name not in ("MALLOC_PERTURB_", "G_DEBUG")}
        program = subprocess.Popen(command, stderr=subprocess.DEVNULL, env=calm, **how)
        self.addCleanup(program.wait, 30)
        self.addCleanup(program.terminate)
        return program

    def start_bus(self):
        config = self.write("bus.conf", BUS.format(folder=self.folder))
        bus = self.run_beside([TOOLS[0], "--config-file", config, "--nofork", "--print-address"],
                              stdout=subprocess.PIPE, text=True)
        os.environ["DBUS_SESSION_BUS_ADDRESS"] = bus.stdout.readline().strip()
        self.addCleanup(bus.stdout.close)

    def start_keyring(self):
        keyring = self.run_beside([TOOLS[2], "--foreground", "--components=secrets", "--unlock"],
                                  stdin=subprocess.PIPE, stdout=subprocess.DEVNULL)
        keyring.stdin.write(b"of the keyring")
        keyring.stdin.close()
        for _ in range(500):
            names = subprocess.run(["dbus-send", "--session", "--print-reply", "--dest=org.freedesktop.DBus", "/",
                                    "org.freedesktop.DBus.ListNames"], capture_output=True, text=True,
                                   timeout=30).stdout
            if "org.freedesktop.secrets" in names:
                return
            time.sleep(0.02)
        self.fail("the keyring does not come up")

    def keep(self, secret, exit_status=0):
        done = subprocess.run([CLI, "--book", self.book, "--now", self.now, "post", "--secret"], input=secret + "\n",
                              capture_output=True, text=True, timeout=60)
        self.assertEqual(done.returncode, exit_status, done.stderr)
        self.assertNotIn(SECRET, done.stdout + done.stderr)
        return done.stderr

    def assert_nowhere(self):
        """Every file that is left behind, and what went over the bus."""
        self.monitor.flush()
        looked_at = 0
        for folder, _, names in os.walk(self.folder):
            for name in names:
                path = os.path.join(folder, name)
                if not os.path.isfile(path):
                    continue
                with open(path, "rb") as file:
                    content = file.read()
                looked_at += 1
                for form in FORMS:
                    self.assertNotIn(form, content, path)
        self.assertGreater(looked_at, 2)

    def test_bearer(self):
        self.start_keyring()
        endpoint = self.endpoint()
        self.post_to(endpoint)
        self.set(auth="bearer")
        self.keep(SECRET)
        self.call_off("A-0021", "A-0022")
        endpoint.script = [slow(3)]
        with subprocess.Popen([CLI, "--book", self.book, "--now", self.now, "post", "--once"], stdout=subprocess.PIPE,
                              stderr=subprocess.PIPE, text=True) as program:
            while endpoint.connections == 0:
                time.sleep(0.02)
            for name in ("cmdline", "environ"):
                with open(f"/proc/{program.pid}/{name}", "rb") as file:
                    content = file.read()
                for form in FORMS:
                    self.assertNotIn(form, content, name)
            shutil.copy(self.book, os.path.join(self.folder, "backup.hsbook"))
            out, err = program.communicate(timeout=60)
        self.assertEqual(program.returncode, 0, err)
        self.assertNotIn(SECRET, out + err)
        self.assertEqual([head["Authorization"] for head in endpoint.receiver.heads], ["Bearer " + SECRET] * 2)
        self.assert_nowhere()
        with open(os.path.join(self.folder, "bus.log"), "rb") as file:
            self.assertIn(b"org.freedesktop.Secret", file.read())

    def test_basic_that_is_refused(self):
        self.start_keyring()
        endpoint = self.endpoint()
        self.post_to(endpoint)
        self.set(auth="basic", user="dara")
        self.keep(SECRET)
        self.call_off("A-0021")
        endpoint.script = [status(401, SECRET.encode(), Content_Type="application/problem+json")]
        self.assertTrue(self.post(exit_status=1)["paused"])
        # Another secret lets the queue go on.
        self.keep(SECRET + "2")
        self.assertEqual(self.post()["sent"], 1)
        self.assert_nowhere()

    def test_only_for_its_origin(self):
        """With another address there is no secret: who moves the address gets nothing."""
        self.start_keyring()
        endpoint, other = self.endpoint(), self.endpoint()
        self.post_to(endpoint)
        self.set(auth="bearer")
        self.keep(SECRET)
        self.set(url=other.url())
        self.call_off("A-0021")
        report = self.post(exit_status=1)
        self.assertIn("There is no secret for http://127.0.0.1:", report["said"])
        self.assertEqual(other.connections, 0)
        self.set(url=endpoint.url("/other/path"))
        self.assertEqual(self.post()["sent"], 1)
        self.run_cli("post", "--forget")
        self.call_off("A-0022")
        self.assertTrue(self.post(exit_status=1)["paused"])
        self.assertEqual(endpoint.connections, 1)

    def test_another_place_is_set(self):
        """It would lie there and never be used."""
        self.start_keyring()
        self.set(url="https://example.org/jobs", auth="bearer")
        self.keep_secret()
        self.assertIn("as post_secret_file says", self.keep(SECRET, exit_status=1))
        self.run_cli("post", "--forget")
        self.set(secret_file="")
        self.keep(SECRET)

    def test_no_keyring(self):
        endpoint = self.endpoint()
        self.post_to(endpoint)
        self.set(auth="bearer")
        self.assertIn("put the secret into a file of mode 0600", self.keep(SECRET, exit_status=1))
        self.call_off("A-0021")
        self.assertIn("The keyring of this machine does not answer", self.post(exit_status=1)["said"])
        self.assertEqual(endpoint.connections, 0)
        self.assert_nowhere()

    def test_typed(self):
        """What is typed on a terminal is not to be read there afterwards, and the terminal is as it was."""
        self.start_keyring()
        self.set(url="https://example.org/jobs", auth="bearer")
        terminal, line = pty.openpty()
        self.addCleanup(os.close, terminal)
        self.addCleanup(os.close, line)
        before = termios.tcgetattr(line)
        with subprocess.Popen([CLI, "--book", self.book, "--now", self.now, "post", "--secret"], stdin=line,
                              stdout=line, stderr=line) as program:
            while termios.tcgetattr(line)[3] & termios.ECHO and program.poll() is None:
                time.sleep(0.01)
            os.write(terminal, SECRET.encode() + b"\n")
            self.assertEqual(program.wait(60), 0)
        self.assertEqual(termios.tcgetattr(line), before)
        os.write(line, b"end")
        shown = b""
        while not shown.endswith(b"end"):
            shown += os.read(terminal, 4096)
        self.assertNotIn(SECRET.encode(), shown)

    def test_typing_broken_off(self):
        """Ended in the middle of it, the terminal shows again what is typed."""
        self.set(url="https://example.org/jobs", auth="bearer")
        terminal, line = pty.openpty()
        self.addCleanup(os.close, terminal)
        self.addCleanup(os.close, line)
        before = termios.tcgetattr(line)
        for end in (signal.SIGINT, signal.SIGTERM, signal.SIGHUP):
            with subprocess.Popen([CLI, "--book", self.book, "--now", self.now, "post", "--secret"], stdin=line,
                                  stdout=line, stderr=line) as program:
                while termios.tcgetattr(line)[3] & termios.ECHO and program.poll() is None:
                    time.sleep(0.01)
                os.write(terminal, SECRET.encode())
                program.send_signal(end)
                self.assertEqual(program.wait(60), -end)
            self.assertEqual(termios.tcgetattr(line), before, end)

    def test_what_is_no_secret(self):
        self.set(url="https://example.org/jobs")
        for text, why in (("", "empty"), ("a\tb", "without tabs"), ("x" * 4097, "at most")):
            self.assertIn(why, self.keep(text, exit_status=1))
        self.set(url="")
        self.assertIn("address", self.keep(SECRET, exit_status=1))


def dumps_here():
    """Whether a program that crashes leaves its memory in its folder."""
    try:
        with open("/proc/sys/kernel/core_pattern", encoding="ascii") as file:
            pattern = file.read().strip()
    except OSError:
        return False
    hard = resource.getrlimit(resource.RLIMIT_CORE)[1]
    return not pattern.startswith(("|", "/")) and pattern and hard != 0 and "ASAN_OPTIONS" not in os.environ


@unittest.skipUnless(dumps_here(), "a crash leaves no memory in its folder here")
class Cores(PostCase):
    def test_core(self):
        endpoint = self.endpoint()
        self.post_to(endpoint)
        self.set(auth="basic", user="dara")
        self.keep_secret()
        self.call_off("A-0021")
        endpoint.script = [hold_after_storing]
        place = os.path.join(self.folder, "crash")
        os.mkdir(place)
        hard = resource.getrlimit(resource.RLIMIT_CORE)[1]
        with subprocess.Popen([CLI, "--book", self.book, "--now", self.now, "post", "--once"], cwd=place,
                              stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
                              preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_CORE, (hard, hard))) as program:
            self.assertTrue(endpoint.wait_held(program))
            program.send_signal(signal.SIGSEGV)
            program.wait(60)
        endpoint.go()
        self.assertEqual(program.returncode, -signal.SIGSEGV)
        name, = os.listdir(place)
        with open(os.path.join(place, name), "rb") as file:
            content = file.read()
        self.assertTrue(content.startswith(b"\x7fELF"))
        for form in FORMS:
            self.assertNotIn(form, content)


if __name__ == "__main__":
    tap.main()
