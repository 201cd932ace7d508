"""Data wires, restraint, looms and leads: one check at a time on jobs of a few lines, read off by hand.

The fixtures hold each fault in a whole job; here stand its neighbours, one beside the other.
"""

from __future__ import annotations

import pytest

from tests.checks.alone import alike, found, told
from tests.graph import test_joined_rules as joined

# -- data, restraint, orange: G01, G07, G08, G11 ----------------------------------------------------------------------


@pytest.mark.parametrize(
    ("more", "mate", "parts"),
    [
        ("", "", []),
        ("cut: [dash.car.3]\n", "", ["dash cavity 3 (yellow with green stripe, CAN-H) is opened alone"]),
        ("cut: [gate.car.4]\n", "", ["gate cavity 4 (yellow with brown stripe, CAN-L) is opened alone"]),
        ("cut: [dash.car.3, dash.car.4]\n", "", ["are opened: radio is off the bus"]),
        ("cut: [gate.car.3, dash.car.4]\n", "", ["gate cavity 3", "dash cavity 4"]),
        # a wire of which the chart has no partner; another wire
        ("cut: [sill.car.1]\n", "", []), ("cut: [dash.car.5]\n", "", []),
        # the loom opens both; the unit comes out with the plug
        ("", "T1: dash", ["are opened: radio is off the bus"]),
        ("cut: [gate.car.3, gate.car.4]\nremoved: [out, body]\n", "", []),
        ("cut: [gate.car.3]\nremoved: [out, body]\n", "", ["is opened alone"]),
    ],
)  # fmt: skip
def test_data_pairs_that_are_opened(more: str, mate: str, parts: list[str]) -> None:
    head = joined.HEAD.replace("removed: [out]\n", "") if "removed" in more else joined.HEAD
    alike(told("G01", joined.wiring_of("", more, mate, head)), parts)


@pytest.mark.parametrize(
    ("joints", "parts"),
    [
        ("dash.3: eye.CAN-H; dash.4: eye.CAN-L", []),
        ("dash.3: eye.CAN-L", ["high and low are swapped"]),
        # both wires are one fault, two plugs are two
        ("dash.3: eye.CAN-L; dash.4: eye.CAN-H", ["arrives at eye CAN-L"]),
        ("dash.3: eye.CAN-L; gate.3: face.CAN-L", ["arrives at eye CAN-L", "arrives at face CAN-L"]),
        # a short before it doesn't end the search
        ("dash.car.3: dash.car.4; gate.3: eye.CAN-L", ["arrives at eye CAN-L"]),
    ],
)
def test_data_pairs_that_are_crossed(joints: str, parts: list[str]) -> None:
    alike(told("G11", joined.wiring_of(joints)), parts)


BAG = """\
  bag:
    place: under the seat
    face: {rows: 1, columns: 3, view: wire, latch: top, first: top left, count: across}
    carries: srs
    cavities: {1: SRS YE, 2: ILL OG, 3: GND BK}
"""
SRS = joined.HEAD.replace("  sill:\n", BAG + "  sill:\n")


@pytest.mark.parametrize(
    ("joints", "more", "parts"),
    [
        ("dash.5: amp.rem", "", []),
        ("bag.1: amp.rem", "",
         ["bag cavity 1 (yellow, SRS), car side is a restraint wire, and the plan has it joined"]),
        # by either end of the joint
        ("dash.5: bag.1", "", ["bag cavity 1 (yellow, SRS), car side is a restraint wire"]),
        # any wire of such a plug; what hangs on ground elsewhere isn't
        ("bag.2: amp.rem", "", ["is a restraint wire"]), ("bag.3: gnd.G1", "", ["is a restraint wire"]),
        ("dash.2: gnd.G1", "", []),
        # a wire that leads there
        ("sill.2: amp.rem", "found:\n  - bag.2 > sill.2\n",
         ["sill cavity 2 (orange, ILL), car side leads to bag cavity 2"]),
        ("", "cut: [bag.car.1]\n", ["and the plan has it cut"]), ("", "capped: [bag.unit.1]\n", ["capped"]),
        # two acts, two faults; one that is fine before it
        ("dash.5: amp.rem", "cut: [bag.car.1]\n", ["cut"]),
        ("bag.1: amp.rem", "cut: [bag.car.2]\n", ["joined", "cut"]),
    ],
)  # fmt: skip
def test_restraint_wires(joints: str, more: str, parts: list[str]) -> None:
    alike(told("G07", joined.wiring_of(joints, more, head=SRS)), parts)


