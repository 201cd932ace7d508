"""Fates, looms and their ends: one check at a time on jobs of a few lines, read off by hand.

The fixtures hold each fault in a whole job; here stand its neighbours, one beside the other.
"""

from __future__ import annotations

import pytest

from tests.checks.alone import alike, found, told
from tests.graph import test_joined_rules as joined
from tests.graph import test_signals as signals
from tests.graph.test_supply import wiring_of as supplied


@pytest.mark.parametrize(
    ("joints", "more", "mate", "parts"),
    [
        ("", "depinned: [dash.car.1]\n", "", []),
        ("dash.car.1: amp.B+", "depinned: [dash.car.1]\n", "", ["is depinned and also joined to amp B+"]),
        ("", "depinned: [T1.car.1]\ncut: [T1.car.1]\n", "T1: dash", ["is depinned and also cut"]),
        ("", "depinned: [T1.car.1]\nmoved: {T1.car.1: T1.car.9}\n", "T1: dash", ["is depinned and also moved"]),
        ("", "cut: [T1.car.1]\nmoved: {T1.car.1: T1.car.9}\n", "T1: dash", ["is cut and also moved"]),
        ("", "capped: [T1.car.6]\ndepinned: [T1.car.6]\n", "T1: dash", ["is capped and also depinned"]),
        ("T1.car.6: amp.rem", "capped: [T1.car.6]\n", "T1: dash", ["is capped and also joined to amp rem"]),
        ("", "capped: [T1.car.6]\n", "T1: dash", []),
        # the loom's wire passes what is capped behind it, by whichever half it is written
        ("", "capped: [dash.unit.1]\n", "T1: dash", ["is capped and also passed on by T1"]),
        ("", "capped: [dash.car.1]\n", "T1: dash", ["is capped and also passed on by T1"]),
        ("", "capped: [dash.unit.1, dash.car.1]\n", "T1: dash", ["is capped and also passed on by T1"]),
        ("", "capped: [dash.unit.5]\n", "T1: dash", []),
        # two of one row and its joint are one fault, two rows are two
        ("dash.car.5: amp.rem", "cut: [dash.car.5]\ncapped: [dash.car.5, dash.unit.5]\n", "", ["joined to amp rem"]),
        ("dash.car.5: amp.rem; dash.car.8: dsp.rem",
         "cut: [dash.car.5, dash.car.8]\ncapped: [dash.car.5, dash.car.8]\n", "",
         ["joined to amp rem", "joined to dsp rem"]),
    ],
)  # fmt: skip
def test_two_fates(joints: str, more: str, mate: str, parts: list[str]) -> None:
    alike(told("H02", joined.wiring_of(joints, more, mate)), parts)


END = "T1: {ends: {unit: %s, car: %s}, through: 1..2}"


@pytest.mark.parametrize(
    ("housing", "contacts", "unit", "car", "parts"),
    [
        # nothing is written of one or of the other; alike; the same words written otherwise
        ("", "", "12-way K", "12-way K", []), ("12-way K", "", "{contacts: pins}", "{contacts: pins}", []),
        ("12-way K", "", "12-way K", "12-way k", []),
        ("12-way K", "", "8-way", "12-way K", ["T1's unit end is a 8-way, dash a 12-way K"]),
        ("12-way K", "", "8-way", "10-way", ["T1's unit end is a 8-way, dash a 12-way K; T1's car end is a 10-way"]),
        # sockets on sockets
        ("", "{unit: sockets, car: pins}", "{contacts: sockets}", "{contacts: sockets}", ["has sockets and so has"]),
        ("", "{unit: sockets, car: pins}", "{contacts: pins}", "{contacts: sockets}", []),
        ("", "", "{contacts: pins}", "{contacts: pins}", []),
        ("", "{unit: sockets, car: pins}", "12-way", "12-way", []),
    ],
)  # fmt: skip
def test_ends_that_do_not_go_on(housing: str, contacts: str, unit: str, car: str, parts: list[str]) -> None:
    said = f"    housing: {housing}\n" * bool(housing) + f"    contacts: {contacts}\n" * bool(contacts)
    head = _with_loom(END % (unit, car)).replace("    unit: radio\n", f"    unit: radio\n{said}")
    alike(told("H16", joined.wiring_of("", "", "T1: dash", head)), parts)


