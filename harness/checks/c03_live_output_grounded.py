"""C03."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.conductor import Hop
from harness.graph.live import (
    grounded_inside,
    grounded_nets,
    is_ground,
    live_terminals,
    outside,
    seen_at,
)
from harness.graph.state import Reached, hops_to
from harness.graph.wiring import Wiring
from harness.place import Place


@check("C03", Severity.STOP, "Bridged wire grounded", source="common practice, no source")
def live_output_grounded(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: either wire of a bridged (btl) output, the + of any output, or a terminal that a unit
    bridges by, in one net with ground; also a speaker between a bridged output's wire and ground.

    Why it matters: both wires of a bridged output stand at about half the supply and both are driven;
    ground on one of them shorts the output stage.

    Example: the radio's left front − is taken for a ground and joined to the ground point.

    What to do: undo that joint before anything is powered. A bridged output has no ground wire.

    Known limits: whether an output is bridged is known from `btl` in the unit's outputs. Where the ground
    is the input's own − inside a unit, it is told as C05. Loom leads that are only called ground are not
    taken for ground.

    Source: common practice, no source; half the supply is measured against the body in any bridged radio.
    """
    told: dict[Place, Fault] = {}
    covered: dict[str, Place] = {}
    for hops, terminal, ground, reached in _shorts(wiring):
        if terminal in covered:  # the same wire as one told already, further from ground
            place = covered[terminal]
            told[place] = told[place]._replace(about=(*told[place].about, terminal))
            continue
        blamed = wiring.blame(hops)
        place = blamed.place if blamed else wiring.contact(terminal).place
        covered.update(dict.fromkeys(reached, place))
        if place in told:
            told[place] = told[place]._replace(about=(*told[place].about, terminal))
            continue
        at = wiring.words(seen_at(wiring, blamed, terminal))
        what = "live at about 6 V" if wiring.bridged_output(terminal) else "an output"
        told[place] = Fault(
            at=Spot(place, at),
            message=(
                f"{wiring.words(terminal)} is {what} and reaches {wiring.words(ground)}, 0 V, through {at}: "
                "the output stage is shorted."
            ),
            do=f"Undo the joint at {at} before anything is powered; this output has no ground wire.",
            about=(terminal,),
            path=wiring.way_in_words(terminal, hops),
        )
    yield from told.values()
    yield from _to_the_body(wiring)


def _to_the_body(wiring: Wiring) -> Iterator[Fault]:
    """Speakers between a wire of a bridged output and ground: the old way of saving a wire."""
    grounded = grounded_nets(wiring)
    number = wiring.planned.net_number
    live = {number(terminal): terminal for terminal, _ in live_terminals(wiring) if wiring.bridged_output(terminal)}
    for receiver in wiring.signals.speaker_receivers if live else ():
        for near, far in ((receiver.plus, receiver.minus), (receiver.minus, receiver.plus)):
            terminal = live.get(number(near))
            if terminal is None or number(near) in grounded or number(far) not in grounded or number(far) in live:
                continue  # where the far wire is live as well, its own short is told
            reached = wiring.planned.around(far)
            ground = next(name for name in reached if is_ground(wiring.contact(name)))
            hops = wiring.planned.path(far, ground)
            blamed = wiring.blame(hops)
            yield Fault(
                at=Spot(blamed.place if blamed else wiring.contact(far).place, wiring.words(far)),
                message=(
                    f"{wiring.words(terminal)} is live at about 6 V and drives {wiring.words(near)}, whose other wire "
                    f"is on {wiring.words(ground)}, 0 V: the coil burns and the output stage with it."
                ),
                do=f"Take both wires of {receiver.name} to one output; ground is no return for a bridged one.",
                about=(terminal, near, far),
                path=(*wiring.way_in_words(terminal, wiring.planned.path(terminal, near)), far,
                      *(hop.contact for hop in hops)),
            )  # fmt: skip


def _shorts(wiring: Wiring) -> list[tuple[tuple[Hop, ...], str, str, Reached]]:
    """Live terminals that a wire leads to ground, the nearest to ground first: the way, terminal, ground."""
    grounded = grounded_nets(wiring)
    units = wiring.job.parts.units.values()
    hot = {f"{unit.name}.{end}" for unit in units for bridge in unit.bridges for end in bridge}
    made = []
    for terminal, port in live_terminals(wiring):
        if terminal.endswith("-") and port.signal.form != "btl" and terminal not in hot:
            continue
        if wiring.planned.net_number(terminal) not in grounded:
            continue
        reached = outside(wiring, terminal)
        ground = next((name for name in reached if _grounds(wiring, terminal, name, reached)), "")
        if ground:
            made.append((hops_to(reached, ground), terminal, ground, reached))
    return sorted(made, key=lambda each: len(each[0]))


def _grounds(wiring: Wiring, terminal: str, name: str, reached: Reached) -> bool:
    """Whether this is a ground that a wire leads to, rather than an input's or the output's own inside."""
    step = reached[name]
    if step is None or not is_ground(wiring.contact(name)):
        return False
    if grounded_inside(step, wiring) is not None:
        return False
    return not (step.conductor.kind == "bond" and wiring.contact(name).owner == wiring.contact(terminal).owner)
