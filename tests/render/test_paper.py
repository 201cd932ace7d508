"""The PDF measured: sizes, fonts, margins, nothing over anything else, nothing lost."""

from __future__ import annotations

import io
import subprocess
import sys

import pdfplumber
import pypdf
import pytest

from render import style
from render.blocks import (
    Banner,
    Block,
    Caution,
    Column,
    Grid,
    Heading,
    Keep,
    Masthead,
    PageBreak,
    Para,
    Room,
    Sheet,
    Strong,
    Swatch,
    Tick,
)
from render.writers.pdf import write_pdf

Pages = list[pdfplumber.page.Page]
PLAIN = Masthead("Job", "A", "Car", "STATE", "", "", "")


def made(*blocks: Block, landscape: bool = False) -> Pages:
    return list(pdfplumber.open(io.BytesIO(write_pdf([Sheet("s", "Sheet", blocks, landscape)], PLAIN))).pages)


def words_of(page: pdfplumber.page.Page) -> list[dict[str, float | str]]:
    return page.extract_words(x_tolerance=1, y_tolerance=1, keep_blank_chars=False, extra_attrs=["size"])


def squeezed(pages: Pages) -> str:
    """All text without spaces, since wrapping moves them."""
    return "".join("".join(page.extract_text().split()) for page in pages)


def test_same_bytes_twice_and_in_another_process(sheets: tuple[Sheet, ...], masthead: Masthead, pdf: bytes) -> None:
    assert write_pdf(sheets, masthead) == pdf
    program = (
        "import sys, hashlib; from render.blocks import *; from render.writers.pdf import write_pdf;"
        "s = Sheet('s', 'S', (Para('x'), Grid((Column('a'),), ((Swatch('WH', 'BK', 'stripe', 'w'),),))));"
        "print(hashlib.sha256(write_pdf([s], Masthead('j', '', '', '', '', '', ''))).hexdigest())"
    )
    runs = {
        subprocess.run(
            [sys.executable, "-c", program], capture_output=True, text=True, check=True,
            env={"PYTHONHASHSEED": seed, "PYTHONPATH": ":".join(sys.path), "TZ": zone},
        ).stdout
        for seed, zone in (("1", "UTC"), ("2", "Asia/Tokyo"))
    }  # fmt: skip
    assert len(runs) == 1


def test_nothing_is_small(pages: Pages) -> None:
    for page in pages:
        sizes = [char["size"] for char in page.chars]
        assert min(sizes) >= 9.0 - 0.001, page.page_number


def test_main_items_are_twelve_points() -> None:
    grid = Grid((Column("Lead"), Column("b")), ((Strong("MAINLEAD"), "small"),))
    big = Grid(
        (Column("Lead"),),
        (("BIGCELL",), (Swatch("WH", "BK", "stripe", "BIGWHITE"),), (Tick("BIGTICK"),)),
        big=True,
    )
    sizes = {str(word["text"]): word["size"] for word in words_of(made(grid, big)[0])}
    for word in ("MAINLEAD", "BIGCELL", "BIGWHITE", "BIGTICK"):
        assert sizes[word] == pytest.approx(12), word
    assert sizes["small"] == pytest.approx(10)


def test_every_font_is_embedded(pdf: bytes) -> None:
    names = set()
    for page in pypdf.PdfReader(io.BytesIO(pdf)).pages:
        for font in page["/Resources"]["/Font"].values():
            described = font.get_object()
            assert "/FontFile2" in described["/FontDescriptor"].get_object(), described["/BaseFont"]
            names.add(described["/BaseFont"].split("+")[-1])
    assert names == {style.REGULAR, style.BOLD}


def test_special_characters_come_back() -> None:
    special = "Ω°±→−²µ½×≤≥·“”–…"
    assert special in squeezed(made(Para(special)))
    assert special in squeezed(made(Grid((Column("a"),), ((Strong(special),),))))


@pytest.mark.parametrize("text", ['<b>x</b> & &amp; "q" {{ 7*7 }} {% raw %} {brace} <br/> <para>', "a\\b \\n (c) [d]"])
def test_markup_prints_as_it_is(text: str) -> None:
    plain = "".join(text.split())
    blocks = (
        Para(text),
        Heading(text),
        Caution(text),
        Grid((Column(text),), ((text,), (Strong(text),), (Tick(text),))),
    )
    assert squeezed(made(*blocks)).count(plain) == 7, "three blocks, a title, three cells"


def test_text_stays_inside_the_margins_and_fits_letter(pages: Pages) -> None:
    letter = {True: (792.0, 612.0), False: (612.0, 792.0)}
    for page in pages:
        wide = page.width > page.height
        frame = style.LANDSCAPE if wide else style.PORTRAIT
        # printed at full size in the middle of a Letter sheet, at least 18 pt of white must stay
        across, up = (page.width - letter[wide][0]) / 2, (page.height - letter[wide][1]) / 2
        for char in page.chars:
            assert char["x0"] >= frame.left - 0.5, (page.page_number, char["text"])
            assert char["x1"] <= frame.right + 0.5, (page.page_number, char["text"])
            assert char["top"] >= page.height - frame.top - 0.5, (page.page_number, char["text"])
            assert char["bottom"] <= page.height - frame.bottom + 1.5, (page.page_number, char["text"])
            assert char["x0"] - across >= 18
            assert char["top"] - up >= 18
            assert letter[wide][0] - (char["x1"] - across) >= 18
            assert letter[wide][1] - (char["bottom"] - up) >= 18


