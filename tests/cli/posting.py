# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""An endpoint of our own that keeps what it is sent, and fails in whatever way a test wants; certificates to go with
it; a book that posts there."""

import base64
import json
import os
import shutil
import subprocess
import time

from halfshaft import DemoCase

SECRET = "mF_9.B5f-4.1JqM-very-secret"
OPENSSL = shutil.which("openssl")


class Certificates:
    """An authority made for one test, and hosts that it vouches for, or not."""

    def __init__(self, folder):
        self.folder = folder
        self.authority = self.path("ca.pem")
        self.run("req", "-x509", "-newkey", "ec", "-pkeyopt", "ec_paramgen_curve:prime256v1", "-nodes", "-days", "2",
                 "-keyout", self.path("ca.key"), "-out", self.authority, "-subj", "/CN=Test authority",
                 "-addext", "basicConstraints=critical,CA:TRUE", "-addext", "keyUsage=critical,keyCertSign")

    def path(self, name):
        return os.path.join(self.folder, name)

    def run(self, *words):
        subprocess.run([OPENSSL, *words], check=True, capture_output=True, timeout=60)

    def host(self, name, alternative="IP:127.0.0.1", days="2", self_signed=False):
        """Returns the certificate and the key of one host; of 0 days it has expired by then."""
        key, asked, made, more = (self.path(name + end) for end in (".key", ".csr", ".pem", ".ext"))
        with open(more, "w", encoding="ascii") as file:
            file.write(f"subjectAltName={alternative}\nbasicConstraints=CA:FALSE\n")
        self.run("req", "-newkey", "ec", "-pkeyopt", "ec_paramgen_curve:prime256v1", "-nodes", "-keyout", key, "-out",
                 asked, "-subj", f"/CN={name}")
        signer = ["-signkey", key] if self_signed else ["-CA", self.authority, "-CAkey", self.path("ca.key"),
                                                        "-CAcreateserial"]
        self.run("x509", "-req", "-in", asked, "-out", made, "-days", days, "-extfile", more, *signer)
        if days == "0":
            # It ends with the second that it was made in; some versions refuse to make one that has ended before.
            time.sleep(2)
        return made, key


class Receiver:
    """Keeps the highest revision of each job, as a receiver should, and counts what it had already."""

    def __init__(self):
        self.jobs = {}
        self.order = []
        self.again = 0
        self.heads = []
        self.bodies = []

    def take(self, head, body):
        message = json.loads(body)
        self.heads.append(head)
        self.bodies.append(body)
        held = self.jobs.get(message["id"])
        if held is not None and held["revision"] >= message["revision"]:
            self.again += 1
            return
        self.jobs[message["id"]] = message
        self.order.append(message["job"]["number"])


class Endpoint:
    """The endpoint of tests/post/far-end.c: its `script` is a list of steps, each for one message; when it is empty,
    all are taken with 201."""

    def __init__(self, certificate=None):
        self.program = subprocess.Popen([os.environ["HS_FAR_END"], *(certificate or ())], stdin=subprocess.PIPE,
                                        stdout=subprocess.PIPE, text=True)
        self.port = int(self.program.stdout.readline())
        self.scheme = "http" if certificate is None else "https"
        self.kept = Receiver()

    def url(self, path="/jobs", host="127.0.0.1"):
        return f"{self.scheme}://{host}:{self.port}{path}"

    def tell(self, *lines):
        self.program.stdin.write("".join(line + "\n" for line in lines))
        self.program.stdin.flush()

    def look(self):
        """Takes in what came since, and returns connections, how many messages were most under way, and how many were
        ever held."""
        self.tell(f"seen {len(self.kept.heads)}")
        state = [int(word) for word in self.program.stdout.readline().split()[1:]]
        for line in iter(self.program.stdout.readline, ".\n"):
            _, method, *coded = line.split()
            path, headers, body = (base64.b64decode(word) if word != "-" else b"" for word in coded)
            head = dict(line.split(": ", 1) for line in headers.decode().splitlines())
            self.kept.take({"method": method, "path": path.decode(), **head}, body)
        return state

    @property
    def receiver(self):
        self.look()
        return self.kept

    @property
    def connections(self):
        return self.look()[0]

    @property
    def most_at_once(self):
        return self.look()[1]

    @property
    def script(self):
        raise AttributeError("steps are told, not read back")

    @script.setter
    def script(self, steps):
        self.tell("clear", *(step or "pass" for step in steps))
        # Once it answers it has heard them.
        self.look()

    def wait_held(self, program):
        """Until a message is held, or `program` has ended without one; lets nothing go."""
        before = self.held_before if hasattr(self, "held_before") else 0
        while self.look()[2] == before and program.poll() is None:
            time.sleep(0.002)
        self.held_before = self.look()[2]
        return self.held_before > before

    def go(self):
        self.tell("go")

    def close(self):
        if self.program.poll() is None:
            self.program.stdin.close()
            self.program.wait(30)
            self.program.stdout.close()


def code(data):
    return base64.b64encode(data).decode() if data else "-"


def status(number, body=b"", **headers):
    """Answers so and takes nothing."""
    lines = "\n".join(f"{name.replace('_', '-')}: {value}" for name, value in headers.items())
    return f"answer {number} {code(lines.encode())} {code(body)}"


def problem(number, **members):
    return status(number, json.dumps(members).encode(), Content_Type="application/problem+json")


def raw(text, for_ever=b""):
    """Bytes as they are, then more of them without end, or the connection ends."""
    return f"raw {code(text)} {code(for_ever)}"


lost = "lost"
hold_after_storing = "hold 1"
hold_before_storing = "hold 0"


def slow(seconds):
    return f"slow {int(seconds * 1000)}"


class PostCase(DemoCase):
    """The demo posts to an endpoint of our own; its clock is said with each command."""

    def setUp(self):
        super().setUp()
        self.now = "2026-03-10T10:45:00Z"
        before = {name: os.environ.get(name) for name in ("HOME", "no_proxy")}
        os.environ.update(HOME=self.folder, no_proxy="*")
        self.addCleanup(self.restore, before)

    def restore(self, before):
        for name, value in before.items():
            if value is None:
                os.environ.pop(name, None)
            else:
                os.environ[name] = value

    def endpoint(self, **how):
        made = Endpoint(**how)
        self.addCleanup(made.close)
        return made

    def set(self, **settings):
        for key, value in settings.items():
            self.run_cli("set", "post_" + key, value)

    def post_to(self, endpoint, path="/jobs", host="127.0.0.1"):
        self.set(url=endpoint.url(path, host))
        self.run_cli("post", "--on")

    def keep_secret(self, text=SECRET):
        path = os.path.join(self.folder, "secret")
        with open(os.open(path, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600), "w", encoding="ascii") as file:
            file.write(text + "\n")
        self.set(secret_file=path)
        return path

    def call_off(self, *numbers):
        for number in numbers:
            self.run_cli("job", number, "called_off", "--reason", "sold it")

    def post(self, exit_status=0, wait="20"):
        return json.loads(self.run_cli("--json", "post", "--once", "--wait", wait, status=exit_status).stdout)

    def at(self, clock):
        self.now = f"2026-03-10T{clock}Z"
