"""Records as answers: against the oracle on random plans, then what must not be believed."""

from __future__ import annotations

import random
from pathlib import Path

import pytest

from harness.graph.wiring import Wiring
from harness.locate.session import Session
from harness.locate.symptoms import Unreadable, read_since, read_symptoms
from harness.read.job import read_job
from harness.read.troubles import Troubles
from tests.locate.oracle import Bench, Car, read
from tests.locate.plans import random_plan
from tests.locate.record_oracle import Spot, lines, record, some
from tests.locate.rounds import broken, is_short, planted, same, symptoms_of

PLANS, CHUNK = 200, 40
SINCE = "2026-03-05"
DAY = {"now": "2026-03-06", "before": "2026-03-04"}


def searched(
    folder: Path, seed: int, when: str = "now", silent: str = "silent"
) -> tuple[Session, Bench, tuple, list[Spot]]:
    """A search with records of the broken car, or of the whole one from before."""
    dice = random.Random(f"records {seed}")
    plan = random_plan(seed)
    car = Car(read(plan.text))
    fault, heard = planted(dice, car)
    bench, chosen = Bench(car), some(dice, car)
    path = folder / f"plan-{seed}.yaml"
    path.write_text(plan.text, encoding="utf-8")
    text = lines(bench, (fault,) if when == "now" else (), chosen, DAY[when])
    path.with_name(f"plan-{seed}.evidence.yaml").write_text(text, encoding="utf-8")
    troubles = Troubles()
    job = read_job(path, troubles)
    assert job is not None, troubles.findings
    assert not troubles.refused, troubles.findings
    assert len(job.records) == len(chosen)
    assert not any(each.stale for each in job.records)
    wiring = Wiring(job)
    words = "protects" if is_short(fault) else silent
    session = Session(wiring, read_symptoms(wiring, symptoms_of(heard, words)), since=SINCE)
    return session, bench, (fault,), chosen


@pytest.mark.parametrize("first", range(0, PLANS, CHUNK))
def test_records_clear_what_would_read_otherwise_and_nothing_else(first: int, tmp_path: Path) -> None:
    """Each suspect that a record rules out would have given another record, and each that it leaves just this one; but
    of shorts a tone says little, and ohms say little of pairs that are exchanged.
    """
    used = 0
    for seed in range(first, first + CHUNK):
        session, bench, faults, chosen = searched(tmp_path, seed)
        made = [broken(session, bench.car, each) for each in session.suspects]
        own = [at for at, each in enumerate(made) if len(each) == 1 and same(each[0], faults[0])]
        assert own, f"seed {seed}: is no suspect"
        assert session.start >> own[0] & 1, f"seed {seed}: {faults} cleared by {session.recorded.used}"
        assert not session.recorded.aside, f"seed {seed}: {session.recorded.aside}"
        for line, spot in enumerate(chosen, 1):
            fits = (1 << len(made)) - 1
            for each in session.recorded.used:
                fits &= each.fits if each.record.place.line == line else fits
            said = record(bench, faults, spot)
            used += fits != (1 << len(made)) - 1
            for at, suspect in enumerate(made):
                agrees = record(bench, suspect, spot) == said
                kept = bool(fits >> at & 1)
                about = f"seed {seed}: {said} with {suspect}, planted {faults}"
                likely = is_short(suspect[0]) or (spot.verb, suspect[0].mode) == ("ohm", "crossed")
                assert agrees or not kept or likely, f"{about}: kept"
                assert kept or not agrees, f"{about}: ruled out"
    assert used >= CHUNK // 4


@pytest.mark.parametrize("first", range(0, 80, CHUNK))
def test_what_was_good_before_the_symptom_clears_nothing(first: int, tmp_path: Path) -> None:
    for seed in range(first, first + CHUNK):
        session, *_ = searched(tmp_path, seed, "before")

        assert session.start == session.chooser.everything
        assert not session.recorded.used


@pytest.mark.parametrize("first", range(0, 80, CHUNK))
def test_what_comes_and_goes_is_cleared_by_no_good_reading(first: int, tmp_path: Path) -> None:
    """The records are of the whole car, from after the symptom began: it was good just then."""
    for seed in range(first, first + CHUNK):
        DAY["good"] = DAY["now"]
        session, *_ = searched(tmp_path, seed, "good", "intermittent")
        if session.symptoms[0].word == "intermittent":
            assert session.start == session.chooser.everything


