# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""Nets that run the compiler: every header stands alone, and a forbidden include stops the build itself."""

from tree import LAYERS, compiles

# What the flags and walls of each layer must turn down. Source lint covers the rest.
WALLS = {
    "core": ("gio/gio.h", "glib-object.h", "sqlite3.h", "gtk/gtk.h", "json-glib/json-glib.h", "hs-plan-error.h",
             "hs-store-error.h", "hs-ops-error.h", "hs-model-error.h"),
    "plan": ("gio/gio.h", "glib-object.h", "sqlite3.h", "gtk/gtk.h", "json-glib/json-glib.h", "hs-store-error.h",
             "hs-ops-error.h", "hs-model-error.h"),
    "store": ("gtk/gtk.h", "json-glib/json-glib.h", "hs-plan-error.h", "hs-ops-error.h", "hs-model-error.h"),
    "ops": ("gtk/gtk.h", "adwaita.h", "hs-model-error.h"),
    "model": ("gtk/gtk.h", "adwaita.h", "libsoup/soup.h"),
    "cli": ("gtk/gtk.h", "adwaita.h", "hs-model-error.h"),
    "app": ("libsoup/soup.h",),
}


def lone_header(tree, flags, path):
    """None when a file that holds only this include compiles, else the first error."""
    good, said = compiles(tree, flags, f'#include "{path.name}"\n')
    errors = [line for line in said.splitlines() if "error:" in line] or [said.strip()]
    return None if good else f"{path.name}: does not compile alone: {errors[0]}"


def headers(tree):
    """Every header compiles alone with the flags of its own layer."""
    complaints = []
    for layer in LAYERS:
        flags = tree.flags(layer)
        if flags:
            complaints += [lone_header(tree, flags, path) for path in tree.sources(layer, (".h",))]
    return [complaint for complaint in complaints if complaint]


def passes(tree, flags, name):
    """Whether a file of this layer could include a header."""
    return compiles(tree, flags, f"#include <glib.h>\n#include <{name}>\n")[0]


def walls(tree):
    """With a layer's real flags a plain file compiles and one with a forbidden include does not."""
    complaints = []
    for layer, forbidden in WALLS.items():
        flags = tree.flags(layer)
        if not flags:
            continue
        if not passes(tree, flags, "string.h"):
            complaints.append(f"src/{layer}: even a plain file does not compile with its flags")
        complaints += [f"src/{layer}: the build lets <{name}> pass" for name in forbidden
                       if passes(tree, flags, name)]
    return complaints


NETS = (headers, walls)
