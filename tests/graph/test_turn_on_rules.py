"""Turn-on by relays, diodes and outputs of units, where it ends and in which order: read off the joints by hand."""

from __future__ import annotations

import pytest

from harness.graph import exchanged, relays, turn_on_load, wake_order, waking, woken
from harness.graph.wiring import Wiring
from harness.read.job import read_job_text
from harness.read.troubles import Troubles

HEAD = """\
ringout: 1
title: Turn-on on a bench
car: {name: Bench car, steering: left}
plugs:
  kick:
    place: kick panel
    unit: famp
    face: {rows: 1, columns: 4, view: wire, latch: top, first: top left, count: across}
    cavities: {1: AMP-ON BU/WH, 2: B+ YE, 3: AERIAL BU, 4: GND BK}
  dash:
    place: behind the radio
    unit: radio
    face: {rows: 1, columns: 6, view: wire, latch: top, first: top left, count: across}
    cavities: {1: AMP-ON BU, 2: ACC RD, 3: B+ YE, 4: ILL OG, 5: GND BK, 6: AERIAL BU/BK}
units:
  gone: {kind: relay}
  radio: {kind: radio, gives: {AMP-ON: 100 mA}, outputs: {FL: 4 V}}
  famp: {kind: factory amplifier}
  dsp: {kind: processor, inputs: {in1: 1..4 V}, outputs: {out1: 4 V}, wakes: rem 35 mA, gives: {rem-out: 500 mA}}
  amp: {kind: amplifier, inputs: {in1: 1..4 V}, outputs: {out1: 50 W}, wakes: REM 300 mA, gives: {rem-out: 200 mA}}
  bass: {kind: amplifier, wakes: rem}
  cam: {kind: interface, wakes: rem 5 mA}
  sleepy: {kind: processor, wakes: [rem 10 mA, bus]}
  loc: {kind: line converter}
  k1: {kind: relay, coil: 150 mA}
  k2: {kind: relay}
  d1: {kind: diode}
  d2: {kind: diode}
  s1: {kind: switch}
grounds: {G1: {place: floor, metal: bare}}
removed: [gone]
"""
RUNS = "runs:\n  - battery.+ > 12 in 8 AWG > fuse 30 A > 9 ft 8 AWG > amp.B+\n"


def wiring_of(joints: str, more: str = "", head: str = HEAD) -> Wiring:
    """Joints are given one by one, parted by `; `."""
    troubles = Troubles()
    rows = "".join(f"    {row}\n" for row in joints.split("; ") if row)
    text = head + more + (f"joints:\n  solder at the dash:\n{rows}" if rows else "")
    job = read_job_text(text, "turn-on.yaml", troubles)
    assert job is not None, troubles.findings
    assert not troubles.findings, troubles.findings
    return Wiring(job)


def sources(wiring: Wiring, contact: str) -> list[tuple[str, str, str]]:
    return [(each.contact, each.kind, " ".join(each.through)) for each in waking.sources(wiring, contact)]


COIL = "k1.85: gnd.G1"
SECOND = "k2.85: gnd.G1"


