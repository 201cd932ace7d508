"""What the same speakers can be wired to on one output: in series, in parallel, and every mixture of the two."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import combinations_with_replacement, product
from typing import NamedTuple

# Series adds ohms, parallel adds siemens: any circuits text; like speakers with unlike power is no shop's choice.
MOST_COILS = 8  # 522 networks of 8 alike; 1,320,064 of 8 unlike
MOST_UNLIKE = 6  # 5504 networks of 6 unlike speakers
_CLOSE = 1e-9


class Wiring(NamedTuple):
    """`strings` in parallel, each of `in_series` coils; the ohms that they make together."""

    strings: int
    in_series: int
    ohm: float

    @property
    def words(self) -> str:
        """`all in parallel`, `all in series`, `2 strings of 2 in series`."""
        if self.in_series == 1:
            return "one alone" if self.strings == 1 else "all in parallel"
        return "all in series" if self.strings == 1 else f"{self.strings} strings of {self.in_series} in series"


def equal_wirings(count: int, coil_ohm: float) -> tuple[Wiring, ...]:
    """Every way in which each of `count` equal coils gets the same power, least ohms first.

    Strings of unequal length are left out: their coils would get unequal power.
    """
    made = [
        Wiring(count // in_series, in_series, coil_ohm * in_series / (count // in_series))
        for in_series in range(1, count + 1)
        if count % in_series == 0
    ]
    return tuple(sorted(made, key=lambda wiring: wiring.ohm))


def allowed_wirings(count: int, coil_ohm: float, least_ohm: float) -> tuple[Wiring, ...]:
    """Those at or above the least load, nearest to it first."""
    return tuple(each for each in equal_wirings(count, coil_ohm) if each.ohm >= least_ohm * (1 - _CLOSE))


class Coils(NamedTuple):
    """A speaker: its name, how many coils it has, and the nominal ohms of each."""

    name: str
    many: int
    coil_ohm: float


class Rewiring(NamedTuple):
    """One way to wire them: in words, its ohms, whether the output takes it, and who gets how much.

    `shares` are of the power, one a speaker as they were given; `even` where like speakers get like power.
    """

    words: str
    ohm: float
    allowed: bool
    shares: tuple[float, ...]
    even: bool


def rewirings(
    speakers: Sequence[Coils], least_ohm: float = 0.0, *, noun: str = "speakers", uneven: bool = False
) -> tuple[Rewiring, ...]:
    """Every way to wire all of them onto one output, least ohms first.

    Of the same ohms those in parallel come first, since a speaker that fails open leaves the others playing, then
    the shortest words. The coils of one speaker get like power, and speakers that are alike have theirs wired alike.
    Ways that differ only in which of like speakers stands where are one. Like speakers get like power, unless
    `uneven` asks for the rest too. Raises ValueError for no speaker or no ohms, for more than 8 coils, for more than
    6 speakers that are not all alike.
    """
    _refuse(speakers)
    kinds = list(dict.fromkeys((each.many, each.coil_ohm) for each in speakers))
    kind_of = [kinds.index((each.many, each.coil_ohm)) for each in speakers]
    networks = _under(tuple(kind_of.count(kind) for kind in range(len(kinds))), "")
    made: list[tuple[bool, Rewiring]] = []
    for coils in product(*(equal_wirings(*kind) for kind in kinds)):
        inner = _inner_words(speakers, kind_of, coils)
        for network in networks:
            line = [[at for at, kind in enumerate(kind_of) if kind == each] for each in range(len(kinds))]
            placed = _placed(network, line)
            shares = [0.0] * len(speakers)
            ohm = _share(placed, 1.0, [coils[kind].ohm for kind in kind_of], shares)
            even = all(
                abs(shares[one] - shares[other]) <= _CLOSE
                for one in range(len(shares))
                for other in range(one)
                if kind_of[one] == kind_of[other]
            )
            if even or uneven:
                outer = _words(placed, speakers, kind_of, noun)
                words = ("; " if " of " in inner else ", ").join(filter(None, (inner, outer)))
                one_way = Rewiring(words, ohm, ohm >= least_ohm * (1 - _CLOSE), tuple(shares), even)
                made.append((network.how == "series", one_way))
    made.sort(key=lambda each: (round(each[1].ohm, 9), each[0], len(each[1].words), each[1].words))
    return tuple(one_way for _, one_way in made)


def one_of_each(made: Sequence[Rewiring]) -> tuple[Rewiring, ...]:
    """The first of every value in ohms, in their order."""
    return tuple({round(each.ohm, 9): each for each in reversed(made)}.values())[::-1]


def best(made: Sequence[Rewiring]) -> Rewiring | None:
    """The nearest at or above what the output takes, among those with like power for like speakers; None if none."""
    return next((each for each in made if each.allowed and each.even), None)


def _refuse(speakers: Sequence[Coils]) -> None:
    if not speakers or any(each.many < 1 or each.coil_ohm <= 0 for each in speakers):
        raise ValueError("a rewiring needs speakers, each with coils of more than 0 ohm")
    coils = sum(each.many for each in speakers)
    if coils > MOST_COILS:
        raise ValueError(f"{coils} coils: no more than {MOST_COILS} are tried")
    if len(speakers) > MOST_UNLIKE and len({each[1:] for each in speakers}) > 1:
        raise ValueError(f"{len(speakers)} speakers that are not all alike: no more than {MOST_UNLIKE} are tried")


class _Network(NamedTuple):
    """A speaker (`how` empty, `at` its kind, once placed its place in the list), or parts in series or parallel."""

    how: str
    at: int
    parts: tuple[_Network, ...]


_Bag = tuple[int, ...]  # how many of each kind


@lru_cache(maxsize=256)
def _under(bag: _Bag, above: str) -> tuple[_Network, ...]:
    """All networks of a bag that may stand in one wired `above`: a speaker, or one that is wired the other way."""
    if sum(bag) == 1:
        return (_Network("", bag.index(1), ()),)
    made = []
    for how in ("parallel", "series"):
        if how == above:
            continue
        for parts in _split(bag, bag):
            if len(parts) < 2:
                continue
            groups = [combinations_with_replacement(_under(part, how), many) for part, many in Counter(parts).items()]
            made += [
                _Network(how, -1, tuple(each for group in chosen for each in group)) for chosen in product(*groups)
            ]
    return tuple(made)


def _split(bag: _Bag, most: _Bag) -> Iterator[tuple[_Bag, ...]]:
    """Every way to part a bag into bags, each no greater than the one before, so that each comes once."""
    if not any(bag):
        yield ()
        return
    for part in product(*(range(count, -1, -1) for count in bag)):
        if any(part) and part <= most:
            rest = tuple(count - taken for count, taken in zip(bag, part, strict=True))
            for tail in _split(rest, part):
                yield (part, *tail)


def _placed(network: _Network, line: list[list[int]]) -> _Network:
    """The network with speakers in the place of kinds, taken from each kind's line as they come."""
    if not network.how:
        return network._replace(at=line[network.at].pop(0))
    return network._replace(parts=tuple(_placed(part, line) for part in network.parts))


