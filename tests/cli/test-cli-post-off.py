# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""A build without posting says so, and links neither the network nor the keyring."""

import subprocess

import tap
from halfshaft import CLI, DemoCase


class Off(DemoCase):
    def test_says_so(self):
        self.run_cli("set", "post_url", "https://example.org/jobs")
        for words in (["--on"], ["--once"], ["--all"], ["--secret"], ["--forget"], []):
            self.assertIn("this build does not post", self.refuse("post", *words))
        self.run_cli("post", "--off")
        self.assertEqual(self.ask("outbox")["on"], False)
        self.assertEqual(self.run_cli("outbox").stdout, "this build does not post\nnothing waits to be posted\n")
        self.run_cli("outbox", "A-0004", "--body")

    def test_links_nothing(self):
        linked = subprocess.run(["ldd", CLI], capture_output=True, text=True, check=True).stdout
        for name in ("libsoup", "libsecret"):
            self.assertNotIn(name, linked)


if __name__ == "__main__":
    tap.main()
