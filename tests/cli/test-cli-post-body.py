# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""The message about a job against data/post/job.schema.json, by a validator that shares nothing with us: every job of
the demo is accepted, with everything shown and with nothing, and each kind of broken message is refused."""

import copy
import json
import os
import struct
import unittest
import zlib

import tap
from halfshaft import DemoCase

try:
    import jsonschema
except ImportError:
    jsonschema = None

JOBS = [f"A-{number:04d}" for number in range(1, 27)]
SWITCHES = ("phone", "street", "signature", "photos", "costs")


def pixel():
    """The smallest photo there is: one white dot, as PNG."""
    def chunk(kind, data):
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))
    return (b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", struct.pack(">IIBBBBB", 1, 1, 8, 2, 0, 0, 0))
            + chunk(b"IDAT", zlib.compress(b"\0\xff\xff\xff")) + chunk(b"IEND", b""))


def schema():
    with open(os.environ["HS_POST_SCHEMA"], encoding="utf-8") as file:
        return json.load(file)


@unittest.skipUnless(jsonschema, "python3-jsonschema is not installed")
class Body(DemoCase):
    def setUp(self):
        super().setUp()
        found = schema()
        jsonschema.Draft202012Validator.check_schema(found)
        self.validator = jsonschema.Draft202012Validator(found)

    def body(self, number):
        text = self.run_cli("outbox", number, "--body").stdout
        self.assertEqual(text.count("\n"), 1)
        return json.loads(text)

    def assert_valid(self, body):
        faults = [f"{list(fault.absolute_path)}: {fault.message[:200]}" for fault in self.validator.iter_errors(body)]
        self.assertEqual(faults, [])

    def test_every_job_of_the_demo(self):
        seen = set()
        for number in JOBS:
            body = self.body(number)
            self.assert_valid(body)
            self.assertEqual(body["held_back"], list(SWITCHES))
            seen.add(body["id"])
        self.assertEqual(len(seen), len(JOBS))

    def test_everything_shown(self):
        for switch in SWITCHES:
            self.run_cli("set", "post_" + switch, "yes")
        path = os.path.join(self.folder, "pixel.png")
        with open(path, "wb") as file:
            file.write(pixel())
        self.run_cli("job", "A-0021", "rolling")
        self.run_cli("job", "A-0021", "on_site")
        self.run_cli("photo", "A-0021", path)
        phones = fees = costs = 0
        for number in JOBS:
            body = self.body(number)
            self.assert_valid(body)
            self.assertEqual(body["held_back"], [])
            phones += len(body["customer"]["phones"])
            costs += sum(line["cost"]["minor"] for line in body["lines"])
            fees += sum(payment["fee"]["minor"] for payment in body["payments"])
        self.assertGreater(phones, 20)
        self.assertGreater(costs, 10000)
        self.assertGreaterEqual(fees, 0)
        self.assertEqual(len(self.body("A-0021")["photos"]), 1)
        self.assertTrue(self.body("A-0021")["photos"][0]["data"])

    def test_each_switch_alone(self):
        for switch in SWITCHES:
            self.run_cli("set", "post_" + switch, "yes")
            body = self.body("A-0004")
            self.assert_valid(body)
            self.assertEqual(body["held_back"], [name for name in SWITCHES if name != switch])
            self.run_cli("set", "post_" + switch, "no")

    def test_printed_as_it_is(self):
        """What would do harm on a terminal is escaped, so that it reads back as what is posted."""
        words = "a\u202eb\u2028c\x1fd\x7fe\U000e0001f \u00e9\U0001f527"
        self.now = "2026-03-10T06:45"
        self.run_cli("job", "take", "--phone", "555-0199", "--name", "Rue Abernant", "--words", words)
        text = self.run_cli("outbox", "A-0027", "--body").stdout
        self.assertEqual(json.loads(text)["job"]["words"], words)
        for sign in "\u202e\u2028\x1f\x7f\U000e0001":
            self.assertNotIn(sign, text)

    def test_position_in_place_of_an_area(self):
        self.now = "2026-03-10T06:45"
        for street in ("no", "yes"):
            self.run_cli("set", "post_street", street)
            self.run_cli("job", "take", "--phone", "555-0199", "--name", "Rue Abernant", "--words", f"hums {street}",
                         "--area", "41.40338, -81.17403")
            body = self.body("A-0027")
            self.assert_valid(body)
            told = [body["job"]["area_id"], body["job"]["area_name"], body["customer"]["area_id"]]
            self.assertEqual(told, [None if street == "no" else "41.40338,-81.17403"] * 3)

    def test_broken_ones_are_refused(self):
        whole = self.body("A-0004")
        self.assert_valid(whole)

        def without(name):
            return lambda body: body.pop(name)

        def put(*path):
            def change(body):
                *way, last, value = path
                for step in way:
                    body = body[step]
                body[last] = value
            return change

        broken = {
            "no id": without("id"),
            "no revision": without("revision"),
            "no currency": without("currency"),
            "no lines": without("lines"),
            "another format": put("format", "job"),
            "another version": put("version", 2),
            "an id that is no UUID": put("id", "A-0004"),
            "an id with a line break": put("id", whole["id"] + "\n"),
            "an instant with a line break": put("job", "changed_at", "2026-03-10T10:45:00Z\n"),
            "a date with a line break": put("invoices", 0, "issued_on", "2026-03-10\n"),
            "a currency with a line break": put("currency", "USD\n"),
            "an id in capitals": put("id", whole["id"].upper() + "A"),
            "revision 0": put("revision", 0),
            "a revision as text": put("revision", str(whole["revision"])),
            "money as a number": put("lines", 0, "price", 42),
            "money with a point": put("lines", 0, "price", "minor", 426.91),
            "money as text": put("lines", 0, "price", "minor", "42691"),
            "money without currency": put("lines", 0, "price", {"minor": 42691}),
            "a currency in words": put("currency", "dollar"),
            "an instant with an offset": put("job", "changed_at", "2026-03-10T06:45:00-04:00"),
            "an instant without a zone": put("job", "changed_at", "2026-03-10T10:45:00"),
            "an instant as a number": put("job", "changed_at", 1773139500),
            "an hour that is none": put("job", "changed_at", "2026-03-10T24:45:00Z"),
            "a month that is none": put("invoices", 0, "issued_on", "2026-13-01"),
            "a date with a time": put("invoices", 0, "issued_on", "2026-03-10T00:00:00Z"),
            "no such stage": put("job", "stage", "closed"),
            "no such kind of line": put("lines", 0, "kind", "tip"),
            "a customer without a name": put("customer", "name", ""),
            "no customer": put("customer", None),
            "something unknown": put("extra", 1),
            "something unknown in a line": put("lines", 0, "extra", 1),
            "no such thing held back": put("held_back", ["phone", "street", "signature", "photos", "costs", "name"]),
            "held back twice": put("held_back", ["phone", "phone", "street", "signature", "photos", "costs"]),
            "a phone that is held back": put("customer", "phones", []),
            "an e-mail that is held back": put("customer", "email", None),
            "a street that is held back": put("job", "street", None),
            "a gate code that is held back": put("customer", "access_note", "1234"),
            "a position that is held back": put("job", "area_id", "41.40338,-81.17403"),
            "a position of a customer that is held back": put("customer", "area_id", "-1.00000,2.50000"),
            "a signature that is held back": put("go_aheads", 0, "signature", None),
            "photos that are held back": put("photos", []),
            "a cost that is held back": put("lines", 0, "cost", {"minor": 1, "currency": "USD"}),
            "a fee that is held back": put("payments", 0, "fee", {"minor": 1, "currency": "USD"}),
        }
        self.assert_refused(whole, broken)
        self.assertGreaterEqual(len(broken), 20)

    def assert_refused(self, whole, broken):
        for name, change in broken.items():
            body = copy.deepcopy(whole)
            change(body)
            with self.subTest(name):
                self.assertFalse(self.validator.is_valid(body), name)

    def test_shown_and_left_out(self):
        """What is not held back is there, if only as null: what is missing says nothing."""
        for switch in SWITCHES:
            self.run_cli("set", "post_" + switch, "yes")
        whole = self.body("A-0004")
        self.assert_valid(whole)
        self.assert_refused(whole, {
            "phones": lambda body: body["customer"].pop("phones"),
            "e-mail": lambda body: body["customer"].pop("email"),
            "street of the job": lambda body: body["job"].pop("street"),
            "gate code of the job": lambda body: body["job"].pop("access_note"),
            "street": lambda body: body["customer"].pop("street"),
            "gate code": lambda body: body["customer"].pop("access_note"),
            "signature": lambda body: body["go_aheads"][0].pop("signature"),
            "photos": lambda body: body.pop("photos"),
            "cost": lambda body: body["lines"][0].pop("cost"),
            "fee": lambda body: body["payments"][0].pop("fee"),
        })


if __name__ == "__main__":
    tap.main()