@pytest.mark.parametrize(
    ("joints", "found"),
    [
        ("dash.AMP-ON: amp.rem", [("dash.unit.1", "trigger", "")]),
        ("dash.ACC: amp.rem", [("dash.car.2", "switched", "")]),
        ("dash.B+: amp.rem", [("dash.car.3", "constant", "")]),
        ("dash.ILL: amp.rem", [("dash.car.4", "light", "")]),
        ("dash.AERIAL: amp.rem", [("dash.unit.6", "aerial", "")]),
        ("dsp.rem-out: amp.rem", [("dsp.rem-out", "control", "")]),
        ("battery.+: amp.rem", [("battery.+", "constant", "")]),
        # its own output is no source, nor is what wants 12 V itself, an output of sound, ground
        ("amp.rem-out: amp.rem", []),
        ("dsp.rem: amp.rem", []),
        ("radio.FL+: amp.rem", []),
        ("gnd.G1: amp.rem", []),
        # two on one wire, the nearer first
        (
            "dash.AMP-ON: amp.rem; dsp.rem-out: dash.AMP-ON",
            [("dash.unit.1", "trigger", ""), ("dsp.rem-out", "control", "")],
        ),
        # a relay passes what its coil gets where the other contact is fed; 86 is the + end unless it is grounded
        (f"dash.AMP-ON: k1.86; {COIL}; dash.B+: k1.30; k1.87: amp.rem", [("dash.unit.1", "trigger", "k1")]),
        (f"dash.AMP-ON: k1.86; {COIL}; dash.B+: k1.87; k1.30: amp.rem", [("dash.unit.1", "trigger", "k1")]),
        ("dash.AMP-ON: k1.85; k1.86: gnd.G1; dash.B+: k1.30; k1.87: amp.rem", [("dash.unit.1", "trigger", "k1")]),
        # both ends on ground, or neither: 86
        ("dash.AMP-ON: k1.86; dash.ACC: k1.85; dash.B+: k1.30; k1.87: amp.rem", [("dash.unit.1", "trigger", "k1")]),
        (f"k1.86: gnd.G1; {COIL}; dash.B+: k1.30; k1.87: amp.rem", []),
        # nothing on the other contact; 87a is none
        (f"dash.AMP-ON: k1.86; {COIL}; k1.87: amp.rem", []),
        (f"dash.AMP-ON: k1.86; {COIL}; dash.B+: k1.30; k1.87a: amp.rem", []),
        # one that comes out passes nothing
        ("dash.AMP-ON: gone.86; gone.85: gnd.G1; dash.B+: gone.30; gone.87: amp.rem", []),
        # a diode passes one way, two behind each other the same, in the order from the unit back
        ("dash.ACC: d1.a; d1.k: amp.rem", [("dash.car.2", "switched", "d1")]),
        ("dash.ACC: d1.k; d1.a: amp.rem", []),
        ("dash.ACC: d1.a; d1.k: d2.a; d2.k: amp.rem", [("dash.car.2", "switched", "d2 d1")]),
        (
            "dash.ACC: d1.a; dash.AMP-ON: d2.a; d1.k: [d2.k, amp.rem]",
            [("dash.car.2", "switched", "d1"), ("dash.unit.1", "trigger", "d2")],
        ),
        # a ring of diodes ends
        ("d1.k: [d2.a, amp.rem]; d2.k: d1.a; dash.ACC: d1.a", [("dash.car.2", "switched", "d1")]),
        # what gives on both sides of a diode is told once, the nearer
        ("dash.ACC: [d1.a, amp.rem]; d1.k: amp.rem", [("dash.car.2", "switched", "")]),
        # the same wire at both diodes
        ("dash.ACC: [d1.a, d2.a]; d1.k: [d2.k, amp.rem]", [("dash.car.2", "switched", "d1")]),
        # a dead relay beside a diode hides nothing
        (f"dash.AMP-ON: k1.86; {COIL}; k1.87: [amp.rem, d1.k]; dash.ACC: d1.a", [("dash.car.2", "switched", "d1")]),
        # a relay behind a relay
        (
            f"dash.AMP-ON: k1.86; {COIL}; dash.B+: [k1.30, k2.30]; k1.87: k2.86; {SECOND}; k2.87: amp.rem",
            [("dash.unit.1", "trigger", "k2 k1")],
        ),
    ],
)  # fmt: skip
def test_what_wakes_an_amplifier_in_the_end(joints: str, found: list[tuple[str, str, str]]) -> None:
    """Of its two halves a cavity's wire is told at the one that gives; a feed of the car comes from the car's side."""
    assert sources(wiring_of(joints), "amp.rem") == found


def test_every_terminal_that_wants_12_volts() -> None:
    """In the order of the file, relays by their coil; what comes out and what says nothing wants none."""
    made = [(each.contact, each.draws_a, each.coil) for each in waking.wakes(wiring_of("dash.AMP-ON: amp.rem"))]
    assert made == [
        ("dsp.rem", 0.035, False), ("amp.rem", 0.3, False), ("bass.rem", None, False), ("cam.rem", 0.005, False),
        ("sleepy.rem", 0.01, False), ("k1.86", 0.15, True), ("k2.86", None, True),
    ]  # fmt: skip


