"""H13."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.conductor import FUSE, JOINT, RUN
from harness.graph.fates import TAPPED
from harness.graph.pairs import UsedPair, used_pairs
from harness.graph.whole_wire import along
from harness.graph.wiring import INPUT, OUTPUT, SPEAKER, Wiring


@check("H13", Severity.NOTE, "Intercept where a tap would do", source="common practice, no source", by_joints=False)
def intercept_where_a_tap_would_do(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a factory pair that is opened and joined together again, with an input joined on: the same
    source drives the same speaker as before.

    Why it matters: each opened wire is a joint more that can come loose, and it silences the factory speaker when it
    does. Listening in wants no cut.

    Example: the left rear pair is cut; radio's end, speaker's end and the processor's input meet in one crimp.

    What to do: leave the wire whole and tap it, or let the loom pass the cavity through and join to its branch.

    Known limits: only what conducts counts. A pair that goes into a unit and comes back from it is an intercept, even
    where the unit changes nothing.

    Source: common practice, no source.
    """
    for pair in used_pairs(wiring):
        if pair.fate == TAPPED:
            yield from _joined_again(wiring, pair)


def _joined_again(wiring: Wiring, pair: UsedPair) -> Iterator[Fault]:
    fates, planned = wiring.fates, wiring.planned
    for row in (pair.plus, pair.minus):
        unit, car = (f"{pair.plug}.{half}.{row.cavity}" for half in ("unit", "car"))
        if not fates.opened(pair.plug, row.cavity) or not planned.joined(unit, car):
            return
        made = [hop.conductor for hop in planned.path(unit, car) if hop.conductor.kind in (JOINT, RUN, FUSE)]
        if not made:
            return  # a loom passes it through: nothing that we join is in the way
    unit, car = (f"{pair.plug}.{half}.{pair.plus.cavity}" for half in ("unit", "car"))
    net = planned.net(unit)
    source = next((name for name in net if wiring.role(name) == OUTPUT and wiring.found.joined(name, unit)), "")
    speaker = next((name for name in net if wiring.role(name) == SPEAKER and wiring.found.joined(name, car)), "")
    taken = next((name for name in net if wiring.role(name) == INPUT and not wiring.found.joined(name, unit)), "")
    if not source or not speaker or not taken:
        return
    yield Fault(
        at=Spot(made[0].place, wiring.words(car)),
        message=f"{wiring.words(car)} is opened and joined again, only so that {wiring.words(taken)} can listen.",
        do="Tap the uncut wire, or let a loom pass it through: it keeps the factory speaker, and one joint less.",
        about=tuple(f"{pair.plug}.{half}.{row.cavity}" for row in (pair.plus, pair.minus) for half in ("unit", "car")),
        path=along(wiring, planned, source, speaker),
    )
