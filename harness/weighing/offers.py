"""All mixes of a job weighed: the front, each offer of it proved as a job of its own, at most seven shown."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from typing import NamedTuple

from harness.finding import Severity
from harness.graph.wiring import Wiring
from harness.mend.page import CannotEdit
from harness.model.job import Job
from harness.model.shop import InDrawer, Shop
from harness.presets import preset
from harness.prove import Proof, prove_text
from harness.weighing.at_plug import AtPlug
from harness.weighing.combine import Point, front, most_of
from harness.weighing.hand import Hand
from harness.weighing.in_a_row import InARow
from harness.weighing.mixes import NONE, Made, Over, PlugMix, Used
from harness.weighing.naming import Named, alike, named
from harness.weighing.needs import PlugNeeds, Site, site
from harness.weighing.rates import HOUR_MS, Rates
from harness.weighing.recount import Figures, recount
from harness.weighing.solder_in import by_hand
from harness.weighing.taking import taken
from harness.weighing.wires import fits, wires_of

SHOWN = 7


class LoomUsed(NamedTuple):
    """A loom of an offer: its name in the job taken, in the drawer, the plug, what of it is used, and the store."""

    name: str
    item: InDrawer
    plug: str
    ends: tuple[str, ...]
    cut_off: str
    days: int


@dataclass(frozen=True, slots=True)
class Offer:
    """One way of doing all of it, whole: whatever a sheet needs of it stands here, in the names of the job taken.

    `figures` are counted from the job taken; `text` is that job. `days` to wait for the last loom.
    """

    name: str
    looms: tuple[LoomUsed, ...]
    joints: tuple[Made, ...]
    cut: tuple[str, ...]
    over: tuple[Over, ...]  # leads that are left, and their fate
    moved: tuple[tuple[str, str], ...]
    figures: Figures
    contacts: int  # in series on the circuits that are used
    days: int
    reasons: tuple[str, ...]
    as_planned: bool
    point: Point
    proof: Proof
    text: str


class Misfit(NamedTuple):
    """A loom whose housing fits a plug and whose pins don't: the cavities that differ, and how."""

    loom: str
    plug: str
    cavities: tuple[tuple[str, str], ...]  # cavity, words


class NotUsed(NamedTuple):
    """A loom or a way that was left out, and why."""

    what: str
    why: str


@dataclass(frozen=True, slots=True)
class Weighing:
    """What came of it. `offers` are shown, `left_out` are points of the front that are not."""

    proof: Proof
    shop: Shop | None
    rates: Rates
    site: Site
    now: Figures  # the job as it is
    offers: tuple[Offer, ...]
    left_out: int
    by_hand: Figures | None  # all of it without a loom, where that can be done
    misfits: tuple[Misfit, ...]
    not_used: tuple[NotUsed, ...]

    @property
    def methods(self) -> tuple[str, ...]:
        """The ways of joining that the offers and the job as it is take."""
        job = self.proof.job
        said = [joint.method for joint in job.joints] if job is not None else []
        return tuple(sorted({each.method for offer in self.offers for each in offer.joints} | set(said)))


def weigh(proof: Proof, text: str, shop: Shop | None) -> Weighing:
    """Every mix of the drawer's looms and joints by hand at the plugs of a job. `text` is the job's own file."""
    assert proof.wiring is not None
    wiring = proof.wiring
    job = wiring.job
    rates = Rates(shop)
    place = site(wiring)
    hand = Hand(rates, preset(job.preset))
    not_used: list[NotUsed] = []
    items = _items(job, shop, not_used)
    banned: set[tuple[str, tuple[object, ...]]] = set()
    by_plug = [_mixes(plug, hand, items) for plug in place.plugs]
    trial = _Trial(proof, text, rates, tuple(plug.name for plug in place.plugs), place)
    while True:
        open_plugs = [[mix for mix in mixes if (mix.plug, mix.key) not in banned] for mixes in by_plug]
        points = front(open_plugs) if by_plug and all(open_plugs) else []
        bad = next((found for point in points if (found := trial.refused(point))), None)
        if bad is None:
            break
        banned.add((bad[0].plug, bad[0].key))
        not_used.append(NotUsed(_told(bad[0]), bad[1]))
        by_plug = [_more(plug, hand, items, banned, mixes) for plug, mixes in zip(place.plugs, by_plug, strict=True)]
    chosen = _shown(points)
    offers = tuple(trial.offer(point) for point in chosen)
    plugs = tuple(plug.name for plug in place.plugs)
    misfits = tuple(_misfits(place, items))
    return Weighing(
        proof, shop, rates, place, recount(wiring, rates, plugs), offers, len(points) - len(offers),
        trial.without_looms(by_plug), misfits, tuple(dict.fromkeys(not_used)),
    )  # fmt: skip


