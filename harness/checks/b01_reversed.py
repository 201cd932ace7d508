"""B01."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.polarity import Cause, Turn, Turned, causes
from harness.graph.walk import way_contacts
from harness.graph.wiring import Wiring


@check("B01", Severity.FIX, "Speaker reversed", source="common practice, no source")
def reversed_speaker(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: an odd number of reversals on a way from a source to a speaker, or an inversion that
    is asked for on a speaker and that the wiring does not make.

    Why it matters: the cone moves in while its neighbours move out; bass thins out and the middle of the
    picture goes. Alone it sounds right, which is how it leaves the bay.

    Example: the amplifier's output + is joined to the loom's RL − lead.

    What to do: swap the two wires at the place named, or write `inverted: on purpose` on the speaker if it
    is wanted.

    Known limits: one place that turns several speakers is told once. Where it turns one driver of a set
    alone, that is told as B05. The marks (+ and −) of the contacts are taken from the charts, so a chart with
    + and − exchanged shows as a reversal. What a unit does to the polarity inside is known only from its routes.

    Source: common practice, no source.
    """
    for cause in causes(wiring):
        if not cause.lone:
            yield polarity_fault(wiring, cause, "bass will thin out.")


def polarity_fault(wiring: Wiring, cause: Cause, effect: str) -> Fault:
    """The fault for one cause of wrong polarity; `effect` says what it will do."""
    turned = cause.wrong[0]
    names = _names(cause)
    if not cause.turns:
        wish = "by the factory" if wiring.job.parts.speakers[turned.speaker].inverted == "factory" else "on purpose"
        at = Spot(cause.place, wiring.words(turned.receiver.plus))
        message = f"{names} is written as inverted {wish}, but nothing on its way turns the pair: {effect}"
        do = f"Turn {names} round in the wiring (`reversed`), or take `inverted` off the speaker."
    else:
        first = cause.turns[0]
        at = Spot(cause.place, wiring.words(first.after))
        message = f"{names} {_is(cause)} reversed {times(len(cause.turns))}, {turn_words(wiring, first)}: {effect}"
        if turned.wished:
            message = f"{names} shall be inverted and is reversed {times(len(cause.turns))}, which cancels: {effect}"
        do = turn_back(wiring, first) + ", or write `inverted: on purpose` on the speaker if it is wanted."
        if turned.wished:
            do = turn_back(wiring, first) + ", so that one reversal stays, or take `inverted` off the speaker."
    return Fault(
        at=at,
        message=message,
        do=do,
        about=tuple(c for each in cause.wrong for c in (each.receiver.plus, each.receiver.minus)),
        also=turn_spots(wiring, cause.turns[1:], cause.turns[:1]),
        path=way_contacts(wiring, turned.way),
    )


def times(count: int) -> str:
    """`once`, `twice` … for a message."""
    return {1: "once", 2: "twice", 3: "three times"}.get(count, f"{count} times")


def turn_words(wiring: Wiring, turn: Turn) -> str:
    """Where one reversal is."""
    before, after = wiring.words(turn.before), wiring.words(turn.after)
    if turn.route is not None:
        return f"inside {wiring.contact(turn.after).owner} by its route for {turn.route.output} (not in the wires)"
    return f"between {before} and {after}"


def turn_back(wiring: Wiring, turn: Turn) -> str:
    """What undoes one reversal."""
    if turn.route is not None:
        return f"Take `inverted` off the route {turn.route.output} of {wiring.contact(turn.after).owner}"
    return f"Swap the two wires between {wiring.words(turn.before)} and {wiring.words(turn.after)}"


def turn_spots(wiring: Wiring, turns: tuple[Turn, ...], told: tuple[Turn, ...]) -> tuple[Spot, ...]:
    """The places of further reversals, each once."""
    places = {turn.place for turn in told}
    spots = []
    for turn in turns:
        if turn.place not in places:
            places.add(turn.place)
            spots.append(Spot(turn.place, wiring.words(turn.after)))
    return tuple(spots)


def speaker_name(turned: Turned) -> str:
    """`FL-TW`, `SUB coil 2`, and `the FR part of SUB` where only one of several signals is turned."""
    name, coil, number = turned.receiver.name.removeprefix("spk.").partition(".c")
    name = f"{name} coil {number}" if coil else name
    return f"the {turned.way.source.port.name} part of {name}" if turned.part else name


def _names(cause: Cause) -> str:
    names = list(dict.fromkeys(speaker_name(each) for each in cause.wrong))
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def _is(cause: Cause) -> str:
    return "is" if len({speaker_name(each) for each in cause.wrong}) == 1 else "are"
