"""How often a chart that is wrong at random passes for one that is wrong in a way with a name.

The number of wrong charts that have a name is counted by the geometry of this folder, and divided by the number of
all: the judge must name these and no other. Counting is a hand sum where every placing can be listed.
"""

from __future__ import annotations

import math
import random
from itertools import combinations, permutations

import pytest

from harness.patterns.judging import chance_of, judge, readings_of
from tests.patterns.asked import ask, chart_of, toned
from tests.patterns.geometry import Places, Plug, numbered, pair_faults, random_plug, whole_faults


def unsigned(places: Places) -> frozenset[tuple[str, frozenset[str]]]:
    return frozenset((name, frozenset(two)) for name, two in places.items())


def with_a_name(plug: Plug) -> set[frozenset[tuple[str, frozenset[str]]]]:
    """The placings of the channels, without + and −, that some fault of the chart makes."""
    return {unsigned(real) for faults in (whole_faults, pair_faults) for _, real in faults(plug)} - {
        unsigned(plug.chart)
    }


def everywhere(plug: Plug, real: Places) -> list[tuple[str, str]]:
    return [*plug.chart.values(), *(two for two in real.values() if two not in plug.chart.values())]


PLUGS = (
    # a row of eight and three pairs: 28 x 15 x 6 = 2520 placings
    Plug(numbered(1, 8, set(), "top left", False, set()), {"FL": ("1", "2"), "FR": ("3", "4"), "RL": ("6", "5")}, {}),
    Plug(numbered(2, 4, set(), "top left", False, set()), {"FL": ("1", "5"), "FR": ("2", "6"), "RL": ("3", "7")}, {}),
    Plug(
        numbered(2, 5, {(2, 0), (2, 1)}, "top right", True, set()),
        {"FL": ("1", "4"), "FR": ("2", "7"), "C": ("3", "8")}, {},
    ),
)  # fmt: skip


@pytest.mark.parametrize("plug", PLUGS, ids=("one row", "two rows", "keyway"))
def test_of_all_placings_only_those_with_a_name_are_named(plug: Plug) -> None:
    known, told, count = with_a_name(plug), set(), 0
    one, two, three = plug.chart
    for a in combinations(plug.cavities, 2):
        for b in combinations(sorted(set(plug.cavities) - {*a}), 2):
            for c in combinations(sorted(set(plug.cavities) - {*a, *b}), 2):
                count += 1
                real = {one: a, two: b, three: c}
                answer = ask(plug, toned(real, everywhere(plug, real), plus=False))
                if answer.kind in ("named", "several"):
                    told.add(unsigned(real))
    assert count == 28 * 15 * 6
    # left for right and front for rear make channels that aren't charted here
    charted = {each for each in known if {name for name, _ in each} == {*plug.chart}}
    assert told == charted
    # few: else a name would mean little
    assert len(told) / count < 0.06


def test_of_all_orders_of_four_labels_only_those_with_a_name_are_named() -> None:
    """Another variant may have the same pairs in another order. Of the 24 orders of four labels one is the chart's, six
    exchange two, one is left for right, one front for rear, and one this row mirrored: 9 of 23, by hand.
    """
    plug = Plug(
        numbered(1, 8, set(), "top left", False, set()),
        {"FL": ("1", "2"), "FR": ("3", "4"), "RL": ("5", "6"), "RR": ("7", "8")}, {},
    )  # fmt: skip
    named = 0
    for order in permutations(plug.chart.values()):
        real = dict(zip(plug.chart, order, strict=True))
        answer = ask(plug, toned(real, plug.chart.values(), plus=False))
        has_name = unsigned(real) in with_a_name(plug)
        assert answer.kind == ("right" if real == plug.chart else "named" if has_name else "no pattern"), real
        named += answer.kind == "named"
    assert named == 6 + 1 + 1 + 1


@pytest.mark.parametrize("ways", [8, 12, 20, 40])
def test_no_random_permutation_passes_beyond_chance(ways: int) -> None:
    """Cavities permuted at random: as many names as there are wrong charts with a name, by the count of all placings.

    With p = names / placings, of t trials at most t p + 4 times the root of t p + 1 are named (four times the standard
    deviation of a count, plus one where it is nearly nothing).
    """
    dice = random.Random(ways)
    trials, named, expected = 150, 0, 0.0
    for _ in range(trials):
        plug = random_plug(dice, others=False)
        while len(plug.cavities) < ways:
            plug = random_plug(dice, others=False)
        order = plug.cavities
        dice.shuffle(order)
        table = dict(zip(plug.cavities, order, strict=True))
        real = {name: (table[a], table[b]) for name, (a, b) in plug.chart.items()}
        answer = ask(plug, toned(real, everywhere(plug, real), plus=False))
        named += answer.kind in ("named", "several")
        placings = math.prod(math.comb(len(plug.cavities) - 2 * k, 2) for k in range(len(plug.chart)))
        expected += len(with_a_name(plug)) / placings
    assert named <= expected + 4 * math.sqrt(expected) + 1
    assert expected < 0.03 * trials


@pytest.mark.parametrize("seed", range(40))
def test_a_random_permutation_of_many_channels_is_told_as_no_pattern(seed: int) -> None:
    dice = random.Random(1000 + seed)
    plug = random_plug(dice, others=False)
    while len(plug.chart) < 6:
        plug = random_plug(dice, others=False)
    places = list(plug.chart.values())
    while True:
        dice.shuffle(places)
        real = dict(zip(plug.chart, places, strict=True))
        if sum(real[name] != two for name, two in plug.chart.items()) >= 4 and unsigned(real) not in with_a_name(plug):
            break
    assert ask(plug, toned(real, plug.chart.values())).kind == "no pattern"


@pytest.mark.parametrize("heard", [1, 2, 3])
def test_the_bound_on_chance_is_one(heard: int) -> None:
    """The chance that the judge computes is never below the share of placings, counted, that have those pairs right."""
    plug = PLUGS[0]
    real = {name: (str(9 - int(a)), str(9 - int(b))) for name, (a, b) in plug.chart.items()}  # a row of eight mirrored
    verdict = judge(chart_of(plug), toned(real, list(real.values())[:heard]))
    assert verdict is not None
    only = next(each for each in verdict.left if each.first.reading.pattern == "mirrored")
    free = [set(two) for two in list(real.values())[:heard]]
    placings = [
        (a, b, c)
        for a in combinations(plug.cavities, 2)
        for b in combinations(sorted(set(plug.cavities) - {*a}), 2)
        for c in combinations(sorted(set(plug.cavities) - {*a, *b}), 2)
    ]
    right = sum(all(set(two) == want for two, want in zip(each, free, strict=False)) for each in placings)
    assert chance_of(chart_of(plug), only, heard) >= right / len(placings)


def test_the_readings_that_might_be_named_are_counted() -> None:
    """A row of eight with three pairs, by hand: mirrored, half a turn, one higher, one lower, left for right, front for
    rear are 6. Of single pairs 3 turned, 3 exchanged, 3 x 64/2 = 96 at two free cavities, 2 x 3 x 8 = 48 wires with
    another partner: 150. Never fewer than this folder's geometry makes, so that the bound on chance holds.
    """
    assert readings_of(chart_of(PLUGS[0]), whole=True) == 6
    assert readings_of(chart_of(PLUGS[0]), whole=False) == 6 + 150
    for plug in PLUGS:
        assert readings_of(chart_of(plug), whole=False) >= len(with_a_name(plug))
