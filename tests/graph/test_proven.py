"""What keeps a job from being verified: each by the records of one function, read off by hand."""

from __future__ import annotations

from pathlib import Path

import pytest

from harness.graph import proven
from tests.graph.test_contrary_rules import JOB, recorded

BEFORE = "before: horn, result: works"
LISTED = JOB + "features:\n  horn: radio > spk.C\n"


@pytest.mark.parametrize(
    ("records", "untried", "known"),
    [
        # nobody tried it before the work, or said only that: nothing can be missed, and that is said
        ((), False, False), (("before: horn, result: not tried",), False, False),
        (("before: horn, result: silent",), False, True),
        ((BEFORE,), True, True), ((BEFORE, "after: horn, result: silent"), True, True),
        ((BEFORE, "after: horn, result: not tried"), True, True), ((BEFORE, "after: horn, result: works"), False, True),
        # signed away: tried, it is done with; never tried it stays open
        ((BEFORE, "signed: lost, by: JM, lost: horn", "after: horn, result: silent"), False, True),
        ((BEFORE, "signed: lost, by: JM, lost: horn"), True, True),
        ((BEFORE, "after: horn, result: works, car: Larch van"), True, True),
    ],
)  # fmt: skip
def test_a_function_of_the_car(records: tuple[str, ...], untried: bool, known: bool, tmp_path: Path) -> None:
    """Listed in the job it is told as its feature, else by its name."""
    said = proven.open_evidence(recorded(tmp_path, *records, job=LISTED))
    assert [each.name for each in said.after] == (["horn"] if untried else [])
    assert [each.name for each in said.before] == ([] if known else ["horn"])
    assert said.unlisted == ()
    alone = proven.open_evidence(recorded(tmp_path, *records))
    assert (alone.unlisted, alone.after, alone.before) == (("horn",) if untried else (), (), ())
    assert said.untried == alone.untried


FOUR = ("FL", "FR", "RL", "RR")


@pytest.mark.parametrize(
    ("records", "proved", "unheard", "pairs"),
    [
        ((), False, FOUR, 2), (("tone: dash.car.1/2, charted: FL, heard: FL",), True, FOUR, 1),
        (("tone: dash.car.1/2, charted: FL, heard: FR",), False, FOUR, 2),
        # a source heard from its speaker; what comes between alone says something, and leaves the source open
        (("plays: radio.FL, heard: FL",), True, FOUR[1:], 2), (("plays: radio.FL, heard: FR",), False, FOUR, 2),
        (("plays: amp.out1, heard: FL",), True, FOUR, 2),
        (("after: horn, result: works",), True, FOUR, 2), (("after: horn, result: silent",), False, FOUR, 2),
        (("before: horn, result: works",), False, FOUR, 2),
    ],
)  # fmt: skip
def test_whether_the_car_has_said_anything(
    records: tuple[str, ...], proved: bool, unheard: tuple[str, ...], pairs: int, tmp_path: Path
) -> None:
    """The radio plays its four; FL and FR are cut, and so their pairs are in use."""
    said = proven.open_evidence(recorded(tmp_path, *records))
    assert (said.proved, len(said.pairs)) == (proved, pairs)
    assert [each.name for each in said.outputs] == [f"radio.{name}" for name in unheard]
