"""One check asked about a job of a few lines."""

from __future__ import annotations

from pathlib import Path

from harness.checks import all_checks
from harness.checks.registry import run_checks
from harness.finding import Finding, Report
from harness.graph.wiring import Wiring
from harness.prove import prove
from tests.checks.marks import FOLDER, by_steps

# A plug of the radio's whose cavities the test writes.
LINK = """\
plugs:
  dash:
    place: behind the radio
    unit: radio
    face: {rows: 1, columns: 8, view: wire, latch: top, first: top left, count: across}
    CARRIES
    cavities: {CAVITIES}
"""


def found(code: str, wiring: Wiring) -> list[Finding]:
    """What one code finds, in its order."""
    check = next(each for each in all_checks() if each.code == code)
    return run_checks(wiring, [check])[0]


def told(code: str, wiring: Wiring) -> list[str]:
    """The messages of one code."""
    return [each.message for each in found(code, wiring)]


def alike(messages: list[str], parts: list[str]) -> None:
    """As many messages as parts, each with its part in it."""
    assert len(messages) == len(parts), messages
    for message, part in zip(messages, parts, strict=True):
        assert part in message


def whole_of(fixture: str) -> tuple[str, str, str, str, frozenset[str]]:
    """All that a fixture's first finding of its folder's code says; its contacts, which have no order."""
    path = FOLDER / f"{fixture}.yaml"
    report = prove(path, mends=False, steps=by_steps(path)).report
    told = next(each for each in report.findings if each.code == path.parent.name)
    places = "; ".join(f"{spot.place.line} {spot.name}" for spot in told.places)
    return places, told.message, told.do, " > ".join(told.path), frozenset(told.about)


def proved(folder: Path, job: str, records: tuple[str, ...]) -> Report:
    """What is told of a job with the records given, one a line."""
    path = folder / "job.yaml"
    path.write_text(job, encoding="utf-8")
    lines = "".join(f"- {{when: 2026-03-02 09:{at:02}, by: JM, {each}}}\n" for at, each in enumerate(records, 10))
    path.with_name("job.evidence.yaml").write_text(lines, encoding="utf-8")
    report = prove(path, mends=False).report
    assert report.verdict != "unreadable", [finding.message for finding in report.findings]
    return report


def recorded(folder: Path, code: str, records: tuple[str, ...], job: str) -> list[Finding]:
    """What one code finds in a job with the records given, one a line, in the order of its places."""
    report = proved(folder, job, records)
    return [each for each in report.findings if each.code == code]
