"""G02."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.data_joints import data_joints
from harness.graph.shop import figure
from harness.graph.whole_wire import along
from harness.graph.wiring import Wiring
from harness.units import length_like


@check(
    "G02",
    Severity.FIX,
    "Data pair untwisted too long",
    source="workshop manuals of two makers, withheld",
    by_joints=False,
    needs="data",
)
def untwisted_too_long(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a joint on a data pair whose `untwist` is longer than the shop's figure.

    Why it matters: the pair is twisted so that noise meets both wires alike. A long open stretch takes up what the
    twist would cancel, and the bus has errors that come and go.

    Example: 140 mm of CAN opened behind the radio to make room for two solder joints, with a limit of 100 mm.

    What to do: twist the wires again up to the joints, or make the joints closer to the plug.

    Known limits: only what is written as `untwist` is known. Makers differ: one allows 100 mm, another 50; the
    preset and `limits` say which holds.

    Source: workshop manuals of two makers, withheld: 100 mm at a connector, 50 mm anywhere.
    """
    limit = figure(wiring, "untwist")
    for joint, wire, end in data_joints(wiring):
        if joint.untwist_m is None or joint.untwist_m <= limit.value * (1 + 1e-9):
            continue
        here = length_like(joint.untwist_m, limit.words)
        yield Fault(
            at=Spot(joint.place, wiring.words(wire)),
            message=f"{wiring.words(wire)} is untwisted over {here} at {joint.name}, limit {limit.words}: "
            "the bus takes up noise and has errors that come and go.",
            do=f"Twist it again up to the joint, so that at most {limit.words} stay open.",
            about=tuple(end for link in joint.links for end in link),
            path=along(wiring, wiring.planned, wire, end),
        )