def test_a_wire_that_leads_back_into_the_plug_of_a_restraint_wire() -> None:
    head = SRS.replace("    carries: srs\n", "")
    messages = told("G07", joined.wiring_of("bag.2: amp.rem", "found:\n  - bag.1 > bag.2\n", head=head))
    alike(messages, ["bag cavity 2 (orange, ILL), car side leads to bag cavity 1 (yellow, SRS)"])


@pytest.mark.parametrize(
    ("orange", "runs", "parts"),
    [
        ("[tunnel]", "battery.+ > 1 m 8 AWG via tunnel grommet > fuse 30 A > amp.B+", ["tunnel, where orange"]),
        ("[Tunnel]", "battery.+ > 1 m 8 AWG via  tunnel grommet > fuse 30 A > amp.B+", ["Tunnel, where orange"]),
        ("[tunnel]", "battery.+ > 1 m 8 AWG via sill grommet > fuse 30 A > amp.B+", []),
        ("[floor]", "amp.GND > 1 ft 8 AWG > gnd.G1", ["floor, where orange"]),
    ],
)
def test_places_with_orange_cables(orange: str, runs: str, parts: list[str]) -> None:
    """Two pieces of one run at one place are told once; a place that is fine stands before it."""
    head = joined.HEAD.replace("steering: left}", f"steering: left, drive: hybrid, orange: {orange}}}")
    more = f"runs:\n  - dsp.GND > 1 ft 8 AWG via pillar grommet > gnd.G2\n  - {runs}\n"
    alike(told("G08", joined.wiring_of("", more, head=head)), parts)


def test_two_pieces_of_one_run_at_one_orange_place() -> None:
    head = joined.HEAD.replace("steering: left}", "steering: left, drive: hybrid, orange: [tunnel]}")
    piece = "1 m 8 AWG via tunnel grommet"
    more = f"runs:\n  - battery.+ > {piece} > fuse 30 A > {piece} > amp.B+\n"
    assert len(told("G08", joined.wiring_of("", more, head=head))) == 1


# -- looms and leads: H01, H14, H18 -----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("leads", "moved", "parts"),
    [
        ("through: 1..2, leads: {3/4: CAN YE/GN YE/BN}", "", []),
        ("leads: {car.6: ILL OG, other: car.6 ILL BU}", "", ["T1 car end cavity 6 has two leads in one terminal"]),
        ("through: {1: 1, 2: 1}", "", ["T1 car end cavity 1 has two leads"]),
        ("through: {1: 1, 2: 1}, leads: {car.1: ILL OG}", "", ["T1 car end cavity 1 has two leads"]),
        # the same wire written twice; one that branches off a wire through
        ("through: 1 1", "", []),
        ("through: [1], leads: {car.1: ILL OG}", "", []),
        # a pin moved to where one stands, where none does, where one was; two to one
        ("through: 1..2", "moved: {T1.car.1: T1.car.2}\n", ["is moved to cavity 2, where"]),
        ("through: 1..2", "moved: {T1.car.1: T1.car.9}\n", []),
        ("through: 1..2", "moved: {T1.car.1: T1.car.2, T1.car.2: T1.car.1}\n", []),
        ("through: 1..2", "moved: {T1.car.1: T1.car.2}\ndepinned: [T1.car.2]\n", []),
        ("through: 1..2", "moved: {T1.car.1: T1.car.9, T1.car.2: T1.car.9}\n", ["is moved to cavity 9, where"]),
    ],
)
def test_two_leads_in_one_terminal(leads: str, moved: str, parts: list[str]) -> None:
    start = joined.HEAD.index("through: 1..2")
    end = joined.HEAD.index("}", joined.HEAD.index("car.6: unknown WH"))
    head = joined.HEAD[:start] + leads + joined.HEAD[end + 1 :]
    alike(told("H14", joined.wiring_of("", moved, head=head)), parts)


def test_a_battery_wire_is_no_output() -> None:
    """The car's end of it is fed by the car, and by nothing else that could be named."""
    parts = ["dash cavity 1 (yellow, B+), car side is joined to nothing and live of itself: a bare end finds metal."]
    alike(told("H01", joined.wiring_of("", "cut: [dash.1]\ncapped: [dash.unit.1]\n")), parts)


