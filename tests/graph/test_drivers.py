"""What tones say of the drivers of a pair, of its state and of its chart; by hand, from the job's text.

The tones: a workshop's kit quoted in the trade (50 Hz for woofers, 500 Hz for midranges, 8.5 to 9.5 kHz for tweeters).
How far round them a driver must answer is common practice, no source.
"""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from harness.cli.report_json import text as as_json
from harness.graph.drivers import Span, must_answer, named, played, plays_it, takes_over
from harness.graph.misread import misread
from harness.graph.pairs import used_pairs
from harness.model.function import read_function
from harness.planning.left_open import left_open
from harness.prove import Proof
from tests.graph.test_signals import wiring_of
from tests.session.hazel import JOB, hazel

PLAIN = "  FL FR RL: {place: doors, nominal: 4 ohm}\n"
TWEETER = "  FL FR RL: {place: doors, nominal: 4 ohm}\n  FL-TW: {place: dash, nominal: 4 ohm, capacitor: 6.8 uF}\n"
BESIDE = JOB.replace(PLAIN, f"{TWEETER}found: [dash.FL > spk.FL spk.FL-TW]\n")
# the same without a speaker that is called FL itself: that word means somewhere at the left front
DRIVERS = BESIDE.replace("  FL FR RL:", "  FL-WF FR RL:").replace("> spk.FL spk", "> spk.FL-WF spk")
DRIVERS = DRIVERS.replace("to: [spk.FL]", "to: [spk.FL-WF]")


def tone(heard: str, signal: str = "", more: str = "") -> str:
    played_so = f", signal: {signal}" if signal else ""
    return f"tone: dash.car.1/7, charted: FL, heard: {heard}{played_so}{more}"


def pair(proof: Proof) -> tuple[str, str, list[str]]:
    """State, what speaks against the chart, what is left to hear of the left front pair.

    Two wires of which a tone was taken count as measured: a tone takes ohms first.
    """
    assert proof.wiring is not None
    found = next(each for each in used_pairs(proof.wiring) if each.name == "dash.1/7")
    return found.state, found.contrary, [each.words for each in found.unheard]


TW, WF, FL = (f"{name} not heard: play {tone}" for name, tone in (
    ("FL-TW", "8.5 to 9.5 kHz"), ("FL-WF", "500 Hz"), ("FL", "500 Hz")))  # fmt: skip


@pytest.mark.parametrize(
    ("records", "state", "left"),
    [
        # a woofer's tone proves no tweeter, and no answer of it says nothing
        ([tone("FL", "500 Hz")], "measured", [TW]), ([tone("FL", "50 Hz")], "measured", [TW]),
        ([tone("FL FL-TW", "500 Hz")], "toned", []),  # it may answer
        # a tweeter's tone proves no woofer; one that the woofer alone answers finds the tweeter dead
        ([tone("FL-TW", "8.5 to 9.5 kHz")], "measured", [FL]), ([tone('"FL-TW, FL"', "9 kHz")], "toned", []),
        ([tone("FL", "9 kHz")], "measured", ["FL-TW silent at 9 kHz, which it must play"]),
        # two tones together, either first
        ([tone("FL", "500 Hz"), tone("FL-TW", "9 kHz")], "toned", []),
        ([tone("FL-TW", "9 kHz"), tone("FL", "500 Hz warble")], "toned", []),
        ([tone("FL", "500 Hz"), tone("none", "9 kHz")], "measured", ["FL-TW silent at 9 kHz, which it must play"]),
        ([tone("none", "9 kHz"), tone("FL", "500 Hz")], "measured", ["FL-TW silent at 9 kHz, which it must play"]),
        # also where nobody wrote what was charted
        ([tone("FL", "500 Hz"), tone("none", "9 kHz").replace("charted: FL, ", "")], "measured",
         ["FL-TW silent at 9 kHz, which it must play"]),
        # the last of each part counts
        ([tone("FL", "500 Hz"), tone("none", "9 kHz"), tone("FL-TW", "8.5 to 9.5 kHz")], "toned", []),
        # all must answer all
        ([tone("FL FL-TW", "pink noise")], "toned", []),
        ([tone("FL", "music")], "measured", ["FL-TW silent at music, which it must play"]),
        # no tone written: as it was, by its channel or by name
        ([tone("FL")], "toned", []), ([tone("FL FL-TW")], "toned", []), ([tone("FL-TW")], "measured", [FL]),
        ([tone("FL"), tone("FL-TW", "9 kHz")], "toned", []),
    ],
)  # fmt: skip
def test_what_the_tones_prove(records: list[str], state: str, left: list[str], tmp_path: Path) -> None:
    proof = hazel(tmp_path, *records, job=BESIDE)
    assert pair(proof) == (state, "", left)
    assert not misread(proof.wiring)  # type: ignore[arg-type]
    asked = [each.message for each in proof.report.findings if each.code == "A14" and "1/7" in each.message]
    assert bool(asked) == (state != "toned")


