"""A dead channel on a chain of twelve segments: found in at most four tests, whichever of the twelve it is.

Four yes-or-no tests tell at most sixteen places apart (Shannon), so four is also the least for twelve. What each test
answers comes from the oracle.
"""

from __future__ import annotations

import pytest

from harness.graph.wiring import Wiring
from harness.locate.session import Session
from harness.locate.symptoms import read_symptoms
from tests.locate.oracle import Bench, Car, read
from tests.locate.rounds import _about, broken, same

MOST_TESTS = 4
SEGMENTS = 12
CHAIN = """\
ringout: 1
title: Twelve segments
car: {name: Test car, steering: left, lacks: [SUB, C]}
plugs:
  dash:
    place: behind the radio
    unit: radio
    face: {rows: 2, columns: 8, view: wire, latch: top, first: top left, count: across}
    cavities:
      1/9: FL WH WH/BK 0.75 mm2
      2/10: FR GY GY/BK 0.75 mm2
looms:
  T1:
    ends: {unit: 16-way, car: 16-way}
    leads:
      1/9: FL WH WH/BK 18 AWG
      2/10: FR GY GY/BK 18 AWG
units:
  radio: {kind: radio, outputs: {FL FR: btl 8.5 V clean step 31}}
  amp:
    kind: amplifier
    place: under the left seat
    inputs: {in1..2: 2..20 V differential}
    outputs: {out1..2: 75 W @ 4 ohm least 2 ohm}
    routes: {out1: in1, out2: in2}
    wakes: signal
speakers:
  FL FR: {place: front doors, nominal: 4 ohm}
grounds: {G1: {place: left seat crossmember, metal: bare}}
inline: {C204: left front pillar}
found:
  - dash.FL > C204.7/8 BU BU/BK > spk.FL
  - dash.FR > spk.FR
joints:
  mate: {T1: dash}
  crimp at the left kick panel with heat shrink:
    T1.unit.FL: amp.in1
    T1.unit.FR: amp.in2
  crimp at under the left seat with heat shrink:
    T1.car.FL: amp.out1
    T1.car.FR: amp.out2
runs:
  - battery.+ > 12 in 8 AWG > fuse 40 A > 15 ft 8 AWG > amp.B+
  - amp.GND > 18 in 8 AWG > gnd.G1
"""


def _session() -> tuple[Session, Bench, Car]:
    job = read(CHAIN)
    car = Car(job)
    wiring = Wiring(job)
    return Session(wiring, read_symptoms(wiring, ["FL silent"])), Bench(car), car


def test_the_chain_has_twelve_segments() -> None:
    session, _, _ = _session()
    assert len(session.ranked) == SEGMENTS, [each.faults for each in session.ranked]


@pytest.mark.parametrize("number", range(SEGMENTS))
def test_found_in_four(number: int) -> None:
    session, bench, car = _session()
    (fault,) = broken(session, car, session.ranked[number].faults)
    tests = 0
    while (test := session.next_test()) is not None:
        session.answer(bench.answer((fault,), test, *_about(session, test)))
        tests += 1
    assert tests <= MOST_TESTS
    left = [broken(session, car, each.faults) for each in session.ranked]
    assert any(same(each[0], fault) for each in left)
    assert len(left) == 1 or tests == MOST_TESTS, left