def test_bus_and_signal_are_no_leads() -> None:
    units = wiring_of("", "").job.parts.units
    assert waking.wake_words(units["sleepy"]) == [("rem", 0.01)]
    assert [name for name, unit in units.items() if waking.wakes_without_lead(unit)] == ["sleepy"]
    other = wiring_of("", head=HEAD.replace("wakes: [rem 10 mA, bus]", "wakes: Signal")).job.parts.units["sleepy"]
    assert waking.wake_words(other) == []
    assert waking.wakes_without_lead(other)


def test_who_is_woken_by_the_car() -> None:
    """A radio has no lead, the bus is the car's, and the relay's coil hangs on the radio; what comes out is no node."""
    graph = waking.who_wakes_whom(
        wiring_of(f"dash.AMP-ON: [dsp.rem, k1.86]; {COIL}; dash.ACC: cam.rem; dsp.rem-out: amp.rem")
    )
    edges = set(graph.edges)
    assert {("", name) for name in ("radio", "famp", "sleepy", "loc", "d1", "d2", "s1")} <= edges
    assert {("", "cam"), ("radio", "dsp"), ("radio", "k1"), ("dsp", "amp")} <= edges
    assert not {("", name) for name in ("dsp", "amp", "bass", "k1", "k2", "gone")} & edges


def test_a_wire_that_came_from_another_plug_gives_nothing_here() -> None:
    """The factory amplifier's AMP-ON came from the radio's plug, and its AERIAL wire from nowhere known."""
    found = "found:\n  - dash.AMP-ON > kick.1\n"
    wiring = wiring_of(
        "kick.car.1: dsp.rem; kick.car.3: cam.rem", found + "depinned: [dash.unit.1, kick.unit.1, kick.unit.3]\n"
    )
    assert sources(wiring, "dsp.rem") == []
    assert waking._given_elsewhere(wiring, "kick.car.1")
    for other in ("kick.car.3", "kick.unit.1", "dash.unit.1", "kick.car.2", "radio.AMP-ON", "battery.+"):
        assert not waking._given_elsewhere(wiring, other), other


# -- the way -------------------------------------------------------------------------------------------------------


FIRST = HEAD.count("\n") + 3  # the line of the first joint: `joints:` and its heading come before


def test_the_way_through_a_relay_and_where_it_was_joined() -> None:
    """Where the giver is chosen, before the first relay; or what the terminal itself hangs on, the fourth joint."""
    wiring = wiring_of(f"dash.AMP-ON: k1.86; {COIL}; dash.B+: k1.30; k1.87: amp.rem")
    (giver,) = waking.sources(wiring, "amp.rem")
    made = woken.way(wiring, giver, "amp.rem")
    assert made.path == ("dash.unit.1", "dash.car.1", "k1.86", "k1.87", "amp.rem")
    assert (made.place.line, made.at) == (FIRST, "dash.car.1")
    own = woken.way(wiring, giver, "amp.rem", own_joint=True)
    assert own.path == made.path
    assert (own.place.line, own.at) == (FIRST + 3, "k1.87")


def test_the_way_through_a_diode_and_out_of_a_30() -> None:
    wiring = wiring_of(f"dash.ACC: d1.a; d1.k: k1.86; {COIL}; dash.B+: k1.87; k1.30: amp.rem")
    (giver,) = waking.sources(wiring, "amp.rem")
    assert woken.way(wiring, giver, "amp.rem").path == ("dash.car.2", "d1.a", "d1.k", "k1.86", "k1.30", "amp.rem")


def test_a_way_that_nobody_joined() -> None:
    """The unit sits on the plug: the place is the terminal's own."""
    text = HEAD.replace("famp: {kind: factory amplifier}", "famp: {kind: factory amplifier, wakes: AMP-ON}")
    wiring = wiring_of("", "found:\n  - dash.AMP-ON > kick.1\n", text)
    (giver,) = waking.sources(wiring, "famp.AMP-ON")
    made = woken.way(wiring, giver, "famp.AMP-ON")
    assert (giver.contact, made.path[0], made.path[-1]) == ("dash.unit.1", "dash.unit.1", "famp.AMP-ON")
    assert made.place == wiring.contact("famp.AMP-ON").place


