"""A17."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.recorded import pair_readings
from harness.graph.rows import row_about
from harness.graph.wiring import Wiring
from harness.patterns.ohms import MOST_OHM


@check(
    "A17",
    Severity.ASK,
    "Speaker pair reads like no speaker",
    source="common practice, no source",
    by_joints=False,
    needs="records",
)
def reads_like_no_speaker(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a speaker pair of a plug that was read with more ohms than a bare speaker has, and not
    open.

    Why it matters: an amplifier, a network or an input sits in between. Driven as a speaker it gives nothing,
    or is damaged.

    Example: pair 3/4 reads 2.2 kohm at the radio's plug: the line of a factory amplifier.

    What to do: find what sits in between before you design: follow the wires, look under the seats, ask what
    the car was sold with.

    Known limits: a pair that reads open is not told: a capacitor in line, or a broken wire, does that; the
    toning finds which.

    Source: a loudspeaker of 8 ohm reads up to 8 ohm of direct current (a retailer's table, seen 2026); twice
    that is the limit here, common practice.
    """
    for each in pair_readings(wiring):
        if each.ohm is None or each.ohm <= MOST_OHM:
            continue
        where = f"{each.plug} {each.plus.cavity}/{each.minus.cavity} ({row_about(each.plus)})"
        yield Fault(
            at=Spot(each.record.place, where),
            message=f"{where} reads {each.record.word('reads')}, a bare speaker at most {MOST_OHM:g} ohm: an "
            "amplifier, "
            "a network or an input sits in between.",
            do="Find it before you plan on these wires; the level and the load are other ones then.",
            about=each.record.contacts,
        )
