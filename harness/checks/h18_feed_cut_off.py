"""H18."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph import fates
from harness.graph.whole_wire import through_cavity
from harness.graph.wiring import Wiring

_KINDS = ("battery", "switched", "ground")
_PARTED = (fates.CAPPED, fates.DEPINNED, fates.OPEN)


@check("H18", Severity.FIX, "Feed or ground of a unit that stays is cut off", source="common practice, no source")
def feed_cut_off(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a B+, ACC, IGN or ground cavity of a plug whose wire is cut, or whose terminal is pulled,
    while the unit on it stays in the car and nothing feeds that side instead.

    Why it matters: the unit is dead, forgets its settings, or looks for another way to ground.

    Example: the ACC terminal is depinned to take the feed elsewhere, and the radio is to stay.

    What to do: join the two sides again, or tap the wire instead of cutting it.

    Known limits: a cavity that a loom has no pin for is told as H08; a unit side that is capped is taken as meant.
    Whether the unit needs the feed is not known.

    Source: common practice, no source.
    """
    for plug in wiring.job.parts.plugs.values():
        if not plug.unit or plug.unit in wiring.gone:
            continue
        for each in wiring.fates.cavities(plug.name):
            row = each.row
            alone = each.fate == fates.ONE_END and not each.unit_to
            unit, car = f"{plug.name}.unit.{row.cavity}", f"{plug.name}.car.{row.cavity}"
            if row.function.kind not in _KINDS or not (each.fate in _PARTED or alone) or unit in wiring.job.capped:
                continue
            pins = [f"{m.loom}.{m.end}.{row.cavity}" for m in wiring.job.mates if m.plug == plug.name]
            tables = (wiring.job.cut, wiring.job.depinned)
            place = next((table[name] for table in tables for name in (unit, car, *pins) if name in table), None)
            if place is None:
                continue  # a loom opens the plug: what it has no pin for is told there
            yield Fault(
                at=Spot(place, wiring.words(unit)),
                message=f"{wiring.words(unit)} is cut off: {plug.unit} stays and loses its {row.function.name}.",
                do="Join the two sides again, or tap the wire instead of opening it.",
                about=(unit, car, *pins),
                path=through_cavity(wiring, plug.name, row.cavity),
            )
