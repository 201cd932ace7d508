"""E06."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.recorded import holding, volts_of
from harness.graph.waking import givers, wakes
from harness.graph.wiring import Wiring
from harness.model.evidence import Record

_POWERED = ("accessory", "run", "engine")
_OFF_V, _LEAST_V, _LOST_V = 3.0, 10.0, 1.0


@check(
    "E06",
    Severity.FIX,
    "Turn-on volts low at the end",
    source="fault-finding guides of the trade, seen 2026",
    by_joints=False,
    needs="record volts",
)
def turn_on_volts_low(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a terminal that wakes a unit and was read with the key in a state that powers it: more than
    off, and less than 10 V, or more than 1 V below what its source read in the same state.

    Why it matters: the unit drops out when the battery sags, thumps, or never wakes in the cold: a bad joint,
    a thin or long wire, an output that is overloaded.

    Example: 11.8 V at the processor's rem-out, 9.4 V at the amplifier's rem.

    What to do: read along the wire from the source on; where the volts are lost is the joint or wire to
    renew.

    Known limits: 3 V or less counts as off. Cranking and a car that is locked are left out. Source and end
    are held against each other in the same state of the key only.

    Source: below 10 V, or more than 1 V under the source, is a fault: thresholds of common practice; 11 to 15
    V is good (a guide on amplifiers, seen 2026).
    """
    read: dict[tuple[str, str], Record] = {}
    for record in holding(wiring, "volts"):
        for name in record.contacts if len(record.contacts) == 1 else ():
            read[name, record.word("key")] = record
    for wake in wakes(wiring):
        for key in _POWERED:
            there = read.get((wake.contact, key))
            volts = volts_of(there) if there is not None else None
            if there is None or volts is None or volts <= _OFF_V:
                continue
            source = max((v for name in _sources(wiring, wake.contact) if (v := _volts(read, name, key))), default=None)
            if volts >= _LEAST_V and (source is None or source - volts <= _LOST_V + 1e-9):
                continue
            words = wiring.words(wake.contact)
            lost = f"{source - volts:.3g} V less than its source ({source:g} V)" if source is not None else ""
            low = f"{_LEAST_V:g} V is the least" if volts < _LEAST_V else ""
            yield Fault(
                at=Spot(there.place, words),
                message=f"{words} has {volts:g} V with the key in {key}, {' and '.join(filter(None, (lost, low)))}: "
                "it drops "
                "out when the battery sags.",
                do="Read along the wire from its source on; renew the joint or wire where the volts are lost.",
                about=(wake.contact,),
            )


def _sources(wiring: Wiring, contact: str) -> list[str]:
    """What gives a terminal its 12 V: the giver, and the contacts of the same wire at a plug's cavity."""
    return [giver.contact for giver in givers(wiring, contact)]


def _volts(read: dict[tuple[str, str], Record], name: str, key: str) -> float | None:
    halves = (name, name.replace(".unit.", ".car.", 1), name.replace(".car.", ".unit.", 1))
    record = next((read[half, key] for half in halves if (half, key) in read), None)
    return volts_of(record) if record is not None else None
