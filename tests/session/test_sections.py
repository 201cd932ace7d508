"""Work at the car without a terminal: what is asked, recorded and said of it. By hand from the job's text."""

from __future__ import annotations

from pathlib import Path

import pytest

from harness.session.recording import record_of
from harness.session.sections import sections
from harness.session.talk import Conversation, Outcome, Section
from tests.session.hazel import JOB, hazel


def section(folder: Path, name: str, *records: str) -> Section:
    wiring = hazel(folder, *records).wiring
    assert wiring is not None
    return next(each for each in sections(wiring) if each.name == name)


def ask(folder: Path, name: str, about: str, *answers: str, records: tuple[str, ...] = ()) -> Outcome:
    """The end of one task's questions, answered in order."""
    task = next(each for each in section(folder, name, *records).open if each.about.startswith(about))
    talk = Conversation(task)
    for answer in answers:
        assert talk.question is not None, f"nothing is asked any more before {answer!r}"
        talk.answer(answer)
    assert talk.outcome is not None, talk.question
    return talk.outcome


# counted in the job: two functions, two outputs of the radio that the amplifier takes, three pairs, two outputs of
# ours, three terminals (B+, GND, rem) in four states of the key, one unit, three channels with a speaker,
# fader and balance with two ends each
COUNTED = {
    "before": 2, "response": 2, "tones": 3, "ohms": 2, "volts": 12, "lights": 1, "outputs": 7, "after": 2,
}  # fmt: skip
TONE = "tone: dash.car.1/7, charted: FL, heard: FL, plus: 1, unplugged: [dash, radio]"


def test_all_kinds_in_their_order_with_what_is_open(tmp_path: Path) -> None:
    wiring = hazel(tmp_path).wiring
    assert wiring is not None
    found = sections(wiring)
    assert {each.name: len(each.open) for each in found} == COUNTED
    assert [each.name for each in found] == list(COUNTED)
    assert all(each.done == 0 and each.first and each.cautions for each in found)


# each record takes one task off its own kind and off no other
@pytest.mark.parametrize(
    ("record", "name"),
    [
        ("before: reverse beep, result: silent", "before"), (TONE, "tones"),
        ("response: radio.FR, from: 25 Hz, levels: 0 0 0", "response"), ("ohm: amp.out2, reads: 3.4 ohm", "ohms"),
        ("volts: amp.rem, reads: 11 V, key: run", "volts"), ("seen: amp, shows: steady", "lights"),
        ("plays: radio.RL, heard: RL", "outputs"), ("plays: radio, balanced: left, heard: FL RL", "outputs"),
        ("after: hands-free, result: works", "after"),
    ],
)  # fmt: skip
def test_what_is_recorded_is_not_asked_again(record: str, name: str, tmp_path: Path) -> None:
    wiring = hazel(tmp_path, record).wiring
    assert wiring is not None
    assert {each.name: (len(each.open), each.done) for each in sections(wiring)} == {
        kind: (number - (kind == name), int(kind == name)) for kind, number in COUNTED.items()
    }


# a tone that says otherwise, and a function that failed after the work, stay open
@pytest.mark.parametrize(
    ("record", "name"),
    [
        ("tone: dash.car.1/7, charted: FL, heard: RL, plus: 1", "tones"),
        ("after: hands-free, result: silent", "after"),
        ("plays: radio, faded: rear, heard: RL FL", "outputs"),
    ],
)
def test_what_is_not_right_stays_open(record: str, name: str, tmp_path: Path) -> None:
    found = section(tmp_path, name, record)
    assert (len(found.open), found.done) == (COUNTED[name], 0)


def test_what_was_struck_is_asked_again(tmp_path: Path) -> None:
    """Struck by a record below it, and once more where that one is struck too."""
    strike, back = "struck: 1, was: tone dash.car.1/7", "struck: 2"
    for records, done in (((TONE,), 1), ((TONE, strike), 0), ((TONE, strike, back), 1)):
        found = section(tmp_path, "tones", *records)
        assert (len(found.open), found.done) == (COUNTED["tones"] - done, done), records


