# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""The window as AT-SPI has it: what it says, and what can be done there without a key. Speaks to the accessibility bus
itself, a level of the tree at a time, so that a whole window is read in a fraction of a second."""

import time

import gi

gi.require_version("Atspi", "2.0")
from gi.repository import Atspi, Gio, GLib  # noqa: E402

ACCESSIBLE, ACTION, TEXT = "org.a11y.atspi.Accessible", "org.a11y.atspi.Action", "org.a11y.atspi.Text"
EDITABLE, SELECTION = "org.a11y.atspi.EditableText", "org.a11y.atspi.Selection"
PROPERTIES = "org.freedesktop.DBus.Properties"
ROOT = ("org.a11y.atspi.Registry", "/org/a11y/atspi/accessible/root")
SECONDS = 10000
TYPED = {Atspi.Role.ENTRY, Atspi.Role.TEXT, Atspi.Role.PASSWORD_TEXT, Atspi.Role.SPIN_BUTTON}
# What is pressed and what stays down: newer libraries tell these apart.
BUTTONS = (Atspi.Role.PUSH_BUTTON, Atspi.Role.TOGGLE_BUTTON)
WHOLE = {Atspi.Role.LABEL, Atspi.Role.SCROLL_BAR, Atspi.Role.PUSH_BUTTON, Atspi.Role.TOGGLE_BUTTON,
         Atspi.Role.CHECK_BOX, Atspi.Role.RADIO_BUTTON, Atspi.Role.PAGE_TAB}


class Node:
    """One accessible, as it was when it was read."""

    def __init__(self, where, parent=None):
        self.where, self.parent, self.children = where, parent, []
        self.name = self.description = self.text = ""
        self.role, self.states = 0, set()

    def has(self, state):
        return int(state) in self.states

    def is_shown_tab(self):
        return self.role == Atspi.Role.PAGE_TAB and self.has(Atspi.StateType.SELECTED)

    def is_down(self):
        return self.has(Atspi.StateType.PRESSED)

    @property
    def role_name(self):
        return Atspi.Role(self.role).value_nick

    def walk(self):
        yield self
        for child in self.children:
            yield from child.walk()

    def says(self):
        """All that is told of it and what is in it, line by line."""
        lines = []
        for node in self.walk():
            lines += [line for line in (node.name, node.text, node.description) if line]
        return "\n".join(lines)

    def shown(self):
        """The same for a person who looks why a test failed."""
        lines = []
        for line in self.says().split("\n"):
            if line not in lines:
                lines.append(line)
        return " | ".join(lines)

    def path(self):
        names, node = [], self
        while node is not None:
            names.insert(0, f"{node.role_name} “{node.name}”")
            node = node.parent
        return " › ".join(names)


class Reader:
    def __init__(self, process):
        self.process, self.app = process, None
        self.connect()

    def connect(self, seconds=20):
        """The bus goes with its last program and takes a moment to come with the next."""
        until = time.monotonic() + seconds
        while True:
            try:
                session = Gio.bus_get_sync(Gio.BusType.SESSION)
                address = session.call_sync("org.a11y.Bus", "/org/a11y/bus", "org.a11y.Bus", "GetAddress", None, None,
                                            0, SECONDS, None).unpack()[0]
                self.bus = Gio.DBusConnection.new_for_address_sync(
                    address, Gio.DBusConnectionFlags.AUTHENTICATION_CLIENT
                    | Gio.DBusConnectionFlags.MESSAGE_BUS_CONNECTION, None, None)
                return
            except GLib.Error:
                if time.monotonic() > until:
                    raise
            time.sleep(0.1)

    def call(self, where, interface, method, arguments=None):
        return self.bus.call_sync(where[0], where[1], interface, method, arguments, None, 0, SECONDS, None).unpack()

    def ask_all(self, questions):
        """Answers to (where, interface, method, arguments), in their order; None for what is gone meanwhile."""
        answers, left = [None] * len(questions), len(questions)
        context = GLib.MainContext.default()

        def answered(bus, result, index):
            nonlocal left
            left -= 1
            try:
                answers[index] = bus.call_finish(result).unpack()
            except GLib.Error:
                answers[index] = None

        for index, (where, interface, method, arguments) in enumerate(questions):
            self.bus.call(where[0], where[1], interface, method, arguments, None, 0, SECONDS, None, answered, index)
        while left > 0:
            context.iteration(True)
        return answers

    def find_app(self):
        """None as long as it has not come."""
        try:
            return self.look_for_app()
        except GLib.Error:
            self.connect()
            return None

    def look_for_app(self):
        for where in self.call(ROOT, ACCESSIBLE, "GetChildren")[0]:
            pid = self.call(("org.freedesktop.DBus", "/org/freedesktop/DBus"), "org.freedesktop.DBus",
                            "GetConnectionUnixProcessID", GLib.Variant("(s)", (where[0],)))[0]
            if pid == self.process.pid:
                self.app = where
        return self.app

    def read_level(self, nodes):
        """Fills in the nodes; returns their children that are visible."""
        questions = []
        for node in nodes:
            questions += [
                (node.where, PROPERTIES, "GetAll", GLib.Variant("(s)", (ACCESSIBLE,))),
                (node.where, ACCESSIBLE, "GetRole", None), (node.where, ACCESSIBLE, "GetState", None),
                (node.where, ACCESSIBLE, "GetChildren", None),
            ]
        answers, below = self.ask_all(questions), []
        for index, node in enumerate(nodes):
            properties, role, states, children = answers[index * 4:index * 4 + 4]
            if None in (properties, role, states, children):
                continue
            node.name, node.description = properties[0].get("Name", ""), properties[0].get("Description", "")
            node.role = role[0]
            node.states = {n * 32 + bit for n, word in enumerate(states[0]) for bit in range(32) if word >> bit & 1}
            if node.parent is not None and not node.has(Atspi.StateType.VISIBLE):
                node.parent.children.remove(node)
                continue
            # What these are made of says nothing more.
            if node.role not in WHOLE:
                node.children = [Node(tuple(child), node) for child in children[0]]
                below += node.children
        self.read_texts([node for node in nodes if node.role in TYPED])
        return below

    def read_texts(self, nodes):
        counts = self.ask_all([(node.where, PROPERTIES, "Get", GLib.Variant("(ss)", (TEXT, "CharacterCount")))
                               for node in nodes])
        texts = self.ask_all([(node.where, TEXT, "GetText", GLib.Variant("(ii)", (0, count[0] if count else 0)))
                              for node, count in zip(nodes, counts)])
        for node, text in zip(nodes, texts):
            node.text = text[0] if text else ""

    def read(self, where=None):
        top = Node(where or self.app or self.find_app())
        level = self.read_level([top])
        while level:
            level = self.read_level(level)
        return top

    def window(self):
        """What a person sees: the window on top, the last that came."""
        windows = self.call(self.app or self.find_app(), ACCESSIBLE, "GetChildren")[0]
        return self.read(tuple(windows[-1])) if windows else None

    def wait(self, what, test, seconds=30):
        """Reads until test(window) is true and returns what it gave; else says what there was."""
        until, pause = time.monotonic() + seconds, 0.02
        while True:
            window = self.window() if self.app is not None or self.find_app() is not None else None
            found = test(window) if window is not None else None
            if found:
                return found
            if self.process.poll() is not None:
                raise AssertionError(f"{what}: the program ended with {self.process.returncode}")
            if time.monotonic() > until:
                raise AssertionError(f"{what}: not in: {window.shown() if window else 'nothing'}")
            time.sleep(pause)
            pause = min(pause * 2, 0.3)

    def wait_says(self, *texts, within=None):
        """Waits until all of it stands in the window on top, or in the part of that name."""
        def test(window):
            parts = [node for node in window.walk() if node.name == within] if within else [window]
            return any(all(text in part.says() for text in texts) for part in parts)
        return self.wait(f"says {texts}", test)

    def wait_node(self, role, name, within=None):
        """What has a role and a name and can be acted on; the first of several, which do the same. A name may be a
        test."""
        def test(window):
            tops = [node for node in window.walk() if node.name == within] if within else [window]
            found = [node for top in tops for node in top.walk()
                     if node.role in roles and (name(node.name) if callable(name) else node.name == name)
                     and node.has(Atspi.StateType.SENSITIVE)]
            return found[0] if found else None
        roles = role if isinstance(role, tuple) else (role,)
        label = name if isinstance(name, str) else name.__doc__
        return self.wait(f"a {Atspi.Role(roles[0]).value_nick} “{label}”", test)

    def act(self, role, name, within=None, action=None):
        node = self.wait_node(role, name, within)
        names = [act[0].lower() for act in self.call(node.where, ACTION, "GetActions")[0]]
        index = names.index(action) if action else 0
        done = names and self.call(node.where, ACTION, "DoAction", GLib.Variant("(i)", (index,)))[0]
        if not done:
            raise AssertionError(f"{node.path()} does nothing; it offers {names}")
        return node

    def push(self, name, within=None):
        return self.act(BUTTONS, name, within)

    def press_in(self, name):
        """One of several that stays down, once it is."""
        self.push(name)
        return self.wait(f"“{name}” is down", lambda window: any(
            node.name == name and node.is_down() for node in window.walk()))

    def turn_to(self, name):
        """To a tab, once it is the one that is shown."""
        self.act(Atspi.Role.PAGE_TAB, name)
        return self.wait(f"tab “{name}”", lambda window: any(
            node.name == name and node.is_shown_tab() for node in window.walk()))

    def focused(self, window=None):
        """What has the keyboard, the innermost; None for nothing."""
        found = [node for node in (window or self.window()).walk() if node.has(Atspi.StateType.FOCUSED)]
        return found[-1] if found else None

    def wait_focus(self, what, test):
        """Until what has the keyboard is such."""
        def has(window):
            node = self.focused(window)
            return node if node is not None and test(node) else None
        return self.wait(f"the keyboard at {what}", has)

    def put(self, name, text, within=None):
        """Into a field, as a voice does it."""
        node = self.wait_node(Atspi.Role.TEXT, name, within)
        if not self.call(node.where, EDITABLE, "SetTextContents", GLib.Variant("(s)", (text,)))[0]:
            raise AssertionError(f"{node.path()} takes no text")
        return node
