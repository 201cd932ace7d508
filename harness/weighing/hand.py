"""Joints by hand: which methods there are to choose from, what each costs where it is made."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from typing import NamedTuple

from harness.joints import methods
from harness.presets import FACTORY, LOOM, Preset
from harness.weighing.rates import Rates


class Cost(NamedTuple):
    """What is added up. `money` is exact, in hundredths by milliseconds of an hour (see `Rates.money`)."""

    time_ms: int = 0
    money: int = 0
    cuts: int = 0
    dash: int = 0
    contacts: int = 0

    def plus(self, other: Cost) -> Cost:
        a, b, c, d, e = self
        f, g, h, i, j = other
        return Cost(a + f, b + g, c + h, d + i, e + j)

    def less(self, *others: Cost) -> Cost:
        """Without what the others come to."""
        a, b, c, d, e = self
        for f, g, h, i, j in others:
            a, b, c, d, e = a - f, b - g, c - h, d - i, e - j
        return Cost(a, b, c, d, e)

    @property
    def main(self) -> tuple[int, int, int]:
        """What the front is of."""
        return self[:3]


class JointKind(NamedTuple):
    """Joints that are made by one method, with one tool set up: on a factory wire or a loom's lead, what the wire
    carries, where, and whether it is more than a tap on one factory wire that stays whole (`cut`: only that can be
    pierced).
    """

    factory: bool
    what: str
    place: str
    cut: bool


class Way(NamedTuple):
    """How one joint is made: the method, its time in milliseconds, and its whole price as `Rates.money` has it.

    Without a method it is no way, but what all ways of a kind come to at the least.
    """

    method: str
    time_ms: int
    money: int


class Hand:
    """The shop's hand under one preset. `chosen` are the methods settled on by kind of joint.

    `asked` are the kinds, not settled, of which more than one way is left and that somebody asked the way of.
    """

    def __init__(self, rates: Rates, preset: Preset, chosen: Mapping[JointKind, Way] | None = None) -> None:
        self.rates, self.preset = rates, preset
        self.chosen: Mapping[JointKind, Way] = chosen or {}
        self.asked: set[JointKind] = set()
        self.ways = lru_cache(maxsize=None)(self._ways)
        self.way = lru_cache(maxsize=None)(self._way)

    def settled(self, kind: JointKind, way: Way) -> Hand:
        """The same hand with the method of one more kind settled."""
        return Hand(self.rates, self.preset, {**self.chosen, kind: way})

    def best(self, factory: bool, what: str, place: str, cut: bool) -> Way | None:
        """The way that costs least, then the quickest; None where the preset allows none."""
        return next(iter(self.ways(JointKind(factory, what, place, cut))), None)

    def _way(self, kind: JointKind) -> Way | None:
        """The way settled on; of a kind not settled what each of its ways comes to at the least."""
        ways = self.ways(kind)
        if len(ways) < 2:
            return ways[0] if ways else None
        if kind in self.chosen:
            return self.chosen[kind]
        self.asked.add(kind)
        return Way("", min(way.time_ms for way in ways), min(way.money for way in ways))

    def _ways(self, kind: JointKind) -> tuple[Way, ...]:
        """The ways of one kind of joint, cheapest first: none that another one beats in time and money; of those that
        come to the same the one that the preset names first.

        What is made at a terminal of a unit only is no joint of wires; a tap that pierces needs a wire that is whole.
        """
        found: list[tuple[int, int, int, str]] = []
        known = methods()
        for at, name in enumerate(self.preset.allowed(FACTORY if kind.factory else LOOM, kind.what).methods):
            method = known[name]
            if method.plugs_in or method.at_terminal or (method.pierces and (kind.cut or not kind.factory)):
                continue
            time_ms = self.rates.joint_ms(name, kind.place)
            found.append((self.rates.money(time_ms, self.rates.joint_parts(name)), time_ms, at, name))
        ways: list[Way] = []
        for money, time_ms, _, name in sorted(found):
            if not ways or time_ms < ways[-1].time_ms:
                ways.append(Way(name, time_ms, money))
        return tuple(ways)
