"""A18."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.wiring import Wiring
from harness.model.contact import CHASSIS

if TYPE_CHECKING:
    from harness.graph.readings import Reading

# Wires that must be clear of the body: signal, data, turn-on. Supply and lights reach it through what they feed.
_CLEAR = frozenset({"audio", "port", "mic", "digital", "data", "trigger"})
# What reads more isn't the body but something between, an input or damp.
_CONTACT_OHM = 1000.0


@check(
    "A18",
    Severity.STOP,
    "Wire shorted to the body",
    source="a how-to page: any continuity to the body means stop, seen 2026",
    by_joints=False,
    needs="readings",
    bases=("body by meter",),
)
def wire_shorted_to_the_body(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a reading in ohms from a speaker, signal, data or turn-on wire to the car's body, where the
    chart has nothing that leads there.

    Why it matters: both wires of a bridged output are live. One of them on the body shuts the amplifier down at best,
    and burns it at worst.

    Example: cavity 4 reads 0.6 ohm to the body; in the door boot its insulation has worn through.

    What to do: join nothing to it. Find where it rubs, often the door boot or under a trim screw, mend it, read again.

    Known limits: the last reading of a wire counts. Above 1 kohm something else lies between, and it isn't told. A wire
    that the chart takes to the body itself or through a speaker may read so. Where `body` stands behind a pair it isn't
    known which of the two wires it is. Supply, lights and wires of unknown function aren't judged, nor a unit's
    terminals, unless `unplugged` names the unit: its leads were off.

    Source: any continuity from a speaker wire to the body means stop (a how-to page, seen 2026); that more than 1 kohm
    is no contact: common practice, no source.
    """
    from harness.graph.readings import body_readings, wire_of  # few jobs have such records
    from harness.graph.speaker_readings import pair_words

    for reading in body_readings(wiring):
        suspects = tuple(name for name in reading.contacts if _shorted(wiring, reading, name))
        if not suspects:
            continue
        one = len(suspects) == 1
        words = wiring.words(suspects[0]) if one else f"one of {pair_words(wiring, suspects)}"
        yield Fault(
            at=Spot(reading.record.place, words),
            message=f"{words} reads {reading.words} to the car's body and nothing in the chart leads there. "
            "What drives it shuts down or burns.",
            do="Join nothing to it. Find where the wire rubs, often the door boot or a trim screw, mend it and read "
            "it to the body once more.",
            about=suspects,
            path=wire_of(wiring, suspects[0]),
        )


def _shorted(wiring: Wiring, reading: Reading, name: str) -> bool:
    """Whether a wire that must be clear of the body reads as if it touched it, and the drawing doesn't say why."""
    from harness.graph.readings import function_of, less_than_drawn, of_wires

    if function_of(wiring, name).kind not in _CLEAR:
        return False
    if not of_wires(wiring, reading, name):
        return False  # read into a unit: what it has inside to ground isn't drawn
    return less_than_drawn(wiring, reading, name, CHASSIS, _CONTACT_OHM)
