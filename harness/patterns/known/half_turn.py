"""The chart was read with the plug turned half round: the first cavity is taken for the very last."""

from collections.abc import Iterator, Sequence

from harness.patterns.chart import Chart, Reading, Tone
from harness.patterns.pattern import Pattern, examples


def _ways(chart: Chart, _tones: Sequence[Tone]) -> Iterator[Reading]:
    count = len(chart.face.rows)
    for moves in chart.face.turned(lambda row: count - 1 - row, backwards=True):
        yield Reading("half turn", f"{examples(moves.items())} change places", moves, carried=True)


PATTERN = Pattern(
    "half turn", 2, _ways, "it is turned half round",
    "Look at which edge the page has the latch, and how you hold the plug.",
)  # fmt: skip
