# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""Keys as a keyboard sends them: through the X server (XTEST) to whatever window has the focus. Nobody manages windows
on a test's screen, so before a key the window on top gets the focus, as a person's desktop would give it. Counts what
a finger does: Shift with a letter is one press."""

import ctypes
import time

REVERT_TO_POINTER_ROOT = 1
VIEWABLE = 2
SHIFT, CONTROL, NUM_LOCK = 0xFFE1, 0xFFE3, 0xFF7F
HELD = {"Shift": SHIFT, "Ctrl": CONTROL}
NUM_LOCK_MASK = 0x10

# By the name a key has in the window's own words.
NAMED = {
    "Enter": 0xFF0D, "Esc": 0xFF1B, "Tab": 0xFF09, "BackSpace": 0xFF08, "Delete": 0xFFFF, "Insert": 0xFF63,
    "Up": 0xFF52, "Down": 0xFF54, "Left": 0xFF51, "Right": 0xFF53, "PageUp": 0xFF55, "PageDown": 0xFF56,
    "Home": 0xFF50, "End": 0xFF57, "Pause": 0xFF13, "Menu": 0xFF67, "Space": 0x20,
    "KP_Enter": 0xFF8D, **{f"F{n}": 0xFFBD + n for n in range(1, 13)},
}
# The number pad, with its lock on.
PAD = {
    **{str(n): 0xFFB0 + n for n in range(10)}, "+": 0xFFAB, "-": 0xFFAD, "*": 0xFFAA, "/": 0xFFAF, "\n": 0xFF8D,
    ".": 0xFFAE,
}


class Attributes(ctypes.Structure):
    """XWindowAttributes."""

    _fields_ = [
        ("x", ctypes.c_int), ("y", ctypes.c_int), ("width", ctypes.c_int), ("height", ctypes.c_int),
        ("border_width", ctypes.c_int), ("depth", ctypes.c_int), ("visual", ctypes.c_void_p), ("root", ctypes.c_ulong),
        ("class_", ctypes.c_int), ("bit_gravity", ctypes.c_int), ("win_gravity", ctypes.c_int),
        ("backing_store", ctypes.c_int), ("backing_planes", ctypes.c_ulong), ("backing_pixel", ctypes.c_ulong),
        ("save_under", ctypes.c_int), ("colormap", ctypes.c_ulong), ("map_installed", ctypes.c_int),
        ("map_state", ctypes.c_int), ("all_event_masks", ctypes.c_long), ("your_event_mask", ctypes.c_long),
        ("do_not_propagate_mask", ctypes.c_long), ("override_redirect", ctypes.c_int), ("screen", ctypes.c_void_p),
    ]


class XkbState(ctypes.Structure):
    _fields_ = [
        ("group", ctypes.c_ubyte), ("locked_group", ctypes.c_ubyte), ("base_group", ctypes.c_ushort),
        ("latched_group", ctypes.c_ushort), ("mods", ctypes.c_ubyte), ("base_mods", ctypes.c_ubyte),
        ("latched_mods", ctypes.c_ubyte), ("locked_mods", ctypes.c_ubyte), ("compat_state", ctypes.c_ubyte),
        ("grab_mods", ctypes.c_ubyte), ("compat_grab_mods", ctypes.c_ubyte), ("lookup_mods", ctypes.c_ubyte),
        ("compat_lookup_mods", ctypes.c_ubyte), ("ptr_buttons", ctypes.c_ushort),
    ]


def load():
    x11, xtst = ctypes.CDLL("libX11.so.6"), ctypes.CDLL("libXtst.so.6")
    display, window, ulong, c_int = ctypes.c_void_p, ctypes.c_ulong, ctypes.c_ulong, ctypes.c_int
    by = ctypes.POINTER
    for library, name, result, arguments in [
        (x11, "XOpenDisplay", display, [ctypes.c_char_p]),
        (x11, "XDefaultRootWindow", window, [display]),
        (x11, "XQueryTree", c_int, [display, window, by(window), by(window), by(by(window)), by(ctypes.c_uint)]),
        (x11, "XGetWindowAttributes", c_int, [display, window, by(Attributes)]),
        (x11, "XFree", c_int, [ctypes.c_void_p]),
        (x11, "XSetInputFocus", c_int, [display, window, c_int, ulong]),
        (x11, "XGetInputFocus", c_int, [display, by(window), by(c_int)]),
        (x11, "XKeysymToKeycode", ctypes.c_ubyte, [display, ulong]),
        (x11, "XkbKeycodeToKeysym", ulong, [display, ctypes.c_ubyte, c_int, c_int]),
        (x11, "XkbGetState", c_int, [display, ctypes.c_uint, by(XkbState)]),
        (x11, "XSync", c_int, [display, c_int]),
        (xtst, "XTestFakeKeyEvent", c_int, [display, ctypes.c_uint, c_int, ulong]),
    ]:
        function = getattr(library, name)
        function.restype, function.argtypes = result, arguments
    return x11, xtst


HANDLER = ctypes.CFUNCTYPE(ctypes.c_int, ctypes.c_void_p, ctypes.c_void_p)


@HANDLER
def forgive(display, event):
    """A window may be gone between the question and the answer."""
    return 0


class Keyboard:
    def __init__(self):
        self.x11, self.xtst = load()
        self.x11.XSetErrorHandler(forgive)
        self.display = self.x11.XOpenDisplay(None)
        if not self.display:
            raise RuntimeError("no screen to press keys on")
        self.root = self.x11.XDefaultRootWindow(self.display)
        self.presses = 0

    def take_count(self):
        count, self.presses = self.presses, 0
        return count

    def windows(self):
        """Those that a person sees and may type into, the one on top last."""
        root, parent, count = ctypes.c_ulong(), ctypes.c_ulong(), ctypes.c_uint()
        children = ctypes.POINTER(ctypes.c_ulong)()
        self.x11.XQueryTree(self.display, self.root, root, parent, children, count)
        found = []
        for index in range(count.value):
            has = Attributes()
            if not self.x11.XGetWindowAttributes(self.display, children[index], has):
                continue
            if has.map_state == VIEWABLE and not has.override_redirect and has.width > 1:
                found.append(children[index])
        if count.value:
            self.x11.XFree(children)
        return found

    def focus_top(self, seconds=20):
        until = time.monotonic() + seconds
        while time.monotonic() < until:
            windows = self.windows()
            focus, revert = ctypes.c_ulong(), ctypes.c_int()
            self.x11.XGetInputFocus(self.display, focus, revert)
            if windows and focus.value == windows[-1]:
                return
            if windows:
                self.x11.XSetInputFocus(self.display, windows[-1], REVERT_TO_POINTER_ROOT, 0)
                self.x11.XSync(self.display, 0)
            time.sleep(0.01)
        raise RuntimeError("no window takes the keys")

    def send(self, keysym, *held):
        codes = [self.x11.XKeysymToKeycode(self.display, sym) for sym in (*held, keysym)]
        if 0 in codes:
            raise ValueError(f"no key for {keysym:#x}")
        for code in codes:
            self.xtst.XTestFakeKeyEvent(self.display, code, 1, 0)
        for code in reversed(codes):
            self.xtst.XTestFakeKeyEvent(self.display, code, 0, 0)
        self.x11.XSync(self.display, 0)

    def is_shifted(self, keysym):
        code = self.x11.XKeysymToKeycode(self.display, keysym)
        return self.x11.XkbKeycodeToKeysym(self.display, code, 0, 0) != keysym

    def lock_pad(self):
        state = XkbState()
        self.x11.XkbGetState(self.display, 0x100, state)
        if not state.locked_mods & NUM_LOCK_MASK:
            self.send(NUM_LOCK)

    def press(self, *keys):
        """Names as printed on keys, "F3", "Enter", "Ctrl+F"; one character is itself."""
        for key in keys:
            self.focus_top()
            holder, plus, name = key.rpartition("+") if len(key) > 1 else ("", "", key)
            held = [HELD[holder]] if holder else []
            keysym = NAMED.get(name) or ord(name.lower() if holder else name)
            if name not in NAMED and not holder and self.is_shifted(keysym):
                held = [SHIFT]
            self.send(keysym, *held)
            self.presses += 1

    def type(self, words):
        self.press(*["Enter" if letter == "\n" else letter for letter in words])

    def pad(self, keys):
        """One hand on the number pad; "\\n" is its Enter."""
        self.lock_pad()
        for key in keys:
            self.focus_top()
            self.send(PAD[key])
            self.presses += 1
