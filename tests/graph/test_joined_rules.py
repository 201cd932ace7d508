"""Data wires, grounds, feeds of the car, joints and rows: what the small rules say, read off the file by hand."""

from __future__ import annotations

import pytest

from harness.graph import (
    back_feed,
    bus,
    control_feed,
    data_joints,
    data_pairs,
    fused_ground,
    grounded_apart,
    grounding,
    lumps,
    pins,
    radio_circuit,
    rows,
    touched,
    worked,
)  # fmt: skip
from harness.graph.splices import splices
from harness.graph.wiring import Wiring
from harness.model.job import Joint
from harness.read.job import read_job_text
from harness.read.rows import read_function
from harness.read.troubles import Troubles

HEAD = """\
ringout: 1
title: Joined on a bench
car: {name: Bench car, steering: left}
plugs:
  dash:
    place: behind the radio
    unit: radio
    face: {rows: 1, columns: 12, view: wire, latch: top, first: top left, count: across}
    cavities: {1: B+ YE, 2: GND BK, 3/4: CAN YE/GN YE/BN twisted, 5: ILL OG, 6/7: FL WH WH/BK, 8: ACC RD}
  gate:
    place: tailgate
    unit: body
    face: {rows: 1, columns: 8, view: wire, latch: top, first: top left, count: across}
    cavities: {1: B+ YE, 2: GND BK, 3: CAN-H YE/GN, 4: CAN-L YE/BN, 5: ILL OG, 6: ACC RD}
  sill:
    place: left sill
    face: {rows: 1, columns: 4, view: wire, latch: top, first: top left, count: across}
    cavities: {1: CAN-H YE/GN, 2: ILL OG, 3: B+ YE}
looms:
  T1: {ends: {unit: 12-way, car: 12-way}, through: 1..2, leads: {3/4: CAN YE/GN YE/BN, car.6: unknown WH}}
units:
  radio: {kind: radio, outputs: {FL: btl 8 V}}
  body: {kind: control unit}
  face: {kind: interface, terminals: [CAN, line], draws: 1 A}
  eye: {kind: interface, terminals: [CAN-H, CAN-L], draws: 2 A}
  amp: {kind: amplifier, inputs: {in1: 0.2..4 V, in2: 0.2..4 V differential}, outputs: {out1: 50 W}, draws: 20 A}
  dsp: {kind: processor, inputs: {in1: 1..4 V}, outputs: {out1: 4 V, out2: 4 V}, gives: {rem-out: 1 A}}
  cam: {kind: interface, gives: {rem-out: 1 A}}
  out: {kind: interface, draws: 1 A}
grounds: {G1: {place: floor, metal: bare}, G2: {place: boot, metal: bare}}
inline: {C204: left pillar}
removed: [out]
"""


def wiring_of(joints: str, more: str = "", mate: str = "", head: str = HEAD) -> Wiring:
    """Joints are given one by one, parted by `; `, the first of them in line FIRST."""
    troubles = Troubles()
    made = "".join(f"    {row}\n" for row in joints.split("; ") if row)
    text = head + ("joints:\n" if joints or mate else "") + (f"  solder at dash:\n{made}" if joints else "")
    text += (f"  mate: {{{mate}}}\n" if mate else "") + more
    job = read_job_text(text, "joined.yaml", troubles)
    assert job is not None, troubles.findings
    assert not troubles.findings, troubles.findings
    return Wiring(job)


FIRST = HEAD.count("\n") + 3


# -- data ----------------------------------------------------------------------------------------------------------


def test_the_data_pairs_of_the_plugs() -> None:
    """Written as one row, as two, and one wire alone."""
    made = [(each.plug, each.high.cavity, each.low.cavity) for each in data_pairs.data_pairs(wiring_of(""))]
    assert made == [("dash", "3", "4"), ("gate", "3", "4")]
    two = HEAD.replace("3: CAN-H YE/GN, 4: CAN-L YE/BN, 5: ILL OG", "3/7: CAN YE/GN YE/BN, 4: CAN-L YE, 5: CAN-H GN")
    made = [(each.plug, each.high.cavity, each.low.cavity) for each in data_pairs.data_pairs(wiring_of("", head=two))]
    assert made == [("dash", "3", "4"), ("gate", "3", "7"), ("gate", "5", "4")], "its own partner, then what is left"
    turned = HEAD.replace("3: CAN-H YE/GN, 4: CAN-L YE/BN, 5: ILL OG", "4: CAN-L YE, 5: CAN-H GN, 3/7: CAN YE/GN YE/BN")
    made = [
        (each.plug, each.high.cavity, each.low.cavity) for each in data_pairs.data_pairs(wiring_of("", head=turned))
    ]
    assert made == [("dash", "3", "4"), ("gate", "5", "4"), ("gate", "3", "7")]


