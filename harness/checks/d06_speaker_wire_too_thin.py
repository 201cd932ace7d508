"""D06."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.load_words import about_of, receiver_of
from harness.graph.loads import loads
from harness.graph.shop import figure
from harness.graph.speaker_cable import speaker_cable, wanted_size
from harness.graph.wiring import Wiring
from harness.model.contact import printed


@check("D06", Severity.FIX, "Speaker wire too thin", source="common practice, no source", by_joints=False)
def speaker_wire_too_thin(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a speaker that loses more than the shop's share of its volts in the cable we lay to it.

    Why it matters: power turns to heat in the cable, and the amplifier no longer holds the cone: bass gets loose.

    Example: 15 ft of 22 AWG there and back are 0.48 ohm, a fifth of the volts of a 2 ohm subwoofer.

    What to do: lay the size named.

    Known limits: only cable of `runs` with a length and a size counts; a loom's leads and the car's own wires have no
    length. A pair's run counts both of its wires.

    Source: common practice, no source: less than 5 % of the volts. The other preset takes 0.5 dB, 5.6 %.
    """
    limit = figure(wiring, "speaker wire")
    for load in loads(wiring):
        for arrival in load.arrivals:
            if arrival.wire_loss <= limit.value * (1 + 1e-9):
                continue
            receiver = receiver_of(wiring, arrival.name)
            cable = speaker_cable(wiring, load, receiver)
            if cable is None:
                continue
            size = wanted_size(load, arrival, cable, limit.value)
            yield Fault(
                at=Spot(cable.segment.place, f"speaker {printed(arrival.speaker)}"),
                message=f"{printed(arrival.speaker)} loses {arrival.wire_loss * 100:.1f} % of its volts in "
                f"{cable.ohm:.2g} ohm of {cable.segment.size.text if cable.segment.size else 'cable'}, limit "
                f"{limit.words}: less power, and the bass gets loose.",
                do=f"Lay {size.text}." if size is not None else "Move the amplifier nearer to the speaker.",
                about=about_of(wiring, load),
                path=cable.way,
            )
