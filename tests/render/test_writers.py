"""Every writer knows every block; text and SVG say what the PDF says."""

from __future__ import annotations

import doctest
import importlib
import xml.dom.minidom
from collections.abc import Iterator
from pathlib import Path

import jinja2
import pytest

from render.blocks import (
    BLOCKS,
    PIECES,
    Banner,
    Bars,
    Block,
    Caution,
    Cavity,
    Column,
    Edge,
    Face,
    FacePair,
    Grid,
    Heading,
    Keep,
    Listing,
    Masthead,
    Node,
    Para,
    Picture,
    Room,
    Sheet,
    Strong,
    Swatch,
    Tick,
)
from render.ends import FaceShape, grid_shape
from render.ends.drawing import shows_all_lines
from render.style import LANDSCAPE, PORTRAIT
from render.writers import cells, columns, pdf, svg, text
from render.writers.svg import write_svg
from render.writers.text import write_text

HEAD = Masthead("Job", "A", "Car", "STATE", "", "", "")
MARKUP = '<b>x</b> & "q" {{ 7*7 }} {% raw %} {brace} {# note #}'


def said(*blocks: Block) -> str:
    return write_text([Sheet("s", "Sheet", blocks)], HEAD)


def test_every_writer_knows_every_block(root: Path) -> None:
    assert set(pdf.STRIPS) == set(BLOCKS)
    assert set(text.CONTEXTS) == set(BLOCKS)
    assert set(svg.DRAWS) == {Face, Picture, Bars}
    for block in BLOCKS:
        assert (root / "templates" / "text" / f"{block.__name__.lower()}.txt.j2").is_file()
    for known in (cells.PAINTS, cells.NEEDS, columns.SAYS):
        assert set(known) == set(PIECES)


@pytest.mark.parametrize("write", [pdf.write_pdf, write_text])
def test_unknown_block_is_refused(write: object) -> None:
    assert callable(write)
    with pytest.raises(TypeError, match="knows no"):
        write([Sheet("s", "S", (object(),))], HEAD)


@pytest.mark.parametrize(
    "name", ["render.diagrams.dot", "render.writers.columns", "render.writers.widths", "render.measure"]
)
def test_examples_in_docstrings(name: str) -> None:
    assert doctest.testmod(importlib.import_module(name)).failed == 0


# --- text -------------------------------------------------------------------------------------------


def test_text_is_narrow_and_the_same_twice(sheets: tuple[Sheet, ...], masthead: Masthead) -> None:
    once = write_text(sheets, masthead)
    assert once == write_text(sheets, masthead)
    assert max(len(line) for line in once.splitlines()) <= 100
    assert all(line == line.rstrip() for line in once.splitlines())


def test_text_escapes_nothing_and_evaluates_nothing() -> None:
    wide = Face(MARKUP, grid_shape(1, 2, "wire", "top"), (Cavity("1", (MARKUP,)),))
    node = Picture(MARKUP, (Node("a", MARKUP), Node("b", "b")), (Edge("a", "b", MARKUP),))
    blocks = (
        Heading(MARKUP),
        Para(MARKUP),
        Caution(MARKUP),
        Listing((MARKUP,)),
        Grid((Column(MARKUP),), ((MARKUP,),)),
    )
    shown = said(*blocks, wide, node)
    # six in blocks, two on the face, four in the picture
    assert " ".join(shown.split()).count(MARKUP) == 6 + 2 + 4
    assert "49" not in shown


def test_control_characters_reach_no_writer() -> None:
    bad = "a\x1b[31mred\x00\ud800"
    assert "\x1b" not in said(Para(bad), Grid((Column(bad),), ((bad,),)))
    said(Para(bad)).encode("utf-8")
    xml.dom.minidom.parseString(write_svg(Face(bad, grid_shape(1, 1, "wire", "top"), (Cavity("1", (bad,)),))))


def test_grid_in_text_is_aligned() -> None:
    grid = Grid(
        (Column("Cavity", 1, "right"), Column("Colour", 2), Column("Do", 3), Column("Read", 1)),
        (
            (
                Strong("7"),
                Swatch("WH", "BK", "stripe", "white with black stripe"),
                "join to the processor " * 6,
                Room(),
            ),
            (Strong("12"), "none", Tick("yes", "no"), ("a", "b")),
        ),
        "Rows",
    )
    lines = said(grid).splitlines()
    rule = next(line for line in lines if set(line) == {"-", " "})
    starts = [index for index, sign in enumerate(rule) if sign == "-" and (index == 0 or rule[index - 1] == " ")]
    assert len(starts) == 4
    header = lines[lines.index(rule) - 1]
    assert header[starts[1] :].startswith("Colour")
    row = next(line for line in lines if "white with" in line)
    assert row[: starts[1]].strip() == "7"
    assert row[starts[1] - 3] == "7", "right-aligned"
    assert "____" in row[starts[3] :]
    assert any("[ ] yes" in line for line in lines)
    assert " ".join(said(grid).split()).count("processor") == 6


def test_words_of_a_tick_are_not_broken() -> None:
    columns = (Column("What", 6), Column("Other", 6), Column("Made", 0.1))
    shown = said(Grid(columns, (("long words " * 20, "long words " * 20, Tick("made", "tugged", "not tried")),)))
    for words in ("[ ] made", "[ ] tugged", "[ ] not"):
        assert words in shown
    lines = shown.splitlines()
    assert not any(line.endswith("[") for line in lines)