def test_where_a_data_wire_is_closed_again() -> None:
    """The cut; the loom's lead, where nothing is done with it; the mate where the loom has no lead for it."""
    cut = wiring_of("", "cut:\n  - dash.car.3\n")
    assert data_pairs.opening(cut, "dash", "3").line == HEAD.count("\n") + 2
    lead = wiring_of("", mate="T1: dash")
    assert data_pairs.opening(lead, "dash", "3").line == HEAD[: HEAD.index("  T1:")].count("\n") + 1
    assert data_pairs.opening(lead, "dash", "8").line == HEAD.count("\n") + 2, "the loom has nothing for it"
    pulled = wiring_of("", "depinned:\n  - T1.car.3\n", mate="T1.car: dash")
    assert data_pairs.opening(pulled, "dash", "3").line == HEAD.count("\n") + 4, "the radio's side has no loom on it"
    joined = wiring_of("T1.unit.3: eye.CAN-H", mate="T1: dash")
    assert data_pairs.opening(joined, "dash", "3").line == FIRST


def troubles(wiring: Wiring) -> list[tuple[str, str, str]]:
    return [tuple(each) for each in bus.bus_troubles(wiring)]


@pytest.mark.parametrize(
    ("joints", "told"),
    [
        ("", []),
        ("dash.3: eye.CAN-H; dash.4: eye.CAN-L", []),
        # both wires of one; a stranger; another bus; letters that cross
        ("dash.car.3: dash.car.4", [("shorted", "dash.unit.3", "dash.unit.4")]),
        ("eye.CAN-H: eye.CAN-L", [("shorted", "eye.CAN-H", "eye.CAN-L")]),
        ("dash.3: amp.in1+", [("stranger", "dash.unit.3", "amp.in1+")]),
        ("dash.3: dash.ILL", [("stranger", "dash.unit.3", "dash.car.5")]),
        (
            "dash.3: gate.3; dash.4: gate.4",
            [("other bus", "dash.unit.3", "gate.unit.3"), ("other bus", "dash.unit.4", "gate.unit.4")],
        ),
        (
            "dash.3: eye.CAN-L; dash.4: eye.CAN-H",
            [("crossed", "dash.unit.3", "eye.CAN-L"), ("crossed", "dash.unit.4", "eye.CAN-H")],
        ),
        # what a loom's maker calls its lead crosses nothing
        ("dash.3: T1.car.4", []),
        # a terminal of which nobody knows more, a loom's lead, the inside of a run are no strangers
        ("dash.3: face.line; dash.4: T1.car.6", []),
        # the worst of one net: shorted before a stranger, a stranger before another bus
        ("dash.car.3: [dash.car.4, amp.in1+]", [("shorted", "dash.unit.3", "dash.unit.4")]),
        ("dash.3: [gate.3, amp.in1+]", [("stranger", "dash.unit.3", "amp.in1+")]),
        # the second of two nets
        ("dash.3: eye.CAN-H; gate.3: amp.in1+", [("stranger", "gate.unit.3", "amp.in1+")]),
    ],
)  # fmt: skip
def test_what_must_not_meet_on_a_bus(joints: str, told: list[tuple[str, str, str]]) -> None:
    assert troubles(wiring_of(joints)) == told


def test_a_wire_of_a_bus_without_its_letter() -> None:
    """Charted `CAN` alone it may be either of the two: it crosses nothing for all that is known."""
    head = HEAD.replace("1: CAN-H YE/GN, 2: ILL OG", "1: CAN YE/GN, 2: ILL OG")
    found = "found:\n  - dash.3 > sill.1\n"
    assert troubles(wiring_of("dash.3: eye.CAN-H", found, head=head)) == []
    assert troubles(wiring_of("dash.4: eye.CAN-L", found.replace(".3", ".4"), head=head)) == []


def test_two_cut_wires_of_two_buses() -> None:
    """Each is alone with its own half: nothing else of either plug is in the net."""
    made = troubles(wiring_of("dash.unit.3: gate.unit.3", "cut: [dash.3, gate.3]\n"))
    assert made == [("other bus", "dash.unit.3", "gate.unit.3")]


