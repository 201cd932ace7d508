"""Minutes and money as the paper says them."""

from __future__ import annotations

from harness.model.money import Money
from harness.weighing import wording
from harness.weighing.offers import Weighing
from harness.weighing.recount import Figures

_HOLD = "\N{NO-BREAK SPACE}"


def money(weighing: Weighing, minor: int) -> str:
    """`65.60 EUR`, held on one line."""
    return Money(minor, weighing.rates.currency).words.replace(" ", _HOLD)


def sum_of(weighing: Weighing, figures: Figures) -> str:
    """The money of a way of doing it, with what has no price said beside it."""
    return wording.with_unpriced(money(weighing, figures.money), figures.unpriced)


def minutes(time_ms: int) -> str:
    """`40 min`, `12.25 min`, held on one line."""
    return f"{wording.minutes(time_ms)}{_HOLD}min"