def _ohm(network: _Network, ohms: Sequence[float]) -> float:
    if not network.how:
        return ohms[network.at]
    parts = [_ohm(part, ohms) for part in network.parts]
    return sum(parts) if network.how == "series" else 1 / sum(1 / part for part in parts)


def _share(network: _Network, power: float, ohms: Sequence[float], shares: list[float]) -> float:
    """Writes each speaker's share of the power; gives the ohms. In series by ohms, in parallel by siemens."""
    ohm = _ohm(network, ohms)
    if not network.how:
        shares[network.at] = power
    for part in network.parts:
        own = _ohm(part, ohms)
        _share(part, power * (own / ohm if network.how == "series" else ohm / own), ohms, shares)
    return ohm


def _inner_words(speakers: Sequence[Coils], kind_of: Sequence[int], coils: Sequence[Wiring]) -> str:
    """How the coils of double coils are wired: `coils in series`, or for each kind `coils of SUB in parallel`."""
    groups: dict[str, list[str]] = {}
    for speaker, kind in zip(speakers, kind_of, strict=True):
        if speaker.many > 1:
            words = coils[kind].words
            how = words.removeprefix("all ") if words.startswith("all ") else f"as {words}"
            groups.setdefault(how, []).append(speaker.name)
    if len(groups) == 1 and all(speaker.many > 1 for speaker in speakers):
        return f"coils {next(iter(groups))}"
    return ", ".join(f"coils of {_and(names)} {how}" for how, names in groups.items())


def _words(network: _Network, speakers: Sequence[Coils], kind_of: Sequence[int], noun: str) -> str:
    """`subs in parallel`, `(A and B in series) and C in parallel`; a double coil alone needs no words here."""
    if not network.how:
        return "" if speakers[network.at].many > 1 else "one alone"
    if len(set(kind_of)) == 1 and not any(part.how for part in network.parts):
        return f"{noun} in {network.how}"
    return _named(network, speakers)


def _named(network: _Network, speakers: Sequence[Coils]) -> str:
    if not network.how:
        return speakers[network.at].name
    names = [f"({_named(part, speakers)})" if part.how else speakers[part.at].name for part in network.parts]
    return f"{_and(names)} in {network.how}"


def _and(names: Sequence[str]) -> str:
    return " and ".join(filter(None, (", ".join(names[:-1]), names[-1])))
