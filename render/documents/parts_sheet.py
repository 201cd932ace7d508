"""The check-off of parts: everything that the job names, counted, with a box to tick each."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING

from harness.planning.parts_list import (
    IN_LINE,
    CableSum,
    FuseCount,
    JointCount,
    PartsList,
    Passing,
    RingCount,
    parts_list,
)
from harness.units import UNITS
from render.blocks import Block, Cell, Column, Grid, Para, Sheet, Strong, Tick
from render.documents import document
from render.documents.wording import NOT_RECORDED, count, length, load_ohms, name_of, or_not_recorded, size_words

if TYPE_CHECKING:
    from harness.graph.wiring import Wiring
    from harness.model.parts import Loom, Speaker
    from harness.prove import Proof
    from harness.units import WireSize

_HOLD = "\N{NO-BREAK SPACE}"


@document("parts", title="Parts check-off", order=10)
def sheets(proof: Proof) -> Iterable[Sheet]:
    """For who gathers the parts before the car is opened."""
    yield from sheets_with(proof, ())


def sheets_with(proof: Proof, met_by: Sequence[JointCount]) -> Iterable[Sheet]:
    """The same where it is known by which methods runs are joined to cavities and leads."""
    if proof.wiring is None:
        return
    blocks = tuple(_blocks(proof.wiring, parts_list(proof.wiring), met_by))
    if blocks:
        yield Sheet(
            "parts", "Parts check-off", (Para(_INTRO), *blocks), shares=True, bases=("cable allowance", "slack")
        )


_INTRO = (
    "Counted from the job alone. Cable to cut from: the sum of the pieces of the cut list, with what is added there. "
    "Terminals at the ends of runs, ties, tape and loom sleeve are not in the job and not counted."
)


def _blocks(wiring: Wiring, parts: PartsList, met_by: Sequence[JointCount]) -> Iterator[Block]:
    things = [
        *((Strong(unit.name, unit.kind), "1", or_not_recorded(unit.where)) for unit in parts.units),
        *((Strong(loom.name, "loom"), "1", _loom(wiring, loom)) for loom in parts.looms),
        *(
            (Strong(f"speaker {each.name}", _speaker(each)), "1", or_not_recorded(each.where))
            for each in parts.speakers
        ),
    ]
    yield from _grid("Units, looms, speakers", "Where", things)
    yield from _cable_grid(parts.cables)
    fixings: list[tuple[Cell, str, Cell]] = [
        *(_fuse(each) for each in parts.fuses),
        *(_passing(each) for each in parts.passing),
        *(_rings(wiring, each) for each in parts.rings),
        *(_joint(each) for each in parts.joints),
        *_met(wiring, parts.met, met_by),
    ]
    if parts.capped:
        ends = ", ".join(name_of(wiring.contact(name)) for name in parts.capped)
        fixings.append((Strong("cap"), str(len(parts.capped)), f"on {ends}; kind of cap {NOT_RECORDED}"))
    yield from _grid("Fuses, grommets, ring terminals, joints", "For", fixings)


def _grid(caption: str, third: str, rows: Sequence[tuple[Cell, str, Cell]]) -> Iterator[Block]:
    if rows:
        columns = (Column("", 0.2), Column("Part", 1.6), Column("How many", 0.5), Column(third, 2.4))
        made = tuple((Tick(""), part, Strong(number), where) for part, number, where in rows)
        yield Grid(columns, made, caption=caption)


def _loom(wiring: Wiring, loom: Loom) -> str:
    plugs = dict.fromkeys(mate.plug for mate in wiring.job.mates if mate.loom == loom.name)
    housings = dict.fromkeys(end.housing or f"housing {NOT_RECORDED}" for end in loom.ends.values())
    return f"{', '.join(housings)}; at {', '.join(plugs) or f'plug {NOT_RECORDED}'}"


def _speaker(speaker: Speaker) -> str:
    found = speaker.successor or speaker
    ohms = f"ohms {NOT_RECORDED}"
    if found.nominal_ohm is not None:
        ohms = load_ohms(found.nominal_ohm)
    elif found.coil_ohm is not None:
        ohms = f"{found.coils} coils of {load_ohms(found.coil_ohm)}"
    return f"{speaker.new}, {ohms}"


def _cable_grid(sums: tuple[CableSum, ...]) -> Iterator[Block]:
    if sums:
        columns = (
            Column("", 0.2), Column("Cable", 1.5), Column("Sum as measured", 1.1), Column("To cut from", 1.1),
            Column("For", 1.6),
        )  # fmt: skip
        yield Grid(columns, tuple(_cable(each) for each in sums), caption="Cable")


def _cable(each: CableSum) -> tuple[Cell, ...]:
    names = {"rca": "signal cable", "fibre": "fibre"}
    made = names.get(each.kind) or size_words(each.size) + (f" {each.metal}" if each.metal else "")
    wires = "pair" if each.cores == 2 else "single"
    pieces = count(each.pieces, "piece") + (f", {wires}" if each.kind == "wire" else "")
    missing = f"{count(each.unwritten, 'piece')}: length {NOT_RECORDED}" if each.unwritten else ""
    if each.unwritten == each.pieces:
        return Tick(""), Strong(made, pieces), f"length {NOT_RECORDED}", f"measure: {NOT_RECORDED}", _uses(each)
    if each.kind != "wire":
        long = length(each.length_m / each.pieces), length(each.to_cut_m / each.pieces)
        return Tick(""), Strong(made, pieces), f"each {long[0]}", Strong(long[1], "or more, each"), _uses(each)
    measured: Cell = (length(each.length_m), missing) if missing else length(each.length_m)
    return Tick(""), Strong(made, pieces), measured, Strong(_reel(each.to_cut_m)), _uses(each)


def _reel(length_m: float) -> str:
    """`6.00 m (19.7 ft)`: never less than the pieces of the cut list come to, in either measure."""
    feet = math.ceil(length_m / UNITS["length"]["ft"] * 10 * (1 - 1e-9)) / 10
    return f"{length_m:.2f}{_HOLD}m ({feet:g}{_HOLD}ft)"


def _uses(each: CableSum) -> str:
    return ", ".join(each.uses)


def _fuse(each: FuseCount) -> tuple[Cell, str, Cell]:
    value = f"{each.rating_a:g}{_HOLD}A" if each.rating_a is not None else f"value {NOT_RECORDED}"
    held = [
        count(number, "holder in line", "holders in line") if holder == IN_LINE else f"{number} in {holder}, fuse block"
        for holder, number in each.holders
    ]
    return Strong(f"fuse {value}"), str(each.number), "; ".join(held)


def _sizes(sizes: tuple[tuple[WireSize | None, int], ...]) -> str:
    return ", ".join(f"{number} × {size_words(size)}" for size, number in sizes)


def _passing(each: Passing) -> tuple[Cell, str, Cell]:
    if each.edge == "grommet":
        return Strong("grommet"), "1", f"{each.via}: {_sizes(each.sizes)} through it; its hole {NOT_RECORDED}"
    return Strong("no grommet"), "0", f"{each.via}: {_sizes(each.sizes)} through it, {each.edge or NOT_RECORDED}"


def _rings(wiring: Wiring, each: RingCount) -> tuple[Cell, str, Cell]:
    contact = wiring.contact(each.contact)
    at = name_of(contact)
    if contact.kind == "ground":
        point = wiring.job.parts.grounds[contact.last]
        metal = f"metal {point.metal or NOT_RECORDED}, fixed by {point.fixed or f'what: {NOT_RECORDED}'}"
        at += f", {or_not_recorded(point.where)}: {metal}"
    number = sum(number for _, number in each.sizes)
    return Strong("ring terminal"), str(number), f"{_sizes(each.sizes) or 'no wire of ours'} at {at}"


def _joint(each: JointCount) -> tuple[Cell, str, Cell]:
    if each.cover:
        cover = f"{each.cover}: {each.number}"
    else:
        cover = f"cover {NOT_RECORDED}" if each.needs_cover else "no cover wanted"
    return Strong("joint", each.words), str(each.number), cover


def _met(wiring: Wiring, met: Sequence[str], by: Sequence[JointCount]) -> Iterator[tuple[Cell, str, Cell]]:
    """Where runs are joined to cavities and leads, which no row of joints tells."""
    if by:
        yield from ((each[0], each[1], f"{each[2]}; where a run is joined") for each in map(_joint, by))
    elif met:
        at = ", ".join(name_of(wiring.contact(name)) for name in met)
        yield Strong("joint", "where a run is joined"), str(len(met)), f"at {at}; method and cover {NOT_RECORDED}"
