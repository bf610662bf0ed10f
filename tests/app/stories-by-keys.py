# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""The stories of a visit by true key presses and nothing else: what is read back is what a person would look at before
the next key."""

import sys

from outside import at_most, same, tell

TABS = ["Call", "Findings", "Choices", "Bill", "Before and after"]


def leave_job(shop):
    while any(node.name == "HsJobPage" for node in shop.reader.window().walk()):
        shop.keys.press("Esc")
        shop.reader.wait("the job is left", lambda window: all(node.name != "HsJobPage" for node in window.walk()))


def open_job(shop, number):
    """From the board."""
    leave_job(shop)
    shop.keys.press("Ctrl+1")
    shop.reader.wait_says("Squared up")
    shop.go_to("Tab", f", {number}, ")
    shop.keys.press("Enter")
    shop.reader.wait("its page", lambda window: {number, "HsJobPage"} <= {node.name for node in window.walk()})


def turn_to(shop, tab):
    """By Page Down, round about."""
    while shop.reader.wait("a tab", shown_tab) != tab:
        before = shown_tab(shop.reader.window())
        shop.keys.press("PageDown")
        shop.reader.wait("another tab", lambda window: shown_tab(window) != before)


def shown_tab(window):
    return next((node.name for node in window.walk() if node.name in TABS and node.is_shown_tab()), None)


def six_readings(shop):
    """Story 9: six readings of a no-start on the number pad"""
    open_job(shop, "A-0022")
    turn_to(shop, "Findings")
    shop.reader.wait_says("What does it do, or not do?")
    shop.keys.take_count()
    shop.keys.pad("1")
    shop.reader.wait_focus("the first field", lambda node: node.name.startswith("Battery at rest, "))
    shop.keys.pad("1242")
    shop.reader.wait_says("12.42", "within", "71 %", within="HsFindings")
    shop.keys.pad("\n221\n890\n31\n12\n186\n")
    presses = shop.keys.take_count()
    shop.reader.wait_says("6, Starter draw, 186 A", within="Readings")
    at_most(presses, 40, "presses")
    same({check: value for check, (value, word) in shop.readings("A-0022").items()},
         {"battery_rest": 12.42, "battery_strength": 221, "cranking": 8.9, "drop_feed": 0.31,
          "drop_ground": 0.12, "starter_draw": 186}, "readings")
    return f"{presses} presses"


def days_to_no_start(shop):
    """Story 20: what a draw comes to in days, and that a new battery would not cure it"""
    open_job(shop, "A-0024")
    turn_to(shop, "Findings")
    shop.keys.pad("2")
    shop.reader.wait_focus("the first field", lambda node: node.name.startswith("Battery at rest, "))
    shop.go_to("Down", "Sleeping draw, ")
    shop.keys.pad("310")
    shop.reader.wait_says("3.2 days to no-start", within="HsFindings")
    shop.keys.pad("\n")
    shop.reader.wait_says("cover ended 17 days ago", "Replacing it (211.01) would not cure a draw of 0.310 A")
    shop.keys.pad("++")
    shop.reader.wait("after the repair", lambda window: any(
        node.name == "After" and node.is_down() for node in window.walk()))
    shop.go_to("Down", "Sleeping draw, ")
    shop.keys.pad("24")
    shop.reader.wait_says("41.7 days to no-start", within="HsFindings")
    shop.keys.pad("\n")
    shop.reader.wait_says("Sleeping draw, 0.024 A", within="Readings")
    same(shop.readings("A-0024")["sleeping_draw"][0], 0.31, "the draw before")
    same(shop.readings("A-0024", "after")["sleeping_draw"][0], 0.024, "the draw after")


sys.exit(tell([six_readings, days_to_no_start]))
