"""The small rules that graphs are read by, each on values written here; no job is needed for most of them."""

from __future__ import annotations

import math

import pytest

from harness.graph import bonded, cable, grounding, live, loads, set_otherwise, woken
from harness.graph.conductor import MADE, RANK, Conductor, crosses
from harness.graph.signal import _numbered
from harness.graph.waking import Wake
from harness.model.job import Segment
from harness.model.parts import Setting
from harness.place import Place
from harness.units import wire_size
from tests.conftest import Wired

PLACE = Place("job.yaml", 3, 1)


# -- settings ----------------------------------------------------------------------------------------------------


def setting(what: str, value: float | None, words: str = "", output: str = "out1") -> Setting:
    return Setting(what, output, words or f"{value}", value, PLACE)


@pytest.mark.parametrize(
    ("what", "planned", "is_set", "otherwise"),
    [
        # a third of an octave either way is what a knob's scale may be off by (common practice, no source):
        # 80 x 2^(1/3) = 100.79 Hz, 80 / 2^(1/3) = 63.50 Hz
        ("low-pass", 80.0, 100.0, False),
        ("low-pass", 80.0, 102.0, True),
        ("high-pass", 80.0, 64.0, False),
        ("high-pass", 80.0, 63.0, True),
        ("high-pass", 80.0, 80.0, False),
        ("high-pass", 80.0, 0.5, True),
        # 1 dB (common practice, no source)
        ("gain", -12.0, -11.0, False),
        ("gain", -12.0, -13.0, False),
        ("gain", -12.0, -10.9, True),
        ("gain", 0.0, -1.2, True),
        ("gain", 0.0, 0.0, False),
        # off, or a word
        ("high-pass", 80.0, None, True),
        ("gain", 0.0, None, True),
        # nothing is 0 Hz
        ("low-pass", 80.0, 0.0, True),
    ],
)
def test_how_far_a_scale_may_be_off(what: str, planned: float, is_set: float | None, otherwise: bool) -> None:
    assert set_otherwise.differs(what, planned, setting(what, is_set)) is otherwise


SETTINGS = """
    car: {{name: Bench car, steering: left}}
    units:
      amp:
        kind: amplifier
        inputs: {{in1..2: 0.2..4 V}}
        outputs: {{out1..2: 50 W @ 4 ohm}}
        routes: {{out1: in1 {route}, out2: in2}}
        wakes: signal
"""


@pytest.mark.parametrize(
    ("route", "what", "planned"),
    [
        ("80.. Hz", "high-pass", 80.0), ("80.. Hz", "low-pass", None), ("80.. Hz", "gain", None),
        ("..80 Hz", "low-pass", 80.0), ("..80 Hz", "high-pass", None),
        # the ends of hearing are no crossover
        ("20..20000 Hz", "high-pass", None), ("20..20000 Hz", "low-pass", None),
        ("21..19000 Hz", "high-pass", 21.0), ("21..19000 Hz", "low-pass", 19000.0),
        ("-6 dB", "gain", -6.0), ("0 dB", "gain", 0.0), ("", "gain", None), ("", "high-pass", None),
    ],
)  # fmt: skip
def test_what_a_route_plans(wired: Wired, route: str, what: str, planned: float | None) -> None:
    wiring = wired(SETTINGS.format(route=route))
    driver = next(each for each in wiring.signals.drivers if each.port.name == "out1")
    assert set_otherwise.planned_of(wiring, driver, what) == planned


# -- coils -------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("speaker", "ohm", "capacitor"),
    [
        ("nominal: 4 ohm", 4.0, None),
        # two coils of 4: 8 in line, 2 side by side, 4 each where they are separate
        ("coils: 2 x 4 ohm series", 8.0, None),
        ("coils: 2 x 4 ohm parallel", 2.0, None),
        ("coils: 2 x 4 ohm separate", 4.0, None),
        ("nominal: 4 ohm, capacitor: 10 uF", 4.0, 10e-6),
        ("nominal: 4 ohm, capacitor: unknown", 4.0, math.inf),
        ("place: door", None, None),
        ("nominal: 0 ohm", None, None),  # no coil has none: nobody read it
        # a new speaker of which the ohms are written counts with its own capacitor; one of which they aren't, the old
        ("nominal: 4 ohm, capacitor: 10 uF, new: {nominal: 2 ohm}", 2.0, None),
        ("nominal: 4 ohm, new: {coils: 2 x 4 ohm series}", 8.0, None),
        ("nominal: 4 ohm, new: {coils: 2 x 2 ohm parallel, capacitor: 47 uF}", 1.0, 47e-6),
        ("nominal: 4 ohm, capacitor: 10 uF, new: one", 4.0, 10e-6),
    ],
)
def test_what_a_speaker_counts_as(wired: Wired, speaker: str, ohm: float | None, capacitor: float | None) -> None:
    wiring = wired(f"car: {{name: Bench car, steering: left}}\nspeakers:\n  FL: {{{speaker}}}\n")
    made = loads.coil_of(wiring.job.parts.speakers["FL"])
    assert made.ohm == (ohm if ohm is None else pytest.approx(ohm))
    assert made.capacitor == (capacitor if capacitor is None else pytest.approx(capacitor))


