"""F24."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.checks.twelve_volts import SIGNALS, meets, turn_on_wires
from harness.finding import Severity
from harness.graph.wiring import Wiring


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
    yield from meets(wiring, turn_on_wires(wiring), SIGNALS)