JOB = """\
ringout: 1
title: Two channels
car: {name: Test car, steering: left, lacks: [RL, RR, SUB, C]}
plugs: {dash: {unit: radio, place: dash, cavities: {1/2: FL WH WH/BK, 3/4: FR GY GY/BK, 5: AMP-ON BU}}}
units:
  radio: {kind: radio, outputs: {FL FR: btl 8 V}, gives: {AMP-ON: 100 mA}}
  amp:
    kind: amplifier
    inputs: {in1..2: 2..20 V differential}
    outputs: {out1..2: 60 W @ 4 ohm}
    routes: {out1: in1, out2: in2}
    wakes: rem 20 mA
speakers: {FL: {nominal: 4 ohm}, FR: {nominal: 4 ohm}}
grounds: {G1: {place: floor, metal: bare}}
inline: {C1: door}
found: [dash.FL > C1.1/2 > spk.FL]
cut: [dash.FL, dash.FR, dash.5]
joints:
  crimp:
    dash.unit.FL: amp.in1
    dash.unit.FR: amp.in2
    dash.car.FL: amp.out1
    dash.car.FR: amp.out2
    dash.unit.5: amp.rem
runs:
  - battery.+ > 30 cm 8 AWG > fuse 40 A > 4 m 8 AWG > amp.B+
  - amp.GND > 40 cm 8 AWG > gnd.G1
"""
TONE = "tone: dash.car.1/2, charted: FL, unplugged: dash"
# behind dash.car.FL: two wires, C1 and the speaker
BEHIND = {"C1.1/2", "FL"}


def of_job(folder: Path, written: list[str], symptom: str = "FL silent", **more: object) -> Session:
    path = folder / "job.yaml"
    path.write_text(JOB, encoding="utf-8")
    path.with_name("job.evidence.yaml").write_text("".join(f"- {{{each}}}\n" for each in written), encoding="utf-8")
    job = read_job(path, Troubles())
    assert job is not None
    wiring = Wiring(job)
    return Session(wiring, read_symptoms(wiring, [symptom]), **more)  # type: ignore[arg-type]


def names(session: Session, mask: int) -> set[str]:
    pieces = session.circuit.pieces
    return {pieces[fault.piece].name for each in session.suspects_in(mask) for fault in each.faults}


def gone(session: Session) -> set[str]:
    """What the records cleared, wires left out."""
    cleared = session.chooser.everything & ~session.start
    return {name for name in names(session, cleared) if not name.startswith("wire ")}


def test_a_tone_clears_what_it_passed(tmp_path: Path) -> None:
    session = of_job(tmp_path, [f"when: 2026-03-02, {TONE}, heard: FL"])

    assert gone(session) == BEHIND
    assert len(session.suspects) - len(session.ranked) == 4, "two wires, a plug and the speaker"


def test_a_tone_that_nothing_answers_leaves_only_what_it_passed(tmp_path: Path) -> None:
    session = of_job(tmp_path, [f"when: 2026-03-02, {TONE}, heard: nothing"])

    assert {name for name in names(session, session.left) if not name.startswith("wire ")} == BEHIND


# a door speaker alone: 50 Hz must move it, 9 kHz need not (a workshop's tones, quoted in the trade)
def test_silence_at_a_tone_that_a_speaker_need_not_answer_says_nothing(tmp_path: Path) -> None:
    for signal, heard in (("50 Hz", True), ("noise", True), ("9 kHz", False)):
        session = of_job(tmp_path, [f"when: 2026-03-02, {TONE}, heard: nothing, signal: {signal}"])
        assert bool(session.recorded.used) == heard, signal


@pytest.mark.parametrize(
    ("why", "records", "more"),
    [
        ("of another car", [f"car: Other van 2001, {TONE}, heard: FL"], {}),
        ("stale: the pair was violet then", [f"{TONE}, heard: FL, fact: [1 FL+ VT]"], {}),
        ("struck", [f"{TONE}, heard: FL", "struck: 1, was: tone dash.car.1/2, reason: wrong cavity"], {}),
        ("left aside by the user", [f"{TONE}, heard: FL"], {"records": False}),
        ("from before the symptom", [f"when: 2026-03-02, {TONE}, heard: FL"], {"since": "2026-03-03"}),
        ("of a day, the symptom of an hour", [f"when: 2026-03-02, {TONE}, heard: FL"], {"since": "2026-03-02 14:00"}),
        ("of another channel", ["tone: dash.car.3/4, charted: FR, unplugged: dash, heard: nothing"], {}),
        ("a speaker was unplugged as well", ["tone: dash.car.1/2, charted: FL, unplugged: [dash, C1], heard: FL"], {}),
        ("no time said, and since is given", [f"{TONE}, heard: FL"], {"since": "2026-03-02"}),
        ("FL was heard later", [f"{TONE}, heard: FL", "plays: radio.FL, heard: FL"], {}),
        ("FL was heard later", [f"{TONE}, heard: nothing", "plays: radio.FL, heard: FL"], {}),
    ],
)
def test_what_is_not_believed(why: str, records: list[str], more: dict[str, object], tmp_path: Path) -> None:
    session = of_job(tmp_path, records, **more)

    assert session.start == session.chooser.everything, why
    assert not session.recorded.used, why


