"""B01."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.polarity import speaker_polarities
from harness.graph.wiring import Wiring
from harness.model.contact import printed


@check("B01", Severity.FIX, "Speaker reversed", source="common practice, no source")
def reversed_speaker(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: an odd number of reversals on the way from the radio to a speaker.

    Why it matters: the cone moves in while its neighbours move out; bass thins out and the middle of the
    picture goes. Alone it sounds right, which is how it leaves the bay.

    Example: the amplifier's output + is joined to the loom's RL − lead.

    What to do: swap the two wires at the place named, or write `inverted: on purpose` on the speaker if it
    is wanted.

    Known limits: where one driver of a set alone is turned, that is told as B05. What a unit does to the
    polarity inside is known only from its routes.

    Source: common practice, no source.
    """
    for turned in speaker_polarities(wiring):
        if turned.lone or not turned.wrong:
            continue
        where = turned.flips[0] if turned.flips else None
        receiver = turned.receiver
        place = where.conductor.place if where else wiring.contact(receiver.plus).place
        between = (
            f"between {wiring.words(where.before)} and {wiring.words(where.after)}" if where else "inside a unit's route"
        )
        times = {1: "once", 3: "three times"}.get(len(turned.flips), f"{len(turned.flips)} times")
        yield Fault(
            at=Spot(place, wiring.words(where.after) if where else receiver.name),
            message=f"{printed(receiver.name.removeprefix('spk.'))} is reversed {times}, {between}: bass will thin out.",
            do="Swap the two wires there, or mark the speaker `inverted: on purpose` if it is wanted.",
            about=(receiver.plus, receiver.minus),
            also=tuple(Spot(flip.conductor.place, wiring.words(flip.after)) for flip in turned.flips[1:]),
            path=turned.path,
        )
