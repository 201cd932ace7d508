"""What is live, what wakes before what, and what flows through a relay: read off small jobs by hand."""

from __future__ import annotations

import pytest

from harness.graph import feeding, set_otherwise, wake_order
from harness.graph.supply import feed_terminals, supply
from harness.graph.wiring import Wiring
from tests.conftest import Wired
from tests.graph.test_supply import wiring_of

FT, AWG8 = 0.3048, 2.0609e-3  # ohm per metre of 8 AWG: 0.6282 ohm per 1000 ft (the table in tests/electrical)

LIVE = """
car: {name: Bench car, steering: left}
plugs:
  dash:
    place: behind the radio
    unit: radio
    face: {rows: 1, columns: 8, view: wire, latch: top, count: across, first: top left}
    cavities: {1: B+ YE, 2: ACC RD, 3: GND BK, 4: ILL OG, 5: AMP-ON BU, 6: AERIAL BU, 7/8: FL GN GN/BK}
  kick:
    place: kick panel
    face: {rows: 1, columns: 4, view: wire, latch: top, count: across, first: top left}
    cavities: {1: B+ YE, 2: ACC RD, 3: AMP-ON BU, 4: GND BK}
  fbox:
    place: under the bonnet
    unit: fb
    car: body
    face: {rows: 1, columns: 2, view: wire, latch: top, count: across, first: top left}
    cavities: {1: B+ YE, 2: ILL OG}
  old:
    place: under the seat
    unit: gone
    face: {rows: 1, columns: 3, view: wire, latch: top, count: across, first: top left}
    cavities: {1: B+ YE, 2: AMP-ON BU, 3: ACC RD}
units:
  radio: {kind: radio, outputs: {FL: btl 8 V}, gives: {AMP-ON: 100 mA}}
  fb: {kind: fuse block}
  body: {kind: control unit}
  gone: {kind: amplifier, gives: {rem-out: 100 mA}}
  dsp: {kind: processor, inputs: {in1: 2..20 V}, outputs: {out1: 4 V}, wakes: rem, gives: {rem-out: 100 mA}}
removed: [gone]
speakers: {FL: {nominal: 4 ohm}}
"""

# Gives volts of itself: outputs, the post, the car's feeds on the half toward the car, what the radio gives on its own
# half; a fuse block or control unit gives its feeds on the half where it sits.
GIVES = (
    "radio.FL+", "radio.FL-", "dsp.out1+", "battery.+", "dash.car.1", "dash.car.2", "dash.car.4", "dash.unit.5",
    "dash.unit.6", "kick.car.1", "kick.unit.1", "kick.car.2", "kick.unit.2", "kick.unit.3", "fbox.unit.1",
    "fbox.car.2", "old.car.1", "dsp.rem-out",
)  # fmt: skip
# Takes: the radio its feeds, the amplifier that is out everything, a ground, an input, a speaker.
TAKES = (
    "dash.unit.1", "dash.unit.2", "dash.unit.3", "dash.car.3", "dash.unit.4", "dash.car.5", "dash.car.6", "kick.car.3",
    "kick.unit.4", "old.unit.1", "old.unit.2", "old.unit.3", "dsp.in1+", "dsp.rem", "dsp.B+", "spk.FL+", "battery.-",
    "gone.rem-out", "chassis",
)  # fmt: skip


@pytest.mark.parametrize("name", [*GIVES, *TAKES])
def test_what_is_live_of_itself(wired: Wired, name: str) -> None:
    wiring = wired(LIVE)
    assert name in wiring.job.contacts
    assert feeding.is_live(wiring, name) is (name in GIVES)


# -- who wakes whom ----------------------------------------------------------------------------------------------

WAKING = """
car: {{name: Bench car, steering: left}}
plugs:
  dash:
    place: behind the radio
    unit: radio
    face: {{rows: 1, columns: 4, view: wire, latch: top, count: across, first: top left}}
    cavities: {{1: AMP-ON BU, 2: ACC RD, 3: GND BK}}
units:
  radio: {{kind: radio, outputs: {{FL: 4 V}}, gives: {{AMP-ON: 300 mA}}}}
  dsp: {{kind: processor, inputs: {{in1: 1..4 V}}, outputs: {{out1: 4 V}}, wakes: {dsp}, gives: {{rem-out: 300 mA}}}}
  amp: {{kind: amplifier, inputs: {{in1: 1..4 V}}, outputs: {{out1: 50 W}}, wakes: {amp}, gives: {{rem-out: 300 mA}}}}
  cam: {{kind: interface, inputs: {{in1: 1..4 V}}, wakes: rem}}
joints:
  screw at the dash:
{joints}
"""


