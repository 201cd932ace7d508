"""What all lines of a scope are worked out from: the wishes, the maps that could be, the drawer and the hand."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cached_property
from typing import NamedTuple

from harness.model.parts import Plug
from harness.model.scope import Record, Scope, Wish
from harness.model.shop import InDrawer, Shop
from harness.presets import AUDIO, preset
from harness.read.job import DEFAULT_PRESET
from harness.scoping.variants import Sifted, Variant, at_row, if_map
from harness.telling_apart.session import Session
from harness.weighing.hand import Hand, Way
from harness.weighing.rates import Rates

_ENDS = ("unit", "car")


class PlugWay(NamedTuple):
    """One way of opening the pairs of a plug: with a loom or by hand, its joints and how each is made."""

    loom: bool
    joints: int
    way: Way


class Site:
    """One scope with its shop and maps; asked by the modules that make its lines."""

    def __init__(self, scope: Scope, shop: Shop | None, sifted: Sifted) -> None:
        self.scope, self.shop, self.sifted = scope, shop, sifted
        self.could: Sequence[Variant] = sifted.could
        self.rates = Rates(shop)
        self._hand = Hand(self.rates, preset((shop.preset if shop else "") or DEFAULT_PRESET))
        self.session = Session(tuple(each for variant in self.could for each in variant.maps))

    def wishes(self, *kinds: str) -> list[Wish]:
        """The wishes of these kinds in the order written."""
        return [wish for wish in self.scope.wishes if wish.what in kinds]

    @cached_property
    def channels(self) -> dict[str, Wish]:
        """The channels whose wires are needed, each with the wish that needs them first."""
        made: dict[str, Wish] = {}
        for wish in self.wishes("amplify"):
            made.setdefault(wish.name, wish)
        return made

    @cached_property
    def leased(self) -> Record | None:
        """The record that the car is leased."""
        owned = self.scope.car.get("ownership")
        return owned if owned is not None and owned.words.lower() in ("leased", "lease") else None

    def if_map(self, variants: Sequence[Variant]) -> tuple[str, str]:
        """As `variants.if_map`, of the maps that the car could be."""
        return if_map(variants, self.could)

    def plugs(self, variant: Variant) -> list[tuple[Plug, list[str]]]:
        """The plugs of a variant that are opened, each with the channels in it."""
        made: dict[str, tuple[Plug, list[str]]] = {}
        for channel in self.channels:
            found = variant.pair(channel)
            if found is not None:
                made.setdefault(found[0].name, (found[0], []))[1].append(channel)
        return list(made.values())

    def rows(self, variant: Variant) -> Iterator[Record]:
        """The rows of a map that say where the wires of the channels are."""
        for channel in self.channels:
            found = variant.pair(channel)
            if found is not None:
                yield from map(at_row, found[1:])

    def looms(self, variant: Variant, plug: Plug, channels: list[str]) -> list[InDrawer]:
        """Looms of the drawer with both ends of the plug's housing and a lead at both ends for every wire."""
        housing = " ".join(plug.housing.casefold().split())
        if not housing or self.shop is None:
            return []
        wires = [row.cavity.lower() for channel in channels for row in (variant.pair(channel) or ())[1:]]
        made = []
        for each in self.shop.looms.values():
            loom = each.loom
            if loom is None or set(_ENDS) - loom.ends.keys():
                continue
            leads = {(lead.end, lead.cavity.lower()) for lead in loom.leads}
            if all(" ".join(loom.ends[end].housing.casefold().split()) == housing for end in _ENDS) and all(
                (end, wire) in leads for end in _ENDS for wire in wires
            ):
                made.append(each)
        return made

    def ways(self, variant: Variant, plug: Plug, channels: list[str]) -> list[PlugWay]:
        """With a loom where the drawer has one; by hand but where a leased car has a loom; none that is forbidden."""
        has_loom = bool(self.looms(variant, plug, channels))
        made = []
        for loom in (True, False):
            if not has_loom if loom else has_loom and self.leased is not None:
                continue
            way = self._hand.best(not loom, AUDIO, plug.where, not loom)
            if way is not None:
                made.append(PlugWay(loom, 4 * len(channels), way))
        return made
