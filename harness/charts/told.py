"""What is said about a chart: by row and line, with the user's own line."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

# kind -> its words; all but `kept` want a person's look
KINDS = {
    "refused": "can't be read",
    "twice": "stands twice",
    "gap": "gap in the numbers",
    "outside": "outside the housing",
    "not understood": "not understood",
    "legend": "legend wanted",
    "kept": "kept as a note",
    "job": "can't take it",
}


class Told(NamedTuple):
    """One thing: `row` as a spreadsheet counts and `line` of the file, both from 1; 0 where it is the whole file."""

    kind: str
    row: int
    line: int
    message: str
    do: str
    own: str = ""

    @property
    def where(self) -> str:
        if not self.line:
            return ""
        if not self.row:
            return f"line {self.line}"
        return f"row {self.row}" if self.row == self.line else f"row {self.row} (line {self.line})"


class Refusal(Exception):
    """Nothing can be made of it; `told` has every reason that was met. `file`: the one meant, if it isn't the chart."""

    def __init__(self, told: Iterable[Told], file: str = "") -> None:
        self.told = tuple(told)
        self.file = file
        super().__init__(self.told[0].message)
