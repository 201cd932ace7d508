"""What is got at and what is joined: a line for each plug, unit and speaker, whichever maps say so."""

from __future__ import annotations

from collections.abc import Iterator

from harness.model.scope import Record
from harness.scoping.lines import ACCESS, JOINT, Line, both, open_line, ways
from harness.scoping.site import Site
from harness.scoping.variants import Variant, at_plug, at_row, at_unit


def access(site: Site) -> Iterator[Line]:
    """Where one must get at, in which maps, and what isn't known of the place."""
    found: dict[tuple[str, str, str], tuple[list[Variant], list[Record]]] = {}
    for variant in site.could:
        for plug, channels in site.plugs(variant):
            variants, records = found.setdefault((f"plug {plug.name}", plug.name, plug.where), ([], []))
            variants.append(variant)
            records += [at_plug(plug), *(site.channels[each].record for each in channels)]
    for variant in site.could:
        for unit in variant.amplifiers:
            variants, records = found.setdefault(("the factory amplifier", unit.name, unit.where), ([], []))
            variants.append(variant)
            records.append(at_unit(unit))
    for (what, name, where), (variants, records) in found.items():
        condition, how = site.if_map(variants)
        if not where:
            kind = "plug" if what.startswith("plug") else "unit"
            condition = both(condition, "its place is known")
            how = ways(how, f"write place: at the {kind} {name}, or look")
        words = f"Get at {what}, {where or 'place not recorded'}."
        yield Line(ACCESS, words, tuple(dict.fromkeys(records)), condition, how)
    for wish in site.wishes("unit", "replace", "add"):
        fits = wish.what == "unit"
        words = f"Make room for {wish.name}" if fits else f"Get at the place of speaker {wish.name}"
        if wish.where:
            yield Line(ACCESS, f"{words}, {wish.where}.", (wish.record,))
        else:
            condition = "its place is agreed" if fits else "its place is known"
            how = "ask the customer" if fits else "look at the car: trim, screws, depth"
            yield open_line(ACCESS, f"{words}.", condition, how, (wish.record,))


def joints(site: Site) -> Iterator[Line]:
    """A line for each plug and way of its pairs, whichever maps say so."""
    found: dict[tuple[str, int], tuple[list[Variant], list[Record]]] = {}
    for variant in site.could:
        at_plugs: dict[str, list[str]] = {}
        records: dict[str, list[Record]] = {}
        for channel, wish in site.channels.items():
            pair = variant.pair(channel)
            if pair is not None:
                plug, plus, minus = pair
                at_plugs.setdefault(plug.name, []).append(f"{channel} {plus.cavity}/{minus.cavity}")
                records.setdefault(plug.name, []).extend((wish.record, at_row(plus), at_row(minus)))
        for name, pairs in at_plugs.items():
            plug_and_pairs = f"Plug {name}, {', '.join(pairs)} (+/−)"
            variants, rests = found.setdefault((plug_and_pairs, len(pairs)), ([], []))
            variants.append(variant)
            rests += records[name]
    numbers = {number for _, number in found}
    once = len(found) > 1 and len(numbers) == 1
    if once:
        everything = dict.fromkeys(record for _, rests in found.values() for record in rests)
        yield Line(JOINT, f"The same in all of them: {_taken(numbers.pop())}.", tuple(everything))
    for (plug_and_pairs, number), (variants, rests) in found.items():
        words = f"{plug_and_pairs}." if once else f"{plug_and_pairs}: {_taken(number)}."
        yield Line(JOINT, words, tuple(dict.fromkeys(rests)), *site.if_map(variants))


def _taken(pairs: int) -> str:
    """What so many pairs take, opened."""
    return f"{4 * pairs} joints; by hand {2 * pairs} wires are cut, with a loom none"
