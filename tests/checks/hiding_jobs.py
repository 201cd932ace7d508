"""One small job for each line of the table of what hides what: both would be told, and the cause is enough."""

from __future__ import annotations

_ROWS = {
    "FL": "1/11: FL WH WH/BK", "FR": "2/12: FR GY GY/BK", "RL": "3/13: RL GN GN/BK", "RR": "4/14: RR VT VT/BK",
    "MIC": "5/15: MIC BN BN/WH", "MUTE": "6: MUTE BN/YE", "ON": "18: AMP-ON BU/WH", "B+": "9: B+ YE",
    "GND": "19: GND BK",
    "CAN": "10/20: CAN YE/GN YE/BN twisted", "ILL": "7: ILL OG", "MUTE-2": "8: MUTE PK",
}  # fmt: skip

_RADIO = "radio: {kind: radio, outputs: {FL FR RL RR: btl 8.5 V}, gives: {AMP-ON: 100 mA}}"
_AMP = "amp: {kind: amplifier, inputs: {in1..2: 2..20 V differential}, outputs: {out1..2: 75 W @ 4 ohm least 2 ohm}}"
_GROUNDED = "lo: {kind: line converter, inputs: {in1: 2..20 V grounded}, outputs: {out1: 2 V grounded}}"
_KEPT = "kept: {kind: factory amplifier}"
_FACE = "can: {kind: interface, leads: {CAN-H: YE/GN, CAN-L: YE/BN}}"


def job(
    rows: str, rest: str = "", *, units: tuple[str, ...] = (_RADIO,), extra: tuple[str, ...] = (), plug: str = "",
    speakers: str = "",
) -> str:  # fmt: skip
    """A dash plug with the rows named, units, speakers of its channels, and the rest as written."""
    named = rows.split()
    heard = speakers or " ".join(name for name in named if name in ("FL", "FR", "RL", "RR"))
    lines = ["ringout: 1", "title: Which is the cause", "car: {name: Alder hatch, steering: left}", "plugs:", "  dash:"]
    lines += ["    place: behind the radio", "    unit: radio"]
    lines += [f"    {plug}"] if plug else []
    lines += ["    face: {rows: 2, columns: 10, view: wire, latch: top, first: top left, count: across}"]
    lines += ["    source: {chart: bench sheet 1, date: 2026-03-02, by: JM}", "    cavities:"]
    lines += [f"      {row}" for row in (*(_ROWS[name] for name in named), *extra)]
    lines += ["units:", *(f"  {unit}" for unit in units)]
    lines += ["speakers:", f"  {heard}: {{nominal: 4 ohm}}"] if heard else []
    return "\n".join(lines) + "\n" + rest.strip("\n") + "\n"


def loom(through: str = "", leads: tuple[str, ...] = (), then: str = "", joints: tuple[str, ...] = ()) -> str:
    """A loom in the dash plug."""
    lines = ["looms:", "  T1:", "    ends: {unit: 20-way, car: 20-way}"]
    lines += [f"    through: {through}"] if through else []
    lines += ["    leads:", *(f"      {lead}" for lead in leads)] if leads else []
    lines += ["joints:", "  mate: {T1: dash}"]
    lines += ["  crimp:", *(f"    {each}" for each in joints)] if joints else []
    return "\n".join([*lines, then]).rstrip("\n")


def tap(*joints: str, then: str = "grounds: {G1: {place: kick panel, metal: bare}}") -> str:
    return "\n".join(["joints:", "  solder:", *(f"    {each}" for each in joints), then])


def moved(start: str, end: str, through: str, leads: tuple[str, ...] = (), then: str = "") -> str:
    """Terminals of the loom's car end put where others stand: `1 11` to `2 12`."""
    pairs = ", ".join(f"T1.car.{a}: T1.car.{b}" for a, b in zip(start.split(), end.split(), strict=True))
    return loom(through, leads, then=f"moved: {{{pairs}}}\n{then}")


_TAKEN = loom(
    leads=("1/11: FL WH WH/BK",), joints=("T1.unit.FL: amp.in1",), then="capped: [T1.car.FL]"
)  # fmt: skip
_CAPPED = loom(leads=("1/11: FL WH WH/BK",), then="capped: [T1.unit.FL, T1.car.FL]")
_WITH_AMP = (_RADIO, _AMP)


