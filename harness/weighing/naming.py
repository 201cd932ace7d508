"""What an offer's contacts are called in the job file: looms by the names they will have, pairs as pairs."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import NamedTuple

from harness.model.function import Function
from harness.model.job import Job
from harness.model.parts import Loom
from harness.model.shop import InDrawer, Shop
from harness.weighing.mixes import Made, PlugMix


def alike(one: Loom, other: Loom) -> bool:
    """Whether two looms are the same thing: housings, contacts, wires, leads and what they are for."""
    return _shape(one) == _shape(other)


def price_of(job: Job, loom: str, shop: Shop | None) -> int | None:
    """What a loom of the job costs, in hundredths: as written in it, else as the drawer says of the same loom."""
    own = job.parts.looms[loom]
    if own.store.price is not None:
        return own.store.price.minor
    for item in shop.looms.values() if shop else ():
        if item.loom is not None and alike(item.loom, own) and item.store.price is not None:
            return item.store.price.minor
    return None


def _shape(loom: Loom) -> tuple[object, ...]:
    return (
        {end: (_plain(each.housing), each.contacts) for end, each in loom.ends.items()},
        sorted((lead.end, lead.cavity, lead.own, lead.function.name) for lead in loom.leads),
        sorted((through.unit_cavity, through.car_cavity) for through in loom.throughs),
        sorted((row.cavity, row.function.name) for row in loom.pins),
        loom.cut_off,
    )


def _plain(housing: str) -> str:
    return " ".join(housing.casefold().split())


class Named(NamedTuple):
    """The names of the looms of one offer by their marks, and which of these the job has already."""

    names: dict[str, str]
    kept: frozenset[str]

    def of(self, contact: str) -> str:
        mark, dot, rest = contact.partition(".")
        return f"{self.names[mark]}.{rest}" if dot and mark in self.names else contact


def _same(job: Job, name: str, item: InDrawer, shop: Shop | None) -> bool:
    """Whether a loom of the job is one of the drawer's, at the same price."""
    assert item.loom is not None
    price = item.store.price.minor if item.store.price is not None else None
    return alike(job.parts.looms[name], item.loom) and price_of(job, name, shop) == price


def named(job: Job, mixes: Iterable[PlugMix], shop: Shop | None = None) -> Named:
    """A loom that the job has at this plug keeps its name; any other gets the drawer's, numbered if taken."""
    at_plug: dict[str, list[str]] = {}
    for mate in job.mates:
        at_plug.setdefault(mate.plug, []).append(mate.loom)
    going = {loom for looms in at_plug.values() for loom in looms}
    taken = {name.lower() for name in (*job.parts.plugs, *job.parts.units, *(set(job.parts.looms) - going))}
    names: dict[str, str] = {}
    kept: set[str] = set()
    mixes = tuple(mixes)
    for mix in mixes:
        for used in mix.looms:
            for name in dict.fromkeys(at_plug.get(mix.plug, ())):
                if name not in kept and not used.cut_off and _same(job, name, used.item, shop):
                    names[used.mark] = name
                    kept.add(name)
                    break
    taken |= {name.lower() for name in kept}
    for mix in mixes:
        for used in mix.looms:
            if used.mark in names:
                continue
            name, number = used.item.name, 1
            while name.lower() in taken:
                number += 1
                name = f"{used.item.name}-{number}"
            names[used.mark] = name
            taken.add(name.lower())
    return Named(names, frozenset(kept))


class Labels:
    """Functions of an offer's contacts, so that pairs can be told and named."""

    def __init__(self, job: Job, mixes: Iterable[PlugMix], names: Named) -> None:
        self.function: dict[str, Function] = {name: each.function for name, each in job.contacts.items()}
        for mix in mixes:
            for used in mix.looms:
                assert used.item.loom is not None
                for lead in used.item.loom.leads:
                    self.function[f"{names.names[used.mark]}.{lead.name.partition('.')[2]}"] = lead.function
        self.by_stem: dict[tuple[str, str], list[str]] = {}
        for name, function in self.function.items():
            self.by_stem.setdefault((name.rpartition(".")[0], function.base), []).append(name)

    def partners(self, one: str, other: str) -> bool:
        """Whether two contacts are + and − (or H and L) of one pair, in this order."""
        a, b = self.function.get(one), self.function.get(other)
        if a is not None and b is not None and a.kind not in ("unknown", "empty") and a.base == b.base:
            return (a.sign, b.sign) in (("+", "-"), ("H", "L")) and one.rpartition(".")[0] == other.rpartition(".")[0]
        return one[-1:] == "+" and other == f"{one[:-1]}-"

    def pair(self, one: str, other: str) -> str:
        """Two contacts as the file names a pair."""
        stem, _, last = one.rpartition(".")
        function = self.function.get(one)
        if last.endswith("+") and other == f"{one[:-1]}-":
            return one[:-1]
        if function is not None and sorted(self.by_stem.get((stem, function.base), ())) == sorted((one, other)):
            return f"{stem}.{function.base}"
        return f"{one}/{other.rpartition('.')[2]}"


class JointRow(NamedTuple):
    """A row of `joints:`: its contacts as the file names them, and the places where wires meet."""

    members: tuple[str, ...]
    places: tuple[frozenset[str], ...]

    @property
    def text(self) -> str:
        first, *others = self.members
        return f"{first}: {others[0] if len(others) == 1 else '[' + ', '.join(others) + ']'}"


def rows(made: Iterable[Made], labels: Labels, names: Named) -> list[JointRow]:
    """Joints of one heading as rows, + and − of a pair in one where every contact has its partner."""
    left = [tuple(map(names.of, each.members)) for each in made]
    rows_made: list[JointRow] = []
    while left:
        one = left.pop(0)
        for at, other in enumerate(left):
            order = _paired(one, other, labels)
            if order is not None:
                del left[at]
                first, second = order
                members = tuple(labels.pair(a, b) for a, b in zip(first, second, strict=True))
                rows_made.append(JointRow(members, (frozenset(first), frozenset(second))))
                break
        else:
            rows_made.append(JointRow(one, (frozenset(one),)))
    return rows_made


def _paired(
    one: tuple[str, ...], other: tuple[str, ...], labels: Labels
) -> tuple[tuple[str, ...], tuple[str, ...]] | None:
    if len(one) != len(other):
        return None
    for first, second in ((one, other), (other, one)):
        if all(labels.partners(a, b) for a, b in zip(first, second, strict=True)):
            return first, second
    return None


def headings(made: Iterable[Made], covers: Mapping[str, bool]) -> dict[str, list[Made]]:
    """Joints by the heading that they stand under: `crimp at the bench with heat shrink`."""
    found: dict[str, list[Made]] = {}
    for each in made:
        cover = " with heat shrink" if covers[each.method] else ""
        found.setdefault(f"{each.method} at {each.at}{cover}", []).append(each)
    return found
