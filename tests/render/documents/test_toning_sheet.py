"""The toning checklist and the tests at the car, as printed."""

from __future__ import annotations

import re
from collections.abc import Callable

from render.blocks import Caution, Grid, Heading, Keep, Sheet, Strong

Text = Callable[[str, str], str]
Sheets = Callable[[str], tuple[Sheet, ...]]


def _grids(sheet: Sheet) -> list[Grid]:
    blocks = [inner for block in sheet.blocks for inner in (block.blocks if isinstance(block, Keep) else (block,))]
    return [block for block in blocks if isinstance(block, Grid)]


def _rows(sheet: Sheet) -> dict[str, str]:
    """Pair -> all words of its row, from grids whose first column is the pair."""
    made = {}
    for grid in _grids(sheet):
        if grid.columns[0].title != "Pair":
            continue
        for row in grid.rows:
            pieces = [piece for cell in row for piece in (cell if isinstance(cell, tuple) else (cell,))]
            words = [piece.text if isinstance(piece, Strong) else str(piece) for piece in pieces]
            made[words[0]] = " | ".join(words).replace("\N{NO-BREAK SPACE}", " ")
    return made


def _sheet(sheets: tuple[Sheet, ...], name: str) -> Sheet:
    return next(sheet for sheet in sheets if sheet.name == name)


def test_each_pair_says_where_to_clip_and_what_to_expect(sheets_of: Sheets) -> None:
    rows = _rows(_sheet(sheets_of("larch"), "toning"))

    assert sorted(rows) == ["FL", "FR", "RL", "RR"]
    for words in (
        "+ T1.car.1",
        "− T1.car.11",
        "2.5 to 4.0 Ω",
        "FL-TW: capacitor in line",
        "FL, FL-TW",
        "and nothing else",
    ):
        assert words in rows["FL"], words
    assert "2.5 to 4.0 Ω" in rows["RL"]
    assert "+ T1.car.13" in rows["RL"]
    assert "− T1.car.3" in rows["RL"]


def test_expectations_of_an_odd_job(sheets_of: Sheets) -> None:
    rows = _rows(_sheet(sheets_of("fir"), "toning"))

    assert "1.9 to 3.0 Ω" in rows["FL"]  # 4 beside 4 + 8: 3 ohm; 0.62 x 3 = 1.86
    assert "FL-TW and FL-MID stand in line" in rows["FL"]
    assert "cell + on +: cone OUT" in rows["FL"]
    assert "FL-TW: pulse or marks" in rows["FL"]  # never a cell on a tweeter
    assert "nominal of RL not recorded" in rows["RL"]
    assert "write" in rows["RL"]
    assert "open to DC" in rows["RR"]
    assert "use a tone" in rows["RR"]


def test_silent_only_what_the_job_declares(sheets_of: Sheets) -> None:
    silent = {
        job: [pair for pair, words in _rows(_sheet(sheets_of(job), "toning")).items() if "SILENT" in words]
        for job in ("larch", "fir", "hatch-plug-in", "van-odd-but-right")
    }

    assert silent == {"larch": [], "fir": ["C", "RR-TW"], "hatch-plug-in": [], "van-odd-but-right": []}


def test_pairs_that_end_in_a_unit_are_not_to_be_toned(sheets_of: Sheets) -> None:
    sheet = _sheet(sheets_of("estate-bus-amplifier"), "toning")
    titles = [block.text for block in sheet.blocks if isinstance(block, Heading) and "NOT" in block.text]
    left = [grid for grid in _grids(sheet) if grid.columns[0].title == "Plug"]

    assert titles == ["DO NOT TONE: a unit is at the other end"]
    assert sorted(f"{row[0].text} {row[1].text}" for row in left[0].rows) == [  # type: ignore[union-attr]
        "dash FL", "dash FR", "dash RL", "dash RR", "seat in1", "seat in2", "seat in3", "seat in4",
    ]  # fmt: skip
    assert sorted(_rows(sheet)) == ["FL", "FL-TW", "FR", "FR-TW", "RL", "RR", "SUB"]


def test_what_the_car_lacks_is_named_once_above(text_of: Text) -> None:
    # the job also lacks ACC, which is no speaker
    assert "Declared: the car has no SUB: must stay silent." in text_of("larch", "toning")


def test_cautions_come_first(sheets_of: Sheets) -> None:
    first = _sheet(sheets_of("larch"), "toning").blocks[0]

    assert isinstance(first, Caution)
    for words in ("connected amplifier", "No test lamp", "restraint", "Measure DC first"):
        assert words in first.text


def test_output_turn_on_and_features(text_of: Text) -> None:
    text = text_of("larch", "tests")

    # the sub is fed from in3 + in4: RL and RR
    assert re.search(r"^RL +RL, SUB +\[ \] yes", text, flags=re.MULTILINE)
    assert re.search(r"^FL +FL, FL-TW +\[ \] yes", text, flags=re.MULTILINE)
    assert re.search(r"^Fader full front +FL, FL-TW, FR, FR-TW +RL, RR, SUB ", text, flags=re.MULTILINE)
    assert re.search(r"^Subwoofer SUB +SUB", text, flags=re.MULTILINE)
    assert "from RL + RR" in text
    assert re.search(r"^dsp rem +dash 18,.* +below 1 V +write +10 to 12 V +write$", text, flags=re.MULTILINE)
    assert re.search(r"^belt tone +cluster .*\[ \] works \[ \] no +\[ \] works", text, flags=re.MULTILINE)
    assert re.search(r"^reverse tone +radio +speaker RL\+", text, flags=re.MULTILINE)