def causes(wiring: Wiring, kind: str) -> list[tuple[str, list[str], int]]:
    made = woken.causes(wiring, woken.only_from(wiring, kind))
    return [(each.giver.contact, [wake.contact for wake in each.woken], each.way.place.line - FIRST) for each in made]


@pytest.mark.parametrize(
    ("joints", "kind", "found"),
    [
        ("dash.B+: amp.rem", "constant", [("dash.car.3", ["amp.rem"], 0)]),
        ("dash.B+: amp.rem", "switched", []),
        # woken by the right one as well
        ("dash.B+: amp.rem; dash.AMP-ON: amp.rem", "constant", []),
        # one joint of two is one cause; two joints are two
        ("dash.B+: [amp.rem, dsp.rem]", "constant", [("dash.car.3", ["dsp.rem", "amp.rem"], 0)]),
        (
            "dash.B+: dsp.rem; battery.+: amp.rem", "constant",
            [("dash.car.3", ["dsp.rem"], 0), ("battery.+", ["amp.rem"], 1)],
        ),
        # the second hangs on the first one's terminal: one cause
        ("dash.B+: dsp.rem; dsp.rem: amp.rem", "constant", [("dash.car.3", ["dsp.rem", "amp.rem"], 0)]),
        ("dsp.rem: amp.rem; dash.B+: dsp.rem", "constant", [("dash.car.3", ["dsp.rem", "amp.rem"], 1)]),
        # through a relay whose coil hangs on constant feed
        (f"dash.B+: [k1.86, k1.30]; {COIL}; k1.87: amp.rem", "constant", [("dash.car.3", ["amp.rem"], 0)]),
        # no sound goes through a camera's interface, nor through a relay
        (f"dash.B+: [cam.rem, k1.86]; {COIL}", "constant", []),
        ("dash.ILL: amp.rem", "light", [("dash.car.4", ["amp.rem"], 0)]),
    ],
)  # fmt: skip
def test_what_wakes_units_wrongly_each_cause_once(
    joints: str, kind: str, found: list[tuple[str, list[str], int]]
) -> None:
    assert causes(wiring_of(joints), kind) == found


# -- nothing gives -------------------------------------------------------------------------------------------------


def dead(wiring: Wiring) -> list[tuple[list[str], str, str]]:
    return [([wake.contact for wake in each.wakes], each.end, each.far) for each in woken.dead_ends(wiring)]


@pytest.mark.parametrize(
    ("joints", "ends"),
    [
        # joined to something that gives nothing: another wake, one that the bus wakes too
        ("amp.rem: bass.rem", [(["amp.rem", "bass.rem"], "amp.rem", "bass.rem")]),
        ("amp.rem: sleepy.rem", [(["amp.rem"], "amp.rem", "sleepy.rem")]),
        # a hand switch may give, and so may a terminal of another unit of which nothing is written, of a known one not
        ("amp.rem: s1.rem", []),
        ("amp.rem: s1.GND", [(["amp.rem"], "amp.rem", "s1.GND")]),
        ("amp.rem: loc.out", []),
        ("amp.rem: k2.87a", [(["amp.rem"], "amp.rem", "k2.87a")]),
        # what a unit that comes out gave, and its own output
        ("amp.rem: gone.87", [(["amp.rem"], "amp.rem", "gone.87")]),
        ("amp.rem: amp.rem-out", []),
        # its own output behind another unit's terminal: that terminal is as far as its wire leads
        ("amp.rem: bass.rem; bass.rem: amp.rem-out", [(["amp.rem"], "amp.rem", "bass.rem")]),
        # an output of sound is none
        ("amp.rem: radio.FL+", [(["amp.rem"], "amp.rem", "radio.FL+")]),
        # behind a relay that has something to switch its coil is in question, and its own terminal where it hasn't
        (
            f"dash.B+: k1.30; k1.87: amp.rem; {COIL}; k1.86: bass.rem",
            [(["amp.rem", "bass.rem", "k1.86"], "k1.86", "bass.rem")],
        ),
        (f"k1.87: amp.rem; {COIL}; k1.86: dash.ACC", [(["amp.rem"], "amp.rem", "k1.87")]),
        # behind a diode its other side
        ("d1.k: amp.rem; d1.a: bass.rem", [(["amp.rem", "bass.rem"], "d1.a", "bass.rem")]),
        ("d1.k: amp.rem; d1.a: s1.rem", []),
    ],
)  # fmt: skip
def test_where_the_search_for_12_volts_ends(joints: str, ends: list[tuple[list[str], str, str]]) -> None:
    """Without runs what hangs on nothing isn't planned yet; dsp and cam get theirs."""
    head = HEAD.replace("{kind: line converter}", "{kind: line converter, terminals: [out]}")
    made = dead(wiring_of("dash.ACC: [dsp.rem, cam.rem]; " + joints, head=head))
    assert made == ends


