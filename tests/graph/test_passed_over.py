"""Of two things in a row the first is none of the kind that is looked for: the second is told all the same."""

from __future__ import annotations

from pathlib import Path

import pytest

from harness.graph import (
    alike,
    drivers,
    faded,
    grounded_apart,
    grounding,
    looks,
    loops,
    loose,
    relays,
    uncovered,
    unrated,
)
from harness.graph.answering import branches_between
from harness.graph.parted import wires_of
from tests.graph import test_joined_rules, test_parted, test_signals
from tests.graph.test_contrary_rules import JOB, recorded
from tests.graph.test_signals import wiring_of


@pytest.mark.parametrize(
    ("heard", "speakers", "odd", "elsewhere"),
    [
        ("elsewhere FL", ("FL",), (), ("elsewhere",)),
        ("none FL", ("FL",), (), ()),
        ("hum FL", ("FL",), ("hum",), ()),
        ("SUB FL", ("FL",), ("SUB",), ()),
        ("C FL", ("C", "FL"), (), ()),
    ],
)
def test_who_is_named_behind_another_word(
    heard: str, speakers: tuple[str, ...], odd: tuple[str, ...], elsewhere: tuple[str, ...]
) -> None:
    made = drivers.named(wiring_of("").job.parts.speakers, heard)
    assert (made.speakers, made.odd, made.elsewhere) == (speakers, odd, elsewhere)


@pytest.mark.parametrize("first", ["seen: carpet, found: wet, car: Larch van", "checked: J1, found: loose"])
def test_a_look_behind_another(first: str, tmp_path: Path) -> None:
    made = looks.looks(recorded(tmp_path, first, "seen: floor, found: wet"))
    assert [each.record.place.line for each in made] == [2]


def test_the_second_colour_is_there_twice(tmp_path: Path) -> None:
    """White is there once; blue in 10 and 12, and the plan works on 10."""
    job = JOB.replace("10: AMP-ON BU", "10: AMP-ON BU\n      12: unknown BU")
    (made,) = alike.alike(recorded(tmp_path, job=job))
    assert [row.cavity for row in made.rows] == ["10", "12"]


def test_a_speaker_beside_one_that_is_not_there(tmp_path: Path) -> None:
    chains = [f"dash.{cavity} > spk.{name}{sign}" for name in ("s1", "s2") for cavity, sign in (("1", "+"), ("2", "-"))]
    text = test_parted.BENCH.format(names="s1 s2") + "".join(f"  - {each}\n" for each in chains)
    wiring = test_parted.wiring_of(text, tmp_path)
    wires = wires_of(wiring, wiring.found)
    a, b = (wires.reach(f"dash.car.{each}", frozenset()) for each in "12")
    branches, _ = branches_between(wiring, a, b, frozenset(), frozenset({"s1"}))
    assert [test_parted.names_of(branch) for branch in branches] == [["s2"]]


def test_the_ends_of_a_radio_behind_other_units() -> None:
    """An amplifier has no fader, and a radio that comes out none any more."""
    amp = "  amp: {kind: amplifier, inputs: {in1: 2 V}, outputs: {FL FR RL RR: 50 W}}\n"
    old = "  old: {kind: radio, outputs: {FL FR: 2 V}}\n"
    head = test_signals.HEAD.replace("  radio:", f"{amp}{old}  radio:")
    made = faded.settings(wiring_of("", head=head, more="removed: [old]\n"))
    assert [(each.unit, each.words) for each in made] == [
        ("radio", "balance full left"), ("radio", "balance full right"),
    ]  # fmt: skip


def test_what_another_source_plays_is_left_alone_by_the_fader() -> None:
    """The speaker hangs on both, the other one first."""
    head = test_signals.HEAD.replace("  radio:", "  tape: {kind: radio, outputs: {FL: 2 V}}\n  radio:")
    wiring = wiring_of("tape.FL: spk.FL; radio.FL: spk.FL; radio.FR: spk.FR", head=head)
    assert set(faded.play(wiring, faded.Setting("radio", "", "left")).must) == {"FL"}


@pytest.mark.parametrize("order", ["{one}; {two}; {three}", "{one}; {three}; {two}", "{three}; {one}; {two}"])
def test_a_ring_behind_an_output_that_goes_nowhere(order: str) -> None:
    """The radio's outputs are joined to nothing; the ring's first output also feeds a unit that ends at a speaker."""
    three = "three: {kind: processor, inputs: {in1: 1..4 V}, outputs: {out1: 4 V}}"
    one, _, two = test_signals.RING.partition("; ")
    wiring = wiring_of(
        "one.out1: [three.in1, two.in1]; three.out1: spk.FR; two.out1: one.in1; two.out2: spk.FL",
        order.format(one=one, two=two, three=three),
    )
    assert [each.units for each in loops.returns(wiring)] == [("one", "two")]


def test_a_second_ring_behind_the_first() -> None:
    two = "a: {kind: processor, inputs: {in1: 1..4 V}, outputs: {out1: 4 V}}"
    wiring = wiring_of(
        "one.out1: two.in1; two.out1: one.in1; a.out1: b.in1; b.out1: a.in1",
        f"{test_signals.RING}; {two}; {two.replace('a:', 'b:', 1)}",
    )
    assert [each.units for each in loops.returns(wiring)] == [("one", "two"), ("a", "b")]


@pytest.mark.parametrize("last", ["30", "87"])
def test_the_second_relay_has_no_fuse(last: str, tmp_path: Path) -> None:
    """A relay's contact works either way round: the feed may be on 87, with nothing on 30."""
    job = JOB.replace("  eye:", "  k1: {kind: relay}\n  k2: {kind: relay}\n  eye:") + (
        f"  - battery.+ > 6 in 8 AWG > fuse 30 A > 6 in 8 AWG > k1.30\n  - battery.+ > 12 in 8 AWG > k2.{last}\n"
    )
    made = relays.unfused_contacts(recorded(tmp_path, job=job))
    assert [(each.relay, each.contact) for each in made] == [("k2", f"k2.{last}")]


