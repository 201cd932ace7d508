"""No smaller change does: every change of the text, and sets of them, tried against the judgement of all checks.

What counts as a change, where it may be made and how it is written is worked out in `writing`, from the text.
"""

from __future__ import annotations

import re
from functools import cache
from itertools import combinations
from pathlib import Path

import pytest

from harness.checks import all_checks
from harness.finding import Finding, Severity
from harness.prove import Proof, prove
from tests.checks.marks import fixtures, named
from tests.mend.applying import BY_THE_CHART, beside, loses, place_of, proved, read, told
from tests.mend.writing import Op, Written

MOST_JOINTS = 12
MOST_ALONE = 35  # changes of which every pair is tried; of more, the pairs near the finding
MOST_PAIRS = 700


# Codes that no joint, cut, mate or fate can mend: what undoing one would clear is the thing itself.
NOT_BY_JOINTS = {
    **dict.fromkeys(
        ("A10", "A17", "A18", "A19", "C27", "D05", "E06", "E11", "G09", "H10", "H15", "J02", "J03", "J04", "J05", "J06",
         "J07", "J10", "J11", "J12", "J20", "J21", "J22", "J23", "J24", "J25",
         "J26", "J27", "J28", "J29", "J30", "J31"), "what a record says of the car",
    ),
    "J09": "a loom to wait for",
    "B07": "a polarity to find", "B09": "a routing table", "C06": "a level", "C07": "a level", "C10": "a band",
    "C08": "a level to read", "C09": "a step to find", "C12": "a volume to make", "C16": "a way to wake",
    "C11": "a delay", "C19": "a load to fit", "C21": "a tone to take",
    "D01": "ohms", "D02": "ohms", "D03": "a capacitor to fit", "D06": "a size", "D08": "a setting",
    "C26": "a setting", "C28": "a setting", "D09": "a setting", "E15": "a setting",
    "E01": "a source to choose", "E02": "a source to choose", "E03": "a source to choose", "E04": "a source to choose",
    "E05": "a relay to fit", "E08": "a wire to lay", "E09": "a module to fit", "E10": "a fuse to fit",
    "E12": "a source to choose", "E13": "a source to choose", "E14": "a diode to fit",
    "F01": "a fuse to fit", "F02": "a length", "F03": "a rating", "F04": "a rating", "F05": "a fuse to fit",
    "F06": "a size", "F07": "a rating", "F08": "a size", "F11": "one fuse for two", "F12": "a fuse to leave out",
    "F13": "a cable to lay", "F14": "a feed to choose", "F15": "a grommet to fit", "F17": "a ground to lay",
    "F18": "a figure to ask for", "F21": "a rating to read", "F27": "a cable to lay", "F28": "a ground to lay",
    "F29": "a size", "F31": "a length", "F30": "a power", "G02": "a length", "G04": "a length", "G06": "a radius",
    "G08": "a place", "H09": "a cover", "H05": "a length", "H06": "a size",
    "H11": "a list to read", "H13": "a wire to leave whole",
    "G10": "an order", "J13": "an order", "J14": "an order", "J15": "an order", "J16": "an order", "J17": "an order",
    "J18": "an order", "J19": "an order",
    "C27": "what was heard", "E06": "a joint to make anew", "E11": "a feed to find",
    "J02": "a source to write", "J03": "a reading to take", "J04": "a record", "J05": "a record", "J06": "a trial",
    "J07": "a record", "J10": "a file to keep", "J11": "a record", "J12": "a signature", "J20": "a record",
    "J21": "a trial", "J22": "a reading to take", "J23": "a reading to take",
    "J24": "a record", "J25": "a record",
} | dict.fromkeys(BY_THE_CHART, "a chart")  # fmt: skip


@cache
def with_mends(path: Path) -> Proof:
    return prove(path)


def to_try(path: Path) -> list[Finding]:
    """Findings for which something smaller, or something at all, could be missing."""
    proof = with_mends(path)
    if proof.wiring is None or proof.job is None or len(proof.job.joints) > MOST_JOINTS:
        return []
    return [
        finding
        for finding in proof.report.findings
        if finding.severity <= Severity.FIX
        and finding.code not in NOT_BY_JOINTS
        and not turned_inside(path, finding)
        and (finding.mend is None or finding.mend.changes > 1 or finding.mend.words.startswith("Loses"))
    ]


def turned_inside(path: Path, finding: Finding) -> bool:
    """Whether the finding stands at a route that says `inverted`: a setting, which no second reversal mends."""
    line = read(path).splitlines()[finding.places[0].place.line - 1]
    return finding.code in ("B01", "B05") and re.match(r" +\S+: [a-z]+[0-9].* inverted\b", line) is not None


