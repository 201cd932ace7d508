"""The patterns of the file's words against what the model reads, and the quick answers against the patterns."""

from __future__ import annotations

import itertools
import random
import re
import time
from collections.abc import Callable

import pytest

from harness.model.colour import read_colour
from harness.model.function import (
    CHANNEL_SPELLINGS,
    CHANNELS,
    DIN,
    DRIVERS,
    KINDS,
    pair_of,
    read_function,
)
from harness.read import patterns as p
from harness.read.fields import Word
from harness.read.quick import QUICK
from harness.read.spec_words import CONTACT
from harness.units import UNITS, quantity, wire_size


def fits(pattern: str, text: str) -> bool:
    return re.fullmatch(pattern, text, re.ASCII) is not None


def _function_texts() -> list[str]:
    channels = [*CHANNELS, *CHANNEL_SPELLINGS, "XL", "F", "DRIVER-FRONT", "passenger-rear", "driver-left"]
    drivers = ["", *(f"-{driver}" for driver in DRIVERS), "-XX"]
    ports = [
        f"{stem}{number}" for stem in ("in", "OUT", "rca", "line", "aux", "port") for number in ("", "1", "12", "123")
    ]
    words = [*KINDS, *DIN, "CAN", "CAN-H", "CAN-L", "CAN-X", "MIC", "SRS", "DIGITAL", "B", "GN", "87b", "29"]
    bases = [f"{channel}{driver}" for channel in channels for driver in drivers] + ports + words
    return [text for base in bases for sign in ("", "+", "-", "*") for text in (base + sign, (base + sign).lower())]


def test_functions_are_what_the_model_reads() -> None:
    texts = _function_texts()
    read = [read_function(text) is not None for text in texts]
    assert 300 < sum(read) < len(texts) - 300
    for text, is_function in zip(texts, read, strict=True):
        assert fits(p.FUNCTION, text) == is_function, text


def test_functions_of_a_pair_are_what_the_model_makes_pairs_of() -> None:
    for text in _function_texts():
        function = read_function(text)
        assert fits(p.PAIR_FUNCTION, text) == (function is not None and pair_of(function) is not None), text


def test_every_size_that_fits_is_one() -> None:
    numbers = [*map(str, range(60)), "1/0", "2/0", "4/0", "5/0", "0.5", "0.0", "00", "1.50", "10.25", "08"]
    texts = [f"{number} {unit}" for number in numbers for unit in ("AWG", "SAE", "mm2", "awg", "mm")]
    good = [text for text in texts if fits(p.SIZE, text)]
    assert len(good) > 100
    for text in good:
        assert wire_size(text).area_mm2 > 0
    for text in texts:  # and nothing is refused but other spellings of a number
        if text not in good and not re.match(r"0[0-9]|0\.0 ", text):
            with pytest.raises(ValueError):
                wire_size(text)


@pytest.mark.parametrize("dimension", sorted(UNITS))
def test_every_quantity_that_fits_is_one(dimension: str) -> None:
    for number, unit in itertools.product(("1", "0.5", "12", "100.25"), UNITS[dimension]):
        text = f"{number} {unit}"
        assert fits(p.quantity(dimension), text)
        assert quantity(text, dimension) == pytest.approx(float(number) * UNITS[dimension][unit])
    assert not fits(p.quantity(dimension), "1")
    assert not fits(p.quantity(dimension), ".5 x")


def test_every_colour_word_is_read_and_every_read_colour_fits() -> None:
    for text in ("WH/BK", "tan", "Light-Green/black", "SB", "red/RD", "BLK/ORG", "CLEAR"):
        assert fits(p.COLOUR, text), text
        assert read_colour(text) is not None, text
    for text in ("WHITEX", "WH/", "/BK", "WH/BK/RD", "twisted", "1", "WH-BK"):
        assert not fits(p.COLOUR, text), text
    for text in ("light blue", "BLACK", "og", "purple"):
        assert fits(p.COLOUR_WORD, text) == (text != "purple")


