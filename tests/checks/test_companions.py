"""What is told of a job stays as it is when a sound piece of another is written beside it, before it or after it."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest

from tests.checks.companions import COMPANIONS, beside
from tests.checks.marks import by_number, by_steps, evidence_of, fixtures, marks_of, named
from tests.checks.test_fixtures import told

# (code, companion) -> why the companion changes what is told
CHANGES: dict[tuple[str, str], str] = {
    ("E09", "supply"): "a unit that gives 12 V is there, so that E01 speaks in its place",
    ("E09", "tailgate"): "a switched wire is there now, as above",
    ("F20", "supply"): "a sum over the whole car",
    ("F30", "supply"): "a sum over the whole car",
    ("F31", "supply"): "the fixture's own limits hold for the companion too",
    ("C22", "centre"): "of noise cancelling every speaker that is driven otherwise counts",
    ("F18", "centre"): "an electric car whose supply nobody wrote, and now units are added to it",
}


def suits(path: Path, name: str) -> bool:
    """The order of work names every joint there is, and a number of a joint holds in this one order; part files bring
    their own sections. A job without `runs` plans no supply yet, and one with them plans that of every unit; a car has
    one centre.
    """
    text = path.read_text(encoding="utf-8")
    if (
        by_steps(path)
        or by_number(path)
        or re.search("^parts:", text, re.MULTILINE)
        or (path.parent.name, name) in CHANGES
    ):
        return False
    has_runs = re.search("^runs:", text, re.MULTILINE) is not None
    if name == "centre":
        return not has_runs and not re.search(r"\bC\b", text)
    return has_runs if name == "supply" else True


CASES = [
    pytest.param(path, name, first, id=f"{named(path)}-{name} {'before' if first else 'after'}")
    for name in COMPANIONS
    for first in (True, False)
    for path in (*fixtures("bad"), *fixtures("good"))
    if suits(path, name)
]


@pytest.mark.parametrize(("path", "name", "first"), CASES)
def test_what_stands_beside_it_changes_nothing(path: Path, name: str, first: bool, tmp_path: Path) -> None:
    job = tmp_path / path.name
    job.write_text(beside(path.read_text(encoding="utf-8"), COMPANIONS[name], first=first), encoding="utf-8")
    if evidence_of(path).is_file():
        shutil.copy(evidence_of(path), evidence_of(job))
    marks = marks_of(job)
    assert len(marks) == len(marks_of(path)), "a mark was lost"
    assert told(job) == marks


def test_most_fixtures_have_a_companion() -> None:
    beside_one = {case.values[0] for case in CASES}
    assert len(beside_one) >= 0.9 * len([*fixtures("bad"), *fixtures("good")])
    assert {name for _, name in CHANGES} <= set(COMPANIONS)
    for name in COMPANIONS:
        assert sum(case.values[1] == name for case in CASES) >= 100, name
