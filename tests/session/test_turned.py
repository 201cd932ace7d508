"""A + on the other wire: the speaker in this car, or the chart. By hand from the keys pressed and the job's text."""

from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path

import pytest
import yaml

from tests.session.hazel import JOB
from tests.session.terminal import ROOT, session

TONES = ("tone", "hazel.yaml", "--by", "JM", "--when", "2026-03-02 09:40", "--section", "tones")
MENU = TONES[:-2]
# 0 V, 3.4 ohm, both free of the body, as charted, 500 Hz; the cone moves out, or in
STRAIGHT, REVERSED = "1|3.4\n|1|1|1|1", "1|3.4\n|1|1|1|2"


@pytest.fixture
def van(tmp_path: Path) -> Path:
    (tmp_path / "hazel.yaml").write_text(JOB, encoding="utf-8")
    return tmp_path


def records(folder: Path, stem: str = "hazel") -> list[dict[str, str]]:
    return yaml.load((folder / f"{stem}.evidence.yaml").read_text(encoding="utf-8"), Loader=yaml.BaseLoader)


def check(folder: Path, job: str = "hazel.yaml") -> str:
    command = [sys.executable, "-m", "harness", "check", job]
    return subprocess.run(
        command, cwd=folder, env={"PYTHONPATH": str(ROOT)}, capture_output=True, check=False, text=True
    ).stdout


def test_turned_in_this_car_all_the_way_to_the_swap(van: Path) -> None:
    """The first key records the car's fact; the chart stays; the swap told is at the joint next to the speaker, and
    with it the speaker is in phase: two reversals, told as such.
    """
    shown = session(van, *TONES, keys=f"{REVERSED}|1|{STRAIGHT}|{STRAIGHT}|.").text
    assert "1  the speaker, in this car only" in shown
    assert "Put the chart right" not in shown
    assert "Exchange + and − at joint J3, T1.car.FL: amp.out1" in shown
    turned = records(van)[1]
    assert (turned["polarity"], turned["found"]) == ("spk.FL", "turned")
    assert (van / "hazel.yaml").read_text(encoding="utf-8") == JOB
    assert "FIX B01" in check(van)
    (van / "hazel.yaml").write_text(JOB.replace("T1.car.FL: amp.out1", "T1.car.FL: amp.out1 reversed"))
    after = check(van)
    assert "FIX" not in after
    assert "NOTE B02" in after
    assert "Of 2 pairs used: 0 only charted, 0 measured, 2 toned." in after


def test_later_is_taken_for_good_and_stands_in_the_menu(van: Path) -> None:
    shown = session(van, *TONES, keys=f"{REVERSED}|2|{STRAIGHT}|{STRAIGHT}|.").text
    assert shown.count("what is turned?") == 1
    again = session(van, *MENU, keys="4|1|.").text  # before, response, tones, and then what is turned
    assert again.index("4  Say which is turned, speaker or chart: 1 open") < again.index("what is turned?")
    assert records(van)[-1]["found"] == "turned"


def test_the_radio_says_that_the_chart_is_right(van: Path) -> None:
    """Its + on 1 as charted, the cone's on 7: nothing of the chart is offered, the speaker's record is."""
    shown = session(van, *TONES, keys=f"{REVERSED}|3|1|1|.").text
    assert "Put the chart right" not in shown
    assert [(each.get("polarity"), each.get("plus"), each.get("found")) for each in records(van)[1:]] == [
        ("dash.unit.1/7", "1", None), ("spk.FL", None, "turned"),
    ]  # fmt: skip


@pytest.fixture
def bay(tmp_path: Path) -> Path:
    """Sample (a), whose chart stands in a part file that hatch-solder-in has too."""
    shutil.copytree(ROOT / "samples" / "parts", tmp_path / "parts")
    for name in ("hatch-plug-in", "hatch-solder-in"):
        shutil.copy(ROOT / "samples" / f"{name}.yaml", tmp_path)
    return tmp_path


def test_a_chart_is_offered_after_the_radio_was_read_and_never_by_the_first_key(bay: Path) -> None:
    """FL (5/6) is the third of the pairs 1/2, 3/4, 5/6, 7/8. The first key leaves the chart, for good."""
    chart = (bay / "parts" / "alder-hatch.yaml").read_bytes()
    arguments = ("tone", "hatch-plug-in.yaml", "--by", "JM", "--when", "2026-03-02 09:40", "--section", "tones")
    keys = f"{STRAIGHT}|{STRAIGHT}|{REVERSED}|3|2|1|{STRAIGHT}|."
    shown = session(bay, *arguments, keys=keys).text
    asked = shown.index("Put the chart right in the file?")
    assert shown.index("what is turned?") < asked
    assert shown.index("these jobs beside this one use it too: hatch-solder-in.yaml") < asked
    assert "FL WH WH/BK" in shown[:asked]  # the line as it is and as it becomes
    assert shown.count("Put the chart right in the file?") == 1
    assert (bay / "parts" / "alder-hatch.yaml").read_bytes() == chart
    again = session(bay, *arguments[:-2], keys=".").text
    assert "Put the chart of sound right (A24): not done" in again


def test_written_as_turned_and_it_is_not(van: Path) -> None:
    """`reversed` under found, and the cone moves out with + on the charted +: asked, and recorded as exchanged back."""
    (van / "hazel.yaml").write_text(JOB.replace("joints:\n", "found:\n  - dash.FL > spk.FL reversed\njoints:\n", 1))
    shown = session(van, *TONES, keys=f"{STRAIGHT}|2|.").text
    assert "(expected: in: 7 is +)" in shown
    assert "+ is on 1, awaited, as the speaker is turned, on 7: DIFFERS." in shown
    assert "is written as turned" in shown


def test_turned_under_found_is_no_fault_of_the_chart(van: Path) -> None:
    text = JOB.replace("joints:\n", "found:\n  - dash.FL > spk.FL reversed\njoints:\n", 1)
    text = text.replace("  FL FR RL: {place: doors, nominal: 4 ohm}", "  FR RL: {place: doors, nominal: 4 ohm}\n"
                        "  FL: {place: doors, nominal: 4 ohm, inverted: factory}")  # fmt: skip
    (van / "hazel.yaml").write_text(text)
    shown = session(van, *TONES, keys=f"{REVERSED}|{STRAIGHT}|{STRAIGHT}|.").text
    assert "DIFFERS" not in shown
    assert "ok + on 7, as it must be: the speaker is turned." in shown
    told = check(van)
    assert "FIX" not in told
    assert "2 toned." in told


def test_inverted_by_the_factory_without_a_turn_offers_no_joint(van: Path) -> None:
    """A joint turned for it would put the speaker in phase and be told as wanted out of phase."""
    text = JOB.replace("  FL FR RL: {place: doors, nominal: 4 ohm}", "  FR RL: {place: doors, nominal: 4 ohm}\n"
                       "  FL: {place: doors, nominal: 4 ohm, inverted: factory}")  # fmt: skip
    (van / "hazel.yaml").write_text(text)
    told = check(van)
    assert "FIX B01" in told
    assert "write that under `found:` (… > spk.FL reversed)" in told
    assert "Mend:" not in told
