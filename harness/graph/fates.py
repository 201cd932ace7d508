"""What becomes of every cavity and every lead, derived from joints, cuts and looms."""

from __future__ import annotations

from typing import NamedTuple

from harness.graph.conductor import FOUND, FUSE, JOINT, LEAD, PLUGGED, RUN, Conductor
from harness.graph.state import State
from harness.model.job import Job
from harness.model.parts import Lead, Row

PASSED, INTERCEPTED, TAPPED, ONE_END = "passed", "intercepted", "tapped", "used at one end"
CAPPED, DEPINNED, EMPTY, USED, LOOSE, UNKNOWN = "capped", "depinned", "empty", "used", "loose", "unknown"
OPEN = "open"

_OURS = frozenset((JOINT, RUN, FUSE))  # what we make; the car's own fuses were there before


class CavityFate(NamedTuple):
    """One cavity of a plug: its fate, and where its two halves go (contacts joined to them)."""

    plug: str
    row: Row
    fate: str
    unit_to: tuple[str, ...]
    car_to: tuple[str, ...]


class LeadFate(NamedTuple):
    """One lead of a loom or a unit: its fate, and what it is joined to. `said` are the fates written for it."""

    lead: Lead
    fate: str
    to: tuple[str, ...]
    said: tuple[str, ...]


class Fates:
    """The fates of one job as planned."""

    def __init__(self, job: Job, planned: State) -> None:
        self.job, self.planned = job, planned
        self._opened = job.apart.union(mate.plug for mate in job.mates)
        self._rows: dict[str, dict[str, Row]] = {}
        self._cavities: dict[tuple[str, str], CavityFate] = {}
        self._leads: dict[str, list[LeadFate]] = {}

    def cavities(self, plug_name: str) -> list[CavityFate]:
        """One entry a cavity of the plug, in the order written."""
        return [self.cavity(plug_name, cavity) for cavity in self._rows_of(plug_name)]

    def has(self, plug_name: str, cavity: str) -> bool:
        """Whether a row of the plug spells this cavity so."""
        return cavity in self._rows_of(plug_name)

    def cavity(self, plug_name: str, cavity: str) -> CavityFate:
        """The fate of one cavity, as its first row spells it; KeyError where no row does."""
        made = self._cavities.get((plug_name, cavity))
        if made is None:
            made = self._cavity(plug_name, self._rows_of(plug_name)[cavity])
            self._cavities[plug_name, cavity] = made
        return made

    def _rows_of(self, plug_name: str) -> dict[str, Row]:
        rows = self._rows.get(plug_name)
        if rows is None:
            rows = self._rows[plug_name] = {}
            for row in self.job.parts.plugs[plug_name].rows:
                rows.setdefault(row.cavity, row)
        return rows

    def opened(self, plug_name: str, cavity: str) -> bool:
        """Whether the plan parts the two halves of a cavity."""
        job = self.job
        return (
            plug_name in self._opened
            or f"{plug_name}.car.{cavity}" in job.cut
            or f"{plug_name}.unit.{cavity}" in job.cut
            or f"{plug_name}.car.{cavity}" in job.depinned
            or f"{plug_name}.unit.{cavity}" in job.depinned
        )

    def _cavity(self, plug_name: str, row: Row) -> CavityFate:
        unit, car = f"{plug_name}.unit.{row.cavity}", f"{plug_name}.car.{row.cavity}"
        unit_to, car_to = self._goes_to(unit), self._goes_to(car)
        if row.function.kind == "empty":
            fate = EMPTY
        elif not self.opened(plug_name, row.cavity):
            fate = TAPPED if unit_to or car_to else PASSED
        elif unit in self.job.depinned or car in self.job.depinned:
            fate = DEPINNED
        elif unit_to and car_to:
            if not self.planned.joined(unit, car):
                fate = INTERCEPTED
            else:
                fate = TAPPED if self._joined_on(unit, (*unit_to, *car_to)) else PASSED
        elif unit_to or car_to:
            fate = ONE_END
        elif unit in self.job.capped or car in self.job.capped:
            fate = CAPPED
        else:
            fate = OPEN
        return CavityFate(plug_name, row, fate, unit_to, car_to)

    def _joined_on(self, half: str, to: tuple[str, ...]) -> bool:
        """Whether more hangs on a cavity's wire than its own two halves."""
        plug, _, cavity = half.split(".")
        return any(other not in (f"{plug}.unit.{cavity}", f"{plug}.car.{cavity}") for other in to)

    def _goes_to(self, half: str) -> tuple[str, ...]:
        """What a half of a cavity is joined to in the plan, through a loom's pin where one is plugged in.

        A pin whose lead is joined to nothing carries nothing on: it does not count.
        """
        made: list[str] = []
        for conductor in self.planned.conductors(half):
            kind = conductor.kind
            if kind == PLUGGED:
                made += self._beyond(conductor, half)
            elif kind in _OURS and not conductor.states & FOUND:
                made.append(conductor.other(half))
        return tuple(dict.fromkeys(made)) if made else ()

    def _beyond(self, plugged: Conductor, half: str) -> list[str]:
        pin = plugged.b if half == plugged.a else plugged.a
        leaving = self.planned.conductors
        if len(leaving(pin)) == 1:
            return []
        made = []
        row, seen = [pin], {pin, half}
        for here in row:
            for conductor in leaving(here):
                a, b, kind, states = conductor[:4]
                other = b if here == a else a
                if other in seen:
                    continue
                seen.add(other)
                if kind == LEAD:
                    row.append(other)
                elif kind == PLUGGED or (kind in _OURS and not states & FOUND):
                    made.append(other)
        return made

    def leads(self, owner: str) -> list[LeadFate]:
        """Every lead of a loom or a unit, exactly once."""
        made = self._leads.get(owner)
        if made is None:
            parts = self.job.parts
            leads = parts.looms[owner].leads if owner in parts.looms else parts.units[owner].leads
            made = self._leads[owner] = [self._lead(lead) for lead in leads]
        return made

    def _lead(self, lead: Lead) -> LeadFate:
        job = self.job
        said = tuple(word for word, table in ((CAPPED, job.capped), (DEPINNED, job.depinned)) if lead.name in table)
        name = lead.name
        to = tuple(
            [b if a == name else a for a, b, kind, states, _, _ in self.planned.conductors(name)
             if kind in _OURS and not states & FOUND]
        )  # fmt: skip
        if to:
            fate = USED
        elif said:
            fate = said[0]
        else:
            fate = LOOSE  # a branch of a wire that goes through is a bare end all the same
        return LeadFate(lead, fate, to, said)
