"""Minutes and money as the paper says them."""

from __future__ import annotations

from harness.model.money import Money
from harness.weighing import wording
from harness.weighing.offers import Weighing

_HOLD = "\N{NO-BREAK SPACE}"


def money(weighing: Weighing, minor: int) -> str:
    """`65.60 EUR`, held on one line."""
    return Money(minor, weighing.rates.currency).words.replace(" ", _HOLD)


def minutes(time_ms: int) -> str:
    """`40 min`, `12.25 min`, held on one line."""
    return f"{wording.minutes(time_ms)}{_HOLD}min"
