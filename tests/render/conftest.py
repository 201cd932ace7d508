"""Sheets that try to break the paper: long words, markup characters, wide plugs, tall tables."""

from __future__ import annotations

import io

import pdfplumber
import pytest

from render.blocks import (
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
    PageBreak,
    Para,
    Picture,
    Room,
    Sheet,
    Strong,
    Swatch,
    Tick,
)
from render.ends import FaceShape, grid_shape
from render.writers.pdf import write_pdf

SPECIAL = "Ω ° ± → − ² µ ½ × ≤ ≥ · “ ” – …"
MARKUP = "<b>bold</b> & \"quoted\" 'single' {{ 7*7 }} {% raw %} {brace} a:b \\N \\"
LONG = "unbrokenleadname" * 14

COLOURS = (
    ("WH", "", "stripe", "white"),
    ("WH", "BK", "stripe", "white with black stripe"),
    ("GN", "YE", "ring", "green with yellow rings"),
    ("LIGHT-GREEN", "BN", "dots", "light green with brown dots"),
    ("B", "", "stripe", "“B”"),
    ("BK", "", "stripe", "black"),
    ("CLEAR", "GY", "stripe", "clear with grey stripe"),
)
FUNCTIONS = ("FL+", "FL−", "CAN-H", "AMP-ON", "B+", "SHIELD", "RL-TW+")


def swatch(index: int) -> Swatch:
    return Swatch(*COLOURS[index % len(COLOURS)])


def filled(title: str, shape: FaceShape, keying: str = "") -> Face:
    """A face with something in every cavity: every state, every mark, every kind of colour."""
    cavities = []
    for index, number in enumerate(shape.numbers):
        if index % 6 == 5:
            cavities.append(Cavity(number, ("empty", "leave its seal"), None, "", "crossed"))
        else:
            lines = (FUNCTIONS[index % len(FUNCTIONS)], "cut, join to dsp in, cap the rest")
            state = "highlighted" if index % 4 == 0 else "plain"
            mark = ("PASS", "CUT", "TAP", "CAP")[index % 4]
            cavities.append(Cavity(number, lines, swatch(index), mark, state))
    return Face(title, shape, tuple(cavities), keying)


def long_grid(rows: int) -> Grid:
    columns = (
        Column("Cavity", 1, "right"),
        Column("Channel", 1),
        Column("Colour", 3),
        Column("What to do", 4),
        Column("Done", 1.5),
        Column("Reading", 2, "centre"),
    )
    body = tuple(
        (
            Strong(f"K{row}"),
            Strong(FUNCTIONS[row % 7]),
            swatch(row),
            (f"join to T1 lead <{row}> & cap", "then tug"),
            Tick("yes", "no"),
            Room(25),
        )
        for row in range(1, rows + 1)
    )
    return Grid(columns, body, "Every cavity of the plug")


def routes() -> Picture:
    channels = ("FL", "FR", "RL", "RR")
    nodes = [Node("radio", "radio", (MARKUP,), stage=0)]
    edges = []
    for index, channel in enumerate(channels):
        nodes.append(Node(f"in-{channel}", f"dsp in{index + 1}", ("2..20 V differential",), stage=1))
        nodes.append(Node(f"spk-{channel}", f"speaker {channel}", ("4 Ω",), "loudspeaker", 2))
        edges.append(Edge("radio", f"in-{channel}", channel, (swatch(index),), index == 0, channel))
        edges.append(Edge(f"in-{channel}", f"spk-{channel}", f"{channel} <&>", (), False, channel))
    return Picture("Signal routes & <such>", tuple(nodes), tuple(edges))


@pytest.fixture(scope="session")
def masthead() -> Masthead:
    return Masthead(
        "Processor amplifier & one subwoofer", "B", "Larch estate 2022", "CONSISTENT, NOT VERIFIED",
        "6 pairs charted, 2 measured, 0 toned", "house", "3fa9c1d27b",
    )  # fmt: skip


@pytest.fixture(scope="session")
def sheets() -> tuple[Sheet, ...]:
    words = "Some words about the job that go on for a while. "
    narrow = Grid(
        (Column(LONG), Column("b", 0.1), Column("c", 0.1)),
        ((LONG, Strong(LONG), Tick(LONG)), ("x", Swatch("WH", "BK", "stripe", LONG), "y\n" * 130)),
    )
    kept = Keep((Heading("Kept together", 2), Para(words), Grid((Column("A"),), (("1",),))))
    return (
        Sheet(
            "words",
            f"Words {MARKUP}",
            (
                Heading("Heading one", 1), Para(f"{SPECIAL} {MARKUP}"), Para(words * 30), Caution(words * 6),
                Caution(MARKUP), Caution(words * 150), Listing((words * 5, LONG, MARKUP), True),
                Listing(("a", SPECIAL)), Heading("Heading two", 2), Para(LONG), kept, PageBreak(),
                Heading("Heading three", 3), narrow, Grid((Column("Main"),), ((words,),), "", True),
            ),
        ),
        Sheet("table", "Long table", (long_grid(90),)),
        Sheet("small", "Small plugs", (
            FacePair(filled("A", FaceShape((("1", "3", "5", "7"), ("2", "4", "6", "8")), "wire", "left"))),
            Face("Not recorded", grid_shape(2, 3, "mating", "top"), ()),
        )),
        Sheet("wide", "Forty ways", (
            FacePair(filled("Plug", grid_shape(2, 20, "wire", "top"), "two ribs")),
            FacePair(filled("Plug", grid_shape(2, 20, "mating", "left", "bottom right", "down")), "mating"),
        ), True),
        Sheet("three", "Three rows", (FacePair(filled("Plug", grid_shape(3, 12, "wire", "bottom"))),)),
        Sheet("tight", "Forty ways upright", (filled("Plug", grid_shape(2, 20, "wire", "right")),)),
        Sheet("routes", "Routes", (routes(),)),
        Sheet("empty", "Nothing on it", ()),
    )  # fmt: skip


@pytest.fixture(scope="session")
def pdf(sheets: tuple[Sheet, ...], masthead: Masthead) -> bytes:
    return write_pdf(sheets, masthead)


@pytest.fixture(scope="session")
def pages(pdf: bytes) -> list[pdfplumber.page.Page]:
    return list(pdfplumber.open(io.BytesIO(pdf)).pages)
