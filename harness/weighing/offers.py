"""All mixes of a job weighed: the front, each offer of it proved as a job of its own, at most seven shown."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from typing import NamedTuple

from harness.finding import Severity
from harness.graph.wiring import Wiring
from harness.joints import methods
from harness.mend.page import CannotEdit
from harness.model.job import Job
from harness.model.shop import InDrawer, Shop
from harness.presets import preset
from harness.prove import Proof, prove_text
from harness.weighing.begun import run_ends
from harness.weighing.by_method import by_words, car_front, method_of_each
from harness.weighing.choices import MOST_REFUSED, AtPlugs, Misfit, NotUsed, given_up, items_of, misfits, told_as
from harness.weighing.combine import Point, waited_for
from harness.weighing.hand import Hand
from harness.weighing.mixes import NONE, Made, Over, PlugMix
from harness.weighing.naming import Named, named
from harness.weighing.needs import Site, site
from harness.weighing.rates import HOUR_MS, Rates
from harness.weighing.recount import Figures, recount
from harness.weighing.taking import taken

SHOWN = 7


class LoomUsed(NamedTuple):
    """A loom of an offer: its name in the job taken, in the drawer, the plug, what of it is used.

    `late` where none lies there for it, `days` to wait then.
    """

    name: str
    item: InDrawer
    plug: str
    ends: tuple[str, ...]
    cut_off: str
    days: int
    late: bool


@dataclass(frozen=True, slots=True)
class Offer:
    """One way of doing all of it, whole: whatever a sheet needs of it stands here, in the names of the job taken.

    `figures` are counted from the job taken; `text` is that job. `days` to wait for the last loom. `methods` are those
    by which its joints are made where there was more than one to choose from.
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
    methods: tuple[str, ...]
    as_planned: bool
    point: Point
    proof: Proof
    text: str


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
        counted = {kind.partition(" at ")[0] for kind in self.now.work} & methods().keys()  # runs have no row
        return tuple(sorted({each.method for offer in self.offers for each in offer.joints}.union(said, counted)))


def job_day(weighing: Weighing) -> str:
    """The day of the work, as the job says or else the shop; empty where neither does."""
    job = weighing.proof.job
    return (job.date if job else "") or (weighing.shop.job_date if weighing.shop else "")


def weigh(proof: Proof, text: str, shop: Shop | None) -> Weighing:
    """Every mix of the drawer's looms and joints by hand at the plugs of a job. `text` is the job's own file."""
    assert proof.wiring is not None
    wiring = proof.wiring
    job = wiring.job
    rates = Rates(shop)
    place = site(wiring)
    hand = Hand(rates, preset(job.preset))
    not_used: list[NotUsed] = []
    items = items_of(job, shop, not_used)
    refused: dict[str, set[tuple[object, ...]]] = {plug.name: set() for plug in place.plugs}
    by_plug = AtPlugs(place.plugs, hand, items, refused, not_used)
    trial = _Trial(proof, text, rates, tuple(plug.name for plug in place.plugs), place)
    while True:
        points = car_front(by_plug.mixes, hand.ways)
        bad = next((found for point in points if (found := trial.refused(point))), None)
        if bad is None:
            break
        mix, why = bad
        not_used.append(NotUsed(told_as(mix), why))
        refused[mix.plug].add(mix.key)  # and what it had hidden may come forward
        if mix.use in given_up(refused[mix.plug]):
            not_used.append(NotUsed(f"any other {told_as(mix)}", f"{MOST_REFUSED} didn't pass; the rest wasn't tried"))
        by_plug.again(mix.plug)
    chosen = _shown(points)
    offers = tuple(trial.offer(point) for point in chosen)
    plugs = tuple(plug.name for plug in place.plugs)
    differ = tuple(misfits(place, items))
    return Weighing(
        proof, shop, rates, place, recount(wiring, rates, plugs), offers, len(points) - len(offers),
        trial.without_looms(by_plug.mixes({})), differ, tuple(dict.fromkeys(not_used)),
    )  # fmt: skip


def front_of(wiring: Wiring, shop: Shop | None) -> list[Point]:
    """The front of a job's mixes as they are computed, none of them proved yet."""
    rates, made = Rates(shop), site(wiring)
    hand, items = Hand(rates, preset(wiring.job.preset)), items_of(wiring.job, shop, [])
    return car_front(AtPlugs(made.plugs, hand, items, {}, []).mixes, hand.ways)


# -- proof ----------------------------------------------------------------------------------------------------


