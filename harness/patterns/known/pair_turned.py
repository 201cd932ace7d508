"""The chart has + and − of a pair the wrong way round; of several, where the tones say so of each."""

from collections.abc import Iterator, Sequence

from harness.patterns.chart import Chart, Reading, Tone
from harness.patterns.pattern import Pattern


def _ways(chart: Chart, tones: Sequence[Tone]) -> Iterator[Reading]:
    turned = [
        pair
        for pair in chart.pairs
        for tone in tones
        if tone.cavities == {pair.plus, pair.minus} and tone.plus == pair.minus and pair.heard_in(tone.heard)
    ]
    if turned:
        moves = {a: b for pair in turned for a, b in ((pair.plus, pair.minus), (pair.minus, pair.plus))}
        words = ", ".join(f"{pair.name} is + at {pair.minus} and − at {pair.plus}" for pair in turned)
        yield Reading("+ and − exchanged", words, moves, whole=False)


PATTERN = Pattern(
    "+ and − exchanged", 6, _ways, "it has + and − exchanged",
    "Find + once more by a pulse, and look at the page.",
)  # fmt: skip
