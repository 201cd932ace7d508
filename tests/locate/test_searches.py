"""Searches by hand: a row of twelve, what is common to several symptoms, symptoms of each kind, words and odds."""

from __future__ import annotations

import pytest

from harness.locate.session import Session
from harness.locate.symptoms import Unreadable, read_symptoms
from harness.locate.telling import Told, suspect_words
from tests.conftest import Wired

TWELVE = """
    plugs: {dash: {unit: radio, cavities: {1/2: FL WH WH/BK, 3/4: FR GY GY/BK}}}
    units: {radio: {kind: radio, outputs: {FL FR: btl 8 V}}}
    speakers: {FL FR: {nominal: 4 ohm}}
    inline: {C1: a, C2: b, C3: c, C4: d}
    found:
      - dash.FL > C1.1/2 > C2.1/2 > C3.1/2 > C4.1/2 > spk.FL
"""
# The output, the dash plug, five wires, four plugs between them, the speaker.
TWELVE_PLACES = 1 + 1 + 5 + 4 + 1


def searched(session: Session, true: int) -> int:
    """Plays a search to its end with one of its suspects at fault; gives the number of tests."""
    session.restart()
    faults = session.suspects[true]
    while (test := session.next_test()) is not None:
        session.answer(session.simulator.answer(faults, test))
    assert faults in [suspect.faults for suspect in session.ranked]
    assert len(session.ranked) == 1
    return len(session.answers)


@pytest.mark.parametrize("word", ["silent", "reversed", "weak", "intermittent"])
def test_a_row_of_twelve_takes_four_tests_at_most(word: str, wired: Wired) -> None:
    """Halving: 2^4 = 16 >= 12. The radio itself is no suspect, for FR plays."""
    wiring = wired(TWELVE)
    session = Session(wiring, read_symptoms(wiring, [f"FL {word}"]))

    assert len(session.suspects) == TWELVE_PLACES
    assert max(searched(session, true) for true in range(TWELVE_PLACES)) <= 4


def test_the_common_plug_comes_first(wired: Wired) -> None:
    """Three dead channels that share one plug in the car's wiring, and nothing else of their own."""
    wiring = wired(
        """
        plugs: {dash: {unit: radio, cavities: {1/2: FL WH WH/BK, 3/4: FR GY GY/BK, 5/6: RL GN GN/BK, 7/8: RR VT VT/BK}}}
        units: {radio: {kind: radio, outputs: {FL FR RL RR: btl 8 V}}}
        speakers: {FL FR RL RR: {nominal: 4 ohm}}
        inline: {C1: a, C2: b}
        found:
          - dash.FL > C1.1/2 > spk.FL
          - dash.FR > C1.3/4 > spk.FR
          - dash.RL > C1.5/6 > spk.RL
          - dash.RR > C2.1/2 > spk.RR
        """
    )
    session = Session(wiring, read_symptoms(wiring, ["FL FR RL silent"]))

    assert suspect_words(session, session.ranked[0].faults).startswith("plug C1 as a whole")


SUPPLIED = """
    plugs: {{dash: {{unit: radio, cavities: {{1/2: FL WH WH/BK, 3/4: FR GY GY/BK, 5: AMP-ON BU}}}}}}
    units:
      radio: {{kind: radio, outputs: {{FL FR: btl 8 V}}, gives: {{AMP-ON: 100 mA}}}}
      dsp:
        kind: processor
        inputs: {{in1..2: 2..20 V differential}}
        outputs: {{out1..2: 4 V grounded}}
        routes: {{out1: in1, out2: in2}}
        wakes: rem 20 mA
        gives: {{rem-out: 500 mA}}
      amp:
        kind: amplifier
        inputs: {{in1..2: 0.3..5 V grounded}}
        outputs: {{out1..2: 60 W @ 4 ohm}}
        routes: {{out1: in1, out2: in2}}
        wakes: rem 20 mA
    speakers: {{FL FR: {{nominal: 4 ohm}}}}
    grounds: {{G1: {{place: floor, metal: {metal}}}, G2: {{place: boot, metal: bare}}}}
    cut: [dash.FL, dash.FR, dash.5]
    joints:
      crimp:
        dash.unit.FL: dsp.in1
        dash.unit.FR: dsp.in2
        dash.car.FL: amp.out1
        dash.car.FR: amp.out2
        dash.unit.5: dsp.rem
    runs:
      - battery.+ > 30 cm 8 AWG > fuse 40 A > 4 m 8 AWG > dsp.B+
      - battery.+ > 30 cm 8 AWG > fuse 40 A > 4 m 8 AWG > amp.B+
      - dsp.GND > 40 cm 8 AWG > gnd.G1
      - amp.GND > 40 cm 8 AWG > gnd.G2
      - dsp.out1..2 > 3 m rca > amp.in1..2
      - dsp.rem-out > 3 m 18 AWG > amp.rem
"""


