"""G01."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.data_pairs import DataPair, data_pairs, opening
from harness.graph.wiring import Wiring
from harness.model.parts import Row


@check("G01", Severity.STOP, "Data pair opened", source="common practice, no source", needs="data")
def data_pair_opened(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a data pair of which a wire no longer runs from the unit's half of the plug to the car's.

    Why it matters: with one wire gone the bus limps or stops; with both, the unit is off the bus and the car
    stores faults, or does not start.

    Example: a loom passes CAN-H through and has no wire for CAN-L.

    What to do: pass both wires through, side by side and untouched.

    Known limits: where the unit comes out, both wires may end together, capped. A unit that passes the bus on
    inside is not known.

    Source: common practice, no source.
    """
    for pair in data_pairs(wiring):
        missing = [row for row in (pair.high, pair.low) if not _runs(wiring, pair, row)]
        if not missing:
            continue
        unit = wiring.job.parts.plugs[pair.plug].unit
        if len(missing) == 2 and unit in wiring.gone:
            continue
        row = missing[0]
        place = opening(wiring, pair.plug, row.cavity)
        words = wiring.words(pair.contact("car", row)).removesuffix(", car side")
        if len(missing) == 1:
            message = f"{words} is opened alone, its partner passes: the bus limps or stops."
        else:
            other = wiring.words(pair.contact("car", missing[1])).removesuffix(", car side")
            message = (
                f"{words} and {other.removeprefix(f'{pair.plug} ')} are opened: {unit or 'the unit'} is off the bus."
            )
        second = opening(wiring, pair.plug, missing[-1].cavity)
        yield Fault(
            at=Spot(place, words),
            message=message,
            do="Pass both wires of the pair through, twisted and untouched.",
            about=pair.contacts(),
            also=(Spot(second, words),),
            path=_way(wiring, pair, row),
        )


def _way(wiring: Wiring, pair: DataPair, row: Row) -> tuple[str, ...]:
    """The opened wire as found, from its far end on the unit's side through the cavity to the one on the car's."""
    halves = [pair.contact(half, row) for half in ("unit", "car")]
    between = frozenset(c for c in wiring.found.conductors(halves[0]) if c.other(halves[0]) == halves[1])
    start, end = (list(wiring.found.around(half, without=between))[-1] for half in halves)
    return wiring.way_in_words(start, wiring.found.path(start, end))


def _runs(wiring: Wiring, pair: DataPair, row: Row) -> bool:
    """Whether a wire of the pair leaves the unit's half for the car's; crossed over is told elsewhere."""
    start = pair.contact("unit", row)
    return any(wiring.planned.joined(start, pair.contact("car", to)) for to in (pair.high, pair.low))
