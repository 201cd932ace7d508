"""The maps that the car could be: by its name in their titles and by the years that they cover."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import NamedTuple

from harness.model.parts import Plug, Row, Unit
from harness.model.scope import Record, Scope
from harness.read.maps import Map

_HAND = re.compile(r"\b(left|right)([- ]hand)\b", re.IGNORECASE)


class Variant(NamedTuple):
    """One file of maps: the plugs of one car. `letter` is what it is called in a scope, empty where it is out."""

    letter: str
    file: str
    title: str
    maps: tuple[Map, ...]

    @property
    def plugs(self) -> tuple[Plug, ...]:
        return tuple(each.plug for each in self.maps)

    @property
    def units(self) -> dict[str, Unit]:
        return self.maps[0].units if self.maps else {}

    @property
    def amplifiers(self) -> list[Unit]:
        return [unit for unit in self.units.values() if unit.kind == "factory amplifier"]

    @property
    def steering(self) -> tuple[str, Record] | None:
        """The side of the wheel, left or right, by the source of a plug, else by the title; with its record."""
        for plug in self.plugs:
            if plug.source is not None and plug.source.steering and plug.source.steering_at is not None:
                return plug.source.steering, Record(plug.source.steering, plug.source.steering_at)
        said = _HAND.findall(self.title)
        at = self.maps[0].title_at if self.maps else None
        if len({side.lower() for side, _ in said}) != 1 or at is None:  # none, or both
            return None
        return said[0][0].lower(), Record(f"{said[0][0]}{said[0][1]}", at)

    def pair(self, channel: str) -> tuple[Plug, Row, Row] | None:
        """The first plug that has both wires of a channel: the one on the radio before others."""
        for plug in sorted(self.plugs, key=lambda each: bool(each.unit) and self._kind(each.unit) != "radio"):
            signs = {row.function.sign: row for row in plug.rows if row.function.base == channel}
            if {"+", "-"} <= signs.keys():
                return plug, signs["+"], signs["-"]
        return None

    def _kind(self, unit: str) -> str:
        known = self.units.get(unit.lower())
        return known.kind if known else ""


class Sifted(NamedTuple):
    """The variants that the car could be, those out by a record, and how many files name another car.

    `out` has with each the words of why, the map's record and the scope's.
    """

    could: tuple[Variant, ...]
    out: tuple[tuple[Variant, str, tuple[Record, Record]], ...]
    others: int


def sift(scope: Scope, maps: tuple[Map, ...]) -> Sifted:
    """The files whose title names the car, or names none, and that no record of the car contradicts.

    Those are its year, where a chart says which years it covers, the side of its wheel, where the chart or the title
    says one, and that it has no factory amplifier.
    """
    files: dict[str, list[Map]] = {}
    for each in maps:
        files.setdefault(each.file, []).append(each)
    name = scope.car["name"].words.casefold() if "name" in scope.car else ""
    could: list[Variant] = []
    gone: list[tuple[Variant, str, tuple[Record, Record]]] = []
    without = next((each for each in scope.without if each.words == "factory amplifier"), None)
    others = 0
    for file, found in files.items():
        variant = Variant("", file, found[0].title, tuple(found))
        if file != scope.file and name and variant.title and name not in variant.title.casefold():
            others += 1
            continue
        year, wheel = scope.car.get("year"), scope.car.get("steering")
        side = variant.steering
        out = next((plug for plug in variant.plugs if year and not _covered(plug, year.words)), None)
        if year is not None and out is not None and out.source is not None:
            covers = Record(out.source.covers, out.source.place)
            gone.append((variant, f"it covers {covers.words}", (covers, year)))
        elif wheel is not None and side is not None and _other_side(wheel.words, side[0]):
            gone.append((variant, f"it is of a car with the wheel on the {side[0]}", (side[1], wheel)))
        elif without is not None and variant.amplifiers:
            gone.append((variant, "it has a factory amplifier", (at_unit(variant.amplifiers[0]), without)))
        else:
            could.append(variant._replace(letter=_letter(len(could))))
    return Sifted(tuple(could), tuple(gone), others)


WHICH = "ringout which, with the plug in hand"


def if_map(some: Sequence[Variant], could: Sequence[Variant]) -> tuple[str, str]:
    """The condition under which something holds that only some of the maps say, and how it is found out."""
    if len(some) == len(could):
        return "", ""
    return f"the car is as map {' or '.join(each.letter for each in some)}", WHICH


def at_row(row: Row) -> Record:
    """A row of a map as a record."""
    return Record(row.function.base, row.place)


def at_plug(plug: Plug) -> Record:
    """The line on which a plug of a map begins."""
    return Record(plug.name, plug.place)


def at_unit(unit: Unit) -> Record:
    """The line on which a unit of a map begins."""
    return Record(unit.name, unit.place)


def _letter(number: int) -> str:
    """A … Z, then A1 …"""
    return chr(ord("A") + number % 26) + (str(number // 26) if number >= 26 else "")


def _other_side(car: str, chart: str) -> bool:
    return car.lower() in ("left", "right") and car.lower() != chart


def _covered(plug: Plug, year: str) -> bool:
    """Whether a chart covers a year, as far as both are written as numbers."""
    covers = plug.source.covers if plug.source else ""
    first, _, last = covers.partition("..")
    if not first.isdigit() or not year.isdigit():
        return True
    return int(first) <= int(year) <= int(last or first)
