"""What the meter should show at each terminal in each state of the key: read off the joints by hand.

12.4 to 12.7 V of a battery at rest, 10 to 14 V of an ACC wire, 10 to 12 V of an amplifier-on line, below 1 V asleep,
0 V of a ground; around them a surface charge and a meter's own error are still right (common practice, no source).
"""

from __future__ import annotations

import pytest

from harness.graph import turn_on_test
from tests.graph.test_turn_on_rules import HEAD, wiring_of

REST, ACC, TRIGGER, OFF, WRITE = "12.4 to 12.7 V", "10 to 14 V", "10 to 12 V", "below 1 V", "write"
AT_REST = (REST, REST, REST, WRITE)
UNKNOWN = (WRITE,) * 4
ON_ACC, ON_TRIGGER = (OFF, ACC, ACC, WRITE), (OFF, WRITE, TRIGGER, WRITE)


@pytest.mark.parametrize(
    ("expected", "right", "wrong"),
    [
        (REST, (12.0, 12.5, 15.0), (11.99, 15.01, -12.5)),
        (ACC, (10.0, 15.0), (9.99, 15.01)),
        (TRIGGER, (10.0, 15.0), (9.99, 15.01)),
        (OFF, (0.0, 0.99, -3.0), (1.0, 12.0)),
        # a ground: 0.1 V of a feed or a meter either way is none
        ("0 V", (0.0, 0.1, -0.1), (0.11, -0.11)),
        # a band that no list holds is taken as it stands
        ("4 to 6 V", (4.0, 6.0), (3.99, 6.01)),
    ],
)
def test_what_still_fits(expected: str, right: tuple[float, ...], wrong: tuple[float, ...]) -> None:
    assert [turn_on_test.fits_band(volts, expected) for volts in right] == [True] * len(right)
    assert [turn_on_test.fits_band(volts, expected) for volts in wrong] == [False] * len(wrong)


def test_where_nothing_was_expected_nothing_is_wrong() -> None:
    assert turn_on_test.fits_band(12.0, WRITE) is None


@pytest.mark.parametrize(
    ("joints", "terminal", "source", "expected", "via"),
    [
        # the battery itself, and the car's constant wire; their volts while cranking are nobody's to say
        ("battery.+: amp.B+", "amp.B+", "battery.+", AT_REST, ()),
        ("dash.B+: amp.B+", "amp.B+", "dash.car.3", AT_REST, ()),
        ("dash.ACC: amp.rem", "amp.rem", "dash.car.2", ON_ACC, ()),
        ("dash.AMP-ON: amp.rem", "amp.rem", "dash.car.1", ON_TRIGGER, ()),
        # on the radio's half the joint is made there
        ("dash.unit.1: amp.rem", "amp.rem", "dash.unit.1", ON_TRIGGER, ()),
        # the aerial's feed and a light: 12 V at some time, nobody knows when
        ("dash.AERIAL: amp.rem", "amp.rem", "dash.car.6", (OFF, WRITE, WRITE, WRITE), ()),
        # another unit's output follows that unit
        ("dsp.rem-out: amp.rem", "amp.rem", "dsp.rem-out", (OFF, WRITE, WRITE, WRITE), ()),
        # the battery before all others, the cavity before the output of a unit, that before nothing
        ("dash.AMP-ON: [dsp.rem-out, amp.rem]", "amp.rem", "dash.car.1", ON_TRIGGER, ()),
        ("dsp.rem-out: amp.rem; dash.ACC: amp.B+; battery.+: amp.rem", "amp.rem", "battery.+", AT_REST, ()),
        # its own output and another unit's wake feed nothing; the wire is held at what it goes to
        ("amp.rem-out: amp.rem", "amp.rem", "", UNKNOWN, ()),
        ("bass.rem: amp.rem", "amp.rem", "", UNKNOWN, ("bass.rem",)),
        ("gnd.G1: amp.GND", "amp.GND", "gnd.G1", ("0 V",) * 4, ()),
        ("dash.GND: amp.GND", "amp.GND", "chassis", ("0 V",) * 4, ("dash.car.5",)),
        ("battery.-: amp.GND", "amp.GND", "battery.-", ("0 V",) * 4, ()),
        ("bass.GND: amp.GND", "amp.GND", "", UNKNOWN, ("bass.GND",)),
        # over another unit's terminal, which is met on the way
        ("dash.AMP-ON: bass.rem; bass.rem: amp.rem", "amp.rem", "dash.car.1", ON_TRIGGER, ("bass.rem",)),
        # on the battery's − it is asleep, whatever else is joined to it
        ("battery.-: amp.rem", "amp.rem", "battery.-", (OFF, WRITE, WRITE, WRITE), ()),
        ("dash.unit.1: amp.rem; battery.-: amp.rem", "amp.rem", "battery.-", (OFF, WRITE, WRITE, WRITE), ()),
        ("dash.GND: amp.rem", "amp.rem", "battery.-", (OFF, WRITE, WRITE, WRITE), ("dash.car.5",)),
    ],
)  # fmt: skip
def test_what_each_terminal_should_read(
    joints: str, terminal: str, source: str, expected: tuple[str, ...], via: tuple[str, ...]
) -> None:
    made = turn_on_test.turn_on_test(wiring_of(joints)).readings
    (reading,) = [each for each in made if f"{each.unit}.{each.terminal}" == terminal]
    assert (reading.source, reading.expected, reading.via) == (source, expected, via)


