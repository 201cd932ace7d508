"""Which names there are, and what a contact written in the file means. No guess: two hits are refused."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from harness.model.contact import Contact
from harness.model.function import pair_of, read_function
from harness.model.parts import HALVES
from harness.read.nodes import Broken, Text
from harness.read.troubles import Troubles

# A named tuple made from a tuple: a third of the time, and there is one for every contact of a big job.
_new = tuple.__new__
RESERVED = ("spk", "gnd", "battery", "chassis")
_RANGE = re.compile(r"(.*?)([0-9]+)\.\.(.*?)([0-9]+)")
_DOT = re.compile(r"(?<!\.)\.(?!\.)")


class Group(NamedTuple):
    """Contacts that belong together: one, or a pair with + (or H) first."""

    contacts: tuple[str, ...]


class Index:
    """What can follow one owner's name: its cavities or terminals, and its functions."""

    __slots__ = ("exact", "functions", "prefix")

    def __init__(self, prefix: str) -> None:
        self.prefix = prefix  # put before the last word to make the contact's name
        self.exact: dict[str, str] = {}  # lower case -> as written
        self.functions: dict[str, list[str]] = {}  # FL+ -> cavities

    def add(self, last: str, function_name: str = "") -> None:
        self.exact.setdefault(last.lower(), last)
        if function_name:
            self.functions.setdefault(function_name.lower(), []).append(last)


class NotThere(Exception):
    """The word names nothing here."""


class TwoHits(Exception):
    """The word names more than one contact; `args[0]` lists them."""


def spread(text: str) -> list[str]:
    """`in1..4` as in1 in2 in3 in4; a text without a range as itself.

    Raises ValueError where the range runs backwards or mixes names.
    """
    match = _RANGE.fullmatch(text)
    if not match:
        return [text]
    stem, first, again, last = match.groups()
    if again not in ("", stem):
        raise ValueError(f"{text!r} is no range: both ends must have the same name before the number")
    low, high = int(first), int(last)
    if low > high or high - low > 999:
        raise ValueError(f"{text!r} is no range: the first number must be the lower one")
    return [f"{stem}{number}" for number in range(low, high + 1)]


def spans(names: list[str]) -> list[str]:
    """What `spread` takes apart put together: `in1..4` for four in a row, what isn't in a row as it is."""
    made: list[tuple[str, int, int]] = []  # letters, first and last number; -1 without a number
    for name in names:
        letters = name.rstrip("0123456789")
        number = int(name[len(letters) :]) if name[len(letters) :].isdigit() and "/" not in name else -1
        if number < 0 or name != f"{letters}{number}":
            made.append((name, -1, -1))
        elif made and made[-1][0] == letters and made[-1][2] == number - 1:
            made[-1] = letters, made[-1][1], number
        else:
            made.append((letters, number, number))
    return [
        letters if first < 0 else f"{letters}{first}" + (f"..{last}" if last > first else "")
        for letters, first, last in made
    ]


def _one(index: Index, word: str) -> str:
    """The last word meant: exact name first, then a function that only one has."""
    lower = word.lower()
    if lower in index.exact:
        return index.exact[lower]
    function = read_function(word)
    hits = index.functions.get(function.name.lower(), []) if function else []
    if len(hits) > 1:
        raise TwoHits([index.prefix + hit for hit in hits])
    if not hits:
        raise NotThere(word)
    return hits[0]


def _pair(index: Index, word: str) -> tuple[str, str] | None:
    """The two contacts of a pair named without sign, or None."""
    lower = word.lower()
    if lower + "+" in index.exact and lower + "-" in index.exact:
        return index.exact[lower + "+"], index.exact[lower + "-"]
    function = read_function(word)
    both = pair_of(function) if function else None
    if both is None:
        return None
    found = []
    for half in both:
        hits = index.functions.get(half.name.lower(), [])
        if len(hits) > 1:
            raise TwoHits([index.prefix + hit for hit in hits])
        if not hits:
            return None
        found.append(hits[0])
    return found[0], found[1]