def front_of(wiring: Wiring, shop: Shop | None) -> list[Point]:
    """The front of a job's mixes as they are computed, none of them proved yet."""
    rates, made = Rates(shop), site(wiring)
    hand, items = Hand(rates, preset(wiring.job.preset)), _items(wiring.job, shop, [])
    by_plug = [_mixes(plug, hand, items) for plug in made.plugs]
    return front(by_plug) if by_plug and all(by_plug) else []


# -- what there is --------------------------------------------------------------------------------------------


def _items(job: Job, shop: Shop | None, not_used: list[NotUsed]) -> list[InDrawer]:
    """The looms to choose from: the drawer's that have a price and can be had, and the job's own."""
    made = []
    drawer = list(shop.looms.values()) if shop else []
    for item in drawer:
        if item.store.price is None:
            not_used.append(NotUsed(item.name, "its price isn't written"))
        elif most_of(item) == 0:
            not_used.append(NotUsed(item.name, "none is in stock, and nobody wrote when one comes"))
        else:
            made.append(item)
    for name in dict.fromkeys(mate.loom for mate in job.mates):
        loom = job.parts.looms[name]
        if not loom.cut_off and not any(each.loom is not None and alike(each.loom, loom) for each in drawer):
            made.append(InDrawer(name, loom, loom.store, None, loom.place))
    return made


def _mixes(plug: PlugNeeds, hand: Hand, items: list[InDrawer]) -> list[PlugMix]:
    """Every mix of one plug that may lie on the front."""
    made = []
    none = by_hand(plug, hand)
    if none is not None:
        made.append(none)
    whole = []
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
            made += AtPlug(plug, hand, used).mixes()
    made += InARow(plug, hand, whole).mixes()
    return made


def _more(
    plug: PlugNeeds, hand: Hand, items: list[InDrawer], banned: set[tuple[str, tuple[object, ...]]],
    mixes: list[PlugMix],
) -> list[PlugMix]:  # fmt: skip
    """The mixes again where one was turned down: what it had hidden may come forward."""
    gone = {key for name, key in banned if name == plug.name}
    if not gone:
        return mixes
    made = [mix for mix in _mixes(plug, hand, items) if not (len(mix.looms) > 1)]
    whole = [
        Used(f"{item.name}@{plug.name}", item, ("unit", "car"), "")
        for item in items
        if item.loom is not None and set(item.loom.ends) == {"unit", "car"}
        and all(_seats(plug, item, end) for end in item.loom.ends)
    ]  # fmt: skip
    return made + InARow(plug, hand, whole).mixes(lambda mix: mix.key not in gone)


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


def _misfits(place: Site, items: list[InDrawer]) -> Iterator[Misfit]:
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
                        wrong[row.cavity] = f"{pin.says[0].name} there, {row.function.name} here"
            for need in plug.needs:
                for half, cavity in (("unit", need.unit), ("car", need.car)):
                    if need.joined and cavity and half in ends and (half, cavity.lower()) not in there:
                        wrong.setdefault(cavity, f"nothing there, {plug.rows[cavity.lower()].function.name} here")
            if ends and wrong:
                yield Misfit(item.name, plug.name, tuple(wrong.items()))


def _told(mix: PlugMix) -> str:
    looms = " and ".join(used.item.name for used in mix.looms)
    return f"{' '.join(mix.kinds)} at {mix.plug}" + (f" with {looms}" if looms else "")


