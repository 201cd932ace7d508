"""Wire colours: base and stripe are two things, and a code means what its legend says.

Codes are IEC 60757's; the joined form of that standard is never read or printed, because it sorts the
two letters and so loses which one is the stripe.
"""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

# IEC 60757 letters, in the order of its table (seen as GOST 28763-90 = IEC 757:1983).
IEC = {
    "BK": "black", "BN": "brown", "RD": "red", "OG": "orange", "YE": "yellow", "GN": "green", "BU": "blue",
    "VT": "violet", "GY": "grey", "WH": "white", "PK": "pink", "GD": "gold", "TQ": "turquoise", "SR": "silver",
}  # fmt: skip

# Words of their own: the standard has no letters for these (common practice, no source).
OWN = {"TAN": "tan", "LIGHT-GREEN": "light green", "LIGHT-BLUE": "light blue", "CLEAR": "clear"}

# Three letters that read only one way in English (common practice, no source).
PLAIN = {
    "BLK": "BK", "BRN": "BN", "RED": "RD", "ORG": "OG", "ORN": "OG", "YEL": "YE", "GRN": "GN", "BLU": "BU",
    "VIO": "VT", "PUR": "VT", "GRY": "GY", "WHT": "WH", "PNK": "PK",
}  # fmt: skip

# Codes that different legends read differently; without a legend they are asked about, never guessed.
AMBIGUOUS = frozenset(
    "B W R G Y L O P V T N S BL BR GR GB LG LB LT SB PU OR DB DG GO SL".split()  # noqa: SIM905
)

_WORD_TO_CODE = {word: code for code, word in (IEC | OWN).items()}
UNKNOWN = "unknown"  # looked for and not known
MARKS = ("stripe", "ring", "dots")


class Colour(NamedTuple):
    """One wire's colour. `base` and `stripe` are IEC letters, own words or, unread, the code as written."""

    text: str
    base: str
    stripe: str = ""
    mark: str = "stripe"
    unread: tuple[str, ...] = ()  # the codes in it that need a legend

    @property
    def words(self) -> str:
        """`white with black stripe`; an unread code stays as written, in quotes."""
        base = colour_word(self.base)
        if not self.stripe:
            return base
        link = {"stripe": "with {} stripe", "ring": "with {} rings", "dots": "with {} dots"}[self.mark]
        return f"{base} {link.format(colour_word(self.stripe))}"

    @property
    def short(self) -> str:
        return f"{self.base}/{self.stripe}" if self.stripe else self.base


def colour_word(code: str) -> str:
    """The word for one code: `WH` gives `white`."""
    return IEC.get(code) or OWN.get(code) or (code if code == UNKNOWN else f"“{code}”")


def code_of(text: str) -> str:
    """The one code that a letter code or a word surely means, or an empty text."""
    upper = text.upper()
    if upper in IEC or upper in OWN:
        return upper
    return PLAIN.get(upper) or _WORD_TO_CODE.get(text.lower(), "")


@lru_cache(maxsize=4096)
def _read(text: str, legend: tuple[tuple[str, str], ...], mark: str) -> Colour | None:
    if text.lower() == UNKNOWN:
        return Colour(text, UNKNOWN)
    parts = text.split("/")
    if not 1 <= len(parts) <= 2 or not all(parts):
        return None
    named = dict(legend)
    codes, unread = [], []
    for part in parts:
        upper = part.upper()
        code = code_of(named[upper]) if upper in named else code_of(part)
        if not code:
            if upper not in AMBIGUOUS:
                return None
            unread.append(part)
            code = part
        codes.append(code)
    return Colour(text, codes[0], codes[1] if len(codes) > 1 else "", mark, tuple(unread))


def read_colour(text: str, legend: tuple[tuple[str, str], ...] = (), mark: str = "stripe") -> Colour | None:
    """`WH/BK` as base white, stripe black; None where the text is no colour at all.

    `legend` is the page's own: pairs of upper-case code and colour word. A code that legends disagree on
    is kept as written and listed in `unread`.
    """
    return _read(text, legend, mark)
