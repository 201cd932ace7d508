"""Which test to make next: suspects with odds, tests with costs and the answer that each suspect would give.

A pure engine on numbers; it knows nothing of cars. Sets of suspects are whole numbers, one bit a suspect.
"""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from math import ceil, log2
from typing import NamedTuple

from harness.locate.chain import Cut, chain_cost

_ROLLED_OUT = 4  # of the best by gain and cost, how many are followed to the end
_MOST_ROLLED_OUT = 16  # suspects above which nobody looks ahead
_EXACT = 4  # suspects up to which every order of tests is tried


class Option(NamedTuple):
    """One test on the suspects still there: what it costs, and the suspects behind each answer (all of one set)."""

    number: int
    cost: float
    parts: tuple[int, ...]


class Chooser:
    """Chooses among tests. `odds` by suspect; `rows` by test, each the answers by suspect."""

    def __init__(self, odds: Sequence[float], rows: Sequence[Sequence[Hashable]]) -> None:
        self.odds = list(odds)
        self.everything = (1 << len(self.odds)) - 1
        self._answers: list[dict[Hashable, int]] = []
        self._alike: dict[tuple[Hashable, ...], list[int]] = {}  # tests with the same answers throughout
        for number, row in enumerate(rows):
            twins = self._alike.setdefault(tuple(row), [])
            twins.append(number)
            self._answers.append(self._parts(row) if len(twins) == 1 else self._answers[twins[0]])
        self._telling = [twins for twins in self._alike.values() if len(self._answers[twins[0]]) > 1]
        self._tables: list[list[float]] = []  # odds of each pattern of eight suspects
        for start in range(0, len(self.odds), 8):
            table = [0.0]
            for weight in self.odds[start : start + 8]:
                table += [each + weight for each in table]
            self._tables.append(table)
        self._weights: dict[int, float] = {}

    @staticmethod
    def _parts(row: Sequence[Hashable]) -> dict[Hashable, int]:
        if len(set(row)) == 1:
            return {row[0]: (1 << len(row)) - 1}
        parts: dict[Hashable, int] = {}
        for at, answer in enumerate(row):
            parts[answer] = parts.get(answer, 0) | 1 << at
        return parts

    def weight(self, suspects: int) -> float:
        """The odds of a set together."""
        known = self._weights.get(suspects)
        if known is None:
            known, rest = 0.0, suspects
            for table in self._tables:
                known += table[rest & 255]
                rest >>= 8
                if not rest:
                    break
            self._weights[suspects] = known
        return known

    def answers(self, test: int) -> dict[Hashable, int]:
        """The suspects behind each answer of a test."""
        return self._answers[test]

    def classes(self, suspects: int) -> list[int]:
        """The suspects in sets that no test splits, each set once, in the order of the first of each."""
        made = [suspects]
        for twins in self._telling:
            parts = self._answers[twins[0]].values()
            made = [piece for each in made for mask in parts if (piece := each & mask)]
        return sorted(made, key=lambda mask: mask & -mask)

    def options(self, suspects: int, costs: Sequence[float]) -> list[Option]:
        """The tests that split a set; of those that split it alike the cheapest, the first of equal ones."""
        found: dict[frozenset[int], Option] = {}
        for twins in self._telling:
            split = [piece for mask in self._answers[twins[0]].values() if (piece := mask & suspects)]
            if len(split) > 1:
                number = min(twins, key=costs.__getitem__)
                key = frozenset(split)
                known = found.get(key)
                if known is None or (costs[number], number) < (known.cost, known.number):
                    found[key] = Option(number, costs[number], tuple(split))
        return sorted(found.values())

    def next(self, suspects: int, costs: Sequence[float], most: int | None = None) -> int | None:
        """The test to make; None where no test splits the suspects.

        `most` is how many tests are to do: then a test that could leave more than the others can split is left out,
        where there is a better one.
        """
        options = self.options(suspects, costs)
        if not options:
            return None
        classes = self.classes(suspects)
        if most is not None:
            room = 1 << max(0, most - 1)
            held = [each for each in options if all(_count(classes, part) <= room for part in each.parts)]
            options = held or options
        return self._best(classes, options, self.options(suspects, costs)).number

    def _best(self, classes: list[int], allowed: list[Option], options: list[Option]) -> Option:
        look = _Look(self, classes, options)
        if len(allowed) == 1:
            return allowed[0]
        if look.chain is not None:
            return look.chain_best(allowed)
        ranked = sorted(allowed, key=lambda each: (-look.gain(each.parts) / max(each.cost, 1e-9), each.number))
        if len(classes) > _MOST_ROLLED_OUT:
            return ranked[0]
        followed = ranked if len(classes) <= _EXACT else ranked[:_ROLLED_OUT]
        whole = look.weight(look.all)
        return min(
            followed,
            key=lambda each: (
                each.cost * whole + sum(look.value(part) for part in each.parts), -look.gain(each.parts), each.number
            ),
        )  # fmt: skip