@pytest.mark.parametrize(
    ("more", "parts"),
    [
        ("", []),
        ("cut: [dash.car.1]\n", ["dash cavity 1 (yellow, B+), unit side is cut off: radio stays and loses its B+."]),
        ("depinned: [gate.unit.6]\n", ["loses its ACC"]),
        # lamps are no feed; a plug without a unit; a capped unit side is meant
        ("cut: [dash.car.5]\n", []), ("cut: [sill.car.3]\n", []),
        ("cut: [dash.car.1]\ncapped: [dash.unit.1]\n", []),
        ("cut: [dash.car.5, dash.car.8, gate.car.1]\n", ["loses its ACC", "loses its B+"]),
    ],
)  # fmt: skip
def test_feeds_that_are_cut_off(more: str, parts: list[str]) -> None:
    alike(told("H18", joined.wiring_of("", more)), parts)


def test_an_empty_cavity_that_is_joined() -> None:
    head = joined.HEAD.replace("3: B+ YE}\nlooms", "3: B+ YE, 4: empty}\nlooms")
    alike(told("H02", joined.wiring_of("sill.4: amp.rem", head=head)), ["is empty and also joined to amp rem"])
    assert told("H02", joined.wiring_of("sill.3: amp.rem", head=head)) == []


@pytest.mark.parametrize(
    ("capped", "parts"),
    [
        ("cut: [dash.car.1]\ncapped: [dash.unit.1]\n", []),
        ("cut: [dash.car.1]\ncapped: [dash.unit.1, dash.car.1]\n", []),
        # a cap on a wire that nothing opens, by whichever half it is written, or by both
        ("capped: [dash.unit.1]\n", ["is capped and also passed on"]),
        ("capped: [dash.car.1]\n", ["is capped and also passed on"]),
        ("capped: [dash.unit.1, dash.car.1]\n", ["is capped and also passed on"]),
        ("cut: [dash.car.2]\ncapped: [dash.car.2, dash.car.1]\n", ["dash cavity 1"]),
    ],
)  # fmt: skip
def test_a_capped_wire_that_is_passed_on(capped: str, parts: list[str]) -> None:
    alike(told("H02", joined.wiring_of("", capped)), parts)


def test_a_capped_wire_is_told_at_the_cars_half() -> None:
    """Where both are capped; where each is one wire's, both are told."""
    both = "capped: [dash.unit.1, dash.car.1]\n"
    alike(told("H02", joined.wiring_of("", both)), ["dash cavity 1 (yellow, B+), car side is capped and also passed"])
    two = "capped: [dash.unit.2, dash.car.1]\n"
    halves = ["dash cavity 2 (black, GND), unit side is capped", "dash cavity 1 (yellow, B+), car side is capped"]
    alike(told("H02", joined.wiring_of("", two)), halves)


@pytest.mark.parametrize(
    ("staggers", "words"),
    [
        ((0, 0, 0, 0, 0), "0 mm apart"), ((10, 10, 10, 10, 10), "10 mm apart"),
        ((10, 20, 30, 20, 20), "10 mm to 30 mm apart"), ((10, 0, 30, 20, 20), "0 mm to 30 mm apart"),
    ],
)  # fmt: skip
def test_a_lump_and_its_stagger(staggers: tuple[int, ...], words: str) -> None:
    terminals = ", ".join(f"t{n}" for n in range(1, 11))
    head = joined.HEAD.replace("terminals: [CAN, line]", f"terminals: [{terminals}]")
    rows = "".join(f"    face.t{n}: {{to: face.t{n + 5}, stagger: {mm} mm}}\n" for n, mm in enumerate(staggers, 1))
    alike(
        told("H05", joined.wiring_of("", "joints:\n  crimp at dash:\n" + rows, head=head)), [f"5 splices lie {words}"]
    )


# -- 12 V on signals, units that come out, looms: F23, F24, G12, C18, C19, G05, H07 -----------------------------------


@pytest.mark.parametrize(
    ("code", "joints", "parts"),
    [
        ("F23", "dash.1: amp.in1+", ["dash cavity 1 (yellow, B+), car side is joined to amp in1+"]),
        ("F23", "dash.8: radio.FL+", ["is joined to radio FL+"]),
        ("F23", "dash.1: amp.B+", []), ("F23", "dash.5: amp.in1+", []),
        # behind another joint; two nets; by way of ground it is another's fault
        ("F23", "dash.1: face.line; face.line: amp.in1+", ["is joined to amp in1+"]),
        ("F23", "dash.1: amp.in1+; gate.1: amp.in2+", ["amp in1+", "amp in2+"]),
        ("F23", "dash.1: gnd.G1; gnd.G1: amp.in1-", []),
        ("F24", "dash.5: amp.in1+", ["dash cavity 5 (orange, ILL), car side is joined to amp in1+"]),
        ("F24", "dsp.rem-out: amp.in1+", ["dsp rem-out is joined to amp in1+"]),
        # what wants 12 V doesn't give it
        ("F24", "dsp.rem: amp.in1+", []), ("F24", "dsp.rem-out: amp.rem", []),
        ("G12", "dash.1: dash.3", ["meets dash cavity 1 (yellow, B+)"]), ("G12", "dash.5: eye.CAN-H",
         ["eye CAN-H meets dash cavity 5 (orange, ILL)"]),
        # two strangers at one joint are one fault, and the next joint is another
        ("G12", "dash.3: [dash.1, dash.5]; gate.3: gate.5", ["dash cavity 3", "gate cavity 5"]),
        # a crossed pair is another fault
        ("G12", "dash.3: eye.CAN-L; gate.3: gate.5", ["gate cavity 3"]),
        ("G12", "dash.2: dash.3", ["dash cavity 2"]), ("G12", "dash.3: eye.CAN-H", []),
    ],
)  # fmt: skip
def test_12_volts_on_signals(code: str, joints: str, parts: list[str]) -> None:
    alike(told(code, joined.wiring_of(joints)), parts)


