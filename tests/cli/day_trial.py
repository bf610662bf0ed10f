# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""The best that a small day allows, found by trying everything: who serves what, every order, every counter at every
place of the order, every window, every place of the break. It is slow and plain, and knows the day only from the
words of data/plan/DAY.md."""

from collections import namedtuple

# A stop of an order being tried: it starts within [first, last], works, and is `leg` seconds after the one before.
# `window_end` is None but for calls.
Item = namedtuple("Item", "id first last work leg window_end")
# In a list of ids: the van has no further stop. It comes after every id.
HOME = "\U0010ffff"
Way = namedtuple("Way", "missed late spare leave_from home_by items end_leg miles parts")


class VanTrial:
    """All ways of one van, by the set of calls that it serves; of each set only those that miss least, then are least
    late."""

    def __init__(self, day, van, most_missed):
        self.day, self.name, self.van = day, van, day.vans[van]
        self.most_missed = most_missed
        self.calls = [call for call in day.calls if day.may_serve(van, call)]
        self.ways = {frozenset(): [Way(0, 0, None, 0, 0, (), 0, 0, 0)]}
        pause = self.van["break"]
        self._try(self.van["from"], self.van["to"], None)
        if pause:
            # The break was had before leaving, is had after coming home, or is one of the stops.
            self.ways = {frozenset(): self.ways[frozenset()]}
            self._try(max(self.van["from"], pause[1] + pause[0]), self.van["to"], None)
            self._try(self.van["from"], min(self.van["to"], pause[2] - pause[0]), None)
            self._try(self.van["from"], self.van["to"], pause)

    def _try(self, leave_from, home_by, pause):
        if leave_from > self.van["to"]:
            return
        self.leave_from, self.home_by, self.pause = leave_from, home_by, pause
        self._go(self.van["start"], leave_from, (), frozenset(), frozenset(), pause is None, 0, 0, 0, 0, {},
                 dict(self.van["carries"]))

    def _go(self, place, now, items, served, stopped, rested, missed, late, miles, parts, prices, carried):
        day = self.day
        if now > self.home_by or missed > self.most_missed:
            return
        if served and rested:
            self._home(place, now, items, served, missed, late, miles, parts)
        for call in self.calls:
            if call not in served:
                self._call(call, place, now, items, served, stopped, rested, missed, late, miles, parts, prices,
                           carried)
        for name, counter in day.counters.items():
            if name in stopped:
                continue
            leg, to = day.drive[place][counter["place"]], counter["place"]
            cheaper = dict(prices)
            for part, cents in counter["sells"].items():
                cheaper[part] = min(cents, prices.get(part, cents))
            for first, start, last in self._starts(now + leg, [(a, b - counter["work"]) for a, b in counter["hours"]]):
                item = Item(name, first, last, counter["work"], leg, None)
                self._go(to, start + counter["work"], items + (item,), served, stopped | {name}, rested, missed, late,
                         miles + day.miles[place][to], parts, cheaper, carried)
        if not rested and items:
            minutes, opens, ends = self.pause
            for first, start, last in self._starts(now, [(opens, ends - minutes)]):
                item = Item("break", first, last, minutes, 0, None)
                self._go(place, start + minutes, items + (item,), served, stopped, True, missed, late, miles, parts,
                         prices, carried)

    def _call(self, name, place, now, items, served, stopped, rested, missed, late, miles, parts, prices, carried):
        call = self.day.calls[name]
        left = carried
        for part in call["needs"]:
            if left.get(part, 0) > 0:
                left = dict(left)
                left[part] -= 1
            elif part in prices:
                parts += prices[part]
            else:
                return
        leg, to = self.day.drive[place][call["place"]], call["place"]
        miles += self.day.miles[place][to]
        starts = [(first, start, last, 0) for first, start, last in self._starts(now + leg, call["windows"])]
        last_end = max(b for a, b in call["windows"])
        if now + leg > last_end:
            starts = [(now + leg, now + leg, now + leg, now + leg - last_end)]
        for first, start, last, by in starts:
            item = Item(name, first, last, call["work"], leg, last_end if by else last)
            self._go(to, start + call["work"], items + (item,), served | {name}, stopped, rested, missed + (by > 0),
                     late + by, miles, parts, prices, left)

    @staticmethod
    def _starts(arrive, spans):
        """Each span as (first, start, last) where it can be started in, without those worse than another in every
        way."""
        fit = [(a, max(arrive, a), b) for a, b in spans if arrive <= b and a <= b]
        return [one for number, one in enumerate(fit)
                if not any((other[1] <= one[1] and other[2] > one[2]) or (other[1] < one[1] and other[2] >= one[2])
                           or (other[1:] == one[1:] and earlier < number) for earlier, other in enumerate(fit))]

    def _home(self, place, now, items, served, missed, late, miles, parts):
        end_leg = self.day.drive[place][self.van["end"]]
        if now + end_leg > self.home_by:
            return
        known = self.ways.setdefault(served, [])
        if known and (known[0].missed, known[0].late) < (missed, late):
            return
        if known and (known[0].missed, known[0].late) > (missed, late):
            known.clear()
        spare, time = None, self.leave_from
        for item in items:
            time = max(time + item.leg, item.first)
            if item.window_end is not None:
                slack = item.window_end - time
                spare = slack if spare is None else min(spare, slack)
            time += item.work
        known.append(Way(missed, late, spare, self.leave_from, self.home_by, items, end_leg,
                         miles + self.day.miles[place][self.van["end"]], parts))

    def cheapest(self, served, spare):
        """(units, home, −leave, stops, ids) of the best way that serves just these and has the spare; None without
        one."""
        if not served:
            return 0, 0, 0, 0, (HOME,)
        ways = [way for way in self.ways.get(served, []) if way.spare >= spare]
        return min((self._timed(way, spare) for way in ways), default=None)

    def _timed(self, way, spare):
        items = [item._replace(last=min(item.last, item.window_end - spare)) if item.window_end is not None else item
                 for item in way.items]
        drives = sum(item.leg + item.work for item in items) + way.end_leg
        opens = 0
        for item in items:
            opens = max(opens + item.leg, item.first) + item.work
        opens += way.end_leg
        latest = way.home_by - way.end_leg
        for item in reversed(items):
            latest = min(item.last, latest - item.work) - item.leg
        leave = max(way.leave_from, min(opens - drives, latest, self.van["to"]))
        home = max(opens, leave + drives)
        ids = tuple(item.id for item in items)
        return self.day.units(home - leave, way.miles, way.parts), home, -leave, len(ids), ids + (HOME,)


def best(day, most_missed=1000):
    """The figures of the best plan, as Check.figures () has them, how many stops it has, and their ids with HOME after
    those of each van, in the order of the vans' ids. A day known to be kept is sooner tried if nothing may be
    missed."""
    vans = [VanTrial(day, van, most_missed) for van in sorted(day.vans)]
    splits = [()]
    for trial in vans:
        splits = [split + (served,) for split in splits for served in trial.ways
                  if not any(served & other for other in split)]
    keyed = {}
    for split in splits:
        ways = [trial.ways[served][0] for trial, served in zip(vans, split)]
        dropped = len(day.calls) - sum(len(served) for served in split)
        key = (dropped + sum(way.missed for way in ways), dropped, sum(way.late for way in ways))
        keyed.setdefault(key, []).append(split)
    key = min(keyed)
    splits = keyed[key]
    most = [min((max(way.spare for way in trial.ways[served]) for trial, served in zip(vans, split) if served),
                default=None) for split in splits]
    if most[0] is None:
        return *key, 0, 0, 0, 0, 0, (HOME,) * len(vans)
    spare = min(day.asked, max(most))
    sums = []
    for split in splits:
        parts = [trial.cheapest(served, spare) for trial, served in zip(vans, split)]
        if None not in parts:
            sums.append(tuple(sum(column[1:], column[0]) for column in zip(*parts)))
    return *key, max(0, day.asked - spare), *min(sums)