# `FL` is neither of the two: by the tone it is the one that must answer it
@pytest.mark.parametrize(
    ("heard", "signal", "state", "left"),
    [
        ("FL", "500 Hz", "measured", [TW]), ("FL", "9 kHz", "measured", [WF]), ("FL", "full range", "toned", []),
        ("FL", "", "toned", []), ("FL-WF", "500 Hz", "measured", [TW]), ("LF-WF", "50 Hz", "measured", [TW]),
    ],
)  # fmt: skip
def test_a_channel_for_its_drivers(heard: str, signal: str, state: str, left: list[str], tmp_path: Path) -> None:
    assert pair(hazel(tmp_path, tone(heard, signal), job=DRIVERS)) == (state, "", left)


# a full-range speaker alone: 500 Hz proves it, and so does whatever it answers; silence at 9 kHz says nothing
@pytest.mark.parametrize(
    ("heard", "signal", "state", "contrary"),
    [
        ("FL", "500 Hz", "toned", ""), ("FL", "50 Hz", "toned", ""), ("FL", "9 kHz", "toned", ""),
        ("none", "9 kHz", "measured", ""), ("none", "500 Hz", "measured", "charted FL, heard none"),
        ("none", "", "measured", "charted FL, heard none"), ("RL", "9 kHz", "measured", "charted FL, heard RL"),
    ],
)  # fmt: skip
def test_one_speaker_alone(heard: str, signal: str, state: str, contrary: str, tmp_path: Path) -> None:
    assert pair(hazel(tmp_path, tone(heard, signal)))[:2] == (state, contrary)


def test_silence_that_says_nothing_is_listed_and_takes_nothing_back(tmp_path: Path) -> None:
    proof = hazel(tmp_path, tone("FL", "500 Hz"), tone("none", "9 kHz"))
    assert pair(proof) == ("toned", "", [])
    assert ("what the tone of dash 1/7 says of the chart",
            "nothing at this plug must answer 9 kHz, so silence says nothing") in proof.report.unchecked  # fmt: skip


def test_a_silent_driver_is_not_called_one_that_need_not_answer(tmp_path: Path) -> None:
    """The tweeter must answer 9 kHz. Heard by that tone later, its silence is over and not listed any more."""
    records = [tone("FL", "500 Hz"), tone("none", "9 kHz")]
    what = "what the tone of dash 1/7 says of the chart"
    listed = hazel(tmp_path, *records, job=BESIDE).report.unchecked
    assert [each.why for each in listed if each.what == what] == [
        "FL answered there by another tone: silence is of a driver, not of the row"
    ]
    listed = hazel(tmp_path, *records, tone("FL-TW", "9 kHz"), job=BESIDE).report.unchecked
    assert not [each for each in listed if each.what == what]


def test_another_one_at_its_own_tone_stays_said(tmp_path: Path) -> None:
    """The left rear answers 50 Hz; that 9 kHz finds the tweeter takes that not back, 50 Hz again does."""
    first = [tone("FL RL", "50 Hz"), tone("FL-TW", "9 kHz")]
    assert pair(hazel(tmp_path, *first, job=BESIDE))[:2] == ("measured", "charted FL, heard FL RL")
    assert pair(hazel(tmp_path, *first, tone("FL", "50 Hz"), job=BESIDE)) == ("toned", "", [])


def test_plus_stands_when_the_tweeter_is_toned(tmp_path: Path) -> None:
    """A tweeter's tone finds no +; 500 Hz taken again without one takes it back, as ever."""
    first = [tone("FL", "500 Hz", ", plus: 7"), tone("FL-TW", "9 kHz")]
    assert pair(hazel(tmp_path, *first, job=BESIDE))[1] == "charted + 1, found + 7"
    assert pair(hazel(tmp_path, *first, tone("FL", "500 Hz"), job=BESIDE))[1] == ""


