"""As found and as planned are two states of one graph: the same contacts, and every difference has its conductor."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from harness.graph.conductor import BOTH, FOUND, PLANNED
from harness.graph.wiring import Wiring
from tests.graph.oracle import Reading
from tests.graph.random_jobs import random_job
from tests.graph.test_union_find import nets_of, wiring_of

# A radio's pair opened by a loom, taken to an amplifier and given back to the speaker; the rest passes.
TAKEN = """\
ringout: 1
title: One pair taken over
plugs:
  dash:
    unit: radio
    cavities:
      1/3: FL WH WH/BK
      2: ILL OG
      4: GND BK
looms:
  T1:
    ends: {unit: 4-way, car: 4-way}
    through: [2, 4]
    leads:
      1/3: FL WH WH/BK
units:
  radio: {kind: radio, outputs: {FL: btl}}
  amp: {kind: amplifier, inputs: {in1: differential}, outputs: {out1: btl}}
speakers:
  FL: {nominal: 4 ohm}
inline: {C204: pillar}
found:
  - dash.FL > C204.7/8 > spk.FL
joints:
  mate: {T1: dash}
  crimp:
    T1.unit.FL: amp.in1
    T1.car.FL: amp.out1
"""

PLUS_FOUND = "radio.FL+ dash.unit.1 dash.car.1 C204.unit.7 C204.car.7 spk.FL+"
PLUS_TO_AMP = "radio.FL+ dash.unit.1 T1.unit.1 amp.in1+"
PLUS_TO_SPEAKER = "amp.out1+ T1.car.1 dash.car.1 C204.unit.7 C204.car.7 spk.FL+"
MINUS_TO_AMP = "radio.FL- dash.unit.3 T1.unit.3 amp.in1-"
LAMP_FOUND = "radio.ILL dash.unit.2 dash.car.2"
LAMP_PLANNED = "radio.ILL dash.unit.2 T1.unit.2 T1.car.2 dash.car.2"
GROUND_FOUND = "radio.GND dash.unit.4 dash.car.4 chassis battery.-"


@pytest.fixture
def taken(tmp_path: Path) -> Wiring:
    return wiring_of(TAKEN, tmp_path)


def test_the_nets_worked_out_by_hand(taken: Wiring) -> None:
    found = {frozenset(words.split()) for words in (PLUS_FOUND, LAMP_FOUND, GROUND_FOUND)}
    planned = {frozenset(words.split()) for words in (PLUS_TO_AMP, PLUS_TO_SPEAKER, MINUS_TO_AMP, LAMP_PLANNED)}
    assert found <= nets_of(taken.found)
    assert planned <= nets_of(taken.planned)
    reading = Reading(TAKEN)  # the second reading is checked by hand here, too
    assert found <= reading.as_found().nets
    assert planned <= reading.as_planned().nets


def test_what_the_plan_parts_and_joins(taken: Wiring) -> None:
    assert taken.found.joined("radio.FL+", "spk.FL+")
    assert not taken.planned.joined("radio.FL+", "spk.FL+")
    assert not taken.found.joined("amp.out1+", "spk.FL+")
    assert taken.planned.joined("amp.out1+", "spk.FL+")
    assert taken.found.joined("radio.ILL", "dash.car.2")
    assert taken.planned.joined("radio.ILL", "dash.car.2")


def test_a_path_of_each_state(taken: Wiring) -> None:
    found = [hop.contact for hop in taken.found.path("radio.FL+", "spk.FL+")]
    planned = [hop.contact for hop in taken.planned.path("amp.out1+", "spk.FL+")]
    assert ["radio.FL+", *found] == PLUS_FOUND.split()
    assert ["amp.out1+", *planned] == PLUS_TO_SPEAKER.split()
    assert taken.planned.path("radio.FL+", "spk.FL+") == ()


def test_the_signals_of_each_state(taken: Wiring) -> None:
    (speaker,) = taken.signals.speaker_receivers
    assert [feed.driver.name for feed in taken.found_signals.feeds_into(speaker)] == ["radio.FL"]
    assert [feed.driver.name for feed in taken.signals.feeds_into(speaker)] == ["amp.out1"]


def test_a_conductor_joins_two(taken: Wiring) -> None:
    """A lead that ends at its pin by no name of its own is that pin, and no wire beside it."""
    assert all(each.a != each.b for each in taken.conductors)
    assert sum("T1.unit.1" in (each.a, each.b) for each in taken.conductors) == 2, "the plug's cavity and the joint"


BETWEEN = """\
ringout: 1
title: A plug between two units
plugs:
  dash:
    unit: radio
    car: famp
    cavities: {1/3: FL WH WH/BK}
