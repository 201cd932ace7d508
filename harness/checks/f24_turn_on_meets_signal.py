"""F24."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.checks.twelve_volts import SIGNALS, meets
from harness.finding import Severity
from harness.graph.wiring import Wiring
from harness.model.contact import Contact

_KINDS = frozenset(("trigger", "aerial", "light", "terminal"))  # a unit's own word for it is a terminal


@check(
    "F24",
    Severity.STOP,
    "Turn-on, aerial or lamp wire in one net with a signal",
    source="common practice, no source",
)
def turn_on_meets_signal(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a wire that carries 12 V by switch (AMP-ON, AERIAL, ILL, a unit's turn-on output) in one
    net with an audio, data or microphone contact.

    Why it matters: it is 12 V like any other. The input or the bus behind it is damaged when the radio wakes,
    and the radio's own turn-on output is loaded with a speaker.

    Example: the loom's blue/white lead is spliced to the amplifier's remote and, by mistake, to its input 1 +.

    What to do: undo the joint named.

    Known limits: what gives 12 V is known by the function of a plug's cavity, or by `gives` of a unit.

    Source: common practice, no source.
    """
    giving = [
        name
        for name, contact in wiring.job.contacts.items()
        if contact.function.kind in _KINDS and _gives(wiring, contact)
    ]
    yield from meets(wiring, giving, SIGNALS)


def _gives(wiring: Wiring, contact: Contact) -> bool:
    """A cavity or lead that carries it, or the terminal of a unit that gives it; not the input that it wakes."""
    if contact.kind == "unit":
        return contact.last in wiring.job.parts.units[contact.owner].gives_a
    return contact.kind in ("plug", "loom") and contact.function.kind != "terminal"