# an unknown place answers too: it is told as another channel would be
@pytest.mark.parametrize("word", ["elsewhere", "unknown"])
def test_a_place_that_is_not_in_the_job(word: str, tmp_path: Path) -> None:
    assert pair(hazel(tmp_path, tone(f"FL {word}", "500 Hz")))[:2] == ("measured", f"charted FL, heard FL {word}")
    # also of a pair that is only passed on, of which nothing else is told
    proof = hazel(tmp_path, f"tone: dash.car.3/9, charted: RL, heard: RL {word}, signal: 500 Hz")
    said = [each.why for each in proof.report.unchecked if "tone of dash 3/9" in each.what]
    find = "find what it is before anything is joined here"
    assert said == [f"“{word}” answered too, a place that isn't in the job: {find}"]


def test_a_word_that_is_no_place_is_listed(tmp_path: Path) -> None:
    proof = hazel(tmp_path, tone("FL shelf", "500 Hz"))
    assert pair(proof)[:2] == ("toned", "")
    assert ("what the tone of dash 1/7 says of the chart",
            "“shelf” beside it is no channel: what else answered isn't known") in proof.report.unchecked  # fmt: skip


# said once, and not where the tone is written or the tweeter is named
@pytest.mark.parametrize(
    ("records", "said"),
    [([tone("FL")], True), ([tone("FL FL-TW")], False), ([tone("FL"), tone("FL-TW", "9 kHz")], False),
     ([tone("FL", "500 Hz")], False), ([], False)],
)  # fmt: skip
def test_without_the_tone_no_tweeter_is_proved(records: list[str], said: bool, tmp_path: Path) -> None:
    listed = [each.why for each in hazel(tmp_path, *records, job=BESIDE).report.unchecked if "FL-TW answers" in each[0]]
    assert listed == ["no `signal` is written with the tone: it proves no tweeter"] * said


def test_a_tweeter_that_this_car_lacks_is_not_asked_for(tmp_path: Path) -> None:
    job = BESIDE.replace("lacks: [SUB, C]", "lacks: [SUB, C, FL-TW]")
    assert pair(hazel(tmp_path, tone("FL", "500 Hz"), job=job)) == ("toned", "", [])


def test_a_tweeter_that_the_plan_cuts_off_is_not_asked_for(tmp_path: Path) -> None:
    """Behind a plug of its own, which the plan cuts: it was on the pair, and is fed by nothing any more."""
    way = "inline: {C1: door}\nfound: [dash.FL > spk.FL, dash.FL > C1.1/2 > spk.FL-TW]\n"
    job = BESIDE.replace("found: [dash.FL > spk.FL spk.FL-TW]\n", way)
    assert pair(hazel(tmp_path, tone("FL", "500 Hz"), job=job)) == ("measured", "", [TW])
    assert pair(hazel(tmp_path, tone("FL", "500 Hz"), job=f"{job}cut: [C1.1, C1.2]\n")) == ("toned", "", [])


def test_the_owner_reads_which_speaker_is_open(tmp_path: Path) -> None:
    """The right front pair wasn't toned at all; of the left one the tweeter is not proved, or it is silent."""
    wiring = hazel(tmp_path, tone("FL", "500 Hz"), job=BESIDE).wiring
    assert wiring is not None
    proved = "Speakers that no test sound has proved yet: left front tweeter."
    assert left_open(wiring)[:2] == ["Wires not tried: right front.", proved]
    wiring = hazel(tmp_path, tone("FL", "500 Hz"), tone("none", "9 kHz"), job=BESIDE).wiring
    assert wiring is not None
    assert left_open(wiring)[1] == "Speakers that stayed silent: left front tweeter."


def test_a_script_reads_which_driver_is_open(tmp_path: Path) -> None:
    said = json.loads(as_json(hazel(tmp_path, tone("FL", "500 Hz"), job=BESIDE)))["open"]["drivers"]
    assert said == ["dash.1/7: FL-TW not heard: play 8.5 to 9.5 kHz"]


def test_silence_that_says_nothing_is_asked_for_by_its_own_tone(tmp_path: Path) -> None:
    (found,) = (e for e in hazel(tmp_path, tone("none", "9 kHz")).report.findings if e.code == "A14")
    assert found.do.endswith("1/7, FL not heard: play 500 Hz.")


def test_the_finding_says_what_to_play(tmp_path: Path) -> None:
    proof = hazel(tmp_path, tone("FL", "500 Hz"), *(
        f"tone: dash.car.{at}, charted: {name}, heard: {name}" for at, name in (("2/8", "FR"), ("3/9", "RL"))
    ), job=BESIDE)  # fmt: skip
    (found,) = (each for each in proof.report.findings if each.code == "A14")
    assert (
        found.message
        == "dash: one pair is used, and not every driver of it was heard: 1/7 (white, FL; FL-TW not heard)."
    )
    assert found.do.endswith("1/7, FL-TW not heard: play 8.5 to 9.5 kHz.")


