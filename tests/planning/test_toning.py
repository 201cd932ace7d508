"""The toning plan: where to clip, what must answer, what must stay silent because the job says so."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from harness.graph.wiring import Wiring
from harness.planning.toning import TonePair, toning_plan

Wired = Callable[[str], Wiring]

CAR = """\
car: {name: Test car, year: 2020%s}
plugs:
  dash:
    place: behind the radio
    unit: radio
    face: {rows: 2, columns: 6, view: wire, latch: top, first: top left, count: across}
    cavities:
      1/7: FL WH WH/BK
      2/8: FR GY GY/BK
      3/9: C YE YE/BK
      4/10: SUB BN BN/BK
      12/6: RL GN GN/BK
units:
  radio: {kind: radio, outputs: {FL FR C SUB RL: btl 8 V}}
  amp: {kind: amplifier, inputs: {in1: 2..20 V differential}, outputs: {out1: 50 W @ 4 ohm least 2 ohm}}
speakers:
  FL: {nominal: 4 ohm}
  FR: {nominal: 4 ohm}
  FR-TW: {nominal: 4 ohm, capacitor: 10 uF}
  RL: {nominal: 8 ohm}
"""


def _by_channel(wiring: Wiring) -> dict[str, TonePair]:
    return {pair.plus.function.base: pair for pair in toning_plan(wiring)}


def test_what_answers_and_what_the_meter_reads(wired: Wired) -> None:
    found = "found:\n  - dash.FR > spk.FR spk.FR-TW\n  - dash.RL > spk.RL reversed\n"
    pairs = _by_channel(wired(CAR % "" + found))

    assert [answer.speaker for answer in pairs["FL"].answers] == ["FL"]
    assert (pairs["FL"].expected.low_ohm, pairs["FL"].expected.high_ohm) == pytest.approx((2.48, 4.0))
    assert [answer.speaker for answer in pairs["FR"].answers] == ["FR", "FR-TW"]
    assert pairs["FR"].expected.blocked == ("FR-TW",)
    assert [(answer.speaker, answer.sign) for answer in pairs["RL"].answers] == [("RL", -1)]
    assert (pairs["RL"].expected.low_ohm, pairs["RL"].expected.high_ohm) == pytest.approx((4.96, 8.0))


def test_silent_only_where_declared(wired: Wired) -> None:
    undeclared = _by_channel(wired(CAR % ""))
    declared = _by_channel(wired(CAR % ", lacks: [C]"))

    assert [pair.silent for pair in undeclared.values()] == ["", "", "", "", ""]
    assert undeclared["C"].answers == ()  # nothing is written behind it: that is not "must stay silent"
    assert {name: pair.silent for name, pair in declared.items()} == {
        "FL": "", "FR": "", "C": "C", "SUB": "", "RL": "",
    }  # fmt: skip


def test_a_speaker_that_the_car_lacks_is_never_expected(wired: Wired) -> None:
    pairs = _by_channel(wired(CAR % ", lacks: [RL]"))

    assert pairs["RL"].silent == "RL"
    assert pairs["RL"].answers == ()
    assert pairs["RL"].expected.low_ohm is None


def test_speakers_in_line(wired: Wired) -> None:
    chains = """\
found:
  - dash.car.1 > spk.FL+
  - spk.FL- > spk.RL+
  - spk.RL- > dash.car.7
"""
    pair = _by_channel(wired(CAR % "" + chains))["FL"]

    assert [(answer.speaker, answer.in_line) for answer in pair.answers] == [("FL", True), ("RL", True)]
    assert (pair.expected.low_ohm, pair.expected.high_ohm) == pytest.approx((7.44, 12.0))  # 4 + 8 = 12


def test_wires_that_end_in_a_unit_are_named(wired: Wired) -> None:
    pairs = _by_channel(wired(CAR % "" + "found:\n  - dash.FL > amp.in1\n"))

    assert pairs["FL"].units == ("amp",)
    assert pairs["FL"].answers == ()
    assert pairs["FR"].units == ()


def test_a_wire_on_the_body_is_told(wired: Wired) -> None:
    chains = "grounds: {G1: {place: pillar, metal: bare}}\nfound:\n  - dash.FL > spk.FL\n  - dash.car.7 > gnd.G1\n"
    pairs = _by_channel(wired(CAR % "" + chains))

    assert pairs["FL"].on_body
    assert not pairs["FR"].on_body
    assert [answer.speaker for answer in pairs["FL"].answers] == ["FL"]


def test_clip_at_the_plug_or_through_the_loom(wired: Wired) -> None:
    loom = """\
looms:
  T1:
    ends: {unit: 12-way, car: 12-way}
    through: [{4: 10, 10: 4}]
    leads:
      1/7: FL WH WH/BK
      plus: car.2 FR+ GY
      minus: car.8 FR- GY/BK
joints: {mate: {T1: dash}}
""".replace("[{4: 10, 10: 4}]", "{4: 10, 10: 4}")
    clips = {name: pair.clip for name, pair in _by_channel(wired(CAR % "" + loom)).items()}

    assert clips["FL"] == ("leads", "T1", "T1.car.1", "T1.car.7")
    assert clips["FR"] == ("leads", "T1", "T1.plus", "T1.minus")
    # the wires cross in the loom: + of the car half, cavity 4, comes out at the unit end's 10
    assert clips["SUB"] == ("end", "T1", "10", "4")
    assert clips["C"] == ("plug", "dash", "3", "9")


def test_pairs_come_in_an_order_along_the_face(wired: Wired) -> None:
    order = [pair.plus.cavity for pair in toning_plan(wired(CAR % ""))]

    # + probes: 1, 2, 3, 4 in the top row, then 12 at the far end below
    assert order in (["1", "2", "3", "4", "12"], ["12", "4", "3", "2", "1"])


def test_every_pair_of_a_sample_once(root: Path) -> None:
    from harness.prove import prove

    proof = prove(root / "samples" / "van-odd-but-right.yaml", mends=False)
    assert proof.wiring is not None
    pairs = _by_channel(proof.wiring)

    assert sorted(pairs) == ["FL", "FR", "RL", "RR"]
    # 8 ohm beside 8 ohm, the tweeter behind its capacitor: 4 ohm
    assert (pairs["RL"].expected.low_ohm, pairs["RL"].expected.high_ohm) == pytest.approx((2.48, 4.0))
    assert [answer.speaker for answer in pairs["RL"].answers] == ["RL", "RL-TW", "RL-MID"]
    assert [(a.speaker, a.sign) for a in pairs["FR"].answers] == [("FR", 1), ("FR-TW", -1)]
    assert (pairs["RR"].expected.low_ohm, pairs["RR"].expected.high_ohm) == pytest.approx((4.96, 8.0))
