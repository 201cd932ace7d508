"""Grounds, their cables and what lies before a first fuse: every expected value read off the chains by hand."""

from __future__ import annotations

import pytest

from harness.graph import first_fuse, fitted, fused_ground, grounding
from harness.graph.wiring import Wiring
from harness.read.job import read_job_text
from harness.read.troubles import Troubles

HEAD = """
ringout: 1
title: Grounds
car: {name: Hazel van, steering: left}
grounds: {G1: {place: boot floor left}, G2: {place: boot floor right}}
units:
  amp: {kind: amplifier, inputs: {in1: 0.2..4 V grounded}}
  dsp: {kind: processor, outputs: {out1: 4 V grounded}}
  loc: {kind: line converter}
  k1: {kind: relay}
  block: {kind: fuse block, ways: 2, fuses: {1: 40 A, 2: 40 A}}
"""


def wiring_of(*runs: str) -> Wiring:
    troubles = Troubles()
    text = HEAD.lstrip() + "runs:\n" + "".join(f"  - {run}\n" for run in runs)
    job = read_job_text(text, "grounds.yaml", troubles)
    assert job is not None, troubles.findings
    assert not troubles.findings, troubles.findings
    return Wiring(job)


def areas(wiring: Wiring) -> list[float]:
    return [round(cable.area_mm2, 2) for cable in grounding.ground_cables(wiring, "amp.GND")]


TWO_WAYS = ("k1.85 > 1 m 10 mm2 > gnd.G1", "k1.85 > 1 m 6 mm2 > gnd.G2")


@pytest.mark.parametrize(
    ("runs", "expected"),
    [
        (("amp.GND > 1 m 16 mm2 > gnd.G1",), [16.0]),
        (("amp.GND > 1 m 16.06 mm2 CCA > gnd.G1",), [10.37]),  # 16.06 x 10.37/16.06
        (("amp.GND > 1 m 16 mm2 > dsp.GND", "dsp.GND > 1 m 10 mm2 > gnd.G1"), [10.0]),  # the thinnest on the way
        (("amp.GND > 1 m 10 mm2 > gnd.G1", "amp.GND > 1 m 6 mm2 > gnd.G2"), [10.0, 6.0]),  # side by side
        (("amp.GND > 1 m 10 mm2 > gnd.G1", "dsp.GND > 1 m 6 mm2 > amp.GND"), [10.0]),  # what comes in leads nowhere
        (("amp.GND > 1 m 16 mm2 > k1.85", "k1.85 > 1 m 10 mm2 > gnd.G1", "k1.85 > 1 m 6 mm2 > gnd.G2"), [10.0]),
        (("dsp.GND > 1 m 6 mm2 > amp.GND", "amp.GND > 1 m 10 mm2 > gnd.G1"), [10.0]),
        # a splice whose own way to the body is written first; one with two ways, and a thinner wire to it than both
        (("k1.85 > 1 m 10 mm2 > gnd.G1", "k1.86 > 1 m 16 mm2 > k1.85", "amp.GND > 1 m 16 mm2 > k1.86"), [10.0]),
        (("amp.GND > 1 m 16 mm2 > k1.86", "k1.86 > 1 m 4 mm2 > k1.85", *TWO_WAYS), [4.0]),
        # of two ways on from a splice the one of which no piece is thin counts: a ring right at the body
        (("amp.GND > 1 m 16 mm2 > k1.85", "k1.85 > gnd.G1", "k1.85 > 1 m 6 mm2 > gnd.G2"), [16.0]),
        (("amp.GND > 1 m 16 mm2 > k1.85", "k1.85 > 1 m 6 mm2 > gnd.G2", "k1.85 > gnd.G1"), [16.0]),
        (("amp.GND > gnd.G1",), []),  # no size is written
        (("dsp.GND > 1 m 16 mm2 > gnd.G1", "dsp.out1 > 1 m rca > amp.in1"), []),  # a shield is no ground cable
    ],
)
def test_the_thinnest_wire_of_each_way_to_the_body(runs: tuple[str, ...], expected: list[float]) -> None:
    assert areas(wiring_of(*runs)) == expected


BEHIND = "amp.GND > 1 m 16 mm2 > fuse 10 A > 1 m 16 mm2 > gnd.G1"


@pytest.mark.parametrize(
    ("runs", "fused"),
    [
        ((BEHIND,), [("amp.GND", 10.0)]),
        # written from the body; a fuse in a feed, with nothing on it, or from a terminal to itself is none of a ground
        (("gnd.G1 > 1 m 16 mm2 > fuse 10 A > 1 m 16 mm2 > amp.GND",), [("amp.GND", 10.0)]),
        (("battery.+ > 1 m 16 mm2 > fuse 40 A > 1 m 16 mm2 > amp.B+",), []),
        (("amp.GND > 1 m 16 mm2 > fuse 10 A > 1 m 16 mm2 > dsp.GND",), []),
        (("gnd.G1 > 1 m 16 mm2 > fuse 10 A > 1 m 16 mm2 > gnd.G2",), []),
        (("amp.GND > 1 m 16 mm2 > gnd.G1", "amp.GND > fuse 10 A > amp.GND"), []),
        # a ground that meets a feed is a short, and told as one
        (("battery.+ > 1 m 16 mm2 > amp.GND", "amp.GND > 1 m 16 mm2 > fuse 10 A > 1 m 16 mm2 > gnd.G1"), []),
        # behind each of those
        (("battery.+ > 1 m 16 mm2 > fuse 40 A > 1 m 16 mm2 > amp.B+", BEHIND), [("amp.GND", 10.0)]),
        (("amp.GND > fuse 5 A > amp.GND", BEHIND), [("amp.GND", 10.0)]),
        (("battery.+ > fuse 40 A > dsp.GND", BEHIND), [("amp.GND", 10.0)]),
        (
            ("amp.GND > 1 m 16 mm2 > fuse 10 A > gnd.G1", "dsp.GND > 1 m 16 mm2 > fuse 5 A > gnd.G2"),
            [("amp.GND", 10.0), ("dsp.GND", 5.0)],
        ),
    ],
)
def test_a_fuse_in_a_ground(runs: tuple[str, ...], fused: list[tuple[str, float]]) -> None:
    made = list(fused_ground.fused_grounds(wiring_of(*runs)))
    assert [(each.terminal, each.fuse.rating_a) for each in made] == fused
    assert all((each.path[0], each.path[-1][:5]) == (each.terminal, "gnd.G") for each in made)


