"""Up to which price a loom pays, against the same work all by hand."""

from __future__ import annotations

from harness.weighing.offers import Offer, Weighing


def pays_up_to(weighing: Weighing, offer: Offer) -> int | None:
    """What the looms of an offer may cost together, in hundredths, before all by hand is cheaper; below 0 never.

    None where the offer has no loom, or where it can't be done by hand.
    """
    if not offer.looms or weighing.by_hand is None:
        return None
    return weighing.by_hand.money - (offer.figures.money - looms_price(offer))


def looms_price(offer: Offer) -> int:
    """What the looms of an offer cost together, in hundredths."""
    return sum(each.item.store.price.minor for each in offer.looms if each.item.store.price is not None)
