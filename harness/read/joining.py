"""Joints and mates: what is joined to what, and how."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache
from operator import eq

from harness.joints import methods
from harness.model.job import Coupling, Joint, Link, Mate
from harness.model.parts import HALVES, Loom
from harness.read.names import Group, Names, nearest
from harness.read.nodes import Node, Rows, Table, Text
from harness.read.plugs import text_of
from harness.read.troubles import Troubles
from harness.units import WireSize, quantity, wire_size

_HEADING = re.compile(r"(\w+)(?: at (.+?))?(?: with (.+))?")

# A named tuple made from a tuple: a third of the time, and there is one for every contact and line of a big job.
_new = tuple.__new__


@lru_cache(maxsize=256)
def heading(text: str) -> tuple[str, str, str]:
    """`crimp at behind the radio with heat shrink` as method, place, cover."""
    match = _HEADING.fullmatch(" ".join(text.split()))
    return (match[1].lower(), match[2] or "", match[3] or "") if match else (text, "", "")


def read_mates(node: Node | None, names: Names, looms: dict[str, Loom], troubles: Troubles) -> list[Mate]:
    """Every loom end that is plugged in, whatever heading it stands under as long as the method is mate."""
    mates: list[Mate] = []
    for key, value in _plugged(node):
        if not _is_loom(value, names):
            mates += _mates(key, value, names, looms, troubles)
    return mates


def _plugged(node: Node | None) -> Iterator[tuple[Text, Text]]:
    """What stands under the headings that plug in, row by row."""
    for head, table in node.items if isinstance(node, Table) else ():
        if not _plugs_in(heading(head.value)[0]) or not isinstance(table, Table):
            continue
        for key, value in table.items:
            if isinstance(value, Text):
                yield key, value


def read_couplings(node: Node | None, names: Names, looms: dict[str, Loom], troubles: Troubles) -> list[Coupling]:
    """Every loom end that is plugged into another loom's end: `T2.unit: T1.car`."""
    made = []
    for key, value in _plugged(node):
        if not _is_loom(value, names):
            continue
        loom = _owner(key, key.value.partition(".")[0], "loom", names)
        other = _owner(value, value.value.partition(".")[0], "loom", names)
        end, other_end = (each.value.partition(".")[2].lower() for each in (key, value))
        if not loom or not other:
            continue
        if loom == other or {end, other_end} != set(HALVES):
            troubles.add(
                "R25", key.place, key.value, "A loom's unit end goes into another one's car end.",
                f"Write {loom}.unit: {other if other != loom else 'T1'}.car.",
            )  # fmt: skip
        elif end not in looms[loom].ends or other_end not in looms[other].ends:
            without = loom if end not in looms[loom].ends else other
            troubles.add(
                "R20",
                key.place,
                key.value,
                f"{without} has no such end.",
                f"Write the end under `ends:` of {without}.",
            )
        else:
            made.append(Coupling(loom, end, other, other_end, key.place))
    return made


def _is_loom(value: Text, names: Names) -> bool:
    return names.owners.get(value.value.partition(".")[0].lower(), ("", ""))[0] == "loom"


def _mates(key: Text, value: Text, names: Names, looms: dict[str, Loom], troubles: Troubles) -> list[Mate]:
    loom_word, _, end_word = key.value.partition(".")
    plug_word, _, half_word = value.value.partition(".")
    loom = _owner(key, loom_word, "loom", names)
    plug = _owner(value, plug_word, "plug", names)
    if not loom or not plug:
        return []
    ends = looms[loom].ends
    wanted = [end_word.lower()] if end_word else list(ends)
    made = []
    for end in wanted:
        if end not in ends:
            troubles.add(
                "R20", key.place, key.value, f"{loom} has no {end} end; it has {' and '.join(ends) or 'none'}.",
                f"Write the end under `ends:` of {loom}, or correct the name.",
            )  # fmt: skip
            continue
        half = half_word.lower() or end
        if half not in HALVES:
            troubles.add(
                "R20", value.place, value.value, f"A plug has a unit side and a car side, no “{half_word}” side.",
                f"Write {plug}.unit or {plug}.car.",
            )  # fmt: skip
            continue
        made.append(Mate(loom, end, plug, half, key.place))
    return made


def _owner(node: Text, word: str, kind: str, names: Names) -> str:
    """The plug or loom of that name, or empty (and told)."""
    found, name = names.owners.get(word.lower(), ("", ""))
    if found == kind:
        return name
    if word.lower() in names.shaky:
        return ""

    if found:
        why, near = f"{name} is a {found}, and a {kind} is wanted here.", ""
    else:
        near = nearest(word, [each for has, each in names.owners.values() if has == kind])
        why = f"There is no {kind} “{word}”." + (f" Is {near} meant?" if near else "")
    names.troubles.add("R20", node.place, node.value, why, "Write LOOM: PLUG, for instance `mate: {T1: dash}`.")
    return ""