def _lost(kinds: tuple[str, ...], rest: str) -> str:
    """The radio's features on the left front speaker."""
    return rest + "\nfeatures:\n" + "".join(f"  {kind}: radio > spk.FL\n" for kind in kinds)


def runs(*chains: str) -> str:
    """What is laid, and a ground point."""
    return "\n".join(["grounds: {G1: {place: kick panel, metal: bare}}", "runs:", *(f"  - {each}" for each in chains)])


_FED = "battery.+ > 12 in 8 AWG > fuse 40 A > 9 ft 8 AWG > amp.B+"
_BLOCK = "block: {kind: fuse block, ways: 2}"
_COIL = "k1: {kind: relay, coil: 150 mA}"
_MORE = "more: {kind: amplifier, draws: 29 A}"


JOBS: dict[tuple[str, str], str] = {
    ("A05", "A06"): job("FL", extra=("2/1: FL WH WH/BK",)),
    ("A05", "C14"): job("", extra=("1: ACC RD", "1/11: FL WH WH/BK"), speakers="FL"),
    ("C03", "C14"): job("FL", """
found:
  - dash.FL+ > spk.FL+
  - spk.FL- > gnd.G1
grounds: {G1: {place: kick panel, metal: bare}}
"""),
    ("C05", "C06"): job("FL", tap("dash.FL: lo.in1"), units=(_RADIO, _GROUNDED.replace("2..20 V", "0.2..4 V"))),
    ("C05", "H12"): job("FL", tap("dash.11: lo.in1-"), units=(_RADIO, _GROUNDED)),
    ("F01", "F02"): job("ILL", runs("battery.+ > 30 in 4 AWG > k1.30", "k1.30 > fuse 40 A > 3 ft 8 AWG > amp.B+",
                                    "k1.30 > 3 ft 8 AWG > more.B+"), units=(*_WITH_AMP, _COIL, _MORE)),
    ("F01", "E10"): job("ILL", runs("battery.+ > 12 in 8 AWG > k1.30", "k1.87 > 3 ft 8 AWG > amp.B+"),
                        units=(*_WITH_AMP, _COIL)),
    ("C18", "E01"): job("ON", loom(leads=("18: AMP-ON BU",), then="capped: [T1.unit.18, T1.car.18]"),
                        units=(_RADIO, _KEPT[:-1] + ", wakes: AMP-ON}"), plug="car: kept"),
    ("G12", "E01"): job("CAN ON", tap("dash.10: amp.rem"), units=(_RADIO, _AMP[:-1] + ", wakes: rem}")),
    ("F12", "F21"): job("ILL", runs(_FED, "amp.GND > fuse unknown > 18 in 8 AWG > gnd.G1"), units=_WITH_AMP),
    ("F14", "F13"): job("B+", tap("dash.9: more.B+"), units=(_RADIO, _MORE, "gate: {kind: control unit}")).replace(
        "unit: radio", "unit: gate"),
    ("F21", "F07"): job("ILL", runs("battery.+ > 12 in 8 AWG > fuse 50 A > 9 ft 8 AWG > block.in",
                                    "block.1 > 3 ft 8 AWG CCA > amp.B+"), units=(*_WITH_AMP, _BLOCK)),
    ("F22", "F23"): job("FL B+", tap("dash.9: [gnd.G1, amp.in1+]"), units=_WITH_AMP),
    ("F22", "C03"): job("FL B+", tap("dash.9: [gnd.G1, amp.out1+]"), units=_WITH_AMP),
    ("F22", "G12"): job("CAN B+", tap("dash.9: [gnd.G1, dash.10]")),
    ("F23", "C01"): job("FL B+", tap("dash.9: [dash.1, amp.out1+]"), units=_WITH_AMP),
    ("F23", "C03"): job("FL B+", tap("dash.9: [gnd.G1, amp.out1+]"), units=_WITH_AMP),
    ("F23", "G12"): job("CAN B+", tap("dash.9: dash.10")),
    ("F23", "F25"): job("B+", tap("dash.9: dash.16"), extra=("16: AERIAL BU",)),
    ("F24", "C01"): job("FL ON", tap("dash.18: [dash.1, amp.out1+]"), units=_WITH_AMP),
    ("F24", "C03"): job("FL ON", tap("dash.18: [gnd.G1, amp.out1+]"), units=_WITH_AMP),
    ("F24", "G12"): job("CAN ON", tap("dash.18: dash.10")),
    ("H02", "H18"): job("B+", loom("9", then="capped: [T1.car.9]\ndepinned: [T1.car.9]")),
    ("G11", "G01"): job("CAN", loom("{10: 20}")),
    ("G07", "G01"): job("CAN", loom(leads=("10/20: CAN YE/GN YE/BN",), then="capped: [T1.unit.10/20, T1.car.10/20]"),
                        plug="carries: SRS"),
    ("G07", "H08"): job("ILL MUTE", loom('"7"'), plug="carries: SRS"),
    ("H01", "H12"): job("", tap("dash.1: amp.out1+"), extra=("1: unknown GN",),
                        units=(_RADIO, _AMP[:-1] + ", leads: {out1: WH WH/BK}}")),
    ("H03", "C25"): job("FL", _lost(("navigation voice",), _TAKEN), units=_WITH_AMP),
    ("H08", "C17"): job("MIC ILL", loom('"7"')),
    ("H08", "C18"): job("MUTE ILL", loom('"7"'), units=(_RADIO, _KEPT), plug="car: kept"),
    ("H08", "C25"): job("FL ILL", _lost(("navigation voice",), loom('"7"'))),
    ("H07", "B03"): job("FL FR", loom("{1: 2, 11: 12, 2: 1, 12: 11}")),
    ("H07", "B04"): job("FL RL", loom("{1: 3, 11: 13, 3: 1, 13: 11}")),
    ("H07", "C14"): job("FL ILL MUTE", loom("{1: 7, 11: 6}")),
    ("H07", "C17"): job("MIC ILL MUTE", loom("{5: 7, 15: 6}")),
    ("H07", "C18"): job("MUTE ILL", loom("{6: 7}"), units=(_RADIO, _KEPT), plug="car: kept"),
    ("H07", "C25"): job("FL ILL MUTE", _lost(("navigation voice",), loom("{1: 7, 11: 6}"))),
    ("H07", "F19"): job("B+", loom("{9: 16, 16: 9}"), extra=("16: ACC RD",)),
    ("H07", "F25"): job("B+ ILL", loom("{9: 7}")),
    ("H07", "F23"): job("FL B+", loom("{9: 1}")),
    ("H07", "G01"): job("CAN MUTE MUTE-2", loom("{10: 6, 20: 8}")),
    ("H07", "G11"): job("CAN", loom(leads=("unit.10: ILL OG",), joints=("T1.unit.10: can.CAN-L",)),
                        units=(_RADIO, _FACE)),
    ("H07", "G12"): job("CAN FL", loom("{10: 1}")),
    ("H07", "H08"): job("ILL MUTE", loom("{7: 6}"), extra=("17: ILL OG/WH",)),
    ("B06", "H12"): job("FL", tap("amp.out1+: spk.SUB+", "amp.out2-: spk.SUB-"), units=_WITH_AMP, speakers="FL SUB"),
    ("C14", "C25"): job("FL", _lost(("navigation voice",), _CAPPED)),
    ("C15", "C25"): job("FL", _lost(("belt warning", "navigation voice"), _CAPPED)),
    ("C15", "H03"): job("FL", _lost(("belt warning",), _TAKEN), units=_WITH_AMP),
    ("C23", "C14"): job("FL", _lost(("emergency call",), _CAPPED)),
    ("C23", "C25"): job("FL", _lost(("emergency call", "navigation voice"), _CAPPED)),
    ("C23", "H03"): job("FL", _lost(("emergency call",), _TAKEN), units=_WITH_AMP),
    ("G01", "H03"): job("FL CAN", loom(leads=("1/11: FL WH WH/BK",), joints=("T1.unit.1/11: dash.unit.10/20",),
                                       then="capped: [T1.car.FL]")),
    ("H12", "C14"): job("FL", tap("amp.out1+: spk.SUB+"), units=_WITH_AMP, speakers="FL SUB"),
    ("H14", "B03"): job("FL FR", moved("1 11", "2 12", "1 11", ("2/12: FR GY GY/BK",),
                                       "capped: [T1.unit.FR, T1.car.FR]")),
    ("H14", "B04"): job("FL RL", moved("1 11", "3 13", "1 11", ("3/13: RL GN GN/BK",),
                                       "capped: [T1.unit.RL, T1.car.RL]")),
    ("H14", "C04"): job("FL FR", moved("11", "12", "1 11 2 12")),
    ("H14", "C14"): job("FL ILL", moved("1", "7", "1 11 7")),
    ("H14", "C24"): job("FL", moved("1", "11", "1 11")),
    ("H14", "F22"): job("B+ GND", moved("9", "19", "9 19")),
    ("H14", "F25"): job("B+ ILL", moved("9", "7", "9 7")),
    ("H14", "F23"): job("B+ FL", moved("9", "1", "9 1 11")),
    ("H14", "G12"): job("CAN FL", moved("10", "1", "10 20 1 11")),
    ("H14", "H08"): job("ILL MUTE", moved("7", "6", "6..7"), extra=("17: ILL OG/WH",)),
    ("H16", "H07"): job("ILL", loom(leads=("car.7: ACC RD",)).replace(
        "{unit: 20-way, car: 20-way}", "{unit: {contacts: pins}, car: {contacts: pins}}"),
        plug="contacts: {unit: sockets, car: pins}"),
}  # fmt: skip

