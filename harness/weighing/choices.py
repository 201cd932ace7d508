"""What there is to choose from at each plug: looms that fit, every mix of them, and those whose pins differ."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterator, Mapping
from typing import NamedTuple

from harness.graph.pins import differ
from harness.model.contact import printed
from harness.model.job import Job
from harness.model.shop import InDrawer, Shop
from harness.weighing.at_plug import AtPlug, wait
from harness.weighing.by_method import settled, settled_first, still_open
from harness.weighing.combine import most_of
from harness.weighing.hand import Cost, Hand, JointKind, Way
from harness.weighing.in_a_row import InARow
from harness.weighing.layers import no_worse
from harness.weighing.mixes import SERIES, PlugMix, Used, use_of, without_methods
from harness.weighing.naming import alike
from harness.weighing.needs import PlugNeeds, Site
from harness.weighing.rates import BENCH
from harness.weighing.several import modes
from harness.weighing.solder_in import by_hand
from harness.weighing.wires import fits, wires_of

MOST_REFUSED = 12  # ways of using the same looms at one plug; each has to be written out and proved


class Misfit(NamedTuple):
    """A loom whose housing fits a plug and whose pins don't: the cavities that differ, and how."""

    loom: str
    plug: str
    cavities: tuple[tuple[str, str], ...]  # cavity, words


class NotUsed(NamedTuple):
    """A loom or a way that was left out, and why."""

    what: str
    why: str


def items_of(job: Job, shop: Shop | None, not_used: list[NotUsed]) -> list[InDrawer]:
    """The looms to choose from: the drawer's that have a price and can be had, and the job's own."""
    made = []
    drawer = list(shop.looms.values()) if shop else []
    unpriced: list[InDrawer] = []
    for item in drawer:
        if item.store.price is None:
            unpriced.append(item)
            not_used.append(NotUsed(item.name, "its price isn't written"))
        elif most_of(item) == 0:
            not_used.append(NotUsed(item.name, "none is in stock, and nobody wrote when one comes"))
        else:
            made.append(item)
    for name in dict.fromkeys(mate.loom for mate in job.mates):
        loom = job.parts.looms[name]
        told = any(each.loom is not None and alike(each.loom, loom) and each not in unpriced for each in drawer)
        if not loom.cut_off and not told:
            made.append(InDrawer(name, loom, loom.store, None, loom.place))
    return made


def given_up(refused: Collection[tuple[object, ...]]) -> frozenset[tuple[object, ...]]:
    """The uses of looms of which so many ways were refused, by their keys, that the rest is let be."""
    times = Counter(use_of(key) for key in {without_methods(key) for key in refused if key[0]})
    return frozenset(use for use, number in times.items() if number >= MOST_REFUSED)


def mixes_at(
    plug: PlugNeeds, hand: Hand, items: list[InDrawer], refused: Collection[tuple[object, ...]] = (), *,
    lonely: bool = False, told: list[NotUsed] | None = None,
) -> list[PlugMix]:  # fmt: skip
    """Every mix of one plug that may lie on the front, but those that are refused, by their keys.

    Where too many ways of the same looms were refused (`given_up`), none of them is looked for any more.
    With `lonely` no other plug wants a loom, so that one of which there are few may beat all others here.
    """
    let_be = given_up(refused)
    made = settled(hand, lambda mine, done: _without_loom(plug, mine, done, refused))
    whole, searches = [], []
    for item in items:
        assert item.loom is not None
        mark = f"{item.name}@{plug.name}"
        seated = tuple(end for end in item.loom.ends if _seats(plug, item, end))
        if not seated:
            continue
        uses = [(seated, "")] if len(seated) == len(item.loom.ends) else []
        if len(item.loom.ends) == 2:
            uses += [((end,), next(other for other in item.loom.ends if other != end)) for end in seated]
        for ends, cut_off in uses:
            used = Used(mark, item, ends, cut_off)
            if len(ends) == 2:
                whole.append(used)
            if ((item.name,), (ends,)) in let_be:
                continue
            searches += [AtPlug(plug, hand, used, behind) for behind in modes(plug)]
    searches = sorted((each for each in searches if each.can), key=lambda each: (each.least.money, each.least))
    known: list[tuple[int, Cost]] = []  # of looms that can be had, so that nothing dearer need be looked for
    for search in searches:
        days = wait(search.used.item)
        so_far = [cost for waits, cost in known if waits <= days]
        found = _with_loom(search, so_far, refused, told)
        made += found
        priced = search.used.item.store.price is not None  # what costs nobody knows what beats no other loom
        if priced and (lonely or most_of(search.used.item) is None):
            known += [(days, mix.cost) for mix in found]
    rows: dict[object, PlugMix] = {}
    scarce = () if lonely else [used.item.name for used in whole if most_of(used.item) is not None]
    for some in _by_price(whole) if (SERIES,) not in let_be else ():

        def in_a_row(mine: Hand, some: list[Used] = some) -> list[PlugMix]:
            return InARow(plug, mine, some).mixes(refused, scarce, known)

        rows |= {mix.key: mix for mix in settled_first(hand, in_a_row)}
    return [*made, *rows.values()]


def _with_loom(
    search: AtPlug, so_far: list[Cost], refused: Collection[tuple[object, ...]], told: list[NotUsed] | None
) -> list[PlugMix]:
    """The mixes of one loom that nothing so far beats, by every choice of methods that may matter."""
    gave_up = False

    def at_plug(mine: Hand, done: list[PlugMix]) -> list[PlugMix]:
        nonlocal gave_up
        one = search if mine is search.hand else AtPlug(search.plug, mine, search.used, tuple(search.behind.items()))
        found = one.mixes([*so_far, *(mix.cost for mix in done)], refused)
        gave_up |= one.gave_up and not still_open(found)  # what is still open is searched again, method by method
        return found

    made = settled(search.hand, at_plug)
    if gave_up and told is not None:
        gone = f" without its {search.used.cut_off} end" if search.used.cut_off else ""
        what = f"{search.used.item.name}{gone} at {search.plug.name}"
        told.append(NotUsed(what, "too many ways to re-pin it; not all were tried"))
    return made


