"""Which method joints are made by, where more than one is left: for each kind of joint one, all of them tried.

Nothing is tried that can't matter. A search is first made as if every kind of joint were as quick as its quickest and
as cheap as its cheapest way; only a kind that a mix found so is joined by is then settled, way by way. What is dearer
even so is dearer by any method.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Mapping

from harness.model.contact import listed
from harness.weighing.combine import Point, best_of, front
from harness.weighing.hand import Hand, JointKind, Way
from harness.weighing.mixes import Made, PlugMix

Chosen = Mapping[JointKind, Way]


def settled(hand: Hand, search: Callable[[Hand, list[PlugMix]], list[PlugMix]]) -> list[PlugMix]:
    """What a search finds with each choice of methods that may matter. It is given the mixes found so far, by which
    others may be beaten.
    """
    done: list[PlugMix] = []
    todo = [hand]
    while todo:
        mine = todo.pop()
        found = search(mine, done)
        still = still_open(found)
        done += [mix for mix in found if all(joint.method for joint in mix.joints)]
        if still:
            todo += _each_way(mine, still.most_common(1)[0][0])
    return done


def settled_first(hand: Hand, search: Callable[[Hand], list[PlugMix]]) -> list[PlugMix]:
    """As `settled`, for a search that must know what joints cost: every kind that it asks of is settled."""
    done: list[PlugMix] = []
    todo = [Hand(hand.rates, hand.preset, hand.chosen)]  # of which nobody asked anything yet
    while todo:
        mine = todo.pop()
        found = search(mine)
        if mine.asked:
            todo += _each_way(mine, min(mine.asked))
        else:
            done += found
    return done


def still_open(mixes: Iterable[PlugMix]) -> Counter[JointKind]:
    """The kinds of joint of which no method is settled, and how many joints hang on each."""
    return Counter(joint.kind for mix in mixes for joint in mix.joints if not joint.method)


def _each_way(hand: Hand, kind: JointKind) -> list[Hand]:
    """The same hand with each way of a kind; the last one is tried first, and is the cheapest."""
    return [hand.settled(kind, way) for way in reversed(hand.ways(kind))]


def car_front(
    by_plug: Callable[[Chosen], list[list[PlugMix]]], ways: Callable[[JointKind], tuple[Way, ...]]
) -> list[Point]:
    """The front over all plugs, a kind of joint made by one method in the whole car.

    `by_plug` gives the mixes of each plug under the methods chosen. Where a point of the front has a kind made by
    another method at another plug, that kind is settled way by way.
    """
    done: list[Point] = []
    todo: list[dict[JointKind, Way]] = [{}]
    while todo:
        chosen = todo.pop()
        mixes = by_plug(chosen)
        points = front(mixes) if mixes and all(mixes) else []
        if not chosen and not any(map(_mixed, points)):
            return points
        one = [point for point in points if not _mixed(point)]
        kept = best_of([*done, *points])
        at_odds = next((kind for point in kept for kind in _mixed(point)), None)
        done = best_of([*done, *one])
        if at_odds is not None:
            todo += [{**chosen, at_odds: way} for way in reversed(ways(at_odds))]
    return sorted(done, key=lambda point: (point.cost.money, point.cost.time_ms, point.cost.cuts))


def method_of_each(hand: Hand, joints: Iterable[Made]) -> dict[JointKind, str]:
    """The method of each kind of joint of which more than one way was left to choose from."""
    return {joint.kind: joint.method for joint in joints if not joint.at_run and len(hand.ways(joint.kind)) > 1}


def by_words(by: Mapping[JointKind, str]) -> list[str]:
    """Which joints are made by which method, where there was a choice; nothing where there was none."""
    told: dict[str, dict[str, list[str]]] = {}
    for kind, method in sorted(by.items(), key=lambda each: (each[0].place, each[0])):
        wires = f"{'cut or joined' if kind.cut else 'whole'} factory wires" if kind.factory else "leads"
        told.setdefault(method, {}).setdefault(f"{wires} at {kind.place}", []).append(kind.what)
    return [
        f"by {method}, where another method is quicker or cheaper: "
        + "; ".join(f"{listed(what)} on {where}" for where, what in each.items())
        for method, each in sorted(told.items())
    ]


def _mixed(point: Point) -> list[JointKind]:
    """The kinds of joint that a point has made by more than one method, the one of most joints first.

    Where a run begins at one contact no method can be written: that joint counts to no kind.
    """
    by: dict[JointKind, Counter[str]] = {}
    for mix in point.mixes:
        for joint in mix.joints:
            if not joint.at_run:
                by.setdefault(joint.kind, Counter())[joint.method] += 1
    return sorted((kind for kind, each in by.items() if len(each) > 1), key=lambda kind: (-by[kind].total(), kind))
