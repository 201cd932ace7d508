"""A finding hangs on what is joined to what: not on names, order or colours, nor on how far the cause lies off.

Each bad fixture is also read renamed, reordered, recoloured and with two more inline plugs in each of its found
chains; the same codes must come, at the lines to which the marks moved.
"""

from __future__ import annotations

import shutil
from collections import Counter
from pathlib import Path

import pytest
import yaml

from harness.prove import prove
from tests.checks.marks import Mark, by_steps, evidence_of, fixtures, marks_of, named
from tests.checks.transform import TRANSFORMATIONS, Written, has_chains

# (fixture or code, transformation) -> why it can't be done there
CANNOT: dict[tuple[str, str], str] = {
    ("A05/bad_beyond_inline_plugs", "reordered"): "the plan goes by the first of two rows, and so becomes another plan",
    ("J20", "renamed"): "whoever writes a sealed record anew breaks all seals",
    ("J20", "all four"): "as renamed",
    ("J31", "lengthened"): "a run with plugs in it is other runs, and what was recorded of the one is of none of them",
    ("H14/bad_two_named_leads_in_one_terminal", "reordered"): "the second of two leads is told, and only it",
    ("H17/bad_spare_input_lead", "reordered"): "the second of two leads is told (H14), and only it",
}

# Codes about things that are equals: which of them is told first follows the file's order. In another order the
# marked line must still be one of the finding's places.
EQUALS: dict[str, str] = {
    "A05": "of two rows for one cavity the later one is told, and either may be the wrong one",
    "A06": "of two cavities with one function the later one is told, and either may be the wrong one",
    "A09": "wires in one colour are told once, at the first that is worked on",
    "A11": "codes that want a legend are told once a plug, at the first of them",
    "A15": "wires behind a plug are told once a plug, at the first of them",
    "A16": "seats that want a steering side are told once a plug, at the first of them",
    "C14": "speakers in parallel on one silent wire are told once, at the first of them",
    "H05": "joints of one place are told once, at the first of them",
    "H14": "of two wires in one terminal the later one is told, and either may be the one too many",
}


def exception(path: Path, how: str) -> str:
    parts = ["renamed", "reordered", "recoloured", "lengthened"] if how == "all four" else []
    keys = [(name, way) for name in (named(path), path.parent.name) for way in (how, *parts)]
    return next((CANNOT[key] for key in keys if key in CANNOT), "")


def written_anew(path: Path, how: str, folder: Path) -> Path:
    """The fixture and what it needs beside it, transformed, in another folder."""
    evidence = evidence_of(path)
    before = Written(
        path.read_text(encoding="utf-8"), evidence.read_text(encoding="utf-8") if evidence.is_file() else None
    )
    after = TRANSFORMATIONS[how](before)
    assert after.job != before.job, f"{how} changes nothing in {named(path)}"
    job = folder / path.name
    job.write_text(after.job, encoding="utf-8")
    if after.evidence is not None:
        evidence_of(job).write_text(after.evidence, encoding="utf-8")
    for part in yaml.load(before.job, Loader=yaml.BaseLoader).get("parts", []):
        (folder / part).parent.mkdir(parents=True, exist_ok=True)
        shutil.copy(path.parent / part, folder / part)
    return job


def told(job: Path, marks: Counter[Mark]) -> Counter[Mark]:
    """Each finding by its code and first place, or by another of its places where equals may change theirs."""
    made: Counter[Mark] = Counter()
    for finding in prove(job, mends=False, steps=by_steps(job)).report.findings:
        places = [Mark(finding.code, Path(spot.place.file).name, spot.place.line) for spot in finding.places]
        marked = [mark for mark in places if mark in marks]
        made[marked[0] if finding.code in EQUALS and marked else places[0]] += 1
    return made


def applicable(how: str) -> list[Path]:
    """The bad fixtures that can be written anew so. Where no chain is found there is none to lengthen."""
    paths = [path for path in fixtures("bad") if not exception(path, how)]
    return [path for path in paths if how != "lengthened" or has_chains(path.read_text(encoding="utf-8"))]


@pytest.mark.parametrize(
    ("path", "how"),
    [pytest.param(path, how, id=f"{named(path)}-{how}") for how in TRANSFORMATIONS for path in applicable(how)],
)
def test_the_same_codes_at_the_moved_lines(path: Path, how: str, tmp_path: Path) -> None:
    job = written_anew(path, how, tmp_path)
    marks = marks_of(job)
    assert Counter(mark.code for mark in marks.elements()) == Counter(m.code for m in marks_of(path).elements())
    assert told(job, marks) == marks


def test_the_table_of_exceptions_names_what_there_is() -> None:
    known = {named(path) for path in fixtures("bad")} | {path.parent.name for path in fixtures("bad")}
    assert {name for name, _ in CANNOT} <= known
    assert {how for _, how in CANNOT} <= set(TRANSFORMATIONS)
    assert set(EQUALS) <= known


def test_nearly_all_fixtures_are_transformed_in_each_way() -> None:
    """A transformation that is skipped everywhere proves nothing."""
    paths = fixtures("bad")
    for how in TRANSFORMATIONS:
        assert len(applicable(how)) >= len(paths) * (0.5 if how == "lengthened" else 0.9), how