def test_no_word_lies_on_another(pages: Pages) -> None:
    for page in pages:
        words = sorted(words_of(page), key=lambda word: word["top"])
        for index, word in enumerate(words):
            for other in words[index + 1 :]:
                if other["top"] >= word["bottom"]:
                    break
                across = min(word["x1"], other["x1"]) - max(word["x0"], other["x0"])
                down = min(word["bottom"], other["bottom"]) - max(word["top"], other["top"])
                # boxes are as high as the font's size, letters are not: a fifth of a line may overlap
                assert not (across > 0.5 and down > 2.0), (page.page_number, word["text"], other["text"])


def test_no_word_crosses_a_wall(pages: Pages) -> None:
    """Upright lines are the walls of tables, cavities, boxes: text is on one side or the other."""
    for page in pages:
        walls = []
        for rect in page.rects:
            walls += [(rect["x0"], rect["top"], rect["bottom"]), (rect["x1"], rect["top"], rect["bottom"])]
        walls += [(edge["x0"], edge["top"], edge["bottom"]) for edge in page.lines if edge["width"] < 0.01]
        for word in words_of(page):
            for x, top, bottom in walls:
                through = word["x0"] + 0.8 < x < word["x1"] - 0.8
                level = min(word["bottom"], bottom) - max(word["top"], top) > 3.0
                cleared = bottom - top < 14  # the white ground of a word in a crossed cavity, a swatch, a mark
                assert not (through and level and not cleared), (page.page_number, word["text"], x)


def test_long_words_are_broken_not_lost(pages: Pages) -> None:
    long = "unbrokenleadname" * 14
    assert squeezed(pages).count(long) >= 2
    letters = sum(
        page.extract_text().count("z") for page in made(Grid((Column("a"), Column("b")), (("z" * 900, "x"),)))
    )
    assert letters == 900


@pytest.mark.parametrize("count", [0, 1, 2, 3, 40, 400])
def test_long_tables_repeat_their_header_and_lose_no_row(count: int) -> None:
    grid = Grid((Column("Headword"), Column("Other")), tuple((Strong(f"row-{n}-"), "x") for n in range(count)))
    pages = made(Para("before"), grid, Para("after"))
    found = []
    for page in pages:
        text = page.extract_text()
        rows = [word for word in text.split() if word.startswith("row-")]
        assert text.count("Headword") == (1 if rows or count == 0 else 0)
        found += rows
    assert found == [f"row-{n}-" for n in range(count)]


def test_header_is_never_left_alone() -> None:
    for lines in range(30, 75):
        grid = Grid((Column("Headword"),), tuple((f"row{n}",) for n in range(6)), "Caption")
        for page in made(*(Para("line") for _ in range(lines)), Heading("Above", 2), grid):
            text = page.extract_text()
            together = (
                "Above" in text,
                "Caption" in text,
                "Headword" in text and "row0" in text and "row1" in text,
            )
            assert len(set(together)) == 1 or "row5" in text


def test_row_taller_than_a_page_is_cut_and_complete() -> None:
    text = "\n".join(f"line{n}." for n in range(150))
    pages = made(Grid((Column("Headword"), Column("b")), ((text, "x"),)))
    assert len(pages) > 2
    assert [word for page in pages for word in page.extract_text().split() if word.startswith("line")] == text.split()
    assert all("Headword" in page.extract_text() for page in pages)


def test_keep_stays_together_and_a_page_break_breaks() -> None:
    kept = Keep((Heading("Kept"), *(Para(f"part{n}") for n in range(12))))
    for lines in range(25, 45):
        pages = made(*(Para("line") for _ in range(lines)), kept)
        holding = {index for index, page in enumerate(pages) if "part" in page.extract_text()}
        assert len(holding) == 1
    pages = made(PageBreak(), Para("one"), PageBreak(), PageBreak(), Para("two"), PageBreak())
    assert [("one" in p.extract_text(), "two" in p.extract_text()) for p in pages] == [
        (True, False),
        (False, True),
    ]


def test_masthead_and_footer_on_every_page(pages: Pages, masthead: Masthead) -> None:
    for number, page in enumerate(pages, 1):
        text = page.extract_text()
        for words in (
            f"page {number} of {len(pages)}", masthead.job, f"revision {masthead.revision}", masthead.car,
            masthead.state, masthead.counts, f"preset {masthead.preset}", f"digest {masthead.digest}",
            "Local codes and licensed practice",
        ):  # fmt: skip
            assert words in text, (number, words)


