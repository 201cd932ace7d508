"""What every finding must be beside its code and line: sentences, a way that can be walked, places told once.

The conductors are the job's own; no check is asked what it ought to say.
"""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import pytest

from harness.finding import Finding
from harness.graph.wiring import Wiring
from harness.prove import prove
from tests.checks.marks import by_steps, fixtures, named

# Codes whose finding may have no contact: what is told is no wire.
NO_CONTACT: dict[str, str] = {
    "C15": "a unit that is taken out", "C22": "the car", "F18": "the car", "F20": "the car", "F30": "the car",
    "J05": "a record", "J06": "a function", "J07": "a record", "J09": "a loom", "J10": "a unit", "J11": "records",
    "J12": "a function",
    "J18": "a step", "J19": "a step", "J20": "a record", "J21": "a function", "J27": "a signature",
    "J29": "a function",
}  # fmt: skip
# Codes whose way begins or ends elsewhere than at what is told.
BY_ANOTHER_WAY: dict[str, str] = {
    "C10": "the way by which the band comes, about are the speaker and the outputs it could come from",
    "C11": "the way of one signal, about is the sum", "F10": "the way to one of two grounds",
}  # fmt: skip
# Codes that speak of a stretch of cable, a hole, a bend or a function: it is named at its place, by what it is.
OF_A_PIECE: dict[str, str] = {
    "F02": "a stretch of cable", "F04": "a fuse", "F06": "a cable", "F11": "two fuses", "F15": "a hole",
    "F21": "a fuse", "G02": "untwisted wire", "G04": "a stub", "G08": "a place", "H05": "a place",
    "J06": "a function", "J12": "a function", "J21": "a function", "J26": "a joint", "J29": "a function",
    "J31": "a run",
}  # fmt: skip
ODD = re.compile(r"\bNone\b|\(\)|  | ,|,,| \.|\.\.$|\bTrue\b|\bFalse\b|\{|<|\bnan\b")


@cache
def proved(path: Path) -> tuple[Wiring, tuple[Finding, ...]]:
    proof = prove(path, mends=False, steps=by_steps(path))
    assert proof.wiring is not None
    return proof.wiring, tuple(proof.report.findings)


@pytest.fixture(params=fixtures("bad"), ids=named)
def told(request: pytest.FixtureRequest) -> tuple[Wiring, tuple[Finding, ...]]:
    return proved(request.param)


def test_whole_sentences(told: tuple[Wiring, tuple[Finding, ...]]) -> None:
    for finding in told[1]:
        for text in (finding.message, finding.do):
            assert not ODD.search(re.sub("`[^`]*`", "x", text)), text
            assert text[-1] in ".?`", text
            assert len(text.split()) >= 3, text


def test_a_way_can_be_walked(told: tuple[Wiring, tuple[Finding, ...]]) -> None:
    """From contact to contact by a conductor, or through one unit; no contact twice."""
    wiring, findings = told
    joined = {frozenset((each.a, each.b)) for each in wiring.conductors}
    for finding in findings:
        assert len(set(finding.path)) == len(finding.path), finding.path
        for a, b in zip(finding.path, finding.path[1:], strict=False):
            assert frozenset((a, b)) in joined or wiring.contact(a).owner == wiring.contact(b).owner, (a, b)
        if finding.path and finding.code not in BY_ANOTHER_WAY:
            assert set(finding.path) & set(finding.about), (finding.code, finding.path, finding.about)


def test_it_is_about_something_that_it_names(told: tuple[Wiring, tuple[Finding, ...]]) -> None:
    wiring, findings = told
    for finding in findings:
        known = [name for name in finding.about if name in wiring.job.contacts]
        assert known or finding.code in NO_CONTACT or finding.code == "G10", finding.code
        said = " ".join([finding.message, finding.do, *(spot.name for spot in finding.places)]).lower()
        owners = {wiring.contact(name).owner.lower() for name in known}
        if owners and finding.code not in OF_A_PIECE:
            assert any(owner in said for owner in owners), (finding.code, owners, said)


def test_no_place_twice_and_each_where_it_is_written(told: tuple[Wiring, tuple[Finding, ...]]) -> None:
    for finding in told[1]:
        assert len(set(finding.places)) == len(finding.places), finding.places
        for spot in finding.places:
            assert spot.name
            lines = Path(spot.place.file).read_text(encoding="utf-8").splitlines()
            assert lines[spot.place.line - 1].strip(), spot


def test_the_worst_first(told: tuple[Wiring, tuple[Finding, ...]]) -> None:
    severities = [finding.severity for finding in told[1]]
    assert severities == sorted(severities)
