"""The pins of a loom's ends: what hangs on each, and in which cavity it stands."""

from __future__ import annotations

from typing import NamedTuple

from harness.model.function import Function
from harness.model.job import Job, Mate
from harness.model.parts import Lead, Row, Through
from harness.place import Place


class Pin(NamedTuple):
    """One pin of a loom's end. `cavity` is its number in the loom, `stands` where it is now (moved or not)."""

    contact: str
    end: str
    cavity: str
    stands: str
    leads: tuple[Lead, ...]
    throughs: tuple[Through, ...]
    said: Row | None  # the row of the maker's list

    @property
    def place(self) -> Place:
        return self.leads[0].place if self.leads else self.throughs[0].place


def pins_of(job: Job, loom: str) -> list[Pin]:
    """Every pin of both ends, in the order written; a row of the maker's list alone makes none."""
    about = job.parts.looms[loom]
    wires: dict[tuple[str, str], tuple[list[Lead], list[Through]]] = {}
    for lead in about.leads:
        if lead.cavity:
            wires.setdefault((lead.end, lead.cavity), ([], []))[0].append(lead)
    for through in about.throughs:
        wires.setdefault(("unit", through.unit_cavity), ([], []))[1].append(through)
        wires.setdefault(("car", through.car_cavity), ([], []))[1].append(through)
    said = {row.cavity.lower(): row for row in about.pins}
    made = []
    for (end, cavity), (leads, throughs) in wires.items():
        contact = f"{loom}.{end}.{cavity}"
        stands = job.moved[contact][0] if contact in job.moved else cavity
        listed = said.get(cavity.lower()) if said else None
        made.append(tuple.__new__(Pin, (contact, end, cavity, stands, tuple(leads), tuple(throughs), listed)))
    return made


class PlugBoard:
    """The looms and plugs of a job for looking up: pins of a loom, the row of a cavity, where an end is plugged in."""

    def __init__(self, job: Job) -> None:
        self.job = job
        self._pins: dict[tuple[str, str], list[Pin]] = {}
        self._rows: dict[str, dict[str, Row]] = {}
        self._mates: dict[tuple[str, str], Mate] = {}
        for mate in job.mates:
            self._mates.setdefault((mate.loom, mate.end), mate)

    def pins(self, loom: str, end: str = "") -> list[Pin]:
        """The pins of one end of a loom, or of both, in the order written."""
        known = self._pins
        made = known.get((loom, end))
        if made is None:
            both = known.get((loom, ""))
            if both is None:
                both = known[loom, ""] = pins_of(self.job, loom)
            made = known[loom, end] = [pin for pin in both if pin.end == end] if end else both
        return made

    def row(self, plug: str, cavity: str) -> Row | None:
        """The first row of a cavity of a plug, or None where it isn't recorded."""
        rows = self._rows.get(plug)
        if rows is None:
            rows = {row.cavity.lower(): row for row in reversed(self.job.parts.plugs[plug].rows)}
            self._rows[plug] = rows
        return rows.get(cavity.lower())

    def mated(self, loom: str, end: str) -> Mate | None:
        """Where a loom's end is plugged in."""
        return self._mates.get((loom, end))


_TOLD = frozenset(
    {
        "battery", "switched", "ground", "light", "trigger", "aerial", "mute", "control", "shield", "restraint",
        "high voltage", "optical", "audio", "data", "mic", "digital",
    }
)  # fmt: skip


def differ(one: Function, other: Function) -> bool:
    """Whether two functions can't share a cavity: by kind and channel. A sign or a data letter alone is a swap.

    What is unknown, empty or only a terminal's name differs from nothing.
    """
    if one is other or one.kind not in _TOLD or other.kind not in _TOLD:
        return False
    if one.kind != other.kind:
        return {one.kind, other.kind} != {"ground", "shield"}
    if one.kind == "optical":
        return one.name != other.name
    if one.channel and other.channel and one.channel != other.channel:
        return True
    return bool(one.driver and other.driver and one.driver != other.driver)
