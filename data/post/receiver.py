#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""Takes the posts of all vans into PostgreSQL, behind a web server that does https: see ENDPOINT.md."""

import hmac
import http.server
import json
import psycopg2
import sys

UPSERT = """INSERT INTO job (id, revision, number, stage, body) VALUES (%s, %s, %s, %s, %s)
ON CONFLICT (id) DO UPDATE SET revision = excluded.revision, number = excluded.number, stage = excluded.stage,
  body = excluded.body, received_at = now() WHERE job.revision < excluded.revision"""
NO_JOB = ValueError, LookupError, TypeError, RecursionError, psycopg2.DataError, psycopg2.IntegrityError
MOST_BYTES = 40 << 20


def keep(text):
    message = json.loads(text)
    job = message["job"]
    db = psycopg2.connect(DATABASE)
    try:
        with db, db.cursor() as cursor:  # taken once this is over: only then it is answered
            cursor.execute(UPSERT, (message["id"], message["revision"], job["number"], job["stage"], text))
    finally:
        db.close()


class Handler(http.server.BaseHTTPRequestHandler):
    timeout = 60

    def answer(self, status, detail="", **headers):
        body = json.dumps({"title": detail, "status": status}).encode() if detail else b""
        self.send_response(status)
        for name, value in {"Content-Type": "application/problem+json", "Content-Length": len(body), **headers}.items():
            self.send_header(name.replace("_", "-"), str(value))
        self.end_headers()
        self.wfile.write(body)

    def do_POST(self):
        length = self.headers.get("Content-Length", "")
        if not length.isdecimal() or int(length) > MOST_BYTES:
            return self.answer(413, "too long, or of no length")
        text = self.rfile.read(int(length))
        if not hmac.compare_digest(self.headers.get("Authorization", "").encode(), b"Bearer " + TOKEN):
            return self.answer(401, "wrong token", WWW_Authenticate="Bearer")
        try:
            keep(text.decode("utf-8"))
        except NO_JOB as error:
            return self.answer(422, f"no job: {error}".splitlines()[0])
        except psycopg2.Error:
            return self.answer(503, "the database does not answer", Retry_After=60)
        return self.answer(204)


PORT, DATABASE = int(sys.argv[1]), sys.argv[3]
with open(sys.argv[2], "rb") as file:
    TOKEN = file.readline().strip()
http.server.ThreadingHTTPServer(("127.0.0.1", PORT), Handler).serve_forever()