class _Trial:
    """Points written out as jobs and proved, each once."""

    def __init__(self, proof: Proof, text: str, rates: Rates, plugs: tuple[str, ...], place: Site) -> None:
        assert proof.wiring is not None
        self.proof, self.text, self.rates, self.plugs = proof, text, rates, plugs
        self.job = proof.wiring.job
        self.place = place
        self.hand = Hand(rates, preset(self.job.preset))
        self.known = _must_mend(proof)
        self.done: dict[tuple[object, ...], tuple[Named, str, Proof | None, str]] = {}

    def _try(self, point: Point) -> tuple[Named, str, Proof | None, str]:
        key = tuple((mix.plug, mix.key) for mix in point.mixes)
        if key not in self.done:
            self.done[key] = self._prove(point)
        return self.done[key]

    def _prove(self, point: Point) -> tuple[Named, str, Proof | None, str]:
        names = named(self.job, point.mixes, self.rates.shop)
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
        if _connections(site(proof.wiring, self.plugs), self.plugs) != _connections(self.place, self.plugs):
            return names, text, None, "it wouldn't connect what must connect"
        return names, text, proof, ""

    def _day(self, point: Point) -> str:
        """The shop's day for this job, to be written into it where a loom is waited for and the job says none."""
        shop = self.rates.shop
        return shop.job_date if shop is not None and waited_for(point.mixes) and not self.job.date else ""

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
        names = named(self.job, point.mixes, self.rates.shop)
        try:
            proof = prove_text(taken(self.job, self.text, point.mixes, names), self.job.file)
        except CannotEdit as wrong:
            return str(wrong)
        new = _must_mend(proof) - self.known if proof.wiring is not None else Counter(["R"])
        return f"{sorted(new)[0]}: {proof.report.findings[0].message}" if new else ""

    def without_looms(self, by_plug: list[list[PlugMix]]) -> Figures | None:
        """All plugs by hand, counted, by the cheapest methods; None where the preset or a check forbids that."""
        alone = [[mix for mix in mixes if not mix.looms] for mixes in by_plug]
        hand = [min(mixes, key=lambda mix: (mix.cost.money, mix.cost), default=None) for mixes in alone]
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
        late = waited_for(mixes)
        looms = tuple(
            LoomUsed(
                names.names[used.mark], used.item, mix.plug, used.ends, used.cut_off,
                used.item.days or 0 if used.mark in late else 0, used.mark in late,
            )
            for mix in mixes
            for used in mix.looms
        )  # fmt: skip
        runs = {end.name: end.to for end in run_ends(self.job)}
        joints = tuple(
            each._replace(members=tuple(to for name in each.members for to in runs.get(name, (names.of(name),))))
            for mix in mixes
            for each in mix.joints
        )
        over = tuple(
            Over(names.of(contact), fate)
            for mix in mixes
            for fate, contacts in (("capped", mix.capped), ("depinned", mix.pulled))
            for contact in contacts
        )
        moved = tuple((names.of(contact), goal) for mix in mixes for contact, goal in mix.moved)
        cut = tuple(each for mix in mixes for each in mix.cut)
        by = method_of_each(self.hand, (each for mix in mixes for each in mix.joints))
        return Offer(
            _name(mixes), looms, joints, cut, over, moved, figures, point.cost.contacts, point.days,
            (*_reasons(self.job, mixes, looms, joints, figures), *by_words(by)), tuple(sorted(set(by.values()))),
            text == self.text, point, proof, text,
        )  # fmt: skip


def _must_mend(proof: Proof) -> Counter[str]:
    return Counter(each.code for each in proof.report.findings if each.severity <= Severity.FIX)


def _connections(place: Site, plugs: tuple[str, ...]) -> object:
    return {
        (plug.name, half, low): (need.units, need.cars, need.outs)
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
    """At most seven: the cheapest, the quickest, of those with the fewest wires cut both as well; then by money one of
    each other kind of mix, one with each other loom, one by each other choice of methods, and then the rest.
    """
    if len(points) <= SHOWN:
        return points
    ends = [
        min(points, key=lambda point: (point.cost.money, point.rank)),
        min(points, key=lambda point: (point.cost.time_ms, point.cost.money, point.rank)),
        min(points, key=lambda point: (point.cost.cuts, point.cost.money, point.rank)),
        min(points, key=lambda point: (point.cost.cuts, point.cost.time_ms, point.cost.money, point.rank)),
    ]
    chosen = list(dict.fromkeys(map(points.index, ends)))
    alike = [_alike(point) for point in points]
    for depth in range(len(alike[0]) + 1):  # told apart by ever more; at last by anything
        for at in range(len(points)):
            same = depth < len(alike[0]) and any(
                alike[at][: depth + 1] == alike[other][: depth + 1] for other in chosen
            )
            if len(chosen) < SHOWN and at not in chosen and not same:
                chosen.append(at)
    return [points[at] for at in sorted(chosen)]


def _alike(point: Point) -> tuple[object, ...]:
    """The kind of mix, the looms, the methods that its joints are made by."""
    looms = tuple(used.item.name for mix in point.mixes for used in mix.looms)
    return _name(point.mixes), looms, frozenset(joint.method for mix in point.mixes for joint in mix.joints)


def agrees(offer: Offer, rates: Rates) -> bool:
    """Whether the job taken counts up to what was weighed."""
    cost, figures = offer.point.cost, offer.figures
    exact = figures.time_ms * rates.labour + figures.parts_money * HOUR_MS
    return (cost.time_ms, cost.money, cost.cuts, cost.dash) == (figures.time_ms, exact, figures.cuts, figures.dash)
