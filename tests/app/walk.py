# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""Walks every view as a screen reader does (AT-SPI) and prints TAP: no control without a name, none that is named after
its class. Needs a screen, a session bus and the system's own Python with gi."""

import os
import re
import shutil
import subprocess
import sys
import tempfile
import time

import gi

gi.require_version("Atspi", "2.0")
from gi.repository import Atspi  # noqa: E402

APP = os.environ["HS_APP"]
CLASS_NAME = re.compile(r"^(Gtk|Adw|Hs|Shumate)[A-Z]")

# What a person acts on or reads a value from; containers and plain text may be nameless.
CONTROLS = {
    Atspi.Role.PUSH_BUTTON, Atspi.Role.TOGGLE_BUTTON, Atspi.Role.CHECK_BOX, Atspi.Role.RADIO_BUTTON,
    Atspi.Role.ENTRY, Atspi.Role.TEXT, Atspi.Role.PASSWORD_TEXT, Atspi.Role.SPIN_BUTTON, Atspi.Role.COMBO_BOX,
    Atspi.Role.SLIDER, Atspi.Role.MENU_ITEM, Atspi.Role.LIST_ITEM, Atspi.Role.PAGE_TAB, Atspi.Role.LINK,
    Atspi.Role.LEVEL_BAR, Atspi.Role.PROGRESS_BAR, Atspi.Role.IMAGE, Atspi.Role.ICON, Atspi.Role.TREE_ITEM,
    Atspi.Role.TABLE_CELL, Atspi.Role.DIALOG, Atspi.Role.FRAME, Atspi.Role.RADIO_MENU_ITEM,
    Atspi.Role.CHECK_MENU_ITEM, Atspi.Role.PAGE_TAB_LIST, Atspi.Role.LIST, Atspi.Role.LIST_BOX, Atspi.Role.TREE,
}

VIEWS = [
    ("jobs", ["ctrl+1"]),
    ("today", ["ctrl+2"]),
    ("parts run", ["ctrl+3"]),
    ("vehicles", ["ctrl+4"]),
    ("vehicle found", ["ctrl+4", "0", "1", "2", "1", "Return"]),
    ("money", ["ctrl+5"]),
    ("call slip", ["ctrl+1", "F3"]),
    ("where was I", ["Escape", "F2"]),
    ("what is behind it", ["F9", "F9", "Return"]),
    ("what shows it", [*"latch", "Return"]),
    ("why it failed", ["Escape", "Escape", "ctrl+1", "1", "9", "Return", "F9", "F9"]),
    ("a job's readings", ["ctrl+1", "F2", "Next"]),
    ("its reason", ["F9"]),
    ("its photos", ["F9"]),
    ("its choices", ["Next"]),
    ("its bill", ["Next"]),
    ("before and after", ["Next"]),
    ("its call", ["Next"]),
    ("a usual job", ["F6"]),
    ("what comes next", ["Escape", "F4", "F4", "F4"]),
    ("undo", ["Escape", "F10", "F10"]),
    ("what is checked next", ["Escape", "ctrl+1", "2", "1", "Return", "Next", "1", *"1242", "Return"]),
    ("one more complaint", ["Insert", "3"]),
    ("main menu", ["Menu"]),
]


def settle():
    time.sleep(1.2)


def press(keys):
    for key in keys:
        subprocess.run(["xdotool", "key", "--clearmodifiers", key], check=True)
        time.sleep(0.15)
    settle()


def find_app():
    until = time.monotonic() + 30
    while time.monotonic() < until:
        desktop = Atspi.get_desktop(0)
        for index in range(desktop.get_child_count()):
            child = desktop.get_child_at_index(index)
            if child is not None and child.get_name().lower().startswith(("halfshaft", "org.halfshaft")):
                if child.get_child_count() > 0:
                    return child
        time.sleep(0.3)
    return None


def walk(node, path, seen):
    """Yields (node, path) of what is showing."""
    if node is None or len(seen) > 20000:
        return
    seen.append(node)
    states = node.get_state_set()
    # GTK 4.8 says "showing" of windows only; "visible" is what it has for the rest.
    if len(path) > 1 and not states.contains(Atspi.StateType.VISIBLE):
        return
    yield node, path
    for index in range(min(node.get_child_count(), 2000)):
        child = node.get_child_at_index(index)
        if child is not None:
            yield from walk(child, path + [f"{child.get_role_name()} “{child.get_name()}”"], seen)


def faults(app):
    count, bad = 0, []
    for node, path in walk(app, ["app"], []):
        if node.get_role() not in CONTROLS:
            continue
        count += 1
        name = (node.get_name() or "").strip()
        if not name:
            # A label that belongs to it names it too.
            relations = node.get_relation_set()
            if any(r.get_relation_type() == Atspi.RelationType.LABELLED_BY for r in relations):
                continue
        if not name or CLASS_NAME.match(name):
            bad.append(" › ".join(path))
    return count, bad


def tree_items(app):
    """The names of the tree's rows, once there are some; a busy machine shows a page later than its keys come."""
    end = time.monotonic() + 10
    while True:
        names = [node.get_name() for node, _ in walk(app, ["app"], []) if node.get_role() == Atspi.Role.TREE_ITEM]
        if names or time.monotonic() > end:
            return names
        time.sleep(0.2)


def main():
    home = tempfile.mkdtemp(prefix="hs-walk-")
    env = dict(os.environ, XDG_DATA_HOME=home, GSK_RENDERER="cairo")
    env.pop("GTK_A11Y", None)
    process = subprocess.Popen([APP, "--demo"], env=env)
    number = failed = 0
    try:
        app = find_app()
        if app is None:
            print("not ok 1 - the window shows up\n1..1")
            return 1
        settle()
        for view, keys in VIEWS:
            number += 1
            press(keys)
            count, bad = faults(app)
            good = count > 5 and not bad
            failed += not good
            print(f"{'ok' if good else 'not ok'} {number} - {view}: {count} controls named", flush=True)
            for path in bad[:20]:
                print("#", path)
            if view == "why it failed":
                number += 1
                names = tree_items(app)
                good = len(names) > 1 and names[0].startswith("“lamps dim at idle”; level 1; caused by “") and all(
                    re.search(r"; number \d+; level \d+; led to “.+”; proof: (Read|Photo|Seen|Said), ", name)
                    for name in names[1:])
                failed += not good
                print(f"{'ok' if good else 'not ok'} {number} - a chain is read as a tree: {names}", flush=True)
        number += 1
        alive = process.poll() is None
        failed += not alive
        print(f"{'ok' if alive else 'not ok'} {number} - still running after the walk")
    finally:
        process.terminate()
        process.wait(20)
        shutil.rmtree(home)
    print(f"1..{number}")
    return 1 if failed else 0


sys.exit(main())
