"""Minutes and money as the paper says them."""

from __future__ import annotations

from harness.model.money import Money
from harness.weighing.offers import Offer, Weighing

_HOLD = "\N{NO-BREAK SPACE}"


def money(weighing: Weighing, minor: int) -> str:
    """`65.60 EUR`, held on one line."""
    return Money(minor, weighing.rates.currency).words.replace(" ", _HOLD)


def minutes(time_ms: int) -> str:
    """To a hundredth, without needless zeros: `40 min`, `12.25 min`."""
    return f"{time_ms / 60_000:.2f}".rstrip("0").rstrip(".") + f"{_HOLD}min"


def title(offer: Offer) -> str:
    """`full solder-in`, `looms in series (L3 + L4)`."""
    looms = " + ".join(each.item.name for each in offer.looms)
    return f"{offer.name} ({looms})" if looms else offer.name


def default_lines(weighing: Weighing) -> tuple[str, ...]:
    """Every figure that is the tool's own and not the shop's, with who says so; empty where there is none."""
    return tuple(f"{each.what}: {each.words} ({each.source})" for each in weighing.rates.defaults(weighing.methods))
