# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""How well the four sheets of colors can be read: `contrast.py ROOT`. Ratios as WCAG 2.1 defines them (its "relative
luminance" and "contrast ratio"), held to what DEVELOPERS.md promises, which is more than the 4.5 and 3 of WCAG for text
and for a line that means something. Also that no rule of the style sheet puts text in the color of an edge or makes it
fainter, however it is disabled."""

import re
import sys
from pathlib import Path

from tree import Tap

TEXT, WIRE, LINE = 5.9, 5.1, 3.0
PAPERS = ("bench", "bar", "paper", "well", "wash")
PAIRS = [
    *[(ink, paper, TEXT) for ink in ("ink", "ink2") for paper in PAPERS],
    *[("copper", paper, WIRE) for paper in PAPERS],
    ("on_fill", "fill", TEXT),
    ("paper", "ink", TEXT),  # a toast, a number of a stop
    *[("edge", paper, LINE) for paper in PAPERS],
    *[("fill", paper, LINE) for paper in ("bench", "bar", "paper")],
]


def luminance(color):
    """0 for black to 1 for white."""
    parts = [int(color[i:i + 2], 16) / 255 for i in (1, 3, 5)]
    red, green, blue = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def ratio(one, other):
    """1 to 21."""
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def faults_of(sheet, pairs=None):
    colors = dict(re.findall(r"@define-color hs_(\w+) (#[0-9A-Fa-f]{6});", sheet))
    found = []
    for one, other, least in pairs or PAIRS:
        got = ratio(colors[one], colors[other])
        if got < least:
            found.append(f"{one} on {other}: {got:.2f}, under {least}")
    return found


def faint_rules(sheet):
    """Rules that write in the color of an edge or a rule, or let words shine through."""
    bare = re.sub(r"/\*.*?\*/", "", sheet, flags=re.S)
    found = []
    for selector, body in re.findall(r"([^{}]+)\{([^}]*)\}", bare):
        written = re.search(r"(?<![\w-])color:", body)
        if (re.search(r"(?<![\w-])color:\s*@hs_(edge|rule)", body) or re.search(r"(?<![\w-])opacity:\s*0?\.", body)
                or (written and re.search(r"background(-color)?:\s*@hs_rule", body))):
            found.append(" ".join(selector.split()))
    return found


def main():
    data = Path(sys.argv[1]) / "data"
    tap = Tap()
    # Worked out by hand: black on white is 21; #767676 is the lightest gray that can be read on white.
    tap.check("the arithmetic", [f"{color}: {ratio(color, '#FFFFFF'):.2f}" for color, low, high in (
        ("#000000", 20.99, 21.01), ("#767676", 4.5, 4.6), ("#777777", 4.4, 4.5),
    ) if not low <= ratio(color, "#FFFFFF") < high])
    for name in ("light", "dark", "sun", "night"):
        tap.check(f"the {name} sheet", faults_of((data / f"tokens-{name}.css").read_text(encoding="utf-8")))
    for name in ("style.css", "pages.css"):
        tap.check(f"no faint words in {name}", faint_rules((data / name).read_text(encoding="utf-8")))
    fault = "button:disabled { color: @hs_edge; } p { border-color: @hs_edge; opacity: 1; }"
    tap.check("a faint rule is caught", [] if faint_rules(fault) == ["button:disabled"] else [fault])
    return tap.done()


sys.exit(main())
