"""The cables to lay, counted: as a job has its runs, else as many as the wishes ask for."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from harness.model.scope import Record
from harness.scoping.site import Site

_FED = "each unit is fed from the battery", "read its papers"
_WAY = "its way is agreed", "look, and measure"


class Lot(NamedTuple):
    """Some cables of one use: how many, what else each takes, what they rest on, and what must be found out."""

    supply: bool  # from the battery, fused
    least: int
    most: int
    words: str
    basis: tuple[Record, ...]
    condition: str = ""
    find_out: str = ""


def lots(site: Site) -> Iterator[Lot]:
    """All cables by their use. A pair, or the pairs of a plug in one sheath, is one cable."""
    if site.scope.laid is not None:
        for supply in (True, False):
            found = tuple(each.record for each in site.scope.laid if each.supply is supply)
            if found:
                words = "supply cable from the battery, with its fuse" if supply else "cable, as the runs have it"
                yield Lot(supply, len(found), len(found), words, found)
        return
    units = tuple(wish.record for wish in site.wishes("unit"))
    many = len(units)
    if units:
        yield Lot(True, 1, many, "supply cable from the battery, with its fuse", units, *_FED)  # one for all, or each
        yield Lot(False, many, many, "ground cable, to bare metal near the unit", units, *_WAY)
    plugs = [{plug.name for plug, _ in site.plugs(variant)} for variant in site.could]
    if site.channels and any(plugs):  # for both ways, or one each way
        least, most = min(map(len, plugs)), 2 * max(map(len, plugs))
        basis = tuple(dict.fromkeys(wish.record for wish in site.channels.values()))
        yield Lot(False, least, most, "cable for the pairs, plug to unit and back", basis, *_WAY)
    added = tuple(wish.record for wish in site.wishes("add"))
    if added:
        yield Lot(False, len(added), len(added), "speaker cable to what is added", added, *_WAY)
    if many > 1:
        yield Lot(False, 0, many - 1, "signal cable from unit to unit", units, *_WAY)
