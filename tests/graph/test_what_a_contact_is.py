"""What each contact of one job is: ground, feed, a unit's own, read off the file by hand, contact by contact.

The rules are the trade's: a chassis point, the body and a battery's − are ground; a radio is grounded by the car, an
amplifier of ours is not until a wire leads there; B+ and ACC are feeds, a relay's 30 may switch anything.
"""

from __future__ import annotations

import pytest

from harness.graph import fitted, grounding, meeting, walk
from harness.graph.conductor import FUSE, JOINT, LEAD, MATED, PLUGGED, RUN, WIRE, Conductor
from harness.graph.wiring import Wiring
from harness.place import Place
from harness.read.job import read_job_text
from harness.read.troubles import Troubles

JOB = """\
ringout: 1
title: One of each
car: {name: Hazel van, steering: left}
plugs:
  dash:
    place: behind the radio
    unit: radio
    face: {rows: 1, columns: 6, view: wire, latch: top, count: across, first: top left}
    cavities: {1: B+ YE, 2: ACC RD, 3: GND BK, 4: ILL OG, 5/6: FL GN GN/BK}
  kick:
    place: kick panel
    face: {rows: 1, columns: 3, view: wire, latch: top, count: across, first: top left}
    cavities: {1: GND BK, 2: B+ YE, 3: AMP-ON BU}
  old:
    place: under the seat
    unit: famp
    face: {rows: 1, columns: 2, view: wire, latch: top, count: across, first: top left}
    cavities: {1: GND BK, 2: B+ YE}
looms:
  T1: {ends: {unit: 6-way A, car: 6-way A}, through: {1: 1, 2: 4, 3: 3}, leads: {car.4: ILL OG 1 mm2}}
units:
  radio: {kind: radio, outputs: {FL: btl 8 V}}
  amp: {kind: amplifier, inputs: {in1: 0.2..4 V grounded}, outputs: {out1: 50 W @ 4 ohm}}
  dsp: {kind: processor, inputs: {in1: 2..20 V differential}, outputs: {out1: 4 V grounded}, wakes: rem}
  loc: {kind: line converter}
  own: {kind: line converter, wakes: rem 5 mA}
  cam: {kind: interface, draws: 1 A}
  famp: {kind: factory amplifier}
  gone: {kind: amplifier}
  spare: {kind: battery}
  k1: {kind: relay}
  d1: {kind: diode}
  s1: {kind: switch}
  block: {kind: fuse block, ways: 2, fuses: {1: 40 A}}
speakers:
  FL: {nominal: 4 ohm}
grounds: {G1: {place: floor, metal: bare}}
removed: [gone]
joints:
  mate: {T1: dash}
  solder at dash with tape:
    dash.unit.FL: dsp.in1
    k1.85: gnd.G1
    k1.30: kick.B+
    k1.87: d1.a
    d1.k: cam.B+
runs:
  - battery.+ > 1 ft 8 AWG > fuse 40 A > 2 m 8 AWG > block.in
  - block.1 > 1 m 8 AWG > amp.B+
  - amp.GND > 1 ft 8 AWG > gnd.G1
  - spare.- > 1 ft 8 AWG > dsp.GND
  - dsp.out1 > 2 m rca > amp.in1
"""


@pytest.fixture(scope="module")
def wiring() -> Wiring:
    troubles = Troubles()
    job = read_job_text(JOB, "one-of-each.yaml", troubles)
    assert job is not None, troubles.findings
    assert not troubles.findings, troubles.findings
    return Wiring(job)


# Ground for sure: what nobody of us has to lay a wire for.
BODY = (
    "gnd.G1", "chassis", "battery.-", "spare.-", "radio.GND", "famp.GND", "kick.unit.1", "kick.car.1", "dash.car.3",
    "old.car.1",
)  # fmt: skip
NO_BODY = (
    "amp.GND", "dsp.GND", "gone.GND", "dash.unit.3", "old.unit.1", "battery.+", "spare.+", "dash.unit.1", "kick.unit.2",
    "amp.in1-", "dsp.out1-", "radio.FL-", "radio.B+", "k1.85", "d1.k", "spk.FL-", "T1.car.4",
)  # fmt: skip


