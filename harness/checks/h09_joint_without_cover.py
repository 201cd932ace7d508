"""H09."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.uncovered import uncovered, where_to_write
from harness.graph.wiring import Wiring
from harness.joints import methods
from harness.model.job import Joint

_NAMED = 6  # so many joints are named in the message


@check(
    "H09",
    Severity.FIX,
    "Joint without a cover",
    source="FCS 1362:2010 2.6.1.4.2, as quoted in the trade, seen 2026: a soldered tap is sealed with tape",
    by_joints=False,
)
def joint_without_cover(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: joints by a method that leaves live metal (solder, crimp), with no cover written.

    Why it matters: bare joints lie beside each other behind the radio. The first one that moves touches its neighbour
    or the body, and then it is a short, months after the car has left. Heat-shrink has to be on the wire before the
    joint is made, so it can't be left for later.

    Example: `solder at behind the radio` with four taps under it, and no word of heat-shrink or tape.

    What to do: write what covers them, `solder at behind the radio with heat shrink`, and slide it on first. A splice
    that has its own sleeve is covered too: `with insulated splice`.

    Known limits: whether a joint needs a cover is what its method says; a tap's own jacket, a screw, a ring or a spring
    connector needs none. A joint on a ground point isn't asked for. Told once a heading; `none`, `bare`
    and `unknown` count as no cover.

    Source: FCS 1362:2010 2.6.1.4.2, as quoted in the trade, seen 2026, for soldered taps; common practice, no source,
    for the rest.
    """
    for joints in uncovered(wiring):
        first = joints[0]
        heading = f"{first.method} at {first.at}" if first.at else first.method
        said = "cover: heat shrink" if first.cover else f"{heading} with heat shrink"
        yield Fault(
            at=Spot(where_to_write(first), wiring.words(first.links[0].a) if first.cover else heading),
            message=f"{_names(joints)} ({methods()[first.method].words}{f' at {first.at}' if first.at else ''}): no "
            "cover recorded, and bare metal shorts to what it touches.",
            do=f"Write what covers it, for instance `{said}`, and slide it on before you join.",
            about=tuple(dict.fromkeys(end for joint in joints for link in joint.links for end in link)),
            also=tuple(Spot(joint.place, wiring.words(joint.links[0].a)) for joint in joints if not joint.cover),
        )


def _names(joints: list[Joint]) -> str:
    """`Joint J5`; `12 joints, J1 to J12`."""
    if len(joints) == 1:
        return f"Joint {joints[0].name}"
    if len(joints) <= _NAMED:
        return f"Joints {', '.join(joint.name for joint in joints[:-1])} and {joints[-1].name}"
    return f"{len(joints)} joints, {joints[0].name} to {joints[-1].name},"
