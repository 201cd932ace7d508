"""Rewirings against published tables, counts of series-parallel networks, and hand sums."""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from math import comb
from pathlib import Path
from typing import Any

import pytest
import yaml

from harness.electrical.rewiring import Coils, allowed_wirings, best, equal_wirings, one_of_each, rewirings

FILE = Path(__file__).parents[1] / "worked_examples" / "loads_rewirings.yaml"
CASES = yaml.safe_load(FILE.read_text(encoding="utf-8"))


def speakers_of(rows: list[list[float]]) -> list[Coils]:
    return [Coils(f"S{at}", int(many), ohm) for at, (many, ohm) in enumerate(rows, 1)]


def singles(ohms: list[float]) -> list[Coils]:
    return speakers_of([[1, ohm] for ohm in ohms])


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["name"])
def test_published_values(case: dict[str, Any]) -> None:
    made = one_of_each(rewirings(speakers_of(case["speakers"])))
    assert [each.ohm for each in made] == pytest.approx(case["ohms"], rel=1e-9)


# z in ohm: one double coil makes z/2 and 2z; two make z/4, z and 4z (car-audio pages, seen 2026, all in series added).
@pytest.mark.parametrize("z", [1.0, 2.0, 3.7, 4.0])
def test_double_coils_of_any_ohms(z: float) -> None:
    one, two = speakers_of([[2, z]]), speakers_of([[2, z], [2, z]])
    assert [each.ohm for each in one_of_each(rewirings(one))] == pytest.approx([z / 2, 2 * z])
    assert [each.ohm for each in one_of_each(rewirings(two))] == pytest.approx([z / 4, z, 4 * z])
    assert not any(each.ohm == pytest.approx(z / 2) for each in rewirings(two)), "not with like power in each"


def test_words_and_choice_for_two_double_coils_of_2_ohm() -> None:
    """On least 1 ohm: never 0.5; 2 ohm with the coils in series and the subs in parallel, or 8 ohm."""
    made = rewirings(speakers_of([[2, 2], [2, 2]]), 1.0, noun="subs")
    assert [(each.words, each.ohm, each.allowed) for each in made] == [
        ("coils in parallel, subs in parallel", 0.5, False),
        ("coils in series, subs in parallel", 2.0, True),
        ("coils in parallel, subs in series", 2.0, True),
        ("coils in series, subs in series", 8.0, True),
    ]
    assert best(made) == made[1]
    assert best(rewirings(speakers_of([[2, 2], [2, 2]]), 2.0, noun="subs")) == made[1], "exactly the least is allowed"
    assert best(rewirings(speakers_of([[2, 2], [2, 2]]), 8.1)) is None


# Two-terminal series-parallel networks of n like branches: Riordan and Shannon 1942, after MacMahon 1892 (from memory,
# so counted again below). With n unlike branches: Schröder's fourth problem (1870), also from memory.
@pytest.mark.parametrize(("count", "networks"), list(enumerate([1, 2, 4, 10, 24, 66, 180, 522], 1)))
def test_number_of_networks_of_like_speakers(count: int, networks: int) -> None:
    made = rewirings(singles([4.0] * count), uneven=True)
    assert len(made) == networks == networks_counted(count)
    assert len({each.words for each in made}) == networks, "no two have the same words"
    assert {Fraction(each.ohm / 4).limit_denominator(10_000) for each in made} == values(count)


@pytest.mark.parametrize(("count", "networks"), list(enumerate([1, 2, 8, 52, 472, 5504], 1)))
def test_number_of_networks_of_unlike_speakers(count: int, networks: int) -> None:
    made = rewirings(singles([float(ohm) for ohm in range(1, count + 1)]), uneven=True)
    assert len({each.words for each in made}) == len(made) == networks