def test_what_to_unplug_comes_first(tmp_path: Path) -> None:
    first = " ".join(section(tmp_path, "tones").first)
    assert first.startswith("Key off. Unplug dash (behind the radio) from radio: you tone its car side.")
    assert "Put T1, car end, into dash, car side." in first


AS_CHARTED = ("0", "3.4", "open", "500 Hz", "FL", "1")


def test_a_pair_as_charted(tmp_path: Path) -> None:
    end = ask(tmp_path, "tones", "dash 1 (white, ", *AS_CHARTED)
    assert end.fields == (
        ("tone", "dash.car.1/7"), ("charted", "FL"), ("heard", "FL"), ("dc", "0 V"), ("signal", "500 Hz"),
        ("plus", "1"), ("reads", "3.4 ohm"), ("body", "open"), ("unplugged", ("dash", "radio")), ("key", "out"),
    )  # fmt: skip
    assert not end.loud
    assert end.fits[0] == "dash 1/7: as charted, FL."
    # a coil of 4 ohm reads 0.62 to 1.0 of it: 2.48 to 4.0 (two retailers' guides, seen 2026)
    assert end.fits[-1] == "3.4 ohm, as expected: 2.5 to 4.0 ohm."


# 4.8 is 4 ohm and 0.8 ohm of wire (15 ft of No. 24 each way, 0.77 ohm by the wire table); 2.4 and 4.9 are outside
@pytest.mark.parametrize(("ohms", "fits"), [("2.5", True), ("4.8", True), ("2.4", False), ("4.9", False)])
def test_ohms_against_the_speaker(ohms: str, fits: bool, tmp_path: Path) -> None:
    end = ask(tmp_path, "tones", "dash 1", "0", ohms, *AS_CHARTED[2:])
    assert end.loud != fits
    assert ("NOT as expected" in (*end.fits, *end.lines)[-1]) != fits


def test_volts_on_a_pair_stop_it(tmp_path: Path) -> None:
    """Asked for, recorded, and the pair stays; a meter may show 0.1 V of nothing (common practice, no source)."""
    end = ask(tmp_path, "tones", "dash 1", "live", "11")
    assert end.fields == (
        ("volts", "dash.car.1/7"), ("reads", "11 V"), ("unplugged", ("dash", "radio")), ("key", "out"),
    )  # fmt: skip
    assert end.loud
    assert end.again
    assert end.lines[0].startswith("STOP: 11 V DC on dash 1/7")
    assert ask(tmp_path, "tones", "dash 1", "live", "-0.2", records=()).again
    small = ask(tmp_path, "tones", "dash 1", "live", "0.1", *AS_CHARTED[1:])
    assert not small.again
    assert dict(small.fields)["dc"] == "0.1 V"


def test_a_wire_on_the_body_is_recorded_by_itself(tmp_path: Path) -> None:
    end = ask(tmp_path, "tones", "dash 1", "0", "3.4", "7", "0.5")
    assert end.fields == (
        ("ohm", "dash.car.7"), ("reads", "0.5 ohm"), ("unplugged", ("dash", "radio")), ("key", "out"),
    )  # fmt: skip
    assert end.loud
    assert "STOP: 7 lies on the body with 0.5 ohm" in end.lines[0]


@pytest.mark.parametrize(
    ("answers", "heard", "words"),
    [
        (("500 Hz", "else", "RL", "", "1"), "RL", "dash 1/7: DIFFERS. Charted FL, heard RL."),
        (
            ("500 Hz", "else", "FL", "RL", "", "1"),
            "FL RL",
            "dash 1/7: DIFFERS. Charted FL, and RL too: joined to its wires, or touching.",
        ),
        (("500 Hz", "none"), "none", "dash 1/7: DIFFERS. Charted FL, nothing answered."),
        (("500 Hz", "FL", "7"), "FL", "+ is on 7, charted on 1: DIFFERS."),
        (("500 Hz", "FL", ""), "FL", "Polarity not seen: it stays open."),
    ],
)
def test_what_answered(answers: tuple[str, ...], heard: str, words: str, tmp_path: Path) -> None:
    end = ask(tmp_path, "tones", "dash 1", "0", "3.4", "open", *answers)
    assert dict(end.fields)["heard"] == heard
    assert words in (*end.fits, *end.lines)
    assert end.loud == ("DIFFERS" in words)


