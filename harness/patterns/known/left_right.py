"""The chart has left for right: the page names the sides as seen from the front of the car."""

from collections.abc import Iterator, Sequence

from harness.patterns.chart import Chart, Reading, Tone
from harness.patterns.pattern import Pattern, examples

OTHER = {"FL": "FR", "FR": "FL", "RL": "RR", "RR": "RL"}


def _ways(chart: Chart, _tones: Sequence[Tone]) -> Iterator[Reading]:
    names = {pair.name: other for pair in chart.pairs if (other := other_side(pair.name, OTHER)) != pair.name}
    if names:
        yield Reading("left for right", f"{examples(names.items())} change places", {}, names)


def other_side(name: str, other: dict[str, str]) -> str:
    """`FL-TW` as `FR-TW`; what has no side stays."""
    channel, dash, driver = name.partition("-")
    return other.get(channel, channel) + dash + driver


PATTERN = Pattern(
    "left for right", 4, _ways, "it has left for right",
    "Look whether the page means left as seen from a seat or from the front of the car.",
)  # fmt: skip