def test_a_cut_end_behind_a_loom_s(tmp_path: Path) -> None:
    """Whoever cuts a loom's lead off leaves its end to the list of leads; dash.car.7 has nothing on it any more."""
    job = JOB.replace("cut: [dash.FL, dash.FR]", "cut: [T1.car.1, dash.RR]")
    made = [each.contacts for each in loose.loose_ends(recorded(tmp_path, job=job)) if each.cut]
    assert all(name.startswith("dash.") for names in made for name in names)
    assert any("dash.car.7" in names for names in made)


def test_the_ground_of_a_unit_behind_one_that_comes_out() -> None:
    head = test_joined_rules.HEAD.replace("\n  face: {", "\n  first: {kind: interface, draws: 1 A}\n  face: {")
    head = head.replace("removed: [out]", "removed: [first]")
    wiring = test_joined_rules.wiring_of("first.GND: gnd.G1; face.GND: gnd.G2", head=head)
    grounds = grounding.grounds(wiring)
    assert "first.GND" not in grounds
    assert grounds["face.GND"].points[:1] == ("gnd.G2",)


def test_a_unit_without_ground_behind_one_that_has_it() -> None:
    wiring = test_joined_rules.wiring_of("face.GND: gnd.G1; amp.GND: gnd.G1")
    made = [ground.terminals for ground in grounding.ungrounded(wiring)]
    assert made[0] == ("eye.GND",)
    assert ("dsp.GND",) in made
    assert not {("face.GND",), ("amp.GND",), ("out.GND",)} & set(made)


def test_the_second_of_two_amplifiers_is_grounded_elsewhere() -> None:
    """Grounded at the processor's point nothing can hum; at another point the signal's − is a second way to it."""
    head = test_joined_rules.HEAD.replace("  cam: {", "  two: {kind: amplifier, inputs: {in1: 0.2..4 V}}\n  cam: {")
    joints = "dsp.out1: amp.in1; dsp.out2: two.in1; dsp.GND: gnd.G1; amp.GND: gnd.G1; two.GND: gnd.G2"
    made = list(grounded_apart.grounded_apart(test_joined_rules.wiring_of(joints, head=head)))
    assert [(each[0], each[3]) for each in made] == [("dsp", "two")]


def test_the_second_fuse_has_no_rating(tmp_path: Path) -> None:
    job = JOB + "  - battery.+ > 6 in 16 AWG > fuse unknown > 6 ft 16 AWG > eye.B+\n"
    made = unrated.unrated(recorded(tmp_path, job=job))
    assert [each.rating_a for each in made] == [None], "amp's fuse is of 30 A"


def test_a_joint_without_cover_behind_such_as_need_none(tmp_path: Path) -> None:
    """A crimp under heat shrink and a screw come first; solder leaves bare metal, and nobody wrote what covers it."""
    job = JOB.replace("runs:\n", "  screw:\n    dash.7: spk.RR+\n  solder:\n    dash.8: spk.RR-\nruns:\n")
    (group,) = uncovered.uncovered(recorded(tmp_path, job=job))
    assert [joint.method for joint in group] == ["solder"]


def test_the_wires_of_a_plug_behind_one_of_a_factory_amplifier(tmp_path: Path) -> None:
    """`rear` has its unit on the car's side and nothing on the other; the radio's first pair has a chain."""
    job = JOB.replace("  dash:\n", "  rear: {place: boot, car: far, cavities: {1: B+ YE, 2: GND BK}}\n  dash:\n")
    job = job.replace("  amp:\n", "  far: {kind: factory amplifier}\n  amp:\n")
    wiring = recorded(tmp_path, job=f"{job}found:\n  - dash.FL > spk.FL\n")
    assert wiring.found.joined("rear.car.1", "far.B+")
    assert wiring.found.joined("rear.car.2", "far.GND")
    assert wiring.found.joined("dash.car.11", "chassis")
    assert wiring.found.joined("dash.car.5", "spk.RL+")


def test_a_cavity_of_which_nothing_is_known_is_no_terminal(tmp_path: Path) -> None:
    """Also where the unit has a lead that its maker calls unknown."""
    job = JOB.replace("10: AMP-ON BU", "10: AMP-ON BU\n      12: unknown VT")
    job = job.replace("gives: {AMP-ON: 100 mA}", "gives: {AMP-ON: 100 mA}, leads: {unknown: VT}")
    wiring = recorded(tmp_path, job=job)
    assert "radio.unknown" in wiring.job.contacts
    assert not wiring.found.joined("dash.unit.12", "radio.unknown")


def test_what_the_car_fuses_is_no_work_of_ours_on_a_lead(tmp_path: Path) -> None:
    """A lead that hangs on the car's own fuse as found has no fate by that; one that we fuse is used."""
    job = JOB.replace("wakes: on 5 mA}", "wakes: on 5 mA, leads: {on: BU}}").replace("    dash.9: eye.on\n", "")
    theirs = recorded(tmp_path, job=f"{job}found:\n  - eye.on > fuse 5 A > battery.+\n")
    assert [(each.fate, each.to) for each in theirs.fates.leads("eye")] == [("loose", ())]
    ours = recorded(tmp_path, job=f"{job}  - eye.on > fuse 5 A > battery.+\n")
    assert [(each.fate, each.to) for each in ours.fates.leads("eye")] == [("used", ("battery.+",))]