# -- words -------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("current_a", "words"),
    [(0.39, "390 mA"), (0.035, "35 mA"), (0.9994, "999 mA"), (1.0, "1 A"), (1.2, "1.2 A"), (12.345, "12.3 A")],
)
def test_amperes_in_words(current_a: float, words: str) -> None:
    assert woken.amperes(current_a) == words


def test_names_in_a_message() -> None:
    """Each once; three are said, more are others."""
    assert woken.names(["dsp"]) == "dsp"
    assert woken.names(["dsp", "amp", "dsp"]) == "dsp and amp"
    assert woken.names(["a", "b", "c"]) == "a and b and c"
    assert woken.names(["a", "b", "c", "d"]) == "a and b and c and others"


def test_one_sleeps_and_two_sleep() -> None:
    one, two = Wake("dsp", "dsp.rem", None), Wake("amp", "amp.rem", 0.3)
    assert woken.what_units_do([one], "sleeps", "sleep") == "dsp sleeps"
    assert woken.what_units_do([one, one], "sleeps", "sleep") == "dsp sleeps"
    assert woken.what_units_do([one, two], "sleeps", "sleep") == "dsp and amp sleep"


@pytest.mark.parametrize(
    ("unit", "sound"),
    [
        ("kind: amplifier", True), ("kind: processor amplifier", True), ("kind: factory amplifier", True),
        ("kind: processor", True), ("kind: line converter", True), ("kind: interface", False), ("kind: relay", False),
        ("kind: interface, outputs: {out1: 2 V}", True), ("kind: interface, inputs: {in1: 0.2..4 V}", True),
        ("kind: control unit", False), ("kind: switch", False),
    ],
)  # fmt: skip
def test_through_what_sound_goes(wired: Wired, unit: str, sound: bool) -> None:
    wiring = wired(f"car: {{name: Bench car, steering: left}}\nunits:\n  u: {{{unit}}}\n")
    assert woken.has_sound(wiring.job.parts.units["u"]) is sound


# IEC 60228 and ASTM B258: 8 AWG is 8.366 mm², 4 AWG 21.15 mm². As copper: 21.15 x 10.37/16.06 = 13.66 mm².
def test_a_size_in_words_and_as_copper() -> None:
    assert grounding.sized(wire_size("8 AWG")) == "8 AWG (8.37 mm²)"
    assert grounding.sized(wire_size("10 mm2")) == "10 mm²"
    piece = Segment("x.1", "y.1", "wire", True, 2.0, wire_size("4 AWG"), "CCA", "", "", None, None, False, PLACE)
    made = grounding.thickness(piece)
    assert made is not None
    assert made.area_mm2 == pytest.approx(13.66, abs=0.005)
    assert made.words == "4 AWG CCA (13.7 mm² as copper)"
    plain = grounding.thickness(piece._replace(metal=""))
    assert plain is not None
    assert plain.area_mm2 == pytest.approx(21.15, abs=0.005)
    assert plain.words == "4 AWG (21.2 mm²)"
    assert grounding.thickness(piece._replace(size=None)) is None
    # 2 m of it at 20 °C: 4 AWG of CCA as 13.66 mm² of copper, 2 x 0.017241/13.66 ohm; without length or size nothing
    assert cable.ohms(piece, 20.0) == pytest.approx(2 * 0.017241 / 13.66, rel=1e-3)
    assert cable.ohms(piece._replace(length_m=None), 20.0) == 0.0
    assert cable.ohms(piece._replace(size=None), 20.0) == 0.0


# -- ports and conductors ----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("name", "number", "same"),
    [("in1", "1", True), ("rca1", "1", True), ("in11", "1", False), ("in11", "11", True), ("in2", "1", False),
     ("in12", "2", False), ("1", "1", True)],
)  # fmt: skip
def test_an_input_of_a_number(name: str, number: str, same: bool) -> None:
    assert _numbered(name, number) is same


def test_who_is_likelier_to_blame() -> None:
    """What we join before what we lay, that before the plug, the loom, the car's wire, mated halves and units."""
    kinds = ("turned", "elsewhere", "joint", "run", "plugged", "lead", "wire", "mated", "inside", "bond", "body")
    ranks = [RANK[kind] for kind in kinds]
    assert ranks == sorted(set(ranks)), "each before the next"
    assert RANK["fuse"] == RANK["run"], "a fuse stands in its run"
    assert set(kinds[2:8]) | {"fuse"} == MADE, "what somebody made"


