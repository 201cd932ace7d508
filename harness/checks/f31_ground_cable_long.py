"""F31."""

from collections.abc import Iterator
from itertools import pairwise
from operator import itemgetter

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.cable import segments
from harness.graph.fitted import terminals_for
from harness.graph.grounding import grounds, way_to_body
from harness.graph.shop import figure
from harness.graph.wiring import Wiring
from harness.units import length_like


@check(
    "F31",
    Severity.NOTE,
    "Ground cable longer than the shop's limit",
    source="common practice, no source",
    by_joints=False,
    needs="runs",
)
def ground_cable_long(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a unit whose ground cable, all its pieces up to the ground point together, is longer than the
    shop's `ground length`.

    Why it matters: each foot of ground lifts the unit's own zero above that of the units it shares a signal with; that
    is heard as whine before it is missed as power.

    Example: 5 ft from the amplifier's GND to a point in the other corner of the boot.

    What to do: take a ground point nearer to the unit, bare metal of the body.

    Known limits: pieces without a length count as nothing. The nearest way to the body is measured, up to another
    unit's ground where it goes on from there. A ground that goes to the battery's post is as long as it is (F16). What
    the length costs in volts is counted with the drop (F06).

    Source: common practice, no source: 18 in.
    """
    known, cables, limit = grounds(wiring), segments(wiring), figure(wiring, "ground length")
    for unit in wiring.job.parts.units.values():
        for terminal in terminals_for(wiring, unit.name, "ground"):
            if terminal not in known or not any(_is_point(wiring, name) for name in known[terminal].points):
                continue
            way = _own_part(wiring, way_to_body(wiring, terminal))
            pieces = [cables.get(ends) or cables.get(ends[::-1]) for ends in pairwise(way)]
            laid = [(piece.length_m, piece) for piece in pieces if piece is not None and piece.laid and piece.length_m]
            length_m = sum(length_m for length_m, _ in laid)
            if length_m <= limit.value * (1 + 1e-9):
                continue
            _, longest = max(laid, key=itemgetter(0))
            yield Fault(
                at=Spot(longest.place, wiring.words(terminal)),
                message=f"{wiring.words(terminal)} goes {length_like(length_m, limit.words)} to its ground, the shop's "
                f"limit is {limit.words}: whine has a long lead to come in by.",
                do="Take a point of bare metal nearer to the unit.",
                about=(terminal,),
                path=way,
            )
            break


def _is_point(wiring: Wiring, name: str) -> bool:
    return wiring.contact(name).kind == "ground"


def _own_part(wiring: Wiring, way: tuple[str, ...]) -> tuple[str, ...]:
    """The way up to the ground point, or to the next unit's terminal."""
    ends = (at for at, name in enumerate(way) if at and wiring.contact(name).kind in ("ground", "unit"))
    return way[: next(ends, len(way) - 1) + 1]