def test_one_bus_with_two_plugs_as_found_is_one() -> None:
    found = "found:\n  - dash.3 > gate.3\n"
    assert troubles(wiring_of("dash.3: eye.CAN-H", found)) == []
    made = troubles(wiring_of("dash.3: sill.1", found))
    assert made == [("other bus", "dash.unit.3", "sill.unit.1")], "the third plug was on no bus of theirs"


@pytest.mark.parametrize(
    ("joints", "made"),
    [
        ("dash.5: face.line", []),
        ("dash.3: eye.CAN-H", [("dash.car.3", "dash.car.3")]),
        ("eye.CAN-H: dash.3", [("dash.car.3", "dash.car.3")]),
        # two terminals of units; what nobody charted as data, by the car's wire that it conducts to
        ("eye.CAN-H: face.CAN-H", [("eye.CAN-H", "eye.CAN-H")]),
        ("dash.3: face.line; face.line: T1.car.6", [("dash.car.3", "dash.car.3"), ("dash.unit.3", "face.line")]),
    ],
)
def test_the_joints_on_a_bus(joints: str, made: list[tuple[str, str]]) -> None:
    assert [each[1:] for each in data_joints.data_joints(wiring_of(joints))] == made


# -- what a control unit's feed carries ----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("joints", "more", "found"),
    [
        ("gate.1: eye.B+", "", [("gate.car.1", "eye.B+")]),
        ("gate.6: eye.B+", "", [("gate.car.6", "eye.B+")]),
        # lamps are no supply; a radio is no control unit; ground, an input, data are no takers
        ("gate.5: eye.B+", "", []), ("dash.1: eye.B+", "", []), ("gate.1: gnd.G1", "", []), ("gate.1: eye.GND", "", []),
        ("gate.1: amp.in1+", "", []), ("gate.1: eye.CAN-H", "", []),
        # its own terminal, and what comes out
        ("gate.1: body.line", "", []), ("gate.1: out.B+", "", []),
        # by a run, over a fuse; two takers behind one joint are told by the nearer; two joints
        ("", "runs:\n  - gate.car.1 > 1 ft 16 AWG > fuse 5 A > 1 ft 16 AWG > eye.B+\n", [("gate.car.1", "eye.B+")]),
        ("gate.1: [eye.B+, amp.B+]", "", [("gate.car.1", "eye.B+"), ("gate.car.1", "amp.B+")]),
        ("gate.1: eye.B+; eye.B+: amp.B+", "", [("gate.car.1", "eye.B+")]),
        ("gate.1: amp.in1+; amp.in1+: eye.B+", "", []),
        # by a loom's lead on which something hangs that takes nothing
        ("gate.1: T1.car.6; T1.car.6: [amp.in1+, eye.B+]", "", [("gate.car.1", "eye.B+")]),
        ("gate.1: T1.car.6; T1.car.6: [gnd.G1, eye.B+]", "", [("gate.car.1", "eye.B+")]),
        # behind an inline plug of the same wire; another unit's plug ends it, and so does a fuse
        ("C204.1: eye.B+", "found:\n  - gate.1 > C204.1 > fuse 10 A > battery.+\n", [("gate.car.1", "eye.B+")]),
        ("dash.1: eye.B+", "found:\n  - gate.1 > dash.1\n", []),
        ("C204.1: eye.B+", "found:\n  - gate.1 > fuse 10 A > C204.1 > battery.+\n", []),
        ("battery.+: eye.B+", "found:\n  - gate.1 > battery.+\n", []),
        # ground ends it: what hangs behind it is no part of the feed
        ("gnd.G1: eye.B+", "found:\n  - gate.1 > gnd.G1\n", []),
        # behind our joint a wire that ends at a plug's two halves
        ("gate.1: T1.car.6; T1.car.6: sill.2", "", []),
        # a plug with nothing on it doesn't end it
        ("sill.3: eye.B+", "found:\n  - gate.1 > sill.3\n", [("gate.car.1", "eye.B+")]),
        # it hung there as found
        ("gate.1: eye.B+", "found:\n  - gate.1 > eye.B+\n", []),
    ],
)  # fmt: skip
def test_what_is_fed_from_a_control_units_supply(joints: str, more: str, found: list[tuple[str, str]]) -> None:
    head = HEAD.replace("{kind: control unit}", "{kind: control unit, terminals: [line]}")
    made = control_feed.taps(wiring_of(joints, more, head=head))
    assert [(each.cavity, each.taker) for each in made] == found


