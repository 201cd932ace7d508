"""Changes of a job's text, found and written by these tests alone: what a brute-force search may try.

The plan's part of the file (`joints` and the lists of fates) is taken apart into headings, rows and entries and
written anew; all other lines stay, and each line keeps the number that it had.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cached_property
from itertools import chain
from typing import Any, NamedTuple

import yaml

LISTS = ("cut", "capped", "depinned", "removed", "moved")
METHODS = ("solder", "crimp", "screw", "ring", "push", "pierce")


class Entry(NamedTuple):
    """A row or an entry of a list: its key (empty in a list), its value as text, its line."""

    key: str
    value: str
    line: int


@dataclass(frozen=True)
class Plan:
    """The part of a file that a person changes."""

    headings: tuple[tuple[str, int, tuple[Entry, ...]], ...]  # method with place and cover, line, rows
    lists: dict[str, tuple[int, tuple[Entry, ...]]] = field(default_factory=dict)


Op = tuple[Any, ...]


class Written:
    """A job's text, its plan, and texts with changes made."""

    def __init__(self, text: str) -> None:
        self.lines = text.split("\n")
        self.root = yaml.compose(text, Loader=yaml.SafeLoader)
        self.text = text
        tops = [(key.value, key.start_mark.line, value) for key, value in self.root.value]
        starts = [line for _, line, _ in tops] + [len(self.lines)]
        self.sections = {name: (starts[k], starts[k + 1]) for k, (name, _, _) in enumerate(tops)}
        self.nodes = {name: value for name, _, value in tops}
        self.plan = self._plan()

    def _plan(self) -> Plan:
        headings = []
        joints = self.nodes.get("joints")
        for key, value in joints.value if joints else ():
            rows = tuple(Entry(k.value, self._raw(v), k.start_mark.line) for k, v in value.value)
            headings.append((key.value, key.start_mark.line, rows))
        lists = {}
        for name in LISTS:
            node = self.nodes.get(name)
            if node is None:
                continue
            if isinstance(node, yaml.MappingNode):
                entries = [Entry(k.value, self._raw(v), k.start_mark.line) for k, v in node.value]
            elif isinstance(node, yaml.SequenceNode):
                entries = [Entry("", word, v.start_mark.line) for v in node.value for word in v.value.split()]
            else:
                entries = [Entry("", word, node.start_mark.line) for word in node.value.split()]
            lists[name] = (self.sections[name][0], tuple(entries))
        return Plan(tuple(headings), lists)

    def _raw(self, node: Any) -> str:
        return self.text[node.start_mark.index : node.end_mark.index].strip()

    # -- changes ---------------------------------------------------------------------------------------

    def ops(self) -> list[Op]:
        """Every single change."""
        return list(dict.fromkeys(chain(self._row_ops(), self._new_joints(), self._fate_ops())))

    def _row_ops(self) -> Iterator[Op]:
        targets = self._targets()
        for h, (method, _, rows) in enumerate(self.plan.headings):
            if method.startswith("mate"):
                yield from (("drop", h, r) for r in range(len(rows)))
                continue
            yield from (("method", h, other) for other in METHODS if other != method.split()[0])
            for r, row in enumerate(rows):
                yield ("drop", h, r)
                if row.value[:1] not in "[{":
                    yield ("turn", h, r)
                    wide = self._width(row.value.removesuffix(" reversed"))
                    fit = (target for target in targets if target != row.value and self._width(target) == wide)
                    yield from (("move", h, r, target) for target in fit)
                    if row.key.partition(".")[0] in {"spk", *(unit for unit, _ in _items(self.nodes.get("units")))}:
                        wide = self._width(row.key)
                        free = (each for each in self._terminals if each != row.key and not self._of_the_car(each))
                        yield from (("move near", h, r, each) for each in free if self._width(each) == wide)

    def _targets(self) -> list[str]:
        """What stands behind a colon now, and each terminal and pair of the units and speakers."""
        rows = [row.value for _, _, rows in self.plan.headings for row in rows if row.value[:1] not in "[{"]
        free = [each for each in self._terminals if not self._of_the_car(each)]
        return list(dict.fromkeys([value.removesuffix(" reversed") for value in rows] + free))

    @cached_property
    def _terminals(self) -> list[str]:
        made = []
        for unit, table in _items(self.nodes.get("units")):
            for heading in ("inputs", "outputs"):
                for key, _ in _items(_get(table, heading)):
                    for name in _spread(key):
                        made += [f"{unit}.{name}", f"{unit}.{name}+", f"{unit}.{name}-"]
            wakes = _get(table, "wakes")
            if wakes is not None and wakes.value.split()[0] not in ("signal", "bus"):
                made.append(f"{unit}.{wakes.value.split()[0]}")
        for key, _ in _items(self.nodes.get("speakers")):
            made += [f"spk.{name}{sign}" for name in key.split() for sign in ("", "+", "-")]
        return made

    def _leads(self) -> tuple[list[str], list[str]]:
        """Pairs and single leads of looms."""
        pairs, single = [], []
        for loom, table in _items(self.nodes.get("looms")):
            ends = [name for name, _ in _items(_get(table, "ends"))]
            for key, _ in _items(_get(table, "leads")):
                end, dot, cavity = key.rpartition(".")
                if not dot and not key[:1].isdigit():
                    single.append(f"{loom}.{key}")
                    continue
                for each in [end] if dot else ends:
                    if "/" in cavity:
                        pairs.append(f"{loom}.{each}.{cavity}")
                    single += [f"{loom}.{each}.{one}" for one in cavity.split("/")]
        return pairs, single

    def _new_joints(self) -> Iterator[Op]:
        at = next((h for h, (method, _, _) in enumerate(self.plan.headings) if not method.startswith("mate")), None)
        if at is None:
            return
        pairs, single = self._leads()
        terminals = self._terminals
        sides = [side for _, _, rows in self.plan.headings for row in rows for side in _sides(row)]
        used = {one for side in sides for one in self._single(side)}
        free = [each for each in (*pairs, *single) if not used & self._single(each)]
        targets = [each for each in terminals if not used & self._single(each) and not self._of_the_car(each)]
        for lead in free:
            for target in (*targets, *free):
                if target != lead and self._width(target) == self._width(lead):
                    yield ("join", at, lead, target)

    def _of_the_car(self, terminal: str) -> bool:
        """Whether the car's own wiring holds it: a unit that sits in a plug, a speaker that a plug's pair feeds."""
        owner, _, last = terminal.partition(".")
        if owner == "spk":
            found = self._raw(self.nodes["found"]) if "found" in self.nodes else ""
            cavities = [row for _, plug in _items(self.nodes.get("plugs")) for row in _items(_get(plug, "cavities"))]
            charted = {value.value.split()[0].upper() for _, value in cavities if value.value}
            name = last.rstrip("+-").upper()
            return name in charted or f"spk.{name}" in found.upper().replace("SPK.", "spk.")
        plugs = [plug for _, plug in _items(self.nodes.get("plugs"))]
        sits = [_get(plug, half) for plug in plugs for half in ("unit", "car")]
        return owner in {each.value for each in sits if each is not None}

    def _width(self, contact: str) -> int:
        """2 for a pair, 1 for one contact."""
        return len(self._single(contact))

    def _single(self, contact: str) -> set[str]:
        """The single contacts of a contact or pair, by cavities where it is a lead."""
        known = self._by_function.get(contact.lower(), contact.lower())
        stem, _, last = known.rpartition(".")
        if "/" in last:
            return {f"{stem}.{one}" for one in last.split("/")}
        pair = any(known == each.lower() for each in self._terminals if each[-1] not in "+-")
        return {known + "+", known + "-"} if pair and not known.endswith(".rem") else {known}

    @cached_property
    def _by_function(self) -> dict[str, str]:
        """Leads by their function: `t1.unit.fl` is `t1.unit.1/9`."""
        made: dict[str, str] = {}
        for loom, table in _items(self.nodes.get("looms")):
            ends = [name for name, _ in _items(_get(table, "ends"))]
            for key, value in _items(_get(table, "leads")):
                end, dot, cavity = key.rpartition(".")
                if not isinstance(value, yaml.ScalarNode) or (not dot and not key[:1].isdigit()):
                    continue
                function = value.value.split()[0]
                for each in [end] if dot else ends:
                    made[f"{loom}.{each}.{function}".lower()] = f"{loom}.{each}.{cavity}".lower()
                    if "/" in cavity:
                        for sign, one in zip("+-", cavity.split("/"), strict=True):
                            made[f"{loom}.{each}.{function}{sign}".lower()] = f"{loom}.{each}.{one}".lower()
        return made

    def _fate_ops(self) -> Iterator[Op]:
        pairs, single = self._leads()
        for name, (_, entries) in self.plan.lists.items():
            yield from (("back", name, e) for e in range(len(entries)))
        for lead in (*pairs, *single):
            yield ("say", "capped", lead)
            yield ("say", "depinned", lead)
        for plug, table in _items(self.nodes.get("plugs")):
            for key, _ in _items(_get(table, "cavities")):
                if "/" in key:
                    yield ("say", "cut", f"{plug}.{key}")

    def rows_at(self, lines: set[int]) -> list[Op]:
        """Those changes that stand at one of the lines (from 1)."""
        return [op for op in self.ops() if self.line_of(op) in lines]

    def line_of(self, op: Op) -> int:
        if op[0] in ("drop", "turn", "move", "move near"):
            return self.plan.headings[op[1]][2][op[2]].line + 1
        if op[0] == "back":
            return self.plan.lists[op[1]][1][op[2]].line + 1
        return 0

    # -- the text again --------------------------------------------------------------------------------

    def with_changes(self, ops: tuple[Op, ...]) -> tuple[str, tuple[int, ...]] | None:
        """The text after some changes and, for each of its lines, the one that it was; None where they clash."""
        headings: list[list[Any]] = [[method, line, dict(enumerate(rows))] for method, line, rows in self.plan.headings]
        lists: dict[str, list[Any]] = {name: [line, dict(enumerate(e))] for name, (line, e) in self.plan.lists.items()}
        for op in ops:
            if op[0] == "join":
                table = headings[op[1]][2]
                table[len(table) + 1000] = Entry(op[2], op[3], -1)
            elif op[0] == "say":
                table = lists.setdefault(op[1], [-1, {}])[1]
                table[len(table) + 1000] = Entry("", op[2], -1)
            elif op[0] == "method":
                method = headings[op[1]][0]
                headings[op[1]][0] = op[2] + method[len(method.split()[0]) :]
            elif not _row_changed(op, headings, lists):
                return None
        return self._text(headings, lists)

    def _text(self, headings: list[list[Any]], lists: dict[str, list[Any]]) -> tuple[str, tuple[int, ...]]:
        plan: dict[str, list[tuple[int, str]]] = {"joints": []}
        for method, line, rows in headings:
            if rows:
                plan["joints"].append((line, f"  {method}:"))
                plan["joints"] += [(row.line, f"    {row.key}: {row.value}") for row in rows.values()]
        if plan["joints"]:
            plan["joints"].insert(0, (self.sections["joints"][0] if "joints" in self.sections else -1, "joints:"))
        for name, (line, entries) in lists.items():
            if not entries:
                plan[name] = []
            elif any(entry.key for entry in entries.values()):
                plan[name] = [(line, f"{name}:"), *((e.line, f"  {e.key}: {e.value}") for e in entries.values())]
            else:
                plan[name] = [(line, f"{name}:"), *((e.line, f"  - {e.value}") for e in entries.values())]
        made: list[tuple[int, str]] = []
        for number, line in enumerate(self.lines):
            section = next((n for n, (start, end) in self.sections.items() if start <= number < end), "")
            if section not in plan:
                made.append((number, line))
            elif number == self.sections[section][0]:
                made += plan[section]
        made += [each for name, rows in plan.items() if name not in self.sections for each in rows]
        if made and not made[-1][1]:
            made.pop()
        return "\n".join(line for _, line in made) + "\n", tuple(number + 1 for number, _ in made)


