"""What a chart's columns are, by their headings: the spellings of the trade (common practice, no source)."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import NamedTuple

# The words by which a column is named to us, and what each means.
FIELDS = {
    "cavity": "the number in the plug",
    "function": "what the wire is for",
    "sign": "+ or - of the pair",
    "colour": "the wire's colour, or its base",
    "stripe": "the second colour",
    "size": "mm2 or AWG",
    "twisted": "yes where the pair is twisted",
    "note": "anything else",
    "cavity+": "the number of the + wire, where a row is a pair",
    "cavity-": "the number of the - wire",
    "colour+": "the colour of the + wire",
    "colour-": "the colour of the - wire",
}
OTHER_WORDS = {"color": "colour", "color+": "colour+", "color-": "colour-", "pin": "cavity", "channel": "function"}
# Several columns may be of these; of all others there is one.
_MANY = ("function", "note")

_PLACES = ("cavity", "pin", "terminal", "contact", "position", "pos", "way", "cav", "term", "pole")
_NUMBERS = ("", " no", " nr", " number", " num", " #")
_HUES = ("colour", "color", "wire colour", "wire color", "cable colour", "cable color", "lead colour", "lead color",
         "col", "colour code", "color code")  # fmt: skip
_SPELLINGS: dict[str, str] = {
    **{place + number: "cavity" for place in _PLACES for number in _NUMBERS},
    **dict.fromkeys(("no", "nr", "#", "number", "num"), "cavity"),
    **dict.fromkeys(
        ("function", "signal", "channel", "circuit", "use", "purpose", "signal name", "circuit name", "signal function",
         "circuit function", "pin function", "wire function", "assignment", "designation", "name", "ch"), "function",
    ),
    **dict.fromkeys(("sign", "polarity", "+/-", "pol", "+ -", "+/−"), "sign"),
    **dict.fromkeys((*_HUES, "base", "base colour", "base color", "main colour", "main color"), "colour"),
    **dict.fromkeys(
        ("stripe", "tracer", "trace", "stripe colour", "stripe color", "tracer colour", "tracer color",
         "second colour", "second color", "colour 2", "color 2"), "stripe",
    ),
    **dict.fromkeys(
        ("size", "wire size", "gauge", "wire gauge", "section", "cross section", "csa", "area", "mm2", "awg", "sq mm",
         "sqmm", "cable size", "conductor size"), "size",
    ),
    **dict.fromkeys(("twisted", "twist", "twisted pair"), "twisted"),
    **dict.fromkeys(
        ("note", "notes", "remark", "remarks", "comment", "comments", "info", "information", "description",
         "details"), "note",
    ),
}  # fmt: skip
_SIDED = re.compile(r"(.+?) ?\(?([+-])\)?")
_UNIT = re.compile(r"\b(mm2|sq mm|sqmm|awg|sae)\b")


class Column(NamedTuple):
    """One column: its heading as written (empty where there is none), the field, and the unit its heading names."""

    heading: str
    field: str  # empty: not known; its cells are kept as notes
    unit: str = ""  # mm2 | AWG | SAE | empty


def field_of(heading: str) -> str:
    """The field that a heading means, or empty."""
    return _column(heading, {}).field


def columns_of(cells: Sequence[str], named: Mapping[str, str]) -> list[Column]:
    """A column for each heading. `named` are the user's own: heading in small letters to field."""
    made: list[Column] = []
    for cell in cells:
        column = _column(cell, named)
        taken = column.field and column.field not in _MANY and any(each.field == column.field for each in made)
        made.append(column._replace(field="") if taken else column)
    return made


def by_position(fields: Sequence[str]) -> list[Column]:
    """Columns without headings. `-` is a column that isn't known."""
    return [Column("", "" if field == "-" else field) for field in fields]


def read_fields(text: str) -> list[str]:
    """`cavity function - size` as fields by position. Raises ValueError naming the word that is none."""
    made = []
    for word in text.replace(",", " ").split():
        field = OTHER_WORDS.get(word.lower(), word.lower())
        if field != "-" and field not in FIELDS:
            raise ValueError(f"{word!r} is no column; there are {', '.join(FIELDS)}, and - for one to keep as a note")
        if field in made and field not in (*_MANY, "-"):
            raise ValueError(f"{field!r} stands there twice")
        made.append(field)
    if missing := missing_in(made):
        raise ValueError(f"one column must be the {' and one the '.join(missing)}")
    return made


def missing_in(fields: Sequence[str]) -> tuple[str, ...]:
    """What a chart can't do without and has no column for."""
    cavity = "cavity" in fields or {"cavity+", "cavity-"} <= set(fields)
    return tuple(word for word, there in (("cavity", cavity), ("function", "function" in fields)) if not there)


def _column(cell: str, named: Mapping[str, str]) -> Column:
    low = " ".join(cell.lower().split())
    given = named.get(low)
    words = " ".join(re.sub(r"[.:_()\[\]]", " ", low.replace("²", "2").replace("-", " ")).split())
    unit = _UNIT.search(words)
    means = {"awg": "AWG", "sae": "SAE"}.get(unit[1], "mm2") if unit else ""
    if given is not None:
        return Column(cell, given, means)
    sided = _SIDED.fullmatch(low.rstrip(")"))
    if sided and sided[1] != low:
        plain = _SPELLINGS.get(" ".join(re.sub(r"[.:_()]", " ", sided[1]).split()), "")
        if plain in ("cavity", "colour"):
            return Column(cell, f"{plain}{sided[2]}")
    field = _SPELLINGS.get(low) or _SPELLINGS.get(words, "")
    if not field and unit:
        field = _SPELLINGS.get(" ".join(_UNIT.sub("", words).split()), "")
        field = field if field == "size" else ""
    return Column(cell, field, means if field == "size" else "")