@pytest.mark.parametrize(
    ("one", "other", "parts"),
    [
        ("12-way K", "12-way K", []), ("12-way K", "12-way k", []), ("{contacts: pins}", "12-way K", []),
        ("12-way K", "{contacts: pins}", []),
        ("12-way K", "8-way", ["T2's unit end is a 12-way K, T1's car end a 8-way: it can't"]),
        ("{contacts: pins}", "{contacts: pins}", ["T2's unit end has pins and so has T1's car end: it can't"]),
        ("{contacts: pins}", "{contacts: sockets}", []),
        ("{housing: 12-way K, contacts: pins}", "{housing: 8-way, contacts: pins}",
         ["T2's unit end has pins and so has T1's car end; T2's unit end is a 12-way K, T1's car end a 8-way"]),
    ],
)  # fmt: skip
def test_two_looms_in_a_row(one: str, other: str, parts: list[str]) -> None:
    looms = END % ("12-way K", other) + f"\n  T2: {{ends: {{unit: {one}, car: 12-way K}}, through: 1..2}}"
    mate = "T1.unit: dash, T2.unit: T1.car, T2.car: dash"
    alike(told("H16", joined.wiring_of("", "", mate, _with_loom(looms))), parts)


def _with_loom(row: str) -> str:
    start = joined.HEAD.index("  T1: {ends")
    return joined.HEAD[:start] + f"  {row}\n" + joined.HEAD[joined.HEAD.index("units:") :]


@pytest.mark.parametrize(
    ("loom", "more", "parts"),
    [
        # two; four, and six, of which four are told
        ("leads: {1: ILL OG, 2: ACC RD}", "", ["1 is ILL there, B+ here; 2 is ACC there, GND here"]),
        (
            "leads: {1: ILL OG, 2: ACC RD, 5: B+ YE, 8: GND BK, 6: MUTE BN, 7: SWC BN}",
            "",
            ["8 is GND there, ACC here; and 2 more."],
        ),
        ("leads: {1: ILL OG, 2: ACC RD, 5: B+ YE, 8: GND BK}", "", ["8 is GND there, ACC here."]),
        # the pins alone say so, in the maker's list; a pin that isn't in it, and one of the other side
        ("through: 1..2, pins: {1: ACC RD}", "", ["1 is ACC there, B+ here"]),
        ("through: 1..2, pins: {1: B+ YE, 2: GND BK}", "", []),
        ("through: 1..2, pins: {4: CAN-L YE/BN}", "", []),
        # a lead at a cavity of which nothing is recorded, and one whose pin is taken out, before one that differs
        ("leads: {11: ILL OG, 1: ILL OG}", "", ["1 is ILL there, B+ here."]),
        ("leads: {unit.1: ILL OG, unit.5: B+ YE}", "depinned: [T1.unit.1]\n", ["5 is B+ there, ILL here."]),
        # a wire that lands where it came from, or where nothing is recorded, before one that differs
        ("through: 1, leads: {5: ACC RD}", "", ["5 is ACC there, ILL here."]),
        ("through: {1: 11, 2: 5}", "", ["2 (GND) goes to 5 (ILL)"]),
        ("through: {1: 1, 2: 5}", "", ["2 (GND) goes to 5 (ILL)"]),
        # a wire that crosses to where nothing is recorded; whose far pin is taken out, or moved to where it fits
        ("through: {1: 11}", "", []),
        ("through: {1: 5}", "depinned: [T1.car.5]\n", []),
        ("through: {1: 5}", "moved: {T1.car.5: T1.car.1}\n", []),
        ("through: {1: 1}", "moved: {T1.car.1: T1.car.5}\n", ["1 (B+) goes to 5 (ILL)"]),
        # a pin of the unit end that is moved is judged where it stands
        ("through: {1: 1}", "moved: {T1.unit.1: T1.unit.5}\n", []),
    ],
)
def test_pins_of_a_loom(loom: str, more: str, parts: list[str]) -> None:
    head = _with_loom(f"T1: {{ends: {{unit: 12-way, car: 12-way}}, {loom}}}")
    alike(told("H07", joined.wiring_of("", more, "T1: dash", head)), parts)