def _row_changed(op: Op, headings: list[list[Any]], lists: dict[str, list[Any]]) -> bool:
    rows = lists[op[1]][1] if op[0] == "back" else headings[op[1]][2]
    row = rows.get(op[2])
    if row is None:
        return False
    if op[0] in ("drop", "back"):
        del rows[op[2]]
    elif op[0] == "turn":
        value = row.value
        turned = value.removesuffix(" reversed") if value.endswith(" reversed") else value + " reversed"
        rows[op[2]] = row._replace(value=turned)
    elif op[0] == "move near":
        rows[op[2]] = row._replace(key=op[3])
    else:
        rows[op[2]] = row._replace(value=op[3])
    return True


def _sides(row: Entry) -> list[str]:
    """The contacts of a row as written."""
    value = row.value.removesuffix(" reversed")
    return [row.key, *(each.strip() for each in value.strip("[]").split(","))]


def _get(node: Any, name: str) -> Any:
    return next((value for key, value in node.value if key.value == name), None)


def _items(node: Any) -> list[tuple[str, Any]]:
    return [(key.value, value) for key, value in node.value] if isinstance(node, yaml.MappingNode) else []


def _spread(key: str) -> list[str]:
    made = []
    for word in key.split():
        first, dots, last = word.partition("..")
        if not dots:
            made.append(word)
            continue
        stem = first.rstrip("0123456789")
        low, high = int(first[len(stem) :]), int(last.removeprefix(stem))
        made += [f"{stem}{number}" for number in range(low, high + 1)]
    return made
