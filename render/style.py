"""Every size, font and ink of the paper, and nothing that draws. Lengths are points (1/72 in)."""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

FONT_FOLDER = Path(__file__).parent / "fonts"
REGULAR = "DejaVuSansCondensed"
BOLD = "DejaVuSansCondensed-Bold"
# What a viewer of an SVG may use where the first is not installed; each text also says its own length.
SVG_FAMILY = "'DejaVu Sans Condensed', 'DejaVu Sans', 'Arial Narrow', sans-serif"

# Text. Nothing on paper is below SMALLEST; what the hand needs is MAIN.
SMALLEST = 9.0
SMALL = 9.0
BODY = 10.0
MAIN = 12.0
HEADING = {1: 14.0, 2: 12.0, 3: 10.5}
SHEET_TITLE = 15.0
LOUD = 22.0
PICTURE_TITLE = 11.5
PICTURE_TEXT = 10.5
LEADING = 1.22  # line to line, as a share of the size
CAP_HEIGHT = 0.729  # of DejaVu Sans Condensed, as a share of the size

# A4 sheets that also fit Letter printed at full size and centred: Letter is 50 pt shorter and 17 pt wider.
A4_WIDTH, A4_HEIGHT = 595.28, 841.89
SHORT_MARGIN = 40.0  # at the two long edges of the paper
LONG_MARGIN = 52.0  # at the two short edges of the paper

BLACK = "#000000"
WHITE = "#ffffff"
PALE = "#e6e6e6"  # a ground that black text stays readable on, printed or copied
MID = "#8c8c8c"  # lines that must not fight with text
HAIR, LINE, THICK = 0.4, 0.8, 2.2
EDGE = 0.6  # around a stripe

SWATCH_WIDTH, SWATCH_HEIGHT = 26.0, 10.0
TICK_SIDE = 9.0
ROOM_HEIGHT = 19.0  # 6.7 mm, a line of handwriting


class Page(NamedTuple):
    """A page and what may be printed on: `left`, `right`, `bottom`, `top` from the lower left corner."""

    width: float
    height: float
    left: float
    right: float
    bottom: float
    top: float

    @property
    def usable(self) -> float:
        return self.right - self.left


PORTRAIT = Page(A4_WIDTH, A4_HEIGHT, SHORT_MARGIN, A4_WIDTH - SHORT_MARGIN, LONG_MARGIN, A4_HEIGHT - LONG_MARGIN)
LANDSCAPE = Page(A4_HEIGHT, A4_WIDTH, LONG_MARGIN, A4_HEIGHT - LONG_MARGIN, SHORT_MARGIN, A4_WIDTH - SHORT_MARGIN)

# Inks of the swatches, keyed by the codes of harness.model.colour. Chosen to look like the insulation
# under a work light; the words beside the swatch say which it is, so they need not be told apart in grey.
INKS = {
    "BK": "#000000", "BN": "#7a4a21", "RD": "#d2141e", "OG": "#f58220", "YE": "#ffe000", "GN": "#12913f",
    "BU": "#1f56b0", "VT": "#7b3f9d", "GY": "#8e9499", "WH": "#ffffff", "PK": "#f5a3c0", "GD": "#c9a227",
    "TQ": "#1fb5b0", "SR": "#c8ccd0", "TAN": "#d8b483", "LIGHT-GREEN": "#98dc8a", "LIGHT-BLUE": "#8fc7ef",
    "CLEAR": "#f7f7f2",
}  # fmt: skip
