# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""Small invented days of every shape: one or two vans, hours of their own, lunches, breaks, parts bought on the way,
several windows, nights, towns where the way back is another one, and days on which not everything can be kept."""

import random


def clock(seconds):
    text = f"{seconds // 3600:02}:{seconds // 60 % 60:02}"
    return text if seconds % 60 == 0 else f"{text}:{seconds % 60:02}"


class RandomDay:
    def __init__(self, seed, n_calls, n_counters, n_vans=1, tight=False):
        self.rng = rng = random.Random(seed)
        self.parts = [f"part {i + 1}" for i in range(rng.randint(1, 3))]
        self.n_places = rng.randint(2, 6)
        # One in six goes on past midnight.
        self.start = rng.choice([420, 450, 480, 435, 465, 1080])
        self.length = rng.choice([300, 420, 540]) if tight else rng.choice([480, 600, 720])
        self.promised = 120 if tight and rng.random() < 0.6 else self.length - 60
        counters = [self._counter(i) for i in range(n_counters)]
        # Now and then a call needs what nobody sells.
        self.needed = sorted({part for counter in counters for part in counter["sells"]})
        if rng.random() < 0.1:
            self.needed = self.parts
        self.problem = {
            "minute_cents": rng.choice([160, 95, 0, 33]), "mile_cents": rng.choice([42, 65, 0]),
            "travel": self._travel(),
            "vans": [self._van(i) for i in range(n_vans)],
            "calls": [self._call(i, n_vans) for i in range(n_calls)],
        }
        if rng.random() < 0.8:
            self.problem["spare_minutes"] = rng.choice([0, 15, 30, 45.5, 90])
        if counters:
            self.problem["counters"] = counters

    def _travel(self):
        rng, size = self.rng, range(self.n_places)
        if rng.random() < 0.25:
            # No geometry at all: a way round may be shorter than the straight one.
            return {"minutes": [[rng.randint(1, 45) for _ in size] for _ in size],
                    "miles": [[rng.randint(1, 300) / 10 for _ in size] for _ in size]}
        points = [(rng.uniform(0, 25), rng.uniform(0, 25)) for _ in size]
        away = [[2 + abs(a[0] - b[0]) + abs(a[1] - b[1]) for b in points] for a in points]
        slower = rng.choice([1, 1, 1.3])
        places = rng.choice([0, 0, 2])
        return {"minutes": [[round(away[i][j] * (slower if i < j else 1), places or None) for j in size] for i in size],
                "miles": [[round(away[i][j] * 0.45, 1) for j in size] for i in size]}

    def _at(self, minute):
        return clock((self.start + minute) * 60 + (self.rng.choice([0, 0, 0, 30])))

    def _span(self, longest):
        opens = self.rng.randrange(0, self.promised, 15)
        return [self._at(opens), self._at(opens + self.rng.randrange(15, longest, 15))]

    def _some(self, parts, chances):
        return [self.rng.choice(parts) for _ in range(self.rng.choice(chances))] if parts else []

    def _van(self, number):
        rng = self.rng
        van = {"id": "ABCD"[number], "start": rng.randrange(self.n_places),
               "from": clock((self.start + rng.choice([0, 0, 0, 40])) * 60),
               "to": clock((self.start + self.length - rng.choice([0, 0, 0, 50])) * 60)}
        van["end"] = van["start"] if rng.random() < 0.8 else rng.randrange(self.n_places)
        if rng.random() < 0.5:
            van["carries"] = self._some(self.parts, [0, 1, 2])
        if rng.random() < 0.5:
            van["skills"] = rng.choice([["coding"], ["coding", "gas"]])
        if rng.random() < 0.3:
            opens = rng.randrange(60, self.length - 90, 30)
            van["break"] = {"minutes": rng.choice([20, 30]), "between": [self._at(opens), self._at(opens + 75)]}
        elif rng.random() < 0.3:
            van["break"] = None
        return van

    def _call(self, number, n_vans):
        rng = self.rng
        call = {"id": f"A-{number + 1:04}", "place": rng.randrange(self.n_places),
                "minutes": rng.choice([0, 20, 40, 60, 75, 32.5])}
        if rng.random() < 0.9:
            call["windows"] = [self._span(rng.choice([45, 150, 300])) for _ in range(rng.choice([1, 1, 1, 2, 3]))]
        if rng.random() < 0.6:
            call["needs"] = self._some(self.needed, [0, 1, 1, 2])
        if rng.random() < 0.1:
            call["skills"] = rng.choice([["coding"], ["coding"], ["gas", "coding"], []])
        if rng.random() < 0.15:
            call["van"] = "ABCD"[rng.randrange(n_vans)]
        return call

    def _counter(self, number):
        rng = self.rng
        lunch = rng.randrange(60, self.length - 60, 15)
        hours = rng.choice([[[self._at(0), self._at(self.length)]],
                            [[self._at(-30), self._at(lunch)], [self._at(lunch + 45), self._at(self.length)]]])
        sold = [part for part in self.parts if rng.random() < 0.8]
        return {"id": f"counter {number + 1}", "place": rng.randrange(self.n_places), "minutes": rng.choice([5, 8, 12]),
                "hours": hours, "sells": {part: rng.randrange(500, 15000) for part in sold}}


def days(seed, sizes):
    """Endless days, one size (calls, counters, vans) after another; every fourth is too tight to keep it all."""
    number = 0
    while True:
        calls, counters, vans = sizes[number % len(sizes)]
        yield RandomDay(seed + number, calls, counters, vans, tight=number % 4 == 3).problem
        number += 1