# -- feeds of the car ----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("joints", "more", "found"),
    [
        # 15 A is what a radio's circuit has where nothing is recorded (common practice, no source)
        ("dash.1: eye.B+", "", [("eye.B+", "dash.car.1", 15.0, False)]),
        ("dash.1: eye.B+", "found:\n  - dash.1 > fuse 10 A > battery.+\n", [("eye.B+", "dash.car.1", 10.0, True)]),
        # a fuse of unknown value lets everything through: our own cable reaches it as well
        ("dash.1: eye.B+", "found:\n  - dash.1 > fuse unknown > battery.+\n", []),
        ("", "runs:\n  - battery.+ > fuse 30 A > 1 ft 8 AWG > eye.B+\n", []),
        # it draws nobody knows what; nothing is joined to it; the car's own units
        ("dash.1: cam.B+", "", []), ("", "", []), ("dash.1: radio.ILL", "", []),
        # lamps feed nobody
        ("dash.5: eye.B+", "", []),
        # a switched feed wakes a unit that gets its current by a constant one; alone it carries all of it
        ("dash.8: amp.ACC", "", [("amp.ACC", "dash.car.8", 15.0, False)]),
        ("dash.8: amp.ACC", "runs:\n  - battery.+ > fuse 30 A > 1 ft 8 AWG > amp.B+\n", []),
        ("dash.1: amp.B+; dash.8: amp.ACC", "", [("amp.B+", "dash.car.1", 15.0, False)]),
        # of two constant ones the second hangs on the car's wire, the first on our own cable
        (
            "dash.1: amp.30A", "runs:\n  - battery.+ > fuse 30 A > 1 ft 8 AWG > amp.B+\n",
            [("amp.30A", "dash.car.1", 15.0, False)],
        ),
        # the first on a fuse of unknown value
        (
            "dash.1: amp.B+; gate.1: amp.30A", "found:\n  - dash.1 > fuse unknown > battery.+\n",
            [("amp.30A", "gate.car.1", 15.0, False)],
        ),
        # two, in the order of the job
        (
            "dash.1: [amp.B+, eye.B+]", "",
            [("eye.B+", "dash.car.1", 15.0, False), ("amp.B+", "dash.car.1", 15.0, False)],
        ),
    ],
)  # fmt: skip
def test_what_a_wire_of_the_car_feeds(joints: str, more: str, found: list[tuple[str, str, float, bool]]) -> None:
    head = HEAD.replace("radio: {kind: radio,", "radio: {kind: radio, terminals: [ILL],")
    head = head.replace("amp: {kind: amplifier,", "amp: {kind: amplifier, terminals: [ACC, 30A],")
    made = radio_circuit.fed_from_car(wiring_of(joints, more, head=head))
    assert [(each.feed, each.cavity, each.rating_a, each.recorded) for each in made] == found


@pytest.mark.parametrize(
    ("joints", "tied"),
    [
        ("dsp.rem-out: amp.rem", []),
        ("dsp.rem-out: cam.rem-out", [("dsp.rem-out", "cam.rem-out")]),
        # the car's own is named first, of three
        ("dsp.rem-out: [cam.rem-out, dash.ACC]", [("dsp.rem-out", "dash.car.8")]),
        ("dash.ACC: dsp.rem-out", [("dsp.rem-out", "dash.car.8")]),
        # two nets
        ("dsp.rem-out: dash.ACC; cam.rem-out: gate.6", [("dsp.rem-out", "dash.car.8"), ("cam.rem-out", "gate.car.6")]),
    ],
)
def test_outputs_tied_to_another_source(joints: str, tied: list[tuple[str, str]]) -> None:
    made = back_feed.tied(wiring_of(joints))
    assert [(each.output.contact, each.other.contact) for each in made] == tied


def test_an_output_tied_behind_two_that_are_tied_to_each_other() -> None:
    head = HEAD.replace(
        "  out: {kind: interface,", "  late: {kind: interface, gives: {rem-out: 1 A}}\n  out: {kind: interface,"
    )
    made = back_feed.tied(wiring_of("dsp.rem-out: cam.rem-out; late.rem-out: dash.ACC", head=head))
    assert [(each.output.contact, each.other.contact) for each in made] == [
        ("dsp.rem-out", "cam.rem-out"), ("late.rem-out", "dash.car.8"),
    ]  # fmt: skip


