"""The PDF page by page: what stands above each page, what goes on over one, and what black and white shows."""

from __future__ import annotations

import io

import pdfplumber
import pypdf

from render import shapes, style
from render.blocks import Block, Column, Grid, Heading, Listing, Masthead, Para, Sheet, Swatch
from render.writers.pdf import write_pdf

Pages = list[pdfplumber.page.Page]
PLAIN = Masthead("Job", "A", "Car", "STATE", "", "", "")


def made(*blocks: Block) -> Pages:
    return list(pdfplumber.open(io.BytesIO(write_pdf([Sheet("s", "Sheet", blocks)], PLAIN))).pages)


def words_of(page: pdfplumber.page.Page) -> list[dict[str, float | str]]:
    return page.extract_words(x_tolerance=1, y_tolerance=1, keep_blank_chars=False, extra_attrs=["size"])


def test_a_sheet_that_shares_goes_below_the_one_before_if_all_of_it_fits() -> None:
    def sheets(lines: int, more: int) -> list[Sheet]:
        first = Sheet("a", "First sheet", tuple(Para("line") for _ in range(lines)))
        return [first, Sheet("b", "Second sheet", tuple(Para(f"part{n}") for n in range(more)), shares=True)]

    def pages_of(lines: int, more: int) -> Pages:
        return list(pdfplumber.open(io.BytesIO(write_pdf(sheets(lines, more), PLAIN))).pages)

    assert len(pages_of(5, 5)) == 1
    text = pages_of(5, 5)[0].extract_text()
    assert text.startswith("First sheet + Second sheet\n"), "the masthead names all that stands on its page"
    body = text.removeprefix("First sheet + Second sheet\n")
    assert body.index("line") < body.index("Second sheet") < body.index("part0")
    longer = pages_of(3, 60)
    assert longer[0].extract_text().startswith("First sheet + Second sheet\n")
    assert longer[1].extract_text().startswith("Second sheet\n"), "what goes on has its own title alone"
    apart = pages_of(30, 20)
    assert apart[0].extract_text().startswith("First sheet\n")
    assert len(apart) == 2, "not parted where it would not all fit"
    assert "part" not in apart[0].extract_text()
    # longer than a page: begins below only where half of the page is free
    assert "part0" in pages_of(3, 60)[0].extract_text()
    assert "part0" not in pages_of(30, 60)[0].extract_text()
    for lines, more in ((5, 5), (30, 20), (3, 60), (30, 60)):
        found = [word for page in pages_of(lines, more) for word in page.extract_text().split() if "part" in word]
        assert found == [f"part{n}" for n in range(more)]
        outline = [entry.title for entry in pypdf.PdfReader(io.BytesIO(write_pdf(sheets(lines, more), PLAIN))).outline]
        assert outline == ["First sheet", "Second sheet"]


def test_what_goes_over_a_page_says_what_it_continues() -> None:
    rows = tuple((f"row{n}",) for n in range(90))
    captioned = made(Heading("Above"), Grid((Column("Headword"),), rows, "The caption"))
    bare = made(Heading("Above"), Grid((Column("Headword"),), rows))
    plain = made(Grid((Column("Headword"),), rows))
    listed = made(Heading("Things"), Listing(tuple(f"item{n}" for n in range(90))))
    for pages, title in ((captioned, "The caption"), (bare, "Above"), (plain, "Sheet"), (listed, "Things")):
        assert len(pages) > 1
        assert "(continued)" not in pages[0].extract_text()
        for page in pages[1:]:
            lines = page.extract_text().splitlines()
            assert f"{title} (continued)" in lines, title
            assert lines.index(f"{title} (continued)") < min(
                index for index, line in enumerate(lines) if line.startswith(("row", "• item"))
            )
            words = [word for word in words_of(page) if word["text"] == "(continued)"]
            assert words[0]["size"] >= 9
    assert all("continued" not in page.extract_text() for page in made(Para("word " * 5000)))


