"""Plugs in the car's own wiring, where a colour may change on the way: part of the plug sheets."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from harness.model.colour import Colour
from render.blocks import Block, Cell, Column, Grid, Para, Strong
from render.documents.wording import NOT_RECORDED, name_of, or_not_recorded, swatch

if TYPE_CHECKING:
    from harness.graph.wiring import Wiring
    from harness.model.parts import Plug


def inline_blocks(wiring: Wiring, plugs: list[Plug]) -> Iterator[Block]:
    """The colours on both sides of every cavity, and where each wire comes from and goes to."""
    where = "; ".join(f"{plug.name}, {or_not_recorded(plug.where)}" for plug in plugs)
    yield Para(
        "Plugs in the car's own wiring. The colour changes here: look for the colour of the side you are on. "
        f"A plug’s name with unit or car behind it means that side of it.\nWhere: {where}."
    )
    colours = _colours_at(wiring)
    rows: list[tuple[Cell, ...]] = []
    for plug in plugs:
        for row in plug.rows:
            near, far = f"{plug.name}.unit.{row.cavity}", f"{plug.name}.car.{row.cavity}"
            rows.append(
                (
                    Strong(f"{plug.name} {row.cavity}".replace(" ", "\N{NO-BREAK SPACE}")),
                    swatch(colours.get(near, (None, ""))[0]),
                    swatch(colours.get(far, (None, ""))[0]),
                    _far_end(wiring, colours, near),
                    _far_end(wiring, colours, far),
                )
            )
    if rows:
        columns = (
            Column("Cavity", 0.1),
            Column("Colour, radio’s side", 4.4),
            Column("Colour, far side", 4.4),
            Column("Comes from", 2.0),
            Column("Goes to", 2.3),
        )
        yield Grid(columns, tuple(rows))
    idle = [plug.name for plug in plugs if not plug.rows]
    if idle:
        yield Para(f"No chain in the job runs through {', '.join(idle)}.")


def _colours_at(wiring: Wiring) -> dict[str, tuple[Colour | None, str]]:
    """Contact -> colour of the car's wire that ends there, and the contact at that wire's other end."""
    made: dict[str, tuple[Colour | None, str]] = {}
    for segment in wiring.job.segments:
        if segment.laid:
            continue
        for here, there in ((segment.a, segment.b), (segment.b, segment.a)):
            colour = segment.colour or wiring.contact(there).colour or wiring.contact(here).colour
            made.setdefault(here, (colour, there))
    return made


def _far_end(wiring: Wiring, colours: dict[str, tuple[Colour | None, str]], contact: str) -> str:
    """The other end of a wire, short: `dash 13 car`, `speaker RL+`."""
    there = colours.get(contact, (None, ""))[1]
    if not there:
        return NOT_RECORDED
    end = wiring.contact(there)
    return f"{end.owner} {end.last} {end.half}" if end.kind == "plug" else name_of(end)
