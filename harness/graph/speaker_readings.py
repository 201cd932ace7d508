"""Readings in ohms across the two wires of one speaker pair, and what the drawing has between them."""

from __future__ import annotations

from typing import NamedTuple

from harness.graph.kept import kept
from harness.graph.readings import Between, Reading, between, function_of, is_car_side, of_wires, pair_readings
from harness.graph.wiring import Wiring


class SpeakerReading(NamedTuple):
    """A reading across a pair, and what lies between its wires by the drawing."""

    reading: Reading
    met: Between


@kept
def speaker_readings(wiring: Wiring) -> list[SpeakerReading]:
    """Readings of pairs of a plug's car side, of a loom or of an output's leads: + and − of one channel, on two wires,
    with no unit on them.

    A unit on the wires is what the meter then reads, and no sum of speakers tells how much that is.
    """
    made = []
    for reading in pair_readings(wiring):
        a, b = reading.contacts
        if _is_pair(wiring, reading):
            met = between(wiring, reading, a, b)
            if not met.one_wire and not met.has_unit:
                made.append(SpeakerReading(reading, met))
    return made


def _is_pair(wiring: Wiring, reading: Reading) -> bool:
    one, other = (function_of(wiring, name) for name in reading.contacts)
    if not all(of_wires(wiring, reading, name) for name in reading.contacts):
        return False
    return (
        one.base == other.base and one.sign != other.sign and one.kind == other.kind and one.kind in ("audio", "port")
    )


def of_two_pairs(wiring: Wiring, reading: Reading) -> bool:
    """Whether a reading is between the car's own wires of two speaker pairs."""
    one, other = map(wiring.contact, reading.contacts)
    if not all(is_car_side(wiring, name) for name in reading.contacts):
        return False
    return one.function.kind == other.function.kind == "audio" and one.function.base != other.function.base


def pair_words(wiring: Wiring, contacts: tuple[str, ...]) -> str:
    """`dash cavities 3 and 4 (white and white with black stripe, FL)`."""
    one, other = (wiring.contact(name) for name in contacts)
    if one.kind == "unit":
        return f"the leads at {one.owner} {one.last} and {other.last}"
    colours = [each.colour.words for each in (one, other) if each.colour is not None]
    about = ", ".join([*([" and ".join(colours)] if colours else []), function_of(wiring, contacts[0]).base])
    what = "cavities" if one.kind == "plug" else f"{one.half} end" if one.half else "leads"
    return f"{one.owner} {what} {one.last} and {other.last} ({about})"
