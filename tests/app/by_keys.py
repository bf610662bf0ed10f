# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""The stories of a visit by true key presses and nothing else: what is read back is what a person would look at before
the next key."""

import sys

from outside import at_most, same, tell

TABS = ["Call", "Findings", "Choices", "Bill", "Before and after"]


def leave_job(shop):
    while any(node.name == "Job page" for node in shop.reader.window().walk()):
        shop.keys.press("Esc")
        shop.reader.wait("the job is left", lambda window: all(node.name != "Job page" for node in window.walk()))


def open_job(shop, number):
    """From the board."""
    leave_job(shop)
    shop.keys.press("Ctrl+1")
    shop.reader.wait_says("Squared up")
    shop.go_to("Tab", f", {number}, ")
    shop.keys.press("Enter")
    wait_page(shop, number)


def wait_page(shop, number):
    shop.reader.wait("its page", lambda window: {number, "Job page"} <= {node.name for node in window.walk()})


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
    shop.reader.wait_says("12.42", "within", "71 %", within="Measuring")
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
    shop.reader.wait_says("3.2 days to no-start", within="Measuring")
    shop.keys.pad("\n")
    shop.reader.wait_says("cover ended 17 days ago", "Replacing it (211.01) would not cure a draw of 0.310 A")
    shop.keys.pad("++")
    shop.reader.wait("after the repair", lambda window: any(
        node.name == "After" and node.is_down() for node in window.walk()))
    shop.go_to("Down", "Sleeping draw, ")
    shop.keys.pad("24")
    shop.reader.wait_says("41.7 days to no-start", within="Measuring")
    shop.keys.pad("\n")
    shop.reader.wait_says("Sleeping draw, 0.024 A", within="Readings")
    same(shop.readings("A-0024")["sleeping_draw"][0], 0.31, "the draw before")
    same(shop.readings("A-0024", "after")["sleeping_draw"][0], 0.024, "the draw after")


def open_past_job(shop, number, plate):
    """From the history of its vehicle."""
    leave_job(shop)
    shop.keys.press("Ctrl+F")
    shop.reader.wait_focus("the search", lambda node: node.name.startswith("Find a vehicle"))
    shop.keys.press("Ctrl+A")
    shop.keys.pad(plate)
    shop.reader.wait_says("1 found")
    shop.keys.pad("\n")
    shop.go_to("Shift+Tab", f" {number} ")
    shop.keys.press("Enter")
    wait_page(shop, number)


def read_list(shop, number):
    """The safety list, a line at a time, and that it is safe."""
    for item in shop.job(number)["safety"]["items"]:
        if item["answer"] is None:
            shop.reader.wait_focus(item["item"], lambda node, words=item["words"]: node.name.startswith(words))
            shop.keys.pad("\n")
    shop.reader.wait_focus("that it is safe", lambda node: node.name == "Safe Here")
    shop.keys.pad("\n")
    shop.reader.wait_says(f"{number}: Safe here")


def arrive(shop, number):
    """Although another promise may be broken by it, which is asked first."""
    shop.keys.press("F4")
    asked, way = f"Roll to {number} now?", f"On the way to {number}"
    if shop.reader.wait("a window", lambda window: window.name in (asked, way) and window.name) == asked:
        shop.keys.pad("1")
        shop.reader.wait_says(way)
    shop.keys.press("F4")
    shop.reader.wait_says(f"{number}: make safe")
    read_list(shop, number)


def show_why(shop):
    """From whichever face of the findings."""
    turn_to(shop, "Findings")
    while not any(node.name == "Why-chain" for node in shop.reader.window().walk()):
        shop.keys.press("F9")
        shop.reader.wait("another face", lambda window: all(node.name != "Measuring" for node in window.walk()))
    shop.reader.wait_focus("the chain", lambda node: "; level " in node.name or "no cause" in node.name)


def add_cause(shop, what, seen):
    shop.keys.press("Enter")
    shop.reader.wait_says("What is behind ")
    shop.keys.type(f"{what}\n3{seen}\n")


def chain_of_links(shop):
    """Story 11: five links in at most six sentences; an empty proof; two ends"""
    open_past_job(shop, "A-0013", "6613")
    show_why(shop)
    shop.reader.wait_says("6 sentences, made from the chain", "3 ends, all settled")
    chain = shop.job("A-0013")["chain"]
    same(len([link for link in chain["links"] if not link["ruled_out"]]), 5, "links")
    same(len(chain["sentences"]), 6, "sentences")
    shop.reader.wait_says(" ".join(chain["sentences"]))
    for _ in range(5):
        shop.keys.press("Right")
    shop.reader.wait_focus("the last link", lambda node: node.name.startswith("topped up with plain water"))

    open_job(shop, "A-0021")
    arrive(shop, "A-0021")
    show_why(shop)
    add_cause(shop, "ground strap rotten", "")
    shop.reader.wait_says("one click, no crank ← ground strap rotten needs a proof")
    same(shop.job("A-0021")["because"], [], "links without a proof")
    shop.keys.type("green under its jacket\n")
    shop.reader.wait_focus("the first end", lambda node: node.name.startswith("ground strap rotten; "))
    shop.keys.press("Left")
    shop.reader.wait_focus("the complaint", lambda node: "; level 1; " in node.name)
    add_cause(shop, "starter relay sticks", "stays warm")
    shop.reader.wait_focus("the second end", lambda node: node.name.startswith("starter relay sticks; "))
    shop.keys.pad("7")
    shop.reader.wait_says("2 ends, 1 open")
    shop.keys.press("F9", "F9")
    shop.reader.wait_says("What does it do, or not do?", within="Measuring")
    shop.keys.pad("1")
    shop.reader.wait_focus("the first field", lambda node: node.name.startswith("Battery at rest, "))
    shop.keys.pad("++1266\n")
    shop.wait_job("A-0021", "a reading after the repair",
                  lambda job: [reading["phase"] for reading in job["readings"]] == ["after"])
    shop.keys.press("F4")
    # It came to the list with the complaint.
    shop.reader.wait_says("The safety list of this visit is not done: “Fuel pressure”.", "Go to the Safety List")
    shop.keys.pad("0")
    shop.reader.wait_says("No flame near fuel; no line is opened under pressure.")
    read_list(shop, "A-0021")
    shop.keys.press("F4")
    shop.reader.wait_says("Why it failed is still open at “ground strap rotten”.")
    same(shop.job("A-0021")["stage"], "on_site", "the stage with an open end")
    shop.keys.press("Esc")
    shop.reader.wait("its page", lambda window: any(node.name == "Measuring" for node in window.walk()))
    show_why(shop)
    shop.go_to("Up", "ground strap rotten; number")
    shop.keys.pad("0")
    shop.reader.wait_says("2 ends, all settled", "things still to do before Tested good")
    shop.keys.press("F4")
    shop.reader.wait_says("Left open: Try the complaint again, five times or more.")
    shop.keys.press("F4")
    shop.wait_job("A-0021", "tested good", lambda job: job["stage"] == "proven")


def give_go_ahead(shop, ceiling):
    shop.keys.pad("/")
    shop.reader.wait_focus("the ways", lambda node: node.name == "signed on screen")
    shop.keys.pad("4.")
    shop.reader.wait_focus("the ceiling", lambda node: node.name == "Up to how much, with tax")
    shop.keys.pad(f"{ceiling}\n")


def answer_yes(shop):
    """By phone, without the new go-ahead that is offered: it is never presumed."""
    shop.keys.pad("1")
    shop.reader.wait_says("The Answer")
    shop.keys.pad("14\n")


def stop_at_ceiling(shop):
    """Story 14: 211.01 against a ceiling of 200.00, then of 220.00"""
    open_job(shop, "A-0024")
    turn_to(shop, "Choices")
    shop.keys.pad("+")
    shop.reader.wait_focus("its words", lambda node: node.name == "What it is")
    shop.keys.type("New battery\n")
    shop.reader.wait_focus("its rank", lambda node: node.name == "Best")
    shop.keys.type("73call-out\n2battery\n35\n1battery\n74\n")
    shop.reader.wait_says("211.01")
    shop.keys.press("F4")
    shop.reader.wait_says("New battery", "no go-ahead yet")
    give_go_ahead(shop, "200")
    shop.reader.wait_says("brings the job to 211.01: short by 11.01")
    answer_yes(shop)
    shop.reader.wait_says("The job comes to 211.01 and the go-ahead by Wilhelmina Sorrel covers 200.00: short by 11.01")
    same(shop.job("A-0024")["choices"][0]["answer"], "open", "the answer above the ceiling")
    shop.keys.press("Esc")
    shop.reader.wait_says("room for 200.00")
    give_go_ahead(shop, "220")
    shop.reader.wait_says("room for 220.00")
    answer_yes(shop)
    shop.reader.wait_says("room for 8.99", "yes · Wilhelmina Sorrel · phone")
    job = shop.job("A-0024")
    same([given["ceiling_cents"] for given in job["go_ahead"]["given_by"]], [20000, 22000], "both go-aheads")
    same(job["go_ahead"]["used_cents"], 21101, "what it comes to")


def better_and_cheaper(shop):
    """Story 13: what was declined and picked, and what it came to"""
    open_past_job(shop, "A-0013", "6613")
    turn_to(shop, "Choices")
    shop.reader.wait_says("520.94", "153.79", "no · Bram Hark · signed on screen · Feb 3, 09:36",
                          "yes · Bram Hark · signed on screen · Feb 3, 09:36",
                          "New belt will be wetted again; expect the lamp back within weeks")
    picked = [(choice["answer"], choice["price_cents"], choice["by"]) for choice in shop.job("A-0013")["choices"]]
    same(picked, [("no", 52094, "Bram Hark"), ("yes", 15379, "Bram Hark")], "choices")
    open_past_job(shop, "A-0020", "6613")
    turn_to(shop, "Choices")
    shop.reader.wait_says("Declined on A-0013, 23 days before: Water pump, belt and coolant, 520.94.",
                          "674.73 in all over both visits, 153.79 extra.",
                          "This is the return visit: declined earlier")
    declined = shop.job("A-0020")["declined"][0]
    same([declined[key] for key in ("days", "in_all_cents", "extra_cents", "return_why")],
         [23, 67473, 15379, "declined_earlier"], "what it came to")


def unproved_needs_reason(shop):
    """Story 16: not tested good without a reading after the repair or a reason, which then stands on the sheet"""
    open_job(shop, "A-0022")
    arrive(shop, "A-0022")
    shop.keys.press("F4")
    shop.reader.wait_says("There is no reading after the repair. Take one, or write down why it could not be tested.")
    shop.keys.press("Esc")
    shop.reader.wait("its page", lambda window: any(node.name == "Job page" for node in window.walk()))
    same(shop.job("A-0022")["stage"], "on_site", "the stage without a reason")
    turn_to(shop, "Before and after")
    shop.keys.pad("4")
    shop.reader.wait_focus("the reason", lambda node: node.name == "It is not proven because:")
    shop.keys.type("Rue had to leave for work\n")
    shop.reader.wait_says("Not proven because: Rue had to leave for work")
    shop.keys.press("F4")
    job = shop.wait_job("A-0022", "tested good", lambda job: job if job["stage"] == "proven" else None)
    same(job["not_proven_because"], "Rue had to leave for work", "the reason")


def power_lost(shop):
    """Story 10: killed in the middle of a reading; what was stored and what was typed is there again"""
    open_job(shop, "A-0025")
    turn_to(shop, "Findings")
    shop.keys.pad("6")
    first = shop.reader.wait_focus("the first field", lambda node: ", " in node.name).name.split(",")[0]
    shop.keys.pad("12")
    shop.wait_draft("12")
    shop.kill()
    shop.open()
    wait_page(shop, "A-0025")
    shop.reader.wait_focus("what was typed", lambda node: node.name.startswith(f"{first}, ") and node.text == "12")


STORIES = [six_readings, days_to_no_start, chain_of_links, better_and_cheaper, stop_at_ceiling,
           unproved_needs_reason, power_lost]

if __name__ == "__main__":
    sys.exit(tell(STORIES))