def find(index: Index, word: str, contacts: dict[str, Contact]) -> list[Group]:
    """Every group that the last word of a contact means.

    Raises NotThere, TwoHits, or ValueError for a range that is none.
    """
    if ".." in word:
        words = spread(word)
        if words == [word]:
            raise NotThere(word)
        groups = [group for each in words for group in find(index, each, contacts)]
        return _as_pairs(groups, contacts)
    exact = index.exact.get(word.lower())
    if exact is not None:
        return [_new(Group, ((index.prefix + exact,),))]
    if "/" in word:
        plus, _, minus = word.partition("/")
        return [Group((index.prefix + _one(index, plus), index.prefix + _one(index, minus)))]
    both = _pair(index, word)
    if both:
        return [Group((index.prefix + both[0], index.prefix + both[1]))]
    return [Group((index.prefix + _one(index, word),))]


def _as_pairs(groups: list[Group], contacts: dict[str, Contact]) -> list[Group]:
    """A range that makes whole pairs is taken as pairs, by sign, in the order of their first contact."""
    if any(len(group.contacts) != 1 for group in groups):
        return groups
    by_base: dict[str, dict[str, str]] = {}
    for group in groups:
        name = group.contacts[0]
        function = contacts[name].function
        if not function.sign:
            return groups
        signs = by_base.setdefault(function.base, {})
        if function.sign in signs:
            return groups
        signs[function.sign] = name
    whole = []
    for signs in by_base.values():
        first, second = signs.get("+") or signs.get("H"), signs.get("-") or signs.get("L")
        if not first or not second:
            return groups
        whole.append(Group((first, second)))
    return whole


