"""Which things are one: sets that are put together pair by pair."""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Iterator


class Joined:
    """Disjoint sets with path halving. Things are told in the order in which they came."""

    def __init__(self, things: Iterable[Hashable] = ()) -> None:
        self._above: dict[Hashable, Hashable] = {thing: thing for thing in things}

    def add(self, thing: Hashable) -> None:
        self._above.setdefault(thing, thing)

    def __iter__(self) -> Iterator[Hashable]:
        return iter(self._above)

    def root(self, thing: Hashable) -> Hashable:
        """The thing that stands for the whole set. Raises KeyError for one that was never added."""
        above = self._above
        while above[thing] != thing:
            above[thing] = above[above[thing]]
            thing = above[thing]
        return thing

    def join(self, a: Hashable, b: Hashable) -> None:
        """Both were added before."""
        one, other = self.root(a), self.root(b)
        if one != other:
            self._above[other] = one

    def numbers(self) -> dict[Hashable, int]:
        """The number of each thing's set, in the order in which the sets' first things came."""
        sets: dict[Hashable, int] = {}
        made: dict[Hashable, int] = {}
        for thing, above in self._above.items():
            root = thing if above == thing else self.root(thing)
            number = sets.get(root)
            if number is None:
                number = sets[root] = len(sets)
            made[thing] = number
        return made
