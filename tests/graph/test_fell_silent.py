"""Pairs that answered once and don't any more, or another speaker with them; by records of a few words on a small job.

No outside source: the rules are those that `ringout explain J30` and the README say of tones.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from harness.graph import fell_silent
from tests.graph.test_contrary_rules import JOB, recorded

LOW, MIDDLE = ", signal: 50 Hz", ", signal: 500 Hz"
UNHEARD = "tone: dash.car.1/2, charted: FL"
WIRE, WIRE_OFF = "tone: dash.car.1, heard: FL", "tone: dash.car.1, heard: none"
FL, OFF = "tone: dash.car.1/2, charted: FL, heard: FL", "tone: dash.car.1/2, charted: FL, heard: none"
RR, RR_OFF = "tone: dash.car.7/8, charted: RR, heard: RR", "tone: dash.car.7/8, charted: RR, heard: none"


def tone(heard: str, more: str = "", at: str = "1/2") -> str:
    return f"tone: dash.car.{at}, charted: FL, heard: {heard}{more}"


@pytest.mark.parametrize(
    ("records", "pairs"),
    [
        ((FL, OFF), [("1", 1, 2)]),
        # silent from the first, heard again, never heard
        ((OFF, FL), []), ((FL, OFF, FL), []), ((OFF, OFF), []),
        # with its halves exchanged, from the radio's half; by the last silence, and the last answer before it
        ((FL, tone("none", at="2/1")), [("1", 1, 2)]), ((FL, OFF, OFF), [("1", 1, 3)]), ((FL, FL, OFF), [("1", 2, 3)]),
        # of another car; another pair's; what was played at a tweeter's tone, which a woofer need not answer
        ((FL, f"{OFF}, car: Larch van"), []), ((FL, RR_OFF), []), ((FL, tone("none", ", signal: 9 kHz")), []),
        ((tone("FL", ", signal: 500 Hz"), tone("none", ", signal: 500 Hz")), [("1", 1, 2)]),
        # two parts of the range, both silent now, are told once
        ((tone("FL", LOW), tone("FL", MIDDLE), tone("none", LOW), tone("none", MIDDLE)), [("1", 2, 4)]),
        # another speaker answered before: it was never proved
        ((tone("RL"), OFF), []), ((tone("FL RL"), OFF), []),
        # what nobody heard, one wire alone, and a record that is no tone say nothing
        ((UNHEARD, OFF), []), ((WIRE, WIRE_OFF), []),
        (("polarity: dash.car.1/2, heard: FL", OFF), []), ((FL, "polarity: dash.car.1/2, heard: none"), []),
        # the second pair, and both
        ((FL, RR, RR_OFF), [("7", 2, 3)]), ((FL, RR, RR_OFF, OFF), [("1", 1, 4), ("7", 2, 3)]),
        # the speaker itself was off
        ((FL, f"{OFF}, unplugged: [dash, FL]"), []),
    ],
)  # fmt: skip
def test_a_pair_that_fell_silent(records: tuple[str, ...], pairs: list[tuple[str, int, int]], tmp_path: Path) -> None:
    made = fell_silent.fell_silent(recorded(tmp_path, *records))
    assert [(each.plus.cavity, each.heard.place.line, each.since.place.line) for each in made] == pairs


def test_a_driver_of_the_pair_stands_for_its_channel(tmp_path: Path) -> None:
    job = JOB.replace("FL RL RR C: {", "FL-WF RL RR C: {") + "found:\n  - dash.FL > spk.FL-WF\n"
    made = fell_silent.fell_silent(recorded(tmp_path, tone("FL-WF"), OFF, job=job))
    assert [each.heard.place.line for each in made] == [1]


def test_a_pair_of_which_no_speaker_is_drawn_fell_silent_too(tmp_path: Path) -> None:
    """What was unplugged took none off it: there was none to be taken."""
    job = JOB.replace("FL RL RR C: {", "FL RL C: {")
    made = fell_silent.fell_silent(recorded(tmp_path, RR, RR_OFF, job=job))
    assert [each.plus.cavity for each in made] == ["7"]


@pytest.mark.parametrize(
    ("records", "strangers"),
    [
        ((FL, tone("FL RL")), [("RL",)]),
        # both are others: that is another pair; it alone, and silence
        ((FL, tone("RL RR")), []), ((FL, FL), []), ((FL, OFF), []),
        # never proved, proved again, in another car
        ((tone("FL RL"), tone("FL RL")), []), ((FL, tone("FL RL"), FL), []),
        ((FL, tone("FL RL", ", car: Larch van")), []),
        ((FL, tone("FL RL RR")), [("RL", "RR")]),
        # at another part of the range it answers alone, which takes nothing back; a driver of its own is no stranger
        ((tone("FL", LOW), tone("FL RL", LOW), tone("FL", MIDDLE)), [("RL",)]), ((FL, tone("FL FL-TW")), []),
    ],
)  # fmt: skip
def test_a_pair_that_another_speaker_answers_since(
    records: tuple[str, ...], strangers: list[tuple[str, ...]], tmp_path: Path
) -> None:
    assert [each.strangers for each in fell_silent.joined_since(recorded(tmp_path, *records))] == strangers


@pytest.mark.parametrize(
    ("records", "went"),
    [
        ((FL, OFF), True), ((OFF, FL, OFF), True), ((tone("RL"), OFF), True),
        # the last one of these was heard, was the first, or comes after one of nothing heard
        ((FL, tone("RL")), False), ((OFF,), False), ((OFF, OFF), False), ((UNHEARD, OFF), False),
        # a tone of another part of the range, another pair, one wire, no tone
        ((tone("FL", ", signal: 9 kHz"), tone("none", ", signal: 500 Hz")), False), ((RR, OFF), False),
        ((WIRE, WIRE_OFF), False),
        ((FL, "polarity: dash.car.1/2, heard: none"), False),
    ],
)  # fmt: skip
def test_whether_the_last_tone_went_silent(records: tuple[str, ...], went: bool, tmp_path: Path) -> None:
    wiring = recorded(tmp_path, *records)
    assert fell_silent.went_silent(wiring, wiring.job.records[-1]) is went


def test_what_answers_later_is_no_earlier_answer(tmp_path: Path) -> None:
    wiring = recorded(tmp_path, OFF, FL)
    assert not fell_silent.went_silent(wiring, wiring.job.records[0])