def test_pieces_of_an_aligned_row_stand_level_in_text() -> None:
    long = "many words " * 8
    grid = Grid((Column("J"), Column("a"), Column("b")), (("J1", (long, "SECOND"), ("short", "BESIDE")),), aligned=True)
    line = next(line for line in said(grid).splitlines() if "SECOND" in line)
    assert "BESIDE" in line


def test_banner_in_text() -> None:
    loud, quiet = said(Banner("STOP", loud=True)), said(Banner("fine"))
    assert "##########\n## STOP ##\n##########" in loud
    assert "-- fine --" in quiet


def test_face_in_text_both_ways() -> None:
    shape = FaceShape((("1", "2", None, "3"), ("4", None, "5", "6")), "wire", "left")
    cavity = Cavity(
        "5",
        ("FL+", "cut here"),
        Swatch("WH", "BK", "stripe", "white with black stripe"),
        "CUT",
        "highlighted",
    )
    shown = said(FacePair(Face("Plug", shape, (cavity,), "a rib")))
    assert (
        "      +---+---+   +---+\n"
        "      | 1 | 2 |   | 3 |\n"
        "LATCH +---+---+---+---+\n"
        "      | 4 |   | 5 | 6 |\n"
        "      +---+   +---+---+\n"
    ) in shown
    assert (
        "+---+   +---+---+\n| 3 |   | 2 | 1 |\n+---+---+---+---+ LATCH\n| 6 | 5 |   | 4 |\n+---+---+   +---+\n"
    ) in shown
    assert "5    FL+; cut here; CUT; white with black stripe; work on this one" in shown
    assert "1    not recorded" in shown
    assert "Keying: a rib" in shown
    assert shown.index("WIRE SIDE") < shown.index("MATING SIDE")


@pytest.mark.parametrize("latch", ["top", "left", "right"])
def test_twenty_columns_fit_a_line_and_more_are_cut(latch: str) -> None:
    whole = said(Face("Plug", grid_shape(2, 20, "wire", latch), ()))
    row = [word for line in whole.splitlines() if "|" in line for word in line.replace("|", " ").split()]
    assert [word for word in row if word.isdigit()] == [str(number) for number in range(1, 41)]
    assert "further" not in whole
    cut = said(Face("Plug", grid_shape(1, 45, "wire", latch), ()))
    assert "further to the right" in cut
    assert max(len(line) for line in cut.splitlines()) <= 100


def test_templates_are_strict() -> None:
    with pytest.raises(jinja2.UndefinedError):
        text._render("heading", {})


# --- svg --------------------------------------------------------------------------------------------


def svg_texts(drawn: Face | Picture) -> Iterator[str]:
    for element in xml.dom.minidom.parseString(write_svg(drawn)).getElementsByTagName("text"):
        assert float(element.getAttribute("textLength")) > 0
        yield element.firstChild.data


def test_svg_is_escaped_whole_and_the_same_twice() -> None:
    face = Face(MARKUP, grid_shape(2, 10, "wire", "top"), (Cavity("3", ("<f>",), Swatch("WH", "", "", "white")),))
    found = list(svg_texts(face))
    assert MARKUP in found
    assert [n for n in found if n.isdigit()] == [str(n) for n in range(1, 21)]
    assert "WIRE SIDE: wires come toward you" in found
    assert write_svg(face) == write_svg(face)
    assert "url(#" not in write_svg(face), "ids clash where two drawings stand on one page"


def test_svg_of_a_picture_says_all_its_words() -> None:
    picture = Picture(
        MARKUP,
        (Node("a", "radio <x>", ("8.5 V & more",)), Node("b", "speaker", (), "loudspeaker")),
        (Edge("a", "b", "FL+", (Swatch("WH", "BK", "stripe", "white with black stripe"),), True),),
    )
    found = list(svg_texts(picture))
    assert MARKUP in " ".join(found)
    for words in ("radio <x>", "8.5 V & more", "speaker", "FL+", "white with black stripe"):
        assert words in found


# --- blocks -----------------------------------------------------------------------------------------


def test_blocks_refuse_what_cannot_be_printed() -> None:
    shape = grid_shape(1, 2, "wire", "top")
    with pytest.raises(ValueError, match="not on the face"):
        Face("f", shape, (Cavity("3"),))
    with pytest.raises(ValueError, match="twice"):
        Face("f", shape, (Cavity("1"), Cavity("1")))
    with pytest.raises(ValueError, match="cells"):
        Grid((Column("a"), Column("b")), (("x",),))
    with pytest.raises(ValueError, match="no node"):
        Picture("p", (Node("a", "a"),), (Edge("a", "b"),))
    with pytest.raises(ValueError, match="stands twice"):
        Picture("p", (Node("a", "a"), Node("a", "b")), ())


def test_wide_faces_leave_their_details_to_the_table() -> None:
    assert shows_all_lines(Face("f", grid_shape(2, 8, "wire", "top"), ()), PORTRAIT.usable)
    assert shows_all_lines(Face("f", grid_shape(2, 12, "wire", "top"), ()), LANDSCAPE.usable)
    assert not shows_all_lines(Face("f", grid_shape(2, 20, "wire", "top"), ()), LANDSCAPE.usable)


def test_keep_inside_keep() -> None:
    assert "deep" in said(Keep((Keep((Para("deep"),)),)))