def test_a_loom_that_ends_in_two_plugs() -> None:
    """From 1 of dash (B+) to 1 of gate (B+), and from 5 (ILL) to 2 (GND); 6 is FL+ at the one, ACC at the other."""
    for through, parts in (
        ("1", []), ("{1: 1, 5: 2}", ["5 (ILL) goes to gate 2 (GND)"]), ("6", ["6 (FL+) goes to gate 6 (ACC)"]),
    ):  # fmt: skip
        head = _with_loom(f"T1: {{ends: {{unit: 12-way, car: 12-way}}, through: {through}}}")
        alike(told("H07", joined.wiring_of("", "", "T1.unit: dash, T1.car: gate", head)), parts)


@pytest.mark.parametrize(
    ("method", "joints", "parts"),
    [
        ("solder", "dash.1: amp.B+", []),
        ("pierce", "dash.1: amp.B+", ["dash cavity 1 (yellow, B+), car side is tapped through the insulation: preset"]),
        # two under one heading are two; a heading before it that is allowed
        ("pierce", "dash.1: amp.B+; dash.8: dsp.B+", ["cavity 1 (yellow, B+)", "cavity 8 (red, ACC)"]),
    ],
)
def test_a_method_that_the_preset_forbids(method: str, joints: str, parts: list[str]) -> None:
    rows = "".join(f"    {row}\n" for row in joints.split("; "))
    head = joined.HEAD.replace("car: {", "preset: house\ncar: {")
    text = f"joints:\n  solder at floor with tape:\n    dash.5: amp.rem\n  {method}:\n{rows}"
    findings = found("H04", joined.wiring_of("", text, head=head))
    alike([each.message for each in findings], parts)
    assert all(each.path[0] == each.about[0] for each in findings)


@pytest.mark.parametrize(
    ("rows", "wires"),
    [
        # a data wire, pierced or not; what is fine, and what is no data wire, before it
        ("solder: dash.3: eye.CAN-H", []), ("pierce: dash.3: eye.CAN-H", ["cavity 3"]),
        ("solder: dash.3: eye.CAN-H; pierce: dash.4: eye.CAN-L", ["cavity 4"]),
        ("pierce: dash.5: amp.rem, dash.4: eye.CAN-L", ["cavity 4"]),
        ("pierce: dash.3: eye.CAN-H, dash.4: eye.CAN-L", ["cavity 3", "cavity 4"]),
    ],
)  # fmt: skip
def test_a_spike_in_a_data_wire(rows: str, wires: list[str]) -> None:
    made = ""
    for heading in rows.split("; "):
        method, _, joints = heading.partition(": ")
        made += f"  {method} at floor with tape:\n" + "".join(f"    {row}\n" for row in joints.split(", "))
    alike(told("G03", joined.wiring_of("", f"joints:\n{made}")), [f"dash {wire}" for wire in wires])


