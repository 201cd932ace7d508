"""B08."""

from collections.abc import Iterator

from harness.checks.b01_reversed import turn_back, turn_spots, turn_words
from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.polarity import Cause, Turn, causes
from harness.graph.walk import place_to_change, way_contacts
from harness.graph.wiring import Wiring
from harness.model.contact import printed


@check("B08", Severity.ASK, "Wanted inversion undone", source="common practice, no source", needs="inverted")
def inversion_undone(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a speaker that is written as `inverted`, that is inverted in the car as found, and that the
    plan turns round, so that + comes to +.

    Why it matters: some crossovers need one driver inverted. Put straight it works against its neighbour where both
    play.

    Example: the car's loom reaches the tweeter with + on −, on purpose; the trainee sees that and exchanges its two
    wires at the amplifier.

    What to do: undo the second reversal, or take `inverted` off the speaker if the new crossover wants it straight.

    Known limits: where the same place turns other speakers as well, B01 tells it for all. Where the car as found
    isn't inverted, though it is written so, B01 or B05 tells that. What the new crossover wants isn't known here.

    Source: common practice, no source.
    """
    for cause in causes(wiring):
        if all(turned.wished and was_inverted(wiring, turned.receiver.name) for turned in cause.wrong):
            yield _fault(wiring, cause)


def was_inverted(wiring: Wiring, receiver: str) -> bool:
    """Whether a speaker is inverted in the car as found, by every way that reaches it."""
    signals = wiring.found_signals
    ways = [way for each in signals.speaker_receivers if each.name == receiver for way in signals.ways(each)]
    return bool(ways) and all(way.turned for way in ways)


def _fault(wiring: Wiring, cause: Cause) -> Fault:
    first = cause.wrong[0]
    speakers = wiring.job.parts.speakers
    names = " and ".join(dict.fromkeys(printed(turned.speaker) for turned in cause.wrong))
    wish = "by the factory" if speakers[first.speaker].inverted == "factory" else "on purpose"
    planned = [turn for turn in cause.turns if not _is_found(wiring, turn)]
    if planned:
        turn = planned[0]
        at = Spot(turn.place, wiring.words(turn.after))
        where, back = f"turns it round {turn_words(wiring, turn)}", turn_back(wiring, turn)
    else:
        feed = first.way.hops[-1].feed
        blamed = wiring.blame(wiring.planned.path(feed.driver.plus, feed.entry))
        place = place_to_change(wiring, blamed) if blamed is not None else cause.place
        at = Spot(place, wiring.words(first.receiver.plus))
        where, back = "joins it without that", "Join + to − there"
    return Fault(
        at=at,
        message=f"{names} is inverted {wish}, and the plan {where}: + comes to +, and it works against its neighbours "
        "if they still count on the inversion. Is that meant?",
        do=f"{back}, or take `inverted` off the speaker if the new crossover wants it straight.",
        about=tuple(c for turned in cause.wrong for c in (turned.receiver.plus, turned.receiver.minus)),
        also=turn_spots(wiring, tuple(planned[1:]), tuple(planned[:1])),
        path=way_contacts(wiring, first.way),
    )


def _is_found(wiring: Wiring, turn: Turn) -> bool:
    """Whether the car's own wiring makes a turn, by a line of the file that says so."""
    return any(not each.laid and each.turned and each.place == turn.place for each in wiring.job.segments)