class _Look:
    """What it still costs from a set on, times the set's odds: exactly in a chain and for few, greedily for more."""

    def __init__(self, chooser: Chooser, classes: list[int], options: list[Option]) -> None:
        self.weight = chooser.weight
        self.classes = classes
        self.all = 0
        for mask in classes:
            self.all |= mask
        self.options = [(option.cost, option.parts) for option in options]
        self._values: dict[int, float] = dict.fromkeys(classes, 0.0)
        self.chain = _as_chain(classes, options)

    def gain(self, parts: Sequence[int]) -> float:
        """Bits that the answer is worth, times the odds of the whole."""
        masses = [self.weight(part) for part in parts]
        whole = sum(masses)
        return sum(mass * log2(whole / mass) for mass in masses if mass > 0) if whole > 0 else 0.0

    def chain_best(self, allowed: list[Option]) -> Option:
        """The best cut of a chain, exactly."""
        order, cuts = self.chain or ([], [])
        weights = [self.weight(mask) for mask in order]
        cost = chain_cost(weights, [cut.cost for cut in cuts])
        numbers = {each.number for each in allowed}
        last = len(order) - 1
        places = [at for at, cut in enumerate(cuts) if cut.test in numbers]
        whole = sum(weights)
        best = min(
            places,
            key=lambda at: (cuts[at].cost * whole + cost[0][at] + cost[at + 1][last], abs(2 * at + 1 - last), at),
        )
        return next(each for each in allowed if each.number == cuts[best].test)

    def value(self, suspects: int) -> float:
        known = self._values.get(suspects)
        if known is not None:
            return known
        whole = self.weight(suspects)
        few = sum(1 for mask in self.classes if mask & suspects) <= _EXACT
        made = -1.0
        best_rate = 0.0
        best: tuple[float, tuple[int, ...]] = (0.0, ())
        for cost, parts in self.options:
            split = [piece for part in parts if (piece := part & suspects)]
            if len(split) < 2:
                continue
            if few:
                here = cost * whole
                for piece in split:
                    here += self.value(piece)
                    if made >= 0.0 and here >= made:
                        break
                else:
                    made = here
                continue
            rate = self.gain(split) / cost if cost > 1e-9 else float("inf")
            if rate > best_rate:
                best_rate, best = rate, (cost, tuple(split))
        if not few:
            made = best[0] * whole + sum(self.value(piece) for piece in best[1])
        self._values[suspects] = max(made, 0.0)
        return self._values[suspects]


def _as_chain(classes: list[int], options: list[Option]) -> tuple[list[int], list[Cut]] | None:
    """The classes in a row with a cut between each two, where every test is such a cut; else None."""
    if len(options) != len(classes) - 1 or any(len(each.parts) != 2 for each in options):
        return None
    for start in _ends(classes, options):
        sides = sorted(
            ((part, each) for each in options for part in each.parts if part & start),
            key=lambda side: (_count(classes, side[0]), side[1].number),
        )
        order, before, cuts = [], 0, []
        for part, option in sides:
            step = part & ~before
            if before & ~part or _count(classes, step) != 1:
                break
            order.append(step)
            cuts.append(Cut(option.cost, option.number))
            before = part
        else:
            whole = 0
            for mask in classes:
                whole |= mask
            return [*order, whole & ~before], cuts
    return None


def _ends(classes: list[int], options: list[Option]) -> list[int]:
    """The classes that a test sets apart from all others: only they can be the ends of a chain."""
    return [mask for mask in classes if any(mask in each.parts for each in options)][:2] if len(classes) > 1 else []


def _count(classes: list[int], suspects: int) -> int:
    return sum(1 for mask in classes if mask & suspects)


def most_tests(suspects: int) -> int:
    """How many tests a set of places should take at most: halving, with a third to spare (12 places: 4 tests)."""
    return ceil(log2(suspects * 4 / 3) - 1e-9) if suspects > 1 else 0
