"""Every fixture gives exactly what its marks say, and every check has its fixtures and its words."""

from __future__ import annotations

import re
from collections import Counter
from pathlib import Path

import pytest

from harness.checks import all_checks, catalogue
from harness.finding import Severity
from harness.prove import prove
from tests.checks.marks import Mark, by_steps, code_folders, fixtures, marks_of, named

# Of the catalogue's codes, those that the first version was asked for.
ASKED_FOR = re.findall(
    r"[A-Z][0-9]{2}",
    """
    A01 A05 A06 A07 A11 A14 A16 B01 B02 B03 B04 B05 B06 C01 C02 C03 C04 C05 C13 C14 C15 C17 C18 C20 C23 F22 F23
    G01 G03 G05 G07 G11 G12 H01 H02 H03 H04 H07 H08 H12 H14 H16
    """,
)

HEADINGS = ("What it looks for", "Why it matters", "Example", "What to do", "Known limits", "Source")


def told(path: Path) -> Counter[Mark]:
    """What the tool says, each finding by its code and first place."""
    report = prove(path, mends=False, steps=by_steps(path)).report
    places = [(finding.code, finding.places[0].place) for finding in report.findings]
    return Counter(Mark(code, Path(place.file).name, place.line) for code, place in places)


@pytest.mark.parametrize("path", [*fixtures("bad"), *fixtures("good")], ids=named)
def test_exactly_the_marked_findings(path: Path) -> None:
    assert told(path) == marks_of(path)


@pytest.mark.parametrize("path", fixtures("bad"), ids=named)
def test_a_bad_fixture_marks_the_code_of_its_folder(path: Path) -> None:
    assert path.parent.name in {mark.code for mark in marks_of(path)}


@pytest.mark.parametrize("path", fixtures("good"), ids=named)
def test_a_good_fixture_marks_nothing_that_must_be_mended(path: Path) -> None:
    severities = {entry.code: entry.severity for entry in catalogue()}
    marked = {mark.code for mark in marks_of(path)}
    assert path.parent.name not in marked
    assert not {code for code in marked if severities[code] in (Severity.STOP, Severity.FIX)}


@pytest.mark.parametrize("path", [path for path in fixtures("good") if not by_steps(path)], ids=named)
def test_the_proposed_order_is_safe(path: Path) -> None:
    """A good plan without steps of its own, played through in the proposed order: nothing is at risk in between."""
    plain, played = (prove(path, mends=False, steps=steps) for steps in (False, True))
    assert played.report.findings == plain.report.findings
    assert not [each for each in played.report.unchecked if "step" in each.what]


def test_the_codes_asked_for_are_there() -> None:
    assert set(ASKED_FOR) <= {each.code for each in all_checks()}


@pytest.mark.parametrize("code", sorted({*ASKED_FOR, *(each.code for each in all_checks())}))
def test_each_code_has_good_and_bad_fixtures(code: str) -> None:
    missing = [kind for kind in ("good", "bad") if len([p for p in fixtures(kind) if p.parent.name == code]) < 2]
    assert not missing, f"{code} has fewer than two fixtures of: {', '.join(missing)}"


def test_no_folder_without_its_check() -> None:
    assert set(code_folders()) <= {each.code for each in all_checks()}


@pytest.mark.parametrize("check", all_checks(), ids=lambda check: check.code)
def test_a_check_says_all_six_things_in_order(check) -> None:  # type: ignore[no-untyped-def]
    paragraphs = [" ".join(each.split()) for each in check.doc.strip().split("\n\n")]
    opened = [p.partition(":")[0] for p in paragraphs if re.match(rf"({'|'.join(HEADINGS)}):", p)]
    assert tuple(opened) == HEADINGS
    assert paragraphs[0].startswith(HEADINGS[0])
    said = [p.partition(":")[2].strip() for p in paragraphs if p.partition(":")[0] in HEADINGS]
    assert all(len(words) >= 10 for words in said), "a heading with nothing behind it"
    assert check.title
    assert check.source


def test_a_code_is_used_once() -> None:
    codes = [entry.code for entry in catalogue()]
    assert codes == sorted(set(codes))


def test_the_catalogue_read_from_the_files_is_what_they_declare() -> None:
    """`explain` reads the files without importing them; both must say the same."""
    declared = {each.code: (each.severity, each.title, each.doc) for each in all_checks()}
    read = {entry.code: (entry.severity, entry.title, entry.doc) for entry in catalogue() if entry.code[0] != "R"}

    assert read == declared
    assert [entry.code for entry in catalogue("c01")] == ["C01"]
