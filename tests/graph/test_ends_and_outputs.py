"""Ends without a fate, wires that look alike, outputs that meet, units that are fed: read off one job by hand."""

from __future__ import annotations

import pytest

from harness.graph import alike, fitted, live, loose
from harness.graph.conductor import Conductor
from harness.graph.wiring import Wiring
from harness.place import Place
from harness.read.job import read_job_text
from harness.read.troubles import Troubles

HEAD = """\
ringout: 1
title: Ends
car: {name: Bench hatch, steering: left}
plugs:
  dash:
    place: behind the radio
    unit: radio
    face: {rows: 2, columns: 8, view: wire, latch: top, first: top left, count: across}
    cavities: {1/2: FL WH WH/BK, 3/4: FR GY GY/BK, 5/6: RL GN GN/BK, 7: ACC RD, 8: B+ YE, 9: ILL OG, 10: GND BK}
  boot:
    place: boot
    face: {rows: 1, columns: 4, view: wire, latch: top, first: top left, count: across}
    cavities: {1: ILL OG}
  seat:
    place: under the seat
    unit: fused
    face: {rows: 1, columns: 4, view: wire, latch: top, first: top left, count: across}
    cavities: {1: B+ YE}
looms:
  T1:
    ends: {unit: 4-way, car: 4-way}
    leads: {1/2: C OG OG/BK, unit.3: unknown BU, aerial: AERIAL BU}
units:
  radio: {kind: radio}
  gone: {kind: amplifier, leads: {B+: YE, GND: BK}, outputs: {out1: 50 W}}
  amp:
    kind: amplifier
    outputs: {out1..2: 50 W, low: 4 V grounded}
    leads: {out1: WH WH/BK, B+: YE, GND: BK, rem: BU}
  mono: {kind: amplifier, outputs: {a: 50 W, b: 50 W}, bonds: [a- b-]}
  fused: {kind: interface, leads: {B+: YE}}
  passive: {kind: line converter}
  woken: {kind: line converter, wakes: rem}
  drawn: {kind: line converter, draws: 1 A}
  other: {kind: line converter}
  body: {kind: control unit, draws: 1 A}
  k1: {kind: relay}
  d1: {kind: diode}
  s1: {kind: switch}
  spare: {kind: relay}
speakers: {FL FR: {nominal: 4 ohm}}
inline: {C9: left pillar}
grounds: {G1: {place: floor, metal: bare}}
removed: [gone, spare]
"""


def wiring_of(more: str = "", joints: str = "", head: str = HEAD) -> Wiring:
    """Joints are given one by one, parted by `; `."""
    troubles = Troubles()
    rows = "".join(f"    {row}\n" for row in joints.split("; ") if row)
    text = head + more + (f"joints:\n  solder at the dash:\n{rows}" if rows else "")
    job = read_job_text(text, "ends.yaml", troubles)
    assert job is not None, troubles.findings
    assert not troubles.findings, troubles.findings
    return Wiring(job)


def line_of(words: str) -> int:
    return HEAD[: HEAD.index(words)].count("\n") + 1


LOOM, LEADS, CUT = line_of("    leads: {1/2: C"), line_of("    leads: {out1"), HEAD.count("\n") + 1


def test_leads_joined_to_nothing() -> None:
    """A loom's two ends each, a pair in one row; not what is capped, joined or comes out."""
    more = "capped: [T1.aerial]\n"
    made = loose.loose_ends(wiring_of(more, "amp.out1: spk.FL; amp.B+: dash.B+; amp.rem: dash.7"))
    assert [(each.owner, each.contacts, each.place.line, each.cut) for each in made] == [
        ("T1", ("T1.unit.1", "T1.unit.2"), LOOM, False),
        ("T1", ("T1.car.1", "T1.car.2"), LOOM, False),
        ("T1", ("T1.unit.3",), LOOM, False),
        ("amp", ("amp.GND",), LEADS, False),
    ]


def test_both_ends_of_a_cut_want_a_fate() -> None:
    """Joined, capped or depinned is one; a loom plugged in takes both ends of that plug's wires; one wire of a pair."""
    more = "cut: [dash.FL, dash.FR, dash.7, dash.9, dash.B+]\ncapped: [dash.unit.9]\ndepinned: [dash.car.9]\n"
    made = loose.loose_ends(wiring_of(more, "dash.unit.FL: amp.out1; dash.car.3: amp.rem; dash.car.7: amp.B+"))
    assert [(each.owner, each.contacts, each.place.line) for each in made if each.cut] == [
        ("dash", ("dash.car.1", "dash.car.2"), CUT), ("dash", ("dash.unit.3", "dash.unit.4"), CUT),
        ("dash", ("dash.car.4",), CUT), ("dash", ("dash.unit.7",), CUT), ("dash", ("dash.unit.8",), CUT),
        ("dash", ("dash.car.8",), CUT),
    ]  # fmt: skip
    assert not [each for each in made if not each.cut and each.owner == "dash"]


