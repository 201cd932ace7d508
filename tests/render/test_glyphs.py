"""Characters that the embedded font lacks: said by code point, never an empty box, and never a crash."""

from __future__ import annotations

import io

import pdfplumber
import pytest

from render.blocks import Cavity, Column, Edge, Face, Grid, Masthead, Node, Para, Picture, Sheet, Strong, Tick
from render.ends import grid_shape
from render.measure import longest_word_pt, on_paper, width_pt, words_of, wrap
from render.writers.pdf import write_pdf
from render.writers.svg import write_svg
from render.writers.text import write_text

CJK, ROCKET, FAMILY = "\u6864\u6728", "\U0001f680", "\U0001f468\u200d\U0001f469"


def test_what_the_font_lacks_is_said_by_its_code_point() -> None:
    assert on_paper(f"Alder {CJK}") == "Alder [?U+6864][?U+6728]"
    assert on_paper(ROCKET) == "[?U+1F680]"
    assert on_paper("Ω ° ± → − ² “é” \u0141") == "Ω ° ± → − ² “é” \u0141", "what it has stays"
    assert on_paper("one\ntwo\tthree") == "one\ntwo\tthree"


@pytest.mark.parametrize("text", [CJK, ROCKET, FAMILY, "\u202edrawkcab", "\u2028", "\ud83d", "\x00\x1b["])
def test_nothing_in_a_title_breaks_a_packet(text: str) -> None:
    title = f"Alder {text} hatch"
    face = Face(title, grid_shape(1, 2, "wire", "top"), (Cavity("1", (text,)),))
    picture = Picture(title, (Node("a", title), Node("b", text)), (Edge("a", "b", text),))
    grid = Grid((Column(title), Column("b")), ((Strong(text, text), Tick(text)),))
    head = Masthead(title, text, text, text, text, text, text)
    sheet = Sheet("s", title, (Para(text), face, picture, grid))

    data = write_pdf([sheet], head)
    page = pdfplumber.open(io.BytesIO(data)).pages[0]
    assert "Alder" in page.extract_text()
    assert data == write_pdf([sheet], head)
    assert write_text([sheet], head).encode("utf-8")
    for drawn in (face, picture):
        write_svg(drawn).encode("utf-8")
    # glyph 0 is the font's empty box: no character on the page maps to it
    assert "\x00" not in "".join(char["text"] for char in page.chars)


def test_the_reading_direction_is_never_turned() -> None:
    assert "\u202e" not in write_text([Sheet("s", "a\u202eb", (Para("c\u2066d"),))], Masthead(*["x"] * 7))


def test_a_no_break_space_holds() -> None:
    held = "one\N{NO-BREAK SPACE}two"
    assert words_of(f"{held} three") == [held, "three"]
    assert longest_word_pt(held, 10) == width_pt(held, 10)
    assert wrap(f"a {held}", width_pt(held, 10) + 1, 10) == ("a", held)
