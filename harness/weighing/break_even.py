"""Up to which price a loom pays, against the same work all by hand."""

from __future__ import annotations

from harness.weighing.offers import Offer, Weighing


def pays_up_to(weighing: Weighing, offer: Offer) -> int | None:
    """What the looms of an offer may cost together, in hundredths, before all by hand is cheaper; below 0 never.

    Loose parts without a price are in neither sum. None where the offer has no loom, or where it can't be done by hand.
    """
    if not offer.looms or weighing.by_hand is None:
        return None
    return weighing.by_hand.money - (offer.figures.money - looms_price(offer))


def looms_price(offer: Offer) -> int:
    """What the looms of an offer cost together, in hundredths, without those whose price nobody wrote."""
    return sum(each.item.store.price.minor for each in offer.looms if each.item.store.price is not None)


def looms_unpriced(offer: Offer) -> tuple[str, ...]:
    """The looms of an offer whose price nobody wrote."""
    return tuple(each.name for each in offer.looms if each.item.store.price is None)


def loose_unpriced(weighing: Weighing, offer: Offer) -> tuple[str, ...]:
    """The loose parts without a price that a break-even leaves out, of the offer or of all by hand."""
    by_hand = weighing.by_hand.unpriced_parts if weighing.by_hand else ()
    return tuple(dict.fromkeys((*offer.figures.unpriced_parts, *by_hand)))