def test_a_lead_of_a_unit_that_sits_on_a_plug_is_no_flying_lead() -> None:
    assert "fused" not in {each.owner for each in loose.loose_ends(wiring_of())}
    alone = HEAD.replace("    unit: fused\n", "")
    assert "fused" in {each.owner for each in loose.loose_ends(wiring_of(head=alone))}


# -- alike ---------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("cavities", "more", "found"),
    [
        # the colour, the stripe, what is done to one of two, and to both
        ("1: ACC RD, 2: ILL RD", "cut: [dash.1]\n", [(["1", "2"], ["1"])]),
        ("1: ACC RD, 2: ILL RD", "cut: [dash.1, dash.2]\n", [(["1", "2"], ["1", "2"])]),
        ("1: ACC RD/BK, 2: ILL RD", "cut: [dash.1]\n", []),
        ("1: ACC RD, 2: ILL BU", "cut: [dash.1]\n", []),
        ("1: ACC RD, 2: ILL RD", "", []),
        ("1: ACC RD, 2: ILL RD, 3: B+ YE", "cut: [dash.3]\n", []),
        # nobody knows the colour, nothing sits there, the same function, something is written that tells them apart
        ("1: {function: ACC, colour: unknown}, 2: {function: ILL, colour: unknown}", "cut: [dash.1]\n", []),
        ("1: ACC RD, 2: empty", "cut: [dash.1]\n", []),
        ("1: GND BK, 2: GND BK", "cut: [dash.1]\n", []),
        ("1: unknown BK, 2: unknown BK", "cut: [dash.1]\n", [(["1", "2"], ["1"])]),
        ("1: ACC RD, 2: {function: ILL, colour: RD, note: thick}", "cut: [dash.1]\n", []),
        ("1: {function: ACC, colour: RD, note: thick}, 2: ILL RD", "cut: [dash.1]\n", []),
        # joined as found they are one wire
        ("1: ACC RD, 2: ILL RD", "cut: [dash.1]\nfound: [dash.1 > dash.2]\n", []),
        # of three the one of the same function is no wrong one; two colours are told one after the other
        ("1: GND BK, 2: GND BK, 3: ILL BK", "cut: [dash.1]\n", [(["1", "3"], ["1"])]),
        (
            "1: ACC RD, 2: ILL RD, 3: AMP-ON BU, 4: AERIAL BU", "cut: [dash.4, dash.1]\n",
            [(["1", "2"], ["1"]), (["3", "4"], ["4"])],
        ),
    ],
)  # fmt: skip
def test_wires_in_one_colour_of_which_one_is_worked_on(
    cavities: str, more: str, found: list[tuple[list[str], list[str]]]
) -> None:
    start, end = HEAD.index("    cavities: {1/2"), HEAD.index("  boot:")
    made = alike.alike(wiring_of(more, head=f"{HEAD[:start]}    cavities: {{{cavities}}}\n{HEAD[end:]}"))
    assert [([row.cavity for row in e.rows], [row.cavity for row, _ in e.worked]) for e in made] == found


# -- outputs -------------------------------------------------------------------------------------------------------


def test_the_terminals_that_are_live() -> None:
    """Not the − that is on the unit's ground inside, and nothing of a unit that comes out."""
    made = [name for name, _ in live.live_terminals(wiring_of())]
    assert made == [
        "amp.out1+", "amp.out1-", "amp.out2+", "amp.out2-", "amp.low+", "mono.a+", "mono.a-", "mono.b+", "mono.b-",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("joints", "found"),
    [
        ("amp.out1+: spk.FL+", []),
        ("amp.out1+: mono.a+", [(("amp.out1+", "mono.a+"), False)]),
        ("amp.out1-: mono.a-", [(("amp.out1-", "mono.a-"), True)]),
        # the two wires of one output are one; what a unit joins inside counts once
        ("amp.out1+: amp.out1-", []),
        ("mono.a-: mono.b-", []),
        ("mono.a-: [mono.b-, amp.out1-]", [(("amp.out1-", "mono.a-"), True)]),
        # + stands before −, and such as hold a + before the others
        ("amp.out1-: mono.a+", [(("mono.a+", "amp.out1-"), False)]),
        (
            "amp.out1-: mono.a-; amp.out2+: mono.b+",
            [(("amp.out2+", "mono.b+"), False), (("amp.out1-", "mono.a-"), True)],
        ),
        # over ground they don't meet each other
        ("amp.out1+: gnd.G1; gnd.G1: mono.a+", []),
        # two beside each other, and a third over ground
        ("amp.out1+: [mono.a+, gnd.G1]; gnd.G1: amp.out2+", [(("amp.out1+", "mono.a+"), False)]),
    ],
)  # fmt: skip
def test_where_outputs_meet(joints: str, found: list[tuple[tuple[str, ...], bool]]) -> None:
    made = live.meetings(wiring_of(joints=joints))
    assert [(each.terminals, each.minus_only) for each in made] == found