def names(session: Session) -> set[str]:
    return {session.circuit.pieces[fault.piece].name for faults in session.suspects for fault in faults}


def test_both_dead_suspects_what_they_share(wired: Wired) -> None:
    """Feeds, turn-on and units; not the grounds, which the signal cables' shields go round, nor one channel's joint."""
    wiring = wired(SUPPLIED.format(metal="bare"))
    found = names(Session(wiring, read_symptoms(wiring, ["amp silent"])))

    assert {"dsp", "amp", "dsp.rem-out", "run dsp.rem-out>amp.rem"} <= found
    assert not found & {"gnd.G1", "gnd.G2", "J1", "J2", "dsp.out1", "FL"}


def test_noise_suspects_a_painted_ground_first(wired: Wired) -> None:
    wiring = wired(SUPPLIED.format(metal="painted"))
    session = Session(wiring, read_symptoms(wiring, ["FL FR noise"]))
    first = session.ranked[0].faults[0]

    assert session.circuit.pieces[first.piece].name == "gnd.G1"
    assert first.mode == "poor ground"


@pytest.mark.parametrize(("unit", "others"), [("dsp", {"amp"}), ("amp", set())])
def test_what_stays_on_keeps_others_awake(unit: str, others: set[str], wired: Wired) -> None:
    """Where dsp stays on, amp, which it wakes, need not be named; where amp does alone, it isn't dsp."""
    wiring = wired(SUPPLIED.format(metal="bare"))
    session = Session(wiring, read_symptoms(wiring, [f"{unit} stays on"]))

    assert session.suspects
    for faults in session.suspects:
        assert session.simulator.stays_on(faults) - {unit} <= others


def test_exchanged_channels_are_told_by_what_is_heard(wired: Wired) -> None:
    """The joints of both channels at the radio's side: whoever listens before them hears his own channel still."""
    wiring = wired(SUPPLIED.format(metal="bare"))
    session = Session(wiring, read_symptoms(wiring, ["FL FR wrong place"]))
    pairs = {frozenset((fault.piece, fault.other)) for faults in session.suspects for fault in faults}
    named = {frozenset(session.circuit.pieces[number].name for number in pair) for pair in pairs}

    assert frozenset({"J1", "J2"}) in named
    assert frozenset({"J1", "J4"}) not in named, "an input's joint is never exchanged with an output's"


def test_power_is_off_before_a_swap(wired: Wired) -> None:
    wiring = wired(SUPPLIED.format(metal="bare"))
    session = Session(wiring, read_symptoms(wiring, ["FL silent"]))
    told = Told(session)
    swaps = [test for test in session.tests if test.kind.startswith("swap")]

    assert len(swaps) >= 3
    for test in swaps:
        assert told.do(test).startswith("Power off;")
        assert "power off before swapping" in told.caution(test)
        assert "no two outputs may ever touch" in told.caution(test)


def test_every_test_and_answer_has_words(wired: Wired) -> None:
    wiring = wired(SUPPLIED.format(metal="bare"))
    for texts in (["FL silent"], ["amp silent"], ["FL reversed"], ["FL wrong place"], ["FL weak"], ["FL FR noise"],
                  ["FL intermittent"], ["dsp stays on"], ["amp protects"], ["FL protects"]):  # fmt: skip
        session = Session(wiring, read_symptoms(wiring, texts))
        told = Told(session)
        for number, test in enumerate(session.tests):
            assert told.do(test).endswith((".", "?"))
            assert told.caution(test)
            for result in session.chooser.answers(number):
                means = told.means(test, str(result))
                assert len(means.split()) > 2, (test.kind, result, means)


def test_nothing_is_played_into_what_may_be_a_short(wired: Wired) -> None:
    """Ohms with the plug apart, a known-good speaker once the leads are off, and what the unit does without them; no
    signal at a point, no swap, no clips.
    """
    wiring = wired(SUPPLIED.format(metal="bare"))
    session = Session(wiring, read_symptoms(wiring, ["FL protects"]))
    kinds = {test.kind for test in session.tests}

    assert {"ohms", "clear", "hold"} <= kinds
    assert kinds <= {"ohms", "clear", "hold", "look", "all leads off", "cool", "offset", "sag", "drop"}
    modes = {faults[0].mode for faults in session.suspects}
    assert modes == {"shorted", "body", "load too low", "faulty"}, (
        "with FR playing on it is no matter of the whole unit"
    )
    whole = Session(wiring, read_symptoms(wiring, ["amp protects"]))
    wanted = {"drops volts", "too hot", "faulty", "shorted, unit protects", "load too low, unit protects"}
    assert wanted <= {faults[0].mode for faults in whole.suspects}
    told = {suspect_words(whole, faults) for faults in whole.suspects}
    for piece in (
        "ground point G2: loses volts",
        "amp itself: faulty inside",
        "amp itself: too hot",
        "speaker FL itself",
    ):
        assert any(piece in each for each in told), piece


