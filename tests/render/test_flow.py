"""Strips cut into pages."""

from __future__ import annotations

from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from render.writers.flow import Strip, pages, strips_height, tie


def strip(height: float, **more: object) -> Strip:
    return Strip(height, lambda canvas, x, y: None, **more)


@given(
    st.lists(
        st.builds(
            strip, st.integers(1, 90), before=st.integers(0, 9), with_next=st.booleans(),
            again=st.sampled_from([None, strip(5)]), new_page=st.just(False),
        )
    )
)  # fmt: skip
def test_nothing_is_lost_moved_or_hangs_over(strips: list[Strip]) -> None:
    cut = pages(strips, 100)
    again = {id(s.again) for s in strips if s.again}
    placed = [p.strip for page in cut for p in page if id(p.strip) not in again]
    assert [id(s) for s in placed] == [id(s) for s in strips]
    for page in cut:
        downs = [p.down for p in page]
        assert downs == sorted(downs)
        assert all(down <= 100 for down in downs)
        for above, below in pairwise(page):
            assert below.down - below.strip.height >= above.down


def test_tied_strips_move_together_when_a_page_can_hold_them() -> None:
    cut = pages([strip(60), strip(30, with_next=True), strip(30)], 100)
    assert [len(page) for page in cut] == [1, 2]


def test_header_is_repeated_only_at_the_top() -> None:
    header = strip(10)
    cut = pages([header, *(strip(20, again=header) for _ in range(9))], 100)
    assert [[p.strip.height for p in page] for page in cut] == [[10, 20, 20, 20, 20]] * 2 + [[10, 20]]


def test_space_above_is_left_out_at_the_top() -> None:
    assert pages([strip(10, before=50)], 100)[0][0].down == 10


def test_a_sheet_without_strips_has_one_page() -> None:
    assert pages([], 100) == [[]]


def test_tie_gives_way_when_a_page_cannot_hold_it() -> None:
    small, large = [strip(40), strip(50)], [strip(60), strip(50)]
    assert [s.with_next for s in tie(small, 100)] == [True, False]
    assert tie(large, 100) == large
    assert strips_height(small) == 90
