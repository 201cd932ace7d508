"""The chart has the two places of one pair for those of another; or they are at two places that it leaves free."""

from collections.abc import Iterator, Sequence

from harness.patterns.chart import VOID, Chart, Pair, Reading, Tone
from harness.patterns.pattern import Pattern


def _ways(chart: Chart, tones: Sequence[Tone]) -> Iterator[Reading]:
    seen: set[frozenset[str]] = set()
    content = chart.content
    for tone in tones:
        here = next((pair for pair in chart.pairs if tone.cavities == {pair.plus, pair.minus}), None)
        free = content.get(tone.a, "") in VOID and content.get(tone.b, "") in VOID
        for pair in chart.pairs:
            if pair is here or not pair.heard_in(tone.heard):
                continue
            if here is not None and frozenset((pair.name, here.name)) not in seen:
                seen.add(frozenset((pair.name, here.name)))
                yield _exchange(pair, (here.plus, here.minus), f"{pair.name} and {here.name} change places")
            elif free:
                plus = tone.plus or tone.a
                minus = tone.b if plus == tone.a else tone.a
                yield _exchange(pair, (plus, minus), f"{pair.name} is at {plus}/{minus}")


def _exchange(pair: Pair, places: tuple[str, str], words: str) -> Reading:
    moves = {}
    for a, b in zip((pair.plus, pair.minus), places, strict=True):
        moves[a], moves[b] = b, a
    return Reading("pairs exchanged", words, moves, whole=False)


PATTERN = Pattern(
    "pairs exchanged", 7, _ways, "it has a pair at the wrong place",
    "Look at the two rows of the page once more.",
)  # fmt: skip