@pytest.mark.parametrize("name", [*BODY, *NO_BODY])
def test_what_is_ground_for_sure(wiring: Wiring, name: str) -> None:
    assert name in wiring.job.contacts
    assert grounding.is_body(wiring, name) is (name in BODY)


# A ground by its name, wired or not; the − of a signal is none.
GROUNDS = ("gnd.G1", "chassis", "battery.-", "spare.-", "radio.GND", "amp.GND", "gone.GND", "dash.unit.3", "kick.car.1")
NO_GROUNDS = ("battery.+", "spare.+", "dash.unit.1", "radio.FL-", "spk.FL-", "dsp.in1-", "k1.30", "d1.a", "amp.B+")


@pytest.mark.parametrize("name", [*GROUNDS, *NO_GROUNDS])
def test_what_is_ground_by_its_name(wiring: Wiring, name: str) -> None:
    assert meeting.is_ground(wiring, name) is (name in GROUNDS)


@pytest.mark.parametrize(
    ("name", "terminal"),
    [("amp.GND", True), ("radio.GND", True), ("spare.-", True), ("spare.+", False), ("gnd.G1", False),
     ("kick.unit.1", False), ("amp.B+", False), ("radio.FL-", False)],
)  # fmt: skip
def test_a_ground_terminal_is_one_of_a_unit(wiring: Wiring, name: str, terminal: bool) -> None:
    assert grounding.is_ground_terminal(wiring, name) is terminal


FEEDS = (
    "battery.+", "spare.+", "radio.B+", "amp.B+", "gone.B+", "cam.B+", "dash.unit.1", "dash.car.2", "kick.car.2",
    "old.unit.2",
)  # fmt: skip
NO_FEEDS = (
    "battery.-", "spare.-", "k1.30", "k1.87", "amp.GND", "dash.unit.4", "kick.unit.3", "radio.FL+", "gnd.G1", "d1.a",
    "T1.car.4", "dsp.rem",
)  # fmt: skip


@pytest.mark.parametrize("name", [*FEEDS, *NO_FEEDS])
def test_what_is_a_feed(wiring: Wiring, name: str) -> None:
    assert meeting.is_feed(wiring, wiring.contact(name)) is (name in FEEDS)
    assert (name in meeting.feeds(wiring)) is (name in FEEDS)


def test_no_terminal_inside_a_run_is_a_feed(wiring: Wiring) -> None:
    assert not [name for name in meeting.feeds(wiring) if name.startswith("run.")]


# `takes_feed` is where a unit draws its current: not what current only passes.
@pytest.mark.parametrize(
    ("name", "takes"),
    [("amp.B+", True), ("radio.B+", True), ("block.in", False), ("spare.+", False), ("kick.unit.2", False),
     ("amp.GND", False), ("dsp.rem", False)],
)  # fmt: skip
def test_where_a_unit_takes_its_current(wiring: Wiring, name: str, takes: bool) -> None:
    assert fitted.takes_feed(wiring, name) is takes


def test_which_units_are_ours_to_feed(wiring: Wiring) -> None:
    """The car's own are fed; relay, diode, switch, fuse block and battery pass it on; a bare converter says nothing."""
    assert [unit.name for unit in fitted.ours(wiring)] == ["amp", "dsp", "own", "cam"]


# A relay is fed at 30 by the kick panel's B+, and passes that to the diode and the camera; nobody feeds dsp.
@pytest.mark.parametrize(
    ("name", "fed"),
    [("amp.B+", True), ("cam.B+", True), ("k1.30", True), ("k1.87", True), ("k1.87a", True), ("d1.a", True),
     ("block.in", True), ("block.1", True), ("dsp.B+", False), ("k1.86", False), ("own.B+", False)],
)  # fmt: skip
def test_what_current_reaches(wiring: Wiring, name: str, fed: bool) -> None:
    assert fitted.is_fed(wiring, name) is fed


