"""A pair with a woofer and a tweeter: which tone is on, who must answer it, and what is left to play. By hand.

Source of the tones: a workshop's kit, quoted in the trade (50 Hz woofer and subwoofer, 500 Hz midrange, 8.5 to 9.5 kHz
tweeter); that a woofer, a full-range speaker answer 500 Hz and no tweeter need: common practice, no source.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from harness.session.sections import sections
from harness.session.talk import Conversation, Outcome, Task
from tests.session.hazel import JOB, hazel
from tests.session.terminal import session as at_terminal

# the left front pair feeds a door speaker and, side by side with it, a tweeter behind its capacitor
WITH_TWEETER = JOB.replace(
    "  FL FR RL: {place: doors, nominal: 4 ohm}\n",
    "  FL FR RL: {place: doors, nominal: 4 ohm}\n  FL-TW: {place: dash, nominal: 4 ohm, capacitor: 6.8 uF}\n"
    "found: [dash.FL > spk.FL spk.FL-TW]\n",
)
LOW = "tone: dash.car.1/7, charted: FL, heard: FL, plus: 1, signal: 500 Hz, reads: 3.4 ohm"
HIGH = "tone: dash.car.1/7, charted: FL, heard: FL-TW, signal: 9 kHz"


def task(folder: Path, *records: str) -> Task | None:
    wiring = hazel(folder, *records, job=WITH_TWEETER).wiring
    assert wiring is not None
    tones = next(each for each in sections(wiring) if each.name == "tones")
    return next((each for each in tones.open if each.about.startswith("dash 1 ")), None)


def ask(folder: Path, *answers: str, records: tuple[str, ...] = (), at_once: bool = False) -> Outcome:
    found = task(folder, *records)
    assert found is not None
    talk = Conversation(found._replace(talk=found.at_once) if at_once and found.at_once else found)
    for answer in answers:
        assert talk.question is not None, f"nothing is asked any more before {answer!r}"
        talk.answer(answer)
    assert talk.outcome is not None, talk.question
    return talk.outcome


# the tone, and who must answer it, who may
@pytest.mark.parametrize(
    ("tone", "expected", "offered"),
    [
        ("500 Hz", "FL", ["FL", "FL FL-TW", "none", "else"]), ("50 Hz", "FL", ["FL", "FL FL-TW", "none", "else"]),
        ("9 kHz", "FL-TW", ["FL-TW", "FL-TW FL", "none", "else"]),
        ("full range", "FL and FL-TW", ["FL FL-TW", "none", "else"]),
    ],
)  # fmt: skip
def test_the_tone_is_asked_before_the_ear(tone: str, expected: str, offered: list[str], tmp_path: Path) -> None:
    found = task(tmp_path)
    assert found is not None
    talk = Conversation(found)
    for answer in ("0", "3.4", "open"):
        talk.answer(answer)
    assert talk.question is not None
    assert (talk.question.text, talk.question.expected) == ("Which tone is on?", "500 Hz, then 8.5 to 9.5 kHz")
    talk.answer(tone)
    assert talk.question is not None
    assert talk.question.text == f"{tone} on: which speakers answer? Walk round."
    assert talk.question.expected == expected
    assert [each.value for each in talk.question.choices] == offered


def test_a_driver_silent_at_its_tone_is_named_when_its_output_plays(tmp_path: Path) -> None:
    """500 Hz moved the door speaker, 9 kHz nothing: played by the amplifier, that one alone is an answer of its own."""
    wiring = hazel(
        tmp_path, LOW, "tone: dash.car.1/7, charted: FL, heard: none, signal: 9 kHz", job=WITH_TWEETER
    ).wiring
    assert wiring is not None
    outputs = next(each for each in sections(wiring) if each.name == "outputs")
    question = Conversation(next(each for each in outputs.open if each.about.startswith("FL of"))).question
    assert question is not None
    assert question.text.endswith("FL-TW was silent at 9 kHz when toned: listen for it by itself, low.")
    assert [each.value for each in question.choices] == ["FL FL-TW", "FL", "none", "else"]
    right = next(each for each in outputs.open if each.about.startswith("FR of"))
    question = Conversation(right).question
    assert question is not None
    assert ("silent" in question.text, [each.value for each in question.choices]) == (False, ["FR", "none", "else"])


def test_a_woofers_tone_leaves_the_tweeter_and_offers_its_own(tmp_path: Path) -> None:
    end = ask(tmp_path, "0", "3.4", "open", "500 Hz", "FL", "1")
    assert end.fits[0] == "dash 1/7: as charted, FL."
    assert "FL-TW not heard: play 8.5 to 9.5 kHz." in end.lines
    assert not end.loud
    assert end.then == "tones"


def test_the_second_tone_asks_neither_volts_nor_ohms(tmp_path: Path) -> None:
    end = ask(tmp_path, "9 kHz", "FL-TW", records=(LOW,), at_once=True)
    assert end.fields == (
        ("tone", "dash.car.1/7"), ("charted", "FL"), ("heard", "FL-TW"), ("signal", "9 kHz"),
        ("unplugged", ("dash", "radio")), ("key", "out"),
    )  # fmt: skip
    assert end.fits == ("dash 1/7: as charted, FL (heard FL-TW).",)
    assert not end.lines
    assert not end.loud
    assert not end.then


def test_on_another_day_the_volts_come_first_again(tmp_path: Path) -> None:
    """What hangs on the pair may have changed since, so DC is measured before a tone; ohms and + stand."""
    end = ask(tmp_path, "0", "9 kHz", "FL-TW", records=(LOW,))
    assert dict(end.fields)["dc"] == "0 V"
    assert task(tmp_path, LOW, HIGH) is None


def test_a_tweeter_silent_at_its_own_tone(tmp_path: Path) -> None:
    end = ask(tmp_path, "9 kHz", "none", records=(LOW,), at_once=True)
    assert end.loud
    assert end.lines[0].startswith("dash 1/7: DIFFERS. FL-TW silent at 9 kHz, which it must play")
    assert not end.then  # the same tone again would say the same
    end = ask(tmp_path, "0", "3.4", "open", "full range", "else", "FL", "", "1")
    assert end.loud
    assert any("FL-TW silent at full range" in line for line in end.lines)


SILENT = "tone: dash.car.1/7, charted: FL, heard: none, signal: 9 kHz"


def test_a_tweeter_that_kept_silent_is_what_is_asked_for_next(tmp_path: Path) -> None:
    """The woofer was heard; the day after the tweeter is changed, its own tone is the one to play."""
    found = task(tmp_path, LOW, SILENT)
    assert found is not None
    talk = Conversation(found)
    talk.answer("0")
    assert talk.question is not None
    assert (talk.question.text, talk.question.expected) == ("Which tone is on?", "8.5 to 9.5 kHz")


# 500 Hz again stands for the tone by which + was found, so + is looked for with it; 9 kHz says nothing of it
@pytest.mark.parametrize("at_once", [False, True])
def test_plus_is_asked_again_with_the_tone_that_found_it(at_once: bool, tmp_path: Path) -> None:
    first = () if at_once else ("0",)
    end = ask(tmp_path, *first, "500 Hz", "FL", "1", records=(LOW, SILENT), at_once=at_once)
    assert dict(end.fields)["plus"] == "1"
    end = ask(tmp_path, *first, "9 kHz", "FL-TW", records=(LOW, SILENT), at_once=at_once)
    assert "plus" not in dict(end.fields)


def test_silence_where_nothing_must_answer(tmp_path: Path) -> None:
    """The right front pair has a door speaker alone: a tweeter's tone proves nothing of it."""
    wiring = hazel(tmp_path, job=WITH_TWEETER).wiring
    assert wiring is not None
    tones = next(each for each in sections(wiring) if each.name == "tones")
    talk = Conversation(next(each for each in tones.open if each.about.startswith("dash 2 ")))
    for answer in ("0", "3.4", "open", "9 kHz", "none"):
        talk.answer(answer)
    assert talk.outcome is not None
    assert talk.outcome.lines[:2] == (
        "dash 2/8: nothing here must answer 9 kHz, so silence says nothing.", "FR not heard: play 500 Hz.",
    )  # fmt: skip
    assert not talk.outcome.loud
    assert talk.outcome.then == "tones"
    # the tone that it must answer follows at once; nothing was heard before, so the cell is still to come
    wiring = hazel(tmp_path, "tone: dash.car.2/8, charted: FR, heard: none, signal: 9 kHz", job=WITH_TWEETER).wiring
    assert wiring is not None
    tones = next(each for each in sections(wiring) if each.name == "tones")
    found = next(each for each in tones.open if each.about.startswith("dash 2 "))
    assert found.at_once is not None
    talk = Conversation(found._replace(talk=found.at_once))
    for answer in ("500 Hz", "FR", "2"):
        talk.answer(answer)
    assert talk.outcome is not None
    assert dict(talk.outcome.fields)["plus"] == "2"
    assert talk.outcome.fits == ("dash 2/8: as charted, FR.", "+ on 2, as charted.")


