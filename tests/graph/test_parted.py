"""Wires with something unplugged, against networkx on the same conductors, and how much is walked for many readings."""

from __future__ import annotations

import random
from itertools import pairwise
from pathlib import Path

import networkx as nx
import pytest

from harness.graph.answering import branches_between
from harness.graph.conductor import FOUND, PLANNED, Conductor
from harness.graph.parted import wires_of
from harness.graph.readings import body_readings, pair_readings
from harness.graph.speaker_readings import speaker_readings
from harness.model.contact import CHASSIS
from harness.model.parts import Speaker
from tests.graph.random_jobs import random_job
from tests.graph.test_union_find import wiring_of


# oracle: connected components of networkx, the body and what is cut taken out before
@pytest.mark.parametrize("seed", range(30))
def test_reach_is_the_component_without_the_body(seed: int, tmp_path: Path) -> None:
    wiring, dice = wiring_of(random_job(seed), tmp_path), random.Random(seed)
    for state, bit in ((wiring.found, FOUND), (wiring.planned, PLANNED)):
        there = [each for each in wiring.conductors if each.states & bit]
        contacts = [name for name in wiring.job.contacts if name != CHASSIS]
        for most in (0, 1, 3, 12):
            cut = frozenset(dice.sample(there, min(most, len(there))))
            graph = nx.Graph()
            graph.add_nodes_from(contacts)
            rest = [each for each in there if each not in cut]
            graph.add_edges_from((each.a, each.b) for each in rest if CHASSIS not in (each.a, each.b))
            grounded = {end for each in there if CHASSIS in (each.a, each.b) for end in (each.a, each.b)}
            near = dict.fromkeys(end for each in cut for end in (each.a, each.b) if end != CHASSIS)
            for start in (*near, *dice.sample(contacts, min(4, len(contacts)))):
                reach = wires_of(wiring, state).reach(start, cut)
                component = nx.node_connected_component(graph, start)
                assert {name for name in contacts if reach.has(name)} == component
                assert reach.has(CHASSIS) == bool(grounded & component)
                units = {name for name in component if wiring.contact(name).kind == "unit"}
                assert set(reach.units) == units


PLUG = """\
  p{0}:
    place: behind the radio
    face: {{rows: 2, columns: 8, view: wire, latch: top, first: top left, count: across}}
    source: {{chart: bench sheet 1, date: 2026-03-02, by: JM}}
    cavities:
      1/9: FL WH WH/BK
"""
READING = "- {{when: 2026-03-02 09:40, by: JM, ohm: p{0}.car.1/9, reads: 3.6 ohm, body: 0.4 ohm, unplugged: p{0}}}\n"


def many_plugs(count: int) -> tuple[str, str]:
    """A job whose plugs all hang on one speaker, and a reading at each."""
    plugs = "".join(PLUG.format(at) for at in range(count))
    found = "".join(f"  - p{at}.FL > spk.FL\n" for at in range(count))
    head = "ringout: 1\ntitle: many plugs\ncar: {name: Bench hatch, year: 2022, steering: left}\nplugs:\n"
    job = f"{head}{plugs}speakers:\n  FL: {{place: doors, nominal: 4 ohm}}\nfound:\n{found}"
    return job, "".join(READING.format(at) for at in range(count))


