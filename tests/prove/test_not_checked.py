"""What a run leaves unlooked at is told, thing by thing: here the turn-on."""

from __future__ import annotations

from pathlib import Path

import pytest

from harness.prove import prove, prove_text

CHAINED = (Path(__file__).parents[1] / "checks/E05/good_chained.yaml").read_text(encoding="utf-8")


def _unchecked(text: str) -> dict[str, str]:
    return {each.what: each.why for each in prove_text(text, "job.yaml").report.unchecked}


def test_a_turn_on_of_which_all_is_written_is_not_listed() -> None:
    assert not [what for what in _unchecked(CHAINED) if "wakes" in what or "turn-on" in what or "draws from" in what]


@pytest.mark.parametrize(
    ("old", "new", "what"),
    [
        # a current that nobody wrote may be anything: the sum isn't known
        ("rem 35 mA", "rem", "what dsp draws from"),
        # a limit that nobody wrote
        ("gives: {AMP-ON: 100 mA}", "outputs: {FR: 4 V}", "whether dash cavity 4 (blue with white stripe, AMP-ON)"),
        # a unit of which nobody wrote how it wakes
        ("wakes: rem 35 mA", "class: D", "what wakes dsp"),
    ],
)
def test_what_is_not_written_of_the_turn_on_is_listed(old: str, new: str, what: str) -> None:
    assert old in CHAINED, CHAINED
    assert [each for each in _unchecked(CHAINED.replace(old, new)) if each.startswith(what)]


LEVELS = """\
ringout: 1
title: Levels that nobody wrote
car: {name: Bench car, steering: left}
units:
  radio: {kind: radio, outputs: {FL FR: btl 8.5 V}}
  dsp:
    kind: processor
    inputs: {in1..2: 2..20 V differential}
    outputs: {out1..2: 4 V grounded}
    routes: {out1..2: in1..2 -6 dB}
  amp:
    kind: amplifier
    inputs: {in1..2: 0.2..4 V grounded}
    outputs: {out1..2: 50 W @ 4 ohm least 2 ohm}
    routes: {out1..2: in1..2}
speakers:
  FL FR: {place: doors, nominal: 4 ohm}
joints:
  screw:
    radio.FL: dsp.in1
    radio.FR: dsp.in2
    dsp.out1..2: amp.in1..2
    amp.out1: spk.FL
    amp.out2: spk.FR
"""


def _of_levels(text: str) -> list[tuple[str, str]]:
    words = ("level", "gain")
    return [(what, why) for what, why in _unchecked(text).items() if any(word in what + why for word in words)]


def test_levels_of_which_all_is_written_are_not_listed() -> None:
    assert not _of_levels(LEVELS)


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        (
            "in1..2: 2..20 V differential", "in1..2: differential",
            ("whether dsp in1..2 get a signal of the right level", "how many volts it takes isn't written"),
        ),
        (
            "btl 8.5 V", "btl",
            ("the level at dsp in1..2", "the level of radio FL, FR isn't written"),
        ),
        (
            " -6 dB", "",
            ("the gain to dsp out1..2", "not written: the level behind it is taken as the most it gives"),
        ),
        (
            "{out1..2: 4 V grounded}\n    routes: {out1..2: in1..2 -6 dB}",
            "{out1..2: grounded}\n    routes: {out1..2: in1..2}",
            ("the level at amp in1..2", "neither the level of dsp out1..2 nor the gain to it is written"),
        ),
    ],
)  # fmt: skip
def test_what_is_not_written_of_the_levels_is_one_line(old: str, new: str, told: tuple[str, str]) -> None:
    """Four inputs are concerned or two, and one line says so."""
    assert old in LEVELS
    assert _of_levels(LEVELS.replace(old, new)) == [told]


CHIME = (Path(__file__).parents[1] / "checks/C16/bad_processor_wakes_with_the_radio.yaml").read_text(encoding="utf-8")


def test_a_warning_of_which_nobody_wrote_when_it_sounds_is_listed() -> None:
    what = "whether belt chime is heard with the key out"
    assert what not in _unchecked(CHIME)
    assert what in _unchecked(CHIME.replace(", key: out", ""))


CHECKS = Path(__file__).parents[1] / "checks"


def _of(fixture: str) -> str:
    return (CHECKS / f"{fixture}.yaml").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("fixture", "old", "new", "what"),
    [
        # of three wires in one cap one has no size
        ("H06/good_made_for_it", "RD 12 AWG", "RD", "whether all wires fit the connector of J1"),
        # five pairs in one place: ten wires, of which nobody wrote how far apart they are
        ("H05/good_nothing_written", "dash.RL: dsp.in3", "dash.RL: dsp.in3\n    one.in1..2: two.in1..2",
         "whether the 10 splices at behind the radio lie in one lump"),
    ],
)  # fmt: skip
def test_what_is_not_written_of_charts_and_joints_is_listed(fixture: str, old: str, new: str, what: str) -> None:
    before = _of(fixture)
    after = before.replace(old, new)
    if "one.in1" in new:
        more = (
            "units:\n  one: {kind: processor, inputs: {in1..2: 4 V}}\n  two: {kind: processor, inputs: {in1..2: 4 V}}"
        )
        after = after.replace("units:", more)
    assert old in before
    assert what not in _unchecked(before)
    assert what in _unchecked(after)


@pytest.mark.parametrize(
    ("fixture", "record", "what", "why"),
    [
        # volts stay with the key out, and nobody wrote for how long it was out
        ("E11/good_retained_power", "volts: amp.rem, reads: 3.1 V, key: out", "whether amp rem sleeps", "no `waited`"),
        # a word that is no speaker of the job
        ("C27/good_put_right", "plays: radio.FR, heard: left front", "what answers radio.FR", "“left front” names no"),
        ("C27/good_put_right", "plays: radio.FR", "what answers radio.FR", "doesn't say what was `heard`"),
        ("C27/good_put_right", "plays: dsp.in1, heard: FL", "what answers dsp.in1", "no output of the job"),
        # 1 is FL+ and 2 is FR+
        ("J04/good_as_planned", "polarity: dash.car.1/2, plus: 1", "what polarity of dash.car.1/2 says", "no pair"),
        # a word that is no fate and no contact
        (
            "J04/good_as_planned",
            "built: T1.car.1, is: nice and tidy",
            "whether T1.car.1 was built as planned",
            "no fate",
        ),
    ],
)
def test_a_record_that_cannot_be_judged_is_listed(
    fixture: str, record: str, what: str, why: str, tmp_path: Path
) -> None:
    job = tmp_path / "job.yaml"
    job.write_text(_of(fixture), encoding="utf-8")
    before = (CHECKS / f"{fixture}.evidence.yaml").read_text(encoding="utf-8")
    evidence = tmp_path / "job.evidence.yaml"
    evidence.write_text(before, encoding="utf-8")
    told = {each.what: each.why for each in prove(job, mends=False).report.unchecked}
    assert why not in told.get(what, "")
    evidence.write_text(f"{before}- {{when: 2026-03-02 18:00, by: JM, {record}}}\n", encoding="utf-8")
    proof = prove(job, mends=False)
    told = {each.what: each.why for each in proof.report.unchecked}
    assert why in told[what]
    assert proof.report.verdict != "verified"
