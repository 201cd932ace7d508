"""E04."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.waking import LIGHT
from harness.graph.wiring import Wiring
from harness.graph.woken import causes, only_from, what_units_do


@check(
    "E04",
    Severity.FIX,
    "Turn-on from illumination only",
    source="common practice, no source",
    by_joints=False,
    needs="light",
)
def turn_on_from_illumination(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a unit whose turn-on terminal gets its 12 V from a lamp wire (ILL, 58) and nothing else.

    Why it matters: the sound follows the headlights: none by day, and where the dash is dimmed the wire carries
    pulses, with which no unit stays awake.

    Example: the orange lead has 12 V when it is measured at dusk in the bay with the lamps on.

    What to do: take a wire that the radio or the key switches, and check it with the lamps off.

    Known limits: a further source that comes by a diode counts, and then nothing is told. Units without sound are
    not looked at: a camera may well wake by the lamps.

    Source: common practice, no source.
    """
    for cause in causes(wiring, only_from(wiring, LIGHT)):
        terminals = [wake.contact for wake in cause.woken]
        yield Fault(
            at=Spot(cause.way.place, wiring.words(terminals[0])),
            message=f"{wiring.words(terminals[0])} has its 12 V from {wiring.words(cause.giver.contact)}, a lamp "
            f"wire: {what_units_do(cause.woken, 'wakes', 'wake')} with the headlights, and only with them.",
            do="Take a turn-on lead or ACC, and check it with the lamps off.",
            about=tuple(dict.fromkeys((*terminals, cause.giver.contact))),
            path=cause.way.path,
        )
