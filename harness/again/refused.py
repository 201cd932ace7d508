"""Why the next car's job can't be made."""

from __future__ import annotations

from collections.abc import Iterable


class NotChanged(Exception):
    """The new file can't be written; `told` has every reason, each with its line where there is one."""

    def __init__(self, told: Iterable[str]) -> None:
        self.told = tuple(told)
        super().__init__(self.told[0])
