"""The parts, counted: units, speakers, looms, cables, and what the joints take."""

from __future__ import annotations

from collections.abc import Iterator

from harness.joints import methods
from harness.model.parts import Plug
from harness.model.scope import Record
from harness.model.shop import InDrawer
from harness.scoping.cables import lots
from harness.scoping.lines import PART, Line, both, ways
from harness.scoping.site import Site
from harness.scoping.variants import Variant, at_plug


def parts(site: Site) -> Iterator[Line]:
    """Everything that must lie on the bench, how many of each."""
    yield from _wished(site)
    yield from _looms(site)
    yield from _lacking(site)
    yield from _pieces(site)
    for lot in lots(site):
        yield Line(PART, f"{lot.words}.", lot.basis, lot.condition, lot.find_out, least=lot.least, most=lot.most)


def _wished(site: Site) -> Iterator[Line]:
    units: dict[str, list[Record]] = {}
    for wish in site.wishes("unit"):
        units.setdefault(wish.name, []).append(wish.record)
    for name, records in units.items():
        yield Line(PART, f"{name}.", tuple(records), least=len(records), most=len(records))
    for wish in site.wishes("replace", "add"):
        yield Line(PART, f"speaker {wish.name}.", (wish.record,), "its size and ohms are known",
                   "measure the old one or the place; read ohms", least=1, most=1)  # fmt: skip


def _looms(site: Site) -> Iterator[Line]:
    """The drawer's looms that could go in, each with what it costs and where it lies; one of them is taken."""
    seen: dict[str, tuple[list[Variant], list[Record]]] = {}
    for variant in site.could:
        for plug, channels in site.plugs(variant):
            for loom in site.looms(variant, plug, channels):
                store = loom.store
                about = [store.price.words if store.price else "price not written"]
                about.append("stock not written" if store.stock is None else f"{store.stock} in stock")
                if not store.stock and loom.days is not None:
                    about.append(f"{loom.days} days")
                differ = _pinned_otherwise(loom, plug)
                pins = f"; its pins differ at cavity {', '.join(differ)}: look before it is used" if differ else ""
                words = f"loom {loom.name} for plug {plug.name} ({', '.join(about)}): cuts nothing{pins}."
                variants, records = seen.setdefault(words, ([], []))
                variants.append(variant)
                records += [Record(loom.name, loom.place), at_plug(plug)]
    for words, (variants, records) in seen.items():
        # 0: another loom or the hand can do it as well
        yield Line(PART, words, tuple(dict.fromkeys(records)), *site.if_map(variants), most=1)


def _lacking(site: Site) -> Iterator[Line]:
    lacking: dict[tuple[str, bool], tuple[list[Variant], list[Record]]] = {}
    for variant in site.could:
        for plug, channels in site.plugs(variant):
            if not site.looms(variant, plug, channels):
                variants, records = lacking.setdefault((plug.name, bool(plug.housing)), ([], []))
                variants.append(variant)
                records.append(at_plug(plug))
    for (name, housed), (variants, records) in lacking.items():
        condition, how = site.if_map(variants)
        none = "that fits" if housed else "for a housing that nobody wrote"
        yield Line(
            PART, f"loom for plug {name}, where nothing may be cut: the drawer has none {none}.", tuple(records),
            both(condition, "there is one to buy" if housed else "its housing is known"),
            ways(how, "ask the store" if housed else f"look, and write housing: at {name}"), most=1,
        )  # fmt: skip


def _pieces(site: Site) -> Iterator[Line]:
    """What the joints at the plugs take, by the piece: the least of any map and way, and the most."""
    known = methods()
    by_variant: list[dict[str, tuple[int, int]]] = []
    takers: dict[str, list[str]] = {}  # piece -> ways of joining that take it
    for variant in site.could:
        sums: dict[str, tuple[int, int]] = {}
        for plug, channels in site.plugs(variant):
            counts = []
            for each in site.ways(variant, plug, channels):
                pieces = site.rates.pieces(known[each.way.method])
                counts.append({piece: each.joints * pieces.count(piece) for piece in pieces})
                for piece in pieces:
                    takers.setdefault(piece, []).append(each.way.method)
            for piece in {name for count in counts for name in count}:
                numbers = [count.get(piece, 0) for count in counts]
                least, most = sums.get(piece, (0, 0))
                sums[piece] = least + min(numbers), most + max(numbers)
        by_variant.append(sums)
    for piece, by in takers.items():
        some = [variant for variant, sums in zip(site.could, by_variant, strict=True) if piece in sums]
        spans = [sums.get(piece, (0, 0)) for sums in by_variant]
        records = dict.fromkeys(record for variant in some for record in site.rows(variant))
        yield Line(
            PART, f"{piece}, for the joints ({' or '.join(dict.fromkeys(by))}).", tuple(records), *site.if_map(some),
            least=min(least for least, _ in spans), most=max(most for _, most in spans),
        )  # fmt: skip


def _pinned_otherwise(stored: InDrawer, plug: Plug) -> list[str]:
    """Cavities where a loom's lead is for something else than the plug's row, + and − exchanged too."""
    rows = {row.cavity.lower(): row.function.name for row in plug.rows}
    leads = stored.loom.leads if stored.loom else ()
    found = [lead.cavity for lead in leads if rows.get(lead.cavity.lower(), lead.function.name) != lead.function.name]
    return list(dict.fromkeys(found))
