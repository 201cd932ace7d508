"""A scope, or the car of a job, as records: each fact with the line on which it stands."""

from __future__ import annotations

import os
from collections.abc import Iterator

from harness.model.function import CHANNELS, read_function
from harness.model.job import kind_by_name
from harness.model.scope import Record, Scope, Wish
from harness.read.conform import conform
from harness.read.nodes import Node, Rows, Table, Text, read_file
from harness.read.plugs import text_of, texts_of
from harness.read.shop import BESIDE
from harness.read.spec_scope import SCOPE
from harness.read.troubles import Troubles

_LISTS = frozenset(("fitted", "orange", "lacks", "note"))


def read_scope(path: str, troubles: Troubles) -> Scope | None:
    """The scope, or what a job says of its car; None where the file can't be read.

    A file with `wishes:` is a scope, any other is taken for a job, whose own faults are not looked for here.
    """
    root = read_file(path, troubles)
    if not isinstance(root, Table):
        return None
    job = root.get("wishes") is None and any(root.get(each) is not None for each in ("plugs", "joints", "speakers"))
    bad = set() if job else conform(root, SCOPE, troubles)
    return _Reading(root, path, bad, job, troubles).scope()


class _Reading:
    def __init__(self, root: Table, file: str, bad: set[int], job: bool, troubles: Troubles) -> None:
        self.root, self.file, self.bad, self.job, self.troubles = root, file, bad, job, troubles

    def scope(self) -> Scope:
        car = self.root.get("car")
        table = car if isinstance(car, Table) else Table(self.file, 0, 0)
        return Scope(
            file=self.file,
            title=text_of(self.root, "title"),
            car={key.value.lower(): Record(value.value, value.place) for key, value in table.items
                 if isinstance(value, Text) and key.value.lower() not in _LISTS and id(value) not in self.bad
                 and value.value.lower() != "unknown"},
            fitted=self._records(table.get("fitted")) if table.get("fitted") is not None else None,
            orange=self._records(table.get("orange")),
            features=self._features(),
            without=self._records(self.root.get("without")),
            wishes=tuple(self._wishes()),
            shop=self._shop(),
            is_job=self.job,
        )  # fmt: skip

    def _records(self, node: Node | None) -> tuple[Record, ...]:
        return tuple(Record(each.value, each.place) for each in texts_of(node) if id(each) not in self.bad)

    def _features(self) -> tuple[tuple[str, Record], ...] | None:
        node = self.root.get("features")
        if not isinstance(node, Table):
            return None
        made = []
        for key, value in node.items:
            kind = text_of(value, "kind") if isinstance(value, Table) else ""
            made.append((kind or kind_by_name(key.value), Record(key.value, key.place)))
        return tuple(made)

    def _wishes(self) -> Iterator[Wish]:
        node = self.root.get("wishes")
        for key, value in node.items if isinstance(node, Table) else ():
            if id(value) in self.bad:
                continue
            if key.value == "units" and isinstance(value, Table):
                for name, where in value.items:
                    known = where.value if isinstance(where, Text) and where.value.lower() != "unknown" else ""
                    yield Wish("unit", name.value, known, Record(name.value, name.place))
            elif isinstance(value, Text | Rows) and key.value in ("amplify", "replace", "add"):
                for each in texts_of(value, split=True):
                    function = read_function(each.value)
                    if function is None or function.channel not in CHANNELS or function.sign:
                        self.troubles.add(
                            "R09", each.place, each.value, f"“{each.value}” is no channel.",
                            "Write FL, FR, RL, RR, C or SUB, with -TW, -MID or -WF for one driver.",
                        )  # fmt: skip
                        continue
                    yield Wish(key.value, function.base, "", Record(each.value, each.place))

    def _shop(self) -> str:
        folder = os.path.dirname(self.file)
        named = text_of(self.root, "shop")
        if named:
            return os.path.normpath(os.path.join(folder, named))
        beside = os.path.join(folder, BESIDE)
        return beside if os.path.isfile(beside) else ""