# one net for all plugs: four times the readings may be four times the walking, not sixteen times; half as much again
# is allowed
def test_readings_at_one_net_grow_with_their_number(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    steps = 0
    plain = Conductor.other

    def counted(conductor: Conductor, contact: str) -> str:
        nonlocal steps
        steps += 1
        return plain(conductor, contact)

    monkeypatch.setattr(Conductor, "other", counted)
    walked = []
    for count in (25, 100):
        steps = 0
        folder = tmp_path / str(count)
        folder.mkdir()
        job, readings = many_plugs(count)
        (folder / "job.evidence.yaml").write_text(readings, encoding="utf-8")
        wiring = wiring_of(job, folder)
        assert len(pair_readings(wiring)) == len(body_readings(wiring)) == len(speaker_readings(wiring)) == count
        walked.append(steps)
    assert 0 < walked[1] < 6 * walked[0]


def test_a_state_is_walked_as_it_is(tmp_path: Path) -> None:
    wiring = wiring_of(many_plugs(3)[0], tmp_path)
    wires = wires_of(wiring, wiring.found)
    (mated,) = (each for each in wiring.conductors if {each.a, each.b} == {"p0.car.1", "p0.unit.1"})
    car, unit = (wires.reach(name, frozenset({mated})) for name in ("p0.car.1", "p0.unit.1"))
    # pulled: the unit half alone, the car half with the speaker and the two other plugs
    assert (unit.has("spk.FL+"), car.has("spk.FL+"), car.has("p1.unit.1"), car.meets(unit)) == (
        False,
        True,
        True,
        False,
    )
    whole = wires.reach("p0.unit.1", frozenset())
    assert (whole.has("spk.FL+"), whole.has("spk.FL-")) == (True, False)


COMMON = """\
ringout: 1
title: Two speakers on one return wire
plugs:
  dash:
    unit: radio
    cavities:
      1/2: FL WH WH/BK
      3: FR+ GY
      4: FR- GY/BK
units:
  radio: {kind: radio, outputs: {FL FR: btl}}
speakers:
  FL: {nominal: 4 ohm}
  FR: {nominal: 8 ohm}
found:
  - dash.2 > spk.FL-
  - dash.2 > spk.FR+
  - dash.1 > spk.FL+
  - dash.3 > spk.FR-
"""


# by hand, on the drawing: from 1 one goes in at FL's + and out at its − to 2; from 2 in at FR's + and out at its − to
# 3; from 1 to 3 it is FL then FR, both the right way round; asked the other way about, all are turned
@pytest.mark.parametrize(
    ("plus", "minus", "branch", "signs"),
    [
        ("1", "2", [["FL"]], {"FL": 1}),
        ("2", "1", [["FL"]], {"FL": -1}),
        ("2", "3", [["FR"]], {"FR": 1}),
        ("3", "2", [["FR"]], {"FR": -1}),
        ("1", "3", [["FL", "FR"]], {"FL": 1, "FR": 1}),
        ("3", "1", [["FR", "FL"]], {"FL": -1, "FR": -1}),
        ("1", "4", [], {}),
    ],
)
def test_speakers_between_two_wires(
    plus: str, minus: str, branch: list[list[str]], signs: dict[str, int], tmp_path: Path
) -> None:
    wiring = wiring_of(COMMON, tmp_path)
    wires = wires_of(wiring, wiring.found)
    a, b = (wires.reach(f"dash.car.{each}", frozenset()) for each in (plus, minus))
    branches, answers = branches_between(wiring, a, b, frozenset())
    assert [[speaker.name for speaker in each] for each in branches] == branch
    assert {each.speaker: each.sign for each in answers} == signs
    assert all(each.in_line == (len(signs) > 1) for each in answers)


BENCH = """\
ringout: 1
title: Speakers between two wires
plugs:
  dash:
    unit: radio
    cavities: {{1/2: FL WH WH/BK}}
units:
  radio: {{kind: radio, outputs: {{FL: btl}}}}
speakers:
  {names}: {{nominal: 4 ohm}}
grounds: {{G1: {{place: floor}}, G2: {{place: sill}}, G3: {{place: boot}}, G4: {{place: roof}}}}
found:
"""
NAMES = [f"s{at}" for at in range(1, 34)]


def between_one_and_two(chains: list[str], folder: Path, *, turned: bool = False) -> tuple[list[str], dict[str, int]]:
    """The branches from cavity 1 to 2 (`turned`: from 2 to 1) by their speakers, and each one's sign."""
    text = BENCH.format(names=" ".join(NAMES)) + "".join(f"  - {each}\n" for each in chains)
    wiring = wiring_of(text, folder)
    wires = wires_of(wiring, wiring.found)
    a, b = (wires.reach(f"dash.car.{each}", frozenset()) for each in ("21" if turned else "12"))
    branches, answers = branches_between(wiring, a, b, frozenset())
    for each in answers:
        assert each.in_line is any(len(branch) > 1 and each.speaker in names_of(branch) for branch in branches)
    return [" ".join(names_of(branch)) for branch in branches], {each.speaker: each.sign for each in answers}


def names_of(branch: list[Speaker]) -> list[str]:
    return [speaker.name for speaker in branch]


# the second is turned: from 1 its − comes first
THREE = ["dash.1 > spk.s1+", "spk.s1- > spk.s2-", "spk.s2+ > spk.s3+", "spk.s3- > dash.2"]


@pytest.mark.parametrize(
    ("more", "turned", "branches", "signs"),
    [
        ([], False, ["s1 s2 s3"], {"s1": 1, "s2": -1, "s3": 1}),
        ([], True, ["s3 s2 s1"], {"s1": -1, "s2": 1, "s3": -1}),
        # one more hangs with one wire on 1, or on 2: it lies between nothing
        (["dash.1 > spk.s4+"], False, ["s1 s2 s3"], {"s1": 1, "s2": -1, "s3": 1}),
        (["dash.2 > spk.s4+"], False, ["s1 s2 s3"], {"s1": 1, "s2": -1, "s3": 1}),
        (["dash.1 > spk.s4+"], True, ["s3 s2 s1"], {"s1": -1, "s2": 1, "s3": -1}),
        (["dash.2 > spk.s4+"], True, ["s3 s2 s1"], {"s1": -1, "s2": 1, "s3": -1}),
        # one that stands alone beside the line
        (
            ["dash.1 > spk.s4+", "spk.s4- > dash.2"], False, ["s1 s2 s3", "s4"],
            {"s1": 1, "s2": -1, "s3": 1, "s4": 1},
        ),
    ],
)  # fmt: skip
def test_three_speakers_in_one_line(
    more: list[str], turned: bool, branches: list[str], signs: dict[str, int], tmp_path: Path
) -> None:
    found = between_one_and_two([*THREE, *more], tmp_path, turned=turned)
    assert (sorted(found[0]), found[1]) == (branches, signs)


def test_one_of_the_two_wires_is_on_the_body(tmp_path: Path) -> None:
    """1 goes to the body in one place, and s1's − and s2's + each in another of their own: s1 lies between 1 and 2 with
    its − on 1's side, s2 with its +. A wire on the body and one that isn't are two; two on the body are one.
    """
    chains = ["dash.1 > gnd.G1", "dash.2 > spk.s1+", "spk.s1- > gnd.G2", "dash.2 > spk.s2-", "spk.s2+ > gnd.G3"]
    branches, signs = between_one_and_two(chains, tmp_path)
    assert (sorted(branches), signs) == (["s1", "s2"], {"s1": -1, "s2": 1})
    branches, signs = between_one_and_two(chains, tmp_path, turned=True)
    assert (sorted(branches), signs) == (["s1", "s2"], {"s1": 1, "s2": -1})
    assert between_one_and_two([*chains, "dash.2 > gnd.G4"], tmp_path) == ([], {})


def test_two_cavities_on_one_wire_have_nothing_between_them(tmp_path: Path) -> None:
    """s1 is shorted by the wire from 1 to 2."""
    assert between_one_and_two(["dash.1 > dash.2", "dash.1 > spk.s1+", "dash.2 > spk.s1-"], tmp_path) == ([], {})


# eight in a line and 32 side by side are more than anyone hangs on one pair (common practice, no source)
def test_how_many_are_followed(tmp_path: Path) -> None:
    for count in (8, 9):
        names = NAMES[:count]
        chains = [f"spk.{one}- > spk.{other}+" for one, other in pairwise(names)]
        ends = ["dash.1 > spk.s1+", f"spk.{names[-1]}- > dash.2"]
        branches, _ = between_one_and_two([*ends, *chains], tmp_path)
        assert branches == ([" ".join(names)] if count == 8 else [])
    for count in (32, 33):
        beside = [each for name in NAMES[:count] for each in (f"dash.1 > spk.{name}+", f"spk.{name}- > dash.2")]
        assert len(between_one_and_two(beside, tmp_path)[0]) == 32