def test_two_cavities_of_different_functions_are_a_tie_of_feeds() -> None:
    """The radio's turn-on wire on ACC is F25's, also where the radio's `gives` is written; a unit's output is not."""
    head = HEAD.replace("8: ACC RD}\n  gate", "8: ACC RD, 9: AMP-ON BU}\n  gate")
    head = head.replace("radio: {kind: radio,", "radio: {kind: radio, gives: {AMP-ON: 100 mA},")
    assert list(back_feed.tied(wiring_of("dash.car.9: dash.car.8", head=head))) == []
    made = back_feed.tied(wiring_of("dash.car.9: dsp.rem-out", head=head))
    assert [{each.output.unit, each.other.unit} for each in made] == [{"radio", "dsp"}]


# -- grounds -------------------------------------------------------------------------------------------------------

GROUNDS = "runs:\n  - dsp.GND > 1 ft 8 AWG > gnd.G1\n  - amp.GND > 1 ft 8 AWG > gnd.{}\n"


@pytest.mark.parametrize(
    ("joints", "point", "apart"),
    [
        ("dsp.out1: amp.in1", "G2", [("dsp", "amp")]),
        ("dsp.out1: amp.in1", "G1", []),
        # a differential input parts them; the second output goes to the other one
        ("dsp.out1: amp.in2", "G2", []),
        ("dsp.out1: amp.in2; dsp.out2: amp.in1", "G2", [("dsp", "amp")]),
        # the same two are told once; a bridged output has no ground; a speaker is no unit
        ("dsp.out1: amp.in1; amp.out1: dsp.in1", "G2", [("amp", "dsp"), ("dsp", "amp")]),
        ("radio.FL: amp.in1", "G2", []),
        ("", "G2", []),
    ],
)
def test_grounds_at_two_points_with_a_signal_between(joints: str, point: str, apart: list[tuple[str, str]]) -> None:
    made = list(grounded_apart.grounded_apart(wiring_of(joints, GROUNDS.format(point))))
    assert sorted((each.giver, each.taker) for each in made) == sorted(apart)
    for each in made:
        assert (each.giver_points, each.taker_points) in ((("gnd.G1",), ("gnd.G2",)), (("gnd.G2",), ("gnd.G1",)))


@pytest.mark.parametrize(("form", "shared"), [
    ("", True), ("differential", False), ("transformer", False), ("btl", False), ("grounded", True)
])  # fmt: skip
def test_an_output_whose_minus_is_no_ground_shares_none(form: str, shared: bool) -> None:
    head = HEAD.replace("outputs: {out1: 4 V, out2: 4 V}", f"outputs: {{out1: 4 V {form}, out2: 4 V}}")
    made = grounded_apart.grounded_apart(wiring_of("dsp.out1: amp.in1", GROUNDS.format("G2"), head=head))
    assert bool(list(made)) is shared


def test_the_way_of_a_ground_to_its_point() -> None:
    wiring = wiring_of("", GROUNDS.format("G1") + "  - face.GND > 1 ft 8 AWG > amp.GND\n")
    way = grounding.way_to_point(wiring, "gnd.G1")
    assert (way[0], way[-1]) == ("dsp.GND", "gnd.G1")
    last = next(each for each in wiring.planned.conductors("gnd.G1") if "amp" in each.a)
    way = grounding.way_to_point(wiring, "gnd.G1", last)
    assert (way[0], way[-1]) == ("amp.GND", "gnd.G1")
    assert grounding.way_to_body(wiring, "face.GND")[:1] == ("face.GND",)
    assert grounding.way_to_body(wiring, "face.GND")[-1] == "gnd.G1"
    assert grounding.way_to_body(wiring, "eye.GND") == ("eye.GND",)


def test_the_lead_of_another_unit_is_no_part_of_a_ground() -> None:
    """The amplifier's wire is joined to the end of the processor's thin lead, and goes on from there by the cable."""
    head = HEAD.replace("dsp: {kind: processor,", "dsp: {kind: processor, leads: {GND: BK 18 AWG},")
    wiring = wiring_of("amp.GND: dsp.GND", "runs:\n  - dsp.GND > 1 ft 8 AWG > gnd.G1\n", head=head)
    assert [each.words for each in grounding.ground_cables(wiring, "amp.GND")] == ["8 AWG (8.37 mm²)"]