def test_the_way_to_a_dead_end() -> None:
    """From the terminal to the last contact that its wire reaches, the second of the job's joints; none on nothing."""
    joined = wiring_of("dash.ACC: [dsp.rem, cam.rem]; amp.rem: bass.rem")
    (end,) = woken.dead_ends(joined)
    assert (end.way.path, end.way.place.line, end.way.at) == (("amp.rem", "bass.rem"), FIRST + 1, "amp.rem")
    (bare,) = woken.dead_ends(wiring_of("dash.ACC: [dsp.rem, cam.rem, bass.rem]", RUNS))
    assert (bare.way.path, bare.way.at) == ((), "amp.rem")


def test_with_runs_a_terminal_on_nothing_is_a_dead_end() -> None:
    wiring = wiring_of("dash.ACC: [dsp.rem, cam.rem, bass.rem]", RUNS)
    assert dead(wiring) == [(["amp.rem"], "amp.rem", "amp.rem")]
    assert waking.unplanned_wakes(wiring) == []
    back = "  - amp.rem > 1 ft 18 AWG > bass.rem\n  - amp.rem > 1 ft 18 AWG > 1 ft 18 AWG > amp.rem-out\n"
    wiring = wiring_of("dash.ACC: [dsp.rem, cam.rem]", RUNS + back)
    assert dead(wiring) == [(["amp.rem"], "amp.rem", "bass.rem")], "a point within a run is nowhere"
    wiring = wiring_of("dash.ACC: [dsp.rem, cam.rem, bass.rem, k1.30]")
    assert dead(wiring) == []
    assert [each.contact for each in waking.unplanned_wakes(wiring)] == ["amp.rem", "k1.86"], "k2 switches nothing"


@pytest.mark.parametrize(
    ("change", "nothing"),
    [
        ("", False),
        # no turn-on or switched wire in any plug, and the radio gives nothing: nobody does
        ("plain", True),
        # a unit's output that is awake by the bus; by a lead that nothing gives 12 V; that comes out
        ("bus", False),
        ("asleep", True),
        ("gone", True),
    ],
)
def test_whether_nothing_in_the_car_gives_12_volts(change: str, nothing: bool) -> None:
    head = HEAD
    if change:
        head = head.replace("1: AMP-ON BU/WH, ", "").replace("1: AMP-ON BU, 2: ACC RD, ", "")
        head = head.replace(", gives: {AMP-ON: 100 mA}", "").replace(", gives: {rem-out: 500 mA}", "")
        if change != "asleep":
            head = head.replace(", gives: {rem-out: 200 mA}", "")
    if change in ("bus", "gone"):
        head = head.replace("wakes: [rem 10 mA, bus]", "wakes: bus, gives: {rem-out: 1 A}")
    if change == "gone":
        head = head.replace("removed: [gone]", "removed: [gone, sleepy]")
    assert woken.nothing_gives(wiring_of("amp.rem: bass.rem", head=head)) is nothing


def test_all_is_well_and_a_job_without_plugs() -> None:
    assert not woken.nothing_gives(wiring_of("dash.ACC: [dsp.rem, cam.rem, bass.rem, amp.rem]")), "nothing ends dead"
    lone = HEAD[: HEAD.index("plugs:")] + HEAD[HEAD.index("units:") :].replace(", gives: {AMP-ON: 100 mA}", "")
    assert not woken.nothing_gives(wiring_of("amp.rem: bass.rem", head=lone)), "no plug is written: nobody knows"


# -- order ---------------------------------------------------------------------------------------------------------

