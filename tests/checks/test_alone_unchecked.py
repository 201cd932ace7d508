"""What is listed as not looked at, of jobs of a few lines, read off by hand."""

from __future__ import annotations

import pytest

from harness.checks.unchecked import unchecked
from harness.graph.wiring import Wiring
from tests.checks.alone import LINK
from tests.checks.test_alone_halves import CUT, PAIRS
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
        # cavities of 12 that have no row: 1 to 8 have one; of 9, and of 8
        ("", "", "", "4 of 12 cavities of ", ["dash"]), ("", "", "", "1 of 9 cavities of ", ["dash"]),
        ("", "", "", "0 of 8 cavities of ", []),
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
    if "cavities" in start:
        head = head.replace("    unit: radio\n", f"    unit: radio\n    ways: {start.split()[2]}\n")
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


CHIME = "features:\n  chime: {from: radio, to: [spk.FL], kind: %s}\nfound:\n  - dash.FL > spk.FL\n"


@pytest.mark.parametrize(
    ("kind", "many"),
    [("warning", 1), ("warning, key: out", 0), ("warning, key: run", 0), ("voice", 0), ("other", 0), ("emergency", 0)],
)
def test_a_warning_of_which_nobody_wrote_when(kind: str, many: int) -> None:
    """It must pass the amplifier, which the radio's turn-on wakes; only a warning matters with the key out."""
    amp = "amp: {kind: amplifier, inputs: {in1: 1..9 V}, outputs: {out1: 50 W}, routes: {out1: in1}, wakes: rem}"
    head = signals.HEAD.replace("btl 8 V}", "btl 8 V}, gives: {AMP-ON: 100 mA}")
    joints = "dash.unit.FL: amp.in1; amp.out1: dash.car.FL; radio.AMP-ON: amp.rem"
    wiring = signals.wiring_of(joints, amp, f"{PAIRS}{CUT}{CHIME % kind}", head=head)
    line = "whether chime is heard with the key out: it must pass amp, asleep then, and its `key` isn't written"
    assert lines_with(wiring, "chime") == [line] * many


FED = """\
inline: {C1: sill}
units:
  amp: {kind: amplifier, %s, wakes: signal}
  two: {kind: amplifier, draws: 9 A, wakes: signal}
runs:
  - amp.GND > 1 m 8 AWG > gnd.G1
"""
DIRECT, BY_PLUG = "battery.+ > fuse 10 A > 1 m 8 AWG > amp.B+", "battery.+ > C1.1 > fuse 10 A > 1 m 8 AWG > amp.B+"
NO_CURRENT = "neither `draws` nor its output power nor its fuses are written: it counts as nothing"
NO_LENGTH = "the fuse distance from battery + to C1 cavity 1, car side: a piece of the cable has no length written"


@pytest.mark.parametrize(
    ("says", "run", "told"),
    [
        ("draws: 3 A", DIRECT, []), ("class: D", DIRECT, [f"what amp draws: {NO_CURRENT}"]),
        # 60 % of an amplifier whose class nobody wrote is a guess, and so is a sum of fuses
        ("outputs: {out1: 50 W @ 4 ohm}, class: D", DIRECT, []),
        ("outputs: {out1: 50 W @ 4 ohm}", DIRECT,
         ["what amp really draws: taken from 50 W at 60 % for class AB, 13.8 V"]),
        ("fuses: 2 x 20 A", DIRECT, ["what amp really draws: taken from its own fuses, 2 x 20 A"]),
        # a piece without a length before the fuse; what is too long as far as it is written is F02's
        ("draws: 3 A", BY_PLUG, [NO_LENGTH]), ("draws: 3 A", BY_PLUG.replace("> fuse", "> 20 in 8 AWG > fuse"), []),
        # the unit that is fed isn't the one of which nothing is known
        ("class: D", DIRECT.replace("amp", "two"), []),
    ],
)  # fmt: skip
def test_what_is_listed_of_the_supply(says: str, run: str, told: list[str]) -> None:
    wiring = supplied(f"{FED % says}  - {run}\n")
    assert lines_with(wiring, "draws", "supply", "fuse distance") == told


def test_a_supply_that_begins_nowhere() -> None:
    units = "units:\n  amp: {kind: amplifier, draws: 3 A}\n  two: {kind: amplifier, draws: 9 A}\n"
    assert lines_with(supplied(f"{units}runs:\n  - amp.B+ > 1 m 8 AWG > two.B+\n"), "supply") == [
        "volts and amperes of the supply: no run leads from the battery to a unit"
    ]


STOCK = "looms:\n  T1: {{ends: {{unit: 8-way, car: 8-way}}, leads: {{1: ILL OG}}{}}}\n"


@pytest.mark.parametrize(
    ("store", "date", "many"),
    [
        # one that comes, and nobody knows when it is wanted; that is here; of which nobody wrote when it comes
        (", stock: 0, arrives: 2026-03-09", "", 1), (", stock: 0, arrives: 2026-03-09", "date: 2026-03-10\n", 0),
        (", stock: 2", "", 0), (", stock: 2, arrives: 2026-03-09", "", 0), (", stock: 0", "", 0), ("", "", 0),
    ],
)  # fmt: skip
def test_a_loom_that_comes(store: str, date: str, many: int) -> None:
    wiring = signals.wiring_of("T1.unit.1: amp.rem", "amp: {kind: amplifier, wakes: rem}", STOCK.format(store),
                               head=signals.HEAD.replace("title: ", f"{date}title: "))  # fmt: skip
    assert (
        lines_with(wiring, "in time")
        == ["whether T1 is here in time: the day of the work (`date`) is not written"] * many
    )


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
