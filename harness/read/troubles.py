"""Collects what is wrong with the text of a job, all of it in one pass."""

from __future__ import annotations

from collections.abc import Iterable

from harness.finding import Finding, Severity, Spot
from harness.place import Place
from harness.read.refusals import REFUSALS


class Troubles:
    """Reading findings in the order met; `findings` gives them in the order of the files' lines."""

    __slots__ = ("_found", "_said", "refused")

    def __init__(self) -> None:
        self._found: list[Finding] = []
        self._said: set[str] = set()
        self.refused = False  # whether anything was refused (severity FIX or worse)

    def add(self, code: str, place: Place, name: str, message: str, do: str, also: Iterable[Spot] = ()) -> None:
        """Report `code` at `place`. `name` is the word meant; `also` are further places of the same cause."""
        refusal = REFUSALS[code]
        spots = (Spot(place, name), *also)
        self._found.append(Finding(code, refusal.severity, refusal.title, spots, message, do))
        if refusal.severity <= Severity.FIX:
            self.refused = True

    def once(self, code: str, about: str, place: Place, name: str, message: str, do: str) -> None:
        """Report `code` unless it was reported about the same thing before."""
        if f"{code} {about}" not in self._said:
            self._said.add(f"{code} {about}")
            self.add(code, place, name, message, do)

    def extend(self, other: Troubles) -> None:
        """Take over what another collector holds."""
        self._found += other._found
        self._said |= other._said
        self.refused = self.refused or other.refused

    @property
    def findings(self) -> list[Finding]:
        """Each finding once, worst first, then by file, line and column."""
        return sorted(dict.fromkeys(self._found), key=lambda finding: finding.order)

    def __len__(self) -> int:
        return len(self._found)