CUT = "cut: [dash.AMP-ON]\n"


@pytest.mark.parametrize(
    ("joints", "source", "via"),
    [
        # the radio's half, else what another unit gives, else the car's half, whichever is nearer
        ("dash.unit.1: dsp.rem-out; dsp.rem-out: amp.rem", "dash.unit.1", ("dsp.rem-out",)),
        ("dash.car.1: amp.rem; dsp.rem-out: dash.car.1", "dsp.rem-out", ("dash.car.1",)),
        ("dash.car.1: amp.rem; bass.rem: dash.car.1", "dash.car.1", ()),
        # of two of a kind the nearer
        ("dash.car.3: dash.car.2; dash.car.2: amp.rem", "dash.car.2", ()),
    ],
)
def test_what_feeds_it_where_several_may(joints: str, source: str, via: tuple[str, ...]) -> None:
    made = turn_on_test.turn_on_test(wiring_of(joints, CUT)).readings
    (reading,) = [each for each in made if (each.unit, each.terminal) == ("amp", "rem")]
    assert (reading.source, reading.via) == (source, via)


def test_the_ways_of_a_key() -> None:
    """15 is on with the ignition, 75 and ACC from the first position on; IGN again."""
    for word, expected in (
        ("ACC", ON_ACC), ("75", ON_ACC), ("IGN", (OFF, WRITE, ACC, WRITE)), ("15", (OFF, WRITE, ACC, WRITE)),
        ("15a", (OFF, WRITE, ACC, WRITE)), ("ILL", (OFF, WRITE, WRITE, WRITE)),
    ):  # fmt: skip
        head = HEAD.replace("2: ACC RD", f'2: "{word} RD"')
        made = turn_on_test.turn_on_test(wiring_of("dash.car.2: bass.rem", head=head)).readings
        assert [each.expected for each in made if each.terminal == "rem"] == [expected], word


def test_of_which_units_and_terminals() -> None:
    """Only what the plan adds a wire to, and no radio; of it the supply, the ground and what wakes it."""

    def of(joints: str, head: str = HEAD) -> tuple[list[str], tuple[tuple[str, str], ...]]:
        made = turn_on_test.turn_on_test(wiring_of(joints, head=head))
        return [f"{each.unit}.{each.terminal}" for each in made.readings], made.without_lead

    assert of("dash.B+: radio.B+") == ([], ())
    assert of("dash.B+: gone.86") == ([], ()), "it comes out"
    names, without = of("radio.FL: dsp.in1; dash.ACC: sleepy.rem")
    assert set(names) == {f"{unit}.{at}" for unit in ("dsp", "sleepy") for at in ("B+", "GND", "rem")}
    assert without == (("sleepy", "bus"),)
    assert of("radio.FL: dsp.in1", HEAD.replace("wakes: rem 35 mA", "wakes: Signal"))[1] == (("dsp", "Signal"),)
