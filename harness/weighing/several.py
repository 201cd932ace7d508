"""Nets with several cavities of a side, served by one loom cavity by cavity: all of it meets in one joint.

Each cavity of the unit's half takes a terminal of the loom; each of the car's half one, or the factory wire behind the
plug is joined. A wire may stand in one of each. How many factory wires are in the joint is settled before anything is
searched (`modes`): then the joint costs the same whatever is chosen, and the cavities are served one by one.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import product
from typing import TYPE_CHECKING, NamedTuple

from harness.weighing.layers import Held, Option, Placed, Share, Slot
from harness.weighing.needs import Need, PlugNeeds

if TYPE_CHECKING:
    from harness.weighing.ways import Ways

MANY = 2  # factory wires in a joint; more are joined as two are
Modes = tuple[tuple[Need, int], ...]


class Ask(NamedTuple):
    """What is served at once: a need, or one cavity of a need that has several."""

    need: Need
    slot: Slot | None = None


def modes(plug: PlugNeeds) -> Iterator[Modes]:
    """How many factory wires are in the joint of each net with several cavities of a side, in every way."""
    wide = [need for need in plug.needs if need.several]
    for behind in product(*(range(min(len(need.cars), MANY) + 1) for need in wide)):
        yield tuple(zip(wide, behind, strict=True))


def asks(needs: Iterable[Need]) -> list[Ask]:
    """Of all that must be joined, cavity by cavity where it has several: the unit's first."""
    made: list[Ask] = []
    for need in needs:
        if need.joined:
            made += [Ask(need, slot) for slot in need.slots] if need.several else [Ask(need)]
    return made


def within(ways: Ways, need: Need, behind: int) -> bool:
    """Whether so few factory wires can do: a cavity that no wire with a free end can stand in wants its own."""
    alone = 0
    for slot in need.slots:
        joined = ways.singles(slot) or any(
            ways.point(ways.wires[number], placed)
            for unit in need.slots
            for number, placed in _in_both(ways, unit, slot)
        )
        alone += slot[0] == "car" and not joined
    return behind >= min(alone, MANY)


def options_at(ways: Ways, need: Need, slot: Slot, behind: int) -> Iterator[Option]:
    """The ways of serving one of its cavities."""
    for number, placed in ways.singles(slot):
        yield _joined(ways, need, slot, ((number, placed),), ways.point(ways.wires[number], placed))
    if slot[0] == "car":
        if behind:
            yield _option(ways, need, slot, (), (_behind(ways, slot),), behind=1)
        for number in dict.fromkeys(at for unit in need.slots for at, _ in _in_both(ways, unit, slot)):
            option = _option(ways, need, slot, (), covered=number)
            yield Option((), None, ways.in_car(number, slot), option.kind, option.share)
        return
    for car in need.slots:
        for number, placed in _in_both(ways, slot, car):
            if point := ways.point(ways.wires[number], placed):
                yield _joined(ways, need, slot, ((number, placed),), point, (car, number))
            if behind:
                yield _option(ways, need, slot, ((number, placed),), (_behind(ways, car),), (car, number), behind=1)


def _in_both(ways: Ways, unit: Slot, car: Slot) -> Iterator[tuple[int, Placed]]:
    """The wires that can stand in both."""
    if (unit[0], car[0]) == ("unit", "car"):
        for number, wire in enumerate(ways.wires):
            placed = ways.at(number, wire, {"unit": unit, "car": car})
            if placed is not None:
                yield number, placed


def _joined(
    ways: Ways, need: Need, slot: Slot, used: Held, point: str, covers: tuple[Slot, int] | None = None
) -> Option:
    """By a free end, which then wants no cap."""
    option = _option(ways, need, slot, used, (point,), covers)
    return Option(option.used, None, option.cost.less(ways.cap), option.kind, option.share)


def _option(
    ways: Ways, need: Need, slot: Slot, used: Held, members: tuple[str, ...] = (),
    covers: tuple[Slot, int] | None = None, *, behind: int = 0, covered: int | None = None,
) -> Option:  # fmt: skip
    """What a wire costs in the cavity of the car's half that it covers is put down to that."""
    cost = ways.placed(used) if covers is None else ways.placed(used).less(ways.in_car(covers[1], covers[0]))
    kind = tuple((ways.alike(number), tuple(at for _, at in placed)) for number, placed in used)
    share = Share(need, slot, members, covers, behind, covered)
    return Option(used, None, cost, (covers and covers[0], behind, covered, *kind), share)


def _behind(ways: Ways, slot: Slot) -> str:
    row = ways.plug.rows.get(slot[1])
    return f"{ways.plug.name}.car.{row.cavity if row is not None else slot[1]}"
