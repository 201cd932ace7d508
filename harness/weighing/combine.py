"""From the mixes of each plug to those of the car: the exact front over minutes, money and factory wires cut."""

from __future__ import annotations

from collections import Counter
from typing import NamedTuple

from harness.model.shop import InDrawer
from harness.weighing.hand import Cost
from harness.weighing.mixes import PlugMix


class Point(NamedTuple):
    """One mix for the whole car, a plug each, and what it costs; `days` to wait for what isn't in stock."""

    mixes: tuple[PlugMix, ...]
    cost: Cost
    days: int

    @property
    def rank(self) -> tuple[object, ...]:
        """What decides between two that cost the same: joints in the dash, contacts in series, days, then names."""
        return (self.cost.dash, self.cost.contacts, self.days, [mix.key for mix in self.mixes])


def most_of(item: InDrawer) -> int | None:
    """How many of a loom can be had: what lies there, where nobody wrote when more would come; None for any number."""
    store = item.store
    return store.stock if store.stock is not None and item.days is None and not store.arrives else None


def front(by_plug: list[list[PlugMix]]) -> list[Point]:
    """Every point that no other one beats in minutes, money and wires cut, by money; of equals the better ranked.

    A loom without a price is no gift: a point that takes one beats none that does without it.
    """
    shared = _shared(by_plug)
    points = [Point((), Cost(), 0)]
    for at, mixes in enumerate(by_plug, 1):
        made = []
        for point in points:
            for mix in mixes:
                new = Point((*point.mixes, mix), point.cost.plus(mix.cost), 0)
                uses = uses_of(new.mixes)
                if all(uses[name] <= most for name, most in shared.items()):
                    made.append(new._replace(days=days_of(new.mixes)))
        ahead = {used.item.name for later in by_plug[at:] for mix in later for used in mix.looms}
        points = _best(made, [name for name in shared if name in ahead])
    return sorted(points, key=lambda point: (point.cost.money, point.cost.time_ms, point.cost.cuts))


def best_of(points: list[Point]) -> list[Point]:
    """Of whole points those that no other one beats."""
    return _best(list(points), [])


def uses_of(mixes: tuple[PlugMix, ...]) -> Counter[str]:
    """How often each loom of the drawer is used."""
    return Counter(used.item.name for mix in mixes for used in mix.looms)


def waited_for(mixes: tuple[PlugMix, ...]) -> frozenset[str]:
    """The marks of looms that aren't there: those that lie there go to the first plugs that want one."""
    uses: Counter[str] = Counter()
    marks = set()
    for used in (used for mix in mixes for used in mix.looms):
        uses[used.item.name] += 1
        if used.item.store.stock is not None and uses[used.item.name] > used.item.store.stock:
            marks.add(used.mark)
    return frozenset(marks)


def days_of(mixes: tuple[PlugMix, ...]) -> int:
    """The longest wait for a loom that isn't there."""
    late = waited_for(mixes)
    return max((used.item.days or 0 for mix in mixes for used in mix.looms if used.mark in late), default=0)


def _shared(by_plug: list[list[PlugMix]]) -> dict[str, int]:
    """Looms that might be used at more plugs than there are of them: how many there are."""
    items: dict[str, InDrawer] = {}
    seats: Counter[str] = Counter()
    for mixes in by_plug:
        here = {used.item.name: used.item for mix in mixes for used in mix.looms}
        items.update(here)
        seats.update(here.keys())
    limits = {name: most_of(item) for name, item in items.items()}
    return {name: most for name, most in limits.items() if most is not None and seats[name] > most}


def _best(points: list[Point], shared: list[str]) -> list[Point]:
    """Those that none beats. One that uses more of what runs short further on beats nothing that uses less of it."""
    points.sort(key=lambda point: (point.cost.main, point.rank))
    kept: list[tuple[Point, list[int], Counter[str]]] = []
    for point in points:
        uses = uses_of(point.mixes)
        mine = [uses[name] for name in shared]
        open_ = _unpriced(point, uses)
        if not any(
            _no_dearer(other.cost, point.cost) and all(a <= b for a, b in zip(theirs, mine, strict=True))
            and unpriced <= open_
            for other, theirs, unpriced in kept
        ):  # fmt: skip
            kept.append((point, mine, open_))
    return [point for point, _, _ in kept]


def _unpriced(point: Point, uses: Counter[str]) -> Counter[str]:
    """The looms without a price that a point takes, how often each."""
    names = frozenset[str]().union(*(mix.unpriced for mix in point.mixes))
    return Counter({name: uses[name] for name in names})


def _no_dearer(one: Cost, other: Cost) -> bool:
    return one.time_ms <= other.time_ms and one.money <= other.money and one.cuts <= other.cuts
