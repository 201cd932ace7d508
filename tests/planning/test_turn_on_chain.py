"""The turn-on chain against sums and orders made by hand from the job text."""

from __future__ import annotations

import pytest

from harness.planning.turn_on_chain import TurnOnChain, WakeLine, turn_on_chain
from tests.conftest import Wired

JOB = """
car: {name: Hazel van, steering: left}
plugs:
  dash:
    place: behind the radio
    unit: radio
    face: {rows: 1, columns: 8, view: wire, latch: top, count: across, first: top left}
    source: {chart: bench sheet 1, date: 2026-03-02, by: JM}
    cavities: {1: B+ YE, 2: ACC RD, 3: GND BK, 4: AMP-ON BU/WH}
units:
  radio: {kind: radio, gives: {AMP-ON: 100 mA}}
  d1: {kind: diode}
  k1: {kind: relay, coil: 90 mA diode}
  dsp: {kind: processor, wakes: rem 35 mA, gives: {rem-out: 200 mA}}
  amp: {kind: amplifier, wakes: rem, draws: 10 A}
  mono: {kind: amplifier, wakes: rem 20 mA}
  fan: {kind: control unit, wakes: ACC 40 mA}
  odd: {kind: amplifier}
  deaf: {kind: amplifier, wakes: rem 25 mA}
grounds: {G1: {place: left seat crossmember, metal: bare}}
joints:
  solder at behind the radio with heat shrink:
    dash.AMP-ON: [dsp.rem, d1.a]
    d1.k: k1.86
    k1.85: gnd.G1
    dash.ACC: fan.ACC
    dsp.rem-out: mono.rem
    amp.GND: gnd.G1
runs:
  - battery.+ > 12 in 10 AWG > fuse 20 A > 6 ft 10 AWG via bulkhead grommet > k1.30
  - k1.87 > 9 ft 10 AWG > amp.B+ amp.rem
"""


@pytest.fixture
def chain(wired: Wired) -> TurnOnChain:
    return turn_on_chain(wired(JOB))


def of(chain: TurnOnChain, unit: str) -> WakeLine:
    (line,) = [line for line in chain.wakes if line.unit == unit]
    return line


def test_each_giver_with_what_hangs_on_it(chain: TurnOnChain) -> None:
    lines = {line.giver.contact: line for line in chain.givers}
    # read off the job: radio's lead to dsp and, behind the diode, to the coil; what k1.87 feeds draws nothing of it
    assert {name: [each.unit for each in line.hung] for name, line in lines.items()} == {
        "dash.unit.4": ["dsp", "k1"], "dash.car.2": ["fan"], "dsp.rem-out": ["mono"],
    }  # fmt: skip
    radio = lines["dash.unit.4"]
    # 35 + 90 = 125 mA on 100 mA: 25 mA too much
    assert (radio.sum_a, radio.left_a) == (pytest.approx(0.125), pytest.approx(-0.025))
    assert [each.behind for each in radio.hung] == [(), ("d1",)]
    # 20 of 200 mA
    assert lines["dsp.rem-out"].left_a == pytest.approx(0.18)
    # the car's ACC: nobody wrote what it gives
    assert (lines["dash.car.2"].sum_a, lines["dash.car.2"].left_a) == (pytest.approx(0.04), None)


def test_what_is_not_written_stays_unwritten(wired: Wired) -> None:
    chain = turn_on_chain(wired(JOB.replace("wakes: rem 20 mA", "wakes: rem")))
    line = next(line for line in chain.givers if line.giver.unit == "dsp")
    # mono's current is taken out of the job: a sum of nothing, and its name
    assert (line.sum_a, line.unwritten) == (0.0, ("mono",))


