"""Two bays that recorded on one job, by the commands that a person types."""

from __future__ import annotations

import json
from pathlib import Path

import pytest


def test_two_bays_by_command(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, ringout) -> None:
    monkeypatch.chdir(tmp_path)
    Path("hazel.yaml").write_text("ringout: 1\ntitle: T\nspeakers: {FL: {nominal: 4 ohm}}\n", encoding="utf-8")
    assert ringout("bundle", "hazel.yaml", "-o", "first.zip").code == 0
    assert ringout("take", "first.zip", "other").code == 0
    for job, by in (("hazel.yaml", "RK"), ("other/hazel.yaml", "JM")):
        said = ["handover: paused", "done: front", "left: rear", "parts: none", "odd: nothing"]
        assert ringout("record", job, "--by", by, *said).code == 0
    assert ringout("bundle", "other/hazel.yaml", "-o", "second.zip").code == 0
    refused = ringout("take", "second.zip", ".")
    assert refused.code == 2
    assert "--join puts the 1 record that only the bundle has" in refused.err
    assert "would be lost" not in refused.err
    told = json.loads(ringout("take", "second.zip", ".", "--join", "--json").out)
    assert told["joined"]["added"] == [2]
    lines = Path("hazel.evidence.yaml").read_text(encoding="utf-8").splitlines()
    assert ["by: RK" in lines[0], "by: JM" in lines[1]] == [True, True]
    assert "all records of the bundle were here already" in ringout("take", "second.zip", ".", "--join").out
    assert ringout("take", "second.zip", ".", "--join", "--replace").code == 2