# -- proof ----------------------------------------------------------------------------------------------------


class _Trial:
    """Points written out as jobs and proved, each once."""

    def __init__(self, proof: Proof, text: str, rates: Rates, plugs: tuple[str, ...], place: Site) -> None:
        assert proof.wiring is not None
        self.proof, self.text, self.rates, self.plugs = proof, text, rates, plugs
        self.job = proof.wiring.job
        self.place = place
        self.known = _must_mend(proof)
        self.done: dict[tuple[object, ...], tuple[Named, str, Proof | None, str]] = {}

    def _try(self, point: Point) -> tuple[Named, str, Proof | None, str]:
        key = tuple((mix.plug, mix.key) for mix in point.mixes)
        if key not in self.done:
            self.done[key] = self._prove(point)
        return self.done[key]

    def _prove(self, point: Point) -> tuple[Named, str, Proof | None, str]:
        names = named(self.job, point.mixes)
        try:
            text = taken(self.job, self.text, point.mixes, names, self._day(point))
        except CannotEdit as wrong:
            return names, "", None, f"the file is written in a way that it can't be put into by lines: {wrong}"
        proof = prove_text(text, self.job.file)
        if proof.wiring is None:
            return names, text, None, f"it can't be written: {proof.report.findings[0].message}"
        new = _must_mend(proof) - self.known
        if new:
            code = sorted(new)[0]
            first = next(each for each in proof.report.findings if each.code == code)
            return names, text, None, f"{code}: {first.message}"
        if _connections(site(proof.wiring), self.plugs) != _connections(self.place, self.plugs):
            return names, text, None, "it wouldn't connect what must connect"
        return names, text, proof, ""

    def _day(self, point: Point) -> str:
        """The shop's day for this job, to be written into it where a loom is waited for and the job says none."""
        shop = self.rates.shop
        waited = any(used.item.store.stock == 0 for mix in point.mixes for used in mix.looms)
        return shop.job_date if shop is not None and waited and not self.job.date else ""

    def refused(self, point: Point) -> tuple[PlugMix, str] | None:
        """The mix to leave out because of which this point doesn't pass the checks, and why."""
        why = self._try(point)[3]
        if not why:
            return None
        for at, mix in enumerate(point.mixes):
            if len(point.mixes) > 1:
                alone = Point((mix,), point.cost, point.days)
                if self._alone(alone, at):
                    return mix, self._alone(alone, at)
        return max(point.mixes, key=lambda mix: (len(mix.joints), mix.key)), why

    def _alone(self, point: Point, at: int) -> str:
        names = named(self.job, point.mixes)
        try:
            proof = prove_text(taken(self.job, self.text, point.mixes, names), self.job.file)
        except CannotEdit as wrong:
            return str(wrong)
        new = _must_mend(proof) - self.known if proof.wiring is not None else Counter(["R"])
        return f"{sorted(new)[0]}: {proof.report.findings[0].message}" if new else ""

    def without_looms(self, by_plug: list[list[PlugMix]]) -> Figures | None:
        """All plugs by hand, counted; None where the preset or a check forbids that."""
        hand = [next((mix for mix in mixes if not mix.looms), None) for mixes in by_plug]
        if not hand or any(mix is None for mix in hand):
            return None
        mixes = tuple(mix for mix in hand if mix is not None)
        proof = self._try(Point(mixes, mixes[0].cost, 0))[2]
        return recount(proof.wiring, self.rates, self.plugs) if proof is not None and proof.wiring is not None else None

    def offer(self, point: Point) -> Offer:
        names, text, proof, _ = self._try(point)
        assert proof is not None
        assert proof.wiring is not None
        mixes = point.mixes
        figures = recount(proof.wiring, self.rates, self.plugs)
        looms = tuple(
            LoomUsed(
                names.names[used.mark], used.item, mix.plug, used.ends, used.cut_off,
                point.days if used.item.store.stock == 0 else 0,
            )
            for mix in mixes
            for used in mix.looms
        )  # fmt: skip
        joints = tuple(
            each._replace(members=tuple(map(names.of, each.members))) for mix in mixes for each in mix.joints
        )
        over = tuple(
            Over(names.of(contact), fate)
            for mix in mixes
            for fate, contacts in (("capped", mix.capped), ("depinned", mix.pulled))
            for contact in contacts
        )
        moved = tuple((names.of(contact), goal) for mix in mixes for contact, goal in mix.moved)
        cut = tuple(each for mix in mixes for each in mix.cut)
        return Offer(
            _name(mixes), looms, joints, cut, over, moved, figures, point.cost.contacts, point.days,
            tuple(_reasons(self.job, mixes, looms, joints, figures)), text == self.text, point, proof, text,
        )  # fmt: skip


