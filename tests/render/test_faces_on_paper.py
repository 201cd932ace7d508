"""Faces measured on the paper: where each number really is in the PDF, in both views.

Expected rows are written by hand from the source named at each face, never from the code.
"""

from __future__ import annotations

import io
from typing import NamedTuple

import pdfplumber
import pypdf
import pytest
from pypdf.generic import ContentStream

from render.blocks import Face, FacePair, Masthead, Sheet
from render.ends import FaceShape, grid_shape
from render.ends.drawing import cavity_centres, pair_width
from render.ends.views import both_views
from render.style import LANDSCAPE, PORTRAIT
from render.writers.pdf import write_pdf


class Known(NamedTuple):
    """A face as given to the tool, and as it must be seen from its two sides; dot = no cavity."""

    shape: FaceShape
    wire: str
    mating: str


def rows(text: str) -> tuple[tuple[str | None, ...], ...]:
    return tuple(
        tuple(None if number == "." else number for number in line.split()) for line in text.strip().splitlines()
    )


# ISO 10487 blocks A and B: the table of car-radio connectors in public encyclopaedias, seen 2026: cable side
# of the female, 1 3 5 7 over 2 4 6 8, the clip at the left end beside 1 and 2.
ISO_8 = Known(
    FaceShape(rows("1 3 5 7\n2 4 6 8"), "wire", "left"),
    "1 3 5 7\n2 4 6 8",
    "7 5 3 1\n8 6 4 2",
)
FACES = {
    "ISO 10487 block A": ISO_8,
    "ISO 10487 block B, given from the other side": Known(
        FaceShape(rows("7 5 3 1\n8 6 4 2"), "mating", "right"), "1 3 5 7\n2 4 6 8", "7 5 3 1\n8 6 4 2"
    ),
    # ISO 10487 block C, same tables: three groups, 1-6, 7-12 and 13-20. The tables give the groups; how the
    # numbers stand within a group is this test's choice.
    "ISO 10487 block C, groups of 6, 6 and 8": Known(
        FaceShape(rows("1 3 5 . 7 9 11 . 13 15 17 19\n2 4 6 . 8 10 12 . 14 16 18 20"), "wire", "bottom"),
        "1 3 5 . 7 9 11 . 13 15 17 19\n2 4 6 . 8 10 12 . 14 16 18 20",
        "19 17 15 13 . 11 9 7 . 5 3 1\n20 18 16 14 . 12 10 8 . 6 4 2",
    ),
    # SAE J1962, two public tables of the diagnostic connector that agree, seen 2026: 1-8 over 9-16. They
    # don't say the view; taken here as looking into the car's socket.
    "SAE J1962": Known(
        grid_shape(2, 8, "mating", "top"),
        "8 7 6 5 4 3 2 1\n16 15 14 13 12 11 10 9",
        "1 2 3 4 5 6 7 8\n9 10 11 12 13 14 15 16",
    ),
    # From here on invented, each for one way to get it wrong.
    "forty ways, two rows": Known(
        grid_shape(2, 20, "wire", "top"),
        "1 2 3 4 5 6 7 8 9 10 11 12 13 14 15 16 17 18 19 20\n"
        "21 22 23 24 25 26 27 28 29 30 31 32 33 34 35 36 37 38 39 40",
        "20 19 18 17 16 15 14 13 12 11 10 9 8 7 6 5 4 3 2 1\n"
        "40 39 38 37 36 35 34 33 32 31 30 29 28 27 26 25 24 23 22 21",
    ),
    "forty ways counted down from the bottom right": Known(
        grid_shape(2, 20, "mating", "left", "bottom right", "down"),
        "2 4 6 8 10 12 14 16 18 20 22 24 26 28 30 32 34 36 38 40\n"
        "1 3 5 7 9 11 13 15 17 19 21 23 25 27 29 31 33 35 37 39",
        "40 38 36 34 32 30 28 26 24 22 20 18 16 14 12 10 8 6 4 2\n"
        "39 37 35 33 31 29 27 25 23 21 19 17 15 13 11 9 7 5 3 1",
    ),
    "three rows counted down": Known(
        grid_shape(3, 4, "wire", "top", "top left", "down"),
        "1 4 7 10\n2 5 8 11\n3 6 9 12",
        "10 7 4 1\n11 8 5 2\n12 9 6 3",
    ),
    "first bottom right, counted across": Known(
        grid_shape(2, 6, "wire", "bottom", "bottom right"),
        "12 11 10 9 8 7\n6 5 4 3 2 1",
        "7 8 9 10 11 12\n1 2 3 4 5 6",
    ),
    "drawn rows with gaps": Known(
        FaceShape(rows("1 2 . . 3 4\n5 6 7 8 9 10\n. 11 12 . . ."), "mating", "right"),
        "4 3 . . 2 1\n10 9 8 7 6 5\n. . . 12 11 .",
        "1 2 . . 3 4\n5 6 7 8 9 10\n. 11 12 . . .",
    ),
    "one row from the right": Known(
        grid_shape(1, 12, "wire", "top", "top right"),
        "12 11 10 9 8 7 6 5 4 3 2 1",
        "1 2 3 4 5 6 7 8 9 10 11 12",
    ),
    "one cavity": Known(grid_shape(1, 1, "mating", "bottom"), "1", "1"),
}

