"""The cable that we lay to a speaker, and the size that would be thick enough."""

from __future__ import annotations

from typing import NamedTuple

from harness.electrical.conductors import ohm_per_m
from harness.electrical.sizing import sizes_like
from harness.graph.cable import ohms, segment_of
from harness.graph.loads import Arrival, Load
from harness.graph.shop import figure
from harness.graph.signal import Receiver
from harness.graph.wiring import Wiring
from harness.model.job import Segment
from harness.units import WireSize


class SpeakerCable(NamedTuple):
    """The piece with the most ohms, and the ohms of all pieces there and back."""

    segment: Segment
    piece_ohm: float
    ohm: float
    way: tuple[str, ...]


def speaker_cable(wiring: Wiring, load: Load, receiver: Receiver) -> SpeakerCable | None:
    """None where no piece of the way has a length and a size."""
    warm = figure(wiring, "temperature").value
    found: list[tuple[float, Segment]] = []
    way: tuple[str, ...] = ()
    for start, end in ((load.driver.plus, receiver.plus), (load.driver.minus, receiver.minus)):
        hops = wiring.planned.path(start, end) or wiring.planned.path(
            start, receiver.minus if end == receiver.plus else receiver.plus
        )
        way = max(way, wiring.way_in_words(start, hops), key=len)
        for hop in hops:
            segment = segment_of(wiring, hop.conductor)
            if segment is not None and segment.size is not None:
                found.append((ohms(segment, warm), segment))
    if not found:
        return None
    _, worst = max(found, key=lambda piece: piece[0])
    alike = sum(ohm for ohm, segment in found if segment.place == worst.place)
    return SpeakerCable(worst, alike, sum(ohm for ohm, _ in found), way)


def wanted_size(load: Load, arrival: Arrival, cable: SpeakerCable, limit: float) -> WireSize | None:
    """The thinnest size for the worst line with which the loss is within the limit; None where none is thick enough.

    What the speaker itself takes is had from the loss as it is: loss = R/(R + Z).
    """
    segment = cable.segment
    assert segment.size is not None, "only a piece with a size loses anything"
    behind_ohm = cable.ohm * (1 - arrival.wire_loss) / arrival.wire_loss
    for size in sizes_like(segment.size):
        share = ohm_per_m(size, segment.metal) / ohm_per_m(segment.size, segment.metal)
        ohm = cable.ohm - cable.piece_ohm + cable.piece_ohm * share
        if ohm / (ohm + behind_ohm) <= limit:
            return size
    return None
