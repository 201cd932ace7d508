"""Bars to be compared by eye: drawn for paper, typed for text. Grey and hatched stay apart in black and white."""

from __future__ import annotations

from render import shapes, style
from render.blocks import Bars
from render.measure import on_paper, width_pt, wrap

MARKS = ("#", "/")
_TYPED = 40  # signs of the longest bar in text
_HIGH, _STEP = 15.0, 24.0
_GAP = 6.0
_HATCH = 4.0  # between the lines of the second kind
_LABEL_SHARE = 0.42  # of the width, at most


def typed(bars: Bars) -> list[str]:
    """Each bar as signs, all of one length. An amount above 0 has at least one sign."""
    most = max((sum(bar.amounts) for bar in bars.bars), default=0.0)
    made = []
    for bar in bars.bars:
        signs = ""
        for mark, amount in zip(MARKS, bar.amounts, strict=False):
            signs += mark * max(round(amount / most * _TYPED), amount > 0) if most else ""
        made.append(signs.ljust(_TYPED + 1))
    return made


def draw_bars(bars: Bars, width: float) -> shapes.Drawing:
    """The bars with their labels before and their words behind them, in `width` points."""
    size = style.PICTURE_TEXT
    labels = [wrap(on_paper(bar.label), width * _LABEL_SHARE, size, True) for bar in bars.bars]
    left = max((width_pt(line, size, True) for label in labels for line in label), default=0.0) + _GAP
    behind = max((width_pt(on_paper(bar.words), size) for bar in bars.bars), default=0.0) + _GAP
    longest = width - left - behind
    most = max((sum(bar.amounts) for bar in bars.bars), default=0.0) or 1.0
    heights = [max(_STEP, len(label) * size * style.LEADING + _GAP) for label in labels]
    height = style.PICTURE_TITLE * style.LEADING + sum(heights) + _STEP
    made: shapes.Shapes = [
        shapes.text(bars.title, 0, height - style.PICTURE_TITLE, style.PICTURE_TITLE, bold=True),
    ]
    top = height - style.PICTURE_TITLE * style.LEADING - _GAP / 2
    bottom = top - sum(heights)
    for bar, label, high in zip(bars.bars, labels, heights, strict=True):
        middle = top - high / 2
        first = middle + (len(label) - 1) * size * style.LEADING / 2 - size * style.CAP_HEIGHT / 2
        for number, line in enumerate(label):
            made.append(shapes.text(line, 0, first - number * size * style.LEADING, size, bold=True))
        at = left
        for kind, amount in enumerate(bar.amounts):
            wide = longest * amount / most
            made += _piece(kind, at, middle - _HIGH / 2, wide)
            at += wide
        made.append(shapes.text(bar.words, at + _GAP, middle - size * style.CAP_HEIGHT / 2, size))
        top -= high
    made.append(shapes.line(left, bottom, left, bottom + sum(heights), style.LINE))
    at = left
    for kind, words in enumerate(bars.kinds):
        made += _piece(kind, at, bottom - _STEP + _GAP, _STEP)
        made.append(shapes.text(words, at + _STEP + _GAP, bottom - _STEP + _GAP + 3.5, size))
        at += _STEP + 3 * _GAP + width_pt(on_paper(words), size)
    return shapes.drawing(width, height, made)


def _piece(kind: int, x: float, y: float, wide: float) -> shapes.Shapes:
    if wide <= 0:
        return []
    if kind == 0:
        return [shapes.box(x, y, wide, _HIGH, style.MID)]
    made: shapes.Shapes = [shapes.box(x, y, wide, _HIGH, style.WHITE)]
    start = x - _HIGH + _HATCH
    while start < x + wide:  # slanted lines, cut off at both ends of the piece
        low, high = max(start, x), min(start + _HIGH, x + wide)
        if high > low:
            made.append(shapes.line(low, y + low - start, high, y + high - start, style.HAIR * 1.5))
        start += _HATCH
    return made
