"""A safer order of the steps is offered as edits; applied to the file, nothing is at risk in the order any more."""

from __future__ import annotations

from pathlib import Path

import pytest

from harness.checks import all_checks
from harness.finding import Severity
from harness.mend.page import edited
from harness.prove import prove, prove_text
from tests.checks.marks import by_steps, fixtures, named
from tests.work.small_jobs import small_job

CODES = {each.code for each in all_checks() if each.needs == "steps"}
AT_RISK = [path for path in fixtures("bad") if by_steps(path)]


def left(text: str) -> list[str]:
    """The codes that stand in the way after an edit."""
    report = prove_text(text, "after.yaml", steps=True).report
    return [f"{each.code} {each.message}" for each in report.findings if each.severity <= Severity.FIX]


@pytest.mark.parametrize("path", AT_RISK, ids=named)
def test_the_offer_clears_what_is_at_risk(path: Path) -> None:
    findings = [each for each in prove(path, steps=True).report.findings if each.code in CODES]
    assert findings
    offers = {each.mend for each in findings}
    assert len(offers) == 1, "one order is offered, whatever it clears"
    (mend,) = offers
    assert mend is not None, findings
    assert left(edited(path.read_text(encoding="utf-8"), mend.edits)) == []


# 1 is the least that can be moved; these are mended by one step, by hand: the battery's step goes behind the cap's; the
# key behind the cut; the reading behind the loom; power behind the ground; the tone before the joints.
BY_ONE = ("J14/bad_plain", "J15/bad_plain", "J16/bad_far", "J17/bad_plain", "J18/bad_plain", "J18/bad_radio_still_in")


@pytest.mark.parametrize("name", BY_ONE)
def test_one_step_moved_is_enough(name: str) -> None:
    path = next(each for each in AT_RISK if named(each) == name)
    mend = next(each.mend for each in prove(path, steps=True).report.findings if each.code in CODES)
    assert mend is not None
    assert mend.words.startswith("move step ")
    assert len(mend.edits) == 2  # one line out, one line in


@pytest.mark.parametrize("seed", range(40, 70))
def test_what_is_offered_is_safe_whatever_the_order(seed: int, tmp_path: Path) -> None:
    """Of random orders every one with a risk gets an offer; the file after it is read and played again."""
    path = tmp_path / "small.yaml"
    path.write_text(small_job(seed).text(), encoding="utf-8")
    for finding in prove(path, steps=True).report.findings:
        if finding.code in CODES:
            assert finding.mend is not None
            assert left(edited(path.read_text(encoding="utf-8"), finding.mend.edits)) == []


def _with_steps(head: str, steps: list[str]) -> str:
    return head + "steps:\n" + "\n".join(steps) + "\n"


def test_two_steps_moved_where_no_single_move_is_enough(tmp_path: Path) -> None:
    """By hand: the tone before its unplugging, and the battery off only after the fuses are in. Every order with one
    step moved is tried here by brute force, and each leaves something at risk.
    """
    path = next(path for path in fixtures("good") if named(path) == "J18/good_plug_pulled")
    head, body = path.read_text(encoding="utf-8").split("steps:\n")
    off, unplug, tone, cut, *rest = body.splitlines()
    steps = [tone, unplug, cut, *rest[:-1], off, rest[-1]]
    wrong = _with_steps(head, steps)
    assert left(wrong)
    for start in range(len(steps)):
        for to in range(len(steps)):
            row = steps[:start] + steps[start + 1 :]
            row.insert(to, steps[start])
            assert left(_with_steps(head, row))
    job = tmp_path / "two.yaml"
    job.write_text(wrong, encoding="utf-8")
    (mend,) = {each.mend for each in prove(job, steps=True).report.findings if each.code in CODES}
    assert mend is not None
    assert mend.words.startswith("move step ")
    assert mend.changes == 2
    assert len(mend.edits) == 4  # two lines out, two lines in
    after = edited(job.read_text(encoding="utf-8"), mend.edits)
    assert left(after) == []
    assert sorted(after.splitlines()) == sorted(wrong.splitlines())