@pytest.mark.parametrize(
    ("signal", "span"),
    [
        ("500 Hz warble", (500, 500)), ("8.5 to 9.5 kHz", (8500, 9500)), ("8500-9500-hz-sweep", (8500, 9500)),
        ("1kHz", (1000, 1000)), ("475 to 525 Hz", (475, 525)), ("50 to 150 Hz", (50, 150)),
        ("500 Hz, then 9 kHz", (500, 9000)), ("pink noise", (20, 20000)), ("full range", (20, 20000)),
        ("loud", None), ("", None),
    ],
)  # fmt: skip
def test_the_words_of_a_tone(signal: str, span: tuple[float, float] | None) -> None:
    assert played(signal) == (Span(*map(float, span)) if span else None)


# of one part of the range, or one that plays all, or not written
@pytest.mark.parametrize(
    ("new", "old", "over"),
    [("500 Hz", "500 Hz warble", True), ("9 kHz", "500 Hz", False), ("50 Hz", "500 Hz", False),
     ("noise", "9 kHz", True), ("9 kHz", "noise", False), ("", "9 kHz", True), ("9 kHz", "", True)],
)  # fmt: skip
def test_which_tone_takes_over(new: str, old: str, over: bool) -> None:
    assert takes_over(new, old) == over


def test_another_spelling_is_the_speaker_of_that_name(tmp_path: Path) -> None:
    proof = hazel(tmp_path, job=BESIDE)
    assert proof.wiring is not None
    assert named(proof.wiring.job.parts.speakers, "LF").speakers == ("FL",)


def test_which_part_of_the_range_a_tone_plays() -> None:
    """Below 200 Hz it is a woofer's, above 4000 Hz a tweeter's; all drivers answer what goes from 1000 Hz or lower to
    above 4000 Hz.
    """
    spans = {
        (50, 199): "low", (50, 200): "middle", (300, 4000): "middle", (4001, 9000): "high", (1001, 4001): "high",
        (1200, 9000): "high", (1000, 4001): "all", (20, 20_000): "all",
    }  # fmt: skip
    assert {span: Span(*map(float, span)).part for span in spans} == spans


# the ends of what each kind must answer, said at `_MUST`: common practice, no source
@pytest.mark.parametrize(
    ("driver", "hertz", "must"),
    [
        ("FL-MID", (3000, 3000), True), ("FL-MID", (3001, 3001), False), ("FL-MID", (200, 200), True),
        ("FL-MID", (199, 199), False), ("FL", (3000, 3000), True), ("FL", (3001, 3001), False),
        ("FL-WF", (1000, 1000), True), ("FL-WF", (1001, 1001), False), ("SUB", (150, 150), True),
        ("SUB", (151, 151), False), ("FL-TW", (5000, 5000), True), ("FL-TW", (4999, 4999), False),
        ("FL-TW", (20_000, 20_000), True), ("FL-TW", (20_001, 20_001), False), ("SUB", (1, 1), True),
    ],
)  # fmt: skip
def test_what_a_driver_of_the_chart_must_answer(driver: str, hertz: tuple[float, float], must: bool) -> None:
    function = read_function(driver)
    assert function is not None
    assert plays_it(function, Span(*map(float, hertz))) is must
    # a speaker of that name is asked the same
    speaker = wiring_of("", speakers=f"speakers: {{{driver}: {{nominal: 4 ohm}}}}\n").job.parts.speakers[driver]
    assert must_answer(speaker, Span(*map(float, hertz))) is must


def test_a_tone_that_none_of_a_channel_must_answer_names_all_of_it() -> None:
    """A woofer must answer up to 1000 Hz and a midrange up to 3000: at 9 kHz the left front is either of them."""
    speakers = wiring_of("", speakers="speakers: {FL-WF FL-MID FR: {nominal: 4 ohm}}\n").job.parts.speakers
    made = named(speakers, "FL", Span(9000.0, 9000.0))
    assert (made.speakers, made.vague, made.odd) == (("FL-WF", "FL-MID"), {"FL-WF", "FL-MID"}, ())


def test_a_speaker_by_a_name_that_is_no_channel() -> None:
    speakers = wiring_of("", speakers="speakers: {s1 FL: {nominal: 4 ohm}}\n").job.parts.speakers
    made = named(speakers, "S1 FL")
    assert (made.speakers, made.vague, made.odd) == (("s1", "FL"), set(), ())
