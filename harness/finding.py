"""What every check and the reader report, and what a whole run says."""

from __future__ import annotations

import enum
from dataclasses import dataclass
from typing import NamedTuple

from harness.place import Place


class Severity(enum.IntEnum):
    """How bad a finding is; the lower the number, the sooner it must be dealt with."""

    STOP = 0
    FIX = 1
    ASK = 2
    NOTE = 3

    @property
    def meaning(self) -> str:
        return _MEANING[self]


_MEANING = {
    Severity.STOP: "damage or danger",
    Severity.FIX: "won't work, or will come back",
    Severity.ASK: "evidence missing",
    Severity.NOTE: "good to know",
}


class Spot(NamedTuple):
    """One place of a finding: where it is written and the contact (or thing) meant, in words."""

    place: Place
    name: str


class Edit(NamedTuple):
    """One change of a line of the job file: the whole line `old` at `place` gives way to the whole line `new`.

    `old` empty: `new` is a line put in before line `place.line`; one past the last line means at the end.
    `new` empty: the line goes, with its end. Lines are without their ends and, in the first, without a BOM; a
    new line ends as the file's others do. The numbers of all edits of a mend are those of the file before any
    of them, no line has two `old`s, and several lines put in at one number stand in the order given.
    """

    place: Place
    old: str
    new: str


@dataclass(frozen=True, slots=True)
class Mend:
    """The smallest change that clears a finding: words first, then the edits of the file.

    `changes` counts what a person does (a joint undone, a lead capped), not the lines that it takes.
    """

    words: str
    edits: tuple[Edit, ...]
    changes: int = 1


class Finding(NamedTuple):
    """What a check reports. One cause, one or more places; the first place is where to look first."""

    code: str
    severity: Severity
    title: str
    places: tuple[Spot, ...]
    message: str
    do: str
    path: tuple[str, ...] = ()
    mend: Mend | None = None
    about: tuple[str, ...] = ()  # the contacts concerned

    @property
    def order(self) -> tuple[int, str, int, int, str, str]:
        """Worst first, then in the order of the files' lines."""
        place = self.places[0].place
        return (int(self.severity), place.file, place.line, place.column, self.code, self.message)


class Unchecked(NamedTuple):
    """Something that was not looked at, and why."""

    what: str
    why: str


class Counts(NamedTuple):
    """Pairs of the plugs the plan uses, each counted once: on a chart only, read with a meter, toned, and those not
    toned that a record speaks against.
    """

    charted: int
    measured: int
    toned: int
    contradicted: int = 0

    @property
    def untoned(self) -> int:
        return self.charted + self.measured + self.contradicted

    @property
    def used(self) -> int:
        return self.untoned + self.toned


@dataclass(frozen=True, slots=True)
class Report:
    """The answer to `ringout check`.

    `verdict` is one of stop, mend, consistent-not-verified, released, verified, unreadable.
    """

    verdict: str
    preset: str
    counts: Counts
    unchecked: tuple[Unchecked, ...]
    findings: tuple[Finding, ...]

    @property
    def exit_code(self) -> int:
        """0 no STOP or FIX, 1 some, 2 unreadable."""
        if self.verdict == "unreadable":
            return 2
        return 1 if any(f.severity <= Severity.FIX for f in self.findings) else 0
