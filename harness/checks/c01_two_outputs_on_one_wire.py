"""C01."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.live import Meeting, meetings, seen_at
from harness.graph.state import hops_to
from harness.graph.wiring import Wiring
from harness.place import Place


@check("C01", Severity.STOP, "Two outputs on one wire", source="common practice, no source")
def two_outputs_on_one_wire(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: live terminals of two different outputs that conduct to each other through what is
    joined.

    Why it matters: two amplifiers drive against each other; one or both can fail at the first loud passage.

    Example: a loom passes the radio's left front wire through while the new amplifier's output is joined to
    the same wire on the speaker side.

    What to do: open the wire toward the radio and use that end as the input, or undo the second joint.

    Known limits: outputs of units that the job does not list are not known. A − that its unit ties to
    ground is not live; − wires of bridged outputs alone on one wire are told as C04. Terminals that a
    unit's `bonds` join inside count as one. What meets only through ground is told there.

    Source: common practice, no source.
    """
    told: dict[frozenset[tuple[str, str]], list[Meeting]] = {}
    for meeting in meetings(wiring):
        alone = meeting.minus_only and all(wiring.bridged_output(t) for t in meeting.terminals)
        if meeting.ports in told or not alone:
            told.setdefault(meeting.ports, []).append(meeting)
    faults: dict[Place, Fault] = {}
    for together in told.values():
        first, others = together[0].terminals[0], together[0].terminals[1:]
        hops = hops_to(together[0].reached, others[0])
        blamed = wiring.blame(hops)
        place = blamed.place if blamed else wiring.contact(others[0]).place
        names = " and ".join(wiring.words(t) for t in (first, *others))
        meeting_at = wiring.words(seen_at(wiring, blamed, first))
        also = []
        for other in others[1:]:
            further = wiring.blame(hops_to(together[0].reached, other))
            if further:
                also.append(Spot(further.place, wiring.words(seen_at(wiring, further, other))))
        about = tuple(t for meeting in together for t in meeting.terminals)
        if place in faults:
            faults[place] = faults[place]._replace(about=(*faults[place].about, *about))
        else:
            faults[place] = Fault(
                at=Spot(place, meeting_at),
                message=f"{names} meet on one wire at {meeting_at}: two amplifiers fight and one or both can fail.",
                do=f"Open the wire toward {wiring.contact(first).owner}, or undo the joint at {meeting_at}.",
                about=about,
                also=tuple(also),
                path=wiring.way_in_words(first, hops),
            )
    yield from faults.values()
