"""Levels, loads and the gain card on paper: complete, nothing left blank, nothing over anything."""

from __future__ import annotations

import io
from collections.abc import Callable
from pathlib import Path

import pdfplumber
import pytest

from harness.prove import Proof
from render.blocks import Caution, Cell, Grid, Room, Sheet, Strong
from render.documents import packet

Text = Callable[[str, str], str]
Sheets = Callable[[str], tuple[Sheet, ...]]
Proofs = Callable[[str], Proof]

SAMPLES = (
    "hatch-plug-in", "hatch-solder-in", "estate-bus-amplifier", "van-odd-but-right", "saloon-fifteen-faults",
)  # fmt: skip


def grids(sheets: tuple[Sheet, ...], name: str) -> list[Grid]:
    sheet = next(each for each in sheets if each.name == name)
    return [block for block in sheet.blocks if isinstance(block, Grid)]


def is_blank(cell: Cell) -> bool:
    pieces = cell if isinstance(cell, tuple) else (cell,)
    return not any(
        isinstance(piece, Room) or (piece.text if isinstance(piece, Strong) else str(piece)).strip() for piece in pieces
    )


@pytest.mark.parametrize("job", SAMPLES)
def test_no_cell_is_a_silent_blank(job: str, sheets_of: Sheets) -> None:
    for name in ("levels", "gain-card"):
        for grid in grids(sheets_of(job), name):
            for row in grid.rows:
                assert not [cell for cell in row if is_blank(cell)], row


def test_a_wire_that_nobody_measured_loses_no_0_percent(text_of: Text) -> None:
    text = text_of("hatch-plug-in", "levels")
    assert "0.0 %" not in text
    # 4 ft there and back of 12 AWG (5.211 mohm/m): 0.0127 ohm before 4 ohm, 1 - (4 / 4.0127)² = 0.6 %
    assert "0.6 %" in text.replace("\N{NO-BREAK SPACE}", " ")


def test_a_speaker_without_signal_is_named(text_of: Text) -> None:
    assert "No signal reaches FL, FR, C in this plan" in text_of("saloon-fifteen-faults", "levels")


def test_what_is_too_hot_is_said_in_words(text_of: Text) -> None:
    """The saloon's rear pair: 8 V into 4 V at most, 20 log10(2) = 6.02 dB: a pad of 7 dB."""
    text = " ".join(text_of("saloon-fifteen-faults", "levels").split())
    assert "TOO HOT" in text


@pytest.mark.parametrize("job", SAMPLES)
def test_the_gain_card_has_cautions_first_and_room_for_what_was_read(job: str, sheets_of: Sheets) -> None:
    sheet = next(each for each in sheets_of(job) if each.name == "gain-card")
    assert isinstance(sheet.blocks[0], Caution)
    for word in ("Speakers off", "hearing", "voice coil"):
        assert word in sheet.blocks[0].text
    (grid,) = grids(sheets_of(job), "gain-card")
    assert [column.title for column in grid.columns][-2:] == ["It read", "Who, when"]
    assert all(isinstance(cell, Room) for row in grid.rows for cell in row[-2:])


def test_the_gain_card_says_tone_and_volts(text_of: Text) -> None:
    """75 W at 4 ohm: sqrt(300) = 17.3 V; 300 W at 4 ohm: sqrt(1200) = 34.6 V."""
    text = text_of("hatch-plug-in", "gain-card").replace("\N{NO-BREAK SPACE}", " ")
    for words in ("17.3 V", "34.6 V", "1 kHz", "50 Hz", "0 dBFS", "step 31 of 40, the last clean one"):
        assert words in text, words


@pytest.mark.parametrize("job", SAMPLES)
def test_the_pages_can_be_read(job: str, proof_of: Proofs, tmp_path: Path) -> None:
    packet(proof_of(job), tmp_path, ["levels", "gain-card"])
    for page in pdfplumber.open(io.BytesIO((tmp_path / "packet.pdf").read_bytes())).pages:
        assert min(char["size"] for char in page.chars) >= 9.0 - 0.001
        words = page.extract_words(x_tolerance=1, y_tolerance=1)
        for at, word in enumerate(words):
            assert 0 <= word["x0"] < word["x1"] <= page.width
            for other in words[at + 1 :]:
                across = min(word["x1"], other["x1"]) - max(word["x0"], other["x0"])
                down = min(word["bottom"], other["bottom"]) - max(word["top"], other["top"])
                assert not (across > 0.5 and down > 2.0), (word["text"], other["text"])
