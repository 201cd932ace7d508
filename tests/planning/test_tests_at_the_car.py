"""The output test and the turn-on test: what is expected, from the plan's signals and feeds."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from harness.graph.turn_on_test import REST, TRIGGER_ON, WRITE, turn_on_test
from harness.graph.wiring import Wiring
from harness.planning.output_test import output_test
from harness.prove import prove

Wired = Callable[[str], Wiring]


def _sample(root: Path, name: str) -> Wiring:
    wiring = prove(root / "samples" / f"{name}.yaml", mends=False).wiring
    assert wiring is not None
    return wiring


def test_each_channel_and_the_fader(root: Path) -> None:
    test = output_test(_sample(root, "hatch-plug-in"))

    # the sub is summed from in1 + in2, which are FL and FR
    assert {each.channel: [heard.speaker for heard in each.heard] for each in test.channels} == {
        "FL": ["FL", "SUB"], "FR": ["FR", "SUB"], "RL": ["RL"], "RR": ["RR"],
    }  # fmt: skip
    assert sorted(test.ends["front"]) == ["FL", "FR", "SUB"]
    assert sorted(test.ends["rear"]) == ["RL", "RR"]
    assert sorted(test.ends["left"]) == ["FL", "RL", "SUB"]
    assert test.subs == ("SUB",)
    assert test.unfed == ()


def test_a_wished_inversion_is_told_from_a_fault(root: Path) -> None:
    heard = {
        each.speaker: each for test in output_test(_sample(root, "van-odd-but-right")).channels for each in test.heard
    }

    assert (heard["FL-TW"].turned, heard["FL-TW"].wished) == (True, True)
    assert (heard["FL"].turned, heard["FL"].wished) == (False, True)


CAR = """\
plugs:
  dash: {unit: radio, cavities: {1: AMP-ON BU, 2: ACC RD, 3: ILL OG}}
units:
  radio: {kind: radio}
  one: {kind: amplifier, wakes: rem 10 mA, gives: {rem-out: 100 mA}}
  two: {kind: amplifier, wakes: rem 10 mA}
  three: {kind: amplifier, wakes: [signal, rem 10 mA]}
  four: {kind: amplifier, wakes: rem 10 mA}
  far: {kind: amplifier, wakes: rem 10 mA}
grounds: {G1: {place: floor, metal: bare}}
joints:
  crimp: {dash.1: one.rem, dash.2: two.rem, dash.3: three.rem}
  screw: {one.rem-out: four.rem}
runs:
  - battery.+ > fuse 30 A > 2 m 8 AWG > one.B+
  - one.GND > 1 ft 8 AWG > gnd.G1
"""


def test_turn_on_from_what_feeds_it(wired: Wired) -> None:
    test = turn_on_test(wired(CAR))
    by_name = {f"{each.unit}.{each.terminal}": each for each in test.readings}

    assert by_name["one.B+"].expected == (REST, REST, REST, WRITE)
    assert by_name["one.GND"].expected == ("0 V",) * 4
    assert by_name["one.GND"].source == "gnd.G1"
    assert by_name["one.rem"].expected == ("below 1 V", WRITE, TRIGGER_ON, WRITE)
    assert by_name["two.rem"].expected == ("below 1 V", "10 to 14 V", "10 to 14 V", WRITE)
    assert by_name["four.rem"].source == "one.rem-out"
    assert by_name["two.B+"].expected == (WRITE,) * 4  # no run is written to it
    assert by_name["two.B+"].source == ""
    assert test.without_lead == (("three", "signal"),)


def test_units_that_the_plan_leaves_alone_are_not_tested(wired: Wired) -> None:
    units = {each.unit for each in turn_on_test(wired(CAR)).readings}

    assert units == {"one", "two", "three", "four"}


def test_fed_by_the_lead_that_the_hand_finds(root: Path) -> None:
    """The branch is at the car end of the loom, and a turn-on line that goes on from an amplifier says so."""
    found = {f"{each.unit}.{each.terminal}": each for each in turn_on_test(_sample(root, "van-odd-but-right")).readings}

    assert (found["dsp.B+"].source, found["dsp.B+"].via) == ("bulkhead.car.5", ("T7.car.5",))
    assert (found["dsp.rem"].source, found["dsp.rem"].via) == ("bulkhead.car.10", ("T7.car.10",))
    assert (found["four.rem"].source, found["four.rem"].via) == ("dsp.rem-out", ())
    assert (found["bass.rem"].source, found["bass.rem"].via) == ("dsp.rem-out", ("four.rem",))
    assert (found["four.B+"].source, found["four.B+"].via) == ("battery.+", ())


def test_through_a_fuse_block_and_from_a_plug_without_loom(root: Path, wired: Wired) -> None:
    hatch = {f"{each.unit}.{each.terminal}": each for each in turn_on_test(_sample(root, "hatch-plug-in")).readings}
    assert (hatch["bass.B+"].source, hatch["bass.B+"].via) == ("battery.+", ("block.2",))
    found = {f"{each.unit}.{each.terminal}": each for each in turn_on_test(wired(CAR)).readings}
    assert found["one.rem"].source == "dash.car.1"  # `dash.1` is the side of the car where a plug stays joined
    assert found["one.rem"].via == ()


def test_what_is_no_feed_is_named_all_the_same(root: Path) -> None:
    found = {
        f"{each.unit}.{each.terminal}": each for each in turn_on_test(_sample(root, "saloon-fifteen-faults")).readings
    }

    assert found["bass.rem"].source == ""  # it hangs on CAN-H
    assert found["bass.rem"].via == ("T2.car.3",)
    assert found["bass.rem"].expected == (WRITE,) * 4
