"""A plug without a loom: factory wires cut or tapped, and joined by hand."""

from __future__ import annotations

from harness.joints import methods
from harness.weighing.begun import is_run_end
from harness.weighing.hand import Cost, Hand, JointKind
from harness.weighing.mixes import NONE, UNTOUCHED, Made, PlugMix
from harness.weighing.needs import Need, PlugNeeds
from harness.weighing.rates import BENCH


def by_hand(plug: PlugNeeds, hand: Hand) -> PlugMix | None:
    """The only way without a loom, or None where the preset allows no joint that it would need.

    A cavity whose halves belong together stays whole, and what belongs to it is tapped onto the wire; one whose halves
    don't is cut, and an end that nothing is joined to is capped. All that is one net meets in one joint.
    """
    name = plug.name
    parted = {low for low in plug.rows if plug.net["unit", low] != plug.net["car", low]}
    joints: list[Made] = []
    capped: list[str] = []
    cost = Cost(cuts=len(parted))
    for need in plug.needs:
        whole = [each for each in need.units if each in need.cars and each.lower() not in parted]
        ends = [
            f"{name}.{half}.{each}" for half, there in (("unit", need.units), ("car", need.cars)) for each in there
            if each not in whole
        ]  # fmt: skip
        members = (*(f"{name}.{each}" for each in whole), *ends, *need.outs)
        if len(members) < 2:
            capped += ends
            for _ in ends:
                cost = cost.plus(_cap(hand))
            continue
        made = joint(plug, hand, members, factory=True, what=need.what, at=plug.where, cut=bool(ends) or len(whole) > 1)
        if made is None:
            return None
        joints.append(made)
        cost = cost.plus(joint_cost(hand, made))
    kind = NONE if joints or parted else UNTOUCHED
    return PlugMix(name, (kind,), (), tuple(joints), _cut(plug, parted), tuple(capped), (), (), cost, 0)


def _cut(plug: PlugNeeds, parted: set[str]) -> tuple[str, ...]:
    return tuple(f"{plug.name}.{row.cavity}" for low, row in plug.rows.items() if low in parted)


def joint(
    plug: PlugNeeds, hand: Hand, members: tuple[str, ...], *, factory: bool, what: str, at: str, cut: bool
) -> Made | None:
    """A joint of these contacts by the way settled on for its kind, or None where none is allowed.

    Where a run begins at one contact the file has no row that could name a method: that joint goes by the cheapest.
    """
    kind = JointKind(factory, what, at, cut)
    way = hand.way(kind) if sum(not is_run_end(each) for each in members) > 1 else hand.best(*kind)
    if way is None:
        return None
    pieces = hand.rates.pieces(methods()[way.method]) if way.method else ()
    return Made(members, factory, what, way.method, at, way.time_ms, pieces, way.money, cut)


def shared_joint(
    plug: PlugNeeds, hand: Hand, need: Need, behind: int, members: tuple[str, ...] = ("", "")
) -> Made | None:
    """The joint that serves several cavities: these members and what is outside, so many factory wires among them."""
    at = plug.where if behind else need.at or BENCH
    return joint(plug, hand, (*members, *need.outs), factory=behind > 0, what=need.what, at=at, cut=behind > 1)


def joint_cost(hand: Hand, made: Made) -> Cost:
    """Time and money of one joint."""
    return Cost(made.time_ms, made.money, 0, int(hand.rates.in_dash(made.at)))


def _cap(hand: Hand) -> Cost:
    time_ms = hand.rates.work_ms("cap")
    return Cost(time_ms, hand.rates.money(time_ms, hand.rates.cap_parts))
