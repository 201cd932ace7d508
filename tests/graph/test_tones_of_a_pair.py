"""What the tones of a pair say, driver by driver: on one pair of two drivers, read off by hand.

A woofer must answer below 1 kHz, a tweeter from 5 kHz on, one without a part of the range from 0 to 3 kHz (common
practice, no source).
"""

from __future__ import annotations

from pathlib import Path

import pytest

from harness.graph import pairs, toned
from harness.graph.wiring import Wiring
from tests.graph.test_contrary_rules import recorded

# One pair of two drivers, and no other speaker: FR's wires, 3 and 4, end somewhere.
TWO = """\
ringout: 1
title: A woofer and a tweeter on one pair
car: {name: Bench hatch, steering: left}
plugs:
  dash:
    place: behind the radio
    unit: radio
    face: {rows: 1, columns: 4, view: wire, latch: top, first: top left, count: across}
    cavities: {1/2: FL WH WH/BK, 3/4: FR GY GY/BK}
units:
  radio: {kind: radio, outputs: {FL FR: btl 8 V}}
speakers:
  FL-WF: {nominal: 4 ohm}
  FL-TW: {nominal: 4 ohm, capacitor: 4.7 uF}
  RL: {nominal: 4 ohm}
found: [dash.FL > spk.FL-WF spk.FL-TW]
"""


def said(wiring: Wiring, pair: int = 0) -> toned.Told:
    plug = wiring.job.parts.plugs["dash"]
    return toned.told(wiring, plug, *pairs.pairs_of(wiring, "dash")[pair])


@pytest.mark.parametrize(
    ("records", "is_toned", "heard", "kind"),
    [
        ((), False, "", ""),
        # named each for itself: both, or the one alone
        (("tone: dash.car.1/2, heard: FL-WF FL-TW",), True, "FL-WF FL-TW", ""),
        (("tone: dash.car.1/2, heard: FL-WF",), False, "FL-WF", ""),
        # one of each part of the range proves both
        (("tone: dash.car.1/2, heard: FL-WF, signal: 500 Hz", "tone: dash.car.1/2, heard: FL-TW, signal: 9 kHz"), True,
         "FL-WF FL-TW", ""),
        # behind a tone between the two, which neither must answer, and one that was another pair's by the chart of then
        (("tone: dash.car.1/2, heard: none, signal: 3 kHz", "tone: dash.car.1/2, heard: FL-WF FL-TW"), True,
         "FL-WF FL-TW", ""),
        (("tone: dash.car.1/2, charted: RL, heard: RL", "tone: dash.car.1/2, heard: FL-WF FL-TW"), True,
         "FL-WF FL-TW", ""),
        # silence at a tone that isn't written takes all of it back; at one for tweeters the tweeter alone
        (("tone: dash.car.1/2, heard: FL-WF FL-TW", "tone: dash.car.1/2, heard: none"), False, "", "silent"),
        (("tone: dash.car.1/2, heard: FL-WF FL-TW", "tone: dash.car.1/2, heard: none, signal: 9 kHz"), False, "FL-WF",
         ""),
        # who isn't named at a tone that isn't written stays as heard before
        (("tone: dash.car.1/2, heard: FL-WF, signal: 500 Hz", "tone: dash.car.1/2, heard: FL-TW"), True,
         "FL-WF FL-TW", ""),
        # nothing of the chart was written, and what answered besides is no driver of the pair
        (("tone: dash.car.1/2, heard: FL-WF FL-TW hum",), False, "", ""),
        (("tone: dash.car.1/2, heard: FL-WF FL-TW RL",), False, "", "stranger"),
        (("tone: dash.car.1/2, heard: RL",), False, "", "other"),
        (("tone: dash.car.1/2, heard: hum",), False, "", "words"),
        (("tone: dash.car.1/2, heard: none",), False, "", "silent"),
        (("tone: dash.car.1/2",), False, "", "unsaid"),
        (("tone: dash.car.1/2, heard: FL-WF FL-TW elsewhere",), False, "", "stranger"),
        # a tone of another car is none
        (("tone: dash.car.1/2, heard: FL-WF FL-TW, car: Larch van",), False, "", ""),
        # the channel's word means the driver that the tone moves: woofers below 1 kHz, tweeters from 5 kHz on
        (("tone: dash.car.1/2, heard: FL, signal: 500 Hz",), False, "FL-WF", ""),
        (("tone: dash.car.1/2, heard: FL, signal: 9 kHz",), False, "FL-TW", ""),
        # between the two it means neither for sure; a driver's own name does
        (("tone: dash.car.1/2, heard: FL, signal: 3 kHz",), False, "", ""),
        (("tone: dash.car.1/2, heard: FL-TW, signal: 3 kHz",), False, "FL-TW", ""),
        (("tone: dash.car.1/2, heard: FL, signal: pink noise",), True, "FL-WF FL-TW", ""),
        # something of the channel answered there: that a tweeter keeps silent is not against the row, in any order
        (("tone: dash.car.1/2, heard: FL, signal: 3 kHz", "tone: dash.car.1/2, heard: none, signal: 9 kHz"), False, "",
         ""),
        (("tone: dash.car.1/2, heard: none, signal: 9 kHz", "tone: dash.car.1/2, heard: FL, signal: 3 kHz"), False, "",
         ""),
    ],
)  # fmt: skip
def test_what_the_tones_of_a_pair_say(
    records: tuple[str, ...], is_toned: bool, heard: str, kind: str, tmp_path: Path
) -> None:
    made = said(recorded(tmp_path, *records, job=TWO))
    assert (made.toned, " ".join(made.heard), made.kind) == (is_toned, heard, kind)


