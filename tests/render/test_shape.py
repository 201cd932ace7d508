"""Where numbers stand, from plain values."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from render.ends import FaceShape, grid_shape, mirrored, seen_from


def drawn(shape: FaceShape) -> list[str]:
    return [" ".join(number or "." for number in row) for row in shape.rows]


@pytest.mark.parametrize(
    ("first", "count", "rows"),
    [
        ("top left", "across", ["1 2 3 4", "5 6 7 8"]),
        ("top right", "across", ["4 3 2 1", "8 7 6 5"]),
        ("bottom left", "across", ["5 6 7 8", "1 2 3 4"]),
        ("bottom right", "across", ["8 7 6 5", "4 3 2 1"]),
        ("top left", "down", ["1 3 5 7", "2 4 6 8"]),
        ("top right", "down", ["7 5 3 1", "8 6 4 2"]),
        ("bottom left", "down", ["2 4 6 8", "1 3 5 7"]),
        ("bottom right", "down", ["8 6 4 2", "7 5 3 1"]),
    ],
)
def test_corner_and_way_of_counting(first: str, count: str, rows: list[str]) -> None:
    assert drawn(grid_shape(2, 4, "wire", "top", first, count)) == rows


def test_mirror_changes_columns_only() -> None:
    seen = mirrored(FaceShape((("1", "2", None), ("3", None, "4")), "wire", "top"))
    assert drawn(seen) == [". 2 1", "4 . 3"]
    assert seen.view == "mating"


@pytest.mark.parametrize(
    ("latch", "turned"), [("top", "top"), ("bottom", "bottom"), ("left", "right"), ("right", "left")]
)
def test_latch_turns_with_the_plug(latch: str, turned: str) -> None:
    assert mirrored(FaceShape((("1", "2"),), "mating", latch)).latch == turned


def test_short_rows_get_gaps_at_the_right_before_the_mirror() -> None:
    shape = FaceShape((("1", "2", "3"), ("4",)), "wire", "top")
    assert drawn(shape) == ["1 2 3", "4 . ."]
    assert drawn(mirrored(shape)) == ["3 2 1", ". . 4"]


@given(
    st.integers(1, 4), st.integers(1, 20), st.sampled_from(["wire", "mating"]),
    st.sampled_from(["top left", "top right", "bottom left", "bottom right"]),
    st.sampled_from(["across", "down"]),
)  # fmt: skip
def test_mirror_twice_is_the_same_plug(rows: int, columns: int, view: str, first: str, count: str) -> None:
    shape = grid_shape(rows, columns, view, "left", first, count)
    assert mirrored(mirrored(shape)) == shape
    assert sorted(shape.numbers, key=int) == [str(n + 1) for n in range(rows * columns)]
    other = seen_from(shape, "mating" if view == "wire" else "wire")
    for row, turned in zip(shape.rows, other.rows, strict=True):
        for column, number in enumerate(row):
            # published rule: pin n at column c of C stands at column C - 1 - c of the other view
            assert turned[columns - 1 - column] == number


@pytest.mark.parametrize(
    ("rows", "view", "latch"),
    [
        ((("1", "1"),), "wire", "top"),
        (((None, None),), "wire", "top"),
        ((), "wire", "top"),
        ((("1",),), "front", "top"),
        ((("1",),), "wire", "middle"),
    ],
)
def test_refused(rows: tuple[tuple[str | None, ...], ...], view: str, latch: str) -> None:
    with pytest.raises(ValueError, match=r"cavity|view|latch"):
        FaceShape(rows, view, latch)


@pytest.mark.parametrize("size", [(0, 4), (2, 0)])
def test_no_empty_grid(size: tuple[int, int]) -> None:
    with pytest.raises(ValueError, match="at least one"):
        grid_shape(*size, "wire", "top")


@pytest.mark.parametrize(("first", "count"), [("middle", "across"), ("top left", "up")])
def test_unknown_words(first: str, count: str) -> None:
    with pytest.raises(ValueError, match="must be one of"):
        grid_shape(2, 2, "wire", "top", first, count)