class AtPlugs:
    """The mixes of every plug of a car under the methods chosen; each plug is searched once for what concerns it.

    `refused` are keys by plug, and may grow; then that plug is searched `again`. `told` gets what wasn't tried.
    """

    def __init__(
        self, plugs: tuple[PlugNeeds, ...], hand: Hand, items: list[InDrawer],
        refused: Mapping[str, Collection[tuple[object, ...]]], told: list[NotUsed],
    ) -> None:  # fmt: skip
        self.plugs, self.hand, self.items, self.refused, self.told = plugs, hand, items, refused, told
        self._held: dict[str, dict[frozenset[tuple[JointKind, Way]], list[PlugMix]]] = {}

    def again(self, plug: str) -> None:
        """What was found at a plug holds no more."""
        del self._held[plug]

    def mixes(self, chosen: Mapping[JointKind, Way]) -> list[list[PlugMix]]:
        """The mixes plug by plug."""
        return [self._at(plug, chosen) for plug in self.plugs]

    def _at(self, plug: PlugNeeds, chosen: Mapping[JointKind, Way]) -> list[PlugMix]:
        places = {plug.where, BENCH, *(need.at for need in plug.needs)}
        mine = {kind: way for kind, way in chosen.items() if kind.place in places}
        held = self._held.setdefault(plug.name, {})
        key = frozenset(mine.items())
        if key not in held:
            held[key] = mixes_at(
                plug, Hand(self.hand.rates, self.hand.preset, mine) if mine else self.hand, self.items,
                self.refused.get(plug.name, ()), lonely=len(self.plugs) == 1, told=self.told,
            )  # fmt: skip
        return held[key]


def _without_loom(
    plug: PlugNeeds, hand: Hand, done: list[PlugMix], refused: Collection[tuple[object, ...]]
) -> list[PlugMix]:
    """The plug by hand, where none of these beats it."""
    mix = by_hand(plug, hand)
    if mix is None or mix.key in refused or any(no_worse(each.cost, mix.cost) for each in done):
        return []
    return [mix]


def _by_price(whole: list[Used]) -> Iterator[list[Used]]:
    """The looms to make rows of: those with a price, and with them each of the others alone, and all of them: so that
    what has a price isn't beaten by what has none.
    """
    priced = [used for used in whole if used.item.store.price is not None]
    yield priced
    if len(priced) < len(whole):
        yield whole
    if len(priced) + 1 < len(whole):
        yield from ([*priced, used] for used in whole if used.item.store.price is None)


def _seats(plug: PlugNeeds, item: InDrawer, end: str) -> bool:
    """Whether an end goes into its half of the plug: the housing by its word, and pins to sockets."""
    assert item.loom is not None
    about = item.loom.ends[end]
    there = plug.plug.genders.get(end, "")
    if about.contacts and about.contacts == there:
        return False
    return bool(about.housing and plug.plug.housing) and _plain(about.housing) == _plain(plug.plug.housing)


def _plain(housing: str) -> str:
    return " ".join(housing.casefold().split())


def misfits(place: Site, items: list[InDrawer]) -> Iterator[Misfit]:
    """Every loom whose housing fits a plug and whose pins say otherwise or aren't there, with the cavities."""
    for plug in place.plugs:
        for item in items:
            assert item.loom is not None
            ends = [end for end in item.loom.ends if _seats(plug, item, end)]
            wrong: dict[str, str] = {}
            there: set[tuple[str, str]] = set()
            for wire in wires_of(item.loom):
                for pin in wire.pins:
                    there.add((pin.end, pin.cavity.lower()))
                    row = plug.rows.get(pin.cavity.lower())
                    if pin.end in ends and row is not None and not fits(pin, row):
                        wrong[row.cavity] = f"{printed(pin.says[0].name)} there, {printed(row.function.name)} here"
            for cavity, words in _elsewhere(plug, item, ends):
                wrong.setdefault(cavity, words)
            for need in plug.needs:
                for half, low in need.slots:
                    if need.joined and half in ends and (half, low) not in there and low in plug.rows:
                        here = plug.rows[low]
                        wrong.setdefault(here.cavity, f"nothing there, {printed(here.function.name)} here")
            if ends and wrong:
                yield Misfit(item.name, plug.name, tuple(wrong.items()))


def _elsewhere(plug: PlugNeeds, item: InDrawer, ends: list[str]) -> Iterator[tuple[str, str]]:
    """Cavities whose wire comes out at another one, where the plan wants these two apart or they are for two things."""
    assert item.loom is not None
    if len(ends) < 2:
        return
    for unit, car, _ in item.loom.throughs:
        one, other = (plug.net.get((half, cavity.lower())) for half, cavity in (("unit", unit), ("car", car)))
        here, there = plug.rows.get(unit.lower()), plug.rows.get(car.lower())
        if unit.lower() == car.lower() or here is None:
            continue
        if one != other or (there is not None and differ(here.function, there.function)):
            yield here.cavity, f"the wire to {car} there"


def told_as(mix: PlugMix) -> str:
    """A mix in words: `one end removed at dash with L3`."""
    looms = " and ".join(used.item.name for used in mix.looms)
    return f"{' '.join(mix.kinds)} at {mix.plug}" + (f" with {looms}" if looms else "")
