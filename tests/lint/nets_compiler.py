# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""Nets that run the compiler: every header stands alone, and a forbidden include stops the build itself."""

import os
from concurrent.futures import ThreadPoolExecutor

from tree import LAYERS, compiles

# What the flags and walls of each layer must turn down. Source lint covers the rest.
WALLS = {
    "core": ("gio/gio.h", "glib-object.h", "sqlite3.h", "gtk/gtk.h", "json-glib/json-glib.h", "hs-plan-error.h",
             "hs-store-error.h", "hs-ops-error.h", "hs-model-error.h"),
    "plan": ("gio/gio.h", "glib-object.h", "sqlite3.h", "gtk/gtk.h", "json-glib/json-glib.h", "hs-store-error.h",
             "hs-ops-error.h", "hs-model-error.h"),
    "store": ("gio/gio.h", "glib-object.h", "gtk/gtk.h", "json-glib/json-glib.h", "hs-plan-error.h",
              "hs-ops-error.h", "hs-model-error.h"),
    "ops": ("sqlite3.h", "gtk/gtk.h", "adwaita.h", "hs-model-error.h"),
    "paper": ("sqlite3.h", "gtk/gtk.h", "adwaita.h", "json-glib/json-glib.h", "hs-store-error.h", "hs-ops-error.h",
              "hs-plan-error.h"),
    "model": ("sqlite3.h", "gtk/gtk.h", "adwaita.h", "libsoup/soup.h"),
    "cli": ("sqlite3.h", "gtk/gtk.h", "adwaita.h", "hs-model-error.h"),
    "app": ("libsoup/soup.h",),
}


def without_walls(flags):
    """The flags without what the walls take in first, which would hide a header's own lack."""
    return [flag for at, flag in enumerate(flags) if flag != "-include" and (at == 0 or flags[at - 1] != "-include")]


def lone_header(tree, flags, path):
    """None when a file that holds only this include compiles, else the first error."""
    good, said = compiles(tree, without_walls(flags), f'#include "{path.name}"\n')
    errors = [line for line in said.splitlines() if "error:" in line] or [said.strip()]
    return None if good else f"{path.name}: does not compile alone: {errors[0]}"


def at_once(work, rows):
    """What work gives for each row, in their order, as many at a time as there are processors."""
    with ThreadPoolExecutor(os.cpu_count()) as pool:
        return list(pool.map(work, rows))


def headers(tree):
    """Every header compiles alone with the flags of its own layer."""
    rows = [(tree.flags(layer), path) for layer in LAYERS for path in tree.sources(layer, (".h",))
            if tree.flags(layer)]
    complaints = at_once(lambda row: lone_header(tree, *row), rows)
    return [complaint for complaint in complaints if complaint]


def passes(tree, flags, name):
    """Whether a file of this layer could include a header."""
    return compiles(tree, flags, f"#include <glib.h>\n#include <{name}>\n")[0]


def walls(tree):
    """With a layer's real flags a plain file compiles and one with a forbidden include does not."""
    layers = [layer for layer in WALLS if tree.flags(layer)]
    complaints = [f"src/{layer}: even a plain file does not compile with its flags" for layer in layers
                  if not passes(tree, tree.flags(layer), "string.h")]
    rows = [(layer, name) for layer in layers for name in WALLS[layer]]
    let_through = at_once(lambda row: passes(tree, tree.flags(row[0]), row[1]), rows)
    return complaints + [f"src/{layer}: the build lets <{name}> pass"
                         for (layer, name), passed in zip(rows, let_through) if passed]


NETS = (headers, walls)