def waking(joints: str, dsp: str = "rem", amp: str = "rem") -> str:
    return WAKING.format(joints="\n".join(f"    {line}" for line in joints.split("; ")), dsp=dsp, amp=amp)


CHAIN = "radio.FL: dsp.in1; dsp.out1: amp.in1"


def together(wiring: Wiring) -> list[tuple[str, str, str]]:
    return [(each.wake.unit, each.feeder, each.free) for each in wake_order.together(wiring)]


@pytest.mark.parametrize(
    ("joints", "found"),
    [
        # both on the radio's lead, and the processor's own output is free
        (f"{CHAIN}; dash.unit.1: [dsp.rem, amp.rem]", [("amp", "dsp", "dsp.rem-out")]),
        # the amplifier hangs on the processor's output: in order
        (f"{CHAIN}; dash.unit.1: dsp.rem; dsp.rem-out: amp.rem", []),
        # that output is taken by something else: nothing is free
        (f"{CHAIN}; dash.unit.1: [dsp.rem, amp.rem]; dsp.rem-out: cam.rem", []),
        # the processor doesn't feed it
        ("radio.FL: dsp.in1; dash.unit.1: [dsp.rem, amp.rem]", []),
        # woken by different leads
        (f"{CHAIN}; dash.unit.1: dsp.rem; dash.car.2: amp.rem", []),
        # what is fed is no amplifier: it makes no thump
        ("radio.FL: dsp.in1; dsp.out1: cam.in1; dash.unit.1: [dsp.rem, cam.rem]", []),
    ],
)
def test_an_amplifier_that_wakes_with_what_feeds_it(wired: Wired, joints: str, found: list[object]) -> None:
    assert together(wired(waking(joints))) == found


@pytest.mark.parametrize(
    ("joints", "dsp", "amp", "found"),
    [
        # each wakes the other and nothing wakes any
        (f"{CHAIN}; dsp.rem-out: amp.rem; amp.rem-out: dsp.rem", "rem", "rem", [(("dsp", "amp"), "dsp", "amp")]),
        # the processor wakes by the bus too, or the amplifier by its signal: no waiting
        (f"{CHAIN}; dsp.rem-out: amp.rem; amp.rem-out: dsp.rem", "[rem, bus]", "rem", []),
        (f"{CHAIN}; dsp.rem-out: amp.rem; amp.rem-out: dsp.rem", "rem", "[rem, signal]", []),
        # the radio's lead is on it as well
        (f"{CHAIN}; dsp.rem-out: amp.rem; amp.rem-out: [dsp.rem, dash.unit.1]", "rem", "rem", []),
        # one after the other
        (f"{CHAIN}; dash.unit.1: dsp.rem; dsp.rem-out: amp.rem", "rem", "rem", []),
        # no signal between them: the first of the file is the one to wake
        ("dsp.rem-out: amp.rem; amp.rem-out: dsp.rem", "rem", "rem", [(("dsp", "amp"), "dsp", "amp")]),
        # the signal goes from amp to dsp
        (
            "amp.out1: dsp.in1; dsp.rem-out: amp.rem; amp.rem-out: dsp.rem",
            "rem",
            "rem",
            [(("dsp", "amp"), "amp", "dsp")],
        ),
    ],
)
def test_units_that_wait_for_each_other(wired: Wired, joints: str, dsp: str, amp: str, found: list[object]) -> None:
    made = wake_order.loops(wired(waking(joints, dsp, amp)))
    assert [(each.units, each.wake.unit, each.giver.unit) for each in made] == found


def test_what_feeds_an_input(wired: Wired) -> None:
    wiring = wired(waking(f"{CHAIN}; dash.unit.1: [dsp.rem, amp.rem]"))
    assert wake_order.feeders(wiring, "dsp") == ["radio"]
    assert wake_order.feeders(wiring, "amp") == ["dsp"]
    assert wake_order.feeders(wiring, "cam") == []
    assert wake_order.feeders(wiring, "radio") == []


