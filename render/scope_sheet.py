"""The scope sheet: what to find out, the risks and the work, for who quotes before the car arrives."""

from __future__ import annotations

import hashlib
import os
from collections.abc import Iterator, Mapping
from pathlib import PurePath

from harness.scoping.lines import RISK, TIME, TITLES, UNKNOWN, Line, Rate
from harness.scoping.scoping import Scoping
from harness.scoping.telling import (
    car_words,
    condition_words,
    count_words,
    minutes_words,
    range_words,
    records_words,
    sum_words,
)
from harness.scoping.variants import WHICH
from harness.weighing.rates import PRACTICE
from render.blocks import (
    Banner,
    Block,
    Cell,
    Column,
    Grid,
    Masthead,
    Para,
    Sheet,
    Strong,
    Tick,
)

_INTRO = (
    "Made from nothing but what is written in the files named: “By B:30” is line 30 of the file of map B, “scope:9” "
    "line 9 of this scope’s own. No promise: what nobody recorded is found out first."
)
_CAUTIONS = (
    "Restraint wiring (often yellow) and orange high-voltage cables: never probed, joined or opened. Battery: negative "
    "off first, on last. Fuses: out until the last check. Hearing: first sounds at the lowest level."
)
_RESTS = "what it hangs on, and by which record"
_MAPS = Column("Map", 0.3), Column("Maps that it could be", 3.9), Column("File", 2.8)
_NAMED = (RISK, UNKNOWN)  # with a short name at 12 pt before their words


def sheets(scoping: Scoping) -> tuple[Sheet, ...]:
    """The one sheet of a scope."""
    return (Sheet("scope", "Scope, before the car arrives", tuple(_blocks(scoping))),)


def masthead(scoping: Scoping) -> Masthead:
    """What stands above its pages; the digest is of the scope's file."""
    open_ = sum(bool(each.condition) for each in scoping.lines)
    with open(scoping.scope.file, "rb") as stream:
        digest = hashlib.sha256(stream.read()).hexdigest()[:12]
    return Masthead(
        job=scoping.scope.title or scoping.scope.file, revision="", car=car_words(scoping.scope),
        state=f"SCOPE, {open_} OPEN", counts="", preset=scoping.shop.preset if scoping.shop else "", digest=digest,
    )  # fmt: skip


def _blocks(scoping: Scoping) -> Iterator[Block]:
    names = {each.file: each.letter for each in scoping.sifted.could} | {scoping.scope.file: "scope"}
    yield Banner(range_words(scoping))
    yield Para(f"{sum_words(scoping)} {_INTRO}{_defaults(scoping)}")
    yield Para(_CAUTIONS)
    known = [
        (Strong(each.letter), each.title or "no title", _from(scoping, each.file)) for each in scoping.sifted.could
    ]
    out = [each for each in scoping.of(UNKNOWN) if not each.condition]
    left = [
        ("out", f"Left out: {why}. By {records_words(by, names | {gone.file: 'its file'})}.", _from(scoping, gone.file))
        for gone, why, by in scoping.sifted.out
    ]
    if known or left:
        yield Grid(_MAPS, (*known, *left), fine=True)
    for kind, title in TITLES.items():
        rows = tuple(_row(each, names) for each in scoping.of(kind) if each not in out)
        if rows:
            yield Grid(_columns(kind, title), rows, fine=True)


def _from(scoping: Scoping, file: str) -> str:
    """A file's path from the scope's folder, the same wherever ringout is called."""
    try:
        return PurePath(os.path.relpath(file, os.path.dirname(os.path.abspath(scoping.scope.file)))).as_posix()
    except ValueError:  # on another drive
        return file


def _defaults(scoping: Scoping) -> str:
    """Which figures are the tool's own: those with a star, and such as stand in no line of minutes."""
    if not scoping.defaults:
        return ""
    starred = f" * is a default of the tool, not this shop’s figure: {PRACTICE}."
    general = [each for each in scoping.defaults if not _in_lines(scoping, each.what)]
    more = "".join(f" Also a default: {each.what}, {each.words} ({each.source})." for each in general)
    return f"{starred if len(general) < len(scoping.defaults) else ''}{more}"


def _in_lines(scoping: Scoping, what: str) -> bool:
    """Whether a figure stands with its star in a line of minutes."""
    return any(rate.what == what for line in scoping.of(TIME) for rate in line.rates)


def _columns(kind: str, title: str) -> tuple[Column, ...]:
    if kind == TIME:
        return Column(title, 1.0), Column("Work", 2.3), Column("One takes", 1.5), Column("By", 2.2)
    if kind in _NAMED:
        return Column("", 0.2), Column(title, 1.9), Column(f"{_RESTS[:1].upper()}{_RESTS[1:]}", 4.9)
    return Column("", 0.2), Column(f"{title}: {_RESTS}", 6.8)


def _row(line: Line, names: Mapping[str, str]) -> tuple[Cell, ...]:
    by = records_words(line.basis, names)
    said = " ".join(filter(None, (line.words, _if(line))))
    if line.kind == TIME:
        each = "; ".join(f"{_of_several(line, rate)}{rate.words}{'*' if rate.default else ''}" for rate in line.rates)
        return Strong(minutes_words(line).removesuffix(" min")), said, each, by
    rests = f" By {by}." if by else ""
    if line.kind == RISK:
        return Tick(""), Strong(line.flag[:1].upper() + line.flag[1:]), f"{said}{rests}"
    if line.kind == UNKNOWN:
        return Tick(""), Strong(line.words), f"{_if(line)}{rests}"
    return Tick(""), f"{count_words(line)}{said}{rests}"


def _of_several(line: Line, rate: Rate) -> str:
    """A figure's name, where a line was counted with more than one."""
    return f"{rate.what} " if len(line.rates) > 1 else ""


def _if(line: Line) -> str:
    """What it hangs on. How the map is found out is said once, in its own line; so is what a line of minutes shares."""
    if not line.condition:
        return ""
    said = condition_words(line)
    how = line.find_out if line.kind == UNKNOWN else line.find_out.removeprefix(WHICH).removeprefix("; ")
    told = f" Find out: {how}." if how and line.kind != TIME else ""
    return f"{said[:1].upper()}{said[1:]}.{told}"