@pytest.mark.parametrize(
    ("a", "b", "held"),
    [
        ("amp.B+", "dash.car.8", "dash.car.8"), ("dash.car.8", "amp.B+", "dash.car.8"),
        ("amp.out1+", "spk.FL+", "spk.FL+"), ("spk.FL+", "T1.car.1", "T1.car.1"), ("gnd.G1", "amp.GND", "amp.GND"),
        # of two that are held alike the first
        ("T1.car.1", "dash.car.1", "T1.car.1"), ("dash.car.1", "T1.car.1", "dash.car.1"),
    ],
)  # fmt: skip
def test_the_end_that_one_holds(a: str, b: str, held: str) -> None:
    wiring = wiring_of()
    assert live.seen_at(wiring, Conductor(a, b, "joint", 2, "", Place("ends.yaml", 1, 1)), "amp.rem") == held
    assert live.seen_at(wiring, None, "amp.rem") == "amp.rem"


# -- units that we fit ---------------------------------------------------------------------------------------------


def test_which_units_want_a_feed_laid() -> None:
    """Amplifiers and interfaces, converters that draw or are woken; not what sits on a fed plug, comes out, or is the
    car's.
    """
    wiring = wiring_of()
    assert [unit.name for unit in fitted.ours(wiring)] == ["amp", "mono", "woken", "drawn"]
    assert fitted.seated(wiring) == {"radio", "fused"}
    bare = wiring_of(head=HEAD.replace("other: {kind: line converter", "other: {kind: line converter, fuses: 5 A"))
    assert "other" in [unit.name for unit in fitted.ours(bare)]
    assert fitted.terminals_for(wiring, "amp", "battery") == ["amp.B+"]
    assert fitted.terminals_for(wiring, "amp", "battery", "ground") == ["amp.B+", "amp.GND"]
    takes = {name for name in wiring.job.contacts if fitted.takes_feed(wiring, name)}
    assert {"amp.B+", "fused.B+"} <= takes
    assert not takes & {"amp.GND", "amp.rem", "dash.car.8", "battery.+", "k1.30"}


@pytest.mark.parametrize(
    ("joints", "fed"),
    [
        ("amp.B+: dash.B+", True), ("amp.B+: battery.+", True), ("amp.B+: amp.rem", False), ("amp.B+: dash.9", True),
        ("amp.B+: gnd.G1", False),
        # through what switches, whichever way round; not by the coil, by ground, or by what comes out
        ("dash.B+: k1.30; k1.87: amp.B+", True), ("dash.B+: k1.87; k1.30: amp.B+", True),
        ("dash.B+: k1.87a; k1.87: amp.B+", True), ("dash.B+: k1.86; k1.87: amp.B+", False),
        ("dash.B+: k1.30; k1.85: amp.B+", False), ("dash.B+: spare.30; spare.87: amp.B+", False),
        ("dash.B+: d1.a; d1.k: amp.B+", True), ("dash.B+: s1.a; s1.b: amp.B+", True),
        ("dash.B+: mono.B+; mono.rem: amp.B+", False),
        # two one behind the other, and a ring
        ("dash.B+: d1.a; d1.k: k1.30; k1.87: amp.B+", True), ("d1.a: k1.30; d1.k: [k1.87, amp.B+]", False),
    ],
)  # fmt: skip
def test_whether_something_gives_a_terminal_current(joints: str, fed: bool) -> None:
    wiring = wiring_of(joints=joints, head=HEAD.replace("{kind: switch}", "{kind: switch, terminals: [a, b]}"))
    assert fitted.is_fed(wiring, "amp.B+") is fed
    assert fitted.is_fed(wiring, "amp.B+") is fed, "asked again"
    assert fitted.is_fed(wiring, "dash.car.8")
