"""Rows of plugs and looms: one cavity, or two that are a pair with + first."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import NamedTuple

from harness.model.colour import MARKS, Colour, read_colour
from harness.model.function import EMPTY, UNKNOWN, Function, pair_of, read_function
from harness.model.parts import Row
from harness.read.nodes import Node, Table, Text
from harness.read.troubles import Troubles
from harness.units import SIZE_PATTERN, WireSize, wire_size

Legend = tuple[tuple[str, str], ...]
# A named tuple made from a tuple: a third of the time, and there is one for every contact and line of a big job.
_new = tuple.__new__
_SIZE = re.compile(rf" ({SIZE_PATTERN})(?= |$)")


class Words(NamedTuple):
    """What stands behind the colon of a row."""

    function: Function
    colours: tuple[Colour, ...]
    size: WireSize | None
    twisted: bool
    note: str


@lru_cache(maxsize=4096)  # the same few rows stand in plug after plug
def read_words(text: str, legend: Legend, mark: str = "stripe") -> Words:
    """`FL WH WH/BK 0.5 mm2 twisted` taken apart. Raises ValueError naming the word not understood."""
    size = None
    match = _SIZE.search(" " + text)
    if match:
        size = wire_size(match[1])
        text = (" " + text)[: match.start()] + (" " + text)[match.end() :]
    words = text.split()
    twisted = "twisted" in words
    words = [word for word in words if word != "twisted"]
    function = read_function(words[0]) if words else UNKNOWN
    if function is None:
        raise ValueError(f"“{words[0]}” is not a function")
    colours = []
    for word in words[1:]:
        colours.append(colour_of(word, legend, mark))
    return Words(function, tuple(colours), size, twisted, "")


def colour_of(word: str, legend: Legend, mark: str = "stripe") -> Colour:
    """One colour word of a row or chain. Raises ValueError where it can be none.

    Three letters or fewer may be some maker's code: kept as written and asked about.
    """
    colour = read_colour(word, legend, mark)
    if colour is not None:
        return colour
    if not re.fullmatch(r"[A-Za-z]{1,3}(/[A-Za-z]{1,3})?", word):
        raise ValueError(f"“{word}” is not a colour")
    return _unread(word, legend, mark)


def _unread(word: str, legend: Legend, mark: str) -> Colour:
    parts = [read_colour(part, legend, mark) for part in word.split("/")]
    codes = [colour.base if colour else part for colour, part in zip(parts, word.split("/"), strict=True)]
    unread = tuple(part for colour, part in zip(parts, word.split("/"), strict=True) if not colour or colour.unread)
    return Colour(word, codes[0], codes[1] if len(codes) > 1 else "", mark, unread)


def words_of(node: Node, legend: Legend, troubles: Troubles, bad: set[int]) -> Words | None:
    """A row's words from its short or long form; None (and told) where it isn't understood."""
    if id(node) in bad:
        return None
    if isinstance(node, Text):
        text, mark, note, twisted, at = node.value, "stripe", "", False, node
    elif isinstance(node, Table):
        said = {key.value.lower(): value for key, value in node.items if isinstance(value, Text)}
        if any(id(value) in bad for _, value in node.items):
            return None
        first = said.get("function")
        mark = said["mark"].value.lower() if "mark" in said else "stripe"
        mark = mark if mark in MARKS else "stripe"
        note = said["note"].value if "note" in said else ""
        twisted = "twisted" in said
        pieces = [first.value if first else "unknown"]
        pieces += [said[key].value for key in ("colour", "size") if key in said]
        if not said:
            return None
        text, at = " ".join(pieces), first or next(iter(said.values()))
    else:
        return None
    try:
        words = read_words(text, legend, mark)
    except ValueError as wrong:
        troubles.add("R09", at.place, text, f"{wrong}.", "Write FUNCTION COLOUR SIZE, for instance FL+ WH/BK 0.5 mm2.")
        return None
    return words._replace(note=note, twisted=words.twisted or twisted) if note or twisted else words


def rows_of(key: Text, cavities: tuple[str, ...], words: Words, troubles: Troubles) -> list[Row]:
    """One row for each cavity; a pair's signs are given in the order written."""
    place = key.place
    if len(cavities) == 1:
        if len(words.colours) > 1:
            _refuse_colours(key, words, 1, troubles)
        colour = words.colours[0] if words.colours else None
        row = (cavities[0], words.function, colour, words.size, place, "", words.twisted, words.note)
        return [_new(Row, row)]
    if words.function in (EMPTY, UNKNOWN):
        both: tuple[Function, Function] | None = (words.function, words.function)
    else:
        both = pair_of(words.function)
    if both is None:
        troubles.add(
            "R23", place, key.value, f"{words.function.name} is one contact, and “{key.value}” is two cavities.",
            f"Write two rows, `{cavities[0]}: {words.function.name} …` and `{cavities[1]}: {words.function.name} …`.",
        )  # fmt: skip
        return []
    if len(words.colours) not in (0, 2):
        _refuse_colours(key, words, 2, troubles)
        return []
    colours: tuple[Colour | None, ...] = words.colours or (None, None)
    return [
        _new(Row, (cavity, function, colour, words.size, place, other, words.twisted, words.note))
        for cavity, other, function, colour in zip(cavities, cavities[::-1], both, colours, strict=True)
    ]


def _refuse_colours(key: Text, words: Words, want: int, troubles: Troubles) -> None:
    troubles.add(
        "R23", key.place, key.value,
        f"“{key.value}” is {want} {'cavity' if want == 1 else 'cavities'}, with {len(words.colours)} colours.",
        "Write as many colours as cavities, + first; a stripe goes behind a slash (WH/BK).",
    )  # fmt: skip


def cavities_of(key: str) -> tuple[str, ...]:
    """`1/11` as two cavities, `7` as one."""
    return tuple(key.split("/"))
