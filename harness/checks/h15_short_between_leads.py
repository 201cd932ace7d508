"""H15."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.wiring import Wiring

if TYPE_CHECKING:
    from harness.graph.readings import Reading


@check(
    "H15",
    Severity.STOP,
    "Short between two wires",
    source="a meter guide: two wires that meet nowhere must read open, seen 2026; common practice, no source",
    by_joints=False,
    needs="ohm records",
    bases=("wires by meter", "speaker by meter"),
)
def short_between_leads(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a reading of a short between two leads or cavities that the plan doesn't have on one wire, and
    that no speaker still connected explains.

    Why it matters: after terminals were put in again, a whisker of wire or a terminal in the wrong cavity joins two
    leads. With power on, it burns what drives them.

    Example: with the speakers unplugged, pins 4 and 5 of the loom read 0.2 ohm to each other.

    What to do: leave the power off. Pull both terminals, look for whiskers and for the right cavity, put them in again
    and read once more.

    Known limits: the last reading between two contacts counts. A short is below 1 ohm, and across one pair below 0.5
    ohm, less than which no speaker reads. `unplugged` names what was apart then. Unit sides of plugs aren't judged, as
    what a unit has inside isn't drawn, nor its terminals unless it is named there: its leads were off. Nor are wires of
    unknown function, nor two with the same one. Two pairs of the car's own wires are told as A19.

    Source: two wires that meet nowhere must read open, and any continuity is a short (a meter guide, seen 2026); 1-ohm
    speakers read 0.5 to 1.0 ohm (a retailer's guide, seen 2026); wires that meet in the car read less than 1 ohm: 15 ft
    of No. 24 each way, 0.77 ohm (a handbook's wire table).
    """
    from harness.graph.readings import pair_readings, wire_of  # few jobs have such records
    from harness.graph.speaker_readings import of_two_pairs

    for reading in pair_readings(wiring):
        if of_two_pairs(wiring, reading) or not _short(wiring, reading):
            continue
        a, b = reading.contacts
        words = f"{wiring.words(a)} and {wiring.words(b)}"
        apart = reading.record.word("unplugged")
        yield Fault(
            at=Spot(reading.record.place, words),
            message=f"{words} read {reading.words} to each other{f' with {apart} unplugged' if apart else ''}, and the "
            "plan has them on two wires: what drives them works into a short.",
            do="Leave the power off. Look for whiskers and for a terminal in the wrong cavity, put it right, and read "
            "the two once more.",
            about=reading.contacts,
            path=wire_of(wiring, a),
        )


def _short(wiring: Wiring, reading: Reading) -> bool:
    """Whether two contacts that can be judged touch, and the drawing doesn't say why."""
    from harness.graph.readings import LEAST_SPEAKER_OHM, TOUCHING_OHM, function_of, less_than_drawn

    a, b = reading.contacts
    one, other = function_of(wiring, a), function_of(wiring, b)
    if not (_judged(wiring, reading, a) and _judged(wiring, reading, b)) or one.name == other.name:
        return False
    most_ohm = LEAST_SPEAKER_OHM if one.base == other.base else TOUCHING_OHM
    return less_than_drawn(wiring, reading, a, b, most_ohm, LEAST_SPEAKER_OHM)


def _judged(wiring: Wiring, reading: Reading, name: str) -> bool:
    from harness.graph.readings import function_of, of_wires

    return of_wires(wiring, reading, name) and function_of(wiring, name).kind not in ("unknown", "empty")
