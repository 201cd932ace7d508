"""E11."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.recorded import holding, seconds_of, volts_of
from harness.graph.waking import wakes
from harness.graph.wiring import Wiring
from harness.model.evidence import Record

_OFF_V, _RETAINED_S = 1.0, 600.0


@check(
    "E11",
    Severity.FIX,
    "Turn-on never sleeps",
    source="retained power of 5 to 10 minutes: a workshop guide, seen 2026",
    by_joints=False,
    needs="record volts",
)
def never_sleeps(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a terminal that wakes a unit, read with the car locked for more than ten minutes, with 1 V
    or more on it.

    Why it matters: the unit stays half awake and empties the battery over night; retained power after parking
    is over by then.

    Example: 3.1 V on an amplifier's rem, 15 minutes after locking.

    What to do: take the wire off at the source and read again; what still feeds it is tied to it somewhere:
    another feed, a unit that holds it, a relay that sticks.

    Known limits: asks for `key: locked` and `waited`. Ten minutes is how long retained power lasts in most
    cars; some wait for a door.

    Source: retained power lasts 5 to 10 minutes or until the driver's door opens (a guide, seen 2026); below
    1 V is off, common practice.
    """
    last: dict[str, Record] = {}
    for record in holding(wiring, "volts"):
        if record.word("key") == "locked":
            last.update(dict.fromkeys(record.contacts, record))
    for wake in wakes(wiring):
        locked = last.get(wake.contact)
        if locked is None:
            continue
        volts, waited = volts_of(locked), seconds_of(locked.word("waited"))
        if volts is None or waited is None or volts < _OFF_V or waited <= _RETAINED_S:
            continue
        words = wiring.words(wake.contact)
        yield Fault(
            at=Spot(locked.place, words),
            message=f"{words} has {volts:g} V {locked.word('waited')} after locking, {_OFF_V:g} V or less would be "
            "asleep: "
            f"{wake.unit} empties the battery.",
            do="Take it off at its source and read again: what still feeds it is tied to it somewhere.",
            about=(wake.contact,),
        )