CHAIN = "radio.FL: dsp.in1; dsp.out1: amp.in1"


@pytest.mark.parametrize(
    ("joints", "found"),
    [
        (f"{CHAIN}; dash.AMP-ON: [dsp.rem, amp.rem]", [("amp", "dsp", "dsp.rem-out")]),
        # both over one diode; through one relay
        (f"{CHAIN}; dash.ACC: d1.a; d1.k: [dsp.rem, amp.rem]", [("amp", "dsp", "dsp.rem-out")]),
        (
            f"{CHAIN}; dash.AMP-ON: k1.86; {COIL}; dash.B+: k1.30; k1.87: [dsp.rem, amp.rem]",
            [("amp", "dsp", "dsp.rem-out")],
        ),
        # what feeds the amplifier has no turn-on output: the radio's is the car's order
        ("radio.FL: amp.in1; dash.AMP-ON: [dsp.rem, amp.rem]", []),
        # the amplifier feeds the processor
        ("amp.out1: dsp.in1; dash.AMP-ON: [dsp.rem, amp.rem]", []),
        # the car's own amplifier has an output free as well, and its order is the car's
        ("famp.RL: amp.in1; dash.AMP-ON: [famp.wake, amp.rem]", []),
        (
            "famp.RL: amp.in1; dash.AMP-ON: [famp.wake, dsp.rem, amp.rem]; dsp.out1: amp.in2",
            [("amp", "dsp", "dsp.rem-out")],
        ),
        # two outputs put together feed nobody's input
        ("dsp.out1: amp.out1; dash.AMP-ON: [dsp.rem, amp.rem]", []),
        # they wake by different wires, of which one goes on to the other
        (f"{CHAIN}; dash.AMP-ON: dsp.rem; dash.ACC: amp.rem", []),
    ],
)  # fmt: skip
def test_amplifiers_that_wake_with_what_feeds_them(joints: str, found: list[tuple[str, str, str]]) -> None:
    famp = "famp: {kind: factory amplifier, wakes: wake, gives: {on-out: 90 mA}, outputs: {RL: 4 V}}"
    head = HEAD.replace("famp: {kind: factory amplifier}", famp)
    head = head.replace(
        "amp: {kind: amplifier, inputs: {in1: 1..4 V}", "amp: {kind: amplifier, inputs: {in1..2: 1..4 V}"
    )
    made = wake_order.together(wiring_of(joints, head=head))
    assert [(each.wake.unit, each.feeder, each.free) for each in made] == found


@pytest.mark.parametrize(
    ("joints", "found"),
    [
        ("dsp.rem-out: amp.rem; amp.rem-out: dsp.rem", [(("dsp", "amp"), "dsp", "amp")]),
        (f"{CHAIN}; dsp.rem-out: amp.rem; amp.rem-out: dsp.rem", [(("dsp", "amp"), "dsp", "amp")]),
        ("amp.out1: dsp.in1; dsp.rem-out: amp.rem; amp.rem-out: dsp.rem", [(("dsp", "amp"), "amp", "dsp")]),
        # each feeds the other one's input too: the first of the job
        (
            "dsp.out1: amp.in1; amp.out1: dsp.in1; dsp.rem-out: amp.rem; amp.rem-out: dsp.rem",
            [(("dsp", "amp"), "dsp", "amp")],
        ),
        # over a relay's coil, which gives nothing of its own
        (
            f"dsp.rem-out: k1.86; {COIL}; dash.B+: k1.30; k1.87: amp.rem; amp.rem-out: dsp.rem",
            [(("dsp", "amp"), "dsp", "amp")],
        ),
        # the car wakes one of them
        ("dsp.rem-out: amp.rem; amp.rem-out: dsp.rem; dash.ACC: dsp.rem", []),
        ("dsp.rem-out: amp.rem; amp.rem-out: dsp.rem; dash.AMP-ON: amp.rem", []),
        # one after the other, and one that nothing wakes
        ("dash.AMP-ON: dsp.rem; dsp.rem-out: amp.rem", []),
        ("dsp.rem-out: amp.rem", []),
    ],
)
def test_units_that_wait_for_each_other(joints: str, found: list[tuple[tuple[str, ...], str, str]]) -> None:
    made = wake_order.loops(wiring_of(joints))
    assert [(each.units, each.wake.unit, each.giver.unit) for each in made] == found


