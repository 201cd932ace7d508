"""D05."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.wiring import Wiring

if TYPE_CHECKING:
    from harness.graph.readings import Between


@check(
    "D05",
    Severity.ASK,
    "Resistance doesn't fit the speakers",
    source="two retailers' guides to what speakers read, seen 2026",
    by_joints=False,
    needs="readings",
    bases=("coil by meter", "wires by meter", "speaker by meter", "series, parallel"),
)
def resistance_does_not_fit(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a reading in ohms across a speaker pair that a speaker may give, but not those that the
    chart has there.

    Why it matters: the load of an output is summed from the speakers as charted. Two of them where one is written is
    half the ohms, and an amplifier that trips or burns.

    Example: a pair with one speaker of 4 ohm nominal reads 1.7 ohm: two of 4 ohm side by side, or one of 2 ohm.

    What to do: find which of the two it is, by tone and by the mark on the speaker, and write it down.

    Known limits: the last reading of a pair counts. A voice coil reads 0.62 to 1.0 of its nominal ohms; 0.8 ohm more
    are allowed for the wires. Subtract what the meter's own leads read. A speaker whose ohms aren't written can't be
    judged, nor a pair that reads open. Less than 0.5 ohm is a short (H15), more than 32 ohm no speaker (A17).

    Source: nominal 1, 2, 4, 6, 8, 16 ohm read 0.5 to 1.0, 1.2 to 2, 3.1 to 4.0, 4.0 to 6, 5.7 to 8, 12 to 16 ohm
    (a retailer's guide, seen 2026), and 8 and 4 ohm 5 to 6 and 2.5 to 3 (an engineer in a forum, seen 2026).
    """
    from harness.graph.fitting import MOST_SPEAKERS_OHM, would_fit  # few jobs have such records
    from harness.graph.readings import LEAST_SPEAKER_OHM, wire_of
    from harness.graph.resistance import fits
    from harness.graph.speaker_readings import pair_words, speaker_readings

    for reading, met in speaker_readings(wiring):
        low, high = met.expected.low_ohm, met.expected.high_ohm
        if not met.branches or met.expected.unknown or not LEAST_SPEAKER_OHM <= reading.ohm <= MOST_SPEAKERS_OHM:
            continue
        if low is not None and high is not None and fits(low, high, reading.ohm):
            continue
        words = pair_words(wiring, reading.contacts)
        yield Fault(
            at=Spot(reading.record.place, words),
            message=f"{words} read {reading.words}; {_expected(met)}. It would fit {_or(would_fit(met, reading.ohm))}.",
            do="Find which it is, by tone and by the mark on the speaker, and write it under `speakers` or `found`: "
            "the load is summed from it.",
            about=(*reading.contacts, *(f"{name}{sign}" for name in met.terminals for sign in "+-")),
            path=wire_of(wiring, reading.contacts[0]),
        )


def _or(words: list[str]) -> str:
    """`a`, `a or b`, `a, b or c`."""
    return f"{', '.join(words[:-1])} or {words[-1]}" if len(words) > 1 else words[0]


def _expected(met: Between) -> str:
    """`FL would read 2.48 to 4 ohm`."""
    names = list(dict.fromkeys(speaker.name for branch in met.branches for speaker in branch))
    shown = " with ".join(names)
    low, high = met.expected.low_ohm, met.expected.high_ohm
    if low is None or high is None:
        return f"{shown} would read open, behind {'its capacitor' if len(names) == 1 else 'capacitors'}"
    return f"{shown} would read {low:.3g} to {high:.3g} ohm"
