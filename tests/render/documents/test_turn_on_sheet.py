"""The turn-on chain on paper: nothing blank, no word over another, in black and grey."""

from __future__ import annotations

import io
from collections.abc import Callable
from pathlib import Path

import pdfplumber
import pytest

from harness.prove import prove
from render.blocks import Caution, Grid, Picture, Sheet
from render.documents import documents, packet
from tests.planning.test_turn_on_chain import JOB

Text = Callable[[str, str], str]
Sheets = Callable[[str], tuple[Sheet, ...]]
SAMPLES = (
    "hatch-plug-in", "hatch-solder-in", "estate-bus-amplifier", "van-odd-but-right", "saloon-fifteen-faults",
)  # fmt: skip


@pytest.fixture(scope="module")
def relay(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("relay")
    (folder / "job.yaml").write_text("ringout: 1\ntitle: Relay\npreset: house\n" + JOB.lstrip(), encoding="utf-8")
    packet(prove(folder / "job.yaml", mends=False), folder / "out", ["turn-on"])
    return folder / "out"


def test_a_relay_with_diodes_is_drawn_whole_and_can_be_read(relay: Path) -> None:
    with pdfplumber.open(io.BytesIO((relay / "packet.pdf").read_bytes())) as pdf:
        text = "\n".join(page.extract_text() for page in pdf.pages)
        assert min(char["size"] for page in pdf.pages for char in page.chars) >= 9.0 - 0.001
        page = pdf.pages[0]
        words = page.extract_words(x_tolerance=1, y_tolerance=1)
    assert "Not drawn" not in text
    assert text.count("Who wakes whom") == 1
    for at, word in enumerate(words):
        for other in words[at + 1 :]:
            across = min(word["x1"], other["x1"]) - max(word["x0"], other["x0"])
            down = min(word["bottom"], other["bottom"]) - max(word["top"], other["top"])
            assert not (across > 0.5 and down > 2.0), (word["text"], other["text"])
    drawn = (relay / "turn-on-1.svg").read_text(encoding="utf-8")
    inks = {part[:7] for part in drawn.split('"') if part.startswith("#")}
    assert all(len({ink[1:3], ink[3:5], ink[5:7]}) == 1 for ink in inks), inks


def test_too_much_on_a_lead_is_told_before_the_table(relay: Path) -> None:
    text = " ".join((relay / "packet.txt").read_text(encoding="utf-8").split())
    # 35 + 90 = 125 mA on 100 mA
    assert "CAUTION: dash 4, unit side (AMP-ON): more hangs on it than it gives." in text
    assert "TOO MUCH by 25 mA" in text
    assert "fuse 20 A" in text


@pytest.mark.parametrize("job", SAMPLES)
def test_nothing_is_left_blank(job: str, sheets_of: Sheets) -> None:
    sheet = next(each for each in sheets_of(job) if each.name == "turn-on")
    grids = [block for block in sheet.blocks if isinstance(block, Grid)]
    assert grids
    assert all(cell not in ("", ()) for grid in grids for row in grid.rows for cell in row)
    assert not [block for block in sheet.blocks if isinstance(block, Caution)]
    assert [block for block in sheet.blocks if isinstance(block, Picture)]


def test_limits_and_sums_of_a_sample(text_of: Text) -> None:
    text = " ".join(text_of("van-odd-but-right", "turn-on").split())
    # read off the sample: dsp.rem-out gives 500 mA, four and bass draw 20 mA each
    assert "four rem: 20 mA" in text
    assert "40 mA" in text
    assert "460 mA left" in text


def test_a_job_without_units_has_no_such_sheet(tmp_path: Path) -> None:
    (tmp_path / "job.yaml").write_text("ringout: 1\ntitle: None\npreset: house\n", encoding="utf-8")
    proof = prove(tmp_path / "job.yaml", mends=False)
    kind = next(each for each in documents() if each.name == "turn-on")
    assert list(kind.sheets(proof)) == []
