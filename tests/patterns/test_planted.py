"""A fault put into a random chart by hand is named from the tones that it makes, and the chart put right by it."""

from __future__ import annotations

import random
from collections import Counter

import pytest

from tests.patterns.asked import ask, toned
from tests.patterns.geometry import Places, Plug, pair_faults, random_plug, whole_faults

WHOLE = ("mirrored", "half turn", "rows exchanged", "shifted", "left for right", "front for rear")
SINGLE = ("+ and − exchanged", "pairs exchanged", "wrong partner")


def planted(seed: int) -> tuple[Plug, list[tuple[str, Places]]]:
    """A random plug, every fault of the whole chart that it can have, and three of each kind of single pairs."""
    dice = random.Random(seed)
    plug = random_plug(dice, others=bool(seed % 2))
    faults = list(whole_faults(plug))
    for name in SINGLE:
        singles = [fault for fault in pair_faults(plug) if fault[0] == name]
        faults += dice.sample(singles, min(3, len(singles)))
    return plug, faults


def everywhere(plug: Plug, real: Places) -> list[tuple[str, str]]:
    """Where the chart has pairs, and where the car has them: all that a person can have toned to any use."""
    return [*plug.chart.values(), *(places for places in real.values() if places not in plug.chart.values())]


@pytest.mark.parametrize("seed", range(150))
def test_every_planted_fault_is_named(seed: int) -> None:
    plug, faults = planted(seed)
    for name, real in faults:
        answer = ask(plug, toned(real, everywhere(plug, real)))
        assert answer.kind in ("named", "several"), (name, answer.verdict)
        assert name in answer.names, (name, answer)
        # what is left has every channel that was heard where it really is: none of these tones could part it
        for _, places in answer.left:
            assert {**real, **places} == {**places, **real}, (name, answer)


def test_nearly_always_one_chart_is_left() -> None:
    """Several are left only where other wires than the speakers' part them, which is rare."""
    kinds = Counter(
        ask(plug, toned(real, everywhere(plug, real))).kind
        for seed in range(150)
        for plug, faults in [planted(seed)]
        for _, real in faults
    )
    assert kinds["named"] > 0.9 * kinds.total(), kinds


def test_every_pattern_was_planted() -> None:
    """A fault that no face can have would be named on all of them."""
    names = Counter(name for seed in range(150) for name, _ in planted(seed)[1])
    assert set(names) == {*WHOLE, *SINGLE}
    assert min(names.values()) >= 40, names


@pytest.mark.parametrize("seed", range(60))
def test_a_right_chart_is_let_be(seed: int) -> None:
    dice = random.Random(seed)
    plug = random_plug(dice, others=True)
    some = dice.sample(list(plug.chart.values()), dice.randint(0, len(plug.chart)))
    assert ask(plug, toned(plug.chart, some)).kind == "right"


@pytest.mark.parametrize("seed", range(60))
def test_without_plus_the_places_are_told_all_the_same(seed: int) -> None:
    """Nobody found +: then which cavities carry a channel is told, and not which of the two is +."""
    plug, faults = planted(seed)
    for name, real in faults:
        if name == "+ and − exchanged":
            continue
        answer = ask(plug, toned(real, everywhere(plug, real), plus=False))
        assert name in answer.names, (name, answer)
        for _, places in answer.left:
            assert all(set(two) == set(real.get(each, two)) for each, two in places.items()), (name, answer)
