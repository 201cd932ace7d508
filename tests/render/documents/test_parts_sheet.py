"""The check-off on paper: a box for each row, nothing blank, what isn't written said in words."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from render.blocks import Grid, Sheet, Tick

Text = Callable[[str, str], str]
Sheets = Callable[[str], tuple[Sheet, ...]]
SAMPLES = (
    "hatch-plug-in", "hatch-solder-in", "estate-bus-amplifier", "van-odd-but-right", "saloon-fifteen-faults",
)  # fmt: skip


@pytest.mark.parametrize("job", SAMPLES)
def test_each_row_has_its_box_and_no_cell_is_blank(job: str, sheets_of: Sheets) -> None:
    sheet = next(each for each in sheets_of(job) if each.name == "parts")
    grids = [block for block in sheet.blocks if isinstance(block, Grid)]
    assert sheet.shares
    assert [grid.caption for grid in grids] == [
        "Units, looms, speakers", "Cable", "Fuses, grommets, ring terminals, joints",
    ]  # fmt: skip
    for grid in grids:
        assert all(row[0] == Tick("") for row in grid.rows)
        assert all(cell not in ("", ()) for row in grid.rows for cell in row)


def test_a_sample_counted_by_hand(text_of: Text) -> None:
    text = " ".join(text_of("hatch-plug-in", "parts").replace("\N{NO-BREAK SPACE}", " ").split())
    # hatch-plug-in.yaml: 12 in and 15 ft of 4 AWG are 16 ft, 3 + 9 ft and 2 x 18 in of 8 AWG are 15 ft.
    # Cut to whole cm: 12 in before the fuse is 31 cm, 15 ft by 1.2 and 20 cm of slack 5.69 m: 6.00; 3 and 9 ft so are
    # 1.30 and 3.50 m, 18 in to ground 46 cm, twice: 5.72;
    # eight pairs crimped are 16 splices; 100 A in line, 40 A and 50 A where the block's ways begin
    for words in (
        "4 AWG 2 pieces, single 4.88 m (16 ft) 6.00 m (19.7 ft)",
        "4.57 m (15 ft) 5.72 m (18.8 ft)",
        "joint crimped 16 heat shrink: 16",
        "fuse 100 A 1 1 holder in line",
        "fuse 40 A 1 1 in block, fuse block",
        "12 AWG 1 piece, pair",
        "speaker SUB one 10 in box, 2 coils of 2 Ω",
    ):
        assert words in text, words


def test_what_is_not_written_is_said(sheets_of: Sheets) -> None:
    text = str(next(each for each in sheets_of("van-odd-but-right") if each.name == "parts").blocks)
    # van-odd-but-right.yaml: four.rem and bass.rem stand in one step, without a wire between
    assert "length not recorded" in text
    assert "kind of cap not recorded" in text
