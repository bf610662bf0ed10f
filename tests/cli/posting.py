# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""An endpoint of our own that keeps what it is sent, and fails in whatever way a test wants; certificates to go with
it; a book that posts there."""

import http.server
import json
import os
import shutil
import socket
import ssl
import subprocess
import threading
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
        self.lock = threading.Lock()
        self.jobs = {}
        self.order = []
        self.again = 0
        self.heads = []
        self.bodies = []

    def take(self, head, body):
        message = json.loads(body)
        with self.lock:
            self.heads.append(head)
            self.bodies.append(body)
            held = self.jobs.get(message["id"])
            if held is not None and held["revision"] >= message["revision"]:
                self.again += 1
                return
            self.jobs[message["id"]] = message
            self.order.append(message["job"]["number"])


class Endpoint:
    """Answers by `script`, a list of functions of a handler; when it is empty, all are taken with 201."""

    def __init__(self, certificate=None):
        self.receiver = Receiver()
        self.script = []
        self.connections = 0
        self.most_at_once = 0
        self.at_once = 0
        self.lock = threading.Lock()
        endpoint = self

        class Handler(http.server.BaseHTTPRequestHandler):
            protocol_version = "HTTP/1.1"
            timeout = 30

            def log_message(self, format, *args):
                pass

            def do_POST(self):
                endpoint.serve(self)

            do_PUT = do_POST

            def reply(self, status, body=b"", **headers):
                self.send_response(status)
                for name, value in headers.items():
                    self.send_header(name.replace("_", "-"), value)
                self.send_header("Content-Length", str(len(body)))
                self.end_headers()
                self.wfile.write(body)

        class Server(http.server.ThreadingHTTPServer):
            daemon_threads = True

            def handle_error(self, request, client_address):
                pass

            def get_request(self):
                connection, address = super().get_request()
                endpoint.connections += 1
                if certificate is not None:
                    connection = endpoint.context.wrap_socket(connection, server_side=True,
                                                              do_handshake_on_connect=False)
                return connection, address

        if certificate is not None:
            self.context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
            self.context.load_cert_chain(*certificate)
        self.server = Server(("127.0.0.1", 0), Handler)
        self.port = self.server.server_address[1]
        self.scheme = "http" if certificate is None else "https"
        threading.Thread(target=self.server.serve_forever, kwargs={"poll_interval": 0.02}, daemon=True).start()

    def url(self, path="/jobs", host="127.0.0.1"):
        return f"{self.scheme}://{host}:{self.port}{path}"

    def serve(self, handler):
        with self.lock:
            self.at_once += 1
            self.most_at_once = max(self.most_at_once, self.at_once)
            step = self.script.pop(0) if self.script else None
        try:
            handler.body = handler.rfile.read(int(handler.headers["Content-Length"]))
            if step is not None:
                step(self, handler)
            else:
                self.take(handler)
                handler.reply(201)
        finally:
            with self.lock:
                self.at_once -= 1

    def take(self, handler):
        self.receiver.take({"method": handler.command, "path": handler.path, **handler.headers}, handler.body)

    def close(self):
        self.server.shutdown()
        self.server.server_close()


def status(number, body=b"", **headers):
    """Answers so and takes nothing."""
    return lambda endpoint, handler: handler.reply(number, body, **headers)


def problem(number, **members):
    return status(number, json.dumps(members).encode(), Content_Type="application/problem+json")


def raw(text, then=None):
    """Bytes as they are, then the connection ends."""
    def step(endpoint, handler):
        handler.wfile.write(text)
        if then is not None:
            then(handler)
        handler.close_connection = True
    return step


def lost(endpoint, handler):
    """Kept, but the answer never arrives."""
    endpoint.take(handler)
    handler.connection.shutdown(socket.SHUT_RDWR)
    handler.close_connection = True


def slow(seconds):
    def step(endpoint, handler):
        endpoint.take(handler)
        time.sleep(seconds)
        handler.reply(201)
    return step


def for_ever(piece):
    def run(handler):
        try:
            while True:
                handler.wfile.write(piece)
        except OSError:
            pass
    return run


class PostCase(DemoCase):
    """The demo posts to an endpoint of our own; its clock is said with each command."""

    def setUp(self):
        super().setUp()
        self.now = "2026-03-10T10:45:00Z"
        self.runtime = os.path.join(self.folder, "runtime")
        os.mkdir(self.runtime, 0o700)
        before = {name: os.environ.get(name) for name in ("XDG_RUNTIME_DIR", "no_proxy")}
        os.environ.update(XDG_RUNTIME_DIR=self.runtime, no_proxy="*")
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