def test_the_order_of_waking(chain: TurnOnChain) -> None:
    # by hand: the key wakes radio and fan; the radio's lead dsp and the coil; dsp wakes mono, the relay wakes amp
    assert {line.unit: line.order for line in chain.wakes} == {
        "radio": 1, "fan": 1, "k1": 2, "dsp": 2, "mono": 3, "amp": 3, "odd": None, "deaf": None,
    }  # fmt: skip
    turns = [line.order for line in chain.wakes]
    assert turns == [1, 1, 2, 2, 3, 3, None, None]
    assert (of(chain, "odd").by, of(chain, "deaf").by) == ((), ())


def test_the_volts_before_and_after(chain: TurnOnChain) -> None:
    (dsp,), (fan,), (amp,), (mono,) = (of(chain, unit).by for unit in ("dsp", "fan", "amp", "mono"))
    # a maker's workshop tables, seen 2026: amplifier-on 10 to 12 V, ACC 10 to 14 V
    assert (dsp.on, fan.on) == ("10 to 12 V", "10 to 14 V")
    # a guide's figure for a battery at rest, seen 2026, which k1 switches through: no diode behind the relay
    assert (amp.on, amp.diodes, amp.unit) == ("12.4 to 12.7 V", 0, "k1")
    assert (mono.on, dsp.off) == (None, "below 1 V")
    (coil,) = of(chain, "k1").by
    assert (coil.diodes, coil.giver and coil.giver.through) == (1, ("d1",))


def test_the_relays_terminals(chain: TurnOnChain) -> None:
    (relay,) = chain.relays
    # read off the job
    assert (relay.plus, relay.grounded, relay.coil_a, relay.across) == ("k1.86", True, 0.09, "diode")
    assert (relay.fed, relay.feed, relay.fuses_a) == ("k1.30", "battery.+", (20.0,))
    assert (relay.given, sorted(relay.switches)) == ("k1.87", ["amp.B+", "amp.rem"])
    assert [each.contact for each in relay.drivers] == ["dash.unit.4"]


def test_a_relay_fed_at_87_without_fuse_or_diode(wired: Wired) -> None:
    body = JOB.replace("coil: 90 mA diode", "coil: 90 mA").replace(
        "fuse 20 A > 6 ft 10 AWG via bulkhead grommet > ", ""
    )
    body = body.replace("k1.30", "k1.X").replace("k1.87", "k1.30").replace("k1.X", "k1.87")
    (relay,) = turn_on_chain(wired(body)).relays
    # read off the changed job
    assert (relay.fed, relay.given, relay.fuses_a, relay.across) == ("k1.87", "k1.30", (), "")


def test_signal_and_bus(wired: Wired) -> None:
    chain = turn_on_chain(
        wired("""
units:
  radio: {kind: radio, outputs: {FL: 4 V}}
  famp: {kind: factory amplifier, wakes: bus, outputs: {out1: 8 V}}
  dsp: {kind: processor, wakes: signal, inputs: {in1: 0.2..8 V}, outputs: {out1: 4 V}, routes: {out1: in1}}
  lost: {kind: amplifier, wakes: signal, inputs: {in1: 0.2..8 V}}
joints:
  solder at the seat with heat shrink:
    famp.out1: dsp.in1
""")
    )
    # by hand: the bus wakes famp, whose signal wakes dsp; nothing comes to lost
    assert {line.unit: (line.order, [each.source for each in line.by]) for line in chain.wakes} == {
        "radio": (1, ["own"]), "famp": (1, ["bus"]), "dsp": (2, ["signal"]), "lost": (None, ["signal"]),
    }  # fmt: skip


def test_units_that_wait_for_each_other_have_no_turn(wired: Wired) -> None:
    chain = turn_on_chain(
        wired("""
units:
  one: {kind: processor, wakes: rem 20 mA, gives: {out: 100 mA}}
  two: {kind: amplifier, wakes: rem 20 mA, gives: {out: 100 mA}}
joints:
  solder at the seat with heat shrink:
    one.out: two.rem
    two.out: one.rem
""")
    )
    assert [line.order for line in chain.wakes] == [None, None]
