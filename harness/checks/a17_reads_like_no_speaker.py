"""A17."""

import math
from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.wiring import Wiring


@check(
    "A17",
    Severity.ASK,
    "Speaker pair reads like no speaker",
    source="a retailer's guide to what speakers read, seen 2026; common practice, no source",
    by_joints=False,
    needs="readings",
    bases=("speaker by meter",),
)
def reads_like_no_speaker(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a reading in ohms across a speaker pair that is neither open nor anything that speakers
    read: above 32 ohm, where the chart has no unit on these wires.

    Why it matters: an amplifier's input or a network sits between. Feed such a pair as a speaker and it stays silent,
    and what sits there can be damaged by twelve volts of signal.

    Example: cavities 3 and 4 are charted as the left front speaker and read 2.2 kohm.

    What to do: follow the wires to what they end in, and write that into the chart before anything is designed on it.

    Known limits: the last reading of a pair counts. An open pair isn't told here: behind a capacitor a tweeter reads
    so. What a speaker reads but not this one is told as D05. Two speakers of 16 ohm in line read 32 ohm at most; three
    such are told too.

    Source: 16-ohm speakers read 12 to 16 ohm (a retailer's guide, seen 2026); that more than two of them in line
    is no car's speaker pair: common practice, no source.
    """
    from harness.graph.fitting import MOST_SPEAKERS_OHM  # few jobs have such records
    from harness.graph.readings import wire_of
    from harness.graph.speaker_readings import pair_words, speaker_readings

    for reading, met in speaker_readings(wiring):
        most = max(MOST_SPEAKERS_OHM, met.expected.high_ohm or 0)
        if most < reading.ohm < math.inf:
            words = pair_words(wiring, reading.contacts)
            yield Fault(
                at=Spot(reading.record.place, words),
                message=f"{words} read {reading.words}: no bare speaker, none reads more than {most:g} ohm. "
                "An amplifier or a network sits between.",
                do="Follow both wires to what they end in, and chart that, before you design on this pair.",
                about=reading.contacts,
                path=wire_of(wiring, reading.contacts[0]),
            )
