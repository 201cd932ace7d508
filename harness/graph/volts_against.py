"""Volts at the wires of the car's own plugs that its chart doesn't have there, and volts below the body's."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from harness.electrical.turn_on import LEAST_AWAKE_V, LIVE_V
from harness.graph.readings import volts_of
from harness.graph.wiring import Wiring
from harness.model.contact import CHASSIS
from harness.model.evidence import Record
from harness.units import measured

# No wire of a 12 V car reads more, but for a moment: overvoltage tests of road vehicles take 18 V (ISO 16750-2, from
# memory).
MOST_IN_CAR_V = 18.0
# A bridged output puts half its supply on both of its wires, 9 V at the 18 V of an overvoltage test (ISO 16750-2, from
# memory); what reads more to the body is fed by something else.
MOST_HALF_SUPPLY_V = 9.0
_SWITCHED_ON = {"ACC": ("accessory", "run", "engine"), "75": ("accessory", "run", "engine")}
_IGNITION_ON = ("run", "engine")


class Odd(NamedTuple):
    """A reading of one contact to the body that isn't as its chart says: whether it is live, and what is charted."""

    record: Record
    contact: str
    live: bool
    planned: str


def odd_volts(wiring: Wiring, last: dict[tuple[str, str], Record]) -> Iterator[Odd]:
    """Of the last readings by contact and state of the key."""
    for (name, key), record in last.items():
        volts = volts_of(record.word("reads"))
        if volts is None or volts > MOST_IN_CAR_V or below_the_body(record):
            continue  # no such reading can be right, and that is told of it
        contact = wiring.contact(name)
        if contact.kind == "plug" and contact.half == "unit":
            continue
        function = contact.function
        if function.kind == "audio" and contact.kind in ("plug", "loom", "speaker"):
            apart = contact.owner.lower() in record.word("unplugged").lower().replace(",", " ").split()
            if volts >= LIVE_V if apart else volts > MOST_HALF_SUPPLY_V:
                yield Odd(record, name, True, "no feed")
        if contact.kind != "plug":
            continue
        if function.kind == "empty" and volts >= LIVE_V:
            yield Odd(record, name, False, "empty")
        elif function.kind == "battery" and volts < LEAST_AWAKE_V and key not in ("crank", ""):
            yield Odd(record, name, False, "12 V at all times")
        elif function.kind == "switched" and volts < LEAST_AWAKE_V and key in _on(function.base):
            yield Odd(record, name, False, f"12 V with the key in {key}" if key != "engine" else "12 V, engine on")
        elif function.kind == "ground" and volts >= LIVE_V:
            yield Odd(record, name, False, "0 V")


def _on(base: str) -> tuple[str, ...]:
    return _SWITCHED_ON.get(base, _IGNITION_ON)


def below_the_body(record: Record) -> bool:
    """Whether one contact was read at 1 V or more below the car's body, which no wire of such a car is."""
    volts = measured(record.word("reads"), "voltage")
    return len(record.contacts) == 1 and volts is not None and volts <= -LIVE_V


def grounded(wiring: Wiring, name: str) -> bool:
    """Whether a contact is ground: of a unit as planned, of a plug's car side as charted."""
    contact = wiring.contact(name)
    if contact.function.kind != "ground":
        return False
    if contact.kind == "unit":
        return wiring.planned.joined(name, CHASSIS)
    return contact.kind == "plug" and contact.half != "unit"
