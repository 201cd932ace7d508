"""The chart has front for rear."""

from collections.abc import Iterator, Sequence

from harness.patterns.chart import Chart, Reading, Tone
from harness.patterns.known.left_right import other_side
from harness.patterns.pattern import Pattern, examples

OTHER = {"FL": "RL", "RL": "FL", "FR": "RR", "RR": "FR"}


def _ways(chart: Chart, _tones: Sequence[Tone]) -> Iterator[Reading]:
    names = {pair.name: other for pair in chart.pairs if (other := other_side(pair.name, OTHER)) != pair.name}
    if names:
        yield Reading("front for rear", f"{examples(names.items())} change places", {}, names)


PATTERN = Pattern(
    "front for rear", 5, _ways, "it has front for rear",
    "Look which pairs the page calls front.",
)  # fmt: skip
