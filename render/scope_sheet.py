"""The scope sheet: what to find out, the risks and the work, for who quotes before the car arrives."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Mapping

from harness.scoping.lines import RISK, TIME, TITLES, UNKNOWN, Line
from harness.scoping.scoping import Scoping
from harness.scoping.telling import basis_words, car_words, condition_words, minutes_words, sum_words
from harness.scoping.variants import WHICH
from render.blocks import (
    Banner,
    Block,
    Caution,
    Cell,
    Column,
    Grid,
    Listing,
    Masthead,
    Para,
    Piece,
    Sheet,
    Strong,
    Tick,
)

_INTRO = (
    "Made from what is written in the files named. A line says on which record it rests, or what has to be found out "
    "first, and how. Nothing else is taken for granted. “B:30” is line 30 of the file of map B, “scope:9” line 9 of "
    "this scope’s own."
)
_LAST = "No promise: what nobody recorded is found out first. Local codes and a licensed person’s word come first."


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
    yield Para(_INTRO)
    yield Banner(sum_words(scoping))
    if scoping.sifted.could:
        known = tuple((Strong(each.letter), each.title or "no title", each.file) for each in scoping.sifted.could)
        columns = (Column("Map", 0.4), Column("Title", 3.0), Column("File", 3.0))
        yield Grid(columns, known, caption="Maps that it could be")
    out = [each for each in scoping.of(UNKNOWN) if not each.condition]
    if out:
        yield Listing(tuple(f"{each.words} By {basis_words(each, names)}." for each in out))
    for kind, title in TITLES.items():
        rows = tuple(_row(each, names) for each in scoping.of(kind) if each not in out)
        if rows and kind == TIME:
            columns = (Column("Minutes", 1.3), Column("For", 2.1), Column("Rests on, or to be found out", 3.2))
            yield Grid(columns, rows, caption=title)
        elif rows:
            columns = (Column("", 0.2), Column("What", 3.3), Column("Rests on, or to be found out", 3.0))
            yield Grid(columns, rows, caption=title)
    if scoping.defaults:
        columns = (Column("Figure", 1.4), Column("Taken as", 1.8), Column("Who says so", 2.0))
        own = tuple((each.what, each.words, each.source) for each in scoping.defaults)
        yield Grid(columns, own, caption="The tool’s own figures, not the shop’s")
    yield Caution(_LAST)


def _row(line: Line, names: Mapping[str, str]) -> tuple[Cell, ...]:
    why: list[Piece] = []
    if line.condition:
        said = condition_words(line)
        why.append(f"{said[:1].upper()}{said[1:]}.")
        if line.find_out != WHICH or line.kind == UNKNOWN:  # how the map is found out is said once, in its own line
            why.append(f"To be found out by: {line.find_out}.")
    if line.basis:
        why.append(f"By {basis_words(line, names)}.")
    if line.kind == TIME:
        return Strong(minutes_words(line)), line.words, tuple(why)
    what: Cell = line.words
    if line.kind == RISK:
        what = Strong(line.flag[:1].upper() + line.flag[1:], line.words)
    elif line.kind == UNKNOWN:
        what = Strong(line.words)
    return Tick(""), what, tuple(why)
