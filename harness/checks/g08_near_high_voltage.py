"""G08."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.overfused import end_words
from harness.graph.wiring import Wiring
from harness.place import Place


@check(
    "G08",
    Severity.STOP,
    "Work beside high-voltage cables",
    source="common practice, no source",
    by_joints=False,
    needs="orange",
)
def near_high_voltage(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a run that goes by way of a place where orange cables lie, a ground point or a joint there.

    Why it matters: a screw, a clip or a drill through an orange cable kills. Work on them needs its own training
    and a car that was made dead by someone licensed for it.

    Example: the amplifier's cable goes `via tunnel`, and the car has `orange: [tunnel, left sill]`.

    What to do: choose another route and another ground point. Nothing of ours is fixed, drilled or clipped there.

    Known limits: where orange cables lie is known from `orange` of the car and from plugs that carry HV. A place is
    known by its words: `tunnel` and `under the console` are two places.

    Source: common practice, no source; local rules for work on high-voltage cars come first.
    """
    car = wiring.job.car
    orange = {_plain(place): place for place in (car.orange if car else ())}
    orange |= {_plain(plug.where): plug.where for plug in wiring.job.parts.plugs.values() if "hv" in plug.carries}
    orange.pop("", None)
    if not orange:
        return
    told: set[tuple[Place, str]] = set()
    for what, where, place, about in _ours(wiring):
        here = orange.get(_plain(where))
        if here is None or (place, here) in told:
            continue
        told.add((place, here))
        yield Fault(
            at=Spot(place, here),
            message=f"{what} {here}, where orange high-voltage cables lie: a clip, screw or drill there can kill.",
            do="Choose another way; nothing of ours is fixed, drilled or clipped near orange cables.",
            about=about,
        )


def _plain(words: str) -> str:
    return " ".join(words.lower().split())


def _ours(wiring: Wiring) -> Iterator[tuple[str, str, Place, tuple[str, ...]]]:
    """(what, its place in words, where it is written, contacts) of all that we lay, fix or join somewhere."""
    job = wiring.job
    for segment in job.segments:
        if segment.laid and segment.via:
            begins = end_words(wiring, segment.a, segment.b)
            yield f"The run from {begins} goes via", segment.via, segment.place, (segment.a, segment.b)
    used = {name for segment in job.segments if segment.laid for name in (segment.a, segment.b)}
    used |= {end for joint in job.joints for link in joint.links for end in link}
    for point in job.parts.grounds.values():
        if f"gnd.{point.name}" in used:
            yield f"Ground point {point.name} is at", point.where, point.place, (f"gnd.{point.name}",)
    for joint in job.joints:
        yield f"{joint.name} is made at", joint.at, joint.place, tuple(end for link in joint.links for end in link)
