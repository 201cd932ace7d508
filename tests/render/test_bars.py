"""Bars by what is drawn: lengths stand to each other as the amounts, kinds differ without colour, nothing overlaps."""

from __future__ import annotations

from itertools import combinations

import pytest

from render import style
from render.blocks import Bar, Bars, Masthead, Sheet
from render.diagrams.bars import draw_bars, typed
from render.shapes import Box, Text
from render.writers.svg import write_svg
from render.writers.text import write_text

WAYS = Bars(
    "What each comes to",
    ("labour", "parts"),
    (
        Bar("1  full solder-in", (56.0, 9.6), "65.60 EUR, 40 min"),
        Bar("2  looms in series with a name that wants two lines (L3 + L4)", (46.2, 44.6), "90.80 EUR, 33 min"),
        Bar("3  nothing", (0.0, 0.0), "0.00 EUR"),
    ),
)


def boxes(ground: str) -> list[float]:
    """Widths of the pieces of a ground, without the field of the legend, which is drawn last."""
    drawn = draw_bars(WAYS, style.PORTRAIT.usable).contents
    return [shape.width for shape in drawn if isinstance(shape, Box) and shape.fill == ground][:-1]


def test_lengths_stand_as_the_amounts() -> None:
    grey, hatched = boxes(style.MID), boxes(style.WHITE)
    assert len(grey) == len(hatched) == 2  # an amount of 0 draws nothing
    assert grey[0] / grey[1] == pytest.approx(56.0 / 46.2)
    assert hatched[0] / grey[0] == pytest.approx(9.6 / 56.0)
    assert hatched[1] / grey[1] == pytest.approx(44.6 / 46.2)


def test_words_stay_on_the_paper_and_apart() -> None:
    for width in (style.PORTRAIT.usable, style.LANDSCAPE.usable):
        drawn = draw_bars(WAYS, width)
        texts = [shape for shape in drawn.contents if isinstance(shape, Text)]
        assert all(text.size >= style.SMALLEST for text in texts)
        assert all(text.x >= 0 and text.x + text.width <= width + 0.01 for text in texts)
        assert all(0 <= text.y <= drawn.height - text.size * 0.7 for text in texts)
        for one, other in combinations(texts, 2):
            beside = one.x + one.width <= other.x + 0.01 or other.x + other.width <= one.x + 0.01
            assert beside or abs(one.y - other.y) >= style.SMALLEST, (one.words, other.words)


def test_in_text_signs_count_the_amounts() -> None:
    # 40 signs for 90.80: 56 -> 24.7, 9.6 -> 4.2, 46.2 -> 20.4, 44.6 -> 19.6
    assert [line.rstrip() for line in typed(WAYS)] == ["#" * 25 + "/" * 4, "#" * 20 + "/" * 20, ""]
    assert typed(Bars("t", ("a",), (Bar("x", (1000.0,), ""), Bar("y", (0.001,), ""))))[1].strip() == "#"
    said = write_text([Sheet("s", "S", (WAYS,))], Masthead("J", "", "", "", "", "", ""))
    assert "# labour, / parts" in said
    assert "90.80 EUR, 33 min" in said


def test_the_picture_is_named_in_the_svg() -> None:
    assert "<title>What each comes to</title>" in write_svg(WAYS)


@pytest.mark.parametrize(
    ("kinds", "bars"),
    [((), ()), (("a", "b", "c"), ()), (("a",), (Bar("x", (1.0, 2.0), ""),)), (("a",), (Bar("x", (-1.0,), ""),))],
)
def test_what_can_not_be_drawn_is_refused(kinds: tuple[str, ...], bars: tuple[Bar, ...]) -> None:
    with pytest.raises(ValueError, match="bar"):
        Bars("t", kinds, bars)