def read_joints(node: Node | None, names: Names, troubles: Troubles, bad: set[int]) -> list[Joint]:
    """Every joint that isn't a mate, in the order written."""
    joints: list[Joint] = []
    for head, table in node.items if isinstance(node, Table) else ():
        if _plugs_in(heading(head.value)[0]) or not isinstance(table, Table) or id(head) in bad:
            continue
        for key, value in table.items:
            if id(value) in bad or id(key) in bad:
                continue
            joints += _joint(key, value, head, names, troubles, len(joints))
    return joints


def _joint(key: Text, value: Node, head: Text, names: Names, troubles: Troubles, before: int) -> list[Joint]:
    """The joints of one row; one without a name of its own is called by its number, `before` of them being there."""
    method, at, cover = heading(head.value)
    name, stub, untwist, stagger, takes = "", None, None, None, None
    targets: list[Text] = []
    if isinstance(value, Table):
        name, at, cover = text_of(value, "name"), text_of(value, "at") or at, text_of(value, "cover") or cover
        stub, untwist = _length(value, "stub"), _length(value, "untwist")
        stagger, takes = _length(value, "stagger"), _sizes(text_of(value, "takes"))
        node = value.get("to")
        targets = node.items if isinstance(node, Rows) else [node] if isinstance(node, Text) else []  # type: ignore
    elif isinstance(value, Rows):
        targets = [item for item in value.items if isinstance(item, Text)]
    elif isinstance(value, Text):
        targets = [value]
    left = names.groups(key)
    if not left:
        for target in targets:  # its own faults are told in the same pass
            names.groups(target, text=target.value.removesuffix(" reversed"))
        return []
    joints: list[list[Link]] = [[] for _ in left]
    turned = False
    for target in targets:
        written = target.value.removesuffix(" reversed")
        turn = written != target.value
        turned = turned or turn
        right = names.groups(target, text=written)
        if not right:
            return []
        if not _fits(left, right, key, target, troubles):
            return []
        for links, one, other in zip(joints, left, right, strict=True):
            ends = other.contacts[::-1] if turn else other.contacts
            if any(map(eq, one.contacts, ends)):
                troubles.add(
                    "R25", target.place, target.value, f"“{key.value}” is joined to itself.",
                    "Write what it is joined to, or take the row out.",
                )  # fmt: skip
                return []
            links += [_new(Link, both) for both in zip(one.contacts, ends, strict=True)]
    second = targets[0].value if len(targets) == 1 else ", ".join(target.value for target in targets)
    text = f"{key.value}: {second}"
    if len(joints) > 1:
        name = ""
    place, whole = key.place, filter(None, joints)
    return [
        _new(
            Joint,
            (
                name or f"J{number}", method, at, cover, tuple(links), stub, untwist, turned, text, place, head.place,
                stagger, takes,
            ),
        )
        for number, links in enumerate(whole, before + 1)
    ]  # fmt: skip


def _length(table: Table, key: str) -> float | None:
    text = text_of(table, key)
    try:
        return quantity(text, "length") if text else None
    except ValueError:
        return None  # its spelling is told where the shape of the file is checked


def _sizes(text: str) -> tuple[WireSize, WireSize] | None:
    """`22..18 AWG` as the thinnest and the thickest, in whichever order they are written."""
    numbers, _, system = text.partition(" ")
    try:
        ends = [wire_size(f"{each} {system}") for each in numbers.split("..")] if text else []
    except ValueError:
        return None  # told where the shape of the file is checked
    return (min(ends, key=_area), max(ends, key=_area)) if ends else None


def _area(size: WireSize) -> float:
    return size.area_mm2


def _fits(left: list[Group], right: list[Group], key: Text, target: Text, troubles: Troubles) -> bool:
    if len(left) == 1 and len(right) == 1 and len(left[0].contacts) == len(right[0].contacts):
        return True  # nearly every joint
    if len(left) != len(right):
        why = f"“{key.value}” is {_many(left)} and “{target.value}” is {_many(right)}."
    elif any(len(a.contacts) != len(b.contacts) for a, b in zip(left, right, strict=True)):
        why = f"“{key.value}” is {_wide(left)} and “{target.value}” is {_wide(right)}."
    else:
        return True
    troubles.add("R23", target.place, target.value, why, "Join as many to as many, and a pair to a pair.")
    return False


def _many(groups: list[Group]) -> str:
    what = "pair" if len(groups[0].contacts) == 2 else "contact"
    return f"{len(groups)} {what}{'s' if len(groups) != 1 else ''}"


def _wide(groups: list[Group]) -> str:
    return "a pair" if len(groups[0].contacts) == 2 else "a single contact"


def _plugs_in(method: str) -> bool:
    """Whether rows under that heading plug looms in rather than join wires."""
    known = methods().get(method)
    return known is not None and known.plugs_in
