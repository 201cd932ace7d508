"""The shop: what lies in its drawer and what its work costs, as written; nothing is filled in here."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import NamedTuple

from harness.model.money import Money
from harness.model.parts import Loom, Store
from harness.place import Place


class InDrawer(NamedTuple):
    """One loom or loose part of the drawer. `days` to wait for one that isn't in stock, None where nobody wrote it.

    `loom` is None for a loose part, which `name` tells: butt joint, cap, heat shrink …
    """

    name: str
    loom: Loom | None
    store: Store
    days: int | None
    place: Place


class JointTime(NamedTuple):
    """How long one joint of a method takes, in milliseconds; `at` are words of the place, empty for any other."""

    method: str
    at: str
    time_ms: int
    place: Place


class Folder(NamedTuple):
    """A folder of part files, its path from where ringout was called, and where it is named."""

    path: str
    place: Place


@dataclass(frozen=True, slots=True)
class Shop:
    """One shop file. Money of all prices is of one `currency`; times are in milliseconds.

    `works` are times by word (`mate`, `cut end off`, `pull`, `move`, `cap`), `recheck` those of looking again
    (`position`, `lock`, `tug`), `spans` the least and the most of what a scope counts (`reach a plug` …). None and
    empty where the shop has written nothing.
    """

    file: str
    place: Place
    title: str
    preset: str
    as_of: str
    job_date: str
    currency: str
    maps: tuple[Folder, ...]
    looms: dict[str, InDrawer]
    loose: dict[str, InDrawer]
    labour: Money | None  # an hour
    consumables: Money | None  # a joint
    joints: tuple[JointTime, ...]
    works: dict[str, int]
    recheck: dict[str, int]
    dash: tuple[str, ...]  # words of the places that are in the dash
    part_files: tuple[str, ...] = ()
    spans: dict[str, tuple[int, int]] = field(default_factory=dict)