def test_measured_and_not_toned(tmp_path: Path) -> None:
    end = ask(tmp_path, "tones", "dash 1", "0", "3.4", "open", "")
    assert dict(end.fields)["ohm"] == "dash.car.1/7"
    assert end.lines[-1] == "Measured, not toned."
    assert dict(end.fields)["dc"] == "0 V"
    assert ask(tmp_path, "tones", "dash 1", "0", "", "open", "").fields[:2] == (
        ("volts", "dash.car.1/7"), ("reads", "0 V"),
    )  # fmt: skip


def test_back_asks_the_last_one_again(tmp_path: Path) -> None:
    talk = Conversation(section(tmp_path, "tones").open[0])
    asked = []
    for answer in AS_CHARTED[:3]:
        assert talk.question is not None
        asked.append(talk.question.text)
        talk.answer(answer)
    for text in reversed(asked):
        assert talk.back()
        assert talk.question is not None
        assert talk.question.text == text
    assert not talk.back()


def test_the_record_says_when_who_what_and_on_which_rows(tmp_path: Path) -> None:
    """The rows as they stand in the job, and the side from which the plug is numbered."""
    wiring = hazel(tmp_path).wiring
    assert wiring is not None
    task = next(each for each in section(tmp_path, "tones").open if each.about.startswith("dash 1"))
    end = ask(tmp_path, "tones", "dash 1", *AS_CHARTED)
    fields = record_of(wiring, end, task.contacts, "2026-03-02 10:00", "RK")
    assert fields[:4] == [
        ("when", "2026-03-02 10:00"), ("by", "RK"), ("tone", "dash.car.1/7"),
        ("fact", ("1 FL+ WH 0.75 mm2", "7 FL- WH/BK 0.75 mm2", "seen from wire")),
    ]  # fmt: skip
    assert fields[-1] == ("car", "Hazel van 2021")


def test_ohms_at_an_output(tmp_path: Path) -> None:
    end = ask(tmp_path, "ohms", "amp out1", "3.4", "open")
    assert end.fields == (
        ("ohm", "amp.out1"), ("reads", "3.4 ohm"), ("body", "open"), ("unplugged", "amp"), ("key", "out"),
    )  # fmt: skip
    assert not end.loud
    touches = ask(tmp_path, "ohms", "amp out1", "3.4", "touches", "0.3")
    assert dict(touches.fields)["body"] == "0.3 ohm"
    assert touches.loud
    assert touches.lines[0].startswith("STOP: a lead of amp.out1 lies on the body with 0.3 ohm")
    assert ask(tmp_path, "ohms", "amp out1", "", "open").fields == ()


# amplifier-on 10 to 12 V with the key in run, below 1 V with the key out (makers' reference values; common practice)
@pytest.mark.parametrize(
    ("key", "volts", "loud"),
    [("run", "11", False), ("run", "9", True), ("out", "0.2", False), ("out", "3", True)],
)
def test_volts_at_a_terminal(key: str, volts: str, loud: bool, tmp_path: Path) -> None:
    end = ask(tmp_path, "volts", f"amp rem, key {'out' if key == 'out' else 'in run'}", volts)
    assert end.fields == (("volts", "amp.rem"), ("reads", f"{volts} V"), ("key", key))
    assert end.loud == loud


def test_a_response_in_thirds(tmp_path: Path) -> None:
    """Highest 0, lowest -1 dB: 0.5 dB either way; the third centre from 25 Hz on is 40 Hz (IEC 61260-1)."""
    end = ask(tmp_path, "response", "radio.FL", "0", "0", "-1", "")
    assert end.fields[:3] == (("response", "radio.FL"), ("from", "25 Hz"), ("levels", "0 0 -1"))
    assert "within 0.5 dB either way from 25 Hz or below to 40 Hz or above" in end.lines[0]
    assert ask(tmp_path, "response", "radio.FL", "0", "0", "").fields == ()


@pytest.mark.parametrize(("shown", "loud"), [("steady", False), ("no light", False), ("blinks", True), ("dark", True)])
def test_a_light(shown: str, loud: bool, tmp_path: Path) -> None:
    end = ask(tmp_path, "lights", "amp", shown)
    assert end.fields == (("seen", "amp"), ("shows", shown), ("key", "run"))
    assert end.loud == loud


