"""The cover search by hand: the set-cover figure of a textbook, and small ones that can be counted on fingers."""

from __future__ import annotations

from harness.weighing.series import Cover, cheapest, covers

# Cormen, Leiserson, Rivest, Stein, Introduction to Algorithms, 3rd ed., section 35.3, figure 35.3 (from memory): twelve
# points in four rows of three; S1 the upper two rows, S3 S4 S5 the three columns. The least cover is the columns, three
# sets; the greedy way, which begins with S1, takes four.
_FIGURE = {
    "S1": (1, 2, 3, 4, 5, 6), "S2": (5, 6, 8, 9), "S3": (1, 4, 7, 10), "S4": (2, 5, 8, 11), "S5": (3, 6, 9, 12),
    "S6": (10, 11),
}  # fmt: skip
_NAMES = tuple(_FIGURE)
_TWELVE = (1 << 12) - 1


def _sets(weights: dict[str, tuple[int, int]] | None = None) -> list[Cover]:
    return [
        Cover(sum(1 << point - 1 for point in points), (weights or {}).get(name, (1, 1)))
        for name, points in _FIGURE.items()
    ]


def _named(numbers: tuple[int, ...]) -> set[str]:
    return {_NAMES[number] for number in numbers}


def test_the_figure_of_the_textbook() -> None:
    (found,) = covers(_sets(), _TWELVE)
    assert found[0] == (3, 3)
    assert _named(found[1]) == {"S3", "S4", "S5"}


def test_the_figure_with_dear_columns() -> None:
    """By hand: the columns at 9 minutes and 2 each make 27 and 6. 7 stands in S3 only and 12 in S5 only, so every cover
    has both, and lacks 2, 5, 8 and 11: S4, or S1 for 2, S2 for 8 and S6 for 11 at one minute and 5 each: 18 + 3 = 21
    minutes, 4 + 15 = 19.
    """
    weights = {"S3": (9, 2), "S4": (9, 2), "S5": (9, 2), "S1": (1, 5), "S2": (1, 5), "S6": (1, 5)}
    found = covers(_sets(weights), _TWELVE)
    assert [cost for cost, _ in found] == [(21, 19), (27, 6)]
    assert [_named(numbers) for _, numbers in found] == [{"S1", "S2", "S3", "S5", "S6"}, {"S3", "S4", "S5"}]
    best = cheapest(_sets(weights), _TWELVE)
    assert best is not None
    assert best[0] == (27, 6)


def test_what_can_not_be_covered() -> None:
    assert covers(_sets()[:2], _TWELVE) == []
    assert cheapest(_sets()[:2], _TWELVE) is None
    assert covers([], 1) == []


def test_a_cover_that_is_not_allowed_gives_way_to_the_next() -> None:
    sets = [Cover(0b11, (1, 1)), Cover(0b01, (1, 1)), Cover(0b10, (1, 1))]
    # by hand: one set does it; where it must be two, the other two
    assert covers(sets, 0b11) == [((1, 1), (0,))]
    assert covers(sets, 0b11, lambda chosen: len(chosen) > 1) == [((2, 2), (1, 2))]
