"""Whole sessions replayed through a pseudo-terminal from a script of keys."""

from __future__ import annotations

import shutil
from collections import Counter
from pathlib import Path

import pytest
import yaml

from tests.session.terminal import ROOT, session

TONE = ("tone", "hatch-plug-in.yaml", "--by", "JM", "--when", "2026-03-02 09:40")


@pytest.fixture
def bay(tmp_path: Path) -> Path:
    """Sample (a) and its parts, as a shop has them."""
    shutil.copytree(ROOT / "samples" / "parts", tmp_path / "parts")
    shutil.copy(ROOT / "samples" / "hatch-plug-in.yaml", tmp_path)
    return tmp_path


def _records(folder: Path, stem: str = "hatch-plug-in") -> list[dict[str, str]]:
    """The evidence file by a reader of its own: plain PyYAML, everything kept as text."""
    text = (folder / f"{stem}.evidence.yaml").read_text(encoding="utf-8")
    return yaml.load(text, Loader=yaml.BaseLoader)


def _check(folder: Path, job: str, *options: str) -> int:
    import subprocess
    import sys

    command = [sys.executable, "-m", "harness", "check", job, *options]
    return subprocess.run(
        command, cwd=folder, env={"PYTHONPATH": str(ROOT)}, capture_output=True, check=False
    ).returncode


def test_whole_session_stopped_and_resumed(bay: Path) -> None:
    """Stopped in the third pair, begun again: nothing recorded is asked again, and in the end the job is verified.

    Sample (a) has four pairs, one function, four outputs with a response, five terminals in four states of the key,
    two units with a light, five outputs with speakers, four channels, fader and balance with two ends
    each: counted in its file by hand.
    """
    pair = "1|3.4\n|1|1|1|1"  # 0 V, 3.4 ohm, both wires free of the body, as charted, 500 Hz, + as charted
    shown = session(bay, *TONE, keys=f"1|1|3|{pair}|{pair}|1|3.5\n|.")
    assert shown.code == 0, shown.text
    assert "4 recorded." in shown.text
    assert "Stopped in the middle of sound 5" in shown.text  # its volts and ohms are kept
    assert "open: Tone the pairs, 2" in shown.text
    assert Counter(next(iter(set(each) & {"tone", "before", "ohm"})) for each in _records(bay)) == {
        "tone": 2, "before": 1, "ohm": 1
    }  # fmt: skip
    assert _check(bay, "hatch-plug-in.yaml", "--need", "toned") == 1
    # battery 12.5 V, ground 0 V, trigger as the key goes; left out where nothing is known (cranking)
    off = "12.5\n|0\n|12.5\n|0\n|0.1\n"
    on = "12.5\n|0\n|12.5\n|0\n|11\n"
    crank = "10.5\n|0\n|10.5\n|0\n|9.5\n"
    flat = "0\n|0\n|-1\n|\n"
    ohms = "3.4\n|1"
    rest = (
        f"3|{pair}|{pair}|2|{flat}|{flat}|{flat}|{flat}|4|{ohms}|{ohms}|{ohms}|{ohms}|{ohms}"
        f"|5|{off}|{on}|{on}|{crank}|6|1|1|7|1|1|1|1|1|1|1|1|1|1|1|1|8|1"
    )

    shown = session(bay, *TONE, keys=rest)

    assert shown.code == 0, shown.text
    assert "Nothing is open" in shown.text
    kinds = ("tone", "before", "after", "response", "ohm", "volts", "seen", "plays")
    counted = Counter(kind for each in _records(bay) for kind in kinds if kind in each)
    assert counted == {"tone": 4, "before": 1, "after": 1, "response": 4, "ohm": 6, "volts": 20, "seen": 2, "plays": 8}
    tone = next(each for each in _records(bay) if each.get("tone") == "sound.car.5/6")
    assert {key: tone[key] for key in ("by", "when", "charted", "heard", "plus", "reads", "body", "signal", "key")} == {
        "by": "JM", "when": "2026-03-02 09:40", "charted": "FL", "heard": "FL", "plus": "5", "reads": "3.4 ohm",
        "body": "open", "signal": "500 Hz", "key": "out",
    }  # fmt: skip
    assert tone["unplugged"] == ["sound", "radio"]
    assert _check(bay, "hatch-plug-in.yaml", "--need", "verified") == 0


def test_cautions_come_before_the_first_pair(bay: Path) -> None:
    """What to unplug and what never to do stand above the first question."""
    text = session(bay, *TONE, "--section", "tones", keys=".").text
    first = text.index("[1 of 4]")
    for words in (
        "Key off.",
        "Unplug sound",
        "Never tone into a connected amplifier",
        "No test lamp",
        "Measure DC first",
    ):
        assert text.index(words) < first