def _must_mend(proof: Proof) -> Counter[str]:
    return Counter(each.code for each in proof.report.findings if each.severity <= Severity.FIX)


def _connections(place: Site, plugs: tuple[str, ...]) -> object:
    return {
        (plug.name, half, low): (need.unit, need.car, need.outs)
        for plug in place.plugs
        if plug.name in plugs
        for (half, low), at in plug.net.items()
        for need in [plug.needs[at]]
        if need.joined
    }


def _name(mixes: tuple[PlugMix, ...]) -> str:
    if len(mixes) == 1:
        return " and ".join(mixes[0].kinds)
    return "; ".join(f"{mix.plug}: {' and '.join(mix.kinds)}" for mix in mixes)


def _reasons(
    job: Job, mixes: tuple[PlugMix, ...], looms: tuple[LoomUsed, ...], joints: tuple[Made, ...], figures: Figures
) -> Iterator[str]:
    """What speaks for it and against it, as facts."""
    leased = job.car is not None and job.car.ownership == "leased"
    if figures.cuts:
        again = ", and the car is leased" if leased else ""
        yield f"{_many(figures.cuts, 'factory wire')} cut: it can't be put back as it was{again}"
    elif any(each.factory for each in joints):
        yield f"no factory wire is cut; {_many(sum(each.factory for each in joints), 'joint')} on wires that stay whole"
    elif mixes:
        yield "nothing of the car's own wiring is touched: unplugged, it is as it was"
    for each in looms:
        if each.cut_off:
            yield f"{each.name} loses its {each.cut_off} end and fits no other car of this kind again"
    moved = sum(len(mix.moved) for mix in mixes)
    pulled = sum(len(mix.pulled) for mix in mixes)
    if moved or pulled:
        yield f"{_many(moved + pulled, 'terminal')} of the loom moved or pulled: look at position, lock and tug again"
    if any(NONE in mix.kinds for mix in mixes) and not looms:
        yield "needs no loom, and nothing has to be waited for"


def _many(count: int, word: str) -> str:
    return f"{count} {word}{'' if count == 1 else 's'}"


# -- which are shown ------------------------------------------------------------------------------------------


def _shown(points: list[Point]) -> list[Point]:
    """At most seven: the cheapest, the quickest, the one with the fewest wires cut, then one of each other kind by
    money, then by money.
    """
    if len(points) <= SHOWN:
        return points
    ends = [
        min(points, key=lambda point: (point.cost.money, point.rank)),
        min(points, key=lambda point: (point.cost.time_ms, point.cost.money, point.rank)),
        min(points, key=lambda point: (point.cost.cuts, point.cost.money, point.rank)),
    ]
    chosen = list(dict.fromkeys(map(points.index, ends)))
    kinds = {_name(points[at].mixes) for at in chosen}
    for fresh in (True, False):
        for at, point in enumerate(points):
            if len(chosen) < SHOWN and at not in chosen and (not fresh or _name(point.mixes) not in kinds):
                chosen.append(at)
                kinds.add(_name(point.mixes))
    return [points[at] for at in sorted(chosen)]


def agrees(offer: Offer, rates: Rates) -> bool:
    """Whether the job taken counts up to what was weighed."""
    cost, figures = offer.point.cost, offer.figures
    exact = figures.time_ms * rates.labour + figures.parts_money * HOUR_MS
    return (cost.time_ms, cost.money, cost.cuts, cost.dash) == (figures.time_ms, exact, figures.cuts, figures.dash)
