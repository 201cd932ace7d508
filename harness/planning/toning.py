"""What to tone, where to clip on, and what must answer: from the car's own wiring as found."""

from __future__ import annotations

from typing import NamedTuple

from harness.graph.answering import Answer, branches_between, halves_apart, lacked, lacked_by_name
from harness.graph.conductor import PLUGGED, Conductor
from harness.graph.pairs import pairs_of
from harness.graph.parted import wires_of
from harness.graph.resistance import Expected, expected_dc
from harness.graph.wiring import Wiring
from harness.model.contact import CHASSIS
from harness.model.parts import Plug, Row
from harness.planning.probe_moves import Held, least_moves
from harness.planning.states import PairStates


class Clip(NamedTuple):
    """Where the probes go. `where` is plug, leads (flying leads of a loom) or end (a loom's open plug end).

    `plus` and `minus` are cavities of the plug, or lead names, or cavities of that end.
    """

    where: str
    owner: str
    plus: str
    minus: str


class TonePair(NamedTuple):
    """One pair to tone, as the car half of its plug shows it.

    `silent` is the word under `lacks:` that says the car has no such speaker; `units` are the units whose
    terminals the wires reach (never tone into those); `on_body` says that the job itself puts a wire of the
    pair on the body.
    """

    plug: str
    plus: Row
    minus: Row
    state: str
    used: bool
    clip: Clip
    answers: tuple[Answer, ...]
    silent: str
    expected: Expected
    units: tuple[str, ...]
    on_body: bool

    @property
    def name(self) -> str:
        return f"{self.plug}.{self.plus.cavity}/{self.minus.cavity}"


def toning_plan(wiring: Wiring) -> tuple[TonePair, ...]:
    """Every speaker pair of every plug, plug by plug, in the order that moves the probes least."""
    states = PairStates(wiring)
    made: list[TonePair] = []
    for plug in wiring.job.parts.plugs.values():
        if plug.inline:
            continue
        rows = pairs_of(wiring, plug.name)
        unplugged = halves_apart(wiring, plug) if rows else frozenset()
        pairs = [_pair(wiring, states, unplugged, plug, plus, minus) for plus, minus in rows]
        # what is clipped on at the same owner is done in one go
        for clip in dict.fromkeys((pair.clip.where, pair.clip.owner) for pair in pairs):
            group = [pair for pair in pairs if (pair.clip.where, pair.clip.owner) == clip]
            made += _least(plug, group)
    return tuple(made)


def _least(plug: Plug, pairs: list[TonePair]) -> list[TonePair]:
    places = _places(plug)
    held: list[Held] = []
    for pair in pairs:
        plus, minus = places.get(pair.plus.cavity), places.get(pair.minus.cavity)
        if plus is None or minus is None:
            return pairs
        held.append((plus, minus))
    return [pairs[index] for index in least_moves(held)]


def _places(plug: Plug) -> dict[str, tuple[float, float]]:
    """Where each number stands, in columns and rows. A mirror image has the same distances."""
    if plug.face is None:
        return {}
    return {
        number: (float(column), float(row))
        for row, line in enumerate(plug.face.drawn)
        for column, number in enumerate(line)
        if number is not None
    }


def _pair(
    wiring: Wiring, states: PairStates, unplugged: frozenset[Conductor], plug: Plug, plus: Row, minus: Row
) -> TonePair:
    job = wiring.job
    wires = wires_of(wiring, wiring.found)
    at_plus = wires.reach(f"{plug.name}.car.{plus.cavity}", unplugged)
    at_minus = wires.reach(f"{plug.name}.car.{minus.cavity}", unplugged)
    silent = lacked(job.car.lacks, plus.function) if job.car else ""
    gone = frozenset(job.parts.speakers) if silent else lacked_by_name(wiring)
    branches, answers = branches_between(wiring, at_plus, at_minus, unplugged, gone)
    owners = dict.fromkeys(job.contacts[name].owner for at in (at_plus, at_minus) for name in at.units)
    return TonePair(
        plug.name, plus, minus, states.state(plug.name, plus, minus),
        f"{plug.name}.{plus.cavity}/{minus.cavity}" in states.used,
        _clip(wiring, plug, plus.cavity, minus.cavity), tuple(answers), silent, expected_dc(branches), tuple(owners),
        at_plus.has(CHASSIS) or at_minus.has(CHASSIS),
    )  # fmt: skip


def _clip(wiring: Wiring, plug: Plug, plus: str, minus: str) -> Clip:
    """A loom plugged into the car half carries the pair to its leads, where a clip holds without a probe."""
    pins = [_pin(wiring, f"{plug.name}.car.{cavity}") for cavity in (plus, minus)]
    if not pins[0] or not pins[1] or pins[0].split(".")[0] != pins[1].split(".")[0]:
        return Clip("plug", plug.name, plus, minus)
    loom = wiring.job.parts.looms[pins[0].split(".")[0]]
    leads = [_lead_at(wiring, pin) for pin in pins]
    if leads[0] and leads[1]:
        return Clip("leads", loom.name, leads[0], leads[1])
    through = {f"{loom.name}.car.{each.car_cavity}": each.unit_cavity for each in loom.throughs}
    ends = [through.get(pin, "") for pin in pins]
    if ends[0] and ends[1]:
        return Clip("end", loom.name, ends[0], ends[1])
    return Clip("plug", plug.name, plus, minus)


def _pin(wiring: Wiring, half: str) -> str:
    """The pin of a loom that sits in a half of a cavity, or empty."""
    return next(
        (conductor.other(half) for conductor in wiring.planned.conductors(half) if conductor.kind == PLUGGED), ""
    )


def _lead_at(wiring: Wiring, pin: str) -> str:
    loom, end, cavity = pin.split(".", 2)
    for lead in wiring.job.parts.looms[loom].leads:
        if lead.name in wiring.job.depinned:
            continue
        if lead.name == pin or (lead.own and lead.end == end and lead.cavity == cavity):
            return lead.name
    return ""