@pytest.mark.parametrize(
    ("unit", "stands_for"),
    [
        ("kind: amplifier, outputs: {out1..2: 50 W}", {}),
        ("kind: amplifier, outputs: {out1..2: 50 W}, bonds: [out1- out2-]", {"out1-": "out1-", "out2-": "out1-"}),
        # a chain of three, and what is on GND, by a bond or since its − is grounded
        (
            "kind: amplifier, outputs: {out1..3: 50 W}, bonds: [out3- out2-, out2- out1-]",
            {"out1-": "out1-", "out2-": "out1-", "out3-": "out1-"},
        ),
        ("kind: amplifier, outputs: {out1: 50 W}, bonds: [out1- GND]", {"out1-": "GND", "GND": "GND"}),
        ("kind: amplifier, inputs: {in1: 1..4 V grounded}", {"in1-": "GND", "GND": "GND"}),
        # a fuse joins nothing that counts as one
        ("kind: fuse block, ways: 2", {}),
    ],
)
def test_what_a_unit_joins_inside(wired: Wired, unit: str, stands_for: dict[str, str]) -> None:
    wiring = wired(f"car: {{name: Bench car, steering: left}}\nunits:\n  u: {{{unit}}}\n")
    made = bonded.bonded(wiring.job.parts.units["u"])
    assert made == {f"u.{name}": f"u.{other}" for name, other in stands_for.items()}


@pytest.mark.parametrize(
    ("bonds", "passed"),
    [
        ("in1+ out1+, in1- out1-", {"out1"}), ("in1+ out1+", {"out1"}), ("in2- out1+", {"out1"}),
        ("in1+ line, line out2+", {"out2"}), ("in1+ out1+ out2+", {"out1", "out2"}),
        # minus alone is a common ground; outputs joined to each other, and inputs, are still driven
        ("in1- out1-", set()), ("out1+ out2-", set()), ("in1+ in2+", set()), ("out1- GND", set()),
    ],
)  # fmt: skip
def test_outputs_that_only_pass_on(wired: Wired, bonds: str, passed: set[str]) -> None:
    """What the maker joined to an input's wire gives what comes in there; the unit can't drive it as well."""
    unit = (
        f"kind: amplifier, inputs: {{in1..2: 1..4 V}}, outputs: {{out1..2: 4 V}}, terminals: [line], bonds: [{bonds}]"
    )
    wiring = wired(f"car: {{name: Bench car, steering: left}}\nunits:\n  u: {{{unit}}}\n")
    assert bonded.passed_on(wiring.job.parts.units["u"]) == passed
    assert {each.name for each in wiring.signals.drivers} == {"u.out1", "u.out2"} - {f"u.{name}" for name in passed}
    assert {port.name for _, port in live.live_terminals(wiring)} == {"out1", "out2"} - passed


def test_what_is_live_behind_a_unit_that_comes_out(wired: Wired) -> None:
    units = "old: {kind: radio, outputs: {FL: 4 V}}, amp: {kind: amplifier, outputs: {out1: 50 W}}"
    wiring = wired(f"car: {{name: Bench car, steering: left}}\nunits: {{{units}}}\nremoved: [old]\n")
    assert [name for name, _ in live.live_terminals(wiring)] == ["amp.out1+", "amp.out1-"]


def test_which_wire_of_a_loom_crosses() -> None:
    def lead(a: str, b: str, kind: str = "lead") -> bool:
        return crosses(Conductor(a, b, kind, 3, "", PLACE))

    assert lead("T1.unit.4", "T1.car.5")
    assert not lead("T1.unit.4", "T1.car.4")
    assert not lead("T1.unit.4", "T1.aerial"), "a lead with a name of its own ends in no cavity"
    assert not lead("dash.unit.4", "T1.unit.5", "plugged")


@pytest.mark.parametrize(
    ("ports", "routes"),
    [
        # each output from the input of its number, where there is one and only one
        ("inputs: {in1..2: 0.2..4 V}, outputs: {out1..2: 2 V}", {"out1": ("in1",), "out2": ("in2",)}),
        ("inputs: {in1: 0.2..4 V}, outputs: {out1..2: 2 V}", {"out1": ("in1",)}),
        ("inputs: {in1: 0.2..4 V, rca1: 0.2..4 V}, outputs: {out1: 2 V}", {}),
        ("inputs: {in11: 0.2..4 V}, outputs: {out1: 2 V}", {}),
        ("inputs: {in1: 0.2..4 V}, outputs: {sub: 2 V}", {}),
        ("outputs: {out1: 2 V}", {}),
        ("inputs: {in1..2: 0.2..4 V}, outputs: {out1..2: 2 V}, routes: {out1: in2}", {"out1": ("in2",)}),
        ("inputs: {in1..2: 0.2..4 V}, outputs: {out1: 2 V}, routes: {out1: in1 + in2}", {"out1": ("in1", "in2")}),
    ],
)
def test_which_input_an_output_is_taken_from(wired: Wired, ports: str, routes: dict[str, tuple[str, ...]]) -> None:
    from harness.graph.signal import routes_of

    wiring = wired(f"car: {{name: Bench car, steering: left}}\nunits:\n  u: {{kind: processor, {ports}}}\n")
    assert {each.output: tuple(each.inputs) for each in routes_of("u", wiring.job)} == routes
