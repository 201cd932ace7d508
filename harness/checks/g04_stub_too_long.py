"""G04."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.data_joints import data_joints
from harness.graph.shop import figure
from harness.graph.whole_wire import along
from harness.graph.wiring import Wiring
from harness.units import length_like


@check(
    "G04",
    Severity.FIX,
    "Stub on a data bus too long",
    source="a motorsport unit's manual, origin withheld",
    by_joints=False,
    needs="data",
)
def stub_too_long(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a branch from a data pair whose `stub` is longer than the shop's figure.

    Why it matters: a signal that runs into a long branch comes back as an echo. The bus works on the bench and
    fails when it is warm or busy.

    Example: an interface behind the glove box hangs on 1.2 m of twisted pair, with a limit of 0.5 m.

    What to do: bring the unit nearer to the bus, keep the branch twisted, or take the bus through at its plug.

    Known limits: only what is written as `stub` is known, and runs laid from a data pair. Whether the maker allows
    a further node at all is not known here: ask.

    Source: a motorsport unit's manual, seen 2026, origin withheld: 0.5 m.
    """
    limit = figure(wiring, "stub")
    for joint, wire, end in data_joints(wiring):
        if joint.stub_m is None or joint.stub_m <= limit.value * (1 + 1e-9):
            continue
        here = length_like(joint.stub_m, limit.words)
        yield Fault(
            at=Spot(joint.place, wiring.words(wire)),
            message=f"{wiring.words(wire)} gets a branch of {here} at {joint.name}, limit {limit.words}: "
            "echoes disturb the bus when it is busy.",
            do=f"Bring the unit nearer: at most {limit.words} of branch, twisted to its end.",
            about=tuple(end for link in joint.links for end in link),
            path=along(wiring, wiring.planned, wire, end),
        )