def test_a_route_that_turns_is_not_answered_by_a_second_reversal() -> None:
    path = next(each for each in fixtures("bad") if str(each).endswith("B01/bad_route_inverted.yaml"))
    (finding,) = [each for each in with_mends(path).report.findings if each.code == "B01"]
    assert turned_inside(path, finding)
    assert finding.mend is None
    assert finding.do.startswith("Take `inverted` off the route out1 of dsp")


class Judge:
    """Tries changes of one fixture's text, each text once."""

    def __init__(self, path: Path, folder: Path) -> None:
        self.job = beside(path, folder)
        self.written = Written(read(self.job))
        self.before = prove(self.job, mends=False)
        self.known = told(self.before.report, self.job.name)
        self.seen: dict[str, tuple[Proof, tuple[int, ...]]] = {}

    def clears(self, finding: Finding, ops: tuple[Op, ...]) -> set[str] | None:
        """What the changes lose, where they clear the finding and do no harm; else None."""
        made = self.written.with_changes(ops)
        if made is None:
            return None
        text, lines = made
        if text not in self.seen:
            self.seen[text] = (proved(self.job, text), lines)
        after, lines = self.seen[text]
        if after.report.verdict == "unreadable":
            return None
        there = told(after.report, self.job.name, lines)
        there[place_of(finding, self.job.name)] += 1
        return loses(self.before, after) if there <= self.known else None


def contradicts(finding: Finding, size: int, lost: set[str]) -> bool:
    """Whether a set of changes of that size that works should have been the mend."""
    mend = finding.mend
    if mend is None:
        return True
    if mend.words.startswith("Loses"):
        return not lost or size < mend.changes
    return not lost and size < mend.changes


@pytest.mark.parametrize("path", fixtures("bad"), ids=named)
def test_nothing_smaller_does(path: Path, tmp_path: Path) -> None:
    judge = Judge(path, tmp_path)
    smaller = []
    for finding in to_try(path):
        for ops in sets_to_try(judge.written, finding, lines_near(path, finding)):
            lost = judge.clears(finding, ops)
            if lost is not None and contradicts(finding, len(ops), lost):
                smaller.append((finding.code, finding.places[0].place.line, finding.mend, ops, lost))
    assert not smaller, "\n".join(map(str, smaller[:12]))


def lines_near(path: Path, finding: Finding) -> set[int]:
    """The lines that the finding names, and those of every joint on the nets of its path."""
    proof = with_mends(path)
    assert proof.job is not None
    assert proof.wiring is not None
    number = proof.wiring.planned.net_number
    nets = {number(contact) for contact in finding.path}
    joined = {j.place.line for j in proof.job.joints for link in j.links for end in link if number(end) in nets}
    return {spot.place.line for spot in finding.places} | joined


def sets_to_try(written: Written, finding: Finding, lines: set[int]) -> list[tuple[Op, ...]]:
    """All single changes; where a pair could be smaller, all pairs or those near; likewise triples of the nearest."""
    ops = written.ops()
    made: list[tuple[Op, ...]] = [(op,) for op in ops]
    mend = finding.mend
    if mend is None or mend.changes > 2 or mend.words.startswith("Loses"):
        here = [op for op in ops if written.line_of(op) in lines]
        made += list(combinations(ops if len(ops) <= MOST_ALONE else here, 2))[:MOST_PAIRS]
        if mend is not None and mend.changes > 3:
            made += list(combinations(here, 3))[:MOST_PAIRS]
    return made


def test_what_no_joint_mends_says_what_a_person_must_do() -> None:
    assert {check.code for check in all_checks() if not check.by_joints} == NOT_BY_JOINTS.keys()
    for path in fixtures("bad"):
        for finding in with_mends(path).report.findings:
            if finding.code in NOT_BY_JOINTS:
                assert finding.mend is None or finding.code in BY_THE_CHART, named(path)
                assert finding.do, named(path)


def test_the_search_by_force_finds_what_is_known(tmp_path: Path) -> None:
    """Force finds a reversal that is one row's, and two joints exchanged; else it would prove nothing."""
    found = {}
    for name, size in (("B01/bad_output_turned.yaml", 1), ("B06/bad_minus_wires_exchanged.yaml", 2)):
        path = next(each for each in fixtures("bad") if str(each).endswith(name))
        folder = tmp_path / name.partition("/")[0]
        folder.mkdir()
        judge = Judge(path, folder)
        finding = next(each for each in with_mends(path).report.findings if each.mend)
        ops = judge.written.ops()
        rows = [op for op in ops if op[0] in ("turn", "move") and (size == 1 or op[-1] in ("dsp.out1-", "dsp.out2-"))]
        found[name] = [pair for pair in combinations(rows, size) if judge.clears(finding, pair) == set()]
    assert all(found.values()), found
