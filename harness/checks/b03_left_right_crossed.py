"""B03."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.crossing import Change, Crossing, changes_of, crossings
from harness.graph.wiring import Wiring
from harness.model.function import CHANNEL_WORDS


@check("B03", Severity.FIX, "Left and right crossed", source="common practice, no source")
def left_right_crossed(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a speaker that plays the other side's channel, by wire, or by wire and a unit's routes.

    Why it matters: the picture is mirrored, warnings come from the wrong side, and balance works backwards.

    Example: the amplifier's output 1, which carries left front, is joined to the loom's FR lead and output 2
    to its FL lead.

    What to do: exchange the two pairs at the place named, or correct the route.

    Known limits: two channels exchanged are one finding with both places. A speaker that gets its own channel
    among others is a sum and not crossed, nor is C or SUB. Between contacts that are named by number only the
    place is picked by the custom that 1 to 4 are FL, FR, RL, RR. Sources need a channel: in their outputs'
    names or on their plug's chart. Where the routes alone cross, B09 tells it.

    Source: common practice, no source.
    """
    for group in crossings(wiring):
        if any(each.by_side for each in group):
            yield crossing_fault(wiring, group)


def crossing_fault(wiring: Wiring, group: list[Crossing]) -> Fault:
    """The fault for one cause of crossed channels."""
    changes = changes_of(wiring, group)
    heard: dict[tuple[str, str], list[str]] = {}
    for each in group:
        heard.setdefault((each.heard, each.own), []).append(each.receiver.name.removeprefix("spk."))
    facts = " and ".join(
        f"{' and '.join(names)} play{'s' if len(names) == 1 else ''} {CHANNEL_WORDS[channel]}"
        for (channel, _), names in heard.items()
    )
    where = " and ".join(_where(wiring, change) for change in changes[:2])
    effects = []
    if any(each.by_side for each in group):
        effects.append("left and right change places")
    if any(each.by_axle for each in group):
        effects.append("the fader acts backwards")
    if any(change.route is None for change in changes):
        do = f"Exchange the pairs there, so that each channel stays on its own contacts up to {_speakers(group)}."
    else:
        units = " and ".join(dict.fromkeys(wiring.contact(change.after).owner for change in changes))
        do = f"Correct the routes of {units}; leave the wires as they are."
    at, *also = (Spot(change.place, wiring.words(change.after)) for change in changes)
    return Fault(
        at=at,
        message=f"{facts}, crossed {where}: {' and '.join(effects)}.",
        do=do,
        about=tuple(c for each in group for c in (each.receiver.plus, each.receiver.minus)),
        also=tuple(also),
        path=group[0].path,
    )


def _where(wiring: Wiring, change: Change) -> str:
    if change.route is not None:
        unit = wiring.contact(change.after).owner
        took = " + ".join(change.route.inputs)
        return f"in the routing of {unit}, not in the wires ({change.route.output} takes {took})"
    return f"between {wiring.words(change.before)} and {wiring.words(change.after)}"


def _speakers(group: list[Crossing]) -> str:
    return " and ".join(dict.fromkeys(each.receiver.name for each in group))
