"""`ringout check --steps`: its words, its JSON, its exit codes."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.cli.conftest import Answer

Run = Callable[..., Answer]
HERE = Path(__file__).resolve().parents[1] / "checks"


def test_json_has_every_step_with_its_state(ringout: Run) -> None:
    """The fixture's own twelve steps; the plug apart from its second on, the battery on from the eighth."""
    code, out, _ = ringout("check", str(HERE / "J15" / "bad_plain.yaml"), "--steps", "--json")
    report = json.loads(out)
    assert code == 1
    assert [step["number"] for step in report["steps"]] == list(range(1, 13))
    assert [step["after"]["battery"] for step in report["steps"]] == [
        "off", "off", "off", "off", "off", "off", "off", "on", "off", "off", "off", "on",
    ]  # fmt: skip
    assert report["steps"][1]["after"]["plugs"] == ["dash apart"]
    assert report["steps"][7]["findings"] == ["J15"]
    assert report["steps"][3]["joints"] == ["J1", "J2", "J3"]
    assert "steps" not in json.loads(ringout("check", str(HERE / "J15" / "bad_plain.yaml"), "--json").out)


@pytest.mark.parametrize(("job", "code"), [("J13/bad_plain", 1), ("J13/good_battery_off_first", 0)])
def test_exit_code(ringout: Run, job: str, code: int) -> None:
    assert ringout("check", str(HERE / f"{job}.yaml"), "--steps").code == code
    assert ringout("check", str(HERE / f"{job}.yaml")).code == 0


def test_words(ringout: Run) -> None:
    out = ringout("check", str(HERE / "J18" / "bad_plain.yaml"), "--steps").out
    assert "The order of work:" in out
    assert "then: battery off; T1 in dash" in out
    assert "the order of work" not in out.split("Not checked:", 1)[-1]
    assert "Not checked: the order of work" in ringout("check", str(HERE / "J18" / "bad_plain.yaml")).out
