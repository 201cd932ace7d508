"""`ringout check` on whole files: exit codes, JSON, refusals."""

from __future__ import annotations

import json
from pathlib import Path

import jsonschema
import pytest

from harness.assets import folder
from tests.cli.test_report_json import SHAPE

SAMPLE = str(folder("samples") / "hatch-plug-in.yaml")

# A radio whose front left output and an amplifier's output meet on one wire that nobody opened.
FIGHT = """\
ringout: 1
title: Two outputs on one wire
revision: A
car: {name: Rowan saloon, year: 2020, steering: left, audio: base, lacks: [SUB, C]}
plugs:
  dash:
    place: behind the radio
    unit: radio
    face: {rows: 2, columns: 2, view: wire, latch: top, first: top left, count: across}
    cavities:
      1/3: FL BN BN/WH 0.75 mm2
      2/4: FR VT VT/WH 0.75 mm2
units:
  radio: {kind: radio, outputs: {FL FR: btl 8 V}}
  amp:
    kind: amplifier
    inputs: {in1: 2..20 V differential}
    outputs: {out1: 50 W @ 4 ohm least 2 ohm}
    routes: {out1: in1}
    wakes: signal
speakers:
  FL FR: {nominal: 4 ohm}
joints:
  solder with heat shrink:
    dash.car.FL: amp.out1
    dash.unit.FR: amp.in1
"""


@pytest.fixture
def fight(tmp_path: Path) -> str:
    (tmp_path / "fight.yaml").write_text(FIGHT, encoding="utf-8")
    return "fight.yaml"


def test_stop_is_exit_1(ringout, fight: str) -> None:
    """The verdict comes first, then the finding with the user's own line and a caret under it."""
    answer = ringout("check", fight)
    shown = answer.out.splitlines()

    assert answer.code == 1
    assert shown[0].startswith("STOP: ")
    at = next(number for number, line in enumerate(shown) if line.startswith("STOP C01 "))
    assert shown[at + 1].startswith("  fight.yaml:")
    assert shown[at + 2].strip() in FIGHT
    assert shown[at + 3].strip() == "^"
    assert any(line.startswith("  Do now: ") for line in shown[at:])
    assert answer.err == ""


def test_json(ringout, fight: str) -> None:
    """The shape promised, the worst first, each place in the file that was given."""
    answer = ringout("check", fight, "--json")
    whole = json.loads(answer.out)

    jsonschema.validate(whole, SHAPE)
    assert answer.code == 1
    assert whole["verdict"] == "stop"
    order = ["STOP", "FIX", "ASK", "NOTE"]
    ranks = [order.index(found["severity"]) for found in whole["findings"]]
    assert ranks == sorted(ranks)
    assert {place["file"] for found in whole["findings"] for place in found["places"]} == {"fight.yaml"}
    lines = FIGHT.splitlines()
    for found in whole["findings"]:
        for place in found["places"]:
            assert 1 <= place["column"] <= len(lines[place["line"] - 1])


def test_same_bytes_twice(ringout, fight: str) -> None:
    for arguments in (["check", fight], ["check", fight, "--json"]):
        assert ringout(*arguments) == ringout(*arguments)


def test_sample(ringout) -> None:
    """The first sample is untoned, so it is never called verified, and --need toned is not met."""
    plain = ringout("check", SAMPLE)
    needy = ringout("check", SAMPLE, "--need", "toned", "--json")
    whole = json.loads(needy.out)

    assert plain.code == (1 if whole["verdict"] in ("stop", "mend") else 0)
    assert whole["verdict"] != "verified"
    lacking = whole["counts"]["charted"] + whole["counts"]["measured"]
    assert lacking > 0
    assert needy.code == 1
    assert whole["need"]["met"] is False
    assert str(lacking) in whole["need"]["why"]


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("bracket.yaml", "ringout: 1\ncar: {name: Elm\n"),
        ("tab.yaml", "ringout: 1\n\ttitle: x\n"),
        ("empty.yaml", ""),
        ("list.yaml", "- 1\n- 2\n"),
        ("twice.yaml", "ringout: 1\ntitle: a\ntitle: b\n"),
        ("key.yaml", "ringout: 1\ntitle: a\nspeekers: {FL: {nominal: 4 ohm}}\n"),
        ("binary.yaml", "\x00\x01\x02"),
    ],
)
def test_unreadable_is_exit_2(name: str, text: str, ringout, tmp_path: Path) -> None:
    """Every unreadable file has its finding with a place, in words and in JSON, and no traceback."""
    (tmp_path / name).write_text(text, encoding="utf-8")
    plain = ringout("check", name)
    machine = ringout("check", name, "--json")
    whole = json.loads(machine.out)

    assert (plain.code, machine.code) == (2, 2)
    assert plain.out.startswith("UNREADABLE: ")
    assert "a fault of ringout" not in plain.err
    assert whole["verdict"] == "unreadable"
    assert whole["findings"]
    assert all(found["code"].startswith("R") for found in whole["findings"])
    jsonschema.validate(whole, SHAPE)


def test_bytes_that_are_no_text(ringout, tmp_path: Path) -> None:
    """A photo by mistake."""
    (tmp_path / "photo.yaml").write_bytes(bytes(range(128, 256)))
    answer = ringout("check", "photo.yaml")

    assert answer.code == 2
    assert "a fault of ringout" not in answer.err


@pytest.mark.parametrize("name", ["missing.yaml", "no/such/folder.yaml"])
def test_missing_file_is_exit_2(name: str, ringout) -> None:
    answer = ringout("check", name)

    assert answer.code == 2
    assert name in answer.out + answer.err
    assert "a fault of ringout" not in answer.err
