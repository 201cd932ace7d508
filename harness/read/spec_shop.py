"""The shop file's keys and what may stand behind each: the drawer, the rates, where the maps lie."""

from __future__ import annotations

from harness.read import patterns as p
from harness.read.fields import Fields, Listing, Word
from harness.read.spec import METHODS, VERSION
from harness.read.spec_parts import LOOM
from harness.read.spec_words import DATE, NAME, NOTE, PRICE, STOCK, TEXT, quantity_of

_TIME = quantity_of("time", "4 min")
_SPAN = Word("a time, or a range of one", p.TIME_SPAN, "7..15 min", kind="quantity time")
_MONEY = Word("a price with its currency", p.PRICE, "84.00 EUR", kind="price")
_DAYS = Word("a number of days", "0|[1-9][0-9]{0,2}", "9", kind="count", number=(0, 999), unknown=True)
_FILES = Listing("a list of files", Word("a file's name", example="parts/looms.yaml", most=500), example="[looms.yaml]")

# what a joint or a capped lead uses up, counted by the piece
LOOSE = ("butt joint", "spring connector", "ring", "tap", "heat shrink", "cap")

_DRAWER_LOOM = Fields(
    LOOM.what,
    {**LOOM.keys, "days": _DAYS},
    one_of=LOOM.one_of,
    example="{ends: {unit: 20-way L, car: 20-way L}, leads: {…}, price: 38.50 EUR, stock: 2}",
)
_LOOSE = Fields(
    "a table about the part",
    {"price": PRICE, "stock": STOCK, "days": _DAYS, "note": NOTE},
    example="{price: 0.35 EUR, stock: 100}",
)
_DRAWER = Fields(
    "a table of what is in the drawer",
    {
        "looms": Fields(
            "a table of looms", rows=((NAME, _DRAWER_LOOM),), example="{L1: {ends: {…}, leads: {…}, price: 38.50 EUR}}"
        ),
        "parts": Fields(
            "a table of loose parts",
            dict.fromkeys(LOOSE, _LOOSE),
            example="{butt joint: {price: 0.35 EUR}}",
        ),
    },
    example="{looms: {…}, parts: {…}}",
)
RECHECKS = ("position", "lock", "tug")
WORKS = ("mate", "cut end off", "pull", "move", "cap")
# what a scope counts, before anything is planned: each a time, or from and to
SPANS = (
    "reach a plug", "reach an amplifier", "fit a unit", "fit a speaker", "lay a supply cable", "lay a cable",
    "tone a pair", "test an output", "tune a channel", "try a function", "close a place",
)  # fmt: skip
_RATES = Fields(
    "a table of the shop's rates",
    {
        "labour": _MONEY,
        "consumables": _MONEY,
        "joints": Fields(
            "a table of minutes by way of joining and place",
            rows=(
                (
                    Word(
                        "a way to join",
                        rf"(?:{'|'.join(METHODS[1:])})(?: at \S+(?: \S+)*)?",
                        "solder at dash",
                        kind="method",
                        most=200,
                    ),
                    _TIME,
                ),
            ),
            example="{solder at dash: 7 min, solder: 4 min}",
        ),
        **dict.fromkeys(WORKS, _TIME),
        **dict.fromkeys(SPANS, _SPAN),
        "recheck": Fields(
            "a table of minutes", dict.fromkeys(RECHECKS, _TIME), example="{position: 30 s, lock: 20 s, tug: 10 s}"
        ),
    },
    example="{labour: 84.00 EUR, joints: {solder: 5 min}}",
)
_DASH = Listing("a list of places", TEXT, example="[behind the radio, glove box]")

SHOP = Fields(
    "a shop file",
    {
        "ringout": VERSION,
        "title": TEXT,
        "preset": NAME,
        "as of": DATE,
        "job date": DATE,
        "maps": Listing("a list of folders", Word("a folder", example="maps", most=500), example="[maps]"),
        "parts": _FILES,
        "drawer": _DRAWER,
        "rates": _RATES,
        "dash": _DASH,
        "note": NOTE,
    },
    required=("ringout",),
    example="ringout: 1",
)
