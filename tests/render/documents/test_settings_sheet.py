"""The settings on paper: a box and room for each row, what isn't written in words."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from harness.prove import prove
from render.blocks import Grid, Para, Room, Sheet, Strong, Tick
from render.documents import documents, packet
from tests.planning.test_settings_list import JOB

Text = Callable[[str, str], str]
Sheets = Callable[[str], tuple[Sheet, ...]]
SAMPLES = (
    "hatch-plug-in", "hatch-solder-in", "estate-bus-amplifier", "van-odd-but-right", "saloon-fifteen-faults",
)  # fmt: skip


@pytest.mark.parametrize("job", SAMPLES)
def test_each_row_has_its_box_and_its_room(job: str, sheets_of: Sheets) -> None:
    sheet = next(each for each in sheets_of(job) if each.name == "settings")
    (grid,) = [block for block in sheet.blocks if isinstance(block, Grid)]
    assert sheet.shares
    for row in grid.rows:
        assert row[0] == Tick("")
        assert isinstance(row[-1], Room)
        assert all(cell not in ("", ()) for cell in row)


def test_a_sample_read_by_hand(text_of: Text) -> None:
    text = " ".join(text_of("hatch-plug-in", "settings").split())
    # hatch-plug-in.yaml: settings alder-2.set, wakes: signal, 80 Hz up on out1 to out4, ..80 Hz and -3 dB on rca1
    for words in ("alder-2.set", "signal sense on not recorded", "of rca1 80 Hz", "−3 dB"):
        assert words in text, words


def test_a_contradiction_is_said_where_it_stands(tmp_path: Path) -> None:
    text = JOB.format(amp="    set: {signal sense: unused, gain out1..2: -6 dB}", bass="")
    (tmp_path / "job.yaml").write_text("ringout: 1\ntitle: Set\npreset: house" + text, encoding="utf-8")
    proof = prove(tmp_path / "job.yaml", mends=False)
    kind = next(each for each in documents() if each.name == "settings")
    (sheet,) = kind.sheets(proof)
    (grid,) = [block for block in sheet.blocks if isinstance(block, Grid)]
    rows = {(row[1], row[2]): row[3:5] for row in grid.rows}
    # off the job: amp wakes by its signal; its gain is as routed
    assert rows[Strong("amp"), Strong("signal sense")] == ("on", (Strong("off"), "NOT AS RELIED ON"))
    assert rows[Strong("amp"), Strong("gain", "of out1, out2")] == ("\N{MINUS SIGN}6\xa0dB", "\N{MINUS SIGN}6\xa0dB")
    packet(proof, tmp_path / "out", ["settings"])
    assert "NOT AS" in (tmp_path / "out" / "packet.txt").read_text(encoding="utf-8")


def test_a_unit_of_which_nothing_is_written_is_named(tmp_path: Path) -> None:
    job = "ringout: 1\ntitle: Bare\npreset: house\nunits:\n  amp: {kind: amplifier, outputs: {out1: 50 W @ 4 ohm}}\n"
    (tmp_path / "job.yaml").write_text(job, encoding="utf-8")
    kind = next(each for each in documents() if each.name == "settings")
    (sheet,) = kind.sheets(prove(tmp_path / "job.yaml", mends=False))
    said = [block.text for block in sheet.blocks if isinstance(block, Para)][-1]
    assert said.startswith("amp: nothing is written")
    assert "not recorded" in said
