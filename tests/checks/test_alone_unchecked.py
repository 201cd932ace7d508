"""What is listed as not looked at, of jobs of a few lines, read off by hand."""

from __future__ import annotations

import pytest

from harness.checks.unchecked import unchecked
from harness.graph.wiring import Wiring
from tests.checks.alone import LINK
from tests.graph import test_joined_rules as joined
from tests.graph import test_signals as signals
from tests.graph.test_supply import wiring_of as supplied


@pytest.mark.parametrize(
    ("joints", "more", "mate", "start", "listed"),
    [
        # what has sound, is no radio, stays, and says nothing of its turn-on: out comes out, radio is one
        ("", "", "", "what wakes ", ["amp", "dsp"]),
        ("", "removed: [out, amp]\n", "", "what wakes ", ["dsp"]),
        # units with outputs and without routes, but for a source and for one that comes out
        ("", "", "", "routes inside ", ["amp", "dsp"]), ("", "removed: [out, dsp]\n", "", "routes inside ", ["amp"]),
        # cavities of 12 that have no row: 1 to 8 have one
        ("", "", "", "4 of 12 cavities of ", ["dash"]),
        # a terminal that is moved, and none
        ("", "moved: {T1.car.1: T1.car.9}\n", "T1: dash", "whether T1 car end 1",
         [", moved to 9, sits (position, lock, tug)"]),
        ("", "", "T1: dash", "whether T1 car end 1", []),
        # no run at all
        ("", "", "", "supply and ", ["ground"]), ("", "", "", "the order of ", ["work"]),
    ],
)  # fmt: skip
def test_what_is_listed(joints: str, more: str, mate: str, start: str, listed: list[str]) -> None:
    head = joined.HEAD.replace("removed: [out]\n", "") if "removed" in more else joined.HEAD
    head = head.replace("    unit: radio\n", "    unit: radio\n    ways: 12\n") if "cavities" in start else head
    what = [each.what for each in unchecked(joined.wiring_of(joints, more, mate, head))]
    found = sorted(each.removeprefix(start) for each in what if each.startswith(start))
    assert len(found) == len(listed), what
    assert all(each.startswith(words) for each, words in zip(found, listed, strict=True)), found


def lines_with(wiring: Wiring, *words: str) -> list[str]:
    """What is listed with one of these words in it, and why."""
    made = [f"{each.what}: {each.why}" for each in unchecked(wiring)]
    return [line for line in made if any(word in line for word in words)]


LIMIT = "can carry what hangs on it: its limit is unsaid"
PLUG = LINK.replace("    CARRIES\n", "").replace("CAVITIES", "1: AMP-ON BU, 2: AERIAL BU/WH, 3: ACC RD, 4: ILL OG")
WOKEN = (
    "amp: {kind: amplifier, outputs: {out1: 50 W}, draws: 2 A, wakes: rem}; "
    "two: {kind: amplifier, outputs: {out1: 50 W}, wakes: rem}; face: {kind: interface, gives: {rem-out: 100 mA}}; "
    "three: {kind: amplifier, outputs: {out1: 50 W}, wakes: rem 10 mA}"
)


@pytest.mark.parametrize(
    ("joints", "told"),
    [
        # both sides are written; one of the two that hang on it says nothing of its current, or both
        ("face.rem-out: three.rem", []),
        ("face.rem-out: [three.rem, amp.rem]", ["what amp draws from face rem-out: not written: counts as nothing"]),
        ("face.rem-out: [amp.rem, two.rem]",
         ["what amp and two draws from face rem-out: not written: counts as nothing"]),
        # whose limit nobody wrote: a turn-on wire and an aerial's; a feed by the key, and a lamp's, have their fuse
        ("dash.1: amp.rem", [f"whether dash cavity 1 (blue, AMP-ON), unit side {LIMIT}"]),
        ("dash.1: three.rem", [f"whether dash cavity 1 (blue, AMP-ON), unit side {LIMIT}"]),
        ("dash.2: amp.rem", [f"whether dash cavity 2 (blue with white stripe, AERIAL), unit side {LIMIT}"]),
        ("dash.3: amp.rem", []), ("dash.4: amp.rem", []),
        # two wires
        ("face.rem-out: amp.rem; dash.1: three.rem",
         ["what amp draws from face rem-out: not written: counts as nothing",
          f"whether dash cavity 1 (blue, AMP-ON), unit side {LIMIT}"]),
    ],
)  # fmt: skip
def test_what_is_listed_of_a_turn_on(joints: str, told: list[str]) -> None:
    assert lines_with(signals.wiring_of(joints, WOKEN, PLUG), "draws from", "can carry") == told


