"""Every mend, put into the file line by line, clears its finding and does no harm."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import pytest

from harness.finding import Finding, Severity
from harness.prove import prove
from tests.checks.marks import fixtures, named
from tests.mend.applying import BY_THE_CHART, ROOT, applied, beside, loses, place_of, proved, read, told

JOBS = [*fixtures("bad"), *sorted((ROOT.parent / "samples").glob("*-*.yaml"))]
SECTIONS = ("joints", "cut", "capped", "depinned", "removed", "moved")


@cache
def mended(path: Path) -> tuple[Finding, ...]:
    return tuple(finding for finding in prove(path).report.findings if finding.mend is not None)


@pytest.mark.parametrize("path", JOBS, ids=named)
def test_the_finding_goes_and_nothing_comes(path: Path, tmp_path: Path) -> None:
    job = beside(path, tmp_path)
    text = read(job)
    before = prove(job, mends=False)
    known = told(before.report, job.name)
    for finding in mended(path):
        assert finding.mend is not None
        after_text, lines = applied(text, finding.mend.edits)
        after = proved(job, after_text)
        assert after.report.verdict != "unreadable", (finding.mend, after.report.findings)
        there = told(after.report, job.name, lines)
        there[place_of(finding, job.name)] += 1
        assert there <= known, (finding.code, finding.mend, there - known)
        lost = loses(before, after)
        if lost:
            first, _, _ = finding.mend.words.partition(": ")
            assert first.startswith("Loses "), (finding.mend.words, lost)
            for name in lost:
                assert any(re.search(rf"\b{re.escape(word)}\b", first) for word in _words_for(name)), (first, name)


def _words_for(name: str) -> list[str]:
    """A lost contact may be told as itself, as its pair, or as its whole unit."""
    return [name, name.rstrip("+-"), name.partition(".")[0]] if not name.startswith("spk.") else [name]


@pytest.mark.parametrize("path", JOBS, ids=named)
def test_only_lines_of_the_plan_change_and_comments_stay(path: Path) -> None:
    lines = read(path).split("\n")
    owner = {}
    section = ""
    for number, line in enumerate(lines, 1):
        match = re.match(r"([\w]+)\s*:", line)
        section = match[1] if match else section
        owner[number] = section
    for finding in mended(path):
        assert finding.mend is not None
        assert finding.mend.edits
        for edit in finding.mend.edits:
            assert edit.place.file == str(path)
            assert edit.place.column == 1
            if edit.old:
                assert edit.old == lines[edit.place.line - 1]
                assert owner[edit.place.line] in (("plugs",) if finding.code in BY_THE_CHART else SECTIONS)
                assert not edit.old.lstrip().startswith("#")
                comment = re.search(r"\s#.*$", edit.old)
                if edit.new and comment:
                    assert edit.new.endswith(comment[0])
            else:
                assert edit.new.strip()


@pytest.mark.parametrize("path", JOBS, ids=named)
def test_the_words_are_a_sentence_and_the_count_is_of_changes(path: Path) -> None:
    for finding in mended(path):
        assert finding.mend is not None
        assert finding.severity <= Severity.FIX
        words = finding.mend.words
        assert words[0].isupper()
        assert words.endswith(".")
        assert "\n" not in words
        assert finding.mend.changes >= 1


def test_some_mends_are_there() -> None:
    """The tests above would pass on a tool without mends."""
    assert sum(len(mended(path)) for path in JOBS) >= 60


def test_looking_twice_gives_the_same() -> None:
    for path in JOBS[::7]:
        assert prove(path).report == prove(path).report
