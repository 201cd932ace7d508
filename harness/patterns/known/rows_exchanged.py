"""The chart has two rows of the plug the wrong way round: the page was held with the latch at the other edge."""

from collections.abc import Iterator, Sequence
from itertools import combinations

from harness.patterns.chart import Chart, Reading, Tone
from harness.patterns.pattern import Pattern, examples


def _ways(chart: Chart, _tones: Sequence[Tone]) -> Iterator[Reading]:
    count = len(chart.face.rows)
    for one, two in combinations(range(count), 2):
        words = "the two rows" if count == 2 else f"rows {one + 1} and {two + 1}"
        order = list(range(count))
        order[one], order[two] = two, one
        yield from _exchanged(chart, words, order)
    if count > 3:
        yield from _exchanged(chart, "all rows, the first and the last and so on,", list(range(count))[::-1])


def _exchanged(chart: Chart, words: str, order: list[int]) -> Iterator[Reading]:
    for moves in chart.face.turned(order.__getitem__, backwards=False):
        moved = {cavity: there for cavity, there in moves.items() if cavity != there}
        yield Reading("rows exchanged", f"{words} change places: {examples(moved.items())}", moved, carried=True)


PATTERN = Pattern(
    "rows exchanged", 1, _ways, "two of its rows are exchanged",
    "Look at which edge the page has the latch.",
)  # fmt: skip
