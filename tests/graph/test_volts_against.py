"""Volts at the car's own wires against their chart: 10 V and more are awake, less than 1 V asleep, and nobody's wire of
a 12 V car has more than 18 V, half of that a bridged output's. Each by one reading, read off the job by hand.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from harness.graph import volts_against
from harness.graph.wiring import Wiring
from tests.graph.test_contrary_rules import JOB, recorded

CHART = JOB.replace("      11: GND BK\n", "      11: GND BK\n      12: B+ YE\n").replace(
    "looms:\n",
    "  boot:\n    place: boot\n"
    "    face: {rows: 1, columns: 4, view: wire, latch: top, first: top left, count: across}\n"
    '    cavities: {1: "15 OG", 2: "75 OG", 3: empty, 4: ILL OG}\nlooms:\n',
)


def odd(wiring: Wiring) -> list[tuple[str, bool, str]]:
    """Of the last readings of one contact each, as the caller gives them."""
    last = {(each.contacts[0], each.word("key")): each for each in wiring.job.records}
    return [(each.contact, each.live, each.planned) for each in volts_against.odd_volts(wiring, last)]


@pytest.mark.parametrize(
    ("what", "told"),
    [
        # what has no wire
        ("boot.car.3, reads: 1 V", [(False, "empty")]), ("boot.car.3, reads: 0.99 V", []),
        # the constant feed, not while cranking, nor where nobody wrote how the key was
        ("dash.car.12, reads: 9.9 V, key: run", [(False, "12 V at all times")]),
        ("dash.car.12, reads: 9.9 V, key: out", [(False, "12 V at all times")]),
        ("dash.car.12, reads: 10 V, key: out", []), ("dash.car.12, reads: 9 V, key: crank", []),
        ("dash.car.12, reads: 9 V", []),
        # ACC and 75 from the first position on, ignition with the key in run
        ("dash.car.9, reads: 9.9 V, key: accessory", [(False, "12 V with the key in accessory")]),
        ("dash.car.9, reads: 9.9 V, key: run", [(False, "12 V with the key in run")]),
        ("dash.car.9, reads: 9.9 V, key: engine", [(False, "12 V, engine on")]),
        ("dash.car.9, reads: 10 V, key: run", []), ("dash.car.9, reads: 0 V, key: out", []),
        ("boot.car.2, reads: 9.9 V, key: accessory", [(False, "12 V with the key in accessory")]),
        ("boot.car.1, reads: 9.9 V, key: accessory", []),
        ("boot.car.1, reads: 9.9 V, key: run", [(False, "12 V with the key in run")]),
        ("boot.car.1, reads: 9.9 V, key: engine", [(False, "12 V, engine on")]),
        # a lamp's wire, and a turn-on wire: by nobody's key
        ("boot.car.4, reads: 0 V, key: run", []), ("dash.car.10, reads: 0 V, key: run", []),
        ("dash.car.11, reads: 1 V", [(False, "0 V")]), ("dash.car.11, reads: 0.99 V", []),
        ("dash.car.9, reads: 1 V, key: out", []),
        # a speaker's wire: half the supply while it plays; nothing with its plug apart
        ("dash.car.7, reads: 9 V", []), ("dash.car.7, reads: 9.1 V", [(True, "no feed")]),
        ("dash.car.7, reads: 1 V, unplugged: dash", [(True, "no feed")]),
        ("dash.car.7, reads: 0.99 V, unplugged: dash", []),
        ("dash.car.7, reads: 1 V, unplugged: [amp, DASH]", [(True, "no feed")]),
        ("dash.car.7, reads: 1 V, unplugged: amp", []),
        ("T1.car.1, reads: 9.1 V", [(True, "no feed")]), ("T1.unit.1, reads: 9.1 V", [(True, "no feed")]),
        ("spk.C+, reads: 9.1 V", [(True, "no feed")]),
        # an output of ours plays there, and the radio's half is the radio's; a loom's feed and a unit's are others'
        ("amp.out1+, reads: 12 V", []), ("radio.FL+, reads: 12 V", []),
        ("dash.unit.7, reads: 12 V", []), ("dash.unit.11, reads: 12 V", []),
        ("amp.GND, reads: 12 V", []),
        # no such reading can be right, and that is told of it
        ("dash.car.11, reads: 18 V", [(False, "0 V")]), ("dash.car.11, reads: 18.1 V", []),
        ("dash.car.11, reads: -1 V", []), ("dash.car.11, reads: 3 ohm", []),
    ],
)  # fmt: skip
def test_one_reading(what: str, told: list[tuple[bool, str]], tmp_path: Path) -> None:
    """Before it stands one that says nothing, one on the radio's half, and one at a speaker."""
    before = (
        "volts: dash.car.10, reads: 19 V",
        "volts: dash.unit.9, reads: 0 V, key: run",
        "volts: spk.FR+, reads: 0 V",
    )
    name = what.partition(",")[0]
    made = odd(recorded(tmp_path, *before, f"volts: {what}", job=CHART))
    assert made == [(name, *each) for each in told]


@pytest.mark.parametrize(
    ("record", "below"),
    [
        ("volts: dash.car.9, reads: -1 V", True), ("volts: dash.car.9, reads: -0.99 V", False),
        ("volts: dash.car.9, reads: 12 V", False), ("volts: dash.car.9, reads: open", False),
        # between two contacts either way round
        ("volts: dash.car.1/2, reads: -1 V", False),
    ],
)  # fmt: skip
def test_below_the_body(record: str, below: bool, tmp_path: Path) -> None:
    (made,) = recorded(tmp_path, record, job=CHART).job.records
    assert volts_against.below_the_body(made) is below


def test_what_is_ground(tmp_path: Path) -> None:
    """Of a unit where the plan grounds it, of a plug on the car's side as charted; nothing else is."""
    wiring = recorded(tmp_path, job=CHART)
    names = ("amp.GND", "eye.GND", "dash.car.11", "dash.unit.11", "amp.B+", "dash.car.9", "T1.car.1", "gnd.G1")
    assert [name for name in names if volts_against.grounded(wiring, name)] == ["amp.GND", "dash.car.11"]