def test_which_wires_carry_a_signal(wiring: Wiring) -> None:
    """The RCA cable and the joint at the processor's input, and no cable of feed or ground."""
    carrying = {
        frozenset(contact.split(".")[0] for contact in (each.a, each.b))
        for each in wiring.conductors
        if grounding.is_signal_wire(wiring, each)
    }
    assert frozenset({"dsp", "amp"}) in carrying
    assert frozenset({"dash", "dsp"}) in carrying
    for each in wiring.conductors:
        names = {each.a, each.b}
        if names & {"battery.+", "gnd.G1", "amp.B+", "block.in", "block.1", "spare.-", "k1.30"}:
            assert not grounding.is_signal_wire(wiring, each), each
        if each.kind in (PLUGGED, WIRE, LEAD, MATED):
            assert not grounding.is_signal_wire(wiring, each), "the car's own wire is not ours"


PLACE = Place("job.yaml", 3, 1)


def conductor(kind: str, a: str = "x.1", b: str = "y.1", name: str = "") -> Conductor:
    return Conductor(a, b, kind, 3, name, PLACE)


# What a person made is likelier wrong than what a maker made: a joint first, then a run or its fuse, a loom's wire that
# crosses to another cavity, the plug, a lead, the car's wire, last two halves that are mated.
LIKELY = (
    conductor(JOINT), conductor(RUN), conductor(LEAD, "T1.unit.4", "T1.car.5"), conductor(PLUGGED),
    conductor(LEAD, "T1.unit.4", "T1.car.4"), conductor(WIRE), conductor(MATED),
)  # fmt: skip


def test_the_likeliest_culprit_of_two_kinds_is_the_one_that_a_person_made(wiring: Wiring) -> None:
    from harness.graph.meeting import _order

    orders = [_order(each) for each in LIKELY]
    assert orders == sorted(orders)
    assert len(set(orders[:4])) == 4
    assert _order(conductor(FUSE)) == _order(conductor(RUN))
    assert _order(conductor(LEAD, "T1.unit.4", "T1.aerial")) == _order(conductor(LEAD, "T1.unit.4", "T1.car.4"))


def test_the_likeliest_of_a_way(wiring: Wiring) -> None:
    """Of any two the one that stands first in the row, whichever comes first on the way; of none, none."""
    wired_joint = next(each for each in wiring.conductors if each.kind == JOINT)
    row = (
        conductor(LEAD, "T1.unit.4", "T1.car.5"), wired_joint, conductor(RUN), conductor(PLUGGED),
        conductor(LEAD, "T1.unit.4", "T1.car.4"), conductor(WIRE), conductor(MATED), conductor("inside"),
        conductor("bond"), conductor("body"),
    )  # fmt: skip
    for at, each in enumerate(row):
        for later in row[at + 1 :]:
            assert walk.suspect(wiring, [later, each]) == each
            assert walk.suspect(wiring, [each, later]) == each
    assert walk.suspect(wiring, []) is None
    assert walk.suspect(wiring, [conductor(FUSE), row[2]]) == conductor(FUSE), "a fuse stands in its run"
    assert walk.suspect(wiring, [row[2], conductor(FUSE)]) == row[2]


def test_where_a_conductor_is_changed(wiring: Wiring) -> None:
    """At its own line; where nothing was made, at the contact's."""
    joint = next(each for each in wiring.conductors if each.kind == JOINT and "k1.85" in (each.a, each.b))
    assert walk.place_to_change(wiring, joint) == joint.place
    assert meeting.place_of(wiring, joint, "amp.B+") == joint.place
    assert meeting.place_of(wiring, None, "k1.30") == wiring.contact("k1.30").place
