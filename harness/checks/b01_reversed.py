"""B01."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.conductor import JOINT
from harness.graph.polarity import BY_FACTORY, Cause, Turn, Turned, causes
from harness.graph.walk import way_contacts
from harness.graph.wiring import Wiring
from harness.model.contact import listed
from harness.model.evidence import AS_MARKED, Record


@check("B01", Severity.FIX, "Speaker reversed", source="common practice, no source")
def reversed_speaker(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: an odd number of reversals on a way from a source to a speaker, or an inversion that
    is asked for on a speaker and that the wiring does not make.

    Why it matters: the cone moves in while its neighbours move out; bass thins out and the middle of the
    picture goes. Alone it sounds right, which is how it leaves the bay.

    Example: the amplifier's output + is joined to the loom's RL − lead.

    What to do: swap the two wires at the place named, or write `inverted: on purpose` on the speaker if it
    is wanted. Where a record says that the speaker is turned in this car, exchange + and − at the joint of yours next
    to it, or its leads at the speaker, with a record of that.

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
    also = turn_spots(wiring, cause.turns[1:], cause.turns[:1])
    if not cause.turns:
        factory = wiring.job.parts.speakers[turned.speaker].inverted == BY_FACTORY
        at = Spot(cause.place, wiring.words(turned.receiver.plus))
        message = (
            f"{names} is written as inverted {'by the factory' if factory else 'on purpose'}, but nothing on its way "
            f"turns the pair: {effect}"
        )
        do = f"Turn {names} round in the wiring (`reversed`), or take `inverted` off the speaker."
        if factory:
            do = (
                f"Tone it, with + by the cone. If the car's own wires turn it, write that under `found:` "
                f"(… > spk.{turned.speaker} reversed), and turn no joint of yours for it; else take `inverted` off."
            )
    elif record := in_this_car(wiring, cause.turns[0]):
        at, do = _put_right_here(wiring, cause, record)
        message = f"{names} {_is(cause)} turned in this car ({record.signed}), and the plan leaves it so: {effect}"
        if turned.wished:
            message = (
                f"{names} shall be inverted and {_is(cause)} reversed {times(len(cause.turns))}, once in this car "
            )
            message += f"({record.signed}), which cancels: {effect}"
        also = (*also, Spot(record.place, f"record of {record.what}"))
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
        also=also,
        path=way_contacts(wiring, turned.way),
    )


def in_this_car(wiring: Wiring, turn: Turn) -> Record | None:
    """The record that says that a speaker is turned in this car, where that is the reversal; else None."""
    here = wiring.job.turned_here
    return here.get(turn.after) or here.get(turn.before) if turn.route is None else None


def _put_right_here(wiring: Wiring, cause: Cause, record: Record) -> tuple[Spot, str]:
    """Where the plan turns back what is turned in this car: the joint of ours that is next to the speaker.

    A joint that other speakers hang on, which are right, turns them as well: then only the speaker's leads are left.
    """
    turned = cause.wrong[0]
    speaker = f"exchange its two leads at the speaker and record `polarity: {record.what}, found: {AS_MARKED}`."
    feed = turned.way.hops[-1].feed
    on_way = wiring.planned.path(feed.driver.plus, feed.entry)
    ours = [hop.conductor for hop in on_way if hop.conductor.kind == JOINT]
    if not ours or cause.lone:
        return Spot(cause.place, wiring.words(turned.receiver.plus)), speaker[0].upper() + speaker[1:]
    joint = wiring.joints[ours[-1].name]
    return (
        Spot(joint.place, wiring.words(joint.links[0].a)),
        f"Exchange + and − at joint {joint.name}, {joint.text} (write `reversed`), for this car; or {speaker}",
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
    return listed(names)


def _is(cause: Cause) -> str:
    return "is" if len({speaker_name(each) for each in cause.wrong}) == 1 else "are"
