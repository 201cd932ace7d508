"""What a shop file holds, the drawer lead by lead and every rate: so that who typed it sees what was understood.

What the shop hasn't written stands beside it, each figure as a default.
"""

from __future__ import annotations

import json
from collections.abc import Iterator

from harness.cli.screen import harmless
from harness.joints import methods
from harness.model.parts import Lead, Loom
from harness.model.shop import InDrawer, Shop
from harness.read.job import DEFAULT_PRESET
from harness.read.names import spans
from harness.read.spec_shop import LOOSE, SPANS
from harness.scoping.spans import span_of
from harness.weighing.rates import IN_DASH, PRACTICE, Default, Rates
from harness.weighing.wording import minutes


def as_text(shop: Shop) -> list[str]:
    """A loom in a line, its wires in the lines below."""
    number = len(shop.looms)
    made = [f"{shop.file}: {shop.title or 'shop file'}, {number} {'loom' if number == 1 else 'looms'}"]
    for item in shop.looms.values():
        assert item.loom is not None
        made.append(f"  {item.name}: {_ends(item.loom)}; {_store(item)}")
        made += [f"      {line}" for line in _wires(item.loom)]
    made += ["Loose parts:", *(f"  {name}: {_loose(shop.loose.get(name))}" for name in LOOSE)]
    made += ["Rates:", *(f"  {each.what}: {each.words}" for each in _written(shop))]
    made += ["Not written, so by default:", *(f"  {each.what}: {each.words} ({each.source})" for each in _own(shop))]
    preset = shop.preset or f"{DEFAULT_PRESET}, a default; a job goes by its own"
    made += [f"Preset: {preset}", f"Maps: {', '.join(each.path for each in shop.maps) or 'no folder written'}"]
    return [harmless(line) for line in made]


def _loose(item: InDrawer | None) -> str:
    if item is None:
        return "not written, so its price is said to be missing"
    price = item.store.price.words if item.store.price else "no price written"
    return price + _in_stock(item)


def _written(shop: Shop) -> Iterator[Default]:
    """The shop's own rates, as they were understood."""
    if shop.labour:
        yield Default("labour", f"{shop.labour.words} an hour", shop.file)
    if shop.consumables:
        yield Default("consumables", f"{shop.consumables.words} a joint", shop.file)
    for joint in shop.joints:
        at = f" at {joint.at}" if joint.at else ""
        yield Default(f"one {joint.method}{at}", f"{minutes(joint.time_ms)} min", shop.file)
    for what, time_ms in shop.works.items():
        yield Default(what, f"{minutes(time_ms)} min", shop.file)
    for what, time_ms in shop.recheck.items():
        yield Default(f"recheck of {what}", f"{minutes(time_ms)} min", shop.file)
    for what in shop.spans:
        yield Default(what, span_of(shop, what)[2].words, shop.file)
    if shop.dash:
        yield Default(IN_DASH, ", ".join(shop.dash), shop.file)


def _own(shop: Shop) -> Iterator[Default]:
    """The tool's figures for what the shop hasn't written, of all ways of joining wires by hand."""
    yield from Rates(shop).defaults(name for name, method in methods().items() if not method.plugs_in)
    for what in SPANS:
        _, _, rate = span_of(shop, what)
        if rate.default:
            yield Default(what, rate.words, PRACTICE)


def as_json(shop: Shop) -> str:
    """The same for a script."""
    looms = []
    for item in shop.looms.values():
        assert item.loom is not None
        loom = item.loom
        looms.append(
            {
                "name": item.name,
                "ends": {end.name: end.housing for end in loom.ends.values()},
                "price": item.store.price.words if item.store.price else None,
                "stock": item.store.stock,
                "days": item.days,
                "through": [{"unit": each.unit_cavity, "car": each.car_cavity} for each in loom.throughs],
                "leads": [
                    {
                        "end": each.end or None,
                        "cavity": each.cavity or None,
                        "name": each.own or None,
                        "function": each.function.name,
                        "colour": each.colour.short if each.colour else None,
                    }
                    for each in loom.leads
                ],
                "pins": [{"cavity": row.cavity, "function": row.function.name} for row in loom.pins],
            }
        )
    loose = [
        {"name": name, "price": item.store.price.words if item.store.price else None, "stock": item.store.stock,
         "days": item.days}
        for name, item in shop.loose.items()
    ]  # fmt: skip
    whole = {
        "shop": shop.file,
        "looms": looms,
        "loose_parts": loose,
        "rates": [{"what": each.what, "is": each.words} for each in _written(shop)],
        "defaults": [{"what": each.what, "is": each.words, "source": each.source} for each in _own(shop)],
        "preset": shop.preset or None,
        "maps": [each.path for each in shop.maps],
    }
    return json.dumps(whole, indent=2, ensure_ascii=False)


def _ends(loom: Loom) -> str:
    return ", ".join(f"{end.name}: {end.housing or 'no housing written'}" for end in loom.ends.values())


def _store(item: InDrawer) -> str:
    price = item.store.price.words if item.store.price else "no price written, so it isn't weighed"
    return price + _in_stock(item)


def _in_stock(item: InDrawer) -> str:
    stock = "" if item.store.stock is None else f"; {item.store.stock} in stock"
    return stock + (f"; {item.days} days" if item.days else "")


def _wires(loom: Loom) -> Iterator[str]:
    straight = [each.unit_cavity for each in loom.throughs if each.unit_cavity == each.car_cavity]
    crossed = [each for each in loom.throughs if each.unit_cavity != each.car_cavity]
    if straight:
        yield f"straight through: {', '.join(spans(straight))}"
    if crossed:
        yield "crossed, unit to car: " + ", ".join(f"{each.unit_cavity} to {each.car_cavity}" for each in crossed)
    at = {end: {_said(each) for each in loom.leads if each.end == end} for end in loom.ends}
    both = [each for each in loom.leads if each.cavity and all(_said(each) in said for said in at.values())]
    shared = {_said(each) for each in both} if len(loom.ends) > 1 else set()
    if shared:
        yield f"leads at both ends: {_leads([each for each in both if each.end == next(iter(loom.ends))])}"
    for end in loom.ends:
        alone = [each for each in loom.leads if each.end == end and each.cavity and _said(each) not in shared]
        if alone:
            yield f"leads at the {end} end: {_leads(alone)}"
    loose = [each for each in loom.leads if not each.cavity]
    if loose:
        yield f"leads with a name: {', '.join(f'{each.own} {_is_for(each)}' for each in loose)}"
    if loom.pins:
        yield f"pins as its maker says: {', '.join(f'{row.cavity} {row.function.name}' for row in loom.pins)}"


def _leads(leads: list[Lead]) -> str:
    return ", ".join(f"{each.cavity} {_is_for(each)}" + (f" ({each.own})" if each.own else "") for each in leads)


def _said(lead: Lead) -> tuple[object, ...]:
    return lead.cavity.lower(), lead.function, lead.colour.short if lead.colour else "", lead.own


def _is_for(lead: Lead) -> str:
    return lead.function.name + (f" {lead.colour.short}" if lead.colour else "")
