"""The toning checklist and the tests at the car, as printed."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

from render.blocks import Caution, Grid, Heading, Keep, Sheet, Strong, Swatch, Tick
from render.documents import documents
from tests.graph.test_faded import FOUR
from tests.session.hazel import hazel

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
    # its tweeter has no capacitor: a cell on the pair is a cell on the tweeter
    assert "cell +" not in rows["FL"]
    assert "FL-TW: bare tweeter, no cell on this pair" in rows["FL"]
    assert "FL-TW, FL-MID: pulse or marks, straight" in rows["FL"]
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
    text = " ".join(text_of("larch", "toning").split())
    assert "As delivered the car has no SUB: silent while you tone. If one answers, stop." in text


def test_what_is_new_is_silent_only_until_it_is_joined(text_of: Text) -> None:
    """The hatch was delivered without C and SUB; a subwoofer is fitted, which must play afterwards."""
    text = " ".join(text_of("hatch-plug-in", "toning").split())
    assert "SUB is new: silent before it is joined, it must play in the output test." in text
    assert "C is new" not in text
    assert "is new" not in text_of("estate-bus-amplifier", "toning")  # delivered without C, and stays so
    assert "Delivered without" in text_of("hatch-plug-in", "cover")


def test_a_tweeter_behind_its_capacitor_is_toned(sheets_of: Sheets, text_of: Text) -> None:
    rows = _rows(_sheet(sheets_of("estate-bus-amplifier"), "toning"))

    assert "clicks only: tone, marks straight" in rows["FL-TW"]
    assert "cell + on +" not in rows["FL-TW"]
    text = " ".join(text_of("estate-bus-amplifier", "toning").replace("|", " ").split())
    assert "Never a cell on a bare tweeter. Through its capacitor a cell only clicks: use a tone" in text
    both = _rows(_sheet(sheets_of("van-odd-but-right"), "toning"))["FL"]
    assert "FL: cell + on +: cone OUT" in both
    assert "FL-TW: clicks only: tone, marks turned round" in both


def test_each_pair_to_tone_gives_both_colours(sheets_of: Sheets) -> None:
    for job in ("hatch-plug-in", "estate-bus-amplifier", "van-odd-but-right"):
        sheet = _sheet(sheets_of(job), "toning")
        for grid in _grids(sheet):
            for row in grid.rows:
                pieces = [piece for cell in row for piece in (cell if isinstance(cell, tuple) else (cell,))]
                assert sum(isinstance(piece, Swatch) for piece in pieces) >= 2, (job, row)


def test_one_plug_is_pulled_at_a_time(text_of: Text) -> None:
    """A pair at the dash is heard through the kick panel's plug, so that one must be together meanwhile."""
    text = " ".join(text_of("saloon-fifteen-faults", "toning").split())

    assert "One plug at a time" in text
    dash, kick = text.index("dash, at the plug, car side"), text.index("kick, through the leads of loom T1")
    assert dash < text.index("Unplug dash") < kick < text.index("Unplug kick")
    assert text.index("Plug T1, car end into kick") > kick
    assert text.count("Unplug kick") == 1  # its second table has the same plug pulled
    assert "One plug at a time" not in text_of("hatch-plug-in", "toning")
    assert "1. Key off. Unplug sound" in text_of("hatch-plug-in", "toning")


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
    assert re.search(r"^dsp rem +T1 car-side .* +below 1 V +write +10 to 12 V +write$", text, flags=re.MULTILINE)
    assert re.search(r"^belt tone +cluster .*\[ \] works +\[ \] works", text, flags=re.MULTILINE)
    assert re.search(r"^reverse tone +radio +left rear speaker +\[ \] works", text, flags=re.MULTILINE)


def _column(sheet: Sheet, title: str, first: str) -> dict[str, str]:
    """First cell -> the cell under a title, of the grid whose first column has that name."""
    grid = next(grid for grid in _grids(sheet) if grid.columns[0].title == first)
    at = [column.title for column in grid.columns].index(title)
    made = {}
    for row in grid.rows:
        name = row[0][0] if isinstance(row[0], tuple) else row[0]
        assert isinstance(name, Strong)
        made[name.text.replace("\N{NO-BREAK SPACE}", " ")] = str(row[at])
    return made


def test_fed_by_says_the_lead_and_the_way(sheets_of: Sheets) -> None:
    van = _column(_sheet(sheets_of("van-odd-but-right"), "tests"), "Fed by", "Meter +")
    assert van["dsp B+"] == "T7 car-side lead 5 at bulkhead 5"
    assert van["dsp rem"] == "T7 car-side lead 10 at bulkhead 10"
    assert van["bass rem"] == "dsp rem-out via four rem"  # as the run is written
    assert van["four rem"] == "dsp rem-out"
    hatch = _column(_sheet(sheets_of("hatch-plug-in"), "tests"), "Fed by", "Meter +")
    assert hatch["bass B+"] == "battery + via block 2"
    saloon = _column(_sheet(sheets_of("saloon-fifteen-faults"), "tests"), "Fed by", "Meter +")
    assert saloon["bass rem"] == "no feed: only T2 car-side lead 3"
    assert _column(_sheet(sheets_of("fir"), "tests"), "Fed by", "Meter +")["new B+"] == "not recorded"


def test_a_feature_is_heard_at_whole_pairs(sheets_of: Sheets) -> None:
    hatch = _column(_sheet(sheets_of("hatch-plug-in"), "tests"), "Heard or felt at", "Feature")
    assert hatch["reverse tone"] == "left rear speaker (RL)\nright rear speaker (RR)"
    estate = _column(_sheet(sheets_of("estate-bus-amplifier"), "tests"), "Heard or felt at", "Feature")
    assert estate["hands-free"] == "dash 6/16, car side"


def test_fader_and_balance_as_they_were_turned(tmp_path: Path) -> None:
    """By hand: four channels, and a subwoofer on an output of its own, which is asked to be silent at no end."""
    records = (
        "faded: front, heard: FL FR SUB",
        "balanced: left, heard: FL RR",
        "faded: rear, balanced: left, heard: RL",
    )
    sheets = (
        sheet
        for kind in documents()
        for sheet in kind.sheets(hazel(tmp_path, *(f"plays: radio, {each}" for each in records), job=FOUR))
    )
    grid = next(grid for grid in _grids(_sheet(tuple(sheets), "tests")) if grid.columns[0].title == "Set")
    rows = {str(row[0].text): row for row in grid.rows if isinstance(row[0], Strong)}
    assert [str(each[2]) for each in grid.rows[:4]] == ["RL, RR", "FL, FR", "FR, RR", "FL, RL"]
    assert rows["Fader full front"][3:] == (Strong("yes"), (Strong("FL FR SUB"), "JM 2026-03-02"))
    assert rows["Balance full left"][3:] == (Strong("OTHER"), (Strong("FL RR"), "JM 2026-03-02"))
    assert rows["Fader full rear, balance full left"][3:] == (Strong("yes"), (Strong("RL"), "JM 2026-03-02"))
    assert isinstance(rows["Fader full rear"][3], Tick)
