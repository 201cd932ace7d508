"""What comes first, and how many there are: one check at a time on jobs of a few lines, read off by hand."""

from __future__ import annotations

import pytest

from harness.prove import prove_text
from tests.checks.alone import LINK, alike, found, told
from tests.checks.marks import FOLDER
from tests.graph import test_joined_rules as joined
from tests.graph import test_signals as signals
from tests.graph.test_supply import wiring_of as supplied

SEATS = LINK.replace("    CARRIES\n", "")
LOOMS = (
    "looms:\n  T1: {ends: {unit: 8-way, car: 8-way}, leads: {unit.1: passenger-front+ GY, unit.2: driver-front+ WH}}\n"
)


@pytest.mark.parametrize(
    ("cavities", "looms", "first", "names"),
    [
        ("1/2: FL WH WH/BK", "", "", []),
        # the first of a plug, before what isn't named so and behind it
        ("1/2: FL WH WH/BK, 3: driver-rear+ GN, 4: passenger-rear+ VT", "", "dash cavity 3 (green, driver-rear+)",
         ["dash cavity 3", "dash cavity 4"]),
        # the first of a loom; a plug's before a loom's
        ("1/2: FL WH WH/BK", LOOMS, "T1 unit end 1 (grey, passenger-front+)",
         ["T1 unit end 1 (grey, passenger-front+)", "T1 unit end 2 (white, driver-front+)"]),
        ("1: driver-rear+ GN", LOOMS, "dash cavity 1 (green, driver-rear+)",
         ["dash cavity 1", "T1 unit end 1 (grey, passenger-front+)", "T1 unit end 2 (white, driver-front+)"]),
    ],
)  # fmt: skip
def test_sides_by_the_seat(cavities: str, looms: str, first: str, names: list[str]) -> None:
    """Told once a job; the rows of one line of the file are one place."""
    plug = SEATS.replace("cavities: {CAVITIES}", "cavities:\n      " + cavities.replace(", ", "\n      "))
    leads = looms.replace("leads: {", "leads: {\n").replace(", unit.2", ",\n unit.2")
    head = signals.HEAD.replace(", steering: left", "")
    findings = found("A16", signals.wiring_of("", more=plug + leads, head=head))
    alike(
        [each.message for each in findings], [f"{first} is named by a seat, and the car's steering side"] * bool(first)
    )
    for each in findings:
        assert [spot.name for spot in each.places] == names
    assert told("A16", signals.wiring_of("", more=plug + leads)) == []


CAPACITOR = "{nominal: 4 ohm, capacitor: 47 uF%s}"
PAIR = "amp.out1: [spk.FL, spk.FR]"
SMALL = "FL had 47 uF in line and the new one has none: amp out1 sees 2 ohm, and"


@pytest.mark.parametrize(
    ("left", "right", "joints", "parts"),
    [
        # 4 and 4 ohm side by side are 2 ohm
        (CAPACITOR % ", new: {nominal: 4 ohm}", "{nominal: 4 ohm}", PAIR, [SMALL]),
        (CAPACITOR % ", new: {nominal: 4 ohm, capacitor: 47 uF}", "{nominal: 4 ohm}", PAIR, []),
        (CAPACITOR % "", "{nominal: 4 ohm}", PAIR, []), ("{nominal: 4 ohm, new: {nominal: 4 ohm}}", "{nominal: 4 ohm}",
         PAIR, []),
        # one that had none, and one that keeps its own, before it
        ("{nominal: 4 ohm, new: {nominal: 4 ohm}}", CAPACITOR % ", new: {nominal: 4 ohm}", PAIR, ["FR had 47 uF in"]),
        (CAPACITOR % "", CAPACITOR % ", new: {nominal: 4 ohm}", PAIR, ["FR had 47 uF in line"]),
        (CAPACITOR % ", new: {nominal: 4 ohm}", CAPACITOR % ", new: {nominal: 4 ohm}", PAIR, [SMALL, "FR had 47 uF"]),
        # alone on its output it is as good as it was; alone on the first output, before the two on the second
        (CAPACITOR % ", new: {nominal: 4 ohm}", "{nominal: 4 ohm}", "amp.out1: spk.FL; amp.out2: spk.FR", []),
        (CAPACITOR % ", new: {nominal: 4 ohm}", "{nominal: 4 ohm}", "amp.out1: spk.RL; amp.out2: [spk.FL, spk.FR]",
         ["amp out2 sees 2 ohm"]),
        # of what nobody knows the ohms of nothing is said, and of the next output all the same
        (CAPACITOR % ", new: {nominal: 4 ohm}", "{nominal: 4 ohm}",
         "amp.out1: [spk.RL, spk.RR]; amp.out2: [spk.FL, spk.FR]", ["amp out2 sees 2 ohm"]),
    ],
)  # fmt: skip
def test_a_successor_without_a_capacitor(left: str, right: str, joints: str, parts: list[str]) -> None:
    amp = "amp: {kind: amplifier, inputs: {in1: 1..9 V}, outputs: {out1..2: 50 W}}"
    unknown = f"  RR: {CAPACITOR % ', new: {nominal: 4 ohm}'}\n  RL: {{place: door}}\n"
    speakers = f"speakers:\n  FL: {left}\n  FR: {right}\n{unknown}"
    alike(told("D03", signals.wiring_of(joints, amp, speakers=speakers)), parts)


