# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""Drives the built command line as its owner would."""

import csv
import json
import os
import shutil
import subprocess
import tempfile
import unittest

CLI = os.environ["HS_CLI"]


class BookCase(unittest.TestCase):
    """A folder of its own; `self.book` is where its book goes."""

    def setUp(self):
        self.folder = tempfile.mkdtemp(prefix="hs-cli-")
        self.addCleanup(shutil.rmtree, self.folder)
        self.book = os.path.join(self.folder, "b.hsbook")
        self.now = None

    def run_cli(self, *words, status=0):
        command = [CLI, "--book", self.book, *words]
        if self.now:
            command += ["--now", self.now]
        done = subprocess.run(command, capture_output=True, text=True, timeout=120)
        self.assertEqual(done.returncode, status, f"{command}\n{done.stdout}\n{done.stderr}")
        return done

    def ask(self, *words):
        return json.loads(self.run_cli("--json", *words).stdout)

    def refuse(self, *words, status=1):
        done = self.run_cli(*words, status=status)
        self.assertTrue(done.stderr.strip(), "a refusal says why")
        return done.stderr

    def write(self, name, text, encoding="utf-8"):
        path = os.path.join(self.folder, name)
        with open(path, "w", encoding=encoding, newline="") as file:
            file.write(text)
        return path

    def write_rows(self, name, rows):
        path = os.path.join(self.folder, name)
        with open(path, "w", encoding="utf-8", newline="") as file:
            csv.writer(file).writerows(rows)
        return path

    def read_bytes(self):
        with open(self.book, "rb") as file:
            return file.read()


class DemoCase(BookCase):
    """The demo business at 06:45 on its morning; made once, copied for each case."""

    master = None

    @classmethod
    def setUpClass(cls):
        cls.master = tempfile.mkdtemp(prefix="hs-demo-")
        subprocess.run([CLI, "demo", os.path.join(cls.master, "d.hsbook")], check=True, capture_output=True,
                       timeout=120)

    @classmethod
    def tearDownClass(cls):
        shutil.rmtree(cls.master)

    def setUp(self):
        super().setUp()
        shutil.copy(os.path.join(self.master, "d.hsbook"), self.book)
        self.now = "2026-03-10T06:45"
