"""What lies between two wires of a plug that is pulled, in 60 random jobs, against a union-find over the text.

The second reading of tests/graph/oracle.py says what meets what as found; which speakers a meter then reads, side by
side or in line, is walked here from net to net. No outside source.
"""

from __future__ import annotations

import random
from collections import Counter

import pytest

from harness.graph import readings
from harness.graph.wiring import Wiring
from harness.model.evidence import Record
from harness.place import Place
from harness.read.job import read_job_text
from harness.read.troubles import Troubles
from tests.graph.oracle import Meeting, Reading
from tests.graph.random_jobs import random_job

JOBS, BATCH, ASKED = 60, 15, 6
Line = tuple[str, ...]


def between(wiring: Wiring, a: str, b: str, unplugged: str) -> readings.Between:
    said = (("reads", "3 ohm"), ("unplugged", unplugged))
    record = Record("ohm", f"{a}/{b}", (a, b), "", "", said, Place("job.evidence.yaml", 1, 1))
    return readings.between(wiring, readings.Reading(record, (a, b), 3.0, "3 ohm"), a, b)


def coils(text: Reading) -> list[tuple[str, str, str]]:
    """(speaker, +, −) of every speaker or coil."""
    made = []
    for plus in sorted(name for name in text.contacts if name.startswith("spk.") and name.endswith("+")):
        made.append((plus.split(".")[1].rstrip("+"), plus, plus[:-1] + "-"))
    return made


def lines(text: Reading, nets: Meeting, a: str, b: str, without: set[str]) -> list[tuple[Line, int]]:
    """Each way from one net to the other over speakers: their names in order, and the sign of the first."""
    start, goal, made = nets.top(a), nets.top(b), []
    there = [each for each in coils(text) if each[0] not in without]

    def walk(here: str, way: Line, used: tuple[str, ...], sign: int) -> None:
        for name, plus, minus in there:
            for one, other, way_in in ((plus, minus, 1), (minus, plus, -1)):
                if nets.top(one) != here or plus in used:
                    continue
                far, first = nets.top(other), sign or way_in
                if far == goal:
                    made.append(((*way, name), first))
                elif far != start and len(way) < 7:
                    walk(far, (*way, name), (*used, plus), first)

    if start != goal:
        walk(start, (), (), 0)
    return made


@pytest.mark.parametrize("start", range(0, JOBS, BATCH))
def test_a_second_look_at_what_is_between_two_wires_agrees(start: int) -> None:
    for seed in range(start, start + BATCH):
        text, troubles, dice = random_job(seed), Troubles(), random.Random(seed)
        job = read_job_text(text, "job.yaml", troubles)
        assert job is not None, troubles.findings
        wiring, reading = Wiring(job), Reading(text)
        for plug, cavities in reading.cavities.items():
            nets = reading._car(set(), {(plug, cavity) for cavity in cavities})
            pairs = [(f"{plug}.car.{a}", f"{plug}.car.{b}") for a in cavities for b in cavities if a != b]
            full = [ends for ends in pairs if lines(reading, nets, *ends, set())]
            for ends in (*dice.sample(full, min(ASKED, len(full))), *dice.sample(pairs, min(2, len(pairs)))):
                gone = dice.choice(["", "", *(each[0] for each in coils(reading))])
                if nets.top("chassis") not in (nets.top(ends[0]), nets.top(ends[1])):  # the end of both wires
                    agree(between(wiring, *ends, f"{plug} {gone}".strip()), reading, nets, ends, gone)


def agree(made: readings.Between, reading: Reading, nets: Meeting, ends: tuple[str, str], gone: str) -> None:
    where = f"{reading.top['title']}: {ends} without {gone}"
    assert made.one_wire is (nets.top(ends[0]) == nets.top(ends[1])), where
    wanted = lines(reading, nets, *ends, {gone})
    found = Counter(tuple(sorted(each.name for each in branch)) for branch in made.branches)
    assert found == Counter(tuple(sorted(way)) for way, _ in wanted), where
    nominal = [len(way) * 4 for way, _ in wanted]
    if nominal and all(not name.startswith("SUB") for way, _ in wanted for name in way):
        # 4 ohm each, in line added, side by side 1/R = sum of 1/R; a coil's DC is 0.62 to 1.0 of it (test_contrary)
        ohm = 1 / sum(1 / each for each in nominal)
        low, high = made.expected.low_ohm, made.expected.high_ohm
        assert (low, high) == (pytest.approx(0.62 * ohm, rel=0.01), pytest.approx(ohm, rel=0.01)), where


def test_such_pairs_have_speakers_between_them() -> None:
    """Often enough for the agreement to say something."""
    counted: Counter[int] = Counter()
    for seed in range(20):
        reading = Reading(random_job(seed))
        for plug, cavities in reading.cavities.items():
            nets = reading._car(set(), {(plug, cavity) for cavity in cavities})
            for a in cavities:
                for b in cavities:
                    counted[len(lines(reading, nets, f"{plug}.car.{a}", f"{plug}.car.{b}", set()))] += a < b
    assert counted[1] > 40
    assert counted[2] > 4
