"""What a reading in ohms would fit: other speakers than the drawing has, or the same ones otherwise."""

from __future__ import annotations

from collections.abc import Iterator

from harness.graph.readings import Between
from harness.graph.resistance import HIGH_SHARE, LOW_SHARE, expected_dc

# Nominal ohms that car speakers come in (the rows of the guides that `resistance` goes by).
NOMINAL_OHM = (1, 2, 4, 6, 8, 16)
# No speaker of those rows reads more, nor do two of them in line; what does is no bare speaker.
MOST_SPEAKERS_OHM = 32.0


def would_fit(met: Between, reads_ohm: float) -> list[str]:
    """What else would read so, in words, the likeliest first: other counts of the charted speaker, other speakers."""
    made = [words for words, nominal in _others(met) if _within(nominal, reads_ohm)]
    return list(dict.fromkeys(made)) or ["no usual speaker"]


def _within(nominal_ohm: float, reads_ohm: float) -> bool:
    return LOW_SHARE * nominal_ohm <= reads_ohm <= HIGH_SHARE * nominal_ohm


def _others(met: Between) -> Iterator[tuple[str, float]]:
    nominal = met.expected.high_ohm / HIGH_SHARE if met.expected.high_ohm else None
    if len(met.branches) > 1:
        for branch in met.branches:
            alone = expected_dc([branch])
            if alone.high_ohm:
                names = " and ".join(speaker.name for speaker in branch)
                yield f"{names} alone", alone.high_ohm / HIGH_SHARE
    elif nominal:
        yield f"two {nominal:g}-ohm speakers side by side", nominal / 2
        yield f"two {nominal:g}-ohm speakers in line", nominal * 2
    for each in NOMINAL_OHM:
        if each != nominal:
            yield f"one {each}-ohm speaker", each
