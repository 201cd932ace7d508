"""E06."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.electrical.turn_on import LEAST_AWAKE_V, MOST_LOST_V
from harness.finding import Severity, Spot
from harness.graph.turn_on_read import Low, low_at_the_end
from harness.graph.wiring import Wiring

_DO_BETWEEN = (
    "Read from joint to joint with the unit joined, make the bad one anew, and add a record of the reading at the unit."
)
_DO_ALONE = (
    "With what switches it on, read at its source as well: mend the source or the joint that loses the volts, and add "
    "records of both readings."
)


@check(
    "E06",
    Severity.FIX,
    "Volts low at the end of a turn-on",
    source="readings called good, a trade guide's page, seen 2026; limits common practice, no source",
    by_joints=False,
    needs="records",
    bases=("turn-on awake", "turn-on low"),
)
def volts_low_at_the_end(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: two readings on one turn-on wire, in the same state of the key, of which the one nearer to the
    unit is more than 1 V lower; or a reading below 10 V there with the key in run or the engine on.

    Why it matters: a turn-on draws next to nothing, so volts that are lost on it are lost in a bad joint. It gets
    worse, and the unit drops out when the engine cranks or the car is warm.

    Example: 11.8 V at the radio's plug and 9.4 V at the amplifier's rem.

    What to do: read along the wire from joint to joint with the unit joined, make the joint anew that loses the volts,
    and add a record of both readings.

    Known limits: the last reading of each contact in each state of the key counts, only those on the shortest way from
    a source to the terminal, and not those through a relay or a diode. Readings while cranking aren't
    compared, as volts dip then. A minus sign is taken for turned leads of the meter. What the radio switches must be
    read with the radio on, which the file doesn't say.

    Source: 11 to 15 V called good, a trade guide's page, seen 2026; 10 V and 1 V are common practice, no source.
    """
    for low in low_at_the_end(wiring):
        end, start = low.end, low.start
        here = wiring.words(end.contact)
        key = end.record.word("key")
        also = (Spot(start.record.place, wiring.words(start.contact)),) if start is not None else ()
        yield Fault(
            at=Spot(end.record.place, here),
            message=_message(wiring, low, here, key),
            do=_DO_BETWEEN if start is not None else _DO_ALONE,
            about=low.path,
            also=also,
            path=low.path if len(low.path) > 1 else (),
        )


def _message(wiring: Wiring, low: Low, here: str, key: str) -> str:
    units = " and ".join(low.woken)
    state = "the engine on" if key == "engine" else f"the key in {key}"
    drops = f"{units} may drop out or stay off"
    if low.start is None:
        return f"{here} reads {low.end.reads_v:.3g} V with {state}, least {LEAST_AWAKE_V:.0f} V: {drops}."
    return (
        f"{here} reads {low.end.reads_v:.3g} V and {wiring.words(low.start.contact)} {low.start.reads_v:.3g} V with "
        f"{state}: {low.lost_v:.3g} V is lost between them, limit {MOST_LOST_V:.0f} V; {drops}."
    )
