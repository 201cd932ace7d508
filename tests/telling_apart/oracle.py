"""Maps read a second time, from the text alone, and every tree and every set of tests tried. Nothing of `harness`."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from functools import cache
from itertools import combinations
from pathlib import Path
from typing import Any

import yaml

# as the tool states them; the tests compare them with its own output
SECONDS = {"housing": 20, "ways": 20, "keying": 20, "cavity": 20, "body": 60, "ohm": 60, "tone": 180, "plus": 240}
ELSE = "something that no map names"


def cavities_of(path: Path) -> tuple[dict[str, Any], dict[str, tuple[str, str]]]:
    """The plug's table and its cavities: (function with sign, colour) by number, both "" for empty, "?" not written."""
    (plug,) = yaml.load(path.read_text(encoding="utf-8"), yaml.BaseLoader)["plugs"].values()
    made = {}
    for key, row in plug["cavities"].items():
        words = row.split()
        if "/" in key:
            for at, (cavity, sign) in enumerate(zip(key.split("/"), "+-", strict=True)):
                made[cavity] = (words[0] + sign, words[1 + at] if len(words) > 1 else "?")
        elif words[0] == "empty":
            made[key] = ("", "")
        else:
            made[key] = (words[0], words[1] if len(words) > 1 else "?")
    return plug, made


class Read:
    """One map: the answers that a plug like it could give."""

    def __init__(self, path: Path) -> None:
        self.plug, self.cavities = cavities_of(path)

    def tests(self) -> Iterator[tuple[str, str]]:
        for kind in ("housing", "ways"):
            if kind in self.plug:
                yield kind, ""
        for cavity, (function, _) in self.cavities.items():
            if function != "unknown":
                yield "cavity", cavity
            if function == "GND":
                yield "body", cavity
        for one, two in combinations(sorted(self.cavities, key=int), 2):
            if self.speaker(one, two):
                yield from ((kind, f"{one}/{two}") for kind in ("ohm", "tone", "plus"))

    def speaker(self, one: str, two: str) -> str:
        a, b = self.cavities[one][0], self.cavities[two][0]
        return a[:-1] if a[-1:] + b[-1:] in ("+-", "-+") and a[:-1] == b[:-1] else ""

    def off_limits(self) -> set[str]:
        return {cavity for cavity, (what, _) in self.cavities.items() if what == "B+"}  # a feed: live

    def could(self, test: tuple[str, str], world: set[str]) -> set[str]:
        """Those of the answers in `world` that a plug like this map could give."""
        kind, where = test
        if kind in ("housing", "ways"):
            return {self.plug[kind]} if kind in self.plug else world
        at = where.split("/")
        if kind in ("ohm", "tone") and any(self.cavities.get(cavity) == ("", "") for cavity in at):
            return {"open" if kind == "ohm" else "none"}  # no wire there: nothing conducts
        if any(cavity not in self.cavities or self.cavities[cavity][0] == "unknown" for cavity in at):
            return world
        behind = [self.cavities[cavity][0] for cavity in at]
        if kind == "cavity":
            return world - {""} if self.cavities[where][1] == "?" else {self.cavities[where][1]}
        if kind == "body":
            return {"GND": {"ground"}, "SWC": world, "B+": world}.get(behind[0], {"open"})
        heard = self.speaker(*at)
        if kind == "ohm":
            if heard:
                return {"speaker"}
            if behind == ["GND", "GND"]:
                return {"short"}
            return world if "SWC" in behind else {"open"}
        if kind == "tone":
            return {heard} if heard else world
        return {at[0] if behind[0].endswith("+") else at[1]} if heard else world


def world_of(test: tuple[str, str], maps: list[Read]) -> set[str]:
    """All answers that there can be to a test: what a map names, and what else may be found."""
    kind, where = test
    fixed = {"body": {"ground", "open"}, "ohm": {"speaker", "open", "short"}, "plus": set(where.split("/"))}
    if kind in fixed:
        return fixed[kind]
    world = {ELSE} | ({"none"} if kind == "tone" else {""} if kind == "cavity" else set())
    named = [each.could(test, set()) for each in maps]
    return world.union(*named)


class Cases:
    """The maps of some files against every test that may be made."""

    def __init__(self, paths: list[Path], *, limits: bool = True) -> None:
        maps = [Read(path) for path in paths]
        self.everything = frozenset(range(len(maps)))
        off = set().union(*(each.off_limits() for each in maps)) if limits else set()
        tests = sorted({test for each in maps for test in each.tests()})
        self.tests = [t for t in tests if t[0] in ("housing", "ways", "cavity") or not off & set(t[1].split("/"))]
        self.could = []
        for test in self.tests:
            world = world_of(test, maps)
            self.could.append([each.could(test, world) for each in maps])

    def left(self, number: int, maps: frozenset[int]) -> set[frozenset[int]]:
        """The different sets of maps that the answers of a test leave."""
        answers = set().union(*(self.could[number][at] for at in maps))
        return {frozenset(at for at in maps if answer in self.could[number][at]) for answer in answers}

    def best_tree(self) -> Fraction:
        """The least mean cost of any tree, every tree tried."""

        @cache
        def cost(maps: frozenset[int]) -> Fraction:
            found = []
            for number, test in enumerate(self.tests):
                left = self.left(number, maps)
                if maps in left:
                    continue
                total = Fraction(SECONDS[test[0]])
                for piece in left:
                    odds = sum(Fraction(1, len(maps) * sum(at in other for other in left)) for at in piece)
                    total += odds * cost(piece)
                found.append(total)
            return min(found, default=Fraction(0))

        return cost(self.everything)

    def least_set(self) -> int:
        """The least cost of tests that tell apart every two maps that can be; every set of tests tried."""
        pairs = list(combinations(sorted(self.everything), 2))
        told = [{pair for pair in pairs if not row[pair[0]] & row[pair[1]]} for row in self.could]
        wanted = set().union(*told)
        kept: dict[frozenset[tuple[int, int]], int] = {}  # of tests that tell the same, the cheapest
        for test, row in zip(self.tests, told, strict=True):
            key = frozenset(row)
            if key:
                kept[key] = min(kept.get(key, SECONDS[test[0]]), SECONDS[test[0]])
        rows = list(kept.items())
        best = sum(cost for _, cost in rows)
        for count in range(len(pairs) + 1):
            for chosen in combinations(rows, min(count, len(rows))):
                if set().union(*(row for row, _ in chosen)) == wanted:
                    best = min(best, sum(cost for _, cost in chosen))
        return best
