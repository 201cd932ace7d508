"""What the command and the paper say alike of a weighing."""

from __future__ import annotations

from collections.abc import Sequence

from harness.model.contact import listed
from harness.weighing.offers import Offer, Weighing

# No price is put on it and no check asks for it yet; it keeps a bare terminal from a live cavity off the metal.
COVER_PULLED = "cover each at once: the other end may be live"


def title(offer: Offer) -> str:
    """`full solder-in`, `looms in series (L3 + L4)`; where there was a choice of methods `full solder-in, by crimp`."""
    looms = " + ".join(each.item.name for each in offer.looms)
    by = f", by {listed(offer.methods)}" if offer.methods else ""
    return f"{offer.name} ({looms}){by}" if looms else f"{offer.name}{by}"


def nothing_offered(weighing: Weighing) -> str:
    """Why there is no offer: nothing to weigh, or nothing that passes."""
    if not weighing.site.plugs:
        return "There is no factory plug to weigh: the plan opens, cuts and joins at none that can be weighed."
    return "No mix of the drawer's looms and joints by hand can be offered here; why not stands below."


def minutes(time_ms: int) -> str:
    """Minutes to a hundredth, without needless zeros."""
    return f"{time_ms / 60_000:.2f}".rstrip("0").rstrip(".")


def with_unpriced(money: str, unpriced: Sequence[str]) -> str:
    """A sum that says at the number what isn't in it: `84.00 EUR and loom T2 without a price`."""
    return f"{money} and {listed(unpriced)} without a price" if unpriced else money


def same_in_all(told: Sequence[Sequence[str]]) -> tuple[str, ...]:
    """What is told of each of several mixes in the same words, in the order of the first; of one alone nothing."""
    if len(told) < 2:
        return ()
    return tuple(line for line in dict.fromkeys(told[0]) if all(line in each for each in told[1:]))


def default_lines(weighing: Weighing) -> tuple[str, ...]:
    """Every figure that is the tool's own and not the shop's, with who says so; empty where there is none."""
    return tuple(f"{each.what}: {each.words} ({each.source})" for each in weighing.rates.defaults(weighing.methods))
