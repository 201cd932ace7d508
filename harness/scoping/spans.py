"""How long each kind of work takes, from and to: as the shop file says, else the tool's own, told apart."""

from __future__ import annotations

from harness.model.shop import Shop
from harness.scoping.lines import Rate

REACH_PLUG, REACH_AMPLIFIER, CLOSE = "reach a plug", "reach an amplifier", "close a place"
FIT_UNIT, FIT_SPEAKER = "fit a unit", "fit a speaker"
SUPPLY, CABLE = "lay a supply cable", "lay a cable"
TONE, TEST, TUNE, TRY = "tone a pair", "test an output", "tune a channel", "try a function"

# Minutes, least and most. Common practice, no source.
_OWN_MIN = {
    REACH_PLUG: (7, 15),
    REACH_AMPLIFIER: (5, 15),
    CLOSE: (5, 10),
    FIT_UNIT: (30, 60),
    FIT_SPEAKER: (20, 40),
    SUPPLY: (30, 60),
    CABLE: (10, 20),
    TONE: (3, 5),
    TEST: (2, 4),
    TUNE: (5, 15),
    TRY: (1, 2),
}


def span_of(shop: Shop | None, what: str) -> tuple[int, int, Rate]:
    """The least and the most milliseconds of one such work, and what is told of the figure."""
    written = shop.spans.get(what) if shop is not None else None
    low, high = _OWN_MIN[what]
    low_ms, high_ms = written if written is not None else (low * 60_000, high * 60_000)
    return low_ms, high_ms, Rate(what, minutes_span(low_ms, high_ms), written is None)


def minutes_span(low_ms: int, high_ms: int) -> str:
    """`7 to 15 min`, `6 min`; to a tenth."""
    low, high = minutes_of(low_ms), minutes_of(high_ms)
    return f"{low} min" if low == high else f"{low} to {high} min"


def whole_minutes(low_ms: int, high_ms: int) -> str:
    """`212 to 508 min`: a sum is no more exact than that."""
    return minutes_span(*(round(each / 60_000) * 60_000 for each in (low_ms, high_ms)))


def minutes_of(time_ms: int) -> str:
    """Minutes to a tenth, without a needless zero."""
    return f"{time_ms / 60_000:.1f}".removesuffix(".0")
