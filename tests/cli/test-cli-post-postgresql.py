# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""The posts of two vans in PostgreSQL, by the table of data/post/ENDPOINT.md and the receiver beside it: a server of
this test's own, started and ended by it."""

import glob
import json
import os
import pwd
import re
import shutil
import signal
import socket
import sqlite3
import subprocess
import tempfile
import time
import unittest
import urllib.error
import urllib.request

import tap
from halfshaft import CLI
from posting import SECRET, PostCase

PROGRAMS = sorted(glob.glob("/usr/lib/postgresql/*/bin/initdb"))
# The receiver's own, which has Debian's psycopg2.
PYTHON = "/usr/bin/python3"
RECEIVER = os.path.join(os.path.dirname(os.environ["HS_POST_ENDPOINT"]), "receiver.py")


def table():
    with open(os.environ["HS_POST_ENDPOINT"], encoding="utf-8") as file:
        return re.search(r"```sql\n(.*?)```", file.read(), re.S).group(1)


def free_port():
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


@unittest.skipUnless(PROGRAMS, "postgresql is not installed")
class Database(PostCase):
    def setUp(self):
        super().setUp()
        self.bin = os.path.dirname(PROGRAMS[-1])
        self.at_home = tempfile.mkdtemp()
        self.addCleanup(shutil.rmtree, self.at_home, True)
        if os.geteuid() == 0:
            user = pwd.getpwnam("postgres")
            os.chown(self.at_home, user.pw_uid, user.pw_gid)
        self.pg("initdb", "-D", self.at_home + "/data", "-U", "shop", "-A", "trust", "-N", "-E", "UTF8")
        self.start_database()
        self.addCleanup(self.stop_database)
        self.sql(table())
        self.token = self.keep_secret()
        self.receiver = None
        self.port = free_port()
        self.start_receiver()

    def pg(self, name, *words, check=True):
        """The server refuses to be run by root."""
        who = ["runuser", "-u", "postgres", "--"] if os.geteuid() == 0 else []
        return subprocess.run([*who, os.path.join(self.bin, name), *words], check=check, stdout=subprocess.DEVNULL,
                              stderr=subprocess.DEVNULL, timeout=120, cwd="/")

    def start_database(self):
        self.pg("pg_ctl", "-D", self.at_home + "/data", "-w", "-l", self.at_home + "/log", "-o",
                f"-c listen_addresses= -c unix_socket_directories={self.at_home}", "start")

    def stop_database(self):
        self.pg("pg_ctl", "-D", self.at_home + "/data", "-w", "-m", "fast", "stop", check=False)

    def sql(self, text):
        ran = subprocess.run(["psql", "-XqtA", "-v", "ON_ERROR_STOP=1", "-h", self.at_home, "-U", "shop", "postgres"],
                             input=text, capture_output=True, text=True, timeout=60, check=True)
        return [line.split("|") for line in ran.stdout.splitlines()]

    def start_receiver(self):
        self.receiver = subprocess.Popen([PYTHON, RECEIVER, str(self.port), self.token,
                                          f"host={self.at_home} user=shop dbname=postgres"],
                                         stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        self.addCleanup(self.stop_receiver, self.receiver)
        for _ in range(500):
            with socket.socket() as probe:
                if probe.connect_ex(("127.0.0.1", self.port)) == 0:
                    return
            self.assertIsNone(self.receiver.poll(), "the receiver ended")
            time.sleep(0.02)
        self.fail("the receiver does not listen")

    def stop_receiver(self, receiver):
        receiver.send_signal(signal.SIGKILL)
        receiver.wait(30)

    def begin(self):
        self.set(url=f"http://127.0.0.1:{self.port}/jobs", auth="bearer", secret_file=self.token)
        self.run_cli("post", "--on")

    def another_book(self):
        """As of another van: its own book, its own ids."""
        self.book = os.path.join(self.folder, "other.hsbook")
        self.run_cli("new")
        self.begin()
        self.run_cli("job", "take", "--phone", "555-0199", "--name", "Rue Abernant", "--words", "hums")

    def send(self, body, token=SECRET, **headers):
        request = urllib.request.Request(f"http://127.0.0.1:{self.port}/jobs", body,
                                         {"Authorization": "Bearer " + token, **headers})
        try:
            with urllib.request.urlopen(request, timeout=30) as reply:
                return reply.status, b""
        except urllib.error.HTTPError as error:
            return error.code, error.read()

    def message(self, number="A-0004"):
        return json.loads(self.run_cli("outbox", number, "--body").stdout)

    def rows(self):
        return int(self.sql("SELECT count(*) FROM job")[0][0])

    def test_receiver_is_short(self):
        with open(RECEIVER, encoding="utf-8") as file:
            self.assertLessEqual(len(file.readlines()), 60)

    def test_two_vans(self):
        self.begin()
        self.run_cli("post", "--all")
        self.assertEqual(self.post()["sent"], 26)
        self.another_book()
        self.assertEqual(self.post()["sent"], 1)
        self.assertEqual(self.rows(), 27)
        # Story 1: on account, not paid yet.
        self.assertEqual(self.sql("SELECT minor FROM unpaid WHERE number = 'A-0019'"), [["36163"]])
        self.assertEqual(self.sql("SELECT number FROM unpaid"), [["A-0019"]])
        self.assertEqual(self.sql("SELECT stage FROM job WHERE number = 'A-0021'"), [["promised"]])

    def test_newest_wins(self):
        self.begin()
        whole = self.message()
        for revision, stage in ((5, "proven"), (7, "squared"), (6, "rolling"), (7, "rolling")):
            whole["revision"], whole["job"]["stage"] = revision, stage
            self.assertEqual(self.send(json.dumps(whole).encode())[0], 204)
        self.assertEqual(self.sql("SELECT revision, stage, body #>> '{job,stage}' FROM job"),
                         [["7", "squared", "squared"]])

    def test_refused(self):
        """Each with its reason, and nothing of it kept."""
        whole = self.message()

        def changed(**members):
            return json.dumps({**whole, **members}).encode()

        self.assertEqual(self.send(changed(), token="other")[0], 401)
        for body in (b"", b"{", b"[1]", b'"x"', b"\xff\xfe", b"[" * 100000, changed(id="A-0004"), changed(revision="x"),
                     changed(revision=2 ** 70), changed(job={}), changed(job=None), changed(words="\0"),
                     changed(more=float("nan"))):
            code, said = self.send(body)
            self.assertEqual(code, 422, body[:80])
            self.assertTrue(json.loads(said)["title"].startswith("no job: "))
        self.assertEqual(self.rows(), 0)
        self.assertEqual(self.send(changed())[0], 204)
        self.assertEqual(self.rows(), 1)

    def test_database_down(self):
        """Held as long as it says, then all come in order."""
        self.begin()
        self.run_cli("post", "--all")
        self.stop_database()
        self.assertEqual(self.post()["sent"], 0)
        held = self.ask("outbox")
        self.assertEqual(held["waiting"], 26)
        self.assertIn("the database does not answer", held["said"])
        self.start_database()
        self.at("10:45:30")
        self.assertEqual(self.post()["sent"], 0)
        self.at("11:45:00")
        self.assertEqual(self.post()["sent"], 26)
        self.assertEqual(self.rows(), 26)

    def test_killed_at_any_moment(self):
        """The receiver is killed while the jobs come in; started again it has each once."""
        self.begin()
        self.run_cli("post", "--all")
        for nth in range(5):
            program = subprocess.Popen([CLI, "--book", self.book, "--now", self.now, "post", "--once"],
                                       stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
            time.sleep(0.05 * (nth + 1))
            self.stop_receiver(self.receiver)
            program.wait(60)
            self.start_receiver()
            self.run_cli("outbox", "--retry")
        self.post()
        self.assertEqual(self.ask("outbox")["waiting"], 0)
        self.assertEqual(self.rows(), 26)
        kept = {(row[0], int(row[1])) for row in self.sql("SELECT id, revision FROM job")}
        self.assertEqual(kept, set(self.queued()))

    def queued(self):
        with sqlite3.connect(f"file:{self.book}?mode=ro", uri=True) as book:
            return book.execute("SELECT job_id, revision FROM outbox").fetchall()


if __name__ == "__main__":
    tap.main()