def test_what_a_ground_reaches_and_by_which_signal() -> None:
    wiring = wiring_of("dsp.GND > 1 m 16 mm2 > gnd.G1", "dsp.out1 > 1 m rca > amp.in1")
    assert grounding.grounds(wiring)["dsp.GND"].points == ("gnd.G1",)
    assert [ground.terminals for ground in grounding.ungrounded(wiring)] == [("amp.GND",)]
    way = [hop.contact for hop in grounding.by_signal(wiring, "amp.GND")]
    assert way == ["amp.in1-", "dsp.out1-", "dsp.GND", "gnd.G1"]


def test_a_ground_is_missing_behind_one_that_is_there() -> None:
    assert [g.terminals for g in grounding.ungrounded(wiring_of("amp.GND > 1 m 16 mm2 > gnd.G1"))] == [("dsp.GND",)]


def test_a_ground_on_a_feed_is_a_short_and_not_a_missing_ground() -> None:
    wiring = wiring_of("battery.+ > 1 m 16 mm2 > fuse 40 A > amp.GND", "dsp.GND > 1 m 16 mm2 > gnd.G1")
    assert grounding.ungrounded(wiring) == []


def test_which_units_want_a_feed_and_which_get_one() -> None:
    """A relay passes what its 30 gets; the line converter says of nothing that it draws."""
    wiring = wiring_of("battery.+ > fuse 5 A > 1 m 2.5 mm2 > k1.30", "k1.87 > 1 m 2.5 mm2 > dsp.B+")
    assert [unit.name for unit in fitted.ours(wiring)] == ["amp", "dsp"]
    assert fitted.is_fed(wiring, "dsp.B+")
    assert not fitted.is_fed(wiring, "amp.B+")


def test_a_piece_without_a_length_is_said_where_it_decides() -> None:
    """18 in is the house's figure: the unknown piece of the first decides, 2 ft are too many without one."""
    wiring = wiring_of(
        "battery.+ > block.in", "block.1 > 1 m 10 mm2 > amp.B+", "battery.+ > 2 ft 10 mm2 > k1.30",
        "k1.30 > dsp.B+",
    )  # fmt: skip
    assert [each.what for each in first_fuse.unmeasured(wiring)] == ["the fuse distance from battery + to block in"]
    wiring = wiring_of("battery.+ > 2 ft 10 mm2 > k1.30", "k1.30 > block.in", "block.1 > 1 m 10 mm2 > amp.B+")
    assert first_fuse.unmeasured(wiring) == []
    [(stretch, length_m)] = first_fuse.far_fuses(wiring)
    assert stretch.end == "block.in"
    assert length_m == pytest.approx(0.6096)
    assert (
        first_fuse.unmeasured(wiring_of("battery.+ > 18 in 10 mm2 > block.in", "block.1 > 1 m 10 mm2 > amp.B+")) == []
    )


BODY = """\
ringout: 1
title: What is ground for sure
car: {name: Hazel van, steering: left}
plugs:
  dash: {place: dash, unit: radio, cavities: {1: B+ YE, 2: GND BK, 3/4: FL WH WH/BK}}
  free: {place: roof, cavities: {1: GND BK, 2: ACC RD}}
  old: {place: boot, unit: gone, car: body, cavities: {1: GND BK}}
looms: {T1: {ends: {unit: 4-way, car: 4-way}, leads: {1: GND BK}}}
grounds: {G1: {place: boot floor left}}
units:
  radio: {kind: radio, outputs: {FL: btl 8 V}}
  gone: {kind: radio}
  body: {kind: control unit}
  seat: {kind: interface}
  amp: {kind: amplifier, inputs: {in1: 0.2..4 V grounded}}
  spare: {kind: battery}
removed: [gone]
"""


@pytest.mark.parametrize(
    ("contact", "ground"),
    [
        ("gnd.G1", True), ("chassis", True), ("battery.-", True), ("battery.+", False),
        ("spare.-", True), ("spare.+", False),
        # what the car grounds itself, and what stays in it; what we fit has yet to be grounded
        ("radio.GND", True), ("body.GND", True), ("gone.GND", False), ("amp.GND", False), ("amp.in1-", False),
        ("radio.FL-", False), ("amp.B+", False),
        # a cavity on the half that no unit sits on
        ("dash.car.2", True), ("dash.unit.2", False), ("dash.car.1", False), ("free.unit.1", True),
        ("free.car.1", True), ("free.car.2", False), ("old.car.1", False), ("old.unit.1", False),
        ("T1.car.1", False),
    ],
)  # fmt: skip
def test_what_is_ground_for_sure(contact: str, ground: bool) -> None:
    troubles = Troubles()
    job = read_job_text(BODY, "body.yaml", troubles)
    assert job is not None, troubles.findings
    assert grounding.is_body(Wiring(job), contact) is ground