units:
  radio: {kind: radio, outputs: {FL: btl}}
  famp: {kind: factory amplifier, inputs: {FL: btl}}
cut: [dash.car.1]
"""


@pytest.mark.parametrize("apart", [False, True])
def test_what_hangs_on_a_plug_that_is_apart(apart: bool, tmp_path: Path) -> None:
    """The cut end stays with the plug's half: pulled off, it hangs on the radio no more. What isn't cut sits in the
    radio's own half, and on the car's side the wire goes on to its unit all the same.
    """
    job = wiring_of(BETWEEN, tmp_path).job
    state = Wiring(replace(job, apart=frozenset({"dash"} if apart else ()))).planned
    assert state.joined("dash.unit.1", "radio.FL+") is not apart
    assert state.joined("dash.unit.3", "radio.FL-")
    assert state.joined("dash.car.1", "famp.FL+")
    assert state.joined("dash.car.3", "famp.FL-")
    assert state.joined("dash.unit.3", "dash.car.3") is not apart
    assert not state.joined("dash.unit.1", "dash.car.1")


IN_A_ROW = """\
ringout: 1
title: One loom plugged into another
plugs:
  dash:
    unit: radio
    face: {rows: 1, columns: 4, view: wire, latch: top, first: top left, count: across}
    cavities: {1/3: FL WH WH/BK, 2: ILL OG, 4: ACC RD}
looms:
  T1: {ends: {unit: 4-way, car: 4-way}, through: 1..4}
  T2: {ends: {unit: 4-way, car: 4-way}, through: 1..3}
units:
  radio: {kind: radio, outputs: {FL: btl}}
depinned: [T1.car.1, T2.unit.2]
joints:
  mate: {T1.unit: dash, T2.unit: T1.car, T2.car: dash}
"""


def test_a_loom_plugged_into_another(tmp_path: Path) -> None:
    """Pin for pin; where a terminal of either was pulled, or one has none, nothing goes on."""
    wiring = wiring_of(IN_A_ROW, tmp_path)
    assert [wiring.planned.joined(f"T1.car.{at}", f"T2.unit.{at}") for at in range(1, 4)] == [False, False, True]
    assert wiring.planned.joined("dash.unit.3", "dash.car.3")
    assert not wiring.planned.joined("dash.unit.1", "dash.car.1")
    assert not wiring.planned.joined("dash.unit.4", "dash.car.4")


SEEDS = range(500, 560)
PLAN = ("joints", "runs", "cut", "capped", "depinned", "moved", "removed", "looms")


@pytest.mark.parametrize("seed", SEEDS)
def test_every_difference_has_its_conductor(seed: int, tmp_path: Path) -> None:
    wiring = wiring_of(random_job(seed), tmp_path)
    found, planned = nets_of(wiring.found), nets_of(wiring.planned)
    assert frozenset().union(*found) == frozenset().union(*planned)
    states = {FOUND: set(), PLANNED: set(), BOTH: set()}  # type: ignore[var-annotated]
    for conductor in wiring.conductors:
        states[conductor.states].add(conductor)
    for state, bit, other in ((wiring.found, FOUND, PLANNED), (wiring.planned, PLANNED, FOUND)):
        for conductor in states[bit] | states[BOTH]:
            assert state.joined(conductor.a, conductor.b)
            assert conductor in state.conductors(conductor.a)
        for conductor in states[other]:
            assert conductor not in state.conductors(conductor.a)


@pytest.mark.parametrize("seed", SEEDS)
def test_without_a_plan_both_states_are_one(seed: int, tmp_path: Path) -> None:
    lines, keep = [], True
    for line in random_job(seed).split("\n"):
        if line and not line[0].isspace():
            keep = line.split(":")[0] not in PLAN
        lines += [line] if keep else []
    wiring = wiring_of("\n".join(lines), tmp_path)
    assert nets_of(wiring.found) == nets_of(wiring.planned)