# -- currents ------------------------------------------------------------------------------------------------------


RADIO = ("radio.AMP-ON", "dash.unit.1", "dash.car.1")  # the joint is made on the wire behind the plug


def loaded(wiring: Wiring) -> list[tuple[str, float, list[str], tuple[str, ...]]]:
    return [
        (each.giver.contact, round(each.sum_a, 4), [wake.unit for wake in each.wakes], each.way.path)
        for each in turn_on_load.loaded(wiring)
    ]


@pytest.mark.parametrize(
    ("joints", "found"),
    [
        # 35 + 300 mA, the way to what draws most
        (
            "dash.AMP-ON: [dsp.rem, amp.rem]",
            [("radio.AMP-ON", 0.335, ["dsp", "amp"], (*RADIO, "amp.rem"))],
        ),
        # what hangs behind a diode counts, once where two lead there; behind a relay only its coil
        (
            "dash.AMP-ON: [d1.a, d2.a]; d1.k: [d2.k, dsp.rem]",
            [("radio.AMP-ON", 0.035, ["dsp"], (*RADIO, "d1.a", "d1.k", "dsp.rem"))],
        ),
        (
            f"dash.AMP-ON: k1.86; {COIL}; dash.B+: k1.30; k1.87: amp.rem",
            [("radio.AMP-ON", 0.15, ["k1"], (*RADIO, "k1.86"))],
        ),
        # a current that isn't written counts as nothing
        ("dash.AMP-ON: bass.rem", [("radio.AMP-ON", 0.0, ["bass"], (*RADIO, "bass.rem"))]),
        ("dash.AMP-ON: [bass.rem, cam.rem]", [("radio.AMP-ON", 0.005, ["bass", "cam"], (*RADIO, "cam.rem"))]),
        # its own terminal doesn't hang on it; two outputs in the order of the job
        ("amp.rem-out: amp.rem", []),
        (
            "dsp.rem-out: amp.rem; amp.rem-out: dsp.rem",
            [
                ("dsp.rem-out", 0.3, ["amp"], ("dsp.rem-out", "amp.rem")),
                ("amp.rem-out", 0.035, ["dsp"], ("amp.rem-out", "dsp.rem")),
            ],
        ),
        # of the aerial wire nobody wrote what it can give; what comes behind it has its limit
        (
            "dash.AMP-ON: dash.AERIAL; dsp.rem-out: amp.rem",
            [("dsp.rem-out", 0.3, ["amp"], ("dsp.rem-out", "amp.rem"))],
        ),
        # the car's own wires have no limit written
        ("dash.ACC: [dsp.rem, amp.rem]", []),
        # two outputs on one wire: each of them carries it
        (
            "dsp.rem-out: [amp.rem-out, cam.rem]",
            [
                ("dsp.rem-out", 0.005, ["cam"], ("dsp.rem-out", "cam.rem")),
                ("amp.rem-out", 0.005, ["cam"], ("amp.rem-out", "dsp.rem-out", "cam.rem")),
            ],
        ),
    ],
)  # fmt: skip
def test_what_hangs_on_an_output(joints: str, found: list[object]) -> None:
    assert loaded(wiring_of(joints)) == found


def test_an_output_is_told_where_what_draws_most_was_joined() -> None:
    """Behind a diode: at the diode's other end, the second joint, and not where the diode hangs."""
    (made,) = turn_on_load.loaded(wiring_of("dash.AMP-ON: d1.a; d1.k: amp.rem"))
    assert (made.way.place.line, made.way.at) == (FIRST + 1, "d1.k")


def test_a_diode_that_comes_out_passes_nothing_and_is_across_nothing() -> None:
    head = HEAD.replace("removed: [gone]", "removed: [gone, d1]")
    assert loaded(wiring_of("dash.AMP-ON: d1.a; d1.k: dsp.rem", head=head)) == []
    assert sources(wiring_of("dash.ACC: d1.a; d1.k: amp.rem", head=head), "amp.rem") == []
    across = "dsp.rem-out: [k1.86, d1.k]; k1.85: [gnd.G1, d1.a]"
    assert [each.relay for each in relays.bare_coils(wiring_of(across, head=head))] == ["k1"]


