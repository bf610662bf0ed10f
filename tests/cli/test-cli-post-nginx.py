# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""A real web server as the endpoint: nginx, with the very lines of data/post/ENDPOINT.md, which keep each job in a file
of its own by WebDAV PUT, over TLS by an authority of this test, with a password."""

import json
import os
import pwd
import re
import shutil
import socket
import subprocess
import time
import unittest

import tap
from posting import OPENSSL, SECRET, Certificates, PostCase

NGINX = shutil.which("nginx", path=os.environ.get("PATH", "") + ":/usr/sbin:/sbin")


def contract():
    with open(os.environ["HS_POST_ENDPOINT"], encoding="utf-8") as file:
        return file.read()


def example():
    return re.search(r"```nginx\n(.*?)```", contract(), re.S).group(1)


def known(user):
    """Whether there is such a user here; Debian has the one of the example."""
    try:
        return pwd.getpwnam(user)
    except KeyError:
        return None


def free_port():
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


@unittest.skipUnless(NGINX and OPENSSL, "nginx or openssl is not installed")
class Nginx(PostCase):
    def setUp(self):
        super().setUp()
        self.certificates = Certificates(self.folder)
        self.port = free_port()
        self.root = os.path.join(self.folder, "srv")
        self.make_root()
        self.passwords = os.path.join(self.folder, "jobs.htpasswd")
        hashed = subprocess.run([OPENSSL, "passwd", "-apr1", SECRET], check=True, capture_output=True, text=True)
        with open(self.passwords, "w", encoding="ascii") as file:
            file.write(f"dara:{hashed.stdout.strip()}\n")
        self.set(url=f"https://127.0.0.1:{self.port}/jobs/{{id}}.json", auth="basic", user="dara",
                 ca_file=self.certificates.authority)
        self.keep_secret()
        self.run_cli("post", "--on")

    def make_root(self):
        """As the contract says, by the command that it prints; whoever is not root serves as what they are."""
        user, = re.findall(r"`install -d -o (\S+) /srv/halfshaft`", contract())
        self.assertTrue(example().startswith(f"user {user};\n"), "another user than the folder belongs to")
        os.chmod(self.folder, 0o711)
        owner = ["-o", user] if os.geteuid() == 0 and known(user) else []
        subprocess.run(["install", "-d", *owner, self.root], check=True)

    def configuration(self, lines):
        """The example with the paths of this test, and what a server wants that is not started by the system."""
        certificate, key = self.certificates.host("bench")
        changes = {"listen 443 ssl": f"listen 127.0.0.1:{self.port} ssl", "/etc/ssl/example.org.pem": certificate,
                   "/etc/ssl/private/example.org.key": key, "/srv/halfshaft": self.root,
                   "/etc/nginx/jobs.htpasswd": self.passwords}
        for old, new in changes.items():
            self.assertIn(old, lines)
            lines = lines.replace(old, new)
        kept = "".join(f"  {name}_temp_path {self.folder}/{name};\n"
                       for name in ("client_body", "proxy", "fastcgi", "uwsgi", "scgi"))
        if not known(lines.split()[1].rstrip(";")):
            lines = lines.replace(lines.splitlines()[0], "user root;")
        return (f"daemon off;\npid {self.folder}/nginx.pid;\nerror_log {self.folder}/error.log;\n"
                + lines.replace("http {\n", "http {\n  access_log off;\n" + kept, 1))

    def start(self, change=lambda lines: lines):
        path = self.write("nginx.conf", self.configuration(change(example())))
        server = subprocess.Popen([NGINX, "-p", self.folder, "-e", self.folder + "/start.log", "-c", path],
                                  stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        self.addCleanup(self.stop, server)
        for _ in range(500):
            with socket.socket() as probe:
                if probe.connect_ex(("127.0.0.1", self.port)) == 0:
                    return server
            self.assertIsNone(server.poll(), "nginx ended")
            time.sleep(0.02)
        self.fail("nginx does not listen")

    def stop(self, server):
        if server.poll() is None:
            server.terminate()
            server.wait(30)

    def kept(self):
        folder = os.path.join(self.root, "jobs")
        found = {}
        if not os.path.exists(folder):
            return found
        for name in os.listdir(folder):
            with open(os.path.join(folder, name), encoding="utf-8") as file:
                found[name] = json.load(file)
        return found

    def test_example_is_short(self):
        self.assertLessEqual(len(example().splitlines()), 25)

    def test_kept(self):
        self.start()
        self.run_cli("post", "--all")
        self.assertEqual(self.post()["sent"], 26)
        kept = self.kept()
        self.assertEqual(len(kept), 26)
        for name, message in kept.items():
            self.assertEqual(name, message["id"] + ".json")
        self.call_off("A-0021")
        self.assertEqual(self.post()["sent"], 1)
        after = self.kept()
        self.assertEqual(len(after), 26)
        changed = [name for name in after if after[name] != kept[name]]
        self.assertEqual([after[name]["job"]["stage"] for name in changed], ["called_off"])
        self.assertGreater(after[changed[0]]["revision"], kept[changed[0]]["revision"])

    def test_kept_by_http_2(self):
        self.start(lambda lines: lines.replace("443 ssl;", "443 ssl http2;"))
        self.run_cli("post", "--all")
        self.assertEqual(self.post()["sent"], 26)
        self.assertEqual(len(self.kept()), 26)
        self.call_off("A-0021")
        self.keep_secret("wrong")
        self.assertIn("(401)", self.post(exit_status=1)["why"])

    def test_wrong_password(self):
        self.start()
        self.call_off("A-0021")
        self.keep_secret("wrong")
        self.assertIn("(401)", self.post(exit_status=1)["why"])
        self.keep_secret()
        self.run_cli("outbox", "--retry")
        self.assertEqual(self.post()["sent"], 1)
        self.assertEqual(len(self.kept()), 1)

    def test_certificate_of_another(self):
        self.set(ca_file="")
        self.start()
        self.call_off("A-0021")
        self.assertIn("cannot prove to be the endpoint", self.post()["why"])
        self.assertEqual(self.kept(), {})

    def test_down_and_up(self):
        self.call_off("A-0021", "A-0022")
        self.assertEqual(self.post()["waiting"], 2)
        server = self.start()
        self.at("10:47:00")
        self.assertEqual(self.post()["sent"], 2)
        self.stop(server)
        self.call_off("A-0023")
        self.assertEqual(self.post()["waiting"], 1)

    def test_parked(self):
        for change, number in ((lambda lines: lines.replace("40m", "1"), 413),
                               (lambda lines: lines.replace("dav_methods PUT;", "").replace("create_full_put_path on;",
                                                                                             ""), 405)):
            server = self.start(change)
            self.run_cli("outbox", "--retry")
            if not self.ask("outbox")["unsent"]:
                self.call_off("A-0021")
            self.assertEqual(self.post()["parked"], 1)
            self.assertIn(f"({number})", self.ask("outbox")["unsent"][0]["why"])
            self.stop(server)


if __name__ == "__main__":
    tap.main()
