"""What the tests of the reader share: the sample jobs, and a seeded maker of spoilt copies."""

from __future__ import annotations

import random
import re
from collections.abc import Callable
from pathlib import Path

import pytest

from harness.read.fields import Either, Fields, Listing
from harness.read.spec import JOB, PART_FILE

JOBS = Path(__file__).parent / "jobs"

_OTHER_WORDS = (
    "FL+", "FL", "GND", "CAN", "WH/BK", "WH", "18 AWG", "0.5 mm2", "12 in", "4 ohm", "8.5 V", "100 mA", "75 %",
    "btl",
    "unknown", "empty", "twisted", "reversed", "left", "factory", "2022", "1", "0", "spk.FL", "dash.car.FL+",
    "in1..4", "out1+/out2-", "radio", "mate", "crimp at the kick", "dash", "a b", "true", "null", "~", "1e3", "012",
    "NO", "-", "x", "[a, b]", "{a: b}", "[]", "{}", "[FL+]", "{to: dsp.in1}", "{function: FL}", "ft", "Hz", "kHz",
    "8 awg", "3 inch", "B+",
)  # fmt: skip
_OTHER_KEYS = (
    "place", "note", "unit", "car", "cavities", "ends", "kind", "part", "1", "1/2", "FL FR", "in1", "T1", "mate",
    "crimp", "to", "function", "colour", "title", "ringout", "plugs", "connectors", "x y", "a.b", "FL+", "1-8", "car.3",
)  # fmt: skip
_VALUE = re.compile(r"(?<=: )[^\s{\[,}\]#][^,}\]#\n]*|(?<=- )[^\s{\[#][^#\n]*")
_KEY = re.compile(r"(?<=[ {,])[A-Za-z0-9+/.-]+(?=: )|^ *[A-Za-z0-9+/. -]+(?=:)", re.MULTILINE)


def _spot(draw: random.Random, pattern: re.Pattern[str], text: str) -> tuple[int, int]:
    found = [match.span() for match in pattern.finditer(text)]
    return draw.choice(found) if found else (0, 0)


def _another_value(draw: random.Random, text: str) -> str:
    start, end = _spot(draw, _VALUE, text)
    return text[:start] + draw.choice(_OTHER_WORDS) + text[end:]


def _values_swapped(draw: random.Random, text: str) -> str:
    start, end = _spot(draw, _VALUE, text)
    other_start, other_end = _spot(draw, _VALUE, text)
    return text[:start] + text[other_start:other_end] + text[end:]


def _word_dropped(draw: random.Random, text: str) -> str:
    start, end = _spot(draw, _VALUE, text)
    words = text[start:end].split(" ")
    words.pop(draw.randrange(len(words)))
    return text[:start] + (" ".join(words) or "x") + text[end:]


def _word_added(draw: random.Random, text: str) -> str:
    start, end = _spot(draw, _VALUE, text)
    words = text[start:end].split(" ")
    words.insert(draw.randrange(len(words) + 1), draw.choice(_OTHER_WORDS[:40]))
    return text[:start] + " ".join(words) + text[end:]


def _char_changed(draw: random.Random, text: str) -> str:
    start, end = _spot(draw, draw.choice((_VALUE, _KEY)), text)
    if end <= start:
        return text
    at = draw.randrange(start, end)
    kind = draw.randrange(4)
    if kind == 0:
        return text[:at] + text[at].swapcase() + text[at + 1 :]
    if kind == 1:
        return text[:at] + text[at + 1 :]
    return text[: at + (kind == 2)] + draw.choice("abFL019+-/._ ") + text[at + 1 :]


def _another_key(draw: random.Random, text: str) -> str:
    start, end = _spot(draw, _KEY, text)
    indent = len(text[start:end]) - len(text[start:end].lstrip(" "))
    return text[: start + indent] + draw.choice(_OTHER_KEYS) + text[end:]


def _line_dropped(draw: random.Random, text: str) -> str:
    lines = text.split("\n")
    lines.pop(draw.randrange(len(lines)))
    return "\n".join(lines)


def _value_wrapped(draw: random.Random, text: str) -> str:
    start, end = _spot(draw, _VALUE, text)
    pattern = draw.choice(("[{}]", "{{x: {}}}", "{{to: {}}}", "{}  ", "'{}'", "{} {}"))
    return text[:start] + pattern.format(text[start:end], text[start:end]) + text[end:]


_MUTATIONS: tuple[Callable[[random.Random, str], str], ...] = (
    _another_value, _values_swapped, _word_dropped, _word_added, _char_changed, _another_key,
    _line_dropped, _value_wrapped,
)  # fmt: skip


def spoilt(text: str, seed: int) -> str:
    """A copy with one slip or two of a kind that people make; the same for the same seed."""
    draw = random.Random(seed)
    for _ in range(draw.choice((1, 1, 2))):
        text = draw.choice(_MUTATIONS)(draw, text)
    return text


def _lines(change: Callable[[random.Random, list[str]], None]) -> Callable[[random.Random, str], str]:
    def changed(draw: random.Random, text: str) -> str:
        lines = text.split("\n")
        change(draw, lines)
        return "\n".join(lines)

    return changed


