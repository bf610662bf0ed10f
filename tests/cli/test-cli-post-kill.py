# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""Programs that are killed anywhere between writing a job down and hearing that it was taken: nothing is lost, and a
receiver that goes by id and revision counts nothing twice. HS_KILLS says how often; 50 unless it is set."""

import os
import random
import sqlite3
import subprocess
import time
import unittest

import tap
from halfshaft import CLI
from posting import PostCase, hold_after_storing, hold_before_storing

KILLS = int(os.environ.get("HS_KILLS", "50"))


class Kills(PostCase):
    def start(self, *words):
        return subprocess.Popen([CLI, "--book", self.book, "--now", self.now, *words], stdout=subprocess.DEVNULL,
                                stderr=subprocess.DEVNULL)

    def take_call(self, nth):
        return ["job", "take", "--phone", "555-0199", "--name", "Rue Abernant", "--words", f"call {nth} hums"]

    def kill_soon(self, program, seconds):
        time.sleep(seconds)
        program.kill()
        program.wait(30)

    def queued(self):
        with sqlite3.connect(f"file:{self.book}?mode=ro", uri=True) as book:
            return dict(book.execute("SELECT job_id, revision FROM outbox"))

    def new_jobs(self):
        with sqlite3.connect(f"file:{self.book}?mode=ro", uri=True) as book:
            return {row[0] for row in book.execute("SELECT id FROM job WHERE words LIKE 'call % hums'")}

    def test_kills(self):
        endpoint = self.endpoint()
        self.post_to(endpoint)
        chance = random.Random(20260310)
        between = 0

        for nth in range(KILLS):
            way = nth % 5
            if way == 0:
                self.kill_soon(self.start(*self.take_call(nth)), chance.uniform(0, 0.12))
            else:
                self.run_cli(*self.take_call(nth))
            # A held queue would have nothing under way; the clock goes on instead of waiting.
            self.now = f"2026-03-{10 + nth // 40 % 18:02d}T{nth % 20 + 1:02d}:30:00Z"
            self.run_cli("outbox", "--retry")
            taken = len(endpoint.receiver.heads)
            endpoint.script = {1: [hold_after_storing], 2: [hold_before_storing]}.get(way, [])
            program = self.start("post", "--once")
            if way in (1, 2):
                self.assertTrue(endpoint.wait_held(program))
                self.kill_soon(program, 0)
                endpoint.go()
            else:
                self.kill_soon(program, chance.uniform(0, 0.15))
            endpoint.script = []
            waiting = {unsent["id"] for unsent in self.ask("outbox")["unsent"]}
            between += len(endpoint.receiver.heads) > taken and bool(waiting & set(endpoint.receiver.jobs))
        self.now = "2026-04-10T10:00:00Z"
        while self.ask("outbox")["waiting"] > 0:
            self.run_cli("outbox", "--retry")
            self.post()
        self.assertGreaterEqual(between, KILLS // 5 - 1)
        self.check(endpoint.receiver)

    def check(self, receiver):
        jobs = self.new_jobs()
        self.assertGreaterEqual(len(jobs), KILLS * 4 // 5)
        self.assertEqual(jobs - set(receiver.jobs), set(), "lost")
        self.assertEqual({key: message["revision"] for key, message in receiver.jobs.items()}, self.queued())
        self.assertEqual(len(receiver.order), len(set(receiver.order)), "counted twice")
        self.assertGreater(receiver.again, 0)
        with sqlite3.connect(f"file:{self.book}?mode=ro", uri=True) as book:
            self.assertEqual(book.execute("PRAGMA integrity_check").fetchone()[0], "ok")
            self.assertEqual(book.execute("SELECT count(*) FROM job j WHERE words LIKE 'call % hums'"
                                          " AND NOT EXISTS (SELECT 1 FROM outbox WHERE job_id = j.id)").fetchone(),
                             (0,))


if __name__ == "__main__":
    tap.main()
