"""Looms in series where more is tapped than opened: every row against trying all, and cases summed by hand."""

from __future__ import annotations

from fractions import Fraction

import pytest

from harness.graph.wiring import Wiring
from harness.model.job import Job
from harness.model.shop import Shop
from harness.prove import prove_text
from harness.read.job import read_job_text
from harness.read.shop import read_shop_text
from harness.read.troubles import Troubles
from harness.weighing.combine import Point
from harness.weighing.mixes import SERIES
from harness.weighing.offers import agrees, front_of, weigh
from harness.weighing.rates import HOUR_MS
from tests.weighing.brute import Car
from tests.weighing.cases import case
from tests.weighing.rows import row_case

CASES, BATCH, WITH_TWO = 400, 50, 12
Sums = tuple[Fraction, Fraction, int]


def _read(job_text: str, shop_text: str) -> tuple[Job, Shop]:
    troubles = Troubles()
    job = read_job_text(job_text, "job.yaml", troubles)
    shop = read_shop_text(shop_text, "shop.yaml", troubles)
    assert not troubles.refused, [each.message for each in troubles.findings]
    assert job is not None
    assert shop is not None
    return job, shop


def _sums(point: Point) -> Sums:
    return Fraction(point.cost.time_ms, 60_000), Fraction(point.cost.money, HOUR_MS), point.cost.cuts


def _no_worse(one: Sums, other: Sums) -> bool:
    return all(a <= b for a, b in zip(one, other, strict=True))


@pytest.mark.parametrize("first", range(0, CASES, BATCH))
def test_no_row_beats_the_front_and_each_of_it_is_one(first: int) -> None:
    """Rows alone are soon tried, so there are many: of one plug each, by every method."""
    for seed in range(first, first + BATCH):
        job, shop = _read(*row_case(seed))
        car = Car(job, shop)
        site = car.site()
        if len(site) != 1:
            continue
        theirs = {costs for row in car.rows_of_looms(site[0]) for costs in car._by_every_method((row,))}
        mine = front_of(Wiring(job), shop)
        assert {_sums(point) for point in mine if SERIES in point.mixes[0].kinds} <= theirs, seed
        assert all(any(_no_worse(_sums(point), costs) for point in mine) for costs in theirs), seed


def test_so_it_is_beside_another_plug() -> None:
    """With a loom of which there is one, that both would take: all of it tried."""
    left = WITH_TWO
    for seed in range(CASES):
        job, shop = _read(*row_case(seed))
        car = Car(job, shop)
        if len(car.site()) == 2 and left:
            left -= 1
            assert {_sums(point) for point in front_of(Wiring(job), shop)} == car.costs(), seed
    assert not left


@pytest.mark.parametrize("methods", [False, True])
def test_two_taps_each_on_a_lead_of_another_loom_where_nothing_is_opened(methods: bool) -> None:
    """A case that the random ones of the whole search reach late."""
    job, shop = _read(*case(930, methods=methods))
    assert {_sums(point) for point in front_of(Wiring(job), shop)} == Car(job, shop).costs()


_JOB = """\
ringout: 1
title: rows
car: {name: Yew coupe, year: 2021, steering: left, audio: base, ownership: leased}
plugs:
  p1:
    place: behind the radio
    unit: radio
    housing: block
    contacts: {unit: pins, car: sockets}
    source: {chart: sheet 3, date: 2026-02-10, by: RK, covers: 2019..2022}
    cavities: {1: ACC BN 0.5 mm2, 2: IGN BK 0.5 mm2, 3: SWC GN 0.5 mm2}
units:
  radio: {kind: radio}
  box: {kind: interface, terminals: [ta, tb, tc, td, te, tf]}
"""
_SHOP = """\
ringout: 1
as of: 2026-03-02
dash: [radio]
drawer:
  looms:
LOOMS
  parts: {butt joint: {price: 0.10 EUR}, heat shrink: {price: 0.00 EUR}, cap: {price: 0.20 EUR}, tap: {price: TAP EUR}}
rates:
  labour: 60.00 EUR
  consumables: 0.00 EUR
  joints: {solder: 30 min, crimp at bench: 2 min, crimp: 20 min, pierce: PIERCE min}
  mate: 1 min
  cut end off: 2 min
  pull: 40 min
  move: 40 min
  cap: 30 s
  recheck: {position: 0 s, lock: 0 s, tug: 0 s}
"""