def test_pairs_in_the_order_that_moves_the_probe_least(bay: Path) -> None:
    """Block B counts 1 to 8 in two rows of four columns, pairs above each other side by side: neighbours follow."""
    pair = "1|3.4\n|1|1|1|1"
    session(bay, *TONE, "--section", "tones", keys=f"{pair}|{pair}|{pair}|{pair}|.")
    toned = [each["tone"] for each in _records(bay)]
    assert toned == [f"sound.car.{at}/{at + 1}" for at in (1, 3, 5, 7)]


def test_back_over_questions_and_pairs(bay: Path) -> None:
    """`-` takes an answer back; before the first question it takes the last pair again, whose new record counts."""
    pair = "1|3.4\n|1|1|1|1"
    keys = f"1|9.9\n|-|-\n|-|1|3.4\n|1|1|1|1|-|{pair}|."
    shown = session(bay, *TONE, "--section", "tones", keys=keys)
    assert "the new record counts" in shown.text
    assert [(each["tone"], each["reads"]) for each in _records(bay)] == [("sound.car.1/2", "3.4 ohm")] * 2


def test_live_pair_and_grounded_wire_stop(bay: Path) -> None:
    """Volts on a pair: nothing is toned. A wire on the body: written as that, and no tone either."""
    shown = session(bay, *TONE, "--section", "tones", keys="2|11\n|2|0.6\n|1|3.4\n|2|0.6\n|.")
    assert shown.code == 1
    assert "STOP: 11 V DC on sound 1/2: something is still connected" in shown.text
    assert shown.text.count("[1 of 4]") == 3  # it stays at that pair until nothing is on it
    assert "lies on the body with 0.6 ohm" in shown.text
    first, again, record = _records(bay)
    assert [(each["volts"], each["reads"], each["key"]) for each in (first, again)] == [
        ("sound.car.1/2", "11 V", "out"), ("sound.car.1/2", "0.6 V", "out"),
    ]  # fmt: skip
    assert (record["ohm"], record["reads"]) == ("sound.car.1", "0.6 ohm")


def test_ctrl_d_and_ctrl_c_keep_what_is_recorded(bay: Path) -> None:
    for end, code in (("\x04", 0), ("\x03", 130)):
        (bay / "hatch-plug-in.evidence.yaml").unlink(missing_ok=True)
        shown = session(bay, *TONE, "--section", "tones", keys=f"1|3.4\n|1|1|1|1|{end}")
        assert shown.code == code
        assert "Traceback" not in shown.text
        assert len(_records(bay)) == 1


MIRRORED = """\
ringout: 1
title: Chart from the other side
car: {name: Bench hatch, year: 2022, steering: left}
plugs:
  dash:
    place: behind the radio
    unit: radio
    face: {rows: 2, columns: 8, view: wire, latch: top, first: top left, count: across}
    source: {chart: bench sheet 9, date: 2026-03-01, by: AK}
    cavities:
      1/2: FL WH WH/BK
      3/4: FR GY GY/BK
      5/6: RL GN GN/BK
      7/8: RR VT VT/BK
      9: B+ YE
      16: GND BK
units:
  radio: {kind: radio, outputs: {FL FR RL RR: btl 8.5 V clean step 31}}
speakers:
  FL FR RL RR: {nominal: 4 ohm}
"""


def test_mirrored_chart_put_right(tmp_path: Path) -> None:
    """By hand: in rows of eight k is 9 − k, so 1/2 answers as the chart's 8/7 does: RR, + on 2; and so on."""
    (tmp_path / "bench.yaml").write_text(MIRRORED)
    # in the order of the probes 1/2, 3/4 …: 0 V, 3.5 ohm, body open, 500 Hz, something else, then which, Enter, and
    # the cone moves in: the other one is +. Speakers in the file's order: 1 FL, 2 FR, 3 RL, 4 RR
    other = [f"1|3.5\n|1|1|3|{speaker}|\n|\n|2" for speaker in (4, 3)]
    as_charted = "1|3.5\n|1|1|1|1"
    keys = f"{'|'.join(other)}|2|{as_charted}|{as_charted}|."

    shown = session(tmp_path, "tone", "bench.yaml", "--by", "JM", "--section", "tones", keys=keys)

    assert "A02" in shown.text
    assert "mirrored" in shown.text
    assert "Changed: " in shown.text, shown.text
    cavities = yaml.load((tmp_path / "bench.yaml").read_text(), Loader=yaml.BaseLoader)["plugs"]["dash"]["cavities"]
    assert {row.split()[0]: cavity for cavity, row in cavities.items()} == {
        "FL": "8/7", "FR": "6/5", "RL": "4/3", "RR": "2/1", "B+": "16", "GND": "9",
    }  # fmt: skip
    shown = session(tmp_path, "tone", "bench.yaml", "--by", "JM", keys=".")
    assert "Tone the pairs: done, 4 recorded" in shown.text