@pytest.mark.parametrize(
    ("records", "since"),
    [
        ([f"when: 2026-03-02, {TONE}, heard: FL"], "2026-03-02"),
        ([f"when: 2026-03-02 14:30, {TONE}, heard: FL"], "2026-03-02 14:00"),
        ([f"when: 2026-03-03, {TONE}, heard: FL"], "2026-03-02 14:00"),
        (["plays: radio.FL, heard: FL", f"{TONE}, heard: FL"], ""),  # toned after it was last heard
        ([f"{TONE}, heard: nothing", f"{TONE}, heard: FL"], ""),  # the last word counts
    ],
)
def test_what_is_believed(records: list[str], since: str, tmp_path: Path) -> None:
    assert gone(of_job(tmp_path, records, since=since)) == BEHIND


def test_a_record_against_all_that_is_heard_is_left_aside(tmp_path: Path) -> None:
    """The radio's own pair gave nothing at one time, and FL's wires were open at another: one fault can't be both."""
    wrong = "volts: dash.unit.1/2, signal: 1 kHz, key: run, reads: 0 V"
    session = of_job(tmp_path, [wrong, f"{TONE}, heard: nothing"])

    assert [each.record.place.line for each in session.recorded.used] == [2]
    assert [each.record.place.line for each in session.recorded.aside] == [1]
    assert "speaks against" in session.recorded.aside[0].why


def test_ohms_that_do_not_fit_raise_the_suspicion(tmp_path: Path) -> None:
    """9 ohm where one of 4 hangs: no break gives that; a poor contact behind it does."""
    plain = of_job(tmp_path, [], "FL weak")
    session = of_job(tmp_path, ["ohm: dash.car.1/2, unplugged: dash, reads: 9 ohm"], "FL weak")
    behind = {name for name in names(session, session.start) if name in BEHIND or name.startswith("wire ")}

    assert names(session, session.start) == behind
    assert names(plain, plain.start) > behind


def test_what_comes_and_goes(tmp_path: Path) -> None:
    """A reading that was good clears nothing, one that was open at that time does."""
    good = of_job(tmp_path, ["ohm: dash.car.1/2, unplugged: dash, reads: 3.6 ohm"], "FL intermittent")
    bad = of_job(tmp_path, ["ohm: dash.car.1/2, unplugged: dash, reads: open"], "FL intermittent")

    assert good.start == good.chooser.everything
    assert {name for name in names(bad, bad.start) if not name.startswith("wire ")} == BEHIND


def test_which_wire_is_plus(tmp_path: Path) -> None:
    right = of_job(tmp_path, [f"{TONE}, heard: FL, plus: 1"], "FL reversed")
    wrong = of_job(tmp_path, ["polarity: dash.car.1/2, plus: 2, how: checker"], "FL reversed")

    assert gone(right) == BEHIND
    assert {name for name in names(wrong, wrong.start) if not name.startswith("wire ")} == BEHIND


def test_volts_at_the_terminals(tmp_path: Path) -> None:
    """12.6 V at B+ clears its run and fuse; 0 V at the turn-on leaves its joint and what gives it."""
    fed = of_job(tmp_path, ["volts: amp.B+, key: out, reads: 12.6 V"], "amp silent")
    asleep = of_job(tmp_path, ["volts: amp.rem, key: run, reads: 0 V"], "amp silent")
    unsaid = of_job(tmp_path, ["volts: amp.rem, key: out, reads: 0 V"], "amp silent")

    assert any(name.startswith("fuse ") for name in gone(fed))
    assert "amp" not in gone(fed)
    assert names(asleep, asleep.start) == {"dash.unit.5", "J5", "radio"}
    assert "amp" not in names(asleep, asleep.start)
    assert unsaid.start == unsaid.chooser.everything, "with the key out it should be 0 V"


def test_the_turn_on_that_stays(tmp_path: Path) -> None:
    """12 V at its turn-on with the car asleep for long: what gives it stays on; 0 V: the unit itself does."""
    live = of_job(tmp_path, ["volts: amp.rem, key: out, waited: 30 min, reads: 12 V"], "amp stays on")
    dead = of_job(tmp_path, ["volts: amp.rem, key: out, waited: 30 min, reads: 0 V"], "amp stays on")
    soon = of_job(tmp_path, ["volts: amp.rem, key: out, reads: 12 V"], "amp stays on")

    assert "amp" not in names(live, live.start)
    assert names(dead, dead.start) == {"amp"}
    assert soon.start == soon.chooser.everything, "a radio stays on for minutes"


def test_two_pairs_exchanged_by_what_was_heard(tmp_path: Path) -> None:
    session = of_job(tmp_path, ["plays: radio.FL, heard: FR"], "FR wrong place")

    assert session.suspects
    assert session.start
    for each in session.suspects_in(session.start):
        assert session.simulator.plays_at(each.faults, "FR") == "FL"


@pytest.mark.parametrize("text", ["yesterday", "2026-3-2", "2026-13-01", "2026-03-02 25:00"])
def test_a_day_that_is_none(text: str) -> None:
    with pytest.raises(Unreadable, match="is no day"):
        read_since(text)