def _shop(*looms: str, tap: str = "4.00", pierce: str = "0.5") -> str:
    ends = "{unit: {housing: block, contacts: sockets}, car: {housing: block, contacts: pins}}"
    rows = [f"    {name}: {{ends: {ends}, {rest}}}" for name, _, rest in (each.partition(": ") for each in looms)]
    return _SHOP.replace("LOOMS", "\n".join(rows)).replace("TAP", tap).replace("PIERCE", pierce)


_OPENED = """\
cut: [p1.1, p1.2]
joints:
  crimp at behind the radio with heat shrink:
    p1.unit.1: box.ta
    p1.car.1: box.tb
    p1.unit.2: box.tc
    p1.car.2: box.td
"""
_A = "A: through: {2: 2, 3: 3}, leads: {unit.1: ACC BU, car.1: ACC BU, car.3: SWC BU}, price: 1.00 EUR"
_B = "B: through: {1: 1, 3: 3}, leads: {unit.2: IGN BU, car.2: IGN BU}, price: 1.00 EUR"


def _weighed(job_text: str, shop_text: str) -> list[tuple[int, int, int, tuple[str, ...]]]:
    """Milliseconds, hundredths, cuts and looms of each offer, each of which counts up to what it was weighed at."""
    shop = read_shop_text(shop_text, "shop.yaml", Troubles())
    weighing = weigh(prove_text(job_text, "job.yaml"), job_text, shop)
    assert not weighing.not_used
    assert all(agrees(each, weighing.rates) for each in weighing.offers)
    return [
        (each.figures.time_ms, each.figures.money, each.figures.cuts, tuple(loom.item.name for loom in each.looms))
        for each in weighing.offers
    ]


def test_nothing_is_opened_and_each_loom_has_a_lead_for_one_tap() -> None:
    # by hand: three plug-ins and two taps at the bench, 3 + 2 x 2 = 7 minutes at 1.00, two looms, two butt joints;
    # one loom, and the other tap on the car's wire, 2 + 2 + 20 = 24; both on the car's wires, 40 and 2 x 0.10
    job = _JOB + "joints:\n  crimp at behind the radio with heat shrink:\n    p1.1: box.ta\n    p1.2: box.tb\n"
    shop = _shop(
        "A: through: {1..3: 1..3}, leads: {car.1: ACC BU}, price: 1.00 EUR",
        "B: through: {1..3: 1..3}, leads: {car.2: IGN BU}, price: 1.00 EUR",
        pierce="45",
    )
    assert _weighed(job, shop) == [(420_000, 700 + 200 + 20, 0, ("A", "B"))]


def test_a_tap_on_the_cars_wire_that_is_quicker_and_dearer() -> None:
    # by hand: three plug-ins, four joints and the tap at the bench, 3 + 5 x 2 = 13 minutes, looms 2.00, five butt
    # joints; or the tap pierced and the lead capped, 3 + 4 x 2 + 0.5 + 0.5 = 12, 2.00, four of them, 4.00 and 0.20;
    # all by hand is 4 x 20 + 0.5
    job = _JOB + _OPENED + "    p1.3: box.te\n"
    assert _weighed(job, _shop(_A, _B)) == [
        (780_000, 1300 + 200 + 50, 0, ("A", "B")),
        (720_000, 1200 + 200 + 40 + 420, 0, ("A", "B")),
    ]


def test_a_tap_on_the_cars_wire_that_is_quicker_and_cheaper() -> None:
    # as above with a tap at 0.05: 12.00, 2.00, 0.40, 0.05 and 0.20, and it beats the lead
    job = _JOB + _OPENED + "    p1.3: box.te\n"
    assert _weighed(job, _shop(_A, _B, tap="0.05")) == [(720_000, 1200 + 200 + 40 + 25, 0, ("A", "B"))]


def test_a_tap_where_leads_are_joined_anyway_beats_one_on_a_lead_of_its_own() -> None:
    # by hand: C has no wire through at 3 but leads, which are joined to pass it on: the tap is in that joint and costs
    # nothing more. Three plug-ins, four joints and that one, 13 minutes, 2.00, five butt joints, the lead of A capped
    # (0.5 and 0.20); with the tap on the lead of A it would be 3 + 6 x 2 = 15
    job = _JOB + _OPENED + "    p1.3: box.te\n"
    c = "C: through: {1: 1}, leads: {unit.2: IGN BU, car.2: IGN BU, unit.3: SWC BU, car.3: SWC BU}, price: 1.00 EUR"
    assert _weighed(job, _shop(_A, c, pierce="45")) == [(810_000, 1350 + 200 + 50 + 20, 0, ("A", "C"))]