Point = tuple[float, float]


def paper(known: Known) -> bytes:
    sheet = Sheet("plug", "Plug", (FacePair(Face("Plug", known.shape, ())),), known.shape.columns > 12)
    return write_pdf([sheet], Masthead("Job", "A", "", "", "", "", ""))


def on_paper(pdf: bytes) -> dict[str, dict[str, Point]]:
    """View, then number, to the middle of the number on the paper; y grows downward over the pages."""
    found: dict[str, dict[str, Point]] = {}
    view = ""
    for index, page in enumerate(pdfplumber.open(io.BytesIO(pdf)).pages):
        words = page.extract_words(extra_attrs=["size", "fontname"], x_tolerance=1.5, use_text_flow=True)
        for word in words:
            if word["text"] in ("WIRE", "MATING"):
                view = word["text"].lower()
                found[view] = {}
            large = abs(word["size"] - 12) < 0.01 and word["fontname"].endswith("Bold")
            if view and large and word["text"].isdigit():
                assert word["text"] not in found[view], "printed twice"
                middle = (word["top"] + word["bottom"]) / 2 + index * 10000
                found[view][word["text"]] = ((word["x0"] + word["x1"]) / 2, middle)
    return found


@pytest.fixture(params=list(FACES), scope="module")
def known(request: pytest.FixtureRequest) -> Known:
    return FACES[request.param]


@pytest.fixture(scope="module")
def pdf(known: Known) -> bytes:
    return paper(known)


@pytest.mark.parametrize("view", ["wire", "mating"])
def test_numbers_stand_as_the_source_draws_them(known: Known, pdf: bytes, view: str) -> None:
    seen = on_paper(pdf)[view]
    expected = rows(getattr(known, view))
    assert set(seen) == {number for row in expected for number in row if number}
    for row in expected:
        heights = {round(seen[number][1], 1) for number in row if number}
        assert max(heights) - min(heights) <= 0.2, "a row must be level"
    tops = [seen[next(number for number in row if number)][1] for row in expected]
    assert tops == sorted(tops)
    assert len({round(top) for top in tops}) == len(expected)
    columns = [[row[index] for row in expected if row[index]] for index in range(len(expected[0]))]
    places = [[seen[number][0] for number in column] for column in columns if column]
    for place in places:
        assert max(place) - min(place) < 0.2, "a column must be upright"
    across = [place[0] for place in places]
    assert across == sorted(across)
    if len(across) > 1:
        # gaps keep their width: places are whole steps apart
        slots = [index for index, column in enumerate(columns) if column]
        step = (across[-1] - across[0]) / (slots[-1] - slots[0])
        assert step > 12
        for slot, place in zip(slots, across, strict=True):
            assert place == pytest.approx(across[0] + (slot - slots[0]) * step, abs=0.3)


def test_second_view_is_the_mirror_of_the_first(pdf: bytes) -> None:
    seen = on_paper(pdf)
    wire, mating = seen["wire"], seen["mating"]
    sums = [wire[number][0] + mating[number][0] for number in wire]
    assert max(sums) - min(sums) < 0.3, "left and right must change places about one axis"
    downs = [mating[number][1] - wire[number][1] for number in wire]
    assert max(downs) - min(downs) < 0.3, "rows must stay"


