"""Every mix tried, one by one: written without the program, of which it takes the reader only.

For each plug: by hand; one loom with each of its terminals in its own cavity, in any other one or pulled, with both
ends or with one end cut off; every set of two looms or more in a row. What a mix connects is flooded, what it costs is
added up here again. Then all combinations over the plugs, and those that no other one beats.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from fractions import Fraction
from functools import cached_property
from itertools import combinations, product
from typing import Any, NamedTuple

Kind = tuple[bool, bool, str, bool]  # on a factory wire, on one that stays whole, where, of a supply

HALVES = ("unit", "car")
DASH = ("radio", "glove box")  # as the shop files of the cases say


class Mix(NamedTuple):
    """Minutes, money in hundredths, wires cut; the looms used and what kind of mix it is.

    `joints` are how many there are of each kind: what these come to hangs on the methods, and isn't in the sums yet.
    """

    minutes: Fraction
    money: Fraction
    cuts: int
    looms: tuple[str, ...]
    kind: str
    joints: tuple[tuple[Kind, int], ...] = ()


class Joint(NamedTuple):
    """What a joint comes to beside its method, and the kind that it is of."""

    minutes: Fraction
    parts: Fraction
    kind: Kind | None


class _Chain(NamedTuple):
    """What a row of looms makes of one cavity: joints that pass it on; its halves as they hang together, and whether
    a lead hangs there too.
    """

    passed: tuple[Joint, ...]
    pieces: tuple[tuple[frozenset[str], bool], ...]


class Own(NamedTuple):
    """A loom of the job itself, as one of the drawer."""

    name: str
    loom: Any
    store: Any
    days: int | None


def shape(loom: Any) -> Any:
    """What makes two looms the same."""
    return (
        {end: (about.housing, about.contacts) for end, about in loom.ends.items()},
        {(lead.end, lead.cavity, lead.own, lead.function.name) for lead in loom.leads},
        {(through.unit_cavity, through.car_cavity) for through in loom.throughs},
        {(row.cavity, row.function.name) for row in loom.pins},
    )


class Car:
    """A job and a shop as read, asked in this file's own words."""

    def __init__(self, job: Any, shop: Any) -> None:
        self.job, self.shop = job, shop
        self.labour = Fraction(shop.labour.minor)
        self.rows = {
            name: {row.cavity: row.function.name for row in plug.rows if row.function.name != "empty"}
            for name, plug in job.parts.plugs.items()
        }
        self.net: dict[str, str] = {}
        self.members: dict[str, set[str]] = {}
        self.laid_to = {end for each in job.segments if each.laid for end in (each.a, each.b)} - {
            name for name in job.contacts if name.split(".")[0] in (*self.rows, *job.parts.looms)
        }  # what a run leads to
        self._flood()

    # -- what must connect -----------------------------------------------------------------------------

    def _flood(self) -> None:
        job = self.job
        near: dict[str, set[str]] = {}

        def join(a: str, b: str) -> None:
            near.setdefault(a, set()).add(b)
            near.setdefault(b, set()).add(a)

        opened = {mate.plug for mate in job.mates}
        cut = {name.replace(".unit.", ".car.") for name in job.cut}
        for plug, rows in self.rows.items():
            for cavity in rows:
                near.setdefault(f"{plug}.unit.{cavity}", set())
                near.setdefault(f"{plug}.car.{cavity}", set())
                if plug not in opened and f"{plug}.car.{cavity}" not in cut:
                    join(f"{plug}.unit.{cavity}", f"{plug}.car.{cavity}")
        for loom in job.parts.looms.values():
            for through in loom.throughs:
                join(f"{loom.name}.unit.{through.unit_cavity}", f"{loom.name}.car.{through.car_cavity}")
        for mate in job.mates:
            for cavity in self.rows[mate.plug]:
                join(f"{mate.loom}.{mate.end}.{cavity}", f"{mate.plug}.{mate.half}.{cavity}")
        for joint in job.joints:
            for link in joint.links:
                join(link.a, link.b)
        for segment in job.segments:  # a wire that is laid is what it leads to
            if segment.laid:
                join(segment.a, segment.b)
        for start in list(near):
            if start in self.net:
                continue
            found, todo = {start}, [start]
            while todo:
                for other in near[todo.pop()]:
                    if other not in found:
                        found.add(other)
                        todo.append(other)
            kept = {name for name in found if name.split(".")[0] not in (*job.parts.looms, "run")}
            for name in found:
                self.net[name] = start
            self.members[start] = kept

    def need(self, half: str) -> set[str]:
        """All that must be joined to a half of a cavity, itself among it."""
        return self.members[self.net[half]]

    def site(self) -> list[str]:
        """The plugs at which anything is joined or opened."""
        touched = {mate.plug for mate in self.job.mates} | {name.split(".")[0] for name in self.job.cut}
        touched |= {end.split(".")[0] for joint in self.job.joints for link in joint.links for end in link}
        touched |= {end.split(".")[0] for segment in self.job.segments for end in (segment.a, segment.b)}
        return [plug for plug in self.rows if plug in touched]

    # -- what it costs ---------------------------------------------------------------------------------

    def time(self, word: str) -> Fraction:
        return Fraction(self.shop.works[word], 60_000)

    def recheck(self, word: str) -> Fraction:
        return Fraction(self.shop.recheck[word], 60_000)

    def piece(self, word: str) -> Fraction:
        return Fraction(self.shop.loose[word].store.price.minor)

    def joint(self, factory: bool, whole: bool, place: str, members: frozenset[str] = frozenset()) -> Any:
        """Minutes and parts of the joint that costs least."""
        return min(
            self.methods((factory, whole, place, self.supply(members))),
            key=lambda way: (way[1] + way[0] * self.labour / 60, way[0]),
        )

    def supply(self, members: Iterable[str]) -> bool:
        return any(self.rows.get(name.split(".")[0], {}).get(name.split(".")[-1]) == "ACC" for name in members)

    def methods(self, kind: Kind) -> list[tuple[Fraction, Fraction]]:
        """Minutes and parts by every method of the preset `house`: solder or crimp, and on a factory wire that stays
        whole and carries a plain signal, so no supply (ACC), a piercing tap as well.
        """
        factory, whole, place, supply = kind
        made = []
        for method in ("solder", "crimp", "pierce"):
            if method == "pierce" and not (factory and whole and not supply):
                continue
            entries = [
                (len(each.at), Fraction(each.time_ms, 60_000))
                for each in self.shop.joints
                if each.method == method
                and (each.at == "" or each.at in place or (each.at == "dash" and any(word in place for word in DASH)))
            ]
            parts = Fraction(self.shop.consumables.minor)
            parts += {"solder": 0, "crimp": self.piece("butt joint"), "pierce": self.piece("tap")}[method]
            if method != "pierce":
                parts += self.piece("heat shrink")
            made.append((max(entries)[1], parts))
        return made

    def made(self, factory: bool, whole: bool, place: str, net: set[str], contacts: Iterable[str]) -> Joint:
        """A joint of these contacts. Where a run begins at one and nothing else meets it, no method can be written for
        it, and it goes by the cheapest; any other is of a kind, all of which are made by one method.
        """
        if len(set(contacts) - self.laid_to) < 2:
            return Joint(*self.joint(factory, whole, place, frozenset(net)), None)
        return Joint(Fraction(0), Fraction(0), (factory, whole, place, self.supply(net)))

    def mix(
        self, minutes: Fraction, parts: Fraction, cuts: int, looms: tuple[str, ...], kind: str, joints: Iterable[Joint]
    ) -> Mix:
        held = Counter[Kind]()
        for each in joints:
            minutes, parts = minutes + each.minutes, parts + each.parts
            if each.kind is not None:
                held[each.kind] += 1
        return Mix(minutes, parts + minutes * self.labour / 60, cuts, looms, kind, tuple(sorted(held.items())))

    def place(self, plug: str) -> str:
        return str(self.job.parts.plugs[plug].where)

    def lead_place(self, outs: set[str]) -> str:
        """Where what stays outside is joined to a lead now, the first of it by name that is; else the bench."""
        for out in sorted(outs):
            for joint in self.job.joints:
                for link in joint.links:
                    ends = {link.a, link.b}
                    if out in ends and any(end.split(".")[0] in self.job.parts.looms for end in ends) and joint.at:
                        return str(joint.at)
        return "the bench"

    # -- the mixes of one plug -------------------------------------------------------------------------

    def mixes(self, plug: str) -> Iterator[Mix]:
        yield self.by_hand(plug)
        for item in self.looms():
            ends = [end for end in item.loom.ends if self.seats(plug, item.loom, end)]
            if ends and len(ends) == len(item.loom.ends):
                yield from self.one_loom(plug, item, tuple(ends), "")
            if len(item.loom.ends) == 2:
                for end in ends:
                    yield from self.one_loom(plug, item, (end,), next(e for e in HALVES if e != end))
        yield from self.rows_of_looms(plug)

    def rows_of_looms(self, plug: str) -> Iterator[Mix]:
        """Every set of two looms or more that fit whole, one in the other."""
        two = [item for item in self.looms() if len(item.loom.ends) == 2]
        whole = [item for item in two if all(self.seats(plug, item.loom, end) for end in HALVES)]
        for count in range(2, len(whole) + 1):
            for row in combinations(whole, count):
                yield from self.in_a_row(plug, row)

    def looms(self) -> list[Any]:
        """The drawer's that have a price and can be had, and the job's own where the drawer has none like it."""
        made = [item for item in self.shop.looms.values() if item.store.price is not None]
        made = [item for item in made if self.limit(item) != 0]
        for loom in self.job.parts.looms.values():
            if not any(shape(item.loom) == shape(loom) for item in self.shop.looms.values()):
                made.append(Own(loom.name, loom, loom.store, None))
        return made

    def limit(self, item: Any) -> int | None:
        return item.store.stock if item.days is None else None

    def seats(self, plug: str, loom: Any, end: str) -> bool:
        about = self.job.parts.plugs[plug]
        return loom.ends[end].housing == about.housing and loom.ends[end].contacts != about.genders[end]

    def by_hand(self, plug: str) -> Mix:
        minutes = parts = Fraction(0)
        parted = {c for c in self.rows[plug] if self.net[f"{plug}.unit.{c}"] != self.net[f"{plug}.car.{c}"]}
        joints = []
        for net in self.nets(plug):
            outs = {name for name in self.members[net] if not name.startswith(f"{plug}.")}
            halves = [name for name in self.members[net] if name not in outs]
            whole = {name.split(".")[-1] for name in halves} - parted
            ends = [name for name in halves if name.split(".")[-1] in parted]
            if len(whole) + len(ends) + len(outs) > 1:
                a_tap = len(whole) == 1 and not ends
                joints.append(self.made(True, a_tap, self.place(plug), self.members[net], {*whole, *ends, *outs}))
            elif ends:
                minutes, parts = minutes + self.time("cap"), parts + self.piece("cap")
        return self.mix(minutes, parts, len(parted), (), "by hand", joints)

    def nets(self, plug: str) -> list[str]:
        return list(dict.fromkeys(self.net[f"{plug}.{half}.{c}"] for c in self.rows[plug] for half in HALVES))

    def one_loom(self, plug: str, item: Any, ends: tuple[str, ...], gone: str) -> Iterator[Mix]:
        wires = self.wires(item.loom, gone)
        wires = [([pin for pin in pins if pin[0] in ends], says, free) for pins, says, free in wires]
        pins = [(at, pin) for at, (wire, _, _) in enumerate(wires) for pin in wire]
        seats: list[list[str | None]] = []
        for at, (_, cavity) in pins:
            says = wires[at][1]
            goals: list[str | None] = [None, cavity]
            goals += [each for each in self.rows[plug] if each != cavity]
            seats.append([
                goal for goal in goals
                if goal is None or goal not in self.rows[plug] or not says or self.rows[plug][goal] in says
            ])  # fmt: skip
        for stand in self.stands(pins, seats):
            yield from self.stood(plug, item, ends, gone, wires, pins, stand)

    def stands(self, pins: list[Any], seats: list[list[str | None]]) -> Iterator[tuple[str | None, ...]]:
        """Every way to seat the terminals, no two of one end in the same cavity."""

        def walk(at: int, taken: frozenset[tuple[str, str]], so_far: tuple[str | None, ...]) -> Iterator[Any]:
            if at == len(pins):
                yield so_far
                return
            for goal in seats[at]:
                key = (pins[at][1][0], goal or "")
                if goal is not None and key in taken:
                    continue
                yield from walk(at + 1, taken | ({key} if goal is not None else set()), (*so_far, goal))

        yield from walk(0, frozenset(), ())

    def stood(
        self, plug: str, item: Any, ends: tuple[str, ...], gone: str, wires: list[Any], pins: list[Any],
        stand: tuple[str | None, ...],
    ) -> Iterator[Mix]:  # fmt: skip
        at_half: dict[str, int] = {}
        minutes = self.time("mate") * len(ends) + (self.time("cut end off") if gone else 0)
        parts = Fraction(item.store.price.minor)
        locks: set[str] = set()
        pulled: set[tuple[str, str]] = set()
        nets: dict[int, set[str]] = {}
        again = False
        for (wire, (end, cavity)), goal in zip(pins, stand, strict=True):
            if goal is None:
                minutes += self.time("pull") + self.recheck("position")
                pulled.add((end, cavity))
                locks.add(end)
                continue
            if goal != cavity:
                minutes += self.time("move") + self.recheck("position") + self.recheck("tug")
                locks.add(end)
            half = f"{plug}.{end}.{goal}"
            if goal in self.rows[plug]:
                at_half[half] = wire
                nets.setdefault(wire, set()).add(self.net[half])
        if any(len(each) > 1 for each in nets.values()):
            return
        for wire in set(at_half.values()):  # a loom that leads from one function to another is for another car
            if len({self.rows[plug][half.split(".")[-1]] for half, at in at_half.items() if at == wire}) > 1:
                return
        again = bool(locks)
        minutes += self.recheck("lock") * len(locks)
        free: dict[int, list[bool]] = {}  # by wire: its free ends, true once joined
        for at, (_, _, points) in enumerate(wires):
            free[at] = [False for _, pin in points if pin is None or pin[2] or pin[:2] not in pulled]
        usable = {
            at: any(pin is not None and pin[:2] not in pulled for _, pin in points)
            for at, (_, _, points) in enumerate(wires)
        }
        choices = []
        for net in self.nets(plug):
            members = self.members[net]
            if len(members) < 2:
                continue
            ways = self.serve(plug, members, at_half, usable)
            if not ways:
                return
            choices.append(ways)
        for chosen in product(*choices):
            joined = {wire for _, on in chosen for wire in on}
            left = sum(len(each) for each in free.values()) - len(joined)
            more, used = minutes + left * self.time("cap"), parts + left * self.piece("cap")
            kind = ("one end" if gone else "loom") + (" re-pinned" if again else "")
            yield self.mix(more, used, 0, (item.name,), kind, [joint for joint, _ in chosen if joint is not None])

    def serve(
        self, plug: str, members: set[str], at_half: dict[str, int], usable: dict[int, bool]
    ) -> list[tuple[Joint | None, tuple[int, ...]]]:
        """The ways to join all members of a net with one joint, or with none: the joint, and the wires joined."""
        outs = {name for name in members if not name.startswith(f"{plug}.")}
        halves = sorted(members - outs)
        if any(name.startswith(f"{plug}.unit.") and name not in at_half for name in halves):
            return []
        parts = list(dict.fromkeys(at_half.get(name, name) for name in halves))  # wires, and factory wires alone
        if len(parts) == 1 and not outs:
            return [(None, ())]
        places: list[list[int | str]] = []  # of each where it can be joined: at its free end, or behind the plug
        for part in parts:
            behind: list[int | str] = [
                name for name in halves if name.startswith(f"{plug}.car.") and at_half.get(name, name) == part
            ]
            places.append([*([part] if isinstance(part, int) and usable[part] else []), *behind])
        ways = []
        for chosen in product(*places):
            wires = tuple(each for each in chosen if isinstance(each, int))
            factory = {each for each in chosen if isinstance(each, str)}
            place = self.place(plug) if factory else self.lead_place(outs)
            contacts = {*outs, *factory, *(f"lead of {wire}" for wire in wires)}
            ways.append((self.made(bool(factory), len(factory) < 2, place, members, contacts), wires))
        return ways

    def wires(self, loom: Any, gone: str) -> list[Any]:
        """(pins as end and cavity, functions said, free ends with their pin, whose third says: a name of its own)."""
        said = {row.cavity: row.function.name for row in loom.pins if row.function.name != "unknown"}
        made: list[Any] = []
        by_pin: dict[tuple[str, str], Any] = {}
        for through in loom.throughs:
            two = [("unit", through.unit_cavity), ("car", through.car_cavity)]
            wire: Any = (list(two), set(), [])
            made.append(wire)
            by_pin.update(dict.fromkeys(two, wire))
        for lead in loom.leads:
            if not lead.cavity:
                made.append(([], set(), [(lead.own, None)]))
                continue
            pin = (lead.end, lead.cavity)
            if pin not in by_pin:
                by_pin[pin] = ([pin], set(), [])
                made.append(by_pin[pin])
            if lead.function.name != "unknown":
                by_pin[pin][1].add(lead.function.name)
            by_pin[pin][2].append((lead.own, (*pin, bool(lead.own))))
        for pin, wire in by_pin.items():
            if pin[1] in said:
                wire[1].add(said[pin[1]])
        if not gone:
            return made
        cut = []
        for pins, says, free in made:
            left = [pin for pin in pins if pin[0] != gone]
            if not pins:
                cut.append((pins, says, free))
            elif left:
                points = [(own, pin) for own, pin in free if pin[0] != gone]
                if len(pins) == 2 and not any(not own for own, _ in points):
                    points.append(("", (*left[0], False)))  # it hangs loose where the end was
                says_left = {lead.function.name for lead in loom.leads if (lead.end, lead.cavity) == left[0]} - {
                    "unknown"
                }
                cut.append((left, says_left | ({said[left[0][1]]} if left[0][1] in said else set()), points))
        return cut

    def in_a_row(self, plug: str, row: tuple[Any, ...]) -> Iterator[Mix]:
        """Looms as they come, one in the other: each circuit opened at one of them, and passed by all others."""
        minutes = self.time("mate") * (len(row) + 1)
        parts = Fraction(sum(item.store.price.minor for item in row))
        has: list[dict[tuple[str, str], Any]] = []
        frees = 0
        for item in row:
            wires = self.wires(item.loom, "")
            for pins, says, _ in wires:
                if len({cavity for _, cavity in pins}) > 1:
                    return
                if any(c in self.rows[plug] and says and says != {self.rows[plug][c]} for _, c in pins):
                    return
            frees += sum(len(free) for _, _, free in wires)
            has.append({pin: wire for wire in wires for pin in wire[0]})
        chains: list[list[_Chain]] = []
        for cavity in self.rows[plug]:
            kinds = []
            on_the_way = []
            for there in has:
                one, two = there.get(("unit", cavity)), there.get(("car", cavity))
                if one is None or two is None:
                    return
                kinds.append("through" if one is two else "leads" if one[2] and two[2] else "gap")
                on_the_way.append(one is two and bool(one[2]))
            if "gap" in kinds:
                return
            chains.append(list(self.chains(plug, cavity, kinds, on_the_way)))
        for chosen in product(*chains):
            ways = [self.meet(plug, net, chosen) for net in self.nets(plug)]
            if not all(ways):
                continue
            passed = [joint for each in chosen for joint in each.passed]
            for some in product(*ways):
                left = frees - 2 * len(passed) - sum(joined for _, joined in some)
                more, used = minutes + left * self.time("cap"), parts + left * self.piece("cap")
                joints = [*passed, *(joint for joint, _ in some if joint is not None)]
                yield self.mix(more, used, 0, tuple(item.name for item in row), "series", joints)

    def chains(self, plug: str, cavity: str, kinds: list[str], on_the_way: list[bool]) -> Iterator[_Chain]:
        """A cavity through a row of looms: at each loom with two leads these are joined to pass on, or they aren't."""
        unit, car = f"{plug}.unit.{cavity}", f"{plug}.car.{cavity}"
        pass_on = self.made(False, True, "the bench", self.need(unit) | self.need(car), ("unit", "car"))
        apart = [at for at, kind in enumerate(kinds) if kind == "leads"]
        made = set()
        for closed in product((True, False), repeat=len(apart)):
            joints = (pass_on,) * sum(closed)
            breaks = [at for at, shut in zip(apart, closed, strict=True) if not shut]
            if not breaks:
                made.add(_Chain(joints, ((frozenset((unit, car)), any(on_the_way)),)))
            else:  # at both sides of a break there is a lead
                made.add(_Chain(joints, ((frozenset((unit,)), True), (frozenset((car,)), True))))
        yield from sorted(made, key=repr)

    def meet(self, plug: str, net: str, chains: tuple[_Chain, ...]) -> list[tuple[Joint | None, int]]:
        """The ways to join all that is in a net by one joint or none: the joint, and how many leads are in it."""
        outs = {name for name in self.members[net] if not name.startswith(f"{plug}.")}
        pieces = [(halves, lead) for chain in chains for halves, lead in chain.pieces if halves & self.members[net]]
        if any(not halves <= self.members[net] for halves, _ in pieces):
            return []  # what must be apart hangs together
        if len(pieces) == 1 and not outs:
            return [(None, 0)]
        places = [
            [*([""] if lead else []), *(half for half in halves if half.startswith(f"{plug}.car."))]
            for halves, lead in pieces
        ]
        ways: list[tuple[Joint | None, int]] = []
        for chosen in product(*places):
            factory, leads = (
                [half for half in chosen if half],
                [f"lead {at}" for at, half in enumerate(chosen) if not half],
            )
            place = self.place(plug) if factory else self.lead_place(outs)
            contacts = {*outs, *factory, *leads}
            ways.append((self.made(bool(factory), len(factory) < 2, place, self.members[net], contacts), len(leads)))
        return ways

    # -- the whole car ---------------------------------------------------------------------------------

    def front(self) -> list[tuple[Mix, ...]]:
        """Every combination over the plugs that no other one beats, one for each of what they come to; each kind of
        joint in the whole car by one method, all of them tried.
        """
        return list(self._points.values())

    @cached_property
    def _points(self) -> dict[tuple[Fraction, Fraction, int], tuple[Mix, ...]]:
        limits = {item.name: self.limit(item) for item in self.looms()}
        found: dict[tuple[Fraction, Fraction, int], tuple[Mix, ...]] = {}
        for chosen in product(*map(self._not_worse, self.site())):
            uses = Counter(name for mix in chosen for name in mix.looms)
            if any((most := limits[name]) is not None and number > most for name, number in uses.items()):
                continue
            for costs in self._by_every_method(chosen):
                found.setdefault(costs, chosen)
        best: list[tuple[Fraction, Fraction, int]] = []  # in order, what beats another one comes before it
        for key in sorted(found):
            if not any(other[1] <= key[1] and other[2] <= key[2] for other in best):
                best.append(key)
        return {key: found[key] for key in best}

    def costs(self) -> set[tuple[Fraction, Fraction, int]]:
        """What the points of the front come to."""
        return set(self._points)

    def _not_worse(self, plug: str) -> list[Mix]:
        """The mixes of a plug but those that another one beats by any method: it takes no more time, no more money, no
        more joints of any kind, cuts no more and uses no loom that the other doesn't.
        """
        best: list[tuple[Mix, dict[Kind, int]]] = []

        def no_more(one: tuple[Mix, dict[Kind, int]], other: tuple[Mix, dict[Kind, int]]) -> bool:
            return (
                one[0].minutes <= other[0].minutes
                and one[0].money <= other[0].money
                and one[0].cuts <= other[0].cuts
                and {*one[0].looms} <= {*other[0].looms}
                and all(number <= other[1].get(kind, 0) for kind, number in one[1].items())
            )

        for each in self.mixes(plug):
            mix = each, dict(each.joints)
            if not any(no_more(other, mix) for other in best):
                best[:] = [other for other in best if not no_more(mix, other)] + [mix]
        return [mix for mix, _ in best]

    def _by_every_method(self, chosen: tuple[Mix, ...]) -> Iterator[tuple[Fraction, Fraction, int]]:
        """Minutes, money and cuts of mixes, by every choice of one method for each kind of joint."""
        joints = Counter[Kind]()
        for mix in chosen:
            joints.update(dict(mix.joints))
        sums = {(sum(mix.minutes for mix in chosen), sum(mix.money for mix in chosen))}
        for kind, number in joints.items():
            ways = [(number * m, number * (p + m * self.labour / 60)) for m, p in self.methods(kind)]
            sums = {(a + m, b + p) for a, b in sums for m, p in ways}
        cuts = sum(mix.cuts for mix in chosen)
        for minutes, money in sums:
            yield Fraction(minutes), Fraction(money), cuts
