# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""Casts one group of nets over the tree and writes TAP: `lint.py GROUP --root DIR --build DIR`."""

import argparse
import sys

import nets_compiler
import nets_objects
import nets_release
import nets_shape
import nets_text
from tree import Tap, Tree

GROUPS = {
    "text": nets_text.NETS,
    "shape": nets_shape.NETS,
    "objects": nets_objects.NETS,
    "compiler": nets_compiler.NETS,
    "release": nets_release.NETS,
}


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("group", choices=sorted(GROUPS))
    parser.add_argument("--root", required=True)
    parser.add_argument("--build", required=True)
    options = parser.parse_args()

    tree = Tree(options.root, options.build)
    tap = Tap()
    for net in GROUPS[options.group]:
        tap.check(f"{net.__name__}: {net.__doc__.splitlines()[0]}", net(tree))
    return tap.done()


if __name__ == "__main__":
    sys.exit(main())