def _line_doubled(draw: random.Random, lines: list[str]) -> None:
    lines.insert(draw.randrange(len(lines)), draw.choice(lines))


def _lines_swapped(draw: random.Random, lines: list[str]) -> None:
    a, b = draw.randrange(len(lines)), draw.randrange(len(lines))
    lines[a], lines[b] = lines[b], lines[a]


def _indent_changed(draw: random.Random, lines: list[str]) -> None:
    at = draw.randrange(len(lines))
    indent = draw.choice(("", " ", "  ", "   ", "      ", "\t", " \t", "\u00a0", "- ", "-", "? ", "# "))
    lines[at] = indent + lines[at].lstrip(" ")


def _block_indented(draw: random.Random, lines: list[str]) -> None:
    at = draw.randrange(len(lines))
    for number in range(at, min(at + draw.randrange(1, 6), len(lines))):
        lines[number] = "  " + lines[number]


def _chars_put_in(draw: random.Random, text: str) -> str:
    at = draw.randrange(len(text) + 1)
    signs = (
        *"[]{},:#&*!|>'\"%@`?-~=\\\t\n\r \0\x07\x85", "\u2028", "“", "’", "–", "−", "Ω", "²", "\u200b", "\ufeff",
        "é", "😀",
        ": ", " #", "- ", "---\n", "...\n", "<<: ", "&a ", "*a ", "!!str ", "\r\n", "%YAML 1.1\n",
        "[[[[[[[[[[[[[[", "{{",
        "\ud800", "|\n", ">-\n", "? ", '"\\x00"', '"\\ud800"', "\xa0",
    )  # fmt: skip
    return text[:at] + draw.choice(signs) + text[at + draw.randrange(2) :]


def _cut_out(draw: random.Random, text: str) -> str:
    a, b = sorted((draw.randrange(len(text) + 1), draw.randrange(len(text) + 1)))
    b = min(b, a + 200)
    return text[:a] + text[b:]


def _spliced(draw: random.Random, text: str) -> str:
    a, b, at = (draw.randrange(len(text) + 1) for _ in range(3))
    return text[:at] + text[min(a, b) : min(a, b) + 120] + text[at:]


def _cut_off(draw: random.Random, text: str) -> str:
    return text[: draw.randrange(len(text) + 1)]


def _tokens_swapped(draw: random.Random, text: str) -> str:
    tokens = re.split(r"(\W+)", text)
    a, b = draw.randrange(len(tokens)), draw.randrange(len(tokens))
    tokens[a], tokens[b] = tokens[b], tokens[a]
    return "".join(tokens)


_GARBLINGS = (
    _lines(_line_doubled), _lines(_lines_swapped), _lines(_indent_changed), _lines(_block_indented), _line_dropped,
    _chars_put_in, _chars_put_in, _cut_out, _spliced, _cut_off, _tokens_swapped, *_MUTATIONS,
)  # fmt: skip


def garbled(text: str, seed: int) -> bytes:
    """A copy damaged as by a slipped hand, a bad copy or a broken disk; the same for the same seed."""
    draw = random.Random(seed)
    for _ in range(draw.choice((1, 1, 1, 2, 3, 6))):
        text = draw.choice(_GARBLINGS)(draw, text)
    raw = bytearray(text.encode("utf-8", "surrogatepass"))
    if raw and draw.random() < 0.15:
        for _ in range(draw.choice((1, 1, 3))):
            raw[draw.randrange(len(raw))] ^= 1 << draw.randrange(8)
    return bytes(raw)


def job_texts() -> dict[str, str]:
    """Every sample job of the reader's tests and of the shipped samples, by file name."""
    shipped = Path(__file__).parents[2] / "samples"
    paths = sorted(JOBS.glob("*.yaml")) + sorted(shipped.glob("*-*.yaml"))
    return {path.name: path.read_text(encoding="utf-8") for path in paths if "evidence" not in path.name}


@pytest.fixture(scope="session")
def jobs() -> dict[str, str]:
    return job_texts()


@pytest.fixture
def garble() -> Callable[[str, int], bytes]:
    return garbled


@pytest.fixture
def spoil() -> Callable[[str, int], str]:
    return spoilt


def _collect(shape: object, seen: dict[int, object]) -> None:
    if shape is None or id(shape) in seen:
        return
    seen[id(shape)] = shape
    inner: tuple[object, ...] = ()
    if isinstance(shape, Fields):
        inner = (*shape.keys.values(), *(each for row in shape.rows for each in row))
    elif isinstance(shape, Listing):
        inner = (shape.item,)
    elif isinstance(shape, Either):
        inner = (shape.text, shape.table, shape.listing)
    for each in inner:
        _collect(each, seen)


@pytest.fixture(scope="session")
def all_shapes() -> Callable[[], list[object]]:
    """Every shape of the spec, of jobs and of part files, once."""

    def collect() -> list[object]:
        seen: dict[int, object] = {}
        _collect(JOB, seen)
        _collect(PART_FILE, seen)
        return list(seen.values())

    return collect