def test_what_protects_is_no_double_search(wired: Wired) -> None:
    wiring = wired(TWELVE)
    with pytest.raises(Unreadable, match="leave --double out"):
        Session(wiring, read_symptoms(wiring, ["FL protects"]), double=True)


# a door with two drivers on one pair, the tweeter behind its capacitor
DOOR = """
    plugs: {dash: {unit: radio, cavities: {1/2: FL WH WH/BK, 3/4: FR GY GY/BK}}}
    units: {radio: {kind: radio, outputs: {FL FR: btl 8 V}}}
    speakers: {FR: {nominal: 4 ohm}, FL-WF: {nominal: 4 ohm}, FL-TW: {nominal: 4 ohm, capacitor: 4.7 uF}}
    found: [dash.FL > spk.FL-WF spk.FL-TW]
"""


@pytest.mark.parametrize("said", ["FL silent", "left front silent"])
def test_a_channel_means_all_of_its_drivers(said: str, wired: Wired) -> None:
    assert [each.subject for each in read_symptoms(wired(DOOR), [said])] == ["FL-WF", "FL-TW"]


def test_a_tweeter_is_not_condemned_through_its_capacitor(wired: Wired) -> None:
    """DC doesn't pass a capacitor: through it a good coil reads open, so its ohms are read behind it."""
    wiring = wired(DOOR)
    for speaker, behind in (("FL-TW", True), ("FL-WF", False)):
        session = Session(wiring, read_symptoms(wiring, [f"{speaker} silent"]))
        dead = next(s[0] for s in session.suspects if session.circuit.pieces[s[0].piece].name == speaker)
        assert ("ohms behind its capacitor" in Told(session).remedy(dead)) == behind


def test_one_double_fault_is_two_places(wired: Wired) -> None:
    """FL and FR dead by a joint each: no single fault of theirs explains it with both units alive."""
    wiring = wired(TWELVE)
    single = Session(wiring, read_symptoms(wiring, ["FL silent", "FR reversed"]))
    double = Session(wiring, read_symptoms(wiring, ["FL silent", "FR reversed"]), double=True)

    assert single.suspects == []
    assert "--double" in " ".join(Told(single).end_lines())
    assert double.suspects
    assert all(len(faults) == 2 for faults in double.suspects)


@pytest.mark.parametrize(
    ("texts", "words"),
    [
        (["XX silent"], "there is no speaker XX"),
        (["FL broken"], "FL is understood, “broken” is no symptom; there are: silent, reversed"),
        (["FL"], "FL is understood, but not what is wrong there; there are: silent"),
        (["broken"], "names no symptom; there are: silent, reversed"),
        (
            ["FL silent noise"],
            "two symptoms, silent and noise, for FL; give the one that is worse, “FL silent” or “FL noise”",
        ),
        (["FL FR wrong place weak"], "two symptoms, wrong place and weak, for FL FR"),
        (["FL silent FR"], "what is wrong with FR?"),
        (["silent"], "which speaker?"),
        (["radio stays on"], "doesn’t say what wakes radio"),
        (["FL silent", "FL weak"], "can’t be silent and weak at once"),
        (["FL silent", "dsp stays on"], "two searches"),
        (["FL silent", "FR intermittent"], "a search of its own"),
        (["FL silent", "FR protects"], "a search of its own"),
        ([], "no symptom was given"),
        (["AML silent"], "did you mean"),
    ],
)
def test_what_cannot_be_read_says_why(texts: list[str], words: str, wired: Wired) -> None:
    wiring = wired(SUPPLIED.format(metal="bare"))

    with pytest.raises(Unreadable) as error:
        read_symptoms(wiring, texts)
    assert words in str(error.value)


@pytest.mark.parametrize("text", ["FL silent", "LF dead", "fl  SILENT", "spk.FL no sound", "silent FL", "FL is silent"])
def test_a_symptom_in_other_words(text: str, wired: Wired) -> None:
    wiring = wired(SUPPLIED.format(metal="bare"))

    assert [each.words for each in read_symptoms(wiring, [text])] == ["FL silent"]


@pytest.mark.parametrize("text", ["FL silent, FR weak", "FR is weak and FL is silent", "FL dead FR low"])
def test_two_symptoms_in_one_text(text: str, wired: Wired) -> None:
    wiring = wired(SUPPLIED.format(metal="bare"))

    assert {each.words for each in read_symptoms(wiring, [text])} == {"FL silent", "FR weak"}


def test_the_same_search_twice(wired: Wired) -> None:
    """Nothing hangs on hash order: the same suspects, tests and costs in the same order."""
    made = []
    for _ in range(2):
        wiring = wired(SUPPLIED.format(metal="bare"))
        session = Session(wiring, read_symptoms(wiring, ["FL silent"]))
        made.append((session.suspects, session.tests, session.next_test()))

    assert made[0] == made[1]