def test_long_masthead_wraps() -> None:
    head = Masthead("job " * 60, "B" * 150, "car", "STATE WORDS " * 20, "counts " * 40, "preset", "0" * 200)
    page = pdfplumber.open(io.BytesIO(write_pdf([Sheet("s", "title " * 40, (Para("body"),))], head))).pages[0]
    assert max(char["x1"] for char in page.chars) <= style.PORTRAIT.right + 0.5
    assert page.extract_text().count("counts") == 40
    assert "body" in page.extract_text()
    body = next(word for word in words_of(page) if word["text"] == "body")
    assert body["top"] > max(word["bottom"] for word in words_of(page) if set(str(word["text"])) == {"0"})


def test_colour_is_said_in_words_and_outlined_in_black() -> None:
    page = made(Grid((Column("Colour"),), ((Swatch("WH", "BK", "stripe", "white with black stripe"),),)))[0]
    assert "white with black stripe" in page.extract_text()
    outlined = [
        rect for rect in page.rects
        if rect["stroke"] and abs(rect["width"] - style.SWATCH_WIDTH) < 0.1
        and abs(rect["height"] - style.SWATCH_HEIGHT) < 0.1
    ]  # fmt: skip
    assert outlined
    assert all(not any(rect["stroking_color"]) for rect in outlined)


def test_room_is_wide_enough_to_write_in() -> None:
    page = made(Grid((Column("a", 9), Column("b", 0.1)), (("text " * 30, Room(40)),)))[0]
    rule = [line for line in page.lines if abs(line["top"] - line["bottom"]) < 0.01 and line["x1"] - line["x0"] < 300]
    assert any(line["x1"] - line["x0"] >= 40 * 72 / 25.4 - 0.1 for line in rule)


def test_boxes_to_tick_are_drawn() -> None:
    page = made(Grid((Column("a"),), ((Tick("yes", "no", "not tried"),), (Tick(),))))[0]
    assert sum(abs(rect["width"] - style.TICK_SIDE) < 0.01 for rect in page.rects) == 4
    assert "not tried" in page.extract_text()


def test_a_loud_banner_and_masthead_are_white_on_black() -> None:
    loud = Masthead("Job", "A", "Car", "STOP: 2 findings", "", "", "", loud=True)
    sheet = Sheet("s", "Sheet", (Banner("STOPBANNER", loud=True), Banner("QUIETBANNER")))
    page = pdfplumber.open(io.BytesIO(write_pdf([sheet], loud))).pages[0]
    inks = {str(word["text"]): (word["non_stroking_color"], word["size"]) for word in page.extract_words(
        extra_attrs=["size", "non_stroking_color"])}  # fmt: skip
    for word in ("STOPBANNER", "STOP:"):
        assert set(inks[word][0]) == {1}, f"{word} must be white"
    assert set(inks["QUIETBANNER"][0]) == {0}
    assert inks["STOPBANNER"][1] >= 20
    black = [rect for rect in page.rects if rect["fill"] and set(rect["non_stroking_color"]) == {0}]
    for name in ("STOPBANNER", "STOP:"):
        word = next(each for each in page.extract_words() if each["text"] == name)
        assert any(r["x0"] <= word["x0"] and r["x1"] >= word["x1"] and r["top"] <= word["top"] + 2
                   and r["bottom"] >= word["bottom"] - 2 for r in black), name  # fmt: skip


def test_pieces_of_an_aligned_row_stand_level() -> None:
    long = "words that need several lines even in the widest column that a page has, more and more of them " * 3
    grid = Grid(
        (Column("J"), Column("a", 1), Column("b", 1), Column("c", 1)),
        ((Strong("J1"), (long, "SECONDA"), (Strong("x"), Strong("SECONDB")), ("y", "SECONDC")),),
        aligned=True,
    )
    tops = {str(word["text"]): word["bottom"] for word in words_of(made(grid)[0])}
    assert (
        max(tops[w] for w in ("SECONDA", "SECONDB", "SECONDC"))
        - min(tops[w] for w in ("SECONDA", "SECONDB", "SECONDC"))
        < 3
    )
    loose = Grid(grid.columns, grid.rows)
    tops = {str(word["text"]): word["bottom"] for word in words_of(made(loose)[0])}
    assert tops["SECONDA"] - tops["SECONDC"] > 20


def test_what_follows_a_main_item_stands_beside_it_or_below() -> None:
    wide = made(Grid((Column("a"),), ((Strong("MAIN", "beside"),),)))[0]
    words = {str(word["text"]): word for word in words_of(wide)}
    assert words["beside"]["size"] == pytest.approx(10)
    assert abs(words["MAIN"]["bottom"] - words["beside"]["bottom"]) < 3
    narrow = made(Grid((Column("a", 1), Column("b", 30)), ((Strong("MAINITEM", "below it"), "x " * 300),)))[0]
    words = {str(word["text"]): word for word in words_of(narrow)}
    assert words["below"]["top"] > words["MAINITEM"]["top"] + 8