def test_two_outputs_of_one_unit_in_one_net_and_a_third_apart() -> None:
    head = HEAD.replace("gives: {rem-out: 500 mA}", "gives: {rem-out: 500 mA, b-out: 90 mA, c-out: 80 mA}")
    made = loaded(wiring_of("dsp.rem-out: [dsp.b-out, cam.rem]; dsp.c-out: bass.rem", head=head))
    assert [each[:3] for each in made] == [
        ("dsp.rem-out", 0.005, ["cam"]), ("dsp.b-out", 0.005, ["cam"]), ("dsp.c-out", 0.0, ["bass"]),
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("joints", "coils"),
    [
        (f"dsp.rem-out: k1.86; {COIL}", ["k1"]),
        ("dsp.rem-out: k1.85; k1.86: gnd.G1", ["k1"]),
        # a diode across it, and the wrong way round
        ("dsp.rem-out: [k1.86, d1.k]; k1.85: [gnd.G1, d1.a]", []),
        ("dsp.rem-out: [k1.86, d1.a]; k1.85: [gnd.G1, d1.k]", ["k1"]),
        # the car's own wire may take it; the second relay after a good one
        (f"dash.ACC: k1.86; {COIL}", []),
        (f"dash.ACC: k1.86; {COIL}; dsp.rem-out: k2.86; {SECOND}", ["k2"]),
        (f"dsp.rem-out: [k1.86, d1.k]; k1.85: [gnd.G1, d1.a]; amp.rem-out: k2.86; {SECOND}", ["k2"]),
    ],
)
def test_coils_that_an_output_drives_with_nothing_across(joints: str, coils: list[str]) -> None:
    assert [each.relay for each in relays.bare_coils(wiring_of(joints))] == coils
    across = HEAD.replace("k1: {kind: relay, coil: 150 mA}", "k1: {kind: relay, coil: 150 mA diode}")
    assert [each.relay for each in relays.bare_coils(wiring_of(joints, head=across))] == [c for c in coils if c != "k1"]


# -- feeds ---------------------------------------------------------------------------------------------------------

DECK = HEAD.replace("  loc:", "  deck: {kind: interface, terminals: [B+, ACC]}\n  loc:")


@pytest.mark.parametrize(
    ("joints", "wrong"),
    [
        ("dash.B+: deck.B+; dash.ACC: deck.ACC", []),
        ("dash.ACC: deck.B+; dash.B+: deck.ACC", [[("deck.B+", "dash.car.2"), ("deck.ACC", "dash.car.3")]]),
        # only one of them
        ("dash.ACC: deck.B+", [[("deck.B+", "dash.car.2")]]),
        ("dash.ACC: [deck.B+, deck.ACC]", [[("deck.B+", "dash.car.2")]]),
        ("dash.B+: deck.ACC", [[("deck.ACC", "dash.car.3")]]),
        # a car without a switched wire: both hang on the constant one
        ("dash.B+: [deck.B+, deck.ACC]", []),
        # both kinds on one terminal is another fault
        ("dash.ACC: deck.B+; dash.B+: deck.B+", []),
        ("dash.AMP-ON: deck.B+", []),
    ],
)
def test_constant_and_switched_exchanged(joints: str, wrong: list[list[tuple[str, str]]]) -> None:
    made = exchanged.exchanged(wiring_of(joints, head=DECK))
    assert [[tuple(each) for each in one] for one in made] == wrong


def test_a_unit_that_comes_out_and_a_relay_have_nothing_exchanged() -> None:
    head = DECK.replace("removed: [gone]", "removed: [gone, deck]")
    assert list(exchanged.exchanged(wiring_of("dash.ACC: deck.B+; dash.B+: deck.ACC", head=head))) == []
    two = DECK.replace("  loc:", "  more: {kind: interface, terminals: [B+, ACC]}\n  loc:")
    made = list(exchanged.exchanged(wiring_of("dash.B+: deck.B+; dash.ACC: [deck.ACC, more.B+, s1.rem]", head=two)))
    assert [[each.terminal for each in one] for one in made] == [["more.B+"]]