@pytest.mark.parametrize(
    ("joints", "more", "parts"),
    [
        # fed anew from elsewhere it is no loss; the unit comes out; two plugs
        ("dash.unit.1: gate.1", "cut: [dash.car.1]\n", []),
        ("", "cut: [gate.car.1]\nremoved: [out, body]\n", []),
        ("", "cut: [gate.car.1, dash.car.8]\nremoved: [out, body]\n", ["radio stays and loses its ACC"]),
        ("", "cut: [dash.car.1, gate.car.1]\nremoved: [out, radio]\n", ["body stays and loses its B+"]),
        ("", "cut: [dash.car.1, gate.car.1]\n", ["radio stays and loses its B+", "body stays and loses its B+"]),
        # only the car's side is used; only the unit's side
        ("dash.car.1: amp.B+", "cut: [dash.car.1]\n", ["loses its B+"]),
        ("dash.unit.1: dsp.B+", "cut: [dash.car.1]\n", []),
        ("dash.car.1: amp.B+", "cut: [dash.car.1]\ncapped: [dash.unit.1]\n", []),
    ],
)
def test_more_feeds_that_are_cut_off(joints: str, more: str, parts: list[str]) -> None:
    head = joined.HEAD.replace("removed: [out]\n", "") if "removed" in more else joined.HEAD
    alike(told("H18", joined.wiring_of(joints, more, head=head)), parts)


def test_a_feed_that_is_cut_off_beside_one_that_the_loom_has_no_pin_for() -> None:
    """T1 goes into dash, of which it passes 1 and 2 only."""
    alike(told("H18", joined.wiring_of("", "cut: [gate.car.1]\n", "T1: dash")), ["body stays and loses its B+"])
    # of the same plug: 1 and 2 have no pin, that of 8 is taken out
    head = _with_loom("T1: {ends: {unit: 12-way, car: 12-way}, through: 8}")
    pulled = joined.wiring_of("", "depinned: [T1.unit.8]\n", "T1: dash", head)
    alike(told("H18", pulled), ["dash cavity 8 (red, ACC), unit side is cut off: radio stays and loses its ACC."])


def test_the_second_of_two_leads_that_nobody_entered() -> None:
    leads = "leads: {car.6: unknown OG/WH, car.7: unknown PK/GN}"
    head = _with_loom(f"T1: {{ends: {{unit: 12-way, car: 12-way}}, {leads}}}").replace("6/7: FL WH WH/BK, ", "")
    alike(told("H11", joined.wiring_of("T1.car.7: amp.rem", "", "T1: dash", head)), ["T1 car end 7 (pink with green"])


@pytest.mark.parametrize(
    ("one", "other", "parts"),
    [
        # here in time, or on the day, before one of which nobody wrote, and one that comes too late; both late
        ("2026-03-09", "", ["T2 is not in stock, and nobody wrote when it comes"]),
        ("2026-03-10", "", ["T2 is not in stock, and nobody wrote when it comes"]),
        (
            "2026-03-09",
            ", arrives: 2026-03-11",
            ["T2 is not in stock and arrives 2026-03-11, the job is on 2026-03-10: 1 day t"],
        ),
        ("2026-03-12", ", arrives: 2026-03-13", ["T1 is not in stock", ": 3 days too late."]),
    ],
)
def test_looms_that_are_not_here(one: str, other: str, parts: list[str]) -> None:
    row = "  {}: {{ends: {{unit: 8-way, car: 8-way}}, leads: {{1: ILL OG}}, stock: 0{}}}\n"
    looms = "looms:\n" + row.format("T1", f", arrives: {one}") + row.format("T2", other)
    head = signals.HEAD.replace("title: ", "date: 2026-03-10\ntitle: ")
    joints = "T2.unit.1: amp.rem; T1.unit.1: amp.rem"
    alike(told("J09", signals.wiring_of(joints, "amp: {kind: amplifier, wakes: rem}", looms, head=head)), parts)


