"""Batteries, fuses, grounds and what meets them: one check at a time on jobs of a few lines, read off by hand.

The fixtures hold each fault in a whole job; here stand its neighbours, one beside the other.
"""

from __future__ import annotations

import pytest

from harness.graph.wiring import Wiring
from harness.read.job import read_job_text
from harness.read.troubles import Troubles
from tests.checks.alone import alike, found, told
from tests.checks.test_alone_supply import UNITS
from tests.graph import test_joined_rules as joined
from tests.graph.test_supply import GROUNDS, HEAD
from tests.graph.test_supply import wiring_of as supplied


@pytest.mark.parametrize(
    ("joints", "parts"),
    [
        ("dash.1: amp.B+", []),
        ("dash.1: gnd.G1", ["dash cavity 1 (yellow, B+), car side reaches ground point G1: a short across the"]),
        # by what stands between; two feeds at one ground are told once, and the one that is fine before it not at all
        ("dash.1: face.line; face.line: gnd.G1", ["dash cavity 1 (yellow, B+), car side reaches ground point G1"]),
        ("dash.8: amp.B+; dash.1: gnd.G1", ["dash cavity 1 (yellow, B+)"]),
        # a ground wire of the car is ground as well
        ("dash.1: dash.2", ["dash cavity 1 (yellow, B+), car side reaches dash cavity 2 (black, GND), car side"]),
        # what nothing feeds yet burns as soon as something does; with a feed of the car in it at once
        ("eye.B+: gnd.G1", ["eye B+ reaches ground point G1: a short as soon as it is fed, it burns"]),
        ("eye.B+: face.B+; face.B+: gnd.G1", ["reaches ground point G1: a short as soon as it is fed"]),
        ("eye.B+: [dash.1, gnd.G1]", ["a short across the battery, it burns"]),
        # lamps and outputs of turn-on are no feed
        ("dash.5: gnd.G1", []), ("dsp.rem-out: gnd.G1", []),
    ],
)  # fmt: skip
def test_a_feed_on_ground(joints: str, parts: list[str]) -> None:
    alike(told("F22", joined.wiring_of(joints)), parts)


@pytest.mark.parametrize(
    ("joints", "parts"),
    [
        ("dsp.rem-out: amp.rem", []), ("dsp.rem-out: gnd.G1", ["dsp rem-out"]),
        # one that is fine before it, and two on two grounds that are one body
        ("dash.5: amp.rem; dsp.rem-out: gnd.G1", ["dsp rem-out"]),
        ("cam.rem-out: amp.rem; dsp.rem-out: gnd.G2", ["dsp rem-out"]),
        # both in one wire are one fault
        ("cam.rem-out: dsp.rem-out; dsp.rem-out: gnd.G2", ["rem-out"]),
    ],
)  # fmt: skip
def test_a_turn_on_wire_on_ground(joints: str, parts: list[str]) -> None:
    alike(told("F26", joined.wiring_of(joints)), parts)


@pytest.mark.parametrize(
    ("code", "joints", "parts"),
    [
        # each thing that must not get 12 V, in words
        ("F23", "dash.1: radio.FL+", ["12 V on an output that it drives against."]),
        ("F23", "dash.1: amp.in1+", ["12 V on a signal input."]),
        ("F23", "dash.1: gate.1; gate.1: face.line", []),
        ("F24", "dash.5: amp.in2-", ["12 V on a signal input."]),
        ("F24", "dsp.rem-out: amp.out1+", ["12 V on an output that it drives against."]),
        # two givers in one wire are one fault, told from the car's; two wires are two
        ("F24", "dsp.rem-out: amp.in1+; dash.5: dsp.rem-out", ["dsp rem-out is joined to amp in1+"]),
        ("F24", "dsp.rem-out: amp.in1+; cam.rem-out: amp.in2+", ["amp in1+", "amp in2+"]),
        # by ground it is another's; what wants 12 V gives none; a wire that is fine before it
        ("F24", "dsp.rem-out: gnd.G1; gnd.G1: amp.in1-", []),
        ("F24", "dsp.rem-out: gnd.G1; gnd.G1: amp.in1-; cam.rem-out: amp.in2+", ["cam rem-out is joined to amp in2+"]),
        (
            "F23",
            "dash.1: gnd.G1; gnd.G1: amp.in1-; gate.1: amp.in2+",
            ["gate cavity 1 (yellow, B+), car side is joined"],
        ),
        ("F24", "dash.5: amp.rem; dsp.rem-out: amp.in1+", ["dsp rem-out is joined to amp in1+"]),
    ],
)
def test_what_must_not_get_12_volts(code: str, joints: str, parts: list[str]) -> None:
    alike(told(code, joined.wiring_of(joints)), parts)


