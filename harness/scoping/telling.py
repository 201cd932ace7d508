"""The words of a scope that screen and paper share."""

from __future__ import annotations

import os
from collections.abc import Mapping

from harness.model.scope import Scope
from harness.scoping.lines import UNKNOWN, Line
from harness.scoping.scoping import Scoping

_SHOWN = 4


def car_words(scope: Scope) -> str:
    """The car as far as it is recorded."""
    said = [scope.car[key].words for key in ("name", "year", "audio") if key in scope.car]
    return ", ".join(said) or "car not recorded"


def basis_words(line: Line, names: Mapping[str, str] | None = None) -> str:
    """The records that a line rests on: file, line and word; those of one line of a file once.

    `names` says files in other words, by their paths.
    """
    said: dict[str, list[str]] = {}
    for each in line.basis:
        file = (names or {}).get(each.place.file) or os.path.basename(each.place.file)
        words = said.setdefault(f"{file}:{each.place.line}", [])
        if each.words not in words:
            words.append(each.words)
    spots = [f"{where} ({' '.join(words)})" for where, words in said.items()]
    more = f" and {len(spots) - _SHOWN} more" if len(spots) > _SHOWN else ""
    return ", ".join(spots[:_SHOWN]) + more


def condition_words(line: Line) -> str:
    """What a line hangs on: a gap as it is, of other lines with an `if`."""
    return line.condition if line.kind == UNKNOWN else f"if {line.condition}"


def minutes_words(line: Line) -> str:
    """`4 to 12 min`."""
    return f"{_min(line.low_ms)} to {_min(line.high_ms)} min"


def sum_words(scoping: Scoping) -> str:
    """The range of the whole, and what the work costs at the hourly rate."""
    low, high = scoping.low_ms, scoping.high_ms
    prices = f"{scoping.price(low).words} to {scoping.price(high).words}"
    return f"In all {_min(low)} to {_min(high)} min; labour {prices}, parts not counted. What is open can add to it."


def _min(time_ms: int) -> str:
    return f"{time_ms / 60_000:.1f}".removesuffix(".0")
