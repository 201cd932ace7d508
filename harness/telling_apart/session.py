"""One plug in hand: the maps, what was observed, which maps that strikes, and the test to make next."""

from __future__ import annotations

from functools import cached_property
from typing import NamedTuple

from harness.read.maps import Map
from harness.telling_apart.cover import Cover, least_cover, pairs_of, told_apart
from harness.telling_apart.off_limits import OffLimits
from harness.telling_apart.tests import (
    BODY,
    CAVITY,
    EMPTY,
    FILLED,
    GROUND,
    HOUSING,
    KEYING,
    LOOKS,
    NONE,
    OHM,
    OPEN,
    OTHER,
    PLUS,
    SHORT,
    SPEAKER,
    TONE,
    WAYS,
    Facts,
    Test,
)
from harness.telling_apart.trees import Plan, Probe, Trees

MOST_COVERED = 40  # maps up to which the shortest set is searched


class Observation(NamedTuple):
    """What was seen, read or heard: the answer, and its words as given."""

    test: Test
    answer: str
    words: str = ""


class Next(NamedTuple):
    """The test to make next. `sure`: each answer strikes a map; else it may, where a map says nothing of it."""

    test: Test
    sure: bool


class Session:
    """The maps with what was observed. Everything is worked out again when something changes."""

    def __init__(self, maps: tuple[Map, ...], observed: tuple[Observation, ...] = ()) -> None:
        self.facts = tuple(Facts(each) for each in maps)
        self.observed: list[Observation] = list(observed)
        self.left_out: list[Test] = []
        self._taken: list[bool] = [True] * len(self.observed)  # in order: an answer, or a test left out

    # -- what is known ----------------------------------------------------------------------------------------

    def observe(self, observation: Observation) -> None:
        """Take an answer."""
        self.observed.append(observation)
        self._taken.append(True)

    def leave_out(self, test: Test) -> None:
        """Never ask this again: it can't be seen or done."""
        self.left_out.append(test)
        self._taken.append(False)

    def back(self) -> bool:
        """Undo the last of these two; False where there is none."""
        if not self._taken:
            return False
        (self.observed if self._taken.pop() else self.left_out).pop()
        return True

    def against(self, facts: Facts) -> list[Observation]:
        """The observations that a map speaks against."""
        return [each for each in self.observed if not facts.says(each.test).allows(each.answer)]

    def standing(self) -> list[Facts]:
        """The maps that nothing observed speaks against."""
        return [each for each in self.facts if not self.against(each)]

    def nearest(self) -> list[Facts]:
        """All maps, those with the fewest observations against them first, then those with the most for them."""

        def key(at: int) -> tuple[int, int, int]:
            facts = self.facts[at]
            said = sum(not facts.says(each.test).silent for each in self.observed)
            against = len(self.against(facts))
            return (against, against - said, at)

        return [self.facts[at] for at in sorted(range(len(self.facts)), key=key)]

    # -- what to do next ---------------------------------------------------------------------------------------

    def table(self) -> Table:
        """The tests that are open on the maps that stand."""
        standing = self.standing()
        # that a wire is there leaves open which one
        asked = {each.test for each in self.observed if each.answer != FILLED} | set(self.left_out)
        tests = {test for each in standing for test in each.tests()} - asked
        limits = self.off_limits()
        return Table(standing, sorted((test for test in tests if not limits.why(test)), key=lambda test: test.order))

    def forbidden(self) -> list[tuple[Test, Facts]]:
        """Tests that would tell standing maps apart and are not made, with the map that forbids each."""
        standing = self.standing()
        limits = self.off_limits()
        found = []
        for test in sorted({test for each in standing for test in each.tests()}, key=lambda test: test.order):
            why = limits.why(test)
            if why is not None and Table(standing, [test]).apart[0]:
                found.append((test, why))
        return found

    def off_limits(self) -> OffLimits:
        """Of the maps that are this plug by its housing, ways and keying, struck out otherwise or not."""
        kinds = (HOUSING, WAYS, KEYING)
        return OffLimits(each for each in self.facts if not any(seen.test.kind in kinds for seen in self.against(each)))