def test_a_fuse_of_ours_in_a_ground_behind_one_of_the_cars() -> None:
    """What the car's maker fuses is his doing."""
    chains = "found:\n  - dash.2 > fuse 10 A > gnd.G1\nruns:\n  - amp.GND > 1 ft 8 AWG > fuse 5 A > gnd.G2\n"
    made = fused_ground.fused_grounds(wiring_of("dash.2: eye.GND", chains))
    assert [(each.terminal, each.fuse.rating_a) for each in made] == [("amp.GND", 5.0)]


def test_the_thickest_feed_that_comes_first() -> None:
    """Over the joint and the fuse to the 8 AWG cable; the 4 AWG behind it comes later; ground is no feed."""
    wiring = wiring_of(
        "amp.B+: cam.B+",
        "runs:\n  - battery.+ > 1 ft 4 AWG > fuse 40 A > 9 ft 8 AWG > fuse 30 A > cam.B+\n"
        "  - cam.B+ > 1 ft 16 AWG > face.B+\n  - amp.GND > 1 ft 2 AWG > gnd.G1\n",
    )
    made = grounding.feed_cable(wiring, ["amp.B+"])
    assert made is not None
    assert made.words == "8 AWG (8.37 mm²)"
    assert grounding.feed_cable(wiring, ["eye.B+"]) is None
    # by two joints in a row
    wiring = wiring_of("amp.B+: cam.B+; cam.B+: face.B+", "runs:\n  - battery.+ > fuse 40 A > 9 ft 8 AWG > face.B+\n")
    made = grounding.feed_cable(wiring, ["amp.B+"])
    assert made is not None
    assert made.words == "8 AWG (8.37 mm²)"


# -- joints --------------------------------------------------------------------------------------------------------


def joint(*links: tuple[str, str]) -> Joint:
    made = wiring_of("; ".join(["dash.5: amp.rem"])).job.joints[0]
    return made._replace(links=tuple(made.links[0]._replace(a=a, b=b) for a, b in links))


@pytest.mark.parametrize(
    ("links", "metal"),
    [
        ((("a", "b"),), [("a", "b")]),
        ((("a", "b"), ("c", "d")), [("a", "b"), ("c", "d")]),
        ((("a", "b"), ("a", "c")), [("a", "b", "c")]),
        ((("a", "b"), ("c", "b")), [("a", "b", "c")]),
        ((("a", "b"), ("b", "c"), ("c", "d")), [("a", "b", "c", "d")]),
        # the third puts the first two together; a pair to two pairs
        ((("a", "b"), ("c", "d"), ("b", "d")), [("a", "b", "c", "d")]),
        ((("a", "x"), ("b", "y"), ("a", "p"), ("b", "q")), [("a", "x", "p"), ("b", "y", "q")]),
    ],
)
def test_what_meets_at_one_place_of_metal(links: tuple[tuple[str, str], ...], metal: list[tuple[str, ...]]) -> None:
    assert splices(joint(*links)) == metal


def lumped(text: str) -> tuple[list[tuple[str, int, int]], list[tuple[str, int, int]]]:
    close, said = lumps.lumps(wiring_of("", "joints:\n" + text))
    return tuple([(e.at, len(e.joints), e.splices) for e in each] for each in (close, said))  # type: ignore[return-value]


def crimps(count: int, stagger: str = "", at: str = "behind the radio", method: str = "crimp") -> str:
    """So many joints of one wire to one wire, written as they are one below the other."""
    cavities = [f"dash.unit.{n}: {{to: face.t{n}{stagger}}}" for n in range(1, count + 1)]
    return f"  {method} at {at}:\n" + "".join(f"    {row}\n" for row in cavities)


@pytest.mark.parametrize(
    ("count", "stagger", "close", "silent"),
    [
        # more than four, closer than 40 mm; nobody is asked before nine (common practice, no source)
        (4, ", stagger: 10 mm", [], []), (5, ", stagger: 10 mm", [("behind the radio", 5, 5)], []),
        (5, ", stagger: 39 mm", [("behind the radio", 5, 5)], []), (5, ", stagger: 40 mm", [], []),
        (8, "", [], []), (9, "", [], [("behind the radio", 9, 9)]), (9, ", stagger: 50 mm", [], []),
    ],
)  # fmt: skip
def test_joints_in_one_lump(count: int, stagger: str, close: list[object], silent: list[object]) -> None:
    head = HEAD.replace("columns: 12", "columns: 20").replace(
        "face: {kind: interface, terminals: [CAN, line]",
        f"face: {{kind: interface, terminals: [{', '.join(f't{n}' for n in range(1, 21))}]",
    )
    plug = ", ".join(f"{n}: ILL OG" for n in range(9, 13))
    head = head.replace("8: ACC RD}\n  gate", f"8: ACC RD, {plug}}}\n  gate")
    made = lumps.lumps(wiring_of("", "joints:\n" + crimps(count, stagger), head=head))
    assert [[(e.at, len(e.joints), e.splices) for e in each] for each in made] == [close, silent]
    # where nobody wrote a place nothing is known to lie side by side
    nowhere = crimps(count, stagger).replace(" at behind the radio", "")
    made = lumps.lumps(wiring_of("", f"joints:\n{nowhere}", head=head))
    assert made == ([], [])
    # at a terminal, or put into a plug, it is no lump of splices
    for method in ("screw", "ring"):
        made = lumps.lumps(wiring_of("", "joints:\n" + crimps(count, stagger, method=method), head=head))
        assert made == ([], [])


