"""The data pairs of the car's plugs, and what opens one of their wires."""

from __future__ import annotations

from typing import NamedTuple

from harness.graph.broken import opened_at
from harness.graph.kept import kept
from harness.graph.wiring import Wiring
from harness.model.parts import Row
from harness.place import Place


class DataPair(NamedTuple):
    """CAN-H and CAN-L of one plug, by their rows."""

    plug: str
    high: Row
    low: Row

    def contact(self, half: str, row: Row) -> str:
        return f"{self.plug}.{half}.{row.cavity}"

    def contacts(self) -> tuple[str, ...]:
        """All four: both wires on both halves."""
        return tuple(self.contact(half, row) for half in ("unit", "car") for row in (self.high, self.low))


@kept
def data_pairs(wiring: Wiring) -> list[DataPair]:
    """Every data pair of a plug; a wire whose partner isn't charted makes none."""
    made = []
    for plug in wiring.job.parts.plugs.values():
        highs = [row for row in plug.rows if row.function.sign == "H"]  # data alone has these two
        lows = [row for row in plug.rows if row.function.sign == "L"]
        for high in highs:
            partner = next((low for low in lows if low.cavity == high.partner), None) or next(
                (low for low in lows if not low.partner), None
            )
            if partner is not None:
                lows.remove(partner)
                made.append(DataPair(plug.name, high, partner))
    return made


def opening(wiring: Wiring, plug: str, cavity: str) -> Place:
    """Where a person closes a cavity again: the cut, the pulled terminal, the loom's lead or its plugging in."""
    found = opened_at(wiring, f"{plug}.unit.{cavity}", f"{plug}.car.{cavity}")
    mates = wiring.mates_of.get(plug, [])
    if found.place not in [mate.place for mate in mates]:
        return found.place
    for mate in mates:
        for lead in wiring.job.parts.looms[mate.loom].leads:
            if lead.end == mate.end and lead.cavity.lower() == cavity.lower():
                return lead.place
    return found.place