@pytest.mark.parametrize(
    ("colour", "joints", "parts"),
    [
        # by its colour, by a colour that lists don't have, by none at all; joined to what says nothing; not joined
        ("OG/WH", "T1.car.6: amp.rem", ["is joined to amp rem, and its function isn't entered. Orange with white"]),
        ("PK/GN", "T1.car.6: amp.rem", ["isn't entered. Pink with green stripe has no usual meaning."]),
        ("", "T1.car.6: amp.rem", ["isn't entered. Nothing says what it is."]),
        ("OG/WH", "T1.car.6: face.line", []), ("OG/WH", "dash.car.5: amp.rem", []),
    ],
)  # fmt: skip
def test_a_lead_known_by_its_colour(colour: str, joints: str, parts: list[str]) -> None:
    head = _with_loom(f"T1: {{ends: {{unit: 12-way, car: 12-way}}, leads: {{car.6: unknown {colour}}}}}")
    head = head.replace("6/7: FL WH WH/BK, ", "")
    alike(told("H11", joined.wiring_of(joints, "", "T1: dash", head)), parts)


SPLICED = """\
units:
  one: {kind: interface, leads: {B+: RD 16 AWG, GND: BK 16 AWG}}
  two: {kind: interface, leads: {B+: RD 12 AWG, GND: BK 22 AWG}}
joints:
  crimp at behind the radio with heat shrink:
"""


@pytest.mark.parametrize(
    ("rows", "parts"),
    [
        # ASTM B258: 22 AWG is 0.326 mm², 18 AWG 0.823, 16 AWG 1.31, 14 AWG 2.08, 12 AWG 3.31
        ("one.GND: {to: two.GND, takes: 22..14 AWG}", []),
        ("one.B+: {to: two.B+, takes: 22..14 AWG}", ["J1: 16 AWG + 12 AWG is 4.62 mm²"]),
        # two wires at once: the first fit; two joints
        ("one.GND/B+: {to: two.GND/B+, takes: 22..14 AWG}", ["J1: 16 AWG + 12 AWG is 4.62 mm²"]),
        ("one.GND: {to: two.GND, takes: 22..14 AWG}; one.B+: {to: two.B+, takes: 22..14 AWG}", ["J2: 16 AWG + 12 AWG"]),
        ("one.GND: two.GND; one.B+: {to: two.B+, takes: 22..14 AWG}", ["J2: 16 AWG + 12 AWG"]),
    ],
)
def test_copper_in_a_connector(rows: str, parts: list[str]) -> None:
    alike(told("H06", supplied(SPLICED + "".join(f"    {row}\n" for row in rows.split("; ")))), parts)


def test_a_lead_without_a_fate_behind_a_loom_that_is_not_used() -> None:
    """T0 lies on the bench; T1 is plugged in, and one of its leads leads nowhere."""
    spare = "T0: {ends: {unit: 12-way, car: 12-way}, leads: {car.9: MUTE BN}}\n  "
    loom = "T1: {ends: {unit: 12-way, car: 12-way}, leads: {car.9: MUTE BN}}"
    for looms in (spare + loom, loom):
        alike(
            told("H17", joined.wiring_of("", "", "T1: dash", _with_loom(looms))),
            ["T1 car end 9 (brown, MUTE) is joined"],
        )


@pytest.mark.parametrize(
    ("joints", "path"),
    [
        # from the far end of the lead that is one too many, the second, however far the first one goes
        ("T1.car.5: face.line; T1.other: amp.rem", "amp.rem T1.other T1.car.5 dash.car.5"),
        ("T1.car.5: amp.rem; amp.rem: dsp.rem; T1.other: face.line", "face.line T1.other T1.car.5 dash.car.5"),
        ("", "T1.other T1.car.5 dash.car.5"),
    ],
)
def test_the_way_of_a_lead_that_is_one_too_many(joints: str, path: str) -> None:
    head = _with_loom("T1: {ends: {unit: 12-way, car: 12-way}, leads: {car.5: ILL OG, other: car.5 ILL BU}}")
    (finding,) = found("H14", joined.wiring_of(joints, "", "T1: dash", head))
    assert " ".join(finding.path) == path
