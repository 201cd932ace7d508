"""What is listed as not looked at, of jobs of a few lines, read off by hand."""

from __future__ import annotations

import pytest

from harness.checks.unchecked import unchecked
from tests.graph import test_joined_rules as joined


@pytest.mark.parametrize(
    ("joints", "more", "mate", "start", "listed"),
    [
        # what has sound, is no radio, stays, and says nothing of its turn-on: out comes out, radio is one
        ("", "", "", "what wakes ", ["amp", "dsp"]),
        ("", "removed: [out, amp]\n", "", "what wakes ", ["dsp"]),
        # units with outputs and without routes, but for a source and for one that comes out
        ("", "", "", "routes inside ", ["amp", "dsp"]), ("", "removed: [out, dsp]\n", "", "routes inside ", ["amp"]),
        # cavities of 12 that have no row: 1 to 8 have one
        ("", "", "", "4 of 12 cavities of ", ["dash"]),
        # a terminal that is moved, and none
        ("", "moved: {T1.car.1: T1.car.9}\n", "T1: dash", "whether T1 car end 1",
         [", moved to 9, sits (position, lock, tug)"]),
        ("", "", "T1: dash", "whether T1 car end 1", []),
        # no run at all
        ("", "", "", "supply and ", ["ground"]), ("", "", "", "the order of ", ["work"]),
    ],
)  # fmt: skip
def test_what_is_listed(joints: str, more: str, mate: str, start: str, listed: list[str]) -> None:
    head = joined.HEAD.replace("removed: [out]\n", "") if "removed" in more else joined.HEAD
    head = head.replace("    unit: radio\n", "    unit: radio\n    ways: 12\n") if "cavities" in start else head
    what = [each.what for each in unchecked(joined.wiring_of(joints, more, mate, head))]
    found = sorted(each.removeprefix(start) for each in what if each.startswith(start))
    assert len(found) == len(listed), what
    assert all(each.startswith(words) for each, words in zip(found, listed, strict=True)), found