@pytest.mark.parametrize(
    ("many", "words"),
    [
        # 1 and 2 pass; six of the rest are named
        (4, "cavity 3 (MUTE), 4 (MUTE): what runs there is lost."),
        (8, "cavity 3 (MUTE), 4 (MUTE), 5 (MUTE), 6 (MUTE), 7 (MUTE), 8 (MUTE): what runs there"),
        (9, "cavity 3 (MUTE), 4 (MUTE), 5 (MUTE), 6 (MUTE), 7 (MUTE), 8 (MUTE) and 1 more: what runs there"),
    ],
)
def test_cavities_that_a_loom_has_no_pin_for(many: int, words: str) -> None:
    start, end = joined.HEAD.index("    cavities: {1: B+"), joined.HEAD.index("  gate:")
    mutes = ", ".join(f"{at}: MUTE BN" for at in range(3, many + 1))
    head = joined.HEAD[:start] + f"    cavities: {{1: B+ YE, 2: GND BK, {mutes}}}\n" + joined.HEAD[end:]
    head = head.replace(", leads: {3/4: CAN YE/GN YE/BN, car.6: unknown WH}", "")
    alike(told("H08", joined.wiring_of("", "", "T1: dash", head)), [f"T1 has no pin for dash {words}"])


@pytest.mark.parametrize(
    ("units", "said"), [("amp", "amp rem wants 12 V"), ("amp two three", "amp rem and two rem and three rem want 12 V")]
)
def test_each_that_wants_a_turn_on_is_shown(units: str, said: str) -> None:
    """A plug with constant 12 V and ground alone: told once, with the row of each unit."""
    plug = SEATS.replace("unit: radio", "").replace("CAVITIES", "1: B+ YE, 2: GND BK")
    rows = "".join(f"  {name}: {{kind: amplifier, draws: 9 A, wakes: rem}}\n" for name in units.split())
    run = "runs:\n  - battery.+ > fuse 20 A > 1 m 8 AWG > amp.B+\n"
    wiring = supplied(f"{plug}units:\n{rows}{run}")
    assert told("E01", wiring) == []  # where nothing gives any, each that gets none is no fault of its own
    (finding,) = found("E09", wiring)
    assert finding.message.startswith(f"{said}, and neither a plug written here nor a unit has")
    first = 4 + plug.count("\n") + 2
    assert [spot.place.line for spot in finding.places] == list(range(first, first + len(units.split())))


@pytest.mark.parametrize(
    ("joint", "words"),
    [
        (
            "C32.car.4/5: amp.in1",
            "C32 (left door boot) cavities 4 and 5: blue before the plug, no colour written behind",
        ),
        ("C32.car.4: amp.in1+", "C32 (left door boot) cavity 4: blue before the plug, no colour written behind it"),
        ("C32.car.5: amp.in1-", "C32 (left door boot) cavity 5: blue with black stripe before the plug, no colour"),
    ],
)
def test_wires_behind_a_plug_without_their_colour(joint: str, words: str) -> None:
    """The pair is BU and BU/BK between the pillar and the door."""
    job = (FOLDER / "A15/bad_tapped_in_the_door.yaml").read_text(encoding="utf-8")
    report = prove_text(job.replace("C32.car.4/5: amp.in1", joint), "job.yaml").report
    alike([each.message for each in report.findings if each.code == "A15"], [words])


PAGE = (FOLDER / "A13/bad_older_page.yaml").read_text(encoding="utf-8")
LISTED = "1 (white, FL+), 6 (white with black stripe, FL−), 2 (grey, FR+), 7 (grey with black stripe, FR−)"


@pytest.mark.parametrize(
    ("left_out", "words"),
    [
        # two pairs and ACC: five wires, of which four are named; four; three
        ("", f"{LISTED} and 1 more."), ("    dash.ACC: amp.rem\n", f"{LISTED}."),
        ("    dash.FR: amp.in2\n", "1 (white, FL+), 6 (white with black stripe, FL−), 3 (red, ACC)."),
    ],
)  # fmt: skip
def test_how_many_of_another_years_wires_are_named(left_out: str, words: str) -> None:
    report = prove_text(PAGE.replace(left_out, ""), "job.yaml").report
    alike([each.message for each in report.findings if each.code == "A13"], [f"Used and not toned: {words}"])
    nobody = prove_text(PAGE.replace(left_out, "").replace(", by: JM", ""), "job.yaml").report
    said = f"and the plan uses {words.removesuffix('.')}, not toned: nobody can look it up again."
    alike([each.message for each in nobody.findings if each.code == "J02"], [said])


FACE = "    face: {rows: 1, columns: 8, view: wire, latch: top, first: top left, count: across}\n"


@pytest.mark.parametrize(
    ("face", "cavities", "more", "said"),
    [
        (FACE, "1: ACC RD, 2: ILL OG", "", ""), ("", "1: ACC RD, 2: ILL OG", "", "it has no face"),
        (FACE.replace("view: wire, ", ""), "1: ACC RD, 2: ILL OG", "", "its face has no view"),
        # nothing is written of its cavities, or it has no more than one
        ("", "", "", ""), ("", "1: ACC RD", "    ways: 1\n", ""), ("", "1: ACC RD", "", "it has no face"),
    ],
)  # fmt: skip
def test_a_plug_whose_view_matters(face: str, cavities: str, more: str, said: str) -> None:
    """A face seen from the other side is mirrored; one cavity can't be."""
    plug = SEATS.replace(FACE, face + more).replace("CAVITIES", cavities)
    if not cavities:
        plug = plug.replace("    cavities: {}\n", "")
    inline = "inline: {C204: left pillar}\nfound:\n  - C204.1/2 > spk.FL\n"  # a plug of the car's has no face
    for more_plugs in ("", inline):
        alike(told("A01", signals.wiring_of("", more=plug + more_plugs)), [said] * bool(said))