@pytest.mark.parametrize(
    ("runs", "parts"),
    [
        # 18 in is the shop's figure (common practice, no source)
        ("amp.GND > 19 in 8 AWG > gnd.G1", ["amp GND goes 19 in"]),
        # two pieces of 10 in, written from either end; a piece without a length, and a fuse, count as nothing
        ("amp.GND > 10 in 8 AWG > fuse 80 A > 10 in 8 AWG > gnd.G1", ["amp GND goes 20 in"]),
        ("gnd.G1 > 10 in 8 AWG > fuse 80 A > 10 in 8 AWG > amp.GND", ["amp GND goes 20 in"]),
        ("gnd.G1 > 30 in 8 AWG > amp.GND", ["amp GND goes 30 in"]),
        ("amp.GND > fuse 80 A > 10 in 8 AWG > gnd.G1", []),
        # up to the next unit's terminal, of which the way on is its own
        ("amp.GND > 10 in 8 AWG > two.GND; two.GND > 30 in 8 AWG > gnd.G1", ["two GND goes 30 in"]),
        ("amp.GND > 30 in 8 AWG > two.GND; two.GND > 10 in 8 AWG > gnd.G1", ["amp GND goes 30 in"]),
        # each unit by itself; one that has no ground, and one that goes to the post, end nothing
        ("amp.GND > 30 in 8 AWG > gnd.G1; two.GND > 31 in 8 AWG > gnd.G1", ["amp GND goes 30", "two GND goes 31"]),
        ("amp.GND > 30 in 8 AWG > battery.-; two.GND > 31 in 8 AWG > gnd.G1", ["two GND goes 31 in"]),
        ("three.GND > 31 in 8 AWG > gnd.G1", ["three GND goes 31 in"]),
        ("amp.GND > 18 in 8 AWG > gnd.G1; three.GND > 31 in 8 AWG > gnd.G1", ["three GND goes 31 in"]),
        # a second ground of one unit (31 of DIN 72552), whose first goes nowhere, or to the post, or is short
        ("four.31 > 40 in 8 AWG > gnd.G1", ["four 31 (black) goes 40 in"]),
        ("four.GND > 40 in 8 AWG > battery.-; four.31 > 40 in 8 AWG > gnd.G1", ["four 31 (black) goes 40 in"]),
        ("four.GND > 10 in 8 AWG > gnd.G1; four.31 > 40 in 8 AWG > gnd.G1", ["four 31 (black) goes 40 in"]),
    ],
)  # fmt: skip
def test_how_long_a_ground_is(runs: str, parts: list[str]) -> None:
    units = UNITS.replace("runs:\n", "  four: {kind: amplifier, draws: 2 A, leads: {B+: YE, GND: BK, 31: BK}}\nruns:\n")
    alike(told("F31", supplied(units + "".join(f"  - {run}\n" for run in runs.split("; ")))), parts)


def test_the_longest_piece_of_a_ground_is_where_it_is_told() -> None:
    """5 and 30 in through a plug, in either order."""
    made = UNITS.replace("runs:\n", "inline: {C204: floor}\nruns:\n")
    for pieces, longest in (((5, 30), 2), ((30, 5), 1)):
        one, other = pieces
        runs = f"  - amp.GND > {one} in 8 AWG > C204.1\n  - C204.1 > {other} in 8 AWG > gnd.G1\n"
        (finding,) = found("F31", supplied(made + runs))
        assert "goes 35 in" in finding.message
        assert finding.places[0].place.line == 4 + made.count("\n") + longest
        assert (finding.path[0], finding.path[-1]) == ("amp.GND", "gnd.G1")


