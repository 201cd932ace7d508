"""Pairs that a meter shows to be none: open, though a speaker is drawn there, and a speaker each with another wire."""

from __future__ import annotations

import math
from typing import NamedTuple

from harness.graph.kept import kept
from harness.graph.misread import chart_of, misread, naming
from harness.graph.readings import Reading, between, is_car_side, pair_readings
from harness.graph.speaker_readings import speaker_readings
from harness.graph.wiring import Wiring
from harness.model.parts import Plug
from harness.patterns.ohms import Ohms, Partner, partners


class Unpaired(NamedTuple):
    """A plug and its charted pairs that are none, with the readings that say so."""

    plug: Plug
    partners: tuple[Partner, ...]
    readings: tuple[Reading, ...]


@kept
def unpaired(wiring: Wiring) -> list[Unpaired]:
    """Every plug with such pairs, in the order of the job; not those whose tones say how their chart is wrong."""
    suspects = {
        wiring.contact(name).owner
        for reading, met in speaker_readings(wiring)
        if math.isinf(reading.ohm) and met.branches and not met.expected.open_to_dc
        for name in reading.contacts
    }
    if not suspects:  # most jobs: nobody need judge their charts
        return []
    suspects -= {each.plug.name for each in misread(wiring)}
    read: dict[str, list[Reading]] = {}
    for reading in pair_readings(wiring):
        owners = {wiring.contact(name).owner for name in reading.contacts if is_car_side(wiring, name)}
        if len(owners) == 1 and owners <= suspects and all(is_car_side(wiring, name) for name in reading.contacts):
            read.setdefault(owners.pop(), []).append(reading)
    plugs = wiring.job.parts.plugs
    made = [_unpaired(wiring, plugs[name], read[name]) for name in plugs if name in suspects and name in read]
    return [each for each in made if each.partners]


def _unpaired(wiring: Wiring, plug: Plug, read: list[Reading]) -> Unpaired:
    name = naming(plug)
    told: dict[frozenset[str], Reading] = {}
    ohms = []
    for reading in read:
        a, b = (name(contact.rsplit(".", 1)[1]) for contact in reading.contacts)
        is_open = math.isinf(reading.ohm)
        if is_open != _drawn(wiring, reading):
            continue  # the drawing says why
        told[frozenset((a, b))] = reading
        ohms.append(Ohms(a, b, None if is_open else reading.ohm))
    found = partners(chart_of(wiring, plug), ohms)
    pairs = [frozenset((each.pair.plus, each.pair.minus)) for each in found]
    legs = [frozenset((leg.kept, leg.partner)) for each in found for leg in each.legs]
    return Unpaired(plug, tuple(found), tuple(told[each] for each in dict.fromkeys((*pairs, *legs))))


def _drawn(wiring: Wiring, reading: Reading) -> bool:
    """Whether the drawing has something between two wires that a meter reads through."""
    met = between(wiring, reading, *reading.contacts)
    return met.one_wire or met.has_unit or (bool(met.branches) and not met.expected.open_to_dc)
