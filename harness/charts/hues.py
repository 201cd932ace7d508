"""Colours and wire sizes as charts write them, into the job file's words."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import NamedTuple

from harness.model.colour import AMBIGUOUS, IEC, OWN, UNKNOWN, code_of
from harness.read.patterns import SIZE

_STRIPED = re.compile(
    r"(?P<base>.+?)\s+(?:with|w/)\s*(?:an? )?(?P<stripe>.+?)\s+(?P<mark>stripe|tracer|trace|band|rings?|dots?)s?"
)
_MARKS = {"ring": "ring", "rings": "ring", "dot": "dots", "dots": "dots"}
_CODE = re.compile(r"[A-Za-z]{1,3}")
_TWO = re.compile(r"\s*[,;&+]\s*|\s+and\s+")
_NONE = frozenset(("-", "--", "---", "none", "n/a"))


class Hue(NamedTuple):
    """A colour as the job file writes it: `text` (empty: none said), its mark, and the codes that want a legend."""

    text: str
    mark: str = "stripe"
    unread: tuple[str, ...] = ()
    used: tuple[str, ...] = ()  # codes that the chart's own legend explained


class NotRead(Exception):
    """A cell that can be no colour, or no size."""


def hue(text: str, stripe: str, legend: Mapping[str, str]) -> Hue:
    """The colour in a cell, with that of a column for the stripe. `legend`: code in capitals to colour word.

    A code that legends read differently stays as it is written and stands in `unread`; so does one of up to three
    letters that nobody knows. Raises NotRead for anything else that is no colour.
    """
    base, mark = ("" if text.lower() in _NONE else text), "stripe"
    second = "" if stripe.lower() in _NONE else stripe
    if not base and not second:
        return Hue("")
    if base.lower() in (UNKNOWN, "?", "??") and not second:
        return Hue(UNKNOWN)
    if not second:
        striped = _STRIPED.fullmatch(base.lower())
        if striped:
            base, second = striped["base"], striped["stripe"]
            if second.upper() not in legend and not code_of(second) and not code_of(second.replace(" ", "-")):
                raise NotRead(f"“{second}” is no colour")
            mark = _MARKS.get(striped["mark"], "stripe")
        else:
            base, second = _parted(base, legend)
    if not base:
        raise NotRead(f"“{stripe}” is a stripe without a base")
    codes, unread, used = [], [], []
    for part in filter(None, (base, second)):
        code, known = _code(part, legend)
        codes.append(code)
        if not known:
            unread.append(code)
        elif code.upper() in legend:
            used.append(code.upper())
    return Hue("/".join(codes), mark, tuple(unread), tuple(used))


def two_hues(text: str, legend: Mapping[str, str]) -> tuple[Hue, Hue]:
    """The two colours of a pair in one cell, + first: `WH, WH/BK` or `WH WH/BK`. Raises NotRead."""
    if text.lower() in _NONE or not text:
        return Hue(""), Hue("")
    parts = _TWO.split(text)
    if len(parts) == 1:
        parts = text.split()
    if len(parts) != 2:
        raise NotRead(f"“{text}” isn't two colours, + first")
    return hue(parts[0], "", legend), hue(parts[1], "", legend)


def _parted(text: str, legend: Mapping[str, str]) -> tuple[str, str]:
    """Base and stripe of one cell: behind a slash, a hyphen or a blank, the whole first where it is a colour."""
    if "/" not in text and (text.upper() in legend or code_of(text) or code_of(text.replace(" ", "-"))):
        return text, ""
    for sign in ("/", "-", " "):
        parts = [part.strip() for part in text.split(sign)]
        if len(parts) == 2 and all(parts):
            return parts[0], parts[1]
        if len(parts) > 2:
            break
    return text, ""


def _code(part: str, legend: Mapping[str, str]) -> tuple[str, bool]:
    """What is written for one part, and whether it is known. Raises NotRead."""
    upper = part.upper()
    if upper in legend:
        # the plug's legend takes codes of three letters; a longer one is written as what it means
        return (upper, True) if _CODE.fullmatch(upper) else (code_of(legend[upper]), True)
    known = code_of(part) or code_of(part.replace(" ", "-"))
    if known:
        return known, True
    if _CODE.fullmatch(part) or upper in AMBIGUOUS:
        return upper, False
    raise NotRead(f"“{part}” is no colour")


def read_legend(text: str) -> dict[str, str]:
    """`SB=light blue, BL=blue` as codes in capitals to colour words.

    Raises ValueError naming the entry that is none.
    """
    made: dict[str, str] = {}
    for entry in filter(None, (each.strip() for each in re.split(r"[,;\n]", text))):
        code, sign, word = (each.strip() for each in re.split(r"([=:])", entry, maxsplit=1)) if re.search(
            "[=:]", entry
        ) else (entry, "", "")  # fmt: skip
        if not sign or not re.fullmatch(r"[A-Za-z]{1,8}", code) or not word:
            raise ValueError(f"{entry!r} is no entry of a legend; write it as SB=light blue")
        meant = code_of(word) or code_of(word.replace(" ", "-"))
        if not meant:
            raise ValueError(f"{word!r} is no colour; there are {', '.join([*IEC.values(), *OWN.values()])}")
        if made.get(code.upper(), meant) != meant:
            raise ValueError(f"{code!r} stands in the legend twice")
        made[code.upper()] = meant
    return {code: IEC.get(meant) or OWN[meant] for code, meant in made.items()}


_AREA = re.compile(r"([0-9]+(?:\.[0-9]+)?) ?(?:mm2|mm\^2|sq ?mm)")
_GAUGE = re.compile(r"(?:(?:awg|ga|gauge|#) ?([0-9]{1,2}|[1-4]/0)|([0-9]{1,2}|[1-4]/0) ?(?:awg|ga|gauge)\.?)")
_SAE = re.compile(r"([0-9]{1,2}|[1-4]/0) ?sae")
_BARE = re.compile(r"[0-9]+(?:\.[0-9]+)?|[1-4]/0")
_GOOD = re.compile(SIZE)


def size_of(text: str, unit: str) -> str:
    """A size as the job file writes it, `0.5 mm2` or `18 AWG`; empty for none.

    `unit` (mm2, AWG, SAE or empty) is that of a number alone. Without it a number with a decimal point is mm², since
    no gauge has one; any other raises NotRead, as does what is no size.
    """
    low = text.lower().strip()
    if not low or low in _NONE:
        return ""
    low = re.sub(r"(?<=[0-9]),(?=[0-9])", ".", low)
    made = ""
    if match := _AREA.fullmatch(low):
        made = f"{match[1]} mm2"
    elif match := _GAUGE.fullmatch(low):
        made = f"{match[1] or match[2]} AWG"
    elif match := _SAE.fullmatch(low):
        made = f"{match[1]} SAE"
    elif _BARE.fullmatch(low):
        unit = unit or ("mm2" if "." in low else "")
        if not unit:
            raise NotRead(f"“{text}” has no unit: mm2 or AWG?")
        made = f"{low} {unit}"
    made = re.sub(r"^0(?=[0-9])", "", made)
    if not _GOOD.fullmatch(made):
        raise NotRead(f"“{text}” is no wire size")
    return made