class Table:
    """Maps against tests: which answers each map could give, and what follows."""

    def __init__(self, maps: list[Facts], tests: list[Test]) -> None:
        self.maps, self.tests = maps, tests
        self.everything = (1 << len(maps)) - 1
        self.answers = [self._answers(test) for test in tests]
        self.trees = Trees(
            [Probe(test.seconds, tuple(each.values())) for test, each in zip(tests, self.answers, strict=True)]
        )

    def _answers(self, test: Test) -> dict[str, int]:
        """Each answer that there can be, and the maps that could give it; those that none could give left out."""
        said = [each.says(test) for each in self.maps]
        named = {answer for each in said for answer in each.named}
        made = {}
        for answer in _ALL[test.kind] or ((test.a, test.b) if test.kind == PLUS else _named(test.kind, named)):
            mask = sum(1 << at for at, each in enumerate(said) if each.allows(answer))
            if mask:
                made[answer] = mask
        return made

    @cached_property
    def plan(self) -> Plan:
        """The best tree's first test."""
        return self.trees.plan(self.everything)

    @cached_property
    def next(self) -> Next | None:
        """The next test: one that strikes a map for certain, else one that may; None where neither is there."""
        if self.plan.test is not None:
            return Next(self.tests[self.plan.test], True)
        may = self.trees.may_split(self.everything) if len(self.maps) > 1 else None
        return Next(self.tests[may], False) if may is not None else None

    @cached_property
    def apart(self) -> list[list[tuple[int, int]]]:
        """Test by test the pairs of maps that it tells apart for certain, as one bit each."""
        pairs = pairs_of(self.everything)
        made = []
        for each in self.answers:
            mask = told_apart(tuple(each.values()), self.everything)
            made.append([pair for at, pair in enumerate(pairs) if mask >> at & 1])
        return made

    @cached_property
    def left_together(self) -> list[tuple[Facts, Facts]]:
        """The pairs of maps that no test tells apart for certain; none where there are too many to look."""
        if len(self.maps) > MOST_COVERED:
            return []
        told = {pair for pairs in self.apart for pair in pairs}
        by_bit = {1 << at: each for at, each in enumerate(self.maps)}
        return [(by_bit[one], by_bit[two]) for one, two in pairs_of(self.everything) if (one, two) not in told]

    @cached_property
    def cover(self) -> Cover | None:
        """The cheapest tests that tell all pairs apart that can be; None for more maps than are searched."""
        if len(self.maps) > MOST_COVERED:
            return None
        masks = [told_apart(tuple(each.values()), self.everything) for each in self.answers]
        return least_cover([test.seconds for test in self.tests], masks)

    def left(self, test: Test) -> dict[str, int]:
        """Each answer of a test and how many maps it leaves."""
        return {answer: mask.bit_count() for answer, mask in self.answers[self.tests.index(test)].items()}

    def alike(self) -> list[list[Facts]]:
        """Maps that give the same answers to every open test, in groups of two and more."""
        groups: dict[tuple[object, ...], list[Facts]] = {}
        for each in self.maps:
            mark = tuple((says.answers, says.filled) for test in self.tests for says in (each.says(test),))
            groups.setdefault(mark, []).append(each)
        return [group for group in groups.values() if len(group) > 1]


_ALL = {
    HOUSING: (), WAYS: (), KEYING: (), CAVITY: (), TONE: (), PLUS: (),
    OHM: (SPEAKER, OPEN, SHORT), BODY: (GROUND, OPEN),
}  # fmt: skip


def _named(kind: str, named: set[str]) -> list[str]:
    """The maps' own answers in a fixed order, then those that any test of this kind may have."""
    last = {CAVITY: [EMPTY, OTHER], TONE: [NONE, OTHER]}.get(kind, [OTHER])
    return sorted(named - set(last), key=lambda answer: (len(answer), answer) if kind == WAYS else (0, answer)) + last


def needs_parting(test: Test) -> bool:
    """Whether the plug comes off its unit for it."""
    return test.kind not in LOOKS
