"""A check that says what it needs finds nothing where that isn't there: no finding is lost by not asking it."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from harness.checks import all_checks
from harness.checks.registry import run_checks
from harness.prove import prove
from tests.checks.marks import by_steps, fixtures, named

ASKED_FOR = "steps"  # no fact of a job: who asks for its states gets more findings


@pytest.mark.parametrize("path", [*fixtures("good"), *fixtures("bad")], ids=named)
def test_asked_all_the_same_it_finds_nothing(path: Path) -> None:
    wiring = prove(path, mends=False).wiring
    if wiring is None:
        return
    left_out = [
        check for check in all_checks() if check.needs not in ("", ASKED_FOR) and check.needs not in wiring.facts
    ]
    findings, raised = run_checks(wiring, [replace(check, needs="") for check in left_out])
    assert not findings
    assert not raised


def test_every_need_is_met_by_some_fixture_and_missed_by_another() -> None:
    """A word that no job has would switch its checks off for good."""
    needed = {check.needs for check in all_checks()} - {""}
    met: set[str] = set()
    missed: set[str] = set()
    for path in fixtures("good"):
        wiring = prove(path, mends=False, steps=by_steps(path)).wiring
        if wiring is not None:
            met |= needed & wiring.facts
            missed |= needed - wiring.facts
    assert met == needed
    assert missed == needed
