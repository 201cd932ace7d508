"""Where something was written. Everything that is read carries one of these; imports nothing of ours."""

from typing import NamedTuple


class Place(NamedTuple):
    """A spot in a file, counted as people count: the first line is 1, the first column is 1."""

    file: str
    line: int
    column: int

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}"
