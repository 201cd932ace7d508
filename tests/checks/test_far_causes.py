"""A cause is found where it lies, not only where it shows: each graph code has a bad fixture with a long way between.

Far is: the finding's path takes at least three conductors and passes an inline plug from one half to the other.
Which plugs are inline is read from the fixture itself.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest
import yaml

from harness.checks import all_checks
from harness.finding import Finding
from harness.prove import Proof, prove
from tests.checks.marks import by_steps, fixtures, named

CONDUCTORS = 3

# Codes that are told of one row, housing or entry: what they compare stands in one place, and no wire leads to it.
NO_WAY: dict[str, str] = {
    "A01": "a fact of the chart: the face of a plug is drawn without saying from which side",
    "A05": "a fact of the chart: two rows speak of one cavity",
    "A06": "a fact of the chart: two rows of one plug have one function",
    "A07": "a fact of the chart: a cavity that the housing has not",
    "A09": "a fact of the chart: two wires of one plug look alike",
    "A10": "a fact of the evidence: a colour that was seen",
    "A11": "a fact of the chart: a colour code that nobody explains",
    "A13": "a fact of the chart: the years that it is for",
    "A14": "a fact of the evidence: what was not toned",
    "A16": "a fact of the chart: a seat where a side of the car is meant",
    "B07": "a fact of the evidence: what a toning record doesn't say",
    "C21": "a fact of the evidence: what a toning record doesn't say",
    "C22": "a fact of the car: what is fitted in it",
    "F15": "a fact of one run: the hole that it goes through",
    "F18": "a fact of the car: what is written of its supply",
    "F20": "a sum over the whole car, and what its alternator gives",
    "F30": "a sum over the whole car, and what its converter gives",
    "J19": "a fact of the steps: what none of them does",
    "G10": "a fact of the steps: when a plug is pulled, and when power is on",
    "G06": "a fact of one run: what is written of the fibre",
    "G08": "a fact of places: where we work and where orange cables lie",
    "J02": "a fact of the chart: where it is from",
    "J03": "a fact of the evidence: what a reading doesn't say",
    "J04": "a fact of the evidence: what was built at one contact",
    "J05": "a fact of the evidence: what a handover doesn't say",
    "J06": "a fact of the evidence: what was not tried again",
    "J07": "a fact of the evidence: what a record rests on",
    "J09": "a fact of the store: what lies there",
    "J10": "a fact of one unit: the name of a file",
    "J11": "a fact of the evidence: which car it is of",
    "J12": "a fact of the evidence: who signed",
    "J20": "a fact of the evidence: that it was changed",
    "J21": "a fact of the evidence: what a trial found",
    "J22": "a fact of the evidence: what a meter read at one place",
    "J23": "a fact of the evidence: what a meter read at one place",
    "J24": "a fact of the evidence: what was built at one contact",
    "J25": "a fact of the evidence: what was built at one contact",
    "H02": "a fate: two entries of the plan speak of one contact",
    "H09": "a fact of one joint: what covers it",
    "H05": "a fact of one place: how far its joints lie apart",
    "H06": "a fact of one joint: its connector and the sizes in it",
    "H10": "a fact of the evidence: what nobody has seen of a terminal",
    "H16": "a fact of the housings: two ends that are plugged together don't fit",
}
# a fact of chart and evidence: the tones of a plug against its rows
TONES = ("A02", "A03", "A04", "A08", "A12", "A20", "A21", "A22", "A23", "A24", "A25")
NO_WAY |= dict.fromkeys(TONES, "tones against the rows of one plug")
# a fact of the evidence: what a record says, against the row, the unit or the function that it is about
RECORDS = (
    "J02", "J03", "J04", "J05", "J06", "J07", "J10", "J11", "J12", "J20", "J21", "J22", "J23",
    "J24", "J25", "J26", "J27", "J28", "J29", "J30", "J31",
)  # fmt: skip
NO_WAY |= dict.fromkeys(RECORDS, "what a record says, against what it is about")
GRAPH_CODES = sorted({check.code for check in all_checks()} - set(NO_WAY))


@cache
def proved(path: Path) -> Proof:
    return prove(path, mends=False, steps=by_steps(path))


def told(path: Path) -> tuple[Finding, ...]:
    return proved(path).report.findings


def inline_plugs(path: Path) -> set[str]:
    """The names under `inline:`, in small letters; a key may hold several."""
    written = yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.BaseLoader).get("inline", {})
    return {name.lower() for key in written for name in key.split()}


def is_far(way: tuple[str, ...], inline: set[str]) -> bool:
    halves = {tuple(contact.lower().split(".")[:2]) for contact in way}
    passed = any((name, "unit") in halves and (name, "car") in halves for name in inline)
    return len(way) > CONDUCTORS and passed


def ways_of(code: str) -> dict[str, list[tuple[str, ...]]]:
    """Fixture -> the paths of its findings of this code."""
    paths = [path for path in fixtures("bad") if path.parent.name == code]
    return {named(path): [each.path for each in told(path) if each.code == code] for path in paths}


@pytest.mark.parametrize("code", GRAPH_CODES)
def test_a_bad_fixture_has_its_cause_far_away(code: str) -> None:
    paths = [path for path in fixtures("bad") if path.parent.name == code]
    far = [
        path
        for path in paths
        if any(each.code == code and is_far(each.path, inline_plugs(path)) for each in told(path))
    ]
    assert far, f"no path of {code} is long enough: {ways_of(code)}"


@pytest.mark.parametrize("path", fixtures("bad"), ids=named)
def test_a_path_names_contacts_of_the_job_and_steps_on(path: Path) -> None:
    job = proved(path).job
    assert job is not None
    for finding in told(path):
        assert set(finding.path) <= set(job.contacts), finding.code
        assert all(a != b for a, b in zip(finding.path, finding.path[1:], strict=False)), finding.code


def test_the_codes_without_a_way_are_codes_and_have_none() -> None:
    """One that learns to tell a path belongs to the others."""
    assert set(NO_WAY) <= {check.code for check in all_checks()}
    assert not {code for code in NO_WAY if any(way for ways in ways_of(code).values() for way in ways)}


@pytest.mark.parametrize(
    ("way", "far"),
    [
        (("spk.C+", "C1.car.1", "C1.unit.1", "kick.car.1"), True),
        (("C1.car.1", "C1.unit.1", "kick.car.1"), False),  # two conductors
        (("spk.C+", "C1.car.1", "C1.car.2", "kick.car.1"), False),  # at the plug, not through it
        (("spk.C+", "dash.car.1", "dash.unit.1", "radio.C+"), False),  # no inline plug
    ],
)
def test_what_far_means(way: tuple[str, ...], far: bool) -> None:
    assert is_far(way, {"c1"}) is far