def test_numbers_are_centred_where_the_geometry_says(known: Known, pdf: bytes) -> None:
    seen = on_paper(pdf)
    page = (LANDSCAPE if known.shape.columns > 12 else PORTRAIT).usable
    for face in both_views(FacePair(Face("Plug", known.shape, ()))):
        centres = cavity_centres(face, pair_width(face, page))
        found = seen[face.shape.view]
        shifts = [(found[n][0] - x, found[n][1] + y) for n, (x, y) in centres.items()]
        for axis in (0, 1):
            values = [shift[axis] for shift in shifts]
            assert max(values) - min(values) < 0.6


def test_numbers_stand_in_the_middle_of_their_cavities(known: Known, pdf: bytes) -> None:
    """Measured against the frames drawn, not against the geometry that drew them."""
    count = 0
    for page in pdfplumber.open(io.BytesIO(pdf)).pages:
        frames = [rect for rect in page.rects if rect["stroke"] and rect["height"] > 25]
        for word in page.extract_words(extra_attrs=["size", "fontname"], x_tolerance=1.5, use_text_flow=True):
            if abs(word["size"] - 12) < 0.01 and word["text"].isdigit() and word["fontname"].endswith("Bold"):
                middle, level = (word["x0"] + word["x1"]) / 2, (word["top"] + word["bottom"]) / 2
                around = [
                    frame for frame in frames
                    if frame["x0"] < middle < frame["x1"] and frame["top"] < level < frame["bottom"]
                ]  # fmt: skip
                cavity = min(around, key=lambda frame: frame["width"])
                assert middle == pytest.approx((cavity["x0"] + cavity["x1"]) / 2, abs=0.3)
                count += 1
    assert count == 2 * len(known.shape.numbers)


def test_each_number_is_one_text_run(known: Known, pdf: bytes) -> None:
    reader = pypdf.PdfReader(io.BytesIO(pdf))
    runs = []
    for page in reader.pages:
        for operands, operator in ContentStream(page.get_contents(), reader).operations:
            if operator == b"Tj":
                raw = operands[0]
                runs.append(raw.decode("latin-1") if isinstance(raw, bytes) else str(raw))
    for number in known.shape.numbers:
        assert runs.count(number) == 2, f"cavity {number}: one run in each view"


def test_both_views_and_the_latch_are_named(known: Known, pdf: bytes) -> None:
    text = "\n".join(page.extract_text() for page in pdfplumber.open(io.BytesIO(pdf)).pages)
    assert "WIRE SIDE: wires come toward you" in text
    assert "MATING SIDE: you look at the contacts" in text
    assert text.index("WIRE SIDE") < text.index("MATING SIDE"), "the side that is held comes first"
    turned = {"top": "top", "bottom": "bottom", "left": "right", "right": "left"}
    for latch in (known.shape.latch, turned[known.shape.latch]):
        assert f"Latch at the {latch}." in text


def test_latch_is_drawn_where_it_is_said() -> None:
    page = pdfplumber.open(io.BytesIO(paper(ISO_8))).pages[0]
    # in a narrow face the word stands in the tab, letter under letter
    letters = sorted((char for char in page.chars if char["size"] == pytest.approx(9) and char["text"] in "LATCH"
                      and char["fontname"].endswith("Bold")), key=lambda char: char["x0"])  # fmt: skip
    columns: dict[int, list[dict[str, float]]] = {}
    for char in letters:
        columns.setdefault(round((char["x0"] + char["x1"]) / 2), []).append(char)
    tabs = {middle: sorted(found, key=lambda char: char["top"]) for middle, found in columns.items() if len(found) == 5}
    assert ["".join(str(char["text"]) for char in found) for found in tabs.values()] == ["LATCH", "LATCH"]
    first, second = sorted(tabs)
    seen = on_paper(paper(ISO_8))
    assert first < seen["wire"]["1"][0] < seen["wire"]["7"][0]
    assert seen["wire"]["7"][0] < seen["mating"]["7"][0] < seen["mating"]["1"][0] < second
    # the source: the clip is at the end of 1 and 2
    level = (tabs[first][0]["top"] + tabs[first][-1]["bottom"]) / 2
    assert seen["wire"]["1"][1] < level < seen["wire"]["2"][1] + 40


def test_both_views_of_a_small_plug_stand_level() -> None:
    seen = on_paper(paper(ISO_8))
    for number, (across, down) in seen["wire"].items():
        assert seen["mating"][number][1] == pytest.approx(down, abs=0.3), number
        assert seen["mating"][number][0] > across
