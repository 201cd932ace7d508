"""A restraint plug in the order of work: which plug is one, and when pulling it is told.

The 90 s are a workshop manual's, maker withheld.
"""

from __future__ import annotations

import pytest

from harness.finding import Finding
from harness.prove import prove_text
from tests.checks.marks import FOLDER

JOB, _, _ = (FOLDER / "G10/bad_plain.yaml").read_text(encoding="utf-8").partition("steps:\n")
JOB += "steps:\n"
SRS, GROUND = "    carries: SRS\n", "cavities: {1: SRS YE, 2: GND BK}"
WAITED, OFF, ON = (
    "power: key off, battery negative off, then wait",
    "power: battery negative off",
    "power: battery negative on",
)
PULL, PUT, KEY = "unplug: seat", "mate: seat", "power: battery negative on, then key on"


def told(job: str, *steps: str) -> list[tuple[int, Finding]]:
    """Each G10 with the number of its step."""
    text = job + "".join(f"  - {step}\n" for step in steps)
    report = prove_text(text, "job.yaml", steps=True).report
    assert report.verdict != "unreadable", [finding.message for finding in report.findings]
    found = [each for each in report.findings if each.code == "G10"]
    return sorted(((each.places[0].place.line - job.count("\n"), each) for each in found), key=lambda each: each[0])


@pytest.mark.parametrize(
    ("carries", "cavities", "at"),
    [
        # by either of the two, by both, by neither
        (SRS, GROUND, [1]), (SRS, "cavities: {1: unknown YE, 2: GND BK}", [1]), ("", GROUND, [1]),
        ("", "cavities: {1: ILL YE, 2: GND BK}", []), ("    carries: HV\n", "cavities: {1: ILL YE, 2: GND BK}", []),
    ],
)  # fmt: skip
def test_which_plug_is_one(carries: str, cavities: str, at: list[int]) -> None:
    job = JOB.replace(SRS, carries).replace(GROUND, cavities)
    assert [number for number, _ in told(job, PULL, WAITED, PUT, KEY)] == at


OPEN = "In step {} (power) the key is on with seat, a restraint plug, open: its lamp stays on"


@pytest.mark.parametrize(
    ("steps", "parts"),
    [
        # waited, not waited, with the battery on; another plug, or none
        ((WAITED, PULL, PUT, KEY), {}), ((WAITED, "unplug: dash", "mate: dash", KEY), {}), ((KEY,), {}),
        ((PULL, PUT), {1: "Step 1 (unplug) pulls or mates seat, a restraint plug, with battery on"}),
        ((OFF, f"{PULL}, wait 89 s"), {2: "restraint plug, 89 s after the battery went off, at least 90 s: a charge"}),
        ((OFF, f"{PULL}, wait 90 s"), {}),
        # once between two switchings of the battery, and again behind the next
        ((PULL, PUT, PULL, PUT), {1: "pulls or mates seat"}),
        ((PULL, WAITED, PUT, ON, PULL), {1: "pulls or mates seat", 5: "pulls or mates seat"}),
        # open with the key on, told once for each time it is on; as it is mated then, so it was pulled
        ((WAITED, PULL, KEY), {3: OPEN.format(3)}),
        ((WAITED, PULL, KEY, WAITED, KEY), {3: OPEN.format(3)}),
    ],
)  # fmt: skip
def test_when_it_is_pulled(steps: tuple[str, ...], parts: dict[int, str]) -> None:
    found = told(JOB, *steps)
    assert [number for number, _ in found] == list(parts)
    for number, finding in found:
        assert parts[number] in finding.message
