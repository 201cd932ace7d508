"""Every refusal at its line and column, written by hand beside each bad file.

In `refused/` a mark `# finds CODE:COLUMN …` stands on the line itself; where a remark can't stand, NAME.finds
holds one `CODE [FILE] LINE COLUMN` a line, each followed by its further places (`also …`) and by words that
message and advice must hold (`says …`).
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from harness.finding import Finding
from harness.place import Place
from harness.read.conform import conform
from harness.read.nodes import Table, read_file
from harness.read.parts import read_parts
from harness.read.refusals import REFUSALS
from harness.read.spec import JOB
from harness.read.troubles import Troubles

HERE = Path(__file__).parent / "refused"
FILES = sorted(HERE.glob("*.yaml"))

# written by the part of the reader that resolves names, or by the runner of the checks, and tested there
ELSEWHERE = {"R17", "R20", "R21", "R22", "R23", "R24", "R25", "R29", "R30"}


def findings_of(path: Path) -> list[Finding]:
    troubles = Troubles()
    node = read_file(path.name, troubles)
    if node is not None:
        bad = conform(node, JOB, troubles)
        if isinstance(node, Table):
            read_parts(node, troubles, bad)
    return troubles.findings


def _place(words: list[str], name: str) -> Place:
    *file, line, column = words
    return Place(file[0] if file else name, int(line), int(column))


def _expected(path: Path) -> tuple[list[tuple[str, Place]], list[list[Place]], list[list[str]]]:
    sidecar = path.with_suffix(".finds")
    found: list[tuple[str, Place]] = []
    also: list[list[Place]] = []
    says: list[list[str]] = []
    if sidecar.exists():
        for line in sidecar.read_text(encoding="utf-8").splitlines():
            word, _, rest = line.partition(" ")
            if word == "also":
                also[-1].append(_place(rest.split(), path.name))
            elif word == "says":
                says[-1].append(rest)
            else:
                found.append((word, _place(rest.split(), path.name)))
                also.append([])
                says.append([])
    else:
        for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
            mark = re.search(r"# finds ((?:R\d\d:\d+ ?)+)$", line)
            for code, column in re.findall(r"(R\d\d):(\d+)", mark[1] if mark else ""):
                found.append((code, Place(path.name, number, int(column))))
        assert found, f"{path.name} has neither marks nor a file beside it"
    return found, also, says


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_each_refusal_stands_where_it_was_marked(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(HERE)
    found = findings_of(path)
    expected, also, says = _expected(path)
    got = sorted((finding.code, finding.places[0].place) for finding in found)
    assert got == sorted(expected)
    for key, places, words in zip(expected, also, says, strict=False):
        finding = next(each for each in found if (each.code, each.places[0].place) == key)
        assert [spot.place for spot in finding.places[1:]] == places, finding
        for word in words:
            assert word in f"{finding.message} {finding.do}", finding


def test_every_code_of_the_catalogue_is_marked_somewhere() -> None:
    marked = {code for path in FILES for code, _ in _expected(path)[0]}
    assert set(REFUSALS) - ELSEWHERE <= marked
    assert marked <= set(REFUSALS)


def test_the_catalogue_explains_each_code() -> None:
    for code, refusal in REFUSALS.items():
        assert code == refusal.code
        heads = [line.split(":")[0] for line in refusal.doc.split("\n\n")]
        assert heads == [
            "What it looks for", "Why it matters", "Example", "What to do", "Known limits", "Source",
        ]  # fmt: skip


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_reading_twice_says_the_same(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(HERE)
    assert findings_of(path) == findings_of(path)