@pytest.mark.parametrize(
    ("joints", "more", "told"),
    [
        ("face.rem-out: amp.rem", "", ["two", "three"]), ("face.rem-out: [amp.rem, two.rem, three.rem]", "", []),
        ("face.rem-out: amp.rem", "runs:\n  - battery.+ > fuse 10 A > amp.B+\n", []),
    ],
)  # fmt: skip
def test_a_turn_on_that_nobody_planned(joints: str, more: str, told: list[str]) -> None:
    """With `runs:` it is no more left for later, and has its check."""
    assert lines_with(signals.wiring_of(joints, WOKEN, PLUG + more), "the turn-on of") == [
        f"the turn-on of {unit}: nothing is joined to it, and the job has no `runs:`: not planned yet" for unit in told
    ]


RADIOS = "one: {kind: radio, outputs: {FL FR: btl}}; other: {kind: radio, outputs: {FL FR: btl}}; "
AMP = "amp: {kind: amplifier, inputs: {in1..2: 1..4 V}, outputs: {out1..2: 50 W @ 4 ohm}, routes: {out1..2: in1..2}}"
STAGES = "dsp: {kind: processor, inputs: {in1..2: 1..9 V}, outputs: {out1..2: %s}, routes: {out1..2: in1..2}}; "
HIGHEST = "not written: the level behind it is taken as the most it gives"


@pytest.mark.parametrize(
    ("units", "joints", "told"),
    [
        # one line a source, over all units that it feeds; two sources are two lines
        (RADIOS + AMP, "one.FL: amp.in1; one.FR: amp.in2",
         ["the level at amp in1..2: the level of one FL, FR isn't written"]),
        (RADIOS + f"{AMP}; b{AMP}", "one.FL: amp.in1; other.FR: amp.in2; one.FR: bamp.in1; other.FL: bamp.in2",
         ["the level at amp in1, bamp in1: the level of one FL, FR isn't written",
          "the level at amp in2, bamp in2: the level of other FR, FL isn't written"]),
        # no window: one input gets, two get
        (AMP.replace("1..4 V", "differential"), "radio.FL: amp.in1",
         ["whether amp in1 gets a signal of the right level: how many volts it takes isn't written"]),
        (AMP.replace("1..4 V", "differential"), "radio.FL: amp.in1; radio.FR: amp.in2",
         ["whether amp in1..2 get a signal of the right level: how many volts it takes isn't written"]),
        (AMP.replace("in1..2: 1..4 V", "in1 aux: differential").replace("out1..2: in1..2", "out1: in1"),
         "radio.FL: amp.in1; radio.FR: amp.aux",
         ["whether amp in1, aux get a signal of the right level: how many volts it takes isn't written"]),
        # a gain that somebody sets, of ours; the car's own amplifier and the radio have none
        (STAGES % "4 V" + AMP, "radio.FL: dsp.in1; dsp.out1: amp.in1", [f"the gain to dsp out1: {HIGHEST}"]),
        ((STAGES % "4 V").replace("kind: processor", "kind: factory amplifier") + AMP,
         "radio.FL: dsp.in1; dsp.out1: amp.in1", []),
        (STAGES % "4 V" + AMP, "radio.FL: amp.in1; radio.FR: amp.in2", []),
        # neither the most that it gives nor the gain to it
        (STAGES % "grounded" + AMP, "radio.FL: dsp.in1; dsp.out1: amp.in1",
         ["the level at amp in1: neither the level of dsp out1 nor the gain to it is written"]),
    ],
)  # fmt: skip
def test_what_is_listed_of_levels(units: str, joints: str, told: list[str]) -> None:
    assert lines_with(signals.wiring_of(joints, units), "level", "gain") == told


SIZES = """\
units:
  one: {kind: interface, leads: {B+: RD 16 AWG, CAN-H: GN}}
  two: {kind: interface, leads: {B+: RD 16 AWG, CAN-H: GN 18 AWG}}
joints:
  crimp at behind the radio with heat shrink:
"""


@pytest.mark.parametrize(
    ("joint", "many"),
    [
        # all sizes are written, none is by the second wire, by the first; of a joint without `takes` nobody asks
        ("one.B+: {to: two.B+, takes: 22..14 AWG}", 0), ("one.CAN-H: two.CAN-H", 0),
        ("two.CAN-H: {to: one.CAN-H, takes: 22..14 AWG}", 1), ("one.CAN-H: {to: two.CAN-H, takes: 22..14 AWG}", 1),
        ("two.CAN-H: {to: [two.B+, one.CAN-H], takes: 22..14 AWG}", 1),
    ],
)  # fmt: skip
def test_a_wire_without_its_size_in_a_connector(joint: str, many: int) -> None:
    line = "whether all wires fit the connector of J1: a size isn't written: counts as nothing"
    assert lines_with(supplied(f"{SIZES}    {joint}\n"), "connector") == [line] * many