class Names:
    """One name space for plugs, looms and units, matched without case; and their contacts."""

    def __init__(self, troubles: Troubles) -> None:
        self.troubles = troubles
        self.contacts: dict[str, Contact] = {}
        self.owners: dict[str, tuple[str, str]] = {}  # lower case -> (kind, name as written)
        self.shaky: set[str] = set()  # owners with trouble of their own: nothing about them is reported twice
        self.plug: dict[str, Index] = {}
        self.end: dict[tuple[str, str], Index] = {}  # (loom, end) and (loom, '') for leads by name
        self.unit: dict[str, Index] = {}
        self.speakers = Index("spk.")
        self.grounds = Index("gnd.")
        self.opened: dict[str, str] = {}  # plug -> what opened it
        self.cut: set[str] = set()  # PLUG.cavity

    def claim(self, kind: str, node: Text, name: str | None = None) -> bool:
        """Take a name; False (and told) where it is taken already or reserved."""
        name = node.value if name is None else name
        lower = name.lower()
        if lower in RESERVED:
            self.troubles.add(
                "R22", node.place, name, f"“{name}” is a word of the job file itself.",
                f"Give this {kind} another name, for instance {name}-1.",
            )  # fmt: skip
            return False
        if lower in self.owners:
            other_kind, other = self.owners[lower]
            self.troubles.add(
                "R22", node.place, name,
                f"“{name}” is the name of a {other_kind} already ({other}); plugs, looms and units share one list.",
                "Give one of the two another name.",
            )  # fmt: skip
            return False
        self.owners[lower] = (kind, name)
        return True

    # -- what a text means ---------------------------------------------------------------------------

    def groups(self, node: Text, half: str = "", text: str | None = None) -> list[Group]:
        """The contacts that `node` names, in groups of one or two; empty (and told) where it names none.

        `half` is the side meant where a plug's contact is written without one: 'unit', 'car' or '' for a
        plug that must still be joined.
        """
        if isinstance(node, Broken):
            return []  # refused already
        written = (node.value if text is None else text).strip()
        if written in self.contacts:  # a whole name, spelt as it is kept: nothing to look for
            return [_new(Group, ((written,),))]
        parts = _DOT.split(written) if ".." in written else written.split(".")
        try:
            return self._groups(node, written, parts, half)
        except NotThere as missing:
            self._not_there(node, written, parts, str(missing))
        except TwoHits as hits:
            self.troubles.add(
                "R21", node.place, written, f"“{written}” could be {' or '.join(hits.args[0])}.",
                "Name the one contact: a cavity (dash.car.7), a terminal, or a coil (spk.SUB.c1).",
            )  # fmt: skip
        except ValueError as wrong:
            self.troubles.add("R23", node.place, written, f"{wrong}.", "Write first..last, for instance in1..4.")
        return []

    def _groups(self, node: Text, written: str, parts: list[str], half: str) -> list[Group]:
        first = parts[0].lower()
        if first == "spk" and len(parts) in (2, 3):
            return find(self.speakers, ".".join(parts[1:]), self.contacts)
        if first == "gnd" and len(parts) == 2:
            return find(self.grounds, parts[1], self.contacts)
        if first == "battery" and len(parts) == 2 and parts[1] in ("+", "-"):
            return [Group((f"battery.{parts[1]}",))]
        kind, owner = self.owners.get(first, ("", ""))
        if kind == "plug":
            return self._of_plug(node, owner, parts, half)
        if kind == "loom" and len(parts) == 3 and (end := self.end.get((owner, parts[1].lower()))) is not None:
            return find(end, parts[2], self.contacts)
        if kind == "loom" and len(parts) == 2:
            return find(self.end[owner, ""], parts[1], self.contacts)
        if kind == "unit" and len(parts) == 2:
            return find(self.unit[owner], parts[1], self.contacts)
        raise NotThere(parts[0] if not kind else ".".join(parts[1:]))

    def _of_plug(self, node: Text, owner: str, parts: list[str], half: str) -> list[Group]:
        index = self.plug[owner]
        if len(parts) == 3 and parts[1].lower() in HALVES:
            index.prefix = f"{owner}.{parts[1].lower()}."
            return find(index, parts[2], self.contacts)
        if len(parts) != 2:
            raise NotThere(".".join(parts[1:]))
        index.prefix = f"{owner}.{half or 'car'}."
        groups = find(index, parts[1], self.contacts)
        if half:
            return groups
        parted = self.opened.get(owner, "")
        if not parted and any(f"{owner}.{name.rsplit('.', 1)[1]}" in self.cut for g in groups for name in g.contacts):
            parted = "the cut"
        if parted:
            self.troubles.add(
                "R24", node.place, node.value,
                f"{owner} is opened by {parted}, so “{node.value}” has two ends.",
                f"Write {owner}.unit.{parts[1]} (toward the unit) or {owner}.car.{parts[1]} (toward the body).",
            )  # fmt: skip
            return []
        return groups

    def _not_there(self, node: Text, written: str, parts: list[str], missing: str) -> None:
        first = parts[0].lower()
        if first in self.shaky:
            return
        kind, owner = self.owners.get(first, ("", ""))
        near = nearest(missing, self._known(kind, owner, parts, first))
        meant = f" Is {near} meant?" if near else ""
        if not kind and first not in RESERVED:
            what = f"There is no plug, loom or unit “{parts[0]}”."
        else:
            what = f"{owner or parts[0]} has no “{missing}”."
        self.troubles.add(
            "R20", node.place, written, what + meant,
            f"Correct the name, or write {'it' if not kind else 'the row'} under the right heading.",
        )  # fmt: skip

    def _known(self, kind: str, owner: str, parts: list[str], first: str) -> Iterator[str]:
        def of(index: Index) -> Iterable[str]:
            yield from index.exact.values()
            yield from index.functions

        if first == "spk":
            yield from of(self.speakers)
        elif first == "gnd":
            yield from of(self.grounds)
        elif kind == "plug":
            yield from of(self.plug[owner])
        elif kind == "unit":
            yield from of(self.unit[owner])
        elif kind == "loom":
            for (loom, end), index in self.end.items():
                if loom == owner:
                    yield from of(index)
                    yield end
        else:
            yield from (name for _, name in self.owners.values())
            yield from RESERVED


def nearest(word: str, known: Iterable[str]) -> str:
    """The known word most like `word`, or empty. Only called when something is wrong."""
    import difflib

    by_lower = {each.lower(): each for each in known}
    close = difflib.get_close_matches(word.lower(), list(by_lower), n=1, cutoff=0.6)
    return by_lower[close[0]] if close else ""
