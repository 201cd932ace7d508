"""Which points of a large front are shown, and which looms are tried in a row."""

from __future__ import annotations

from harness.model.money import Money
from harness.model.parts import Store
from harness.model.shop import InDrawer
from harness.place import Place
from harness.weighing.choices import _by_price
from harness.weighing.combine import Point
from harness.weighing.hand import Cost
from harness.weighing.mixes import Made, PlugMix, Used
from harness.weighing.offers import SHOWN, _shown

NOWHERE = Place("shop.yaml", 1, 1)


def _used(name: str, price: int | None) -> Used:
    store = Store(Money(price, "EUR") if price is not None else None, None, "")
    return Used(f"{name}@dash", InDrawer(name, None, store, None, NOWHERE), ("unit", "car"), "")


def test_no_row_of_looms_is_looked_for_twice() -> None:
    """Those with a price; of others each alone with them, and all together: which is the same where there is one."""
    a, b, c, d = _used("A", 1), _used("B", 2), _used("C", None), _used("D", None)
    for whole, wanted in (
        ([a, b], ["AB"]),
        ([a, c, b], ["AB", "ACB"]),
        ([a, c, d], ["A", "ACD", "AC", "AD"]),
        ([c], ["", "C"]),
    ):
        assert ["".join(used.item.name for used in each) for each in _by_price(whole)] == wanted


def _point(minutes: int, money: int, cuts: int, kind: str, loom: str, methods: str) -> Point:
    joints = tuple(Made(("a", "b"), False, "audio", method, "x", 1, (), 1, False) for method in methods.split())
    looms = (_used(loom, 1),) if loom else ()
    cost = Cost(minutes, money, cuts)
    return Point((PlugMix("dash", (kind,), looms, joints, (), (), (), (), cost, 0),), cost, 0)


def test_of_many_points_those_are_shown_that_differ_most() -> None:
    """Ten points, none beats another. By hand: 0 is the cheapest, 9 the quickest, 2 the cheapest without a cut and 8
    the quickest of these; then 4 is of another kind, 5 has another loom, 3 is by other methods.
    """
    points = [
        _point(90, 10, 8, "by hand", "", "solder"),
        _point(89, 11, 8, "by hand", "", "solder"),
        _point(88, 12, 0, "plug-in", "A", "solder"),
        _point(87, 13, 0, "plug-in", "A", "solder crimp"),
        _point(86, 14, 0, "one end", "A", "solder"),
        _point(85, 15, 0, "plug-in", "B", "solder"),
        _point(84, 16, 0, "plug-in", "A", "solder crimp"),
        _point(83, 17, 0, "plug-in", "A", "crimp"),
        _point(82, 18, 0, "plug-in", "A", "crimp"),
        _point(81, 19, 8, "by hand", "", "crimp"),
    ]
    assert SHOWN == 7
    assert [points.index(each) for each in _shown(points)] == [0, 2, 3, 4, 5, 8, 9]