_ALL_OPENED = _OPENED.replace("p1.2]", "p1.2, p1.3]") + "    p1.unit.3: box.te\n    p1.car.3: box.tf\n"


def test_what_two_looms_open_is_not_joined_between_them() -> None:
    # by hand: three plug-ins, six joints at the bench, 3 + 6 x 2 = 15 minutes; the two leads at 2 that face each other
    # hang on nothing, and to cap both is 1 minute and 0.40, to join them 2 and 0.10: 16 minutes, 16.00, looms 2.00
    shop = _shop(
        "A: through: {3: 3}, leads: {1: ACC BU, 2: IGN BU}, price: 1.00 EUR",
        "B: through: {1: 1}, leads: {2: IGN BU, 3: SWC BU}, price: 1.00 EUR",
        pierce="45",
    )
    assert _weighed(_JOB + _ALL_OPENED, shop) == [(960_000, 1600 + 200 + 60 + 40, 0, ("A", "B"))]


def test_what_is_opened_is_joined_behind_the_plug_where_that_is_quicker() -> None:
    # by hand: three plug-ins and six joints at the bench, 15 minutes, 15.00, looms 2.00, six butt joints; or the car's
    # SWC pierced and its lead capped, 0.5 and 0.5 for 2 minutes, a tap at 4.00 and a cap at 0.20 for 0.10
    b = "B: through: {1: 1}, leads: {2: IGN BU, 3: SWC BU}, price: 1.00 EUR"
    assert _weighed(_JOB + _ALL_OPENED, _shop(_A.replace(", car.3: SWC BU", ""), b)) == [
        (900_000, 1500 + 200 + 60, 0, ("A", "B")),
        (840_000, 1400 + 200 + 50 + 420, 0, ("A", "B")),
    ]


def test_of_rows_that_come_to_the_same_one_that_is_there_is_taken() -> None:
    """B is nine days away, and D, the same loom, lies there."""
    b = _B.replace("1.00 EUR", "1.00 EUR, stock: 0, days: 9")
    # by hand: three plug-ins and four joints, 3 + 4 x 2 = 11 minutes, the lead of A capped, 0.5
    row = (690_000, 1150 + 200 + 40 + 20, 0)
    assert _weighed(_JOB + _OPENED, _shop(_A, b, _B.replace("B:", "D:"))) == [(*row, ("A", "D"))]
    assert _weighed(_JOB + _OPENED, _shop(_A, b)) == [(*row, ("A", "B"))]


def test_of_rows_that_come_to_the_same_one_with_fewer_contacts_in_series_is_taken() -> None:
    """ACC ends at its lead at the radio's side: with the loom that opens it next to the radio it passes one plug and
    not two. IGN passes all three plugs either way.
    """
    one_side = "cut: [p1.1, p1.2]\ncapped: [p1.car.1]\n" + _OPENED.partition("\n")[2].replace(
        "    p1.car.1: box.tb\n", ""
    )
    job, shop = _read(_JOB + one_side, _shop(_B.replace("B:", "A:"), _A.replace("A:", "B:")))
    (best,) = [point for point in front_of(Wiring(job), shop) if SERIES in point.mixes[0].kinds]
    assert [used.item.name for used in best.mixes[0].looms] == ["B", "A"]
    assert best.cost.contacts == 1 + 3 + 3  # SWC passes three as well


def test_of_taps_that_come_to_the_same_one_outside_the_dash_is_taken() -> None:
    job = _JOB + _OPENED + "    p1.3: box.te\n"
    # by hand: on the lead 2 minutes and a butt joint, 0.10; on the car's wire 1.5 minutes and a tap, 0.10, and the lead
    # is capped, 0.5 minutes: the same. With three plug-ins and four joints 13 minutes
    shop = _shop(_A, _B, tap="0.10", pierce="1.5").replace("cap: {price: 0.20", "cap: {price: 0.00")
    job_read, shop_read = _read(job, shop)
    (best,) = [point for point in front_of(Wiring(job_read), shop_read) if SERIES in point.mixes[0].kinds]
    assert (best.cost.time_ms, best.cost.dash) == (780_000, 0)