def test_a_place_that_is_not_in_the_job(tmp_path: Path) -> None:
    end = ask(tmp_path, "0", "3.4", "open", "full range", "else", "FL", "FL-TW", "elsewhere", "", "1")
    assert end.loud
    assert "and a place that isn't in the job too" in end.lines[0]


def test_at_a_terminal_the_second_tone_follows_at_once(tmp_path: Path) -> None:
    """Volts, ohms, body, 500 Hz, FL, + on 1; then 8.5 to 9.5 kHz, the tweeter; then the next pair, and stopped."""
    hazel(tmp_path, job=WITH_TWEETER)
    (tmp_path / "hazel.evidence.yaml").unlink()
    shown = at_terminal(tmp_path, "tone", "hazel.yaml", "--by", "JM", "--section", "tones",
                        keys="1|3.4\n|1|1|1|1|3|1|.")  # fmt: skip
    assert shown.code == 0, shown.text
    assert shown.text.count("Volts DC between 1 and 7") == 1
    assert shown.text.count("Unplug dash (behind the radio)") == 1
    records = (tmp_path / "hazel.evidence.yaml").read_text().splitlines()
    assert ["heard: FL," in line for line in records] == [True, False]
    assert "heard: FL-TW, signal: 9 kHz" in records[1]
    assert "open: Tone the pairs, 2" in shown.text


# a cell on a bare tweeter burns its coil, and through a capacitor it tells nothing (trade notes; common practice)
@pytest.mark.parametrize(
    ("speakers", "answers", "words"),
    [
        ("nominal: 4 ohm}", ("500 Hz", "FL"), "No cell on this pair: FL-TW is a bare tweeter"),
        ("nominal: 4 ohm, capacitor: 6.8 uF}", ("500 Hz", "FL", "1"), ""),
    ],
)
def test_no_cell_on_a_bare_tweeter(speakers: str, answers: tuple[str, ...], words: str, tmp_path: Path) -> None:
    job = WITH_TWEETER.replace("nominal: 4 ohm, capacitor: 6.8 uF}", speakers)
    wiring = hazel(tmp_path, job=job).wiring
    assert wiring is not None
    tones = next(each for each in sections(wiring) if each.name == "tones")
    talk = Conversation(next(each for each in tones.open if each.about.startswith("dash 1 ")))
    for answer in ("0", "3.4", "open", *answers):
        assert talk.question is not None
        talk.answer(answer)
    assert talk.outcome is not None
    assert ("No cell" in talk.outcome.lines[-1]) == bool(words)
    assert talk.outcome.lines[-1].startswith(words)
