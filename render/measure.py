"""How wide text is in our own fonts, and where it breaks. Registers the fonts on first use."""

from __future__ import annotations

import re
from functools import cache, lru_cache
from typing import NamedTuple

from render.style import BOLD, FONT_FOLDER, REGULAR

# Control characters, halves of characters, line separators, and the marks that turn the reading direction.
_UNPRINTABLE = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\u2028-\u202e\u2066-\u2069\ud800-\udfff\ufffe\uffff]")
_BREAKABLE = re.compile(r"(?<=[-/,.:→])(?=[^\s])")


def printable(text: str) -> str:
    """The text with control characters and half characters shown as the replacement sign.

    They have no shape on paper, act on a terminal, and make an SVG unreadable.
    """
    return text if text.isascii() and text.isprintable() else _UNPRINTABLE.sub("\N{REPLACEMENT CHARACTER}", text)


@lru_cache(maxsize=16384)
def on_paper(text: str) -> str:
    """The text as our fonts can print it: a character they lack is said by its code point, never an empty box.

    >>> on_paper("Alder 桤 4 Ω")
    'Alder [?U+6864] 4 Ω'
    """
    text = printable(text)
    if text.isascii():
        return text
    known = _in_both_fonts()
    return "".join(letter if letter in "\n\t" or ord(letter) in known else f"[?U+{ord(letter):04X}]" for letter in text)


@cache
def _in_both_fonts() -> frozenset[int]:
    return frozenset(_widths(REGULAR)[0].keys() & _widths(BOLD)[0].keys())


@cache
def _widths(font: str) -> tuple[dict[int, float], float]:
    """Advance of each code point in thousandths of the size, and that of what the font lacks."""
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont

    made = TTFont(font, str(FONT_FOLDER / f"{font}.ttf"))
    pdfmetrics.registerFont(made)
    return dict(made.face.charWidths), float(made.face.defaultWidth)


def font_name(bold: bool) -> str:
    """The registered name of the upright or the bold face."""
    name = BOLD if bold else REGULAR
    _widths(name)
    return name


@lru_cache(maxsize=65536)
def width_pt(text: str, size: float, bold: bool = False) -> float:
    """Width of one line of text."""
    widths, missing = _widths(BOLD if bold else REGULAR)
    return sum(widths.get(ord(letter), missing) for letter in text) * size / 1000.0


@lru_cache(maxsize=16384)
def wrap(text: str, width: float, size: float, bold: bool = False) -> tuple[str, ...]:
    """The lines of `text` within `width`; newlines kept, words too long for a line broken.

    A long word breaks after one of - / , . : → if that helps, else between letters. At least one letter
    goes on a line, however narrow; an empty text is one empty line.
    """
    lines: list[str] = []
    if width_pt(text, size, bold) <= width and text.isascii() and text.isprintable() and "  " not in text:
        return (text.strip(" "),)
    for paragraph in on_paper(text).replace("\t", " ").split("\n"):
        line = ""
        for word in _words(paragraph, width, size, bold):
            joined = f"{line} {word.text}" if line and not word.glued else line + word.text
            if not line or width_pt(joined, size, bold) <= width:
                line = joined
            else:
                lines.append(line)
                line = word.text
        lines.append(line)
    return tuple(lines)


class _Word(NamedTuple):
    """A piece of text to set; `glued` to the one before it where a long word was taken apart."""

    text: str
    glued: bool = False


def _words(paragraph: str, width: float, size: float, bold: bool) -> list[_Word]:
    words = []
    for whole in filter(None, paragraph.split(" ")):
        if width_pt(whole, size, bold) <= width:
            words.append(_Word(whole))
            continue
        for index, part in enumerate(_BREAKABLE.split(whole)):
            for place, piece in enumerate(_letters(part, width, size, bold)):
                words.append(_Word(piece, glued=index > 0 or place > 0))
    return words


def _letters(word: str, width: float, size: float, bold: bool) -> list[str]:
    pieces, piece = [], ""
    for letter in word:
        if piece and width_pt(piece + letter, size, bold) > width:
            pieces.append(piece)
            piece = letter
        else:
            piece += letter
    return [*pieces, piece]


def longest_word_pt(text: str, size: float, bold: bool = False) -> float:
    """Width of the widest word; what a no-break space holds together is one word, as it is for `wrap`."""
    return max((width_pt(word, size, bold) for word in words_of(text)), default=0.0)


def words_of(text: str) -> list[str]:
    """What a line may be broken between: pieces without a plain space, tab or newline in them.

    >>> words_of("one\N{NO-BREAK SPACE}mm two\\nthree")
    ['one\\xa0mm', 'two', 'three']
    """
    return [word for word in re.split("[ \t\n]", on_paper(text)) if word]
