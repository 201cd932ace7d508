"""The chart counts one too many or one too few: from 0, with a keyway counted, or one left out."""

from collections.abc import Iterator, Sequence

from harness.patterns.chart import Chart, Reading, Tone
from harness.patterns.face import in_order, number_of
from harness.patterns.pattern import Pattern


def _ways(chart: Chart, _tones: Sequence[Tone]) -> Iterator[Reading]:
    order = in_order((*chart.face.cavities, *chart.content))
    behind = chart.face.behind_gaps()
    for first in (None, *behind):
        # what the chart has for the number that is left out counts as behind the gap
        start = 0 if first is None else _behind(chart, order, first)
        where = "each" if first is None else f"from {order[start]} on, each"
        part = order[start:]
        yield _shift(f"{where} one cavity higher", dict(zip(part, (*part[1:], ""), strict=True)))
        yield _shift(f"{where} one cavity lower", dict(zip(part, ("", *part[:-1]), strict=True)))


def _behind(chart: Chart, order: tuple[str, ...], first: str) -> int:
    """Where what lies behind a gap begins in the order of all numbers."""
    cavities = chart.face.cavities
    at = cavities.index(first)
    before = number_of(cavities[at - 1])
    return next(k for k, cavity in enumerate(order) if number_of(cavity) > before)


def _shift(words: str, moves: dict[str, str]) -> Reading:
    return Reading("shifted", words, moves, carried=True)


PATTERN = Pattern(
    "shifted", 3, _ways, "it counts one off",
    "Look whether the chart counts from 0, or counts a keyway, or leaves one out.",
)  # fmt: skip
