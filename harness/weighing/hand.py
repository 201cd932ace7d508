"""Joints by hand: which method, what it costs where it is made."""

from __future__ import annotations

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


class Way(NamedTuple):
    """How one joint is made: the method, its time in milliseconds, its loose parts in hundredths."""

    method: str
    time_ms: int
    parts: int


class Hand:
    """The shop's hand under one preset: of the methods allowed the one that costs least, then the quickest."""

    def __init__(self, rates: Rates, preset: Preset) -> None:
        self.rates, self.preset = rates, preset
        self.best = lru_cache(maxsize=None)(self._best)

    def _best(self, factory: bool, what: str, place: str, cut: bool) -> Way | None:
        """The way of one joint on a factory wire, or on a loom's lead; None where the preset allows none.

        What is made at a terminal of a unit only is no joint of wires; a tap that pierces needs a wire that is whole.
        """
        found: list[tuple[int, int, str, int]] = []
        known = methods()
        for name in self.preset.allowed(FACTORY if factory else LOOM, what).methods:
            method = known[name]
            if method.plugs_in or method.at_terminal or (method.pierces and (cut or not factory)):
                continue
            time_ms, parts = self.rates.joint_ms(name, place), self.rates.joint_parts(name)
            found.append((self.rates.money(time_ms, parts), time_ms, name, parts))
        if not found:
            return None
        _, time_ms, name, parts = min(found)
        return Way(name, time_ms, parts)
