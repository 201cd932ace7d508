"""Looms in series at one plug: every best row of looms, none of them changed, that open what is opened and
tap the rest where that is best.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from itertools import product
from typing import NamedTuple

from harness.weighing.at_plug import wait
from harness.weighing.circuits import Choice, Circuit, Circuits, Ends, least
from harness.weighing.hand import Cost, Hand
from harness.weighing.mixes import SERIES, Made, PlugMix, Used
from harness.weighing.needs import Need, PlugNeeds
from harness.weighing.series import Cover, Leaf, Rows, Tap, no_worse
from harness.weighing.solder_in import joint_cost, shared_joint
from harness.weighing.wires import Wire, fits, wires_of

MOST_ORDERED = 10  # looms in a row; longer ones stand by name


_Loom = tuple[Used, dict[str, Ends], list[str]]  # with all of its free ends


class _Row(NamedTuple):
    """What is joined in a row so far, and the mixes that were refused of which all of it is a part."""

    cost: Cost
    joints: tuple[Made, ...]
    parts: tuple[tuple[Need, str], ...]
    behind: tuple[int, ...]  # how many factory wires are in the joint of each of the wide needs
    agrees: frozenset[tuple[object, ...]]


class InARow:
    """The search at one plug over the looms that fit it whole."""

    def __init__(self, plug: PlugNeeds, hand: Hand, looms: list[Used]) -> None:
        self.plug, self.hand = plug, hand
        self.circuits = Circuits(plug, hand)
        self.looms: list[_Loom] = []
        for used in sorted(looms, key=lambda used: used.item.name):
            ends = self._ends(used)
            if ends is not None:
                self.looms.append((used, *ends))

    def _ends(self, used: Used) -> tuple[dict[str, Ends], list[str]] | None:
        """What it has at each circuit, and all of its free ends; None where it can't stand in a row as it comes."""
        assert used.item.loom is not None
        by_pin: dict[tuple[str, str], Wire] = {}
        points = []
        for wire in wires_of(used.item.loom):
            if not wire.plain or len({pin.cavity.lower() for pin in wire.pins}) > 1:
                return None
            for pin in wire.pins:
                if not fits(pin, self.plug.rows.get(pin.cavity.lower())):
                    return None
                by_pin[pin.end, pin.cavity.lower()] = wire
            points += [f"{used.mark}.{name}" for name, _ in wire.points]
        made = {}
        for circuit in self.circuits.all:
            unit, car = (by_pin.get((half, circuit.cavity)) for half in ("unit", "car"))
            if unit is None or car is None:
                return None
            ends = Ends(
                unit is car, *(f"{used.mark}.{wire.points[0][0]}" if wire.points else "" for wire in (unit, car))
            )
            if not ends.through and not (ends.unit and ends.car):
                return None
            made[circuit.cavity] = ends
        return made, points

    def mixes(
        self, refused: Collection[tuple[object, ...]] = (), scarce: Collection[str] = (),
        others: Collection[tuple[int, Cost]] = (),
    ) -> list[PlugMix]:  # fmt: skip
        """The best rows of two looms or more. Those with keys in `refused` are not to be; a row that takes one of the
        `scarce` looms, by name, hides none that doesn't. `others` are days and costs by which a row may be beaten.
        """
        opens = [circuit for circuit in self.circuits.all if circuit.open]
        taps = [circuit for circuit in self.circuits.all if circuit.tapped]
        if len(self.looms) < 2 or len(opens) + len(taps) < 2 or not all(self._openers(each) for each in opens):
            return []  # a single tap is served by one loom
        self._refused = [key for key in refused if key[0] not in (0, 1)]
        self._marks = {used.mark.partition(".")[0] for used, _, _ in self.looms}
        known = [(*cost, days) for days, cost in others]
        made: list[PlugMix] = []
        # of the joint of each wide need: no factory wire in it, a single one that is tapped, or several
        for behind in product(*(range(min(len(need.cars), 2) + 1) for need in self.circuits.wide)):
            self.circuits.most_behind = dict(zip(self.circuits.wide, behind, strict=True))
            made += self._best(opens, taps, scarce, known)
        return made

    def _best(
        self, opens: list[Circuit], taps: list[Circuit], scarce: Collection[str], known: Iterable[tuple[int, ...]]
    ) -> list[PlugMix]:
        start = self._start(opens)
        if start is None:
            return []
        bits = {each.cavity: 1 << at for at, each in enumerate(opens)}
        ways = {circuit.cavity: self._ways_to_tap(circuit) for circuit in taps}
        for cavity, each in ways.items():
            if all(way.holders for way in each):
                bits[cavity] = 1 << len(bits)  # it wants one of them, whichever
        sets = []
        for at, (used, ends, points) in enumerate(self.looms):
            covered = sum(bits[each.cavity] for each in opens if not ends[each.cavity].through)
            covered += sum(bits[low] for low in ways if low in bits and any(way.holders >> at & 1 for way in ways[low]))
            sets.append(Cover(covered, self._weight(used, ends, points), wait(used.item)))
        few = sum(1 << at for at, (used, _, _) in enumerate(self.looms) if used.item.name in scarce)
        rows = Rows(sets, sum(bits.values()), list(ways.values()), self._leaves, start, few, known)
        return [mix for _, _, mix in sorted(rows.found, key=lambda each: each[:2]) if isinstance(mix, PlugMix)]

    def _openers(self, circuit: Circuit) -> int:
        """The looms, as bits, that have leads for it at both sides."""
        return sum(1 << at for at, (_, ends, _) in enumerate(self.looms) if not ends[circuit.cavity].through)

    def _ways_to_tap(self, circuit: Circuit) -> list[Tap]:
        """On the car's wire in any row, on a wire that goes through where that has a lead, and where leads of both
        sides are there to be joined: these, or the unit's side alone with the car's wire.
        """
        both = self._openers(circuit)
        lead = sum(1 << at for at, (_, ends, _) in enumerate(self.looms) if ends[circuit.cavity].on_the_way)
        behind = self.circuits.behind(circuit)
        ways = [(self.circuits.meeting(circuit.unit, behind), Cost(), 0)]
        if lead:
            ways.append((self.circuits.meeting(circuit.unit, "lead"), self.circuits.cap, lead))
        if both:
            spared = self.circuits.spared(circuit)
            ways.append(
                (
                    self.circuits.meeting(circuit.unit, "unit", "car"),
                    self.circuits.cap.plus(self.circuits.cap).plus(spared),
                    both,
                )
            )
            ways.append((self.circuits.meeting(circuit.unit, "unit", behind), self.circuits.cap.plus(spared), both))
        return [Tap(cost.less(less), holders) for cost, less, holders in ways if cost is not None]

    def _start(self, opens: list[Circuit]) -> Cost | None:
        """What a row costs at the least beside its looms and taps: one plug-in more than there are looms, what is
        opened, and the joints that serve several circuits; None where one of these can't be.
        """
        rates = self.hand.rates
        time_ms = rates.work_ms("mate")
        straight = sum(not self._openers(each) for each in self.circuits.all)  # goes through in every loom
        cost = Cost(time_ms, rates.money(time_ms, 0), contacts=straight)
        for need in self.circuits.wide:
            made = shared_joint(self.plug, self.hand, need, self.circuits.most_behind[need])
            if made is None:
                return None
            cost = cost.plus(joint_cost(self.hand, made))
        for circuit in opens:
            cost = cost.less(self.circuits.spared(circuit))
            for need in (circuit.unit, circuit.car):
                if not need.joined:
                    continue
                on_lead = self.circuits.meeting(need, "lead")
                ways = [] if on_lead is None else [on_lead.less(self.circuits.cap)]
                behind = self.circuits.meeting(need, self.circuits.behind(circuit)) if need is circuit.car else None
                if behind is not None:
                    ways.append(behind)
                if not ways:
                    return None
                cost = cost.plus(least(ways[0], ways[-1]))
        return cost

    def _leaves(self, chosen: tuple[int, ...], cost: tuple[int, ...]) -> Iterator[Leaf]:
        """The rows of these looms, by every choice of joints that may matter."""
        if len(chosen) < 2:
            return
        row = self._in_order([self.looms[at] for at in chosen])
        days = cost[-1]
        names = tuple(used.item.name for used, _, _ in row)
        start = self._base(row)
        for need in self.circuits.wide:
            shared = shared_joint(self.plug, self.hand, need, self.circuits.most_behind[need])
            assert shared is not None
            start = start.plus(joint_cost(self.hand, shared))
        made = [
            _Row(
                start,
                (),
                (),
                (0,) * len(self.circuits.wide),
                frozenset(key for key in self._refused if key[1] == names),
            )
        ]
        for circuit in self.circuits.all:
            new: list[_Row] = []
            choices = list(self.circuits.choices(circuit, [each[1][circuit.cavity] for each in row]))
            for each in made:
                for choice in choices:
                    more = self._with(each, choice)
                    if all(
                        number <= self.circuits.most_behind[need]
                        for need, number in zip(self.circuits.wide, more.behind, strict=True)
                    ):
                        _keep(new, more)
            made = new
        for whole in sorted(made, key=lambda each: each.cost):
            # two factory wires or more are as good as two
            if any(
                number != self.circuits.most_behind[need]
                for need, number in zip(self.circuits.wide, whole.behind, strict=True)
            ):
                continue

            def make(whole: _Row = whole) -> PlugMix | None:
                mix = self._mix(row, whole, days)
                return None if mix.key in self._refused else mix

            yield Leaf((*whole.cost, days), make)

    def _with(self, row: _Row, choice: Choice) -> _Row:
        extra = Cost(contacts=choice.contacts)
        members = [member for one in choice.joints for member in one.members] + [member for _, member in choice.parts]
        for one in choice.joints:
            extra = extra.plus(joint_cost(self.hand, one))
        extra = extra.less(*(self.circuits.cap for member in members if self._is_lead(member)))
        agrees = frozenset(
            key for key in row.agrees
            if all(one in key[3] for one in choice.joints)  # type: ignore[operator]
            and all(any(part in one.members for one in key[3]) for _, part in choice.parts)  # type: ignore[attr-defined]
        )  # fmt: skip
        behind = tuple(
            min(2, number + sum(of is need and self.circuits.is_behind(part) for of, part in choice.parts))
            for need, number in zip(self.circuits.wide, row.behind, strict=True)
        )
        return _Row(row.cost.plus(extra), (*row.joints, *choice.joints), (*row.parts, *choice.parts), behind, agrees)

    def _is_lead(self, member: str) -> bool:
        return member.partition(".")[0] in self._marks

    def _base(self, row: list[_Loom]) -> Cost:
        """The looms, plugged in, all of their free ends capped."""
        rates = self.hand.rates
        time_ms = rates.work_ms("mate") * (len(row) + 1)
        price = sum(used.item.store.price.minor if used.item.store.price else 0 for used, _, _ in row)
        cost = Cost(time_ms, rates.money(time_ms, price))
        for _, _, points in row:
            for _ in points:
                cost = cost.plus(self.circuits.cap)
        return cost

    def _in_order(self, row: list[_Loom]) -> list[_Loom]:
        """A row from the unit to the car with the fewest contacts in series, then by name: what is opened is best
        opened next to the half that is joined there.
        """
        row = sorted(row, key=lambda each: each[0].item.name)
        halves = []
        for each in self.circuits.all:
            openers = sum(1 << at for at, (_, ends, _) in enumerate(row) if not ends[each.cavity].through)
            both = each.unit.joined and each.car.joined
            if each.open and not (both and openers.bit_count() == 1):
                halves += [(openers, unit) for unit, need in ((True, each.unit), (False, each.car)) if need.joined]
        if not halves or len(row) > MOST_ORDERED:
            return row
        whole = (1 << len(row)) - 1
        best: dict[int, tuple[int, tuple[int, ...]]] = {0: (0, ())}  # by the looms at the unit's end of the row
        for there in range(1, whole + 1):
            # a contact more for each that isn't opened yet, seen from the half that is joined
            more = sum(not openers & (there if unit else whole & ~there) for openers, unit in halves) * (there != whole)
            befores = [(best[there & ~(1 << at)], at) for at in range(len(row)) if there >> at & 1]
            best[there] = min((number + more, (*order, at)) for (number, order), at in befores)
        return [row[at] for at in best[whole][1]]

    def _weight(self, used: Used, ends: dict[str, Ends], points: list[str]) -> Cost:
        """What one more loom costs in the row at the least: its price, a plug-in, its caps, and the leads joined to
        pass on where that is better than to cap them.
        """
        rates = self.hand.rates
        time_ms = rates.work_ms("mate")
        price = used.item.store.price
        cost = Cost(time_ms, rates.money(time_ms, price.minor if price else 0))
        for _ in points:
            cost = cost.plus(self.circuits.cap)
        for circuit in self.circuits.all:
            if not self._openers(circuit):
                cost = cost.plus(Cost(contacts=1))
            if not ends[circuit.cavity].through:
                cost = cost.plus(self.circuits.spared(circuit))
        return cost

    def _mix(self, row: list[_Loom], made: _Row, days: int) -> PlugMix:
        """A row of looms written out, from the unit to the car."""
        shared: list[Made] = []
        for need in self.circuits.wide:
            members = sorted((part for of, part in made.parts if of is need), key=self._is_lead)
            one = shared_joint(self.plug, self.hand, need, self.circuits.most_behind[need], tuple(members))
            assert one is not None
            shared.append(one)
        joints = (*made.joints, *shared)
        joined = {member for each in joints for member in each.members}
        over = tuple(point for _, _, points in row for point in points if point not in joined)
        looms = tuple(used for used, _, _ in row)
        return PlugMix(self.plug.name, (SERIES,), looms, joints, (), over, (), (), made.cost, days)


def _keep(held: list[_Row], new: _Row) -> None:
    """Into those so far, unless one is no worse that can't become a mix that was refused, or but the same one."""

    def beats(one: _Row, other: _Row) -> bool:
        return one.behind == other.behind and no_worse(one.cost, other.cost) and one.agrees <= other.agrees

    if any(beats(each, new) for each in held):
        return
    held[:] = [each for each in held if not beats(new, each)]
    held.append(new)
