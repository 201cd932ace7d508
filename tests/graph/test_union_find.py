"""Nets, opens and unused leads of 500 random jobs, against a second reading of the text by union-find."""

from __future__ import annotations

from pathlib import Path

import pytest

from harness.graph.fates import LOOSE, ONE_END, OPEN
from harness.graph.state import State
from harness.graph.wiring import Wiring
from harness.read.job import read_job
from harness.read.troubles import Troubles
from tests.graph.oracle import Answer, Reading
from tests.graph.random_jobs import random_job

JOBS = 500
BATCH = 25


def wiring_of(text: str, folder: Path) -> Wiring:
    path = folder / "job.yaml"
    path.write_text(text, encoding="utf-8")
    troubles = Troubles()
    job = read_job(path, troubles)
    refused = [f"{f.code} line {f.places[0].place.line}: {f.message}" for f in troubles.findings]
    assert job is not None, refused
    assert not troubles.refused, refused
    return Wiring(job)


def nets_of(state: State) -> set[frozenset[str]]:
    """Nets without the points between a fuse and its wires, which have no name in the file."""
    nets = (frozenset(name for name in net if not name.startswith("run.")) for net in state.nets)
    return {net for net in nets if net}


def assert_same_nets(state: State, answer: Answer, what: str) -> None:
    mine = nets_of(state)
    extra = {net for net in mine if net.isdisjoint(answer.contacts)}
    assert all(len(net) == 1 for net in extra), f"{what}: nets that the text knows nothing of: {extra}"
    assert mine - extra == answer.nets, (
        f"{what}: only in the tool {_some(mine - extra - answer.nets)}; only in the text {_some(answer.nets - mine)}"
    )


def _some(nets: set[frozenset[str]]) -> list[list[str]]:
    return sorted(sorted(net) for net in nets)[:6]


def fates_of(wiring: Wiring) -> tuple[set[tuple[str, str]], set[tuple[str, str]], set[str]]:
    parts = wiring.job.parts
    opens, one_ended = set(), set()
    for plug in parts.plugs:
        for each in wiring.fates.cavities(plug):
            if each.fate == OPEN:
                opens.add((plug, each.row.cavity))
            elif each.fate == ONE_END:
                one_ended.add((plug, each.row.cavity))
    loose = [each.lead.name for owner in (*parts.looms, *parts.units) for each in wiring.fates.leads(owner)
             if each.fate == LOOSE]  # fmt: skip
    assert len(loose) == len(set(loose))
    return opens, one_ended, set(loose)


def compare(text: str, folder: Path) -> Answer:
    reading = Reading(text)
    planned, found = reading.as_planned(), reading.as_found()
    wiring = wiring_of(text, folder)
    assert_same_nets(wiring.found, found, "as found")
    assert_same_nets(wiring.planned, planned, "as planned")
    opens, one_ended, loose = fates_of(wiring)
    _assert_equal(opens, planned.open_cavities, "open")
    _assert_equal(one_ended, planned.one_ended, "used at one end")
    _assert_equal(loose, planned.loose_leads, "loose leads")
    return planned


def _assert_equal(mine: set, theirs: set, what: str) -> None:
    assert mine == theirs, f"{what}: only in the tool {sorted(mine - theirs)}; only in the text {sorted(theirs - mine)}"


@pytest.mark.parametrize("start", range(0, JOBS, BATCH))
def test_a_second_reading_agrees(start: int, tmp_path: Path) -> None:
    for seed in range(start, start + BATCH):
        try:
            compare(random_job(seed), tmp_path)
        except AssertionError as wrong:
            raise AssertionError(f"seed {seed}: {wrong}") from wrong


def test_the_random_jobs_are_worth_reading() -> None:
    """Each kind of thing occurs often enough that agreement says something."""
    counts = dict.fromkeys(("opens", "one ended", "loose", "large nets"), 0)
    texts = [random_job(seed) for seed in range(60)]
    for text in texts:
        answer = Reading(text).as_planned()
        counts["opens"] += len(answer.open_cavities)
        counts["one ended"] += len(answer.one_ended)
        counts["loose"] += len(answer.loose_leads)
        counts["large nets"] += sum(1 for net in answer.nets if len(net) > 3)
    assert min(counts.values()) > 60, counts
    words = ("reversed", "through: {", "own-1", "moved:", "cut:", "depinned:", "capped:", "removed:", "> fuse",
             "separate", "C204.", "[T1", "to: ", "..", "mate:", "car: Famp", "bonds:")  # fmt: skip
    assert {word for word in words if sum(word in text for text in texts) < 5} == set()


def test_the_same_seed_writes_the_same_job() -> None:
    assert random_job(7) == random_job(7) != random_job(8)
