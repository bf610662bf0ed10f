# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""Draws how the cost of planning grows with calls and window width: plot-growth.py solve.json > growth.svg"""

import json
import math
import sys

LEFT, TOP, WIDTH, HEIGHT = 80, 28, 520, 300
LOW, HIGH = 0.01, 10_000
DASHES = ["", "8 3", "3 3", "10 3 2 3"]


def across(calls):
    return LEFT + (calls - 4) / 20 * WIDTH


def down(milliseconds):
    share = math.log(max(milliseconds, LOW) / LOW) / math.log(HIGH / LOW)
    return TOP + HEIGHT * (1 - share)


def text(x, y, words, anchor="middle"):
    return f'<text x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}">{words}</text>'


def frame():
    yield f'<rect x="{LEFT}" y="{TOP}" width="{WIDTH}" height="{HEIGHT}" fill="none" stroke="#1b1714"/>'
    power = LOW
    while power <= HIGH:
        y = down(power)
        yield f'<path d="M{LEFT} {y:.1f}h{WIDTH}" stroke="#c9beac"/>'
        yield text(LEFT - 6, y + 4, f"{power:g} ms", "end")
        power *= 10
    for calls in range(4, 25, 4):
        yield text(across(calls), TOP + HEIGHT + 18, str(calls))
    yield text(LEFT + WIDTH / 2, TOP + HEIGHT + 38, "calls, with two counters and one van")
    yield text(LEFT, TOP - 10, "median of five days, by width of the windows; hollow: not all five were proven in 10 s",
               "start")


def line(width, rows, dash):
    points = [(across(row["calls"]), down(row["median_ms"])) for row in rows]
    path = "M" + "L".join(f"{x:.1f} {y:.1f}" for x, y in points)
    yield f'<path d="{path}" fill="none" stroke="#1b1714" stroke-width="2" stroke-dasharray="{dash}"/>'
    for row, (x, y) in zip(rows, points):
        fill = "#1b1714" if row["proven"] == 5 else "#ffffff"
        yield f'<circle cx="{x:.1f}" cy="{y:.1f}" r="4" fill="{fill}" stroke="#1b1714" stroke-width="2"/>'


def names(widths, growth):
    """Beside the last points, but never over one another."""
    ends = sorted((down(max((r for r in growth if r["window_minutes"] == w), key=lambda r: r["calls"])["median_ms"]), w)
                  for w in widths)
    last = 0
    for y, width in ends:
        last = max(y, last + 16)
        yield text(LEFT + WIDTH + 10, last + 4, f"{width} min", "start")


def main():
    with open(sys.argv[1], encoding="utf-8") as file:
        growth = json.load(file)["growth"]
    print(f'<svg xmlns="http://www.w3.org/2000/svg" width="{LEFT + WIDTH + 80}" height="{TOP + HEIGHT + 52}"'
          ' font-family="sans-serif" font-size="13">')
    print("<!-- SPDX-License-Identifier: GPL-3.0-or-later -->")
    print("<!-- SPDX-FileCopyrightText: The Halfshaft authors -->")
    print('<rect width="100%" height="100%" fill="#ffffff"/>')
    print(*frame(), sep="\n")
    widths = sorted({row["window_minutes"] for row in growth})
    print(*names(widths, growth), sep="\n")
    for width, dash in zip(widths, DASHES):
        print(*line(width, [row for row in growth if row["window_minutes"] == width], dash), sep="\n")
    print("</svg>")


main()
