"""A car that hasn't come yet: what is recorded of it and what is wished, each with the line that says so."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from harness.place import Place


class Record(NamedTuple):
    """Something that is written: the words as they stand there, and where."""

    words: str
    place: Place


class Wish(NamedTuple):
    """One wish: `amplify` or `replace` a channel, `add` one, or fit a `unit`; `where` is empty where nobody said it."""

    what: str
    name: str
    where: str
    record: Record


class Laid(NamedTuple):
    """One run of a job: whether it comes from the battery, and where it is written."""

    supply: bool
    record: Record


@dataclass(frozen=True, slots=True)
class Scope:
    """The car's facts by key (name, year, audio, ownership, drive …) and what it has, lacks, and did before.

    `fitted` and `features` are None where nobody wrote such a list; `without` are things said not to be there.
    `laid` are the runs of a job; None where there is no plan yet, and cables are counted from the wishes.
    """

    file: str
    title: str
    car: dict[str, Record]
    fitted: tuple[Record, ...] | None
    orange: tuple[Record, ...]
    features: tuple[tuple[str, Record], ...] | None  # kind, and where it is written
    without: tuple[Record, ...]
    wishes: tuple[Wish, ...]
    shop: str
    is_job: bool
    laid: tuple[Laid, ...] | None = None
