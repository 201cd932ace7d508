"""The chart shows the plug from the other side: in each row the first cavity is taken for the last."""

from collections.abc import Iterator, Sequence

from harness.patterns.chart import Chart, Reading, Tone
from harness.patterns.pattern import Pattern, examples


def _ways(chart: Chart, _tones: Sequence[Tone]) -> Iterator[Reading]:
    sizes = sorted({len(line) for line in chart.face.lines if len(line) > 1}, reverse=True)
    rows = f"in {'rows' if len(chart.face.lines) > 1 else 'the row'} of {' and '.join(map(str, sizes))}"
    for moves in chart.face.turned(lambda row: row, backwards=True):
        yield Reading("mirrored", f"{rows}, {examples(moves.items())} change places", moves, carried=True)


PATTERN = Pattern(
    "mirrored", 0, _ways, "it is read from the other side",
    "Look from which side the page shows the plug, wire or mating side.",
)  # fmt: skip
