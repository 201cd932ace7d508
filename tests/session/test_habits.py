"""Habits of hands at the car: Enter after a key, a unit behind a number, back to an earlier day; and power on a plan
with a STOP. Expected values by hand from the keys pressed and from the samples.
"""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
import yaml

from harness.session.sections import sections
from harness.session.talk import Conversation, Outcome
from tests.session.hazel import hazel
from tests.session.terminal import ROOT, session

TONES = ("tone", "hatch-plug-in.yaml", "--by", "JM", "--when", "2026-03-02 09:40", "--section", "tones")
PAIR = "1|3.4\n|1|1|1|1"


@pytest.fixture
def bay(tmp_path: Path) -> Path:
    shutil.copytree(ROOT / "samples" / "parts", tmp_path / "parts")
    for name in ("hatch-plug-in", "hatch-solder-in", "saloon-fifteen-faults"):
        shutil.copy(ROOT / "samples" / f"{name}.yaml", tmp_path)
    return tmp_path


def _records(folder: Path) -> list[dict[str, str]]:
    text = (folder / "hatch-plug-in.evidence.yaml").read_text(encoding="utf-8")
    return yaml.load(text, Loader=yaml.BaseLoader)


def test_enter_after_every_key_answers_nothing(bay: Path) -> None:
    """0 V, 3.4 ohm, body open, as charted, 500 Hz, + on 1, each key followed by Enter: not one question is lost."""
    shown = session(bay, *TONES, keys="1\n|3.4\n|1\n|1\n|1\n|1\n|.")
    (record,) = _records(bay)
    assert {key: record.get(key) for key in ("reads", "body", "heard", "signal", "plus")} == {
        "reads": "3.4 ohm", "body": "open", "heard": "RR", "signal": "500 Hz", "plus": "1",
    }  # fmt: skip
    assert "a key needs no Enter" in shown.text


def test_enter_twice_leaves_out(bay: Path) -> None:
    """The first Enter belongs to the key before it, the second one leaves the ohms out."""
    session(bay, *TONES, keys="1|\n|\n|1|1|1|1|.")
    (record,) = _records(bay)
    assert "reads" not in record
    assert record["heard"] == "RR"


# what a hand types for 3.4 ohm, and for 4.7 kilohms in ohms: by the prefix
@pytest.mark.parametrize(
    ("typed", "reads"),
    [("3,4Ω", "3.4 ohm"), ("3.4 \N{OHM SIGN}", "3.4 ohm"), ("3.", "3 ohm"), (".5 ohms", "0.5 ohm"),
     ("4.7 kohm", "4700 ohm")],
)  # fmt: skip
def test_a_number_takes_its_unit(typed: str, reads: str, bay: Path) -> None:
    session(bay, *TONES, keys=f"1|{typed}\n|1|1|1|1|.")
    assert _records(bay)[0]["reads"] == reads


def test_another_unit_is_no_answer(bay: Path) -> None:
    """Volts where ohms are asked are asked again, not taken as ohms."""
    shown = session(bay, *TONES, keys="1|3.4 V\n|3.6\n|1|1|1|1|.")
    assert "3.4 V is no answer here" in shown.text
    assert ". alone stops" in shown.text
    assert _records(bay)[0]["reads"] == "3.6 ohm"


def test_back_into_an_earlier_sitting(bay: Path) -> None:
    """Two pairs on Monday; on Tuesday - before the third goes to the second, and its new record stands beside it."""
    session(bay, *TONES, keys=f"{PAIR}|{PAIR}|.")
    shown = session(bay, *TONES, keys="-|1|3.9\n|1|1|1|1|.")
    assert "2 recorded before; - goes back to them" in shown.text
    assert "[2 of 4] sound 3" in shown.text
    assert [(each["tone"], each["reads"]) for each in _records(bay)] == [
        ("sound.car.1/2", "3.4 ohm"), ("sound.car.3/4", "3.4 ohm"), ("sound.car.3/4", "3.9 ohm"),
    ]  # fmt: skip


def test_a_kind_that_is_done_can_be_done_again(bay: Path) -> None:
    session(bay, *TONES, keys=f"{PAIR}|{PAIR}|{PAIR}|{PAIR}|.")
    shown = session(bay, *TONES, keys="1|3.8\n|1|1|1|1|.")
    assert "The last one again" in shown.text
    assert [each["tone"] for each in _records(bay)][-1] == "sound.car.7/8"


