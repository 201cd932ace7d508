"""The chart has one wire of a pair right and the other at the wrong cavity."""

from collections.abc import Iterator, Sequence

from harness.patterns.chart import Chart, Pair, Reading, Tone
from harness.patterns.pattern import Pattern


def _ways(chart: Chart, tones: Sequence[Tone]) -> Iterator[Reading]:
    found: list[tuple[Pair, str, str]] = []
    for tone in tones:
        for pair in chart.pairs:
            own = {pair.plus, pair.minus}
            right = own & tone.cavities
            if len(right) == 1 and pair.heard_in(tone.heard):
                (wrong,), (stranger,) = own - right, tone.cavities - right
                found.append((pair, wrong, stranger))
    for pair, wrong, stranger in dict.fromkeys(found):
        yield partnered(pair, wrong, stranger)


def partnered(pair: Pair, wrong: str, stranger: str) -> Reading:
    """The pair with another cavity in the place of its wrong one; what was charted there takes that one."""
    kept = pair.minus if wrong == pair.plus else pair.plus
    words = f"{pair.name} is at {kept} and {stranger}, not at {kept} and {wrong}"
    return Reading("wrong partner", words, {wrong: stranger, stranger: wrong}, whole=False)


PATTERN = Pattern(
    "wrong partner", 8, _ways, "it has a wrong partner for one wire",
    "Meter the two cavities: a speaker reads a few ohm, a wrong partner is open.",
)  # fmt: skip