def test_what_can_be_a_contact() -> None:
    for text in (
        "dash.1", "dash.unit.1", "dash.car.FL+", "T1.aerial", "dsp.out1+/out2-", "spk.SUB.c1+", "gnd.G1", "battery.+",
        "battery.-", "dash.car.1..8", "dsp.in1..in4", "C2.1/2", "C204.7/8", "dash.CAN-H", "1x.2",
    ):  # fmt: skip
        assert CONTACT.fits(text), text
    for text in (
        "dash",
        "dash.",
        ".1",
        "dash.car.1.2",
        "dash..1",
        "a b.1",
        "dash+.1",
        "dash.1,2",
        "dash.FL reversed",
        "é.1",
    ):
        assert not CONTACT.fits(text), text


def _texts(draw: random.Random) -> str:
    pieces = (
        "FL", "FL+", "GND", "CAN", "unknown", "empty", "WH", "WH/BK", "wh", "18", "AWG", "0.5", "mm2", "twisted", "tan",
        "dash.FL", "spk.FL", ">", "12", "in", "4", "fuse", "A", "rca", "5", "m", "via", "bulkhead", "grommet", "CCA",
        "reversed", "btl", "2..20", "V", "@", "ohm", "least", "..80", "Hz", "-3", "dB", "0.9", "ms", "in1", "+", "out2",
        "inverted", "step", "31", "of", "40", "clean", "fixed",
        "volume", "80..", "kHz", "radio", "", "1x", "copper", "x.y/z", "car.3",
    )  # fmt: skip
    return " ".join(draw.choice(pieces) for _ in range(draw.randrange(1, 8)))


def test_a_quick_yes_is_the_patterns_yes() -> None:
    patterns = {
        "row": p.ROW, "lead row": p.LEAD_ROW, "pair row": p.PAIR_ROW, "chain": p.CHAIN, "signal": p.SIGNAL,
        "output": p.OUTPUT, "route": p.ROUTE, "feature": rf"{p.NAME}(?: > {p.CONTACTS})?",
    }  # fmt: skip
    assert patterns.keys() == QUICK.keys()
    draw = random.Random(7)
    yes = dict.fromkeys(patterns, 0)
    examples = {
        "row": "FL+ WH/BK 0.5 mm2 twisted", "lead row": "GND BK", "pair row": "FL WH WH/BK 18 AWG",
        "chain": "a.1 > 12 in 4 AWG CCA via floor grommet > fuse 40 A > C2.7/8 BU BU/BK > 5 m rca > b.2 c.3 reversed",
        "signal": "75 W @ 4 ohm least 2 ohm ..80 Hz btl", "output": "btl 8.5 V clean step 31 of 40 ..80 Hz fixed",
        "route": "in3 + in4 ..80 Hz -3 dB 0.9 ms inverted",
        "feature": "radio > spk.RL spk.RR",
    }  # fmt: skip
    for kind, text in examples.items():
        assert QUICK[kind](text), kind
        words = text.split(" ")
        for _ in range(1500):
            spoilt = words[:]
            at = draw.randrange(len(words))
            spoilt[at : at + draw.randrange(2)] = _texts(draw).split(" ")[: draw.randrange(3)]
            for candidate in (" ".join(spoilt), _texts(draw)):
                if QUICK[kind](candidate):
                    yes[kind] += 1
                    assert fits(patterns[kind], candidate), (kind, candidate)
    assert min(yes.values()) > 20, yes


def test_a_long_text_takes_no_time(all_shapes: Callable[[], list[object]]) -> None:
    """No pattern tries a text over and over: each takes far less than a second on the longest text."""
    from harness.read.spec import JOB

    assert JOB
    pieces = ("a", "a.b ", "1 ", "a/", "a-", "a.b > ", "1..", "in ", "1 in 4 AWG via x ", " ", "WH ", "a + ")
    for shape in all_shapes():
        if isinstance(shape, Word) and shape.pattern:
            matcher = re.compile(shape.pattern, re.ASCII)
            for piece in pieces:
                text = (piece * 5000)[: shape.most] + "!"
                start = time.perf_counter()
                assert not matcher.fullmatch(text) or "[^" in shape.pattern or r"\S" in shape.pattern
                assert time.perf_counter() - start < 0.5, (shape.what, piece)