@pytest.mark.parametrize(
    ("records", "blind"),
    [
        # by the channel's word alone, and nobody knows which tone it was: the woofer is surely among it
        (("tone: dash.car.1/2, heard: FL",), ("FL-TW",)),
        (("tone: dash.car.1/2, heard: FL-WF FL-TW",), ()),
        (("tone: dash.car.1/2, heard: FL FL-TW",), ()), (("tone: dash.car.1/2, heard: FL-TW FL",), ()),
        (("tone: dash.car.1/2, heard: FL FL-WF",), ("FL-TW",)),
        # heard for itself later, or by a tone that moves it alone
        (("tone: dash.car.1/2, heard: FL", "tone: dash.car.1/2, heard: FL-WF FL-TW"), ()),
        (("tone: dash.car.1/2, heard: FL", "tone: dash.car.1/2, heard: FL-TW, signal: 9 kHz"), ()),
        (("tone: dash.car.1/2, heard: FL", "tone: dash.car.1/2, heard: FL, signal: 500 Hz"), ("FL-TW",)),
        # of noise all of it must answer
        (("tone: dash.car.1/2, heard: FL, signal: pink noise",), ()),
        (("tone: dash.car.1/2, heard: RL",), ()),
    ],
)  # fmt: skip
def test_tweeters_taken_as_heard_with_the_rest(
    records: tuple[str, ...], blind: tuple[str, ...], tmp_path: Path
) -> None:
    assert said(recorded(tmp_path, *records, job=TWO)).blind == blind


def test_a_tweeter_alone_on_its_pair_is_heard_by_whatever_tone(tmp_path: Path) -> None:
    job = TWO.replace("found: [dash.FL > spk.FL-WF spk.FL-TW]", "found: [dash.FL > spk.FL-TW]")
    assert said(recorded(tmp_path, "tone: dash.car.1/2, heard: FL", job=job)).blind == ()


def test_a_speaker_of_another_channel_that_the_job_has_there(tmp_path: Path) -> None:
    """It is no stranger, not even where a car without it is said to be: somebody heard it where it is drawn."""
    job = TWO.replace("spk.FL-TW]", "spk.FL-TW spk.RL]")
    for car in ("steering: left", "steering: left, lacks: [RL]"):
        made = said(recorded(tmp_path, "tone: dash.car.1/2, heard: FL RL", job=job.replace("steering: left", car)))
        assert made.kind == "", car
    assert said(recorded(tmp_path, "tone: dash.car.1/2, heard: FL RL", job=TWO)).kind == "stranger"


@pytest.mark.parametrize(("heard", "kind"), [("RL", ""), ("RL FL-WF", "stranger"), ("RL elsewhere", "stranger")])
def test_a_pair_charted_for_no_channel(heard: str, kind: str, tmp_path: Path) -> None:
    """By the job RL hangs there: what answers beside it is joined to it, or touches it."""
    job = TWO.replace("3/4: FR", "3/4: aux1").replace("spk.FL-TW]", "spk.FL-TW, dash.3 > spk.RL+, dash.4 > spk.RL-]")
    assert said(recorded(tmp_path, f"tone: dash.car.3/4, heard: {heard}", job=job), 1).kind == kind


