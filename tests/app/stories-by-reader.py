# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""The stories of a visit without a key: every step by what AT-SPI offers, found by its role and name, as a switch, a
voice or a screen reader takes it."""

import sys

from outside import same, tell
from reader import Atspi

ITEM = Atspi.Role.LIST_ITEM


def having(text):
    def test(name):
        return text in name
    test.__doc__ = f"… {text} …"
    return test


def to_jobs(shop):
    """Back, if a job is open."""
    shop.reader.wait_says("Keys of this page")
    if any(node.name == "HsJobPage" for node in shop.reader.window().walk()):
        shop.reader.push("Back")


def open_job(shop, number):
    to_jobs(shop)
    shop.reader.turn_to("Jobs")
    shop.reader.act(ITEM, having(f", {number}, "))
    shop.reader.wait("its page", lambda window: {number, "HsJobPage"} <= {node.name for node in window.walk()})


def read_check(shop, check, keyed, *says):
    """A reading into the field of the check that is asked for; what is said of it before it is stored."""
    shop.reader.put(having(f"{check}, "), keyed)
    shop.reader.wait_says(*says, within="HsFindings")
    shop.reader.push("store, next")
    shop.reader.wait_says(says[0], within="Readings")


def six_readings(shop):
    """Story 9: six readings of a no-start"""
    open_job(shop, "A-0022")
    shop.reader.turn_to("Findings")
    shop.reader.push("Will not start", within="HsFindings")
    read_check(shop, "Battery at rest", "1242", "12.42", "within", "71 %")
    for check, keyed, says in [
        ("Battery strength", "221", "221"), ("Cranking volts", "890", "8.90"), ("Feed side drop", "31", "0.31"),
        ("Ground side drop", "12", "0.12"), ("Starter draw", "186", "186"),
    ]:
        read_check(shop, check, keyed, says)
    same({check: value for check, (value, word) in shop.readings("A-0022").items()},
         {"battery_rest": 12.42, "battery_strength": 221, "cranking": 8.9, "drop_feed": 0.31,
          "drop_ground": 0.12, "starter_draw": 186}, "readings")


def days_to_no_start(shop):
    """Story 20: what a draw comes to in days, and that a new battery would not cure it"""
    open_job(shop, "A-0024")
    shop.reader.turn_to("Findings")
    shop.reader.push("Drains overnight", within="HsFindings")
    shop.reader.act(ITEM, having(", Sleeping draw, "))
    read_check(shop, "Sleeping draw", "310", "0.310", "3.2 days to no-start")
    shop.reader.wait_says("cover ended 17 days ago", "Replacing it (211.01) would not cure a draw of 0.310 A")
    shop.reader.press_in("After")
    shop.reader.act(ITEM, having(", Sleeping draw, "))
    read_check(shop, "Sleeping draw", "24", "0.024", "41.7 days to no-start")
    same(shop.readings("A-0024")["sleeping_draw"][0], 0.31, "the draw before")
    same(shop.readings("A-0024", "after")["sleeping_draw"][0], 0.024, "the draw after")


sys.exit(tell([six_readings, days_to_no_start]))
