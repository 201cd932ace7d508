"""The power tree on paper: complete, large enough to read, nothing over anything, at eight units too."""

from __future__ import annotations

import io
from collections.abc import Callable, Iterator
from pathlib import Path

import pdfplumber
import pytest

from harness.prove import prove
from render.blocks import Para, Picture, Sheet
from render.documents import documents, packet

Text = Callable[[str, str], str]
Sheets = Callable[[str], tuple[Sheet, ...]]

SAMPLES = (
    "hatch-plug-in", "hatch-solder-in", "estate-bus-amplifier", "van-odd-but-right", "saloon-fifteen-faults",
)  # fmt: skip


def eight_loads() -> str:
    """Two blocks with four amplifiers each, all at two ground points."""
    units = "".join(f"  amp{n}: {{kind: amplifier, draws: {5 * n} A, wakes: signal}}\n" for n in range(1, 9))
    runs = "".join(
        f"  - block{(n - 1) // 4}.{(n - 1) % 4 + 1} > fuse 50 A > 3 ft 8 AWG > amp{n}.B+\n"
        f"  - amp{n}.GND > 18 in 8 AWG > gnd.G{(n - 1) // 4}\n"
        for n in range(1, 9)
    )
    return (
        "ringout: 1\ntitle: Eight\npreset: house\n"
        "grounds: {G0: {place: left seat crossmember, metal: bare}, G1: {place: boot floor left, metal: bare}}\n"
        f"units:\n  block0: {{kind: fuse block, ways: 4}}\n  block1: {{kind: fuse block, ways: 4}}\n{units}"
        "runs:\n  - battery.+ > 1 ft 4 AWG > fuse 125 A > 15 ft 4 AWG > block0.in\n"
        f"  - battery.+ > 1 ft 1/0 AWG > fuse 200 A > 15 ft 1/0 AWG > block1.in\n{runs}"
    )


@pytest.fixture(scope="module")
def eight(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("eight")
    (folder / "job.yaml").write_text(eight_loads(), encoding="utf-8")
    packet(prove(folder / "job.yaml", mends=False), folder / "out", ["supply"])
    return folder / "out"


def pages(path: Path) -> Iterator[pdfplumber.page.Page]:
    yield from pdfplumber.open(io.BytesIO((path / "packet.pdf").read_bytes())).pages


def test_eight_units_fit_one_page_and_can_be_read(eight: Path) -> None:
    drawn = [page for page in pages(eight) if "Power tree" in page.extract_text()]
    assert len(drawn) == 1
    text = drawn[0].extract_text()
    assert "Not drawn" not in text
    for name in (*(f"amp{n}" for n in range(1, 9)), "battery", "block0", "block1", "boot floor left"):
        assert all(word in text for word in name.split()), name
    assert min(char["size"] for char in drawn[0].chars) >= 9.0 - 0.001
    assert (eight / "power-tree-1.svg").read_text(encoding="utf-8").count("amp8") >= 1


def test_no_word_of_the_tree_lies_on_another_or_on_a_wall(eight: Path) -> None:
    page = next(page for page in pages(eight) if "Power tree" in page.extract_text())
    words = page.extract_words(x_tolerance=1, y_tolerance=1)
    for at, word in enumerate(words):
        for other in words[at + 1 :]:
            across = min(word["x1"], other["x1"]) - max(word["x0"], other["x0"])
            down = min(word["bottom"], other["bottom"]) - max(word["top"], other["top"])
            assert not (across > 0.5 and down > 2.0), (word["text"], other["text"])
        for rect in page.rects:
            for wall in (rect["x0"], rect["x1"]):
                level = rect["top"] + 1 < (word["top"] + word["bottom"]) / 2 < rect["bottom"] - 1
                assert not (level and word["x0"] + 0.5 < wall < word["x1"] - 0.5), (word["text"], wall)


def test_the_tree_is_drawn_in_black_grey_and_white(eight: Path) -> None:
    drawn = (eight / "power-tree-1.svg").read_text(encoding="utf-8")
    inks = {part[:7] for part in drawn.split('"') if part.startswith("#")}
    assert all(len({ink[1:3], ink[3:5], ink[5:7]}) == 1 for ink in inks), inks


@pytest.mark.parametrize("job", SAMPLES)
def test_every_cable_fuse_and_unit_has_its_figures(job: str, sheets_of: Sheets) -> None:
    sheet = next(each for each in sheets_of(job) if each.name == "power-tree")
    picture = next(block for block in sheet.blocks if isinstance(block, Picture))
    assert [node.symbol for node in picture.nodes].count("battery") == 1
    for node in picture.nodes:
        if node.symbol == "fuse":
            assert "A" in node.title or node.lines == ("value not recorded",)
        if node.symbol == "ground":
            assert node.title.startswith("ground ")
    for edge in picture.edges:
        if edge.words:
            assert ("loses" in edge.words and "A\n" in edge.words) or "not counted" in edge.words, edge.words
            assert "AWG" in edge.words or "mm²" in edge.words or "not recorded" in edge.words


def test_what_is_not_counted_is_said(text_of: Text) -> None:
    """The van's processor hangs on the car's own feed: no 0 A, no 0 V."""
    text = text_of("van-odd-but-right", "power-tree")
    assert "the car's own feed" in text
    assert "Not counted: nobody wrote what that unit draws, or it is fed by the car's own wiring." in " ".join(
        text.split()
    )
    supply = text_of("van-odd-but-right", "supply")
    assert " 0 A" not in supply
    assert "not counted" in supply


def test_a_job_without_runs_says_so_and_draws_nothing(tmp_path: Path) -> None:
    job = """
ringout: 1
title: No runs
preset: house
units:
  radio: {kind: radio, outputs: {FL: 18 W @ 4 ohm btl}}
speakers: {FL: {place: door, nominal: 4 ohm}}
joints:
  solder at the radio with heat shrink:
    radio.FL: spk.FL
"""
    (tmp_path / "job.yaml").write_text(job.lstrip(), encoding="utf-8")
    proof = prove(tmp_path / "job.yaml", mends=False)
    assert proof.wiring is not None, proof.report.findings
    kind = next(each for each in documents() if each.name == "supply")
    (sheet,) = kind.sheets(proof)
    assert not any(isinstance(block, Picture) for block in sheet.blocks)
    said = [block.text for block in sheet.blocks if isinstance(block, Para)]
    assert said == ["No feed or ground cable is written among the runs: there is no power tree to draw."]
