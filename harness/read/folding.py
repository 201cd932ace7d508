"""Characters that word processors, web pages and keyboards of other countries put in: folded or refused.

Folding in two steps, so that every column stays that of the user's own line: before parsing, one character
gives way to one other; what changes the length is folded in the values.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

# characters that no text file holds; NEL, LS and PS are folded below
CONTROL = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x84\x86-\x9f\ud800-\udfff\ufffe\uffff]")
_SPACES = "\u00a0\u1680\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a\u202f\u205f\u3000\u0085\u2028\u2029"
_SAME_LENGTH = str.maketrans(
    dict.fromkeys(_SPACES, " ")
    | {"\u2212": "-", "\u2010": "-", "\u2011": "-", "\ufe63": "-", "\uff0d": "-"}
    | {"×": "x", "\ufeff": "\u200b"}
)
# an en dash is a hyphen or minus, unless it stands between two spaces as a dash does in a sentence
_EN_DASH = re.compile("(?<! )–|–(?! )")
_AREA = re.compile("(?<=mm)²")  # anywhere else it is no digit: 5² is not 52
_MICRO = re.compile("[µμ](?=F)")
_OHM = re.compile("[ΩΩ]")
_APOSTROPHE = re.compile(r"(?<=\w)’(?=\w)")
_CURLY = "“”„‟‘’‚‛"
_UNSEEN = "\u200b\u200c\u200d\u200e\u200f\u2060\u00ad\u061c\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069"
_REFUSED = re.compile(f"[{_CURLY}{_UNSEEN}]")


def fold_text(text: str) -> str:
    """The whole file's text with each odd character folded to one plain one; same length."""
    if text.isascii():
        return text
    text = text.translate(_SAME_LENGTH)
    if "–" in text:
        text = re.sub("^( *)–(?= )", r"\1-", text, flags=re.MULTILINE)  # a list's dash, autocorrected
        text = _EN_DASH.sub("-", text)
    return _MICRO.sub("u", _AREA.sub("2", text))


def fold_value(value: str) -> str:
    """One value with what the first step could not fold: Ω, and the apostrophe inside a word."""
    return _APOSTROPHE.sub("'", _OHM.sub("ohm", value))


def refused(value: str) -> Iterator[tuple[int, bool]]:
    """Where in a folded value a character stands that can't be folded, and whether it is a curly quote."""
    for match in _REFUSED.finditer(value):
        yield match.start(), match[0] in _CURLY
