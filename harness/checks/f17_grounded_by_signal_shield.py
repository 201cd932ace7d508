"""F17."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.grounding import by_signal, is_signal_wire, ungrounded
from harness.graph.wiring import Wiring


@check(
    "F17",
    Severity.FIX,
    "Grounded only by the signal's shield",
    source="common practice, no source",
    by_joints=False,
    needs="runs",
)
def grounded_by_signal_shield(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a unit of ours whose GND reaches the body only by the − of a signal and through another unit.

    Why it matters: the whole supply current goes back by the shield of a signal cable. The thin track inside the
    radio burns open, and after that every source hums.

    Example: the amplifier's GND hangs in the air; it plays, as soon as its RCA cable is plugged in.

    What to do: lay the unit's ground before anything is powered.

    Known limits: what a unit joins inside is known from `grounded` and `bonds`. A unit grounded by its case has to be
    written with a run or a joint.

    Source: common practice, no source.
    """
    if not wiring.job.has_runs:
        return
    for ground in ungrounded(wiring):
        terminal = ground.terminals[0]
        hops = by_signal(wiring, terminal)
        if not hops:
            continue
        shield = next(hop.conductor for hop in hops if is_signal_wire(wiring, hop.conductor))
        ports = [wiring.words(hop.contact) for hop in hops if hop.contact in wiring.ports]
        names = list(dict.fromkeys(wiring.contact(name).owner for name in ground.terminals))
        units = wiring.job.parts.units
        yield Fault(
            at=Spot(units[names[0]].place, wiring.words(terminal)),
            message=f"{' and '.join(names)} {'reaches' if len(names) == 1 else 'reach'} ground only by the signal at "
            f"{' and '.join(ports)}: the supply current burns that shield open.",
            do=f"Lay a ground from {wiring.words(terminal)} to the body before anything is powered.",
            about=ground.terminals,
            also=(Spot(shield.place, ports[0]), *(Spot(units[n].place, n) for n in names[1:])),
            path=wiring.way_in_words(terminal, hops),
        )