@cache
def networks_counted(count: int) -> int:
    """MacMahon's: networks in series are multisets of two or more that are not; half of all are in series."""
    essential = [0, 1]  # that stand as one part in a series network: a branch, or networks in parallel
    for n in range(2, count + 1):
        # coefficient of x^n in the product of (1 - x^k)^-essential[k], k < n
        ways = [1] + [0] * n
        for k in range(1, n):
            grown = [0] * (n + 1)
            for used in range(n // k + 1):
                for rest in range(n + 1 - used * k):
                    grown[rest + used * k] += ways[rest] * comb(essential[k] + used - 1, used)
            ways = grown
        essential.append(ways[n])
    return 1 if count == 1 else 2 * essential[count]


@cache
def values(count: int) -> frozenset[Fraction]:
    """Every resistance that `count` branches of 1 ohm make in series and parallel, as fractions."""
    if count == 1:
        return frozenset({Fraction(1)})
    made = set()
    for few in range(1, count // 2 + 1):
        for one in values(few):
            for other in values(count - few):
                made |= {one + other, one * other / (one + other)}
    return frozenset(made)


def test_three_unlike_by_hand() -> None:
    """1, 2 and 3 ohm, their eight networks written out; shares of the power of some: series by ohms, 1/6 2/6 3/6;
    parallel by siemens, 6/11 3/11 2/11; (2 and 3 in parallel) 1.2 in series with 1: 1/2.2, then 1.2/2.2 as 3 to 2.
    """
    made = rewirings(singles([1.0, 2.0, 3.0]))
    expected = sorted([6, 6 / 11, 1 + 6 / 5, 2 + 3 / 4, 3 + 2 / 3, 5 / 6, 2 * 4 / 6, 3 * 3 / 6])
    assert [each.ohm for each in made] == pytest.approx(expected)
    by_words = {each.words: each for each in made}
    assert by_words["S1, S2 and S3 in series"].shares == pytest.approx((1 / 6, 2 / 6, 3 / 6))
    assert by_words["S1, S2 and S3 in parallel"].shares == pytest.approx((6 / 11, 3 / 11, 2 / 11))
    mixed = next(each for each in made if each.ohm == pytest.approx(2.2))
    assert mixed.shares == pytest.approx((1 / 2.2, 0.6 * 1.2 / 2.2, 0.4 * 1.2 / 2.2))
    assert mixed.words == "S1 and (S2 and S3 in parallel) in series"
    assert all(each.even for each in made), "unlike speakers are not asked to share evenly"


def test_uneven_is_left_out_unless_asked_for() -> None:
    """Three alike: one beside two in series gives 4/6 and 1/6, so only 3z and z/3 are even."""
    assert [each.ohm for each in rewirings(singles([3.0] * 3))] == pytest.approx([1, 9])
    every = rewirings(singles([3.0] * 3), uneven=True)
    assert [each.ohm for each in every] == pytest.approx([1, 2, 4.5, 9])
    assert sorted(every[1].shares) == pytest.approx([1 / 6, 1 / 6, 4 / 6])
    assert [each.even for each in every] == [True, False, False, True]
    chosen = best(rewirings(singles([3.0] * 3), 1.5, uneven=True))
    assert chosen is not None
    assert chosen.ohm == pytest.approx(9), "2 ohm is nearer, but uneven"


def test_words_of_single_and_mixed_speakers() -> None:
    assert [each.words for each in rewirings(singles([4.0]))] == ["one alone"]
    assert [each.words for each in rewirings(speakers_of([[2, 4]]))] == ["coils in parallel", "coils in series"]
    four = speakers_of([[4, 2]])
    assert [(each.words, each.ohm) for each in rewirings(four)] == [
        ("coils in parallel", 0.5), ("coils as 2 strings of 2 in series", 2.0), ("coils in series", 8.0),
    ]  # fmt: skip
    mixed = rewirings(speakers_of([[2, 4], [1, 4]]))
    # a sub of 2 x 4 ohm, 2 or 8, with one of 4: 2 x 4 / 6, 8 x 4 / 12, 6 and 12
    assert [(each.words, round(each.ohm, 3)) for each in mixed] == [
        ("coils of S1 in parallel; S1 and S2 in parallel", 1.333),
        ("coils of S1 in series; S1 and S2 in parallel", 2.667),
        ("coils of S1 in parallel; S1 and S2 in series", 6.0),
        ("coils of S1 in series; S1 and S2 in series", 12.0),
    ]


def test_the_greatest_numbers_that_are_tried() -> None:
    """8 coils and 6 unlike speakers are allowed; alike, 8 speakers are. All even ones: 8 in strings of 1, 2, 4, 8."""
    assert {each.ohm for each in rewirings(singles([4.0] * 8))} >= {0.5, 2.0, 8.0, 32.0}
    assert len(rewirings(singles([4.0] * 7))) == 2, "seven is prime"


def test_the_least_load_is_allowed_in_spite_of_rounding() -> None:
    """Three of 4 ohm in parallel are 4/3 ohm, in any rounding of it; a hundredth more is not allowed."""
    for least, allowed in ((4 / 3, True), (4 / 3 * (1 + 1e-12), True), (4 / 3 * 1.01, False)):
        assert rewirings(singles([4.0] * 3), least)[0].allowed is allowed
        assert (allowed_wirings(3, 4.0, least)[0].in_series == 1) is allowed
    assert rewirings(singles([4.0] * 3))[0].allowed, "without a least load all are"
    assert rewirings(singles([0.009]))[0].allowed


def test_words_of_one_coil() -> None:
    assert [each.words for each in equal_wirings(1, 4.0)] == ["one alone"]
    assert [each.words for each in equal_wirings(2, 4.0)] == ["all in parallel", "all in series"]


def test_double_coils_of_two_kinds_and_the_words_of_several() -> None:
    """Two kinds of double coils are each said by name; a network within one is in brackets."""
    words = [each.words for each in rewirings(speakers_of([[2, 4], [2, 2]]))]
    assert "coils in parallel, S1 and S2 in parallel" in words
    assert "coils of S1 in parallel, coils of S2 in series; S1 and S2 in series" in words


def test_what_it_refuses() -> None:
    with pytest.raises(ValueError, match="9 coils"):
        rewirings(singles([4.0] * 9))
    with pytest.raises(ValueError, match="10 coils"):
        rewirings(speakers_of([[2, 4]] * 5))
    with pytest.raises(ValueError, match="7 speakers that are not all alike"):
        rewirings(singles([4.0] * 6 + [8.0]))
    with pytest.raises(ValueError, match="7 speakers that are not all alike"):
        rewirings(speakers_of([[1, 4.0]] * 6 + [[2, 4.0]]))  # of like coils, one has two
    for wrong in ([], singles([0.0]), speakers_of([[0, 4]])):
        with pytest.raises(ValueError, match="more than 0 ohm"):
            rewirings(wrong)


# One double coil of 4 ohm 8 or 2; of 2 ohm 4 or 1; two of 4 ohm 1, 4 or 16 (car-audio pages, seen 2026, 16 a hand sum).
@pytest.mark.parametrize(
    ("count", "coil", "expected"),
    [(2, 4.0, [2, 8]), (2, 2.0, [1, 4]), (4, 4.0, [1, 4, 16]), (4, 2.0, [0.5, 2, 8])],
)
def test_coils_in_equal_strings(count: int, coil: float, expected: list[float]) -> None:
    assert [each.ohm for each in equal_wirings(count, coil)] == pytest.approx(expected)


def test_what_an_amplifier_of_1_ohm_allows() -> None:
    """Two subwoofers of 2 x 2 ohm on least 1 ohm: 2 ohm (strings of two) or 8 ohm, never 0.5."""
    assert [(each.ohm, each.words) for each in allowed_wirings(4, 2.0, 1.0)] == [
        (2.0, "2 strings of 2 in series"), (8.0, "all in series"),
    ]  # fmt: skip