@pytest.mark.parametrize(
    ("heard", "follows", "words", "loud"),
    [
        (("FL",), "both", "FL: as planned, FL.", False),
        (("else", "FR", ""), "both", "FL: DIFFERS. Planned FL, heard FR.", True),
        (("none",), None, "FL: DIFFERS. Planned FL, nothing answered.", True),
        (("FL",), "fader", "The level doesn't follow the volume: it is full blast there.", True),
        # the radio has front and rear, so each of its outputs goes with the fader
        (("FL",), "volume", "The level doesn't follow the fader: turn it to both its ends", True),
    ],
)
def test_an_output(heard: tuple[str, ...], follows: str | None, words: str, loud: bool, tmp_path: Path) -> None:
    end = ask(tmp_path, "outputs", "FL of", *heard, *([follows] if follows else []))
    assert end.fields[0] == ("plays", "radio.FL")
    assert any(each.startswith(words) for each in (*end.fits, *end.lines))
    assert end.loud == loud


def test_an_output_of_a_radio_without_a_fader(tmp_path: Path) -> None:
    """Front outputs alone: nothing is asked of a fader, and the volume is all that must be followed."""
    job = JOB
    for old, new in (
        ("outputs: {FL FR RL: btl", "outputs: {FL FR: btl"), ("      3/9: RL GN GN/BK 0.75 mm2\n", ""),
        ("[3, 9, 10]", "[10]"), ("FL FR RL: {place", "FL FR: {place"), ("to: [spk.RL]", "to: [spk.FR]"),
    ):  # fmt: skip
        assert old in job
        job = job.replace(old, new)
    wiring = hazel(tmp_path, job=job).wiring
    assert wiring is not None
    outputs = next(each for each in sections(wiring) if each.name == "outputs")
    talk = Conversation(next(each for each in outputs.open if each.about.startswith("FL of")))
    talk.answer("FL")
    assert talk.question is not None
    assert talk.question.text == "Does the level follow the volume?"
    talk.answer("volume")
    assert talk.outcome is not None
    assert (("follows", "volume") in talk.outcome.fields, talk.outcome.loud) == (True, False)


# of three channels: the two front ones, the left rear one
@pytest.mark.parametrize(
    ("about", "end", "heard", "words", "loud"),
    [
        ("radio: fader full front", ("faded", "front"), ("FL FR",), "Fader full front: as planned, FL and FR.", False),
        ("radio: balance full left", ("balanced", "left"), ("FL RL",), "Balance full left: as planned", False),
        ("radio: fader full rear", ("faded", "rear"), ("else", "RL", "FL", ""),
         "Fader full rear: DIFFERS. Planned RL, heard RL and FL.", True),
        ("radio: balance full right", ("balanced", "right"), ("none",),
         "Balance full right: DIFFERS. Planned FR, nothing answered.", True),
    ],
)  # fmt: skip
def test_fader_and_balance(
    about: str, end: tuple[str, str], heard: tuple[str, ...], words: str, loud: bool, tmp_path: Path
) -> None:
    found = ask(tmp_path, "outputs", about, *heard)
    said = " ".join(word for word in heard if word not in ("else", ""))
    assert found.fields == (("plays", "radio"), end, ("heard", said), ("key", "run"))
    assert (*found.fits, *found.lines)[0].startswith(words)
    assert found.loud == loud


@pytest.mark.parametrize(
    ("before", "result", "words", "loud"),
    [
        ("works", "works", "hands-free: works, as before.", False),
        ("works", "silent", "hands-free worked before and is silent now: DIFFERS", True),
        ("silent", "silent", "hands-free: silent, before: silent.", True),
        ("", "works", "hands-free: works, nobody tried it before.", False),
    ],
)
def test_a_function_after_the_work(before: str, result: str, words: str, loud: bool, tmp_path: Path) -> None:
    records = (f"before: hands-free, result: {before}",) if before else ()
    end = ask(tmp_path, "after", "hands-free", result, records=records)
    assert end.fields == (("after", "hands-free"), ("result", result))
    assert (*end.fits, *end.lines)[0].startswith(words)
    assert end.loud == loud
