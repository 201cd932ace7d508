"""F23."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.checks.twelve_volts import SIGNALS, meets
from harness.finding import Severity
from harness.graph.meeting import feeds
from harness.graph.wiring import Wiring

_SIGNALS = SIGNALS | {"aerial": "an aerial feed, which the radio gives itself"}


@check(
    "F23",
    Severity.STOP,
    "Battery, ACC or IGN feed in one net with a signal",
    source="common practice, no source",
)
def feed_meets_signal(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a battery or switched feed in one net with an audio, data, microphone or aerial contact.

    Why it matters: 12 V on an input, an output or a bus destroys what is behind it at the first key-on.

    Example: the loom's yellow B+ lead is joined to the processor's input 1 +.

    What to do: undo the joint named.

    Known limits: a feed on a trigger, mute or illumination wire is not told here; a turn-on or lamp wire on a
    signal is F24.

    Source: common practice, no source.
    """
    yield from meets(wiring, feeds(wiring), _SIGNALS)