@pytest.mark.parametrize(
    ("runs", "parts"),
    [
        ("battery.+ > 1 m 4 AWG > fuse unknown > 1 m 4 AWG > amp.B+", ["The fuse at battery + has no rating"]),
        # two lines are two; two ways of a block in one line are told together
        ("battery.+ > fuse unknown > amp.B+; battery.+ > fuse unknown > two.B+",
         ["The fuse at battery +", "The fuse at battery +"]),
        ("battery.+ > fuse 50 A > 1 m 4 AWG > amp.B+; battery.+ > fuse unknown > two.B+", ["The fuse at battery +"]),
        # the block's way that hangs on something; one that carries its fuse behind it
        ("battery.+ > fuse 50 A > 1 m 4 AWG > block.in; block.2 > fuse 30 A > 1 m 8 AWG > amp.B+", []),
        ("battery.+ > fuse 50 A > 1 m 4 AWG > block.in; block.1 > 1 m 8 AWG > amp.B+", []),
        ("battery.+ > fuse 50 A > 1 m 4 AWG > block.in; block.2 > 1 m 8 AWG > amp.B+; block.1 > fuse unknown > two.B+",
         ["The fuse at block 1", "The fuse at block 2"]),
        # on a run that no battery feeds: by the unit at its beginning, and by the next one
        ("amp.B+ > 1 m 4 AWG > fuse unknown > 1 m 4 AWG > two.B+", ["The fuse at amp B+ has no rating"]),
        ("amp.B+ > fuse unknown > 1 m 4 AWG > fuse unknown > two.B+", ["The fuses at amp B+ and two B+ have"]),
    ],
)  # fmt: skip
def test_fuses_without_their_rating(runs: str, parts: list[str]) -> None:
    messages = told("F21", supplied(UNITS + "".join(f"  - {run}\n" for run in runs.split("; "))))
    alike(sorted(messages), sorted(parts))


def test_each_unit_without_a_ground_is_shown() -> None:
    """amp, which ends at two, and two itself: the first two rows of the units, behind four lines and their heading."""
    runs = "  - amp.GND > 1 m 8 AWG > two.GND\n  - three.GND > 1 m 8 AWG > gnd.G1\n"
    (finding,) = found("F28", supplied(UNITS + runs))
    assert [spot.place.line for spot in finding.places] == [4 + 2, 4 + 3]


@pytest.mark.parametrize(
    ("runs", "parts"),
    [
        ("amp.GND > 1 m 8 AWG > gnd.G1", []),
        ("amp.GND > 1 m 8 AWG > battery.-", ["amp GND goes to battery −, behind the car's battery sensor"]),
        # a feed there is told as a short, and a ground beside it all the same; two grounds are two
        ("amp.B+ > 1 m 8 AWG > battery.-; dsp.GND > 1 m 8 AWG > battery.-", ["dsp GND goes to battery −"]),
        ("amp.GND > 1 m 8 AWG > battery.-; dsp.GND > 1 m 8 AWG > battery.-", ["amp GND goes", "dsp GND goes"]),
    ],
)
def test_a_ground_behind_the_sensor(runs: str, parts: list[str]) -> None:
    """In a car that has none the post is a ground like any other."""
    more = "runs:\n" + "".join(f"  - {run}\n" for run in runs.split("; "))
    head = joined.HEAD.replace("steering: left}", "steering: left, fitted: [battery sensor]}")
    alike(told("F16", joined.wiring_of("", more, head=head)), parts)
    assert told("F16", joined.wiring_of("", more)) == []


@pytest.mark.parametrize(
    ("code", "supply", "amperes", "parts"),
    [
        # on average a third of full power, and half of the alternator for the car (both rules of thumb, no source):
        # 160/3 = 53 A against 45, 130/3 = 43 A
        ("F20", "alternator 90 A", 160, ["The added units draw 160 A at full power, about 53 A on average"]),
        ("F20", "alternator 90 A", 130, []), ("F20", "alternator", 160, []), ("F20", "unknown", 160, []),
        ("F20", "alternator 90 A", 135, []),
        # a converter has its own limit, and its own check
        ("F20", "converter 90 A", 160, []), ("F30", "alternator 90 A", 160, []), ("F30", "converter", 160, []),
        ("F30", "converter 90 A", 90, []),
        ("F30", "converter 90 A", 91, ["draw 91 A at full power and the converter gives 90 A: it switches off"]),
    ],
)  # fmt: skip
def test_more_than_the_car_gives_back(code: str, supply: str, amperes: int, parts: list[str]) -> None:
    text = f"units:\n  amp: {{kind: amplifier, draws: {amperes} A, wakes: signal}}\nruns:\n"
    text += "  - battery.+ > 12 in 2/0 AWG > fuse 175 A > 6 ft 2/0 AWG > amp.B+\n  - amp.GND > 1 ft 2/0 AWG > gnd.G1\n"
    head = f"car: {{name: Hazel van, steering: left, supply: {supply}}}"
    job = HEAD.lstrip().replace("car: {name: Hazel van, steering: left}", head) + GROUNDS + text
    read = read_job_text(job, "job.yaml", Troubles())
    assert read is not None
    alike(told(code, Wiring(read)), parts)