def test_a_line_that_leads_in_stays_with_its_table() -> None:
    grid = Grid((Column("Headword"),), tuple((f"row{n}",) for n in range(3)))
    for lines in range(25, 60):
        pages = made(*(Para("line") for _ in range(lines)), Heading("Above"), Para("leads in"), grid)
        for page in pages:
            text = page.extract_text()
            assert ("Above" in text) == ("leads in" in text) == ("row0" in text)


def test_a_long_title_of_what_continues_wraps() -> None:
    grid = Grid((Column("Headword"),), tuple((f"row{n}",) for n in range(90)), "caption " * 60)
    for page in made(grid)[1:]:
        assert page.extract_text().count("caption") == 60
        assert max(char["x1"] for char in page.chars) <= style.PORTRAIT.right + 0.5


def test_a_column_that_needs_less_leaves_room_to_one_that_wraps() -> None:
    """Equal weights: the short one keeps its words on one line and no more, the long one gets the rest."""
    long = "some words that just fit on one line of this page if the other column is narrow, and only then"
    page = made(Grid((Column("a"), Column("b")), ((long, "short"),)))[0]
    first, last = (next(word for word in words_of(page) if word["text"] == text) for text in ("some", "then"))
    assert abs(first["top"] - last["top"]) < 1


def test_a_row_is_not_put_off_for_a_header_that_it_does_not_need() -> None:
    """The header is drawn again at the top of a page only; counted elsewhere, it cost a row a page."""
    for lines in range(30, 60):
        grid = Grid((Column("Headword"),), tuple((f"row{n}\n\n\n",) for n in range(9)), "Caption")
        first = made(*(Para("line") for _ in range(lines)), grid)[0]
        rows = [word for word in words_of(first) if str(word["text"]).startswith("row")]
        if 3 <= len(rows) < 7:
            left = first.height - style.PORTRAIT.bottom - 18 - max(rect["bottom"] for rect in first.rects)
            assert left < 4 * 10 * style.LEADING + 2 * 1.8 + 0.5


def test_a_stripe_is_seen_in_black_and_white() -> None:
    """Red and green, brown and blue are the same grey: a stripe has a black edge on a white casing."""
    for base in ("RD", "BK", "GN", "BU", "WH", "GY"):
        for mark in ("stripe", "ring", "dots"):
            made = shapes.swatch(Swatch(base, "RD", mark, "words"), 0, 0)
            over = [shape for shape in made if getattr(shape, "fill", "") == style.INKS["RD"]][
                1 if base == "RD" else 0 :
            ]
            casings = [shape for shape in made if shape.fill == style.WHITE and shape.stroke is None]
            casings = casings[1:] if base == "WH" else casings
            assert over, (base, mark)
            assert len(casings) == len(over), (base, mark)
            assert all(shape.stroke == style.BLACK and shape.line >= 0.5 for shape in over)
            for band, casing in zip(over, casings, strict=True):
                assert made.index(casing) < made.index(band)
                assert _across(casing)[0] <= _across(band)[0] - 1
                assert _across(casing)[1] >= _across(band)[1] + 1


def _across(shape: object) -> tuple[float, float]:
    points = getattr(shape, "points", None)
    if points:
        return min(x for x, _ in points), max(x for x, _ in points)
    if hasattr(shape, "radius"):
        return shape.x - shape.radius, shape.x + shape.radius
    return shape.x, shape.x + shape.width  # type: ignore[attr-defined]


def test_no_line_runs_through_the_words_of_an_empty_cavity(pages: Pages) -> None:
    seen = 0
    for page in pages:
        slanting = [line for line in page.lines if line["width"] > 1 and line["height"] > 1]
        for word in words_of(page):
            if word["text"] == "empty":
                seen += 1
                for line in slanting:
                    apart = (
                        line["x1"] < word["x0"] or line["x0"] > word["x1"]
                        or line["bottom"] < word["top"] or line["top"] > word["bottom"]
                    )  # fmt: skip
                    assert apart, page.page_number
    assert seen > 20
