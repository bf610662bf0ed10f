# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""A whole visit of somebody who never called before, from the ring to the receipt, and a usual job: by keys alone with
the presses counted, and through AT-SPI alone."""

import sys

import by_keys
import by_reader
from outside import at_most, same, tell
from reader import Atspi

WORDS = "clicks, no crank"


def check_end(shop, number, name, plate):
    job = shop.wait_job(number, "squared up and paid", lambda job: job if job["stage"] == "squared"
                        and job["paid_cents"] > 0 else None)
    same((job["customer"], job["plate"], job["words"]), (name, plate, WORDS), "whose it is")
    same([(reading["check"], reading["phase"], reading["value"]) for reading in job["readings"]],
         [("battery_rest", "before", 11.95), ("battery_rest", "after", 12.66)], "readings")
    same(job["chain"]["sentences"], [f"The reason for “{WORDS}”: battery worn (seen: it is swollen); this was put "
                                     "right on this visit."], "why it failed")
    same((job["net_cents"], job["tax_cents"], job["paid_cents"]), (6000, 0, 6000), "the bill")
    same([given["ceiling_cents"] for given in job["go_ahead"]["given_by"]], [20000], "the go-ahead")


def visit_by_keys(shop):
    """A visit by keys, from the ring to the receipt"""
    keys, reader = shop.keys, shop.reader
    number = shop.next_number()
    by_keys.leave_job(shop)
    keys.take_count()
    keys.press("F3")
    reader.wait_focus("the slip", lambda node: node.name == "Phone")
    keys.pad("5550190\n")
    keys.type(f"Orla Fenwick\n{WORDS}\nTDM 9090\n3 Loom Lane\nold")
    keys.press("Tab", "Tab")
    reader.wait_focus("the day", lambda node: node.name == "Day")
    keys.press("Enter")
    reader.wait_focus("the days", lambda node: node.role == Atspi.Role.LIST_ITEM)
    keys.press("Down", "Enter")
    reader.wait_focus("the day", lambda node: node.name == "Day")
    keys.press("Tab")
    keys.pad("9\n11\n60\n")
    reader.wait_focus("the complaint", lambda node: node.name == "Will not start")
    keys.pad("1")
    keys.press("F4")
    reader.wait("no slip", lambda window: window.name != "Call slip")
    shop.wait_job(number, "given a time", lambda job: job["stage"] == "promised")
    keys.pad(f"{int(number[2:])}\n")
    by_keys.wait_page(shop, number)
    by_keys.arrive(shop, number)
    keys.press("PageDown")
    reader.wait_says("· 1 of ", within="Measuring")
    keys.pad("1195\n")
    reader.wait_says("Battery at rest, 11.95 V", within="Readings")
    keys.press("F9")
    reader.wait_focus("the chain", lambda node: "no cause is written down yet" in node.name)
    by_keys.add_cause(shop, "battery worn", "it is swollen")
    reader.wait_focus("its end", lambda node: node.name.startswith("battery worn; "))
    keys.pad("7")
    keys.press("F9", "F9")
    reader.wait_focus("a field", lambda node: node.role == Atspi.Role.TEXT)
    keys.pad("++1266\n")
    shop.wait_job(number, "a second reading", lambda job: len(job["readings"]) == 2)
    keys.press("PageDown")
    reader.wait_says("no go-ahead yet")
    by_keys.give_go_ahead(shop, "200")
    reader.wait_says("room for 200.00")
    keys.press("F4")
    reader.wait_says("Left open: Try the complaint again, five times or more.")
    keys.press("F4")
    shop.wait_job(number, "tested good", lambda job: job["stage"] == "proven")
    keys.press("PageDown")
    reader.wait_says("Price It from the Clock and the Parts")
    keys.pad("1")
    reader.wait_says("Call-out")
    keys.pad("3")
    reader.wait_says("Squaring up is for good")
    keys.pad("\n")
    reader.wait_says("Paid: cash")
    keys.pad("1\n")
    presses = keys.take_count()
    check_end(shop, number, "Orla Fenwick", "TDM 9090")
    at_most(presses, 160, "presses")
    letters = len(f"Orla Fenwick{WORDS}TDM 90903 Loom Laneoldbattery wornit is swollen")
    return f"{presses} presses, {letters} of them letters"


def usual_by_keys(shop):
    """A usual job by keys, from the ring to the receipt"""
    keys, reader, number = shop.keys, shop.reader, shop.next_number()
    by_keys.leave_job(shop)
    keys.take_count()
    keys.press("F3")
    reader.wait_focus("the slip", lambda node: node.name == "Phone")
    keys.pad("0111\n")
    keys.press("F6")
    reader.wait_says("Jump start · 65.00")
    for key, says in (("1", "Does the customer say yes"), ("1", "is it safe?"), ("6", "lamp left on"),
                      ("1", "Key turned to start: starts"), ("1", "on account"),
                      ("1", "Jump start · lamp left on · Key turned to start: starts · cash")):
        keys.pad(key)
        reader.wait_says(says)
    keys.pad("\n")
    reader.wait_says("To pay 0.00")
    presses = keys.take_count()
    job = shop.job(number)
    same((job["stage"], job["paid_cents"]), ("squared", 6500), "the usual job")
    at_most(presses, 15, "presses")
    keys.pad("\n")
    return f"{presses} presses"


def visit_by_reader(shop):
    """The same visit without a key"""
    reader = shop.reader
    number = shop.next_number()
    by_reader.to_jobs(shop)
    reader.push("New Call")
    for field, text in (("Phone", "5550191"), ("Name", "Perrin Holt"), ("What the caller says", WORDS),
                        ("Plate", "TDM 9191"), ("Street", "3 Loom Lane")):
        reader.put(field, text, within="Call slip")
    reader.push("Will not start", within="Call slip")
    shop.wait_job(number, "written down", lambda job: job["group"] == "will_not_start")
    reader.push("Back to It")
    by_reader.open_job(shop, number)
    reader.push("Next stage")
    reader.wait_says(f"{number}: Penciled in")
    reader.push("Next stage")
    reader.push("Rolling", within=f"{number}: where it goes")
    reader.push(f"{number}: At the vehicle")
    by_reader.read_list(shop, number)
    reader.turn_to("Findings")
    by_reader.read_check(shop, "Battery at rest", "1195", "11.95")
    reader.turn_to("Why it failed")
    reader.push("Add a Because")
    by_reader.add_cause(shop, "battery worn", "it is swollen")
    reader.wait_says("1 end, 1 open")
    reader.push("cured")
    reader.wait_says("1 end, all settled")
    reader.turn_to("Readings")
    reader.press_in("After")
    by_reader.read_check(shop, "Battery at rest", "1266", "12.66")
    reader.turn_to("Choices")
    by_reader.give_go_ahead(shop, "200")
    reader.wait_says("room for 200.00")
    reader.push("Next stage")
    reader.wait_says("Left open: Try the complaint again, five times or more.")
    reader.push("Next stage")
    shop.wait_job(number, "tested good", lambda job: job["stage"] == "proven")
    reader.turn_to("Bill")
    reader.push("Price It from the Clock and the Parts")
    reader.wait_says("Call-out")
    reader.push("Square Up")
    reader.wait_says("Total, as it will be frozen", "Squaring up is for good")
    reader.push("Square Up", within=f"{number}: square up?")
    reader.push("Paid: cash")
    reader.push("Write It Down")
    check_end(shop, number, "Perrin Holt", "TDM 9191")


def usual_by_reader(shop):
    """The usual job without a key"""
    reader, number = shop.reader, shop.next_number()
    by_reader.to_jobs(shop)
    reader.push("New Call")
    reader.put("Phone", "0111", within="Call slip")
    reader.push("Usual Job")
    for says, choice in (("Jump start", "Jump start · 65.00"), ("Does the customer say yes", "Yes, on the phone"),
                         ("is it safe?", by_reader.having("No flame near fuel")),
                         ("Why did it happen?", "lamp left on"), ("Not tested", "Key turned to start: starts"),
                         ("How is it paid?", "cash"), ("Square it up?", "Square Up")):
        reader.wait_says(says)
        reader.push(choice, within="Usual Job")
    reader.wait_says("To pay 0.00")
    job = shop.job(number)
    same((job["stage"], job["paid_cents"]), ("squared", 6500), "the usual job")


sys.exit(tell([visit_by_keys, visit_by_reader, usual_by_keys, usual_by_reader]))
