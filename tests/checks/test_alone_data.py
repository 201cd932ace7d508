"""Data pairs and digital links, and where on their way they are told: read off jobs of a few lines by hand."""

from __future__ import annotations

import pytest

from tests.checks.alone import LINK, alike, found, told
from tests.checks.test_alone_wires import RING
from tests.graph import test_joined_rules as joined
from tests.graph import test_signals as signals


@pytest.mark.parametrize(
    ("code", "joints", "lines", "way"),
    [
        # crossed at once, and behind a terminal in between: told where the last contact of its own sign is joined on
        ("G11", "dash.3: eye.CAN-L", [1], "dash.car.3 eye.CAN-L"),
        ("G11", "dash.3: face.CAN-H; face.CAN-H: eye.CAN-L", [2], "dash.car.3 face.CAN-H eye.CAN-L"),
        ("G11", "face.CAN-H: eye.CAN-L; dash.3: face.CAN-H", [1], "dash.car.3 face.CAN-H eye.CAN-L"),
        ("G11", "dash.4: face.CAN-L; face.CAN-L: eye.CAN-H", [2], "dash.car.4 face.CAN-L eye.CAN-H"),
        # a second terminal of the other sign behind it is no way there
        ("G11", "dash.3: eye.CAN-L; eye.CAN-L: face.CAN-L", [1], "dash.car.3 eye.CAN-L face.CAN-L"),
        # both wires are one fault with two places; in one row one place
        ("G11", "dash.3: eye.CAN-L; dash.4: eye.CAN-H", [1, 2], "dash.car.3 eye.CAN-L"),
        # a stranger, at once and further on, likewise
        ("G12", "dash.3: amp.rem", [1], "dash.car.3 amp.rem"),
        ("G12", "dash.3: face.CAN-H; face.CAN-H: amp.rem", [2], "dash.car.3 face.CAN-H amp.rem"),
        ("G12", "face.CAN-H: amp.rem; dash.3: face.CAN-H", [1], "dash.car.3 face.CAN-H amp.rem"),
        ("G12", "dash.4: face.CAN-L; face.CAN-L: amp.rem", [2], "dash.car.4 face.CAN-L amp.rem"),
    ],
)
def test_where_a_data_wire_is_told(code: str, joints: str, lines: list[int], way: str) -> None:
    (finding,) = found(code, joined.wiring_of(joints))
    assert [spot.place.line for spot in finding.places] == [joined.FIRST - 1 + line for line in lines]
    assert " ".join(finding.path).endswith(way)


@pytest.mark.parametrize(
    ("joints", "more", "parts"),
    [
        # two light-guides put together are a link, whole or opened; so are two digital inputs on one end
        ("guide.1: guide.2", "", []), ("guide.car.1: guide.car.2", "cut: [guide.1, guide.2]\n", []),
        ("dash.unit.1: dac.in1+; dash.unit.2: dac.in1-", "cut: [dash.DIGITAL]\n", []),
        # a digital input on a whole wire is a tap, an analogue one on either; a speaker; ground is another's
        ("dash.1: dac.in1+", "", ["is tapped for dac in1+"]), ("dash.1: amp.in1+", "", ["is tapped for amp in1+"]),
        ("dash.1: spk.FL+", "", ["is tapped for speaker FL+"]), ("dash.1: gnd.G1", "", []),
        ("dash.1: amp.GND", "", []), ("dash.1: amp.rem", "", ["is tapped for amp rem"]),
        # a plug that is fine before one that isn't
        ("guide.1: guide.2; dash.1: amp.in1+", "", ["dash cavity 1"]),
        # nor is a digital input on a light-guide
        ("guide.1: dac.in1+", "", ["guide cavity 1 (OPTICAL-IN), unit side carries digital audio and is tapped"]),
        # a light-guide on a digital wire is no link
        ("dash.1: guide.1", "", ["dash cavity 1 (black, DIGITAL+), unit side carries digital audio and is tapped"]),
        # a cavity of another wire leads to its unit; what was on the wire as found isn't either
        ("dash.1: dash.3", "", ["is tapped for radio ILL"]), ("", "found:\n  - dash.1 > dac.in1+\n", []),
        ("dash.2: amp.in2+", "found:\n  - dash.1 > dac.in1+\n", ["dash cavity 2"]),
    ],
)  # fmt: skip
def test_more_digital_links(joints: str, more: str, parts: list[str]) -> None:
    units = (
        "amp: {kind: amplifier, inputs: {in1..2: 1..9 V}, outputs: {out1: 50 W}}; "
        "dac: {kind: processor, inputs: {in1: digital}, outputs: {out1: digital}}"
    )
    plug = LINK.replace("CAVITIES", "1/2: DIGITAL BK WH, 3: ILL OG").replace("    CARRIES\n", "")
    plug += LINK.replace("plugs:\n", "").replace("dash:", "guide:").replace("    unit: radio\n", "").replace(
        "    CARRIES\n", "    carries: optical\n").replace("CAVITIES", "1: OPTICAL-IN, 2: OPTICAL-OUT")  # fmt: skip
    more = f"{plug}{more}grounds: {{G1: {{place: floor, metal: bare}}}}\n"
    alike(told("C20", signals.wiring_of(joints, units, more)), parts)


@pytest.mark.parametrize(
    ("carries", "more", "mate", "parts"),
    [
        # which cavities the light-guides are is not written: told once the plug is opened, or its unit comes out
        ("optical", "", "", []),
        ("optical", "", "T1: dash", ["dash is opened, and dash carries light-guides"]),
        ("optical", "removed: [radio]\n", "", ["radio comes out, and dash carries light-guides"]),
        ("SRS", "", "T1: dash", []),
    ],
)
def test_a_ring_whose_cavities_nobody_wrote(carries: str, more: str, mate: str, parts: list[str]) -> None:
    plug = LINK.replace("    CARRIES\n", f"    carries: {carries}\n").replace(
        "CAVITIES", "1: unknown, 2: ILL OG, 3: ACC RD"
    )
    guide = plug.replace("plugs:\n", "").replace("dash:", "guide:").replace("    unit: radio\n", "")
    guide = guide.replace(f"carries: {carries}", "carries: optical")  # nobody touches it
    looms = "looms: {T1: {ends: {unit: 8-way, car: 8-way}, through: 1..3}}\n"
    alike(told("G05", signals.wiring_of("", "", plug + guide + looms + more, mate=mate)), parts)


def test_a_data_pair_is_crossed_behind_the_car_not_behind_the_lead() -> None:
    """T1's lead goes on from cavity 3: what its maker calls it is no proof that the wire was right up to there."""
    (message,) = told("G11", joined.wiring_of("T1.unit.3: eye.CAN-L", mate="T1: dash"))
    assert message.startswith("dash cavity 3 (yellow with green stripe, CAN-H), unit side arrives at eye CAN-L:")


@pytest.mark.parametrize(
    ("gone", "cut", "parts"),
    [
        ("out", "", []),
        # a plug between two wires, whole or opened, before the one at a unit
        ("out, eye", "", ["eye comes out, and ring cavity 1"]),
        ("out", "cut: [door.1, ring.1]\n", ["door is opened, and door cavity 1", "ring is opened, and ring cavity 1"]),
    ],
)
def test_two_plugs_of_a_ring(gone: str, cut: str, parts: list[str]) -> None:
    door = RING.replace("  ring:", "  door:").replace("    unit: eye\n", "")
    head = joined.HEAD.replace("  sill:\n", f"{door}{RING}  sill:\n").replace("removed: [out]", f"removed: [{gone}]")
    alike(told("G05", joined.wiring_of("", cut, head=head)), parts)