def test_a_lump_partly_said() -> None:
    """Four lie close and five nobody wrote: nine together; five well apart and four unsaid are no lump."""
    terminals = ", ".join(f"t{n}" for n in range(1, 21))
    head = HEAD.replace(
        "face: {kind: interface, terminals: [CAN, line]", f"face: {{kind: interface, terminals: [{terminals}]"
    )
    rows = [f"face.t{n}: {{to: face.t{n + 10}{{}}}}" for n in range(1, 10)]

    def made(staggered: int, stagger: str) -> list[list[int]]:
        text = "joints:\n  crimp at the Dash:\n" + "".join(
            f"    {row.replace('{}', f', stagger: {stagger}' if n < staggered else '')}\n"
            for n, row in enumerate(rows[:5])
        )
        text += "  solder at the dash:\n" + "".join(
            f"    {row.replace('{}', f', stagger: {stagger}' if n + 5 < staggered else '')}\n"
            for n, row in enumerate(rows[5:])
        )
        return [[each.splices for each in some] for some in lumps.lumps(wiring_of("", text, head=head))]

    assert made(4, "10 mm") == [[], [9]]
    assert made(4, "50 mm") == [[], []]
    assert made(9, "10 mm") == [[9], []]
    assert made(0, "") == [[], [9]]


def test_every_act_of_the_plan() -> None:
    more = (
        "cut: [sill.car.1]\ncapped: [T1.car.3]\ndepinned: [gate.car.5]\nmoved: {T1.car.2: T1.car.8}\n"
        "runs:\n  - dsp.GND > 1 ft 8 AWG > gnd.G1\n"
    )
    made = [
        (each.words, each.contacts)
        for each in touched.touches(wiring_of("dash.unit.5: amp.rem", more, mate="T1: dash"))
    ]
    assert made[:4] == [
        ("joined", ("dash.unit.5", "amp.rem")), ("cut", ("sill.car.1",)), ("capped", ("T1.car.3",)),
        ("depinned", ("gate.car.5",)),
    ]  # fmt: skip
    assert made[4] == ("part of a run", ("dsp.GND", "gnd.G1"))
    assert made[5] == ("given a moved terminal", ("dash.car.8",))
    assert made[6][0] == "opened by a loom"
    assert set(made[6][1]) == {f"dash.{half}.{n}" for half in ("unit", "car") for n in range(1, 9)}
    lone = list(touched.touches(wiring_of("", "moved: {T1.car.2: T1.car.8}\n")))
    assert [(each.words, each.contacts) for each in lone] == [("given a moved terminal", ())], "plugged in nowhere"


def test_what_is_worked_on_by_hand() -> None:
    more = "cut: [sill.car.1, gate.car.3]\nruns:\n  - gate.car.5 > 1 ft 16 AWG > amp.in1+\n"
    made = worked.worked(wiring_of("gate.car.3: eye.CAN-H; amp.rem: sill.2", more))
    assert {name: work.words for name, work in made.items()} == {
        "sill.car.1": "it is cut", "gate.car.3": "it is cut", "sill.car.2": "J2 is made on it",
        "gate.car.5": "a run is joined to it",
    }  # fmt: skip


