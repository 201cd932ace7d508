"""C04."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.live import meetings, seen_at
from harness.graph.state import hops_to
from harness.graph.wiring import Wiring


@check("C04", Severity.STOP, "Bridged negatives joined", source="common practice, no source")
def bridged_negatives_joined(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: − wires of two or more bridged outputs that conduct to each other while their + do
    not.

    Why it matters: each − of a bridged output is an output of its own; joined, they drive against each
    other through whatever the + wires play.

    Example: left and right front − are twisted together to save a wire to the converter.

    What to do: part them and take every channel's own − to its own input.

    Known limits: where + and − of the same outputs are joined, it is told once as C01. Where the − meet
    only through an input's or another ground, it is told as C05 or C03.

    Source: common practice, no source.
    """
    found = meetings(wiring)
    whole = [meeting.ports for meeting in found if not meeting.minus_only]
    for meeting in found:
        if not meeting.minus_only or not all(wiring.bridged_output(t) for t in meeting.terminals):
            continue
        first, *rest = meeting.terminals
        others = [t for t in rest if not any({_port(wiring, first), _port(wiring, t)} <= ports for ports in whole)]
        if not others:
            continue
        hops = hops_to(meeting.reached, others[0])
        blamed = wiring.blame(hops)
        place = blamed.place if blamed else wiring.contact(others[0]).place
        at = wiring.words(seen_at(wiring, blamed, first))
        names = " and ".join(wiring.words(t) for t in (first, *others))
        yield Fault(
            at=Spot(place, at),
            message=f"{names} are joined at {at}: on a bridged radio that shorts {len(others) + 1} outputs together.",
            do=f"Part them at {at} and take each − to its own input.",
            about=(first, *others),
            path=wiring.way_in_words(first, hops),
        )


def _port(wiring: Wiring, terminal: str) -> tuple[str, str]:
    port = wiring.ports[terminal]
    return port.unit, port.name
