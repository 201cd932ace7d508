"""The words of a scope that screen and paper share."""

from __future__ import annotations

import os
from collections.abc import Mapping

from harness.model.scope import Record, Scope
from harness.scoping.lines import UNKNOWN, Line, Rate, span
from harness.scoping.scoping import Scoping
from harness.scoping.spans import minutes_span, whole_minutes

_SHOWN = 4


def car_words(scope: Scope) -> str:
    """The car as far as it is recorded."""
    said = [scope.car[key].words for key in ("name", "year", "audio") if key in scope.car]
    return ", ".join(said) or "car not recorded"


def basis_words(line: Line) -> str:
    """The records that a line rests on: file, line and word; those of one line of a file once."""
    said: dict[str, list[str]] = {}
    for each in line.basis:
        words = said.setdefault(f"{os.path.basename(each.place.file)}:{each.place.line}", [])
        if each.words not in words:
            words.append(each.words)
    spots = [f"{where} ({' '.join(words)})" for where, words in said.items()]
    more = f" and {len(spots) - _SHOWN} more" if len(spots) > _SHOWN else ""
    return ", ".join(spots[:_SHOWN]) + more


def records_words(basis: tuple[Record, ...], names: Mapping[str, str]) -> str:
    """Records in short: `B:16-18, scope:17`, every line of every file. `names` calls files otherwise, by paths."""
    said: dict[str, set[int]] = {}
    for each in basis:
        file = names.get(each.place.file) or os.path.basename(each.place.file)
        said.setdefault(file, set()).add(each.place.line)
    return ", ".join(f"{file}:{_runs(sorted(numbers))}" for file, numbers in said.items())


def _runs(numbers: list[int]) -> str:
    """`16-18+21`."""
    made: list[list[int]] = []
    for each in numbers:
        if made and each == made[-1][-1] + 1:
            made[-1].append(each)
        else:
            made.append([each])
    return "+".join(str(run[0]) if len(run) == 1 else f"{run[0]}-{run[-1]}" for run in made)


def condition_words(line: Line) -> str:
    """What a line hangs on: a gap as it is, of other lines with an `if`."""
    return line.condition if line.kind == UNKNOWN else f"if {line.condition}"


def minutes_words(line: Line) -> str:
    """`4 to 12 min`."""
    return minutes_span(line.low_ms, line.high_ms)


def count_words(line: Line) -> str:
    """How many of a part: `2 × `, `1 to 2 × `; of a line that isn't counted nothing."""
    return f"{span(line.least, line.most)} × " if line.most else ""


def rate_words(rate: Rate) -> str:
    """`7 to 15 min`, and whose figure that is."""
    return f"{rate.what} {rate.words}, {'a default' if rate.default else 'the shop’s'}"


def range_words(scoping: Scoping) -> str:
    """The range of the whole, and what the work costs at the hourly rate."""
    low, high = scoping.low_ms, scoping.high_ms
    prices = f"{scoping.price(low).words} to {scoping.price(high).words}"
    return f"In all {whole_minutes(low, high)}; labour {prices}"


def sum_words(scoping: Scoping) -> str:
    """At which rate, and what isn't in it."""
    whose = "" if scoping.shop is not None and scoping.shop.labour else ", a default"
    return (
        f"Labour at {scoping.labour.words} an hour{whose}. Parts are counted, not priced. What is open can add to it"
        f"{'' if scoping.sifted.could else ': without a map no plug, joint, pair toned or place closed is in it'}."
    )
