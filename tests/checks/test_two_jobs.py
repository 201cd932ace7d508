"""Two fixtures of one code as one job: what is told is what is told of each, whichever is written first.

The other one is written under new names, with its front speakers as rear ones where both have them. So a check that
stops at the first thing it may pass over, tells only the first of two faults, or mixes up what belongs to whom is found
out by the near misses and the faults that are there already.
"""

from __future__ import annotations

import shutil
from collections import Counter
from pathlib import Path

import pytest

from tests.checks.companions import beside, go_together, sections_of, to_the_rear
from tests.checks.marks import evidence_of, fixtures, marks_of, named
from tests.checks.test_fixtures import told

# Codes whose faults are no two in one car -> why.
ONE_IN_A_CAR: dict[str, str] = {
    "C22": "noise cancelling is told once, whoever drives the speakers",
    "E09": "a car without a turn-on wire is told once, at the first that wants one",
    "F18": "of the car's supply it is told once", "F20": "a sum over the whole car", "F30": "a sum over the whole car",
    "F22": "two feeds on the body meet each other there", "F26": "two wires on the body meet each other there",
    "F29": "where one unit's power can't arrive no number of the whole supply is an answer",
    "G08": "one place with orange cables is told once",
}  # fmt: skip


def _pairs() -> list[tuple[Path, str, Path]]:
    """(fixture, the text of another, where that stands)."""
    made = []
    texts = {path: path.read_text(encoding="utf-8") for path in (*fixtures("bad"), *fixtures("good"))}
    for path in fixtures("bad"):
        for other in (*fixtures("bad"), *fixtures("good")):
            one = path.parent.name in ONE_IN_A_CAR and other.name.startswith("bad")
            if other.parent != path.parent or one or evidence_of(other).is_file():
                continue
            text = next((t for t in (texts[other], to_the_rear(texts[other])) if go_together(texts[path], t)), "")
            if text:
                made.append((path, text, other))
    return made


PAIRS = _pairs()


@pytest.mark.parametrize("first", [True, False], ids=["before", "after"])
@pytest.mark.parametrize(
    ("path", "text", "other"), PAIRS, ids=[f"{named(path)} and {other.stem}" for path, _, other in PAIRS]
)
def test_each_is_told_as_if_alone(path: Path, text: str, other: Path, first: bool, tmp_path: Path) -> None:
    job = tmp_path / path.name
    job.write_text(beside(path.read_text(encoding="utf-8"), sections_of(text), first=first), encoding="utf-8")
    if evidence_of(path).is_file():
        shutil.copy(evidence_of(path), evidence_of(job))
    marks, found = marks_of(job), told(job)
    assert not marks - found, "what is told of the fixture alone"
    codes = Counter(mark.code for mark in (found - marks).elements())
    assert codes == Counter(mark.code for mark in marks_of(other).elements()), "what is told of the other alone"


def test_most_codes_have_such_pairs() -> None:
    """But for the order of work, whose steps name every joint, what records say, and the sums over a car."""
    codes = {path.parent.name for path in fixtures("bad") if not evidence_of(path).is_file()}
    codes = {code for code in codes if not code.startswith("J")}
    paired = {path.parent.name for path, _, _ in PAIRS}
    assert len(paired & codes) >= 0.8 * len(codes), sorted(codes - paired)
    assert set(ONE_IN_A_CAR) <= codes
