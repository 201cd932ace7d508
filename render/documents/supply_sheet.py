"""The supply sheet: what each unit draws and gets, fuses and cables with their figures, loads of the outputs."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from harness.graph.shop import figure
from harness.model.contact import printed
from harness.planning.supply_table import CableLine, FuseLine, LoadLine, SupplyTable, UnitLine, supply_table
from render.blocks import Block, Caution, Cell, Column, Grid, Heading, Para, Sheet, Strong
from render.documents import document
from render.documents.wording import NOT_RECORDED, length

if TYPE_CHECKING:
    from harness.graph.wiring import Wiring
    from harness.prove import Proof

_NONE = "none"


@document("supply", title="Supply and loads", order=7)
def sheets(proof: Proof) -> Iterable[Sheet]:
    """For who lays the cables and fits the fuses: amperes, volts and ohms, each beside what it may be."""
    if proof.wiring is None:
        return
    table = supply_table(proof.wiring)
    if table.units or table.loads or table.collapsed:
        yield Sheet("supply", "Supply and loads", tuple(_blocks(proof.wiring, table)))


def _blocks(wiring: Wiring, table: SupplyTable) -> Iterator[Block]:
    if table.collapsed:
        yield Caution(f"{', '.join(table.collapsed)}: no volts satisfy this plan. No figure of the supply is given.")
    if table.units:
        volts, drop = figure(wiring, "supply").words, figure(wiring, "drop").words
        yield Para(
            f"Everything at full power at once, from {volts} at the battery. At most {drop} may be lost there and "
            "back. The body, joints, shields and the leads of looms count as nothing."
        )
        yield Grid(_UNIT_COLUMNS, tuple(_unit_row(line) for line in table.units), caption="Units")
        yield Grid(_FUSE_COLUMNS, tuple(_fuse_row(line) for line in table.fuses), caption="Fuses")
        yield Grid(_CABLE_COLUMNS, tuple(_cable_row(line) for line in table.cables), caption="Cables")
    if table.unknown:
        yield Para(f"Not counted, as nobody wrote what it draws: {', '.join(table.unknown)}.")
    if table.loads:
        yield Heading("Loads")
        yield Para(
            "Ohms as wired, at the middle of the band; what a speaker may fall to is 80 % of that (IEC 60268-5). "
            "An output is rated for nominal ohms."
        )
        yield Grid(_LOAD_COLUMNS, tuple(_load_row(line) for line in table.loads), caption="Outputs")


_UNIT_COLUMNS = (
    Column("Unit", 1.1), Column("Draws", 1), Column("How known", 2.2), Column("Lost there", 0.9),
    Column("Lost back", 0.9), Column("Gets", 0.9), Column("Alone it would need", 2.4),
)  # fmt: skip
_FUSE_COLUMNS = (
    Column("Fuse before", 2.2), Column("Fit", 1), Column("Carries", 1), Column("Its cable takes", 1.2),
    Column("Feeds", 2),
)  # fmt: skip
_CABLE_COLUMNS = (
    Column("Cable to", 2.2), Column("Length", 1.6), Column("Size", 1), Column("Carries", 1), Column("Loses", 0.9),
    Column("Fuse before it", 1.2), Column("Takes at most", 1.2),
)  # fmt: skip
_LOAD_COLUMNS = (
    Column("Output", 1.6), Column("Speakers", 1.8), Column("Ohms", 0.9), Column("May fall to", 1),
    Column("Rated for", 1), Column("Lost in wire", 1),
)  # fmt: skip


def _unit_row(line: UnitLine) -> tuple[Cell, ...]:
    return (
        Strong(line.unit), Strong(_amps(line.current_a)), line.how,
        _volts(line.feed_drop_v), _volts(line.ground_drop_v), Strong(_volts(line.left_v)), _alone(line),
    )  # fmt: skip


def _alone(line: UnitLine) -> str:
    """The size and fuse of a cable of its own, and the runner-up of each."""
    if line.size is None or line.size.chosen is None or line.length_m is None:
        return NOT_RECORDED
    chosen, thinner = line.size.chosen, line.size.thinner
    said = f"{chosen.size.text} over {length(line.length_m)} loses {_volts(chosen.drop_v)}"
    if thinner is not None:
        said += f"; {thinner.size.text} would lose {_volts(thinner.drop_v)} or take too small a fuse"
    if line.fuse is not None and line.fuse.rating_a is not None:
        said += f"; fuse {_amps(line.fuse.rating_a)}"
        said += f", next {_amps(line.fuse.runner_up_a)}" if line.fuse.runner_up_a is not None else ""
    return said


def _fuse_row(line: FuseLine) -> tuple[Cell, ...]:
    return (
        line.name, Strong(_amps(line.rating_a) if line.rating_a is not None else NOT_RECORDED), _amps(line.current_a),
        _amps(line.limit_a) if line.limit_a is not None else NOT_RECORDED, ", ".join(line.feeds) or _NONE,
    )  # fmt: skip


def _cable_row(line: CableLine) -> tuple[Cell, ...]:
    fuse = "none: up to the fuse" if math.isinf(line.fuse_a) else _amps(line.fuse_a)
    if math.isnan(line.fuse_a):
        fuse = "ground, no fuse"
    return (
        line.end, length(line.length_m) if line.length_m is not None else NOT_RECORDED, Strong(line.size),
        _amps(line.current_a), _volts(line.drop_v), fuse, _amps(line.limit_a),
    )  # fmt: skip


def _load_row(line: LoadLine) -> tuple[Cell, ...]:
    rated = NOT_RECORDED if line.rated_ohm is None else f"{_ohms(line.rated_ohm)} or more"
    return (
        Strong(printed(line.output)), ", ".join(printed(name) for name in line.speakers),
        Strong(_ohms(line.nominal_ohm)),
        _ohms(line.least_ohm), rated + (", bridged" if line.bridged and line.rated_ohm else ""),
        f"{line.wire_loss * 100:.1f} %",
    )  # fmt: skip


def _amps(value: float) -> str:
    return f"{value:.3g}\N{NO-BREAK SPACE}A"


def _volts(value: float) -> str:
    return f"{value:.2f}\N{NO-BREAK SPACE}V"


def _ohms(value: float) -> str:
    return f"{value:.3g}\N{NO-BREAK SPACE}Ω"