def test_a_stop_of_the_plan_is_said_before_power(bay: Path) -> None:
    """H01 of the sample: a live lead left open. Nothing is read before somebody answers to it."""
    job = "saloon-fifteen-faults.yaml"
    shown = session(bay, "tone", job, "--by", "JM", "--section", "volts", keys="3|1|.\n").text
    assert shown.index("STOP Live lead left open (H01)") < shown.index("Go on?") < shown.index("Everything joined")
    assert "Do now: Cap it" in shown
    assert shown.index("Go on?") < shown.index("Volts at ")
    stopped = session(bay, "tone", job, "--by", "JM", "--section", "outputs", keys=".").text
    assert "Play only" not in stopped
    assert "Go on?" not in session(bay, "tone", job, "--by", "JM", "--section", "tones", keys=".").text


def test_after_the_chart_is_put_right_the_plan_is_proved_again(bay: Path) -> None:
    """5/6 answers RL, 7/8 FL: the rows change places, in a part file that hatch-solder-in has too, and T1's pins no
    longer fit. By the two files' `parts:` and the loom's pins.
    """
    # something else; of FL FR RL RR SUB and another place the third or first; no more is the sixth of the list then
    keys = f"{PAIR}|{PAIR}|1|3.4\n|1|1|3|3|6|1|1|3.4\n|1|1|3|1|6|1|2|."
    shown = session(bay, *TONES, keys=keys).text
    after = shown[shown.index("Changed: parts/alder-hatch.yaml") :]
    assert "these jobs use it too and have the new chart now: hatch-solder-in.yaml." in after
    assert "STOP Housing fits, pinning differs (H07): T1 fits sound" in after
    assert "Do now: Do not plug it in" in after
    assert shown.count("join nothing by this row") == 2


def _asked(folder: Path, about: str, answer: str) -> Outcome:
    wiring = hazel(folder).wiring
    assert wiring is not None
    volts = next(each for each in sections(wiring) if each.name == "volts")
    talk = Conversation(next(each for each in volts.open if each.about.startswith(about)))
    talk.answer(answer)
    assert talk.outcome is not None
    return talk.outcome


@pytest.mark.parametrize("volts", ["12.6", "1", "-12.6"])
def test_a_live_ground_says_stop(volts: str, tmp_path: Path) -> None:
    """A ground shows 0 V; 1 V and more on it is a wire that isn't grounded. Recorded, and said what to do."""
    outcome = _asked(tmp_path, "amp GND, key out", volts)
    assert ("reads", f"{volts} V") in outcome.fields
    assert outcome.loud
    assert outcome.lines[0].startswith("STOP: amp GND is a ground")
    assert outcome.lines[1].startswith("Do now: key off, fuses out")


@pytest.mark.parametrize(("about", "volts"), [("amp GND, key out", "0.4"), ("amp B+, key out", "12.6")])
def test_no_stop_without_danger(about: str, volts: str, tmp_path: Path) -> None:
    assert not any("STOP" in line for line in _asked(tmp_path, about, volts).lines)


def test_a_feed_the_wrong_way_round_says_stop(tmp_path: Path) -> None:
    assert "the wrong way round" in _asked(tmp_path, "amp B+, key out", "-12.6").lines[0]


@pytest.mark.parametrize(
    ("record", "warned"),
    [
        ("tone: dash.car.1/7, charted: FL, heard: FL, plus: 1, unplugged: [dash, radio]", True),
        ("tone: dash.car.1/7, charted: FL, heard: FL, plus: 1, unplugged: dash, car: Larch 1999", False),
        ("volts: amp.rem, reads: 11 V, key: run", False),
    ],
)
def test_before_warns_when_plugs_were_open_already(record: str, warned: bool, tmp_path: Path) -> None:
    """Only a record of this car that says a plug was out."""
    wiring = hazel(tmp_path, record).wiring
    assert wiring is not None
    before = next(each for each in sections(wiring) if each.name == "before")
    assert any("dash (2026-03-02 09:10)" in line for line in before.cautions) is warned