# -- rows ----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("one", "other", "differ"),
    [
        ("FL+", "FL-", False), ("FL+", "FR+", True), ("FL+", "FL-TW+", False), ("FL-MID+", "FL-TW+", True),
        ("B+", "GND", True), ("GND", "SHIELD", False), ("SHIELD", "GND", False), ("unknown", "B+", False),
        ("B+", "empty", False), ("CAN-H", "CAN-L", False), ("ILL", "ACC", True), ("FL+", "B+", True),
        ("B+", "B+", False), ("OPTICAL-IN", "OPTICAL-OUT", True), ("OPTICAL-IN", "OPTICAL-IN", False),
    ],
)  # fmt: skip
def test_whether_two_functions_can_share_a_cavity(one: str, other: str, differ: bool) -> None:
    first, second = (read_function(word) for word in (one, other))
    assert first is not None
    assert second is not None
    assert pins.differ(first, second) is differ
    assert pins.differ(second, first) is differ


PLUG = """\
  dash:
    place: behind the radio
    unit: radio
    {face}
    cavities: {{{rows}}}
"""


def plug_of(face: str, cavities: str) -> object:
    start, end = HEAD.index("  dash:"), HEAD.index("  gate:")
    head = HEAD[:start] + PLUG.format(face=face, rows=cavities) + HEAD[end:]
    troubles = Troubles()
    job = read_job_text(head, "joined.yaml", troubles)
    assert job is not None, troubles.findings
    return job.parts.plugs["dash"]


DRAWN = "face: {rows: 2, columns: 4, view: wire, latch: top, first: top left, count: across}"


@pytest.mark.parametrize(
    ("face", "cavities", "has", "missing"),
    [
        (DRAWN, "1: ILL OG, 8: ACC RD", "", []),
        (DRAWN, "1: ILL OG, 9: ACC RD", "8 cavities, 1 to 8", ["9"]),
        (DRAWN, "01: ILL OG, 8: ACC RD", "8 cavities, 1 to 8", []),
        (DRAWN, "A1: ILL OG, 9: ACC RD", "8 cavities, 1 to 8", ["9"]),
        # the housing says how many; one that counts from 0 has its last one lower
        ("ways: 8", "1: ILL OG, 8: ACC RD", "8 cavities", []),
        ("ways: 8", "1: ILL OG, 9: ACC RD", "8 cavities", ["9"]),
        ("ways: 8", "0: ILL OG, 7: ACC RD", "8 cavities", []),
        ("ways: 8", "0: ILL OG, 8: ACC RD", "8 cavities", ["8"]),
        ("ways: 8", "B2: ILL OG, 9: ACC RD", "8 cavities", ["9"]),
        ("housing: 8-way A", "1: ILL OG, 99: ACC RD", "", []),
    ],
)  # fmt: skip
def test_cavities_that_a_housing_has_not(face: str, cavities: str, has: str, missing: list[str]) -> None:
    words, found = rows.cavities_missing(plug_of(face, cavities))  # type: ignore[arg-type]
    assert (words, [row.cavity for row in found]) == (has, missing)


def test_what_a_row_is_called() -> None:
    plug = plug_of(DRAWN, "1/2: FL WH WH/BK, 3: ILL")
    words = [rows.row_words(plug, row) for row in plug.rows]  # type: ignore[attr-defined,arg-type]
    assert words == [
        "dash cavity 1 (white, FL+)",
        "dash cavity 2 (white with black stripe, FL−)",
        "dash cavity 3 (ILL)",
    ]
    assert rows.row_contacts(plug, *plug.rows[:1]) == ("dash.unit.1", "dash.car.1")  # type: ignore[attr-defined,arg-type]


def test_places_of_a_chart_that_can_not_both_be_right() -> None:
    """`unknown` clashes with nothing, `empty` does; the second row of two is told, and a ground may stand twice."""
    plug = plug_of(
        DRAWN, "1: ILL OG, 2: unknown, 3: GND BK, 4: GND BK, 5: ACC RD, 6: ACC RD, 7: AMP-ON BU, 8: amp-on BU"
    )
    twice = rows.one_function_twice(plug)  # type: ignore[arg-type]
    assert [[row.cavity for row in each.rows] for each in twice] == [["5", "6"], ["7", "8"]]
    assert rows.one_cavity_twice(plug) == []  # type: ignore[arg-type]
    again = plug_of(DRAWN, "3: unknown, 1/2: FL WH WH/BK, 1: FL+, 2: ILL OG")
    clashes = rows.one_cavity_twice(again)  # type: ignore[arg-type]
    assert [[row.cavity for row in each.rows] for each in clashes] == [["2", "2"]], "FL+ is FL+"
    assert [rows.plain_cavity(each) for each in ("012", "12", "0", "00", "A1", "a1")] == [
        "12",
        "12",
        "0",
        "0",
        "a1",
        "a1",
    ]