RING = """\
  ring:
    place: under the seat
    unit: eye
    face: {rows: 1, columns: 3, view: wire, latch: top, first: top left, count: across}
    carries: optical
    cavities: {1: OPTICAL-IN, 2: OPTICAL-OUT, 3: ILL OG}
"""


@pytest.mark.parametrize(
    ("joints", "more", "parts"),
    [
        ("", "", []),
        ("", "cut: [ring.car.1]\n", ["ring is opened, and ring cavity 1 (OPTICAL-IN), car side leads nowhere"]),
        ("", "cut: [ring.car.2]\n", ["ring is opened"]),
        ("", "cut: [ring.car.3]\n", []),
        ("", "removed: [eye]\n", ["eye comes out, and ring cavity 1"]),
        # the two ends joined; passed on to another unit that sends it on; to one that only takes it
        ("ring.car.1: ring.car.2", "removed: [eye]\n", []),
        ("ring.car.1: out.OPTICAL-IN; ring.car.2: out.OPTICAL-OUT", "removed: [eye]\n", []),
        ("ring.car.1: out.OPTICAL-IN", "removed: [eye]\n", ["eye comes out"]),
        # what hangs on the other guide is no light, or another unit's
        ("ring.car.1: out.OPTICAL-IN; ring.car.2: out.line", "removed: [eye]\n", ["eye comes out"]),
        ("ring.car.1: out.OPTICAL-IN; ring.car.2: two.OPTICAL-OUT", "removed: [eye]\n", ["eye comes out"]),
    ],
)
def test_a_ring_of_light(joints: str, more: str, parts: list[str]) -> None:
    head = joined.HEAD.replace("  sill:\n", RING + "  sill:\n").replace("removed: [out]\n", "")
    head = head.replace("out: {kind: interface,", "out: {kind: interface, terminals: [OPTICAL-IN, OPTICAL-OUT, line],")
    head = head.replace("grounds:", "  two: {kind: interface, terminals: [OPTICAL-IN, OPTICAL-OUT]}\ngrounds:")
    alike(told("G05", joined.wiring_of(joints, more, head=head)), parts)


def test_a_ring_through_a_plug_without_a_unit() -> None:
    """Whole it is passed on; opened, the line of the cut is told, of whichever guide."""
    head = joined.HEAD.replace("  sill:\n", RING.replace("    unit: eye\n", "") + "  sill:\n")
    assert told("G05", joined.wiring_of("", head=head)) == []
    for cavity in ("1", "2"):
        wiring = joined.wiring_of("", f"cut:\n  - ring.car.3\n  - ring.car.{cavity}\n", head=head)
        (finding,) = found("G05", wiring)
        assert "ring is opened" in finding.message
        assert finding.places[0].place.line == head.count("\n") + 3
    # both: the one where the light comes in
    (finding,) = found("G05", joined.wiring_of("", "cut:\n  - ring.car.2\n  - ring.car.1\n", head=head))
    assert finding.places[0].place.line == head.count("\n") + 3


def test_a_plug_of_which_nobody_wrote_the_light_guides() -> None:
    head = joined.HEAD.replace("  sill:\n", RING.replace("1: OPTICAL-IN, 2: OPTICAL-OUT, ", "") + "  sill:\n")
    assert told("G05", joined.wiring_of("", head=head)) == []
    (message,) = told("G05", joined.wiring_of("", head=head.replace("removed: [out]", "removed: [out, eye]")))
    assert message == "eye comes out, and ring carries light-guides: nothing says that the ring stays closed."


