"""The whole scope: unknowns, risks, access, parts, joints and a range of minutes, each line with its records."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from harness.model.money import Money
from harness.model.scope import Scope
from harness.model.shop import Shop
from harness.read.maps import Map
from harness.scoping.lines import JOINT, TIME, Line
from harness.scoping.minutes import minutes
from harness.scoping.parts import parts
from harness.scoping.risks import risks
from harness.scoping.site import Site
from harness.scoping.unknowns import unknowns
from harness.scoping.variants import Sifted, sift
from harness.scoping.work import access, joints
from harness.weighing.rates import PRACTICE, Default, Rates


class Scoping(NamedTuple):
    """All lines in the order of the paper, the sum of minutes, its price, and the figures that are the tool's own."""

    scope: Scope
    shop: Shop | None
    sifted: Sifted
    lines: tuple[Line, ...]
    defaults: tuple[Default, ...]
    rates: Rates

    def of(self, kind: str) -> tuple[Line, ...]:
        return tuple(line for line in self.lines if line.kind == kind)

    @property
    def low_ms(self) -> int:
        return sum(line.low_ms for line in self.lines)

    @property
    def high_ms(self) -> int:
        return sum(line.high_ms for line in self.lines)

    def price(self, time_ms: int) -> Money:
        """What so much work costs, rounded up to a hundredth."""
        return Money(-(-time_ms * self.rates.labour // 3_600_000), self.rates.currency)

    @property
    def labour(self) -> Money:
        """An hour of work."""
        return Money(self.rates.labour, self.rates.currency)


def scoping(scope: Scope, shop: Shop | None, maps: tuple[Map, ...]) -> Scoping:
    """The scope worked out. Nothing in it rests on what no file says."""
    sifted = sift(scope, maps)
    site = Site(scope, shop, sifted)
    lines = (
        *unknowns(site), *risks(scope, sifted.could), *access(site), *parts(site), *joints(site), *minutes(site),
    )  # fmt: skip
    return Scoping(scope, shop, sifted, lines, tuple(_defaults(site.rates, lines)), site.rates)


def _defaults(rates: Rates, lines: tuple[Line, ...]) -> Iterator[Default]:
    """The figures in use that no shop file says; the way of a joint is chosen by money, so also by its consumables."""
    joined = any(line.kind == JOINT for line in lines)
    for each in rates.general():
        if joined or each.what == "labour":
            yield each
    for rate in dict.fromkeys(rate for line in lines if line.kind == TIME for rate in line.rates):
        if rate.default:
            yield Default(rate.what, rate.words, PRACTICE)
