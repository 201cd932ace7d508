"""Charts and the years that they cover, against the car's year."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from harness.graph import fates
from harness.graph.pairs import used_pairs
from harness.graph.wiring import Wiring
from harness.model.parts import Plug, Row
from harness.place import Place

_UNTOUCHED = (fates.PASSED, fates.EMPTY, fates.OPEN)


class OtherYears(NamedTuple):
    """A plug whose chart is for other years: where that is written, the years, and its cavities used and not toned."""

    plug: Plug
    place: Place
    covers: str
    used: list[Row]


def charts_of_other_years(wiring: Wiring) -> Iterator[OtherYears]:
    """Every such plug of which the plan uses a cavity that no tone proved, in the order of the job."""
    year = _year(wiring)
    if not year:
        return
    for plug in wiring.job.parts.plugs.values():
        source = plug.source
        if source is None or not source.covers or covered(source.covers, year):
            continue
        used = _used(wiring, plug)
        if used:
            words = source.covers.replace("..", " to ")
            yield OtherYears(plug, source.place, words, used)


def covered(covers: str, year: int) -> bool:
    """Whether `2020..2023`, or a single year, holds the year; both ends count, in either order."""
    first, _, last = covers.partition("..")
    years = sorted((int(first), int(last or first)))
    return years[0] <= year <= years[1]


def unjudged(wiring: Wiring) -> list[str]:
    """Plugs whose chart says its years, where nobody wrote the car's."""
    if _year(wiring):
        return []
    return [plug.name for plug in wiring.job.parts.plugs.values() if plug.source is not None and plug.source.covers]


def _year(wiring: Wiring) -> int:
    car = wiring.job.car
    return int(car.year) if car is not None and car.year.isdigit() else 0


def _used(wiring: Wiring, plug: Plug) -> list[Row]:
    """The rows of the cavities that the plan opens, taps or takes out, but those of pairs toned as charted."""
    known = {
        row.cavity
        for pair in used_pairs(wiring)
        if pair.plug == plug.name and pair.state == "toned"
        for row in (pair.plus, pair.minus)
    }
    fates_here = wiring.fates.cavities(plug.name)
    return [each.row for each in fates_here if each.fate not in _UNTOUCHED and each.row.cavity not in known]