@pytest.mark.parametrize(
    ("heard", "kind"),
    [("FR", ""), ("FL-WF", "other"), ("FR RL", "stranger"), ("none", "silent"), ("FR elsewhere", "stranger")],
)
def test_a_pair_of_which_the_job_has_no_speaker(heard: str, kind: str, tmp_path: Path) -> None:
    """That the channel's own answered is said by its word alone."""
    assert said(recorded(tmp_path, f"tone: dash.car.3/4, charted: FR, heard: {heard}", job=TWO), 1).kind == kind


def test_which_tone_the_chart_is_held_against(tmp_path: Path) -> None:
    """The last that answered; where all that count kept silent the last of them."""
    low, high = "tone: dash.car.1/2, heard: FL-WF, signal: 500 Hz", "tone: dash.car.1/2, heard: none, signal: 9 kHz"
    none = "tone: dash.car.1/2, heard: none, signal: 500 Hz"
    for records, line in (((low, high), 1), ((high, low), 2), ((none, high), 2), ((low, none), 2)):
        tone = said(recorded(tmp_path, *records, job=TWO)).tone
        assert tone is not None
        assert tone.place.line == line, records


def test_a_pair_without_speakers_answers_to_its_name(tmp_path: Path) -> None:
    """What hangs there isn't known, so that each tone's silence counts; once it answered, silence is some driver's."""
    answers, silent = "tone: dash.car.3/4, heard: FR, signal: 500 Hz", "tone: dash.car.3/4, heard: none, signal: 9 kHz"
    for records, is_toned, kind in (
        ((silent,), False, "silent"), ((answers,), True, ""),
        ((answers, silent), True, ""), ((silent, answers), True, ""),
        ((answers, "tone: dash.car.3/4, heard: none, signal: 500 Hz"), False, "silent"),
    ):  # fmt: skip
        made = said(recorded(tmp_path, *records, job=TWO), 1)
        assert (made.toned, made.kind) == (is_toned, kind), records


# The pair is charted for the woofer alone; its channel's word means the tweeter as well where the car has one.
WOOFER = TWO.replace("1/2: FL ", "1/2: FL-WF ").replace("dash.FL > spk.FL-WF spk.FL-TW", "dash.FL-WF > spk.FL-WF")
WOOFER_ONLY = WOOFER.replace("  FL-TW: {nominal: 4 ohm, capacitor: 4.7 uF}\n", "")


@pytest.mark.parametrize(
    ("job", "signal", "heard"),
    [
        (WOOFER, "", ""), (WOOFER, "500 Hz", "FL-WF"), (WOOFER, "3 kHz", ""), (WOOFER, "9 kHz", ""),
        (WOOFER, "pink noise", "FL-WF"),
        # there is no other one: it may be heard at whatever tone
        (WOOFER_ONLY, "", "FL-WF"), (WOOFER_ONLY, "500 Hz", "FL-WF"), (WOOFER_ONLY, "3 kHz", "FL-WF"),
        (WOOFER_ONLY, "9 kHz", "FL-WF"),
    ],
)  # fmt: skip
def test_who_is_meant_by_a_channel_s_word(job: str, signal: str, heard: str, tmp_path: Path) -> None:
    tone = "tone: dash.car.1/2, charted: FL-WF, heard: FL" + (f", signal: {signal}" if signal else "")
    assert " ".join(said(recorded(tmp_path, tone, job=job)).heard) == heard


def test_a_word_that_is_no_speaker_may_be_the_tweeter(tmp_path: Path) -> None:
    tone = "tone: dash.car.1/2, charted: FL, heard: FL-WF{}, signal: pink noise"
    for more, words in (
        (" hum", "FL-TW not heard: play 8.5 to 9.5 kHz"),
        ("", "FL-TW silent at pink noise, which it must play"),
    ):
        made = said(recorded(tmp_path, tone.format(more), job=TWO))
        assert [each.words for each in made.unheard] == [words]


def test_where_nothing_was_said_nothing_is_confirmed(tmp_path: Path) -> None:
    """Silence confirms no channel, though there is no driver left to hear; and who wrote nothing heard no silence."""
    assert not said(recorded(tmp_path, "tone: dash.car.3/4, heard: none", job=TWO), 1).toned
    low, high = "tone: dash.car.1/2, heard: FL-WF, signal: 500 Hz", "tone: dash.car.1/2, signal: 9 kHz"
    for more, words in (
        ("", "FL-TW not heard: play 8.5 to 9.5 kHz"),
        (", heard: none", "FL-TW silent at 9 kHz, which it must play"),
    ):
        made = said(recorded(tmp_path, low, high + more, job=TWO))
        assert [each.words for each in made.unheard] == [words]
