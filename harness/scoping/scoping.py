"""The whole scope: unknowns, risks, access, parts, joints and a range of minutes, each line with its records."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import NamedTuple

from harness.model.money import Money
from harness.model.parts import Plug
from harness.model.scope import Record, Scope, Wish
from harness.model.shop import InDrawer, Shop
from harness.presets import AUDIO, Preset, preset
from harness.read.job import DEFAULT_PRESET
from harness.read.maps import Map
from harness.scoping.lines import ACCESS, JOINT, PART, TIME, UNKNOWN, Line, open_line
from harness.scoping.risks import risks
from harness.scoping.variants import WHICH, Sifted, Variant, at_plug, at_row, at_unit, if_map, sift
from harness.telling_apart import phrases
from harness.telling_apart.session import Session
from harness.telling_apart.tests import CAVITY, OHM, SECONDS, TONE
from harness.weighing.hand import Hand, Way
from harness.weighing.rates import PRACTICE, Default, Rates

# Minutes, low and high, for what no shop file says. Common practice, no source.
_OWN = {
    "getting at a plug": (7, 15),
    "getting at a factory amplifier": (5, 15),
    "fitting a unit": (30, 60),
    "fitting a speaker": (20, 40),
    "toning a pair": (3, 5),
}
_FACTS = {
    "name": ("Which car is it?", "read its papers"),
    "year": ("Which model year is it?", "read its papers; the year of the first registration may be another one"),
    "steering": ("On which side is the wheel?", "ask the customer"),
    "audio": ("Which audio option has it?", "ask for the equipment list; look for names on the speaker grilles"),
    "drive": ("Petrol, diesel, hybrid or electric?", "read its papers"),
    "ownership": ("Owned or leased?", "ask the customer"),
}


class Scoping(NamedTuple):
    """All lines in the order of the paper, the sum of minutes, its price, and the figures that are the tool's own."""

    scope: Scope
    shop: Shop | None
    sifted: Sifted
    lines: tuple[Line, ...]
    defaults: tuple[Default, ...]
    labour: int  # hundredths an hour
    currency: str

    def of(self, kind: str) -> tuple[Line, ...]:
        return tuple(line for line in self.lines if line.kind == kind)

    @property
    def low_ms(self) -> int:
        return sum(line.low_ms for line in self.lines)

    @property
    def high_ms(self) -> int:
        return sum(line.high_ms for line in self.lines)

    def price(self, time_ms: int) -> Money:
        """What so much work costs, rounded up to a hundredth."""
        return Money(-(-time_ms * self.labour // 3_600_000), self.currency)


def scoping(scope: Scope, shop: Shop | None, maps: tuple[Map, ...]) -> Scoping:
    """The scope worked out. Nothing in it rests on what no file says."""
    sifted = sift(scope, maps)
    work = _Work(scope, shop, sifted)
    lines = (
        *work.unknowns(), *risks(scope, sifted.could), *work.access(), *work.parts(), *work.joints(), *work.minutes(),
    )  # fmt: skip
    own = tuple(
        Default(what, f"{low} to {high} min", PRACTICE) for what, (low, high) in _OWN.items() if what in work.used
    )
    if len(sifted.could) > 1:
        said = f"{SECONDS[CAVITY]} s, {SECONDS[OHM]} s, {SECONDS[TONE]} s"
        own += (Default("a look, ohms, a tone", said, PRACTICE),)
    rates = work.rates
    return Scoping(scope, shop, sifted, lines, rates.defaults(work.methods) + own, rates.labour, rates.currency)


_Cost = Callable[[Variant], tuple[int, int]]


class _Work:
    """One scope; `used` and `methods` gather which figures were needed."""

    def __init__(self, scope: Scope, shop: Shop | None, sifted: Sifted) -> None:
        self.scope, self.shop, self.sifted = scope, shop, sifted
        self.rates = Rates(shop)
        self.preset: Preset = preset((shop.preset if shop else "") or DEFAULT_PRESET)
        self.hand = Hand(self.rates, self.preset)
        self.used: set[str] = set()
        self.methods: list[str] = []
        self.session = Session(tuple(each for variant in sifted.could for each in variant.maps))

    # -- what isn't known --------------------------------------------------------------------------------------

    def unknowns(self) -> Iterator[Line]:
        for key, (question, how) in _FACTS.items():
            if key not in self.scope.car:
                yield open_line(UNKNOWN, question, "it is not written", how)
        if self.scope.fitted is None:
            yield open_line(
                UNKNOWN, "Has it stop-start, a battery sensor, noise cancelling, a speaker check?", "it is not written",
                "ask for the equipment list; look at the battery's minus",
            )  # fmt: skip
        if self.scope.features is None:
            yield open_line(
                UNKNOWN, "Which tones and voices does it make?", "it is not written",
                "try each with the customer: belt, reverse, parking, hands-free, emergency call",
            )  # fmt: skip
        yield from self._which_map()
        for variant in self.sifted.could:
            for plug in variant.plugs:
                yield from _gaps(variant, plug)
        for channel, wish in self._channels().items():
            for variant in self.sifted.could:
                if variant.pair(channel) is None:
                    yield open_line(
                        UNKNOWN, f"Where are the two wires of {channel}?",
                        f"map {variant.letter} has no pair {channel}", "tone it on the car", (wish.record,),
                    )  # fmt: skip

    def _which_map(self) -> Iterator[Line]:
        could = self.sifted.could
        for variant, why, records in self.sifted.out:
            yield Line(UNKNOWN, f"{variant.file} is left out: {why}.", records)
        if not could:
            yield open_line(
                UNKNOWN, "What is in the plugs?", "no map of this car is in the shop’s folders",
                "get a chart (ringout chart), or tone cavity by cavity",
            )  # fmt: skip
        elif len(could) > 1:
            table = self.session.table()
            cover = table.cover
            tests = ", ".join(phrases.short(table.tests[at_]) for at_ in cover.tests) if cover else ""
            how = WHICH + (f": {tests}" if tests else "")
            yield open_line(
                UNKNOWN, f"Which map is it: {', '.join(each.letter for each in could)}?",
                "more than one could fit", how, tuple(at_plug(each.plugs[0]) for each in could),
            )  # fmt: skip

    # -- what is done --------------------------------------------------------------------------------------------

    def _channels(self) -> dict[str, Wish]:
        """The channels whose wires are needed, each with the wish that needs them first."""
        made: dict[str, Wish] = {}
        for wish in self.scope.wishes:
            if wish.what == "amplify":
                made.setdefault(wish.name, wish)
        return made

    def _if_map(self, variants: list[Variant]) -> tuple[str, str]:
        return if_map(variants, self.sifted.could)

    def access(self) -> Iterator[Line]:
        found: dict[tuple[str, str], tuple[list[Variant], list[Record]]] = {}
        for variant in self.sifted.could:
            for plug, channels in self._plugs(variant):
                variants, records = found.setdefault((plug.where, plug.name), ([], []))
                variants.append(variant)
                records += [at_plug(plug), *(self._channels()[each].record for each in channels)]
        for (where, name), (variants, records) in found.items():
            condition, how = self._if_map(variants)
            if not where:
                condition = " and ".join(filter(None, (condition, "its place is known")))
                how = "; ".join(filter(None, (how, f"write place: at the plug {name}, or look")))
            yield Line(
                ACCESS,
                f"Get at plug {name}, {where or 'place not recorded'}.",
                tuple(dict.fromkeys(records)),
                condition,
                how,
            )
        for variant in self.sifted.could:
            for unit in variant.amplifiers:
                condition, how = self._if_map([variant])
                if not unit.where:
                    condition = " and ".join(filter(None, (condition, "its place is known")))
                    how = "; ".join(filter(None, (how, f"write place: at the unit {unit.name}, or look")))
                yield Line(ACCESS, f"Get at the factory amplifier, {unit.where or 'place not recorded'}.",
                           (at_unit(unit),), condition, how)  # fmt: skip
        for wish in self.scope.wishes:
            if wish.what == "unit":
                yield Line(ACCESS, f"Make room for {wish.name}, {wish.where}.", (wish.record,)) if wish.where else (
                    open_line(ACCESS, f"Make room for {wish.name}.", "its place is agreed", "ask the customer",
                              (wish.record,)))  # fmt: skip
            elif wish.what in ("replace", "add") and wish.where:
                yield Line(ACCESS, f"Get at the place of speaker {wish.name}, {wish.where}.", (wish.record,))
            elif wish.what in ("replace", "add"):
                yield open_line(ACCESS, f"Get at the place of speaker {wish.name}.", "its place is known",
                                "look at the car: trim, screws, depth", (wish.record,))  # fmt: skip

    def _plugs(self, variant: Variant) -> list[tuple[Plug, list[str]]]:
        """The plugs of a variant that are opened, each with the channels in it."""
        made: dict[str, tuple[Plug, list[str]]] = {}
        for channel in self._channels():
            found = variant.pair(channel)
            if found is not None:
                made.setdefault(found[0].name, (found[0], []))[1].append(channel)
        return list(made.values())

    def parts(self) -> Iterator[Line]:
        for wish in self.scope.wishes:
            if wish.what == "unit":
                yield Line(PART, f"{wish.name}.", (wish.record,))
            elif wish.what in ("replace", "add"):
                yield open_line(PART, f"Speaker {wish.name}.", "its size and ohms are known",
                                "measure the old one or the place; read ohms", (wish.record,))  # fmt: skip
        seen: dict[str, tuple[list[Variant], list[Record]]] = {}
        for variant in self.sifted.could:
            for plug, channels in self._plugs(variant):
                for loom in self._looms(variant, plug, channels):
                    store = loom.store
                    about = [store.price.words if store.price else "price not written"]
                    about.append("stock not written" if store.stock is None else f"{store.stock} in stock")
                    if not store.stock and loom.days is not None:
                        about.append(f"{loom.days} days")
                    differ = _pinned_otherwise(loom, plug)
                    pins = f"; its pins differ at cavity {', '.join(differ)}: look before it is used" if differ else ""
                    words = f"Loom {loom.name} for plug {plug.name} ({', '.join(about)}): cuts nothing{pins}."
                    variants, records = seen.setdefault(words, ([], []))
                    variants.append(variant)
                    records += [Record(loom.name, loom.place), at_plug(plug)]
        for words, (variants, records) in seen.items():
            yield Line(PART, words, tuple(dict.fromkeys(records)), *self._if_map(variants))
        lacking: dict[tuple[str, bool], tuple[list[Variant], list[Record]]] = {}
        for variant in self.sifted.could:
            for plug, channels in self._plugs(variant):
                if not self._looms(variant, plug, channels):
                    variants, records = lacking.setdefault((plug.name, bool(plug.housing)), ([], []))
                    variants.append(variant)
                    records.append(at_plug(plug))
        for (name, housed), (variants, records) in lacking.items():
            condition, how = self._if_map(variants)
            yield open_line(
                PART, f"A loom for plug {name}, where nothing may be cut: the drawer has none "
                f"{'that fits' if housed else 'for a housing that nobody wrote'}.",
                " and ".join(filter(None, (condition, "there is one to buy" if housed else "its housing is known"))),
                "; ".join(filter(None, (how, "ask the store" if housed else f"look, and write housing: at {name}"))),
                tuple(records),
            )  # fmt: skip

    def _looms(self, variant: Variant, plug: Plug, channels: list[str]) -> list[InDrawer]:
        """Looms of the drawer with both ends of the plug's housing and a lead at both ends for every wire."""
        housing = " ".join(plug.housing.casefold().split())
        if not housing or self.shop is None:
            return []
        wires = [row.cavity.lower() for channel in channels for row in (variant.pair(channel) or ())[1:]]
        made = []
        for each in self.shop.looms.values():
            loom = each.loom
            if loom is None or {"unit", "car"} - loom.ends.keys():
                continue
            ends = (loom.ends["unit"].housing, loom.ends["car"].housing)
            leads = {(lead.end, lead.cavity.lower()) for lead in loom.leads}
            if all(" ".join(end.casefold().split()) == housing for end in ends) and all(
                (end, wire) in leads for end in ("unit", "car") for wire in wires
            ):
                made.append(each)
        return made

    def joints(self) -> Iterator[Line]:
        """A line for each plug and way of its pairs, whichever maps say so."""
        found: dict[str, tuple[list[Variant], list[Record]]] = {}
        for variant in self.sifted.could:
            at_plugs: dict[str, list[str]] = {}
            records: dict[str, list[Record]] = {}
            for channel, wish in self._channels().items():
                pair = variant.pair(channel)
                if pair is not None:
                    plug, plus, minus = pair
                    at_plugs.setdefault(plug.name, []).append(f"{channel} {plus.cavity}/{minus.cavity}")
                    records.setdefault(plug.name, []).extend((wish.record, at_row(plus), at_row(minus)))
            for name, pairs in at_plugs.items():
                words = (
                    f"Plug {name}, {', '.join(pairs)} (+/−): {4 * len(pairs)} joints; by hand "
                    f"{2 * len(pairs)} wires are cut, with a loom none."
                )
                variants, rests = found.setdefault(words, ([], []))
                variants.append(variant)
                rests += records[name]
        for words, (variants, rests) in found.items():
            yield Line(JOINT, words, tuple(dict.fromkeys(rests)), *self._if_map(variants))

    # -- minutes ---------------------------------------------------------------------------------------------------

    def minutes(self) -> Iterator[Line]:
        if len(self.sifted.could) > 1 and self.session.table().plan.test is not None:
            table = self.session.table()
            high = table.plan.worst or sum(test.seconds for test in table.tests)
            low = min(test.seconds for test in table.tests)
            records = tuple(at_plug(each.plugs[0]) for each in self.sifted.could)
            yield Line(TIME, "Finding out which map it is.", records, low_ms=low * 1000, high_ms=round(high * 1000))
        yield from self._by_variant("Getting at the plugs.", self._reach)
        yield from self._by_variant("Joints, with a loom or by hand.", self._joining)
        yield from self._by_variant("Toning each pair.", self._toning)
        amplifiers = [at_unit(unit) for each in self.sifted.could for unit in each.amplifiers]
        if amplifiers:
            low, high = self._own("getting at a factory amplifier")
            every = all(each.amplifiers for each in self.sifted.could)
            some = [each for each in self.sifted.could if each.amplifiers]
            yield Line(TIME, "Getting at the factory amplifier.", tuple(amplifiers), *self._if_map(some),
                       low_ms=low if every else 0, high_ms=high)  # fmt: skip
        for what, name in (("unit", "fitting a unit"), ("replace", "fitting a speaker"), ("add", "fitting a speaker")):
            wishes = [wish for wish in self.scope.wishes if wish.what == what]
            if wishes:
                low, high = self._own(name, len(wishes))
                count = len(wishes)
                said = f"{count} {'new ' if what == 'add' else ''}{name.rpartition(' ')[2]}{'' if count == 1 else 's'}"
                words = f"Fitting {said}."
                yield Line(TIME, words, tuple(wish.record for wish in wishes), low_ms=low, high_ms=high)

    def _own(self, what: str, count: int = 1) -> tuple[int, int]:
        self.used.add(what)
        low, high = _OWN[what]
        return low * count * 60_000, high * count * 60_000

    def _by_variant(self, words: str, cost: _Cost) -> Iterator[Line]:
        """One line over all variants: the least of any of them, and the most."""
        made = [(cost(variant), variant) for variant in self.sifted.could if self._plugs(variant)]
        if made:
            records = dict.fromkeys(record for _, variant in made for record in self._records(variant))
            if cost == self._joining and self._leased():
                records[self.scope.car["ownership"]] = None
            missing = len(made) < len(self.sifted.could)
            yield Line(TIME, words, tuple(records), *self._if_map([variant for _, variant in made]),
                       low_ms=0 if missing else min(low for (low, _), _ in made),
                       high_ms=max(high for (_, high), _ in made))  # fmt: skip

    def _records(self, variant: Variant) -> Iterator[Record]:
        for channel in self._channels():
            found = variant.pair(channel)
            if found is not None:
                yield from map(at_row, found[1:])

    def _reach(self, variant: Variant) -> tuple[int, int]:
        return self._own("getting at a plug", len(self._plugs(variant)))

    def _toning(self, variant: Variant) -> tuple[int, int]:
        return self._own("toning a pair", sum(len(channels) for _, channels in self._plugs(variant)))

    def _joining(self, variant: Variant) -> tuple[int, int]:
        low = high = 0
        for plug, channels in self._plugs(variant):
            has_loom = bool(self._looms(variant, plug, channels))
            ways = [self._with_loom(plug, len(channels))] if has_loom else []
            if not has_loom or not self._leased():  # a leased car is cut only where there is no other way
                ways.append(self._by_hand(plug, len(channels)))
            low, high = low + min(ways), high + max(ways)
        return low, high

    def _leased(self) -> bool:
        owned = self.scope.car.get("ownership")
        return owned is not None and owned.words.lower() in ("leased", "lease")

    def _by_hand(self, plug: Plug, pairs: int) -> int:
        way = self.hand.best(True, AUDIO, plug.where, True)
        return 4 * pairs * self._way(way)

    def _with_loom(self, plug: Plug, pairs: int) -> int:
        way = self.hand.best(False, AUDIO, plug.where, False)
        return 4 * pairs * self._way(way) + 2 * (self.rates.work_ms("mate") + self.rates.recheck_ms("lock"))

    def _way(self, way: Way | None) -> int:
        if way is None:
            return 0
        if way.method not in self.methods:
            self.methods.append(way.method)
        return way.time_ms


def _pinned_otherwise(stored: InDrawer, plug: Plug) -> list[str]:
    """Cavities where a loom's lead is for something else than the plug's row, + and − exchanged too."""
    rows = {row.cavity.lower(): row.function.name for row in plug.rows}
    leads = stored.loom.leads if stored.loom else ()
    found = [lead.cavity for lead in leads if rows.get(lead.cavity.lower(), lead.function.name) != lead.function.name]
    return list(dict.fromkeys(found))


def _gaps(variant: Variant, plug: Plug) -> Iterator[Line]:
    """What a map leaves open of a plug."""
    here = (at_plug(plug),)
    for key, said in (("place", plug.where), ("housing", plug.housing)):
        if not said:
            yield open_line(UNKNOWN, f"{key.capitalize()} of plug {plug.name}?", f"map {variant.letter} doesn’t say it",
                            f"look, and write {key}: there", here)  # fmt: skip
    if plug.face is None or not plug.face.view:
        yield open_line(UNKNOWN, f"From which side is plug {plug.name} numbered?",
                        f"map {variant.letter} doesn’t say it", "look at the moulded numbers", here)  # fmt: skip
    dark = [row for row in plug.rows if row.function.kind == "unknown"]
    if dark:
        cavities = ", ".join(row.cavity for row in dark)
        yield open_line(UNKNOWN, f"What is in cavity {cavities} of plug {plug.name}?",
                        f"map {variant.letter} has it as unknown", "tone or read volts",
                        tuple(Record("unknown", row.place) for row in dark))  # fmt: skip
