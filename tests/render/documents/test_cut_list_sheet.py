"""The cut list on paper: rounded upwards, what isn't written said, a box and room for each piece."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from render.blocks import Grid, Room, Sheet, Tick

Text = Callable[[str, str], str]
Sheets = Callable[[str], tuple[Sheet, ...]]


def test_a_sample_by_hand(text_of: Text) -> None:
    text = " ".join(text_of("hatch-plug-in", "cut-list").replace("\N{NO-BREAK SPACE}", " ").split())
    # hatch-plug-in.yaml. 15 ft = 4.572 m, by 1.2 5.486, + 0.2 = 5.686: 5.69 m; 223.87 in: 224 in = 18 ft 8 in.
    # 12 in before the fuse and 18 in on ground as measured: 30.48 cm and 45.72 cm, upwards 31 and 46.
    for words in (
        "RUN 1 battery + 4 AWG 30.5 cm 0 cm none: 31 cm 1 ft",
        "RUN 1 its fuse, 100 A 4 AWG 4.57 m 91.4 cm 20 cm 5.69 m",
        "RUN 4 dsp GND 8 AWG 45.7 cm 0 cm none: 46 cm 1 ft",
        "signal cable",
    ):
        assert words in text, words
    assert "8 in" in text


@pytest.mark.parametrize("job", ["hatch-plug-in", "estate-bus-amplifier", "van-odd-but-right"])
def test_each_row_has_its_box_and_room(job: str, sheets_of: Sheets) -> None:
    sheet = next(each for each in sheets_of(job) if each.name == "cut-list")
    cut = next(block for block in sheet.blocks if isinstance(block, Grid) and block.caption == "To cut")
    assert all(row[0] == Tick("") and isinstance(row[-1], Room) for row in cut.rows)
    assert all(cell not in ("", ()) for row in cut.rows for cell in row)
    assert sheet.bases == ("cable allowance", "slack")


def test_what_is_not_written_is_said(sheets_of: Sheets) -> None:
    text = str(next(each for each in sheets_of("van-odd-but-right") if each.name == "cut-list").blocks)
    # van-odd-but-right.yaml: four.rem and bass.rem stand in one step, without a wire between
    assert "length not recorded" in text
