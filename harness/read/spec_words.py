"""Single words of the job file: names, contacts, quantities, rows."""

from __future__ import annotations

from harness.read import patterns as p
from harness.read.fields import Either, Listing, Word

TEXT = Word("a text", example="a few words", most=500)
NOTE = Word("a text", example="a few words", most=5000, lines=True)
NAME = Word("a name", p.NAME, "dash", kind="name", most=60)
NAMES = Word("one name or several", p.NAMES, "FL FR", kind="name")
CAVITY = Word("a cavity", p.CAVITY, "12", kind="cavity", number=(0, 999_999))
PAIR_KEY = Word("two cavities", p.PAIR_KEY, "1/11", kind="cavity")
TERMINAL = Word("a terminal", p.SEGMENT, "rem", kind="terminal", most=60)
CONTACT = Word("a contact", p.CONTACT, "dash.car.FL+", kind="contact", most=120)
CONTACTS = Word("one contact or several", p.CONTACTS, "spk.RL spk.RR", kind="contact", most=2000)
TURNED = Word("a contact", p.TURNED, "dsp.in1", kind="contact", most=120)
FUNCTION = Word("a function", p.FUNCTION, "ACC", kind="function")
COUNT = Word("a number", p.COUNT, "20", kind="count", number=(1, 999))
YEAR = Word("a year", p.YEAR, "2022", kind="year", number=(1000, 2999), unknown=True)


def quantity_of(dimension: str, example: str, unknown: bool = False) -> Word:
    """A number with a unit of `dimension`."""
    return Word(f"a {dimension}", p.quantity(dimension), example, kind=f"quantity {dimension}", unknown=unknown)


LENGTH = quantity_of("length", "12 in")
CURRENT = quantity_of("current", "100 mA")
OHM = quantity_of("resistance", "4 ohm", unknown=True)
DATE = Word("a date", p.DATE, "2026-03-02", kind="date")
PRICE = Word("a price with its currency", p.PRICE, "38.50 EUR", kind="price", unknown=True)
STOCK = Word("how many there are", "0|[1-9][0-9]{0,4}", "2", kind="count", number=(0, 99_999), unknown=True)


def some(what: str, word: Word, example: str) -> Either:
    """Several of one kind, as words with spaces or as a list."""
    pattern = p.one_or_more(word.pattern)
    text = Word(what, pattern, word.example, kind=word.kind, words=(), most=2000)
    return Either(text=text, listing=Listing(what, word, example=example))