def test_a_through_socket_is_fed_by_what_feeds_its_unit(wired: Wired) -> None:
    """`first` joins it to its input: the radio's signal is there, whether `first` is awake or not."""
    wiring = wired(
        """
        car: {name: Bench car, steering: left}
        units:
          first: {kind: amplifier, inputs: {in1: 1..4 V}, outputs: {thru1: 4 V}, bonds: [in1+ thru1+, in1- thru1-]}
          second: {kind: amplifier, inputs: {in1: 1..4 V}, outputs: {out1: 50 W}}
          radio: {kind: radio, outputs: {FL: 4 V}}
        joints: {screw: {radio.FL: first.in1, first.thru1: second.in1}}
        """
    )
    assert wake_order.feeders(wiring, "first") == wake_order.feeders(wiring, "second") == ["radio"]
    assert [(each.driver.name, each.receiver.name) for each in wiring.signals.feeds] == [
        ("radio.FL", "first.in1"), ("radio.FL", "second.in1"),
    ]  # fmt: skip


# -- signal sensing ----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("wakes", "words", "lead", "sleeps"),
    [
        ("signal", "off", "", True), ("signal", "on", "", False), ("signal", "unknown", "", False),
        ("[signal, bus]", "off", "", False), ("rem", "off", "", False), ("[signal, rem]", "off", "", True),
        # the radio's lead comes to it
        ("[signal, rem]", "off", "; dash.unit.1: amp.rem", False),
    ],
)  # fmt: skip
def test_a_unit_whose_sensing_is_off(wired: Wired, wakes: str, words: str, lead: str, sleeps: bool) -> None:
    text = waking(CHAIN + lead, amp=f"{wakes}, set: {{signal sense: {words}}}")
    made = list(set_otherwise.asleep(wired(text)))
    assert [each.unit.name for each in made] == (["amp"] if sleeps else [])
    for each in made:
        assert each.feed is not None
        assert each.feed.driver.name == "dsp.out1"


# -- supply ------------------------------------------------------------------------------------------------------

RELAY = """
units:
  k1: {kind: relay}
  amp: {kind: amplifier, draws: 20 A}
  idle: {kind: amplifier, draws: 5 A}
  out: {kind: amplifier, draws: 50 A}
removed: [out]
runs:
  - battery.+ > 1 ft 8 AWG > fuse 30 A > 9 ft 8 AWG > k1.30
  - k1.87 > 5 ft 8 AWG > amp.B+
  - k1.87 > 2 ft 8 AWG > out.B+
  - amp.GND > 2 ft 8 AWG > gnd.G1
"""


def test_current_goes_through_a_relay_and_not_to_what_is_out() -> None:
    """20 A over 1 + 9 + 5 ft of 8 AWG: 20 x 15 x 0.3048 x 2.0609 mohm = 0.18846 V; back over 2 ft 0.02513 V."""
    wiring = wiring_of(RELAY)
    made = supply(wiring)
    assert made is not None
    assert [each.unit for each in made.fed] == ["amp"]
    (amp,) = made.fed
    assert amp.feed_drop_v == pytest.approx(20 * 15 * FT * AWG8, rel=1e-3)
    assert amp.ground_drop_v == pytest.approx(20 * 2 * FT * AWG8, rel=1e-3)
    assert (made.unknown, made.collapsed) == ((), ())
    assert feed_terminals(wiring) == {"amp": ("amp.B+", "amp.GND")}


def test_a_switched_terminal_is_a_feed_too_and_no_runs_no_supply() -> None:
    """B+ comes before ACC in the list of the terminals, so that it is the feed where both are laid."""
    text = "units: {deck: {kind: radio, draws: 3 A, leads: {B+: YE, ACC: RD}}}\n"
    run = "runs:\n  - battery.+ > 1 ft 8 AWG > fuse 10 A > 2 ft 8 AWG > deck.{}\n  - deck.GND > 1 ft 8 AWG > gnd.G1\n"
    assert supply(wiring_of(text)) is None
    for terminal in ("B+", "ACC"):
        made = supply(wiring_of(text + run.format(terminal)))
        assert made is not None
        assert [(each.unit, each.feed) for each in made.fed] == [("deck", f"deck.{terminal}")]
        assert made.fed[0].feed_drop_v == pytest.approx(3 * 3 * FT * AWG8, rel=1e-3)


def test_a_ground_that_is_laid_nowhere_counts_all_the_same() -> None:
    """Of a feed without its way back the unit's own GND is told."""
    text = "units: {amp: {kind: amplifier, draws: 20 A, leads: {B+: YE, GND: BK}}}\n"
    text += "runs:\n  - battery.+ > 1 ft 8 AWG > fuse 30 A > 2 ft 8 AWG > amp.B+\n"
    assert feed_terminals(wiring_of(text)) == {"amp": ("amp.B+", "amp.GND")}
