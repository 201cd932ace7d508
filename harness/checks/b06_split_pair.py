"""B06."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.conductor import Hop
from harness.graph.splits import Split, splits
from harness.graph.walk import place_to_change
from harness.graph.wiring import Wiring
from harness.place import Place


@check("B06", Severity.STOP, "Split pair", source="common practice, no source")
def split_pair(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a speaker or an input whose two wires come from two different outputs, and an output
    whose two wires go to two different speakers.

    Why it matters: the two channels are tied together through the speaker; with bridged outputs each drives
    into the other, and neither plays right.

    Example: amplifier out 1 + goes to the left speaker's + and amplifier out 2 − to its −.

    What to do: take both wires of the pair from one output.

    Known limits: two outputs whose wires are exchanged are one finding. A bridge that the maker allows must be
    written under the unit's `bridges`. Speakers in series between the two wires of one output are no split. A
    wire that lies on ground is not taken as an output's.

    Source: common practice, no source.
    """
    for group in splits(wiring):
        first = group[0]
        at, hops = _wrong_wire(wiring, first)
        also: dict[Place, Spot] = {}
        for other in group:
            spot, _ = _wrong_wire(wiring, other)
            also.setdefault(spot.place, spot)
        if wiring.ports[first.plus_from] is wiring.ports[first.minus_from]:  # both wires of one output, at two speakers
            said = (
                f"{first.name} drives {wiring.words(first.plus)} with its + and {wiring.words(first.minus)} with its −"
                ": two channels are tied together."
            )
        else:
            said = (
                f"{wiring.words(first.plus)} is driven by {wiring.words(first.plus_from)}, but "
                f"{wiring.words(first.minus)} by {wiring.words(first.minus_from)}: two channels are tied together."
            )
        about = {name: None for split in group for name in (split.plus, split.minus, split.plus_from, split.minus_from)}
        yield Fault(
            at=at,
            message=said,
            do=f"Take both wires of {' and of '.join(split.name for split in group)} from one output.",
            about=tuple(about),
            also=tuple(also.values()),
            path=hops,
        )


def _wrong_wire(wiring: Wiring, split: Split) -> tuple[Spot, tuple[str, ...]]:
    """Where the wire that is likelier wrong was joined, and its way."""
    start, end = (split.plus_from, split.plus) if split.blame_plus else (split.minus_from, split.minus)
    hops: tuple[Hop, ...] = wiring.planned.path(start, end)
    blamed = wiring.blame(hops)
    place = place_to_change(wiring, blamed) if blamed is not None else wiring.contact(end).place
    return Spot(place, wiring.words(end)), wiring.way_in_words(start, hops)