@pytest.mark.parametrize(
    ("loom", "more", "parts"),
    [
        ("through: 1..2, leads: {3/4: CAN YE/GN YE/BN}", "", []),
        # what the maker calls it is another thing; a wire that crosses to one
        ("through: 2, leads: {1: ILL OG}", "", ["T1 fits dash, its pins don't: 1 is ILL there, B+ here."]),
        ("through: {1: 2}", "", ["1 (B+) goes to 2 (GND)"]),
        ("through: {1: 8}", "", ["1 (B+) goes to 8 (ACC)"]),
        ("through: {1: 1, 5: 5}", "", []),
        # a swap of signs is none; a cavity that isn't recorded
        ("leads: {3: CAN-L YE}", "", []), ("leads: {12: ILL OG}", "", []),
        # depinned, or moved to where it fits
        ("leads: {car.1: ILL OG}", "depinned: [T1.car.1]\n", []),
        ("leads: {car.1: ILL OG}", "moved: {T1.car.1: T1.car.5}\n", []),
        ("leads: {car.5: ILL OG}", "moved: {T1.car.5: T1.car.1}\n", ["1 is ILL there, B+ here"]),
        # five are named, the rest counted
        ("through: {1: 5, 2: 8, 5: 1, 8: 2}", "", ["1 (B+) goes to 5 (ILL); 2 (GND) goes to 8 (ACC)"]),
    ],
)  # fmt: skip
def test_a_loom_whose_pins_do_not_suit(loom: str, more: str, parts: list[str]) -> None:
    start = joined.HEAD.index("through: 1..2")
    end = joined.HEAD.index("}", joined.HEAD.index("car.6: unknown WH"))
    head = joined.HEAD[:start] + loom + joined.HEAD[end + 1 :]
    alike(told("H07", joined.wiring_of("", more, mate="T1: dash", head=head)), parts)


@pytest.mark.parametrize(
    ("count", "words"),
    [(1, "Joint J1 (solder"), (2, "Joints J1 and J2 (solder"), (3, "Joints J1, J2 and J3 (solder"),
     (6, "Joints J1, J2, J3, J4, J5 and J6 (solder"), (7, "7 joints, J1 to J7, (solder")],
)  # fmt: skip
def test_joints_without_a_cover(count: int, words: str) -> None:
    """Six are named. Each is shown, the heading first."""
    terminals = ", ".join(f"t{n}" for n in range(1, 15))
    head = joined.HEAD.replace("terminals: [CAN, line]", f"terminals: [{terminals}]")
    rows = "; ".join(f"face.t{n}: face.t{n + 7}" for n in range(1, count + 1))
    (finding,) = found("H09", joined.wiring_of(rows, head=head))
    assert finding.message.startswith(words)
    assert len(finding.places) == 1 + count


@pytest.mark.parametrize(
    ("gone", "mate", "parts"),
    [
        ("", "", []),
        ("", "T1: dash", ["MIC"]),
        ("removed: [radio]\n", "T1: dash", []),
        ("removed: [out]\n", "T1: dash", ["MIC"]),
    ],
)
def test_a_microphone_that_is_opened(gone: str, mate: str, parts: list[str]) -> None:
    """The loom has nothing for it; where the plug's unit comes out nobody listens any more."""
    head = joined.HEAD.replace("8: ACC RD}", "9/10: MIC BN BN/WH}").replace("removed: [out]\n", "")
    alike(told("C17", joined.wiring_of("", gone, mate, head)), parts)


@pytest.mark.parametrize(
    ("joints", "parts"),
    [
        ("dash.1: {to: dash.8, takes: 0.5..4 mm2}", []),
        ("dash.1: {to: dash.8, takes: 0.5..3 mm2}", ["2 mm2 + 2 mm2 is 4 mm² in a connector"]),
        # one that says nothing, and one that fits, end nothing
        ("dash.5: amp.rem; dash.1: {to: dash.8, takes: 0.5..3 mm2}", ["is 4 mm²"]),
        ("dash.5: {to: amp.rem, takes: 0.5..3 mm2}; dash.1: {to: dash.8, takes: 0.5..3 mm2}", ["is 4 mm²"]),
    ],
)
def test_wires_that_do_not_fit_a_connector(joints: str, parts: list[str]) -> None:
    """2 and 2 mm² are 4."""
    head = joined.HEAD.replace("1: B+ YE, 2: GND BK, 3/4", "1: B+ YE 2 mm2, 2: GND BK, 3/4")
    head = head.replace("8: ACC RD}", "8: ACC RD 2 mm2}")
    alike(told("H06", joined.wiring_of(joints, head=head)), parts)