# Jobs that are fixtures already.
FIXTURES: dict[tuple[str, str], str] = {
    ("E02", "E11"): "E02/bad_read_asleep",
    ("A18", "A19"): "A18/bad_two_wires_on_the_body",
    ("A18", "H15"): "A18/bad_lead_beside_a_lead",
    ("A12", "J22"): "A12/bad_read_across",
    ("A17", "J22"): "A17/bad_an_input",
    ("A18", "J22"): "A18/bad_at_an_output",
    ("D05", "J22"): "D05/bad_at_an_output",
    ("H15", "J22"): "H15/bad_across_a_pair",
    ("J24", "J04"): "J24/bad_second_output",
    ("J25", "J04"): "J25/bad_joined_to_the_other_output",
    ("A19", "D05"): "A19/bad_both_wires",
    ("E10", "F02"): "E10/bad_fed_at_87",
    ("G07", "E01"): "G07/bad_restraint_behind_two_inline_plugs",
    ("G07", "E09"): "G07/bad_yellow_wire_at_seat",
    ("G12", "E09"): "G12/bad_bus_meets_trigger_behind_inline",
    ("D04", "C14"): "D04/bad_plain",
    ("D07", "B06"): "D07/bad_plain",
    ("B08", "B01"): "B08/bad_turned_alone_on_its_side",
    ("B08", "B05"): "B08/bad_put_straight_at_the_output",
    ("B09", "B03"): "B09/bad_routes_crossed",
    ("C02", "C01"): "C02/bad_tap_and_return",
    ("F19", "F25"): "F19/bad_across_the_loom",
    ("F21", "F03"): "F21/bad_ways_of_the_block",
    ("G03", "H04"): "G03/bad_tap_bites_into_can",
    ("G07", "H04"): "G07/bad_yellow_wire_at_seat",
    ("H03", "C14"): "H03/bad_taken_and_not_given_back",
    ("H03", "H01"): "H03/bad_radio_side_left_live",
    ("H03", "H17"): "H03/bad_taken_far_from_the_speaker",
    ("H08", "C14"): "H08/bad_no_pin_for_wheel_control",
    ("H07", "B06"): "H14/bad_moved_onto_another_channel",
    ("H07", "C01"): "H14/bad_moved_onto_another_channel",
    ("H07", "F22"): "H07/bad_loom_of_another_car",
    ("B06", "C14"): "B06/bad_one_output_across_two_speakers",
    ("C13", "C14"): "C13/bad_route_missing",
    ("C15", "C14"): "C15/bad_beeper_cut",
    ("C20", "C14"): "C20/bad_tapped",
    ("C24", "C01"): "C24/bad_bridge_on_one_terminal",
    ("C24", "C14"): "C24/bad_pair_under_one_cap",
    ("H12", "H17"): "H12/bad_one_wire_of_an_input",
    ("H14", "B06"): "H14/bad_moved_onto_another_channel",
    ("H14", "C01"): "H14/bad_moved_onto_another_channel",
    ("H14", "H07"): "H14/bad_moved_onto_another_channel",
}
